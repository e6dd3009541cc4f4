"""What is read from a solved bracket: stiffness, edge stresses, stress along and across the grain, pulls, resultants.

Edge stress is had from the stretch of the edge alone, with the known pressure on it: at a free edge nothing else acts.
Peaks are read outside zones in which plane stress has no true value: at clamped ends, anchors, loads, inward corners.
"""

from __future__ import annotations

from dataclasses import replace
from functools import cached_property
from typing import Literal

import numpy as np

from ...errors import BeamcheckError, OutOfRange
from ...records import dataclass
from ..frames.polynomial import Array
from .mesh import Edge, Index, Mesh
from .outline import Outline
from .solve import SHAPE, Backing, Flags, Grain, Press, Solution, line, stress_at

EdgeName = Literal["top", "soffit", "face"]
PeakName = Literal[
    "top tension", "soffit tension", "wall tension", "top compression", "soffit compression", "wall compression",
    "across tension", "across compression", "along tension", "along compression", "shear",
]  # fmt: skip
EDGE_PEAKS: tuple[PeakName, ...] = ("top tension", "soffit tension", "soffit compression", "wall tension")
DENSE = 801  # places along an edge that peaks are read at
SIDE = np.array([0.5 - np.sqrt(1.0 / 12.0), 0.5 + np.sqrt(1.0 / 12.0)])  # where the stretch of a side is best
NEAREST = 12  # triangles by their centers, before all are tried
SIDE_SHAPE = np.stack([(1 - SIDE) * (1 - 2 * SIDE), 4 * SIDE * (1 - SIDE), SIDE * (2 * SIDE - 1)], axis=-1)
SIDE_SLOPE = np.stack([4 * SIDE - 3, 4 - 8 * SIDE, 4 * SIDE - 1], axis=-1)


@dataclass(frozen=True)
class Zone:
    """Where no stress is read: all that is nearer than `r` to the line from (x0, y0) to (x1, y1), inch."""

    x0: float
    y0: float
    x1: float
    y1: float
    r: float
    why: str

    def holds(self, places: Array) -> Flags:
        """(n,) whether places (n, 2) lie inside, rim not included."""
        start, along = np.array([self.x0, self.y0]), np.array([self.x1 - self.x0, self.y1 - self.y0])
        size = max(float(along @ along), 1e-300)
        part = np.clip((places - start) @ along / size, 0.0, 1.0)
        return np.asarray(np.hypot(*(places - start - part[:, None] * along).T) < self.r)

    def polygon(self) -> tuple[tuple[float, float], ...]:
        """Its outline, for drawings."""
        turn = np.arctan2(self.y1 - self.y0, self.x1 - self.x0)
        q = np.linspace(0.5 * np.pi, 1.5 * np.pi, 13) + turn
        ends = [(self.x0, self.y0, q), (self.x1, self.y1, q + np.pi)]
        return tuple((float(x + self.r * np.cos(a)), float(y + self.r * np.sin(a))) for x, y, qs in ends for a in qs)


@dataclass(frozen=True, eq=False)
class EdgeStress:
    """Stress along an edge, tension above zero: (n,) x, y (in), sigma_t (psi), tangent (deg above level), `phi` (deg,
    0 to 90) between edge and grain, `across` = sigma_t sin^2 phi (psi)."""

    x: Array
    y: Array
    sigma_t: Array
    tangent: Array
    phi: Array

    @property
    def across(self) -> Array:
        return np.asarray(self.sigma_t * np.sin(np.radians(self.phi)) ** 2)

    def dense(self, what: Literal["sigma_t", "across"]) -> tuple[Array, Array]:
        """(N, 2) places close together along the edge and (N,) the stress there, straight between the points read."""
        step = np.hypot(np.diff(self.x), np.diff(self.y))
        run = np.concatenate([[0.0], np.cumsum(step)])
        at = np.linspace(0.0, run[-1], DENSE)
        value = self.sigma_t if what == "sigma_t" else self.across
        return np.stack([np.interp(at, run, self.x), np.interp(at, run, self.y)], axis=-1), np.interp(at, run, value)


@dataclass(frozen=True)
class Peak:
    """An extreme (psi) and its place (in)."""

    value: float
    x: float
    y: float


@dataclass(frozen=True)
class Section:
    """Resultants on a straight section: N tension, V down on its outer side, M tension at its first end (lbf, in)."""

    N: float
    V: float
    M: float


@dataclass(frozen=True, eq=False)
class Field:
    """A solved bracket. Lengths in, forces lbf, stresses psi; tension above zero. y down, V and shears down positive.

    moved : largest change of a governing figure against the mesh before, as a part; 0 for a single mesh.
    left_out : zones in which `peak` reads nothing. across : cells across the mesh. kind : 'mapped' or 'triangles'.
    """

    outline: Outline
    solution: Solution
    backing: Backing
    presses: tuple[Press, ...]
    left_out: tuple[Zone, ...]
    across_cells: int
    moved: float = 0.0

    @property
    def mesh(self) -> Mesh:
        return self.solution.mesh

    @property
    def residual(self) -> float:
        """Unbalanced part of the loads."""
        return self.solution.residual

    @property
    def pulls(self) -> tuple[float, ...]:
        """Pull of each spring row (lbf), positive when it draws the bracket to the wall."""
        return tuple(map(float, self.solution.pulls))

    @property
    def shears(self) -> tuple[float, ...]:
        """Load down the wall on each spring row (lbf)."""
        return tuple(map(float, self.solution.shears))

    @cached_property
    def stiffness(self) -> float:
        """Total force of the presses by their mean sinking, each weighed with its force (lbf/in); weight left out."""
        total = sum(press.force for press in self.presses)
        work = 0.0
        for press in self.presses:
            where = line(self.mesh, self.mesh.edges["top"], press.x0, press.x1)
            down = np.einsum("qn,kn->kq", SHAPE, self.solution.presses_only[where.nodes, 1])
            work += press.force * float((down * where.length).sum() / where.length.sum())
        if not self.presses or abs(total) < 1e-12 * sum(abs(p.force) for p in self.presses) or work == 0.0:
            raise OutOfRange("there is no stiffness without a load, nor where loads up and down cancel")
        return total * total / work

    @property
    def contact(self) -> tuple[float, float, float, float]:
        """Where the wall presses (from y, to y), with what force (lbf) and its center y; zeros when it does not."""
        s = self.solution
        force = s.contact * s.wall.length * self.mesh.thickness[s.wall.cells][:, None]
        total = float(force.sum())
        if total <= 0.0:
            return 0.0, 0.0, 0.0, 0.0
        y = s.wall.place[..., 1]
        on = s.contact > 0.0
        return float(y[on].min()), float(y[on].max()), total, float((force * y).sum() / total)

    @cached_property
    def top(self) -> EdgeStress:
        """Along the top edge, from O outwards."""
        return self._edge("top")

    @cached_property
    def soffit(self) -> EdgeStress:
        """Along the soffit, from foot to nose."""
        return self._edge("soffit")

    @cached_property
    def wall_edge(self) -> EdgeStress:
        """Along the wall face, from O down, and along the sides of pockets cut right through it."""
        if self.backing.kind == "bonded":
            raise OutOfRange("a bonded wall face is no free edge; it has no edge stress of its own")
        return self._edge("face")

    def _edge(self, name: EdgeName) -> EdgeStress:
        edge = self.mesh.edges[name]
        at = np.einsum("qn,knc->kqc", SIDE_SHAPE, self.mesh.nodes[edge.sides]).reshape(-1, 2)
        return edge_stress(self.solution, edge, self._pressure(name, at, np.repeat(edge.cells, 2)))

    def _pressure(self, name: EdgeName, at: Array, cells: Index) -> Array:
        """(n,) stress across an edge from what acts on it at places (n, 2); no edge has friction.

        Springs and patches on the wall lie inside zones that are not read; there only the wall's pressure is taken off.
        """
        normal, thick = np.zeros(len(at)), self.mesh.thickness[cells]
        if name == "top":
            for press in self.presses:
                on = (at[:, 0] > press.x0) & (at[:, 0] < press.x1)
                normal -= np.where(on, press.force / ((press.x1 - press.x0) * thick), 0.0)
        elif name == "face" and self.backing.stiffness > 0.0:
            side = self.mesh.edges["face"].sides
            out = np.einsum("qn,kn->kq", SIDE_SHAPE, self.solution.moves[side, 0]).ravel()
            on_wall = at[:, 0] < 1e-9 * self.outline.P
            normal += np.where(on_wall, self.backing.stiffness * np.minimum(out, 0.0), 0.0)
        return normal

    @cached_property
    def _nodal(self) -> tuple[Array, Index, Array]:
        return nodal_stress(self.solution)

    @cached_property
    def _everywhere(self) -> tuple[Array, Array]:
        """(n, 2) nodes and places on the rims of the zones that are not read; (n, 3) stress there as in `grain_stress`.

        The rims are needed because stress often grows towards them: without them a peak would move with the mesh.
        """
        places, _, stress = self._nodal
        rims = [np.array(replace(zone, r=zone.r * (1.0 + 1e-9)).polygon()) for zone in self.left_out]
        if not rims:
            return places, stress
        rim = np.concatenate(rims)
        value = self.grain_stress(rim)
        inside = np.all(np.isfinite(value), axis=1)
        return np.concatenate([places, rim[inside]]), np.concatenate([stress, value[inside]])

    @property
    def cells(self) -> tuple[tuple[tuple[float, float], ...], ...]:
        """Small polygons that fill the outline, for drawings; `values` has one number for each."""
        places, number, _ = self._nodal
        corners = places[number[:, self.mesh.faces]]  # (m, f, corners, 2)
        return tuple(tuple((float(x), float(y)) for x, y in face) for face in corners.reshape(-1, *corners.shape[2:]))

    def values(self, what: Literal["across", "along", "shear"]) -> tuple[float, ...]:
        """Stress across the grain, along it or shear (psi), the mean over each of `cells`."""
        _, number, stress = self._nodal
        column = ("along", "across", "shear").index(what)
        return tuple(map(float, stress[number[:, self.mesh.faces], column].mean(axis=-1).ravel()))

    def readable(self, places: Array) -> Flags:
        """(n,) whether places (n, 2) lie outside all zones that are not read."""
        out = np.ones(len(places), dtype=bool)
        for zone in self.left_out:
            out &= ~zone.holds(places)
        return out

    def peak(self, name: PeakName) -> Peak:
        """The largest tension (or compression, the lowest figure) of an edge or of the whole, outside the zones.

        Raises BeamcheckError: the zones leave nothing to read.
        """
        what, _, kind = name.partition(" ")
        if what in ("top", "soffit", "wall"):
            edge = {"top": lambda: self.top, "soffit": lambda: self.soffit, "wall": lambda: self.wall_edge}[what]()
            places, stress = edge.dense("sigma_t")
        else:
            column = ("along", "across", "shear").index(what)
            places, stress = self._everywhere[0], self._everywhere[1][:, column]
            if what == "across":
                edges = [self.top, self.soffit] + ([] if self.backing.kind == "bonded" else [self.wall_edge])
                found = [(places, stress), *(edge.dense("across") for edge in edges)]
                places, stress = (np.concatenate(part) for part in zip(*found, strict=True))
        on = np.flatnonzero(self.readable(places))
        if not len(on):
            raise BeamcheckError(
                f"{name}: no place is left to read, all of it is near a support, a load or an inward corner"
            )
        among = np.abs(stress[on]) if what == "shear" else stress[on] * (-1.0 if kind == "compression" else 1.0)
        best = int(on[np.argmax(among)])
        return Peak(float(stress[best]), float(places[best, 0]), float(places[best, 1]))

    def grain_stress(self, places: Array) -> Array:
        """(n, 3) stress along the grain, across it and shear at places (n, 2); nan outside the outline."""
        where, number, stress = self._nodal
        triangles = number[:, self.mesh.sub].reshape(-1, 3)
        wanted = np.asarray(places, dtype=float)
        kept = self.mesh.located  # fields of other wood on the same mesh look for the same places
        if (key := wanted.tobytes()) not in kept:
            kept[key] = _locate(where, triangles, wanted)
        found, weight = kept[key]
        value = np.einsum("nk,nkc->nc", weight, stress[triangles[found]])
        return np.where((found >= 0)[:, None], value, np.nan)

    def resultant(self, x0: float, y0: float, x1: float, y1: float) -> Section:
        """Resultants on the straight section from (x0, y0) on the top or wall side to (x1, y1), by integration.

        N and V act on the inner part: N along the section's normal, V along the section towards its second end;
        M about its middle.
        """
        start, along = np.array([x0, y0]), np.array([x1 - x0, y1 - y0])
        size = float(np.hypot(*along))
        if size <= 0.0:
            raise OutOfRange("a section needs two different ends")
        direction = along / size
        cuts = (np.arange(60)[:, None] + np.array([0.5 - np.sqrt(0.15), 0.5, 0.5 + np.sqrt(0.15)])) / 60
        part, weight = cuts.ravel(), np.tile([5 / 18, 8 / 18, 5 / 18], 60) * size / 60
        places = start + part[:, None] * along
        where, number, stress = self._nodal
        triangles = number[:, self.mesh.sub].reshape(-1, 3)
        found, bary = _locate(where, triangles, places)
        value = np.einsum("nk,nkc->nc", bary, stress[triangles[found]]) * (found >= 0)[:, None]
        thick = self.mesh.thickness[np.maximum(found, 0) // len(self.mesh.sub)]
        # normal of the section and its run, in axes along and across the grain
        angle = -self.solution.elastic.angle(places[:, 0], places[:, 1])
        c, s = np.cos(angle), np.sin(angle)
        n = np.stack([c * direction[1] - s * direction[0], -s * direction[1] - c * direction[0]], axis=-1)
        d = np.stack([c * direction[0] + s * direction[1], -s * direction[0] + c * direction[1]], axis=-1)
        pull = np.stack(
            [value[:, 0] * n[:, 0] + value[:, 2] * n[:, 1], value[:, 2] * n[:, 0] + value[:, 1] * n[:, 1]], axis=-1
        ) * (thick * weight)[:, None]  # fmt: skip
        normal, shear = (pull * n).sum(axis=1), (pull * d).sum(axis=1)
        return Section(float(normal.sum()), float(shear.sum()), float((normal * (0.5 - part) * size).sum()))

    def governing(self) -> dict[str, float]:
        """The figures that must not depend on the mesh: stiffness, peaks of tension, pulls, contact force."""
        found: dict[str, float] = {}
        if self.presses:
            found["stiffness"] = self.stiffness
        for name in (*EDGE_PEAKS, "across tension"):
            if name != "wall tension" or self.backing.kind != "bonded":
                found[name] = self.peak(name).value
        found.update({f"pull {i + 1}": pull for i, pull in enumerate(self.pulls)})
        if self.backing.kind == "springs":
            found["contact"] = self.contact[2]
        return found


def edge_stress(solution: Solution, edge: Edge, normal: Array) -> EdgeStress:
    """Stress along an edge from its stretch; `normal` (2 per side) is the stress across it, there is none in shear."""
    elastic = solution.elastic
    places = solution.mesh.nodes[edge.sides]
    at = np.einsum("qn,knc->kqc", SIDE_SHAPE, places).reshape(-1, 2)
    along = np.einsum("qn,knc->kqc", SIDE_SLOPE, places).reshape(-1, 2)
    stretch = np.einsum("qn,knc->kqc", SIDE_SLOPE, solution.moves[edge.sides]).reshape(-1, 2)
    eps = (along * stretch).sum(axis=1) / (along**2).sum(axis=1)
    tangent = np.arctan2(-along[:, 1], along[:, 0])
    phi = tangent - elastic.angle(at[:, 0], at[:, 1])
    s = elastic.flexibility(phi)
    fold = np.abs((np.degrees(phi) + 90.0) % 180.0 - 90.0)
    return EdgeStress(at[:, 0], at[:, 1], (eps - s[:, 1] * normal) / s[:, 0], np.degrees(tangent), fold)


def nodal_stress(solution: Solution, axes: Grain | None = None) -> tuple[Array, Index, Array]:
    """(N, 2) places, (m, k) numbers into them, (N, 3) stress along, across, shear to the grain, or to other `axes`.

    Each is the mean of the cells that meet there and are equally thick; where the thickness jumps there are two.
    """
    mesh = solution.mesh
    stress = stress_at(mesh, solution.elastic, solution.moves, mesh.read)
    elastic = solution.elastic if axes is None else replace(solution.elastic, grain=axes)
    angle = -elastic.angle(mesh.read.place[..., 0], mesh.read.place[..., 1])
    c, s = np.cos(angle), np.sin(angle)
    x, y, t = stress[..., 0], stress[..., 1], stress[..., 2]
    along, across = c * c * x + s * s * y + 2.0 * s * c * t, s * s * x + c * c * y - 2.0 * s * c * t
    carried = mesh.spread @ np.stack([along, across, s * c * (y - x) + (c * c - s * s) * t], axis=-1)  # (m, k, 3)
    _, group = np.unique(np.round(mesh.thickness, 9), return_inverse=True)
    kept, number = np.unique(group[:, None] * len(mesh.nodes) + mesh.cells, return_inverse=True)
    number = number.reshape(mesh.cells.shape)
    count = np.bincount(number.ravel())
    means = np.stack([np.bincount(number.ravel(), carried[..., i].ravel()) / count for i in range(3)], axis=-1)
    return mesh.nodes[kept % len(mesh.nodes)], number, means


def _locate(places: Array, triangles: Index, wanted: Array) -> tuple[Index, Array]:
    """Which triangle holds each wanted place (-1: none) and the (n, 3) weights of its corners there."""
    from scipy.spatial import cKDTree

    a, b, c = (places[triangles[:, i]] for i in range(3))
    _, near = cKDTree((a + b + c) / 3.0).query(wanted, k=min(NEAREST, len(a)))
    near = np.asarray(near).reshape(len(wanted), -1)
    best, weight, least = _among(a[near], b[near], c[near], wanted)
    found = near[np.arange(len(wanted)), best]
    far = np.flatnonzero(least < 0.0)  # slender triangles have far centers: there all are tried
    if len(far):
        best, weight[far], least[far] = _among(a[None], b[None], c[None], wanted[far])
        found[far] = best
    return np.where(least > -0.02, found, -1), weight


def _among(a: Array, b: Array, c: Array, wanted: Array) -> tuple[Index, Array, Array]:
    """Of triangles (n or 1, k, 2) the one that holds each place best, its weights, and the least of those."""
    u, v = b - a, c - a
    det = u[..., 0] * v[..., 1] - u[..., 1] * v[..., 0]
    ok = np.abs(det) > 1e-300
    det = np.where(ok, det, 1.0)
    w = wanted[:, None, :] - a
    second = (w[..., 0] * v[..., 1] - w[..., 1] * v[..., 0]) / det
    third = (u[..., 0] * w[..., 1] - u[..., 1] * w[..., 0]) / det
    least = np.where(ok, np.minimum(np.minimum(second, third), 1.0 - second - third), -np.inf)
    best = np.argmax(least, axis=1)
    row = np.arange(len(wanted))
    second, third = second[row, best], third[row, best]
    weight = np.stack([1.0 - second - third, second, third], axis=-1)
    return best, weight, least[row, best]
