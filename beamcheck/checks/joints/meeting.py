"""The members that meet in a joint, each with its wood, its direction and what it does to the joint."""

from __future__ import annotations

import math
from collections.abc import Collection, Iterator, Sequence
from dataclasses import field, replace
from functools import cached_property, lru_cache

import numpy as np

from ...analysis.beams.combinations import Loaded, combine, matrix
from ...analysis.beams.load_cases import Applied, cases_for
from ...analysis.beams.member_loads import KIND_OF_FIELD
from ...model.conditions.air import Climate
from ...model.conditions.movement import Movement
from ...model.fields.evidence import read_evidence, vouched
from ...model.frames.frame import Frame
from ...model.joints.joint import Joint
from ...model.joints.kinds import MADE
from ...model.joints.parts import Member
from ...model.stock import Stock
from ...records import dataclass
from ...units import show
from ...values.judgment import judgment
from ...values.lumber import read_size
from ..anchors.joint import weak_wood
from ..core.asking.question import RULING, PlausibleAnswer, Question, ask
from ..core.context import AnyPiece, Context
from ..core.result import Check
from ..core.trivial import negligible, trivial
from ..core.wood.grade_asked import ask_grade
from ..core.wood.material import WoodMaterial, is_unknown, named, reference_values, rows_to_screen, wood_of
from ..core.wood.strength import Section
from ..core.wood.wood_doubts import wood_evidence_checks

Array = np.ndarray
UPRIGHT = 1e-6  # of a unit vector: a member that leans less than that from upright has no lower edge


@dataclass(frozen=True, eq=False)
class Arriving:
    """One member at a joint.

    Attributes
    ----------
    entry : Member
        As the job file has it.
    number : int
        Its place among the members of the joint, from 1.
    piece : str
        What it is called as a piece of the job.
    section : Section
        d lies in the plane of the joint; b of all its sticks together.
    direction : (2,)
        Unit vector from the joint along it, right and up.
    passes : bool
        It goes on beyond the joint.
    force : (combinations, 2)
        Of the member on the joint, right and up. [lbf]
    M : (combinations,)
        Of the member on the joint, counter-clockwise. [lbf*in]
    in_it : ((combinations,), (combinations,))
        Largest axial force and moment in the member beside the joint, where a frame says so. [lbf, lbf*in]
    V : (combinations,)
        Largest shear in it beside the joint, where a frame says so. [lbf]
    from_end : float
        How far the joint is from the nearer end of it; where nobody says, at the end. [in]
    """

    entry: Member
    number: int
    piece: str
    stock: Stock
    wood: WoodMaterial
    section: Section
    direction: Array
    passes: bool
    force: Array
    M: Array
    in_it: tuple[Array, Array] | None = None
    V: Array | None = None
    from_end: float = 0.0

    @property
    def name(self) -> str:
        return self.entry.name

    @property
    def b(self) -> float:
        return float(self.section.b)

    @property
    def d(self) -> float:
        return float(self.section.d)

    @property
    def mirrored(self) -> bool:
        """Whether its upper edge lies to the right of its direction."""
        x, y = self.direction
        return bool(x < -UPRIGHT or (abs(x) <= UPRIGHT and y < 0.0))

    @property
    def up(self) -> Array:
        """(2,) unit vector square to it toward its upper edge; of an upright one toward the left."""
        x, y = self.direction
        return np.array([y, -x]) if self.mirrored else np.array([-y, x])

    @property
    def N(self) -> Array:
        """(combinations,) pull on the joint, along it, lbf."""
        return np.asarray(self.force @ self.direction)

    @property
    def down(self) -> Array:
        """(combinations,) force on the joint square to it toward its lower edge, lbf."""
        return self.across(self.force)

    @property
    def turning(self) -> Array:
        """(combinations,) moment on the joint, turning its direction toward its upper edge, lbf*in."""
        return -self.M if self.mirrored else self.M

    def across(self, force: Array) -> Array:
        """(combinations,) part of a force on the joint that is square to the member, toward its lower edge, lbf."""
        return np.asarray(-(force @ self.up))

    @property
    def size(self) -> Array:
        """(combinations,) of its force, lbf."""
        return np.asarray(np.hypot(self.force[:, 0], self.force[:, 1]))


def angle_between(one: Arriving, other: Arriving) -> float:
    """Angle between the lines of two members, 0 to 90 deg."""
    return math.degrees(math.acos(min(abs(float(one.direction @ other.direction)), 1.0)))


@dataclass(frozen=True, eq=False)
class Meeting:
    """A joint with its members and their forces. `path` is its place in the job file; `on` what stands under it."""

    joint: Joint
    combinations: tuple[Loaded, ...]
    members: tuple[Arriving, ...]
    reaction: Array  # (combinations, 2) of what stands under it, lbf
    on: str = ""
    under: AnyPiece | None = None  # that piece or entry of the job, of the joint of a post
    doubts: tuple[Check, ...] = field(default=())  # about where the forces are from
    assumptions: tuple[str, ...] = ()
    beside: Stock | None = None  # a stick named beside the members: that a wider head is cut from, that a base lies on
    air: Climate | None = None  # of the job, where somebody says it
    described: tuple[Movement, ...] = ()  # bolt rows that are entries of their own

    @property
    def name(self) -> str:
        return self.joint.name

    def the(self, part: str) -> Arriving:
        """The member with that part."""
        return next(one for one in self.members if one.entry.part == part)

    def all(self, part: str) -> tuple[Arriving, ...]:
        """The members with that part."""
        return tuple(one for one in self.members if one.entry.part == part)

    @cached_property
    def most(self) -> float:
        """The largest force that a member brings, lbf."""
        return max((float(np.max(one.size, initial=0.0)) for one in self.members), default=0.0)

    def next_to_nothing(self, force: float) -> bool:
        """Whether a force needs no rule of its own beside what else comes to the joint."""
        return force <= negligible() or trivial(force, self.most)

    @property
    def bears(self) -> bool | None:
        """Whether it is known into which member goes what comes from outside; None where nothing comes."""
        slack = max(judgment("forces of a joint out of balance").value * self.most, negligible())
        if len(self.members) < 2 or self.joint.row or float(np.max(np.abs(self.reaction), initial=0.0)) <= slack:
            return None
        return self.joint.bears_on is not None

    def through(self, member: Arriving) -> Array:
        """(combinations, 2) what fasteners of a member have to take: its own force, and what comes from outside where
        that goes into it, lbf."""
        return member.force + self.reaction if self.joint.bears_on == member.name else member.force

    def with_what_comes_from_outside(self) -> Meeting:
        """The same with what goes through the joint as the forces of its members."""
        return replace(self, members=tuple(replace(one, force=self.through(one)) for one in self.members))

    @cached_property
    def largest(self) -> dict[str, float]:
        """The largest pull and push of each member, and what comes square to it, lbf."""
        found = {}
        for one in self.members:
            for words, force in (("pulls", one.N), ("pushes", -one.N), ("square to it", np.abs(one.down))):
                most = float(np.max(force, initial=0.0))
                if most > negligible():
                    found[f"{one.name}, {words}"] = most
        return found

    @property
    def force_words(self) -> str:
        """'tie, pulls 4,050 lb; rafter, pushes 4,870 lb'."""
        return "; ".join(f"{words} {show(force, 'force')}" for words, force in self.largest.items()) or "no force"

    def asks(
        self, key: str, place: str = "", *, answers: Sequence[PlausibleAnswer | str] | None = None, **words: str
    ) -> Question:
        """A question about the joint; without a field it asks for a ruling, which has to cover the forces."""
        at = f"joint.{self.name}.{place}" if place else RULING
        forces = None if place else self.largest
        return ask(key, self.name, at, answers=answers, forces=forces, force=self.force_words, **words)

    def refers(
        self, id: str, what: str, clause: str, text: str, key: str, place: str = "", *,
        answers: Sequence[PlausibleAnswer | str] | None = None, where: str = "", **words: str,
    ) -> Check:  # fmt: skip
        """A check that waits for something that is not said."""
        asked = self.asks(key, place, answers=answers, **words)
        return Check.refers(id, self.name, what, clause, text, ask=asked, where=where)


def stick_beside(joint: Joint, context: Context) -> Stock | None:
    """The stick that a wider head is cut from, or that a base lies on."""
    rods = joint.base.rods if joint.base is not None else None
    name = joint.step.wide_from if joint.step is not None else rods.stock if rods is not None else None
    return None if name is None else context.stock(name)


class _This:
    """A stock is known by itself: what has the same name may be another."""

    def __init__(self, stock: Stock) -> None:
        self.stock = stock

    def __hash__(self) -> int:
        return id(self.stock)

    def __eq__(self, other: object) -> bool:
        return isinstance(other, _This) and other.stock is self.stock


def wood_here(stock: Stock, name: str) -> WoodMaterial:
    """The wood of a member; of unknown wood the lowest of each property over all it might be."""
    return named(_wood_of(_This(stock)), name)


@lru_cache(maxsize=128)
def _wood_of(this: _This) -> WoodMaterial:
    stock = this.stock
    values = rows_to_screen(stock)[0] if is_unknown(stock) else reference_values(stock)
    return weak_wood(stock, wood_of(stock, values))


def wood_checks(meeting: Meeting) -> list[Check]:
    """Whether the wood of each member is known, and how."""
    found: list[Check] = []
    for stock, wood in {one.stock.name: (one.stock, one.wood) for one in meeting.members}.values():
        if is_unknown(stock):
            text = f"stock {stock.name!r}: a grader or engineer must say what it is; figures are of the weakest wood"
            asked = ask_grade(stock)
            found.append(Check.refers("joint.wood", meeting.name, "wood not known", "NDS 2018 4.1", text, ask=asked))
        else:
            found += wood_evidence_checks(meeting.name, wood.doubts)
    return found


# ---- with forces that somebody else's analysis gives -----------------------------------------------------------------


def stated_meeting(joint: Joint, context: Context) -> Meeting:
    """A joint whose members carry their forces in the job file.

    Each kind of load is there as stated, in the combinations of ASCE 7-16 2.4.1; wind counts as it is stated, with
    and without the others.
    """
    kinds = {force.load for one in joint.members for force in one.forces}
    loads = [Applied(KIND_OF_FIELD[kind], 0.0, 0.0, P=1.0) for kind in KIND_OF_FIELD if kind in kinds]
    cases = cases_for(loads, [(0.0, 1.0)], 1.0)
    combinations = tuple(combine(cases))
    factors = matrix(combinations) if combinations else np.zeros((0, len(cases)))
    members = []
    for number, one in enumerate(joint.members, start=1):
        assert one.stock is not None  # the rules of the model ask for them
        assert one.direction is not None
        stock = context.stock(one.stock)
        size = read_size(stock.size)
        angle = math.radians(one.direction)
        direction = np.array([math.cos(angle), math.sin(angle)])
        section = Section(float(size.b) * (one.plies or 1), float(size.d), float(size.b), size.surface == "round")
        nothing = np.zeros(len(combinations))
        bare = Arriving(one, number, one.name, stock, wood_here(stock, one.name), section, direction, one.passes,
                        np.zeros((len(combinations), 2)), nothing)  # fmt: skip
        by_kind = {KIND_OF_FIELD[force.load]: force.pull * direction - force.down * bare.up for force in one.forces}
        each = np.array([by_kind.get(case.kind, np.zeros(2)) for case in cases]).reshape(len(cases), 2)
        force = factors @ each
        members.append(Arriving(one, number, one.name, stock, bare.wood, section, direction, one.passes, force,
                                nothing))  # fmt: skip
    reaction = -np.sum([one.force for one in members], axis=0) if members else np.zeros((len(combinations), 2))
    said = "Forces are those stated; wind counts as it is stated and not the other way."
    meeting = Meeting(
        joint, combinations, tuple(members), reaction, joint.stands_on, assumptions=(said,),
        beside=stick_beside(joint, context), air=context.structure.air,
        described=context.structure.bolt_rows,
    )  # fmt: skip
    doubts = (*_by_whom(meeting), *_weight_alone(meeting, kinds), *_balance(meeting), *_in_line(meeting, context))
    return replace(meeting, doubts=doubts)


def _by_whom(meeting: Meeting) -> list[Check]:
    """Whose analysis the forces are from."""
    joint, id, what, clause = meeting.joint, "joint.forces", "forces on the joint", "load path"
    if not meeting.combinations:
        text = "no force of any member is given: nothing can be checked"
        return [meeting.refers(id, what, clause, text, "joint_forces")]
    if vouched(joint.forces_by):
        return [Check.keeps_rule(id, meeting.name, what, clause, f"by {joint.forces_by}")]
    said = joint.forces_by.strip()
    text = f"forces by {said!r}: {read_evidence(said).missing}" if said else "whose analysis gives them is not said"
    return [meeting.refers(id, what, clause, text, "joint_forces_by", "forces_by")]


def _weight_alone(meeting: Meeting, kinds: Collection[str]) -> Iterator[Check]:
    """A joint bears more than weight: people, men on a roof, snow or wind."""
    if set(kinds) == {"dead"}:
        text = "only dead load is stated: what people, snow or wind bring to the joint is not said"
        yield meeting.refers("joint.forces", "kinds of load", "ASCE 7-16 2.4.1", text, "joint_forces")


def _balance(meeting: Meeting) -> list[Check]:
    """Forces that meet in a joint are in balance, but for what stands under it."""
    if not meeting.combinations or meeting.joint.row is not None:
        return []  # a row: what is stated of the ledger goes into all that it lies against
    id, what, clause = "joint.balance", "balance of the forces", "statics"
    if len(meeting.members) == 1:
        return [*_goes_on(meeting, id, what, clause)]
    most = meeting.most
    level, upright = (float(np.max(np.abs(part))) for part in meeting.reaction.T)
    slack = judgment("forces of a joint out of balance").value * most
    apart = "the forces of the members do not balance each other"
    if level > slack:
        text = f"{show(level, 'force')} are left over sideways: {apart}"
        return [meeting.refers(id, what, clause, text, "joint_balance")]
    if upright > slack and not meeting.on.strip():
        if not MADE[meeting.joint.kind].founded:
            text = f"{show(upright, 'force')} are left over up and down: {apart}"
            return [meeting.refers(id, what, clause, text, "joint_balance")]
        text = f"{show(upright, 'force')} are left over up and down, and what the joint stands on is not said"
        return [meeting.refers(id, what, clause, text, "joint_stands_on", "stands_on")]
    rest = f"; {show(upright, 'force')} go into {meeting.on}" if upright > slack else ""
    return [Check.keeps_rule(id, meeting.name, what, clause, f"within {show(slack, 'force')}{rest}")]


def _goes_on(meeting: Meeting, id: str, what: str, clause: str) -> Iterator[Check]:
    """What one member brings goes on into something, for which nobody is asked but by name."""
    if meeting.next_to_nothing(meeting.most) or meeting.joint.confirmed_by.strip():
        return
    force = show(meeting.most, "force")
    if meeting.on.strip():
        yield Check.keeps_rule(id, meeting.name, what, clause, f"{force} go into {meeting.on}: not checked here")
    else:
        text = f"{force} come to it, and what takes them on is not said"
        yield meeting.refers(id, what, clause, text, "joint_stands_on", "stands_on")


def _in_line(meeting: Meeting, context: Context) -> Iterator[Check]:
    """Two lengths in line, as a member of a frame of the job lies and of its wood: they may be a splice of it."""
    joint = meeting.joint
    if joint.splices is not None or len(meeting.members) != 2:
        return
    first, second = meeting.members
    same = judgment("directions that are the same").value
    if float(first.direction @ second.direction) > -math.cos(math.radians(same)):
        return
    slope = math.degrees(math.asin(abs(float(first.direction[1]))))
    stocks = {first.stock.name, second.stock.name}
    frames = [piece for piece in context.structure.pieces.values() if isinstance(piece, Frame)]
    near = [stick.name for frame in frames for stick in frame.sticks
            if stick.stock in stocks and abs(stick.slope - slope) <= same]  # fmt: skip
    if near:
        text = (
            f"two lengths in line, of the wood of {', '.join(near)}: if one of these is spliced there, it has its say"
        )
        none = PlausibleAnswer("none: another piece", ((f"joint.{joint.name}.splices", "nothing"),))
        yield meeting.refers("joint.splices", "what it joins", "load path", text, "joint_splices", "splices",
                             answers=[*near, none])  # fmt: skip
