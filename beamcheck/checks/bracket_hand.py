"""The hand rule for a solid bracket: plane sections three ways, times factors; beside the field analysis."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from ..analysis.outline import Outline
from ..formulas import bracket_fan as fan
from ..formulas import bracket_section_forces as sf
from ..formulas import bracket_sections as sec
from ..values.brackets import bracket_limit

Array = np.ndarray
PARTS = 60  # sections along the soffit
NOISE = 1e-9


@dataclass(frozen=True)
class Moduli:
    """psi, and the slope of the grain, deg."""

    E_L: float
    E_T: float
    G_LT: float
    nu_LT: float
    grain: float


@dataclass(frozen=True, eq=False)
class HandRule:
    """Sections from the wall outwards, (n,) each: where they begin on the top edge and meet the soffit, their depth,
    arm over depth, and the stresses at the top edge and at the soffit that the rule designs for, psi. `holds`: whether
    the rule covers the section."""

    x_0: Array
    x_s: Array
    y_s: Array
    d: Array
    arm: Array
    top: Array
    soffit: Array
    V: Array
    holds: Array


def hand_rule(
    outline: Outline, thickness: float, moduli: Moduli, beyond: tuple[Array, Array, Array], *, diagonal: bool
) -> HandRule:
    """The rule on equal-angle sections of the top leg.

    Parameters
    ----------
    beyond : (x, force, moment)
        Force and moment of the load outboard of places on the top edge, about those places; x grows.
    diagonal : bool
        Grain not along a leg, or an ogee or cusped soffit: the larger factor for the soffit.
    """
    alpha = outline.tangent
    point = outline.soffit
    good = (alpha >= 0.0) & (alpha <= 90.0)
    x_s, y_s, alpha = point[good, 0], point[good, 1], alpha[good]
    x_0 = np.asarray(x_s - y_s * np.tan(np.radians(alpha) / 2.0))
    on = (x_0 >= -NOISE) & (x_0 < outline.P - NOISE)
    x_s, y_s, alpha, x_0 = x_s[on], y_s[on], alpha[on], np.maximum(x_0[on], 0.0)
    order = np.argsort(x_0)
    keep = order[np.unique(np.linspace(0, max(order.size - 1, 0), PARTS).astype(int))] if order.size else order
    x_s, y_s, alpha, x_0 = x_s[keep], y_s[keep], alpha[keep], x_0[keep]
    x, force, moment = beyond
    Q, M_0 = np.interp(x_0, x, force), np.interp(x_0, x, moment)
    d = np.asarray(sf.equal_angle_depth(y_s, alpha))
    M = M_0 - Q * (0.5 * (x_0 + x_s) - x_0)
    N, V = np.asarray(sf.section_axial_force(Q, alpha)), np.asarray(sf.section_shear_force(Q, alpha))
    vertical_depth = np.array([outline.depth(float(min(one, outline.P))) for one in x_0])
    sigma_v = np.asarray(sec.vertical_edge_stress(M_0, thickness, vertical_depth))
    linear = np.asarray(sec.equal_angle_edge_stress_top(M, N, thickness, d, alpha))
    linear_s = np.asarray(sec.equal_angle_edge_stress_soffit(M, N, thickness, d, alpha))
    one = moduli
    E_0, E_1, E_2 = fan.fan_moments(one.E_L, one.E_T, one.G_LT, one.nu_LT, one.grain, alpha)
    eps_0 = fan.fan_mean_strain(M, N, thickness, d, E_0, E_1, E_2)
    eps_b = fan.fan_bending_strain(M, N, thickness, d, E_0, E_1, E_2)
    from ..formulas.off_axis import off_axis_modulus

    E_top = off_axis_modulus(one.E_L, one.E_T, one.G_LT, one.nu_LT, one.grain)
    E_sof = off_axis_modulus(one.E_L, one.E_T, one.G_LT, one.nu_LT, one.grain - alpha)
    fan_top = np.asarray(fan.fan_edge_stress_top(E_top, alpha, eps_0, eps_b))
    fan_sof = np.asarray(fan.fan_edge_stress_soffit(E_sof, alpha, eps_0, eps_b))
    k_top = bracket_limit("factor, stress along the top edge").value
    k_sof = bracket_limit(
        "factor, stress along the soffit, diagonal grain or ogee" if diagonal else "factor, stress along the soffit"
    ).value
    top = k_top * np.maximum(np.maximum(sigma_v, linear), fan_top)
    soffit = k_sof * np.maximum(np.abs(linear_s), np.abs(fan_sof))
    arm = np.where(Q > 0.0, M / np.where(Q > 0.0, Q * d, 1.0), 0.0)
    holds = (arm >= bracket_limit("least arm over depth").value) & (Q > 0.0)
    return HandRule(x_0, x_s, y_s, d, arm, top, soffit, V, holds)
