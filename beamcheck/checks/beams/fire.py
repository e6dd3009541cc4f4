"""A beam in a fire: bending, shear and bearing of what is left, what covers faces and steel, what carries it."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

import numpy as np

from ...calc.pad import Pad
from ...model.anchors.manners import MANNERS
from ...model.fire import Fire
from ...units import show
from ..core.context import Context
from ..core.result import Check, worst_of
from ..core.trivial import negligible
from ..core.unsaid import with_unsaid
from ..core.wood import burnt
from ..core.wood.govern import Criterion, at, duration, govern
from ..core.wood.strength import Outcome, bearing, bending, shear
from .bending import SMALL
from .bracing import bracing_of
from .ends import hangs
from .seats import contact_of

if TYPE_CHECKING:
    from .beam_run import BeamRun

SMALL_PLACE = 1e-6  # in
FIRE_HOLDS = "only its ends are held: that its bracing lasts as long is not said"


def fire_checks(run: BeamRun, context: Context) -> Iterator[Check]:
    """Nothing for a beam of which no fire is asked."""
    beam, fire = run.beam, run.beam.fire
    if fire is None:
        return
    checks, left = burnt.begin(beam.name, "beam", fire, run.section)
    yield from checks
    if left is None:
        return
    if beam.plies > 1 or run.regions:
        why = "the fire gets between plies" if beam.plies > 1 else "wood is missing from it, and the fire gets in there"
        yield burnt.not_worked_out(beam.name, fire, why)
    asked = with_unsaid(_bending(run, left, fire), burnt.bracing_asked(beam.name, "beam", fire))
    yield from burnt.in_the_fire(asked, "fire.bending", left)
    yield burnt.without_a_factor(_shear(run, left), "fire.shear", left)
    yield from _bearing(run, left, fire, context)
    yield from burnt.carrier_checks(beam.name, [context.under(one.on) for one in beam.supports], fire)
    for support in beam.supports:
        anchor = context.anchor(support.held_by)
        if anchor is not None and MANNERS[anchor.manner].holds:
            yield burnt.steel_check(beam.name, anchor, fire, left.a_eff, run.section)


def _shear(run: BeamRun, left: burnt.Burnt) -> Check:
    """The full shear of every span on what is left: nothing near a seat is left out."""
    combinations = burnt.without_duration(run.solved.combinations)
    found = [run.solved.shears(span.start, span.end) for span in run.spans]
    largest = np.max([np.maximum(np.abs(low), np.abs(high)) for low, _, high, _ in found], axis=0)
    V_all, wood = largest * burnt.without_wind(combinations), burnt.burning_wood(run.wood)

    def calculate(pad: Pad, which: int | slice) -> Outcome:
        V = pad.take("V", at(V_all, which), "lbf", note="largest anywhere, from the analysis, wind left out")
        return shear(pad, wood, left.section, V=V, C_D=duration(pad, combinations, which))

    return govern(Criterion(run.beam.name, "shear", "3.4.2", "stress"), combinations, calculate)


def _bearing(run: BeamRun, left: burnt.Burnt, fire: Fire, context: Context) -> Iterator[Check]:
    """The seats: their breadth as burnt; in length the char eats in wherever the bottom runs on past a seat."""
    combinations = burnt.without_duration(run.solved.combinations)
    wood, length = burnt.burning_wood(run.wood), run.solved.length
    for seat in run.seats:
        pressing = np.maximum(run.solved.pressing(seat.index), 0.0) * burnt.without_wind(combinations)
        if float(np.max(pressing)) <= negligible() or hangs(seat, context) or seat.support.bearing is None:
            continue  # a seat without a length is asked for cold
        contact = contact_of(run.beam, seat, run.section, context)
        on_past = (seat.start > SMALL_PLACE) + (seat.end < length - SMALL_PLACE)
        b = min(contact.b, float(left.section.b))
        l_b = contact.l_b - (left.a_eff * on_past if "bottom" in fire.exposed else 0.0)
        what = f"bearing at {seat.name}"
        if l_b <= SMALL_PLACE:
            text = f"a seat {show(contact.l_b, 'length')} long: {show(left.a_eff, 'small length')} burns from each side"
            yield burnt.seat_burns_away(run.beam.name, what, text, fire.minutes, seat.where)
            continue

        def calculate(
            pad: Pad, which: int | slice, forces: np.ndarray = pressing, b: float = b, l_b: float = l_b,
            near_end: bool = seat.near_end,
        ) -> Outcome:  # fmt: skip
            R = pad.take("R", at(forces, which), "lbf", note="reaction, from the analysis, wind left out")
            long = pad.take("l_b", l_b, "in", note="less what burns where the piece runs on")
            return bearing(pad, wood, R=R, b=b, l_b=long, near_end=near_end)

        criterion = Criterion(run.beam.name, what, "3.10.2", "stress", seat.where)
        check = govern(criterion, combinations, calculate)
        yield burnt.without_a_factor(check, "fire.bearing", left)


def _bending(run: BeamRun, left: burnt.Burnt, fire: Fire) -> Iterator[Check]:
    """The worst span for either pressed edge."""
    combinations = burnt.without_duration(run.solved.combinations)
    counts, wood = burnt.without_wind(combinations), burnt.burning_wood(run.wood)
    size = burnt.left_as_size(run.size, left.section)
    beam = burnt.with_its_bracing(run.beam, fire)
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
            notes = () if beam is run.beam else (FIRE_HOLDS,)
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
