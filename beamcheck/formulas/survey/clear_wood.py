"""From clear wood to an indicated stress (ASTM D2555, ASTM D245). It screens: no such value is a design value here.

Green values, without the increase for dry wood: in timbers checks take it away again. So C_M is not put on them.
"""

from __future__ import annotations

from typing import Annotated

from ...calc.core import Number, formula
from ...calc.ranges import Positive, Reduction, at_least, inside

BUILD_UP = "ASTM D245"
Divisor = Annotated[Number, at_least(1)]


@formula(symbol="B_sd", clause="ASTM D2555", unit="psi", known="derived", reference=True)
def deviation_of_clear_wood(B_mean: Positive, COV: Annotated[Number, inside(0, 0.5)]) -> Number:
    """Standard deviation where none was measured.

    >>> round(deviation_of_clear_wood(6640.0, 0.16))
    1062
    """
    return B_mean * COV


@formula(symbol="B_05", clause="ASTM D2555, D245", unit="psi", known="derived")
def exclusion_limit(B_mean: Positive, B_sd: Positive) -> Annotated[Number, at_least(0)]:
    """Strength of clear wood that 95 of 100 specimens exceed.

    Eastern hemlock, bending:

    >>> round(exclusion_limit(6420.0, 1027.0))
    4731
    """
    return B_mean - 1.645 * B_sd


@formula(symbol="B_g", clause="Wood Handbook ch. 7", unit="psi", known="read", reference=True)
def graded_strength(B_05: Positive, SR: Reduction) -> Number:
    """Strength that 95 of 100 pieces of a grade should exceed, before duration and safety.

    >>> graded_strength(7000.0, 0.40)
    2800.0
    """
    return B_05 * SR


@formula(symbol="F_bi", clause=BUILD_UP, unit="psi", known="memory")
def indicated_bending(B_05: Positive, SR: Reduction, d: Positive, n_f: Divisor) -> Number:
    """Indicated bending stress.

    n_f: duration and safety: 2.1 softwood, 2.3 hardwood.

    Eastern hemlock, 10 in deep:

    >>> round(indicated_bending(4731.0, 0.55, 10.0, 2.1))
    1036
    """
    return B_05 * SR / n_f * (2 / d) ** (1 / 9)


@formula(symbol="F_ti", clause=BUILD_UP, unit="psi", known="memory")
def indicated_tension(B_05: Positive, SR: Reduction, n_f: Divisor) -> Number:
    """Indicated tension stress along the grain: 0.55 of bending, without its depth.

    >>> round(indicated_tension(4731.0, 0.55, 2.1))
    681
    """
    return 0.55 * B_05 * SR / n_f


@formula(symbol="F_vi", clause=BUILD_UP, unit="psi", known="memory")
def indicated_shear(B_05: Positive, n_f: Divisor) -> Number:
    """Indicated shear stress. Checks and splits are always assumed: half of the clear wood.

    Eastern hemlock:

    >>> round(indicated_shear(652.0, 2.1))
    155
    """
    return 0.50 * B_05 / n_f


@formula(symbol="F_ci", clause=BUILD_UP, unit="psi", known="memory")
def indicated_compression(B_05: Positive, SR: Reduction, n_f: Divisor) -> Number:
    """Indicated compression stress along the grain.

    n_f: 1.9 softwood, 2.1 hardwood.

    >>> round(indicated_compression(2169.0, 0.74, 1.9))
    845
    """
    return B_05 * SR / n_f


@formula(symbol="E_i", clause=BUILD_UP, unit="psi", known="memory")
def indicated_modulus(B_mean: Positive, q_E: Reduction) -> Number:
    """Indicated modulus of elasticity, a mean.

    B_mean: of the modulus.
    q_E: 1 for a strength ratio of 0.55 and more, 0.9 from 0.45, 0.8 below.

    >>> round(indicated_modulus(1073000.0, 1.0), -3)
    1141000.0
    """
    return B_mean / 0.94 * q_E
