"""Group action: fasteners in a row along the load do not share it evenly (NDS 2018 11.3.6).

For fasteners of 1/4 in and more; thinner ones have C_g = 1. The areas are gross: holes are not deducted.
"""

from __future__ import annotations

from typing import Annotated

from ...calc.core import Number, formula, smallest, sqrt
from ...calc.ranges import Positive, at_most, inside, more_than
from .ranges import Count, LargeDiameter

GROUP = "NDS 2018 11.3.6"


@formula(symbol="gamma", clause=GROUP, unit="lbf/in", known="memory; reproduces published tables")
def load_slip_wood(D: LargeDiameter) -> Number:
    """Load over slip of one fastener between wood and wood.

    >>> load_slip_wood(1.0)
    180000.0
    """
    return 180000 * D**1.5


@formula(symbol="gamma", clause=GROUP, unit="lbf/in", known="memory; reproduces published tables")
def load_slip_metal(D: LargeDiameter) -> Number:
    """Load over slip of one fastener between wood and metal.

    >>> load_slip_metal(1.0)
    270000.0
    """
    return 270000 * D**1.5


@formula(symbol="R_EA", clause=GROUP, unit="", known="memory; reproduces published tables")
def stiffness_ratio(E_m: Positive, A_m: Positive, E_s: Positive, A_s: Positive) -> Number:
    """Smaller over larger axial stiffness of the members.

    Load across the grain: the area is thickness times the width of the fastener group.

    >>> round(stiffness_ratio(1.4e6, 10.0, 1.4e6, 5.0), 3)
    0.5
    """
    return smallest((E_s * A_s) / (E_m * A_m), (E_m * A_m) / (E_s * A_s))


@formula(symbol="u", clause=GROUP, unit="", known="memory; reproduces published tables")
def group_u(gamma: Positive, s: Positive, E_m: Positive, A_m: Positive, E_s: Positive, A_s: Positive) -> Number:
    """Parameter u of the group action factor.

    s: with unlike spacings the largest.

    >>> round(group_u(180000.0, 4.0, 1.4e6, 10.0, 1.4e6, 5.0), 5)
    1.07714
    """
    return 1 + gamma * (s / 2) * (1 / (E_m * A_m) + 1 / (E_s * A_s))


@formula(symbol="m", clause=GROUP, unit="", known="memory; reproduces published tables")
def group_m(u: Annotated[Number, more_than(1)]) -> Number:
    """Parameter m of the group action factor.

    >>> round(group_m(1.077143), 5)
    0.67685
    """
    return u - sqrt(u**2 - 1)


@formula(symbol="C_g", clause=f"{GROUP} (eq. 11.3-1)", unit="", known="memory; reproduces published tables")
def group_action_factor(m: Annotated[Number, inside(0, 1)], n: Count, R_EA: Annotated[Number, at_most(1)]) -> Number:
    """Group action factor of a row of fasteners along the load.

    1 for a single fastener, and towards 1 as m goes to 1 (stiff members).
    n: fasteners in the row.

    >>> round(group_action_factor(0.675864, 8.0, 0.5), 3)
    0.546
    """
    row = m * (1 - m ** (2 * n)) / (n * ((1 + R_EA * m**n) * (1 + m) - 1 + m ** (2 * n)))
    return row * ((1 + R_EA) / (1 - m))
