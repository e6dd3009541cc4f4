"""Brackets under a beam: the rows of brackets.md sec. f, its closed forms, rigid supports, and what must never grow."""

from dataclasses import replace
from itertools import pairwise

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from beamcheck.analysis.beams.load_cases import Applied
from beamcheck.analysis.beams.solved_beam import BeamSupport, solve_beam
from beamcheck.analysis.frames.beam_frame import LineLoad, PointLoad, Section
from beamcheck.analysis.frames.member_line import straight_beam
from beamcheck.analysis.props.props import Touch, carried_down, force_bounds, prop_forces, sinking, unit_sags
from beamcheck.errors import BeamcheckError, OutOfRange

L, W, EI, GA_S = 144.0, 25.0, 1.6e6 * 5.5 * 9.5**3 / 12, 1.0e5 * 5.5 * 9.5 / 1.2
D = 0  # the combination with all of the dead load comes first


def even(kind="D", w=W, start=0.0, end=L):
    return Applied(kind, start, end, w, w)


def point(kind, x, P):
    return Applied(kind, x, x, P=P)


def solved(*loads, length=L, supports=(0.0, L), EI=EI, GA_s=np.inf, **more):
    held = [x if isinstance(x, BeamSupport) else BeamSupport(x) for x in supports]
    found = solve_beam(length, held, loads or [even()], depth=9.5, EI=EI, GA_s=GA_s, **more)
    assert found.combinations[D].name == "D"
    return found


def named(straight, name):
    return [one.name for one in straight.combinations].index(name)


# closed forms of sec. f (ordinary mechanics, derived)


def sag(x, w=W, L=L, EI=EI):
    return w * x * (L**3 - 2 * L * x**2 + x**3) / (24 * EI)


def unit(a, b, L=L, EI=EI):
    x, far = min(a, b), L - max(a, b)
    return x * far * (L**2 - x**2 - far**2) / (6 * EI * L)


@pytest.mark.parametrize(
    ("L", "d", "w", "x", "k", "gap", "R", "reaction"),
    [
        (144.0, 9.5, 25.0, [24.0], 8000.0, 0.0, 724.471, 1196.27),  # P1
        (192.0, 11.5, 30.0, [30.0, 162.0], 10000.0, 0.0, 1408.73, 1471.27),  # P3
        (144.0, 9.5, 25.0, [24.0], 8000.0, 0.5, 0.0, 1800.0),  # P8
    ],
)
def test_rows_of_the_reference(L, d, w, x, k, gap, R, reaction):
    """bracket_checks.csv, rows P1, P3, P8: beam finite elements with one-sided springs, 0.01 % (derived)."""
    straight = solved(even(w=w, end=L), length=L, supports=(0.0, L), EI=1.6e6 * 5.5 * d**3 / 12)
    found = prop_forces(straight, x, [gap] * len(x), [k] * len(x))
    assert found.forces[D] == pytest.approx([R] * len(x), rel=1e-4, abs=1e-9)
    assert found.reactions[D, 0] == pytest.approx(reaction, rel=1e-4)
    least = found.beam.moments(0.0, L)[0][D]
    assert least == pytest.approx(0.0, abs=1e-6 * w * L**2)  # its least moment is that at the ends: none


def test_row_with_shear():
    """bracket_checks.csv, row Q1: 724.471 without and 749.333 with shear (closed form, derived); a plane-stress model
    of the beam gave 737.7 (finite elements, derived), which lies between."""
    stiff = prop_forces(solved(), [24.0], [0.0], [8000.0]).forces[D, 0]
    soft = prop_forces(solved(GA_s=124800 * 5.5 * 9.5 / 1.2), [24.0], [0.0], [8000.0]).forces[D, 0]
    assert stiff == pytest.approx(724.471, rel=1e-4)
    assert soft == pytest.approx(749.333, rel=1e-4)
    assert stiff < 737.7 < soft
    assert soft == pytest.approx(737.7, rel=0.02)


def test_softer_wood_brings_more():
    """brackets.md sec. f: with E 0.8e6 instead of 1.6e6 the force grows from 724 to 1211 lb (derived)."""
    assert prop_forces(solved(), [24.0], [0.0], [8000.0], softness=2.0).forces[D, 0] == pytest.approx(1211, abs=0.5)


def test_softer_twice_is_softer_once():
    once = prop_forces(solved(GA_s=GA_S), [24.0], [0.02], [8000.0], softness=2.0)
    run = solved(GA_s=GA_S).softer(2.0)
    assert prop_forces(run, [24.0], [0.02], [8000.0]).forces == pytest.approx(once.forces, rel=1e-12)
    assert unit_sags(run, [24.0]) == pytest.approx(unit_sags(solved(GA_s=GA_S), [24.0], 2.0), rel=1e-12)
    assert sinking(run, [24.0]).lasting == pytest.approx(sinking(solved(GA_s=GA_S), [24.0], 2.0).lasting, rel=1e-12)


def test_hogging_and_uplift():
    """R = (delta_0 - g)/(1/k + f_xx); end reaction w L/2 - R (L - x)/L; M(x) is that times x less w x^2/2 (statics)."""
    x = 24.0
    R = (sag(x) + 0.5) / (1 / 5e4 + unit(x, x))  # wedged in by half an inch
    found = prop_forces(solved(), [x], [-0.5], [5e4])
    end = W * L / 2 - R * (L - x) / L
    assert end < -1000.0
    assert found.forces[D, 0] == pytest.approx(R, rel=1e-9)
    assert found.beam.reactions(0)[D] == pytest.approx(end, rel=1e-9)
    assert found.beam.moments(x, x)[0][D] == pytest.approx(end * x - W * x**2 / 2, rel=1e-9)
    assert found.beam.shears(0.0, L)[2][D] == pytest.approx(end + R - W * x, rel=1e-9)


def test_sinking_by_closed_form():
    """Simple span, dead 25 and live 40 lb/in, shear 1.2 w x (L - x)/(2 G A); D + L with creep (brackets.md sec. f)."""
    straight, x = solved(even(), even("L", 40.0), GA_s=GA_S), 30.0
    found, both = sinking(straight, [x], 1.7), named(straight, "D + L")

    def all_of(w):
        return 1.7 * (sag(x, w) + w * x * (L - x) / (2 * GA_S))

    assert found.lasting[both] == pytest.approx(all_of(25.0), rel=1e-9)
    assert found.passing[both] == pytest.approx(all_of(40.0), rel=1e-9)
    assert found.resting == pytest.approx(all_of(25.0), rel=1e-9)
    assert found.long_term(1.5)[both] == pytest.approx(1.5 * all_of(25.0) + all_of(40.0), rel=1e-9)


def test_what_lifts_is_not_enlarged_by_creep():
    """A beam with an overhang: the load on it lifts the span."""
    straight = solved(even(start=L, end=L + 60), length=L + 60)
    found = sinking(straight, [72.0])
    assert found.lasting[D, 0] < 0.0
    assert found.long_term(2.0)[D] == pytest.approx(found.lasting[D])


def test_a_settled_support_takes_even_a_soft_beam_down_by_as_much():
    """The simple beam turns as a whole: half the settlement at midspan, whatever its stiffness (geometry)."""
    straight = solved(supports=(BeamSupport(0.0), BeamSupport(L, settles=0.4)))
    found, with_it = sinking(straight, [72.0], 3.0), named(straight, "D, supports settled")
    long_term = found.long_term(2.0)[:, 0]  # what has settled does not creep (statics; NDS 2018 3.5.2 speaks of loads)
    assert long_term[with_it] - long_term[D] == pytest.approx(0.2, rel=1e-9)
    assert found.resting[0] == pytest.approx(3.0 * sag(72.0), rel=1e-9)
    assert found.settled[0] == pytest.approx(0.2, rel=1e-9)
    forces = prop_forces(straight, [72.0], [0.1], [8000.0]).forces
    assert forces[with_it, 0] == pytest.approx((sag(72.0) + 0.2 - 0.1) / (1 / 8000 + unit(72, 72)), rel=1e-9)


def test_a_beam_comes_down_with_its_supports():
    """A simple beam turns as a whole (geometry): at x = 24 of 144 in five sixths of the one support, a sixth of the
    other; over three supports the two outer ones, down alike, leave the middle of the beam where it was."""
    assert carried_down(solved(), [24.0]) == pytest.approx(np.array([[5 / 6], [1 / 6]]), rel=1e-9)
    three = solved(supports=(BeamSupport(0.0), BeamSupport(72.0), BeamSupport(L)))
    assert carried_down(three, [24.0, 72.0]).sum(axis=0) == pytest.approx(np.ones(2), rel=1e-9)
    assert carried_down(three, [72.0])[[0, 2], 0] == pytest.approx(np.zeros(2), abs=1e-12)


def test_live_load_that_stays_creeps_as_dead_load_does():
    """NDS 2018 3.5.2: K_cr goes with the long-term component, whatever it is called."""
    found = sinking(solved(even(), even(kind="L")), [72.0])
    both = found.with_live_that_stays()
    assert both.long_term(2.0) - found.long_term(2.0) == pytest.approx(found.live, rel=1e-9)
    assert float(np.max(found.live)) > 0.0


def test_point_loads_and_unequal_gaps_by_the_force_method():
    """[f + 1/k]{R} = {delta_0 - g}: two props under one point load, both pressed (closed forms, simple span)."""
    x, gaps, k, P = [40.0, 90.0], np.array([0.01, 0.03]), np.array([6e3, 9e3]), 3000.0
    straight = solved(point("D", 60.0, P))
    f = np.array([[unit(a, b) for b in x] for a in x])
    R = np.linalg.solve(f + np.diag(1 / k), np.array([P * unit(a, 60.0) for a in x]) - gaps)
    assert np.all(R > 0)
    assert unit_sags(straight, x) == pytest.approx(f, rel=1e-9)
    found = prop_forces(straight, x, gaps, k)
    assert found.forces[D] == pytest.approx(R, rel=1e-9)
    turned = prop_forces(straight, x[::-1], gaps[::-1], k[::-1])
    assert turned.forces[D] == pytest.approx(R[::-1], rel=1e-9)


def test_a_rigid_prop_without_gap_is_a_support():
    """Two spans with an overhang and unlike loads: against the same beam on one support more."""
    supports, loads = (12.0, 120.0, 240.0), [LineLoad(0, 280, 25.0), PointLoad(180.0, 900.0)]
    straight = solved(even(end=280.0), point("D", 180.0, 900.0), length=280.0, supports=supports, GA_s=GA_S)
    found = prop_forces(straight, [170.0], [0.0], [np.inf])
    four = straight_beam(280.0, [(x, "roller") for x in (12.0, 120.0, 170.0, 240.0)], [loads], EI, GA_S)
    assert found.forces[D, 0] == pytest.approx(four.reactions[0, 2, 1], rel=1e-9)
    assert found.reactions[D] == pytest.approx(four.reactions[0, [0, 1, 3], 1], rel=1e-9)
    assert found.beam.moments(0.0, 280.0)[0][D] == pytest.approx(four.line.extremes("M")[0][0], rel=1e-9)
    nearly = prop_forces(straight, [170.0], [0.0], [1e10])
    assert nearly.forces[D] == pytest.approx(found.forces[D], rel=1e-4)


def test_weaker_stretches_are_kept():
    """A notch to half the stiffness, against the same beam solved with a spring under it in one go."""
    notch = Section(60.0, 90.0, EI / 2, GA_S / 2)
    found = prop_forces(solved(GA_s=GA_S, sections=[notch]), [100.0], [0.0], [8000.0])
    supports = [(0.0, "roller"), (100.0, 8000.0), (L, "roller")]
    by_spring = straight_beam(L, supports, [[LineLoad(0, L, W)]], EI, GA_S, sections=[notch])
    assert found.forces[D, 0] == pytest.approx(by_spring.reactions[0, 1, 1], rel=1e-9)


def test_every_combination_has_its_own_force():
    straight = solved(even(), even("L", 40.0), even("W", -30.0))
    found, x = prop_forces(straight, [24.0], [0.05], [8000.0]).forces[:, 0], 24.0
    for name, w in (("D", 25.0), ("D + L", 65.0), ("0.6 D + 0.6 W, wind up", 15.0 - 18.0)):
        expected = max(0.0, sag(x, w) - 0.05) / (1 / 8000 + unit(x, x))
        assert found[named(straight, name)] == pytest.approx(expected, rel=1e-9)
    assert found[named(straight, "0.6 D + 0.6 W, wind up")] == 0.0


def test_fixed_to_the_beam_it_pulls_too():
    """The same formula without the one side of the contact: R = (delta_0 - g)/(1/k + f_xx), of either sign."""
    straight = solved(even(), even("W", -60.0))
    found = prop_forces(straight, [24.0], [0.01], [8000.0], fixed=[True]).forces[:, 0]
    lifted = named(straight, "0.6 D + 0.6 W, wind up")
    expected = (sag(24.0, 15.0 - 36.0) - 0.01) / (1 / 8000 + unit(24, 24))
    assert expected < -600.0
    assert found[lifted] == pytest.approx(expected, rel=1e-9)


def test_fixed_and_free_ones_together():
    """One fixed and one loose, against two springs under the beam: both are pressed, so it makes no difference."""
    springs = [(0.0, "roller"), (40.0, 6e3), (90.0, 9e3), (L, "roller")]
    expected = straight_beam(L, springs, [[LineLoad(0, L, W)]], EI).reactions[0, 1:3, 1]
    found = prop_forces(solved(), [40.0, 90.0], [0.0, 0.0], [6e3, 9e3], fixed=[False, True])
    assert found.forces[D] == pytest.approx(expected, rel=1e-9)


def test_side_by_side_they_share():
    """Two of them in one spot are taken half an inch apart: together within 1 % of one that is twice as stiff."""
    pair = prop_forces(solved(), [24.0, 24.0], [0.0, 0.0], [4e3, 4e3]).forces[D]
    assert pair.sum() == pytest.approx(724.471, rel=0.01)
    assert pair[0] == pytest.approx(pair[1], rel=0.02)
    at_the_end = prop_forces(solved(supports=(0.0, L - 40)), [L, L], [0.0, 0.0], [4e3, 4e3]).forces[D]
    assert np.all(at_the_end >= 0.0)


def test_many_in_one_spot_keep_their_balance():
    found = prop_forces(solved(), [1.0, 1.0, 1.0, 1.0, 0.6], [0.0] * 5, [8e3] * 5)
    assert found.forces[D].sum() + found.reactions[D].sum() == pytest.approx(W * L, rel=1e-9)


# bounds


def touch(x, gap=0.0, k=8000.0, **more):
    known = {"latest": gap, "k_low": k, "k_high": k, **more}
    return Touch(x, gap, known.pop("latest"), known.pop("k_low"), known.pop("k_high"), **known)


def test_bounds_of_what_is_known_are_the_forces():
    """Row P3 (0.01 %, derived): both known, so they share."""
    straight = solved(even(w=30.0, end=192.0), length=192.0, supports=(0.0, 192.0), EI=1.6e6 * 5.5 * 11.5**3 / 12)
    found = force_bounds(straight, [touch(30.0, k=1e4), touch(162.0, k=1e4)])
    assert found.largest[D] == pytest.approx([1408.73] * 2, rel=1e-4)
    f = found.unit_sag
    free = sag(30.0, 30.0, 192.0, 1.6e6 * 5.5 * 11.5**3 / 12)
    assert (free - found.relief[D]) / (1e-4 + np.diag(f)) == pytest.approx(found.largest[D], rel=1e-9)


def test_a_neighbor_relieves_only_as_far_as_it_is_known():
    single = sag(24.0) / (1 / 8000 + unit(24, 24))
    unknown = force_bounds(solved(), [touch(24.0), touch(120.0, latest=None)])
    assert unknown.largest[D, 0] == pytest.approx(single, rel=1e-9)
    assert unknown.largest[D, 1] < single  # the first one is there for certain
    soft = force_bounds(solved(), [touch(24.0), touch(120.0, k_low=0.0)])
    assert soft.largest[D, 0] == pytest.approx(single, rel=1e-9)
    both = force_bounds(solved(), [touch(24.0), touch(120.0)])
    assert both.largest[D, 0] == pytest.approx(sag(24.0) / (1 / 8000 + unit(24, 24) + unit(24, 120)), rel=1e-9)


def test_the_neighbors_neighbor_makes_it_worse():
    """The far one lifts the beam off the near one, which is rigid: all three there give the first more than two."""
    three = [touch(30.0), touch(60.0, k=1e7), touch(100.0, k=1e7, latest=None)]
    found = force_bounds(solved(), three).largest[D, 0]
    all_of = prop_forces(solved(), [30.0, 60.0, 100.0], [0.0] * 3, [8e3, 1e7, 1e7]).forces[D, 0]
    two = prop_forces(solved(), [30.0, 60.0], [0.0] * 2, [8e3, 1e7]).forces[D, 0]
    assert found == pytest.approx(max(all_of, two), rel=1e-9)
    assert all_of > 1.5 * two


def test_a_neighbor_in_the_next_span_loads():
    """Pushing up in one span of a continuous beam lowers the other: taken as stiff as it may be, and there."""
    straight = solved(even(end=288.0), length=288.0, supports=(0.0, 144.0, 288.0))
    assert unit_sags(straight, [72.0, 216.0])[0, 1] < 0.0
    alone = force_bounds(straight, [touch(72.0)]).largest[D, 0]
    found = force_bounds(straight, [touch(72.0), touch(216.0, k_low=100.0, latest=None)]).largest[D, 0]
    stiff = prop_forces(straight, [72.0, 216.0], [0.0, 0.0], [8000.0, 8000.0]).forces[D, 0]
    assert found == pytest.approx(stiff, rel=1e-9)
    assert found > alone


def test_least_force_of_one_that_is_fixed():
    straight = solved(even(), even("W", -60.0))
    lifted = named(straight, "0.6 D + 0.6 W, wind up")
    at_rest = sinking(straight, [24.0]).lasting[:, 0]
    found = force_bounds(straight, [touch(24.0, latest=at_rest, fixed=True)])
    expected = sag(24.0, -36.0) / (1 / 8000 + unit(24, 24))  # nothing is left but what the wind lifts
    assert found.least[lifted, 0] == pytest.approx(expected, rel=1e-9)
    assert found.least[D, 0] == pytest.approx(0.0, abs=1e-6)
    assert found.largest[D, 0] == pytest.approx(724.471, rel=1e-4)


def test_many_brackets_by_both_methods():
    """Forces by the force method, then by the frame with contact: `acting` refuses when they differ."""
    straight = solved(even(end=288.0), even("L", 40.0, end=288.0), length=288.0, supports=(0.0, 144.0, 288.0))
    touches = [touch(x, 0.01, k_low=2e3, latest=None if x > 250 else 0.05) for x in range(20, 288, 30)]
    bounds = force_bounds(straight, touches)
    for i in range(len(touches)):
        states = bounds.acting(i)
        most = max(float(np.max(one.forces[:, i])) for one in states)
        assert most == pytest.approx(float(np.max(bounds.largest[:, i])), rel=1e-6)
        assert np.all(states[0].forces[:, i] <= bounds.largest[:, i] * (1 + 1e-6) + 1e-6)


def test_two_methods_that_differ_are_no_answer():
    bounds = force_bounds(solved(), [touch(24.0)])
    wrong = replace(bounds, largest=bounds.largest * 1.001)
    with pytest.raises(BeamcheckError, match=r"by one method and 724\.471 lb by the other"):
        wrong.acting(0)


# properties

PLACES = st.lists(st.integers(4, 140), min_size=1, max_size=3, unique=True).map(sorted)
SIZES = st.lists(st.floats(0.0, 0.2), min_size=3, max_size=3)


@settings(max_examples=25, deadline=None)
@given(PLACES, SIZES, st.floats(500.0, 1e6), st.booleans())
def test_equilibrium(places, gaps, k, fixed):
    straight = solved(even(), point("L", 100.0, 2500.0), supports=(0.0, 60.5, L), GA_s=GA_S)
    places = [x for x in places if abs(x - 60.5) > 1.0]
    if not places:
        places = [30]
    found = prop_forces(straight, places, gaps[: len(places)], [k] * len(places), fixed=[fixed] * len(places))
    total = found.forces.sum(axis=1) + found.reactions.sum(axis=1)
    live = [load for case in straight.cases for load in case.loads]
    applied = straight.factors @ [sum(load.total for load in case.loads) for case in straight.cases]
    assert live
    assert total == pytest.approx(applied, rel=1e-9)


@settings(max_examples=20, deadline=None)
@given(st.integers(4, 140), st.lists(st.floats(0.0, 0.3), min_size=3, max_size=3).map(sorted), st.floats(100.0, 1e6))
def test_more_gap_never_more_force(x, gaps, k):
    straight = solved(GA_s=GA_S)
    forces = [prop_forces(straight, [x], [gap], [k]).forces[D, 0] for gap in gaps]
    assert all(b <= a + 1e-6 for a, b in pairwise(forces))


@settings(max_examples=20, deadline=None)
@given(st.integers(4, 140), st.lists(st.floats(1.0, 1e7), min_size=3, max_size=3).map(sorted), st.floats(0.0, 0.1))
def test_stiffer_never_less_force(x, stiffnesses, gap):
    straight = solved(GA_s=GA_S)
    forces = [prop_forces(straight, [x], [gap], [k]).forces[D, 0] for k in [*stiffnesses, np.inf]]
    assert all(b >= a - 1e-6 for a, b in pairwise(forces))


@settings(max_examples=20, deadline=None)
@given(PLACES, st.lists(st.floats(1.0, 200.0), min_size=3, max_size=3).map(sorted), st.floats(0.0, 0.1))
def test_more_load_never_less_force_in_all(places, loads, gap):
    n = len(places)
    forces = [prop_forces(solved(even(w=w)), places, [gap] * n, [8e3] * n).forces[D].sum() for w in loads]
    assert all(b >= a - 1e-6 for a, b in pairwise(forces))


@settings(max_examples=20, deadline=None)
@given(st.integers(4, 70), st.floats(0.0, 0.1), st.floats(100.0, 1e6))
def test_symmetrical_pair(x, gap, k):
    """f_xx + f_x,L-x = x^2 (3 L - 4 x)/(6 EI) (brackets.md sec. f, derived)."""
    found = prop_forces(solved(), [x, L - x], [gap, gap], [k, k]).forces[D]
    expected = max(0.0, (sag(x) - gap) / (1 / k + x**2 * (3 * L - 4 * x) / (6 * EI)))
    assert found == pytest.approx([expected, expected], rel=1e-6, abs=1e-4)


@settings(max_examples=20, deadline=None)
@given(PLACES, SIZES, st.floats(100.0, 1e5), st.floats(1.0, 10.0), SIZES)
def test_bounds_hold_whatever_gap_and_stiffness_really_are(places, gaps, k, wider, later):
    n = len(places)
    touches = [
        Touch(x, gap, gap + late, k, wider * k) for x, gap, late in zip(places, gaps[:n], later[:n], strict=True)
    ]
    bounds = force_bounds(solved(), touches).largest[D]
    rng = np.random.default_rng(1)
    for _ in range(4):
        really = [g + rng.random() * late for g, late in zip(gaps[:n], later[:n], strict=True)]
        stiff = (k * wider ** rng.random(n)).tolist()
        assert np.all(prop_forces(solved(), places, really, stiff).forces[D] <= bounds * (1 + 1e-9) + 1e-6)


def test_a_very_soft_bracket_takes_nothing():
    assert prop_forces(solved(), [72.0], [0.0], [1e-6]).forces[D, 0] == pytest.approx(0.0, abs=1e-6)


# refused


@pytest.mark.parametrize(
    ("places", "stiffness", "text"),
    [
        ([0.2], [8e3], "is at a support of the beam"),
        ([150.0], [8e3], "12 ft 6 in is not on the beam, which runs from 0 to 12 ft"),
        ([float("nan")], [8e3], "a place at nan is not on the beam"),
        ([24.0], [0.0], "a stiffness of 0.0 lb/in is none"),
        ([24.0], [float("nan")], "a stiffness of nan lb/in is none"),
        ([], [], "no prop is given"),
    ],
)
def test_refused(places, stiffness, text):
    with pytest.raises(OutOfRange, match=text):
        prop_forces(solved(), places, [0.0] * len(places), stiffness)


@pytest.mark.parametrize(("k_low", "k_high"), [(9e3, 8e3), (-1.0, 8e3), (float("nan"), 8e3)])
def test_bounds_that_are_none(k_low, k_high):
    with pytest.raises(OutOfRange, match="the least stiffness of"):
        force_bounds(solved(), [Touch(24.0, 0.0, 0.0, k_low, k_high)])
