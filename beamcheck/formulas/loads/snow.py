"""Snow on roofs (ASCE 7-16 chapter 7), in psi (lbf/in2). Drifts, sliding snow and partial loading are not in here."""

from __future__ import annotations

from ...calc.core import Number, formula, valid, where
from ...calc.ranges import between, carried, given

SNOW = "ASCE 7-16"


@formula(symbol="p_f", clause=f"{SNOW} 7.3 (eq. 7.3-1)", unit="psi")
def flat_roof_snow(p_g: Number, C_e: Number, C_t: Number, I_s: Number) -> Number:
    """Snow load of a flat roof.

    Parameters
    ----------
    p_g : float or array
        Ground snow load of ASCE 7-16 (not the strength-level value of the 2022 edition). [psi]
    C_e, C_t, I_s : float or array
        Exposure factor, thermal factor, importance factor of snow. [-]

    Returns
    -------
    float or array
        [psi]

    Raises
    ------
    OutOfRange
        If the snow is negative, C_e not 0.7 to 1.2, C_t not 0.85 to 1.3, or I_s not 0.8 to 1.2.

    Notes
    -----
    Compare with `low_slope_minimum_snow`. Changed from the source: nothing. How known: read.

    Examples
    --------
    >>> round(144 * flat_roof_snow(40 / 144, 1.0, 1.0, 1.0), 3)
    28.0
    """
    p_g = _snow("p_g", p_g)
    C_e, C_t = between("C_e", C_e, 0.7, 1.2, f"{SNOW} 7.3.1"), between("C_t", C_t, 0.85, 1.3, f"{SNOW} 7.3.2")
    return 0.7 * C_e * C_t * between("I_s", I_s, 0.8, 1.2, f"{SNOW} 1.5.1") * p_g


@formula(symbol="p_m", clause=f"{SNOW} 7.3.4", unit="psi")
def low_slope_minimum_snow(p_g: Number, I_s: Number) -> Number:
    """Least snow load of a low-slope roof (under 15 degrees), a case of its own.

    Parameters
    ----------
    p_g : float or array
        Ground snow load. [psi]
    I_s : float or array
        Importance factor of snow. [-]

    Returns
    -------
    float or array
        [psi]

    Raises
    ------
    OutOfRange
        If the snow is negative or I_s not 0.8 to 1.2.

    Notes
    -----
    20 is in psf. Changed from the source: nothing. How known: memory.

    Examples
    --------
    >>> [round(144 * low_slope_minimum_snow(p_g / 144, 1.0), 3) for p_g in (15, 50)]
    [15.0, 20.0]
    """
    p_g, I_s = _snow("p_g", p_g), between("I_s", I_s, 0.8, 1.2, f"{SNOW} 1.5.1")
    return carried(where(p_g * 144 <= 20, I_s * p_g, I_s * 20 / 144), p_g)


@formula(symbol="C_s", clause=f"{SNOW} 7.4 (figure 7.4-1)", unit="")
def roof_slope_factor(theta: Number, theta_0: Number) -> Number:
    """Slope factor of snow: 1 up to theta_0, then straight down to 0 at 70 degrees.

    Parameters
    ----------
    theta : float or array
        Slope of the roof from level. [deg]
    theta_0 : float or array
        Slope where sliding begins: 30, 37.5 or 45 for C_t up to 1.0, of 1.1, of 1.2; with a slippery surface that
        nothing obstructs 5, 10 or 15. [deg]

    Returns
    -------
    float or array
        [-]

    Raises
    ------
    OutOfRange
        If the slope is not 0 to 90 degrees or theta_0 not 5 to 45.

    Notes
    -----
    The slippery curve of a warm roof also asks for insulation of R-30 (R-20 ventilated), 7.4.1.
    Changed from the source: the figure as an equation. How known: memory.

    Examples
    --------
    >>> round(roof_slope_factor(45.0, 30.0), 3), round(roof_slope_factor(45.0, 5.0), 3)
    (0.625, 0.385)
    """
    theta = between("theta", theta, 0, 90, f"{SNOW} 7.4", "deg")
    theta_0 = between("theta_0", theta_0, 5, 45, f"{SNOW} 7.4", "deg")
    C_s = where(theta <= theta_0, 1.0, where(theta < 70, (70 - theta) / (70 - theta_0), 0.0))
    return carried(C_s, theta, theta_0)


@formula(symbol="p_s", clause=f"{SNOW} 7.4 (eq. 7.4-1)", unit="psi")
def sloped_roof_snow(C_s: Number, p_f: Number) -> Number:
    """Balanced snow load of a sloped roof, on plan.

    Parameters
    ----------
    C_s : float or array
        Slope factor. [-]
    p_f : float or array
        Snow load of a flat roof. [psi]

    Returns
    -------
    float or array
        [psi]

    Raises
    ------
    OutOfRange
        If C_s is not 0 to 1 or the snow is negative.

    Notes
    -----
    Changed from the source: nothing. How known: read.

    Examples
    --------
    >>> sloped_roof_snow(0.5, 0.2)
    0.1
    """
    return between("C_s", C_s, 0, 1, f"{SNOW} 7.4") * _snow("p_f", p_f)


@formula(symbol="p_u", clause=f"{SNOW} 7.6.1", unit="psi")
def unbalanced_snow(p_g: Number, I_s: Number) -> Number:
    """Unbalanced snow on the lee side of a hip or gable roof with simple rafters; nothing on the other side.

    Parameters
    ----------
    p_g : float or array
        Ground snow load. [psi]
    I_s : float or array
        Importance factor of snow. [-]

    Returns
    -------
    float or array
        [psi]

    Raises
    ------
    OutOfRange
        If the snow is negative or I_s not 0.8 to 1.2.

    Notes
    -----
    For slopes from 1/2 to 7 in per foot and at most 20 ft from eave to ridge.
    Changed from the source: nothing. How known: memory; a value read.

    Examples
    --------
    >>> unbalanced_snow(0.4, 1.0)
    0.4
    """
    return between("I_s", I_s, 0.8, 1.2, f"{SNOW} 1.5.1") * _snow("p_g", p_g)


def _snow(name: str, value: Number) -> Number:
    return valid(value, value >= 0, f"{name} must be 0 or more{given(value)}", SNOW)
