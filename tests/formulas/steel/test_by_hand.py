"""Steel beside wood, worked by hand: the equations of AISC 360-16 (ASD) typed out beside each value (how: memory)."""

from __future__ import annotations

import math
import re

import pytest

from beamcheck.errors import OutOfRange
from beamcheck.formulas.steel import bending as steel_bending
from beamcheck.formulas.steel import bolts as steel_bolts
from beamcheck.formulas.steel import holes as steel_holes
from beamcheck.formulas.steel import plates as steel_plates
from beamcheck.formulas.wood.section import rectangle_modulus, round_area, round_modulus
from beamcheck.values.hardware.steels import bolt_steel, least_fillet, steel

A36 = steel("A36").value
A307 = bolt_steel("A307").value


def test_half_inch_A307_bolt() -> None:
    """A_b = pi/4 (0.5)^2 = 0.19635; J3.6: 45,000 x 0.19635/2 = 4418 and 27,000 x 0.19635/2 = 2651 lbf a plane."""
    A_b = round_area(0.5)
    assert steel_bolts.bolt_tension(A307.F_nt, A_b) == pytest.approx(4418, abs=0.5)
    assert steel_bolts.bolt_shear(A307.F_nv_threads_in, A_b, 1.0) == pytest.approx(2651, abs=0.5)
    assert steel_bolts.bolt_shear(A307.F_nv_threads_in, A_b, 2.0) == pytest.approx(5301, abs=0.5)


def test_bolt_in_tension_and_shear() -> None:
    """J3.7: 1500 lbf of shear is f_rv = 7639 psi; F'_nt = 1.3 x 45,000 - 2.00 x 45,000/27,000 x 7639 = 33,035 psi."""
    f_rv = steel_bolts.bolt_shear_stress(1500.0, round_area(0.5))
    assert f_rv == pytest.approx(7639.4, abs=0.1)
    assert steel_bolts.bolt_tension_with_shear(45000.0, 27000.0, f_rv) == pytest.approx(33035, abs=1)
    # up to 0.3 of the allowable shear (0.3 x 13,500 psi) nothing is lost; at all of it 0.3 F_nt are left
    assert steel_bolts.bolt_tension_with_shear(45000.0, 27000.0, 0.3 * 13500.0) == pytest.approx(45000.0)
    assert steel_bolts.bolt_tension_with_shear(45000.0, 27000.0, 13500.0) == pytest.approx(0.3 * 45000.0)
    with pytest.raises(
        OutOfRange, match=re.escape("f_rv must be 0 to F_nv / 2 = 13500, given 13600: with more the bolt shears")
    ):
        steel_bolts.bolt_tension_with_shear(45000.0, 27000.0, 13600.0)


def test_threaded_rod_of_A36() -> None:
    """Table J3.2: 0.75, 0.450 and 0.563 of 58,000 psi."""
    assert steel_bolts.threaded_tension_strength(A36.F_u) == 43500.0
    assert steel_bolts.threaded_shear_strength(A36.F_u) == pytest.approx(26100.0)
    assert steel_bolts.shank_shear_strength(A36.F_u) == pytest.approx(32654.0)


def test_bolt_on_a_quarter_inch_plate() -> None:
    """1/2 in bolt, edge 1 in: bearing 2.4 x 0.5 x 0.25 x 58,000/2 = 8700; hole 9/16, clear 1 - 9/32 = 0.71875 in,
    tear-out 1.2 x 0.71875 x 0.25 x 58,000/2 = 6253 lbf."""
    d_h = steel_holes.standard_hole(0.5)
    assert d_h == 0.5625 and steel_holes.standard_hole(1.0) == 1.125 and steel_holes.net_hole_width(d_h) == 0.625
    assert steel_holes.plate_bearing(0.5, 0.25, 58000.0) == pytest.approx(8700.0)
    l_c = steel_holes.clear_to_edge(1.0, d_h)
    assert steel_holes.plate_tear_out(l_c, 0.25, 58000.0) == pytest.approx(6253.1, abs=0.1)
    assert steel_holes.clear_to_next(1.5, d_h) == 0.9375
    for call, told in (
        (
            lambda: steel_holes.clear_to_edge(0.25, d_h),
            "l_end must be above d_h / 2 = 0.28125, given 0.25",
        ),
        (lambda: steel_holes.clear_to_next(0.5, d_h), "d_h must be above 0 and less than s 0.5, given 0.5625"),
        (lambda: steel_holes.standard_hole(1.25), "D must be above 0 and at most 1 in, given 1.25"),
    ):
        with pytest.raises(OutOfRange, match=re.escape(told)):
            call()


def test_knife_plate_in_tension() -> None:
    """1/4 x 3 plate, one row of 1/2 in bolts: yield 36,000 x 0.75/1.67 = 16,168; rupture 58,000 x (3 - 5/8)/4/2."""
    assert steel_plates.tension_yield(36000.0, 0.75) == pytest.approx(16167.7, abs=0.1)
    net = (3.0 - steel_holes.net_hole_width(steel_holes.standard_hole(0.5))) * 0.25
    assert steel_plates.tension_rupture(58000.0, net) == pytest.approx(17218.75)
    assert steel_plates.shear_yield(36000.0, 0.75) == pytest.approx(0.60 * 36000 * 0.75 / 1.5)
    assert steel_plates.shear_rupture(58000.0, net) == pytest.approx(0.60 * 58000 * 0.59375 / 2)


def test_block_shear_of_two_bolts_in_line() -> None:
    """1/4 in plate, end 1, pitch 2, edge 1, holes 9/16 + 1/16: A_gv 0.75, A_nv 0.75 - 1.5 x 0.15625 = 0.515625,
    A_nt 0.25 - 0.5 x 0.15625 = 0.171875 in2.

    J4.3: 0.60 x 58,000 x 0.515625 = 17,944, or 0.60 x 36,000 x 0.75 = 16,200; and 58,000 x 0.171875 = 9969; over 2."""
    found = steel_plates.block_shear(36000.0, 58000.0, 0.75, 0.515625, 0.171875, 1.0)
    assert found == pytest.approx((16200.0 + 9968.75) / 2)
    uneven = steel_plates.block_shear(36000.0, 58000.0, 0.75, 0.515625, 0.171875, 0.5)
    assert uneven == pytest.approx((16200.0 + 9968.75 / 2) / 2)
    torn = steel_plates.block_shear(36000.0, 58000.0, 0.75, 0.40, 0.171875, 1.0)
    assert torn == pytest.approx((0.60 * 58000 * 0.40 + 9968.75) / 2)
    with pytest.raises(OutOfRange, match=re.escape("A_nv must be above 0 and at most A_gv 0.75, given 0.8")):
        steel_plates.block_shear(36000.0, 58000.0, 0.75, 0.8, 0.17, 1.0)


def test_flat_bar_bent_over_its_flat_side() -> None:
    """1/4 x 1-1/2 bar: Z = 1.5/4/16 = 0.02344, S = 2/3 of it; 36,000 x 0.02344/1.67 = 505 lbf in (F11)."""
    Z, S = steel_bending.bar_plastic_modulus(1.5, 0.25), rectangle_modulus(1.5, 0.25)
    assert Z == 1.5 * 0.25**2 / 4 and float(S / Z) == pytest.approx(2 / 3)
    assert steel_bending.bar_bending(36000.0, Z, S) == pytest.approx(505.24, abs=0.01)
    assert steel_bending.bar_bending_rupture(58000.0, 0.0138) == pytest.approx(400.2)
    # a round rod has Z/S = 1.70: the limit of 1.6 S governs
    Z, S = 0.5**3 / 6, round_modulus(0.5)
    assert float(Z / S) == pytest.approx(16 / (3 * math.pi))
    assert steel_bending.bar_bending(36000.0, Z, S) == pytest.approx(1.6 * 36000 * math.pi * 0.125 / 32 / 1.67)


def test_bar_on_edge_and_short_compression() -> None:
    """F11: L_b d/t^2 up to 0.08 E/F_y = 0.08 x 29,000/36 = 64.4. J4.4: K L/r up to 25, r = t/sqrt(12)."""
    assert steel_bending.lateral_slenderness_limit(29e6, 36000.0) == pytest.approx(64.44, abs=0.01)
    assert steel_bending.lateral_slenderness(4.0, 1.5, 0.25) == 96.0
    assert steel_plates.SHORT_SLENDERNESS == 25.0
    assert steel_plates.short_compression(36000.0, 0.75) == pytest.approx(16167.7, abs=0.1)


def test_fillet_weld() -> None:
    """3/16 in, 2 in long, E70: 0.60 x 70,000 x 0.707 x 0.1875 x 2/2 = 5568 along; x 1.5 across the weld (J2.4)."""
    assert steel_plates.fillet_weld(70000.0, 0.1875, 2.0, 0.0) == pytest.approx(5567.6, abs=0.1)
    assert steel_plates.fillet_weld(70000.0, 0.1875, 2.0, 90.0) == pytest.approx(1.5 * 5567.625)
    assert [least_fillet(t).value for t in (0.125, 0.25, 0.3125, 0.5, 0.75, 1.0)] == [
        0.125, 0.125, 0.1875, 0.1875, 0.25, 0.3125,
    ]  # fmt: skip
