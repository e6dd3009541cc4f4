"""Wood at an angle to its grain against rotated tensors and tabled values; what formulas of brackets refuse."""

from __future__ import annotations

import re

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from beamcheck.calc.core import REGISTRY
from beamcheck.errors import OutOfRange
from beamcheck.formulas.brackets.arc_soffit import arc_angle
from beamcheck.formulas.wood import off_axis as off

from ..bracket_samples import FILES
from ..samples import NAMES, draw, file_of

angles = st.floats(-90.0, 180.0)
woods = st.fixed_dictionaries(
    {
        "E_L": st.floats(0.8e6, 2.2e6),
        "E_T": st.floats(3e4, 2e5),
        "G_LT": st.floats(3e4, 2e5),
        "nu_LT": st.floats(0.2, 0.55),
    }
)


def turned_softness(wood: dict[str, float], psi: float) -> np.ndarray:
    """Plane-stress softness seen from axes turned by psi, by rotating stress and strain (how: derived)."""
    softness = np.array(
        [
            [1 / wood["E_L"], -wood["nu_LT"] / wood["E_L"], 0],
            [-wood["nu_LT"] / wood["E_L"], 1 / wood["E_T"], 0],
            [0, 0, 1 / wood["G_LT"]],
        ]
    )
    c, s = np.cos(np.radians(psi)), np.sin(np.radians(psi))
    turn = np.array([[c * c, s * s, 2 * s * c], [s * s, c * c, -2 * s * c], [-s * c, s * c, c * c - s * s]])
    return np.asarray(turn.T @ softness @ turn)


@given(woods, angles)
def test_moduli_against_the_rotated_tensor(wood: dict[str, float], psi: float) -> None:
    softness = turned_softness(wood, psi)
    assert off.off_axis_modulus(**wood, psi=psi) == pytest.approx(1 / softness[0, 0], rel=1e-9)
    assert off.off_axis_shear_modulus(**wood, psi=psi) == pytest.approx(1 / softness[2, 2], rel=1e-9)


@given(st.floats(-900.0, 900.0), st.floats(0.0, 180.0), st.floats(-90.0, 90.0))
def test_parts_of_an_edge_stress_against_the_rotated_tensor(sigma_t: float, theta_g: float, slope: float) -> None:
    phi = off.edge_grain_angle(theta_g, slope) if abs(theta_g - slope) <= 180 else None
    if phi is None:
        with pytest.raises(OutOfRange, match="theta_g and alpha_s must be at most 180 deg apart"):
            off.edge_grain_angle(theta_g, slope)
        return
    edge, grain = ((np.cos(np.radians(each)), np.sin(np.radians(each))) for each in (slope, theta_g))
    tensor = sigma_t * np.outer(edge, edge)
    across = np.array([-grain[1], grain[0]])
    assert off.stress_along(sigma_t, phi) == pytest.approx(grain @ tensor @ np.array(grain), abs=1e-6)
    assert off.stress_across(sigma_t, phi) == pytest.approx(across @ tensor @ across, abs=1e-6)
    assert abs(off.stress_shear(sigma_t, phi)) == pytest.approx(abs(np.array(grain) @ tensor @ across), abs=1e-6)


@pytest.mark.parametrize(
    ("phi", "bears"),
    [(5, 622), (10, 324), (15, 182), (20, 114), (30, 57), (45, 30), (60, 20), (90, 15)],
)
def test_tension_at_an_angle(phi: float, bears: float) -> None:
    """F_par 900, F_perp 15 psi (collected notes, how: derived; they print 622 for 621.47)."""
    assert off.hankinson_tension(900.0, 15.0, phi) == pytest.approx(bears, abs=0.54)


def test_the_quadratic_rule() -> None:
    """Alone each stress counts over its strength; twice the load is twice the share; along an edge never over F_par.

    At 5 deg the form with F_par F_perp would allow 934 psi (collected notes, how: derived): this one does not.
    """
    strength = {"F_par": 900.0, "F_perp": 15.0, "F_v": 180.0}
    assert off.quadratic_index(450.0, 0.0, 0.0, **strength) == 0.5
    assert off.quadratic_index(0.0, -30.0, 0.0, **strength) == 2.0
    assert off.quadratic_index(0.0, 0.0, 90.0, **strength) == 0.5

    def share(sigma_t: float, phi: float) -> float:
        parts = off.stress_along(sigma_t, phi), off.stress_across(sigma_t, phi), off.stress_shear(sigma_t, phi)
        return float(off.quadratic_index(*parts, **strength))

    for phi in (0.0, 2.0, 5.0, 10.0, 45.0, 90.0):
        assert share(200.0, phi) == pytest.approx(2 * share(100.0, phi))
        assert share(900.0, phi) >= 1 - 1e-12
    along, across, sheared = (f(934.0, 5.0) for f in (off.stress_along, off.stress_across, off.stress_shear))
    other = (along / 900) ** 2 - along * across / (900 * 15) + (across / 15) ** 2 + (sheared / 180) ** 2
    assert other == pytest.approx(1, abs=2e-3)
    assert share(934.0, 5.0) > 1.1


def test_the_less_favourable_rule_counts() -> None:
    assert off.edge_tension_index(100.0, 50.0, 1.7) == 2.0
    assert off.edge_tension_index(100.0, 80.0, 1.7) == 1.7


@pytest.mark.parametrize(
    ("theta_g", "slope", "phi"), [(0, 45, 45), (90, 0, 90), (135, 0, 45), (170, 10, 20), (45, 45, 0)]
)
def test_grain_and_edge(theta_g: float, slope: float, phi: float) -> None:
    assert off.edge_grain_angle(theta_g, slope) == phi


# --- what is refused --------------------------------------------------------------------------------------------------

WOOD = "E_L=1.6e6 E_T=8e4 G_LT=1.2e5 nu_LT=0.4 psi=45"
FAN = "M=600 N=-40 t=1.5 d=8 E_0=8e5 E_1=6e4 E_2=7e4"
CASES = [
    ("off_axis_modulus", WOOD, "E_T=0", "E_T must be a finite number above 0, given 0"),
    ("off_axis_modulus", WOOD, "nu_LT=-0.1", "nu_LT must be a finite number, 0 or more, given -0.1"),
    ("off_axis_modulus", WOOD, "psi=inf", "psi must be a finite number, given inf"),
    ("off_axis_modulus", WOOD, "nu_LT=30", "do not belong to one material: a direction has no stiffness"),
    ("off_axis_shear_modulus", WOOD, "G_LT=-1", "G_LT must be a finite number above 0, given -1"),
    ("edge_grain_angle", "theta_g=30 alpha_s=10", "theta_g=200", "must be at most 180 deg apart, given 190"),
    ("stress_across", "sigma_t=100 phi=30", "phi=91", "phi must be 0 to 90 deg, given 91"),
    ("stress_along", "sigma_t=100 phi=30", "sigma_t=inf", "sigma_t must be a finite number, given inf"),
    ("hankinson_tension", "F_par=900 F_perp=15 phi=30", "F_perp=901",
     "F_perp must be above 0 and at most F_par 900, given 901"),
    ("quadratic_index", "s_par=9 s_perp=9 tau=9 F_par=900 F_perp=15 F_v=180", "F_v=0",
     "F_v must be a finite number above 0, given 0"),
    ("arc_radius", "c_a=8 s_a=2", "s_a=4.1", "s_a must be at most half the chord c_a, given 4.1"),
    ("segment_area", "r_a=8 phi_a=60", "phi_a=181", "phi_a must be 0.1 to 180 deg, given 181"),
    ("segment_centroid", "c_a=8 A_seg=11.18 r_a=5 s_a=2", "A_seg=15", "belong to no arc"),
    ("hollow_arc_area", "l_x=6 l_y=8 A_seg=5", "A_seg=24", "the arc reaches the inner corner, given 24"),
    ("hollow_arc_centroid", "a_f=2 l_x=6 l_y=8 A_seg=5 z_seg=1", "A_seg=24", "the arc reaches the inner corner"),
    ("equal_angle_depth", "y_s=4 alpha_s=45", "alpha_s=-1", "alpha_s must be 0 to 90 deg, given -1"),
    ("equal_angle_start", "x_s=6 y_s=7 alpha_s=45", "x_s=2", "starts behind the wall face, at x_0, given -0.899495"),
    ("shelf_load_beyond", "w=10 l_out=6 x_0=2", "x_0=7", "x_0 must be at most l_out, given 7"),
    ("arm_over_depth", "x_L=11 x_0=2 x_s=4 d=8", "x_L=2.5", "must lie beyond the middle of the section"),
    ("vertical_edge_stress", "M=600 t=1.5 d=8", "d=0", "d must be a finite number above 0, given 0"),
    ("bracket_shear_stress", "V=100 t=1.5 d=4", "V=-1", "V must be a finite number, 0 or more, given -1"),
    ("top_design_stress", "k_fe=1.3 sigma_v=1 sigma_lin=2 sigma_fan=3", "k_fe=0.9",
     "k_fe must be 1 or more, given 0.9"),
    ("soffit_design_stress", "k_fe=1.3 sigma_lin_s=2 sigma_fan_s=3", "k_fe=0", "k_fe must be 1 or more, given 0"),
    ("fan_mean_strain", FAN, "E_1=3e5", "E_0, E_1 and E_2 belong to no section"),
    ("fan_bending_strain", FAN, "t=-1", "t must be a finite number above 0, given -1"),
    ("neutral_shift", "r_i=2 d=2 r_n=2.9", "r_n=3.1", "r_n must lie between r_i and the middle, r_i + d/2, given 3.1"),
    ("curved_inner_stress", "M=9 N=9 A=3 e_c=0.1 r_n=2.9 r_i=2", "r_i=3", "r_n must be r_i 3 or more, given 2.9"),
    ("curved_outer_stress", "M=9 N=9 A=3 e_c=0.1 r_n=2.9 r_o=4", "r_o=2", "r_o must be r_n 2.9 or more, given 2"),
    ("radial_tension_third", "F_v_prime=265 C_vr=0.72", "C_vr=1.1", "C_vr must be above 0 and at most 1, given 1.1"),
    ("curved_bar_stiffness", "E_L=1.6e6 G_LT=1e5 A=3 r_m=3 e_c=0.1 phi_b=90", "e_c=3", "e_c must be less than r_m"),
    ("curved_bar_stiffness", "E_L=1.6e6 G_LT=1e5 A=3 r_m=3 e_c=0.1 phi_b=90", "phi_b=181",
     "phi_b must be 1 to 180 deg, given 181"),
    ("top_row_pull", "P=100 x_L=9 eta=0.7 h_1=10", "eta=1.1", "eta must be above 0 and at most 1, given 1.1"),
    ("top_row_pull", "P=100 x_L=9 eta=0.7 h_1=10", "P=-1", "P must be a finite number, 0 or more, given -1"),
    ("rocking_row_pull", "k_ax=1e4 h_i=9 c_h=2 omega=0.001", "h_i=1", "the row lies where the wall presses, given 1"),
]  # fmt: skip


def numbers(text: str) -> dict[str, float]:
    return {name: float(value) for name, value in (pair.split("=") for pair in text.split())}


@pytest.mark.parametrize(("name", "good", "bad", "told"), CASES)
def test_out_of_range(name: str, good: str, bad: str, told: str) -> None:
    inputs, (wrong,) = numbers(good), numbers(bad).items()
    value = REGISTRY[name](**inputs)
    with pytest.raises(OutOfRange, match=re.escape(told)):
        REGISTRY[name](**{**inputs, wrong[0]: wrong[1]})
    columns = {each: np.array([given, given]) for each, given in inputs.items()}
    columns[wrong[0]][0] = wrong[1]
    np.testing.assert_allclose(REGISTRY[name](**columns), [np.nan, value])


SIGNED = {
    "M", "N", "P_o", "psi", "theta_g", "sigma_t", "s_par", "s_perp", "tau", "sigma_v", "sigma_lin", "sigma_fan",
    "sigma_lin_s", "sigma_fan_s", "eps_0", "eps_b", "E_1",
}  # fmt: skip


@pytest.mark.parametrize("name", [name for name in NAMES if file_of(name) in FILES])
def test_a_minus_sign_on_a_size_or_strength_never_gives_a_value(name: str) -> None:
    """Only forces, stresses and directions have a sign; the sizes of a moment, a shear and an edge stress have none."""
    unsigned = {"radial_stress": {"M"}, "edge_tension_index": {"sigma_t"}, "edge_grain_angle": set()}.get(name, set())
    (inputs,) = draw(name, 1)
    for each in set(inputs) - (SIGNED - unsigned) - ({"alpha_s"} if name == "edge_grain_angle" else set()):
        if inputs[each] == 0:
            continue
        with pytest.raises(OutOfRange):
            REGISTRY[name](**{**inputs, each: -abs(inputs[each])})


def test_the_angle_of_an_arc() -> None:
    """A chord of twice the radius spans half a circle, one of the radius a sixth (how: derived)."""
    np.testing.assert_allclose(arc_angle(np.array([2.0, 1.0, 2.1]), np.ones(3)), [180, 60, np.nan])
    with pytest.raises(OutOfRange, match=re.escape("must be above 0 and at most twice the radius r_a, given 2.1")):
        arc_angle(2.1, 1.0)
