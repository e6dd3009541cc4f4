"""Yield modes in two shear planes, NDS 2018 Table 12.3.1A: the least is the reference lateral design value Z.

The middle member is the main one; both side members are alike, or the weaker one stands for both (12.3.8, how:
memory). Conditions and D as in `single_shear`.
"""

from __future__ import annotations

from ....calc.core import Number, formula, smallest
from ....calc.ranges import Positive
from ..ranges import AnyDiameter
from .single_shear import hinge_in_side, two_hinges

TABLE = "NDS 2018 Table 12.3.1A"


@formula(symbol="Z_Im", clause=f"{TABLE} (eq. 12.3-7)", unit="lbf", known="memory; reproduces published tables")
def double_shear_Im(D: AnyDiameter, l_m: Positive, F_em: Positive, R_d_I: Positive) -> Number:
    """Mode Im: the middle member crushes; two shear planes. Once, not twice: the middle member is one.

    >>> double_shear_Im(0.5, 1.5, 7500.0, 4.0)
    1406.25
    """
    return D * l_m * F_em / R_d_I


@formula(symbol="Z_Is", clause=f"{TABLE} (eq. 12.3-8)", unit="lbf", known="memory; reproduces published tables")
def double_shear_Is(D: AnyDiameter, l_s: Positive, F_es: Positive, R_d_I: Positive) -> Number:
    """Mode Is: both side members crush; two shear planes.

    >>> double_shear_Is(0.5, 1.5, 7500.0, 4.0)
    2812.5
    """
    return 2 * D * l_s * F_es / R_d_I


@formula(symbol="Z_IIIs", clause=f"{TABLE} (eq. 12.3-9)", unit="lbf", known="memory; reproduces published tables")
def double_shear_IIIs(
    k_3: Positive, D: AnyDiameter, l_s: Positive, F_em: Positive, R_e: Positive, R_d_III: Positive
) -> Number:
    """Mode IIIs: one hinge at each plane, the side members crush; two shear planes.

    >>> round(double_shear_IIIs(1.4055, 0.5, 1.5, 5600.0, 1.0, 3.2), 1)
    1229.8
    """
    return 2 * hinge_in_side(k_3, D, l_s, F_em, R_e) / R_d_III


@formula(symbol="Z_IV", clause=f"{TABLE} (eq. 12.3-10)", unit="lbf", known="memory; reproduces published tables")
def double_shear_IV(D: AnyDiameter, F_em: Positive, F_yb: Positive, R_e: Positive, R_d_III: Positive) -> Number:
    """Mode IV: two hinges at each plane; two shear planes.

    >>> round(double_shear_IV(0.5, 5600.0, 45000.0, 1.0, 3.2), 1)
    1432.1
    """
    return 2 * two_hinges(D, F_em, F_yb, R_e) / R_d_III


@formula(symbol="Z", clause=TABLE, unit="lbf", known="memory; reproduces published tables")
def double_shear(Z_Im: Positive, Z_Is: Positive, Z_IIIs: Positive, Z_IV: Positive) -> Number:
    """Reference lateral design value of one fastener in two shear planes: the least of the four modes.

    No modes II and IIIm: the middle member keeps the fastener straight.

    >>> double_shear(1406.25, 2812.5, 1700.0, 1800.0)
    1406.25
    """
    return smallest(Z_Im, Z_Is, Z_IIIs, Z_IV)
