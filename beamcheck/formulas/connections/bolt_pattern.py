"""What a group of fasteners hands to each: off-centre load in its plane, and a moment that pulls it off the wall.

In the plane the elastic vector method: the load spread evenly, the moment in proportion to the distance from the
centroid. Plain functions prepare what is summed over the fasteners; the last axis of their arrays runs over these.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

import numpy as np
from numpy.typing import NDArray

from ...calc.core import Number, formula, sqrt, valid
from ...calc.ranges import given, not_negative, positive
from ...errors import OutOfRange
from .ranges import finite

VECTOR = "elastic vector method (statics; NDS 2018 11.1.3 asks for it)"
WALL = "statics"


Points = Sequence[float] | NDArray[Any]


def about_centroid(x: Points, y: Points) -> tuple[NDArray[Any], NDArray[Any]]:
    """Places of the fasteners as seen from their centroid.

    Parameters
    ----------
    x, y : array
        Places, in. The last axis runs over the fasteners.

    Raises
    ------
    OutOfRange
        If there is no fastener, or another number of x than of y.
    """
    xs, ys = np.asarray(x, dtype=float), np.asarray(y, dtype=float)
    if xs.ndim == 0 or xs.shape != ys.shape or xs.shape[-1] == 0:
        raise OutOfRange("a group of fasteners needs one x and one y for each fastener", VECTOR)
    return xs - xs.mean(axis=-1, keepdims=True), ys - ys.mean(axis=-1, keepdims=True)


def polar_sum(x_i: NDArray[Any], y_i: NDArray[Any]) -> Number:
    """I_p, in2: the sum of the squared distances from the centroid. Arguments as `about_centroid` gives them."""
    return (x_i**2 + y_i**2).sum(axis=-1)


def height_sum(n_row: Points, h_i: Points) -> Number:
    """I_h, in2: the sum over the rows of number of fasteners times height above the heel (in) squared."""
    return (np.asarray(n_row, dtype=float) * np.asarray(h_i, dtype=float) ** 2).sum(axis=-1)


def angle_to_grain(P_xi: Number, P_yi: Number, grain: float) -> NDArray[Any]:
    """Angle between each fastener's force and the grain, 0 to 90 deg; `grain` is the grain's angle to the x axis, deg.

    NaN where there is no force: it has no direction.
    """
    turned = np.degrees(np.arctan2(P_yi, P_xi)) - grain
    angle = np.abs((turned + 90.0) % 180.0 - 90.0)
    return np.where((np.asarray(P_xi) == 0) & (np.asarray(P_yi) == 0), np.nan, angle)


@formula(symbol="P_xi", clause=VECTOR, unit="lbf")
def fastener_force_x(P_x: Number, n: Number, M: Number, y_i: Number, I_p: Number) -> Number:
    """Force along x that one fastener takes.

    Parameters
    ----------
    P_x : float or array
        Load along x. [lbf]
    n : float or array
        Number of fasteners, all alike. [-]
    M : float or array
        Moment of the load about the centroid, turning x towards y. [lbf*in]
    y_i : float or array
        Place of the fastener along y from the centroid. [in]
    I_p : float or array
        Sum of the squared distances of all fasteners from the centroid. [in2]

    Returns
    -------
    float or array
        [lbf]

    Raises
    ------
    OutOfRange
        If n is below 1, I_p not positive, or a value not finite.

    Notes
    -----
    The curve of slip of steel bolts is not to be used to raise it. Changed from the source: nothing. How known:
    derived.

    Examples
    --------
    >>> fastener_force_x(0.0, 4.0, 4000.0, 2.0, 32.0)
    -250.0
    """
    return finite("P_x", P_x, VECTOR) / _count(n) - finite("M", M, VECTOR) * finite("y_i", y_i, VECTOR) / positive(
        "I_p", I_p, VECTOR
    )


@formula(symbol="P_yi", clause=VECTOR, unit="lbf")
def fastener_force_y(P_y: Number, n: Number, M: Number, x_i: Number, I_p: Number) -> Number:
    """Force along y that one fastener takes.

    Parameters
    ----------
    P_y : float or array
        Load along y. [lbf]
    n : float or array
        Number of fasteners, all alike. [-]
    M : float or array
        Moment of the load about the centroid, turning x towards y. [lbf*in]
    x_i : float or array
        Place of the fastener along x from the centroid. [in]
    I_p : float or array
        Sum of the squared distances of all fasteners from the centroid. [in2]

    Returns
    -------
    float or array
        [lbf]

    Raises
    ------
    OutOfRange
        If n is below 1, I_p not positive, or a value not finite.

    Notes
    -----
    Changed from the source: nothing. How known: derived.

    Examples
    --------
    >>> fastener_force_y(-1000.0, 4.0, -4000.0, 2.0, 32.0)
    -500.0
    """
    return finite("P_y", P_y, VECTOR) / _count(n) + finite("M", M, VECTOR) * finite("x_i", x_i, VECTOR) / positive(
        "I_p", I_p, VECTOR
    )


@formula(symbol="P_i", clause=VECTOR, unit="lbf")
def fastener_force(P_xi: Number, P_yi: Number) -> Number:
    """Size of the force on one fastener.

    Parameters
    ----------
    P_xi, P_yi : float or array
        Its parts along x and y. [lbf]

    Returns
    -------
    float or array
        [lbf]

    Raises
    ------
    OutOfRange
        If a part is not finite.

    Notes
    -----
    Changed from the source: nothing. How known: derived.

    Examples
    --------
    >>> fastener_force(300.0, -400.0)
    500.0
    """
    return sqrt(finite("P_xi", P_xi, VECTOR) ** 2 + finite("P_yi", P_yi, VECTOR) ** 2)


@formula(symbol="T_i", clause=WALL, unit="lbf")
def heel_pivot_tension(M: Number, h_i: Number, I_h: Number) -> Number:
    """Pull on one fastener of a stiff block or plate that turns about its heel on a hard wall.

    Parameters
    ----------
    M : float or array
        Moment that pulls the top off the wall. [lbf*in]
    h_i : float or array
        Height of the fastener above the heel. [in]
    I_h : float or array
        Sum of the squared heights of all fasteners. [in2]

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
    Not for brackets of wood: it understates the top row by up to 2.1 where the foot is thin; see `lever_arm_tension`.
    Changed from the source: nothing. How known: derived.

    Examples
    --------
    >>> round(heel_pivot_tension(3600.0, 8.0, 136.0), 1)
    211.8
    """
    return not_negative("M", M, WALL) * positive("h_i", h_i, WALL) / positive("I_h", I_h, WALL)


@formula(symbol="T_1", clause="lever-arm rule for brackets", unit="lbf")
def lever_arm_tension(M: Number, eta: Number, h_1: Number) -> Number:
    """Pull on the top row of a bracket's anchors, all of it on that row.

    Parameters
    ----------
    M : float or array
        Moment that pulls the top off the wall. [lbf*in]
    eta : float or array
        Share of the height that counts as lever arm, at most 0.9. [-]
    h_1 : float or array
        Height of the top row above the lower end of the bearing face. [in]

    Returns
    -------
    float or array
        [lbf]

    Raises
    ------
    OutOfRange
        If a value is not positive or eta over 0.9.

    Notes
    -----
    eta by kind of bracket in tables/bracket_lever_arms.csv, from 14 brackets modelled in plane stress. Pull on the
    bracket itself is to be added. Changed from the source: nothing. How known: derived.

    Examples
    --------
    >>> round(lever_arm_tension(3600.0, 0.7, 9.0), 1)
    571.4
    """
    eta = valid(eta, (eta > 0) & (eta <= 0.9), f"eta must be above 0 and at most 0.9{given(eta)}")
    return not_negative("M", M) / (eta * positive("h_1", h_1))


@formula(symbol="T_i", clause=WALL, unit="lbf")
def share_of_row(T_1: Number, n_row: Number) -> Number:
    """Pull on one fastener of a row.

    Parameters
    ----------
    T_1 : float or array
        Pull on the row. [lbf]
    n_row : float or array
        Number of fasteners in the row. [-]

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
    >>> share_of_row(571.4, 2.0)
    285.7
    """
    return not_negative("T_1", T_1, WALL) / positive("n_row", n_row, WALL)


def _count(n: Number) -> Number:
    return valid(n, (n >= 1) & (n < 1000), f"n must be 1 or more{given(n)}", VECTOR)
