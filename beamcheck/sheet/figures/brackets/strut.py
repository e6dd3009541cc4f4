"""The sketch of a braced bracket as a strut and two ties, with the triangle that their forces close."""

from __future__ import annotations

import math
from typing import Any

from ....checks.core.pictures.others import StrutPicture
from ....units import show
from ..svg import GRAY, INK, Board, Point
from .board import LINE, told

WIDTH = 440.0
LEFT, TOP = 118.0, 50.0  # of the corner where wall leg and top leg meet
ROOM, TALL = 132.0, 132.0  # for the sketch
TRIANGLE = 84.0  # longest side of the force triangle upright and level


def strut_figure(drawn: StrutPicture, name: str, system: Any = "US", key: str = "strut") -> str:
    """The drawing as an `<svg>` element; parameters as those of `gap_figure`."""
    board = Board(WIDTH, key, f"{name}: a strut and two ties", describe(drawn, system))
    board.lettering(8, 14, f"How the load goes, {drawn.combination}: a strut and two ties", bold=True)
    scale = min(ROOM / max(drawn.out, drawn.x_L), TALL / drawn.down)
    corner = (LEFT, TOP)
    head, foot = (LEFT + scale * drawn.out, TOP), (LEFT, TOP + scale * drawn.down)
    at = LEFT + scale * drawn.x_L
    board.line((LEFT, TOP - 14), (LEFT, foot[1] + 14), width=0.8, stroke=GRAY)
    board.line(corner, (max(head[0], at), TOP), width=1.8)
    board.line(corner, foot, width=1.8)
    board.line(foot, head, width=5.0)
    _arrow(board, (at, TOP - 30), (at, TOP - 2))
    board.lettering(at + 7, TOP - 18, f"P {show(drawn.load, 'force', system)}")
    board.lettering(LEFT + 8, TOP + 15, f"pulled {show(drawn.level, 'force', system)}")
    board.lettering(LEFT - 7, 0.5 * (TOP + foot[1]) - 3, "pulled", anchor="end")
    board.lettering(LEFT - 7, 0.5 * (TOP + foot[1]) + 12, show(drawn.upright, "force", system), anchor="end")
    mid = (0.5 * (foot[0] + head[0]), 0.5 * (foot[1] + head[1]))
    board.lettering(mid[0] + 14, mid[1] + 14, f"pressed {show(drawn.brace, 'force', system)}", bold=True)
    _arrow(board, (LEFT - 4, TOP), (LEFT - 34, TOP))
    _arrow(board, (LEFT - 34, foot[1]), (LEFT - 4, foot[1]))
    _triangle(board, drawn, system)
    y = max(foot[1], TOP + TALL * 0.75) + 26
    for text in _lines(drawn, system):
        y = told(board, text, y - LINE) + LINE
    return board.done(y)


def describe(drawn: StrutPicture, system: Any = "US") -> str:
    """The drawing in words."""
    brace, level, upright = (show(force, "force", system) for force in (drawn.brace, drawn.level, drawn.upright))
    return (
        f"Under {drawn.combination} {show(drawn.load, 'force', system)} {show(drawn.x_L, 'length', system)} out "
        f"presses the brace with {brace}, pulls the top leg with {level} and the wall leg with "
        f"{upright}; the three close a triangle."
    )


def _lines(drawn: StrutPicture, system: Any) -> list[str]:
    """What can be redone with a pocket calculator."""
    beta = f"{drawn.slope:.1f}°"
    brace, level = show(drawn.brace, "force", system), show(drawn.level, "force", system)
    upright, load = show(drawn.upright, "force", system), show(drawn.load, "force", system)
    lines = []
    if drawn.about_the_wall:
        x_L, x_b = (show(value, "small length", system) for value in (drawn.x_L, drawn.out))
        lines.append(f"brace: {load} × {x_L} / ({x_b} × sin {beta}) =\u00a0{brace}")
    lines.append(f"top leg: {brace} × cos {beta} = {level}")
    lines.append(f"wall leg: {brace} × sin {beta} = {upright}")
    rest = drawn.load - drawn.upright
    word = "down" if rest >= 0.0 else "up"
    lines.append(f"on the joint of the legs, {word}: {show(abs(rest), 'force', system)}")
    return lines


def _triangle(board: Board, drawn: StrutPicture, system: Any) -> None:
    """The three forces to scale, closed."""
    scale = TRIANGLE / max(drawn.level, drawn.upright, 1e-9)
    left, top = WIDTH - 40 - scale * drawn.level, TOP + 20
    right, foot = left + scale * drawn.level, top + scale * drawn.upright
    board.line((left, top), (right, top), width=1.6)
    board.line((left, top), (left, foot), width=1.6)
    board.line((left, foot), (right, top), width=4.0)
    board.lettering(0.5 * (left + right), top - 5, show(drawn.level, "force", system), anchor="middle")
    board.lettering(left - 5, 0.5 * (top + foot) + 4, show(drawn.upright, "force", system), anchor="end")
    board.lettering(0.5 * (left + right) + 10, 0.5 * (top + foot) + 14, show(drawn.brace, "force", system))
    board.lettering(WIDTH - 8, foot + 18, f"closes at {drawn.slope:.1f}°", anchor="end")


def _arrow(board: Board, start: Point, end: Point) -> None:
    x, y = end
    run, rise = end[0] - start[0], end[1] - start[1]
    long = math.hypot(run, rise) or 1.0
    u, v = run / long, rise / long
    board.line(start, (x - 7 * u, y - 7 * v), width=1.8)
    board.shape(((x, y), (x - 9 * u - 4 * v, y - 9 * v + 4 * u), (x - 9 * u + 4 * v, y - 9 * v - 4 * u)), fill=INK)
