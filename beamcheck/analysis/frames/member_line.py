"""One straight member of a solved frame, read along its length; and a single straight beam, solved in one call."""

from __future__ import annotations

from collections.abc import Sequence
from copy import copy
from dataclasses import replace
from typing import TYPE_CHECKING, Literal

import numpy as np
from numpy.typing import ArrayLike

from ...records import dataclass
from .beam_frame import SNAP, Amount, BeamLoad, LineLoad, PointLoad, Prop, Section, Settlement, beam_frame
from .chains import STRAIGHT, Flags
from .frame import Solution, solve
from .polynomial import Array, evaluate, extremes, picked

if TYPE_CHECKING:
    from .contact import ContactSolution

__all__ = [
    "BeamResult", "Line", "LineLoad", "PointLoad", "Prop", "Section", "Settlement", "straight_beam",
]  # fmt: skip
Quantity = Literal["N", "V", "M", "u", "v"]
Extremes = tuple[Array, Array, Array, Array]


class Line:
    """A chain of consecutive bars of a solution that make one straight member, with s from its start.

    Positive senses are those of the bars (see `frame`): M sagging, V = dM/dx, N tension, v towards local +y.

    Attributes
    ----------
    solution : Solution
    bars : tuple of int
    stations : (*F, n_bars + 1) or fewer leading axes; s at the ends of the bars, 0 first.
    length : (*F,) or fewer axes.

    Raises
    ------
    ValueError
        Bars that do not follow each other, or not in a straight line.
    """

    def __init__(self, solution: Solution, bars: Sequence[int]) -> None:
        self.solution, self.bars = solution, tuple(int(bar) for bar in bars)
        frame = solution.frame
        if not self.bars or not all(0 <= bar < len(frame.bars) for bar in self.bars):
            raise ValueError(f"line: bars {self.bars} must be one or more of 0 to {len(frame.bars) - 1}")
        for before, after in zip(self.bars, self.bars[1:], strict=False):
            if frame.end[before] != frame.start[after]:
                raise ValueError(f"line: bar {after} does not start where bar {before} ends")
        index = list(self.bars)
        c, s = frame.cos[..., index], frame.sin[..., index]
        bent = (np.abs(c * s[..., :1] - s * c[..., :1]) > STRAIGHT) | (c * c[..., :1] + s * s[..., :1] < 0.0)
        if bent.any():
            raise ValueError(f"line: bar {self.bars[int(np.argwhere(bent)[0][-1])]} is not in line with the first")
        h = frame.length[..., index]
        self.stations = np.concatenate([np.zeros_like(h[..., :1]), np.cumsum(h, axis=-1)], axis=-1)
        self.length = self.stations[..., -1]
        self._whole: dict[Quantity, Extremes] = {}  # along all of it, as far as they were asked for

    def combine(self, factors: ArrayLike) -> Line:
        """The same member under combinations of the cases (see Solution.combine)."""
        return self.of(self.solution.combine(factors))

    def of(self, solution: Solution) -> Line:
        """The same member in another solution of the same frame."""
        line = copy(self)
        line.solution, line._whole = solution, {}
        return line

    def part(self, first: int, last: int) -> Line:
        """Its bars from one to another, both counted along it, as a line of their own."""
        line = copy(self)
        line.bars, line._whole = self.bars[first : last + 1], {}
        line.stations = self.stations[..., first : last + 2] - self.stations[..., first : first + 1]
        line.length = line.stations[..., -1]
        return line

    def coefficients(self, quantity: Quantity) -> Array:
        """(*lead, n_bars, degree + 1) in rising powers of the distance from the start of each bar."""
        if quantity not in ("N", "V", "M", "u", "v"):
            raise ValueError(f"{quantity!r} is not known along a line; known are 'N', 'V', 'M', 'u', 'v'")
        return np.asarray(getattr(self.solution, quantity)[..., list(self.bars), :])

    def at(self, quantity: Quantity, s: ArrayLike, side: Literal["left", "right"] = "right") -> Array:
        """The exact value at s, just before it ('left') or just after it ('right') where it jumps.

        Parameters
        ----------
        s : one place, several (k,), or places that differ in the batch (..., k), broadcasting to (*lead, k).

        Returns
        -------
        (*lead,) for one place, else (*lead, k).

        Raises
        ------
        ValueError
            A place beyond the ends.
        """
        if side not in ("left", "right"):
            raise ValueError(f"side = {side!r}; it must be 'left' or 'right'")
        places = np.asarray(s, dtype=float)
        values = self._at(quantity, np.atleast_1d(places), side)
        return values[..., 0] if places.ndim == 0 else values

    def _at(self, quantity: Quantity, s: Array, side: Literal["left", "right"]) -> Array:
        if self.stations.ndim == 1 and s.ndim == 1:  # the same places in all cases, as nearly always
            return self._at_the_same(quantity, s, side)
        lead = self.solution.lead
        stations = np.broadcast_to(self.stations[..., None, :], (*lead, len(self.bars) + 1))
        s = np.broadcast_to(s, (*lead, s.shape[-1]))
        near = SNAP * stations[..., -1:]
        _refuse_beyond(s, stations[..., -1:], near)
        inner = stations[..., None, 1:-1]
        passed = s[..., None] > inner + near[..., None] if side == "left" else s[..., None] >= inner - near[..., None]
        bar = passed.sum(axis=-1)
        start = np.take_along_axis(stations, bar, -1)
        x = np.clip(s, start, np.take_along_axis(stations, bar + 1, -1)) - start
        return evaluate(np.take_along_axis(self.coefficients(quantity), bar[..., None], -2), x)

    def _at_the_same(self, quantity: Quantity, s: Array, side: Literal["left", "right"]) -> Array:
        stations = self.stations
        near = SNAP * stations[-1]
        _refuse_beyond(s, stations[-1], near)
        bar = np.searchsorted(stations[1:-1] + (near if side == "left" else -near), s, side=side)
        x = np.minimum(np.maximum(s, stations[bar]), stations[bar + 1]) - stations[bar]
        return evaluate(self.coefficients(quantity)[..., bar, :], x)

    def extremes(
        self, quantity: Quantity, s0: ArrayLike | None = None, s1: ArrayLike | None = None, *, both_sides: bool = True
    ) -> Extremes:
        """Smallest and largest value between s0 and s1 (default: the whole line), exact, and where they are.

        Jumps between the two places count with both sides. At s0 and s1 themselves, too, unless `both_sides` is False:
        then only what is just after s0 and just before s1 counts (a span without its neighbors).

        Parameters
        ----------
        s0, s1 : numbers, or arrays that broadcast to (*lead,); s0 <= s1.

        Returns
        -------
        low, s_low, high, s_high : (*lead,) each.
        """
        if s0 is s1 is None:  # a drawing and a table both ask for it
            if quantity not in self._whole:
                self._whole[quantity] = self._extremes(self.coefficients(quantity), *self._range(None, None), True)
            return self._whole[quantity]
        return self._extremes(self.coefficients(quantity), *self._range(s0, s1), both_sides)

    def sag_between(self, s0: ArrayLike, s1: ArrayLike) -> Extremes:
        """Extremes of v between s0 and s1, measured from the straight line through these two points of the bent member.

        Downward sag (on a member that runs from left to right) is negative: `low`. Arguments and results as `extremes`.
        """
        a, b = self._range(s0, s1)
        if (b - a <= SNAP * self.length[..., None]).any():
            raise ValueError("sag_between: s0 and s1 are in the same place")
        if a.size == b.size == 1:
            v_a, v_b = np.moveaxis(self._at("v", np.concatenate([a.ravel(), b.ravel()]), "right"), -1, 0)
        else:
            v_a, v_b = (self._at("v", s[..., None], "right")[..., 0] for s in (a, b))
        tilt = (v_b - v_a) / (b - a)
        v = self.coefficients("v").copy()
        v[..., 0] -= v_a[..., None] + tilt[..., None] * (self._starts - a[..., None])
        v[..., 1] -= tilt[..., None]
        return self._extremes(v, a, b, True)

    def sample(self, quantity: Quantity, s: ArrayLike) -> tuple[Array, Array]:
        """Places and values for a drawing: those asked for, and every end of a bar among them with both its sides.

        Returns
        -------
        s : (m,) rising; an end of a bar inside the range comes twice (once for v and u, which do not jump).
        values : (*lead, m).

        Raises
        ------
        ValueError
            A batch whose members are not cut at the same places.
        """
        stations = self.stations.reshape(-1, len(self.bars) + 1)
        if np.any(np.abs(stations - stations[0]) > SNAP * stations[0, -1]):
            raise ValueError("sample: the members of the batch have different lengths; draw them one at a time")
        # sorted, since np.unique loads masked arrays, which takes longer than a small frame
        wanted, cuts = np.array(sorted({*np.asarray(s, dtype=float).ravel().tolist()})), stations[0, 1:-1]
        near = SNAP * stations[0, -1]
        cuts = cuts[(cuts >= wanted[0] - near) & (cuts <= wanted[-1] + near)]
        if cuts.size:
            wanted = wanted[np.min(np.abs(wanted[:, None] - cuts), axis=-1) > near]
        twice = np.repeat(cuts, 1 if quantity in ("u", "v") else 2)
        places = np.concatenate([wanted, twice])
        before = np.concatenate([np.zeros(wanted.size, dtype=bool), np.arange(twice.size) % 2 == 0])
        order = np.argsort(places, kind="stable")
        values = np.where(before, self._at(quantity, places, "left"), self._at(quantity, places, "right"))
        return places[order], values[..., order]

    @property
    def _starts(self) -> Array:
        """s at the start of each bar, (*F, 1, n_bars): with the axis of cases."""
        return np.asarray(self.stations[..., None, :-1])

    def _range(self, s0: ArrayLike | None, s1: ArrayLike | None) -> tuple[Array, Array]:
        length = self.length[..., None]
        a = np.asarray(0.0 if s0 is None else s0, dtype=float)
        b = np.asarray(length if s1 is None else s1, dtype=float)
        near = SNAP * length
        if not ((a >= -near).all() and (b <= length + near).all() and (a <= b + near).all()):
            raise ValueError(
                f"from s0 = {s0!r} to s1 = {s1!r} is not a stretch of the line (0 to {np.max(self.length):g})"
            )
        a, b = np.maximum(a, 0.0), np.maximum(np.maximum(a, b), 0.0)
        return np.minimum(a, length), np.minimum(b, length)

    def _extremes(self, c: Array, a: Array, b: Array, both_sides: bool) -> Extremes:
        starts, ends = self._starts, self.stations[..., None, 1:]
        near = SNAP * self.length[..., None, None]
        a, b = a[..., None], b[..., None]
        inside: Flags = (ends > a + near) & (starts < b - near)
        touching = (ends >= a - near) & (starts <= b + near)
        # a stretch of no length lies in no bar: then the bars that touch it are all there is
        counts = touching if both_sides else np.where(inside.any(axis=-1, keepdims=True), inside, touching)
        from_x = np.minimum(np.maximum(a, starts), ends) - starts
        to_x = np.maximum(np.minimum(np.maximum(b, starts), ends) - starts, from_x)
        low, x_low, high, x_high = extremes(c, from_x, to_x)
        least = np.where(counts, low, np.inf).argmin(axis=-1)
        most = np.where(counts, high, -np.inf).argmax(axis=-1)
        return (
            picked(low, least), picked(starts + x_low, least), picked(high, most), picked(starts + x_high, most)
        )  # fmt: skip


def _refuse_beyond(s: Array, length: Array, near: Array) -> None:
    beyond = (s < -near) | (s > length + near) | np.isnan(s)
    if beyond.any():
        raise ValueError(f"s = {s[beyond][0]:g} is not on the line, which runs from 0 to {np.max(length):g}")


@dataclass(frozen=True, eq=False)
class BeamResult:
    """What `straight_beam` returns.

    reactions : (*lead, n_supports, 3) Fx, Fy, M of each support on the beam, in the order given (Fy up positive).
    contact : with props: their forces and openings (see ContactSolution); else None.
    """

    line: Line
    reactions: Array
    contact: ContactSolution | None = None

    def combine(self, factors: ArrayLike) -> BeamResult:
        """The same beam under combinations of the cases, `factors` (n_combos, n_cases); not with props."""
        line = self.line.combine(factors)
        return replace(self, line=line, reactions=line.solution.reactions)


def straight_beam(
    length: Amount,
    supports: Sequence[tuple[Amount, str | Amount]],
    cases: Sequence[Sequence[BeamLoad]],
    EI: Amount | None = None,
    GA_s: Amount = np.inf,
    *,
    EA: Amount | None = None,
    sections: Sequence[Section] = (),
    stations: Sequence[Amount] = (),
    slope: float = 0.0,
    props: Sequence[Prop] = (),
) -> BeamResult:
    """Solve one straight beam under vertical loads, all cases at once.

    Every amount and place may be an array over a batch of beams (axes *F), if the places come in the same order in all.

    Parameters
    ----------
    length : along the beam, as are all places s (from its left end).
    supports : (s, 'pin' | 'roller' | 'fixed' | stiffness of a vertical spring). Only one support holds the beam
        horizontally (the first pin, else the first fixed end, else the first support), so that none ties the beam.
    cases : for each case its loads: PointLoad, LineLoad, Settlement.
    EI, GA_s : where no section says otherwise; GA_s = inf leaves shear deflection out.
    EA : without meaning on a level beam, which has no axial force; must be given on a slope.
    sections : stretches with another EI and GA_s.
    stations : further places to cut the beam (it needs no cut to be read with Line.at).
    slope : degrees from level.
    props : one-sided supports with a gap. Each case then must be a whole combination.

    Raises
    ------
    ValueError
        A place off the beam, supports in one place, overlapping sections, no stiffness, a load with no length.
    Unstable
        Supports that leave the beam free to move.
    """
    frame, loads, contacts = beam_frame(length, supports, cases, EI, GA_s, EA, sections, stations, slope, props)
    bars = range(len(frame.bars))
    if not contacts:
        solution = solve(frame, loads)
        return BeamResult(Line(solution, bars), solution.reactions)
    from .contact import solve_contact

    contact = solve_contact(frame, loads, contacts)
    return BeamResult(Line(contact.solution, bars), contact.solution.reactions, contact)
