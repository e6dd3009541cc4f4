"""The joint of top leg and wall leg of a braced bracket, and the screws of a butted brace. No computing here."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise
from typing import Annotated, Literal

from pydantic import Field

from ..anchors.anchor import Fastener
from ..fields.base import Answer, Piece
from ..fields.places import Fault
from ..fields.quantities import Force, PositiveLength


class JointRow(Piece):
    """Fasteners of a lap at one height."""

    down: PositiveLength = Field(description="from the top edge down to the row", examples=["1/2 in"])
    count: Annotated[int, Field(ge=1, le=6)] = Field(description="one beside the other, along the top leg")


class LegJoint(Piece):
    """What ties the top leg to the wall leg: the brace pulls them apart."""

    manner: Literal["lap", "steel"] = Field(
        description="lap: the legs are halved over each other and fastened; steel: a strap, an angle or a rod along "
        "the top leg, by its report",
        examples=["lap"],
    )
    fastener: Fastener | None = Field(default=None, description="of a lap: through both halves")
    rows: tuple[JointRow, ...] = Field(default=(), max_length=6, description="of a lap: its rows, from the top down")
    end: PositiveLength | None = Field(
        default=None, description="of a lap: from the end of the top leg, along it, to the first fastener"
    )
    apart: PositiveLength | None = Field(default=None, description="of a lap: from one to the next in a row")
    takes: Force | None = Field(default=None, description="of steel: pull that it may take", examples=["400 lb"])
    takes_up: Force = Field(default=0.0, description="of steel: force upwards on the top leg that it may take beside")
    report: Answer = Field(default="", description="of steel: which report or calculation says so")
    both_sides: bool | None = Field(
        default=None, description="of steel: it holds the wood above and below a level check along the top leg"
    )

    def faults(self) -> Iterator[Fault]:
        """A lap has fasteners in rows, steel has a value."""
        if self.manner == "steel":
            for field in ("fastener", "rows", "end", "apart"):
                if getattr(self, field):
                    yield (field,), f'{field} belongs to a lap: leave it out, or write manner = "lap"'
            if self.takes is not None and self.takes <= 0.0:
                yield ("takes",), f"{self.takes:g} lbf holds nothing: more than 0"
            return
        for field in ("takes", "takes_up", "report", "both_sides"):
            if getattr(self, field):
                yield (field,), f'{field} belongs to steel: leave it out, or write manner = "steel"'
        if self.fastener is None:
            text = 'missing: for example fastener = { kind = "wood screw", size = "No. 14", length = "2 1/4 in" }'
            yield ("fastener",), text
        if not self.rows:
            yield ("rows",), 'missing: for example rows = [{ down = "1/2 in", count = 2 }]'
        if any(row.count > 1 for row in self.rows) and self.apart is None:
            yield ("apart",), 'missing: several in a row need the distance from one to the next, as apart = "1 1/4 in"'
        for i, (one, other) in enumerate(pairwise(self.rows)):
            if other.down <= one.down:
                yield ("rows", i + 1, "down"), "rows are given from the top down: this one is not below the one before"


class EndScrews(Piece):
    """Screws through a leg into the end of a butted brace, the same at both ends; they keep it from sliding."""

    fastener: Fastener = Field(
        description="what they are", examples=[{"kind": "wood screw", "size": "No. 14", "length": "5 in"}]
    )
    count: Annotated[int, Field(ge=1, le=4)] = Field(description="at each end", examples=[2])
    through: PositiveLength = Field(description="wood of the leg that they go through", examples=["2 1/2 in"])
