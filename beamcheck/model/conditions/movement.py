"""Parts that must have room to move: covers, panels, bolt rows, plaster lines."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Literal

from pydantic import Field

from ..fields.base import Answer, Insisting, Name
from ..fields.places import Fault
from ..fields.quantities import Length, Moisture, PositiveLength

Way = Literal["tangential", "radial", "mixed"]


class Movement(Insisting):
    """A part that moves with its moisture, on one piece of the job."""

    name: Name = Field(description="what it is called in the job", examples=["cover of the seam"])
    kind: Literal["boxed cover", "seam cover", "panel", "bolt row", "plaster line", "bracket"] = Field(
        description="what has to have room; bracket: the wood between a bracket and what is above or against it",
        examples=["seam cover"],
    )
    on: Name = Field(description="the piece that it is on", examples=["B1"])
    species: Name | None = Field(
        default=None, description="of the wood that moves, as the Wood Handbook or a stamp names it; else of the piece"
    )
    across: PositiveLength = Field(
        description="size across the grain that moves: board, panel, depth of timber, or from bolt to bolt",
        examples=["9 1/4 in"],
    )
    way: Way = Field(
        default="tangential",
        description="growth rings along the face (tangential, flat-sawn), square to it (radial), or both (mixed)",
    )
    built_at: Moisture = Field(description="moisture of the wood when it is put up; green: 30 %", examples=["12 %"])
    fixed: Literal["one edge", "middle", "both edges"] = Field(
        default="one edge", description="where it is fixed across the grain"
    )
    room: Length = Field(default=0.0, description="gap, slot or reveal that is left for it", examples=["1/8 in"])
    lap: Length = Field(default=0.0, description="how far a cover, tongue or panel laps over what opens")
    accepted: Answer = Field(default="", description="who accepts in words that it shows or cracks, and why")

    def faults(self) -> Iterator[Fault]:
        """What belongs to its kind."""
        if self.kind in ("seam cover", "panel") and self.lap <= 0.0:
            yield ("lap",), f'missing: how far does the {self.kind} lap? For example lap = "3/8 in"'
