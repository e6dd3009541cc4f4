"""A level piece in bending."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import combinations
from typing import Literal

from pydantic import Field

from .base import Answer
from .places import SAME_PLACE, Fault, feet
from .quantities import PositiveLength
from .sticks import Stick, Support, inside, places_inside, widths


class Beam(Stick):
    """A level piece in bending."""

    length: PositiveLength | None = Field(
        default=None, description="over all; by default from 0 to the last support", examples=["14 ft"]
    )
    supports: tuple[Support, ...] = Field(
        max_length=50,
        description="what holds it, from left to right",
        examples=[[{"at": "0 ft", "on": "west post"}, {"at": "14 ft", "on": "east post"}]],
    )
    service: Literal["floor", "roof"] = Field(
        description="belongs to a floor or to a roof; sets the deflection limits", examples=["floor"]
    )
    in_a_row: bool | None = Field(
        default=None, description="false: it stands alone and is not one of several alike beside each other"
    )
    bears_nothing_else: Answer = Field(
        default="",
        description="why nothing but the loads given ever comes onto it, so that no live load is missing",
        examples=["a lamp only: there is no floor and no attic over it"],
    )

    def faults(self) -> Iterator[Fault]:
        """Supports that hold it up and lie on it, and loads and cuts within its length."""
        supports = self.supports
        if not supports:
            text = "none given: a beam needs something to rest on"
            yield ("supports",), f'{text}, for example supports = [{{ at = "0 ft", on = "west post" }}]'
            return
        if len(supports) == 1 and supports[0].holds != "fixed":
            text = "one support cannot hold it level: give a second one"
            yield ("supports",), f'{text}, or holds = "fixed" for a cantilever'
        for (i, one), (j, two) in combinations(enumerate(supports), 2):
            if abs(one.at - two.at) < SAME_PLACE:
                yield (
                    ("supports", j, "at"),
                    f"at {feet(two.at)} stands support {i + 1} already; two supports need two places",
                )
        length = beam_length(self)
        if length <= 0:
            if len(supports) == 1:
                yield (
                    ("length",),
                    'missing: with its only support at 0 the beam has no length, for example length = "4 ft"',
                )
            return
        for i, support in enumerate(supports):
            yield from inside(("supports", i, "at"), support.at, length, "the beam")
            if support.lands_from is not None and self.spacing is None:
                text = "missing: lands_from and lands_to are of a row of pieces; how far apart are they?"
                yield ("spacing",), f'{text} For example spacing = "16 in"'
        if self.in_a_row is False and self.spacing is not None:
            yield ("in_a_row",), "it says that it stands alone, and `spacing` that it is one of a row: which is right?"
        yield from places_inside(self.carries, self.cuts, length, "the beam")
        yield from widths(self.carries)


def beam_length(beam: Beam) -> float:
    """Length of a beam over all, inches."""
    return beam.length if beam.length is not None else max(support.at for support in beam.supports)
