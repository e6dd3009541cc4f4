"""A steel plate that rods hold to what is behind or under it: of a base, and of a plate in the end of a beam."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Annotated, Literal

from pydantic import Field

from ...values.judgment import judgment
from ..fields.base import Answer, Name, Piece
from ..fields.places import Fault
from ..fields.quantities import Force, Length, PositiveLength


class Rods(Piece):
    """Rods, bolts or screws that hold a steel plate, half of them on either side of what stands on it and pulls."""

    count: Annotated[int, Field(ge=2, le=40)] = Field(description="how many, on both sides together", examples=[4])
    diameter: PositiveLength = Field(description="of a rod", examples=["5/8 in"])
    hole: PositiveLength = Field(description="diameter of its hole in the plate", examples=["11/16 in"])
    plate: PositiveLength = Field(description="thickness of the plate that they go through", examples=["1/2 in"])
    along: PositiveLength = Field(
        description="length of that plate along the line of the rods on one side", examples=["6 in"]
    )
    off: PositiveLength = Field(
        description="from the middle of a rod to the face of what stands on the plate", examples=["1 1/2 in"]
    )
    edge: PositiveLength = Field(
        description="from the middle of a rod outward to the edge of the plate", examples=["1 1/4 in"]
    )
    takes: Force = Field(description="allowable pull of one, with what it is set in", examples=["2,000 lbf"])
    sideways: Force | None = Field(default=None, description="allowable level force of one", examples=["1,500 lbf"])
    takes_by: Answer = Field(
        default="", description="which report says so, for concrete of that age and edge, or whose sheet",
        examples=["evaluation report ER-0000, 2025 edition, table 3"],
    )  # fmt: skip
    on: Literal["concrete", "steel", "masonry", "wood"] = Field(
        default="concrete", description="what the plate lies on", examples=["concrete"]
    )
    stock: Name | None = Field(default=None, description="the [[stock]] of the wood that it lies on")

    def faults(self) -> Iterator[Fault]:
        """Rods on either side, clear of what stands there, in a plate that is longer than its holes."""
        if self.count % 2:
            text = f"{self.count} are not as many on one side of what stands on the plate as on the other"
            yield ("count",), f"{text}: write an even number"
        if self.off <= 0.5 * self.diameter:
            text = f"{self.off:g} in from the middle of a rod {self.diameter:g} in thick runs into what stands there"
            yield ("off",), f"{text}: more than {0.5 * self.diameter:g} in"
        if self.hole < self.diameter:
            yield ("hole",), f"a rod {self.diameter:g} in thick does not go into it: at least {self.diameter:g} in"
        widest = judgment("hole over its rod, least that a nut pulls through").value * self.diameter
        if self.hole >= widest:
            text = f"nut and washer of a rod {self.diameter:g} in thick pull through a hole of {self.hole:g} in"
            yield ("hole",), f"{text}: less than {widest:g} in"
        if self.along <= self.hole * max(self.count // 2, 1):
            text = f"{self.count // 2} holes of {self.hole:g} in leave nothing of {self.along:g} in"
            yield ("along",), f"{text}: the length of the plate along the line of the rods"
        if self.edge <= 0.5 * self.hole:
            yield ("edge",), f"the hole runs out of the plate: more than {0.5 * self.hole:g} in"
        if self.on == "wood" and self.stock is None:
            yield ("stock",), 'missing: which wood does the plate lie on? For example stock = "sill"'
        if self.on != "wood" and self.stock is not None:
            yield ("stock",), f'{self.on} is no [[stock]]: leave stock out, or write on = "wood"'


class Back(Rods):
    """An upright plate that the plate in a beam is welded to, square to it, with rods into what is behind."""

    clear: Length = Field(description="from the end of the held piece to the face of this plate", examples=["1/2 in"])
    high: PositiveLength = Field(description="from its lower edge up to its highest rods", examples=["8 in"])
    in_top_row: Annotated[int, Field(ge=2, le=20)] = Field(
        description="how many rods are the highest: one on either side of the plate in the beam", examples=[2]
    )

    def faults(self) -> Iterator[Fault]:
        """Its highest rods lie on it, and are some of all."""
        yield from super().faults()
        if self.high >= self.along:
            text = f"the highest rods {self.high:g} in up lie beyond a plate {self.along:g} in high (`along`)"
            yield ("high",), f"{text}: less than {self.along:g} in"
        elif self.along - self.high <= 0.5 * self.hole:
            yield ("high",), f"the hole runs out of the plate: less than {self.along - 0.5 * self.hole:g} in"
        if self.in_top_row != 2:
            text = f"{self.in_top_row} rods of the same height do not stand {self.off:g} in (`off`) from the plate"
            yield ("in_top_row",), f"{text} on either side: write 2; those farther off are left out of the count"
        if self.on == "wood":
            text = "into wood its screws have no value here"
            yield ("on",), f'{text}: leave `back` out, and an engineer answers for it, or write on = "concrete"'
