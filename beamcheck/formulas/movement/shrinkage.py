"""Wood that shrinks and swells across its grain. Signed: what dries gets smaller. Along the grain it hardly moves."""

from __future__ import annotations

import math
from typing import Annotated

from ...calc.core import Number, formula
from ...calc.ranges import NotNegative, Positive, at_most, between

Moist = Annotated[Number, between(0, 30, "%", because="over 30 % wood moves no more: enter 30")]
Shrinkage = Annotated[Number, at_most(20, because="percent from green to ovendry")]
GRADED = "FPL-RP-489; PS 20"


@formula(symbol="Delta_D", clause="Wood Handbook ch. 13 (eq. 13-2)", unit="in", known="read", reference=True)
def movement_linear(
    C_w: Annotated[Number, at_most(0.01)], M_i: Moist, M_f: Moist, D_i: Positive
) -> Annotated[Number, between(-1e6, 1e6)]:
    """Change of a dimension across the grain, for moisture from 6 to 14 %.

    C_w: tangential for a flat-sawn face, radial for a quarter-sawn one.

    White fir, 9.15 in, from 8 to 11 %:

    >>> round(movement_linear(0.00245, 8.0, 11.0, 9.15), 3)
    0.067
    """
    return D_i * C_w * (M_f - M_i)


@formula(symbol="Delta_D", clause="Wood Handbook ch. 13 (eq. 13-3)", unit="in", known="memory")
def movement_exact(S_pct: Shrinkage, M_i: Moist, M_f: Moist, D_i: Positive) -> Number:
    """Change of a dimension across the grain, for moisture from 0 to 30 %.

    White oak, 12 in, from green to 8 %:

    >>> round(movement_exact(10.5, 30.0, 8.0, 12.0), 3)
    -0.924
    """
    return D_i * (M_f - M_i) / (3000 / S_pct - 30 + M_i)


@formula(symbol="Delta_D", clause="Wood Handbook ch. 3, 4", unit="in", known="read", reference=True)
def movement_quick(M_i: Moist, M_f: Moist, D_i: Positive) -> Number:
    """Change of a dimension where the species is not known: 6 % from 30 % to none, so 0.2 % for each point.

    Some woods move twice as much: a first look only.

    >>> round(movement_quick(19.0, 10.0, 13.25), 4)
    -0.2385
    """
    return D_i * (6 / 30 / 100) * (M_f - M_i)


@formula(symbol="C_w", clause="Wood Handbook Table 13-5, from Table 4-3", unit="", known="derived", reference=True)
def coefficient_of_shrinkage(
    S_pct: Shrinkage, FSP: Annotated[Number, between(18, 32, "%")]
) -> Annotated[Number, at_most(0.01)]:
    """Change per point of moisture of a size measured at 10 %, by the shrinkage from green to ovendry.

    FSP: 30; Western redcedar, northern white-cedar and redwood fit 22.

    Black cherry, tangential:

    >>> round(coefficient_of_shrinkage(7.1, 30.0), 5)
    0.00248
    """
    return S_pct / (100 * FSP) / (1 - S_pct * (FSP - 10) / (100 * FSP))


@formula(symbol="S_pct", clause=GRADED, unit="%", known="read", reference=True)
def lumber_width_shrinkage(MC: Annotated[Number, between(6, 28, "%")]) -> Number:
    """Shrinkage of the width of dimension lumber from green. Not for redwood and cedar.

    >>> round(lumber_width_shrinkage(15.0), 3)
    2.806
    """
    return 6.031 - 0.215 * MC


@formula(symbol="S_pct", clause=GRADED, unit="%", known="read", reference=True)
def lumber_thickness_shrinkage(MC: Annotated[Number, between(6, 28, "%")]) -> Number:
    """Shrinkage of the thickness of dimension lumber from green. Not for redwood and cedar.

    >>> round(lumber_thickness_shrinkage(15.0), 3)
    2.347
    """
    return 5.062 - 0.181 * MC


@formula(symbol="D_f", clause=GRADED, unit="in", known="read", reference=True)
def lumber_size_after(D_i: Positive, S_i: Shrinkage, S_f: Shrinkage) -> Number:
    """Size of dimension lumber at another moisture, by its shrinkage from green before and after.

    13.25 in at 19 %, dried to 10 %:

    >>> round(lumber_size_after(13.25, 1.946, 3.881), 2)
    12.99
    """
    return D_i * (1 - S_f / 100) / (1 - S_i / 100)


@formula(symbol="w_check", clause="geometry of a round that shrinks", unit="in", known="derived")
def check_opening(Delta_t: NotNegative, Delta_R: Annotated[Number, between(0, "Delta_t")]) -> Number:
    """Width of all checks on the faces of a timber together, at most: its edge shrinks more than its middle lets it.

    Delta_t, Delta_R: shrinkage of the same dimension, without sign.

    A 9 1/2 in timber of S_T 6.8 and S_R 3 percent, from green to 9 %:

    >>> round(check_opening(0.452, 0.199), 2)
    0.79
    """
    return math.pi * (Delta_t - Delta_R)
