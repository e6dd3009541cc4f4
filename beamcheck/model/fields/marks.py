"""What people write beside a piece: a name for people, and where it is in the house."""

from __future__ import annotations

from typing import Annotated, Any

from pydantic import BeforeValidator, Field, WithJsonSchema

from ...units import read
from .base import Insisting, Name, Piece, Words


def _spot(value: Any) -> Any:
    """'8 ft, 4 ft 6 in' as two lengths."""
    if isinstance(value, str):
        parts = value.split(",")
        if len(parts) != 2:
            raise ValueError(f"{value!r} is no place in a plan: write two lengths, such as '8 ft, 4 ft 6 in'")
        return tuple(read(part.strip(), "length") for part in parts)
    return value


Spot = Annotated[
    tuple[float, float],
    BeforeValidator(_spot),
    WithJsonSchema(
        {"type": "string", "description": "two lengths, along and across the plan", "examples": ["8 ft, 4 ft 6 in"]},
        mode="validation",
    ),
]


class InPlan(Piece):
    """Where a piece lies in the plan of its level: two points, each along and across from one corner of the plan."""

    start: Spot = Field(alias="from", description="one end: along and across the plan", examples=["0 ft, 8 ft"])
    end: Spot | None = Field(
        default=None, alias="to", description="the other end; none for a post", examples=["13 ft 4 5/8 in, 8 ft"]
    )
    level: Words = Field(default="", description="which floor or ceiling", examples=["hall ceiling"])


class Marked(Insisting):
    """A piece with a name, and what people write beside it."""

    name: Name = Field(description="what this piece is called in the job", examples=["B1"])
    called: Words = Field(default="", description="what people call it, beside its name", examples=["hall beam"])
    place: InPlan | None = Field(default=None, description="where it lies in the plan")
