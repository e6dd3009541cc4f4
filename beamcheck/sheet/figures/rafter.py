"""The drawing of a rafter at its slope: birdsmouth, tail, ridge and tie, with the forces that act there."""

from __future__ import annotations

import math
from textwrap import wrap
from typing import Any

from ...checks.core.pictures.others import RafterPicture
from ...units import show
from .svg import GRAY, INK, PAPER, Board, Point, clipped, letters_in, tied

WIDTH, SIDE = 440.0, 52.0
DASH = "5 3"
NEGLIGIBLE = 0.5  # lbf


def rafter_figure(picture: RafterPicture, name: str, system: Any = "US", key: str = "figure") -> str:
    """The drawing as an `<svg>` element; parameters as those of `beam_figure`."""
    board = Board(WIDTH, key, f"{name}: the rafter at its slope", describe(picture, system))
    angle = math.radians(picture.slope)
    over = picture.tail * math.cos(angle)
    across = picture.run * (2 if picture.pair else 1) + over * (2 if picture.pair else 1)
    scale = min((WIDTH - 2 * SIDE) / across, 300.0 / max((picture.run + over) * math.tan(angle), 1e-6))
    left = 0.5 * (WIDTH - scale * across)
    y = 4.0
    for text in picture.loads[:5]:
        for line in wrap(tied(text.replace(" wide", "\u00a0wide")), letters_in(WIDTH - 16), subsequent_indent="  "):
            y += 15
            board.lettering(8, y, line)
    high = scale * picture.depth / math.cos(angle)
    ridge_y = y + 24 + high
    wall_x, ridge_x = left + scale * over, left + scale * (over + picture.run)
    wall_y = ridge_y + scale * picture.run * math.tan(angle)
    _stick(board, picture, (left, wall_x, ridge_x), (wall_y, ridge_y), scale, high)
    if picture.pair:
        mirrored = tuple(2 * ridge_x - x for x in (left, wall_x, ridge_x))
        _stick(board, picture, mirrored, (wall_y, ridge_y), scale, high, dash="" if picture.other else DASH)
        board.box(ridge_x - 2.5, ridge_y - high - 3, 5, high + 8, stroke=1.4)
    else:
        board.box(ridge_x - 4, ridge_y, 10, 16, stroke=1.4)
    if picture.tie:
        tie_y = wall_y - scale * picture.tie_height
        thick = max(scale * picture.tie_depth, 4.0)
        start = wall_x + scale * picture.tie_height / max(math.tan(angle), 1e-6)
        board.box(start, tie_y - thick, 2 * (ridge_x - start), thick, fill="#f1f1f1", stroke=1.4)
    foot = _walls(board, picture, wall_x, ridge_x, wall_y, system)
    mid = (0.5 * (wall_x + ridge_x), 0.5 * (wall_y + ridge_y) - high)
    board.lettering(mid[0] - 10, mid[1] - 8, f"slope {show(picture.slope, 'slope', system)}", anchor="end")
    foot = _dimension(board, wall_x, ridge_x, foot + 14, f"run {show(picture.run, 'length', system)}")
    for text in _texts(picture, system):
        for line in wrap(tied(text), letters_in(WIDTH - 16), subsequent_indent="  "):
            foot += 16
            board.lettering(8, foot, clipped(line, WIDTH - 16))
    return board.done(foot + 8)


def describe(picture: RafterPicture, system: Any = "US") -> str:
    """The drawing in words."""
    said = [
        f"Run {show(picture.run, 'length', system)}, slope {show(picture.slope, 'slope', system)}.",
        f"From {picture.wall} to {picture.ridge}.",
    ]
    at_wall = f"At {picture.wall} {show(picture.reaction, 'force', system)} at most."
    return " ".join([*said, *picture.loads, at_wall, *(f"{text}." for text in _texts(picture, system))])


def _texts(picture: RafterPicture, system: Any) -> list[str]:
    """What stands below: the cut, and what acts along stick and tie."""
    found = []
    if picture.seat_cut is not None:
        level = f", level seat {show(picture.seat, 'length', system)}" if picture.seat is not None else ""
        found.append(f"Birdsmouth: cut {show(picture.seat_cut, 'length', system)} square to the rafter{level}")
    if picture.tail > 0:
        found.append(f"Tail: {show(picture.tail, 'length', system)} up the slope to the wall")
    axial = [
        f"{word} by {show(value, 'force', system)}"
        for word, value in (("pressed", picture.pressed), ("pulled", picture.pulled)) if value > NEGLIGIBLE
    ]  # fmt: skip
    if axial:
        found.append(f"Along the rafter at most: {', '.join(axial)}")
    if picture.tie:
        found.append(f"{picture.tie} takes the thrust: pulled by {show(picture.tied, 'force', system)} at most")
    if picture.pair and not picture.other:
        found.append("The rafter opposite is taken as the mirror image; nobody said what it rests on")
    return found


def _stick(
    board: Board, picture: RafterPicture, xs: tuple[float, ...], ys: tuple[float, float], scale: float, high: float, *,
    dash: str = "",
) -> None:  # fmt: skip
    """A rafter with its birdsmouth; `xs`: end of the tail, wall, ridge."""
    end, wall, ridge = xs
    wall_y, ridge_y = ys
    slope = (wall_y - ridge_y) / (ridge - wall) if ridge != wall else 0.0
    sign = 1.0 if ridge > wall else -1.0

    def under(x: float) -> float:
        return wall_y - slope * (x - wall)

    cut = scale * (picture.seat_cut or 0.0) / max(math.cos(math.radians(picture.slope)), 1e-6)
    lower: list[Point] = [(end, under(end) + cut)]
    if cut > 0:  # level seat to the inner face, plumb heel at the outer one
        seat = cut / max(abs(slope), 1e-6)
        lower += [(wall, wall_y + cut), (wall, wall_y), (wall + sign * seat, wall_y)]
    lower.append((ridge, under(ridge) + cut))
    upper = [(ridge, under(ridge) + cut - high), (end, under(end) + cut - high)]
    board.shape([*lower, *upper], fill=PAPER if dash else "#f1f1f1", width=1.6, dash=dash)


def _walls(board: Board, picture: RafterPicture, wall: float, ridge: float, y: float, system: Any) -> float:
    """What the feet rest on, and the arrows up."""
    places = [(wall, picture.wall, False)]
    if picture.pair:
        places.append((2 * ridge - wall, picture.other or "opposite wall", not picture.other))
    for x, name, open_ in places:
        board.shape(((x - 12, y + 1), (x + 14, y + 1), (x + 14, y + 13), (x - 12, y + 13)), width=1.3,
                    dash=DASH if open_ else "")  # fmt: skip
        if not open_:
            board.strokes([((x + i, y + 13), (x + i + 8, y + 1)) for i in range(-12, 7, 6)], stroke=GRAY)
        board.line((x, y + 44), (x, y + 23), width=1.8)
        board.shape(((x - 4, y + 24), (x + 4, y + 24), (x, y + 15)), fill=INK)
        anchor = "start" if x < WIDTH / 2 else "end"
        beside = x + 8 if anchor == "start" else x - 8
        board.lettering(beside, y + 28, clipped(name, 130), anchor=anchor, tip=name)
        board.lettering(beside, y + 43, show(picture.reaction, "force", system), anchor=anchor, bold=True)
        if picture.lift < -NEGLIGIBLE:
            board.lettering(beside, y + 58, f"lifts {show(-picture.lift, 'force', system)}", anchor=anchor)
    return y + (62 if picture.lift < -NEGLIGIBLE else 48)


def _dimension(board: Board, left: float, right: float, y: float, text: str) -> float:
    board.line((left, y), (right, y), width=0.8, stroke=GRAY)
    for x in (left, right):
        board.line((x - 3, y + 3), (x + 3, y - 3), width=1.2)
    board.lettering(0.5 * (left + right), y - 4, text, anchor="middle")
    return y
