"""The couple of what is plated to a member: where steel holds no moment at one group, the others and their wood do."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

import numpy as np

from ....calc.core import smallest
from ....calc.pad import Pad
from ....formulas.wood.bending import bending_stress
from ....formulas.wood.combined import bending_and_axial_added
from ....formulas.wood.section import rectangle_modulus
from ...anchors.fasteners.lateral import lateral_checks
from ...anchors.group import Forces
from ...core.result import Check
from ...core.wood.govern import Criterion, at, duration, govern
from ...core.wood.material import bending_star, compression_star, tension_prime
from ...core.wood.strength import Outcome
from ..groups import group_of
from ..meeting import Arriving, Meeting
from .fastened import OfJoint


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
