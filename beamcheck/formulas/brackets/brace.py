"""A bracket of wall leg, top leg and brace: its forces with pinned joints, and the lie of a curved brace's grain.

What presses where the brace ends is in `brace_joints`. The brace buckles as any column (`compression`), its bow and
its eccentric ends go into NDS 3.9.2 and 15.4.1 (`combined`, `eccentric`).
"""

from __future__ import annotations

import math

import numpy as np

from ...calc.core import Number, cos, formula, sin, valid, where
from ...calc.ranges import given, not_negative, positive, shown
from .brace_joints import STATICS, inside
from .brace_joints import brace_edge_stress as brace_edge_stress
from .brace_joints import brace_offset as brace_offset
from .brace_joints import flush_end_on_top as flush_end_on_top
from .brace_joints import flush_end_on_wall_leg as flush_end_on_wall_leg
from .brace_joints import housing_bearing as housing_bearing
from .brace_joints import housing_shear as housing_shear


@formula(symbol="N_b", clause=STATICS, unit="lbf")
def brace_force(P: Number, x_L: Number, x_b: Number, beta_b: Number) -> Number:
    """Compression in the brace of a bracket whose top leg turns about the wall face at the level of its underside.

    Parameters
    ----------
    P : float or array
        Load on the top leg. [lbf]
    x_L : float or array
        From the wall face to the load. [in]
    x_b : float or array
        From the wall face to where the axis of the brace meets the underside of the top leg. [in]
    beta_b : float or array
        Slope of the brace above level, between 0 and 90. [deg]

    Returns
    -------
    float or array
        [lbf]

    Raises
    ------
    OutOfRange
        If the load is negative, a distance not positive, or the slope not between 0 and 90.

    Notes
    -----
    Moments about the pivot: N_b sin(beta_b) x_b = P x_L. A pivot above the underside would give less. With the load
    beyond the brace a pivot farther out gives more: see `brace_force_butted`. Plane elements with bonded joints
    gave 0.82 to 0.91 of it. Changed from the source: nothing. How known: derived.

    Examples
    --------
    >>> round(brace_force(100.0, 15.0, 15.0, 45.0), 3)
    141.421
    """
    return (
        not_negative("P", P, STATICS)
        * positive("x_L", x_L, STATICS)
        / (positive("x_b", x_b, STATICS) * sin(inside(beta_b)))
    )


@formula(symbol="N_b", clause=STATICS, unit="lbf")
def brace_force_butted(P: Number, x_L: Number, x_b: Number, x_p: Number, beta_b: Number) -> Number:
    """Compression in the brace of a bracket whose top leg turns about a point out from the wall face.

    Parameters
    ----------
    P : float or array
        Load on the top leg. [lbf]
    x_L : float or array
        From the wall face to the load. [in]
    x_b : float or array
        From the wall face to where the axis of the brace meets the underside of the top leg. [in]
    x_p : float or array
        From the wall face to the pivot: the wall leg's depth where the top leg butts against it. [in]
    beta_b : float or array
        Slope of the brace above level, between 0 and 90. [deg]

    Returns
    -------
    float or array
        [lbf]

    Raises
    ------
    OutOfRange
        If the load or x_p is negative, load or brace stand no farther out than the pivot, or the slope is not
        between 0 and 90.

    Notes
    -----
    More than `brace_force` where the load stands beyond the brace (x_L over x_b), less inside it: take the larger
    of both. Changed from the source: the source has the pivot in the wall face only. How known: derived.

    Examples
    --------
    >>> round(brace_force_butted(100.0, 24.0, 12.0, 3.5, 45.0), 1)
    341.1
    """
    x_p = not_negative("x_p", x_p, STATICS)
    because = f"x_L and x_b must be more than x_p{shown(x_p)}: load and brace stand farther out than the pivot"
    outside = (x_L > x_p) & (x_b > x_p) & (x_L < math.inf) & (x_b < math.inf)
    arm = valid(x_L - x_p, outside, because, STATICS)
    return not_negative("P", P, STATICS) * arm / ((x_b - x_p) * sin(inside(beta_b)))


@formula(symbol="T", clause=STATICS, unit="lbf")
def top_tie(N_b: Number, beta_b: Number) -> Number:
    """Pull of the brace on the joint of top leg and wall leg: the level part of its force.

    Parameters
    ----------
    N_b : float or array
        Compression in the brace. [lbf]
    beta_b : float or array
        Slope of the brace above level, between 0 and 90. [deg]

    Returns
    -------
    float or array
        [lbf]

    Raises
    ------
    OutOfRange
        If the force is negative or the slope not between 0 and 90.

    Notes
    -----
    It pulls the top leg off the wall leg and stretches the part of it inside the brace. A flush end slides along
    the top leg with the same force. Changed from the source: nothing. How known: derived.

    Examples
    --------
    >>> round(top_tie(141.421, 45.0), 1)
    100.0
    """
    return not_negative("N_b", N_b, STATICS) * cos(inside(beta_b))


@formula(symbol="H_b", clause=STATICS, unit="lbf")
def sliding_on_wall_leg(N_b: Number, beta_b: Number) -> Number:
    """Force with which the lower end of a brace slides down the wall leg: the upright part of its force.

    Parameters
    ----------
    N_b : float or array
        Compression in the brace. [lbf]
    beta_b : float or array
        Slope of the brace above level, between 0 and 90. [deg]

    Returns
    -------
    float or array
        [lbf]

    Raises
    ------
    OutOfRange
        If the force is negative or the slope not between 0 and 90.

    Notes
    -----
    A housing, tenon or screws take it. Changed from the source: nothing. How known: derived.

    Examples
    --------
    >>> round(sliding_on_wall_leg(100.0, 30.0), 1)
    50.0
    """
    return not_negative("N_b", N_b, STATICS) * sin(inside(beta_b))


@formula(symbol="V_0", clause=STATICS, unit="lbf")
def top_uplift(P: Number, N_b: Number, beta_b: Number) -> Number:
    """Upright force in the joint of top leg and wall leg; below zero the top leg lifts there.

    Parameters
    ----------
    P : float or array
        Load on the top leg. [lbf]
    N_b : float or array
        Compression in the brace. [lbf]
    beta_b : float or array
        Slope of the brace above level, between 0 and 90. [deg]

    Returns
    -------
    float or array
        Positive: the joint holds the top leg up; negative: it must hold it down. [lbf]

    Raises
    ------
    OutOfRange
        If a force is negative or the slope not between 0 and 90.

    Notes
    -----
    Negative as soon as the load stands farther out than the brace. Changed from the source: nothing. How known:
    derived.

    Examples
    --------
    >>> round(top_uplift(100.0, 212.132, 45.0), 1)
    -50.0
    """
    return not_negative("P", P, STATICS) - not_negative("N_b", N_b, STATICS) * sin(inside(beta_b))


@formula(symbol="M", clause=STATICS, unit="lbf*in")
def top_leg_moment(P: Number, x_L: Number, x_b: Number) -> Number:
    """Largest moment in a top leg that rests on wall leg and brace, under one load.

    Parameters
    ----------
    P : float or array
        Load on the top leg. [lbf]
    x_L : float or array
        From the wall face to the load. [in]
    x_b : float or array
        From the wall face to where the axis of the brace meets the underside of the top leg. [in]

    Returns
    -------
    float or array
        Without sign: load beyond the brace stretches the upper side, load inside it the lower one. [lbf*in]

    Raises
    ------
    OutOfRange
        If the load is negative or a distance not positive.

    Notes
    -----
    Overhang P (x_L - x_b) beyond the brace; P x_L (x_b - x_L)/x_b inside, as of a simple beam. Changed from the
    source: nothing. How known: derived.

    Examples
    --------
    >>> [round(top_leg_moment(100.0, x_L, 15.0), 1) for x_L in (5.0, 18.0)]
    [333.3, 300.0]
    """
    x_L, x_b = positive("x_L", x_L, STATICS), positive("x_b", x_b, STATICS)
    return not_negative("P", P, STATICS) * where(x_L < x_b, x_L * (x_b - x_L) / x_b, x_L - x_b)


@formula(symbol="M", clause=STATICS, unit="lbf*in")
def bow_moment(N_b: Number, s_b: Number) -> Number:
    """Moment at mid-length of a curved brace.

    Parameters
    ----------
    N_b : float or array
        Compression in the brace. [lbf]
    s_b : float or array
        Rise of the curved brace from the straight line between its ends. [in]

    Returns
    -------
    float or array
        [lbf*in]

    Raises
    ------
    OutOfRange
        If a value is negative.

    Notes
    -----
    Pinned ends; joints that hold leave some 0.6 of it, which is not to be counted on for screws and pegs. The
    bending stress goes with the compression into NDS 3.9.2. Changed from the source: nothing. How known: derived.

    Examples
    --------
    >>> bow_moment(140.0, 1.5)
    210.0
    """
    return not_negative("N_b", N_b, STATICS) * not_negative("s_b", s_b, STATICS)


@formula(symbol="slope_g", clause="geometry of the circle", unit="")
def grain_runout_slope(s_b: Number, l: Number) -> Number:  # noqa: E741
    """Slope of the grain to the edge at the ends of a brace that is sawn to a curve from straight stock.

    Parameters
    ----------
    s_b : float or array
        Rise of the curved brace from the straight line between its ends, less than half of it. [in]
    l : float or array
        Length of the brace, straight from end to end. [in]

    Returns
    -------
    float or array
        Tangent of the angle; `grain_runout` has it in degrees. [-]

    Raises
    ------
    OutOfRange
        If the rise is negative or not less than l/2.

    Notes
    -----
    The arc's ends lean 2 atan(2 s_b/l). Changed from the source: it takes a parabola, 4 s_b/l, which is less. How
    known: derived.

    Examples
    --------
    >>> round(grain_runout_slope(1.5, 17.7), 4)
    0.349
    """
    l = positive("l", l)  # noqa: E741
    because = f"s_b must be 0 or more and less than half of l{shown(l)}{given(s_b)}"
    s_b = valid(s_b, (s_b >= 0) & (2 * s_b < l), because)
    return 4 * s_b * l / (l**2 - 4 * s_b**2)


def grain_runout(s_b: Number, l: Number) -> Number:  # noqa: E741
    """Angle between grain and edge at the ends of a sawn curved brace, deg. Arguments of `grain_runout_slope`."""
    return np.degrees(np.arctan(grain_runout_slope(s_b, l)))


def brace_slope(rise: Number, run: Number) -> Number:
    """Slope of a brace above level, deg, from its rise and run (in) between the points where its axis meets the legs.

    Raises
    ------
    OutOfRange
        If a value is not positive.
    """
    return np.degrees(np.arctan2(positive("rise", rise), positive("run", run)))
