"""Measures of rolled W shapes by their names (AISC Steel Construction Manual Table 1-1)."""

from __future__ import annotations

from ...provenance import Source
from ...records import dataclass
from ..loader import numbers, row_of, source_of


@dataclass(frozen=True)
class Shape:
    """An I shape: depth, breadth and thickness of its flanges, thickness of its web, in."""

    name: str
    d: float
    b_f: float
    t_f: float
    t_web: float
    source: Source


def w_shape(name: str) -> Shape:
    """A rolled shape by its name, such as 'W8x18'. Raises UnknownName if the table does not list it."""
    row = row_of("aisc_w_shapes", "shape", name, "rolled shape", _spelled)
    d, b_f, t_f, t_web = numbers(row, "d", "b_f", "t_f", "t_web")
    return Shape(row["shape"], d, b_f, t_f, t_web, source_of(row))


def _spelled(name: str) -> str:
    return name.casefold().replace(" ", "").replace("×", "x")
