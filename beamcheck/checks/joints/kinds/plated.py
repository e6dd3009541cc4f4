"""Steel between the members: plates on both faces, a plate in slots, a strap. Each member has fasteners of its own."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

import numpy as np

from ....calc.core import smallest
from ....calc.pad import Pad
from ....formulas.wood.bending import bending_stress
from ....formulas.wood.combined import bending_and_axial_added
from ....formulas.wood.section import rectangle_modulus
from ....model.anchors.anchor import Plate
from ....units import show
from ....values.judgment import judgment
from ...anchors.couple import Couple
from ...anchors.fasteners.lateral import lateral_checks
from ...anchors.fasteners.spread import Spread
from ...anchors.group import Forces, Group, hole_places
from ...anchors.manners.base import Fastened
from ...anchors.manners.plates import Concealed, TwoSides
from ...core.result import Check
from ...core.wood.govern import Criterion, at, duration, govern
from ...core.wood.material import bending_star, compression_star, tension_prime
from ...core.wood.strength import Outcome, bearing
from ..groups import MemberGroup, group_of
from ..meeting import Arriving, Meeting, wood_checks
from .fastened import FastenedKind, OfJoint


class PlatesOfJoint(OfJoint, TwoSides):
    """Plates on both faces of a member of a joint."""


class KnifeOfJoint(OfJoint, Concealed):
    """A plate in a slot of a member of a joint."""


class StrapLegs(PlatesOfJoint):
    """The legs of a strap on both faces: they reach beyond the bolts as far as is said, wherever the wood ends."""

    def _steel(self, group: Group, spread: Spread, couple: Couple | None, clear: bool) -> list[Check]:
        plate = group.anchor.plate
        assert plate is not None
        beyond = 0.5 * (plate.length - float(np.ptp(group.x)))
        return super()._steel(replace(group, x=group.x - float(group.x.min()) + beyond), spread, couple, clear)


class Plated(FastenedKind):
    """Steel plates on both faces; each member is held by fasteners of its own."""

    name = "plates both sides"
    rules: OfJoint = PlatesOfJoint()

    def groups(self, meeting: Meeting) -> list[tuple[MemberGroup, Fastened]]:
        manner = self.rules.name
        return [(group_of(meeting, one, manner), self.rules) for one in meeting.members]  # type: ignore[arg-type]

    def checks(self, meeting: Meeting) -> list[Check]:
        known = meeting.members if meeting.bears is not False else ()
        couples = [check for one in known for check in couple_checks(meeting, one, self.rules)]
        return [*super().checks(meeting), *couples, *_arms(meeting)]

    def assumptions(self, meeting: Meeting) -> Iterator[str]:
        yield (
            "Where the steel between the groups is held against turning is not known: each group is checked for the "
            "whole moment of its own force about the crossing of the axes, and with its member for those of the others."
        )


class KnifePlate(Plated):
    """A steel plate in slots; each member is held by bolts or pins of its own."""

    name = "knife plate"
    rules = KnifeOfJoint()


def _arms(meeting: Meeting) -> Iterator[Check]:
    """How far a group stands from the crossing of the axes decides its moment, once anything comes across."""
    for one in meeting.members:
        if one.entry.arm is not None or one.entry.holes is None:
            continue
        across = float(np.max(np.abs(one.down), initial=0.0))
        if across <= judgment("forces of a joint out of balance").value * float(np.max(one.size, initial=0.0)):
            continue
        text = (
            f"{show(across, 'force')} come square to {one.name}; how far the middle of its fasteners stands from the "
            "crossing of the axes is not said (`arm`), so their moment is not known"
        )
        yield meeting.refers("joint.arm", f"arm of the fasteners in {one.name}", "NDS 2018 11.1.3", text, "joint_arm",
                             f"members.{one.number}.arm", where=one.name, member=one.name)  # fmt: skip


def hanging(meeting: Meeting) -> np.ndarray:
    """(combinations,) what hangs in a strap, lbf: all that the piece in it brings along the other; pressing is less
    than nothing."""
    post, tie = meeting.the("strapped"), meeting.the("hung")
    brought = tie.force if meeting.on else tie.force + meeting.reaction
    return np.asarray(-(brought @ post.direction))


class StrapJoint(FastenedKind):
    """A strap under one piece and up both faces of another, bolted through that."""

    name = "strap"
    rules = StrapLegs()

    def groups(self, meeting: Meeting) -> list[tuple[MemberGroup, Fastened]]:
        strap, post = meeting.joint.strap, meeting.the("strapped")
        assert strap is not None
        long = float(np.ptp(hole_places(post.entry.holes)[0])) + 2.0 * strap.beyond
        plate = Plate.model_construct(steel=strap.steel, thickness=strap.thickness, width=strap.width, length=long)
        nothing = np.zeros(len(meeting.combinations))
        # the strap pulls along the post; what it is pressed with the tie itself takes by bearing on the post's foot
        forces = Forces(meeting.combinations, nothing, np.maximum(hanging(meeting), 0.0))
        return [(group_of(meeting, post, "plates both sides", forces=forces, plate=plate), self.rules)]

    def checks(self, meeting: Meeting) -> list[Check]:
        return [*super().checks(meeting), *self._under(meeting), *self._pressed(meeting),
                *wood_checks(meeting)]  # fmt: skip

    @staticmethod
    def _under(meeting: Meeting) -> Iterator[Check]:
        """The strap presses into the piece that hangs in it, across its grain."""
        strap, tie = meeting.joint.strap, meeting.the("hung")
        assert strap is not None
        near_end = strap.from_end - 0.5 * strap.width < 3.0

        def calculate(pad: Pad, which: int | slice) -> Outcome:
            R = pad.take("R", at(np.maximum(hanging(meeting), 0.0), which), "lbf", note="hangs in the strap")
            return bearing(pad, tie.wood, R=R, b=tie.b, l_b=strap.width, near_end=near_end)

        criterion = Criterion(meeting.name, f"strap under {tie.name}", "NDS 2018 3.10.2", "stress", tie.name,
                              id="joint.strap_under")  # fmt: skip
        yield govern(criterion, meeting.combinations, calculate)

    @staticmethod
    def _pressed(meeting: Meeting) -> Iterator[Check]:
        """A strap pulls only: what presses goes from wood to wood."""
        post, tie = meeting.the("strapped"), meeting.the("hung")
        push = np.maximum(-hanging(meeting), 0.0)
        if float(np.max(push, initial=0.0)) <= 1.0:
            return

        def calculate(pad: Pad, which: int | slice) -> Outcome:
            R = pad.take("R", at(push, which), "lbf", note=f"{post.name} presses on {tie.name}")
            return bearing(pad, tie.wood, R=R, b=min(post.b, tie.b), l_b=post.d, near_end=True)

        criterion = Criterion(meeting.name, f"{post.name} on {tie.name}", "NDS 2018 3.10.2", "stress", tie.name,
                              id="joint.strap_pressed")  # fmt: skip
        yield govern(criterion, meeting.combinations, calculate)

    def to_see(self, meeting: Meeting) -> Iterator[str]:
        strap, tie = meeting.joint.strap, meeting.the("hung")
        assert strap is not None
        size = f"{show(strap.width, 'length')} x {show(strap.thickness, 'length')}"
        yield from super().to_see(meeting)
        yield f"the strap, {size}, flat under {tie.name} all over, drawn tight after the wood has dried"


def couple_checks(meeting: Meeting, one: Arriving, rules: OfJoint) -> Iterator[Check]:
    """What the others put into a member and its group, if the steel turns about their fasteners."""
    couple = couple_from_others(meeting, one)
    if one.entry.holes is None or meeting.next_to_nothing(float(np.max(couple, initial=0.0)) / one.d):
        return
    yield bent_by(meeting, one, couple, "what is plated to it")
    group = group_of(meeting, one, rules.name)  # type: ignore[arg-type]
    if group.x.size < 2:
        return  # one bolt turns and hands nothing on
    force = group.forces
    turned = Forces(
        (*force.combinations, *force.combinations), np.tile(force.across, 2), np.tile(force.along, 2),
        np.concatenate([couple, -couple]),
    )  # fmt: skip
    group = replace(group, forces=turned, anchor=group.anchor.model_copy(update={"arm": 0.0}))
    connection = rules.resolved(group)
    if isinstance(connection, Check):
        return  # said of the group already
    for check in lateral_checks(connection):
        if check.id == "anchor.lateral":
            where = f"{one.piece}, {check.where}"
            yield replace(check, what=f"{check.what}, with the couple of the others", where=where)


def couple_from_others(meeting: Meeting, one: Arriving) -> np.ndarray:
    """(combinations,) what comes square to the other members, each by its arm, lb-in."""
    found = np.zeros(len(meeting.combinations))
    for other in meeting.members:
        if other is not one and other.entry.arm:
            found = found + np.abs(other.across(meeting.through(other))) * abs(other.entry.arm)
    return np.asarray(found)


def bent_by(meeting: Meeting, one: Arriving, couple: np.ndarray, by: str) -> Check:
    """A couple bends the member at the joint, beside what is in it already; all of it on one side."""
    N, M_0 = one.in_it if one.in_it is not None else (np.abs(one.N), np.zeros_like(couple))
    combinations = meeting.combinations

    def calculate(pad: Pad, which: int | slice) -> Outcome:
        M = pad.take("M", at(couple + M_0, which), "lbf*in", note="couple of the others with what is in it there")
        f_ax = pad.take("f_ax", at(N, which) / (one.b * one.d), "psi", note="pull or push")
        f_b = pad(bending_stress, M=M, S=pad(rectangle_modulus, symbol="S", b=one.b, d=one.d))
        C_D = duration(pad, combinations, which)
        F_ax = smallest(tension_prime(pad, one.wood, C_D), compression_star(pad, one.wood, C_D))
        F_b_star = bending_star(pad, one.wood, C_D)
        used = pad(bending_and_axial_added, f_ax=f_ax, F_ax=F_ax, f_b=f_b, F_b_star=F_b_star)
        return Outcome(used, 1.0, used)

    what = f"{one.name} bent by the couple of {by}"
    criterion = Criterion(meeting.name, what, "NDS 2018 3.9, 11.1.3", "ratio", one.name, id="joint.couple")
    return govern(criterion, combinations, calculate)
