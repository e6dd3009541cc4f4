"""Holes in steel plates: deductions, bearing and tear-out of bolts (AISC 360-16, ASD: the values are R_n/Omega).

Steel takes no C_D. Bearing and tear-out: the lesser for each bolt, then the sum over the bolts. How known: memory.
"""

from __future__ import annotations

from ...calc.core import Number, formula, valid, where
from ...calc.ranges import below, carried, given, positive

HOLE = "AISC 360-16 J3.10"
SIZE = "AISC 360-16 Table J3.3"


@formula(symbol="d_h", clause=SIZE, unit="in")
def standard_hole(D: Number) -> Number:
    """Standard hole in steel.

    Parameters
    ----------
    D : float or array
        Diameter of the bolt, up to 1. [in]

    Returns
    -------
    float or array
        [in]

    Raises
    ------
    OutOfRange
        If D is not positive or over 1 in.

    Notes
    -----
    1/16 in over the bolt, 1/8 in for 1 in bolts. Changed from the source: nothing. How known: memory.

    Examples
    --------
    >>> standard_hole(0.5)
    0.5625
    >>> standard_hole(1.0)
    1.125
    """
    D = valid(D, (D > 0) & (D <= 1), f"D must be above 0 and at most 1 in{given(D)}", SIZE)
    return carried(where(D < 1, D + 1 / 16, D + 1 / 8), D)


@formula(symbol="d_net", clause="AISC 360-16 B4.3b", unit="in")
def net_hole_width(d_h: Number) -> Number:
    """Width deducted for a hole in a net area.

    Parameters
    ----------
    d_h : float or array
        Diameter of the hole. [in]

    Returns
    -------
    float or array
        [in]

    Raises
    ------
    OutOfRange
        If it is not positive.

    Notes
    -----
    Changed from the source: nothing. How known: memory.

    Examples
    --------
    >>> net_hole_width(0.5625)
    0.625
    """
    return positive("d_h", d_h) + 1 / 16


@formula(symbol="l_c", clause=HOLE, unit="in")
def clear_to_edge(l_end: Number, d_h: Number) -> Number:
    """Clear distance from a hole to the edge the bolt pushes to.

    Parameters
    ----------
    l_end : float or array
        From the edge to the centre of the hole. [in]
    d_h : float or array
        Diameter of the hole. [in]

    Returns
    -------
    float or array
        [in]

    Raises
    ------
    OutOfRange
        If the hole reaches the edge or a value is not positive.

    Notes
    -----
    Changed from the source: nothing. How known: memory.

    Examples
    --------
    >>> clear_to_edge(1.0, 0.5625)
    0.71875
    """
    l_end, d_h = positive("l_end", l_end, HOLE), positive("d_h", d_h, HOLE)
    return l_end - below("d_h/2", d_h / 2, "l_end", l_end, HOLE)


@formula(symbol="l_c", clause=HOLE, unit="in")
def clear_to_next(s: Number, d_h: Number) -> Number:
    """Clear distance from a hole to the next one.

    Parameters
    ----------
    s : float or array
        Spacing of the holes. [in]
    d_h : float or array
        Diameter of the holes. [in]

    Returns
    -------
    float or array
        [in]

    Raises
    ------
    OutOfRange
        If the holes meet or a value is not positive.

    Notes
    -----
    Changed from the source: nothing. How known: memory.

    Examples
    --------
    >>> clear_to_next(2.0, 0.5625)
    1.4375
    """
    s, d_h = positive("s", s, HOLE), positive("d_h", d_h, HOLE)
    return s - below("d_h", d_h, "s", s, HOLE)


@formula(symbol="R_a", clause=HOLE, unit="lbf")
def plate_bearing(D: Number, t: Number, F_u: Number) -> Number:
    """Allowable bearing of a bolt on a plate.

    Parameters
    ----------
    D : float or array
        Diameter of the bolt. [in]
    t : float or array
        Thickness of the plate. [in]
    F_u : float or array
        Tensile strength of the plate. [psi]

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
    Where the stretch of the hole matters: 2.4, the lower of two factors, Omega 2.00. Changed from the source: nothing.
    How known: memory.

    Examples
    --------
    >>> plate_bearing(0.5, 0.25, 58000.0)
    8700.0
    """
    return 2.4 * positive("D", D, HOLE) * positive("t", t, HOLE) * positive("F_u", F_u, HOLE) / 2


@formula(symbol="R_a", clause=HOLE, unit="lbf")
def plate_bearing_slot(D: Number, t: Number, F_u: Number) -> Number:
    """Allowable bearing of a bolt in a long slot across the load.

    Parameters
    ----------
    D : float or array
        Diameter of the bolt. [in]
    t : float or array
        Thickness of the plate. [in]
    F_u : float or array
        Tensile strength of the plate. [psi]

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
    Omega 2.00. Changed from the source: nothing. How known: memory.

    Examples
    --------
    >>> plate_bearing_slot(0.5, 0.25, 58000.0)
    7250.0
    """
    return 2.0 * positive("D", D, HOLE) * positive("t", t, HOLE) * positive("F_u", F_u, HOLE) / 2


@formula(symbol="R_a", clause=HOLE, unit="lbf")
def plate_tear_out(l_c: Number, t: Number, F_u: Number) -> Number:
    """Allowable tear-out of a bolt.

    Parameters
    ----------
    l_c : float or array
        Clear distance to the edge or the next hole. [in]
    t : float or array
        Thickness of the plate. [in]
    F_u : float or array
        Tensile strength of the plate. [psi]

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
    Where the stretch of the hole matters: 1.2, the lower of two factors, Omega 2.00. Changed from the source: nothing.
    How known: memory.

    Examples
    --------
    >>> plate_tear_out(0.71875, 0.25, 58000.0)
    6253.124999999999
    """
    return 1.2 * positive("l_c", l_c, HOLE) * positive("t", t, HOLE) * positive("F_u", F_u, HOLE) / 2


@formula(symbol="R_a", clause=HOLE, unit="lbf")
def plate_tear_out_slot(l_c: Number, t: Number, F_u: Number) -> Number:
    """Allowable tear-out of a bolt in a long slot across the load.

    Parameters
    ----------
    l_c : float or array
        Clear distance to the edge or the next hole. [in]
    t : float or array
        Thickness of the plate. [in]
    F_u : float or array
        Tensile strength of the plate. [psi]

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
    Omega 2.00. Changed from the source: nothing. How known: memory.

    Examples
    --------
    >>> plate_tear_out_slot(0.71875, 0.25, 58000.0)
    5210.9375
    """
    return positive("l_c", l_c, HOLE) * positive("t", t, HOLE) * positive("F_u", F_u, HOLE) / 2
