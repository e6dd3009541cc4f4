"""The drawing of a joint to scale: its members where their axes cross, their fasteners, their largest forces."""

from __future__ import annotations

import math
from typing import Any

from ...checks.core.pictures import JointBar, JointPicture
from ...units import show
from .svg import GRAY, INK, Board, clipped

WIDTH, TALL = 460.0, 230.0
SMALL = 12.0
FILLS = ("#efefef", "#dcdcdc", "#f7f7f7")
REACH = 2.4  # depths of the deepest member that are shown of each
NEGLIGIBLE = 0.5  # lbf


def joint_figure(picture: JointPicture, name: str, system: Any = "US", key: str = "figure") -> str:
    """The drawing as an `<svg>` element; parameters as those of `beam_figure`."""
    board = Board(WIDTH, key, f"{name}: the joint to scale", describe(picture, system))
    deepest = max(bar.depth for bar in picture.bars)
    furthest = max((math.hypot(hole.x, hole.y) for bar in picture.bars for hole in bar.holes), default=0.0)
    reach = max(REACH * deepest, furthest + 0.6 * deepest)
    scale = TALL / (2.0 * reach)
    x_0, y_0 = WIDTH / 2, 26.0 + TALL / 2

    def at(x: float, y: float) -> tuple[float, float]:
        return x_0 + scale * x, y_0 - scale * y

    for number, bar in reversed(list(enumerate(picture.bars))):
        c, s = math.cos(math.radians(bar.angle)), math.sin(math.radians(bar.angle))
        back, half = -reach if bar.passes else -0.5 * deepest, 0.5 * bar.depth
        corners = [(back, half), (reach, half), (reach, -half), (back, -half)]
        board.shape([at(u * c - v * s, u * s + v * c) for u, v in corners], fill=FILLS[number % len(FILLS)], width=1.2)
        board.line(at(back * c, back * s), at(reach * c, reach * s), width=0.6, stroke=GRAY, dash="8 3 2 3")
    for bar in picture.bars:
        for hole in bar.holes:
            x, y = at(hole.x, hole.y)
            board.ring(x, y, max(0.5 * scale * hole.D, 2.0))
            board.disc(x, y, 0.8, INK)
    y = 26.0 + TALL + 10.0
    for number, bar in enumerate(picture.bars):
        c, s = math.cos(math.radians(bar.angle)), math.sin(math.radians(bar.angle))
        x, height = at(0.86 * reach * c, 0.86 * reach * s)
        board.ring(x, height, 8.0)
        board.lettering(x, height + 4, str(number + 1), anchor="middle", size=SMALL)
        y += 16
        board.lettering(8, y, clipped(f"{number + 1} {bar.name}: {_words(bar, system)}", WIDTH - 16))
    for text in (*([f"It stands on {picture.on}."] if picture.on else []), *picture.says):
        y += 16
        board.lettering(8, y, clipped(text, WIDTH - 16))
    return board.done(y + 14)


def describe(picture: JointPicture, system: Any = "US") -> str:
    """The drawing in words."""
    said = [f"{bar.name}: {_words(bar, system)}." for bar in picture.bars]
    return " ".join([*said, *(f"{text}." for text in picture.says)])


def _words(bar: JointBar, system: Any) -> str:
    named = (("pushes", bar.push), ("pulls", bar.pull), ("square to it", bar.across))
    parts = [f"{way} {show(force, 'force', system)}" for way, force in named if force > NEGLIGIBLE]
    return ", ".join(parts) or "next to nothing"
