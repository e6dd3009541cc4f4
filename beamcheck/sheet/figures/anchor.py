"""The drawing of an anchor group: the held end from its side and in end view, to one scale, with running dimensions."""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from textwrap import wrap
from typing import Any

from ...checks.core.pictures.others import HoleDrawing
from ...records import dataclass
from ...units import show
from .fasteners import draw_fastener, draw_rod_end, head_height, nut_height, reach
from .svg import GRAY, INK, PAPER, TEXT, Board, clipped, letters_in, text_width, tied

WIDTH, MARGIN = 440.0, 6.0
ROOM = WIDTH - 12.0  # of a line of words below
DIMENSIONS, BETWEEN = 88.0, 34.0  # width of the lettering beside the elevation; room between the two views
HIGHEST, LARGEST = 250.0, 24.0  # drawing units: height of the piece, and of an inch
WOOD, STEEL = "#f1f1f1", "#c4c4c4"
PLATE_DASH, SLOT_DASH, AXIS_DASH = "10 3", "4 3", "9 3 2 3"
LINE = 15.0
GRAIN, GRAIN_APART = "#cfcfcf", 26.0  # of the lines of the grain
ARROW_IN, ARROW_LONG, MOST_FORCES = 10.0, 26.0, 2
VERBS = {"down": "presses down", "up": "lifts", "out of the joint": "pulls out", "into the joint": "presses in"}
_RUNG = 16.0  # from one row of lettering to the next
_NOTE_LINES = 3
_ROWS = 4  # of dimensions under the elevation, at most


@dataclass(frozen=True)
class _Frame:
    """Where the two views stand: functions from inches to drawing units."""

    scale: float
    top: float
    foot: float
    to_x: Callable[[float], float]  # of the elevation
    to_y: Callable[[float], float]
    inner: float  # where the elevation breaks off
    beside: float  # x of the dimensions from the bottom edge, and the side on which their lettering stands
    outwards: float
    end_left: float  # left face of the held piece in the end view


def hole_figure(drawing: HoleDrawing, name: str, system: Any = "US", key: str = "figure") -> str:
    """The drawing as an `<svg>` element.

    Parameters
    ----------
    drawing : HoleDrawing
        Inches.
    name : str
        Of the anchor group; any text.
    system : 'US' or 'SI'
        Units of the labels.
    key : str
        Unique in the page; the alternative text is tied to the drawing by it.
    """
    board = Board(WIDTH, key, f"{name}: holes from the side and in end view", describe(drawing, system))
    frame = _frame(drawing)
    under = _titles(board, drawing, frame, system)
    _elevation(board, drawing, frame)
    _end_view(board, drawing, frame)
    _heights(board, drawing, frame, system)
    foot = max(_running(board, drawing, frame, system), under + 8)
    _forces(board, drawing, frame, system)
    for note in _short(drawing, system):
        for line in wrap(tied(note), letters_in(0.9 * ROOM), subsequent_indent=" ")[:_NOTE_LINES]:
            board.lettering(8, foot + LINE, clipped(line, ROOM), bold=True, tip=note)
            foot += LINE
    for note in drawing.texts:
        for line in wrap(tied(note), letters_in(ROOM), subsequent_indent=" ")[:_NOTE_LINES]:
            board.lettering(8, foot + LINE, clipped(line, ROOM), tip=note)
            foot += LINE
    return board.done(foot + 8)


def describe(drawing: HoleDrawing, system: Any = "US") -> str:
    """The drawing in words, for readers who do not see it."""

    def inches(value: float) -> str:
        return show(value, "length", system)

    parts = [
        f"{_end(drawing).capitalize()} of a piece {inches(drawing.depth)} deep and {inches(drawing.breadth)} wide."
    ]
    for x, y, D, number, governing in drawing.holes:
        place = f"{inches(x)} from the end"
        place += ", upright" if drawing.upright else f" and {inches(y)} from the bottom edge"
        parts.append(f"Hole {number}, {inches(D)}, {place}{', governs' if governing else ''}.")
    if drawing.slot is not None:
        width, length, height = map(inches, drawing.slot)
        parts.append(f"Slot {width} wide, {length} long, {height} high.")
    if drawing.plate is not None:
        x0, y0, x1, y1, thickness = drawing.plate
        parts.append(f"Plate {inches(thickness)} by {inches(y1 - y0)} by {inches(x1 - x0)} {drawing.plate_at}.")
    if drawing.bores is not None:
        parts.append(f"Bores {inches(drawing.bores[0])} across and {inches(drawing.bores[1])} deep.")
    if drawing.other is not None:
        parts.append(f"Beside it {drawing.other[0]}, {inches(drawing.other[1])} thick.")
    if drawing.gap:
        parts.append(f"Gap {inches(drawing.gap)}.")
    if drawing.line is not None:
        parts.append(f"The line of its support is {inches(drawing.line)} from the end.")
    parts += [f"It {VERBS.get(way, way)} with {show(force, 'force', system)}." for way, force in drawing.forces]
    return " ".join([*parts, *_short(drawing, system), *drawing.texts])


def _end(drawing: HoleDrawing) -> str:
    return "end at the joint" if drawing.at_joint else f"{drawing.end} end"


def _short(drawing: HoleDrawing, system: Any) -> list[str]:
    """What is not kept or open, with what is needed and what is there."""
    return [
        f"{one.what[:1].upper()}{one.what[1:]}: needs {show(one.needed, 'length', system)}, "
        f"has {show(one.there, 'length', system)}."
        for one in drawing.short
    ]


def _sheets(drawing: HoleDrawing) -> tuple[float, float]:
    """What stands on the left and on the right of the held piece in the end view, inches."""
    steel = drawing.plate[4] if drawing.plate is not None and drawing.plate_at != "in the slot" else 0.0
    left = steel + drawing.gap if drawing.plate_at == "on both sides" else 0.0
    right = steel + drawing.gap if steel else 0.0
    if drawing.other is not None:
        right += drawing.gap + _shown(drawing)
    if drawing.fastener is not None and not drawing.upright:
        head, nut = head_height(drawing.fastener), nut_height(drawing.fastener)
        through = drawing.breadth + left + right
        left += max(head - (drawing.bores[1] if drawing.bores else 0.0), 0.0) if not drawing.from_right else 0.0
        right += head if drawing.from_right else reach(drawing.fastener, through) if drawing.other is None else nut
    return left, right


def _beside(drawing: HoleDrawing) -> float:
    """Steel and gap on the left of the held piece in the end view, inches."""
    steel = drawing.plate[4] if drawing.plate is not None and drawing.plate_at == "on both sides" else 0.0
    return steel + drawing.gap if steel else 0.0


def _shown(drawing: HoleDrawing) -> float:
    """How much of the member on the other side is drawn, inches."""
    return 0.0 if drawing.other is None else min(drawing.other[1], max(drawing.breadth, 3.0))


def _frame(drawing: HoleDrawing) -> _Frame:
    left, right = _sheets(drawing)
    length, depth = max(drawing.length, 1e-6), max(drawing.depth, 1e-6)
    across = length + drawing.breadth + left + right
    room = WIDTH - 2 * MARGIN - DIMENSIONS - BETWEEN
    scale = min(room / across, HIGHEST / depth, LARGEST)
    top = 44.0 + (ARROW_LONG - 4 if drawing.forces else 0.0)
    spare = room - scale * across
    foot = top + scale * depth
    held_left = drawing.end == "left"
    start = MARGIN + 0.5 * spare + (DIMENSIONS if held_left else 0.0)
    stop = start + scale * length
    end_left = stop + (0.0 if held_left else DIMENSIONS) + BETWEEN + scale * left
    if held_left:
        return _Frame(scale, top, foot, lambda x: start + scale * x, lambda y: foot - scale * y, stop, start - 8, -1.0,
                      end_left)  # fmt: skip
    return _Frame(
        scale, top, foot, lambda x: stop - scale * x, lambda y: foot - scale * y, start, stop + 8, 1.0, end_left
    )


def _titles(board: Board, drawing: HoleDrawing, frame: _Frame, system: Any) -> float:
    """The names of the views, and the breadth under the end view; where its lettering ends."""
    first, second = f"{_end(drawing)} from the side", "end view"
    left, right = _sheets(drawing)
    start = max(0.5 * (frame.to_x(0.0) + frame.inner) - 0.5 * text_width(first), 2.0)
    middle = frame.end_left + 0.5 * frame.scale * (drawing.breadth + right - left)
    board.lettering(start, 14, first)
    board.lettering(max(middle - 0.5 * text_width(second), start + text_width(first) + 12), 14, second)
    center = frame.end_left + 0.5 * frame.scale * drawing.breadth
    under = frame.foot
    if drawing.plate is not None:
        under = max(under, frame.to_y(drawing.plate[1]))
    if drawing.upright and drawing.fastener is not None:
        under += nut_height(drawing.fastener) * frame.scale
    breadth = show(drawing.breadth, "length", system)
    if drawing.other is None:
        board.lettering(center, under + TEXT + 2, breadth, anchor="middle")
    else:  # clear of the face of what is behind, which runs on below
        face = frame.end_left + frame.scale * drawing.breadth
        board.lettering(face - 3, under + TEXT + 2, breadth, anchor="end")
    return under + TEXT + 2


def _elevation(board: Board, drawing: HoleDrawing, frame: _Frame) -> None:
    _piece(board, frame)
    if drawing.slot is not None:
        _width, length, height = drawing.slot
        low = _slot_low(drawing, height)
        _dashed(board, frame, 0.0, low, min(length, drawing.length), low + height, SLOT_DASH, 1.0)
    if drawing.plate is not None:
        x0, y0, x1, y1, _ = drawing.plate
        _dashed(board, frame, x0, y0, min(x1, drawing.length), y1, PLATE_DASH, 1.7)
    apart = _closest(drawing) * frame.scale
    for hole in sorted(drawing.holes, key=lambda one: one[4]):  # the governing one on top
        _hole(board, drawing, frame, hole, numbered=apart > 20.0 or hole[4])


def _piece(board: Board, frame: _Frame) -> None:
    """The held piece, broken off at its inner end."""
    x0, x1, top, foot = frame.to_x(0.0), frame.inner, frame.top, frame.foot
    away = -frame.outwards  # towards the rest of the piece
    fifth = (foot - top) / 5
    teeth = [(x1, top), (x1, top + 2 * fifth), (x1 + 5 * away, top + 2.25 * fifth), (x1 - 5 * away, top + 2.75 * fifth),
             (x1, top + 3 * fifth), (x1, foot)]  # fmt: skip
    board.shape(((x0, top), *teeth, (x0, foot)), fill=WOOD, width=0)
    lines = max(int((foot - top) / GRAIN_APART), 1)
    grain = [top + (foot - top) * (n + 0.5) / lines for n in range(lines)]
    board.strokes([((x0 - 4 * frame.outwards, y), (x1 + 8 * frame.outwards, y)) for y in grain], stroke=GRAIN)
    board.line((x1, top), (x0, top), (x0, foot), (x1, foot), width=1.8)
    board.line(*teeth, width=0.8)


def _slot_low(drawing: HoleDrawing, height: float) -> float:
    """Bottom of the slot: about the plate, within the piece."""
    middle = 0.5 * (drawing.plate[1] + drawing.plate[3]) if drawing.plate is not None else 0.5 * drawing.depth
    return min(max(middle - 0.5 * height, 0.0), max(drawing.depth - height, 0.0))


def _dashed(board: Board, frame: _Frame, x0: float, y0: float, x1: float, y1: float, dash: str, width: float) -> None:
    corners = [(frame.to_x(x), frame.to_y(y)) for x, y in ((x0, y0), (x1, y0), (x1, y1), (x0, y1))]
    board.shape(corners, fill="none", width=width, dash=dash)


def _closest(drawing: HoleDrawing) -> float:
    """Least distance between two holes, inches; infinite for one."""
    places = [(x, y) for x, y, *_ in drawing.holes]
    return min((math.dist(one, two) for i, one in enumerate(places) for two in places[i + 1 :]), default=math.inf)


def _hole(
    board: Board, drawing: HoleDrawing, frame: _Frame, hole: tuple[float, float, float, str, bool], *, numbered: bool
) -> None:
    x, y, D, number, governing = hole
    at_x, at_y, r = frame.to_x(x), frame.to_y(y), max(0.5 * D * frame.scale, 1.6)
    if drawing.upright:
        for side in (-r, r):
            board.line((at_x + side, frame.top), (at_x + side, frame.foot), width=1.0, dash=SLOT_DASH)
        board.line((at_x, frame.top - 5), (at_x, frame.foot + 5), width=0.8, dash=AXIS_DASH)
        board.line((at_x - 2.5 * r, frame.foot + 2), (at_x + 2.5 * r, frame.foot + 2), width=2.6)  # its washer
        at_y, outer = frame.to_y(0.5 * drawing.depth), r
    else:
        outer = r
        if drawing.bores is not None:
            outer = max(0.5 * drawing.bores[0] * frame.scale, r + 1)
            board.ring(at_x, at_y, outer, fill="none", width=0.9, dash="3 2")
        board.ring(at_x, at_y, r, fill=INK if governing else PAPER, width=1.3)
        for step in ((r + 4, 0.0), (0.0, r + 4)):
            board.line((at_x - step[0], at_y - step[1]), (at_x + step[0], at_y + step[1]), width=0.6,
                       stroke=PAPER if governing and r > 4 else INK)  # fmt: skip
    inwards = -frame.outwards  # lettering stands towards the rest of the piece
    anchor = "start" if inwards > 0 else "end"
    if governing:
        outer += 4.5
        board.ring(at_x, at_y, outer, fill="none", width=2.2)
        # the leader runs up on the side where no number stands
        aside = at_x - inwards * (outer + 6)
        slanted = (at_x - inwards * outer * 0.71, at_y - outer * 0.71)
        board.line(slanted, (aside, at_y - outer - 6), (aside, frame.top - 3), width=1.0)
        said = f"{number} governs"
        crosses = inwards * (frame.inner - aside) < text_width(said) + 2 * ARROW_IN and bool(drawing.forces)
        over = {"start": "end", "end": "start"}[anchor] if crosses else anchor
        at = aside + (4 if crosses else -8) * inwards
        board.lettering(at, frame.top - 8, said, anchor=over, bold=True)
    if numbered and not drawing.upright:
        board.lettering(at_x + inwards * (outer + 3), at_y - outer * 0.35, number, anchor=anchor, bold=governing)


def _end_view(board: Board, drawing: HoleDrawing, frame: _Frame) -> None:
    left, wide, deep = frame.end_left, frame.scale * drawing.breadth, frame.foot - frame.top
    board.box(left, frame.top, wide, deep, fill=WOOD, stroke=1.8)
    _end_grain(board, left, frame.top, wide, deep)
    beyond = left + wide
    if drawing.plate is not None and drawing.plate_at != "in the slot":
        _, y0, _, y1, thickness = drawing.plate
        gap, thick = frame.scale * drawing.gap, max(frame.scale * thickness, 1.5)
        high = frame.scale * (y1 - y0)
        board.box(beyond + gap, frame.to_y(y1), thick, high, fill=STEEL, stroke=1.2)
        if drawing.plate_at == "on both sides":
            board.box(left - gap - thick, frame.to_y(y1), thick, high, fill=STEEL, stroke=1.2)
        beyond += gap + thick
    if drawing.slot is not None:
        _slot_in_end(board, drawing, frame)
    if drawing.other is not None:
        beyond = _other(board, drawing, frame, beyond)
    start = left - 5 - (frame.scale * (_sheets(drawing)[0]))
    if drawing.upright:
        if drawing.fastener is not None:
            draw_rod_end(board, drawing.fastener, left + 0.5 * wide, frame.foot, frame.scale, 1.0)
        D = max((hole[2] for hole in drawing.holes), default=0.0)
        middle, r = left + 0.5 * wide, max(0.5 * D * frame.scale, 1.6)
        for side in (-r, r):
            board.line((middle + side, frame.top), (middle + side, frame.foot), width=1.0, dash=SLOT_DASH)
        return
    for y in sorted({hole[1] for hole in drawing.holes}):
        _bolt(board, drawing, frame, y, start, beyond)


def _slot_in_end(board: Board, drawing: HoleDrawing, frame: _Frame) -> None:
    assert drawing.slot is not None
    width, _length, height = drawing.slot
    middle = frame.end_left + 0.5 * frame.scale * drawing.breadth
    low = _slot_low(drawing, height)
    half = max(0.5 * width * frame.scale, 1.5)
    x0, x1, y0, y1 = middle - half, middle + half, frame.to_y(low), frame.to_y(low + height)
    board.shape(((x0, y0), (x1, y0), (x1, y1), (x0, y1)), fill=PAPER, width=1.0, dash=SLOT_DASH)
    if drawing.plate is not None:
        _, p0, _, p1, thickness = drawing.plate
        thick = max(thickness * frame.scale, 1.2)
        board.box(middle - 0.5 * thick, frame.to_y(p1), thick, frame.scale * (p1 - p0), fill=STEEL, stroke=0.9)


def _other(board: Board, drawing: HoleDrawing, frame: _Frame, beyond: float) -> float:
    """The member on the other side; its height is not known and broken off."""
    assert drawing.other is not None
    name, thickness = drawing.other
    x0 = beyond + frame.scale * drawing.gap
    x1 = x0 + frame.scale * _shown(drawing)
    top, foot = frame.top - 8, frame.foot + 8
    board.shape(((x0, top), (x1, top), (x1, foot), (x0, foot)), fill=PAPER, width=0)
    board.line((x0, top), (x0, foot), width=1.4)
    whole = _shown(drawing) >= thickness - 1e-9
    board.line((x1, top), (x1, foot), width=1.4 if whole else 0.8, dash="" if whole else SLOT_DASH)
    _grain_beside(board, drawing, x0, x1, top, foot)
    shown = clipped(name, max(WIDTH - frame.end_left, x1 - frame.inner))
    board.lettering(x1, foot + 20, shown, anchor="end", tip=name)
    return x1


def _bolt(board: Board, drawing: HoleDrawing, frame: _Frame, y: float, start: float, end: float) -> None:
    """The axis of a row in the end view, with its bores."""
    at_y, wide = frame.to_y(y), frame.scale * drawing.breadth
    if drawing.bores is not None:
        across, deep = (frame.scale * value for value in drawing.bores)
        for face in range(min(drawing.bored, 2)):
            x0 = frame.end_left if face == 0 else frame.end_left + wide - deep
            corners = ((x0, at_y - across / 2), (x0 + deep, at_y - across / 2), (x0 + deep, at_y + across / 2),
                       (x0, at_y + across / 2))  # fmt: skip
            board.shape(corners, fill="none", width=0.9, dash="3 2")
    if (size := drawing.fastener) is not None and size.diameter:
        deep = drawing.bores[1] * frame.scale if drawing.bores is not None else 0.0
        near = frame.end_left - frame.scale * _beside(drawing) + deep
        far = end - (deep if drawing.bored > 1 and drawing.other is None and drawing.plate_at != "on one side" else 0.0)
        if drawing.from_right:
            draw_fastener(board, size, at_y, far, frame.end_left, frame.scale, -1.0)
        else:
            draw_fastener(board, size, at_y, near, far, frame.scale, stops=WIDTH - MARGIN)
    board.line((start, at_y), (end + 5, at_y), width=0.7, dash=AXIS_DASH)


def _end_grain(board: Board, left: float, top: float, wide: float, deep: float) -> None:
    """Rings of the tree across the end, about a heart below it."""
    middle, below, steps = left + 0.5 * wide, top + 1.15 * deep, 24
    for share in (0.35, 0.6, 0.85, 1.1):
        ring = [
            (middle + share * deep * math.cos(angle), below - share * deep * math.sin(angle))
            for angle in (math.pi * n / steps for n in range(steps + 1))
        ]
        inside = [(x, y) for x, y in ring if left + 1 < x < left + wide - 1 and top + 1 < y < top + deep - 1]
        if len(inside) > 1:
            board.line(*inside, width=0.6, stroke=GRAIN)


def _grain_beside(board: Board, drawing: HoleDrawing, x0: float, x1: float, top: float, foot: float) -> None:
    """How the grain of the other member runs: level lines along the fastener, upright ones across, rings along ours."""
    if drawing.other_grain == "across":
        count = max(int((x1 - x0) / GRAIN_APART), 1)
        xs = [x0 + (x1 - x0) * (n + 0.5) / count for n in range(count)]
        board.strokes([((x, top + 3), (x, foot - 3)) for x in xs], stroke=GRAIN)
    elif drawing.other_grain == "end":
        count = max(int((foot - top) / GRAIN_APART), 1)
        ys = [top + (foot - top) * (n + 0.5) / count for n in range(count)]
        board.strokes([((x0 + 3, y), (x1 - 3, y)) for y in ys], stroke=GRAIN)
    elif drawing.other_grain == "along":
        _end_grain(board, x0, top, x1 - x0, foot - top)


def _forces(board: Board, drawing: HoleDrawing, frame: _Frame, system: Any) -> None:
    """The line of the support, and over the inner end what the piece does to the group: the largest of each way."""
    if drawing.line is not None and 0.0 <= drawing.line <= drawing.length:
        x = frame.to_x(drawing.line)
        board.line((x, frame.top - 4), (x, frame.foot + 6), width=0.9, stroke=GRAY, dash=AXIS_DASH)
    inwards = -frame.outwards
    x, y = frame.inner - inwards * ARROW_IN, frame.top - 4 - 0.5 * ARROW_LONG
    for way, force in drawing.forces[:MOST_FORCES]:
        text, half = show(force, "force", system), 0.5 * ARROW_LONG
        upright = way in ("down", "up")
        sign = {"down": 1.0, "up": -1.0, "out of the joint": inwards}.get(way, -inwards)
        tail, tip = (x, y - sign * half), (x, y + sign * half)
        head = ((x - 4, tip[1] - 8 * sign), (x + 4, tip[1] - 8 * sign), tip)
        if not upright:
            tail, tip = (x - sign * half, y), (x + sign * half, y)
            head = ((tip[0] - 8 * sign, y - 4), (tip[0] - 8 * sign, y + 4), tip)
        board.line(tail, tip, width=2.0)
        board.shape(head, fill=INK, width=0.5)
        board.lettering(x + (7 if upright else half + 5), y + 5, text, bold=True)
        x -= inwards * (text_width(text) + ARROW_LONG + 12)


def _heights(board: Board, drawing: HoleDrawing, frame: _Frame, system: Any) -> None:
    """Dimensions from the bottom edge, running; the last one is what is left to the top."""
    running = [
        (end, show(end, "length", system)) for axis, start, end, _ in drawing.dimensions if axis == "y" and not start
    ]
    stops = [0.0, *(place for place, _ in running), drawing.depth]
    board.line((frame.beside, frame.to_y(0.0)), (frame.beside, frame.to_y(drawing.depth)), width=0.8, stroke=GRAY)
    for place in stops:
        y = frame.to_y(place)
        board.line((frame.beside - 3, y + 3), (frame.beside + 3, y - 3), width=1.2)
    labels = [(0.0, "0"), *running, (drawing.depth, show(drawing.depth, "length", system))]
    places = _spread([-frame.to_y(place) for place, _ in labels], TEXT)
    anchor = "end" if frame.outwards < 0 else "start"
    for (_, text), place in zip(labels, places, strict=True):
        board.lettering(
            frame.beside + 6 * frame.outwards, -place + TEXT / 3, clipped(text, DIMENSIONS - 6), anchor=anchor
        )


def _spread(places: Sequence[float], least: float) -> list[float]:
    """Places in rising order, moved up as far as is needed to keep them apart; then back, if they left at the end."""
    found: list[float] = []
    for place in places:
        found.append(max(place, found[-1] + least) if found else place)
    over = found[-1] - places[-1] if found else 0.0
    limit = math.inf
    for i in reversed(range(len(found))):
        found[i] = min(found[i], limit) if i < len(found) - 1 else found[i] - over
        limit = found[i] - least
    return found


def _running(board: Board, drawing: HoleDrawing, frame: _Frame, system: Any) -> float:
    """Running dimensions from the end under the elevation; those that find no room are in the table of holes."""
    stops = [(0.0, "0"), *((end, show(end, "length", system)) for axis, _, end, _ in drawing.dimensions if axis == "x")]
    foot = frame.foot + 22
    lowest = frame.to_y(min((hole[1] for hole in drawing.holes), default=0.0))
    board.line((frame.to_x(0.0), foot), (frame.to_x(max(x for x, _ in stops)), foot), width=0.8, stroke=GRAY)
    rows: list[list[tuple[float, float]]] = []
    for place, text in stops:
        x = frame.to_x(place)
        if place:
            board.line((x, min(lowest + 8, frame.foot)), (x, foot + 3), width=0.5, stroke=GRAY)
        board.line((x - 3, foot + 3), (x + 3, foot - 3), width=1.2)
        half = 0.5 * text_width(text) + 3
        row = next(
            (i for i, taken in enumerate(rows) if all(x + half < a or x - half > b for a, b in taken)), len(rows)
        )
        if row >= _ROWS:
            continue
        rows[row : row + 1] = [[*(rows[row] if row < len(rows) else []), (x - half, x + half)]]
        board.lettering(x, foot + TEXT + 2 + _RUNG * row, text, anchor="middle")
    return foot + TEXT + 2 + _RUNG * max(len(rows) - 1, 0) + 6
