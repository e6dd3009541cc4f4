"""The split test: the load that a wooden bracket carries with any one full check along its grain, and with none."""

from __future__ import annotations

import math

from ...records import dataclass
from .holds import Held
from .programme import Programme

LINES = 40


@dataclass(frozen=True)
class Split:
    """What a bracket carries for one direction of its grain, lbf.

    none : without a check. least : with the worst one. s : where that one runs, in across the grain; None where no
    check lowers it.
    """

    grain: float
    none: float
    least: float
    s: float | None


def split(held: Held, grain: float, lines: int = LINES, below: float = math.inf) -> Split:
    """Check each line in turn.

    `grain`: deg above level towards the nose. `below`: only loads below this matter, lbf: what is found to carry more
    is not looked at further.
    """
    programme = Programme(held, grain, lines)
    none, stands = programme.checked(None)
    least, worst = none, None
    pending = [k for k in _order(programme, held) if k not in stands]
    while pending and least > 0.0:
        line = pending.pop(0)
        load, stands = programme.checked(line)
        if load < least - 1e-9:
            least, worst = load, line
        if load >= min(least, below) * (1.0 - 1e-9):
            pending = [k for k in pending if k not in stands]
    return Split(grain, none, least, None if worst is None else float(programme.strips.levels[worst]))


def _order(programme: Programme, held: Held) -> list[int]:
    """Lines near the inner sides of heads first: those drop a bracket."""
    across = programme.strips.across
    heads = [float(across @ (row.head, row.y + k * row.washer)) for row in held.rows for k in (-0.5, 0.5)]
    levels = programme.strips.levels
    return sorted(programme.lines, key=lambda k: min((abs(levels[k] - one) for one in heads), default=0.0))


@dataclass(frozen=True)
class Allowed:
    """What a bracket is allowed, lbf: the least over the grain as given and to either side, over the margin."""

    load: float
    splits: tuple[Split, ...]
    margin: float

    @property
    def governing(self) -> Split:
        return min(self.splits, key=lambda one: one.least)


def allowed(held: Held, grain: float, turn: float, margin: float, lines: int = LINES) -> Allowed:
    """The load that is allowed for a direction of the grain that is known to `turn` degrees."""
    found: list[Split] = []
    for angle in (grain, grain - turn, grain + turn):
        found.append(split(held, angle, lines))
        if found[-1].least <= 0.0:
            break
    return Allowed(min(one.least for one in found) / margin, tuple(found), margin)
