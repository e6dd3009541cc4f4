"""Toe-nails: driven aslant through the faces of the held piece near its end into the other side (NDS 2018 12.1.6)."""

from __future__ import annotations

import numpy as np

from ....calc.pad import SilentPad
from ....formulas.connections.toe_nails import toe_nail_main_length, toe_nail_side_length
from ....units import show
from ....values.hardware import connections as tables
from ....values.judgment import judgment
from ...core.result import Check
from ..couple import Couple
from ..fasteners.connection import Connection
from ..fasteners.far_wood import far_wood_checks
from ..group import nearest_apart
from ..joint import HAIR, Fault, Joint, JointMaker
from ..unsaid import NotSaid, Open
from .base import Fastened

CLAUSE = "NDS 2018 12.1.6"


class ToeNails(Fastened):
    """Nails that reach the other side only where they begin a third of their length from the end."""

    name = "toe-nails"

    def joint(self, make: JointMaker) -> Joint:
        other, dowel, group = make.other, make.dowel, make.group
        if dowel.kind != "nail":
            text = f"toe-nails are nails, not a {dowel.kind}: a {dowel.kind} driven aslant is an engineer's case"
            raise NotSaid(text, "joint_by_engineer")
        assert dowel.length is not None
        pad, clause = SilentPad(), dowel.penetration_clause
        p = float(pad(toe_nail_main_length, L_f=dowel.length))
        # one that begins farther from the end reaches less deep
        reach = p + dowel.length / 3.0 - float(np.max(group.x, initial=dowel.length / 3.0))
        p = min(p, reach)
        least = float(dowel.least_penetration(pad))
        if p < least - HAIR:
            text = (
                f"{show(max(p, 0.0), 'length')} in the main member for a nail that begins "
                f"{show(float(np.max(group.x, initial=0.0)), 'length')} from the end, at least "
                f"{show(least, 'length')} asked"
            )
            make.faults.append(Fault("anchor.penetration", "penetration of the toe-nails", clause, text))
        if p > other.thickness + HAIR:
            text = "too long: the points come out"
            make.faults.append(Fault("anchor.length", "length of the toe-nails", clause, text))
        if other.grain == "end":
            make.doubts.append(Open("toe-nails into end grain: an engineer must judge them", "joint_by_engineer"))
        side = float(pad(toe_nail_side_length, t_s=make.breadth, L_f=dowel.length))
        main = float(dowel.main_length(pad, max(p, least)))  # half the tip left out: the safe reading of the commentary
        return make.joint(make.far(main), make.held(side), held=side, penetration=max(p, 0.0))

    def beside(self, connection: Connection, couple: Couple | None) -> list[Check]:
        """Room to drive them, and to keep the wood from splitting."""
        group, dowel = connection.group, connection.joint.dowel
        id, what, name, D = "anchor.toe_nails", "room for the toe-nails", group.name, dowel.D
        assert dowel.length is not None
        found = []
        if dowel.large:
            text = "nails of 1/4 in and more driven aslant may split the wood"
            found.append(group.refers(id, what, CLAUSE, Open(text, "joint_by_engineer")))
        begin, near = dowel.length / 3.0, judgment("toe-nail from its place").value
        first, last = float(group.x.min()), float(group.x.max())
        if max(last - begin, begin - first) > near:
            text = (
                f"they begin {show(first, 'length')} to {show(last, 'length')} from the end; a third of their length, "
                f"{show(begin, 'length')}, is where they reach the other side and hold"
            )
            found.append(Check.breaks_rule(id, name, what, CLAUSE, text))
        found += self._apart(connection)
        edge = tables.distance("thin", "not prebored", "edge").value.least * D
        least = float(min(group.y.min(), float(group.section.d) - group.y.max()))
        if least < edge - HAIR:
            text = f"{show(least, 'length')} from the edge, at least {show(edge, 'length')}: nearer they split it"
            found.append(Check.breaks_rule(id, name, what, CLAUSE, text))
        if not found:
            text = "each begins a third of its length from the end, clear of its neighbors and of the edges"
            found.append(Check.keeps_rule(id, name, what, CLAUSE, text))
        return [*found, *far_wood_checks(connection)]

    @staticmethod
    def _apart(connection: Connection) -> list[Check]:
        """Nails that stand so close that they may split the wood."""
        group, D = connection.group, connection.joint.dowel.D
        nearest, fastener = nearest_apart(group.x, group.y), group.anchor.fastener
        apart, bored = (
            tables.distance("thin", case, "spacing across").value.least * D for case in ("not prebored", "prebored")
        )
        ahead = fastener is not None and fastener.bored_ahead is True
        if nearest >= (bored if ahead else apart) - HAIR:
            return []
        text = f"{show(nearest, 'length')} apart, {show(apart, 'length')} advised where holes are not bored ahead"
        open_ = Open(text, "bored_ahead", "fastener.bored_ahead")
        if nearest < bored - HAIR:
            open_ = Open(f"{text}, {show(bored, 'length')} where they are", "close_nails")
        return [group.refers("anchor.splitting", "splitting", CLAUSE, open_)]
