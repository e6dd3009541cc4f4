"""Outside its range a number raises with a sentence for people, and an array element becomes NaN."""

from __future__ import annotations

from typing import Any

import numpy as np
import pytest

from beamcheck.calc.core import REGISTRY

from .out_of_range import numbers, refuses
from .samples import NAMES, draw

BENT = "f_c=200 F_c_prime=700 F_b1_prime=1200 F_b2_prime=1100 F_cE1=900 F_cE2=800 F_bE=2500 f_b1=400 f_b2=100"

# formula, good inputs, the bad one, what the message says
CASES = [
    ("rectangle_area", "b=3.5 d=7.25", "b=0",
     "b must be a finite number above 0, given 0"),
    ("rectangle_modulus", "b=3.5 d=7.25", "d=-7.25",
     "d must be a finite number above 0, given -7.25"),
    ("round_area", "D=8", "D=inf",
     "D must be a finite number above 0, given inf"),
    ("notched_depth", "d=9.5 d_cut=2", "d_cut=9.5",
     "d_cut must be 0 or more and less than d 9.5, given 9.5 (NDS 2018 3.4.3.2, 4.4.3)"),
    ("net_inertia", "b=7.5 d=9.5 b_v=2 d_v=4 y_v=2", "b_v=8",
     "b_v must be above 0 and at most b 7.5, given 8 (NDS 2018 3.1.2)"),
    ("net_inertia", "b=7.5 d=9.5 b_v=2 d_v=4 y_v=2", "y_v=1.9",
     "y_v must be d_v / 2 = 2 to d - d_v / 2 = 7.5, given 1.9: the void must lie inside the depth (NDS 2018 3.1.2)"),
    ("net_first_moment", "b=7.5 d=9.5 b_v=2 d_v=4 y_v=2 y_bar=5", "y_bar=9.5",
     "y_bar must be above 0 and less than d 9.5, given 9.5"),
    ("net_modulus_bottom", "I_net=457 y_bar=5", "y_bar=0",
     "y_bar must be a finite number above 0, given 0"),
    ("net_area", "b=7.5 d=9.5 b_v=7.5 d_v=4", "d_v=9.5",
     "A_n is 0 and must be a finite number above 0: the void takes the whole section"),
    ("net_modulus_top", "I_net=300 d=8 y_bar=4", "y_bar=9",
     "y_bar must be above 0 and less than d 8, given 9"),
    ("size_factor_timber", "d=13.5", "d=-1",
     "d must be a finite number above 0, given -1 (NDS 2018 4.3.6.2 (eq. 4.3-1))"),
    ("adjusted_bending_star", "C_D=1 C_M=1 C_t=1 C_F=1 C_i=1 C_r=1 F_b=900", "C_D=2.1",
     "C_D must be above 0 and at most 2, given 2.1: 2 is for impact (NDS 2018 Table 2.3.2)"),
    ("adjusted_bending_star", "C_D=1 C_M=1 C_t=1 C_F=1 C_i=1 C_r=1 F_b=900", "C_M=1.1",
     "C_M must be above 0 and at most 1, given 1.1"),
    ("adjusted_bending_star", "C_D=1 C_M=1 C_t=1 C_F=1 C_i=1 C_r=1 F_b=900", "C_t=0",
     "C_t must be above 0 and at most 1, given 0"),
    ("adjusted_bending_star", "C_D=1 C_M=1 C_t=1 C_F=1 C_i=1 C_r=1 F_b=900", "C_i=-0.8",
     "C_i must be above 0 and at most 1, given -0.8"),
    ("adjusted_bending", "F_b_star=900 C_L=1 C_fu=1", "C_L=1.01",
     "C_L must be above 0 and at most 1"),
    ("adjusted_compression", "F_c_star=900 C_P=1", "C_P=1.01",
     "C_P must be above 0 and at most 1, given 1.01"),
    ("adjusted_bearing", "F_c_perp=625 C_M=1 C_t=1 C_i=1 C_b=1", "C_b=0.9",
     "C_b must be 1 or more"),
    ("adjusted_modulus_min", "E_min=500000 C_M=1 C_t=1 C_i=1 C_fu=1 C_T=1", "C_T=0.5",
     "C_T must be 1 or more, given 0.5 (NDS 2018 4.4.2)"),
    ("bending_stress", "M=10000 S=50", "M=-10000",
     "M must be a finite number, 0 or more, given -10000"),
    ("effective_length", "l_u=96 d=10 k_short=2.06 k_long=1.63 k_d=3", "k_d=-3",
     "k_d must be a finite"),
    ("slenderness_ratio", "l_e=200 d=12 b=2", "b=0.9",
     "R_B is 54.4331 and must be at most 50: brace the compression edge at shorter distances (NDS 2018 3.3.3.7)"),
    ("critical_buckling_bending", "E_min_prime=500000 R_B=50", "R_B=50.01",
     "R_B must be above 0 and at most 50"),
    ("beam_stability", "F_bE=2000 F_b_star=1000", "F_bE=0",
     "F_bE must be a finite number above 0, given 0"),
    ("biaxial_bending", "f_b1=500 F_b1_prime=1200 f_b2=100 F_b2_prime=1100 F_bE=900", "f_b1=900",
     "f_b1 must be 0 or more and less than F_bE 900, given 900"),
    ("shear_stress", "V=1000 b=3.5 d=7.25", "V=-1000",
     "V must be a finite number, 0 or more, given -1000"),
    ("shear_stress_net", "V=1000 Q_net=80 I_net=500 b=7.5 b_v=2", "b_v=7.5",
     "b_v must be 0 or more and less than b 7.5, given 7.5"),
    ("point_load_share", "x=3 d=10", "x=-3",
     "x must be a finite number, 0 or more, given -3"),
    ("end_notch_tension_shear", "F_v_prime=180 b=1.5 d=9.25 d_n=7.25", "d_n=9.3",
     "d_n must be above 0 and at most d 9.25, given 9.3 (NDS 2018 3.4.3.2(a) (eq. 3.4-3))"),
    ("end_notch_compression_shear", "F_v_prime=180 b=1.5 d=9.25 d_n=7.25 e=2", "e=-1",
     "e must be a finite"),
    ("connection_depth", "d=11.25 c_u=3", "c_u=12",
     "c_u must be 0 or more and less than d 11.25, given 12"),
    ("connection_shear_near_end", "F_v_prime=180 b=1.5 d=9.25 d_e=6", "d_e=10",
     "d_e must be above 0 and at"),
    ("bearing_stress", "R=1000 b=5.5 l_b=3.5", "R=-10",
     "R must be a finite number, 0 or more, given -10"),
    ("bearing_area_factor", "l_b=2", "l_b=0",
     "l_b must be a finite number above 0, given 0 (NDS 2018 3.10.4 (eq. 3.10-2))"),
    ("bearing_at_angle", "F_c_star=1500 F_c_perp_prime=625 theta=30", "theta=90.5",
     "theta must be 0 to 90 deg, given 90.5 (NDS 2018 3.10.3 (eq. 3.10-1))"),
    ("tension_stress", "T=1000 A_n=20", "T=-1",
     "T must be a finite number, 0 or more, given -1"),
    ("compression_stress", "P=1000 A=20", "P=-1",
     "P must be a finite number, 0 or more, given -1"),
    ("effective_length_column", "K_e=1 l=96", "K_e=0.5",
     "K_e must be 0.65 to 2.4, given 0.5"),
    ("slenderness_column", "l_e=150 d=3", "l_e=150.1",
     "l_e_over_d is 50.0333 and must be at most 50: shorten the column or take a thicker one (NDS 2018 3.7.1.4)"),
    ("critical_buckling_column", "E_min_prime=500000 l_e=150 d=3", "d=2.9",
     "l_e_over_d is 51.7241 and must be at most 50"),
    ("column_stability", "F_cE=900 F_c_star=1000 c=0.8", "c=1.2",
     "c must be above 0 and at most 1, given 1.2"),
    ("column_stability_built_up", "F_cE=900 F_c_star=1000 c=0.8 K_f=0.6", "K_f=1.5",
     "K_f must be above 0 and"),
    ("bending_and_tension", "f_t=100 F_t_prime=600 f_b=300 F_b_star=1000", "f_t=-100",
     "f_t must be a"),
    ("bending_less_tension", "f_b=300 f_t=100 F_b_starstar=1000", "f_b=-300",
     "f_b must be a finite number"),
    ("bending_and_compression_one_way", "f_c=200 F_c_prime=700 f_b1=400 F_b1_prime=1200 F_cE1=900", "F_cE1=200",
     "f_c must be 0 or more and less than F_cE1 200, given 200: the piece buckles (NDS 2018 3.9.2"),
    ("bending_and_compression_short", "f_c=200 F_c_star=900 f_b=400 F_b_star=1200", "f_c=-200",
     "f_c must be a"),
    ("bending_and_compression_added", "f_c=200 F_c_star=900 f_b=400 F_b_star=1200", "F_c_star=0",
     "F_c_star must be"),
    ("bending_and_axial_added", "f_ax=200 F_ax=900 f_b=400 F_b_star=1200", "f_b=-400",
     "f_b must be a finite number"),
    ("bending_and_compression_limit", "f_c=200 F_cE2=900 f_b1=400 F_bE=2000", "F_bE=0",
     "F_bE must be above 0, or infinite, given 0"),
    ("eccentric_column", f"{BENT} e_1=1 d_1=8 e_2=1 d_2=6", "e_1=25",
     "f_b1 + f_c (6 e_1/d_1) must be less"),
    ("eccentric_column", f"{BENT} e_1=1 d_1=8 e_2=1 d_2=6", "e_2=-1",
     "e_2 must be a finite number, 0 or"),
    ("eccentric_column_limit", "f_c=200 F_cE2=900 f_b1=400 F_bE=2000 e_1=1 d_1=8", "d_1=0",
     "d_1"),
    ("shear_at_d", "w=10 L=144 d=12", "d=73",
     "d must be above 0 and at most L / 2 = 72, given 73: no load lies farther than d from both supports"),
    ("simple_uniform_deflection", "w=10 L=144 E=1600000 I=200", "E=0",
     "E must be a finite number above 0"),
    ("long_term_deflection", "K_cr=1.5 Delta_LT=0.2 Delta_ST=0.1", "K_cr=0.5",
     "K_cr must be 1 or more, given 0.5"),
    ("deflection_limit", "L=96 n=360", "n=0",
     "n must be a finite number above 0, given 0"),
    ("timber_density", "G=0.5 MC=19", "MC=31",
     "MC must be 0 to 30 %, given 31 (NDS 2018 Supplement 3.1.3)"),
    ("timber_density", "G=0.5 MC=19", "G=31",
     "G must be 0.1 to 1.3, given 31"),
    ("green_timber_density", "G=0.5 MC=60", "MC=19",
     "MC must be 30 to 250 %, given 19"),
    ("roof_slope_reduction", "F=4", "F=-1",
     "F must be a finite number, 0 or more, given -1 (ASCE 7-16 4.8.2)"),
    ("roof_live_load", "L_o=0.13 R_1=1 R_2=1", "L_o=0.25",
     "to 20 / 144 = 0.138889, given 0.25: 12 to 20 psf"),
    ("flat_roof_snow", "p_g=0.2 C_e=1 C_t=1 I_s=1", "C_t=1.5",
     "C_t must be 0.85 to 1.3, given 1.5"),
    ("low_slope_minimum_snow", "p_g=0.2 I_s=1", "p_g=-0.2",
     "p_g must be a finite number, 0 or more, given -0.2 (ASCE 7-16 7.3.4)"),
    ("roof_slope_factor", "theta=20 theta_0=30", "theta_0=60",
     "theta_0 must be 5 to 45 deg, given 60"),
    ("dead_on_plan", "w_slope=0.1 theta=30", "theta=90",
     "theta must be 0 or more and less than 90 deg, given 90"),
    ("rafter_thrust", "W=900 run=144 rise=72", "rise=0",
     "rise must be a finite number above 0, given 0"),
    ("cross_grain_movement", "C_w=0.01 dMC=5 h=12", "C_w=0.0105",
     "C_w must be above 0 and at most 0.01, given 0.0105"),
    ("drop_at_head", "Delta_w=0.2 beta_r=0.5", "beta_r=0",
     "beta_r must be above 0 and less than 90 deg, given 0"),
    ("raised_tie_tension", "H=900 H_r=72 h=48", "h=80",
     "h must be above 0 and at most H_r 72, given 80"),
]  # fmt: skip


@pytest.mark.parametrize(("name", "good", "bad", "message"), CASES)
def test_outside_the_range(name: str, good: str, bad: str, message: str) -> None:
    refuses(name, good, bad, message)


@pytest.mark.parametrize(
    ("name", "inputs", "value"),
    [  # exactly on the limit is inside
        ("slenderness_ratio", "l_e=625 d=4 b=1", 50.0),
        ("slenderness_column", "l_e=150 d=3", 50.0),
        ("end_notch_tension_shear", "F_v_prime=150 b=2 d=9 d_n=9", 1800.0),
        ("bearing_at_angle", "F_c_star=1500 F_c_perp_prime=625 theta=0", 1500.0),
        ("roof_live_load", "L_o=0.13888888888888892 R_1=1 R_2=1", 20 / 144),
        ("net_centroid", "b=7.5 d=9.5 b_v=2 d_v=4 y_v=2", 5.09783),
        ("shear_at_d", "w=10 L=144 d=72", 0.0),
    ],
)
def test_on_the_limit(name: str, inputs: str, value: float) -> None:
    assert REGISTRY[name](**numbers(inputs)) == pytest.approx(value, rel=1e-6)


@pytest.mark.parametrize("name", NAMES)
def test_whole_numbers_and_numpy_numbers_are_numbers(name: str) -> None:
    """A carpenter's 8 is 8.0, and a value taken out of an array is a value."""
    inputs: dict[str, Any] = draw(name, 1)[0]
    expected = REGISTRY[name](**inputs)
    assert REGISTRY[name](**{each: np.float64(value) for each, value in inputs.items()}) == pytest.approx(expected)
    array = {each: np.array(value) for each, value in inputs.items()}  # of no dimension
    assert float(REGISTRY[name](**array)) == pytest.approx(expected)


def test_whole_numbers_in_an_array_keep_their_range() -> None:
    np.testing.assert_array_equal(REGISTRY["rectangle_area"](np.array([2, 0]), np.array([6, 6])), [12.0, np.nan])
