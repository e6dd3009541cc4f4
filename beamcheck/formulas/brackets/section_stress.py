"""Stress along the edges of a solid bracket by three plane-section rules, none of them safe alone, and in shear.

Vertical sections, equal-angle sections with a straight spread, and equal-angle sections weighed by modulus
(`bracket_fan`). Where sections lie and what they carry is in `bracket_section_forces`, also for the wall leg.
"""

from __future__ import annotations

from ...calc.core import Number, cos, formula, largest, valid
from ...calc.ranges import given, not_negative, positive
from ..connections.ranges import finite
from .fan_sections import fan_edge_stress_soffit as fan_edge_stress_soffit
from .fan_sections import fan_edge_stress_top as fan_edge_stress_top
from .section_forces import DESIGN, SECTION, soffit_slope
from .section_forces import equal_angle_depth as equal_angle_depth
from .section_forces import equal_angle_start as equal_angle_start


@formula(symbol="sigma_v", clause=SECTION, unit="psi")
def vertical_edge_stress(M: Number, t: Number, d: Number) -> Number:
    """Stress along the top edge by a vertical section.

    Parameters
    ----------
    M : float or array
        Moment, stretching the top edge when positive. [lbf*in]
    t, d : float or array
        Thickness and depth of the section. [in]

    Returns
    -------
    float or array
        Tension positive. [psi]

    Raises
    ------
    OutOfRange
        If the moment is not finite or a size not positive.

    Notes
    -----
    Models of brackets gave 0.9 to 3 times as much. Changed from the source: nothing. How known: derived.

    Examples
    --------
    >>> round(vertical_edge_stress(790.0, 1.5, 10.4), 3)
    29.216
    """
    return 6 * finite("M", M, SECTION) / (positive("t", t, SECTION) * positive("d", d, SECTION) ** 2)


@formula(symbol="sigma_lin", clause=SECTION, unit="psi")
def equal_angle_edge_stress_top(M: Number, N: Number, t: Number, d: Number, alpha_s: Number) -> Number:
    """Stress along the top edge by an equal-angle section, spread in a straight line.

    Parameters
    ----------
    M : float or array
        Moment about its middle, stretching the top edge when positive. [lbf*in]
    N : float or array
        Force square to it, tension positive. [lbf]
    t, d : float or array
        Thickness and depth of the section. [in]
    alpha_s : float or array
        Slope of the soffit at the section. [deg]

    Returns
    -------
    float or array
        Tension positive. [psi]

    Raises
    ------
    OutOfRange
        If a force is not finite, a size not positive or the slope out of range.

    Notes
    -----
    The edge leans by half the slope from the section's normal. Changed from the source: nothing. How known: derived.

    Examples
    --------
    >>> round(equal_angle_edge_stress_top(637.7, -38.27, 1.5, 7.96, 45.0), 2)
    43.41
    """
    return (_even(N, t, d) + _bent(M, t, d)) / cos(soffit_slope(alpha_s) / 2) ** 2


@formula(symbol="sigma_lin_s", clause=SECTION, unit="psi")
def equal_angle_edge_stress_soffit(M: Number, N: Number, t: Number, d: Number, alpha_s: Number) -> Number:
    """Stress along the soffit by an equal-angle section, spread in a straight line.

    Parameters
    ----------
    M : float or array
        Moment about its middle, stretching the top edge when positive. [lbf*in]
    N : float or array
        Force square to it, tension positive. [lbf]
    t, d : float or array
        Thickness and depth of the section. [in]
    alpha_s : float or array
        Slope of the soffit at the section. [deg]

    Returns
    -------
    float or array
        Tension positive. [psi]

    Raises
    ------
    OutOfRange
        If a force is not finite, a size not positive or the slope out of range.

    Notes
    -----
    Changed from the source: nothing. How known: derived.

    Examples
    --------
    >>> round(equal_angle_edge_stress_soffit(637.7, -38.27, 1.5, 7.96, 45.0), 2)
    -50.92
    """
    return (_even(N, t, d) - _bent(M, t, d)) / cos(soffit_slope(alpha_s) / 2) ** 2


@formula(symbol="f_v", clause=SECTION, unit="psi")
def bracket_shear_stress(V: Number, t: Number, d: Number) -> Number:
    """Shear stress on a section, spread as in a beam.

    Parameters
    ----------
    V : float or array
        Shear force, without sign. [lbf]
    t, d : float or array
        Thickness and depth of the section. [in]

    Returns
    -------
    float or array
        [psi]

    Raises
    ------
    OutOfRange
        If the force is negative or a size not positive.

    Notes
    -----
    On the shallowest equal-angle section. Changed from the source: nothing. How known: derived.

    Examples
    --------
    >>> bracket_shear_stress(100.0, 1.5, 4.0)
    25.0
    """
    return 1.5 * not_negative("V", V, SECTION) / (positive("t", t, SECTION) * positive("d", d, SECTION))


@formula(symbol="sigma_top", clause=DESIGN, unit="psi")
def top_design_stress(k_fe: Number, sigma_v: Number, sigma_lin: Number, sigma_fan: Number) -> Number:
    """Stress that a top edge is judged by: the largest of the three rules, by size, times a factor.

    Parameters
    ----------
    k_fe : float or array
        Factor on the rules, 1 or more. [-]
    sigma_v, sigma_lin, sigma_fan : float or array
        Stress along the edge by each rule. [psi]

    Returns
    -------
    float or array
        Without sign: to be judged in tension, as every edge under a load that may stretch it. [psi]

    Raises
    ------
    OutOfRange
        If the factor is below 1 or a stress not finite.

    Notes
    -----
    Holds where the arm of the load is at least 0.75 of the depth at the wall, outside 0.5 of the depth from loads and
    0.15 of the projection from the wall. Changed from the source: nothing. How known: derived.

    Examples
    --------
    >>> round(top_design_stress(1.3, 29.2, 43.4, 77.0), 2)
    100.1
    """
    rules = (finite("sigma_v", sigma_v), finite("sigma_lin", sigma_lin), finite("sigma_fan", sigma_fan))
    return _factor(k_fe) * largest(*(abs(rule) for rule in rules))


@formula(symbol="sigma_sof", clause=DESIGN, unit="psi")
def soffit_design_stress(k_fe: Number, sigma_lin_s: Number, sigma_fan_s: Number) -> Number:
    """Stress that a soffit is judged by: the larger of two rules, by size, times a factor.

    Parameters
    ----------
    k_fe : float or array
        Factor on the rules, 1 or more; larger for diagonal grain and for a soffit with a cusp. [-]
    sigma_lin_s, sigma_fan_s : float or array
        Stress along the soffit by each rule. [psi]

    Returns
    -------
    float or array
        Without sign. [psi]

    Raises
    ------
    OutOfRange
        If the factor is below 1 or a stress not finite.

    Notes
    -----
    Within the bounds of `top_design_stress`. Changed from the source: nothing. How known: derived.

    Examples
    --------
    >>> round(soffit_design_stress(1.2, -65.0, -27.0), 2)
    78.0
    """
    return _factor(k_fe) * largest(abs(finite("sigma_lin_s", sigma_lin_s)), abs(finite("sigma_fan_s", sigma_fan_s)))


def _factor(k_fe: Number) -> Number:
    return valid(k_fe, (k_fe >= 1) & (k_fe < 100), f"k_fe must be 1 or more{given(k_fe)}", DESIGN)


def _even(N: Number, t: Number, d: Number) -> Number:
    return finite("N", N, SECTION) / (positive("t", t, SECTION) * positive("d", d, SECTION))


def _bent(M: Number, t: Number, d: Number) -> Number:
    return 6 * finite("M", M, SECTION) / (t * d**2)
