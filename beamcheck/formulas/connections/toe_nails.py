"""Toe-nails: driven at about 30 degrees to the member, a third of their length from its end."""

from __future__ import annotations

from ...calc.core import Number, cos, formula, smallest
from ...calc.ranges import Positive

TOE = "NDS 2018 12.1.6.3"


@formula(symbol="l_s", clause=TOE, unit="in", known="memory")
def toe_nail_side_length(t_s: Positive, L_f: Positive) -> Number:
    """Side bearing length of a toe-nail.

    >>> toe_nail_side_length(1.5, 3.0)
    1.0
    """
    return smallest(t_s, L_f / 3)


@formula(symbol="l_m", clause=TOE, unit="in", known="memory")
def toe_nail_main_length(L_f: Positive) -> Number:
    """Depth of a toe-nail in the main member.

    A length of the commentary; whether half the tip is still to be taken off is not said (the safe reading is
    `main_length_nail` of it).

    >>> round(toe_nail_main_length(3.0), 3)
    1.598
    """
    return L_f * cos(30) - L_f / 3
