"""A rectangle with corners lost at 45 degrees along its length: wane, rounded or chamfered arrises.

`n_b` and `n_t` corners (0, 1 or 2) are lost at the bottom and at the top, each with legs `c_w`. With one corner lost at
an edge the section also bends sideways a little; that is not in it, so count both where in doubt. Section moduli follow
from `net_modulus_bottom` and `net_modulus_top` of `net_section`.
"""

from __future__ import annotations

from ...calc.core import Number, formula, valid
from ...calc.ranges import between, given, positive

NET = "NDS 2018 3.1.2"


@formula(symbol="A_n", clause=NET, unit="in2")
def lost_corners_area(b: Number, d: Number, c_w: Number, n_b: Number, n_t: Number) -> Number:
    """Area left.

    Parameters
    ----------
    b, d : float or array
        Breadth and depth. [in]
    c_w : float or array
        Leg of the lost corner, along either face. [in]
    n_b, n_t : float or array
        Corners lost at the bottom and at the top, 0 to 2. [-]

    Returns
    -------
    float or array
        [in2]

    Raises
    ------
    OutOfRange
        If the corners overlap or their number is not 0 to 2.

    Notes
    -----
    Changed from the source: nothing. How known: derived.

    Examples
    --------
    >>> lost_corners_area(8.0, 8.0, 2.0, 2, 0)
    60.0
    """
    b, d, c_w, n_b, n_t = _corners(b, d, c_w, n_b, n_t)
    return b * d - (n_b + n_t) * (c_w**2 / 2)


@formula(symbol="y_bar", clause=NET, unit="in")
def lost_corners_centroid(b: Number, d: Number, c_w: Number, n_b: Number, n_t: Number) -> Number:
    """Height of the centroid above the bottom.

    Parameters
    ----------
    b, d : float or array
        Breadth and depth. [in]
    c_w : float or array
        Leg of the lost corner, along either face. [in]
    n_b, n_t : float or array
        Corners lost at the bottom and at the top, 0 to 2. [-]

    Returns
    -------
    float or array
        [in]

    Raises
    ------
    OutOfRange
        If the corners overlap or their number is not 0 to 2.

    Notes
    -----
    A lost corner is a right triangle with its centroid c_w/3 from either face.
    Changed from the source: nothing. How known: derived.

    Examples
    --------
    >>> round(lost_corners_centroid(8.0, 8.0, 2.0, 2, 0), 4)
    4.2222
    """
    b, d, c_w, n_b, n_t = _corners(b, d, c_w, n_b, n_t)
    moment = b * d * (d / 2) - c_w**2 / 2 * (n_b * (c_w / 3) + n_t * (d - c_w / 3))
    return moment / (b * d - (n_b + n_t) * (c_w**2 / 2))


@formula(symbol="I_net", clause=NET, unit="in4")
def lost_corners_inertia(b: Number, d: Number, c_w: Number, n_b: Number, n_t: Number, y_bar: Number) -> Number:
    """Second moment of area about the centroid.

    Parameters
    ----------
    b, d : float or array
        Breadth and depth. [in]
    c_w : float or array
        Leg of the lost corner, along either face. [in]
    n_b, n_t : float or array
        Corners lost at the bottom and at the top, 0 to 2. [-]
    y_bar : float or array
        Height of the centroid above the bottom, from `lost_corners_centroid`. [in]

    Returns
    -------
    float or array
        [in4]

    Raises
    ------
    OutOfRange
        If the corners overlap, their number is not 0 to 2, or the centroid is outside the depth.

    Notes
    -----
    Changed from the source: nothing. How known: derived.

    Examples
    --------
    >>> round(lost_corners_inertia(8.0, 8.0, 2.0, 2, 0, 38 / 9), 2)
    293.04
    """
    b, d, c_w, n_b, n_t = _corners(b, d, c_w, n_b, n_t)
    y_bar = valid(y_bar, (y_bar > 0) & (y_bar < d), f"y_bar must lie inside the depth{given(y_bar)}")
    whole = b * d**3 / 12 + b * d * (d / 2 - y_bar) ** 2
    own = (n_b + n_t) * (c_w**4 / 36)
    away = c_w**2 / 2 * (n_b * (y_bar - c_w / 3) ** 2 + n_t * (d - c_w / 3 - y_bar) ** 2)
    return whole - own - away


def _corners(b: Number, d: Number, c_w: Number, n_b: Number, n_t: Number) -> tuple[Number, ...]:
    b, d = positive("b", b), positive("d", d)
    holds = (c_w >= 0) & (2 * c_w <= b) & (2 * c_w <= d)
    c_w = valid(c_w, holds, f"c_w must be 0 or more and at most half of b and of d{given(c_w)}", NET)
    return b, d, c_w, between("n_b", n_b, 0, 2, NET), between("n_t", n_t, 0, 2, NET)
