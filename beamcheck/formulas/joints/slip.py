"""Give of joints: bars with springs at their ends, groups that turn, braces that close a gap, and what lies beside.

One modulus of NDS 11.3.6 is that of a bolt, not of a shear plane: a bolt in single shear gets half.
"""

from __future__ import annotations

from typing import Annotated

from ...calc.core import Number, cos, formula
from ...calc.ranges import Finite, NotNegative, Positive, PositiveOrInfinite, below, inside

STATICS = "statics"
Slope = Annotated[Number, inside(0, 90, "deg")]


@formula(symbol="k_bar", clause=STATICS, unit="lbf/in", known="derived", reference=True)
def bar_with_slip(E: Positive, A: Positive, L: Positive, k_1s: PositiveOrInfinite, k_2s: PositiveOrInfinite) -> Number:
    """Stiffness along its axis of a bar with springs at its ends and no load along it.

    L: of the bar.

    >>> round(bar_with_slip(1.6e6, 30.0, 144.0, 120000.0, 120000.0), 1)
    50847.5
    """
    return 1 / (L / (E * A) + 1 / k_1s + 1 / k_2s)


@formula(symbol="K_r", clause=STATICS, unit="lbf*in", known="derived", reference=True)
def group_turning_stiffness(gamma: Positive, I_p: Positive) -> Number:
    """Stiffness against turning of a group of fasteners, per radian. Over E I/L of the member it matters.

    >>> group_turning_stiffness(175370.0, 32.0)
    5611840.0
    """
    return gamma * I_p


@formula(symbol="Delta", clause="kinematics", unit="in", known="derived", reference=True)
def sway_of_gap(g: NotNegative, h: Positive, a: Annotated[Number, below("h")], beta_r: Slope) -> Number:
    """How far a bent on pinned posts sways freely before its brace presses.

    g: that closes along the brace, both ends together.
    h: of the bent.
    a: from the beam down to the brace's foot.

    >>> round(sway_of_gap(0.125, 120.0, 36.0, 45.0), 4)
    0.5893
    """
    return g * h / (a * cos(beta_r))


@formula(symbol="N_b", clause=STATICS, unit="lbf", known="derived", reference=True)
def knee_brace_force(H: NotNegative, h: Positive, a: Annotated[Number, below("h")], beta_r: Slope) -> Number:
    """Force in the brace of a post that takes H at its head, foot and head pinned.

    H: half of what the bent takes when both braces act, all of it when only the lee one does.
    h: of the post.
    a: from the beam down to the brace's foot.

    >>> round(knee_brace_force(1000.0, 120.0, 36.0, 45.0), 1)
    4714.0
    """
    return H * h / (a * cos(beta_r))


@formula(symbol="M", clause=STATICS, unit="lbf*in", known="derived", reference=True)
def moment_at_knee_brace(H: NotNegative, h: Positive, a: Annotated[Number, below("h")]) -> Number:
    """Moment of the post at the foot of its brace. H, h, a as in `knee_brace_force`.

    >>> moment_at_knee_brace(1000.0, 120.0, 36.0)
    84000.0
    """
    return H * (h - a)


@formula(symbol="R", clause=STATICS, unit="lbf", known="derived", reference=True)
def level_force_at_head(H: NotNegative, h: Positive, a: Annotated[Number, below("h")]) -> Number:
    """Level force between post head and beam, on which the brace pries. H, h, a as in `knee_brace_force`.

    >>> round(level_force_at_head(1000.0, 120.0, 36.0), 1)
    2333.3
    """
    return H * (h - a) / a


@formula(symbol="P", clause="common practice", unit="lbf", known="read; second-hand", reference=True)
def brace_point_force(k_b: Annotated[Number, below(1)], P: NotNegative) -> Number:
    """Sideways force that a point brace of a chord or post in compression must hold.

    k_b: 0.02. Rows of trusses add up into what braces the row.
    P: compression in the chord.

    >>> round(brace_point_force(0.02, 9400.0), 1)
    188.0
    """
    return k_b * P


@formula(symbol="M", clause="statics; NDS 2018 11.1.3 asks for it", unit="lbf*in", known="derived", reference=True)
def moment_of_missed_axes(dN: Finite, e: NotNegative) -> Number:
    """Moment thrown into a chord, alike on both sides, where the axes of the webs miss its own. Half to each side.

    e: by which they miss it.

    >>> moment_of_missed_axes(3600.0, 2.5)
    4500.0
    """
    return dN * e / 2


@formula(symbol="M", clause=STATICS, unit="lbf*in", known="derived")
def moment_of_single_lap(N: NotNegative, l_m: Positive, l_s: Positive) -> Number:
    """Moment out of the plane of a single lap that bends both pieces the weak way.

    >>> moment_of_single_lap(800.0, 5.5, 3.5)
    3600.0
    """
    return N * (l_m + l_s) / 2
