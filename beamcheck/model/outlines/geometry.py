"""Plane geometry of a bracket's outline: its soffit as points, crossings, distances. Inches, y down from the top."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise
from typing import Protocol

import numpy as np

Array = np.ndarray
PARTS = 256  # chords of a curved soffit: 0.0005 in off a quarter circle of 100 in
TOUCH = 1e-4  # in: lines that are nearer touch
_ROWS = 400  # segments compared with all others at a time, so that memory stays small


class Corner(Protocol):
    """One point of a soffit, as given."""

    @property
    def x(self) -> float: ...
    @property
    def y(self) -> float: ...


class SideView(Protocol):
    """What a solid bracket is as seen from its side; the class of the job file is one."""

    @property
    def height(self) -> float: ...
    @property
    def projection(self) -> float: ...
    @property
    def foot(self) -> float: ...
    @property
    def nose(self) -> float: ...
    @property
    def soffit(self) -> str: ...
    @property
    def sagitta(self) -> float | None: ...
    @property
    def points(self) -> Sequence[Corner]: ...


def soffit_of(shape: SideView) -> Array:
    """The lower edge from (foot, height) to (projection, nose), shape (n, 2); of curves points on them.

    Needs two ends that are apart, the sagitta of an arc, and two points or more of a soffit by points.
    """
    a, H, P, b = shape.foot, shape.height, shape.projection, shape.nose
    w, h, u = P - a, H - b, np.linspace(0.0, 1.0, PARTS + 1)
    q = 0.5 * np.pi * u
    match shape.soffit:
        case "points":
            return np.array([(point.x, point.y) for point in shape.points], dtype=float)
        case "straight":
            return np.array([(a, H), (P, b)])
        case "concave":
            return np.column_stack((P - w * np.cos(q), H - h * np.sin(q)))
        case "convex":
            return np.column_stack((a + w * np.sin(q), b + h * np.cos(q)))
        case "ogee":  # a hollow quarter below, a full one above; level where they meet
            low = np.column_stack((a + 0.5 * w * (1 - np.cos(q)), H - 0.5 * h * np.sin(q)))
            high = np.column_stack((a + 0.5 * w * (1 + np.sin(q)), b + 0.5 * h * np.cos(q)))
            return np.vstack((low, high[1:]))
    return _arc((a, H), (P, b), shape.sagitta or 0.0, full=shape.soffit == "full arc")


def _arc(start: tuple[float, float], end: tuple[float, float], sagitta: float, *, full: bool) -> Array:
    """A circular arc; a full one bulges away from the corner of wall and top edge, a hollow one towards it."""
    one, two = np.array(start), np.array(end)
    chord = float(np.hypot(*(two - one)))
    along = (two - one) / chord
    across = np.array([-along[1], along[0]])  # from foot to nose, y down: this side is away from the corner
    half = 2.0 * np.arctan(2.0 * sagitta / chord)
    angle = np.linspace(-half, half, PARTS + 1)
    r = 0.5 * chord / np.sin(half)
    outwards = (r * (np.cos(angle) - np.cos(half)))[:, None] * across * (1.0 if full else -1.0)
    return np.asarray(0.5 * (one + two) + (r * np.sin(angle))[:, None] * along + outwards)


def in_the_wood(shape: SideView, points: Array, slack: float) -> Array:
    """Which of the points (n, 2) lie within the outline, or no farther than `slack` outside of it."""
    corners = [[(0.0, 0.0), (shape.projection, 0.0)], soffit_of(shape)[::-1], [(0.0, shape.height)]]
    ring = np.vstack([np.asarray(part, dtype=float) for part in corners])
    step = np.roll(ring, -1, axis=0) - ring
    x, y = points[:, 0][None, :], points[:, 1][None, :]
    x0, y0, dx, dy = (one[:, None] for one in (ring[:, 0], ring[:, 1], step[:, 0], step[:, 1]))
    across = (y0 > y) != (y0 + dy > y)
    beyond = x < x0 + dx * (y - y0) / np.where(dy == 0.0, 1.0, dy)
    inside = np.sum(across & beyond, axis=0) % 2 == 1
    return np.asarray(inside | (_distances(points, ring, step).min(axis=0) <= slack))


def first_crossing(ring: Array) -> tuple[int, int, float, float] | None:
    """Two edges of a closed ring that cross, touch or fold back on each other, and where: (edge, edge, x, y).

    Edge i runs from point i to the next; the last one back to point 0. None when the ring is simple.
    """
    start, end = ring, np.roll(ring, -1, axis=0)
    step, count = end - start, len(ring)
    for first in range(0, count, _ROWS):
        rows = np.arange(first, min(first + _ROWS, count))
        one, two = _sides(start[rows], step[rows], start, end)
        three, four = (side.T for side in _sides(start, step, start[rows], end[rows]))
        hit = (one * two < 0.0) & (three * four < 0.0)
        away = _distances(start, start[rows], step[rows])  # from every corner to these edges
        columns = np.arange(count)[None, :]
        own = (columns == rows[:, None]) | (columns == (rows[:, None] + 1) % count)
        touching = (away <= TOUCH) & ~own
        for i, j in np.argwhere(hit):
            cut = start[rows[i]] + step[rows[i]] * (three[i, j] / (three[i, j] - four[i, j]))
            return _ordered(int(rows[i]), int(j), cut)
        for i, j in np.argwhere(touching):
            return _ordered(int(rows[i]), int(j), start[j])
    return None


def _ordered(one: int, two: int, where: Array) -> tuple[int, int, float, float]:
    return min(one, two), max(one, two), float(where[0]), float(where[1])


def _sides(origin: Array, step: Array, start: Array, end: Array) -> tuple[Array, Array]:
    """On which side of each line (rows) the starts and ends of the others (columns) lie."""

    def of(points: Array) -> Array:
        off = points[None, :, :] - origin[:, None, :]
        return np.asarray(step[:, None, 0] * off[..., 1] - step[:, None, 1] * off[..., 0])

    return of(start), of(end)


def _distances(points: Array, origin: Array, step: Array) -> Array:
    """Distance of each point (columns) from each straight piece (rows)."""
    off = points[None, :, :] - origin[:, None, :]
    length2 = np.maximum(np.sum(step * step, axis=1), 1e-300)[:, None]
    share = np.clip(np.sum(off * step[:, None, :], axis=2) / length2, 0.0, 1.0)
    return np.asarray(np.linalg.norm(off - share[..., None] * step[:, None, :], axis=2))


def simplified(points: Array, tolerance: float, most: int) -> Array:
    """The fewest of the points of a line, ends included, that stay within `tolerance` of it (Douglas and Peucker).

    Where it takes more than `most` it stops with `most` + 1 of them.
    """
    keep = np.zeros(len(points), dtype=bool)
    keep[[0, -1]] = True
    spans, kept = [(0, len(points) - 1)], 2
    while spans:
        low, high = spans.pop()
        if high - low < 2:
            continue
        inner = points[low + 1 : high]
        away = _distances(inner, points[low][None, :], (points[high] - points[low])[None, :])[0]
        worst = int(np.argmax(away))
        if away[worst] > tolerance:
            middle = low + 1 + worst
            keep[middle] = True
            kept += 1
            if kept > most:
                break
            spans += [(low, middle), (middle, high)]
    return points[keep]


def dense(points: Array, step: float) -> Array:
    """The line with points in between, nowhere further apart than `step`."""
    parts = [points[:1]]
    for one, two in pairwise(points):
        count = max(int(np.ceil(np.hypot(*(two - one)) / step)), 1)
        parts.append(one + (two - one) * (np.arange(1, count + 1) / count)[:, None])
    return np.vstack(parts)
