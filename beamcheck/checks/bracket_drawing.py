"""From a bracket of the job file to the plain numbers of its elevation."""

from __future__ import annotations

import math

import numpy as np

from ..analysis.outline import outline_of
from ..model.brackets import Bent, Braced, Bracket, Corbel, Solid, SteelCore
from ..units import show
from .bracket_loads import BracketLoads
from .pictures import Elevation, Points

ARC = 40  # chords of a drawn arc
Parts = list[tuple[str, Points, float | None]]


def elevation_of(bracket: Bracket, loads: BracketLoads) -> Elevation:
    """The bracket to scale, with its grain, fasteners, loads, the beam above and its main sizes."""
    shape = bracket.shape
    voids: list[tuple[str, Points]] = []
    dimensions: list[tuple[str, float, float, str]] = []
    if isinstance(shape, Solid):
        parts: Parts = [("", _points(outline_of(shape).closed()), shape.grain)]
        height, projection = shape.height, shape.projection
        dimensions += [("x", 0.0, shape.foot, "foot"), ("y", 0.0, shape.nose, "nose")]
        if shape.pocket is not None:
            p = shape.pocket
            voids.append(("pocket", _box(0.0, p.top, p.depth, p.top + p.height)))
    elif isinstance(shape, Braced):
        parts, height, projection = _braced(shape), shape.height, shape.projection
        dimensions += [("x", 0.0, shape.brace_out, "brace"), ("y", 0.0, shape.brace_down, "brace")]
    elif isinstance(shape, Bent):
        parts, height, projection = _bent(shape)
    elif isinstance(shape, SteelCore):
        parts, height, projection = _steel(shape), shape.down, shape.projection
    else:
        parts, height, projection = _corbel(shape)
    dimensions += [("x", 0.0, projection, "projection"), ("y", 0.0, height, "height")]
    rows = bracket.fixings.rows if bracket.fixings is not None else ()
    fastener = bracket.fixings.fastener if bracket.fixings is not None else None
    into = (fastener.length or 0.0) if fastener is not None else 0.0
    return Elevation(
        bracket.name,
        tuple((name, points) for name, points, _ in parts),
        tuple(grain for _, _, grain in parts),
        height,
        projection,
        tuple(voids),
        tuple((row.below_top, into, f"row {i}, {row.count} x") for i, row in enumerate(rows, start=1)),
        _loads(loads),
        (bracket.near.gap, bracket.near.beam) if bracket.near is not None else None,
        bracket.on,
        tuple(dimensions),  # type: ignore[arg-type]
    )


def _points(array: np.ndarray) -> Points:
    return tuple((float(x), float(y)) for x, y in array)


def _box(x0: float, y0: float, x1: float, y1: float) -> Points:
    return ((x0, y0), (x1, y0), (x1, y1), (x0, y1))


def _braced(shape: Braced) -> Parts:
    """Legs and brace; the brace is drawn between the faces it meets, bowed by its sagitta away from the corner."""
    legs: Parts = [
        ("wall leg", _box(0.0, 0.0, shape.wall_leg, shape.height), 90.0),
        ("top leg", _box(shape.wall_leg, 0.0, shape.projection, shape.top_leg), 0.0),
    ]
    start, end = np.array([shape.wall_leg, shape.brace_down]), np.array([shape.brace_out, shape.top_leg])
    along = end - start
    length = float(np.hypot(*along))
    normal = np.array([-along[1], along[0]]) / length  # towards the lower right, away from the corner
    u = np.linspace(0.0, 1.0, ARC + 1)
    bow = 4.0 * shape.sagitta * u * (1.0 - u)
    axis = start + u[:, None] * along + bow[:, None] * normal
    low, high = axis + 0.5 * shape.brace * normal, axis - 0.5 * shape.brace * normal
    grain = math.degrees(math.atan2(-along[1], along[0])) % 180.0
    return [*legs, ("brace", _points(np.vstack([low, high[::-1]])), grain)]


def _bent(shape: Bent) -> tuple[Parts, float, float]:
    """The arc from the wall, where it is upright, out to its nose; its hollow side faces the wall's corner below."""
    r_i, r_o = shape.inner_radius, shape.inner_radius + shape.depth
    theta = np.radians(np.linspace(0.0, shape.sweep, ARC + 1))
    centre = np.array([r_o, r_o])
    outer = centre - np.stack([r_o * np.cos(theta), r_o * np.sin(theta)], axis=-1)
    inner = centre - np.stack([r_i * np.cos(theta), r_i * np.sin(theta)], axis=-1)
    outline = np.vstack([outer, inner[::-1]])
    return [("arc", _points(outline), None)], float(outline[:, 1].max()), float(outline[:, 0].max())


def _steel(shape: SteelCore) -> Parts:
    t = shape.thickness
    parts: Parts = [
        ("bar", _box(0.0, 0.0, t, shape.down), None),
        ("bar", _box(t, 0.0, shape.projection, t), None),
    ]
    if shape.gusset_depth is not None:
        h = shape.gusset_depth
        parts.append(("gusset", ((t, t), (min(h, shape.projection), t), (t, min(h, shape.down))), None))
    return parts


def _corbel(shape: Corbel) -> tuple[Parts, float, float]:
    block = _box(-shape.seat, 0.0, shape.projection, shape.height) if shape.seat else _box(
        0.0, 0.0, shape.projection, shape.height
    )  # fmt: skip
    return [("block", block, shape.grain)], shape.height, shape.projection


def _loads(loads: BracketLoads) -> tuple[tuple[float, float, str], ...]:
    return tuple(
        (load.start, load.end, f"{load.what or 'load'}: {load.kind} {show(load.total, 'force')}")
        for load in loads.loads if not load.own
    )  # fmt: skip
