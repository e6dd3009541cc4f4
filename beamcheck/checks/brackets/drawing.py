"""From a bracket of the job file to the plain numbers of its elevation."""

from __future__ import annotations

import math
from itertools import starmap

import numpy as np

from ...analysis.beams.load_cases import KIND_WORDS
from ...analysis.fields.outline import outline_of
from ...model.brackets import Bent, Braced, Bracket, Corbel, Row, Solid, SteelCore
from ...units import show
from ..core.pictures import BeamAbove, Dimension, Elevation, FastenerMark, Outline, Points, Span
from .loads import BracketLoads

ARC = 40  # chords of a drawn arc
FLUSH = 0.125  # in: a head that stands so much behind the front needs no bore
NOT_GIVEN = 0.5  # in: width at which a bore is drawn that is not given
BORE, DEEPER = "bore", "bore deeper than given"  # names of voids
LIFTS = ", upwards"  # at the end of the text of a load that lifts
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
        dimensions += [("x", 0.0, shape.brace_out, "brace axis"), ("y", 0.0, shape.brace_down, "brace axis")]
    elif isinstance(shape, Bent):
        parts, height, projection = _bent(shape)
    elif isinstance(shape, SteelCore):
        parts, height, projection = _steel(shape), shape.down, shape.projection
    else:
        parts, height, projection = _corbel(shape)
    dimensions += [("x", 0.0, projection, "projection"), ("y", 0.0, height, "height")]
    rows = bracket.fixings.rows if bracket.fixings is not None else ()
    voids += _bores(bracket, parts)
    return Elevation(
        bracket.name,
        tuple(Outline(name, points) for name, points, _ in parts),
        tuple(grain for _, _, grain in parts),
        height,
        projection,
        tuple(starmap(Outline, voids)),
        tuple(
            FastenerMark(row.below_top, _into(bracket), _row(bracket, i, row)) for i, row in enumerate(rows, start=1)
        ),
        tuple(starmap(Span, _loads(loads))),
        BeamAbove(bracket.near.gap, bracket.near.beam) if bracket.near is not None else None,
        bracket.on,
        tuple(starmap(Dimension, dimensions)),
    )


def _points(array: np.ndarray) -> Points:
    return tuple((float(x), float(y)) for x, y in array)


def _box(x0: float, y0: float, x1: float, y1: float) -> Points:
    return ((x0, y0), (x1, y0), (x1, y1), (x0, y1))


def _row(bracket: Bracket, number: int, row: Row) -> str:
    """A row of fasteners in words."""
    fastener = bracket.fixings.fastener if bracket.fixings is not None else None
    what = "fasteners" if fastener is None else f"{fastener.size} {fastener.kind}"
    if fastener is not None and fastener.length is not None:
        what += f", {show(fastener.length, 'length')} long"
    slot = f", slots {show(row.slot, 'length')} long" if row.slot is not None else ""
    return f"row {number}, {show(row.below_top, 'length')} down: {row.count} × {what}{slot}"


def _into(bracket: Bracket) -> float:
    """How far the fasteners reach behind the bracket's back, in; 0 where it is not known."""
    fixings, shape = bracket.fixings, bracket.shape
    if fixings is None or fixings.fastener is None or fixings.fastener.length is None:
        return 0.0
    bar = shape.thickness if isinstance(shape, SteelCore) else 0.0
    return max(fixings.fastener.length - (fixings.through if fixings.through is not None else bar), 0.0)


def _bores(bracket: Bracket, parts: Parts) -> list[tuple[str, Points]]:
    """The bores that the heads need to sit where they are said to, from there to the front."""
    fixings = bracket.fixings
    if fixings is None or fixings.fastener is None or fixings.through is None:
        return []
    fastener, found = fixings.fastener, []
    half = 0.5 * (fastener.counterbore if fastener.counterbore is not None else NOT_GIVEN)
    for row in fixings.rows:
        front = max((_front(points, row.below_top) for _, points, _ in parts), default=0.0)
        if front <= fixings.through + FLUSH:
            continue
        name = BORE if front <= fixings.through + (fastener.counterbore_depth or 0.0) + FLUSH else DEEPER
        found.append((name, _box(fixings.through, row.below_top - half, front, row.below_top + half)))
    return found


def _front(points: Points, y: float) -> float:
    """Where the first stretch of wood at that height ends, if it begins at the wall; else 0."""
    hits = sorted(
        x0 + (y - y0) / (y1 - y0) * (x1 - x0)
        for (x0, y0), (x1, y1) in zip(points, (*points[1:], points[0]), strict=True)
        if (y0 <= y) != (y1 <= y)
    )
    return hits[1] if len(hits) > 1 and hits[0] < 1e-6 else 0.0


def _braced(shape: Braced) -> Parts:
    """Legs and brace; the brace is cut to the faces it meets, bowed by its sagitta towards the corner."""
    legs: Parts = [
        ("wall leg", _box(0.0, 0.0, shape.wall_leg, shape.height), 90.0),
        ("top leg", _box(shape.wall_leg, 0.0, shape.projection, shape.top_leg), 0.0),
    ]
    start, end = np.array([shape.wall_leg, shape.brace_down]), np.array([shape.brace_out, shape.top_leg])
    along = end - start
    length = float(np.hypot(*along))
    normal = np.array([-along[1], along[0]]) / length  # towards the lower right, away from the corner
    u = np.linspace(0.0, 1.0, ARC + 1 if shape.sagitta else 2)
    rise = -4.0 * shape.sagitta * u * (1.0 - u)
    slope = along + (-4.0 * shape.sagitta * (1.0 - 2.0 * u))[:, None] * normal
    aside = np.stack([-slope[:, 1], slope[:, 0]], axis=-1) / np.hypot(slope[:, 0], slope[:, 1])[:, None]
    axis = start + u[:, None] * along + rise[:, None] * normal
    low, high = (_cut(axis + side * shape.brace * aside, shape) for side in (0.5, -0.5))
    grain = math.degrees(math.atan2(-along[1], along[0])) % 180.0
    return [*legs, ("brace", _points(np.vstack([low, high[::-1]])), grain)]


def _cut(edge: np.ndarray, shape: Braced) -> np.ndarray:
    """An edge of the brace, from the face of the wall leg to the underside of the top leg."""
    first, last = edge[1] - edge[0], edge[-1] - edge[-2]
    foot = edge[0] + (shape.wall_leg - edge[0, 0]) / first[0] * first if first[0] > 1e-9 else edge[0]
    head = edge[-1] + (shape.top_leg - edge[-1, 1]) / last[1] * last if last[1] < -1e-9 else edge[-1]
    inner = edge[1:-1]
    between = (inner[:, 0] > shape.wall_leg + 1e-9) & (inner[:, 1] > shape.top_leg + 1e-9)
    return np.vstack([foot, inner[between], head])


def _bent(shape: Bent) -> tuple[Parts, float, float]:
    """The arc from its foot, upright on the wall, up and out to its nose; its hollow side faces out and down."""
    r_i, r_o = shape.inner_radius, shape.inner_radius + shape.depth
    theta = np.radians(np.linspace(0.0, shape.sweep, ARC + 1))
    turn = np.stack([np.cos(theta), np.sin(theta)], axis=-1)
    outline = np.array([r_o, r_o]) - np.vstack([r_o * turn, (r_i * turn)[::-1]])
    outline[:, 1] -= outline[:, 1].min()
    grain = None
    if shape.made == "sawn":  # straight grain, at best along the line between its ends
        chord = 0.5 * (outline[ARC] + outline[ARC + 1]) - 0.5 * (outline[0] + outline[-1])
        grain = math.degrees(math.atan2(-chord[1], chord[0])) % 180.0
    return [("arc", _points(outline), grain)], float(outline[:, 1].max()), float(outline[:, 0].max())


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
    """What acts at one place from one cause is one load."""
    found: dict[tuple[float, float, str, bool], list[str]] = {}
    for load in loads.loads:
        if not load.own:
            words = f"{KIND_WORDS.get(load.kind, load.kind)} {show(abs(load.total), 'force')}"
            found.setdefault((load.start, load.end, load.what or "load", load.total < 0.0), []).append(words)
    return tuple(
        (start, end, f"{what}: {', '.join(words)}{LIFTS if up else ''}")
        for (start, end, what, up), words in found.items()
    )
