"""Wood at an angle to its grain against rotated tensors and tabled values; what formulas of brackets refuse."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from beamcheck.calc.core import REGISTRY
from beamcheck.errors import OutOfRange
from beamcheck.formulas.wood import off_axis as off

from ..bracket_samples import FILES
from ..out_of_range import refuses
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


@given(st.floats(-900.0, 900.0), st.floats(0.0, 180.0), st.floats(-90.0, 90.0))
def test_parts_of_an_edge_stress_against_the_rotated_tensor(sigma_t: float, theta_g: float, slope: float) -> None:
    apart = abs(theta_g - slope) % 180.0
    phi = min(apart, 180.0 - apart)
    edge, grain = ((np.cos(np.radians(each)), np.sin(np.radians(each))) for each in (slope, theta_g))
    tensor = sigma_t * np.outer(edge, edge)
    across = np.array([-grain[1], grain[0]])
    assert off.stress_across(sigma_t, phi) == pytest.approx(across @ tensor @ across, abs=1e-6)


@pytest.mark.parametrize(
    ("phi", "bears"),
    [(5, 622), (10, 324), (15, 182), (20, 114), (30, 57), (45, 30), (60, 20)],
)
def test_tension_at_an_angle(phi: float, bears: float) -> None:
    """F_par 900, F_perp 15 psi. With the exponent 2, the other end of the handbook's range, the collected notes have
    `bears` (how: derived; they print 622 for 621.47): the exponent 1.5 is always below it, and the same at both ends.
    """
    s, c = np.sin(np.radians(phi)), np.cos(np.radians(phi))
    assert 1 / (s**2 / 15.0 + c**2 / 900.0) == pytest.approx(bears, abs=0.54)
    assert 15.0 < off.hankinson_tension(900.0, 15.0, phi) < bears
    assert off.hankinson_tension(900.0, 15.0, 0.0) == pytest.approx(900.0)
    assert off.hankinson_tension(900.0, 15.0, 90.0) == pytest.approx(15.0)


def parts(sigma_t: float, phi: float) -> tuple[float, float, float]:
    """Stress along the grain, across it and in shear at a free edge (Mohr; how: derived)."""
    s, c = np.sin(np.radians(phi)), np.cos(np.radians(phi))
    return sigma_t * c**2, off.stress_across(sigma_t, phi), sigma_t * s * c


def test_the_quadratic_rule() -> None:
    """Alone each stress counts over its strength; twice the load is twice the share; along an edge never over F_par.

    At 5 deg the form with F_par F_perp would allow 934 psi (collected notes, how: derived): this one does not.
    """
    strength = {"F_par": 900.0, "F_perp": 15.0, "F_v": 180.0}
    assert off.quadratic_index(450.0, 0.0, 0.0, **strength) == 0.5
    assert off.quadratic_index(0.0, -30.0, 0.0, **strength) == 2.0
    assert off.quadratic_index(0.0, 0.0, 90.0, **strength) == 0.5

    def share(sigma_t: float, phi: float) -> float:
        return float(off.quadratic_index(*parts(sigma_t, phi), **strength))

    for phi in (0.0, 2.0, 5.0, 10.0, 45.0, 90.0):
        assert share(200.0, phi) == pytest.approx(2 * share(100.0, phi))
        assert share(900.0, phi) >= 1 - 1e-12
    along, across, sheared = parts(934.0, 5.0)
    other = (along / 900) ** 2 - along * across / (900 * 15) + (across / 15) ** 2 + (sheared / 180) ** 2
    assert other == pytest.approx(1, abs=2e-3)
    assert share(934.0, 5.0) > 1.1


# --- what is refused --------------------------------------------------------------------------------------------------

WOOD = "E_L=1.6e6 E_T=8e4 G_LT=1.2e5 nu_LT=0.4 psi=45"
FAN = "M=600 N=-40 t=1.5 d=8 E_0=8e5 E_1=6e4 E_2=7e4"
CASES = [
    ("off_axis_modulus", WOOD, "E_T=0", "E_T must be a finite number above 0, given 0"),
    ("off_axis_modulus", WOOD, "nu_LT=-0.1", "nu_LT must be a finite number, 0 or more, given -0.1"),
    ("off_axis_modulus", WOOD, "psi=inf", "psi must be a finite number, given inf"),
    ("off_axis_modulus", WOOD, "nu_LT=30", "E_L, E_T, G_LT and nu_LT do not belong to one material"),
    ("stress_across", "sigma_t=100 phi=30", "phi=91", "phi must be 0 to 90 deg, given 91"),
    ("hankinson_tension", "F_par=900 F_perp=15 phi=30", "F_perp=901",
     "F_perp must be above 0 and at most F_par 900, given 901"),
    ("quadratic_index", "s_par=9 s_perp=9 tau=9 F_par=900 F_perp=15 F_v=180", "F_v=0",
     "F_v must be a finite number above 0, given 0"),
    ("equal_angle_depth", "y_s=4 alpha_s=45", "alpha_s=-1", "alpha_s must be 0 to 90 deg, given -1"),
    ("vertical_edge_stress", "M=600 t=1.5 d=8", "d=0", "d must be a finite number above 0, given 0"),
    ("bracket_shear_stress", "V=100 t=1.5 d=4", "V=-1", "V must be a finite number, 0 or more, given -1"),
    ("top_design_stress", "k_fe=1.3 sigma_v=1 sigma_lin=2 sigma_fan=3", "k_fe=0.9",
     "k_fe must be 1 or more, given 0.9"),
    ("soffit_design_stress", "k_fe=1.3 sigma_lin_s=2 sigma_fan_s=3", "k_fe=0", "k_fe must be 1 or more, given 0"),
    ("fan_mean_strain", FAN, "E_1=3e5", "E_0, E_1 and E_2 belong to no section"),
    ("fan_bending_strain", FAN, "t=-1", "t must be a finite number above 0, given -1"),
    ("curved_inner_stress", "M=9 N=9 A=3 e_c=0.1 r_n=2.9 r_i=2", "r_i=3", "r_n must be r_i 3 or more, given 2.9"),
    ("curved_bar_stiffness", "E_L=1.6e6 G_LT=1e5 A=3 r_m=3 e_c=0.1 phi_b=90", "e_c=3",
     "e_c must be above 0 and less than r_m 3, given 3"),
    ("curved_bar_stiffness", "E_L=1.6e6 G_LT=1e5 A=3 r_m=3 e_c=0.1 phi_b=90", "phi_b=181",
     "phi_b must be 1 to 180 deg, given 181"),
]  # fmt: skip


@pytest.mark.parametrize(("name", "good", "bad", "told"), CASES)
def test_out_of_range(name: str, good: str, bad: str, told: str) -> None:
    refuses(name, good, bad, told)


SIGNED = {
    "M", "N", "P_o", "psi", "theta_g", "sigma_t", "s_par", "s_perp", "tau", "sigma_v", "sigma_lin", "sigma_fan",
    "sigma_lin_s", "sigma_fan_s", "eps_0", "eps_b", "E_1",
}  # fmt: skip


@pytest.mark.parametrize("name", [name for name in NAMES if file_of(name) in FILES])
def test_a_minus_sign_on_a_size_or_strength_never_gives_a_value(name: str) -> None:
    """Only forces, stresses and directions have a sign; the sizes of a moment, a shear and an edge stress have none."""
    (inputs,) = draw(name, 1)
    unsigned = {"M"} if name == "radial_stress" else set()
    for each in set(inputs) - (SIGNED - unsigned):
        if inputs[each] == 0:
            continue
        with pytest.raises(OutOfRange):
            REGISTRY[name](**{**inputs, each: -abs(inputs[each])})
