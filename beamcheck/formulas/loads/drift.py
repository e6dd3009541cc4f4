"""Snow heaped up by wind (ASCE 7-16 7.6 to 7.8; 7-22 where it says so), in psi, inches and pcf.

What the standard writes in psf and feet is turned with 144 and 12, in sight.
"""

from __future__ import annotations

from typing import Annotated

from ...calc.core import Number, formula, largest, smallest, sqrt, where
from ...calc.ranges import Finite, NotNegative, Positive, between
from .snow import SNOW, Importance

DRIFT = f"{SNOW} 7.7.1"
NEW = "ASCE 7-22"


@formula(symbol="gamma_s", clause=f"{SNOW} 7.7.1 (eq. 7.7-1)", unit="pcf", known="read; second-hand")
def snow_density(p_g: NotNegative) -> Number:
    """Weight of snow per volume.

    >>> round(snow_density(30 / 144), 3), snow_density(150 / 144)
    (17.9, 30)
    """
    return smallest(0.13 * p_g * 144 + 14, 30)


@formula(symbol="h_b", clause=DRIFT, unit="in", known="read; second-hand")
def balanced_depth(p_s: NotNegative, gamma_s: Positive) -> Number:
    """Depth of the balanced snow on the lower roof.

    p_s: of the lower roof, without rain and not the least load.

    >>> round(balanced_depth(33.6 / 144, 19.2) / 12, 4)
    1.75
    """
    return p_s * 1728 / gamma_s


@formula(symbol="h_c", clause=DRIFT, unit="in", known="read; second-hand")
def clear_height(h_step: NotNegative, h_b: NotNegative) -> Number:
    """Height from the balanced snow to the top of the step, parapet or projection.

    No drift where it is under 0.2 h_b.

    >>> clear_height(48.0, 21.0)
    27.0
    """
    return h_step - h_b


@formula(symbol="h_d", clause=f"{SNOW} 7.7.1 (figure 7.6-1)", unit="in", known="read; second-hand")
def drift_height(p_g: NotNegative, l_fetch: Positive, I_s: Importance) -> Number:
    """Height of a leeward drift. A fetch under 20 ft counts as 20 ft; see `short_fetch_height`.

    >>> round(drift_height(40 / 144, 30 * 12, 1.0) / 12, 3)
    2.053
    """
    return 12 * sqrt(I_s) * (0.43 * largest(l_fetch / 12, 20) ** (1 / 3) * (p_g * 144 + 10) ** (1 / 4) - 1.5)


@formula(symbol="h_d", clause=f"{SNOW} figure 7.6-1, note", unit="in", known="read; second-hand")
def short_fetch_height(p_g: NotNegative, l_fetch: Positive, I_s: Importance, gamma_s: Positive) -> Number:
    """What a drift need not exceed where its fetch is under 20 ft: the snow that the true fetch holds.

    >>> round(short_fetch_height(10 / 144, 3 * 12, 1.0, 15.3) / 12, 4)
    0.7001
    """
    return 12 * sqrt(I_s * (p_g * 144) * (l_fetch / 12) / (4 * gamma_s))


@formula(symbol="h_d", clause=f"{NEW} 7.6.1 (eq. 7.6-1)", unit="in", known="read; second-hand", reference=True)
def drift_height_7_22(p_g: NotNegative, l_fetch: Positive, W_2: Annotated[Number, between(0.25, 0.65)],
                      gamma_s: Positive) -> Number:  # fmt: skip
    """Height of a leeward drift by the 2022 edition, from its strength-level ground snow.

    W_2: winter wind parameter, from the hazard map of the site only.

    >>> round(drift_height_7_22(63 / 144, 40 * 12, 0.45, 22.19) / 12, 3)
    2.721
    """
    return 12 * 1.5 * sqrt((p_g * 144) ** 0.74 * (l_fetch / 12) ** 0.70 * W_2**1.7 / gamma_s)


@formula(symbol="h_w", clause=DRIFT, unit="in", known="read; second-hand")
def windward_drift(h_d: NotNegative) -> Number:
    """Height of a windward drift, and of one at a parapet or projection.

    h_d: for the length of the lower roof; at a parapet of the roof upwind.

    >>> windward_drift(20.0)
    15.0
    """
    return 0.75 * h_d


@formula(symbol="h_w", clause=f"{SNOW} 7.7.2", unit="in", known="read; second-hand")
def drift_beyond_gap(h_d: NotNegative, h_step: NotNegative, s_gap: NotNegative) -> Number:
    """Height of a leeward drift on a lower building at a distance under 20 ft and under 6 steps.

    >>> drift_beyond_gap(46.0, 36.0, 180.0)
    6.0
    """
    return smallest(h_d, (6 * h_step - s_gap) / 6)


@formula(symbol="w_dr", clause=f"{SNOW} 7.7.2", unit="in", known="read; second-hand")
def drift_width_beyond_gap(h_d: NotNegative, h_step: NotNegative, s_gap: NotNegative) -> Number:
    """Its width.

    >>> drift_width_beyond_gap(46.0, 36.0, 180.0)
    36.0
    """
    return smallest(6 * h_d, 6 * h_step - s_gap)


@formula(symbol="w_dr", clause=DRIFT, unit="in", known="read; second-hand")
def drift_width(h_w: NotNegative, h_c: Positive) -> Number:
    """Width of a drift of that height; one that would stand above the step is wider in its place.

    >>> drift_width(10.0, 20.0), drift_width(25.0, 20.0), drift_width(50.0, 20.0)
    (40.0, 125.0, 160.0)
    """
    return where(h_w <= h_c, 4 * h_w, smallest(4 * h_w**2 / h_c, 8 * h_c))


@formula(symbol="w_dr", clause=f"{NEW} 7.7.1", unit="in", known="read; second-hand", reference=True)
def windward_width_7_22(h_w: NotNegative, h_c: Positive) -> Number:
    """Width of a windward drift by the 2022 edition, and of one at a parapet.

    >>> windward_width_7_22(10.0, 20.0)
    80.0
    """
    return 8 * smallest(h_w, h_c)


@formula(symbol="p_d", clause=DRIFT, unit="psi", known="derived")
def drift_pressure(gamma_s: Positive, h_w: NotNegative, h_c: NotNegative) -> Number:
    """Peak of a drift, on top of the balanced snow, not higher than the step.

    >>> round(144 * drift_pressure(19.2, 2.053 * 12, 2.25 * 12), 1)
    39.4
    """
    return gamma_s * smallest(h_w, h_c) / 1728


@formula(symbol="p_dx", clause=DRIFT, unit="psi", known="derived", reference=True)
def drift_pressure_at(p_d: NotNegative, w_dr: Positive, x: NotNegative) -> Number:
    """What is left of a drift at some distance from the wall.

    >>> drift_pressure_at(0.3, 120.0, 40.0), drift_pressure_at(0.3, 120.0, 130.0)
    (0.2, 0)
    """
    return largest(p_d * (1 - x / w_dr), 0)


@formula(symbol="p_dr", clause=f"{SNOW} 7.6.1", unit="psi", known="read; second-hand")
def lee_surcharge(gamma_s: Positive, h_d: NotNegative, S_r: Positive) -> Number:
    """Snow heaped on the lee side of a wide hip or gable, next to the ridge, on top of the balanced load.

    h_d: for the level length from eave to ridge of the windward side.
    S_r: run for a rise of one, 12 over the rise in 12.

    >>> round(144 * lee_surcharge(17.9, 3.978 * 12, 24.0), 2)
    14.53
    """
    return gamma_s * h_d / sqrt(S_r) / 1728


@formula(symbol="w_dr", clause=f"{SNOW} 7.6.1", unit="in", known="read; second-hand")
def lee_extent(h_d: NotNegative, S_r: Positive) -> Number:
    """How far it reaches down from the ridge, level.

    >>> round(lee_extent(1.798 * 12, 3.0) / 12, 2)
    8.3
    """
    return 8 * sqrt(S_r) * h_d / 3


@formula(symbol="p_m", clause=f"{NEW} 7.3.3 (Table 7.3-4)", unit="psi", known="read; second-hand", reference=True)
def low_slope_minimum_7_22(p_g: NotNegative, p_m_max: Positive) -> Number:
    """Least snow load of a low-slope roof by the 2022 edition, at strength level.

    >>> low_slope_minimum_7_22(0.5, 0.2), low_slope_minimum_7_22(0.1, 0.2)
    (0.2, 0.1)
    """
    return smallest(p_g, p_m_max)


@formula(symbol="S_x7", clause=f"{NEW} 2.4.1", unit="psi", known="read", reference=True)
def snow_in_asd_7_22(p_S: Finite) -> Number:
    """Strength-level snow of the 2022 edition as it stands in allowable-stress combinations.

    >>> round(snow_in_asd_7_22(40.32), 3)
    28.224
    """
    return 0.7 * p_S
