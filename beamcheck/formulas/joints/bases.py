"""Post base on a stand-off: end grain on a plate, the plate beyond the stem, the stem under a level force."""

from __future__ import annotations

from typing import Annotated

from ...calc.core import Number, formula, sqrt
from ...calc.ranges import NotNegative, Positive, below


@formula(symbol="A_n", clause="NDS 2018 3.10.1", unit="in2", known="memory")
def end_grain_less_slot(b: Positive, d: Positive, w_slot: Annotated[Number, below("b")]) -> Number:
    """Area of a post's end beside the slot for a plate.

    Against F_c*, over 0.75 of it with steel between: `end_grain_bearing_ratio`.
    d: along the slot.

    >>> end_grain_less_slot(7.5, 7.5, 0.4375)
    52.96875
    """
    return (b - w_slot) * d


@formula(symbol="M", clause="statics", unit="lbf*in", known="derived")
def plate_overhang(f_c: NotNegative, b: Positive, a: NotNegative) -> Number:
    """Moment in a bearing plate where it stands out over what holds it. Against `bar_bending`.

    b: width of plate looked at.
    a: how far it stands out.

    >>> plate_overhang(340.0, 1.0, 2.0)
    680.0
    """
    return f_c * b * a**2 / 2


@formula(symbol="M", clause="statics", unit="lbf*in", known="derived")
def stem_moment(H: NotNegative, h: Positive) -> Number:
    """Moment at the foot of the stem by a level force at its top. Against `bar_bending`, the weak way.

    H: brace, wind, a push.
    h: clear height.

    >>> stem_moment(400.0, 3.0)
    1200.0
    """
    return H * h


@formula(symbol="slenderness", clause="AISC 360-16 E2", unit="", known="memory")
def stem_slenderness(h: Positive, t: Positive) -> Number:
    """Slenderness of a flat stem as a cantilever (K = 2.1). At most 25 is short; above it is a column of steel.

    >>> round(stem_slenderness(3.0, 0.5), 2)
    43.65
    """
    return 2.1 * h * sqrt(12) / t
