"""Reference design values of fasteners times the factors that apply to them (NDS 2018 Table 11.3.1, ASD).

A product says nothing about whether a factor's value is right: that is looked up and reasoned elsewhere. Where metal,
concrete or masonry governs, C_D does not apply (11.2.3, 11.2.4, how: memory).
"""

from __future__ import annotations

from typing import Annotated

from ...calc.core import Number, formula
from ...calc.ranges import NOISE, Positive, Reduction, between
from .ranges import Duration

TABLE = "NDS 2018 Table 11.3.1"


@formula(symbol="Z_prime", clause=TABLE, unit="lbf", known="memory")
def adjusted_lateral(
    Z: Positive, C_D: Duration, C_M: Reduction, C_t: Reduction, C_g: Reduction, C_delta: Reduction, C_eg: Reduction,
    C_di: Annotated[Number, between(1, 1.1, noise=NOISE)], C_tn: Reduction,
) -> Number:  # fmt: skip
    """Adjusted lateral design value of one fastener in a group.

    No impact factor 2.0 on a connection (Table 2.3.2, footnote).
    C_di: 1, or 1.1 for nails in a diaphragm.

    >>> round(adjusted_lateral(600.0, 1.15, 1.0, 1.0, 0.95, 0.9, 1.0, 1.0, 1.0), 2)
    589.95
    """
    return Z * C_D * C_M * C_t * C_g * C_delta * C_eg * C_di * C_tn


@formula(symbol="W_prime", clause=TABLE, unit="lbf/in", known="memory")
def adjusted_withdrawal(
    W_w: Positive, C_D: Duration, C_M: Reduction, C_t: Reduction, C_eg: Reduction, C_tn: Reduction
) -> Number:
    """Adjusted withdrawal design value, per inch.

    C_M once: the small 2 beside it in the 2018 table is a footnote mark. For toe-nails C_M is 1.

    >>> round(adjusted_withdrawal(378.4, 1.0, 0.7, 1.0, 1.0, 1.0), 2)
    264.88
    """
    return W_w * C_D * C_M * C_t * C_eg * C_tn


@formula(symbol="W_H_prime", clause=TABLE, unit="lbf", known="memory")
def adjusted_pull_through(W_H: Positive, C_D: Duration, C_M: Reduction, C_t: Reduction) -> Number:
    """Adjusted head pull-through design value.

    >>> round(adjusted_pull_through(140.0, 1.6, 1.0, 1.0), 1)
    224.0
    """
    return W_H * C_D * C_M * C_t
