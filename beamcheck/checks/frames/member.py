"""One member of a frame: axial force with bending, shear, what is left where wood is cut out, rules of its section."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from functools import partial

import numpy as np

from ...analysis.beams.combinations import Loaded
from ...analysis.trusses.plan import Stiffness
from ...analysis.trusses.record import MemberForces
from ...analysis.trusses.solved import Sized
from ...calc.pad import Pad
from ...model.frames.frame import FrameStick
from ...records import dataclass
from ...values.judgment import judgment
from ...values.lumber import Size
from ..beams.beam_run import section_of
from ..beams.bracing import Span, bracing_of, proportion
from ..core.asking.question import Question, ask
from ..core.context import Context
from ..core.result import Check
from ..core.wood.govern import Criterion, at, duration, govern
from ..core.wood.material import WoodMaterial
from ..core.wood.sticks import FROM_FRAME, LITTLE, TOGETHER, stiffness_of
from ..core.wood.strength import (
    Bracing,
    Outcome,
    Section,
    bending,
    bending_with_compression,
    bending_with_tension,
    shear,
    tension,
)

SLENDEREST = 50.0  # l_e/d, NDS 2018 3.7.1.4


@dataclass(frozen=True, eq=False)
class MadeOf:
    """A member with its section and its wood, and the lengths that buckle in the plane of the frame and out of it."""

    member: FrameStick
    size: Size
    section: Section
    wood: WoodMaterial

    @property
    def sized(self) -> Sized:
        """What the frame analysis needs of it."""
        stiffness = Stiffness(*stiffness_of(self.section, self.wood))
        return Sized(self.member, float(self.section.b), float(self.section.d), stiffness)


def made_of(member: FrameStick, wood: WoodMaterial, context: Context) -> MadeOf:
    """A member with its section."""
    size = context.size(member.stock)
    return MadeOf(member, size, section_of(size, member.laid, member.plies), wood)


def member_checks(
    made: MadeOf, forces: MemberForces, combinations: Sequence[Loaded], in_plane: tuple[float, str], *, leans: bool,
    asked: tuple[Question, ...] = (),
) -> list[Check]:  # fmt: skip
    """Every check of one member by itself.

    `in_plane`: the length that may buckle in the plane of the frame, inches, and why. `leans`: a strut, post, brace or
    collar: its push comes off center by as much as that of a post of which nobody says. `asked`: tuple of Question:
    what nobody said of the frame and is run both ways; it goes with what fails.
    """
    name = made.member.name
    if made.section.round:
        text = "a round member of a frame is for an engineer"
        return [Check.refers("frame.round", name, "round section", "NDS 2018", text, ask=ask("round_rafter", name))]
    one = _Member(made, forces, combinations, in_plane, leans, asked)
    return [*one.axial(), *one.bent(), one.sheared(), *one.rules()]


@dataclass(frozen=True, eq=False)
class _Member:
    made: MadeOf
    forces: MemberForces
    combinations: Sequence[Loaded]
    in_plane: tuple[float, str]
    leans: bool
    asked: tuple[Question, ...]

    @property
    def name(self) -> str:
        return self.made.member.name

    def out_of_plane(self) -> float:
        """Length that can buckle out of the plane; 0 where an edge is held along its whole length."""
        edges = (self.made.member.top_held, self.made.member.bottom_held)
        if "full length" in edges:
            return 0.0
        return min([self.made.member.length, *(edge for edge in edges if isinstance(edge, float))])

    def axial(self) -> Iterator[Check]:
        """Tension alone; compression is part of `bent`."""
        if _any(self.forces.pulled):
            yield self._govern("frame.tension", "tension", "NDS 2018 3.8.1", "stress", self._pulled)
        if _any(self.forces.pressed):
            yield from self._slender()

    def _pulled(self, pad: Pad, which: int | slice) -> Outcome:
        T = pad.take("T", at(self.forces.pulled, which), "lbf", note=FROM_FRAME)
        C_D = duration(pad, self.combinations, which)
        return tension(pad, self.made.wood, self.made.section, T=T, C_D=C_D)

    def _slender(self) -> Iterator[Check]:
        l_e2 = self.out_of_plane()
        ways = ((self.in_plane[0], float(self.made.section.d), "in its plane"),
                (l_e2, float(self.made.section.b), "out of its plane"))  # fmt: skip
        for length, side, words in ways:
            if length / side > SLENDEREST:
                yield Check.of_ratio(
                    "frame.slender", self.name, f"slenderness {words}", "NDS 2018 3.7.1.4", "length over side",
                    demand=length / side, capacity=SLENDEREST, kind="ratio", ask=self.asked,
                )  # fmt: skip

    def bent(self) -> Iterator[Check]:
        """Either edge pressed, with all that acts beside it."""
        top = np.maximum(np.max(self.forces.M_high, axis=1), 0.0)
        bottom = np.maximum(-np.min(self.forces.M_low, axis=1), 0.0)
        off = judgment("eccentricity not stated").value * float(self.made.section.d) if self.leans else 0.0
        for upper, moments in ((True, top + off * self.forces.pressed), (False, bottom + off * self.forces.pressed)):
            if upper or _any(moments):
                yield from self._edge(moments, upper=upper)

    def _edge(self, moments: np.ndarray, *, upper: bool) -> Iterator[Check]:
        member = self.made.member
        span = Span(0.0, member.length, False)
        bracing = bracing_of(member, self.made.size, self.made.section, span, (), simple=False, top=upper)
        edge = "" if upper else ", lower edge pressed"
        if _any(self.forces.pressed):
            what = f"bending with compression{edge}"
            whole = partial(self._with_compression, 0, bracing, moments)
            yield self._govern("frame.bending_with_compression", what, "NDS 2018 3.9.2", "ratio", whole, TOGETHER)
            if not (bracing.held and self.out_of_plane() == 0.0):
                part = partial(self._with_compression, 1, bracing, moments)
                clause = "NDS 2018 3.9.2 (eq. 3.9-4)"
                yield self._govern("frame.bending_sideways", f"{what}, sideways", clause, "ratio", part, TOGETHER,
                                   strict=True)  # fmt: skip
        if _any(self.forces.pulled):
            what = f"bending with tension{edge}"
            part = partial(self._with_tension, bracing, moments)
            yield self._govern("frame.bending_with_tension", what, "NDS 2018 3.9.1", "ratio", part, TOGETHER)
        if _any(moments):
            part = partial(self._alone, bracing, moments)
            yield self._govern("frame.bending", f"bending{edge}", "NDS 2018 3.3", "stress", part)

    def _alone(self, bracing: Bracing, moments: np.ndarray, pad: Pad, which: int | slice) -> Outcome:
        M = pad.take("M", at(moments, which), "lbf*in", note=FROM_FRAME)
        C_D = duration(pad, self.combinations, which)
        return bending(pad, self.made.wood, self.made.section, bracing, M=M, C_D=C_D)

    def _with_tension(self, bracing: Bracing, moments: np.ndarray, pad: Pad, which: int | slice) -> Outcome:
        T = pad.take("T", at(self.forces.pulled, which), "lbf", note=FROM_FRAME)
        M = pad.take("M", at(moments, which), "lbf*in", note=FROM_FRAME)
        C_D = duration(pad, self.combinations, which)
        return bending_with_tension(pad, self.made.wood, self.made.section, bracing, M=M, T=T, C_D=C_D)[0]

    def _with_compression(
        self, part: int, bracing: Bracing, moments: np.ndarray, pad: Pad, which: int | slice
    ) -> Outcome:  # fmt: skip
        P = pad.take("P", at(self.forces.pressed, which), "lbf", note=f"largest compression, {FROM_FRAME}")
        M = pad.take("M", at(moments, which), "lbf*in", note=FROM_FRAME)
        C_D = duration(pad, self.combinations, which)
        length, why = self.in_plane
        l_e1 = pad.take("l_e1", length, "in", note=why)
        return bending_with_compression(
            pad, self.made.wood, self.made.section, bracing, M=M, P=P, C_D=C_D, l_e1=l_e1, l_e2=self.out_of_plane()
        )[part]

    def sheared(self) -> Check:
        """With the full shear: nothing near a point is left out."""
        V_all = np.max(self.forces.V, axis=1)

        def calculate(pad: Pad, which: int | slice) -> Outcome:
            V = pad.take("V", at(V_all, which), "lbf", note=f"largest anywhere, {FROM_FRAME}")
            C_D = duration(pad, self.combinations, which)
            return shear(pad, self.made.wood, self.made.section, V=V, C_D=C_D)

        note = "the full shear is taken: nothing is left out"
        return self._govern("frame.shear", "shear", "NDS 2018 3.4.2", "stress", calculate, note)

    def rules(self) -> Iterator[Check]:
        """What the section asks for besides strength."""
        member = self.made.member
        slender = proportion(self.made.size, self.made.section)
        held = [member.top_held, member.bottom_held].count("full length")
        if slender > 5.0 and _any(self.forces.pressed) and held < 2:
            text = f"d/b is {slender:.3g} with compression: above 5 both edges must be held along the whole length"
            asked = ask("both_edges_held", member.name, f"{address(member)}.bottom_held")
            yield Check.refers("frame.thin", member.name, "thin section with compression", "NDS 2018 4.4.1.3", text,
                               ask=asked)  # fmt: skip

    def _govern(
        self, id: str, what: str, clause: str, kind: str, calculate: Callable[[Pad, int | slice], Outcome],
        *notes: str, strict: bool = False,
    ) -> Check:  # fmt: skip
        criterion = Criterion(self.name, what, clause, kind, notes=notes, strict=strict, id=id, ask=self.asked)
        return govern(criterion, self.combinations, calculate)


def address(member: FrameStick) -> str:
    """The place of a member in the job file."""
    return f"frame.{member.frame}.members.{member.entry + 1}"


def _any(values: np.ndarray) -> bool:
    return float(np.max(values)) > LITTLE
