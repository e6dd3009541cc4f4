"""Glued laminated timber and structural composite lumber: what NDS 2018 chapters 5 and 8 add to the rules of wood."""

from __future__ import annotations

from typing import Annotated

from ...calc.core import Number, formula, smallest, where
from ...calc.ranges import NotNegative, Positive, Reduction, at_least

VOLUME = "NDS 2018 5.3.6 (eq. 5.3-1)"


@formula(symbol="C_V", clause=VOLUME, unit="", known="memory")
def volume_factor(
    L: Positive, d: Positive, b: Positive, x_V: Annotated[Number, at_least(10, clause="NDS 2018 5.3.6")]
) -> Number:
    """Volume factor of glued laminated timber loaded across the wide faces of its laminations.

    L: between points of zero moment; longer is on the safe side.
    x_V: 10, and 20 for Southern Pine.

    A 5 1/8 x 24 in timber over 30 ft:

    >>> round(volume_factor(360.0, 24.0, 5.125, 10.0), 3)
    0.9
    """
    return smallest((252 / L) ** (1 / x_V) * (12 / d) ** (1 / x_V) * (5.125 / b) ** (1 / x_V), 1)


@formula(symbol="C_V", clause="NDS 2018 8.3.6, the maker's report", unit="", known="memory")
def depth_factor(d: Positive, d_0: Positive, m_V: NotNegative) -> Number:
    """Depth factor of structural composite lumber, with the reference depth and power of its report.

    >>> round(depth_factor(16.0, 12.0, 0.136), 4)
    0.9616
    """
    return (d_0 / d) ** m_V


@formula(symbol="F_b_prime", clause="NDS 2018 5.3.6, 8.3.6", unit="psi", known="memory")
def adjusted_bending_glued(F_b_star: Positive, C_L: Reduction, C_V: Positive) -> Number:
    """Adjusted bending design value: the lesser of C_L and C_V counts, never both; a C_V above 1 goes with C_L.

    >>> adjusted_bending_glued(2400.0, 0.95, 0.9)
    2160.0
    """
    return F_b_star * where(C_V > 1, C_L * C_V, smallest(C_L, C_V))


@formula(symbol="F_v_prime", clause="NDS 2018 5.3.10", unit="psi", known="memory")
def shear_at_cut(F_v_prime: Positive, C_vr: Reduction) -> Number:
    """Shear design value of glued laminated timber at notches and connections.

    >>> round(shear_at_cut(265.0, 0.72), 1)
    190.8
    """
    return F_v_prime * C_vr


@formula(symbol="d_cut_max", clause="NDS 2018 5.4.5", unit="in", known="memory")
def tension_notch_limit(d: Positive) -> Number:
    """Deepest notch in the tension side of glued laminated timber, at its ends over the bearing only.

    >>> tension_notch_limit(12.0)
    1.2
    """
    return smallest(d / 10, 3)


@formula(symbol="d_cut_max", clause="NDS 2018 5.4.5", unit="in", known="memory")
def compression_notch_limit(d: Positive) -> Number:
    """Deepest notch in the compression side of glued laminated timber, at its ends only.

    >>> compression_notch_limit(12.0)
    4.8
    """
    return 2 * d / 5
