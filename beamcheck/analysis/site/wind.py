"""Wind on an open roof: up and down, for the whole roof and for its parts (ASCE 7-16 chapters 26, 27, 30)."""

from __future__ import annotations

import math

from ...calc.pad import Pad
from ...formulas.loads import wind as wd
from ...values.judgment import judgment
from ...values.site import component_extremes, exposure_at, free_roof_extremes

GUST = 0.85  # ASCE 7-16 26.11.1, rigid roofs
DIRECTION = 0.85  # Table 26.6-1, roofs
EDGE = 36.0  # in
PARTS = (EDGE**2, 4.0 * EDGE**2, math.inf)  # effective areas up to which corners, edges and the inside count


def velocity_pressure(pad: Pad, V: float, exposure: str, height: float) -> float:
    """q_h on flat ground near sea level, psi. V in mph, height in inches."""
    found = exposure_at(exposure, height)
    K_z = pad.take("K_z", found.value, note=found.reason, source=found.source)
    return float(pad(wd.velocity_pressure, K_z=K_z, K_zt=1.0, K_d=DIRECTION, K_el=1.0, V_mph=V))


def open_roof(pad: Pad, q_h: float, shape: str, slope: float) -> tuple[float, float]:
    """The most that lifts (below 0) and that presses on an open roof as a whole, psi: beams, posts, what holds down."""
    return _both(pad, q_h, free_roof_extremes(shape, slope))


def open_roof_part(
    pad: Pad, q_h: float, shape: str, slope: float, *, zone: int, area: float, a: float
) -> tuple[float, float]:  # fmt: skip
    """The same for a part of it, by zone 1, 2, 3 and effective area in in2: rafters, fasteners of the skin."""
    return _both(pad, q_h, component_extremes(shape, slope, zone, area, a))


def open_roof_rafter(pad: Pad, q_h: float, shape: str, slope: float, *, area: float) -> tuple[float, float]:
    """The same for a rafter or purlin wherever it lies, by its effective area in in2.

    The edge strip is taken 3 ft wide, as it is on roofs up to 30 ft wide; the least is that of 30.2.2.
    """
    up, down = open_roof_part(pad, q_h, shape, slope, zone=3, area=area, a=EDGE)
    least = judgment("least wind on a part").value
    return min(up, -least), max(down, least)


def _both(pad: Pad, q_h: float, C_N: tuple[float, float]) -> tuple[float, float]:
    up, down = (float(pad(wd.roof_wind, q_h=q_h, G_w=GUST, C_N=one)) for one in C_N)
    return up, down
