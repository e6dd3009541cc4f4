"""Loads from the site against published figures: every row of site_loads.csv, with where it was seen and `how`.

'read' rows were seen in a stored page; 'derived' ones follow from the rule that they name. The rows come in psf, feet
and degrees; `KINDS` says which function of the package answers each kind of row, so further rows need no code.
"""

from __future__ import annotations

import csv
import json
import math
from collections.abc import Callable
from pathlib import Path
from typing import Any

import numpy as np
import pytest

from beamcheck.analysis.frames.beam_frame import LineLoad
from beamcheck.analysis.frames.member_line import straight_beam
from beamcheck.analysis.site.drift import drift, lee_height, sliding
from beamcheck.analysis.site.heap import Heap
from beamcheck.analysis.site.snow import (
    Factors,
    balanced_snow,
    flat_snow,
    least_snow,
    one_sided_snow,
)
from beamcheck.analysis.site.weights import Layer, assembled
from beamcheck.analysis.site.wind import open_roof, open_roof_part, velocity_pressure
from beamcheck.calc.pad import Pad
from beamcheck.formulas.loads import drift as dr
from beamcheck.formulas.loads import floor as fl
from beamcheck.formulas.loads import roof as rf
from beamcheck.formulas.loads import snow as sn
from beamcheck.formulas.loads import weight as wt
from beamcheck.formulas.loads import wind as wd
from beamcheck.formulas.wood.deflection import dead_and_other_deflection, long_term_deflection
from beamcheck.values import site as look
from beamcheck.values.loader import row_of, rows
from beamcheck.values.loads import live_load, point_load_of

TEXT = Path(__file__).with_name("site_loads.csv").read_text(encoding="utf-8")
# what is asked or refused of a job is tested with jobs, in tests/checks/loads
FIGURES = [row for row in csv.DictReader(TEXT.splitlines()) if row["quantity"] != "answer"]
ROWS = {row["id"]: row for row in FIGURES}
SF, FT, PLF = 144.0, 12.0, 12.0
NONE = ("not required", "does not apply")
MM = 25.4

Given = dict[str, Any]


def slope_of(given: Given) -> float:
    """Degrees, from `slope_deg`, `rise_in_12` or '6:12'."""
    if "slope_deg" in given:
        return float(given["slope_deg"])
    text = given.get("upper_slope")
    rise = given["rise_in_12"] if text is None else _rise(text)
    return math.degrees(math.atan(rise / 12.0))


def _rise(text: str) -> float:
    over, _, _ = text.partition(":")
    top, _, bottom = over.partition("/")
    return float(top) / float(bottom or 1.0)


def factors(given: Given) -> Factors:
    return Factors(given.get("C_e", 1.0), given.get("C_t", 1.0), given.get("I_s", 1.0))


def p_g(given: Given) -> float:
    return float(given["p_g_psf"]) / SF


def snow_flat(given: Given, quantity: str) -> Any:
    return SF * flat_snow(Pad(), p_g(given), factors(given))


def snow_exposure(given: Given, quantity: str) -> Any:
    return look.site_factor("C_e", given["roughness"], given["roof"]).value


def snow_thermal(given: Given, quantity: str) -> Any:
    return look.site_factor("C_t", given["condition"]).value


def snow_minimum(given: Given, quantity: str) -> Any:
    return SF * least_snow(Pad(), p_g(given), given["I_s"], slope=slope_of(given)) or NONE


def snow_slope_factor(given: Given, quantity: str) -> Any:
    return balanced_snow(Pad(), 1.0, slope=slope_of(given), C_t=given["C_t"], slippery=given["slippery"],
                         insulated=given.get("R_enough", True))  # fmt: skip


def snow_sloped(given: Given, quantity: str) -> Any:
    if "C_s" in given:
        return SF * sn.sloped_roof_snow(C_s=given["C_s"], p_f=given["p_f_psf"] / SF)
    p_f = flat_snow(Pad(), p_g(given), factors(given))
    return SF * balanced_snow(Pad(), p_f, slope=slope_of(given), C_t=given["C_t"], slippery=given["slippery"],
                              insulated=given["R_enough"])  # fmt: skip


def snow_rain(given: Given, quantity: str) -> Any:
    rain = sn.rain_on_snow(p_g=p_g(given), theta=slope_of(given), W_e=FT * given["W_ft"])
    if not rain:
        return NONE
    return SF * (flat_snow(Pad(), p_g(given), factors(given)) + rain)


def snow_density(given: Given, quantity: str) -> Any:
    return dr.snow_density(p_g=p_g(given))


def snow_drift_height(given: Given, quantity: str) -> Any:
    return lee_height(Pad(), p_g=p_g(given), fetch=FT * given["l_u_ft"], I_s=given["I_s"]) / FT


def snow_drift(given: Given, quantity: str) -> Any:
    p_s, pad = given.get("p_s_psf", 0.0) / SF, Pad()
    found = drift(
        pad, given["type"].partition(",")[0], p_g=p_g(given), p_s=p_s, h_step=FT * given["step_ft"],
        fetch=FT * given.get("l_u_ft", 100.0), I_s=given.get("I_s", 1.0), gap=FT * given.get("gap_ft", 0.0),
        W_2=given.get("W_2"),
    )  # fmt: skip
    if found is None:
        return NONE
    return {"p_d": SF * found.peak, "p_max": SF * (p_s + found.peak), "w": found.width / FT, "h": found.height / FT,
            "h_c": found.clear / FT,
            "h_d": min(step.value for step in pad.steps if step.symbol == "h_d") / FT}[quantity]  # fmt: skip


def drift_on_rafter(given: Given, quantity: str) -> Any:
    """On a strip of one foot; M in lb ft, reactions in lb."""
    span, heap = FT * given["span_ft"], Heap("", given["p_d_psf"] / SF, FT * given["w_ft"])
    edge = min(heap.width, span)
    even = given["p_s_psf"] / SF * FT
    loads = [LineLoad(0.0, span, even, even), LineLoad(0.0, edge, heap.at(0.0) * FT, heap.at(edge) * FT)]
    found = straight_beam(span, [(0.0, "roller"), (span, "roller")], [loads], 1e7)
    reactions = [float(one[1]) for one in found.reactions[0]]
    beam_share = heap.share(0.0, span, 0.0, 1.0) * FT + even * span / 2.0
    assert reactions[1] == pytest.approx(beam_share, rel=1e-6)  # the strip along the wall gives the same
    moment = float(found.line.extremes("M")[2][0]) / FT
    return {"reaction_at_wall": reactions[0], "reaction_at_beam": reactions[1], "M_max": moment}[quantity]


def snow_unbalanced(given: Given, quantity: str, simple: bool = False) -> Any:
    p_s = given.get("p_s_psf", 0.0) / SF
    found = one_sided_snow(
        Pad(), p_g=p_g(given), p_s=p_s, I_s=given.get("I_s", 1.0), W_e=FT * given["W_ft"], slope=slope_of(given),
        shape="gable", simple_rafters=simple, W_2=given.get("W_2"),
    )  # fmt: skip
    if found is None:
        return NONE
    heap = found.heap or Heap("", 0.0, 1.0)
    return {"windward": SF * found.windward, "leeward": SF * found.lee, "surcharge": SF * heap.peak,
            "extent": heap.width / FT, "lee_peak": SF * (found.lee + heap.peak)}[quantity]  # fmt: skip


def snow_ridge_beam(given: Given, quantity: str) -> Any:
    p_f = flat_snow(Pad(), p_g(given), factors(given))
    p_s = balanced_snow(Pad(), p_f, slope=slope_of(given), C_t=given["C_t"], slippery=False, insulated=True)
    lee = one_sided_snow(Pad(), p_g=p_g(given), p_s=p_s, I_s=given["I_s"], W_e=FT * given["W_ft"],
                         slope=slope_of(given), shape="gable", simple_rafters=True)  # fmt: skip
    half = given["W_ft"] / 2.0
    assert lee is not None
    return {"balanced_line_load": SF * p_s * 2.0 * half, "lee_line_load": SF * lee.lee * half,
            "unbalanced_line_load": SF * lee.lee * half}[quantity]  # fmt: skip


def snow_sliding(given: Given, quantity: str) -> Any:
    found = sliding(Pad(), p_f=given.get("p_f_upper_psf", 20.0) / SF, W_e=FT * given.get("W_ft", 10.0),
                    slope=slope_of(given), slippery=given["upper_surface"] == "slippery",
                    h_step=FT * given.get("step_ft", 0.0), gap=FT * given.get("gap_ft", 0.0))  # fmt: skip
    if found is None:
        return NONE
    depth = FT * given["lower_roof_depth_ft"]
    return {"pressure": SF * found.pressure, "line_load_on_lower": PLF * found.on(depth),
            "line_load_at_eave": PLF * found.on(found.reach)}[quantity]  # fmt: skip


def snow_eaves(given: Given, quantity: str) -> Any:
    return SF * sn.eave_ice(p_f=given["p_f_psf"] / SF)


def snow_partial(given: Given, quantity: str) -> Any:
    """Continuous spans, by the frame solver: moments over supports and in spans lb ft, reactions lb."""
    if quantity in ("full", "half"):
        return given["p_s_psf"] * given["spacing_ft"] * (1.0 if quantity == "full" else 0.5)
    ends = [0.0]
    for span in given["spans_ft"]:
        ends.append(ends[-1] + FT * span)
    w = given["full_plf"] / PLF
    loads = [LineLoad(a, b, w * part, w * part) for a, b, part in zip(ends, ends[1:], given["loaded"], strict=False)]
    found = straight_beam(ends[-1], [(x, "roller") for x in ends], [loads], 1e9)
    what, _, number = quantity.rpartition("_")
    n = int(number)
    if what == "R":
        return float(found.reactions[0][n][1])
    if what == "M_support":
        return float(found.line.extremes("M", ends[n] - 1e-6, ends[n] + 1e-6)[0][0]) / FT
    return float(found.line.extremes("M", ends[n - 1], ends[n])[2][0]) / FT


def thermal_7_22(p: float, R: float) -> float:
    """C_t of Table 7.3-3, straight between its rows; 1.2 over its last line."""
    lines: dict[float, list[tuple[float, float]]] = {}
    for row in rows("asce_7_22_7_3_3_thermal"):
        lines.setdefault(float(row["insulation"]), []).append((float(row["p_g"]), float(row["C_t"])))
    if max(lines) < R:
        return 1.2
    each = {r: float(np.interp(SF * p, *zip(*line, strict=True))) for r, line in sorted(lines.items())}
    return float(np.interp(R, list(each), list(each.values())))


def snow22_thermal(given: Given, quantity: str) -> Any:
    return thermal_7_22(p_g(given), given["R_roof"])


def snow22_drift_height(given: Given, quantity: str) -> Any:
    return dr.drift_height_7_22(p_g=p_g(given), l_fetch=FT * given["l_u_ft"], W_2=given["W_2"],
                                gamma_s=given["gamma_pcf"]) / FT  # fmt: skip


def snow22_minimum(given: Given, quantity: str) -> Any:
    if slope_of(given) >= 15.0 - 1e-9:
        return 0.0
    most = look.site_factor("p_m_max", given["risk"], edition="7-22").value / SF
    return SF * dr.low_slope_minimum_7_22(p_g=p_g(given), p_m_max=most)


def snow22_asd(given: Given, quantity: str) -> Any:
    p = given["p_g_strength_psf"] / SF
    C_t = thermal_7_22(p, given["R_roof"])
    p_f = flat_snow(Pad(), p, Factors(given["C_e"], C_t, 1.0))
    return SF * dr.snow_in_asd_7_22(p_S=p_f) + given["D_psf"]


def roof_live(given: Given, quantity: str) -> Any:
    R_1 = rf.roof_area_reduction(A_t=SF * given["A_t_ft2"])
    R_2 = rf.roof_slope_reduction(F=given["F"])
    return SF * rf.roof_live_load(L_o=given.get("L_o_psf", 20.0) / SF, R_1=R_1, R_2=R_2)


def roof_live_irc(given: Given, quantity: str) -> Any:
    area, rise = given["A_t_ft2"], given["F"]
    return next(
        float(row["load"])
        for row in rows("irc_r301_6_roof_live")
        if float(row["rise_from"]) <= rise < float(row["rise_below"] or 99) and area <= float(row["area_to"] or 1e9)
    )


def wind_kz(given: Given, quantity: str) -> Any:
    if given.get("K_z") == "formula":
        row = row_of("asce_7_16_26_11_1_profile", "exposure", given["exposure"], "exposure")
        return wd.velocity_exposure(z=FT * given["z_ft"], z_g=FT * float(row["z_g"]), alpha_z=float(row["alpha"]))
    return look.exposure_at(given["exposure"], FT * given["z_ft"]).value


def wind_q(given: Given, quantity: str) -> Any:
    K_z = wind_kz(given | {"z_ft": given["h_ft"]}, "")
    return SF * wd.velocity_pressure(K_z=K_z, K_zt=1.0, K_d=0.85, K_el=given.get("K_e", 1.0), V_mph=given["V_mph"])


def wind_speed(given: Given, quantity: str) -> Any:
    if "V_asd_mph" in given:
        return wd.strength_wind_speed(V_asd=given["V_asd_mph"])
    return given["V_ult_mph"] * math.sqrt(0.6)


FLOW = {"clear": "clear", "obstr": "obstructed", "obstructed": "obstructed"}


def wind_free_roof(given: Given, quantity: str) -> Any:
    flow, q = FLOW[given["flow"]], given["q_h_psf"] / SF
    if "band" in given:
        C_N = next(
            float(row["C_N"])
            for row in rows("asce_7_16_27_3_7_along_ridge")
            if (row["band"], row["flow"], row["case"]) == (given["band"], flow, given["case"])
        )
    else:
        both = look.free_roof_coefficients(given["shape"], given["slope_deg"], flow=flow, case=given["case"],
                                           direction=given.get("direction", 0))  # fmt: skip
        C_N = both["leeward" in quantity]
    return SF * wd.roof_wind(q_h=q, G_w=given["G"], C_N=C_N)


def wind_free_roof_envelope(given: Given, quantity: str) -> Any:
    q = velocity_pressure(Pad(), given["V_mph"], given["exposure"], FT * given["h_ft"])
    up, down = open_roof(Pad(), q, given["shape"], given["slope_deg"])
    return SF * (up if quantity == "p_up" else down)


def wind_free_roof_cc(given: Given, quantity: str) -> Any:
    up, down = open_roof_part(Pad(), given["q_h_psf"] / SF, given["shape"], given["slope_deg"], zone=given["zone"],
                              area=SF * given["effective_area_ft2"], a=FT * given["a_ft"])  # fmt: skip
    return SF * (up if quantity == "p_up" else down)


def wind_canopy(given: Given, quantity: str) -> Any:
    way = "up" if quantity.endswith("up") else "down"
    high = given["h_c_over_h_e"]
    row = next(
        row
        for row in rows("asce_7_22_30_9_1b_canopies")
        if row["way"] == way and (high > (least := float(row["h_c_over_h_e_from"] or 0.0)) or high == least == 0.9)
    )
    area = min(max(given["effective_area_ft2"], 10.0), 100.0)
    return float(np.interp(math.log10(area), [1.0, 2.0], [float(row["at_10_ft2"]), float(row["at_100_ft2"])]))


def wind_cc_enclosed_irc2018(given: Given, quantity: str) -> Any:
    V = given["V_mph"]
    q = wd.velocity_pressure(K_z=0.70, K_zt=1.0, K_d=0.85, K_el=1.0, V_mph=V)
    row = row_of("irc_2018_r301_2_2_coefficients", "zone", str(given["zone"]), "zone")
    return SF * 0.6 * q * (float(row["GC_p"]) - 0.18)


def uplift_connection_irc(given: Given, quantity: str) -> Any:
    line = [(float(row["V"]), float(row["roof_span"]), float(row["uplift"])) for row in rows("irc_r802_11_uplift")
            if row["pitch"] == given["pitch"]]  # fmt: skip
    fits = [one for one in line if one[0] >= given["V_mph"] and one[1] >= given["roof_span_ft"]]
    return min(fits)[2] * given["spacing_in"] / 24.0


def net_uplift(given: Given, quantity: str) -> Any:
    net = SF * wd.net_uplift(w_D=given["D_psf"] / SF, p_w=given["W_strength_psf"] / SF)
    if "roof_ft" not in given:
        return net
    long, wide = given["roof_ft"]
    held = net * long * wide + 0.6 * given["beam_plf"] * long
    return -held / given["posts"]


USES = {
    "garage": "garage", "deck, IRC": "deck", "balcony, IRC": "balcony", "attic, limited storage":
    "attic with limited storage", "attic with limited storage": "attic with limited storage", "stairs": "stair",
    "sleeping room": "sleeping room",
}  # fmt: skip


def live_use(given: Given, quantity: str) -> Any:
    use = given["use"]
    if "area_served_psf" in given:
        return SF * fl.deck_live_load(L_o=given["area_served_psf"] / SF)
    return SF * live_load(USES.get(use, use), least=True).value


def live_point(given: Given, quantity: str) -> Any:
    return point_load_of(given["use"]).value


def live_reduction(given: Given, quantity: str) -> Any:
    share = 0.5 if given["floors"] == 1 else 0.4
    return SF * fl.reduced_live_load(L_o=given["L_o_psf"] / SF, A_I=SF * given["K_LL_A_T_ft2"], s_L=share)


def dead_sum(given: Given, quantity: str) -> Any:
    """The layers of a row with their own weights; those that the tables list under these words weigh the same."""
    listed = {
        "tile 3/4 in on 1/2 in mortar": "tile on 1/2 in mortar bed", "3/4 in plywood": "3/4 in panel",
        "hardwood 7/8 in": "7/8 in hardwood", "1/2 in gypsum board": "1/2 in gypsum board",
        "1/2 in board": "1/2 in gypsum board",
    }  # fmt: skip
    layers = [Layer(listed[name]) if name in listed else Layer(name, psf / SF) for name, psf in given["layers"].items()]
    return SF * assembled(Pad(), layers).weight


def dead_assembly(given: Given, quantity: str) -> Any:
    words = given["assembly"]
    if not words.startswith("same with "):
        return SF * look.assembly_weight(words).value
    finish = words.removeprefix("same with ")
    (row,) = [row for row in rows("dead_assemblies") if row["finish"] == finish]
    return float(row["weight"])


def dead_framing(given: Given, quantity: str) -> Any:
    size, _, spacing = given["framing"].partition(" at ")
    b, d = {"2x6": (1.5, 5.5), "2x8": (1.5, 7.25), "2x10": (1.5, 9.25), "2x12": (1.5, 11.25)}[size]
    return SF * wt.framing_weight(A=b * d, rho=given["wood_pcf"], s_oc=float(spacing.removesuffix(" in")))


def dead_on_plan(given: Given, quantity: str) -> Any:
    return SF * rf.dead_on_plan(w_slope=given["w_slope_psf"] / SF, theta=slope_of(given))


def dead_thin(given: Given, quantity: str) -> Any:
    total = wt.layer_weight(t=given["thickness_in"], rho=given["pcf"])
    if "mortar_in" in given:
        total += wt.layer_weight(t=given["mortar_in"], rho=given["mortar_pcf"])
    return SF * total


def deflection_code_total(given: Given, quantity: str) -> Any:
    s_D = 0.5 if given["moisture"] == "dry" else 1.0
    return dead_and_other_deflection(s_D=s_D, Delta_LT=given["Delta_D_in"], Delta_ST=given["Delta_variable_in"])


def deflection_final(given: Given, quantity: str) -> Any:
    K_cr = 1.5 if given["moisture"] == "dry" else 2.0
    return long_term_deflection(K_cr=K_cr, Delta_LT=given["Delta_D_in"], Delta_ST=given["Delta_variable_in"])


def deflection_limit(given: Given, quantity: str) -> Any:
    ceiling = {"board": "gypsum board", "other": "gypsum board"}.get(given["ceiling"], given["ceiling"])
    column = {"L": "live", "Lr": "live", "S": "snow_wind", "W": "snow_wind", "D+L": "total"}[given["load"]]
    listed = [row for row in rows("ibc_1604_3_deflection_limits") if row["member"] == given["member"]]
    (row,) = [row for row in listed if ceiling == "any" or ceiling in row["finishes"].split("; ")]
    return float(row[column])


def ponding_slope(given: Given, quantity: str) -> Any:
    slope = _rise(given["design_slope"].removesuffix(" in per ft")) / 12.0
    sag = 1.0 / float(given["sag"].removeprefix("L/"))
    return 12.0 * fl.slope_left(s_roof=slope, Delta=sag, L=1.0)


def ponding_stability(given: Given, quantity: str) -> Any:
    C = fl.ponding_growth(s_oc=given["spacing_in"], L=given["L_in"], E=given["E_psi"], I=given["I_in4"])
    return C if quantity == "C" else fl.ponding_amplification(C_pond=C)


def vibration_frequency(given: Given, quantity: str) -> Any:
    return fl.floor_frequency(E=given["E_psi"], I=given["I_in4"], W=given["W_lb"], L=FT * given["L_ft"])


def vibration_system(given: Given, quantity: str) -> Any:
    return fl.system_frequency(f_j=given["f_joist_Hz"], f_g=given["f_girder_Hz"])


def vibration_ec5(given: Given, quantity: str) -> Any:
    """EN 1995-1-1 eq. 7.5 of a strip of one metre, in our units: the same simple beam with even mass."""
    newton, metre, g = 1.0 / 4.4482216152605, 1000.0 / MM, 386.1 * MM / 1000.0
    EI = given["EI_Nm2_per_m"] * newton * metre**2
    W = given["m_kg_per_m2"] * given["l_m"] * g * newton
    return fl.floor_frequency(E=EI, I=1.0, W=W, L=given["l_m"] * metre)


def vibration_1kN(given: Given, quantity: str) -> Any:
    return MM * fl.allowed_under_1_kn(L=given["L_m"] * 1000.0 / MM)


KINDS: dict[str, Callable[[Given, str], Any]] = {
    "snow22_drift": snow_drift,
    "snow22_unbalanced": snow_unbalanced,
    "snow_unbalanced_wide": snow_unbalanced,
    "snow_unbalanced_narrow": lambda given, quantity: snow_unbalanced(given, quantity, simple=True),
    **{one.__name__: one for one in (
        snow_flat, snow_exposure, snow_thermal, snow_minimum, snow_slope_factor, snow_sloped, snow_rain, snow_density,
        snow_drift_height, snow_drift, drift_on_rafter, snow_ridge_beam, snow_sliding, snow_eaves, snow_partial,
        snow22_thermal, snow22_drift_height, snow22_minimum, snow22_asd, roof_live, roof_live_irc, wind_kz, wind_q,
        wind_speed, wind_free_roof, wind_free_roof_envelope, wind_free_roof_cc, wind_canopy, wind_cc_enclosed_irc2018,
        uplift_connection_irc, net_uplift, live_use, live_point, live_reduction, dead_sum, dead_assembly, dead_framing,
        dead_on_plan, dead_thin, deflection_code_total, deflection_final, deflection_limit, ponding_slope,
        ponding_stability, vibration_frequency, vibration_system, vibration_ec5, vibration_1kN,
    )},
}  # fmt: skip


@pytest.mark.parametrize("id", ROWS)
def test_a_published_row(id: str) -> None:
    row = ROWS[id]
    given = json.loads(row["inputs"])
    found = KINDS[row["kind"]](given, row["quantity"])
    if row["expected"] in NONE:
        assert found is NONE, f"{row['source']} ({row['how']})"
        return
    tolerance = float(row["tolerance"] or 1e-9)
    assert found == pytest.approx(float(row["expected"]), abs=tolerance), f"{row['source']} ({row['how']})"
