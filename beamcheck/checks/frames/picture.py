"""From a solved frame to the plain numbers of its pictures."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence

import numpy as np

from ...analysis.trusses.record import SolvedFrame
from ...model.frames.frame import Frame
from ..core.pictures.others import FrameBar, FrameFootMark, FrameForces, FramePicture, StressMark
from ..core.result import PieceResult, Table
from .member import MadeOf

FIGURES = 2  # combinations that are drawn


def frame_picture(
    frame: Frame, solved: SolvedFrame, made: Mapping[str, MadeOf], loads: Table | None, shown: str = ""
) -> FramePicture:  # fmt: skip
    """The frame with the largest forces under any combination in any run; `shown` is the member that is meant."""
    bars, feet, points = _drawn(frame, solved, made, slice(None))
    words = () if loads is None else tuple(
        ", ".join(dict.fromkeys(cell for cell in row if cell not in ("", "–"))) for row in loads.rows
    )  # fmt: skip
    return FramePicture(frame.name, bars, feet, points, words, shown)


def force_pictures(
    frame: Frame, solved: SolvedFrame, made: Mapping[str, MadeOf], members: Sequence[PieceResult]
) -> Iterator[FrameForces]:
    """The frame under the combinations that govern its members, the worst first."""
    column = {combination.name: i for i, combination in enumerate(solved.combinations)}
    worst = sorted(
        ((check.ratio, check.combination) for member in members for check in member.checks
         if check.ratio is not None and check.combination in column),
        key=lambda one: -one[0],
    )  # fmt: skip
    for name in [*dict.fromkeys(name for _, name in worst)][:FIGURES]:
        which = slice(column[name], column[name] + 1)
        yield FrameForces(frame.name, name, *_drawn(frame, solved, made, which))


def _drawn(
    frame: Frame, solved: SolvedFrame, made: Mapping[str, MadeOf], which: slice
) -> tuple[tuple[FrameBar, ...], tuple[FrameFootMark, ...], tuple[StressMark, ...]]:
    shape, bars = frame.shape, []
    for path in shape.sticks:
        (x0, y0), (x1, y1) = sorted((shape.points[path.points[0]], shape.points[path.points[-1]]))
        one = solved.members[path.name]
        bars.append(
            FrameBar(path.name, x0, y0, x1, y1, float(made[path.name].section.d), float(np.max(one.pressed[which])),
                     float(np.max(one.pulled[which])))
        )  # fmt: skip
    feet = []
    for foot in frame.feet:
        R = solved.nodes[foot.at].reaction[which]
        x, y = shape.points[foot.at]
        feet.append(FrameFootMark(x, y, foot.on, float(np.max(R[:, 1])), float(np.min(R[:, 1])),
                                  float(np.max(np.abs(R[:, 0])))))  # fmt: skip
    return tuple(bars), tuple(feet), tuple(StressMark(x, y, name) for name, (x, y) in shape.points.items())
