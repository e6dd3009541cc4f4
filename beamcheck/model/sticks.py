"""What beams, rafters and ties have in common: supports, cuts, loads along a stick."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import Annotated, Literal

from pydantic import Field

from .brackets.near import Role
from .fields.base import Answer, Name, Piece
from .fields.marks import Marked
from .fields.places import SAME_PLACE, Fault, Path, feet, inches
from .fields.quantities import Length, PositiveLength
from .fields.seldom import Seldom
from .fire import Fire
from .loads import Load, sort_of

Finish = Literal["plaster", "gypsum board", "masonry veneer", "flexible", "none"]


class Cut(Piece):
    """Wood that is missing: a notch, mortise, hole or taper. It is never ignored."""

    kind: Literal["notch", "hole", "mortise", "taper"] = Field(description="what sort of cut", examples=["notch"])
    at: Length = Field(description="middle of the cut along the piece; of an end notch the end", examples=["7 ft"])
    length: Length = Field(default=0.0, description="extent along the piece")
    depth: PositiveLength = Field(
        description="notch, taper: how deep; hole: diameter; mortise: height", examples=["1 1/2 in"]
    )
    width: PositiveLength | None = Field(
        default=None, description="breadth across the piece of a mortise, or of a notch that is not cut right across"
    )
    face: Literal["top", "bottom", "side"] = Field(default="side", description="the face it is cut from")
    from_bottom: Length | None = Field(
        default=None,
        description="hole or mortise: from the bottom edge of the piece to the middle of the cut",
        examples=["4 in"],
    )

    def faults(self) -> Iterator[Fault]:
        """Each kind of cut has the measures that say what is missing."""
        if self.kind in ("hole", "mortise"):
            if self.from_bottom is None:
                yield ("from_bottom",), f'missing: a {self.kind} needs its height, for example from_bottom = "4 in"'
        else:
            if self.face == "side":
                text = f'a {self.kind} is cut from the top or the bottom: write face = "top" or face = "bottom"'
                yield ("face",), f"{text} (wood taken from the side is a mortise)"
            if self.from_bottom is not None:
                yield ("from_bottom",), f"a {self.kind} starts at its face: leave from_bottom out"
        if self.kind != "hole" and self.length <= 0:
            yield ("length",), f'missing: a {self.kind} needs its extent along the piece, for example length = "6 in"'
        if self.kind == "mortise" and self.width is None:
            yield ("width",), 'missing: a mortise needs its breadth across the piece, for example width = "1 1/2 in"'
        if self.kind in ("hole", "taper") and self.width is not None:
            yield ("width",), f"a {self.kind} goes through the full breadth: leave width out"


class Support(Piece):
    """What a piece rests on or hangs from, and how."""

    at: Length = Field(
        description="distance along the piece from its left end to the middle of the seat", examples=["14 ft"]
    )
    on: Name = Field(description="the name of another piece or of an [[existing]] entry", examples=["west post"])
    lands_at: Length | None = Field(
        default=None, description="where along the carrying beam it lands, from that beam's left end", examples=["3 ft"]
    )
    lands_on: Name | None = Field(
        default=None, description="of what rests on a frame: the point of the frame", examples=["ridge"]
    )
    lands_from: Length | None = Field(
        default=None, description="of a row of pieces: where along the carrying beam its first one lands"
    )
    lands_to: Length | None = Field(default=None, description="of a row of pieces: where its last one lands")
    holds: Literal["rests", "hung", "fixed"] = Field(
        default="rests", description="rests: on a seat; hung: in a hanger; fixed: cannot turn"
    )
    bearing: PositiveLength | None = Field(default=None, description="length of the seat along this piece")
    bearing_width: PositiveLength | None = Field(
        default=None, description="breadth of the seat when less than the full breadth"
    )
    restrained: bool | None = Field(default=None, description="is the end held against turning over")
    settles: Length = Field(default=0.0, description="known settlement, down")
    tied_down: Answer = Field(default="", description="what resists uplift")
    held_by: Name | None = Field(
        default=None, description="the [[anchor]] group that holds this end", examples=["hidden plate A"]
    )

    @property
    def row(self) -> tuple[float, float] | None:
        """Of a row of pieces: from where to where along the carrying beam it lands."""
        return None if self.lands_from is None or self.lands_to is None else (self.lands_from, self.lands_to)

    def faults(self) -> Iterator[Fault]:
        """A row begins and ends somewhere."""
        yield from row_faults(self.lands_from, self.lands_to)


def row_faults(first: float | None, last: float | None) -> Iterator[Fault]:
    """A row of pieces has both ends, in order."""
    if (first is None) != (last is None):
        missing = "lands_from" if first is None else "lands_to"
        yield (missing,), "missing: a row begins at lands_from and ends at lands_to; give both, or neither"
    elif first is not None and last is not None and last < first:
        yield ("lands_to",), f"{feet(last)} is before the first one at {feet(first)}: exchange the two"


class Stick(Marked):
    """What beams, rafters and ties have in common."""

    stock: Name = Field(description="the name of its [[stock]] entry", examples=["old beam"])
    role: Role = Field(
        default="carries", description="carries; decorative: meant to bear nothing but itself; cover: hides hardware"
    )
    plies: Annotated[int, Field(ge=1, le=6)] = Field(
        default=1, description="sticks side by side that make up the piece"
    )
    plies_fastened: Answer = Field(
        default="",
        description="how the plies are fastened together: nails or bolts, size, rows and spacing, and by which table",
        examples=["10d nails, two rows, 24 in apart, staggered, by the fastener table of the code"],
    )
    laid: Literal["on edge", "flat"] = Field(default="on edge", description="which way the stick lies")
    carries: tuple[Load, ...] = Field(
        default=(), max_length=200, description="the loads on it, its own weight left out"
    )
    cuts: tuple[Seldom[Cut], ...] = Field(default=(), max_length=200, description="wood that is missing")
    finish: Finish = Field(
        description="what is attached below or rests on it and cracks when it bends; sets the deflection limits",
        examples=["plaster"],
    )
    limit_live: Annotated[int, Field(ge=60, le=2000)] | None = Field(
        default=None, description="own deflection limit under live load: length over this number"
    )
    limit_total: Annotated[int, Field(ge=60, le=2000)] | None = Field(
        default=None, description="own deflection limit under total load: length over this number"
    )
    limit_why: Answer = Field(
        default="", description="why the usual limit is overridden", examples=["engineer's letter of 3 May 2025"]
    )
    spacing: PositiveLength | None = Field(
        default=None, description="from middle to middle of repeated members", examples=["16 in"]
    )
    members: Annotated[int, Field(ge=1, le=1000)] = Field(
        default=1, description="how many of them side by side share the load through a deck"
    )
    shared_by: Answer = Field(
        default="", description="the deck that shares load between them", examples=["3/4 in boards, nailed"]
    )
    top_held: Literal["full length", "at loads", "ends only"] | PositiveLength = Field(
        description="what keeps the top edge from moving sideways; a length is the spacing of braces",
        examples=["ends only"],
    )
    bottom_held: Literal["full length", "ends only"] | PositiveLength = Field(
        default="ends only", description="the same for the bottom edge"
    )

    fire: Seldom[Fire] | None = Field(
        default=None, description="a fire that it must stand, where somebody asks for one"
    )

    assumed: tuple[Literal["top_held"], ...] = Field(
        default=(), max_length=1, description="nobody has said it and the safe side is written: asked where it decides"
    )

    def faults(self) -> Iterator[Fault]:
        """Own limits say why, a row says what shares, and plies stand on edge."""
        for field in ("limit_live", "limit_total"):
            if getattr(self, field) is not None and not self.limit_why.strip():
                yield (
                    ("limit_why",),
                    f'missing: {field} overrides the usual limit; say why, for example limit_why = "..."',
                )
                break
        if self.assumed and self.top_held != "ends only":
            text = 'what nobody has said is entered as top_held = "ends only", the safe side: or leave assumed out'
            yield ("assumed",), text
        if self.members > 1:
            if self.spacing is None:
                yield (
                    ("spacing",),
                    'missing: members that share a load need their spacing, for example spacing = "16 in"',
                )
            if not self.shared_by.strip():
                yield (
                    ("shared_by",),
                    'missing: members share a load only through a deck; for example shared_by = "1 in boards"; '
                    "without one leave members out",
                )
        if self.plies == 1 and self.plies_fastened:
            yield (
                ("plies_fastened",),
                "there is one ply only: leave plies_fastened out, or say how many plies there are",
            )
        if self.laid == "flat" and self.plies > 1:
            yield ("plies",), "plies laid flat on one another slide and do not act as one: describe one ply"


def widths(loads: Sequence[Load]) -> Iterator[Fault]:
    for i, load in enumerate(loads):
        if load.width is None and sort_of(load) == "area":
            text = "missing: a load per area needs the width that comes to this piece"
            yield ("carries", i, "width"), f'{text}, for example width = "4 ft" (for repeated pieces their spacing)'


def places_inside(
    loads: Sequence[Load], cuts: Sequence[Cut], length: float, what: str, *, measured: bool = False, tail: float = 0.0
) -> Iterator[Fault]:
    """Loads and cuts lie within the piece; a force says where; `measured` is for rafters.

    `tail` is how far it may reach beyond the length as given.
    """
    for i, load in enumerate(loads):
        if sort_of(load) == "point" and load.at is None and not load.moves:
            yield ("carries", i, "at"), 'missing: a force needs its place, for example at = "7 ft"'
        if load.measured is not None and not measured:
            yield ("carries", i, "measured"), "`measured` is for rafters: a level piece has no slope"
        for field, name in (("at", "at"), ("start", "from"), ("end", "to")):
            if (place := getattr(load, field)) is not None:
                yield from inside(("carries", i, name), place, length, what)
    for i, cut in enumerate(cuts):
        yield from inside(("cuts", i, "at"), cut.at, length, what)
        half = 0.5 * max(cut.length, cut.depth)
        first, last = half - SAME_PLACE, length + tail - half + SAME_PLACE
        if cut.kind == "hole" and cut.at <= length and not first <= cut.at <= last:
            end = "its left end" if cut.at < half else f"its end at {feet(length)}"
            text = f"a hole {inches(2.0 * half)} long with its middle at {feet(cut.at)} reaches beyond {end}"
            yield ("cuts", i, "at"), f"{text}: at is the middle of the hole; enter what is cut off the end as a notch"


def inside(path: Path, place: float, length: float, what: str) -> Iterator[Fault]:
    if place > length + SAME_PLACE:
        yield path, f"{feet(place)} is beyond the end: {what} is {feet(length)} long"
