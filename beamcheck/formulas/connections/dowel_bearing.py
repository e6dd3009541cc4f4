"""Dowel bearing strength: what a square inch of wood, steel or concrete bears from the side of a fastener.

The equations stand under NDS 2018 Table 12.3.3, which prints their results to the nearest 50 psi; 12.3.3.1 points to
the table. These do not round, `as_tabulated` does. D is the nominal diameter here, also where the root diameter D_r
bends.
"""

from __future__ import annotations

import math

import numpy as np

from ...calc.core import Number, cos, formula, sin
from ...calc.ranges import AcuteAngle, Positive
from .ranges import WOOD, Gravity, LargeDiameter

STEEL = "NDS 2018 12.3.2, Appendix I.2"
STEP = 50.0  # psi; the last digit of Table 12.3.3


def as_tabulated(F_e: Number) -> Number:
    """A dowel bearing strength of wood to the nearest 50 psi, as NDS 2018 Table 12.3.3 prints it.

    Floats and arrays; halves go up. Not a formula: the trace knows no rounding, so a check writes the rounded value
    down as taken from the table. Published Z need it (all rows of Tables 12A to 12N rest on rounded values).

    >>> as_tabulated(4637.0)
    4650.0
    """
    if isinstance(F_e, np.ndarray):
        return np.floor(F_e / STEP + 0.5) * STEP
    return math.floor(F_e / STEP + 0.5) * STEP if math.isfinite(F_e) else F_e


@formula(symbol="F_e_par", clause=WOOD, unit="psi", known="memory; reproduces published tables")
def dowel_bearing_parallel(G: Gravity) -> Number:
    """Dowel bearing strength along the grain, fastener of 1/4 in and more.

    >>> round(dowel_bearing_parallel(0.50), 6)
    5600.0
    """
    return 11200 * G


@formula(symbol="F_e_perp", clause=WOOD, unit="psi", known="memory; reproduces published tables")
def dowel_bearing_perpendicular(G: Gravity, D: LargeDiameter) -> Number:
    """Dowel bearing strength across the grain, fastener of 1/4 in and more.

    Also the strength of a dowel in end grain, its axis along the grain (12.3.3.4).

    >>> round(dowel_bearing_perpendicular(0.50, 0.5), 1)
    3157.6
    """
    return 6100 * G**1.45 / D**0.5


@formula(symbol="F_e", clause=WOOD, unit="psi", known="memory; reproduces published tables")
def dowel_bearing_small(G: Gravity) -> Number:
    """Dowel bearing strength of wood in any direction, fastener thinner than 1/4 in.

    It is the nominal diameter that must be below 1/4 in.

    >>> round(dowel_bearing_small(0.50), 1)
    4636.7
    """
    return 16600 * G**1.84


@formula(
    symbol="F_e_theta", clause="NDS 2018 12.3.4 (eq. 12.3-11)", unit="psi", known="memory; reproduces published tables"
)
def dowel_bearing_at_angle(F_e_par: Positive, F_e_perp: Positive, theta: AcuteAngle) -> Number:
    """Dowel bearing strength at an angle to the grain.

    >>> round(dowel_bearing_at_angle(5600.0, 3150.0, 45.0), 1)
    4032.0
    """
    return F_e_par * F_e_perp / (F_e_par * sin(theta) ** 2 + F_e_perp * cos(theta) ** 2)


@formula(symbol="F_e", clause=STEEL, unit="psi", known="memory")
def steel_bearing_hot_rolled(F_u: Positive) -> Number:
    """Dowel bearing strength of hot-rolled steel.

    2.4 F_u of steel design over 1.6, since load duration factors go on top. The plate's own strength is checked apart.

    >>> steel_bearing_hot_rolled(58000.0)
    87000.0
    """
    return 1.5 * F_u


@formula(symbol="F_e", clause=STEEL, unit="psi", known="memory")
def steel_bearing_cold_formed(F_u: Positive) -> Number:
    """Dowel bearing strength of cold-formed steel.

    2.2 F_u over 1.6. For Grade 33 the standard prints 61,850 psi where this gives 61,875: take the printed one.

    >>> steel_bearing_cold_formed(45000.0)
    61875.0
    """
    return 1.375 * F_u
