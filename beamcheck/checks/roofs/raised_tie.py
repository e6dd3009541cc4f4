"""A tie above the feet pulls on its rafters between their ends: across their grain, and the feet give."""

from __future__ import annotations

import math
from collections.abc import Iterator

import numpy as np

from ...analysis.roofs.roof_frame import RoofRun
from ...calc.pad import Pad
from ...model.anchors.manners import says_heights
from ...model.roofs import Tie
from ...units import show
from ...values.judgment import judgment
from ..core.asking.question import PlausibleAnswer, ask
from ..core.context import Context
from ..core.result import Check
from ..core.wood.govern import Criterion, at, duration, govern
from ..core.wood.material import shear_prime_at_cut
from ..core.wood.sticks import FROM_FRAME, LITTLE
from ..core.wood.strength import Outcome, shear_at_connection
from .framed_stick import FramedStick

SIDE, ACROSS = "NDS 2018 3.4.3.3", "NDS 2018 3.8.2, 11.1.3"


def raised_tie_checks(run: RoofRun, tie: Tie | None, stick: FramedStick, context: Context) -> Iterator[Check]:
    """Of a tie above the feet, or one whose places on the rafter are given; without joints the tie itself asks."""
    if tie is None or stick.section.round:
        return
    if tie.height > 0.0:
        yield _feet(run, tie, stick)
    anchor = context.anchor(tie.ends_held_by)
    if anchor is None or (tie.height <= 0.0 and anchor.on_girder is None):
        return
    name, d, id, what = run.rafter.name, float(stick.section.d), "roof.tie_on_rafter", f"tie {tie.name} on the rafter"
    if anchor.on_girder is None and not says_heights(anchor.manner):
        text = (
            f"only the depth below its highest fastener counts in shear there; {anchor.manner!r} does not say how high"
        )
        low, _, high, _ = run.tie_line.extremes("N")
        forces = {"pull": float(np.max(np.maximum(np.abs(low), np.abs(high))))}
        asked = ask("tie_by_steel", name, tie=tie.name, anchor=anchor.name, manner=anchor.manner, forces=forces)
        yield Check.refers(id, name, what, SIDE, text, ask=asked)
        return
    if anchor.on_girder is None:
        base = f"anchor.{anchor.name}.on_girder"
        text = "only the depth below the highest fastener counts in shear there, and how high they sit is not given"
        answers = [PlausibleAnswer(f"from {high} to {low} under the top", ((base, {"highest": high, "lowest": low}),))
                   for high, low in ((show(0.25 * d, "length"), show(0.6 * d, "length")),)]  # fmt: skip
        asked = ask("tie_heights", name, base, answers=answers, tie=tie.name)
        yield Check.refers(id, name, what, SIDE, text, ask=asked)
        return
    highest, lowest = anchor.on_girder.highest, anchor.on_girder.lowest
    if float(np.min(run.tie_line.extremes("N")[0])) < -LITTLE:  # what is pressed counts from the other edge as well
        highest = max(highest, d - lowest)
    share = judgment("depth beyond side fastenings over the depth").value
    if lowest > d or d - highest < share * d:
        text = (
            f"its fasteners sit {show(highest, 'length')} to {show(lowest, 'length')} from the unloaded edge: "
            f"they have to reach above the lower {share:.0%} of the rafter, or the tie pulls it apart across the grain"
        )
        yield Check.breaks_rule(id, name, what, ACROSS, text)
        return
    yield _beside(run, tie, stick, highest)


def _beside(run: RoofRun, tie: Tie, stick: FramedStick, highest: float) -> Check:
    """Shear on the depth beyond the fasteners, with the largest shear anywhere in the rafter."""
    low, _, high, _ = run.rafter_line.extremes("V")
    V_all, section = np.maximum(np.abs(low), np.abs(high)), stick.section
    along = run.tail + tie.height / math.sin(math.radians(run.rafter.slope))
    reach = judgment("near the end of a member").value * float(section.d)
    near = min(along, float(run.rafter_line.length) - along) < reach

    def calculate(pad: Pad, which: int | slice) -> Outcome:
        V = pad.take("V", at(V_all, which), "lbf", note=f"largest in the rafter, {FROM_FRAME}")
        F_v_prime = shear_prime_at_cut(pad, stick.wood, duration(pad, run.combinations, which))
        c_u = pad.take("c_u", highest, "in", note="from the unloaded edge to the nearest fastener")
        return shear_at_connection(pad, F_v_prime, V=V, b=section.b, d=section.d, c_u=c_u, near_end=near)

    what = f"shear of the rafter beside tie {tie.name}"
    return govern(Criterion(run.rafter.name, what, SIDE, "force", id="roof.tie_shear"), run.combinations, calculate)


def _feet(run: RoofRun, tie: Tie, stick: FramedStick) -> Check:
    """How far the feet move apart with creep: the walls have to go along."""
    spread = float(np.max(run.spreading)) * float(stick.wood.K_cr.value)
    most = judgment("feet of a pair apart").value
    id, what, clause = "roof.spread", "feet that move apart", "common practice, no source"
    text = f"{show(spread, 'small length')} under the largest load, all of it with creep: the walls go along"
    if spread <= most:
        return Check.keeps_rule(id, run.rafter.name, what, clause, text)
    asked = ask("feet_apart", run.rafter.name, tie=tie.name, apart=show(spread, "small length"))
    return Check.refers(id, run.rafter.name, what, clause, text, ask=asked)
