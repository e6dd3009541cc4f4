"""Wood that moves across its grain with its moisture, and the room it needs. Along the grain it hardly moves."""

from __future__ import annotations

from typing import Annotated

from ...calc.core import Number, formula
from ...calc.ranges import NotNegative, Positive, at_most, between


@formula(symbol="Delta_w", clause="Wood Handbook ch. 13 (eq. 13-2)", unit="in", known="memory")
def cross_grain_movement(
    C_w: Annotated[Number, at_most(0.01)], dMC: Annotated[Number, between(0, 30, "points")], h: Positive
) -> Number:
    """Shrinkage or swelling of wood across its grain.

    The coefficient is that of 6 to 14 %. Wood that starts wetter moves less per point (eq. 13-3 divides by 3000/S - 30
    + M_i), so it is on the safe side there; wood that starts drier moves up to 5 % more. Above the fiber saturation
    point, some 30 %, nothing moves. Changed from the source: without sign, and up to 30 points.
    C_w: radial or tangential.
    h: dimension across the grain.
    Delta_w: without sign.

    A flat-sawn red oak board of 12 in, 5 points:

    >>> round(cross_grain_movement(0.00369, 5.0, 12.0), 3)
    0.221
    """
    return C_w * dMC * h


@formula(symbol="c_req", clause="practice", unit="in", known="derived")
def clearance_needed(c_min: NotNegative, Delta_w: NotNegative, Delta_hid: NotNegative) -> Number:
    """Room that a pocket or reveal needs around hidden hardware. They may all go the same way.

    >>> clearance_needed(0.125, 0.0625, 0.03125)
    0.21875
    """
    return c_min + Delta_w + Delta_hid
