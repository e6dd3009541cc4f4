"""A post that is hinged at both ends and loaded by a bracket on its side.

The statics behind the side load P_s = 3 P a l_p/l^2 of NDS 2018 15.4.2 (eq. 15.4-3, memory; upper quarter only): push
at the ends, moment at the bracket.
"""

from __future__ import annotations

from typing import Annotated

from ...calc.core import Number, formula
from ...calc.ranges import NotNegative, Positive, between

HINGED = "statics of a post hinged at both ends"

Farther = Annotated[Number, between("l / 2", "l", because="it is laid off to the farther end")]


@formula(symbol="H", clause=HINGED, unit="lbf", known="derived")
def side_bracket_push(P: NotNegative, a: NotNegative, l: Positive) -> Number:  # noqa: E741
    """Side force at each end of a post that is hinged at both ends, from a bracket on its side.

    One end pushes and the other pulls, wherever the bracket stands. What holds the ends has to take it.

    >>> round(side_bracket_push(1000.0, 8.0, 120.0), 2)
    66.67
    """
    return P * a / l


@formula(symbol="M", clause=HINGED, unit="lbf*in", known="derived")
def side_bracket_moment(P: NotNegative, a: NotNegative, l_p: Farther, l: Positive) -> Number:  # noqa: E741
    """Largest moment in a post, hinged at both ends, from a bracket on its side: right at the bracket.

    Without the compression's own part. In the upper quarter the method of NDS 15.4.2 counts 3/4 of it, at mid-height:
    the section at the bracket is to be checked for this moment too.

    >>> side_bracket_moment(1000.0, 8.0, 96.0, 120.0)
    6400.0
    """
    return P * a * l_p / l
