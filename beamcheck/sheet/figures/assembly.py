"""The order of assembly as a strip of small panels: gray what lies there, dark what a step adds, its number below."""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import Any

from ...checks.core.pictures.assembled import AssemblyPicture, Laid
from .brackets.board import hatching
from .svg import GRAY, INK, PAPER, Board, Point

WIDTH, HIGHEST = 880.0, 140.0  # of all rows of panels: 6 3/4 in by 1 1/8 in where the sheet prints 0.55 pt a unit
SIDE, ROOM, NUMBER = 9.0, 7.0, 18.0  # beside a panel, above and below its drawing, for its number
BETWEEN, LEAST = 24.0, 200.0  # from panel to panel where there is room; width of the whole
LARGEST = 14.0  # units of an inch
FOLDED, FOLDED_HIGHEST = 440.0, 250.0  # of all rows of panels in half of a page
WOOD, STEEL, LIES = "#e9e9e9", "#c4c4c4", PAPER
LINES = ("fastener", "slot", "no load")
NEVER_NEW = ("ground", "stock")


def assembly_figure(
    drawn: AssemblyPicture, name: str, system: Any = "US", key: str = "assembly", *, folded: bool = False
) -> str:
    """The drawing as an `<svg>` element; parameters as those of `beam_figure`. `folded`: for half of a page."""
    room, highest = (FOLDED, FOLDED_HIGHEST) if folded else (WIDTH, HIGHEST)
    xs, ys = zip(*(point for one in drawn.laid for point in one.points), strict=True)
    wide, tall = max(max(xs) - min(xs), 1e-6), max(max(ys) - min(ys), 1e-6)
    count = len(drawn.steps)
    scales = {n: _scale(n, count, wide, tall, room, highest) for n in range(1, count + 1)}
    across = max(scales, key=scales.__getitem__)
    scale = scales[across]
    panel, high = scale * wide + 2 * SIDE, scale * tall + 2 * ROOM + NUMBER
    pitch = min(room / across, panel + BETWEEN)
    board = Board(max(across * pitch, LEAST), key, f"{name}: order of assembly", describe(drawn))
    for number in range(1, count + 1):
        row, column = divmod(number - 1, across)
        middle = (column + 0.5) * pitch
        left, top = middle - 0.5 * scale * wide - scale * min(xs), row * high + ROOM - scale * min(ys)
        seen = [one for one in drawn.laid if one.step <= number and (not one.last or number <= one.last)]
        for one in sorted(seen, key=lambda one: (one.what != "ground", one.step == number)):
            points = [(left + scale * x, top + scale * y) for x, y in one.points]
            _mark(board, one, points, new=one.step == number and one.what not in NEVER_NEW)
        board.lettering(
            middle, row * high + 2 * ROOM + scale * tall + NUMBER - 6, str(number), anchor="middle", bold=True
        )
    return board.done(high * math.ceil(count / across))


def describe(drawn: AssemblyPicture) -> str:
    """The drawing in words."""
    return " ".join(f"{number}: {text.rstrip('.')}." for number, text in enumerate(drawn.steps, start=1))


def _scale(across: int, count: int, wide: float, tall: float, room: float, highest: float) -> float:
    """Units of an inch with so many panels side by side; nothing where their numbers alone are too high."""
    rows = math.ceil(count / across)
    return min((room / across - 2 * SIDE) / wide, (highest / rows - 2 * ROOM - NUMBER) / tall, LARGEST)


def _mark(board: Board, one: Laid, points: Sequence[Point], *, new: bool) -> None:
    stroke, width = (INK, 2.0) if new else (GRAY, 0.8)
    if one.what == "ground":
        board.strokes(hatching([points], 45.0, 6.0), stroke=GRAY)
        face = sorted(points)[-2:]  # towards what is fixed to it
        board.line(*face, width=1.0, stroke=GRAY)
    elif one.what == "joint":
        board.disc(*points[0], 4.0 if new else 2.0, INK if new else GRAY)
    elif one.what in LINES:
        _line(board, one, points[0], points[-1], new=new)
    elif one.what == "cut":
        board.shape(points, fill=PAPER, width=width, stroke=stroke)
    elif one.what == "stock":
        board.shape(points, fill=PAPER, width=width, stroke=stroke, dash="4 3")
    else:
        fill = (STEEL if one.what == "steel" else WOOD) if new else LIES
        board.shape(points, fill=fill, width=width, stroke=stroke)
        if new and one.grain is not None and one.what == "wood":
            _grain(board, points, one.grain)


def _line(board: Board, one: Laid, start: Point, end: Point, *, new: bool) -> None:
    stroke, width = (INK, 2.4) if new else (GRAY, 1.2)
    (x0, y0), (x1, y1) = start, end
    if one.what == "no load":
        board.line(start, (x1, y1 - 4), width=1.2)
        board.shape(((x1, y1), (x1 - 3, y1 - 8), (x1 + 3, y1 - 8)), fill=INK, width=0.5)
        y = y0 + 0.35 * (y1 - y0)
        board.strokes([((x1 - 6, y - 6), (x1 + 6, y + 6)), ((x1 - 6, y + 6), (x1 + 6, y - 6))], width=2.0)
        return
    board.line(start, end, width=width, stroke=stroke)
    if one.what == "fastener":
        board.line((x0, y0 - 4), (x0, y0 + 4), width=width, stroke=stroke)


def _grain(board: Board, points: Sequence[Point], grain: float) -> None:
    """A double arrow along the grain, where the wood is long enough for it."""
    chords = hatching([points], grain, 2.0)
    longest = max((math.dist(*chord) for chord in chords), default=0.0)
    if longest < 16.0:
        return
    long = [chord for chord in chords if math.dist(*chord) > 0.7 * longest]
    (x0, y0), (x1, y1) = long[len(long) // 2]
    length = math.dist((x0, y0), (x1, y1))
    u, v = (x1 - x0) / length, (y1 - y0) / length
    tips = [(x0 + share * (x1 - x0), y0 + share * (y1 - y0)) for share in (0.2, 0.8)]
    board.line(*tips, width=1.0)
    for (x, y), way in zip(tips, (1.0, -1.0), strict=True):
        foot = (x + way * 6 * u, y + way * 6 * v)
        board.shape(((x, y), (foot[0] - 2.5 * v, foot[1] + 2.5 * u), (foot[0] + 2.5 * v, foot[1] - 2.5 * u)),
                    fill=INK, width=0.5)  # fmt: skip
