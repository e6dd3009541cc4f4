"""From a result to the blocks of a calc sheet, in the order in which a plan checker asks for them."""

from __future__ import annotations

import re
from collections.abc import Iterator

from ...checks.core.result import JobResult, PieceResult
from ...checks.core.summary import MEANING, governing_phrase
from .basis import BASIS, NOT_GIVEN, basis_blocks, is_path, key_blocks
from .blocks import (
    Block,
    Caution,
    Contents,
    Heading,
    Item,
    Masthead,
    Pairs,
    Paragraph,
    SignOff,
    VerdictBlock,
)  # fmt: skip
from .closing import RESTS_ON, closing_blocks
from .load_path import path_blocks
from .piece import piece_anchor, piece_blocks, summary_of, table_block
from .prose import capital, ended, sentence, short_title
from .questions import question_blocks

OUTCOMES = ("Reviewed", "Reviewed with corrections", "Not accepted")


def compose(result: JobResult) -> tuple[Block, ...]:
    """The blocks of a calc sheet."""
    numbers = {source: number for number, source in enumerate(result.sources, start=1)}
    pieces = [
        block
        for index, piece in enumerate(result.pieces)
        for block in piece_blocks(piece, index, result.units, numbers)
    ]
    middle = (*question_blocks(result), *basis_blocks(result), *key_blocks(result), *_overview(result))
    body = (*middle, *pieces, *closing_blocks(result, numbers))
    parts = tuple((block.text, block.anchor) for block in body if isinstance(block, Heading) and block.level == 2)
    return (*_front(result), Heading("Contents", anchor="contents", new_page=True), Contents(parts), *body)


def _front(result: JobResult) -> Iterator[Block]:
    short = short_title(result.title)
    tool = f"whatcarries {result.version}"
    yield Masthead(result.title, short, tool, result.fingerprint, result.caution, result.invented)
    yield Caution(result.caution)
    items = tuple(
        Item(piece.verdict, piece.name, _decided(piece), piece_anchor(index))
        for index, piece in enumerate(result.pieces)
    )
    reasons = tuple(map(ended, result.reasons))
    yield VerdictBlock(result.verdict, MEANING[result.verdict], reasons, items, large=True)
    fields = tuple(capital(field.strip(" :")) for field in re.split(r"_{2,}", result.sign_off) if field.strip(" :"))
    note = (
        "Not a permit document without the signature, and the seal where the law asks for one. "
        f"To be read before signing: “{RESTS_ON}”."
    )
    yield SignOff(fields, note, OUTCOMES)
    yield Heading("Project", anchor="project")
    yield Pairs(_project(result, tool, whole_title=short != result.title))


def _decided(piece: PieceResult) -> str:
    """What decides about a piece, after what a bracket was found to be."""
    return " ".join(filter(None, (sentence(piece.finding), sentence(governing_phrase(piece)))))


def _project(result: JobResult, tool: str, *, whole_title: bool) -> tuple[tuple[str, str], ...]:
    """Project data; what is not given is said in one row."""
    about = [(label, text) for label, text in result.about if label.casefold() not in BASIS]
    given = [(capital(label), text) for label, text in about if text.strip() not in ("", NOT_GIVEN)]
    missing = [label for label, text in about if text.strip() in ("", NOT_GIVEN)]
    rows = [("Title in full", result.title)] if whole_title else []
    rows += given
    if missing:
        rows.append((capital(NOT_GIVEN), ", ".join(missing)))
    return (*rows, ("Tool", tool), ("Job file", result.job_name), ("Its SHA-256", result.fingerprint))


def _overview(result: JobResult) -> Iterator[Block]:
    """Load path, then every check of the job."""
    if path := [table for table in result.tables if is_path(table)]:
        yield Heading("Load path", anchor="path")
        yield from path_blocks(result)
        yield from (table_block(table, "Load path") for table in path)
    yield Heading("Summary of all checks", anchor="summary")
    summary = summary_of(result.pieces, result.units)
    yield summary
    if not any((summary.open, summary.rows, summary.met)):
        yield Paragraph("Nothing was checked.")
