"""A beam that comes down on a bracket that was not meant to carry it: contact force, gap, pads."""

from __future__ import annotations

from typing import Annotated

from ...calc.core import Number, formula, largest
from ...calc.ranges import Finite, NotNegative, Positive, between

CONTACT = "force method, one-sided contact"
DOWN_ALREADY = "with more the beam has come down farther than its long-term load explains"


@formula(symbol="R", clause=CONTACT, unit="lbf", known="derived")
def prop_force(Delta_0: Finite, g: NotNegative, k_n: Positive, f_xx: Positive) -> Number:
    """Force with which a beam rests on a bracket that was not meant to carry it.

    Linear, one-sided. For an upper bound: a low modulus of the beam (`softened_modulus`), shear included, creep in
    Delta_0, the bracket as stiff as it may be.
    Delta_0: from when the gap was set.
    g: between nose and beam as left; 0 where unknown.
    f_xx: of a symmetric pair, per force at each.

    >>> round(prop_force(0.113144, 0.0, 8000.0, 3.1174e-5), 1)
    724.5
    """
    return largest(0.0, (Delta_0 - g) / (1 / k_n + f_xx))


@formula(symbol="E_05", clause="NDS 2018 Appendix F", unit="psi", known="memory")
def softened_modulus(E: Positive, COV: Annotated[Number, between(0, 0.5)]) -> Number:
    """Modulus of elasticity that 95 of 100 pieces exceed.

    E: the mean, adjusted.
    COV: 0.25 for visually graded lumber.

    >>> softened_modulus(1.6e6, 0.25)
    942000.0
    """
    return E * (1 - 1.645 * COV)


@formula(symbol="g_req", clause=CONTACT, unit="in", known="derived")
def gap_needed(
    K_cr: Annotated[Number, between(1, 4)], Delta_LT: NotNegative, Delta_ST: NotNegative,
    Delta_in: Annotated[Number, between(0, "K_cr * Delta_LT", because=DOWN_ALREADY)], s_close: NotNegative,
    g_tol: NotNegative,
) -> Number:  # fmt: skip
    """Gap that keeps a beam off a bracket for good.

    Delta_LT, Delta_ST: at the nose.
    Delta_in: 0 where unknown.

    >>> round(gap_needed(2.0, 0.1, 0.05, 0.0, 0.03, 0.0625), 4)
    0.3425
    """
    return K_cr * Delta_LT + Delta_ST - Delta_in + s_close + g_tol


@formula(symbol="k_n", clause=CONTACT, unit="lbf/in", known="derived")
def pad_in_series(k_n: Positive, k_pad: Positive) -> Number:
    """Stiffness of a bracket with a pad on its nose, until the pad is hard.

    >>> pad_in_series(8000.0, 2000.0)
    1600.0
    """
    return 1 / (1 / k_n + 1 / k_pad)
