"""The head of a post under a steel cap: end grain below the plate, beams above it, the plate where it stands out."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from .....calc.pad import Pad
from .....formulas.joints import bases
from .....formulas.steel import bending as bend
from .....model.joints.parts import Cap
from .....units import show
from .....values.hardware.steels import steel
from .....values.judgment import judgment
from ....anchors.group import Forces
from ....anchors.manners.base import Fastened
from ....core.result import Check
from ....core.wood.govern import Criterion, at, duration, govern
from ....core.wood.material import compression_star
from ....core.wood.strength import Outcome, bearing
from ...groups import MemberGroup, group_of
from ...meeting import Arriving, Meeting, angle_between, wood_checks
from ..base import into_which
from ..fastened import FastenedKind
from ..plated import PlatesOfJoint, bent_by
from .post_base import NO_C_D, bar_strip

Array = np.ndarray
HAIR, SQUARE = 1e-6, 90.0  # deg
NEAR_END = 3.0  # in from its end a piece is pressed as at its end (NDS 2018 3.10.4)


class PostCap(FastenedKind):
    """A steel cap on a post, one or two beams on it."""

    name = "post cap"
    rules = PlatesOfJoint()

    def groups(self, meeting: Meeting) -> list[tuple[MemberGroup, Fastened]]:
        if not self.bolted(meeting):
            return []
        found: list[tuple[MemberGroup, Fastened]] = []
        for one in meeting.members:
            forces = _of_post(meeting, one) if one.entry.part == "standing" else _of_beam(meeting, one)
            found.append((group_of(meeting, one, "plates both sides", forces=forces), self.rules))
        return found

    @staticmethod
    def bolted(meeting: Meeting) -> bool:
        """Whether every piece is bolted to the sides of the cap."""
        laid = all(one.entry.holes is not None and one.entry.plate is not None for one in meeting.members)
        return meeting.joint.fastener is not None and laid

    def checks(self, meeting: Meeting) -> list[Check]:
        cap = meeting.joint.cap
        assert cap is not None
        found = [
            *_square(meeting),
            *_unlike(meeting, cap),
            *_under(meeting, cap),
            *_on_it(meeting, cap),
            *_plate(meeting, cap),
        ]
        if meeting.bears is False:
            found.append(into_which(meeting))
        if self.bolted(meeting):
            return [*found, *super().checks(meeting)]
        return [*found, *_loose(meeting), *wood_checks(meeting)]

    def to_see(self, meeting: Meeting) -> Iterator[str]:
        cap = meeting.joint.cap
        assert cap is not None
        long, wide = show(cap.bears_long, "length"), show(cap.bears_wide, "length")
        yield f"the head of the post cut square under the cap; each beam on {long} x {wide} of its plate"
        if len(meeting.all("lying")) > 1:
            yield "where two beams meet: both ends on the plate, the gap between them, nothing driven in"
        if self.bolted(meeting):
            yield from super().to_see(meeting)

    def assumptions(self, meeting: Meeting) -> Iterator[str]:
        yield "A post cap is a hinge: it takes no moment. What presses goes through its plate, never through its bolts."


def _post(meeting: Meeting) -> Arriving:
    return meeting.the("standing")


def _pressed(meeting: Meeting) -> Array:
    """(combinations,) push at the head of the post, lbf."""
    return np.asarray(np.maximum(-_post(meeting).N, 0.0))


def _from(meeting: Meeting, beam: Arriving) -> Array:
    """(combinations,) what a beam presses on the plate, lbf: of a single one no less than the post is pushed with."""
    own = np.maximum(beam.across(meeting.through(beam)), 0.0)
    alone = len(meeting.all("lying")) == 1
    return np.asarray(np.maximum(own, _pressed(meeting)) if alone else own)


def _of_post(meeting: Meeting, post: Arriving) -> Forces:
    """What lifts and what goes sideways: the push goes through the plate."""
    return Forces(meeting.combinations, post.down, np.maximum(post.N, 0.0))


def _of_beam(meeting: Meeting, beam: Arriving) -> Forces:
    force = meeting.through(beam)
    return Forces(meeting.combinations, np.minimum(beam.across(force), 0.0), np.asarray(force @ beam.direction))


def _square(meeting: Meeting) -> Iterator[Check]:
    """A beam lies flat on the plate of a post that stands upright under it."""
    most, id, what = judgment("beam out of square with its post").value, "joint.cap_square", "beams square to the post"
    for beam in meeting.all("lying"):
        off = SQUARE - angle_between(beam, _post(meeting))
        if off > most + HAIR:
            text = f"{beam.name} lies {show(off, 'angle')} out of square with its post: it bears on an edge"
            yield meeting.refers(id, what, "statics", text, "joint_cap_square", where=beam.name)
            return
    yield Check.keeps_rule(id, meeting.name, what, "statics", f"within {show(most, 'angle')}")


def _unlike(meeting: Meeting, cap: Cap) -> Iterator[Check]:
    """Two beams that press unlike bend the post: each presses in the middle of its part of the plate."""
    beams = meeting.all("lying")
    if len(beams) != 2:
        return
    apart = np.abs(_from(meeting, beams[0]) - _from(meeting, beams[1]))
    couple = apart * 0.5 * cap.bears_long
    if not meeting.next_to_nothing(float(np.max(couple, initial=0.0)) / _post(meeting).d):
        yield bent_by(meeting, _post(meeting), couple, "beams that press unlike")


def _under(meeting: Meeting, cap: Cap) -> Iterator[Check]:
    post = _post(meeting)
    beams = meeting.all("lying")
    b, d = min(post.b, cap.bears_wide), min(post.d, cap.bears_long * len(beams))
    push, note = _pressed(meeting), f"push in {post.name}"
    if len(beams) == 2:  # each presses on its own half
        push = np.maximum(push, 2.0 * np.maximum(_from(meeting, beams[0]), _from(meeting, beams[1])))
        note += ", no less than twice what the beam brings that brings more"

    def calculate(pad: Pad, which: int | slice) -> Outcome:
        P = pad.take("P", at(push, which), "lbf", note=note)
        f = pad.take("f_c", P / (b * d), "psi", note="on the end grain that the plate covers")
        F = compression_star(pad, post.wood, duration(pad, meeting.combinations, which))
        return Outcome(f, F, f / F)

    criterion = Criterion(meeting.name, f"end grain of {post.name} under the cap", "NDS 2018 3.10.1", "stress",
                          post.name, ("steel lies between",), id="joint.cap_post")  # fmt: skip
    yield govern(criterion, meeting.combinations, calculate)


def _on_it(meeting: Meeting, cap: Cap) -> Iterator[Check]:
    for beam in meeting.all("lying"):

        def calculate(pad: Pad, which: int | slice, beam: Arriving = beam) -> Outcome:
            R = pad.take("R", at(_from(meeting, beam), which), "lbf", note=f"of {beam.name} on the plate")
            return bearing(pad, beam.wood, R=R, b=min(beam.b, cap.bears_wide), l_b=cap.bears_long,
                           near_end=not beam.passes)  # fmt: skip

        criterion = Criterion(meeting.name, f"{beam.name} on the cap", "NDS 2018 3.10.2", "stress", beam.name,
                              id="joint.cap_beam")  # fmt: skip
        yield govern(criterion, meeting.combinations, calculate)


def _plate(meeting: Meeting, cap: Cap) -> Iterator[Check]:
    """The plate where it stands out beyond the post: the pressure of the beam there bends it."""
    covered = cap.bears_long * len(meeting.all("lying"))
    beyond = max(cap.beyond, 0.5 * (covered - _post(meeting).d))  # no less than on either side of the middle
    if beyond <= HAIR:
        return
    F_y = steel(cap.steel).value.F_y
    for beam in meeting.all("lying"):
        area = min(beam.b, cap.bears_wide) * cap.bears_long

        def calculate(pad: Pad, which: int | slice, beam: Arriving = beam, area: float = area) -> Outcome:
            R = pad.take("R", at(_from(meeting, beam), which), "lbf", note=f"of {beam.name} on the plate")
            f = pad.take("f", R / area, "psi", note="under the beam")
            M = pad(bases.plate_overhang, f_c=f, b=1.0, a=beyond)
            M_a = bar_strip(pad, F_y, 1.0, cap.plate)
            return Outcome(M, M_a, M / M_a)

        criterion = Criterion(meeting.name, f"plate beyond the post under {beam.name}, a strip of 1 in", bend.BAR,
                              "moment", beam.name, (NO_C_D,), id="joint.cap_plate")  # fmt: skip
        yield govern(criterion, meeting.combinations, calculate)


def _loose(meeting: Meeting) -> Iterator[Check]:
    """What lifts, and what goes sideways, needs bolts through the sides of the cap."""
    id, what = "joint.cap_held", "uplift and level force at the cap"
    post = _post(meeting)
    found = {
        f"lift {post.name}": np.maximum(post.N, 0.0),
        f"push the head of {post.name} sideways": np.abs(post.down),
        **{f"lift {one.name}": np.maximum(-one.across(meeting.through(one)), 0.0) for one in meeting.all("lying")},
    }
    most = {words: float(np.max(force, initial=0.0)) for words, force in found.items()}
    over = [f"{show(force, 'force')} {words}" for words, force in most.items() if not meeting.next_to_nothing(force)]
    if not over:
        return
    text = f"{'; '.join(over)}: nothing is said to fasten the cap to them"
    yield meeting.refers(id, what, "load path", text, "joint_cap_held")
