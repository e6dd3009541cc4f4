"""Formulas of heavy joints: what never helps, what has no value, and one joint in one call."""

from __future__ import annotations

import math
from typing import Any

import numpy as np
import pytest

import beamcheck as bc
from beamcheck.errors import BeamcheckError, OutOfRange
from beamcheck.formulas.joints import (
    prying,
    steps,
)  # fmt: skip
from beamcheck.values.judgment import judgment


def test_a_stronger_or_thicker_peg_never_holds_less() -> None:
    def value(**changed: Any) -> float:
        given = {"peg": 0.68, "timber": 0.45, "tenon": "2 in", "cheek": "2.5 in", "cheek_angle": "90 deg"}
        return float(bc.peg_value(changed.pop("diameter", "1 in"), **(given | changed)))

    for sizes in ([f"{d} in" for d in np.linspace(0.75, 1.25, 9)],):
        values = [value(diameter=each) for each in sizes]
        assert values == sorted(values)
    for key, steps_up in (
        ("peg", np.linspace(0.57, 0.9, 12)), ("timber", np.linspace(0.35, 0.57, 9)),
        ("cheek", [f"{c} in" for c in (2, 2.25, 3, 4)]),
        ("cheek_angle", [f"{a} deg" for a in (90, 70, 50, 30, 0)]),
    ):  # fmt: skip
        values = [value(**{key: each}) for each in steps_up]
        assert values == sorted(values), key


def test_pegs_outside_what_was_tested_have_no_value() -> None:
    given: dict[str, Any] = {"peg": "White Oak", "timber": "Douglas Fir-Larch", "tenon": "2 in", "cheek": "2 in"}
    assert "screening" in bc.peg_value("1 in", **given).note
    for changed, words in (
        ({"peg": 0.45}, "dense hardwood|hardwood of"), ({"peg": 0.58, "timber": 0.59}, "not lighter than the timber"),
        ({"timber": 0.68}, "tested in 0.35 to 0.57"),
        ({"tenon": "1 in"}, "1 1/2 in and thicker"), ({"cheek": "1.5 in"}, "cheeks thinner than the tenon"),
        ({"peg": "no such wood"}, "no such wood"),
    ):  # fmt: skip
        with pytest.raises(BeamcheckError, match=words):
            bc.peg_value("1 in", **(given | changed))
    with pytest.raises(OutOfRange, match=r"0\.75 to 1\.25 in"):
        bc.peg_value("1.5 in", **given)


def test_a_wood_without_a_row_gets_the_largest_distances() -> None:
    other = bc.peg_distances("Hem-Fir")
    assert other.wood == "any other"
    for wood in ("Douglas Fir-Larch", "White Oak", "Southern Pine", "Eastern White Pine", "Yellow Poplar"):
        listed = bc.peg_distances(wood)
        assert listed.wood == wood
        assert (listed.end, listed.edge, listed.spacing) <= (other.end, other.edge, other.spacing)
    with pytest.raises(BeamcheckError, match="kryptonite"):
        bc.peg_distances("kryptonite")


GROUP: dict[str, Any] = {
    "x": ["0 in", "3 in", "0 in", "3 in"], "y": ["0 in", "0 in", "4 in", "4 in"], "bolt": "3/4 in", "cheek": "2.5 in",
    "plate": "3/8 in", "wood": "Douglas Fir-Larch",
}  # fmt: skip


def test_a_group_of_bolts_balances_its_load_and_turns_with_its_member() -> None:
    level = bc.turned_group(upright="-2400 lb", moment="-12000 lb*in", **GROUP)
    upright = bc.turned_group(upright="-2400 lb", moment="-12000 lb*in", grain="90 deg", **GROUP)
    assert level.forces == pytest.approx(upright.forces)
    assert np.array(level.angles) + np.array(upright.angles) == pytest.approx([90.0] * 4)
    looser = bc.turned_group(upright="-2400 lb", moment="-12000 lb*in", slot="7/16 in", **GROUP)
    assert looser.ratio > level.ratio
    even = bc.turned_group(upright="-2400 lb", **GROUP)
    assert even.forces == pytest.approx([600.0] * 4) and even.angles == pytest.approx([90.0] * 4)


@pytest.mark.parametrize(
    ("changed", "words"),
    [
        ({"x": ["0 in"] * 4, "y": ["0 in"] * 4, "moment": "100 lb*in"}, "hold no moment"),
        ({"x": [], "y": []}, "needs one x and one y"),
        ({"slot": "1/4 in"}, "narrower than the plate"),
        ({"bolt": "3/4"}, "unit"),
    ],
)
def test_a_group_that_cannot_be_is_refused_in_words(changed: dict[str, Any], words: str) -> None:
    with pytest.raises(BeamcheckError, match=words):
        bc.turned_group(**{"upright": "-2400 lb", **GROUP, **changed})


def test_without_prying_and_with_all_of_it() -> None:
    """Thick enough: all of B; the leg that yields: (t/t_c)^2 (1 + delta) of it (AISC Manual 9; memory)."""
    assert prying.pull_with_prying(6000.0, 0.9, 0.5, 0.77, -0.4) == 6000.0
    assert prying.pull_with_prying(6000.0, 0.25, 0.5, 0.77, 3.0) == pytest.approx(6000.0 * 0.25 * 1.77)


def test_less_than_eight_inches_behind_a_step_has_no_value() -> None:
    assert judgment("least length behind a step").value == 8.0
    with pytest.raises(OutOfRange, match="splits off"):
        steps.step_shear_length(6.0, 2.0)


def test_faces_let_in_carry_the_whole_push() -> None:
    """Both pressures on their faces, square to each other, add up to the push (F. on a wedge; derived)."""
    N, A, beta, d = 5200.0, 41.25, 35.0, 7.5
    half = math.radians(beta / 2)
    steep = steps.let_in_steep_face(N, A, beta) * (A / d) * (d * math.sin(half) / math.sin(2 * half))
    flat = steps.let_in_flat_face(N, A, beta) * (A / d) * (d * math.cos(half) / math.sin(2 * half))
    assert math.hypot(steep, flat) == pytest.approx(N)


STEP: dict[str, Any] = {
    "angle": "33.69 deg", "width": "5.5 in", "notch": "1.75 in", "behind": "12 in", "tie_depth": "9.5 in",
    "F_c_star": "1150 psi", "F_c_perp": "625 psi", "F_v": "170 psi",
}  # fmt: skip


def test_a_step_joint_in_one_call() -> None:
    """The figures of rows F137 to F144 (derived, from the German annex and statics)."""
    found = bc.step_joint("4870 lb", reaction_outward="5 in", **STEP)
    assert found.refused == () and found.deepest == pytest.approx(2.375)
    assert found.pressure == pytest.approx(463.485, rel=1e-3) and found.allowed_tie == found.allowed_rafter
    assert found.bearing == pytest.approx(463.485 / 1074.23, rel=1e-3)
    assert (found.shear, found.moment) == pytest.approx((0.541723, 5740.49), rel=1e-3)
    square = bc.step_joint("4870 lb", face="square to the rafter", **STEP)
    assert (square.pressure, square.allowed_tie, square.allowed_rafter) == pytest.approx(
        (420.996, 913.815, 1150), rel=1e-3
    )
    plumb = bc.step_joint("4870 lb", face="square to the tie", **STEP)
    assert (plumb.allowed_tie, plumb.allowed_rafter) == (square.allowed_rafter, square.allowed_tie)
    assert bc.step_joint("4870 lb", **(STEP | {"behind": "40 in"})).length == pytest.approx(8 * 1.75)


def test_a_step_joint_that_has_no_value_says_why() -> None:
    short = bc.step_joint("4870 lb", **(STEP | {"behind": "6 in"}))
    assert short.shear == math.inf and "8 in" in short.refused[0]
    deep = bc.step_joint("4870 lb", **(STEP | {"notch": "3 in"}))
    assert "deeper than" in deep.refused[0]
    more = [bc.step_joint(f"{N} lb", **STEP).shear for N in (100, 1000, 5000)]
    assert more == sorted(more)
    for changed, words in (
        ({"face": "by eye"}, "by eye"),
        ({"angle": "95 deg"}, "less than 90"),
        ({"notch": "2"}, "unit"),
    ):
        with pytest.raises(BeamcheckError, match=words):
            bc.step_joint("4870 lb", **(STEP | changed))
