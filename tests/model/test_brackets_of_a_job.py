"""Brackets and trim in a job: families, roles, outlines, pockets, fixings, the beam above, names and places.

The sizes that messages name are worked out by hand beside the case. The data are invented.
"""

from __future__ import annotations

import json
import tomllib
from typing import Any

import jsonschema  # type: ignore[import-untyped]
import pytest

from beamcheck.errors import JobError
from beamcheck.model.brackets.bracket import Bent, Bracket, Solid
from beamcheck.model.reading.reader import job_from_data, read_job_text
from beamcheck.model.reading.schema import job_schema

from .bracket_jobs import CURVE, GOOD_BRACKETS, changed
from .jobs import line_with, only_problem, problems


def points(*pairs: tuple[float, float]) -> str:
    """A soffit by points, of the bracket that is 12 in high and 10 in out with 2 in at foot and nose."""
    return 'soffit = "points"\n  points = [' + ", ".join(f'{{ x = "{x} in", y = "{y} in" }}' for x, y in pairs) + "]"


SHAPE = 'shape = { family = "steel core", steel = "A36"'
BENT = 'made = "laminated", lamination = "1/8 in", glue = "resorcinol, by the shop" }'
NEAR = 'near = { beam = "B1", at = "2 ft", gap = "1/4 in", pad = "2,000 lb/in", pad_squeezes = "1/8 in"'
ROWS = 'rows = [{ below_top = "2 in", count = 1 }, { below_top = "10 in", count = 1, slot = "1 in" }]'
SCREW = 'fastener = { kind = "wood screw", size = "No. 10", length = "4 in" }'
POCKET = 'pocket = { top = "5 in", height = "2 in", depth = "1/2 in", width = "1 in" }'


def test_each_family_is_read_into_inner_units() -> None:
    job = read_job_text(GOOD_BRACKETS)
    assert [bracket.shape.family for bracket in job.bracket] == ["solid", "braced", "bent", "steel core", "corbel"]
    solid = job.bracket[0].shape
    assert isinstance(solid, Solid)
    assert (solid.grain, solid.pocket is not None and solid.pocket.depth) == (90.0, 0.5)
    assert job.bracket[1].near is not None and job.bracket[1].near.pad == pytest.approx(2000.0, rel=1e-12)
    assert (job.bracket[1].accidental, job.bracket[2].accidental) == ("not for load", 200.0)
    assert job.trim[0].weight == 35.0


@pytest.mark.parametrize(
    "change",
    [
        ('grain = "upright"\n  pocket', 'grain = "Level"\n  pocket'),
        ('grain = "upright"\n  pocket', 'grain = "150 deg"\n  pocket'),
        ('  grain = "upright"\n', ""),  # what is not known is for the checks
        ('knots = "none in the throat"\n', ""),
        (CURVE, 'soffit = "straight"'),
        (CURVE, 'soffit = "convex"'),
        (CURVE, 'soffit = "ogee"'),
        (CURVE, 'soffit = "hollow arc"\n  sagitta = "2 in"'),
        (CURVE, 'soffit = "full arc"\n  sagitta = "1 in"'),
        (CURVE, points((2, 12), (3, 5), (10, 2))),
        (CURVE, points((2, 12), (1.5, 11), (3, 5), (10, 2))),  # thinner above the foot than at it
        ('role = "carries"\nstock = "board"', 'role = "decorative"\nstock = "board"'),  # its loads fail it later
        ('on = "plaster wall"', 'on = "crown"'),
        ('on = "B1"\nweight', 'on = "K1"\nweight'),
        (', joints = "housed", housing = "1/2 in"', ""),
        ("count = 1, slot", 'count = 2, apart = "3/4 in", slot'),
        (SCREW, SCREW.replace("4 in", "2 1/4 in")),
        ('gap = "1/4 in", pad = "2,000 lb/in", pad_squeezes = "1/8 in"', "fixed_to_beam = true"),
        ('accidental_from = "the owner"\n', 'accidental_from = "the owner, 200 lb each"\n'),
        ('weight = "35 lb"', 'weight = "35 lb"\nfixings = { by_hand = "friction" }'),
    ],
)
def test_what_is_right_or_only_unproven_is_read(change: tuple[str, str]) -> None:
    assert len(read_job_text(changed(change)).bracket) == 5


# changes; where; what is said
WRONG: list[tuple[list[tuple[str, str]], str, str]] = [
    # the family tells which fields there are
    ([('thickness = "1 1/2 in"\n  height', "height")], 'bracket "K1", shape, thickness',
     'missing: of the bracket, side to side; for example thickness = "1 1/2 in"'),
    ([('thickness = "1 1/2 in"\n  height', 'thickness = "0 in"\n  height')], 'bracket "K1", shape, thickness',
     "'0 in' is not allowed: it must be greater than 0"),
    ([('family = "solid"', 'family = "sollid"')], 'bracket "K1", shape, family',
     "'sollid' is not allowed: write 'solid', 'braced', 'bent', 'steel core' or 'corbel'; did you mean 'solid'?"),
    ([('  family = "solid"\n', "")], 'bracket "K1", shape, family',
     'missing: which family it is; for example family = "solid" (allowed: \'solid\', \'braced\','),
    ([('soffit = "concave"', 'soffit = "concav"')],
     'bracket "K1", shape, soffit', "did you mean 'concave' or 'convex'?"),
    ([('foot = "2 in"', 'foot = "2 in"\n  brace = "2 in"')], 'bracket "K1", shape, brace', "no such field"),
    ([('nose = "2 in"', 'nose = "2"')], 'bracket "K1", shape, nose', "'2' has no unit"),
    ([('nose = "2 in"', 'nose = "-2 in"')], 'bracket "K1", shape, nose', "a length has no sign"),
    ([(SHAPE, "shape = 3 #")], 'bracket "K4", shape', "3 is not a table: write { name = value, ... }"),
    ([('name = "K1"', 'name = "K1"\ngrain = "level"')], 'bracket "K1", grain',
     "no such field here; write it within `shape`"),
    ([('name = "K1"', 'name = "K1"\nspecies = "oak"')], 'bracket "K1", species', "belongs to the [[stock]] entry"),
    ([("[[trim]]", '[[corbel]]\nname = "x"\n\n[[trim]]')], "corbel", "no such table; write it as [[bracket]]"),
    ([('grain = "upright"\n', 'grain = "across"\n')], 'bracket "K1", shape, grain',
     "'across' is no direction of grain: write 'level', 'upright' or an angle such as '45 deg'"),
    ([('grain = "upright"\n', 'grain = "-30 deg"\n')], 'bracket "K1", shape, grain', "is '150 deg'"),
    ([('grain = "upright"\n', 'grain = "180 deg"\n')], 'bracket "K1", shape, grain', "it must be less than 180"),
    # what the role needs
    ([('cover = { hides = ["grip"], heads_stand_out = "3/4 in", change = "6 %" }\n', "")], 'bracket "K4", cover',
     'missing: what does it hide? For example cover = { hides = ["hidden plate A"]'),
    ([('role = "cover"', 'role = "decorative"')], 'bracket "K4", cover',
     "the role is 'decorative': leave cover out, or write role = \"cover\""),
    ([('role = "cover"', 'role = "hidden"')], 'bracket "K4", role', "write 'carries', 'decorative' or 'cover'"),
    ([('role = "decorative"\nwhat', 'role = "carries"\nwhat')], 'trim "crown", role',
     "'carries' is not allowed: write 'decorative' or 'cover'"),
    ([('role = "carries"\nstock = "board"\n', 'role = "carries"\n')], 'bracket "K1", stock',
     'missing: which wood it is cut from; the name of its [[stock]] entry, for example stock = "bracket board"'),
    # sizes that no bracket has
    ([('height = "12 in"', 'height = "12 ft"')], 'bracket "K1", shape, height',
     "144 in cannot be right: from 0.5 to 120 in can be read"),
    ([('inner_radius = "10 in"', 'inner_radius = "0.01 in"')], 'bracket "K3", shape, inner_radius', "cannot be right"),
    ([('down = "3 in"', 'down = "300 in"')], 'bracket "K4", shape, down', "300 in cannot be right"),
    ([('gap = "1/4 in", pad', 'gap = "25 in", pad')], 'bracket "K2", near, gap', "25 in cannot be right"),
    ([('change = "6 %" }]', 'change = "90 %" }]')], 'bracket "K2", near, closing 1, change', "90 % cannot be right"),
    # outline
    ([('foot = "2 in"', 'foot = "11 in"')], 'bracket "K1", shape, foot',
     "the foot is 11 in deep, but the bracket stands out only 10 in"),
    ([('nose = "2 in"', 'nose = "12 in"')], 'bracket "K1", shape, nose',
     "the nose is as deep as the bracket is high: nothing is left for a concave soffit"),
    ([('foot = "2 in"', 'foot = "10 in"'), ('nose = "2 in"', 'nose = "12 in"'), (CURVE, 'soffit = "straight"')],
     'bracket "K1", shape, foot', "nothing is left for a straight soffit"),
    ([(CURVE, 'soffit = "hollow arc"')], 'bracket "K1", shape, sagitta', "missing: a hollow arc needs its height over"),
    ([(CURVE, CURVE + '\n  sagitta = "1 in"')], 'bracket "K1", shape, sagitta', "a concave soffit has no sagitta"),
    ([(CURVE, points((2, 12), (10, 2)) + '\n  sagitta = "1 in"')], 'bracket "K1", shape, sagitta',
     "a soffit by points has no sagitta"),
    # the chord from (2, 12) to (10, 2) is sqrt(8^2 + 10^2) = 12.806 in long
    ([(CURVE, 'soffit = "full arc"\n  sagitta = "7 in"')], 'bracket "K1", shape, sagitta',
     "7 in is more than half the 12.806 in between the ends of the soffit"),
    ([(CURVE, 'soffit = "hollow arc"\n  sagitta = "6 in"')], 'bracket "K1", shape, sagitta', "nothing of the throat"),
    ([(CURVE, 'soffit = "full arc"\n  sagitta = "6 in"')], 'bracket "K1", shape, sagitta', "the soffit bulges"),
    ([(CURVE, CURVE + '\n  points = [{ x = "1 in", y = "1 in" }]')], 'bracket "K1", shape, points',
     'a concave soffit has no points: leave them out, or write soffit = "points"'),
    ([(CURVE, 'soffit = "points"')], 'bracket "K1", shape, points', "missing: a soffit by points needs both its ends"),
    ([(CURVE, points((2, 12)))], 'bracket "K1", shape, points', "one point is no line"),
    ([(CURVE, points((2, 11.5), (10, 2)))], 'bracket "K1", shape, points 1',
     "the first point (x = 2 in, y = 11.5 in) does not meet the end of the soffit (x = 2 in, y = 12 in: foot, height): "
     "the outline is open there by 0.5 in"),
    ([(CURVE, points((2, 12), (10, 2), (10, 1)))], 'bracket "K1", shape, points 3',
     "the last point (x = 10 in, y = 1 in) does not meet the end of the soffit (x = 10 in, y = "
     "2 in: projection, nose)"),
    ([(CURVE, points((10, 2), (5, 5), (2, 12)))], 'bracket "K1", shape, points', "write them the other way round"),
    ([(CURVE, points((2, 12), (0, 6), (10, 2)))], 'bracket "K1", shape, points 2', "lies on the wall face"),
    ([(CURVE, points((2, 12), (5, 0), (10, 2)))], 'bracket "K1", shape, points 2', "lies on the top edge"),
    ([(CURVE, points((2, 12), (5, 13), (10, 2)))], 'bracket "K1", shape, points 2',
     "(x = 5 in, y = 13 in) lies below the foot, outside of the bracket: it reaches 10 in out and 12 in down"),
    ([(CURVE, points((2, 12), (11, 5), (10, 2)))], 'bracket "K1", shape, points 2', "lies beyond the nose"),
    ([(CURVE, points((2, 12), (4, 4), (4, 4), (10, 2)))],
     'bracket "K1", shape, points 3', "the point before once more"),
    # the lines (8, 10)-(3, 5) and (3, 9)-(10, 2) meet where x - y = -2 and x + y = 12: (5, 7)
    ([(CURVE, points((2, 12), (8, 10), (3, 5), (3, 9), (10, 2)))], 'bracket "K1", shape, points 2',
     "the outline crosses or touches itself at (x = 5 in, y = 7 in), where the line from point 2 to point 3 meets the "
     "line from point 4 to point 5"),
    ([(CURVE, points((2, 12), (1, 12), (4, 5), (10, 2)))], 'bracket "K1", shape, points 2', "meets the foot"),
    ([(CURVE, points((2, 12), (5, 5), (10, 1), (10, 2)))], 'bracket "K1", shape, points 3', "meets the nose"),
    ([(CURVE, points(*[(2, 12)] * 501))], 'bracket "K1", shape, points', "more than 500 entries cannot be read"),
    ([(CURVE, points((2, 12), (10, 2)).replace('y = "12 in"', 'y = "12 in", z = "0 in"'))],
     'bracket "K1", shape, points 1, z',
     "no such field"),
    # pocket: on a straight soffit from (2, 12) to (10, 2) the bracket is 2 + 8 (12 - 8)/10 = 5.2 in deep at 8 in down
    ([(CURVE, 'soffit = "straight"'), (POCKET, 'pocket = { top = "6 in", height = "2 in", depth = "5 1/4 in" }')],
     'bracket "K1", shape, pocket, depth',
     "8 in below the top the bracket is 5.2 in deep and the pocket 5.25 in: nothing is left of the throat"),
    ([(CURVE, 'soffit = "straight"'), (POCKET, 'pocket = { top = "6 in", height = "2 in", depth = "5.15 in" }')],
     'bracket "K1", shape, pocket, depth', "the pocket 5.15 in: only 0.050 in is left of the throat"),
    # 0.0625 in is asked for square to the soffit, too; level there are 0.07 in, square to it 0.07 x 10/12.806 = 0.055
    ([(CURVE, 'soffit = "straight"'), (POCKET, 'pocket = { top = "6 in", height = "2 in", depth = "5.13 in" }')],
     'bracket "K1", shape, pocket, depth', "only 0.055 in is left between its corner and the soffit at"),
    ([(POCKET, 'pocket = { top = "0 in", height = "1 in", depth = "10 in" }')], 'bracket "K1", shape, pocket, depth',
     "the bracket is 10 in deep and the pocket 10 in: nothing is left"),
    ([(POCKET, 'pocket = { top = "11 in", height = "2 in", depth = "1 in" }')], 'bracket "K1", shape, pocket, height',
     "it reaches down to 13 in from the top, but the foot is at 12 in"),
    ([(POCKET, 'pocket = { top = "5 in", height = "2 in", depth = "1 in", width = "2 in" }')],
     'bracket "K1", shape, pocket, width', "2 in is more than the thickness of the bracket, 1.5 in"),
    # loads on its top edge
    ([('at = "9 1/2 in" }', 'at = "11 in" }')], 'bracket "K1", carries 2, at',
     "11 in is beyond the nose: the bracket stands out 10 in from the wall"),
    ([('to = "9 in"', 'to = "10 1/2 in"')], 'bracket "K1", carries 1, to', "10.5 in is beyond the nose"),
    ([('width = "24 in", from', "from")], 'bracket "K1", carries 1, width', "missing: a load per area needs the width"),
    ([(', at = "9 1/2 in" }', " }")], 'bracket "K1", carries 2, at', "missing: a force needs its place out from the"),
    ([('dead = "4 lb", at = "9 1/2 in"', 'live = "4 lb", moves = true')], 'bracket "K1", carries 2, moves',
     'a load that moves is worst at the nose: leave `moves` out and write at = "10 in"'),
    ([('dead = "4 lb", at', 'dead = "4 lb", measured = "plan", at')], 'bracket "K1", carries 2, measured', "rafters"),
    ([('weight = "35 lb"', 'weight = "-35 lb"')], 'trim "crown", weight', "everything weighs something"),
    ([('weight = "35 lb"', 'weight = "35 kg"')], 'trim "crown", weight', "a mass is not a load"),
    ([('dead = "10 lb" }', 'dead = "10 plf" }')], 'trim "crown", carries 1', "trim carries forces (lbf): multiply"),
    ([('dead = "10 lb" }', 'dead = "10 lb", at = "1 ft" }')], 'trim "crown", carries 1, at', "leave `at` out"),
    # somebody hangs on it
    ([('accidental = "200 lb"', 'accidental = "200"')], 'bracket "K3", accidental',
     "'200' has no unit; a force is written with one, for example '1,240 lb'; or write 'not for load'"),
    ([('accidental = "200 lb"', 'accidental = "never"')], 'bracket "K3", accidental',
     "'never' is not allowed: write 'not for load', or a quantity such as '1,240 lb'"),
    ([('accidental = "200 lb"', "accidental = 200")], 'bracket "K3", accidental',
     "200 is not allowed: write 'not for load', or a quantity such as '1,240 lb'"),
    ([('accidental = "200 lb"', 'accidental = "-200 lb"')], 'bracket "K3", accidental',
     "-200 lbf cannot be right: more than 0 and at most 2,000 lbf can be read"),
    ([('accidental_from = "the owner"\n', "")], 'bracket "K3", accidental_from', "missing: who chose that force"),
    ([('accidental_from = "the owner"\n', 'accidental_from = "?"\n')], 'bracket "K3", accidental_from', "missing: who"),
    ([('accidental = "200 lb"\n', "")], 'bracket "K3", accidental', "but which force is it? For example"),
    # built up, bent, steel
    ([('wall_leg = "2 in"', 'wall_leg = "18 in"')], 'bracket "K2", shape, wall_leg', "no room is left for a brace"),
    ([('brace_out = "15 in"', 'brace_out = "19 in"')], 'bracket "K2", shape, brace_out',
     "19 in is beyond the end of the top leg: projection is 18 in"),
    ([('brace_down = "15 in"', 'brace_down = "2 in"')], 'bracket "K2", shape, brace_down',
     "2 in lies within the top leg, which is 2 in deep: the brace would have no length"),
    # from (15, 2) to (2, 15) the brace is 13 sqrt 2 = 18.385 in long
    ([('brace_down = "15 in"', 'brace_down = "15 in", sagitta = "10 in"')], 'bracket "K2", shape, sagitta',
     "10 in is more than half the 18.385 in between the brace's ends"),
    ([('brace = "2 1/2 in"', 'brace = "20 in"'),
      ('stock = "block"\non = "plaster wall"', 'stock = "board"\non = "plaster wall"'),
      ('thickness = "2 1/2 in"', 'thickness = "1 1/2 in"')], 'bracket "K2", shape, brace', "that is no brace"),
    ([('joints = "housed"', 'joints = "butted"')],
     'bracket "K2", shape, housing', "have no housing: leave housing out"),
    ([('housing = "1/2 in"', 'housing = "2 in"')],
     'bracket "K2", shape, housing', "nothing is left of a leg 2 in deep"),
    ([('lamination = "1/8 in"', 'lamination = "3 in"')], 'bracket "K3", shape, lamination',
     "3 in is more than the depth of the arc, 2 in"),
    ([(BENT, 'made = "sawn", lamination = "1/8 in" }')], 'bracket "K3", shape, lamination', "has no lamination"),
    ([(BENT, 'made = "steam-bent", glue = "hide glue" }')], 'bracket "K3", shape, glue', "has no glue"),
    ([('sweep = "90 deg"', 'sweep = "200 deg"')], 'bracket "K3", shape, sweep', "it must be at most 180"),
    ([('down = "3 in" }', 'down = "3 in", hole_at_bend = "1 1/2 in" }')], 'bracket "K4", shape, hole_at_bend',
     "a hole of 1.5 in leaves nothing of a bar 1.5 in wide"),
    ([('down = "3 in" }', 'down = "3 in", gusset_depth = "3 in" }')], 'bracket "K4", shape, gusset_thickness',
     "missing: gusset_depth is given, so there is a gusset; for example gusset_thickness"),
    ([('steel = "A36"', 'steel = "A37"')], 'bracket "K4", shape, steel', "'A37' is not known; did you mean 'A36'"),
    ([('seat = "3/4 in", ', "")], 'bracket "K5", shape, below_seat', "there is no seat: give its depth into the post"),
    # the post is 7 1/4 x 9 3/4 in
    ([('seat = "3/4 in"', 'seat = "9 3/4 in"')],
     'bracket "K5", shape, seat', "nothing is left of the post 'west post'"),
    # stock: 1 1/2 x 11 1/4 in for K1, 3 1/2 x 9 in for K2 and K5
    ([('thickness = "1 1/2 in"\n', 'thickness = "12 in"\n')], 'bracket "K1", shape, thickness',
     "12 in does not come out of its stock 'board', 1.5 x 11.25 in: name the [[stock]] that it is cut from"),
    ([('thickness = "1 1/2 in"\n', 'thickness = "2 in"\n')], 'bracket "K1", shape, thickness',
     "(along its broad side, where 1.5 in is left for a projection of 10 in)"),
    ([('stock = "block"\non = "plaster wall"', 'stock = "blck"\non = "plaster wall"')], 'bracket "K2", stock',
     "there is no [[stock]] named 'blck'; did you mean 'block'?"),
    # fixings
    ([('rows = [{ below_top = "2 in"', 'rows = [{ below_top = "9 in"'), ('below_top = "10 in"', 'below_top = "13 in"')],
     'bracket "K1", fixings, rows 2, below_top', "13 in below the top is not on the bracket, whose foot is at 12 in"),
    ([('below_top = "10 in"', 'below_top = "2 in"')], 'bracket "K1", fixings, rows 2, below_top',
     "row 1 is at 2 in already or lower: rows are written from the top down"),
    ([(ROWS, 'rows = [{ below_top = "2 in", count = 2 }]')], 'bracket "K1", fixings, rows 1, apart',
     "missing: 2 side by side need the distance from one to the next"),
    ([(ROWS, 'rows = [{ below_top = "2 in", count = 1, apart = "1 in" }]')], 'bracket "K1", fixings, rows 1, apart',
     "there is only one: write count = 2"),
    ([(ROWS, 'rows = [{ below_top = "2 in", count = 2, apart = "1 1/2 in" }]')], 'bracket "K1", fixings, rows 1, apart',
     "2 fasteners 1.5 in apart are 1.5 in wide: they do not go into a bracket 1.5 in thick"),
    ([(ROWS, 'rows = [{ below_top = "2 in", count = 1, from_side = "1 3/4 in" }]')],
     'bracket "K1", fixings, rows 1, from_side', "1.75 in from the side is outside of a bracket 1.5 in thick"),
    ([(ROWS, 'rows = [{ below_top = "2 in", count = 2, apart = "1 in", from_side = "3/4 in" }]')],
     'bracket "K1", fixings, rows 1, apart', "are 1 in wide and begin 0.75 in from the side"),
    ([('slot = "1 in"', 'slot = "4 in"')], 'bracket "K1", fixings, rows 2, slot', "it may be less than 4 in"),
    ([(ROWS, 'rows = [{ below_top = "6 in", count = 1 }, { below_top = "7 in", count = 1, slot = "2 in" }]')],
     'bracket "K1", fixings, rows 2, slot', "its slots run into the row above or below"),
    ([(ROWS, 'rows = [{ below_top = "6 in", count = 1, slot = "1 in" }]')], 'bracket "K1", fixings, rows 1, slot',
     "every row is slotted, so nothing keeps it from sliding down: leave the slot out of one row"),
    ([('slot = "1 in"', 'slot = "1/8 in"')], 'bracket "K1", fixings, rows 2, slot',
     "0.125 in is not longer than the fastener is thick, 0.19 in: it cannot slide"),
    ([(ROWS, 'rows = [{ below_top = "2 in", count = 2, apart = "1/8 in" }]')], 'bracket "K1", fixings, rows 1, apart',
     "the holes overlap; move them apart"),
    ([('below_top = "10 in", count = 1, slot = "1 in"', 'below_top = "2 1/8 in", count = 1')],
     'bracket "K1", fixings, rows 2, below_top', "0.125 in below row 1, but the fastener is 0.19 in thick"),
    ([('below_top = "2 in"', 'below_top = "1/16 in"')], 'bracket "K1", fixings, rows 1, below_top', "top edge"),
    ([('below_top = "10 in", count = 1', 'below_top = "10 in", count = 0')], 'bracket "K1", fixings, rows 2, count',
     "it must be at least 1"),
    ([(SCREW, SCREW.replace("4 in", "2 in"))], 'bracket "K1", fixings, fastener, length',
     "2 in does not reach through: it needs more than 2 in and as much as it must go in"),
    ([(SCREW, SCREW.replace("No. 10", "No. 99"))], 'bracket "K1", fixings, fastener, size', "'No. 99'"),
    ([(SCREW, 'fastener = { kind = "bolt", size = "1/2 in", steel = "A308" }')],
     'bracket "K1", fixings, fastener, steel',
     "grade of a bolt 'A308' is not known; did you mean 'A307'"),
    ([(SCREW, SCREW.replace(', length = "4 in"', ""))],
     'bracket "K1", fixings, fastener, length', "holds by its length"),
    ([('wall = "wood"', 'wall = "wood"\n  by_hand = "magnets"')], 'bracket "K1", fixings, by_hand',
     'by_hand = "magnets" says that nothing but magnets holds it, yet fastener is given'),
    ([('wall = "wood"', 'wall = "wood"\n  other = { stock = "blok", thickness = "5 in", grain = "across" }')],
     'bracket "K1", fixings, other, stock', "there is no [[stock]] named 'blok'; did you mean 'block'?"),
    # the beam above
    ([('near = { beam = "B1", at', 'near = { beam = "b1", at')], 'bracket "K2", near, beam',
     "there is no [[beam]] named 'b1'; did you mean 'B1'?"),
    ([('near = { beam = "B1", at', 'near = { beam = "west post", at')], 'bracket "K2", near, beam',
     "'west post' is the name of a [[post]], not of a [[beam]]"),
    ([('at = "2 ft", gap', 'at = "15 ft", gap')],
     'bracket "K2", near, at', "15 ft is beyond the end: the beam 'B1' is"),
    ([('gap = "1/4 in", pad', 'gap = "-1/4 in", pad')], 'bracket "K2", near, gap', "'-1/4 in': a length has no sign"),
    ([('pad = "2,000 lb/in"', 'pad = "2,000 lb"')], 'bracket "K2", near, pad', "has the dimension force"),
    ([('pad = "2,000 lb/in", ', "")], 'bracket "K2", near, pad', "missing: pad_squeezes is given, so how stiff is"),
    ([('pad_squeezes = "1/8 in"', 'pad_squeezes = "1/2 in"')], 'bracket "K2", near, pad_squeezes',
     "0.5 in is more than the gap of 0.25 in that the pad sits in"),
    ([('gap = "1/4 in", pad', 'gap = "1/4 in", fixed_to_beam = true, pad')], 'bracket "K2", near, fixed_to_beam',
     "screwed tight to the beam it has no gap, yet gap is 0.25 in"),
    ([(NEAR, 'near = { beam = "B1", at = "2 ft", fixed_to_beam = true, slot = "1 in"')], 'bracket "K2", near, slot',
     "screwed tight to the beam it cannot slide in slots"),
    ([('on = "plaster wall"', 'on = "B1"\nat = "2 ft"')], 'bracket "K2", near, beam',
     "'B1' is what the bracket is fixed to, so it goes up and down with it"),
    ([('on = "K5", lands_at = "2 in"', 'on = "K2", lands_at = "2 in"'),
      ('near = { beam = "B1"', 'near = { beam = "B9"')],
     'bracket "K2", near, gap', "support 1 of 'B9' rests on this bracket, so there is no gap of 0.25 in"),
    # what it hides
    ([('hides = ["grip"]', 'hides = ["grp"]')], 'bracket "K4", cover, hides 1',
     "there is no [[anchor]] or [[joint]] named 'grp'; did you mean 'grip'?"),
    ([('hides = ["grip"]', 'hides = ["hidden plate A"]')], 'bracket "K4", cover, hides 1',
     "'hidden plate A' is the name of a [[existing]], not of a [[anchor]]"),
    ([('hides = ["grip"]', 'hides = ["board"]')], 'bracket "K4", cover, hides 1', "'board' is a [[stock]]"),
    ([('hides = ["grip"]', 'hides = ["grip", "grip"]')], 'bracket "K4", cover, hides 2', "is named already"),
    # what it is fixed to, and where
    ([('on = "west post"\nat = "6 ft"', 'on = "west pst"\nat = "6 ft"')], 'bracket "K1", on',
     "there is no piece and no [[existing]] entry named 'west pst'; did you mean 'west post'?"),
    ([('on = "west post"\nat = "6 ft"', 'on = "K5"')], 'bracket "K1", on',
     "'K5' is a bracket, but a [[beam]] or [[post]] or [[existing]] or [[trim]] or [[frame]] entry is needed"),
    ([('on = "west post"\nat = "6 ft"', 'on = "grip"')], 'bracket "K1", on',
     "'grip' is an anchor, which only fastens: name the piece or [[existing]] entry behind it"),
    ([('on = "west post"\nat = "6 ft"', 'on = "R1"')], 'bracket "K1", on', "nothing rests on a rafter here"),
    ([('on = "B1"\nweight', 'on = "T1"\nweight')], 'trim "crown", on', "nothing rests on a tie here"),
    ([('at = "6 ft"', 'at = "9 ft"')], 'bracket "K1", at',
     "9 ft is beyond the end: the post 'west post' is 8 ft high"),
    ([('at = "13 ft"', 'at = "15 ft"')], 'bracket "K4", at', "15 ft is beyond the end: the beam 'B1' is 14 ft long"),
    ([('at = "13 ft"\n', "")], 'bracket "K4", at', "missing: 'B1' is a beam; say where along it the bracket stands"),
    ([('on = "K5", lands_at = "2 in"', 'on = "K5"')], 'beam "B9", supports 1, lands_at',
     "missing: 'K5' is a bracket; say how far out from its wall face this piece rests, for example "
     "lands_at = \"1.75 in\""),
    ([('lands_at = "2 in"', 'lands_at = "4 in"')], 'beam "B9", supports 1, lands_at',
     "4 in is beyond the nose: the bracket 'K5' stands out 3.5 in from the wall"),
    ([('on = "crown" }', 'on = "crown", lands_at = "1 in" }')], 'beam "B9", supports 2, lands_at',
     "only for a carrying beam or bracket, and 'crown' is not one"),
    ([('name = "K3"', 'name = "b1"')], 'bracket "b1", name', "the name 'B1' (case does not count) is taken by beam 1"),
    ([('name = "crown"', 'name = "K3"'), ('on = "crown"', 'on = "north wall"')], 'trim "K3", name',
     "the name is taken by bracket 3"),
]  # fmt: skip


@pytest.mark.parametrize(("changes", "where", "text"), WRONG)
def test_a_wrong_bracket(changes: list[tuple[str, str]], where: str, text: str) -> None:
    bad = changed(*changes)
    found = [problem for problem in problems(bad) if problem.where == where]
    assert len(found) == 1, problems(bad)
    assert text in found[0].text
    assert len(problems(bad)) == 1, problems(bad)


@pytest.mark.parametrize(
    ("change", "where", "marker"),
    [
        (('nose = "2 in"', 'nose = "2"'), 'bracket "K1", shape, nose', 'nose = "2"'),
        (('thickness = "1 1/2 in"\n  height', "height"), 'bracket "K1", shape, thickness', "[bracket.shape]"),
        (('family = "solid"', 'family = "slid"'), 'bracket "K1", shape, family', '"slid"'),
        (('below_top = "10 in"', 'below_top = "13 in"'), 'bracket "K1", fixings, rows 2, below_top', '"13 in"'),
        (('change = "6 %" }]', 'change = "6" }]'), 'bracket "K2", near, closing 1, change', "near = {"),
        (('at = "9 1/2 in" }', 'at = "11 in" }'), 'bracket "K1", carries 2, at', '"11 in"'),
    ],
)
def test_the_line_is_that_of_the_field(change: tuple[str, str], where: str, marker: str) -> None:
    bad = changed(change)
    problem = only_problem(bad)
    assert (problem.where, problem.line) == (where, line_with(bad, marker))


def test_a_bracket_within_a_circle_and_a_beam_that_is_only_near() -> None:
    """K4 stands on B1; B1 on K4 closes the circle. K2 is near B1 and fixed to what B1 stands on: no circle."""
    on = 'on = "hidden plate A", held_by'
    circle = GOOD_BRACKETS.replace(on, 'on = "K4", lands_at = "3 in", held_by')
    texts = [problem.text for problem in problems(circle)]
    assert 'these rest on each other in a circle: "B1" on "K4" on "B1"' in texts
    assert len(read_job_text(changed(('on = "plaster wall"', 'on = "west post"\nat = "6 ft"'))).bracket) == 5


def test_a_post_may_stand_on_a_bracket() -> None:
    post = '\n[[post]]\nname = "baluster"\nstock = "2x6"\nheight = "3 ft"\non = "K1"\n{}top_restraint = "pinned"\n'
    assert read_job_text(GOOD_BRACKETS + post.format('lands_at = "9 in"\n')).post[1].lands_at == 9.0
    found = only_problem(GOOD_BRACKETS + post.format(""))
    assert 'say how far out from its wall face this piece rests, for example lands_at = "5 in"' in found.text


def test_a_rafter_does_not_rest_on_a_bracket() -> None:
    found = only_problem(
        GOOD_BRACKETS.replace('wall = { at = "1 ft", on = "north wall" }', 'wall = { at = "1 ft", on = "K2" }')
    )
    assert found.where == 'rafter "R2", wall, on' and "'K2' is a bracket, but a [[beam]] or" in found.text


@pytest.mark.parametrize(("sweep", "out"), [("90 deg", 12.0), ("60 deg", 7.0), ("180 deg", 24.0), ("120 deg", 18.0)])
def test_how_far_an_arc_stands_out(sweep: str, out: float) -> None:
    """Radii 10 and 12 in, its foot upright against the wall: the furthest of 12 - r cos(sweep), r = 10 up to a quarter
    turn and 12 beyond it; cos 60 deg = 1/2, cos 120 deg = -1/2, cos 180 deg = -1 (closed form)."""
    make: Any = Bent
    bent = make(family="bent", thickness="1 in", depth="2 in", inner_radius="10 in", sweep=sweep)
    assert bent.stands_out == pytest.approx(out, rel=1e-12)


def test_brackets_made_in_python_take_shapes_and_refuse_in_the_same_words() -> None:
    shape: dict[str, Any] = {
        "family": "solid", "thickness": "1 1/2 in", "height": "12 in", "projection": "10 in", "foot": "2 in",
        "nose": "2 in", "soffit": "straight",
    }  # fmt: skip
    solid, bracket = Solid, Bracket
    made = bracket(name="K", role="decorative", stock="board", on="wall", shape=solid(**shape))
    assert made.shape == bracket(name="K", role="decorative", stock="board", on="wall", shape=shape).shape
    with pytest.raises(JobError, match="foot: the foot is 11 in deep"):
        solid(**{**shape, "foot": "11 in"})
    data = tomllib.loads(GOOD_BRACKETS)
    data["bracket"][0]["shape"] = solid(**shape)
    assert job_from_data(data).bracket[0].shape == made.shape
    for odd in (None, 3, [], [1], "solid", {"family": 3}, {"family": [1]}, {"family": None}, object(), made):
        data["bracket"][0]["shape"] = odd
        with pytest.raises(JobError, match='bracket "K1", shape'):
            job_from_data(data)


def test_a_family_of_thousands_of_digits_is_refused_without_noise() -> None:
    found = only_problem(changed(('family = "solid"', f"family = 0x{'f' * 5000}")))
    assert (found.where, found.text[:30]) == ('bracket "K1", shape, family', "that is not allowed: write 'so")


def test_the_schema_knows_brackets() -> None:
    validator = jsonschema.Draft202012Validator(job_schema())
    assert list(validator.iter_errors(tomllib.loads(GOOD_BRACKETS))) == []
    bad = tomllib.loads(changed(('family = "solid"', 'family = "sold"')))
    assert list(validator.iter_errors(bad))
    assert "discriminator" in json.dumps(job_schema())
