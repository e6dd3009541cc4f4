"""Long screws in tension at an angle to the shear plane. Their values come from the maker's evaluation report only."""

from __future__ import annotations

from typing import Annotated

from ...calc.core import Number, cos, formula, sin
from ...calc.ranges import NotNegative, between
from ..connections.ranges import Count

Leaning = Annotated[Number, between(30, 90, "deg", because="flatter screws hold short loads only")]


@formula(symbol="P", clause="statics; friction not counted", unit="lbf", known="derived")
def inclined_slip_force(n: Count, T: NotNegative, alpha: Leaning) -> Number:
    """Force along the faces that screws carry, all leaning alike and pulled, or in crossed pairs.

    Screws that all lean one way work one way only.
    n: screws.
    T: of one, the least of threads and head; of crossed pairs also what it may push, by the report.

    >>> round(inclined_slip_force(4.0, 850.0, 45.0), 1)
    2404.2
    """
    return n * T * cos(alpha)


@formula(symbol="R", clause="statics", unit="lbf", known="derived")
def inclined_pressing_force(n: Count, T: NotNegative, alpha: Leaning) -> Number:
    """Force with which screws that all lean one way press the faces together. They must touch, and the wood bear it.

    n: screws.

    >>> round(inclined_pressing_force(4.0, 850.0, 45.0), 1)
    2404.2
    """
    return n * T * sin(alpha)
