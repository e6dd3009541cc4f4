"""An upright piece in compression."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Annotated, Literal

from pydantic import Field

from .brackets.near import Near, Role
from .fields.base import Name
from .fields.marks import Marked
from .fields.places import Fault
from .fields.quantities import Length, PositiveLength
from .fields.seldom import Seldom
from .fire import Fire
from .loads import Load, sort_of
from .made.schedule import PlySchedule as PlySchedule
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
    plies_schedule: Seldom[PlySchedule] | None = Field(
        default=None, description="the schedule of those nails or bolts; without one each ply stands by itself",
        examples=[{"kind": "nail", "size": "30d common", "rows": 2, "spacing": "8 in", "row_spacing": "4 1/4 in",
                   "end": "3 1/2 in", "edge": "1 1/2 in", "from_both_sides": True}],
    )  # fmt: skip
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
        default=None, description="how far off center the load arrives, the deep way", examples=["1 in"]
    )
    eccentricity_weak: Length | None = Field(default=None, description="the same, the thin way")
    bearing_plate: bool = Field(default=False, description="a metal plate spreads the load at its ends")
    cuts: tuple[Seldom[Cut], ...] = Field(
        default=(), max_length=200, description="wood that is missing; `at` is from the foot"
    )
    head_held_by: Name | None = Field(
        default=None,
        description="what holds its head: an [[anchor]] group, or an [[existing]] entry such as a floor",
        examples=["head strap"],
    )
    foot_held_by: Name | None = Field(
        default=None, description="the [[anchor]] group that holds its foot", examples=["post base"]
    )
    above: Literal["nothing"] | None = Field(
        default=None, description='"nothing": no beam, floor or roof over its top can come down on it'
    )
    near: Seldom[Near] | None = Field(
        default=None, description="the beam over its top that does not rest on it, with the gap between them",
        examples=[{"beam": "B1", "at": "6 ft", "gap": "1/2 in"}],
    )  # fmt: skip

    fire: Fire | None = Field(default=None, description="a fire that it must stand, where somebody asks for one")

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
        if self.above is not None and self.near is not None:
            yield ("above",), "near names a beam over its top: leave one of the two out"
        if self.plies_schedule is not None and self.plies_joined != f"{self.plies_schedule.kind}ed":
            text = f"the plies are said to be joined by {self.plies_joined!r}, but a schedule of"
            yield (
                ("plies_joined",),
                f'{text} {self.plies_schedule.kind}s is given: write "{self.plies_schedule.kind}ed"',
            )
        for i, cut in enumerate(self.cuts):
            yield from inside(("cuts", i, "at"), cut.at, self.height, "the post")
