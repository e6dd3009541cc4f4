"""The first page: the job at hand with its next question, what can be begun, what is in the folder; and the door."""

from __future__ import annotations

import time
from typing import TYPE_CHECKING

from ...checks.core.asking.open_questions import OpenQuestion
from ...checks.core.asking.question_words import WHO
from ...checks.core.result import JobResult, Verdict
from ...errors import BeamcheckError, Problem
from ...records import dataclass
from ..desk import Superseded
from ..guard.bodies import Refused
from .site import Opened, page, site_of
from .situations import situations

if TYPE_CHECKING:
    from starlette.requests import Request
    from starlette.responses import Response

VERDICTS: tuple[Verdict, ...] = ("fails", "refer", "passes")


@dataclass(frozen=True)
class AtHand:
    """A job in a few words."""

    name: str
    heading: str
    when: str
    verdict: Verdict | None
    counts: tuple[tuple[Verdict, int], ...]
    next: OpenQuestion | None
    next_who: str
    problems: tuple[Problem, ...]


def start(request: Request) -> Response:
    site = site_of(request)
    jobs = site.folder.jobs()
    at_hand = None
    for name in jobs:
        try:
            at_hand = at_hand_of(Opened(name, site.desks.file(name), site.desks.desk(name)))
            break
        except (BeamcheckError, Superseded, OSError):
            continue
    listed = [
        {"name": name, "said": f"changed {when(path.stat().st_mtime)}"} for name, path in jobs.items() if path.exists()
    ]
    return page(
        request,
        "start.html",
        at_hand=at_hand,
        situations=situations(),
        jobs=listed,
        outlines=list(site.folder.outlines()),
    )


def at_hand_of(now: Opened) -> AtHand:
    """What the first page says of a job."""
    found = now.check()
    result = found.result
    head = now.data.get("job")
    title = str(head.get("title", "")) if isinstance(head, dict) else ""
    asked = next_question(result)
    return AtHand(
        now.name, title or now.name, when(now.file.path.stat().st_mtime), None if result is None else result.verdict,
        counts(result), asked, "" if asked is None else WHO[asked.question.who], found.problems,
    )  # fmt: skip


def counts(result: JobResult | None) -> tuple[tuple[Verdict, int], ...]:
    """How many pieces have each verdict."""
    if result is None:
        return ()
    return tuple((verdict, sum(one.verdict == verdict for one in result.pieces)) for verdict in VERDICTS)


def next_question(result: JobResult | None) -> OpenQuestion | None:
    """What is worth asking first."""
    asked = () if result is None else result.questions
    return next((one for one in asked if one.state != "idle"), None)


def when(changed: float) -> str:
    """'today 2:40 pm', '3 May 2026'."""
    then = time.localtime(changed)
    if time.strftime("%Y%j", then) == time.strftime("%Y%j"):
        return f"today {time.strftime('%I:%M %p', then).lstrip('0').lower()}"
    return f"{then.tm_mday} {time.strftime('%b %Y', then)}"


async def door(request: Request) -> Response:
    """Where the address with the key leads; looking uses nothing up."""
    from starlette.responses import HTMLResponse

    from ..show.render import rendered

    good = site_of(request).keys.waits(request.path_params["key"])
    return HTMLResponse(rendered("door.html", good=good), 200 if good else 403)


async def come_in(request: Request) -> Response:
    """The key exchanged for a cookie; it is used up by that."""
    from starlette.responses import RedirectResponse

    from ..guard.keys import SESSION_SECONDS

    site = site_of(request)
    cookie = site.keys.exchange(request.path_params["key"])
    if cookie is None:
        raise Refused("this key was used already, is older than five minutes, or 50 are here already", 403)
    reply = RedirectResponse("/", 303)
    reply.set_cookie(site.cookie, cookie, max_age=int(SESSION_SECONDS), httponly=True, samesite="strict", path="/")
    return reply
