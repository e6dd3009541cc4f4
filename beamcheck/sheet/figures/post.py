"""The drawing of a post: from both sides at one scale, braced where it is, bowed as it would bow, loads off center."""

from __future__ import annotations

from itertools import pairwise
from typing import Any

from ...checks.core.pictures.others import PostPicture, Way
from ...units import show
from .svg import GRAY, INK, PAPER, Board, clipped, text_width

WIDTH, HEIGHT = 440.0, 128.0
CENTERS = (128.0, 318.0)
BOW = 13.0  # how far the dashed line bows out
ROOM = 420.0  # of a line of words under it
WAVES = 12  # stretches of it between two braces


def post_figure(picture: PostPicture, name: str, system: Any = "US", key: str = "figure") -> str:
    """The drawing as an `<svg>` element; parameters as those of `beam_figure`."""
    board = Board(WIDTH, key, f"{name}: the post from both sides", describe(picture, system))
    y = 4.0
    for line in _loads(picture, system):
        y += 15
        board.lettering(8, y, clipped(line, WIDTH - 16))
    top = y + 46
    scale = HEIGHT / picture.height if picture.height > 0 else 1.0
    for way, x in zip(picture.ways, CENTERS, strict=True):
        _side(board, picture, way, x, top, scale, system)
    foot = top + HEIGHT
    board.line((36, top), (36, foot), width=0.8, stroke=GRAY)
    for end in (top, foot):
        board.line((33, end + 3), (39, end - 3), width=1.2)
    board.lettering(32, top + HEIGHT / 2, show(picture.height, "length", system), anchor="middle", upright=True)
    foot += 14
    said = [f"on {picture.on}: {show(picture.force, 'force', system)} at most"]
    said.append(f"top {picture.held[0]}, foot {picture.held[1]}")
    both = "; ".join(said)
    for line in [both] if text_width(both) <= ROOM else said:
        foot += 15
        board.lettering(WIDTH / 2, foot, clipped(line, ROOM), anchor="middle")
    return board.done(foot + 6)


def _loads(picture: PostPicture, system: Any) -> list[str]:
    """What comes from above, as many on a line as fit."""
    lines: list[str] = []
    for one in picture.top:
        said = f"{one.name}: {show(one.force, 'force', system)}"
        if lines and text_width(f"{lines[-1]}; {said}") <= WIDTH - 16:
            lines[-1] += f"; {said}"
        else:
            lines.append(said)
    return lines


def describe(picture: PostPicture, system: Any = "US") -> str:
    """The drawing in words."""
    said = [
        f"{show(picture.height, 'length', system)} high, on {picture.on}.",
        f"Top {picture.held[0]}, foot {picture.held[1]}.",
    ]
    for way in picture.ways:
        braced = "not braced" if way.braced is None else f"braced every {show(way.braced, 'length', system)}"
        off = "not given" if way.offset is None else show(abs(way.offset), "length", system)
        said.append(
            f"{way.name.capitalize()}: side {show(way.side, 'small length', system)}, {braced}, load off center {off}."
        )
    said += [f"{one.name}: {show(one.force, 'force', system)}." for one in picture.top]
    return " ".join([*said, f"At the foot {show(picture.force, 'force', system)} at most."])


def _side(board: Board, picture: PostPicture, way: Way, x: float, top: float, scale: float, system: Any) -> None:
    half = max(0.5 * way.side * scale, 3.0)
    foot = top + HEIGHT
    board.shape(((x - half, top), (x + half, top), (x + half, foot), (x - half, foot)), fill="#f1f1f1", width=1.8)
    board.strokes([((x + half * at, top + 4), (x + half * at, foot - 4)) for at in (-0.5, 0.1, 0.6)], stroke="#bbb")
    for cut in picture.cuts:
        y0, y1 = foot - scale * cut.end, foot - scale * cut.start
        board.box(x + half - min(scale * cut.depth, 2 * half), min(y0, y1 - 3), min(scale * cut.depth, 2 * half) + 1,
                  max(y1 - y0, 3.0), fill=PAPER, stroke=1.2)  # fmt: skip
    board.shape(((x - 34, foot), (x + 34, foot), (x + 34, foot + 12), (x - 34, foot + 12)), width=1.2)
    board.strokes([((x + i, foot + 12), (x + i + 9, foot)) for i in range(-34, 26, 7)], stroke=GRAY)
    stops = _stops(picture.height, way.braced)
    for stop in stops[1:-1]:
        y = foot - scale * stop
        board.shape(((x - half - 1, y), (x - half - 13, y - 6), (x - half - 13, y + 6)), width=1.2)
        board.shape(((x + half + 1, y), (x + half + 13, y - 6), (x + half + 13, y + 6)), width=1.2)
    _bowed(board, x + half + 4, foot, scale, stops)
    shift = min(scale * abs(way.offset or 0.0), half)
    board.line((x + shift, top - 36), (x + shift, top - 8), width=2.0)
    board.shape(((x + shift - 4, top - 10), (x + shift + 4, top - 10), (x + shift, top - 1)), fill=INK)
    off: tuple[str, ...] = ("off center:", "not given")
    if way.offset is not None:
        off = (show(abs(way.offset), "length", system), "off center") if shift else ()
    for number, line in enumerate(off):
        board.lettering(x + shift + 9, top - 31 + 15 * number, line)
    board.lettering(x + half + BOW + 18, top + 0.4 * HEIGHT, way.name, bold=True)
    board.lettering(x + half + BOW + 18, top + 0.4 * HEIGHT + 16, f"{show(way.side, 'small length', system)} side")
    braced = "not braced" if way.braced is None else f"braced {show(way.braced, 'length', system)}"
    board.lettering(x + half + BOW + 18, top + 0.4 * HEIGHT + 32, braced)


def _stops(height: float, braced: float | None) -> list[float]:
    """Foot, braces and top, from the foot."""
    if braced is None or not 0 < braced < height:
        return [0.0, height]
    count = min(int(height / braced - 1e-9), 40)
    return [0.0, *(braced * (i + 1) for i in range(count)), height]


def _bowed(board: Board, x: float, foot: float, scale: float, stops: list[float]) -> None:
    points = []
    for number, (low, high) in enumerate(pairwise(stops)):
        side = 1 if number % 2 == 0 else -0.3
        for i in range(WAVES + 1):
            at = i / WAVES
            points.append((x + side * BOW * 4 * at * (1 - at), foot - scale * (low + (high - low) * at)))
    board.line(*points, width=1.2, dash="4 3")
