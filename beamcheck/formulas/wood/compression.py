"""Columns (NDS 2018 3.6, 3.7, 15.3): stress, slenderness, stability. Both ways to buckle are to be looked at."""

from __future__ import annotations

from typing import Annotated

from ...calc.core import Number, formula, sqrt
from ...calc.ranges import NotNegative, Positive, Reduction, between, up_to

BucklingLength = Annotated[Number, between(0.65, 2.4, clause="NDS 2018 Appendix G")]
MOST_SLENDER = up_to(50, because="shorten the column or take a thicker one", clause="NDS 2018 3.7.1.4")


@formula(symbol="f_c", clause="NDS 2018 3.6.3", unit="psi", known="memory")
def compression_stress(P: NotNegative, A: Positive) -> Number:
    """Compression stress parallel to grain.

    A: gross against F_c_prime, unless the cut lies in the part that buckles; net against F_c_star.

    >>> round(compression_stress(8000.0, 30.25), 1)
    264.5
    """
    return P / A


@formula(symbol="l_e", clause="NDS 2018 3.7.1.2, Appendix G", unit="in", known="memory")
def effective_length_column(K_e: BucklingLength, l: Positive) -> Number:  # noqa: E741
    """Effective length of a column.

    l: between points of sideways support.

    >>> effective_length_column(1.0, 96.0)
    96.0
    """
    return K_e * l


@formula(symbol="l_e_over_d", clause="NDS 2018 3.7.1.4", unit="", known="memory")
def slenderness_column(l_e: Positive, d: Positive) -> Annotated[Number, MOST_SLENDER]:
    """Slenderness of a column one way.

    The clause lets it go to 75 while the building is put up; that is not covered.
    d: in the direction in which it would buckle; for a round piece the side of the square of equal area.

    >>> round(slenderness_column(96.0, 3.5), 2)
    27.43
    """
    return l_e / d


@formula(symbol="F_cE", clause="NDS 2018 3.7.1.5", unit="psi", known="read; second-hand")
def critical_buckling_column(E_min_prime: Positive, l_e: Positive, d: Positive) -> Number:
    """Critical buckling stress of a column one way.

    Older books write 0.3 E/(l_e/d)^2.
    d: in the direction in which it would buckle; for a round piece the side of the square of equal area.

    >>> round(critical_buckling_column(580000.0, 120.0, 5.5), 1)
    1001.5
    """
    return 0.822 * E_min_prime / slenderness_column(l_e, d) ** 2


@formula(symbol="C_P", clause="NDS 2018 3.7.1.5 (eq. 3.7-1)", unit="", known="read; second-hand")
def column_stability(F_cE: Positive, F_c_star: Positive, c: Reduction) -> Number:
    """Column stability factor one way.

    C_P is 1 without this equation only where the column is held along its whole length in all directions (3.7.1.1).

    >>> round(column_stability(357.3, 975.0, 0.8), 3)
    0.333
    """
    ratio = F_cE / F_c_star
    return (1 + ratio) / (2 * c) - sqrt(((1 + ratio) / (2 * c)) ** 2 - ratio / c)


@formula(symbol="C_P", clause="NDS 2018 15.3.2 (eq. 15.3-1)", unit="", known="memory")
def column_stability_built_up(F_cE: Positive, F_c_star: Positive, c: Reduction, K_f: Reduction) -> Number:
    """Column stability factor of a built-up column, one way.

    Only for 2 to 5 plies fastened as 15.3.3 or 15.3.4 says.
    K_f: 1.0 for l_e1/d_1; for l_e2/d_2 (across the plies) 0.60 nailed, 0.75 bolted.

    >>> round(column_stability_built_up(357.3, 975.0, 0.8, 0.6), 3)
    0.2
    """
    return K_f * column_stability(F_cE, F_c_star, c)
