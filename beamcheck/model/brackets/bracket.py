"""Brackets, covers, trim: what is fixed to a wall, post or beam, and whether it is meant to carry. No computing here.

What is not said (grain, fixings, knots, joints) is no fault here: a check asks. The faults of each class are what
cannot be built or cannot be understood.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from typing import Any, Literal

from pydantic import Field, ValidationError, field_validator, model_validator

from ...errors import JobError
from ..fields.base import Answer, Insisting, Name, Piece, Words
from ..fields.layers import Layer, weight_of
from ..fields.places import SAME_PLACE, Fault, entries, inches
from ..fields.quantities import Force, Length, Moisture, PositiveLength, Spring
from ..loads import Load
from .fixings import Fixings, Row, row_faults
from .near import Near, Role
from .shape import Pocket, Point
from .shapes import Bent, Braced, Corbel, Shape, Solid, SteelCore

__all__ = [
    "Bent", "Braced", "Bracket", "Corbel", "Cover", "Fixings", "Pocket", "Point", "RodInWood", "Row", "Shape",
    "Solid", "SteelCore", "Trim",
]  # fmt: skip

LARGEST_HANG = 2_000.0  # lbf; no person hangs more on a bracket: beyond that it is a load and stands in carries
_KINDS = ("dead", "live", "roof_live", "snow", "wind")


class Cover(Piece):
    """What a cover bracket hides, and what may happen to it."""

    hides: tuple[Name, ...] = Field(
        default=(),
        max_length=50,
        description="the [[anchor]] groups and [[joint]] entries behind it",
        examples=[["hidden plate A"]],
    )
    heads_stand_out: Length | None = Field(
        default=None, description="how far heads, nuts and washers stand out from the wall face"
    )
    heads_width: PositiveLength | None = Field(
        default=None, description="overall width of the hardware across the pocket"
    )
    heads_height: PositiveLength | None = Field(
        default=None, description="overall height of the hardware in the pocket"
    )
    hidden_moves: Length | None = Field(default=None, description="how far the hidden joint moves under its full load")
    change: Moisture | None = Field(
        default=None, description="by how many points the moisture content of the cover swings in a year"
    )
    fixed_at_one_line: bool | None = Field(
        default=None, description="fixed along one line only, slots elsewhere, so that it can shrink and swell"
    )
    reveal: Length | None = Field(default=None, description="gap between the cover and what it meets, as left")

    def faults(self) -> Iterator[Fault]:
        """Each anchor group is named once."""
        for i, name in enumerate(self.hides):
            if name in self.hides[:i]:
                yield ("hides", i), f"{name!r} is named already: leave it out here"


class RodInWood(Piece):
    """A rod or long screw through the wood, across its grain, that takes what pulls across it; seen from the side."""

    out_from: Length = Field(description="its head, out from the wall face", examples=["9 in"])
    down_from: PositiveLength = Field(description="its head, down from the top edge", examples=["2 in"])
    out_to: Length = Field(description="its point, out from the wall face", examples=["1/2 in"])
    down_to: PositiveLength = Field(description="its point, down from the top edge", examples=["2 in"])
    bond: Spring = Field(description="what its thread or glue holds in the wood", examples=["400 lb/in"])
    steel: Force = Field(description="what its steel takes along it", examples=["2,400 lb"])
    across: Force = Field(description="what it passes across a check sideways", examples=["200 lb"])
    head_from: Force = Field(default=0.0, description="what its head holds")
    head_to: Force = Field(default=0.0, description="what a nut at its point holds")
    report: Answer = Field(default="", description="which report of the maker says so")

    def faults(self) -> Iterator[Fault]:
        """It has a length, and values above zero."""
        if abs(self.out_to - self.out_from) + abs(self.down_to - self.down_from) <= SAME_PLACE:
            yield ("out_to",), "head and point are in one place: say where it ends"
        for field in ("bond", "steel", "across"):
            if getattr(self, field) <= 0.0:
                yield (field,), f"{getattr(self, field):g} cannot be right: more than 0"


class Bracket(Insisting):
    """Something that stands out from a wall, post or beam, and carries, or only looks as if it did."""

    name: Name = Field(description="what this piece is called in the job", examples=["K1"])
    role: Role = Field(
        description="carries: meant to bear a load; decorative: meant to bear none; cover: hides hardware",
        examples=["decorative"],
    )
    stock: Name | None = Field(
        default=None, description="the name of its [[stock]] entry; a steel core needs none", examples=["bracket board"]
    )
    shape: Shape = Field(
        description="its family and sizes",
        examples=[
            {
                "family": "solid", "thickness": "1 1/2 in", "height": "12 in", "projection": "10 in", "foot": "2 in",
                "nose": "2 in", "soffit": "concave", "grain": "upright",
            }
        ],
    )  # fmt: skip
    on: Name = Field(description="the piece or [[existing]] entry it is fixed to", examples=["west post"])
    at: Length | None = Field(
        default=None, description="where its foot stands: on a post above the post's foot, on a beam from its left end"
    )
    fixings: Fixings | None = Field(default=None, description="what holds it there")
    carries: tuple[Load, ...] = Field(
        default=(), max_length=200, description="loads on its top edge; `at`, `from` and `to` are out from the wall"
    )
    deflects: PositiveLength | None = Field(default=None, description="how far its nose may sink")
    near: Near | None = Field(default=None, description="a beam above it")
    above: Literal["nothing"] | None = Field(
        default=None, description="nothing: no beam, shelf or ceiling above it could come down on it (else see near)"
    )
    cover: Cover | None = Field(default=None, description="for a cover: what it hides")
    accidental: Force | Literal["not for load"] | None = Field(
        default=None,
        description='of somebody who hangs on it, or "not for load" where it is labelled so and comes off harmlessly',
        examples=["200 lb"],
    )
    accidental_from: Answer = Field(default="", description="who chose that force, or which local rule")
    knots: Literal["none in the throat", "in the throat", "not looked at"] | None = Field(
        default=None, description="knots, checks and repairs where it is thinnest"
    )
    checks: tuple[Point, ...] | None = Field(
        default=None,
        max_length=20,
        description="checks that are there, a place on each; they run along the grain; [] when none is seen",
    )
    proof_test: Answer | None = Field(
        default=None,
        description="who, as an engineer, wants a test of each piece of a sawn bracket that the split test refuses",
        examples=["the engineer of record, letter of 4 March 2026"],
    )
    rods: tuple[RodInWood, ...] = Field(
        default=(), max_length=20, description="rods or long screws across the grain of a solid bracket or corbel"
    )

    @field_validator("shape", mode="before")
    @classmethod
    def _family_is_text(cls, shape: Any) -> Any:
        """What is no text is no family; pydantic would write a number of thousands of digits out and stumble."""
        if isinstance(shape, dict) and not isinstance(shape.get("family", ""), str):
            return {**shape, "family": ""}
        return shape

    def faults(self) -> Iterator[Fault]:
        """What role and family need, loads within the top edge, fixings within the wall leg."""
        if self.role == "cover" and self.cover is None:
            text = "missing: what does it hide?"
            yield ("cover",), f'{text} For example cover = {{ hides = ["hidden plate A"], heads_stand_out = "3/4 in" }}'
        if self.above is not None and self.near is not None:
            text = f"nothing is said to be above it, yet near names the beam {self.near.beam!r}"
            yield ("above",), f"{text}: leave one of them out"
        if self.role != "cover" and self.cover is not None:
            yield ("cover",), f'the role is {self.role!r}: leave cover out, or write role = "cover"'
        if self.stock is None and self.shape.of_wood:
            text = "missing: which wood it is cut from; the name of its [[stock]] entry"
            yield ("stock",), f'{text}, for example stock = "bracket board" (only a steel core needs none)'
        if self.rods and not self.shape.sawn:
            yield ("rods",), "rods across the grain are read for a solid bracket or a corbel: leave them out"
        if self.proof_test is not None and (not self.shape.sawn or self.shape.in_the_dap):
            text = "a test of each piece is read for a solid bracket or a corbel without a dap"
            yield ("proof_test",), f"{text}: leave it out"
        out, down = self.shape.stands_out, self.shape.foot_at
        for i, rod in enumerate(self.rods):
            for field, most in (("out_from", out), ("out_to", out), ("down_from", down), ("down_to", down)):
                if most is not None and getattr(rod, field) > most + SAME_PLACE:
                    yield (
                        ("rods", i, field),
                        f"{inches(getattr(rod, field))} is not on the bracket: at most {inches(most)}",
                    )
        yield from self._in_the_air()
        yield from _loads_out(self.carries, self.shape.stands_out)
        yield from _accidental(self.accidental, self.accidental_from)
        if self.fixings is not None:
            yield from row_faults(self.fixings.rows, self.shape)

    def _in_the_air(self) -> Iterator[Fault]:
        """Rods and checks run in the wood: where a rod is said to be there must be some all along it."""
        for i, rod in enumerate(self.rods):
            share = [k / RODS for k in range(RODS + 1)]
            line = [
                (rod.out_from + s * (rod.out_to - rod.out_from), rod.down_from + s * (rod.down_to - rod.down_from))
                for s in share
            ]
            if (air := self.shape.air_at(line)) is not None:
                yield ("rods", i, "down_to"), f"{_words(air)} there is no wood: a rod holds in wood all along it"
        for i, point in enumerate(self.checks or ()):
            if (air := self.shape.air_at([(point.x, point.y)])) is not None:
                yield ("checks", i), f"{_words(air)} there is no wood: give a place on the check"


RODS = 32  # parts of a rod that are looked at
LIGHTER = 0.98  # of what its layers weigh: less is a slip, not rounding


class Trim(Insisting):
    """Something for the looks only: a boxed beam, a molding, a hung ornament. It never carries."""

    name: Name = Field(description="what this piece is called in the job", examples=["boxed beam over the seam"])
    role: Literal["decorative", "cover"] = Field(description="trim never carries", examples=["cover"])
    what: Words = Field(description="what it is, in words", examples=["three boards around a seam, no core"])
    on: Name = Field(description="the piece or [[existing]] entry it is fixed to", examples=["B1"])
    stock: Name | None = Field(default=None, description="the name of its [[stock]] entry, when it is wood of the job")
    weight: Force = Field(description="own weight; left out where made_of says what it is made of", examples=["35 lb"])
    made_of: tuple[Layer, ...] = Field(
        default=(), max_length=30, description="its layers, which give its weight: boards, plaster, board, thin brick",
        examples=[[{"what": "wood", "species": "White Oak", "length": "10 ft", "width": "30 in",
                    "thickness": "3/4 in"}]],
    )  # fmt: skip
    hangs: Literal["below", "on the face"] = Field(
        description="below: its weight pulls on the fasteners; on the face: it shears them", examples=["below"]
    )
    stands_out: PositiveLength | None = Field(
        default=None,
        description="on a face: how far the middle of its weight stands out from the wood it is fixed to; half of its "
        "depth where it is alike all through",
        examples=["3 in"],
    )
    height: PositiveLength | None = Field(
        default=None, description="on a face: from its top edge down to the lowest edge that presses on the wall"
    )
    near: Near | None = Field(
        default=None, description="a beam above it that does not rest on it, with the gap between them",
        examples=[{"beam": "B1", "at": "6 ft", "gap": "1/2 in"}],
    )  # fmt: skip
    above: Literal["nothing"] | None = Field(
        default=None, description='"nothing": no beam, floor or roof over it can come down on it'
    )
    fixings: Fixings | None = Field(default=None, description="what holds it there")
    carries: tuple[Load, ...] = Field(
        default=(), max_length=50, description="anything that rests on it or hangs from it"
    )
    accidental: Force | Literal["not for load"] | None = Field(
        default=None, description="as for a bracket", examples=["not for load"]
    )
    accidental_from: Answer = Field(default="", description="who chose that force, or which local rule")

    @model_validator(mode="before")
    @classmethod
    def _weight_of_its_layers(cls, data: Any) -> Any:
        """What it is made of says what it weighs, where nobody does."""
        if not isinstance(data, Mapping) or data.get("weight") is not None or not entries(data.get("made_of")):
            return data
        try:
            layers = [Layer.model_validate(one) for one in entries(data["made_of"])]
        except (ValidationError, JobError):
            return {**data, "weight": "1 lb"}  # the layers say themselves what is wrong
        return {**data, "weight": f"{weight_of(layers)!r} lb"}

    def faults(self) -> Iterator[Fault]:
        """Its weight, and loads that are forces, since trim has no measured length."""
        if self.made_of and self.weight < LIGHTER * (layers := weight_of(self.made_of)):
            text = f"{self.weight:.4g} lbf, and what it is made of weighs {layers:.4g} lbf"
            yield ("weight",), f"{text}: weigh it, or leave weight out"
        if self.weight <= 0.0:
            yield ("weight",), f"{self.weight:g} lbf cannot be right: everything weighs something"
        if self.above is not None and self.near is not None:
            yield ("above",), f"nothing is said to be above it, yet near names {self.near.beam!r}: leave one out"
        for i, load in enumerate(self.carries):
            if _sort(load) in ("area", "line"):
                text = "trim carries forces (lbf): multiply the load by the area or length it comes from"
                yield ("carries", i), text
            if load.at is not None:
                yield ("carries", i, "at"), "trim has no length along which a place could be measured: leave `at` out"
            yield from _no_rafter(load, i)
            if load.moves:
                yield ("carries", i, "moves"), "a load on trim does not move: leave `moves` out"
        yield from _accidental(self.accidental, self.accidental_from)
        if self.hangs == "below":
            for field in ("stands_out", "height"):
                if getattr(self, field) is not None:
                    yield (field,), f'it hangs below: leave {field} out, or write hangs = "on the face"'
        if self.fixings is not None:
            yield from row_faults(self.fixings.rows)
            lowest = max((row.below_top for row in self.fixings.rows), default=0.0)
            if self.height is not None and lowest >= self.height:
                text = f"{inches(self.height)} high, but a row is {inches(lowest)} below its top edge"
                yield ("height",), f"{text}: give the whole height"


def _words(place: tuple[float, float]) -> str:
    return f"{inches(place[0])} out from the wall and {inches(place[1])} down"


def _sort(load: Load) -> str | None:
    sorts = {amount[1] for kind in _KINDS if (amount := getattr(load, kind)) is not None}
    return sorts.pop() if len(sorts) == 1 else None


def _no_rafter(load: Load, i: int) -> Iterator[Fault]:
    if load.measured is not None:
        yield ("carries", i, "measured"), "`measured` is for rafters: a level piece has no slope"


def _loads_out(loads: Sequence[Load], projection: float) -> Iterator[Fault]:
    """Loads lie between wall and nose; a force says where, a load per area how wide."""
    for i, load in enumerate(loads):
        sort = _sort(load)
        if load.moves:
            text = "on a bracket a load that moves is worst at the nose"
            yield ("carries", i, "moves"), f'{text}: leave `moves` out and write at = "{inches(projection)}"'
        elif sort == "point" and load.at is None:
            text = "missing: a force needs its place out from the wall"
            yield ("carries", i, "at"), f'{text}, for example at = "{inches(0.5 * projection)}"'
        if sort == "area" and load.width is None:
            text = "missing: a load per area needs the width that comes to this bracket"
            yield ("carries", i, "width"), f'{text}, for example width = "24 in" (the spacing of the brackets)'
        yield from _no_rafter(load, i)
        for field, name in (("at", "at"), ("start", "from"), ("end", "to")):
            place = getattr(load, field)
            if place is not None and place > projection + SAME_PLACE:
                text = f"{inches(place)} is beyond the nose: the bracket stands out {inches(projection)} from the wall"
                yield ("carries", i, name), text


def _accidental(force: float | str | None, chosen_by: str) -> Iterator[Fault]:
    if isinstance(force, float):
        if not 0.0 < force <= LARGEST_HANG:
            text = f"{force:,.9g} lbf cannot be right: more than 0 and at most {LARGEST_HANG:,.0f} lbf can be read"
            yield ("accidental",), f'{text}, or write "not for load"'
        if not chosen_by:
            text = "missing: who chose that force, or which local rule; no code names one for brackets"
            yield ("accidental_from",), f'{text}; for example accidental_from = "the owner, letter of 3 May 2025"'
    elif force is None and chosen_by:
        text = "missing: accidental_from names its source, but which force is it?"
        yield ("accidental",), f'{text} For example accidental = "200 lb", or "not for load"'
