"""The sheet as one PDF: the same blocks as the page, set by typst with its own typefaces only.

The file carries the job file and the result as attachments, is tagged for readers who do not see it (PDF/UA-1), is
meant for archives (PDF/A-3a) and is the same, byte for byte, for the same result.
"""

from __future__ import annotations

from pathlib import Path

from ...checks.core.result import JobResult
from ..document.calc_sheet import compose
from ..record.as_json import result_json
from ..record.pdf_mark import marked
from .blocks import job_day, sheet_data
from .typeset import set_pdf

SOURCE = Path(__file__).parent / "sheet.typ"
PARTS = tuple(SOURCE.with_name(name) for name in ("parts.typ", "short.typ"))  # imported by it


def sheet_pdf(result: JobResult, *, all_steps: bool = False) -> bytes:
    """The calc sheet of a result as a PDF.

    `all_steps`: with every derivation at the end. Returns with the attachments `job.toml` (the job file as it was) and
    `result.json` (what `result_json` gives). Raises BeamcheckError if typst or its typefaces are missing, or it cannot
    set the sheet.
    """
    held = {
        "job.toml": result.job_text.encode("utf-8", errors="replace"),
        "result.json": result_json(result).encode("utf-8"),
        **{part.name: part.read_bytes() for part in PARTS},
    }
    data = sheet_data(result, compose(result, all_steps=all_steps))
    made = set_pdf(
        SOURCE, data, job_day(result), what="sheet", held=held, data_name="sheet.json", standards=("a-3a", "ua-1")
    )
    return marked(made, result.version)
