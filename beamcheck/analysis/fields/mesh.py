"""Meshes of nine-node quadrilaterals and six-node triangles for plane stress, made from an outline.

Mapped mesh: columns run from the inner path (foot at the wall, O, top of the nose) straight to the soffit. Where that
folds, or wood is cut out of the wall face, `field_triangles` fills the outline with triangles.
Shapes: nodes (n, 2); cells (m, k) node numbers, k = 9 or 6. x out from the wall, y down, inch.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import field
from itertools import pairwise
from typing import Any

import numpy as np
from numpy.typing import NDArray

from ...records import dataclass
from ..frames.polynomial import Array
from .outline import Outline

Index = NDArray[np.intp]
ALONG = 4  # columns for each cell across
FINER = 0.25  # cell length beside an end of a support or load, as a part of the plain one
EDGES = 0.6  # by which part the rows at both edges are thinner than the mean: supports, loads and peaks are there
GROWTH = 0.4  # by which part of the distance from there the cells grow
LEAST_DETERMINANT = 0.02  # of a cell's largest, at its integration points: below it the cell is as good as folded
QUAD_SUB = ((0, 4, 8), (0, 8, 7), (4, 1, 5), (4, 5, 8), (8, 5, 2), (8, 2, 6), (7, 8, 6), (7, 6, 3))
QUAD_FACES = ((0, 4, 8, 7), (4, 1, 5, 8), (8, 5, 2, 6), (7, 8, 6, 3))
TRI_SUB = ((0, 3, 5), (3, 1, 4), (5, 4, 2), (3, 4, 5))


@dataclass(frozen=True, eq=False)
class Edge:
    """Cell sides along the boundary: (k, 3) nodes start, middle, end of each, and (k,) the cells they bound."""

    sides: Index
    cells: Index


@dataclass(frozen=True, eq=False)
class Points:
    """Points inside the cells: (m, q, k, 2) gradients of the shape functions, (m, q) areas, (m, q, 2) places,
    (q, k) values of the shape functions."""

    gradient: Array
    area: Array
    place: Array
    value: Array


@dataclass(frozen=True, eq=False)
class Mesh:
    """A mesh with all that solving and reading need.

    work : points for integration. read : points where stresses are best; `spread` (k, r) carries them to the nodes.
    edges : 'top' from O outwards, 'wall' from O down, 'face' the same with the sides of pockets, 'soffit' from foot
    to nose.
    thickness : (m,) of each cell (in). sub, faces : triangles and polygons of a cell in local node numbers.
    kind : 'mapped' or 'triangles'. located : places that were looked for: their triangles and weights.
    """

    nodes: Array
    cells: Index
    work: Points
    read: Points
    spread: Array
    edges: dict[str, Edge]
    thickness: Array
    sub: Index
    faces: Index
    kind: str
    located: dict[bytes, tuple[Index, Array]] = field(default_factory=dict)


def finish(
    nodes: Array, corners: Index, mid: Callable[[Array], Array]
) -> tuple[Array, Index, Points, Points, Array] | None:
    """Number the nodes of a mesh of corners, move the new ones by `mid`, and integrate; None when a cell is folded.

    nodes : (n, 2) places of the corner nodes. corners : (m, 3) or (m, 4). mid : places of all nodes (N, 2) as they
    stand on straight sides -> where they shall be. Returns nodes, cells, work, read, spread.
    """
    import skfem
    from skfem.quadrature import get_quadrature

    quads = corners.shape[1] == 4
    plain = skfem.MeshQuad if quads else skfem.MeshTri
    straight = plain(nodes.T.copy(), corners.T.copy(), validate=False, sort_t=False)
    curved = (skfem.MeshQuad2 if quads else skfem.MeshTri2).from_mesh(straight)
    places = mid(curved.doflocs.T)
    curved = type(curved)(places.T.copy(), curved.t, validate=False, sort_t=False)
    element = skfem.ElementQuad2() if quads else skfem.ElementTriP2()
    orders = (5, 3) if quads else (4, 2)
    mapping = curved.mapping()

    def determinants(local: Array) -> Array:
        return np.asarray(
            mapping.J(0, 0, local) * mapping.J(1, 1, local) - mapping.J(0, 1, local) * mapping.J(1, 0, local)
        )

    inside = np.concatenate([determinants(get_quadrature(curved.elem, order)[0]) for order in orders], axis=1)
    if not sound(inside, determinants(element.doflocs.T[:, : corners.shape[1]])):
        return None
    bases = [skfem.Basis(curved, element, mapping=mapping, intorder=order) for order in orders]
    cells = bases[0].dofs.element_dofs.T.astype(np.intp)
    work, read = (_points(basis) for basis in bases)
    return places, cells, work, read, _spread(bases[1].X, element.doflocs.T, quads)


def _points(basis: Any) -> Points:
    gradient = np.stack([one[0].grad for one in basis.basis], axis=-1)  # (2, m, q, k)
    place = np.asarray(basis.global_coordinates())
    value = np.stack([np.broadcast_to(np.asarray(one[0]), basis.dx.shape)[0] for one in basis.basis], axis=-1)
    return Points(np.moveaxis(gradient, 0, -1).copy(), basis.dx, np.moveaxis(place, 0, -1), value)


def _spread(points: Array, nodes: Array, bilinear: bool) -> Array:
    """(k, r) matrix that carries values at the reading points to the nodes, by the polynomial through them."""

    def terms(x: Array) -> Array:
        one = np.ones_like(x[0])
        return np.stack([one, x[0], x[1], x[0] * x[1]] if bilinear else [one, x[0], x[1]], axis=-1)

    return terms(nodes) @ np.linalg.inv(terms(points))


def sound(inside: Array, at_corners: Array) -> bool:
    """Whether no cell is folded or crushed, from determinants (m, points) of the mapping inside it and at its corners.

    At a corner itself a cell may be flat: foot and soffit may run on in line.
    """
    way = 1.0 if inside.sum() > 0.0 else -1.0
    least = LEAST_DETERMINANT * (way * inside).max(axis=1)
    return bool(np.all((way * inside).min(axis=1) > least) and np.all((way * at_corners).min(axis=1) > -least))


def graded(stops: Sequence[float], fine_at: Sequence[float], plain: float, finer: float = FINER) -> Array:
    """Places from the first stop to the last with every stop among them, about `plain` apart, `finer` at `fine_at`."""
    stops_now = np.unique(np.round(np.asarray(stops, dtype=float), 9))
    hot = np.asarray(fine_at, dtype=float)
    out = [stops_now[:1]]
    for low, high in pairwise(stops_now):
        s = np.linspace(low, high, 65)
        size = np.full_like(s, plain)
        if len(hot):
            size = np.minimum(plain, finer * plain + GROWTH * np.abs(s[:, None] - hot).min(axis=1))
        density = np.concatenate([[0.0], np.cumsum(0.5 * (1.0 / size[1:] + 1.0 / size[:-1]) * np.diff(s))])
        count = max(1, int(np.ceil(density[-1] - 1e-9)))
        out.append(np.interp(np.arange(1, count + 1) / count * density[-1], density, s))
        out[-1][-1] = high
    return np.concatenate(out)


def mapped(
    outline: Outline, thickness: float, across: int, wall_stops: Sequence[float], top_stops: Sequence[float],
    fine: Sequence[float] = (),
) -> Mesh | None:  # fmt: skip
    """The mapped mesh; None where it folds.

    across : cells from the inner path to the soffit. wall_stops, top_stops : places on the wall face (y) and the top
    edge (x) where a load or support begins or ends. fine : more places on the wall face (y) that want small cells.
    """
    H, P = outline.H, outline.P
    lengths, u = outline.lengths, outline.u
    total = float(lengths[-1])
    # O is joined to the soffit point at 45 deg, so that columns turn evenly about it
    off = np.abs(outline.soffit[:, 0] - outline.soffit[:, 1])
    inside = lengths[1:-1]
    at_o = float(inside[int(np.argmin(off[1:-1]))]) if len(inside) else 0.5 * total
    at_o = min(max(at_o, 0.1 * total), 0.9 * total)

    def soffit_length(s: Array) -> Array:
        return np.asarray(np.interp(s, [0.0, H, H + P], [0.0, at_o, total]))

    stops = [0.0, H, H + P, *(H - y for y in wall_stops), *(H + x for x in top_stops)]
    corners = [float(np.interp(lengths[i], [0.0, at_o, total], [0.0, H, H + P])) for i in outline.kinks]
    s = graded([*stops, *corners], [*stops, *corners, *(H - y for y in fine)], (H + P) / (ALONG * across))
    v = np.linspace(0.0, 1.0, across + 1)
    columns, rows = len(s), len(v)
    number = np.arange(columns * rows).reshape(columns, rows)
    quads = np.stack([number[:-1, :-1], number[1:, :-1], number[1:, 1:], number[:-1, 1:]], axis=-1).reshape(-1, 4)
    flat = np.stack(np.meshgrid(s, v, indexing="ij"), axis=-1).reshape(-1, 2)
    kept: list[Array] = []

    def place(logical: Array) -> Array:
        kept.append(logical)
        along = logical[:, 0]
        part = (logical[:, 1] - EDGES * np.sin(2.0 * np.pi * logical[:, 1]) / (2.0 * np.pi))[:, None]
        inner = np.stack([np.maximum(along - H, 0.0), np.maximum(H - along, 0.0)], axis=-1)
        outer = outline.at(np.interp(soffit_length(along), lengths, u))
        return np.asarray((1.0 - part) * inner + part * outer)

    made = finish(flat, quads, place)
    if made is None:
        return None
    nodes, cells, work, read, spread = made
    along, part = kept[0][:, 0], kept[0][:, 1]
    slack = 1e-9 * (H + P)
    # every node of the logical grid sits at half steps of s and v: sort those of one row into a chain
    inner_edge, outer_edge = (_chain(along, np.abs(part - row) < 1e-9) for row in (0.0, 1.0))
    strip = np.arange((columns - 1) * across).reshape(columns - 1, across)
    middle = along[inner_edge[:, 1]]
    wall, top = middle < H - slack, middle > H + slack
    face = Edge(inner_edge[wall][::-1, ::-1], strip[wall, 0][::-1])
    edges = {
        "wall": face,
        "face": face,
        "top": Edge(inner_edge[top], strip[top, 0]),
        "soffit": Edge(outer_edge, strip[:, -1]),
    }
    sub, faces = np.array(QUAD_SUB, dtype=np.intp), np.array(QUAD_FACES, dtype=np.intp)
    thick = np.full(len(cells), thickness)
    return Mesh(nodes, cells, work, read, spread, edges, thick, sub, faces, "mapped")


def _chain(along: Array, on: NDArray[np.bool_]) -> Index:
    """(k, 3) sides start, middle, end from the nodes that lie `on` a row of the logical grid."""
    row = np.flatnonzero(on)
    row = row[np.argsort(along[row])]
    return np.stack([row[:-2:2], row[1:-1:2], row[2::2]], axis=-1)
