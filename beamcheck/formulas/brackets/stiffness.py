"""Stiffness of a solid bracket's body under a force near its nose: sums of strain energy over its sections.

Beside the formulas, since they are integrals over a shape that is given by points. Neither is a bound by itself:
against plane stress models of bodies bonded to their wall they gave 0.57 to 2.5 (vertical) and 0.87 to 3.1 (fan) times
the stiffness, and far more with anchors, which they leave out: `bracket_anchor.bracket_stiffness` puts those in series.
"""

from __future__ import annotations

import numpy as np
from numpy.typing import ArrayLike, NDArray

from ...calc.ranges import positive
from ...errors import OutOfRange
from ..wood.off_axis import off_axis_modulus, off_axis_shear_modulus
from .fan_sections import fan_bending_strain, fan_mean_strain, fan_moments
from .section_forces import soffit_slope

SHEAR = 1.2  # rectangle

Array = NDArray[np.float64]


def vertical_stiffness(
    x: ArrayLike, d: ArrayLike, m: ArrayLike, v: ArrayLike, *, t: float, E_x: float, G_x: float
) -> float:
    """Stiffness by vertical sections: 1/k = integral of m^2/(E_x I) + 1.2 v^2/(G_x A) over x, lbf/in.

    Parameters
    ----------
    x, d : array of n
        Places of the sections from the wall face outwards, and their depths, in.
    m, v : array of n
        Moment (in) and shear (-) there per unit of load. For a load spread evenly over a length, with m and v of that,
        k is the load over the mean sinking of the length.
    t : float
        Thickness, in.
    E_x, G_x : float
        Moduli for a level direction, psi: `off_axis_modulus` and `off_axis_shear_modulus` at the slope of the grain.

    Raises
    ------
    OutOfRange
        If the arrays are unlike, x does not grow, or a depth, thickness or modulus is not positive.

    Notes
    -----
    Trapezoids between the sections. Elementary beam theory, derived.
    """
    x, d, m, v = _columns(x=x, d=d, m=m, v=v)
    if not (np.diff(x) >= 0).all():
        raise OutOfRange("x must grow from the wall face outwards")
    if not (d > 0).all():
        raise OutOfRange("each depth d must be above 0")
    t, E_x, G_x = positive("t", t), positive("E_x", E_x), positive("G_x", G_x)
    bending = m**2 / (E_x * t * d**3 / 12)
    shear = SHEAR * v**2 / (G_x * t * d)
    return _inverse(np.sum(np.diff(x) * _between(bending + shear)))


def fan_stiffness(
    x_s: ArrayLike, y_s: ArrayLike, alpha_s: ArrayLike, *, t: float, x_L: float, theta_g: float, E_L: float, E_T: float,
    G_LT: float, nu_LT: float, w_out: float | None = None,
) -> float:  # fmt: skip
    """Stiffness by equal-angle sections weighed by modulus, lbf/in: the upper value of the body.

    Parameters
    ----------
    x_s, y_s, alpha_s : array of n
        Soffit points from foot to nose, from the wall face and below the top edge, in; slopes there, 0 to 90 deg.
    t, x_L : float
        Thickness, and the load's distance from the wall face, in.
    theta_g : float
        Slope of the grain, deg.
    E_L, E_T, G_LT, nu_LT : float
        Moduli (psi) and ratio in the plane of the bracket.
    w_out : float or None
        Length of the top edge, in, when the load is spread evenly over all of it; its middle is then x_L.

    Raises
    ------
    OutOfRange
        If the arrays are unlike, a slope out of range, a size or modulus not positive, or no section lies between the
        wall and the load.

    Notes
    -----
    Energy of normal force, moment and shear along the line of the sections' middles, for sections that start on the top
    edge and whose middle lies inside of x_L. Layers count with E_off alone (`fan_moments`, not narrowed), which is the
    form that the comparison with plane stress models rests on; narrowed ones would give 0.91 to 0.95 of it. Derived.
    """
    x_s, y_s, alpha_s = _columns(x_s=x_s, y_s=y_s, alpha_s=alpha_s)
    for each in alpha_s:
        soffit_slope(float(each))
    t, x_L = positive("t", t), positive("x_L", x_L)
    half = np.radians(alpha_s / 2)
    x_0, d = x_s - y_s * np.tan(half), y_s / np.cos(half)
    x_m, y_m = (x_0 + x_s) / 2, y_s / 2
    if w_out is None:
        P_o, moment = np.ones_like(x_0), x_L - x_m
    else:
        P_o = (positive("w_out", w_out) - x_0) / w_out
        moment = P_o * ((w_out + x_0) / 2 - x_m)
    N, V = -P_o * np.sin(half), P_o * np.cos(half)
    E_0, E_1, E_2 = fan_moments(E_L, E_T, G_LT, nu_LT, theta_g, alpha_s, narrowed=False)
    inputs = {"M": moment, "N": N, "t": t, "d": d, "E_0": E_0, "E_1": E_1, "E_2": E_2}
    energy = N * fan_mean_strain(**inputs) + moment * fan_bending_strain(**inputs) / d
    G = off_axis_shear_modulus(E_L, E_T, G_LT, nu_LT, theta_g - alpha_s / 2)
    energy = energy + SHEAR * V**2 / (G * t * d)
    length = np.hypot(np.diff(x_m), np.diff(y_m))
    counted = (_between(x_0) >= 0) & (_between(x_m) < x_L)
    if not counted.any():
        raise OutOfRange("no equal-angle section lies between the wall face and the load at x_L")
    return _inverse(np.sum(length[counted] * _between(energy)[counted]))


def level_moduli(E_L: float, E_T: float, G_LT: float, nu_LT: float, theta_g: float) -> tuple[float, float]:
    """E_x and G_x of `vertical_stiffness`, psi, for wood whose grain rises by theta_g (deg). Derived."""
    inputs = {"E_L": E_L, "E_T": E_T, "G_LT": G_LT, "nu_LT": nu_LT, "psi": theta_g}
    return float(off_axis_modulus(**inputs)), float(off_axis_shear_modulus(**inputs))


def _columns(**given: ArrayLike) -> list[Array]:
    columns = [np.asarray(each, dtype=float) for each in given.values()]
    if any(each.ndim != 1 or each.shape != columns[0].shape or len(each) < 2 for each in columns):
        raise OutOfRange(f"{', '.join(given)} must be rows of equal length, two or more")
    if not all(np.isfinite(each).all() for each in columns):
        raise OutOfRange(f"{', '.join(given)} must be finite numbers")
    return columns


def _between(values: Array) -> Array:
    return (values[1:] + values[:-1]) / 2


def _inverse(softness: np.float64) -> float:
    if not softness > 0:
        raise OutOfRange("the load strains no section: it must lie beyond the wall face")
    return float(1 / softness)
