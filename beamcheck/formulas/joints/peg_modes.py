"""Yield modes of a peg through a tenon between two cheeks: four of NDS 2018 Table 12.3.1A, and shear of the peg.

The tenon is the main member, the cheeks the side members; of unlike cheeks the thinner counts for both. From memory,
like the strengths in `pegs`. Pegs in one shear plane have no value here.
"""

from __future__ import annotations

import math
from typing import Annotated

from ...calc.core import Number, formula, smallest
from ...calc.ranges import Positive, between
from ..connections.yield_modes.single_shear import hinge_in_side, two_hinges
from ..connections.yield_modes.terms import hinge_coefficient
from .pegs import PEGS

PegDiameter = Annotated[Number, between(0.75, 1.25, "in", because="that is what was tested", clause=PEGS)]
Direction = Annotated[Number, between(1, 1.25)]


@formula(symbol="Z_Im", clause=PEGS, unit="lbf", known="memory")
def peg_Im(D: PegDiameter, l_m: Positive, F_em: Positive, K_theta: Direction) -> Number:
    """Mode Im: the tenon crushes, or the peg against it.

    l_m: thickness of the tenon.

    >>> peg_Im(1.0, 2.0, 3000.0, 1.25)
    1200.0
    """
    return D * l_m * F_em / (4 * K_theta)


@formula(symbol="Z_Is", clause=PEGS, unit="lbf", known="memory")
def peg_Is(D: PegDiameter, l_s: Positive, F_es: Positive, K_theta: Direction) -> Number:
    """Mode Is: both cheeks crush, or the peg against them.

    l_s: thickness of the thinner cheek at the peg, less wane, housing and what the peg stops short of.

    >>> peg_Is(1.0, 2.0, 2500.0, 1.25)
    2000.0
    """
    return 2 * D * l_s * F_es / (4 * K_theta)


@formula(symbol="k_3", clause=PEGS, unit="", known="memory")
def peg_hinge_coefficient(R_e: Positive, F_yb: Positive, D: PegDiameter, F_em: Positive, l_s: Positive) -> Number:
    """Coefficient of mode IIIs.

    >>> round(peg_hinge_coefficient(1.2448, 17413.3, 1.0, 3148.51, 2.0), 4)
    1.5686
    """
    return hinge_coefficient(R_e, F_yb, D, F_em, l_s)


@formula(symbol="Z_IIIs", clause=PEGS, unit="lbf", known="memory")
def peg_IIIs(k_3: Positive, D: PegDiameter, l_s: Positive, F_em: Positive, R_e: Positive, K_theta: Direction) -> Number:
    """Mode IIIs: the peg bends at each face of the tenon, the cheeks crush.

    >>> round(peg_IIIs(1.5595, 1.0, 2.0, 3148.51, 1.2448, 1.25), 0)
    1513.0
    """
    return 2 * hinge_in_side(k_3, D, l_s, F_em, R_e) / (3.2 * K_theta)


@formula(symbol="Z_IV", clause=PEGS, unit="lbf", known="memory")
def peg_IV(D: PegDiameter, F_em: Positive, F_yb: Positive, R_e: Positive, K_theta: Direction) -> Number:
    """Mode IV: the peg bends in tenon and cheeks.

    >>> round(peg_IV(1.0, 3148.51, 17413.3, 1.2448, 1.25), 0)
    2018.0
    """
    return 2 * two_hinges(D, F_em, F_yb, R_e) / (3.2 * K_theta)


@formula(symbol="Z_V", clause=PEGS, unit="lbf", known="memory")
def peg_V(D: PegDiameter, F_vy: Positive) -> Number:
    """Mode V: the peg shears at both faces of the tenon. With a term of its own, 3.5, and no angle.

    >>> round(peg_V(1.0, 2105.19), 1)
    944.8
    """
    return math.pi * D**2 * F_vy / (2 * 3.5)


@formula(symbol="Z", clause=PEGS, unit="lbf", known="memory")
def peg_value(Z_Im: Positive, Z_Is: Positive, Z_IIIs: Positive, Z_IV: Positive, Z_V: Positive) -> Number:
    """Reference value of one peg in two shear planes: the least of the five modes.

    >>> peg_value(1259.0, 2024.0, 1522.0, 2018.0, 945.0)
    945.0
    """
    return smallest(Z_Im, Z_Is, Z_IIIs, Z_IV, Z_V)
