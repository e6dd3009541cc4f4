"""How far a beam may sag in inches, for what stands under it or on it."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Literal

from pydantic import Field

from ..fields.base import Answer, Piece, Words
from ..fields.places import Fault
from ..fields.quantities import PositiveLength


class SagLimit(Piece):
    """A limit in inches, beside those in shares of the span."""

    what: Words = Field(description="what must not be pressed, cracked or caught", examples=["sliding glass doors"])
    most: PositiveLength = Field(description="how far it may come down, at most", examples=["1/4 in"])
    counts: Literal["all, with creep", "once it is in", "variable load"] = Field(
        default="all, with creep",
        description="all load with creep; once it is in: what comes after it was built in; variable load alone",
    )
    by: Answer = Field(default="", description="who says so", examples=["maker's sheet 12 of 3 May 2025"])

    def faults(self) -> Iterator[Fault]:
        """It says what it is for."""
        if not self.what.strip():
            yield ("what",), 'missing: what it is for, for example what = "sliding glass doors"'
