"""Numbers and names as they are printed."""

from __future__ import annotations

import math
from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from beamcheck.sheet.document.numerals import parts, plain, rounded
from beamcheck.sheet.document.symbols import by_rule, meaning, plain_symbol, plain_unit, quoted, symbol_source


@pytest.mark.parametrize(
    ("value", "text"),
    [
        (0.0, "0"),
        (1.15, "1.15"),
        (1.0, "1"),
        (0.98697, "0.9870"),
        (9.8125, "9.813"),  # half up, as by hand, and not to the even digit
        (1.00002, "1.000"),
        (1234.5678, "1,235"),
        (1_300_000.0, "1,300,000"),
        (12_345_678.9, "12,345,679"),  # whole digits are never rounded away
        (-0.5, "−0.5"),
        (1.3e9, "1.3×10^9"),
        (0.00001234, "1.234×10^−5"),
        (0.1 + 0.2, "0.3"),  # noise of double precision earns no zeros
        (math.nan, "no value"),
        (math.inf, "∞"),
        (-math.inf, "−∞"),
    ],
)
def test_numbers_for_people(value: float, text: str) -> None:
    assert plain(value) == text


@given(st.floats(allow_nan=False, allow_infinity=False), st.integers(1, 17))
def test_what_is_printed_is_what_rounded_says(value: float, digits: int) -> None:
    text, power = parts(value, digits)
    printed = Decimal(text.replace(",", "")) * Decimal(10) ** (power or 0)
    assert float(printed) == pytest.approx(rounded(value, digits), rel=1e-12, abs=0)


@given(st.floats(min_value=1e-300, max_value=1e300))
def test_rounding_keeps_four_digits(value: float) -> None:
    assert rounded(value) == pytest.approx(value, rel=5.0001e-4)


@given(st.floats(min_value=1e-300, max_value=1e300), st.floats(min_value=1e-300, max_value=1e300))
def test_rounding_keeps_order(one: float, other: float) -> None:
    low, high = sorted((one, other))
    assert rounded(low) <= rounded(high)


@pytest.mark.parametrize(
    ("name", "source"),
    [  # names that the table does not hold: by rule
        ("Q", "Q"),
        ("q_zz", 'q_"zz"'),
        ("Q_b_star", "Q_b^*"),
        ("Q_b_prime", "Q'_b"),
        ("Q_e_perp", "Q_(e thin perp)"),
        ("gamma_x", "gamma_x"),
        ("l_zz", 'ell_"zz"'),
        ("share", '"share"'),
        ("two words", '"two words"'),
        ('a"b', '"a\\"b"'),
    ],
)
def test_symbols_by_rule(name: str, source: str) -> None:
    assert by_rule(name).source == source


def test_a_ratio_of_two_symbols() -> None:
    assert symbol_source("l_e1/d_1").source == 'ell_"e1" "/" d_1'
    assert by_rule("a/b/c").source == '"a/b/c"'


def test_symbols_of_the_table_come_first() -> None:
    assert symbol_source("l_e").source == "ell_e"
    assert symbol_source("F_b_prime").source == "F'_b"
    assert meaning("C_L") == "beam stability factor"
    assert plain_symbol("F_b") == "Fb"
    assert (meaning("q_zz"), plain_symbol("q_zz")) == ("", "q_zz")


@pytest.mark.parametrize(
    ("unit", "text"),
    [("psi", "psi"), ("in2", "in²"), ("in^4", "in⁴"), ("lbf*in", "lbf·in"), ("lbf/in2", "lbf/in²"), ("", "")],
)
def test_units_as_text(unit: str, text: str) -> None:
    assert plain_unit(unit) == text


def test_quotes_and_backslashes_stay_text() -> None:
    assert quoted('a"\\') == '"a\\"\\\\"'
