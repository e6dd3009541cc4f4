"""A bracket as an elastic plate with a free crack along its grain: an independent model to try the split test against.

Plane stress, orthotropic, six-node triangles. The crack runs right through: its faces press on each other without
friction and do not pull. The wall presses and does not pull. Heads pull towards the wall over the washer, by a spring
each, and do not push; dowels are beams on the wood and in the wall. Inch, pound, psi.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from itertools import pairwise
from typing import Any

import numpy as np
from scipy.sparse import coo_array
from scipy.sparse.linalg import splu
from scipy.spatial import Delaunay, cKDTree

Array = np.ndarray


@dataclass(frozen=True)
class Wood:
    E_L: float = 1.7e6
    E_T: float = 85_000.0
    G_LT: float = 132_600.0
    nu_LT: float = 0.449


@dataclass(frozen=True)
class Hold:
    """A row: height, head from the wall, washer; stiffness along it, of its dowel and of the wood along that."""

    y: float
    head: float
    washer: float
    k_axial: float = 30_000.0
    EI: float = 11_500.0
    foundation: float = 250_000.0
    in_wall: float = 3.0


@dataclass
class Answer:
    """Per row: pull, sideways force at the wall, largest moment of its dowel; whether it holds at all."""

    holds: bool
    pulls: Array = field(default_factory=lambda: np.zeros(0))
    shears: Array = field(default_factory=lambda: np.zeros(0))
    moments: Array = field(default_factory=lambda: np.zeros(0))
    sinking: float = np.inf
    across: float = np.nan


def inside(polygon: Array, points: Array) -> Array:
    x, y = points[:, 0], points[:, 1]
    found = np.zeros(len(points), dtype=bool)
    for (x0, y0), (x1, y1) in zip(polygon, np.roll(polygon, -1, axis=0), strict=True):
        crosses = (y0 > y) != (y1 > y)
        if y1 != y0:
            found ^= crosses & (x < (x1 - x0) * (y - y0) / (y1 - y0) + x0)
    return found


def mesh(polygon: Array, grain: float, crack: float | None, h: float) -> tuple[Array, Array]:
    """Corner points and triangles; rows of points along the grain, one on the crack, where each is double."""
    t = np.radians(grain)
    g, n = np.array([np.cos(t), -np.sin(t)]), np.array([np.sin(t), np.cos(t)])
    u, s = polygon @ g, polygon @ n
    edge = []
    for p, q in zip(polygon, np.roll(polygon, -1, axis=0), strict=True):
        sp, sq = p @ n, q @ n
        marks = [0.0, 1.0]
        if crack is not None and min(sp, sq) + 1e-9 < crack < max(sp, sq) - 1e-9:
            marks.insert(1, (crack - sp) / (sq - sp))
        for a, b in pairwise(marks):
            count = max(1, int(np.ceil(np.hypot(*(q - p)) * (b - a) / h)))
            edge += [p + (a + (b - a) * k / count) * (q - p) for k in range(count)]
    edge_points = np.array(edge)
    base = crack if crack is not None else 0.5 * (s.min() + s.max())
    step = h * 0.87
    rows = []
    for k in range(int(np.floor((s.min() - base) / step)), int(np.ceil((s.max() - base) / step)) + 1):
        offset = 0.5 * h * (k % 2)
        us = np.arange(u.min() - h, u.max() + h, h) + offset
        rows.append(np.column_stack([us, np.full_like(us, base + k * step)]))
    grid = np.concatenate(rows)
    grid = grid[:, :1] * g + grid[:, 1:] * n
    grid = grid[inside(polygon, grid)]
    away, _ = cKDTree(edge_points).query(grid)
    grid = grid[away > 0.55 * h]
    points = np.concatenate([edge_points, grid])
    cells = Delaunay(points).simplices
    middle = points[cells].mean(axis=1)
    corner = points[cells]
    area = 0.5 * np.cross(np.pad(corner[:, 1] - corner[:, 0], ((0, 0), (0, 1))),
                          np.pad(corner[:, 2] - corner[:, 0], ((0, 0), (0, 1))))[:, 2]  # fmt: skip
    cells = cells[inside(polygon, middle) & (np.abs(area) > 1e-4 * h * h)]
    if crack is None:
        return points, cells
    beyond = points[cells].mean(axis=1) @ n > crack
    double = np.flatnonzero(np.abs(points @ n - crack) < 1e-7)
    new = np.arange(len(points))
    new[double] = len(points) + np.arange(len(double))
    cells = cells.copy()
    cells[beyond] = new[cells[beyond]]
    return np.concatenate([points, points[double]]), cells


class Plate:
    """The plate with its crack; `solve` gives what the rows take under a load."""

    def __init__(
        self, polygon: Array, t: float, grain: float, rows: list[Hold], load: tuple[float, float], *,
        crack: float | None, wood: Wood | None = None, k_wall: float = 23_000.0, h: float = 0.4,
    ) -> None:  # fmt: skip
        self.t, self.grain, self.rows, self.load, self.k_wall = t, grain, rows, load, k_wall
        self.wood = wood or Wood()
        points, cells = mesh(polygon, grain, crack, h)
        used = np.unique(cells)
        back = np.full(len(points), -1)
        back[used] = np.arange(len(used))
        self.corners, cells = points[used], back[cells]
        sides = np.sort(np.concatenate([cells[:, [0, 1]], cells[:, [1, 2]], cells[:, [2, 0]]]), axis=1)
        unique, number = np.unique(sides, axis=0, return_inverse=True)
        number = number.reshape(-1)
        n_c, m = len(self.corners), len(cells)
        mid = number.reshape(3, m).T + n_c
        self.cells = np.concatenate([cells, mid], axis=1)
        self.nodes = np.concatenate([self.corners, self.corners[unique].mean(axis=1)])
        counts = np.bincount(number, minlength=len(unique))
        self.free_sides = [(int(a), int(b), int(n_c + k)) for k, (a, b) in enumerate(unique) if counts[k] == 1]
        th = np.radians(grain)
        self.g, self.n = np.array([np.cos(th), -np.sin(th)]), np.array([np.sin(th), np.cos(th)])
        self.crack = crack

    # stiffness

    def D(self) -> Array:
        w = self.wood
        c, s = self.g[0], self.g[1]
        T = np.array([[c * c, s * s, s * c], [s * s, c * c, -s * c], [-2 * s * c, 2 * s * c, c * c - s * s]])
        S = np.array([[1 / w.E_L, -w.nu_LT / w.E_L, 0], [-w.nu_LT / w.E_L, 1 / w.E_T, 0], [0, 0, 1 / w.G_LT]])
        return np.asarray(T.T @ np.linalg.inv(S) @ T)

    BARY = np.array([[2 / 3, 1 / 6, 1 / 6], [1 / 6, 2 / 3, 1 / 6], [1 / 6, 1 / 6, 2 / 3]])

    @staticmethod
    def shapes(L: Array) -> tuple[Array, Array]:
        """(6,) shape functions and (6, 3) their slopes in area coordinates."""
        a, b, c = L
        N = np.array([a * (2 * a - 1), b * (2 * b - 1), c * (2 * c - 1), 4 * a * b, 4 * b * c, 4 * c * a])
        d = np.array([[4 * a - 1, 0, 0], [0, 4 * b - 1, 0], [0, 0, 4 * c - 1],
                      [4 * b, 4 * a, 0], [0, 4 * c, 4 * b], [4 * c, 0, 4 * a]])  # fmt: skip
        return N, d

    def gradients(self) -> tuple[Array, Array]:
        """(m, 3, 2) slopes of the area coordinates and (m,) areas."""
        p = self.corners[self.cells[:, :3]]
        v1, v2 = p[:, 1] - p[:, 0], p[:, 2] - p[:, 0]
        det = v1[:, 0] * v2[:, 1] - v1[:, 1] * v2[:, 0]
        grad = np.empty((len(p), 3, 2))
        grad[:, 1] = np.column_stack([v2[:, 1], -v2[:, 0]]) / det[:, None]
        grad[:, 2] = np.column_stack([-v1[:, 1], v1[:, 0]]) / det[:, None]
        grad[:, 0] = -grad[:, 1] - grad[:, 2]
        return grad, np.abs(det) / 2

    def B(self, L: Array, grad: Array) -> Array:
        _, d = self.shapes(L)
        slope = np.einsum("kl,mlc->mkc", d, grad)
        B = np.zeros((len(grad), 3, 12))
        B[:, 0, 0::2] = B[:, 2, 1::2] = slope[..., 0]
        B[:, 1, 1::2] = B[:, 2, 0::2] = slope[..., 1]
        return B

    def locate(self, points: Array) -> tuple[Array, Array]:
        """Cells and their (k, 6) shape functions at points."""
        grad, _ = self.gradients()
        p0 = self.corners[self.cells[:, 0]]
        cells, shapes = [], []
        for point in points:
            L12 = np.einsum("mlc,mc->ml", grad[:, 1:], point - p0)
            L = np.column_stack([1 - L12.sum(axis=1), L12])
            k = int(np.argmax(L.min(axis=1)))
            cells.append(k)
            shapes.append(self.shapes(np.clip(L[k], 0, 1) / np.clip(L[k], 0, 1).sum())[0])
        return np.array(cells), np.array(shapes)

    def solve(self, F: float = 100.0) -> Answer:
        n = 2 * len(self.nodes)
        grad, area = self.gradients()
        D = self.D()
        K = np.zeros((len(area), 12, 12))
        for L in self.BARY:
            B = self.B(L, grad)
            K += np.swapaxes(B, 1, 2) @ D @ B * (area * self.t / 3)[:, None, None]
        unknowns = np.stack([2 * self.cells, 2 * self.cells + 1], axis=-1).reshape(len(area), 12)
        parts: list[tuple[Array, Array, Array]] = [
            (np.repeat(unknowns, 12, axis=1).ravel(), np.tile(unknowns, (1, 12)).ravel(), K.ravel())
        ]
        right = np.zeros(n)
        # the load, evenly over its bearing
        x0, x1 = self.load
        xs = x0 + (np.arange(40) + 0.5) / 40 * (x1 - x0)
        cells, shapes = self.locate(np.column_stack([xs, np.full(40, 1e-6)]))
        for c, N in zip(cells, shapes, strict=True):
            np.add.at(right, 2 * self.cells[c] + 1, N * F / 40)
        load_vector = right / F
        size = n
        # dowels
        beams = []
        for row in self.rows:
            count = 40
            x = np.concatenate([np.linspace(-row.in_wall, 0.0, 16)[:-1], np.linspace(0.0, row.head, count)])
            first = size
            size += 2 * len(x)
            beams.append((row, x, first))
            for i in range(len(x) - 1):
                le = x[i + 1] - x[i]
                k = np.array([[12, 6 * le, -12, 6 * le], [6 * le, 4 * le**2, -6 * le, 2 * le**2],
                              [-12, -6 * le, 12, -6 * le], [6 * le, 2 * le**2, -6 * le, 4 * le**2]])  # fmt: skip
                k = k * row.EI / le**3
                dof = first + 2 * i + np.arange(4)
                parts.append((np.repeat(dof, 4), np.tile(dof, 4), k.ravel()))
            weight = np.zeros(len(x))
            weight[:-1] += 0.5 * np.diff(x)
            weight[1:] += 0.5 * np.diff(x)
            on = x > 1e-9
            where = np.column_stack([np.minimum(x[on], row.head - 1e-6), np.full(on.sum(), row.y)])
            cells, shapes = self.locate(where)
            k_f = row.foundation
            for i in np.flatnonzero(~on):
                dof = first + 2 * i
                parts.append((np.array([dof]), np.array([dof]), np.array([k_f * weight[i]])))
            for i, c, N in zip(np.flatnonzero(on), cells, shapes, strict=True):
                dof = np.concatenate([[first + 2 * i], 2 * self.cells[c] + 1])
                a = np.concatenate([[1.0], -N])
                k = np.outer(a, a) * k_f * weight[i]
                parts.append((np.repeat(dof, 7), np.tile(dof, 7), k.ravel()))
        # one-sided springs: wall, heads, faces of the crack
        springs: list[tuple[Array, Array, float]] = []  # unknowns, factors of what opens it, stiffness
        kinds: list[tuple[str, int]] = []
        for a, b, c in self.free_sides:
            pa, pb = self.nodes[a], self.nodes[b]
            if abs(pa[0]) < 1e-9 and abs(pb[0]) < 1e-9:
                le = abs(pb[1] - pa[1])
                for node, part in ((a, 1 / 6), (b, 1 / 6), (c, 2 / 3)):
                    springs.append((np.array([2 * node]), np.array([1.0]), self.k_wall * self.t * le * part))
                    kinds.append(("wall", node))
        for r, row in enumerate(self.rows):
            ys = row.y + row.washer * ((np.arange(5) + 0.5) / 5 - 0.5)
            cells, shapes = self.locate(np.column_stack([np.full(5, row.head - 1e-6), ys]))
            for c, N in zip(cells, shapes, strict=True):
                springs.append((2 * self.cells[c], -N, row.k_axial / 5))
                kinds.append(("head", r))
        if self.crack is not None:
            on = [
                (a, b, c)
                for a, b, c in self.free_sides
                if abs(self.nodes[a] @ self.n - self.crack) < 1e-6 and abs(self.nodes[b] @ self.n - self.crack) < 1e-6
            ]
            length: dict[int, float] = {}
            for a, b, c in on:
                le = float(np.hypot(*(self.nodes[a] - self.nodes[b])))
                for node, part in ((a, 1 / 6), (b, 1 / 6), (c, 2 / 3)):
                    length[node] = length.get(node, 0.0) + le * part
            nodes = np.array(sorted(length))
            side = np.zeros(len(self.nodes))
            middles = self.nodes[self.cells].mean(axis=1) @ self.n
            for cell, m in zip(self.cells, middles, strict=True):
                side[cell] = 1.0 if m > self.crack else -1.0
            far, near = nodes[side[nodes] > 0], nodes[side[nodes] < 0]
            if len(far) and len(near):
                apart, which = cKDTree(self.nodes[near]).query(self.nodes[far])
                for f, d, k in zip(far, apart, which, strict=True):
                    if d < 1e-6:
                        nn = near[k]
                        dof = np.array([2 * f, 2 * f + 1, 2 * nn, 2 * nn + 1])
                        stiff = 20.0 * self.wood.E_T * self.t * length[int(f)]
                        springs.append((dof, np.concatenate([self.n, -self.n]), stiff))
                        kinds.append(("crack", int(f)))
        full = np.zeros(size)
        full[:n] = right
        rows_, cols_, vals_ = (np.concatenate([p[k] for p in parts]) for k in range(3))
        tiny = 1e-4
        base = coo_array((vals_, (rows_, cols_)), shape=(size, size)).tocsc()
        base = base + coo_array((np.full(n, tiny), (np.arange(n), np.arange(n))), shape=(size, size)).tocsc()
        presses = np.ones(len(springs), dtype=bool)
        seen: set[bytes] = set()
        solution = np.zeros(size)
        for _ in range(200):
            r_, c_, v_ = [], [], []
            for on_, (dof, a, k) in zip(presses, springs, strict=True):
                if on_:
                    r_.append(np.repeat(dof, len(dof)))
                    c_.append(np.tile(dof, len(dof)))
                    v_.append((np.outer(a, a) * k).ravel())
            extra = (
                coo_array((np.concatenate(v_), (np.concatenate(r_), np.concatenate(c_))), shape=(size, size)).tocsc()
                if v_
                else 0 * base
            )
            solution = splu(base + extra).solve(full)
            opens = np.array([float(solution[dof] @ a) for dof, a, _ in springs])
            wrong = presses != (opens < 0.0)
            wrong &= np.abs(opens) > 1e-9 * np.abs(opens).max()
            if not wrong.any():
                break
            key = presses.tobytes()
            if key in seen:
                wrong &= np.abs(opens) >= np.where(wrong, np.abs(opens), 0).max()
            seen.add(key)
            presses = presses ^ wrong
        sinking = float(load_vector @ solution[:n])
        if sinking > 20.0 or not np.isfinite(sinking):
            return Answer(False)
        pulls = np.zeros(len(self.rows))
        for on_, (dof, a, k), (kind, r) in zip(presses, springs, kinds, strict=True):
            if kind == "head" and on_:
                pulls[r] += -k * float(solution[dof] @ a)
        shears, moments = [], []
        for row, x, first in beams:
            v, th = solution[first::2][: len(x)], solution[first + 1 :: 2][: len(x)]
            le = np.diff(x)
            M = row.EI * ((-6 * v[:-1] + 6 * v[1:]) / le**2 + (-4 * th[:-1] - 2 * th[1:]) / le)
            V = row.EI * (12 * (v[:-1] - v[1:]) / le**3 + 6 * (th[:-1] + th[1:]) / le**2)
            shears.append(float(np.abs(V).max()))
            moments.append(float(np.abs(M).max()))
        return Answer(True, pulls, np.array(shears), np.array(moments), sinking, self._across(solution[:n], grad, D))

    def _across(self, u: Array, grad: Array, D: Array, away: float = 0.55) -> float:
        """Largest tension across the grain, psi, away from heads, dowels and load."""
        most = 0.0
        for L in self.BARY:
            N, _ = self.shapes(L)
            place = np.einsum("k,mkc->mc", N, self.nodes[self.cells])
            own = np.stack([u[2 * self.cells], u[2 * self.cells + 1]], axis=-1).reshape(len(grad), 12)
            stress = np.einsum("ij,mjk,mk->mi", D, self.B(L, grad), own)
            nx, ny = self.n
            across = stress[:, 0] * nx * nx + stress[:, 1] * ny * ny + 2 * stress[:, 2] * nx * ny
            clear = (place[:, 1] > away) | (place[:, 0] < self.load[0] - away) | (place[:, 0] > self.load[1] + away)
            for row in self.rows:
                clear &= (np.abs(place[:, 1] - row.y) > away) | (place[:, 0] > row.head + away)
            if clear.any():
                most = max(most, float(across[clear].max()))
        return most


def first_full(answer: Answer, rows: list[Any], F: float) -> float:
    """Load at which the first row reaches T/T' + V/Z' = 1, lbf; 0 where it falls.

    The bending of a dowel is no bar of its own here: Z' is the value at which it bends, and it bends without breaking.
    """
    if not answer.holds:
        return 0.0
    worst = max(T / row.T + V / row.Z for row, T, V in zip(rows, answer.pulls, answer.shears, strict=True))
    return float(F / max(worst, 1e-12))
