"""The drawing of a bracket laid on its board: the board, its grain, the outline, the breadth that it needs."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from ....checks.core.pictures.board import BoardPicture, BoardStick
from ....units import show
from ..svg import GRAY, Board, Point, clipped
from .board import MARGIN, WIDTH, hatching, told

LEFT, TOP, RIGHT = 100.0, 34.0, 20.0
TALL, LARGEST = 90.0, 14.0  # of what is drawn; an inch is drawn no larger
BEYOND = 1.0  # in: of the board beyond the outline at both ends
GRAIN = 9.0
HAIR = 1.0 / 64.0  # in
WOOD, BOARD = "#dedede", "#fafafa"


def board_figure(drawn: BoardPicture, name: str, system: Any = "US", key: str = "board") -> str:
    """The drawing as an `<svg>` element; parameters as those of `gap_figure`."""
    board = Board(WIDTH, key, f"{name}: laid on its board", describe(drawn, system))
    broad = max(drawn.breadth, drawn.wide)
    scale = min((WIDTH - LEFT - RIGHT) / (drawn.long + 2 * BEYOND), TALL / broad, LARGEST)

    def at(x: float, y: float) -> Point:
        return LEFT + scale * (x + BEYOND), TOP + scale * y

    board.lettering(MARGIN, 14, f"On its board, {drawn.size}; grain along it", bold=True)
    ends = drawn.long + BEYOND
    edges = [at(-BEYOND, 0.0), at(ends, 0.0), at(ends, drawn.breadth), at(-BEYOND, drawn.breadth)]
    board.shape(edges, fill=BOARD, width=0.0)
    board.strokes(hatching([edges], 0.0, GRAIN), width=0.35, stroke=GRAY)
    for shape in ([at(x, y) for x, y in drawn.outline], *([at(*end) for end in _corners(one)] for one in drawn.sticks)):
        board.shape(shape, fill=WOOD, width=1.6)
        board.strokes(hatching([shape], 0.0, GRAIN), width=0.35, stroke=GRAY)
    for one in drawn.sticks:
        (x0, y0), (x1, y1) = at(one.x, one.y), at(one.x + one.long, one.y + one.deep)
        text = clipped(one.name, x1 - x0 - 4.0)
        board.lettering(0.5 * (x0 + x1), 0.5 * (y0 + y1) + 5.0, text, anchor="middle", ground=WOOD)
    board.line(edges[0], edges[1], width=1.0)
    board.line(edges[3], edges[2], width=1.0)
    if len(drawn.top) == 2:
        board.line(*(at(x, y) for x, y in drawn.top), width=3.4)
    _across(board, at, drawn.breadth, LEFT - 14.0, show(drawn.breadth, "length", system))
    low = TOP + scale * broad + 14.0
    (x0, _), (x1, _) = at(0.0, 0.0), at(drawn.long, 0.0)
    board.line((x0, low), (x1, low), width=0.8, stroke=GRAY)
    for x in (x0, x1):
        board.line((x - 3, low + 3), (x + 3, low - 3), width=1.2)
    board.lettering(0.5 * (x0 + x1), low + 16, show(drawn.long, "length", system), anchor="middle")
    y = low + 20.0
    for text in _notes(drawn, system):
        y = told(board, text, y)
    return board.done(y + 10.0)


def describe(drawn: BoardPicture, system: Any = "US") -> str:
    """The drawing in words."""
    return " ".join(f"{text}." for text in _notes(drawn, system))


def needed(drawn: BoardPicture, system: Any = "US") -> str:
    """What it needs of its board, and whether the board has it; of three sticks how long each is."""
    wide, long, breadth = (show(one, "length", system) for one in (drawn.wide, drawn.long, drawn.breadth))
    sticks = ", ".join(f"{one.name} {show(one.long, 'length', system)}" for one in drawn.sticks)
    of = f" ({sticks}; saw cuts counted)" if sticks else ""
    if drawn.wide <= drawn.breadth + HAIR:
        return f"it needs {wide} of the board's breadth of {breadth}, and {long} of its length{of}"
    return f"it needs {wide} of breadth{of} and its board has {breadth}: too narrow. Ask before you lay it otherwise"


def _notes(drawn: BoardPicture, system: Any) -> Iterator[str]:
    text = needed(drawn, system)
    yield f"{text[:1].upper()}{text[1:]}{'' if drawn.sticks else '. Thick: its top edge'}"


def _corners(stick: BoardStick) -> Iterator[Point]:
    x, y = stick.x + stick.long, stick.y + stick.deep
    yield from ((stick.x, stick.y), (x, stick.y), (x, y), (stick.x, y))


def _across(board: Board, at: Any, breadth: float, x: float, text: str) -> None:
    """The breadth of the board at its left."""
    y0, y1 = at(0.0, 0.0)[1], at(0.0, breadth)[1]
    board.line((x, y0), (x, y1), width=0.8, stroke=GRAY)
    for y in (y0, y1):
        board.line((x - 3, y + 3), (x + 3, y - 3), width=1.2)
    board.lettering(x - 5, 0.5 * (y0 + y1) + 5, text, anchor="end")
