"""The formulas of solid and bent brackets, proved equal to their equations typed a second time, as in `test_equations`.

Typed from the notes on brackets and from textbooks of statics, elasticity of wood and curved bars (how: derived; memory
for the clauses), in another form than the code where there is one.
"""

from __future__ import annotations

import math
from typing import Any

import pytest
import sympy

from beamcheck.calc.core import REGISTRY
from beamcheck.calc.trace import to_sympy

from ..bracket_samples import FILES
from ..samples import NAMES, file_of

PI = sympy.nsimplify(math.pi, rational=True)  # the tree holds pi as the number that math.pi is


def deg(angle: str) -> str:
    return f"(pi*{angle}/180)"


S, C = (f"{name}{deg('psi')}" for name in ("sin", "cos"))
HALF = deg("alpha_s/2")
SPREAD = "(E_0*E_2 - E_1**2)"
LEGS = "(a_f*h + l_x*b_n + A_3)"
CHORD = "sqrt(l_x**2 + l_y**2)"
SWEPT = "(PI*phi_a/180 - sin(pi*phi_a/180))"
# integrals of sin^2 and cos^2 from the nose to the held end
SIN2 = "(PI*phi_b/360 - sin(2*pi*phi_b/180)/4)"
COS2 = "(PI*phi_b/360 + sin(2*pi*phi_b/180)/4)"

EQUATIONS = {
    # off_axis
    "off_axis_modulus": f"1/({C}**4/E_L + {S}**4/E_T + {S}**2*{C}**2*(1/G_LT - 2*nu_LT/E_L))",
    "off_axis_shear_modulus": (
        f"1/(4*{S}**2*{C}**2*((1 + nu_LT)/E_L + 1/E_T + nu_LT/E_L) + ({C}**2 - {S}**2)**2/G_LT)"
    ),
    "edge_grain_angle": "Min(Abs(theta_g - alpha_s), 180 - Abs(theta_g - alpha_s))",
    "stress_along": "sigma_t*(1 + cos(2*pi*phi/180))/2",
    "stress_across": "sigma_t*(1 - cos(2*pi*phi/180))/2",
    "stress_shear": "sigma_t*sin(2*pi*phi/180)/2",
    "hankinson_tension": "1/(sin(pi*phi/180)**2/F_perp + cos(pi*phi/180)**2/F_par)",
    "quadratic_index": "sqrt((s_par**2 - s_par*s_perp)/F_par**2 + s_perp**2/F_perp**2 + tau**2/F_v**2)",
    "edge_tension_index": "Max(U_q, sigma_t/F_t_phi)",
    # bracket_geometry
    "straight_soffit_area": "l_x*l_y/2",
    "concave_soffit_area": "l_x*l_y*(1 - PI/4)",
    "convex_soffit_area": "PI*l_x*l_y/4",
    "straight_soffit_centroid": "a_f + l_x/3",
    "ogee_soffit_centroid": "a_f + l_x*Rational(5, 12)",
    "bracket_area": LEGS,
    "bracket_centroid": f"(a_f*h*a_f/2 + l_x*b_n*(a_f + l_x/2) + A_3*x_3)/{LEGS}",
    "bracket_weight": "A_br*t*density",
    # bracket_arc
    "soffit_chord": CHORD,
    "arc_radius": "s_a/2 + c_a**2/(8*s_a)",
    "segment_area": f"r_a**2*{SWEPT}/2",
    "segment_centroid": "c_a**3/(12*A_seg) - r_a + s_a",
    "hollow_arc_area": "l_x*l_y/2 - A_seg",
    "full_arc_area": "l_x*l_y/2 + A_seg",
    "hollow_arc_centroid": (f"(l_x*l_y/2*(a_f + l_x/3) - A_seg*(a_f + l_x/2 - z_seg*l_y/{CHORD}))/(l_x*l_y/2 - A_seg)"),
    "full_arc_centroid": f"(l_x*l_y/2*(a_f + l_x/3) + A_seg*(a_f + l_x/2 + z_seg*l_y/{CHORD}))/(l_x*l_y/2 + A_seg)",
    # bracket_section_forces
    "equal_angle_depth": f"y_s/cos{HALF}",
    "equal_angle_start": f"x_s - y_s*tan{HALF}",
    "section_axial_force": f"-P_o*sin{HALF}",
    "section_shear_force": f"P_o*cos{HALF}",
    "section_moment": "P_o*(x_L - x_0 + x_L - x_s)/2",
    "shelf_load_beyond": "w*(l_out - x_0)",
    "shelf_load_centre": "x_0 + (l_out - x_0)/2",
    "arm_over_depth": "(x_L - (x_0 + x_s)/2)/d",
    # bracket_sections
    "vertical_edge_stress": "M*(d/2)/(t*d**3/12)",
    "equal_angle_edge_stress_top": f"(N/(t*d) + 6*M/(t*d**2))/cos{HALF}**2",
    "equal_angle_edge_stress_soffit": f"(N/(t*d) - 6*M/(t*d**2))/cos{HALF}**2",
    "bracket_shear_stress": "3*V/(2*t*d)",
    "top_design_stress": "k_fe*Max(Abs(sigma_v), Abs(sigma_lin), Abs(sigma_fan))",
    "soffit_design_stress": "k_fe*Max(Abs(sigma_lin_s), Abs(sigma_fan_s))",
    # bracket_fan
    "fan_mean_strain": f"(N*E_2/(t*d) - M*E_1/(t*d**2))/{SPREAD}",
    "fan_bending_strain": f"(M*E_0/(t*d**2) - N*E_1/(t*d))/{SPREAD}",
    "fan_edge_stress_top": f"E_off*cos{HALF}**4*(eps_0 + eps_b/2)/cos{HALF}**2",
    "fan_edge_stress_soffit": f"E_off*cos{HALF}**4*(eps_0 - eps_b/2)/cos{HALF}**2",
    # curved_bar
    "neutral_shift": "r_i + d/2 - r_n",
    "curved_inner_stress": "N/A + M*(r_n - r_i)/(A*e_c*r_i)",
    "curved_outer_stress": "N/A - M*(r_o - r_n)/(A*e_c*r_o)",
    "grain_following_factor": "1 + 0.4*d/r_m",
    "radial_stress": "Rational(3, 2)*M/(r_m*t*d)",
    "radial_tension_third": "C_vr*F_v_prime/3",
    "radial_tension_value": "Min(F_rt_3, F_rt_max)",
    "curved_bar_stiffness": (
        f"1/({SIN2}*(r_m**2/(A*e_c*E_L) + r_m/(A*E_L) - 2*r_m/(A*E_L)) + 1.2*{COS2}*r_m/(A*G_LT))"
    ),
    # bracket_anchor
    "top_row_pull": "P*x_L/(eta*h_1)",
    "contact_height": "(-K_s + sqrt(K_s**2 + 2*k_wall*t*K_h))/(k_wall*t)",
    "rocking_angle": "P*x_L/(K_c + k_wall*t*c_h**3/3)",
    "rocking_row_pull": "k_ax*(h_i - c_h)*omega",
    "bracket_stiffness": "1/(1/k_body + (x_L/(eta*h_1))**2/k_ax + 1/k_lat)",
}
BY_INTEGRAL = {
    "concave_soffit_centroid",
    "convex_soffit_centroid",
    "ogee_soffit_centroid_down",
}  # their numbers are below


def typed(name: str) -> Any:
    symbols = {each: sympy.Symbol(each, positive=True) for each in REGISTRY[name].arguments}
    return sympy.sympify(EQUATIONS[name], locals={**symbols, "PI": PI}, rational=True)


@pytest.mark.parametrize("name", EQUATIONS)
def test_the_code_is_the_equation(name: str) -> None:
    code, again = to_sympy(REGISTRY[name].tree), typed(name)
    difference = sympy.simplify(code - again)
    if difference != 0:  # sines of sums and of halves
        difference = sympy.simplify(sympy.expand_trig(sympy.together(difference)))
    assert difference == 0


@pytest.mark.parametrize("name", EQUATIONS)
def test_the_equation_holds_every_argument(name: str) -> None:
    assert {str(each) for each in typed(name).free_symbols} == set(REGISTRY[name].arguments)


def test_every_formula_of_these_files_has_its_equation_here() -> None:
    ours = {name for name in NAMES if file_of(name) in FILES}
    assert ours == set(EQUATIONS) | BY_INTEGRAL


def test_areas_and_centroids_of_the_soffits_from_their_integrals() -> None:
    """Area between the inner corner (0, 0) and the curve, and its first moments, integrated (how: derived)."""
    q = sympy.Symbol("q")
    straight = (1 - q / (sympy.pi / 2), q / (sympy.pi / 2))  # curves of unit width and height, q = 0 .. pi/2
    concave = (1 - sympy.cos(q), 1 - sympy.sin(q))
    convex = (sympy.sin(q), sympy.cos(q))
    ogee = [  # concave below, convex above, each of half the size, level where they meet
        (concave[0] / 2, sympy.Rational(1, 2) + concave[1] / 2),
        (sympy.Rational(1, 2) + convex[0] / 2, convex[1] / 2),
    ]
    cases = (("straight", [straight]), ("concave", [concave]), ("convex", [convex]), ("ogee", ogee))
    for name, curves in cases:
        area = abs(sum(sympy.integrate(y * sympy.diff(x, q), (q, 0, sympy.pi / 2)) for x, y in curves))
        first = abs(sum(sympy.integrate(x * y * sympy.diff(x, q), (q, 0, sympy.pi / 2)) for x, y in curves))
        second = abs(sum(sympy.integrate(y**2 * sympy.diff(x, q) / 2, (q, 0, sympy.pi / 2)) for x, y in curves))
        whose = "straight" if name == "ogee" else name
        assert REGISTRY[f"{whose}_soffit_area"](7.0, 3.0) == pytest.approx(21 * float(area), rel=1e-12)
        x_3, y_3 = float(first / area), float(second / area)
        assert REGISTRY[f"{name}_soffit_centroid"](2.0, 7.0) == pytest.approx(2 + 7 * x_3, rel=1e-12)
        down = "ogee_soffit_centroid_down" if name == "ogee" else f"{name}_soffit_centroid"
        assert REGISTRY[down](1.5, 3.0) == pytest.approx(1.5 + 3 * y_3, rel=1e-12)
