"""Heavy joints, row by row: joint_worked_values.csv names source and `how` of each row.

Inches, pounds, psi, degrees. Design values in the inputs are given numbers, no claims about a grade.
"""

from __future__ import annotations

import csv
import json
import math
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

import beamcheck as bc
from beamcheck.calc.pad import Pad
from beamcheck.formulas.connections import bolt_pattern, dowel_bearing, group_action, lateral, tear_out
from beamcheck.formulas.joints import (
    bases,
    girders,
    inclined_screws,
    king_posts,
    ledgers,
    pegs,
    posts,
    prying,
    slip,
    steps,
    tenons,
)  # fmt: skip
from beamcheck.formulas.movement import shrinkage
from beamcheck.formulas.steel import bending as steel_bending
from beamcheck.formulas.steel import holes, plates
from beamcheck.formulas.wood import bearing, combined, compression, section, shear
from beamcheck.values.judgment import judgment

TABLE = Path(__file__).parent / "joint_worked_values.csv"
with TABLE.open(newline="", encoding="utf-8") as file:
    ROWS = list(csv.DictReader(file))

Given = Any
K_V = judgment("largest over mean shear behind a step").value


def member_tie(i: Given) -> dict[str, float]:
    net = i["b"] * (i["d"] - i["hole_across_depth"])
    f_t = combined.tension_stress(i["T"], net)
    f_b = i["w"] * i["span"] ** 2 / 8 / section.rectangle_modulus(i["b"], i["d"])
    return {
        "f_t on": f_t,
        "ratio f_t/F_t'": combined.bending_and_tension(f_t, i["F_t_prime"], f_b, i["F_b_star"]),
        "ratio (f_b": combined.bending_less_tension(f_b, f_t, i["F_b_starstar"]),
    }


def top_chord(i: Given) -> dict[str, float]:
    b, d = i["b"], i["d"]
    F_cE1, F_cE2 = (
        compression.critical_buckling_column(i["E_min_prime"], length, depth)
        for length, depth in ((i["l_e_in_plane"], d), (i["l_e_out_of_plane"], b))
    )
    C_P = compression.column_stability(min(F_cE1, F_cE2), i["F_c_star"], i["c"])
    f_b = i["M"] / section.rectangle_modulus(b, d)
    ratio = combined.bending_and_compression_one_way(i["P"] / (b * d), C_P * i["F_c_star"], f_b, i["F_b1_prime"], F_cE1)
    return {"C_P": C_P, "ratio, NDS 3.9-3": ratio}


def step(i: Given) -> dict[str, float]:
    beta, found = i["beta_deg"], {"greatest notch depth": steps.deepest_step(i["tie_depth"], i["beta_deg"])}
    if "N_rafter" not in i:
        return found
    N, b, t = i["N_rafter"], i["width"], i["t_v"]
    T, V = N * math.cos(math.radians(beta)), N * math.sin(math.radians(beta))
    shear_stress = steps.step_shear(T, b, steps.step_shear_length(i["l_v"], t), K_V)
    return found | {
        "pressure on the front face": steps.step_on_bisector(N, beta, b, t),
        "allowable pressure at beta/2": bearing.bearing_at_angle(i["F_c_star"], i["F_c_perp_prime"], beta / 2),
        "shear ratio": shear_stress / i["F_v_prime"],
        "least l_v": steps.step_length_needed(T, b, i["F_v_prime"], K_V),
        "moment on the net section": steps.moment_under_step(T, i["tie_depth"], V, i.get("x_R", 0.0)),
        "face square to the rafter: pressure": steps.step_square(N, beta, b, t),
        "face square to the rafter: allowable": bearing.bearing_at_angle(i["F_c_star"], i["F_c_perp_prime"], beta),
    }


def examination(i: Given) -> dict[str, float]:
    """In kN and mm: the formulas take any units that fit."""
    slope = math.degrees(math.atan2(i["rise_m"], i["half_span_m"]))
    N = i["P_kN"] / 2 / math.sin(math.radians(slope))
    T, b, psi = N * math.cos(math.radians(slope)), i["width_mm"] / 25.4, 1 / 145.037738
    lbf = 1000 / 4.4482216
    return {
        "push in each": N,
        "level force": T,
        "length behind": 25.4 * steps.step_length_needed(T * lbf, b, i["F_v_MPa"] / psi, 1.0),
        "notch depth": 25.4 * steps.step_square(N * lbf, slope, b, 1.0) * psi / i["F_c_MPa"],
        "axial stress": 1000 * N / (i["width_mm"] * i["depth_mm"]),
    }


def two_faces(i: Given) -> dict[str, float]:
    given = i["F"], i["A_strut"], i["phi_deg"]
    return {
        "pressure on the steep": steps.let_in_steep_face(*given),
        "pressure on the flat": steps.let_in_flat_face(*given),
    }


def peg_strength(i: Given) -> dict[str, float]:
    return {
        "F_e parallel": pegs.peg_bearing_parallel(i["G_peg"]),
        "F_e perp": pegs.peg_bearing_perpendicular(i["G_peg"], i["G_timber"]),
        "F_yb": pegs.peg_bending_yield(i["G_peg"]),
        "F_vy": pegs.peg_shear_strength(i["G_peg"], i["G_timber"]),
    }


def peg_z(i: Given) -> dict[str, float]:
    found = bc.peg_value(
        f"{i['D']} in", peg=i["G_peg"], timber=i["G_timber"], tenon=f"{i['t_tenon']} in", cheek=f"{i['t_cheek']} in",
        tenon_angle=f"{i['theta_tenon']} deg", cheek_angle=f"{i['theta_cheek']} deg",
    )  # fmt: skip
    modes = {step.symbol: float(step.value) for step in found.steps}
    named = {f"Z mode {mode}": modes[f"Z_{mode}"] for mode in ("Im", "IIIs", "IV", "V")}
    mode = found.note.split(";")[0].removeprefix("mode ")
    return named | {f"Z (mode {mode})": float(found)}


def peg_places(i: Given) -> dict[str, float]:
    needed = bc.peg_distances(i["species"])
    return {
        "least end": needed.end * i["D"],
        "least edge": needed.edge * i["D"],
        "least spacing": needed.spacing * i["D"],
        "tear-out": tear_out.row_tear_out(float(i["n_pegs"]), i["F_v_prime"], float(i["t_tenon"]), needed.end * i["D"]),
    }


def tenon(i: Given) -> dict[str, float]:
    return {
        "V at the tenon": shear.end_notch_tension_shear(
            i["F_v_prime"], i["tenon_thickness"], i["d"], i["tenon_depth_left"]
        ),
        "V at the housing": tenons.housing_capacity(i["F_c_perp_prime"], i["b"], i["housing_depth"]),
    }  # fmt: skip


def lap(i: Given) -> dict[str, float]:
    main, side = (
        lateral.wood_bearing(Pad(), G=i["G"], D_nom=i["D"], theta=i[f"theta_{each}"]) for each in ("main", "side")
    )
    assert dowel_bearing.as_tabulated(dowel_bearing.dowel_bearing_perpendicular(i["G"], i["D"])) == i["Fe_perp"]
    rule = lateral.single_shear if i["shear"] == "single" else lateral.double_shear
    found = rule(
        Pad(), D=i["D"], D_nom=i["D"], l_m=i["l_m"], l_s=i["l_s"], F_em=main, F_es=side, F_yb=i["F_yb"],
        theta=max(i["theta_main"], i["theta_side"]),
    )  # fmt: skip
    return {"F_e,theta main": main, "F_e,theta side": side, f"Z (mode {found.mode})": found.Z}


def knife(i: Given) -> dict[str, float]:
    F_es = lateral.wood_bearing(Pad(), G=i["G"], D_nom=i["D"], theta=i["theta"])
    common = {"D_nom": i["D"], "l_m": i["plate"], "l_s": i["cheek"], "F_em": i["F_e_plate"], "F_es": F_es,
              "F_yb": i["F_yb"], "theta": i["theta"]}  # fmt: skip
    g = i["gap_each_side"]
    found = (
        lateral.shear_across_gap(Pad(), two_planes=True, D_m=i["D"], D_s=i["D"], g=g, **common)
        if g
        else lateral.double_shear(Pad(), D=i["D"], **common)
    )
    return {f"Z (mode {found.mode})": found.Z}


def group(i: Given) -> dict[str, float]:
    found = bc.turned_group(
        x=[f"{at} in" for at in i["x"]], y=[f"{at} in" for at in i["y"]], upright=f"{-i['V']} lb",
        moment=f"{-i['V'] * i['e']} lb*in", grain="0 deg" if i["grain"] == "level" else "90 deg", bolt=f"{i['D']} in",
        cheek=f"{i['cheek']} in", plate=f"{i['plate']} in", wood=i["G"], F_yb=i["F_yb"], F_plate=i["Fe_plate"],
    )  # fmt: skip
    return {
        "force on the worst bolt": found.forces[found.worst],
        "its angle": found.angles[found.worst],
        "ratio, C_D": found.ratio,
    }


def couple(i: Given) -> dict[str, float]:
    if "V_left" in i:
        return {"moment put into": posts.couple_of_two(i["V_left"], i["e_left"], i["V_right"], i["e_right"])}
    V, e, height = i["V"], i["e_from_post_axis"], i["post_height"]
    return {
        "level force": posts.couple_at_ends(V, e, height),
        "larger post moment": posts.couple_in_post(V, e, height, i["height_of_joint"]),
    }


def base(i: Given) -> dict[str, float]:
    f_c = i["P_down"] / bases.end_grain_less_slot(i["b"], i["d"], i["slot"])
    return {"pressure on the end": f_c, "share of 0.75": bearing.end_grain_bearing_ratio(f_c, i["F_c_star"]) / 0.75}


def stem(i: Given) -> dict[str, float]:
    b, t = i["stem_width"], i["stem_thickness"]
    allowed = steel_bending.bar_bending(i["F_y"], steel_bending.bar_plastic_modulus(b, t), b * t**2 / 6)
    return {
        "bending ratio": bases.stem_moment(i["V"], i["standoff"]) / allowed,
        "l/r of the stem": bases.stem_slenderness(i["standoff"], t),
    }


def uplift(i: Given) -> dict[str, float]:
    Z = next(iter(knife(i | {"F_e_plate": 87000.0, "theta": 0.0, "gap_each_side": 0.0, "F_yb": 45000.0}).values()))
    s_crit = tear_out.critical_spacing(i["end_distance"], i["spacing"])
    return {
        "n Z C_D": i["n"] * Z * i["C_D"],
        "row tear-out": tear_out.row_tear_out(float(i["n"]), i["F_v_prime"], 2 * i["cheek"], s_crit),
    }


def girder(i: Given) -> dict[str, float]:
    d_e = shear.connection_depth(i["d"], i["c_u"])
    return {
        "V_r' within": shear.connection_shear_near_end(i["F_v_prime"], i["b"], i["d"], d_e),
        "V_r' 5d or more": 2 * i["F_v_prime"] * i["b"] * d_e / 3,
    }


def splitting(i: Given) -> dict[str, float]:
    b, h_e, h = (i[each] / 25.4 for each in ("b_mm", "h_e_mm", "h_mm"))
    return {"F_90,Rk": 4.4482216 * girders.splitting_strength(b, h, h_e)}


def screw(i: Given) -> dict[str, float]:
    given = float(i["n"]), i["T_report"], i["alpha_deg"]
    slip_force = inclined_screws.inclined_slip_force(*given)
    return {"slip force": slip_force, "pressing force": inclined_screws.inclined_pressing_force(*given)}


def ledger(i: Given) -> dict[str, float]:
    R = ledgers.ledger_on_stud(1.25 if i["spans"] == 2 else 1.143, i["w_line"], i["stud_spacing"])
    pull = ledgers.ledger_pull(R, i["e_from_wood_face"], i["arm_lowest_contact_to_top_row"])
    return {"vertical load": R, "pull on the top": pull}


def ledger_table(i: Given) -> dict[str, float]:
    return {"load a fastener": i["load_psf"] * i["joist_span_ft"] / 2 * i["printed_spacing_in"] / 12}


def anchor(i: Given) -> dict[str, float]:
    F_es = lateral.wood_bearing(Pad(), G=i["G"], D_nom=i["D"], theta=i["theta"])
    found = lateral.single_shear(
        Pad(), D=i["D"], D_nom=i["D"], l_m=i["embedment"], l_s=i["l_s"], F_em=i["Fe_concrete"], F_es=F_es,
        F_yb=i["F_yb"], theta=i["theta"],
    )  # fmt: skip
    return {f"Z (mode {found.mode})": found.Z}


def pried(i: Given) -> dict[str, float]:
    B, p, F_u, D = i["B_bolt_allowable"], i["p"], i["F_u"], i["d_bolt"]
    b_p, a_p = prying.prying_arm(i["b"], D), prying.prying_lever(i["a"], i["b"], D)
    delta, t_c = prying.prying_net_share(i["d_hole"], p), prying.prying_full_thickness(B, b_p, p, F_u)
    alpha = prying.prying_share(t_c, i["t"], delta, b_p, a_p)
    return {
        "allowable pull": prying.pull_with_prying(B, i["t"], t_c, delta, alpha),
        "plate thickness": prying.thickness_without_prying(i["T"], b_p, p, F_u),
    }


def king_head(i: Given) -> dict[str, float]:
    N, slope, b = i["N_rafter"], i["slope_deg"], i["width"]
    return {
        "pressure on the shoulder": king_posts.shoulder_pressure(N, b, i["rafter_depth"]),
        "allowable in the post": bearing.bearing_at_angle(i["F_c_star"], i["F_c_perp_prime"], 90 - slope),
        "shear ratio": king_posts.shear_above_shoulder(N, slope, b, i["length_above_shoulder"], K_V) / i["F_v_prime"],
    }


def king_strap(i: Given) -> dict[str, float]:
    F_em = lateral.wood_bearing(Pad(), G=i["G"], D_nom=i["D"], theta=0.0)
    found = lateral.double_shear(
        Pad(), D=i["D"], D_nom=i["D"], l_m=i["l_m"], l_s=i["strap_thickness"], F_em=F_em, F_es=i["Fe_strap"],
        F_yb=45000.0, theta=0.0,
    )  # fmt: skip
    hole = holes.net_hole_width(holes.standard_hole(i["D"]))
    net = tear_out.area_less_holes(2 * i["strap_width"] * i["strap_thickness"], 2.0, hole, i["strap_thickness"])
    return {
        f"Z a bolt (mode {found.mode})": found.Z,
        "pressure of the strap": bearing.bearing_stress(i["T"], i["strap_width"], i["tie_width"]),
        "strap rupture": plates.tension_rupture(58000.0, net),
    }


def splice(i: Given) -> dict[str, float]:
    D, l_m, n, rows = i["D"], i["l_m"], float(i["n_in_row"]), float(i["rows"])
    F_em = lateral.wood_bearing(Pad(), G=i["G"], D_nom=D, theta=0.0)
    Z = lateral.double_shear(
        Pad(), D=D, D_nom=D, l_m=l_m, l_s=i["plate"], F_em=F_em, F_es=87000.0, F_yb=45000.0, theta=0.0
    ).Z  # fmt: skip
    A_m, A_s = i["b"] * i["d"], 2 * i["plate"] * i["d"]
    gamma = group_action.load_slip_metal(D)
    u = group_action.group_u(gamma, i["spacing"], i["E"], A_m, i["E_steel"], A_s)
    R_EA = group_action.stiffness_ratio(i["E"], A_m, i["E_steel"], A_s)
    C_g = group_action.group_action_factor(group_action.group_m(u), n, R_EA)
    row = tear_out.row_tear_out(n, i["F_v_prime"], l_m, tear_out.critical_spacing(i["end_distance"], i["spacing"]))
    hole = tear_out.bolt_hole(D)
    between = tear_out.area_between_rows(rows, i["row_spacing"], hole, l_m)
    return {
        "C_g": C_g,
        "bolts: n rows": n * rows * Z * i["C_D"] * C_g,
        "net section": tear_out.net_section_tension(i["F_t_prime"], tear_out.area_less_holes(A_m, rows, hole, l_m)),
        "row tear-out": rows * row,
        "group tear-out": tear_out.group_tear_out(row, row, i["F_t_prime"], between),
    }


def stiffness(i: Given) -> dict[str, float]:
    gamma = group_action.load_slip_metal(i["D"])
    I_p = float(bolt_pattern.polar_sum(*bolt_pattern.about_centroid(i["x"], i["y"])))
    return {"load/slip modulus": gamma, "turning stiffness": slip.group_turning_stiffness(gamma, I_p)}


def play(i: Given) -> dict[str, float]:
    """Virtual work: 1 lb at the foot of a king post pulls the post with 1 and the tie with L/(4 H), at their joints."""
    return {"drop of the post": 2 * i["play"] * (1 + i["span"] / (4 * i["rise"]))}


METHODS: dict[str, Callable[[Given], dict[str, float]]] = {
    "member.tie": member_tie,
    "member.top_chord": top_chord,
    "member.brace_point": lambda i: {"sideways": slip.brace_point_force(i["share"], i["P"])},
    "member.eccentric_joint": lambda i: {"moment thrown": slip.moment_of_missed_axes(i["chord_force_jump"], i["e"])},
    "step.single": step,
    "step.faces": step,
    "step.two_faces": two_faces,
    "step.double": lambda i: {"greatest front": steps.front_of_double_step(i["t_v_heel"])},
    "step.published": examination,
    "peg.strength": peg_strength,
    "peg.Z": peg_z,
    "peg.distances": peg_places,
    "peg.tear_out": peg_places,
    "tenon.shear": tenon,
    "lap.angle": lap,
    "rafter.foot": lambda i: {
        "pressure on the seat": bearing.bearing_stress(i["R"], i["b"], i["seat_length"]),
        "allowable in the rafter": bearing.bearing_at_angle(i["F_c_star"], i["F_c_perp_prime"], 90 - i["slope_deg"]),
    },
    "knife.Z": knife,
    "group.eccentric": group,
    "post.couple": couple,
    "base.bearing": base,
    "base.stem": stem,
    "base.uplift": uplift,
    "girder.connection_shear": girder,
    "girder.splitting": splitting,
    "screw.inclined": screw,
    "ledger.published": ledger_table,
    "ledger.studs": ledger,
    "concrete.wood_side": anchor,
    "steel.prying": pried,
    "king.head": king_head,
    "king.strap": king_strap,
    "tie.splice": splice,
    "joint.stiffness": stiffness,
    "joint.play": play,
    "joint.movement": lambda i: {
        "loss of depth": -shrinkage.movement_linear(
            i["C_per_percent"], i["change_percent"], 0.0, i["length_across_grain"]
        )
    },
    "frame.gap_sway": lambda i: {
        "free sway": slip.sway_of_gap(i["gap"], i["height"], i["b"], math.degrees(math.atan2(i["b"], i["a"])))
    },
}  # fmt: skip


@pytest.mark.parametrize("row", ROWS, ids=[row["id"] for row in ROWS])
def test_the_row(row: dict[str, str]) -> None:
    found = METHODS[row["kind"]](json.loads(row["inputs"]))
    (value,) = [value for words, value in found.items() if row["quantity"].startswith(words)]
    tolerance = row["tolerance"]
    allowed = {"abs": float(tolerance[4:])} if tolerance.startswith("abs") else {"rel": float(tolerance)}
    assert float(value) == pytest.approx(float(row["expected"]), **allowed), row["source"]
