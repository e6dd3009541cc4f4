"""Flitch beams, by the transformed section typed here; bolts by NDS 2018 Table 12.3.1A, typed here as well."""

from __future__ import annotations

import copy
import math

import pytest

from beamcheck.errors import JobError
from beamcheck.model.reading.reader import job_from_data

from ..beams import Data, beam, find, floor, job, result_of, said, seat

WOOD = {"name": "wood", "species": "Douglas Fir-Larch", "grade": "No.2", "size": "2x12", "moisture": "dry",
        "grade_from": "stamp", "evidence": "invented stamp: agency mark, mill 12, No.2, DOUG FIR-L, S-DRY"}  # fmt: skip
PLATE = {"thickness": "1/2 in", "depth": "11 in", "grade": "A36", "bolt": "1/2 in", "rows": 2, "spacing": "16 in",
         "row_spacing": "5 in", "edge": "3 in", "end": "2 in", "end_bolts": 3,
         "evidence": "mill certificate no. 4471, ASTM A36"}  # fmt: skip
E_S, E_W, F_Y = 29e6, 1.6e6, 36000.0
HOLE = 9 / 16
I_W = 3.0 * 11.25**3 / 12 - 2 * 3.0 * (HOLE**3 / 12 + HOLE * 2.5**2)
I_S = 0.5 * 11.0**3 / 12 - 2 * 0.5 * (HOLE**3 / 12 + HOLE * 2.5**2)


def flitch(plate: Data | None = None, **more: object) -> Data:
    usual = {"supports": [seat("0 ft"), seat("16 ft")], "in_a_row": False,
             "carries": [floor(dead="12 psf", live="40 psf", width="8 ft")]}  # fmt: skip
    return beam(plies=2, flitch={**PLATE, **(plate or {})}, **{**usual, **more})


def weight() -> float:
    """Wood at G = 0.5 and 19 %: 62.4 (0.5/(1 + 0.5 x 0.009 x 19)) (1.19) pcf; steel at 490 pcf, plf."""
    pcf = 62.4 * 0.5 / (1 + 0.5 * 0.009 * 19) * 1.19
    return pcf * 3.0 * 11.25 / 144 + 490 * 0.5 * 11.0 / 144


def test_wood_and_plate_share_the_moment() -> None:
    """f_b of the wood is M (d/2)/I_eq; the plate takes E_s I_s/(E_s I_s + E_w/1.5 I_w) of M, against F_y S/1.67."""
    result = result_of(flitch(), wood=WOOD)
    M = (52 * 8 + weight()) / 12 * 192**2 / 8
    I_eq = I_W + I_S * E_S / E_W
    assert find(result, "bending").demand == pytest.approx(M * 5.625 / I_eq, rel=1e-3)
    plate = find(result, "bending of the plate")
    share = E_S * I_S / (E_S * I_S + E_W / 1.5 * I_W)
    assert plate.demand == pytest.approx(M * share, rel=1e-3)
    assert plate.capacity == pytest.approx(F_Y * I_S / 5.5 / 1.67, rel=1e-9)


def test_deflection_is_that_of_both() -> None:
    """5 w L^4/(384 (E_w I_w + E_s I_s)), and the shear of the wood alone on G = E/16."""
    w = 320 / 12
    sag = 5 * w * 192**4 / (384 * (E_W * I_W + E_S * I_S)) + w * 192**2 / 8 / (E_W / 16 * 5 / 6 * 3.0 * 11.25)
    found = find(result_of(flitch(), wood=WOOD), "deflection under live load").demand
    assert found == pytest.approx(sag, rel=1e-3)


def test_bolts_carry_the_share_of_the_plate() -> None:
    """Double shear, steel inside: the least of the modes I_m, I_s, III_s and IV, F_es = 3,150 psi, F_em = 87,000."""
    D, l_m, l_s, F_em, F_es, F_yb, K = 0.5, 0.5, 1.5, 87000.0, 3150.0, 45000.0, 1.25
    R = F_em / F_es
    k_3 = -1 + math.sqrt(2 * (1 + R) / R + 2 * F_yb * (2 + R) * D**2 / (3 * F_em * l_s**2))
    Z = min(
        D * l_m * F_em / (4 * K), 2 * D * l_s * F_es / (4 * K), 2 * k_3 * D * l_s * F_em / ((2 + R) * 3.2 * K),
        2 * D**2 / (3.2 * K) * math.sqrt(2 * F_em * F_yb / (3 * (1 + R))),
    )  # fmt: skip
    result = result_of(flitch(), wood=WOOD)
    along = find(result, "bolts into the plate")
    w, share = (52 * 8 + weight()) / 12, E_S * I_S / (E_S * I_S + E_W / 1.5 * I_W)
    assert along.capacity == pytest.approx(0.95 * Z * 2 / 16, rel=1e-6)
    assert along.demand == pytest.approx(w * share, rel=1e-3)
    end = find(result, "bolts over support 1 on wall")
    assert end.capacity == pytest.approx(0.95 * Z * 3, rel=1e-6)
    assert end.demand == pytest.approx(w * 96 * share, rel=1e-3)


@pytest.mark.parametrize(
    ("plate", "says"),
    [({"edge": "1 in"}, "from the edge of the wood"), ({"depth": "6 in"}, "from the edge of the plate"),
     ({"end": "1 in"}, "from the end"), ({"row_spacing": "2 in"}, "from row to row"),
     ({"row_spacing": "8 in"}, "do not fit"), ({"thickness": "1/4 in", "spacing": "36 in"}, "may turn over")],
)  # fmt: skip
def test_distances_that_are_too_small_fail(plate: Data, says: str) -> None:
    assert says in said(result_of(flitch(plate), wood=WOOD), "fails")


@pytest.mark.parametrize(
    ("more", "says"),
    [
        ({"carries": [{"what": "post", "live": "900 lb", "at": "8 ft", "applied": "top", "bearing": "5 1/2 in"}]},
         "a single force"),
        ({"cuts": [{"kind": "hole", "at": "4 ft", "depth": "1 in", "from_bottom": "5 in"}]}, "cuts and anchor"),
        ({"supports": [seat("0 ft"), seat("8 ft"), seat("16 ft")]}, "several spans"),
    ],
)  # fmt: skip
def test_what_is_not_run_refers(more: Data, says: str) -> None:
    assert says in said(result_of(flitch(**more), wood=WOOD), "refer")


@pytest.mark.parametrize(
    ("plate", "plies", "says"),
    [({"grade": "A7"}, 2, "A7"), ({"bolt": "3 in"}, 2, "3 in"), ({"depth": "12 in"}, 2, "deeper than the wood"),
     ({"thickness": "1/8 in"}, 2, "under 1/4 in"), ({}, 3, "plies = 2")],
)  # fmt: skip
def test_what_does_not_go_together_is_said(plate: Data, plies: int, says: str) -> None:
    with pytest.raises(JobError, match=says):
        job_from_data(copy.deepcopy(job({**flitch(plate), "plies": plies}, wood=WOOD)))


@pytest.mark.parametrize("evidence", ["", "mill mark", "mill certificate no. 7, ASTM A992", "ASTM A36, probably"])
def test_the_steel_of_the_plate_has_evidence(evidence: str) -> None:
    """As that of a steel beam: its yield point decides (AISC 360-16 A3.1). The best answer of the question closes."""
    seats = {"supports": [seat("0 ft", bearing="5 1/2 in"), seat("16 ft", bearing="5 1/2 in")],
             "carries": [floor(dead="12 psf", live="40 psf", width="4 ft")]}  # fmt: skip
    result = result_of(flitch({"evidence": evidence}, **seats), wood=WOOD)
    (check,) = [check for check in result.checks if check.id == "beam.flitch.steel"]
    assert check.verdict == "refer" and result.verdict == "refer"
    ((path, value),) = check.questions[0].answers[0].sets
    assert path == "beam.B.flitch.evidence"
    assert result_of(flitch({"evidence": value}, **seats), wood=WOOD).verdict == "passes"


@pytest.mark.parametrize(
    ("plate", "bearing", "fits"),
    [
        ({"end_bolts": 3}, "4 in", True), ({"end_bolts": 3}, "3 1/2 in", False), ({"end_bolts": 2}, "3 1/2 in", True),
        ({"end_bolts": 4, "rows": 1, "row_spacing": None, "edge": "5 5/8 in"}, "5 1/2 in", False),
    ],
)  # fmt: skip
def test_end_bolts_stand_over_the_seat(plate: Data, bearing: str, fits: bool) -> None:
    """2 in to the first bolt and 4 D = 2 in to the next: two in a row take 4 in, four in one row 8 in."""
    given = {key: value for key, value in {**PLATE, **plate}.items() if value is not None}
    one = beam(plies=2, flitch=given, in_a_row=False, carries=[floor(dead="12 psf", live="40 psf", width="3 ft")],
               supports=[seat("0 ft", bearing=bearing), seat("16 ft")])  # fmt: skip
    found = [check for check in result_of(one, wood=WOOD).checks if check.id == "beam.flitch"]
    assert [check.verdict for check in found] == ["passes" if fits else "fails"]
    assert fits or "do not stand over it" in found[0].notes[0]
