"""Straight pull on screws and nails, NDS 2018 12.2, and pull with shear, 12.4.

W is per inch of thread (lag screw, wood screw, ring shank) or of nail in the member that holds, from side grain. From
end grain a lag screw holds 0.75 of it, wood screws and nails nothing (12.2.1, 12.2.2, 12.2.3). Bolts have no W.
"""

from __future__ import annotations

import math

from ...calc.core import Number, cos, formula, sin, sqrt, valid, where
from ...calc.ranges import between, carried, not_negative, positive
from .ranges import gravity

LAG, SCREW, NAIL, HEAD = "NDS 2018 12.2.1", "NDS 2018 12.2.2", "NDS 2018 12.2.3", "NDS 2018 12.2.5"
BOTH, BOTH_NAIL = "NDS 2018 12.4.1", "NDS 2018 12.4.2"


@formula(symbol="W_w", clause=LAG, unit="lbf/in")
def withdrawal_lag(G: Number, D: Number) -> Number:
    """Withdrawal design value of a lag screw, per inch of thread without the tip.

    Parameters
    ----------
    G : float or array
        Specific gravity of the member that holds, 0.31 to 0.73. [-]
    D : float or array
        Nominal diameter, 0.25 to 1.25. [in]

    Returns
    -------
    float or array
        [lbf/in]

    Raises
    ------
    OutOfRange
        If G or D is out of range.

    Notes
    -----
    Changed from the source: nothing. How known: read.

    Examples
    --------
    >>> round(withdrawal_lag(0.50, 0.5), 1)
    378.4
    """
    return 1800 * gravity(G) ** 1.5 * _diameter(D, 0.25, 1.25, LAG) ** 0.75


@formula(symbol="W_w", clause=SCREW, unit="lbf/in")
def withdrawal_wood_screw(G: Number, D: Number) -> Number:
    """Withdrawal design value of a wood screw, per inch of thread.

    Parameters
    ----------
    G : float or array
        Specific gravity of the member that holds, 0.31 to 0.73. [-]
    D : float or array
        Nominal diameter, 0.138 to 0.372. [in]

    Returns
    -------
    float or array
        [lbf/in]

    Raises
    ------
    OutOfRange
        If G or D is out of range.

    Notes
    -----
    No. 6 to No. 24, cut or rolled thread. Changed from the source: nothing. How known: read.

    Examples
    --------
    >>> round(withdrawal_wood_screw(0.50, 0.19), 1)
    135.4
    """
    return 2850 * gravity(G) ** 2 * _diameter(D, 0.138, 0.372, SCREW)


@formula(symbol="W_w", clause=NAIL, unit="lbf/in")
def withdrawal_nail(G: Number, D: Number) -> Number:
    """Withdrawal design value of a nail or spike with a smooth bright shank, per inch in the member.

    Parameters
    ----------
    G : float or array
        Specific gravity of the member that holds, 0.31 to 0.73. [-]
    D : float or array
        Nominal diameter, 0.092 to 0.375. [in]

    Returns
    -------
    float or array
        [lbf/in]

    Raises
    ------
    OutOfRange
        If G or D is out of range.

    Notes
    -----
    Changed from the source: nothing. How known: read.

    Examples
    --------
    >>> round(withdrawal_nail(0.50, 0.162), 1)
    39.5
    """
    return 1380 * gravity(G) ** 2.5 * _diameter(D, 0.092, 0.375, NAIL)


@formula(symbol="W_w", clause=NAIL, unit="lbf/in")
def withdrawal_stainless_nail(G: Number, D: Number) -> Number:
    """Withdrawal design value of a smooth stainless steel nail, per inch in the member.

    Parameters
    ----------
    G : float or array
        Specific gravity of the member that holds, 0.31 to 0.73. [-]
    D : float or array
        Nominal diameter, 0.092 to 0.375. [in]

    Returns
    -------
    float or array
        [lbf/in]

    Raises
    ------
    OutOfRange
        If G or D is out of range.

    Notes
    -----
    Changed from the source: the diameters of smooth nails taken as the range. Changed from the source: nothing. How
    known: read.

    Examples
    --------
    >>> round(withdrawal_stainless_nail(0.50, 0.162), 1)
    26.6
    """
    return 465 * gravity(G) ** 1.5 * _diameter(D, 0.092, 0.375, NAIL)


@formula(symbol="W_w", clause=NAIL, unit="lbf/in")
def withdrawal_ring_shank(G: Number, D: Number) -> Number:
    """Withdrawal design value of a roof sheathing or post-frame ring shank nail, per inch of ring shank.

    Parameters
    ----------
    G : float or array
        Specific gravity of the member that holds, 0.31 to 0.73. [-]
    D : float or array
        Nominal diameter, 0.092 to 0.375. [in]

    Returns
    -------
    float or array
        [lbf/in]

    Raises
    ------
    OutOfRange
        If G or D is out of range.

    Notes
    -----
    Nails to ASTM F1667. Changed from the source: the diameters of smooth nails taken as the range. Changed from the
    source: nothing. How known: read; that it is per inch of ring shank, memory.

    Examples
    --------
    >>> round(withdrawal_ring_shank(0.50, 0.177), 1)
    79.6
    """
    return 1800 * gravity(G) ** 2 * _diameter(D, 0.092, 0.375, NAIL)


@formula(symbol="W_H", clause=HEAD, unit="lbf")
def head_pull_through(G: Number, D_H: Number, t_s: Number) -> Number:
    """Load at which a round nail head pulls through the member under it, design value.

    Parameters
    ----------
    G : float or array
        Specific gravity of the member under the head, 0.31 to 0.73. [-]
    D_H : float or array
        Diameter of the head. [in]
    t_s : float or array
        Net thickness under the head. [in]

    Returns
    -------
    float or array
        [lbf]

    Raises
    ------
    OutOfRange
        If G is out of range or a length not positive.

    Notes
    -----
    For round heads of nails; not to be stretched to the heads of lag or wood screws. Changed from the source: nothing.
    How known: memory.

    Examples
    --------
    >>> round(head_pull_through(0.50, 0.344, 0.75), 1)
    139.8
    """
    G, D_H, t_s = gravity(G), positive("D_H", D_H, HEAD), positive("t_s", t_s, HEAD)
    thin = 690 * G**2 * t_s * (math.pi * D_H)
    return carried(where(t_s <= 2.5 * D_H, thin, 1725 * G**2 * D_H * (math.pi * D_H)), G, D_H, t_s)


@formula(symbol="W_p", clause="NDS 2018 12.2", unit="lbf")
def withdrawal_value(W_prime: Number, p_t: Number) -> Number:
    """Withdrawal that one fastener holds.

    Parameters
    ----------
    W_prime : float or array
        Adjusted withdrawal design value. [lbf/in]
    p_t : float or array
        Thread, or nail, that holds. [in]

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
    The pull on one fastener is limited also by head or washer and by the steel. Changed from the source: nothing. How
    known: read.

    Examples
    --------
    >>> withdrawal_value(378.0, 3.0)
    1134.0
    """
    return positive("W_prime", W_prime) * positive("p_t", p_t)


@formula(symbol="Z_alpha_prime", clause=f"{BOTH} (eq. 12.4-1)", unit="lbf")
def lateral_and_withdrawal_screw(W_p: Number, Z_prime: Number, alpha: Number) -> Number:
    """What a lag screw or wood screw carries under a load at an angle to the surface.

    Parameters
    ----------
    W_p : float or array
        What holds along the axis: adjusted withdrawal, or head, washer or steel where they hold less. [lbf]
    Z_prime : float or array
        Adjusted lateral design value. [lbf]
    alpha : float or array
        Angle between the wood surface and the load: 0 pure shear, 90 straight pull. [deg]

    Returns
    -------
    float or array
        [lbf]

    Raises
    ------
    OutOfRange
        If a value is not positive or alpha not 0 to 90.

    Notes
    -----
    Changed from the source: nothing. How known: read.

    Examples
    --------
    >>> round(lateral_and_withdrawal_screw(1000.0, 400.0, 45.0), 1)
    571.4
    """
    W_p, Z_prime, alpha = (
        positive("W_p", W_p, BOTH),
        positive("Z_prime", Z_prime, BOTH),
        between("alpha", alpha, 0, 90, BOTH),
    )
    return W_p * Z_prime / (W_p * cos(alpha) ** 2 + Z_prime * sin(alpha) ** 2)


@formula(symbol="Z_alpha_prime", clause=f"{BOTH_NAIL} (eq. 12.4-2)", unit="lbf")
def lateral_and_withdrawal_nail(W_p: Number, Z_prime: Number, alpha: Number) -> Number:
    """What a nail or spike carries under a load at an angle to the surface.

    Parameters
    ----------
    W_p : float or array
        What holds along the axis: adjusted withdrawal, or head, washer or steel where they hold less. [lbf]
    Z_prime : float or array
        Adjusted lateral design value. [lbf]
    alpha : float or array
        Angle between the wood surface and the load: 0 pure shear, 90 straight pull. [deg]

    Returns
    -------
    float or array
        [lbf]

    Raises
    ------
    OutOfRange
        If a value is not positive or alpha not 0 to 90.

    Notes
    -----
    Changed from the source: nothing. How known: read.

    Examples
    --------
    >>> round(lateral_and_withdrawal_nail(100.0, 140.0, 45.0), 1)
    82.5
    """
    W_p, Z_prime = positive("W_p", W_p, BOTH_NAIL), positive("Z_prime", Z_prime, BOTH_NAIL)
    alpha = between("alpha", alpha, 0, 90, BOTH_NAIL)
    return W_p * Z_prime / (W_p * cos(alpha) + Z_prime * sin(alpha))


@formula(symbol="U", clause=f"{BOTH} (eq. 12.4-1)", unit="")
def shear_and_pull_screw(V: Number, T: Number, Z_prime: Number, W_p: Number) -> Number:
    """Share of what a lag screw or wood screw carries under shear and pull together.

    Parameters
    ----------
    V, T : float or array
        Shear and pull on the fastener, without sign. [lbf]
    Z_prime : float or array
        Adjusted lateral design value. [lbf]
    W_p : float or array
        What holds along the axis: adjusted withdrawal, or head, washer or steel where they hold less. [lbf]

    Returns
    -------
    float or array
        Up to 1 is allowed. [-]

    Raises
    ------
    OutOfRange
        If a load is negative, both are 0, or a strength is not positive.

    Notes
    -----
    The load over eq. 12.4-1, with cos = V/load and sin = T/load put in. Changed from the source: only the form. How
    known: derived.

    Examples
    --------
    >>> round(shear_and_pull_screw(200.0, 300.0, 400.0, 1000.0), 4)
    0.527
    """
    V, T = not_negative("V", V, BOTH), not_negative("T", T, BOTH)
    V = valid(V, V + T > 0, "V and T are both 0: there is no load to check", BOTH)
    return (V**2 / positive("Z_prime", Z_prime, BOTH) + T**2 / positive("W_p", W_p, BOTH)) / sqrt(V**2 + T**2)


@formula(symbol="U", clause=f"{BOTH_NAIL} (eq. 12.4-2)", unit="")
def shear_and_pull_nail(V: Number, T: Number, Z_prime: Number, W_p: Number) -> Number:
    """Share of what a nail or spike carries under shear and pull together.

    Parameters
    ----------
    V, T : float or array
        Shear and pull on the fastener, without sign. [lbf]
    Z_prime : float or array
        Adjusted lateral design value. [lbf]
    W_p : float or array
        What holds along the axis: adjusted withdrawal, or head, washer or steel where they hold less. [lbf]

    Returns
    -------
    float or array
        Up to 1 is allowed. [-]

    Raises
    ------
    OutOfRange
        If a load is negative or a strength is not positive.

    Notes
    -----
    The load over eq. 12.4-2, with cos = V/load and sin = T/load put in. Changed from the source: only the form. How
    known: derived.

    Examples
    --------
    >>> round(shear_and_pull_nail(50.0, 30.0, 140.0, 100.0), 4)
    0.6571
    """
    sheared = not_negative("V", V, BOTH_NAIL) / positive("Z_prime", Z_prime, BOTH_NAIL)
    return sheared + not_negative("T", T, BOTH_NAIL) / positive("W_p", W_p, BOTH_NAIL)


def _diameter(D: Number, low: float, high: float, clause: str) -> Number:
    return between("D", D, low, high, clause, "in")
