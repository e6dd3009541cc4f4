"""A bracket on which a beam comes down: what fails then, what waits for the gap, what pulls on it; forces are given."""

from __future__ import annotations

from types import SimpleNamespace
from typing import Any

import numpy as np
import pytest

from beamcheck.checks.brackets.body import Body
from beamcheck.checks.brackets.families.registry import family_of
from beamcheck.checks.brackets.props.beam import _weight
from beamcheck.checks.brackets.under_beam import propped
from beamcheck.checks.core.asking.question import ask
from beamcheck.checks.core.draft import Draft
from beamcheck.checks.core.result import Check

from ..brackets import STRAP, Data, bracket, fixings, structure

GAP = ask("gap", "K", "bracket.K.near.gap", beam="B")
NEAR: Data = {"beam": "B", "at": "2 ft", "closing": []}


def of(what: str, ratio: float) -> Check:
    return Check.of_ratio("bracket.bar_bending", "K", what, "c", "why", demand=ratio, capacity=1.0, kind="length")


RULE = Check.breaks_rule("bracket.bar_net_section", "K", "net section", "c", "a hole leaves nothing")
OPEN = Check.refers("bracket.heel", "K", "heel", "c", "not said", ask=ask("wall", "K", "bracket.K.fixings.wall"))


def said(
    monkeypatch: pytest.MonkeyPatch, R: float, *checks: Check, least: float = 0.0, touches: bool = True,
    weak: str = "", near: Data | None = None, rows: list[Data] | None = None,
) -> list[Check]:  # fmt: skip
    """What is said of a bar that attracts R and is pulled with `least`, whose body then has these checks."""
    here = structure()
    prop = SimpleNamespace(checks=(), assumptions=(), R=np.array([0.0, R]), R_least=np.array([0.0, least]),
                           touches=touches, open=(GAP,))  # fmt: skip
    monkeypatch.setattr("beamcheck.checks.brackets.under_beam.prop_result", lambda *given: prop)
    monkeypatch.setattr("beamcheck.checks.brackets.under_beam.fixing_checks", lambda *given: [])
    made = fixings(rows=rows or [{"below_top": "1 in", "count": 1}, {"below_top": "3 in", "count": 1}])
    piece = bracket(STRAP, role="decorative", near={**NEAR, **(near or {})}, fixings=made)
    family, seen = family_of(piece), []

    def body(loads: Any, wood: Any, context: Any) -> Body:
        seen.append(float(np.max(loads.F)))
        return Body(checks=list(checks), weak_grain=weak)

    monkeypatch.setattr(family, "body", body)
    draft = Draft("K", "bracket", "")
    assert propped(draft, family, piece.near, here) is prop  # type: ignore[arg-type]
    steel = 490.0 / 1728.0 * 1.5 * 0.25 * 11.0  # its own weight
    assert seen == ([pytest.approx(R + steel)] if R > 0.5 else [])
    return draft.checks


@pytest.mark.parametrize(("R", "counts"), [(0.5, False), (0.51, True)])
def test_a_force_above_half_a_pound_is_one(monkeypatch: pytest.MonkeyPatch, R: float, counts: bool) -> None:
    found = said(monkeypatch, R, of("bending", 1.2))
    assert [check.what for check in found] == ["as a prop: bending"] * counts


def test_what_fails_under_it_is_said_and_what_holds_is_no_news(monkeypatch: pytest.MonkeyPatch) -> None:
    """Of a prop that fails nobody asks for more; of one that does not fail what is open is asked."""
    found = said(monkeypatch, 50.0, of("bending", 1.2), of("shear", 0.9), OPEN, RULE)
    assert [check.what for check in found] == ["as a prop: bending", "as a prop: net section"]
    assert [check.what for check in said(monkeypatch, 50.0, of("shear", 0.9), OPEN)] == ["as a prop: heel"]
    weak = said(monkeypatch, 50.0, of("shear", 0.9), weak="short grain")
    assert [(check.what, check.verdict) for check in weak] == [("as a prop: grain", "fails")]
    assert weak[0].notes == ("short grain",)


def test_before_the_gap_is_known_nothing_fails_and_the_worst_is_told(monkeypatch: pytest.MonkeyPatch) -> None:
    worst = said(monkeypatch, 50.0, of("shear", 1.1), of("bending", 1.25), OPEN, touches=False)
    assert [(check.verdict, check.what, check.questions) for check in worst] == [
        ("refer", "what it would have to bear as a prop", (GAP,))]  # fmt: skip
    assert worst[0].notes == ("bending would be at 1.25 of what is allowed, if there is no gap", "why")
    rule = said(monkeypatch, 50.0, RULE, touches=False)
    assert rule[0].notes[0] == "net section would not hold, if there is no gap"
    assert said(monkeypatch, 50.0, of("bending", 0.9), OPEN, touches=False) == []


@pytest.mark.parametrize(("least", "pulled"), [(-0.5, False), (-0.51, True), (-30.0, True), (0.0, False)])
def test_a_beam_that_pulls_it_upwards_is_for_an_engineer(
    monkeypatch: pytest.MonkeyPatch, least: float, pulled: bool
) -> None:
    found = said(monkeypatch, 0.0, least=least)
    assert [check.id for check in found] == ["bracket.pulled_up"] * pulled
    assert not pulled or dict(found[0].questions[0].forces) == pytest.approx({"up": -least})
    assert least != -30.0 or "pulls it upwards with 30 lb" in found[0].notes[0]


@pytest.mark.parametrize(
    ("slot", "slots", "field"),
    [("1/2 in", (None, None), "1"), ("1/2 in", ("1/2 in", None), "2"), (None, (None, None), None)],
)
def test_a_row_without_slots_keeps_it_from_sliding(
    monkeypatch: pytest.MonkeyPatch, slot: str | None, slots: tuple[str | None, ...], field: str | None
) -> None:
    rows = [
        {"below_top": f"{1 + 2 * i} in", "count": 1} | ({"slot": one} if one else {}) for i, one in enumerate(slots)
    ]
    found = said(monkeypatch, 0.0, near={"slot": slot} if slot else None, rows=rows)
    assert [one.questions[0].field for one in found] == ([f"bracket.K.fixings.rows.{field}.slot"] if field else [])


def test_what_weighs_more_among_checks_of_one_kind() -> None:
    assert _weight(of("bending", 1.25)) == 1.25
    assert _weight(OPEN) == float("inf")
    demand = Check("K", "uplift", "c", "refer", "force", 80.0, questions=(GAP,), id="bracket.beam_lifted")
    assert _weight(demand) == 80.0
