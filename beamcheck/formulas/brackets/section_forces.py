"""Sections of a solid bracket: where they lie and what they carry.

A section is vertical, or it meets top edge and soffit at equal angles: it starts at x_0 on the top edge and ends at
(x_s, y_s) on the soffit, whose tangent rises by alpha_s. x runs out from the wall, y down from the top edge; M is
positive when it stretches the top edge, N is tension.

The same formulas serve the wall leg, cut by sections from the wall face to the soffit, once `wall_leg` has turned the
bracket over its corner; the load is then the push of the wall, and the 'top' is the face at the wall.
"""

from __future__ import annotations

from typing import Annotated

from ...calc.core import Number, cos, formula, sin
from ...calc.ranges import Finite, Positive, between

SECTION = "plane sections of a bracket"
DESIGN = "plane stress models of 14 brackets"

# slopes come out of an arc tangent, so a millionth of a degree is let go
SoffitSlope = Annotated[Number, between(0, 90, "deg", noise=1e-8)]
"""Slope of a soffit for which there is an equal-angle section."""


def wall_leg(x_s: Number, y_s: Number, alpha_s: Number, theta_g: Number) -> tuple[Number, Number, Number, Number]:
    """Soffit points, slopes and grain of the bracket turned over its corner: its wall leg becomes a top leg.

    Lengths in inches, angles in degrees; floats or arrays. Exchange of x and y, derived.
    """
    return y_s, x_s, 90 - alpha_s, 90 - theta_g


@formula(symbol="d", clause=SECTION, unit="in", known="derived")
def equal_angle_depth(y_s: Positive, alpha_s: SoffitSlope) -> Number:
    """Depth of a section that meets top edge and soffit at equal angles.

    >>> round(equal_angle_depth(7.354, 45.0), 3)
    7.96
    """
    return y_s / cos(alpha_s / 2)


@formula(symbol="N", clause=SECTION, unit="lbf", known="derived")
def section_axial_force(P_o: Finite, alpha_s: SoffitSlope) -> Number:
    """Force square to an equal-angle section; compression is negative.

    >>> round(section_axial_force(100.0, 60.0), 6)
    -50.0
    """
    return -P_o * sin(alpha_s / 2)


@formula(symbol="V", clause=SECTION, unit="lbf", known="derived")
def section_shear_force(P_o: Finite, alpha_s: SoffitSlope) -> Number:
    """Force along an equal-angle section.

    >>> round(section_shear_force(100.0, 60.0), 3)
    86.603
    """
    return P_o * cos(alpha_s / 2)
