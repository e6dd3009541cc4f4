"""The steel plate of a flitch beam, between two plies."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Annotated

from pydantic import Field

from ..fields.base import Answer, Name, Piece
from ..fields.places import Fault
from ..fields.quantities import PositiveLength


class FlitchPlate(Piece):
    """One plate on edge, from seat to seat, bolted between two plies; the wood alone lies on the seats."""

    thickness: PositiveLength = Field(description="of the plate", examples=["1/2 in"])
    depth: PositiveLength = Field(description="of the plate, no more than that of the wood", examples=["9 in"])
    grade: Name = Field(description="grade of its steel", examples=["A36"])
    evidence: Answer = Field(
        default="", description="what says that it is that grade", examples=["mill certificate no. 4471, ASTM A36"]
    )
    bolt: Name = Field(description="diameter of the bolts through plies and plate", examples=["1/2 in"])
    rows: Annotated[int, Field(ge=1, le=3)] = Field(description="rows of bolts along the beam", examples=[2])
    spacing: PositiveLength = Field(description="from bolt to bolt in a row", examples=["16 in"])
    row_spacing: PositiveLength | None = Field(default=None, description="from row to row", examples=["5 in"])
    edge: PositiveLength = Field(description="from the edge of the wood to the nearest row", examples=["2 1/2 in"])
    end: PositiveLength = Field(description="from the end of the beam to the first bolt", examples=["3 in"])
    end_bolts: Annotated[int, Field(ge=1, le=4)] = Field(description="bolts over each seat", examples=[2])

    def faults(self) -> Iterator[Fault]:
        """Several rows have a distance."""
        if self.rows > 1 and self.row_spacing is None:
            text = f"missing: {self.rows} rows need the distance from row to row"
            yield ("row_spacing",), f'{text}, for example row_spacing = "5 in"'
