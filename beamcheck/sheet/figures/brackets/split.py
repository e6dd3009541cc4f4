"""The sketch of a split test to scale: the worst check, the part beyond it as a free body, where the check opens."""

from __future__ import annotations

import math
from collections.abc import Iterator
from textwrap import wrap
from typing import Any

from ....checks.core.pictures.split import Points, SplitForce, SplitPicture
from ....units import show
from ..svg import GRAY, INK, Board, Point, letters_in
from .board import MARGIN, WIDTH, apart_from, hatching, told

FACE, TOP = 172.0, 62.0  # of the corner at the top of the wall, drawing units
WIDE, TALL, LARGEST = 150.0, 200.0, 26.0  # room for the bracket; an inch is drawn no larger
WALL, LINE = 30.0, 16.0
ARROW, APART = 34.0, 16.0
WOOD, BEYOND = "#f6f6f6", "#dedede"
GRAIN = 7.0
NEGLIGIBLE = 0.5  # lbf


def split_figure(drawn: SplitPicture, name: str, system: Any = "US", key: str = "split") -> str:
    """The drawing as an `<svg>` element; parameters as those of `gap_figure`."""
    board = Board(WIDTH, key, f"{name}: the split test", describe(drawn, system))
    xs, ys = zip(*drawn.outline, strict=True)
    scale = min(WIDE / max(xs), TALL / max(ys), LARGEST)

    def at(x: float, y: float) -> Point:
        return FACE + scale * x, TOP + scale * y

    def ring(points: Points) -> list[Point]:
        return [at(x, y) for x, y in points]

    foot = TOP + scale * max(ys)
    title = f"Split test, {drawn.combination}: what holds the part beyond the check"
    for number, words in enumerate(wrap(title, letters_in(WIDTH - 2 * MARGIN))):
        board.lettering(MARGIN, 14 + LINE * number, words, bold=True)
    wall = [(FACE - WALL, TOP - 14), (FACE, TOP - 14), (FACE, foot + 14), (FACE - WALL, foot + 14)]
    board.strokes(hatching([wall], 45.0, 9.0), stroke=GRAY)
    board.line((FACE, TOP - 14), (FACE, foot + 14), width=1.4)
    board.shape(ring(drawn.outline), fill=WOOD, width=1.4)
    for part in drawn.beyond:
        board.shape(ring(part), fill=BEYOND, width=1.4)
    board.strokes(hatching([ring(drawn.outline)], drawn.grain, GRAIN), width=0.35, stroke=GRAY)
    for start, end in drawn.rows:
        board.line(at(*start), at(*end), width=1.2, dash="6 3")
        x, y = at(*end)
        board.line((x, y - 6), (x, y + 6), width=2.4)
    for line in drawn.check:
        board.line(*ring(line), width=1.8, stroke="#fff")
        board.line(*ring(line), width=1.2, dash="3 3")
    for line in drawn.pressed:
        board.line(*ring(line), width=3.6)
    _outside(board, drawn, at, system)
    _over_the_check(board, drawn, at, system)
    y = max(foot + 24.0, TOP + 40.0)
    for text in _notes(drawn, system):
        y = told(board, text, y)
    return board.done(y + 10.0)


def describe(drawn: SplitPicture, system: Any = "US") -> str:
    """The drawing in words."""
    forces = [f"{_named(one)} {_force(one, system)}." for one in drawn.forces]
    return " ".join([*(f"{text}." for text in _notes(drawn, system)), *forces])


def _notes(drawn: SplitPicture, system: Any) -> Iterator[str]:
    stands, whole, allowed, comes = (
        show(one, "force", system) for one in (drawn.stands, drawn.whole, drawn.allowed, drawn.comes)
    )
    if not drawn.forces:
        line = "the check" if drawn.check else "the grain line of the load, with or without a check"
        yield f"Grain {show(drawn.grain % 180.0, 'angle', system)}: nothing holds the gray part beyond {line}"
        yield f"It carries nothing; {comes} comes"
        return
    limits = f"allowed {allowed}, comes {comes}"
    if drawn.check:
        yield f"Worst: {drawn.place}. It stands with {stands} ({whole} without a check), {limits}"
        yield "Gray: the part beyond it. Pressed together where the check is drawn thick, open elsewhere"
    else:
        grain = show(drawn.grain % 180.0, "angle", system)
        yield f"Grain {grain}: stands with {stands}, which no check lowers; {limits}"


def _force(one: SplitForce, system: Any) -> str:
    return show(math.hypot(one.right, one.down), "force", system)


def _named(one: SplitForce) -> str:
    names = {
        "load": "load", "heads": f"heads {one.number}", "dowels": f"dowels {one.number}", "wall": "wall",
        "ledge": "ledge", "check": "over the check", "rod": f"rod {one.number}",
    }  # fmt: skip
    return names[one.what]


def _outside(board: Board, drawn: SplitPicture, at: Any, system: Any) -> None:
    """Load on top; pulls, pressure of the wall and dowels named at the left, in the order of their height."""
    beside = sorted((one for one in drawn.forces if one.what in ("heads", "dowels", "wall", "rod")), key=lambda f: f.y)
    places = [at(0.0, one.y)[1] + (8.0 if one.what == "dowels" else 0.0) for one in beside]
    for one, y in zip(beside, apart_from(places, APART), strict=True):
        x, level = at(0.0, one.y)
        board.lettering(x - ARROW - 8, y + 4, f"{_named(one)}: {_force(one, system)}", anchor="end")
        if one.what == "dowels":
            up = -1.0 if one.down < 0.0 else 1.0
            _arrow(board, (x - 0.5 * ARROW, y - 9.0 * up), (x - 0.5 * ARROW, y + 9.0 * up))
        elif one.right > 0.0:
            _arrow(board, (x - ARROW, level), (x - 2.0, level))
        else:
            _arrow(board, (x - 2.0, level), (x - ARROW, level))
    for one in drawn.forces:
        if one.what == "load":
            x, y = at(one.x, one.y)
            _arrow(board, (x, y - 38.0), (x, y - 2.0))
            board.lettering(x + 7, y - 22, _force(one, system), bold=True)
        if one.what == "ledge":
            x, y = at(one.x, one.y)
            _arrow(board, (x, y + 34.0), (x, y + 2.0))
            board.lettering(x + 7, y + 26, _force(one, system))
    if not drawn.forces:
        x, y = at(drawn.load_out, 0.0)
        _arrow(board, (x, y - 38.0), (x, y - 2.0))
        board.lettering(x + 7, y - 22, show(drawn.comes, "force", system), bold=True)


def _over_the_check(board: Board, drawn: SplitPicture, at: Any, system: Any) -> None:
    """What the part behind the check puts on the part beyond it."""
    for one in drawn.forces:
        size = math.hypot(one.right, one.down)
        if one.what != "check" or size < NEGLIGIBLE:
            continue
        x, y = at(one.x, one.y)
        u, v = one.right / size, one.down / size
        _arrow(board, (x - ARROW * u, y - ARROW * v), (x + 4.0 * u, y + 4.0 * v))
        xs = [px for px, _ in drawn.outline]
        side = at(max(xs), 0.0)[0] + 12.0
        board.line((x + 6.0 * u, y + 6.0 * v), (side - 4.0, y + 10.0), width=0.5, stroke=GRAY)
        for number, text in enumerate((_force(one, system), "over the check")):
            board.lettering(side, y + 14.0 + LINE * number, text)


def _arrow(board: Board, start: Point, end: Point) -> None:
    x, y = end
    run, rise = end[0] - start[0], end[1] - start[1]
    long = math.hypot(run, rise) or 1.0
    u, v = run / long, rise / long
    board.line(start, (x - 7 * u, y - 7 * v), width=1.8)
    board.shape(((x, y), (x - 9 * u - 4 * v, y - 9 * v + 4 * u), (x - 9 * u + 4 * v, y - 9 * v - 4 * u)), fill=INK)
