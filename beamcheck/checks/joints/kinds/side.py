"""Hardware in the side of a member that pulls across its grain: how high it sits, shear on the depth beyond it."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from ....calc.pad import Pad
from ....model.anchors.girder import OnGirder
from ....units import show
from ....values.hardware.connections import connection_limit
from ....values.judgment import judgment
from ...anchors.group import round_force
from ...core.asking.question import PlausibleAnswer
from ...core.result import Check
from ...core.wood.govern import Criterion, at, duration, govern
from ...core.wood.material import shear_prime_at_cut
from ...core.wood.strength import Outcome, bearing, shear_at_connection
from ..meeting import Arriving, Meeting

Array = np.ndarray
SIDE, LOW = "NDS 2018 3.4.3.3", "NDS 2018 3.8.2, 11.1.3"
NEAR_END = 3.0  # in from its end a piece is pressed as at its end (NDS 2018 3.10.4)
STEEP = 0.7071  # of a unit vector: steeper than 45 deg a member has no top edge that a tape could be held to


def side_checks(meeting: Meeting) -> Iterator[Check]:
    """Of every member but the first, which is the one that the report is for."""
    for one in meeting.members[1:]:
        across = one.across(meeting.through(one))
        if one.entry.seat is not None and abs(float(one.direction[1])) <= STEEP:
            yield _seated(meeting, one, np.maximum(across, 0.0), one.entry.seat)
            across = np.minimum(across, 0.0)
        if not meeting.next_to_nothing(float(np.max(np.abs(across), initial=0.0))):
            yield from _on(meeting, one, across)


def _seated(meeting: Meeting, one: Arriving, pressed: Array, long: float) -> Check:
    """It lies on the hardware and is pressed there; what lifts it off is held at its side."""

    def calculate(pad: Pad, which: int | slice) -> Outcome:
        R = pad.take("R", at(pressed, which), "lbf", note=f"of {one.name} on the hardware")
        near = not one.passes or one.from_end < NEAR_END + 0.5 * long
        return bearing(pad, one.wood, R=R, b=one.b, l_b=long, near_end=near)

    criterion = Criterion(meeting.name, f"{one.name} on the hardware", "NDS 2018 3.10.2", "stress", one.name,
                          id="joint.on_seat")  # fmt: skip
    return govern(criterion, meeting.combinations, calculate)


def _on(meeting: Meeting, one: Arriving, across: Array) -> Iterator[Check]:
    id, what, d = "joint.on_side", f"hardware in the side of {one.name}", one.d
    place, most = f"members.{one.number}", float(np.max(np.abs(across)))
    pulls = show(most, "force")
    if one.entry.on_girder is None:
        text = f"{pulls} come across the grain of {one.name}, and how high on its side the hardware sits is not given"
        field = f"joint.{meeting.name}.{place}"
        usual = [(show(high * d, "length"), show(low * d, "length")) for high, low in _plausible(meeting, one, across)]
        answers = [
            PlausibleAnswer(
                f"from {high} to {low} under the top", ((f"{field}.on_girder", {"highest": high, "lowest": low}),)
            )
            for high, low in usual
        ]
        if one.entry.seat is None and not meeting.next_to_nothing(float(np.max(across, initial=0.0))):
            under = show(2.0 * one.b, "length")
            answers.insert(1, PlausibleAnswer(f"it lies on a seat {under} long", ((f"{field}.seat", under),)))
        yield meeting.refers(id, what, f"{SIDE}, {LOW}", text, "joint_on_side", f"{place}.on_girder", answers=answers,
                             where=one.name, member=one.name, pulls=pulls)  # fmt: skip
        return
    heights = one.entry.on_girder
    if heights.lowest > d:
        text = f"the lowest fastening is said to sit {show(heights.lowest, 'length')} under the top, below {one.name}"
        yield Check.breaks_rule(id, meeting.name, what, "geometry", text, where=one.name)
        return
    c_u = _from_unloaded(one, across, heights, meeting)
    share = judgment("depth beyond side fastenings over the depth").value
    if d - c_u < share * d:
        text = (
            f"the nearest fastening sits {show(c_u, 'length')} from the edge that the load leaves, in a depth of "
            f"{show(d, 'length')}: over {1.0 - share:.0%} of it, and the load pulls the wood apart across its grain"
        )
        yield meeting.refers("joint.on_side_low", f"{one.name} pulled across its grain", LOW, text, "joint_on_side_low",
                             where=one.name, member=one.name, pulls=pulls)  # fmt: skip
    apart = connection_limit("outer fasteners across the grain, sawn wood").value
    if heights.lowest - heights.highest > apart and not one.wood.dry:
        text = (
            f"spread over {show(heights.lowest - heights.highest, 'length')} across the grain of wood that is still "
            f"to dry (up to {show(apart, 'length')}): it may split between its fasteners"
        )
        yield meeting.refers("joint.on_side_spread", f"spread over {one.name}", "NDS 2018 12.5.1.3", text,
                             "joint_on_side_spread", where=one.name, member=one.name)  # fmt: skip
    yield _shear(meeting, one, c_u, most)


def _plausible(meeting: Meeting, one: Arriving, across: Array) -> tuple[tuple[float, float], tuple[float, float]]:
    """Shares of the depth from the top to its highest and lowest fastening: near the edge that the load leaves, far."""
    presses, hangs = (not meeting.next_to_nothing(float(np.max(way * across, initial=0.0))) for way in (1.0, -1.0))
    if abs(float(one.direction[1])) > STEEP or (presses and hangs):
        return (0.25, 0.75), (0.1, 0.5)
    return ((0.2, 0.6), (0.6, 0.9)) if hangs else ((0.4, 0.8), (0.1, 0.4))


def _from_unloaded(one: Arriving, across: Array, heights: OnGirder, meeting: Meeting) -> float:
    """From the edge that the load leaves to the nearest fastener: what goes both ways counts from both edges, in.

    What presses down on the hardware is borne upward by it and leaves the lower edge; what hangs on the member leaves
    the upper one.
    """
    low, high = heights.highest, one.d - heights.lowest
    if abs(float(one.direction[1])) > STEEP:
        return max(low, high)
    presses, hangs = (float(np.max(way * across, initial=0.0)) for way in (1.0, -1.0))
    both = [c for c, force in ((low, hangs), (high, presses)) if not meeting.next_to_nothing(force)]
    return max(both, default=low)


def _shear(meeting: Meeting, one: Arriving, c_u: float, most: float) -> Check:
    id, what = "joint.on_side_shear", f"shear of {one.name} beside the hardware"
    V_all, note = one.V, "largest on either side, from the analysis"
    if V_all is None:
        if one.entry.shear is None:
            text = f"at hardware in its side the full shear counts, and what there is in {one.name} is not given"
            place = f"members.{one.number}.shear"
            return meeting.refers(id, what, SIDE, text, "joint_on_side_shear", place, answers=(round_force(most),),
                                  where=one.name, member=one.name)  # fmt: skip
        V_all = np.full(len(meeting.combinations), max(one.entry.shear, (0.5 if one.passes else 1.0) * most))
        note = f"by {meeting.joint.forces_by}, no less than what is hung there asks; in every combination"
    near = one.from_end < judgment("near the end of a member").value * one.d

    def calculate(pad: Pad, which: int | slice) -> Outcome:
        V = pad.take("V", at(V_all, which), "lbf", note=note)
        F_v_prime = shear_prime_at_cut(pad, one.wood, duration(pad, meeting.combinations, which))
        c = pad.take("c_u", c_u, "in", note="from the unloaded edge to the nearest fastener")
        return shear_at_connection(pad, F_v_prime, V=V, b=one.b, d=one.d, c_u=c, near_end=near)

    notes = () if one.V is not None else ("taken as near the end of it",)
    return govern(Criterion(meeting.name, what, SIDE, "force", one.name, notes, id=id), meeting.combinations, calculate)
