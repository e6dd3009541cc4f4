"""Bent bars: published factors, an exact solution of elasticity, and the collected notes on brackets."""

from __future__ import annotations

import math
import re

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.integrate import quad

from beamcheck.errors import OutOfRange
from beamcheck.formulas.brackets import curved_bar as bar


def golovin(P: float, a: float, b: float, t: float, r: float, angle: float) -> tuple[float, float]:
    """Stress along and across a curved bar under a force P at its free end that points to its center, exact.

    Radii a and b, thickness t, at the radius r and so many degrees from the free end (Golovin; in Timoshenko and
    Goodier, Theory of Elasticity, bending of a curved bar by a force at the end; how: memory, checked below).
    """
    N = a**2 - b**2 + (a**2 + b**2) * math.log(b / a)
    A, B, D = P / t / (2 * N), -P / t * a**2 * b**2 / (2 * N), -P / t * (a**2 + b**2) / N
    sine = math.sin(math.radians(angle))
    return (6 * A * r + 2 * B / r**3 + D / r) * sine, (2 * A * r - 2 * B / r**3 + D / r) * sine


def outer_stress(M: float, N: float, A: float, e_c: float, r_n: float, r_o: float) -> float:
    """Along the full side, by the same theory (Winkler-Bach; how: memory)."""
    return N / A - M * (r_o - r_n) / (A * e_c * r_o)


def stresses(P: float, r_i: float, r_o: float, t: float, angle: float) -> tuple[float, float]:
    """Along the hollow and the full side by the formulas; the force closes the arc."""
    d, r_m = r_o - r_i, (r_o + r_i) / 2
    r_n = bar.neutral_radius(d, r_o, r_i)
    sine = math.sin(math.radians(angle))
    section = {"M": -P * r_m * sine, "N": -P * sine, "A": t * d, "e_c": r_i + d / 2 - r_n, "r_n": r_n}
    return bar.curved_inner_stress(**section, r_i=r_i), outer_stress(**section, r_o=r_o)


def test_the_exact_solution_is_in_balance() -> None:
    """No stress across at both sides; over the section it sums to the force, whose line passes through the center."""
    force, moment = (quad(lambda r, n=n: golovin(100, 2, 4, 1.5, r, 60)[0] * r**n * 1.5, 2, 4)[0] for n in (0, 1))
    assert force == pytest.approx(-100 * math.sin(math.radians(60)), rel=1e-9)
    assert moment == pytest.approx(0, abs=1e-9)
    assert [golovin(100, 2, 4, 1.5, r, 60)[1] for r in (2.0, 4.0)] == pytest.approx([0, 0], abs=1e-9)


def test_the_exact_solution_of_the_notes() -> None:
    """-371.895 and 185.948 psi along the sides, -45.1794 psi across at r = 2.68 (collected notes, how: derived)."""
    found = [golovin(100, 2, 4, 1.5, 2, 60)[0], golovin(100, 2, 4, 1.5, 4, 60)[0], golovin(100, 2, 4, 1.5, 2.68, 60)[1]]
    assert found == pytest.approx([-371.895, 185.948, -45.1794], rel=1e-5)


@pytest.mark.parametrize(
    ("r_i", "inner", "outer", "straight_inner", "straight_outer"),
    [(2.0, -363.381, 181.69, -288.675, 230.94), (8.0, -870.346, 696.277, -808.29, 750.555)],
)
def test_stress_of_quarter_rings(
    r_i: float, inner: float, outer: float, straight_inner: float, straight_outer: float
) -> None:
    """100 lb at the end of a ring 2 in deep, 1-1/2 in thick, 60 deg from it (collected notes, how: derived)."""
    assert stresses(100, r_i, r_i + 2, 1.5, 60) == pytest.approx((inner, outer), rel=1e-5)
    M, N = 100 * (r_i + 1) * math.sin(math.radians(60)), 100 * math.sin(math.radians(60))
    as_straight = [-N / 3 + side * 6 * M / (1.5 * 2**2) for side in (-1, 1)]
    assert as_straight == pytest.approx([straight_inner, straight_outer], rel=1e-5)
    assert bar.radial_stress(M, r_i + 1, 1.5, 2.0) == pytest.approx(43.3013, rel=1e-5)


@pytest.mark.parametrize(("r_o", "within"), [(2.2, 0.0005), (2.5, 0.003), (3.0, 0.01), (4.0, 0.025)])
def test_against_the_exact_solution(r_o: float, within: float) -> None:
    """Curved-bar theory comes near it as the bar becomes slender; so does 3 M/(2 R t d) across the bar."""
    inner, outer = stresses(100, 2.0, r_o, 1.5, 60)
    assert inner == pytest.approx(golovin(100, 2, r_o, 1.5, 2, 60)[0], rel=within)
    assert outer == pytest.approx(golovin(100, 2, r_o, 1.5, r_o, 60)[0], rel=within)
    across = max(abs(golovin(100, 2, r_o, 1.5, r, 60)[1]) for r in np.linspace(2, r_o, 801))
    M = 100 * (2 + r_o) / 2 * math.sin(math.radians(60))
    assert bar.radial_stress(M, (2 + r_o) / 2, 1.5, r_o - 2) == pytest.approx(across, rel=2 * within)


@pytest.mark.parametrize(("r_over_c", "k_i", "k_o"), [(1.2, 2.888, 0.566), (2.0, 1.523, 0.730), (4.0, 1.200, 0.853)])
def test_published_factors_of_curved_beams(r_over_c: float, k_i: float, k_o: float) -> None:
    """Stress over M y/I of rectangles by R/c, c half the depth (published table of curved-beam factors, how: read)."""
    d, t, M = 2.0, 1.0, 1000.0
    r_i, r_o = r_over_c - 1, r_over_c + 1
    r_n = bar.neutral_radius(d, r_o, r_i)
    section = {"M": M, "N": 0.0, "A": d * t, "e_c": r_i + d / 2 - r_n, "r_n": r_n}
    straight = 6 * M / (t * d**2)
    assert bar.curved_inner_stress(**section, r_i=r_i) / straight == pytest.approx(k_i, abs=6e-4)
    assert -outer_stress(**section, r_o=r_o) / straight == pytest.approx(k_o, abs=6e-4)


@given(st.floats(0.5, 20.0), st.floats(0.2, 4.0), st.floats(-9000.0, 9000.0), st.floats(-900.0, 900.0))
def test_the_stresses_balance_the_forces(r_i: float, d: float, M: float, N: float) -> None:
    """Between its sides stress is N/A + M (r_n - r)/(A e r): it sums to N, and to M about the middle (quad)."""
    r_o, r_m = r_i + d, r_i + d / 2
    r_n = bar.neutral_radius(d, r_o, r_i)
    section = {"M": M, "N": N, "A": 1.5 * d, "e_c": r_i + d / 2 - r_n, "r_n": r_n}
    sides = bar.curved_inner_stress(**section, r_i=r_i), outer_stress(**section, r_o=r_o)
    # s = a + b/r through both sides
    b = (sides[0] - sides[1]) / (1 / r_i - 1 / r_o)
    a = sides[0] - b / r_i
    force = 1.5 * quad(lambda r: a + b / r, r_i, r_o)[0]
    moment = 1.5 * quad(lambda r: (a + b / r) * (r_m - r), r_i, r_o)[0]
    assert (force, moment) == (pytest.approx(N, abs=1e-3), pytest.approx(M, abs=1e-3))


@pytest.mark.parametrize(
    ("r_i", "E", "G", "stiffness", "model"),
    [(2.0, 1.6e6, 615384.6, 71996.1, 71403.4), (8.0, 1.6e6, 124800.0, 2646.56, 2449.52)],
)
def test_stiffness_of_quarter_rings(r_i: float, E: float, G: float, stiffness: float, model: float) -> None:
    """Force over movement at the end, by energy and by plane stress model (collected notes, how: derived)."""
    r_n = bar.neutral_radius(2.0, r_i + 2, r_i)
    found = bar.curved_bar_stiffness(E, G, 3.0, r_i + 1, r_i + 1 - r_n, 90.0)
    assert found == pytest.approx(stiffness, rel=1e-5)
    assert model < found < 1.1 * model  # an upper value


@pytest.mark.parametrize("sweep", [30.0, 90.0, 150.0, 180.0])
def test_stiffness_against_summed_energy(sweep: float) -> None:
    """Energy of M, N, their mixed term and V of a curved bar, summed over the arc (textbook form; how: memory)."""
    E, G, A, R, e = 1.6e6, 1.2e5, 3.0, 6.0, 0.06
    angles = np.radians(np.linspace(0, sweep, 20001))
    M, N, V = R * np.sin(angles), np.sin(angles), np.cos(angles)
    energy = M**2 / (A * e * E) + N**2 * R / (A * E) - 2 * M * N / (A * E) + 1.2 * V**2 * R / (A * G)
    assert bar.curved_bar_stiffness(E, G, A, R, e, sweep) == pytest.approx(1 / np.trapezoid(energy, angles), rel=1e-7)


def test_a_long_bent_bar_is_a_cantilever_to_begin_with() -> None:
    """Slightly bent: L^3/(3 E I) + 1.2 L/(G A), I = A e R for a slender bar (how: derived)."""
    R, d, t, E, G, sweep = 2000.0, 2.0, 1.5, 1.6e6, 1.2e5, 2.0
    L = R * math.radians(sweep)
    r_n = bar.neutral_radius(d, R + 1, R - 1)
    found = bar.curved_bar_stiffness(E, G, d * t, R, R - 1 + d / 2 - r_n, sweep)
    assert found == pytest.approx(1 / (L**3 / (3 * E * t * d**3 / 12) + 1.2 * L / (G * t * d)), rel=2e-3)


def test_the_factor_for_grain_along_the_arc_covers_the_model() -> None:
    """Models with E_L/E_T 20: 895.187 psi at d/R 0.22 (notes), and 1.20 times curved-bar theory at 0.55 (notes)."""
    inner = stresses(100, 8.0, 10.0, 1.5, 60)[0]
    assert abs(inner) * bar.grain_following_factor(2.0, 9.0) >= 895.187
    assert bar.grain_following_factor(5.5, 10.0) >= 1.20
    with pytest.raises(
        OutOfRange, match=re.escape("d must be above 0 and at most 0.55 * r_m = 5.5, given 6: the tightest arc")
    ):
        bar.grain_following_factor(6.0, 10.0)


@pytest.mark.parametrize(
    ("d", "r_o", "r_i", "told"),
    [
        (2.0, 4.0, 0.0, "r_i must be a finite number above 0, given 0"),
        (1.0, 4.0, 2.0, "the depth d must be r_o less r_i, given 1"),
        (-2.0, 2.0, 4.0, "d must be a finite number above 0, given -2"),
        (math.nan, 4.0, 2.0, "d must be a finite number above 0"),
    ],
)
def test_the_neutral_radius_refuses(d: float, r_o: float, r_i: float, told: str) -> None:
    assert bar.neutral_radius(2.0, 4.0, 2.0) == pytest.approx(2 / math.log(2))
    with pytest.raises(OutOfRange, match=re.escape(told)):
        bar.neutral_radius(d, r_o, r_i)
    found = bar.neutral_radius(np.array([2.0, d]), np.array([4.0, r_o]), np.array([2.0, r_i]))
    np.testing.assert_allclose(found, [2 / math.log(2), np.nan])
