"""Yield modes in one shear plane, NDS 2018 Table 12.3.1A: the least is the reference lateral design value Z.

m is the main member (it holds the point, or is the middle one), s the side member. D is the diameter used in the
equations. They hold where faces touch, the load is square to the fastener, and 12.5 and the penetration are kept.
"""

from __future__ import annotations

from ....calc.core import Number, formula, smallest, sqrt
from ....calc.ranges import Positive
from ..ranges import AnyDiameter

TABLE = "NDS 2018 Table 12.3.1A"


@formula(symbol="Z_Im", clause=f"{TABLE} (eq. 12.3-1)", unit="lbf", known="memory; reproduces published tables")
def single_shear_Im(D: AnyDiameter, l_m: Positive, F_em: Positive, R_d_I: Positive) -> Number:
    """Mode Im: the main member crushes; one shear plane.

    >>> single_shear_Im(0.5, 1.5, 5600.0, 4.0)
    1050.0
    """
    return D * l_m * F_em / R_d_I


@formula(symbol="Z_Is", clause=f"{TABLE} (eq. 12.3-2)", unit="lbf", known="memory; reproduces published tables")
def single_shear_Is(D: AnyDiameter, l_s: Positive, F_es: Positive, R_d_I: Positive) -> Number:
    """Mode Is: the side member crushes; one shear plane.

    >>> single_shear_Is(0.5, 1.5, 5600.0, 4.0)
    1050.0
    """
    return D * l_s * F_es / R_d_I


@formula(symbol="Z_II", clause=f"{TABLE} (eq. 12.3-3)", unit="lbf", known="memory; reproduces published tables")
def single_shear_II(k_1: Positive, D: AnyDiameter, l_s: Positive, F_es: Positive, R_d_II: Positive) -> Number:
    """Mode II: the stiff fastener tilts; one shear plane.

    >>> round(single_shear_II(0.41421356, 0.5, 1.5, 5600.0, 3.6), 1)
    483.2
    """
    return k_1 * D * l_s * F_es / R_d_II


@formula(symbol="Z_IIIm", clause=f"{TABLE} (eq. 12.3-4)", unit="lbf", known="memory; reproduces published tables")
def single_shear_IIIm(
    k_2: Positive, D: AnyDiameter, l_m: Positive, F_em: Positive, R_e: Positive, R_d_III: Positive
) -> Number:
    """Mode IIIm: one hinge, the main member crushes; one shear plane.

    >>> round(single_shear_IIIm(1.4055, 0.5, 1.5, 5600.0, 1.0, 3.2), 1)
    614.9
    """
    return k_2 * D * l_m * F_em / ((1 + 2 * R_e) * R_d_III)


@formula(symbol="Z_IIIs", clause=f"{TABLE} (eq. 12.3-5)", unit="lbf", known="memory; reproduces published tables")
def single_shear_IIIs(
    k_3: Positive, D: AnyDiameter, l_s: Positive, F_em: Positive, R_e: Positive, R_d_III: Positive
) -> Number:
    """Mode IIIs: one hinge, the side member crushes; one shear plane.

    It is F_em that stands in the numerator, also here.

    >>> round(single_shear_IIIs(1.4055, 0.5, 1.5, 5600.0, 1.0, 3.2), 1)
    614.9
    """
    return hinge_in_side(k_3, D, l_s, F_em, R_e) / R_d_III


@formula(symbol="Z_IV", clause=f"{TABLE} (eq. 12.3-6)", unit="lbf", known="memory; reproduces published tables")
def single_shear_IV(D: AnyDiameter, F_em: Positive, F_yb: Positive, R_e: Positive, R_d_III: Positive) -> Number:
    """Mode IV: two hinges; one shear plane.

    >>> round(single_shear_IV(0.5, 5600.0, 45000.0, 1.0, 3.2), 1)
    716.0
    """
    return two_hinges(D, F_em, F_yb, R_e) / R_d_III


@formula(symbol="Z", clause=TABLE, unit="lbf", known="memory; reproduces published tables")
def single_shear(
    Z_Im: Positive, Z_Is: Positive, Z_II: Positive, Z_IIIm: Positive, Z_IIIs: Positive, Z_IV: Positive
) -> Number:
    """Reference lateral design value of one fastener in one shear plane: the least of the six modes.

    >>> single_shear(1050.0, 1050.0, 483.2, 614.8, 614.8, 716.0)
    483.2
    """
    return smallest(Z_Im, Z_Is, Z_II, Z_IIIm, Z_IIIs, Z_IV)


def hinge_in_side(k_3: Number, D: Number, l_s: Number, F_em: Number, R_e: Number) -> Number:
    """Mode IIIs at one plane, before the reduction term."""
    return k_3 * D * l_s * F_em / (2 + R_e)


def two_hinges(D: Number, F_em: Number, F_yb: Number, R_e: Number) -> Number:
    """Mode IV at one plane, before the reduction term."""
    return D**2 * sqrt(2 * F_em * F_yb / (3 * (1 + R_e)))
