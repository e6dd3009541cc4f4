"""Text for people. Expected digits are worked by hand from the definitions (1 lb = 4.4482216 N, 1 in = 25.4 mm)."""

import math
from typing import Any

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from beamcheck.errors import OutOfRange, UnitError, UnknownName
from beamcheck.units import KINDS, down_to_inch, from_inner, read, show, show_number, unit_label

SHOWN = [  # kind, inner value, US, SI
    ("length", 174.0, "14 ft 6 in", "4.42 m"),  # 174 * 25.4 = 4419.6
    ("length", 90.5, "7 ft 6 1/2 in", "2.299 m"),
    ("length", 168.0, "14 ft", "4.267 m"),
    ("length", 24.0, "2 ft", "610 mm"),
    ("length", 24.5, "2 ft 1/2 in", "622 mm"),
    ("length", 23.99, "2 ft", "609 mm"),  # rounds up across the limit
    ("length", 23.9375, "23 15/16 in", "608 mm"),
    ("length", 6.5, "6 1/2 in", "165 mm"),
    ("length", 0.5, "1/2 in", "13 mm"),
    ("length", 0.0, "0 in", "0 mm"),
    ("length", 39.37, "3 ft 3 3/8 in", "1 m"),
    ("offset", -6.5, "−6 1/2 in", "−165 mm"),
    ("offset", -174.0, "−14 ft 6 in", "−4.42 m"),
    ("offset", -0.001, "0 in", "0 mm"),
    ("small length", 0.534, "0.534 in", "13.6 mm"),
    ("small length", -0.5, "−0.5 in", "−12.7 mm"),
    ("force", 1240.0, "1,240 lb", "5.52 kN"),
    ("force", -500.0, "−500 lb", "−2.22 kN"),
    ("force", 12345.6, "12,346 lb", "54.9 kN"),
    ("force", -0.01, "0 lb", "0 kN"),
    ("line load", 100 / 12, "100 plf", "1.46 kN/m"),
    ("area load", 40 / 144, "40 psf", "1.92 kPa"),
    ("stress", 1.6e6, "1,600,000 psi", "11032 MPa"),
    ("stress", 625.0, "625 psi", "4.31 MPa"),
    ("moment", 41280.0, "3,440 lb-ft", "4.66 kN·m"),
    ("density", 35.0, "35 pcf", "561 kg/m³"),
    ("temperature", 90.0, "90 °F", "32.2 °C"),
    ("temperature", -40.0, "−40 °F", "−40 °C"),
    ("slope", math.degrees(math.atan(0.5)), "6:12", "26.6 deg"),
    ("slope", math.degrees(math.atan(6.5 / 12)), "6.5:12", "28.4 deg"),
    ("slope", 26.6, "26.6 deg", "26.6 deg"),
    ("slope", 0.0, "0 deg", "0 deg"),
    ("angle", 30.0, "30 deg", "30 deg"),
    ("moisture", 19.0, "19 %", "19 %"),
    ("area", 70.6875, "70.7 in²", "45605 mm²"),
    ("section modulus", 114.8671875, "115 in³", "1882 cm³"),
    ("inertia", 559.9775, "560 in⁴", "23308 cm⁴"),
    ("load", (40 / 144, "area"), "40 psf", "1.92 kPa"),
    ("load", (100 / 12, "line"), "100 plf", "1.46 kN/m"),
    ("load", (-500.0, "point"), "−500 lb", "−2.22 kN"),
]


@pytest.mark.parametrize(("kind", "inner", "us", "si"), SHOWN)
def test_shown_in_both_systems(kind: str, inner: Any, us: str, si: str) -> None:
    assert (show(inner, kind), show(inner, kind, "SI")) == (us, si)


@pytest.mark.parametrize(
    ("ratio", "text"),
    [
        (0.0, "0.00"), (0.75, "0.750"), (0.0512, "0.0512"), (0.9994, "0.999"), (0.9996, "1.00"), (1.0, "1.00"),
        (1.0004, "1.0004"), (1.004, "1.004"), (1.0051, "1.01"), (12.34, "12.3"), (99.96, "100"), (1234.5, "1234"),
        (-0.25, "−0.250"), (-1e-9, "0.0000"), (math.inf, "infinite"),
    ],
)  # fmt: skip
def test_ratios_have_three_digits_and_more_where_it_decides(ratio: float, text: str) -> None:
    assert show(ratio, "ratio") == text == show(ratio, "ratio", "SI")


@given(st.floats(min_value=0, max_value=1e6) | st.floats(min_value=0.99, max_value=1.01))
def test_a_shown_ratio_is_on_the_same_side_of_1(ratio: float) -> None:
    shown = float(show(ratio, "ratio"))
    assert (shown > 1) == (ratio > 1)
    assert shown == pytest.approx(ratio, rel=0.0051, abs=0.5e-4)


def test_the_smallest_excess_is_shown() -> None:
    assert float(show(math.nextafter(1, 2), "ratio")) > 1


@given(st.floats(min_value=0, max_value=1e5))
def test_lengths_come_back_within_half_a_step(inches: float) -> None:
    assert read(show(inches, "length"), "length") == pytest.approx(inches, abs=1 / 32 + 1e-9, rel=0)
    assert read(show(-inches, "offset"), "offset") == pytest.approx(-inches, abs=1 / 32 + 1e-9, rel=0)
    assert read(show(inches, "length", "SI"), "length") == pytest.approx(inches, abs=0.5 / 25.4 + 1e-9, rel=0)


# kind: (largest inner value tried, half of the last decimal that is shown, in inner units: US, SI)
LB_PER_KN = 1000 / 4.4482216
HALF_STEPS = {
    "small length": (1e4, 0.0005, 0.05 / 25.4),
    "force": (1e6, 0.05, 0.0005 * LB_PER_KN),
    "line load": (1e4, 0.05 / 12, 0.0005 * LB_PER_KN * 0.0254),
    "stiffness": (1e7, 0.5, 0.5 * LB_PER_KN * 0.0254),
    "area load": (100, 0.05 / 144, 0.0005 * 0.1450378),  # 1 kPa = 0.1450378 psi
    "stress": (1e7, 0.05, 0.0005 * 145.0378),
    "moment": (1e8, 0.05 * 12, 0.0005 * 8850.75),  # 1 kN·m = 8850.75 lbf*in
    "density": (200, 0.05, 0.5 * 0.0624280),  # 1 kg/m3 = 0.0624280 pcf
    "temperature": (1000, 0.05, 0.05 * 1.8),
    "slope": (89, 0.05, 0.05),
    "angle": (360, 0.05, 0.05),
    "moisture": (200, 0.05, 0.05),
    "area": (1e5, 0.005, 0.5 / 645.16),
    "section modulus": (1e6, 0.005, 0.05 / 16.387),
    "inertia": (1e7, 0.005, 0.05 / 41.623),
}


def test_every_kind_makes_the_round_trip() -> None:
    assert set(HALF_STEPS) == set(KINDS) - {"length", "offset", "ratio", "load"}


@given(st.sampled_from(sorted(HALF_STEPS)), st.floats(min_value=0, max_value=1), st.booleans())
def test_other_kinds_come_back_within_the_digits_shown(kind: str, share: float, negative: bool) -> None:
    most, *half_steps = HALF_STEPS[kind]
    inner = share * most * (-1 if negative and KINDS[kind].lowest < -1000 else 1)
    for system, half_step in zip(("US", "SI"), half_steps, strict=True):
        text = show(inner, kind, system)
        # three significant digits are within 0.5 % of the number shown; deg C are counted from 32 deg F
        allowed = max(half_step, 0.005 * abs(inner - (32 if kind == "temperature" and system == "SI" else 0))) * 1.001
        assert read(text, kind) == pytest.approx(inner, abs=allowed, rel=0)
        assert text.lstrip("−") != text or inner >= 0 or text.startswith("0 ") or kind == "temperature"
        assert not text.startswith("−0 ")


@given(
    st.floats(min_value=-1e5, max_value=1e5),
    st.sampled_from(sorted(set(KINDS) - {"load"})),
    st.sampled_from(["US", "SI"]),
)
def test_number_and_unit_make_the_whole_text(value: float, kind: str, system: str) -> None:
    number, unit = show_number(value, kind, system)
    assert show(value, kind, system) == f"{number} {unit}".strip()
    assert "-" not in number  # a real minus sign, never a hyphen


@pytest.mark.parametrize(
    ("kind", "value", "split"),
    [
        ("length", 6.5, ("6 1/2", "in")),
        ("length", 174.0, ("14 ft 6 in", "")),
        ("force", 1240.0, ("1,240", "lb")),
        ("ratio", 0.75, ("0.750", "")),
    ],
)
def test_the_unit_is_split_off(kind: str, value: float, split: tuple[str, str]) -> None:
    assert show_number(value, kind) == split


@pytest.mark.parametrize(
    ("kind", "inner", "system", "value", "label"),
    [
        ("length", 174.0, "US", 174, "in"),
        ("length", 10.0, "SI", 254, "mm"),
        ("area load", 1.0, "US", 144, "psf"),
        ("stress", 1000.0, "SI", 6.894757, "MPa"),  # 1 psi = 6894.757 Pa
        ("temperature", 212.0, "SI", 100, "°C"),
        ("ratio", 0.5, "SI", 0.5, ""),
    ],
)
def test_inner_values_convert_for_axes(kind: str, inner: float, system: str, value: float, label: str) -> None:
    assert from_inner(inner, kind, system) == pytest.approx(value, rel=1e-6)
    assert from_inner(np.array([inner, inner]), kind, system) == pytest.approx([value, value], rel=1e-6)
    assert unit_label(kind, system) == label


@pytest.mark.parametrize(
    ("length", "whole"),
    [
        (119.9999999999, 120), (120.0, 120), (120.99, 120), (119.999, 119), (119.9999, 119), (0.0, 0), (0.9, 0),
        (10 / 25.4 * 25.4 * 12, 120), (-3.5, -4),
    ],
)  # fmt: skip
def test_down_to_inch(length: float, whole: int) -> None:
    assert down_to_inch(length) == whole


@given(st.floats(min_value=0, max_value=1e6))
def test_down_to_inch_never_adds_more_than_dust(length: float) -> None:
    whole = down_to_inch(length)
    assert whole == int(whole)
    assert length - 1 < whole <= length * (1 + 1.001e-9)


@pytest.mark.parametrize("length", [math.nan, math.inf])
def test_down_to_inch_refuses_what_is_not_finite(length: float) -> None:
    with pytest.raises(OutOfRange, match=rf"^a length of {length} cannot be rounded down to an inch$"):
        down_to_inch(length)


@pytest.mark.parametrize(
    ("value", "kind", "system", "error", "message"),
    [
        (math.nan, "force", "US", UnitError, "a force of nan cannot be shown"),
        (-math.inf, "ratio", "US", UnitError, "a ratio of -inf cannot be shown"),
        (math.inf, "length", "SI", UnitError, "a length of inf cannot be shown"),
        (1.0, "load", "US", UnitError, "a load is shown from its value and what it is, such as (0.25, 'area')"),
        ((1.0, "area"), "force", "US", UnitError, "a force is shown from one number"),
        (1.0, "forse", "US", UnknownName, "kind of quantity 'forse' is not known; did you mean 'force'?"),
        (1.0, "force", "metric", UnknownName, "system of units 'metric' is not known; known are 'US', 'SI'"),
        ((1.0, "lines"), "load", "US", UnknownName, "what a load is 'lines' is not known; did you mean 'line'?"),
    ],
)
def test_what_cannot_be_shown_says_why(
    value: Any, kind: str, system: str, error: type[Exception], message: str
) -> None:
    with pytest.raises(error) as caught:
        show(value, kind, system)
    assert str(caught.value) == message
