"""Stress field of a bent bracket: an arc of constant depth, held at one end, pressed down at its nose.

The nose is level, its end face upright; the arc runs back and down from there by `sweep`. Angles are counted from the
nose. The grain follows the arc, or has one direction when the arc was sawn. Inch, lbf, psi.
"""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np

from beamcheck.analysis.fields.mesh import QUAD_FACES, QUAD_SUB, Edge, Index, Mesh, finish
from beamcheck.analysis.fields.read import edge_stress, nodal_stress
from beamcheck.analysis.fields.solve import SHAPE, Backing, Elastic, Flags, line, solve, spread_load
from beamcheck.analysis.frames.polynomial import Array
from beamcheck.errors import BeamcheckError, OutOfRange

FINEST = 48


@dataclass(frozen=True, eq=False)
class ArcField:
    """A solved arc; tension above zero.

    angle : (n,) deg from the nose, at which `inner` and `outer` (n,) are the stresses along the edges (psi).
    radial : (s, r) stress across the arc (psi) at `stations` (s,) deg from the nose and `radii` (r,) in.
    stiffness : force at the nose by its mean sinking (lbf/in). residual, moved : as for `Field`.
    """

    angle: Array
    inner: Array
    outer: Array
    stations: Array
    radii: Array
    radial: Array
    stiffness: float
    residual: float
    moved: float = 0.0

    def inner_at(self, degrees: float) -> float:
        """Stress along the hollow edge at an angle from the nose (psi)."""
        return float(np.interp(degrees, self.angle, self.inner))

    def outer_at(self, degrees: float) -> float:
        """Stress along the outer edge at an angle from the nose (psi)."""
        return float(np.interp(degrees, self.angle, self.outer))

    def radial_at(self, degrees: float) -> Array:
        """(r,) stress across the arc (psi) at `radii`, at an angle from the nose."""
        return np.array([np.interp(degrees, self.stations, column) for column in self.radial.T])


def arc_field(
    inner_radius: float, depth: float, sweep: float, thickness: float, elastic: Elastic, force: float, *,
    follows: bool = True, tolerance: float = 0.02,
) -> ArcField:  # fmt: skip
    """An arc refined until stiffness and edge stresses, away from its ends, move by less than `tolerance`.

    sweep : deg, to 180. force : down at the nose (lbf). follows : the grain follows the arc; else `elastic` has it.
    """
    for name, value in (("inner radius", inner_radius), ("depth", depth), ("sweep", sweep), ("thickness", thickness)):
        if not (np.isfinite(value) and value > 0.0):
            raise OutOfRange(f"the {name} of an arc must be more than zero, not {value:g}")
    if sweep > 180.0:
        raise OutOfRange(f"a sweep of {sweep:g} deg is more than half a circle")
    if not np.isfinite(force) or force == 0.0:
        raise OutOfRange("there is no stress field without a load at the nose")
    if not (np.isfinite(tolerance) and tolerance > 0.0):
        raise OutOfRange(f"a tolerance of {tolerance:g} is none; 0.02 is usual")
    before, across, moved = None, 6, np.inf
    while across <= FINEST:
        field = arc_on(inner_radius, depth, sweep, thickness, elastic, force, follows=follows, across=across)
        if before is not None:
            at = np.linspace(0.15, 0.85, 15) * sweep
            parts = [abs(field.stiffness / before.stiffness - 1.0)]
            for name in ("inner", "outer"):
                old, new = (np.interp(at, f.angle, getattr(f, name)) for f in (before, field))
                parts.append(float(np.abs(new - old).max() / np.abs(new).max()))
            moved = max(parts)
            if moved < tolerance:
                return replace(field, moved=moved)
        before, across = field, across * 2
    raise BeamcheckError(f"the stress field of the arc does not settle: it still moves by {100.0 * moved:.1f} %")


def arc_on(
    inner_radius: float, depth: float, sweep: float, thickness: float, elastic: Elastic, force: float, *,
    follows: bool = True, across: int,
) -> ArcField:  # fmt: skip
    """One mesh of an arc, `across` cells over its depth."""
    turn, outer = np.radians(sweep), inner_radius + depth
    center = np.array([outer * np.sin(min(turn, 0.5 * np.pi)), outer])
    columns = max(8, int(np.ceil((inner_radius + 0.5 * depth) * turn / depth * across / 1.5)))
    number = np.arange((columns + 1) * (across + 1)).reshape(columns + 1, across + 1)
    quads = np.stack([number[:-1, :-1], number[1:, :-1], number[1:, 1:], number[:-1, 1:]], axis=-1).reshape(-1, 4)
    phi, part = np.linspace(0.0, 1.0, columns + 1), np.linspace(0.0, 1.0, across + 1)
    flat = np.stack(np.meshgrid(phi, part, indexing="ij"), axis=-1).reshape(-1, 2)
    kept: list[Array] = []

    def place(logical: Array) -> Array:
        kept.append(logical)
        angle, r = turn * logical[:, 0], inner_radius + depth * logical[:, 1]
        return np.stack([center[0] - r * np.sin(angle), center[1] - r * np.cos(angle)], axis=-1)

    made = finish(flat, quads, place)
    if made is None:
        raise BeamcheckError("this arc could not be divided into sound cells; its inner radius is too small")
    nodes, cells, work, read, spread = made
    strip = np.arange(columns * across).reshape(columns, across)
    u, v = kept[0].T

    def edge(on: Flags, by: Array, own: Index) -> Edge:
        row = np.flatnonzero(on)
        row = row[np.argsort(by[row])]
        return Edge(np.stack([row[:-2:2], row[1:-1:2], row[2::2]], axis=-1), own)

    edges = {
        "wall": edge(np.abs(u - 1.0) < 1e-9, v, strip[-1]), "nose": edge(np.abs(u) < 1e-9, v, strip[0]),
        "inner": edge(np.abs(v) < 1e-9, u, strip[:, 0]), "outer": edge(np.abs(v - 1.0) < 1e-9, u, strip[:, -1]),
    }  # fmt: skip
    sub, faces = np.array(QUAD_SUB, dtype=np.intp), np.array(QUAD_FACES, dtype=np.intp)
    mesh = Mesh(nodes, cells, work, read, spread, edges, np.full(len(cells), thickness), sub, faces, "mapped")

    def along(x: Array, y: Array) -> Array:
        return np.asarray(np.degrees(np.arctan2(center[0] - x, center[1] - y)))

    wood = replace(elastic, grain=along) if follows else elastic
    loads = np.zeros_like(nodes)
    nose = line(mesh, edges["nose"])
    spread_load(loads, nose, np.full_like(nose.length, force / nose.length.sum()), 1)
    solution = solve(mesh, wood, Backing("bonded"), loads, np.zeros_like(nodes), lambda y: y < -np.inf)
    sinking = np.einsum("qn,kn->kq", SHAPE, solution.moves[nose.nodes, 1])
    free = [edge_stress(solution, edges[name], np.zeros(2 * columns)) for name in ("inner", "outer")]
    _, _, stress = nodal_stress(solution, along)
    order = np.lexsort((np.round(v, 9), np.round(u, 9)))  # the nodes are a grid of half cells
    shape = (2 * columns + 1, 2 * across + 1)
    return ArcField(
        along(free[0].x, free[0].y), free[0].sigma_t, free[1].sigma_t,
        np.linspace(0.0, sweep, shape[0]), np.linspace(inner_radius, outer, shape[1]),
        stress[order, 1].reshape(shape), force / float((sinking * nose.length).sum() / nose.length.sum()),
        solution.residual,
    )  # fmt: skip
