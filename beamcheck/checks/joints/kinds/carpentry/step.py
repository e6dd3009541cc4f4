"""The step: rafters and struts that press into a notch of a tie or post, or stand on its shoulders. Friction counts
for nothing.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from typing import Literal

import numpy as np

from .....calc.core import Number, smallest
from .....calc.pad import Pad
from .....formulas.joints import steps
from .....formulas.wood import bearing as br
from .....formulas.wood import bending as bd
from .....formulas.wood.combined import bending_and_compression_short
from .....formulas.wood.compression import compression_stress
from .....formulas.wood.section import rectangle_area, rectangle_modulus
from .....model.joints.parts import Step
from .....model.sticks import Cut
from .....records import dataclass
from .....units import show
from .....values.judgment import judgment
from .....values.lumber import read_size
from .....values.species import folded
from ....core.result import Check
from ....core.trivial import negligible
from ....core.wood.govern import Criterion, at, duration, govern
from ....core.wood.group_cut import GroupCut
from ....core.wood.material import bearing_prime, bending_star, compression_star, shear_prime
from ....core.wood.strength import Bracing, Outcome, Section, bending_with_tension, notch_shear
from ...groups import pulls, report_checks
from ...meeting import Arriving, Meeting, angle_between, wood_checks
from ..base import Kind

Array = np.ndarray
PART = "statics of the joint; NDS 2018 3.10.3"
END = "NDS 2018 3.10.1.3"
HAIR = 1e-6
METAL = 0.75  # share of F_c* above which end grain that presses on end grain needs a metal sheet (3.10.1.3)
SHORT = Bracing(True, "a short stretch under the notch")


@dataclass(frozen=True, eq=False)
class Foot:
    """One landing piece in its notch; `beta` is the angle between the two pieces, deg."""

    meeting: Meeting
    step: Step
    notched: Arriving
    landing: Arriving
    beta: float

    @property
    def b(self) -> float:
        """Width of the narrower piece, in."""
        return min(self.notched.b, self.landing.b)

    @property
    def push(self) -> Array:
        """(combinations,) in the landing piece, lbf."""
        return np.asarray(np.maximum(-self.landing.N, 0.0))

    @property
    def along(self) -> Array:
        """(combinations,) of its force along the notched piece, with its part square to the landing piece where that
        is more, lbf."""
        own = self.push * math.cos(math.radians(self.beta))
        whole = np.abs(self.landing.force @ self.notched.direction)
        return np.asarray(np.where(self.push > 0.0, np.maximum(own, whole), 0.0))

    @property
    def upright(self) -> Array:
        """(combinations,) of its push square to the notched piece, lbf."""
        return np.asarray(self.push * math.sin(math.radians(self.beta)))

    @property
    def out(self) -> Array:
        """(combinations,) what draws it out of the notch: pull along it, and what lifts it off its seat, lbf."""
        pull, one = np.maximum(self.landing.N, 0.0), self.landing
        away = one.direction - (one.direction @ self.notched.direction) * self.notched.direction
        into = -np.sign(round(float(one.up @ away), 9))  # toward the notched piece, against `up`
        pressed = self.push * math.sin(math.radians(self.beta / 2.0)) + into * (one.force @ one.up)
        return np.asarray(np.maximum(pull, np.maximum(-pressed, 0.0)))

    @property
    def angles(self) -> tuple[float, float]:
        """Between the pressure on the front face and the grain, deg: in the notched piece, in the landing one."""
        if self.step.face == "bisector":
            return self.beta / 2.0, self.beta / 2.0
        return (self.beta, 0.0) if self.step.face == "square to the landing piece" else (0.0, self.beta)

    @property
    def contact(self) -> float:
        """Depth of the landing piece that bears, square to it, in."""
        return min(self.step.depth * self._deep, self.step.contact or self.landing.d, self.landing.d)

    @property
    def bites(self) -> float:
        """How much of the depth of the notch the landing piece meets, in."""
        return min(self.contact / self._deep, self.step.depth)

    @property
    def _deep(self) -> float:
        """Depth of the landing piece that meets an inch of the depth of the notch."""
        c = math.cos(math.radians(self.beta))
        deep = {"bisector": 1.0, "square to the landing piece": 1.0 / c, "square to the notched piece": c}
        return deep[self.step.face]

    @property
    def where(self) -> str:
        return f"{self.landing.name} in {self.notched.name}"

    def pressure(self, pad: Pad, which: int | slice) -> Number:
        """On the front face, psi."""
        N = pad.take("N", at(self.push, which), "lbf", note=f"push in {self.landing.name}")
        formula = steps.step_on_bisector if self.step.face == "bisector" else steps.step_square
        return pad(formula, N=N, beta_r=self.beta, b=self.b, t_n=self.bites)


class StepJoint(Kind):
    """One or two pieces in notches of another."""

    name = "step"

    def checks(self, meeting: Meeting) -> list[Check]:
        found: list[Check] = []
        for foot in feet_of(meeting):
            found += [
                *_wide(foot),
                *_depth(foot),
                *_bearing(foot),
                *_behind(foot),
                *_at_the_heel(foot),
                *_off_its_axis(foot),
            ]
            found += _out(foot)
        return [*found, *_looked_at(meeting), *wood_checks(meeting)]

    def cuts(self, meeting: Meeting, member: Arriving, place: float, ahead: bool) -> list[GroupCut | Cut]:
        step = meeting.joint.step
        if step is None or member.entry.part != "notched":
            return []
        deep = into_the_shank(feet_of(meeting))
        return [_notch(foot, member, place, deep) for foot in feet_of(meeting) if deep > HAIR]

    def to_see(self, meeting: Meeting) -> Iterator[str]:
        step = meeting.joint.step
        assert step is not None
        one = meeting.the("notched").name
        yield f"depth of the notch in {one}: {show(step.depth, 'length')}, the rule in the picture"
        yield f"wood behind the notch: {show(step.behind, 'length')} from its root, no knot and no check in it"
        yield "faces tight: a 1/32 in feeler does not go in over nine tenths of them; the slot under the toe free"
        if step.metal:
            yield "the metal sheet between the faces, before the pieces are closed"
        if meeting.joint.rating is not None:
            yield "the strap that holds it down, with every fastener that its report asks for"
        if meeting.on:
            yield f"the support under the crossing of the axes: middle of {meeting.on} under the middle of the foot"
        yield "moisture of the wood metered on the day, the meter in the picture"

    def assumptions(self, meeting: Meeting) -> Iterator[str]:
        yield "Friction counts for nothing; what pulls has to be taken by something beside the step, all of it."
        yield (
            "The limits of depth and length of a step are those of the German annex to Eurocode 5, read second-hand; "
            "the shear behind it counts one and a half times its mean (judgment)."
        )


def feet_of(meeting: Meeting) -> list[Foot]:
    """The landing pieces of a step, each with its angle."""
    step, notched = meeting.joint.step, meeting.the("notched")
    assert step is not None
    return [Foot(meeting, step, notched, one, angle_between(notched, one)) for one in meeting.all("landing")]


def _criterion(foot: Foot, id: str, what: str, clause: str, kind: str, *notes: str) -> Criterion:
    return Criterion(foot.meeting.name, what, clause, kind, foot.where, notes, id=id)


def _depth(foot: Foot) -> Iterator[Check]:
    """How deep a notch may be at that angle; a sixth of the piece where it is cut from both sides."""
    step, d = foot.step, foot.step.wide or foot.notched.d
    across = [one.direction - (one.direction @ foot.notched.direction) * foot.notched.direction
              for one in foot.meeting.all("landing")]  # fmt: skip
    both = len(across) == 2 and float(across[0] @ across[1]) < 0.0
    criterion = _criterion(foot, "joint.step_depth", f"depth of the notch in {foot.notched.name}", steps.LIMITS,
                           "length")  # fmt: skip

    def calculate(pad: Pad, which: int | slice) -> Outcome:
        deepest = pad(steps.deepest_step, d=d, beta_r=foot.beta)
        if both:
            deepest = smallest(deepest, pad.take("t_n", d / 6.0, "in", note="notched from both sides: a sixth"))
        t = pad.take("t_n", step.depth, "in", note="as cut")
        return Outcome(t, deepest, t / (deepest + HAIR))

    yield govern(criterion, foot.meeting.combinations[:1], calculate)


def _wide(foot: Foot) -> Iterator[Check]:
    """A head that is left wider than its piece is no wider than the stick that both are cut from."""
    step, meeting, d = foot.step, foot.meeting, foot.notched.d
    if step.wide is None:
        return
    id, what, clause = "joint.step_wide", f"{foot.notched.name} at the notch, {show(step.wide, 'length')}", "geometry"
    most = judgment("widest head without its stick").value
    if step.wide < d - HAIR:
        text = f"less than the {show(d, 'length')} that it has elsewhere: a head is wider, or leave `wide` out"
        yield Check.breaks_rule(id, meeting.name, what, clause, text)
    elif meeting.beside is not None:
        size, own = read_size(meeting.beside.size), foot.notched
        text = f"cut from {step.wide_from}, {show(float(size.b), 'length')} x {show(float(size.d), 'length')}"
        fits = step.wide <= float(size.d) + HAIR and own.b <= float(size.b) + HAIR
        if folded(meeting.beside.species) != folded(own.stock.species):
            text += f" of {meeting.beside.species}: {own.name} is {own.stock.species}, and both are one stick"
            fits = False
        elif own.b > float(size.b) + HAIR:
            text += f": {own.name} is {show(own.b, 'length')} thick"
        yield (Check.keeps_rule if fits else Check.breaks_rule)(id, meeting.name, what, clause, text)
    elif step.wide <= most * d + HAIR:
        yield Check.keeps_rule(id, meeting.name, what, clause, f"no more than {most:g} times its depth elsewhere")
    else:
        text = f"over {most:g} times the {show(d, 'length')} that it has elsewhere: from which stick is it cut?"
        yield meeting.refers(id, what, clause, text, "joint_wide", "step.wide_from", answers=(), where=foot.where)


def _bearing(foot: Foot) -> Iterator[Check]:
    """Pressure on the front face against what each piece takes at its angle; end grain on end grain wants metal."""
    combinations = foot.meeting.combinations
    for piece, theta in ((foot.notched, foot.angles[0]), (foot.landing, foot.angles[1])):

        def calculate(pad: Pad, which: int | slice, piece: Arriving = piece, theta: float = theta) -> Outcome:
            f = foot.pressure(pad, which)
            F_c_star = compression_star(pad, piece.wood, duration(pad, combinations, which))
            F_perp = bearing_prime(pad, piece.wood, 1.0)
            F = pad(br.bearing_at_angle, F_c_star=F_c_star, F_c_perp_prime=F_perp, theta=theta)
            return Outcome(f, F, f / F)

        what = f"pressure on the front face, in {piece.name}"
        yield govern(_criterion(foot, "joint.step_bearing", what, PART, "stress"), combinations, calculate)

    def ends(pad: Pad, which: int | slice) -> Outcome:
        f = foot.pressure(pad, which)
        C_D = duration(pad, combinations, which)
        stars = [compression_star(pad, one.wood, C_D) for one in (foot.notched, foot.landing)]
        allowed = pad.take("F", METAL * smallest(*stars), "psi", note="three quarters of F_c*")
        return Outcome(f, allowed, f / allowed)

    what = "end grain on end grain"
    check = govern(_criterion(foot, "joint.step_metal", what, END, "stress"), combinations, ends)
    if check.holds or check.demand is None:  # no figure: outside the limits of its formula
        yield check
    elif foot.step.metal:
        yield Check.keeps_rule("joint.step_metal", foot.meeting.name, what, END, "a metal sheet lies between",
                               where=foot.where)  # fmt: skip
    else:
        text = f"{show(check.demand, 'stress')} is over three quarters of F_c*: a metal sheet between the faces"
        yield foot.meeting.refers("joint.step_metal", what, END, text, "joint_metal", "step.metal", where=foot.where)


def _behind(foot: Foot) -> Iterator[Check]:
    """Shear along the grain in the wood behind the notch."""
    step, meeting = foot.step, foot.meeting
    least, k_v = judgment("least length behind a step"), judgment("largest over mean shear behind a step")
    what = f"wood behind the notch in {foot.notched.name}"
    if step.behind < least.value - HAIR:
        short = f"less than {show(least.value, 'length')} splits off"
        text = f"{show(step.behind, 'length')} of wood behind the notch: {short}"
        yield Check.breaks_rule("joint.step_length", meeting.name, what, steps.LIMITS, text, where=foot.where)
        return

    def calculate(pad: Pad, which: int | slice) -> Outcome:
        T = pad.take("T", at(foot.along, which), "lbf", note=f"along {foot.notched.name}")
        l_ef = pad(steps.step_shear_length, l_v=step.behind, t_n=step.depth)
        k = pad.take("k_v", k_v.value, source=k_v.source, note="largest over mean shear")
        f_v = pad(steps.step_shear, T=T, b=foot.b, l_v_ef=l_ef, k_v=k)
        F_v_prime = shear_prime(pad, foot.notched.wood, duration(pad, meeting.combinations, which))
        return Outcome(f_v, F_v_prime, f_v / F_v_prime)

    yield govern(_criterion(foot, "joint.step_shear", f"shear in the {what}", steps.LIMITS, "stress"),
                 meeting.combinations, calculate)  # fmt: skip


def _at_the_heel(foot: Foot) -> Iterator[Check]:
    """Where the notched piece ends over a support: pull with bending under the notch, and shear where the support
    does not stand under the foot."""
    meeting, step, tie = foot.meeting, foot.step, foot.notched
    deep = into_the_shank(feet_of(meeting))
    what = f"{tie.name} under the notch, pull and bending"
    if tie.passes and meeting.joint.frame is None:
        text = f"{tie.name} goes on: stated is what changes in it there, and not all that goes through what is left"
        yield meeting.refers("joint.step_net", what, "NDS 2018 3.9.1", text, "joint_step_passes", member=tie.name)
    if tie.passes or deep <= HAIR:
        return
    x_R = step.reaction_off
    if x_R is None and meeting.on and float(np.max(np.abs(meeting.reaction), initial=0.0)) > negligible():
        text = "how far the support stands from the middle of the foot is not said: it bends the wood under the notch"
        yield meeting.refers("joint.step_net", what, "NDS 2018 3.9.1", text, "joint_reaction_off", "step.reaction_off")
        return
    off = x_R or 0.0
    if off > step.behind + HAIR:
        text = (
            f"the support stands {show(off, 'length')} outward, beyond the {show(step.behind, 'length')} of wood there"
        )
        yield Check.breaks_rule("joint.step_net", meeting.name, what, "geometry", text)
        return
    left = Section(tie.b, tie.d - deep, tie.b)
    combinations = meeting.combinations

    def calculate(pad: Pad, which: int | slice) -> Outcome:
        T = pad.take("T", at(foot.along, which), "lbf", note=f"pull in {tie.name}")
        V = pad.take("V", at(foot.upright, which), "lbf", note="upright part of the push")
        signed = pad(steps.moment_under_step, T=T, d=tie.d, V=V, x_R=off)
        M = pad.take("M", np.abs(signed), "lbf*in", note="its size")
        C_D = duration(pad, combinations, which)
        first, second = bending_with_tension(pad, tie.wood, left, SHORT, M=M, T=T, C_D=C_D)
        ratio = np.maximum(first.ratio, second.ratio)
        return Outcome(ratio, 1.0, ratio)

    yield govern(_criterion(foot, "joint.step_net", what, "NDS 2018 3.9.1", "ratio"), combinations, calculate)
    if abs(off) <= HAIR:
        return
    outward = off > 0.0

    def sheared(pad: Pad, which: int | slice) -> Outcome:
        V = pad.take("V", at(foot.upright, which), "lbf", note="goes through the wood under the notch to the support")
        return notch_shear(pad, tie.wood, Section(tie.b, tie.d, tie.b), V=V, C_D=duration(pad, combinations, which),
                           depth=deep, pressed_past=off if outward else None)  # fmt: skip

    side = "outward of the foot" if outward else "inward of the foot, which puts the notch on the side in tension"
    criterion = _criterion(foot, "joint.step_notch", f"shear of {tie.name} at the notch", "NDS 2018 3.4.3.2", "force",
                           f"the support stands {show(abs(off), 'length')} {side}")  # fmt: skip
    yield govern(criterion, combinations, sheared)


def _off_its_axis(foot: Foot) -> Iterator[Check]:
    """The landing piece at its foot, where the push comes in beside its axis."""
    one, combinations = foot.landing, foot.meeting.combinations
    if foot.contact >= one.d - HAIR:
        return

    def calculate(pad: Pad, which: int | slice) -> Outcome:
        N = pad.take("N", at(foot.push, which), "lbf", note=f"push in {one.name}")
        e = pad(steps.step_offset, d=one.d, d_c=foot.contact)
        M = pad.take("M", N * e, "lbf*in", note="push times that")
        C_D = duration(pad, combinations, which)
        f_c = pad(compression_stress, P=N, A=pad(rectangle_area, b=one.b, d=one.d))
        f_b = pad(bd.bending_stress, M=M, S=pad(rectangle_modulus, symbol="S", b=one.b, d=one.d))
        F_c_star, F_b_star = compression_star(pad, one.wood, C_D), bending_star(pad, one.wood, C_D)
        used = pad(bending_and_compression_short, f_c=f_c, F_c_star=F_c_star, f_b=f_b, F_b_star=F_b_star)
        return Outcome(used, 1.0, used)

    what = f"foot of {one.name}: push beside its axis"
    criterion = _criterion(foot, "joint.step_foot", what, "NDS 2018 3.9.2", "ratio")
    yield govern(criterion, combinations, calculate)


def _out(foot: Foot) -> list[Check]:
    """What draws the piece out of its notch has to be held by something beside it."""
    meeting, most = foot.meeting, float(np.max(foot.out, initial=0.0))
    id, what, clause = "joint.step_pull", f"{foot.landing.name} drawn out of its notch", "statics of the joint"
    if most <= negligible():
        return [Check.keeps_rule(id, meeting.name, what, clause, "it presses into the notch in every combination",
                                 where=foot.where)]  # fmt: skip
    if meeting.next_to_nothing(most):
        return [Check.keeps_rule(id, meeting.name, what, clause, f"{show(most, 'force')}: next to nothing beside its "
                                 "other forces", where=foot.where)]  # fmt: skip
    if meeting.joint.rating is not None:
        return report_checks(meeting, foot.landing, pulls(meeting, foot.out))
    text = f"{show(most, 'force')} draw it out, and a step holds no pull: a strap or bolts for all of it"
    return [meeting.refers(id, what, clause, text, "joint_step_pull", where=foot.where)]


def _looked_at(meeting: Meeting) -> Iterator[Check]:
    """Checks in the wood behind a notch leave nothing of it."""
    step = meeting.joint.step
    assert step is not None
    id, what, clause = "joint.step_checks", "checks in the wood behind the notch", steps.LIMITS
    if step.checked == "no checks there":
        yield Check.keeps_rule(id, meeting.name, what, clause, "none seen there")
    elif step.checked == "not looked at":
        text = "nobody has said whether checks reach the wood behind the notch: one along it leaves nothing"
        yield meeting.refers(id, what, clause, text, "joint_step_checked", "step.checked")
    else:
        text = "a check runs in the wood behind the notch: it may leave nothing of it"
        yield meeting.refers(id, what, clause, text, "joint_step_split")


def into_the_shank(feet: list[Foot]) -> float:
    """How deep the notch goes into the piece as it is elsewhere, in: less where it is left wider at the notch."""
    foot = feet[0]
    if foot.step.wide is None:
        return foot.step.depth
    return max(foot.step.depth - (foot.step.wide - foot.notched.d) / len(feet), 0.0)


def _notch(foot: Foot, member: Arriving, place: float, deep: float) -> Cut:
    """The notch as a cut of the member: from the side on which the landing piece lies."""
    top = float(foot.landing.direction @ member.up) > 0.0
    long = foot.landing.d / max(math.sin(math.radians(foot.beta)), 0.2)
    face: Literal["top", "bottom"] = "top" if top else "bottom"
    return Cut.model_construct(kind="notch", at=max(place, 0.0), length=long, depth=deep, face=face)
