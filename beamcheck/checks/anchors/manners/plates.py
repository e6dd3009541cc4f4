"""Steel plates and angles: beside the wood, on both sides of it, in a slot of it, let into it."""

from __future__ import annotations

import numpy as np

from ....formulas.connections.yield_modes import gap as gaps
from ...core.result import Check
from ..couple import Couple, couple_of
from ..fasteners.connection import Connection
from ..group import Group
from ..joint import Joint, JointMaker
from ..unsaid import NotSaid, Open
from .base import Fastened
from .wood import lap_checks


class OneSide(Fastened):
    """A plate on one side: a load in the middle of the piece lies beside it and turns the joint out of its plane."""

    name = "plate one side"

    def joint(self, make: JointMaker) -> Joint:
        plate, dowel, b = make.plate, make.dowel, make.breadth
        let_in = plate.thickness if self.made.let_in else 0.0
        p = None
        if dowel.through:
            held = make.left(b, make.bore, let_in)
            room = b + plate.thickness - let_in + make.gap if make.bore else float("inf")
            make.through(held + plate.thickness + make.gap, held, room=room)
        else:
            bored_on_steel(make)
            held, p = make.point(plate.thickness, make.washer + make.gap, make.left(b, let_in))
        return make.joint(
            make.held(held), make.steel(), held=held, slot=let_in, bored=make.bore if dowel.through else 0.0,
            penetration=p,
        )  # fmt: skip

    def couple(self, group: Group) -> Couple | None:
        plate = group.anchor.plate
        if plate is None or group.x.size == 0:
            return None
        off = 0.5 * (float(group.section.b) + (-1.0 if self.made.let_in else 1.0) * plate.thickness)
        middle = 0.5 * (float(np.min(group.y)) + float(np.max(group.y)))
        low, high = middle - 0.5 * plate.width, middle + 0.5 * plate.width
        edges = (max(low, 0.0), min(high, float(group.section.d)))
        return couple_of(group, off + group.anchor.gap, edges)

    def counts_couple(self, group: Group) -> bool:
        return not group.kept_from_turning

    def beside(self, connection: Connection, couple: Couple | None) -> list[Check]:
        return lap_checks(connection, couple, counted=self.counts_couple(connection.group))


class LetIn(OneSide):
    """The leg of an angle, let into the wood."""

    name = "let-in angle"


class TwoSides(Fastened):
    """A plate on either side, bolted right through."""

    name = "plates both sides"

    def joint(self, make: JointMaker) -> Joint:
        plate, b = make.plate, make.breadth
        needs_through(make)
        bored_on_steel(make)
        beyond = plate.thickness + make.gap
        make.through(b + 2.0 * beyond, b, beyond)
        return make.joint(make.held(b), make.steel(), held=b, two_planes=True)


class Concealed(Fastened):
    """A plate in a slot, with bolts or tight pins right through."""

    name = "concealed plate"

    def joint(self, make: JointMaker) -> Joint:
        plate, dowel, b = make.plate, make.dowel, make.breadth
        needs_through(make)
        assert plate.slot is not None  # the rules of the model ask for it
        slot = plate.slot
        # the plate may lie against one cheek: then all of the gap is at the other
        gap = max(float(gaps.slot_gap(slot, plate.thickness)), make.gap)
        cheek = make.left(b, slot, 2.0 * make.bore) / 2.0
        if dowel.kind == "pin" and dowel.length is not None:
            cheek = min(cheek, make.left(dowel.length, slot) / 2.0)
        if make.bore or dowel.kind == "pin":
            make.through(slot + 2.0 * cheek, cheek, room=b)
        else:
            make.through(b, cheek)
        return make.joint(
            make.steel(), make.held(cheek), held=2.0 * cheek, two_planes=True, gap=gap, slot=slot,
            bored=2.0 * make.bore,
        )  # fmt: skip


def needs_through(make: JointMaker) -> None:
    """Two shear planes need bolts or pins. Raises NotSaid if they are something else."""
    if not make.dowel.through:
        text = f"two shear planes need bolts or pins right through, not a {make.dowel.kind}: an engineer's case"
        raise NotSaid(text, "joint_by_engineer")


def bored_on_steel(make: JointMaker) -> None:
    """A counterbore where heads bear on steel."""
    if make.bore:
        text = "a counterbore under a head that bears on steel: it takes no wood, see whether it is meant"
        make.doubts.append(Open(text, "bore_on_steel"))
