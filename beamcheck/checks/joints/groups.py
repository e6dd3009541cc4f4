"""The fasteners of one member of a joint as a group of fasteners, so that the rules for these hold here too."""

from __future__ import annotations

import math
from collections.abc import Iterator
from typing import Any

import numpy as np

from ...model.anchors.anchor import Anchor, Other
from ...model.anchors.manners import Manner
from ...records import dataclass
from ...units import show
from ...values.judgment import judgment
from ..anchors.group import Forces, Group, hole_places
from ..anchors.manners.rated_hardware import by_report, no_less
from ..core.context import Context
from ..core.result import Check
from .meeting import Arriving, Meeting

Array = np.ndarray
ROUNDING = 1e-9  # of the largest force: less across a member is rounding of its direction
OF_MEMBER = ("holes", "plate", "arm", "other")  # fields that stand at the member and not at the joint


@dataclass(frozen=True, eq=False)
class MemberGroup(Group):
    """The fasteners in one member of a joint. Its fields stand partly at the joint, partly at the member."""

    number: int = 0
    crowded: float | None = None  # in; what tears out counts every hole as near to the end and to the next as that

    def field(self, name: str) -> str:
        """The place of a field in the job file."""
        head = name.partition(".")[0]
        return f"{self.path}.members.{self.number}.{name}" if head in OF_MEMBER else f"{self.path}.{name}"


def anchor_of(meeting: Meeting, member: Arriving, manner: Manner, **fields: Any) -> Anchor:
    """The fasteners of a member as an anchor group: what the job file says of joint and member was read already."""
    joint, entry = meeting.joint, member.entry
    others = [one.name for one in meeting.members if one is not member]
    arm = 0.0 if entry.arm is None else entry.arm
    given: dict[str, Any] = {
        "name": joint.name, "manner": manner, "into": " and ".join(others) or None, "fastener": joint.fastener,
        "holes": entry.holes, "plate": entry.plate, "gap": joint.gap, "arm": arm, "clamped": joint.clamped,
        "split": joint.split, "seasoned": joint.seasoned, "twist_held_by": joint.twist_held_by,
    }  # fmt: skip
    return Anchor.model_construct(**{**given, **fields})


def group_of(
    meeting: Meeting, member: Arriving, manner: Manner, *, forces: Forces | None = None,
    places: tuple[Array, Array] | None = None, other: Arriving | None = None, **fields: Any,
) -> MemberGroup:  # fmt: skip
    """The group of a member: along it what it pulls, square to it what it presses toward its lower edge.

    Raises OutOfRange if the layout does not say where the holes are.
    """
    if other is not None:
        thick = other.b / (2.0 if other.entry.part == "outside" else 1.0)
        fields["other"] = Other.model_construct(thickness=thick, grain="along", material="wood", stock=other.stock.name)
    anchor = anchor_of(meeting, member, manner, **fields)
    x, y = hole_places(anchor.holes) if places is None else places
    if forces is None:
        force = meeting.through(member)
        along, across = np.asarray(force @ member.direction), member.across(force)
        least = ROUNDING * float(np.max(np.hypot(along, across), initial=0.0))
        across, along = (np.where(np.abs(part) <= least, 0.0, part) for part in (across, along))
        turning = np.where(np.abs(member.turning) <= least * member.d, 0.0, member.turning)
        forces = Forces(meeting.combinations, across, along, turning)
    return MemberGroup(
        anchor, member.piece, "left", 0.0, member.stock, member.wood, member.section, None,
        None if other is None else other.stock, None if other is None else other.wood, forces, x, y,
        path=f"joint.{meeting.name}", number=member.number, air=meeting.air,
        described=tuple(one for one in meeting.described if one.on in (member.piece, meeting.name)),
    )  # fmt: skip


def report_checks(meeting: Meeting, member: Arriving, forces: Forces, context: Context | None = None) -> list[Check]:
    """Published loads of hardware on a member, in the directions of that member."""
    group = group_of(meeting, member, "rated hardware", forces=forces, places=(np.zeros(0), np.zeros(0)),
                     rating=meeting.joint.rating, fastener=None, holes=None, plate=None)  # fmt: skip
    return [*by_report(group, context), *_steeper(meeting, member)]


def _steeper(meeting: Meeting, member: Arriving) -> Iterator[Check]:
    """A member that slopes more than the report's figures hold for, where it gives a slope; what stands has none."""
    rating, slope = meeting.joint.rating, math.degrees(math.asin(min(abs(float(member.direction[1])), 1.0)))
    if rating is None or rating.slope is None or slope >= 90.0 - judgment("directions that are the same").value:
        return
    if slope > rating.slope + 1e-6:
        words = show(slope, "slope")
        text = f"{member.name} slopes by {words}, and the figures hold up to {show(rating.slope, 'slope')}"
        yield meeting.refers("anchor.rated_fit", "slope of the piece", "evaluation report", text, "rating_slope",
                             "rating.slope", answers=(no_less(slope),), where=member.name, piece=member.name,
                             slope=words)  # fmt: skip


def pulls(meeting: Meeting, force: Array) -> Forces:
    """A pull along a member and nothing else."""
    return Forces(meeting.combinations, np.zeros_like(force), force)


def laid_out(meeting: Meeting) -> Arriving:
    """The member whose holes give the layout of a group that goes through all members: the first with more than one."""
    for one in meeting.members:
        holes = one.entry.holes
        if holes is not None and hole_places(holes)[0].size > 1:
            return one
    return meeting.members[0]


def places_in(meeting: Meeting, member: Arriving) -> tuple[Array, Array]:
    """Places of the holes in one member, by the layout of the member that gives it, turned into its own directions.

    Raises OutOfRange if the layout does not say where the holes are.
    """
    first = laid_out(meeting)
    x, y = hole_places(first.entry.holes)
    if member is first or x.size == 1:
        return hole_places(member.entry.holes)
    at = np.outer(x - x.mean(), first.direction) + np.outer(y - y.mean(), first.up)
    own_x, own_y = at @ member.direction, at @ member.up
    near, low = hole_places(member.entry.holes)
    own_x, own_y = own_x - own_x.min() + float(near[0]), own_y - own_y.min() + float(low[0])
    return np.round(own_x, 9), np.round(own_y, 9)
