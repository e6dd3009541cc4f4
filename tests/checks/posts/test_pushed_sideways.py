"""What pushes the ends of a post sideways: who is asked, which answers, and against what it is checked.

A bracket 5 in off a post 5 1/2 in square: H = P a/l with a = 7.75 in to the axis, l = 120 in (statics of hinged ends).
"""

from __future__ import annotations

from typing import Any

import numpy as np
import pytest

from beamcheck.checks.core.context import AnyPiece, Context, Structure
from beamcheck.checks.core.result import Check
from beamcheck.checks.posts.holding import _rounded
from beamcheck.checks.posts.result import post_result
from beamcheck.model.reading.reader import job_from_data

from ..houses import FOOTING, job, post
from .test_brackets import STOCK, on_face, with_brackets


def pushed(P: float, load: float, **more: Any) -> list[Check]:
    """What is checked of the push of one bracket."""
    found = with_brackets(on_face(live=P), load=load, **more)
    return [one for one in found.checks if one.id == "post.sideways"]


@pytest.mark.parametrize(("P", "load", "words"), [
    (3000.0, 6680.0, ["2 % of its load"]), (3000.0, 6650.0, ["not stated", "not stated"]),
    (7.7, 1.0, ["2 % of its load"]),
    (1161.0, 1.0, ["any fastening of its ends"]), (1162.0, 1.0, ["not stated", "not stated"]),
])  # fmt: skip
def test_two_per_cent_of_its_load_are_held_in_any_case(P: float, load: float, words: list[str]) -> None:
    """H = 193.75 lb of 3,000 lb: 2 % of 9,687.5 lb, 3,000 and 10.5 lb of wood among them; up to 75 lb, and a
    hundredth of what the post carries, are next to nothing; half a pound is rounding (judgment)."""
    found = pushed(P, load)
    assert [next(one for one in words if one in check.notes[0]) for check in found] == words
    assert [check.verdict for check in found] == ["refer" if "stated" in one else "passes" for one in words]


def test_a_quarter_more_is_offered_of_existing_work_and_a_group_at_the_head() -> None:
    """1,500 x 7.75/120 = 96.9 lb at either end: 121.1, rounded up to 10 lb."""
    foot, head = pushed(1500.0, 1.0)
    (asked,), (other,) = foot.questions, head.questions
    assert [one.says for one in asked.answers] == ["130 lb"] and asked.field == "existing.footing.takes_sideways"
    assert other.field == "post.P.head_held_by" and not [one for one in other.answers if "lb" in one.says]
    assert asked.forces["sideways"] == other.forces["sideways"] == pytest.approx(1500 * 7.75 / 120)


@pytest.mark.parametrize(("takes", "verdict"), [("96.9 lb", "passes"), ("96.8 lb", "fails")])
def test_what_existing_work_takes_sideways(takes: str, verdict: str) -> None:
    """96.88 lb against what is stated; the head is asked all the same."""
    data = post(stock="given", height="10 ft", carries=[{"what": "test load", "live": "1 lb"}], on="slab")
    slab = {**FOOTING, "name": "slab", "takes_sideways": takes}
    whole = job_from_data(job(stock=[STOCK], post=[data], existing=[slab]))
    pieces: dict[str, AnyPiece] = {one.name: one for one in (*whole.post, *whole.existing)}
    structure = Structure({one.name: one for one in whole.stock}, pieces)
    result, down = post_result(whole.post[0], Context(structure, (on_face(live=1500.0),)))
    foot, head = (one for one in result.checks if one.id == "post.sideways")
    assert (foot.verdict, head.verdict) == (verdict, "refer")
    assert foot.demand == pytest.approx(1500 * 7.75 / 120)
    (row,) = down.rows
    assert row.largest == pytest.approx(1501 + 5 * 10 * 5.5**2 / 144) and np.isfinite(row.least)


@pytest.mark.parametrize(("force", "says"), [(0.1, "10 lb"), (10.0, "10 lb"), (10.01, "20 lb"), (1491.0, "1,500 lb")])
def test_a_figure_that_is_offered_is_rounded_up(force: float, says: str) -> None:
    assert _rounded(force) == says


@pytest.mark.parametrize("many", [1, 2, 3])
def test_brackets_push_together(many: int) -> None:
    """All the same way: the sum of P a/l."""
    found = with_brackets(*(on_face(f"K{i}", live=1500.0, off=5.0 + i) for i in range(many)), load=1.0)
    foot = next(one for one in found.checks if one.what == "sideways push at the foot")
    H = sum(1500 * (7.75 + i) / 120 for i in range(many))
    assert foot.questions[0].forces["sideways"] == pytest.approx(H)
