"""The drawing of a frame to scale: its members with their largest push and pull, its points, its feet."""

from __future__ import annotations

import math
from textwrap import wrap
from typing import Any

from ...checks.core.pictures.others import FrameBar, FramePicture
from ...units import show
from .svg import GRAY, INK, Board, Point, clipped, letters_in, text_width, tied

TIED = "\u00a0"  # a number and what it stands for on one line
WIDTH, SIDE, HIGHEST = 440.0, 48.0, 330.0
LIGHT, DARK = "#f4f4f4", "#c9c9c9"
NEGLIGIBLE = 0.5  # lbf
UPRIGHT = 11.0  # of height to a letter: a member with room for its force along it
LOADS = 4  # that are written over a frame; its page has all in a table
NOT_TOGETHER = (
    "Largest push and pull of each member under any combination, feet and joints run both ways; they do not act "
    "together."
)


def frame_figure(picture: FramePicture, name: str, system: Any = "US", key: str = "figure") -> str:
    """The drawing as an `<svg>` element; parameters as those of `beam_figure`."""
    board = Board(WIDTH, key, f"{name}: the frame to scale", describe(picture, system))
    xs = [mark.x for mark in picture.points]
    ys = [mark.y for mark in picture.points]
    wide, tall = max(max(xs) - min(xs), 1.0), max(max(ys) - min(ys), 1.0)
    scale = min((WIDTH - 2 * SIDE) / wide, HIGHEST / tall)
    left = 0.5 * (WIDTH - scale * wide) - scale * min(xs)
    y = 4.0
    for text in () if picture.shown else picture.loads[:LOADS]:
        for line in wrapped(text):
            y += 15
            board.lettering(8, y, line)
    foot = y + 30 + scale * max(ys)

    def at(x: float, height: float) -> Point:
        return left + scale * x, foot - scale * height

    for bar in sorted(picture.bars, key=lambda one: one.name == picture.shown):
        _bar(board, bar, at(bar.x0, bar.y0), at(bar.x1, bar.y1), scale, dark=bar.name == picture.shown)
    for mark in picture.feet:
        foot_mark(board, at(mark.x, mark.y), mark.on, mark.up, mark.least, mark.thrust, system)
    for number, point in enumerate(picture.points, start=1):
        x, height = at(point.x, point.y)
        board.ring(x, height, 9.5)
        board.lettering(x, height + 5, str(number), anchor="middle")
    stands = {(mark.x, mark.y) for mark in picture.feet}
    for bar in picture.bars:
        at_foot = stands & {(bar.x0, bar.y0), (bar.x1, bar.y1)}
        outer = bool(at_foot) and not any(_steeper(one, bar) for one in picture.bars if at_foot & _ends(one))
        _forces(board, bar, at(bar.x0, bar.y0), at(bar.x1, bar.y1), system, outer=outer)
    low = foot - scale * min(ys) + 78
    board.line((left + scale * min(xs), low), (left + scale * max(xs), low), width=0.8, stroke=GRAY)
    for x in (left + scale * min(xs), left + scale * max(xs)):
        board.line((x - 3, low + 3), (x + 3, low - 3), width=1.2)
    board.lettering(WIDTH / 2, low - 4, show(max(xs) - min(xs), "length", system), anchor="middle")
    for text in () if picture.shown else (_points(picture, TIED), NOT_TOGETHER):  # a member's shows its place
        for line in wrapped(text):
            low += 16
            board.lettering(8, low + 4, line)
    return board.done(low + 14)


def wrapped(text: str) -> list[str]:
    """A text as lines of the drawing."""
    return [clipped(line, WIDTH - 16) for line in wrap(tied(text), letters_in(WIDTH - 16), subsequent_indent="  ")]


def describe(picture: FramePicture, system: Any = "US") -> str:
    """The drawing in words."""
    said = [f"{bar.name}: {_words(bar, system)}." for bar in picture.bars]
    feet = [f"On {mark.on} {show(mark.up, 'force', system)} at most." for mark in picture.feet]
    return " ".join([*picture.loads, *said, *feet, _points(picture)])


def _points(picture: FramePicture, between: str = " ") -> str:
    return "; ".join(f"{number}{between}{point.text}" for number, point in enumerate(picture.points, start=1))


def _words(bar: FrameBar, system: Any) -> str:
    parts = [f"{way} {show(force, 'force', system)}" for way, force in (("push", bar.push), ("pull", bar.pull))
             if force > NEGLIGIBLE]  # fmt: skip
    return ", ".join(parts) or "next to nothing"


def _bar(board: Board, bar: FrameBar, start: Point, end: Point, scale: float, *, dark: bool) -> None:
    length = math.dist(start, end)
    half = 0.5 * max(scale * bar.depth, 2.5)
    nx, ny = -(end[1] - start[1]) / length * half, (end[0] - start[0]) / length * half
    corners = [(start[0] + nx, start[1] + ny), (end[0] + nx, end[1] + ny), (end[0] - nx, end[1] - ny),
               (start[0] - nx, start[1] - ny)]  # fmt: skip
    board.shape(corners, fill=DARK if dark else LIGHT, width=1.8 if dark else 1.1)


def _ends(bar: FrameBar) -> set[Point]:
    return {(bar.x0, bar.y0), (bar.x1, bar.y1)}


def _steeper(one: FrameBar, other: FrameBar) -> bool:
    """Whether it rises more steeply from the foot that both share, where the other rises at all."""
    rise = abs(other.y1 - other.y0) / max(other.x1 - other.x0, 1e-9)
    return rise > 0.05 and abs(one.y1 - one.y0) / max(one.x1 - one.x0, 1e-9) > rise + 1e-9


def _forces(board: Board, bar: FrameBar, start: Point, end: Point, system: Any, *, outer: bool) -> None:
    """Beside a member its push and its pull: of what begins at a foot outside of it, else inside."""
    lines = [f"{sign} {show(force, 'force', system)}" for sign, force in (("−", bar.push), ("+", bar.pull))
             if force > NEGLIGIBLE]  # fmt: skip
    wide, rise = end[0] - start[0], start[1] - end[1]
    if abs(wide) < 0.3 * abs(rise):
        middle = 0.5 * (start[0] + end[0])
        if abs(rise) > UPRIGHT * len(lines[0] if lines else ""):  # along it, where no other member runs
            for number, text in enumerate(lines):
                across = middle + (16 + 14 * number if middle < 0.52 * WIDTH else -6 - 14 * number)
                along = start[1] - 0.58 * rise  # clear of what meets at its foot
                board.lettering(across, along, text, anchor="middle", upright=True)
            return
        inside = "start" if middle < 0.52 * WIDTH else "end"
        central = abs(middle - 0.5 * WIDTH) < 0.02 * WIDTH
        anchor = inside if outer or central else ("end" if inside == "start" else "start")
        x = middle + (9 if anchor == "start" else -9)
        y = start[1] - (0.62 if central else 0.38 if outer else 0.3) * rise
    elif abs(rise) < 0.05 * wide:
        x, y, anchor = start[0] + (0.26 if outer else 0.5) * wide, start[1] + 20, "middle"
    else:
        low = 0.3 if outer == (rise > 0) else 0.7
        t = low if outer else 0.5 if wide < 0.4 * WIDTH else 0.35 if rise > 0 else 0.65
        x, y = start[0] + t * wide, start[1] - t * rise
        up = outer
        anchor = "end" if (rise > 0) == up else "start"
        x += -9 if anchor == "end" else 9
        y += -6 - 14 * (len(lines) - 1) if up else 14
    for number, text in enumerate(lines):
        board.lettering(x, y + 14 * number, text, anchor=anchor)


def foot_mark(
    board: Board, at: Point, on: str, up: float, least: float, thrust: float, system: Any
) -> tuple[float, float, float, float]:
    """A foot: what it stands on and what comes to it; left, top, right and bottom of all that."""
    x, y = at
    board.shape(((x - 12, y + 9), (x + 12, y + 9), (x + 12, y + 19), (x - 12, y + 19)), width=1.3)
    board.strokes([((x + i, y + 19), (x + i + 8, y + 9)) for i in range(-12, 5, 6)], stroke=GRAY)
    board.line((x, y + 50), (x, y + 29), width=1.8)
    board.shape(((x - 4, y + 30), (x + 4, y + 30), (x, y + 21)), fill=INK)
    side = "start" if x < WIDTH / 2 else "end"
    beside = x + 8 if side == "start" else x - 8
    board.lettering(beside, y + 34, clipped(on, 150), anchor=side, tip=on)
    words = [show(up, "force", system)] if up > -NEGLIGIBLE else []
    if least < -NEGLIGIBLE:
        words.append(f"lifts {show(-least, 'force', system)}")
    if thrust > NEGLIGIBLE:
        words.append(f"thrust {show(thrust, 'force', system)}")
    text = ", ".join(words)
    if text_width(text) > WIDTH / 2 - 20:
        text = words[0]
    board.lettering(beside, y + 49, text, anchor=side, bold=True)
    wide = 8 + max(text_width(clipped(on, 150)), 1.1 * text_width(text))
    return (x - 12, y + 9, x + wide, y + 54) if side == "start" else (x - wide, y + 9, x + 12, y + 54)
