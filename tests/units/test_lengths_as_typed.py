"""Lengths as people write them. Expected values by counting (1 ft = 12 in, 1 in = 25.4 mm), never from the code."""

import pytest

from beamcheck.errors import BeamcheckError, UnitError
from beamcheck.units import read

SPELLINGS = {
    "14 ft 6 in": 14 * 12 + 6,
    "14 feet 6 inches": 174,
    "1 foot 1 inch": 13,
    "7'-6 1/2\"": 90.5,
    "7' 6-1/2\"": 90.5,
    "7'-6-1/2\"": 90.5,
    "7'6\"": 90,
    "7' - 6\"": 90,  # a joint between feet and inches, never a subtraction
    "7'- 6\"": 90,
    "7 ft - 6 in": 90,
    "7'-1/2\"": 84.5,
    "7' 0\"": 84,
    "7 ft. 6 in.": 90,
    "7FT6IN": 90,
    "7 ft 6.25 in": 90.25,
    "90.5 in": 90.5,
    "90.5in": 90.5,
    '90.5"': 90.5,
    "90.5''": 90.5,
    "12 in.": 12,
    "1 1/2 in": 1.5,
    '1-1/2"': 1.5,
    "3/4 in": 0.75,
    "3/2 in": 1.5,
    "5/4 in": 1.25,  # a deck board
    "15/16 in": 0.9375,
    "20/8 in": 2.5,  # no proper fraction behind a whole number: 2 0/8
    "17/12 ft": 17,
    ".5 in": 0.5,
    "5. in": 5,
    "7 1/2 ft": 90,
    "7.5 ft": 90,
    "7'": 84,
    "½ in": 0.5,
    "7’–6½”": 90.5,
    "7′ 6 1/2″": 90.5,
    "7‘6“": 90,
    "6⅝″": 6.625,
    "6-⅝″": 6.625,
    "1⁄2 in": 0.5,
    "7\u00a0ft\u20096\u202fin": 90,  # no-break and thin spaces
    "  7   ft  6  in ": 90,
    "1,240 ft": 14880,
    "1,234,567.5 mm": 1234567.5 / 25.4,
    "2.3 m": 2300 / 25.4,
    "2300 mm": 2300 / 25.4,
    "230 cm": 2300 / 25.4,
    "2.54 cm": 1,
    "254 millimetres": 10,
    "0.254 meters": 10,
    "1e3 mm": 1000 / 25.4,
    "0 in": 0,
    "0 ft": 0,
    "3 ft2 in": 38,
}


@pytest.mark.parametrize(("text", "inches"), SPELLINGS.items())
def test_a_length_reads_in_inches(text: str, inches: float) -> None:
    assert read(text, "length") == pytest.approx(inches, rel=1e-14, abs=0)


@pytest.mark.parametrize("text", ["1/3 in", "7 ft 4 2/3 in", "2.3 m"])
def test_fractions_are_exact_up_to_the_last_float(text: str) -> None:
    # one rounding only, at the very end: 1/3; 88 + 2/3 = 266/3; 2300/25.4 = 23000/254
    assert read(text, "length") == {"1/3 in": 1 / 3, "7 ft 4 2/3 in": 266 / 3, "2.3 m": 23000 / 254}[text]


EXAMPLE = "for example '14 ft 6 in'"
REFUSED = {
    "": f"'' is not a length: a number and its unit, {EXAMPLE}",
    "six feet": f"'six feet' is not a length: a number and its unit, {EXAMPLE}",
    "nan in": f"'nan in' is not a length: a number and its unit, {EXAMPLE}",
    "inf in": f"'inf in' is not a length: a number and its unit, {EXAMPLE}",
    "12": f"'12' has no unit; a length is written with one, {EXAMPLE}",
    "1 1/2": f"'1 1/2' has no unit; a length is written with one, {EXAMPLE}",
    "7' 6": '"7\' 6": the number after the feet has no unit; write inches as in "7\' 6 in"',
    "7'-6 1/2": '"7\'-6 1/2": the number after the feet has no unit; write inches as in "7\'-6 1/2 in"',
    "3 ft 6": "'3 ft 6': the number after the feet has no unit; write inches as in '3 ft 6 in'",
    "7 ft 12 in": f"'7 ft 12 in': inches after feet are below 12, not 12, {EXAMPLE}",
    "7 ft 13 1/2 in": f"'7 ft 13 1/2 in': inches after feet are below 12, not 13 1/2, {EXAMPLE}",
    "1/0 in": "'1/0 in': the fraction 1/0 divides by zero",
    "7 ft 6 1/0 in": "'7 ft 6 1/0 in': the fraction 1/0 divides by zero",
    "1 3/2 in": "'1 3/2 in': after a whole number the fraction is less than 1, not 3/2",
    "1 2/2 in": "'1 2/2 in': after a whole number the fraction is less than 1, not 2/2",
    "31/2 in": "'31/2 in': 3 1/2 or 15 1/2? Write a space after the whole number",  # 31 halves are 15 1/2
    "111/16 in": "'111/16 in': 11 1/16 or 6 15/16? Write a space after the whole number",
    "2 ft 13/4 in": "'2 ft 13/4 in': 1 3/4 or 3 1/4? Write a space after the whole number",
    "16/16 in": "'16/16 in': 1 6/16 or 1? Write a space after the whole number",
    "7.5 ft 6 in": f"'7.5 ft 6 in': feet before inches are a whole number, not 7.5, {EXAMPLE}",
    "7 1/2 ft 6 in": f"'7 1/2 ft 6 in': feet before inches are a whole number, not 7 1/2, {EXAMPLE}",
    "7 ft -6 in": f"'7 ft -6 in': there is a sign inside the length, {EXAMPLE}",
    "7 ft + 6 in": f"'7 ft + 6 in': there is a sign inside the length, {EXAMPLE}",
    "7 ft --6 in": f"'7 ft --6 in': there is a sign inside the length, {EXAMPLE}",
    "-3 in": f"'-3 in': a length has no sign, {EXAMPLE}",
    "−3 in": f"'−3 in': a length has no sign, {EXAMPLE}",
    "+3 in": f"'+3 in': a length has no sign, {EXAMPLE}",
    "2,3 m": "'2,3 m': a comma only parts thousands (1,240); write decimals with a point (2.3)",
    "0,500 in": "'0,500 in': a comma only parts thousands (1,240); write decimals with a point (2.3)",
    "12,34,567 in": "'12,34,567 in': a comma only parts thousands (1,240); write decimals with a point (2.3)",
    "2,300 mm": "'2,300 mm' could mean 2300 or 2.300 mm; write one of these, without a comma",
    "1/2 m": "'1/2 m': metric values are written as decimals, not with a fraction",
    "40 psf": f"'40 psf' has the dimension force per area; a length needs the dimension length, {EXAMPLE}",
    "3 ft2": f"'3 ft2' has the dimension area; a length needs the dimension length, {EXAMPLE}",
    "12 fet": "'12 fet': unit 'fet' is not known; did you mean 'feet' or 'ft'?",
    "1 yd": "'1 yd': unit 'yd' is not known; known are 'in', 'ft', 'mm', 'cm', 'm'",
    "7' 6 lb": f'"7\' 6 lb": "\' 6 lb" is not a unit; a length is one number and its unit, {EXAMPLE}',
    "7' 6\" 3": f"'7\\' 6\" 3': '\\' 6\" 3' is not a unit; a length is one number and its unit, {EXAMPLE}",
    "5½2 in": f"'5½2 in': '2 in' is not a unit; a length is one number and its unit, {EXAMPLE}",
    "½2 in": f"'½2 in': '2 in' is not a unit; a length is one number and its unit, {EXAMPLE}",
    "6 in 12": f"'6 in 12': 'in 12' is not a unit; a length is one number and its unit, {EXAMPLE}",
    "10^400 in": f"'10^400 in': '^400 in' is not a unit; a length is one number and its unit, {EXAMPLE}",
    "1e400 in": "'1e400 in' is out of reason: a length here is from 0 to 1,000,000 in",
    "1000001 in": "'1000001 in' is out of reason: a length here is from 0 to 1,000,000 in",
    "1e999999999 in": "'1e999999999 in': the exponent '999999999' is beyond reason",
    "1e-12 in": "'1e-12 in' is too small to be meant; for none write 0 with its unit",
    "9" * 90 + " in": f"'{'9' * 37}...' is out of reason: a length here is from 0 to 1,000,000 in",
    "9" * 5000 + " in": f"'{'9' * 37}...' is too long for a quantity (5003 characters)",
}


@pytest.mark.parametrize(("text", "message"), REFUSED.items(), ids=[text[:20] or "empty" for text in REFUSED])
def test_what_is_not_plainly_a_length_is_refused(text: str, message: str) -> None:
    with pytest.raises(UnitError) as caught:
        read(text, "length")
    assert str(caught.value) == message


@pytest.mark.parametrize("text", ["5-6 in", "3/4-1 in", "1/2/2 in", "1.2.3 in", "6\" 7'", "2 x 4 in", "1/16th in"])
def test_other_riddles_are_refused(text: str) -> None:
    with pytest.raises(UnitError):
        read(text, "length")


@pytest.mark.parametrize(
    ("text", "inches"), [("-1 ft 6 in", -18), ("−2 1/2 in", -2.5), ("- 3 in", -3), ("+2 in", 2), ("14 ft 6 in", 174)]
)
def test_an_offset_has_a_sign_for_the_whole(text: str, inches: float) -> None:
    assert read(text, "offset") == inches


def test_an_offset_has_one_sign_only() -> None:
    with pytest.raises(UnitError, match=r"^'--3 in' is not an offset: a number and its unit, for example '-2 1/2 in'$"):
        read("--3 in", "offset")


@pytest.mark.parametrize("value", [6, 6.0, 1 + 1j, pytest.param(10**5000, id="5001 digits")])
def test_a_bare_number_is_refused(value: object) -> None:
    with pytest.raises(UnitError) as caught:
        read(value, "length")
    assert str(caught.value) == (
        "a bare number has no unit; a length is text with its unit, for example '14 ft 6 in', or a pint quantity"
    )


@pytest.mark.parametrize("value", [True, None, [6], b"6 in", {"in": 6}, ("6 in",), object()])
def test_what_is_no_text_is_refused_with_its_type(value: object) -> None:
    with pytest.raises(UnitError) as caught:
        read(value, "length")
    assert str(caught.value) == (
        f"a length is text with its unit, for example '14 ft 6 in', or a pint quantity, not {type(value).__name__}"
    )


def test_unknown_kinds_are_named_with_the_nearest() -> None:
    with pytest.raises(BeamcheckError, match=r"^kind of quantity 'lenght' is not known; did you mean 'length'"):
        read("6 in", "lenght")
