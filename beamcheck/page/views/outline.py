"""A bracket begun from a drawing of the folder: its outline read, and the job around it from a few answers."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from ...errors import BeamcheckError, JobError
from ...model.outlines.files import UNITS, read_outline
from ...model.reading.reader import read_job_text
from ..guard.bodies import Refused
from .new_file import new_job, told
from .site import page, sent, site_of

if TYPE_CHECKING:
    from starlette.requests import Request
    from starlette.responses import Response

ASKS = (
    ("title", "What is it for?", "such as Shelf bracket in the hall"),
    ("thickness", "How thick is the board?", "such as 1 1/2 in"),
    ("width", "How wide is it?", "such as 11 1/4 in"),
    ("species", "What wood is it?", "such as White Oak, or unknown"),
    ("grade", "Which grade?", "such as No.1, or unstamped"),
    ("on", "What is it fixed to?", "such as stud wall, oak post"),
)
ROLES = ("carries", "decorative")


def outline(request: Request) -> Response:
    name = request.path_params["drawing"]
    path = _drawing(request, name)
    shape, problem = "", ""
    try:
        shape = read_outline(path, request.query_params.get("units") or None).toml()
    except BeamcheckError as error:
        problem = str(error).replace(str(path), name)
    return page(
        request, "outline.html", title=f"{name}: whatcarries", drawing=name, shape=shape, problem=problem, asks=ASKS,
        roles=ROLES, units=UNITS, unit=request.query_params.get("units", ""),
    )  # fmt: skip


def _drawing(request: Request, name: str) -> Any:
    found = site_of(request).folder.outlines()
    if name not in found:
        raise Refused("there is no drawing of that name in this folder", 404)
    return found[name]


@sent(name=str, answers=dict)
def begin(request: Request, asked: dict[str, Any]) -> Response:
    """Write the job of a bracket with that outline."""
    from starlette.responses import JSONResponse
    from tomlkit import item

    path = _drawing(request, request.path_params["drawing"])
    given = {key: str(value).strip()[:200] for key, value in asked["answers"].items() if isinstance(value, str)}
    missing = [(key, "this is needed") for key, *_ in ASKS if not given.get(key)]
    if missing:
        return JSONResponse({"problems": [{"where": key, "text": text, "line": 0} for key, text in missing]})
    if given.get("role") not in ROLES:
        return JSONResponse({"problems": [{"where": "role", "text": "pick one", "line": 0}]})
    try:
        shape = read_outline(path, given.get("units") or None).toml()
    except BeamcheckError as error:
        raise Refused(str(error).replace(str(path), path.name), 422) from None

    def quoted(key: str) -> str:
        return item(given[key]).as_string()

    thickness, width = _in_inches(given["thickness"]), _in_inches(given["width"])
    lines = [
        "# A bracket from a drawing: what is not known yet is left out and asked for.",
        "[job]", f"title = {quoted('title')}", 'standard = "NDS 2018"', 'loads = "ASCE 7-16"', "",
        "# the board it is cut from", "[[stock]]", 'name = "board"', f"species = {quoted('species')}",
        f"grade = {quoted('grade')}", f"size = {item(f'{thickness} x {width}').as_string()}",
        *(() if given["grade"].casefold() == "unstamped" else ('grade_from = "assumed"  # who says so?',)),
        'moisture = "green"  # until it is metered', 'assumed = ["moisture"]', "",
        "# what it is fixed to", "[[existing]]", f"name = {quoted('on')}", f"what = {quoted('on')}", "",
        "[[bracket]]", 'name = "K1"', 'stock = "board"', f"on = {quoted('on')}", f"role = \"{given['role']}\"", "",
        *_filled(shape, thickness),
    ]  # fmt: skip
    text = "\n".join(lines) + "\n"
    try:
        read_job_text(text, "job")
    except JobError as error:
        return JSONResponse({"problems": told(error.problems)})
    return new_job(request, asked["name"], text)


def _in_inches(said: str) -> str:
    """A measure without a unit is in inches."""
    return said if said[-1:].isalpha() else f"{said} in"


def _filled(shape: str, thickness: str) -> list[str]:
    """The table of the outline with the thickness that the drawing does not tell."""
    from tomlkit import item

    made = []
    for line in shape.splitlines():
        bare = line.lstrip("# ")
        if bare.startswith("thickness"):
            made.append(f"thickness = {item(thickness).as_string()}")
        else:
            made.append(line)
    return made
