"""Washers: the wood under them bears the pull of a bolt."""

from __future__ import annotations

import math
from typing import Annotated

from ...calc.core import Number, formula
from ...calc.ranges import Positive, inside

WASHER = "NDS 2018 12.1.3.3, 3.10.2"


@formula(symbol="A_b", clause=WASHER, unit="in2", known="memory")
def round_washer_area(D_w: Positive, d_h: Annotated[Number, inside(0, "D_w")]) -> Number:
    """Bearing area of a round washer.

    >>> round(round_washer_area(1.375, 0.5625), 4)
    1.2364
    """
    return math.pi * (D_w**2 - d_h**2) / 4


@formula(symbol="T_w", clause=WASHER, unit="lbf", known="memory")
def washer_bearing(F_c_perp_prime: Positive, A_b: Positive) -> Number:
    """Pull at which the wood under a washer reaches its bearing value.

    C_b only where the washer is 3 in and more from an end. In a bore the washer must fit inside it.
    F_c_perp_prime: with C_b, for which the length of a round washer is its diameter.

    >>> washer_bearing(625.0, 1.25)
    781.25
    """
    return F_c_perp_prime * A_b
