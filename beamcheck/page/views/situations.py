"""New jobs from ready situations: the few questions that matter, each with its error beside it."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from ...errors import BeamcheckError, JobError, UnknownName
from ...model.reading.reader import read_job_text
from ...situations.situation import job_text, read_answer, situation, situations
from ..guard.bodies import Refused
from .new_file import new_job, told
from .site import page, sent

if TYPE_CHECKING:
    from starlette.requests import Request
    from starlette.responses import Response

    from ...situations.situation import Situation

__all__ = ["begin", "situations", "view"]


def view(request: Request) -> Response:
    """The questions of a situation."""
    of = _situation(request)
    return page(request, "situation.html", title=f"{of.title}: whatcarries", of=of)


def _situation(request: Request) -> Situation:
    try:
        return situation(request.path_params["name"])
    except UnknownName:
        raise Refused("there is no such ready situation", 404) from None


@sent(name=str, answers=dict)
def begin(request: Request, asked: dict[str, Any]) -> Response:
    """Write the job that the answers make."""
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
