"""A rectangle with a void in one side of it (a housing, a blind mortise): lopsided, so that it also bends sideways.

The void begins at the side, and nothing keeps the piece from bending sideways: the stress is then the largest.
"""

from __future__ import annotations

from ...calc.core import Number, formula, largest, valid
from ...calc.ranges import at_most, given, not_negative, positive
from .net_section import net_area

NET = "NDS 2018 3.1.2"


@formula(symbol="I_y", clause=NET, unit="in4")
def side_void_inertia(b: Number, d: Number, b_v: Number, d_v: Number) -> Number:
    """Second moment of area for bending sideways, with a rectangular void that begins at one side.

    Parameters
    ----------
    b, d : float or array
        Breadth and depth. [in]
    b_v, d_v : float or array
        How far the void reaches in from the side, and its height along the depth. [in]

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
    About the upright axis through the net centroid. Changed from the source: nothing. How known: derived.

    Examples
    --------
    A housing 2 in deep and 3 in high in the side:

    >>> round(side_void_inertia(7.5, 11.5, 2.0, 3.0), 1)
    353.5
    """
    A_n = net_area(b, d, b_v, d_v)
    return b**3 * d / 12 - b_v**3 * d_v / 12 - b * d * (b_v * d_v) / A_n * ((b - b_v) / 2) ** 2


@formula(symbol="I_xy", clause=NET, unit="in4")
def side_void_product(b: Number, d: Number, b_v: Number, d_v: Number, y_v: Number) -> Number:
    """Product moment of area about the net centroid, without sign, with a rectangular void that begins at one side.

    Parameters
    ----------
    b, d : float or array
        Breadth and depth. [in]
    b_v, d_v : float or array
        How far the void reaches in from the side, and its height along the depth. [in]
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
    Zero for a void at mid-depth. Changed from the source: nothing. How known: derived.

    Examples
    --------
    >>> round(side_void_product(7.5, 11.5, 2.0, 3.0, 2.75), 2)
    53.2
    """
    A_n = net_area(b, d, b_v, d_v)
    holds = (y_v - d_v / 2 >= -1e-9 * d) & (y_v + d_v / 2 <= d + 1e-9 * d)
    y_v = valid(y_v, holds, f"the void must lie inside the depth: y_v from d_v/2 to d - d_v/2{given(y_v)}", NET)
    return b * d * (b_v * d_v) / A_n * ((b - b_v) / 2) * abs(y_v - d / 2)


@formula(symbol="S_net", clause=NET, unit="in3")
def side_void_modulus(
    I_net: Number, I_y: Number, I_xy: Number, b: Number, d: Number, b_v: Number, d_v: Number, y_bar: Number
) -> Number:  # fmt: skip
    """Section modulus for the stress in the worst corner, with a rectangular void that begins at one side.

    Parameters
    ----------
    I_net, I_y, I_xy : float or array
        Net second moments of area about the level and the upright axis, and their product moment. [in4]
    b, d : float or array
        Breadth and depth. [in]
    b_v, d_v : float or array
        How far the void reaches in from the side, and its height along the depth. [in]
    y_bar : float or array
        Height of the net centroid above the bottom, from `net_centroid`. [in]

    Returns
    -------
    float or array
        [in3]

    Raises
    ------
    OutOfRange
        If the void does not fit into the section, or the moments of area are not those of one section.

    Notes
    -----
    f = M (y I_y + x I_xy)/(I_x I_y - I_xy^2), in the corner that is farthest from the centroid both ways: the void has
    pushed the centroid away from itself both ways, and the two parts have the same sign there.
    Changed from the source: NDS asks for the net section and gives no formula. How known: derived.

    Examples
    --------
    >>> round(side_void_modulus(888.01, 353.53, 53.2, 7.5, 11.5, 2.0, 3.0, 5.9743), 1)
    134.0
    """
    I_net, I_y, I_xy = positive("I_net", I_net), positive("I_y", I_y), not_negative("I_xy", I_xy)
    b, d, b_v, d_v = positive("b", b), positive("d", d), at_most("b_v", b_v, "b", b), at_most("d_v", d_v, "d", d)
    I_xy = valid(I_xy, I_xy**2 < I_net * I_y, f"I_xy must be less than the root of I_net I_y{given(I_xy)}", NET)
    y_bar = valid(y_bar, (y_bar > 0) & (y_bar < d), f"y_bar must lie inside the depth{given(y_bar)}", NET)
    b_v = valid(b_v, b_v * d_v < b * d, f"b_v d_v must leave something of b d{given(b_v)}", NET)
    edge = largest(y_bar, d - y_bar)
    side = b / 2 + b_v * d_v * (b - b_v) / (2 * (b * d - b_v * d_v))
    return (I_net * I_y - I_xy**2) / (edge * I_y + side * I_xy)
