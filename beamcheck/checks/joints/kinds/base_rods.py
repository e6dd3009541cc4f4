"""What holds a base down when the post is lifted: the pull of its rods with prying, the level force beside it."""

from __future__ import annotations

import math
from collections.abc import Iterator

import numpy as np

from ....calc.pad import Pad
from ....formulas.joints import prying
from ....model.fields.evidence import read_evidence
from ....model.joints.parts import Base
from ....model.made.rods import Rods
from ....units import show
from ....values.hardware.steels import steel
from ...anchors.group import round_force
from ...anchors.prying import PriedLeg, pried_checks
from ...core.asking.question import PlausibleAnswer
from ...core.result import Check
from ...core.wood.govern import Criterion, at, govern
from ...core.wood.grade_asked import ask_grade
from ...core.wood.material import is_unknown
from ...core.wood.strength import Outcome
from ..meeting import Meeting, wood_here

Array = np.ndarray
PATH, WHAT = "load path", "what holds the base down"
EXAMPLE = "evaluation report ER-0000, 2025 edition, table 3"


def rod_checks(meeting: Meeting, base: Base, level: Array) -> Iterator[Check]:
    """What lifts the post goes through the plate into its rods; what presses it down needs none."""
    lifts = np.maximum(meeting.members[0].N, 0.0)
    most = float(np.max(lifts, initial=0.0))
    if meeting.next_to_nothing(most):
        return
    rods, id = base.rods, "joint.base_rods"
    if rods is None:
        text = f"{show(most, 'force')} lift the post; how its base is held down is not said (`base.rods`)"
        answers = _rods(meeting.name, base, most)
        yield meeting.refers(id, WHAT, PATH, text, "joint_base_rods", "base.rods", answers=answers,
                             lifts=show(most, "force"))  # fmt: skip
        return
    yield from _by_whom(meeting, rods, most)
    leg = _leg(base, rods, meeting)
    yield from pried_checks(meeting.name, "plate over its rods", leg, lifts / rods.count, rods.takes,
                            meeting.combinations, note="one rod")  # fmt: skip
    if rods.on == "wood" and meeting.beside is not None and is_unknown(meeting.beside):
        text = f"the wood under the plate, {meeting.beside.name}, is not known: figures are of the weakest wood"
        yield Check.refers("joint.wood", meeting.name, "wood under the base", "NDS 2018 4.1", text,
                           ask=ask_grade(meeting.beside))  # fmt: skip
    pushed = float(np.max(np.where(lifts > 0.0, level, 0.0), initial=0.0))
    if not meeting.next_to_nothing(pushed):
        yield _both(meeting, leg, rods, lifts, level, pushed)


def _leg(base: Base, rods: Rods, meeting: Meeting) -> PriedLeg:
    wood = wood_here(meeting.beside) if rods.on == "wood" and meeting.beside is not None else None
    return PriedLeg(base.steel, rods.plate, rods.diameter, rods.hole, rods.edge, rods.off,
                    rods.along / (rods.count // 2), wood)  # fmt: skip


def _by_whom(meeting: Meeting, rods: Rods, most: float) -> Iterator[Check]:
    """The figure is that of a report, or of somebody who may answer for it."""
    said, what = rods.takes_by.strip(), "what a rod bears"
    read = read_evidence(said) if said else None
    if read is not None and (read.documented or read.answers_for("structure")):
        text = f"{show(rods.takes, 'force')} each by {said}: what it is set in, edge and spacing are those of it"
        yield Check.keeps_rule("joint.base_rods", meeting.name, what, PATH, text)
        return
    why = f"{said!r} names no document or engineer" if said else "who says so is not said"
    text = f"{show(rods.takes, 'force')} each: {why} (`base.rods.takes_by`)"
    yield meeting.refers("joint.base_rods", what, PATH, text, "joint_base_rods_by", "base.rods.takes_by",
                         lifts=show(most, "force"))  # fmt: skip


def _both(meeting: Meeting, leg: PriedLeg, rods: Rods, lifts: Array, level: Array, pushed: float) -> Check:
    """Pull with prying and level force on one rod: the shares added up, which no report goes below."""
    id, what = "joint.base_rods_both", "pull and level force on a rod"
    if rods.sideways is None:
        text = f"{show(pushed, 'force')} push the foot while it is lifted; what a rod bears sideways is not said"
        return meeting.refers(id, what, PATH, text, "joint_base_rods_sideways", "base.rods.sideways",
                              answers=(round_force(4.0 * pushed / rods.count),),
                              lifts=show(float(np.max(lifts)), "force"), level=show(pushed, "force"))  # fmt: skip
    sideways = rods.sideways

    def calculate(pad: Pad, which: int | slice) -> Outcome:
        pulls = np.where(lifts > 0.0, 1.0, 0.0)  # pressed down, the plate and what it stands on take it
        T = pad.take("T", at(lifts / rods.count, which), "lbf", note="at one rod")
        V = pad.take("V", at(level * pulls / rods.count, which), "lbf", note="level, at one rod")
        T_a = leg.allowed(pad, pad.take("B", rods.takes, "lbf", note="pull that one rod bears"))
        V_a = pad.take("V_a", sideways, "lbf", note=f"by {rods.takes_by}")
        used = pad.take("used", T / T_a + V / V_a, note="shares added up")
        return Outcome(used, 1.0, used)

    criterion = Criterion(meeting.name, what, f"{prying.MANUAL}; report", "ratio", id=id)
    return govern(criterion, meeting.combinations, calculate)


def _rods(name: str, base: Base, lifts: float) -> list[PlausibleAnswer]:
    """Four rods in a plate thick enough not to pry, then two in a plate as thick as the one under the post."""
    found = []
    for count, holds in ((4, 3.0), (2, 1.2)):
        T, along = lifts / count, max(base.bears_long, 3.0)
        p = min(along / (count // 2), 3.0)
        thick = float(prying.thickness_without_prying(T, 1.1875, p, steel(base.steel).value.F_u))
        t = max(math.ceil(8.0 * thick) / 8.0, 0.25) if count == 4 else base.plate
        rods = {
            "count": count, "diameter": "5/8 in", "hole": "11/16 in", "plate": show(t, "length"),
            "along": show(along, "length"), "off": "1 1/2 in", "edge": "1 1/4 in", "takes": round_force(holds * T),
            "takes_by": EXAMPLE,
        }  # fmt: skip
        says = f"{count} rods of 5/8 in that bear {rods['takes']} each by their report, plate {rods['plate']}"
        found.append(PlausibleAnswer(says, ((f"joint.{name}.base.rods", rods),)))
    return found
