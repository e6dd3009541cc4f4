"""How an end turns, what a group knows of its place, and its results: limits and figures by hand.

Groups are invented. A 2x12 of Douglas Fir-Larch; bolts of 1/2 in unless said.
"""

from __future__ import annotations

from dataclasses import replace
from types import SimpleNamespace
from typing import Any

import numpy as np
import pytest

from beamcheck.checks.anchors.group import (
    Forces,
    from_the_end,
    hole_places,
    nearest_apart,
    pairs_closer,
    round_force,
    seat_takes,
)
from beamcheck.checks.anchors.held_end import _turn_of_beam, end_of_beam, group_of, level_forces
from beamcheck.checks.anchors.results import (
    _governing,
    anchor_result,
    held_by_nobody,
    not_worked_out,
    with_checks,
    worst_result,
)
from beamcheck.checks.core.context import Context, Structure
from beamcheck.checks.core.result import Check
from beamcheck.model.anchors.anchor import Anchor, Holes
from beamcheck.model.beams import Beam

from ...beams.beams import beam, seat
from ..anchors import Data, group, loaded

ONE: Data = {"rows": 1, "columns": 1, "end": "4 in", "edge": "5 5/8 in"}
EI = 2.0e9


def those(found: Any, id: str) -> list[Check]:
    return [check for check in found if check.id == id]


# ---- how an end turns ------------------------------------------------------------------------------------------------


def run(supports: list[float], length: float = 240.0, shape: Any = None) -> Any:
    """A beam of which the deflected shape is given: here a parabola, down in the middle of its first span."""
    piece = Beam.model_validate(beam(length=f"{length} in", supports=[seat(f"{at} in") for at in supports]))
    spans = list(zip(sorted({0.0, *supports, length})[:-1], sorted({0.0, *supports, length})[1:], strict=True))
    line = SimpleNamespace(at=lambda what, x: np.array([shape(x)]))
    section = SimpleNamespace(inertia=lambda pad: 1000.0)
    return SimpleNamespace(
        beam=piece, E=EI / 1000.0, section=section,
        solved=SimpleNamespace(length=length, spans=spans, combined=SimpleNamespace(line=line)),
    )  # fmt: skip


def test_rotation_and_softness_of_an_end() -> None:
    """v falls by 0.001 in each inch beyond the left end and rises so to the right one: 0.001 rad, the inner part going
    down; L/(4 E I) with the far end fixed."""
    bent = run([0.0, 240.0], shape=lambda x: -0.001 * np.minimum(x, 240.0 - x))
    for index in (0, 1):
        turn = _turn_of_beam(bent, index, 2)
        assert turn is not None and list(turn.rotation) == pytest.approx([0.001, 0.001])
        assert turn.softness == pytest.approx(240.0 / (4 * EI))
    up = _turn_of_beam(run([0.0, 240.0], shape=lambda x: 0.002 * np.minimum(x, 240.0 - x)), 0, 1)
    assert up is not None and up.rotation[0] == pytest.approx(-0.002)


def test_the_span_beside_an_end_counts_and_no_overhang() -> None:
    """Supports 40 and 200 in along 240 in: the ends beyond them are free. The longest span beside a middle support."""

    def slope(x: Any) -> Any:
        return np.where(x < 100.0, -0.001 * x, -0.1 - 0.003 * (x - 100.0))

    free = _turn_of_beam(run([40.0, 200.0], shape=slope), 0, 1)
    assert free is not None and free.rotation[0] == pytest.approx(0.001)
    assert free.softness == pytest.approx(160.0 / (4 * EI))
    middle = run([0.0, 100.0, 240.0], shape=slope)
    left = _turn_of_beam(middle, 1, 1)  # nearer to the left end: the span to its right
    assert left is not None and left.rotation[0] == pytest.approx(0.003)
    assert left.softness == pytest.approx(140.0 / (4 * EI))
    even = _turn_of_beam(run([0.0, 120.0, 240.0], shape=slope), 1, 1)
    assert even is not None and even.rotation[0] == pytest.approx(0.003), "in the middle as nearer to the left end"
    right = _turn_of_beam(run([0.0, 125.0, 240.0], shape=slope), 1, 1)
    assert right is not None and right.softness == pytest.approx(125.0 / (4 * EI))
    assert right.rotation[0] == pytest.approx(-0.003)
    right = _turn_of_beam(run([0.0, 140.0, 240.0], shape=slope), 1, 1)
    assert right is not None and right.rotation[0] == pytest.approx(-0.003), "the span to its left, going up inwards"
    assert right.softness == pytest.approx(140.0 / (4 * EI))


def test_what_stands_on_one_support_turns_as_it_likes() -> None:
    bent = run([0.0, 240.0], shape=lambda x: 0.0 * x)
    fixed = [{"at": "120 in", "on": "wall", "holds": "fixed"}]
    bent.beam = Beam.model_validate(beam(length="240 in", supports=fixed))
    bent.solved.spans = [(0.0, 120.0), (120.0, 240.0)]
    assert _turn_of_beam(bent, 0, 1) is None


@pytest.mark.parametrize(("at", "nearer"), [(0.0, 0.0), (30.0, 30.0), (120.0, 120.0), (121.0, 119.0), (240.0, 0.0)])
def test_place_from_the_nearer_end(at: float, nearer: float) -> None:
    piece = Beam.model_validate(beam(length="240 in", supports=[seat(f"{at} in"), seat("60 in")]))
    index = [support.at for support in piece.supports].index(at)
    assert from_the_end(piece, index) == pytest.approx(nearer)


@pytest.mark.parametrize(("at", "holds", "rests", "turns"), [
    (0.0, "rests", True, True), (240.0, "hung", False, True), (0.0, "fixed", False, False),
])  # fmt: skip
def test_an_end_of_a_beam(at: float, holds: str, rests: bool, turns: bool) -> None:
    bent = run([0.0, 240.0], shape=lambda x: -0.001 * x)
    ends = [{"at": f"{one} in", "on": "wall", "holds": holds, "held_by": "A", "restrained": True} for one in (0, 240)]
    bent.beam = Beam.model_validate(beam(length="240 in", supports=ends))
    bent.wood = bent.section = None if holds == "fixed" else bent.section
    bent.solved.each_reaction = lambda index: ((loaded("D"),), np.array([500.0]))
    if holds == "fixed":
        bent.solved.combined.line = SimpleNamespace(at=lambda kind, x, side: np.array([0.0]))
    pieces: Any = SimpleNamespace(from_piece="joists")
    context: Any = SimpleNamespace(stock=lambda name: None, under=lambda name: "the wall", transfers=[pieces, pieces])
    held = end_of_beam(bent.beam, bent, 0 if at == 0.0 else 1, context)
    assert (held.rests, held.turn is not None, held.carries, held.into) == (rests, turns, ("joists",), "the wall")
    assert held.support == f"beam.B.supports.{1 if at == 0.0 else 2}" and held.slope == 0.0
    assert list(held.forces.along) == [0.0] and (held.forces.turning is not None) is (holds == "fixed")


def test_level_and_plumb_forces() -> None:
    """On a piece of 30 degrees: 100 lb down are 86.6 square to it and 50 along it, into the joint; and back again."""
    found = level_forces((loaded("D"),), np.array([100.0]), np.array([20.0]), 30.0)
    assert found.across[0] == pytest.approx(100 * 0.8660254 + 20 * 0.5)
    assert found.along[0] == pytest.approx(20 * 0.8660254 - 100 * 0.5)
    made = replace(group([0.0]), forces=found, slope=30.0)
    assert made.largest == {"down": pytest.approx(100.0), "out of the joint": pytest.approx(20.0)}
    other = replace(made, forces=level_forces((loaded("D"),), np.array([-100.0]), np.array([-20.0]), 30.0))
    assert other.largest == {"up": pytest.approx(100.0), "into the joint": pytest.approx(20.0)}
    assert other.force_words == "up to 100 lb up and 20 lb into the joint"
    assert replace(made, forces=replace(found, across=np.array([0.4]), along=np.array([0.0])),
                   slope=0.0).force_words == "no force under any combination"  # fmt: skip


# ---- places ----------------------------------------------------------------------------------------------------------


def test_rows_and_columns_where_places_are_given() -> None:
    """Rows from the bottom, each from the end inwards, whatever the order in which they are written."""
    places = [(8, 7), (4, 3), (8, 3), (4, 7), (6, 7)]
    made = group([100.0], holes={"places": [{"x": f"{x} in", "y": f"{y} in"} for x, y in places]})
    assert list(made.row) == [1, 0, 0, 1, 1] and list(made.column) == [2, 0, 1, 0, 1]
    assert [list(row) for row in made.rows] == [[1, 2], [3, 4, 0]]
    assert made.name_of(0) == "row 2, column 3"
    bare = replace(made, x=np.zeros(0), y=np.zeros(0))
    assert bare.rows == [] and list(bare.column) == []


def test_one_row_and_one_column_where_they_are_not_said() -> None:
    for given, at in (({"columns": 2, "spacing": 3.0}, [(4.0, 5.0), (7.0, 5.0)]),
                      ({"rows": 2, "row_spacing": 3.0}, [(4.0, 5.0), (4.0, 8.0)])):  # fmt: skip
        x, y = hole_places(Holes.model_construct(**{"rows": None, "columns": None, "spacing": None, "row_spacing": None,
                                                    "places": (), "end": 4.0, "edge": 5.0, **given}))  # fmt: skip
        assert list(zip(x, y, strict=True)) == at
    assert [len(one) for one in hole_places(None)] == [0, 0]


def test_distances_between_holes() -> None:
    x, y = np.array([0.0, 3.0, 3.0]), np.array([0.0, 4.0, 6.0])
    assert nearest_apart(x, y) == 2.0 and nearest_apart(x[:1], y[:1]) == np.inf
    assert list(pairs_closer(x, y, 2.0)) == [] and list(pairs_closer(x, y, 2.1)) == [(1, 2)]
    assert list(pairs_closer(x, y, 5.1)) == [(0, 1), (1, 2)]
    assert (round_force(0.1), round_force(10.0), round_force(1234.0)) == ("10 lbf", "10 lbf", "1,240 lbf")


def test_what_presses_stays_in_a_seat() -> None:
    found = seat_takes(Forces((loaded("D"), loaded("W")), np.array([100.0, -30.0]), np.array([5.0, 6.0])))
    assert list(found.across) == [0.0, -30.0] and list(found.along) == [5.0, 6.0]


@pytest.mark.parametrize(("manner", "line", "arm"), [
    ("wood side", 3.0, 1.0), ("wood side", 5.0, -1.0), ("wood side", None, 0.5), ("ledger", 3.0, 0.0),
])  # fmt: skip
def test_arm_of_a_group(manner: str, line: float | None, arm: float) -> None:
    made = replace(group([100.0], manner=manner, arm="1/2 in", holes=ONE), line=line)
    assert made.arm == pytest.approx(arm)
    assert replace(made, x=np.zeros(0)).arm == 0.0


# ---- results ---------------------------------------------------------------------------------------------------------


def test_the_worst_of_several_ends() -> None:
    def one(name: str, *ratios: float) -> Any:
        checks = [Check.of_ratio("anchor.lateral", "A", "x", "", demand=r, capacity=1.0, kind="force") for r in ratios]
        return with_checks(not_worked_out(group([1.0]).anchor, name, "x").__class__(
            "A", "anchor", name, "passes", (), ()), *checks)  # fmt: skip

    low, high, failed = one("low", 0.5, 0.2), one("high", 0.5, 0.3), one("failed", 1.2)
    assert worst_result([low]) is low
    assert worst_result([low, high]).title == "high" and worst_result([high, failed, low]).title == "failed"
    told = worst_result([low, high]).assumptions[0]
    assert told == "It holds 2 ends, each checked by itself; this is the worst: high."
    assert failed.verdict == "fails" and low.verdict == "passes"


def test_the_governing_fastener_is_that_of_the_largest_ratio() -> None:
    made = group([900.0], holes={"rows": 2, "columns": 1, "end": "4 in", "edge": "3 in", "row_spacing": "4 in"})

    def named(where: str, ratio: float) -> Check:
        return Check.of_ratio("x", "A", "x", "", demand=ratio, capacity=1.0, kind="force", where=where)

    checks = [named("row 1, column 1", 0.3), named("row 2, column 1", 0.7), named("elsewhere", 0.9),
              Check.breaks_rule("y", "A", "y", "", where="row 1, column 1")]  # fmt: skip
    assert _governing(made, checks) == 1 and _governing(made, checks[2:]) is None
    assert _governing(made, [named("row 1, column 1", 0.0), named("row 2, column 1", 0.7)]) == 1


def test_a_group_of_no_piece_and_one_that_could_not_be_worked_out() -> None:
    made = held_by_nobody(group([1.0]).anchor)
    assert made.verdict == "refer" and made.title == "wood side, holds nothing in this job"
    assert made.checks[0].id == "anchor.forces" and made.checks[0].questions


@pytest.mark.parametrize(("manner", "rests", "said"), [
    ("wood side", True, "are not added"), ("by others", True, "left to the seat"), ("wood side", False, ""),
])  # fmt: skip
def test_what_is_said_of_a_seat(manner: str, rests: bool, said: str) -> None:
    made = replace(group([100.0, -30.0]), rests=rests)
    if manner != "wood side":
        made = replace(made, anchor=Anchor.model_validate({"name": "A", "manner": manner}))
    context = Context(Structure({}, {}))
    found = anchor_result(made, context)
    assert any("seat" in one for one in found.assumptions) is rests
    assert not said or any(said in one for one in found.assumptions)
    assert context.structure.groups["A"] == [made] and found.title == f"{manner}, left end of B"
    assert (found.drawing is not None) is (manner == "wood side")
    assert found.tables[0].heads[-2:] == ("down", "up") or {"down", "up"} <= set(found.tables[0].heads)
    along = anchor_result(replace(group([100.0], [0.5]), rests=rests), Context(Structure({}, {})))
    assert "out of the joint" not in along.tables[0].heads
    pulled = anchor_result(replace(group([100.0], [0.6]), rests=rests), Context(Structure({}, {})))
    assert "out of the joint" in pulled.tables[0].heads and "into the joint" not in pulled.tables[0].heads


@pytest.mark.parametrize(("rests", "slope", "manner", "across"), [
    (True, 0.0, "by others", 0.0), (True, 20.0, "by others", 100.0), (False, 0.0, "by others", 100.0),
    (True, 0.0, "wood side", 100.0),
])  # fmt: skip
def test_what_comes_to_a_group_beside_a_seat(rests: bool, slope: float, manner: str, across: float) -> None:
    """What has fasteners of its own is checked for all; hardware and others for what lifts; a slope has said so."""
    made: Any = group([100.0])
    anchor = made.anchor if manner == "wood side" else Anchor.model_validate({"name": "A", "manner": manner})
    held: Any = SimpleNamespace(
        piece="B", end="left", place=0.0, stock=made.stock, wood=made.wood, section=made.section, into=None,
        forces=made.forces, line=None, slope=slope, turn=None, carries=(), lands_at=None, rests=rests, support="",
    )  # fmt: skip
    context: Any = Context(Structure({}, {}))
    assert list(group_of(anchor, held, context).forces.across) == [across]
