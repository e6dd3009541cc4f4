"""What holds a bracket or a piece of trim: rows of fasteners, and what they go into. No computing here."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import pairwise
from typing import Annotated, Literal

from pydantic import Field

from ..anchors.anchor import Fastener, Other, Rating
from ..fields.base import Answer, Piece
from ..fields.places import SAME_PLACE, Fault, Path, inches
from ..fields.quantities import Length, PositiveLength
from .shapes import Shape


class Row(Piece):
    """One row of fasteners through the wall leg, all at one height."""

    below_top: PositiveLength = Field(description="from the top edge of the bracket", examples=["2 in"])
    count: Annotated[int, Field(ge=1, le=6)] = Field(description="side by side at that height", examples=[1])
    apart: PositiveLength | None = Field(default=None, description="from one to the next, across the thickness")
    from_side: PositiveLength | None = Field(
        default=None, description="from the side of the bracket to the first; not said: in the middle"
    )
    slot: PositiveLength | None = Field(default=None, description="length of an upright slot that lets it slide")
    through: PositiveLength | None = Field(
        default=None, description="wood between its heads and the wall, where it is another than that of the fixings"
    )
    length: PositiveLength | None = Field(
        default=None, description="of its fasteners, where it is another than that of the fixings"
    )

    @property
    def offsets(self) -> tuple[float, ...]:
        """How far each of its fasteners is from the first, in."""
        return tuple((self.apart or 0.0) * k for k in range(self.count))

    def places(self, wide: float) -> tuple[float, ...]:
        """From the side of a bracket so wide to each of its fasteners, in; in the middle where nothing is said."""
        first = self.from_side if self.from_side is not None else 0.5 * (wide - self.offsets[-1])
        return tuple(first + off for off in self.offsets)

    def faults(self) -> Iterator[Fault]:
        """Several fasteners need the distance between them; one has none."""
        if self.count > 1 and self.apart is None:
            text = f"missing: {self.count} side by side need the distance from one to the next"
            yield ("apart",), f'{text}, for example apart = "1 1/2 in"'
        if self.count == 1 and self.apart is not None:
            text = "a distance from one to the next, but there is only one: write count = 2, or leave apart out"
            yield ("apart",), text


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

    def through_of(self, row: Row) -> float | None:
        """Wood between the heads of a row and the wall, in."""
        return self.through if row.through is None else row.through

    def fastener_of(self, row: Row) -> Fastener | None:
        """The fasteners of a row."""
        if self.fastener is None or row.length is None:
            return self.fastener
        return self.fastener.model_copy(update={"length": row.length})

    def of_row(self, row: Row) -> Fixings:
        """The fixings as if all rows were like one."""
        return self.model_copy(update={"fastener": self.fastener_of(row), "through": self.through_of(row)})

    def faults(self) -> Iterator[Fault]:
        """Fasteners that reach what is behind, and no fasteners where nothing but a hand has fixed it."""
        fastener = self.fastener
        if self.by_hand is not None and (fastener is not None or self.rows):
            field = "fastener" if fastener is not None else "rows"
            text = f'by_hand = "{self.by_hand}" says that nothing but {self.by_hand} holds it'
            yield ("by_hand",), f"{text}, yet {field} is given: leave one of them out"
        if fastener is None or fastener.kind == "pin":
            return
        yield from self._reach(fastener.length, self.through, ("fastener", "length"))
        for i, row in enumerate(self.rows):
            if row.through is not None or row.length is not None:
                length = fastener.length if row.length is None else row.length
                yield from self._reach(length, self.through_of(row), ("rows", i, "length"))

    def _reach(self, length: float | None, through: float | None, path: Path) -> Iterator[Fault]:
        """That a fastener comes out of what it goes through."""
        assert self.fastener is not None
        if length is None or through is None:
            return
        need, bolt = through + self.gap, self.fastener.kind == "bolt"
        if bolt:
            need += self.other.thickness if self.other is not None else 0.0
        if length <= need + SAME_PLACE:
            more = "as much as its nut takes" if bolt else "as much as it must go in"
            text = f"{inches(length)} does not reach through: it needs more than {inches(need)} and {more}"
            yield path, f"{text} (`through` and `gap`)"


def row_faults(rows: Sequence[Row], shape: Shape | None = None) -> Iterator[Fault]:
    """Rows within the wall leg and the thickness, from the top down, and slots that fit between them."""
    leg, width, down = None, None, None
    if shape is not None:
        leg, width, down = shape.foot_at, shape.side_to_side, shape.lowest_fixing
    for i, row in enumerate(rows):
        path: Path = ("fixings", "rows", i)
        if down is not None and row.below_top > down + SAME_PLACE:
            text = f"{inches(row.below_top)} is below the upright leg's lowest fixing: `down` is {inches(down)}"
            yield (*path, "below_top"), f"{text}; rows are measured down from the bend, and `down` to the lowest"
        elif leg is not None and row.below_top >= leg:
            text = f"{inches(row.below_top)} below the top is not on the bracket, whose foot is at {inches(leg)}"
            yield (*path, "below_top"), f"{text}: rows are measured down from its top edge"
        elif row.slot is not None:
            half, room = 0.5 * row.slot, row.below_top if leg is None else min(row.below_top, leg - row.below_top)
            if half >= room:
                text = f"a slot {inches(row.slot)} long does not end within the bracket"
                yield (*path, "slot"), f"{text}: at this height it may be less than {inches(2.0 * room)}"
        if width is not None:
            yield from _across(path, row, width)
    for i, (upper, lower) in enumerate(pairwise(rows), start=1):
        if lower.below_top <= upper.below_top + SAME_PLACE:
            text = f"row {i} is at {inches(upper.below_top)} already or lower: rows are written from the top down"
            yield ("fixings", "rows", i, "below_top"), f"{text}, those of one height as one row with its count"
        elif 0.5 * ((upper.slot or 0.0) + (lower.slot or 0.0)) >= lower.below_top - upper.below_top:
            text = "its slots run into the row above or below: shorten them, or move the rows apart"
            yield ("fixings", "rows", i if lower.slot else i - 1, "slot"), text
    if rows and all(row.slot is not None for row in rows):
        text = "every row is slotted, so nothing keeps it from sliding down"
        yield ("fixings", "rows", 0, "slot"), f"{text}: leave the slot out of one row"


def _across(path: Path, row: Row, width: float) -> Iterator[Fault]:
    spread, start = row.offsets[-1], row.places(width)[0]
    if row.from_side is not None and start >= width:
        text = f"{inches(start)} from the side is outside of a bracket {inches(width)} thick"
        yield (*path, "from_side"), f"{text}: leave from_side out for a row in the middle"
    elif spread and (start <= 0.0 or start + spread >= width):
        text = f"{row.count} fasteners {inches(row.apart or 0.0)} apart are {inches(spread)} wide"
        if row.from_side is not None:
            text += f" and begin {inches(start)} from the side"
        yield (*path, "apart"), f"{text}: they do not go into a bracket {inches(width)} thick"
