"""Wood stressed at an angle to its grain: stiffness, parts of an edge stress, strength.

In the plane of the piece L runs along the grain and T across it (radially or tangentially, as the board was sawn).
"""

from __future__ import annotations

from ...calc.core import Number, cos, formula, largest, sin, smallest, sqrt, valid
from ...calc.ranges import at_most, between, given, not_negative, positive
from ..connections.ranges import finite

ORTHOTROPIC = "mechanics of orthotropic materials"
EDGE = "equilibrium at a free edge"
HANKINSON = "NDS 2018 3.10.3 form, for tension"
QUADRATIC = "Tsai-Hill criterion"


@formula(symbol="E_off", clause=ORTHOTROPIC, unit="psi")
def off_axis_modulus(E_L: Number, E_T: Number, G_LT: Number, nu_LT: Number, psi: Number) -> Number:
    """Modulus of elasticity in a direction at an angle to the grain.

    Parameters
    ----------
    E_L, E_T, G_LT : float or array
        Moduli along the grain, across it, and in shear, in the plane of the piece. [psi]
    nu_LT : float or array
        How much wood thins across the grain when it is stretched along it. [-]
    psi : float or array
        Angle between the direction and the grain, with any sign. [deg]

    Returns
    -------
    float or array
        [psi]

    Raises
    ------
    OutOfRange
        If a modulus is not positive, the angle not finite, or the moduli do not belong to one material.

    Notes
    -----
    0 gives E_L, 90 gives E_T. Changed from the source: nothing. How known: derived.

    Examples
    --------
    >>> round(off_axis_modulus(1.6e6, 80000.0, 124800.0, 0.449, 45.0))
    194396
    """
    E_L, nu_LT, along, across = _axes(E_L, nu_LT, psi)
    softness = along**2 / E_L + across**2 / positive("E_T", E_T, ORTHOTROPIC)
    softness = softness + across * along * (1 / positive("G_LT", G_LT, ORTHOTROPIC) - 2 * nu_LT / E_L)
    return 1 / _possible(softness)


@formula(symbol="G_off", clause=ORTHOTROPIC, unit="psi")
def off_axis_shear_modulus(E_L: Number, E_T: Number, G_LT: Number, nu_LT: Number, psi: Number) -> Number:
    """Shear modulus for a direction at an angle to the grain.

    Parameters
    ----------
    E_L, E_T, G_LT : float or array
        Moduli along the grain, across it, and in shear, in the plane of the piece. [psi]
    nu_LT : float or array
        How much wood thins across the grain when it is stretched along it. [-]
    psi : float or array
        Angle between the direction and the grain, with any sign. [deg]

    Returns
    -------
    float or array
        [psi]

    Raises
    ------
    OutOfRange
        If a modulus is not positive, the angle not finite, or the moduli do not belong to one material.

    Notes
    -----
    0 and 90 give G_LT. Changed from the source: nothing. How known: derived.

    Examples
    --------
    >>> round(off_axis_shear_modulus(1.6e6, 80000.0, 124800.0, 0.449, 45.0))
    73066
    """
    E_L, nu_LT, along, across = _axes(E_L, nu_LT, psi)
    G_LT, E_T = positive("G_LT", G_LT, ORTHOTROPIC), positive("E_T", E_T, ORTHOTROPIC)
    softness = 2 * across * along * (2 / E_L + 2 / E_T + 4 * nu_LT / E_L - 1 / G_LT)
    softness = softness + (across**2 + along**2) / G_LT
    return 1 / _possible(softness)


@formula(symbol="phi", clause="geometry", unit="deg")
def edge_grain_angle(theta_g: Number, alpha_s: Number) -> Number:
    """Angle between the grain and an edge.

    Parameters
    ----------
    theta_g, alpha_s : float or array
        Slope of the grain and of the edge, in the same sense; the two at most 180 apart. [deg]

    Returns
    -------
    float or array
        0 to 90. [deg]

    Raises
    ------
    OutOfRange
        If the slopes are more than 180 apart.

    Notes
    -----
    A line has no sense of direction: 170 apart is 10. Changed from the source: nothing. How known: derived.

    Examples
    --------
    >>> edge_grain_angle(135.0, 0.0)
    45.0
    """
    theta_g, alpha_s = finite("theta_g", theta_g), finite("alpha_s", alpha_s)
    apart = abs(theta_g - alpha_s)
    apart = valid(apart, apart <= 180, f"theta_g and alpha_s must be at most 180 deg apart{given(apart)}")
    return smallest(apart, 180 - apart)


@formula(symbol="s_par", clause=EDGE, unit="psi")
def stress_along(sigma_t: Number, phi: Number) -> Number:
    """Stress along the grain at a free edge.

    Parameters
    ----------
    sigma_t : float or array
        Stress along the edge, the only one there; tension positive. [psi]
    phi : float or array
        Angle between edge and grain. [deg]

    Returns
    -------
    float or array
        [psi]

    Raises
    ------
    OutOfRange
        If the stress is not finite or the angle not 0 to 90.

    Notes
    -----
    Changed from the source: nothing. How known: derived.

    Examples
    --------
    >>> round(stress_along(100.0, 30.0), 6)
    75.0
    """
    return finite("sigma_t", sigma_t, EDGE) * cos(_to_edge(phi)) ** 2


@formula(symbol="s_perp", clause=EDGE, unit="psi")
def stress_across(sigma_t: Number, phi: Number) -> Number:
    """Stress across the grain at a free edge.

    Parameters
    ----------
    sigma_t : float or array
        Stress along the edge, the only one there; tension positive. [psi]
    phi : float or array
        Angle between edge and grain. [deg]

    Returns
    -------
    float or array
        Tension positive. [psi]

    Raises
    ------
    OutOfRange
        If the stress is not finite or the angle not 0 to 90.

    Notes
    -----
    No reference value exists for tension across the grain of sawn lumber (NDS 2018 3.8.2). Changed from the source:
    nothing. How known: derived.

    Examples
    --------
    >>> round(stress_across(100.0, 30.0), 6)
    25.0
    """
    return finite("sigma_t", sigma_t, EDGE) * sin(_to_edge(phi)) ** 2


@formula(symbol="tau", clause=EDGE, unit="psi")
def stress_shear(sigma_t: Number, phi: Number) -> Number:
    """Shear stress along the grain at a free edge.

    Parameters
    ----------
    sigma_t : float or array
        Stress along the edge, the only one there; tension positive. [psi]
    phi : float or array
        Angle between edge and grain. [deg]

    Returns
    -------
    float or array
        With the sign of the edge stress. [psi]

    Raises
    ------
    OutOfRange
        If the stress is not finite or the angle not 0 to 90.

    Notes
    -----
    Changed from the source: nothing. How known: derived.

    Examples
    --------
    >>> round(stress_shear(100.0, 30.0), 3)
    43.301
    """
    return finite("sigma_t", sigma_t, EDGE) * sin(_to_edge(phi)) * cos(phi)


@formula(symbol="F_t_phi", clause=HANKINSON, unit="psi")
def hankinson_tension(F_par: Number, F_perp: Number, phi: Number) -> Number:
    """What an edge bears in tension at an angle to the grain.

    Parameters
    ----------
    F_par, F_perp : float or array
        What counts for tension along the grain, and across it: no standard gives the latter. [psi]
    phi : float or array
        Angle between edge and grain. [deg]

    Returns
    -------
    float or array
        [psi]

    Raises
    ------
    OutOfRange
        If a value is not positive, F_perp over F_par, or the angle not 0 to 90.

    Notes
    -----
    Use the smaller of this and `quadratic_index`. Changed from the source: the standard gives this form for
    compression; tests of small pieces (abstract read) found it to serve for tension. How known: memory.

    Examples
    --------
    >>> round(hankinson_tension(900.0, 15.0, 30.0), 1)
    57.1
    """
    F_par = positive("F_par", F_par, HANKINSON)
    F_perp = at_most("F_perp", F_perp, "F_par", F_par, HANKINSON)
    phi = _to_edge(phi)
    return F_par * F_perp / (F_par * sin(phi) ** 2 + F_perp * cos(phi) ** 2)


@formula(symbol="U", clause=QUADRATIC, unit="")
def quadratic_index(s_par: Number, s_perp: Number, tau: Number, F_par: Number, F_perp: Number, F_v: Number) -> Number:
    """Stresses along the grain, across it and in shear at one point, as a share of what they may be together.

    Parameters
    ----------
    s_par, s_perp, tau : float or array
        Stress along the grain, across it, and in shear; tension positive. [psi]
    F_par, F_perp, F_v : float or array
        What counts for each alone, for tension or compression as the sign of the stress is. [psi]

    Returns
    -------
    float or array
        Up to 1 is allowed; twice the stresses give twice the share. [-]

    Raises
    ------
    OutOfRange
        If a stress is not finite, a strength not positive, or F_perp over F_par.

    Notes
    -----
    The form with F_par F_perp in the second term is not used: it lets tension at 5 deg exceed F_par. Changed from the
    source: the square root, so that the result grows with the load. How known: memory.

    Examples
    --------
    >>> round(quadratic_index(75.0, 25.0, 43.3, 900.0, 15.0, 180.0), 4)
    1.6853
    """
    F_par = positive("F_par", F_par, QUADRATIC)
    F_perp = at_most("F_perp", F_perp, "F_par", F_par, QUADRATIC)
    s_par, s_perp = finite("s_par", s_par, QUADRATIC), finite("s_perp", s_perp, QUADRATIC)
    sheared = finite("tau", tau, QUADRATIC) / positive("F_v", F_v, QUADRATIC)
    return sqrt((s_par / F_par) ** 2 - s_par * s_perp / F_par**2 + (s_perp / F_perp) ** 2 + sheared**2)


@formula(symbol="U", clause="stress over strength", unit="")
def edge_tension_index(sigma_t: Number, F_t_phi: Number, U_q: Number) -> Number:
    """An edge in tension at an angle to its grain, by the less favourable of the two rules.

    Parameters
    ----------
    sigma_t : float or array
        Tension along the edge. [psi]
    F_t_phi : float or array
        What the edge bears by `hankinson_tension`. [psi]
    U_q : float or array
        Share by `quadratic_index`. [-]

    Returns
    -------
    float or array
        [-]

    Raises
    ------
    OutOfRange
        If a value is negative, or the strength not positive.

    Notes
    -----
    Changed from the source: nothing. How known: derived.

    Examples
    --------
    >>> edge_tension_index(100.0, 50.0, 1.7)
    2.0
    """
    return largest(not_negative("sigma_t", sigma_t) / positive("F_t_phi", F_t_phi), not_negative("U_q", U_q))


def _axes(E_L: Number, nu_LT: Number, psi: Number) -> tuple[Number, Number, Number, Number]:
    """E_L and nu_LT, checked, and the squares of cosine and sine of the angle."""
    E_L, nu_LT = positive("E_L", E_L, ORTHOTROPIC), not_negative("nu_LT", nu_LT, ORTHOTROPIC)
    psi = finite("psi", psi, ORTHOTROPIC)
    return E_L, nu_LT, cos(psi) ** 2, sin(psi) ** 2


def _possible(softness: Number) -> Number:
    because = "E_L, E_T, G_LT and nu_LT do not belong to one material: a direction has no stiffness"
    return valid(softness, softness > 0, because, ORTHOTROPIC)


def _to_edge(phi: Number) -> Number:
    return between("phi", phi, 0, 90, EDGE, "deg")
