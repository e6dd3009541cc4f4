"""Wood that tears out with a group of fasteners pulling along the grain (NDS 2018 Appendix E). For each member.

t is the thickness of wood that bears on the fastener in the member checked, slots and bores deducted; F_v' and F_t' are
that member's.
"""

from __future__ import annotations

from typing import Annotated

from ...calc.core import Number, formula, smallest
from ...calc.ranges import NotNegative, Positive, at_least, more_than
from .ranges import Count

NET, ROW, GROUP = "NDS 2018 Appendix E.2", "NDS 2018 Appendix E.3", "NDS 2018 Appendix E.4"


@formula(symbol="s_crit", clause=ROW, unit="in", known="memory")
def critical_spacing(l_end: Positive, s: Positive) -> Number:
    """Length of wood that holds each fastener of a row: the lesser of end distance and spacing.

    For a single fastener give the end distance twice.
    s: the least in the row.

    >>> critical_spacing(3.5, 2.0)
    2.0
    """
    return smallest(l_end, s)


@formula(symbol="Z_RT", clause=ROW, unit="lbf", known="memory")
def row_tear_out(n: Count, F_v_prime: Positive, t: Positive, s_crit: Positive) -> Number:
    """What one row carries before it tears out.

    F_v'/2, the mean of a triangle, on two shear lines of n s_crit each. A check (split) through the row leaves
    nothing.
    n: fasteners in the row.

    >>> row_tear_out(3.0, 180.0, 1.5, 2.0)
    1620.0
    """
    return n * F_v_prime * t * s_crit


@formula(symbol="Z_GT", clause=GROUP, unit="lbf", known="memory")
def group_tear_out(Z_RT_1: Positive, Z_RT_2: Positive, F_t_prime: Positive, A_between: Positive) -> Number:
    """What a group of rows carries before it tears out as a block.

    >>> group_tear_out(1620.0, 1620.0, 575.0, 4.0)
    3920.0
    """
    return Z_RT_1 / 2 + Z_RT_2 / 2 + F_t_prime * A_between


@formula(symbol="Z_NT", clause=NET, unit="lbf", known="memory")
def net_section_tension(F_t_prime: Positive, A_n: Positive) -> Number:
    """What the net section carries in tension.

    >>> net_section_tension(575.0, 8.0)
    4600.0
    """
    return F_t_prime * A_n


@formula(symbol="d_h", clause="NDS 2018 12.1.3", unit="in", known="memory")
def bolt_hole(D: Positive) -> Number:
    """Diameter deducted for a bolt hole in wood.

    The largest hole that 12.1.3 allows; wider holes have no lateral value.

    >>> bolt_hole(0.5)
    0.5625
    """
    return D + 1 / 16


@formula(symbol="A_n", clause=f"{NET}, 3.1.2", unit="in2", known="memory")
def area_less_holes(
    A_g: Positive, n: NotNegative, d_h: Positive, t: Positive
) -> Annotated[Number, more_than(0, because="the holes take all of A_g")]:
    """Area less the holes in one section.

    n: holes in the section; staggered ones nearer than 4 D along the grain count with it.

    >>> area_less_holes(13.875, 2.0, 0.5625, 1.5)
    12.1875
    """
    return A_g - n * d_h * t


@formula(symbol="A_between", clause=GROUP, unit="in2", known="derived")
def area_between_rows(
    n_row: Annotated[Number, at_least(2)], s_row: Annotated[Number, more_than("d_h")], d_h: Positive, t: Positive
) -> Number:
    """Net area between the outer rows, rows evenly apart.

    Half a hole at each outer row, whole ones between.
    n_row: rows.

    >>> area_between_rows(3.0, 2.0, 0.5625, 1.5)
    4.3125
    """
    return (n_row - 1) * (s_row - d_h) * t
