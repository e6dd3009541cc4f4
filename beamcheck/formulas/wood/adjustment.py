"""Reference design values times the factors that apply to them (NDS 2018 Table 4.3.1, ASD).

A product says nothing about whether a factor's value is right for the piece: that is looked up and reasoned elsewhere.
"""

from __future__ import annotations

from typing import Annotated

from ...calc.core import Number, formula, where
from ...calc.ranges import NOISE, Positive, Reduction, at_least, at_most, more_than, reduction

TABLE = "NDS 2018 Table 4.3.1"

Duration = Annotated[Number, at_most(2, because="2 is for impact", clause="NDS 2018 Table 2.3.2")]
WetService = Annotated[Number, reduction(clause="NDS 2018 4.3.3")]
Temperature = Annotated[Number, reduction(clause="NDS 2018 Table 2.3.3")]
SizeFactor = Annotated[Number, more_than(0, clause="NDS 2018 4.3.6")]
Incising = Annotated[Number, reduction(clause="NDS 2018 Table 4.3.8")]
BearingArea = Annotated[Number, at_least(1, noise=NOISE, clause="NDS 2018 3.10.4")]


@formula(symbol="C_F", clause="NDS 2018 4.3.6.2 (eq. 4.3-1)", unit="", known="memory")
def size_factor_timber(d: Positive) -> Number:
    """Size factor for bending of timbers, 5 in and thicker, loaded on the narrow face.

    Acts on F_b only. 12 is in inches.
    d: actual; for a round piece over 13.5 in the side of the square of equal area.

    >>> round(size_factor_timber(13.5), 4)
    0.987
    """
    return where(d > 12, (12 / d) ** (1 / 9), 1.0)


@formula(symbol="F_b_star", clause=f"{TABLE}, 3.3.3.8", unit="psi", known="read; second-hand")
def adjusted_bending_star(
    F_b: Positive, C_D: Duration, C_M: WetService, C_t: Temperature, C_F: SizeFactor, C_i: Incising, C_r: Positive
) -> Number:
    """Bending design value with all factors except C_L and C_fu.

    This is the F_b* of the beam stability equation. The F_b* of 3.9.1 (bending with tension) leaves out C_L only: for
    bending on the flat multiply by C_fu there.

    >>> round(adjusted_bending_star(850.0, 1.15, 1.0, 1.0, 1.1, 1.0, 1.15), 2)
    1236.54
    """
    return F_b * C_D * C_M * C_t * C_F * C_i * C_r


@formula(symbol="F_b_prime", clause=TABLE, unit="psi", known="read; second-hand")
def adjusted_bending(F_b_star: Positive, C_L: Reduction, C_fu: Positive) -> Number:
    """Adjusted bending design value.

    >>> adjusted_bending(1625.0, 1.0, 1.0)
    1625.0
    """
    return F_b_star * C_L * C_fu


@formula(symbol="F_v_prime", clause=TABLE, unit="psi", known="read; second-hand")
def adjusted_shear(F_v: Positive, C_D: Duration, C_M: WetService, C_t: Temperature, C_i: Incising) -> Number:
    """Adjusted shear design value parallel to grain.

    >>> adjusted_shear(180.0, 1.25, 1.0, 1.0, 1.0)
    225.0
    """
    return F_v * C_D * C_M * C_t * C_i


@formula(symbol="F_t_prime", clause=TABLE, unit="psi", known="read; second-hand")
def adjusted_tension(
    F_t: Positive, C_D: Duration, C_M: WetService, C_t: Temperature, C_F: SizeFactor, C_i: Incising
) -> Number:
    """Adjusted tension design value parallel to grain.

    >>> round(adjusted_tension(525.0, 1.15, 1.0, 1.0, 1.1, 1.0), 3)
    664.125
    """
    return F_t * C_D * C_M * C_t * C_F * C_i


@formula(symbol="F_c_star", clause=f"{TABLE}, 3.7.1.5", unit="psi", known="read; second-hand")
def adjusted_compression_star(
    F_c: Positive, C_D: Duration, C_M: WetService, C_t: Temperature, C_F: SizeFactor, C_i: Incising
) -> Number:
    """Compression design value parallel to grain with all factors except C_P.

    >>> round(adjusted_compression_star(1300.0, 1.15, 1.0, 1.0, 1.0, 1.0), 6)
    1495.0
    """
    return F_c * C_D * C_M * C_t * C_F * C_i


@formula(symbol="F_c_prime", clause=TABLE, unit="psi", known="read; second-hand")
def adjusted_compression(F_c_star: Positive, C_P: Reduction) -> Number:
    """Adjusted compression design value parallel to grain.

    C_P: the smaller of the two ways to buckle.

    >>> round(adjusted_compression(1000.0, 0.4464), 4)
    446.4
    """
    return F_c_star * C_P


@formula(symbol="F_c_perp_prime", clause=TABLE, unit="psi", known="memory")
def adjusted_bearing(F_c_perp: Positive, C_M: WetService, C_t: Temperature, C_i: Incising, C_b: BearingArea) -> Number:
    """Adjusted compression design value perpendicular to grain. There is no load duration factor.

    >>> round(adjusted_bearing(625.0, 0.67, 1.0, 1.0, 1.0), 2)
    418.75
    """
    return F_c_perp * C_M * C_t * C_i * C_b


@formula(symbol="E_prime", clause=TABLE, unit="psi", known="memory")
def adjusted_modulus(E: Positive, C_M: WetService, C_t: Temperature, C_i: Incising, C_fu: Reduction) -> Number:
    """Adjusted modulus of elasticity. There is no load duration factor.

    C_fu: of beams and stringers loaded on the wide face, by the adjustment factors of Supplement Table 4D; else 1.

    >>> round(adjusted_modulus(1.7e6, 0.9, 1.0, 1.0, 1.0))
    1530000
    """
    return E * C_M * C_t * C_i * C_fu


@formula(symbol="E_min_prime", clause=TABLE, unit="psi", known="memory")
def adjusted_modulus_min(
    E_min: Positive, C_M: WetService, C_t: Temperature, C_i: Incising, C_fu: Reduction,
    C_T: Annotated[Number, at_least(1, clause="NDS 2018 4.4.2")],
) -> Number:  # fmt: skip
    """Adjusted modulus of elasticity for beam and column stability.

    C_T: 1 for everything but truss chords of 2x4 or smaller (4.4.2).

    >>> adjusted_modulus_min(580000.0, 1.0, 1.0, 1.0, 1.0, 1.0)
    580000.0
    """
    return E_min * C_M * C_t * C_i * C_fu * C_T
