"""Prying on the leg of an angle, tee or base plate that is pulled (AISC Manual part 9, ASD form). From memory.

b_p and a_p are measured from the middle of the bolt, each turned by half the bolt's diameter toward the leg.
"""

from __future__ import annotations

from typing import Annotated

from ...calc.core import Number, formula, largest, smallest, sqrt, where
from ...calc.ranges import Finite, NotNegative, Positive, Reduction, below, more_than

MANUAL = "AISC Manual part 9"


@formula(symbol="p_b", clause=MANUAL, unit="in", known="memory")
def prying_length(s: Positive, b: Positive) -> Number:
    """Length of leg along the standing leg that goes with one bolt.

    s: from bolt to bolt; of a single one the length of the leg.
    b: from the bolt's middle to the standing leg: what is farther along it than that does not help.

    >>> prying_length(4.0, 1.5)
    3.0
    """
    return smallest(s, 2 * b)


@formula(symbol="b_p", clause=MANUAL, unit="in", known="memory")
def prying_arm(b: Annotated[Number, more_than("D / 2")], D: Positive) -> Number:
    """Arm of the pull.

    b: from the bolt's middle to the face (angle: to the middle) of the standing leg.

    >>> prying_arm(1.5, 0.625)
    1.1875
    """
    return b - D / 2


@formula(symbol="a_p", clause=MANUAL, unit="in", known="memory")
def prying_lever(a: Positive, b: Positive, D: Positive) -> Number:
    """Lever of the prying force.

    Against wood, which crushes under the edge, not more than D/2 + 1/2 in (judgment).
    a: from the bolt's middle to the edge of the leg; 1.25 b counts at most.
    b: from the bolt's middle to the standing leg.

    >>> prying_lever(1.25, 1.5, 0.625)
    1.5625
    """
    return smallest(a, 1.25 * b) + D / 2


@formula(symbol="delta_p", clause=MANUAL, unit="", known="memory")
def prying_net_share(d_h: Annotated[Number, below("p_b")], p_b: Positive) -> Number:
    """Share of the leg that is left in the line of bolts.

    >>> round(prying_net_share(0.6875, 3.0), 5)
    0.77083
    """
    return 1 - d_h / p_b


@formula(symbol="t_c", clause=MANUAL, unit="in", known="memory")
def prying_full_thickness(B: Positive, b_p: Positive, p_b: Positive, F_u: Positive) -> Number:
    """Thickness of leg at which a bolt reaches its full allowable pull without prying.

    B: of a bolt, lag screw in withdrawal, or anchor by its report: the least.

    >>> round(prying_full_thickness(6000.0, 1.1875, 3.0, 58000.0), 4)
    0.523
    """
    return sqrt(1.67 * 4 * B * b_p / (p_b * F_u))


@formula(symbol="alpha_p", clause=MANUAL, unit="", known="memory")
def prying_share(t_c: Positive, t: Positive, delta_p: Reduction, b_p: Positive, a_p: Positive) -> Number:
    """How much of the leg's bending the line of bolts takes at the limit: below 0 no prying, above 1 the leg yields.

    >>> round(prying_share(0.523, 0.375, 0.77083, 1.1875, 1.5625), 3)
    0.697
    """
    return ((t_c / t) ** 2 - 1) / (delta_p * (1 + b_p / a_p))


@formula(symbol="T_a", clause=MANUAL, unit="lbf", known="memory")
def pull_with_prying(B: Positive, t: Positive, t_c: Positive, delta_p: Reduction, alpha_p: Finite) -> Number:
    """Allowable pull at one bolt with prying.

    B: without it.

    >>> round(pull_with_prying(6000.0, 0.375, 0.52301, 0.77083, 0.69667), 0)
    4741.0
    """
    return where(alpha_p < 0, B, B * (t / t_c) ** 2 * (1 + delta_p * smallest(alpha_p, 1)))


@formula(symbol="t", clause=MANUAL, unit="in", known="memory")
def thickness_without_prying(T: NotNegative, b_p: Positive, p_b: Positive, F_u: Positive) -> Number:
    """Thickness of leg from which on prying may be left out.

    T: at one bolt.

    >>> round(thickness_without_prying(2500.0, 1.1875, 3.0, 58000.0), 4)
    0.3371
    """
    return sqrt(6.66 * T * b_p / (p_b * F_u))


@formula(symbol="Q_p", clause=MANUAL, unit="lbf", known="memory")
def prying_force(T: NotNegative, t: Positive, b_p: Positive, a_p: Positive, p_b: Positive, F_u: Positive) -> Number:
    """Force with which the edge of a leg presses on what it lies on, beside each bolt; the bolt is pulled by T + Q_p.

    T: at one bolt.

    The leg bends at the standing leg to its full moment first, p_b t^2/4 over F_u/1.67; what is left bends the line
    of bolts.

    >>> round(prying_force(4741.0, 0.375, 1.1875, 1.5625, 3.0, 58000.0), 0)
    1259.0
    """
    return largest(T * b_p - p_b * t**2 * F_u / 6.68, 0) / a_p
