"""From a joint with its forces to the plain numbers of its picture."""

from __future__ import annotations

import math
from collections.abc import Iterator

import numpy as np

from ...units import show
from ..anchors.hardware import looked_up
from ..core.pictures.others import JointBar, JointHole, JointPicture
from .kinds.registry import kind_of
from .meeting import Arriving, Meeting


def joint_picture(meeting: Meeting) -> JointPicture:
    """The members with the largest of their forces under any combination."""
    kind = kind_of(meeting.joint)
    by_member = {group.number: group for group, _ in kind.groups(meeting)}
    bars = []
    for one in meeting.members:
        group, holes = by_member.get(one.number), tuple[JointHole, ...]()
        if group is not None and group.x.size:
            dowel = looked_up(group.anchor)
            D = dowel.D if dowel is not None else 0.0
            holes = tuple(_hole(one, float(x), float(y), float(np.mean(group.x)), D)
                          for x, y in zip(group.x, group.y, strict=True))  # fmt: skip
        x, y = one.direction
        bars.append(JointBar(
            one.name, math.degrees(math.atan2(float(y), float(x))), one.d, one.passes, _most(-one.N), _most(one.N),
            _most(np.abs(one.down)), holes, _starts(meeting, one),
        ))  # fmt: skip
    return JointPicture(meeting.name, tuple(bars), meeting.on, tuple(_cut(meeting)))


def _starts(meeting: Meeting, one: Arriving) -> float | None:
    """The head of a post under a cap lies below what lies on it, and the plate between."""
    cap = meeting.joint.cap
    if cap is None or one.entry.part != "standing":
        return None
    return 0.5 * max(other.d for other in meeting.all("lying")) + cap.plate


def _most(force: np.ndarray) -> float:
    return float(np.max(force, initial=0.0))


def _hole(one: Arriving, x: float, y: float, middle: float, D: float) -> JointHole:
    """A fastener: the middle of its group stands by its arm from the crossing of the axes."""
    place = one.direction * ((one.entry.arm or 0.0) + x - middle) + one.up * (y - 0.5 * one.d)
    return JointHole(float(place[0]), float(place[1]), D)


def _cut(meeting: Meeting) -> Iterator[str]:
    joint = meeting.joint
    if (step := joint.step) is not None:
        yield f"notch {show(step.depth, 'length')} deep, {show(step.behind, 'length')} of wood behind it"
        halves = "halves the angle between the two" if step.face == "bisector" else f"is {step.face}"
        yield f"its face {halves}"
    if (tenon := joint.tenon) is not None:
        sizes = " x ".join(show(one, "length") for one in (tenon.thickness, tenon.width, tenon.length))
        yield f"tenon {sizes}, housing {show(tenon.housing, 'length')}"
    if (cap := joint.cap) is not None:
        sizes = " x ".join(show(one, "length") for one in (cap.plate, cap.bears_wide, cap.bears_long))
        each = " under each" if len(meeting.all("lying")) > 1 else ""
        yield f"plate of the cap {sizes}{each}, steel {cap.steel}"
    if (screws := joint.screws) is not None:
        yield f"{screws.count} screws at {show(screws.angle, 'angle')} to the faces"
    if (strap := joint.strap) is not None:
        yield f"strap {show(strap.width, 'length')} x {show(strap.thickness, 'length')} of {strap.steel}"
