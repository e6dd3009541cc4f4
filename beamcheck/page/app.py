"""The routes of the page, and what is said when something cannot be done."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

from ..errors import BeamcheckError, JobError
from ..lettering import legible
from .desk import Desks, Superseded
from .folder.listing import Folder
from .guard.bodies import Refused
from .guard.gate import Gate
from .guard.keys import Keys
from .views import engineer, job, outline, piece, questions, shop, situations, start, survey
from .views.site import Site, page

if TYPE_CHECKING:
    from starlette.requests import Request
    from starlette.responses import Response

STATIC = {"page.css": "text/css", "page.js": "text/javascript", "sign.svg": "image/svg+xml"}


def application(folder: Path, hosts: frozenset[str], keys: Keys, cookie: str = "whatcarries") -> Gate:
    """The page of a folder, behind its gate.

    `hosts`: frozenset of str: the addresses at which it answers, as browsers write them: '127.0.0.1:8123'. `cookie`:
    its name.
    """
    from starlette.applications import Starlette
    from starlette.exceptions import HTTPException
    from starlette.middleware.gzip import GZipMiddleware
    from starlette.routing import Route

    def get(path: str, view: object) -> Route:
        return Route(path, view, methods=["GET"])  # type: ignore[arg-type]

    def posts(path: str, view: object) -> Route:
        return Route(path, view, methods=["POST"])  # type: ignore[arg-type]

    at = "/job/{job}"
    made = Starlette(
        routes=[
            get("/", start.start),
            get("/k/{key}", start.door),
            posts("/k/{key}", start.come_in),
            get("/static/{name}", _static),
            get("/new-text", job.new_text),
            posts("/new-text", job.set_new_text),
            get("/new/{name}", situations.view),
            posts("/new/{name}", situations.begin),
            get("/outline/{drawing}", outline.outline),
            posts("/outline/{drawing}", outline.begin),
            get(f"{at}/questions", questions.questions),
            posts(f"{at}/effects", questions.effects),
            posts(f"{at}/answer", questions.answer),
            posts(f"{at}/photo", questions.photo),
            get(f"{at}/kept/{{room}}/{{name}}", questions.kept),
            get(f"{at}/shop", shop.shop),
            get(f"{at}/shop/{{number:int}}", shop.sheet),
            posts(f"{at}/tick", shop.tick),
            get(f"{at}/engineer", engineer.engineer),
            get(f"{at}/engineer/{{number:int}}", engineer.engineer),
            posts(f"{at}/compare", engineer.compare),
            posts(f"{at}/decide", engineer.decide),
            get(at, job.job),
            get(f"{at}/text", job.text),
            posts(f"{at}/text", job.set_text),
            posts(f"{at}/try", piece.attempt),
            posts(f"{at}/set", piece.set_fields),
            posts(f"{at}/more", piece.more),
            posts(f"{at}/add", piece.add_entry),
            posts(f"{at}/remove", piece.remove),
            get(f"{at}/add/{{kind}}", piece.new_entry),
            get(f"{at}/template/{{number:int}}.{{ending}}", job.template),
            get(f"{at}/survey/{{number:int}}", survey.survey),
            get(f"{at}/survey/{{number:int}}.pdf", survey.paper),
            get(f"{at}/{{kind}}.pdf", job.paper),
            get(f"{at}/{{kind}}/{{number:int}}", piece.entry),
        ],
        exception_handlers={
            Refused: _wrong,
            BeamcheckError: _wrong,
            Superseded: _wrong,
            HTTPException: _wrong,
            OSError: _wrong,
        },
    )
    made.add_middleware(GZipMiddleware, minimum_size=1000)
    place = Folder(folder.resolve())
    made.state.site = Site(place, Desks(place), keys, cookie)
    return Gate(made, hosts, keys, cookie)


async def _static(request: Request) -> Response:
    from starlette.responses import FileResponse

    name = request.path_params["name"]
    if name not in STATIC:
        raise Refused("there is no such file", 404)
    path = Path(__file__).resolve().parent / "static" / name
    return FileResponse(path, media_type=STATIC[name], headers={"cache-control": "private, max-age=60"})


async def _wrong(request: Request, error: Exception) -> Response:
    """In words, as a page or for the script."""
    from starlette.responses import JSONResponse

    status = error.status if isinstance(error, Refused) else getattr(error, "status_code", 409)
    said = legible(_said(error))
    if request.method == "POST":
        return JSONResponse({"said": said}, status)
    return page(request, "wrong.html", status=status, title="whatcarries", head="This cannot be shown", said=said)


def _said(error: Exception) -> str:
    if isinstance(error, JobError):
        return "; ".join(str(one) for one in error.problems[:5])
    if isinstance(error, Superseded):
        return "something newer was asked for meanwhile"
    if isinstance(error, OSError) and not isinstance(error, BeamcheckError):
        return f"a file could not be read or written: {error.strerror or 'unknown reason'}"
    if isinstance(error, BeamcheckError):
        return str(error)
    return {404: "there is no such page", 405: "this cannot be asked here"}.get(
        getattr(error, "status_code", 0), "this cannot be done"
    )
