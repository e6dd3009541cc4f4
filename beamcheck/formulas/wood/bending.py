"""Bending and the sideways stability of beams (NDS 2018 3.3)."""

from __future__ import annotations

from ...calc.core import Number, formula, sqrt, valid, where
from ...calc.ranges import below, carried, given, not_negative, positive, positive_or_infinite, shown

STABILITY = "NDS 2018 3.3.3"


@formula(symbol="f_b", clause="NDS 2018 3.3.2 (eq. 3.3-1)", unit="psi")
def bending_stress(M: Number, S: Number) -> Number:
    """Bending stress at the edge of a section.

    Parameters
    ----------
    M : float or array
        Bending moment, without sign. [lbf*in]
    S : float or array
        Section modulus, the net one at a notch, hole or mortise (3.1.2). [in3]

    Returns
    -------
    float or array
        [psi]

    Raises
    ------
    OutOfRange
        If the moment is negative or the section modulus not positive.

    Notes
    -----
    A signed moment is refused, for a negative stress would pass any check.
    Changed from the source: nothing. How known: read.

    Examples
    --------
    >>> round(bending_stress(48000.0, 30.66), 1)
    1565.6
    """
    return not_negative("M", M, "NDS 2018 3.3.2") / positive("S", S, "NDS 2018 3.3.2")


@formula(symbol="l_e", clause="NDS 2018 Table 3.3.3", unit="in")
def effective_length(l_u: Number, d: Number, k_short: Number, k_long: Number, k_d: Number) -> Number:
    """Effective length of a bending member, with the coefficients of its row of the table.

    Parameters
    ----------
    l_u : float or array
        Unbraced length of the compression edge. [in]
    d : float or array
        Depth. [in]
    k_short : float or array
        Coefficient of l_u where l_u/d is under 7. [-]
    k_long, k_d : float or array
        Coefficients of l_u and of d where l_u/d is 7 or more. [-]

    Returns
    -------
    float or array
        [in]

    Raises
    ------
    OutOfRange
        If a length or coefficient is not positive (k_d may be 0).

    Notes
    -----
    Rows with one coefficient have k_short = k_long and k_d = 0.
    Changed from the source: nothing. How known: memory; the row 1.11 l_u read.

    Examples
    --------
    Three equal loads at quarter points, braced there:

    >>> round(effective_length(96.0, 23.5, 1.54, 1.54, 0.0), 2)
    147.84
    """
    l_u, d = positive("l_u", l_u, STABILITY), positive("d", d, STABILITY)
    k_short, k_long = positive("k_short", k_short, STABILITY), positive("k_long", k_long, STABILITY)
    k_d = not_negative("k_d", k_d, STABILITY)
    l_e = where(l_u / d < 7, k_short * l_u, k_long * l_u + k_d * d)
    return carried(l_e, l_u, d, k_short, k_long, k_d)


@formula(symbol="l_e", clause="NDS 2018 Table 3.3.3 (footnote 1)", unit="in")
def effective_length_any(l_u: Number, d: Number) -> Number:
    """Effective length of a single span or cantilever whose loading is not in the table.

    Parameters
    ----------
    l_u : float or array
        Unbraced length of the compression edge. [in]
    d : float or array
        Depth. [in]

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
    Not below any row of the table, single span or cantilever (but for 1 part in 10,000 just under 14.3).
    Changed from the source: nothing. How known: memory.

    Examples
    --------
    >>> [round(effective_length_any(l_u, 10.0), 3) for l_u in (60.0, 100.0, 200.0)]
    [123.6, 193.0, 368.0]
    """
    l_u, d = positive("l_u", l_u, STABILITY), positive("d", d, STABILITY)
    l_e = where(l_u / d < 7, 2.06 * l_u, where(l_u / d <= 14.3, 1.63 * l_u + 3 * d, 1.84 * l_u))
    return carried(l_e, l_u, d)


@formula(symbol="R_B", clause="NDS 2018 3.3.3.6 (eq. 3.3-5)", unit="")
def slenderness_ratio(l_e: Number, d: Number, b: Number) -> Number:
    """Slenderness ratio of a bending member.

    Parameters
    ----------
    l_e : float or array
        Effective length. [in]
    d, b : float or array
        Depth and breadth; of a built-up beam the breadth of one ply unless the plies are shown to act together. [in]

    Returns
    -------
    float or array
        [-]

    Raises
    ------
    OutOfRange
        If a dimension is not positive or R_B comes out over 50 (3.3.3.7).

    Notes
    -----
    Changed from the source: nothing. How known: read.

    Examples
    --------
    >>> round(slenderness_ratio(147.84, 23.5, 7.5), 3)
    7.859
    """
    l_e, d, b = positive("l_e", l_e, STABILITY), positive("d", d, STABILITY), positive("b", b, STABILITY)
    R_B = sqrt(l_e * d / b**2)
    because = f"R_B is{shown(R_B)} and must be at most 50: brace the compression edge at shorter distances"
    return valid(R_B, R_B <= 50, because, "NDS 2018 3.3.3.7")


@formula(symbol="F_bE", clause="NDS 2018 3.3.3.8", unit="psi")
def critical_buckling_bending(E_min_prime: Number, R_B: Number) -> Number:
    """Critical buckling stress of a bending member.

    Parameters
    ----------
    E_min_prime : float or array
        Adjusted modulus of elasticity for stability. [psi]
    R_B : float or array
        Slenderness ratio. [-]

    Returns
    -------
    float or array
        [psi]

    Raises
    ------
    OutOfRange
        If a value is not positive or R_B is over 50.

    Notes
    -----
    Changed from the source: nothing. How known: read.

    Examples
    --------
    >>> round(critical_buckling_bending(580000.0, 7.859))
    11269
    """
    R_B = valid(R_B, (R_B > 0) & (R_B <= 50), f"R_B must be above 0 and at most 50{given(R_B)}", "NDS 2018 3.3.3.7")
    return 1.20 * positive("E_min_prime", E_min_prime, STABILITY) / R_B**2


@formula(symbol="C_L", clause="NDS 2018 3.3.3.8 (eq. 3.3-6)", unit="")
def beam_stability(F_bE: Number, F_b_star: Number) -> Number:
    """Beam stability factor.

    Parameters
    ----------
    F_bE : float or array
        Critical buckling stress. [psi]
    F_b_star : float or array
        Bending design value with all factors except C_L and C_fu. [psi]

    Returns
    -------
    float or array
        [-]

    Raises
    ------
    OutOfRange
        If a stress is not positive.

    Notes
    -----
    Where d is at most b, or the compression edge is held as 3.3.3.3 or 4.4.1 says, C_L is 1 without this equation.
    Changed from the source: nothing. How known: read.

    Examples
    --------
    >>> round(beam_stability(2.83, 1.0), 4)
    0.9744
    """
    F_bE, F_b_star = positive("F_bE", F_bE, STABILITY), positive("F_b_star", F_b_star, STABILITY)
    ratio = F_bE / F_b_star
    return (1 + ratio) / 1.9 - sqrt(((1 + ratio) / 1.9) ** 2 - ratio / 0.95)


@formula(symbol="U", clause="NDS 2018 3.3.3.9, 3.9.2 (eq. 3.9-3 with f_c = 0)", unit="")
def biaxial_bending(f_b1: Number, F_b1_prime: Number, f_b2: Number, F_b2_prime: Number, F_bE: Number) -> Number:
    """Bending both ways at once, as a share of what is allowed.

    Parameters
    ----------
    f_b1, f_b2 : float or array
        Bending stress edgewise (load on the narrow face) and flatwise. [psi]
    F_b1_prime : float or array
        Adjusted bending design value edgewise, with C_L. [psi]
    F_b2_prime : float or array
        Adjusted bending design value flatwise, with C_fu. [psi]
    F_bE : float or array
        Critical buckling stress edgewise; infinite where the compression edge is held. [psi]

    Returns
    -------
    float or array
        At most 1 is allowed. [-]

    Raises
    ------
    OutOfRange
        If a stress is negative, a design value not positive, or f_b1 reaches F_bE.

    Notes
    -----
    A plain sum of the two ratios would be unsafe for a slender beam.
    Changed from the source: nothing but f_c = 0. How known: read (3.9-3).

    Examples
    --------
    >>> round(biaxial_bending(600.0, 1200.0, 200.0, 1000.0, 1200.0), 4)
    0.7667
    """
    f_b1, f_b2 = below("f_b1", f_b1, "F_bE", F_bE, "NDS 2018 3.9.2"), not_negative("f_b2", f_b2)
    F_b1_prime, F_b2_prime = positive("F_b1_prime", F_b1_prime), positive("F_b2_prime", F_b2_prime)
    return f_b1 / F_b1_prime + f_b2 / (F_b2_prime * (1 - (f_b1 / positive_or_infinite("F_bE", F_bE)) ** 2))
