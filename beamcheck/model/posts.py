"""An upright piece in compression."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Annotated, Literal

from pydantic import Field

from .base import Name
from .brackets import Role
from .loads import Load, sort_of
from .marks import Marked
from .places import Fault
from .quantities import Length, PositiveLength
from .sticks import Cut, inside


class Post(Marked):
    """An upright piece in compression."""

    stock: Name = Field(description="the name of its [[stock]] entry", examples=["old beam"])
    role: Role = Field(
        default="carries", description="carries; decorative: meant to bear nothing but itself; cover: hides hardware"
    )
    height: PositiveLength = Field(description="from foot to top", examples=["8 ft"])
    on: Name = Field(description="what it stands on: a piece or an [[existing]] entry", examples=["west footing"])
    lands_at: Length | None = Field(
        default=None, description="where it stands on a beam, from that beam's left end", examples=["3 ft"]
    )
    base_restraint: Literal["pinned", "fixed"] = Field(default="pinned", description="how the foot is held")
    top_restraint: Literal["pinned", "fixed", "free"] = Field(
        description="how the top is held sideways; free: by nothing", examples=["pinned"]
    )
    plies: Annotated[int, Field(ge=1, le=6)] = Field(default=1, description="sticks side by side that make up the post")
    plies_joined: Literal["nailed", "bolted", "none"] = Field(default="none", description="how the plies are joined")
    braced_strong: PositiveLength | None = Field(
        default=None, description="spacing of braces against bending the deep way"
    )
    braced_weak: PositiveLength | None = Field(
        default=None, description="spacing of braces against bending the thin way"
    )
    carries: tuple[Load, ...] = Field(
        default=(), max_length=200, description="forces on its top beside those of the pieces that rest on it"
    )
    eccentricity: Length | None = Field(
        default=None, description="how far off centre the load arrives, the deep way", examples=["1 in"]
    )
    eccentricity_weak: Length | None = Field(default=None, description="the same, the thin way")
    bearing_plate: bool = Field(default=False, description="a metal plate spreads the load at its ends")
    cuts: tuple[Cut, ...] = Field(default=(), max_length=200, description="wood that is missing; `at` is from the foot")

    def faults(self) -> Iterator[Fault]:
        """A post that stands, and forces on its top alone."""
        if self.base_restraint == "pinned" and self.top_restraint == "free":
            yield ("top_restraint",), "a post pinned at the foot and free at the top falls over: what holds it?"
        for i, load in enumerate(self.carries):
            if sort_of(load) in ("area", "line"):
                yield (
                    ("carries", i),
                    "a post carries forces (lbf) on its top: multiply the load by the area or length it comes from",
                )
            if load.at is not None:
                yield ("carries", i, "at"), "a post's own loads stand on its top: leave `at` out"
            if load.measured is not None:
                yield ("carries", i, "measured"), "`measured` is for rafters"
            if load.moves:
                yield ("carries", i, "moves"), "a load on a post does not move: leave `moves` out"
        for i, cut in enumerate(self.cuts):
            yield from inside(("cuts", i, "at"), cut.at, self.height, "the post")
