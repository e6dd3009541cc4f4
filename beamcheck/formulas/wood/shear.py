"""Shear parallel to grain (NDS 2018 3.4): stresses, loads near a support, notches, connections.

At a notch and at a connection the full shear counts: the allowances of 3.4.3.1 for loads near a support do not apply.
"""

from __future__ import annotations

from typing import Annotated

from ...calc.core import Number, formula, where
from ...calc.ranges import NotNegative, Positive, at_most, below

JOINT = "NDS 2018 3.4.3.3"

DepthLeft = Annotated[Number, at_most("d")]


@formula(symbol="f_v", clause="NDS 2018 3.4.2 (eq. 3.4-2)", unit="psi", known="read; second-hand")
def shear_stress(V: NotNegative, b: Positive, d: Positive) -> Number:
    """Shear stress of a whole rectangular section.

    >>> round(shear_stress(1000.0, 3.5, 7.25), 1)
    59.1
    """
    return 3 * V / (2 * b * d)


@formula(symbol="f_v", clause="NDS 2018 3.4.2 (eq. 3.4-1)", unit="psi", known="derived")
def shear_stress_round(V: NotNegative, A: Positive) -> Number:
    """Shear stress of a whole round section. V Q/(I b) at the middle of a circle.

    >>> round(shear_stress_round(1000.0, 78.54), 3)
    16.976
    """
    return 4 * V / (3 * A)


@formula(symbol="r_x", clause="NDS 2018 3.4.3.1(a)", unit="", known="memory")
def point_load_share(x: NotNegative, d: Positive) -> Number:
    """Share of a concentrated load near a support that is put on the beam for its shear.

    The load itself is multiplied, before the analysis: P at a from a simple support makes V = (x/d) P (1 - a/L) there,
    not (x/d) P less the whole P a/L that goes to the other support. Only with full bearing on one face and the load on
    the opposite one; not for a load hung from, or framed into, the side, a beam in a hanger, at a notch or connection.
    x: of the load from the face of the support.

    >>> [point_load_share(x, 10.0) for x in (0.0, 4.0, 12.0)]
    [0.0, 0.4, 1.0]
    """
    return where(x < d, x / d, 1.0)


@formula(symbol="V_r_prime", clause="NDS 2018 3.4.3.2(a) (eq. 3.4-3)", unit="lbf", known="memory")
def end_notch_tension_shear(F_v_prime: Positive, b: Positive, d: Positive, d_n: DepthLeft) -> Number:
    """Shear that a rectangular piece carries at an end notch on the tension side.

    For notches that 4.4.3 allows, which this does not ask.

    >>> round(end_notch_tension_shear(180.0, 1.5, 9.25, 7.25), 1)
    801.7
    """
    return 2 * F_v_prime * b * d_n / 3 * (d_n / d) ** 2


@formula(symbol="V_r_prime", clause="NDS 2018 3.4.3.2(e) (eq. 3.4-5)", unit="lbf", known="memory")
def end_notch_compression_shear(
    F_v_prime: Positive, b: Positive, d: Positive, d_n: DepthLeft, e: NotNegative
) -> Number:
    """Shear that a rectangular piece carries at an end notch on the compression side.

    With e over d_n the remaining depth is a beam of its own, as the clause says; at e = d_n both give the same.

    >>> [round(end_notch_compression_shear(180.0, 1.5, 9.25, 7.25, e), 1) for e in (0.0, 3.0, 20.0)]
    [1665.0, 1516.0, 1305.0]
    """
    return where(e <= d_n, 2 * F_v_prime * b / 3 * (d - (d - d_n) / d_n * e), 2 * F_v_prime * b * d_n / 3)


@formula(symbol="d_e", clause=JOINT, unit="in", known="memory")
def connection_depth(d: Positive, c_u: Annotated[Number, below("d")]) -> Number:
    """Effective depth at a connection.

    c_u: to the center of a bolt or lag screw, to the edge of a ring or plate.

    >>> connection_depth(11.25, 3.0)
    8.25
    """
    return d - c_u


@formula(symbol="V_r_prime", clause=f"{JOINT}(a) (eq. 3.4-6)", unit="lbf", known="memory")
def connection_shear_near_end(F_v_prime: Positive, b: Positive, d: Positive, d_e: DepthLeft) -> Number:
    """Shear that a piece carries at a connection less than 5 d from its end.

    >>> round(connection_shear_near_end(180.0, 3.5, 11.25, 8.25), 1)
    1863.4
    """
    return 2 * F_v_prime * b * d_e / 3 * (d_e / d) ** 2


@formula(symbol="V_r_prime", clause=f"{JOINT}(b) (eq. 3.4-7)", unit="lbf", known="memory")
def connection_shear_inner(F_v_prime: Positive, b: Positive, d_e: Positive) -> Number:
    """Shear that a piece carries at a connection 5 d or more from its end.

    >>> round(connection_shear_inner(180.0, 3.5, 8.25), 1)
    3465.0
    """
    return 2 * F_v_prime * b * d_e / 3


@formula(symbol="d_cut_max", clause="NDS 2018 4.4.3", unit="in", known="memory")
def end_notch_limit(d: Positive) -> Number:
    """Deepest notch at the end of a sawn bending member, for bearing over a support.

    >>> end_notch_limit(10.0)
    2.5
    """
    return d / 4


@formula(symbol="d_cut_max", clause="NDS 2018 4.4.3", unit="in", known="memory")
def inner_notch_limit(d: Positive) -> Number:
    """Deepest notch in the outer thirds of a single span of a sawn bending member.

    >>> inner_notch_limit(9.0)
    1.5
    """
    return d / 6
