"""A plain steel beam beside timber: a rolled W shape by its name, or by the measures of its plates."""

from __future__ import annotations

from collections.abc import Iterator

from pydantic import Field

from ..fields.base import Name, Piece
from ..fields.places import Fault
from ..fields.quantities import PositiveLength

MEASURES = ("depth", "flange_width", "flange", "web")


class SteelShape(Piece):
    """A doubly symmetric I shape of rolled steel."""

    shape: Name | None = Field(default=None, description="its name in the trade", examples=["W8x18"])
    depth: PositiveLength | None = Field(default=None, description="over all, where it has no name here")
    flange_width: PositiveLength | None = Field(default=None, description="breadth of a flange")
    flange: PositiveLength | None = Field(default=None, description="thickness of a flange, the thinner one")
    web: PositiveLength | None = Field(default=None, description="thickness of the web")

    def faults(self) -> Iterator[Fault]:
        """A name, or all four measures, that make an I."""
        given = [name for name in MEASURES if getattr(self, name) is not None]
        if self.shape is not None and given:
            yield (given[0],), "the shape gives its measures already: leave them out, or leave shape out"
        elif self.shape is None and len(given) < len(MEASURES):
            missing = next(name for name in MEASURES if name not in given)
            yield (missing,), 'missing: give the shape by name, for example shape = "W8x18", or all four measures'
        elif self.shape is None:
            depth, broad, flange, web = (getattr(self, name) for name in MEASURES)
            if 2.0 * flange >= depth or web >= broad or broad > depth:
                yield ("depth",), "these measures make no I: depth, flange_width, flange and web in that order of size"
