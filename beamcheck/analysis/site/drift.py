"""Snow that wind heaps up beside something higher, or that slides from it (ASCE 7-16 7.7 to 7.9; also of 7-22)."""

from __future__ import annotations

from typing import Literal

from ...calc.pad import Pad
from ...formulas.loads import drift as dr
from ...formulas.loads import snow as sn
from ...records import dataclass
from ...values.judgment import judgment
from .heap import Heap

SHORT = 240.0  # in; 20 ft, figure 7.6-1
DriftKind = Literal["leeward", "windward", "parapet"]
GAP_STEPS = 6.0  # ASCE 7-16 7.7.2: only within six steps


def drift(
    pad: Pad, kind: DriftKind, *, p_g: float, p_s: float, h_step: float, fetch: float, I_s: float = 1.0,
    gap: float = 0.0, lower_length: float | None = None, W_2: float | None = None,
) -> Heap | None:  # fmt: skip
    """The drift on a lower roof beside a step, wall or parapet; None where the standard asks for none.

    `kind`: 'leeward': blown off the upper roof; 'windward': along the lower roof; 'parapet': at a parapet or
    projection. `p_g`, `p_s`: ground snow and balanced snow of the lower roof (no rain, not the least load), psi.
    `h_step`, `fetch`, `gap`: height of the step above the lower roof, length of roof from which the snow comes, gap
    between the two, in. `lower_length`: length of the lower roof, in: a leeward drift is at most 0.6 times as high.
    `W_2`: winter wind parameter of ASCE 7-22; with it the drift is that of the 2022 edition, at strength level. Returns
    Heap or None: peak psi, width in, height in; on top of the balanced snow.
    """
    if gap >= judgment("widest gap with a drift").value or (gap and gap >= GAP_STEPS * h_step) or p_g <= 0.0:
        return None
    gamma_s = pad(dr.snow_density, p_g=p_g)
    h_b = pad(dr.balanced_depth, p_s=p_s, gamma_s=gamma_s)
    h_c = pad(dr.clear_height, h_step=h_step, h_b=h_b)
    if h_c <= 0.0 or h_c < judgment("clear height over balanced snow without drift").value * h_b:
        return None
    if W_2 is None:
        h_d = lee_height(pad, p_g=p_g, fetch=fetch, I_s=I_s)
    else:
        h_d = pad(dr.drift_height_7_22, p_g=p_g, l_fetch=fetch, W_2=W_2, gamma_s=gamma_s)
    if kind == "leeward":
        most = judgment("leeward drift over the lower roof").value
        if lower_length is not None and h_d > most * lower_length:
            h_d = pad.take("h_d", most * lower_length, "in", note="at most 60 % of the lower roof's length")
        if gap:
            h_w = pad(dr.drift_beyond_gap, h_d=h_d, h_step=h_step, s_gap=gap)
            width = pad(dr.drift_width_beyond_gap, h_d=h_d, h_step=h_step, s_gap=gap)
            return Heap(kind, pad(dr.drift_pressure, gamma_s=gamma_s, h_w=h_w, h_c=h_c), width, min(h_w, h_c), h_c)
        h_w = h_d
    else:
        h_w = pad(dr.windward_drift, h_d=h_d)
    if W_2 is not None and kind != "leeward":
        width = pad(dr.windward_width_7_22, h_w=h_w, h_c=h_c)
    else:
        width = pad(dr.drift_width, h_w=h_w, h_c=h_c)
    return Heap(kind, pad(dr.drift_pressure, gamma_s=gamma_s, h_w=h_w, h_c=h_c), width, min(h_w, h_c), h_c)


def lee_height(pad: Pad, *, p_g: float, fetch: float, I_s: float) -> float:
    """h_d of ASCE 7-16 with the rule for short fetches, in."""
    h_d = pad(dr.drift_height, p_g=p_g, l_fetch=fetch, I_s=I_s)
    if fetch < SHORT:
        most = pad(dr.short_fetch_height, p_g=p_g, l_fetch=fetch, I_s=I_s, gamma_s=dr.snow_density(p_g=p_g))
        h_d = min(h_d, most)
    return float(h_d)


@dataclass(frozen=True)
class Slide:
    """Snow that slides onto a lower roof: psi over `reach` in from the upper eave, and that from which it comes."""

    pressure: float
    reach: float

    def on(self, depth: float) -> float:
        """What a lower roof of that depth gets, lbf/in of eave."""
        return self.pressure * min(depth, self.reach)


def sliding(
    pad: Pad, *, p_f: float, W_e: float, slope: float, slippery: bool, h_step: float = 0.0, gap: float = 0.0
) -> Slide | None:  # fmt: skip
    """What an upper roof sheds onto a lower one (7.9); None where it is too flat or too far away.

    `p_f`, `W_e`, `slope`: flat roof snow psi, eave to ridge in, and slope in degrees, all of the upper roof. `h_step`,
    `gap`: from roof to roof, in. Over a gap it comes only where that is under the step and under 15 ft.
    """
    least = judgment("flattest slippery roof that sheds" if slippery else "flattest roof that sheds").value
    spread = judgment("reach of sliding snow").value
    if slope <= least + 1e-6 or (gap and (gap >= h_step or gap >= spread)):
        return None
    w = pad(sn.sliding_snow, p_f=p_f, W_e=W_e)
    return Slide(pad(sn.sliding_pressure, w_sl=w), spread - gap)
