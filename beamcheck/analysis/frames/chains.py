"""Bars that follow each other in a straight line with no support, joint or hinge between them: one element.

A cut at a load does not need unknowns of its own. Were it given some, two cuts close together would make a bar so stiff
that the digits of the longer ones are lost; along a chain everything is added up instead, which costs no digits.

Along a bar, with p and q the loads along local x and y:
N' = -p, u' = N/EA, V' = q, M' = V, theta' = M/EI, v' = theta - V/GA_s.
"""

from __future__ import annotations

from functools import cached_property

import numpy as np
from numpy.typing import NDArray

from ...records import dataclass
from .polynomial import Array

Indices = NDArray[np.intp]
Flags = NDArray[np.bool_]
STRAIGHT = 1e-9  # sine of the largest angle between two bars that counts as straight


@dataclass(frozen=True, eq=False)
class Chains:
    """Which bars make which chain.

    `bars` (n_chains, most) lists them in order, filled up with the number of bars; `start`, `end` (n_chains,) are end
    nodes; `chain`, `position` (n_bars,) say where a bar is; `inner` (n_nodes,) marks the nodes that lie inside a chain.
    """

    bars: Indices
    start: Indices
    end: Indices
    release_start: Flags
    release_end: Flags
    chain: Indices
    position: Indices
    inner: Flags

    def padded(self, per_bar: Array, axis: int = -1) -> Array:
        """Values per bar, along `axis`, as (chain, position) with zeros where a chain is shorter."""
        moved = np.moveaxis(per_bar, axis, -1)
        filled = np.concatenate([moved, np.zeros((*moved.shape[:-1], 1))], axis=-1)
        return filled[..., self.bars]

    def per_bar(self, padded: Array) -> Array:
        """The opposite of `padded`: (..., n_chains, most) to (..., n_bars)."""
        return padded[..., self.chain, self.position]


def find_chains(
    start: Indices, end: Indices, release_start: Flags, release_end: Flags, cos: Array, sin: Array, held: Flags,
    cut_start: Flags, cut_end: Flags,
) -> Chains:  # fmt: skip
    """Group bars into chains.

    `cos`, `sin` are (..., n_bars): a chain must be straight in every frame of the batch. `held` (n_nodes,) marks the
    nodes where a chain must end; so do the ends that are cut, by a hinge or by a joint that gives.
    """
    n_bars, n_nodes = len(start), len(held)
    arriving, leaving = np.full(n_nodes, -1), np.full(n_nodes, -1)
    arriving[end], leaving[start] = np.arange(n_bars), np.arange(n_bars)
    inner = (np.bincount(end, minlength=n_nodes) == 1) & (np.bincount(start, minlength=n_nodes) == 1) & ~held
    inner &= ~cut_end[arriving] & ~cut_start[leaving]
    across = cos[..., arriving] * sin[..., leaving] - sin[..., arriving] * cos[..., leaving]
    along = cos[..., arriving] * cos[..., leaving] + sin[..., arriving] * sin[..., leaving]
    straight = (np.abs(across) < STRAIGHT) & (along > 0.0)
    inner &= np.all(straight, axis=tuple(range(straight.ndim - 1)))
    lists: list[list[int]] = []
    for first in np.flatnonzero(~inner[start]):
        bars = [int(first)]
        while inner[node := end[bars[-1]]]:
            bars.append(int(leaving[node]))
        lists.append(bars)
    most = max(len(bars) for bars in lists)
    table = np.full((len(lists), most), n_bars)
    chain, position = np.zeros(n_bars, dtype=np.intp), np.zeros(n_bars, dtype=np.intp)
    for index, bars in enumerate(lists):
        table[index, : len(bars)] = bars
        chain[bars], position[bars] = index, np.arange(len(bars))
    first_bar, last_bar = np.array([bars[0] for bars in lists]), np.array([bars[-1] for bars in lists])
    return Chains(
        table, start[first_bar], end[last_bar], release_start[first_bar], release_end[last_bar], chain, position, inner
    )  # fmt: skip


@dataclass(frozen=True, eq=False)
class State:
    """N, V, M, u, v, theta at one place of every chain (..., n_chains), or at the start of all bars (with `most`)."""

    N: Array
    V: Array
    M: Array
    u: Array
    v: Array
    theta: Array


@dataclass(frozen=True, eq=False)
class Ends:
    """How much the joints at the ends of every chain give (..., n_chains): per force along it, per moment; and idle."""

    slip_start: Array
    slip_end: Array
    turn_start: Array
    turn_end: Array
    idle: Flags


@dataclass(frozen=True, eq=False)
class BarLoads:
    """Loads along chains: p, q (..., 2 ends, n_chains, most); forces at inner nodes x, y, m (..., n_chains, most).

    `stretch` (..., n_chains, most): by how much a bar gets longer of itself.
    """

    p: Array
    q: Array
    x: Array
    y: Array
    m: Array
    stretch: Array


@dataclass(frozen=True, eq=False)
class Elements:
    """Lengths and flexibilities (..., n_chains, most) of the bars of every chain, and what follows for the chain."""

    chains: Chains
    length: Array
    by_EA: Array
    by_EI: Array
    by_GA: Array
    ends: Ends | None = None

    @cached_property
    def L(self) -> Array:
        return np.asarray(self.length.sum(axis=-1))

    @cached_property
    def axial(self) -> Array:
        """Stretch of the chain for N = 1, its joints with it."""
        own = np.asarray((self.length * self.by_EA).sum(axis=-1))
        return own if self.ends is None else own + self.ends.slip_start + self.ends.slip_end

    @cached_property
    def bend(self) -> tuple[Array, Array, Array]:
        """Integral of dx/EI, its centroid x_c, and integral of (x - x_c)^2 dx/EI + dx/GA_s: nothing cancels in them.

        A joint that turns is a lump of dx/EI at its end.
        """
        a, h, e = self.length * self.by_EI, self.length, self.ends
        middle = np.cumsum(h, axis=-1) - 0.5 * h
        A, first = a.sum(axis=-1), (a * middle).sum(axis=-1)
        if e is not None:
            A, first = A + e.turn_start + e.turn_end, first + e.turn_end * self.L
        x_c = first / A
        J = (a * ((middle - x_c[..., None]) ** 2 + h**2 / 12.0)).sum(axis=-1) + (h * self.by_GA).sum(axis=-1)
        return A, x_c, J if e is None else J + e.turn_start * x_c**2 + e.turn_end * (self.L - x_c) ** 2

    @cached_property
    def start_forces(self) -> tuple[Array, Array]:
        """V and M at the start per unit of v, theta at the start and at the end: two arrays (..., n_chains, 4)."""
        A, x_c, J = self.bend
        L, one, none = self.L, np.ones_like(J), np.zeros_like(J)
        V_rows = [
            self._by_release(rigid / J, at_start / self._about_start, at_end / self._about_end, none)
            for rigid, at_start, at_end in ((one, one, one), (x_c, none, L), (-one, -one, -one), (L - x_c, L, none))
        ]
        turns = (none, -1.0 / A, none, 1.0 / A)
        M_rows = [self._by_release(turn - x_c * V, none, -L * V, none) for turn, V in zip(turns, V_rows, strict=True)]
        return np.stack(V_rows, axis=-1), np.stack(M_rows, axis=-1)

    @property
    def _about_start(self) -> Array:
        A, x_c, J = self.bend
        return J + A * x_c**2

    @property
    def _about_end(self) -> Array:
        A, x_c, J = self.bend
        return J + A * (self.L - x_c) ** 2

    def _by_release(self, rigid: Array, at_start: Array, at_end: Array, both: Array) -> Array:
        """Chooses by the hinges at the ends of each chain; all four arrays are (..., n_chains)."""
        s, e = self.chains.release_start, self.chains.release_end
        if not (s.any() or e.any()):  # a beam
            return rigid
        return np.asarray(np.select([s & e, s & ~e, e & ~s], [both, at_start, at_end], rigid))

    def stiffness(self) -> Array:
        """(..., n_chains, 6, 6) between end displacements u, v, theta and end forces, in local axes."""
        V, M = self.start_forces
        k = np.zeros((*self.L.shape, 6, 6))
        bending = [1, 2, 4, 5]
        for row, value in ((1, V), (2, -M), (4, -V), (5, M + V * self.L[..., None])):
            k[..., row, bending] = value
        by_axial = 1.0 / self.axial
        if self.ends is not None:
            by_axial = np.where(self.ends.idle, 0.0, by_axial)
        k[..., 0, 0], k[..., 3, 3] = by_axial, by_axial
        k[..., 0, 3], k[..., 3, 0] = -by_axial, -by_axial
        return k

    def start_state(self, ends: Array, loose: State) -> State:
        """What N, V, M, u, v, theta are at the start of each chain.

        `ends` (..., n_chains, 6) are the end displacements in local axes; `loose` is the state at the end when the
        chain carries its loads with all six start values zero.
        """
        A, x_c, J = (x[..., None, :] for x in self.bend)
        L, none = self.L[..., None, :], np.zeros_like(loose.v)
        bending, rest = ends[..., [1, 2, 4, 5]], L - x_c
        V = (self.start_forces[0][..., None, :, :] * bending).sum(axis=-1) + self._by_release(
            (loose.v - rest * loose.theta) / J,
            (loose.v - L * loose.theta) / self._about_start[..., None, :],
            (loose.v - A * rest * loose.M) / self._about_end[..., None, :],
            -loose.M / L,
        )
        bent = (bending[..., 3] - bending[..., 1] - loose.theta) / A
        M = self._by_release(bent - x_c * V, none, -L * V - loose.M, none)
        v_start, v_end, theta_end = bending[..., 0], bending[..., 2], bending[..., 3]
        simple = (v_end - v_start - V * (A * x_c * rest - J) - loose.v) / L
        e, more = self.ends, (..., None, slice(None))
        turned = bending[..., 1] if e is None else bending[..., 1] + M * e.turn_start[more]
        theta = self._by_release(turned, theta_end - V * A * x_c - loose.theta, turned, simple)
        N = (ends[..., 3] - ends[..., 0] - loose.u) / self.axial[..., None, :]
        if e is None:
            return State(N, V, M, ends[..., 0], v_start, theta)
        N = np.where(e.idle, -loose.N / 2.0, N)
        return State(N, V, M, ends[..., 0] + N * e.slip_start[more], v_start, theta)

    def beyond_joints(self, at_end: State) -> State:
        """The state at the nodes at the ends of the chains: the joints there give by what they carry."""
        e, more = self.ends, (..., None, slice(None))
        if e is None:
            return at_end
        u, theta = at_end.u + at_end.N * e.slip_end[more], at_end.theta + at_end.M * e.turn_end[more]
        return State(at_end.N, at_end.V, at_end.M, u, at_end.v, theta)

    def march(self, at_start: State, loads: BarLoads) -> tuple[State, State]:
        """From the start of each chain to the start of each of its bars, and to its end, adding up exactly."""
        h, by_EA, by_EI, by_GA = (x[..., None, :, :] for x in (self.length, self.by_EA, self.by_EI, self.by_GA))
        (p0, p1), (q0, q1) = (np.moveaxis(x, -3, 0) for x in (loads.p, loads.q))
        N, N_end = _add_up(at_start.N, -(p0 + p1) * h / 2.0, -loads.x)
        u, u_end = _add_up(at_start.u, (N * h - h**2 * (2.0 * p0 + p1) / 6.0) * by_EA + loads.stretch)
        V, V_end = _add_up(at_start.V, (q0 + q1) * h / 2.0, loads.y)
        gain = V * h + h**2 * (2.0 * q0 + q1) / 6.0
        M, M_end = _add_up(at_start.M, gain, -loads.m)
        bend = M * h + V * h**2 / 2.0 + h**3 * (3.0 * q0 + q1) / 24.0
        theta, theta_end = _add_up(at_start.theta, bend * by_EI)
        drop = M * h**2 / 2.0 + V * h**3 / 6.0 + h**4 * (4.0 * q0 + q1) / 120.0
        v, v_end = _add_up(at_start.v, theta * h + drop * by_EI - gain * by_GA)
        return State(N, V, M, u, v, theta), State(N_end, V_end, M_end, u_end, v_end, theta_end)


def _add_up(first: Array, gain: Array, jump: Array | None = None) -> tuple[Array, Array]:
    """Start values of the bars and the value at the end; `gain` is added over a bar, `jump` at its start."""
    before = np.concatenate([np.zeros_like(gain[..., :1]), np.cumsum(gain, axis=-1)], axis=-1)
    at_start, at_end = first[..., None] + before[..., :-1], first + before[..., -1]
    if jump is None:
        return at_start, at_end
    jumps = np.cumsum(jump, axis=-1)
    return at_start + jumps, at_end + jumps[..., -1]
