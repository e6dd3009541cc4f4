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

PI = sympy.nsimplify(math.pi, rational=True)  # the tree holds pi as the number that math.pi is


def deg(angle: str) -> str:
    return f"(pi*{angle}/180)"


S, C = (f"{name}{deg('psi')}" for name in ("sin", "cos"))
HALF = deg("alpha_s/2")
SPREAD = "(E_0*E_2 - E_1**2)"
# integrals of sin^2 and cos^2 from the nose to the held end
SIN2 = "(PI*phi_b/360 - sin(2*pi*phi_b/180)/4)"
COS2 = "(PI*phi_b/360 + sin(2*pi*phi_b/180)/4)"

EQUATIONS = {
    # off_axis
    "off_axis_modulus": f"1/({C}**4/E_L + {S}**4/E_T + {S}**2*{C}**2*(1/G_LT - 2*nu_LT/E_L))",
    "stress_across": "sigma_t*(1 - cos(2*pi*phi/180))/2",
    "hankinson_tension": "1/(sin(pi*phi/180)**1.5/F_perp + cos(pi*phi/180)**1.5/F_par)",
    "quadratic_index": "sqrt((s_par**2 - s_par*s_perp)/F_par**2 + s_perp**2/F_perp**2 + tau**2/F_v**2)",
    # section_forces
    "equal_angle_depth": f"y_s/cos{HALF}",
    "section_axial_force": f"-P_o*sin{HALF}",
    "section_shear_force": f"P_o*cos{HALF}",
    # section_stress
    "vertical_edge_stress": "M*(d/2)/(t*d**3/12)",
    "equal_angle_edge_stress_top": f"(N/(t*d) + 6*M/(t*d**2))/cos{HALF}**2",
    "equal_angle_edge_stress_soffit": f"(N/(t*d) - 6*M/(t*d**2))/cos{HALF}**2",
    "bracket_shear_stress": "3*V/(2*t*d)",
    "top_design_stress": "k_fe*Max(Abs(sigma_v), Abs(sigma_lin), Abs(sigma_fan))",
    "soffit_design_stress": "k_fe*Max(Abs(sigma_lin_s), Abs(sigma_fan_s))",
    # fan_sections
    "fan_mean_strain": f"(N*E_2/(t*d) - M*E_1/(t*d**2))/{SPREAD}",
    "fan_bending_strain": f"(M*E_0/(t*d**2) - N*E_1/(t*d))/{SPREAD}",
    "fan_edge_stress_top": f"E_off*cos{HALF}**4*(eps_0 + eps_b/2)/cos{HALF}**2",
    "fan_edge_stress_soffit": f"E_off*cos{HALF}**4*(eps_0 - eps_b/2)/cos{HALF}**2",
    # curved_bar
    "curved_inner_stress": "N/A + M*(r_n - r_i)/(A*e_c*r_i)",
    "grain_following_factor": "1 + 0.4*d/r_m",
    "arc_off_wall": "r_o*(1 - sqrt(1 - s_f**2/r_o**2))",
    "radial_stress": "Rational(3, 2)*M/(r_m*t*d)",
    "curved_bar_stiffness": (
        f"1/({SIN2}*(r_m**2/(A*e_c*E_L) + r_m/(A*E_L) - 2*r_m/(A*E_L)) + 1.2*{COS2}*r_m/(A*G_LT))"
    ),
}


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
