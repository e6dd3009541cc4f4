"""A frame under one combination: dark bands are pushed together, open bands pulled apart.

Told apart three times over, without color: by the band, by the arrows at its ends (what a member does to its points),
and by the sign before the force.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from typing import Any

from ...checks.core.pictures.others import FrameBar, FrameForces
from ...units import show
from .frame import HIGHEST, NEGLIGIBLE, SIDE, WIDTH, foot_mark, wrapped
from .svg import GRAY, INK, PAPER, PRINTED, TEXT, Board, Point, text_width

DARK = "#6b6b6b"
WIDEST, NARROWEST = 11.0, 3.0
ARROW = 9.0
HIGH = 0.41  # of the size of letters: half of what figures fill
STEEP = 0.1  # of a unit vector: along what is steeper letters may stand upright
PLACES = (0.5, 0.42, 0.58, 0.34, 0.66, 0.26, 0.74, 0.18, 0.82)  # along a member, at which its force may be written
Box = tuple[float, float, float, float]  # left, top, right, bottom
READ = (
    "Dark band, arrows toward its ends, −: pushed together. Open band, arrows away from its ends, +: pulled apart. "
    "As broad as the force is large; a thin line has next to none. Both signs: pushed in one length, pulled in another."
)


def forces_figure(picture: FrameForces, name: str, system: Any = "US", key: str = "figure") -> str:
    """The drawing as an `<svg>` element; parameters as those of `beam_figure`."""
    board = Board(WIDTH, key, f"{name}: forces under {picture.under}", describe(picture, system))
    xs, ys = [mark.x for mark in picture.points], [mark.y for mark in picture.points]
    wide, tall = max(max(xs) - min(xs), 1.0), max(max(ys) - min(ys), 1.0)
    scale = min((WIDTH - 2 * SIDE) / wide, HIGHEST / tall)
    left = 0.5 * (WIDTH - scale * wide) - scale * min(xs)
    y = 4.0
    for line in wrapped(f"Under {picture.under}"):
        y += 15
        board.lettering(8, y, line, bold=True)
    foot = y + 36 + scale * max(ys)

    def at(x: float, height: float) -> Point:
        return left + scale * x, foot - scale * height

    most = max((max(bar.push, bar.pull) for bar in picture.bars), default=0.0)
    for bar in picture.bars:
        _band(board, bar, at(bar.x0, bar.y0), at(bar.x1, bar.y1), most)
    taken = [
        foot_mark(board, at(mark.x, mark.y), mark.on, mark.up, mark.least, mark.thrust, system) for mark in picture.feet
    ]
    for point in picture.points:
        board.disc(*at(point.x, point.y), 3.0)
    for bar in sorted(picture.bars, key=_room):
        _words_at(board, picture, bar, at, system, taken)
    low = foot - scale * min(ys) + 58
    for line in wrapped(READ):
        low += 16
        board.lettering(8, low, line)
    return board.done(low + 12)


def describe(picture: FrameForces, system: Any = "US") -> str:
    """The drawing in words."""
    said = [f"{bar.name}: {' and '.join(_words(bar, system)) or 'next to nothing'}." for bar in picture.bars]
    feet = [f"On {mark.on} {show(mark.up, 'force', system)}." for mark in picture.feet]
    return " ".join([f"Under {picture.under}.", *said, *feet])


def _words(bar: FrameBar, system: Any) -> list[str]:
    """Where a member is pushed in one length of it and pulled in another, both."""
    return [f"{way} {show(force, 'force', system)}" for way, force in (("pushed", bar.push), ("pulled", bar.pull))
            if force > NEGLIGIBLE]  # fmt: skip


def _band(board: Board, bar: FrameBar, start: Point, end: Point, most: float) -> None:
    force = max(bar.push, bar.pull)
    if force <= NEGLIGIBLE:
        board.line(start, end, width=0.8, stroke=GRAY)
        return
    pushed = bar.push >= bar.pull
    half = 0.5 * (NARROWEST + (WIDEST - NARROWEST) * force / most)
    length = math.dist(start, end)
    ux, uy = (end[0] - start[0]) / length, (end[1] - start[1]) / length
    corners = [(x + side * half * -uy, y + side * half * ux) for (x, y), side in
               ((start, 1.0), (end, 1.0), (end, -1.0), (start, -1.0))]  # fmt: skip
    board.shape(corners, fill=DARK if pushed else PAPER, width=1.2)
    clear = min(0.16 * length, 26.0)
    for (x, y), way in ((start, 1.0), (end, -1.0)):
        tip = -way if pushed else way  # toward the point it pushes, away from the point it pulls
        middle = (x + way * clear * ux, y + way * clear * uy)
        a = half + 3.5
        board.shape(
            [(middle[0] + tip * ARROW * ux, middle[1] + tip * ARROW * uy), (middle[0] - a * uy, middle[1] + a * ux),
             (middle[0] + a * uy, middle[1] - a * ux)],
            fill=INK if pushed else PAPER, width=1.2,
        )  # fmt: skip


def _room(bar: FrameBar) -> tuple[bool, float]:
    """What has least room for words comes first: upright, where letters may stand along it, then the shortest."""
    length = math.dist((bar.x0, bar.y0), (bar.x1, bar.y1))
    return abs(bar.x1 - bar.x0) >= STEEP * length, length


def _words_at(
    board: Board, picture: FrameForces, bar: FrameBar, at: Callable[[float, float], Point], system: Any,
    taken: list[Box],
) -> None:  # fmt: skip
    """Beside the member, where least else is written or drawn; outside of the frame rather than inside."""
    forces = [f"{sign} {show(force, 'force', system)}" for sign, force in (("−", bar.push), ("+", bar.pull))
              if force > NEGLIGIBLE]  # fmt: skip
    if not forces:
        return
    text = ", ".join(forces)
    start, end = at(bar.x0, bar.y0), at(bar.x1, bar.y1)
    wide, length = PRINTED * text_width(text), math.dist(start, end)
    ux, uy = (end[0] - start[0]) / length, (end[1] - start[1]) / length
    lines = [(at(one.x0, one.y0), at(one.x1, one.y1)) for one in picture.bars]
    others = [line for line in lines if line != (start, end)]
    found: list[tuple[float, int, float, float, Box, bool]] = []
    for upright in (False, True) if abs(ux) < STEEP else (False,):
        half = (HIGH * TEXT, 0.5 * wide) if upright else (0.5 * wide, HIGH * TEXT)
        for side in (1.0, -1.0):  # over it first
            nx, ny = uy * side, -ux * side
            off = abs(nx) * half[0] + abs(ny) * half[1] + 0.5 * WIDEST + 3.0
            for t in PLACES:
                from_x, from_y = start[0] + t * (end[0] - start[0]), start[1] + t * (end[1] - start[1])
                x, y = from_x + nx * off, from_y + ny * off
                box = (x - half[0] - 1, y - half[1] - 1, x + half[0] + 1, y + half[1] + 1)
                over = 50 * sum(_meet(box, other) for other in taken) + sum(_crosses(box, *line) for line in lines)
                over += 4 * sum(_apart((from_x, from_y), (x, y), *line) for line in others)
                over += 100 * (box[0] < 2 or box[2] > WIDTH - 2)
                found.append((over, len(found), x, y, box, upright))
    _, _, x, y, box, upright = min(found)
    taken.append(box)
    x, y = (x + 0.36 * TEXT, y) if upright else (x, y + 0.36 * TEXT)
    board.lettering(x, y, text, anchor="middle", tip=bar.name, upright=upright)


def _meet(one: Box, other: Box) -> bool:
    return one[0] < other[2] and other[0] < one[2] and one[1] < other[3] and other[1] < one[3]


def _apart(one: Point, other: Point, start: Point, end: Point) -> bool:
    """Whether a line lies between two points."""

    def side(a: Point, b: Point, c: Point) -> float:
        return (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0])

    return side(start, end, one) * side(start, end, other) < 0 and side(one, other, start) * side(one, other, end) < 0


def _crosses(box: Box, start: Point, end: Point) -> bool:
    """Whether a line runs through a box: some of a few dozen points on it lie within."""
    steps = max(int(math.dist(start, end) / 4.0), 1)
    near = 0.5 * WIDEST - 2.0
    return any(
        box[0] - near < start[0] + i / steps * (end[0] - start[0]) < box[2] + near
        and box[1] - near < start[1] + i / steps * (end[1] - start[1]) < box[3] + near
        for i in range(steps + 1)
    )
