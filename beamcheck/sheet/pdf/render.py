"""The sheet as one PDF: the same blocks as the page, set by typst with its own typefaces only.

The file carries the job file and the result as attachments, is tagged for readers who do not see it (PDF/UA-1), is
meant for archives (PDF/A-3a) and is the same, byte for byte, for the same result. A long sheet is set in parts.
"""

from __future__ import annotations

import json
from collections.abc import Iterable, Iterator

from ...checks.core.result import JobResult
from ..document.calc_sheet import compose
from ..record.as_json import result_json_pieces
from ..record.pdf_mark import JOB, RESULT, marked
from .data import any_numbered, sheet_data, sheet_head, sheet_runs
from .pages import set_pages
from .text import Data

LONG = 1_000_000  # letters of data up to which a sheet is set in one piece, some 45 pages


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
    runs = sheet_runs(blocks)
    first, weight = list[list[Data]](), 0
    for run in runs:
        first.append(run)
        weight += len(json.dumps(run))
        if weight > LONG:
            from .long import in_parts

            return in_parts(result, blocks, _all(first, runs)) or _whole(result, sheet_data(result, blocks))
    head = sheet_head(result, blocks, numbered=any_numbered(first))
    return _whole(result, {"head": head, "blocks": [each for run in first for each in run]})


def _all(first: list[list[Data]], rest: Iterator[list[Data]]) -> Iterator[list[Data]]:
    """The first and the rest, none kept."""
    while first:
        yield first.pop(0)
    yield from rest


def _whole(result: JobResult, data: Data) -> list[bytes]:
    job = result.job_text.encode("utf-8", errors="replace")
    held = {JOB: job, RESULT: b"".join(result_json_pieces(result))}
    return [marked(set_pages(result, data, {"kind": "whole"}, held), result.version)]
