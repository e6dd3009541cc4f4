"""From a solved frame to the plain numbers of its picture."""

from __future__ import annotations

from collections.abc import Mapping

import numpy as np

from ...analysis.trusses.record import SolvedFrame
from ...model.frames.frame import Frame
from ..core.pictures import FrameBar, FrameFootMark, FramePicture, StressMark
from ..core.result import Table
from .member import MadeOf


def frame_picture(
    frame: Frame, solved: SolvedFrame, made: Mapping[str, MadeOf], loads: Table | None, shown: str = ""
) -> FramePicture:  # fmt: skip
    """The frame with the largest forces under any combination in any run; `shown` is the member that is meant."""
    shape, bars = frame.shape, []
    for path in shape.sticks:
        (x0, y0), (x1, y1) = sorted((shape.points[path.points[0]], shape.points[path.points[-1]]))
        one = solved.members[path.name]
        bars.append(
            FrameBar(path.name, x0, y0, x1, y1, float(made[path.name].section.d), float(np.max(one.pressed)),
                     float(np.max(one.pulled)))
        )  # fmt: skip
    feet = []
    for foot in frame.feet:
        R = solved.nodes[foot.at].reaction
        x, y = shape.points[foot.at]
        feet.append(FrameFootMark(x, y, foot.on, float(np.max(R[:, 1])), float(np.min(R[:, 1])),
                                  float(np.max(np.abs(R[:, 0])))))  # fmt: skip
    points = tuple(StressMark(x, y, name) for name, (x, y) in shape.points.items())
    words = () if loads is None else tuple(
        ", ".join(dict.fromkeys(cell for cell in row if cell not in ("", "–"))) for row in loads.rows
    )  # fmt: skip
    return FramePicture(frame.name, tuple(bars), tuple(feet), points, words, shown)
