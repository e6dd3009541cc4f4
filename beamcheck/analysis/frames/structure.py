"""What a plane frame consists of: nodes, bars, supports; checked, grouped into chains, made into a stiffness matrix.

Axes, signs, shapes and units: see `frame`, from where these classes are meant to be imported.
"""

from __future__ import annotations

from collections.abc import Sequence
from functools import cached_property
from typing import Any, Literal

import numpy as np
from numpy.typing import ArrayLike

from ...errors import Unstable
from ...records import dataclass
from .chains import Chains, Elements, Ends, Flags, Indices, find_chains
from .polynomial import Array

Hold = bool | float | Array
RIGID_ENOUGH = 1e-12  # least eigenvalue of the scaled stiffness; rounding leaves about 1e-15 for a mechanism
MOTION = ("move sideways", "move up and down", "turn")


@dataclass(frozen=True, eq=False)
class Bar:
    """A straight bar between two nodes (indices).

    EA, EI and GA_s = G A kappa (inf: no shear deflection) are numbers or arrays that broadcast to the batch axes *F.
    A release is a hinge between the bar's end and its node.

    slip_start, slip_end : stiffness of the joint along the bar (force per length); inf does not give.
    turn_start, turn_end : stiffness of the joint against turning (moment per radian); inf does not give.
    stub_start, stub_end : (x, y) from the node to the bar's end, a rigid arm; the force in the bar turns the node.
    acts : 'push' bears only pressure (a dry shoulder), 'pull' only tension (a rod); such a bar is hinged at both ends,
        and `contact.solve_contact` finds whether it acts. `gap` is how far it must close or stretch first.
    idle : out of action: it hands what it carries across to its nodes, half of what pulls along it to each.
    """

    start: int
    end: int
    EA: float | Array
    EI: float | Array
    GA_s: float | Array = np.inf
    release_start: bool = False
    release_end: bool = False
    slip_start: float | Array = np.inf
    slip_end: float | Array = np.inf
    turn_start: float | Array = np.inf
    turn_end: float | Array = np.inf
    stub_start: tuple[float, float] = (0.0, 0.0)
    stub_end: tuple[float, float] = (0.0, 0.0)
    acts: Literal["both", "push", "pull"] = "both"
    gap: float | Array = 0.0
    idle: bool = False

    @property
    def tight(self) -> bool:
        """Whether nothing was said of its joints: they do not give, nor stand off, and it acts both ways."""
        return (
            self.acts == "both" and not self.idle and self.slip_start is np.inf and self.slip_end is np.inf
            and self.turn_start is np.inf and self.turn_end is np.inf
            and self.stub_start == (0.0, 0.0) and self.stub_end == (0.0, 0.0)
        )  # fmt: skip


@dataclass(frozen=True, eq=False)
class Support:
    """What holds a node: for each of ux, uy (force per length), rz (moment per radian) False, True or a spring."""

    node: int
    ux: Hold = False
    uy: Hold = False
    rz: Hold = False


@dataclass(frozen=True, eq=False)
class Stiffness:
    """K (*F, n, n) over 3 freedoms for each of the nodes `outer`, and what is needed to solve with it.

    `at` (n_chains, 6) are the freedoms at the ends of each chain, `held` (3 n_supports,) those at the supports, `free`
    the unknown ones; `scaled` is K of the free ones times `scale` from both sides, with a diagonal of ones.
    """

    outer: Indices
    at: Indices
    held: Indices
    free: Indices
    K: Array
    scaled: Array
    scale: Array


class Frame:
    """Nodes, bars and supports, checked and grouped.

    `nodes`: (*F, n_nodes, 2) coordinates. `bars`: sequence of Bar. `supports`: sequence of Support, at most one at a
    node. Raises ValueError: a wrong index, a bar without length, a stiffness that is not positive, a node without a
    bar.
    """

    def __init__(self, nodes: ArrayLike, bars: Sequence[Bar], supports: Sequence[Support]) -> None:
        self.nodes = np.asarray(nodes, dtype=float)
        self.bars, self.supports = tuple(bars), tuple(supports)
        if self.nodes.ndim < 2 or self.nodes.shape[-1] != 2 or not np.all(np.isfinite(self.nodes)):
            raise ValueError(f"nodes: give finite x, y per node, shape (..., n, 2); the shape is {self.nodes.shape}")
        if not self.bars:
            raise ValueError("bars: a frame needs at least one bar")
        self.start = np.array([self.index(f"bar {i}: start", bar.start) for i, bar in enumerate(self.bars)])
        self.end = np.array([self.index(f"bar {i}: end", bar.end) for i, bar in enumerate(self.bars)])
        self.support_node = np.array(
            [self.index(f"support {i}: node", support.node) for i, support in enumerate(self.supports)], dtype=np.intp
        )
        self._check_topology()
        EA, EI, GA_s = (stacked([getattr(bar, name) for bar in self.bars]) for name in ("EA", "EI", "GA_s"))
        for name, values, may_be_inf in (("EA", EA, False), ("EI", EI, False), ("GA_s", GA_s, True)):
            wrong = ~(values > 0.0) | (np.isinf(values) & (not may_be_inf))
            if np.any(wrong):
                bar = int(np.argwhere(wrong)[0][-1])
                raise ValueError(f"bar {bar}: {name} = {values[wrong].flat[0]}; it must be a number greater than zero")
        self.rigid, self.spring = self._holds()
        self.tight = all(bar.tight for bar in self.bars)  # nearly all frames: beams
        joints = self._joints()
        self.batch = np.broadcast_shapes(
            self.nodes.shape[:-2], EA.shape[:-1], EI.shape[:-1], GA_s.shape[:-1], self.spring.shape[:-2],
            *(each.shape[:-1] for each in joints),
        )  # fmt: skip
        self.slip_start, self.slip_end, self.turn_start, self.turn_end = (
            np.broadcast_to(each, (*self.batch, len(self.bars))) for each in joints
        )
        self.stub_start, self.stub_end = (
            np.array([getattr(bar, name) for bar in self.bars], dtype=float).reshape(-1, 2)
            for name in ("stub_start", "stub_end")
        )
        self.idle = np.array([bar.idle for bar in self.bars], dtype=bool)
        if not (np.all(np.isfinite(self.stub_start)) and np.all(np.isfinite(self.stub_end))):
            raise ValueError("bars: stub_start and stub_end must be two finite lengths each")
        self.EA, self.EI, self.GA_s = (np.broadcast_to(x, (*self.batch, len(self.bars))) for x in (EA, EI, GA_s))
        along = np.broadcast_to(self.nodes, (*self.batch, *self.nodes.shape[-2:]))
        along = along[..., self.end, :] + self.stub_end - along[..., self.start, :] - self.stub_start
        self.length = np.hypot(along[..., 0], along[..., 1])
        self.size = np.asarray(np.max(np.ptp(self.nodes, axis=-2), axis=-1))  # (*F,) or fewer axes
        no_length = self.length <= 1e-12 * self.size[..., None]
        if np.any(no_length):
            bar = int(np.argwhere(no_length)[0][-1])
            raise ValueError(f"bar {bar}: its nodes {self.start[bar]} and {self.end[bar]} are in the same place")
        self.cos, self.sin = along[..., 0] / self.length, along[..., 1] / self.length

    def index(self, where: str, node: Any) -> int:
        n = self.nodes.shape[-2]
        if isinstance(node, bool) or not isinstance(node, (int, np.integer)) or not 0 <= node < n:
            raise ValueError(f"{where} {node!r} is not a node; nodes run from 0 to {n - 1}")
        return int(node)

    def _check_topology(self) -> None:
        same = np.flatnonzero(self.start == self.end)
        if same.size:
            raise ValueError(f"bar {same[0]}: starts and ends at node {self.start[same[0]]}")
        alone = sorted(set(range(self.n_nodes)) - set(self.start.tolist()) - set(self.end.tolist()))
        if alone:
            raise ValueError(f"node {alone[0]}: no bar reaches it")
        nodes, counts = np.unique(self.support_node, return_counts=True)
        if np.any(counts > 1):
            raise ValueError(f"node {nodes[counts > 1][0]}: has more than one support; give one that holds everything")

    def _joints(self) -> list[Array]:
        """Stiffness of the joints at the ends: slip at start and end, turning at start and end; (*F, n_bars) each."""
        if self.tight:
            return [np.full(len(self.bars), np.inf)] * 4
        found = []
        for name in ("slip_start", "slip_end", "turn_start", "turn_end"):
            values = stacked([getattr(bar, name) for bar in self.bars])
            if not np.all(values > 0.0):
                wrong = int(np.argwhere(~(values > 0.0))[0][-1])
                raise ValueError(
                    f"bar {wrong}: {name} must be a stiffness greater than zero, inf for a joint that is tight"
                )
            found.append(values)
        for end, turns in (("start", found[2]), ("end", found[3])):
            both = np.array([getattr(bar, f"release_{end}") for bar in self.bars]) & _gives(turns)
            if np.any(both):
                raise ValueError(
                    f"bar {np.argmax(both)}: a hinge at its {end} has no stiffness against turning: give one of both"
                )
        for i, bar in enumerate(self.bars):
            if bar.acts not in ("both", "push", "pull"):
                raise ValueError(f"bar {i}: acts = {bar.acts!r}; it must be 'both', 'push' or 'pull'")
            if (bar.acts != "both" or bar.idle) and not (bar.release_start and bar.release_end):
                raise ValueError(f"bar {i}: a bar that acts one way only, or not at all, must be hinged at both ends")
            if bar.acts != "both" and not (np.all(np.asarray(bar.gap) >= 0.0) and np.all(np.isfinite(bar.gap))):
                raise ValueError(f"bar {i}: gap must be a finite length, zero or more")
        return found

    def _holds(self) -> tuple[Flags, Array]:
        """Rigid (n_supports, 3) and spring stiffness (*F, n_supports, 3), zero where there is none."""
        holds = [getattr(support, name) for support in self.supports for name in ("ux", "uy", "rz")]
        rigid = np.array([isinstance(hold, (bool, np.bool_)) and bool(hold) for hold in holds], dtype=bool)
        stiff = [0.0 if isinstance(hold, (bool, np.bool_)) else np.asarray(hold, dtype=float) for hold in holds]
        for i, (hold, k) in enumerate(zip(holds, stiff, strict=True)):
            if not isinstance(hold, (bool, np.bool_)) and not (np.all(np.asarray(k) > 0) and np.all(np.isfinite(k))):
                raise ValueError(
                    f"support {i // 3}: a spring of {hold} is no spring; give a stiffness greater than zero, "
                    "True for rigid, False for free"
                )
        spring = stacked(stiff) if stiff else np.zeros(0)
        return rigid.reshape(-1, 3), spring.reshape(*spring.shape[:-1], -1, 3)

    @property
    def n_nodes(self) -> int:
        return int(self.nodes.shape[-2])

    @cached_property
    def chains(self) -> Chains:
        held = np.zeros(self.n_nodes, dtype=bool)
        held[self.support_node] = True
        releases = ([bar.release_start for bar in self.bars], [bar.release_end for bar in self.bars])
        release_start, release_end = (np.array(flags, dtype=bool) for flags in releases)
        if self.tight:
            return find_chains(
                self.start, self.end, release_start, release_end, self.cos, self.sin, held, release_start, release_end
            )
        one_way = self.idle | np.array([bar.acts != "both" for bar in self.bars])
        cut_start, cut_end = (
            release | one_way | np.any(stub != 0.0, axis=1) | _gives(slip) | _gives(turn)
            for release, stub, slip, turn in (
                (release_start, self.stub_start, self.slip_start, self.turn_start),
                (release_end, self.stub_end, self.slip_end, self.turn_end),
            )
        )
        return find_chains(
            self.start, self.end, release_start, release_end, self.cos, self.sin, held, cut_start, cut_end
        )

    @cached_property
    def elements(self) -> Elements:
        by = [self.chains.padded(1.0 / x) for x in (self.EA, self.EI, self.GA_s)]
        if self.tight:
            return Elements(self.chains, self.chains.padded(self.length), by[0], by[1], by[2])
        first, last = self.chains.bars[:, 0], self.last_bars
        ends = Ends(
            1.0 / self.slip_start[..., first], 1.0 / self.slip_end[..., last], 1.0 / self.turn_start[..., first],
            1.0 / self.turn_end[..., last], self.idle[first],
        )  # fmt: skip
        return Elements(self.chains, self.chains.padded(self.length), by[0], by[1], by[2], ends)

    @cached_property
    def last_bars(self) -> Indices:
        """(n_chains,) the last bar of each chain."""
        bars = self.chains.bars
        return np.asarray(bars[np.arange(len(bars)), np.sum(bars < len(self.bars), axis=1) - 1])

    @cached_property
    def turn(self) -> Array:
        """(*F, n_chains, 6, 6): displacements at the ends of a chain, global to local."""
        first = self.chains.bars[:, 0]
        c, s = self.cos[..., first], self.sin[..., first]
        T = np.zeros((*self.batch, len(first), 6, 6))
        for k in (0, 3):
            T[..., k, k], T[..., k, k + 1], T[..., k + 1, k], T[..., k + 1, k + 1] = c, s, -s, c
            T[..., k + 2, k + 2] = 1.0
        if self.tight:
            return T
        for k, stub in ((0, self.stub_start[first]), (3, self.stub_end[self.last_bars])):
            x, y = stub[:, 0], stub[:, 1]
            T[..., k, k + 2], T[..., k + 1, k + 2] = s * x - c * y, s * y + c * x
        return T

    @cached_property
    def stiffness(self) -> Stiffness:
        """The stiffness matrix of the nodes that do not lie inside a chain.

        Raises Unstable: the frame can move without resistance; the text names a node and the way it moves.
        """
        chains = self.chains
        outer = np.flatnonzero(~chains.inner)
        number = np.zeros(self.n_nodes, dtype=np.intp)
        number[outer] = np.arange(outer.size)
        ends = np.stack([number[chains.start], number[chains.end]], axis=1)
        at = (3 * ends[:, :, None] + np.arange(3)).reshape(-1, 6)
        held = (3 * number[self.support_node][:, None] + np.arange(3)).ravel()
        T, n = self.turn, 3 * outer.size
        K = np.zeros((*self.batch, n, n))
        pairs: Any = (..., at[:, :, None], at[:, None, :])
        np.add.at(K, pairs, np.swapaxes(T, -1, -2) @ self.elements.stiffness() @ T)
        K[..., held, held] += self.spring.reshape(*self.spring.shape[:-2], -1)
        is_free = np.ones(n, dtype=bool)
        is_free[held[self.rigid.ravel()]] = False
        is_free[3 * number[self.loose_joints] + 2] = False
        free = np.flatnonzero(is_free)
        diagonal = np.diagonal(K, axis1=-2, axis2=-1)[..., free]
        scale = 1.0 / np.sqrt(np.where(diagonal > 0.0, diagonal, 1.0))
        scaled = K[..., free[:, None], free] * scale[..., :, None] * scale[..., None, :]
        self._refuse_mechanism(scaled, scale, free, outer)
        return Stiffness(outer, at, held, free, K, scaled, scale)

    @cached_property
    def loose_joints(self) -> Indices:
        """Nodes where every bar is hinged and nothing holds the turn: the node's own turn has no meaning."""
        chains = self.chains
        stiff = chains.inner.copy()
        stiff[chains.start[~chains.release_start]] = True
        stiff[chains.end[~chains.release_end]] = True
        if not self.tight:
            stiff[self.start[np.any(self.stub_start != 0.0, axis=1)]] = True
            stiff[self.end[np.any(self.stub_end != 0.0, axis=1)]] = True
        stiff[self.support_node[self.held[:, 2]]] = True
        return np.flatnonzero(~stiff)

    @cached_property
    def held(self) -> Flags:
        """(n_supports, 3): held rigidly or by a spring."""
        return np.asarray(self.rigid | np.any(self.spring > 0.0, axis=tuple(range(self.spring.ndim - 2))))

    def _refuse_mechanism(self, scaled: Array, scale: Array, free: Indices, outer: Indices) -> None:
        if not free.size:
            return
        least = np.linalg.eigvalsh(scaled)[..., 0]
        if np.all(least > RIGID_ENOUGH):
            return
        where = np.unravel_index(int(np.argmin(least)), least.shape)
        motion = np.linalg.eigh(scaled[where])[1][:, 0] * scale[where]
        motion = np.abs(motion)
        turns = free % 3 == 2
        if np.any(motion[~turns] * 1e6 > np.max(self.size) * motion.max(initial=0.0, where=turns)):
            motion[turns] = 0.0  # something shifts: that tells more than what turns with it
        # the first of those that move about as much as any: so that the same node is named each time
        freedom = int(free[np.flatnonzero(motion > 0.99 * motion.max())[0]])
        node, kind = int(outer[freedom // 3]), freedom % 3
        x, y = np.broadcast_to(self.nodes, (*self.batch, self.n_nodes, 2))[(*where, node)]
        which = f" in frame {tuple(int(i) for i in where)} of the batch" if where else ""
        raise Unstable(
            f"node {node} at x = {x:g}, y = {y:g}{which} can {MOTION[kind]} without resistance: "
            "a support is missing, or there is a hinge too many"
        )


def _gives(stiffness: Array) -> Flags:
    """Which bars have a joint that gives, in any frame of the batch."""
    return np.asarray(np.any(np.isfinite(stiffness), axis=tuple(range(stiffness.ndim - 1))))


def stacked(values: Sequence[Any]) -> Array:
    """Numbers or arrays of one batch as one array with a last axis over the sequence."""
    arrays = [np.asarray(value, dtype=float) for value in values]
    if any(array.ndim for array in arrays):
        return np.stack(np.broadcast_arrays(*arrays), axis=-1)
    return np.array(arrays, dtype=float)
