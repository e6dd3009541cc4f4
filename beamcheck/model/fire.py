"""How long a piece of wood must carry in a fire, and which of its faces the fire reaches."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Annotated, Literal

from pydantic import Field

from .fields.base import Answer, Piece
from .fields.places import Fault


class Fire(Piece):
    """A fire that the piece must stand, as somebody asks for it: the code official decides whether one is needed."""

    minutes: Annotated[float, Field(ge=30, le=120)] = Field(
        description="of a standard fire (ASTM E119), 30 to 120", examples=[60]
    )
    exposed: tuple[Literal["top", "bottom", "left", "right"], ...] = Field(
        max_length=4, description="faces that the fire reaches; of a post top and bottom are its thin sides",
        examples=[["bottom", "left", "right"]],
    )  # fmt: skip
    others_covered_by: Answer = Field(
        default="",
        description="what covers the other faces for all that time, its support too, and who says so",
        examples=["3 in plank floor, engineer's sheet S-6 of 3 May 2025"],
    )
    bracing_lasts: Answer = Field(
        default="", description="why what holds its edges lasts as long; without it only its ends are held"
    )
    asked_by: Answer = Field(default="", description="who asks for it, in which paper")

    def faults(self) -> Iterator[Fault]:
        """At least one face, each once."""
        if not self.exposed:
            text = "no face is named: a piece that no fire reaches needs no [fire] here"
            yield ("exposed",), f'{text}; for a beam under a floor write exposed = ["bottom", "left", "right"]'
        if len(set(self.exposed)) < len(self.exposed):
            yield ("exposed",), "a face is named twice"
