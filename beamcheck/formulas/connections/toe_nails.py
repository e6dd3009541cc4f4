"""Fasteners driven aslant: toe-nails, and dowels that cross a member at an angle."""

from __future__ import annotations

from ...calc.core import Number, cos, formula, sin, smallest, valid
from ...calc.ranges import given, not_negative, positive

TOE, SLANT = "NDS 2018 12.1.6.3", "NDS 2018 12.3.10"


@formula(symbol="l_s", clause=TOE, unit="in")
def toe_nail_side_length(t_s: Number, L_f: Number) -> Number:
    """Side bearing length of a toe-nail.

    Parameters
    ----------
    t_s : float or array
        Thickness of the side member. [in]
    L_f : float or array
        Length of the nail. [in]

    Returns
    -------
    float or array
        [in]

    Raises
    ------
    OutOfRange
        If a length is not positive.

    Notes
    -----
    Driven at about 30 deg to the member, a third of its length from the end. Changed from the source: nothing. How
    known: read.

    Examples
    --------
    >>> toe_nail_side_length(1.5, 3.0)
    1.0
    """
    return smallest(positive("t_s", t_s, TOE), positive("L_f", L_f, TOE) / 3)


@formula(symbol="l_m", clause=TOE, unit="in")
def toe_nail_main_length(L_f: Number) -> Number:
    """Depth of a toe-nail in the main member.

    Parameters
    ----------
    L_f : float or array
        Length of the nail. [in]

    Returns
    -------
    float or array
        [in]

    Raises
    ------
    OutOfRange
        If the length is not positive.

    Notes
    -----
    Driven at about 30 deg to the member, a third of its length from the end. It is a length of the commentary; whether
    half the tip is still to be taken off is not said (the safe reading is `main_length_nail` of it). Changed from the
    source: nothing. How known: read.

    Examples
    --------
    >>> round(toe_nail_main_length(3.0), 3)
    1.598
    """
    L_f = positive("L_f", L_f, TOE)
    return L_f * cos(30) - L_f / 3


@formula(symbol="l", clause=SLANT, unit="in")
def length_aslant(t: Number, beta: Number) -> Number:
    """Bearing length of a fastener that crosses a member aslant.

    Parameters
    ----------
    t : float or array
        Thickness of the member. [in]
    beta : float or array
        Angle between the fastener and the square to the face, 0 to less than 90. [deg]

    Returns
    -------
    float or array
        [in]

    Raises
    ------
    OutOfRange
        If the thickness is not positive or the angle out of range.

    Notes
    -----
    Along the fastener. Changed from the source: nothing. How known: memory.

    Examples
    --------
    >>> round(length_aslant(1.5, 30.0), 4)
    1.7321
    """
    return positive("t", t, SLANT) / cos(_slant(beta))


@formula(symbol="P_across", clause=SLANT, unit="lbf")
def force_across_fastener(P: Number, beta: Number) -> Number:
    """Part of a force along the faces that acts square to a slanting fastener: the part for Z.

    Parameters
    ----------
    P : float or array
        Force along the faces. [lbf]
    beta : float or array
        Angle between the fastener and the square to the face, 0 to less than 90. [deg]

    Returns
    -------
    float or array
        [lbf]

    Raises
    ------
    OutOfRange
        If the force is negative or the angle out of range.

    Notes
    -----
    Changed from the source: nothing. How known: memory.

    Examples
    --------
    >>> round(force_across_fastener(100.0, 30.0), 2)
    86.6
    """
    return not_negative("P", P, SLANT) * cos(_slant(beta))


@formula(symbol="P_along", clause=SLANT, unit="lbf")
def force_along_fastener(P: Number, beta: Number) -> Number:
    """Part of a force along the faces that pulls or pushes a slanting fastener along its axis.

    Parameters
    ----------
    P : float or array
        Force along the faces. [lbf]
    beta : float or array
        Angle between the fastener and the square to the face, 0 to less than 90. [deg]

    Returns
    -------
    float or array
        [lbf]

    Raises
    ------
    OutOfRange
        If the force is negative or the angle out of range.

    Notes
    -----
    For withdrawal, pull-through, washer. Changed from the source: nothing. How known: memory.

    Examples
    --------
    >>> round(force_along_fastener(100.0, 30.0), 2)
    50.0
    """
    return not_negative("P", P, SLANT) * sin(_slant(beta))


def _slant(beta: Number) -> Number:
    return valid(beta, (beta >= 0) & (beta < 90), f"beta must be 0 to less than 90 deg{given(beta)}", SLANT)
