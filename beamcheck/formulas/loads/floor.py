"""Floors and flat roofs: live load, how a floor feels, water that stands."""

from __future__ import annotations

import math
from typing import Annotated

from ...calc.core import Number, formula, largest, smallest, sqrt, where
from ...calc.ranges import NotNegative, Positive, Reduction, below


@formula(symbol="L_red", clause="ASCE 7-16 4.7.2 (eq. 4.7-1)", unit="psi", known="read", reference=True)
def reduced_live_load(L_o: NotNegative, A_I: Positive, s_L: Reduction) -> Number:
    """Live load of a floor reduced for a large influence area. For information: no check takes it.

    A_I: K_LL times the tributary area; under 400 square feet nothing is reduced.
    s_L: least share: 0.5 for one floor, 0.4 for more.

    >>> [round(144 * reduced_live_load(40 / 144, 144 * A, 0.5), 2) for A in (399, 1600, 6400)]
    [40.0, 25.0, 20.0]
    """
    return where(A_I / 144 < 400, L_o, L_o * largest(0.25 + 15 / sqrt(A_I / 144), s_L))


@formula(symbol="f_1", clause="beam theory, even mass", unit="", known="derived")
def floor_frequency(E: Positive, I: Positive, W: Positive, L: Positive) -> Number:  # noqa: E741
    """Natural frequency of a simple joist, in Hz: what a foot feels, no matter of strength.

    W: what is really there, own weight and dead load, without people.

    >>> round(floor_frequency(1.6e6, 177.98, 240.0, 216.0), 2)
    10.59
    """
    return math.pi * sqrt(386.1 * E * I / (W * L**3)) / 2


@formula(symbol="f_1", clause="Dunkerley", unit="", known="derived")
def system_frequency(f_j: Positive, f_g: Positive) -> Number:
    """Natural frequency of joists on a girder, in Hz; a little low, so on the safe side.

    >>> round(system_frequency(14.0, 18.0), 2)
    11.05
    """
    return 1 / sqrt(1 / f_j**2 + 1 / f_g**2)


@formula(symbol="Delta", clause="beam theory", unit="in", known="derived")
def sag_under_a_force(P: Positive, L: Positive, E: Positive, I: Positive) -> Number:  # noqa: E741
    """Deflection of a simple joist under one force in its middle.

    >>> round(25.4 * sag_under_a_force(224.8, 180.0, 1.6e6, 98.93), 1)
    4.4
    """
    return P * L**3 / (48 * E * I)


@formula(symbol="Delta_kN", clause="Canadian rule for 1 kN", unit="in", known="memory")
def allowed_under_1_kn(L: Positive) -> Number:
    """Deflection under 1 kN in the middle at which few complain: 2 mm under 3 m, else 8 over L to the 1.3.

    >>> round(25.4 * allowed_under_1_kn(5000 / 25.4), 3)
    0.987
    """
    return where(L * 0.0254 < 3, 2.0, 8 / (L * 0.0254) ** 1.3) / 25.4


@formula(symbol="s_left", clause="statics, ASCE 7-16 8.4", unit="", known="derived", reference=True)
def slope_left(s_roof: NotNegative, Delta: NotNegative, L: Positive) -> Number:
    """Slope that a sag leaves at the low end of a simple span, as rise over run; below zero water stands.

    >>> round(12 * slope_left(0.25 / 12, 1.0, 240.0), 3)
    0.09
    """
    return s_roof - 3.2 * Delta / L


@formula(symbol="C_pond", clause="elastic beam under water", unit="", known="derived", reference=True)
def ponding_growth(s_oc: Positive, L: Positive, E: Positive, I: Positive) -> Number:  # noqa: E741
    """Water that follows the sag of a simple span, over that which would hold the sag; from 1 on it never stops.

    >>> round(ponding_growth(16.0, 216.0, 1.3e6, 98.932), 4)
    0.1004
    """
    return 62.4 * s_oc * (L / math.pi) ** 4 / (1728 * E * I)


@formula(symbol="k_pond", clause="elastic beam under water", unit="", known="derived", reference=True)
def ponding_amplification(C_pond: Annotated[Number, below(1)]) -> Number:
    """How many times the sag grows under the water that it gathers.

    >>> round(ponding_amplification(0.1533), 3)
    1.181
    """
    return 1 / (1 - C_pond)


@formula(symbol="L_dk", clause="IBC 2021 Table 1607.1", unit="psi", known="read", reference=True)
def deck_live_load(L_o: NotNegative) -> Number:
    """Live load of a deck or balcony by the building code: half more than that of the area it serves, at most 100 psf.

    L_o: of the area served. The residential code has 40 psf.

    >>> [round(144 * deck_live_load(L_o / 144), 1) for L_o in (40, 100)]
    [60.0, 100.0]
    """
    return smallest(1.5 * L_o, 100 / 144)
