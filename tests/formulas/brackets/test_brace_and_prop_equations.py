"""Formulas of braces, bars, corbels, props, movement and side brackets against their equations typed a second time.

Typed from statics and from the notes on brackets (how: derived; memory where the docstring says so), in another form
than the code where there is one. The second half derives them anew with sympy, by integration.
"""

from __future__ import annotations

from typing import Any

import numpy as np
import pytest
import sympy

from beamcheck.calc.core import REGISTRY
from beamcheck.calc.trace import to_sympy

from ..samples import NAMES, file_of

FILES = (
    "brackets.brace", "brackets.brace_joints", "brackets.corbel", "wood.shrinkage", "brackets.prop",
    "brackets.prop_sag", "brackets.post_with_bracket", "brackets.steel_core",
)  # fmt: skip
BETA = "(pi*beta_b/180)"

EQUATIONS = {
    # brace
    "brace_force": f"P*x_L/(x_b*sin{BETA})",
    "brace_force_butted": f"P*(x_L - x_p)/((x_b - x_p)*sin{BETA})",
    "top_tie": f"N_b*sin(pi/2 - {BETA})",
    "sliding_on_wall_leg": f"N_b*cos(pi/2 - {BETA})",
    "top_uplift": f"P - N_b*sin{BETA}",
    "top_leg_moment": "Piecewise((P*(1 - x_L/x_b)*x_L, x_L < x_b), (P*x_L - P*x_b, True))",
    "bow_moment": "N_b*s_b",
    "grain_runout_slope": "tan(2*atan(2*s_b/l))",
    # brace_joints
    "brace_offset": "k_off*d + s_b",
    "brace_edge_stress": "N_b/(t*d) + 6*N_b*e_1/(t*d**2)",
    "flush_end_on_top": f"(N_b*sin{BETA})/(t*(d/sin{BETA}))",
    "flush_end_on_wall_leg": f"(N_b*cos{BETA})/(t*(d/cos{BETA}))",
    "housing_bearing": "H_b/(t*d_cut)",
    "housing_shear": "k_v*H_b/(t*l_v)",
    # corbel
    "seat_shear_length": "Min(l, k_l*d_cut)",
    "seat_shear": "k_v*P/(t*l_v)",
    "projection_ratio": "l_out/h",
    # steel_core
    "bend_moment": "P*x_L",
    "elastic_bending_limit": "0.6*F_y",
    "tip_deflection": (
        "P*x_L**3/(3*E_steel*I) + (l_out - x_L)*P*x_L**2/(2*E_steel*I) + l_out*P*x_L*l_down/(c_v*E_steel*I)"
    ),
    "gusset_slenderness": "l_edge/t",
    "gusset_slenderness_limit": "0.56*sqrt(E_steel/F_y)",
    "gusset_weld_force": "sqrt((P/2/L_w)**2 + (M/(2*L_w**2/6))**2)",
    # prop_sag
    "uniform_sag": "w*x*(L - x)*(L**2 + L*x - x**2)/(24*E*I)",
    "unit_sag": "x**2*(L - x)**2/(3*E*I*L)",
    "unit_sag_pair": "x**2*(L - x)**2/(3*E*I*L) + x**2*(L**2 - 2*x**2)/(6*E*I*L)",
    "uniform_shear_sag": "Rational(6, 5)*(w*x*(L - x)/2)/(G_v*A)",
    "unit_shear_sag": "Rational(6, 5)*(x*(L - x)/L)/(G_v*A)",
    "unit_shear_sag_pair": "Rational(6, 5)*x/(G_v*A)",
    # prop
    "prop_force": "Max(0, (Delta_0 - g)/(1/k_n + f_xx))",
    "softened_modulus": "E - 1.645*COV*E",
    "gap_needed": "K_cr*Delta_LT + Delta_ST - Delta_in + s_close + g_tol",
    "pad_softness": "Max(0, (Delta_0 - g)/R_allow - f_xx - 1/k_n)",
    "pad_squeeze": "Max(0, Delta_0 - g - R_allow*(f_xx + 1/k_n))",
    "pad_in_series": "k_n*k_pad/(k_n + k_pad)",
    # movement
    "cross_grain_movement": "C_w*dMC*h",
    "clearance_needed": "c_min + Delta_w + Delta_hid",
    # side_bracket
    "side_bracket_push": "P*a/l",
    "side_bracket_moment": "P*a*(l_p/l)",
    "side_bracket_load_full": "4*(P*a*l_p/l)/l",
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


@pytest.mark.parametrize("name", EQUATIONS)
def test_the_equation_holds_every_argument(name: str) -> None:
    spare = {"L"} if name == "unit_shear_sag_pair" else set()  # falls out: there is no shear between the two
    assert {str(each) for each in typed(name).free_symbols} == set(REGISTRY[name].arguments) - spare


def test_every_formula_of_these_files_has_its_equation_here() -> None:
    assert {name for name in NAMES if file_of(name) in FILES} == set(EQUATIONS)


P, F, x, a, L, w, E, I, G_v, A, s = sympy.symbols("P F x a L w E I G_v A s", positive=True)  # noqa: E741


def tree(name: str) -> Any:
    return to_sympy(REGISTRY[name].tree)


def test_sag_of_a_simple_beam_under_uniform_load_from_its_differential_equation() -> None:
    """E I v'''' = w with v = v'' = 0 at both ends (how: derived)."""
    v = sympy.Function("v")
    solved = sympy.dsolve(
        E * I * v(x).diff(x, 4) - w, v(x),
        ics={v(0): 0, v(L): 0, v(x).diff(x, 2).subs(x, 0): 0, v(x).diff(x, 2).subs(x, L): 0},
    )  # fmt: skip
    assert sympy.simplify(solved.rhs - tree("uniform_sag")) == 0


def unit_moments(at: Any) -> tuple[Any, Any]:
    """Moments left and right of a unit force at `at` on a simple beam."""
    return s * (L - at) / L, at * (L - s) / L


def flexibility(at_1: Any, at_2: Any) -> Any:
    """Integral of m_1 m_2/(E I), at_1 not beyond at_2: unit force method (how: derived)."""
    (left_1, right_1), (left_2, right_2) = unit_moments(at_1), unit_moments(at_2)
    parts = ((left_1 * left_2, 0, at_1), (right_1 * left_2, at_1, at_2), (right_1 * right_2, at_2, L))
    return sum(sympy.integrate(sympy.expand(m), (s, low, high)) for m, low, high in parts) / (E * I)


def test_sag_per_force_from_the_unit_force_method() -> None:
    assert sympy.simplify(flexibility(x, x) - tree("unit_sag")) == 0
    both = flexibility(x, x) + flexibility(x, L - x)
    assert sympy.simplify(both - tree("unit_sag_pair")) == 0


def test_shear_sag_from_the_unit_force_method() -> None:
    """Integral of 1.2 v_1 v_2/(G A): 1.2 from the parabola of the rectangle (how: derived)."""
    y, d, b = sympy.symbols("y d b", positive=True)
    parabola = sympy.Rational(3, 2) / (b * d) * (1 - (2 * y / d) ** 2)
    kappa = sympy.integrate(parabola**2 * b, (y, -d / 2, d / 2)) * b * d
    assert sympy.simplify(kappa) == sympy.Rational(6, 5)
    left, right = (L - x) / L, -x / L  # shear of a unit force at x
    load = w * (L / 2 - s)
    uniform = sympy.integrate(load * left, (s, 0, x)) + sympy.integrate(load * right, (s, x, L))
    assert sympy.simplify(kappa * uniform / (G_v * A) - tree("uniform_shear_sag")) == 0
    single = left**2 * x + right**2 * (L - x)
    assert sympy.simplify(kappa * single / (G_v * A) - tree("unit_shear_sag")) == 0
    # two forces of 1 at x and L - x: the shear is 1, 0, -1
    pair = left * x + 0 + (-1) * right * x
    assert sympy.simplify(kappa * pair / (G_v * A) - tree("unit_shear_sag_pair")) == 0


def test_the_contact_force_closes_the_gap() -> None:
    """Sag less what the bracket holds up is the gap and what the bracket gives (how: derived)."""
    D, g, k, f = sympy.symbols("D g k f", positive=True)
    R = sympy.Symbol("R", positive=True)
    (solved,) = sympy.solve(sympy.Eq(D - R * f, g + R / k), R)
    found = REGISTRY["prop_force"](Delta_0=0.4, g=0.1, k_n=8000.0, f_xx=3e-5)
    assert found == pytest.approx(float(solved.subs({D: 0.4, g: 0.1, k: 8000.0, f: 3e-5})), rel=1e-12)
    # with the least soft pad that holds R to R_allow, R is R_allow, and the pad is squeezed by R over its stiffness
    softness = REGISTRY["pad_softness"](Delta_0=0.4, g=0.1, R_allow=200.0, f_xx=3e-5, k_n=8000.0)
    with_pad = REGISTRY["pad_in_series"](k_n=8000.0, k_pad=1 / softness)
    assert REGISTRY["prop_force"](0.4, 0.1, with_pad, 3e-5) == pytest.approx(200.0, rel=1e-12)
    squeezed = REGISTRY["pad_squeeze"](Delta_0=0.4, g=0.1, R_allow=200.0, f_xx=3e-5, k_n=8000.0)
    assert squeezed == pytest.approx(200.0 * softness, rel=1e-12)


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
    assert sympy.simplify(solved[V] - tree("top_uplift").subs(in_brace)) == 0


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
    assert sympy.simplify(tree("side_bracket_load_full") * l / 4 - push * l_p) == 0  # its own moment at mid-height
    assert sympy.simplify(tree("side_bracket_load_full") / tree("side_bracket_load")) == sympy.Rational(4, 3)


@pytest.mark.parametrize("share", [0.05, 0.3, 0.6, 0.85])
@pytest.mark.parametrize("height", [0.5, 0.6, 0.75, 0.9, 1.0])
def test_the_full_side_load_covers_the_exact_beam_column(share: float, height: float) -> None:
    """E I y'' + N y = M0(x) solved exactly below and above a couple of 1 on a strut of length 1 (how: derived).

    `share` is N over the Euler load. The largest moment is less than that of the side load at mid-height enlarged by
    1/(1 - share), as NDS 15.4.1 enlarges it.
    """
    k = np.pi * np.sqrt(share)
    # -y'' = M0 + N y gives M = low sin kx below and high sin k(1 - x) above; y and y' go through, M jumps by the couple
    lower, upper = height, 1 - height
    equal = [[np.sin(k * lower), -np.sin(k * upper)], [np.cos(k * lower), np.cos(k * upper)]]
    low, high = np.linalg.solve(equal, [1.0, 0.0])
    below, above = np.linspace(0, lower, 400), np.linspace(0, upper, 400)
    exact = max(np.abs(low * np.sin(k * below)).max(), np.abs(high * np.sin(k * above)).max())
    assert exact >= 0.5  # half of the jump at the least
    stands_for = REGISTRY["side_bracket_load_full"](1.0, 1.0, height, 1.0) / 4 / (1 - share)
    assert exact <= stands_for * (1 + 1e-9)
    if height >= 0.75 and share < 0.1:  # what the docstring of side_bracket_moment warns of
        by_the_standard = REGISTRY["side_bracket_load"](1.0, 1.0, height, 1.0) / 4 / (1 - share)
        assert by_the_standard < exact
