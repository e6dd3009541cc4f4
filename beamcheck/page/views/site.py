"""What all views share: the folder, the desks, and how a page or a reply is made."""

from __future__ import annotations

import time
import tomllib
from collections.abc import Callable
from typing import TYPE_CHECKING, Any, TypeVar

from ...jobfile.keep import ChangedSince, JobFile
from ...lettering import legible
from ...model.classes import KINDS
from ...records import dataclass
from ..desk import Checked, Desk, Desks
from ..folder.listing import Folder
from ..guard.bodies import MOST_ANSWER, Refused, json_of
from ..guard.keys import Keys, Visitor
from ..show.render import rendered

if TYPE_CHECKING:
    from starlette.requests import Request
    from starlette.responses import Response

T = TypeVar("T")
View = Callable[["Request", dict[str, Any]], "Response"]
TABLES = tuple(name for name in KINDS if name not in ("answer", "ruling"))
PIECES = ("beam", "rafter", "tie", "post", "anchor", "bracket", "trim", "frame", "joint")


@dataclass(frozen=True)
class Site:
    """What is served."""

    folder: Folder
    desks: Desks
    keys: Keys
    cookie: str


def site_of(request: Request) -> Site:
    found: Site = request.app.state.site
    return found


def page(request: Request, template: str, now: Opened | None = None, *, status: int = 200, **values: Any) -> Response:
    """A whole page; of a job, where one is opened."""
    from starlette.responses import HTMLResponse

    visitor: Visitor | None = request.scope.get("state", {}).get("visitor")
    site = site_of(request)
    of_job = {} if now is None else {"job": now.name, "where": now.name, "digest": now.file.digest}
    values = {
        "job": None, "title": "whatcarries", "where": "", "lock": _lock(visitor),
        "phone": bool(visitor and visitor.phone), "read_only": bool(visitor and visitor.read_only),
        "writable": site.folder.writable(), "invented": False, **of_job, **values,
    }  # fmt: skip
    return HTMLResponse(rendered(template, **values), status)


def _lock(visitor: Visitor | None) -> str:
    if visitor is None or not visitor.phone:
        return "only on this computer"
    until = time.strftime("%I:%M", time.localtime(visitor.until)).lstrip("0")
    only = "to look only, " if visitor.read_only else ""
    return f"this phone only, {only}until {until}"


async def later(work: Callable[..., T], *given: Any) -> T:
    """Work that takes time, beside the one who answers everybody; where starlette has views that are not async, too."""
    from starlette.concurrency import run_in_threadpool

    return await run_in_threadpool(work, *given)


def sent(most: int = MOST_ANSWER, **parts: type) -> Callable[[View], Any]:
    """Makes a view of work with what is sent as JSON in these parts."""

    def made(work: View) -> Any:
        async def view(request: Request) -> Response:
            return await later(work, request, await json_of(request, most, **parts))

        return view

    return made


def writes(most: int = MOST_ANSWER, **parts: type) -> Callable[[Callable[[Opened, dict[str, Any]], Response]], Any]:
    """The same for work on a job file, which must be as the page has seen it."""

    def made(work: Callable[[Opened, dict[str, Any]], Response]) -> Any:
        def unchanged(request: Request, asked: dict[str, Any]) -> Response:
            now = opened(request)
            if now.file.digest != asked["digest"]:
                return changed_elsewhere(now.file.text)
            try:
                return work(now, asked)
            except ChangedSince as error:
                return changed_elsewhere(error.now)

        return sent(most, digest=str, **parts)(unchanged)

    return made


def changed_elsewhere(text: str) -> Response:
    """The file on the disk is not the one that the page has seen: nothing was written, and here it is."""
    from starlette.responses import JSONResponse

    said = "This job file was changed elsewhere since this page was opened. Nothing of yours was written over it."
    return JSONResponse({"changed": said, "now": legible(text)}, 409)


@dataclass(frozen=True)
class Opened:
    """A job of the folder as it stands on the disk."""

    name: str
    file: JobFile
    desk: Desk

    @property
    def data(self) -> dict[str, Any]:
        """The plain data; empty where the file is no TOML."""
        try:
            return tomllib.loads(self.file.text.removeprefix("\ufeff"))
        except (ValueError, RecursionError):
            return {}

    def check(self) -> Checked:
        return self.desk.check(self.file.text)

    def worked_out(self) -> Checked:
        """With steps and remedies."""
        return self.desk.work_out(self.file.text)


def opened(request: Request) -> Opened:
    """The job that the address names. Raises Refused if there is none of that name."""
    site = site_of(request)
    name = request.path_params["job"]
    return Opened(name, site.desks.file(name), site.desks.desk(name))


def entry_of(data: dict[str, Any], kind: str, number: int) -> dict[str, Any]:
    """An entry of a job by its table and its number from 1. Raises Refused if there is none."""
    if kind not in TABLES:
        raise Refused("there is no such part of a job", 404)
    found = data.get(kind)
    entries = [found] if kind == "job" else found
    if not isinstance(entries, list) or not 1 <= number <= len(entries) or not isinstance(entries[number - 1], dict):
        raise Refused("there is no such part of this job", 404)
    one: dict[str, Any] = entries[number - 1]
    return one


def entries_of(data: dict[str, Any], kind: str) -> list[dict[str, Any]]:
    """The entries of a table; what is none of them is left out, as it is where there is no such table."""
    found = data.get(kind)
    return [one if isinstance(one, dict) else {} for one in found] if isinstance(found, list) else []


def links(data: dict[str, Any]) -> dict[str, str]:
    """Of each entry by its name the end of its address; sticks apart, since a beam may bear the same name."""
    found: dict[str, str] = {}
    for kind in TABLES:
        for number, entry in enumerate(entries_of(data, kind), start=1):
            name = str(entry.get("name", ""))
            found[f"stock {name}" if kind == "stock" else name] = f"{kind}/{number}"
    return found
