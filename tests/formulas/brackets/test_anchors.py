"""Pull on a bracket's anchors by three models: the collected notes on brackets, statics, and what is refused."""

from __future__ import annotations

import re

import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.optimize import brentq

from beamcheck.errors import OutOfRange
from beamcheck.formulas.brackets import anchors as anchor

# x_L, height of the one row, thickness, eta, pulls by heel pivot and by lever arm; then for a stiff anchor on a hard
# wall and for a soft one on a softer wall: pull by the springy wall, and in plane stress models with one-sided
# contact. 100 lb; the notes' list of check values (read; computed there: derived)
ROWS = [
    ("straight", 11.5, 10.0, 1.5, 0.7, 115, 164.286, (115.985, 149.609), (123.812, 127.741)),
    ("concave", 9.5, 12.0, 2.5, 0.45, 79.1667, 175.926, (79.647, 165.597), (83.5201, 118.235)),
    ("concave, deep foot", 9.5, 12.5, 2.5, 0.45, 76, 168.889, (76.4518, 134.697), (80.0977, 92.885)),
    ("convex", 7.5, 8.5, 2.5, 0.7, 88.2353, 126.05, (88.871, 93.7191), (93.9626, 94.4901)),
]


@pytest.mark.parametrize(("_name", "x_L", "h_1", "t", "eta", "pivot", "arm", "hard", "soft"), ROWS)
def test_three_models(
    _name: str, x_L: float, h_1: float, t: float, eta: float, pivot: float, arm: float,
    hard: tuple[float, float], soft: tuple[float, float],
) -> None:  # fmt: skip
    assert anchor.pivot_rows(100.0, x_L, [h_1]) == pytest.approx((pivot,), rel=1e-5)
    found = anchor.top_row_pull(100.0, x_L, eta, h_1)
    assert found == pytest.approx(arm, rel=1e-5)
    for (springy, model), k_ax, k_wall in ((hard, 50000.0, 1e7), (soft, 10000.0, 23000.0)):
        assert anchor.rocking_rows(100.0, x_L, [h_1], [k_ax], k_wall, t).pulls == pytest.approx((springy,), rel=1e-5)
        assert found >= model  # the rule to design with covers the models; the two others do not
        assert max(pivot, springy) < model


rows = st.lists(st.tuples(st.floats(0.3, 20.0), st.floats(1e3, 1e5)), min_size=1, max_size=5)


@given(rows, st.floats(1e2, 1e7), st.floats(0.75, 3.5), st.floats(1.0, 2000.0), st.floats(0.5, 20.0))
def test_the_springy_wall_is_in_balance(
    placed: list[tuple[float, float]], k_wall: float, t: float, P: float, x_L: float
) -> None:
    """Push equals pull, their moment that of the load; rows in the contact carry nothing; the contact by bisection."""
    heights, stiffnesses = zip(*placed, strict=True)
    found = anchor.rocking_rows(P, x_L, heights, stiffnesses, k_wall, t)
    push = k_wall * t * found.c_h**2 / 2 * found.omega
    assert push == pytest.approx(sum(found.pulls), rel=1e-9)
    turning = sum(pull * h for pull, h in zip(found.pulls, heights, strict=True)) - push * found.c_h / 3
    assert turning == pytest.approx(P * x_L, rel=1e-9)
    for pull, (h, k) in zip(found.pulls, placed, strict=True):
        assert pull == pytest.approx(max(k * (h - found.c_h), 0.0) * found.omega, rel=1e-9, abs=1e-9)

    def unbalanced(c: float) -> float:
        return k_wall * t * c**2 / 2 - sum(k * max(h - c, 0.0) for h, k in placed)

    assert found.c_h == pytest.approx(brentq(unbalanced, 0, max(heights), xtol=1e-12), rel=1e-6, abs=1e-9)


def test_a_row_near_the_foot_drops_out() -> None:
    """Soft wall: the contact grows past the low row, which then leaves all to the upper one."""
    one = anchor.rocking_rows(100.0, 10.0, [10.0], [10000.0], 5000.0, 1.5)
    two = anchor.rocking_rows(100.0, 10.0, [1.0, 10.0], [50000.0, 10000.0], 5000.0, 1.5)
    assert one.c_h > 1.0 and two.pulls == (0.0, *one.pulls) and two.c_h == one.c_h


@given(st.lists(st.floats(0.5, 20.0), min_size=1, max_size=5), st.floats(1.0, 2000.0), st.floats(0.5, 20.0))
def test_a_hard_wall_is_the_heel_pivot(heights: list[float], P: float, x_L: float) -> None:
    pivot = anchor.pivot_rows(P, x_L, heights)
    assert sum(pull * h for pull, h in zip(pivot, heights, strict=True)) == pytest.approx(P * x_L)
    hard = anchor.rocking_rows(P, x_L, heights, [10000.0] * len(heights), 1e13, 1.5)
    assert hard.pulls == pytest.approx(pivot, rel=2e-3, abs=1e-3 * P)


def test_stiffness_with_anchors() -> None:
    """A rigid body on a hinge at the heel and a spring at the top row: P over k_ax times the square of the arms.

    Statics (how: derived); with a body of 38,218 lb/in and lateral springs it is softer than each alone.
    """
    rigid = anchor.bracket_stiffness(1e15, 12.0, 1.0, 10.0, 20000.0, 1e15)
    pull = 100 * 12.0 / 10.0
    assert 100 / rigid == pytest.approx(pull / 20000.0 * 12.0 / 10.0)
    assert anchor.bracket_stiffness(38218.0, 12.0, 1.0, 10.0, 20000.0, 60000.0) < min(rigid, 38218.0, 60000.0)
    soft = anchor.bracket_stiffness(38218.0, 12.0, 0.7, 10.0, 20000.0, 60000.0)
    assert soft < anchor.bracket_stiffness(38218.0, 12.0, 1.0, 10.0, 20000.0, 60000.0)


@pytest.mark.parametrize(
    ("heights", "stiffnesses", "k_wall", "told"),
    [
        ([], [], 1e4, "a bracket needs at least one row of anchors"),
        ([10.0], [1e4, 1e4], 1e4, "each row needs a stiffness: 1 heights, 2 stiffnesses"),
        ([10.0, -1.0], [1e4, 1e4], 1e4, "h_i must be a finite number above 0, given -1"),
        ([10.0], [0.0], 1e4, "k_ax must be a finite number above 0, given 0"),
        ([10.0], [1e4], float("nan"), "k_wall must be a finite number above 0"),
    ],
)
def test_rows_that_are_refused(heights: list[float], stiffnesses: list[float], k_wall: float, told: str) -> None:
    with pytest.raises(OutOfRange, match=re.escape(told)):
        anchor.rocking_rows(100.0, 10.0, heights, stiffnesses, k_wall, 1.5)


def test_a_pivot_without_rows_is_refused() -> None:
    with pytest.raises(OutOfRange, match="a bracket needs at least one row of anchors"):
        anchor.pivot_rows(100.0, 10.0, [])
