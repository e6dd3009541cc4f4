"""Columns (NDS 2018 3.6, 3.7, 15.3): stress, slenderness, stability. Both ways to buckle are to be looked at."""

from __future__ import annotations

from ...calc.core import Number, formula, sqrt, valid
from ...calc.ranges import between, given, not_negative, positive, reduction, shown

COLUMNS, SLENDER = "NDS 2018 3.7.1", "NDS 2018 3.7.1.4"


@formula(symbol="f_c", clause="NDS 2018 3.6.3", unit="psi")
def compression_stress(P: Number, A: Number) -> Number:
    """Compression stress parallel to grain.

    Parameters
    ----------
    P : float or array
        Compression, without sign. [lbf]
    A : float or array
        Area: gross against F_c_prime, unless the cut lies in the part that buckles; net against F_c_star. [in2]

    Returns
    -------
    float or array
        [psi]

    Raises
    ------
    OutOfRange
        If the force is negative or the area not positive.

    Notes
    -----
    Changed from the source: nothing. How known: memory.

    Examples
    --------
    >>> round(compression_stress(8000.0, 30.25), 1)
    264.5
    """
    return not_negative("P", P, "NDS 2018 3.6.3") / positive("A", A, "NDS 2018 3.6.3")


@formula(symbol="l_e", clause="NDS 2018 3.7.1.2, Appendix G", unit="in")
def effective_length_column(K_e: Number, l: Number) -> Number:  # noqa: E741
    """Effective length of a column.

    Parameters
    ----------
    K_e : float or array
        Buckling length coefficient of Appendix G, 0.65 to 2.4. [-]
    l : float or array
        Distance between points of sideways support. [in]

    Returns
    -------
    float or array
        [in]

    Raises
    ------
    OutOfRange
        If the length is not positive or K_e under 0.65 or over 2.4.

    Notes
    -----
    Changed from the source: nothing. How known: memory.

    Examples
    --------
    >>> effective_length_column(1.0, 96.0)
    96.0
    """
    return between("K_e", K_e, 0.65, 2.4, "NDS 2018 Appendix G") * positive("l", l, COLUMNS)


@formula(symbol="l_e_over_d", clause=SLENDER, unit="")
def slenderness_column(l_e: Number, d: Number) -> Number:
    """Slenderness of a column one way.

    Parameters
    ----------
    l_e : float or array
        Effective length that way. [in]
    d : float or array
        Size in the direction in which it would buckle; for a round piece the side of the square of equal area. [in]

    Returns
    -------
    float or array
        [-]

    Raises
    ------
    OutOfRange
        If a length is not positive or the slenderness comes out over 50.

    Notes
    -----
    The clause lets it go to 75 while the building is put up; that is not covered.
    Changed from the source: nothing. How known: read; 75 memory.

    Examples
    --------
    >>> round(slenderness_column(96.0, 3.5), 2)
    27.43
    """
    return _slender(positive("l_e", l_e, COLUMNS) / positive("d", d, COLUMNS))


@formula(symbol="F_cE", clause="NDS 2018 3.7.1.5", unit="psi")
def critical_buckling_column(E_min_prime: Number, l_e: Number, d: Number) -> Number:
    """Critical buckling stress of a column one way.

    Parameters
    ----------
    E_min_prime : float or array
        Adjusted modulus of elasticity for stability. [psi]
    l_e : float or array
        Effective length that way. [in]
    d : float or array
        Size in the direction in which it would buckle; for a round piece the side of the square of equal area. [in]

    Returns
    -------
    float or array
        [psi]

    Raises
    ------
    OutOfRange
        If a value is not positive or l_e/d is over 50.

    Notes
    -----
    Older books write 0.3 E/(l_e/d)^2. Changed from the source: nothing. How known: read.

    Examples
    --------
    >>> round(critical_buckling_column(580000.0, 120.0, 5.5), 1)
    1001.5
    """
    slenderness = _slender(positive("l_e", l_e, COLUMNS) / positive("d", d, COLUMNS))
    return 0.822 * positive("E_min_prime", E_min_prime, COLUMNS) / slenderness**2


@formula(symbol="C_P", clause="NDS 2018 3.7.1.5 (eq. 3.7-1)", unit="")
def column_stability(F_cE: Number, F_c_star: Number, c: Number) -> Number:
    """Column stability factor one way.

    Parameters
    ----------
    F_cE : float or array
        Critical buckling stress that way. [psi]
    F_c_star : float or array
        Compression design value parallel to grain with all factors except C_P. [psi]
    c : float or array
        0.8 for sawn lumber, 0.85 for round poles and piles. [-]

    Returns
    -------
    float or array
        [-]

    Raises
    ------
    OutOfRange
        If a stress is not positive or c not above 0 and at most 1.

    Notes
    -----
    C_P is 1 without this equation only where the column is held along its whole length in all directions (3.7.1.1).
    Changed from the source: nothing. How known: read.

    Examples
    --------
    >>> round(column_stability(357.3, 975.0, 0.8), 3)
    0.333
    """
    ratio = positive("F_cE", F_cE, COLUMNS) / positive("F_c_star", F_c_star, COLUMNS)
    c = reduction("c", c, COLUMNS)
    return (1 + ratio) / (2 * c) - sqrt(((1 + ratio) / (2 * c)) ** 2 - ratio / c)


@formula(symbol="C_P", clause="NDS 2018 15.3.2 (eq. 15.3-1)", unit="")
def column_stability_built_up(F_cE: Number, F_c_star: Number, c: Number, K_f: Number) -> Number:
    """Column stability factor of a built-up column, one way.

    Parameters
    ----------
    F_cE : float or array
        Critical buckling stress that way. [psi]
    F_c_star : float or array
        Compression design value parallel to grain with all factors except C_P. [psi]
    c : float or array
        0.8 for sawn lumber. [-]
    K_f : float or array
        1.0 for l_e1/d_1; for l_e2/d_2 (across the plies) 0.60 nailed, 0.75 bolted. [-]

    Returns
    -------
    float or array
        [-]

    Raises
    ------
    OutOfRange
        If a stress is not positive, or c or K_f not above 0 and at most 1.

    Notes
    -----
    Only for 2 to 5 plies fastened as 15.3.3 or 15.3.4 says. Changed from the source: nothing. How known: memory.

    Examples
    --------
    >>> round(column_stability_built_up(357.3, 975.0, 0.8, 0.6), 3)
    0.2
    """
    return reduction("K_f", K_f, "NDS 2018 15.3.2") * column_stability(F_cE, F_c_star, c)


@formula(symbol="d", clause="NDS 2018 3.7.2 (eq. 3.7-2)", unit="in")
def tapered_depth(d_min: Number, d_max: Number, k_a: Number) -> Number:
    """Size that stands for a tapered column, one way.

    Parameters
    ----------
    d_min, d_max : float or array
        Least and largest size that way. [in]
    k_a : float or array
        0.70 large end fixed and small end free or pinned, or both ends pinned and tapered to both; 0.50 both ends
        pinned and tapered to one; 0.30 small end fixed and large end free or pinned. [-]

    Returns
    -------
    float or array
        [in]

    Raises
    ------
    OutOfRange
        If a size is not positive, d_min exceeds d_max, or k_a is not 0.3 to 0.7.

    Notes
    -----
    The stress at the least section must also stay within F_c_star. The standard calls the coefficient a.
    Changed from the source: nothing. How known: memory.

    Examples
    --------
    >>> round(tapered_depth(6.0, 8.0, 0.5), 3)
    6.925
    """
    d_min, d_max = _tapered(d_min, d_max)
    k_a = between("k_a", k_a, 0.3, 0.7, "NDS 2018 3.7.2")
    return d_min + (d_max - d_min) * (k_a - 0.15 * (1 - d_min / d_max))


@formula(symbol="d", clause="NDS 2018 3.7.2 (eq. 3.7-3)", unit="in")
def tapered_depth_any(d_min: Number, d_max: Number) -> Number:
    """Size that stands for a tapered column whose ends are held in no listed way.

    Parameters
    ----------
    d_min, d_max : float or array
        Least and largest size that way. [in]

    Returns
    -------
    float or array
        [in]

    Raises
    ------
    OutOfRange
        If a size is not positive or d_min exceeds d_max.

    Notes
    -----
    Changed from the source: nothing. How known: memory.

    Examples
    --------
    >>> tapered_depth_any(6.0, 9.0)
    7.0
    """
    d_min, d_max = _tapered(d_min, d_max)
    return d_min + (d_max - d_min) / 3


def _slender(slenderness: Number) -> Number:
    because = f"l_e/d is{shown(slenderness)} and must be at most 50: shorten the column or take a thicker one"
    return valid(slenderness, slenderness <= 50, because, SLENDER)


def _tapered(d_min: Number, d_max: Number) -> tuple[Number, Number]:
    d_min, d_max = positive("d_min", d_min), positive("d_max", d_max)
    because = f"d_min must not exceed d_max{shown(d_max)}{given(d_min)}"
    return valid(d_min, d_min <= d_max, because, "NDS 2018 3.7.2"), d_max
