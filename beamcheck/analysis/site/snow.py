"""Snow on one roof from the ground snow: balanced, least, with rain, heaped on one side (ASCE 7-16 7.3 to 7.10)."""

from __future__ import annotations

import math
from typing import Literal

from ...calc.pad import Pad
from ...formulas.loads import drift as dr
from ...formulas.loads import snow as sn
from ...records import dataclass
from ...values.judgment import judgment
from ...values.site import snow_knee
from .heap import Heap

Shape = Literal["gable", "hip", "monoslope"]


@dataclass(frozen=True)
class Factors:
    """Factors of one roof."""

    C_e: float
    C_t: float
    I_s: float


def flat_snow(pad: Pad, p_g: float, factors: Factors) -> float:
    """p_f, psi."""
    found = pad(sn.flat_roof_snow, p_g=p_g, C_e=factors.C_e, C_t=factors.C_t, I_s=factors.I_s)
    return float(found)


def balanced_snow(pad: Pad, p_f: float, *, slope: float, C_t: float, slippery: bool, insulated: bool) -> float:
    """p_s, psi: `slippery` is an unobstructed slippery surface, `insulated` R-30 or R-20 vented."""
    knee = snow_knee(C_t, slippery=slippery, insulated=insulated)
    theta_0 = pad.take("theta_0", knee.value, "deg", note=knee.reason, source=knee.source)
    C_s = pad(sn.roof_slope_factor, theta=slope, theta_0=theta_0)
    return float(pad(sn.sloped_roof_snow, C_s=C_s, p_f=p_f))


def least_snow(pad: Pad, p_g: float, I_s: float, *, slope: float) -> float:
    """p_m of a low slope, psi; 0 where the roof is steeper."""
    if slope >= judgment("steepest roof with least snow").value - 1e-9:
        return 0.0
    return float(pad(sn.low_slope_minimum_snow, p_g=p_g, I_s=I_s))


@dataclass(frozen=True)
class OneSided:
    """Snow on the lee side and on the windward side, psi, and what is heaped beside the ridge on the lee side."""

    lee: float
    windward: float
    heap: Heap | None = None


def one_sided_snow(
    pad: Pad, *, p_g: float, p_s: float, I_s: float, W_e: float, slope: float, shape: Shape, simple_rafters: bool,
    W_2: float | None = None,
) -> OneSided | None:  # fmt: skip
    """The unbalanced load of a hip or gable (7.6.1); None where it is not asked for.

    `W_e`: level distance from eave to ridge of the windward side, in. `simple_rafters`: simply supported prismatic
    rafters from eave to ridge, no ties or trusses in the way.
    """
    low, high = judgment("flattest roof with one-sided snow").value, judgment("steepest roof with one-sided snow").value
    if shape == "monoslope" or not low <= slope <= high:
        return None
    if simple_rafters and W_e <= judgment("widest roof with even one-sided snow").value * (1.0 + 1e-9):
        return OneSided(float(pad(sn.unbalanced_snow, p_g=p_g, I_s=I_s)), 0.0)
    gamma_s = pad(dr.snow_density, p_g=p_g)
    if W_2 is None:
        fetch = max(W_e, judgment("least fetch of one-sided snow").value)
        h_d = pad(dr.drift_height, p_g=p_g, l_fetch=fetch, I_s=I_s)
    else:
        h_d = pad(dr.drift_height_7_22, p_g=p_g, l_fetch=W_e, W_2=W_2, gamma_s=gamma_s)
    S_r = 1.0 / math.tan(math.radians(slope))
    heap = Heap("lee", float(pad(dr.lee_surcharge, gamma_s=gamma_s, h_d=h_d, S_r=S_r)),
                float(pad(dr.lee_extent, h_d=h_d, S_r=S_r)), float(h_d))  # fmt: skip
    return OneSided(p_s, float(pad(sn.windward_snow, p_s=p_s)), heap)
