"""Stress field of a solid bracket: orthotropic plane stress by finite elements, refined until its figures stand still.

`solve_field` solves one mesh, `refined_field` as many as it takes. Everything in inch, lbf, psi; x out, y down.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import replace

import numpy as np

from ...errors import BeamcheckError, OutOfRange
from ...values.judgment import judgment
from ..frames.polynomial import Array
from .mesh import Mesh, mapped
from .outline import Outline
from .read import EDGE_PEAKS, EdgeStress, Field, Peak, Section, Zone
from .solve import Backing, Elastic, Flags, Patch, Press, Spring, line, solve, spread_load
from .triangles import Void, filled

__all__ = [
    "Backing", "EdgeStress", "Elastic", "Field", "Patch", "Peak", "Press", "Section", "Spring", "Void", "Zone",
    "refined_field", "solve_field",
]  # fmt: skip

COARSE = 6  # cells across
FINEST = {"mapped": 21, "triangles": 40}
SHORT = 0.05  # of the height: a wall that presses on less than that is met by triangles, which get small at one place
EDGE_FLOOR = 0.5  # of the largest peak on any edge: the movement of a lower peak is measured by this
FLOOR = 0.10  # of the same peak, for stress across the grain; of the loads, for pulls and contact


def solve_field(
    outline: Outline,
    thickness: float,
    elastic: Elastic,
    backing: Backing,
    presses: Sequence[Press],
    *,
    across: int,
    voids: Sequence[Void] = (),
    density: float = 0.0,
    before: Field | None = None,
    like: Field | None = None,
    triangles: bool = False,
) -> Field:
    """Solve one mesh with `across` cells from wall and top to the soffit.

    density : own weight (lbf/in3). triangles : do without the mapped mesh; else only where it folds.
    before : a field of the same bracket on a coarser mesh; its contact with the wall is where to begin.
    like : a field with the same bracket, places of rows and loads and as many cells, but other wood or stiffness: its
    mesh is taken, and its contact is where to begin.

    Raises OutOfRange: sizes, supports, loads or voids that make no sense; BeamcheckError: no mesh can be made, nothing
    holds the bracket, the answer is out of balance.
    """
    _check(outline, thickness, backing, presses, voids, across, density)
    wall_stops, top_stops = _stops(outline, backing, presses, voids)
    # stress is steep where the wall's pressure ends
    fine = [y for y in before.contact[:2] if 0.0 < y < outline.H] if before is not None and before.contact[2] else []
    mesh = like.mesh if like is not None else None
    if mesh is None and not voids and not triangles:
        mesh = mapped(outline, thickness, across, wall_stops, top_stops, fine)
    if mesh is None:
        mesh = filled(outline, thickness, across, wall_stops, top_stops, voids, fine)
    loads, weights = _forces(mesh, presses, density)
    solution = solve(mesh, elastic, backing, loads, weights, _guess(backing, before or like))
    return Field(outline, solution, backing, tuple(presses), _zones(outline, backing, presses, voids), across)


def refined_field(
    outline: Outline,
    thickness: float,
    elastic: Elastic,
    backing: Backing,
    presses: Sequence[Press],
    *,
    tolerance: float = 0.02,
    voids: Sequence[Void] = (),
    density: float = 0.0,
) -> Field:
    """Refine until stiffness, peaks of tension, pulls and contact force move by less than `tolerance`.

    The field's `moved` says by how much they moved last, as a part (see `movement`).

    Raises BeamcheckError: the figures still move on the finest mesh; or as for `solve_field`.
    """
    if not (np.isfinite(tolerance) and tolerance > 0.0):
        raise OutOfRange(f"a tolerance of {tolerance:g} is none; 0.02 is usual")
    worst = ("", np.inf)
    for way, finest in FINEST.items():
        if voids and way == "mapped":
            continue
        across, before = COARSE, None
        while across <= finest:
            field = solve_field(
                outline, thickness, elastic, backing, presses, across=across, voids=voids, density=density,
                before=before, triangles=way == "triangles",
            )  # fmt: skip
            start, end, force, _ = field.contact
            if way != field.mesh.kind or (way == "mapped" and force > 0.0 and end - start < SHORT * outline.H):
                break
            if before is not None:
                worst = movement(before, field)
                if worst[1] < tolerance:
                    return replace(field, moved=worst[1])
            before, across = field, int(np.ceil(across * 1.5))
    raise BeamcheckError(
        f"the stress field does not settle: the {worst[0]} still moves by {100.0 * worst[1]:.1f} % on the finest mesh"
    )


def movement(before: Field, after: Field) -> tuple[str, float]:
    """The governing figure that moved most between two meshes, and by what part.

    A small figure is measured by a part of the largest of its kind: its own movement says nothing that matters.
    """
    old, new = before.governing(), after.governing()
    peaks = [abs(value) for name, value in new.items() if name in EDGE_PEAKS]
    largest, force = max(peaks), sum(abs(press.force) for press in after.presses)
    parts = {}
    for name, value in new.items():
        floor = 0.0
        if name in EDGE_PEAKS:
            floor = EDGE_FLOOR * largest
        elif name == "across tension":
            floor = FLOOR * largest
        elif name != "stiffness":
            floor = FLOOR * force
        size = max(abs(value), floor)
        parts[name] = abs(value - old[name]) / size if size > 0.0 else 0.0
    name = max(parts, key=lambda key: parts[key])
    return name, parts[name]


def _check(
    outline: Outline, thickness: float, backing: Backing, presses: Sequence[Press], voids: Sequence[Void], across: int,
    density: float,
) -> None:  # fmt: skip
    H, P = outline.H, outline.P
    if not (np.isfinite(thickness) and thickness > 0.0):
        raise OutOfRange(f"the thickness of a bracket must be more than zero, not {thickness:g} in")
    if not 2 <= across <= 200:
        raise OutOfRange(f"{across} cells across: a mesh needs 2 to 200")
    if not (np.isfinite(density) and density >= 0.0):
        raise OutOfRange(f"a density of {density:g} lb/in3 is none")
    if not presses and density <= 0.0:
        raise OutOfRange("nothing acts on the bracket: give a load or its own weight")
    for press in presses:
        if not (np.isfinite(press.force) and 0.0 <= press.x0 < press.x1 <= P * (1 + 1e-9)):
            raise OutOfRange(
                f"a load from x = {press.x0:g} to {press.x1:g} in does not lie on the top edge, which runs from 0 to"
                f" {P:g} in, or it has no width"
            )
    if backing.kind == "springs":
        if not backing.springs:
            raise OutOfRange("without a row of anchors nothing holds the bracket on the wall")
        if not (np.isfinite(backing.stiffness) and backing.stiffness > 0.0):
            raise OutOfRange("a wall that presses needs a stiffness above zero, psi per inch; a hard one has about 1e7")
        for spring in backing.springs:
            if not (0.0 < spring.k_axial < np.inf and 0.0 < spring.k_lateral < np.inf and spring.height > 0.0):
                raise OutOfRange(f"the anchors at {spring.y:g} in need stiffnesses above zero, along and across")
            if not (spring.height / 2 <= spring.y <= H - spring.height / 2):
                raise OutOfRange(
                    f"the anchors at {spring.y:g} in below the top are not on the wall face: with {spring.height:g} in"
                    f" that they need, they can be from {spring.height / 2:g} to {H - spring.height / 2:g} in"
                )
    for void in voids:
        sizes = (void.top, void.height, void.depth, void.left)
        if not (all(np.isfinite(sizes)) and void.top > 0.0 and void.height > 0.0 and void.depth > 0.0):
            raise OutOfRange("a pocket needs a height and a depth, and must start below the top edge")
        if not 0.0 <= void.left < thickness:
            raise OutOfRange(f"a pocket cannot leave {void.left:g} in of a thickness of {thickness:g} in")
        if void.top + void.height >= H:
            raise OutOfRange(f"a pocket down to {void.top + void.height:g} in runs out of the foot at {H:g} in")
        for spring in backing.springs if void.left == 0.0 else ():
            if spring.y + spring.height / 2 > void.top and spring.y - spring.height / 2 < void.top + void.height:
                raise OutOfRange(
                    f"the anchors at {spring.y:g} in below the top stand in a pocket that is cut right through;"
                    " nothing is there for them to hold"
                )


def _stops(
    outline: Outline, backing: Backing, presses: Sequence[Press], voids: Sequence[Void]
) -> tuple[list[float], list[float]]:
    wall = [y for s in backing.springs for y in (s.y - s.height / 2, s.y + s.height / 2)]
    wall += [y for patch in backing.patches for y in (patch.y0, patch.y1)]
    wall += [y for void in voids for y in (void.top, void.top + void.height)]
    return wall, [min(x, outline.P) for press in presses for x in (press.x0, press.x1)]


def _forces(mesh: Mesh, presses: Sequence[Press], density: float) -> tuple[Array, Array]:
    loads, weights = np.zeros_like(mesh.nodes), np.zeros_like(mesh.nodes)
    for press in presses:
        where = line(mesh, mesh.edges["top"], press.x0, press.x1)
        spread_load(loads, where, np.full_like(where.length, press.force / where.length.sum()), 1)
    if density > 0.0:
        share = (mesh.work.area @ mesh.work.value) * (mesh.thickness * density)[:, None]
        np.add.at(weights[:, 1], mesh.cells, share)
    return loads, weights


def _guess(backing: Backing, before: Field | None) -> Callable[[Array], Flags]:
    """Where the wall is taken to press at first: below the top anchors, or where it did on the mesh before."""
    if before is None:
        below = min((spring.y for spring in backing.springs), default=0.0)
        return lambda y: y > below
    place, pressure = before.solution.wall.place[..., 1].ravel(), before.solution.contact.ravel()
    order = np.argsort(place)
    return lambda y: np.interp(y, place[order], np.where(pressure[order] > 0.0, 1.0, 0.0)) > 0.5


def _zones(outline: Outline, backing: Backing, presses: Sequence[Press], voids: Sequence[Void]) -> tuple[Zone, ...]:
    """Where no stress is read: at the wall face, anchors and inward corners, by the projection or the height where
    that is less; below narrow loads, by the depth there.

    A load over much of the top edge has no zone: it is a spread load, that plane stress describes.
    """
    H, P = outline.H, outline.P
    size = min(H, P)
    at_wall, at_anchor, at_corner = (
        _not_read(where) * size for where in ("at a clamped wall", "at anchors", "at an inward corner")
    )
    wide, widest = judgment("wide load over top edge").value, judgment("zone not read at a load, widest").value
    zones = []
    if backing.kind == "bonded":
        zones.append(Zone(0.0, 0.0, 0.0, H, at_wall, "at the clamped wall face"))
    for spring in backing.springs:
        half = spring.height / 2
        zones.append(Zone(0.0, spring.y - half, 0.0, spring.y + half, at_anchor, "at the anchors"))
    for patch in backing.patches:
        zones.append(Zone(0.0, patch.y0, 0.0, patch.y1, at_anchor, "where the wall face is held"))
    for press in presses:
        if press.x1 - press.x0 <= wide * P:
            radius = min(_not_read("at a load") * outline.depth(press.x0), widest * size)
            zones.append(Zone(press.x0, 0.0, press.x1, 0.0, radius, "under a load"))
    for i in outline.re_entrant:
        x, y = outline.soffit[i]
        zones.append(Zone(float(x), float(y), float(x), float(y), at_corner, "at an inward corner"))
    for void in voids:
        for y in (void.top, void.top + void.height):
            zones.append(Zone(void.depth, y, void.depth, y, at_corner, "at a corner of the pocket"))
    return tuple(zones)


def _not_read(where: str) -> float:
    return judgment(f"zone not read {where}").value
