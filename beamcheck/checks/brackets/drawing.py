"""From a bracket of the job file to the plain numbers of its elevation."""

from __future__ import annotations

from itertools import starmap
from typing import Any

from ...analysis.beams.load_cases import KIND_WORDS
from ...model.brackets.bracket import Bracket, Row
from ...units import show, show_inches
from ..core.pictures.beams import Dimension, Points, Span
from ..core.pictures.others import BeamAbove, Elevation, FastenerMark, Outline
from .family import Family, Parts, box
from .loads import BracketLoads

FLUSH = 0.125  # in: a head that stands so much behind the front needs no bore
NOT_GIVEN = 0.5  # in: width at which a bore is drawn that is not given
BORE, DEEPER = "bore", "bore deeper than given"  # names of voids
LIFTS = ", upwards"  # at the end of the text of a load that lifts


def elevation_of(family: Family[Any], loads: BracketLoads) -> Elevation:
    """The bracket to scale, with its grain, fasteners, loads, the beam above and its main sizes."""
    bracket, view = family.bracket, family.side_view()
    height = family.back if view.height is None else view.height
    reach = bracket.shape.stands_out if view.reach is None else view.reach
    dimensions = [*view.dimensions, ("x", 0.0, reach, "projection"), ("y", 0.0, height, "height")]
    rows = bracket.fixings.rows if bracket.fixings is not None else ()
    return Elevation(
        bracket.name,
        tuple(Outline(name, points) for name, points, _ in view.parts),
        tuple(grain for _, _, grain in view.parts),
        height,
        reach,
        tuple(starmap(Outline, (*view.voids, *_bores(bracket, view.parts)))),
        tuple(FastenerMark(row.below_top, _into(family), _row(bracket, i, row)) for i, row in enumerate(rows, start=1)),
        tuple(starmap(Span, _loads(loads))),
        BeamAbove(bracket.near.gap, bracket.near.beam) if bracket.near is not None else None,
        bracket.on,
        tuple(starmap(Dimension, dimensions)),
        thickness=bracket.shape.side_to_side,
        front=_front_of(bracket),
    )


def _front_of(bracket: Bracket) -> Points:
    """Every fastener as it is seen from the front: x from the left side, y down from the top."""
    if bracket.fixings is None:
        return ()
    wide = bracket.shape.side_to_side
    return tuple((place, row.below_top) for row in bracket.fixings.rows for place in row.places(wide))


def _row(bracket: Bracket, number: int, row: Row) -> str:
    """A row of fasteners in words."""
    fastener = bracket.fixings.fastener if bracket.fixings is not None else None
    what = "fasteners" if fastener is None else f"{fastener.size} {fastener.kind}"
    if fastener is not None and fastener.length is not None:
        what += f", {show(fastener.length, 'length')} long"
    slot = f", slots {show(row.slot, 'length')} long" if row.slot is not None else ""
    return f"row {number}, {show_inches(row.below_top)} down: {row.count} × {what}{slot}"


def _into(family: Family[Any]) -> float:
    """How far the fasteners reach behind the bracket's back, in; 0 where it is not known."""
    fixings = family.bracket.fixings
    if fixings is None or fixings.fastener is None or fixings.fastener.length is None:
        return 0.0
    bar = 0.0 if family.bracket.shape.of_wood else family.depth_at_back
    return max(fixings.fastener.length - (fixings.through if fixings.through is not None else bar), 0.0)


def _bores(bracket: Bracket, parts: Parts) -> list[tuple[str, Points]]:
    """The bores that the heads need to sit where they are said to, from there to the front."""
    fixings = bracket.fixings
    if fixings is None or fixings.fastener is None or fixings.through is None:
        return []
    fastener, found = fixings.fastener, []
    half = 0.5 * (fastener.counterbore if fastener.counterbore is not None else NOT_GIVEN)
    for row in fixings.rows:
        front = max((front_at(points, row.below_top) for _, points, _ in parts), default=0.0)
        if front <= fixings.through + FLUSH:
            continue
        name = BORE if front <= fixings.through + (fastener.counterbore_depth or 0.0) + FLUSH else DEEPER
        found.append((name, box(fixings.through, row.below_top - half, front, row.below_top + half)))
    return found


def front_at(points: Points, y: float) -> float:
    """Where the first stretch of wood at that height ends, if it begins at the wall; else 0."""
    hits = sorted(
        x0 + (y - y0) / (y1 - y0) * (x1 - x0)
        for (x0, y0), (x1, y1) in zip(points, (*points[1:], points[0]), strict=True)
        if (y0 <= y) != (y1 <= y)
    )
    return hits[1] if len(hits) > 1 and hits[0] < 1e-6 else 0.0


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
