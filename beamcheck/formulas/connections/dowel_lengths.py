"""How much of a fastener bears or holds: penetration, tips, threads.

p is the length of the fastener in the member that holds its point, tip included.
"""

from __future__ import annotations

from ...calc.core import Number, formula, largest, smallest, valid
from ...calc.ranges import below, given, not_negative, positive
from .ranges import any_diameter, at_least

BEARING, THREAD = "NDS 2018 12.3.5", "NDS 2018 Appendix L"
LAG, SCREW, NAIL = "NDS 2018 12.1.4.6", "NDS 2018 12.1.5.6", "NDS 2018 12.1.6.4"


@formula(symbol="p", clause=BEARING, unit="in")
def penetration(L_f: Number, l_s: Number, t_w: Number) -> Number:
    """Length of a fastener beyond the side member.

    Parameters
    ----------
    L_f : float or array
        Length under the head. [in]
    l_s : float or array
        Length in the side member, along the fastener. [in]
    t_w : float or array
        Washer, gap or other material between head and holding member that the fastener crosses as well. [in]

    Returns
    -------
    float or array
        [in]

    Raises
    ------
    OutOfRange
        If a length is not positive (t_w: negative) or nothing is left.

    Notes
    -----
    A fastener that comes out on the far side bears over the whole member and loses no tip. Changed from the source:
    nothing. How known: derived.

    Examples
    --------
    >>> penetration(6.0, 1.5, 0.125)
    4.375
    """
    crossed = positive("l_s", l_s) + not_negative("t_w", t_w)
    L_f = positive("L_f", L_f)
    return valid(L_f - crossed, L_f > crossed, f"L_f must be longer than what it crosses{given(crossed)}", BEARING)


@formula(symbol="l_m", clause=BEARING, unit="in")
def main_length_lag(p: Number, E_tip: Number) -> Number:
    """Bearing length of a lag screw in the member that holds its point.

    Parameters
    ----------
    p : float or array
        Length of the fastener in the member that holds the point, tip included. [in]
    E_tip : float or array
        Length of the tapered tip. [in]

    Returns
    -------
    float or array
        [in]

    Raises
    ------
    OutOfRange
        If a value is not positive or the tip is as long as p.

    Notes
    -----
    Half the tip does not count. Changed from the source: nothing. How known: read.

    Examples
    --------
    >>> main_length_lag(4.0, 0.3125)
    3.84375
    """
    return positive("p", p, BEARING) - below("E_tip", E_tip, "p", p, BEARING) / 2


@formula(symbol="l_m", clause=BEARING, unit="in")
def main_length_nail(p: Number, D: Number) -> Number:
    """Bearing length of a nail or wood screw in the member that holds its point.

    Parameters
    ----------
    p : float or array
        Length of the fastener in the member that holds the point, tip included. [in]
    D : float or array
        Nominal diameter. [in]

    Returns
    -------
    float or array
        [in]

    Raises
    ------
    OutOfRange
        If D is not positive or over 1 in, or p is not longer than the tip of 2 D.

    Notes
    -----
    Half the tip, taken 2 D long, does not count. Changed from the source: nothing. How known: read.

    Examples
    --------
    >>> round(main_length_nail(1.25, 0.162), 3)
    1.088
    """
    D, p = any_diameter(D), positive("p", p, BEARING)
    return valid(p - D, p > 2 * D, f"p must be longer than the tip of 2 D{given(p)}", BEARING)


@formula(symbol="p_min", clause=LAG, unit="in")
def least_penetration_lag(D: Number, E_tip: Number) -> Number:
    """Least penetration of a lag screw.

    Parameters
    ----------
    D : float or array
        Nominal diameter. [in]
    E_tip : float or array
        Length of the tapered tip. [in]

    Returns
    -------
    float or array
        [in]

    Raises
    ------
    OutOfRange
        If a value is not positive or D over 1 in.

    Notes
    -----
    4 D without the tip; less has no lateral value at all. Changed from the source: nothing. How known: read.

    Examples
    --------
    >>> least_penetration_lag(0.5, 0.3125)
    2.3125
    """
    return 4 * any_diameter(D) + positive("E_tip", E_tip, LAG)


@formula(symbol="p_min", clause=f"{SCREW}, 12.1.6.4", unit="in")
def least_penetration_nail(D: Number) -> Number:
    """Least penetration of a nail or wood screw.

    Parameters
    ----------
    D : float or array
        Nominal diameter. [in]

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
    Tip included; less has no lateral value at all. Changed from the source: nothing. How known: read.

    Examples
    --------
    >>> round(least_penetration_nail(0.162), 3)
    0.972
    """
    return 6 * any_diameter(D)


@formula(symbol="k_p", clause=LAG, unit="")
def table_factor_lag(p: Number, E_tip: Number, D: Number) -> Number:
    """Reduction of a TABULATED lateral value for a lag screw that goes in less than 8 D.

    Parameters
    ----------
    p : float or array
        Length of the fastener in the member that holds the point, tip included. [in]
    E_tip : float or array
        Length of the tapered tip. [in]
    D : float or array
        Nominal diameter. [in]

    Returns
    -------
    float or array
        [-]

    Raises
    ------
    OutOfRange
        If a value is not positive, D over 1 in, or p less than 4 D and the tip.

    Notes
    -----
    Never on a value from the yield equations: these see the true length. Changed from the source: nothing. How known:
    read.

    Examples
    --------
    >>> table_factor_lag(3.3125, 0.3125, 0.5)
    0.75
    """
    D, E_tip = any_diameter(D), positive("E_tip", E_tip, LAG)
    p = at_least("p", p, "4 D and the tip, together", 4 * D + E_tip, LAG)
    return smallest((p - E_tip) / (8 * D), 1)


@formula(symbol="k_p", clause=f"{SCREW}, 12.1.6.4", unit="")
def table_factor_nail(p: Number, D: Number) -> Number:
    """Reduction of a TABULATED lateral value for a nail or wood screw that goes in less than 10 D.

    Parameters
    ----------
    p : float or array
        Length of the fastener in the member that holds the point, tip included. [in]
    D : float or array
        Nominal diameter. [in]

    Returns
    -------
    float or array
        [-]

    Raises
    ------
    OutOfRange
        If D is not positive or over 1 in, or p less than 6 D.

    Notes
    -----
    Never on a value from the yield equations: these see the true length. Changed from the source: nothing. How known:
    read.

    Examples
    --------
    >>> round(table_factor_nail(1.25, 0.162), 4)
    0.7716
    """
    D = any_diameter(D)
    p = at_least("p", p, "6 D, the least penetration,", 6 * D, NAIL)
    return smallest(p / (10 * D), 1)


@formula(symbol="T_thread", clause=THREAD, unit="in")
def screw_thread_length(D: Number, L_f: Number) -> Number:
    """Thread length of a wood screw.

    Parameters
    ----------
    D : float or array
        Nominal diameter. [in]
    L_f : float or array
        Length under the head. [in]

    Returns
    -------
    float or array
        [in]

    Raises
    ------
    OutOfRange
        If a value is not positive or D over 1 in.

    Notes
    -----
    Tip included. Changed from the source: never longer than the screw. How known: read.

    Examples
    --------
    >>> screw_thread_length(0.19, 3.0)
    2.0
    """
    L_f = positive("L_f", L_f, THREAD)
    return smallest(largest(4 * any_diameter(D), 2 * L_f / 3), L_f)


@formula(symbol="p_t", clause="NDS 2018 12.2.1", unit="in")
def lag_thread_held(T_thread: Number, p: Number, E_tip: Number) -> Number:
    """Thread of a lag screw that holds against withdrawal.

    Parameters
    ----------
    T_thread : float or array
        Thread length, tip included. [in]
    p : float or array
        Length of the fastener in the member that holds the point, tip included. [in]
    E_tip : float or array
        Length of the tapered tip. [in]

    Returns
    -------
    float or array
        [in]

    Raises
    ------
    OutOfRange
        If a value is not positive or only the tip would hold.

    Notes
    -----
    The tip does not hold. Changed from the source: nothing. How known: read.

    Examples
    --------
    >>> lag_thread_held(3.5, 4.0, 0.3125)
    3.1875
    """
    held = smallest(positive("T_thread", T_thread, THREAD), positive("p", p, THREAD))
    return held - below("E_tip", E_tip, "the shorter of T_thread and p,", held, THREAD)


@formula(symbol="p_t", clause="NDS 2018 12.2.2", unit="in")
def screw_thread_held(T_thread: Number, p: Number) -> Number:
    """Thread of a wood screw that holds against withdrawal.

    Parameters
    ----------
    T_thread : float or array
        Thread length. [in]
    p : float or array
        Length of the fastener in the member that holds the point, tip included. [in]

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
    Changed from the source: nothing. How known: read.

    Examples
    --------
    >>> screw_thread_held(2.0, 1.5)
    1.5
    """
    return smallest(positive("T_thread", T_thread, THREAD), positive("p", p, THREAD))
