"""A block on the face of a post: the seat that it stands on, and its proportions.

The screws that tie it back: `bolt_pattern`, `tear_out`, the lateral and withdrawal values of any fastener.
"""

from __future__ import annotations

import math

from ...calc.core import Number, formula, smallest, valid
from ...calc.ranges import given, not_negative, positive

SEAT = "statics of the seat; practice"


@formula(symbol="l_v", clause=SEAT, unit="in")
def seat_shear_length(l: Number, d_cut: Number, k_l: Number) -> Number:  # noqa: E741
    """Length of wood below a seat, or behind a housing, that counts in shear along the grain.

    Parameters
    ----------
    l : float or array
        Length of the wood along the grain, to the next cut or the end. [in]
    d_cut : float or array
        Depth of the seat or housing. [in]
    k_l : float or array
        Multiple of that depth beyond which more length does not help. [-]

    Returns
    -------
    float or array
        [in]

    Raises
    ------
    OutOfRange
        If a value is not positive.

    Notes
    -----
    Shear is uneven along the plane; timber practice ends at 8 depths. Changed from the source: nothing. How known:
    memory.

    Examples
    --------
    >>> [seat_shear_length(l, 0.75, 8.0) for l in (4.0, 20.0)]
    [4.0, 6.0]
    """
    return smallest(positive("l", l, SEAT), positive("k_l", k_l, SEAT) * positive("d_cut", d_cut, SEAT))


@formula(symbol="f_v", clause=SEAT, unit="psi")
def seat_shear(P: Number, t: Number, l_v: Number, k_v: Number) -> Number:
    """Shear along the grain of a post below the seat that a corbel stands on.

    Parameters
    ----------
    P : float or array
        Load of the corbel. [lbf]
    t : float or array
        Breadth of the seat. [in]
    l_v : float or array
        Length below the seat that counts: `seat_shear_length`. [in]
    k_v : float or array
        Largest over mean shear stress, 1 or more. [-]

    Returns
    -------
    float or array
        [psi]

    Raises
    ------
    OutOfRange
        If the load is negative, a size not positive, or k_v below 1.

    Notes
    -----
    Against F_v'. Changed from the source: nothing. How known: memory.

    Examples
    --------
    >>> seat_shear(1000.0, 3.5, 6.0, 1.5)
    71.42857142857143
    """
    return uneven(k_v) * not_negative("P", P, SEAT) / (positive("t", t, SEAT) * positive("l_v", l_v, SEAT))


@formula(symbol="r_out", clause=SEAT, unit="")
def projection_ratio(l_out: Number, h: Number) -> Number:
    """How far a corbel stands out, over its height.

    Parameters
    ----------
    l_out : float or array
        How far it stands out from the post. [in]
    h : float or array
        Its height along the post. [in]

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
    Up to 0.5 the load goes into the post mostly in compression; beyond it the nose of a corbel with upright grain
    is short grain in bending. Changed from the source: nothing. How known: memory.

    Examples
    --------
    >>> projection_ratio(3.5, 9.0)
    0.3888888888888889
    """
    return positive("l_out", l_out, SEAT) / positive("h", h, SEAT)


def uneven(k_v: Number) -> Number:
    """Largest over mean shear stress along a plane: never below 1."""
    return valid(k_v, (k_v >= 1) & (k_v < math.inf), f"k_v must be 1 or more{given(k_v)}", SEAT)
