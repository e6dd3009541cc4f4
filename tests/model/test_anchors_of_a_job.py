"""Anchor groups in a job: what each manner needs, layouts, names, sizes of the tables, holes and lengths in the wood.

The sizes that messages name are worked out by hand beside the case. The data are invented.
"""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from beamcheck.errors import JobError, UnknownName
from beamcheck.model.anchors.anchor import Anchor, Holes
from beamcheck.model.job import Job
from beamcheck.model.links.anchors import hole_list
from beamcheck.model.links.hardware import diameter, nail_name
from beamcheck.model.reading.reader import read_job_text

from .jobs import GOOD, edited, line_with, only_problem, problems

FASTENER = 'fastener = { kind = "bolt", size = "3/4 in", steel = "A307", washer = "2 in", length = "8 1/2 in" }'
HOLES = 'holes = { rows = 2, columns = 2, spacing = "3 in", row_spacing = "3 in", end = "5 1/4 in", edge = "3 in" }'
PLATE = 'plate = { steel = "A36", thickness = "1/4 in", width = "6 in", length = "10 in", slot = "5/16 in" }'
SIDE = 'plate = { steel = "A36", thickness = "1/4 in", width = "6 in", length = "10 in" }'
OTHER = 'other = { stock = "old beam", thickness = "3 1/2 in", grain = "across" }'
RATING = 'rating = { source = "report 1 (invented), 2025, table 3", down = "800 lbf", duration = "included" }'
LAG = 'fastener = { kind = "lag screw", size = "1/2 in", length = "10 in" }'
NAIL = 'fastener = { kind = "nail", size = "16d common" }'
HELD = edited(
    ('{ at = "14 ft", on = "hidden plate A" }', '{ at = "14 ft", on = "hidden plate A", held_by = "east plate" }')
)


def anchor(manner: str, *parts: str) -> str:
    """The text of one [[anchor]]."""
    return "\n".join(["", "[[anchor]]", 'name = "east plate"', f'manner = "{manner}"', *parts, ""])


KNIFE = anchor("concealed plate", 'into = "hidden plate A"', FASTENER, HOLES, PLATE)
SIDED = anchor("plate one side", FASTENER, HOLES, SIDE)
GOOD_ONES = {
    "concealed plate": KNIFE,
    "pins": anchor("concealed plate", FASTENER.replace("bolt", "pin").replace(', washer = "2 in"', ""), HOLES, PLATE),
    "wood side": anchor("wood side", FASTENER.replace("8 1/2", "12"), HOLES, OTHER, 'gap = "1/2 in"', 'arm = "2 in"'),
    "plate one side": SIDED,
    "plates both sides": anchor("plates both sides", FASTENER, HOLES, SIDE),
    "ledger": anchor("ledger", LAG, HOLES, OTHER),
    "concrete": anchor("ledger", LAG, HOLES, 'other = { thickness = "8 in", grain = "along", material = "concrete" }'),
    "hanger rod": anchor("hanger rod", 'fastener = { kind = "bolt", size = "5/8 in", steel = "A36" }'),
    "let-in angle": anchor("let-in angle", 'fastener = { kind = "wood screw", size = "No. 14", length = "3 in" }',
                           HOLES, SIDE),
    "toe-nails": anchor("toe-nails", NAIL, HOLES, OTHER),
    "rated hardware": anchor("rated hardware", RATING),
    "by others": anchor("by others", 'confirmed_by = "invented sheet S-1, engineer"'),
    "holds nothing": anchor("holds nothing"),
    "places": anchor("plate one side", FASTENER, SIDE,
                     'holes = { places = [{ x = "5 in", y = "3 in" }, { x = "8 in", y = "6 in" }] }'),
}  # fmt: skip


@pytest.mark.parametrize("text", GOOD_ONES.values(), ids=GOOD_ONES)
def test_each_manner_is_read(text: str) -> None:
    job = read_job_text(HELD + text)
    assert [one.name for one in job.anchor] == ["east plate"]
    assert job.beam[0].supports[1].held_by == "east plate"


# the anchor; its field; what is said
MANNERS = [
    (anchor("concealed plate", FASTENER, HOLES), "plate", "'concealed plate' needs the plate or angle; for"),
    (anchor("wood side", FASTENER, HOLES), "other", "'wood side' needs the wood or concrete on the other side"),
    (anchor("ledger", LAG, OTHER), "holes", "'ledger' needs where the holes are; for example holes = {"),
    (anchor("plate one side", HOLES, SIDE), "fastener", "'plate one side' needs what fastener it is; for example"),
    (anchor("rated hardware"), "rating", "'rated hardware' needs the published loads and their source"),
    (anchor("wood side", FASTENER.replace("8 1/2", "12"), HOLES, OTHER, RATING), "rating", "does not belong to 'wood"),
    (anchor("plate one side", FASTENER, HOLES, SIDE, OTHER), "other", "the plate is its other side; leave other out"),
    (anchor("holds nothing", 'gap = "1 in"'), "gap", "does not belong to 'holds nothing'"),
    (anchor("by others", NAIL), "fastener", "somebody else answers for it and nothing of it is checked here"),
    (anchor("holds nothing", NAIL), "fastener", "it counts for nothing, whatever it is; leave fastener out"),
    (anchor("rated hardware", RATING, HOLES), "holes", "it holds what its report says and no more"),
    (anchor("rated hardware", RATING, 'confirmed_by = "letter of 3 May"'), "confirmed_by", "does not belong to"),
    (anchor("concealed plate", LAG, HOLES, PLATE), "fastener, kind", "'lag screw' does not go with 'concealed plate': "
     "write 'bolt' or 'pin'"),
    (anchor("hanger rod", NAIL), "fastener, kind", "write 'bolt' (a rod goes through, with nut and washer"),
    (anchor("toe-nails", LAG, HOLES, OTHER), "fastener, kind", "does not go with 'toe-nails': write 'nail'"),
    (anchor("plates both sides", LAG, HOLES, SIDE), "fastener, kind", "write 'bolt' (two plates are its other side)"),
    (anchor("plate one side", FASTENER, HOLES, PLATE), "plate, slot", "only a concealed plate sits in a slot"),
    (anchor("concealed plate", FASTENER, HOLES, SIDE), "plate, slot", "missing: how wide is the slot"),
]  # fmt: skip


@pytest.mark.parametrize("text, field, said", MANNERS)
def test_what_a_manner_needs_and_what_does_not_belong_to_it(text: str, field: str, said: str) -> None:
    problem = only_problem(HELD + text)
    assert problem.where == f'anchor "east plate", {field}'
    assert said in problem.text


# what is replaced in the good knife plate; by what; the field; what is said
FIELDS = [
    (HOLES, 'holes = { rows = 2, end = "5 in", edge = "3 in" }', "holes, row_spacing",
     "missing: 2 rows need the distance from row to row, for example row_spacing"),
    (HOLES, 'holes = { columns = 3, end = "5 in", edge = "3 in" }', "holes, spacing", "missing: 3 columns need"),
    (HOLES, 'holes = { spacing = "3 in", end = "5 in", edge = "3 in" }', "holes, spacing",
     "but only one: write columns = 2 or more, or leave spacing out"),
    (HOLES, 'holes = { columns = 1, edge = "3 in" }', "holes, end", "missing: from the end of the held piece"),
    (HOLES, 'holes = { columns = 1, end = "5 in" }', "holes, edge", "missing: from the bottom edge"),
    (HOLES, "holes = {}", "holes", "no holes are given: write rows and columns, or places"),
    (HOLES, 'holes = { rows = 2, places = [{ x = "5 in", y = "3 in" }] }', "holes, rows",
     "place by place already: leave rows out"),
    (HOLES, 'holes = { places = [{ x = "5 in", y = "3 in" }, { x = "5 in", y = "3 in" }] }', "holes, places 2",
     "hole 1 is at the same place"),
    # 3/4 in bolts 1/2 in apart
    (HOLES, HOLES.replace('row_spacing = "3 in"', 'row_spacing = "1/2 in"'), "holes, row_spacing",
     "0.5 in from middle to middle, but the fastener is 0.75 in thick: the holes overlap"),
    # the 3-4-5 triangle in eighths: 5/8 in apart
    (HOLES, 'holes = { places = [{ x = "5 in", y = "3 in" }, { x = "5 3/8 in", y = "3 1/2 in" }] }', "holes, places 2",
     "hole 1 and hole 2: 0.625 in from middle to middle"),
    # the beam is 9 3/4 in deep: 3 + 6 5/8 + 3/8 = 10, a quarter above its top
    (HOLES, HOLES.replace('row_spacing = "3 in"', 'row_spacing = "6 5/8 in"'), "holes, row_spacing",
     "the hole in row 2, column 1 leaves the wood by 0.25 in, above the top of 'B1', 9.75 in deep: its middle at most "
     "9.375 in up"),
    (HOLES, HOLES.replace('edge = "3 in"', 'edge = "1/4 in"'), "holes, edge",
     "the hole in row 1, column 1 leaves the wood by 0.125 in, below the bottom edge of 'B1'"),
    (HOLES, HOLES.replace('end = "5 1/4 in"', 'end = "1/4 in"'), "holes, end", "by 0.125 in, beyond the end of 'B1'"),
    # 14 ft = 168 in: 5 1/4 + 165 + 3/8 is 2 5/8 over
    (HOLES, HOLES.replace('spacing = "3 in", row', 'spacing = "110 in", row').replace("columns = 2", "columns = 3"),
     "holes, spacing", "the hole in row 1, column 3 leaves the wood by 57.62 in, beyond the other end of 'B1'"),
    (HOLES, 'holes = { places = [{ x = "5 in", y = "3 in" }, { x = "8 in", y = "9 1/2 in" }] }', "holes, places 2, y",
     "hole 2 leaves the wood by 0.125 in, above the top"),
    ('size = "3/4 in"', 'size = "9/16 in"', "fastener, size", "bolt size '9/16 in' is not known; known are '1/4', "),
    ('"A307"', '"A3O7"', "fastener, steel", "grade of a bolt 'A3O7' is not known; did you mean 'A307'?"),
    ('"A36"', '"A63"', "plate, steel", "grade of steel 'A63' is not known; did you mean 'A36'?"),
    ('steel = "A307"', 'coating = "galvanised"', "fastener, coating", "'galvanised' is not allowed: write 'none'"),
    ('steel = "A307"', "plugged = true", "fastener, plugged", "`plugged` without a bore to plug"),
    ('steel = "A307"', 'counterbore = "2 1/4 in"', "fastener, counterbore_depth", "missing: a bore needs its depth"),
    ('steel = "A307"', 'counterbore_depth = "1 in"', "fastener, counterbore", "missing: a bore needs its diameter"),
    ('steel = "A307"', 'counterbore = "1 3/4 in", counterbore_depth = "1 in"', "fastener, counterbore",
     "a washer 2 in across does not go into a bore of 1.75 in: bore at least 2 in"),
    # cheeks of (7 1/4 - 5/16)/2 = 3.469 in
    ('steel = "A307"', 'counterbore = "2 1/4 in", counterbore_depth = "3 1/2 in"', "fastener, counterbore_depth",
     "3.5 in: nothing is left under the head, each cheek of 'B1' is 3.469 in thick"),
    ('steel = "A307"', 'F_yb = "92,000 psi"', "fastener, F_yb_from", "a strength by the maker needs its source"),
    ('steel = "A307"', 'F_yb_from = "data sheet 12"', "fastener, F_yb", "missing: F_yb_from names its source"),
    ('washer = "2 in"', 'washer = "1/2 in"', "fastener, washer", "0.5 in is not wider than the bolt, 0.75 in thick"),
    ('length = "8 1/2 in"', 'length = "7 1/4 in"', "fastener, length",
     "7.25 in does not come out on the other side: it needs more than 7.25 in and as much as its nut takes"),
    ('slot = "5/16 in"', 'slot = "3/16 in"', "plate, slot", "a plate 0.25 in thick does not go into a slot 0.1875 in"),
    ('slot = "5/16 in"', 'slot = "7 1/4 in"', "plate, slot", "a slot 7.25 in wide leaves no cheeks of 'B1', 7.25 in"),
    ('slot = "5/16 in"', 'slot_length = "12 in"', "plate, slot", "slot_length is given, so how wide is the slot"),
    # the second column is 5 1/4 + 3 = 8 1/4 in from the end
    ('slot = "5/16 in"', 'slot = "5/16 in", slot_length = "8 in"', "holes, columns",
     "8.25 in from the end, but the slot ends at 8 in and the plate with it: lengthen the slot by 0.25 in"),
    ('slot = "5/16 in"', 'slot = "5/16 in", slot_height = "5 in"', "plate, slot_height", "not go into a slot 5 in"),
    ('slot = "5/16 in"', 'slot = "5/16 in", slot_height = "10 in"', "plate, slot_height", "more than the depth of"),
    ('width = "6 in"', 'width = "10 in"', "plate, width", "a plate 10 in wide is not concealed in 'B1', 9.75 in deep"),
    ('length = "10 in"', 'length = "30 ft"', "plate, length", "360 in cannot be right: from 0.25 to 240 in"),
    ('into = "hidden plate A"', 'into = "hidden plate"', "into", "named 'hidden plate'; did you mean 'hidden plate A'"),
    ('into = "hidden plate A"', 'into = "2x6"', "into", "'2x6' is a [[stock]], a kind of stick and not a piece"),
    ('into = "hidden plate A"', 'into = "east plate"', "into", "'east plate' is an anchor itself"),
    ('manner = "concealed plate"', 'manner = "hidden plate"', "manner", "is not allowed: write 'wood side'"),
]  # fmt: skip


@pytest.mark.parametrize("old, new, field, said", FIELDS)
def test_a_wrong_field_is_named_with_what_would_be_right(old: str, new: str, field: str, said: str) -> None:
    text = HELD + edited((old, new), text=KNIFE)
    problem = only_problem(text)
    assert problem.where == f'anchor "east plate", {field}'
    assert said in problem.text
    begins = line_with(text, "[[anchor]]")
    assert problem.line is not None and begins <= problem.line <= begins + 8


OTHERS = [
    (anchor("ledger", LAG.replace("1/2 in", "9/16"), HOLES, OTHER), "fastener, size", "lag screw size '9/16' is not"),
    (anchor("toe-nails", NAIL.replace("16d common", "16d comon"), HOLES, OTHER), "fastener, size",
     "size of a nail '16d comon' is not known; did you mean '16d common'"),
    (anchor("toe-nails", NAIL.replace("16d common", "17d box"), HOLES, OTHER), "fastener, size", "'7d box'"),
    (anchor("wood side", 'fastener = { kind = "wood screw", size = "No. 11", length = "9 in" }', HOLES, OTHER),
     "fastener, size", "wood screw size 'No. 11' is not known; did you mean 'No. 18'"),
    (anchor("ledger", LAG.replace(', length = "10 in"', ""), HOLES, OTHER), "fastener, length",
     "missing: a lag screw holds by its length"),
    (anchor("ledger", LAG, HOLES, OTHER.replace("old beam", "old bean")), "other, stock", "did you mean 'old beam'?"),
    (anchor("ledger", LAG, HOLES, OTHER.replace("grain", 'material = "concrete", grain')), "other, stock",
     "concrete is no [[stock]]: leave stock out"),
    (anchor("ledger", LAG, HOLES, 'other = { thickness = "8 in", grain = "end", material = "concrete" }'),
     "other, grain", "concrete has no end grain"),
    # held piece 7 1/4 in thick, gap 1/2 in
    (anchor("wood side", LAG.replace("10 in", "7 1/2 in"), HOLES, OTHER, 'gap = "1/2 in"'), "fastener, length",
     "7.5 in does not reach the other side: it needs more than 7.75 in and as much as it must go in"),
    # 7 1/4 + 3 1/2 + 1/2 less two bores of 1 in
    (anchor("wood side", FASTENER.replace("washer", 'counterbore = "2 1/4 in", counterbore_depth = "1 in", washer'),
            HOLES, OTHER, 'gap = "1/2 in"'), "fastener, length", "more than 9.25 in and as much as its nut takes"),
    # a 16d common nail is 3 1/2 in long (NDS Table L4, read)
    (anchor("wood side", NAIL, HOLES, OTHER), "fastener, size", "3.5 in does not reach the other side"),
    (anchor("plate one side", LAG.replace("10 in", "3 in"), HOLES, SIDE, 'gap = "3 in"'), "fastener, length",
     "3 in does not reach 'B1': it needs more than 3.25 in"),
    (anchor("hanger rod", 'fastener = { kind = "bolt", size = "5/8 in", steel = "A38" }'), "fastener, steel",
     "grade of a bolt 'A38' is not known; did you mean 'A36'?"),
    (anchor("toe-nails", NAIL.replace(" }", ', steel = "A307" }'), HOLES, OTHER), "fastener, steel",
     "a nail has no steel: leave it out ('bolt' or 'pin' may have one)"),
    (anchor("toe-nails", NAIL.replace(" }", ', washer = "1 in" }'), HOLES, OTHER), "fastener, washer", "no washer"),
    (anchor("wood side", FASTENER, HOLES, OTHER, 'gap = "-1 in"'), "gap", "a length has no sign"),
    (anchor("rated hardware", RATING.replace('down = "800 lbf", ', "")), "rating", "a rating without a load: give the "
     "direction that the report covers (down, up or along)"),
    (anchor("rated hardware", RATING.replace("800 lbf", "0 lbf")), "rating, down", "0 lbf cannot be right"),
    (anchor("rated hardware", RATING.replace('source = "report 1 (invented), 2025, table 3", ', "")), "rating, source",
     "missing: report, number, edition, table; for example source ="),
    (anchor("rated hardware", RATING.replace("report 1 (invented), 2025, table 3", "catalog")), "rating, source",
     "'catalog' is too short: at least 8 character(s) are needed"),
]  # fmt: skip


@pytest.mark.parametrize("text, field, said", OTHERS)
def test_other_groups_that_cannot_be(text: str, field: str, said: str) -> None:
    problem = only_problem(HELD + text)
    assert problem.where == f'anchor "east plate", {field}'
    assert said in problem.text


def test_all_faults_of_a_group_come_at_once() -> None:
    bad = edited(
        ('size = "3/4 in"', 'size = "3/5 in"'), ('"A307"', '"A3070"'), ('"A36"', '"A360"'),
        ('slot = "5/16 in"', 'slot = "1/8 in"'), ('"hidden plate A"', '"nowhere"'), text=KNIFE,
    )  # fmt: skip
    found = problems(HELD.replace('stock = "2x6"\nsupports', 'stock = "2x9"\nsupports') + bad)
    where = {problem.where for problem in found}
    assert {f'anchor "east plate", {field}' for field in
            ("fastener, size", "fastener, steel", "plate, steel", "plate, slot", "into")} < where  # fmt: skip
    assert 'beam "J1", stock' in where


def test_an_anchor_that_nobody_names_is_not_left_unchecked() -> None:
    problem = only_problem(GOOD + KNIFE)
    assert problem.where == 'anchor "east plate"'
    assert 'write held_by = "east plate" at the support that it holds, or delete it' in problem.text


@pytest.mark.parametrize(
    "old, new, where, said",
    [
        ('held_by = "east plate"', 'held_by = "east plat"', 'beam "B1", supports 2, held_by',
         "there is no [[anchor]] named 'east plat'; did you mean 'east plate'?"),
        ('held_by = "east plate"', 'held_by = "north wall"', 'beam "B1", supports 2, held_by',
         "'north wall' is the name of a [[existing]], not of an [[anchor]]"),
        ('on = "hidden plate A", held', 'on = "east plate", held', 'beam "B1", supports 2, on',
         "'east plate' is an anchor, which only fastens: write held_by = \"east plate\""),
        ('height = "1 ft"', 'height = "1 ft"\nends_held_by = "east plat"', 'tie "T1", ends_held_by', "did you mean"),
        ('wall = { at = "1 ft"', 'wall = { held_by = "west plate", at = "1 ft"', 'rafter "R2", wall, held_by', "did"),
        ('name = "footing"', 'name = "East plate"', 'anchor "east plate", name', "is taken by existing 3 of the job"),
    ],
)  # fmt: skip
def test_names_lead_to_anchors_and_are_taken_once(old: str, new: str, where: str, said: str) -> None:
    found = [problem for problem in problems(edited((old, new), text=HELD + KNIFE)) if problem.where == where]
    assert len(found) == 1
    assert said in found[0].text


def test_one_group_may_hold_two_ends_and_the_ends_of_a_tie() -> None:
    twice = edited(
        ('bearing = "5 1/2 in" }', 'bearing = "5 1/2 in", held_by = "east plate" }'),
        ('height = "1 ft"', 'height = "1 ft"\nends_held_by = "tie bolts"'),
        text=HELD,
    )
    # a 2x6 is 5 1/2 in deep
    bolts = anchor("plate one side", FASTENER, 'holes = { columns = 2, spacing = "3 in", end = "6 in", edge = "3 in" }',
                   SIDE).replace("east plate", "tie bolts")  # fmt: skip
    assert len(read_job_text(twice + KNIFE + bolts).anchor) == 2
    high = bolts.replace('edge = "3 in"', 'edge = "5 1/4 in"')
    assert "by 0.125 in, above the top of 'T1', 5.5 in deep" in only_problem(twice + KNIFE + high).text


def test_a_piece_laid_flat_is_as_deep_as_it_is_thick() -> None:
    flat = edited(('finish = "plaster"', 'finish = "plaster"\nlaid = "flat"'), ('"5 in" }', '"4 in" }'), text=HELD)
    long_bolt = KNIFE.replace("8 1/2 in", "11 in").replace('row_spacing = "3 in"', 'row_spacing = "4 in"')
    assert "by 0.125 in, above the top of 'B1', 7.25 in deep" in only_problem(flat + long_bolt).text


def test_python_meets_the_same_rules() -> None:
    with pytest.raises(JobError, match="row_spacing: missing: 2 rows need the distance from row to row"):
        Holes(rows=2, end="5 in", edge="3 in")
    assert Anchor(name="a", manner="holds nothing").gap == 0.0
    assert "anchor" in Job.model_fields


@settings(max_examples=50, deadline=None)
@given(st.integers(1, 20), st.integers(1, 40), st.floats(1, 100), st.floats(1, 50))
def test_a_layout_lists_its_holes_in_even_steps(rows: int, columns: int, spacing: float, apart: float) -> None:
    holes = hole_list(
        Holes(
            rows=rows, columns=columns, end="5 in", edge="3 in",
            spacing=f"{spacing} in" if columns > 1 else None, row_spacing=f"{apart} in" if rows > 1 else None,
        )
    )  # fmt: skip
    assert len(holes) == rows * columns
    assert (holes[0].x, holes[0].y) == (5.0, 3.0)
    assert holes[-1].x == pytest.approx(5.0 + (columns - 1) * spacing)
    assert holes[-1].y == pytest.approx(3.0 + (rows - 1) * apart)


def test_sizes_as_the_trade_writes_them() -> None:
    """NDS 2018 Tables L1 to L4 (read)."""
    assert diameter("bolt", "3/4 in") == diameter("pin", '3/4"') == 0.75
    assert diameter("lag screw", "1/2") == 0.5
    assert diameter("wood screw", "10") == diameter("wood screw", "No. 10") == 0.19
    assert diameter("nail", "16d common") == diameter("nail", "Common 16d nail") == 0.162
    assert nail_name("8d box") == ("box", "8d")
    with pytest.raises(UnknownName, match="did you mean"):
        nail_name("16d")
