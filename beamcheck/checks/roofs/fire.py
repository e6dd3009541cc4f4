"""Rafters and ties in a fire: their checks made of what is left of them, under the forces of the whole frame."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from functools import partial

import numpy as np

from ...analysis.frames.member_line import Line
from ...analysis.roofs.roof_frame import RoofRun
from ...calc.pad import Pad
from ...model.fire import Fire
from ...model.roofs import Rafter
from ...units import show
from ..core.context import Context
from ..core.result import Check
from ..core.unsaid import with_unsaid
from ..core.wood import burnt
from ..core.wood.govern import Criterion, at, duration, govern
from ..core.wood.strength import Outcome, notch_shear
from .framed_stick import FramedStick
from .member import Forces, forces_checks, sheared
from .seat import cut_depth, seat_check, seat_length, tail_over_the_wall


def fire_checks(stick: FramedStick, run: RoofRun, line: Line, context: Context, *, free: float) -> Iterator[Check]:
    """Nothing for a stick of which no fire is asked."""
    piece, fire = stick.piece, stick.piece.fire
    if fire is None:
        return
    kind = type(piece).__name__.casefold()
    checks, left = burnt.begin(piece.name, kind, fire, stick.section)
    yield from checks
    if left is None:
        return
    if piece.plies > 1 or piece.cuts or stick.old_cuts or stick.wood.made != "sawn":
        why = "plies, cuts and glued laminated timber in a fire are not worked out here"
        yield burnt.not_worked_out(piece.name, fire, why)
    burns = replace(stick, piece=burnt.with_its_bracing(piece, fire), size=burnt.left_as_size(stick.size, left.section),
                    section=left.section, wood=burnt.burning_wood(stick.wood))  # fmt: skip
    counts = burnt.without_wind(run.combinations)
    forces = Forces(*(values * counts for values in vars(Forces.of(line)).values()))
    still = replace(run, combinations=tuple(burnt.without_duration(run.combinations)))
    asked_bracing = burnt.bracing_asked(piece.name, kind, fire)
    strong = with_unsaid(forces_checks(burns, still, forces, length=float(line.length), free=free), asked_bracing)
    yield from burnt.in_the_fire(strong, "fire.roof", left)
    criterion = Criterion(piece.name, "shear", "3.4.2", "stress")
    check = govern(criterion, still.combinations, partial(sheared, burns, still, forces.V))
    yield burnt.without_a_factor(check, "fire.shear", left)
    if isinstance(piece, Rafter):
        yield from _foot(burns, still, forces, counts, fire, left)
        names = [piece.wall.on, *filter(None, (piece.ridge_on, piece.other_wall, piece.tie))]
        yield from burnt.carrier_checks(piece.name, [context.under(one) for one in names], fire)
    else:
        yield from burnt.carrier_checks(piece.name, [run.rafter], fire)
    held = getattr(piece, "ends_held_by", None) or getattr(getattr(piece, "wall", None), "held_by", None)
    if (anchor := context.anchor(held)) is not None:
        yield burnt.steel_check(piece.name, anchor, fire, left.a_eff, stick.section)


def _foot(
    stick: FramedStick, run: RoofRun, forces: Forces, counts: np.ndarray, fire: Fire, left: burnt.Burnt
) -> Iterator[Check]:  # fmt: skip
    """The seat, shorter by what burns from its inner side, and the birdsmouth, as deep as it was cut."""
    name, support = stick.piece.name, run.rafter.wall
    pressed, eaten = np.maximum(run.wall_reactions, 0.0) * counts, left.a_eff if "bottom" in fire.exposed else 0.0
    long, _ = seat_length(run)
    if long is not None and long <= eaten:
        what = f"bearing on {support.on}"
        text = f"a seat {show(long, 'length')} long: {show(left.a_eff, 'small length')} burns from its inner side"
        yield burnt.seat_burns_away(name, what, text, fire.minutes)
    elif (seat := seat_check(run, stick, pressed, eaten)) is not None:
        yield burnt.without_a_factor(seat, "fire.bearing", left)
    depth, _ = cut_depth(run)
    if depth is None or depth >= float(stick.section.d):
        return  # asked for, or failed, cold; what the cut leaves of a burnt rafter is nothing

    def notched(pad: Pad, which: int | slice) -> Outcome:
        V = pad.take("V", at(forces.V, which), "lbf", note="largest in the rafter, wind left out")
        C_D = duration(pad, run.combinations, which)
        return notch_shear(pad, stick.wood, stick.section, V=V, C_D=C_D, depth=depth)

    criterion = Criterion(name, "shear at the birdsmouth", "3.4.3.2", "force")
    yield burnt.without_a_factor(govern(criterion, run.combinations, notched), "fire.shear", left)
    if run.tail > 0.0:

        def bent(pad: Pad, which: int | slice) -> Outcome:
            found = tail_over_the_wall(run, stick, depth, pad, which)
            ratio = found.ratio * at(counts, which)
            return Outcome(ratio, 1.0, ratio)

        criterion = Criterion(name, "bending of the tail at the birdsmouth", "3.9.2", "ratio")
        yield from burnt.in_the_fire([govern(criterion, run.combinations, bent)], "fire.roof", left)
