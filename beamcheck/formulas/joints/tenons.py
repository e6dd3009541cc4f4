"""Mortise and tenon, housings. Each action has one path: what a housing carries is not added to what the tenon does.

Shear at a tenon without housing: `end_notch_tension_shear` with the tenon's thickness as b and d_n from the top of the
beam to the tenon's lower edge. Tear-out of the wood behind pegs: `row_tear_out`, the relish being the end distance.
"""

from __future__ import annotations

from ...calc.core import Number, formula
from ...calc.ranges import NotNegative, Positive


@formula(symbol="V", clause="NDS 2018 3.10.2", unit="lbf", known="memory")
def housing_capacity(F_c_perp_prime: Positive, b: Positive, l_h: Positive) -> Number:
    """Shear of a beam that its housing carries, by the beam's bearing across the grain.

    The post's end grain under it and the ledge in shear are checks of their own.
    b: of the beam in the housing, less the tenon's mortise where that is cut through the ledge.

    >>> housing_capacity(625.0, 7.5, 0.75)
    3515.625
    """
    return F_c_perp_prime * b * l_h


@formula(symbol="l_h", clause="geometry", unit="in", known="derived", reference=True)
def housing_after_shrinkage(l_h: Positive, C_w: Positive, dMC: NotNegative, b: Positive) -> Number:
    """Depth of a housing that is left when the post has dried: its face draws back by half of what it loses.

    l_h: as cut.
    dMC: that it loses after the joint is cut.
    b: width of the post across the joint.

    >>> round(housing_after_shrinkage(0.75, 0.00267, 12.0, 8.0), 4)
    0.6218
    """
    return l_h - C_w * dMC * b / 2
