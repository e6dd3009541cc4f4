"""Dowel bearing strength: what a square inch of wood, steel or concrete bears from the side of a fastener.

The equations stand under NDS 2018 Table 12.3.3, which prints their results to the nearest 50 psi; 12.3.3.1 points to
the table. `as_tabulated` rounds so. D is the nominal diameter here, also where the root diameter D_r bends.
"""

from __future__ import annotations

import math

import numpy as np

from ...calc.core import Number, cos, formula, sin
from ...calc.ranges import at_most, positive
from .ranges import WOOD, gravity, large_diameter, to_grain

STEEL, YIELD = "NDS 2018 12.3.2, Appendix I.2", "NDS 2018 Appendix I.4"
STEP = 50.0  # psi; the last digit of Table 12.3.3


def as_tabulated(F_e: Number) -> Number:
    """A dowel bearing strength of wood to the nearest 50 psi, as NDS 2018 Table 12.3.3 prints it.

    Floats and arrays; halves go up. Not a formula: the trace knows no rounding, so a check writes the rounded value
    down as taken from the table. Published Z need it (all rows of Tables 12A to 12N rest on rounded values).
    How known: read.

    Examples
    --------
    >>> as_tabulated(4637.0)
    4650.0
    """
    if isinstance(F_e, np.ndarray):
        return np.floor(F_e / STEP + 0.5) * STEP
    return math.floor(F_e / STEP + 0.5) * STEP if math.isfinite(F_e) else F_e


@formula(symbol="F_e_par", clause=WOOD, unit="psi")
def dowel_bearing_parallel(G: Number) -> Number:
    """Dowel bearing strength along the grain, fastener of 1/4 in and more.

    Parameters
    ----------
    G : float or array
        Specific gravity, oven-dry weight and volume, 0.31 to 0.73. [-]

    Returns
    -------
    float or array
        [psi]

    Raises
    ------
    OutOfRange
        If G is out of range.

    Notes
    -----
    Not rounded: see `as_tabulated`. Changed from the source: nothing. How known: read.

    Examples
    --------
    >>> round(dowel_bearing_parallel(0.50), 6)
    5600.0
    """
    return 11200 * gravity(G)


@formula(symbol="F_e_perp", clause=WOOD, unit="psi")
def dowel_bearing_perpendicular(G: Number, D: Number) -> Number:
    """Dowel bearing strength across the grain, fastener of 1/4 in and more.

    Parameters
    ----------
    G : float or array
        Specific gravity, oven-dry weight and volume, 0.31 to 0.73. [-]
    D : float or array
        Nominal diameter, 1/4 to 1. [in]

    Returns
    -------
    float or array
        [psi]

    Raises
    ------
    OutOfRange
        If G or D is out of range.

    Notes
    -----
    Also the strength of a dowel in end grain, its axis along the grain (12.3.3.4). Not rounded: see `as_tabulated`.
    Changed from the source: nothing. How known: read.

    Examples
    --------
    >>> round(dowel_bearing_perpendicular(0.50, 0.5), 1)
    3157.6
    """
    return 6100 * gravity(G) ** 1.45 / large_diameter(D, WOOD) ** 0.5


@formula(symbol="F_e", clause=WOOD, unit="psi")
def dowel_bearing_small(G: Number) -> Number:
    """Dowel bearing strength of wood in any direction, fastener thinner than 1/4 in.

    Parameters
    ----------
    G : float or array
        Specific gravity, oven-dry weight and volume, 0.31 to 0.73. [-]

    Returns
    -------
    float or array
        [psi]

    Raises
    ------
    OutOfRange
        If G is out of range.

    Notes
    -----
    It is the nominal diameter that must be below 1/4 in. Not rounded: see `as_tabulated`. Changed from the source:
    nothing. How known: read.

    Examples
    --------
    >>> round(dowel_bearing_small(0.50), 1)
    4636.7
    """
    return 16600 * gravity(G) ** 1.84


@formula(symbol="F_e_theta", clause="NDS 2018 12.3.4 (eq. 12.3-11)", unit="psi")
def dowel_bearing_at_angle(F_e_par: Number, F_e_perp: Number, theta: Number) -> Number:
    """Dowel bearing strength at an angle to the grain.

    Parameters
    ----------
    F_e_par, F_e_perp : float or array
        Strength along and across the grain. [psi]
    theta : float or array
        Angle between load and grain, 0 to 90. [deg]

    Returns
    -------
    float or array
        [psi]

    Raises
    ------
    OutOfRange
        If a strength is not positive or theta out of range.

    Notes
    -----
    Changed from the source: nothing. How known: read.

    Examples
    --------
    >>> round(dowel_bearing_at_angle(5600.0, 3150.0, 45.0), 1)
    4032.0
    """
    F_e_par, F_e_perp, theta = positive("F_e_par", F_e_par), positive("F_e_perp", F_e_perp), to_grain(theta)
    return F_e_par * F_e_perp / (F_e_par * sin(theta) ** 2 + F_e_perp * cos(theta) ** 2)


@formula(symbol="F_e", clause=STEEL, unit="psi")
def steel_bearing_hot_rolled(F_u: Number) -> Number:
    """Dowel bearing strength of hot-rolled steel.

    Parameters
    ----------
    F_u : float or array
        Tensile strength of the steel. [psi]

    Returns
    -------
    float or array
        [psi]

    Raises
    ------
    OutOfRange
        If the strength is not positive.

    Notes
    -----
    2.4 F_u of steel design over 1.6, since load duration factors go on top. The plate's own strength is checked apart.
    Changed from the source: nothing. How known: read.

    Examples
    --------
    >>> steel_bearing_hot_rolled(58000.0)
    87000.0
    """
    return 1.5 * positive("F_u", F_u, STEEL)


@formula(symbol="F_e", clause=STEEL, unit="psi")
def steel_bearing_cold_formed(F_u: Number) -> Number:
    """Dowel bearing strength of cold-formed steel.

    Parameters
    ----------
    F_u : float or array
        Tensile strength of the steel. [psi]

    Returns
    -------
    float or array
        [psi]

    Raises
    ------
    OutOfRange
        If the strength is not positive.

    Notes
    -----
    2.2 F_u over 1.6. For Grade 33 the standard prints 61,850 psi where this gives 61,875: take the printed one.
    Changed from the source: nothing. How known: read.

    Examples
    --------
    >>> steel_bearing_cold_formed(45000.0)
    61875.0
    """
    return 1.375 * positive("F_u", F_u, STEEL)


@formula(symbol="F_yb", clause=YIELD, unit="psi")
def bolt_bending_yield(F_y: Number, F_u: Number) -> Number:
    """Bending yield strength of a bolt or rod of known steel.

    Parameters
    ----------
    F_y, F_u : float or array
        Yield point and tensile strength of the steel. [psi]

    Returns
    -------
    float or array
        [psi]

    Raises
    ------
    OutOfRange
        If a strength is not positive or F_y exceeds F_u.

    Notes
    -----
    For bolts and rods; nails and screws have the bands of Table I1. Changed from the source: nothing. How known:
    memory.

    Examples
    --------
    >>> bolt_bending_yield(36000.0, 58000.0)
    47000.0
    """
    F_u = positive("F_u", F_u, YIELD)
    return (at_most("F_y", F_y, "F_u", F_u, YIELD) + F_u) / 2
