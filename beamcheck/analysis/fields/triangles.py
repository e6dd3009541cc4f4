"""Fills an outline with six-node triangles, where a mapped mesh folds or pockets are cut from the wall face.

Points along the boundary and on pocket lines, closer where supports, loads and corners are; points inside on hexagonal
grids of matching spacing; Delaunay triangles between them, moved once to even them out. A mesh counts only when its
free sides are exactly the boundary's, every pocket line is made of sides, and its area is that of the outline.
"""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise

import numpy as np

from ...errors import BeamcheckError, OutOfRange
from ...records import dataclass
from ..frames.polynomial import Array
from .mesh import GROWTH, TRI_SUB, Edge, Index, Mesh, finish, graded
from .outline import Outline, crossing

SPACING = 0.55  # of the root of the area, for one cell across
TRIES = 6
SMALLER = 0.93  # spacing of the next try: another one, hardly finer
CLEAR = 0.55  # of the spacing: nearer to the boundary no point is put inside
FLAT = 0.08  # least height of a triangle by its longest side
FINER = 0.08  # spacing where supports, loads and corners are, as a part of the plain one
LEVELS = 5  # of grids, from the plain spacing to the fine one


@dataclass(frozen=True)
class Void:
    """A pocket cut into the wall face: from y = `top` down by `height`, `depth` into the wood; `left` is the thickness
    of wood that is left there (0: it goes right through). Inches."""

    top: float
    height: float
    depth: float
    left: float = 0.0

    @property
    def corners(self) -> Array:
        """(4, 2) from the wall face, down and back to it."""
        bottom = self.top + self.height
        return np.array([[0.0, self.top], [self.depth, self.top], [self.depth, bottom], [0.0, bottom]])


@dataclass(frozen=True, eq=False)
class _Ring:
    """The boundary as points in order, without a repeat; each point's side to the next has a name; `middle` of it."""

    points: Array
    names: list[str]
    middle: Array


def filled(
    outline: Outline, thickness: float, across: int, wall_stops: Sequence[float], top_stops: Sequence[float],
    voids: Sequence[Void], fine: Sequence[float] = (),
) -> Mesh:  # fmt: skip
    """A mesh of triangles, about as fine as a mapped one with `across` cells.

    Raises OutOfRange: a pocket that does not stay inside the outline, or two that overlap; BeamcheckError: no sound
    mesh could be made.
    """
    voids = sorted(voids, key=lambda void: void.top)
    _prove_voids(outline, voids)
    spacing = SPACING * np.sqrt(outline.area) / across
    for _ in range(TRIES):
        mesh = _try(outline, thickness, spacing, wall_stops, top_stops, voids, fine)
        if mesh is not None:
            return mesh
        spacing *= SMALLER
    raise BeamcheckError("this outline could not be divided into sound cells; give a soffit without slivers of wood")


def _prove_voids(outline: Outline, voids: Sequence[Void]) -> None:
    if not voids:
        return
    # all pockets as if cut right through: the outline must stay one that does not cross itself
    notches = [void.corners[::-1] for void in reversed(voids)]
    if crossing(np.concatenate([outline.closed(), *notches])) is not None:
        raise OutOfRange(
            "the pockets overlap, or one cuts through the soffit or the top edge: wood must be left round it"
        )


def _ring(
    outline: Outline, h: float, wall_stops: Sequence[float], top_stops: Sequence[float], voids: Sequence[Void],
    fine: Sequence[float],
) -> _Ring:  # fmt: skip
    H, P, a, b = outline.H, outline.P, outline.a, outline.b
    points: list[Array] = []
    middle: list[Array] = []
    names: list[str] = []

    def straight(name: str, start: Array, end: Array, stops: Array, small: Sequence[float] = ()) -> None:
        """From start to end with stops given as distances from the start."""
        size = float(np.hypot(*(end - start)))
        along = graded([0.0, size, *stops], [0.0, size, *stops, *small], h, FINER)
        if len(along) == 2:
            along = np.array([0.0, 0.5 * size, size])
        places = start + np.multiply.outer(along / size, end - start)
        points.append(places[:-1])
        middle.append(0.5 * (places[1:] + places[:-1]))
        names.extend([name] * (len(along) - 1))

    straight("top", np.zeros(2), np.array([P, 0.0]), np.array(list(top_stops)))
    straight("nose", np.array([P, 0.0]), np.array([P, b]), np.zeros(0))
    total = float(outline.lengths[-1])
    corners = [0.0, total, *(float(outline.lengths[i]) for i in outline.kinks)]
    along = graded(corners, corners, h, FINER)[::-1]
    u = np.interp(along, outline.lengths, outline.u)
    points.append(outline.at(u)[:-1])
    middle.append(outline.at(0.5 * (u[1:] + u[:-1])))
    names.extend(["soffit"] * (len(u) - 1))
    straight("foot", np.array([a, H]), np.array([0.0, H]), np.zeros(0))
    y = H
    cuts = [void for void in voids if void.left == 0.0]
    for void in [*reversed(cuts), None]:
        end = 0.0 if void is None else void.top + void.height
        stops = np.array([y - s for s in wall_stops if end < s < y])
        straight("wall", np.array([0.0, y]), np.array([0.0, end]), stops, [y - s for s in fine if end < s < y])
        if void is not None:
            for start, stop in zip(void.corners[::-1][:-1], void.corners[::-1][1:], strict=True):
                straight("pocket", start, stop, np.zeros(0))
            y = void.top
    return _Ring(np.concatenate(points), names, np.concatenate(middle))


def _try(
    outline: Outline, thickness: float, h: float, wall_stops: Sequence[float], top_stops: Sequence[float],
    voids: Sequence[Void], fine: Sequence[float],
) -> Mesh | None:  # fmt: skip
    from scipy.spatial import Delaunay, cKDTree

    ring = _ring(outline, h, wall_stops, top_stops, voids, fine)
    shallow = [void for void in voids if void.left > 0.0]
    lines = [_pocket_line(void, h, ring) for void in shallow]
    fixed, fixed_sides = _join(ring.points, lines)
    hot = np.concatenate(
        [
            np.array([[0.0, 0.0], [outline.P, 0.0], [outline.P, outline.b], [outline.a, outline.H], [0.0, outline.H]]),
            outline.soffit[list(outline.kinks)].reshape(-1, 2),
            *(void.corners for void in voids),
            np.array([[0.0, y] for y in (*wall_stops, *fine)]).reshape(-1, 2),
            np.array([[x, 0.0] for x in top_stops]).reshape(-1, 2),
        ]
    )
    inside = _inner(ring.points, fixed, hot, h)
    n_fixed = len(fixed)
    points = np.concatenate([fixed, inside])
    triangles = _clipped(Delaunay(points).simplices, points, ring.points)
    for _ in range(3):  # towards the middle of the neighbors
        sides = np.concatenate([triangles[:, [0, 1]], triangles[:, [1, 2]], triangles[:, [2, 0]]])
        both = np.concatenate([sides, sides[:, ::-1]])
        total, count = np.zeros_like(points), np.bincount(both[:, 0], minlength=len(points))
        np.add.at(total, both[:, 0], points[both[:, 1]])
        points[n_fixed:] = total[n_fixed:] / np.maximum(count[n_fixed:], 1)[:, None]
        triangles = _clipped(Delaunay(points).simplices, points, ring.points)
    if not _whole(triangles, points, ring.points, fixed_sides):
        return None
    tree_at: list[Index] = []

    def place(straight: Array) -> Array:
        n = len(ring.points)
        ends = 0.5 * (ring.points + np.roll(ring.points, -1, axis=0))
        _, found = cKDTree(straight).query(ends)
        tree_at.append(np.asarray(found, dtype=np.intp)[:n])
        moved = straight.copy()
        moved[tree_at[0]] = ring.middle
        return moved

    made = finish(points, triangles, place)
    if made is None:
        return None
    nodes, cells, work, read, spread = made
    of_side = {
        (int(low), int(high)): cell
        for cell, tri in enumerate(triangles)
        for low, high in (sorted(pair) for pair in ((tri[0], tri[1]), (tri[1], tri[2]), (tri[2], tri[0])))
    }
    ring_next = np.roll(np.arange(len(ring.points)), -1)
    edges = {}
    for name, kinds in (("top", ("top",)), ("wall", ("wall",)), ("face", ("wall", "pocket")), ("soffit", ("soffit",))):
        on = np.array([i for i, one in enumerate(ring.names) if one in kinds])
        sides = np.stack([on, tree_at[0][on], ring_next[on]], axis=-1)
        if name != "top":  # the ring runs from nose to foot and up the wall; edges run the other way
            sides = sides[::-1, ::-1]
        owner = [of_side[min(i, j), max(i, j)] for i, j in sides[:, [0, 2]].tolist()]
        edges[name] = Edge(sides, np.array(owner, dtype=np.intp))
    middle = nodes[cells[:, :3]].mean(axis=1)
    thick = np.full(len(cells), thickness)
    for void in shallow:
        bottom = void.top + void.height
        thick[(middle[:, 0] < void.depth) & (middle[:, 1] > void.top) & (middle[:, 1] < bottom)] = void.left
    sub = np.array(TRI_SUB, dtype=np.intp)
    return Mesh(nodes, cells, work, read, spread, edges, thick, sub, sub, "triangles")


def _pocket_line(void: Void, h: float, ring: _Ring) -> Array:
    """(n, 2) points along the three sides of a pocket that leaves wood: from the wall face, down, and back to it."""
    parts = []
    for start, stop in zip(void.corners[:-1], void.corners[1:], strict=True):
        length = float(np.hypot(*(stop - start)))
        ends = [0.0, length]
        along = graded(ends, ends, h, FINER)
        if len(along) == 2:
            along = np.array([0.0, 0.5 * length, length])
        parts.append(start + np.multiply.outer(along / length, stop - start))
    line = np.concatenate([part[:-1] for part in parts] + [parts[-1][-1:]])
    for end in (0, -1):  # these two stand on the wall face and are points of the ring already
        line[end] = ring.points[int(np.argmin(np.hypot(*(ring.points - line[end]).T)))]
    return line


def _join(ring: Array, lines: Sequence[Array]) -> tuple[Array, list[tuple[int, int]]]:
    """Points of ring and pocket lines, each once, and the sides that the lines ask for."""
    points, sides = [ring], []
    count = len(ring)
    for line in lines:
        first, last = (int(np.argmin(np.hypot(*(ring - line[end]).T))) for end in (0, -1))
        numbers = [first, *range(count, count + len(line) - 2), last]
        points.append(line[1:-1])
        count += len(line) - 2
        sides += list(pairwise(numbers))
    return np.concatenate(points), sides


def inside(places: Array, polygon: Array) -> Array:
    """(n,) whether places (n, 2) lie inside a closed polygon (even-odd rule)."""
    a, b = polygon, np.roll(polygon, -1, axis=0)
    x, y = places[:, :1], places[:, 1:]
    spans = (a[:, 1] > y) != (b[:, 1] > y)
    rise = np.where(b[:, 1] == a[:, 1], 1.0, b[:, 1] - a[:, 1])
    left = x < a[:, 0] + (y - a[:, 1]) * (b[:, 0] - a[:, 0]) / rise
    return np.asarray((spans & left).sum(axis=1) % 2 == 1)


def _inner(ring: Array, fixed: Array, hot: Array, h: float) -> Array:
    """(n, 2) points inside, about as far apart as the local spacing."""
    from scipy.spatial import cKDTree

    hot_tree, fixed_tree = cKDTree(hot), cKDTree(fixed)
    low, high = ring.min(axis=0), ring.max(axis=0)
    kept = []
    for level in range(LEVELS):
        step = h * 0.5 ** (level * np.log2(1.0 / FINER) / (LEVELS - 1))
        rows = np.arange(low[1], high[1] + step, step * np.sqrt(0.75))
        columns = np.arange(low[0], high[0] + step, step)
        x = columns[None, :] + 0.5 * step * (np.arange(len(rows)) % 2)[:, None]
        grid = np.stack([x, np.broadcast_to(rows[:, None], x.shape)], axis=-1).reshape(-1, 2)
        wanted = np.minimum(h, FINER * h + GROWTH * hot_tree.query(grid)[0])
        ratio = FINER ** (1.0 / (LEVELS - 1))  # from one level's spacing to the next
        fits = (wanted > step * np.sqrt(ratio) if level < LEVELS - 1 else wanted > 0.0) & (
            wanted <= step / np.sqrt(ratio)
        )
        grid, wanted = grid[fits], wanted[fits]
        clear = fixed_tree.query(grid)[0] > CLEAR * wanted
        grid = grid[clear]
        kept.append(grid[inside(grid, ring)])
    return np.concatenate(kept)


def _clipped(triangles: Array, points: Array, ring: Array) -> Index:
    """The triangles inside the ring that have an area, all turning the same way."""
    corners = points[triangles]
    u, v = corners[:, 1] - corners[:, 0], corners[:, 2] - corners[:, 0]
    area = u[:, 0] * v[:, 1] - u[:, 1] * v[:, 0]
    keep = (np.abs(area) > 1e-10 * np.ptp(ring, axis=0).prod()) & inside(corners.mean(axis=1), ring)
    turned = np.where((area < 0.0)[:, None], triangles[:, ::-1], triangles)
    return np.asarray(turned[keep], dtype=np.intp)


def _whole(triangles: Index, points: Array, ring: Array, fixed_sides: Sequence[tuple[int, int]]) -> bool:
    """Whether the triangles fill the ring: its sides are the free ones, pocket lines are there, none is a sliver."""
    sides = np.sort(np.concatenate([triangles[:, [0, 1]], triangles[:, [1, 2]], triangles[:, [2, 0]]]), axis=1)
    unique, count = np.unique(sides, axis=0, return_counts=True)
    n = len(ring)
    wanted = np.sort(np.stack([np.arange(n), np.roll(np.arange(n), -1)], axis=-1), axis=1)
    free = {tuple(side) for side in unique[count == 1].tolist()}
    if free != {tuple(side) for side in wanted.tolist()}:
        return False
    everything = {tuple(side) for side in unique.tolist()}
    if not all(tuple(sorted(side)) in everything for side in fixed_sides):
        return False
    corners = points[triangles]
    u, v = corners[:, 1] - corners[:, 0], corners[:, 2] - corners[:, 0]
    area = 0.5 * np.abs(u[:, 0] * v[:, 1] - u[:, 1] * v[:, 0])
    ahead = np.roll(ring, -1, axis=0)
    whole = 0.5 * abs(float((ring[:, 0] * ahead[:, 1] - ahead[:, 0] * ring[:, 1]).sum()))
    longest = np.max([np.hypot(*(corners[:, i] - corners[:, i - 1]).T) for i in range(3)], axis=0)
    return bool(abs(area.sum() - whole) < 1e-9 * whole and np.all(2.0 * area > FLAT * longest**2))
