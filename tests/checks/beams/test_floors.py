"""Limits in inches by hand, what a floor is like (beam theory) and the code's table: information, no verdict."""

from __future__ import annotations

import math

import pytest

from beamcheck.values.limits import code_joist_span

from .beams import Data, beam, checked, find, floor, result_of, seat

E, I_X, L = 1.3e6, 98.9316, 144.0  # 2x10 Hem-Fir No.2; in4; 12 ft
WOOD = {"name": "wood", "species": "Hem-Fir", "grade": "No.2", "size": "2x10", "moisture": "dry", "grade_from": "stamp",
        "evidence": "invented stamp: agency mark, mill 12, No.2, HEM-FIR, S-DRY"}  # fmt: skip


def joist(**more: object) -> Data:
    loads = [floor(dead="10 psf", live="40 psf", width="16 in", dead_includes_own_weight=True)]
    return beam(supports=[seat("0 ft"), seat("12 ft")], carries=loads, spacing="16 in", **more)


def sag(w: float) -> float:
    """The larger of 5 w L^4/384 E I and that with 1.03 E and shear on G = E/16, in; w in lbf/in."""
    A = 1.5 * 9.25
    plain = 5 * w * L**4 / (384 * E * I_X)
    return max(plain, plain / 1.03 + w * L**2 / 8 / (E / 16 * 5 / 6 * A))


D, LIVE = 10 * 16 / 144, 40 * 16 / 144


@pytest.mark.parametrize(
    ("counts", "expected"),
    [("all, with creep", sag(1.5 * D + LIVE)), ("once it is in", sag(0.5 * D + LIVE)), ("variable load", sag(LIVE))],
)
def test_sag_in_inches_by_hand(counts: str, expected: float) -> None:
    """K_cr = 1.5 (NDS 2018 3.5.2): all of it, the part that comes later, or the live load alone, against 1/4 in."""
    limit = {"what": "glass doors", "most": "1/4 in", "counts": counts, "by": "maker's sheet 12 of 3 May 2025"}
    found = find(result_of(joist(sag_limits=[limit]), wood=WOOD), "sag for glass doors")
    assert found.demand == pytest.approx(expected, rel=2e-3) and found.capacity == 0.25
    assert found.verdict == ("passes" if expected <= 0.25 else "fails")


def test_a_limit_in_inches_can_fail_what_else_passes() -> None:
    assert checked(joist(), wood=WOOD).verdict != "fails"
    assert checked(joist(sag_limits=[{"what": "a mirror", "most": "1/16 in"}]), wood=WOOD).verdict == "fails"


def test_frequency_by_beam_theory() -> None:
    """f = (pi/2) sqrt(386.1 E I/(W L^3)), W the dead load with the joist in it: 160 lb; 1 kN bends it P L^3/48 E I."""
    words = " ".join(result_of(joist(), wood=WOOD).assumptions)
    f = math.pi / 2 * math.sqrt(386.1 * E * I_X / (D * L * L**3))
    assert f"swings with {f:.1f} Hz" in words
    assert f"{224.809 * L**3 / (48 * E * I_X):.3f} in" in words


@pytest.mark.parametrize(("span", "told"), [(58.0, "swings with 98.7 Hz"), (57.0, "swings with more than 100 Hz")])
def test_nobody_reads_a_frequency_to_five_digits(span: float, told: str) -> None:
    """f = (pi/2) sqrt(386.1 E I/(W L^3)): 98.7 Hz over 58 in, 102.2 Hz over 57 in."""
    assert math.pi / 2 * math.sqrt(386.1 * E * I_X / (D * span**4)) == pytest.approx(98.7 * (58 / span) ** 2, rel=0.001)
    loads = [floor(dead="10 psf", live="40 psf", width="16 in", dead_includes_own_weight=True)]
    short = beam(supports=[seat("0 ft"), seat(f"{span} in")], carries=loads, spacing="16 in")
    assert told in " ".join(result_of(short, wood=WOOD).assumptions)


def test_the_table_of_the_code_is_named_and_permits_nothing() -> None:
    """IRC 2018 Table R502.3.1(2), Hem-Fir No.2 2x10 at 16 in, 40 and 10 psf: 15 ft 2 in (memory, reproduced)."""
    words = " ".join(result_of(joist(), wood=WOOD).assumptions)
    assert "the code's table allows 15 ft 2 in clear" in words and "no permission" in words
    assert "R502.3.1(2)" in words and "here it is 11 ft 6 1/2 in clear, within it" in words


@pytest.mark.parametrize(
    ("species", "grade", "size", "spacing", "live", "dead"),
    [("Hem-Fir", "No.2", "2x10", 16.0, 50.0, 10.0), ("Hem-Fir", "No.2", "2x10", 16.0, 40.0, 12.0),
     ("Hem-Fir", "No.2", "2x10", 14.0, 40.0, 10.0), ("Red Oak", "No.2", "2x10", 16.0, 40.0, 10.0),
     ("Hem-Fir", "No.1", "2x10", 16.0, 40.0, 10.0)],
)  # fmt: skip
def test_other_loads_and_sticks_have_no_row(
    species: str, grade: str, size: str, spacing: float, live: float, dead: float
) -> None:
    assert code_joist_span(species, grade, size, spacing, live, dead) is None
