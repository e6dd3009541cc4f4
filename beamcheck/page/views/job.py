"""A whole job: its pieces with their verdicts, what they rest on, its papers; and its text."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from ...api import sheet_pdf, template_files
from ...checks.core.asking.question_words import WHO
from ...errors import JobError
from ...jobfile.keep import save
from ...model.reading.reader import read_job_text
from ..form.words import KINDS
from ..guard.bodies import MOST_JOB, Refused
from ..show.rows import shown
from .new_file import new_job, plain_lines, told
from .site import Opened, entries_of, links, opened, page, sent, writes
from .start import counts, next_question

if TYPE_CHECKING:
    from starlette.requests import Request
    from starlette.responses import Response

STARTER = """[job]
title = ""
standard = "NDS 2018"
loads = "ASCE 7-16"
"""
TYPES = {"pdf": "application/pdf", "svg": "image/svg+xml", "dxf": "image/vnd.dxf", "html": "text/html"}


def job(request: Request) -> Response:
    now = opened(request)
    found, data = now.check(), now.data
    result = found.result
    at = links(data)
    head = data.get("job")
    others = [
        (str(one.get("name", "")), f"{kind}/{number}", str(one.get("what") or one.get("size") or ""))
        for kind in ("stock", "existing")
        for number, one in enumerate(entries_of(data, kind), start=1)
    ]
    asked = next_question(result)
    pieces = [] if result is None else [shown(one, result) for one in result.pieces if one.name in at]
    return page(
        request, "job.html", now, title=f"{now.name}: whatcarries", problems=found.problems,
        heading=str(head.get("title") or now.name) if isinstance(head, dict) else now.name,
        verdict=None if result is None else result.verdict, counts=counts(result), next=asked,
        next_who="" if asked is None else WHO[asked.question.who], pieces=pieces, links=at, others=others,
        sticks=[(str(one.get("name", "")), n) for n, one in enumerate(entries_of(data, "stock"), start=1)],
        kinds=[(kind, word) for kind, word in KINDS.items() if kind != "job"],
        invented=isinstance(head, dict) and head.get("invented") is True,
        job_checks=[] if result is None else [one for one in result.checks if one.verdict != "passes"],
        templates=[] if result is None else [
            (one.name, n) for n, one in enumerate(result.pieces, start=1) if one.kind in ("bracket", "anchor", "joint")
        ],
    )  # fmt: skip


def text(request: Request) -> Response:
    """The job file as it is written."""
    now = opened(request)
    return page(
        request, "text.html", now, title=f"{now.name}.toml: whatcarries", text=now.file.text,
        problems=now.check().problems, at=f"/job/{now.name}/text",
    )  # fmt: skip


@writes(MOST_JOB, text=str, name=str)
def set_text(now: Opened, asked: dict[str, Any]) -> Response:
    """Write the text of a job: also one that cannot be read yet, since whoever writes by hand may stop half-way."""
    from starlette.responses import JSONResponse

    save(now.file, plain_lines(asked["text"]))
    return JSONResponse({"written": True, "problems": [], "go": f"/job/{now.name}"})


def new_text(request: Request) -> Response:
    return page(
        request, "text.html", title="A job by hand: whatcarries", text=STARTER, digest="", problems=(), at="/new-text"
    )


@sent(MOST_JOB, digest=str, text=str, name=str)
def set_new_text(request: Request, asked: dict[str, Any]) -> Response:
    try:
        read_job_text(asked["text"], asked["name"] or "job")
    except JobError as error:
        from starlette.responses import JSONResponse

        return JSONResponse({"problems": told(error.problems)})
    return new_job(request, asked["name"], asked["text"])


def paper(request: Request) -> Response:
    """The calc sheet or the shop sheets of the job as it is now."""
    now = opened(request)
    found = now.worked_out()
    if found.result is None:
        raise Refused("the job file cannot be read yet: there is no sheet of it", 409)
    kind = request.path_params["kind"]
    if kind == "shop":
        from ...sheet.shop.pdf import shop_pdf

        return attachment(shop_pdf(found.result), f"{now.name}-shop.pdf")
    return attachment(sheet_pdf(found.result, all_steps=kind == "steps"), f"{now.name}.pdf")


def template(request: Request) -> Response:
    """The full-size template of a bracket or anchor group."""
    now = opened(request)
    ending, number = request.path_params["ending"], request.path_params["number"]
    found = now.worked_out()
    if found.result is None or ending not in ("svg", "pdf", "dxf") or not 1 <= number <= len(found.result.pieces):
        raise Refused("there is no such template", 404)
    piece = found.result.pieces[number - 1]
    ((_, made),) = template_files(found.result, piece.name, [f"template.{ending}"])[0]
    return attachment(made, f"{now.name}-template-{number}.{ending}")


def attachment(made: str | bytes, name: str, kind: str = "") -> Response:
    """A file to be kept, never shown in the page."""
    from urllib.parse import quote

    from starlette.responses import Response

    kind = kind or TYPES.get(name.rpartition(".")[2], "application/octet-stream")
    return Response(
        made, media_type=kind, headers={"content-disposition": f"attachment; filename*=UTF-8''{quote(name)}"}
    )
