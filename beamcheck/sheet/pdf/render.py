"""The sheet as one PDF: the same blocks as the page, set by typst with its own typefaces only.

The file carries the job file and the result as attachments, is tagged for readers who do not see it (PDF/UA-1), is
meant for archives (PDF/A-3a) and is the same, byte for byte, for the same result. A long sheet is set in parts.
"""

from __future__ import annotations

import json
from collections.abc import Iterable, Iterator, Mapping, Sequence
from pathlib import Path
from typing import Any

from ...checks.core.result import JobResult
from ..document.blocks import Block
from ..document.calc_sheet import compose
from ..record.as_json import result_json_pieces
from ..record.pdf_mark import marked
from ..record.pdf_read import JOB, RESULT
from ..spool import Spool
from .cuts import LONG, PART, Part, parts_of
from .data import any_numbered, job_day, sheet_data, sheet_head, sheet_runs
from .join import PLACES, SCHEME, Added, Joined, places_of
from .objects import Objects
from .text import Data
from .typeset import forget, set_pdf

SOURCE = Path(__file__).parent / "sheet.typ"
PARTS = tuple(SOURCE.with_name(name) for name in ("parts.typ", "short.typ"))  # imported by it
UNKNOWN = "0000"  # in the place of the number of a page, as wide as it
NUMBERS = 400  # of pages that are set at once
TRIES = 4  # until the numbers of pages that a part prints are those that it makes


def sheet_pdf(result: JobResult, *, all_steps: bool = False) -> bytes:
    """The calc sheet of a result as a PDF.

    `all_steps`: with every derivation at the end. It carries as attachments `job.toml` (the job file as it was) and
    `result.json` (what `result_json` gives). Raises BeamcheckError if typst or its typefaces are missing, or it cannot
    set the sheet.
    """
    return b"".join(sheet_pdf_pieces(result, all_steps=all_steps))


def sheet_pdf_pieces(result: JobResult, *, all_steps: bool = False) -> Iterable[bytes]:
    """The same in pieces, to be written one after the other; that of a large job is on the disk and not in memory."""
    blocks = compose(result, all_steps=all_steps)
    runs, first, weight = _Runs(blocks), list[list[Data]](), 0
    each = iter(runs)
    for run in each:
        first.append(run)
        weight += len(json.dumps(run))
        if weight > LONG:
            return _Long(result, blocks, runs).joined(parts_of(_all(first, each), PART)) or _whole(result, blocks)
    return _set_whole(result, sheet_head(result, blocks, numbered=runs.numbered), first)


def _whole(result: JobResult, blocks: Sequence[Block]) -> list[bytes]:
    data = sheet_data(result, blocks)
    return _set_whole(result, data["head"], [data["blocks"]])


def _set_whole(result: JobResult, head: Data, runs: Iterable[list[Data]]) -> list[bytes]:
    held = {
        JOB: result.job_text.encode("utf-8", errors="replace"),
        RESULT: b"".join(result_json_pieces(result)),
    }
    data = {"head": head, "blocks": [each for run in runs for each in run]}
    return [marked(_set(result, data, {"kind": "whole"}, held), result.version)]


def _set(
    result: JobResult, data: Any, mode: Mapping[str, Any], held: Mapping[str, bytes] | None = None, *,
    tagged: bool = True,
) -> bytes:  # fmt: skip
    """Pages of the sheet; `mode` says which, as in parts.typ."""
    files = {
        "mode.json": json.dumps({"unknown": UNKNOWN, "scheme": SCHEME, "places": PLACES, **mode}).encode("ascii"),
        **{part.name: part.read_bytes() for part in PARTS},
        **(held or {JOB: b"{}", RESULT: b"{}"}),
    }
    return set_pdf(
        SOURCE, data, job_day(result), what="sheet", held=files, data_name="sheet.json",
        standards=("a-3a", "ua-1") if tagged else ("a-3b",), tags=tagged,
    )  # fmt: skip


class _Runs:
    """The runs of a sheet, and whether letters in those that were made are printed as their numbers."""

    def __init__(self, blocks: Sequence[Block]) -> None:
        self._blocks = blocks
        self.numbered = False

    def __iter__(self) -> Iterator[list[Data]]:
        for run in sheet_runs(self._blocks):
            self.numbered = self.numbered or any_numbered(run)
            yield run


def _all(first: list[list[Data]], rest: Iterator[list[Data]]) -> Iterator[list[Data]]:
    """The first and the rest, none kept."""
    while first:
        yield first.pop(0)
    yield from rest


class _Long:
    """A sheet that is set in parts: those that print numbers of pages last, when the others have theirs."""

    def __init__(self, result: JobResult, blocks: Sequence[Block], runs: _Runs) -> None:
        self._result, self._blocks, self._runs = result, blocks, runs

    def joined(self, parts: Iterator[Part]) -> Spool | None:
        """The file; None where the numbers of its pages do not come to rest."""
        file, waiting, made = Joined(), dict[int, Part](), dict[int, Added]()
        for number, part in enumerate(parts):
            if number == 0 or part.asks:
                waiting[number] = part
            else:
                made[number] = file.add(self._set(part, {}))
        rested = self._at_rest(waiting, made)
        if rested is None:
            return None
        carried = {
            JOB: [self._result.job_text.encode("utf-8", errors="replace")],
            RESULT: result_json_pieces(self._result),
        }
        for number, pdf in rested.items():
            made[number] = file.add(pdf, None if number else carried)
        order = [made[number] for number in sorted(made)]
        return file.finish(order, self._numbers(sum(len(one.pages) for one in order)), self._result.version)

    def _at_rest(self, waiting: Mapping[int, Part], made: Mapping[int, Added]) -> dict[int, bytes] | None:
        """The parts that print numbers of pages, set until those are the numbers that come out."""
        told: dict[str, int] = {}
        pdfs: dict[int, bytes] = {}
        for _ in range(TRIES):
            for number, part in waiting.items():
                if part.asks or number not in pdfs:
                    pdfs[number] = self._set(part, told, first=number == 0)
            counted = {number: (len(one.pages), one.places) for number, one in made.items()}
            counted |= {number: _counted(pdf) for number, pdf in pdfs.items()}
            found, before = dict[str, int](), 0
            for number in sorted(counted):
                count, places = counted[number]
                found |= {anchor: before + place[0] + 1 for anchor, place in places.items()}
                before += count
            if found == told:
                return pdfs
            told = found
        return None

    def _set(self, part: Part, pages: Mapping[str, int], *, first: bool = False) -> bytes:
        head = sheet_head(self._result, self._blocks, numbered=self._runs.numbered)
        data = f'{{"head": {json.dumps(head)}, "running": {json.dumps(part.running)}, "blocks": {part.blocks}}}'
        mode = {"kind": "part", "first": first, "anchors": part.anchors, "pages": pages if part.asks else {}}
        made = _set(self._result, data, mode)
        forget()
        return made

    def _numbers(self, total: int) -> Iterator[bytes]:
        """Pages with nothing but their numbers."""
        data = {"head": sheet_head(self._result, self._blocks, numbered=False), "running": "", "blocks": []}
        for before in range(0, total, NUMBERS):
            mode = {"kind": "numbers", "before": before, "total": total, "count": min(NUMBERS, total - before)}
            yield _set(self._result, data, mode, tagged=False)
        forget()


def _counted(pdf: bytes) -> tuple[int, dict[str, tuple[int, float, float]]]:
    """How many pages a part has, and its places."""
    part = Objects(pdf)
    return len(list(part.pages())), places_of(part)
