"""Smooth bands of a stress: between the middle of a cell and its corners the stress runs straight.

At its middle a cell has its own value, at a corner the mean of the cells that meet there.
"""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from ..svg import Point, fixed
from .board import Line, Ring

Corner = tuple[float, float, float]  # x, y and the stress there
Triangle = tuple[Corner, Corner, Corner]


def triangles_of(cells: Sequence[Ring], values: np.ndarray) -> list[Triangle]:
    """Every known cell in triangles about its middle, all the way round that the cell has."""
    met: dict[tuple[str, str], list[float]] = {}
    known = [(cell, float(value)) for cell, value in zip(cells, values, strict=True) if np.isfinite(value)]
    for cell, value in known:
        for x, y in cell:
            met.setdefault((fixed(x), fixed(y)), []).append(value)
    at = {key: sum(found) / len(found) for key, found in met.items()}
    made: list[Triangle] = []
    for cell, value in known:
        middle = sum(x for x, _ in cell) / len(cell), sum(y for _, y in cell) / len(cell), value
        corners = [(x, y, at[fixed(x), fixed(y)]) for x, y in cell]
        made += [(middle, one, other) for one, other in zip(corners, [*corners[1:], corners[0]], strict=True)]
    return made


def between(triangles: Sequence[Triangle], low: float, high: float) -> list[list[Point]]:
    """The parts of the triangles in which the stress lies between two values."""
    made = []
    for triangle in triangles:
        sizes = [corner[2] for corner in triangle]
        if max(sizes) <= low or min(sizes) >= high:
            continue
        ring = list(triangle)
        if min(sizes) < low:
            ring = _clipped(ring, low, 1.0)
        if max(sizes) > high:
            ring = _clipped(ring, high, -1.0)
        if len(ring) > 2:
            made.append([(x, y) for x, y, _ in ring])
    return made


def line_at(triangles: Sequence[Triangle], value: float) -> list[Line]:
    """Where the stress has one value."""
    made: list[Line] = []
    for triangle in triangles:
        hits = [
            _crossing(one, other, value)[:2]
            for one, other in zip(triangle, (*triangle[1:], triangle[0]), strict=True)
            if (one[2] <= value) != (other[2] <= value)
        ]
        if len(hits) == 2:
            made.append((hits[0], hits[1]))
    return made


def _clipped(ring: list[Corner], value: float, sign: float) -> list[Corner]:
    """What of the ring is above the value (`sign` 1), or below it (`sign` -1)."""
    kept: list[Corner] = []
    for one, other in zip(ring, [*ring[1:], ring[0]], strict=True):
        inside, next_inside = sign * one[2] >= sign * value, sign * other[2] >= sign * value
        if inside:
            kept.append(one)
        if inside != next_inside:
            kept.append(_crossing(one, other, value))
    return kept


def _crossing(one: Corner, other: Corner, value: float) -> Corner:
    """The place between two corners that has the value; the same from either end, to the last digit."""
    first, last = sorted((one, other))
    share = (value - first[2]) / (last[2] - first[2])
    return first[0] + share * (last[0] - first[0]), first[1] + share * (last[1] - first[1]), value
