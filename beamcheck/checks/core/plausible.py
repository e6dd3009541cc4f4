"""Whether what is said to come onto a piece can be all: a floor has live load, a roof has snow or people on it."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from ...analysis.beams.load_cases import Applied, Case
from ...model.loads import sort_of
from ...model.pieces import Beam, Job, Post, Rafter, Tie
from ...units import show
from ...values.judgment import judgment
from ...values.weights import live_load
from .question import PlausibleAnswer, ask
from .result import Check
from .strength import Section

WHAT, CLAUSE = "loads as given", "IRC R301.5, ASCE 7-16 chapter 4"
ID, HEAD = "loads.given", "the job"
SQUARE_FOOT = 144.0  # in2
_USES = {"other room": "living room", "sleeping room": "bedroom", "attic without storage": "attic, no storage"}


def load_doubts(beam: Beam, cases: Sequence[Case], loads: Sequence[Applied], section: Section) -> Iterator[Check]:
    """What makes the loads of a beam look incomplete; each keeps it from passing."""
    name = beam.name
    present = {case.kind for case in cases if any(load.total for load in case.loads)}
    if beam.service == "floor" and "L" not in present and not beam.bears_nothing_else:
        yield _no_floor(beam) if _bears_a_little_only(beam, loads) else _no_live_load(beam)
    if beam.service == "roof" and not present & {"Lr", "S"}:
        yield _no_roof_load(beam)
    for index, load in enumerate(beam.carries):
        if beam.service == "floor" and load.roof_live is not None:
            text = "roof live load stands on a floor: its load duration factor is for roofs and building work only"
            path = f"beam.{name}.carries.{index + 1}"
            as_live = PlausibleAnswer(
                "people, as live load",
                ((f"{path}.live", show(load.roof_live, "load", "US")), (f"{path}.roof_live", None)),
            )
            question = ask("roof_live_on_floor", name, f"{path}.live", answers=[as_live], load=load.what)
            yield Check.refers(ID, name, WHAT, "NDS 2018 2.3.2", text, ask=question)
    yield from _light("beam", beam)
    if beam.spacing is None:
        return
    for index, load in enumerate(beam.carries):
        if load.width is not None and load.width < beam.spacing * (1.0 - 1e-9):
            text = (
                f"{load.what}: the load width {show(load.width, 'length')} is less than the spacing "
                f"{show(beam.spacing, 'length')}; what carries the rest?"
            )
            path, width = f"beam.{name}.carries.{index + 1}.width", show(beam.spacing, "length", "US")
            question = ask("load_width", name, path, answers=[PlausibleAnswer(width, ((path, width),))], load=load.what)
            yield Check.refers(ID, name, WHAT, CLAUSE, text, ask=question)
    if beam.spacing < float(section.b):
        text = f"the spacing {show(beam.spacing, 'length')} is less than the piece is broad"
        question = ask("spacing", name, f"beam.{name}.spacing")
        yield Check.refers(ID, name, WHAT, CLAUSE, text, ask=question)


def _bears_a_little_only(beam: Beam, loads: Sequence[Applied]) -> bool:
    """Whether nothing is on it but some small weights in their places: a lamp, a bell. No deck, no other piece."""
    if beam.top_held != "ends only" or any(load.from_piece for load in loads):
        return False
    others = [load for load in loads if not load.own]
    points = all(load.is_point and load.kind == "D" for load in others)
    return (
        bool(others)
        and points
        and sum(load.P for load in others) <= judgment("weights on a beam without a floor").value
    )


def _no_floor(beam: Beam) -> Check:
    text = (
        "nothing is on it but single weights in their places, and no deck holds its top: there is no floor, so it "
        "needs no live load (common practice)"
    )
    return Check.keeps_rule(ID, beam.name, WHAT, CLAUSE, text)


def rafter_doubts(rafter: Rafter) -> Iterator[Check]:
    """The same for a rafter."""
    if not any(load.snow is not None or load.roof_live is not None for load in rafter.carries):
        yield _no_roof_load(rafter)
    yield from _light("rafter", rafter)


def _no_live_load(beam: Beam) -> Check:
    """A floor without live load: what the room is used for, or that there is no floor at all."""
    path, answers = _spread_entry("beam", beam), []
    for use in _USES:
        if path is not None:
            psf = f"{live_load(use).value * SQUARE_FOOT:g} psf"
            answers.append(PlausibleAnswer(f"{_USES[use]}: {psf}", ((f"{path}.live", psf),)))
    reason = "there is no floor and no attic over it"
    answers.append(PlausibleAnswer(f"nothing else ever: {reason}", ((f"beam.{beam.name}.bears_nothing_else", reason),)))
    question = ask(
        "live", beam.name, f"{path}.live" if path else f"beam.{beam.name}.bears_nothing_else", answers=answers
    )
    return Check.refers(ID, beam.name, WHAT, CLAUSE, "no live load is given, and a floor has one", ask=question)


def _no_roof_load(piece: Beam | Rafter) -> Check:
    kind = "beam" if isinstance(piece, Beam) else "rafter"
    path = _spread_entry(kind, piece)
    psf = f"{live_load('roof').value * SQUARE_FOOT:g} psf"
    answers = [PlausibleAnswer(f"people and material: {psf}", ((f"{path}.roof_live", psf),))]
    question = ask("roof_load", piece.name, f"{path}.roof_live", answers=answers) if path else ask(
        "roof_load_by_engineer", piece.name
    )  # fmt: skip
    text = "neither snow nor roof live load is given, and a roof has one or the other"
    return Check.refers(ID, piece.name, WHAT, CLAUSE, text, ask=question)


def _spread_entry(kind: str, piece: Beam | Rafter) -> str | None:
    """The first load that is given per area and can take more kinds; None where there is none."""
    for index, load in enumerate(piece.carries):
        if sort_of(load) == "area" and load.measured != "slope":
            return f"{kind}.{piece.name}.carries.{index + 1}"
    return None


def _light(kind: str, piece: Beam | Rafter) -> Iterator[Check]:
    """A live load that is less than the least of all uses."""
    least = live_load("attic without storage").value
    for index, load in enumerate(piece.carries):
        if load.live is not None and load.live[1] == "area" and load.live[0] < least * (1.0 - 1e-9):
            path = f"{kind}.{piece.name}.carries.{index + 1}.live"
            text = f"{load.what}: a live load of {show(load.live, 'load')} is less than any code asks for"
            answers = [
                PlausibleAnswer(f"{words}: {psf}", ((path, psf),)) for use, words in reversed(_USES.items())
                for psf in (f"{live_load(use).value * SQUARE_FOOT:g} psf",)
            ]  # fmt: skip
            question = ask("light_live_load", piece.name, path, answers=answers, load=load.what)
            yield Check.refers(ID, piece.name, WHAT, CLAUSE, text, ask=question)


def job_checks(job: Job) -> Iterator[Check]:
    """What the head of the job speaks of and no piece carries."""
    pieces: tuple[Beam | Rafter | Tie | Post, ...] = (*job.beam, *job.rafter, *job.tie, *job.post)
    entries = [load for piece in pieces for load in piece.carries]
    roofs = [*job.rafter, *(beam for beam in job.beam if beam.service == "roof")]
    if job.job.ground_snow is not None and job.job.ground_snow[0] > 0.0 and not any(load.snow for load in entries):
        text = "a ground snow load is given, but no piece carries snow"
        yield _of_the_head(
            "loads.ground_snow", text, "ground_snow", "job.ground_snow", "no snow comes onto it", "0 psf"
        )
    if job.job.wind_speed.strip() and roofs and not any(load.wind for load in entries):
        text = "a wind speed is given, but no piece carries wind: uplift is not checked"
        yield _of_the_head("loads.wind_speed", text, "wind_speed", "job.wind_speed", "uplift is seen to elsewhere", "")


def _of_the_head(id: str, text: str, key: str, path: str, says: str, value: str) -> Check:
    question = ask(key, HEAD, path, answers=[PlausibleAnswer(says, ((path, value),))])
    return Check.refers(id, HEAD, text, CLAUSE, ask=question)
