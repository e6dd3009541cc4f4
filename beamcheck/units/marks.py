"""What the fields of a record are measured in, written beside their types, so that JSON and its schema say so too."""

from __future__ import annotations

from typing import Annotated

from ..records import dataclass


@dataclass(frozen=True)
class In:
    """The unit of a number, or of every number in a tuple of them."""

    unit: str


@dataclass(frozen=True)
class InUnitOf:
    """The unit stands in another field of the record; with `kind` that field names a kind of quantity."""

    field: str
    kind: bool = False


@dataclass(frozen=True)
class InUnitsOfSymbols:
    """A mapping from symbols to numbers: each has the unit that the list of symbols gives it."""


@dataclass(frozen=True)
class Named:
    """Another name in JSON."""

    name: str


Inches = Annotated[float, In("in")]
Pounds = Annotated[float, In("lbf")]
Psi = Annotated[float, In("psi")]
Degrees = Annotated[float, In("deg")]
Pure = Annotated[float, In("")]
