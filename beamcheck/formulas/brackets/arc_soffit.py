"""A soffit that is an arc of a circle, hollow or full: the area between it and the inner corner, and its centroid.

The chord runs from foot to nose, l_x wide and l_y high. As in `bracket_geometry`, a centroid from the wall becomes one
from the top edge when (a_f, l_x, l_y) are given as (b_n, l_y, l_x).
"""

from __future__ import annotations

import math

import numpy as np

from ...calc.core import Number, formula, sin, sqrt, valid
from ...calc.ranges import between, given, positive

CIRCLE = "geometry of the circle"


@formula(symbol="c_a", clause="plane geometry", unit="in")
def soffit_chord(l_x: Number, l_y: Number) -> Number:
    """Straight line from foot to nose.

    Parameters
    ----------
    l_x, l_y : float or array
        Width and height from foot to nose. [in]

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
    Changed from the source: nothing. How known: derived.

    Examples
    --------
    >>> soffit_chord(6.0, 8.0)
    10.0
    """
    return sqrt(positive("l_x", l_x) ** 2 + positive("l_y", l_y) ** 2)


@formula(symbol="r_a", clause=CIRCLE, unit="in")
def arc_radius(c_a: Number, s_a: Number) -> Number:
    """Radius of an arc.

    Parameters
    ----------
    c_a : float or array
        Its chord. [in]
    s_a : float or array
        Its sagitta, at most half the chord. [in]

    Returns
    -------
    float or array
        [in]

    Raises
    ------
    OutOfRange
        If a value is not positive, or the sagitta over half the chord.

    Notes
    -----
    Changed from the source: nothing. How known: derived.

    Examples
    --------
    >>> arc_radius(8.0, 2.0)
    5.0
    """
    c_a, s_a = positive("c_a", c_a, CIRCLE), positive("s_a", s_a, CIRCLE)
    s_a = valid(s_a, s_a <= c_a / 2, f"s_a must be at most half the chord c_a{given(s_a)}", CIRCLE)
    return (c_a**2 / 4 + s_a**2) / (2 * s_a)


def arc_angle(c_a: float, r_a: float) -> float:
    """Angle that an arc of at most half a circle spans at its centre, deg.

    Chord and radius in inches; floats or arrays. Raises OutOfRange. Beside the formulas, which know no
    inverse sine. Plane geometry, derived.
    """
    because = f"the chord c_a must be above 0 and at most twice the radius r_a{given(c_a)}"
    half = c_a / (2 * positive("r_a", r_a, CIRCLE))
    half = valid(half, (half > 0) & (half <= 1 + 1e-12), because, CIRCLE)
    angle: float = 2 * np.degrees(np.arcsin(np.minimum(half, 1.0)))
    return angle


@formula(symbol="A_seg", clause=CIRCLE, unit="in2")
def segment_area(r_a: Number, phi_a: Number) -> Number:
    """Area between an arc and its chord.

    Parameters
    ----------
    r_a : float or array
        Radius. [in]
    phi_a : float or array
        Angle that the arc spans at its centre, up to 180. [deg]

    Returns
    -------
    float or array
        [in2]

    Raises
    ------
    OutOfRange
        If the radius is not positive or the angle out of range.

    Notes
    -----
    Changed from the source: nothing. How known: derived.

    Examples
    --------
    >>> round(segment_area(2.0, 180.0), 5)
    6.28319
    """
    phi_a = between("phi_a", phi_a, 0.1, 180, CIRCLE, "deg")
    return positive("r_a", r_a, CIRCLE) ** 2 / 2 * (math.pi * phi_a / 180 - sin(phi_a))


@formula(symbol="z_seg", clause=CIRCLE, unit="in")
def segment_centroid(c_a: Number, A_seg: Number, r_a: Number, s_a: Number) -> Number:
    """Distance of a segment's centroid from its chord.

    Parameters
    ----------
    c_a : float or array
        Chord. [in]
    A_seg : float or array
        Area of the segment. [in2]
    r_a, s_a : float or array
        Radius and sagitta of its arc. [in]

    Returns
    -------
    float or array
        [in]

    Raises
    ------
    OutOfRange
        If a value is not positive, or they belong to no arc.

    Notes
    -----
    Changed from the source: nothing. How known: derived.

    Examples
    --------
    >>> round(segment_centroid(6.0, 14.13717, 3.0, 3.0), 5)
    1.27324
    """
    from_centre = positive("c_a", c_a, CIRCLE) ** 3 / (12 * positive("A_seg", A_seg, CIRCLE))
    found = from_centre - (positive("r_a", r_a, CIRCLE) - positive("s_a", s_a, CIRCLE))
    return valid(found, found > 0, "c_a, A_seg, r_a and s_a belong to no arc", CIRCLE)


@formula(symbol="A_3", clause="plane geometry", unit="in2")
def hollow_arc_area(l_x: Number, l_y: Number, A_seg: Number) -> Number:
    """Area between the inner corner and a hollow arc.

    Parameters
    ----------
    l_x, l_y : float or array
        Width and height from foot to nose. [in]
    A_seg : float or array
        Area between arc and chord. [in2]

    Returns
    -------
    float or array
        [in2]

    Raises
    ------
    OutOfRange
        If a value is not positive, or the arc cuts the inner corner off.

    Notes
    -----
    Changed from the source: nothing. How known: derived.

    Examples
    --------
    >>> hollow_arc_area(6.0, 8.0, 5.0)
    19.0
    """
    return positive("l_x", l_x) * positive("l_y", l_y) / 2 - _inside(A_seg, l_x, l_y)


@formula(symbol="A_3", clause="plane geometry", unit="in2")
def full_arc_area(l_x: Number, l_y: Number, A_seg: Number) -> Number:
    """Area between the inner corner and a full (bulging) arc.

    Parameters
    ----------
    l_x, l_y : float or array
        Width and height from foot to nose. [in]
    A_seg : float or array
        Area between arc and chord. [in2]

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
    >>> full_arc_area(6.0, 8.0, 5.0)
    29.0
    """
    return positive("l_x", l_x) * positive("l_y", l_y) / 2 + positive("A_seg", A_seg)


@formula(symbol="x_3", clause="plane geometry", unit="in")
def hollow_arc_centroid(a_f: Number, l_x: Number, l_y: Number, A_seg: Number, z_seg: Number) -> Number:
    """Centroid of the area under a hollow arc: the triangle less the segment.

    Parameters
    ----------
    a_f : float or array
        Depth of the wall leg at its foot. [in]
    l_x, l_y : float or array
        Width and height from foot to nose. [in]
    A_seg : float or array
        Area between arc and chord. [in2]
    z_seg : float or array
        Distance of its centroid from the chord. [in]

    Returns
    -------
    float or array
        From the wall face. [in]

    Raises
    ------
    OutOfRange
        If a value is not positive, or the arc cuts the inner corner off.

    Notes
    -----
    Changed from the source: nothing. How known: derived.

    Examples
    --------
    >>> round(hollow_arc_centroid(2.0, 6.0, 8.0, 5.0, 0.5), 4)
    3.8421
    """
    triangle = positive("l_x", l_x) * positive("l_y", l_y) / 2
    A_seg, chord = _inside(A_seg, l_x, l_y), sqrt(l_x**2 + l_y**2)
    moment = triangle * (l_x / 3) - A_seg * (l_x / 2 - positive("z_seg", z_seg) * l_y / chord)
    return positive("a_f", a_f) + moment / (triangle - A_seg)


@formula(symbol="x_3", clause="plane geometry", unit="in")
def full_arc_centroid(a_f: Number, l_x: Number, l_y: Number, A_seg: Number, z_seg: Number) -> Number:
    """Centroid of the area under a full (bulging) arc: the triangle and the segment.

    Parameters
    ----------
    a_f : float or array
        Depth of the wall leg at its foot. [in]
    l_x, l_y : float or array
        Width and height from foot to nose. [in]
    A_seg : float or array
        Area between arc and chord. [in2]
    z_seg : float or array
        Distance of its centroid from the chord. [in]

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
    >>> round(full_arc_centroid(2.0, 6.0, 8.0, 5.0, 0.5), 4)
    4.2414
    """
    triangle = positive("l_x", l_x) * positive("l_y", l_y) / 2
    A_seg, chord = positive("A_seg", A_seg), sqrt(l_x**2 + l_y**2)
    moment = triangle * (l_x / 3) + A_seg * (l_x / 2 + positive("z_seg", z_seg) * l_y / chord)
    return positive("a_f", a_f) + moment / (triangle + A_seg)


def _inside(A_seg: Number, l_x: Number, l_y: Number) -> Number:
    because = f"A_seg must be less than half of l_x times l_y: the arc reaches the inner corner{given(A_seg)}"
    A_seg = positive("A_seg", A_seg)
    return valid(A_seg, A_seg < l_x * l_y / 2, because)
