"""A ledger across studs: what the worst stud gets, and the pull on its upper fasteners."""

from __future__ import annotations

from typing import Annotated

from ...calc.core import Number, formula
from ...calc.ranges import NotNegative, Positive, between


@formula(symbol="R", clause="statics of continuous beams", unit="lbf", known="derived")
def ledger_on_stud(k_c: Annotated[Number, between(1, 1.375)], w: NotNegative, s_stud: Positive) -> Number:
    """Load on the stud that gets most under a ledger that runs over it.

    k_c: 1.25 with two spans, 1.143 with four and more; 1.375 with two spans and a joist in the middle of each.

    >>> ledger_on_stud(1.25, 20.8, 16.0)
    416.0
    """
    return k_c * w * s_stud


@formula(symbol="T_1", clause="statics", unit="lbf", known="derived", reference=True)
def ledger_pull(R: NotNegative, e: NotNegative, h_1: Positive) -> Number:
    """Pull on the upper row of fasteners of a ledger.

    e: from the stud's face to where the joists bear.
    h_1: from the lowest place that presses to the upper row, 0.9 of it counted.

    >>> round(ledger_pull(416.0, 2.25, 5.5), 1)
    170.2
    """
    return R * e / h_1
