"""Nails or bolts through the plies of a built-up piece."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Annotated, Literal

from pydantic import Field

from ..fields.base import Name, Piece
from ..fields.places import Fault
from ..fields.quantities import PositiveLength


class PlySchedule(Piece):
    """The schedule by which the plies are nailed or bolted together (NDS 2018 15.3, 12.5)."""

    kind: Literal["nail", "bolt"] = Field(description="what goes through all plies", examples=["nail"])
    size: Name = Field(description="as the trade names it", examples=["30d common"])
    rows: Annotated[int, Field(ge=1, le=10)] = Field(description="rows along the piece", examples=[2])
    spacing: PositiveLength = Field(description="from fastener to fastener in a row", examples=["8 in"])
    row_spacing: PositiveLength | None = Field(default=None, description="from row to row")
    end: PositiveLength = Field(description="from the end of the piece to the first", examples=["3 1/2 in"])
    edge: PositiveLength = Field(description="from the edge of the plies to the nearest row", examples=["1 1/2 in"])
    washers: bool | None = Field(default=None, description="bolts: a washer or plate under each head and nut")
    from_both_sides: bool | None = Field(default=None, description="nails: driven in turn from either side")

    def faults(self) -> Iterator[Fault]:
        """Several rows have a distance, and each kind what belongs to it."""
        if self.rows > 1 and self.row_spacing is None:
            text = f"missing: {self.rows} rows need the distance from row to row"
            yield ("row_spacing",), f'{text}, for example row_spacing = "2 1/2 in"'
        if self.rows == 1 and self.row_spacing is not None:
            yield ("row_spacing",), "one row has no distance from row to row: write rows = 2 or more, or leave it out"
        if self.kind == "bolt" and self.from_both_sides is not None:
            yield ("from_both_sides",), "a bolt goes right through: leave from_both_sides out"
        if self.kind == "nail" and self.washers is not None:
            yield ("washers",), "a nail has no washer: leave washers out"
