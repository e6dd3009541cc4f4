"""Equal-angle sections of a bracket weighed by modulus: the wood that lies along the fibres' way takes more.

The edges of the section are the top edge and the soffit; between them the direction of stress turns from level to the
soffit's slope, and each layer counts with the modulus that the wood has that way. The same idea as the transformed
section of a composite beam; the form is derived, checked against plane stress models (see `bracket_sections`).
"""

from __future__ import annotations

from functools import lru_cache
from typing import Annotated

import numpy as np

from ...calc.core import Number, cos, formula
from ...calc.ranges import Finite, Positive, checked, inside
from ..wood.off_axis import off_axis_modulus
from .section_forces import SoffitSlope

FAN = "sections weighed by modulus"
OneSection = Annotated[
    Number, inside("-(E_0 * E_2) ** 0.5", "(E_0 * E_2) ** 0.5", because="E_0, E_1 and E_2 belong to no section")
]
POINTS = 64  # of the Gauss-Legendre sum over the depth; 1e-9 of the integrals up to E_L/E_T of 80


def fan_moments(
    E_L: Number, E_T: Number, G_LT: Number, nu_LT: Number, theta_g: Number, alpha_s: Number
) -> tuple[Number, Number, Number]:
    """Mean modulus E_0 of equal-angle sections and its first and second moments E_1, E_2 over the depth, psi.

    E_j = integral of E(eta) (1/2 - eta)^j over eta from 0 at the top edge to 1 at the soffit, with
    E(eta) = E_off(theta_g - alpha_s eta) cos^4[alpha_s (eta - 1/2)]. Times t d^(j+1) it is the stiffness of the
    section. Beside the formulas, since it is an integral; a Gauss-Legendre sum, derived.

    `E_L`, `E_T`, `G_LT`, `nu_LT`: moduli (psi) and ratio in the plane of the bracket. `theta_g`, `alpha_s`: slope of
    the grain, and of the soffit at the section (0 to 90), deg.
    """
    alpha_s = np.asarray(checked("alpha_s", alpha_s, SoffitSlope, FAN), dtype=float)
    ndim = np.broadcast(E_L, E_T, G_LT, nu_LT, theta_g, alpha_s).ndim
    eta, weight = (each.reshape(-1, *(1,) * ndim) for each in _rule())
    modulus = off_axis_modulus(E_L, E_T, G_LT, nu_LT, theta_g - alpha_s * eta)
    modulus = modulus * cos(alpha_s * (eta - 0.5)) ** 4
    first, second, third = (np.sum(weight * modulus * (0.5 - eta) ** j, axis=0) for j in range(3))
    return first, second, third


@formula(symbol="eps_0", clause=FAN, unit="", known="derived")
def fan_mean_strain(
    M: Finite, N: Finite, t: Positive, d: Positive, E_0: Positive, E_1: OneSection, E_2: Positive
) -> Number:
    """Strain in the middle of an equal-angle section.

    >>> round(fan_mean_strain(600.0, -40.0, 1.5, 8.0, 8.0e5, 6.0e4, 7.0e4), 8)
    -1.161e-05
    """
    return (N * d * E_2 - M * E_1) / (t * d**2 * (E_0 * E_2 - E_1**2))


@formula(symbol="eps_b", clause=FAN, unit="", known="derived")
def fan_bending_strain(
    M: Finite, N: Finite, t: Positive, d: Positive, E_0: Positive, E_1: OneSection, E_2: Positive
) -> Number:
    """Difference of strain between the edges of an equal-angle section: its curvature times its depth.

    >>> round(fan_bending_strain(600.0, -40.0, 1.5, 8.0, 8.0e5, 6.0e4, 7.0e4), 8)
    9.924e-05
    """
    return (M * E_0 - N * d * E_1) / (t * d**2 * (E_0 * E_2 - E_1**2))


@formula(symbol="sigma_fan", clause=FAN, unit="psi", known="derived")
def fan_edge_stress_top(E_off: Positive, alpha_s: SoffitSlope, eps_0: Finite, eps_b: Finite) -> Number:
    """Stress along the top edge by an equal-angle section weighed by modulus.

    The fourth power of the cosine in the modulus over the square in the edge's lean.
    E_off: along the top edge.

    >>> round(fan_edge_stress_top(1.6e6, 45.0, -1.25e-5, 9.82e-5), 2)
    49.98
    """
    return E_off * cos(alpha_s / 2) ** 2 * (eps_0 + eps_b / 2)


@formula(symbol="sigma_fan_s", clause=FAN, unit="psi", known="derived")
def fan_edge_stress_soffit(E_off: Positive, alpha_s: SoffitSlope, eps_0: Finite, eps_b: Finite) -> Number:
    """Stress along the soffit by an equal-angle section weighed by modulus.

    E_off: along the soffit there.

    >>> round(fan_edge_stress_soffit(1.9e5, 45.0, -1.25e-5, 9.82e-5), 2)
    -9.99
    """
    return E_off * cos(alpha_s / 2) ** 2 * (eps_0 - eps_b / 2)


@lru_cache(maxsize=1)
def _rule() -> tuple[np.ndarray, np.ndarray]:
    """Points from 0 to 1 and weights that sum to 1."""
    nodes, weights = np.polynomial.legendre.leggauss(POINTS)
    return (nodes + 1) / 2, weights / 2
