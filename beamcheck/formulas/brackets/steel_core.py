"""A concealed flat bar bent to an L, with or without a welded gusset; the wood around it carries nothing.

Its strength is in `steel_bending`; a gusset's modulus is `rectangle_modulus` with its thickness and depth.
"""

from __future__ import annotations

from ...calc.core import Number, formula, sqrt
from ...calc.ranges import at_most, between, not_negative, positive

STATICS, GUSSET = "statics", "AISC 360-16 Table B4.1a, as a guide"


@formula(symbol="M", clause=STATICS, unit="lbf*in")
def bend_moment(P: Number, x_L: Number) -> Number:
    """Moment at the bend of a flat bar that carries alone.

    Parameters
    ----------
    P : float or array
        Load. [lbf]
    x_L : float or array
        From the wall face to the load. [in]

    Returns
    -------
    float or array
        [lbf*in]

    Raises
    ------
    OutOfRange
        If the load is negative or the distance not positive.

    Notes
    -----
    The steel takes all of it; the wood around it none. Changed from the source: nothing. How known: derived.

    Examples
    --------
    >>> bend_moment(50.0, 8.0)
    400.0
    """
    return not_negative("P", P, STATICS) * positive("x_L", x_L, STATICS)


@formula(symbol="F_bs", clause="allowable stress design of steel, older than AISC 360", unit="psi")
def elastic_bending_limit(F_y: Number) -> Number:
    """Bending stress that a steel bar is held below so that it stays well inside its elastic range.

    Parameters
    ----------
    F_y : float or array
        Yield point. [psi]

    Returns
    -------
    float or array
        [psi]

    Raises
    ------
    OutOfRange
        If the yield point is not positive.

    Notes
    -----
    0.6 F_y; `bar_bending` (AISC 360-16 F11) allows up to 1.5 times as much of a flat bar. Changed from the source:
    nothing. How known: memory.

    Examples
    --------
    >>> elastic_bending_limit(36000.0)
    21600.0
    """
    return 0.6 * positive("F_y", F_y)


@formula(symbol="Delta", clause=STATICS, unit="in")
def tip_deflection(
    P: Number,
    x_L: Number,
    l_out: Number,
    E_steel: Number,
    I: Number,  # noqa: E741
    l_down: Number,
    c_v: Number,
) -> Number:
    """How far the tip of an L-shaped bar sinks: its level leg bends, and the bend turns as the upright leg bends.

    Parameters
    ----------
    P : float or array
        Load. [lbf]
    x_L : float or array
        From the wall face to the load, at most l_out. [in]
    l_out : float or array
        How far the level leg stands out. [in]
    E_steel : float or array
        Modulus of elasticity of steel. [psi]
    I : float or array
        Second moment of area of the bar, bent the flat way. [in4]
    l_down : float or array
        From the bend to the fixing that keeps the upright leg from turning. [in]
    c_v : float or array
        3 where the moment dies out to a far fixing that is a hinge, 1 where it stays the same down to it
        (upper bound). [-]

    Returns
    -------
    float or array
        [in]

    Raises
    ------
    OutOfRange
        If the load is negative, a size not positive, the load beyond the tip, or c_v not 1 to 3.

    Notes
    -----
    Stretch of the legs, slip of the fixings and give of the wall come on top. Changed from the source: a load
    inside the tip is covered as well. How known: derived.

    Examples
    --------
    >>> I = 1.5 * 0.25**3 / 12
    >>> round(tip_deflection(50.0, 8.0, 8.0, 29.0e6, I, 3.0, 1.0), 4)
    0.3201
    """
    x_L = at_most("x_L", x_L, "l_out", positive("l_out", l_out, STATICS), STATICS)
    EI = positive("E_steel", E_steel, STATICS) * positive("I", I, STATICS)
    turn = positive("l_down", l_down, STATICS) / (between("c_v", c_v, 1, 3, STATICS) * EI)
    return not_negative("P", P, STATICS) * (x_L**2 * (3 * l_out - x_L) / (6 * EI) + x_L * l_out * turn)


@formula(symbol="slenderness", clause=GUSSET, unit="")
def gusset_slenderness(l_edge: Number, t: Number) -> Number:
    """Slenderness of a gusset's free sloping edge, which is in compression.

    Parameters
    ----------
    l_edge : float or array
        Length of the free sloping edge. [in]
    t : float or array
        Thickness of the gusset. [in]

    Returns
    -------
    float or array
        [-]

    Raises
    ------
    OutOfRange
        If a value is not positive.

    Notes
    -----
    Changed from the source: the free edge in the place of the gusset's depth, which is shorter. How known: memory.

    Examples
    --------
    >>> gusset_slenderness(4.0, 0.25)
    16.0
    """
    return positive("l_edge", l_edge, GUSSET) / positive("t", t, GUSSET)


@formula(symbol="slenderness_max", clause=GUSSET, unit="")
def gusset_slenderness_limit(E_steel: Number, F_y: Number) -> Number:
    """Slenderness of a free edge up to which it yields before it buckles.

    Parameters
    ----------
    E_steel : float or array
        Modulus of elasticity of steel. [psi]
    F_y : float or array
        Yield point. [psi]

    Returns
    -------
    float or array
        [-]

    Raises
    ------
    OutOfRange
        If a value is not positive.

    Notes
    -----
    A guide borrowed from unstiffened plates in compression. Beyond it: thicker, or a flange on the edge. Changed
    from the source: nothing. How known: memory.

    Examples
    --------
    >>> round(gusset_slenderness_limit(29.0e6, 36000.0), 2)
    15.89
    """
    return 0.56 * sqrt(positive("E_steel", E_steel, GUSSET) / positive("F_y", F_y, GUSSET))


@formula(symbol="q_w", clause=STATICS, unit="lbf/in")
def gusset_weld_force(P: Number, M: Number, L_w: Number) -> Number:
    """Force per length at the end of the two fillet welds, one on each side, that hold a gusset to the upright leg.

    Parameters
    ----------
    P : float or array
        Load. [lbf]
    M : float or array
        Its moment about the weld. [lbf*in]
    L_w : float or array
        Length of one weld: the depth of the gusset. [in]

    Returns
    -------
    float or array
        [lbf/in]

    Raises
    ------
    OutOfRange
        If load or moment is negative or the length not positive.

    Notes
    -----
    Two lines of length L_w: P/(2 L_w) along them, and M over L_w^2/3 across; elastic. Each weld is to take it by
    `fillet_weld` per inch. Changed from the source: it has no rule for the weld. How known: derived.

    Examples
    --------
    >>> round(gusset_weld_force(300.0, 2400.0, 4.0), 1)
    451.6
    """
    L_w = positive("L_w", L_w, STATICS)
    along, across = not_negative("P", P, STATICS) / (2 * L_w), 3 * not_negative("M", M, STATICS) / L_w**2
    return sqrt(along**2 + across**2)
