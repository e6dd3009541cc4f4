"""Reference design values times the factors that apply to them (NDS 2018 Table 4.3.1, ASD).

A product says nothing about whether a factor's value is right for the piece: that is looked up and reasoned elsewhere.
"""

from __future__ import annotations

from ...calc.core import Number, formula, valid, where
from ...calc.ranges import NOISE, between, carried, given, positive, reduction

TABLE = "NDS 2018 Table 4.3.1"
IMPACT = 2.0  # the largest C_D of Table 2.3.2


@formula(symbol="C_F", clause="NDS 2018 4.3.6.2 (eq. 4.3-1)", unit="")
def size_factor_timber(d: Number) -> Number:
    """Size factor for bending of timbers, 5 in and thicker, loaded on the narrow face.

    Parameters
    ----------
    d : float or array
        Actual depth; for a round piece over 13.5 in, the side of the square of equal area. [in]

    Returns
    -------
    float or array
        [-]

    Raises
    ------
    OutOfRange
        If the depth is not positive.

    Notes
    -----
    Acts on F_b only. 12 is in inches. Changed from the source: nothing.
    How known: memory; value 0.9870 for 13.5 in read.

    Examples
    --------
    >>> round(size_factor_timber(13.5), 4)
    0.987
    """
    d = positive("d", d, "NDS 2018 4.3.6.2")
    return carried(where(d > 12, (12 / d) ** (1 / 9), 1.0), d)


@formula(symbol="F_b_star", clause=f"{TABLE}, 3.3.3.8", unit="psi")
def adjusted_bending_star(
    F_b: Number, C_D: Number, C_M: Number, C_t: Number, C_F: Number, C_i: Number, C_r: Number
) -> Number:
    """Bending design value with all factors except C_L and C_fu.

    Parameters
    ----------
    F_b : float or array
        Reference bending design value. [psi]
    C_D, C_M, C_t, C_F, C_i, C_r : float or array
        Load duration, wet service, temperature, size, incising and repetitive member factor. [-]

    Returns
    -------
    float or array
        [psi]

    Raises
    ------
    OutOfRange
        If a value is not positive, C_D is over 2.0, or one of C_M, C_t, C_i is over 1.

    Notes
    -----
    This is the F_b* of the beam stability equation. The F_b* of 3.9.1 (bending with tension) leaves out C_L only: for
    bending on the flat multiply by C_fu there. Changed from the source: nothing. How known: read.

    Examples
    --------
    >>> round(adjusted_bending_star(850.0, 1.15, 1.0, 1.0, 1.1, 1.0, 1.15), 2)
    1236.54
    """
    return (
        positive("F_b", F_b, TABLE) * _duration(C_D) * _wet(C_M) * _heat(C_t) * _size(C_F) * _incised(C_i)
        * positive("C_r", C_r, TABLE)
    )  # fmt: skip


@formula(symbol="F_b_prime", clause=TABLE, unit="psi")
def adjusted_bending(F_b_star: Number, C_L: Number, C_fu: Number) -> Number:
    """Adjusted bending design value.

    Parameters
    ----------
    F_b_star : float or array
        Bending design value with all factors except C_L and C_fu. [psi]
    C_L, C_fu : float or array
        Beam stability and flat use factor. [-]

    Returns
    -------
    float or array
        [psi]

    Raises
    ------
    OutOfRange
        If a value is not positive or C_L is over 1.

    Notes
    -----
    Changed from the source: nothing. How known: read.

    Examples
    --------
    >>> adjusted_bending(1625.0, 1.0, 1.0)
    1625.0
    """
    return positive("F_b_star", F_b_star, TABLE) * reduction("C_L", C_L, TABLE) * positive("C_fu", C_fu, TABLE)


@formula(symbol="F_v_prime", clause=TABLE, unit="psi")
def adjusted_shear(F_v: Number, C_D: Number, C_M: Number, C_t: Number, C_i: Number) -> Number:
    """Adjusted shear design value parallel to grain.

    Parameters
    ----------
    F_v : float or array
        Reference shear design value. [psi]
    C_D, C_M, C_t, C_i : float or array
        Load duration, wet service, temperature and incising factor. [-]

    Returns
    -------
    float or array
        [psi]

    Raises
    ------
    OutOfRange
        If a value is not positive, C_D is over 2.0, or one of C_M, C_t, C_i is over 1.

    Notes
    -----
    Changed from the source: nothing. How known: read.

    Examples
    --------
    >>> adjusted_shear(180.0, 1.25, 1.0, 1.0, 1.0)
    225.0
    """
    return positive("F_v", F_v, TABLE) * _duration(C_D) * _wet(C_M) * _heat(C_t) * _incised(C_i)


@formula(symbol="F_t_prime", clause=TABLE, unit="psi")
def adjusted_tension(F_t: Number, C_D: Number, C_M: Number, C_t: Number, C_F: Number, C_i: Number) -> Number:
    """Adjusted tension design value parallel to grain.

    Parameters
    ----------
    F_t : float or array
        Reference tension design value. [psi]
    C_D, C_M, C_t, C_F, C_i : float or array
        Load duration, wet service, temperature, size and incising factor. [-]

    Returns
    -------
    float or array
        [psi]

    Raises
    ------
    OutOfRange
        If a value is not positive, C_D is over 2.0, or one of C_M, C_t, C_i is over 1.

    Notes
    -----
    Changed from the source: nothing. How known: read.

    Examples
    --------
    >>> round(adjusted_tension(525.0, 1.15, 1.0, 1.0, 1.1, 1.0), 3)
    664.125
    """
    return positive("F_t", F_t, TABLE) * _duration(C_D) * _wet(C_M) * _heat(C_t) * _size(C_F) * _incised(C_i)


@formula(symbol="F_c_star", clause=f"{TABLE}, 3.7.1.5", unit="psi")
def adjusted_compression_star(F_c: Number, C_D: Number, C_M: Number, C_t: Number, C_F: Number, C_i: Number) -> Number:
    """Compression design value parallel to grain with all factors except C_P.

    Parameters
    ----------
    F_c : float or array
        Reference compression design value parallel to grain. [psi]
    C_D, C_M, C_t, C_F, C_i : float or array
        Load duration, wet service, temperature, size and incising factor. [-]

    Returns
    -------
    float or array
        [psi]

    Raises
    ------
    OutOfRange
        If a value is not positive, C_D is over 2.0, or one of C_M, C_t, C_i is over 1.

    Notes
    -----
    Changed from the source: nothing. How known: read.

    Examples
    --------
    >>> round(adjusted_compression_star(1300.0, 1.15, 1.0, 1.0, 1.0, 1.0), 6)
    1495.0
    """
    return positive("F_c", F_c, TABLE) * _duration(C_D) * _wet(C_M) * _heat(C_t) * _size(C_F) * _incised(C_i)


@formula(symbol="F_c_prime", clause=TABLE, unit="psi")
def adjusted_compression(F_c_star: Number, C_P: Number) -> Number:
    """Adjusted compression design value parallel to grain.

    Parameters
    ----------
    F_c_star : float or array
        Compression design value with all factors except C_P. [psi]
    C_P : float or array
        Column stability factor, the smaller of the two ways to buckle. [-]

    Returns
    -------
    float or array
        [psi]

    Raises
    ------
    OutOfRange
        If a value is not positive or C_P is over 1.

    Notes
    -----
    Changed from the source: nothing. How known: read.

    Examples
    --------
    >>> round(adjusted_compression(1000.0, 0.4464), 4)
    446.4
    """
    return positive("F_c_star", F_c_star, TABLE) * reduction("C_P", C_P, TABLE)


@formula(symbol="F_c_perp_prime", clause=TABLE, unit="psi")
def adjusted_bearing(F_c_perp: Number, C_M: Number, C_t: Number, C_i: Number, C_b: Number) -> Number:
    """Adjusted compression design value perpendicular to grain. There is no load duration factor.

    Parameters
    ----------
    F_c_perp : float or array
        Reference compression design value perpendicular to grain. [psi]
    C_M, C_t, C_i, C_b : float or array
        Wet service, temperature, incising and bearing area factor. [-]

    Returns
    -------
    float or array
        [psi]

    Raises
    ------
    OutOfRange
        If a value is not positive, one of C_M, C_t, C_i is over 1, or C_b is under 1.

    Notes
    -----
    Changed from the source: nothing. How known: read; C_i and C_b memory.

    Examples
    --------
    >>> round(adjusted_bearing(625.0, 0.67, 1.0, 1.0, 1.0), 2)
    418.75
    """
    C_b = valid(C_b, C_b >= 1 - NOISE, f"C_b must be 1 or more{given(C_b)}", "NDS 2018 3.10.4")
    return positive("F_c_perp", F_c_perp, TABLE) * _wet(C_M) * _heat(C_t) * _incised(C_i) * C_b


@formula(symbol="F_c_perp_02", clause="NDS 2018 4.2.6", unit="psi")
def bearing_small_deformation(F_c_perp: Number) -> Number:
    """Reference value perpendicular to grain for a deformation of 0.02 in, where crushing would show or matter.

    Parameters
    ----------
    F_c_perp : float or array
        Reference compression design value perpendicular to grain (at 0.04 in deformation). [psi]

    Returns
    -------
    float or array
        [psi]

    Raises
    ------
    OutOfRange
        If the value is not positive.

    Notes
    -----
    Changed from the source: nothing. How known: memory.

    Examples
    --------
    >>> round(bearing_small_deformation(625.0), 2)
    456.25
    """
    return 0.73 * positive("F_c_perp", F_c_perp, "NDS 2018 4.2.6")


@formula(symbol="E_prime", clause=TABLE, unit="psi")
def adjusted_modulus(E: Number, C_M: Number, C_t: Number, C_i: Number, C_fu: Number) -> Number:
    """Adjusted modulus of elasticity. There is no load duration factor.

    Parameters
    ----------
    E : float or array
        Reference modulus of elasticity. [psi]
    C_M, C_t, C_i, C_fu : float or array
        Wet service, temperature and incising factor; flat use factor of beams and stringers (else 1). [-]

    Returns
    -------
    float or array
        [psi]

    Raises
    ------
    OutOfRange
        If a value is not positive or a factor is over 1.

    Notes
    -----
    C_fu acts on E by the adjustment factors of Supplement Table 4D, for beams and stringers loaded on the wide face.
    Changed from the source: nothing. How known: read; C_i and C_fu memory.

    Examples
    --------
    >>> round(adjusted_modulus(1.7e6, 0.9, 1.0, 1.0, 1.0))
    1530000
    """
    return positive("E", E, TABLE) * _wet(C_M) * _heat(C_t) * _incised(C_i) * reduction("C_fu", C_fu, TABLE)


@formula(symbol="E_min_prime", clause=TABLE, unit="psi")
def adjusted_modulus_min(E_min: Number, C_M: Number, C_t: Number, C_i: Number, C_fu: Number, C_T: Number) -> Number:
    """Adjusted modulus of elasticity for beam and column stability.

    Parameters
    ----------
    E_min : float or array
        Reference modulus of elasticity for stability. [psi]
    C_M, C_t, C_i, C_fu : float or array
        Wet service, temperature and incising factor; flat use factor of beams and stringers (else 1). [-]
    C_T : float or array
        Buckling stiffness factor; 1 for everything but truss chords of 2x4 or smaller (4.4.2). [-]

    Returns
    -------
    float or array
        [psi]

    Raises
    ------
    OutOfRange
        If a value is not positive, one of C_M, C_t, C_i, C_fu is over 1, or C_T is under 1.

    Notes
    -----
    Changed from the source: nothing. How known: read; C_i, C_fu and C_T memory.

    Examples
    --------
    >>> adjusted_modulus_min(580000.0, 1.0, 1.0, 1.0, 1.0, 1.0)
    580000.0
    """
    C_T = valid(C_T, C_T >= 1, f"C_T must be 1 or more{given(C_T)}", "NDS 2018 4.4.2")
    C_fu = reduction("C_fu", C_fu, TABLE)
    return positive("E_min", E_min, TABLE) * _wet(C_M) * _heat(C_t) * _incised(C_i) * C_fu * C_T


@formula(symbol="E_min", clause="NDS 2018 Appendix D (eq. D-4)", unit="psi")
def minimum_modulus(E: Number, COV: Number) -> Number:
    """Modulus of elasticity for stability from the average one.

    Parameters
    ----------
    E : float or array
        Reference modulus of elasticity. [psi]
    COV : float or array
        Coefficient of variation of E: 0.25 for visually graded sawn lumber. [-]

    Returns
    -------
    float or array
        [psi]

    Raises
    ------
    OutOfRange
        If E is not positive or COV is not 0 to 0.5.

    Notes
    -----
    1.03 turns apparent E into shear-free E (1.05 for glued laminated timber, not covered), 1.66 is the safety factor.
    The tables print it to the nearest 10,000 psi; this does not round.
    Changed from the source: nothing. How known: memory; reproduces the tabulated rows.

    Examples
    --------
    >>> round(minimum_modulus(1.6e6, 0.25))
    584494
    """
    COV = between("COV", COV, 0, 0.5, "NDS 2018 Appendix D")
    return positive("E", E, "NDS 2018 Appendix D") * (1 - 1.645 * COV) * 1.03 / 1.66


def _duration(C_D: Number) -> Number:
    because = f"C_D must be above 0 and at most {IMPACT:g} (impact){given(C_D)}"
    return valid(C_D, (C_D > 0) & (C_D <= IMPACT), because, "NDS 2018 Table 2.3.2")


def _wet(C_M: Number) -> Number:
    return reduction("C_M", C_M, "NDS 2018 4.3.3")


def _heat(C_t: Number) -> Number:
    return reduction("C_t", C_t, "NDS 2018 Table 2.3.3")


def _size(C_F: Number) -> Number:
    return positive("C_F", C_F, "NDS 2018 4.3.6")


def _incised(C_i: Number) -> Number:
    return reduction("C_i", C_i, "NDS 2018 Table 4.3.8")
