"""Wood on wood at an angle: laps, a piece between two others. Each member is the held piece once, at its own angle."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import replace

import numpy as np

from ....calc.pad import Pad
from ....formulas.joints.slip import moment_of_single_lap
from ....formulas.wood import combined as cb
from ....formulas.wood.bending import bending_stress
from ....formulas.wood.section import rectangle_modulus
from ....model.fields.evidence import vouched
from ....records import dataclass
from ....units import show
from ....values.judgment import judgment
from ...anchors.joint import Joint, JointMaker, Part
from ...anchors.manners.base import Fastened
from ...core.result import Check
from ...core.trivial import negligible
from ...core.wood.govern import Criterion, at, duration, govern
from ...core.wood.material import bending_star, compression_star, tension_prime
from ...core.wood.strength import Outcome, Section
from ..groups import MemberGroup, group_of, places_in
from ..meeting import Arriving, Meeting
from .fastened import FastenedKind, OfJoint

TURNS = "statics of a single lap"


@dataclass(frozen=True)
class AtAnAngle(OfJoint):
    """One member of a bolted joint against the other, which lies at an angle `turn` to it; `held` says which it is.

    `held`: 'between' or 'outside' of a joint with two planes; 'head' or 'point' of a lap.
    """

    held: str
    turn: float
    thick: float  # of the other member, in (of one of two outside)

    name = "wood side"

    def joint(self, make: JointMaker) -> Joint:
        dowel, b = make.dowel, make.breadth
        if self.held in ("between", "outside"):
            middle, whole = (b, self.thick) if self.held == "between" else (self.thick, 0.5 * b)
            side = make.left(whole, make.bore)
            room = middle + 2.0 * (whole + make.gap) if make.bore else float("inf")
            make.through(middle + 2.0 * (side + make.gap), side, room=room)
            if self.held == "between":
                return make.joint(make.held(middle), self._other(make, side), held=middle, two_planes=True)
            return make.joint(self._other(make, middle), make.held(side), held=2.0 * side, two_planes=True)
        head = self.held == "head"
        first, second = (b, self.thick) if head else (self.thick, b)
        first, p = make.left(first, make.bore), None
        if dowel.through:
            second = make.left(second, make.bore if dowel.kind == "bolt" else 0.0)
            room = b + self.thick + make.gap if make.bore else float("inf")
            make.through(first + make.gap + second, min(first, second), room=room)
        else:
            second, p = make.point(first, make.washer + make.gap, second)
        if head:
            return make.joint(self._other(make, second), make.held(first), held=first, bored=make.bore, penetration=p)
        return make.joint(make.held(second), self._other(make, first), held=second, penetration=p)

    def _other(self, make: JointMaker, length: float) -> Part:
        return replace(make.far(length, "turned"), turn=self.turn)


def _turn(held: Arriving, other: Arriving) -> float:
    """Direction of the other member as the held one sees it: from inwards along it toward its upper edge, deg."""
    return math.degrees(math.atan2(float(other.direction @ held.up), float(other.direction @ held.direction)))


class BoltedBetween(FastenedKind):
    """A piece between two others, bolted right through."""

    name = "bolted between"

    def groups(self, meeting: Meeting) -> list[tuple[MemberGroup, Fastened]]:
        between, outside = meeting.the("between"), meeting.the("outside")
        found: list[tuple[MemberGroup, Fastened]] = []
        for held, other, word in ((between, outside, "between"), (outside, between, "outside")):
            group = group_of(meeting, held, "wood both sides", other=other, places=places_in(meeting, held))
            thick = 0.5 * other.b if other is outside else other.b
            found.append((group, AtAnAngle(word, _turn(held, other), thick)))
        return found

    def assumptions(self, meeting: Meeting) -> Iterator[str]:
        yield "The two outer sticks share the force alike; of a frame their stock is that of one of two."


class BoltedLap(FastenedKind):
    """Two pieces side by side: one shear plane, and a couple that turns them out of their plane."""

    name = "bolted lap"

    def groups(self, meeting: Meeting) -> list[tuple[MemberGroup, Fastened]]:
        head, point = meeting.members
        found: list[tuple[MemberGroup, Fastened]] = []
        for held, other, word in ((head, point, "head"), (point, head, "point")):
            group = group_of(meeting, held, "wood side", other=other, places=places_in(meeting, held))
            found.append((group, AtAnAngle(word, _turn(held, other), other.b)))
        return found

    def checks(self, meeting: Meeting) -> list[Check]:
        return [*super().checks(meeting), *_turned_over(meeting)]


def _turned_over(meeting: Meeting) -> Iterator[Check]:
    """A lap holds its force beside both axes: that bends both pieces the weak way, unless something holds them."""
    one, other = meeting.members
    id, what = "joint.lap", "single lap: turned out of its plane"
    most, limit = float(np.max(one.size, initial=0.0)), judgment("most push in a single lap")
    if vouched(meeting.joint.twist_held_by):
        yield Check.keeps_rule(id, meeting.name, what, TURNS, f"held: {meeting.joint.twist_held_by}")
        return
    if most > limit.value:
        text = f"{show(most, 'force')} in one lap, more than {show(limit.value, 'force')}: what keeps it from turning?"
        yield meeting.refers(id, what, TURNS, text, "joint_twist", "twist_held_by")
        return
    if most <= negligible():
        return
    for member in (one, other):

        def calculate(pad: Pad, which: int | slice, member: Arriving = member) -> Outcome:
            P = pad.take("N", at(member.size, which), "lbf", note="through the lap")
            M = pad(moment_of_single_lap, N=P, l_m=one.b, l_s=other.b)
            S = pad(rectangle_modulus, symbol="S_y", b=member.d, d=member.b)
            f_b = pad(bending_stress, M=M, S=S, note="the weak way, all of it on this piece")
            C_D = duration(pad, meeting.combinations, which)
            F_b, F_c = bending_star(pad, member.wood, C_D), compression_star(pad, member.wood, C_D)
            f_t = pad(cb.tension_stress, T=P, A_n=Section(member.b, member.d, member.b).area(pad))
            F_t = tension_prime(pad, member.wood, C_D)
            used = f_b / F_b + f_t / np.minimum(F_t, F_c)
            return Outcome(pad.take("used", used), 1.0, used)

        criterion = Criterion(meeting.name, f"{what}, {member.name}", TURNS, "ratio", member.name, id=id)
        yield govern(criterion, meeting.combinations, calculate)
