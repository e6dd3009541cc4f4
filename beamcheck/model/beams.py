"""A level piece in bending."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from itertools import combinations
from typing import Any, Literal

from pydantic import Field, model_validator

from ..errors import UnitError
from ..units import read
from .fields.base import Answer
from .fields.places import SAME_PLACE, Fault, Path, entries, feet, fields
from .fields.quantities import PositiveLength, Slope
from .fields.seldom import Seldom
from .fields.wording import PieceFaults
from .made.plate import FlitchPlate
from .made.sag import SagLimit
from .made.schedule import PlySchedule
from .sticks import Stick, Support, inside, places_inside, widths

SAME_READING = 1.0 / 16.0  # in; two readings of a tape


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
    roof_slope: Slope | None = Field(
        default=None, description="slope of the roof that it carries: under 1/4:12 water can stand"
    )
    plies_schedule: Seldom[PlySchedule] | None = Field(
        default=None, description="nails or bolts through the plies, where load passes from one to the next"
    )
    flitch: Seldom[FlitchPlate] | None = Field(default=None, description="a steel plate bolted between its two plies")
    sag_limits: tuple[Seldom[SagLimit], ...] = Field(
        default=(), max_length=10, description="limits in inches for doors, glass or a finish below or on it"
    )
    stamp_up: bool | None = Field(
        default=None, description="of glued laminated timber: whether the face stamped TOP lies up", examples=[True]
    )
    clear: PositiveLength | None = Field(
        default=None,
        description="face to face of its two supports, as a tape reads it, in place of `at`; needs both seats",
        examples=["12 ft"],
    )

    @model_validator(mode="before")
    @classmethod
    def _places_from_clear(cls, data: Any) -> Any:
        """`clear` and both seats say where the supports are: the beam ends with its seats."""
        if not isinstance(data, Mapping) or data.get("clear") is None:
            return data
        supports = entries(data.get("supports"))
        if len(supports) != 2 or any(fields(support).get("at") is not None for support in supports):
            return data  # what does not go together is said by `faults`, or the places are there
        faults: list[Fault] = []
        clear = _read_length(data["clear"], ("clear",), faults)
        seats = [_read_length(fields(one).get("bearing"), ("supports", i, "bearing"), faults)
                 for i, one in enumerate(supports)]  # fmt: skip
        if faults:
            raise PieceFaults(faults)
        left, right = seats
        placed = [{**fields(supports[0]), "at": f"{0.5 * left} in"},
                  {**fields(supports[1]), "at": f"{left + clear + 0.5 * right} in"}]  # fmt: skip
        return {"length": f"{left + clear + right} in", **data, "supports": tuple(placed)}

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
        if self.plies == 1 and self.plies_schedule is not None:
            yield ("plies_schedule",), "there is one ply only: leave it out, or say how many plies there are"
        if self.flitch is not None and (self.plies != 2 or self.laid == "flat"):
            yield ("flitch",), "the plate stands on edge between two plies: write plies = 2"
        yield from self._clear_faults()
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
        last = max(supports, key=lambda support: support.at)  # without a length it reaches to the end of that seat
        tail = 0.5 * (last.bearing or 0.0) if self.length is None else 0.0
        yield from places_inside(self.carries, self.cuts, length, "the beam", tail=tail)
        yield from widths(self.carries)

    def _clear_faults(self) -> Iterator[Fault]:
        """`clear` is for two supports, and does not contradict their places."""
        if self.clear is None:
            return
        if len(self.supports) != 2:
            text = f"clear is the way between two supports, and here are {len(self.supports)}: give each its place"
            yield ("clear",), f'{text}, for example at = "12 ft"'
            return
        left, right = sorted(self.supports, key=lambda support: support.at)
        between = right.at - left.at - 0.5 * ((left.bearing or 0.0) + (right.bearing or 0.0))
        if abs(between - self.clear) > SAME_READING:
            text = f"the places of the supports leave {feet(between)} clear, and clear says {feet(self.clear)}"
            yield ("clear",), f"{text}: give one of the two"


def _read_length(value: Any, path: Path, faults: list[Fault]) -> float:
    """A length as given, inches; what cannot be read is added to the faults."""
    if value is None:
        faults.append((path, 'missing: with `clear` each seat has its length along the beam, such as "3 1/2 in"'))
        return 0.0
    try:
        return read(value, "length")
    except UnitError as error:
        faults.append((path, str(error)))
        return 0.0


def beam_length(beam: Beam) -> float:
    """Length of a beam over all, inches."""
    return beam.length if beam.length is not None else max(support.at for support in beam.supports)
