"""General dowel equations: a fastener across a gap between the faces (technical report TR12 of the wood council).

q is what the wood (or steel) bears per inch of fastener, M_s and M_m the moment at which the fastener yields in the
side and in the main member. Each mode gives P; P over the mode's reduction term R_d is its value, in double shear twice
that for Is, IIIs and IV, once for Im, and no II and IIIm. At gap 0 they are NDS 2018 Table 12.3.1A.

The report prints P as the root (-B + sqrt(B^2 - 4 A C))/(2 A), C below 0. Here stands the same root as
2 (-C)/(B + sqrt(B^2 + 4 A (-C))), which does not lose digits when the gap is wide.
"""

from __future__ import annotations

from typing import Annotated

from ....calc.core import Number, formula, sqrt
from ....calc.ranges import NotNegative, Positive, at_most
from ..ranges import AnyDiameter

GAP = "TR12 general dowel equations"


@formula(symbol="q", clause=GAP, unit="lbf/in", known="memory")
def bearing_per_length(F_e: Positive, D: AnyDiameter) -> Number:
    """What a member bears per inch of fastener.

    D: the root where threads bear.

    >>> bearing_per_length(5600.0, 0.5)
    2800.0
    """
    return F_e * D


@formula(symbol="M_d", clause=GAP, unit="lbf*in", known="memory")
def dowel_yield_moment(F_yb: Positive, D: AnyDiameter) -> Number:
    """Moment at which a round fastener yields.

    D: at the place of the hinge; the root in the threads.

    >>> dowel_yield_moment(45000.0, 0.5)
    937.5
    """
    return F_yb * D**3 / 6


@formula(symbol="P_Im", clause=GAP, unit="lbf", known="memory")
def gap_mode_Im(q_m: Positive, l_m: Positive) -> Number:
    """Mode Im: the main member crushes.

    >>> gap_mode_Im(2800.0, 3.5)
    9800.0
    """
    return q_m * l_m


@formula(symbol="P_Is", clause=GAP, unit="lbf", known="memory")
def gap_mode_Is(q_s: Positive, l_s: Positive) -> Number:
    """Mode Is: the side member crushes, at one plane.

    >>> gap_mode_Is(2800.0, 1.5)
    4200.0
    """
    return q_s * l_s


@formula(symbol="P_II", clause=GAP, unit="lbf", known="memory; at gap 0 derived from NDS")
def gap_mode_II(q_m: Positive, q_s: Positive, l_m: Positive, l_s: Positive, g: NotNegative) -> Number:
    """Mode II: the stiff fastener tilts.

    >>> round(gap_mode_II(2800.0, 2800.0, 3.5, 1.5, 0.5), 1)
    2887.2
    """
    slope, arm = 1 / (4 * q_s) + 1 / (4 * q_m), l_s / 2 + g + l_m / 2
    return _root(slope, arm, q_s * l_s**2 / 4 + q_m * l_m**2 / 4)


@formula(symbol="P_IIIm", clause=GAP, unit="lbf", known="memory; at gap 0 derived from NDS")
def gap_mode_IIIm(q_m: Positive, q_s: Positive, l_m: Positive, g: NotNegative, M_s: Positive) -> Number:
    """Mode IIIm: hinge in the side member, the main member crushes.

    >>> round(gap_mode_IIIm(2800.0, 2800.0, 3.5, 0.5, 937.5), 1)
    3090.6
    """
    slope, arm = 1 / (2 * q_s) + 1 / (4 * q_m), g + l_m / 2
    return _root(slope, arm, M_s + q_m * l_m**2 / 4)


@formula(symbol="P_IIIs", clause=GAP, unit="lbf", known="memory; at gap 0 derived from NDS")
def gap_mode_IIIs(q_m: Positive, q_s: Positive, l_s: Positive, g: NotNegative, M_m: Positive) -> Number:
    """Mode IIIs: hinge in the main member, the side member crushes.

    >>> round(gap_mode_IIIs(2800.0, 2800.0, 1.5, 0.5, 937.5), 1)
    1516.9
    """
    slope, arm = 1 / (4 * q_s) + 1 / (2 * q_m), l_s / 2 + g
    return _root(slope, arm, q_s * l_s**2 / 4 + M_m)


@formula(symbol="P_IV", clause=GAP, unit="lbf", known="memory; at gap 0 derived from NDS")
def gap_mode_IV(q_m: Positive, q_s: Positive, g: NotNegative, M_m: Positive, M_s: Positive) -> Number:
    """Mode IV: a hinge in each member.

    >>> round(gap_mode_IV(2800.0, 2800.0, 0.5, 937.5, 937.5), 1)
    1695.8
    """
    return _root(1 / (2 * q_s) + 1 / (2 * q_m), g, M_s + M_m)


@formula(symbol="Z", clause=GAP, unit="lbf", known="memory")
def gap_value(P: Positive, R_d: Positive) -> Number:
    """Value of one mode at one shear plane (mode Im: in double shear also).

    >>> gap_value(3000.0, 4.0)
    750.0
    """
    return P / R_d


@formula(symbol="Z", clause=GAP, unit="lbf", known="memory")
def gap_value_two_planes(P: Positive, R_d: Positive) -> Number:
    """Value of mode Is, IIIs or IV in two shear planes with the same gap at both.

    With unlike gaps take the larger one for both (judgment).

    >>> gap_value_two_planes(3000.0, 4.0)
    1500.0
    """
    return 2 * P / R_d


@formula(symbol="g", clause="geometry", unit="in", known="derived")
def slot_gap(w_slot: Positive, t: Annotated[Number, at_most("w_slot")]) -> Number:
    """Widest gap beside a plate in a wider slot.

    Nothing keeps the plate in the middle: held to one side, the other side has it all.

    >>> slot_gap(0.375, 0.25)
    0.125
    """
    return w_slot - t


@formula(symbol="g_max", clause="common practice", unit="in", known="practice")
def widest_gap(D: AnyDiameter) -> Number:
    """Gap beyond which the reduction terms, set for closed joints, are no longer trusted.

    Judgment of the collected notes, not of the report: wider is an engineer's case.

    >>> widest_gap(0.5)
    1.0
    """
    return 2 * D


def _root(A: Number, B: Number, minus_C: Number) -> Number:
    """The positive root of A P^2 + B P = -C."""
    return 2 * minus_C / (B + sqrt(B**2 + 4 * A * minus_C))
