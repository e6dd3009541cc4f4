"""A block on the face of a post: the seat that it stands on, and its proportions.

The screws that tie it back: `bolt_pattern`, `tear_out`, the lateral and withdrawal values of any fastener.
"""

from __future__ import annotations

from typing import Annotated

from ...calc.core import Number, formula, smallest
from ...calc.ranges import NotNegative, Positive, at_least

SEAT = "statics of the seat; practice"

AtLeastMean = Annotated[Number, at_least(1)]
"""Largest over mean shear stress along a plane."""


@formula(symbol="l_v", clause=SEAT, unit="in", known="memory")
def seat_shear_length(l: Positive, d_cut: Positive, k_l: Positive) -> Number:  # noqa: E741
    """Length of wood below a seat, or behind a housing, that counts in shear along the grain.

    Shear is uneven along the plane; timber practice ends at 8 depths.
    l: of the wood along the grain, to the next cut or the end.

    >>> [seat_shear_length(l, 0.75, 8.0) for l in (4.0, 20.0)]
    [4.0, 6.0]
    """
    return smallest(l, k_l * d_cut)


@formula(symbol="f_v", clause=SEAT, unit="psi", known="memory")
def seat_shear(P: NotNegative, t: Positive, l_v: Positive, k_v: AtLeastMean) -> Number:
    """Shear along the grain of a post below the seat that a corbel stands on, against F_v'.

    >>> round(seat_shear(1000.0, 3.5, 6.0, 1.5), 2)
    71.43
    """
    return k_v * P / (t * l_v)
