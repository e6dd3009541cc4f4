"""The fastener and steel formulas, proved equal to their equations typed a second time, as in `test_equations`.

Typed from the notes on NDS 2018, TR12 and AISC 360-16 (how: memory)
and from statics, not from the code; where a second form exists that one stands here.
"""

from __future__ import annotations

import math
from typing import Any

import pytest
import sympy

from beamcheck.calc.core import REGISTRY
from beamcheck.calc.trace import to_sympy

PI = sympy.nsimplify(math.pi, rational=True)  # the tree holds pi as the number that math.pi is
COS30 = sympy.nsimplify(math.cos(math.radians(30)), rational=True)

K_D = "Piecewise((2.2, D <= 0.17), (10*D + 0.5, True))"
K_2 = "sqrt(2*(1 + R_e) + 2*F_yb*(1 + 2*R_e)*D**2/(3*F_em*l_m**2)) - 1"
K_3 = "sqrt(2*(1 + R_e)/R_e + 2*F_yb*(2 + R_e)*D**2/(3*F_em*l_s**2)) - 1"
IV = "D**2*sqrt(2*F_em*F_yb/(3*(1 + R_e)))/R_d_III"
Z_A = "1/(cos(pi*alpha/180)**2/Z_prime + sin(pi*alpha/180)**2/W_p)"


def reduction(coefficient: str) -> str:
    """NDS 2018 Table 12.3.1B, row by row (how: memory)."""
    return (
        f"Piecewise(({coefficient}*K_theta, D >= 0.25),"
        f" (Piecewise((({K_D})*K_theta, D_nom >= 0.25), ({K_D}, True)), True))"
    )


def root(A: str, B: str, C: str) -> str:
    """The root as TR12 prints it (how: memory)."""
    return f"(-({B}) + sqrt(({B})**2 - 4*({A})*({C})))/(2*({A}))"


EQUATIONS = {
    # dowel_bearing
    "dowel_bearing_parallel": "11200*G",
    "dowel_bearing_perpendicular": "6100*G**Rational(145, 100)/sqrt(D)",
    "dowel_bearing_small": "16600*G**Rational(184, 100)",
    "dowel_bearing_at_angle": "1/(sin(pi*theta/180)**2/F_e_perp + cos(pi*theta/180)**2/F_e_par)",
    "steel_bearing_hot_rolled": "2.4*F_u/1.6",
    "steel_bearing_cold_formed": "2.2*F_u/1.6",
    # dowel_terms
    "bearing_strength_ratio": "F_em/F_es",
    "bearing_length_ratio": "l_m/l_s",
    "yield_coefficient_1": "(sqrt(R_e + 2*R_e**2*(1 + R_t + R_t**2) + R_t**2*R_e**3) - R_e*(1 + R_t))/(1 + R_e)",
    "yield_coefficient_2": K_2,
    "yield_coefficient_3": K_3,
    "angle_coefficient": "1 + theta/360",
    "reduction_term_I": reduction("4"),
    "reduction_term_II": reduction("3.6"),
    "reduction_term_III_IV": reduction("3.2"),
    # dowel_single_shear, dowel_double_shear
    "single_shear_Im": "D*l_m*F_em/R_d_I",
    "single_shear_Is": "D*l_s*F_es/R_d_I",
    "single_shear_II": "k_1*D*l_s*F_es/R_d_II",
    "single_shear_IIIm": "k_2*D*l_m*F_em/((1 + 2*R_e)*R_d_III)",
    "single_shear_IIIs": "k_3*D*l_s*F_em/((2 + R_e)*R_d_III)",
    "single_shear_IV": IV,
    "single_shear": "Min(Z_Im, Z_Is, Z_II, Z_IIIm, Z_IIIs, Z_IV)",
    "double_shear_Im": "D*l_m*F_em/R_d_I",
    "double_shear_Is": "2*D*l_s*F_es/R_d_I",
    "double_shear_IIIs": "2*k_3*D*l_s*F_em/((2 + R_e)*R_d_III)",
    "double_shear_IV": f"2*{IV}",
    "double_shear": "Min(Z_Im, Z_Is, Z_IIIs, Z_IV)",
    # dowel_gap
    "bearing_per_length": "F_e*D",
    "dowel_yield_moment": "F_yb*D**3/6",
    "gap_mode_Im": "q_m*l_m",
    "gap_mode_Is": "q_s*l_s",
    "gap_mode_II": root("1/(4*q_s) + 1/(4*q_m)", "l_s/2 + g + l_m/2", "-q_s*l_s**2/4 - q_m*l_m**2/4"),
    "gap_mode_IIIm": root("1/(2*q_s) + 1/(4*q_m)", "g + l_m/2", "-M_s - q_m*l_m**2/4"),
    "gap_mode_IIIs": root("1/(4*q_s) + 1/(2*q_m)", "l_s/2 + g", "-q_s*l_s**2/4 - M_m"),
    "gap_mode_IV": root("1/(2*q_s) + 1/(2*q_m)", "g", "-M_s - M_m"),
    "gap_value": "P/R_d",
    "gap_value_two_planes": "2*P/R_d",
    "slot_gap": "w_slot - t",
    "widest_gap": "2*D",
    # dowel_lengths, dowel_aslant
    "penetration": "L_f - l_s - t_w",
    "main_length_lag": "p - E_tip/2",
    "main_length_nail": "p - (2*D)/2",
    "least_penetration_lag": "4*D + E_tip",
    "least_penetration_nail": "6*D",
    "screw_thread_length": "Min(L_f, Max(4*D, Rational(2, 3)*L_f))",
    "lag_thread_held": "Min(T_thread - E_tip, p - E_tip)",
    "screw_thread_held": "Min(T_thread, p)",
    "toe_nail_side_length": "Min(t_s, L_f/3)",
    "toe_nail_main_length": "L_f*(COS30 - Rational(1, 3))",
    # withdrawal
    "withdrawal_lag": "1800*G**Rational(3, 2)*D**Rational(3, 4)",
    "withdrawal_wood_screw": "2850*G**2*D",
    "withdrawal_nail": "1380*G**Rational(5, 2)*D",
    "withdrawal_stainless_nail": "465*G**Rational(3, 2)*D",
    "head_pull_through": "Piecewise((690*PI*D_H*G**2*t_s, t_s <= 2.5*D_H), (1725*PI*D_H**2*G**2, True))",
    "withdrawal_value": "W_prime*p_t",
    "shear_and_pull_screw": "sqrt(V**2 + T**2)*(V**2/(V**2 + T**2)/Z_prime + T**2/(V**2 + T**2)/W_p)",
    "shear_and_pull_nail": "V/Z_prime + T/W_p",
    # connection_adjustment
    "adjusted_lateral": "Z*C_D*C_M*C_t*C_g*C_delta*C_eg*C_di*C_tn",
    "adjusted_withdrawal": "W_w*C_D*C_M*C_t*C_eg*C_tn",
    "adjusted_pull_through": "W_H*C_D*C_M*C_t",
    # group
    "load_slip_wood": "180000*D**Rational(3, 2)",
    "load_slip_metal": "270000*D**Rational(3, 2)",
    "stiffness_ratio": "Min(E_s*A_s/(E_m*A_m), E_m*A_m/(E_s*A_s))",
    "group_u": "1 + gamma*(s/2)*(1/(E_m*A_m) + 1/(E_s*A_s))",
    "group_m": "u - sqrt(u**2 - 1)",
    "group_action_factor": ("m*(1 - m**(2*n))/(n*((1 + R_EA*m**n)*(1 + m) - 1 + m**(2*n)))*((1 + R_EA)/(1 - m))"),
    # fastener_spacing
    "geometry_factor_end": "Min(1, l_end/(k_full*D))",
    "geometry_factor_spacing": "Min(1, s/(k_full*D))",
    "distance": "k*D",
    "edge_distance_parallel": "Piecewise((1.5*D, l_w/D <= 6), (Max(1.5*D, s_row/2), True))",
    "row_spacing_perpendicular": (
        "Piecewise((2.5*D, l_w/D <= 2), (Piecewise(((5*l_w + 10*D)/8, l_w/D < 6), (5*D, True)), True))"
    ),
    # tear_out: from F_v'/2 on two lines, n s_crit long each
    "critical_spacing": "Min(l_end, s)",
    "row_tear_out": "2*(F_v_prime/2)*t*n*s_crit",
    "group_tear_out": "Z_RT_1/2 + Z_RT_2/2 + F_t_prime*A_between",
    "net_section_tension": "F_t_prime*A_n",
    "bolt_hole": "D + Rational(1, 16)",
    "area_less_holes": "A_g - n*d_h*t",
    "area_between_rows": "t*((n_row - 1)*s_row - (n_row - 2)*d_h - 2*d_h/2)",
    # washer
    "round_washer_area": "PI*D_w**2/4 - PI*d_h**2/4",
    "washer_bearing": "F_c_perp_prime*A_b",
    # steel_bolts
    "bolt_tension": "F_nt*A_b/2.00",
    "bolt_shear": "n*F_nv*A_b/2.00",
    "bolt_shear_stress": "V/A_b",
    "bolt_tension_with_shear": "Min(F_nt, 1.3*F_nt - 2.00*F_nt/F_nv*f_rv)",
    "threaded_tension_strength": "0.75*F_u",
    "threaded_shear_strength": "0.450*F_u",
    "shank_shear_strength": "0.563*F_u",
    # steel_holes
    "standard_hole": "Piecewise((D + Rational(1, 16), D < 1), (D + Rational(1, 8), True))",
    "net_hole_width": "d_h + Rational(1, 16)",
    "clear_to_edge": "l_end - d_h/2",
    "clear_to_next": "s - d_h",
    "plate_bearing": "2.4*D*t*F_u/2.00",
    "plate_tear_out": "1.2*l_c*t*F_u/2.00",
    # steel_plates
    "tension_yield": "F_y*A_g/1.67",
    "tension_rupture": "F_u*A_e/2.00",
    "shear_yield": "0.60*F_y*A_gv/1.50",
    "shear_rupture": "0.60*F_u*A_nv/2.00",
    "block_shear": "Min(0.60*F_u*A_nv + U_bs*F_u*A_nt, 0.60*F_y*A_gv + U_bs*F_u*A_nt)/2.00",
    "short_compression": "F_y*A_g/1.67",
    "slender_compression": "0.658**(F_y*(slenderness/PI)**2/E_steel)*F_y*A_g/1.67",
    "fillet_weld": "0.60*F_EXX*(1 + 0.50*sin(pi*theta_w/180)**Rational(3, 2))*0.707*w_leg*L_w/2.00",
    # steel_bending
    "bar_plastic_modulus": "2*(b*t/2)*(t/4)",
    "bar_bending": "Min(F_y*Z_x, 1.6*F_y*S_x)/1.67",
    "bar_bending_rupture": "F_u*Z_x/2.00",
    "lateral_slenderness": "L_b*d/t**2",
    "lateral_slenderness_limit": "0.08*E_steel/F_y",
    "bar_that_twists": "(1.52 - 0.274*slenderness*F_y/E_steel)*F_y*S_x/1.67",
    # bolt_pattern
    "fastener_force_x": "P_x/n - M*y_i/I_p",
    "fastener_force_y": "P_y/n + M*x_i/I_p",
    "fastener_force": "sqrt(P_xi**2 + P_yi**2)",
    "lever_arm_tension": "M/(eta*h_1)",
    "share_of_row": "T_1/n_row",
}


def typed(name: str) -> Any:
    symbols = {each: sympy.Symbol(each, positive=True) for each in REGISTRY[name].arguments}
    return sympy.sympify(EQUATIONS[name], locals={**symbols, "PI": PI, "COS30": COS30}, rational=True)


@pytest.mark.parametrize("name", EQUATIONS)
def test_the_code_is_the_equation(name: str) -> None:
    difference = sympy.piecewise_fold(to_sympy(REGISTRY[name].tree) - typed(name))
    if difference != 0:
        difference = sympy.simplify(difference)
    if difference.has(sympy.Min, sympy.Max):  # min(a, b) + c and min(a + c, b + c): which is less depends on a and b
        difference = sympy.simplify(difference.rewrite(sympy.Piecewise))
    assert difference == 0


def test_the_plastic_modulus_from_its_integral() -> None:
    """Z is the integral of |y| over the section: a bar b x t."""
    b, t, y = sympy.symbols("b t y", positive=True)
    bar = 2 * sympy.integrate(b * y, (y, 0, t / 2))
    assert sympy.simplify(bar - to_sympy(REGISTRY["bar_plastic_modulus"].tree)) == 0
