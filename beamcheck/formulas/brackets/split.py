"""The split test of a wooden bracket: what its fasteners bring to it, and what its answer allows.

The load itself comes from a linear programme (`analysis/splits`); here is what a pocket calculator can redo.
"""

from __future__ import annotations

from typing import Annotated

from ...calc.core import Number, cos, formula, sin
from ...calc.ranges import NotNegative, Positive, at_least, between

SPLIT = "statics of strips along the grain"
MODE_IV = "NDS 2018 12.3.1, mode IV"


@formula(symbol="r_h", clause=SPLIT, unit="in", known="derived")
def head_reach(
    l_hd: NotNegative, x_Q: NotNegative, y_h: NotNegative, theta_g: Annotated[Number, between(-90, 270, "deg")]
) -> Number:
    """How far the head of a fastener stands outside the grain line through the load.

    Below zero a check between the head and the load leaves the part outside without a hold.
    l_hd: from the wall to the seat of the head.
    y_h: of the fastener, down from the top edge.

    >>> round(head_reach(9.95, 8.0, 2.5, 59.0), 3)
    2.959
    """
    return (l_hd - x_Q) * sin(theta_g) + y_h * cos(theta_g)


@formula(symbol="q_d", clause="NDS 2018 12.3.1", unit="lbf/in", known="derived")
def dowel_bearing_force(F_e: Positive, D: Positive, R_d: Positive, C_D: Positive) -> Number:
    """Sideways force per length that a dowel bears in wood, reduced as in the yield modes.

    >>> round(dowel_bearing_force(3650.0, 0.375, 5.0, 1.0), 1)
    273.8
    """
    return C_D * F_e * D / R_d


@formula(symbol="M_dw", clause=MODE_IV, unit="lbf*in", known="derived")
def dowel_moment(F_yb: Positive, D_r: Positive, R_d: Positive, C_D: Positive) -> Number:
    """Bending moment of a dowel, reduced as in the yield modes; its root, since thread may lie at a check.

    >>> round(dowel_moment(45000.0, 0.265, 4.0, 1.0), 1)
    34.9
    """
    return C_D * F_yb * D_r**3 / (6 * R_d)


@formula(symbol="P_eq", clause=SPLIT, unit="lbf", known="derived")
def load_with_own_weight(P: NotNegative, W: NotNegative, x_c: NotNegative, x_Q: Positive) -> Number:
    """The load with its own weight, taken to its place: same moment about the wall face.

    x_c: middle of its weight, out from the wall.

    >>> load_with_own_weight(100.0, 6.0, 4.0, 8.0)
    103.0
    """
    return P + W * x_c / x_Q


@formula(symbol="P_all", clause=SPLIT, unit="lbf", known="derived")
def load_allowed(P_s: NotNegative, k_s: Annotated[Number, at_least(1)]) -> Number:
    """Load that a bracket is allowed by the split test.

    P_s: the least over all lines and directions of the grain.
    k_s: for fasteners that share their forces by stiffness, which the statics leaves open.

    >>> load_allowed(385.0, 1.25)
    308.0
    """
    return P_s / k_s


@formula(symbol="SL", clause="duration of load (memory)", unit="%", known="memory")
def strength_over_time(t_u: Positive) -> Number:
    """Percent of the strength in a short test that wood has under a load that stays for some time.

    Ten years have 62 percent of five minutes in tension across the grain as well.
    t_u: how long it stays.

    >>> round(strength_over_time(24.0), 1)
    82.3
    """
    return 18.3 + 108.4 * (3600 * t_u) ** -0.0464


@formula(symbol="V_dw", clause=MODE_IV, unit="lbf", known="derived", reference=True)
def dowel_across_a_gap(q_d: Positive, M_dw: Positive, g_dw: NotNegative) -> Number:
    """Sideways force that a dowel passes from wood to wood, hinged in both; the root of V^2/(2 q) + V g/2 = M.

    The split test finds it by its own unknowns along the dowel.
    g_dw: between the two.

    >>> round(dowel_across_a_gap(270.0, 35.0, 0.0), 1)
    137.5
    """
    return q_d * (((g_dw / 2) ** 2 + 2 * M_dw / q_d) ** 0.5 - g_dw / 2)
