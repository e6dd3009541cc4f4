"""Washers: the wood under them bears the pull of a bolt, and a plate bends over it."""

from __future__ import annotations

import math

from ...calc.core import Number, formula, valid
from ...calc.ranges import below, given, not_negative, positive

WASHER, PLATE = "NDS 2018 12.1.3.3, 3.10.2", "statics"


@formula(symbol="A_b", clause=WASHER, unit="in2")
def round_washer_area(D_w: Number, d_h: Number) -> Number:
    """Bearing area of a round washer.

    Parameters
    ----------
    D_w : float or array
        Outer diameter of the washer. [in]
    d_h : float or array
        Diameter of the hole in the wood. [in]

    Returns
    -------
    float or array
        [in2]

    Raises
    ------
    OutOfRange
        If the hole is as wide as the washer or a value not positive.

    Notes
    -----
    Changed from the source: nothing. How known: memory.

    Examples
    --------
    >>> round(round_washer_area(1.375, 0.5625), 4)
    1.2364
    """
    d_h = positive("d_h", below("d_h", d_h, "D_w", positive("D_w", D_w, WASHER), WASHER), WASHER)
    return math.pi * (D_w**2 - d_h**2) / 4


@formula(symbol="A_b", clause=WASHER, unit="in2")
def plate_washer_area(b: Number, d: Number, d_h: Number) -> Number:
    """Bearing area of a rectangular plate washer.

    Parameters
    ----------
    b, d : float or array
        Sides of the plate. [in]
    d_h : float or array
        Diameter of the hole in the wood. [in]

    Returns
    -------
    float or array
        [in2]

    Raises
    ------
    OutOfRange
        If the hole is wider than the plate or a value not positive.

    Notes
    -----
    Changed from the source: nothing. How known: derived.

    Examples
    --------
    >>> round(plate_washer_area(3.0, 3.0, 0.6875), 4)
    8.6288
    """
    b, d, d_h = positive("b", b, WASHER), positive("d", d, WASHER), positive("d_h", d_h, WASHER)
    d_h = valid(d_h, (d_h < b) & (d_h < d), f"d_h must be less than both sides{given(d_h)}", WASHER)
    return b * d - math.pi * d_h**2 / 4


@formula(symbol="T_w", clause=WASHER, unit="lbf")
def washer_bearing(F_c_perp_prime: Number, A_b: Number) -> Number:
    """Pull at which the wood under a washer reaches its bearing value.

    Parameters
    ----------
    F_c_perp_prime : float or array
        Adjusted compression across the grain, C_b in it: the length of a round washer is its diameter. [psi]
    A_b : float or array
        Bearing area. [in2]

    Returns
    -------
    float or array
        [lbf]

    Raises
    ------
    OutOfRange
        If a value is not positive.

    Notes
    -----
    C_b only where the washer is 3 in and more from an end. In a bore the washer must fit inside it. Changed from the
    source: nothing. How known: memory.

    Examples
    --------
    >>> washer_bearing(625.0, 1.25)
    781.25
    """
    return positive("F_c_perp_prime", F_c_perp_prime, WASHER) * positive("A_b", A_b, WASHER)


@formula(symbol="M_w", clause=PLATE, unit="lbf*in")
def plate_washer_moment(T: Number, A_b: Number, b: Number, c_o: Number) -> Number:
    """Moment in a plate washer along the edge of the nut.

    Parameters
    ----------
    T : float or array
        Pull of the bolt. [lbf]
    A_b : float or array
        Bearing area. [in2]
    b : float or array
        Side of the plate along the line that bends. [in]
    c_o : float or array
        Overhang of the plate beyond that line. [in]

    Returns
    -------
    float or array
        [lbf*in]

    Raises
    ------
    OutOfRange
        If a value is not positive.

    Notes
    -----
    Even pressure; the strip beyond the nut bends as a cantilever of width b. Changed from the source: nothing. How
    known: derived.

    Examples
    --------
    >>> round(plate_washer_moment(2000.0, 8.6288, 3.0, 1.0), 1)
    347.7
    """
    pressure = not_negative("T", T, PLATE) / positive("A_b", A_b, PLATE)
    return pressure * positive("b", b, PLATE) * positive("c_o", c_o, PLATE) ** 2 / 2
