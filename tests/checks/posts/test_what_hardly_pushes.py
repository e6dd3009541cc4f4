"""What hardly lifts or pushes the ends of a post, and what pulls on nothing: forces are given."""

from __future__ import annotations

from types import SimpleNamespace
from typing import Any

import numpy as np
import pytest

from beamcheck.checks.posts import holding
from beamcheck.checks.posts.statics import post_statics
from beamcheck.model.existing import Existing

from .test_brackets import of, on_face, with_brackets


def run(pressed: float = 0.0) -> Any:
    post = SimpleNamespace(name="P", on="footing", foot_held_by=None, head_held_by=None)
    context = SimpleNamespace(
        under=lambda name: SimpleNamespace(name=name), anchor=lambda name: None,
        structure=SimpleNamespace(pieces={}, joint_of_post=lambda name: None),
    )  # fmt: skip
    return SimpleNamespace(post=post, context=context, pressed=np.array([pressed]), combinations=[
        SimpleNamespace(name="D")])  # fmt: skip


@pytest.mark.parametrize(("push", "pressed", "capacity", "words"), [
    (10.0, 500.0, 0.0, "2 % of its load"), (10.01, 500.0, 0.0, "not stated"), (0.5, 0.0, 0.0, "2 % of its load"),
    (0.51, 0.0, 0.0, "not stated"), (75.0, 0.0, 7500.0, "any fastening"), (75.01, 0.0, 9000.0, "not stated"),
    (75.0, 0.0, 7499.0, "not stated"), (50.0, 0.0, 5000.0, "any fastening"), (50.0, 0.0, 4999.0, "not stated"),
])  # fmt: skip
def test_what_hardly_pushes_sideways(
    push: float, pressed: float, capacity: float, words: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    """2 % of its load (common practice), half a pound (rounding), 75 lb and 1 % of what it carries (judgment)."""
    monkeypatch.setattr(holding, "brackets_on", lambda run: [SimpleNamespace(name="K")])
    monkeypatch.setattr(holding, "sideways_push", lambda run: np.array([push]))
    found = list(holding._sideways(run(pressed), capacity))
    assert [words in one.notes[0] for one in found] == [True] * (2 if words == "not stated" else 1)
    assert [one.verdict for one in found] == (["refer"] * 2 if words == "not stated" else ["passes"])


@pytest.mark.parametrize(("lift", "capacity", "verdicts"), [
    (0.5, 0.0, []), (0.51, 0.0, ["refer"]), (20.0, 2000.0, ["passes"]), (20.01, 9000.0, ["refer"]),
    (20.0, 1999.0, ["refer"]), (-5.0, 0.0, []),
])  # fmt: skip
def test_what_hardly_lifts(lift: float, capacity: float, verdicts: list[str]) -> None:
    """Half a pound is rounding, 20 lb and 1 % of what it carries are next to nothing (judgment), at either end."""
    for end in (holding._foot, holding._head):
        assert [one.verdict for one in end(run(), np.array([lift]), capacity)] == verdicts


def test_what_brackets_weigh_holds_no_post_down(monkeypatch: pytest.MonkeyPatch) -> None:
    """What two of them press with is taken off; what one of them lifts with stays."""
    comes = {"K": np.array([30.0, -20.0, 0.0]), "K2": np.array([5.0, 5.0, 0.0])}
    monkeypatch.setattr(holding, "brackets_on", lambda run: [SimpleNamespace(name=name) for name in comes])
    made: Any = SimpleNamespace(P=np.array([100.0, -50.0, 7.0]), comes_from=lambda name: comes[name])
    assert holding.lifting(made).tolist() == [65.0, -55.0, 7.0]


def test_a_post_that_nothing_presses_has_no_sum() -> None:
    """Nothing is added up where the largest sum is nothing, or lifts."""
    for P in (0.0, -3.0):
        nothing: Any = SimpleNamespace(P=np.array([P]))
        assert post_statics(nothing) is None


def test_a_row_that_pulls_though_its_bracket_brings_nothing() -> None:
    """Its pull is known and counts in full: 3 x 400/(2 x 30.25)."""
    found = of(with_brackets(on_face(live=0.0, pull=400.0)), "shear between the rows of a bracket")
    assert found.demand == pytest.approx(1.5 * 400 / 5.5**2)


@pytest.mark.parametrize("live", [0.5, 0.25])
def test_a_row_whose_bracket_brings_less_than_a_pound(live: float) -> None:
    """It pulls with what it is said to under the most that comes, however little that is, and not without it."""
    found = of(with_brackets(on_face(live=live, pull=400.0)), "shear between the rows of a bracket")
    assert found.demand == pytest.approx(1.5 * 400 / 5.5**2) and found.combination == "D + L"


WALL = Existing.model_validate({"name": "footing", "what": "footing", "material": "concrete"})


@pytest.mark.parametrize(("lift", "under", "ids"), [
    (21.0, WALL, ["post.uplift_foot", "taken"]), (20.0, WALL, ["post.uplift_foot"]),
    (21.0, SimpleNamespace(name="Q"), ["post.uplift_foot"]),
])  # fmt: skip
def test_a_foot_held_by_an_anchor(lift: float, under: Any, ids: list[str], monkeypatch: pytest.MonkeyPatch) -> None:
    """The anchor is checked by itself; what it is fastened to must take what is more than next to nothing."""
    monkeypatch.setattr(holding, "uplift_taken", lambda *all: [SimpleNamespace(id="taken", verdict="refer")])
    made = run()
    made.context.anchor, made.context.under = lambda name: SimpleNamespace(name="A"), lambda name: under
    found = list(holding._foot(made, np.array([lift]), 2000.0))
    assert [one.id for one in found] == ids and found[0].verdict == "passes"
    assert "checked in anchor A" in found[0].notes[0]


@pytest.mark.parametrize(("under", "takes", "verdicts", "field"), [
    (WALL, None, ["passes", "refer"], "existing.footing.takes_uplift"),
    (WALL, 400.0, ["passes", "stated"], ""), (SimpleNamespace(name="Q"), None, ["passes", "refer"], "ruling"),
])  # fmt: skip
def test_a_foot_in_a_base(
    under: Any, takes: float | None, verdicts: list[str], field: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    """The base is checked as a joint; what takes its uplift is stated, asked of what is there, or of an engineer."""
    monkeypatch.setattr(holding, "_stated", lambda *all: SimpleNamespace(verdict="stated", questions=()))
    made = run()
    made.context.structure.joint_of_post = lambda name: SimpleNamespace(name="J")
    stated = under if takes is None else under.model_copy(update={"takes_uplift": takes})
    made.context.under = lambda name: stated
    found = list(holding._foot(made, np.array([300.0]), 1e6))
    assert [one.verdict for one in found] == verdicts and "checked in joint J" in found[0].notes[0]
    assert [one.field for one in found[1].questions] == [field] * bool(field)
