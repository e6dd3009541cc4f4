"""Formulas of braces, bars, corbels, props, movement and side brackets against their equations typed a second time.

Typed from statics and from the notes on brackets (how: derived; memory where the docstring says so), in another form
than the code where there is one. The second half derives them anew with sympy, by integration.
"""

from __future__ import annotations

from typing import Any

import pytest
import sympy

from beamcheck.calc.core import REGISTRY
from beamcheck.calc.trace import to_sympy

FILES = (
    "brackets.brace", "brackets.corbel", "wood.shrinkage", "brackets.prop", "brackets.post_with_bracket",
    "brackets.steel_core", "brackets.split",
)  # fmt: skip
BETA = "(pi*beta_b/180)"

EQUATIONS = {
    # brace
    "brace_force": f"P*x_L/(x_b*sin{BETA})",
    "brace_force_butted": f"P*(x_L - x_p)/((x_b - x_p)*sin{BETA})",
    "top_tie": f"N_b*sin(pi/2 - {BETA})",
    "sliding_on_wall_leg": f"N_b*cos(pi/2 - {BETA})",
    "grain_runout_slope": "tan(2*atan(2*s_b/l))",
    "brace_offset": "k_off*d + s_b",
    "bent_outside_brace": "P*(x_L - x_b)**2*x_L/(3*E*I)",
    "bent_inside_brace": "P*(x_L*(x_b - x_L))**2/(3*x_b*E*I)",
    "braced_sinking": "n_b**2*P*c_b + t_b**2*P*c_t + v_b**2*P/k_V + delta_n + (n_b + t_b)*g_j",
    "end_of_brace_stiffness": "E*A_b/(20*d)",
    "knee_force": f"Delta_0*sin{BETA}/(f_xx*sin{BETA}**2 + f_h*sin(pi/2 - {BETA})**2 + c_b)",
    "knee_thrust": f"R/tan{BETA}",
    "knee_post_moment": "(h*y_k - y_k**2)*H_k/h",
    "flush_end_on_top": f"(N_b*sin{BETA})/(t*(d/sin{BETA}))",
    "flush_end_on_wall_leg": f"(N_b*cos{BETA})/(t*(d/cos{BETA}))",
    "housing_bearing": "H_b/(t*d_cut)",
    "housing_shear": "k_v*H_b/(t*l_v)",
    # corbel
    "seat_shear_length": "Min(l, k_l*d_cut)",
    "seat_shear": "k_v*P/(t*l_v)",
    # split
    "head_reach": "(l_hd - x_Q)*cos(pi/2 - pi*theta_g/180) + y_h*sin(pi/2 - pi*theta_g/180)",
    "dowel_bearing_force": "F_e*D*C_D/R_d",
    "dowel_moment": "C_D*F_yb*(D_r**3/6)/R_d",
    "load_with_own_weight": "(P*x_Q + W*x_c)/x_Q",
    "load_allowed": "P_s/k_s",
    "strength_over_time": "18.3 + 108.4/(3600*t_u)**0.0464",
    "dowel_across_a_gap": "q_d*(sqrt(g_dw**2/4 + 2*M_dw/q_d) - g_dw/2)",
    # steel_core
    "elastic_bending_limit": "0.6*F_y",
    "tip_deflection": (
        "P*x_L**3/(3*E_steel*I) + (l_out - x_L)*P*x_L**2/(2*E_steel*I) + l_out*P*x_L*l_down/(c_v*E_steel*I)"
    ),
    "gusset_slenderness": "l_edge/t",
    "gusset_slenderness_limit": "0.56*sqrt(E_steel/F_y)",
    "leg_lever_arm": "g_leg + sqrt(sqrt(4*E_steel*I/k_leg))",
    "leg_tension": "M/Min(eta*h_1, z_leg)",
    "gusset_weld_force": "sqrt((P/2/L_w)**2 + (M/(2*L_w**2/6))**2)",
    # prop
    "prop_force": "Max(0, (Delta_0 - g)/(1/k_n + f_xx))",
    "softened_modulus": "E - 1.645*COV*E",
    "gap_needed": "K_cr*Delta_LT + Delta_ST - Delta_in + s_close + g_tol",
    "pad_in_series": "k_n*k_pad/(k_n + k_pad)",
    # movement
    "cross_grain_movement": "C_w*dMC*h",
    "clearance_needed": "c_min + Delta_w + Delta_hid",
    # side_bracket
    "side_bracket_push": "P*a/l",
    "side_bracket_moment": "P*a*(l_p/l)",
}


def typed(name: str) -> Any:
    symbols = {each: sympy.Symbol(each, positive=True) for each in REGISTRY[name].arguments}
    return sympy.sympify(EQUATIONS[name], locals=symbols, rational=True)


@pytest.mark.parametrize("name", EQUATIONS)
def test_the_code_is_the_equation(name: str) -> None:
    difference = sympy.piecewise_fold(to_sympy(REGISTRY[name].tree) - typed(name))
    difference = sympy.simplify(sympy.expand_trig(sympy.simplify(difference)))
    if difference.has(sympy.Min, sympy.Max):
        difference = sympy.simplify(difference.rewrite(sympy.Piecewise))
    assert difference == 0


P, F, a, I, s = sympy.symbols("P F a I s", positive=True)  # noqa: E741


def tree(name: str) -> Any:
    return to_sympy(REGISTRY[name].tree)


def test_the_contact_force_closes_the_gap() -> None:
    """Sag less what the bracket holds up is the gap and what the bracket gives (how: derived)."""
    D, g, k, f = sympy.symbols("D g k f", positive=True)
    R = sympy.Symbol("R", positive=True)
    (solved,) = sympy.solve(sympy.Eq(D - R * f, g + R / k), R)
    found = REGISTRY["prop_force"](Delta_0=0.4, g=0.1, k_n=8000.0, f_xx=3e-5)
    assert found == pytest.approx(float(solved.subs({D: 0.4, g: 0.1, k: 8000.0, f: 3e-5})), rel=1e-12)
    # with the pad that just holds R to 200 lbf, R is 200 lbf
    softness = (0.4 - 0.1) / 200.0 - 3e-5 - 1 / 8000.0
    with_pad = REGISTRY["pad_in_series"](k_n=8000.0, k_pad=1 / softness)
    assert REGISTRY["prop_force"](0.4, 0.1, with_pad, 3e-5) == pytest.approx(200.0, rel=1e-12)


def test_the_tip_of_an_L_bar_from_the_unit_force_method() -> None:
    """Level leg a cantilever; upright leg with the moment dying out evenly (3) or staying (1) (how: derived)."""
    l_out, l_down, x_L, E_s = sympy.symbols("l_out l_down x_L E_steel", positive=True)
    leg = sympy.integrate(P * (x_L - s) * (l_out - s), (s, 0, x_L))
    M, m = P * x_L, l_out  # at the bend, of the load and of a unit force at the tip
    for c_v, share in ((3, (1 - s / l_down) ** 2), (1, sympy.Integer(1))):
        upright = sympy.integrate(M * m * share, (s, 0, l_down))
        found = tree("tip_deflection").subs(sympy.Symbol("c_v", positive=True), c_v)
        assert sympy.simplify((leg + upright) / (E_s * I) - found) == 0


def test_brace_and_top_leg_from_equilibrium() -> None:
    """Three equations of the top leg, pivot x_p out from the wall at its underside (how: derived)."""
    N, X, V, x_L, x_b, x_p = sympy.symbols("N X V x_L x_b x_p", positive=True)
    angle = sympy.Symbol("beta_b", positive=True)
    beta = sympy.pi * angle / 180
    solved = sympy.solve(
        [X - N * sympy.cos(beta), V + N * sympy.sin(beta) - F,
         N * sympy.sin(beta) * (x_b - x_p) - F * (x_L - x_p)], [N, X, V], dict=True,
    )[0]  # fmt: skip
    at = {sympy.Symbol("P", positive=True): F}
    assert sympy.simplify(solved[N] - tree("brace_force_butted").subs(at)) == 0
    assert sympy.simplify(solved[N].subs(x_p, 0) - tree("brace_force").subs(at)) == 0
    in_brace = {sympy.Symbol("N_b", positive=True): solved[N], **at}
    assert sympy.simplify(solved[X] - tree("top_tie").subs(in_brace)) == 0


def test_grain_runout_of_a_circle() -> None:
    """The tangent at the end of an arc of chord l and rise s_b: radius (l^2/4 + s_b^2)/(2 s_b) (how: derived)."""
    s_b, l = sympy.symbols("s_b l", positive=True)  # noqa: E741
    r = (l**2 / 4 + s_b**2) / (2 * s_b)
    end = (l / 2) / (r - s_b)  # tangent of half the arc's angle
    assert sympy.simplify(end - tree("grain_runout_slope")) == 0


def test_the_weld_of_a_gusset_from_its_stress() -> None:
    """Two lines of length h: moment of inertia per throat 2 h^3/12, its edge at h/2 (how: derived)."""
    M, h = sympy.symbols("M L_w", positive=True)
    across = M / (2 * h**3 / 12) * (h / 2)
    assert sympy.simplify(sympy.sqrt((P / (2 * h)) ** 2 + across**2) - tree("gusset_weld_force")) == 0


def test_the_moment_of_a_side_bracket_from_statics() -> None:
    """A couple P a at l_p above the foot of a post hinged at both ends: P a x/l up to it, less P a beyond."""
    l, l_p = sympy.symbols("l l_p", positive=True)  # noqa: E741
    H = sympy.Symbol("H")
    (push,) = sympy.solve(sympy.Eq(H * l, P * a), H)  # moments about the foot
    assert sympy.simplify(push - tree("side_bracket_push")) == 0
    assert sympy.simplify(push * l_p - tree("side_bracket_moment")) == 0
