"""A beam in a fire: bending of what is left, the faces that something covers, the steel at its ends."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

import numpy as np

from ...calc.pad import Pad
from ...errors import OutOfRange
from ...model.fire import Fire
from ...units import show
from ..core.asking.question import ask
from ..core.context import Context
from ..core.result import Check, worst_of
from ..core.unsaid import with_unsaid
from ..core.wood.burnt import (
    CLAUSE,
    Burnt,
    bracing_asked,
    burning_wood,
    burnt,
    cover_checks,
    in_the_fire,
    lasts,
    left_as_size,
    nothing_is_left,
    steel_check,
    without_duration,
    without_wind,
)
from ..core.wood.govern import Criterion, at, duration, govern
from ..core.wood.strength import Outcome, bending
from .bending import SMALL
from .bracing import bracing_of

if TYPE_CHECKING:
    from .beam_run import BeamRun

FIRE_HOLDS = "only its ends are held: that its bracing lasts as long is not said"


def fire_checks(run: BeamRun, context: Context) -> Iterator[Check]:
    """Nothing for a beam of which no fire is asked."""
    beam, fire = run.beam, run.beam.fire
    if fire is None:
        return
    yield from cover_checks(beam.name, "beam", fire)
    try:
        left = burnt(fire, run.section)
    except OutOfRange as error:
        yield nothing_is_left(beam.name, fire, error)
        return
    if beam.plies > 1 or run.regions:
        why = "the fire gets between plies" if beam.plies > 1 else "wood is missing from it, and the fire gets in there"
        asked = ask("fire_engineer", beam.name, why=f"{why[0].upper()}{why[1:]}.", minutes=f"{fire.minutes:g}")
        yield Check.refers("fire.engineer", beam.name, "what the fire leaves", CLAUSE, why, ask=asked)
    checks = with_unsaid(_bending(run, left, fire), bracing_asked(beam.name, "beam", fire))
    yield from in_the_fire(checks, "fire.bending", fire.minutes, left.steps)
    for support in beam.supports:
        anchor = context.anchor(support.held_by)
        if anchor is not None and anchor.manner != "holds nothing":
            yield steel_check(beam.name, anchor.name, anchor.fire_cover, anchor.fire_covered_by, fire, left.a_eff)


def _bending(run: BeamRun, left: Burnt, fire: Fire) -> Iterator[Check]:
    """The worst span for either pressed edge."""
    combinations = without_duration(run.solved.combinations)
    counts, wood = without_wind(combinations), burning_wood(run.wood)
    size = left_as_size(run.size, left.section)
    held = lasts(fire.bracing_lasts, fire.minutes)
    beam = run.beam if held else run.beam.model_copy(update={"top_held": "ends only", "bottom_held": "ends only"})
    for top in (True, False):
        found = []
        for span in run.spans:
            low, _, high, _ = run.solved.moments(span.start, span.end)
            moments = (np.maximum(high, 0.0) if top else np.maximum(-low, 0.0)) * counts
            if float(np.max(moments)) < SMALL:
                continue
            bracing = bracing_of(beam, size, left.section, span, run.solved.loads, simple=run.simple, top=top)
            where = f"from {show(span.start, 'length')} to {show(span.end, 'length')}"
            edge = "" if top else ", bottom edge pressed"
            notes = () if held else (FIRE_HOLDS,)
            criterion = Criterion(beam.name, f"bending{edge}", "3.3", "stress", where, notes)

            def calculate(
                pad: Pad, which: int | slice, moments: np.ndarray = moments, bracing: object = bracing
            ) -> Outcome:
                M = pad.take("M", at(moments, which), "lbf*in", note="from the analysis, wind left out")
                C_D = duration(pad, combinations, which)
                return bending(pad, wood, left.section, bracing, M=M, C_D=C_D)  # type: ignore[arg-type]

            found.append(govern(criterion, combinations, calculate))
        if found:
            yield worst_of(found)
