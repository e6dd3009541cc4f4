"""What a DXF drawing may hold, asked before its curves become points: a circle of a mile would take all memory.

The figures are far beyond any bracket (its box is 120 in at the most) and say nothing about one.
"""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Iterable
from typing import Any

import numpy as np

from .profile import MOST_DRAWN, OutlineError

MOST_THINGS = 20_000  # things in the file, its own tables included; each takes the reader some time
MOST_FITTED = 200  # points that a spline is laid through
_LONGEST = 1_000.0  # in, of one line or curve
_ROUNDEST = 100_000.0  # in, radius of a shallow arc
_BINARY = b"AutoCAD Binary DXF"  # how the binary form of the format begins (DXF reference, memory)
_HEAVIEST = 1e3  # of a spline's weights, against the lightest


def check_file(raw: bytes) -> None:
    """Look at the file before it is taken apart.

    Raises OutlineError if it holds far more than an outline, or is in the binary form.
    """
    if raw.startswith(_BINARY):
        raise OutlineError("this is a DXF in binary form: save it as text (ASCII)")
    codes = raw.splitlines()[::2]  # a code on one line, its value on the next; 0 begins a thing
    counts = Counter(code.strip() for code in codes)
    if counts[b"0"] > MOST_THINGS or counts[b"10"] > MOST_DRAWN:
        raise OutlineError(
            f"more than {MOST_THINGS:,} things or {MOST_DRAWN:,} points are in it: save only the outline in a file of "
            "its own"
        )


def check_curve(entity: Any, factor: float) -> None:
    """Look at a circle, arc, ellipse or spline before it is made points; `factor` inches in its unit.

    Raises OutlineError if it is larger than any bracket, or not a curve that a bracket has.
    """
    kind = entity.dxftype()
    if kind in ("ARC", "CIRCLE"):
        r = float(entity.dxf.radius) * factor
        angle = 360.0 if kind == "CIRCLE" else float(entity.dxf.end_angle - entity.dxf.start_angle) % 360.0 or 360.0
        _no_larger(r * math.radians(angle), r)
    elif kind == "ELLIPSE":
        r = math.dist(entity.dxf.major_axis, (0.0, 0.0, 0.0)) * factor
        _no_larger(2.0 * math.pi * r, r)
    elif kind == "SPLINE":
        _check_spline(entity, factor)


def check_arc(length: float, r: float, count: int) -> None:
    """Look at one arc of a polyline, in inches, before it becomes `count` points."""
    _no_larger(length, r)
    if count > MOST_DRAWN:
        raise OutlineError(f"its curves take more than {MOST_DRAWN:,} points: that is no outline of a bracket")


def check_count(lines: Iterable[Any]) -> list[Any]:
    """The lines as a list, as long as they have no more points than are read."""
    found, left = [], MOST_DRAWN
    for line in lines:
        left -= len(line)
        if left < 0:
            raise OutlineError(f"it takes more than {MOST_DRAWN:,} points: that is no outline of a bracket")
        found.append(line)
    return found


def _no_larger(length: float, r: float) -> None:
    if not (length <= _LONGEST and r <= _ROUNDEST):
        raise OutlineError(
            f"a curve of it is {length:,.4g} in long, with a radius of {r:,.4g} in: that is no bracket; "
            "are the units right?"
        )


def _check_spline(entity: Any, factor: float) -> None:
    control = np.array([tuple(point) for point in entity.control_points], dtype=float).reshape(-1, 3)
    fitted = np.array([tuple(point) for point in entity.fit_points], dtype=float).reshape(-1, 3)
    if not len(control) and len(fitted) > MOST_FITTED:
        raise OutlineError(f"a spline through {len(fitted)} points is not read, only up to {MOST_FITTED}")
    for points in (control, fitted):
        if len(points):
            _no_larger(float(np.ptp(points, axis=0).max()) * factor, 0.0)
    weights = np.array(entity.weights, dtype=float)
    if len(weights) and not 0.0 < weights.max() <= _HEAVIEST * weights.min():
        raise OutlineError("a spline has weights that no curve of a bracket has: draw it with lines and arcs")
