"""Numbers with their units in a result as JSON; what is no finite number is null with a text that says what it is."""

from __future__ import annotations

import math
from collections.abc import Iterable

from pydantic import BaseModel, ConfigDict, Field, FiniteFloat


class Record(BaseModel):
    """Common rules of all records."""

    model_config = ConfigDict(extra="forbid", frozen=True)


class Quantity(Record):
    """A number and its unit; the unit of a pure number is ''."""

    value: FiniteFloat
    unit: str


class NoNumber(Record):
    """In place of a quantity that has no finite value."""

    value: None
    unit: str
    text: str = Field(description="'infinite', 'minus infinite' or 'not a number'")


class Column(Record):
    """Numbers with one unit; null where there is none."""

    unit: str
    values: tuple[FiniteFloat | None, ...]


def quantity(value: float, unit: str) -> Quantity | NoNumber:
    """A number with its unit."""
    if math.isfinite(value):
        return Quantity(value=float(value), unit=unit)
    text = "not a number" if math.isnan(value) else "infinite" if value > 0 else "minus infinite"
    return NoNumber(value=None, unit=unit, text=text)


def maybe(value: float | None, unit: str) -> Quantity | NoNumber | None:
    """The same for what may be missing."""
    return None if value is None else quantity(value, unit)


def column(values: Iterable[float], unit: str) -> Column:
    """Numbers of one unit."""
    return Column(unit=unit, values=tuple(float(value) if math.isfinite(value) else None for value in values))
