"""Wood against wood or concrete: laps, ledgers, a piece between two others, fasteners into the end of a piece."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from ....model.fields.evidence import read_evidence
from ....units import show
from ...core.result import Check
from ..couple import RULE, Couple, across_the_grain, couple_of
from ..fasteners.axial import axial_checks
from ..fasteners.connection import Connection
from ..group import Group
from ..joint import Grain, Joint, JointMaker
from ..unsaid import Open
from .base import Fastened, pulled_checks

IN_LINE = (
    "The load acts in the middle of the held piece and is held at its face: the couple between these lines, with the "
    "thicker of the two sides, is taken to pull on the fasteners."
)


class Beside(Fastened):
    """Two pieces of wood side by side, or wood on concrete, with fasteners through the held piece."""

    def joint(self, make: JointMaker) -> Joint:
        other, dowel = make.other, make.dowel
        held = make.left(make.breadth, make.bore)
        p = None
        if dowel.through and other.material == "wood":
            main = make.left(other.thickness, make.bore if dowel.kind == "bolt" else 0.0)
            hidden = make.bore or dowel.kind == "pin"
            room = make.breadth + other.thickness + make.gap if hidden else float("inf")
            make.through(held + make.gap + main, min(held, main), room=room)
        elif dowel.through:  # an anchor in concrete: as deep as is given
            main = other.thickness
            make.threads_clear = dowel.smooth
        else:
            main, p = make.point(held, make.washer + make.gap, other.thickness)
        return make.joint(make.far(main), make.held(held), held=held, bored=make.bore, penetration=p)


class Lap(Beside):
    """Wood beside wood or concrete. A piece that others rest on is bent across its grain like a ledger."""

    name = "wood side"

    def couple(self, group: Group) -> Couple | None:
        other = group.anchor.other
        if other is None or group.x.size == 0:
            return None
        # held in its own middle plane the piece turns with half its breadth; where it is kept from turning, the other
        # side hangs on the joint with half of its thickness: never both at once
        return couple_of(group, 0.5 * max(float(group.section.b), other.thickness) + group.anchor.gap)

    def counts_couple(self, group: Group) -> bool:
        return not group.kept_from_turning

    def beside(self, connection: Connection, couple: Couple | None) -> list[Check]:
        group = connection.group
        found = lap_checks(connection, couple, counted=self.counts_couple(group))
        if group.carries and couple is not None:
            found += [*across_the_grain(group, couple)]
        return found

    def assumptions(self, group: Group) -> Iterator[str]:
        yield from super().assumptions(group)
        if self.counts_couple(group):
            yield IN_LINE


def lap_checks(connection: Connection, couple: Couple | None, *, counted: bool) -> list[Check]:
    """The pull of the couple of a lap or a plate on one side, which something else may take as well.

    Where the fasteners hold it, all is said; where they do not, it is not known yet that nothing else does.
    """
    group = connection.group
    id, what = "anchor.couple", "couple of what lies side by side"
    most = 0.0 if couple is None else float(np.max(couple.M))
    if couple is None or most <= 0.0:
        return []
    if not counted:
        text = f"{show(most, 'moment')}, not on the fasteners: {group.anchor.twist_held_by}"
        return [Check.keeps_rule(id, group.name, what, RULE, text)]
    found = pulled_checks(connection, couple)
    over = [check for check in found if not check.holds]
    if not over:
        return found
    worst = min(over, key=lambda check: check.rank)
    figure = f"{worst.what}: {show(worst.ratio, 'ratio')}" if worst.ratio is not None else worst.what
    text = (
        f"the load lies {show(couple.off, 'length')} beside the face that holds it: up to {show(most, 'moment')} turn "
        f"the joint out of its plane, and its fasteners alone do not hold that ({figure}; {'; '.join(worst.notes)})"
    )
    said = group.anchor.twist_held_by.strip()
    if said:
        missing = read_evidence(said).missing
        text += f"; {said!r} is said to hold it, but {missing}, nor does it name a beam, post, rafter or tie of the job"
    return [group.refers(id, what, RULE, Open(text, "twist_held_by", "twist_held_by"))]


class BothSides(Fastened):
    """A piece between two others of wood, bolted right through: two shear planes, no couple."""

    name = "wood both sides"

    def joint(self, make: JointMaker) -> Joint:
        other, b = make.other, make.breadth
        side = make.left(other.thickness, make.bore)
        room = b + 2.0 * (other.thickness + make.gap) if make.bore else float("inf")
        make.through(b + 2.0 * (side + make.gap), side, room=room)
        return make.joint(make.held(b), make.far(side), held=b, two_planes=True)


class Ledger(Beside):
    """A piece on a wall that others sit on, in front of the wall: the load turns it over."""

    name = "ledger"

    def couple(self, group: Group) -> Couple | None:
        if group.anchor.arm is None or group.x.size == 0:
            return None
        return couple_of(group, max(group.anchor.arm, self.least_arm(group)))

    @staticmethod
    def least_arm(group: Group) -> float:
        """From the wall to the middle of the pieces that rest on the ledger: no less than to its own middle."""
        return 0.5 * float(group.section.b) if group.carries else 0.0

    def beside(self, connection: Connection, couple: Couple | None) -> list[Check]:
        group = connection.group
        what, arm, least = "couple between load and wall", group.anchor.arm, self.least_arm(group)
        if arm is None or couple is None:
            text = (
                "how far from the wall the load comes down is not given (`arm`): the pull it puts on the top row is "
                "missing"
            )
            answers = (show(0.5 * float(group.section.b), "length"), show(float(group.section.b), "length"))
            return [group.refers("anchor.ledger_arm", what, RULE, Open(text, "ledger_arm", "arm", answers))]
        found = []
        if arm <= 0.0:
            text = "a seat on a ledger cannot lie in the face of the wall: give how far its middle is (`arm`)"
            open_ = Open(text, "ledger_arm", "arm", (show(0.5 * float(group.section.b), "length"),))
            found.append(group.refers("anchor.ledger_arm", what, "statics", open_))
        elif arm < least:
            said = show(arm, "length")
            text = f"{said} as said; what rests on it is counted {show(least, 'length')} off, over its middle"
            found.append(Check.keeps_rule("anchor.ledger_arm", group.name, what, "statics", text))
        return [*found, *pulled_checks(connection, couple), *across_the_grain(group, couple)]


class IntoTheEnd(Fastened):
    """Fasteners through the other side into the end of the held piece, along its grain (NDS 2018 12.3.3.4, 12.5.2)."""

    name = "into the end"

    def joint(self, make: JointMaker) -> Joint:
        other, group = make.other, make.group
        side = make.left(other.thickness, make.bore)
        main, p = make.point(side, make.washer + make.gap, float("inf"))
        return make.joint(make.held(main, "into"), make.far(side, self.grain(group)), held=main, penetration=p)

    @staticmethod
    def grain(group: Group) -> Grain:
        """Of the other side in the plane of the joint: level pieces are loaded across theirs, upright ones along it."""
        other = group.anchor.other
        assert other is not None
        if group.on_a_girder:
            return "along"
        return "across" if group.on_a_post else other.grain

    def beside(self, connection: Connection, couple: Couple | None) -> list[Check]:
        pulled = np.maximum(connection.group.forces.along, 0.0) / connection.group.x.size
        return axial_checks(connection, pulled)
