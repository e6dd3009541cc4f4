"""The hardware of a joint as groups of fasteners, for a cover that has to find room for it."""

from __future__ import annotations

import math

from ...model.anchors.anchor import Anchor, Plate
from ...model.frames.frame import Frame
from ...model.joints.joint import Joint
from ...model.joints.parts import Member
from ...model.links.joints import MANNER_OF
from ..anchors.group import hole_places
from ..core.context import Context


def hardware_of(joint: Joint, context: Context) -> list[tuple[Anchor, float]]:
    """What holds each member, and the angle at which that member lies, deg. Wood on wood has no hardware."""
    if joint.fastener is None or joint.kind not in MANNER_OF:
        return []
    found = []
    for member in joint.members:
        if member.holes is None:
            continue
        plate = member.plate
        if joint.strap is not None:
            x, _ = hole_places(member.holes)
            long = float(x.max() - x.min()) + 2.0 * joint.strap.beyond
            plate = Plate.model_construct(
                steel=joint.strap.steel, thickness=joint.strap.thickness, width=joint.strap.width, length=long
            )
        anchor = Anchor.model_construct(
            name=joint.name, manner=MANNER_OF[joint.kind], fastener=joint.fastener, holes=member.holes, plate=plate
        )
        found.append((anchor, _angle(joint, member, context)))
    return found


def _angle(joint: Joint, member: Member, context: Context) -> float:
    """Of a member from level, deg; of a post 90."""
    if member.direction is not None:
        return member.direction
    frame = context.structure.pieces.get(joint.frame) if joint.frame is not None else None
    if not isinstance(frame, Frame):
        return 90.0
    points = frame.shape.stick(member.name.removeprefix(f"{frame.name}: ")).points
    (x, y), (x_0, y_0) = frame.shape.points[points[-1]], frame.shape.points[points[0]]
    return math.degrees(math.atan2(y - y_0, x - x_0))
