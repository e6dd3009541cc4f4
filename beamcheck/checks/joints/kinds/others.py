"""Joints that hold what somebody else says: hardware and screws by report, work of others; and what has no value."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

import numpy as np

from ....model.fields.evidence import read_evidence, vouched
from ....units import show
from ...anchors.group import Forces
from ...core.forces_said import named_too_small
from ...core.result import Check
from ..groups import report_checks
from ..meeting import Meeting, wood_checks
from .base import Kind, into_which
from .side import side_checks

PATH = "load path"


class Rated(Kind):
    """Hardware, long screws, anchors in concrete: the loads that a report publishes for one member.

    The figures are those in the directions of the first member, or of the one that ends in its side; of the others only
    the wood is asked.
    """

    name = "rated"

    def checks(self, meeting: Meeting) -> list[Check]:
        meeting = _held_first(meeting)
        if meeting.bears is False:
            return [into_which(meeting), *wood_checks(meeting)]
        first = meeting.members[0]
        force = meeting.through(first)
        forces = Forces(meeting.combinations, first.across(force), np.asarray(force @ first.direction))
        found = report_checks(meeting, first, forces)
        pressed = float(np.max(-first.N, initial=0.0))
        if not meeting.next_to_nothing(pressed) and len(meeting.members) > 1:
            found = [check for check in found if check.what != "pressing into the joint"]
            text = f"{first.name} also presses into the joint: how that goes from wood to wood is a check of its own"
            found.append(meeting.refers("joint.pressed", f"{first.name} pressed into the joint", PATH, text,
                                        "joint_pressed"))  # fmt: skip
        return [*found, *_pushed_together(meeting), *side_checks(meeting), *wood_checks(meeting)]

    def to_see(self, meeting: Meeting) -> Iterator[str]:
        meeting, rating = _held_first(meeting), meeting.joint.rating
        assert rating is not None
        yield f"the mark on the hardware is that of its report: {rating.source}"
        yield "every fastener that the report lists is in, none changed, bent or left out; screws at the angle it names"
        yield "the wood, its moisture and the distances are those of the report's conditions"
        for one in meeting.members[1:]:
            if (heights := one.entry.on_girder) is not None:
                high, low = show(heights.highest, "length"), show(heights.lowest, "length")
                yield f"on {one.name} the highest fastener {high} under its top edge, the lowest {low}: measured"

    def assumptions(self, meeting: Meeting) -> Iterator[str]:
        first = _held_first(meeting).members[0].name
        yield f"The published loads are those in the directions of {first}; nothing is added to them."


def _held_first(meeting: Meeting) -> Meeting:
    """The same with what ends in the side of what runs through before that, in whichever order the job names them.

    A tie that hangs on a post runs through, too, but the post takes it along its grain: that order is left as it is.
    """
    first, *others = meeting.members
    ends = [one for one in others if first.passes and not one.passes and _most(one.down) > _most(one.N)]
    return replace(meeting, members=(*ends[:1], *(one for one in meeting.members if one not in ends[:1])))


def _most(force: np.ndarray) -> float:
    return float(np.max(np.abs(force), initial=0.0))


def _pushed_together(meeting: Meeting) -> Iterator[Check]:
    """Where three or more meet, the others may press on each other past the one that the report is for."""
    others = meeting.members[1:] if len(meeting.members) > 2 else ()
    for one in others:
        most = float(np.max(-one.N, initial=0.0))
        if not meeting.next_to_nothing(most):
            text = f"{one.name} pushes into the joint, and the report is for {meeting.members[0].name} alone"
            yield meeting.refers("joint.pressed", f"{one.name} pressed into the joint", PATH, text, "joint_pressed",
                                 where=one.name)  # fmt: skip


class ByOthers(Kind):
    """Somebody else answers for it."""

    name = "by others"

    def checks(self, meeting: Meeting) -> list[Check]:
        return list(_answered(meeting, "joint_by_others"))

    def to_see(self, meeting: Meeting) -> Iterator[str]:
        yield f"what is shown in the papers of whoever answers for it: {meeting.joint.confirmed_by or 'nobody yet'}"


class Scarf(ByOthers):
    """Hooked and tabled scarfs: eccentric, half the section, shear on short tables. No value here."""

    name = "scarf"

    def checks(self, meeting: Meeting) -> list[Check]:
        return list(_answered(meeting, "joint_scarf"))


class BondedRods(ByOthers):
    """Rods glued into the wood: NDS has no value for them, and published models contradict each other."""

    name = "bonded rods"

    def checks(self, meeting: Meeting) -> list[Check]:
        return list(_answered(meeting, "joint_bonded_rods"))


def _answered(meeting: Meeting, key: str) -> Iterator[Check]:
    said, id, what = meeting.joint.confirmed_by.strip(), "joint.confirmed", "who answers for the joint"
    less = named_too_small(said, meeting.most)
    if vouched(said, "structure") and less is None:
        text = f"by others, confirmed: {said}; for {meeting.force_words}, not checked here"
        yield Check.keeps_rule(id, meeting.name, what, PATH, text)
        return
    if less is not None:
        why = f"{said!r} names {show(less, 'force')}, and more comes to it: {meeting.force_words}"
    elif said:
        why = f"{said!r}: {read_evidence(said).missing_for('structure')}"
    else:
        why = "nobody who may answer for it is named"
    text = f"{meeting.joint.kind}: no value here; {why}"
    yield meeting.refers(id, what, PATH, text, key, "confirmed_by")
