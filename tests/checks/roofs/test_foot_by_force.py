"""The foot of a rafter under forces that are given: uplift, who holds it, seat and cut, glued wood, the tail.

The rafters are those of `test_ridge_by_force`: 2x10 at 6:12; D + S under C_D 1.15.
"""

from __future__ import annotations

import math
from dataclasses import replace
from types import SimpleNamespace
from typing import Any

import numpy as np
import pytest

from beamcheck.calc.pad import SilentPad
from beamcheck.checks.core.context import Context, Structure
from beamcheck.checks.core.result import Check
from beamcheck.checks.roofs.framed_stick import FramedStick
from beamcheck.checks.roofs.seat import _in_glued, tail_over_the_wall, wall_checks
from beamcheck.model.existing import Existing
from beamcheck.model.posts import Post

from ..houses import Data, post
from .test_ridge_by_force import TWO, Even, setting

S = math.sin(math.atan(0.5))


def foot(stick: FramedStick, context: Context, up: float = 300.0, *, tail: float = 0.0) -> dict[str, list[Check]]:
    """Checks by id, of nothing and then of one force."""
    run: Any = SimpleNamespace(rafter=stick.piece, rafter_line=Even(), tail=tail, wall_reactions=np.array([0.0, up]),
                               **vars(TWO))  # fmt: skip
    found: dict[str, list[Check]] = {}
    for check in wall_checks(run, stick, context):
        found.setdefault(check.id, []).append(check)
    return found


def on_wall(context: Context, anchor: bool = False, **said: Any) -> Context:
    """The same with more said of the wall, and the strap 'A' among the anchors."""
    wall = Existing.model_validate({"name": "wall", "what": "wall", "material": "other",
                                    "confirmed_by": "invented sheet S-1, engineer", **said})  # fmt: skip
    structure = context.structure
    anchors: Any = {"A": SimpleNamespace(name="A")} if anchor else {}
    return Context(Structure(structure.stocks, {**structure.pieces, "wall": wall}, anchors))


# ---- uplift ----------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(("lifts", "stock", "verdict"), [
    (1.0, "2x10", ""), (1.1, "2x10", "passes"), (20.0, "2x10", "passes"), (20.1, "2x10", "refer"),
    (5.5, "weak", "passes"), (5.6, "weak", "refer"), (-300.0, "2x10", ""),
])  # fmt: skip
def test_uplift_that_is_more_than_next_to_nothing(lifts: float, stock: str, verdict: str) -> None:
    """Rounding up to a pound; then up to 20 lb and a hundredth of what the wood bears (judgment)."""
    found = foot(*setting(stock=stock), -lifts)
    assert [one.verdict for one in found.get("roof.uplift", [])] == ([verdict] if verdict else [])


@pytest.mark.parametrize(("tied", "words"), [
    ("", "what holds it down is not stated"), ("strap", "held down by 'strap', which is not described"),
])  # fmt: skip
def test_uplift_is_asked_with_its_force(tied: str, words: str) -> None:
    (check,) = foot(*setting(wall={"tied_down": tied} if tied else {}), -150.0)["roof.uplift"]
    assert check.notes[0].startswith("the end lifts with 150 lb under D + S; ") and check.notes[0].endswith(words)
    (asked,) = check.questions
    assert asked.field == "rafter.R.wall.held_by" and dict(asked.forces) == {"lifts": 150.0}


def test_uplift_against_what_the_wall_is_said_to_take() -> None:
    stick, context = setting()
    (check,) = foot(stick, on_wall(context, takes_uplift="200 lb"), -150.0)["roof.uplift"]
    assert (check.demand, check.capacity, check.combination) == (150.0, 200.0, "D + S")


def test_a_strap_takes_uplift_and_what_it_is_tied_to_as_well() -> None:
    stick, context = setting(wall={"held_by": "A"})
    found = foot(stick, on_wall(context, anchor=True, takes_uplift="200 lb"), -150.0)
    assert [one.verdict for one in found["roof.uplift"]] == ["passes"]
    assert [one.demand for one in found["seat.takes_uplift"]] == [150.0]


# ---- who holds it ----------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(("wall", "field"), [
    ({"holds": "hung"}, "rafter.R.wall.held_by"), ({"holds": "fixed"}, "rafter.R.wall.holds"),
    ({"holds": "fixed", "held_by": "A"}, "rafter.R.wall.holds"), ({"holds": "hung", "held_by": "A"}, ""),
    ({"holds": "rests"}, ""), ({"holds": "rests", "held_by": "A"}, ""),
])  # fmt: skip
def test_feet_that_hang_or_are_fixed(wall: Data, field: str) -> None:
    stick, context = setting(wall=wall)
    found = foot(stick, on_wall(context, anchor=True), 320.0)
    assert [one.questions[0].field for one in found.get("roof.foot", [])] == ([field] if field else [])
    assert not field or dict(found["roof.foot"][0].questions[0].forces) == {"presses": 320.0}


def test_what_the_wall_takes_is_held_against_the_foot() -> None:
    stick, context = setting()
    found = foot(stick, on_wall(context, takes="400 lb", takes_for="each seat"), 320.0)
    assert [(one.demand, one.capacity) for one in found["seat.takes"]] == [(320.0, 400.0)]
    assert [one.verdict for one in found["seat.confirmed"]] == ["passes"]


def test_a_rafter_straight_on_a_post_is_asked_with_its_force() -> None:
    stick, context = setting(wall={"on": "P"})
    one = Post.model_validate(post(carries=[]))
    pieces = {**context.structure.pieces, "P": one}
    (check,) = foot(stick, Context(Structure(context.structure.stocks, pieces)), 320.0)["roof.foot"]
    assert check.verdict == "refer" and dict(check.questions[0].forces) == {"presses": 320.0}


# ---- seat and cut ----------------------------------------------------------------------------------------------------


def test_a_seat_that_does_not_close_is_answered_by_either_measure() -> None:
    """5 in at 6:12 are cut 2.236 in deep; 1 1/2 in deep leave 3.354 in (geometry), each to a sixteenth."""
    (check,) = foot(*setting(wall={"bearing": "5 in"}))["roof.seat_closes"]
    says = [one.sets[0] for one in check.questions[0].answers]
    assert says == [("rafter.R.seat_cut", "2 1/4 in"), ("rafter.R.wall.bearing", "3 3/8 in")]
    assert "5 in" in check.notes[0] and "2 1/4 in deep; 1 1/2 in is given" in check.notes[0]


@pytest.mark.parametrize(("seat", "cut", "fails", "closes"), [
    ("6 in", "2.3 in", False, False), ("6 in", "2.4 in", True, False), ("5.5 in", "2.3 in", False, True),
    ("6 in", None, True, True), ("5 in", None, False, True), (None, "2.4 in", True, True),
])  # fmt: skip
def test_which_of_two_measures_is_too_deep(seat: str | None, cut: str | None, fails: bool, closes: bool) -> None:
    """A quarter of 9 1/4 in is 2.3125 in; 6 in at 6:12 are 2.683 in deep: where the cut by itself is none too deep, it
    is asked which of the two was measured."""
    stick, context = setting(wall={"bearing": seat or "1 in"}, **({"seat_cut": cut} if cut else {}))
    given: Any = {} if seat else {"bearing": None}
    wall = stick.piece.wall.model_copy(update=given)  # type: ignore[union-attr]
    piece = stick.piece.model_copy(update={"wall": wall, **({} if cut else {"seat_cut": None})})
    found = foot(replace(stick, piece=piece), context)
    assert [one.verdict for one in found.get("roof.birdsmouth", [])] == (["fails"] if fails else [])
    why = f"a level seat of {seat} at this slope" if seat else "as given"
    assert all(f"({why})" in one.notes[0] for one in found.get("roof.birdsmouth", []))
    assert ("roof.seat_closes" not in found) is closes and "roof.notch_shear" in found


@pytest.mark.parametrize(("bearing", "cut", "why"), [
    ("3 in", "1 1/2 in", "level length of the seat, as given"), ("3 in", None, "level length of the seat, as given"),
    ("4 in", "1 1/2 in", "a seat cut 1 1/2 in deep is no longer at this slope"),
    (None, "1 1/2 in", "by the depth of the seat cut at this slope"),
])  # fmt: skip
def test_why_a_seat_is_as_long_as_it_counts(bearing: str | None, cut: str | None, why: str) -> None:
    stick, context = setting(wall={"bearing": bearing or "1 in"}, seat_cut=cut or "1 in")
    piece: Any = stick.piece
    wall = piece.wall.model_copy(update={} if bearing else {"bearing": None})
    piece = piece.model_copy(update={"wall": wall, **({} if cut else {"seat_cut": None})})
    (seat,) = foot(replace(stick, piece=piece), context)["roof.bearing"]
    assert [step.note for step in seat.steps if step.symbol == "l_b"] == [why]


@pytest.mark.parametrize(("up", "R"), [(320.0, 320.0), (-320.0, 0.0)])
def test_what_lifts_presses_on_no_seat(up: float, R: float) -> None:
    (seat,) = foot(*setting(), up)["roof.bearing"]
    assert seat.demand == pytest.approx(R / (1.5 * 1.5 / S))


@pytest.mark.parametrize(("depth", "tail", "verdict"), [
    (0.925, 0.0, "passes"), (0.926, 0.0, "fails"), (0.5, 0.0, "passes"), (0.5, 1.0, "fails"),
])  # fmt: skip
def test_a_birdsmouth_in_glued_wood(depth: float, tail: float, verdict: str) -> None:
    """A tenth of 9 1/4 in over the bearing, and none beside a tail (NDS 2018 5.4.5)."""
    stick, _ = setting()
    run: Any = SimpleNamespace(rafter=stick.piece, tail=tail)
    assert _in_glued(run, stick, depth).verdict == verdict


def test_only_a_tail_is_bent_over_the_wall() -> None:
    for tail, asked in ((0.0, False), (0.5, True)):
        assert ("roof.tail" in foot(*setting(wall={"at": f"{tail} in"}), tail=tail)) is asked


class Bent:
    """Bends and presses over the wall; writes down where it was asked."""

    def __init__(self, low: float, high: float, N: float, length: float) -> None:
        self.values = {"M": (low, high), "N": (N, 0.0), "V": (0.0, 0.0)}
        self.length, self.asked = length, list[tuple[float, ...]]()

    def extremes(self, what: str, *places: float) -> tuple[np.ndarray, ...]:
        self.asked.append(places)
        low, high = (np.array([0.0, one]) for one in self.values[what])
        return low, low, high, high


@pytest.mark.parametrize(("low", "high", "N", "P"), [
    (-3000.0, 1000.0, -800.0, 800.0), (-1000.0, 3000.0, -800.0, 800.0), (-3000.0, 1000.0, 500.0, 0.0),
])  # fmt: skip
@pytest.mark.parametrize(("tail", "length", "there"), [
    (40.0, 147.0, (30.75, 49.25)), (6.0, 113.0, (0.0, 15.25)), (40.0, 45.0, (30.75, 45.0)),
])  # fmt: skip
def test_what_is_left_over_the_wall(
    low: float, high: float, N: float, P: float, tail: float, length: float, there: tuple[float, float]
) -> None:
    """Eq. 3.9-3 on 7 3/4 in of 9 1/4, with the column from wall to ridge whole and the tail free to tip: l_e of a
    cantilever under any load (Table 3.3.3, memory) by its own R_B."""
    stick, _ = setting(stock="given", top_held="full length")
    line = Bent(low, high, N, length)
    run: Any = SimpleNamespace(rafter=stick.piece, rafter_line=line, tail=tail, **vars(TWO))
    pad = SilentPad()
    found = tail_over_the_wall(run, stick, 1.5, pad, slice(None))
    assert line.asked == [there, there]
    b, d, d_n, C_D = 1.5, 9.25, 7.75, 1.15
    F_cE = 0.822 * 5e5 / ((length - tail) / d) ** 2
    r = F_cE / (1000.0 * C_D)
    F_c = 1000.0 * C_D * ((1 + r) / 1.6 - math.sqrt(((1 + r) / 1.6) ** 2 - r / 0.8))
    l_e = 2.06 * tail if tail / d_n < 7.0 else 1.63 * tail + 3 * d_n
    l_e = l_e if tail / d_n <= 14.3 else 1.84 * tail
    F_bE = 1.20 * 5e5 * b**2 / (l_e * d_n)
    r = F_bE / (1000.0 * C_D)
    C_L = (1 + r) / 1.9 - math.sqrt(((1 + r) / 1.9) ** 2 - r / 0.95)
    f_c, f_b = P / (b * d_n), 3000.0 / (b * d_n**2 / 6)
    whole = (f_c / F_c) ** 2 + f_b / (1000.0 * C_D * C_L * (1 - f_c / F_cE))
    assert np.asarray(found.ratio)[1] == pytest.approx(whole, rel=1e-6) and found.capacity == 1.0
