"""Every other kind of quantity as text: right spellings, refusals, and whatever a keyboard can produce."""

import math
from decimal import Decimal
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from beamcheck.errors import UnitError
from beamcheck.units import KINDS, example, read
from beamcheck.units.unit_list import UNITS

LB = 0.45359237 * 9.80665  # N; the definitions of the pound and of standard gravity
FT = 0.3048  # m; the definition of the foot

RIGHT = [  # kind, text, value in the inner unit
    ("force", "1,240 lb", 1240),
    ("force", "1240 lbs.", 1240),
    ("force", "1240 Pounds", 1240),
    ("force", "1240 lbf", 1240),
    ("force", "1.24 kip", 1240),
    ("force", "-500 lb", -500),
    ("force", "–500 lb", -500),
    ("force", "2 kN", 2000 / LB),
    ("force", "2000 newtons", 2000 / LB),
    ("force", "100 kgf", 100 / 0.45359237),
    ("line load", "120 plf", 10),
    ("line load", "120 lb/ft", 10),
    ("line load", "120 pounds per foot", 10),
    ("line load", "10 pli", 10),  # pounds per inch
    ("line load", "0.12 klf", 10),
    ("line load", "1.46 kN/m", 1460 / LB * 0.0254),
    ("area load", "40 psf", 40 / 144),
    ("area load", "40 lb/ft2", 40 / 144),
    ("area load", "40 lb/ft²", 40 / 144),
    ("area load", "40 lb / ft^2", 40 / 144),
    ("area load", "40 pounds per sq. ft.", 40 / 144),
    ("area load", "1.9 kPa", 1900 / LB * 0.0254**2),
    ("area load", "1.9 kN/m²", 1900 / LB * 0.0254**2),
    ("area load", "1.9 KN/M2", 1900 / LB * 0.0254**2),
    ("stress", "1,500 psi", 1500),
    ("stress", "1.6e6 psi", 1.6e6),
    ("stress", "1,600,000 PSI", 1.6e6),
    ("stress", "1600 ksi", 1.6e6),
    ("stress", "12 MPa", 12e6 / LB * 0.0254**2),
    ("stress", "12 N/mm2", 12e6 / LB * 0.0254**2),
    ("stress", "11.5 gpa", 11.5e9 / LB * 0.0254**2),
    ("moment", "3,440 lb-ft", 41280),
    ("moment", "3440 ft-lb", 41280),
    ("moment", "3440 ft·lbf", 41280),
    ("moment", "41280 in-lb", 41280),
    ("moment", "3.44 kip-ft", 41280),
    ("moment", "2 kN·m", 2000 / LB / 0.0254),
    ("moment", "2 kN m", 2000 / LB / 0.0254),
    ("moment", "2000 N.m", 2000 / LB / 0.0254),
    ("density", "35 pcf", 35),
    ("density", "35 lb/cu ft", 35),
    ("density", "560 kg/m3", 560 / 0.45359237 * FT**3),  # the weight of that mass
    ("density", "5.5 kN/m³", 5500 / LB * FT**3),
    ("temperature", "90 F", 90),
    ("temperature", "90 degF", 90),
    ("temperature", "90 °F", 90),
    ("temperature", "90℉", 90),
    ("temperature", "90 degrees Fahrenheit", 90),
    ("temperature", "32 C", 89.6),
    ("temperature", "32 °C", 89.6),
    ("temperature", "-40 C", -40),
    ("slope", "12:12", 45),
    ("slope", "6:12", math.degrees(math.atan(0.5))),
    ("slope", "6/12", math.degrees(math.atan(0.5))),
    ("slope", "6 in 12", math.degrees(math.atan(0.5))),
    ("slope", "6-in-12", math.degrees(math.atan(0.5))),
    ("slope", "6 IN 12", math.degrees(math.atan(0.5))),
    ("slope", "6½:12", math.degrees(math.atan(6.5 / 12))),
    ("slope", "0:12", 0),
    ("slope", "26.6 deg", 26.6),
    ("slope", "30°", 30),
    ("slope", "30 degrees", 30),
    ("angle", "30 deg", 30),
    ("moisture", "19 %", 19),
    ("moisture", "19%", 19),
    ("moisture", "19 percent", 19),
    ("area", "70.7 in2", 70.7),
    ("area", "2 sq ft", 288),
    ("area", "645.16 mm2", 1),
    ("section modulus", "115 in³", 115),
    ("section modulus", "16.387064 cm3", 1),
    ("inertia", "560 in^4", 560),
    ("inertia", "41.6231426 cm4", 41.6231426 / 2.54**4),
    ("small length", "0.534 in", 0.534),
    ("small length", "-13.6 mm", -13.6 / 25.4),
    ("ratio", "0.85", 0.85),
    ("ratio", "1/2", 0.5),
    ("ratio", 0.85, 0.85),
    ("ratio", 1, 1),
]


@pytest.mark.parametrize(("kind", "text", "value"), RIGHT)
def test_text_reads_in_the_inner_unit(kind: str, text: object, value: float) -> None:
    assert read(text, kind) == pytest.approx(value, rel=1e-14, abs=0)


@pytest.mark.parametrize(
    ("text", "value", "what"),
    [
        ("40 psf", 40 / 144, "area"),
        ("-20 psf", -20 / 144, "area"),
        ("1.9 kPa", 1900 / LB * 0.0254**2, "area"),
        ("100 plf", 100 / 12, "line"),
        ("1.46 kN/m", 1460 / LB * 0.0254, "line"),
        ("400 lb", 400, "point"),
        ("2 kN", 2000 / LB, "point"),
        ("0 lb", 0, "point"),
    ],
)
def test_a_load_says_what_it_is_by_its_unit(text: str, value: float, what: str) -> None:
    amount, found = read(text, "load")
    assert found == what
    assert amount == pytest.approx(value, rel=1e-14, abs=0)


LOAD = "a load needs the dimension force per area, force per length or force, for example '40 psf'"
WRONG = [
    ("load", "40", "'40' has no unit; a load is written with one, for example '40 psf'"),
    ("load", "6 in", f"'6 in' has the dimension length; {LOAD}"),
    ("load", "100 kg", f"'100 kg' has the dimension mass; {LOAD}; a mass is not a load: write kgf, N or kN"),
    (
        "load", "100 kg/m2",
        f"'100 kg/m2' has the dimension mass per area; {LOAD}; a mass is not a load: write kgf, N or kN",
    ),
    ("load", "5 #", "'5 #': '#' is not a unit; a load is one number and its unit, for example '40 psf'"),
    (
        "load", "12 lb 6 oz",
        "'12 lb 6 oz': 'lb 6 oz' is not a unit; a load is one number and its unit, for example '40 psf'",
    ),
    ("load", "2e9 lb", "'2e9 lb' is out of reason: a force here is from -1,000,000,000 to 1,000,000,000 lbf"),
    ("load", "1,200 kN", "'1,200 kN' could mean 1200 or 1.200 kN; write one of these, without a comma"),
    ("load", 40, "a bare number has no unit; a load is text with its unit, for example '40 psf', or a pint quantity"),
    (
        "force", "40 psf",
        "'40 psf' has the dimension force per area; a force needs the dimension force, for example '1,240 lb'",
    ),
    ("area load", "40 pfs", "'40 pfs': unit 'pfs' is not known; did you mean 'psi' or 'psf'?"),
    ("stress", "-5 psi", "'-5 psi': a stress has no sign, for example '1,500 psi'"),
    ("stress", "12 mPa", "'12 mPa': unit 'mPa' is not known; did you mean 'MPa' or 'Pa' or 'kPa'?"),  # 1e-9 of MPa
    ("temperature", "90", "'90' has no unit; a temperature is written with one, for example '90 F'"),
    ("temperature", "300 K", "'300 K': unit 'K' is not known; known are 'F', 'C'"),
    ("temperature", "-500 F", "'-500 F' is out of reason: a temperature here is from -459.67 to 2,000 deg F"),
    ("slope", "6", "'6' has no unit; a slope is written with one, for example '6:12'"),
    ("slope", "6/12 deg", "'6/12 deg': degrees are decimals; rise over run has no unit, for example '6:12'"),
    ("slope", "12:0", "'12:0': the run of a slope is above zero, for example '6:12'"),
    ("slope", "-6:12", "'-6:12': a slope has no sign, for example '6:12'"),
    ("slope", "90 deg", "'90 deg' is out of reason: a slope here is from 0 to below 90 deg"),
    ("slope", "1e9:12", "'1e9:12' is out of reason: a rise or run here is from 0 to 1,000,000"),
    (
        "slope", "50 %",
        "'50 %' has the dimension percentage; a slope needs the dimension angle, for example '6:12'",
    ),
    ("moisture", "0.19", "'0.19' has no unit; a moisture is written with one, for example '19 %'"),
    ("ratio", "85 %", "'85 %' is not a ratio, which is a number without a unit, for example '0.85'"),
    ("ratio", "-1", "'-1': a ratio has no sign, for example '0.85'"),
    ("ratio", -1.5, "'-1.5': a ratio has no sign, for example '0.85'"),
    ("ratio", math.nan, "'nan' is not a number; a ratio is, for example '0.85'"),
    ("ratio", math.inf, "'inf' is out of reason: a ratio here is from 0 to 1,000,000"),
    ("ratio", 10**400, "'the integer' is out of reason: a ratio here is from 0 to 1,000,000"),
    ("ratio", True, "a ratio is a number, for example '0.85', not bool"),
    ("ratio", 1j, "a bare number has no unit; a ratio is a number, for example '0.85'"),
]  # fmt: skip


@pytest.mark.parametrize(("kind", "text", "message"), WRONG)
def test_refusals_say_what_would_be_right(kind: str, text: object, message: str) -> None:
    with pytest.raises(UnitError) as caught:
        read(text, kind)
    assert str(caught.value) == message


@pytest.mark.parametrize("kind", KINDS)
def test_the_example_of_each_kind_is_right(kind: str) -> None:
    found = read(example(kind), kind)
    assert found != (0 if kind != "load" else (0, "area"))


@pytest.mark.parametrize("kind", [kind for kind in KINDS if kind != "ratio"])
@pytest.mark.parametrize("value", [1, 1.0, "1", "1.0"])
def test_no_kind_takes_a_bare_number(kind: str, value: object) -> None:
    with pytest.raises(UnitError, match="has no unit"):
        read(value, kind)


@pytest.mark.parametrize("kind", [kind for kind, about in KINDS.items() if about.lowest == 0 and kind != "ratio"])
def test_kinds_without_a_sign_refuse_it(kind: str) -> None:
    with pytest.raises(UnitError, match="has no sign"):
        read(f"-{example(kind)}", kind)


def test_minus_zero_is_zero() -> None:
    assert math.copysign(1, read("-0 lb", "force")) == 1


@given(st.decimals(min_value="0.001", max_value="9999", places=3))
def test_metric_text_equals_imperial_text(number: Decimal) -> None:
    exact = [
        ("length", "in", "mm", Decimal("25.4")),
        ("length", "ft", "m", Decimal("0.3048")),
        ("force", "lb", "N", Decimal("4.4482216152605")),
        ("line load", "lb/in", "N/m", Decimal("4.4482216152605") / Decimal("0.0254")),
        ("area load", "psf", "Pa", Decimal("4.4482216152605") / Decimal("0.3048") ** 2),
        ("moment", "lb-in", "N-m", Decimal("4.4482216152605") * Decimal("0.0254")),
        ("density", "pcf", "kg/m3", Decimal("0.45359237") / Decimal("0.3048") ** 3),
        ("area", "in2", "mm2", Decimal("645.16")),
        ("inertia", "in4", "mm4", Decimal("25.4") ** 4),
    ]
    for kind, imperial, metric, factor in exact:
        here, there = read(f"{number} {imperial}", kind), read(f"{number * factor:f} {metric}", kind)
        assert there == pytest.approx(here, rel=1e-12, abs=0)


@settings(max_examples=300, deadline=None)
@given(
    st.sampled_from(list(KINDS)),
    st.one_of(
        st.text(max_size=120),
        st.text(alphabet="0123456789 ./-+'\"″’½⅔eE,:%°²³^*·ftinmkNlbpsPaxK#", max_size=25),
        st.builds(
            lambda *parts: "".join(parts),
            st.sampled_from(["", "-", "+", "−", " "]),
            st.from_regex(r"[0-9]{0,4}[ ,./:e-]?[0-9]{0,6}", fullmatch=True),
            st.sampled_from([" ", "", "-", "\u00a0"]),
            st.sampled_from(["'", '"', "%", *UNITS]),
            st.sampled_from(["", " 6 in", '-6 1/2"', " 3", "/", "2"]),
        ),
    ),
)
def test_any_text_reads_or_is_a_unit_error(kind: str, text: str) -> None:
    try:
        found: Any = read(text, kind)
    except UnitError as error:
        assert 10 < len(str(error)) < 500
        return
    number = found[0] if kind == "load" else found
    assert type(number) is float
    assert KINDS[kind].lowest <= number <= KINDS[kind].highest


@given(
    st.sampled_from([kind for kind in KINDS if kind != "ratio"]),
    st.one_of(
        st.none(), st.booleans(), st.integers(), st.floats(), st.complex_numbers(), st.decimals(), st.fractions(),
        st.binary(max_size=9), st.lists(st.text(max_size=3), max_size=3),
        st.dictionaries(st.text(max_size=3), st.none(), max_size=2),
    ),
)  # fmt: skip
def test_anything_but_text_is_a_unit_error(kind: str, value: object) -> None:
    with pytest.raises(UnitError, match="is text with its unit, for example"):
        read(value, kind)


@pytest.mark.parametrize(
    ("repeated", "times", "end"),
    [("9", 1_000_000, " lb"), ("1 ", 500_000, ""), ("½", 100_000, " lb"), ("9", 90, "e99 lb"), ("1/", 49, ""),
     ("9,", 49, " lb"), ("0", 98, "in"), ("1e9", 33, ""), ("\ud800", 1, " lb")],
)  # fmt: skip
def test_huge_and_odd_texts_are_refused_by_a_short_message(repeated: str, times: int, end: str) -> None:
    with pytest.raises(UnitError) as caught:
        read(repeated * times + end, "force")
    assert len(str(caught.value)) < 300
