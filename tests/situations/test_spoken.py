"""Lengths and amounts as they are said on a site."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from beamcheck.errors import UnitError
from beamcheck.situations.spoken import spoken_amount, spoken_length
from beamcheck.units import read


@pytest.mark.parametrize(
    ("said", "inches"),
    [
        ("13 6", 162.0), ("13-6", 162.0), ("13'-6", 162.0), ("13'-6\"", 162.0), ("13' 6", 162.0), ("13’ 6”", 162.0),
        ("13' 6 1/2\"", 162.5), ("13 6 1/2", 162.5), ("13 6-1/2", 162.5), ("162", 162.0), ("162.5", 162.5),
        ("13", 156.0), ("13.5", 162.0), ("13 1/2", 162.0), ("13 ft", 156.0), ("13ft 6", 162.0), ("13 ft 6 in", 162.0),
        ("41", 41.0), ("40", 480.0), ("6'", 72.0), ("4.1 m", 4100.0 / 25.4), ("90 in", 90.0), ("13½", 162.0),
    ],
)  # fmt: skip
def test_where_feet_are_asked_for(said: str, inches: float) -> None:
    assert read(spoken_length(said, feet=True), "length") == pytest.approx(inches, abs=1e-9)


@pytest.mark.parametrize(
    ("said", "inches"),
    [("5 1/2", 5.5), ("5-1/2", 5.5), ("5.5", 5.5), ("5½", 5.5), ("5 1/2 in", 5.5), ('5 1/2"', 5.5), ("16", 16.0),
     ("1/2", 0.5), ("140 mm", 140.0 / 25.4), ("1 ft 4 in", 16.0)],
)  # fmt: skip
def test_where_inches_are_asked_for(said: str, inches: float) -> None:
    assert read(spoken_length(said, feet=False), "length") == pytest.approx(inches, abs=1e-9)


@pytest.mark.parametrize(
    "said", ["", "thirteen", "13 12", "13 6 7", "-5", "0", "13 ft 6 lb", "1/0", "1e9", "13,6", "x" * 200]
)
@pytest.mark.parametrize("feet", [True, False])
def test_what_cannot_be_meant_is_refused_with_a_right_example(said: str, feet: bool) -> None:
    with pytest.raises(UnitError):
        spoken_length(said, feet=feet)


def test_none_is_an_answer_for_a_gap_only() -> None:
    assert spoken_length("0", feet=False, none=True) == "0 in"


@given(st.integers(0, 39), st.integers(0, 11), st.integers(0, 15))
def test_feet_and_inches_come_back_as_they_were_said(feet: int, inches: int, sixteenths: int) -> None:
    total = 12.0 * feet + inches + sixteenths / 16.0
    if total > 0:
        said = f"{feet} {inches}" + (f" {sixteenths}/16" if sixteenths else "")
        assert read(spoken_length(said, feet=True), "length") == total


@pytest.mark.parametrize(
    ("said", "kind", "unit", "text"),
    [("40", "load", "psf", "40 psf"), ("40 psf", "load", "psf", "40 psf"), ("1,500", "force", "lb", "1,500 lb"),
     ("14", "moisture", "%", "14 %"), ("14%", "moisture", "%", "14%"), ("1.9 kPa", "load", "psf", "1.9 kPa")],
)  # fmt: skip
def test_a_bare_number_is_in_the_unit_that_is_asked_for(said: str, kind: str, unit: str, text: str) -> None:
    assert spoken_amount(said, kind, unit) == text


@pytest.mark.parametrize("said", ["much", "40 in", "", "4 0"])
def test_what_is_no_load_is_refused(said: str) -> None:
    with pytest.raises(UnitError):
        spoken_amount(said, "load", "psf")
