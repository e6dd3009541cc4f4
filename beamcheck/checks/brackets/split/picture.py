"""From the worst run of the split test to the plain numbers of its picture."""

from __future__ import annotations

import math

from ....analysis.splits.balance import Balance, Sum, balance
from ....analysis.splits.holds import Held
from ....analysis.splits.split import Allowed
from ...core.pictures.split import SplitForce, SplitPicture

NAMES = {"line": "check", "dowel": "dowels"}  # of what acts, for a reader
NOTHING = 1.0  # lbf: less is nothing


def split_picture(
    name: str, combination: str, held: Held, found: Allowed, comes: float, place: str, lines: int
) -> SplitPicture:  # fmt: skip
    """The direction of the grain that governs, with what holds the part beyond its worst check."""
    worst = found.governing
    stands = worst.least > NOTHING
    state = balance(held, worst, lines) if stands or worst.s is not None else Balance(0.0, (), (), ())
    theta = math.radians(worst.grain)
    sin, cos = math.sin(theta), math.cos(theta)
    s = worst.s
    if s is None and not stands:  # nothing holds what lies beyond the grain line of the load
        s = held.x_R * sin
    outline = tuple((float(x), float(y)) for x, y in held.outline)
    return SplitPicture(
        name, combination, outline, worst.grain, comes, worst.least, worst.none, found.load, held.x_R, place,
        state.check, state.pressed, () if s is None else tuple(_beyond(outline, sin, cos, s)),
        tuple(((0.0, row.y), (row.head, row.y)) for row in held.rows),
        tuple(_force(one) for one in state.beyond) if stands else (),
    )  # fmt: skip


def _force(one: Sum) -> SplitForce:
    number = one.number + 1 if one.what in ("heads", "dowel", "rod") else 0
    return SplitForce(NAMES.get(one.what, one.what), number, one.x, one.y, one.right, one.down)


def _beyond(
    outline: tuple[tuple[float, float], ...], sin: float, cos: float, s: float
) -> list[tuple[tuple[float, float], ...]]:  # fmt: skip
    """The outline cut off along a grain line: what lies farther across the grain."""
    kept: list[tuple[float, float]] = []
    for (x0, y0), (x1, y1) in zip(outline, (*outline[1:], outline[0]), strict=True):
        a, b = x0 * sin + y0 * cos - s, x1 * sin + y1 * cos - s
        if a >= 0.0:
            kept.append((x0, y0))
        if (a < 0.0) != (b < 0.0) and a != b:
            t = a / (a - b)
            kept.append((x0 + t * (x1 - x0), y0 + t * (y1 - y0)))
    return [tuple(kept)] if len(kept) > 2 else []
