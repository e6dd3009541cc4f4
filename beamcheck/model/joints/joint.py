"""A joint between members: of a frame of the job, of a post, or with forces that somebody else's analysis gives."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from typing import Literal

from pydantic import Field

from ...errors import nearest
from ..anchors.anchor import Fastener, Rating
from ..fields.base import Answer, Insisting, Name, Words
from ..fields.places import Fault
from ..fields.quantities import Length, PositiveLength
from .kinds import MADE, PARTS, JointKind
from .parts import Base, Cap, Member, Screws, Step, Strap, StudRow, Tenon

_EXAMPLES = {
    "fastener": 'fastener = { kind = "bolt", size = "3/4 in", steel = "A307" }',
    "step": 'step = { depth = "1 3/4 in", behind = "12 in", face = "bisector" }',
    "tenon": 'tenon = { thickness = "2 in", width = "7 in", length = "4 in", cheek = "2 3/4 in" }',
    "strap": 'strap = { steel = "A36", thickness = "1/4 in", width = "2 in", beyond = "2 in" }',
    "base": 'base = { steel = "A36", plate = "3/8 in", bears_wide = "7 in", bears_long = "7 in", stands_off = "1 in" }',
    "cap": 'cap = { steel = "A36", plate = "3/8 in", bears_long = "7 in", bears_wide = "5 1/2 in", beyond = "0 in" }',
    "row": 'row = { along = "12 ft", spacing = "16 in", joists = "16 in", behind = "studs" }',
    "screws": 'screws = { count = 4, angle = "45 deg" }',
    "embedded": 'embedded = "5 in"',
    "rating": 'rating = { source = "report, number, edition, table", along = "800 lbf", duration = "included" }',
}


class Joint(Insisting):
    """What holds members together where they meet."""

    name: Name = Field(description="what this joint is called in the job", examples=["west heel"])
    called: Words = Field(default="", description="what people call it, beside its name")
    kind: JointKind = Field(description="how the members are joined", examples=["step"])
    frame: Name | None = Field(default=None, description="the [[frame]] whose members meet here", examples=["T1"])
    at: Name | None = Field(default=None, description="the node of that frame", examples=["west heel"])
    splices: Name | None = Field(
        default=None, description='the member of a frame that it joins in its length, or "nothing"',
        examples=["T1: tie"],
    )  # fmt: skip
    splice_at: Length | None = Field(
        default=None, description="how far along that member the splice is, from its first point, of a rafter its foot"
    )
    post: Name | None = Field(default=None, description="the [[post]] whose foot it carries", examples=["P1"])
    members: tuple[Member, ...] = Field(
        default=(), max_length=12, description="the members that it joins",
        examples=[[{"name": "tie", "part": "notched"}, {"name": "west rafter", "part": "landing"}]],
    )  # fmt: skip
    forces_by: Answer = Field(
        default="",
        description="whose analysis the forces of the members are from, where the job has no frame for them",
        examples=["engineer's sheet S-4 of 3 May 2025"],
    )
    stands_on: Answer = Field(
        default="", description="what is under it, where the forces are stated and it stands on something",
        examples=["west wall plate"],
    )  # fmt: skip
    bears_on: Name | None = Field(
        default=None,
        description='the member into which goes what the joint stands on, or "steel" where it goes into the plates',
        examples=["tie"],
    )
    fastener: Fastener | None = Field(default=None, description="the fasteners of all its members")
    step: Step | None = Field(default=None, description="the notch, of a step")
    tenon: Tenon | None = Field(default=None, description="tenon, housing and pegs")
    strap: Strap | None = Field(default=None, description="the strap under what hangs")
    base: Base | None = Field(default=None, description="the steel under a post")
    cap: Cap | None = Field(default=None, description="the steel over a post")
    row: StudRow | None = Field(default=None, description="the row of studs or fasteners along a ledger")
    screws: Screws | None = Field(default=None, description="screws at an angle")
    embedded: PositiveLength | None = Field(default=None, description="how deep anchors sit in the concrete")
    rating: Rating | None = Field(default=None, description="the published loads, of what goes by a report")
    confirmed_by: Answer = Field(default="", description="who answers for it in writing")
    gap: Length = Field(default=0.0, description="between the faces: a spacer or board in the joint")
    clamped: bool | None = Field(default=None, description="of pins without heads: two bolts clamp the sides together")
    twist_held_by: Answer = Field(
        default="", description="what keeps a lap from turning out of its plane, and who says so"
    )
    split: Literal["none seen", "check across the holes", "not looked at"] | None = Field(
        default=None, description="checks and splits along the holes"
    )
    seasoned: Literal["dry", "green"] | None = Field(
        default=None, description="moisture of the wood when it is put together"
    )

    def faults(self) -> Iterator[Fault]:
        """One source of its forces, what its kind needs, members that are there once and play their parts."""
        made = MADE[self.kind]
        yield from self._forces()
        for field in made.needed:
            if getattr(self, field) is None:
                yield (field,), f"missing: {self.kind!r} needs it; for example {_EXAMPLES[field]}"
        for field in PARTS:
            if getattr(self, field) and field not in (*made.needed, *made.may):
                text = f"does not belong to {self.kind!r}: {made.why}; leave {field} out, or change the kind"
                yield (field,), text
        if self.fastener is not None and made.fasteners and self.fastener.kind not in made.fasteners:
            text = f"{self.fastener.kind!r} does not go with {self.kind!r}: write {' or '.join(made.fasteners)}"
            yield ("fastener", "kind"), f"{text} ({made.why})"
        yield from self._members()

    @property
    def in_frame(self) -> str | None:
        """The frame of which it is a joint: at a point, or along a member."""
        return self.frame or (self.spliced.partition(": ")[0] if self.spliced else None)

    @property
    def spliced(self) -> str:
        """The piece that it joins in its length; '' where it joins none."""
        return "" if self.splices in (None, "nothing") else str(self.splices)

    @property
    def stated(self) -> bool:
        """Whether its members carry their forces in the job file."""
        return not self.spliced or any(one.forces for one in self.members)

    def _forces(self) -> Iterator[Fault]:
        sources = [field for field in ("frame", "post") if getattr(self, field) is not None]
        if len(sources) > 1:
            yield ("post",), "the forces come from a frame or from a post: leave one of the two out"
        if self.splices is not None and sources:
            yield (
                ("splices",),
                f"its forces come from the {sources[0]}: a splice has its place by splice_at; leave it out",
            )
        if self.splices is not None and len(self.members) != 2:
            yield ("splices",), "a splice joins two lengths of one member: name two members, or leave splices out"
        if self.splice_at is not None and not self.spliced:
            yield ("splice_at",), 'the place of a splice: say of which member, as splices = "T1: tie"'
        if (self.frame is None) != (self.at is None):
            missing = "at" if self.at is None else "frame"
            text = "missing: a joint of a frame needs the frame and the node"
            yield (missing,), f'{text}, for example frame = "T1" and at = "west heel"'
        if self.post is not None and self.kind != "post base":
            yield ("post",), f'{self.kind!r} is no joint of a post alone: write kind = "post base", or name its members'
        if self.post is not None and any(one.forces for one in self.members):
            yield ("members",), "the forces come from the post: leave them out of the members"
        for i, one in enumerate(self.members):
            if self.frame is not None and one.forces:
                yield ("members", i, "forces"), "the forces come from the frame: leave them out"
            if self.spliced and not self.stated and (one.stock is not None or one.direction is not None):
                yield ("members", i), "stock and direction come from the member that it splices: leave them out"
            if self.frame is None and self.post is None and self.stated:
                for field in ("stock", "direction"):
                    if getattr(one, field) is None:
                        text = f"missing: no frame says it, so a member needs its {field}"
                        example = '"chord"' if field == "stock" else '"33.7 deg"'
                        yield ("members", i, field), f"{text}, for example {field} = {example}"
            if self.post is not None and (one.stock is not None or one.direction is not None):
                yield ("members", i), "stock and direction come from the post: leave them out"

    def _members(self) -> Iterator[Fault]:
        made = MADE[self.kind]
        if self.row is not None and (self.frame is not None or self.splices is not None):
            yield ("row",), "a ledger is no member of a frame: leave frame and at out, and state what comes along it"
        if self.bears_on is not None and self.bears_on not in ("steel", *(one.name for one in self.members)):
            text = f"{self.bears_on!r} is no member of it"
            yield ("bears_on",), f"{text}; {nearest(self.bears_on, [one.name for one in self.members])}"
        for i, one in enumerate(self.members):
            if one.part == "behind" and one.forces:
                yield ("members", i, "forces"), "what comes to the row stands at the ledger: leave forces out here"
        names = Counter(one.name for one in self.members)
        least, most = made.members
        if self.post is not None and len(self.members) > 1:
            yield ("members",), "the foot of a post is one member: leave the others out"
        if not least <= len(self.members) <= most and not (self.post is not None and not self.members):
            wanted = f"{least}" if least == most else f"{least} to {most}"
            yield ("members",), f"{self.kind!r} joins {wanted} members, here are {len(self.members)}: {made.why}"
        for i, one in enumerate(self.members):
            if names[one.name] > 1 and one.name in [other.name for other in self.members[:i]]:
                yield ("members", i, "name"), f"{one.name!r} is there already: each member once"
            if made.roles and (one.part is None or one.part not in made.roles):
                parts = " or ".join(f'"{part}"' for part in made.roles)
                text = "missing: what is it in this joint" if one.part is None else f"{one.part!r} is no part of it"
                yield ("members", i, "part"), f"{text}: write part = {parts} ({made.why})"
            if not made.roles and one.part is not None:
                yield ("members", i, "part"), f"the members of {self.kind!r} are all alike: leave part out"
            if one.plies == 2 and one.part != "outside":
                text = "two sticks lie outside another piece: only what is 'outside' of 'bolted between' has them"
                yield ("members", i, "plies"), f"{text}; leave plies out, and give the stock as broad as one piece is"
            if one.part == "outside" and one.plies != 2:
                text = "two sticks lie outside: write plies = 2, and as stock that of one of them"
                yield ("members", i, "plies"), f"missing: {text}" if one.plies is None else text
            for field, there in (
                ("holes", made.laid_out), ("plate", made.plated), ("on_girder", made.hung), ("shear", made.hung),
                ("seat", made.hung),
            ):  # fmt: skip
                if getattr(one, field) is not None and not there:
                    yield ("members", i, field), f"does not belong to {self.kind!r}: {made.why}; leave it out"
        if all(one.part in made.roles for one in self.members):
            for part, (low, high) in made.roles.items():
                count = sum(one.part == part for one in self.members)
                if not low <= count <= high:
                    wanted = f"{low}" if low == high else f"{low} or {high}"
                    yield ("members",), f"{wanted} of its members must be {part!r}, here are {count}: {made.why}"
