"""How much of a fastener bears or holds: penetration, tips, threads.

p is the length of the fastener in the member that holds its point, tip included.
"""

from __future__ import annotations

from typing import Annotated

from ...calc.core import Number, formula, largest, smallest
from ...calc.ranges import NotNegative, Positive, below, more_than
from .ranges import AnyDiameter

BEARING, THREAD = "NDS 2018 12.3.5", "NDS 2018 Appendix L"
LAG, SCREW, NAIL = "NDS 2018 12.1.4.6", "NDS 2018 12.1.5.6", "NDS 2018 12.1.6.4"  # least penetration


@formula(symbol="p", clause=BEARING, unit="in", known="derived")
def penetration(
    L_f: Annotated[Number, more_than("l_s + t_w", because="it must come out of what it crosses")],
    l_s: Positive,
    t_w: NotNegative,
) -> Number:
    """Length of a fastener beyond the side member.

    A fastener that comes out on the far side bears over the whole member and loses no tip.

    >>> penetration(6.0, 1.5, 0.125)
    4.375
    """
    return L_f - (l_s + t_w)


@formula(symbol="l_m", clause=BEARING, unit="in", known="memory")
def main_length_lag(p: Positive, E_tip: Annotated[Number, below("p")]) -> Number:
    """Bearing length of a lag screw in the member that holds its point. Half the tip does not count.

    >>> main_length_lag(4.0, 0.3125)
    3.84375
    """
    return p - E_tip / 2


@formula(symbol="l_m", clause=BEARING, unit="in", known="memory")
def main_length_nail(p: Annotated[Number, more_than("2 * D", because="the tip is 2 D long")], D: AnyDiameter) -> Number:
    """Bearing length of a nail or wood screw in the member that holds its point. Half the tip of 2 D does not count.

    >>> round(main_length_nail(1.25, 0.162), 3)
    1.088
    """
    return p - D


@formula(symbol="p_min", clause=LAG, unit="in", known="memory")
def least_penetration_lag(D: AnyDiameter, E_tip: Positive) -> Number:
    """Least penetration of a lag screw: 4 D without the tip. Less has no lateral value at all.

    >>> least_penetration_lag(0.5, 0.3125)
    2.3125
    """
    return 4 * D + E_tip


@formula(symbol="p_min", clause=f"{SCREW}, 12.1.6.4", unit="in", known="memory")
def least_penetration_nail(D: AnyDiameter) -> Number:
    """Least penetration of a nail or wood screw, tip included. Less has no lateral value at all.

    >>> round(least_penetration_nail(0.162), 3)
    0.972
    """
    return 6 * D


@formula(symbol="T_thread", clause=THREAD, unit="in", known="memory")
def screw_thread_length(D: AnyDiameter, L_f: Positive) -> Number:
    """Thread length of a wood screw, tip included. Changed from the source: never longer than the screw.

    >>> screw_thread_length(0.19, 3.0)
    2.0
    """
    return smallest(largest(4 * D, 2 * L_f / 3), L_f)


@formula(symbol="p_t", clause="NDS 2018 12.2.1", unit="in", known="memory")
def lag_thread_held(T_thread: Positive, p: Positive, E_tip: Annotated[Number, below("T_thread"), below("p")]) -> Number:
    """Thread of a lag screw that holds against withdrawal. The tip does not hold.

    T_thread: tip included.

    >>> lag_thread_held(3.5, 4.0, 0.3125)
    3.1875
    """
    return smallest(T_thread, p) - E_tip


@formula(symbol="p_t", clause="NDS 2018 12.2.2", unit="in", known="memory")
def screw_thread_held(T_thread: Positive, p: Positive) -> Number:
    """Thread of a wood screw that holds against withdrawal.

    >>> screw_thread_held(2.0, 1.5)
    1.5
    """
    return smallest(T_thread, p)
