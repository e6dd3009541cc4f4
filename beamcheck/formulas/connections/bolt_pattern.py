"""What a group of fasteners hands to each: off-center load in its plane, and a moment that pulls it off the wall.

In the plane the elastic vector method: the load spread evenly, the moment in proportion to the distance from the
centroid. Plain functions prepare what is summed over the fasteners; the last axis of their arrays runs over these.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import Annotated, Any

import numpy as np
from numpy.typing import NDArray

from ...calc.core import Number, formula, sqrt
from ...calc.ranges import Finite, NotNegative, Positive, at_most
from ...errors import OutOfRange
from .ranges import Count

VECTOR = "elastic vector method (statics; NDS 2018 11.1.3 asks for it)"

Points = Sequence[float] | NDArray[Any]


def about_centroid(x: Points, y: Points) -> tuple[NDArray[Any], NDArray[Any]]:
    """Places of the fasteners as seen from their centroid.

    `x`, `y`: places, in. The last axis runs over the fasteners. Raises OutOfRange if there is no fastener, or another
    number of x than of y.
    """
    xs, ys = np.asarray(x, dtype=float), np.asarray(y, dtype=float)
    if xs.ndim == 0 or xs.shape != ys.shape or xs.shape[-1] == 0:
        raise OutOfRange("a group of fasteners needs one x and one y for each fastener", VECTOR)
    return xs - xs.mean(axis=-1, keepdims=True), ys - ys.mean(axis=-1, keepdims=True)


def polar_sum(x_i: NDArray[Any], y_i: NDArray[Any]) -> Number:
    """I_p, in2: the sum of the squared distances from the centroid. Arguments as `about_centroid` gives them."""
    return (x_i**2 + y_i**2).sum(axis=-1)


def angle_to_grain(P_xi: Number, P_yi: Number, grain: float) -> NDArray[Any]:
    """Angle between each fastener's force and the grain, 0 to 90 deg; `grain` is the grain's angle to the x axis, deg.

    NaN where there is no force: it has no direction.
    """
    turned = np.degrees(np.arctan2(P_yi, P_xi)) - grain
    angle = np.abs((turned + 90.0) % 180.0 - 90.0)
    return np.where((np.asarray(P_xi) == 0) & (np.asarray(P_yi) == 0), np.nan, angle)


@formula(symbol="P_xi", clause=VECTOR, unit="lbf", known="derived")
def fastener_force_x(P_x: Finite, n: Count, M: Finite, y_i: Finite, I_p: Positive) -> Number:
    """Force along x that one fastener takes.

    The curve of slip of steel bolts is not to be used to raise it.
    n: fasteners, all alike.
    M: about the centroid, turning x towards y.

    >>> fastener_force_x(0.0, 4.0, 4000.0, 2.0, 32.0)
    -250.0
    """
    return P_x / n - M * y_i / I_p


@formula(symbol="P_yi", clause=VECTOR, unit="lbf", known="derived")
def fastener_force_y(P_y: Finite, n: Count, M: Finite, x_i: Finite, I_p: Positive) -> Number:
    """Force along y that one fastener takes.

    n: fasteners, all alike.
    M: about the centroid, turning x towards y.

    >>> fastener_force_y(-1000.0, 4.0, -4000.0, 2.0, 32.0)
    -500.0
    """
    return P_y / n + M * x_i / I_p


@formula(symbol="P_i", clause=VECTOR, unit="lbf", known="derived")
def fastener_force(P_xi: Finite, P_yi: Finite) -> Number:
    """Size of the force on one fastener.

    >>> fastener_force(300.0, -400.0)
    500.0
    """
    return sqrt(P_xi**2 + P_yi**2)


@formula(symbol="T_1", clause="lever-arm rule for brackets", unit="lbf", known="derived")
def lever_arm_tension(M: NotNegative, eta: Annotated[Number, at_most(0.9)], h_1: Positive) -> Number:
    """Pull on the top row of a bracket's anchors, all of it on that row.

    eta by kind of bracket in tables/bracket_lever_arms.csv, from 14 brackets modeled in plane stress. Pull on the
    bracket itself is to be added.
    M: pulls the top off the wall.

    >>> round(lever_arm_tension(3600.0, 0.7, 9.0), 1)
    571.4
    """
    return M / (eta * h_1)


@formula(symbol="T_i", clause="statics", unit="lbf", known="derived")
def share_of_row(T_1: NotNegative, n_row: Positive) -> Number:
    """Pull on one fastener of a row.

    n_row: fasteners in the row.

    >>> share_of_row(571.4, 2.0)
    285.7
    """
    return T_1 / n_row
