"""What stands on a sheet, and in which order."""

from __future__ import annotations

import math
from dataclasses import replace

import pytest

from beamcheck.checks.core.result import CAUTION, Check, JobResult, PieceResult, Table, no_figure
from beamcheck.checks.core.summary import by_gravity, governing_phrase, quantity
from beamcheck.sheet.document.blocks import (
    Beside,
    Block,
    Bullets,
    Caution,
    CheckBlock,
    Columns,
    Contents,
    Heading,
    JobText,
    Masthead,
    Pairs,
    Paragraph,
    References,
    SignOff,
    Statements,
    Summary,
    Symbols,
    TableBlock,
    VerdictBlock,
)
from beamcheck.sheet.document.calc_sheet import compose
from beamcheck.sheet.document.piece import verdict_line
from beamcheck.sheet.document.rich_blocks import FoldEnd, FoldStart, MemberHead, MemberList, RichTable

from ..sample import job

ASKED = no_figure("B", "w")


def full(result: JobResult) -> tuple[Block, ...]:
    """The sheet with every step."""
    return compose(result, all_steps=True)


def appendix(result: JobResult) -> tuple[Block, ...]:
    """What is appended with every step."""
    blocks = full(result)
    start = next(i for i, block in enumerate(blocks) if isinstance(block, Heading) and block.anchor == "every-step")
    end = next(i for i, block in enumerate(blocks) if isinstance(block, Heading) and block.anchor == "job-file")
    return blocks[start:end]


def of_kind(blocks: tuple[Block, ...], kind: type) -> list:
    flat = [
        one
        for block in blocks
        for one in ((*block.left, *block.right, *block.flow) if isinstance(block, Columns) else (block,))
    ]
    return [block for block in flat if isinstance(block, kind)]


def test_the_order_a_plan_checker_asks_for() -> None:
    blocks = full(job())
    assert [type(block) for block in blocks[:4]] == [Masthead, MemberList, Caution, VerdictBlock]
    parts = [block for block in blocks if isinstance(block, MemberHead) or getattr(block, "level", 0) == 2]
    assert [block.title if isinstance(block, MemberHead) else block.text for block in parts] == [
        "Project",
        "Contents",
        "Design basis",
        "Member schedule",
        "Key plan and load path",
        "6x14 rough invented pine, 14 ft",
        "2x8 invented spruce at 16 in",
        "6x6 invented oak, 8 ft",
        "What this rests on: memory, assumptions and others",
        "Sources",
        "What is not checked here",
        "Symbols",
        "Appendix: every step",
        "Summary of all checks",
        "B1, every step: 6x14 rough invented pine, 14 ft",
        "R2, every step: 2x8 invented spruce at 16 in",
        "P1, every step: 6x6 invented oak, 8 ft",
        "The job file",
    ]
    assert isinstance(blocks[-2], JobText) and isinstance(blocks[-1], Caution)


def test_a_piece_has_verdict_inputs_figure_tables_checks_in_this_order() -> None:
    blocks = full(job())
    start = next(i for i, block in enumerate(blocks) if isinstance(block, Heading) and block.anchor == "steps-1")
    kinds = [type(block) for block in blocks[start : start + 16]]
    assert kinds == [Heading, FoldStart, VerdictBlock, Bullets, Beside, TableBlock, TableBlock, Heading, CheckBlock,
                     CheckBlock, CheckBlock, Bullets, References, FoldEnd, Heading, FoldStart]  # fmt: skip
    assert blocks[start + 3].title == "What would make B1 pass"


def test_checks_are_numbered_within_their_piece() -> None:
    checks = of_kind(appendix(job()), CheckBlock)
    assert [(check.title, check.anchor) for check in checks] == [
        ("1. Bending", "piece-1-check-1"), ("2. Shear", "piece-1-check-2"),
        ("3. Deflection, live load", "piece-1-check-3"), ("1. Buckling", "piece-3-check-1"),
    ]  # fmt: skip


def test_checks_without_numbers_are_a_list_at_the_end_of_the_piece() -> None:
    (stated,) = of_kind(full(job()), Statements)
    assert stated.title == "Also asked of R2, without numbers"
    assert [(item.verdict, item.title, item.text, item.clause) for item in stated.items] == [
        ("refer", "Birdsmouth seat", "The depth of the seat cut is not given.", "NDS 2018 3.2.3")
    ]


def test_the_sources_of_a_piece_keep_their_number_in_the_long_list() -> None:
    whole, short = of_kind(full(job()), References)
    assert (short.short, short.title, whole.short) == (True, "Sources of B1", False)
    assert [(row.number, row.source.document) for row in short.rows] == [
        (1, "Invented table for this sample"), (2, "Invented letter of a grader"),
    ]  # fmt: skip
    assert [(row.number, row.used) for row in whole.rows] == [(1, "B1: F_b"), (2, "B1: C_D")]


def test_project_data_has_tool_file_and_fingerprint_and_says_what_is_missing() -> None:
    rows = dict(of_kind(full(job()), Pairs)[0].rows)
    assert "Address" not in rows and rows["Not given"] == "Address"
    assert rows["Author"] == "invented"
    assert rows["Tool"] == "whatcarries 0.1.0"
    assert rows["Its SHA-256"] == job().fingerprint


def test_the_summary_lists_every_check_of_the_job_by_its_ratio() -> None:
    (summary,) = of_kind(full(job()), Summary)
    assert [(row.piece, row.number, row.what, row.verdict, row.ratio) for row in summary.rows] == [
        ("B1", "1", "Bending", "fails", "1.35"),
        ("B1", "3", "Deflection, live load", "fails", "1.0004"),  # never 1.00
        ("B1", "2", "Shear", "passes", "0.415"),
        ("P1", "1", "Buckling", "passes", "0.310"),
    ]
    assert summary.rows[0].place == "at 7 ft"
    assert [(one.piece, one.anchor, one.verdict, one.names) for one in summary.open] == [
        ("R2", "piece-2", "refer", ("birdsmouth seat",))
    ]
    assert summary.met == ()


def test_in_the_summary_what_has_no_ratio_and_does_not_pass_comes_first() -> None:
    """A missing ratio is worse than any; one that is no number too. A met check without figures comes last."""
    piece = job().pieces[2]
    checks = (check("passes", 0.9), check("fails", None), check("refer", math.nan), check("fails", math.inf),
              Check("P1", "seen", "c", "passes"), Check("P1", "torn", "c", "fails"))  # fmt: skip
    (summary,) = of_kind(full(replace(job(), pieces=(replace(piece, checks=checks),))), Summary)
    assert [row.number for row in summary.rows] == ["2", "3", "4", "1"]
    assert [one.names for one in summary.open] == [("torn",)]
    assert [one.names for one in summary.met] == [("seen",)]


def test_a_row_of_the_summary_leads_to_its_check() -> None:
    blocks = appendix(job())
    (summary,) = of_kind(blocks, Summary)
    assert {row.anchor for row in summary.rows} == {check.anchor for check in of_kind(blocks, CheckBlock)}


def test_the_contents_name_every_part_after_them() -> None:
    blocks = full(job())
    (contents,) = of_kind(blocks, Contents)
    after = blocks[blocks.index(contents) :]
    parts = [each for each in after if isinstance(each, MemberHead) or getattr(each, "level", 0) == 2]
    assert [anchor for _text, anchor in contents.rows] == [each.anchor for each in parts]
    assert all(anchor for _text, anchor in contents.rows)


def test_the_block_to_sign_has_three_outcomes() -> None:
    (sign,) = of_kind(full(job()), SignOff)
    assert sign.outcomes == ("Reviewed", "Reviewed with corrections", "Not accepted")
    assert sign.fields == ("Reviewed by licensed engineer", "License no.", "Date")
    assert "What this rests on" in sign.note


def basis(result: JobResult) -> tuple[Block, ...]:
    """The blocks of the design basis."""
    blocks = full(result)
    start = next(i for i, block in enumerate(blocks) if isinstance(block, Heading) and block.anchor == "basis")
    end = next(i for i, block in enumerate(blocks) if isinstance(block, Heading) and block.anchor == "schedule")
    return blocks[start:end]


def test_the_design_basis_has_standards_with_editions_and_their_clauses() -> None:
    about = (("standard", "NDS 2018, ASD"), ("wind speed", "not given"), ("author", "invented"))
    (pairs,) = of_kind(basis(replace(job(), about=about)), Pairs)
    assert pairs.rows == (
        ("Standard for wood", "NDS 2018, ASD"), ("Wind speed", "not given"),
        ("NDS 2018, clauses", "3.2.3, 3.3.1, 3.4.2, 3.7.1"), ("IBC, clauses", "1604.3"),
    )  # fmt: skip


def test_clauses_are_in_the_order_of_the_standard() -> None:
    clauses = ("NDS 2018 3.10.2, 3.9", "ASCE 7-16 2.4.1", "NDS 2018 Table 4.3.1", "load path", "eq. 7")
    pieces = tuple(
        replace(job().pieces[2], checks=(Check("P", "w", clause, "refer", questions=(ASKED,)),)) for clause in clauses
    )
    (pairs,) = of_kind(basis(replace(job(), pieces=pieces, about=())), Pairs)
    assert pairs.rows == (("NDS 2018, clauses", "Table 4.3.1, 3.9, 3.10.2"), ("ASCE 7-16, clauses", "2.4.1"))


def test_the_design_basis_itemises_the_loads_of_every_piece() -> None:
    loads = next(block for block in of_kind(appendix(job()), TableBlock) if block.title == "Loads, piece by piece")
    assert loads.rows == (
        ("B1", "plaster ceiling", "dead", "10 psf × 4 ft", "On the beam 40 plf"),
        ("B1", "roof snow", "snow", "30 psf × 4 ft", "On the beam 120 plf"),
    )


def test_the_design_basis_says_how_the_wood_is_exposed() -> None:
    piece = replace(job().pieces[0], inputs=(("species", "Oak"), ("moisture", "wet"), ("stock", "x")))
    tables = of_kind(appendix(replace(job(), pieces=(piece, job().pieces[2]))), TableBlock)
    exposure = next(block for block in tables if block.title == "Wood and its exposure")
    assert (exposure.heads, exposure.rows) == (("Piece", "Species", "Moisture"), (("B1", "Oak", "wet"),))


def test_work_by_others_is_called_out_with_all_that_rely_on_it() -> None:
    note = "by others, confirmed: invented letter; not checked here"
    pieces = tuple(
        replace(piece, checks=(*piece.checks, Check(piece.name, f"what holds {piece.name}", "load path", "passes",
                                                    notes=(note,))))
        for piece in job().pieces[:2]
    )  # fmt: skip
    bullets = {block.title: block.items for block in of_kind(full(replace(job(), pieces=pieces)), Bullets)}
    assert bullets["By others"] == (
        "B1: what holds B1; R2: what holds R2. By others, confirmed: invented letter; not checked here.",
    )


def test_what_rests_on_memory_comes_first_among_the_sources() -> None:
    bullets = {block.title: block.items for block in of_kind(full(job()), Bullets)}
    told = "The first source is from memory or of low confidence: compare it with the printed document first."
    assert Paragraph(told) in full(job())
    whole = next(block for block in of_kind(full(job()), References) if not block.short)
    assert whole.rows[0].source.how == "memory"
    assert bullets["Assumed"] == ("a. The ends are held against turning over.",)


def test_an_assumption_made_for_several_pieces_is_said_once_at_the_end() -> None:
    pieces = tuple(replace(piece, assumptions=("own weight is counted",)) for piece in job().pieces)
    bullets = {block.title: block.items for block in of_kind(full(replace(job(), pieces=pieces)), Bullets)}
    assert bullets["Assumed"] == ("a. Own weight is counted. (all)",)
    assert bullets["Assumed for P1"] == ("Own weight is counted.",)


def test_nothing_in_doubt_is_said_too() -> None:
    bare = replace(job(), pieces=(job().pieces[2],))
    doubts = [block.items for block in of_kind(full(bare), Bullets)]
    assert doubts.count(("Nothing.",)) == 2
    assert Paragraph("Nothing is from memory or of low confidence.") in full(bare)


def test_each_symbol_is_explained_once() -> None:
    (symbols,) = of_kind(full(job()), Symbols)
    assert len(set(symbols.names)) == len(symbols.names)
    assert {"F_b", "C_L", "R_B"} <= set(symbols.names)


def test_a_long_title_is_cut_at_the_head_and_whole_among_the_project_data() -> None:
    title = "very long " * 500
    blocks = full(job(title=title))
    head = of_kind(blocks, Masthead)[0]
    assert len(head.short) <= 140 and head.short.endswith("…")
    assert of_kind(blocks, Pairs)[0].rows[0] == ("Title in full", title)


def test_si_sheets_say_in_which_units_the_steps_are() -> None:
    def told(units: str) -> bool:
        said = [block.text for block in of_kind(full(job(units=units)), Paragraph)]
        return any("inch, pound-force (lbf) and psi" in text for text in said)

    assert told("SI") and not told("US")


def test_an_empty_job() -> None:
    empty = JobResult("t", "refer", ("no piece",), (), (), (), "", "empty.toml", "0", "0.1.0")
    blocks = full(empty)
    assert Paragraph("Nothing was checked.") in blocks
    assert blocks[1] == Caution(CAUTION)


def test_a_piece_without_checks() -> None:
    assert governing_phrase(PieceResult("B", "beam", "t", "refer", (), ())) == "nothing was checked"


def check(verdict: str, ratio: float | None) -> Check:
    asked = (ASKED,) if verdict == "refer" else ()
    return Check("B", "w", "c", verdict, "force", 1.0, 2.0, ratio, questions=asked)  # type: ignore[arg-type]


def test_gravity() -> None:
    mixed = (check("passes", 0.9), check("refer", None), check("fails", 1.1), check("fails", 2.0), check("refer", 0.5))
    assert [(each.verdict, each.ratio) for each in by_gravity(mixed)] == [
        ("fails", 2.0), ("fails", 1.1), ("refer", None), ("refer", 0.5), ("passes", 0.9),
    ]  # fmt: skip


def test_verdict_lines() -> None:
    full = Check("B", "w", "c", "passes", "stress", 62.0, 124.0, 0.5, "D + L", "3 ft")
    assert verdict_line(full, "US") == "Ratio 0.500: demand 62 psi, capacity 124 psi; at 3 ft; governed by D + L."
    assert verdict_line(full, "SI").startswith("Ratio 0.500: demand 0.427 MPa, capacity 0.855 MPa;")
    assert verdict_line(Check("B", "w", "c", "refer", questions=(ASKED,)), "US") == "No ratio."
    lifted = Check("B", "uplift", "c", "fails", "force", 72.5, combination="0.6 D + 0.6 W")
    assert verdict_line(lifted, "US") == "No ratio: demand 72.5 lb; governed by 0.6 D + 0.6 W."


def test_a_sum_of_ratios_is_not_said_three_times() -> None:
    summed = Check("B", "w", "c", "fails", "ratio", 1.38, 1.0, 1.38, "D + S")
    assert verdict_line(summed, "US") == "Ratio 1.38; governed by D + S."


def test_a_place_that_the_name_of_the_check_holds_is_not_said_again() -> None:
    cut = Check("B", "bending at the hole at 5 ft", "c", "passes", "stress", 1.0, 2.0, 0.5, "D", "5 ft")
    assert verdict_line(cut, "US") == "Ratio 0.500: demand 1 psi, capacity 2 psi; governed by D."


@pytest.mark.parametrize(
    ("value", "text"), [(None, "–"), (math.nan, "–"), (math.inf, "without limit"), (-math.inf, "−∞"), (12.0, "12 lb")]
)
def test_values_that_are_no_number(value: float | None, text: str) -> None:
    assert quantity(value, "force", "US") == text


def test_tables_keep_their_note_and_drop_a_title_said_already() -> None:
    table = Table("Load path", ("piece",), (("B1",),), "read from the job file")
    blocks = full(replace(job(), tables=(table,)))
    shown = next(block for block in of_kind(blocks, TableBlock) if block.heads == ("Piece",))
    assert (shown.title, shown.note) == ("", "Read from the job file.")


def test_columns_that_hold_nothing_are_left_out() -> None:
    table = Table("Reactions", ("support", "D", "S"), (("wall", "1 lb", "–"), ("post", "–", "")))
    (shown,) = (block for block in of_kind(full(replace(job(), tables=(table,), pieces=())), TableBlock))
    assert (shown.heads, shown.rows) == (("Support", "D"), (("wall", "1 lb"), ("post", "–")))
    empty = of_kind(full(replace(job(), tables=(replace(table, rows=()),), pieces=())), TableBlock)[0]
    assert empty.heads == ("Support", "D", "S")


def test_the_title_block_has_what_the_job_says_of_itself_and_room_for_a_pen() -> None:
    about = (
        ("project number", "2031-7"), ("designed by", "invented A."), ("checked by", "invented B."),
        ("revision A", "9 May 2031, a longer seat, C."), ("author", "invented"),
    )  # fmt: skip
    blocks = compose(replace(job(), about=about))
    (beside,) = (one for one in blocks if isinstance(one, Columns) and isinstance((*one.right, None)[0], RichTable))
    block = beside.right[0]
    assert isinstance(block, RichTable) and block.kind == "titles"
    assert block.heads == ("project number", "designed by", "checked by")
    assert block.rows[0] == ("2031-7", "invented A.", "invented B.")
    assert ("A", "9 May 2031, a longer seat, C.", "") in block.rows and ("", "", "") in block.rows
    (project,) = beside.left
    assert isinstance(project, Pairs)
    assert not {"Project number", "Revision A"} & {label for label, _ in project.rows}
