"""Straight pull on screws and nails, NDS 2018 12.2, and pull with shear, 12.4.

W is per inch of thread (lag screw, wood screw) or of nail in the member that holds, from side grain; G is of that
member, D nominal. From end grain a lag screw holds 0.75 of it, wood screws and nails nothing (12.2.1, 12.2.2, 12.2.3).
Bolts have no W.
"""

from __future__ import annotations

import math
from typing import Annotated

from ...calc.core import Number, formula, sqrt, valid, where
from ...calc.ranges import NotNegative, Positive, between
from .ranges import Gravity

NAIL = "NDS 2018 12.2.3"
BOTH, BOTH_NAIL = "NDS 2018 12.4.1", "NDS 2018 12.4.2"

NailDiameter = Annotated[Number, between(0.092, 0.375, "in")]


@formula(symbol="W_w", clause="NDS 2018 12.2.1", unit="lbf/in", known="memory; reproduces published tables")
def withdrawal_lag(G: Gravity, D: Annotated[Number, between(0.25, 1.25, "in")]) -> Number:
    """Withdrawal design value of a lag screw, per inch of thread without the tip.

    >>> round(withdrawal_lag(0.50, 0.5), 1)
    378.4
    """
    return 1800 * G**1.5 * D**0.75


@formula(symbol="W_w", clause="NDS 2018 12.2.2", unit="lbf/in", known="memory; reproduces published tables")
def withdrawal_wood_screw(G: Gravity, D: Annotated[Number, between(0.138, 0.372, "in")]) -> Number:
    """Withdrawal design value of a wood screw, per inch of thread. No. 6 to No. 24, cut or rolled thread.

    >>> round(withdrawal_wood_screw(0.50, 0.19), 1)
    135.4
    """
    return 2850 * G**2 * D


@formula(symbol="W_w", clause=NAIL, unit="lbf/in", known="memory; reproduces published tables")
def withdrawal_nail(G: Gravity, D: NailDiameter) -> Number:
    """Withdrawal design value of a nail or spike with a smooth bright shank, per inch in the member.

    >>> round(withdrawal_nail(0.50, 0.162), 1)
    39.5
    """
    return 1380 * G**2.5 * D


@formula(symbol="W_w", clause=NAIL, unit="lbf/in", known="memory")
def withdrawal_stainless_nail(G: Gravity, D: NailDiameter) -> Number:
    """Withdrawal design value of a smooth stainless steel nail, per inch in the member.

    Changed from the source: the diameters of smooth nails taken as the range.

    >>> round(withdrawal_stainless_nail(0.50, 0.162), 1)
    26.6
    """
    return 465 * G**1.5 * D


@formula(symbol="W_H", clause="NDS 2018 12.2.5", unit="lbf", known="memory")
def head_pull_through(G: Gravity, D_H: Positive, t_s: Positive) -> Number:
    """Load at which a round nail head pulls through the member under it, design value.

    For round heads of nails. For the heads and washers of screws and bolts it is no value, only a limit beside bearing.
    G: of the member under the head.
    t_s: the net thickness under the head.

    >>> round(head_pull_through(0.50, 0.344, 0.75), 1)
    139.8
    """
    thin = 690 * G**2 * t_s * (math.pi * D_H)
    return where(t_s <= 2.5 * D_H, thin, 1725 * G**2 * D_H * (math.pi * D_H))


@formula(symbol="W_p", clause="NDS 2018 12.2", unit="lbf", known="memory")
def withdrawal_value(W_prime: Positive, p_t: Positive) -> Number:
    """Withdrawal that one fastener holds. The pull on one fastener is limited also by head or washer and by the steel.

    >>> withdrawal_value(378.0, 3.0)
    1134.0
    """
    return W_prime * p_t


@formula(symbol="U", clause=f"{BOTH} (eq. 12.4-1)", unit="", known="derived")
def shear_and_pull_screw(V: NotNegative, T: NotNegative, Z_prime: Positive, W_p: Positive) -> Number:
    """Share of what a lag screw or wood screw carries under shear and pull together.

    The load over eq. 12.4-1, with cos = V/load and sin = T/load put in. Changed from the source: only the form.

    >>> round(shear_and_pull_screw(200.0, 300.0, 400.0, 1000.0), 4)
    0.527
    """
    V = valid(V, V + T > 0, "V and T are both 0: there is no load to check", BOTH)
    return (V**2 / Z_prime + T**2 / W_p) / sqrt(V**2 + T**2)


@formula(symbol="U", clause=f"{BOTH_NAIL} (eq. 12.4-2)", unit="", known="derived")
def shear_and_pull_nail(V: NotNegative, T: NotNegative, Z_prime: Positive, W_p: Positive) -> Number:
    """Share of what a nail or spike carries under shear and pull together.

    The load over eq. 12.4-2, with cos = V/load and sin = T/load put in. Changed from the source: only the form.

    >>> round(shear_and_pull_nail(50.0, 30.0, 140.0, 100.0), 4)
    0.6571
    """
    return V / Z_prime + T / W_p
