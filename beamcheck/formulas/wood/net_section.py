"""A rectangle with a rectangular void in it: hole, mortise, slot, pocket, housing. Section properties and shear stress.

The void is `b_v` across and `d_v` along the depth; its middle is `y_v` above the bottom. In section a round hole is a
rectangle too: bored from side to side b_v = b and d_v its diameter, bored from top to bottom the other way round.
"""

from __future__ import annotations

from ...calc.core import Number, formula, largest, valid
from ...calc.ranges import at_most, below, given, not_negative, positive

NET, STRESS = "NDS 2018 3.1.2", "NDS 2018 3.4.2"


@formula(symbol="A_n", clause=NET, unit="in2")
def net_area(b: Number, d: Number, b_v: Number, d_v: Number) -> Number:
    """Area of a rectangle less a rectangular void (hole, mortise, slot, housing).

    Parameters
    ----------
    b, d : float or array
        Breadth and depth. [in]
    b_v, d_v : float or array
        Width of the void across, and its height along the depth. [in]

    Returns
    -------
    float or array
        [in2]

    Raises
    ------
    OutOfRange
        If the void does not fit into the section or takes all of it.

    Notes
    -----
    For shear 1.5 V/A_n is right for a through hole at mid-depth only: see `shear_stress_net`, `shear_stress_parts`.
    Changed from the source: nothing. How known: derived.

    Examples
    --------
    >>> net_area(7.5, 9.5, 2.0, 4.0)
    63.25
    """
    b, d, b_v, d_v = _void(b, d, b_v, d_v)
    return b * d - b_v * d_v


@formula(symbol="y_bar", clause=NET, unit="in")
def net_centroid(b: Number, d: Number, b_v: Number, d_v: Number, y_v: Number) -> Number:
    """Height of the centroid above the bottom, with a rectangular void.

    Parameters
    ----------
    b, d : float or array
        Breadth and depth. [in]
    b_v, d_v : float or array
        Width of the void across, and its height along the depth. [in]
    y_v : float or array
        Height of the middle of the void above the bottom. [in]

    Returns
    -------
    float or array
        [in]

    Raises
    ------
    OutOfRange
        If the void does not fit into the section or takes all of it.

    Notes
    -----
    Changed from the source: nothing. How known: derived.

    Examples
    --------
    A slot 2 in wide and 4 in deep in the bottom face:

    >>> round(net_centroid(7.5, 9.5, 2.0, 4.0, 2.0), 3)
    5.098
    """
    b, d, b_v, d_v = _void(b, d, b_v, d_v)
    y_v = _inside(y_v, d, d_v)
    return (b * d * (d / 2) - b_v * d_v * y_v) / (b * d - b_v * d_v)


@formula(symbol="I_net", clause=NET, unit="in4")
def net_inertia(b: Number, d: Number, b_v: Number, d_v: Number, y_v: Number) -> Number:
    """Second moment of area about the net centroid, with a rectangular void.

    Parameters
    ----------
    b, d : float or array
        Breadth and depth. [in]
    b_v, d_v : float or array
        Width of the void across, and its height along the depth. [in]
    y_v : float or array
        Height of the middle of the void above the bottom. [in]

    Returns
    -------
    float or array
        [in4]

    Raises
    ------
    OutOfRange
        If the void does not fit into the section or takes all of it.

    Notes
    -----
    Parallel-axis theorem with the shift of the centroid worked in. A void that is not in the middle of the breadth
    also bends the piece sideways; that is not in it. Changed from the source: nothing. How known: derived.

    Examples
    --------
    >>> round(net_inertia(7.5, 9.5, 2.0, 4.0, 2.0), 1)
    457.0
    """
    b, d, b_v, d_v = _void(b, d, b_v, d_v)
    y_v = _inside(y_v, d, d_v)
    shift = b * d * (b_v * d_v) / (b * d - b_v * d_v) * (y_v - d / 2) ** 2
    return b * d**3 / 12 - b_v * d_v**3 / 12 - shift


@formula(symbol="S_net", clause=NET, unit="in3")
def net_modulus_bottom(I_net: Number, y_bar: Number) -> Number:
    """Section modulus of any net section for the stress at the bottom edge.

    Parameters
    ----------
    I_net : float or array
        Second moment of area about the net centroid, from `net_inertia` or `lost_corners_inertia`. [in4]
    y_bar : float or array
        Height of the net centroid above the bottom, from `net_centroid` or `lost_corners_centroid`. [in]

    Returns
    -------
    float or array
        [in3]

    Raises
    ------
    OutOfRange
        If a value is not positive.

    Notes
    -----
    For a void as broad as the piece and open at the bottom the edge is gone: that is a notch, and `notched_depth` is
    the way. Changed from the source: nothing. How known: derived.

    Examples
    --------
    The slot of `net_centroid`, and a timber that has lost its two bottom corners:

    >>> round(net_modulus_bottom(457.04, 5.0978), 1)
    89.7
    >>> round(net_modulus_bottom(293.04, 4.2222), 1)
    69.4
    """
    return positive("I_net", I_net) / positive("y_bar", y_bar)


@formula(symbol="S_net", clause=NET, unit="in3")
def net_modulus_top(I_net: Number, d: Number, y_bar: Number) -> Number:
    """Section modulus of any net section for the stress at the top edge.

    Parameters
    ----------
    I_net : float or array
        Second moment of area about the net centroid. [in4]
    d : float or array
        Depth. [in]
    y_bar : float or array
        Height of the net centroid above the bottom. [in]

    Returns
    -------
    float or array
        [in3]

    Raises
    ------
    OutOfRange
        If a value is not positive or the centroid is outside the depth.

    Notes
    -----
    For a void as broad as the piece and open at the top the edge is gone: that is a notch.
    Changed from the source: nothing. How known: derived.

    Examples
    --------
    >>> round(net_modulus_top(457.04, 9.5, 5.0978), 1)
    103.8
    """
    return positive("I_net", I_net) / (positive("d", d) - _centroid(y_bar, d))


@formula(symbol="Q_net", clause="NDS 2018 3.4.2 (eq. 3.4-1)", unit="in3")
def net_first_moment(b: Number, d: Number, b_v: Number, d_v: Number, y_v: Number, y_bar: Number) -> Number:
    """First moment, about the net centroid, of what lies above it: the largest one of the section.

    Parameters
    ----------
    b, d : float or array
        Breadth and depth. [in]
    b_v, d_v : float or array
        Width of the void across, and its height along the depth. [in]
    y_v : float or array
        Height of the middle of the void above the bottom. [in]
    y_bar : float or array
        Height of the net centroid above the bottom, from `net_centroid`. [in]

    Returns
    -------
    float or array
        [in3]

    Raises
    ------
    OutOfRange
        If the void does not fit into the section or takes all of it, or the centroid is outside the depth.

    Notes
    -----
    What the void takes away above the centroid is the difference of two moments, each from the centroid up to an
    edge of the void (nothing for an edge below it). Changed from the source: nothing. How known: derived.

    Examples
    --------
    >>> round(net_first_moment(7.5, 9.5, 2.0, 4.0, 2.0, 5.097826), 2)
    72.67
    """
    b, d, b_v, d_v = _void(b, d, b_v, d_v)
    y_v, y_bar = _inside(y_v, d, d_v), _centroid(y_bar, d)
    top, low = largest(y_v + d_v / 2 - y_bar, 0), largest(y_v - d_v / 2 - y_bar, 0)
    return b * (d - y_bar) ** 2 / 2 - b_v * (top**2 - low**2) / 2


@formula(symbol="f_v", clause="NDS 2018 3.1.2, 3.4.2 (eq. 3.4-1)", unit="psi")
def shear_stress_net(V: Number, Q_net: Number, I_net: Number, b: Number, b_v: Number) -> Number:
    """Shear stress beside a mortise, slot or pocket that does not go right through.

    Parameters
    ----------
    V : float or array
        Shear force, without sign. [lbf]
    Q_net : float or array
        First moment, about the net centroid, of what lies above it. [in3]
    I_net : float or array
        Second moment of area of the net section. [in4]
    b, b_v : float or array
        Breadth of the piece, and of the void. [in]

    Returns
    -------
    float or array
        [psi]

    Raises
    ------
    OutOfRange
        If the shear is negative, another value not positive, or the void as broad as the piece.

    Notes
    -----
    The largest first moment over the least breadth: exact where the void holds the centroid, else on the safe side.
    1.5 V over the net area is not: for a mortise 3 in square at mid-depth of 7.5 x 9.5 in it is 29 % too low.
    Changed from the source: breadth and first moment need not be at one level. How known: derived.

    Examples
    --------
    >>> round(shear_stress_net(1000.0, 81.234375, 529.109375, 7.5, 3.0), 2)
    34.12
    """
    V, Q_net, I_net = not_negative("V", V), positive("Q_net", Q_net), positive("I_net", I_net)
    return V * Q_net / (I_net * (positive("b", b) - below("b_v", b_v, "b", b, STRESS)))


@formula(symbol="f_v", clause="NDS 2018 3.1.2, 3.4.2", unit="psi")
def shear_stress_parts(V: Number, b: Number, d_a: Number, d_b: Number) -> Number:
    """Shear stress in the deeper of the two parts beside a hole right through the breadth.

    Parameters
    ----------
    V : float or array
        Shear force, without sign. [lbf]
    b : float or array
        Breadth. [in]
    d_a, d_b : float or array
        Depth of the wood above and below the hole. [in]

    Returns
    -------
    float or array
        [psi]

    Raises
    ------
    OutOfRange
        If the shear is negative or a dimension not positive.

    Notes
    -----
    The parts bend together, so each takes its share as the cube of its depth. With equal parts this is 1.5 V over the
    net area. Long openings also bend each part by itself: not covered.
    Changed from the source: NDS has no rule for it. How known: derived.

    Examples
    --------
    >>> round(shear_stress_parts(1000.0, 7.5, 3.75, 3.75), 3)
    26.667
    """
    V, b, d_a, d_b = not_negative("V", V), positive("b", b), positive("d_a", d_a), positive("d_b", d_b)
    return 3 * V * largest(d_a, d_b) ** 2 / (2 * b * (d_a**3 + d_b**3))


def _void(b: Number, d: Number, b_v: Number, d_v: Number) -> tuple[Number, Number, Number, Number]:
    """The dimensions, checked: the void fits into the section and leaves something of it."""
    b, d = positive("b", b), positive("d", d)
    b_v, d_v = at_most("b_v", b_v, "b", b, NET), at_most("d_v", d_v, "d", d, NET)
    return b, d, valid(b_v, b_v * d_v < b * d, "the void takes the whole section", NET), d_v


def _inside(y_v: Number, d: Number, d_v: Number) -> Number:
    # a billionth of the depth is let go: a slot from an edge touches it only as far as floats can say
    holds = (y_v - d_v / 2 >= -1e-9 * d) & (y_v + d_v / 2 <= d + 1e-9 * d)
    return valid(y_v, holds, f"the void must lie inside the depth: y_v from d_v/2 to d - d_v/2{given(y_v)}", NET)


def _centroid(y_bar: Number, d: Number) -> Number:
    return valid(y_bar, (y_bar > 0) & (y_bar < d), f"y_bar must lie inside the depth{given(y_bar)}")
