"""Loads hung on the side of a girder: V_r' is in `wood.shear` (NDS 3.4.3.3); here a cross-check by another code."""

from __future__ import annotations

from typing import Annotated

from ...calc.core import Number, formula, sqrt
from ...calc.ranges import Positive, inside


@formula(
    symbol="F_90", clause="EN 1995-1-1 8.1.4 (eq. 8.4), turned into inches", unit="lbf", known="memory", reference=True
)
def splitting_strength(b: Positive, d: Positive, h_e: Annotated[Number, inside(0, "d")]) -> Number:
    """Characteristic force across the grain at which a joint splits a softwood girder: a cross-check, never a pass.

    For ASD a third of it to 0.38 (judgment). 14 is in N/mm^1.5. German practice leaves it out for h_e over 0.7 d.

    >>> round(splitting_strength(50 / 25.4, 150 / 25.4, 112.5 / 25.4) * 4.4482216, 0)
    14849.0
    """
    return 14 * 25.4**1.5 / 4.4482216 * b * sqrt(h_e / (1 - h_e / d))
