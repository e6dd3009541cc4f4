"""Wind on an open roof: up and down, for the whole roof and for its parts (ASCE 7-16 chapters 26, 27, 30)."""

from __future__ import annotations

from ...calc.pad import Pad
from ...formulas.loads import wind as wd
from ...values.site import component_extremes, exposure_at, free_roof_extremes

GUST = 0.85  # ASCE 7-16 26.11.1, rigid roofs
DIRECTION = 0.85  # Table 26.6-1, roofs


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


def _both(pad: Pad, q_h: float, C_N: tuple[float, float]) -> tuple[float, float]:
    up, down = (float(pad(wd.roof_wind, q_h=q_h, G_w=GUST, C_N=one)) for one in C_N)
    return up, down
