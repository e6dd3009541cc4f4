"""Where a brace ends: off its axis, flush on a leg, or let into a housing. Wood at an angle: `bearing_at_angle`."""

from __future__ import annotations

from ...calc.core import Number, cos, formula, sin, valid
from ...calc.ranges import between, given, not_negative, positive
from .corbel import uneven

STATICS, JOINTS = "statics", "statics of the joint"


@formula(symbol="e_1", clause=JOINTS, unit="in")
def brace_offset(d: Number, k_off: Number, s_b: Number) -> Number:
    """How far the compression of a brace runs off its axis: a tight joint, and its bow.

    Parameters
    ----------
    d : float or array
        Depth of the brace, in the plane of the bracket. [in]
    k_off : float or array
        Share of the depth by which a tight joint shifts the force; 0 with true pins. [-]
    s_b : float or array
        Rise of the curved brace from the straight line between its ends. [in]

    Returns
    -------
    float or array
        [in]

    Raises
    ------
    OutOfRange
        If the depth is not positive, the rise negative, or k_off not 0 to 0.5.

    Notes
    -----
    Goes as e_1 into NDS 15.4.1. Bow and joint may bend the same way: they are added. Plane elements with bonded
    joints gave edge stresses up to 2.2 times N/A, which is a shift of d/5. Changed from the source: it takes d/6.
    How known: derived.

    Examples
    --------
    >>> brace_offset(2.5, 0.2, 1.5)
    2.0
    """
    k_off = between("k_off", k_off, 0, 0.5, JOINTS)
    return positive("d", d, JOINTS) * k_off + not_negative("s_b", s_b, JOINTS)


@formula(symbol="f_edge", clause=STATICS, unit="psi")
def brace_edge_stress(N_b: Number, t: Number, d: Number, e_1: Number) -> Number:
    """Compression at the edge of a brace whose force runs off its axis.

    Parameters
    ----------
    N_b : float or array
        Compression in the brace. [lbf]
    t : float or array
        Thickness of the bracket, side to side. [in]
    d : float or array
        Depth of the brace, in the plane of the bracket. [in]
    e_1 : float or array
        How far the force runs off the axis. [in]

    Returns
    -------
    float or array
        [psi]

    Raises
    ------
    OutOfRange
        If the force or offset is negative or a side not positive.

    Notes
    -----
    To look at; what is allowed is judged by NDS 3.9.2 and 15.4.1. Changed from the source: nothing. How known:
    derived.

    Examples
    --------
    >>> round(brace_edge_stress(141.421, 2.5, 2.5, 1.5), 2)
    104.09
    """
    A = positive("t", t, STATICS) * positive("d", d, STATICS)
    return not_negative("N_b", N_b, STATICS) / A * (1 + 6 * not_negative("e_1", e_1, STATICS) / d)


@formula(symbol="f_c_perp", clause=STATICS, unit="psi")
def flush_end_on_top(N_b: Number, t: Number, d: Number, beta_b: Number) -> Number:
    """Stress across the grain of a level top leg under the flush end of a brace.

    Parameters
    ----------
    N_b : float or array
        Compression in the brace. [lbf]
    t : float or array
        Thickness of the bracket, side to side. [in]
    d : float or array
        Depth of the brace, in the plane of the bracket. [in]
    beta_b : float or array
        Slope of the brace above level, between 0 and 90. [deg]

    Returns
    -------
    float or array
        [psi]

    Raises
    ------
    OutOfRange
        If the force is negative, a side not positive, or the slope not between 0 and 90.

    Notes
    -----
    The cut is d/sin(beta_b) long and takes N_b sin(beta_b). The brace itself is pressed at 90 - beta_b to its
    grain, and bears more. Changed from the source: nothing. How known: derived.

    Examples
    --------
    >>> round(flush_end_on_top(141.421, 2.5, 2.5, 45.0), 2)
    11.31
    """
    return (
        not_negative("N_b", N_b, STATICS)
        * sin(inside(beta_b)) ** 2
        / (positive("t", t, STATICS) * positive("d", d, STATICS))
    )


@formula(symbol="f_c_perp", clause=STATICS, unit="psi")
def flush_end_on_wall_leg(N_b: Number, t: Number, d: Number, beta_b: Number) -> Number:
    """Stress across the grain of an upright wall leg under the flush end of a brace.

    Parameters
    ----------
    N_b : float or array
        Compression in the brace. [lbf]
    t : float or array
        Thickness of the bracket, side to side. [in]
    d : float or array
        Depth of the brace, in the plane of the bracket. [in]
    beta_b : float or array
        Slope of the brace above level, between 0 and 90. [deg]

    Returns
    -------
    float or array
        [psi]

    Raises
    ------
    OutOfRange
        If the force is negative, a side not positive, or the slope not between 0 and 90.

    Notes
    -----
    The cut is d/cos(beta_b) long and takes N_b cos(beta_b). Changed from the source: nothing. How known: derived.

    Examples
    --------
    >>> round(flush_end_on_wall_leg(100.0, 2.0, 2.0, 60.0), 2)
    6.25
    """
    return (
        not_negative("N_b", N_b, STATICS)
        * cos(inside(beta_b)) ** 2
        / (positive("t", t, STATICS) * positive("d", d, STATICS))
    )


@formula(symbol="f_theta", clause=JOINTS, unit="psi")
def housing_bearing(H_b: Number, t: Number, d_cut: Number) -> Number:
    """Stress on the shoulder of a housing, which stands square to the leg and takes the sliding force.

    Parameters
    ----------
    H_b : float or array
        Force along the leg: `top_tie` on the top leg, `sliding_on_wall_leg` on the wall leg. [lbf]
    t : float or array
        Thickness of the bracket, side to side. [in]
    d_cut : float or array
        Depth of the housing. [in]

    Returns
    -------
    float or array
        [psi]

    Raises
    ------
    OutOfRange
        If the force is negative or a size not positive.

    Notes
    -----
    The leg is pressed along its grain; the brace at beta_b to its grain on the top leg, at 90 - beta_b on the wall
    leg: `bearing_at_angle`. Changed from the source: nothing. How known: derived.

    Examples
    --------
    >>> housing_bearing(100.0, 2.5, 0.5)
    80.0
    """
    return not_negative("H_b", H_b, JOINTS) / (positive("t", t, JOINTS) * positive("d_cut", d_cut, JOINTS))


@formula(symbol="f_v", clause=JOINTS, unit="psi")
def housing_shear(H_b: Number, t: Number, l_v: Number, k_v: Number) -> Number:
    """Shear along the grain in the wood that keeps a housing from shearing off.

    Parameters
    ----------
    H_b : float or array
        Force along the leg: `top_tie` on the top leg, `sliding_on_wall_leg` on the wall leg. [lbf]
    t : float or array
        Thickness of the bracket, side to side. [in]
    l_v : float or array
        Length of that wood along the grain that counts: `seat_shear_length`. [in]
    k_v : float or array
        Largest over mean shear stress, 1 or more. [-]

    Returns
    -------
    float or array
        [psi]

    Raises
    ------
    OutOfRange
        If the force is negative, a size not positive, or k_v below 1.

    Notes
    -----
    Against F_v'. Changed from the source: it takes the mean stress for a housing and 1.5 times the mean for the
    like cut under a corbel; here k_v goes with both. How known: memory.

    Examples
    --------
    >>> housing_shear(100.0, 2.5, 4.0, 1.5)
    15.0
    """
    return uneven(k_v) * not_negative("H_b", H_b, JOINTS) / (positive("t", t, JOINTS) * positive("l_v", l_v, JOINTS))


def inside(beta_b: Number) -> Number:
    """A slope of the brace with which it is a brace."""
    because = f"beta_b must be more than 0 and less than 90 deg{given(beta_b)}"
    return valid(beta_b, (beta_b > 0) & (beta_b < 90), because, STATICS)
