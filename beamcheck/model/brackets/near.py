"""A beam above a bracket, post or trim, and whether such a piece is meant to carry. No computing here."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Literal

from pydantic import Field

from ..fields.base import Name, Piece, Words
from ..fields.places import SAME_PLACE, Fault, inches
from ..fields.quantities import Length, Moisture, PositiveLength, Spring

Role = Literal["carries", "decorative", "cover"]


class Closing(Piece):
    """Wood that brings the beam nearer to the bracket, or the bracket nearer to the beam, when it dries or swells."""

    what: Words = Field(description="what moves", examples=["sill plates under the post"])
    height: PositiveLength = Field(description="of that wood, across its grain", examples=["3 in"])
    species: Name | None = Field(default=None, description="its species, for the movement table")
    change: Moisture = Field(description="by how many points its moisture content may change", examples=["6 %"])


class Near(Piece):
    """A beam above a bracket that is not meant to touch it, or that rests on it."""

    beam: Name = Field(description="the beam above", examples=["B1"])
    at: Length = Field(description="where the nose stands along that beam, from its left end", examples=["2 ft"])
    gap: Length | None = Field(default=None, description="between nose and beam, as left; not said: unknown")
    fixed_to_beam: bool = Field(default=False, description="screwed tight to the beam as well: then it works both ways")
    slot: PositiveLength | None = Field(
        default=None, description="length of upright slots at its upper fixing, screws snug and not clamped"
    )
    pad: Spring | None = Field(
        default=None, description="stiffness of a soft pad in the gap, force per length", examples=["2,000 lb/in"]
    )
    pad_squeezes: PositiveLength | None = Field(default=None, description="how far the pad can be squeezed")
    sagged: Length | None = Field(
        default=None, description="how far the beam had come down already when the gap was set; not said: 0"
    )
    closing: tuple[Closing, ...] | None = Field(
        default=None, max_length=50, description="movements of wood that close the gap; [] when there is none"
    )

    def faults(self) -> Iterator[Fault]:
        """A gap, a pad in it, slots or a tight fixing: what excludes each other."""
        if self.fixed_to_beam and self.gap:
            text = f"screwed tight to the beam it has no gap, yet gap is {inches(self.gap)}"
            yield ("fixed_to_beam",), f"{text}: leave one of them out"
        if self.fixed_to_beam and self.slot is not None:
            yield ("slot",), "screwed tight to the beam it cannot slide in slots: leave slot or fixed_to_beam out"
        if self.pad_squeezes is not None and self.pad is None:
            text = "missing: pad_squeezes is given, so how stiff is the pad?"
            yield ("pad",), f'{text} For example pad = "2,000 lb/in"'
        elif self.pad_squeezes is not None and self.gap is not None and self.pad_squeezes > self.gap + SAME_PLACE:
            text = f"{inches(self.pad_squeezes)} is more than the gap of {inches(self.gap)} that the pad sits in"
            yield ("pad_squeezes",), f"{text}: it cannot be squeezed to less than nothing"
