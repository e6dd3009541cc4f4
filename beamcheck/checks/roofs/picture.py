"""From the frame of a rafter to the plain numbers of its picture."""

from __future__ import annotations

import numpy as np

from ...analysis.roofs.roof_frame import RoofRun
from ...model.roofs import Tie
from ..core.pictures.beams import Table
from ..core.pictures.others import RafterPicture

NOTHING = ("", "–")


def rafter_picture(run: RoofRun, depth: float, tie: Tie | None, tie_depth: float, loads: Table) -> RafterPicture:
    """The pair at its slope, with the largest forces under any combination."""
    rafter, line = run.rafter, run.rafter_line
    low, _, high, _ = line.extremes("N")
    tied = 0.0
    if tie is not None:
        _, _, pull, _ = run.tie_line.extremes("N")
        tied = max(float(np.max(pull)), 0.0)
    up = run.wall_reactions
    on_ridge = rafter.ridge_on or f"ridge {rafter.ridge}"
    return RafterPicture(
        rafter.name, rafter.run, rafter.slope, depth, run.tail, rafter.wall.on, on_ridge, rafter.pair,
        rafter.other_wall or "", float(np.max(up)), float(np.min(up)), max(float(-np.min(low)), 0.0),
        max(float(np.max(high)), 0.0), rafter.seat_cut, rafter.wall.bearing, tie.name if tie is not None else "",
        tie.height if tie is not None else 0.0, tie_depth, tied,
        tuple(_load(dict(zip(loads.heads, row, strict=True))) for row in loads.rows),
    )  # fmt: skip


def _load(row: dict[str, str]) -> str:
    """'roof of the loft snow 30 psf on plan, 2 ft wide'."""
    wide = row.get("width", "")
    said = " ".join(dict.fromkeys(cell for head, cell in row.items() if head != "width" and cell not in NOTHING))
    return said if wide in NOTHING else f"{said}, {wide} wide"
