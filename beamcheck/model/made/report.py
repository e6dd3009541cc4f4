"""What the maker's report of structural composite lumber (LVL, PSL, LSL) gives and allows; nothing is added to it."""

from __future__ import annotations

import re
from collections.abc import Iterator
from typing import Annotated, Literal

from pydantic import Field, StringConstraints

from ..fields.base import Answer, Piece, Words
from ..fields.places import Fault
from ..fields.quantities import Density, Length, PositiveLength, Stress

_FIGURE = re.compile(r"\d")


class ReportHoles(Piece):
    """Round holes that the report allows through the depth's middle, from side to side."""

    largest: PositiveLength = Field(description="largest diameter", examples=["1 1/2 in"])
    from_seats: PositiveLength = Field(description="least distance from the face of a seat", examples=["12 in"])
    from_edges: PositiveLength = Field(description="least wood above and below", examples=["4 in"])
    middle_third_only: bool = Field(description="whether only the middle third of a span may have them")


class MakersReport(Piece):
    """Values and permissions of one report, typed in by whoever has it before them."""

    number: Annotated[str, StringConstraints(min_length=3, max_length=120)] = Field(
        description="number of the evaluation report", examples=["report no. 0417"]
    )
    edition: Annotated[str, StringConstraints(min_length=4, max_length=120)] = Field(
        description="its edition: day of issue or of renewal", examples=["renewed 3 May 2025"]
    )
    F_b: Stress = Field(description="bending on edge, at the depth `d_0`", examples=["2600 psi"])
    F_v: Stress = Field(description="shear on edge", examples=["285 psi"])
    F_c_perp: Stress = Field(description="bearing across the grain, on edge", examples=["750 psi"])
    E: Stress = Field(description="modulus of elasticity for deflection", examples=["2,000,000 psi"])
    E_is: Literal["shear included", "shear-free"] | None = Field(
        default=None,
        description="what deflection by E alone holds: shear with it (apparent E) or not (true E); not said: not",
    )
    E_min: Stress | None = Field(default=None, description="modulus for stability", examples=["1,016,000 psi"])
    F_t: Stress | None = Field(default=None, description="tension along the grain")
    F_c: Stress | None = Field(default=None, description="compression along the grain")
    d_0: PositiveLength = Field(description="depth for which F_b is given", examples=["12 in"])
    power: Annotated[float, Field(ge=0, le=0.5)] = Field(
        description="power of the depth factor (d_0/d)^power; 0 where the report has none", examples=[0.136]
    )
    least_depth: Length = Field(default=0.0, description="depth below which the factor grows no more")
    C_r: Annotated[float, Field(ge=1, le=1.15)] = Field(
        default=1.0, description="factor for three or more members that share the load", examples=[1.04]
    )
    G: Annotated[float, Field(gt=0.2, lt=1.0)] | None = Field(
        default=None, description="equivalent specific gravity for fasteners in the wide face", examples=[0.5]
    )
    density: Density | None = Field(default=None, description="weight for design", examples=["42 pcf"])
    end_notch: Length | None = Field(
        default=None, description="deepest notch at an end over the seat; 0 in where it allows none"
    )
    holes: ReportHoles | Literal["none"] | None = Field(default=None, description="holes that it allows")
    holds_by: Answer = Field(
        default="",
        description="who says that this edition holds for the wood that is there, if it is old or undated",
    )
    remarks: Words = Field(default="", description="what else it says that a reader must know")

    def faults(self) -> Iterator[Fault]:
        """A report has a number and a day; two moduli fit together."""
        for field in ("number", "edition"):
            if not _FIGURE.search(getattr(self, field)):
                yield (field,), f"{getattr(self, field)!r} has no figure in it: copy number and day from the report"
        if self.E_min is not None and self.E_min >= self.E:
            yield ("E_min",), "E_min (for stability) is always less than E (the mean): are the two exchanged?"
