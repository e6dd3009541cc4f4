"""Load that passes from ply to ply of a built-up beam."""

from __future__ import annotations

from typing import Annotated

from ...calc.core import Number, formula
from ...calc.ranges import NotNegative, Positive, at_least

CLAUSE = "statics: each ply carries an equal share"


@formula(symbol="w_12", clause=CLAUSE, unit="lbf/in", known="derived")
def transferred_to_the_rest(w_side: NotNegative, n: Annotated[Number, at_least(2)]) -> Number:
    """Load that passes from the ply it comes in on to all the others, per length.

    >>> transferred_to_the_rest(30.0, 3.0)
    20.0
    """
    return w_side * (n - 1) / n


@formula(symbol="w_a", clause="NDS 2018 11.3", unit="lbf/in", known="derived")
def rows_of_fasteners(Z_prime: Positive, n: Positive, s: Positive) -> Number:
    """Load that rows of fasteners along a beam pass on, per length.

    >>> rows_of_fasteners(120.0, 2.0, 12.0)
    20.0
    """
    return Z_prime * n / s
