"""The order of assembly of each family: which step lays down what, at which places, by hand."""

from __future__ import annotations

import math
from typing import Any

import pytest

from beamcheck.checks.brackets.assembly import assembly_of
from beamcheck.checks.brackets.drawing import elevation_of
from beamcheck.checks.brackets.families.registry import family_of
from beamcheck.checks.core.pictures.assembled import AssemblyPicture, Laid

from .brackets import BOLT, BRACED, CORBEL, LAG, SOLID, STRAP, Data, bracket, fixings, loads_of, structure

HALF = 1.25 / math.sin(math.radians(45.0))  # of the brace of 2 1/2 in, along the faces that it meets at 45 deg
LAP: Data = {"manner": "lap", "end": "1 in", "apart": "3/4 in", "rows": [{"down": "1 1/4 in", "count": 2}],
             "fastener": BOLT}  # fmt: skip


def made(shape: Data, **more: Any) -> AssemblyPicture | None:
    piece = bracket(shape, "10 lb", "3 in", **more)
    found = assembly_of(piece, elevation_of(family_of(piece), loads_of(piece, structure(), weight=2.0)))
    if found is None:
        return None
    table, picture = found
    assert table.rows == tuple((str(n), text) for n, text in enumerate(picture.steps, 1))
    return picture


def new(picture: AssemblyPicture | None, step: int) -> list[Laid]:
    assert picture is not None
    return [one for one in picture.laid if one.step == step]


def box(x0: float, y0: float, x1: float, y1: float) -> Any:
    return pytest.approx([x0, y0, x1, y0, x1, y1, x0, y1])


def flat(one: Laid) -> list[float]:
    return [number for point in one.points for number in point]


def step_of(picture: AssemblyPicture | None, words: str) -> int:
    assert picture is not None
    (found,) = [n for n, text in enumerate(picture.steps, 1) if text.startswith(words)]
    return found


def test_pieces_of_a_braced_bracket_are_cut_housed_put_together_and_joined() -> None:
    """18 x 18 in: while they lie apart, 15 % of its height (2.7 in) is between them."""
    found = made(BRACED)
    assert found is not None
    assert found.steps == (
        "Cut wall leg, top leg and brace; no knot where they are joined.",
        "House the brace 1/2 in into both legs; 1 in of wood stay behind. Photograph the housings.",
        "Put it together dry on a bench: the brace bears on the whole of each end.",
        "Join the legs: the steel as its report says.",
    )
    wall, top, brace = new(found, 1)
    assert (wall.name, top.name, brace.name) == ("wall leg", "top leg", "brace")
    assert flat(wall) == box(0.0, 0.0, 2.5, 18.0) and flat(top) == box(5.2, 0.0, 20.7, 2.5)
    assert flat(brace)[:2] == pytest.approx([5.2, 15.0 + HALF + 2.7])
    in_wall, in_top = new(found, 2)
    assert flat(in_wall) == box(2.0, 15.0 - HALF, 2.5, 15.0 + HALF)
    assert flat(in_top) == box(2.7 + 15.0 - HALF, 2.0, 2.7 + 15.0 + HALF, 2.5)
    assert {one.last for one in found.laid if one.step < 3} == {2}
    wall, top, brace = new(found, 3)
    assert flat(top) == box(2.5, 0.0, 18.0, 2.5) and flat(brace)[:2] == pytest.approx([2.5, 15.0 + HALF])
    assert [one.points for one in new(found, 4)] == [((1.25, 1.25),)]
    assert {one.last for one in found.laid if one.step >= 3} == {0}


def test_words_of_the_joint_of_the_legs_and_where_its_bolts_are() -> None:
    lap = made({**BRACED, "legs_joint": LAP})
    assert lap is not None and lap.steps[-1] == "Join the legs: halved, with 3/8 in bolts, 2 at 1 1/4 in below the top."
    assert [one.points for one in new(lap, 4)] == [((1.0, 1.25),), ((1.75, 1.25),)]
    pegged = made({**BRACED, "legs_joint": None, "legs_joined": "pegged twice"})
    assert pegged is not None and pegged.steps[-1] == "Join the legs: pegged twice."
    nobody = made({**BRACED, "legs_joint": None})
    assert nobody is not None and len(nobody.steps) == 3
    butted = made({**BRACED, "joints": "butted", "housing": None, "behind_housing": None})
    assert butted is not None and len(butted.steps) == 3 and butted.steps[1].startswith("Put it together")
    for joints in ({"joints": "tenoned"}, {"housing": None}):
        plain = made({**BRACED, **joints})
        assert plain is not None and plain.steps[1].startswith("Put it together")
    bare = made({**BRACED, "behind_housing": None})
    assert bare is not None and bare.steps[1] == "House the brace 1/2 in into both legs. Photograph the housings."


def test_a_solid_bracket_comes_from_a_board_along_its_grain() -> None:
    """10 x 12 in and its soffit from (3, 12) to (10, 3): along 45 deg the corners (0, 12) and (10, 0) are 22/sqrt 2
    apart; across it (0, 0) and the middle of the soffit's line 3 + 12 = 15 over sqrt 2."""
    (board,) = new(made({**SOLID, "grain": "45 deg"}), 0)
    assert (board.what, board.name, board.last) == ("stock", "board", 1)
    sides = [math.dist(*pair) for pair in zip(board.points, (*board.points[1:], board.points[0]), strict=True)]
    assert sides == pytest.approx([22.0 / math.sqrt(2.0), 15.0 / math.sqrt(2.0)] * 2)
    assert min(x + y for x, y in board.points) == pytest.approx(0.0)
    (level,) = new(made({**SOLID, "grain": "level"}), 0)
    assert flat(level) == box(0.0, 0.0, 10.0, 12.0)
    (upright,) = new(made(SOLID), 0)
    assert {tuple(round(c, 9) + 0.0 for c in point) for point in upright.points} == {(0, 0), (10, 0), (10, 12), (0, 12)}


def test_pocket_bores_rows_slots_and_gap_in_their_order() -> None:
    """Lags 5 in long, 2 in of them in the wood: 3 in into the wall, of which 3 1/2 in are drawn."""
    pocket = {"top": "4 in", "height": "2 in", "depth": "1 in"}
    bored = {**LAG, "counterbore": "1 in", "counterbore_depth": "3/4 in"}
    rows = [{"below_top": "3 in", "count": 1}, {"below_top": "7 in", "count": 2, "apart": "1 in", "slot": "3/4 in"}]
    near = {"beam": "B", "at": "10 in", "gap": "1/4 in", "closing": []}
    found = made({**SOLID, "pocket": pocket}, fixings=fixings(fastener=bored, rows=rows), near=near)
    assert found is not None
    assert [text.split(" ")[0] for text in found.steps] == ["Lay", "Cut", "Bore", "Fix", "In", "Measure", "Put"]
    assert [flat(one) for one in new(found, 2)] == [box(0.0, 4.0, 1.0, 6.0)]
    assert [one.name for one in new(found, 3)] and all(one.what == "cut" for one in new(found, 3))
    wall, first, second = new(found, 4)
    assert flat(wall) == box(-3.5, -0.12 * 12.0, 0.0, 1.1 * 12.0) and (wall.what, wall.name) == ("ground", "post")
    assert (first.points, second.points) == (((2.0, 3.0), (-3.0, 3.0)), ((2.0, 7.0), (-3.0, 7.0)))
    assert (first.name, second.name) == ("row 1", "row 2")
    assert [one.points for one in new(found, 5)] == [((0.0, 6.625), (0.0, 7.375))]
    (beam,) = new(found, 6)  # a gap that would not be seen is drawn 7 % of the height wide, the beam a fifth deep
    assert flat(beam) == box(-3.5, -0.27 * 12.0, 11.0, -0.07 * 12.0) and beam.name == "B"
    (load,) = new(found, 7)
    assert flat(load) == pytest.approx([6.0, -(0.27 + 0.03 + 0.34) * 12.0, 6.0, -(0.27 + 0.03) * 12.0])
    wide = made({**SOLID, "pocket": pocket}, fixings=fixings(), near={**near, "gap": "2 in"})
    (beam,) = new(wide, step_of(wide, "Measure"))
    assert flat(beam) == box(-3.5, -2.0 - 0.2 * 12.0, 11.0, -2.0)
    free = made(SOLID, fixings=fixings())
    assert free is not None and [text.split(" ")[0] for text in free.steps] == ["Lay", "Fix", "Put"]
    (load,) = new(free, 3)
    assert flat(load) == pytest.approx([6.0, -0.37 * 12.0, 6.0, -0.03 * 12.0])
    closed = made(SOLID, fixings=fixings(), near={**near, "gap": None}, role="decorative", carries=[])
    assert closed is not None and [text.split(" ")[0] for text in closed.steps] == ["Lay", "Fix"]


def test_a_block_is_there_and_is_fixed() -> None:
    """In its dap of 3/4 in the wall is drawn 1 1/4 in deep at least, here by the lags; heads at its front where nobody
    says what they go through."""
    found = made({**CORBEL, "seat": "3/4 in", "below_seat": "20 in"}, fixings=fixings())
    assert found is not None and len(found.steps) == 2
    (block,) = new(found, 0)
    assert flat(block) == box(-0.75, 0.0, 3.5, 9.0) and (block.what, block.grain) == ("wood", 90.0)
    bare = made(CORBEL, fixings=fixings(through=None, fastener=LAG))
    row = new(bare, step_of(bare, "Fix"))[1]
    assert flat(row)[:2] == [3.5, 3.0]
    assert made(CORBEL) is None


def test_a_head_is_at_the_front_of_the_part_that_lies_on_the_wall() -> None:
    """The wall leg is 2 1/2 in deep; top leg and brace begin before it."""
    rows = [{"below_top": "1 in", "count": 1}, {"below_top": "17 1/2 in", "count": 1}]
    found = made(BRACED, fixings=fixings(through=None, rows=rows))
    _, *heads = new(found, step_of(found, "Fix"))
    assert [flat(one)[0] for one in heads] == [2.5, 2.5]


def test_steel_is_bent_before_the_wood_is_closed_around_it() -> None:
    found = made(STRAP, fixings=fixings(rows=[{"below_top": "1 in", "count": 1}], through=None))
    assert found is not None and found.steps[0].startswith("Drill and bend the steel")
    assert {one.what for one in new(found, 1)} == {"steel"}


def test_of_a_short_bracket_four_inches_of_wall_are_drawn_at_most() -> None:
    found = made(CORBEL, fixings=fixings(fastener={**LAG, "length": "12 in"}))
    wall, *rows = new(found, step_of(found, "Fix"))
    assert flat(wall)[0] == -4.0 and rows[0].points[1][0] == -4.0


@pytest.mark.parametrize(("length", "drawn"), [("5 in", 3.5), ("3 in", 1.5), ("12 in", 7.0)])
def test_so_much_wall_is_drawn_as_its_lags_need(length: str, drawn: float) -> None:
    """Half an inch behind their points, 1 1/2 in at least; never more than 70 % of its reach or 4 in."""
    found = made(SOLID, fixings=fixings(fastener={**LAG, "length": length}))
    wall, *rows = new(found, step_of(found, "Fix"))
    assert flat(wall)[0] == -drawn
    assert rows[0].points[1][0] == pytest.approx(-min(float(length.split(" ")[0]) - 2.0, drawn))
