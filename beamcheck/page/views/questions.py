"""What is open, as cards: who answers, what each answer does, and the answer written into the job."""

from __future__ import annotations

import re
from collections.abc import Mapping
from datetime import date
from typing import TYPE_CHECKING, Any

from ...checks.core.asking.open_questions import OpenQuestion
from ...checks.core.asking.question import RULING
from ...checks.core.asking.question_words import WHO, place_of
from ...errors import JobError, Problem
from ...jobfile.answer import answer_of, with_answer, with_ruling
from ...jobfile.keep import save
from ...jobfile.kept_files import keep
from ...records import dataclass
from ...units import show
from ..desk import Checked
from ..form.values import value_of
from ..guard.bodies import MOST_PHOTO, Refused, body_of
from ..show.elevation import drawing_of
from ..show.render import rendered
from .new_file import told
from .site import Opened, later, links, opened, page, site_of, writes

if TYPE_CHECKING:
    from starlette.requests import Request
    from starlette.responses import Response

DRAWN = 8  # cards with a drawing of the place
HOWS = ("tape", "meter", "camera", "stamp", "certificate", "report", "letter")
FILTERS = (
    ("you", ("tape", "camera", "meter", "you")),
    ("supplier", ("supplier",)),
    ("grader", ("grader",)),
    ("engineer", ("engineer",)),
    ("building department", ("department",)),
)
MOST_UP_TO = 500  # letters
_FORCE = re.compile(r"\s*([^=,]+?)\s*=\s*((?:[\d,]+(?=\d)\d|\d)[\d.]*\s*[A-Za-z]*)\s*(?:,|$)")


@dataclass(frozen=True)
class Card:
    """One open question."""

    number: int
    one: OpenQuestion
    who: str
    place: str
    ruling: bool
    picks: tuple[str, ...]
    own: bool  # whether an answer in one's own words or figures can be written
    drawing: str
    forces: str  # what a ruling has to cover


def questions(request: Request) -> Response:
    now = opened(request)
    known = now.desk.known(now.file.text)
    found = known or now.check()
    asked, of = request.query_params.get("who", ""), request.query_params.get("of", "")
    every = [] if found.result is None else list(found.result.questions)
    head = now.data.get("job")
    return page(
        request,
        "questions.html",
        now,
        title=f"Questions of {now.name}: whatcarries",
        problems=found.problems,
        count=sum(one.state != "idle" for one in every),
        filters=_filters(every),
        asked=asked,
        of=of,
        waits=known is None and bool(every),
        cards=rendered("cards.html", **_cards(found, asked, of, now.name, links(now.data))),
        invented=isinstance(head, dict) and head.get("invented") is True,
    )


def _filters(every: list[OpenQuestion]) -> list[tuple[str, int]]:
    still = [one for one in every if one.state != "idle"]
    counts = [(word, sum(one.question.who in whos for one in still)) for word, whos in FILTERS]
    return [(word, count) for word, count in counts if count]


def _cards(found: Checked, asked: str, of: str, name: str, at: Mapping[str, str]) -> dict[str, Any]:
    result, job = found.result, found.job
    shared = {"job": name, "links": at, "today": date.today().isoformat(), "hows": HOWS}
    if result is None or job is None:
        return {**shared, "cards": [], "hopeless": []}
    whos = dict(FILTERS).get(asked)
    cards: list[Card] = []
    for number, one in enumerate((one for one in result.questions if one.state != "idle"), start=1):
        if (whos and one.question.who not in whos) or (of and of not in one.pieces):
            continue
        place = next((piece for piece in result.pieces if piece.name in one.pieces), None)
        drawn = "" if place is None or len(cards) >= DRAWN else drawing_of(place, job, result.units, f"place-{number}")
        ruling = one.question.field == RULING
        picks = () if ruling else tuple(answer.says for answer in one.question.answers if answer.sets)
        own = not ruling and one.question.kind in ("length", "percent", "force", "text", "choice")
        forces = ", ".join(f"{part} = {show(abs(force), 'force')}" for part, force in one.question.forces.items())
        cards.append(Card(number, one, WHO[one.question.who], place_of(one), ruling, picks, own, drawn, forces))
    hopeless = [piece for piece in result.pieces if piece.verdict == "fails"]
    return {**shared, "cards": cards, "hopeless": hopeless}


@writes(who=str, of=str)
def effects(now: Opened, asked: dict[str, Any]) -> Response:
    """The cards with what each answer does: each was tried by running the job with it."""
    from starlette.responses import JSONResponse

    cards = _cards(
        now.desk.work_out(now.file.text, what_ifs=True), asked["who"], asked["of"], now.name, links(now.data)
    )
    return JSONResponse({"cards": rendered("cards.html", **cards)})


@writes(question=str, answer=str, by=str, how=str, date=str, evidence=str, document=str, up_to=str)
def answer(now: Opened, asked: dict[str, Any]) -> Response:
    """Write an answer or a ruling into the job file."""
    from starlette.responses import JSONResponse

    result = now.check().result
    every = () if result is None else result.questions
    one = next((one for one in every if one.id == asked["question"]), None)
    if one is None:
        raise Refused("this question is not open any more", 409)
    try:
        save(now.file, answered(now.file.text, one, asked))
    except (JobError, Refused) as error:
        problems = error.problems if isinstance(error, JobError) else [Problem("", str(error))]
        return JSONResponse({"problems": told(problems)})
    return JSONResponse({"written": True, "problems": []})


def answered(text: str, one: OpenQuestion, asked: Mapping[str, str]) -> str:
    """The text of a job with an answer as the page sends it.

    Raises JobError if it is none: nobody, no figure, nothing that can be read; Refused if it is left out.
    """
    question, said = one.question, asked["answer"].strip()
    if not said:
        raise Refused("pick or type an answer first; what is not known stays open")
    if not asked["by"].strip():
        raise Refused("who found it out? A name or a role is asked for")
    if question.field == RULING:
        if not asked["document"].strip():
            raise Refused("a ruling stands in a letter or on a sheet: name it, or add it as a file")
        if len(asked["up_to"]) > MOST_UP_TO:
            raise Refused(f"up to which forces takes {MOST_UP_TO} letters at the most")
        forces = {part: force.strip() for part, force in _FORCE.findall(asked["up_to"])}
        return with_ruling(
            text, question, says=said, by=asked["by"], document=asked["document"], up_to=forces, on=asked["date"]
        )
    if said.casefold() not in (each.says.casefold() for each in question.answers):
        value = value_of(question.field, said)
        said = {True: "yes", False: "no"}.get(value, str(value)) if isinstance(value, bool) else str(value)
    return with_answer(
        text,
        question,
        answer_of(question, said),
        by=asked["by"],
        how=asked["how"],
        on=asked["date"],
        evidence=asked["evidence"],
    )


async def photo(request: Request) -> Response:
    """Keep a photo or letter beside the job, without the place where it was taken."""
    data = await body_of(request, MOST_PHOTO)
    about = request.query_params.get("about", "")[:120]

    def work() -> Response:
        from starlette.responses import JSONResponse

        opened(request)
        kept = keep(site_of(request).folder.path, about, data)
        return JSONResponse({"place": kept.place, "evidence": kept.evidence, "sha256": kept.sha256})

    return await later(work)


def kept(request: Request) -> Response:
    """A file that was kept, to be saved and not shown."""
    from ..folder.listing import kept_file
    from .job import attachment

    opened(request)
    room, name = request.path_params["room"], request.path_params["name"]
    data, kind = kept_file(site_of(request).folder, room, name)
    return attachment(data, name, kind)
