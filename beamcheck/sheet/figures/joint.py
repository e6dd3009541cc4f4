"""The drawing of a joint to scale: its members where their axes cross, their fasteners, their largest forces."""

from __future__ import annotations

import math
from textwrap import wrap
from typing import Any

from ...checks.core.pictures.others import JointBar, JointPicture
from ...units import show
from .svg import GRAY, INK, Board, clipped, letters_in, tied

WIDTH, TALL, EDGE = 440.0, 200.0, 14.0
MOST = 54.0  # a member is drawn no deeper
FILLS = ("#efefef", "#dcdcdc", "#f7f7f7")
REACH = 2.4  # depths of the deepest member that are shown of each
NEGLIGIBLE = 0.5  # lbf


def joint_figure(picture: JointPicture, name: str, system: Any = "US", key: str = "figure") -> str:
    """The drawing as an `<svg>` element; parameters as those of `beam_figure`."""
    board = Board(WIDTH, key, f"{name}: the joint to scale", describe(picture, system))
    deepest = max(bar.depth for bar in picture.bars)
    furthest = max((math.hypot(hole.x, hole.y) for bar in picture.bars for hole in bar.holes), default=0.0)
    reach = max(REACH * deepest, furthest + 0.6 * deepest)
    every = [corner for bar in picture.bars for corner in _corners(bar, reach, deepest)]
    (left, right), (low, high) = ((min(some), max(some)) for some in zip(*every, strict=True))
    scale = min(TALL / (high - low), (WIDTH - 2 * EDGE) / (right - left), MOST / deepest)
    x_0, y_0 = (WIDTH - scale * (left + right)) / 2, EDGE + scale * high

    def at(x: float, y: float) -> tuple[float, float]:
        return x_0 + scale * x, y_0 - scale * y

    for number, bar in reversed(list(enumerate(picture.bars))):
        c, s = math.cos(math.radians(bar.angle)), math.sin(math.radians(bar.angle))
        board.shape([at(*one) for one in _corners(bar, reach, deepest)], fill=FILLS[number % len(FILLS)], width=1.2)
        back = _back(bar, reach, deepest)
        board.line(at(back * c, back * s), at(reach * c, reach * s), width=0.6, stroke=GRAY, dash="8 3 2 3")
    for bar in picture.bars:
        for hole in bar.holes:
            x, y = at(hole.x, hole.y)
            board.ring(x, y, max(0.5 * scale * hole.D, 2.0))
            board.disc(x, y, 0.8, INK)
    y = y_0 - scale * low + 10.0
    for number, bar in enumerate(picture.bars):
        c, s = math.cos(math.radians(bar.angle)), math.sin(math.radians(bar.angle))
        x, height = at(0.86 * reach * c, 0.86 * reach * s)
        board.ring(x, height, 9.5)
        board.lettering(x, height + 5, str(number + 1), anchor="middle")
    forces = [f"{number} {bar.name}: {_words(bar, system)}" for number, bar in enumerate(picture.bars, start=1)]
    for text in (*forces, *([f"It stands on {picture.on}."] if picture.on else []), *picture.says):
        kept = tied(text.replace("square to it ", "square\u00a0to\u00a0it\u00a0"))
        for line in wrap(kept, letters_in(WIDTH - 16), subsequent_indent="   "):
            y += 16
            board.lettering(8, y, clipped(line, WIDTH - 16))
    return board.done(y + 14)


def _corners(bar: JointBar, reach: float, deepest: float) -> list[tuple[float, float]]:
    """The piece of a member that is drawn, right and up from the crossing of the axes."""
    c, s = math.cos(math.radians(bar.angle)), math.sin(math.radians(bar.angle))
    back, half = _back(bar, reach, deepest), 0.5 * bar.depth
    around = [(back, half), (reach, half), (reach, -half), (back, -half)]
    return [(u * c - v * s, u * s + v * c) for u, v in around]


def _back(bar: JointBar, reach: float, deepest: float) -> float:
    """Where a member begins, along it from the crossing."""
    if bar.starts is not None:
        return bar.starts
    return -reach if bar.passes else -0.5 * deepest


def describe(picture: JointPicture, system: Any = "US") -> str:
    """The drawing in words."""
    said = [f"{bar.name}: {_words(bar, system)}." for bar in picture.bars]
    return " ".join([*said, *(f"{text}." for text in picture.says)])


def _words(bar: JointBar, system: Any) -> str:
    named = (("pushes", bar.push), ("pulls", bar.pull), ("square to it", bar.across))
    parts = [f"{way} {show(force, 'force', system)}" for way, force in named if force > NEGLIGIBLE]
    return ", ".join(parts) or "next to nothing"
