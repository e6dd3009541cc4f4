"""Wood that tears out with a group of fasteners pulling along the grain (NDS 2018 Appendix E). For each member.

t is the thickness of wood that bears on the fastener in the member checked, slots and bores deducted; F_v' and F_t' are
that member's. How known: memory, all of it.
"""

from __future__ import annotations

from ...calc.core import Number, formula, smallest, valid
from ...calc.ranges import given, not_negative, positive

NET, ROW, GROUP = "NDS 2018 Appendix E.2", "NDS 2018 Appendix E.3", "NDS 2018 Appendix E.4"


@formula(symbol="s_crit", clause=ROW, unit="in")
def critical_spacing(l_end: Number, s: Number) -> Number:
    """Length of wood that holds each fastener of a row: the lesser of end distance and spacing.

    Parameters
    ----------
    l_end : float or array
        From the end of the piece to the nearest fastener. [in]
    s : float or array
        Least spacing in the row. [in]

    Returns
    -------
    float or array
        [in]

    Raises
    ------
    OutOfRange
        If a length is not positive.

    Notes
    -----
    For a single fastener give the end distance twice. Changed from the source: nothing. How known: memory.

    Examples
    --------
    >>> critical_spacing(3.5, 2.0)
    2.0
    """
    return smallest(positive("l_end", l_end, ROW), positive("s", s, ROW))


@formula(symbol="Z_RT", clause=ROW, unit="lbf")
def row_tear_out(n: Number, F_v_prime: Number, t: Number, s_crit: Number) -> Number:
    """What one row carries before it tears out.

    Parameters
    ----------
    n : float or array
        Number of fasteners in the row. [-]
    F_v_prime : float or array
        Adjusted shear design value. [psi]
    t : float or array
        Thickness of wood that bears on the fasteners. [in]
    s_crit : float or array
        Lesser of end distance and spacing. [in]

    Returns
    -------
    float or array
        [lbf]

    Raises
    ------
    OutOfRange
        If a value is not positive or n below 1.

    Notes
    -----
    F_v'/2, the mean of a triangle, on two shear lines of n s_crit each. A check (split) through the row leaves nothing.
    Changed from the source: nothing. How known: memory.

    Examples
    --------
    >>> row_tear_out(3.0, 180.0, 1.5, 2.0)
    1620.0
    """
    n = valid(n, (n >= 1) & (n < 1000), f"n must be 1 or more{given(n)}", ROW)
    return n * positive("F_v_prime", F_v_prime, ROW) * positive("t", t, ROW) * positive("s_crit", s_crit, ROW)


@formula(symbol="Z_GT", clause=GROUP, unit="lbf")
def group_tear_out(Z_RT_1: Number, Z_RT_2: Number, F_t_prime: Number, A_between: Number) -> Number:
    """What a group of rows carries before it tears out as a block.

    Parameters
    ----------
    Z_RT_1, Z_RT_2 : float or array
        Row tear-out of the two outer rows. [lbf]
    F_t_prime : float or array
        Adjusted tension design value. [psi]
    A_between : float or array
        Net area between the outer rows. [in2]

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
    Changed from the source: nothing. How known: memory.

    Examples
    --------
    >>> group_tear_out(1620.0, 1620.0, 575.0, 4.0)
    3920.0
    """
    return (
        positive("Z_RT_1", Z_RT_1, GROUP) / 2
        + positive("Z_RT_2", Z_RT_2, GROUP) / 2
        + positive("F_t_prime", F_t_prime, GROUP) * positive("A_between", A_between, GROUP)
    )


@formula(symbol="Z_NT", clause=NET, unit="lbf")
def net_section_tension(F_t_prime: Number, A_n: Number) -> Number:
    """What the net section carries in tension.

    Parameters
    ----------
    F_t_prime : float or array
        Adjusted tension design value. [psi]
    A_n : float or array
        Net area. [in2]

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
    Changed from the source: nothing. How known: memory.

    Examples
    --------
    >>> net_section_tension(575.0, 8.0)
    4600.0
    """
    return positive("F_t_prime", F_t_prime, NET) * positive("A_n", A_n, NET)


@formula(symbol="d_h", clause="NDS 2018 12.1.3", unit="in")
def bolt_hole(D: Number) -> Number:
    """Diameter deducted for a bolt hole in wood.

    Parameters
    ----------
    D : float or array
        Diameter of the bolt. [in]

    Returns
    -------
    float or array
        [in]

    Raises
    ------
    OutOfRange
        If D is not positive.

    Notes
    -----
    The largest hole that 12.1.3 allows; wider holes have no lateral value. Changed from the source: nothing. How known:
    read.

    Examples
    --------
    >>> bolt_hole(0.5)
    0.5625
    """
    return positive("D", D) + 1 / 16


@formula(symbol="A_n", clause=f"{NET}, 3.1.2", unit="in2")
def area_less_holes(A_g: Number, n: Number, d_h: Number, t: Number) -> Number:
    """Area less the holes in one section.

    Parameters
    ----------
    A_g : float or array
        Gross area. [in2]
    n : float or array
        Number of holes in the section; staggered ones nearer than 4 D along the grain count with it. [-]
    d_h : float or array
        Diameter of a hole. [in]
    t : float or array
        Thickness of wood that bears on the fasteners. [in]

    Returns
    -------
    float or array
        [in2]

    Raises
    ------
    OutOfRange
        If a value is not positive or nothing is left.

    Notes
    -----
    Changed from the source: nothing. How known: memory.

    Examples
    --------
    >>> area_less_holes(13.875, 2.0, 0.5625, 1.5)
    12.1875
    """
    A_g = positive("A_g", A_g, NET)
    holes = not_negative("n", n, NET) * positive("d_h", d_h, NET) * positive("t", t, NET)
    return valid(A_g - holes, holes < A_g, f"A_g is taken by the holes{given(holes)}", NET)


@formula(symbol="A_between", clause=GROUP, unit="in2")
def area_between_rows(n_row: Number, s_row: Number, d_h: Number, t: Number) -> Number:
    """Net area between the outer rows, rows evenly apart.

    Parameters
    ----------
    n_row : float or array
        Number of rows, 2 or more. [-]
    s_row : float or array
        Distance between rows. [in]
    d_h : float or array
        Diameter of a hole. [in]
    t : float or array
        Thickness of wood that bears on the fasteners. [in]

    Returns
    -------
    float or array
        [in2]

    Raises
    ------
    OutOfRange
        If a value is not positive, n_row below 2, or the holes meet.

    Notes
    -----
    Half a hole at each outer row, whole ones between. Changed from the source: nothing. How known: derived.

    Examples
    --------
    >>> area_between_rows(3.0, 2.0, 0.5625, 1.5)
    4.3125
    """
    n_row = valid(n_row, (n_row >= 2) & (n_row < 1000), f"n_row must be 2 or more{given(n_row)}", GROUP)
    s_row, d_h = positive("s_row", s_row, GROUP), positive("d_h", d_h, GROUP)
    because = f"s_row must be more than the hole d_h{given(s_row)}"
    return (n_row - 1) * (s_row - valid(d_h, d_h < s_row, because, GROUP)) * positive("t", t, GROUP)
