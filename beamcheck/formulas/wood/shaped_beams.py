"""Beams of another size than the one that was broken; beams that taper (Wood Handbook ch. 9). No check runs them."""

from __future__ import annotations

from typing import Annotated

from ...calc.core import Number, formula
from ...calc.ranges import Finite, Positive, between

SIZE, TAPER = "Wood Handbook ch. 9 (size effect)", "Wood Handbook ch. 9 (eq. 9-16)"
Apart = Annotated[Number, between(0, "L", because="the loads stand on the span")]
ApartTested = Annotated[Number, between(0, "L_t", because="the loads stand on the span")]
Slope = Annotated[Number, between(0, 0.5, because="rise over run of the tapered edge")]


@formula(symbol="MOR", clause=SIZE, unit="psi", known="memory", reference=True)
def rupture_of_another_size(
    MOR_t: Positive, d: Positive, L: Positive, a_P: Apart, d_t: Positive, L_t: Positive, a_Pt: ApartTested,
    m_size: Annotated[Number, between(5, 50)],
) -> Number:  # fmt: skip
    """Modulus of rupture of a clear beam by that of one of another size: the more wood is stressed, the weaker.

    a_P, a_Pt: between two loads that stand alike from the ends; 0 for one in the middle.
    m_size: 18 for clear wood.

    No design value: NDS counts size by C_F and C_V. A beam 10 in deep on 18 ft loaded at its thirds, by one 2 in deep
    on 28 in loaded in the middle:

    >>> round(rupture_of_another_size(10000.0, 10.0, 216.0, 72.0, 2.0, 28.0, 0.0, 18.0))
    7327
    """
    stressed = d * L * (1 + m_size * a_P / L)
    return MOR_t * (d_t * L_t * (1 + m_size * a_Pt / L_t) / stressed) ** (1 / m_size)


@formula(symbol="f_taper", clause=TAPER, unit="psi", known="derived", reference=True)
def tapered_bending_stress(M: Finite, b: Positive, d_small: Positive) -> Number:
    """Stress along the grain at the tapered edge, where the depth is twice that of the small end.

    There it is largest under a load at one point. It comes with `tapered_shear_stress` and `tapered_stress_across` at
    the same place; NDS 2018 3.8.2 has no value for tension across the grain, so the tapered edge is the pressed one.
    M: there.

    >>> tapered_bending_stress(40000.0, 4.0, 8.0)
    234.375
    """
    return 3 * M / (2 * b * d_small**2)


@formula(symbol="f_tv", clause=TAPER, unit="psi", known="derived", reference=True)
def tapered_shear_stress(f_taper: Finite, s_taper: Slope) -> Number:
    """Shear stress at a tapered edge.

    >>> tapered_shear_stress(375.0, 0.1)
    37.5
    """
    return f_taper * s_taper


@formula(symbol="f_ty", clause=TAPER, unit="psi", known="derived", reference=True)
def tapered_stress_across(f_taper: Finite, s_taper: Slope) -> Number:
    """Stress across the grain at a tapered edge, tension where `f_taper` is tension.

    >>> round(tapered_stress_across(375.0, 0.1), 6)
    3.75
    """
    return f_taper * s_taper**2
