"""Brackets whose data contradict each other, or leave out what an engineer asks for: none of them may pass."""

from __future__ import annotations

import tomllib
from pathlib import Path
from typing import Any

import pytest

from beamcheck.checks.brackets.body import Body
from beamcheck.checks.brackets.covers.cover import cover_checks
from beamcheck.checks.brackets.families.registry import family_of
from beamcheck.checks.brackets.fixings.fixings import fixing_checks
from beamcheck.checks.core.context import Context, Structure
from beamcheck.checks.core.result import Check
from beamcheck.checks.core.wood.material import rows_to_screen
from beamcheck.checks.job import check_job
from beamcheck.checks.questions.best_answers import best
from beamcheck.errors import JobError, UnknownName
from beamcheck.model.anchors.anchor import Anchor
from beamcheck.model.beams import Beam
from beamcheck.model.existing import Existing
from beamcheck.model.job_paths import with_values
from beamcheck.model.reading.reader import job_from_data, read_job_text
from beamcheck.values.lumber import read_size, screening_rows

from ..anchors.anchors import said, stock
from .brackets import (
    BENT,
    BRACED,
    CORBEL,
    LAG,
    OTHER,
    SOLID,
    STRAP,
    Data,
    body_of,
    bracket,
    find,
    fixings,
    loads_of,
    structure,
    wood,
)

SHAPES = {"braced": BRACED, "corbel": CORBEL, "bent": BENT}


def body(shape: Data, load: Data | None = None, **more: Any) -> list[Check]:
    here = structure()
    carries = [{"what": "shelf", "live": "100 lb", "at": "3 in", "bearing": "2 in", **(load or {})}]
    piece = bracket(shape, carries=carries, **more)
    return body_of(piece, here).checks


def held(
    shape: Data = SOLID, *, existing: Data | None = None, on: str = "post", at: float | None = None, **more: Any
) -> list[Check]:
    """Checks of the fixings, on the post or on a wall by others."""
    here = structure(thin=stock("2x6 dressed", name="thin"))
    named = {
        "name": "wall",
        "what": "studs",
        "material": "wood",
        "confirmed_by": "invented sheet S-1, engineer",
        **(existing or {}),
    }
    pieces = {**here.structure.pieces, "wall": Existing.model_validate(named)}
    context = Context(Structure(here.structure.stocks, pieces))
    piece = bracket(shape, "20 lb", "3 in", on=on, fixings=fixings(**more))
    if at is not None:  # a load of the helper has an `at` of its own
        piece = piece.model_copy(update={"at": at})
    made = wood(context) if piece.stock is not None else None
    return fixing_checks(family_of(piece), loads_of(piece, context), Body(), made, context)


def what(checks: list[Check], name: str) -> list[Check]:
    return [check for check in checks if check.what.startswith(name)]


# ---- knots and bearing ------------------------------------------------------------------------------------------


@pytest.mark.parametrize("family", SHAPES)
@pytest.mark.parametrize("knots", [None, "in the throat", "not looked at"])
def test_knots_that_nobody_ruled_out_refer(family: str, knots: str | None) -> None:
    assert find(body(SHAPES[family], knots=knots), "knots in the throat").verdict == "refer"
    assert not what(body(SHAPES[family], knots="none in the throat"), "knots in the throat")


@pytest.mark.parametrize("family", SHAPES)
def test_what_presses_on_the_top_edge_is_checked(family: str) -> None:
    """100 lb on 0.01 in of the thickness, by division; no length is no answer."""
    thickness = {"braced": 2.5, "corbel": 3.5, "bent": 1.5}[family]
    pressed = find(body(SHAPES[family], {"bearing": "0.01 in"}), "bearing of shelf")
    assert pressed.demand == pytest.approx(100.0 / 0.01 / thickness, rel=1e-6)
    assert pressed.verdict == "fails"
    assert find(body(SHAPES[family]), "bearing of shelf").verdict == "passes"
    assert "`bearing`" in said([find(body(SHAPES[family], {"bearing": None}), "bearing of shelf")], "refer")


def test_bearing_across_the_grain_of_a_top_leg_by_hand() -> None:
    """625 psi of Douglas Fir-Larch (NDS Supplement Table 4A, memory): level grain, C_D does not count."""
    assert find(body(BRACED), "bearing of shelf").capacity == pytest.approx(625.0)


def test_end_grain_takes_three_quarters_without_a_plate() -> None:
    """F_c 1,500 psi x C_F 1.1 (6 in) x 0.75 (Table 4A and NDS 2018 3.10.1.3, memory)."""
    assert find(body(CORBEL), "bearing of shelf").capacity == pytest.approx(0.75 * 1500.0 * 1.1)


def test_loads_whose_seats_overlap_press_together() -> None:
    """Two times 100 lb on 2 in each, 1 in apart: 100 psi where both lie, with 3 1/2 in: 2 x 50/3.5."""
    two = [{"what": name, "live": "100 lb", "at": at, "bearing": "2 in"} for name, at in (("a", "1 in"), ("b", "2 in"))]
    here = structure()
    piece = bracket(CORBEL, carries=two)
    found = find(body_of(piece, here).checks, "bearing of a, b")
    assert found.demand == pytest.approx(100.0 / 3.5)


def test_half_of_a_seat_at_the_nose_hangs_in_the_air() -> None:
    """100 lb centered on the nose, 2 in long: 1 in of it lies on the block."""
    found = find(body(CORBEL, {"at": "3 1/2 in"}), "bearing of shelf")
    assert found.demand == pytest.approx(100.0 / 3.5)


def test_a_short_line_load_is_no_way_around_it() -> None:
    """1,200 lb per foot over 1/4 in: 100 lb/in on 3 1/2 in."""
    line = {"live": "1,200 plf", "at": None, "bearing": None, "from": "2 in", "to": "2.25 in"}
    assert find(body(CORBEL, line), "bearing of shelf").demand == pytest.approx(100.0 / 3.5)


@pytest.mark.parametrize("shape", [BRACED, CORBEL, BENT, STRAP], ids=["braced", "corbel", "bent", "steel core"])
def test_what_hangs_on_it_refers(shape: Data) -> None:
    assert find(body(shape, {"applied": "side", "bearing": None}), "hangs on its side").verdict == "refer"
    assert find(body(shape, {"applied": "below", "bearing": None}), "hangs below it").verdict == "refer"
    assert not what(body(shape, {"applied": "top"}), "hangs below it")


# ---- what the fasteners go into ---------------------------------------------------------------------------------


@pytest.mark.parametrize("material", ["masonry", "concrete", "steel", "other"])
@pytest.mark.parametrize("shape", [SOLID, STRAP], ids=["solid", "steel core"])
def test_wood_fasteners_into_a_wall_that_is_not_of_wood_refer(material: str, shape: Data) -> None:
    rows = [{"below_top": "1 in", "count": 1}, {"below_top": "3 in", "count": 1}]
    found = held(shape, on="wall", existing={"material": material}, rows=rows)
    assert find(found, "what the fasteners go into").verdict == "refer"
    assert not what(held(shape, on="wall", rows=rows), "what the fasteners go into")


@pytest.mark.parametrize("wall", ["masonry", "steel"])
def test_a_back_against_masonry_with_screws_into_wood_refers(wall: str) -> None:
    assert find(held(wall=wall), "wall and fasteners").verdict == "refer"
    assert not what(held(), "wall and fasteners")


def test_another_stock_than_that_of_the_post_refers() -> None:
    found = find(held(other={**OTHER, "stock": "thin", "thickness": "1 1/2 in"}), "what the fasteners go into")
    assert found.verdict == "refer" and "thin" in found.notes[0]


@pytest.mark.parametrize(("thickness", "kept"), [("3 1/2 in", True), ("5 1/2 in", True), ("4 1/2 in", False),
                                                 ("3 3/4 in", False), ("9 in", False)])  # fmt: skip
def test_a_thickness_that_the_post_does_not_have_refers(thickness: str, kept: bool) -> None:
    """A 4x6 is 3 1/2 x 5 1/2 in."""
    found = what(held(other={**OTHER, "thickness": thickness}), "wood behind")
    assert [check.verdict for check in found] == ([] if kept else ["refer"])


@pytest.mark.parametrize("wall", ["plaster", "gypsum board"])
def test_a_skin_of_no_thickness_refers(wall: str) -> None:
    """The fasteners lose its thickness of hold in the wood behind, so it must be given."""
    assert find(held(wall=wall), "thickness of the skin").verdict == "refer"
    assert not what(held(wall=wall, gap="1/2 in"), "thickness of the skin")


@pytest.mark.parametrize("at, end, verdicts", [
    (36.0, "24 in", []), (96.0, "24 in", ["fails"]), (91.0, "24 in", ["fails"]), (85.0, "24 in", ["refer"]),
    (85.0, "2 in", []), (78.0, "24 in", []),
])  # fmt: skip
def test_rows_stand_on_the_post_as_far_from_its_end_as_is_said(at: float, end: str, verdicts: list[str]) -> None:
    """Post of 96 in, back of 12 in, rows 3 in and 7 in below its top: from a foot at 85 in the upper is 94 in up.

    Of 3/8 in lag screws the end matters up to 7 D = 2.63 in (NDS 2018 Table 12.5.1A, memory): 2 in is less.
    """
    found = what(held(other={**OTHER, "end": end}, at=at), "rows on the post")
    assert [check.verdict for check in found] == verdicts


@pytest.mark.parametrize("at, below, kept", [(None, "12 in", True), (12.0, "12 in", True), (11.0, "12 in", False)])
def test_there_is_no_more_post_below_a_dap_than_stands_under_its_foot(at: float | None, below: str, kept: bool) -> None:
    here = structure()
    shape = {**CORBEL, "seat": "3/4 in", "below_seat": below}
    piece = bracket(shape, "100 lb", "2 in").model_copy(update={"at": at})
    found = body_of(piece, here).checks
    wrong = [one for one in what(found, "wood of the post below the dap") if one.verdict != "passes"]
    assert [one.verdict for one in wrong] == ([] if kept else ["refer"])


# ---- steel bar --------------------------------------------------------------------------------------------------

GUSSET: Data = {"gusset_depth": "2 in", "gusset_thickness": "1/4 in", "gusset_edge": "2.83 in", "weld": "3/16 in"}
LONG: Data = {**STRAP, "width": "3 in", "down": "7 in"}


def test_a_lag_in_the_middle_of_a_gusset_refers() -> None:
    """Heads of 3/8 in lags are 0.66 in across their corners: 1 3/16 in from the middle they stand clear."""
    rows: list[Data] = [{"below_top": "1 in", "count": 1}, {"below_top": "6 1/2 in", "count": 1}]
    found = find(held({**LONG, **GUSSET}, rows=rows, through=None), "heads beside the gusset")
    assert (found.verdict, found.where) == ("refer", "row 1")
    aside = [{"below_top": "1 in", "count": 2, "apart": "1 3/4 in"}, rows[1]]
    assert not what(held({**LONG, **GUSSET}, rows=aside, through=None), "heads beside the gusset")
    washer = {**LAG, "washer": "1 1/2 in"}
    assert what(held({**LONG, **GUSSET}, rows=aside, through=None, fastener=washer), "heads beside the gusset")
    below = [{"below_top": "3 in", "count": 1}, rows[1]]
    assert not what(held({**LONG, **GUSSET}, rows=below, through=None), "heads beside the gusset")


@pytest.mark.parametrize(("edge", "words"), [("2 in", "not longer than"), ("1 in", "not longer than"),
                                             ("9 in", "beyond the nose")])  # fmt: skip
def test_a_free_edge_that_no_gusset_has(edge: str, words: str) -> None:
    with pytest.raises(JobError, match=words):
        bracket({**STRAP, **GUSSET, "gusset_edge": edge})


def test_a_steep_gusset_is_welded_along_its_short_leg_only() -> None:
    """Edge 2.5 in, 2 in deep: 1.5 in along the bar (3, 4, 5); welds there carry more per inch than on 2 in."""

    def weld(edge: str) -> float:
        found = body({**LONG, **GUSSET, "gusset_edge": edge}, {"at": "8 in"})
        return find(found, "welds of the gusset").demand or 0.0

    assert weld("2.5 in") > 1.3 * weld("2.83 in")


def test_down_is_where_the_lowest_row_is() -> None:
    rows: list[Data] = [{"below_top": "1 in", "count": 1}, {"below_top": "5 1/2 in", "count": 1}]
    assert find(held(LONG, rows=rows, through=None), "lowest fixing of the upright leg").verdict == "refer"
    near = [rows[0], {"below_top": "6 in", "count": 1}]
    assert not what(held(LONG, rows=near, through=None), "lowest fixing of the upright leg")


def test_rows_below_the_upright_leg_are_bad_input() -> None:
    with pytest.raises(JobError, match="upright leg"):
        bracket(LONG, fixings=fixings(rows=[{"below_top": "1 in", "count": 1}, {"below_top": "8 in", "count": 1}]))


def test_room_for_the_tip_is_asked_for_without_a_skin_too() -> None:
    assert "`tip_clear`" in said(body(STRAP), "refer")
    assert "`tip_clear`" not in said(body({**STRAP, "tip_clear": "1/2 in"}), "refer")


# ---- covers -----------------------------------------------------------------------------------------------------

POCKET: Data = {"top": "2 in", "height": "6 in", "depth": "1 1/2 in", "width": "2 1/2 in"}
HIDING: Data = {"hides": ["A"], "heads_stand_out": "3/4 in", "heads_width": "1 1/2 in", "heads_height": "4 1/2 in",
                "hidden_moves": "1/16 in", "change": "6 %", "fixed_at_one_line": True, "reveal": "1/4 in"}  # fmt: skip
ROW: Data = {"below_top": "1 in", "count": 1}


def cover(
    said_of: Data | None = None, group: Data | None = None, *, support: Data | None = None, grain: str = "upright",
    rows: list[Data] | None = None, holder: str | None = "A",
) -> list[Check]:  # fmt: skip
    """A cover on the post; group A: two lags with washers of 1 1/2 in, 3 in above each other, holding a beam there."""
    here = structure()
    anchor = Anchor.model_validate({
        "name": "A", "manner": "wood side", "into": "post", "fastener": {**LAG, "washer": "1 1/2 in"},
        "holes": {"rows": 2, "columns": 1, "row_spacing": "3 in", "end": "4 in", "edge": "2 in"}, "other": OTHER,
            **(group or {}),
    })  # fmt: skip
    beam = Beam.model_validate({
        "name": "B", "stock": "wood", "service": "floor", "finish": "none", "top_held": "full length",
        "supports": [
            {"at": "0 ft", "on": "post", "holds": "hung", "held_by": holder, **(support or {})},
            {"at": "8 ft", "on": "slab", "bearing": "3 in"},
        ],
    })  # fmt: skip
    context = Context(Structure(here.structure.stocks, {**here.structure.pieces, "B": beam}, {"A": anchor}))
    piece = bracket(
        {**SOLID, "grain": grain, "pocket": POCKET}, role="cover", accidental="not for load",
        cover={**HIDING, **(said_of or {})}, fixings=fixings(rows=rows or [ROW]),
    )  # fmt: skip
    loads, family, made = loads_of(piece, context, 5.0), family_of(piece), wood(context)
    return [*cover_checks(family, loads, context), *fixing_checks(family, loads, Body(), made, context)]


@pytest.mark.parametrize(
    ("change", "number"), [({"heads_width": "1 1/4 in"}, "1-1/4"), ({"heads_height": "3 in"}, "3")]
)
def test_hidden_hardware_larger_than_said_refers(change: Data, number: str) -> None:
    """Washers of 1 1/2 in, 3 in apart: 1 1/2 in wide and 4 1/2 in high, by addition."""
    found = find(cover(change), "size of the hidden hardware")
    assert found.verdict == "refer"
    assert number in found.notes[0].replace(" ", "-")
    assert not what(cover(), "size of the hidden hardware")


def test_a_plate_counts_with_its_own_size() -> None:
    plate = {"steel": "A36", "thickness": "1/4 in", "width": "4 in", "length": "6 in"}
    found = find(
        cover(group={"manner": "plate one side", "plate": plate, "other": None}), "size of the hidden hardware"
    )
    assert "6" in found.notes[0] and found.verdict == "refer"


def test_hidden_work_belongs_to_what_the_cover_is_fixed_to() -> None:
    assert not what(cover(), "what it hides")
    assert not what(cover(group={"into": "slab"}), "what it hides")  # it holds a beam on the post
    elsewhere = find(cover(group={"into": "slab"}, support={"on": "slab"}), "what it hides")
    assert elsewhere.verdict == "refer"
    assert find(cover(group={"into": None}, holder=None), "what it hides").verdict == "refer"
    assert find(cover({"hides": ["no such"]}), "what it hides").verdict == "refer"


@pytest.mark.parametrize(("below", "fails"), [("1 in", False), ("3 in", True), ("7 in", True), ("9 in", False)])
def test_a_screw_through_the_pocket_fails(below: str, fails: bool) -> None:
    """The pocket is from 2 to 8 in below the top edge, 2 1/2 in wide in the middle."""
    found = what(cover(rows=[{"below_top": below, "count": 1}]), "fasteners through the pocket")
    assert [check.verdict for check in found] == (["fails"] if fails else [])


def test_two_tight_rows_are_not_one_line() -> None:
    """Level grain, 8 in apart: 8 x 0.00323 x 6 = 0.155 in; in slots, and along upright grain, it may move."""
    rows: list[Data] = [ROW, {"below_top": "9 in", "count": 1}]
    found = find(cover(grain="level", rows=rows), "free to shrink and swell")
    assert found.verdict == "refer"
    slotted = [ROW, {"below_top": "9 in", "count": 1, "slot": "1 in"}]
    assert not what(cover(grain="level", rows=slotted), "free to shrink")
    assert not what(cover(rows=rows), "free to shrink")


# ---- wood that nobody knows -------------------------------------------------------------------------------------

JOB = """
[job]
title = "Invented"
invented = true
standard = "NDS 2018"
loads = "ASCE 7-16"
date = "2 October 2026"

[[stock]]
name = "wood"
species = "unknown"
grade = "{grade}"{vouched}
size = '3 1/2" x 9 1/4"'
moisture = "dry"

[[existing]]
name = "wall"
what = "wall"
confirmed_by = "invented sheet S-1, engineer"
material = "wood"

[[beam]]
name = "B"
stock = "wood"
service = "floor"
finish = "none"
top_held = "full length"
supports = [{{ at = "0 ft", on = "wall", bearing = "3 in" }}, {{ at = "8 ft", on = "wall", bearing = "3 in" }}]
carries = [{{ what = "floor", live = "40 plf", applied = "top" }}]

[[bracket]]
name = "K"
role = "decorative"
stock = "wood"
on = "wall"
accidental = "not for load"
shape = {{ family = "corbel", thickness = "3 1/2 in", height = "9 in", projection = "3 in", grain = "upright" }}
"""


@pytest.mark.parametrize("grade", ["unknown", "Unknown", "unstamped", "No.77"])
def test_wood_of_unknown_species_and_grade_never_passes_and_never_crashes(grade: str) -> None:
    vouched = "" if grade == "unstamped" else '\ngrade_from = "assumed"'
    text = JOB.format(grade=grade, vouched=vouched)
    result = check_job(read_job_text(text, "job.toml"), text=text, name="job.toml")
    notes = " ".join(note for piece in result.pieces for check in piece.checks for note in check.notes)
    assert {piece.verdict for piece in result.pieces} == {"refer"}
    assert "fault in whatcarries" not in notes
    if grade == "No.77":
        assert "'No.77'" in notes and "did you mean" in notes


def test_a_grade_that_nobody_knows_is_as_good_as_none() -> None:
    unstamped = stock("4x10 dressed", species="unknown", grade="unstamped", grade_from=None, evidence="")
    unknown = unstamped.model_copy(update={"grade": "unknown"})
    assert rows_to_screen(unknown) == rows_to_screen(unstamped)


def test_a_grade_that_no_candidate_has_is_named() -> None:
    with pytest.raises(UnknownName, match=r"No\.77"):
        screening_rows([], read_size("4x10 dressed"), "No.77")
    assert {row.grade for row in screening_rows([], read_size("4x10 dressed"), "No.2")} >= {"No.2"}


MANTEL = (Path(__file__).parents[3] / "worked_examples/mantel_on_wooden_brackets.toml").read_text(encoding="utf-8")
SHELF = (Path(__file__).parents[3] / "worked_examples/shelf_on_three_piece_brackets.toml").read_text(encoding="utf-8")


@pytest.mark.parametrize(
    ("job", "old", "new", "what", "verdict"),
    [
        (MANTEL, "3 1/2\" x 13\"", "3 1/2\" x 7 1/4\"", "cut from one piece", "refer"),  # 10 1/2 in across its grain
        (MANTEL, ', { below_top = "10 in", count = 1, through = "5 1/2 in", length = "9 in" }', "",
         "fasteners that hold it up", "fails"),
        (MANTEL, 'through = "5 1/2 in"', 'through = "6 1/4 in"', "seat of the head", "refer"),  # 5 7/8 in at its edge
        (MANTEL, 'through = "8 in"\n', "", "fixings", "refer"),  # while another row has its own
        (SHELF, ', { below_top = "11 in", count = 1 }', "", "fasteners that hold it up", "fails"),
        (SHELF, 'end = "1 3/4 in"\n', "", "joint of the legs, its end", "refer"),
    ],
)  # fmt: skip
def test_one_fact_less_is_asked_or_refused(job: str, old: str, new: str, what: str, verdict: str) -> None:
    """A mantel and a shelf that pass, each with one fact taken out or made smaller."""
    assert job.count(old) == 1
    (piece,) = check_job(read_job_text(job.replace(old, new))).pieces
    (found,) = [check for check in piece.checks if check.what == what]
    assert found.verdict == verdict == piece.verdict
    assert verdict == "fails" or found.questions


@pytest.mark.parametrize(
    ("what", "asked"),
    [("4x12 girder over the hall", True), ("roof trusses, by others", True), ("double top plate on studs", False),
     ("pocket for the girder", False), ("stud wall under the old beam", False)],
)  # fmt: skip
def test_a_gap_over_a_beam_of_others_is_asked(what: str, asked: bool) -> None:
    """A trial that passes, its plate said to be something else: a beam that stands on a beam comes down with it."""
    job = Path(__file__).parents[2] / "trials/brackets_and_props/two_brackets_with_their_gap.toml"
    text = job.read_text(encoding="utf-8").replace('what = "double top plate on studs"', f'what = "{what}"')
    found = check_job(read_job_text(text))
    assert found.verdict == ("refer" if asked else "passes")


SHELVES = Path(__file__).parents[3] / "worked_examples" / "shelf_on_three_piece_brackets.toml"


def shelf_at(at: str, bearing: str) -> str:
    """The shelf on three-piece brackets with its load in another place."""
    return SHELVES.read_text().replace('at = "12 in", bearing = "2 in"', f'at = "{at}", bearing = "{bearing}"')


@pytest.mark.parametrize(("at", "bearing"), [("0 in", "10 in"), ("1 in", "10 in"), ("0 in", "2 in")])
def test_a_load_measured_to_its_near_end(at: str, bearing: str) -> None:
    """10 in of seat from the wall out have their middle 5 in out: at 0 in the load would turn nothing."""
    job = read_job_text(shelf_at(at, bearing))
    result = check_job(job)
    assert result.verdict == "refer"
    (place,) = (one.question for one in result.questions if one.question.id.startswith("left bracket/load_place"))
    answered = with_values(job, best(place))
    assert answered.bracket[0].carries[0].at == pytest.approx(0.5 * float(bearing.split()[0]))
    assert check_job(answered).verdict == "passes"


def test_a_load_that_begins_at_the_wall() -> None:
    assert check_job(read_job_text(shelf_at("5 in", "10 in"))).verdict == "passes"


def test_the_letter_that_answers_for_a_wall_closes_its_question() -> None:
    job = with_values(read_job_text(SHELVES.read_text()), [("existing.wall post.confirmed_by", None)])
    result = check_job(job)
    (letter,) = (one.question for one in result.questions if one.question.id == "wall post/answers_for")
    assert (result.verdict, check_job(with_values(job, best(letter))).verdict) == ("refer", "passes")


CORBEL_JOB = Path(__file__).parents[2] / "trials" / "brackets_and_props" / "corbel_in_a_dap.toml"


@pytest.mark.parametrize("out", ["0 in", "1/2 in", "1 1/4 in"])
def test_a_beam_measured_to_the_near_end_of_its_seat(out: str) -> None:
    """A seat of 3 in has its middle 1 1/2 in from the wall at the least; nearer, its arm would be too short."""
    job = with_values(read_job_text(CORBEL_JOB.read_text()), [("beam.B1.supports.1.lands_at", out)])
    result = check_job(job)
    assert result.verdict == "refer"
    (middle,) = (one.question for one in result.questions if one.question.id.startswith("B1/middle_of_seat"))
    answered = with_values(job, best(middle))
    assert answered.beam[0].supports[0].lands_at == pytest.approx(1.5)
    assert check_job(answered).verdict == "passes"


RATED: Data = {
    "source": "evaluation report no. 9999 (invented), 2025, table 2", "up": "500 lb", "down": "500 lb",
    "along": "500 lb", "duration": "included", "conditions": "solid brick, 4 in deep", "conditions_met": True,
}  # fmt: skip


@pytest.mark.parametrize("material", ["masonry", "concrete"])
def test_anchors_in_brick_are_asked_for_by_their_report(material: str) -> None:
    """No brick has a grain: who leaves out what the fasteners go into is asked for the report of the anchors."""
    data = tomllib.loads(SHELVES.read_text())
    data["existing"][0] |= {"what": "chimney breast", "material": material}
    fixed = data["bracket"][0]["fixings"]
    del fixed["other"]
    fixed["wall"] = "masonry"
    result = check_job(job_from_data(data))
    assert [one.question.id for one in result.questions] == ["left bracket/anchor_report"]
    fixed["rating"] = RATED
    assert (result.verdict, check_job(job_from_data(data)).verdict) == ("refer", "passes")


@pytest.mark.parametrize(
    ("glue", "vouched"),
    [("resorcinol, maker's sheet 12", True), ("wood glue", False), ("resorcinol", False), ("not known", False)],
)
def test_somebody_vouches_for_the_glue(glue: str, vouched: bool) -> None:
    how = find(body({**BENT, "glue": glue}), "how the arc is made")
    assert (how.verdict == "passes") == vouched
    assert vouched or find(body({**BENT, "glue": how.questions[0].answers[0].says}), how.what).verdict == "passes"


def test_anchors_in_brick_leave_the_split_test_to_who_answers_for_them() -> None:
    """A bracket of one piece: how thick a brick is along its grain nobody can say, an engineer can rule."""
    data = tomllib.loads(SHELVES.with_name("mantel_on_wooden_brackets.toml").read_text())
    data["existing"][0] |= {"what": "chimney breast", "material": "masonry"}
    fixed = data["bracket"][0]["fixings"]
    del fixed["other"]
    fixed["wall"] = "masonry"
    fixed["rating"] = RATED
    result = check_job(job_from_data(data))
    assert [(one.question.id, one.question.field) for one in result.questions] == [
        ("left bracket/split_by_others", "ruling")
    ]
