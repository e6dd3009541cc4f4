"""A concealed flat bar bent to an L, with or without a welded gusset; the wood around it carries nothing.

Its strength is in `steel.bending`; a gusset's modulus is `rectangle_modulus` with its thickness and depth.
"""

from __future__ import annotations

from typing import Annotated

from ...calc.core import Number, formula, smallest, sqrt
from ...calc.ranges import NotNegative, Positive, at_most, between

STATICS, GUSSET = "statics", "AISC 360-16 Table B4.1a, as a guide"


@formula(symbol="F_bs", clause="allowable stress design of steel, older than AISC 360", unit="psi", known="memory")
def elastic_bending_limit(F_y: Positive) -> Number:
    """Bending stress that a steel bar is held below so that it stays well inside its elastic range.

    0.6 F_y; `bar_bending` (AISC 360-16 F11) allows up to 1.5 times as much of a flat bar.

    >>> elastic_bending_limit(36000.0)
    21600.0
    """
    return 0.6 * F_y


@formula(symbol="Delta", clause=STATICS, unit="in", known="derived")
def tip_deflection(
    P: NotNegative, x_L: Annotated[Number, at_most("l_out")], l_out: Positive, E_steel: Positive, I: Positive,  # noqa: E741
    l_down: Positive, c_v: Annotated[Number, between(1, 3)],
) -> Number:  # fmt: skip
    """How far the tip of an L-shaped bar sinks: its level leg bends, and the bend turns as the upright leg bends.

    Stretch of the legs, slip of the fixings and give of the wall come on top.
    I: of the bar, bent the flat way.
    c_v: 3 where the moment dies out to a far fixing that is a hinge, 1 where it stays the same down to it (upper
    bound).

    >>> I = 1.5 * 0.25**3 / 12
    >>> round(tip_deflection(50.0, 8.0, 8.0, 29.0e6, I, 3.0, 1.0), 4)
    0.3201
    """
    EI = E_steel * I
    turn = l_down / (c_v * EI)
    return P * (x_L**2 * (3 * l_out - x_L) / (6 * EI) + x_L * l_out * turn)


@formula(symbol="z_leg", clause="statics: a bar on elastic ground, hinged at its end", unit="in", known="derived")
def leg_lever_arm(E_steel: Positive, I: Positive, k_leg: Positive, g_leg: NotNegative) -> Number:  # noqa: E741
    """Lever arm of the pull on a row of fasteners in a thin upright leg, which curls off the wall below the row.

    The wall presses a long bar with M over this length, however long the leg is; a stiff one has a longer arm.
    k_leg: hardness of the wall times the width of the leg.
    g_leg: how far a gusset keeps it straight below the row.

    >>> round(leg_lever_arm(29.0e6, 1.5 * 0.25**3 / 12, 34500.0, 0.0), 2)
    1.6
    """
    return g_leg + sqrt(sqrt(4 * E_steel * I / k_leg))


@formula(symbol="T_1", clause=STATICS, unit="lbf", known="derived")
def leg_tension(M: NotNegative, eta: Annotated[Number, at_most(0.9)], h_1: Positive, z_leg: Positive) -> Number:
    """Pull on the row of a thin upright leg: its lever arm is no longer than that of a stiff one.

    >>> round(leg_tension(180.0, 0.9, 3.0, 1.6), 1)
    112.5
    """
    return M / smallest(eta * h_1, z_leg)


@formula(symbol="slenderness", clause=GUSSET, unit="", known="memory")
def gusset_slenderness(l_edge: Positive, t: Positive) -> Number:
    """Slenderness of a gusset's free sloping edge, which is in compression.

    >>> gusset_slenderness(4.0, 0.25)
    16.0
    """
    return l_edge / t


@formula(symbol="slenderness_max", clause=GUSSET, unit="", known="memory")
def gusset_slenderness_limit(E_steel: Positive, F_y: Positive) -> Number:
    """Slenderness of a free edge up to which it yields before it buckles.

    A guide borrowed from unstiffened plates in compression. Beyond it: thicker, or a flange on the edge.

    >>> round(gusset_slenderness_limit(29.0e6, 36000.0), 2)
    15.89
    """
    return 0.56 * sqrt(E_steel / F_y)


@formula(symbol="q_w", clause=STATICS, unit="lbf/in", known="derived")
def gusset_weld_force(P: NotNegative, M: NotNegative, L_w: Positive) -> Number:
    """Force per length at the end of the two fillet welds, one on each side, that hold a gusset to the upright leg.

    Two lines of length L_w: P/(2 L_w) along them, and M over L_w^2/3 across; elastic. Each weld is to take it by
    `fillet_weld` per inch.
    M: about the weld.
    L_w: of one weld, the depth of the gusset.

    >>> round(gusset_weld_force(300.0, 2400.0, 4.0), 1)
    451.6
    """
    along, across = P / (2 * L_w), 3 * M / L_w**2
    return sqrt(along**2 + across**2)
