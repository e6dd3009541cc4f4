"""Braces, bars, props and movement against the check rows of the notes on brackets, and against other methods.

Rows K, P, Q, ST and IC come from closed forms, beam elements and plane elements (how: derived); PUB-BG1 is a public
examination question (how: read, bolt places inferred from its printed radius and angle).
"""

from __future__ import annotations

import math
from typing import Any

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from beamcheck.formulas.brackets import brace, corbel, prop, steel_core
from beamcheck.formulas.brackets import post_with_bracket as side_bracket
from beamcheck.formulas.connections import bolt_pattern
from beamcheck.formulas.wood import shrinkage as movement
from beamcheck.formulas.wood.bending import bending_stress
from beamcheck.formulas.wood.section import rectangle_area, rectangle_inertia, rectangle_modulus

from ..out_of_range import refuses

# ----------------------------------------------------------- K: three pieces, 18 x 18 in, all 2 1/2 in deep, 45 deg


def test_brace_force_of_rows_K1_and_K4() -> None:
    """141.421 lbf by hand; plane elements with bonded joints 122.794 (straight) and 128.515 (bowed): on the safe side.

    Rise and run from underside and inner face of the legs: 15 - 2.5 in each, so 45 degrees.
    """
    N_b = brace.brace_force(100.0, 15.0, 15.0, 45.0)
    assert N_b == pytest.approx(141.421, abs=5e-4)
    assert min(N_b / 122.794, N_b / 128.515) > 1.05


def test_brace_force_on_the_axes_of_the_pieces_is_the_other_row_of_K1() -> None:
    """129.636 lbf: pivot where the axes of the legs meet, 1.25 in out and 1.25 in above the underside of the top leg.

    Measured from there the axis of a 45 deg brace meets the level of the pivot 1.25 in farther out.
    """
    on_axes = brace.brace_force_butted(100.0, 15.0, 15.0 + 1.25, 1.25, 45.0)
    assert on_axes == pytest.approx(129.636, abs=5e-4)


def test_edge_stress_of_rows_K1_and_K4() -> None:
    """22.6274 and 104.086 psi: N/A, and N/A + 6 N s/(t d^2) with a rise of 1.5 in; plane elements 24.85 and 74.11.

    A shift of d/5 makes the straight one 2.2 N/A, over the 1.1 to 2.2 found with plane elements.
    """
    N_b = brace.brace_force(100.0, 15.0, 15.0, 45.0)
    assert N_b / 2.5**2 == pytest.approx(22.6274, abs=5e-5)
    bowed, tight = (
        N_b / 2.5**2 + N_b * brace.brace_offset(2.5, k_off, s_b) / rectangle_modulus(2.5, 2.5)
        for k_off, s_b in ((0.0, 1.5), (0.2, 0.0))
    )
    assert bowed == pytest.approx(104.086, abs=5e-4)
    assert tight == pytest.approx(2.2 * 22.6274, rel=1e-5) and tight > 24.8509


def test_load_beyond_the_brace_by_hand() -> None:
    """100 lbf at 24 in, brace at 12 in, 45 deg: about the wall face 100 x 24/12/0.7071 = 282.8; about a joint 3.5 in
    out 100 x 20.5/8.5/0.7071 = 341.1."""
    wall = brace.brace_force(100.0, 24.0, 12.0, 45.0)
    joint = brace.brace_force_butted(100.0, 24.0, 12.0, 3.5, 45.0)
    assert (wall, joint) == (pytest.approx(282.84, abs=0.01), pytest.approx(341.08, abs=0.01))


@given(P=st.floats(1, 5000), x_b=st.floats(6, 40), x_L=st.floats(6, 60), x_p=st.floats(0, 5), slope=st.floats(20, 70))
def test_forces_of_a_brace_are_in_balance(P: float, x_b: float, x_L: float, x_p: float, slope: float) -> None:
    """Upright parts, and moments about the wall face; the larger of both pivots depends on which side the load is."""
    N_b = brace.brace_force_butted(P, x_L, x_b, x_p, slope)
    V_0 = P - brace.sliding_on_wall_leg(N_b, slope)  # upright parts
    assert V_0 * x_p + brace.sliding_on_wall_leg(N_b, slope) * x_b == pytest.approx(P * x_L, rel=1e-9)
    assert math.hypot(brace.top_tie(N_b, slope), brace.sliding_on_wall_leg(N_b, slope)) == pytest.approx(N_b)
    more = N_b - brace.brace_force(P, x_L, x_b, slope)
    assert more == pytest.approx(0.0, abs=1e-9 * N_b) or (more > 0) == (x_L > x_b)
    # the stress on a flush end, once by each leg, makes N/A together: sin^2 + cos^2
    ends = brace.flush_end_on_top(N_b, 2.0, 3.0, slope) + brace.flush_end_on_wall_leg(N_b, 2.0, 3.0, slope)
    assert ends == pytest.approx(N_b / 6.0)


def test_grain_runs_out_more_on_a_circle_than_on_a_parabola() -> None:
    """1.5 in in 17.68 in: 2 atan(3/17.68) = 19.27 deg; the parabola's atan(6/17.68) = 18.75 deg."""
    angle = brace.grain_runout(1.5, 17.68)
    assert angle == pytest.approx(math.degrees(2 * math.atan(3 / 17.68))) == pytest.approx(19.27, abs=0.01)
    assert angle > math.degrees(math.atan(6 / 17.68))
    assert brace.grain_runout(0.0, 17.68) == 0.0


def test_housing_and_seat() -> None:
    """100 lbf on 2.5 x 0.5 in: 80 psi. 8 depths are 4 in: 1.5 x 100/(2.5 x 4) = 15 psi, however long the wood is."""
    assert brace.housing_bearing(100.0, 2.5, 0.5) == 80.0
    assert corbel.seat_shear_length(12.0, 0.5, 8.0) == 4.0
    assert brace.housing_shear(100.0, 2.5, 4.0, 1.5) == corbel.seat_shear(100.0, 2.5, 4.0, 1.5) == 15.0


# ---------------------------------------------------------------------------------------------- ST: L-shaped flat bar


def test_flat_bar_of_row_ST1() -> None:
    """1/4 x 1 1/2 in, 8 in out, 3 in down, 50 lbf: 25,600 psi; tip 0.207154 in (hinge) to 0.320147 in (same moment)."""
    I, S = rectangle_inertia(1.5, 0.25), rectangle_modulus(1.5, 0.25)  # noqa: E741
    f_b = bending_stress(50.0 * 8.0, S)
    assert f_b == pytest.approx(25600.0)
    assert f_b > steel_core.elastic_bending_limit(36000.0) == 21600.0
    for c_v, tip in ((3.0, 0.207154), (1.0, 0.320147)):
        assert steel_core.tip_deflection(50.0, 8.0, 8.0, 29e6, I, 3.0, c_v) == pytest.approx(tip, abs=5e-7)


@given(x_L=st.floats(0.5, 8.0), c_v=st.floats(1.0, 3.0))
def test_a_load_inside_the_tip_sinks_it_less(x_L: float, c_v: float) -> None:
    at_tip = steel_core.tip_deflection(50.0, 8.0, 8.0, 29e6, 0.002, 3.0, c_v)
    assert 0 < steel_core.tip_deflection(50.0, x_L, 8.0, 29e6, 0.002, 3.0, c_v) <= at_tip
    # a force at x_L sinks the tip as far as a force at the tip sinks x_L (Maxwell): cantilever and turn of the bend
    there = 50.0 * x_L**2 * (3 * 8.0 - x_L) / (6 * 29e6 * 0.002) + 50.0 * 8.0 * 3.0 / (c_v * 29e6 * 0.002) * x_L
    assert steel_core.tip_deflection(50.0, x_L, 8.0, 29e6, 0.002, 3.0, c_v) == pytest.approx(there, rel=1e-12)


def test_gusset() -> None:
    """36,000 psi: 0.56 sqrt(29e6/36e3) = 15.89 (AISC 360-16 Table B4.1a, how: memory). Weld: 300 lbf and 2400 lbf-in
    on two lines of 4 in: 37.5 along, 2400/(4^2/3) = 450 across, 451.6 lbf/in together."""
    assert steel_core.gusset_slenderness_limit(29e6, 36000.0) == pytest.approx(15.89, abs=0.01)
    assert steel_core.gusset_slenderness(4.0, 0.25) > 15.89 > steel_core.gusset_slenderness(3.9, 0.25)
    assert steel_core.gusset_weld_force(300.0, 2400.0, 4.0) == pytest.approx(math.hypot(37.5, 450.0))


# -------------------------------------------------------------------- P, Q: a beam that comes down on brackets

BEAM_1 = {"w": 25.0, "x": 24.0, "L": 144.0, "I": rectangle_inertia(5.5, 9.5)}  # P1, P8, Q1


def bent(beam: dict[str, float], E: float = 1.6e6) -> tuple[float, float]:
    w, x, L, EI = beam["w"], beam["x"], beam["L"], E * beam["I"]
    sag = w * x * (L**3 - 2 * L * x**2 + x**3) / (24 * EI)  # closed forms of a simple beam (how: derived)
    return sag, x**2 * (L - x) ** 2 / (3 * EI * L)


def test_contact_force_of_row_P1() -> None:
    """724.471 lbf by closed form and by 400 beam elements with a one-sided spring; end reaction 1196.27."""
    force = prop.prop_force(bent(BEAM_1)[0], 0.0, 8000.0, bent(BEAM_1)[1])
    assert force == pytest.approx(724.471, abs=5e-4)
    assert 25.0 * 144.0 / 2 - force * (144.0 - 24.0) / 144.0 == pytest.approx(1196.27, abs=5e-3)


def test_contact_force_of_row_P8() -> None:
    """A gap of 1/2 in is not closed: sag 0.1127 in."""
    sag, f_xx = bent(BEAM_1)
    assert sag == pytest.approx(0.113, abs=5e-4)
    assert prop.prop_force(sag, 0.5, 8000.0, f_xx) == 0.0


def test_contact_force_of_row_P3_a_pair() -> None:
    """1408.73 lbf each by closed form and by beam elements; end reaction 1471.27. The formula of a single
    bracket gives 18 % more. Other method here: the two equations of the force method, solved as a matrix."""
    beam = {"w": 30.0, "x": 30.0, "L": 192.0, "I": rectangle_inertia(5.5, 11.5)}
    sag, alone = bent(beam)
    pair = 30.0**2 * (3 * 192.0 - 4 * 30.0) / (6 * 1.6e6 * beam["I"])  # a force at both (how: derived)
    force = prop.prop_force(sag, 0.0, 10000.0, pair)
    assert force == pytest.approx(1408.73, abs=5e-3)
    assert 30.0 * 192.0 / 2 - force == pytest.approx(1471.27, abs=5e-3)
    other = pair - alone
    both = np.linalg.solve([[alone + 1e-4, other], [other, alone + 1e-4]], [sag, sag])
    np.testing.assert_allclose(both, force, rtol=1e-12)
    assert prop.prop_force(sag, 0.0, 10000.0, alone) / force == pytest.approx(1.18, abs=0.005)


def test_contact_force_of_row_Q1_with_shear() -> None:
    """724.471 in bending, 749.333 with shear (G = 124,800); a beam of plane elements gave 737.7: shear is safe."""
    sag, f_xx = bent(BEAM_1)
    A = rectangle_area(5.5, 9.5)
    sag += 1.2 * 25.0 * 24.0 * (144.0 - 24.0) / (2 * 124800.0 * A)  # closed forms of the shear (how: derived)
    f_xx += 1.2 * 24.0 * (144.0 - 24.0) / (124800.0 * A * 144.0)
    force = prop.prop_force(sag, 0.0, 8000.0, f_xx)
    assert force == pytest.approx(749.333, abs=5e-4)
    assert force > 737.7 > 724.471


def test_a_softer_beam_rests_harder() -> None:
    """E halved: 724 becomes 1211 lbf (note to row P1, how: derived). E(1 - 1.645 x 0.25) is 0.58875 E."""
    assert prop.prop_force(bent(BEAM_1, 0.8e6)[0], 0.0, 8000.0, bent(BEAM_1, 0.8e6)[1]) == pytest.approx(1211, abs=0.5)
    assert prop.softened_modulus(1.6e6, 0.25) == pytest.approx(0.58875 * 1.6e6)


@given(sag=st.floats(0.0, 3.0), g=st.floats(0.0, 3.0), k=st.floats(100, 1e5), more=st.floats(1.0, 10.0))
def test_contact_force_grows_with_sag_and_stiffness_and_shrinks_with_the_gap(
    sag: float, g: float, k: float, more: float
) -> None:
    force = prop.prop_force(sag, g, k, 3e-5)
    assert (force > 0) == (sag > g)
    assert prop.prop_force(sag * more, g, k, 3e-5) >= force
    assert prop.prop_force(sag, g, k * more, 3e-5) >= force * (1 - 1e-12)
    assert prop.prop_force(sag, g * more, k, 3e-5) <= force
    assert prop.prop_force(sag, sag, k, 3e-5) == 0.0  # a gap of the whole sag frees it


@given(LT=st.floats(0, 1), ST=st.floats(0, 1), K_cr=st.floats(1, 2), part=st.floats(0, 1), close=st.floats(0, 0.3))
def test_the_gap_needed_frees_the_bracket(LT: float, ST: float, K_cr: float, part: float, close: float) -> None:
    present = part * LT
    g = prop.gap_needed(K_cr, LT, ST, present, close, 0.0625)
    assert g >= (ST + close + 0.0625) * (1 - 1e-12)
    assert prop.prop_force(K_cr * LT + ST - present + close, g, 1e6, 1e-6) == 0.0


# ---------------------------------------------------------------------------------------------------------- movement


def test_movement_of_boards() -> None:
    """12 in flat-sawn, 5 points: red oak 0.22 in, white pine 0.13 in (how: derived from Table 13-5)."""
    assert movement.cross_grain_movement(0.00369, 5.0, 12.0) == pytest.approx(0.22, abs=0.005)
    assert movement.cross_grain_movement(0.00212, 5.0, 12.0) == pytest.approx(0.13, abs=0.005)
    assert movement.clearance_needed(0.125, 0.22, 0.03) == pytest.approx(0.375)


@given(S=st.floats(2.0, 12.7), start=st.floats(10.0, 30.0), end=st.floats(4.0, 30.0), FSP=st.sampled_from([30.0]))
def test_the_linear_rule_is_safe_for_wood_that_starts_wetter(S: float, start: float, end: float, FSP: float) -> None:
    """Wood Handbook eq. 13-3 (form read, printed equation memory): dD = D (M_f - M_i)/(30 x 100/S - 30 + M_i), and the
    rule behind Table 13-5, C = (S/3000)/(1 - 20 S/3000), which is eq. 13-3 at 10 %."""
    exact = abs(end - start) / (FSP * 100 / S - FSP + start)
    C_w = (S / 3000) / (1 - 20 * S / 3000)
    assert movement.cross_grain_movement(C_w, abs(end - start), 1.0) >= exact * (1 - 1e-9)


@given(S=st.floats(2.0, 12.7), start=st.floats(0.0, 10.0), points=st.floats(0.1, 20.0))
def test_the_linear_rule_is_at_most_5_percent_short_for_wood_that_starts_drier(
    S: float, start: float, points: float
) -> None:
    """As said in the docstring; same equations."""
    exact = points / (3000 / S - 30 + start)
    C_w = (S / 3000) / (1 - 20 * S / 3000)
    assert movement.cross_grain_movement(C_w, points, 1.0) >= 0.95 * exact


def test_a_green_white_oak_beam() -> None:
    """12 in flat face from 30 to 8 %: 0.92 in by eq. 13-3 with S_T 10.5 (how: derived); 0.964 by the linear rule."""
    by_eq_13_3 = 12 * 22 / (3000 / 10.5 - 30 + 30)
    assert by_eq_13_3 == pytest.approx(0.92, abs=0.005)
    assert movement.cross_grain_movement(0.00365, 22.0, 12.0) == pytest.approx(0.9636)


# ------------------------------------------------------------ groups of fasteners loaded in their own plane


def elastic(places: list[tuple[float, float]], P_y: float, M: float) -> Any:
    x, y = (np.array(column, dtype=float) for column in zip(*places, strict=True))
    x_i, y_i = bolt_pattern.about_centroid(x, y)
    I_p = bolt_pattern.polar_sum(x_i, y_i)
    n = float(len(places))
    return bolt_pattern.fastener_force(
        bolt_pattern.fastener_force_x(0.0, n, M, y_i, I_p), bolt_pattern.fastener_force_y(P_y, n, M, x_i, I_p)
    ).max()


def test_bolts_of_a_published_bracket() -> None:
    """PUB-BG1: 10 kN at 100 mm on four bolts 80 x 60 mm: 7.16 kN printed (how: read)."""
    places = [(-40.0, -30.0), (40.0, -30.0), (-40.0, 30.0), (40.0, 30.0)]
    assert elastic(places, -10.0, -1000.0) == pytest.approx(7.16, rel=1e-3)


@pytest.mark.parametrize(
    ("places", "C", "at_least"),
    [
        ([(0, 0), (0, 3), (0, 6)], 1.34164, 1.39955),
        ([(0, 0), (3, 0), (0, 3), (3, 3)], 1.48842, 1.67487),
        ([(0, 0), (0, 3)], 0.702247, 0.689259),
    ],
)
def test_coefficient_of_a_group_4_in_off(places: list[tuple[float, float]], C: float, at_least: float) -> None:
    """IC2, IC3, IC6: load over the largest force on a bolt, elastic; beside it the instantaneous center (how: derived).

    The elastic one is lower but for two bolts in one line, where it is 2 % over.
    """
    elastic_C = 1.0 / elastic(places, -1.0, -4.0)
    assert elastic_C == pytest.approx(C, abs=5e-6)
    assert elastic_C < 1.02 * at_least


# -------------------------------------------------------------------------------------------------- out of their range

REFUSED = [
    ("brace_force", "P=100 x_L=15 x_b=15 beta_b=45", "beta_b=90",
     "beta_b must be above 0 and less than 90 deg, given 90 (statics)"),
    ("brace_force", "P=100 x_L=15 x_b=15 beta_b=45", "P=-100", "P must be a finite number, 0 or more, given -100"),
    ("brace_force_butted", "P=100 x_L=15 x_b=15 x_p=2 beta_b=45", "x_p=15",
     "x_L must be above x_p 15, given 15: load and brace stand farther out than the pivot"),
    ("top_tie", "N_b=100 beta_b=45", "beta_b=0", "beta_b must be above 0 and less than 90 deg, given 0"),
    ("grain_runout_slope", "s_b=1 l=18", "s_b=9", "s_b must be 0 or more and less than l / 2 = 9, given 9"),
    ("brace_offset", "d=2.5 k_off=0.2 s_b=0", "k_off=0.6", "k_off must be 0 to 0.5, given 0.6"),
    ("housing_shear", "H_b=100 t=2 l_v=4 k_v=1.5", "k_v=0.9", "k_v must be 1 or more, given 0.9"),
    ("seat_shear_length", "l=12 d_cut=0.5 k_l=8", "d_cut=0", "d_cut must be a finite number above 0, given 0"),
    ("seat_shear", "P=100 t=2 l_v=4 k_v=1.5", "l_v=0", "l_v must be a finite number above 0, given 0"),
    ("tip_deflection", "P=50 x_L=8 l_out=8 E_steel=29e6 I=0.002 l_down=3 c_v=1", "x_L=9",
     "x_L must be above 0 and at most l_out 8, given 9"),
    ("tip_deflection", "P=50 x_L=8 l_out=8 E_steel=29e6 I=0.002 l_down=3 c_v=1", "c_v=4",
     "c_v must be 1 to 3, given 4"),
    ("prop_force", "Delta_0=0.2 g=0.1 k_n=8000 f_xx=3e-5", "g=-0.1",
     "g must be a finite number, 0 or more, given -0.1"),
    ("prop_force", "Delta_0=0.2 g=0.1 k_n=8000 f_xx=3e-5", "k_n=0", "k_n must be a finite number above 0, given 0"),
    ("softened_modulus", "E=1.6e6 COV=0.25", "COV=0.61", "COV must be 0 to 0.5, given 0.61 (NDS 2018 Appendix F)"),
    ("gap_needed", "K_cr=2 Delta_LT=0.1 Delta_ST=0.1 Delta_in=0.1 s_close=0 g_tol=0.06", "Delta_in=0.21",
     "Delta_in must be 0 to K_cr * Delta_LT = 0.2, given 0.21: with more the beam has come down farther"),
    ("gap_needed", "K_cr=2 Delta_LT=0.1 Delta_ST=0.1 Delta_in=0.1 s_close=0 g_tol=0.06", "K_cr=0.9",
     "K_cr must be 1 to 4, given 0.9"),
    ("cross_grain_movement", "C_w=0.0037 dMC=5 h=12", "C_w=0.37", "C_w must be above 0 and at most 0.01, given 0.37"),
    ("cross_grain_movement", "C_w=0.0037 dMC=5 h=12", "dMC=31", "dMC must be 0 to 30 points, given 31"),
    ("side_bracket_moment", "P=100 a=8 l_p=96 l=120", "l_p=50",
     "l_p must be l / 2 = 60 to l 120, given 50: it is laid off to the farther end"),
]  # fmt: skip


@pytest.mark.parametrize(("name", "good", "bad", "told"), REFUSED)
def test_out_of_range(name: str, good: str, bad: str, told: str) -> None:
    refuses(name, good, bad, told)


def test_a_bracket_at_the_end_of_a_post_gives_the_whole_couple() -> None:
    assert side_bracket.side_bracket_moment(1000.0, 8.0, 120.0, 120.0) == 8000.0
    assert side_bracket.side_bracket_moment(1000.0, 8.0, 60.0, 120.0) == 4000.0  # half above, half below
    assert side_bracket.side_bracket_push(1000.0, 8.0, 120.0) == pytest.approx(8000.0 / 120.0)


@pytest.mark.parametrize(("t", "hardness"), [(0.25, 23000.0), (0.375, 23000.0), (0.25, 100000.0)])
def test_pull_on_the_row_of_a_leg_that_curls(t: float, hardness: float) -> None:
    """A bar on springs, 240 elements in 12 in, hinged at the row and turned there by M: the pull is M over the arm."""
    EI, k, n, M = 29e6 * 1.5 * t**3 / 12, 1.5 * hardness, 240, 100.0
    h = 12.0 / n
    K = np.zeros((2 * n + 2, 2 * n + 2))
    bar = EI / h**3 * np.array([[12, 6 * h, -12, 6 * h], [6 * h, 4 * h * h, -6 * h, 2 * h * h],
                                [-12, -6 * h, 12, -6 * h], [6 * h, 2 * h * h, -6 * h, 4 * h * h]])  # fmt: skip
    for i in range(n):
        K[2 * i : 2 * i + 4, 2 * i : 2 * i + 4] += bar
        K[2 * i, 2 * i] += 0.5 * k * h
        K[2 * i + 2, 2 * i + 2] += 0.5 * k * h
    free = [i for i in range(2 * n + 2) if i != 0]
    load = np.zeros(2 * n + 2)
    load[1] = M
    u = np.zeros(2 * n + 2)
    u[free] = np.linalg.solve(K[np.ix_(free, free)], load[free])
    arm = steel_core.leg_lever_arm(29e6, 1.5 * t**3 / 12, k, 0.0)
    assert abs(K[0] @ u) == pytest.approx(M / arm, rel=2e-3)
    assert steel_core.leg_tension(M, 0.9, 3.0, arm) == pytest.approx(M / min(2.7, arm))
