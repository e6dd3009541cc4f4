"""One roof of a job: every load on it that follows from the site, each with its steps (ASCE 7-16)."""

from __future__ import annotations

import math
from dataclasses import field

from ...calc.pad import Pad, SilentPad, Step
from ...formulas.loads import roof as rf
from ...formulas.loads import snow as sn
from ...formulas.loads import weight as wt
from ...model.site import SLIPPERY, Area, FloorArea, RoofArea, Site, SlidesFrom, parted
from ...records import dataclass
from ...values.judgment import judgment
from ...values.loads import live_load
from ...values.site import site_factor
from .drift import DriftKind, Slide, drift, sliding
from .heap import Heap
from .snow import Factors, OneSided, balanced_snow, flat_snow, least_snow, one_sided_snow
from .weights import Assembled, Layer, assembled, whole_assembly
from .wind import PARTS, open_roof, open_roof_rafter, velocity_pressure

SURROUNDINGS = {"suburb or woods": "B", "open country": "C", "open water": "D"}
BELOW = {
    "heated": "heated, warm roof", "cold attic": "cold ventilated roof, ceiling R over 25",
    "just above freezing": "just above freezing", "unheated": "unheated", "open air": "open air",
}  # fmt: skip
COLD = 25  # R over which a vented roof stays cold, ASCE 7-16 Table 7.3-2
WELL, WELL_VENTED = 30, 20  # R from which a warm slippery roof sheds, ASCE 7-16 7.4.1
HIGHEST_OPEN, WIDEST_OPEN, STEEPEST_OPEN, FASTEST_OPEN = 180.0, 360.0, 45.0, 150.0  # in, in, deg, mph: the envelope


@dataclass(frozen=True)
class Formed:
    """What comes onto a roof or floor per area of plan, lbf/in2; `steps` say how, `notes` what was not said.

    `even` is the largest snow that lies alike all over a slope: balanced with rain, least, one-sided, with what slides
    onto it. `drifts` begins at the higher wall, `ridge` at the ridge; both stand on the balanced snow.
    """

    dead: float
    least: float
    layers: Assembled
    steps: tuple[Step, ...]
    cases: tuple[tuple[str, float], ...] = ()
    live: float = 0.0
    balanced: float = 0.0
    even: float = 0.0
    astride: float = 0.0
    drifts: Heap | None = None
    ridge: Heap | None = None
    wind: tuple[float, float] | None = None  # up (below 0) and down, strength level: the roof as a whole
    parts: tuple[tuple[float, tuple[float, float]], ...] = ()  # the same for its parts, by the largest area of each
    notes: tuple[str, ...] = field(default=())


def formed_roof(site: Site, roof: RoofArea) -> Formed:
    """The loads of a roof."""
    pad = Pad()
    notes: list[str] = []
    cases: list[tuple[str, float]] = []
    layers = _weight(pad, roof, roof.slope)
    p_g = site.ground_snow[0]
    even = p_s = astride = 0.0
    heap = ridge = None
    if p_g > 0.0:
        factors = _factors(pad, site, roof, notes)
        p_f = flat_snow(pad, p_g, factors)
        insulated = sheds_warm(roof)
        p_s = balanced_snow(pad, p_f, slope=roof.slope, C_t=factors.C_t, slippery=roof.slippery, insulated=insulated)
        rain = float(pad(sn.rain_on_snow, p_g=p_g, theta=roof.slope, W_e=roof.eave_to_ridge))
        least = least_snow(pad, p_g, factors.I_s, slope=roof.slope)
        cases += [("balanced", p_s), *([("with rain", p_s + rain)] if rain else []),
                  *([("least of a low slope", least)] if least else [])]  # fmt: skip
        lee = one_sided_snow(pad, p_g=p_g, p_s=p_s, I_s=factors.I_s, W_e=roof.eave_to_ridge, slope=roof.slope,
                             shape=roof.shape, simple_rafters=roof.ridge in ("beam", "board"))  # fmt: skip
        slide = _slide(pad, site, roof, p_g, factors)
        if slide is not None:
            cases.append(("with snow that slides onto it", p_s + slide.pressure))
        everywhere = max(value for _, value in cases)
        even, astride = everywhere, everywhere
        if lee is not None:
            cases += _lee_cases(lee)
            even = max(even, lee.lee)
            ridge = lee.heap
            astride = max(astride, 0.5 * (lee.lee + lee.windward + (ridge.peak if ridge else 0.0)))
        heap = _heap(pad, site, roof, p_g, p_s, factors)
        if heap is not None:
            cases.append((f"{heap.kind} drift at the higher wall", p_s + heap.peak))
    wind = _wind(pad, site, roof)
    parts = _wind_on_parts(site, roof)
    return Formed(
        layers.weight, layers.least, layers, tuple(pad.steps), tuple(cases), 0.0, p_s, even, astride, heap, ridge, wind,
        parts, tuple(notes),
    )  # fmt: skip


def stays_cold(roof: RoofArea) -> bool:
    """Whether a roof over a heated room may be one that no heat reaches: insulated over R-25 and vented above.

    What is not said of it counts as if it were, for more snow lies on a cold roof (ASCE 7-16 Table 7.3-2).
    """
    if roof.below != "heated" or roof.vented is False:
        return False
    return roof.insulation is None or roof.insulation > COLD


def sheds_warm(roof: RoofArea) -> bool:
    """Whether a roof over a heated room is insulated so well that snow does not melt on it from below."""
    return (roof.insulation or 0) >= (WELL_VENTED if roof.vented else WELL)


def formed_floor(site: Site | None, floor: FloorArea) -> Formed:
    """The loads of a floor; snow on the ground lies on one that is outdoors (ASCE 7-16 7.2)."""
    pad = Pad()
    layers = _weight(pad, floor, 0.0)
    found = live_load(floor.use)
    live = float(pad.take("L_o", found.value, "psi", note=found.reason, source=found.source))
    if floor.partitions is not None:
        live += float(pad.take("L_o", floor.partitions[0], "psi", note="movable partitions"))
    snow = 0.0
    cases: tuple[tuple[str, float], ...] = ()
    if floor.outdoors and site is not None and site.ground_snow[0] > 0.0:
        I_s = site_factor("I_s", site.risk_category)
        snow = float(pad(sn.unbalanced_snow, note="on a deck: I_s p_g", symbol="p_s", p_g=site.ground_snow[0],
                         I_s=I_s.value))  # fmt: skip
        cases = (("on the deck", snow),)
    return Formed(layers.weight, layers.least, layers, tuple(pad.steps), cases, live, snow, snow, snow)


def framing(pad: Pad, area: Area) -> float:
    """Weight of the joists or rafters over the area, psi; 0 where none are given."""
    if area.rhythm is None:
        return 0.0
    section, spacing = area.rhythm
    rho = judgment("weight of framing lumber").value
    weight = pad(wt.framing_weight, A=section, rho=rho, s_oc=spacing)
    slope = area.slope if isinstance(area, RoofArea) else 0.0
    return float(pad(rf.dead_on_plan, w_slope=weight, theta=slope)) if slope > 0.0 else float(weight)


def roof_live(area: float, slope: float) -> float:
    """Roof live load of a piece with that tributary area in2, lbf/in2 (ASCE 7-16 4.8.2)."""
    R_1 = rf.roof_area_reduction(A_t=max(area, 1.0))
    R_2 = rf.roof_slope_reduction(F=12.0 * math.tan(math.radians(slope)))
    return float(rf.roof_live_load(L_o=live_load("roof").value, R_1=R_1, R_2=R_2))


def _weight(pad: Pad, area: Area, slope: float) -> Assembled:
    if area.assembly.strip():
        return whole_assembly(pad, area.assembly)
    return assembled(pad, [Layer(*parted(layer)) for layer in area.layers], slope)


def _factors(pad: Pad, site: Site, roof: RoofArea, notes: list[str]) -> Factors:
    exposed = roof.exposed or "sheltered"
    surroundings = SURROUNDINGS.get(site.surroundings or "", "B")
    C_e = site_factor("C_e", surroundings, exposed)
    C_t = site_factor("C_t", BELOW["cold attic" if stays_cold(roof) else roof.below or "unheated"])
    I_s = site_factor("I_s", site.risk_category)
    if roof.exposed is None or site.surroundings is None:
        notes.append("how the wind clears the roof is not said: sheltered among houses or trees")
    if stays_cold(roof) and (roof.insulation is None or roof.vented is None):
        notes.append("how a heated roof is insulated and vented is not all said: it counts as cold and vented")
    if roof.below is None:
        notes.append("what is under the roof is not said: unheated")
    for symbol, one in (("C_e", C_e), ("C_t", C_t), ("I_s", I_s)):
        pad.take(symbol, one.value, note=one.reason, source=one.source)
    return Factors(C_e.value, C_t.value, I_s.value)


def _lee_cases(lee: OneSided) -> list[tuple[str, float]]:
    peak = lee.heap.peak if lee.heap else 0.0
    return [("lee side" + (", at the ridge" if peak else ""), lee.lee + peak), ("windward side", lee.windward)]


def _slide(pad: Pad, site: Site, roof: RoofArea, p_g: float, factors: Factors) -> Slide | None:
    upper = roof.slides_from
    if not isinstance(upper, SlidesFrom):
        return None
    C_t = site_factor("C_t", BELOW[upper.below])
    p_f = flat_snow(pad, p_g, Factors(factors.C_e, C_t.value, factors.I_s))
    return sliding(pad, p_f=p_f, W_e=upper.eave_to_ridge, slope=upper.slope, slippery=upper.surface in SLIPPERY,
                   h_step=upper.step, gap=upper.gap)  # fmt: skip


def _heap(pad: Pad, site: Site, roof: RoofArea, p_g: float, p_s: float, factors: Factors) -> Heap | None:
    """The higher of the leeward and the windward drift (7.7.1)."""
    higher = roof.higher
    if higher is None or isinstance(higher, str):
        return None
    ways: tuple[tuple[DriftKind, float], ...] = (("leeward", higher.upper_length), ("windward", higher.lower_length))
    both = [
        drift(pad, kind, p_g=p_g, p_s=p_s, h_step=higher.step, fetch=fetch, I_s=factors.I_s, gap=higher.gap,
              lower_length=higher.lower_length)
        for kind, fetch in ways
    ]  # fmt: skip
    found = [one for one in both if one is not None]
    return max(found, key=lambda one: (one.peak, one.width), default=None)


def _wind(pad: Pad, site: Site, roof: RoofArea) -> tuple[float, float] | None:
    """By a sheet, or the safe envelope of a small open roof; None where neither is there."""
    if roof.wind is not None:
        share = 1.0 if roof.wind.level == "strength" else 1.0 / 0.6
        up, down = -roof.wind.lifts[0] * share, roof.wind.presses[0] * share
        note = f"{roof.wind.level} level, by {roof.wind.by or 'nobody who is named'}"
        return float(pad.take("p_w", up, "psi", note=note)), float(pad.take("p_w", down, "psi", note=note))
    if beyond_envelope(site, roof):
        return None
    q_h = velocity_pressure(pad, site.speed, site.exposure, roof.mean_height or HIGHEST_OPEN)
    return open_roof(pad, q_h, _shape(roof), roof.slope)


def _wind_on_parts(site: Site, roof: RoofArea) -> tuple[tuple[float, tuple[float, float]], ...]:
    """What rafters and purlins of a small open roof get: more than the roof as a whole, the more so the smaller."""
    if roof.wind is not None or beyond_envelope(site, roof):
        return ()
    pad = SilentPad()
    q_h = velocity_pressure(pad, site.speed, site.exposure, roof.mean_height or HIGHEST_OPEN)
    return tuple((area, open_roof_rafter(pad, q_h, _shape(roof), roof.slope, area=area)) for area in PARTS)


def _shape(roof: RoofArea) -> str:
    return "monoslope" if roof.shape == "monoslope" else "pitched"


def beyond_envelope(site: Site, roof: RoofArea) -> str:
    """Why the safe envelope of small open roofs does not hold here; '' where it does."""
    flat = roof.slope <= judgment("slope from which water runs off").value + 0.01
    reasons = (
        (roof.below != "open air", "it is no open roof"),
        (not site.speed, "the wind speed is not given"),
        (site.speed > FASTEST_OPEN, "the wind is faster than 150 mph"),
        (site.flat_ground is not True, "whether a hill, ridge or cliff is near is not said"),
        (roof.mean_height is None, "its height over the ground is not given"),
        ((roof.mean_height or 0.0) > HIGHEST_OPEN, "it is higher than 15 ft"),
        (roof.least_width is None, "its least width is not given"),
        ((roof.least_width or 0.0) > WIDEST_OPEN, "it is wider than 30 ft"),
        (roof.slope > STEEPEST_OPEN, "it is steeper than 45 degrees"),
        (roof.attached is None, "how many of its sides have a wall is not said"),
        (roof.attached == "more", "walls stand on more than one of its sides"),
        (roof.attached == "one side" and not flat, "it is attached on one side and steeper than 1/4 in to a foot"),
        (roof.parapet > 0.0, "it has a parapet"),
    )
    return next((words for holds, words in reasons if holds), "")
