"""Bending with tension or compression (NDS 2018 3.9), eccentric columns and columns with brackets (15.4).

Axis 1 is edgewise: load on the narrow face, d_1 the deep side, F_b1_prime with C_L. Axis 2 is flatwise: d_2 the thin
side, F_b2_prime with C_fu. Each result is a share of what is allowed; stresses are given without sign.
"""

from __future__ import annotations

from ...calc.core import Number, formula, valid
from ...calc.ranges import below, given, not_negative, positive, positive_or_infinite, shown

WITH_TENSION, WITH_COMPRESSION, ECCENTRIC = "NDS 2018 3.9.1", "NDS 2018 3.9.2", "NDS 2018 15.4.1"


@formula(symbol="U", clause="NDS 2018 3.9.1 (eq. 3.9-1)", unit="")
def bending_and_tension(f_t: Number, F_t_prime: Number, f_b: Number, F_b_star: Number) -> Number:
    """Tension edge of a piece in bending and tension.

    Parameters
    ----------
    f_t : float or array
        Tension stress on the net area. [psi]
    F_t_prime : float or array
        Adjusted tension design value. [psi]
    f_b : float or array
        Bending stress. [psi]
    F_b_star : float or array
        Bending design value with all factors except C_L. [psi]

    Returns
    -------
    float or array
        At most 1 is allowed. [-]

    Raises
    ------
    OutOfRange
        If a stress is negative or a design value not positive.

    Notes
    -----
    Here F_b* leaves out C_L only, so on the flat it holds C_fu, unlike the F_b* of 3.3.3.8.
    Changed from the source: nothing. How known: read.

    Examples
    --------
    >>> bending_and_tension(300.0, 600.0, 250.0, 1000.0)
    0.75
    """
    F_t_prime, F_b_star = positive("F_t_prime", F_t_prime, WITH_TENSION), positive("F_b_star", F_b_star, WITH_TENSION)
    return not_negative("f_t", f_t, WITH_TENSION) / F_t_prime + not_negative("f_b", f_b, WITH_TENSION) / F_b_star


@formula(symbol="U", clause="NDS 2018 3.9.1 (eq. 3.9-2)", unit="")
def bending_less_tension(f_b: Number, f_t: Number, F_b_starstar: Number) -> Number:
    """Compression edge of a piece in bending and tension.

    Parameters
    ----------
    f_b, f_t : float or array
        Bending stress, and tension stress (the least that goes with it). [psi]
    F_b_starstar : float or array
        Bending design value with all factors except C_V; for sawn lumber F_b_prime. [psi]

    Returns
    -------
    float or array
        At most 1 is allowed; negative where the whole section is in tension. [-]

    Raises
    ------
    OutOfRange
        If a stress is negative or the design value not positive.

    Notes
    -----
    Changed from the source: nothing. How known: read.

    Examples
    --------
    >>> bending_less_tension(1000.0, 200.0, 1600.0)
    0.5
    """
    f_b, f_t = not_negative("f_b", f_b, WITH_TENSION), not_negative("f_t", f_t, WITH_TENSION)
    return (f_b - f_t) / positive("F_b_starstar", F_b_starstar, WITH_TENSION)


@formula(symbol="U", clause="NDS 2018 3.9.2 (eq. 3.9-3)", unit="")
def bending_and_compression(
    f_c: Number, F_c_prime: Number, f_b1: Number, F_b1_prime: Number, f_b2: Number, F_b2_prime: Number,
    F_cE1: Number, F_cE2: Number, F_bE: Number,
) -> Number:  # fmt: skip
    """Compression with bending both ways.

    Parameters
    ----------
    f_c : float or array
        Compression stress. [psi]
    F_c_prime : float or array
        Adjusted compression design value, with the smaller C_P of the two ways. [psi]
    f_b1, f_b2 : float or array
        Bending stress edgewise and flatwise. [psi]
    F_b1_prime, F_b2_prime : float or array
        Adjusted bending design value edgewise (with C_L) and flatwise (with C_fu). [psi]
    F_cE1, F_cE2 : float or array
        Critical buckling stress from l_e1/d_1 and from l_e2/d_2; infinite where held along the whole length. [psi]
    F_bE : float or array
        Critical buckling stress in edgewise bending; infinite where the compression edge is held. [psi]

    Returns
    -------
    float or array
        At most 1 is allowed. [-]

    Raises
    ------
    OutOfRange
        If a stress is negative, a design value not positive, or a limit of 3.9.2 is reached: f_c below F_cE1 and
        F_cE2, f_b1 below F_bE, eq. 3.9-4 below 1. Then the piece fails.

    Notes
    -----
    Changed from the source: nothing. How known: read; eq. 3.9-4 and the limits memory.

    Examples
    --------
    >>> round(bending_and_compression(264.46, 691.5, 400.0, 1200.0, 0.0, 1200.0, 1001.5, 1001.5, 1e5), 4)
    0.5992
    """
    f_c, F_c_prime = _axial(f_c, F_c_prime, F_cE1, F_cE2)
    f_b1, f_b2 = below("f_b1", f_b1, "F_bE", F_bE, WITH_COMPRESSION), not_negative("f_b2", f_b2, WITH_COMPRESSION)
    F_b1_prime, F_b2_prime = positive("F_b1_prime", F_b1_prime), positive("F_b2_prime", F_b2_prime)
    left_1 = 1 - f_c / F_cE1
    left_2 = _left(1 - f_c / F_cE2 - (f_b1 / positive_or_infinite("F_bE", F_bE)) ** 2)
    return (f_c / F_c_prime) ** 2 + f_b1 / (F_b1_prime * left_1) + f_b2 / (F_b2_prime * left_2)


@formula(symbol="U", clause="NDS 2018 3.9.2 (eq. 3.9-3 with f_b2 = 0)", unit="")
def bending_and_compression_one_way(
    f_c: Number, F_c_prime: Number, f_b1: Number, F_b1_prime: Number, F_cE1: Number
) -> Number:
    """Compression with edgewise bending only.

    Parameters
    ----------
    f_c : float or array
        Compression stress. [psi]
    F_c_prime : float or array
        Adjusted compression design value, with the smaller C_P of the two ways. [psi]
    f_b1 : float or array
        Bending stress edgewise. [psi]
    F_b1_prime : float or array
        Adjusted bending design value edgewise, with C_L. [psi]
    F_cE1 : float or array
        Critical buckling stress from l_e1/d_1; infinite where held along the whole length. [psi]

    Returns
    -------
    float or array
        At most 1 is allowed. [-]

    Raises
    ------
    OutOfRange
        If a stress is negative, a design value not positive, or f_c reaches F_cE1. Then the piece fails.

    Notes
    -----
    For bending flatwise only, put the values of axis 2 in the place of those of axis 1. Eq. 3.9-4 is to be checked too.
    Changed from the source: nothing but f_b2 = 0. How known: read.

    Examples
    --------
    >>> round(bending_and_compression_one_way(264.46, 691.5, 400.0, 1200.0, 1001.5), 4)
    0.5992
    """
    f_c, F_c_prime = _axial(f_c, F_c_prime, F_cE1)
    f_b1, F_b1_prime = not_negative("f_b1", f_b1, WITH_COMPRESSION), positive("F_b1_prime", F_b1_prime)
    return (f_c / F_c_prime) ** 2 + f_b1 / (F_b1_prime * (1 - f_c / F_cE1))


@formula(symbol="U", clause="NDS 2018 3.9.2 (eq. 3.9-4)", unit="")
def bending_and_compression_limit(f_c: Number, F_cE2: Number, f_b1: Number, F_bE: Number) -> Number:
    """Sideways buckling of a piece in compression and edgewise bending. Must be less than 1: 1 itself fails.

    Parameters
    ----------
    f_c : float or array
        Compression stress. [psi]
    F_cE2 : float or array
        Critical buckling stress from l_e2/d_2; infinite where held along the whole length. [psi]
    f_b1 : float or array
        Bending stress edgewise. [psi]
    F_bE : float or array
        Critical buckling stress in edgewise bending; infinite where the compression edge is held. [psi]

    Returns
    -------
    float or array
        Less than 1 is allowed. [-]

    Raises
    ------
    OutOfRange
        If a stress is negative or a buckling stress not positive.

    Notes
    -----
    Changed from the source: nothing. How known: memory.

    Examples
    --------
    >>> bending_and_compression_limit(250.0, 1000.0, 500.0, 1000.0)
    0.5
    """
    f_c, f_b1 = not_negative("f_c", f_c, WITH_COMPRESSION), not_negative("f_b1", f_b1, WITH_COMPRESSION)
    return f_c / positive_or_infinite("F_cE2", F_cE2) + (f_b1 / positive_or_infinite("F_bE", F_bE)) ** 2


@formula(symbol="U", clause="NDS 2018 15.4.1 (eq. 15.4-1)", unit="")
def eccentric_column(
    f_c: Number, F_c_prime: Number, f_b1: Number, F_b1_prime: Number, f_b2: Number, F_b2_prime: Number,
    F_cE1: Number, F_cE2: Number, F_bE: Number, e_1: Number, d_1: Number, e_2: Number, d_2: Number,
) -> Number:  # fmt: skip
    """Column with its load off the axis, and side loads, both ways.

    Parameters
    ----------
    f_c : float or array
        Compression stress. [psi]
    F_c_prime : float or array
        Adjusted compression design value, with the smaller C_P of the two ways. [psi]
    f_b1, f_b2 : float or array
        Bending stress from side loads alone, edgewise and flatwise. [psi]
    F_b1_prime, F_b2_prime : float or array
        Adjusted bending design value edgewise (with C_L) and flatwise (with C_fu). [psi]
    F_cE1, F_cE2 : float or array
        Critical buckling stress from l_e1/d_1 and from l_e2/d_2; infinite where held along the whole length. [psi]
    F_bE : float or array
        Critical buckling stress in edgewise bending; infinite where the compression edge is held. [psi]
    e_1, e_2 : float or array
        Distance of the load from the axis, along d_1 and along d_2. [in]
    d_1, d_2 : float or array
        Deep and thin side. [in]

    Returns
    -------
    float or array
        At most 1 is allowed. [-]

    Raises
    ------
    OutOfRange
        If a stress or distance is negative, a design value or side not positive, or a limit is reached (f_c below
        F_cE1 and F_cE2, f_b1 + f_c 6 e_1/d_1 below F_bE, eq. 15.4-2 below 1). Then the piece fails.

    Notes
    -----
    Rectangles only: 6 e/d. Changed from the source: nothing. How known: memory.

    Examples
    --------
    With no eccentricity it is eq. 3.9-3:

    >>> round(eccentric_column(264.46, 691.5, 400.0, 1200.0, 0.0, 1200.0, 1001.5, 1001.5, 1e5, 0.0, 5.5, 0.0, 5.5), 4)
    0.5992
    """
    f_c, F_c_prime = _axial(f_c, F_c_prime, F_cE1, F_cE2)
    f_b1, f_b2 = not_negative("f_b1", f_b1, ECCENTRIC), not_negative("f_b2", f_b2, ECCENTRIC)
    F_b1_prime, F_b2_prime = positive("F_b1_prime", F_b1_prime), positive("F_b2_prime", F_b2_prime)
    off_1, off_2 = _off(f_c, e_1, d_1, "1"), _off(f_c, e_2, d_2, "2")
    tilt = (_short_of(f_b1 + off_1, F_bE) / F_bE) ** 2
    edgewise = f_b1 + off_1 * (1 + 0.234 * (f_c / F_cE1))
    flatwise = f_b2 + off_2 * (1 + 0.234 * (f_c / F_cE2) + 0.234 * tilt)
    return (
        (f_c / F_c_prime) ** 2
        + edgewise / (F_b1_prime * (1 - f_c / F_cE1))
        + flatwise / (F_b2_prime * _left(1 - f_c / F_cE2 - tilt))
    )


@formula(symbol="U", clause="NDS 2018 15.4.1 (eq. 15.4-2)", unit="")
def eccentric_column_limit(f_c: Number, F_cE2: Number, f_b1: Number, F_bE: Number, e_1: Number, d_1: Number) -> Number:
    """Sideways buckling of an eccentrically loaded column. Must be less than 1: 1 itself fails.

    Parameters
    ----------
    f_c : float or array
        Compression stress. [psi]
    F_cE2 : float or array
        Critical buckling stress from l_e2/d_2; infinite where held along the whole length. [psi]
    f_b1 : float or array
        Bending stress from side loads alone, edgewise. [psi]
    F_bE : float or array
        Critical buckling stress in edgewise bending; infinite where the compression edge is held. [psi]
    e_1, d_1 : float or array
        Distance of the load from the axis along the deep side, and that side. [in]

    Returns
    -------
    float or array
        Less than 1 is allowed. [-]

    Raises
    ------
    OutOfRange
        If a stress or distance is negative, or another value not positive.

    Notes
    -----
    Changed from the source: nothing. How known: memory.

    Examples
    --------
    >>> eccentric_column_limit(200.0, 1000.0, 100.0, 1000.0, 2.0, 6.0)
    0.45
    """
    f_c, f_b1 = not_negative("f_c", f_c, ECCENTRIC), not_negative("f_b1", f_b1, ECCENTRIC)
    edge = f_b1 + _off(f_c, e_1, d_1, "1")
    return f_c / positive_or_infinite("F_cE2", F_cE2) + (edge / positive_or_infinite("F_bE", F_bE)) ** 2


@formula(symbol="P_s", clause="NDS 2018 15.4.2", unit="lbf")
def side_bracket_load(P: Number, a: Number, l_p: Number, l: Number) -> Number:  # noqa: E741
    """Side load at mid-height that stands for a bracket in the upper quarter of a column, beside P on its axis.

    Parameters
    ----------
    P : float or array
        Load on the bracket. [lbf]
    a : float or array
        From the load to the axis of the column. [in]
    l_p : float or array
        From the bracket, along the column, to its farther end. [in]
    l : float or array
        Length of the column. [in]

    Returns
    -------
    float or array
        [lbf]

    Raises
    ------
    OutOfRange
        If a value is negative, the column has no length, or the bracket is not in the upper quarter.

    Notes
    -----
    Its moment at mid-height is 3/4 of P a l_p/l, the exact moment at the bracket of a column pinned at both ends.
    Changed from the source: nothing. How known: memory.

    Examples
    --------
    >>> side_bracket_load(1000.0, 8.0, 96.0, 120.0)
    160.0
    """
    l = positive("l", l, "NDS 2018 15.4.2")  # noqa: E741
    because = (
        f"l_p must be three quarters of l to l{shown(l)}: the rule is for brackets in the upper quarter{given(l_p)}"
    )
    l_p = valid(l_p, (l_p >= 0.75 * l) & (l_p <= l), because, "NDS 2018 15.4.2")
    return 3 * not_negative("P", P) * not_negative("a", a) * l_p / l**2


def _axial(f_c: Number, F_c_prime: Number, *F_cE: Number) -> tuple[Number, Number]:
    """Stress and design value, checked against every buckling stress."""
    for stress in F_cE:
        because = f"f_c must be less than the buckling stress F_cE{shown(stress)}{given(f_c)}: the piece buckles"
        f_c = valid(f_c, f_c < positive_or_infinite("F_cE", stress), because, WITH_COMPRESSION)
    return not_negative("f_c", f_c, WITH_COMPRESSION), positive("F_c_prime", F_c_prime, WITH_COMPRESSION)


def _left(share: Number) -> Number:
    because = "the piece buckles sideways: f_c/F_cE2 + (f_b1/F_bE)^2 must be less than 1"
    return valid(share, share > 0, because, "NDS 2018 3.9.2 (eq. 3.9-4)")


def _off(f_c: Number, e: Number, d: Number, axis: str) -> Number:
    """Bending stress of a load off the axis of a rectangle."""
    e, d = not_negative(f"e_{axis}", e, ECCENTRIC), positive(f"d_{axis}", d, ECCENTRIC)
    return f_c * (6 * e / d)


def _short_of(stress: Number, F_bE: Number) -> Number:
    F_bE = positive_or_infinite("F_bE", F_bE, ECCENTRIC)
    because = f"f_b1 + f_c (6 e_1/d_1) must be less than F_bE{shown(F_bE)}{given(stress)}"
    return valid(stress, stress < F_bE, because, ECCENTRIC)
