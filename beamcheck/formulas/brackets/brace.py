"""A bracket of wall leg, top leg and brace: its forces with pinned joints, the lie of a curved brace's grain, its ends.

A brace ends off its axis, flush on a leg, or let into a housing; wood at an angle: `bearing_at_angle`. It buckles as
any column (`compression`); its bow and its eccentric ends go into NDS 3.9.2 and 15.4.1 (`combined`).
"""

from __future__ import annotations

from typing import Annotated

import numpy as np

from ...calc.core import Number, cos, formula, sin
from ...calc.ranges import NotNegative, Positive, below, between, inside, more_than
from .corbel import AtLeastMean

STATICS, JOINTS = "statics", "statics of the joint"

Slope = Annotated[Number, inside(0, 90, "deg")]
Farther = Annotated[Number, more_than("x_p", because="load and brace stand farther out than the pivot")]


@formula(symbol="N_b", clause=STATICS, unit="lbf", known="derived")
def brace_force(P: NotNegative, x_L: Positive, x_b: Positive, beta_b: Slope) -> Number:
    """Compression in the brace of a bracket whose top leg turns about the wall face at the level of its underside.

    Moments about the pivot: N_b sin(beta_b) x_b = P x_L. A pivot above the underside would give less. With the load
    beyond the brace a pivot farther out gives more: see `brace_force_butted`. Plane elements with bonded joints gave
    0.82 to 0.91 of it.

    >>> round(brace_force(100.0, 15.0, 15.0, 45.0), 3)
    141.421
    """
    return P * x_L / (x_b * sin(beta_b))


@formula(symbol="N_b", clause=STATICS, unit="lbf", known="derived")
def brace_force_butted(P: NotNegative, x_L: Farther, x_b: Farther, x_p: NotNegative, beta_b: Slope) -> Number:
    """Compression in the brace of a bracket whose top leg turns about a point out from the wall face.

    More than `brace_force` where the load stands beyond the brace (x_L over x_b), less inside it: take the larger of
    both.
    x_p: the depth of the wall leg where the top leg butts against it.

    >>> round(brace_force_butted(100.0, 24.0, 12.0, 3.5, 45.0), 1)
    341.1
    """
    return P * (x_L - x_p) / ((x_b - x_p) * sin(beta_b))


@formula(symbol="T", clause=STATICS, unit="lbf", known="derived")
def top_tie(N_b: NotNegative, beta_b: Slope) -> Number:
    """Pull of the brace on the joint of top leg and wall leg: the level part of its force.

    It pulls the top leg off the wall leg and stretches the part of it inside the brace. A flush end slides along the
    top leg with the same force.

    >>> round(top_tie(141.421, 45.0), 1)
    100.0
    """
    return N_b * cos(beta_b)


@formula(symbol="H_b", clause=STATICS, unit="lbf", known="derived")
def sliding_on_wall_leg(N_b: NotNegative, beta_b: Slope) -> Number:
    """Force with which the lower end of a brace slides down the wall leg: the upright part of its force.

    A housing, tenon or screws take it.

    >>> round(sliding_on_wall_leg(100.0, 30.0), 1)
    50.0
    """
    return N_b * sin(beta_b)


@formula(symbol="slope_g", clause="geometry of the circle", unit="", known="derived")
def grain_runout_slope(s_b: Annotated[Number, below("l / 2")], l: Positive) -> Number:  # noqa: E741
    """Slope of the grain to the edge at the ends of a brace that is sawn to a curve from straight stock.

    The arc's ends lean 2 atan(2 s_b/l). A parabola would give 4 s_b/l, which is less.
    l: of the brace, straight from end to end.
    slope_g: `grain_runout` has it in degrees.

    >>> round(grain_runout_slope(1.5, 17.7), 4)
    0.349
    """
    return 4 * s_b * l / (l**2 - 4 * s_b**2)


@formula(symbol="e_1", clause=JOINTS, unit="in", known="derived")
def brace_offset(d: Positive, k_off: Annotated[Number, between(0, 0.5)], s_b: NotNegative) -> Number:
    """How far the compression of a brace runs off its axis: a tight joint, and its bow.

    Goes as e_1 into NDS 15.4.1. Bow and joint may bend the same way: they are added. Plane elements with bonded joints
    gave edge stresses up to 2.2 times N/A, which is a shift of d/5.
    k_off: 0 with true pins.

    >>> brace_offset(2.5, 0.2, 1.5)
    2.0
    """
    return d * k_off + s_b


@formula(symbol="f_c_perp", clause=STATICS, unit="psi", known="derived")
def flush_end_on_top(N_b: NotNegative, t: Positive, d: Positive, beta_b: Slope) -> Number:
    """Stress across the grain of a level top leg under the flush end of a brace.

    The cut is d/sin(beta_b) long and takes N_b sin(beta_b). The brace itself is pressed at 90 - beta_b to its grain,
    and bears more.

    >>> round(flush_end_on_top(141.421, 2.5, 2.5, 45.0), 2)
    11.31
    """
    return N_b * sin(beta_b) ** 2 / (t * d)


@formula(symbol="f_c_perp", clause=STATICS, unit="psi", known="derived")
def flush_end_on_wall_leg(N_b: NotNegative, t: Positive, d: Positive, beta_b: Slope) -> Number:
    """Stress across the grain of an upright wall leg under the flush end of a brace.

    The cut is d/cos(beta_b) long and takes N_b cos(beta_b).

    >>> round(flush_end_on_wall_leg(100.0, 2.0, 2.0, 60.0), 2)
    6.25
    """
    return N_b * cos(beta_b) ** 2 / (t * d)


@formula(symbol="f_theta", clause=JOINTS, unit="psi", known="derived")
def housing_bearing(H_b: NotNegative, t: Positive, d_cut: Positive) -> Number:
    """Stress on the shoulder of a housing, which stands square to the leg and takes the sliding force.

    The leg is pressed along its grain; the brace at beta_b to its grain on the top leg, at 90 - beta_b on the wall
    leg: `bearing_at_angle`.
    H_b: `top_tie` on the top leg, `sliding_on_wall_leg` on the wall leg.

    >>> housing_bearing(100.0, 2.5, 0.5)
    80.0
    """
    return H_b / (t * d_cut)


@formula(symbol="f_v", clause=JOINTS, unit="psi", known="memory")
def housing_shear(H_b: NotNegative, t: Positive, l_v: Positive, k_v: AtLeastMean) -> Number:
    """Shear along the grain in the wood that keeps a housing from shearing off.

    Against F_v'.
    H_b: `top_tie` on the top leg, `sliding_on_wall_leg` on the wall leg.

    >>> housing_shear(100.0, 2.5, 4.0, 1.5)
    15.0
    """
    return k_v * H_b / (t * l_v)


@formula(symbol="delta_n", clause=STATICS, unit="in", known="derived")
def bent_outside_brace(P: NotNegative, x_L: Positive, x_b: Positive, E: Positive, I: Positive) -> Number:  # noqa: E741
    """How far a top leg bends under a load farther out than the brace: an overhang on two points of support.

    >>> round(bent_outside_brace(100.0, 18.0, 15.0, 1.2e6, 3.2552), 6)
    0.001382
    """
    return P * x_L * (x_L - x_b) ** 2 / (3 * E * I)


@formula(symbol="delta_n", clause=STATICS, unit="in", known="derived")
def bent_inside_brace(P: NotNegative, x_L: Positive, x_b: Positive, E: Positive, I: Positive) -> Number:  # noqa: E741
    """How far a top leg bends under a load between wall and brace: a beam on two points of support.

    >>> round(bent_inside_brace(100.0, 7.5, 15.0, 1.2e6, 3.2552), 6)
    0.0018
    """
    return P * x_L**2 * (x_b - x_L) ** 2 / (3 * E * I * x_b)


@formula(symbol="delta_b", clause="virtual work", unit="in", known="derived")
def braced_sinking(
    P: NotNegative, n_b: NotNegative, t_b: NotNegative, v_b: Number, c_b: Positive, c_t: Positive, k_V: Positive,
    delta_n: NotNegative, g_j: NotNegative,
) -> Number:  # fmt: skip
    """How far the place of the load of a braced bracket sinks: brace and its ends, tie and top leg, bending, slack.

    c_b: L_b/(E A) of the brace and 1/k of both its ends.
    c_t: 1/k of the joint of the legs and x_b/(E A) of the top leg.
    n_b, t_b, v_b: brace, pull on the joint and upright force on the joint under a load of one.

    >>> round(braced_sinking(100.0, 1.697, 1.2, -0.2, 5.2e-5, 3.53e-5, 2e4, 0.00138, 0.0), 4)
    0.0216
    """
    return P * (n_b**2 * c_b + t_b**2 * c_t + v_b**2 / k_V) + delta_n + g_j * (n_b + t_b)


@formula(symbol="k_e", clause="judgment", unit="lbf/in", known="memory")
def end_of_brace_stiffness(E: Positive, A_b: Positive, d: Positive) -> Number:
    """Stiffness of the wood that an end of a brace presses on.

    A_b: area in bearing.
    d: depth of the leg.

    >>> end_of_brace_stiffness(1.6e6, 1.25, 2.5)
    40000.0
    """
    return E / 20 * A_b / d


@formula(symbol="N_b", clause="force method", unit="lbf", known="derived", reference=True)
def knee_force(Delta_0: NotNegative, beta_b: Slope, f_xx: Positive, f_h: NotNegative, c_b: NotNegative) -> Number:
    """Compression in a bracket that is fixed to a beam and to the post or wall below it: it works as a knee brace.

    Its level part pushes the beam off the post and bends the post. What is fixed to both fails as it stands.
    Delta_0: how far the beam would come down at its nose.
    f_xx, f_h: how far beam and post give under one pound each there, down and sideways.
    c_b: shortening of the brace and of its ends under one pound.

    >>> round(knee_force(0.1, 45.0, 1e-5, 1e-5, 1e-4))
    643
    """
    return Delta_0 * sin(beta_b) / (f_xx * sin(beta_b) ** 2 + f_h * cos(beta_b) ** 2 + c_b)


@formula(symbol="H_k", clause="statics", unit="lbf", known="derived")
def knee_thrust(R: NotNegative, beta_b: Slope) -> Number:
    """Level force of a bracket that is fixed to a beam and to what it stands on, as of a knee brace.

    It pushes the beam off its seat at the top and what the bracket stands on sideways at its foot.
    R: upright part of its force on the beam.

    >>> round(knee_thrust(719.0, 45.0), 1)
    719.0
    """
    return R * cos(beta_b) / sin(beta_b)


@formula(symbol="M_k", clause="statics", unit="lbf*in", known="derived", reference=True)
def knee_post_moment(H_k: NotNegative, h: Positive, y_k: Annotated[Number, below("h")]) -> Number:
    """Moment of a post hinged at both ends under the thrust of a bracket that is fixed to a beam as well.

    h: of the post.
    y_k: foot of the bracket, down from its head.

    >>> round(knee_post_moment(718.947, 96.0, 30.0))
    14828
    """
    return H_k * y_k * (h - y_k) / h


def grain_runout(s_b: Number, l: Number) -> Number:  # noqa: E741
    """Angle between grain and edge at the ends of a sawn curved brace, deg. Arguments of `grain_runout_slope`."""
    return np.degrees(np.arctan(grain_runout_slope(s_b, l)))
