"""What holds a base when the post is lifted or pushed: the pull of its rods with prying, the level force beside it."""

from __future__ import annotations

import math
from collections.abc import Iterator
from typing import NamedTuple

import numpy as np

from .....calc.pad import Pad
from .....formulas.connections import bolt_pattern as pattern
from .....formulas.joints import prying
from .....model.beams import Beam
from .....model.existing import Existing
from .....model.fields.evidence import read_evidence
from .....model.joints.parts import Base
from .....model.made.rods import Rods
from .....units import show
from .....values.hardware.connections import lever_arm
from .....values.hardware.steels import steel
from ....anchors.group import round_force
from ....anchors.steel.back import GOES_INTO, PLATE, made_of
from ....anchors.steel.prying import PriedLeg, pried_checks
from ....core.asking.question import PlausibleAnswer, ask
from ....core.result import Check
from ....core.trivial import negligible
from ....core.wood.govern import Criterion, at, govern
from ....core.wood.grade_asked import ask_grade
from ....core.wood.material import is_unknown
from ....core.wood.strength import Outcome
from ...meeting import Meeting, wood_here

Array = np.ndarray
HAIR = 1e-6
PATH, WHAT = "load path", "what holds the base down"
EXAMPLE = "evaluation report ER-0000, 2025 edition, table 3"


def rod_checks(meeting: Meeting, base: Base, level: Array) -> Iterator[Check]:
    """What lifts the post or pushes its foot goes into its rods; what presses it down needs none."""
    lifts = np.maximum(meeting.members[0].N, 0.0)
    most, pushed = float(np.max(lifts, initial=0.0)), float(np.max(level, initial=0.0))
    if meeting.next_to_nothing(most) and meeting.next_to_nothing(pushed):
        return
    came = f"{show(most, 'force')} lift the post" if most > pushed else f"{show(pushed, 'force')} push its foot"
    rods, id = base.rods, "joint.base_rods"
    if rods is None:
        text = f"{came}; how its base is held is not said (`base.rods`)"
        answers = _rods(meeting.name, base, most, level)
        yield meeting.refers(id, WHAT, PATH, text, "joint_base_rods", "base.rods", answers=answers, came=came)
        return
    yield from _by_whom(meeting, rods, came)
    yield from _what_it_lies_on(meeting, rods)
    yield from _beside_it(meeting, base, rods)
    leg, row = _leg(base, rods, meeting), _Row(rods.count, rods.along, rods.off, rods.edge)
    pull = pull_of_one(base, row, meeting.members[0].N, level)
    yield from pried_checks(meeting.name, "plate over its rods", leg, pull, rods.takes,
                            meeting.combinations, note="one rod")  # fmt: skip
    if rods.on == "wood" and meeting.beside is not None and is_unknown(meeting.beside):
        text = f"the wood under the plate, {meeting.beside.name}, is not known: figures are of the weakest wood"
        yield Check.refers("joint.wood", meeting.name, "wood under the base", "NDS 2018 4.1", text,
                           ask=ask_grade(meeting.beside))  # fmt: skip
    if not meeting.next_to_nothing(pushed):
        yield _both(meeting, leg, rods, pull, level, came)


class _Row(NamedTuple):
    many: int
    along: float
    off: float
    edge: float


def stands_on_it(base: Base) -> tuple[float, float]:
    """What stands on the plate with rods, in: how long it is along their lines, how thick between them."""
    if base.stem == "bar":
        assert base.stem_width is not None
        assert base.stem_thickness is not None
        return base.stem_width, base.stem_thickness
    return (min(base.bears_wide, base.bears_long),) * 2


def pull_of_one(base: Base, row: _Row, N: Array, level: Array) -> Array:
    """(combinations,) pull of one rod, lbf: its share of what lifts, and of the moment of a level force on the base.

    Tipped over one edge the row beyond what stands there holds; over the other, the farthest on either side. The lever
    of the less counts, as of a steel plate on a hard wall.
    """
    across = 2.0 * row.off + stands_on_it(base)[1] + row.edge
    far = row.along - 0.5 * row.along / (row.many / 2.0)
    M = np.asarray(level) * base.stands_off
    eta = lever_arm(PLATE).value
    tipped = np.maximum(pattern.lever_arm_tension(M=M, eta=eta, h_1=across) / (row.many / 2.0),
                        pattern.lever_arm_tension(M=M, eta=eta, h_1=far) / 2.0)  # fmt: skip
    return np.asarray(np.maximum(np.asarray(N) / row.many + tipped, 0.0))


def _what_it_lies_on(meeting: Meeting, rods: Rods) -> Iterator[Check]:
    """What a report says of a rod is for one material, and that is the one that the post stands on."""
    under, at = meeting.under, f"joint.{meeting.name}.base.rods"
    if isinstance(under, Beam) and (rods.on != "wood" or rods.stock != under.stock):
        said, known = f"the post stands on the beam {under.name}", True
        answers = [PlausibleAnswer(under.name, ((f"{at}.on", "wood"), (f"{at}.stock", under.stock)))]
    elif isinstance(under, Existing) and under.material != rods.on:
        said, known = made_of(under), under.material in GOES_INTO
        answers = [PlausibleAnswer(under.material, ((f"{at}.on", under.material),))]
    else:
        return
    asked = meeting.asks("joint_base_rods_on", "base.rods.on", answers=answers, under=said)
    if not known:
        at = f"existing.{under.name}.material"
        asked = ask("far_material", under.name, at, of_group=meeting.name, answers=(rods.on,))
    text = f"its rods are said to go into {rods.stock or rods.on}, and {said}"
    yield Check.refers("joint.base_rods", meeting.name, "what its rods go into", PATH, text, ask=asked)


def _beside_it(meeting: Meeting, base: Base, rods: Rods) -> Iterator[Check]:
    """Rods stand beside what pulls at the plate: one beyond its end bends the plate another way."""
    spread, long = rods.along * (1.0 - 1.0 / (rods.count / 2.0)), stands_on_it(base)[0]
    if spread > long + HAIR:
        text = (
            f"outermost rods {show(spread, 'length')} apart beside {show(long, 'length')} of what stands on the plate: "
            f"draw them closer, along = {show(long * rods.along / spread, 'length')} at most"
        )
        yield Check.breaks_rule("joint.base_rods", meeting.name, "rods beside what pulls at them", PATH, text)


def _leg(base: Base, rods: Rods, meeting: Meeting) -> PriedLeg:
    below = meeting.beside if rods.on == "wood" else None
    wood = wood_here(below, below.name) if below is not None else None
    return PriedLeg(base.steel, rods.plate, rods.diameter, rods.hole, rods.edge, rods.off,
                    rods.along / (rods.count / 2.0), wood)  # fmt: skip


def _by_whom(meeting: Meeting, rods: Rods, came: str) -> Iterator[Check]:
    """The figure is that of a report, or of somebody who may answer for it."""
    said, what = rods.takes_by.strip(), "what a rod bears"
    read = read_evidence(said) if said else None
    if read is not None and (read.documented or read.answers_for("structure")):
        text = f"{show(rods.takes, 'force')} each by {said}: what it is set in, edge and spacing are those of it"
        yield Check.keeps_rule("joint.base_rods", meeting.name, what, PATH, text)
        return
    why = f"{said!r} names no document or engineer" if said else "who says so is not said"
    text = f"{show(rods.takes, 'force')} each: {why} (`base.rods.takes_by`)"
    yield meeting.refers("joint.base_rods", what, PATH, text, "joint_base_rods_by", "base.rods.takes_by", came=came)


def _both(meeting: Meeting, leg: PriedLeg, rods: Rods, pull: Array, level: Array, came: str) -> Check:
    """Pull with prying and level force on one rod: the shares added up, which no report goes below."""
    id, what = "joint.base_rods_both", "pull and level force on a rod"
    if rods.sideways is None:
        pushed = float(np.max(level))
        text = f"{show(pushed, 'force')} push the foot sideways; what a rod bears sideways is not said"
        return meeting.refers(id, what, PATH, text, "joint_base_rods_sideways", "base.rods.sideways",
                              answers=(round_force(4.0 * pushed / rods.count),),
                              came=came)  # fmt: skip
    sideways = rods.sideways

    def calculate(pad: Pad, which: int | slice) -> Outcome:
        T = pad.take("T", at(pull, which), "lbf", note="at one rod")
        V = pad.take("V", at(level / rods.count, which), "lbf", note="level, at one rod; friction is not counted")
        T_a = leg.allowed(pad, pad.take("B", rods.takes, "lbf", note="pull that one rod bears"))
        V_a = pad.take("V_a", sideways, "lbf", note=f"by {rods.takes_by}")
        used = pad.take("used", T / T_a + V / V_a, note="shares added up")
        return Outcome(used, 1.0, used)

    criterion = Criterion(meeting.name, what, f"{prying.MANUAL}; report", "ratio", id=id)
    return govern(criterion, meeting.combinations, calculate)


def _rods(name: str, base: Base, lifts: float, level: Array) -> list[PlausibleAnswer]:
    """Four rods (two beside a narrow stem) in a plate that does not pry, then two in one as thick as that above."""
    found = []
    narrow = stands_on_it(base)[0] < 1.5  # two on a side of 3 in stand that far apart
    for count, holds in ((2 if narrow else 4, 3.0), (2, 1.2)):
        V = float(np.max(level, initial=0.0)) / count
        along = max(stands_on_it(base)[0], 3.0)
        most = np.max(np.asarray(level), keepdims=True, initial=0.0)
        T = float(np.max(pull_of_one(base, _Row(count, along, 1.5, 1.25), np.array([lifts]), most)))
        p = min(along / (count / 2.0), 3.0)
        thick = float(prying.thickness_without_prying(T, 1.1875, p, steel(base.steel).value.F_u))
        t = max(math.ceil(8.0 * thick) / 8.0, 0.25) if holds > 2.0 else base.plate
        rods = {
            "count": count, "diameter": "5/8 in", "hole": "11/16 in", "plate": show(t, "length"),
            "along": show(along, "length"), "off": "1 1/2 in", "edge": "1 1/4 in",
            "takes": round_force(max(holds * T, V)), "takes_by": EXAMPLE,
        }  # fmt: skip
        if negligible() < V:
            rods["sideways"] = round_force(holds * V)
        says = f"{count} rods of 5/8 in that bear {rods['takes']} each by their report, plate {rods['plate']}"
        found.append(PlausibleAnswer(says, ((f"joint.{name}.base.rods", rods),)))
    return found
