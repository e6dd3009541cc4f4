"""A post that is hinged at both ends and loaded by a bracket on its side.

The side load of NDS 2018 15.4.2 (eq. 15.4-3, memory), for the upper quarter only, is `side_bracket_load` in `combined`.
Here is the statics behind it: push at the ends, moment at the bracket, and a side load for brackets at any height.
"""

from __future__ import annotations

from ...calc.core import Number, formula, valid
from ...calc.ranges import given, not_negative, positive, shown

HINGED = "statics of a post hinged at both ends"


@formula(symbol="H", clause=HINGED, unit="lbf")
def side_bracket_push(P: Number, a: Number, l: Number) -> Number:  # noqa: E741
    """Side force at each end of a post that is hinged at both ends, from a bracket on its side.

    Parameters
    ----------
    P : float or array
        Load on the bracket. [lbf]
    a : float or array
        From the load to the axis of the post. [in]
    l : float or array
        Length of the post. [in]

    Returns
    -------
    float or array
        [lbf]

    Raises
    ------
    OutOfRange
        If the load or distance is negative or the post has no length.

    Notes
    -----
    One end pushes and the other pulls, wherever the bracket stands. What holds the ends has to take it. Changed
    from the source: nothing. How known: derived.

    Examples
    --------
    >>> side_bracket_push(1000.0, 8.0, 120.0)
    66.66666666666667
    """
    return not_negative("P", P, HINGED) * not_negative("a", a, HINGED) / positive("l", l, HINGED)


@formula(symbol="M", clause=HINGED, unit="lbf*in")
def side_bracket_moment(P: Number, a: Number, l_p: Number, l: Number) -> Number:  # noqa: E741
    """Largest moment in a post, hinged at both ends, from a bracket on its side: right at the bracket.

    Parameters
    ----------
    P : float or array
        Load on the bracket. [lbf]
    a : float or array
        From the load to the axis of the post. [in]
    l_p : float or array
        From the bracket, along the post, to its farther end. [in]
    l : float or array
        Length of the post. [in]

    Returns
    -------
    float or array
        [lbf*in]

    Raises
    ------
    OutOfRange
        If a value is negative, or l_p not from half of l to l.

    Notes
    -----
    Without the compression's own part. In the upper quarter the method of NDS 15.4.2 (`side_bracket_load`) counts
    3/4 of it, at mid-height: the section at the bracket is to be checked for this moment too. Changed from the
    source: nothing. How known: derived.

    Examples
    --------
    >>> side_bracket_moment(1000.0, 8.0, 96.0, 120.0)
    6400.0
    """
    return not_negative("P", P, HINGED) * not_negative("a", a, HINGED) * _farther(l_p, l) / l


@formula(symbol="P_s", clause=HINGED, unit="lbf")
def side_bracket_load_full(P: Number, a: Number, l_p: Number, l: Number) -> Number:  # noqa: E741
    """Side load at mid-height with the whole moment of a bracket at any height, beside P on the post's axis.

    Parameters
    ----------
    P : float or array
        Load on the bracket. [lbf]
    a : float or array
        From the load to the axis of the post. [in]
    l_p : float or array
        From the bracket, along the post, to its farther end. [in]
    l : float or array
        Length of the post. [in]

    Returns
    -------
    float or array
        [lbf]

    Raises
    ------
    OutOfRange
        If a value is negative, or l_p not from half of l to l.

    Notes
    -----
    P_s l/4 is P a l_p/l, at mid-height, where compression adds most to it. For brackets below the upper quarter,
    where NDS 15.4.2 gives no rule, and a third more than `side_bracket_load` within it. Changed from the source: 4
    in the place of 3, for any height. How known: derived.

    Examples
    --------
    >>> side_bracket_load_full(1000.0, 8.0, 72.0, 120.0)
    160.0
    """
    return 4 * not_negative("P", P, HINGED) * not_negative("a", a, HINGED) * _farther(l_p, l) / l**2


def _farther(l_p: Number, l: Number) -> Number:  # noqa: E741
    l = positive("l", l, HINGED)  # noqa: E741
    because = f"l_p must be half of l{shown(l)} to l: it is laid off to the farther end{given(l_p)}"
    return valid(l_p, (2 * l_p >= l) & (l_p <= l), because, HINGED)
