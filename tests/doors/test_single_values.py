"""Single values at the public door, against published figures and closed forms."""

from __future__ import annotations

import math

import pytest

import beamcheck
from beamcheck import Fastener, Stock, design_value, group_action_factor, lateral_value, solved_beam, withdrawal_value
from beamcheck.errors import BeamcheckError

BOLT = Fastener(kind="bolt", size="3/4 in", threads="clear of it")
LAG = Fastener(kind="lag screw", size="1/2 in", length="6 in")


def test_a_bolt_between_two_boards() -> None:
    """NDS 2018 Table 12A, memory: 1/2 in bolt, Red Oak, 1 1/2 in and 1 1/2 in, along the grain 650 lb, to 10 lb."""
    bolt = Fastener(kind="bolt", size="1/2 in", threads="clear of it")
    found = lateral_value(bolt, main="Red Oak", main_length="1 1/2 in", side="Red Oak", side_length="1.5 in")
    assert round(found.value, -1) == 650.0 and found.unit == "lbf" and found.text == "647 lb"
    across = lateral_value(
        bolt, main="Red Oak", main_length="1 1/2 in", side="Red Oak", side_length="1 1/2 in", side_angle="90 deg"
    )
    assert round(across.value, -1) == 420.0


def test_two_shear_planes_carry_more_and_metric_is_the_same() -> None:
    wood = {"main": "Hem-Fir", "side": "Hem-Fir"}
    one = lateral_value(BOLT, **wood, main_length="5.5 in", side_length="1.5 in")
    two = lateral_value(BOLT, **wood, main_length="5.5 in", side_length="1.5 in", planes=2)
    assert two.value > one.value
    metric = lateral_value(BOLT, **wood, main_length="139.7 mm", side_length="38.1 mm")
    assert metric.value == pytest.approx(one.value, rel=1e-9)


def test_a_steel_side_plate() -> None:
    found = lateral_value(
        BOLT,
        main="Hem-Fir",
        main_length="5.5 in",
        side="A36 plate, hot-rolled, 1/4 in and thicker",
        side_length="0.25 in",
    )
    assert any(step.symbol == "F_e" and step.value == 87000 for step in found.steps)


def test_withdrawal_of_a_lag_screw() -> None:
    """NDS 2018 eq. 12.2-1, memory: W = 1800 G^1.5 D^0.75 per inch of thread."""
    found = withdrawal_value(LAG, wood="Hem-Fir", held="3 in")
    assert found.value == pytest.approx(3 * 1800 * 0.43**1.5 * 0.5**0.75)
    with pytest.raises(BeamcheckError, match="a bolt has no withdrawal value"):
        withdrawal_value(BOLT, wood="Hem-Fir", held="3 in")


def test_a_design_value_with_its_factors() -> None:
    """NDS 2018 Supplement Table 4A, memory: Hem-Fir No.2 F_b 850 psi, C_F 1.1 for a 2x10; C_D 1.15 for snow."""
    stock = Stock(name="joist", species="Hem-Fir", grade="No.2", size="2x10", moisture="dry", grade_from="stamp",
                  evidence="invented: WWP 12, HF No.2, S-DRY")  # fmt: skip
    found = design_value(stock, "bending", duration="S")
    assert found.value == pytest.approx(850 * 1.1 * 1.15)
    assert float(found.quantity.to("psi").magnitude) == pytest.approx(found.value)
    with pytest.raises(BeamcheckError, match="no design value 'torsion'"):
        design_value(stock, "torsion")  # type: ignore[arg-type]


def test_group_action_of_one_row() -> None:
    """NDS 2018 eq. 11.3-1, typed a second time from the equation."""
    n, s, gamma = 8, 4.0, 270_000 * 0.75**1.5
    E_m, A_m, E_s, A_s = 1.4e6, 30.25, 30e6, 2.0
    u = 1 + gamma * s / 2 * (1 / (E_m * A_m) + 1 / (E_s * A_s))
    m = u - math.sqrt(u * u - 1)
    R = min(E_s * A_s / (E_m * A_m), E_m * A_m / (E_s * A_s))
    wanted = m * (1 - m ** (2 * n)) / (n * ((1 + R * m**n) * (1 + m) - 1 + m ** (2 * n))) * (1 + R) / (1 - m)
    found = group_action_factor(
        n=n, spacing="4 in", D="3/4 in", main=("1,400,000 psi", "30.25 in2"), side=("30,000,000 psi", "2 in2"),
        steel_side=True,
    )  # fmt: skip
    assert found.value == pytest.approx(wanted)


def test_a_simple_beam_by_its_closed_forms() -> None:
    """R = wL/2, M = wL^2/8, v = 5 w L^4 / (384 E I); P at the middle adds P/2, PL/4, P L^3 / (48 E I)."""
    E, I, L, w, P = 1.2e6, 5.5 * 9.5**3 / 12, 144.0, 200 / 12, 1000.0  # noqa: E741
    found = solved_beam(
        "12 ft",
        supports=("0 ft", "12 ft"),
        size="6x10 dressed",
        E="1,200,000 psi",
        even="200 plf",
        points=[("6 ft", "1,000 lb")],
    )
    assert found.reactions == pytest.approx((w * L / 2 + P / 2,) * 2)
    assert found.largest_moment == pytest.approx(w * L**2 / 8 + P * L / 4)
    assert found.deflection == pytest.approx(5 * w * L**4 / (384 * E * I) + P * L**3 / (48 * E * I))


def test_every_single_value_carries_caution_and_sign_off() -> None:
    for one in (
        lateral_value(BOLT, main="Hem-Fir", main_length="5 in", side="Hem-Fir", side_length="2 in"),
        solved_beam("12 ft", supports=("0 ft", "12 ft"), size="6x10 dressed", E="1,200,000 psi", even="200 plf"),
    ):
        assert beamcheck.CAUTION in repr(one) and beamcheck.SIGN_OFF in repr(one)


def test_a_number_without_a_unit_is_refused() -> None:
    with pytest.raises(BeamcheckError, match="unit"):
        lateral_value(BOLT, main="Hem-Fir", main_length=5, side="Hem-Fir", side_length="2 in")
    with pytest.raises(BeamcheckError, match="cannot be solved"):
        solved_beam("12 ft", supports=("0 ft",), size="6x10 dressed", E="1,200,000 psi", even="200 plf")
