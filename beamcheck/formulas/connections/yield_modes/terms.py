"""What the yield equations of NDS 2018 Table 12.3.1A are made of: ratios, coefficients and the reduction term R_d.

D is the diameter used in the equations: the full one, or the root D_r where threads bear (12.3.7). D_nom is nominal.
"""

from __future__ import annotations

from typing import Annotated

from ....calc.core import Number, formula, sqrt, where
from ....calc.ranges import AcuteAngle, Positive, at_most, between
from ..ranges import LARGE, LATERAL, AnyDiameter

YIELD = "NDS 2018 Table 12.3.1A"

Diameter = Annotated[Number, at_most("D_nom")]
Direction = Annotated[Number, between(1, 1.25)]


@formula(symbol="R_e", clause=YIELD, unit="", known="memory; reproduces published tables")
def bearing_strength_ratio(F_em: Positive, F_es: Positive) -> Number:
    """Main member's dowel bearing strength over that of the side member.

    The main member holds the point, or is the middle one of three.

    >>> bearing_strength_ratio(5600.0, 2800.0)
    2.0
    """
    return F_em / F_es


@formula(symbol="R_t", clause=YIELD, unit="", known="memory; reproduces published tables")
def bearing_length_ratio(l_m: Positive, l_s: Positive) -> Number:
    """Bearing length in the main member over that in the side member.

    >>> bearing_length_ratio(3.0, 1.5)
    2.0
    """
    return l_m / l_s


@formula(symbol="k_1", clause=YIELD, unit="", known="memory; reproduces published tables")
def yield_coefficient_1(R_e: Positive, R_t: Positive) -> Number:
    """Coefficient of mode II.

    >>> round(yield_coefficient_1(1.0, 1.0), 4)
    0.4142
    """
    root = sqrt(R_e + 2 * R_e**2 * (1 + R_t + R_t**2) + R_t**2 * R_e**3)
    return (root - R_e * (1 + R_t)) / (1 + R_e)


@formula(symbol="k_2", clause=YIELD, unit="", known="memory; reproduces published tables")
def yield_coefficient_2(R_e: Positive, F_yb: Positive, D: AnyDiameter, F_em: Positive, l_m: Positive) -> Number:
    """Coefficient of mode III in the main member.

    >>> round(yield_coefficient_2(1.0, 45000.0, 0.5, 5600.0, 1.5), 4)
    1.4054
    """
    bent = 2 * F_yb * (1 + 2 * R_e) * D**2
    return -1 + sqrt(2 * (1 + R_e) + bent / (3 * F_em * l_m**2))


@formula(symbol="k_3", clause=YIELD, unit="", known="memory; reproduces published tables")
def yield_coefficient_3(R_e: Positive, F_yb: Positive, D: AnyDiameter, F_em: Positive, l_s: Positive) -> Number:
    """Coefficient of mode III in the side member.

    >>> round(yield_coefficient_3(1.0, 45000.0, 0.5, 5600.0, 1.5), 4)
    1.4054
    """
    return hinge_coefficient(R_e, F_yb, D, F_em, l_s)


def hinge_coefficient(R_e: Number, F_yb: Number, D: Number, F_em: Number, l_s: Number) -> Number:
    """k_3 for a dowel of any diameter and stuff."""
    bent = 2 * F_yb * (2 + R_e) * D**2
    return -1 + sqrt(2 * (1 + R_e) / R_e + bent / (3 * F_em * l_s**2))


@formula(symbol="K_theta", clause=LATERAL, unit="", known="memory; reproduces published tables")
def angle_coefficient(theta: AcuteAngle) -> Number:
    """Coefficient of the angle between load and grain.

    theta: the largest in any member of the joint.

    >>> angle_coefficient(90.0)
    1.25
    """
    return 1 + 0.25 * (theta / 90)


@formula(symbol="R_d_I", clause=LATERAL, unit="", known="memory; reproduces published tables")
def reduction_term_I(D: Diameter, D_nom: AnyDiameter, K_theta: Direction) -> Number:
    """Reduction term of modes Im and Is.

    D below 1/4 in with a nominal diameter of 1/4 in and more: threads of 1/4 and 5/16 in lag screws, of No. 16 and 18
    wood screws.

    >>> reduction_term_I(0.5, 0.5, 1.25)
    5.0
    >>> round(reduction_term_I(0.173, 0.25, 1.25), 4)
    2.7875
    """
    return _term(4, D, D_nom, K_theta)


@formula(symbol="R_d_II", clause=LATERAL, unit="", known="memory; reproduces published tables")
def reduction_term_II(D: Diameter, D_nom: AnyDiameter, K_theta: Direction) -> Number:
    """Reduction term of mode II.

    >>> reduction_term_II(0.5, 0.5, 1.25)
    4.5
    """
    return _term(3.6, D, D_nom, K_theta)


@formula(symbol="R_d_III", clause=LATERAL, unit="", known="memory; reproduces published tables")
def reduction_term_III_IV(D: Diameter, D_nom: AnyDiameter, K_theta: Direction) -> Number:
    """Reduction term of modes IIIm, IIIs and IV.

    >>> reduction_term_III_IV(0.5, 0.5, 1.25)
    4.0
    """
    return _term(3.2, D, D_nom, K_theta)


def _term(coefficient: float, D: Number, D_nom: Number, K_theta: Number) -> Number:
    """With K_D of a thin fastener, which has no angle factor where its nominal diameter is below 1/4 in too."""
    K_D = where(D <= 0.17, 2.2, 10 * D + 0.5)
    thin = where(D_nom >= LARGE, K_D * K_theta, K_D)
    return where(D >= LARGE, coefficient * K_theta, thin)
