"""The plate that a plate in a beam is welded to: its rods sheared, pulled by the moment and by prying.

Where between both groups of fasteners the steel has no moment is not known: each is looked at with all of it.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

import numpy as np

from ....calc.pad import Pad
from ....formulas.connections import bolt_pattern as pattern
from ....formulas.joints import prying
from ....model.existing import Existing
from ....model.fields.evidence import read_evidence
from ....model.made.rods import Back
from ....units import show
from ....values.hardware.connections import lever_arm
from ....values.judgment import judgment
from ...core.asking.question import ask
from ...core.result import Check
from ...core.trivial import negligible
from ...core.wood.govern import Criterion, at, govern
from ...core.wood.strength import Outcome
from ..fasteners.connection import Connection
from ..fasteners.lateral import lateral_checks
from ..fasteners.spread import spread_of
from ..group import Forces, Group, round_force
from ..unsaid import Open
from .prying import PriedLeg, pried_checks

Array = np.ndarray
WHAT, PATH = "rods of the plate behind", "load path"
GOES_INTO = ("concrete", "masonry", "steel")
PLATE = "stiff block or steel plate on a hard wall"


def back_of(group: Group) -> Back | None:
    """The plate on the far side, where it is fixed to something that is there already."""
    return group.anchor.back if isinstance(group.into, Existing) else None


def made_of(existing: Existing) -> str:
    """What is said of its material, as a sentence."""
    if existing.material == "other":
        return f"what {existing.name} is made of is not said"
    return f"{existing.name} is said to be of {existing.material}"


def distance(group: Group, back: Back) -> float:
    """From the middle of the fasteners in the held piece to the face of the plate, in."""
    return float(np.mean(group.x)) + back.clear


def back_checks(group: Group) -> Iterator[Check]:
    """Everything of the plate behind; its weld is that of the plate in the held piece."""
    back, plate, into = back_of(group), group.anchor.plate, group.into
    if back is None or plate is None or not isinstance(into, Existing) or not group.x.size:
        return
    yield _by_whom(group, back)
    if into.material != back.on:
        text = f"its rods are said to go into {back.on}, and {made_of(into)}"
        if into.material in GOES_INTO:
            asked = ask(
                "back_rods_on", group.name, f"anchor.{group.name}.back.on", answers=(into.material,), wall=into.name
            )
        else:
            asked = ask(
                "far_material", into.name, f"existing.{into.name}.material", of_group=group.name, answers=(back.on,)
            )
        yield Check.refers("anchor.far_side", group.name, WHAT, PATH, text, ask=asked)
    V, N = np.asarray(group.forces.across, float), np.maximum(np.asarray(group.forces.along, float), 0.0)
    if float(np.max(-V)) > negligible():
        text = f"{show(float(np.max(-V)), 'force')} lift: the plate behind is worked out for what comes down"
        yield group.refers("anchor.back_lifted", WHAT, PATH, Open(text, "steel_beyond"))
    M = np.abs(V) * distance(group, back)
    if group.forces.turning is not None:
        M = M + np.abs(group.forces.turning)
    stiff = judgment("plate that stands out, stiff as far as its thickness times").value * back.plate
    below = max(0.5 * (back.along - plate.width) - stiff, 0.0)  # what stands out farther bends
    top = pattern.lever_arm_tension(M=M, eta=lever_arm(PLATE).value, h_1=back.high - below)
    T = (np.asarray(top, float) + N) / back.in_top_row
    apart = back.along / (back.count // 2)
    leg = PriedLeg(plate.steel, back.plate, back.diameter, back.hole, back.edge, back.off, apart)
    yield from pried_checks(group.name, "plate behind", leg, T, back.takes, group.forces.combinations, note="one rod")
    yield _both(group, back, leg, T, np.abs(V) / back.count)


def _by_whom(group: Group, back: Back) -> Check:
    said = back.takes_by.strip()
    read = read_evidence(said) if said else None
    if read is not None and (read.documented or read.answers_for("structure")):
        text = f"{show(back.takes, 'force')} each by {said}: depth, edge and spacing are those of it"
        return Check.keeps_rule("anchor.back_rods", group.name, WHAT, PATH, text)
    why = f"{said!r} names no document or engineer" if said else "who says so is not said"
    text = f"{show(back.takes, 'force')} each: {why} (`back.takes_by`)"
    return group.refers("anchor.back_rods", WHAT, PATH, Open(text, "back_rods_by", "back.takes_by"))


def _both(group: Group, back: Back, leg: PriedLeg, T_all: Array, V_all: Array) -> Check:
    """Shares of pull and shear on one rod added up, which no report goes below."""
    id, what, most = "anchor.back_both", "pull and shear on a rod of the plate behind", float(np.max(V_all))
    if back.sideways is None:
        text = f"{show(most, 'force')} shear each rod; what one bears so is not said (`back.sideways`)"
        answers = (round_force(4.0 * most),)
        return group.refers(id, what, PATH, Open(text, "back_rods_sideways", "back.sideways", answers))
    allowed_V = back.sideways

    def calculate(pad: Pad, which: int | slice) -> Outcome:
        T = pad.take("T", at(T_all, which), "lbf", note="on one of the highest")
        V = pad.take("V", at(V_all, which), "lbf", note="on one")
        T_a = leg.allowed(pad, pad.take("B", back.takes, "lbf", note="pull that one rod bears"))
        V_a = pad.take("V_a", allowed_V, "lbf", note=f"by {back.takes_by}")
        used = pad.take("used", T / T_a + V / V_a, note="shares added up")
        return Outcome(used, 1.0, used)

    criterion = Criterion(group.name, what, f"{prying.MANUAL}; report", "ratio", id=id)
    return govern(criterion, group.forces.combinations, calculate)


def held_behind_checks(connection: Connection) -> Iterator[Check]:
    """The fasteners in the held piece with all of the moment, if the plate turns behind; one of them alone turns."""
    group = connection.group
    back = back_of(group)
    if back is None or group.x.size < 2:
        return
    force = group.forces
    M = np.abs(np.asarray(force.across, float)) * distance(group, back)
    own = np.zeros_like(M) if force.turning is None else np.asarray(force.turning, float)
    turned = Forces(
        (*force.combinations, *force.combinations), np.tile(force.across, 2), np.tile(force.along, 2),
        np.concatenate([own + M, own - M]),
    )  # fmt: skip
    bare = replace(group, forces=turned, line=None, anchor=group.anchor.model_copy(update={"arm": 0.0}))
    for check in lateral_checks(Connection(bare, connection.joint, spread_of(bare))):
        if check.id == "anchor.lateral":
            yield replace(check, what=f"{check.what}, if the plate turns behind")
