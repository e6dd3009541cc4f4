"""A bent arc of constant depth: stress along its edges, stress across it, and its stiffness (curved-bar theory).

r_i and r_o are the radii of the hollow and of the full side, r_m that of the middle. M is positive when it straightens
the arc and N is tension; a load that hangs on the nose of a bracket closes the arc and compresses its hollow side.
"""

from __future__ import annotations

import math

import numpy as np

from ...calc.core import Number, cos, formula, sin, smallest, valid
from ...calc.ranges import between, given, not_negative, positive, reduction
from ..connections.ranges import at_least, finite

BAR = "curved-bar theory (Winkler-Bach)"
FIT = "fit to plane stress models"
RADIAL = "NDS 2018 5.4.1"
RADIAL_VALUE = "NDS 2018 5.2.8"
ENERGY = "curved-bar theory (Castigliano)"

TIGHTEST = 0.55  # depth over radius of the tightest arc that the fit rests on


def neutral_radius(d: float, r_o: float, r_i: float) -> float:
    """Radius of the layer that a moment alone leaves unstressed: d over the logarithm of r_o/r_i, inches.

    Floats or arrays. Beside the formulas, since they know no logarithm. Curved-bar theory (Winkler-Bach), read.
    """
    r_i, r_o = positive("r_i", r_i, BAR), positive("r_o", r_o, BAR)
    because = f"the depth d must be r_o less r_i{given(d)}"
    d = valid(positive("d", d, BAR), abs(d - (r_o - r_i)) <= 1e-9 * r_o, because, BAR)
    radius: float = d / np.log(r_o / r_i)
    return radius


@formula(symbol="e_c", clause=BAR, unit="in")
def neutral_shift(r_i: Number, d: Number, r_n: Number) -> Number:
    """How far the neutral layer of a bent bar lies inside its middle.

    Parameters
    ----------
    r_i : float or array
        Radius of the hollow side. [in]
    d : float or array
        Depth of the bar. [in]
    r_n : float or array
        Radius of the neutral layer, of `neutral_radius`. [in]

    Returns
    -------
    float or array
        [in]

    Raises
    ------
    OutOfRange
        If a value is not positive, or the neutral layer not inside the middle.

    Notes
    -----
    Changed from the source: nothing. How known: read.

    Examples
    --------
    >>> round(neutral_shift(2.0, 2.0, 2.88539), 5)
    0.11461
    """
    r_n = positive("r_n", r_n, BAR)
    middle = positive("r_i", r_i, BAR) + positive("d", d, BAR) / 2
    inside = (r_n > r_i) & (r_n < middle)
    because = f"r_n must lie between r_i and the middle, r_i + d/2{given(r_n)}"
    return middle - valid(r_n, inside, because, BAR)


@formula(symbol="sigma_i", clause=BAR, unit="psi")
def curved_inner_stress(M: Number, N: Number, A: Number, e_c: Number, r_n: Number, r_i: Number) -> Number:
    """Stress along the hollow side of a bent bar.

    Parameters
    ----------
    M : float or array
        Moment about the middle, straightening when positive. [lbf*in]
    N : float or array
        Force along the bar, tension positive. [lbf]
    A : float or array
        Area of the section. [in2]
    e_c : float or array
        Shift of the neutral layer. [in]
    r_n, r_i : float or array
        Radius of the neutral layer and of the hollow side. [in]

    Returns
    -------
    float or array
        Tension positive. [psi]

    Raises
    ------
    OutOfRange
        If a force is not finite, a size not positive, or r_n less than r_i.

    Notes
    -----
    Wood whose grain follows the arc gives more: `grain_following_factor`. Changed from the source: nothing. How known:
    read.

    Examples
    --------
    >>> round(curved_inner_stress(-259.808, -86.603, 3.0, 0.11461, 2.88539, 2.0), 1)
    -363.4
    """
    away = at_least("r_n", r_n, "r_i", positive("r_i", r_i, BAR), BAR) - r_i
    return _even(N, A) + finite("M", M, BAR) * away / (A * positive("e_c", e_c, BAR) * r_i)


@formula(symbol="sigma_o", clause=BAR, unit="psi")
def curved_outer_stress(M: Number, N: Number, A: Number, e_c: Number, r_n: Number, r_o: Number) -> Number:
    """Stress along the full side of a bent bar.

    Parameters
    ----------
    M : float or array
        Moment about the middle, straightening when positive. [lbf*in]
    N : float or array
        Force along the bar, tension positive. [lbf]
    A : float or array
        Area of the section. [in2]
    e_c : float or array
        Shift of the neutral layer. [in]
    r_n, r_o : float or array
        Radius of the neutral layer and of the full side. [in]

    Returns
    -------
    float or array
        Tension positive. [psi]

    Raises
    ------
    OutOfRange
        If a force is not finite, a size not positive, or r_o less than r_n.

    Notes
    -----
    Changed from the source: nothing. How known: read.

    Examples
    --------
    >>> round(curved_outer_stress(-259.808, -86.603, 3.0, 0.11461, 2.88539, 4.0), 1)
    181.7
    """
    away = at_least("r_o", r_o, "r_n", positive("r_n", r_n, BAR), BAR) - r_n
    return _even(N, A) - finite("M", M, BAR) * away / (A * positive("e_c", e_c, BAR) * r_o)


@formula(symbol="k_g", clause=FIT, unit="")
def grain_following_factor(d: Number, r_m: Number) -> Number:
    """Factor on the stress at the hollow side of a bent bar whose grain follows the arc.

    Parameters
    ----------
    d : float or array
        Depth of the bar. [in]
    r_m : float or array
        Radius of its middle; d is at most 0.55 of it. [in]

    Returns
    -------
    float or array
        [-]

    Raises
    ------
    OutOfRange
        If a size is not positive, or the arc tighter than the models were.

    Notes
    -----
    For moduli along and across the grain about 15 to 20 apart; rests on two models, d/r_m 0.22 and 0.55. Changed from
    the source: nothing. How known: derived.

    Examples
    --------
    >>> round(grain_following_factor(2.0, 9.0), 4)
    1.0889
    """
    tightness = positive("d", d, FIT) / positive("r_m", r_m, FIT)
    because = f"d must be at most {TIGHTEST:g} of r_m, the tightest arc that was modelled{given(tightness)}"
    return 1 + 0.4 * valid(tightness, tightness <= TIGHTEST, because, FIT)


@formula(symbol="f_r", clause=RADIAL, unit="psi")
def radial_stress(M: Number, r_m: Number, t: Number, d: Number) -> Number:
    """Largest stress across a bent bar, at the middle of its depth.

    Parameters
    ----------
    M : float or array
        Moment, without sign. [lbf*in]
    r_m : float or array
        Radius of the bar's middle. [in]
    t, d : float or array
        Thickness and depth. [in]

    Returns
    -------
    float or array
        Tension when the moment straightens the arc, compression when it closes it. [psi]

    Raises
    ------
    OutOfRange
        If the moment is negative or a size not positive.

    Notes
    -----
    Plane stress models gave 0.98 to 1.06 of it. Changed from the source: nothing. How known: memory.

    Examples
    --------
    >>> round(radial_stress(779.42, 9.0, 1.5, 2.0), 2)
    43.3
    """
    size = positive("r_m", r_m, RADIAL) * positive("t", t, RADIAL) * positive("d", d, RADIAL)
    return 3 * not_negative("M", M, RADIAL) / (2 * size)


@formula(symbol="F_rt", clause=RADIAL_VALUE, unit="psi")
def radial_tension_third(F_v_prime: Number, C_vr: Number) -> Number:
    """Radial tension of glued laminated timber as a third of its shear value.

    Parameters
    ----------
    F_v_prime : float or array
        Adjusted shear design value. [psi]
    C_vr : float or array
        Shear reduction that goes with it, at most 1. [-]

    Returns
    -------
    float or array
        [psi]

    Raises
    ------
    OutOfRange
        If the value is not positive or the factor not above 0 and at most 1.

    Notes
    -----
    All loads for southern pine; wind and earthquake only for western softwoods, which otherwise have 15 psi (see
    `radial_tension_value`). No rule for sawn or bent solid wood. Changed from the source: nothing. How known: memory.

    Examples
    --------
    >>> round(radial_tension_third(265.0, 0.72), 2)
    63.6
    """
    return positive("F_v_prime", F_v_prime, RADIAL_VALUE) * reduction("C_vr", C_vr, RADIAL_VALUE) / 3


@formula(symbol="F_rt", clause=RADIAL_VALUE, unit="psi")
def radial_tension_value(F_rt_3: Number, F_rt_max: Number) -> Number:
    """Radial tension value where the rules set a limit of its own.

    Parameters
    ----------
    F_rt_3 : float or array
        A third of the shear value, of `radial_tension_third`. [psi]
    F_rt_max : float or array
        The limit of the wood and loads at hand. [psi]

    Returns
    -------
    float or array
        [psi]

    Raises
    ------
    OutOfRange
        If a value is not positive.

    Notes
    -----
    Changed from the source: nothing. How known: memory.

    Examples
    --------
    >>> radial_tension_value(63.6, 15.0)
    15.0
    """
    return smallest(positive("F_rt_3", F_rt_3, RADIAL_VALUE), positive("F_rt_max", F_rt_max, RADIAL_VALUE))


@formula(symbol="k_n", clause=ENERGY, unit="lbf/in")
def curved_bar_stiffness(E_L: Number, G_LT: Number, A: Number, r_m: Number, e_c: Number, phi_b: Number) -> Number:
    """Force at the nose of a bent bar, square to it there, over the nose's movement; the other end is held fast.

    Parameters
    ----------
    E_L, G_LT : float or array
        Modulus along the bar, and shear modulus. [psi]
    A : float or array
        Area of the section. [in2]
    r_m : float or array
        Radius of the bar's middle. [in]
    e_c : float or array
        Shift of the neutral layer, less than r_m. [in]
    phi_b : float or array
        Angle from the held end to the nose, 1 to 180. [deg]

    Returns
    -------
    float or array
        [lbf/in]

    Raises
    ------
    OutOfRange
        If a value is not positive, e_c not less than r_m, or the angle out of range.

    Notes
    -----
    Bending, force along the bar and their mixed term, and shear with 1.2. Plane stress models gave 0.93 to 0.99 of it:
    an upper value. Changed from the source: nothing. How known: derived.

    Examples
    --------
    >>> round(curved_bar_stiffness(1.6e6, 615384.6, 3.0, 3.0, 0.1146099, 90.0))
    71996
    """
    r_m, e_c = positive("r_m", r_m, ENERGY), positive("e_c", e_c, ENERGY)
    e_c = valid(e_c, e_c < r_m, f"e_c must be less than r_m{given(e_c)}", ENERGY)
    phi_b = between("phi_b", phi_b, 1, 180, ENERGY, "deg")
    A, half, both = positive("A", A, ENERGY), math.pi * phi_b / 360, sin(phi_b) * cos(phi_b) / 2
    bending = (half - both) * (r_m / e_c - 1) / positive("E_L", E_L, ENERGY)
    return A / (r_m * (bending + 1.2 * (half + both) / positive("G_LT", G_LT, ENERGY)))


def _even(N: Number, A: Number) -> Number:
    return finite("N", N, BAR) / positive("A", A, BAR)
