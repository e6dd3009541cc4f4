"""What holds the ends: groups of bolts, screws, nails or pins, plates, hangers, rated hardware. No computing here."""

from __future__ import annotations

from typing import Annotated, Literal

from pydantic import Field, StringConstraints

from .base import Answer, Name, Piece
from .quantities import Force, Length, PositiveLength, Stress

Manner = Literal[
    "wood side", "plate one side", "plates both sides", "concealed plate", "ledger", "hanger rod", "let-in angle",
    "toe-nails", "rated hardware", "by others", "holds nothing",
]  # fmt: skip


class Place(Piece):
    """One hole, seen square to the face."""

    x: Length = Field(description="from the end of the held piece, along its grain", examples=["5 1/4 in"])
    y: Length = Field(description="from the bottom edge of the held piece", examples=["3 in"])


class Holes(Piece):
    """Where the fasteners go in the held piece: rows along its grain, or place by place."""

    rows: Annotated[int, Field(ge=1, le=20)] | None = Field(default=None, description="rows along the grain")
    columns: Annotated[int, Field(ge=1, le=40)] | None = Field(default=None, description="fasteners in each row")
    spacing: PositiveLength | None = Field(default=None, description="from fastener to fastener in a row")
    row_spacing: PositiveLength | None = Field(default=None, description="from row to row, across the grain")
    end: PositiveLength | None = Field(
        default=None, description="from the end of the held piece to the nearest fastener"
    )
    edge: PositiveLength | None = Field(default=None, description="from its bottom edge to the lowest row")
    places: tuple[Place, ...] = Field(default=(), max_length=200, description="each hole by itself, in place of rows")


class Fastener(Piece):
    """One kind of fastener; a group has one kind only."""

    kind: Literal["bolt", "lag screw", "wood screw", "nail", "pin"] = Field(description="what it is", examples=["bolt"])
    size: Name = Field(description="as the trade names it", examples=["3/4 in", "No. 10", "16d common"])
    length: PositiveLength | None = Field(default=None, description="of the fastener, under its head")
    steel: Name | None = Field(default=None, description="grade of a bolt or pin", examples=["A307"])
    F_yb: Stress | None = Field(default=None, description="bending yield strength by its maker")
    F_yb_from: Answer = Field(default="", description="which document of the maker says so")
    threads: Literal["in the shear plane", "clear of it"] | None = Field(
        default=None, description="where the threads lie; not said: in the shear plane"
    )
    washer: PositiveLength | None = Field(
        default=None, description="outside diameter of the washers under head and nut"
    )
    counterbore: PositiveLength | None = Field(default=None, description="diameter of the bore that hides head or nut")
    counterbore_depth: PositiveLength | None = Field(default=None, description="depth of each such bore")
    plugged: bool = Field(default=False, description="the bores are closed with plugs")
    coating: Literal["none", "hot-dip galvanized", "stainless", "other"] | None = Field(
        default=None, description="what keeps it from rusting"
    )


class Plate(Piece):
    """A steel plate or the leg of an angle."""

    steel: Name = Field(description="grade", examples=["A36"])
    thickness: PositiveLength = Field(description="of the plate", examples=["1/4 in"])
    width: PositiveLength = Field(description="across the grain of the held piece", examples=["6 in"])
    length: PositiveLength = Field(description="along the grain of the held piece", examples=["10 in"])
    slot: PositiveLength | None = Field(default=None, description="width of the slot it sits in (concealed plate)")
    slot_length: PositiveLength | None = Field(
        default=None, description="length of that slot from the end of the piece"
    )
    slot_height: PositiveLength | None = Field(default=None, description="height of the slot; not said: the full depth")
    weld: PositiveLength | None = Field(default=None, description="leg of the fillet weld to its base, both sides")


class Other(Piece):
    """The member on the other side of the joint, where it is wood or concrete."""

    stock: Name | None = Field(default=None, description="its [[stock]], when it is wood of the job")
    thickness: PositiveLength = Field(description="that the fastener goes through or into", examples=["3 1/2 in"])
    grain: Literal["along", "across", "end"] = Field(
        description="its grain against that of the held piece; end: the fastener goes into its end grain",
        examples=["across"],
    )
    end: PositiveLength | None = Field(
        default=None, description="from its nearer end, along its grain, to the first fastener"
    )
    edge: PositiveLength | None = Field(default=None, description="from its edge, across its grain, to the first row")
    material: Literal["wood", "concrete"] = Field(default="wood", description="what it is")


class Rating(Piece):
    """Allowable loads that somebody else published; copied by the user, applied as they stand."""

    source: Annotated[str, StringConstraints(min_length=8, max_length=2000)] = Field(
        description="report, number, edition, table", examples=["evaluation report ER-0000, 2025 edition, table 3"]
    )
    down: Force | None = Field(default=None, description="allowable load downwards")
    up: Force | None = Field(default=None, description="allowable load upwards")
    along: Force | None = Field(default=None, description="allowable pull along the held piece")
    duration: Literal["included", "apply C_D"] = Field(
        description="whether the load duration factor is in the figures already", examples=["included"]
    )
    conditions: Answer = Field(default="", description="wood, fasteners and moisture that the figures hold for")
    conditions_met: bool | None = Field(default=None, description="have you seen that these conditions are met?")


class Anchor(Piece):
    """One anchor group: what holds one end, a hanger, or a piece on another."""

    name: Name = Field(description="what this group is called in the job", examples=["hidden plate A"])
    manner: Manner = Field(description="how it holds", examples=["concealed plate"])
    into: Name | None = Field(default=None, description="the piece or [[existing]] entry it is fastened to")
    fastener: Fastener | None = Field(default=None, description="the fasteners through the held piece")
    holes: Holes | None = Field(default=None, description="where they are in the held piece")
    plate: Plate | None = Field(default=None, description="the plate or angle, if there is one")
    other: Other | None = Field(default=None, description="the wood or concrete on the other side, if there is any")
    gap: Length = Field(default=0.0, description="between the faces: a spacer, plaster or board in the joint")
    arm: Length | None = Field(
        default=None, description="from the middle of the group to the line on which the other side takes the load"
    )
    seasoned: Literal["dry", "green"] | None = Field(
        default=None, description="moisture of the wood when it is put together"
    )
    split: Literal["none seen", "check across the holes", "not looked at"] | None = Field(
        default=None, description="checks and splits along the holes"
    )
    rating: Rating | None = Field(default=None, description="for rated hardware: the published loads")
    confirmed_by: Answer = Field(default="", description="for by others: who answers for it in writing")
