"""Tension, and bending with tension or compression (NDS 2018 3.8, 3.9); columns loaded off their axis (15.4).

Axis 1 is edgewise: load on the narrow face, d_1 the deep side, F_b1' with C_L. Axis 2 is flatwise: d_2 the thin side,
F_b2' with C_fu. F_c' goes with the smaller C_P of the two ways to buckle. A buckling stress, from l_e1/d_1 or
l_e2/d_2, is infinite where the piece is held along its whole length. U is a share of what is allowed; stresses have no
sign.
"""

from __future__ import annotations

from typing import Annotated

from ...calc.core import Number, formula, valid
from ...calc.ranges import NotNegative, Positive, PositiveOrInfinite, below, shown

ECCENTRIC = "NDS 2018 15.4.1"
BUCKLES = "the piece buckles"


@formula(symbol="f_t", clause="NDS 2018 3.8.1", unit="psi", known="memory")
def tension_stress(T: NotNegative, A_n: Positive) -> Number:
    """Tension stress on the net area. Tension across the grain has no design value (3.8.2) and no formula here.

    A_n: less bolt holes, mortises and the like (3.1.2).

    >>> tension_stress(6000.0, 24.0)
    250.0
    """
    return T / A_n


@formula(symbol="U", clause="NDS 2018 3.9.1 (eq. 3.9-1)", unit="", known="memory")
def bending_and_tension(f_t: NotNegative, F_t_prime: Positive, f_b: NotNegative, F_b_star: Positive) -> Number:
    """Tension edge of a piece in bending and tension.

    f_t: on the net area.
    F_b_star: here with all factors except C_L, so on the flat with C_fu, unlike that of 3.3.3.8.
    U: at most 1 is allowed.

    >>> bending_and_tension(300.0, 600.0, 250.0, 1000.0)
    0.75
    """
    return f_t / F_t_prime + f_b / F_b_star


@formula(symbol="U", clause="NDS 2018 3.9.1 (eq. 3.9-2)", unit="", known="memory")
def bending_less_tension(f_b: NotNegative, f_t: NotNegative, F_b_starstar: Positive) -> Number:
    """Compression edge of a piece in bending and tension.

    f_t: the least that goes with f_b.
    F_b_starstar: for sawn lumber F_b_prime.
    U: at most 1 is allowed; negative where the whole section is in tension.

    >>> bending_less_tension(1000.0, 200.0, 1600.0)
    0.5
    """
    return (f_b - f_t) / F_b_starstar


@formula(symbol="U", clause="NDS 2018 3.9.2 (eq. 3.9-3 with f_b2 = 0)", unit="", known="memory")
def bending_and_compression_one_way(
    f_c: Annotated[Number, below("F_cE1", because=BUCKLES)], F_c_prime: Positive, f_b1: NotNegative,
    F_b1_prime: Positive, F_cE1: PositiveOrInfinite,
) -> Number:  # fmt: skip
    """Compression with edgewise bending only. Eq. 3.9-4 is to be checked too.

    For bending flatwise only, put the values of axis 2 in the place of those of axis 1.

    >>> round(bending_and_compression_one_way(264.46, 691.5, 400.0, 1200.0, 1001.5), 4)
    0.5992
    """
    return (f_c / F_c_prime) ** 2 + f_b1 / (F_b1_prime * (1 - f_c / F_cE1))


@formula(symbol="U", clause="NDS 2018 3.9.2 (eq. 3.9-3 where nothing buckles)", unit="", known="derived")
def bending_and_compression_short(
    f_c: NotNegative, F_c_star: Positive, f_b: NotNegative, F_b_star: Positive
) -> Number:  # fmt: skip
    """Compression and bending of a piece too short to buckle: C_P = 1 and no growth of the bend.

    >>> bending_and_compression_short(500.0, 1000.0, 250.0, 1000.0)
    0.5
    """
    return (f_c / F_c_star) ** 2 + f_b / F_b_star


@formula(symbol="U", clause="NDS 2018 3.1.2, 3.9.2 (compression not squared: safe side)", unit="", known="practice")
def bending_and_compression_added(
    f_c: NotNegative, F_c_star: Positive, f_b: NotNegative, F_b_star: Positive
) -> Number:  # fmt: skip
    """Compression and bending of what is left of a section beside a cut.

    >>> bending_and_compression_added(250.0, 1000.0, 250.0, 1000.0)
    0.5
    """
    return f_c / F_c_star + f_b / F_b_star


@formula(symbol="U", clause="NDS 2018 3.9 (pull and push added to bending: safe side)", unit="", known="practice")
def bending_and_axial_added(f_ax: NotNegative, F_ax: Positive, f_b: NotNegative, F_b_star: Positive) -> Number:
    """Bending with a stress along the grain that may pull or push, at a joint where nothing buckles.

    F_ax: the lesser of F_t_prime and F_c_star.

    >>> bending_and_axial_added(250.0, 1000.0, 250.0, 1000.0)
    0.5
    """
    return f_ax / F_ax + f_b / F_b_star


@formula(symbol="U", clause="NDS 2018 3.9.2 (eq. 3.9-4)", unit="", known="memory")
def bending_and_compression_limit(
    f_c: NotNegative, F_cE2: PositiveOrInfinite, f_b1: NotNegative, F_bE: PositiveOrInfinite
) -> Number:
    """Sideways buckling of a piece in compression and edgewise bending.

    U: must be less than 1: 1 itself fails.

    >>> bending_and_compression_limit(250.0, 1000.0, 500.0, 1000.0)
    0.5
    """
    return f_c / F_cE2 + (f_b1 / F_bE) ** 2


@formula(symbol="U", clause="NDS 2018 15.4.1 (eq. 15.4-1)", unit="", known="memory")
def eccentric_column(
    f_c: Annotated[Number, below("F_cE1", because=BUCKLES), below("F_cE2", because=BUCKLES)], F_c_prime: Positive,
    f_b1: NotNegative, F_b1_prime: Positive, f_b2: NotNegative, F_b2_prime: Positive, F_cE1: PositiveOrInfinite,
    F_cE2: PositiveOrInfinite, F_bE: PositiveOrInfinite, e_1: NotNegative, d_1: Positive, e_2: NotNegative,
    d_2: Positive,
) -> Number:  # fmt: skip
    """Column with its load off the axis, and side loads, both ways.

    f_b1, f_b2: from side loads alone.
    U: at most 1 is allowed.

    Rectangles only: 6 e/d. With no eccentricity it is eq. 3.9-3:

    >>> round(eccentric_column(264.46, 691.5, 400.0, 1200.0, 0.0, 1200.0, 1001.5, 1001.5, 1e5, 0.0, 5.5, 0.0, 5.5), 4)
    0.5992
    """
    off_1, off_2 = f_c * (6 * e_1 / d_1), f_c * (6 * e_2 / d_2)
    tilt = (_short_of(f_b1 + off_1, F_bE) / F_bE) ** 2
    edgewise = f_b1 + off_1 * (1 + 0.234 * (f_c / F_cE1))
    flatwise = f_b2 + off_2 * (1 + 0.234 * (f_c / F_cE2) + 0.234 * tilt)
    return (
        (f_c / F_c_prime) ** 2
        + edgewise / (F_b1_prime * (1 - f_c / F_cE1))
        + flatwise / (F_b2_prime * _left(1 - f_c / F_cE2 - tilt))
    )


@formula(symbol="U", clause="NDS 2018 15.4.1 (eq. 15.4-1, one way)", unit="", known="memory")
def eccentric_column_one_way(
    f_c: Annotated[Number, below("F_cE1", because=BUCKLES)], F_c_prime: Positive, F_b1_prime: Positive,
    e_1: NotNegative, d_1: Positive, F_cE1: PositiveOrInfinite,
) -> Number:  # fmt: skip
    """Compression with a load off center one way.

    Eq. 15.4-1 without side load and without offset the other way.
    F_b1_prime, F_cE1: for bending and for buckling that way.
    U: at most 1 is allowed.

    >>> round(eccentric_column_one_way(200.0, 800.0, 1000.0, 1.0, 6.0, 1000.0), 5)
    0.3242
    """
    off = f_c * (6 * e_1 / d_1)
    return (f_c / F_c_prime) ** 2 + off * (1 + 0.234 * (f_c / F_cE1)) / (F_b1_prime * (1 - f_c / F_cE1))


@formula(symbol="U", clause="NDS 2018 15.4.1 (eq. 15.4-2)", unit="", known="memory")
def eccentric_column_limit(
    f_c: NotNegative, F_cE2: PositiveOrInfinite, f_b1: NotNegative, F_bE: PositiveOrInfinite, e_1: NotNegative,
    d_1: Positive,
) -> Number:  # fmt: skip
    """Sideways buckling of an eccentrically loaded column.

    f_b1: from side loads alone.
    U: must be less than 1: 1 itself fails.

    >>> eccentric_column_limit(200.0, 1000.0, 100.0, 1000.0, 2.0, 6.0)
    0.45
    """
    return f_c / F_cE2 + ((f_b1 + f_c * (6 * e_1 / d_1)) / F_bE) ** 2


def _left(share: Number) -> Number:
    because = "the piece buckles sideways: f_c/F_cE2 + (f_b1/F_bE)^2 must be less than 1"
    return valid(share, share > 0, because, "NDS 2018 3.9.2 (eq. 3.9-4)")


def _short_of(stress: Number, F_bE: Number) -> Number:
    because = f"f_b1 + f_c (6 e_1/d_1) must be less than F_bE{shown(F_bE)}, given{shown(stress)}"
    return valid(stress, stress < F_bE, because, ECCENTRIC)
