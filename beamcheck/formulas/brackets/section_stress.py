"""Stress along the edges of a solid bracket by three plane-section rules, none of them safe alone, and in shear.

Vertical sections, equal-angle sections with a straight spread, and equal-angle sections weighed by modulus
(`fan_sections`). Where sections lie and what they carry is in `section_forces`, also for the wall leg. Tension is
positive.
"""

from __future__ import annotations

from typing import Annotated

from ...calc.core import Number, cos, formula, largest
from ...calc.ranges import Finite, NotNegative, Positive, at_least
from .section_forces import DESIGN, SECTION, SoffitSlope

AtLeastOne = Annotated[Number, at_least(1)]


@formula(symbol="sigma_v", clause=SECTION, unit="psi", known="derived")
def vertical_edge_stress(M: Finite, t: Positive, d: Positive) -> Number:
    """Stress along the top edge by a vertical section. Models of brackets gave 0.9 to 3 times as much.

    >>> round(vertical_edge_stress(790.0, 1.5, 10.4), 3)
    29.216
    """
    return 6 * M / (t * d**2)


@formula(symbol="sigma_lin", clause=SECTION, unit="psi", known="derived")
def equal_angle_edge_stress_top(M: Finite, N: Finite, t: Positive, d: Positive, alpha_s: SoffitSlope) -> Number:
    """Stress along the top edge by an equal-angle section, spread in a straight line.

    The edge leans by half the slope from the section's normal.

    >>> round(equal_angle_edge_stress_top(637.7, -38.27, 1.5, 7.96, 45.0), 2)
    43.41
    """
    return (N / (t * d) + 6 * M / (t * d**2)) / cos(alpha_s / 2) ** 2


@formula(symbol="sigma_lin_s", clause=SECTION, unit="psi", known="derived")
def equal_angle_edge_stress_soffit(M: Finite, N: Finite, t: Positive, d: Positive, alpha_s: SoffitSlope) -> Number:
    """Stress along the soffit by an equal-angle section, spread in a straight line.

    >>> round(equal_angle_edge_stress_soffit(637.7, -38.27, 1.5, 7.96, 45.0), 2)
    -50.92
    """
    return (N / (t * d) - 6 * M / (t * d**2)) / cos(alpha_s / 2) ** 2


@formula(symbol="f_v", clause=SECTION, unit="psi", known="derived")
def bracket_shear_stress(V: NotNegative, t: Positive, d: Positive) -> Number:
    """Shear stress on a section, spread as in a beam. On the shallowest equal-angle section.

    >>> bracket_shear_stress(100.0, 1.5, 4.0)
    25.0
    """
    return 1.5 * V / (t * d)


@formula(symbol="sigma_top", clause=DESIGN, unit="psi", known="derived")
def top_design_stress(k_fe: AtLeastOne, sigma_v: Finite, sigma_lin: Finite, sigma_fan: Finite) -> Number:
    """Stress that a top edge is judged by: the largest of the three rules, by size, times a factor.

    Holds where the arm of the load is at least 0.75 of the depth at the wall, outside 0.5 of the depth from loads and
    0.15 of the projection from the wall.
    sigma_top: without sign; to be judged in tension, as every edge under a load that may stretch it.

    >>> round(top_design_stress(1.3, 29.2, 43.4, 77.0), 2)
    100.1
    """
    return k_fe * largest(abs(sigma_v), abs(sigma_lin), abs(sigma_fan))


@formula(symbol="sigma_sof", clause=DESIGN, unit="psi", known="derived")
def soffit_design_stress(k_fe: AtLeastOne, sigma_lin_s: Finite, sigma_fan_s: Finite) -> Number:
    """Stress that a soffit is judged by: the larger of two rules, by size, times a factor.

    Within the bounds of `top_design_stress`.
    k_fe: larger for diagonal grain and for a soffit with a cusp.

    >>> round(soffit_design_stress(1.2, -65.0, -27.0), 2)
    78.0
    """
    return k_fe * largest(abs(sigma_lin_s), abs(sigma_fan_s))
