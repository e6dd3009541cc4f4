"""Reading a member along its length, and the straight beam: closed forms, properties, edges, and what is refused."""

import numpy as np
import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from beamcheck.analysis.frames.frame import Bar, Frame, Loads, Support, solve
from beamcheck.analysis.frames.member_line import Line, LineLoad, PointLoad, Prop, Section, Settlement, straight_beam
from beamcheck.analysis.frames.polynomial import derivative
from beamcheck.errors import Unstable

L, EI, GA_s, P, w = 144.0, 1.1e9, 3.0e6, 1500.0, 20.0
SIMPLE = [(0.0, "pin"), (L, "roller")]
quick = settings(max_examples=40, deadline=None)

place = st.integers(0, 144).map(float)
amount = st.integers(-40, 90).map(float)
point_load = st.builds(PointLoad, place, amount.map(lambda x: 20 * x), amount.map(lambda x: 100 * x))
line_load = st.tuples(place, place, amount, amount).filter(lambda x: x[0] < x[1]).map(lambda x: LineLoad(*x))
some_loads = st.lists(st.one_of(point_load, line_load), min_size=1, max_size=4)
kinds = st.sampled_from(["pin", "roller", "fixed", 3e4])
some_supports = st.lists(st.tuples(place, kinds), min_size=2, max_size=4, unique_by=lambda x: x[0] // 8)


# --- closed forms ---


def test_shear_deflection_of_a_simple_beam():
    """P L^3/(48 EI) + P L/(4 G A_s) and 5 w L^4/(384 EI) + w L^2/(8 G A_s) (derived)."""
    beam = straight_beam(L, SIMPLE, [[PointLoad(L / 2, P)], [LineLoad(0, L, w)]], EI, GA_s)
    expected = [P * L**3 / (48 * EI) + P * L / (4 * GA_s), 5 * w * L**4 / (384 * EI) + w * L**2 / (8 * GA_s)]
    assert beam.line.at("v", L / 2) == pytest.approx([-x for x in expected], rel=1e-12)
    low, s_low, high, _ = beam.line.extremes("v")
    assert low == pytest.approx([-x for x in expected], rel=1e-12)
    assert s_low == pytest.approx([L / 2] * 2)
    assert high == pytest.approx([0.0, 0.0], abs=1e-15)


def test_settled_middle_support():
    """Two equal spans a, the middle support down by d: R = -6 EI d/a^3, M = 3 EI d/a^2 (three moments, derived)."""
    a, d = L / 2, 0.25
    beam = straight_beam(L, [(0, "pin"), (a, "roller"), (L, "roller")], [[Settlement(1, d)]], EI)
    assert beam.reactions[0, 1, 1] == pytest.approx(-6 * EI * d / a**3, rel=1e-11)
    assert beam.line.at("M", a)[0] == pytest.approx(3 * EI * d / a**2, rel=1e-11)
    assert beam.line.at("v", a)[0] == pytest.approx(-d, rel=1e-14)


def test_spring_under_the_middle():
    """R = (5 w L^4/(384 EI))/(1/k + L^3/(48 EI)) (force method, derived)."""
    k = 2.0e4
    beam = straight_beam(L, [*SIMPLE, (L / 2, k)], [[LineLoad(0, L, w)]], EI)
    expected = 5 * w * L**4 / (384 * EI) / (1 / k + L**3 / (48 * EI))
    assert beam.reactions[0, 2, 1] == pytest.approx(expected, rel=1e-11)
    assert beam.line.at("v", L / 2)[0] == pytest.approx(-expected / k, rel=1e-11)


def test_stepped_beam():
    """A cantilever of EI near the wall and EI_2 beyond a: tip P (L^3 - (L - a)^3)/(3 EI) + P (L - a)^3/(3 EI_2)
    (moment-area, derived)."""
    a, EI_2 = 50.0, 0.4 * EI
    beam = straight_beam(L, [(0, "fixed")], [[PointLoad(L, P)]], EI, sections=[Section(a, L, EI_2)])
    tip = P * (L**3 - (L - a) ** 3) / (3 * EI) + P * (L - a) ** 3 / (3 * EI_2)
    assert beam.line.at("v", L)[0] == pytest.approx(-tip, rel=1e-12)


def test_rafter_on_a_slope():
    """w per plan length: M = w (L cos a)^2/8; w per length: w L^2 cos a/8; reactions upright (statics, derived)."""
    angle = np.deg2rad(35.0)
    loads = [[LineLoad(0, L, w, per="projection")], [LineLoad(0, L, w)], [PointLoad(L / 2, P)]]
    beam = straight_beam(L, SIMPLE, loads, EI, EA=5e7, slope=35.0)
    c, s = np.cos(angle), np.sin(angle)
    _, _, high, s_high = beam.line.extremes("M")
    assert high == pytest.approx([w * (L * c) ** 2 / 8, w * L**2 * c / 8, P * L * c / 4], rel=1e-10)
    assert s_high == pytest.approx([L / 2] * 3)
    assert beam.reactions[..., 1] == pytest.approx(np.array([[w * L * c / 2] * 2, [w * L / 2] * 2, [P / 2] * 2]))
    assert beam.reactions[..., 0] == pytest.approx(np.zeros((3, 2)), abs=1e-9)
    # roller at the top: its upright push presses the rafter by N = R sin a below it and pulls above the load
    assert beam.line.at("N", L)[1] == pytest.approx(w * L / 2 * s, rel=1e-10)
    assert beam.line.at("N", 0.0)[1] == pytest.approx(-w * L / 2 * s, rel=1e-10)
    assert beam.line.at("v", L / 2)[1] == pytest.approx(-5 * w * c * L**4 / (384 * EI), rel=1e-10)


def test_couple_makes_moment_jump():
    """Simple beam, couple m counter-clockwise at a: V = m/L, M jumps from m a/L down by m (statics, derived)."""
    a, m = 48.0, 900.0
    line = straight_beam(L, SIMPLE, [[PointLoad(a, 0.0, m)]], EI).line
    assert line.at("M", a, "left")[0] == pytest.approx(m * a / L)
    assert line.at("M", a, "right")[0] == pytest.approx(m * a / L - m)
    low, s_low, high, s_high = (float(x[0]) for x in line.extremes("M"))
    assert (low, s_low, high, s_high) == tuple(pytest.approx(x) for x in (m * a / L - m, a, m * a / L, a))
    assert [float(x[0]) for x in line.extremes("M", a, L, both_sides=False)[2:]] == pytest.approx([0.0, L], abs=1e-9)
    assert line.extremes("M", a, a)[2][0] == pytest.approx(m * a / L)
    assert line.extremes("M", a, a, both_sides=False)[0][0] == pytest.approx(m * a / L - m)


def test_window_ends_count_both_sides_unless_told_otherwise():
    """Overhang: the shear just outside the support is the neighbor's; both are there by default."""
    line = straight_beam(L, [(0, "pin"), (96, "roller")], [[LineLoad(0, L, w)]], EI).line
    R_1 = w * (96**2 - 48**2) / (2 * 96)
    assert line.extremes("V", 0, 96)[2][0] == pytest.approx(w * 48)
    assert line.extremes("V", 0, 96, both_sides=False)[2][0] == pytest.approx(R_1)
    assert line.extremes("V", 0, 96)[0][0] == pytest.approx(R_1 - w * 96)
    low, s_low, high, s_high = line.extremes("V", 20, 60)
    assert [low[0], s_low[0], high[0], s_high[0]] == pytest.approx([R_1 - w * 60, 60, R_1 - w * 20, 20])


def test_sag_is_measured_from_the_chord():
    """On spring supports of unequal stiffness the sag between them is that on rigid ones (v less the chord)."""
    loads = [[LineLoad(0, L, w)]]
    rigid = straight_beam(L, SIMPLE, loads, EI, GA_s)
    soft = straight_beam(L, [(0, 2e4), (L, 7e3)], loads, EI, GA_s)
    assert soft.line.at("v", [0.0, L])[0] == pytest.approx([-w * L / 4e4, -w * L / 1.4e4], rel=1e-9)
    low, s_low, high, _ = soft.line.sag_between(0, L)
    assert low == pytest.approx(rigid.line.extremes("v")[0], rel=1e-9)
    assert s_low == pytest.approx([L / 2])
    assert high == pytest.approx([0.0], abs=1e-12)


# --- properties ---


def solved(supports, cases, shear=GA_s):
    try:
        return straight_beam(L, supports, cases, EI, shear)
    except (Unstable, ValueError):
        assume(False)


@quick
@given(some_supports, some_loads)
def test_reactions_balance_the_loads(supports, loads):
    beam = solved(supports, [loads])
    force = moment = size = 0.0
    for load in loads:
        if isinstance(load, PointLoad):
            force, moment = force + load.P, moment + load.P * load.s - load.moment
            size += abs(load.P) + abs(load.moment) / L
        else:
            h = load.s1 - load.s0
            force += (load.w0 + load.w1) / 2 * h
            moment += load.w0 * h / 2 * (load.s0 + h / 3) + load.w1 * h / 2 * (load.s0 + 2 * h / 3)
            size += (abs(load.w0) + abs(load.w1)) * h
    up, turn = beam.reactions[0, :, 1], beam.reactions[0, :, 2]
    arms = np.array([s for s, _ in supports])
    slack = 1e-9 * (size + np.abs(up).sum())
    assert up.sum() == pytest.approx(force, abs=slack)
    assert (up * arms + turn).sum() == pytest.approx(moment, abs=slack * L)


@quick
@given(some_supports, some_loads)
def test_mirror_image(supports, loads):
    def mirrored(load):
        if isinstance(load, PointLoad):
            return PointLoad(L - load.s, load.P, -load.moment)
        return LineLoad(L - load.s1, L - load.s0, load.w1, load.w0)

    beam = solved(supports, [loads])
    mirror = solved([(L - s, kind) for s, kind in supports], [[mirrored(load) for load in loads]])
    s = np.linspace(0.31, L - 0.37, 23)  # away from the jumps, which all lie at whole numbers
    for quantity, sign in (("M", 1.0), ("v", 1.0), ("V", -1.0)):
        values = beam.line.at(quantity, s)
        size = 1e-7 * np.abs(beam.line.coefficients(quantity)[..., 0]).max()
        assert mirror.line.at(quantity, L - s) == pytest.approx(sign * values, rel=1e-7, abs=size + 1e-9)
    assert mirror.reactions[0, :, 1] == pytest.approx(beam.reactions[0, :, 1], rel=1e-7, abs=1e-6)


@quick
@given(some_supports, some_loads, some_loads, st.floats(-2, 2), st.floats(-2, 2))
def test_superposition_and_cases_at_once(supports, first, second, a, b):
    both = solved(supports, [first, second])
    combined = both.combine([[a, b], [1.0, 1.0]])
    direct = solved(supports, [[*first, *second]])
    alone = solved(supports, [first])
    s = np.linspace(0, L, 19)
    for quantity in ("M", "V", "v"):
        values, apart = combined.line.at(quantity, s), both.line.at(quantity, s)
        slack = 1e-9 * np.abs(apart).max() + 1e-9
        assert values[0] == pytest.approx(a * apart[0] + b * apart[1], abs=slack)
        assert values[1] == pytest.approx(direct.line.at(quantity, s)[0], rel=1e-7, abs=10 * slack)
        assert apart[0] == pytest.approx(alone.line.at(quantity, s)[0], rel=1e-7, abs=10 * slack)
    assert combined.reactions[1] == pytest.approx(direct.reactions[0], rel=1e-7, abs=1e-5)


@quick
@given(some_supports, some_loads, place, place, st.booleans())
def test_extremes_bound_every_sample_and_are_attained(supports, loads, s0, s1, shear):
    s0, s1 = min(s0, s1), max(s0, s1)
    line = solved(supports, [loads], GA_s if shear else np.inf).line
    s = np.linspace(s0, s1, 301)
    for quantity in ("M", "V", "v", "N"):
        low, s_low, high, s_high = line.extremes(quantity, s0, s1)
        both = np.concatenate([line.at(quantity, s, "left"), line.at(quantity, s, "right")], axis=-1)
        slack = 1e-9 * (np.abs(both).max() + np.abs(line.coefficients(quantity)[..., 0]).max())
        assert both.min() >= low[0] - slack
        assert both.max() <= high[0] + slack
        for value, at in ((low, s_low), (high, s_high)):
            assert s0 <= at[0] <= s1
            sides = [line.at(quantity, at[0], side)[0] for side in ("left", "right")]
            assert min(abs(side - value[0]) for side in sides) <= slack
    if s1 > s0:
        low, s_low, high, _ = line.sag_between(s0, s1)
        v_0, v_1 = line.at("v", s0)[0], line.at("v", s1)[0]
        chord = v_0 + (v_1 - v_0) * (s - s0) / (s1 - s0)
        sag = line.at("v", s)[0] - chord
        slack = 1e-9 * np.abs(line.coefficients("v")[..., 0]).max() + 1e-12
        assert (low[0] - slack <= sag.min()) and (high[0] + slack >= sag.max())
        assert low[0] <= slack and high[0] >= -slack


@quick
@given(some_supports, some_loads)
def test_shear_is_the_slope_of_the_moment(supports, loads):
    line = solved(supports, [loads]).line
    assert derivative(line.coefficients("M")) == pytest.approx(line.coefficients("V"), rel=1e-12)


@quick
@given(st.integers(1, 143), st.floats(-11, -8.5).map(lambda x: 10.0**x), some_loads)
def test_places_nearer_than_a_billionth_are_one_place(s, part, loads):
    near, exact = (
        straight_beam(L, SIMPLE, [[*loads, PointLoad(at, P)]], EI, stations=[s]) for at in (s * (1 + part), float(s))
    )
    if part * s < 1e-9 * L:
        assert len(near.line.bars) == len(exact.line.bars)
    assert near.reactions == pytest.approx(exact.reactions, rel=1e-7, abs=1e-5)
    moved = abs(P) * s * part  # what a moment can change when P really stands that much further on
    assert near.line.extremes("M")[2] == pytest.approx(exact.line.extremes("M")[2], rel=1e-9, abs=1e-4 + 2 * moved)


def test_a_batch_of_beams_is_its_beams_one_at_a_time():
    """Lengths, places, stiffnesses and loads that differ in the batch."""
    lengths, loads = np.array([100.0, 150.0, 260.0]), np.array([5.0, 11.0, 30.0])

    def beam(length, load):
        supports = [(0.0, "pin"), (0.6 * length, "roller"), (length, 4e4 * load)]
        cases = [
            [LineLoad(0.0, length, load)],
            [PointLoad(0.3 * length, 7 * load), LineLoad(0.1 * length, length, load, 0)],
        ]
        return straight_beam(
            length, supports, cases, EI * load, GA_s, sections=[Section(0, 0.2 * length, EI, GA_s * load)]
        )

    many = beam(lengths, loads)
    assert many.reactions.shape == (3, 2, 3, 3)
    for i in range(3):
        one = beam(lengths[i], loads[i])
        assert many.reactions[i] == pytest.approx(one.reactions, rel=1e-9)
        for quantity in ("M", "V", "v"):
            for got, want in zip(many.line.extremes(quantity), one.line.extremes(quantity), strict=True):
                assert got[i] == pytest.approx(want, rel=1e-7, abs=1e-9)
            got = many.line.extremes(quantity, 0.2 * lengths[:, None], 0.7 * lengths[:, None])
            assert got[0][i] == pytest.approx(one.line.extremes(quantity, 0.2 * lengths[i], 0.7 * lengths[i])[0])
        sag = many.line.sag_between(np.zeros((3, 1)), 0.6 * lengths[:, None])
        assert sag[0][i] == pytest.approx(one.line.sag_between(0.0, 0.6 * lengths[i])[0], rel=1e-9)
        half = many.line.at("M", 0.5 * lengths[:, None, None])[i, :, 0]
        assert half == pytest.approx(one.line.at("M", 0.5 * lengths[i]))


def test_two_hundred_spans():
    """A beam over 201 supports: inner spans as if fixed, w L^2/12 at supports (limit of many equal spans, derived)."""
    n = 200
    supports = [(i * L, "roller") for i in range(n + 1)]
    cases = [[LineLoad(0, n * L, w)], [PointLoad((i + 0.5) * L, P) for i in range(n)]]
    beam = straight_beam(n * L, supports, cases, EI)
    assert beam.line.at("M", 100 * L) == pytest.approx([-w * L**2 / 12, -P * L / 8], rel=1e-9)
    assert beam.reactions[:, 100, 1] == pytest.approx([w * L, P], rel=1e-9)
    assert beam.reactions[..., 1].sum(axis=-1) == pytest.approx([n * w * L, n * P], rel=1e-9)


# --- reading ---


def test_value_on_each_side_of_a_point_load():
    line = straight_beam(L, SIMPLE, [[PointLoad(48, P)]], EI).line
    assert line.at("V", 48, "left")[0] == pytest.approx(P * 2 / 3)
    assert line.at("V", 48, "right")[0] == pytest.approx(-P / 3)
    assert line.at("V", 48 * (1 - 1e-12), "right")[0] == pytest.approx(-P / 3)  # the same place, but for rounding
    assert line.at("V", [0.0, L], "left")[0] == pytest.approx([P * 2 / 3, -P / 3])
    assert line.at("V", [0.0, L], "right")[0] == pytest.approx([P * 2 / 3, -P / 3])


def test_sample_shows_both_sides_of_a_jump():
    line = straight_beam(L, SIMPLE, [[PointLoad(48, P)]], EI).line
    s, V = line.sample("V", [0.0, 24.0, 48.0, L])
    assert s.tolist() == [0.0, 24.0, 48.0, 48.0, L]
    assert V[0] == pytest.approx([P * 2 / 3] * 3 + [-P / 3] * 2)
    s, v = line.sample("v", [0.0, 20.0, L])
    assert s.tolist() == [0.0, 20.0, 48.0, L]
    assert v.shape == (1, 4)
    assert line.sample("M", [50.0, 60.0])[0].tolist() == [50.0, 60.0]


def test_line_through_part_of_a_frame():
    """The beam of a portal as one line, though its bars are not the first ones."""
    nodes = [[0, 0], [0, 90], [60, 90], [150, 90], [150, 0]]
    bars = [Bar(0, 1, 1e7, EI), Bar(1, 2, 1e7, EI), Bar(2, 3, 1e7, EI), Bar(4, 3, 1e7, EI)]
    frame = Frame(nodes, bars, [Support(0, True, True, True), Support(4, True, True)])
    loads = np.zeros((1, 5, 3))
    loads[0, 2, 1] = -P
    solution = solve(frame, Loads(loads))
    line = Line(solution, [1, 2])
    assert line.length == pytest.approx(150.0)
    assert line.at("V", 60, "left")[0] - line.at("V", 60, "right")[0] == pytest.approx(P)
    assert line.extremes("M")[3][0] == pytest.approx(60.0)
    assert line.at("v", 60)[0] == pytest.approx(solution.displacements[0, 2, 1])
    with pytest.raises(ValueError, match="bar 2 does not start where bar 0 ends"):
        Line(solution, [0, 2])
    with pytest.raises(ValueError, match="bar 1 is not in line with the first"):
        Line(solution, [0, 1])
    with pytest.raises(ValueError, match=r"bars \(7,\) must be one or more of 0 to 3"):
        Line(solution, [7])


def test_which_support_holds_the_beam_lengthwise():
    for kinds, holding in ((["roller", "fixed", "pin"], 2), (["roller", "fixed"], 1), ([3e4, "roller"], 0)):
        supports = [(s, kind) for s, kind in zip([0.0, 70.0, L], kinds, strict=False)]
        beam = straight_beam(L, supports, [[LineLoad(0, L, w)]], EI)
        assert [support.ux for support in beam.line.solution.frame.supports] == [
            i == holding for i in range(len(kinds))
        ]


# --- what is refused ---


@pytest.mark.parametrize(
    ("change", "text"),
    [
        ({"length": 0.0}, r"length = 0\.0; it must be greater than zero"),
        ({"supports": [(0, "pin"), (L + 1, "roller")]}, r"support 1: s = 145\.0 is not on the beam, which runs"),
        ({"supports": [(0, "pin"), (0, "roller")]}, "supports: two of them are in the same place"),
        ({"supports": [(0, "hinge")]}, "support 0: 'hinge' is not known; known are 'pin', 'roller', 'fixed' or"),
        ({"supports": [(0, -3.0), (L, "pin")]}, r"support 0: a spring of -3\.0 is no spring"),
        ({"cases": []}, "cases: there is none"),
        ({"cases": [[PointLoad(-2, P)]]}, "case 0, load 0: s = -2 is not on the beam"),
        ({"cases": [[], [PointLoad(2, np.nan)]]}, "case 1, load 0: .* not a finite number"),
        ({"cases": [[LineLoad(5, 5, w)]]}, "case 0, load 0: from 5 to 5 has no length"),
        ({"cases": [[LineLoad(5, 9, w, per="plan")]]}, "case 0, load 0: per = 'plan'; it must be 'length' or"),
        ({"cases": [[Settlement(2, 0.1)]]}, "case 0, load 0: there is no support 2"),
        ({"EI": None}, "EI must be given where no section covers the beam"),
        ({"sections": [Section(0, 50, EI), Section(40, 90, EI)]}, "section 1: overlaps section 0"),
        ({"stations": [200.0]}, r"station 0: s = 200\.0 is not on the beam"),
        ({"props": [Prop(np.nan, 0.0)]}, "prop 0: s = nan is not on the beam"),
        ({"slope": 20.0}, "EA must be given for a beam on a slope"),
        ({"slope": 20.0, "EA": 1e7, "supports": [(0, "pin"), (L, "pin")]}, "two pins on a slope push against"),
        ({"stations": [np.array([20.0, 60.0]), 40.0]}, "do not come in the same order in the whole batch; split it"),
        ({"stations": [np.array([40.0, 30.0]), 40.0]}, "do not come in the same order in the whole batch; split it"),
    ],
)  # fmt: skip
def test_wrong_beams_are_named(change, text):
    given = {"length": L, "supports": SIMPLE, "cases": [[LineLoad(0, L, w)]], "EI": EI, **change}
    with pytest.raises(ValueError, match=text):
        straight_beam(**given)


@pytest.mark.parametrize(
    ("supports", "text"),
    [
        ([], "can move"),
        ([(0, "pin")], "node 1 at x = 144, y = 0 can move up and down without resistance"),
        ([(50, "roller")], "can move up and down without resistance"),
    ],
)
def test_beams_that_can_move_are_refused(supports, text):
    with pytest.raises(Unstable, match=text):
        straight_beam(L, supports, [[LineLoad(0, L, w)]], EI)


@pytest.mark.parametrize(
    ("read", "text"),
    [
        (lambda line: line.at("M", L + 1), "s = 145 is not on the line, which runs from 0 to 144"),
        (lambda line: line.at("M", np.nan), "s = nan is not on the line"),
        (lambda line: line.at("Q", 3.0), "'Q' is not known along a line; known are 'N', 'V', 'M', 'u', 'v'"),
        (lambda line: line.at("M", 3.0, "middle"), "side = 'middle'; it must be 'left' or 'right'"),
        (lambda line: line.extremes("M", 60, 50), r"from s0 = 60 to s1 = 50 is not a stretch of the line \(0 to 144\)"),
        (lambda line: line.extremes("M", 0, L + 2), "is not a stretch of the line"),
        (lambda line: line.extremes("M", np.nan, 5), "is not a stretch of the line"),
        (lambda line: line.sag_between(50, 50), "sag_between: s0 and s1 are in the same place"),
    ],
)
def test_wrong_readings_are_named(read, text):
    with pytest.raises(ValueError, match=text):
        read(straight_beam(L, SIMPLE, [[LineLoad(0, L, w)]], EI).line)


def test_a_batch_of_lengths_cannot_be_drawn_at_once():
    lengths = np.array([100.0, 120.0])
    line = straight_beam(lengths, [(0, "pin"), (lengths, "roller")], [[LineLoad(0, lengths, w)]], EI).line
    with pytest.raises(ValueError, match="have different lengths; draw them one at a time"):
        line.sample("M", [0.0, 50.0])
