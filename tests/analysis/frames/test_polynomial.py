"""Polynomial helpers: against numpy.polynomial (another method) and by their meaning."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from hypothesis.extra.numpy import arrays
from numpy.polynomial import polynomial as reference

from beamcheck.analysis.frames.polynomial import crossings, derivative, evaluate, extremes, on_unit_interval

size = st.floats(-10, 10).map(lambda x: round(x, 3))
some = st.integers(0, 5).flatmap(lambda degree: arrays(float, (3, degree + 1), elements=size))


@given(some, st.floats(-3, 3))
def test_value_and_derivative_agree_with_numpy(c, x):
    for row, value, rate in zip(c, evaluate(c, x), evaluate(derivative(c), x), strict=True):
        assert value == pytest.approx(reference.polyval(x, row), abs=1e-9)
        assert rate == pytest.approx(reference.polyval(x, reference.polyder(row)), abs=1e-9)


@given(some, st.floats(-2, 2), st.floats(0.01, 3), st.floats(0, 1))
def test_unit_interval_is_the_same_polynomial(c, start, width, t):
    unit = on_unit_interval(c, start, start + width)
    assert evaluate(unit, t) == pytest.approx(evaluate(c, start + width * t), abs=1e-7)


@given(st.lists(st.integers(1, 999), min_size=1, max_size=5, unique=True))
def test_crossings_find_every_root_between_0_and_1(thousandths):
    roots = np.sort(np.array(thousandths)) / 1000.0
    found = crossings(reference.polyfromroots(roots))
    assert np.all(np.diff(found) >= 0.0)
    # five roots a thousandth apart: the coefficients themselves only carry the roots to about a millionth
    assert np.min(np.abs(found[:, None] - roots), axis=0) == pytest.approx(np.zeros(roots.size), abs=1e-4)


def test_roots_outside_count_for_nothing():
    assert np.all(crossings(reference.polyfromroots([-0.5, 2.0, 3.0])) <= 1.0)


@given(some, st.floats(-2, 2), st.floats(0, 3))
def test_extremes_bound_a_fine_sample_and_are_attained(c, start, width):
    low, x_low, high, x_high = extremes(c, start, start + width)
    sample = np.linspace(start, start + width, 201)
    values = evaluate(c[:, None, :], sample)
    slack = 1e-12 * (1.0 + np.abs(c).max()) * (1.0 + abs(start) + width) ** 5
    assert np.all(values.min(axis=1) >= low - slack)
    assert np.all(values.max(axis=1) <= high + slack)
    assert evaluate(c, x_low) == pytest.approx(low, abs=10 * slack)
    assert evaluate(c, x_high) == pytest.approx(high, abs=10 * slack)
    assert np.all((x_low >= start) & (x_low <= start + width) & (x_high >= start) & (x_high <= start + width))


def test_extremes_of_a_sine_like_quintic():
    """x - 10 x^3 + 16 x^5 on [-1, 1]: by hand, p' = 1 - 30 x^2 + 80 x^4 = 0 gives x^2 = (15 -+ sqrt(145))/80."""
    c = np.array([0.0, 1.0, 0.0, -10.0, 0.0, 16.0])
    x = np.sqrt((15.0 + np.sqrt(145.0)) / 80.0)
    turn = x - 10.0 * x**3 + 16.0 * x**5
    low, x_low, high, x_high = extremes(c, -1.0, 1.0)
    assert (low, high) == (pytest.approx(-7.0), pytest.approx(7.0))
    assert (x_low, x_high) == (-1.0, 1.0)
    low, x_low, high, x_high = extremes(c, -0.7, 0.7)
    assert (low, x_low, high, x_high) == tuple(pytest.approx(value) for value in (turn, x, -turn, -x))
