"""Anchors of a bracket on a wall: how hard its load pulls on the top row, by three models.

The lever arm rule (`top_row_pull`) is the one to design with. The pivot about the heel and the stiff bracket on a
springy wall stand beside it: where the foot is thin they gave as little as half of what plane stress models with
one-sided contact did. Heights are measured upwards from the lower end of the bearing face; stiffnesses are those of
whole rows.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from ...calc.core import Number, formula, sqrt, valid
from ...calc.ranges import given, not_negative, positive
from ...errors import OutOfRange
from ..connections.bolt_pattern import heel_pivot_tension

ARM = "lever-arm rule for brackets"
ROCKING = "statics of a stiff bracket on a springy wall"
IN_SERIES = "springs in series"


@formula(symbol="T_1", clause=ARM, unit="lbf")
def top_row_pull(P: Number, x_L: Number, eta: Number, h_1: Number) -> Number:
    """Pull on the top row of a bracket's anchors, all of it on that row.

    Parameters
    ----------
    P : float or array
        Load, down. [lbf]
    x_L : float or array
        Its distance from the wall face. [in]
    eta : float or array
        Share of the height that counts as lever arm, at most 1. [-]
    h_1 : float or array
        Height of the top row above the lower end of the bearing face. [in]

    Returns
    -------
    float or array
        [lbf]

    Raises
    ------
    OutOfRange
        If a load or distance is negative, the height not positive, or eta not above 0 and at most 1.

    Notes
    -----
    eta by kind of bracket in tables/bracket_lever_arms.csv; 1 only for the upper bound of a bracket's stiffness. Pull
    on the bracket itself is to be added. Changed from the source: nothing. How known: derived.

    Examples
    --------
    >>> round(top_row_pull(100.0, 9.5, 0.45, 12.0), 3)
    175.926
    """
    return not_negative("P", P, ARM) * not_negative("x_L", x_L, ARM) / (_share(eta) * positive("h_1", h_1, ARM))


@formula(symbol="c_h", clause=ROCKING, unit="in")
def contact_height(k_wall: Number, t: Number, K_s: Number, K_h: Number) -> Number:
    """Height of the part of a stiff bracket's face that presses on a springy wall.

    Parameters
    ----------
    k_wall : float or array
        Pressure of the wall per inch that it gives. [lbf/in3]
    t : float or array
        Thickness of the bracket. [in]
    K_s : float or array
        Sum of the stiffnesses of the rows above the contact. [lbf/in]
    K_h : float or array
        Sum of those stiffnesses times the heights of the rows. [lbf]

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
    Root of k_wall t c^2/2 = K_h - K_s c: push and pull in balance. Changed from the source: nothing. How known:
    derived.

    Examples
    --------
    >>> round(contact_height(23000.0, 1.5, 10000.0, 100000.0), 4)
    2.1352
    """
    K_s, K_h = positive("K_s", K_s, ROCKING), positive("K_h", K_h, ROCKING)
    wall = positive("k_wall", k_wall, ROCKING) * positive("t", t, ROCKING)
    return 2 * K_h / (K_s + sqrt(K_s**2 + 2 * wall * K_h))


@formula(symbol="omega", clause=ROCKING, unit="")
def rocking_angle(P: Number, x_L: Number, K_c: Number, k_wall: Number, t: Number, c_h: Number) -> Number:
    """How far a stiff bracket turns on a springy wall, as a tangent.

    Parameters
    ----------
    P : float or array
        Load, down. [lbf]
    x_L : float or array
        Its distance from the wall face. [in]
    K_c : float or array
        Sum of the stiffnesses of the rows times the square of their heights above the contact. [lbf*in]
    k_wall : float or array
        Pressure of the wall per inch that it gives. [lbf/in3]
    t : float or array
        Thickness of the bracket. [in]
    c_h : float or array
        Height of the contact. [in]

    Returns
    -------
    float or array
        [-]

    Raises
    ------
    OutOfRange
        If the load or its distance is negative, or another value not positive.

    Notes
    -----
    Changed from the source: nothing. How known: derived.

    Examples
    --------
    >>> round(rocking_angle(100.0, 11.5, 618544.0, 23000.0, 1.5, 2.1352), 6)
    0.001574
    """
    wall = positive("k_wall", k_wall, ROCKING) * positive("t", t, ROCKING) * positive("c_h", c_h, ROCKING) ** 3 / 3
    return not_negative("P", P, ROCKING) * not_negative("x_L", x_L, ROCKING) / (positive("K_c", K_c, ROCKING) + wall)


@formula(symbol="T_i", clause=ROCKING, unit="lbf")
def rocking_row_pull(k_ax: Number, h_i: Number, c_h: Number, omega: Number) -> Number:
    """Pull on one row of anchors of a stiff bracket on a springy wall.

    Parameters
    ----------
    k_ax : float or array
        Stiffness of the row along its axis. [lbf/in]
    h_i : float or array
        Height of the row above the lower end of the bearing face. [in]
    c_h : float or array
        Height of the contact, at most h_i. [in]
    omega : float or array
        How far the bracket turns, as a tangent. [-]

    Returns
    -------
    float or array
        [lbf]

    Raises
    ------
    OutOfRange
        If a value is negative, or the row lies in the contact.

    Notes
    -----
    Changed from the source: nothing. How known: derived.

    Examples
    --------
    >>> round(rocking_row_pull(10000.0, 10.0, 2.1352, 0.001574), 2)
    123.79
    """
    above = positive("h_i", h_i, ROCKING) - not_negative("c_h", c_h, ROCKING)
    above = valid(
        above, above >= 0, f"h_i must be at least c_h: the row lies where the wall presses{given(h_i)}", ROCKING
    )
    return positive("k_ax", k_ax, ROCKING) * above * not_negative("omega", omega, ROCKING)


@formula(symbol="k_n", clause=IN_SERIES, unit="lbf/in")
def bracket_stiffness(k_body: Number, x_L: Number, eta: Number, h_1: Number, k_ax: Number, k_lat: Number) -> Number:
    """Stiffness of a bracket under a load, with the give of its anchors.

    Parameters
    ----------
    k_body : float or array
        Stiffness of the bracket itself. [lbf/in]
    x_L : float or array
        Distance of the load from the wall face. [in]
    eta : float or array
        Share of the height that counts as lever arm, at most 1; 1 for the upper bound. [-]
    h_1 : float or array
        Height of the top row above the lower end of the bearing face. [in]
    k_ax : float or array
        Stiffness of the top row along its axis. [lbf/in]
    k_lat : float or array
        Stiffness of all rows together against sliding down. [lbf/in]

    Returns
    -------
    float or array
        [lbf/in]

    Raises
    ------
    OutOfRange
        If the distance is negative, eta not above 0 and at most 1, or another value not positive.

    Notes
    -----
    With eta = 1 and k_body of `fan_stiffness` plane stress models gave 0.36 to 0.87 of it (upper value); with the eta
    of the lever arm and over 1.6 they were never below it (lower value). Changed from the source: nothing. How known:
    derived.

    Examples
    --------
    >>> round(bracket_stiffness(38218.0, 11.5, 1.0, 10.0, 10000.0, 60000.0))
    5712
    """
    turned = (not_negative("x_L", x_L, IN_SERIES) / (_share(eta) * positive("h_1", h_1, IN_SERIES))) ** 2
    body = 1 / positive("k_body", k_body, IN_SERIES) + turned / positive("k_ax", k_ax, IN_SERIES)
    return 1 / (body + 1 / positive("k_lat", k_lat, IN_SERIES))


@dataclass(frozen=True)
class Rocking:
    """Rows of anchors of a stiff bracket on a springy wall.

    `pulls` (lbf) in the order of the rows, 0 for those where the wall presses; `c_h` (in) and `omega` as in the
    formulas; the push of the wall is the sum of the pulls, at a third of `c_h` above the lower end.
    """

    pulls: tuple[float, ...]
    c_h: float
    omega: float


def pivot_rows(P: float, x_L: float, heights: Sequence[float]) -> tuple[float, ...]:
    """Pull (lbf) on each row when the bracket turns about its heel on a hard wall, rows of equal stiffness.

    P (lbf) at x_L (in) from the wall; heights (in) of the rows. Raises OutOfRange. Statics, derived.
    """
    _rows(heights)
    squares = sum(height**2 for height in heights)
    moment = not_negative("P", P) * not_negative("x_L", x_L)
    return tuple(heel_pivot_tension(M=moment, h_i=height, I_h=squares) for height in heights)


def rocking_rows(
    P: float, x_L: float, heights: Sequence[float], stiffnesses: Sequence[float], k_wall: float, t: float
) -> Rocking:
    """Pull on each row of a stiff bracket on a springy wall that presses but does not pull.

    P (lbf) at x_L (in) from the wall; heights (in) of the rows and their axial stiffnesses (lbf/in); k_wall (lbf/in3)
    pressure of the wall per inch; t (in) thickness. Rows that come to lie in the contact are left out and the
    contact is sought again. Raises OutOfRange. Statics, derived.
    """
    _rows(heights)
    if len(stiffnesses) != len(heights):
        raise OutOfRange(f"each row needs a stiffness: {len(heights)} heights, {len(stiffnesses)} stiffnesses")
    h = np.array(heights, dtype=float)
    k = np.array([positive("k_ax", each, ROCKING) for each in stiffnesses], dtype=float)
    above = np.full(len(h), True)
    while True:  # the contact only grows when a row is left out, so no row comes back
        c_h = float(contact_height(k_wall, t, K_s=float(k[above].sum()), K_h=float((k * h)[above].sum())))
        dropped = above & (h <= c_h)
        if not dropped.any():
            break
        above &= ~dropped
    omega = rocking_angle(P, x_L, float((k * (h - c_h) ** 2)[above].sum()), k_wall, t, c_h)
    pulls = (float(rocking_row_pull(k[i], h[i], c_h, omega)) if above[i] else 0.0 for i in range(len(h)))
    return Rocking(tuple(pulls), c_h, float(omega))


def _rows(heights: Sequence[float]) -> None:
    if not heights:
        raise OutOfRange("a bracket needs at least one row of anchors")
    for height in heights:
        positive("h_i", height, ROCKING)


def _share(eta: Number) -> Number:
    return valid(eta, (eta > 0) & (eta <= 1), f"eta must be above 0 and at most 1{given(eta)}", ARM)
