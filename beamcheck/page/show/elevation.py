"""The drawing of a piece on the page: a beam with seats, loads and clear span to one scale; others as in the shop."""

from __future__ import annotations

from collections.abc import Callable
from itertools import pairwise
from typing import Any

from ...checks.core.result import Figure, PieceResult
from ...model.beams import Beam
from ...model.job import Job
from ...model.posts import Post
from ...sheet.figures.svg import INK, PAPER, TEXT, Board, clipped, text_width
from ...sheet.shop.drawing import piece_drawing
from ...units import show

WIDTH, SIDE = 460.0, 34.0
WOOD, GRAIN, WALL = "#ece5d5", "#b9ad94", "#8a8a82"
ROW = 22.0
SEAT_HIGH = 34.0
LEAST_DEEP = 7.0


def drawing_of(piece: PieceResult, job: Job, units: str, key: str = "drawing") -> str:
    """An `<svg>` element, '' where there is nothing to draw; `key` is unique in the page."""
    given = _given(job, piece.name)
    if isinstance(given, Beam) and piece.figure is not None and piece.figure.length > 0.0:
        return _beam(piece.figure, given, job, piece.understood, units, key)
    if isinstance(given, Post) and piece.figure is not None and piece.figure.length > 0.0:
        return _post(piece.figure, given, job, piece.understood, key)
    return piece_drawing(piece, given, units, key)[0]


def _given(job: Job, name: str) -> object:
    every: tuple[Any, ...] = (*job.beam, *job.bracket, *job.anchor, *job.trim, *job.post, *job.rafter, *job.tie)
    return next((one for one in every if one.name == name), None)


def _beam(figure: Figure, beam: Beam, job: Job, about: str, units: str, key: str) -> str:
    board = Board(WIDTH, key, f"{beam.name}, to scale", about)
    halves = [0.5 * (one.bearing or 0.0) for one in beam.supports]
    left = min(0.0, *(one.at - half for one, half in zip(beam.supports, halves, strict=True)))
    right = max(figure.length, *(one.at + half for one, half in zip(beam.supports, halves, strict=True)))
    scale = (WIDTH - 2 * SIDE) / max(right - left, 1e-6)

    def to_x(place: float) -> float:
        return SIDE + scale * (place - left)

    top = _loads(board, figure, to_x, 6.0)
    deep = max(scale * figure.depth, LEAST_DEEP)
    board.shape(
        [(to_x(left), top), (to_x(right), top), (to_x(right), top + deep), (to_x(left), top + deep)],
        fill=WOOD,
        width=1.8,
    )
    for part in (0.3, 0.62, 0.82):
        if deep > 14.0:
            wide = to_x(right) - to_x(left)
            board.line(
                (to_x(left) + 6, top + part * deep),
                (to_x(left) + wide * (1.0 - 0.1 * part), top + part * deep),
                width=0.7,
                stroke=GRAIN,
            )
    for cut in figure.cuts:
        upper = top + deep - (cut.from_bottom + cut.depth) / figure.depth * deep
        lower = top + deep - cut.from_bottom / figure.depth * deep
        x0, x1 = to_x(cut.start), max(to_x(cut.end), to_x(cut.start) + 2.0)
        board.shape(((x0, upper), (x1, upper), (x1, lower), (x0, lower)), fill=PAPER, width=1.2, dash="4 2")
    foot = top + deep
    end = foot
    existing = {one.name for one in job.existing}
    for one, half in zip(beam.supports, halves, strict=True):
        x0, x1 = to_x(one.at - (half or 1.0)), to_x(one.at + (half or 1.0))
        if x1 - x0 < 4.0:
            x0, x1 = (x0 + x1) / 2 - 2.0, (x0 + x1) / 2 + 2.0
        if one.holds == "rests":
            _block(board, x0, x1, foot, hatched=one.on in existing, open_=not one.bearing)
        else:
            board.line((x0 - 2, top - 4), (x0 - 2, foot + 4), (x1 + 2, foot + 4), (x1 + 2, top - 4), width=2.4)
    end = _names(board, [(to_x(one.at), one.on) for one in beam.supports], foot + SEAT_HIGH)
    ordered = sorted(zip(beam.supports, halves, strict=True), key=lambda both: both[0].at)
    y = end + 20.0
    for (one, half), (other, behind) in pairwise(ordered):
        first, last = one.at + half, other.at - behind
        if last > first:
            known = half > 0.0 and behind > 0.0
            _dimension(
                board, to_x(first), to_x(last), y, f"{show(last - first, 'length', units)}{' clear' if known else ''}"
            )
    return board.done(y + 16.0)


def _loads(board: Board, figure: Figure, at: Callable[[float], float], top: float) -> float:
    spread = [one for one in figure.loads if one.shape == "line"]
    for one in spread:
        text = f"{one.kind}: {one.text}"
        board.lettering(WIDTH / 2, top + 12, clipped(text, WIDTH - 20), anchor="middle", tip=text)
        x0, x1 = at(one.start), max(at(one.end), at(one.start) + 2.0)
        board.line((x0, top + ROW - 2), (x1, top + ROW - 2), width=1.0)
        count = max(int((x1 - x0) / 18.0), 1)
        board.strokes(
            [
                ((x0 + (x1 - x0) * i / count, top + ROW - 2), (x0 + (x1 - x0) * i / count, top + ROW + 6))
                for i in range(count + 1)
            ],
            width=0.9,
            stroke=INK,
        )
        top += ROW + 10.0
    points = [one for one in figure.loads if one.shape != "line"]
    for one in points:
        x = at(one.start)
        text = f"{one.kind}: {one.text}"
        right = x < WIDTH / 2
        shown = clipped(text, (WIDTH - x if right else x) - 14)
        board.lettering(x + 7 if right else x - 7, top + 12, shown, anchor="start" if right else "end", tip=text)
        board.line((x, top), (x, top + ROW), width=1.6)
        top += ROW
    for one in points:
        x = at(one.start)
        board.shape(((x - 4, top), (x + 4, top), (x, top + 9)), fill=INK)
    return top + (12.0 if points else 4.0)


def _block(board: Board, x0: float, x1: float, foot: float, *, hatched: bool, open_: bool) -> None:
    """What it rests on: wood, or hatched where it is there already; dashed where nobody has measured the seat."""
    fill = PAPER if hatched else WOOD
    board.shape(
        ((x0, foot), (x1, foot), (x1, foot + SEAT_HIGH - 8), (x0, foot + SEAT_HIGH - 8)),
        fill=fill,
        width=1.4,
        dash="4 3" if open_ else "",
    )
    if hatched:
        lines = []
        x = x0 - SEAT_HIGH
        while x < x1:
            a, b = max(x, x0), min(x + SEAT_HIGH - 8, x1)
            if b > a:
                lines.append(((a, foot + SEAT_HIGH - 8 - (a - x)), (b, foot + SEAT_HIGH - 8 - (b - x))))
            x += 6.0
        board.strokes(lines, width=0.8, stroke=WALL)


def _names(board: Board, places: list[tuple[float, str]], top: float) -> float:
    rows: list[float] = []
    for x, name in sorted(places):
        text = clipped(name, WIDTH / 2 - 10)
        wide = text_width(text)
        left = min(max(x - wide / 2, 2.0), WIDTH - 2 - wide)
        row = next((i for i, end in enumerate(rows) if end + 8 < left), len(rows))
        rows[row : row + 1] = [left + wide]
        board.lettering(left, top + 6 + 16 * row, text, tip=name)
    return top + 16 * len(rows)


def _dimension(board: Board, x0: float, x1: float, y: float, text: str) -> None:
    half = 0.5 * text_width(text) + 8.0
    fits = 2 * half < x1 - x0 - 8.0
    middle = 0.5 * (x0 + x1)
    for first, last in ((x0, middle - half), (middle + half, x1)) if fits else ((x0, x1),):
        board.line((first, y), (last, y), width=0.9)
    for x in (x0, x1):
        board.line((x, y - 16), (x, y + 5), width=0.8)
        board.line((x - 4, y + 4), (x + 4, y - 4), width=1.3)
    board.lettering(middle, y + 5 if fits else y + TEXT + 6, text, anchor="middle", bold=True)


def _post(figure: Figure, post: Post, job: Job, about: str, key: str) -> str:
    """Upright, to one scale."""
    board = Board(WIDTH, key, f"{post.name}, to scale", about)
    high = 230.0
    wide = max(figure.depth * high / figure.length, LEAST_DEEP)
    middle, top = WIDTH / 2, 44.0
    board.line((middle, 6), (middle, top - 8), width=2.0)
    board.shape(((middle - 5, top - 10), (middle + 5, top - 10), (middle, top - 1)), fill=INK)
    board.shape(
        (
            (middle - wide / 2, top),
            (middle + wide / 2, top),
            (middle + wide / 2, top + high),
            (middle - wide / 2, top + high),
        ),
        fill=WOOD,
        width=1.8,
    )
    _block(
        board, middle - 34, middle + 34, top + high, hatched=post.on in {one.name for one in job.existing}, open_=False
    )
    board.lettering(middle, top + high + SEAT_HIGH + 8, clipped(post.on, WIDTH - 20), anchor="middle", tip=post.on)
    x = middle + wide / 2 + 40
    board.line((x, top), (x, top + high), width=0.9)
    for y in (top, top + high):
        board.line((x - 4, y + 4), (x + 4, y - 4), width=1.3)
    board.lettering(x + 10, top + high / 2, show(post.height, "length"), bold=True)
    words = {"pinned": "held sideways", "fixed": "held and cannot turn", "free": "held by nothing"}
    board.lettering(middle - wide / 2 - 12, top + 14, f"top {words[post.top_restraint]}", anchor="end")
    return board.done(top + high + SEAT_HIGH + 16)
