"""What a carpenter can measure on a timber: its sag under a weight, and its own weight. Neither shows its strength."""

from __future__ import annotations

from typing import Annotated

from ...calc.core import Number, formula
from ...calc.ranges import Positive, between

STATICS = "statics"


@formula(symbol="E_test", clause="statics; G = E/16, shape factor 6/5", unit="psi", known="derived")
def modulus_from_sag(P: Positive, L: Positive, I: Positive, d: Positive, Delta: Positive) -> Number:  # noqa: E741
    """Modulus of elasticity, bending alone, by the sag under a weight in the middle of a simple span.

    Sag P L^3/(48 E I) and, for shear, P L/(4 k G A), together.
    P: the weight that was put on, without the own weight.
    Delta: how much the middle came down for it, less how much the supports did.

    >>> round(modulus_from_sag(600.0, 144.0, 393.0, 9.5, 0.0832), -4)
    1240000.0
    """
    return P * L**3 * (1 + 19.2 * (d / L) ** 2) / (48 * I * Delta)


@formula(symbol="Delta", clause="statics; G = E/16, shape factor 6/5", unit="in", known="derived")
def sag_of_modulus(P: Positive, L: Positive, I: Positive, d: Positive, E_test: Positive) -> Number:  # noqa: E741
    """Sag of the middle of a simple span under a weight there, for a modulus of elasticity.

    >>> round(sag_of_modulus(600.0, 144.0, 393.0, 9.5, 1240000.0), 4)
    0.083
    """
    return P * L**3 * (1 + 19.2 * (d / L) ** 2) / (48 * I * E_test)


@formula(symbol="rho", clause="weight over volume", unit="pcf", known="derived")
def density_from_weight(P: Positive, b: Positive, d: Positive, L: Positive) -> Number:
    """Weight per volume of a piece that was put on a scale.

    P: its weight.
    L: its length.

    >>> round(density_from_weight(120.0, 5.5, 9.5, 120.0), 2)
    33.07
    """
    return 1728 * P / (b * d * L)


@formula(symbol="G_0", clause="NDS 2018 Supplement 3.1.3, turned round", unit="", known="derived")
def gravity_from_density(
    rho: Positive, MC: Annotated[Number, between(0, 30, "%")]
) -> Annotated[Number, between(0.1, 1.3, because="that is no wood, or not its weight")]:
    """Specific gravity, ovendry weight and volume, by weight per volume and moisture.

    >>> round(gravity_from_density(33.15, 12.0), 2)
    0.5
    """
    return rho / (62.4 * (1 + MC / 100) - 0.009 * MC * rho)
