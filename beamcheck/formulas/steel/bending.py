"""Flat bars, plates and rods in bending (AISC 360-16 F11, F13, ASD: the values are M_n/Omega)."""

from __future__ import annotations

from ...calc.core import Number, formula, smallest
from ...calc.ranges import Positive

BAR = "AISC 360-16 F11"


@formula(symbol="Z_x", clause="mechanics of materials", unit="in3", known="derived")
def bar_plastic_modulus(b: Positive, t: Positive) -> Number:
    """Plastic section modulus of a flat bar bent the flat way.

    b: width; at holes the net width.
    t: thickness in the plane of the load.

    >>> round(bar_plastic_modulus(1.5, 0.25), 6)
    0.023438
    """
    return b * t**2 / 4


@formula(symbol="M_a", clause=BAR, unit="lbf*in", known="memory")
def bar_bending(F_y: Positive, Z_x: Positive, S_x: Positive) -> Number:
    """Allowable moment of a bar or rod (Omega 1.67).

    A bar on edge only while `lateral_slenderness` is not over `lateral_slenderness_limit`.

    >>> round(bar_bending(36000.0, 0.0234375, 0.015625), 1)
    505.2
    """
    return smallest(F_y * Z_x, 1.6 * F_y * S_x) / 1.67


@formula(symbol="M_a", clause="AISC 360-16 F13.1", unit="lbf*in", known="memory")
def bar_bending_rupture(F_u: Positive, Z_x: Positive) -> Number:
    """Allowable moment of a bar at holes (Omega 2.00).

    >>> bar_bending_rupture(58000.0, 0.015)
    435.0
    """
    return F_u * Z_x / 2


@formula(symbol="slenderness", clause=BAR, unit="", known="memory")
def lateral_slenderness(L_b: Positive, d: Positive, t: Positive) -> Number:
    """Slenderness of a bar on edge against twisting sideways.

    >>> lateral_slenderness(8.0, 4.0, 0.25)
    512.0
    """
    return L_b * d / t**2


@formula(symbol="slenderness_max", clause=BAR, unit="", known="memory")
def lateral_slenderness_limit(E_steel: Positive, F_y: Positive) -> Number:
    """Slenderness up to which a bar on edge reaches its full moment. Beyond it: `bar_that_twists`.

    >>> round(lateral_slenderness_limit(29.0e6, 36000.0), 2)
    64.44
    """
    return 0.08 * E_steel / F_y


@formula(symbol="M_a", clause="AISC 360-16 F11.2", unit="lbf*in", known="memory")
def bar_that_twists(F_y: Positive, S_x: Positive, slenderness: Positive, E_steel: Positive) -> Number:
    """Allowable moment of a slender bar on edge (Omega 1.67, C_b = 1), which twists before it yields all over.

    The lesser of this and `bar_bending` counts.
    slenderness: `lateral_slenderness`, over `lateral_slenderness_limit` and up to 1.9 E over F_y.

    >>> round(bar_that_twists(36000.0, 4.0, 298.7, 29.0e6), 0)
    122305.0
    """
    return (1.52 - 0.274 * slenderness * F_y / E_steel) * F_y * S_x / 1.67
