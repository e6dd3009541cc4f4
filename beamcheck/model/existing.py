"""What is there already or is the work of others."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Literal

from pydantic import Field

from .fields.base import Answer, Insisting, Name, Words
from .fields.evidence import vouched
from .fields.places import Fault
from .fields.quantities import Force, Stress


class Existing(Insisting):
    """Something that is there already or is somebody else's work: the end of what this tool checks."""

    name: Name = Field(description="what it is called in the job", examples=["west footing"])
    what: Words = Field(description="what it is, in words", examples=["stone footing under the west wall"])
    confirmed_by: Answer = Field(
        default="", description="who says in writing that it takes the load; without it the verdict is refer"
    )
    takes: Force | None = Field(
        default=None,
        description="what it may take, downward, by whoever confirms it; see takes_for",
        examples=["8,000 lb"],
    )
    takes_for: Literal["each seat", "all together"] | None = Field(
        default=None, description="whether `takes` holds for each seat on it, or for all that rests on it together"
    )
    takes_uplift: Force | None = Field(
        default=None,
        description="what one fastening on it may pull upward, by whoever confirms it",
        examples=["1,000 lb"],
    )
    takes_sideways: Force | None = Field(
        default=None, description="what one piece may push or pull sideways on it, by whoever confirms it",
        examples=["200 lb"],
    )  # fmt: skip
    material: Literal["wood", "steel", "masonry", "concrete", "ground", "plaster", "board", "trim", "other"] = Field(
        default="other", description="what it is made of; plaster, board and trim carry nothing"
    )
    F_c_perp: Stress | None = Field(default=None, description="allowable bearing across the grain of a wooden seat")

    @property
    def confirmed(self) -> str:
        """The words that confirm it; '' where they name nobody who may, or neither a day nor a document."""
        return self.confirmed_by.strip() if vouched(self.confirmed_by, "structure") else ""

    def faults(self) -> Iterator[Fault]:
        """Words that say what it is, and a figure that carries something."""
        if not self.what.strip():
            yield ("what",), 'it says nothing: what is it? For example what = "stone footing under the west wall"'
        if self.takes is not None and self.takes <= 0.0:
            text = "nothing, or less, is no capacity: leave takes out while nobody has given a figure"
            yield ("takes",), f'{text}; else what one seat may carry, for example takes = "8,000 lb"'
