"""Each support of a level piece: bearing of the piece on its seat, of what is under it, and the length of the seat."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import pairwise

import numpy as np

from ...analysis.beams.solved_beam import SolvedBeam
from ...calc.pad import Pad, SilentPad
from ...formulas.wood import bearing as br
from ...model.beams import Beam
from ...model.existing import Existing
from ...units import show
from ..core.context import Context
from ..core.result import Check
from ..core.seat import BEARING, least_seat, wood_under
from ..core.trivial import negligible
from ..core.wood.govern import Criterion, at, govern
from ..core.wood.material import WoodMaterial, bearing_prime
from ..core.wood.stated_capacity import enough
from ..core.wood.strength import Outcome, Section, bearing
from .ends import end_checks, hangs
from .seats import Seat, ask_seat, contact_of, room_for_a_seat


def support_checks(
    beam: Beam, solved: SolvedBeam, seats: Sequence[Seat], wood: WoodMaterial, section: Section, context: Context
) -> list[Check]:
    """All checks at all supports of a level piece."""
    found: list[Check] = []
    for seat in seats:
        pressing = solved.pressing(seat.index)
        if float(np.max(pressing)) > negligible() and not hangs(seat, context):
            found += _bearing(beam, solved, seat, pressing, wood, section, context)
        found += end_checks(beam, solved, seat, context)
        under = context.under(seat.support.on)
        if isinstance(under, Existing):
            found += enough(beam.name, f"what {under.name} takes", under, solved.combinations, pressing, seat.where)
    for one, two in pairwise(sorted(seats, key=lambda seat: seat.support.at)):
        if two.start < one.end:
            text = "they lie over each other: the lengths of the seats, or their places, are not right"
            what = f"seats of {one.name} and {two.name}"
            asks = [ask_seat(beam, one), ask_seat(beam, two)]
            found.append(Check.refers("beam.seats_apart", beam.name, what, BEARING, text, ask=asks))
    return found


def _bearing(
    beam: Beam, solved: SolvedBeam, seat: Seat, pressing: np.ndarray, wood: WoodMaterial, section: Section,
    context: Context,
) -> Iterator[Check]:  # fmt: skip
    """The piece on its seat, the least length of a seat, and the wood under it."""
    support, id, what = seat.support, "beam.bearing", f"bearing at {seat.name}"
    anchor = context.anchor(support.held_by)
    if support.bearing is None and support.holds == "hung" and (anchor is None or anchor.made.hangs):
        return  # what it hangs in has the seat: asked with it
    if support.bearing is None:
        b = min(support.bearing_width or section.b, section.b)
        needed = _needed(wood, float(np.max(pressing)), float(b))
        text = f"the seat's length is not given; this reaction needs about {show(needed, 'length')} for bearing alone"
        asked = ask_seat(beam, seat, room_for_a_seat(seat, context))
        yield Check.refers(id, beam.name, what, BEARING, text, ask=asked, where=seat.where)
        return
    if section.round:
        text = "a round piece on a flat seat bears on a line: an engineer must judge the seat"
        question = seat.asks("round_seat", beam, forces={"down": float(np.max(pressing))})
        yield Check.refers(id, beam.name, what, BEARING, text, ask=question, where=seat.where)
        return
    contact = contact_of(beam, seat, section, context)
    criterion = Criterion(beam.name, what, BEARING, "stress", seat.where, contact.notes, id=id, ask=contact.asks)

    def own(pad: Pad, which: int | slice) -> Outcome:
        R = pad.take("R", at(np.maximum(pressing, 0.0), which), "lbf", note="reaction, from the analysis")
        return bearing(pad, wood, R=R, b=contact.b, l_b=contact.l_b, near_end=seat.near_end)

    yield govern(criterion, solved.combinations, own)
    for text, question in contact.doubts:
        size = f"size of the seat at {seat.name}"
        yield Check.refers("beam.seat_size", beam.name, size, BEARING, text, ask=question, where=seat.where)
    under = context.under(support.on)
    shortest = f"least seat length at {seat.name}"
    yield from least_seat(beam.name, shortest, support.bearing, under, "IRC R502.6 (memory)", where=seat.where)
    if support.holds == "rests":
        forces = np.maximum(pressing, 0.0)
        yield from wood_under(
            beam.name, solved.combinations, forces, contact.b, contact.l_b, under, context, where=seat.where
        )


def _needed(wood: WoodMaterial, R: float, b: float) -> float:
    pad = SilentPad()
    return float(pad(br.required_bearing_length, R=R, b=b, F_c_perp_prime=bearing_prime(pad, wood, 1.0)))
