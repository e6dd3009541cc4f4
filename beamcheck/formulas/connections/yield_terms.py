"""What the yield equations of NDS 2018 Table 12.3.1A are made of: ratios, coefficients and the reduction term R_d.

D is the diameter used in the equations: the full one, or the root D_r where threads bear (12.3.7). D_nom is nominal.
"""

from __future__ import annotations

from ...calc.core import Number, formula, sqrt, valid, where
from ...calc.ranges import at_most, carried, given, positive
from .ranges import LARGE, LATERAL, THICKEST, any_diameter, to_grain

YIELD = "NDS 2018 Table 12.3.1A"


@formula(symbol="R_e", clause=YIELD, unit="")
def bearing_strength_ratio(F_em: Number, F_es: Number) -> Number:
    """Main member's dowel bearing strength over that of the side member.

    Parameters
    ----------
    F_em, F_es : float or array
        Dowel bearing strength of the main and the side member. [psi]

    Returns
    -------
    float or array
        [-]

    Raises
    ------
    OutOfRange
        If a strength is not positive.

    Notes
    -----
    The main member holds the point, or is the middle one of three. Changed from the source: nothing. How known: read.

    Examples
    --------
    >>> bearing_strength_ratio(5600.0, 2800.0)
    2.0
    """
    return positive("F_em", F_em, YIELD) / positive("F_es", F_es, YIELD)


@formula(symbol="R_t", clause=YIELD, unit="")
def bearing_length_ratio(l_m: Number, l_s: Number) -> Number:
    """Bearing length in the main member over that in the side member.

    Parameters
    ----------
    l_m, l_s : float or array
        Dowel bearing length in the main and in the side member. [in]

    Returns
    -------
    float or array
        [-]

    Raises
    ------
    OutOfRange
        If a length is not positive.

    Notes
    -----
    Changed from the source: nothing. How known: read.

    Examples
    --------
    >>> bearing_length_ratio(3.0, 1.5)
    2.0
    """
    return positive("l_m", l_m, YIELD) / positive("l_s", l_s, YIELD)


@formula(symbol="k_1", clause=YIELD, unit="")
def yield_coefficient_1(R_e: Number, R_t: Number) -> Number:
    """Coefficient of mode II.

    Parameters
    ----------
    R_e, R_t : float or array
        Ratios of bearing strength and of bearing length, main over side. [-]

    Returns
    -------
    float or array
        [-]

    Raises
    ------
    OutOfRange
        If a ratio is not positive.

    Notes
    -----
    Changed from the source: nothing. How known: read.

    Examples
    --------
    >>> round(yield_coefficient_1(1.0, 1.0), 4)
    0.4142
    """
    R_e, R_t = positive("R_e", R_e, YIELD), positive("R_t", R_t, YIELD)
    root = sqrt(R_e + 2 * R_e**2 * (1 + R_t + R_t**2) + R_t**2 * R_e**3)
    return (root - R_e * (1 + R_t)) / (1 + R_e)


@formula(symbol="k_2", clause=YIELD, unit="")
def yield_coefficient_2(R_e: Number, F_yb: Number, D: Number, F_em: Number, l_m: Number) -> Number:
    """Coefficient of mode III in the main member.

    Parameters
    ----------
    R_e : float or array
        Ratio of bearing strengths, main over side. [-]
    F_yb : float or array
        Bending yield strength of the fastener. [psi]
    D : float or array
        Diameter used in the equations. [in]
    F_em : float or array
        Dowel bearing strength of the main member. [psi]
    l_m : float or array
        Bearing length in the main member. [in]

    Returns
    -------
    float or array
        [-]

    Raises
    ------
    OutOfRange
        If a value is not positive or D over 1 in.

    Notes
    -----
    Changed from the source: nothing. How known: read.

    Examples
    --------
    >>> round(yield_coefficient_2(1.0, 45000.0, 0.5, 5600.0, 1.5), 4)
    1.4054
    """
    bent = 2 * positive("F_yb", F_yb, YIELD) * (1 + 2 * positive("R_e", R_e, YIELD)) * any_diameter(D) ** 2
    return -1 + sqrt(2 * (1 + R_e) + bent / (3 * positive("F_em", F_em, YIELD) * positive("l_m", l_m, YIELD) ** 2))


@formula(symbol="k_3", clause=YIELD, unit="")
def yield_coefficient_3(R_e: Number, F_yb: Number, D: Number, F_em: Number, l_s: Number) -> Number:
    """Coefficient of mode III in the side member.

    Parameters
    ----------
    R_e : float or array
        Ratio of bearing strengths, main over side. [-]
    F_yb : float or array
        Bending yield strength of the fastener. [psi]
    D : float or array
        Diameter used in the equations. [in]
    F_em : float or array
        Dowel bearing strength of the main member. [psi]
    l_s : float or array
        Bearing length in the side member. [in]

    Returns
    -------
    float or array
        [-]

    Raises
    ------
    OutOfRange
        If a value is not positive or D over 1 in.

    Notes
    -----
    Changed from the source: nothing. How known: read.

    Examples
    --------
    >>> round(yield_coefficient_3(1.0, 45000.0, 0.5, 5600.0, 1.5), 4)
    1.4054
    """
    R_e = positive("R_e", R_e, YIELD)
    bent = 2 * positive("F_yb", F_yb, YIELD) * (2 + R_e) * any_diameter(D) ** 2
    return -1 + sqrt(
        2 * (1 + R_e) / R_e + bent / (3 * positive("F_em", F_em, YIELD) * positive("l_s", l_s, YIELD) ** 2)
    )


@formula(symbol="K_theta", clause=LATERAL, unit="")
def angle_coefficient(theta: Number) -> Number:
    """Coefficient of the angle between load and grain.

    Parameters
    ----------
    theta : float or array
        Largest angle of load to grain in any member of the joint, 0 to 90. [deg]

    Returns
    -------
    float or array
        [-]

    Raises
    ------
    OutOfRange
        If theta is out of range.

    Notes
    -----
    Changed from the source: nothing. How known: read.

    Examples
    --------
    >>> angle_coefficient(90.0)
    1.25
    """
    return 1 + 0.25 * (to_grain(theta, LATERAL) / 90)


@formula(symbol="K_D", clause=LATERAL, unit="")
def diameter_coefficient(D: Number) -> Number:
    """Coefficient of the reduction term for diameters below 1/4 in.

    Parameters
    ----------
    D : float or array
        Diameter used in the equations, below 1/4. [in]

    Returns
    -------
    float or array
        [-]

    Raises
    ------
    OutOfRange
        If D is not positive or 1/4 in and more.

    Notes
    -----
    Changed from the source: nothing. How known: read.

    Examples
    --------
    >>> round(diameter_coefficient(0.173), 3)
    2.23
    """
    because = f"D must be above 0 and below 0.25 in{given(D)}"
    return _small(valid(D, (D > 0) & (D < LARGE), because, LATERAL))


@formula(symbol="R_d_I", clause=LATERAL, unit="")
def reduction_term_I(D: Number, D_nom: Number, K_theta: Number) -> Number:
    """Reduction term of modes Im and Is.

    Parameters
    ----------
    D : float or array
        Diameter used in the equations. [in]
    D_nom : float or array
        Nominal diameter, at least D, at most 1. [in]
    K_theta : float or array
        Coefficient of the angle of load to grain, 1 to 1.25. [-]

    Returns
    -------
    float or array
        [-]

    Raises
    ------
    OutOfRange
        If D is not positive or exceeds D_nom, D_nom exceeds 1 in, or K_theta is not from 1 to 1.25.

    Notes
    -----
    D from 1/4 in: 4 K_theta. D below, nominal diameter below too: K_D. D below, nominal diameter 1/4 in and more
    (threads of 1/4 and 5/16 in lag screws, of No. 16 and 18 wood screws): K_D K_theta. Changed from the source:
    nothing. How known: read.

    Examples
    --------
    >>> reduction_term_I(0.5, 0.5, 1.25)
    5.0
    >>> round(reduction_term_I(0.173, 0.25, 1.25), 4)
    2.7875
    """
    return _term(4, D, D_nom, K_theta)


@formula(symbol="R_d_II", clause=LATERAL, unit="")
def reduction_term_II(D: Number, D_nom: Number, K_theta: Number) -> Number:
    """Reduction term of mode II.

    Parameters
    ----------
    D : float or array
        Diameter used in the equations. [in]
    D_nom : float or array
        Nominal diameter, at least D, at most 1. [in]
    K_theta : float or array
        Coefficient of the angle of load to grain, 1 to 1.25. [-]

    Returns
    -------
    float or array
        [-]

    Raises
    ------
    OutOfRange
        If D is not positive or exceeds D_nom, D_nom exceeds 1 in, or K_theta is not from 1 to 1.25.

    Notes
    -----
    D from 1/4 in: 3.6 K_theta. D below, nominal diameter below too: K_D. D below, nominal diameter 1/4 in and more
    (threads of 1/4 and 5/16 in lag screws, of No. 16 and 18 wood screws): K_D K_theta. Changed from the source:
    nothing. How known: read.

    Examples
    --------
    >>> reduction_term_II(0.5, 0.5, 1.25)
    4.5
    >>> round(reduction_term_II(0.173, 0.25, 1.25), 4)
    2.7875
    """
    return _term(3.6, D, D_nom, K_theta)


@formula(symbol="R_d_III", clause=LATERAL, unit="")
def reduction_term_III_IV(D: Number, D_nom: Number, K_theta: Number) -> Number:
    """Reduction term of modes IIIm, IIIs and IV.

    Parameters
    ----------
    D : float or array
        Diameter used in the equations. [in]
    D_nom : float or array
        Nominal diameter, at least D, at most 1. [in]
    K_theta : float or array
        Coefficient of the angle of load to grain, 1 to 1.25. [-]

    Returns
    -------
    float or array
        [-]

    Raises
    ------
    OutOfRange
        If D is not positive or exceeds D_nom, D_nom exceeds 1 in, or K_theta is not from 1 to 1.25.

    Notes
    -----
    D from 1/4 in: 3.2 K_theta. D below, nominal diameter below too: K_D. D below, nominal diameter 1/4 in and more
    (threads of 1/4 and 5/16 in lag screws, of No. 16 and 18 wood screws): K_D K_theta. Changed from the source:
    nothing. How known: read.

    Examples
    --------
    >>> reduction_term_III_IV(0.5, 0.5, 1.25)
    4.0
    >>> round(reduction_term_III_IV(0.173, 0.25, 1.25), 4)
    2.7875
    """
    return _term(3.2, D, D_nom, K_theta)


def _small(D: Number) -> Number:
    """K_D, without its range."""
    return where(D <= 0.17, 2.2, 10 * D + 0.5)


def _term(coefficient: float, D: Number, D_nom: Number, K_theta: Number) -> Number:
    D_nom = at_most("D_nom", D_nom, "the largest diameter", THICKEST, LATERAL)
    D = at_most("D", D, "D_nom", D_nom, LATERAL)
    K_theta = valid(K_theta, (K_theta >= 1) & (K_theta <= 1.25), f"K_theta must be 1 to 1.25{given(K_theta)}", LATERAL)
    thin = where(D_nom >= LARGE, _small(D) * K_theta, _small(D))
    return carried(where(D >= LARGE, coefficient * K_theta, thin), D, D_nom, K_theta)
