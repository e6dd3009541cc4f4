"""Bending and the sideways stability of beams (NDS 2018 3.3)."""

from __future__ import annotations

from typing import Annotated

from ...calc.core import Number, formula, sqrt, where
from ...calc.ranges import NotNegative, Positive, PositiveOrInfinite, at_most, below, up_to

MOST_SLENDER = up_to(50, because="brace the compression edge at shorter distances", clause="NDS 2018 3.3.3.7")


@formula(symbol="f_b", clause="NDS 2018 3.3.2 (eq. 3.3-1)", unit="psi", known="read; second-hand")
def bending_stress(M: NotNegative, S: Positive) -> Number:
    """Bending stress at the edge of a section.

    A signed moment is refused, for a negative stress would pass any check.
    S: the net one at a notch, hole or mortise (3.1.2).

    >>> round(bending_stress(48000.0, 30.66), 1)
    1565.6
    """
    return M / S


@formula(symbol="l_e", clause="NDS 2018 Table 3.3.3", unit="in", known="memory")
def effective_length(l_u: Positive, d: Positive, k_short: Positive, k_long: Positive, k_d: NotNegative) -> Number:
    """Effective length of a bending member, with the coefficients of its row of the table.

    Rows with one coefficient have k_short = k_long and k_d = 0.

    Three equal loads at quarter points, braced there:

    >>> round(effective_length(96.0, 23.5, 1.54, 1.54, 0.0), 2)
    147.84
    """
    return where(l_u / d < 7, k_short * l_u, k_long * l_u + k_d * d)


@formula(symbol="l_e", clause="NDS 2018 Table 3.3.3 (footnote 1)", unit="in", known="memory")
def effective_length_any(l_u: Positive, d: Positive) -> Number:
    """Effective length of a single span or cantilever whose loading is not in the table.

    Not below any row of the table, single span or cantilever (but for 1 part in 10,000 just under 14.3).

    >>> [round(effective_length_any(l_u, 10.0), 3) for l_u in (60.0, 100.0, 200.0)]
    [123.6, 193.0, 368.0]
    """
    return where(l_u / d < 7, 2.06 * l_u, where(l_u / d <= 14.3, 1.63 * l_u + 3 * d, 1.84 * l_u))


@formula(symbol="R_B", clause="NDS 2018 3.3.3.6 (eq. 3.3-5)", unit="", known="memory")
def slenderness_ratio(l_e: Positive, d: Positive, b: Positive) -> Annotated[Number, MOST_SLENDER]:
    """Slenderness ratio of a bending member.

    b: of a built-up beam the breadth of one ply, unless the plies are shown to act together.

    >>> round(slenderness_ratio(147.84, 23.5, 7.5), 3)
    7.859
    """
    return sqrt(l_e * d / b**2)


@formula(symbol="F_bE", clause="NDS 2018 3.3.3.8", unit="psi", known="memory")
def critical_buckling_bending(
    E_min_prime: Positive, R_B: Annotated[Number, at_most(50, clause="NDS 2018 3.3.3.7")]
) -> Number:
    """Critical buckling stress of a bending member.

    >>> round(critical_buckling_bending(580000.0, 7.859))
    11269
    """
    return 1.20 * E_min_prime / R_B**2


@formula(symbol="C_L", clause="NDS 2018 3.3.3.8 (eq. 3.3-6)", unit="", known="read; second-hand")
def beam_stability(F_bE: Positive, F_b_star: Positive) -> Number:
    """Beam stability factor.

    Where d is at most b, or the compression edge is held as 3.3.3.3 or 4.4.1 says, C_L is 1 without this equation.

    >>> round(beam_stability(2.83, 1.0), 4)
    0.9744
    """
    ratio = F_bE / F_b_star
    return (1 + ratio) / 1.9 - sqrt(((1 + ratio) / 1.9) ** 2 - ratio / 0.95)


@formula(symbol="U", clause="NDS 2018 3.3.3.9, 3.9.2 (eq. 3.9-3 with f_c = 0)", unit="", known="memory", reference=True)
def biaxial_bending(
    f_b1: Annotated[Number, below("F_bE")], F_b1_prime: Positive, f_b2: NotNegative, F_b2_prime: Positive,
    F_bE: PositiveOrInfinite,
) -> Number:  # fmt: skip
    """Bending both ways at once, as a share of what is allowed.

    A plain sum of the two ratios would be unsafe for a slender beam.
    F_b1_prime: with C_L.

    >>> round(biaxial_bending(600.0, 1200.0, 200.0, 1000.0, 1200.0), 4)
    0.7667
    """
    return f_b1 / F_b1_prime + f_b2 / (F_b2_prime * (1 - (f_b1 / F_bE) ** 2))
