"""Bearing (NDS 2018 3.10): across the grain, along it, and at an angle. Areas are net of holes, mortises, chamfers."""

from __future__ import annotations

from ...calc.core import Number, cos, formula, sin, where
from ...calc.ranges import AcuteAngle, NotNegative, Positive


@formula(symbol="f_c_perp", clause="NDS 2018 3.10.2", unit="psi", known="memory")
def bearing_stress(R: NotNegative, b: Positive, l_b: Positive) -> Number:
    """Stress across the grain in a seat.

    In a wood-to-wood seat both pieces are to be checked. Uniform over the seat: the bending of the beam makes no
    difference (3.10.2).
    R: an uplift is not bearing.
    b, l_b: of the contact; l_b along the grain of the piece that is crushed.

    >>> bearing_stress(9900.0, 5.5, 4.5)
    400.0
    """
    return R / (b * l_b)


@formula(symbol="C_b", clause="NDS 2018 3.10.4 (eq. 3.10-2)", unit="", known="memory")
def bearing_area_factor(l_b: Positive) -> Number:
    """Bearing area factor of a bearing 3 in or more from the end of the piece. At an end it is 1: do not ask here.

    0.375 and 6 are in inches.
    l_b: of a round washer the diameter.

    >>> [round(bearing_area_factor(l_b), 2) for l_b in (0.5, 2.0, 6.0)]
    [1.75, 1.19, 1.0]
    """
    return where(l_b < 6, (l_b + 0.375) / l_b, 1.0)


@formula(symbol="F_theta_prime", clause="NDS 2018 3.10.3 (eq. 3.10-1)", unit="psi", known="memory")
def bearing_at_angle(F_c_star: Positive, F_c_perp_prime: Positive, theta: AcuteAngle) -> Number:
    """Bearing design value at an angle to the grain (Hankinson).

    Ends: 0 gives F_c_star, 90 gives F_c_perp_prime.

    >>> round(bearing_at_angle(1450.0, 235.0, 45.0), 1)
    404.5
    """
    return F_c_star * F_c_perp_prime / (F_c_star * sin(theta) ** 2 + F_c_perp_prime * cos(theta) ** 2)


@formula(symbol="l_b", clause="NDS 2018 3.10.2, 3.2.1", unit="in", known="memory")
def required_bearing_length(R: NotNegative, b: Positive, F_c_perp_prime: Positive) -> Number:
    """Length of seat that a reaction needs; half of it is added to the clear span at each end (3.2.1).

    b: of the contact.
    F_c_perp_prime: with C_b = 1.

    >>> round(required_bearing_length(9761.0, 5.5, 418.75), 3)
    4.238
    """
    return R / (b * F_c_perp_prime)


@formula(symbol="U", clause="NDS 2018 3.10.1", unit="", known="memory")
def end_grain_bearing_ratio(f_c: NotNegative, F_c_star: Positive) -> Number:
    """End-grain bearing as a share of what is allowed; over 0.75 it needs a steel plate or the like between (3.10.1.3).

    f_c: on the net bearing area.

    >>> end_grain_bearing_ratio(600.0, 1000.0)
    0.6
    """
    return f_c / F_c_star
