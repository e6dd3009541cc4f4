"""Bearing (NDS 2018 3.10): across the grain, along it, and at an angle. Areas are net of holes, mortises, chamfers."""

from __future__ import annotations

from ...calc.core import Number, cos, formula, sin, where
from ...calc.ranges import between, carried, not_negative, positive

ACROSS, ANGLE, ALONG = "NDS 2018 3.10.2", "NDS 2018 3.10.3", "NDS 2018 3.10.1"


@formula(symbol="f_c_perp", clause=ACROSS, unit="psi")
def bearing_stress(R: Number, b: Number, l_b: Number) -> Number:
    """Stress across the grain in a seat.

    Parameters
    ----------
    R : float or array
        Force on the seat, without sign; an uplift is not bearing. [lbf]
    b, l_b : float or array
        Breadth of the contact, and its length along the grain of the piece that is crushed. [in]

    Returns
    -------
    float or array
        [psi]

    Raises
    ------
    OutOfRange
        If the force is negative or a dimension not positive.

    Notes
    -----
    In a wood-to-wood seat both pieces are to be checked. Uniform over the seat: the bending of the beam makes no
    difference (3.10.2). Changed from the source: nothing. How known: read.

    Examples
    --------
    >>> bearing_stress(9900.0, 5.5, 4.5)
    400.0
    """
    return not_negative("R", R, ACROSS) / (positive("b", b, ACROSS) * positive("l_b", l_b, ACROSS))


@formula(symbol="C_b", clause="NDS 2018 3.10.4 (eq. 3.10-2)", unit="")
def bearing_area_factor(l_b: Number) -> Number:
    """Bearing area factor of a bearing 3 in or more from the end of the piece. At an end it is 1: do not ask here.

    Parameters
    ----------
    l_b : float or array
        Length of the bearing along the grain; the diameter of a round washer. [in]

    Returns
    -------
    float or array
        [-]

    Raises
    ------
    OutOfRange
        If the length is not positive.

    Notes
    -----
    0.375 and 6 are in inches. Changed from the source: nothing. How known: memory.

    Examples
    --------
    >>> [round(bearing_area_factor(l_b), 2) for l_b in (0.5, 2.0, 6.0)]
    [1.75, 1.19, 1.0]
    """
    l_b = positive("l_b", l_b, "NDS 2018 3.10.4")
    return carried(where(l_b < 6, (l_b + 0.375) / l_b, 1.0), l_b)


@formula(symbol="F_theta_prime", clause="NDS 2018 3.10.3 (eq. 3.10-1)", unit="psi")
def bearing_at_angle(F_c_star: Number, F_c_perp_prime: Number, theta: Number) -> Number:
    """Bearing design value at an angle to the grain (Hankinson).

    Parameters
    ----------
    F_c_star : float or array
        Compression design value parallel to grain with all factors except C_P. [psi]
    F_c_perp_prime : float or array
        Adjusted compression design value perpendicular to grain. [psi]
    theta : float or array
        Angle between load and grain. [deg]

    Returns
    -------
    float or array
        [psi]

    Raises
    ------
    OutOfRange
        If a stress is not positive or the angle not 0 to 90.

    Notes
    -----
    Ends: 0 gives F_c_star, 90 gives F_c_perp_prime.
    Changed from the source: nothing. How known: memory; the same form read in 12.3.4.

    Examples
    --------
    >>> round(bearing_at_angle(1450.0, 235.0, 45.0), 1)
    404.5
    """
    F_c_star, F_c_perp_prime = positive("F_c_star", F_c_star, ANGLE), positive("F_c_perp_prime", F_c_perp_prime, ANGLE)
    theta = between("theta", theta, 0, 90, ANGLE, "deg")
    return F_c_star * F_c_perp_prime / (F_c_star * sin(theta) ** 2 + F_c_perp_prime * cos(theta) ** 2)


@formula(symbol="l_b", clause="NDS 2018 3.10.2, 3.2.1", unit="in")
def required_bearing_length(R: Number, b: Number, F_c_perp_prime: Number) -> Number:
    """Length of seat that a reaction needs; half of it is added to the clear span at each end (3.2.1).

    Parameters
    ----------
    R : float or array
        Force on the seat, without sign. [lbf]
    b : float or array
        Breadth of the contact. [in]
    F_c_perp_prime : float or array
        Adjusted compression design value perpendicular to grain, with C_b = 1. [psi]

    Returns
    -------
    float or array
        [in]

    Raises
    ------
    OutOfRange
        If the force is negative or another value not positive.

    Notes
    -----
    Changed from the source: nothing. How known: read.

    Examples
    --------
    >>> round(required_bearing_length(9761.0, 5.5, 418.75), 3)
    4.238
    """
    F_c_perp_prime = positive("F_c_perp_prime", F_c_perp_prime, ACROSS)
    return not_negative("R", R, ACROSS) / (positive("b", b, ACROSS) * F_c_perp_prime)


@formula(symbol="U", clause="NDS 2018 3.10.1", unit="")
def end_grain_bearing_ratio(f_c: Number, F_c_star: Number) -> Number:
    """End-grain bearing as a share of what is allowed; over 0.75 it needs a steel plate or the like between (3.10.1.3).

    Parameters
    ----------
    f_c : float or array
        Compression stress on the net bearing area. [psi]
    F_c_star : float or array
        Compression design value parallel to grain with all factors except C_P. [psi]

    Returns
    -------
    float or array
        [-]

    Raises
    ------
    OutOfRange
        If the stress is negative or the design value not positive.

    Notes
    -----
    Changed from the source: nothing. How known: memory.

    Examples
    --------
    >>> end_grain_bearing_ratio(600.0, 1000.0)
    0.6
    """
    return not_negative("f_c", f_c, ALONG) / positive("F_c_star", F_c_star, ALONG)
