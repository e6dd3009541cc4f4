"""All that the typst template of a sheet prints, made of its blocks run by run: a long sheet is never there at once."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Sequence
from datetime import date
from typing import Any

from ...checks.core.result import JobResult
from ...checks.core.summary import INVENTED
from ...lettering import legible
from ..document.basis import NOT_GIVEN
from ..document.blocks import Block, CheckBlock, Columns, Heading, Masthead, References
from ..document.rich_blocks import MemberHead, RichTable
from .blocks import HEADING, Maker
from .columns import drawn_first
from .text import NOT_TEXT, Data, cut, shown_text
from .typefaces import Printable, held

RUNNING, BESIDE_INVENTED, RUNNING_CAUTION = 64, 52, 400  # letters in the head and foot of each page
NUMBERED = (
    "Letters that the typefaces of this sheet lack are printed as their Unicode numbers, such as [U+6728]; in the job "
    "file that this PDF carries, and on the page (HTML), they stand as they were written. The typefaces have the "
    "Latin, Greek, Cyrillic, Armenian, Hebrew, Arabic and Georgian letters."
)
NO_TITLE = "Job without a title"
_DAY = re.compile(r"[0-9]{4}-[0-9]{2}-[0-9]{2}")


def sheet_data(result: JobResult, blocks: Sequence[Block]) -> Data:
    """Everything that the template prints, ready for JSON; `blocks` are those of `compose`."""
    shown = [each for run in sheet_runs(blocks) for each in run]
    return {"head": sheet_head(result, blocks, numbered=any_numbered(shown)), "blocks": shown}


def sheet_head(result: JobResult, blocks: Sequence[Block], *, numbered: bool) -> Data:
    """What stands at the head of the sheet and of its pages; `numbered`: are letters printed as their numbers?"""
    head = blocks[0]
    if not isinstance(head, Masthead):
        raise TypeError("a sheet begins with a Masthead block")
    about = {label.casefold(): text.strip() for label, text in result.about}
    return {
        "title": shown_text(cut(head.short, HEADING) or NO_TITLE),
        "running": shown_text(cut(head.short, BESIDE_INVENTED if head.invented else RUNNING)),
        "author": shown_text(cut(about.get("author", ""), RUNNING)),
        "date": shown_text(cut(about.get("date", "").replace(NOT_GIVEN, "undated"), 24)),
        "tool": shown_text(cut(head.tool, 24)),
        "fingerprint": head.fingerprint,
        "job": head.fingerprint[:12],
        "caution": shown_text(cut(head.caution, RUNNING_CAUTION)),
        "letters": NUMBERED if numbered or any_numbered(head.short) else "",
        "invented": INVENTED if head.invented else "",
        "paper": "us-letter" if result.units != "SI" else "a4",
    }


PARTS = ("path", "questions")  # whose order rests on what room a page has left


def sheet_runs(blocks: Sequence[Block]) -> Iterator[list[Data]]:
    """The data of the blocks, in runs that begin with a heading of the first level or the head of a member."""
    made = Maker(frozenset(anchors_of(blocks)))
    for run in _runs(blocks[1:]):
        data = _kept_together(_beside_each_other([each for block in run for each in made.block(block)]))
        part = data[0].get("anchor", "") if data else ""
        yield shown_text([{**each, "part": part} for each in data] if part in PARTS else data)


def job_day(result: JobResult) -> date | None:
    """The date of the job, if it is written as year-month-day."""
    for label, text in result.about:
        if label.casefold() == "date" and _DAY.fullmatch(text.strip()):
            try:
                return date.fromisoformat(text.strip())
            except ValueError:
                return None
    return None


def anchors_of(blocks: Iterable[Block]) -> Iterator[str]:
    """Every place that a link may lead to."""
    for block in blocks:
        if isinstance(block, Columns):
            yield from anchors_of((*block.left, *block.right, *block.flow))
        if isinstance(block, Heading | CheckBlock) and block.anchor:
            yield block.anchor
        if isinstance(block, MemberHead) or (isinstance(block, RichTable) and block.anchor):
            yield block.anchor
        if isinstance(block, References) and not block.short:
            yield from (f"source-{row.number}" for row in block.rows)


def any_numbered(value: Any) -> bool:
    """Is a letter printed as its number anywhere?"""
    if isinstance(value, str):
        return "[U+" in value if isinstance(value, Printable) else not all(map(held, legible(value)))
    if isinstance(value, dict):
        return any(any_numbered(one) for key, one in value.items() if key not in NOT_TEXT)
    return isinstance(value, list) and any(map(any_numbered, value))


def _runs(blocks: Iterable[Block]) -> Iterator[list[Block]]:
    run: list[Block] = []
    for block in blocks:
        if run and (isinstance(block, MemberHead) or (isinstance(block, Heading) and block.level == 2)):
            yield run
            run = []
        run.append(block)
    yield run


def _kept_together(data: list[Data]) -> list[Data]:
    """The head of a member with all up to its drawing as one block, which does not break unless it is very high."""
    made: list[Data] = []
    for each in data:
        before = made[-1] if made else {}
        if before.get("kind") == "Start" and before["blocks"][-1]["kind"] not in ("Columns", "Pairs"):
            before["blocks"].append(each)
            if each["kind"] == "Columns":
                before["whole"] = not drawn_first(each["right"])
        else:
            start = {"kind": "Start", "blocks": [each], "whole": False}
            made.append(start if each["kind"] == "MemberHead" else each)
    return made


def _beside_each_other(data: list[Data]) -> list[Data]:
    """Drawings that follow each other as one block, so that two small ones share a line."""
    made: list[Data] = []
    for each in data:
        if each["kind"] != "FigureBlock":
            made.append(each)
        elif made and made[-1]["kind"] == "Figures":
            made[-1]["figures"].append(each)
        else:
            made.append({"kind": "Figures", "figures": [each]})
    return made
