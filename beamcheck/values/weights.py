"""Loads that are looked up: weights of finishes, live loads by use. Both per area, lbf/in2."""

from __future__ import annotations

from ..errors import OutOfRange, UnknownName
from .found import Found
from .loader import rows, source_of
from .species import folded

SQUARE_FOOT = 144.0  # in2


def finish_names() -> tuple[str, ...]:
    """The items that `finish_weight` knows."""
    return tuple(row["item"] for row in rows("finish_weights"))


def finish_weight(name: str) -> Found[float]:
    """Weight of a finish or covering per area, lbf/in2 (the table is in psf).

    Raises
    ------
    UnknownName
        If the table does not list it.
    """
    for row in rows("finish_weights"):
        if folded(row["item"]) == folded(name):
            return Found(float(row["weight"]) / SQUARE_FOOT, source_of(row), f"{row['item']}: {row['weight']} psf")
    raise UnknownName("finish", name, finish_names())


def live_load_uses() -> tuple[str, ...]:
    """The uses that `live_load` knows."""
    return tuple(dict.fromkeys(row["use"] for row in rows("live_loads")))


def live_load(use: str, *, least: bool = False) -> Found[float]:
    """Uniform live load of a use, lbf/in2; where documents differ, the largest, or the least that any of them has.

    Raises
    ------
    UnknownName
        If the tables do not list the use.
    OutOfRange
        If the use has a point load only.
    """
    listed = [row for row in rows("live_loads") if folded(row["use"]) == folded(use)]
    if not listed:
        raise UnknownName("use", use, live_load_uses())
    uniform = [row for row in listed if row["load"]]
    if not uniform:
        row = listed[0]
        raise OutOfRange(
            f"{row['use']} has a point load only: {row['point_load']} lb, {row['point_on']}", row["source"]
        )
    row = (min if least else max)(uniform, key=lambda row: float(row["load"]))
    point = f", or {row['point_load']} lb on {row['point_on']}" if row["point_load"] else ""
    return Found(float(row["load"]) / SQUARE_FOOT, source_of(row), f"{row['use']}: {row['load']} psf{point}")
