"""Wood on concrete: anchors by their report, the wood beside them by the yield equations; the joint is the least."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

import numpy as np

from ....model.anchors.anchor import Other
from ....model.fields.evidence import vouched
from ....units import show
from ...anchors.couple import couple_of
from ...anchors.group import Forces
from ...anchors.joint import Joint, JointMaker
from ...anchors.manners.base import Fastened
from ...anchors.manners.wood import Beside
from ...core.result import Check, Table
from ..groups import MemberGroup, group_of, report_checks
from ..meeting import Meeting
from .fastened import FastenedKind, OfJoint

BY_REPORT = "concrete_anchor"


class WoodOnConcrete(OfJoint, Beside):
    """The wood side: bearing in concrete as NDS has it. What the anchor itself bears stands in its report."""

    name = "wood side"

    def joint(self, make: JointMaker) -> Joint:
        found = super().joint(make)
        make.doubts[:] = [one for one in make.doubts if one.key != BY_REPORT]
        return replace(found, doubts=tuple(one for one in found.doubts if one.key != BY_REPORT))


class ConcreteAnchor(FastenedKind):
    """Anchors by their report through a piece of wood."""

    name = "concrete anchor"
    rules = WoodOnConcrete()

    def groups(self, meeting: Meeting) -> list[tuple[MemberGroup, Fastened]]:
        one, joint = meeting.members[0], meeting.joint
        assert joint.embedded is not None
        other = Other.model_construct(thickness=joint.embedded, grain="along", material="concrete")
        group = group_of(meeting, one, "wood side", forces=_forces(meeting))
        return [
            (replace(group, anchor=group.anchor.model_copy(update={"other": other, "into": "concrete"})), self.rules)
        ]

    def checks(self, meeting: Meeting) -> list[Check]:
        group = self.groups(meeting)[0][0]
        reported = report_checks(meeting, meeting.members[0], _forces(meeting))
        return [*super().checks(meeting), *_long_enough(meeting), *reported, *_turned_out(meeting, group)]

    def assumptions(self, meeting: Meeting) -> Iterator[str]:
        yield (
            "The report answers for the anchors: steel, breakout, edge, spacing, cracked concrete. No duration factor "
            "is counted where concrete bears; the published loads are those of the whole group."
        )

    def tables(self, meeting: Meeting) -> list[Table]:
        """An anchor in concrete has its washer and nut on the wood alone."""
        return [_of_anchors(table) if table.title == f"Hardware of {meeting.name}" else table
                for table in super().tables(meeting)]  # fmt: skip

    def to_see(self, meeting: Meeting) -> Iterator[str]:
        rating, deep = meeting.joint.rating, meeting.joint.embedded
        assert rating is not None
        assert deep is not None
        yield f"holes {show(deep, 'length')} deep in the concrete and cleaned, edge distance and spacing measured"
        yield f"the mark on the anchors is that of their report: {rating.source}; torque by it"
        yield from (one.replace("under every head and nut", "under every nut") for one in super().to_see(meeting))


def _forces(meeting: Meeting) -> Forces:
    """All of the member's force; a push along it goes through the anchors as a pull does."""
    one = meeting.members[0]
    return Forces(meeting.combinations, one.down, np.abs(one.N))


def _long_enough(meeting: Meeting) -> Iterator[Check]:
    """Through the wood and as deep into the concrete as is said."""
    one, joint = meeting.members[0], meeting.joint
    assert joint.fastener is not None
    assert joint.embedded is not None
    needed = one.b + joint.gap + joint.embedded
    if joint.fastener.length is not None and joint.fastener.length < needed:
        text = f"{show(joint.fastener.length, 'length')} long: through {one.name} and into the concrete it takes more "
        text += f"than {show(needed, 'length')}"
        yield Check.breaks_rule("joint.concrete_length", meeting.name, "length of the anchors", "geometry", text)


def _turned_out(meeting: Meeting, group: MemberGroup) -> Iterator[Check]:
    """The load lies in the middle of the wood, half its breadth before the concrete: that pulls on the top anchors."""
    one, joint = meeting.members[0], meeting.joint
    id, what, clause = "joint.concrete_pull", "pull out of the concrete", "statics of a single lap"
    couple = couple_of(group, 0.5 * one.b + joint.gap)
    most = float(np.max(couple.each, initial=0.0))
    if meeting.next_to_nothing(most):
        return
    if vouched(joint.twist_held_by):
        yield Check.keeps_rule(id, meeting.name, what, clause, f"kept from turning: {joint.twist_held_by}")
        return
    text = (
        f"half of {one.name} lies before the face: {show(most, 'force')} pull on the anchor that gets most, beside its "
        "shear; whether its report allows both is for an engineer"
    )
    asked = meeting.asks("joint_concrete_pull")
    yield Check.refers(
        id, meeting.name, what, clause, text, ask=replace(asked, forces={**asked.forces, "pulls out": most})
    )


def _of_anchors(table: Table) -> Table:
    column = {head: number for number, head in enumerate(table.heads)}
    many = next((row[column["how many"]] for row in table.rows if row[column["what"]] == "bolt"), "")
    rows = []
    for row in table.rows:
        cells = list(row)
        if cells[column["what"]] == "bolt":
            cells[column["what"]], cells[column["note"]] = "anchor", "by its report"
        elif cells[column["what"]] == "washer":
            cells[column["how many"]] = many
        rows.append(tuple(cells))
    return replace(table, rows=tuple(rows))
