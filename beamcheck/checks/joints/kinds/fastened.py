"""Joints that bolts, pins or screws hold: of each member its own fasteners, against what they hold and cut there."""

from __future__ import annotations

from abc import abstractmethod
from collections.abc import Iterator
from dataclasses import replace
from typing import Any

import numpy as np

from ....calc.core import distinct, smallest
from ....calc.pad import Pad
from ....formulas.wood.bending import bending_stress
from ....formulas.wood.combined import bending_and_axial_added
from ....formulas.wood.section import rectangle_modulus
from ....model.sticks import Cut
from ....units import show
from ....values.judgment import judgment
from ...anchors.cuts import hole_of
from ...anchors.fasteners.connection import Connection
from ...anchors.fasteners.lateral import lateral_checks
from ...anchors.fasteners.layout import layout_checks
from ...anchors.fasteners.moving import moving_checks
from ...anchors.fasteners.tear_out import tear_out_checks
from ...anchors.group import Group, nearest_apart
from ...anchors.hardware import hardware_table
from ...anchors.manners.base import Fastened, evidence_checks
from ...anchors.outputs import hole_drawing, hole_table
from ...core.pictures.others import HoleDrawing
from ...core.result import Check, Table
from ...core.trivial import negligible
from ...core.wood.govern import Criterion, at, duration, govern
from ...core.wood.group_cut import GroupCut, Void
from ...core.wood.material import bending_star, compression_star, tension_prime
from ...core.wood.strength import Outcome
from ..groups import MemberGroup
from ..hardware import in_one_list, seen_in
from ..meeting import Arriving, Meeting, wood_checks
from .base import Kind, into_which


class OfJoint(Fastened):
    """What fasteners of a joint do not ask: what is behind them is the joint itself."""

    @staticmethod
    def _known(group: Group) -> list[Check]:
        return evidence_checks(group)

    def stages(self, connection: Connection) -> Iterator[list[Check]]:
        group, couple = connection.group, self.couple(connection.group)
        yield lateral_checks(connection)
        yield [*layout_checks(connection), *moving_checks(connection)]
        yield tear_out_checks(_less_wood(connection))
        yield self.beside(connection, couple)
        yield self._steel(group, connection.spread, couple, connection.joint.threads_clear)


def _less_wood(connection: Connection) -> Connection:
    """Where holes lie in no lines, each with as much wood toward the end as the one that has least."""
    group = connection.group
    crowded = getattr(group, "crowded", None)
    if crowded is None:
        return connection
    x = np.full_like(group.x, min(float(group.x.min()), crowded))
    return replace(connection, group=replace(group, x=x))


class FastenedKind(Kind):
    """A joint whose members each have a group of fasteners."""

    @abstractmethod
    def groups(self, meeting: Meeting) -> list[tuple[MemberGroup, Fastened]]:
        """As of any kind; here every kind has some."""

    def checks(self, meeting: Meeting) -> list[Check]:
        if meeting.bears is False:
            return [into_which(meeting), *wood_checks(meeting)]
        found: list[Check] = []
        for group, manner in self.groups(meeting):
            found += [_of(check, group) for check in manner.checks(lined_up(group), _NONE)]
            found += off_its_axis(meeting, group)
        return once(found)

    def tables(self, meeting: Meeting) -> list[Table]:
        groups = [group for group, _ in self.groups(meeting)]
        found = [_named(hole_table(group), group) for group in groups]
        shared = groups[:1] if self._one_group(groups) else groups
        hardware = [(group, table) for group in shared if (table := hardware_table(group)) is not None]
        return [*(table for table in found if table is not None), *in_one_list(hardware, self.times(meeting))]

    def times(self, meeting: Meeting) -> int:
        """How often all of it is there."""
        return 1

    def _one_group(self, groups: list[MemberGroup]) -> bool:
        """Whether the same fasteners go through all members."""
        return bool(groups) and not groups[0].made.plates

    def drawing(self, meeting: Meeting) -> HoleDrawing | None:
        group = next((group for group, _ in self.groups(meeting)), None)
        drawn = hole_drawing(group) if group is not None else None
        if drawn is None or group is None:
            return None
        texts = tuple(text.replace(f"{group.end} end of ", "in ") for text in drawn.texts)
        return replace(drawn, texts=texts, at_joint=True)

    def to_see(self, meeting: Meeting) -> Iterator[str]:
        groups = [group for group, _ in self.groups(meeting)]
        first = groups[0].piece if self._one_group(groups) else ""
        seen = dict.fromkeys(f"{group.piece}: {one}" for group in groups for one in seen_in(group, first))
        yield from (one.replace(" from the left end ", " from its end at the joint ") for one in seen)
        if len(groups) > 1 and groups[0].made.plates:
            yield "each plate runs over all of them in one piece, without a joint in it"
        kind = "" if meeting.joint.fastener is None else meeting.joint.fastener.kind
        if kind == "bolt":
            yield "the nuts drawn once more after the wood has dried, before the cover goes on"
        elif kind != "pin":
            yield "after the wood has dried each screw turned until it just draws, before the cover goes on"

    def cuts(self, meeting: Meeting, member: Arriving, place: float, ahead: bool) -> list[GroupCut | Cut]:
        for group, _ in self.groups(meeting):
            if group.number == member.number and group.anchor.fastener is not None and group.x.size:
                return [cut_of(group, member, place, ahead)]
        return []


def off_its_axis(meeting: Meeting, group: MemberGroup) -> Iterator[Check]:
    """A member whose fasteners stand beside its axis is bent there by what goes along it."""
    d, b = float(group.section.d), float(group.section.b)
    e = abs(0.5 * d - float(np.mean(group.y))) if group.x.size else 0.0
    along = np.abs(np.asarray(group.forces.along, float))
    if e <= judgment("arm as said and as laid out").value or float(np.max(along, initial=0.0)) <= negligible():
        return
    wood, combinations = group.wood, group.forces.combinations

    def calculate(pad: Pad, which: int | slice) -> Outcome:
        N = pad.take("N", at(along, which), "lbf", note="along it")
        arm = pad.take("e", e, "in", note="from its axis to the middle of its fasteners")
        M = pad.take("M", N * arm, "lbf*in")
        C_D = duration(pad, combinations, which)
        f_ax = pad.take("f_ax", N / (b * d), "psi", note="pull or push")
        f_b = pad(bending_stress, M=M, S=pad(rectangle_modulus, symbol="S", b=b, d=d))
        F_ax = smallest(tension_prime(pad, wood, C_D), compression_star(pad, wood, C_D))
        F_b_star = bending_star(pad, wood, C_D)
        used = pad(bending_and_axial_added, f_ax=f_ax, F_ax=F_ax, f_b=f_b, F_b_star=F_b_star)
        return Outcome(used, 1.0, used)

    words = f"{group.piece} beside its axis: {show(e, 'length')}"
    yield govern(Criterion(meeting.name, words, "NDS 2018 3.9, 11.1.3", "ratio", group.piece, id="joint.off_axis"),
                 combinations, calculate)  # fmt: skip


_NONE: Any = None  # the fasteners of a joint look for nothing in the rest of the job


def lined_up(group: MemberGroup) -> MemberGroup:
    """The group itself where its holes lie in lines along the grain and across it.

    Holes that do not are taken as near to the end as the nearest of them is, and no farther than from each other:
    less wood than there is.
    """
    columns, rows = len(distinct(np.round(group.x, 4))), len(distinct(np.round(group.y, 4)))
    return group if columns * rows == group.x.size else replace(group, crowded=nearest_apart(group.x, group.y))


def _of(check: Check, group: MemberGroup) -> Check:
    """The check with the member that it is about."""
    where = f"{group.piece}, {check.where}" if check.where else group.piece
    return replace(check, where=where)


def once(checks: list[Check]) -> list[Check]:
    """Each check once: what two members share is said of the first."""
    found: dict[tuple[Any, ...], Check] = {}
    for check in checks:
        same = (check.id, check.what, check.verdict, check.notes, tuple(one.id for one in check.questions))
        key = same if check.ratio is None else (*same, check.where)
        found.setdefault(key, check)
    return list(found.values())


def _named(table: Table | None, group: MemberGroup) -> Table | None:
    note = "Rows count from the bottom, columns from the joint; to the middle of each hole."
    return None if table is None else replace(table, title=f"Holes in {group.piece}, from the joint", note=note)


def cut_of(group: MemberGroup, member: Arriving, place: float, ahead: bool) -> GroupCut:
    """What holes and slot take out of the member, as one cut along it."""
    fastener, plate = group.anchor.fastener, group.anchor.plate
    assert fastener is not None
    d_h = hole_of(fastener)
    slot = reach = 0.0
    if plate is not None and plate.slot is not None and group.made.in_a_slot:
        slot, reach = plate.slot, plate.slot_length or plate.length
    rows = dict.fromkeys(round(float(y), 6) for y in group.y)
    voids = tuple(Void(y, d_h, member.b - slot) for y in rows) if d_h else ()
    start = 0.0 if slot else float(np.min(group.x)) - 0.5 * d_h
    end = max(reach, float(np.max(group.x)) + 0.5 * d_h)
    if member.passes:  # its end lies elsewhere: the holes lie about the joint
        middle, start, end = place, -0.5 * (end - start), 0.5 * (end - start)
    else:
        middle = place + (0.5 if ahead else -0.5) * (start + end)
    high = d_h + float(np.ptp(group.y)) if voids else member.d
    low = 0.5 * (float(np.min(group.y)) + float(np.max(group.y))) if voids else 0.5 * member.d
    return GroupCut(
        group.name, middle, end - start, slot, voids, member.d if slot else high, low, made_by="joint",
    )  # fmt: skip
