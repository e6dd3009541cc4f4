"""The short form: what is on it is what the result holds, every member is in the schedule, the statics recompute."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator
from dataclasses import replace
from pathlib import Path

import pytest

from beamcheck.api import check_text
from beamcheck.checks.core.result import Check, JobResult, PieceResult
from beamcheck.checks.core.statics import BY_HAND, StaticsLine
from beamcheck.checks.core.summary import quantity
from beamcheck.sheet.document.blocks import Block, CheckBlock, Columns, Heading, VerdictBlock
from beamcheck.sheet.document.calc_sheet import compose
from beamcheck.sheet.document.rich_blocks import (
    Across,
    Bar,
    Cell,
    Decisions,
    Marks,
    MemberHead,
    RichTable,
    Strong,
    Symbol,
    Word,
)
from beamcheck.sheet.document.short.alike import groups_of
from beamcheck.sheet.document.short.checks_table import closest, merged, nature, typeset
from beamcheck.sheet.document.short.context import marks_of, sheet_of
from beamcheck.sheet.document.short.factors import REFERENCE, factors_of

from ...worked_examples.results import example
from ..sample import job

DEMO = Path(__file__).parents[3] / "worked_examples" / "net_loft.toml"
FEET, TO = 12.0, {"plf": 12.0, "lb": 1.0, "lb-ft": 1 / 12.0, "in": 1.0, "psi": 1.0}  # of a unit, from the inner one


@pytest.fixture(scope="module")
def demo() -> JobResult:
    return example("net_loft")


@pytest.fixture(scope="module")
def blocks(demo: JobResult) -> tuple[Block, ...]:
    return tuple(flat(compose(demo)))


def flat(some: Iterable[Block]) -> Iterator[Block]:
    for block in some:
        if isinstance(block, Columns):
            yield from flat((*block.left, *block.right, *block.flow))
        else:
            yield block


def tables(some: Iterable[Block], kind: str) -> list[RichTable]:
    return [block for block in some if isinstance(block, RichTable) and block.kind == kind]


def page_of(blocks: tuple[Block, ...], number: int) -> list[Block]:
    """The blocks of a member, by its place among the members."""
    starts = [i for i, block in enumerate(blocks) if isinstance(block, MemberHead)]
    end = starts[number + 1] if number + 1 < len(starts) else len(blocks)
    return list(blocks[starts[number] : end])


def said(cell: Cell) -> str:
    return cell.text if isinstance(cell, Strong | Bar | Across) else cell if isinstance(cell, str) else ""


def test_every_member_is_in_the_schedule_once(demo: JobResult, blocks: tuple[Block, ...]) -> None:
    (schedule,) = tables(blocks, "schedule")
    marks = [mark for row in schedule.rows if isinstance(row[0], Marks) for mark, _anchor in row[0].items]
    assert sorted(marks) == sorted(marks_of(demo.pieces).values()) and len(marks) == len(demo.pieces)


def test_a_name_that_is_a_mark_is_kept_and_no_mark_is_used_twice() -> None:
    one = job().pieces[0]
    names = ["B1", "hall beam", "B2", "K7"]
    assert marks_of([replace(one, name=name) for name in names]) == {
        "B1": "B1", "hall beam": "B3", "B2": "B2", "K7": "K7"
    }  # fmt: skip


def test_each_number_of_a_members_page_is_one_of_its_results(demo: JobResult, blocks: tuple[Block, ...]) -> None:
    """Demand, capacity, ratio and verdict of every row are those of a check; and no check is left out."""
    for number, piece in enumerate(demo.pieces):
        page = page_of(blocks, number)
        (shown,) = tables(page, "checks")
        rules = [row for table in tables(page, "rules") for row in table.rows]
        rows = [row for row in shown.rows if not isinstance(row[0], Across)]
        for check in piece.checks:
            if check.ratio is None:
                continue
            figures = [quantity(one, check.kind, "US") for one in (check.demand, check.capacity)]
            ratio = quantity(check.ratio, "ratio", "US")
            if nature(check) == "geometry":
                told = any(f"{figures[0]}, {figures[1]}" in table.note for table in tables(page, "rules"))
                told = told and check.verdict == "passes"
                assert told or any(
                    [said(cell) for cell in row[2:4]] == figures and Word(check.verdict) in row for row in rules
                )
                continue
            small = f"{check.what} {ratio}".casefold() in shown.note.casefold()
            assert small or any(
                said(row[4]) == ratio and Word(check.verdict) in row
                and (check.kind == "ratio" or [said(row[2]), said(row[3])] == figures)
                for row in rows
            ), f"{piece.name}: {check.what}"  # fmt: skip
        known = {quantity(check.ratio, "ratio", "US") for check in piece.checks}
        assert {said(row[4]) for row in rows} <= known


def test_what_is_typeset_shows_the_steps_of_its_check(demo: JobResult, blocks: tuple[Block, ...]) -> None:
    for number, piece in enumerate(demo.pieces):
        steps = {id(step) for check in piece.checks for step in check.steps}
        for block in page_of(blocks, number):
            if isinstance(block, CheckBlock):
                assert block.short
                lines = block.lines.lines
                shown = [entry.step for line in lines for entry in getattr(line, "entries", ()) or (line.entry,)]  # type: ignore[union-attr]
                assert {id(step) for step in shown} <= steps


def evaluated(line: StaticsLine) -> float:
    """The numbers of a printed line, worked out as they stand."""
    powers = line.numbers.replace("²", "**2").replace("⁴", "**4").replace("×", "*").replace(",", "")
    assert re.fullmatch(r"[0-9.+*/() e-]+", powers), line.numbers
    return float(eval(powers))


def test_the_statics_of_the_demo_recompute(demo: JobResult) -> None:
    """Each line gives the figure beside it, and the analysis gives the same."""
    seen = 0
    for piece in demo.pieces:
        for line in piece.statics.lines if piece.statics else ():
            seen += 1
            text, unit = line.text.split()
            assert evaluated(line) == pytest.approx(float(text.replace(",", "")), rel=5e-3), line
            assert line.value * TO[unit] == pytest.approx(float(text.replace(",", "")), rel=5e-3), line
    assert seen > 20


def test_the_closed_forms_are_those_of_the_analysis(demo: JobResult) -> None:
    for piece in demo.pieces:
        if piece.kind != "beam" or piece.statics is None or piece.statics.how != BY_HAND:
            continue
        found = {line.symbol: line.value for line in piece.statics.lines}
        bending = next(check for check in piece.checks if check.id == "beam.bending")
        M = next(step.value for step in bending.steps if step.symbol == "M")
        assert found["M"] == pytest.approx(M, rel=5e-3)
        R = max(step.value for check in piece.checks for step in check.steps if step.symbol == "R")
        assert found["R"] == pytest.approx(R, rel=5e-3)
        live = next(check for check in piece.checks if check.id == "beam.deflection.live")
        if "Delta_L" in found:
            assert found["Delta_L"] == pytest.approx(live.demand, rel=5e-3)


def test_a_beam_that_is_not_simple_says_so_and_gives_stations(demo: JobResult) -> None:
    gallery = next(piece for piece in demo.pieces if piece.name == "gallery beam")
    assert gallery.statics is not None and gallery.statics.words.startswith("Solved by the frame analysis")
    assert gallery.statics.stations is not None
    assert [row[1] for row in gallery.statics.stations.rows if "largest" not in row[1]] == [
        "steel in the north wall", "east wall"
    ]  # fmt: skip


def test_the_statics_stand_still_for_other_units() -> None:
    """Feet and pounds, whatever the words are in."""
    text = DEMO.read_text(encoding="utf-8")
    lines = []
    for units in ("US", "SI"):
        found = [piece.statics.lines for piece in check_text(text, units=units).pieces if piece.statics]
        lines.append([line.numbers for some in found for line in some])
    assert lines[0] == lines[1]


def test_the_factor_table_multiplies_out(demo: JobResult) -> None:
    sheet = sheet_of(demo)
    for piece in demo.pieces:
        table = factors_of(piece, sheet.numbers, "x").table
        place = table.heads.index(REFERENCE) if table is not None else 0
        for row in table.rows if table is not None else ():
            factors = [float(said(cell)) for cell in row[place + 1 : -1] if said(cell) not in ("–", "")]
            shown = (said(cell).replace(",", "") for cell in (row[place], row[-1]))
            first, last = (float(re.sub(r"[^0-9.].*", "", one)) for one in shown)
            product = first
            for factor in factors:
                product *= factor
            assert isinstance(row[0], Symbol) and product == pytest.approx(last, rel=2e-3)


def test_the_factor_table_of_a_joint_says_whose_each_value_is() -> None:
    """The tie is a beam or stringer (625 and 675 psi), the rafter a post or timber, with other values at one name."""
    result = example("boat_shed")
    heel = next(piece for piece in result.pieces if piece.name == "left heel")
    table = factors_of(heel, sheet_of(result).numbers, "x").table
    assert table is not None and table.heads[1] == "of"
    rows = [(row[0].name, said(row[1]), said(row[2])) for row in table.rows if isinstance(row[0], Symbol)]
    assert ("F_c", "tie", "925 psi [3]") in rows and ("F_c", "left rafter", "1,000 psi [5]") in rows
    assert len(set(rows)) == len(rows)


def test_geometry_never_decides_what_is_closest(demo: JobResult) -> None:
    for piece in demo.pieces:
        most = closest(piece.checks)
        assert most is None or nature(most) in ("strength", "stiffness", "evidence")
        assert all(nature(check) != "geometry" for check in typeset(piece))


def ratio(what: str, value: float, **more: object) -> Check:
    made = Check("B", what, "c", "passes", "stress", value, 1.0, value, id="beam.bearing")
    return replace(made, **more)  # type: ignore[arg-type]


def test_checks_that_say_the_same_are_one_row() -> None:
    same = [ratio("bearing at support 1 on wall", 0.5), ratio("bearing at support 2 on wall", 0.5)]
    other = ratio("bearing at support 3 on wall", 0.5, combination="D")
    assert [len(one.others) for one in merged([*same, other])] == [1, 0]


def twins() -> JobResult:
    """Two brackets that differ in their names and in those of their posts."""
    first = replace(job().pieces[2], name="K1", title="on west post", checks=(ratio("what west post takes", 0.5),))
    second = replace(first, name="K2", title="on east post", checks=(ratio("what east post takes", 0.5),))
    posts = [replace(job().pieces[2], name=f"{side} post", title=side) for side in ("west", "east")]
    return replace(job(), pieces=(first, second, *posts))


def test_like_members_are_one_page_and_say_what_reads_otherwise() -> None:
    groups = groups_of(twins())
    assert [piece.name for piece in groups[0].pieces] == ["K1", "K2"]
    heads = [block for block in compose(twins()) if isinstance(block, MemberHead)]
    assert heads[0].marks == ("K1", "K2")
    assert heads[0].alike == ("K1, K2: 2 alike.", "K2: read east post for west post")


TURNED = """
[job]
title = "Invented pair"
standard = "NDS 2018"
loads = "ASCE 7-16"
invented = true
[[stock]]
name = "fir"
species = "Douglas Fir-Larch"
grade = "No.1"
size = "6x12 dressed"
moisture = "dry"
measured_moisture = "15 %"
grade_from = "stamp"
evidence = "invented: stamp WCLIB, No.1, DOUG FIR-L, photo 1"
agency = "WCLIB"
[[existing]]
name = "west wall"
what = "invented wall"
material = "concrete"
confirmed_by = "invented: engineer's note 1 of 2026-02-20"
takes = "8,000 lb"
[[existing]]
name = "middle wall"
what = "invented wall"
material = "concrete"
confirmed_by = "invented: engineer's note 1 of 2026-02-20"
takes = "8,000 lb"
[[existing]]
name = "east wall"
what = "invented wall"
material = "concrete"
confirmed_by = "invented: engineer's note 1 of 2026-02-20"
takes = "8,000 lb"
""" + "".join(
    f"""
[[beam]]
name = "{name}"
stock = "fir"
service = "floor"
finish = "none"
top_held = "full length"
supports = [
  {{{{ at = "0 ft", on = "{left}", bearing = "{seats[0]}", restrained = true }}}},
  {{{{ at = "13 ft", on = "{right}", bearing = "{seats[1]}", restrained = true }}}},
]
carries = [{{{{ what = "floor", dead = "10 psf", live = "40 psf", width = "6 ft", applied = "top" }}}}]
"""
    for name, left, right, seats in (
        ("B1", "west wall", "middle wall", ("5 in", "3 in")),
        ("B2", "middle wall", "east wall", ("{near}", "{far}")),
    )
)


def test_a_beam_turned_end_for_end_shares_the_page_and_says_so() -> None:
    """The seat of 3 in lies on the middle wall for both beams: one is the mirror image of the other."""
    pair = check_text(TURNED.format(near="3 in", far="5 in"))
    (group,) = groups_of(pair)
    assert group.turned == {"B2"}
    (head,) = (block for block in compose(pair) if isinstance(block, MemberHead))
    assert head.marks == ("B1", "B2")
    assert head.alike[-1] == "B2: turned end for end, read east wall for west wall"
    for check in group.pieces[1].checks:  # what stands on the page of the one holds for the other
        twin = [one for one in group.first.checks if one.id == check.id and one.ratio == pytest.approx(check.ratio)]
        assert twin or check.ratio is None, check.what


def test_a_beam_that_is_no_mirror_image_has_a_page_of_its_own() -> None:
    assert len(groups_of(check_text(TURNED.format(near="3 in", far="4 in")))) == 2
    assert len(groups_of(check_text(TURNED.format(near="5 in", far="3 in")))) == 1  # equal as they stand


@pytest.mark.parametrize(("off", "alike"), [(0.0, True), (1e-10, True), (1e-7, False), (-1e-7, False)])
def test_members_are_alike_whose_figures_differ_by_what_a_solver_leaves(off: float, alike: bool) -> None:
    """Two equal matrices in another order of rounding differ by some 1e-10 of a figure; what is printed by far more."""
    result = twins()
    first, second, *rest = result.pieces
    ratio = first.checks[0].ratio
    assert ratio is not None and 0.1 < ratio < 10.0
    other = replace(second, checks=(replace(second.checks[0], ratio=ratio * (1 + off)), *second.checks[1:]))
    groups = groups_of(replace(result, pieces=(first, other, *rest)))
    assert len(groups) == len(result.pieces) - alike


def test_brackets_of_one_shelf_share_a_page_though_their_fields_differ_in_the_eleventh_digit() -> None:
    marks = [head.marks for head in compose(example("chart_room")) if isinstance(head, MemberHead)]
    assert ("K1", "K2") in marks and ("K3", "K4") in marks


@pytest.mark.parametrize("names", [("beam 1.5", "beam 2.5"), ("1", "2")])
def test_a_number_in_a_name_is_no_figure(names: tuple[str, str]) -> None:
    text = TURNED.format(near="5 in", far="3 in").replace('"B1"', f'"{names[0]}"').replace('"B2"', f'"{names[1]}"')
    assert len(groups_of(check_text(text))) == 1


def test_the_cover_says_what_fails_what_is_open_and_what_holds() -> None:
    blocks = compose(job())
    ruling = next(block for block in blocks if isinstance(block, VerdictBlock))
    assert (ruling.verdict, ruling.large) == ("fails", True)
    assert ruling.reasons == ("Of 3 members: 1 does not hold, 1 waits for an answer, 1 holds.",)
    found = {table.title: table for table in tables(blocks, "cover")}
    (change,) = found["Change"].rows
    assert change[0] == Marks((("B1", "piece-1"),))
    assert "Bending, 1.35" in said(change[1]) and "Brace the top edge at mid-span." in said(change[2])
    (open_,) = found["Find out, in this order"].rows
    assert open_[1] == Marks((("R2", "piece-2"),))
    (holds,) = found["Holds"].rows
    assert holds[0] == Marks((("P1", "piece-3"),)) and said(holds[3]) == "0.310"
    (decisions,) = (block for block in blocks if isinstance(block, Decisions))
    assert decisions.marks == ("B1", "R2", "P1")


def test_the_demo_names_each_open_question_on_the_cover(demo: JobResult, blocks: tuple[Block, ...]) -> None:
    asked = next(table for table in tables(blocks, "cover") if table.title.startswith("Find out"))
    assert [row[2] for row in asked.rows][: len(demo.questions)] == [one.question.ask for one in demo.questions]


def test_all_steps_appends_and_changes_nothing_before_it() -> None:
    short, full = compose(job()), compose(job(), all_steps=True)
    assert not any(isinstance(block, Heading) and block.anchor == "every-step" for block in short)
    assert [block for block in full if isinstance(block, MemberHead)] == [
        block for block in short if isinstance(block, MemberHead)
    ]  # fmt: skip


def test_an_empty_piece_makes_a_page() -> None:
    bare = PieceResult("B9", "beam", "t", "refer", (), ())
    assert any(isinstance(block, MemberHead) for block in compose(replace(job(), pieces=(bare,))))
