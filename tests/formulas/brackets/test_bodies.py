"""Solid brackets: the hand rules against the collected notes on brackets, and against solutions from outside.

Figures of the notes are read from their list of check values; both their columns, by hand rule and by plane stress
model, were computed there (how: derived). What the rules give is compared to 0.001 %, unless a test says why not.
"""

from __future__ import annotations

import re

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.integrate import quad

from beamcheck.errors import OutOfRange
from beamcheck.formulas.brackets.fan_sections import fan_bending_strain, fan_mean_strain, fan_moments
from beamcheck.formulas.brackets.section_forces import equal_angle_depth, wall_leg
from beamcheck.formulas.brackets.section_stress import soffit_design_stress, top_design_stress
from beamcheck.formulas.wood.off_axis import off_axis_modulus, stress_across

from .bracket_cases import CASES, Case, at_the_wall, edges, equal_angle, vertical

# --- stress along the edges -------------------------------------------------------------------------------------------

# bracket, x on the top edge, by vertical section, equal-angle section, weighed section, plane stress model; psi
TOP = [
    ("B01", 3.6, 29.216, 43.4118, 76.8925, 88.4272),
    ("B01", 6.0, 34.375, 49.2238, 88.1251, 91.8282),
    ("B01", 8.4, 39.5408, 51.187, 94.4935, 109.266),
    ("B03", 3.0, 69.2588, 129.246, 219.129, 187.814),
    ("B03", 5.0, 127.659, 158.308, 235.096, 195.901),
    ("B03", 7.0, 149.79, 150.741, 186.977, 181.406),
    ("B05", 1.8, 4.6991, 0.104699, 5.4311, 6.24398),
    ("B05", 3.0, 2.72771, -2.29506, 4.15657, -0.294298),
    ("B05", 4.2, 1.32721, -4.34532, 3.02463, -1.79747),
    ("B07", 3.6, 97.2607, 166.402, 70.2985, 49.3623),
    ("B07", 6.0, 192.211, 238.074, 133.09, 108.063),
    ("B07", 8.4, 271.671, 281.559, 205.993, 214.071),
    ("B09", 3.0, 23.2542, 59.7255, 108.609, 35.0852),
    ("B09", 5.0, 50.326, 75.2786, 121.213, 82.8279),
    ("B09", 7.0, 72.5543, 77.2553, 102.79, 100.72),
]


@pytest.mark.parametrize(("name", "x", "by_vertical", "straight", "weighed", "_model"), TOP)
def test_top_edge(name: str, x: float, by_vertical: float, straight: float, weighed: float, _model: float) -> None:
    """The weighed rule of the notes was summed over 40 strips, which makes it 0.10 to 0.19 % too small."""
    case = CASES[name]
    u = case.at_top(x)
    assert vertical(case, x) == pytest.approx(by_vertical, rel=1e-5)
    assert equal_angle(case, u)["top"] == pytest.approx(straight, rel=1e-5)
    assert equal_angle(case, u, strips=40)["fan top"] == pytest.approx(weighed, rel=1e-5)
    assert 1.0009 * weighed < equal_angle(case, u)["fan top"] < 1.002 * weighed


# bracket, equal-angle section, weighed section, plane stress model, where it was read (None: the largest anywhere)
SOFFIT = [
    ("B01", -64.9924, -26.9633, -35.3068, 9.885),
    ("B03", -174.292, -111.535, -191.281, None),
    ("B05", -6.51233, -6.50419, -3.16861, None),
    ("B07", -293.805, -414.519, -451.892, None),
    ("B09", -88.1164, -52.1611, -100.406, None),
]


@pytest.mark.parametrize(("name", "straight", "weighed", "_model", "x"), SOFFIT)
def test_peak_of_the_soffit(name: str, straight: float, weighed: float, _model: float, x: float | None) -> None:
    """To 0.1 %: the notes took slopes by differences and peaks among points; B01 peaks beyond where they stopped."""
    case = CASES[name]
    u = np.linspace(0, 1, 2001) if x is None else np.array([case.at_soffit(x)])
    found = equal_angle(case, u, strips=40)
    started = found["x_0"] >= 0
    assert found["soffit"][started].min() == pytest.approx(straight, rel=1e-3)
    assert found["fan soffit"][started].min() == pytest.approx(weighed, rel=1e-3)


def test_wall_leg_of_an_anchored_bracket() -> None:
    """B09: anchors 2 in below the top, push of the wall 10.95 in below it (as printed), which makes it 106.2 lb."""
    case, depth = CASES["B09"], 10.95
    push = case.P * case.x_L / (depth - 2.0)
    assert push == pytest.approx(106.2, rel=1e-3)
    found = at_the_wall(case, np.linspace(0, 1, 2001), push, depth, strips=40)
    assert found["top"].max() == pytest.approx(87.6521, rel=1e-3)
    assert found["fan top"].max() == pytest.approx(79.6289, rel=1e-3)
    assert found["top"].max() > 53.3182  # what the model had


def test_a_bracket_that_is_its_own_mirror_image() -> None:
    """Level grain in the top leg is upright grain in the wall leg: pushed alike, both are stressed alike."""
    case = CASES["B03"]
    lying, standing = (
        Case(case.kind, case.h, case.l_out, case.a_f, case.b_n, case.t, case.x_L, theta_g) for theta_g in (20.0, 70.0)
    )
    u = np.linspace(0.55, 0.95, 9)
    top, wall = equal_angle(lying, u), at_the_wall(standing, 1 - u, lying.P, lying.x_L)
    for edge in ("top", "soffit", "fan top", "fan soffit"):
        np.testing.assert_allclose(top[edge], wall[edge], rtol=1e-9)
    here = (3.0, 4.0, 30.0, 20.0)
    assert wall_leg(*wall_leg(*here)) == here


def test_the_factors_cover_the_models() -> None:
    """1.3 on the largest rule at the top, 1.2 (1.7 with diagonal grain) at the soffit, for loads at the tip."""
    for name, _x, by_vertical, straight, weighed, model in TOP:
        if not CASES[name].shelf:
            assert top_design_stress(1.3, by_vertical, straight, weighed) >= model
    for name, straight, weighed, model, _x in SOFFIT:
        factor = 1.7 if CASES[name].theta_g else 1.2
        assert soffit_design_stress(factor, straight, weighed) >= abs(model)


def test_tension_across_the_grain_at_the_top_of_b07() -> None:
    """At x = 9.46 in the larger rule times sin^2 45 is 122.576 psi in the notes, 119.952 in the model."""
    case = CASES["B07"]
    here = equal_angle(case, case.at_top(9.46), strips=40)
    assert stress_across(max(here["top"], here["fan top"]), 45.0) == pytest.approx(122.576, rel=1e-3)


# --- the weighed rule against other methods ---------------------------------------------------------------------------

DOUGLAS_FIR = {"E_L": 1.6e6, "E_T": 80000.0, "G_LT": 124800.0, "nu_LT": 0.449}
ISOTROPIC = {"E_L": 1.6e6, "E_T": 1.6e6, "G_LT": 1.6e6 / 2.6, "nu_LT": 0.3}


@given(
    st.floats(0.0125, 0.2), st.floats(0.02, 0.12), st.floats(0.2, 0.5), st.floats(0.0, 179.0), st.floats(0.0, 90.0)
)  # fmt: skip
def test_moments_against_adaptive_quadrature(
    E_T: float, G_LT: float, nu_LT: float, theta_g: float, alpha_s: float
) -> None:
    """scipy's quad (QUADPACK) on the same integrands, typed again; up to E_L/E_T of 80."""
    wood = {"E_L": 1.6e6, "E_T": 1.6e6 * E_T, "G_LT": 1.6e6 * G_LT, "nu_LT": nu_LT}

    def layer(eta: float, j: int) -> float:
        psi = np.radians(theta_g - alpha_s * eta)
        s, c = np.sin(psi) ** 2, np.cos(psi) ** 2
        softness = c**2 / wood["E_L"] + s**2 / wood["E_T"] + s * c * (1 / wood["G_LT"] - 2 * nu_LT / wood["E_L"])
        lean = np.cos(np.radians(alpha_s * (eta - 0.5))) ** 4
        return float(lean / softness / wood["E_L"] * (0.5 - eta) ** j)

    found = fan_moments(**wood, theta_g=theta_g, alpha_s=alpha_s)
    for j in range(3):
        peak = ([theta_g / alpha_s] if 0 < theta_g < alpha_s else None) if alpha_s > 0 else None
        exact = quad(layer, 0, 1, args=(j,), epsabs=1e-11, epsrel=1e-9, limit=200, points=peak)[0] * 1.6e6
        assert found[j] == pytest.approx(exact, abs=1e-6 * found[0])


def exact_wedge(
    wood: dict[str, float], grain: float, angle: float, P: float, r: float, t: float
) -> tuple[float, float]:
    """Stress along the edges of a wedge loaded square to its upper edge at its point, at r from it.

    Radial field of an orthotropic wedge, stress in each direction proportional to the modulus that way, with both
    forces in balance (Lekhnitskii, Anisotropic Plates; how: memory; Michell's solution where the wood is isotropic).
    """

    def layer(p: float) -> float:
        return float(off_axis_modulus(**wood, psi=grain - np.degrees(p)))

    sides, top = (np.cos, np.sin), np.radians(angle)
    balance = [
        [t * quad(lambda p, f=f, g=g: layer(p) * f(p) * g(p) / 1e6, 0, top, limit=200)[0] for f in sides] for g in sides
    ]
    c, s = np.linalg.solve(balance, [0.0, -P]) / 1e6 / r
    return layer(0) * c, layer(top) * (c * np.cos(top) + s * np.sin(top))


@pytest.mark.parametrize("wood", [DOUGLAS_FIR, ISOTROPIC], ids=["douglas fir", "isotropic"])
@pytest.mark.parametrize("grain", [0.0, 22.5, 45.0, 90.0, 135.0])
@pytest.mark.parametrize("angle", [10.0, 20.0, 30.0, 45.0])
def test_the_weighed_rule_against_the_exact_wedge(wood: dict[str, float], grain: float, angle: float) -> None:
    """Within 1 % up to 30 degrees and 2.5 % at 45; the straight spread is up to three times off."""
    P, r, t, point = 100.0, 10.0, 1.5, 50.0
    x_s, y_s = point - r * np.cos(np.radians(angle)), r * np.sin(np.radians(angle))
    x_0 = x_s - y_s * np.tan(np.radians(angle / 2))
    assert x_0 == pytest.approx(point - r)
    case = Case("straight", 40, 50, 1, 1, t, point, **wood)
    found = edges(case, x_s, y_s, angle, grain, P, P * (point - (x_0 + x_s) / 2))
    exact = exact_wedge(wood, grain, angle, P, r, t)
    within = 0.01 if angle <= 30 else 0.025
    assert (found["fan top"], found["fan soffit"]) == pytest.approx(exact, rel=within)


TENTHS = st.integers(0, 1790).map(lambda tenths: 0.1 * tenths)  # deg: a grain of 1e-308 deg only upsets the quadrature


@given(st.floats(-9000.0, 9000.0), st.floats(-900.0, 900.0), st.floats(0.0, 90.0), TENTHS)
def test_the_weighed_stresses_balance_the_forces(M: float, N: float, alpha_s: float, theta_g: float) -> None:
    """Summed over the section (quad), modulus times strain gives N and M back."""
    t, d = 1.5, 6.0
    E_0, E_1, E_2 = fan_moments(**DOUGLAS_FIR, theta_g=theta_g, alpha_s=alpha_s)
    section = {"M": M, "N": N, "t": t, "d": d, "E_0": E_0, "E_1": E_1, "E_2": E_2}
    mean, bent = float(fan_mean_strain(**section)), float(fan_bending_strain(**section))

    def stress(eta: float) -> float:
        modulus = off_axis_modulus(**DOUGLAS_FIR, psi=theta_g - alpha_s * eta)
        return float(modulus * np.cos(np.radians(alpha_s * (eta - 0.5))) ** 4 * (mean + bent * (0.5 - eta)))

    peak = [theta_g / alpha_s] if 0 < theta_g < alpha_s else None
    force = t * d * quad(stress, 0, 1, points=peak, limit=200)[0]
    moment = t * d**2 * quad(lambda eta: stress(eta) * (0.5 - eta), 0, 1, points=peak, limit=200)[0]
    assert (force, moment) == (pytest.approx(N, abs=1e-3), pytest.approx(M, abs=1e-2))


def test_a_straight_beam_is_a_straight_beam() -> None:
    """Parallel edges: all three rules give 6 M/(t d^2), whatever the grain."""
    for grain in (0.0, 30.0, 90.0):
        moments = np.array(fan_moments(**DOUGLAS_FIR, theta_g=grain, alpha_s=0.0))
        np.testing.assert_allclose(moments / moments[0], [1, 0, 1 / 12], atol=1e-12)
        found = edges(Case("straight", 9, 9, 1, 1, 1.5, 9, **DOUGLAS_FIR), 5.0, 4.0, 0.0, grain, 0.0, 600.0)
        assert [found[edge] for edge in ("top", "fan top")] == pytest.approx([150.0] * 2)  # 6*600/(1.5*16)
        assert [found[edge] for edge in ("soffit", "fan soffit")] == pytest.approx([-150.0] * 2)


def test_moments_refuse_a_slope_and_run_on_arrays() -> None:
    with pytest.raises(OutOfRange, match=re.escape("alpha_s must be 0 to 90 deg, given 100")):
        fan_moments(**DOUGLAS_FIR, theta_g=0.0, alpha_s=100.0)
    slopes = np.array([0.0, 45.0, 100.0, 90.0])
    together = np.array(fan_moments(**DOUGLAS_FIR, theta_g=30.0, alpha_s=slopes))
    assert np.isnan(together[:, 2]).all()
    for i in (0, 1, 3):
        alone = fan_moments(**DOUGLAS_FIR, theta_g=30.0, alpha_s=slopes[i])
        np.testing.assert_allclose(together[:, i], alone, atol=1e-6)
    assert np.isnan(fan_moments(**DOUGLAS_FIR, theta_g=np.nan, alpha_s=30.0)).all()
    depth = equal_angle_depth(np.array([4.0, 4.0]), np.array([90.0, 91.0]))
    np.testing.assert_allclose(depth, [4 * np.sqrt(2), np.nan])
