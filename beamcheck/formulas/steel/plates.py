"""Steel plates, bars and welds (AISC 360-16, ASD: the values are R_n/Omega). Steel takes no C_D. How known: memory."""

from __future__ import annotations

from ...calc.core import Number, formula, sin, smallest, sqrt
from ...calc.ranges import at_most, between, positive

TENSION, SHEAR, BLOCK = "AISC 360-16 D2, J4.1", "AISC 360-16 J4.2", "AISC 360-16 J4.3"
SHORT, WELD = "AISC 360-16 J4.4", "AISC 360-16 J2.4"
SHORT_SLENDERNESS = 25.0  # J4.4: above it a plate in compression is a column


@formula(symbol="P_a", clause=TENSION, unit="lbf")
def tension_yield(F_y: Number, A_g: Number) -> Number:
    """Allowable tension of the gross section.

    Parameters
    ----------
    F_y : float or array
        Yield point. [psi]
    A_g : float or array
        Gross area. [in2]

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
    Omega 1.67. Changed from the source: nothing. How known: memory.

    Examples
    --------
    >>> round(tension_yield(36000.0, 0.75), 1)
    16167.7
    """
    return positive("F_y", F_y, TENSION) * positive("A_g", A_g, TENSION) / 1.67


@formula(symbol="P_a", clause=TENSION, unit="lbf")
def tension_rupture(F_u: Number, A_e: Number) -> Number:
    """Allowable tension of the net section.

    Parameters
    ----------
    F_u : float or array
        Tensile strength. [psi]
    A_e : float or array
        Effective net area; for a threaded part the root area. [in2]

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
    >>> tension_rupture(58000.0, 0.5)
    14500.0
    """
    return positive("F_u", F_u, TENSION) * positive("A_e", A_e, TENSION) / 2


@formula(symbol="V_a", clause=SHEAR, unit="lbf")
def shear_yield(F_y: Number, A_gv: Number) -> Number:
    """Allowable shear of the gross section.

    Parameters
    ----------
    F_y : float or array
        Yield point. [psi]
    A_gv : float or array
        Gross area in shear. [in2]

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
    Omega 1.50. Changed from the source: nothing. How known: memory.

    Examples
    --------
    >>> shear_yield(36000.0, 0.75)
    10800.0
    """
    return 0.60 * positive("F_y", F_y, SHEAR) * positive("A_gv", A_gv, SHEAR) / 1.50


@formula(symbol="V_a", clause=SHEAR, unit="lbf")
def shear_rupture(F_u: Number, A_nv: Number) -> Number:
    """Allowable shear of the net section; also of the steel beside a weld.

    Parameters
    ----------
    F_u : float or array
        Tensile strength. [psi]
    A_nv : float or array
        Net area in shear. [in2]

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
    >>> shear_rupture(58000.0, 0.5)
    8700.0
    """
    return 0.60 * positive("F_u", F_u, SHEAR) * positive("A_nv", A_nv, SHEAR) / 2


@formula(symbol="R_a", clause=BLOCK, unit="lbf")
def block_shear(F_y: Number, F_u: Number, A_gv: Number, A_nv: Number, A_nt: Number, U_bs: Number) -> Number:
    """Allowable load at which a block shears out of a plate.

    Parameters
    ----------
    F_y, F_u : float or array
        Yield point and tensile strength. [psi]
    A_gv, A_nv, A_nt : float or array
        Gross and net area in shear, net area in tension. [in2]
    U_bs : float or array
        1 where the tension is even, 0.5 where not. [-]

    Returns
    -------
    float or array
        [lbf]

    Raises
    ------
    OutOfRange
        If a value is not positive, A_nv exceeds A_gv, or U_bs is not 0.5 to 1.

    Notes
    -----
    Omega 2.00. Changed from the source: nothing. How known: memory.

    Examples
    --------
    >>> round(block_shear(36000.0, 58000.0, 1.0, 0.7, 0.25, 1.0), 1)
    18050.0
    """
    F_u, A_gv = positive("F_u", F_u, BLOCK), positive("A_gv", A_gv, BLOCK)
    pulled = between("U_bs", U_bs, 0.5, 1, BLOCK) * F_u * positive("A_nt", A_nt, BLOCK)
    torn = 0.60 * F_u * at_most("A_nv", A_nv, "A_gv", A_gv, BLOCK) + pulled
    return smallest(torn, 0.60 * positive("F_y", F_y, BLOCK) * A_gv + pulled) / 2


@formula(symbol="P_a", clause=SHORT, unit="lbf")
def short_compression(F_y: Number, A_g: Number) -> Number:
    """Allowable compression of a short part.

    Parameters
    ----------
    F_y : float or array
        Yield point. [psi]
    A_g : float or array
        Gross area. [in2]

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
    Omega 1.67. Only while `plate_slenderness` is 25 or less. Changed from the source: nothing. How known: memory.

    Examples
    --------
    >>> round(short_compression(36000.0, 0.75), 1)
    16167.7
    """
    return positive("F_y", F_y, SHORT) * positive("A_g", A_g, SHORT) / 1.67


@formula(symbol="slenderness", clause=SHORT, unit="")
def plate_slenderness(l_e: Number, t: Number) -> Number:
    """Slenderness of a flat plate in compression.

    Parameters
    ----------
    l_e : float or array
        Effective length, K L. [in]
    t : float or array
        Thickness. [in]

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
    K L/r with r = t/sqrt(12). Changed from the source: r of a rectangle put in. How known: derived.

    Examples
    --------
    >>> round(plate_slenderness(1.5, 0.25), 2)
    20.78
    """
    return positive("l_e", l_e, SHORT) / sqrt(positive("t", t, SHORT) ** 2 / 12)


@formula(symbol="R_a", clause=WELD, unit="lbf")
def fillet_weld(F_EXX: Number, w_leg: Number, L_w: Number, theta_w: Number) -> Number:
    """Allowable force of a fillet weld.

    Parameters
    ----------
    F_EXX : float or array
        Strength of the weld metal. [psi]
    w_leg, L_w : float or array
        Leg and length of the weld. [in]
    theta_w : float or array
        Angle between the force and the weld line, 0 to 90; 0 where in doubt. [deg]

    Returns
    -------
    float or array
        [lbf]

    Raises
    ------
    OutOfRange
        If a value is not positive or theta_w out of range.

    Notes
    -----
    Omega 2.00, throat 0.707 of the leg. The angle counts only for a weld, or welds of one direction, loaded through
    their centroid. Changed from the source: nothing. How known: memory.

    Examples
    --------
    >>> round(fillet_weld(70000.0, 0.1875, 2.0, 0.0), 1)
    5567.6
    """
    stronger = 1 + 0.50 * sin(between("theta_w", theta_w, 0, 90, WELD, "deg")) ** 1.5
    throat = 0.707 * positive("w_leg", w_leg, WELD) * positive("L_w", L_w, WELD)
    return 0.60 * positive("F_EXX", F_EXX, WELD) * stronger * throat / 2
