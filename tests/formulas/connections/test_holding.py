"""Withdrawal, group action, distances, tear-out, washers, patterns: limits, properties, worked by hand."""

from __future__ import annotations

import math
import re
from itertools import pairwise

import mpmath
import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from beamcheck.errors import OutOfRange
from beamcheck.formulas.connections import bolt_pattern, tear_out, washer, withdrawal
from beamcheck.formulas.connections import group_action as group
from beamcheck.formulas.connections import spacing as fastener_spacing
from beamcheck.formulas.connections.adjustment import adjusted_lateral

loads = st.floats(1.0, 5000.0)

# --- withdrawal -------------------------------------------------------------------------------------------------------


@given(loads, loads, st.floats(0.0, 90.0))
def test_pull_and_shear_at_once(W_p: float, Z: float, alpha: float) -> None:
    """The share is the load over the printed value, NDS 2018 eq. 12.4-1 (screws) and 12.4-2 (nails; how: memory)."""
    c, s = math.cos(math.radians(alpha)), math.sin(math.radians(alpha))
    screw, nail = W_p * Z / (W_p * c**2 + Z * s**2), W_p * Z / (W_p * c + Z * s)
    assert withdrawal.shear_and_pull_screw(700.0 * c, 700.0 * s, Z, W_p) == pytest.approx(700.0 / screw, rel=1e-9)
    assert withdrawal.shear_and_pull_nail(700.0 * c, 700.0 * s, Z, W_p) == pytest.approx(700.0 / nail, rel=1e-9)
    assert nail <= screw * (1 + 1e-12)


def test_no_load_is_no_angle() -> None:
    with pytest.raises(OutOfRange, match="V and T are both 0: there is no load to check"):
        withdrawal.shear_and_pull_screw(0.0, 0.0, 400.0, 300.0)
    assert withdrawal.shear_and_pull_nail(0.0, 0.0, 400.0, 300.0) == 0.0
    both = withdrawal.shear_and_pull_screw(np.array([0.0, 400.0]), np.array([0.0, 0.0]), 400.0, 300.0)
    np.testing.assert_allclose(both, [np.nan, 1.0])


def test_head_pull_through() -> None:
    """NDS 2018 12.2.5 (memory), typed out: G 0.50, head 0.344 in, 3/4 in under it; both branches meet at 2.5 D_H."""
    assert withdrawal.head_pull_through(0.50, 0.344, 0.75) == pytest.approx(690 * math.pi * 0.344 * 0.25 * 0.75)
    thick = 1725 * math.pi * 0.344**2 * 0.25
    for t in (2.5 * 0.344, 2.5 * 0.344 + 1e-9, 3.0):
        assert withdrawal.head_pull_through(0.50, 0.344, t) == pytest.approx(thick)


# --- group action -----------------------------------------------------------------------------------------------------

moduli, areas = st.floats(0.8e6, 30e6), st.floats(1.0, 200.0)


def C_g(E_m: float, A_m: float, E_s: float, A_s: float, D: float, s: float, n: float) -> float:
    m = group.group_m(group.group_u(group.load_slip_wood(D), s, E_m, A_m, E_s, A_s))
    return float(group.group_action_factor(m, n, group.stiffness_ratio(E_m, A_m, E_s, A_s)))


@given(moduli, areas, moduli, areas, st.floats(0.25, 1.0), st.floats(0.75, 8.0))
def test_group_action(E_m: float, A_m: float, E_s: float, A_s: float, D: float, s: float) -> None:
    """One fastener 1, each more no more (two between like members share evenly: 1 as well), main and side alike."""
    row = [C_g(E_m, A_m, E_s, A_s, D, s, n) for n in (1, 2, 3, 5, 8, 12)]
    assert row[0] == pytest.approx(1.0, abs=1e-9)
    assert all(later <= earlier * (1 + 1e-9) for earlier, later in pairwise(row))
    assert row[-1] < row[2] < 1
    assert C_g(E_s, A_s, E_m, A_m, D, s, 5) == pytest.approx(row[3], rel=1e-9)
    assert C_g(E_m, A_m, E_s, A_s, D, s * 1.5, 5) <= row[3]


@pytest.mark.parametrize("stiffer", [1.0, 1e2, 1e4, 1e6])
@pytest.mark.parametrize("n", [2, 12])
def test_group_action_keeps_its_digits_as_members_grow_stiff(stiffer: float, n: int) -> None:
    """m goes to 1 and the equation to 0/0: against the same equation with 60 digits."""
    EA_m, EA_s = 1.4e6 * 10 * stiffer, 1.4e6 * 5 * stiffer
    with mpmath.workdps(60):
        u = 1 + 180000 * mpmath.mpf(2) * (1 / mpmath.mpf(EA_m) + 1 / mpmath.mpf(EA_s))
        m, R = u - mpmath.sqrt(u**2 - 1), mpmath.mpf("0.5")
        exact = m * (1 - m ** (2 * n)) / (n * ((1 + R * m**n) * (1 + m) - 1 + m ** (2 * n))) * (1 + R) / (1 - m)
    found = C_g(1.4e6 * stiffer, 10.0, 1.4e6 * stiffer, 5.0, 1.0, 4.0, n)
    assert found == pytest.approx(float(exact), rel=1e-7)
    if stiffer == 1e6:
        assert found == pytest.approx(1.0, abs=2e-5)
        # so stiff a pair still passes as a factor: noise above 1 is not refused
        assert adjusted_lateral(100.0, 1.0, 1.0, 1.0, found, 1.0, 1.0, 1.0, 1.0) <= 100.0 * (1 + 1e-9)


# --- distances --------------------------------------------------------------------------------------------------------


def test_geometry_factors_are_plain_ratios() -> None:
    """NDS 2018 12.5.1 (memory): 1/2 in bolt, softwood in tension: 7 D is 1, 3.5 D is 0.5, 5 D is 5/7."""
    end, spacing = fastener_spacing.geometry_factor_end, fastener_spacing.geometry_factor_spacing
    assert [end(k * 0.5, 0.5, 7.0) for k in (3.5, 5.0, 7.0, 9.0)] == pytest.approx([0.5, 5 / 7, 1.0, 1.0])
    assert [spacing(k * 0.5, 0.5, 4.0) for k in (3.0, 3.5, 4.0, 6.0)] == pytest.approx([0.75, 0.875, 1.0, 1.0])
    for call, told in (
        (lambda: end(1.74, 0.5, 7.0), "l_end must be k_full * D / 2 = 1.75 or more, given 1.74: the least end"),
        (lambda: spacing(1.49, 0.5, 4.0), "s must be 3 * k_full * D / 4 = 1.5 or more, given 1.49: the least sp"),
        (lambda: end(4.0, 0.2, 7.0), "D must be 0.25 to 1 in, given 0.2"),
    ):
        with pytest.raises(OutOfRange, match=re.escape(told)):
            call()
    # below the least distance an array says NaN where a number says why: never a factor
    np.testing.assert_array_equal(spacing(np.array([1.49, 1.5]), 0.5, 4.0), [np.nan, 0.75])
    np.testing.assert_array_equal(end(np.array([1.74, 1.75]), 0.5, 7.0), [np.nan, 0.5])


@given(st.floats(0.25, 1.0))
def test_row_distances_meet_where_the_branches_meet(D: float) -> None:
    rows = fastener_spacing.row_spacing_perpendicular
    assert rows(2 * D, D) == pytest.approx(rows(2.000001 * D, D), rel=1e-5)
    assert rows(5.999999 * D, D) == pytest.approx(rows(6 * D, D), rel=1e-5)
    assert rows(4 * D, D) == pytest.approx((5 * 4 * D + 10 * D) / 8)


def test_edge_distance_along_the_grain() -> None:
    """NDS 2018 Table 12.5.1C (memory): 1/2 in bolt in 3-1/2 in wood is l/D 7, so half the row spacing counts."""
    edge = fastener_spacing.edge_distance_parallel
    assert [edge(3.5, 0.5, s_row) for s_row in (1.0, 1.5, 3.0)] == [0.75, 0.75, 1.5]
    assert edge(3.0, 0.5, 3.0) == 0.75  # l/D 6: not over


# --- tear-out and washers ---------------------------------------------------------------------------------------------


def test_two_rows_of_three_bolts_tear_out() -> None:
    """Two rows of three 1/2 in bolts in 1-1/2 x 5-1/2, rows 2 in apart, 2 in spacing, 3-1/2 in end; F_v' 180, F_t' 575.

    NDS 2018 Appendix E (memory), typed out here."""
    d_h, t = tear_out.bolt_hole(0.5), 1.5
    assert d_h == 0.5625
    row = tear_out.row_tear_out(3.0, 180.0, t, tear_out.critical_spacing(3.5, 2.0))
    assert row == 3 * 180 * 1.5 * 2.0 == 1620.0
    between = tear_out.area_between_rows(2.0, 2.0, d_h, t)
    assert between == 1.5 * (2.0 - 0.5625)
    assert tear_out.group_tear_out(row, row, 575.0, between) == 1620 / 2 + 1620 / 2 + 575 * 2.15625
    A_n = tear_out.area_less_holes(1.5 * 5.5, 2.0, d_h, t)
    assert tear_out.net_section_tension(575.0, A_n) == 575 * (8.25 - 2 * 0.5625 * 1.5)
    with pytest.raises(OutOfRange, match=re.escape("s_row must be above d_h 0.5625, given 0.5")):
        tear_out.area_between_rows(2.0, 0.5, d_h, t)
    with pytest.raises(OutOfRange, match="the holes take all of A_g"):
        tear_out.area_less_holes(1.0, 2.0, d_h, t)


def test_washer_of_a_half_inch_bolt() -> None:
    """1-3/8 in washer over a 9/16 in hole: pi/4 (1.375^2 - 0.5625^2) = 1.2364 in2."""
    A_b = washer.round_washer_area(1.375, 0.5625)
    assert A_b == pytest.approx(1.2364, abs=5e-5)
    assert washer.washer_bearing(625.0, A_b) == pytest.approx(772.7, abs=0.1)
    with pytest.raises(OutOfRange, match=re.escape("d_h must be above 0 and less than D_w 1.375, given 1.5")):
        washer.round_washer_area(1.375, 1.5)


# --- patterns ---------------------------------------------------------------------------------------------------------


@given(
    st.lists(st.tuples(st.floats(-20, 20), st.floats(-20, 20)), min_size=2, max_size=9, unique=True),
    st.floats(-3000, 3000), st.floats(-3000, 3000), st.floats(-40000, 40000),
)  # fmt: skip
def test_the_fasteners_hold_the_load_in_balance(
    places: list[tuple[float, float]], P_x: float, P_y: float, M: float
) -> None:
    """Elastic vector method: the forces add up to the load, and their moments to the moment."""
    x, y = bolt_pattern.about_centroid(*zip(*places, strict=True))
    I_p = bolt_pattern.polar_sum(x, y)
    if I_p < 1e-3:
        return
    n = float(len(places))
    along = bolt_pattern.fastener_force_x(P_x, n, M, y, I_p)
    upward = bolt_pattern.fastener_force_y(P_y, n, M, x, I_p)
    assert along.sum() == pytest.approx(P_x, abs=1e-6 * (abs(M) + 1000))
    assert upward.sum() == pytest.approx(P_y, abs=1e-6 * (abs(M) + 1000))
    assert (x * upward - y * along).sum() == pytest.approx(M, abs=1e-6 * (abs(M) + 1000))


def test_four_bolts_in_a_square_under_an_off_center_load() -> None:
    """4 in square, 1000 lbf down 6 in to the right: 250 down each, and 6000 x 2/32 = 375 each way (by hand)."""
    x, y = bolt_pattern.about_centroid([0, 4, 4, 0], [0, 0, 4, 4])
    I_p = bolt_pattern.polar_sum(x, y)
    assert I_p == 32.0
    along = bolt_pattern.fastener_force_x(0.0, 4.0, -6000.0, y, I_p)
    upward = bolt_pattern.fastener_force_y(-1000.0, 4.0, -6000.0, x, I_p)
    np.testing.assert_allclose(along, [-375, -375, 375, 375])
    np.testing.assert_allclose(upward, [125, -625, -625, 125])
    worst = bolt_pattern.fastener_force(along, upward)
    np.testing.assert_allclose(worst, [395.285, 728.869, 728.869, 395.285], atol=1e-3)
    upright = bolt_pattern.angle_to_grain(along, upward, 90.0)  # a post: grain at 90 deg to the x axis
    np.testing.assert_allclose(upright, np.degrees(np.arctan2(np.abs(along), np.abs(upward))))
    assert np.isnan(bolt_pattern.angle_to_grain(0.0, 0.0, 90.0))


def test_a_group_needs_its_places() -> None:
    for x, y in (([], []), ([1.0], [1.0, 2.0])):
        with pytest.raises(OutOfRange, match="a group of fasteners needs one x and one y for each fastener"):
            bolt_pattern.about_centroid(x, y)
    with pytest.raises(OutOfRange, match="I_p must be a finite number above 0, given 0"):  # one fastener: no moment
        bolt_pattern.fastener_force_x(0.0, 1.0, 100.0, 0.0, 0.0)


def test_the_lever_arm_rule() -> None:
    """T_1 = F x_L/(eta d_1) (collected notes, derived): 300 lbf 12 in out, anchors 9 in up, eta 0.45, two a row."""
    pull = bolt_pattern.lever_arm_tension(300.0 * 12.0, 0.45, 9.0)
    assert pull == pytest.approx(3600 / 4.05)
    assert bolt_pattern.share_of_row(pull, 2.0) == pytest.approx(444.44, abs=0.01)
    assert pull > 3600.0 / 9.0  # a pivot about the heel
    with pytest.raises(OutOfRange, match=re.escape("eta must be above 0 and at most 0.9, given 0.95")):
        bolt_pattern.lever_arm_tension(3600.0, 0.95, 9.0)
