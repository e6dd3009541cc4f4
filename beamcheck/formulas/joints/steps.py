"""Step joint: the foot of a rafter or strut let into a tie, chord or post. Friction is not counted.

The notched piece is the tie. beta_r is the angle between the two pieces, t_n the notch's depth square to the tie, b the
narrower width. Bearing is held against `bearing_at_angle`: on the bisector at half the angle in both pieces; square to
the rafter at the whole angle in the tie; square to the tie at the whole angle in the rafter. Depth and length limits
are those of the German annex to Eurocode 5, NCI NA.12.1, as an engineering office sums them up.
"""

from __future__ import annotations

from typing import Annotated

from ...calc.core import Number, cos, formula, sin, smallest, where
from ...calc.ranges import Finite, NotNegative, Positive, at_least, at_most, inside

LIMITS = "DIN EN 1995-1-1/NA NCI NA.12.1"
STATICS = "statics of the joint"

Meeting = Annotated[Number, inside(0, 90, "deg")]
OverMean = Annotated[Number, at_least(1)]


@formula(symbol="t_n", clause=LIMITS, unit="in", known="read; second-hand")
def deepest_step(d: Positive, beta_r: Meeting) -> Number:
    """Greatest depth of a step: a quarter of the tie up to 50 degrees, a sixth from 60 on, straight between.

    Notches from both sides: a sixth each.
    d: of the tie.

    >>> [round(deepest_step(9.5, beta), 3) for beta in (33.0, 55.0, 70.0)]
    [2.375, 1.979, 1.583]
    """
    return where(beta_r <= 50, d / 4, where(beta_r < 60, d * (1 / 4 - (beta_r - 50) / 120), d / 6))


@formula(symbol="f_theta", clause=STATICS, unit="psi", known="derived")
def step_on_bisector(N: NotNegative, beta_r: Meeting, b: Positive, t_n: Positive) -> Number:
    """Pressure on the front face of a step that halves the outer angle.

    Exact when the second face is square to the first; with a level seat the front face gets N cos(beta_r)/(b t_n),
    which is less.
    N: push in the rafter.

    >>> round(step_on_bisector(4870.0, 33.69, 5.5, 1.75), 1)
    463.5
    """
    return N * cos(beta_r / 2) ** 2 / (b * t_n)


@formula(symbol="f_theta", clause=STATICS, unit="psi", known="derived")
def step_square(N: NotNegative, beta_r: Meeting, b: Positive, t_n: Positive) -> Number:
    """Pressure on the front face of a step that is square to the rafter, or square to the tie.

    N: push in the rafter.

    >>> round(step_square(4870.0, 33.69, 5.5, 1.75), 1)
    421.0
    """
    return N * cos(beta_r) / (b * t_n)


@formula(symbol="f_theta", clause=STATICS, unit="psi", known="read; second-hand", reference=True)
def let_in_steep_face(N: NotNegative, A: Positive, beta_r: Meeting) -> Number:
    """Pressure on the steep one of two faces square to each other that let a strut in to its full depth.

    A: of the strut.

    >>> round(let_in_steep_face(5200.0, 41.25, 35.0), 1)
    229.3
    """
    return 2 * N * cos(beta_r / 2) ** 2 / A


@formula(symbol="f_theta", clause=STATICS, unit="psi", known="read; second-hand", reference=True)
def let_in_flat_face(N: NotNegative, A: Positive, beta_r: Meeting) -> Number:
    """Pressure on the flat one of two faces square to each other that let a strut in to its full depth.

    A: of the strut.

    >>> round(let_in_flat_face(5200.0, 41.25, 35.0), 1)
    22.8
    """
    return 2 * N * sin(beta_r / 2) ** 2 / A


@formula(symbol="l_v_ef", clause=LIMITS, unit="in", known="read; second-hand")
def step_shear_length(
    l_v: Annotated[Number, at_least(8, because="less than 8 in splits off")], t_n: Positive
) -> Number:
    """Length behind the notch that counts in shear: at most eight times its depth.

    l_v: from the root of the notch to the end of the tie.

    >>> step_shear_length(16.0, 1.75)
    14.0
    """
    return smallest(l_v, 8 * t_n)


@formula(symbol="f_v", clause=LIMITS, unit="psi", known="read; second-hand")
def step_shear(T: NotNegative, b: Positive, l_v_ef: Positive, k_v: OverMean) -> Number:
    """Shear along the grain behind the notch.

    Against F_v'. End checks that reach the plane leave nothing.
    T: the part of the push along the tie.
    k_v: 1.5 here (judgment). The annex has 1, with its lower strength; a stress that falls to zero has 2.

    >>> round(step_shear(4052.0, 5.5, 12.0, 1.5), 2)
    92.09
    """
    return k_v * T / (b * l_v_ef)


@formula(symbol="l_v", clause="statics", unit="in", known="derived", reference=True)
def step_length_needed(T: NotNegative, b: Positive, F_v_prime: Positive, k_v: OverMean) -> Number:
    """Length behind the notch at which its shear is just what is allowed; the limits of length stand beside it.

    >>> round(step_length_needed(4052.0, 5.5, 170.0, 1.5), 2)
    6.5
    """
    return k_v * T / (b * F_v_prime)


@formula(symbol="M", clause=STATICS, unit="lbf*in", known="derived")
def moment_under_step(T: NotNegative, d: Positive, V: NotNegative, x_R: Finite) -> Number:
    """Moment in the wood under the notch, with T: bending and tension (NDS 3.9.1) on b (d - t_n).

    None where the rafter's axis, the reaction and the axis of the wood under the notch meet.
    d: of the tie.
    V: upright part of the push.

    >>> round(moment_under_step(4052.1, 9.5, 2701.4, 5.0), 0)
    5740.0
    """
    return T * d / 2 - V * x_R


@formula(symbol="e", clause=STATICS, unit="in", known="derived")
def step_offset(d: Positive, d_c: Annotated[Number, at_most("d")]) -> Number:
    """How far the push comes into the rafter off its axis.

    d: of the rafter.

    >>> step_offset(7.5, 2.5)
    2.5
    """
    return (d - d_c) / 2


@formula(symbol="t_n", clause=STATICS, unit="in", known="read; second-hand", reference=True)
def front_of_double_step(t_heel: Annotated[Number, at_least(0.5)]) -> Number:
    """Greatest depth of the front notch of a double step: 0.8 of the heel notch, and 10 mm less than it.

    Each face is given 0.6 of the pull (judgment), the shear plane of the heel notch all of it.

    >>> front_of_double_step(2.75)
    2.2
    """
    return smallest(0.8 * t_heel, t_heel - 10 / 25.4)
