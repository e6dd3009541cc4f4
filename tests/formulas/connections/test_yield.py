"""Yield modes: limits, symmetries, the general dowel equations as a second method, whole arrays."""

from __future__ import annotations

import math
import re

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from beamcheck.calc.pad import Pad, SilentPad
from beamcheck.errors import OutOfRange
from beamcheck.formulas.connections import dowel_bearing, dowel_lengths
from beamcheck.formulas.connections.lateral import (
    DOUBLE,
    SINGLE,
    double_shear,
    shear_across_gap,
    single_shear,
    wood_bearing,
)
from beamcheck.formulas.connections.yield_modes import terms as dowel_terms
from beamcheck.values.hardware.steels import other_bearing

SILENT = SilentPad()
lengths = st.floats(0.25, 12.0)
strengths = st.floats(1000.0, 87000.0)
angles = st.floats(0.0, 90.0)


@st.composite
def layouts(draw: st.DrawFn) -> dict[str, float]:
    """One fastener between two members, threads in or out."""
    D_nom = draw(st.floats(0.1, 1.0))
    return {
        "D": D_nom * draw(st.floats(0.65, 1.0)), "D_nom": D_nom, "l_m": draw(lengths), "l_s": draw(lengths),
        "F_em": draw(strengths), "F_es": draw(strengths), "F_yb": draw(st.floats(45e3, 130e3)), "theta": draw(angles),
    }  # fmt: skip


def across(layout: dict[str, float], g: float, *, two_planes: bool) -> dict[str, float]:
    given = {**layout, "D_m": layout["D"], "D_s": layout["D"]}
    del given["D"]
    return dict(shear_across_gap(SILENT, two_planes=two_planes, g=g, **given).modes)


@given(layouts())
def test_the_general_dowel_equations_without_a_gap_are_the_table(layout: dict[str, float]) -> None:
    """TR12 (memory) against NDS 2018 Table 12.3.1A (memory): every mode, one plane and two."""
    one, two = single_shear(SILENT, **layout), double_shear(SILENT, **layout)
    assert set(one.modes) == set(SINGLE) and set(two.modes) == set(DOUBLE)
    assert across(layout, 0.0, two_planes=False) == pytest.approx(dict(one.modes), rel=1e-9)
    assert across(layout, 0.0, two_planes=True) == pytest.approx(dict(two.modes), rel=1e-9)


@given(layouts(), st.floats(0.0, 2.0), st.floats(0.001, 1.0), st.booleans())
def test_a_wider_gap_never_carries_more(layout: dict[str, float], g: float, more: float, two: bool) -> None:
    near, far = across(layout, g, two_planes=two), across(layout, g + more, two_planes=two)
    assert all(far[mode] <= near[mode] * (1 + 1e-12) for mode in near)
    assert far["Im"] == near["Im"] and far["Is"] == near["Is"] and far["IV"] < near["IV"]


@pytest.mark.parametrize(
    ("g", "wood", "steel"),
    [(0.0, 615, 826), (0.125, 574, 738), (0.25, 537, 661), (0.5, 474, 537), (1.0, 379, 375), (1.5, 312, 282)],
)
def test_half_inch_bolt_across_a_gap(g: float, wood: float, steel: float) -> None:
    """G 0.50, along the grain, 3-1/2 in main member; 1-1/2 in wood or 1/4 in A36 side (collected notes, derived)."""
    A36 = other_bearing("A36 plate, hot-rolled, 1/4 in and thicker").value
    for l_s, F_es, Z in ((1.5, 5600.0, wood), (0.25, A36, steel)):
        found = shear_across_gap(
            SILENT, two_planes=False, D_m=0.5, D_s=0.5, D_nom=0.5, l_m=3.5, l_s=l_s, F_em=5600.0, F_es=F_es,
            F_yb=45000.0, theta=0.0, g=g,
        )  # fmt: skip
        assert abs(found.Z - Z) < 0.52  # the notes round 537.51 down and 378.49 up


@given(layouts())
def test_the_members_of_one_plane_may_change_places(layout: dict[str, float]) -> None:
    """The plane does not know which member is called main: Im and Is, IIIm and IIIs change places, II and IV stay."""
    turned = {
        **layout, "l_m": layout["l_s"], "l_s": layout["l_m"], "F_em": layout["F_es"], "F_es": layout["F_em"],
    }  # fmt: skip
    here, there = single_shear(SILENT, **layout), single_shear(SILENT, **turned)
    assert float(here.Z) == pytest.approx(float(there.Z), rel=1e-9)
    for mode, other in {"Im": "Is", "Is": "Im", "II": "II", "IIIm": "IIIs", "IIIs": "IIIm", "IV": "IV"}.items():
        assert here.modes[mode] == pytest.approx(there.modes[other], rel=1e-7)


@given(layouts())
def test_two_planes_carry_twice_one_except_the_middle_member(layout: dict[str, float]) -> None:
    one, two = single_shear(SILENT, **layout).modes, double_shear(SILENT, **layout).modes
    assert two["Im"] == one["Im"]
    for mode in ("Is", "IIIs", "IV"):
        assert two[mode] == pytest.approx(2 * one[mode], rel=1e-12)


@given(layouts(), st.sampled_from(["l_m", "l_s", "F_em", "F_es", "F_yb"]), st.floats(1.0, 3.0))
def test_more_wood_or_steel_never_carries_less(layout: dict[str, float], name: str, more: float) -> None:
    better = {**layout, name: layout[name] * more}
    for run in (single_shear, double_shear):
        assert run(SILENT, **better).Z >= run(SILENT, **layout).Z * (1 - 1e-9)


@given(st.floats(1000.0, 9000.0), st.floats(1000.0, 9000.0), angles)
def test_bearing_at_an_angle_lies_between_its_ends(along: float, beside: float, theta: float) -> None:
    found = dowel_bearing.dowel_bearing_at_angle(along, beside, theta)
    assert min(along, beside) * (1 - 1e-12) <= found <= max(along, beside) * (1 + 1e-12)
    assert dowel_bearing.dowel_bearing_at_angle(along, beside, 0.0) == pytest.approx(along)
    assert dowel_bearing.dowel_bearing_at_angle(along, beside, 90.0) == pytest.approx(beside)


@pytest.mark.parametrize(("D", "K_D"), [(0.10, 2.2), (0.17, 2.2), (0.173, 2.23), (0.2, 2.5), (0.2499999, 2.999999)])
def test_K_D(D: float, K_D: float) -> None:
    """NDS 2018 Table 12.3.1B (memory): 2.2 up to 0.17 in, then 10 D + 0.5; both meet at 0.17."""
    assert dowel_terms.reduction_term_II(D, D, 1.25) == pytest.approx(K_D)


@pytest.mark.parametrize(
    ("D", "D_nom", "K_theta", "terms"),
    [  # NDS 2018 Table 12.3.1B, one line for each row and each edge (memory)
        (0.5, 0.5, 1.0, (4.0, 3.6, 3.2)),
        (1.0, 1.0, 1.25, (5.0, 4.5, 4.0)),
        (0.25, 0.25, 1.25, (5.0, 4.5, 4.0)),
        (0.255, 0.32, 1.25, (5.0, 4.5, 4.0)),  # No. 20 wood screw
        (0.209, 0.268, 1.25, (3.2375, 3.2375, 3.2375)),  # No. 16 wood screw
        (0.152, 0.19, 1.25, (2.2, 2.2, 2.2)),  # No. 10
        (0.244, 0.244, 1.25, (2.94, 2.94, 2.94)),  # 60d sinker
        (0.263, 0.263, 1.25, (5.0, 4.5, 4.0)),  # 60d nail: the grain counts
    ],
)
def test_reduction_terms(D: float, D_nom: float, K_theta: float, terms: tuple[float, float, float]) -> None:
    made = (dowel_terms.reduction_term_I, dowel_terms.reduction_term_II, dowel_terms.reduction_term_III_IV)
    assert tuple(term(D, D_nom, K_theta) for term in made) == pytest.approx(terms)


def test_wood_bearing_follows_the_diameter_and_the_end_grain() -> None:
    """NDS 2018 Table 12.3.3, 12.3.3.4 (memory), G 0.50."""
    common = {"G": 0.50, "theta": 0.0}
    assert wood_bearing(SILENT, D_nom=0.2499, **common) == 4650.0
    assert wood_bearing(SILENT, D_nom=0.25, **common) == 5600.0
    assert wood_bearing(SILENT, D_nom=0.5, **common, end_grain=True) == 3150.0
    assert wood_bearing(SILENT, D_nom=0.2, **common, end_grain=True) == 4650.0
    several = wood_bearing(SILENT, G=0.50, D_nom=np.array([0.162, 0.25, 0.5, np.nan, 1.2]), theta=90.0)
    np.testing.assert_array_equal(several, [4650.0, 4450.0, 3150.0, np.nan, np.nan])


def test_the_pad_holds_every_step_with_the_rounding_said() -> None:
    pad = Pad()
    F_e = wood_bearing(pad, G=0.50, D_nom=0.5, theta=90.0)
    single_shear(pad, D=0.5, D_nom=0.5, l_m=3.5, l_s=1.5, F_em=F_e, F_es=F_e, F_yb=45000.0, theta=90.0)
    symbols = [step.symbol for step in pad.steps]
    assert symbols[:5] == ["F_e_perp", "F_e_perp", "F_e_par", "F_e_par", "F_e_theta"]
    assert pad.steps[1].note == "to the nearest 50 psi, as the table prints it" and pad.steps[1].value == 3150.0
    assert symbols[5:] == [
        "K_theta", "R_d_I", "R_d_II", "R_d_III", "R_e", "R_t", "k_1", "k_2", "k_3",
        "Z_Im", "Z_Is", "Z_II", "Z_IIIm", "Z_IIIs", "Z_IV", "Z",
    ]  # fmt: skip


def test_a_hundred_thousand_layouts_at_once() -> None:
    """Arrays give what single layouts give, and the faults among them become NaN with no mode."""
    count, dice = 100_000, np.random.default_rng(12)
    D_nom = dice.uniform(0.1, 1.0, count)
    many = {
        "D": D_nom * dice.uniform(0.7, 1.0, count), "D_nom": D_nom, "l_m": dice.uniform(0.5, 8, count),
        "l_s": dice.uniform(0.5, 4, count), "F_yb": dice.choice([45e3, 60e3, 90e3], count),
        "theta": dice.uniform(0, 90, count),
    }  # fmt: skip
    G = dice.uniform(0.31, 0.73, count)
    F_e = wood_bearing(SILENT, G=G, D_nom=D_nom, theta=many["theta"])
    many["l_s"][7], many["theta"][8], G[9] = -1.0, 91.0, math.nan
    F_m = wood_bearing(SILENT, G=G, D_nom=D_nom, theta=0.0)
    found = single_shear(SILENT, **many, F_em=F_m, F_es=F_e)
    assert found.Z.shape == found.mode.shape == (count,)
    assert set(np.flatnonzero(np.isnan(found.Z))) == {7, 8, 9}
    assert list(found.mode[7:10]) == ["", "", ""] and set(found.mode) - {""} == set(SINGLE)
    for i in (0, 1, 50_000, count - 1):
        one = single_shear(SILENT, **{name: float(v[i]) for name, v in many.items()}, F_em=F_m[i], F_es=F_e[i])
        assert float(one.Z) == pytest.approx(found.Z[i], rel=1e-12) and one.mode == found.mode[i]


# --- lengths ----------------------------------------------------------------------------------------------------------


def test_tips_and_threads() -> None:
    """NDS 2018 12.3.5, Appendix L (memory): half the tip off a bearing length, the whole tip off the thread."""
    assert dowel_lengths.main_length_lag(4.0, 0.3125) == 3.84375
    assert dowel_lengths.main_length_nail(1.25, 0.162) == pytest.approx(1.088)
    assert dowel_lengths.lag_thread_held(3.5, 4.0, 0.3125) == 3.1875  # all the thread is in
    assert dowel_lengths.lag_thread_held(3.5, 2.0, 0.3125) == 1.6875  # the thread begins outside
    assert dowel_lengths.least_penetration_lag(0.5, 0.3125) - 0.3125 == 2.0
    assert dowel_lengths.least_penetration_nail(0.162) == pytest.approx(0.972)
    assert dowel_lengths.screw_thread_length(0.19, 3.0) == pytest.approx(2.0)
    assert dowel_lengths.screw_thread_length(0.19, 0.9) == pytest.approx(0.76)  # 4 D
    assert dowel_lengths.screw_thread_length(0.19, 0.5) == 0.5


@pytest.mark.parametrize(
    ("call", "told"),
    [
        (lambda: dowel_lengths.penetration(2.0, 1.5, 0.5),
         "L_f must be above l_s + t_w = 2, given 2: it must come out of what it crosses (NDS 2018 12.3.5)"),
        (lambda: dowel_lengths.lag_thread_held(0.3, 4.0, 0.3125),
         "E_tip must be 0 or more and less than T_thread 0.3, given 0.3125"),
        (lambda: dowel_lengths.main_length_nail(0.3, 0.162), "p must be above 2 * D = 0.324, given 0.3: the tip is"),
        (lambda: dowel_terms.reduction_term_I(0.5, 0.25, 1.0), "D must be above 0 and at most D_nom 0.25, given 0.5"),
        (lambda: dowel_terms.reduction_term_I(0.5, 0.5, 1.3), "K_theta must be 1 to 1.25, given 1.3"),
        (lambda: across({"D": 0.5, "D_nom": 0.5, "l_m": 3.0, "l_s": 1.5, "F_em": 5600.0, "F_es": 5600.0,
                         "F_yb": 45000.0, "theta": 0.0}, -0.1, two_planes=False),
         "g must be a finite number, 0 or more, given -0.1 (TR12 general dowel equations)"),
    ],
)  # fmt: skip
def test_out_of_range(call: object, told: str) -> None:
    assert callable(call)
    with pytest.raises(OutOfRange, match=re.escape(told)):
        call()
