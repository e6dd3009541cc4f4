"""A load on a piece, as the job file writes it."""

from __future__ import annotations

from typing import Literal

from pydantic import Field

from .base import Piece, Words
from .quantities import Length, LoadAmount, PositiveLength


class Load(Piece):
    """Something the piece carries. One entry may hold several kinds of load of the same extent."""

    what: Words = Field(description="what it is, in words", examples=["plaster ceiling"])
    dead: LoadAmount | None = Field(default=None, description="weight that stays")
    live: LoadAmount | None = Field(default=None, description="people, furniture, storage")
    roof_live: LoadAmount | None = Field(default=None, description="people and material on a roof")
    snow: LoadAmount | None = Field(default=None, description="snow on the roof; per area it counts on plan")
    wind: LoadAmount | None = Field(
        default=None,
        description="strength-level W of ASCE 7-16 (the combinations take 0.6 of it); negative lifts",
    )
    width: PositiveLength | None = Field(
        default=None, description="tributary width of a load per area", examples=["4 ft"]
    )
    at: Length | None = Field(default=None, description="place of a point load", examples=["7 ft"])
    start: Length | None = Field(
        default=None, alias="from", description="where a spread load begins; else the left end"
    )
    end: Length | None = Field(default=None, alias="to", description="where a spread load stops; else the right end")
    measured: Literal["slope", "plan"] | None = Field(
        default=None, description="dead load of a rafter: per area of slope or of plan"
    )
    applied: Literal["top", "side", "below"] | None = Field(
        default=None, description="bears on the top, is hung from the side, or from below"
    )
    bearing: PositiveLength | None = Field(default=None, description="length under a point load on the top")
    moves: bool = Field(default=False, description="a live point load that may stand anywhere along the piece")
