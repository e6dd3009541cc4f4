"""The drawing of a stress over a bracket: classes in gray, pressing hatched, a line at the limit, zones not read."""

from __future__ import annotations

import math
from collections.abc import Callable
from typing import Any

import numpy as np

from ....checks.brackets.drawing import LIFTS
from ....checks.core.pictures.others import StressPicture
from ....records import dataclass
from ....units import show
from ..curves import thinned
from ..svg import GRAY, INK, PAPER, Board, Point
from .board import LINE, MARGIN, WIDTH, Ring, hatching, joined, same_way, told
from .stress_bands import between, line_at, triangles_of

GRAYS = ("#fff", "#d4d4d4", "#999", "#4d4d4d")  # little to much; evenly apart in lightness
HATCHED = (INK, INK, INK, PAPER)  # strokes over them where it is pressed
PRESSED_AT, PRESSED_APART, NOT_READ_AT, NOT_READ_APART = 135.0, 6.0, 45.0, 4.5
HIGHEST, LARGEST, WIDEST = 216.0, 26.0, 330.0  # drawing units: the bracket, an inch, the bracket's width
BOX, DEEP = 50.0, 20.0  # one class in the scale
ACTING = 26.0  # length of the arrow of a load
EASED = 0.35  # drawing units
CLASSES = 3  # above the least one, each way


@dataclass(frozen=True)
class Classes:
    """`borders`: psi, rising; a class is the number of borders that the size of a stress is above."""

    borders: tuple[float, ...]
    limit: float


def classes_of(limit: float, most: float) -> Classes:
    """Borders that double from one to the next, the limit among them where the stress comes near it.

    Parameters
    ----------
    limit, most : the limit of tension and the largest tension, psi.
    """
    if not (math.isfinite(limit) and limit > 0.0):
        top = max(most, 1e-6) if math.isfinite(most) else 1.0
        return Classes((0.25 * top, 0.5 * top, 0.75 * top), 0.0)
    over = math.ceil(math.log2(most / limit)) if limit < most < math.inf else 1
    if over > CLASSES:  # far above: the limit, and two on the way to the top
        return Classes((limit, limit * 2.0 ** (over // 2), limit * 2.0 ** (over - 1)), limit)
    start = max(over, 1) - CLASSES
    return Classes((limit * 2.0**start, limit * 2.0 ** (start + 1), limit * 2.0 ** (start + 2)), limit)


def stress_figure(drawn: StressPicture, name: str, system: Any = "US", key: str = "stress") -> str:
    """The drawing as an `<svg>` element.

    Parameters
    ----------
    drawn : StressPicture
        Inches and psi, x out from the wall face, y down from the top.
    name : str
        Of the piece; any text.
    system : 'US' or 'SI'
        Units of the scale.
    key : str
        Unique in the page; the alternative text is tied to the drawing by it.
    """
    board = Board(WIDTH, key, f"{name}: {drawn.what}", describe(drawn, system))
    reach = max(max(x for x, _ in drawn.outline), 1e-6)
    deep = max(max(y for _, y in drawn.outline), 1e-6)
    scale = min(WIDEST / reach, HIGHEST / deep, LARGEST)
    left, top = max(0.5 * (WIDTH - scale * reach), 40.0), 48.0

    def at(x: float, y: float) -> Point:
        return left + scale * x, top + scale * y

    outline = [at(x, y) for x, y in drawn.outline]
    classes = classes_of(drawn.limit, _most(drawn))
    cells = [same_way([at(x, y) for x, y in cell]) for cell in drawn.cells]
    _stresses(board, cells, np.asarray(drawn.values, dtype=float), classes)
    _not_read(board, [[at(x, y) for x, y in zone] for zone in drawn.left_out], outline, top + scale * deep + 60)
    board.lettering(MARGIN, 14, f"{drawn.what[:1].upper()}{drawn.what[1:]}")
    board.shape(outline, fill="none", width=2.0)
    foot = top + scale * deep
    board.line((left, top - 14), (left, foot + 14), width=2.2)
    wall = [(left - 12, top - 14), (left, top - 14), (left, foot + 14), (left - 12, foot + 14)]
    board.strokes(hatching([wall], 45.0, 8.0), stroke=GRAY)
    _acting(board, drawn, at, left, deep)
    for number, (x, y, _) in enumerate(drawn.marks):
        _mark(board, *at(x, y), _letter(number), above=y < 0.1 * deep)
    foot = _scale(board, classes, foot + 42, system)
    for number, (_, _, text) in enumerate(drawn.marks):
        foot = told(board, f"{_letter(number)}: {text}.", foot)
    if classes.limit:
        foot = told(board, _about_limit(drawn, classes, system), foot)
    if drawn.left_out:
        foot = told(board, "Close strokes in a broken line: no stress is read there.", foot)
    return board.done(foot + 8.0)


def describe(drawn: StressPicture, system: Any = "US") -> str:
    """The drawing in words, for readers who do not see it."""
    most, least = _most(drawn), min((value for value in drawn.values if math.isfinite(value)), default=0.0)
    said = [f"{drawn.what[:1].upper()}{drawn.what[1:]}, as a picture over the side of the bracket.",
            f"Highest mean of a cell that is read {show(most, 'stress', system)}, lowest of all "
            f"{show(least, 'stress', system)}."]  # fmt: skip
    for x, y, text in drawn.marks:
        place = f"{show(max(x, 0.0), 'length', system)} out and {show(max(y, 0.0), 'length', system)} down"
        said.append(f"{text[:1].upper()}{text[1:]}, {place}.")
    if drawn.limit > 0.0:
        said.append(_about_limit(drawn, classes_of(drawn.limit, most), system))
    if drawn.left_out:
        said.append(f"Places where no stress is read: {len(drawn.left_out)}.")
    return " ".join(said)


def _acting(board: Board, drawn: StressPicture, at: Callable[[float, float], Point], left: float, deep: float) -> None:
    """What loads it and what holds it: arrows at the top edge, the fasteners at the wall."""
    for start, end, text in drawn.loads:
        (x0, y), (x1, _) = at(start, 0.0), at(end, 0.0)
        count = 1 if x1 - x0 < 8.0 else max(2, min(int((x1 - x0) / 24.0) + 1, 10))
        for i in range(count):
            x = x0 + (x1 - x0) * (i / (count - 1) if count > 1 else 0.5)
            tail, tip = (y - ACTING, y - 2) if not text.endswith(LIFTS) else (y - 2, y - ACTING)
            way = math.copysign(1.0, tip - tail)
            board.line((x, tail), (x, tip), width=1.6)
            board.shape(((x - 3.5, tip - 7 * way), (x + 3.5, tip - 7 * way), (x, tip)), fill=INK, width=0.4)
        if count > 1:
            board.line((x0, y - ACTING), (x1, y - ACTING), width=1.4)
    for y, _into, _name in drawn.anchors:
        if y <= deep:
            at_y = at(0.0, y)[1]
            board.line((left - 20, at_y), (left + 10, at_y), width=4.4, stroke=PAPER)
            board.line((left - 20, at_y), (left + 10, at_y), width=2.4)
            board.line((left + 10, at_y - 4), (left + 10, at_y + 4), width=2.8)


def _about_limit(drawn: StressPicture, classes: Classes, system: Any) -> str:
    limit = show(classes.limit, "stress", system)
    if _most(drawn) > classes.limit:
        return f"Inside the thick line the wood is pulled apart by more than {limit}."
    return f"Nowhere that is read is the wood pulled apart by more than {limit}."


def _most(drawn: StressPicture) -> float:
    """The largest tension of a cell whose middle is read."""
    found = [0.0]
    for cell, value in zip(drawn.cells, drawn.values, strict=True):
        if math.isfinite(value) and value > found[0]:
            x, y = sum(p[0] for p in cell) / len(cell), sum(p[1] for p in cell) / len(cell)
            if not any(_holds(zone, x, y) for zone in drawn.left_out):
                found[0] = value
    return found[0]


def _holds(zone: Ring, x: float, y: float) -> bool:
    odd = False
    for (x0, y0), (x1, y1) in zip(zone, [*zone[1:], zone[0]], strict=True):
        if (y0 <= y) != (y1 <= y) and x < x0 + (y - y0) / (y1 - y0) * (x1 - x0):
            odd = not odd
    return odd


def _stresses(board: Board, cells: list[Ring], values: np.ndarray, classes: Classes) -> None:
    """One area for each class; strokes where the wood is pressed; a line around all that is above the limit."""
    triangles = triangles_of(cells, values)
    borders = (*classes.borders, math.inf)
    for size in range(1, CLASSES + 1):
        low, high = borders[size - 1], borders[size]
        for sign in (-1, 1):
            rings = [_eased(ring) for ring in joined(between(triangles, *sorted((sign * low, sign * high))))]
            if not rings:
                continue
            board.area(rings, fill=GRAYS[size], width=0.5, stroke=GRAYS[size])
            if sign < 0:
                board.strokes(hatching(rings, PRESSED_AT, PRESSED_APART), width=0.9, stroke=HATCHED[size])
    if classes.limit:
        rim = line_at(triangles, classes.limit)
        board.strokes(rim, width=4.6, stroke=PAPER)
        board.strokes(rim, width=2.4)


def _eased(ring: list[Point]) -> list[Point]:
    """The ring without corners that no eye would miss."""
    return thinned([*ring, ring[0]], EASED)[:-1]


def _not_read(board: Board, zones: list[list[Point]], outline: list[Point], foot: float) -> None:
    """Zones, cut off at the outline by paper over all that is outside it."""
    for zone in zones:
        board.area([zone])
        board.strokes(hatching([zone], NOT_READ_AT, NOT_READ_APART), stroke=GRAY)
        board.shape(zone, fill="none", width=1.2, dash="4 3")
    if zones:
        xs, ys = [x for zone in zones for x, _ in zone], [y for zone in zones for _, y in zone]
        left, right = min(-2.0, *xs) - 2, max(WIDTH, *xs) + 2
        top, foot = min(-2.0, *ys) - 2, max(foot, *ys) + 2
        context = [(left, top), (right, top), (right, foot), (left, foot)]
        board.area([context, outline])


def _mark(board: Board, x: float, y: float, letter: str, *, above: bool) -> None:
    """A ring at the place and its letter beside it, for a place at the top edge above it."""
    board.ring(x, y, 5.5, fill="none", width=5.0)
    board.ring(x, y, 5.5, fill=PAPER, width=2.0)
    board.disc(x, y, 1.8)
    if above:
        board.lettering(x - 12, y - 10, letter, anchor="middle", bold=True)
    else:
        board.lettering(x + 10, y + 5, letter, bold=True)


def _letter(number: int) -> str:
    return chr(ord("A") + number) if number < 26 else str(number + 1)


def _scale(board: Board, classes: Classes, top: float, system: Any) -> float:
    """The classes side by side, pressed on the left; figures at the borders; the limit marked."""
    count = 2 * CLASSES + 1
    left = 0.5 * (WIDTH - count * BOX)
    board.lettering(left, top, "pressed together")
    board.lettering(left + count * BOX, top, "pulled apart", anchor="end")
    board.lettering(0.5 * WIDTH, top, "little", anchor="middle")
    top += 6
    for place in range(count):
        kind = place - CLASSES
        x = left + BOX * place
        ring = [(x, top), (x + BOX, top), (x + BOX, top + DEEP), (x, top + DEEP)]
        board.area([ring], fill=GRAYS[abs(kind)])
        if kind < 0:
            board.strokes(hatching([ring], PRESSED_AT, PRESSED_APART), width=0.9, stroke=HATCHED[-kind])
        board.shape(ring, fill="none", width=1.0)
    foot = top + DEEP
    for place, border in enumerate((*(-b for b in reversed(classes.borders)), *classes.borders)):
        x = left + BOX * (place + 1)
        board.line((x, foot), (x, foot + 4), width=1.0)
        figure = show(border, "stress", system).rpartition(" ")[0]
        at_limit = classes.limit > 0.0 and border == classes.limit
        board.lettering(x, foot + 17, figure, anchor="middle", bold=at_limit)
        if at_limit:
            board.line((x, top - 4), (x, foot + 4), width=3.0)
            board.shape(((x - 5, foot + 30), (x + 5, foot + 30), (x, foot + 21)), fill=INK)
            board.lettering(x + 9, foot + 32, "marked", bold=True)
    unit = show(classes.borders[0], "stress", system).rpartition(" ")[2]
    board.lettering(left + count * BOX + 3, foot + 17, unit)
    return foot + LINE * 2 + 4
