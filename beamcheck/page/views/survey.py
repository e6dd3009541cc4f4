"""The survey of a timber on the phone: a walk round it in the order of the printed form, which writes the job file."""

from __future__ import annotations

from typing import TYPE_CHECKING

from ...model.conditions.survey import Survey
from ...sheet.survey.form import CAUTION, MARKS, filled_form
from ...sheet.survey.write import survey_pdf
from ..form.fields import Group, blank, sections
from ..guard.bodies import Refused
from .job import attachment
from .piece import block_lines, is_invented, lists_of, seen_now
from .site import entry_of, links, opened, page

if TYPE_CHECKING:
    from starlette.requests import Request
    from starlette.responses import Response

START = "the survey of this timber"


def survey(request: Request) -> Response:
    """The form of the survey of one stick, blank as far as nothing was looked at."""
    now = opened(request)
    number, data = request.path_params["number"], now.data
    given = entry_of(data, "stock", number)
    name, held = str(given.get("name", "")), given.get("survey")
    path = f"stock.{name}.survey"
    groups: list[Group] = [blank(Survey, path, START)]
    if isinstance(held, dict):
        groups = sections(Survey, held, path, ("stock", number - 1, "survey"), data)
    found = now.check()
    return page(
        request, "survey.html", now, title=f"Survey of {name}: whatcarries", kind="stock", number=number, name=name,
        groups=groups, begun=isinstance(held, dict), see=seen_now(found, now, "stock", name), lists=lists_of(data),
        links=links(data), problems=found.problems, invented=is_invented(data), lines=block_lines(now.file.text,
        "stock", number), marks=MARKS, survey_caution=CAUTION, photographs=f"{path}.photographs",
    )  # fmt: skip


def paper(request: Request) -> Response:
    """The same, filled in as far as it goes, for print."""
    now = opened(request)
    name = str(entry_of(now.data, "stock", request.path_params["number"]).get("name", ""))
    job = now.check().job
    if job is None:
        raise Refused("the job file cannot be read yet: there is no survey of it to print", 409)
    return attachment(survey_pdf(filled_form(job, name)), f"{now.name}-survey.pdf")
