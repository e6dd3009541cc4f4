"""How far a simple beam comes down where the nose of a bracket stands: under its load, and per force there.

For uniform load and one span. Other beams: the frame of `analysis`. Bending and shear are to be added.
"""

from __future__ import annotations

from ...calc.core import Number, formula, valid
from ...calc.ranges import at_most, given, positive, shown

BEAM, SHEAR = "statics of a simple beam", "statics of a simple beam, shear deformation"


@formula(symbol="Delta_0", clause=BEAM, unit="in")
def uniform_sag(w: Number, x: Number, L: Number, E: Number, I: Number) -> Number:  # noqa: E741
    """Bending deflection of a simple beam under uniform load, at any place.

    Parameters
    ----------
    w : float or array
        Load along the beam. [lbf/in]
    x : float or array
        From a support to the nose of the bracket. [in]
    L : float or array
        Span. [in]
    E : float or array
        Modulus of elasticity; for the largest contact force a low one. [psi]
    I : float or array
        Second moment of area. [in4]

    Returns
    -------
    float or array
        [in]

    Raises
    ------
    OutOfRange
        If x is not from 0 to L, or span, modulus or second moment not positive.

    Notes
    -----
    Shear comes on top: `uniform_shear_sag`. Changed from the source: nothing. How known: derived.

    Examples
    --------
    >>> round(uniform_sag(25.0, 24.0, 144.0, 1.6e6, 392.96), 4)
    0.1127
    """
    L, EI = positive("L", L, BEAM), positive("E", E, BEAM) * positive("I", I, BEAM)
    x = at_most("x", x, "L", L, BEAM)
    return w * x * (L**3 - 2 * L * x**2 + x**3) / (24 * EI)


@formula(symbol="f_xx", clause=BEAM, unit="in/lbf")
def unit_sag(x: Number, L: Number, E: Number, I: Number) -> Number:  # noqa: E741
    """Bending deflection of a simple beam per force, at the force.

    Parameters
    ----------
    x : float or array
        From a support to the nose of the bracket. [in]
    L : float or array
        Span. [in]
    E : float or array
        Modulus of elasticity; for the largest contact force a low one. [psi]
    I : float or array
        Second moment of area. [in4]

    Returns
    -------
    float or array
        [in/lbf]

    Raises
    ------
    OutOfRange
        If x is not from 0 to L, or span, modulus or second moment not positive.

    Notes
    -----
    Shear comes on top: `unit_shear_sag`. Changed from the source: nothing. How known: derived.

    Examples
    --------
    >>> round(unit_sag(24.0, 144.0, 1.6e6, 392.96) * 1e5, 4)
    3.0537
    """
    L, EI = positive("L", L, BEAM), positive("E", E, BEAM) * positive("I", I, BEAM)
    x = at_most("x", x, "L", L, BEAM)
    return x**2 * (L - x) ** 2 / (3 * EI * L)


@formula(symbol="f_xx", clause=BEAM, unit="in/lbf")
def unit_sag_pair(x: Number, L: Number, E: Number, I: Number) -> Number:  # noqa: E741
    """Bending deflection of a simple beam per force at each of two brackets, at equal distance from the ends.

    Parameters
    ----------
    x : float or array
        From a support to the nose of the bracket. [in]
    L : float or array
        Span. [in]
    E : float or array
        Modulus of elasticity; for the largest contact force a low one. [psi]
    I : float or array
        Second moment of area. [in4]

    Returns
    -------
    float or array
        [in/lbf]

    Raises
    ------
    OutOfRange
        If x is not from 0 to half of L, or span, modulus or second moment not positive.

    Notes
    -----
    The sag under one force, and that at it from the other. With `unit_sag` in its place the force of each comes out
    too large: at x = 0.16 L by 18 % for brackets of 10,000 lbf/in, by two thirds for rigid ones. Both must be alike,
    gaps too. Changed from the source: nothing. How known: derived.

    Examples
    --------
    >>> round(unit_sag_pair(30.0, 192.0, 1.6e6, 697.07) * 1e5, 4)
    6.1328
    """
    L, EI = positive("L", L, BEAM), positive("E", E, BEAM) * positive("I", I, BEAM)
    return _half(x, L) ** 2 * (3 * L - 4 * x) / (6 * EI)


@formula(symbol="Delta_0", clause=SHEAR, unit="in")
def uniform_shear_sag(w: Number, x: Number, L: Number, G_v: Number, A: Number) -> Number:
    """Shear deflection of a simple rectangular beam under uniform load, at any place.

    Parameters
    ----------
    w : float or array
        Load along the beam. [lbf/in]
    x : float or array
        From a support to the nose of the bracket. [in]
    L : float or array
        Span. [in]
    G_v : float or array
        Shear modulus. [psi]
    A : float or array
        Area of the section. [in2]

    Returns
    -------
    float or array
        [in]

    Raises
    ------
    OutOfRange
        If x is not from 0 to L, or span, modulus or area not positive.

    Notes
    -----
    1.2 for a rectangle. Changed from the source: nothing. How known: derived.

    Examples
    --------
    >>> round(uniform_shear_sag(25.0, 24.0, 144.0, 1.0e5, 52.25), 5)
    0.00827
    """
    x = at_most("x", x, "L", positive("L", L, SHEAR), SHEAR)
    return 1.2 * w * x * (L - x) / (2 * positive("G_v", G_v, SHEAR) * positive("A", A, SHEAR))


@formula(symbol="f_xx", clause=SHEAR, unit="in/lbf")
def unit_shear_sag(x: Number, L: Number, G_v: Number, A: Number) -> Number:
    """Shear deflection of a simple rectangular beam per force, at the force.

    Parameters
    ----------
    x : float or array
        From a support to the nose of the bracket. [in]
    L : float or array
        Span. [in]
    G_v : float or array
        Shear modulus. [psi]
    A : float or array
        Area of the section. [in2]

    Returns
    -------
    float or array
        [in/lbf]

    Raises
    ------
    OutOfRange
        If x is not from 0 to L, or span, modulus or area not positive.

    Notes
    -----
    1.2 for a rectangle. Changed from the source: nothing. How known: derived.

    Examples
    --------
    >>> round(unit_shear_sag(24.0, 144.0, 1.0e5, 52.25) * 1e5, 4)
    0.4593
    """
    x = at_most("x", x, "L", positive("L", L, SHEAR), SHEAR)
    return 1.2 * x * (L - x) / (positive("G_v", G_v, SHEAR) * positive("A", A, SHEAR) * L)


@formula(symbol="f_xx", clause=SHEAR, unit="in/lbf")
def unit_shear_sag_pair(x: Number, L: Number, G_v: Number, A: Number) -> Number:
    """Shear deflection of a simple rectangular beam per force at each of two brackets, at equal distance from the ends.

    Parameters
    ----------
    x : float or array
        From a support to the nose of the bracket. [in]
    L : float or array
        Span. [in]
    G_v : float or array
        Shear modulus. [psi]
    A : float or array
        Area of the section. [in2]

    Returns
    -------
    float or array
        [in/lbf]

    Raises
    ------
    OutOfRange
        If x is not from 0 to half of L, or span, modulus or area not positive.

    Notes
    -----
    The shear between the two is none, so that L falls out. Changed from the source: it has the single bracket only.
    How known: derived.

    Examples
    --------
    >>> round(unit_shear_sag_pair(30.0, 192.0, 1.0e5, 63.25) * 1e5, 4)
    0.5692
    """
    x = _half(x, positive("L", L, SHEAR))
    return 1.2 * x * L / (positive("G_v", G_v, SHEAR) * positive("A", A, SHEAR) * L)


def _half(x: Number, L: Number) -> Number:
    because = f"x must be above 0 and at most half of L{shown(L)}{given(x)}"
    return valid(x, (x > 0) & (2 * x <= L), because, BEAM)
