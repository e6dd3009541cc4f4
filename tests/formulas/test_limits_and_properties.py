"""What must be true whatever the numbers: ends of ranges, monotony, symmetry, and sections against a second method."""

from __future__ import annotations

import math

import numpy as np
import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from beamcheck.formulas.loads import roof, snow, weight
from beamcheck.formulas.wood import adjustment as adj
from beamcheck.formulas.wood import bearing, bending, combined, compression, deflection, net_section, section
from beamcheck.formulas.wood import shear as sh

ratios = st.floats(0.01, 1e4)
stresses = st.floats(50.0, 5000.0)
lengths = st.floats(1.0, 30.0)


# --- stability factors (NDS 3.3.3, 3.7.1: closed limits) -------------------------------------------------------------


@given(ratios)
def test_C_L_reduces_and_stays_under_buckling(ratio: float) -> None:
    C_L = bending.beam_stability(ratio, 1.0)
    assert 0.0 < C_L <= min(1.0, ratio) * (1 + 1e-9)


@given(ratios, st.sampled_from([0.8, 0.85, 0.9]))
def test_C_P_reduces_and_stays_under_buckling(ratio: float, c: float) -> None:
    C_P = compression.column_stability(ratio, 1.0, c)
    assert 0.0 < C_P <= min(1.0, ratio) * (1 + 1e-9)


@given(ratios, st.floats(1.001, 10.0))
def test_stiffer_is_never_weaker(ratio: float, more: float) -> None:
    assert bending.beam_stability(ratio * more, 1.0) >= bending.beam_stability(ratio, 1.0) * (1 - 1e-9)
    assert compression.column_stability(ratio * more, 1.0, 0.8) >= compression.column_stability(ratio, 1.0, 0.8) * (
        1 - 1e-9
    )


def test_stocky_pieces_lose_nothing_and_slender_ones_buckle() -> None:
    """For F_E/F* without bound the factor goes to 1; for F_E/F* towards 0 the stress goes to F_E (Euler)."""
    assert bending.beam_stability(1e6, 1.0) == pytest.approx(1.0, abs=1e-6)
    assert compression.column_stability(1e6, 1.0, 0.8) == pytest.approx(1.0, abs=1e-6)
    assert bending.beam_stability(1e-5, 1.0) == pytest.approx(1e-5, rel=1e-4)
    assert compression.column_stability(1e-5, 1.0, 0.8) == pytest.approx(1e-5, rel=1e-4)


@given(ratios)
def test_c_of_one_would_be_the_smaller_of_crushing_and_buckling(ratio: float) -> None:
    """The equation with c = 1 has the roots 1 and F_cE/F_c*."""
    assert compression.column_stability(ratio, 1.0, 1.0) == pytest.approx(min(1.0, ratio), rel=1e-6)


def test_a_stability_factor_of_a_stocky_piece_is_taken_by_the_next_formula() -> None:
    """Noise of double precision above 1 is let through, nothing more."""
    for ratio in np.geomspace(1.0, 1e7, 200):
        adj.adjusted_bending(1000.0, bending.beam_stability(ratio, 1.0), 1.0)


def test_effective_length_goes_on_without_a_jump() -> None:
    """Table 3.3.3 changes its form at l_u/d = 7 and 14.3; the two sides differ by rounding of the table only."""
    for limit, slack in ((7.0, 1e-3), (14.3, 2e-4)):
        low, high = (bending.effective_length_any(10.0 * limit * near, 10.0) for near in (1 - 1e-9, 1 + 1e-9))
        assert low == pytest.approx(high, rel=slack)
    low, high = (bending.effective_length(70.0 * near, 10.0, 2.06, 1.63, 3.0) for near in (1 - 1e-9, 1 + 1e-9))
    assert low == pytest.approx(high, rel=1e-3)


@given(st.floats(5.0, 600.0), lengths)
def test_any_other_loading_is_not_better_than_a_row_of_the_table(l_u: float, d: float) -> None:
    rows = [
        (1.33, 0.90, 3), (1.87, 1.44, 3), (2.06, 1.63, 3), (1.80, 1.37, 3), (1.11, 1.11, 0), (1.68, 1.68, 0),
        (1.54, 1.54, 0), (1.73, 1.73, 0), (1.78, 1.78, 0), (1.84, 1.84, 0),
    ]  # fmt: skip
    worst = max(bending.effective_length(l_u, d, *row) for row in rows)
    assert bending.effective_length_any(l_u, d) >= worst * (1 - 2e-4)


# --- bearing ----------------------------------------------------------------------------------------------------------


@given(stresses, stresses)
def test_bearing_at_angle_ends(F_c_star: float, F_c_perp: float) -> None:
    assert bearing.bearing_at_angle(F_c_star, F_c_perp, 0.0) == pytest.approx(F_c_star, rel=1e-12)
    assert bearing.bearing_at_angle(F_c_star, F_c_perp, 90.0) == pytest.approx(F_c_perp, rel=1e-12)


@given(stresses, stresses, st.floats(0.0, 90.0))
def test_bearing_at_angle_lies_between_and_mirrors(F_c_star: float, F_c_perp: float, theta: float) -> None:
    value = bearing.bearing_at_angle(F_c_star, F_c_perp, theta)
    assert min(F_c_star, F_c_perp) * (1 - 1e-9) <= value <= max(F_c_star, F_c_perp) * (1 + 1e-9)
    assert value == pytest.approx(bearing.bearing_at_angle(F_c_perp, F_c_star, 90.0 - theta), rel=1e-9)


@given(st.floats(0.1, 1e5), st.floats(1.0, 12.0), stresses)
def test_the_required_length_is_just_enough(R: float, b: float, F: float) -> None:
    assert bearing.bearing_stress(R, b, bearing.required_bearing_length(R, b, F)) == pytest.approx(F, rel=1e-12)


# --- combined ---------------------------------------------------------------------------------------------------------

AXIAL = {
    "f_c": 200.0,
    "F_c_prime": 700.0,
    "F_b1_prime": 1200.0,
    "F_b2_prime": 1100.0,
    "F_cE1": 900.0,
    "F_cE2": 800.0,
    "F_bE": 2500.0,
}


def test_combined_equations_agree_where_they_meet() -> None:
    central = {"e_1": 0.0, "d_1": 8.0, "e_2": 0.0, "d_2": 6.0}  # eq. 3.9-3 is eq. 15.4-1 without eccentricity
    both = combined.eccentric_column(**AXIAL, f_b1=400.0, f_b2=0.0, **central)
    one = combined.bending_and_compression_one_way(200.0, 700.0, 400.0, 1200.0, 900.0)
    assert both == pytest.approx(one, rel=1e-12)
    no_axial = combined.eccentric_column(**{**AXIAL, "f_c": 0.0}, f_b1=400.0, f_b2=150.0, **central)
    assert no_axial == pytest.approx(bending.biaxial_bending(400.0, 1200.0, 150.0, 1100.0, 2500.0), rel=1e-12)
    one_way = combined.eccentric_column_one_way(200.0, 700.0, 1200.0, 0.8, 8.0, 900.0)
    off_axis = combined.eccentric_column(**{**AXIAL, "F_bE": math.inf}, f_b1=0.0, f_b2=0.0, **{**central, "e_1": 0.8})
    assert off_axis == pytest.approx(one_way, rel=1e-12)
    limit = combined.eccentric_column_limit(200.0, 800.0, 400.0, 2500.0, 0.0, 8.0)
    assert limit == pytest.approx(combined.bending_and_compression_limit(200.0, 800.0, 400.0, 2500.0), rel=1e-12)


def test_a_held_piece_has_infinite_buckling_stresses() -> None:
    """Then 3.9-3 is the plain sum of its terms."""
    held = {**AXIAL, "F_cE1": math.inf, "F_cE2": math.inf, "F_bE": math.inf}
    value = combined.eccentric_column(**held, f_b1=400.0, f_b2=150.0, e_1=0.0, d_1=8.0, e_2=0.0, d_2=6.0)
    assert value == pytest.approx((200 / 700) ** 2 + 400 / 1200 + 150 / 1100, rel=1e-12)


@given(st.floats(0.0, 3.0), st.floats(0.0, 3.0))
def test_a_load_farther_off_the_axis_is_never_better(e: float, more: float) -> None:
    near, far = (
        combined.eccentric_column(**AXIAL, f_b1=0.0, f_b2=0.0, e_1=off / 3, d_1=8.0, e_2=0.1, d_2=6.0)
        for off in (e, e + more)
    )
    assert far >= near


def test_a_slender_biaxial_beam_is_worse_than_the_sum_of_its_ratios() -> None:
    assert bending.biaxial_bending(600.0, 1200.0, 400.0, 1000.0, 800.0) > 600 / 1200 + 400 / 1000


# --- shear ------------------------------------------------------------------------------------------------------------


@given(lengths, lengths, st.floats(0.05, 1.0))
def test_a_deeper_notch_carries_less_and_none_is_the_whole_piece(b: float, d: float, share: float) -> None:
    whole = 2 / 3 * 150.0 * b * d
    tension = sh.end_notch_tension_shear(150.0, b, d, share * d)
    compressed = sh.end_notch_compression_shear(150.0, b, d, share * d, 0.2 * d)
    assert tension <= compressed * (1 + 1e-9) <= whole * (1 + 2e-9)
    assert sh.end_notch_tension_shear(150.0, b, d, d) == pytest.approx(whole, rel=1e-12)
    assert sh.end_notch_compression_shear(150.0, b, d, d, 0.2 * d) == pytest.approx(whole, rel=1e-12)
    assert sh.connection_shear_near_end(150.0, b, d, share * d) == pytest.approx(tension, rel=1e-12)
    assert sh.connection_shear_near_end(150.0, b, d, d) == pytest.approx(sh.connection_shear_inner(150.0, b, d))


def test_a_compression_notch_longer_than_the_depth_left_is_a_beam_of_that_depth() -> None:
    """Both branches of 3.4.3.2(e) give the same at e = d_n."""
    at, past = (sh.end_notch_compression_shear(150.0, 5.5, 9.5, 7.5, e) for e in (7.5, 7.5 * (1 + 1e-12)))
    assert at == pytest.approx(past, rel=1e-9)
    assert past == pytest.approx(2 / 3 * 150.0 * 5.5 * 7.5, rel=1e-12)


def test_shear_stresses_of_a_rectangle_and_a_circle_from_the_general_equation() -> None:
    V, b, d, r = 1000.0, 5.5, 9.5, 4.0
    rectangle = V * (b * d**2 / 8) / (b * d**3 / 12 * b)  # V Q/(I b)
    circle = V * (2 * r**3 / 3) / (math.pi * r**4 / 4 * 2 * r)
    assert sh.shear_stress(V, b, d) == pytest.approx(rectangle, rel=1e-12)
    assert sh.shear_stress_round(V, section.round_area(2 * r)) == pytest.approx(circle, rel=1e-12)


def test_parts_beside_a_hole() -> None:
    """Equal parts take half the shear each; with one part gone the other takes all."""
    assert net_section.shear_stress_parts(1000.0, 7.5, 3.75, 3.75) == pytest.approx(
        sh.shear_stress(500.0, 7.5, 3.75), rel=1e-12
    )
    assert net_section.shear_stress_parts(1000.0, 7.5, 7.0, 1e-9) == pytest.approx(
        sh.shear_stress(1000.0, 7.5, 7.0), rel=1e-9
    )


def test_a_mortise_at_mid_depth_is_worse_than_its_net_area_tells() -> None:
    V, void = 1000.0, {"b": 7.5, "d": 9.5, "b_v": 3.0, "d_v": 3.0}
    first = net_section.net_first_moment(**void, y_v=4.75, y_bar=4.75)  # symmetric: the centroid is at mid-depth
    stress = net_section.shear_stress_net(V, first, net_section.net_inertia(**void, y_v=4.75), 7.5, 3.0)
    too_low = 1.5 * V / net_section.net_area(**void)
    assert too_low / stress == pytest.approx(0.71, abs=0.005)  # the 29 % of the docstring


# --- sections against strips ------------------------------------------------------------------------------------------


def strips(width: np.ndarray, d: float) -> tuple[float, float, float, float]:
    """Area, centroid, second moment and first moment above the centroid, by adding thin strips (another method)."""
    n = len(width)
    y = (np.arange(n) + 0.5) * d / n
    area = width * d / n
    y_bar = float((area * y).sum() / area.sum())
    own = width * (d / n) ** 3 / 12
    inertia = float((area * (y - y_bar) ** 2 + own).sum())
    return float(area.sum()), y_bar, inertia, float((area * np.maximum(y - y_bar, 0)).sum())


@given(st.floats(4, 12), st.floats(5, 20), st.floats(0.1, 1.0), st.floats(0.05, 0.6), st.floats(0.0, 1.0))
def test_a_void_against_strips(b: float, d: float, across: float, high: float, place: float) -> None:
    b_v, d_v = across * b, high * d
    y_v = d_v / 2 + place * (d - d_v)
    y = (np.arange(20_000) + 0.5) * d / 20_000
    width = np.where(np.abs(y - y_v) < d_v / 2, b - b_v, b)
    assume(0.02 < place < 0.98 or across < 0.95)  # a void as broad as the piece at an edge is a notch
    A, y_bar, inertia, first = strips(width, d)
    void = {"b": b, "d": d, "b_v": b_v, "d_v": d_v}
    assert net_section.net_area(**void) == pytest.approx(A, rel=1e-3)
    centroid, I_net = net_section.net_centroid(**void, y_v=y_v), net_section.net_inertia(**void, y_v=y_v)
    assert centroid == pytest.approx(y_bar, rel=1e-3)
    assert I_net == pytest.approx(inertia, rel=2e-3)
    assert net_section.net_first_moment(**void, y_v=y_v, y_bar=centroid) == pytest.approx(first, rel=2e-3)
    assert net_section.net_modulus_bottom(I_net, centroid) == pytest.approx(inertia / y_bar, rel=2e-3)
    assert net_section.net_modulus_top(I_net, d, centroid) == pytest.approx(inertia / (d - y_bar), rel=2e-3)


@given(st.floats(4, 12), st.floats(5, 20), st.floats(0.1, 0.8), st.floats(0.05, 0.6), st.floats(0.0, 1.0))
def test_a_void_in_one_side_against_strips(b: float, d: float, across: float, high: float, place: float) -> None:
    """Level strips, each from the void to the other side; the stress of unsymmetric bending in every corner."""
    b_v, d_v = across * b, high * d
    void = {"b": b, "d": d, "b_v": b_v, "d_v": d_v}
    y_v = d_v / 2 + place * (d - d_v)
    y = (np.arange(20_000) + 0.5) * d / 20_000
    left = np.where(np.abs(y - y_v) < d_v / 2, b_v, 0.0)
    area, x = (b - left) * d / 20_000, (b + left) / 2
    x_bar, y_bar = ((area * each).sum() / area.sum() for each in (x, y))
    I_x = (area * (y - y_bar) ** 2).sum()
    I_y = (area * ((x - x_bar) ** 2 + (b - left) ** 2 / 12)).sum()
    I_xy = (area * (x - x_bar) * (y - y_bar)).sum()
    assert net_section.side_void_inertia(**void) == pytest.approx(I_y, rel=2e-3)
    assert net_section.side_void_product(**void, y_v=y_v) == pytest.approx(abs(I_xy), rel=5e-3, abs=2e-3 * I_y)
    corners = [((0.0 if corner < 2 else b) - x_bar, (0.0 if corner % 2 else d) - y_bar) for corner in range(4)]
    worst = max(abs((v * I_y - u * I_xy) / (I_x * I_y - I_xy**2)) for u, v in corners)
    found = net_section.side_void_modulus(I_x, I_y, abs(I_xy), b, d, b_v, d_v, y_bar)
    assert found == pytest.approx(1 / worst, rel=2e-3)


@given(st.floats(4.0, 40.0))
def test_the_square_for_a_round_piece_has_its_area(D: float) -> None:
    side = section.equal_area_square(D)
    assert side**2 == pytest.approx(section.round_area(D), rel=1e-12)
    assert side == pytest.approx(0.886 * D, rel=3e-4)  # the rounded form of handbooks


# --- deflection and loads ---------------------------------------------------------------------------------------------


def test_the_two_consistent_ways_to_a_deflection_meet_at_21_depths() -> None:
    """NDS Appendix F: apparent E holds the shear of uniform load at a span of 21 depths (how: memory)."""
    E, b, d = 1.6e6, 5.5, 10.0
    w, L, inertia, A = 10.0, 21 * d, section.rectangle_inertia(b, d), section.rectangle_area(b, d)
    apparent = deflection.simple_uniform_deflection(w, L, E, inertia)
    bend = deflection.simple_uniform_deflection(w, L, deflection.shear_free_modulus(E), inertia)
    slip = deflection.simple_uniform_shear_deflection(w, L, deflection.shear_modulus_from_E(E), A)
    assert bend + slip == pytest.approx(apparent, rel=0.01)
    assert bend + slip >= apparent  # and on the safe side


@given(st.floats(5.0, 21.0))
def test_a_shorter_beam_sags_more_than_the_apparent_modulus_says(slender: float) -> None:
    E, b, d = 1.6e6, 5.5, 10.0
    w, L, inertia, A = 10.0, slender * d, section.rectangle_inertia(b, d), section.rectangle_area(b, d)
    with_shear = deflection.simple_uniform_deflection(w, L, deflection.shear_free_modulus(E), inertia)
    with_shear += deflection.simple_uniform_shear_deflection(w, L, deflection.shear_modulus_from_E(E), A)
    assert with_shear >= deflection.simple_uniform_deflection(w, L, E, inertia)


def test_deflection_of_a_simple_beam_by_integrating_twice() -> None:
    """Another method: curvature M/EI summed twice along the beam."""
    w, L, E, inertia = 12.0, 150.0, 1.3e6, 300.0
    n = 4000
    x = (np.arange(n) + 0.5) * L / n
    curvature = w * x * (L - x) / 2 / (E * inertia)
    # unit-load method: midspan sag = sum of curvature times the moment of a unit load at midspan
    sag = float((curvature * np.minimum(x, L - x) / 2).sum() * L / n)
    assert deflection.simple_uniform_deflection(w, L, E, inertia) == pytest.approx(sag, rel=1e-6)


@given(st.floats(0.3, 0.9), st.floats(30.0, 120.0))
def test_green_wood_weighs_no_less_than_the_printed_equation_says(G: float, MC: float) -> None:
    printed = 62.4 * (G / (1 + G * 0.009 * MC)) * (1 + MC / 100)
    assert weight.green_timber_density(G, MC) >= printed * (1 - 1e-12)
    assert weight.green_timber_density(G, 30.0) == pytest.approx(weight.timber_density(G, 30.0), rel=1e-12)


@pytest.mark.parametrize(
    ("formula", "at"),
    [
        (lambda v: adj.size_factor_timber(v), 12.0),
        (lambda v: roof.roof_area_reduction(v), 200 * 144.0),
        (lambda v: roof.roof_area_reduction(v), 600 * 144.0),
        (lambda v: roof.roof_slope_reduction(v), 4.0),
        (lambda v: roof.roof_slope_reduction(v), 12.0),
        (lambda v: snow.roof_slope_factor(v, 30.0), 30.0),
        (lambda v: snow.roof_slope_factor(v, 30.0), 70.0),
        (lambda v: snow.low_slope_minimum_snow(v, 1.1), 20 / 144),
        (lambda v: sh.point_load_share(v, 10.0), 10.0),
    ],
)
def test_no_jump_where_a_rule_changes(formula: object, at: float) -> None:
    assert callable(formula)
    low, high = formula(at * (1 - 1e-9)), formula(at * (1 + 1e-9))
    assert low == pytest.approx(high, abs=1e-6)


@given(st.floats(1.0, 60.0), st.floats(1.0, 60.0))
def test_a_deeper_timber_has_no_larger_size_factor(d: float, more: float) -> None:
    assert adj.size_factor_timber(d + more) <= adj.size_factor_timber(d) <= 1.0


@given(st.floats(0.0, 80.0))
def test_a_load_on_the_slope_and_on_plan_are_the_same_load(theta: float) -> None:
    """Turned to plan and then across the piece it is what it is along the slope, across the piece."""
    on_plan = roof.dead_on_plan(10.0, theta)
    assert roof.plan_load_across(on_plan, theta) == pytest.approx(roof.slope_load_across(10.0, theta), rel=1e-9)


def test_shear_at_d_is_the_shear_less_the_load_within_d() -> None:
    assert deflection.shear_at_d(10.0, 144.0, 12.0) == pytest.approx(
        deflection.simple_uniform_shear(10.0, 144.0) - 10.0 * 12.0
    )
