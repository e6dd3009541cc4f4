"""Area, centroid and weight of a solid bracket: closed forms for each soffit.

The bracket fills the corner of wall face and top edge: a wall leg a_f by h, the top leg beyond it b_n by l_x, and the
part A_3 between the corner of the two and the soffit, l_x wide and l_y high. x runs out from the wall, y down from the
top edge. Each `..._centroid` gives the one from the wall; given (b_n, l_y) for (a_f, l_x) it gives the one from the top
edge. Only the ogee has its own for that. Circular arcs are in `bracket_arc`.
"""

from __future__ import annotations

import math

from ...calc.core import Number, formula
from ...calc.ranges import positive

PLANE = "plane geometry"


@formula(symbol="A_3", clause=PLANE, unit="in2")
def straight_soffit_area(l_x: Number, l_y: Number) -> Number:
    """Area between the inner corner and a straight soffit; also that of an ogee of two equal halves.

    Parameters
    ----------
    l_x, l_y : float or array
        Width and height from foot to nose. [in]

    Returns
    -------
    float or array
        [in2]

    Raises
    ------
    OutOfRange
        If a value is not positive.

    Notes
    -----
    Changed from the source: nothing. How known: derived.

    Examples
    --------
    >>> straight_soffit_area(10.0, 10.0)
    50.0
    """
    return positive("l_x", l_x) * positive("l_y", l_y) / 2


@formula(symbol="A_3", clause=PLANE, unit="in2")
def concave_soffit_area(l_x: Number, l_y: Number) -> Number:
    """Area between the inner corner and a concave quarter ellipse.

    Parameters
    ----------
    l_x, l_y : float or array
        Width and height from foot to nose. [in]

    Returns
    -------
    float or array
        [in2]

    Raises
    ------
    OutOfRange
        If a value is not positive.

    Notes
    -----
    Changed from the source: nothing. How known: derived.

    Examples
    --------
    >>> round(concave_soffit_area(8.0, 8.0), 4)
    13.7345
    """
    box = positive("l_x", l_x) * positive("l_y", l_y)
    return box - math.pi * box / 4


@formula(symbol="A_3", clause=PLANE, unit="in2")
def convex_soffit_area(l_x: Number, l_y: Number) -> Number:
    """Area between the inner corner and a convex quarter ellipse.

    Parameters
    ----------
    l_x, l_y : float or array
        Width and height from foot to nose. [in]

    Returns
    -------
    float or array
        [in2]

    Raises
    ------
    OutOfRange
        If a value is not positive.

    Notes
    -----
    Changed from the source: nothing. How known: derived.

    Examples
    --------
    >>> round(convex_soffit_area(5.0, 7.0), 4)
    27.4889
    """
    return math.pi * positive("l_x", l_x) * positive("l_y", l_y) / 4


@formula(symbol="x_3", clause=PLANE, unit="in")
def straight_soffit_centroid(a_f: Number, l_x: Number) -> Number:
    """Centroid of the area under a straight soffit.

    Parameters
    ----------
    a_f : float or array
        Depth of the wall leg at its foot. [in]
    l_x : float or array
        Width from foot to nose. [in]

    Returns
    -------
    float or array
        From the wall face. [in]

    Raises
    ------
    OutOfRange
        If a value is not positive.

    Notes
    -----
    Changed from the source: nothing. How known: derived.

    Examples
    --------
    >>> straight_soffit_centroid(2.0, 9.0)
    5.0
    """
    return positive("a_f", a_f) + positive("l_x", l_x) / 3


@formula(symbol="x_3", clause=PLANE, unit="in")
def concave_soffit_centroid(a_f: Number, l_x: Number) -> Number:
    """Centroid of the area under a concave quarter ellipse.

    Parameters
    ----------
    a_f : float or array
        Depth of the wall leg at its foot. [in]
    l_x : float or array
        Width from foot to nose. [in]

    Returns
    -------
    float or array
        From the wall face. [in]

    Raises
    ------
    OutOfRange
        If a value is not positive.

    Notes
    -----
    The box less the quarter ellipse, whose centroid is 4/(3 pi) of the width from its centre. Changed from the source:
    nothing. How known: derived.

    Examples
    --------
    >>> round(concave_soffit_centroid(2.0, 8.0), 5)
    3.78694
    """
    return positive("a_f", a_f) + positive("l_x", l_x) * (5 / 6 - math.pi / 4) / (1 - math.pi / 4)


@formula(symbol="x_3", clause=PLANE, unit="in")
def convex_soffit_centroid(a_f: Number, l_x: Number) -> Number:
    """Centroid of the area under a convex quarter ellipse.

    Parameters
    ----------
    a_f : float or array
        Depth of the wall leg at its foot. [in]
    l_x : float or array
        Width from foot to nose. [in]

    Returns
    -------
    float or array
        From the wall face. [in]

    Raises
    ------
    OutOfRange
        If a value is not positive.

    Notes
    -----
    Changed from the source: nothing. How known: derived.

    Examples
    --------
    >>> round(convex_soffit_centroid(1.0, 5.0), 5)
    3.12207
    """
    return positive("a_f", a_f) + 4 * positive("l_x", l_x) / (3 * math.pi)


@formula(symbol="x_3", clause=PLANE, unit="in")
def ogee_soffit_centroid(a_f: Number, l_x: Number) -> Number:
    """Centroid, from the wall, of the area under an ogee: concave below, convex above, level where they meet.

    Parameters
    ----------
    a_f : float or array
        Depth of the wall leg at its foot. [in]
    l_x : float or array
        Width from foot to nose. [in]

    Returns
    -------
    float or array
        From the wall face. [in]

    Raises
    ------
    OutOfRange
        If a value is not positive.

    Notes
    -----
    Both halves are quarter ellipses of half the width and height. Changed from the source: nothing. How known:
    derived.

    Examples
    --------
    >>> ogee_soffit_centroid(2.0, 12.0)
    7.0
    """
    return positive("a_f", a_f) + 5 * positive("l_x", l_x) / 12


@formula(symbol="y_3", clause=PLANE, unit="in")
def ogee_soffit_centroid_down(b_n: Number, l_y: Number) -> Number:
    """Centroid, from the top edge, of the area under an ogee: concave below, convex above, level where they meet.

    Parameters
    ----------
    b_n : float or array
        Depth of the nose. [in]
    l_y : float or array
        Height from foot to nose. [in]

    Returns
    -------
    float or array
        From the top edge. [in]

    Raises
    ------
    OutOfRange
        If a value is not positive.

    Notes
    -----
    Changed from the source: nothing. How known: derived.

    Examples
    --------
    >>> round(ogee_soffit_centroid_down(2.0, 12.0), 4)
    5.2876
    """
    return positive("b_n", b_n) + positive("l_y", l_y) * (2 / 3 - math.pi / 8)


@formula(symbol="A_br", clause=PLANE, unit="in2")
def bracket_area(a_f: Number, b_n: Number, h: Number, l_x: Number, A_3: Number) -> Number:
    """Area of a bracket seen from its side.

    Parameters
    ----------
    a_f, b_n : float or array
        Depth of the wall leg at its foot, and of the nose. [in]
    h : float or array
        Height of the wall leg. [in]
    l_x : float or array
        Width from foot to nose. [in]
    A_3 : float or array
        Area between the inner corner and the soffit. [in2]

    Returns
    -------
    float or array
        [in2]

    Raises
    ------
    OutOfRange
        If a value is not positive.

    Notes
    -----
    Changed from the source: nothing. How known: derived.

    Examples
    --------
    >>> bracket_area(2.0, 2.0, 12.0, 10.0, 50.0)
    94.0
    """
    legs = positive("a_f", a_f) * positive("h", h) + positive("l_x", l_x) * positive("b_n", b_n)
    return legs + positive("A_3", A_3)


@formula(symbol="x_c", clause=PLANE, unit="in")
def bracket_centroid(a_f: Number, b_n: Number, h: Number, l_x: Number, A_3: Number, x_3: Number) -> Number:
    """Centroid of a bracket seen from its side, from the wall face.

    Parameters
    ----------
    a_f, b_n : float or array
        Depth of the wall leg at its foot, and of the nose. [in]
    h : float or array
        Height of the wall leg. [in]
    l_x : float or array
        Width from foot to nose. [in]
    A_3 : float or array
        Area between the inner corner and the soffit. [in2]
    x_3 : float or array
        Its centroid, from the wall face. [in]

    Returns
    -------
    float or array
        [in]

    Raises
    ------
    OutOfRange
        If a value is not positive.

    Notes
    -----
    From the top edge: exchange a_f and b_n, give the projection for h, the height from foot to nose for l_x, and y_3
    for x_3. Changed from the source: nothing. How known: derived.

    Examples
    --------
    >>> round(bracket_centroid(2.0, 2.0, 12.0, 10.0, 50.0, 16 / 3), 5)
    4.58156
    """
    wall, top = positive("a_f", a_f) * positive("h", h), positive("l_x", l_x) * positive("b_n", b_n)
    moment = wall * (a_f / 2) + top * (a_f + l_x / 2) + positive("A_3", A_3) * positive("x_3", x_3)
    return moment / (wall + top + A_3)


@formula(symbol="W_b", clause=PLANE, unit="lbf")
def bracket_weight(A_br: Number, t: Number, density: Number) -> Number:
    """Weight of a bracket cut from one board.

    Parameters
    ----------
    A_br : float or array
        Area seen from its side. [in2]
    t : float or array
        Thickness. [in]
    density : float or array
        Weight per volume. [lbf/in3]

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
    Changed from the source: nothing. How known: derived.

    Examples
    --------
    >>> round(bracket_weight(94.0, 1.5, 0.02), 4)
    2.82
    """
    return positive("A_br", A_br) * positive("t", t) * positive("density", density)
