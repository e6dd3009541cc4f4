"""One-sided supports with a gap: closed forms, the force method, and what must never be answered."""

from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from beamcheck.analysis.frames.contact import Contact, _Trial, solve_contact
from beamcheck.analysis.frames.frame import Bar, Frame, Loads, Support
from beamcheck.analysis.frames.member_line import LineLoad, PointLoad, Prop, straight_beam
from beamcheck.errors import BeamcheckError, Unstable

L, w, EI, GA_s = 144.0, 25.0, 6.0e8, 4.0e6
SIMPLE = [(0.0, "pin"), (L, "roller")]


def prop_force(gaps, places, stiffness=None, *, supports=SIMPLE, loads=None, EI=EI, GA_s=np.inf):
    stiffness = stiffness or [True] * len(places)
    props = [Prop(s, gap, k) for s, gap, k in zip(places, gaps, stiffness, strict=True)]
    return straight_beam(L, supports, [loads or [LineLoad(0, L, w)]], EI, GA_s, props=props)


@pytest.mark.parametrize("gap", [0.0, 0.05, 0.2])
@pytest.mark.parametrize("k", [None, 8000.0])
def test_one_prop_in_the_middle(gap, k):
    """R = (5 w L^4/(384 EI) - gap)/(1/k + L^3/(48 EI)): force method, derived."""
    result = prop_force([gap], [L / 2], [k or True])
    free = 5 * w * L**4 / (384 * EI)
    expected = max(0.0, (free - gap) / ((1 / k if k else 0.0) + L**3 / (48 * EI)))
    assert expected > 0.0
    assert result.contact.forces[0, 0] == pytest.approx(expected, rel=1e-9)
    assert result.reactions[0, :, 1] == pytest.approx([(w * L - expected) / 2] * 2, rel=1e-9)
    assert result.line.at("v", L / 2)[0] == pytest.approx(-gap - (expected / k if k else 0.0), rel=1e-9)


def test_gap_that_does_not_close_changes_nothing():
    free = straight_beam(L, SIMPLE, [[LineLoad(0, L, w)]], EI)
    sag = -free.line.extremes("v")[0][0]
    result = prop_force([1.001 * sag], [L / 2])
    assert result.contact.forces[0, 0] == 0.0
    assert not result.contact.closed[0, 0]
    assert result.contact.opening[0, 0] == pytest.approx(0.001 * sag, rel=1e-6)
    assert result.line.at("M", 40.0) == pytest.approx(free.line.at("M", 40.0))


def test_bracket_example_with_shear():
    """brackets.md sec. f (derived there): R = (delta_0 - g)/(1/k + f_xx), shear terms 1.2 w x (L - x)/(2 G A) and
    1.2 x (L - x)/(G A L), with G A/1.2 = G A_s."""
    x, k, g = 24.0, 8000.0, 0.02
    delta = w * x * (L**3 - 2 * L * x**2 + x**3) / (24 * EI) + w * x * (L - x) / (2 * GA_s)
    f_xx = x**2 * (L - x) ** 2 / (3 * EI * L) + x * (L - x) / (GA_s * L)
    result = prop_force([g], [x], [k], GA_s=GA_s)
    assert result.contact.forces[0, 0] == pytest.approx((delta - g) / (1 / k + f_xx), rel=1e-9)


def test_symmetrical_pair():
    """brackets.md sec. f: for a pair at x and L - x the flexibility is x^2 (3 L - 4 x)/(6 EI) (derived)."""
    x, k = 24.0, 8000.0
    delta = w * x * (L**3 - 2 * L * x**2 + x**3) / (24 * EI)
    expected = delta / (1 / k + x**2 * (3 * L - 4 * x) / (6 * EI))
    assert prop_force([0.0, 0.0], [x, L - x], [k, k]).contact.forces[0] == pytest.approx([expected] * 2, rel=1e-9)


def test_printed_bracket_example():
    """brackets.md sec. f: 5.5 x 9.5 in, 12 ft, E 1.6e6, 25 lb/in, tip at 24 in, k 8000: 0.113 in, 724 lb (derived)."""
    EI = 1.6e6 * 5.5 * 9.5**3 / 12
    result = prop_force([0.0], [24.0], [8000.0], EI=EI)
    assert result.contact.forces[0, 0] == pytest.approx(724, abs=0.5)
    assert -straight_beam(L, SIMPLE, [[LineLoad(0, L, w)]], EI).line.at("v", 24.0)[0] == pytest.approx(0.113, abs=5e-4)


def flexibility(a, b):
    """Deflection at a from a unit load at b, simple span (closed form: P b x (L^2 - b^2 - x^2)/(6 EI L))."""
    x, far = min(a, b), L - max(a, b)
    return x * far * (L**2 - x**2 - far**2) / (6 * EI * L)


def by_force_method(gaps, places, k):
    """Every subset of props is tried; the one without a pull and without a press-through is the answer."""
    free = np.array([w * x * (L**3 - 2 * L * x**2 + x**3) / (24 * EI) for x in places])
    f = np.array([[flexibility(a, b) for b in places] for a in places])
    for subset in range(2 ** len(places)):
        on = [i for i in range(len(places)) if subset >> i & 1]
        R = np.zeros(len(places))
        if on:
            R[on] = np.linalg.solve(f[np.ix_(on, on)] + np.eye(len(on)) / k, (free - gaps)[on])
        down = free - f @ R
        if np.all(R >= 0) and all(down[i] <= gaps[i] + 1e-12 for i in range(len(places)) if i not in on):
            return R
    raise AssertionError("no consistent subset")


@settings(max_examples=40, deadline=None)
@given(
    st.lists(st.integers(4, 140), min_size=2, max_size=5, unique=True).map(sorted),
    st.lists(st.floats(0.0, 0.3), min_size=5, max_size=5),
    st.floats(500.0, 1e6),
)
def test_unequal_gaps_like_the_force_method(places, gaps, k):
    gaps = np.array(gaps[: len(places)])
    result = prop_force(gaps, places, [k] * len(places))
    expected = by_force_method(gaps, places, k)
    assert result.contact.forces[0] == pytest.approx(expected, rel=1e-6, abs=1e-4)
    assert result.contact.forces.sum() + result.reactions[0, :, 1].sum() == pytest.approx(w * L, rel=1e-9)


def test_a_prop_that_would_have_to_pull_stays_open():
    """Props at 30 and 72 in, the load far right: closing both at once would make the left one pull."""
    result = straight_beam(L, SIMPLE, [[PointLoad(110.0, 900.0)]], EI, props=[Prop(30.0, 0.0), Prop(72.0, 0.0)])
    assert result.contact.closed[0].tolist() == [False, True]
    assert result.contact.opening[0, 0] > 0.0


def test_each_case_finds_its_own_props_and_batches_agree_with_single_runs():
    cases = [[LineLoad(0, L, load)] for load in (1.0, 10.0, 60.0)]
    stiffness = np.array([4e8, 9e8])
    props = [Prop(30.0, 0.03), Prop(80.0, 0.1, 5000.0)]
    many = straight_beam(L, SIMPLE, cases, stiffness, props=props)
    assert many.contact.forces.shape == (2, 3, 2)
    assert len(np.unique(many.contact.closed.reshape(-1, 2), axis=0)) > 2
    for i in range(2):
        for c in range(3):
            one = straight_beam(L, SIMPLE, [cases[c]], stiffness[i], props=props)
            assert many.contact.forces[i, c] == pytest.approx(one.contact.forces[0], rel=1e-9, abs=1e-9)
            assert many.line.at("M", 50.0)[i, c] == pytest.approx(one.line.at("M", 50.0)[0], rel=1e-9)


def test_gap_may_differ_by_case_and_stiffness_by_frame():
    gap, k = np.array([0.0, 0.1]), np.array([5e3, 5e4, 5e5])
    result = straight_beam(L, SIMPLE, [[LineLoad(0, L, w)]] * 2, EI, props=[Prop(L / 2, gap, k)])
    free = 5 * w * L**4 / (384 * EI)
    assert result.contact.forces[..., 0] == pytest.approx((free - gap) / (1 / k[:, None] + L**3 / (48 * EI)), rel=1e-9)


def test_wedged_prop_lifts_before_there_is_load():
    result = straight_beam(L, SIMPLE, [[]], EI, props=[Prop(L / 2, -0.1)])
    assert result.contact.forces[0, 0] == pytest.approx(0.1 * 48 * EI / L**3, rel=1e-9)


def test_beam_that_only_lies_on_its_supports():
    """All supports push only: an end with uplift leaves its support (statics of the overhang)."""
    nodes = [[0.0, 0.0], [48.0, 0.0], [96.0, 0.0], [L, 0.0]]
    frame = Frame(nodes, [Bar(i, i + 1, 1e6, EI) for i in range(3)], [Support(1, ux=True)])
    loads = np.zeros((1, 4, 3))
    loads[0, 2, 1], loads[0, 1, 1] = -600.0, -100.0
    contact = solve_contact(frame, Loads(loads), [Contact(0, 0.0), Contact(1, 0.0), Contact(3, 0.0)])
    assert contact.closed[0].tolist() == [False, True, True]
    assert contact.forces[0] == pytest.approx([0.0, 400.0, 300.0], rel=1e-9)
    assert contact.solution.reactions[0, 0] == pytest.approx([0.0, 0.0, 0.0], abs=1e-9)


def lying(places, gaps, load_at, load=1000.0):
    """A beam with no support but contacts (held sideways only), and one load."""
    s = np.unique([0.0, L, *places, load_at])
    bars = [Bar(i, i + 1, 1e6, EI) for i in range(len(s) - 1)]
    frame = Frame(np.stack([s, 0 * s], axis=-1), bars, [Support(0, ux=True)])
    loads = np.zeros((1, len(s), 3))
    loads[0, np.searchsorted(s, load_at), 1] = -load
    contacts = [Contact(int(np.searchsorted(s, at)), gap) for at, gap in zip(places, gaps, strict=True)]
    return solve_contact(frame, Loads(loads), contacts), [contact.node for contact in contacts]


def test_beam_that_first_rocks_on_uneven_blocks():
    """Closing and opening all at once goes in circles here; the answer is a simple beam from 24 to 120 (statics)."""
    answer, _ = lying([12, 24, 36, 72, 120], [0.0, 0.0, 0.3, 0.3, 0.1], 90.0)
    assert answer.forces[0] == pytest.approx([0.0, 312.5, 0.0, 0.0, 687.5], abs=1e-6)


@settings(max_examples=40, deadline=None)
@given(
    st.lists(st.integers(0, 12), min_size=2, max_size=5, unique=True).map(lambda x: sorted(12.0 * i for i in x)),
    st.lists(st.sampled_from([0.0, 0.1, 0.3]), min_size=5, max_size=5),
    st.integers(0, 11).map(lambda i: 12.0 * i + 5.0),
)
def test_beam_lying_on_blocks_rests_or_is_refused(places, gaps, load_at):
    """A load between the outer blocks always finds rest, one beyond them never (statics)."""
    gaps = np.array(gaps[: len(places)])
    if not places[0] < load_at < places[-1]:
        with pytest.raises(Unstable, match="tips or lifts off"):
            lying(places, gaps, load_at)
        return
    answer, nodes = lying(places, gaps, load_at)
    assert np.all(answer.forces >= 0.0)
    assert answer.forces[0].sum() == pytest.approx(1000.0, rel=1e-9)
    assert answer.forces[0] @ places == pytest.approx(1000.0 * load_at, rel=1e-9)
    above = gaps + answer.solution.displacements[0, nodes, 1]
    assert np.all(above >= -1e-9)
    assert above * answer.forces[0] == pytest.approx(np.zeros(len(places)), abs=1e-6)


def test_an_answer_that_does_not_fit_is_not_given_out():
    """The last check, on answers spoiled by hand."""
    frame = Frame(
        [[0, 0], [L / 2, 0], [L, 0]], [Bar(0, 1, 1e6, EI), Bar(1, 2, 1e6, EI)], [Support(0, True, True, True)]
    )
    loads = np.zeros((1, 3, 3))
    loads[0, 1, 1] = -100.0
    for stiffness in (True, 5e3):
        contacts = [Contact(2, 0.01, stiffness)]
        answer = solve_contact(frame, Loads(loads), contacts)
        trial = _Trial(frame, Loads(loads), contacts)
        trial.prove(answer)
        for forces in (-answer.forces, 1.01 * answer.forces if stiffness is not True else -0.5 * answer.forces):
            with pytest.raises(BeamcheckError, match="contact 0: its force does not fit its squeeze"):
                trial.prove(replace(answer, forces=forces))
        free = solve_contact(frame, Loads(loads), [Contact(2, 10.0)])
        with pytest.raises(BeamcheckError, match="contact 0: its force does not fit its squeeze"):
            trial.prove(free)


def test_beam_that_tips_is_refused():
    nodes = [[0.0, 0.0], [48.0, 0.0], [L, 0.0]]
    frame = Frame(nodes, [Bar(0, 1, 1e6, EI), Bar(1, 2, 1e6, EI)], [Support(1, ux=True)])
    loads = np.zeros((1, 3, 3))
    loads[0, 2, 1] = -100.0
    with pytest.raises(Unstable, match="tips or lifts off"):
        solve_contact(frame, Loads(loads), [Contact(0, 0.0), Contact(1, 0.0)])


def test_mechanism_that_no_contact_can_cure_is_named():
    frame = Frame([[0.0, 0.0], [L, 0.0]], [Bar(0, 1, 1e6, EI)], [])
    with pytest.raises(Unstable, match="node 0 at x = 0, y = 0 can move sideways"):
        solve_contact(frame, Loads(np.zeros((1, 2, 3))), [Contact(0, 0.0), Contact(1, 0.0)])


@pytest.mark.parametrize(
    ("contacts", "text"),
    [
        ([], "contacts: there is none"),
        ([Contact(7, 0.0)], "contact 0: node 7 is not a node; nodes run from 0 to 1"),
        ([Contact(0, 0.0)], "contact 0: a support holds the height of node 0 already"),
        ([Contact(1, 0.0), Contact(1, 0.1)], "contact 1: node 1 has a contact already"),
        ([Contact(1, np.nan)], "contact 0: the gap nan is not a finite number"),
        ([Contact(1, 0.0, False)], "contact 0: a stiffness of False is none; give True"),
    ],
)
def test_wrong_contacts_are_named(contacts, text):
    frame = Frame([[0.0, 0.0], [L, 0.0]], [Bar(0, 1, 1e6, EI)], [Support(0, True, True, True)])
    with pytest.raises(ValueError, match=text):
        solve_contact(frame, Loads(np.zeros((1, 2, 3))), contacts)


def test_spring_that_is_none_is_named():
    with pytest.raises(
        ValueError, match=r"contact 0: a stiffness of -5\.0 is none; give True for rigid, or a spring above zero"
    ):
        prop_force([0.0], [L / 2], [-5.0])


def test_solution_with_contact_cannot_be_combined():
    result = prop_force([0.0], [L / 2])
    with pytest.raises(ValueError, match="combine the loads first"):
        result.combine([[2.0]])
