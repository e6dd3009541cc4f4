"""The engineer's view: read only. Every number opens to where it comes from; a decision is a note and no signature."""

from __future__ import annotations

import threading
import time
from dataclasses import replace
from pathlib import Path
from typing import TYPE_CHECKING, Any

from ...checks.core.result import JobResult, PieceResult
from ...errors import BeamcheckError
from ...lettering import legible
from ...sheet.recheck.compare import compare_files
from ...sheet.recheck.difference import Comparison
from ...sheet.recheck.recheck import recheck
from ...sheet.record.enclosed import changed_since
from ..folder.listing import Folder
from ..folder.seen import DECISIONS, Decision, read_seen, write_seen
from ..guard.bodies import Refused
from ..show.elevation import drawing_of
from ..show.render import rendered
from ..show.rows import shown
from ..show.steps import lines_of
from .site import opened, page, sent, site_of

if TYPE_CHECKING:
    from starlette.requests import Request
    from starlette.responses import Response

MOST_NOTE = 2000
LARGEST_LOOKED_AT = 20_000_000  # bytes of a file that is asked whether it is signed
_WRITING = threading.Lock()


def engineer(request: Request) -> Response:
    """The schedule, and one piece with all its numbers."""
    now = opened(request)
    found = now.worked_out()
    if found.result is None or found.job is None:
        raise Refused("the job file cannot be read yet: there is nothing to review", 409)
    result: JobResult = found.result
    number = request.path_params.get("number", 1)
    if not (1 <= number <= len(result.pieces) or (number == 1 and not result.pieces)):
        raise Refused("there is no such piece", 404)
    piece: PieceResult | None = result.pieces[number - 1] if result.pieces else None
    seen = read_seen(now.file.path)
    last = {one.piece: one for one in seen.decisions}
    sheets = _sheets(site_of(request).folder)
    memory = sorted({source.document for source in result.sources if source.how == "memory"})
    return page(
        request,
        "engineer.html",
        now,
        title=f"Review of {now.name}: whatcarries",
        pieces=[shown(one, result) for one in result.pieces],
        number=number,
        piece=None if piece is None else shown(piece, result),
        last=last,
        decisions=DECISIONS,
        opens={} if piece is None else {n: lines_of(one) for n, one in enumerate(piece.checks, start=1) if one.steps},
        drawing="" if piece is None else drawing_of(piece, found.job, result.units, "drawing"),
        assumptions=() if piece is None else piece.assumptions,
        memory=memory,
        sheets=sheets,
        problem=seen.problem,
        history=[one for one in seen.decisions if piece is not None and one.piece == piece.name],
        now_digest=now.file.digest,
        invented=result.invented,
        fingerprint=result.fingerprint,
        version=result.version,
    )


def _sheets(folder: Folder) -> list[tuple[str, str]]:
    """The sheets of the folder with what is known of each, signed ones first."""
    found = []
    for name, path in folder.sheets().items():
        said = _state(path)
        if said is not None:
            found.append((name, said))
    return sorted(found, key=lambda one: "signed" not in one[1])


def _state(path: Path) -> str | None:
    """'signed', 'as it was written', ...; None for a file that is no sheet."""
    try:
        if path.stat().st_size > LARGEST_LOOKED_AT:
            return None
        raw = path.read_bytes()
        why = changed_since(raw)
    except (BeamcheckError, OSError):
        return None
    if why == "was not made by whatcarries":
        return None
    return {"": "as it was written", "is signed": "signed"}.get(why, why)


@sent(sheet=str)
def compare(request: Request, asked: dict[str, Any]) -> Response:
    """A sheet of the folder read back, worked out anew, and held against the job as it is now."""
    from starlette.responses import JSONResponse

    now, name = opened(request), asked["sheet"]
    path = site_of(request).folder.sheet(name)
    try:
        again = recheck(path)
        against = compare_files(path, now.file.path)
    except BeamcheckError as error:
        raise Refused(str(error).replace(str(path), name), 422) from None
    parts = [
        ("The sheet by itself, worked out anew", _told(again, path, now.file.path)),
        (f"The sheet against {now.name}.toml", _told(against, path, now.file.path)),
    ]
    return JSONResponse({"found": rendered("compared.html", parts=parts, name=name)})


def _told(found: Comparison, *paths: Path) -> dict[str, Any]:
    """A comparison for the page, files called by their names."""

    def named(text: object) -> str:
        said = str(text)
        for path in paths:
            said = said.replace(str(path), path.name)
        return said

    return {
        "state": found.state,
        "tampered": list(map(named, found.tampered)),
        "inputs": list(map(named, found.inputs)),
        "results": list(map(named, found.results)),
        "notes": list(map(named, found.notes)),
    }


@sent(digest=str, piece=str, decision=str, note=str, by=str)
def decide(request: Request, asked: dict[str, Any]) -> Response:
    """Keep what an engineer noted about a piece; the job file is not touched by it."""
    from starlette.responses import JSONResponse

    now = opened(request)
    found = now.check().result
    if found is None or asked["piece"] not in (one.name for one in found.pieces):
        raise Refused("there is no such piece in the job any more", 409)
    by, note = " ".join(legible(asked["by"]).split())[:80], legible(asked["note"]).strip()
    if asked["decision"] not in DECISIONS:
        raise Refused(f"pick one of: {', '.join(DECISIONS)}", 422)
    if len(by) < 2:
        raise Refused("who decides? Name and license number", 422)
    if len(note) > MOST_NOTE:
        raise Refused(f"a note has at most {MOST_NOTE} letters", 422)
    if asked["decision"] == DECISIONS[1] and not note:
        raise Refused("accepted as noted: write the note", 422)
    with _WRITING:
        seen = read_seen(now.file.path)
        made = Decision(
            asked["piece"], asked["decision"], note, by, time.strftime("%Y-%m-%d %H:%M"), now.file.digest[:16]
        )
        write_seen(now.file.path, replace(seen, decisions=(*seen.decisions, made)))
    return JSONResponse({"go": True})
