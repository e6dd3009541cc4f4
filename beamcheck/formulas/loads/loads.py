"""Loads: weight of wood, roof live load (ASCE 7-16), slopes, thrust of rafters. Snow is in `snow`.

Area loads are in psi (lbf/in2) and line loads in lbf/in like everything inside; a constant of a standard that is in psf
or ft2 is turned with 144 in2 to the ft2, in sight.
"""

from __future__ import annotations

from ...calc.core import Number, cos, formula, largest, valid, where
from ...calc.ranges import between, carried, given, positive, reduction, shown

SUPPLEMENT, ROOF_LIVE = "NDS 2018 Supplement 3.1.3", "ASCE 7-16 4.8.2"
HEAVIEST = 0.06  # lbf/in3, about 104 pcf: heavier than any wood, so that a density in pcf cannot slip in


@formula(symbol="gamma_w", clause=SUPPLEMENT, unit="pcf")
def timber_density(G: Number, MC: Number) -> Number:
    """Weight of wood per volume, in pounds per cubic foot as the standard prints it (divide by 1728 for lbf/in3).

    Parameters
    ----------
    G : float or array
        Specific gravity on ovendry weight and ovendry volume (NDS Table 12.3.3A). [-]
    MC : float or array
        Moisture content. [%]

    Returns
    -------
    float or array
        [pcf]

    Raises
    ------
    OutOfRange
        If G is not 0.1 to 1.3 or the moisture not 0 to 30 %.

    Notes
    -----
    Over 30 % wood swells no more: `green_timber_density`. G of the green volume or at 12 % must not go in here: it
    would come out 3 to 12 % low. Changed from the source: range stated. How known: read.

    Examples
    --------
    >>> round(timber_density(0.5, 20.0), 3)
    34.349
    """
    G, MC = _gravity(G), between("MC", MC, 0, 30, SUPPLEMENT, "%")
    return 62.4 * (G / (1 + G * 0.009 * MC)) * (1 + MC / 100)


@formula(symbol="gamma_w", clause=f"{SUPPLEMENT}, swelling up to 30 %", unit="pcf")
def green_timber_density(G: Number, MC: Number) -> Number:
    """Weight of green wood, over 30 % moisture, per volume, in pounds per cubic foot.

    Parameters
    ----------
    G : float or array
        Specific gravity on ovendry weight and ovendry volume (NDS Table 12.3.3A). [-]
    MC : float or array
        Moisture content. [%]

    Returns
    -------
    float or array
        [pcf]

    Raises
    ------
    OutOfRange
        If G is not 0.1 to 1.3 or the moisture not 30 to 250 %.

    Notes
    -----
    Changed from the source: the volume stays that at 30 %, where the fibres are saturated. The printed equation, put
    to 60 %, would swell on and come out 11 % low for G = 0.5. How known: derived.

    Examples
    --------
    >>> round(green_timber_density(0.5, 60.0), 2)
    43.98
    """
    G, MC = _gravity(G), between("MC", MC, 30, 250, SUPPLEMENT, "%")
    return 62.4 * (G / (1 + G * 0.009 * 30)) * (1 + MC / 100)


@formula(symbol="w_sw", clause=SUPPLEMENT, unit="lbf/in")
def self_weight_line(density: Number, A: Number) -> Number:
    """Weight of a piece along its length.

    Parameters
    ----------
    density : float or array
        Weight per volume, in pounds per cubic inch. [lbf/in3]
    A : float or array
        Area of the section, gross. [in2]

    Returns
    -------
    float or array
        [lbf/in]

    Raises
    ------
    OutOfRange
        If a value is not positive or the density over 0.06 lbf/in3 (is it in pcf?).

    Notes
    -----
    Changed from the source: nothing. How known: derived.

    Examples
    --------
    >>> round(12 * self_weight_line(34.349 / 1728, 7.5 * 23.5), 2)
    42.04
    """
    because = f"density must be above 0 and at most {HEAVIEST:g} lbf/in3, which is 104 pcf{given(density)}"
    return valid(density, (density > 0) & (density <= HEAVIEST), because) * positive("A", A)


@formula(symbol="R_1", clause=ROOF_LIVE, unit="")
def roof_area_reduction(A_t: Number) -> Number:
    """Reduction of roof live load for a large tributary area.

    Parameters
    ----------
    A_t : float or array
        Tributary area on plan. [in2]

    Returns
    -------
    float or array
        [-]

    Raises
    ------
    OutOfRange
        If the area is not positive.

    Notes
    -----
    200 and 600 are in square feet. Changed from the source: unit of A_t. How known: read.

    Examples
    --------
    >>> [round(roof_area_reduction(144 * A), 3) for A in (200, 400, 700)]
    [1.0, 0.8, 0.6]
    """
    A_t = positive("A_t", A_t, ROOF_LIVE)
    R_1 = where(A_t / 144 <= 200, 1.0, where(A_t / 144 < 600, 1.2 - 0.001 * A_t / 144, 0.6))
    return carried(R_1, A_t)


@formula(symbol="R_2", clause=ROOF_LIVE, unit="")
def roof_slope_reduction(F: Number) -> Number:
    """Reduction of roof live load for a steep roof.

    Parameters
    ----------
    F : float or array
        Rise of the roof in inches per foot of run. [-]

    Returns
    -------
    float or array
        [-]

    Raises
    ------
    OutOfRange
        If the rise is negative.

    Notes
    -----
    Changed from the source: nothing. How known: read.

    Examples
    --------
    >>> [round(roof_slope_reduction(F), 3) for F in (4, 6, 12)]
    [1.0, 0.9, 0.6]
    """
    F = valid(F, F >= 0, f"F must be 0 or more{given(F)}", ROOF_LIVE)
    return carried(where(F <= 4, 1.0, where(F < 12, 1.2 - 0.05 * F, 0.6)), F)


@formula(symbol="L_r", clause=f"{ROOF_LIVE} (eq. 4.8-1)", unit="psi")
def roof_live_load(L_o: Number, R_1: Number, R_2: Number) -> Number:
    """Roof live load on plan, never below 12 psf.

    Parameters
    ----------
    L_o : float or array
        Unreduced roof live load, 12 to 20 psf. [psi]
    R_1, R_2 : float or array
        Reductions for area and for slope. [-]

    Returns
    -------
    float or array
        [psi]

    Raises
    ------
    OutOfRange
        If L_o is not 12 to 20 psf or a reduction not above 0 and at most 1.

    Notes
    -----
    The floor of 12 psf is the standard's and stands in the formula. Its ceiling of 20 psf is kept as a range: a roof
    with more live load than that has another use, which this reduction does not cover.
    Changed from the source: as said. How known: read.

    Examples
    --------
    >>> [round(144 * roof_live_load(20 / 144, R_1, R_2), 1) for R_1, R_2 in ((0.8, 0.9), (0.6, 0.6))]
    [14.4, 12.0]
    """
    psf = L_o * 144
    holds = (psf >= 12 * (1 - 1e-9)) & (psf <= 20 * (1 + 1e-9))
    L_o = valid(L_o, holds, f"L_o must be 12 to 20 psf{given(psf)}", ROOF_LIVE)
    return largest(L_o * reduction("R_1", R_1, ROOF_LIVE) * reduction("R_2", R_2, ROOF_LIVE) * 144, 12) / 144


@formula(symbol="w_plan", clause="geometry", unit="psi")
def dead_on_plan(w_slope: Number, theta: Number) -> Number:
    """Load along the slope as a load on plan. Snow and roof live load are on plan already.

    Parameters
    ----------
    w_slope : float or array
        Load per area of the slope. [psi]
    theta : float or array
        Slope from level. [deg]

    Returns
    -------
    float or array
        [psi]

    Raises
    ------
    OutOfRange
        If the slope is not from 0 to less than 90 degrees.

    Notes
    -----
    Changed from the source: nothing. How known: derived.

    Examples
    --------
    >>> round(dead_on_plan(15.0, 60.0), 6)
    30.0
    """
    return w_slope / cos(_slope(theta))


@formula(symbol="w_n", clause="geometry", unit="lbf/in")
def slope_load_across(w_s: Number, theta: Number) -> Number:
    """Part across a sloping piece of a vertical load per length of slope (dead load).

    Parameters
    ----------
    w_s : float or array
        Vertical load per length along the slope. [lbf/in]
    theta : float or array
        Slope from level. [deg]

    Returns
    -------
    float or array
        [lbf/in]

    Raises
    ------
    OutOfRange
        If the slope is not from 0 to less than 90 degrees.

    Notes
    -----
    Changed from the source: nothing. How known: derived.

    Examples
    --------
    >>> round(slope_load_across(10.0, 60.0), 6)
    5.0
    """
    return w_s * cos(_slope(theta))


@formula(symbol="w_n", clause="geometry", unit="lbf/in")
def plan_load_across(w_p: Number, theta: Number) -> Number:
    """Part across a sloping piece of a vertical load per length on plan (snow, roof live load).

    Parameters
    ----------
    w_p : float or array
        Vertical load per length on plan. [lbf/in]
    theta : float or array
        Slope from level. [deg]

    Returns
    -------
    float or array
        [lbf/in]

    Raises
    ------
    OutOfRange
        If the slope is not from 0 to less than 90 degrees.

    Notes
    -----
    One cosine for the longer length on the slope, one for the direction.
    Changed from the source: nothing. How known: derived.

    Examples
    --------
    >>> round(plan_load_across(10.0, 60.0), 6)
    2.5
    """
    return w_p * cos(_slope(theta)) ** 2


@formula(symbol="H", clause="statics of a pair of rafters", unit="lbf")
def rafter_thrust(W: Number, run: Number, rise: Number) -> Number:
    """Outward push at the eaves of a pair of equal rafters without ridge beam, and the force in a tie there.

    Parameters
    ----------
    W : float or array
        Whole vertical load on one rafter, spread evenly. [lbf]
    run, rise : float or array
        From eaves to ridge, level and upright. [in]

    Returns
    -------
    float or array
        [lbf]

    Raises
    ------
    OutOfRange
        If run or rise is not positive.

    Notes
    -----
    Moments about the ridge, both rafters loaded alike. Changed from the source: nothing. How known: read.

    Examples
    --------
    >>> rafter_thrust(960.0, 144.0, 72.0)
    960.0
    """
    return W / 2 * (positive("run", run) / positive("rise", rise))


@formula(symbol="T", clause="statics of a pair of rafters", unit="lbf")
def raised_tie_tension(H: Number, H_r: Number, h: Number) -> Number:
    """Force in a rafter tie above the eaves.

    Parameters
    ----------
    H : float or array
        Thrust at the eaves without the tie. [lbf]
    H_r, h : float or array
        Height of the ridge above the eaves, and of the ridge above the tie. [in]

    Returns
    -------
    float or array
        [lbf]

    Raises
    ------
    OutOfRange
        If a height is not positive or h exceeds H_r.

    Notes
    -----
    The rafter bends between tie and eaves as well. A tie in the upper third is a collar tie and takes no thrust by the
    code. Changed from the source: nothing. How known: derived.

    Examples
    --------
    >>> raised_tie_tension(960.0, 72.0, 48.0)
    1440.0
    """
    H_r = positive("H_r", H_r)
    h = valid(h, (h > 0) & (h <= H_r), f"h must be above 0 and at most H_r{shown(H_r)}{given(h)}")
    return H * (H_r / h)


def _gravity(G: Number) -> Number:
    return between("G", G, 0.1, 1.3, SUPPLEMENT)


def _slope(theta: Number) -> Number:
    because = f"theta must be from 0 to less than 90 deg{given(theta)}"
    return valid(theta, (theta >= 0) & (theta < 90), because)
