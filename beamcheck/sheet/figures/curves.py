"""Diagrams along a piece: an envelope or a single curve on its axis, with the extremes labelled."""

from __future__ import annotations

import math
from collections.abc import Sequence
from itertools import pairwise
from typing import Any

from ...records import dataclass
from ...units import show
from .svg import GRAY, TEXT, Board, Point, clipped, text_width

HEIGHT = 28.0
_THICKNESS = 0.06  # drawing units: less than a hair, so no eye misses a point within it
_WORTH_LABEL = 0.02  # a second extreme smaller than this part of the first is not worth a label


@dataclass(frozen=True)
class Curve:
    """One diagram. `low` is empty for a single curve; `marks` are (x, text, side), where side is
    'high', 'low' or '' for the side of larger size; `down`: positive values hang down.
    """

    title: str
    kind: str
    x: tuple[float, ...]
    high: tuple[float, ...]
    low: tuple[float, ...]
    marks: tuple[tuple[float, str, str], ...]
    system: Any
    down: bool = False

    @property
    def sides(self) -> list[tuple[float, ...]]:
        return [side for side in (self.high, self.low) if side]

    @property
    def drawable(self) -> bool:
        """Are there enough finite values, one for each station?"""
        return len(self.x) > 1 and bool(self.sides) and all(
            len(side) == len(self.x) and all(map(math.isfinite, side)) for side in self.sides
        )  # fmt: skip


def extremes(curve: Curve) -> list[tuple[float, float, str]]:
    """(x, value, label) of the marks, or where there are none of the highest and lowest point."""
    if not curve.drawable:
        return []
    if curve.marks:
        found = [(x, _value_at(curve, x, side)) for x, _text, side in curve.marks]
        texts = [text for _x, text, _side in curve.marks]
    else:
        points = [(x, value) for side in curve.sides for x, value in zip(curve.x, side, strict=True)]
        most, least = max(points, key=lambda point: point[1]), min(points, key=lambda point: point[1])
        size = max(abs(most[1]), abs(least[1]))
        found = [point for point in dict.fromkeys((most, least)) if abs(point[1]) > _WORTH_LABEL * size]
        texts = [""] * len(found)
    return [
        (x, value, ", ".join(part for part in (show(value, curve.kind, curve.system), text) if part))
        for (x, value), text in zip(found, texts, strict=True)
    ]


def draw_curve(board: Board, curve: Curve, to_x: Any, top: float) -> float:
    """Draw the diagram under `top` and return where it ends."""
    board.lettering(to_x(curve.x[0]) if curve.x else 36.0, top + 13, curve.title, bold=True)
    if not curve.drawable:
        board.lettering(board.width / 2, top + 34, "not computed", anchor="middle")
        return top + 48
    values = [value for side in curve.sides for value in side]
    highest, lowest = max(*values, 0.0), min(*values, 0.0)
    scale = HEIGHT / (highest - lowest) if highest > lowest else 0.0
    sign = 1 if curve.down else -1
    above = (highest if not curve.down else -lowest) * scale
    axis = top + 17 + (TEXT + 5 if above > 0 else 4) + above  # room for a label over the highest point

    def at(x: float, value: float) -> tuple[float, float]:
        return to_x(x), axis + sign * value * scale

    upper = [at(x, value) for x, value in zip(curve.x, curve.high, strict=True)]
    lower = [at(x, value) for x, value in zip(curve.x, curve.low, strict=True)] if curve.low else []
    base = lower or [(to_x(x), axis) for x in curve.x]
    outer, inner = thinned(upper), thinned(base)
    board.shape([*outer, *reversed(inner)], fill="#e4e4e4", stroke="none")
    _hatch(board, upper, base)
    board.line(*outer, width=1.8)
    if lower:
        board.line(*inner, width=1.4, dash="5 2.5")
    board.line((to_x(curve.x[0]), axis), (to_x(curve.x[-1]), axis), width=1.0)
    bottom = axis + (HEIGHT - above)
    taken: Taken = []
    for x, value, label in extremes(curve):
        bottom = max(bottom, _label(board, at(x, value), label, over=sign * value < 0, taken=taken))
    return bottom + 7


Taken = list[tuple[float, float, float]]  # left, right and base line of each label


def _label(board: Board, place: tuple[float, float], label: str, *, over: bool, taken: Taken) -> float:
    """Put a dot and its label over or under the curve, away from the labels put before; returns the lower edge."""
    x, y = place
    board.disc(x, y, 2.4)
    shown = clipped(label, board.width - 8)
    wide = text_width(shown)
    left = min(max(x - wide / 2, 4.0), board.width - 4 - wide)
    line = y - 6 if over else y + TEXT + 3
    step = -TEXT - 2 if over else TEXT + 2
    while any(left < end and start < left + wide and abs(line - other) < TEXT for start, end, other in taken):
        line += step
    taken.append((left, left + wide, line))
    board.lettering(left, line, shown, tip=label)
    return line + 2


def thinned(points: Sequence[Point], off: float = _THICKNESS) -> list[Point]:
    """The points of a line without those that lie within `off` of the line through the others."""
    if len(points) < 3:
        return list(points)
    (x0, y0), (x1, y1) = points[0], points[-1]
    run, rise = x1 - x0, y1 - y0
    length = math.hypot(run, rise)
    away = [abs(rise * (x - x0) - run * (y - y0)) / length if length else math.hypot(x - x0, y - y0) for x, y in points]
    most = max(range(len(points)), key=away.__getitem__)
    if away[most] <= off:
        return [points[0], points[-1]]
    return [*thinned(points[: most + 1], off)[:-1], *thinned(points[most:], off)]


def _hatch(board: Board, upper: list[tuple[float, float]], base: list[tuple[float, float]]) -> None:
    """Thin upright lines between the curves at about every 12 units, so that the area reads in any print."""
    last, lines = -math.inf, []
    for (x, y), (_x, other) in zip(upper, base, strict=True):
        if x - last >= 12 and abs(y - other) > 1:
            lines.append(((x, y), (x, other)))
            last = x
    board.strokes(lines, width=0.5, stroke=GRAY)


def _value_at(curve: Curve, x: float, side: str) -> float:
    """The value at x: of that side of the envelope, or the larger of both; at a jump the outer one."""
    lines = {"high": [curve.high], "low": [curve.low or curve.high]}.get(side, curve.sides)
    values = []
    for line in lines:
        for (x0, v0), (x1, v1) in pairwise(zip(curve.x, line, strict=True)):
            if x0 <= x <= x1:
                values += [v0, v1] if x1 == x0 else [v0 + (v1 - v0) * (x - x0) / (x1 - x0)]
    outer = {"high": max, "low": min}.get(side)
    return outer(values, default=0.0) if outer else max(values, key=abs, default=0.0)
