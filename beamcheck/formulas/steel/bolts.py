"""Bolts and rods as steel parts (AISC 360-16, ASD: the values are R_n/Omega). Steel takes no C_D. How known: memory."""

from __future__ import annotations

from ...calc.core import Number, formula, smallest, valid
from ...calc.ranges import given, not_negative, positive

STRENGTH, BOTH = "AISC 360-16 J3.6", "AISC 360-16 J3.7"


@formula(symbol="T_a", clause=STRENGTH, unit="lbf")
def bolt_tension(F_nt: Number, A_b: Number) -> Number:
    """Allowable tension of a bolt or rod.

    Parameters
    ----------
    F_nt : float or array
        Nominal tensile strength, per nominal area. [psi]
    A_b : float or array
        Area of the body of the bolt, by its nominal diameter. [in2]

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
    Omega 2.00. Prying comes on top of the load. Changed from the source: nothing. How known: memory.

    Examples
    --------
    >>> round(bolt_tension(45000.0, 0.19635), 1)
    4417.9
    """
    return positive("F_nt", F_nt, STRENGTH) * positive("A_b", A_b, STRENGTH) / 2


@formula(symbol="V_a", clause=STRENGTH, unit="lbf")
def bolt_shear(F_nv: Number, A_b: Number, n: Number) -> Number:
    """Allowable shear of a bolt or rod.

    Parameters
    ----------
    F_nv : float or array
        Nominal shear strength: that with threads where threads cross a plane. [psi]
    A_b : float or array
        Area of the body of the bolt, by its nominal diameter. [in2]
    n : float or array
        Number of shear planes. [-]

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
    >>> round(bolt_shear(27000.0, 0.19635, 2.0), 1)
    5301.4
    """
    return positive("F_nv", F_nv, STRENGTH) * positive("A_b", A_b, STRENGTH) * positive("n", n, STRENGTH) / 2


@formula(symbol="f_rv", clause=STRENGTH, unit="psi")
def bolt_shear_stress(V: Number, A_b: Number) -> Number:
    """Shear stress of a bolt at one plane.

    Parameters
    ----------
    V : float or array
        Shear at the plane. [lbf]
    A_b : float or array
        Area of the body of the bolt, by its nominal diameter. [in2]

    Returns
    -------
    float or array
        [psi]

    Raises
    ------
    OutOfRange
        If the shear is negative or the area not positive.

    Notes
    -----
    Changed from the source: nothing. How known: memory.

    Examples
    --------
    >>> round(bolt_shear_stress(1000.0, 0.19635), 1)
    5092.9
    """
    return not_negative("V", V, STRENGTH) / positive("A_b", A_b, STRENGTH)


@formula(symbol="F_nt_prime", clause=BOTH, unit="psi")
def bolt_tension_with_shear(F_nt: Number, F_nv: Number, f_rv: Number) -> Number:
    """Nominal tensile strength of a bolt that also carries shear.

    Parameters
    ----------
    F_nt, F_nv : float or array
        Nominal tensile and shear strength. [psi]
    f_rv : float or array
        Shear stress under ASD loads. [psi]

    Returns
    -------
    float or array
        [psi]

    Raises
    ------
    OutOfRange
        If a strength is not positive, or the shear stress negative or over F_nv/2.

    Notes
    -----
    ASD form, Omega 2.00: 1.3 F_nt less 2.00 F_nt/F_nv f_rv, at most F_nt. Changed from the source: nothing. How known:
    memory.

    Examples
    --------
    >>> round(bolt_tension_with_shear(45000.0, 27000.0, 9000.0), 1)
    28500.0
    """
    F_nt, F_nv, f_rv = positive("F_nt", F_nt, BOTH), positive("F_nv", F_nv, BOTH), not_negative("f_rv", f_rv, BOTH)
    f_rv = valid(f_rv, f_rv <= F_nv / 2, f"f_rv must be at most F_nv/2, or the bolt shears{given(f_rv)}", BOTH)
    return smallest(1.3 * F_nt - 2 * F_nt / F_nv * f_rv, F_nt)


@formula(symbol="F_nt", clause="AISC 360-16 Table J3.2", unit="psi")
def threaded_tension_strength(F_u: Number) -> Number:
    """Nominal tensile strength of a threaded rod.

    Parameters
    ----------
    F_u : float or array
        Tensile strength of the steel. [psi]

    Returns
    -------
    float or array
        [psi]

    Raises
    ------
    OutOfRange
        If the strength is not positive.

    Notes
    -----
    Per area of the full body. Changed from the source: nothing. How known: memory.

    Examples
    --------
    >>> round(threaded_tension_strength(58000.0), 6)
    43500.0
    """
    return 0.75 * positive("F_u", F_u)


@formula(symbol="F_nv", clause="AISC 360-16 Table J3.2", unit="psi")
def threaded_shear_strength(F_u: Number) -> Number:
    """Nominal shear strength of a threaded rod, threads in the plane.

    Parameters
    ----------
    F_u : float or array
        Tensile strength of the steel. [psi]

    Returns
    -------
    float or array
        [psi]

    Raises
    ------
    OutOfRange
        If the strength is not positive.

    Notes
    -----
    Per area of the full body. Changed from the source: nothing. How known: memory.

    Examples
    --------
    >>> round(threaded_shear_strength(58000.0), 6)
    26100.0
    """
    return 0.450 * positive("F_u", F_u)


@formula(symbol="F_nv", clause="AISC 360-16 Table J3.2", unit="psi")
def shank_shear_strength(F_u: Number) -> Number:
    """Nominal shear strength of a rod, threads out of the plane.

    Parameters
    ----------
    F_u : float or array
        Tensile strength of the steel. [psi]

    Returns
    -------
    float or array
        [psi]

    Raises
    ------
    OutOfRange
        If the strength is not positive.

    Notes
    -----
    Per area of the full body. Changed from the source: nothing. How known: memory.

    Examples
    --------
    >>> round(shank_shear_strength(58000.0), 6)
    32654.0
    """
    return 0.563 * positive("F_u", F_u)
