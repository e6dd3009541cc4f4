"""How much room a beam that passes has to spare: how much longer, wider or heavier it still holds, each tried.

Tried alone, by running the job with it; the piece must pass and no other piece may stop passing.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from typing import Any

from ..checks.core.result import JobResult
from ..errors import BeamcheckError
from ..model.beams import Beam
from ..model.job import Job
from ..model.loads import sort_of
from ..units import from_inner, show

LONGEST = 1.5  # times what there is: room beyond that is another beam
STEPS = {"length": 1.0, "width": 3.0}  # in
LIVE_STEP = 1.0  # psf
Run = Callable[[Job], JobResult | None]


def room_to_spare(job: Job, name: str, run: Run) -> Iterator[str]:
    """Sentences; none for what is no beam on two supports, or where nothing more was found to hold."""
    beam = next((one for one in job.beam if one.name == name), None)
    before = run(job)
    if beam is None or before is None:
        return
    passing = {piece.name for piece in before.pieces if piece.verdict == "passes"}

    def holds(other: Beam) -> bool:
        beams = tuple(other if one is beam else one for one in job.beam)
        try:
            result = run(job.model_copy(update={"beam": beams}))
        except BeamcheckError:
            return False
        return result is not None and passing <= {one.name for one in result.pieces if one.verdict == "passes"}

    if name not in passing:
        return
    clear = _clear(beam)
    if clear is not None and (most := _most(clear, STEPS["length"], lambda size: holds(_longer(beam, size - clear)))):
        yield f"holds {_words(show(most, 'length'), most, clear)} clear"
    widths = {load.width for load in beam.carries if load.width}
    if len(widths) == 1 and beam.spacing is None:  # of a row the width is the spacing
        (width,) = widths
        if most := _most(width, STEPS["width"], lambda size: holds(_with_loads(beam, "width", lambda _: size))):
            yield f"holds {_words(show(most, 'length'), most, width)} of width to carry"
    lives = {load.live for load in beam.carries if load.live}
    if len(lives) == 1:
        ((live, sort),) = lives
        step = LIVE_STEP / from_inner(1.0, "area load") if sort == "area" else 0.05 * live

        def heavier(size: float) -> bool:
            return holds(_with_loads(beam, "live", lambda load: (size, sort)))

        if most := _most(live, step, heavier):
            yield f"holds {_words(show((most, sort), 'load'), most, live)} live"


def _words(text: str, most: float, now: float) -> str:
    """What was tried no further may hold more."""
    return f"{text} and more" if most > 0.97 * LONGEST * now else f"up to {text}"


def _clear(beam: Beam) -> float | None:
    """The clear span of a beam on two supports whose loads and cuts are all along it."""
    if len(beam.supports) != 2 or beam.cuts or any(sort_of(one) == "point" or one.end for one in beam.carries):
        return None
    left, right = sorted(beam.supports, key=lambda one: one.at)
    return right.at - left.at - 0.5 * ((left.bearing or 0.0) + (right.bearing or 0.0))


def _longer(beam: Beam, more: float) -> Beam:
    """The right support moved out, and the end with it."""
    last = max(beam.supports, key=lambda one: one.at)
    supports = tuple(
        one.model_copy(update={"at": one.at + more}) if one is last else one for one in beam.supports
    )  # fmt: skip
    length = None if beam.length is None else beam.length + more
    clear = None if beam.clear is None else beam.clear + more
    return beam.model_copy(update={"supports": supports, "length": length, "clear": clear})


def _with_loads(beam: Beam, field: str, value: Callable[[Any], Any]) -> Beam:
    loads = tuple(
        load.model_copy(update={field: value(load)}) if getattr(load, field) else load for load in beam.carries
    )  # fmt: skip
    return beam.model_copy(update={"carries": loads})


def _most(now: float, step: float, holds: Callable[[float], bool]) -> float:
    """The largest of what there is and some steps more that holds; 0 where not even one step does."""
    low, high = 0, max(int(now * (LONGEST - 1.0) / step), 1)
    if not holds(now + step):
        return 0.0
    low = 1
    if holds(now + high * step):
        return now + high * step
    while high - low > 1:
        middle = (low + high) // 2
        low, high = (middle, high) if holds(now + middle * step) else (low, middle)
    return now + low * step
