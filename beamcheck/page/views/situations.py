"""New jobs from ready situations: the few questions that matter, each with its error beside it."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from ...errors import BeamcheckError, JobError, UnknownName
from ...model.reading.reader import read_job_text
from ...situations.situation import job_text, read_answer, situation, situations
from ..guard.bodies import Refused, json_of
from .new_file import new_job, told
from .site import later, page

if TYPE_CHECKING:
    from starlette.requests import Request
    from starlette.responses import Response

    from ...situations.situation import Situation

__all__ = ["begin", "situations", "view"]


async def view(request: Request) -> Response:
    """The questions of a situation."""

    def work() -> Response:
        of = _situation(request)
        return page(request, "situation.html", title=f"{of.title}: whatcarries", of=of)

    return await later(work)


def _situation(request: Request) -> Situation:
    try:
        return situation(request.path_params["name"])
    except UnknownName:
        raise Refused("there is no such ready situation", 404) from None


async def begin(request: Request) -> Response:
    """Write the job that the answers make."""
    asked = await json_of(request, name=str, answers=dict)
    return await later(lambda: _begin(request, asked))


def _begin(request: Request, asked: dict[str, Any]) -> Response:
    from starlette.responses import JSONResponse

    of = _situation(request)
    answers: dict[str, Any] = {}
    problems = []
    for one in of.asks:
        if one not in of.asked(answers):
            continue
        said = asked["answers"].get(one.key, "")
        try:
            answers[one.key] = read_answer(one, said if isinstance(said, str) else "")
        except BeamcheckError as error:
            problems.append({"where": one.key, "text": str(error), "line": 0})
    if problems:
        return JSONResponse({"problems": problems})
    try:
        text = job_text(of, answers)
        read_job_text(text, "job")
    except JobError as error:
        return JSONResponse({"problems": told(error.problems)})
    except BeamcheckError as error:
        return JSONResponse({"problems": [{"where": "", "text": str(error), "line": 0}]})
    return new_job(request, asked["name"], text)
