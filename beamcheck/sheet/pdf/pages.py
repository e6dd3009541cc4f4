"""Pages of a sheet set by typst: all of them, those of a part, or nothing but the numbers of pages."""

from __future__ import annotations

import json
from collections.abc import Mapping
from pathlib import Path
from typing import Any

from ...checks.core.result import JobResult
from ..record.pdf_mark import JOB, RESULT
from .data import job_day
from .typeset import set_pdf

SOURCE = Path(__file__).parent / "sheet.typ"
IMPORTED = tuple(SOURCE.with_name(name) for name in ("parts.typ", "short.typ"))  # by it
SCHEME, PLACES = "whatcarries:", "places.json"  # of links within a sheet; the attachment of a part that says their ends
UNKNOWN = "0000"  # in the place of the number of a page, as wide as it


def set_pages(
    result: JobResult, data: Any, mode: Mapping[str, Any], held: Mapping[str, bytes] | None = None, *,
    tagged: bool = True, forgets: bool | None = None,
) -> bytes:  # fmt: skip
    """The PDF of some pages; `mode` says which, as in parts.typ, `held` what it carries. `forgets`: as in `set_pdf`."""
    files = {
        "mode.json": json.dumps({"unknown": UNKNOWN, "scheme": SCHEME, "places": PLACES, **mode}).encode("ascii"),
        **{one.name: one.read_bytes() for one in IMPORTED},
        **(held or {JOB: b"{}", RESULT: b"{}"}),
    }
    return set_pdf(
        SOURCE, data, job_day(result), what="sheet", held=files, data_name="sheet.json",
        standards=("a-3a", "ua-1") if tagged else ("a-3b",), tags=tagged,
        forgets=forgets,
    )  # fmt: skip
