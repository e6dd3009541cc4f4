"""Yield modes in one shear plane, NDS 2018 Table 12.3.1A: the least is the reference lateral design value Z.

m is the main member (it holds the point, or is the middle one), s the side member. D is the diameter used in the
equations. They hold where faces touch, the load is square to the fastener, and 12.5 and the penetration are kept.
"""

from __future__ import annotations

from ...calc.core import Number, formula, smallest, sqrt
from ...calc.ranges import positive
from .ranges import any_diameter

TABLE = "NDS 2018 Table 12.3.1A"


@formula(symbol="Z_Im", clause=f"{TABLE} (eq. 12.3-1)", unit="lbf")
def single_shear_Im(D: Number, l_m: Number, F_em: Number, R_d_I: Number) -> Number:
    """Mode Im: the main member crushes; one shear plane.

    Parameters
    ----------
    D : float or array
        Diameter used in the equations. [in]
    l_m : float or array
        Bearing length in the main member. [in]
    F_em : float or array
        Dowel bearing strength of the main member. [psi]
    R_d_I : float or array
        Reduction term of the mode. [-]

    Returns
    -------
    float or array
        [lbf]

    Raises
    ------
    OutOfRange
        If a value is not positive or D over 1 in.

    Notes
    -----
    Changed from the source: nothing. How known: read.

    Examples
    --------
    >>> single_shear_Im(0.5, 1.5, 5600.0, 4.0)
    1050.0
    """
    return (
        any_diameter(D) * positive("l_m", l_m, TABLE) * positive("F_em", F_em, TABLE) / positive("R_d_I", R_d_I, TABLE)
    )


@formula(symbol="Z_Is", clause=f"{TABLE} (eq. 12.3-2)", unit="lbf")
def single_shear_Is(D: Number, l_s: Number, F_es: Number, R_d_I: Number) -> Number:
    """Mode Is: the side member crushes; one shear plane.

    Parameters
    ----------
    D : float or array
        Diameter used in the equations. [in]
    l_s : float or array
        Bearing length in the side member. [in]
    F_es : float or array
        Dowel bearing strength of the side member. [psi]
    R_d_I : float or array
        Reduction term of the mode. [-]

    Returns
    -------
    float or array
        [lbf]

    Raises
    ------
    OutOfRange
        If a value is not positive or D over 1 in.

    Notes
    -----
    Changed from the source: nothing. How known: read.

    Examples
    --------
    >>> single_shear_Is(0.5, 1.5, 5600.0, 4.0)
    1050.0
    """
    return (
        any_diameter(D) * positive("l_s", l_s, TABLE) * positive("F_es", F_es, TABLE) / positive("R_d_I", R_d_I, TABLE)
    )


@formula(symbol="Z_II", clause=f"{TABLE} (eq. 12.3-3)", unit="lbf")
def single_shear_II(k_1: Number, D: Number, l_s: Number, F_es: Number, R_d_II: Number) -> Number:
    """Mode II: the stiff fastener tilts; one shear plane.

    Parameters
    ----------
    k_1 : float or array
        Coefficient of mode II. [-]
    D : float or array
        Diameter used in the equations. [in]
    l_s : float or array
        Bearing length in the side member. [in]
    F_es : float or array
        Dowel bearing strength of the side member. [psi]
    R_d_II : float or array
        Reduction term of the mode. [-]

    Returns
    -------
    float or array
        [lbf]

    Raises
    ------
    OutOfRange
        If a value is not positive or D over 1 in.

    Notes
    -----
    Changed from the source: nothing. How known: read.

    Examples
    --------
    >>> round(single_shear_II(0.41421356, 0.5, 1.5, 5600.0, 3.6), 1)
    483.2
    """
    return (
        positive("k_1", k_1, TABLE)
        * any_diameter(D)
        * positive("l_s", l_s, TABLE)
        * positive("F_es", F_es, TABLE)
        / positive("R_d_II", R_d_II, TABLE)
    )


@formula(symbol="Z_IIIm", clause=f"{TABLE} (eq. 12.3-4)", unit="lbf")
def single_shear_IIIm(k_2: Number, D: Number, l_m: Number, F_em: Number, R_e: Number, R_d_III: Number) -> Number:
    """Mode IIIm: one hinge, the main member crushes; one shear plane.

    Parameters
    ----------
    k_2 : float or array
        Coefficient of the mode. [-]
    D : float or array
        Diameter used in the equations. [in]
    l_m : float or array
        Bearing length in the main member. [in]
    F_em : float or array
        Dowel bearing strength of the main member. [psi]
    R_e : float or array
        Ratio of bearing strengths, main over side. [-]
    R_d_III : float or array
        Reduction term of the mode. [-]

    Returns
    -------
    float or array
        [lbf]

    Raises
    ------
    OutOfRange
        If a value is not positive or D over 1 in.

    Notes
    -----
    Changed from the source: nothing. How known: read.

    Examples
    --------
    >>> round(single_shear_IIIm(1.4055, 0.5, 1.5, 5600.0, 1.0, 3.2), 1)
    614.9
    """
    moved = positive("k_2", k_2, TABLE) * any_diameter(D) * positive("l_m", l_m, TABLE) * positive("F_em", F_em, TABLE)
    return moved / ((1 + 2 * positive("R_e", R_e, TABLE)) * positive("R_d_III", R_d_III, TABLE))


@formula(symbol="Z_IIIs", clause=f"{TABLE} (eq. 12.3-5)", unit="lbf")
def single_shear_IIIs(k_3: Number, D: Number, l_s: Number, F_em: Number, R_e: Number, R_d_III: Number) -> Number:
    """Mode IIIs: one hinge, the side member crushes; one shear plane.

    Parameters
    ----------
    k_3 : float or array
        Coefficient of the mode. [-]
    D : float or array
        Diameter used in the equations. [in]
    l_s : float or array
        Bearing length in the side member. [in]
    F_em : float or array
        Dowel bearing strength of the main member. [psi]
    R_e : float or array
        Ratio of bearing strengths, main over side. [-]
    R_d_III : float or array
        Reduction term of the mode. [-]

    Returns
    -------
    float or array
        [lbf]

    Raises
    ------
    OutOfRange
        If a value is not positive or D over 1 in.

    Notes
    -----
    It is F_em that stands in the numerator, also here. Changed from the source: nothing. How known: read.

    Examples
    --------
    >>> round(single_shear_IIIs(1.4055, 0.5, 1.5, 5600.0, 1.0, 3.2), 1)
    614.9
    """
    return hinge_in_side(k_3, D, l_s, F_em, R_e) / positive("R_d_III", R_d_III, TABLE)


@formula(symbol="Z_IV", clause=f"{TABLE} (eq. 12.3-6)", unit="lbf")
def single_shear_IV(D: Number, F_em: Number, F_yb: Number, R_e: Number, R_d_III: Number) -> Number:
    """Mode IV: two hinges; one shear plane.

    Parameters
    ----------
    D : float or array
        Diameter used in the equations. [in]
    F_em : float or array
        Dowel bearing strength of the main member. [psi]
    F_yb : float or array
        Bending yield strength of the fastener. [psi]
    R_e : float or array
        Ratio of bearing strengths, main over side. [-]
    R_d_III : float or array
        Reduction term of the mode. [-]

    Returns
    -------
    float or array
        [lbf]

    Raises
    ------
    OutOfRange
        If a value is not positive or D over 1 in.

    Notes
    -----
    Changed from the source: nothing. How known: read.

    Examples
    --------
    >>> round(single_shear_IV(0.5, 5600.0, 45000.0, 1.0, 3.2), 1)
    716.0
    """
    return two_hinges(D, F_em, F_yb, R_e) / positive("R_d_III", R_d_III, TABLE)


@formula(symbol="Z", clause=TABLE, unit="lbf")
def single_shear(Z_Im: Number, Z_Is: Number, Z_II: Number, Z_IIIm: Number, Z_IIIs: Number, Z_IV: Number) -> Number:
    """Reference lateral design value of one fastener in one shear plane: the least of the six modes.

    Parameters
    ----------
    Z_Im, Z_Is, Z_II, Z_IIIm, Z_IIIs, Z_IV : float or array
        Values of the modes. [lbf]

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
    Changed from the source: nothing. How known: read.

    Examples
    --------
    >>> single_shear(1050.0, 1050.0, 483.2, 614.8, 614.8, 716.0)
    483.2
    """
    return smallest(
        positive("Z_Im", Z_Im, TABLE),
        positive("Z_Is", Z_Is, TABLE),
        positive("Z_II", Z_II, TABLE),
        positive("Z_IIIm", Z_IIIm, TABLE),
        positive("Z_IIIs", Z_IIIs, TABLE),
        positive("Z_IV", Z_IV, TABLE),
    )


def hinge_in_side(k_3: Number, D: Number, l_s: Number, F_em: Number, R_e: Number) -> Number:
    """Mode IIIs at one plane, before the reduction term."""
    moved = positive("k_3", k_3, TABLE) * any_diameter(D) * positive("l_s", l_s, TABLE) * positive("F_em", F_em, TABLE)
    return moved / (2 + positive("R_e", R_e, TABLE))


def two_hinges(D: Number, F_em: Number, F_yb: Number, R_e: Number) -> Number:
    """Mode IV at one plane, before the reduction term."""
    crushed = 2 * positive("F_em", F_em, TABLE) * positive("F_yb", F_yb, TABLE)
    return any_diameter(D) ** 2 * sqrt(crushed / (3 * (1 + positive("R_e", R_e, TABLE))))
