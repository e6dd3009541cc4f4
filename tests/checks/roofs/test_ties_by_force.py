"""Ties and what they do to their rafters, under forces that are given, on either side of each limit.

The rafter is the 2x10 of `test_ridge_by_force`, of Hem-Fir No. 2 (F_v 150 psi, Table 4A, read); D + S, C_D 1.15.
"""

from __future__ import annotations

import math
from dataclasses import replace
from types import SimpleNamespace
from typing import Any

import numpy as np
import pytest

from beamcheck.checks.core.context import Context, Structure
from beamcheck.checks.core.result import Check
from beamcheck.checks.roofs.framed_stick import framed
from beamcheck.checks.roofs.raised_tie import raised_tie_checks
from beamcheck.checks.roofs.roof import _thrust
from beamcheck.checks.roofs.tie import tie_rules
from beamcheck.model.conditions.survey import Survey
from beamcheck.model.existing import Existing
from beamcheck.model.roofs import Tie
from beamcheck.model.sticks import Cut
from beamcheck.units import show

from ..houses import WALL, Data, tie
from .test_ridge_by_force import TWO, setting

D = 9.25
SIN = math.sin(math.atan(0.5))


class Line:
    """The same force all along, least and largest under D + S; at its ends V from the left, minus V from the right."""

    def __init__(self, N: tuple[float, float] = (0.0, 0.0), V: tuple[float, float] = (0.0, 0.0), length: float = 107.0):
        self.length, self.forces, self.ends = length, {"N": N, "V": V}, V

    def extremes(self, what: str) -> tuple[np.ndarray, ...]:
        low, high = (np.array([0.0, one]) for one in self.forces[what])
        return low, low, high, high

    def at(self, what: str, place: float, side: str) -> np.ndarray:
        assert (what, side) in (("V", "right"), ("V", "left")) and place in (0.0, self.length)
        return np.array([0.0, self.ends[0] if place == 0.0 else self.ends[1]])


def run_of(tie_line: Line, rafter_line: Line | None = None, *, tail: float = 0.0, spreads: float = 0.0,
           **more: Any) -> tuple[Any, Any, Context]:  # fmt: skip
    stick, context = setting(**more)
    run = SimpleNamespace(rafter=stick.piece, tie_line=tie_line, rafter_line=rafter_line or Line(), tail=tail,
                          spreading=np.array([0.0, spreads]), thrust=np.array([0.0, -300.0]), **vars(TWO))  # fmt: skip
    return run, stick, context


def anchored(context: Context, manner: str = "wood side", heights: tuple[float, float] | None = None) -> Context:
    on = None if heights is None else SimpleNamespace(highest=heights[0], lowest=heights[1])
    anchors: Any = {"A": SimpleNamespace(name="A", manner=manner, on_girder=on)}
    return Context(Structure(context.structure.stocks, context.structure.pieces, anchors))


def a_tie(**more: Any) -> Tie:
    return Tie.model_validate(tie(**more))


def raised(heights: tuple[float, float] | None = (2.0, 5.0), *, manner: str = "wood side", height: str = "24 in",
           held: bool = True, N: tuple[float, float] = (0.0, 500.0), **of_run: Any) -> dict[str, Check]:  # fmt: skip
    run, stick, context = run_of(Line(N), **of_run)
    one = a_tie(height=height, **({"ends_held_by": "A"} if held else {}))
    return {one.id: one for one in raised_tie_checks(run, one, stick, anchored(context, manner, heights))}


def test_only_raised_ties_and_those_with_heights_are_looked_at() -> None:
    assert set(raised()) == {"roof.spread", "roof.tie_shear"}
    assert set(raised(held=False)) == {"roof.spread"}
    assert set(raised(None, height="0 in")) == set() and set(raised(height="0 in")) == {"roof.tie_shear"}
    run, stick, context = run_of(Line())
    assert list(raised_tie_checks(run, None, stick, context)) == []
    run, stick, context = run_of(Line(), stock="log")
    assert list(raised_tie_checks(run, a_tie(height="24 in"), stick, context)) == []


@pytest.mark.parametrize(("spreads", "verdict"), [(0.66, "passes"), (0.67, "refer")])
def test_feet_may_part_by_an_inch_with_creep(spreads: float, verdict: str) -> None:
    """K_cr 1.5 of seasoned wood (NDS 2018 3.5.2)."""
    check = raised(spreads=spreads)["roof.spread"]
    assert check.verdict == verdict and check.notes[0].startswith(show(1.5 * spreads, "small length"))


@pytest.mark.parametrize("N", [(-700.0, 300.0), (100.0, 700.0)])
def test_steel_in_the_tie_asks_with_its_largest_force(N: tuple[float, float]) -> None:
    check = raised(None, manner="concealed plate", N=N)["roof.tie_on_rafter"]
    (asked,) = check.questions
    assert asked.id == "R/tie_by_steel" and dict(asked.forces) == {"pull": 700.0}


def test_heights_are_proposed_in_the_upper_half() -> None:
    """From a quarter of 9 1/4 in to six tenths."""
    (asked,) = raised(None)["roof.tie_on_rafter"].questions
    ((path, value),) = asked.answers[0].sets
    assert path == "anchor.A.on_girder" and value == {"highest": "2 5/16 in", "lowest": "5 9/16 in"}


@pytest.mark.parametrize(("along", "tail", "near"), [
    (46.2, 0.0, True), (46.3, 0.0, False), (36.2, 10.0, True), (36.3, 10.0, False), (60.7, 0.0, False),
    (60.8, 0.0, True),
])  # fmt: skip
def test_shear_beside_its_fasteners(along: float, tail: float, near: bool) -> None:
    """5 d are 46 1/4 in from either end (NDS 2018 3.4.3.3): there times d_e/d squared; the largest shear either way."""
    for V in ((-400.0, 100.0), (-100.0, 400.0)):
        check = raised((2.0, 5.0), height=f"{along * SIN} in", tail=tail, rafter_line=Line(V=V))["roof.tie_shear"]
        d_e = D - 2.0
        assert check.demand == 400.0
        whole = 2 / 3 * 150.0 * 1.15 * 1.5 * d_e
        assert check.capacity == pytest.approx(whole * ((d_e / D) ** 2 if near else 1.0), rel=1e-6)


# ---- the tie itself --------------------------------------------------------------------------------------------------


def rules(line: Line, size: str | None = None, anchor: bool = False, on: Data | None = None, **of_tie: Any) -> Any:
    run, _, context = run_of(line, wall={"on": "wall"})
    stock = "log" if size == "round" else "2x10"
    one = a_tie(stock=stock, **of_tie)
    pieces = {**context.structure.pieces, "P": Existing.model_validate({**WALL, "name": "P", **(on or {})})}
    anchors: Any = {"A": SimpleNamespace(name="A")} if anchor else {}
    context = Context(Structure(context.structure.stocks, pieces, anchors))
    wood = setting(stock=stock)[0].wood
    return list(tie_rules(run, one, framed(one, wood, context), context))


def test_joints_at_its_ends_are_asked_with_pull_and_push() -> None:
    (check, *_) = rules(Line((-80.0, 300.0)))
    assert check.notes[0].startswith("300 lb under D + S must pass through each end")
    assert check.notes[0].endswith("nor for the 80 lb that press it")
    assert dict(check.questions[0].forces) == {"pulls": 300.0, "presses": 80.0}
    for N, pressed in (((-1.0, 300.0), False), ((-1.1, 300.0), True), ((5.0, 300.0), False)):
        assert ("that press it" in rules(Line(N))[0].notes[0]) is pressed
    assert dict(rules(Line((5.0, 300.0)))[0].questions[0].forces)["presses"] == 0.0
    assert dict(rules(Line((-80.0, -5.0)))[0].questions[0].forces) == {"pulls": 0.0, "presses": 80.0}
    assert rules(Line((0.0, 300.0)), anchor=True, ends_held_by="A")[0].verdict == "passes"


@pytest.mark.parametrize(("V", "R"), [((120.0, -90.0), 120.0), ((90.0, -120.0), 120.0), ((-90.0, 120.0), 0.0)])
def test_its_ends_press_on_the_plate_with_the_larger_end(V: tuple[float, float], R: float) -> None:
    """1 1/2 x 1 1/2 in (IRC R502.6, memory), across the grain of Hem-Fir, 405 psi, and on what the plate takes."""
    found = {one.id: one for one in rules(Line((0.0, 300.0), V), ends_rest_on="P", on={"takes": "500 lb"})}
    assert found["tie.bearing"].demand == pytest.approx(R / 2.25)
    assert found["tie.bearing"].capacity == pytest.approx(405.0)
    assert (found["seat.takes"].demand, found["seat.takes"].capacity) == (R, 500.0)


@pytest.mark.parametrize(("on", "counted"), [("wall", False), ("P", True), ("far wall", False)])
def test_what_the_rafter_brings_to_the_plate_counts_once(on: str, counted: bool) -> None:
    """Its own wall and that of the opposite rafter are looked at with the rafter."""
    run, stick, context = run_of(Line((0.0, 300.0), (120.0, -90.0)), other_wall="far wall")
    taken = {
        name: Existing.model_validate({**WALL, "name": name, "takes": "500 lb"}) for name in ("wall", "P", "far wall")
    }
    context = Context(Structure(context.structure.stocks, {**context.structure.pieces, **taken}))
    one = a_tie(ends_rest_on=on)
    found = [check.id for check in tie_rules(run, one, framed(one, stick.wood, context), context)]
    assert ("seat.takes" in found) is counted and "seat.confirmed" in found


def test_a_round_tie_does_not_turn_over() -> None:
    assert "tie.ends_upright" in [one.id for one in rules(Line())]
    assert "tie.ends_upright" not in [one.id for one in rules(Line(), size="round")]


# ---- thrust ----------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(("height", "verdict", "feet"), [
    ("0 in", "passes", False), ("0.1 in", "passes", True), ("15.99 in", "passes", True), ("16.01 in", "refer", True),
])  # fmt: skip
def test_ties_up_to_a_third_of_the_rise(height: str, verdict: str, feet: bool) -> None:
    """8 ft at 6:12 rise 48 in (IRC R802.5.2)."""
    run, *_ = run_of(Line(), spreads=0.2)
    (check,) = _thrust(run, a_tie(height=height))
    assert check.verdict == verdict and ("the feet move 0.2 in apart before creep" in check.notes[0]) is feet


@pytest.mark.parametrize(("said", "field"), [("", "rafter.R.tie"), ("buttress", "ruling")])
def test_thrust_is_asked_with_its_size_whichever_way_it_is_counted(said: str, field: str) -> None:
    run, *_ = run_of(Line(), thrust_resisted_by=said)
    (check,) = _thrust(run, None)
    assert check.notes[0].startswith("each pair pushes its walls apart with 300 lb under D + S")
    assert check.questions[0].field == field and dict(check.questions[0].forces) == {"pushes out": 300.0}


NOTCH: Data = {"kind": "notch", "at": "3 ft", "depth": "1 in", "length": "2 in", "face": "top"}


@pytest.mark.parametrize("found", [(), (NOTCH,)])
def test_a_surveyed_stick_has_the_cuts_that_were_found(found: tuple[Data, ...]) -> None:
    stick, context = setting()
    survey = Survey.model_construct(
        length=120.0, stations=(), losses=None, wane=None, cuts=tuple(Cut.model_validate(one) for one in found) or None
    )
    old = context.stock("2x10").model_copy(update={"survey": survey})
    made = framed(stick.piece, stick.wood, Context(Structure({"2x10": old}, {})))
    assert len(made.old_cuts) == len(found) and made.section.d == 9.25


@pytest.mark.parametrize(("highest", "fails"), [(3.0, False), (3.01, True)])
def test_fasteners_no_lower_than_three_tenths(highest: float, fails: bool) -> None:
    """Of a rafter 10 in deep, with the limit itself allowed (judgment)."""
    run, stick, context = run_of(Line((0.0, 500.0)))
    deep = replace(stick, section=replace(stick.section, d=10.0))
    one = a_tie(ends_held_by="A")
    found = list(raised_tie_checks(run, one, deep, anchored(context, heights=(highest, 6.0))))
    assert ([check.verdict for check in found if check.id == "roof.tie_on_rafter"] == ["fails"]) is fails
