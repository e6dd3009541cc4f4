"""General dowel equations: a fastener across a gap between the faces (technical report TR12 of the wood council).

q is what the wood (or steel) bears per inch of fastener, M_s and M_m the moment at which the fastener yields in the
side and in the main member. Each mode gives P; P over the mode's reduction term R_d is its value, in double shear twice
that for Is, IIIs and IV, once for Im, and no II and IIIm. At gap 0 they are NDS 2018 Table 12.3.1A.

The report prints P as the root (-B + sqrt(B^2 - 4 A C))/(2 A), C below 0. Here stands the same root as
2 (-C)/(B + sqrt(B^2 + 4 A (-C))), which does not lose digits when the gap is wide.
"""

from __future__ import annotations

from ...calc.core import Number, formula, sqrt
from ...calc.ranges import at_most, not_negative, positive
from .ranges import any_diameter

GAP = "TR12 general dowel equations"


@formula(symbol="q", clause=GAP, unit="lbf/in")
def bearing_per_length(F_e: Number, D: Number) -> Number:
    """What a member bears per inch of fastener.

    Parameters
    ----------
    F_e : float or array
        Dowel bearing strength of the member. [psi]
    D : float or array
        Diameter of the fastener there: the root where threads bear. [in]

    Returns
    -------
    float or array
        [lbf/in]

    Raises
    ------
    OutOfRange
        If a value is not positive or D over 1 in.

    Notes
    -----
    Changed from the source: nothing. How known: memory.

    Examples
    --------
    >>> bearing_per_length(5600.0, 0.5)
    2800.0
    """
    return positive("F_e", F_e, GAP) * any_diameter(D)


@formula(symbol="M_d", clause=GAP, unit="lbf*in")
def dowel_yield_moment(F_yb: Number, D: Number) -> Number:
    """Moment at which a round fastener yields.

    Parameters
    ----------
    F_yb : float or array
        Bending yield strength of the fastener. [psi]
    D : float or array
        Diameter at the place: the root in the threads. [in]

    Returns
    -------
    float or array
        [lbf*in]

    Raises
    ------
    OutOfRange
        If a value is not positive or D over 1 in.

    Notes
    -----
    Changed from the source: nothing. How known: memory.

    Examples
    --------
    >>> dowel_yield_moment(45000.0, 0.5)
    937.5
    """
    return positive("F_yb", F_yb, GAP) * any_diameter(D) ** 3 / 6


@formula(symbol="P_Im", clause=GAP, unit="lbf")
def gap_mode_Im(q_m: Number, l_m: Number) -> Number:
    """Mode Im: the main member crushes.

    Parameters
    ----------
    q_m : float or array
        Bearing of the main member per inch of fastener. [lbf/in]
    l_m : float or array
        Bearing length in the main member. [in]

    Returns
    -------
    float or array
        [lbf]

    Raises
    ------
    OutOfRange
        If a value is not positive.

    Notes
    -----
    Once in double shear. Changed from the source: nothing. How known: memory.

    Examples
    --------
    >>> gap_mode_Im(2800.0, 3.5)
    9800.0
    """
    return positive("q_m", q_m, GAP) * positive("l_m", l_m, GAP)


@formula(symbol="P_Is", clause=GAP, unit="lbf")
def gap_mode_Is(q_s: Number, l_s: Number) -> Number:
    """Mode Is: the side member crushes.

    Parameters
    ----------
    q_s : float or array
        Bearing of the side member per inch of fastener. [lbf/in]
    l_s : float or array
        Bearing length in the side member. [in]

    Returns
    -------
    float or array
        [lbf]

    Raises
    ------
    OutOfRange
        If a value is not positive.

    Notes
    -----
    At one plane. Changed from the source: nothing. How known: memory.

    Examples
    --------
    >>> gap_mode_Is(2800.0, 1.5)
    4200.0
    """
    return positive("q_s", q_s, GAP) * positive("l_s", l_s, GAP)


@formula(symbol="P_II", clause=GAP, unit="lbf")
def gap_mode_II(q_m: Number, q_s: Number, l_m: Number, l_s: Number, g: Number) -> Number:
    """Mode II: the stiff fastener tilts.

    Parameters
    ----------
    q_m, q_s : float or array
        Bearing of the main and the side member per inch of fastener. [lbf/in]
    l_m, l_s : float or array
        Bearing length in the main and in the side member. [in]
    g : float or array
        Gap between the faces. [in]

    Returns
    -------
    float or array
        [lbf]

    Raises
    ------
    OutOfRange
        If the gap is negative or another value not positive.

    Notes
    -----
    Changed from the source: the form of the root. How known: memory; derived: equal to NDS at gap 0.

    Examples
    --------
    >>> round(gap_mode_II(2800.0, 2800.0, 3.5, 1.5, 0.5), 1)
    2887.2
    """
    q_m, q_s, l_m, l_s = (
        positive("q_m", q_m, GAP),
        positive("q_s", q_s, GAP),
        positive("l_m", l_m, GAP),
        positive("l_s", l_s, GAP),
    )
    slope, arm = 1 / (4 * q_s) + 1 / (4 * q_m), l_s / 2 + not_negative("g", g, GAP) + l_m / 2
    return _root(slope, arm, q_s * l_s**2 / 4 + q_m * l_m**2 / 4)


@formula(symbol="P_IIIm", clause=GAP, unit="lbf")
def gap_mode_IIIm(q_m: Number, q_s: Number, l_m: Number, g: Number, M_s: Number) -> Number:
    """Mode IIIm: hinge in the side member, the main member crushes.

    Parameters
    ----------
    q_m, q_s : float or array
        Bearing of the main and the side member per inch of fastener. [lbf/in]
    l_m : float or array
        Bearing length in the main member. [in]
    g : float or array
        Gap between the faces. [in]
    M_s : float or array
        Yield moment of the fastener in the side member. [lbf*in]

    Returns
    -------
    float or array
        [lbf]

    Raises
    ------
    OutOfRange
        If the gap is negative or another value not positive.

    Notes
    -----
    Changed from the source: the form of the root. How known: memory; derived: equal to NDS at gap 0.

    Examples
    --------
    >>> round(gap_mode_IIIm(2800.0, 2800.0, 3.5, 0.5, 937.5), 1)
    3090.6
    """
    q_m, q_s, l_m = positive("q_m", q_m, GAP), positive("q_s", q_s, GAP), positive("l_m", l_m, GAP)
    slope, arm = 1 / (2 * q_s) + 1 / (4 * q_m), not_negative("g", g, GAP) + l_m / 2
    return _root(slope, arm, positive("M_s", M_s, GAP) + q_m * l_m**2 / 4)


@formula(symbol="P_IIIs", clause=GAP, unit="lbf")
def gap_mode_IIIs(q_m: Number, q_s: Number, l_s: Number, g: Number, M_m: Number) -> Number:
    """Mode IIIs: hinge in the main member, the side member crushes.

    Parameters
    ----------
    q_m, q_s : float or array
        Bearing of the main and the side member per inch of fastener. [lbf/in]
    l_s : float or array
        Bearing length in the side member. [in]
    g : float or array
        Gap between the faces. [in]
    M_m : float or array
        Yield moment of the fastener in the main member. [lbf*in]

    Returns
    -------
    float or array
        [lbf]

    Raises
    ------
    OutOfRange
        If the gap is negative or another value not positive.

    Notes
    -----
    At one plane. Changed from the source: the form of the root. How known: memory; derived: equal to NDS at gap 0.

    Examples
    --------
    >>> round(gap_mode_IIIs(2800.0, 2800.0, 1.5, 0.5, 937.5), 1)
    1516.9
    """
    q_m, q_s, l_s = positive("q_m", q_m, GAP), positive("q_s", q_s, GAP), positive("l_s", l_s, GAP)
    slope, arm = 1 / (4 * q_s) + 1 / (2 * q_m), l_s / 2 + not_negative("g", g, GAP)
    return _root(slope, arm, q_s * l_s**2 / 4 + positive("M_m", M_m, GAP))


@formula(symbol="P_IV", clause=GAP, unit="lbf")
def gap_mode_IV(q_m: Number, q_s: Number, g: Number, M_m: Number, M_s: Number) -> Number:
    """Mode IV: a hinge in each member.

    Parameters
    ----------
    q_m, q_s : float or array
        Bearing of the main and the side member per inch of fastener. [lbf/in]
    g : float or array
        Gap between the faces. [in]
    M_m, M_s : float or array
        Yield moment of the fastener in the main and in the side member. [lbf*in]

    Returns
    -------
    float or array
        [lbf]

    Raises
    ------
    OutOfRange
        If the gap is negative or another value not positive.

    Notes
    -----
    At one plane. Changed from the source: the form of the root. How known: memory; derived: equal to NDS at gap 0.

    Examples
    --------
    >>> round(gap_mode_IV(2800.0, 2800.0, 0.5, 937.5, 937.5), 1)
    1695.8
    """
    q_m, q_s, M_m, M_s = (
        positive("q_m", q_m, GAP),
        positive("q_s", q_s, GAP),
        positive("M_m", M_m, GAP),
        positive("M_s", M_s, GAP),
    )
    return _root(1 / (2 * q_s) + 1 / (2 * q_m), not_negative("g", g, GAP), M_s + M_m)


@formula(symbol="Z", clause=GAP, unit="lbf")
def gap_value(P: Number, R_d: Number) -> Number:
    """Value of one mode at one shear plane (mode Im: in double shear also).

    Parameters
    ----------
    P : float or array
        Force of the mode. [lbf]
    R_d : float or array
        Reduction term of the mode. [-]

    Returns
    -------
    float or array
        [lbf]

    Raises
    ------
    OutOfRange
        If a value is not positive.

    Notes
    -----
    Changed from the source: nothing. How known: memory.

    Examples
    --------
    >>> gap_value(3000.0, 4.0)
    750.0
    """
    return positive("P", P, GAP) / positive("R_d", R_d, GAP)


@formula(symbol="Z", clause=GAP, unit="lbf")
def gap_value_two_planes(P: Number, R_d: Number) -> Number:
    """Value of mode Is, IIIs or IV in two shear planes with the same gap at both.

    Parameters
    ----------
    P : float or array
        Force of the mode at one plane. [lbf]
    R_d : float or array
        Reduction term of the mode. [-]

    Returns
    -------
    float or array
        [lbf]

    Raises
    ------
    OutOfRange
        If a value is not positive.

    Notes
    -----
    With unlike gaps take the larger one for both (judgement). Changed from the source: nothing. How known: memory.

    Examples
    --------
    >>> gap_value_two_planes(3000.0, 4.0)
    1500.0
    """
    return 2 * positive("P", P, GAP) / positive("R_d", R_d, GAP)


@formula(symbol="g", clause="geometry", unit="in")
def slot_gap(w_slot: Number, t: Number) -> Number:
    """Widest gap beside a plate in a wider slot.

    Parameters
    ----------
    w_slot : float or array
        Width of the slot. [in]
    t : float or array
        Thickness of the plate. [in]

    Returns
    -------
    float or array
        [in]

    Raises
    ------
    OutOfRange
        If the plate is thicker than the slot or a value not positive.

    Notes
    -----
    Nothing keeps the plate in the middle: held to one side, the other side has it all. Changed from the source:
    nothing. How known: derived.

    Examples
    --------
    >>> slot_gap(0.375, 0.25)
    0.125
    """
    w_slot = positive("w_slot", w_slot)
    return w_slot - at_most("t", t, "w_slot", w_slot)


@formula(symbol="g_max", clause="common practice", unit="in")
def widest_gap(D: Number) -> Number:
    """Gap beyond which the reduction terms, set for closed joints, are no longer trusted.

    Parameters
    ----------
    D : float or array
        Nominal diameter. [in]

    Returns
    -------
    float or array
        [in]

    Raises
    ------
    OutOfRange
        If D is not positive or over 1 in.

    Notes
    -----
    Judgement of the collected notes, not of the report: wider is an engineer's case. Changed from the source: nothing.
    How known: practice.

    Examples
    --------
    >>> widest_gap(0.5)
    1.0
    """
    return 2 * any_diameter(D)


def _root(A: Number, B: Number, minus_C: Number) -> Number:
    """The positive root of A P^2 + B P = -C."""
    return 2 * minus_C / (B + sqrt(B**2 + 4 * A * minus_C))
