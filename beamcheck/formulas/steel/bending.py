"""Flat bars, plates and rods in bending (AISC 360-16 F11, F13, ASD: the values are M_n/Omega), and prying."""

from __future__ import annotations

from ...calc.core import Number, formula, smallest, sqrt
from ...calc.ranges import not_negative, positive

BAR, HOLES, PRYING = "AISC 360-16 F11", "AISC 360-16 F13.1", "AISC Manual part 9"
MODULUS = "mechanics of materials"


@formula(symbol="Z_x", clause=MODULUS, unit="in3")
def bar_plastic_modulus(b: Number, t: Number) -> Number:
    """Plastic section modulus of a flat bar bent the flat way.

    Parameters
    ----------
    b : float or array
        Width; at holes the net width. [in]
    t : float or array
        Thickness, in the plane of the load. [in]

    Returns
    -------
    float or array
        [in3]

    Raises
    ------
    OutOfRange
        If a value is not positive.

    Notes
    -----
    Changed from the source: nothing. How known: derived.

    Examples
    --------
    >>> round(bar_plastic_modulus(1.5, 0.25), 6)
    0.023438
    """
    return positive("b", b, MODULUS) * positive("t", t, MODULUS) ** 2 / 4


@formula(symbol="Z_x", clause=MODULUS, unit="in3")
def rod_plastic_modulus(D: Number) -> Number:
    """Plastic section modulus of a round bar.

    Parameters
    ----------
    D : float or array
        Diameter: the root in the threads. [in]

    Returns
    -------
    float or array
        [in3]

    Raises
    ------
    OutOfRange
        If a value is not positive.

    Notes
    -----
    Changed from the source: nothing. How known: derived.

    Examples
    --------
    >>> round(rod_plastic_modulus(0.5), 6)
    0.020833
    """
    return positive("D", D, MODULUS) ** 3 / 6


@formula(symbol="M_a", clause=BAR, unit="lbf*in")
def bar_bending(F_y: Number, Z_x: Number, S_x: Number) -> Number:
    """Allowable moment of a bar or rod.

    Parameters
    ----------
    F_y : float or array
        Yield point. [psi]
    Z_x, S_x : float or array
        Plastic and elastic section modulus; the elastic one of `rectangle_modulus` or `round_modulus`. [in3]

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
    Omega 1.67. A bar on edge only while `lateral_slenderness` is not over `lateral_slenderness_limit`. Changed from the
    source: nothing. How known: memory.

    Examples
    --------
    >>> round(bar_bending(36000.0, 0.0234375, 0.015625), 1)
    505.2
    """
    return smallest(positive("F_y", F_y, BAR) * positive("Z_x", Z_x, BAR), 1.6 * F_y * positive("S_x", S_x, BAR)) / 1.67


@formula(symbol="M_a", clause=HOLES, unit="lbf*in")
def bar_bending_rupture(F_u: Number, Z_x: Number) -> Number:
    """Allowable moment of a bar at holes.

    Parameters
    ----------
    F_u : float or array
        Tensile strength. [psi]
    Z_x : float or array
        Plastic modulus of the net section. [in3]

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
    Omega 2.00. Changed from the source: nothing. How known: memory.

    Examples
    --------
    >>> bar_bending_rupture(58000.0, 0.015)
    435.0
    """
    return positive("F_u", F_u, HOLES) * positive("Z_x", Z_x, HOLES) / 2


@formula(symbol="slenderness", clause=BAR, unit="")
def lateral_slenderness(L_b: Number, d: Number, t: Number) -> Number:
    """Slenderness of a bar on edge against twisting sideways.

    Parameters
    ----------
    L_b : float or array
        Length between what holds it sideways. [in]
    d, t : float or array
        Depth and thickness. [in]

    Returns
    -------
    float or array
        [-]

    Raises
    ------
    OutOfRange
        If a value is not positive.

    Notes
    -----
    Changed from the source: nothing. How known: memory.

    Examples
    --------
    >>> lateral_slenderness(8.0, 4.0, 0.25)
    512.0
    """
    return positive("L_b", L_b, BAR) * positive("d", d, BAR) / positive("t", t, BAR) ** 2


@formula(symbol="slenderness_max", clause=BAR, unit="")
def lateral_slenderness_limit(E_steel: Number, F_y: Number) -> Number:
    """Slenderness up to which a bar on edge reaches its full moment.

    Parameters
    ----------
    E_steel : float or array
        Modulus of elasticity of steel. [psi]
    F_y : float or array
        Yield point. [psi]

    Returns
    -------
    float or array
        [-]

    Raises
    ------
    OutOfRange
        If a value is not positive.

    Notes
    -----
    Beyond it the bar twists first: not covered here. Changed from the source: nothing. How known: memory.

    Examples
    --------
    >>> round(lateral_slenderness_limit(29.0e6, 36000.0), 2)
    64.44
    """
    return 0.08 * positive("E_steel", E_steel, BAR) / positive("F_y", F_y, BAR)


@formula(symbol="t_min", clause=PRYING, unit="in")
def prying_thickness(T: Number, b_prime: Number, p_b: Number, F_u: Number) -> Number:
    """Thickness from which a flange or leg beside a bolt in tension does not pry, ASD loads.

    Parameters
    ----------
    T : float or array
        Pull on the bolt. [lbf]
    b_prime : float or array
        From the face of the standing leg to the near edge of the bolt. [in]
    p_b : float or array
        Length of leg that belongs to one bolt. [in]
    F_u : float or array
        Tensile strength of the leg. [psi]

    Returns
    -------
    float or array
        [in]

    Raises
    ------
    OutOfRange
        If a value is not positive.

    Notes
    -----
    6.66 is 4 times 1.67, as printed; with LRFD loads it is 4.44. Changed from the source: nothing. How known: memory.

    Examples
    --------
    >>> round(prying_thickness(1000.0, 1.0, 2.0, 58000.0), 4)
    0.2396
    """
    return sqrt(
        6.66
        * not_negative("T", T, PRYING)
        * positive("b_prime", b_prime, PRYING)
        / (positive("p_b", p_b, PRYING) * positive("F_u", F_u, PRYING))
    )
