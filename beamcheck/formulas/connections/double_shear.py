"""Yield modes in two shear planes, NDS 2018 Table 12.3.1A: the least is the reference lateral design value Z.

The middle member is the main one; both side members are alike, or the weaker one stands for both (12.3.8, how:
memory). Conditions and D as in `dowel_single_shear`.
"""

from __future__ import annotations

from ...calc.core import Number, formula, smallest
from ...calc.ranges import positive
from .ranges import any_diameter
from .single_shear import hinge_in_side, two_hinges

TABLE = "NDS 2018 Table 12.3.1A"


@formula(symbol="Z_Im", clause=f"{TABLE} (eq. 12.3-7)", unit="lbf")
def double_shear_Im(D: Number, l_m: Number, F_em: Number, R_d_I: Number) -> Number:
    """Mode Im: the middle member crushes; two shear planes.

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
    Once, not twice: the middle member is one. Changed from the source: nothing. How known: read.

    Examples
    --------
    >>> double_shear_Im(0.5, 1.5, 7500.0, 4.0)
    1406.25
    """
    return (
        any_diameter(D) * positive("l_m", l_m, TABLE) * positive("F_em", F_em, TABLE) / positive("R_d_I", R_d_I, TABLE)
    )


@formula(symbol="Z_Is", clause=f"{TABLE} (eq. 12.3-8)", unit="lbf")
def double_shear_Is(D: Number, l_s: Number, F_es: Number, R_d_I: Number) -> Number:
    """Mode Is: both side members crush; two shear planes.

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
    Both side members alike; if not, the weaker one stands for both. Changed from the source: nothing. How known: read.

    Examples
    --------
    >>> double_shear_Is(0.5, 1.5, 7500.0, 4.0)
    2812.5
    """
    return (
        2
        * any_diameter(D)
        * positive("l_s", l_s, TABLE)
        * positive("F_es", F_es, TABLE)
        / positive("R_d_I", R_d_I, TABLE)
    )


@formula(symbol="Z_IIIs", clause=f"{TABLE} (eq. 12.3-9)", unit="lbf")
def double_shear_IIIs(k_3: Number, D: Number, l_s: Number, F_em: Number, R_e: Number, R_d_III: Number) -> Number:
    """Mode IIIs: one hinge at each plane, the side members crush; two shear planes.

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
    Both side members alike; if not, the weaker one stands for both. Changed from the source: nothing. How known: read.

    Examples
    --------
    >>> round(double_shear_IIIs(1.4055, 0.5, 1.5, 5600.0, 1.0, 3.2), 1)
    1229.8
    """
    return 2 * hinge_in_side(k_3, D, l_s, F_em, R_e) / positive("R_d_III", R_d_III, TABLE)


@formula(symbol="Z_IV", clause=f"{TABLE} (eq. 12.3-10)", unit="lbf")
def double_shear_IV(D: Number, F_em: Number, F_yb: Number, R_e: Number, R_d_III: Number) -> Number:
    """Mode IV: two hinges at each plane; two shear planes.

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
    >>> round(double_shear_IV(0.5, 5600.0, 45000.0, 1.0, 3.2), 1)
    1432.1
    """
    return 2 * two_hinges(D, F_em, F_yb, R_e) / positive("R_d_III", R_d_III, TABLE)


@formula(symbol="Z", clause=TABLE, unit="lbf")
def double_shear(Z_Im: Number, Z_Is: Number, Z_IIIs: Number, Z_IV: Number) -> Number:
    """Reference lateral design value of one fastener in two shear planes: the least of the four modes.

    Parameters
    ----------
    Z_Im, Z_Is, Z_IIIs, Z_IV : float or array
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
    No modes II and IIIm: the middle member keeps the fastener straight. Changed from the source: nothing. How known:
    read.

    Examples
    --------
    >>> double_shear(1406.25, 2812.5, 1700.0, 1800.0)
    1406.25
    """
    return smallest(
        positive("Z_Im", Z_Im, TABLE),
        positive("Z_Is", Z_Is, TABLE),
        positive("Z_IIIs", Z_IIIs, TABLE),
        positive("Z_IV", Z_IV, TABLE),
    )
