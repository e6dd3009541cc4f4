"""The sheet as one PDF: the same blocks as the page, set by typst with its own typefaces only.

The file carries the job file and the result as attachments, is tagged for readers who do not see it (PDF/UA-1), is
meant for archives (PDF/A-3a) and is the same, byte for byte, for the same result.
"""

from __future__ import annotations

import json
from datetime import UTC, datetime
from pathlib import Path
from typing import Any, cast

from ...checks.core.result import JobResult
from ...errors import BeamcheckError
from ..document.calc_sheet import compose
from ..exchange.as_json import result_json
from .blocks import job_day, sheet_data
from .mark import marked
from .typefaces import FACES

TEMPLATE = "sheet.typ"


def sheet_pdf(result: JobResult) -> bytes:
    """The calc sheet of a result as a PDF.

    Parameters
    ----------
    result : JobResult

    Returns
    -------
    bytes
        With the attachments `job.toml` (the job file as it was) and `result.json` (what `result_json` gives).

    Raises
    ------
    BeamcheckError
        If typst or its typefaces are missing, or it cannot set the sheet.
    """
    try:
        import typst
    except ImportError as error:
        raise BeamcheckError(f"a PDF needs the package typst, 0.15 or later 0.15: {error}") from error
    missing = [face for face in FACES if face not in typst.Fonts(include_system_fonts=False).families()]
    if missing:
        raise BeamcheckError(f"typst came without its typefaces {', '.join(missing)}: install typst from its wheel")
    data = sheet_data(result, compose(result))
    files = {
        "main.typ": (Path(__file__).parent / TEMPLATE).read_bytes(),
        "sheet.json": json.dumps(data).encode("ascii"),
        "job.toml": result.job_text.encode("utf-8", errors="replace"),
        "result.json": result_json(result).encode("utf-8"),
    }
    day = job_day(result)
    clock = 0 if day is None else int(datetime(day.year, day.month, day.day, tzinfo=UTC).timestamp())
    try:
        made = typst.compile(
            cast(Any, files),  # it takes files by name, which its types do not say
            format="pdf", ignore_system_fonts=True, timestamp=max(clock, 0), pdf_standards=["a-3a", "ua-1"],
        )  # fmt: skip
    except typst.TypstError as error:
        raise BeamcheckError(f"typst could not set the sheet: {error}; version 0.15 is expected") from error
    return marked(bytes(made), result.version)
