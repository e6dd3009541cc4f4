"""Whether what is said to come onto a piece can be all: a floor has live load, a roof has snow or people on it."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from ...analysis.beams.load_cases import Applied, Case
from ...model.loads import Load
from ...model.pieces import Beam, Job, Post, Rafter, Tie
from ...units import show
from .govern import stated
from .result import Check
from .strength import Section

LEAST_LIVE = 10.0 / 144.0  # lbf/in2: attic without storage, the least of IRC Table R301.5 (read)
WHAT, CLAUSE = "loads as given", "IRC R301.5, ASCE 7-16 chapter 4"


def load_doubts(beam: Beam, cases: Sequence[Case], loads: Sequence[Applied], section: Section) -> Iterator[Check]:
    """What makes the loads of a beam look incomplete; each keeps it from passing."""
    present = {case.kind for case in cases if any(load.total for load in case.loads)}
    if beam.service == "floor" and "L" not in present:
        yield _doubt(beam.name, "no live load is given, and a floor has one")
    if beam.service == "roof" and not present & {"Lr", "S"}:
        yield _doubt(beam.name, "neither snow nor roof live load is given, and a roof has one or the other")
    if beam.service == "floor" and any(load.roof_live is not None for load in beam.carries):
        text = "roof live load stands on a floor: its load duration factor is for roofs and building work only"
        yield stated(beam.name, WHAT, "NDS 2018 2.3.2", "refer", text)
    yield from _light(beam.name, beam.carries)
    if beam.spacing is None:
        return
    for load in beam.carries:
        if load.width is not None and load.width < beam.spacing * (1.0 - 1e-9):
            yield _doubt(
                beam.name,
                f"{load.what}: the load width {show(load.width, 'length')} is less than the spacing "
                f"{show(beam.spacing, 'length')}; what carries the rest?",
            )
    if beam.spacing < float(section.b):
        yield _doubt(beam.name, f"the spacing {show(beam.spacing, 'length')} is less than the piece is broad")


def rafter_doubts(rafter: Rafter) -> Iterator[Check]:
    """The same for a rafter."""
    if not any(load.snow is not None or load.roof_live is not None for load in rafter.carries):
        yield _doubt(rafter.name, "neither snow nor roof live load is given, and a roof has one or the other")
    yield from _light(rafter.name, rafter.carries)


def job_doubts(job: Job) -> list[str]:
    """What the head of the job speaks of and no piece carries."""
    pieces: tuple[Beam | Rafter | Tie | Post, ...] = (*job.beam, *job.rafter, *job.tie, *job.post)
    entries = [load for piece in pieces for load in piece.carries]
    roofs = [*job.rafter, *(beam for beam in job.beam if beam.service == "roof")]
    found = []
    if job.job.ground_snow is not None and job.job.ground_snow[0] > 0.0 and not any(load.snow for load in entries):
        found.append("a ground snow load is given, but no piece carries snow")
    if job.job.wind_speed.strip() and roofs and not any(load.wind for load in entries):
        found.append("a wind speed is given, but no piece carries wind: uplift is not checked")
    return found


def _light(name: str, entries: Sequence[Load]) -> Iterator[Check]:
    for load in entries:
        if load.live is not None and load.live[1] == "area" and load.live[0] < LEAST_LIVE * (1.0 - 1e-9):
            yield _doubt(name, f"{load.what}: a live load of {show(load.live, 'load')} is less than any code asks for")


def _doubt(name: str, text: str) -> Check:
    return stated(name, WHAT, CLAUSE, "refer", text)
