"""One entry of a job: its form, and for a piece the drawing, sentence and verdict, which follow as one types."""

from __future__ import annotations

import time
from contextlib import suppress
from typing import TYPE_CHECKING, Any

from ...errors import BeamcheckError, JobError, Problem
from ...jobfile.edit import with_fields
from ...jobfile.keep import save
from ...jobfile.layout import block_of, changed_lines, without_entry
from ...lettering import legible
from ...model.classes import class_of
from ...model.fields.places import plain
from ..desk import Checked, Superseded
from ..form.fields import blank, sections
from ..form.values import value_of
from ..form.words import KINDS
from ..guard.bodies import Refused
from ..show.elevation import drawing_of
from ..show.render import rendered
from ..show.rows import Shown, found_in, shown
from .new_file import told
from .site import PIECES, Opened, entries_of, entry_of, links, opened, page, sent, writes

if TYPE_CHECKING:
    from starlette.requests import Request
    from starlette.responses import Response

MOST_SETS = 60


def entry(request: Request) -> Response:
    """The form of an entry, with what the page knows of it now."""
    now = opened(request)
    kind, number = request.path_params["kind"], request.path_params["number"]
    data = now.data
    given = entry_of(data, kind, number)
    name = str(given.get("name", ""))
    path = kind if kind == "job" else f"{kind}.{name}"
    keys: tuple[str | int, ...] = (kind,) if kind == "job" else (kind, number - 1)
    found = now.check()
    groups = [("", sections(class_of(kind), given, path, keys, data))]
    stick = given.get("stock")
    for place, stock in enumerate(entries_of(data, "stock")):
        if stock.get("name") == stick and stick and kind != "stock":
            also = [one for one in _users(data, str(stick)) if one != name]
            note = f"also the stick of {', '.join(also)}" if also else ""
            groups.append(
                (
                    f"The stick, {stick}. {note}".strip(),
                    sections(class_of("stock"), stock, f"stock.{stick}", ("stock", place), data),
                )
            )
    return page(
        request,
        "piece.html",
        now,
        title=f"{name or KINDS[kind]}: whatcarries",
        kind=kind,
        number=number,
        name=name,
        called=str(given.get("called") or given.get("what") or ""),
        groups=groups,
        see=seen_now(found, now, kind, name),
        is_piece=kind in PIECES,
        lists=lists_of(data),
        links=links(data),
        problems=found.problems,
        kind_word=KINDS[kind],
        invented=is_invented(data),
        lines=block_lines(now.file.text, kind, number),
        removable=kind != "job",
    )


def _users(data: dict[str, Any], stock: str) -> list[str]:
    return [str(one.get("name", "")) for kind in PIECES for one in entries_of(data, kind) if one.get("stock") == stock]


def is_invented(data: dict[str, Any]) -> bool:
    head = data.get("job")
    return isinstance(head, dict) and head.get("invented") is True


def lists_of(data: dict[str, Any]) -> dict[str, list[str]]:
    """Names to choose from."""
    from ...values.loads import live_load_uses
    from ...values.species import species_names

    def names(*kinds: str) -> list[str]:
        return [str(one.get("name", "")) for kind in kinds for one in entries_of(data, kind)]

    return {
        "sticks": names("stock"),
        "anchors": names("anchor"),
        "rooms": list(live_load_uses()),
        "places": names("beam", "post", "rafter", "tie", "existing"),
        "woods": [*species_names(), "unknown"],
        "grades": _grades(data),
    }


def _grades(data: dict[str, Any]) -> list[str]:
    """The grades that the tables have for the sticks of the job."""
    from ...values.lumber import grades_for, read_size

    found: dict[str, None] = {}
    for stock in entries_of(data, "stock"):
        with suppress(BeamcheckError):
            found |= dict.fromkeys(grades_for(str(stock.get("species", "")), read_size(str(stock.get("size", "")))))
    return [*found, "unstamped"]


def piece_now(found: Checked, name: str) -> Shown | None:
    """The piece of that name as it is now."""
    if found.result is None:
        return None
    piece = next((one for one in found.result.pieces if one.name == name), None)
    return None if piece is None else shown(piece, found.result)


def seen_now(found: Checked, now: Opened, kind: str, name: str) -> str:
    """The part of the page that changes as one types."""
    piece = piece_now(found, name) if kind in PIECES else None
    drawing = ""
    result = found.result
    if piece is not None and result is not None and found.job is not None:
        record = next(one for one in result.pieces if one.name == name)
        drawing = drawing_of(record, found.job, result.units)
    touched = [] if result is None else [(one.name, one.verdict) for one in result.pieces if one.name != name]
    return rendered(
        "see.html",
        piece=piece,
        drawing=drawing,
        problems=found.problems,
        job=now.name,
        others=touched,
        survey=found_in(found, name) if kind == "stock" else {},
        job_verdict=None if result is None else result.verdict,
        links=links(now.data),
        job_checks=() if result is None else [one for one in result.checks if one.verdict != "passes"],
    )


def block_lines(text: str, kind: str, number: int) -> list[tuple[int, str]]:
    """The lines of the file that the form shows."""

    try:
        first, last = block_of(text, [kind] if kind == "job" else [kind, number - 1])
    except (KeyError, ValueError, IndexError):
        return []
    return [(i + 1, line) for i, line in enumerate(text.splitlines()) if first <= i < last]


@writes(page=str, sets=list, kind=str, number=int)
def attempt(now: Opened, asked: dict[str, Any]) -> Response:
    """What the job would be with fields as they are typed: checked, not written."""
    return _attempt(now, asked, write=False)


@writes(page=str, sets=list, kind=str, number=int)
def set_fields(now: Opened, asked: dict[str, Any]) -> Response:
    """Write fields into the job file, if it is as the page has seen it and the job can be read with them."""
    return _attempt(now, asked, write=True)


def _attempt(now: Opened, asked: dict[str, Any], *, write: bool) -> Response:
    from starlette.responses import JSONResponse

    begins = time.thread_time()
    kind, number = asked["kind"], asked["number"]
    name = str(entry_of(now.data, kind, number).get("name", ""))
    try:
        text = edited(now.file.text, asked["sets"])
    except JobError as error:
        return JSONResponse({"problems": told(error.problems)}, 200)
    except Refused as error:
        return JSONResponse({"problems": told([Problem("", str(error))])}, 200)
    digest = now.file.digest
    if write:
        digest = save(now.file, text).digest
    try:
        found = now.desk.check(text, asked["page"][:40])
    except Superseded:
        return JSONResponse({"superseded": True})
    renamed = next((value for path, value in pairs(asked["sets"]) if path == f"{kind}.{name}.name"), None)
    called = str(renamed or name)
    piece = piece_now(found, called)
    return JSONResponse(
        {
            "digest": digest,
            "written": write,
            "problems": told(found.problems),
            "see": seen_now(found, now, kind, called),
            "bar": rendered("bar.html", piece=piece, problems=found.problems),
            "say": spoken(piece, found),
            "lines": changed_lines(now.file.text, text)[:40],
            "ms": round(1000 * (time.thread_time() - begins), 1),
        }
    )


def pairs(sets: list[Any]) -> list[tuple[str, Any]]:
    """Paths and values as they were sent. Raises Refused if they are something else."""
    if not 0 < len(sets) <= MOST_SETS:
        raise Refused("nothing was sent, or too much at once")
    found = []
    for one in sets:
        if not (isinstance(one, list) and len(one) in (2, 3) and isinstance(one[0], str) and 0 < len(one[0]) <= 400):
            raise Refused("this is not how the page asks")
        found.append((one[0], one[1]))
    return found


def edited(text: str, sets: list[Any]) -> str:
    """The text of the job with fields set; errors are those of `with_fields` and `value_of`."""
    befores = {one[0]: str(one[2])[:200] if len(one) == 3 else "" for one in sets if isinstance(one, list) and one}
    values = [(path, value_of(path, value, befores.get(path, ""))) for path, value in pairs(sets)]
    for path, value in values:
        kind, _, rest = path.partition(".")
        if kind in ("answer", "ruling"):
            raise Refused("answers and rulings are written where the questions are")
        if not rest and not (isinstance(value, dict) and value and kind != "job"):
            raise Refused("this is not how the page asks")
    return with_fields(text, values)


def spoken(piece: Shown | None, found: Checked) -> str:
    """What a screen reader says once the typing has stopped."""
    if found.problems:
        return "It cannot be read yet."
    if piece is None:
        return ""
    words = {"passes": "passes", "fails": "fails", "refer": "waits for an answer"}[piece.verdict]
    nearest = f", closest {piece.closest} {piece.ratio}" if piece.ratio and piece.ratio != "–" else ""
    return legible(f"{piece.name} {words}{nearest}")


@sent(digest=str, kind=str, number=int)
def more(request: Request, asked: dict[str, Any]) -> Response:
    """What takes longer: what would make a failing piece pass, or how much room there is."""
    from starlette.responses import JSONResponse

    now = opened(request)
    name = str(entry_of(now.data, asked["kind"], asked["number"]).get("name", ""))
    found = now.worked_out()
    piece = piece_now(found, name)
    spare = [] if piece is None or found.job is None or piece.verdict != "passes" else now.desk.room(found.job, name)
    return JSONResponse(
        {"digest": now.file.digest, "more": rendered("more.html", piece=piece, spare=spare, job=now.name)}
    )


@writes(kind=str, number=int)
def remove(now: Opened, asked: dict[str, Any]) -> Response:
    """Take a whole entry out of the job; the file as it was stays beside it."""
    from starlette.responses import JSONResponse

    from ...model.reading.reader import read_job_text

    kind, number = asked["kind"], asked["number"]
    entry_of(now.data, kind, number)
    if kind == "job":
        raise Refused("the head of a job stays")
    text = without_entry(now.file.text, kind, number - 1)
    try:
        read_job_text(text, now.name)
    except JobError as error:
        return JSONResponse({"problems": told(error.problems)})
    save(now.file, text)
    return JSONResponse({"digest": "", "written": True, "problems": [], "go": f"/job/{plain(now.name)}"})


def new_entry(request: Request) -> Response:
    """A blank form for one more entry."""
    now = opened(request)
    kind = request.path_params["kind"]
    if kind not in KINDS or kind == "job":
        raise Refused("there is no such part of a job", 404)
    return page(
        request,
        "add.html",
        now,
        title=f"one more {KINDS[kind]}: whatcarries",
        kind=kind,
        kind_word=KINDS[kind],
        group=blank(class_of(kind), kind),
        lists=lists_of(now.data),
    )


@writes(kind=str, value=dict)
def add_entry(now: Opened, asked: dict[str, Any]) -> Response:
    """Write one more entry at the end of the job file."""
    from starlette.responses import JSONResponse

    kind = asked["kind"]
    if kind not in KINDS or kind == "job":
        raise Refused("there is no such part of a job", 404)
    try:
        text = edited(now.file.text, [[kind, asked["value"]]])
        save(now.file, text)
    except (JobError, Refused) as error:
        problems = error.problems if isinstance(error, JobError) else [Problem("", str(error))]
        return JSONResponse({"problems": told(problems)})
    count = len(entries_of(now.data, kind)) + 1
    return JSONResponse({"written": True, "problems": [], "go": f"/job/{now.name}/{kind}/{count}"})
