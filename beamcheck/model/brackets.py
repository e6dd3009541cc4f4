"""Brackets, covers, trim: what is fixed to a wall, post or beam, and whether it is meant to carry. No computing here.

Coordinates of a bracket seen from its side: x out from the wall face, y down from its top edge, inches; the grain's
angle is measured upwards from level, towards the nose.
"""

from __future__ import annotations

from typing import Annotated, Any, Literal

from pydantic import BeforeValidator, Field, field_validator

from .anchors import Fastener, Other, Rating
from .base import Answer, Name, Piece, Words
from .loads import Load
from .quantities import Angle, Force, Length, Moisture, PositiveLength, Spring

Role = Literal["carries", "decorative", "cover"]
GRAIN_WORDS = {"level": "0 deg", "upright": "90 deg"}


def _grain(value: Any) -> Any:
    if not isinstance(value, str):
        return value
    word = value.strip().casefold()
    if word.startswith(("-", "\u2212")):
        text = "the grain's angle is measured upwards from level, towards the nose"
        raise ValueError(f"{value!r}: {text}; what falls by 30 deg towards the nose is '150 deg'")
    if word not in GRAIN_WORDS and not any(map(str.isdecimal, word)):
        raise ValueError(f"{value!r} is no direction of grain: write 'level', 'upright' or an angle such as '45 deg'")
    return GRAIN_WORDS.get(word, value)


Grain = Annotated[Angle, Field(ge=0, lt=180), BeforeValidator(_grain)]  # deg above level, towards the nose


class Point(Piece):
    """One point of a soffit."""

    x: Length = Field(description="out from the wall face", examples=["3 1/2 in"])
    y: Length = Field(description="down from the top edge", examples=["6 in"])


class Pocket(Piece):
    """Wood cut out of the wall face to make room for hardware."""

    top: Length = Field(description="from the top edge down to the pocket", examples=["2 in"])
    height: PositiveLength = Field(description="of the pocket", examples=["4 in"])
    depth: PositiveLength = Field(description="into the bracket, from the wall face", examples=["1 1/4 in"])
    width: PositiveLength | None = Field(
        default=None, description="across the thickness; not said: right through the thickness"
    )


class Solid(Piece):
    """Cut from one board or block."""

    family: Literal["solid"] = Field(description="cut from one board or block", examples=["solid"])
    thickness: PositiveLength = Field(description="of the bracket, side to side", examples=["1 1/2 in"])
    height: PositiveLength = Field(description="of the wall leg, along the wall", examples=["12 in"])
    projection: PositiveLength = Field(description="of the top edge, out from the wall", examples=["10 in"])
    foot: PositiveLength = Field(description="depth of the wall leg at its foot, out from the wall", examples=["2 in"])
    nose: PositiveLength = Field(description="depth of the top at its nose, down from the top edge", examples=["2 in"])
    soffit: Literal["straight", "concave", "convex", "ogee", "hollow arc", "full arc", "points"] = Field(
        description="the lower edge from foot to nose; concave and convex are quarter ellipses", examples=["concave"]
    )
    sagitta: PositiveLength | None = Field(
        default=None, description="of a hollow or full circular arc, from the straight line between its ends"
    )
    points: tuple[Point, ...] = Field(
        default=(), max_length=500, description="of the soffit, from the foot to the nose, both ends included"
    )
    grain: Grain | None = Field(
        default=None, description='"level", "upright", or degrees above level towards the nose', examples=["upright"]
    )
    pocket: Pocket | None = Field(default=None, description="cut into the wall face to hide hardware")


class Braced(Piece):
    """Built up of a wall leg, a top leg and a brace, straight or curved."""

    family: Literal["braced"] = Field(description="wall leg, top leg and brace", examples=["braced"])
    thickness: PositiveLength = Field(description="of all three pieces, side to side", examples=["2 1/2 in"])
    height: PositiveLength = Field(description="of the wall leg, along the wall", examples=["18 in"])
    projection: PositiveLength = Field(description="of the top leg, out from the wall", examples=["18 in"])
    wall_leg: PositiveLength = Field(description="depth of the wall leg, out from the wall", examples=["2 1/2 in"])
    top_leg: PositiveLength = Field(description="depth of the top leg, down from its top", examples=["2 1/2 in"])
    brace: PositiveLength = Field(description="depth of the brace, in the plane of the bracket", examples=["2 1/2 in"])
    brace_out: PositiveLength = Field(
        description="from the wall face to where the brace's axis meets the underside of the top leg",
        examples=["15 in"],
    )
    brace_down: PositiveLength = Field(
        description="from the top edge to where the brace's axis meets the outer face of the wall leg",
        examples=["15 in"],
    )
    sagitta: Length = Field(default=0.0, description="of a curved brace, from the straight line between its ends")
    joints: Literal["butted", "housed", "tenoned", "glued only"] | None = Field(
        default=None, description="how the brace meets the legs"
    )
    housing: PositiveLength | None = Field(default=None, description="depth of the housings or shoulders of the brace")
    behind_housing: PositiveLength | None = Field(
        default=None, description="length of wood along the leg's grain that keeps a housing from shearing off"
    )
    legs_joined: Answer = Field(default="", description="how top leg and wall leg are joined, and who worked it out")
    true_pins: bool = Field(
        default=False, description="the brace turns freely at its ends; else a tight joint bends it"
    )


class Bent(Piece):
    """A bent or laminated arc of constant depth, its grain along the arc, from the wall out to the nose."""

    family: Literal["bent"] = Field(description="a bent or laminated arc", examples=["bent"])
    thickness: PositiveLength = Field(description="side to side", examples=["1 1/2 in"])
    depth: PositiveLength = Field(description="of the arc, across its curve", examples=["2 in"])
    inner_radius: PositiveLength = Field(description="of the hollow side", examples=["10 in"])
    sweep: Annotated[Angle, Field(gt=0, le=180)] = Field(
        description="angle from the fixed end to the nose", examples=["90 deg"]
    )
    made: Literal["steam-bent", "laminated", "sawn"] | None = Field(default=None, description="how it got its curve")
    lamination: PositiveLength | None = Field(default=None, description="thickness of one lamination")
    glue: Answer = Field(default="", description="glue of the laminations and who vouches for it")


class SteelCore(Piece):
    """A concealed flat bar or angle inside a skin of wood; the steel carries all of it."""

    family: Literal["steel core"] = Field(
        description="a concealed bar or angle in a wooden skin", examples=["steel core"]
    )
    steel: Name = Field(description="grade of the bar", examples=["A36"])
    width: PositiveLength = Field(description="of the bar, side to side", examples=["1 1/2 in"])
    thickness: PositiveLength = Field(description="of the bar", examples=["1/4 in"])
    projection: PositiveLength = Field(description="of the level leg, out from the wall", examples=["8 in"])
    down: PositiveLength = Field(
        description="from the bend to the fixing that keeps the upright leg from turning", examples=["3 in"]
    )
    hole_at_bend: Length = Field(default=0.0, description="diameter of a hole at the bend; 0 for none")
    gusset_depth: PositiveLength | None = Field(default=None, description="of a welded gusset at the bend")
    gusset_thickness: PositiveLength | None = Field(default=None, description="of that gusset")
    gusset_edge: PositiveLength | None = Field(default=None, description="length of its free sloping edge")
    weld: PositiveLength | None = Field(default=None, description="leg of the gusset's fillet welds, both sides")
    tip_clear: Length | None = Field(
        default=None, description="how far the steel may sink at its tip before the skin is touched"
    )
    skin: Words = Field(default="", description="the wood around it, in words")


class Corbel(Piece):
    """A block on the face of a post."""

    family: Literal["corbel"] = Field(description="a block screwed to a post", examples=["corbel"])
    thickness: PositiveLength = Field(description="of the block, side to side", examples=["3 1/2 in"])
    height: PositiveLength = Field(description="along the post", examples=["9 in"])
    projection: PositiveLength = Field(description="out from the post", examples=["3 1/2 in"])
    grain: Grain | None = Field(default=None, description='"upright" as a rule', examples=["upright"])
    seat: Length = Field(default=0.0, description="depth of the dap in the post that the block's foot stands on")
    below_seat: PositiveLength | None = Field(
        default=None, description="length of post below the dap, along its grain, until the next cut or its end"
    )


Shape = Annotated[Solid | Braced | Bent | SteelCore | Corbel, Field(discriminator="family")]


class Row(Piece):
    """One row of fasteners through the wall leg, all at one height."""

    below_top: PositiveLength = Field(description="from the top edge of the bracket", examples=["2 in"])
    count: Annotated[int, Field(ge=1, le=6)] = Field(description="side by side at that height", examples=[1])
    apart: PositiveLength | None = Field(default=None, description="from one to the next, across the thickness")
    from_side: PositiveLength | None = Field(
        default=None, description="from the side of the bracket to the first; not said: in the middle"
    )
    slot: PositiveLength | None = Field(default=None, description="length of an upright slot that lets it slide")


class Fixings(Piece):
    """What holds a bracket or a piece of trim: rows of fasteners from its front into what is behind it."""

    fastener: Fastener | None = Field(default=None, description="the fasteners, all of one kind")
    rows: tuple[Row, ...] = Field(default=(), max_length=40, description="rows, from the top down")
    through: PositiveLength | None = Field(
        default=None, description="wood of the piece between the fastener's head and the wall"
    )
    other: Other | None = Field(default=None, description="the wood or concrete that the fasteners go into")
    wall: Literal["wood", "steel", "masonry", "plaster", "gypsum board"] | None = Field(
        default=None, description="what its back presses against"
    )
    gap: Length = Field(
        default=0.0, description="plaster, board or a spacer between its back and what is fastened into"
    )
    seasoned: Literal["dry", "green"] | None = Field(default=None, description="moisture of the wood when put together")
    split: Literal["none seen", "check across the holes", "not looked at"] | None = Field(
        default=None, description="checks and splits along the holes"
    )
    rating: Rating | None = Field(default=None, description="published loads of anchors in masonry or concrete")
    confirmed_by: Answer = Field(default="", description="fixings by others: who answers for them in writing")
    by_hand: Literal["friction", "magnets", "glue"] | None = Field(
        default=None, description="held by nothing but friction, magnets or glue: never enough overhead"
    )


class Closing(Piece):
    """Wood that brings the beam nearer to the bracket, or the bracket nearer to the beam, when it dries or swells."""

    what: Words = Field(description="what moves", examples=["sill plates under the post"])
    height: PositiveLength = Field(description="of that wood, across its grain", examples=["3 in"])
    species: Name | None = Field(default=None, description="its species, for the movement table")
    change: Moisture = Field(description="by how many points its moisture content may change", examples=["6 %"])


class Near(Piece):
    """A beam above a bracket that is not meant to touch it, or that rests on it."""

    beam: Name = Field(description="the beam above", examples=["B1"])
    at: Length = Field(description="where the nose stands along that beam, from its left end", examples=["2 ft"])
    gap: Length | None = Field(default=None, description="between nose and beam, as left; not said: unknown")
    fixed_to_beam: bool = Field(default=False, description="screwed tight to the beam as well: then it works both ways")
    slot: PositiveLength | None = Field(
        default=None, description="length of upright slots at its upper fixing, screws snug and not clamped"
    )
    pad: Spring | None = Field(
        default=None, description="stiffness of a soft pad in the gap, force per length", examples=["2,000 lb/in"]
    )
    pad_squeezes: PositiveLength | None = Field(default=None, description="how far the pad can be squeezed")
    sagged: Length | None = Field(
        default=None, description="how far the beam had come down already when the gap was set; not said: 0"
    )
    closing: tuple[Closing, ...] | None = Field(
        default=None, max_length=50, description="movements of wood that close the gap; [] when there is none"
    )


class Cover(Piece):
    """What a cover bracket hides, and what may happen to it."""

    hides: tuple[Name, ...] = Field(
        default=(), max_length=50, description="the [[anchor]] groups behind it", examples=[["hidden plate A"]]
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


class Bracket(Piece):
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

    @field_validator("shape", mode="before")
    @classmethod
    def _family_is_text(cls, shape: Any) -> Any:
        """What is no text is no family; pydantic would write a number of thousands of digits out and stumble."""
        if isinstance(shape, dict) and not isinstance(shape.get("family", ""), str):
            return {**shape, "family": ""}
        return shape


class Trim(Piece):
    """Something for the looks only: a boxed beam, a moulding, a hung ornament. It never carries."""

    name: Name = Field(description="what this piece is called in the job", examples=["boxed beam over the seam"])
    role: Literal["decorative", "cover"] = Field(description="trim never carries", examples=["cover"])
    what: Words = Field(description="what it is, in words", examples=["three boards around a seam, no core"])
    on: Name = Field(description="the piece or [[existing]] entry it is fixed to", examples=["B1"])
    stock: Name | None = Field(default=None, description="the name of its [[stock]] entry, when it is wood of the job")
    weight: Force = Field(description="own weight", examples=["35 lb"])
    hangs: Literal["below", "on the face"] = Field(
        description="below: its weight pulls on the fasteners; on the face: it shears them", examples=["below"]
    )
    fixings: Fixings | None = Field(default=None, description="what holds it there")
    carries: tuple[Load, ...] = Field(
        default=(), max_length=50, description="anything that rests on it or hangs from it"
    )
    accidental: Force | Literal["not for load"] | None = Field(
        default=None, description="as for a bracket", examples=["not for load"]
    )
    accidental_from: Answer = Field(default="", description="who chose that force, or which local rule")
