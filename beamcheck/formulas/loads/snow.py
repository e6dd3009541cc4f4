"""Snow on roofs (ASCE 7-16 chapter 7), in psi (lbf/in2). Drifts, sliding snow and partial loading are not in here."""

from __future__ import annotations

from typing import Annotated

from ...calc.core import Number, formula, where
from ...calc.ranges import AcuteAngle, NotNegative, between

SNOW = "ASCE 7-16"

Importance = Annotated[Number, between(0.8, 1.2, clause=f"{SNOW} 1.5.1")]


@formula(symbol="p_f", clause=f"{SNOW} 7.3 (eq. 7.3-1)", unit="psi", known="read; second-hand")
def flat_roof_snow(
    p_g: NotNegative,
    C_e: Annotated[Number, between(0.7, 1.2, clause=f"{SNOW} 7.3.1")],
    C_t: Annotated[Number, between(0.85, 1.3, clause=f"{SNOW} 7.3.2")],
    I_s: Importance,
) -> Number:
    """Snow load of a flat roof.

    Compare with `low_slope_minimum_snow`.
    p_g: of ASCE 7-16, not the strength-level value of the 2022 edition.

    >>> round(144 * flat_roof_snow(40 / 144, 1.0, 1.0, 1.0), 3)
    28.0
    """
    return 0.7 * C_e * C_t * I_s * p_g


@formula(symbol="p_m", clause=f"{SNOW} 7.3.4", unit="psi", known="read; second-hand")
def low_slope_minimum_snow(p_g: NotNegative, I_s: Importance) -> Number:
    """Least snow load of a low-slope roof (under 15 degrees), a case of its own. 20 is in psf.

    >>> [round(144 * low_slope_minimum_snow(p_g / 144, 1.0), 3) for p_g in (15, 50)]
    [15.0, 20.0]
    """
    return where(p_g * 144 <= 20, I_s * p_g, I_s * 20 / 144)


@formula(symbol="C_s", clause=f"{SNOW} 7.4 (figure 7.4-1)", unit="", known="read; second-hand")
def roof_slope_factor(theta: AcuteAngle, theta_0: Annotated[Number, between(5, 45, "deg")]) -> Number:
    """Slope factor of snow: 1 up to theta_0, then straight down to 0 at 70 degrees.

    The slippery curve of a warm roof also asks for insulation of R-30 (R-20 ventilated), 7.4.1.
    theta_0: 30, 37.5 or 45 for C_t up to 1.0, of 1.1, of 1.2; with a slippery surface that nothing obstructs 5, 10 or
    15.

    >>> round(roof_slope_factor(45.0, 30.0), 3), round(roof_slope_factor(45.0, 5.0), 3)
    (0.625, 0.385)
    """
    return where(theta <= theta_0, 1.0, where(theta < 70, (70 - theta) / (70 - theta_0), 0.0))


@formula(symbol="p_s", clause=f"{SNOW} 7.4 (eq. 7.4-1)", unit="psi", known="read; second-hand")
def sloped_roof_snow(C_s: Annotated[Number, between(0, 1)], p_f: NotNegative) -> Number:
    """Balanced snow load of a sloped roof, on plan.

    >>> sloped_roof_snow(0.5, 0.2)
    0.1
    """
    return C_s * p_f


@formula(symbol="p_u", clause=f"{SNOW} 7.6.1", unit="psi", known="read; second-hand")
def unbalanced_snow(p_g: NotNegative, I_s: Importance) -> Number:
    """Unbalanced snow on the lee side of a hip or gable roof with simple rafters; nothing on the other side.

    For slopes from 1/2 to 7 in per foot and at most 20 ft from eave to ridge.

    >>> unbalanced_snow(0.4, 1.0)
    0.4
    """
    return I_s * p_g


@formula(symbol="p_r", clause=f"{SNOW} 7.10", unit="psi", known="read; second-hand")
def rain_on_snow(p_g: NotNegative, theta: AcuteAngle, W_e: NotNegative) -> Number:
    """Rain on snow: 5 psf on the balanced load where little snow lies on a flat roof; else nothing.

    W_e: level distance from eave to ridge. The slope in degrees is held against W_e in feet over 50.

    >>> [round(144 * rain_on_snow(p_g / 144, 1.19, 70 * 12), 3) for p_g in (18, 30)]
    [5.0, 0.0]
    """
    return where((p_g > 0) & (p_g * 144 <= 20) & (theta < W_e / 12 / 50), 5 / 144, 0.0)


@formula(symbol="p_u", clause=f"{SNOW} 7.6.1", unit="psi", known="read; second-hand")
def windward_snow(p_s: NotNegative) -> Number:
    """Snow left on the windward side of a wide hip or gable roof.

    >>> windward_snow(0.2)
    0.06
    """
    return 0.3 * p_s


@formula(symbol="p_i", clause=f"{SNOW} 7.4.5", unit="psi", known="memory", reference=True)
def eave_ice(p_f: NotNegative) -> Number:
    """Ice and snow on the unheated overhang of a heated roof, with dead load only.

    >>> eave_ice(0.2)
    0.4
    """
    return 2 * p_f


@formula(symbol="w_sl", clause=f"{SNOW} 7.9", unit="lbf/in", known="read; second-hand")
def sliding_snow(p_f: NotNegative, W_e: NotNegative) -> Number:
    """Snow that slides from an upper roof, per length of its eave, spread over the 15 ft below it.

    p_f: of the upper roof.
    W_e: level distance from eave to ridge of the upper roof.

    >>> round(12 * sliding_snow(30.8 / 144, 15 * 12), 2)
    184.8
    """
    return 0.4 * p_f * W_e


@formula(symbol="p_sl", clause=f"{SNOW} 7.9", unit="psi", known="read; second-hand")
def sliding_pressure(w_sl: NotNegative) -> Number:
    """Sliding snow per area: spread over 15 ft; a narrower lower roof gets its share only.

    >>> round(144 * sliding_pressure(184.8 / 12), 2)
    12.32
    """
    return w_sl / 180
