"""Frames, row by row: frame_worked_values.csv names source and `how` of each row.

N tension +, M of bars sagging +. Rows were made by two other methods (joints or stiffness, and complementary energy);
closed forms are those of the notes on frames, most confirmed by print.
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

from beamcheck.analysis.frames.buckling import critical_factor
from beamcheck.analysis.site.snow import one_sided_snow
from beamcheck.calc.pad import SilentPad
from beamcheck.formulas.loads.drift import drift_height, snow_density

from .frame_forms import PIN, ROLLER, Form, bent, king_post, queen_post, rafter_pair

TABLE = Path(__file__).parent / "frame_worked_values.csv"
with TABLE.open(newline="", encoding="utf-8") as file:
    ROWS = list(csv.DictReader(file))

Given = Any
DOWN = -1.0


def king(i: Given) -> dict[str, float]:
    s = king_post(i["span"], i["rise"]).solved(
        {"D": (0, -i["P_left"]), "E": (0, -i["P_right"]), "R": (0, -i["P_ridge"]), "C": (0, -i["P_foot"])}
    )
    return {
        "N lower rafter, left": s.N("AD"), "N upper rafter, left": s.N("DR"), "N tie beam": s.N("AC"),
        "N left strut": s.N("DC"), "N king post": s.N("CR"), "N lower rafter, right": s.N("BE"),
        "vertical reaction left": s.reaction("A")[1],
    }  # fmt: skip


def queen(i: Given) -> dict[str, float]:
    P, Q = i.get("P_head", 0.0), i.get("Q_foot", 0.0)
    one = i.get("P_left_head")
    forces = {"E": (0, -one)} if one else {"E": (0, -P), "F": (0, -P), "C": (0, -Q), "D": (0, -Q)}
    s = queen_post(i["span"], i["a"], i["height"]).solved(forces)
    return {
        "N rafter": s.N("AE"), "N tie": s.N("AC"), "N straining": s.N("EF"), "N queen post": s.N("CE"),
        "N left queen post": s.N("CE"), "bending moment in tie": s.M("AC", 1.0),
    }  # fmt: skip


def w_truss(i: Given) -> dict[str, float]:
    L, H = i["span"], i["rise"]
    form = Form(
        {"A": (0, 0), "B": (L, 0), "C": (L / 3, 0), "D": (2 * L / 3, 0), "E": (L / 4, H / 2), "F": (0.75 * L, H / 2),
         "R": (L / 2, H)}, {"A": PIN, "B": ROLLER},
    )  # fmt: skip
    form.pinned("AE", "ER", "BF", "FR", "AC", "CD", "DB", "EC", "FD", "CR", "DR")
    P, Q = i["P_top"], i["Q_bottom"]
    s = form.solved({**dict.fromkeys("ERF", (0, -P)), **dict.fromkeys("CD", (0, -Q))})
    return {
        "N lower rafter": s.N("AE"), "N upper rafter": s.N("ER"), "N tie, outer": s.N("AC"),
        "N tie, middle": s.N("CD"), "N strut": s.N("EC"), "N inner tie": s.N("CR"),
    }  # fmt: skip


def scissor(i: Given) -> dict[str, float]:
    L, H = i["span"], i["rise"]

    def made(right: dict[str, bool]) -> Any:
        form = Form(
            {
                "A": (0, 0),
                "B": (L, 0),
                "D": (L / 4, H / 2),
                "E": (0.75 * L, H / 2),
                "R": (L / 2, H),
                "C": (L / 2, H / 3),
            },
            {"A": PIN, "B": right},
        )
        form.pinned("AD", "DR", "BE", "ER", "AC", "CE", "BC", "CD", "CR", EA=i["EA_all"])
        return form.solved({"R": (0, -i["P_ridge"]), "D": (0, -i["P_left_mid"]), "E": (0, -i["P_right_mid"])})

    s, held = made(ROLLER), made(PIN)
    return {
        "N lower rafter, left": s.N("AD"), "N upper rafter": s.N("DR"), "N bottom chord, heel": s.N("AC"),
        "N bottom chord, crossing": s.N("CE"), "N king post": s.N("CR"), "spread": s.moved("B")[0],
        "outward thrust": held.reaction("A")[0],
    }  # fmt: skip


def printed_truss(i: Given) -> dict[str, float]:
    if "nodes_m" in i:
        form = Form({k: tuple(v) for k, v in i["nodes_m"].items()}, {i["pin"]: PIN, i["roller"]: ROLLER})
        form.pinned(*i["bars"])
        s = form.solved(i["loads_kN"])
        return {f"reaction at {n}": s.reaction(n)[1] for n in (i["pin"], i["roller"])} | {
            f"N in {bar}": s.N(bar) for bar in i["bars"]
        }
    if "panel_load" in i:
        n, P = 6, i["panel_load"]
        rise, bay = 100.0, 50.0  # any pitch
        nodes = {chr(97 + k): (k * bay, 0.0) for k in range(n + 1)}
        nodes |= {chr(65 + k): (k * bay, rise * min(k, n - k) / 3) for k in range(1, n)}
        form = Form(nodes, {"a": PIN, "g": ROLLER})
        form.pinned("aB", "BC", "CD", "DE", "EF", "Fg", "ab", "bc", "cd", "de", "ef", "fg")
        form.pinned("bB", "cC", "dD", "eE", "fF", "Bc", "Cd", "Ed", "Fe")
        s = form.solved(dict.fromkeys("BCDEF", (0, -P)) | dict.fromkeys("ag", (0, -P / 2)))
        return {
            "load on one": i["joint_spacing_trusses_ft"] * i["bay_ft"] * i["load_psf"],
            "reaction": s.reaction("a")[1],
            "pull in the middle": s.N("dD"),
        }
    P = i["load_psf_plan"] * i["spacing_ft"] * i["panel_ft"]
    panel = i["panel_ft"]
    form = king_post(4 * panel, panel)
    s = form.solved(dict.fromkeys("DER", (0, -P)) | dict.fromkeys("AB", (0, -P / 2)))
    return {"joint load": P, "tension in the lower": s.N("AC")}


def sag(i: Given) -> dict[str, float]:
    EA = {name: i[f"EA_{name}"] for name in ("rafter", "tie", "strut", "post")}
    form = king_post(i["span"], i["rise"], EA)
    if joints := i.get("joint_stiffness"):
        form.change("AC", slip_start=joints["heel_each"])
        form.change("CB", slip_end=joints["heel_each"])
        form.change("CR", slip_start=joints["post_foot"], slip_end=joints["post_head"])
    s = form.solved(dict.fromkeys("DER", (0, -i["P"])))
    return {"drop of the foot": -s.moved("C")[1]}


def collar_free(i: Given) -> dict[str, float]:
    form = rafter_pair(i["span"], i["rise"], collar=i["collar_height"])
    s = form.solved({}, dict.fromkeys(("AP", "PR", "BQ", "QR"), i["w_plan"]))
    return {
        "N collar": s.N("PQ"), "moment in rafter": s.M("AP", 1.0), "N rafter just above the foot": s.N("AP"),
        "N rafter just above the collar": s.N("PR"),
    }  # fmt: skip


def collar_held(i: Given) -> dict[str, float]:
    k = i.get("wall_stiffness")
    foot = {"ux": float(k), "uy": True} if k else PIN
    form = rafter_pair(
        i["span"], i["rise"], collar=i["collar_height"], left=foot, right=foot, EA=i["EA_rafter"], EI=i["EI_rafter"]
    )
    s = form.solved({}, dict.fromkeys(("AP", "PR", "BQ", "QR"), i["w_plan"]))
    return {
        "N collar": s.N("PQ"), "outward thrust": s.reaction("A")[0], "outward movement": -s.moved("A")[0],
        "moment in rafter": s.M("AP", 1.0),
    }  # fmt: skip


def tie_at_feet(i: Given) -> dict[str, float]:
    s = rafter_pair(i["span"], i["rise"], tie=True).solved({}, dict.fromkeys(("AR", "BR"), i["w_plan"]))
    return {"N tie": s.N("AB"), "largest moment": s.M("AR", 0.5)}


def three_hinges(i: Given) -> dict[str, float]:
    form = rafter_pair(i["span"], i["rise"], right=PIN)
    s = form.solved({}, {"AR": i["w_plan_left"], "BR": i["w_plan_right"]})
    x, y = s.reaction("A")
    ridge = i["w_plan_left"] * i["span"] / 2 - y
    return {"horizontal thrust": x, "vertical reaction left": y, "vertical force through": abs(ridge)}


def knees(i: Given, braces: str = "both") -> dict[str, float]:
    form = bent(i["span"], i["height"], i["a"], i["b"], braces=braces)
    H = i["H_total"] / 2
    s = form.in_contact({"C": (H, 0), "D": (H, 0)}) if braces == "push" else form.solved({"C": (H, 0), "D": (H, 0)})
    return {
        "size of N": abs(s.N("JK")), "size of N in the lee": abs(s.N("JK")), "post moment": abs(s.M("BJ", 1.0)),
        "lee post moment": abs(s.M("BJ", 1.0)), "size of the vertical": abs(s.reaction("B")[1]),
        "horizontal force on each": abs(s.along("V", "JD", 0.5)) if braces == "both" else 0.0,
        "horizontal reaction at the windward": s.reaction("A")[0],
    }  # fmt: skip


def head_force(i: Given) -> dict[str, float]:
    """The level force between head and beam: what the post head takes less the load on it."""
    found = knees(i)
    found["horizontal force on each"] = found["horizontal force on each"]
    return found


def drift(i: Given) -> dict[str, float]:
    slip = np.inf if i["k_brace_end"] == "rigid" else float(i["k_brace_end"])
    form = bent(
        i["span"], i["height"], i["a"], i["b"], EI_post=i["EI_all"], EI_beam=i["EI_all"], EA=i["EA_posts_beam"],
        EA_brace=i["EA_brace"], slip=slip,
    )  # fmt: skip
    H = i["H_total"] / 2
    return {"drift of the beam": form.solved({"C": (H, 0), "D": (H, 0)}).moved("C")[0]}


def braced_gravity(i: Given) -> dict[str, float]:
    EI = i["EI_posts_beam"]
    form = bent(
        i["span"], i["height"], i["a"], i["b"], EI_post=EI, EI_beam=EI, EA=i["EA_posts_beam"], EA_brace=i["EA_brace"]
    )
    s = form.solved({}, dict.fromkeys(("CH", "HK", "KD"), i["w"]))
    return {
        "N brace": s.N("GH"), "outward push": abs(s.reaction("A")[0]), "beam moment at mid": s.M("HK", 0.5),
        "beam moment over": s.M("HK", 0.0), "post moment": abs(s.M("AG", 1.0)),
    }  # fmt: skip


def hammer(i: Given) -> dict[str, float]:
    L, h, out, w = i["span"], i["post_height_A_to_B"], i["hammer_beam"], i["w_plan"]
    slope = math.tan(math.radians(i["slope_deg"]))
    nodes = {
        "A": (0.0, 0.0),
        "B": (0.0, h),
        "C": (out, h),
        "D": (out, h + out * slope),
        "R": (L / 2, h + L / 2 * slope),
    }
    path, collar = "BDR", i["collar_above_B"]
    if collar is not None:
        nodes["E"], path = (collar / slope, h + collar), "BDER"
    mirror = {name.lower(): (L - x, y) for name, (x, y) in nodes.items() if name != "R"}
    form = Form(nodes | mirror, {"A": PIN, "a": PIN})  # type: ignore[arg-type]
    form.stick(path, i["EA_all"], i["EI_rafter"], "both")
    form.stick(path.lower().replace("r", "R"), i["EA_all"], i["EI_rafter"], "both")
    form.pinned("AB", "BC", "AC", "CD", "ab", "bc", "ac", "cd", EA=i["EA_all"])
    if collar is not None:
        form.pinned("Ee", EA=i["EA_all"])
    rafters = [
        name for name in form.by_name if name[0] + name[1] not in ("AB", "BC", "AC", "CD", "ab", "bc", "ac", "cd", "Ee")
    ]
    s = form.solved({}, dict.fromkeys(rafters, w))
    return {
        "outward thrust": s.reaction("A")[0], "N collar": s.N("Ee") if collar is not None else 0.0,
        "moment in rafter at collar": s.M("DE", 1.0) if collar is not None else 0.0, "N hammer brace": s.N("AC"),
        "N hammer beam": s.N("BC"), "moment in rafter at hammer": s.M("BD", 1.0), "N hammer post": s.N("CD"),
    }  # fmt: skip


def semi_rigid(i: Given) -> dict[str, float]:
    L, k = i["L"], i["k_theta"]
    clamp = {"ux": True, "uy": True, "rz": True}
    form = Form({"A": (0, 0), "B": (L, 0)}, {"A": clamp, "B": clamp})
    form.stick("AB", 1e8, i["EI"])
    form.change("AB", turn_start=k, turn_end=k)
    s = form.solved({}, {"AB": i["w"]})
    return {"end moment": abs(s.M("AB")), "mid-span": s.M("AB", 0.5)}


def second_order(i: Given) -> dict[str, float]:
    """The factor 1/(1 - P/P_e), P_e by the critical load of the frame; and the secant form, typed."""
    L, w, EI, P = i["L"], i["w"], i["EI"], i["P"]
    form = Form({"A": (0, 0), "B": (L, 0)}, {"A": PIN, "B": ROLLER})
    form.stick("AB", 1e8, EI)
    factor = critical_factor(form.frame(), np.array([-P]))
    u = L / 2 * math.sqrt(P / EI)
    return {
        "mid-span moment": w * EI / P * (1 / math.cos(u) - 1),
        "moment by the factor": form.solved({}, {"AB": w}).M("AB", 0.5) / (1 - 1 / factor),
    }


def printed_frame(i: Given) -> dict[str, float]:
    form = i.get("form", "")
    if "three-member rigid portal" in form:
        L, h, P = i["span"], i["height"], i["P"]
        portal = Form({"A": (0, 0), "B": (0, h), "C": (L, h), "D": (L, 0)}, {"A": PIN, "D": PIN})
        for path in ("AB", "BC", "CD"):
            portal.stick(path, 1e12, 1e8)
        s = portal.solved({"B": (P, 0)})
        return {"vertical reaction": abs(s.reaction("A")[1]), "corner moment": abs(s.M("AB", 1.0))}
    if "L frame" in form:
        h, L, x = i["height"], i["span"], i["x_from_far_end"]
        frame = Form({"A": (0, 0), "B": (0, h), "P": (L - x, h), "C": (L, h)}, {"A": PIN, "C": PIN})
        frame.stick("AB", 1e13, 1e8)
        frame.stick("BPC", 1e13, 1e8 * i["I_beam_over_I_column"])
        return {"horizontal reaction": abs(frame.solved({"P": (0, -i["P"])}).reaction("A")[0])}
    if "trussed by one strut" in form:
        a, h, P = i["half_length"], i["strut"], i["P"]
        beam = Form({"A": (0, 0), "M": (a, 0), "B": (2 * a, 0), "S": (a, -h)}, {"A": PIN, "B": ROLLER})
        beam.stick("AMB", 1e12, 1e7)
        beam.pinned("MS", "AS", "SB", EA=1e12)
        s = beam.solved({}, dict.fromkeys(("AM", "MB"), P / (2 * a)))
        return {"push in the strut": -s.N("MS"), "pull in the rod": s.N("AS")}
    if "three hinges" in form:
        pair = rafter_pair(i["span_m"], i["rise_m"], right=PIN)
        s = pair.solved({}, {"AR": i["w_left_t_per_m"], "BR": i["w_right"]})
        return {"horizontal thrust": s.reaction("A")[0]}
    if "pitched portal" in form:
        L, h, f = i["span_m"], i["eaves_height_m"], i["rise_m"]
        portal = Form({"A": (0, 0), "E": (0, h), "R": (L / 2, h + f), "F": (L, h), "B": (L, 0)}, {"A": PIN, "B": PIN})
        for path, I_x in (
            ("AE", i["I_column_over_I_rafter"]),
            ("ER", 1.0),
            ("BF", i["I_column_over_I_rafter"]),
            ("FR", 1.0),
        ):
            portal.stick(path, 1e9, I_x * 1e3)
        s = portal.solved({}, {"ER": i["w_kN_per_m"], "FR": i["w_kN_per_m"]})
        return {"moment at the knee": abs(s.M("ER")), "moment at the apex": s.M("ER", 1.0)}
    thrust = (i["ground_snow_psf"] + i["dead_psf"]) * i["spacing_in"] / 12 * i["span_ft"] ** 2
    rise = i["span_ft"] / 2 * float(i["slope"].split()[0]) / 12
    pair = rafter_pair(i["span_ft"], rise, tie=True)
    w = (i["ground_snow_psf"] + i["dead_psf"]) * i["spacing_in"] / 12
    H = pair.solved({}, dict.fromkeys(("AR", "BR"), w)).N("AB")
    assert pytest.approx(thrust / 8 / rise) == H
    return {"thrust at the heel": H, "thrust a nail": H / 7}


def sway(i: Given) -> dict[str, float]:
    slip = np.inf if i["k_brace_end"] == "rigid" else float(i["k_brace_end"])
    form = bent(
        i["span"], i["height"], i["a"], i["b"], EI_post=i["EI_post"], EI_beam=i["EI_beam"], EA=i["EA_posts_beam"],
        EA_brace=i["EA_brace"], slip=slip, braces="lee" if "only the lee" in i["form"] else "both",
    )  # fmt: skip
    N = np.zeros(len(form.bars))
    N[[form.by_name[name] for name in ("AG", "GC", "BJ", "JD")]] = -1.0
    P = critical_factor(form.frame(), N)
    K = math.sqrt(math.pi**2 * i["EI_post"] / P)
    return {"elastic critical": P, "K on the full": K / i["height"], "K on the part": K / (i["height"] - i["b"])}


def collar_buckling(i: Given) -> dict[str, float]:
    form = rafter_pair(
        i["span"], i["rise"], collar=i["collar_height"], EA=i["EA_rafter"], EI=i["EI_rafter"],
        right=ROLLER if "roller" in i["form"] else PIN,
    )  # fmt: skip
    N = np.array([-1.0 if name != "PQ" else 0.0 for name in form.by_name])
    P = critical_factor(form.frame(), N)
    length = math.hypot(i["span"] / 2, i["rise"])
    return {"K on the whole": math.sqrt(math.pi**2 * i["EI_rafter"] / P) / length}


def lee_snow(i: Given) -> dict[str, float]:
    """In the reference's units: ft and psf; the roof is a truss, so the heap counts whatever its width."""
    slope = math.degrees(math.atan(1.0 / i["S_run_per_rise"]))
    found = one_sided_snow(
        SilentPad(), p_g=i["p_g"] / 144, p_s=i["p_s"] / 144, I_s=i["I_s"], W_e=12 * i["W_ft"], slope=slope,
        shape="gable", simple_rafters=False,
    )  # fmt: skip
    assert found is not None and found.heap is not None
    return {
        "drift height h_d": found.heap.height / 12, "surcharge on the lee side": 144 * found.heap.peak,
        "length of the surcharge from the ridge": found.heap.width / 12, "windward side": 144 * found.windward,
    }  # fmt: skip


def step_snow(i: Given) -> dict[str, float]:
    p_g = i["p_g"] / 144
    return {
        "drift height h_d": float(drift_height(p_g=p_g, l_fetch=12 * i["l_u_ft"], I_s=1.0)) / 12,
        "snow density": float(snow_density(p_g=p_g)),
    }


METHODS: dict[str, Callable[[Given], dict[str, float]]] = {
    "load.unbalanced_snow": lee_snow,
    "load.published": step_snow,
    "truss.king_post": king,
    "truss.queen_post": queen,
    "truss.queen_post_unbalanced": queen,
    "truss.w_form": w_truss,
    "truss.scissor": scissor,
    "truss.published": printed_truss,
    "truss.deflection": sag,
    "frame.collar_free_feet": collar_free,
    "frame.collar_held_feet": collar_held,
    "frame.tie_at_feet": tie_at_feet,
    "frame.three_hinges": three_hinges,
    "frame.knee_braces": knees,
    "frame.knee_braces_compression_only": lambda i: knees(i, "push"),
    "frame.knee_brace_drift": drift,
    "frame.knee_braces_gravity": braced_gravity,
    "frame.hammer_beam": hammer,
    "frame.semi_rigid": semi_rigid,
    "frame.second_order": second_order,
    "frame.published": printed_frame,
    "frame.sway_buckling": sway,
    "frame.collar_buckling": collar_buckling,
}


@pytest.mark.parametrize("row", ROWS, ids=[row["id"] for row in ROWS])
def test_the_row(row: dict[str, str]) -> None:
    found = METHODS[row["kind"]](json.loads(row["inputs"]))
    words = max((each for each in found if row["quantity"].startswith(each)), key=len)
    tolerance = row["tolerance"]
    allowed = {"abs": float(tolerance[4:])} if tolerance.startswith("abs") else {"rel": float(tolerance)}
    assert float(found[words]) == pytest.approx(float(row["expected"]), **allowed), row["source"]
