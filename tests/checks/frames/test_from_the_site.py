"""A truss under a roof of the place: the snow of the lee side with its heap at the ridge, all of it followed down."""

from __future__ import annotations

import math
from typing import Any

import pytest

from .jobs import check, checked, king, piece

BY = "building department, letter of 3 May 2025"


def under_a_roof(**roof: Any) -> dict[str, Any]:
    """24 ft at 5:12, trusses 8 ft apart, ground snow 30 psf, 12 ft from eave to ridge."""
    data = king(rise="5 ft")
    del data["job"]["snow"]
    data["site"] = {
        "ground_snow": "30 psf", "ground_snow_from": BY, "snow_edition": "ASCE 7-16",
        "surroundings": "suburb or woods", "wind_speed": "115 mph", "wind_speed_from": BY, "flat_ground": True,
    }  # fmt: skip
    data["roof"] = [{
        "name": "shed roof", "shape": "gable", "slope": "5:12", "eave_to_ridge": "12 ft", "ridge": "ties or trusses",
        "surface": "shingles", "below": "unheated", "exposed": "partially exposed", "higher": "nothing",
        "slides_from": "nothing", "layers": ["asphalt shingles, one layer", "felt", "1x boards"],
        "framing": "2x8 at 24 in", **roof,
    }]  # fmt: skip
    data["frame"][0]["members"][0]["carries"] = [{"what": "roof", "roof": "shed roof"}]
    return data


def test_snow_with_its_heap_at_the_ridge_comes_down_at_the_heels() -> None:
    """p_s = 0.7 C_e C_t p_g = 0.7 1.0 1.2 30 = 25.2 psf; the heap of ASCE 7-16 7.6.1 beside it: h_d = 0.43 20^(1/3)
    (p_g + 10)^(1/4) - 1.5 ft, gamma h_d/sqrt(S) over 8 sqrt(S) h_d/3, a triangle here (memory, as in the reference)."""
    result = checked(under_a_roof())
    assert check(result, "truss", "frame.snow").verdict == "passes"
    S, gamma = 12 / 5, 0.13 * 30 + 14
    h_d = 0.43 * 20 ** (1 / 3) * 40**0.25 - 1.5
    even = 25.2 * 24 * 8
    heaps = 2 * 0.5 * (gamma * h_d / math.sqrt(S)) * (8 * math.sqrt(S) * h_d / 3) * 8
    rows = next(table.rows for table in result.tables if "all loads" in table.title)
    by_name = {row[0]: [float(cell.split()[0].replace(",", "")) for cell in row[1:]] for row in rows}
    for applied, arriving in zip(by_name["D + S"], by_name["D"], strict=True):
        assert even < applied - arriving < even + 1.001 * heaps
    assert by_name["D + S"][0] == by_name["D + S"][1]


def test_simple_rafters_are_no_truss() -> None:
    found = check(checked(under_a_roof(ridge="beam")), "truss", "frame.snow")
    assert found.verdict == "refer" and found.questions[0].field == "roof.shed roof.ridge"
    assert [answer.sets for answer in found.questions[0].answers] == [(("roof.shed roof.ridge", "ties or trusses"),)]


def test_a_roof_of_another_slope_is_asked_about() -> None:
    result = checked(under_a_roof(slope="8:12"))
    asked = [one for one in piece(result, "truss: left rafter").checks if one.verdict == "refer"]
    assert any("do not belong together" in note for one in asked for note in one.notes)


@pytest.mark.parametrize("given", ["12 psf", "30 psf"])
def test_snow_that_is_typed_needs_somebody_who_answers_for_the_lee_side(given: str) -> None:
    data = king(rise="5 ft")
    del data["job"]["snow"]
    data["job"]["ground_snow"] = "30 psf"
    data["frame"][0]["members"][0]["carries"] = [{"what": "roof", "dead": "12 psf", "snow": given}]
    found = check(checked(data), "truss", "frame.snow")
    assert found.verdict == "refer" and found.questions[0].answers
    assert check(checked(data), "truss", "roof.snow_drift", "sliding").verdict == "refer"
    data["job"]["snow"] = {"by": BY, "one_side": "30 psf", "higher": "nothing", "slides": "nothing"}
    said = check(checked(data), "truss", "frame.snow")
    assert said.verdict == ("passes" if given == "30 psf" else "fails")
