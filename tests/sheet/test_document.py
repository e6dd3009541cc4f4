"""What stands on a sheet, and in which order."""

from __future__ import annotations

import math
from dataclasses import replace

import pytest

from beamcheck.checks.result import CAUTION, Check, JobResult, PieceResult, Table
from beamcheck.sheet.blocks import (
    Block,
    Bullets,
    Caution,
    CheckBlock,
    FigureBlock,
    Heading,
    JobText,
    Masthead,
    Pairs,
    SignOff,
    Symbols,
    TableBlock,
    VerdictBlock,
)
from beamcheck.sheet.document import by_gravity, compose, governing_phrase, quantity, verdict_line

from .sample import job


def of_kind(blocks: tuple[Block, ...], kind: type) -> list:
    return [block for block in blocks if isinstance(block, kind)]


def test_the_order_a_plan_checker_asks_for() -> None:
    blocks = compose(job())
    assert [type(block) for block in blocks[:5]] == [Masthead, Caution, VerdictBlock, SignOff, Heading]
    assert [block.text for block in of_kind(blocks, Heading) if block.level == 2] == [
        "Project",
        "Design loads and combinations",
        "Summary of all checks",
        "Load path",
        "Beam B1: 6x14 rough invented pine, 14 ft",
        "Rafter R2: 2x8 invented spruce at 16 in",
        "Post P1: 6x6 invented oak, 8 ft",
        "Sources",
        "What rests on memory, on assumptions, or is referred",
        "What is not checked here",
        "Symbols",
        "The job file",
    ]
    assert isinstance(blocks[-2], JobText) and isinstance(blocks[-1], Caution)


def test_a_piece_has_verdict_inputs_figure_tables_checks_in_this_order() -> None:
    blocks = compose(job())
    start = next(i for i, block in enumerate(blocks) if isinstance(block, Heading) and block.anchor == "piece-1")
    kinds = [type(block) for block in blocks[start : start + 13]]
    assert kinds == [Heading, VerdictBlock, Pairs, FigureBlock, TableBlock, TableBlock, Heading, CheckBlock, CheckBlock,
                     CheckBlock, Bullets, Bullets, Heading]  # fmt: skip


def test_the_first_screen_names_every_piece_with_its_verdict_and_reason() -> None:
    ruling = of_kind(compose(job()), VerdictBlock)[0]
    assert (ruling.verdict, ruling.large) == ("fails", True)
    assert [(item.verdict, item.name, item.anchor) for item in ruling.items] == [
        ("fails", "B1", "piece-1"), ("refer", "R2", "piece-2"), ("passes", "P1", "piece-3"),
    ]  # fmt: skip
    assert ruling.reasons == job().reasons


def test_project_data_has_tool_file_and_fingerprint_and_says_what_is_missing() -> None:
    rows = dict(of_kind(compose(job()), Pairs)[0].rows)
    assert rows["Address"] == "not given"
    assert rows["Tool"] == "beamcheck 0.1.0"
    assert rows["Its SHA-256"] == job().fingerprint


def test_the_summary_lists_every_check_worst_first() -> None:
    blocks = compose(job())
    summary = next(block for block in of_kind(blocks, TableBlock) if block.heads[:2] == ("piece", "check"))
    assert [(row[0], row[1], row[2], row[3]) for row in summary.rows] == [
        ("B1", "bending", "fails", "1.35"),
        ("B1", "deflection, live load", "fails", "1.0004"),  # never 1.00
        ("B1", "shear", "passes", "0.415"),
        ("R2", "birdsmouth seat", "refer", "–"),
        ("P1", "buckling", "passes", "0.310"),
    ]
    assert summary.heads[summary.verdict_column] == "verdict"


def test_what_rests_on_memory_is_called_out() -> None:
    bullets = {block.title: block.items for block in of_kind(compose(job()), Bullets)}
    memory = next(items for title, items in bullets.items() if title.startswith("From memory"))
    assert memory == ("Invented table for this sample (B1: Fb): made up, not a design value",)
    assert bullets["Assumed"] == ("B1: The ends are held against turning over.",)
    assert bullets["Referred to an engineer or a grader"] == (
        "R2: birdsmouth seat. The depth of the seat cut is not given.",
    )


def test_nothing_in_doubt_is_said_too() -> None:
    bare = replace(job(), pieces=(job().pieces[2],))
    doubts = [block.items for block in of_kind(compose(bare), Bullets)]
    assert doubts.count(("Nothing.",)) == 3


def test_each_symbol_is_explained_once() -> None:
    (symbols,) = of_kind(compose(job()), Symbols)
    assert len(set(symbols.names)) == len(symbols.names)
    assert {"F_b", "C_L", "R_B"} <= set(symbols.names)


def test_a_long_title_is_cut_at_the_head_and_whole_among_the_project_data() -> None:
    title = "very long " * 500
    blocks = compose(job(title=title))
    head = of_kind(blocks, Masthead)[0]
    assert len(head.short) <= 140 and head.short.endswith("…")
    assert of_kind(blocks, Pairs)[0].rows[0] == ("Title in full", title)


def test_si_sheets_say_in_which_units_the_equations_are() -> None:
    def told(units: str) -> bool:
        return any("inch, pound-force and psi" in str(block) for block in compose(job(units=units)))

    assert told("SI") and not told("US")


def test_an_empty_job() -> None:
    empty = JobResult("t", "refer", ("no piece",), (), (), (), "", "empty.toml", "0", "0.1.0")
    blocks = compose(empty)
    assert any(isinstance(block, TableBlock) and block.note == "Nothing was checked." for block in blocks)
    assert blocks[1] == Caution(CAUTION)


def test_a_piece_without_checks() -> None:
    assert governing_phrase(PieceResult("B", "beam", "t", "refer", (), ())) == "nothing was checked"


def check(verdict: str, ratio: float | None) -> Check:
    return Check("B", "w", "c", verdict, "force", 1.0, 2.0, ratio)  # type: ignore[arg-type]


def test_gravity() -> None:
    mixed = (check("passes", 0.9), check("refer", None), check("fails", 1.1), check("fails", 2.0), check("refer", 0.5))
    assert [(each.verdict, each.ratio) for each in by_gravity(mixed)] == [
        ("fails", 2.0), ("fails", 1.1), ("refer", 0.5), ("refer", None), ("passes", 0.9),
    ]  # fmt: skip


def test_verdict_lines() -> None:
    full = Check("B", "w", "c", "passes", "stress", 62.0, 124.0, 0.5, "D + L", "at 3 ft")
    assert verdict_line(full, "US") == "demand 62 psi, capacity 124 psi, ratio 0.500, at 3 ft, governed by D + L"
    assert verdict_line(Check("B", "w", "c", "refer"), "US") == "no ratio"


@pytest.mark.parametrize(
    ("value", "text"), [(None, "–"), (math.nan, "–"), (math.inf, "without limit"), (-math.inf, "−∞"), (12.0, "12 lb")]
)
def test_values_that_are_no_number(value: float | None, text: str) -> None:
    assert quantity(value, "force", "US") == text


def test_tables_keep_their_note_and_drop_a_title_said_already() -> None:
    table = Table("Load path", ("piece",), (("B1",),), "read from the job file")
    blocks = compose(replace(job(), tables=(table,)))
    shown = next(block for block in of_kind(blocks, TableBlock) if block.heads == ("piece",))
    assert (shown.title, shown.note) == ("", "read from the job file")
