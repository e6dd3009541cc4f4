"""All that is asked of the loads of a piece, and of what the head of the job says of them."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from ...analysis.beams.load_cases import Applied, Case
from ...model.evidence import vouched
from ...model.pieces import Beam, Job, Post, Rafter, Tie
from ..core.context import Site
from ..core.question import PlausibleAnswer, ask
from ..core.result import Check
from ..core.strength import Section
from .entries import CLAUSE
from .floors import floor_checks, strip_checks
from .kinds import kind_checks
from .roofs import roof_checks
from .weights import weight_checks
from .wind import wind_checks

HEAD = "the job"


def load_doubts(
    beam: Beam, cases: Sequence[Case], loads: Sequence[Applied], section: Section, site: Site
) -> Iterator[Check]:
    """What makes the loads of a beam look incomplete or wrong; each keeps it from passing."""
    if beam.service == "floor":
        yield from floor_checks(beam, cases, loads)
    else:
        yield from roof_checks(beam, site, cases)
        yield from wind_checks(beam, site, cases)
    yield from weight_checks(beam)
    yield from kind_checks(beam)
    yield from strip_checks(beam, section)


def rafter_doubts(rafter: Rafter, site: Site) -> Iterator[Check]:
    """The same for a rafter."""
    yield from roof_checks(rafter, site)
    yield from wind_checks(rafter, site)
    yield from weight_checks(rafter)
    yield from kind_checks(rafter)


def job_checks(job: Job) -> Iterator[Check]:
    """What the head of the job speaks of and no piece carries."""
    pieces: tuple[Beam | Rafter | Tie | Post, ...] = (*job.beam, *job.rafter, *job.tie, *job.post)
    entries = [load for piece in pieces for load in piece.carries]
    roofs = [*job.rafter, *(beam for beam in job.beam if beam.service == "roof")]
    if job.job.ground_snow is not None and job.job.ground_snow[0] > 0.0 and not any(load.snow for load in entries):
        text = "a ground snow load is given, but no piece carries snow"
        yield _of_the_head(
            "loads.ground_snow", text, "ground_snow_unused", "job.ground_snow", "no snow comes onto it", "0 psf"
        )
    unanswered = job.job.wind_speed.strip() and not vouched(job.job.wind_by, "structure")
    if unanswered and roofs and not any(load.wind for load in entries):
        text = "a wind speed is given, but no piece carries wind: uplift is not checked"
        yield _of_the_head("loads.wind_speed", text, "wind_speed", "job.wind_speed", "uplift is seen to elsewhere", "")


def _of_the_head(id: str, text: str, key: str, path: str, says: str, value: str) -> Check:
    question = ask(key, HEAD, path, answers=[PlausibleAnswer(says, ((path, value),))])
    return Check.refers(id, HEAD, text, CLAUSE, ask=question)
