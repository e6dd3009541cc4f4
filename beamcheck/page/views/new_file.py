"""A new job file in the folder, and problems as the page is told of them."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING, Any

from ...errors import BeamcheckError
from ...jobfile.keep import save_new
from ...lettering import legible
from ..folder.listing import JOB
from .site import site_of

if TYPE_CHECKING:
    from starlette.requests import Request
    from starlette.responses import Response

_NAME = re.compile(r"[A-Za-z0-9][A-Za-z0-9 _-]{0,59}")


def new_job(request: Request, name: str, made: str) -> Response:
    """Write a job file under a new name; errors are told beside the field."""
    from starlette.responses import JSONResponse

    stem = name.strip().removesuffix(JOB)
    if not _NAME.fullmatch(stem):
        said = "a name for the file: letters, digits, spaces, - and _, such as hall_beam"
        return JSONResponse({"problems": [{"where": "name", "text": said, "line": 0}]})
    try:
        save_new(site_of(request).folder.path / f"{stem}{JOB}", plain_lines(made))
    except BeamcheckError as error:
        return JSONResponse({"problems": [{"where": "name", "text": str(error), "line": 0}]})
    return JSONResponse({"written": True, "problems": [], "go": f"/job/{stem}"})


def plain_lines(text: str) -> str:
    """A browser may send other line ends than the file has."""
    return text.replace("\r\n", "\n")


def told(problems: Any) -> list[dict[str, Any]]:
    """Problems for the page: place and words."""
    return [{"where": legible(one.where), "text": legible(one.text), "line": one.line or 0} for one in problems]
