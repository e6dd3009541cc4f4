"""All that is asked of the loads of a piece, and of what the head of the job says of them."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import Any

from ...analysis.beams.load_cases import Applied, Case
from ...analysis.site.areas import Areas
from ...model.beams import Beam
from ...model.fields.evidence import vouched
from ...model.job import Job
from ...model.posts import Post
from ...model.roofs import Rafter, Tie
from ...values.judgment import judgment
from ..core.asking.question import PlausibleAnswer, ask
from ..core.context import Site
from ..core.result import Check
from ..core.wood.strength import Section
from .entries import CLAUSE, Loaded, psf, roof_entry
from .floors import attic_checks, floor_checks, narrow_strips, strip_checks
from .kinds import heavy_thing_checks, kind_checks, use_point_checks
from .lines import line_checks
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
    yield from roof_checks(beam, site, cases)
    yield from wind_checks(beam, site, cases)
    yield from weight_checks(beam)
    yield from line_checks(beam, cases)
    yield from kind_checks(beam)
    yield from heavy_thing_checks(beam)
    yield from use_point_checks(beam, float(section.d))
    yield from strip_checks(beam, section)
    yield from _of_areas(beam, site.areas)


def roof_doubts(piece: Beam | Rafter, site: Site) -> Iterator[Check]:
    """The same for a rafter, or a beam of a roof on which nothing else rests."""
    yield from roof_checks(piece, site)
    yield from wind_checks(piece, site)
    yield from weight_checks(piece)
    yield from line_checks(piece)
    yield from kind_checks(piece)
    yield from _of_areas(piece, site.areas)


def _of_areas(piece: Beam | Rafter, areas: Areas) -> Iterator[Check]:
    """A job without roofs and floors has no loads that follow from them."""
    if areas.roofs or areas.floors:
        from .site import site_checks

        yield from site_checks(piece, areas)


def tie_doubts(tie: Tie, apart: float) -> Iterator[Check]:
    """The same for a tie, which bears itself and at most a ceiling with an attic over it."""
    yield from attic_checks(tie)
    yield from narrow_strips(tie, tie.spacing or apart)
    yield from kind_checks(tie)
    yield from heavy_thing_checks(tie)


RUN = ("NDS 2018", "ASCE 7-16")  # the prints whose rules are run


def job_checks(job: Job) -> Iterator[Check]:
    """What the head of the job speaks of and no piece carries."""
    if (job.job.standard, job.job.loads) != RUN:
        from .editions import edition_checks

        yield from edition_checks(job.job)
    pieces: tuple[Beam | Rafter | Tie | Post, ...] = (*job.beam, *job.rafter, *job.tie, *job.post)
    entries: list[Any] = [load for piece in pieces for load in piece.carries]
    for frame in job.frame:
        entries += [*frame.carries, *(load for member in frame.members for load in member.carries)]
    yield from _carried_by_nobody(job, {getattr(load, kind, None) for load in entries for kind in ("roof", "floor")})
    roofs = [*job.rafter, *(beam for beam in job.beam if beam.service == "roof")]
    if job.job.ground_snow is not None and job.job.ground_snow[0] > 0.0 and not any(load.snow for load in entries):
        text = "a ground snow load is given, but no piece carries snow"
        none = PlausibleAnswer("no snow comes onto it", (("job.ground_snow", "0 psf"),))
        answers = [*_snow_on(pieces, job.job.ground_snow[0]), none]
        question = ask("ground_snow_unused", HEAD, "job.ground_snow", answers=answers)
        yield Check.refers("loads.ground_snow", HEAD, text, CLAUSE, ask=question)
    unanswered = job.job.wind_speed.strip() and not vouched(job.job.wind_by, "structure")
    if unanswered and roofs and not any(load.wind for load in entries):
        text = "a wind speed is given, but no piece carries wind: uplift is not checked"
        yield _of_the_head("loads.wind_speed", text, "wind_speed", "job.wind_speed", "uplift is seen to elsewhere", "")


def _carried_by_nobody(job: Job, carried: set[str | None]) -> Iterator[Check]:
    """A roof or floor that is described and comes to no piece."""
    for kind, areas in (("roof", job.roof), ("floor", job.floor)):
        for area in areas:
            if area.name in carried or area.insists_on("name"):
                continue
            path, why = f"{kind}.{area.name}.meant.name", "what carries it is not part of this job"
            text = f"{area.name} is described as a {kind}, and no piece of the job carries it"
            question = ask("area_unused", area.name, path, answers=[PlausibleAnswer(why, ((path, why),))])
            yield Check.refers("loads.area", HEAD, f"what carries {area.name}", CLAUSE, text, ask=question)


def _snow_on(pieces: Sequence[Loaded], ground: float) -> Iterator[PlausibleAnswer]:
    """The answer that it lies on each roof of the job as on a flat one."""
    usual = psf(judgment("roof snow over ground snow").value * ground)
    paths = [roof_entry(piece) for piece in pieces if isinstance(piece, (Beam, Rafter))]
    sets = tuple((f"{path}.snow", usual) for path in paths if path)
    if sets:
        yield PlausibleAnswer(f"on each roof {usual}, as on a flat one", sets)


def _of_the_head(id: str, text: str, key: str, path: str, says: str, value: str) -> Check:
    question = ask(key, HEAD, path, answers=[PlausibleAnswer(says, ((path, value),))])
    return Check.refers(id, HEAD, text, CLAUSE, ask=question)
