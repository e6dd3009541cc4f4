"""Measures of rolled W shapes by their names (AISC Steel Construction Manual Table 1-1)."""

from __future__ import annotations

from dataclasses import dataclass

from ...errors import UnknownName
from ...provenance import Source
from ..loader import rows, source_of


@dataclass(frozen=True)
class Shape:
    """An I shape: depth, breadth and thickness of its flanges, thickness of its web, in."""

    name: str
    d: float
    b_f: float
    t_f: float
    t_web: float
    source: Source


def w_shapes() -> tuple[str, ...]:
    """The shapes that the table knows."""
    return tuple(row["shape"] for row in rows("aisc_w_shapes"))


def w_shape(name: str) -> Shape:
    """A rolled shape by its name, such as 'W8x18'. Raises UnknownName if the table does not list it."""
    wanted = name.casefold().replace(" ", "").replace("×", "x")
    for row in rows("aisc_w_shapes"):
        if row["shape"].casefold() == wanted:
            d, b_f, t_f, t_web = (float(row[column]) for column in ("d", "b_f", "t_f", "t_web"))
            return Shape(row["shape"], d, b_f, t_f, t_web, source_of(row))
    raise UnknownName("rolled shape", name, list(w_shapes()))
