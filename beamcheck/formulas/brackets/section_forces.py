"""Sections of a solid bracket: where they lie and what they carry.

A section is vertical, or it meets top edge and soffit at equal angles: it starts at x_0 on the top edge and ends at
(x_s, y_s) on the soffit, whose tangent rises by alpha_s. x runs out from the wall, y down from the top edge; M is
positive when it stretches the top edge, N is tension.

The same formulas serve the wall leg, cut by sections from the wall face to the soffit, once `wall_leg` has turned the
bracket over its corner; the load is then the push of the wall, and the 'top' is the face at the wall.
"""

from __future__ import annotations

from ...calc.core import Number, cos, formula, sin, tan, valid
from ...calc.ranges import given, not_negative, positive
from ..connections.ranges import finite

SECTION = "plane sections of a bracket"
DESIGN = "plane stress models of 14 brackets"

NOISE = 1e-6  # deg; slopes come out of an arc tangent


def soffit_slope(alpha_s: Number) -> Number:
    """Slope of a soffit for which there is an equal-angle section."""
    because = f"alpha_s must be 0 to 90 deg{given(alpha_s)}"
    return valid(alpha_s, (alpha_s >= -NOISE) & (alpha_s <= 90 + NOISE), because, SECTION)


def wall_leg(x_s: Number, y_s: Number, alpha_s: Number, theta_g: Number) -> tuple[Number, Number, Number, Number]:
    """Soffit points, slopes and grain of the bracket turned over its corner: its wall leg becomes a top leg.

    Lengths in inches, angles in degrees; floats or arrays. Exchange of x and y, derived.
    """
    return y_s, x_s, 90 - alpha_s, 90 - theta_g


@formula(symbol="d", clause=SECTION, unit="in")
def equal_angle_depth(y_s: Number, alpha_s: Number) -> Number:
    """Depth of a section that meets top edge and soffit at equal angles.

    Parameters
    ----------
    y_s : float or array
        Depth of the soffit point below the top edge. [in]
    alpha_s : float or array
        Slope of the soffit there, 0 to 90. [deg]

    Returns
    -------
    float or array
        [in]

    Raises
    ------
    OutOfRange
        If the depth is not positive or the slope out of range.

    Notes
    -----
    Changed from the source: nothing. How known: derived.

    Examples
    --------
    >>> round(equal_angle_depth(7.354, 45.0), 3)
    7.96
    """
    return positive("y_s", y_s, SECTION) / cos(soffit_slope(alpha_s) / 2)


@formula(symbol="x_0", clause=SECTION, unit="in")
def equal_angle_start(x_s: Number, y_s: Number, alpha_s: Number) -> Number:
    """Where a section that meets top edge and soffit at equal angles starts on the top edge.

    Parameters
    ----------
    x_s, y_s : float or array
        The soffit point, from the wall face and below the top edge. [in]
    alpha_s : float or array
        Slope of the soffit there, 0 to 90. [deg]

    Returns
    -------
    float or array
        From the wall face. [in]

    Raises
    ------
    OutOfRange
        If a depth is not positive, the slope out of range, or the section would start behind the wall face.

    Notes
    -----
    Changed from the source: nothing. How known: derived.

    Examples
    --------
    >>> round(equal_angle_start(6.646, 7.354, 45.0), 3)
    3.6
    """
    start = positive("x_s", x_s, SECTION) - positive("y_s", y_s, SECTION) * tan(soffit_slope(alpha_s) / 2)
    because = f"the section from x_s, y_s at the slope alpha_s starts behind the wall face, at x_0{given(start)}"
    return valid(start, start >= 0, because, SECTION)


@formula(symbol="N", clause=SECTION, unit="lbf")
def section_axial_force(P_o: Number, alpha_s: Number) -> Number:
    """Force square to an equal-angle section; compression is negative.

    Parameters
    ----------
    P_o : float or array
        Load beyond the section, down positive. [lbf]
    alpha_s : float or array
        Slope of the soffit at the section; 0 for a vertical one. [deg]

    Returns
    -------
    float or array
        [lbf]

    Raises
    ------
    OutOfRange
        If the load is not finite or the slope out of range.

    Notes
    -----
    Changed from the source: nothing. How known: derived.

    Examples
    --------
    >>> round(section_axial_force(100.0, 60.0), 6)
    -50.0
    """
    return -finite("P_o", P_o, SECTION) * sin(soffit_slope(alpha_s) / 2)


@formula(symbol="V", clause=SECTION, unit="lbf")
def section_shear_force(P_o: Number, alpha_s: Number) -> Number:
    """Force along an equal-angle section.

    Parameters
    ----------
    P_o : float or array
        Load beyond the section, down positive. [lbf]
    alpha_s : float or array
        Slope of the soffit at the section; 0 for a vertical one. [deg]

    Returns
    -------
    float or array
        [lbf]

    Raises
    ------
    OutOfRange
        If the load is not finite or the slope out of range.

    Notes
    -----
    Changed from the source: nothing. How known: derived.

    Examples
    --------
    >>> round(section_shear_force(100.0, 60.0), 3)
    86.603
    """
    return finite("P_o", P_o, SECTION) * cos(soffit_slope(alpha_s) / 2)


@formula(symbol="M", clause=SECTION, unit="lbf*in")
def section_moment(P_o: Number, x_L: Number, x_0: Number, x_s: Number) -> Number:
    """Moment about the middle of a section; the moment that stretches the top edge is positive.

    Parameters
    ----------
    P_o : float or array
        Load beyond the section, down positive. [lbf]
    x_L : float or array
        Its resultant, from the wall face. [in]
    x_0, x_s : float or array
        Ends of the section on the top edge and on the soffit, from the wall face; equal for a vertical one. [in]

    Returns
    -------
    float or array
        [lbf*in]

    Raises
    ------
    OutOfRange
        If the load is not finite or a distance negative.

    Notes
    -----
    Changed from the source: nothing. How known: derived.

    Examples
    --------
    >>> section_moment(100.0, 11.5, 4.0, 7.0)
    600.0
    """
    middle = (not_negative("x_0", x_0, SECTION) + not_negative("x_s", x_s, SECTION)) / 2
    return finite("P_o", P_o, SECTION) * (not_negative("x_L", x_L, SECTION) - middle)


@formula(symbol="P_o", clause=SECTION, unit="lbf")
def shelf_load_beyond(w: Number, l_out: Number, x_0: Number) -> Number:
    """The part of an even load on the whole top edge that lies beyond a section.

    Parameters
    ----------
    w : float or array
        Load per length of the top edge. [lbf/in]
    l_out : float or array
        Length of the top edge from the wall face. [in]
    x_0 : float or array
        Where the section starts on the top edge, at most l_out. [in]

    Returns
    -------
    float or array
        [lbf]

    Raises
    ------
    OutOfRange
        If a value is negative, or x_0 over l_out.

    Notes
    -----
    Changed from the source: nothing. How known: derived.

    Examples
    --------
    >>> shelf_load_beyond(10.0, 6.0, 2.0)
    40.0
    """
    return not_negative("w", w, SECTION) * (positive("l_out", l_out, SECTION) - _on_top(x_0, l_out))


@formula(symbol="x_L", clause=SECTION, unit="in")
def shelf_load_centre(l_out: Number, x_0: Number) -> Number:
    """Where the resultant of an even load beyond a section lies.

    Parameters
    ----------
    l_out : float or array
        Length of the top edge from the wall face. [in]
    x_0 : float or array
        Where the section starts on the top edge, at most l_out. [in]

    Returns
    -------
    float or array
        From the wall face. [in]

    Raises
    ------
    OutOfRange
        If a value is negative, or x_0 over l_out.

    Notes
    -----
    Changed from the source: nothing. How known: derived.

    Examples
    --------
    >>> shelf_load_centre(6.0, 2.0)
    4.0
    """
    return (positive("l_out", l_out, SECTION) + _on_top(x_0, l_out)) / 2


@formula(symbol="r_arm", clause=DESIGN, unit="")
def arm_over_depth(x_L: Number, x_0: Number, x_s: Number, d: Number) -> Number:
    """Arm of the load over the depth of the section nearest the wall; plane sections say nothing below 0.75.

    Parameters
    ----------
    x_L : float or array
        Resultant of the load beyond the section, from the wall face. [in]
    x_0, x_s : float or array
        Ends of the section on the top edge and on the soffit, from the wall face. [in]
    d : float or array
        Depth of the section. [in]

    Returns
    -------
    float or array
        [-]

    Raises
    ------
    OutOfRange
        If the load lies within the middle of the section, or the depth is not positive.

    Notes
    -----
    Changed from the source: nothing. How known: derived.

    Examples
    --------
    >>> arm_over_depth(11.5, 2.0, 4.0, 8.0)
    1.0625
    """
    arm = positive("x_L", x_L) - (not_negative("x_0", x_0) + not_negative("x_s", x_s)) / 2
    because = f"the load at x_L must lie beyond the middle of the section x_0, x_s{given(arm)}"
    return valid(arm, arm >= 0, because, DESIGN) / positive("d", d, DESIGN)


def _on_top(x_0: Number, l_out: Number) -> Number:
    return valid(not_negative("x_0", x_0, SECTION), x_0 <= l_out, f"x_0 must be at most l_out{given(x_0)}", SECTION)
