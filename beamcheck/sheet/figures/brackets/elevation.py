"""The drawing of a bracket from its side, to scale: grain, fasteners, pocket, loads, the beam above, sizes."""

from __future__ import annotations

import math
from textwrap import wrap
from typing import Any

from ....checks.brackets.drawing import DEEPER, LIFTS
from ....checks.core.pictures.beams import Points
from ....checks.core.pictures.others import Elevation
from ....records import dataclass
from ....units import show, show_inches
from ..svg import GRAY, INK, PAPER, Board, Point, clipped, letters_in, text_width
from .board import LINE, MARGIN, WIDTH, apart_from, hatching, inside, told

FRONT = 24.0  # drawing units between what is lettered beside the side view and the view from the front
LEFT, RIGHT = 100.0, 96.0  # for the sizes on both sides
HIGHEST, LARGEST = 270.0, 26.0  # drawing units: height of the bracket, and of an inch
ARROW, SHORT, BEAM = 48.0, 22.0, 40.0  # lengths of a point load's and a line load's arrow, height of the beam as drawn
WOOD, STEEL_FILL = "#f1f1f1", "#c4c4c4"
STEEL = ("bar", "gusset")  # parts that are of steel
ARC = "arc"  # part whose grain follows its curve
GRAIN_APART, STEEL_APART, WALL_APART = 6.0, 4.0, 9.0
LEAST_WALL, DEEP_WALL, MOST_WALL = 1.5, 4.0, 0.7  # in, in, over the projection: what is drawn of the wall
LEAST_GAP, MOST_GAP = 4.0, 60.0  # drawing units
DASH, AXIS = "4 3", "9 3 2 3"
_ROWS = 4


@dataclass(frozen=True)
class _Frame:
    """Where it stands: inches to drawing units; `wall` is where what is drawn of the wall begins."""

    scale: float
    face: float
    top: float
    wall: float
    foot: float  # of the bracket
    nose: float  # farthest out

    def at(self, x: float, y: float) -> Point:
        return self.face + self.scale * x, self.top + self.scale * y

    def ring(self, points: Points) -> list[Point]:
        return [self.at(x, y) for x, y in points]


def bracket_figure(drawn: Elevation, name: str, system: Any = "US", key: str = "bracket") -> str:
    """The drawing as an `<svg>` element.

    Parameters
    ----------
    drawn : Elevation
        Inches, x out from the wall face, y down from the top.
    name : str
        Of the piece; any text.
    system : 'US' or 'SI'
        Units of the labels.
    key : str
        Unique in the page; the alternative text is tied to the drawing by it.
    """
    board = Board(WIDTH, key, f"{name}: seen from its side", describe(drawn, system))
    frame = _frame(drawn)
    _wall(board, drawn, frame)
    if drawn.beam is not None:
        _beam(board, drawn, frame, system)
    for (part, points), grain in zip(drawn.parts, drawn.grain, strict=True):
        _part(board, part, frame.ring(points), grain)
    for _, points in drawn.voids:
        ring = frame.ring(points)
        board.area([ring])
        board.shape(ring, fill="none", width=1.0, dash=DASH)
    for x0, y0, x1, y1, text in drawn.sections:
        board.line(frame.at(x0, y0), frame.at(x1, y1), width=1.4, dash=AXIS)
        board.lettering(*frame.at(x1, y1), text)
    for y, into, _ in drawn.anchors:
        _fastener(board, drawn, frame, y, into)
    _loads(board, drawn, frame)
    _heights(board, drawn, frame, system)
    _from_the_front(board, drawn, frame, system)
    top = _widths(board, drawn, frame, system)
    for text in _notes(drawn, system):
        top = told(board, text, top)
    return board.done(top + 8.0)


def describe(drawn: Elevation, system: Any = "US") -> str:
    """The drawing in words, for readers who do not see it."""

    def inches(value: float) -> str:
        return show_inches(value, system)

    said = [f"Bracket {inches(drawn.height)} high that stands out {inches(drawn.projection)} from {drawn.wall}."]
    for (part, _), grain in zip(drawn.parts, drawn.grain, strict=True):
        what = part.capitalize() or "Wood"
        if part in STEEL:
            said.append(f"{what}: steel.")
        elif part == ARC and grain is None:
            said.append(f"{what}: the grain follows its curve.")
        else:
            said.append(f"{what}: grain {_grain(grain, system)}.")
    said += [f"{what.capitalize()} {inches(end - start)}." for _, start, end, what in drawn.dimensions[:-2]]
    return " ".join([*said, *_notes(drawn, system)[1:]])


def _grain(grain: float | None, system: Any) -> str:
    if grain is None:
        return "not known"
    return {0.0: "level", 90.0: "upright"}.get(grain) or f"{show(grain, 'angle', system)} above level, towards the nose"


def _void(what: str, points: Points, system: Any) -> str:
    xs, ys = [x for x, _ in points], [y for _, y in points]
    wide, high = show_inches(max(xs) - min(xs), system), show_inches(max(ys) - min(ys), system)
    return f"{what.capitalize()} {high} high and {wide} deep, {show(min(ys), 'length', system)} below the top"


def _frame(drawn: Elevation) -> _Frame:
    points = [point for _, part in drawn.parts for point in part] or [(0.0, 0.0)]
    reach = max(drawn.projection, *(x for x, _ in points), 1e-6)
    deep = max(drawn.height, *(y for _, y in points), 1e-6)
    wall = max(LEAST_WALL, *(into + 0.5 for _, into, _ in drawn.anchors), *(0.5 - x for x, _ in points))
    wall = min(wall, max(MOST_WALL * reach, DEEP_WALL))
    front = drawn.thickness or 0.0
    room = WIDTH - 2 * MARGIN - LEFT - RIGHT - (FRONT if front else 0.0)
    scale = min(room / (reach + wall + front), HIGHEST / deep, LARGEST)
    room -= scale * front
    spare = 0.5 * (room - scale * (reach + wall))
    start = MARGIN + LEFT + spare
    above = 26.0
    if drawn.beam is not None:
        above += BEAM + _gap(drawn.beam[0], scale)
    elif drawn.loads:
        above += ARROW + 20.0
    face = start + scale * wall
    return _Frame(scale, face, above, start, above + scale * deep, face + scale * reach)


def _gap(gap: float | None, scale: float) -> float:
    """How wide the gap is drawn."""
    if gap is None:
        return 2 * LEAST_GAP
    return min(max(gap * scale, LEAST_GAP), MOST_GAP) if gap > 0.0 else 0.0


def _wall(board: Board, drawn: Elevation, frame: _Frame) -> None:
    """What is behind it, broken off above, below and behind."""
    low = 22.0 if drawn.beam is None else frame.top - _gap(drawn.beam[0], frame.scale)
    corners = [(frame.wall, low), (frame.face, low), (frame.face, frame.foot + 18), (frame.wall, frame.foot + 18)]
    rising = any(grain is not None and 0.0 < grain < 90.0 for grain in drawn.grain)
    board.strokes(hatching([corners], 135.0 if rising else 45.0, WALL_APART), stroke=GRAY)  # not as the grain runs
    board.line((frame.face, low), (frame.face, frame.foot + 18), width=2.2)
    board.lettering(MARGIN, 14, clipped(drawn.wall, WIDTH - 2 * MARGIN), tip=drawn.wall)


def _beam(board: Board, drawn: Elevation, frame: _Frame, system: Any) -> None:
    """The beam over the bracket; neither its depth nor its ends are to scale."""
    assert drawn.beam is not None
    gap, name = drawn.beam
    foot = frame.top - _gap(gap, frame.scale)
    x0, x1, top = frame.wall, frame.nose + 22, foot - BEAM
    ring = [(x0, top), (x1, top), (x1 - 5, top + 15), (x1 + 5, top + 25), (x1, foot), (x0, foot)]
    board.area([ring], fill=WOOD)
    board.strokes(hatching([ring], 0.0, GRAIN_APART), stroke="#999")
    board.line((x0, top), (x1, top), width=1.0, dash=DASH)
    board.line((x0, foot), (x1, foot), width=1.8)
    board.line(*ring[1:5], width=0.8)
    board.lettering(0.5 * (frame.face + x1), foot - 14, clipped(name, x1 - x0), anchor="middle", bold=True, tip=name)
    second = "not known" if gap is None else show_inches(gap, system)
    y = 0.5 * (foot + frame.top)
    for line, text in enumerate(("gap", second) if gap is None or gap > 0.0 else ("no gap",)):
        board.lettering(x1 + 10, top + 12 + LINE * line, text, bold=True)
    board.line((x1 + 14, foot - 7), (x1 + 14, y), (frame.nose - 8, y), width=1.0)
    board.disc(frame.nose - 8, y, 2.2)


def _part(board: Board, name: str, ring: list[Point], grain: float | None) -> None:
    board.area([ring], fill=STEEL_FILL if name in STEEL else WOOD)
    if name in STEEL:
        board.strokes(hatching([ring], 45.0, STEEL_APART))
    elif grain is not None:
        board.strokes(hatching([ring], grain, GRAIN_APART), stroke=GRAY)
    elif name == ARC:
        half = len(ring) // 2
        pairs = list(zip(ring[:half], ring[: half - 1 : -1], strict=False))
        count = max(int(math.dist(*pairs[0]) / GRAIN_APART), 2)
        for i in range(1, count):
            u = i / count
            points = [(a + u * (c - a), b + u * (d - b)) for (a, b), (c, d) in pairs]
            board.line(*points, width=0.6, stroke=GRAY)
    board.shape(ring, fill="none", width=2.0)


def _fastener(board: Board, drawn: Elevation, frame: _Frame, y: float, into: float) -> None:
    """From its head in the wood to its point in the wall; broken where its length is not known or it is longer."""
    solid = _solid(drawn, y)
    head = next((end for _, end in solid if end > 0.02), 0.0)
    at_x, at_y = frame.at(head, y)
    reach = frame.at(-into, y)[0]
    point = reach if into > 0.0 else frame.wall
    if point < frame.wall or into <= 0.0:  # longer than what is drawn of the wall
        board.line((frame.face, at_y), (frame.wall, at_y), width=1.6, dash=DASH)
        point = frame.face
    board.line((at_x + 1, at_y), (point, at_y), width=5.0, stroke=PAPER)
    board.line((at_x, at_y), (point, at_y), width=2.6)
    board.line((at_x, at_y - 5), (at_x, at_y + 5), width=3.2)


def _solid(drawn: Elevation, y: float) -> list[tuple[float, float]]:
    """Where there is wood or steel at that height, from the wall outwards."""
    voids = [stretch for _, points in drawn.voids for stretch in inside([points], y)]
    merged: list[list[float]] = []
    for start, end in sorted(stretch for _, points in drawn.parts for stretch in inside([points], y)):
        if merged and start <= merged[-1][1] + 1e-9:
            merged[-1][1] = max(merged[-1][1], end)
        else:
            merged.append([start, end])
    left = [(start, end) for start, end in merged]
    for low, high in voids:
        parts = [part for start, end in left for part in ((start, min(end, low)), (max(start, high), end))]
        left = [(start, end) for start, end in parts if end > start + 1e-9]
    return left


def _loads(board: Board, drawn: Elevation, frame: _Frame) -> None:
    """Arrows with numbers down to the wood, line loads short under their bar; below a beam they hang from the top."""
    taken: list[Point] = []
    for number, (start, end, text) in enumerate(drawn.loads, start=1):
        wide = frame.scale * (end - start)
        count = 1 if wide < 6.0 else max(2, min(int(wide / 24.0) + 1, 12))
        long = ARROW if count == 1 else SHORT
        foot = frame.top - 1.0 if drawn.beam is None else frame.top + long
        tail = foot - long
        for i in range(count):
            along = start + (end - start) * (i / (count - 1) if count > 1 else 0.5)
            x, head = frame.at(along, 0.0)[0], foot
            if drawn.beam is None:
                met = _upright(drawn, min(max(along, 1e-4), drawn.projection - 1e-4))
                head = frame.at(0.0, met[0][0])[1] - 1.0 if met else foot
            _arrow(board, x, *((head, tail) if text.endswith(LIFTS) else (tail, head)))
        x0, x1 = frame.at(start, 0.0)[0], frame.at(end, 0.0)[0]
        if count > 1:
            board.line((x0, tail), (x1, tail), width=1.6)
        place = x0 - 8 if count > 1 else x0
        y = tail + 5 if count > 1 else tail - 5
        if drawn.beam is not None:  # beside the arrow, inside the wood
            place, y = x0 - 8, tail + 18
        while any(abs(place - a) < 14 and abs(y - b) < 14 for a, b in taken):
            place += 14
        taken.append((place, y))
        board.lettering(place, y, str(number), anchor="middle", bold=True)


def _upright(drawn: Elevation, x: float) -> list[tuple[float, float]]:
    """Where there is wood or steel straight below x, from the top down."""
    return sorted(each for _, points in drawn.parts for each in inside([[(y, at) for at, y in points]], x))


def _arrow(board: Board, x: float, tail: float, head: float) -> None:
    way = 1.0 if head > tail else -1.0
    board.line((x, tail), (x, head - 8 * way), width=4.5, stroke=PAPER)
    board.line((x, tail), (x, head - 8 * way), width=1.8)
    board.shape(((x - 4, head - 9 * way), (x + 4, head - 9 * way), (x, head)), fill=INK)


def _from_the_front(board: Board, drawn: Elevation, frame: _Frame, system: Any) -> None:
    """Beside it its front, as wide as it is thick, with every fastener; at the right edge of the drawing."""
    if not drawn.thickness:
        return
    wide = frame.scale * drawn.thickness
    left, middle = WIDTH - MARGIN - 6 - wide, WIDTH - MARGIN - 6 - 0.5 * wide
    steel = all(part in STEEL for part, _ in drawn.parts)
    board.box(left, frame.top, wide, frame.foot - frame.top, fill=STEEL_FILL if steel else WOOD, stroke=1.6)
    for x, y in drawn.front:
        at_x, at_y = left + frame.scale * x, frame.at(0.0, y)[1]
        board.ring(at_x, at_y, 3.2, width=1.4)
        board.line((at_x - 6, at_y), (at_x + 6, at_y), width=0.7)
        board.line((at_x, at_y - 6), (at_x, at_y + 6), width=0.7)
    board.lettering(middle, frame.top - 6, "front", anchor="middle")
    foot = frame.foot + 10
    board.line((left, foot), (left + wide, foot), width=0.8, stroke=GRAY)
    _tick(board, left, foot)
    _tick(board, left + wide, foot)
    text = show_inches(drawn.thickness, system)
    board.lettering(min(middle, WIDTH - MARGIN - 0.5 * text_width(text)), foot + 16, text, anchor="middle")


def _tick(board: Board, x: float, y: float) -> None:
    board.line((x - 3, y + 3), (x + 3, y - 3), width=1.2)


def _heights(board: Board, drawn: Elevation, frame: _Frame, system: Any) -> None:
    """Left of the wall the rows and the height, running from the top; right of the nose what is named."""
    stops = [(0.0, "0"), *((y, show_inches(y, system)) for y, _, _ in drawn.anchors)]
    stops = sorted({*stops, (drawn.height, show_inches(drawn.height, system))})
    x = frame.wall - 10
    ys = [frame.at(0.0, y)[1] for y, _ in stops]
    board.line((x, ys[0]), (x, ys[-1]), width=0.8, stroke=GRAY)
    for (_, text), y, place in zip(stops, ys, apart_from(ys, LINE), strict=True):
        _tick(board, x, y)
        board.lettering(x - 7, place + 5, clipped(text, x - 9), anchor="end")
    named = [(start, end, what) for axis, start, end, what in drawn.dimensions if axis == "y" and what != "height"]
    x = frame.nose + 14
    for start, end, what in named:
        y0, y1 = frame.at(0.0, start)[1], frame.at(0.0, end)[1]
        board.line((x, y0), (x, y1), width=0.8, stroke=GRAY)
        _tick(board, x, y0)
        _tick(board, x, y1)
        y = max(0.5 * (y0 + y1) + 5, frame.top + 14)
        for text in (*wrap(what, max(letters_in(WIDTH - x - 10), 5)), show_inches(end - start, system)):
            board.lettering(x + 8, y, text)
            y += LINE


def _widths(board: Board, drawn: Elevation, frame: _Frame, system: Any) -> float:
    """Running sizes from the wall face, below."""
    foot = frame.foot + 26
    stops = [
        (end, f"{what} {show_inches(end, system)}") for axis, _, end, what in drawn.dimensions if axis == "x"
    ]  # fmt: skip
    board.line((frame.face, foot), (frame.at(max((x for x, _ in stops), default=0.0), 0.0)[0], foot), width=0.8,
               stroke=GRAY)  # fmt: skip
    _tick(board, frame.face, foot)
    rows: list[list[tuple[float, float]]] = []
    for x, text in stops:
        at_x = frame.at(x, 0.0)[0]
        low = max((end for _, end in _upright(drawn, x - 1e-4)), default=drawn.height)
        board.line((at_x, frame.at(0.0, low)[1] + 4), (at_x, foot + 3), width=0.5, stroke=GRAY)
        _tick(board, at_x, foot)
        half = 0.5 * text_width(text) + 3
        middle = min(max(at_x, half + 2), WIDTH - 2 - half)
        free = (i for i, taken in enumerate(rows) if all(middle + half < a or middle - half > b for a, b in taken))
        row = next(free, len(rows))
        if row >= _ROWS:
            continue
        rows[row : row + 1] = [[*(rows[row] if row < len(rows) else []), (middle - half, middle + half)]]
        board.lettering(middle, foot + LINE + 1 + LINE * row, text, anchor="middle")
    return foot + LINE * max(len(rows), 1) + 8


def _notes(drawn: Elevation, system: Any) -> list[str]:
    """What the drawing cannot say by itself; the first is about the grain."""
    notes = [_about_grain(drawn, system)]
    notes += [f"Load {number}: {text}." for number, (_, _, text) in enumerate(drawn.loads, start=1)]
    notes += [f"{text[:1].upper()}{text[1:]}." for _, _, text in drawn.anchors]
    if pockets := [_void(what, points, system) for what, points in drawn.voids if what == "pocket"]:
        notes.append(f"Broken outline at the wall: {'; '.join(pockets).lower()}.")
    if any(what == DEEPER for what, _ in drawn.voids):
        notes.append("To sit where they are said to sit, heads need deeper bores than are given.")
    if drawn.beam is not None and drawn.beam[0] is None:
        notes.append("The gap is not known: the one drawn is a guess.")
    return notes


def _about_grain(drawn: Elevation, system: Any) -> str:
    wood = [(part, grain) for (part, _), grain in zip(drawn.parts, drawn.grain, strict=True) if part not in STEEL]
    if not wood:
        return "Steel only: the wood around it carries nothing and is not drawn."
    if any(grain is None and part != ARC for part, grain in wood):
        return "No grain is drawn, because its direction is not known."
    if len(wood) == 1 and wood[0][1] is not None:
        return f"The fine lines run with the grain: {_grain(wood[0][1], system)}."
    return "The fine lines run with the grain."
