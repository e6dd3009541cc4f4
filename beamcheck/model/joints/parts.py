"""What a joint is cut and made of: steps, tenons with their pegs, straps, bases; and the members that meet in it."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Annotated, Literal

from pydantic import Field

from ..anchors.anchor import Holes, Plate
from ..anchors.girder import OnGirder
from ..fields.base import Name, Piece
from ..fields.places import SAME_PLACE, Fault
from ..fields.quantities import Angle, Force, Length, Offset, PositiveLength
from ..made.rods import Rods
from .kinds import Part


class Step(Piece):
    """A notch that the foot of a rafter or strut presses into, or a shoulder on which its head stands."""

    depth: PositiveLength = Field(description="of the notch, square to the notched piece", examples=["1 3/4 in"])
    behind: PositiveLength = Field(
        description="wood along the notched piece behind the notch, from its root to the end or the next cut",
        examples=["12 in"],
    )
    face: Literal["bisector", "square to the landing piece", "square to the notched piece"] = Field(
        default="bisector", description="how the face that presses is cut", examples=["bisector"]
    )
    contact: PositiveLength | None = Field(
        default=None, description="depth of the landing piece that bears on that face; not said: by the notch"
    )
    checked: Literal["no checks there", "checks there", "not looked at"] = Field(
        default="not looked at", description="checks or splits in the wood behind the notch"
    )
    reaction_off: Offset | None = Field(
        default=None,
        description="of a heel: from the middle of the landing piece's foot outward to the middle of the support; "
        "inward with a minus sign",
        examples=["0 in"],
    )
    metal: bool = Field(default=False, description="a metal sheet lies between the faces that press")
    wide: PositiveLength | None = Field(
        default=None,
        description="depth of the notched piece at the notch, where it is left wider than its stock (a joggle)",
    )
    wide_from: Name | None = Field(
        default=None, description="the [[stock]] that the notched piece is cut from, head and all", examples=["6x12"]
    )

    def faults(self) -> Iterator[Fault]:
        """A stick for a head, where there is a head."""
        if self.wide_from is not None and self.wide is None:
            yield ("wide",), 'missing: how wide is it left at the notch? For example wide = "11 1/2 in"'


class Pegs(Piece):
    """Wooden pegs through a tenon and both cheeks of its mortise."""

    wood: Name = Field(description="species of the pegs", examples=["White Oak"])
    diameter: PositiveLength = Field(description="of a peg", examples=["1 in"])
    count: Annotated[int, Field(ge=1, le=12)] = Field(description="how many, side by side across the tenon")
    end: PositiveLength = Field(description="from their middle to the end of the tenon", examples=["3 in"])
    edge: PositiveLength = Field(
        description="from their middle to the face of the mortised piece that the shoulder meets", examples=["2 1/2 in"]
    )
    side: PositiveLength = Field(description="from the outer peg to the edge of the tenon", examples=["2 in"])
    spacing: PositiveLength | None = Field(default=None, description="from peg to peg across the tenon")
    straight: bool | None = Field(
        default=None, description="clear, straight-grained, round, drier than the frame: seen by whom the job names"
    )

    def faults(self) -> Iterator[Fault]:
        """Several pegs have a distance."""
        if self.count > 1 and self.spacing is None:
            yield ("spacing",), f'missing: {self.count} pegs need the distance from peg to peg, as spacing = "3 in"'
        if self.count == 1 and self.spacing is not None:
            yield ("spacing",), "one peg has no distance from peg to peg: write count = 2 or more, or leave it out"


class Tenon(Piece):
    """A tenon with its mortise, housing and pegs."""

    thickness: PositiveLength = Field(description="of the tenon, across the joint", examples=["2 in"])
    width: PositiveLength = Field(description="of the tenon, in the plane of the joint", examples=["7 in"])
    length: PositiveLength = Field(description="of the tenon, from its shoulder", examples=["4 in"])
    cheek: PositiveLength = Field(
        description="the thinner of the two cheeks of the mortise at the pegs", examples=["2 3/4 in"]
    )
    housing: Length = Field(
        default=0.0, description="how deep the whole end is let into the mortised piece", examples=["3/4 in"]
    )
    under_housing: PositiveLength | None = Field(
        default=None, description="wood along the mortised piece under the housing, down to the next cut or its end"
    )
    shoulder: Literal["tight", "open"] = Field(
        default="open", description="whether the shoulder bears all over: seen before it is covered"
    )
    pegs: Pegs | None = Field(default=None, description="the pegs, if there are any")

    def faults(self) -> Iterator[Fault]:
        """Pegs that lie in the tenon."""
        if self.pegs is None:
            return
        if self.pegs.end >= self.length:
            text = f"{self.pegs.end:g} in from the end of a tenon {self.length:g} in long: the pegs miss the mortise"
            yield ("pegs", "end"), f"{text}; less than its length"
        across = 2.0 * self.pegs.side + (self.pegs.count - 1) * (self.pegs.spacing or 0.0)
        if across > self.width + 1e-6:
            text = f"the pegs with their distances are {across:g} in across, the tenon {self.width:g} in"
            yield ("pegs", "side"), f"{text}: less side or spacing, or a wider tenon"


class Strap(Piece):
    """A strap of steel that goes under one piece and up both faces of another."""

    steel: Name = Field(description="grade", examples=["A36"])
    thickness: PositiveLength = Field(description="of the strap", examples=["1/4 in"])
    width: PositiveLength = Field(description="of the strap", examples=["2 in"])
    beyond: PositiveLength = Field(description="from the outermost bolt to the end of the strap", examples=["2 in"])
    from_end: PositiveLength = Field(
        default=0.5, description="from the nearest end of the piece that hangs to the strap", examples=["6 ft"]
    )


class Base(Piece):
    """A steel base under the foot of a post: a bearing plate, with or without a stem that stands on the floor."""

    steel: Name = Field(description="grade of plate and stem", examples=["A36"])
    plate: PositiveLength = Field(description="thickness of the plate under the wood", examples=["3/8 in"])
    bears_wide: PositiveLength = Field(description="side of that plate one way", examples=["7 in"])
    bears_long: PositiveLength = Field(description="side of that plate the other way", examples=["7 in"])
    stands_off: Length = Field(description="height of the wood above floor or ground", examples=["1 in"])
    over: Literal["floor", "earth"] = Field(default="floor", description="what is under it", examples=["floor"])
    stem: Literal["bar", "full", "none"] = Field(
        default="none", description="what holds the plate up: a flat bar, something as wide as the plate, or nothing"
    )
    stem_width: PositiveLength | None = Field(default=None, description="of a flat bar")
    stem_thickness: PositiveLength | None = Field(default=None, description="of a flat bar")
    sideways: Force = Field(
        default=0.0, description="level force at the foot, allowable-stress level, beside what a frame gives"
    )
    rods: Rods | None = Field(default=None, description="what holds it, where something lifts or pushes the post")

    def faults(self) -> Iterator[Fault]:
        """A bar has a size, and a plate that stands off has something under it."""
        if self.stem == "none" and self.stands_off > self.plate + SAME_PLACE:
            text = f"the wood stands {self.stands_off:g} in off on a plate {self.plate:g} in thick: what is between?"
            yield ("stem",), f'{text} Write stem = "bar" or "full", or stands_off = "{self.plate:g} in"'
        for field in ("stem_width", "stem_thickness"):
            if self.stem == "bar" and getattr(self, field) is None:
                yield (field,), f'missing: a flat bar needs its size, for example {field} = "1/2 in"'
            if self.stem != "bar" and getattr(self, field) is not None:
                yield (field,), f'only a flat bar has it: write stem = "bar", or leave {field} out'
        longest = max(self.bears_wide, self.bears_long)
        for field, side in (("stem_width", self.stem_width), ("stem_thickness", self.stem_thickness)):
            if side is not None and side > longest + SAME_PLACE:
                text = f"a stem of {side:g} in under a plate of {self.bears_wide:g} x {self.bears_long:g} in"
                yield (field,), f"{text}: at most {longest:g} in, or give the sides of the plate"


class Cap(Piece):
    """A steel cap on the head of a post: a plate under what lies on it, with or without sides that are bolted."""

    steel: Name = Field(description="grade of the plate", examples=["A36"])
    plate: PositiveLength = Field(description="thickness of the plate under the beams", examples=["3/8 in"])
    bears_long: PositiveLength = Field(
        description="length of the plate along what lies on it, that of each beam where two meet", examples=["7 in"]
    )
    bears_wide: PositiveLength = Field(description="breadth of the plate across that", examples=["5 1/2 in"])
    beyond: Length = Field(
        description="how far the plate stands out beyond the post, along the beams, on the side where it does most",
        examples=["0 in"],
    )


class StudRow(Piece):
    """Studs, or fasteners in a rim, along which a ledger hands its load on."""

    along: PositiveLength = Field(description="length of ledger to which the stated forces come", examples=["12 ft"])
    spacing: PositiveLength = Field(description="from stud to stud, or in a rim from fastener to fastener, in line")
    joists: PositiveLength = Field(description="from joist to joist along the ledger", examples=["16 in"])
    behind: Literal["studs", "rim"] = Field(description="what the ledger lies against", examples=["studs"])


class Screws(Piece):
    """Long screws at an angle to the faces, pulled along their axes; the load of one stands in the report."""

    count: Annotated[int, Field(ge=1, le=40)] = Field(description="how many, all of them", examples=[4])
    angle: Angle = Field(description="between the screws and the faces, 90 deg square to them", examples=["45 deg"])
    crossed: bool = Field(default=False, description="half lean one way, half the other")

    def faults(self) -> Iterator[Fault]:
        """Crossed ones are two at the least; of an odd number one counts for nothing."""
        if self.crossed and self.count < 2:
            yield ("count",), "one screw crosses no other: write count = 2 or more, or crossed = false"


class StatedForce(Piece):
    """What one kind of load does along and across a member of a joint, by somebody's analysis."""

    load: Literal["dead", "live", "roof_live", "snow", "wind"] = Field(description="the kind of load")
    pull: Force = Field(
        default=0.0, description="pull of the member on the joint, along the member; a push is negative"
    )
    down: Force = Field(
        default=0.0, description="force of the member on the joint square to it, toward its lower edge (upright: right)"
    )

    def faults(self) -> Iterator[Fault]:
        """It is some force."""
        if self.pull == 0.0 and self.down == 0.0:
            text = f'a {self.load} load of no force: write pull = "500 lbf" or down = "500 lbf", or leave it out'
            yield ("pull",), text


class Member(Piece):
    """One member of a joint."""

    name: Name = Field(description="which member of the frame it is; without a frame what it is called here")
    part: Part | None = Field(default=None, description="what it is in this joint", examples=["notched"])
    stock: Name | None = Field(default=None, description="its [[stock]]; of a member of a frame it is known")
    plies: Annotated[int, Field(ge=1, le=2)] | None = Field(
        default=None, description="sticks of what is outside: two of them lie on either side of the other piece"
    )
    direction: Angle | None = Field(
        default=None,
        description="which way it goes from the joint: 0 deg to the right, 90 deg up; of a frame it is known",
        examples=["33.7 deg"],
    )
    passes: bool = Field(default=False, description="it goes on beyond the joint")
    forces: tuple[StatedForce, ...] = Field(
        default=(), max_length=20, description="what comes to the joint by it, where no frame of the job says so"
    )
    holes: Holes | None = Field(default=None, description="where the fasteners are in it")
    plate: Plate | None = Field(default=None, description="the plate on it, or in it")
    arm: Offset | None = Field(
        default=None,
        description="from the middle of its fasteners, toward its end, to where the axes of the members cross",
    )
    on_girder: OnGirder | None = Field(
        default=None, description="where hardware is fastened to its side and pulls across its grain: how high"
    )
    seat: PositiveLength | None = Field(
        default=None, description="length of it that lies on the hardware, where a strap or seat goes under it"
    )
    shear: Force | None = Field(
        default=None, description="largest shear in it beside the joint, by the same analysis; of a frame it is known"
    )

    def faults(self) -> Iterator[Fault]:
        """Each kind of load once."""
        loads = [force.load for force in self.forces]
        for i, load in enumerate(loads):
            if load in loads[:i]:
                yield ("forces", i, "load"), f"{load} is given already: add both up in one entry"
