"""The drawing of the gap under a beam: what uses it up, bit by bit, and what is left or missing."""

from __future__ import annotations

import math
from typing import Any

from ....checks.core.pictures.others import GapPicture
from ....units import show
from ..svg import GRAY, INK, PAPER, Board, clipped
from .board import LINE, MARGIN, WIDTH, hatching, told

NAMES, FIGURES = 226.0, 80.0  # widths of the lettering left and right of the bars
ROW, BAR = 26.0, 14.0
FILL = "#b0b0b0"
ROUND = 1.0e-6  # in: less is rounding
MOST = 24  # rows


def gap_figure(drawn: GapPicture, name: str, system: Any = "US", key: str = "gap") -> str:
    """The drawing as an `<svg>` element.

    Parameters
    ----------
    drawn : GapPicture
        Inches and lbf.
    name : str
        Of the piece; any text.
    system : 'US' or 'SI'
        Units of the labels.
    key : str
        Unique in the page; the alternative text is tied to the drawing by it.
    """
    board = Board(WIDTH, key, f"{name}: gap under {drawn.beam}", describe(drawn, system))
    board.lettering(MARGIN, 14, f"What closes the gap between {drawn.beam} and {drawn.name}")
    start, room = MARGIN + NAMES, WIDTH - 2 * MARGIN - NAMES - FIGURES
    rows = _rows(drawn)
    most = max(drawn.gap or 0.0, drawn.needed, *(max(a, b) for _, a, b in rows), 1e-6)
    least = min(0.0, *(min(a, b) for _, a, b in rows))

    def to_x(value: float) -> float:
        return start + room * (value - least) / (most - least)

    top, low = 30.0, 30.0 + ROW * (len(rows) + 2)
    board.line((to_x(0.0), top), (to_x(0.0), low), width=1.0)
    if drawn.gap is not None:
        short = [(to_x(drawn.gap), top + ROW), (to_x(most), top + ROW), (to_x(most), low), (to_x(drawn.gap), low)]
        if drawn.needed > drawn.gap + ROUND:
            board.strokes(hatching([short], 45.0, 7.0), stroke=GRAY)
        board.line((to_x(drawn.gap), top), (to_x(drawn.gap), low), width=3.0)
    _row(board, "gap as left", top, bold=True)
    if drawn.gap is None:
        board.lettering(start + 6, top + 17, "not known")
    else:
        board.box(to_x(0.0), top + 6, max(to_x(drawn.gap) - to_x(0.0), 0.1), BAR, fill=PAPER, stroke=1.8)
        _figure(board, _left(drawn.gap, system), top, bold=True)
    for what, a, b in rows:
        top += ROW
        _row(board, what, top)
        x0, x1 = sorted((to_x(a), to_x(b)))
        board.box(x0, top + 6, max(x1 - x0, 0.8), BAR, fill=FILL if b >= a else PAPER, stroke=1.2)
        board.line((to_x(b), top + 6 + BAR), (to_x(b), top + ROW + 6), width=0.8, stroke=GRAY)
        _figure(board, show(b - a, "small length", system), top)
    top += ROW
    _row(board, "needed in all", top, bold=True)
    board.box(to_x(0.0), top + 6, max(to_x(drawn.needed) - to_x(0.0), 0.8), BAR, fill=INK, stroke=1.2)
    _figure(board, show(drawn.needed, "small length", system), top, bold=True)
    return board.done(_ending(board, drawn, low, system) + 8.0)


def describe(drawn: GapPicture, system: Any = "US") -> str:
    """The drawing in words, for readers who do not see it."""
    gap = "not known" if drawn.gap is None else _left(drawn.gap, system)
    said = [f"Gap under {drawn.beam} as left: {gap}."]
    said += [f"{what[:1].upper()}{what[1:]}: {show(size, 'small length', system)}." for what, size in drawn.steps]
    return " ".join([*said, f"Needed in all: {show(drawn.needed, 'small length', system)}.", *_words(drawn, system)])


def _left(gap: float, system: Any) -> str:
    """The gap as a tape shows it, where that is exact; else in decimals, as all that is compared with it."""
    exact = system == "US" and abs(16.0 * gap - round(16.0 * gap)) < ROUND
    return show(gap, "length" if exact else "small length", system)


def _rows(drawn: GapPicture) -> list[tuple[str, float, float]]:
    """Each step from where the one before ended; those that do not fit are put together."""
    steps = [(what, size) for what, size in drawn.steps if math.isfinite(size)]
    if len(steps) > MOST:
        rest = steps[MOST - 1 :]
        steps = [*steps[: MOST - 1], (f"{len(rest)} more", sum(size for _, size in rest))]
    found, reached = [], 0.0
    for what, size in steps:
        found.append((what, reached, reached + size))
        reached += size
    return found


def _row(board: Board, text: str, top: float, *, bold: bool = False) -> None:
    board.lettering(MARGIN, top + 17, clipped(text, NAMES - 10), bold=bold, tip=text)


def _figure(board: Board, text: str, top: float, *, bold: bool = False) -> None:
    board.lettering(WIDTH - MARGIN, top + 17, text, anchor="end", bold=bold)


def _ending(board: Board, drawn: GapPicture, low: float, system: Any) -> float:
    if drawn.gap is not None and drawn.needed > drawn.gap + ROUND:
        board.lettering(MARGIN, low + LINE, "Hatched: this much is missing.")
        low += LINE
    for text in _words(drawn, system):
        low = told(board, text, low)
    return low


def _words(drawn: GapPicture, system: Any) -> list[str]:
    """What follows from it."""
    force = show(drawn.force, "force", system)
    if drawn.gap is None:
        more = f" Without any gap {drawn.beam} would put {force} on {drawn.name}." if drawn.force > 0.0 else ""
        return [f"Whether it stays clear is not known: measure the gap.{more}"]
    over = drawn.gap - drawn.needed
    if over >= -ROUND:
        return [f"{show(max(over, 0.0), 'small length', system)} to spare."]
    said = [f"{show(-over, 'small length', system)} too little."]
    if drawn.force > 0.0:
        said.append(f"{drawn.beam} comes down on {drawn.name} with up to {force}.")
    return said
