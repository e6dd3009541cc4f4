"""Equal-angle sections of a bracket weighed by modulus: the wood that lies along the fibres' way takes more.

The edges of the section are the top edge and the soffit; between them the direction of stress turns from level to the
soffit's slope, and each layer counts with the modulus that the wood has that way. The same idea as the transformed
section of a composite beam; the form is derived, checked against plane stress models (see `bracket_sections`).
"""

from __future__ import annotations

from functools import lru_cache

import numpy as np

from ...calc.core import Number, cos, formula, valid
from ...calc.ranges import positive
from ..connections.ranges import finite
from ..wood.off_axis import off_axis_modulus
from .section_forces import soffit_slope

FAN = "sections weighed by modulus"
POINTS = 64  # of the Gauss-Legendre sum over the depth; 1e-9 of the integrals up to E_L/E_T of 80


def fan_moments(
    E_L: Number, E_T: Number, G_LT: Number, nu_LT: Number, theta_g: Number, alpha_s: Number, *, narrowed: bool = True
) -> tuple[Number, Number, Number]:
    """Mean modulus E_0 of equal-angle sections and its first and second moments E_1, E_2 over the depth, psi.

    Parameters
    ----------
    E_L, E_T, G_LT, nu_LT : float or array
        Moduli (psi) and ratio in the plane of the bracket.
    theta_g, alpha_s : float or array
        Slope of the grain, and of the soffit at the section (0 to 90), deg.
    narrowed : bool
        Whether a layer counts with the fourth power of the cosine between its direction and the section's normal, as it
        does for stress. Without it the body comes out stiffer: the upper bound of `fan_stiffness`.

    Returns
    -------
    tuple of float or array
        E_j = integral of E(eta) (1/2 - eta)^j over eta from 0 at the top edge to 1 at the soffit, with
        E(eta) = E_off(theta_g - alpha_s eta) cos^4[alpha_s (eta - 1/2)]. Times t d^(j+1) it is the stiffness of the
        section. Beside the formulas, since it is an integral; a Gauss-Legendre sum.

    Raises
    ------
    OutOfRange
        If a modulus is not positive or the slope out of range.

    Notes
    -----
    Derived, as the module says.
    """
    alpha_s = np.asarray(soffit_slope(alpha_s), dtype=float)
    ndim = np.broadcast(E_L, E_T, G_LT, nu_LT, theta_g, alpha_s).ndim
    eta, weight = (each.reshape(-1, *(1,) * ndim) for each in _rule())
    modulus = off_axis_modulus(E_L, E_T, G_LT, nu_LT, theta_g - alpha_s * eta)
    if narrowed:
        modulus = modulus * cos(alpha_s * (eta - 0.5)) ** 4
    first, second, third = (np.sum(weight * modulus * (0.5 - eta) ** j, axis=0) for j in range(3))
    return first, second, third


@formula(symbol="eps_0", clause=FAN, unit="")
def fan_mean_strain(M: Number, N: Number, t: Number, d: Number, E_0: Number, E_1: Number, E_2: Number) -> Number:
    """Strain in the middle of an equal-angle section.

    Parameters
    ----------
    M : float or array
        Moment about the middle, stretching the top edge when positive. [lbf*in]
    N : float or array
        Force square to the section, tension positive. [lbf]
    t, d : float or array
        Thickness and depth of the section. [in]
    E_0, E_1, E_2 : float or array
        Mean modulus, and its first and second moment over the depth, of `fan_moments`. [psi]

    Returns
    -------
    float or array
        [-]

    Raises
    ------
    OutOfRange
        If a force is not finite, a size not positive, or the moments belong to no section.

    Notes
    -----
    Changed from the source: nothing. How known: derived.

    Examples
    --------
    >>> round(fan_mean_strain(600.0, -40.0, 1.5, 8.0, 8.0e5, 6.0e4, 7.0e4), 8)
    -1.161e-05
    """
    M, N = finite("M", M, FAN), finite("N", N, FAN)
    return (N * positive("d", d, FAN) * E_2 - M * E_1) / (positive("t", t, FAN) * d**2 * _spread(E_0, E_1, E_2))


@formula(symbol="eps_b", clause=FAN, unit="")
def fan_bending_strain(M: Number, N: Number, t: Number, d: Number, E_0: Number, E_1: Number, E_2: Number) -> Number:
    """Difference of strain between the edges of an equal-angle section: its curvature times its depth.

    Parameters
    ----------
    M : float or array
        Moment about the middle, stretching the top edge when positive. [lbf*in]
    N : float or array
        Force square to the section, tension positive. [lbf]
    t, d : float or array
        Thickness and depth of the section. [in]
    E_0, E_1, E_2 : float or array
        Mean modulus, and its first and second moment over the depth, of `fan_moments`. [psi]

    Returns
    -------
    float or array
        [-]

    Raises
    ------
    OutOfRange
        If a force is not finite, a size not positive, or the moments belong to no section.

    Notes
    -----
    Changed from the source: nothing. How known: derived.

    Examples
    --------
    >>> round(fan_bending_strain(600.0, -40.0, 1.5, 8.0, 8.0e5, 6.0e4, 7.0e4), 8)
    9.924e-05
    """
    M, N = finite("M", M, FAN), finite("N", N, FAN)
    return (M * E_0 - N * positive("d", d, FAN) * E_1) / (positive("t", t, FAN) * d**2 * _spread(E_0, E_1, E_2))


@formula(symbol="sigma_fan", clause=FAN, unit="psi")
def fan_edge_stress_top(E_off: Number, alpha_s: Number, eps_0: Number, eps_b: Number) -> Number:
    """Stress along the top edge by an equal-angle section weighed by modulus.

    Parameters
    ----------
    E_off : float or array
        Modulus along the top edge. [psi]
    alpha_s : float or array
        Slope of the soffit at the section. [deg]
    eps_0, eps_b : float or array
        Strain in the middle of the section, and its difference between the edges. [-]

    Returns
    -------
    float or array
        Tension positive. [psi]

    Raises
    ------
    OutOfRange
        If the modulus is not positive, the slope out of range or a strain not finite.

    Notes
    -----
    The fourth power of the cosine in the modulus over the square in the edge's lean. Changed from the source: nothing.
    How known: derived.

    Examples
    --------
    >>> round(fan_edge_stress_top(1.6e6, 45.0, -1.25e-5, 9.82e-5), 2)
    49.98
    """
    edge = finite("eps_0", eps_0, FAN) + finite("eps_b", eps_b, FAN) / 2
    return positive("E_off", E_off, FAN) * cos(soffit_slope(alpha_s) / 2) ** 2 * edge


@formula(symbol="sigma_fan_s", clause=FAN, unit="psi")
def fan_edge_stress_soffit(E_off: Number, alpha_s: Number, eps_0: Number, eps_b: Number) -> Number:
    """Stress along the soffit by an equal-angle section weighed by modulus.

    Parameters
    ----------
    E_off : float or array
        Modulus along the soffit there. [psi]
    alpha_s : float or array
        Slope of the soffit at the section. [deg]
    eps_0, eps_b : float or array
        Strain in the middle of the section, and its difference between the edges. [-]

    Returns
    -------
    float or array
        Tension positive. [psi]

    Raises
    ------
    OutOfRange
        If the modulus is not positive, the slope out of range or a strain not finite.

    Notes
    -----
    Changed from the source: nothing. How known: derived.

    Examples
    --------
    >>> round(fan_edge_stress_soffit(1.9e5, 45.0, -1.25e-5, 9.82e-5), 2)
    -9.99
    """
    edge = finite("eps_0", eps_0, FAN) - finite("eps_b", eps_b, FAN) / 2
    return positive("E_off", E_off, FAN) * cos(soffit_slope(alpha_s) / 2) ** 2 * edge


@lru_cache(maxsize=1)
def _rule() -> tuple[np.ndarray, np.ndarray]:
    """Points from 0 to 1 and weights that sum to 1."""
    nodes, weights = np.polynomial.legendre.leggauss(POINTS)
    return (nodes + 1) / 2, weights / 2


def _spread(E_0: Number, E_1: Number, E_2: Number) -> Number:
    E_0, E_2 = positive("E_0", E_0, FAN), positive("E_2", E_2, FAN)
    found = E_0 * E_2 - finite("E_1", E_1, FAN) ** 2
    return valid(found, found > 0, "E_0, E_1 and E_2 belong to no section: E_0 E_2 must exceed E_1 squared", FAN)
