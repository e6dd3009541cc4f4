"""Where something is fastened to the side of the piece that carries it. No computing here."""

from __future__ import annotations

from collections.abc import Iterator

from pydantic import Field

from ..fields.base import Piece
from ..fields.places import Fault
from ..fields.quantities import Length


class OnGirder(Piece):
    """Where the fastenings of hardware sit on the side of the piece that carries it."""

    highest: Length = Field(
        description="from the top edge of the carrying piece down to the highest", examples=["1 in"]
    )
    lowest: Length = Field(description="from its top edge down to the lowest", examples=["8 in"])

    def faults(self) -> Iterator[Fault]:
        """The lowest is the lower one."""
        if self.lowest < self.highest:
            text = f"{self.lowest:g} in under the top, above the highest at {self.highest:g} in"
            yield ("lowest",), f"{text}: both are measured down from the top edge"
