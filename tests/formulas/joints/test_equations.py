"""The formulas of heavy joints, proved equal to their equations typed a second time, as in the other rooms.

Typed from the notes (pegs and prying: memory; limits of steps: read, second-hand) and from statics, not from the code;
where a second form exists that one stands here.
"""

from __future__ import annotations

import math
from typing import Any

import pytest
import sympy

from beamcheck.calc.core import REGISTRY
from beamcheck.calc.trace import to_sympy

PI = sympy.nsimplify(math.pi, rational=True)
EUROCODE = sympy.nsimplify(14 * 25.4**1.5 / 4.4482216, rational=True)
K_3 = "(sqrt(2*(1 + R_e)/R_e + 2*F_yb*(2 + R_e)*D**2/(3*F_em*l_s**2)) - 1)"
ROOT12 = sympy.nsimplify(math.sqrt(12), rational=True)
B = "(pi*beta_r/180)"

EQUATIONS = {
    "peg_bearing_parallel": "4770*G_p**1.32",
    "peg_bearing_perpendicular": "4900*G_p*G_t**0.5",
    "peg_bending_yield": "24850*G_p**1.13",
    "peg_shear_strength": "4850*G_p*G_t**0.75",
    "peg_Im": "D*l_m*F_em/(4*K_theta)",
    "peg_Is": "D*l_s*F_es/(2*K_theta)",
    "peg_hinge_coefficient": K_3,
    "peg_IIIs": "2*k_3*D*l_s*F_em/((2 + R_e)*3.2*K_theta)",
    "peg_IV": "2*D**2/(3.2*K_theta)*sqrt(2*F_em*F_yb/(3*(1 + R_e)))",
    "peg_V": "2*(PI*D**2/4)*F_vy/3.5",
    "peg_value": "Min(Z_Im, Z_Is, Z_IIIs, Z_IV, Z_V)",
    "housing_capacity": "F_c_perp_prime*b*l_h",
    "housing_after_shrinkage": "l_h - (C_w*dMC*b)/2",
    "deepest_step": ("Piecewise((d/4, beta_r <= 50), (d/4 - (d/4 - d/6)*(beta_r - 50)/10, beta_r < 60), (d/6, True))"),
    "step_on_bisector": f"N*(1 + cos({B}))/(2*b*t_n)",
    "step_square": f"N*cos({B})/(b*t_n)",
    # the handbook's print: F sin(phi)/(A tan(phi/2)) and F sin(phi) tan(phi/2)/A
    "let_in_steep_face": f"N*sin({B})/(A*tan({B}/2))",
    "let_in_flat_face": f"N*sin({B})*tan({B}/2)/A",
    "step_shear_length": "Min(l_v, 8*t_n)",
    "step_shear": "k_v*T/(b*l_v_ef)",
    "step_length_needed": "k_v*T/(b*F_v_prime)",
    "moment_under_step": "T*d/2 - V*x_R",
    "step_offset": "d/2 - d_c/2",
    "front_of_double_step": "Min(0.8*t_heel, t_heel - Rational(100, 254))",
    "shoulder_pressure": "N/(b*d_c)",
    "shear_above_shoulder": f"k_v*N*sin({B})/(b*l_v_ef)",
    "upright_at_ridge": "w_1*L/8 - w_2*L/8",
    "drop_at_head": f"(Delta_w/2)*cos({B})/sin({B})",
    "couple_at_ends": "V*e/l",
    "couple_in_post": "V*(e/l)*Max(h, l - h)",
    "couple_of_two": "Max(V_1*e_1, V_2*e_2) - Min(V_1*e_1, V_2*e_2)",
    "shoulder_offset": "d/2 + 2*l_b/3",
    "far_side_moment": "V*a",
    "end_grain_less_slot": "b*d - w_slot*d",
    "plate_overhang": "(f_c*b*a)*a/2",
    "stem_moment": "H*h",
    "stem_slenderness": "2.1*h/(t/ROOT12)",
    "splitting_strength": "EUROCODE*b*sqrt(h_e*d/(d - h_e))",
    "inclined_slip_force": "n*T*cos(pi*alpha/180)",
    "inclined_pressing_force": "n*T*sin(pi*alpha/180)",
    "ledger_on_stud": "k_c*w*s_stud",
    "ledger_pull": "R*e/h_1",
    "prying_length": "Min(s, 2*b)",
    "prying_force": "Max(T*b_p - p_b*t**2*F_u/6.68, 0)/a_p",
    "prying_arm": "b - D/2",
    "prying_lever": "Min(a, 1.25*b) + D/2",
    "prying_net_share": "(p_b - d_h)/p_b",
    "prying_full_thickness": "sqrt(6.68*B*b_p/(p_b*F_u))",
    "prying_share": "((t_c/t)**2 - 1)/(delta_p*(1 + b_p/a_p))",
    "pull_with_prying": "Piecewise((B, alpha_p < 0), (B*(t/t_c)**2*(1 + delta_p*Min(alpha_p, 1)), True))",
    "thickness_without_prying": "sqrt(6.66*T*b_p/(p_b*F_u))",
    "bar_with_slip": "E*A*k_1s*k_2s/(L*k_1s*k_2s + E*A*k_1s + E*A*k_2s)",
    "group_turning_stiffness": "gamma*I_p",
    "sway_of_gap": f"g*h/(a*cos({B}))",
    "knee_brace_force": f"H*h/(a*cos({B}))",
    "moment_at_knee_brace": "H*h - H*a",
    "level_force_at_head": "H*h/a - H",
    "brace_point_force": "k_b*P",
    "moment_of_missed_axes": "dN*e/2",
    "moment_of_single_lap": "N*l_m/2 + N*l_s/2",
}


def typed(name: str) -> Any:
    symbols = {each: sympy.Symbol(each, positive=True) for each in REGISTRY[name].arguments}
    return sympy.sympify(
        EQUATIONS[name], locals={**symbols, "PI": PI, "EUROCODE": EUROCODE, "ROOT12": ROOT12}, rational=True
    )


@pytest.mark.parametrize("name", EQUATIONS)
def test_the_code_is_the_equation(name: str) -> None:
    difference = sympy.simplify(sympy.piecewise_fold(to_sympy(REGISTRY[name].tree) - typed(name)))
    if difference.has(sympy.tan):  # half angles
        difference = sympy.simplify(difference.rewrite(sympy.exp))
    if difference.has(sympy.Min, sympy.Max):
        difference = sympy.simplify(difference.rewrite(sympy.Piecewise))
    assert difference == 0
