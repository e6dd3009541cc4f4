"""A bracket cut into strips along its grain: rigid pieces, and the lines where they touch.

x out from the wall, y down from the top edge, inch. Along the grain u = x cos(theta) - y sin(theta), across it
s = x sin(theta) + y cos(theta); theta is the grain's angle above level towards the nose.
"""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise

import numpy as np

from ...records import dataclass
from ..frames.polynomial import Array

SAME = 1e-7  # in: levels and places nearer than this are one
INSIDE = 1e-5  # in: a place on the edge counts as that far inside


@dataclass(frozen=True)
class Contact:
    """A part of a line that two pieces have in common: from u0 to u1 at level s, between pieces `near` and `far`."""

    line: int
    s: float
    u0: float
    u1: float
    near: int
    far: int

    @property
    def length(self) -> float:
        return self.u1 - self.u0


@dataclass(frozen=True, eq=False)
class Strips:
    """All pieces of a bracket for one direction of the grain.

    levels : (k,) lines between strips. contacts : where pieces touch. area, centroid : of each piece, (n,) and (n, 2).
    """

    grain: float
    along: Array
    across: Array
    levels: Array
    contacts: tuple[Contact, ...]
    area: Array
    centroid: Array
    slabs: tuple[float, ...]
    parts: tuple[tuple[tuple[float, float, float, float, int], ...], ...]  # u low and high at both ends, and the piece

    def piece_at(self, x: float, y: float) -> int:
        """The piece that has a place; of a place on the edge the nearest."""
        s = float(np.clip(self.across @ (x, y), self.slabs[0] + INSIDE, self.slabs[-1] - INSIDE))
        u = float(self.along @ (x, y))
        i = int(np.searchsorted(self.slabs, s)) - 1
        t = (s - self.slabs[i]) / (self.slabs[i + 1] - self.slabs[i])
        found = [
            (max((1 - t) * low0 + t * low1 - u, u - (1 - t) * high0 - t * high1, 0.0), piece)
            for low0, high0, low1, high1, piece in self.parts[i]
        ]
        return min(found)[1]


def cut(outline: Array, grain: float, count: int, extra: Sequence[float] = ()) -> Strips:
    """Cut an outline by `count` equal strips and by lines at further levels.

    `outline`: (n, 2): the closed outline, without its first point repeated; pockets are part of it. `extra`: further
    levels s, in.
    """
    theta = np.radians(grain)
    along = np.array([np.cos(theta), -np.sin(theta)])
    across = np.array([np.sin(theta), np.cos(theta)])
    u, s = outline @ along, outline @ across
    low, high = float(s.min()), float(s.max())
    wanted = [low + (high - low) * i / count for i in range(1, count)]
    levels = _apart([*wanted, *(one for one in extra if low + SAME < one < high - SAME)], low, high)
    slabs = _apart([*levels, *s.tolist()], low, high, keep=levels)
    slabs = [low, *slabs, high]
    lines = {round(one, 9) for one in levels}
    u1, s1 = np.roll(u, -1), np.roll(s, -1)
    parts: list[list[list[float]]] = []
    for below, above in pairwise(slabs):
        middle = 0.5 * (below + above)
        hit = (np.minimum(s, s1) < middle) & (middle < np.maximum(s, s1))
        rise = (u1[hit] - u[hit]) / (s1[hit] - s[hit])
        at = u[hit] + rise * (middle - s[hit])
        order = np.argsort(at)
        at, rise = at[order], rise[order]
        half = 0.5 * (above - below)
        parts.append(
            [
                [at[k] - half * rise[k], at[k + 1] - half * rise[k + 1],
                 at[k] + half * rise[k], at[k + 1] + half * rise[k + 1], -1]
                for k in range(0, len(at) - 1, 2)
            ]
        )  # fmt: skip
    _join(parts, slabs, lines)
    contacts = _contacts(parts, slabs, levels)
    count_pieces = 1 + int(max(one[4] for part in parts for one in part))
    area, moment = np.zeros(count_pieces), np.zeros((count_pieces, 2))
    for part, (below, above) in zip(parts, pairwise(slabs), strict=True):
        for low0, high0, low1, high1, piece in part:
            here = 0.5 * (above - below) * (high0 - low0 + high1 - low1)
            area[int(piece)] += here
            place = 0.25 * (low0 + high0 + low1 + high1) * along + 0.5 * (below + above) * across
            moment[int(piece)] += here * place
    frozen = tuple(tuple((a, b, c, d, int(e)) for a, b, c, d, e in part) for part in parts)
    return Strips(
        grain, along, across, np.array(levels), tuple(contacts), area, moment / np.maximum(area, 1e-12)[:, None],
        tuple(slabs), frozen,
    )  # fmt: skip


def _apart(values: Sequence[float], low: float, high: float, keep: Sequence[float] = ()) -> list[float]:
    """The values within the extent in order, each once; those to keep before others."""
    found: list[float] = []
    kept = set(keep)
    for one in sorted(values):
        if not low + SAME < one < high - SAME:
            continue
        if found and one - found[-1] < SAME:
            if one in kept:
                found[-1] = one
            continue
        found.append(float(one))
    return found


def _join(parts: list[list[list[float]]], slabs: Sequence[float], lines: set[float]) -> None:
    """Number the pieces: parts of one strip that touch belong together."""
    names = iter(range(10**6))
    parent: dict[int, int] = {}

    def root(i: int) -> int:
        while parent[i] != i:
            i = parent[i]
        return i

    for k, part in enumerate(parts):
        for one in part:
            one[4] = next(names)
            parent[int(one[4])] = int(one[4])
        if k == 0 or round(slabs[k], 9) in lines:
            continue
        for one in part:
            for other in parts[k - 1]:
                if min(one[1], other[3]) - max(one[0], other[2]) > SAME:
                    parent[root(int(one[4]))] = root(int(other[4]))
    numbers: dict[int, int] = {}
    for part in parts:
        for one in part:
            one[4] = numbers.setdefault(root(int(one[4])), len(numbers))


def _contacts(parts: list[list[list[float]]], slabs: Sequence[float], levels: Sequence[float]) -> list[Contact]:
    found = []
    for number, level in enumerate(levels):
        k = int(np.argmin(np.abs(np.asarray(slabs) - level)))
        for near in parts[k - 1]:
            for far in parts[k]:
                u0, u1 = max(near[2], far[0]), min(near[3], far[1])
                if u1 - u0 > 10.0 * SAME:
                    found.append(Contact(number, float(level), float(u0), float(u1), int(near[4]), int(far[4])))
    return found
