"""A plain steel beam beside timber: AISC Steel Construction Manual values (memory) and closed forms typed here."""

from __future__ import annotations

import copy
import math

import pytest

from beamcheck.calc.pad import SilentPad
from beamcheck.checks.core.wood.made.steel_section import rolled_section
from beamcheck.errors import JobError
from beamcheck.formulas.steel import rolled
from beamcheck.model.reading.reader import job_from_data
from beamcheck.model.stock import Stock

from ..beams import Data, beam, checked, find, floor, job, ratios, result_of, said, seat, step

E, F_Y = 29e6, 50e3


def steel(shape: str = "W8x18", **more: object) -> Data:
    return {
        "name": "wood", "made": "steel", "grade": "A992", "steel": {"shape": shape}, "grade_from": "certificate",
        "evidence": "invented mill certificate no. 4471 of 3 May 2025, ASTM A992", **more,
    }  # fmt: skip


def girder(**more: object) -> Data:
    usual = {"carries": [floor(dead="10 psf", live="40 psf", width="10 ft")], "in_a_row": False,
             "supports": [seat("0 ft"), seat("16 ft")]}  # fmt: skip
    return beam(**{**usual, **more})


# shape: I_x (in4), Z_x (in3), I_y (in4), M_p/1.67 (kip ft), L_p (ft), L_r (ft): AISC Manual Tables 1-1, 3-2 (memory)
MANUAL = {
    "W8x18": (61.9, 17.0, 7.97, 42.4, 4.34, 13.5), "W10x22": (118.0, 26.0, 11.4, 64.9, 4.70, 13.8),
    "W12x26": (204.0, 37.2, 17.3, 92.8, 5.33, 14.9),
}  # fmt: skip


@pytest.mark.parametrize("shape", MANUAL)
def test_properties_are_those_of_the_manual(shape: str) -> None:
    """The fillets that are left out add up to 2 % to a property, 3 % to a length."""
    I_x, Z_x, I_y, M_a, L_p, L_r = MANUAL[shape]
    section, pad = rolled_section(Stock.model_validate(steel(shape))), SilentPad()
    p = section.plates
    assert section.inertia(pad) == pytest.approx(I_x, rel=0.025) and section.inertia(pad) <= I_x
    assert rolled.shape_plastic_modulus(**p) == pytest.approx(Z_x, rel=0.025)
    assert rolled.shape_inertia_weak(**p) == pytest.approx(I_y, rel=0.01)
    free = find(result_of(girder(top_held="ends only"), wood=steel(shape)), "bending")
    assert step(free, "L_p") / 12 == pytest.approx(L_p, rel=0.02)
    assert step(free, "L_rs") / 12 == pytest.approx(L_r, rel=0.03)
    held = find(result_of(girder(), wood=steel(shape)), "bending")
    assert held.capacity and held.capacity / 12000 == pytest.approx(M_a, rel=0.025)


def test_bending_of_a_free_beam_by_hand() -> None:
    """L_b = 16 ft is over L_r: F_cr = pi^2 E/(L_b/r_ts)^2 sqrt(1 + 0.078 J/(S h_o) (L_b/r_ts)^2), M_a = F_cr S/1.67."""
    d, b_f, t_f, t_w = 8.14, 5.25, 0.33, 0.23
    I_x = 2 * (b_f * t_f**3 / 12 + b_f * t_f * ((d - t_f) / 2) ** 2) + t_w * (d - 2 * t_f) ** 3 / 12
    I_y = 2 * t_f * b_f**3 / 12 + (d - 2 * t_f) * t_w**3 / 12
    S, h_o = I_x / (d / 2), d - t_f
    J = (2 * b_f * t_f**3 + (d - t_f) * t_w**3) / 3
    r_ts = math.sqrt(math.sqrt(I_y * I_y * h_o**2 / 4) / S)
    slender = (192 / r_ts) ** 2
    F_cr = math.pi**2 * E / slender * math.sqrt(1 + 0.078 * J / (S * h_o) * slender)
    free = find(result_of(girder(top_held="ends only"), wood=steel()), "bending")
    assert free.capacity == pytest.approx(F_cr * S / 1.67, rel=1e-9)


def test_own_weight_moment_and_deflection_by_hand() -> None:
    """w = 500 plf and 17.6 plf of steel (5.185 in2 at 490 pcf); Delta = 5 w L^4/(384 E I) and the shear of the web."""
    result = result_of(girder(), wood=steel())
    bending = find(result, "bending")
    w = 500.0 + 5.1854 / 144 * 490
    assert bending.demand == pytest.approx(w / 12 * 192**2 / 8, rel=1e-4)
    I_x, G = 60.8907, E / (2 * 1.3)
    live = 400 / 12
    sag = 5 * live * 192**4 / (384 * E * I_x) + live * 192**2 / (8 * G * 8.14 * 0.23)
    assert find(result, "deflection under live load").demand == pytest.approx(sag, rel=1e-3)


def test_shear_web_and_flange_by_hand() -> None:
    """G2.1 with Omega 1.67; J10-3; J10-5 with l_b/d over 0.2; the flange as a cantilever under the seat pressure."""
    result = result_of(girder(), wood=steel())
    assert find(result, "shear").capacity == pytest.approx(0.6 * F_Y * 8.14 * 0.23 / 1.67, rel=1e-9)
    yields = find(result, "web yields at support 1 on wall").capacity
    assert yields == pytest.approx(F_Y * 0.23 * (2.5 * 0.33 + 5.5) / 1.5, rel=1e-9)
    thin = (0.23 / 0.33) ** 1.5
    folds = 0.40 * 0.23**2 * (1 + (4 * 5.5 / 8.14 - 0.2) * thin) * math.sqrt(E * F_Y * 0.33 / 0.23) / 2
    assert find(result, "web folds at support 1 on wall").capacity == pytest.approx(folds, rel=1e-9)
    flange = find(result, "flange over support 1 on wall")
    R = (500 + 5.1854 / 144 * 490) * 8
    M = R / (5.25 * 5.5) * ((5.25 - 0.23) / 2) ** 2 / 2  # per inch of seat; F_y t^2/4/1.67 resists... by S: t^2/6
    assert flange.demand and flange.demand**2 * F_Y / 4 / 1.67 == pytest.approx(M, rel=1e-4)


def test_a_held_beam_passes_and_a_free_one_fails() -> None:
    assert checked(girder(), wood=steel()).verdict == "passes"
    heavy = beam(supports=[seat("0 ft"), seat("24 ft")], carries=[floor(dead="10 psf", live="40 psf", width="8 ft")],
                 top_held="ends only", meant={"length": "a hall as long as that"})  # fmt: skip
    assert "bending" in said(result_of(heavy, wood=steel("W12x19")), "fails")


@pytest.mark.parametrize(
    ("change", "says"),
    [
        (
            {
                "fire": {
                    "minutes": 30,
                    "exposed": ["bottom", "left", "right"],
                    "asked_by": "building department, letter of 3 May 2025",
                }
            },
            "fire",
        ),
        ({"cuts": [{"kind": "hole", "at": "4 ft", "depth": "1 in", "from_bottom": "4 in"}]}, "cuts and holes"),
        ({"carries": [floor(live="400 plf", applied="side")]}, "needs a connection"),
    ],
)
def test_what_is_not_run_for_steel_refers(change: Data, says: str) -> None:
    result = result_of(girder(**change), wood=steel())
    assert result.verdict == "refer" and says in said(result, "refer")


def test_a_point_load_sways_a_free_web() -> None:
    """A post on the top flange of a W8x18 over 16 ft: (h/t_w)/(L_b/b_f) = 32.5/36.6 = 0.89 is under 1.7 (J10.4)."""
    loads = [{"what": "post", "live": "3,000 lb", "at": "8 ft", "applied": "top", "bearing": "5 1/2 in"}]
    result = result_of(girder(carries=loads), wood=steel())
    r = (8.14 - 0.66) / 0.23 / (192 / 5.25)
    sway = 960e6 * 0.23**3 * 0.33 / 7.48**2 * 0.4 * r**3 / 1.76
    assert find(result, "web sways under post").capacity == pytest.approx(sway, rel=1e-3)


def test_its_stiffness_counts_in_a_beam_that_stands_on_it() -> None:
    """A joist of two spans whose middle stands on a steel beam: it gives by L^3/48EI and the shear of the web."""
    wood = {"name": "fir", "species": "Douglas Fir-Larch", "grade": "No.1", "size": "2x10", "moisture": "dry",
            "grade_from": "stamp", "evidence": "invented stamp: agency mark, mill 12, No.1, DOUG FIR-L"}  # fmt: skip
    joist = beam(
        name="J",
        stock="fir",
        supports=[seat("0 ft"), seat("10 ft", on="B", lands_at="8 ft"), seat("20 ft")],
        carries=[floor(live="40 plf")],
    )
    result = checked(girder(carries=[]), joist, wood=steel(), stocks=[wood])
    words = " ".join(next(piece for piece in result.pieces if piece.name == "J").assumptions)
    gives = 1000 * (192**3 / (48 * E * 60.8907) + 192 / (4 * E / 2.6 * 8.14 * 0.23))
    assert f"B under support 2 gives {gives:.3g}"[:28] in words, words


@pytest.mark.parametrize(
    ("wood", "more", "says"),
    [
        (steel("W9x99"), {}, "W9x99"),
        (steel(grade="A7"), {}, "A7"),
        (steel(), {"plies": 2}, "plies"),
        (steel(), {"laid": "flat"}, "flat"),
        ({**steel(), "steel": {"depth": "8 in"}}, {}, "missing"),
        (
            {**steel(), "steel": {"depth": "8 in", "flange_width": "0.2 in", "flange": "4 in", "web": "1 in"}},
            {},
            "no I",
        ),
        ({key: value for key, value in steel().items() if key != "steel"}, {}, "missing"),
    ],
)
def test_what_does_not_go_together_is_said(wood: Data, more: Data, says: str) -> None:
    with pytest.raises(JobError, match=says):
        job_from_data(copy.deepcopy(job(girder(**more), wood=wood)))


def test_a_shape_by_its_measures_is_the_same() -> None:
    measured = {"depth": "8.14 in", "flange_width": "5.25 in", "flange": "0.33 in", "web": "0.23 in"}
    assert ratios(result_of(girder(), wood={**steel(), "steel": measured})) == pytest.approx(
        ratios(result_of(girder(), wood=steel()))
    )


def test_a_certificate_of_another_grade_refers() -> None:
    result = result_of(girder(), wood=steel(evidence="invented mill certificate no. 4471 of 3 May 2025, ASTM A36"))
    assert result.verdict == "refer" and "the evidence says A36" in said(result, "refer")


@pytest.mark.parametrize(
    ("grade", "evidence", "key"),
    [("A992", "invented mill certificate no. 4471 of 3 May 2025", "made_grade"),
     ("A992", "invented mark of MILL, heat 1234", "evidence"),
     ("A572 Grade 50", "invented mill certificate no. 4471, ASTM A572", "made_grade"),
     ("A572 Grade 50", "invented mill certificate no. 4471, ASTM A572 Gr. 42", "made_grade_differs"),
     ("A572 Grade 50", "invented mill certificate no. 4471, ASTM A572 Gr. 50", ""),
     ("A992", "invented mill certificate no. 4471, ASTM A992, Grade 50", "")],
)  # fmt: skip
def test_evidence_names_the_grade(grade: str, evidence: str, key: str) -> None:
    """The yield point goes by the grade, A572 by its number too (AISC 360-16 A3.1)."""
    result = result_of(girder(), wood=steel(grade=grade, evidence=evidence))
    asked = {q.id.split("/")[1] for check in result.checks for q in check.questions if check.id == "wood.evidence"}
    assert asked == ({key} if key else set())


def test_an_uncertain_grade_refers() -> None:
    result = result_of(girder(), wood=steel(grade_from="assumed"))
    assert result.verdict == "refer" and "PRELIMINARY" in said(result, "refer")


def measured(depth: float = 8.14, flange_width: float = 5.25) -> Data:
    return {**steel(), "steel": {"depth": f"{depth} in", "flange_width": f"{flange_width} in", "flange": "0.33 in",
                                 "web": "0.23 in"}}  # fmt: skip


@pytest.mark.parametrize(("wood", "verdict"), [
    (measured(flange_width=6.04), "passes"), (measured(flange_width=6.041), "refer"),
    (measured(14.74), "passes"), (measured(14.75), "refer"),
])  # fmt: skip
def test_flanges_and_webs_that_fold(wood: Data, verdict: str) -> None:
    """b_f/(2 t_f) up to 0.38 sqrt(29e6/50e3) = 9.152; h/t_w up to 1.10 sqrt(5.34 x 29e6/50e3) = 61.22 (memory)."""
    (check,) = (one for one in result_of(girder(), wood=wood).checks if one.id == "steel.compact")
    assert check.verdict == verdict and bool(check.questions) == (verdict == "refer")


def test_over_a_middle_seat_the_lower_flange_is_pressed() -> None:
    """M = w L^2/8 over it; pressed as far as a span without live load lifts: L - 2 R/w, R = (3 D - L/2) L/8; F2-2."""
    two = girder(supports=[seat("0 ft"), seat("16 ft"), seat("32 ft")], meant={"length": "32 ft over three walls"})
    result = result_of(two, wood=steel())
    above, below = find(result, "bending"), find(result, "bending with the bottom edge pressed")
    dead, live = (100 + 5.1854 / 144 * 490) / 12, 400 / 12
    assert step(above, "L_b") == 0.0
    assert step(below, "L_b") == pytest.approx(192 - 2 * (3 * dead - live / 2) * 192 / 8 / dead, rel=0.02)
    Z, S = 2 * 5.25 * 0.33 * 7.81 / 2 + 0.23 * 7.48**2 / 4, 60.8907 / 4.07
    part = (step(below, "L_b") - step(below, "L_p")) / (step(below, "L_rs") - step(below, "L_p"))
    assert below.capacity == pytest.approx(F_Y / 1.67 * (Z - (Z - 0.7 * S) * part), rel=1e-4)
    assert above.capacity == pytest.approx(F_Y / 1.67 * Z, rel=1e-9)
    assert below.demand == pytest.approx((dead + live) * 192**2 / 8, rel=1e-2)  # a little less by the shear of the web
    R = (3 * dead + 3.5 * live) * 192 / 8  # the live load on one span alone: 7/16 of it comes to the outer seat
    assert above.demand == pytest.approx(R**2 / (2 * (dead + live)), rel=1e-2)


def test_a_post_on_the_flange_counts_with_all_that_comes_at_once() -> None:
    """D + 0.75 L + 0.75 S = 1000 + 2250 + 1500 lb on a plate of 4 in: J10-2 and J10-5 with l_b = 4 in."""
    post = {"what": "post", "dead": "1000 lb", "live": "3000 lb", "snow": "2000 lb", "at": "8 ft", "applied": "top",
            "bearing": "4 in"}  # fmt: skip
    result = result_of(girder(carries=[post]), wood=steel())
    yields, folds = find(result, "web yields at post"), find(result, "web folds at post")
    assert yields.demand == folds.demand == find(result, "web sways under post").demand == pytest.approx(4750)
    assert yields.capacity == pytest.approx(F_Y * 0.23 * (2.5 * 0.33 + 4) / 1.5, rel=1e-9)
    thin = (0.23 / 0.33) ** 1.5
    deep = 0.40 * 0.23**2 * (1 + (4 * 4 / 8.14 - 0.2) * thin) * math.sqrt(E * F_Y * 0.33 / 0.23) / 2
    assert folds.capacity == pytest.approx(deep, rel=1e-9)


@pytest.mark.parametrize(("bearings", "l_b"), [(("6 in", "4 in"), 4.0), (("4 in", "6 in"), 4.0)])
def test_of_several_loads_in_one_place_the_shortest_seat_counts(bearings: tuple[str, str], l_b: float) -> None:
    """J10-2: F_y t_w (2.5 k + l_b)/1.5."""
    loads = [{"what": "post", kind: "1000 lb", "at": "8 ft", "applied": "top", "bearing": one}
             for kind, one in zip(("dead", "live"), bearings, strict=True)]  # fmt: skip
    yields = find(result_of(girder(carries=loads), wood=steel()), "web yields at post")
    assert yields.capacity == pytest.approx(F_Y * 0.23 * (2.5 * 0.33 + l_b) / 1.5, rel=1e-9)
    assert yields.demand == pytest.approx(2000)


@pytest.mark.parametrize(("bearings", "fields"), [
    (("4 in", None), ["beam.B.carries.2.bearing"]), ((None, "4 in"), ["beam.B.carries.1.bearing"]),
    ((None, None), ["beam.B.carries.1.bearing", "beam.B.carries.2.bearing"]), (("4 in", "4 in"), []),
])  # fmt: skip
def test_a_load_whose_seat_nobody_gives_is_asked_for_it(bearings: tuple[str | None, ...], fields: list[str]) -> None:
    """What is not said fails nothing: the web yields and folds over a length that has to be told."""
    loads = [{"what": "post", kind: "1000 lb", "at": "8 ft", "applied": "top", **({"bearing": one} if one else {})}
             for kind, one in zip(("dead", "live"), bearings, strict=True)]  # fmt: skip
    result = result_of(girder(carries=loads), wood=steel())
    assert result.verdict == ("refer" if fields else "passes")
    assert [one.field for check in result.checks if check.verdict == "refer" for one in check.questions] == fields
    webs = [check.what for check in result.checks if check.id == "steel.web" and check.what.endswith("post")]
    assert webs == ["web sways under post"] if fields else len(webs) == 3


@pytest.mark.parametrize(("place", "where"), [({"moves": True}, "anywhere"), ({"at": "5 ft"}, "5 ft")])
def test_a_load_that_moves_presses_on_the_web_anywhere(place: Data, where: str) -> None:
    load = {"what": "jack", "live": "1000 lb", "applied": "top", "bearing": "2 in", **place}
    result = result_of(girder(carries=[load]), wood=steel())
    assert [check.where for check in result.checks if check.what.endswith("jack")] == [where] * 3


def test_a_seat_narrower_than_the_flange() -> None:
    """It presses on 4 of 5 1/4 in: less of the flange stands out, under more pressure. V = w L/2 at the very end."""
    narrow = girder(supports=[seat("0 ft", bearing_width="4 in"), seat("16 ft")])
    result = result_of(narrow, wood=steel())
    R = (500 + 5.1854 / 144 * 490) * 8
    flange = find(result, "flange over support 1 on wall")
    M = R / (4 * 5.5) * ((4 - 0.23) / 2) ** 2 / 2
    assert flange.demand and flange.demand**2 * F_Y / 4 / 1.67 == pytest.approx(M, rel=1e-4)
    assert find(result, "shear").demand == pytest.approx(R, rel=1e-4)
    assert result.inputs[2][0] == "section" and "8.14 in deep" in result.inputs[2][1]


@pytest.mark.parametrize(("pounds", "long", "C"), [
    (10150, 192.0, 960e6), (10300, 192.0, 480e6), (1000, 101.0, 960e6), (1000, 100.0, None),
])  # fmt: skip
def test_when_the_web_sways(pounds: float, long: float, C: float | None) -> None:
    """J10.4 (memory): C halves where 1.5 M is over F_y S (48 P + 6,777 = 498,700 in lb); none over 1.7 = L_b 100.4."""
    load = {"what": "post", "live": f"{pounds} lb", "at": f"{long / 2} in", "applied": "top", "bearing": "4 in"}
    piece = result_of(girder(carries=[load], supports=[seat("0 ft"), seat(f"{long} in")]), wood=steel())
    sways = [check for check in piece.checks if check.what == "web sways under post"]
    assert [step(check, "C_sway") for check in sways] == ([C] if C else [])


def test_a_seat_of_no_length_is_asked_for() -> None:
    bare = {key: value for key, value in seat("16 ft").items() if key != "bearing"}
    result = result_of(girder(supports=[seat("0 ft"), bare]), wood=steel())
    asked = [check for check in result.checks if check.id == "beam.bearing"]
    assert [check.verdict for check in asked] == ["refer"] and asked[0].questions
    assert not [check for check in result.checks if check.id == "steel.web" and "support 2" in check.what]


def test_what_is_assumed_of_its_sag_is_that_of_steel_and_no_other() -> None:
    """Of steel the web gives in shear; of wood it is G = E/16, and no flange is spoken of."""
    of_steel, of_wood = (" ".join(result_of(girder(), wood=wood).assumptions) for wood in (steel(), {}))
    assert "that of the web in shear" in of_steel and "E/16" not in of_steel
    assert "that of the web in shear" not in of_wood and "E/16" in of_wood
