"""Rolled W shapes in bending, shear and under concentrated forces (AISC 360-16 F2, G2, J10; ASD: R_n/Omega).

Section properties are those of the three plates of the shape; the fillets, which add one or two per cent, are left out.
"""

from __future__ import annotations

import math

from ...calc.core import Number, formula, smallest, sqrt, where
from ...calc.ranges import NotNegative, Positive

PLATES, BENDS, WEB = "mechanics of materials", "AISC 360-16 F2", "AISC 360-16 J10"


@formula(symbol="A", clause=PLATES, unit="in2", known="derived")
def shape_area(d: Positive, b_f: Positive, t_f: Positive, t_web: Positive) -> Number:
    """Area of two flanges and the web between them.

    >>> round(shape_area(8.14, 5.25, 0.33, 0.23), 3)
    5.185
    """
    return 2 * b_f * t_f + (d - 2 * t_f) * t_web


@formula(symbol="I_x", clause=PLATES, unit="in4", known="derived")
def shape_inertia(d: Positive, b_f: Positive, t_f: Positive, t_web: Positive) -> Number:
    """Moment of inertia about the strong axis.

    >>> round(shape_inertia(8.14, 5.25, 0.33, 0.23), 2)
    60.89
    """
    return (b_f * d**3 - (b_f - t_web) * (d - 2 * t_f) ** 3) / 12


@formula(symbol="I_y", clause=PLATES, unit="in4", known="derived")
def shape_inertia_weak(d: Positive, b_f: Positive, t_f: Positive, t_web: Positive) -> Number:
    """Moment of inertia about the weak axis.

    >>> round(shape_inertia_weak(8.14, 5.25, 0.33, 0.23), 3)
    7.966
    """
    return (2 * t_f * b_f**3 + (d - 2 * t_f) * t_web**3) / 12


@formula(symbol="S_x", clause=PLATES, unit="in3", known="derived")
def shape_modulus(I_x: Positive, d: Positive) -> Number:
    """Elastic section modulus about the strong axis.

    >>> round(shape_modulus(60.9, 8.14), 2)
    14.96
    """
    return 2 * I_x / d


@formula(symbol="Z_x", clause=PLATES, unit="in3", known="derived")
def shape_plastic_modulus(d: Positive, b_f: Positive, t_f: Positive, t_web: Positive) -> Number:
    """Plastic section modulus about the strong axis.

    >>> round(shape_plastic_modulus(8.14, 5.25, 0.33, 0.23), 2)
    16.75
    """
    return b_f * t_f * (d - t_f) + t_web * (d - 2 * t_f) ** 2 / 4


@formula(symbol="J", clause=PLATES, unit="in4", known="derived")
def shape_torsion(d: Positive, b_f: Positive, t_f: Positive, t_web: Positive) -> Number:
    """Torsion constant, as of three thin plates.

    >>> round(shape_torsion(8.14, 5.25, 0.33, 0.23), 4)
    0.1575
    """
    return (2 * b_f * t_f**3 + (d - t_f) * t_web**3) / 3


@formula(symbol="r_y", clause=PLATES, unit="in", known="derived")
def weak_radius(I_y: Positive, A: Positive) -> Number:
    """Radius of gyration about the weak axis.

    >>> round(weak_radius(7.966, 5.185), 3)
    1.239
    """
    return sqrt(I_y / A)


@formula(symbol="r_ts", clause=f"{BENDS} (eq. F2-7)", unit="in", known="memory")
def torsion_radius(I_y: Positive, h_o: Positive, S_x: Positive) -> Number:
    """Effective radius of gyration; of a doubly symmetric shape C_w is I_y h_o^2/4.

    h_o: between the middles of the flanges.

    >>> round(torsion_radius(7.966, 7.81, 14.96), 3)
    1.442
    """
    return sqrt(I_y * h_o / (2 * S_x))


@formula(symbol="L_p", clause=f"{BENDS} (eq. F2-5)", unit="in", known="memory")
def plastic_length(r_y: Positive, E_steel: Positive, F_y: Positive) -> Number:
    """Unbraced length up to which the shape yields before it turns over.

    >>> round(plastic_length(1.23, 29.0e6, 50000.0), 1)
    52.1
    """
    return 1.76 * r_y * sqrt(E_steel / F_y)


@formula(symbol="L_rs", clause=f"{BENDS} (eq. F2-6)", unit="in", known="memory")
def elastic_length(
    r_ts: Positive, E_steel: Positive, F_y: Positive, J: Positive, S_x: Positive, h_o: Positive
) -> Number:
    """Unbraced length from which it turns over while still elastic.

    >>> round(elastic_length(1.43, 29.0e6, 50000.0, 0.172, 15.2, 7.81), 1)
    161.8
    """
    twist = J / (S_x * h_o)
    return 1.95 * r_ts * (E_steel / (0.7 * F_y)) * sqrt(twist + sqrt(twist**2 + 6.76 * (0.7 * F_y / E_steel) ** 2))


@formula(symbol="F_cr", clause=f"{BENDS} (eq. F2-4)", unit="psi", known="memory")
def lateral_buckling_stress(
    E_steel: Positive, L_b: Positive, r_ts: Positive, J: Positive, S_x: Positive, h_o: Positive
) -> Number:
    """Stress at which the shape turns over while still elastic, for an even moment (C_b of steel 1).

    >>> round(lateral_buckling_stress(29.0e6, 240.0, 1.43, 0.172, 15.2, 7.81))
    20783
    """
    slender = L_b / r_ts
    return (math.pi / slender) ** 2 * E_steel * sqrt(1 + 0.078 * J / (S_x * h_o) * slender**2)


@formula(symbol="M_a", clause=f"{BENDS} (eq. F2-1 to F2-3)", unit="lbf*in", known="memory")
def shape_bending(
    F_y: Positive, Z_x: Positive, S_x: Positive, L_b: NotNegative, L_p: Positive, L_rs: Positive, F_cr: Positive
) -> Number:
    """Allowable moment of a compact W shape (Omega 1.67), for an even moment between braces.

    The straight line from L_p to L_rs is that of the standard with C_b = 1, which is on the safe side.

    >>> round(shape_bending(50000.0, 17.0, 15.2, 0.0, 52.1, 162.1, 50000.0))
    508982
    """
    M_p = F_y * Z_x
    sloped = M_p - (M_p - 0.7 * F_y * S_x) * (L_b - L_p) / (L_rs - L_p)
    return where(L_b <= L_p, M_p, where(L_b <= L_rs, sloped, smallest(F_cr * S_x, M_p))) / 1.67


@formula(symbol="V_a", clause="AISC 360-16 G2.1", unit="lbf", known="memory")
def web_shear(F_y: Positive, d: Positive, t_web: Positive) -> Number:
    """Allowable shear of the web (Omega 1.67, that of every web; rolled stocky ones would have 1.50).

    >>> round(web_shear(50000.0, 8.14, 0.23))
    33632
    """
    return 0.6 * F_y * d * t_web / 1.67


@formula(symbol="R_a", clause=f"{WEB}.2 (eq. J10-3)", unit="lbf", known="memory")
def web_yielding(F_y: Positive, t_web: Positive, k_des: Positive, l_b: Positive) -> Number:
    """Allowable force on a flange near an end, where the web yields (Omega 1.50).

    k_des: from the outer face of the flange to the toe of the fillet.

    >>> round(web_yielding(50000.0, 0.23, 0.33, 3.5))
    33158
    """
    return F_y * t_web * (2.5 * k_des + l_b) / 1.50


@formula(symbol="R_a", clause=f"{WEB}.3 (eq. J10-5a, J10-5b)", unit="lbf", known="memory")
def web_crippling(
    F_y: Positive, E_steel: Positive, d: Positive, t_f: Positive, t_web: Positive, l_b: Positive
) -> Number:
    """Allowable force on a flange near an end, where the web folds (Omega 2.00).

    The first branch is for seats up to a fifth of the depth long.

    >>> round(web_crippling(50000.0, 29.0e6, 8.14, 0.33, 0.23, 3.5))
    28756
    """
    thin = (t_web / t_f) ** 1.5
    whole = 0.40 * t_web**2 * sqrt(E_steel * F_y * t_f / t_web) / 2
    return where(l_b / d <= 0.2, whole * (1 + 3 * (l_b / d) * thin), whole * (1 + (4 * l_b / d - 0.2) * thin))


@formula(symbol="R_a", clause=f"{WEB}.4 (eq. J10-7)", unit="lbf", known="memory")
def web_sidesway(C_sway: Positive, t_web: Positive, t_f: Positive, h_web: Positive, slender_web: Positive) -> Number:
    """Allowable force on a flange whose pulled flange may slip sideways (Omega 1.76), the pressed one free to turn.

    C_sway: 960,000,000 psi below first yield (1.5 times the moment under service loads), else half of it.
    slender_web: (h/t_w)/(L_b/b_f); above 1.7 it does not govern.

    >>> round(web_sidesway(960.0e6, 0.23, 0.33, 7.48, 0.8))
    8016
    """
    return C_sway * t_web**3 * t_f / h_web**2 * 0.4 * slender_web**3 / 1.76


@formula(symbol="slender_web", clause=f"{WEB}.4", unit="", known="memory")
def web_over_flange(h_web: Positive, t_web: Positive, L_b: Positive, b_f: Positive) -> Number:
    """Slenderness of the web over that of the flange between its braces.

    >>> round(web_over_flange(7.48, 0.23, 120.0, 5.25), 3)
    1.423
    """
    return (h_web / t_web) / (L_b / b_f)


@formula(symbol="t_need", clause="AISC 360-16 F11, bearing plates", unit="in", known="derived")
def flange_over_seat(p_seat: NotNegative, n_out: NotNegative, F_y: Positive) -> Number:
    """Thickness that a flange needs to spread its force over a seat as broad as itself (Omega 1.67).

    p_seat: pressure on the seat; n_out: how far the flange stands out beyond the web.

    >>> round(flange_over_seat(400.0, 2.51, 50000.0), 3)
    0.41
    """
    return n_out * sqrt(2 * 1.67 * p_seat / F_y)


@formula(symbol="slenderness", clause="AISC 360-16 Table B4.1b", unit="", known="memory")
def half_flange_over_thickness(b_f: Positive, t_f: Positive) -> Number:
    """Slenderness of a flange.

    >>> round(half_flange_over_thickness(5.25, 0.33), 3)
    7.955
    """
    return b_f / (2 * t_f)


@formula(symbol="slenderness_max", clause="AISC 360-16 Table B4.1b", unit="", known="memory")
def compact_flange_limit(E_steel: Positive, F_y: Positive) -> Number:
    """Slenderness up to which a rolled flange is compact.

    >>> round(compact_flange_limit(29.0e6, 50000.0), 3)
    9.152
    """
    return 0.38 * sqrt(E_steel / F_y)


@formula(symbol="slenderness_max", clause="AISC 360-16 G2.1(b)", unit="", known="memory")
def stocky_web_limit(E_steel: Positive, F_y: Positive) -> Number:
    """Slenderness up to which a web without stiffeners yields in shear; in bending it is compact up to more.

    >>> round(stocky_web_limit(29.0e6, 50000.0), 2)
    61.22
    """
    return 1.10 * sqrt(5.34 * E_steel / F_y)
