"""Wind on small roofs (ASCE 7-16 chapters 26, 27, 30), in psi. Wind speed is in miles per hour."""

from __future__ import annotations

from typing import Annotated

from ...calc.core import Number, formula, largest, sqrt
from ...calc.ranges import Finite, NotNegative, Positive, between

WIND = "ASCE 7-16"


@formula(symbol="K_z", clause=f"{WIND} Table 26.10-1, note 1", unit="", known="read; second-hand", reference=True)
def velocity_exposure(z: NotNegative, z_g: Positive, alpha_z: Positive) -> Number:
    """Velocity pressure exposure coefficient by its equation; under 15 ft that of 15 ft.

    alpha_z: 7.0, 9.5, 11.5 and z_g 1,200, 900, 700 ft for exposure B, C, D.

    >>> round(velocity_exposure(180.0, 900 * 12.0, 9.5), 3)
    0.849
    """
    return 2.01 * (largest(z, 180) / z_g) ** (2 / alpha_z)


@formula(symbol="q_h", clause=f"{WIND} 26.10 (eq. 26.10-1)", unit="psi", known="read; second-hand")
def velocity_pressure(
    K_z: Positive, K_zt: Annotated[Number, between(1, 3)], K_d: Positive, K_el: Positive, V_mph: NotNegative
) -> Number:
    """Velocity pressure.

    K_zt: 1 on flat ground.
    K_d: 0.85 for roofs of buildings.
    K_el: for the height above the sea; 1 is safe.

    >>> round(144 * velocity_pressure(0.90, 1.0, 0.85, 1.0, 115.0), 2)
    25.9
    """
    return 0.00256 * K_z * K_zt * K_d * K_el * V_mph**2 / 144


@formula(symbol="p_w", clause=f"{WIND} 27.3.2 (eq. 27.3-2)", unit="psi", known="read; second-hand")
def roof_wind(q_h: NotNegative, G_w: Positive, C_N: Finite) -> Number:
    """Net wind on an open roof; up is negative. Strength level.

    G_w: 0.85.

    >>> round(144 * roof_wind(25.9 / 144, 0.85, -1.9), 2)
    -41.83
    """
    return q_h * G_w * C_N


@formula(symbol="V_ult", clause="IBC 1609.3.1", unit="", known="memory", reference=True)
def strength_wind_speed(V_asd: NotNegative) -> Number:
    """Wind speed of the maps since 2010 for one of the older, allowable level.

    >>> round(strength_wind_speed(110.0), 1)
    142.0
    """
    return sqrt(V_asd**2 / 0.6)


@formula(symbol="p_w", clause=f"{WIND} 2.4.1", unit="psi", known="read", reference=True)
def strength_pressure(p_wa: Finite) -> Number:
    """Strength-level wind for a pressure of allowable level.

    >>> strength_pressure(-12.0)
    -20.0
    """
    return p_wa / 0.6


@formula(symbol="w_net", clause=f"{WIND} 2.4.1 (7)", unit="psi", known="read", reference=True)
def net_uplift(w_D: NotNegative, p_w: Finite) -> Number:
    """What is left of wind that lifts, over the dead load that holds down; negative lifts.

    w_D: the least that is sure to be there.

    >>> round(144 * net_uplift(5 / 144, -24.95 / 144), 2)
    -11.97
    """
    return 0.6 * w_D + 0.6 * p_w
