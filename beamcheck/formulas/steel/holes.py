"""Holes in steel plates: deductions, bearing and tear-out of bolts (AISC 360-16, ASD: the values are R_n/Omega).

Steel takes no C_D. Bearing and tear-out: the lesser for each bolt, then the sum over the bolts.
"""

from __future__ import annotations

from typing import Annotated

from ...calc.core import Number, formula, where
from ...calc.ranges import Positive, at_most, inside, more_than

HOLE = "AISC 360-16 J3.10"


@formula(symbol="d_h", clause="AISC 360-16 Table J3.3", unit="in", known="memory")
def standard_hole(D: Annotated[Number, at_most(1, unit="in")]) -> Number:
    """Standard hole in steel: 1/16 in over the bolt, 1/8 in for 1 in bolts.

    >>> standard_hole(0.5)
    0.5625
    >>> standard_hole(1.0)
    1.125
    """
    return where(D < 1, D + 1 / 16, D + 1 / 8)


@formula(symbol="d_net", clause="AISC 360-16 B4.3b", unit="in", known="memory")
def net_hole_width(d_h: Positive) -> Number:
    """Width deducted for a hole in a net area.

    >>> net_hole_width(0.5625)
    0.625
    """
    return d_h + 1 / 16


@formula(symbol="l_c", clause=HOLE, unit="in", known="memory")
def clear_to_edge(l_end: Annotated[Number, more_than("d_h / 2")], d_h: Positive) -> Number:
    """Clear distance from a hole to the edge the bolt pushes to.

    >>> clear_to_edge(1.0, 0.5625)
    0.71875
    """
    return l_end - d_h / 2


@formula(symbol="l_c", clause=HOLE, unit="in", known="memory")
def clear_to_next(s: Positive, d_h: Annotated[Number, inside(0, "s")]) -> Number:
    """Clear distance from a hole to the next one.

    >>> clear_to_next(2.0, 0.5625)
    1.4375
    """
    return s - d_h


@formula(symbol="R_a", clause=HOLE, unit="lbf", known="memory")
def plate_bearing(D: Positive, t: Positive, F_u: Positive) -> Number:
    """Allowable bearing of a bolt on a plate where the stretch of the hole matters (lower of two factors, Omega 2.00).

    >>> plate_bearing(0.5, 0.25, 58000.0)
    8700.0
    """
    return 2.4 * D * t * F_u / 2


@formula(symbol="R_a", clause=HOLE, unit="lbf", known="memory")
def plate_tear_out(l_c: Positive, t: Positive, F_u: Positive) -> Number:
    """Allowable tear-out of a bolt where the stretch of the hole matters (the lower of two factors, Omega 2.00).

    >>> round(plate_tear_out(0.71875, 0.25, 58000.0), 1)
    6253.1
    """
    return 1.2 * l_c * t * F_u / 2
