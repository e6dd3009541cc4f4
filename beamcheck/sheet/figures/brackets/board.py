"""What the drawings of brackets share: hatching inside outlines, cells joined to areas, lines of text below."""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from itertools import pairwise
from textwrap import wrap

from ..svg import Board, Point, clipped, fixed, letters_in, tied

WIDTH, MARGIN = 440.0, 6.0
LINE = 16.0  # from one line of lettering to the next
MOST_STROKES = 400  # of one hatching
_LINES = 4  # of a note
Line = tuple[Point, Point]
Ring = Sequence[Point]


def hatching(rings: Sequence[Ring], angle: float, apart: float) -> list[Line]:
    """Parallel lines inside an odd number of the rings.

    `rings`: closed outlines in drawing units, y down. `angle`: deg above level, towards the right. `apart`: from line
    to line, drawing units; wider where there would be too many.
    """
    c, s = math.cos(math.radians(angle)), math.sin(math.radians(angle))
    # turned: u along the lines, v across them
    turned = [[(x * c - y * s, x * s + y * c) for x, y in ring] for ring in rings if len(ring) > 2]
    across = [v for ring in turned for _, v in ring]
    if not across:
        return []
    apart = max(apart, (max(across) - min(across)) / MOST_STROKES)
    made = []
    for i in range(math.ceil(min(across) / apart), math.floor(max(across) / apart) + 1):
        v = apart * (i + 1e-6)  # never through a corner
        for start, end in inside(turned, v):
            made.append(((start * c + v * s, v * c - start * s), (end * c + v * s, v * c - end * s)))
    return made


def inside(rings: Sequence[Ring], y: float) -> list[tuple[float, float]]:
    """Stretches of the level line at y that lie inside an odd number of the rings."""
    hits = sorted(
        x0 + (y - y0) / (y1 - y0) * (x1 - x0)
        for ring in rings
        for (x0, y0), (x1, y1) in zip(ring, [*ring[1:], ring[0]], strict=True)
        if (y0 <= y) != (y1 <= y)
    )
    return list(zip(hits[::2], hits[1::2], strict=True))


def edges_of(cells: Iterable[Ring]) -> list[Line]:
    """The sides that only one of the cells has; all cells run the same way round."""
    found: dict[tuple[str, str, str, str], Line] = {}
    for cell in cells:
        for (x0, y0), (x1, y1) in pairwise([*cell, cell[0]]):
            here, there = (fixed(x0), fixed(y0)), (fixed(x1), fixed(y1))
            if here == there:
                continue
            if (*there, *here) in found:
                del found[*there, *here]
            else:
                found[*here, *there] = (x0, y0), (x1, y1)
    return list(found.values())


def joined(cells: Iterable[Ring]) -> list[list[Point]]:
    """The outlines of areas made of cells, without the lines between the cells."""
    following: dict[tuple[str, str], list[Line]] = {}
    for line in edges_of(cells):
        following.setdefault(_key(line[0]), []).append(line)
    rings = []
    while following:
        ring: list[Point] = []
        at = next(iter(following))
        while at in following:
            start, end = following[at].pop()
            if not following[at]:
                del following[at]
            ring.append(start)
            at = _key(end)
        rings.append(_straightened(ring))
    return [ring for ring in rings if len(ring) > 2]


def same_way(cell: Ring) -> Ring:
    """The cell, turned round if it runs the other way."""
    twice = sum(x0 * y1 - x1 * y0 for (x0, y0), (x1, y1) in pairwise([*cell, cell[0]]))
    return cell if twice >= 0.0 else cell[::-1]


def _key(point: Point) -> tuple[str, str]:
    return fixed(point[0]), fixed(point[1])


def _straightened(ring: list[Point]) -> list[Point]:
    """Without the corners at which it does not turn."""
    kept = []
    for before, here, after in zip([ring[-1], *ring[:-1]], ring, [*ring[1:], ring[0]], strict=True):
        cross = (here[0] - before[0]) * (after[1] - here[1]) - (here[1] - before[1]) * (after[0] - here[0])
        if abs(cross) > 0.02 * math.dist(before, after):
            kept.append(here)
    return kept


def told(board: Board, text: str, top: float) -> float:
    """A note in lines below a drawing; returns where the next one begins."""
    lines = wrap(tied(text), letters_in(board.width - 2 * MARGIN), subsequent_indent="  ")
    shown = [*lines[: _LINES - 1], f"{lines[_LINES - 1]}…"] if len(lines) > _LINES else lines
    for line in shown:
        top += LINE
        indent = 12.0 if line.startswith(" ") else 0.0
        board.lettering(MARGIN + indent, top, clipped(line, board.width - 2 * MARGIN - indent), tip=text)
    return top


def apart_from(places: Sequence[float], least: float) -> list[float]:
    """Places in rising order, moved as little as is needed downwards to keep them apart."""
    found: list[float] = []
    for place in places:
        found.append(max(place, found[-1] + least) if found else place)
    return found
