"""The drawing of a beam: loads, elevation with supports and cuts, then envelopes of shear and moment, and sag."""

from __future__ import annotations

import math
from collections.abc import Sequence
from itertools import pairwise
from textwrap import wrap
from typing import Any

from ...checks.core.pictures.beams import SupportMark
from ...checks.core.result import Figure
from ...units import show
from .curves import Curve, draw_curve, extremes
from .point_loads import draw_point_loads, load_label
from .svg import GRAY, PAPER, TEXT, Board, Point, clipped, letters_in, text_width, tied

WIDTH, SIDE = 440.0, 30.0
SPAN = WIDTH - 2 * SIDE
LOAD_LANE, BAND = 26.0, 7.0
SEAT, LEAST_SEAT = 12.0, 6.0  # height of what a piece rests on, and its least width
SECTION, SECTION_WIDE = 46.0, 40.0  # room for the section
DEEPEST, SHALLOWEST = 44.0, 12.0
HAIR = 1e-6
WOOD, STEEL = "#f1f1f1", "#9a9a9a"
_NOTE_LINES, _NAME_LINES = 3, 3  # of the text for a cut, and of the name of a support
_PATTERNS = {
    "dead": "upright", "live": "slanted", "roof live": "slanted", "snow": "dotted", "wind": "crossed",
    "wind up": "crossed",
}  # fmt: skip

SHOWN = {
    "": "loads, supports, shear, moment and sag",
    "sketch": "loads and supports",
    "diagrams": "shear, moment and sag",
}


def beam_figure(figure: Figure, name: str, system: Any = "US", key: str = "figure", part: str = "") -> str:
    """The drawing as an `<svg>` element.

    `figure`: inner units. A load whose kind ends in " up" is drawn lifting. `name`: of the piece; any text. `system`:
    'US' or 'SI': units of the labels. `key`: unique in the page; the alternative text is tied to the drawing by it.
    `part`: {'', 'sketch', 'diagrams'}: all of it, or one of its two parts, between which a page may end.
    """
    shown = SHOWN[part]
    board = Board(WIDTH, key, f"{name}: {shown}", describe(figure, system, part))
    to_x = _scale(figure)
    top = 0.0
    if part != "diagrams":
        top = _heading(board, figure, system)
        top = _loads(board, figure, to_x, top)
        top = _elevation(board, figure, to_x, top, system)
    for curve in _curves(figure, system) if part != "sketch" else ():
        top = draw_curve(board, curve, to_x, top)
    return board.done(top + (4 if part != "sketch" else 0))


def describe(figure: Figure, system: Any = "US", part: str = "") -> str:
    """The drawing in words, for readers who do not see it."""
    told = {"sketch": _sketch_told, "diagrams": _curves_told}
    return " ".join(one for each in ([told[part]] if part else told.values()) for one in each(figure, system))


def _sketch_told(figure: Figure, system: Any) -> list[str]:
    parts = [f"Length {show(figure.length, 'length', system)}, depth {show(figure.depth, 'small length', system)}."]
    if figure.slope:
        parts.append(f"Slope {show(figure.slope, 'slope', system)}.")
    parts += [f"{one.name} at {show(one.at, 'offset', system)} ({one.holds}{_seat_words(one, system)})."
              for one in figure.supports]  # fmt: skip
    for start, end, text, kind, form in figure.loads:
        place = show(start, "offset", system)
        if form == "line":
            place = f"from {place} to {show(end, 'offset', system)}"
        parts.append(f"{kind.capitalize()} load {place}: {text}.")
    parts += [f"Cut at {show(start, 'offset', system)}: {text}." for start, _end, _low, _depth, text in figure.cuts]
    return parts


def _curves_told(figure: Figure, system: Any) -> list[str]:
    return [
        f"{curve.title}: {label} at {show(x, 'offset', system)}."
        for curve in _curves(figure, system)
        for x, _value, label in extremes(curve)
    ]


def _curves(figure: Figure, system: Any) -> list[Curve]:
    over = "envelope of all combinations"
    shear = Curve(f"Shear V, {over}", "force", figure.x, figure.V_high, figure.V_low, _marks(figure, "V"), system)
    moment = Curve(f"Moment M, {over}", "moment", figure.x, figure.M_high, figure.M_low, _marks(figure, "M"), system)
    sag = Curve("Long-term sag", "small length", figure.x, figure.sag, (), _marks(figure, "s"), system, down=True)
    return [shear, moment, sag]


def _marks(figure: Figure, letter: str) -> tuple[tuple[float, str, str], ...]:
    """The marks of one diagram: place, text, and the side of the envelope ('high', 'low', '' for the larger one)."""
    return tuple((x, text, curve.partition("_")[2]) for curve, x, text in figure.marks if curve[:1] == letter)


def _scale(figure: Figure) -> Any:
    length = figure.length if figure.length > 0 else 1.0
    return lambda x: SIDE + SPAN * min(max(x / length, -0.05), 1.05)


def _heading(board: Board, figure: Figure, system: Any) -> float:
    along = "along the slope" if figure.slope else "long"
    deep = f", {show(figure.depth, 'length', system)} deep"
    text = f"{show(figure.length, 'length', system)} {along}{'' if figure.section else deep}"
    if figure.section:
        top = _section(board, figure, text, system)
    else:
        board.lettering(SIDE, 14, text)
        top = 24.0
    if not figure.slope:
        return top
    # a small triangle with the true slope; the piece itself is drawn straight, so that the diagrams stand under it
    run = 46.0
    rise = min(run * math.tan(math.radians(figure.slope)), 60.0)
    run = rise / math.tan(math.radians(figure.slope))
    foot = 8 + rise
    right = WIDTH - SIDE
    board.shape(((right - run, foot), (right, foot), (right, foot - rise)), fill="none", width=1.2)
    if figure.section:
        return max(foot + 12, top)
    label = f"slope {show(figure.slope, 'slope', system)}, drawn straight"
    place = right - run - 6
    meets = SIDE + text_width(text) + 10 > place - text_width(label)
    line = max(foot, 31.0 if meets else 14.0)
    board.lettering(place, line, label, anchor="end")
    return max(foot + 12, line + 12, top)


def _section(board: Board, figure: Figure, text: str, system: Any) -> float:
    """The section to scale, with plies and plates as they stand beside each other, and what it is in words."""
    parts, top = figure.section, 2.0
    wide, high = max(part.x + part.width for part in parts), max(part.y + part.height for part in parts)
    scale = min(SECTION / high, SECTION_WIDE / wide)
    left, foot = SIDE, top + scale * high + 2
    for part in parts:
        x, y = left + scale * part.x, foot - scale * (part.y + part.height)
        if part.what == "round":
            board.ring(x + scale * part.width / 2, y + scale * part.height / 2, scale * part.width / 2, fill=WOOD,
                       width=1.4)  # fmt: skip
        else:
            board.box(x, y, scale * part.width, scale * part.height, fill=STEEL if part.what == "steel" else WOOD,
                      stroke=1.2)  # fmt: skip
    words = [text, *_section_words(figure, wide, high, system)]
    if figure.slope:
        words.append(f"slope {show(figure.slope, 'slope', system)}, drawn straight")
    room = letters_in(WIDTH - SIDE - SECTION_WIDE - 14)
    lines = [line for one in words for line in wrap(tied(one), room)]
    for number, line in enumerate(lines):
        board.lettering(left + SECTION_WIDE + 10, top + 12 + 15 * number, line)
    return max(foot, top + 15 * len(lines)) + 3


def _section_words(figure: Figure, wide: float, high: float, system: Any) -> list[str]:
    """What the section measures; of plies each, of a plate its own size."""
    parts = figure.section
    if parts[0].what == "round":
        return [f"section: {show(high, 'length', system)} in diameter"]
    whole = f"{show(wide, 'length', system)} wide, {show(high, 'length', system)} deep"
    by = f"{show(wide, 'length', system)} by {show(high, 'length', system)}"
    wood = [part for part in parts if part.what == "wood"]
    plate = next((part for part in parts if part.what == "steel"), None) if wood else None
    if len(wood) < 2:
        return [whole]
    words = [f"{len(wood)} plies of {show(wood[0].width, 'length', system)}: {by}"]
    if plate is not None:
        size = f"{show(plate.width, 'length', system)} by {show(plate.height, 'length', system)}"
        words.append(f"steel plate {size} between them")
    return words


def _loads(board: Board, figure: Figure, to_x: Any, top: float) -> float:
    spread = [load for load in figure.loads if load[4] == "line"]
    points = sorted((load for load in figure.loads if load[4] != "line"), key=lambda load: load[0])
    for start, end, text, kind, _form in spread:
        left, right = to_x(start), to_x(end)
        lines = wrap(tied(load_label(text, kind)), letters_in(WIDTH - 12))[:_NAME_LINES] or [""]
        beside = max(min(left, WIDTH - 6 - max(map(text_width, lines))), 6.0)
        for number, line in enumerate(lines):
            board.lettering(beside, top + 12 + 15 * number, line, tip=load_label(text, kind))
        top += 15 * (len(lines) - 1)
        _band(board, left, right, top + 16, _PATTERNS.get(kind, "plain"))
        top += LOAD_LANE
    return draw_point_loads(board, points, to_x, top) if points else top + 4


def _band(board: Board, left: float, right: float, top: float, pattern: str) -> None:
    """A strip of spread load; the pattern tells the kind without color."""
    right = max(right, left + 2)
    board.box(left, top, right - left, BAND, stroke=0.9)
    count = max(int((right - left) / 7), 1)
    strokes: list[tuple[Point, Point]] = []
    for index in range(1, count):
        x = left + (right - left) * index / count
        lean = min(4.5, x - left, right - x)
        if pattern == "upright":
            strokes.append(((x, top), (x, top + BAND)))
        if pattern in ("slanted", "crossed"):
            strokes.append(((x - lean, top + BAND), (x + lean, top)))
        if pattern == "crossed":
            strokes.append(((x - lean, top), (x + lean, top + BAND)))
        if pattern == "dotted":
            y = top + BAND * (0.3 if index % 2 else 0.7)
            strokes.append(((x - 1.0, y), (x + 1.0, y)))
    board.strokes(strokes, width=1.8 if pattern == "dotted" else 0.8)


def _elevation(board: Board, figure: Figure, to_x: Any, top: float, system: Any) -> float:
    left, right = to_x(0.0), to_x(figure.length)
    true = SPAN * figure.depth / figure.length if figure.length > 0 else 0.0
    deep = min(max(true, SHALLOWEST), DEEPEST)
    left, right = _with_seats(figure, to_x, left, right)
    board.box(left, top, right - left, deep, fill=WOOD, stroke=1.8)
    _lengthwise(board, figure, (left, right), top, deep)
    notes = [] if deep == true else ["Depth of the piece is not to scale with its length."]
    for index, (start, end, low, depth, text) in enumerate(figure.cuts):
        mark = _letter(index)
        per_inch = deep / figure.depth if figure.depth > 0 else 0.0
        x0, x1 = to_x(start), max(to_x(end), to_x(start) + 3)
        upper = top + deep - per_inch * (low + depth)
        board.box(x0, upper, x1 - x0, max(per_inch * depth, 2.5), stroke=1.4)
        board.line((x0, upper), (x1, upper + per_inch * depth), width=0.8)
        board.line((x0, upper + per_inch * depth), (x1, upper), width=0.8)
        board.lettering(x1 + 3, upper + per_inch * depth / 2 + TEXT / 3, mark, bold=True)
        notes.append(f"{mark}: {text}")
    foot = top + deep
    for held in figure.supports:
        if held.holds == "rests" and held.seat > 0.0:
            _seat(board, figure, to_x(held.at), foot, held.seat)
        else:
            _support(board, to_x(held.at), top, foot, held.holds)
    foot = _names(board, figure, to_x, foot + 15, system)
    foot = _dimensions(board, figure, to_x, foot, system)
    for note in notes:
        for line in wrap(tied(note), letters_in(WIDTH - 12), subsequent_indent=" ")[:_NOTE_LINES]:
            board.lettering(8, foot + 13, clipped(line, WIDTH - 12), tip=note)
            foot += 16
    return foot + 12


def _letter(index: int) -> str:
    return chr(ord("a") + index) if index < 26 else str(index + 1)


def _with_seats(figure: Figure, to_x: Any, left: float, right: float) -> tuple[float, float]:
    """The ends of the stick, which reaches to the end of a seat that stands at the very end."""
    for mark in figure.supports:
        half = _half(figure, mark.seat)
        left = min(left, to_x(mark.at) - half) if mark.at < HAIR else left
        right = max(right, to_x(mark.at) + half) if mark.at > figure.length - HAIR else right
    return left, right


def _half(figure: Figure, seat: float) -> float:
    """Half of a seat on paper."""
    return min(0.5 * SPAN * seat / figure.length, SIDE - 4.0) if figure.length > 0.0 else 0.0


def _seat(board: Board, figure: Figure, x: float, foot: float, seat: float) -> None:
    """What it rests on, hatched, as long as the seat."""
    half = max(_half(figure, seat), LEAST_SEAT / 2)
    board.box(x - half, foot, 2 * half, SEAT, stroke=1.3)
    count = max(int(2 * half / 5), 1)
    step = 2 * half / count
    lines = [((x - half + i * step, foot + SEAT), (x - half + (i + 1) * step, foot)) for i in range(count)]
    board.strokes(lines, width=0.7)
    board.line((x - half, foot), (x + half, foot), width=2.6)


def _lengthwise(board: Board, figure: Figure, ends: tuple[float, float], top: float, deep: float) -> None:
    """Lines along a piece of more than one depth: flanges, and the edges of a plate between plies."""
    high = max((part.y + part.height for part in figure.section), default=0.0)
    steel = [part for part in figure.section if part.what == "steel"]
    hidden = any(part.what == "wood" for part in figure.section)
    edges = {edge for part in steel for edge in (part.y, part.y + part.height) if HAIR < edge < high - HAIR}
    for edge in sorted(edges):
        y = top + deep * (1.0 - edge / high)
        board.line((ends[0], y), (ends[1], y), width=0.9, dash="6 3" if hidden else "")


def _seat_words(mark: SupportMark, system: Any) -> str:
    return f", {show(mark.seat, 'length', system)} of seat" if mark.seat > 0.0 else ""


def _support(board: Board, x: float, top: float, foot: float, holds: str) -> None:
    """rests: triangle; fixed: hatched block; hung: a strap round the piece from above."""
    if holds == "fixed":
        board.box(x - 9, foot, 18, 12, stroke=1.3)
        for shift in (-9, -3, 3):
            board.line((x + shift, foot + 12), (x + shift + 6, foot), width=0.9)
    elif holds == "hung":
        board.line((x - 6, top - 5), (x - 6, foot + 4), (x + 6, foot + 4), (x + 6, top - 5), width=2.2)
    else:
        board.shape(((x, foot + 1), (x + 9, foot + 13), (x - 9, foot + 13)), fill=PAPER, width=1.4)
        board.line((x - 13, foot + 14), (x + 13, foot + 14), width=1.4)


def _names(board: Board, figure: Figure, to_x: Any, top: float, system: Any) -> float:
    """Names of supports under them, on as many rows as keep them apart."""
    rows: list[float] = []  # right end of the lettering in each row
    for mark in sorted(figure.supports):
        x, name = mark.at, mark.name
        words = " ".join((name if mark.holds == "rests" else f"{name} ({mark.holds})").split())
        lines = [clipped(line, SPAN / 2) for line in wrap(words, letters_in(SPAN / 2))[:_NAME_LINES]] or [""]
        if mark.seat > 0.0:
            lines.append(f"seat {show(mark.seat, 'length', system)}")
        wide = max(map(text_width, lines))
        left = min(max(to_x(x) - wide / 2, 2.0), WIDTH - 2 - wide)
        count = len(lines)
        row = next((i for i in range(len(rows)) if all(end + 8 < left for end in rows[i : i + count])), len(rows))
        rows[row : row + count] = [left + wide] * count
        for number, line in enumerate(lines):
            board.lettering(left, top + 13 + 15 * (row + number), line, tip=name if number < count - 1 else "")
    return top + 15 * len(rows)


def _dimensions(board: Board, figure: Figure, to_x: Any, top: float, system: Any) -> float:
    """A chain of dimensions from end to end over the supports."""
    places = sorted({0.0, figure.length, *(mark.at for mark in figure.supports)})
    stops: Sequence[float] = [place for place in places if 0.0 <= place <= figure.length]
    if len(stops) < 2:
        return top
    y = top + 16
    board.line((to_x(stops[0]), y), (to_x(stops[-1]), y), width=0.8, stroke=GRAY)
    for place in stops:
        board.line((to_x(place) - 3, y + 3), (to_x(place) + 3, y - 3), width=1.2)
    below = 2.0
    for start, end in pairwise(stops):
        text = show(end - start, "length", system)
        if text_width(text) < to_x(end) - to_x(start) or len(stops) == 2:
            board.lettering((to_x(start) + to_x(end)) / 2, y - 4, text, anchor="middle")
        else:
            board.lettering((to_x(start) + to_x(end)) / 2, y + TEXT + 2, text, anchor="middle")
            below = TEXT + 4
    return y + below
