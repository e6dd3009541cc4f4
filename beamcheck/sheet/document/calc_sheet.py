"""From a result to the blocks of a calc sheet: the decision first, then one page a member; every step on request."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator
from dataclasses import replace

from ...checks.core.result import JobResult, Table
from .basis import BASIS, NOT_GIVEN, basis_blocks, is_path, loads_blocks
from .blocks import Block, CheckBlock, Columns, Contents, Heading, Masthead, Pairs, Paragraph, SignOff, Taken
from .closing import RESTS_ON, alphabetical, closing_blocks, job_blocks, symbols_of
from .piece import piece_blocks, summary_of, table_block
from .prose import capital, short_title
from .rich_blocks import Cell, FoldEnd, FoldStart, MemberHead, MemberList, RichTable, StaticsBlock, Strong, Symbol
from .short.context import Sheet, sheet_of
from .short.cover import decision_blocks
from .short.load_path import IN_TABLE, path_blocks, with_plan
from .short.member import member_blocks
from .short.path_ends import ends_table
from .short.questions import question_blocks
from .short.schedule import schedule_blocks

OUTCOMES = ("Reviewed", "Reviewed with corrections", "Not accepted")
TITLE_BLOCK = ("project number", "designed by", "checked by")
LONG = 1500  # letters of project data that may not fit on a page
REVISION, ROOM = "revision ", 2  # of a label; blank rows for revisions by pen
EVERY_STEP, EVERY_STEP_ANCHOR = "Appendix: every step", "every-step"


def compose(result: JobResult, *, all_steps: bool = False) -> tuple[Block, ...]:
    """The blocks of a calc sheet; with `all_steps` every derivation stands at its end."""
    sheet = with_plan(sheet_of(result))
    members = [block for group in sheet.groups for block in member_blocks(group, sheet)]
    symbols = symbols_of(result) if all_steps else alphabetical(_printed(members))
    body: tuple[Block, ...] = (
        *basis_blocks(result), *schedule_blocks(sheet), *_path(sheet, all_steps=all_steps), *question_blocks(sheet),
        *members,
        *closing_blocks(result, sheet.numbers, sheet.letters, sheet.marks, symbols, all_steps=all_steps),
        *(_appendix(sheet) if all_steps else ()),
        *job_blocks(result, printed=all_steps),
    )  # fmt: skip
    front = tuple(_front(sheet))
    if not all_steps:
        return (*front, *body)
    return (*front, Heading("Contents", anchor="contents", new_page=True), Contents(_parts(body)), *body)


def _printed(blocks: Iterable[Block]) -> Iterator[str]:
    """The symbols that stand on the pages of the members."""
    for block in blocks:
        if isinstance(block, Columns):
            yield from _printed((*block.left, *block.right, *block.flow))
        elif isinstance(block, RichTable):
            yield from (cell.name for row in (block.heads, *block.rows) for cell in row if isinstance(cell, Symbol))
        elif isinstance(block, StaticsBlock):
            yield from (line.symbol for line in block.lines)
        elif isinstance(block, CheckBlock):
            for line in block.lines.lines:
                for entry in line.entries if isinstance(line, Taken) else (line.entry,):
                    yield from (entry.step.symbol, *entry.step.inputs)
            yield from (entry.step.symbol for known in block.lines.known for entry in known.entries)


def _parts(blocks: tuple[Block, ...]) -> tuple[tuple[str, str], ...]:
    """The parts of the sheet with their anchors."""
    found = []
    for block in blocks:
        if isinstance(block, MemberHead):
            found.append((f"{', '.join(block.marks)} {block.title}", block.anchor))
        elif isinstance(block, Heading) and block.level == 2:
            found.append((block.text, block.anchor))
    return tuple(found)


def _front(sheet: Sheet) -> Iterator[Block]:
    result = sheet.result
    short, tool = short_title(result.title), f"whatcarries {result.version}"
    yield Masthead(result.title, short, tool, result.fingerprint, result.caution, result.invented)
    if result.pieces:
        yield MemberList(
            tuple((sheet.marks[one.name], one.name, sheet.anchors[one.name], one.verdict) for one in result.pieces)
        )
    yield from decision_blocks(sheet)
    fields = tuple(capital(field.strip(" :")) for field in re.split(r"_{2,}", result.sign_off) if field.strip(" :"))
    note = (
        "Not a permit document without the signature, and the seal where the law asks for one. "
        f"To be read before signing: “{RESTS_ON}”."
    )
    yield SignOff(fields, note, OUTCOMES)
    yield Heading("Project", anchor="project")
    project = Pairs(_project(result, tool, whole_title=short != result.title))
    fits = sum(len(text) for _, text in project.rows) <= LONG
    yield Columns((project,), (_title_block(result),), whole=fits)  # what is longer than a page ends on the next one


def _title_block(result: JobResult) -> RichTable:
    """Project number, who designed and checked, revisions: what the job says, and room for a pen."""
    about = {label.casefold(): text for label, text in result.about}
    line = tuple(about.get(label, "") for label in TITLE_BLOCK)
    revisions = [(label.partition(" ")[2], text, "") for label, text in result.about if label.startswith(REVISION)]
    blank = [("", "", "")] * max(ROOM - len(revisions), 1)
    rows: list[tuple[Cell, ...]] = [
        line,
        (Strong("Revision"), Strong("date, what was changed, by whom"), Strong("engineer")),
    ]
    rows += [*revisions, *blank]
    return RichTable("", TITLE_BLOCK, tuple(rows), (1.2, 2.4, 1.2), (), "", "titles", "titles")


def _project(result: JobResult, tool: str, *, whole_title: bool) -> tuple[tuple[str, str], ...]:
    """Project data; what is not given is said in one row."""
    about = [
        (label, text)
        for label, text in result.about
        if label.casefold() not in (*BASIS, *TITLE_BLOCK) and not label.startswith(REVISION)
    ]
    given = [(capital(label), text) for label, text in about if text.strip() not in ("", NOT_GIVEN)]
    missing = [label for label, text in about if text.strip() in ("", NOT_GIVEN)]
    rows = [("Title in full", result.title)] if whole_title else []
    rows += given
    if missing:
        rows.append((capital(NOT_GIVEN), ", ".join(missing)))
    return (*rows, ("Tool", tool), ("Job file", result.job_name), ("Its SHA-256", result.fingerprint))


def _path(sheet: Sheet, *, all_steps: bool) -> Iterator[Block]:
    """The load path: drawn; as a table where the drawing has not all of it, and among all steps."""
    result = sheet.result
    path = [table for table in result.tables if is_path(table)]
    if any(table.rows for table in path):  # a joint with stated forces hands nothing on
        yield Heading("Key plan and load path", anchor="path")
        drawn = tuple(path_blocks(sheet))
        yield from drawn
        if all_steps or not drawn or any(isinstance(one, Paragraph) and one.text.endswith(IN_TABLE) for one in drawn):
            yield from (table_block(table if all_steps else _once(table), "Load path") for table in path)
        else:
            yield from ends_table(path[0], sheet)


def _once(table: Table) -> Table:
    """Rows that say the same once, with how often it is so."""
    rows = (
        row if (count := table.rows.count(row)) == 1 else (f"{row[0]}, {count} alike", *row[1:])
        for row in dict.fromkeys(table.rows)
    )
    return replace(table, rows=tuple(rows))


def _appendix(sheet: Sheet) -> Iterator[Block]:
    """Loads and surroundings, every check by its ratio, then each piece with every step of its checks."""
    result = sheet.result
    yield Heading(EVERY_STEP, anchor=EVERY_STEP_ANCHOR, new_page=True)
    yield Heading("Loads and exposure", level=3)
    yield from loads_blocks(result)
    yield Heading("Summary of all checks", anchor="summary")
    summary = summary_of(result.pieces, result.units)
    yield summary
    if not any((summary.open, summary.rows, summary.met)):
        yield Paragraph("Nothing was checked.")
    for index, piece in enumerate(result.pieces):
        mark = sheet.marks[piece.name]
        name = "" if mark == piece.name else f" {piece.name}"
        yield Heading(f"{mark}{name}, every step: {piece.title}", anchor=f"steps-{index + 1}", running=f"{mark}{name}")
        yield FoldStart(f"Every step of {mark}{name}")
        yield from piece_blocks(piece, index, result.units, sheet.numbers)
        yield FoldEnd()
