"""Section properties: whole, round, notched, with a bolt hole; those with other voids are passed on from `net_section`.

`b` is the breadth across and `d` the depth in the plane of the load; for bending the other way they change places.
"""

from __future__ import annotations

import math

from ...calc.core import Number, formula, sqrt
from ...calc.ranges import below, positive
from .net_section import NET, net_area, net_centroid, net_first_moment, net_inertia, net_modulus_bottom, net_modulus_top

__all__ = [
    "bolt_hole_modulus", "equal_area_square", "net_area", "net_centroid", "net_first_moment", "net_inertia",
    "net_modulus_bottom", "net_modulus_top", "notched_depth", "rectangle_area", "rectangle_inertia",
    "rectangle_modulus", "round_area", "round_inertia", "round_modulus",
]  # fmt: skip

MECHANICS = "mechanics of materials"


@formula(symbol="A", clause=MECHANICS, unit="in2")
def rectangle_area(b: Number, d: Number) -> Number:
    """Area of a rectangle.

    Parameters
    ----------
    b, d : float or array
        Breadth and depth. [in]

    Returns
    -------
    float or array
        [in2]

    Raises
    ------
    OutOfRange
        If a dimension is not positive.

    Notes
    -----
    Changed from the source: nothing. How known: derived.

    Examples
    --------
    >>> rectangle_area(3.5, 7.25)
    25.375
    """
    return positive("b", b) * positive("d", d)


@formula(symbol="S_x", clause="NDS 2018 3.3.2 (eq. 3.3-4)", unit="in3")
def rectangle_modulus(b: Number, d: Number) -> Number:
    """Section modulus of a rectangle, bent in the plane of d.

    Parameters
    ----------
    b, d : float or array
        Breadth and depth. [in]

    Returns
    -------
    float or array
        [in3]

    Raises
    ------
    OutOfRange
        If a dimension is not positive.

    Notes
    -----
    Changed from the source: nothing. How known: derived; values of NDS Supplement Table 1B read.

    Examples
    --------
    >>> round(rectangle_modulus(3.5, 7.25), 2)
    30.66
    """
    return positive("b", b) * positive("d", d) ** 2 / 6


@formula(symbol="I_x", clause="NDS 2018 3.3.2 (eq. 3.3-3)", unit="in4")
def rectangle_inertia(b: Number, d: Number) -> Number:
    """Second moment of area of a rectangle, bent in the plane of d.

    Parameters
    ----------
    b, d : float or array
        Breadth and depth. [in]

    Returns
    -------
    float or array
        [in4]

    Raises
    ------
    OutOfRange
        If a dimension is not positive.

    Notes
    -----
    Changed from the source: nothing. How known: derived; values of NDS Supplement Table 1B read.

    Examples
    --------
    >>> round(rectangle_inertia(1.5, 3.5), 3)
    5.359
    """
    return positive("b", b) * positive("d", d) ** 3 / 12


@formula(symbol="A", clause=MECHANICS, unit="in2")
def round_area(D: Number) -> Number:
    """Area of a circle.

    Parameters
    ----------
    D : float or array
        Diameter. [in]

    Returns
    -------
    float or array
        [in2]

    Raises
    ------
    OutOfRange
        If the diameter is not positive.

    Notes
    -----
    Changed from the source: nothing. How known: derived.

    Examples
    --------
    >>> round(round_area(10.0), 3)
    78.54
    """
    return math.pi * positive("D", D) ** 2 / 4


@formula(symbol="S_x", clause=MECHANICS, unit="in3")
def round_modulus(D: Number) -> Number:
    """Section modulus of a circle.

    Parameters
    ----------
    D : float or array
        Diameter. [in]

    Returns
    -------
    float or array
        [in3]

    Raises
    ------
    OutOfRange
        If the diameter is not positive.

    Notes
    -----
    No form factor goes with it: old editions raised F_b by 1.18 for a round section, the 2018 edition does not.
    Changed from the source: nothing. How known: derived; that there is no form factor, memory.

    Examples
    --------
    >>> round(round_modulus(10.0), 3)
    98.175
    """
    return math.pi * positive("D", D) ** 3 / 32


@formula(symbol="I_x", clause=MECHANICS, unit="in4")
def round_inertia(D: Number) -> Number:
    """Second moment of area of a circle.

    Parameters
    ----------
    D : float or array
        Diameter. [in]

    Returns
    -------
    float or array
        [in4]

    Raises
    ------
    OutOfRange
        If the diameter is not positive.

    Notes
    -----
    Changed from the source: nothing. How known: derived.

    Examples
    --------
    >>> round(round_inertia(10.0), 3)
    490.874
    """
    return math.pi * positive("D", D) ** 4 / 64


@formula(symbol="d", clause="NDS 2018 3.7.3, 4.3.6.3", unit="in")
def equal_area_square(D: Number) -> Number:
    """Side of the square with the area of a round piece: the depth that stands for it in column and size rules.

    Parameters
    ----------
    D : float or array
        Diameter. [in]

    Returns
    -------
    float or array
        [in]

    Raises
    ------
    OutOfRange
        If the diameter is not positive.

    Notes
    -----
    Changed from the source: the exact root of the area, of which handbooks print the rounded form 0.886 D.
    How known: rule memory, form derived.

    Examples
    --------
    >>> round(equal_area_square(10.0), 4)
    8.8623
    """
    return sqrt(math.pi * positive("D", D) ** 2 / 4)


@formula(symbol="d_n", clause="NDS 2018 3.4.3.2, 4.4.3", unit="in")
def notched_depth(d: Number, d_cut: Number) -> Number:
    """Depth that remains at a notch.

    Parameters
    ----------
    d, d_cut : float or array
        Depth of the whole piece, and of the notch. [in]

    Returns
    -------
    float or array
        [in]

    Raises
    ------
    OutOfRange
        If the notch is negative or leaves nothing.

    Notes
    -----
    Does not say whether the notch is allowed: see `end_notch_limit` and `inner_notch_limit`. At a bevelled end
    the depth counts at the inner edge of the support.
    Changed from the source: nothing. How known: memory.

    Examples
    --------
    >>> notched_depth(9.25, 2.0)
    7.25
    """
    return positive("d", d) - below("d_cut", d_cut, "d", d, "NDS 2018 4.4.3")


@formula(symbol="S_net", clause=NET, unit="in3")
def bolt_hole_modulus(b: Number, d: Number, d_h: Number) -> Number:
    """Section modulus with a hole right through the breadth at mid-depth.

    Parameters
    ----------
    b, d : float or array
        Breadth and depth. [in]
    d_h : float or array
        Diameter (height) of the hole. [in]

    Returns
    -------
    float or array
        [in3]

    Raises
    ------
    OutOfRange
        If a dimension is not positive or the hole is as deep as the piece.

    Notes
    -----
    The neutral axis stays where it was because the hole is at mid-depth; elsewhere take the `net_` formulas with
    b_v = b. Changed from the source: nothing. How known: derived.

    Examples
    --------
    >>> round(bolt_hole_modulus(7.5, 9.5, 2.0) / rectangle_modulus(7.5, 9.5), 4)
    0.9907
    """
    d_h = below("d_h", d_h, "d", d)
    return positive("b", b) * positive("d", d) ** 2 / 6 * (1 - (d_h / d) ** 3)
