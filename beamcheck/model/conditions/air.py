"""The air that wood lives in. No computing here."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Literal

from pydantic import Field

from ..fields.base import Piece
from ..fields.places import Fault
from ..fields.quantities import Moisture, Temperature


class Air(Piece):
    """Air of one season, as it stays for weeks."""

    temperature: Temperature = Field(description="of the air", examples=["70 F"])
    humidity: Moisture = Field(description="relative humidity", examples=["30 %"])


class Climate(Piece):
    """Where the wood stands: a place of the table, or the air of both seasons."""

    place: (
        Literal[
            "indoors, most of the USA", "indoors, dry southwest", "indoors, damp warm coast",
            "outdoors, most of the USA", "outdoors, dry southwest", "outdoors, Atlanta", "outdoors, Boston",
            "outdoors, Chicago", "outdoors, Denver", "outdoors, Las Vegas", "outdoors, Los Angeles",
            "outdoors, Minneapolis", "outdoors, New Orleans", "outdoors, New York", "outdoors, Phoenix",
            "outdoors, Portland OR", "outdoors, Seattle",
        ]
        | None
    ) = Field(default=None, description="a place of the Wood Handbook's Table 13-2")  # fmt: skip
    winter: Air | None = Field(default=None, description="the driest season")
    summer: Air | None = Field(default=None, description="the dampest season")

    def faults(self) -> Iterator[Fault]:
        """One of the two, whole."""
        if self.place is None and (self.winter is None or self.summer is None):
            text = "missing: a place, or the air of winter and of summer"
            yield ("place",), f'{text}; for example place = "indoors, most of the USA"'
        elif self.place is not None and (self.winter or self.summer):
            yield ("place",), "a place and the air of a season are given: leave one of the two out"
