"""Roofs: live load (ASCE 7-16), loads on the slope and on plan, thrust of rafters. Snow is in `snow`.

Area loads are in psi (lbf/in2) and line loads in lbf/in like everything inside; a constant of a standard that is in psf
or ft2 is turned with 144 in2 to the ft2, in sight.
"""

from __future__ import annotations

from typing import Annotated

from ...calc.core import Number, cos, formula, largest, where
from ...calc.ranges import NOISE, NotNegative, Positive, Reduction, at_most, below, between

ROOF_LIVE = "ASCE 7-16 4.8.2"

Slope = Annotated[Number, below(90, unit="deg")]


@formula(symbol="R_1", clause=ROOF_LIVE, unit="", known="read; second-hand")
def roof_area_reduction(A_t: Positive) -> Number:
    """Reduction of roof live load for a large tributary area. 200 and 600 are in square feet.

    >>> [round(roof_area_reduction(144 * A), 3) for A in (200, 400, 700)]
    [1.0, 0.8, 0.6]
    """
    return where(A_t / 144 <= 200, 1.0, where(A_t / 144 < 600, 1.2 - 0.001 * A_t / 144, 0.6))


@formula(symbol="R_2", clause=ROOF_LIVE, unit="", known="read; second-hand")
def roof_slope_reduction(F: NotNegative) -> Number:
    """Reduction of roof live load for a steep roof.

    >>> [round(roof_slope_reduction(F), 3) for F in (4, 6, 12)]
    [1.0, 0.9, 0.6]
    """
    return where(F <= 4, 1.0, where(F < 12, 1.2 - 0.05 * F, 0.6))


@formula(symbol="L_r", clause=f"{ROOF_LIVE} (eq. 4.8-1)", unit="psi", known="read; second-hand")
def roof_live_load(
    L_o: Annotated[Number, between("12 / 144", "20 / 144", because="12 to 20 psf", noise=NOISE)],
    R_1: Reduction,
    R_2: Reduction,
) -> Number:
    """Roof live load on plan, never below 12 psf.

    A roof with more live load than 20 psf has another use, which this reduction does not cover.

    >>> [round(144 * roof_live_load(20 / 144, R_1, R_2), 1) for R_1, R_2 in ((0.8, 0.9), (0.6, 0.6))]
    [14.4, 12.0]
    """
    return largest(L_o * R_1 * R_2 * 144, 12) / 144


@formula(symbol="w_plan", clause="geometry", unit="psi", known="derived")
def dead_on_plan(w_slope: Number, theta: Slope) -> Number:
    """Load along the slope as a load on plan. Snow and roof live load are on plan already.

    >>> round(dead_on_plan(15.0, 60.0), 6)
    30.0
    """
    return w_slope / cos(theta)


@formula(symbol="w_n", clause="geometry", unit="lbf/in", known="derived", reference=True)
def slope_load_across(w_s: Number, theta: Slope) -> Number:
    """Part across a sloping piece of a vertical load per length of slope (dead load).

    >>> round(slope_load_across(10.0, 60.0), 6)
    5.0
    """
    return w_s * cos(theta)


@formula(symbol="w_n", clause="geometry", unit="lbf/in", known="derived", reference=True)
def plan_load_across(w_p: Number, theta: Slope) -> Number:
    """Part across a sloping piece of a vertical load per length on plan (snow, roof live load).

    One cosine for the longer length on the slope, one for the direction.

    >>> round(plan_load_across(10.0, 60.0), 6)
    2.5
    """
    return w_p * cos(theta) ** 2


@formula(symbol="H", clause="statics of a pair of rafters", unit="lbf", known="memory", reference=True)
def rafter_thrust(W: Number, run: Positive, rise: Positive) -> Number:
    """Outward push at the eaves of a pair of equal rafters without ridge beam, and the force in a tie there.

    Moments about the ridge, both rafters loaded alike.
    W: vertical, spread evenly.

    >>> rafter_thrust(960.0, 144.0, 72.0)
    960.0
    """
    return W / 2 * (run / rise)


@formula(symbol="T", clause="statics of a pair of rafters", unit="lbf", known="derived", reference=True)
def raised_tie_tension(H: Number, H_r: Positive, h: Annotated[Number, at_most("H_r")]) -> Number:
    """Force in a rafter tie above the eaves.

    The rafter bends between tie and eaves as well. A tie in the upper third is a collar tie and takes no thrust by the
    code.
    H: at the eaves, without the tie.

    >>> raised_tie_tension(960.0, 72.0, 48.0)
    1440.0
    """
    return H * (H_r / h)
