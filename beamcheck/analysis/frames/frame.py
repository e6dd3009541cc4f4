"""Plane frames by direct stiffness: many load cases on one frame, and many frames of one shape, at once.

Axes and signs: x to the right, y up, angles and moments counter-clockwise. A bar has local x from its start to its end
and local y a quarter turn counter-clockwise from it. N tension, M positive when it sags (tension on the local -y side),
V = dM/dx, v positive towards local +y. Units are the caller's, as long as they agree (here: in, lbf).

Shapes: `*F` are the axes of a batch of frames (none for a single frame); every load array has one axis of load cases
after them. Results have the leading axes (*F, n_cases), called `lead`.

Theory: straight bars, small displacements, plane sections that also slide (shear area, S. Timoshenko 1921).
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any, Literal

import numpy as np
from numpy.typing import ArrayLike

from ...errors import Unstable
from ...records import dataclass
from .chains import BarLoads, State
from .polynomial import Array
from .structure import Bar, Frame, Support

__all__ = ["Bar", "Frame", "Loads", "Solution", "Support", "bar_loads", "solve"]

VANISHING = 1e-290  # lbf: numbers so small have no digits left to balance
BALANCED = 1e-7  # unbalanced force allowed, as a part of the largest force in the frame
FIELDS = ("displacements", "reactions", "unbalanced", "N", "V", "M", "u", "v")


@dataclass(frozen=True, eq=False)
class Loads:
    """Load cases. The axis of cases must be there; arrays broadcast against each other and against the frame's batch.

    nodal : (..., n_cases, n_nodes, 3) Fx, Fy, M on nodes, global.
    bars : (..., n_cases, n_bars, 2 ends, 2) load per length of bar along local x and y, linear from end to end.
        A bar has one such load: cut it where the load jumps or bends. `bar_loads` turns global loads into these.
    settlement : (..., n_cases, n_supports, 3) given displacement of supports (of the far end of a spring). It is a load
        like the others, so it belongs to its case and is scaled with it when cases are combined.
    stretch : (..., n_cases, n_bars) by how much a bar gets longer of itself: wedged in, swollen; below zero shrunk, or
        short of what it should reach.
    """

    nodal: ArrayLike | None = None
    bars: ArrayLike | None = None
    settlement: ArrayLike | None = None
    stretch: ArrayLike | None = None

    def stretched(self, frame: Frame, lead: tuple[int, ...]) -> Array:
        """`stretch` with the leading axes that `full` gives."""
        return np.broadcast_to(self._stretch(frame), (*lead, len(frame.bars)))

    def _stretch(self, frame: Frame) -> Array:
        array = np.zeros((1, len(frame.bars))) if self.stretch is None else np.asarray(self.stretch, dtype=float)
        if array.ndim < 2 or array.shape[-1] != len(frame.bars):
            wanted = f"(..., n_cases, {len(frame.bars)})"
            raise ValueError(f"loads, stretch: the shape is {array.shape}; it must be {wanted}")
        if not np.all(np.isfinite(array)):
            raise ValueError("loads, stretch: holds a value that is not finite")
        return array

    def full(self, frame: Frame) -> tuple[Array, Array, Array]:
        """The three arrays, all with the leading axes (*F, n_cases).

        Raises ValueError: a wrong shape, a value that is not finite, a settlement where nothing is held.
        """
        shapes = {
            "nodal": (frame.n_nodes, 3), "bars": (len(frame.bars), 2, 2), "settlement": (len(frame.supports), 3)
        }  # fmt: skip
        arrays = []
        for name, tail in shapes.items():
            given = getattr(self, name)
            array = np.zeros((1, *tail)) if given is None else np.asarray(given, dtype=float)
            wanted = f"(..., n_cases, {', '.join(map(str, tail))})"
            if array.ndim <= len(tail) or array.shape[-len(tail) :] != tail:
                raise ValueError(f"loads, {name}: the shape is {array.shape}; it must be {wanted}")
            if not np.all(np.isfinite(array)):
                raise ValueError(f"loads, {name}: holds a value that is not finite")
            arrays.append(array)
        leads = [array.shape[: -len(tail)] for array, tail in zip(arrays, shapes.values(), strict=True)]
        lead = np.broadcast_shapes((*frame.batch, 1), *leads, self._stretch(frame).shape[:-1])
        nodal, bars, settlement = (
            np.broadcast_to(array, (*lead, *tail)) for array, tail in zip(arrays, shapes.values(), strict=True)
        )
        moved = np.any(settlement != 0.0, axis=tuple(range(settlement.ndim - 2))) & ~frame.held
        if np.any(moved):
            support, way = np.argwhere(moved)[0]
            raise ValueError(
                f"loads, settlement: support {support} does not hold {('ux', 'uy', 'rz')[way]}, so it cannot move it"
            )
        return nodal, bars, settlement

    def combine(self, factors: ArrayLike) -> Loads:
        """Loads of combinations: `factors` is (n_combos, n_cases). Needed before contact, which is not linear."""
        C = np.asarray(factors, dtype=float)
        parts = ((self.nodal, 2), (self.bars, 3), (self.settlement, 2), (self.stretch, 1))
        return Loads(*(None if x is None else _combined(C, np.asarray(x, dtype=float), tail) for x, tail in parts))


def bar_loads(frame: Frame, w: ArrayLike, per: Literal["length", "projection"] = "length") -> Array:
    """Loads on bars in global directions, as `Loads.bars` wants them.

    `w`: (..., n_cases, n_bars, 2 ends, 2) wx, wy; downward loads have wy < 0. `per`: 'length': per length of bar (self
    weight). 'projection': wy per length in plan (snow), wx per height (wind).
    """
    if per not in ("length", "projection"):
        raise ValueError(f"per = {per!r}; it must be 'length' or 'projection'")
    w = np.asarray(w, dtype=float)
    c, s = frame.cos[..., None, :, None], frame.sin[..., None, :, None]
    wx, wy = w[..., 0], w[..., 1]
    if per == "projection":
        wx, wy = wx * np.abs(s), wy * np.abs(c)
    return np.stack([c * wx + s * wy, c * wy - s * wx], axis=-1)


@dataclass(frozen=True, eq=False)
class Solution:
    """Displacements, reactions and exact internal forces.

    displacements : (*lead, n_nodes, 3) ux, uy, rotation. The rotation is nan at a joint where every bar is hinged.
    reactions : (*lead, n_supports, 3) force of the support on the frame: Fx, Fy, M.
    unbalanced : (*lead, n_nodes, 3) what equilibrium lacks at each node (rounding only; larger raises in `solve`).
    N, V, M, u, v : (*lead, n_bars, 3 | 3 | 4 | 4 | 6) coefficients in rising powers of x from the bar's start.
    linear : False after contact: then cases cannot be combined.
    """

    frame: Frame
    displacements: Array
    reactions: Array
    unbalanced: Array
    N: Array
    V: Array
    M: Array
    u: Array
    v: Array
    linear: bool = True

    @property
    def lead(self) -> tuple[int, ...]:
        """The leading axes (*F, n_cases)."""
        return self.reactions.shape[:-2]

    def combine(self, factors: ArrayLike) -> Solution:
        """Superposition: `factors` (n_combos, n_cases) gives a solution whose last leading axis is the combinations.

        A case with a settlement takes part like any other: its factor scales the settlement too.
        """
        if not self.linear:
            raise ValueError("with contact the cases cannot be added up: combine the loads first (Loads.combine)")
        C = np.asarray(factors, dtype=float)
        return Solution(self.frame, **{name: _combined(C, getattr(self, name), 2) for name in FIELDS})  # type: ignore[arg-type]


def solve(frame: Frame, loads: Loads) -> Solution:
    """Displacements and internal forces of every frame of the batch under every load case.

    Raises Unstable: the frame can move without resistance, or the forces do not balance to a ten-millionth of the
    largest; ValueError: the loads do not fit the frame.
    """
    for i, bar in enumerate(frame.bars):
        if bar.acts != "both":
            raise ValueError(f"bar {i} can only {bar.acts}: solve_contact finds in which cases it acts")
    nodal, bars, settlement = loads.full(frame)
    lead, chains, elements, stiffness = nodal.shape[:-2], frame.chains, frame.elements, frame.stiffness
    stretch = loads.stretched(frame, lead)
    if np.any(nodal[..., frame.loose_joints, 2]):
        node = frame.loose_joints[np.argwhere(nodal[..., frame.loose_joints, 2])[0][-1]]
        raise Unstable(f"node {node} can turn without resistance under its moment: every bar there is hinged")
    loads_along = _along(frame, nodal, bars, stretch)
    nothing = np.zeros((*lead, len(chains.start)))
    loose = elements.beyond_joints(elements.march(State(*(nothing,) * 6), loads_along)[1])
    turn = frame.turn[..., None, :, :, :]
    turn_back = np.swapaxes(turn, -1, -2)
    onto: Any = (..., stiffness.at)

    def on_nodes(end_forces: Array) -> Array:
        total = np.zeros((*lead, 3 * stiffness.outer.size))
        np.add.at(total, onto, (turn_back @ end_forces[..., None])[..., 0])
        return total

    locked = elements.start_state(np.zeros((*nothing.shape, 6)), loose)
    applied = nodal[..., stiffness.outer, :].reshape(*lead, -1)
    forces = applied - on_nodes(_end_forces(locked, loose, elements.L))

    held, free, scale = stiffness.held, stiffness.free, stiffness.scale[..., None, :]
    given, rigid = settlement.reshape(*lead, -1), frame.rigid.ravel()
    spring = frame.spring.reshape(*frame.spring.shape[:-2], 1, -1)
    forces[..., held] += spring * given
    d = np.zeros_like(forces)
    d[..., held[rigid]] = given[..., rigid]
    if np.any(d):
        forces -= np.swapaxes(stiffness.K @ np.swapaxes(d, -1, -2), -1, -2)
    if free.size:
        right = np.swapaxes(forces[..., free] * scale, -1, -2)
        d[..., free] = np.swapaxes(np.linalg.solve(stiffness.scaled, right), -1, -2) * scale

    starts = elements.start_state((turn @ d[..., stiffness.at][..., None])[..., 0], loose)
    along, _ = elements.march(starts, loads_along)
    end_forces = _end_forces(starts, loose, elements.L)
    resisting = on_nodes(end_forces)
    reactions = np.where(rigid, (resisting - applied)[..., held], spring * (given - d[..., held]))
    lacking = applied - resisting
    lacking[..., held] += reactions
    unbalanced = np.zeros(nodal.shape)
    unbalanced[..., stiffness.outer, :] = lacking.reshape(*lead, -1, 3)
    # what drives the frame counts too: a settlement may leave no force at all, and rounding is to be small beside it
    driving = forces.reshape(*lead, -1, 3)
    all_forces = [end_forces.reshape(*lead, -1, 3), reactions.reshape(*lead, -1, 3), nodal, driving]
    _refuse_unbalanced(frame, unbalanced, np.concatenate(all_forces, axis=-2))
    displacements = np.zeros(nodal.shape)
    displacements[..., stiffness.outer, :] = d.reshape(*lead, -1, 3)
    bar_start = State(*(chains.per_bar(getattr(along, name)) for name in ("N", "V", "M", "u", "v", "theta")))
    _fill_displacements(frame, displacements, bar_start)
    N, V, M, u, v = _polynomials(frame, bar_start, bars, stretch)
    return Solution(frame, displacements, reactions.reshape(*lead, -1, 3), unbalanced, N, V, M, u, v)


def _along(frame: Frame, nodal: Array, bars: Array, stretch: Array) -> BarLoads:
    """Bar loads and the forces at inner nodes, by chain and position, in local axes."""
    c, s = frame.cos[..., None, :], frame.sin[..., None, :]
    at_inner = np.where(frame.chains.inner[frame.start][:, None], nodal[..., frame.start, :], 0.0)
    fx, fy, m = np.moveaxis(at_inner, -1, 0)
    padded = frame.chains.padded
    spread = padded(bars, axis=-3)
    return BarLoads(
        spread[..., 0, :, :], spread[..., 1, :, :], padded(c * fx + s * fy), padded(c * fy - s * fx), padded(m),
        padded(stretch),
    )  # fmt: skip


def _end_forces(starts: State, loose: State, length: Array) -> Array:
    """Forces of the nodes on the ends of each chain, (*lead, n_chains, 6), local."""
    N, V = starts.N + loose.N, starts.V + loose.V
    M = starts.M + starts.V * length[..., None, :] + loose.M
    return np.stack([-starts.N, starts.V, -starts.M, N, -V, M], axis=-1)


def _refuse_unbalanced(frame: Frame, unbalanced: Array, forces: Array) -> None:
    """Both (*lead, any number, 3); moments are compared with forces over the size of the frame."""
    divisor = np.ones((*frame.size.shape, 1, 1, 3))
    divisor[..., 2] = frame.size[..., None, None]
    most = np.max(np.abs(forces) / divisor, axis=(-2, -1))[..., None]
    lacking = np.max(np.abs(unbalanced) / divisor, axis=-1)
    wrong = lacking > BALANCED * most + VANISHING
    if np.any(wrong):
        node = int(np.argwhere(wrong)[0][-1])
        raise Unstable(
            f"the forces at node {node} do not balance: stiffnesses or lengths in the frame are too far apart "
            "to be solved with confidence"
        )


def _polynomials(frame: Frame, at: State, bars: Array, stretch: Array) -> tuple[Array, Array, Array, Array, Array]:
    """N, V, M, u, v as coefficients in the distance from the start of each bar, from the state there."""
    by_l, EA, EI, GA = (x[..., None, :] for x in (1.0 / frame.length, 1.0 / frame.EA, 1.0 / frame.EI, 1.0 / frame.GA_s))
    p, q = bars[..., 0, 0], bars[..., 0, 1]
    rise_p, rise_q = (bars[..., 1, 0] - p) * by_l, (bars[..., 1, 1] - q) * by_l
    N = (at.N, -p, -rise_p / 2.0)
    u = (at.u, at.N * EA + stretch * by_l, -p * EA / 2.0, -rise_p * EA / 6.0)
    V = (at.V, q, rise_q / 2.0)
    M = (at.M, at.V, q / 2.0, rise_q / 6.0)
    v = (
        at.v, at.theta - at.V * GA, (at.M * EI - q * GA) / 2.0, (at.V * EI - rise_q * GA) / 6.0, q * EI / 24.0,
        rise_q * EI / 120.0,
    )  # fmt: skip
    return _beside(N), _beside(V), _beside(M), _beside(u), _beside(v)


def _beside(rows: Sequence[Array]) -> Array:
    """Coefficients beside each other along a new last axis."""
    made = np.empty((*np.broadcast_shapes(*(row.shape for row in rows)), len(rows)))
    for k, row in enumerate(rows):
        made[..., k] = row
    return made


def _fill_displacements(frame: Frame, displacements: Array, at: State) -> None:
    """What the solution of the outer nodes leaves open: nodes inside chains, and turns that have no meaning."""
    displacements[..., frame.loose_joints, 2] = np.nan
    leaving = np.flatnonzero(frame.chains.inner[frame.start])
    c, s = frame.cos[..., None, leaving], frame.sin[..., None, leaving]
    u, v = at.u[..., leaving], at.v[..., leaving]
    moved = np.stack([c * u - s * v, s * u + c * v, at.theta[..., leaving]], axis=-1)
    displacements[..., frame.start[leaving], :] = moved


def _combined(factors: Array, array: Array, tail: int) -> Array:
    """Sum over the axis of cases, which comes before the last `tail` axes."""
    shape = array.shape
    cases = shape[-tail - 1]
    if factors.ndim != 2 or (cases != 1 and factors.shape[1] != cases):
        raise ValueError(f"combination factors have the shape {factors.shape}; it must be (n_combos, {cases})")
    flat = array.reshape(*shape[:-tail], -1)
    if cases == 1:
        flat = np.broadcast_to(flat, (*flat.shape[:-2], factors.shape[1], flat.shape[-1]))
    return (factors @ flat).reshape(*shape[: -tail - 1], factors.shape[0], *shape[-tail:])
