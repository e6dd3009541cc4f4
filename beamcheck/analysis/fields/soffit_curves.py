"""The pieces a soffit is put together from: straight lines, parts of ellipses and circles, eased corners. Exact.

Each piece runs with its parameter t from 0 to 1. Arrays of points are (n, 2): x out from the wall, y down from the top.
"""

from __future__ import annotations

from typing import Protocol

import numpy as np

from ...records import dataclass
from ..frames.polynomial import Array


class Piece(Protocol):
    """A smooth part of a soffit: places, first and second derivatives by t, each (n, 2); `flat` when it is straight."""

    @property
    def flat(self) -> bool: ...
    def point(self, t: Array) -> Array: ...
    def slope(self, t: Array) -> Array: ...
    def bend(self, t: Array) -> Array: ...


@dataclass(frozen=True, eq=False)
class Line:
    """A straight line from `start` to `end`."""

    start: Array
    end: Array
    flat = True

    def point(self, t: Array) -> Array:
        return self.start + np.multiply.outer(t, self.end - self.start)

    def slope(self, t: Array) -> Array:
        return np.broadcast_to(self.end - self.start, (len(t), 2))

    def bend(self, t: Array) -> Array:
        return np.zeros((len(t), 2))


@dataclass(frozen=True, eq=False)
class Turn:
    """Part of an ellipse: center + cosine cos q + sine sin q, from q = `first` to `last` (rad)."""

    center: Array
    cosine: Array
    sine: Array
    first: float
    last: float
    flat = False

    def _q(self, t: Array) -> Array:
        return self.first + (self.last - self.first) * t

    def point(self, t: Array) -> Array:
        q = self._q(t)
        return self.center + np.multiply.outer(np.cos(q), self.cosine) + np.multiply.outer(np.sin(q), self.sine)

    def slope(self, t: Array) -> Array:
        q = self._q(t)
        turn = self.last - self.first
        return turn * (np.multiply.outer(np.cos(q), self.sine) - np.multiply.outer(np.sin(q), self.cosine))

    def bend(self, t: Array) -> Array:
        return -((self.last - self.first) ** 2) * (self.point(t) - self.center)


@dataclass(frozen=True, eq=False)
class Ease:
    """A parabola that rounds the corner between two straight lines, touching both."""

    start: Array
    corner: Array
    end: Array
    flat = False

    def point(self, t: Array) -> Array:
        s = 1.0 - t
        return (
            np.multiply.outer(s * s, self.start)
            + np.multiply.outer(2.0 * s * t, self.corner)
            + np.multiply.outer(t * t, self.end)
        )

    def slope(self, t: Array) -> Array:
        return 2.0 * (
            np.multiply.outer(1.0 - t, self.corner - self.start) + np.multiply.outer(t, self.end - self.corner)
        )

    def bend(self, t: Array) -> Array:
        return np.broadcast_to(2.0 * (self.start - 2.0 * self.corner + self.end), (len(t), 2))


def through(points: Array, smooth_below: float, ease: float) -> tuple[Piece, ...]:
    """Straight lines through points; a corner that turns by less than `smooth_below` (deg) is a point of a curve.

    Such a corner is rounded by a parabola that leaves it by no more than `ease` (in) and uses up no more than half of
    the shorter neighbor, so that points of a curve give a curve without corners.
    """
    steps = np.diff(points, axis=0)
    lengths = np.hypot(steps[:, 0], steps[:, 1])
    directions = steps / lengths[:, None]
    pieces: list[Piece] = []
    start = points[0]
    for i in range(1, len(points) - 1):
        before, after = directions[i - 1], directions[i]
        cross = before[0] * after[1] - before[1] * after[0]
        turn = abs(np.arctan2(cross, before @ after))
        if turn < 1e-6 or turn >= np.radians(smooth_below):
            pieces.append(Line(start, points[i]))
            start = points[i]
            continue
        # the parabola's middle lies cut sin(turn/2)/2 from the corner
        cut = min(0.5 * min(lengths[i - 1], lengths[i]), 2.0 * ease / np.sin(0.5 * turn))
        corner = Ease(points[i] - cut * before, points[i], points[i] + cut * after)
        if np.hypot(*(corner.start - start)) > 1e-9 * lengths[i - 1]:
            pieces.append(Line(start, corner.start))
        pieces.append(corner)
        start = corner.end
    if np.hypot(*(points[-1] - start)) > 1e-9 * lengths[-1]:
        pieces.append(Line(start, points[-1]))
    return tuple(pieces)
