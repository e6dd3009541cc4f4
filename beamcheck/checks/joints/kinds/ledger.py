"""A ledger as a row along studs or a rim: what comes to the worst of them, by its fasteners, turned over or not."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import replace

import numpy as np

from ....calc.pad import Pad
from ....formulas.joints.ledgers import ledger_on_stud
from ....formulas.wood.bending import bending_stress
from ....formulas.wood.section import rectangle_modulus
from ....model.fields.evidence import read_evidence, vouched
from ....model.joints.parts import StudRow
from ....units import show
from ....values.judgment import judgment
from ...anchors.group import Forces, Group
from ...anchors.manners.base import Fastened
from ...anchors.manners.wood import Ledger
from ...core.forces_said import named_too_small
from ...core.result import Check
from ...core.wood.govern import Criterion, at, duration, govern
from ...core.wood.material import bending_star
from ...core.wood.strength import Outcome, Section
from ..groups import MemberGroup, group_of, places_in
from ..meeting import Arriving, Meeting
from .bolted import AtAnAngle
from .fastened import FastenedKind

Array = np.ndarray
ROUNDING = 1e-9
STATICS = "statics of continuous beams"


class LedgerOfJoint(AtAnAngle, Ledger):
    """The fasteners of a ledger at one stud. What lies on it lies on its middle at the least."""

    @staticmethod
    def least_arm(group: Group) -> float:
        return 0.5 * float(group.section.b)


class LedgerRow(FastenedKind):
    """A ledger along studs or a rim: looked at is the stud, or the fastener in line, that gets most."""

    name = "ledger"

    def groups(self, meeting: Meeting) -> list[tuple[MemberGroup, Fastened]]:
        meeting = turned(meeting)
        ledger, behind = meeting.the("ledger"), meeting.the("behind")
        down = _on_one(meeting)
        forces = Forces(meeting.combinations, down, np.zeros_like(down))
        # the stud is pressed along its grain toward its foot, a rim across its grain
        rim = _row(meeting).behind == "rim"
        against = Forces(meeting.combinations, -down, np.zeros_like(down)) if rim else Forces(
            meeting.combinations, np.zeros_like(down), -down)  # fmt: skip
        first = group_of(meeting, ledger, "ledger", forces=forces, other=behind, places=places_in(meeting, ledger))
        x, y = places_in(meeting, behind)
        assert first.anchor.other is not None
        near = first.anchor.other.model_copy(update={"end": float(x.min()), "edge": float(y.min())})
        first = replace(first, anchor=first.anchor.model_copy(update={"other": near}))
        second = group_of(meeting, behind, "wood side", forces=against, other=ledger, places=(x, y))
        turn = 0.0 if rim else 90.0
        return [(first, LedgerOfJoint("head", turn, behind.b)), (second, AtAnAngle("point", turn, ledger.b))]

    def checks(self, meeting: Meeting) -> list[Check]:
        return [*super().checks(meeting), *_along(meeting), *_bends(meeting), *_answered(meeting)]

    def assumptions(self, meeting: Meeting) -> Iterator[str]:
        k, apart = judgment("share of the worst of a row").value, show(_row(meeting).spacing, "length")
        yield f"The worst of the row gets {k:g} of an even share and no less than one joist; they stand {apart} apart."
        yield "Tested spacings of deck ledgers are another matter: they hold for what was tested and are not used here."

    def to_see(self, meeting: Meeting) -> Iterator[str]:
        yield from super().to_see(meeting)
        row, n = _row(meeting), self.times(meeting)
        place = "at every stud" if row.behind == "studs" else "along the rim"
        yield f"the same {place}, {show(row.spacing, 'length')} apart: {n} times over {show(row.along, 'length')}"
        if row.behind == "studs":
            yield "each fastener in the middle of a stud, probed for; its thread in wood and not in sheathing"

    def times(self, meeting: Meeting) -> int:
        """Once at each stud or place of the row, at both its ends too."""
        row = _row(meeting)
        return math.ceil(row.along / row.spacing - ROUNDING) + 1


def turned(meeting: Meeting) -> Meeting:
    """The same with studs as they are met: by their narrow face, fasteners going into their depth."""
    if _row(meeting).behind == "rim":
        return meeting
    return replace(meeting, members=tuple(_narrow(one) if one.entry.part == "behind" else one
                                          for one in meeting.members))  # fmt: skip


def _narrow(stud: Arriving) -> Arriving:
    return replace(stud, section=Section(stud.d, stud.b, stud.d, stud.section.round))


def _row(meeting: Meeting) -> StudRow:
    row = meeting.joint.row
    assert row is not None
    return row


def _per_inch(meeting: Meeting) -> Array:
    """(combinations,) what comes down along the ledger, lbf/in."""
    return np.asarray(np.abs(meeting.the("ledger").down) / _row(meeting).along)


def _on_one(meeting: Meeting) -> Array:
    """(combinations,) what comes to the stud that gets most, lbf."""
    row, k = _row(meeting), judgment("share of the worst of a row").value
    w = _per_inch(meeting)
    return np.asarray(np.maximum(ledger_on_stud(k_c=k, w=w, s_stud=row.spacing), w * row.joists))


def _along(meeting: Meeting) -> Iterator[Check]:
    """A row of screws at studs is laid out for what comes down."""
    one = meeting.the("ledger")
    most = float(np.max(np.abs(one.N), initial=0.0))
    if not meeting.next_to_nothing(most):
        text = f"{show(most, 'force')} along {one.name}: the row is looked at for what comes down alone"
        yield meeting.refers("joint.ledger_along", "force along the ledger", "load path", text, "joint_ledger_along")


def _bends(meeting: Meeting) -> Iterator[Check]:
    """The ledger between two studs, with a joist in the middle, whichever is more."""
    one, row = meeting.the("ledger"), _row(meeting)

    def calculate(pad: Pad, which: int | slice) -> Outcome:
        w = pad.take("w", at(_per_inch(meeting), which), "lbf/in", note="along the ledger")
        s = row.spacing
        pad(
            ledger_on_stud,
            k_c=judgment("share of the worst of a row").value,
            w=w,
            s_stud=s,
            note="to the worst of them",
        )
        even = pad.take("M", w * s**2 / 8.0, "lbf*in", note="as a simple beam from stud to stud")
        P = pad.take("P", w * row.joists, "lbf", note="of one joist")
        M = pad.take("M", np.maximum(even, P * s / 4.0), "lbf*in", note="one joist in the middle, or even load")
        f_b = pad(bending_stress, M=M, S=pad(rectangle_modulus, symbol="S", b=one.b, d=one.d))
        F_b = bending_star(pad, one.wood, duration(pad, meeting.combinations, which))
        return Outcome(f_b, F_b, f_b / F_b)

    criterion = Criterion(meeting.name, f"{one.name} bent between its fasteners", STATICS, "stress", one.name,
                          id="joint.ledger_bends")  # fmt: skip
    yield govern(criterion, meeting.combinations, calculate)


def _answered(meeting: Meeting) -> Iterator[Check]:
    """The studs or the rim bear what the ledger puts on them: that is for whoever answers for the wall."""
    said, id, what = meeting.joint.confirmed_by.strip(), "joint.ledger_behind", "what the ledger is fixed to"
    force = float(np.max(_on_one(meeting), initial=0.0))
    most, less = show(force, "force"), named_too_small(said, force)
    if vouched(said, "structure") and less is None:
        yield Check.keeps_rule(id, meeting.name, what, "load path", f"{said}: for {most} on one; not checked here")
        return
    if less is not None:
        why = f"{said!r} names {show(less, 'force')}"
    elif said:
        why = f"{said!r}: {read_evidence(said).missing_for('structure')}"
    else:
        why = "nobody answers for it"
    text = f"{most} come to one of them, in front of its face: {why}"
    yield meeting.refers(id, what, "load path", text, "joint_ledger_behind", "confirmed_by")
