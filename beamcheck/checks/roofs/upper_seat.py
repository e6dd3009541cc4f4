"""The upper end of a rafter that lies on the top of its ridge beam: bearing, notch, held upright, room for its seat."""

from __future__ import annotations

import math
from collections.abc import Iterator

import numpy as np

from ...analysis.roofs.roof_frame import RoofRun
from ...model.beams import Beam
from ...units import read, show
from ...values.judgment import judgment
from ..beams.beam_run import section_of
from ..beams.bracing import needs_end_restraint
from ..core.asking.question import PlausibleAnswer, ask
from ..core.context import Context
from ..core.result import Check
from ..core.seat import least_seat, wood_under
from .framed_stick import FramedStick
from .seat import end_notch, level_seat

CUT, UPRIGHT = "NDS 2018 4.4.3.1", "NDS 2018 3.3.3.4, 4.4.1.2"


def upper_seat_checks(run: RoofRun, stick: FramedStick, context: Context) -> Iterator[Check]:
    """Of a level seat on the ridge beam, which carries what comes down and pushes nothing sideways."""
    rafter, section = run.rafter, stick.section
    assert rafter.upper is not None
    assert rafter.upper.bearing is not None
    assert rafter.ridge_on is not None
    if section.round:
        return  # referred as a whole
    l_b, b, on = rafter.upper.bearing, float(section.b), rafter.ridge_on
    pressed, under = np.maximum(run.far_reactions, 0.0), context.under(on)
    what = f"bearing on {on}"
    yield level_seat(run, stick, pressed, (b, l_b), what, "level length of the seat, as given", "roof.ridge_seat")
    yield from least_seat(rafter.name, f"least seat length on {on}", l_b, under, "IRC R802.6 (memory)")
    yield from wood_under(rafter.name, run.combinations, pressed, b, l_b, under, context)
    if isinstance(under, Beam):
        broad = float(section_of(context.size(under.stock), under.laid, under.plies).b)
        yield from _room(run, l_b, broad)
    depth = l_b * math.sin(math.radians(rafter.slope))
    most, id, what = _deepest(stick), "roof.ridge_notch", f"notch over {on}"
    clause = "NDS 2018 5.4.5" if stick.wood.made == "glulam" else CUT
    text = f"a level seat of {show(l_b, 'length')} at this slope is {show(depth, 'length')} deep, "
    text += f"and a notch at an end may take {show(most, 'length')}"
    make = Check.keeps_rule if depth <= most * (1.0 + 1e-9) else Check.breaks_rule
    yield make(id, rafter.name, what, clause, text)
    if depth < float(section.d):
        yield end_notch(run, stick, depth, f"shear at the notch over {on}", "roof.ridge_notch_shear")
    if needs_end_restraint(stick.size, section) and not rafter.upper.restrained:
        text = f"the upper end on {on}: d/b is over 2, so the ends must be held upright"
        id, what = "roof.ends_held", "upper end held against turning over"
        if rafter.upper.restrained is None:
            asked = ask("upper_upright", rafter.name, f"rafter.{rafter.name}.upper.restrained")
            yield Check.refers(id, rafter.name, what, UPRIGHT, text, ask=asked)
        else:
            yield Check.breaks_rule(id, rafter.name, what, UPRIGHT, text)


def _deepest(stick: FramedStick) -> float:
    """The deepest notch in the lower edge at an end, in."""
    d = float(stick.section.d)
    if stick.wood.made != "glulam":
        return judgment("birdsmouth over depth").value * d
    from ...formulas.engineered.glued import tension_notch_limit  # most rafters are sawn

    return float(tension_notch_limit(d))


def _room(run: RoofRun, l_b: float, broad: float) -> Iterator[Check]:
    """The seats of both rafters of a pair find room on the ridge beam, or they lap past each other."""
    rafter, id, what = run.rafter, "roof.ridge_room", f"room on {run.rafter.ridge_on}"
    text = f"its seat is {show(l_b, 'length')} long, and {rafter.ridge_on} {show(broad, 'length')} broad"
    if l_b > broad * (1.0 + 1e-9):
        yield Check.breaks_rule(id, rafter.name, what, "geometry", text)
    elif rafter.pair and 2.0 * l_b > broad * (1.0 + 1e-9) and not rafter.insists_on("upper"):
        half, path = show(0.5 * broad, "length"), f"rafter.{rafter.name}"
        why = "they lap past each other"
        answers = [PlausibleAnswer(f"they meet: each has {half}", ((f"{path}.upper.bearing", half),)),
                   PlausibleAnswer(why, ((f"{path}.meant.upper", why),))]  # fmt: skip
        asked = ask("ridge_room", rafter.name, f"{path}.upper.bearing", answers=answers)
        yield Check.refers(id, rafter.name, what, "geometry", f"{text}: the two of a pair have half of that", ask=asked)


def usual_seat(run: RoofRun, stick: FramedStick, context: Context) -> list[PlausibleAnswer]:
    """The answer that it lies on the top of a beam, with the longest usual seat that finds room there."""
    rafter, section = run.rafter, stick.section
    assert rafter.ridge_on is not None
    under = context.under(rafter.ridge_on)
    if section.round or not isinstance(under, Beam):
        return []
    broad = float(section_of(context.size(under.stock), under.laid, under.plies).b) / (2.0 if rafter.pair else 1.0)
    room = min(broad, _deepest(stick) / math.sin(math.radians(rafter.slope)))
    for length in ("3 in", "2 1/2 in", "2 in", "1 1/2 in"):
        if read(length, "length") <= room:
            kept = {} if rafter.upper is None else rafter.upper.model_dump(exclude_none=True, include={"restrained"})
            seat = {"bearing": length, "restrained": True, **kept}
            says = f"on its top, with a level seat of {length}, held upright"
            return [PlausibleAnswer(says, ((f"rafter.{rafter.name}.upper", seat),))]
    return []
