"""From a result to the blocks of a calc sheet, in the order in which a plan checker asks for them."""

from __future__ import annotations

import re
from collections.abc import Iterator

from ..checks.result import JobResult
from ..checks.shown import MEANING, governing_phrase
from .blocks import (
    Block,
    Caution,
    Heading,
    Item,
    Masthead,
    Pairs,
    Paragraph,
    SignOff,
    Summary,
    VerdictBlock,
)  # fmt: skip
from .closing import closing_blocks
from .piece_part import piece_anchor, piece_blocks, summary_group, table_block
from .prose import capital, ended, sentence

_TITLE = 140  # characters of a title at the head; the whole title stands with the project data
_NOT_GIVEN = "not given"


def compose(result: JobResult) -> tuple[Block, ...]:
    """The blocks of a calc sheet."""
    numbers = {source: number for number, source in enumerate(result.sources, start=1)}
    pieces = [
        block
        for index, piece in enumerate(result.pieces)
        for block in piece_blocks(piece, index, result.units, numbers)
    ]
    return (*_front(result), *_tables(result), *pieces, *closing_blocks(result, numbers))


def _front(result: JobResult) -> Iterator[Block]:
    title = " ".join(result.title.split())
    short = title if len(title) <= _TITLE else title[: _TITLE - 1].rstrip() + "…"
    tool = f"beamcheck {result.version}"
    yield Masthead(result.title, short, tool, result.fingerprint, result.caution, result.invented)
    yield Caution(result.caution)
    items = tuple(
        Item(piece.verdict, piece.name, sentence(governing_phrase(piece)), piece_anchor(index))
        for index, piece in enumerate(result.pieces)
    )
    reasons = tuple(map(ended, result.reasons))
    yield VerdictBlock(result.verdict, MEANING[result.verdict], reasons, items, large=True)
    fields = tuple(capital(field.strip(" :")) for field in re.split(r"_{2,}", result.sign_off) if field.strip(" :"))
    yield SignOff(fields, "Not a permit document without the signature, and the seal where the law asks for one.")
    yield Heading("Project", anchor="project")
    yield Pairs(_project(result, tool, whole_title=short != result.title))


def _project(result: JobResult, tool: str, *, whole_title: bool) -> tuple[tuple[str, str], ...]:
    """Project data; what is not given is said in one row."""
    given = [(capital(label), text) for label, text in result.about if text.strip() not in ("", _NOT_GIVEN)]
    missing = [label for label, text in result.about if text.strip() in ("", _NOT_GIVEN)]
    rows = [("Title in full", result.title)] if whole_title else []
    rows += given
    if missing:
        rows.append((capital(_NOT_GIVEN), ", ".join(missing)))
    return (*rows, ("Tool", tool), ("Job file", result.job_name), ("Its SHA-256", result.fingerprint))


def _tables(result: JobResult) -> Iterator[Block]:
    path = [table for table in result.tables if "path" in table.title.casefold()]
    loads = [table for table in result.tables if table not in path]
    if loads:
        yield Heading("Design loads and combinations", anchor="loads")
        yield from (table_block(table, "Design loads and combinations") for table in loads)
    yield Heading("Summary of all checks", anchor="summary")
    groups = tuple(summary_group(piece, index, result.units) for index, piece in enumerate(result.pieces))
    yield Summary(groups)
    if not any(group.rows or group.statements for group in groups):
        yield Paragraph("Nothing was checked.")
    if path:
        yield Heading("Load path", anchor="path")
        yield from (table_block(table, "Load path") for table in path)
