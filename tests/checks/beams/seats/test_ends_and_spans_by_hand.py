"""Ends that only reach over their seats, spans pressed below all along, how a sag is read, nails that are offered."""

from __future__ import annotations

from types import SimpleNamespace
from typing import Any

import pytest

from beamcheck.analysis.beams.load_cases import Applied
from beamcheck.analysis.beams.member_loads import TransferredLoad
from beamcheck.checks.beams.beam_run import BeamSolver, _is_stub, _over_its_seat
from beamcheck.checks.beams.rows import placed_rows
from beamcheck.checks.core.context import Context, Structure
from beamcheck.checks.core.wood.material import reference_values, wood_of
from beamcheck.model.beams import Beam
from beamcheck.model.stock import Stock

from ..beams import Data, beam, find, floor, known, result_of, seat, step
from ..made.test_plies import WOOD as TWO_BY_TWELVE
from ..made.test_plies import girder

WOOD = known("6 in x 12 in")


def solved(**more: Any) -> Any:
    stock = Stock.model_validate(WOOD)
    made = Beam.model_validate(beam(**more))
    structure = Structure({"wood": stock}, {"wall": SimpleNamespace(name="wall")})  # type: ignore[dict-item]
    return BeamSolver(made, Context(structure)).run(wood_of(stock, reference_values(stock), form="beam"))


# ---- ends that reach over their seats --------------------------------------------------------------------------------

POINT = Applied("L", 0.0, 0.0, P=100.0)


def at_an_end(reach: float, bearing: float | None, holds: str = "rests", right: bool = True) -> tuple[Any, list[Any]]:
    support = SimpleNamespace(at=144.0 if right else 0.0, bearing=bearing, holds=holds)
    span = (144.0, 144.0 + reach) if right else (-reach, 0.0)
    return span, [SimpleNamespace(x=support.at, support=support), SimpleNamespace(x=72.0, support=support)]


@pytest.mark.parametrize("right", [True, False])
@pytest.mark.parametrize(("reach", "bearing", "stub", "over"), [
    (14.75, 5.5, True, False), (14.76, 5.5, False, False), (5.5, 5.5, True, True), (5.51, 5.5, True, False),
    (12.0, None, True, False), (12.01, None, False, False), (0.5, None, True, False), (2.75, 5.5, True, True),
])  # fmt: skip
def test_how_far_an_end_reaches(reach: float, bearing: float | None, stub: bool, over: bool, right: bool) -> None:
    """By half its seat and the depth, 12 in, it is no cantilever; no longer than its seat it is no span at all."""
    span, seats = at_an_end(reach, bearing, right=right)
    assert _is_stub(span, seats, [], 12.0) is stub and _over_its_seat(span, seats) is over


@pytest.mark.parametrize(("load", "stub"), [
    (Applied("L", 144.0, 144.0, P=100.0), True), (Applied("L", 146.0, 146.0, P=100.0), False),
    (Applied("L", 100.0, 100.0, P=100.0), True), (Applied("L", 100.0, 150.0, w_start=1.0, w_end=1.0), True),
    (Applied("L", 0.0, 0.0, P=100.0, moves=True), False), (Applied("L", 150.0, 150.0, P=100.0), False),
    (Applied("L", 150.5, 150.5, P=100.0), True),
])  # fmt: skip
def test_an_end_with_a_force_on_it_is_a_cantilever(load: Applied, stub: bool) -> None:
    span, seats = at_an_end(6.0, 5.5)
    assert _is_stub(span, seats, [load], 12.0) is stub


def test_an_end_that_is_clamped_is_a_cantilever() -> None:
    span, seats = at_an_end(3.0, 5.5, "fixed")
    assert not _is_stub(span, seats, [], 12.0)


@pytest.mark.parametrize(("ends", "length", "open_"), [
    (("0 in", "144 in"), 144.0, False), (("3 in", "141 in"), 144.0, False), (("5 1/2 in", "144 in"), 144.0, False),
    (("5.6 in", "144 in"), 144.0, True), (("0 in", "138.4 in"), 144.0, True), (("0 in", "138.5 in"), 144.0, False),
])  # fmt: skip
def test_a_row_on_a_beam_whose_ends_reach_over_its_seats(ends: tuple[str, str], length: float, open_: bool) -> None:
    """Up to the 5 1/2 in of the seat it is one span: counted as an even load wherever the row begins and ends."""
    made = Beam.model_validate(beam(supports=[seat(at) for at in ends], length=f"{length} in"))
    (found,) = placed_rows(made, [TransferredLoad("J", {"D": (1.0, 1.0)}, at=72.0, spread=16.0, members=5)])
    assert found.open is open_


# ---- which edge is pressed -------------------------------------------------------------------------------------------


def test_a_short_span_between_long_ones_is_pressed_below_all_along() -> None:
    """12, 3 and 12 ft under w: the middle bends up between both supports; the long ones beside them only."""
    run = solved(supports=[seat("0 ft"), seat("12 ft"), seat("15 ft"), seat("27 ft")], carries=[floor(dead="100 plf")])
    first, middle, last = run.spans
    assert middle.pressed_below == (36.0, 36.0)
    assert first.pressed_below[0] == 0.0 and 20.0 < first.pressed_below[1] < 50.0
    assert last.pressed_below == pytest.approx(first.pressed_below[::-1])
    assert not any(span.overhang for span in run.spans) and not run.simple


def test_a_simple_span_is_pressed_above() -> None:
    run = solved(carries=[floor(dead="100 plf")])
    assert run.simple and run.spans[0].pressed_below == (0.0, 0.0) and run.spans[0].upright
    lifted = solved(service="roof", carries=[floor(dead="10 plf", wind="-90 plf")])
    assert lifted.spans[0].pressed_below[0] > 60.0


@pytest.mark.parametrize("middle", [[], [seat("6 ft")]])
def test_the_softest_that_a_beam_is_taken(middle: list[Data]) -> None:
    """5 w L^4/(384 E I) + w L^2/(8 E/16 5/6 A) on the tabulated E, 6 x 12 in; on three supports shear counts, too."""
    run = solved(supports=[seat("0 ft"), *middle, seat("12 ft")], carries=[floor(dead="1200 plf")])
    w, E, inertia, area = 100 + 5 / 1728 * 72, 1.4e6, 864.0, 72.0
    softest = run.with_shear
    sag = -min(softest.deflections(0.0, 144.0, False, softest.factors)[0])
    if not middle:
        assert sag == pytest.approx(5 * w * 144**4 / (384 * E * inertia) + w * 144**2 / (8 * E / 16 * 5 / 6 * area))
    assert sag > -min(run.solved.deflections(0.0, 144.0, False, run.solved.factors)[0])
    assert len(run.solved.others) == 1 and not softest.others, "solved once only, never without shear"


def test_one_end_that_may_turn_over_is_enough() -> None:
    assert not solved(supports=[seat("0 ft"), seat("12 ft", restrained=False)]).spans[0].upright
    loose = {key: value for key, value in seat("0 ft").items() if key != "restrained"}
    assert not solved(supports=[loose, seat("12 ft")]).spans[0].upright


# ---- the way in which a sag is read ----------------------------------------------------------------------------------


@pytest.mark.parametrize(("feet", "shear"), [(30, False), (12, True)])
@pytest.mark.parametrize("loads", [{"dead": "60 plf"}, {"live": "60 plf"}])
def test_the_steps_of_a_total_are_of_the_way_that_is_worse(feet: int, shear: bool, loads: Data) -> None:
    """5 w L^4/(384 E I), or 1.03 E and w L^2/(8 G 5/6 A): of what lasts, and of the rest."""
    own = 5 / 1728 * 72
    long = 12.0 * feet

    def sag(w: float) -> float:
        bent = 5 * w * long**4 / (384 * 1.4e6 * 864)
        return bent / 1.03 + w * long**2 / (8 * 1.4e6 / 16 * 60) if shear else bent

    found = find(result_of(beam(supports=[seat("0 ft"), seat(f"{feet} ft")], carries=[floor(**loads)]), wood=WOOD),
                 "total deflection")  # fmt: skip
    dead, live = (5 + own, 0.0) if "dead" in loads else (own, 5.0)
    assert step(found, "Delta_LT") == pytest.approx(sag(dead), rel=1e-6)
    assert step(found, "Delta_ST") == pytest.approx(sag(live), rel=1e-6, abs=1e-12)


# ---- nails from ply to ply -------------------------------------------------------------------------------------------


@pytest.mark.parametrize(("plf", "rows", "inches"), [
    (460, 2, 12), (480, 3, 12), (700, 3, 12), (720, 3, 8), (1050, 3, 8), (1080, 3, 6), (1400, 3, 6), (1440, 3, 4),
    (2100, 3, 4), (2160, 0, 0),
])  # fmt: skip
def test_the_nails_that_are_offered_are_the_fewest_that_carry(plf: int, rows: int, inches: int) -> None:
    """Half of the load passes from one of two plies to the other: rows of 118 lb (10d common, Table 12N, memory)."""
    load = floor(live=f"{plf} plf", applied="side", fastened={"highest": "2 in", "lowest": "9 in"})
    one = {**girder(None, 2, supports=[seat("0 ft"), seat("6 ft")]), "carries": [load]}
    piece = result_of(one, wood=TWO_BY_TWELVE)
    (check,) = [one for one in piece.checks if one.id == "beam.plies"]
    offered = [dict(one.sets)["beam.B.plies_schedule"] for one in check.questions[0].answers]
    assert [(one["rows"], one["spacing"], one["size"]) for one in offered] == (
        [(rows, f"{inches} in", "10d common")] if rows else []
    )
    assert all(one["from_both_sides"] is True for one in offered)
    if rows:
        assert plf / 2 <= rows * 118.5 * 12 / inches
        again = result_of({**one, "plies_schedule": offered[0]}, wood=TWO_BY_TWELVE)
        found = find(again, "load from ply to ply")
        assert found.demand == pytest.approx(plf / 24) and found.verdict == "passes"


def test_own_weight_that_the_dead_load_just_holds() -> None:
    """6 lb/ft3 of half a square foot: 3 lb/ft, and 3 lb/ft are said to hold it."""
    load = floor(dead="3 plf", live="40 plf", dead_includes_own_weight=True)
    piece = result_of(beam(carries=[load]), wood=WOOD | {"density": "6 pcf"})
    assert [one.verdict for one in piece.checks if one.id == "beam.own_weight"] == ["passes"]
