"""Weight of wood, in pounds per cubic foot as the standard prints it (divide by 1728 for lbf/in3).

G of the green volume or at 12 % must not go into the standard's formula: it would come out 3 to 12 % low.
"""

from __future__ import annotations

from typing import Annotated

from ...calc.core import Number, formula
from ...calc.ranges import NotNegative, Positive, between

SUPPLEMENT = "NDS 2018 Supplement 3.1.3"

Gravity = Annotated[Number, between(0.1, 1.3)]


@formula(symbol="gamma_w", clause=SUPPLEMENT, unit="pcf", known="read; second-hand")
def timber_density(G: Gravity, MC: Annotated[Number, between(0, 30, "%")]) -> Number:
    """Weight of wood per volume. Over 30 % wood swells no more: `green_timber_density`.

    >>> round(timber_density(0.5, 20.0), 3)
    34.349
    """
    return 62.4 * (G / (1 + G * 0.009 * MC)) * (1 + MC / 100)


@formula(symbol="gamma_w", clause=f"{SUPPLEMENT}, swelling up to 30 %", unit="pcf", known="derived")
def green_timber_density(G: Gravity, MC: Annotated[Number, between(30, 250, "%")]) -> Number:
    """Weight of green wood, over 30 % moisture, per volume.

    Changed from the source: the volume stays that at 30 %, where the fibers are saturated. The printed equation, put
    to 60 %, would swell on and come out 11 % low for G = 0.5.

    >>> round(green_timber_density(0.5, 60.0), 2)
    43.98
    """
    return 62.4 * (G / (1 + G * 0.009 * 30)) * (1 + MC / 100)


@formula(symbol="gamma_w", clause="Wood Handbook ch. 4", unit="pcf", known="read", reference=True)
def density_at_moisture(G_M: Gravity, MC: Annotated[Number, between(0, 250, "%")]) -> Number:
    """Weight of wood per volume by a specific gravity of the volume at that same moisture, as handbooks print at 12 %.

    Specific gravity 0.40 at 12 %:

    >>> round(density_at_moisture(0.40, 12.0), 3)
    27.969
    """
    return 62.43 * G_M * (1 + MC / 100)


@formula(symbol="w_lay", clause="thickness times density", unit="psi", known="derived", reference=True)
def layer_weight(t: NotNegative, rho: NotNegative) -> Number:
    """Weight of a layer per area.

    >>> round(144 * layer_weight(1.25, 168.0), 2)
    17.5
    """
    return t * rho / 1728


@formula(symbol="w_lay", clause="area times density over spacing", unit="psi", known="derived")
def framing_weight(A: NotNegative, rho: NotNegative, s_oc: Positive) -> Number:
    """Weight of joists or rafters over the area that they carry.

    >>> round(144 * framing_weight(1.5 * 9.25, 32.0, 16.0), 4)
    2.3125
    """
    return A * rho / 1728 / s_oc
