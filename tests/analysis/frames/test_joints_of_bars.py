"""Joints that give, stubs, bars that push or pull only, bars that stretch, critical loads: against other methods."""

from __future__ import annotations

import math
from dataclasses import replace
from typing import Any

import numpy as np
import pytest
import sympy
from hypothesis import given, settings
from hypothesis import strategies as st

from beamcheck.analysis.frames.buckling import acting_frame, critical_factor
from beamcheck.analysis.frames.contact import Contact, solve_contact
from beamcheck.analysis.frames.frame import Bar, Frame, Loads, Support, bar_loads, solve
from beamcheck.errors import BeamcheckError, Unstable

PIN = {"release_start": True, "release_end": True}
seeds = st.integers(0, 10_000)


def cantilever(**joint: Any) -> Frame:
    return Frame([[0, 0], [100, 0]], [Bar(0, 1, 1e7, 1e8, **joint)], [Support(0, True, True, True)])


# --- joints that give ------------------------------------------------------------------------------------------------


def test_a_bar_with_springs_at_its_ends_is_softer_by_their_sum() -> None:
    """delta = P (L/EA + 1/k1 + 1/k2)."""
    frame = cantilever(slip_start=5e4, slip_end=2e4)
    moved = solve(frame, Loads([[[0, 0, 0], [800.0, 0, 0]]])).displacements[0, 1, 0]
    assert moved == pytest.approx(800 * (100 / 1e7 + 1 / 5e4 + 1 / 2e4), rel=1e-12)


def test_a_load_along_a_bar_goes_through_the_joint_on_its_way() -> None:
    """Weight hung along a bar that is held at its start: only the joint there slips for it."""
    frame = cantilever(slip_start=5e4, slip_end=2e4)
    along = bar_loads(frame, np.broadcast_to([3.0, 0.0], (1, 1, 2, 2)))
    found = solve(frame, Loads(bars=along))
    assert found.displacements[0, 1, 0] == pytest.approx(300 / 5e4 + 3 * 100**2 / 2 / 1e7, rel=1e-12)


def test_a_turning_joint_adds_its_own_turn() -> None:
    """Cantilever, P at the tip: P L^3/(3 EI) + P L^2/k; a second spring at the free end turns nothing."""
    frame = cantilever(turn_start=2e6, turn_end=3e6)
    tip = solve(frame, Loads([[[0, 0, 0], [0, -50.0, 0]]])).displacements[0, 1]
    assert tip[1] == pytest.approx(-50 * (100**3 / 3e8 + 100**2 / 2e6), rel=1e-12)


@pytest.mark.parametrize("k", [1e3, 1e6, 1e9])
def test_beam_on_turning_joints(k: float) -> None:
    """M = (w L^2/12)/(1 + 2 EI/(k L)); the ends of the range are a hinge and a clamp."""
    L, EI, w = 144.0, 1.1e8, 30.0
    clamp = [Support(i, True, True, True) for i in (0, 1)]
    frame = Frame([[0, 0], [L, 0]], [Bar(0, 1, 1e7, EI, turn_start=k, turn_end=k)], clamp)
    found = solve(frame, Loads(bars=bar_loads(frame, np.broadcast_to([0.0, -w], (1, 1, 2, 2)))))
    end = w * L**2 / 12 / (1 + 2 * EI / (k * L))
    assert -found.M[0, 0, 0] == pytest.approx(end, rel=1e-9)
    assert found.reactions[0, :, 2] == pytest.approx([end, -end], rel=1e-9)


def test_a_hinge_at_one_end_and_a_spring_at_the_other() -> None:
    """Propped by a spring: three-moment equation, M = (w L^2/8)/(1 + 3 EI/(k L)), either way round."""
    L, EI, w, k = 120.0, 1e8, 20.0, 5e5
    for joints in ({"release_end": True, "turn_start": k}, {"release_start": True, "turn_end": k}):
        clamp = [Support(i, True, True, True) for i in (0, 1)]
        frame = Frame([[0, 0], [L, 0]], [Bar(0, 1, 1e7, EI, **joints)], clamp)  # type: ignore[arg-type]
        found = solve(frame, Loads(bars=bar_loads(frame, np.broadcast_to([0.0, -w], (1, 1, 2, 2)))))
        most = np.abs(found.reactions[0, :, 2]).max()
        assert most == pytest.approx(w * L**2 / 8 / (1 + 3 * EI / (k * L)), rel=1e-9)


def test_a_stub_is_a_stiff_bar() -> None:
    """The same frame with very stiff short bars in the place of the stubs."""
    nodes = [[0, 0], [100, 80], [200, 0]]
    bars = [Bar(0, 1, 2e7, 3e8, stub_end=(-4.0, -7.0)), Bar(1, 2, 2e7, 3e8, stub_start=(5.0, -6.0), **PIN)]
    held = [Support(0, True, True, True), Support(2, True, True)]
    stubs = solve(Frame(nodes, bars, held), Loads([[[0, 0, 0], [300.0, -900.0, 0], [0, 0, 0]]]))
    nodes = [*nodes, [96, 73], [105, 74]]
    rigid = [Bar(0, 3, 2e7, 3e8), Bar(4, 2, 2e7, 3e8, **PIN), Bar(3, 1, 1e13, 1e14), Bar(1, 4, 1e13, 1e14)]
    other = solve(Frame(nodes, rigid, held), Loads([[[0, 0, 0], [300.0, -900.0, 0], *([[0, 0, 0]] * 3)]]))
    assert stubs.N[0, :, 0] == pytest.approx(other.N[0, :2, 0], rel=1e-5)
    assert stubs.reactions[0] == pytest.approx(other.reactions[0], rel=1e-5)


def test_axes_that_miss_each_other_throw_a_moment_into_the_chord() -> None:
    """Force jump 3600, axes missed by 2.5 in, chord alike on both sides: jump e/2 each (statics)."""
    nodes = [[0, 0], [100, 0], [200, 0], [100, 60]]
    chord = [Bar(0, 1, 1e7, 1e8), Bar(1, 2, 1e7, 1e8)]
    web = Bar(1, 3, 1e7, 1e6, stub_start=(0.0, 2.5), stub_end=(90.0, -57.5), **PIN)  # runs level, 2.5 in above
    held = [Support(0, True, True), Support(2, False, True), Support(3, True, True, True)]
    frame = Frame(nodes, [*chord, web], held)
    found = solve(frame, Loads([[[0, 0, 0], [-3600.0, 0, 0], [0, 0, 0], [0, 0, 0]]]))
    e, jump = 2.5, abs(found.N[0, 2, 0])
    at_node = [found.M[0, 0, 0] + found.M[0, 0, 1] * 100, found.M[0, 1, 0]]
    assert np.abs(at_node) == pytest.approx([jump * e / 2] * 2, rel=1e-9)


def test_a_bar_that_stretches_of_itself() -> None:
    """Free: it gets longer and no force comes; held: N = -EA s/L."""
    free = solve(cantilever(), Loads(stretch=[[0.3]]))
    assert free.displacements[0, 1, 0] == pytest.approx(0.3) and abs(free.N[0, 0, 0]) < 1e-9
    both = Frame([[0, 0], [100, 0]], [Bar(0, 1, 1e7, 1e8)], [Support(i, True, True, True) for i in (0, 1)])
    assert solve(both, Loads(stretch=[[0.3]])).N[0, 0, 0] == pytest.approx(-1e7 * 0.3 / 100)
    assert free.combine([[2.0]]).displacements[0, 1, 0] == pytest.approx(0.6)
    assert solve(both, Loads(stretch=[[0.3]]).combine([[2.0]])).N[0, 0, 0] == pytest.approx(-2e7 * 0.3 / 100)


# --- random frames against equilibrium and compatibility solved by sympy ---------------------------------------------


def random_truss(seed: int, n: int) -> tuple[Frame, Loads]:
    """Triangles one on the other, all pinned, some with more bars than they need."""
    dice = np.random.default_rng(seed)
    nodes = np.array([[100.0 * (k // 2) + 50 * (k % 2), 80.0 * (k % 2)] for k in range(n)]) + dice.uniform(
        -15, 15, (n, 2)
    )
    pairs = [(0, 1)] + [(k, j) for k in range(2, n) for j in (k - 1, k - 2)]
    pairs += [(k, k + 3) for k in range(n - 3) if dice.random() < 0.4]
    bars = [
        Bar(i, j, float(dice.uniform(1e6, 1e7)), 1e6, slip_start=float(dice.uniform(1e4, 1e6)),
            slip_end=float(dice.choice([np.inf, 5e4])), **PIN)
        for i, j in pairs
    ]  # fmt: skip
    forces = np.zeros((1, n, 3))
    forces[0, :, :2] = dice.uniform(-2000, 2000, (n, 2))
    return Frame(nodes, bars, [Support(0, True, True), Support(n - 1, False, True)]), Loads(forces)


@pytest.mark.parametrize("seed", range(6))
def test_random_trusses_against_the_force_method_in_exact_numbers(seed: int) -> None:
    """Equilibrium B f = p and B^T u = F f in rational numbers by sympy: no stiffness matrix, no floating point."""
    frame, loads = random_truss(seed, 7)
    n, m = frame.n_nodes, len(frame.bars)
    exact = lambda x: sympy.Rational(float(x))  # noqa: E731
    B = sympy.zeros(2 * n, m + 3)
    for k in range(m):
        i, j = frame.bars[k].start, frame.bars[k].end
        d = [exact(frame.nodes[j, a]) - exact(frame.nodes[i, a]) for a in (0, 1)]
        L = exact(math.hypot(*map(float, d)))
        for a in (0, 1):
            B[2 * i + a, k], B[2 * j + a, k] = d[a] / L, -d[a] / L
    for col, row in enumerate((0, 1, 2 * (n - 1) + 1)):
        B[row, m + col] = 1
    p = sympy.Matrix([-exact(x) for x in np.asarray(loads.nodal)[0, :, :2].ravel()])
    F = sympy.zeros(m + 3)
    for k, bar in enumerate(frame.bars):
        EA, L = exact(bar.EA), exact(frame.length[k])
        slips = [0 if math.isinf(x) else 1 / exact(x) for x in (bar.slip_start, bar.slip_end)]
        F[k, k] = L / EA + sum(slips)
    # unknown forces and movements together: B f = p, F f + B^T u = 0
    K = sympy.Matrix(sympy.BlockMatrix([[F, B.T], [B, sympy.zeros(2 * n)]]))
    found = K.LUsolve(sympy.Matrix([*([0] * (m + 3)), *p]))
    expected = np.array([float(x) for x in found[:m]])
    solution = solve(frame, loads)
    assert solution.N[0, :, 0] == pytest.approx(expected, rel=1e-9, abs=1e-9 * np.abs(expected).max())


@settings(max_examples=25, deadline=None)
@given(seeds)
def test_equilibrium_and_the_mirror(seed: int) -> None:
    frame, loads = random_truss(seed, 9)
    found = solve(frame, loads)
    most = np.abs(found.N).max()
    assert np.abs(found.unbalanced).max() <= 1e-9 * most
    total = np.asarray(loads.nodal)[0, :, :2].sum(axis=0) + found.reactions[0, :, :2].sum(axis=0)
    assert np.abs(total).max() <= 1e-9 * most
    mirror = np.array([-1.0, 1.0])
    other = solve(Frame(frame.nodes * mirror, frame.bars, frame.supports), Loads(np.asarray(loads.nodal) * [-1, 1, -1]))
    assert other.N[0, :, 0] == pytest.approx(found.N[0, :, 0], rel=1e-9, abs=1e-9 * most)
    assert other.displacements[0, :, 0] == pytest.approx(-found.displacements[0, :, 0], rel=1e-9, abs=1e-9)


@settings(max_examples=25, deadline=None)
@given(seeds)
def test_slip_never_stiffens(seed: int) -> None:
    """The work of the loads (twice the strain energy) never gets less when a joint gets softer."""
    frame, loads = random_truss(seed, 8)
    forces = np.asarray(loads.nodal)[0, :, :2]

    def work(bars: list[Bar]) -> float:
        moved = solve(Frame(frame.nodes, bars, frame.supports), loads).displacements[0, :, :2]
        return float((forces * moved).sum())

    dice = np.random.default_rng(seed)
    softer = list(frame.bars)
    before = work(softer)
    for i in dice.permutation(len(softer))[:4]:
        softer[i] = replace(softer[i], slip_start=softer[i].slip_start / 3)  # type: ignore[operator]
        after = work(softer)
        assert after >= before * (1 - 1e-9)
        before = after


# --- bars that push or pull only -------------------------------------------------------------------------------------


def crossed(acts: str, gap: float = 0.0) -> Frame:
    """A square panel with two diagonals that act one way."""
    nodes = [[0, 0], [100, 0], [100, 100], [0, 100]]
    sides = [
        Bar(0, 1, 1e9, 1e8, **PIN),
        Bar(1, 2, 1e9, 1e8, **PIN),
        Bar(2, 3, 1e9, 1e8, **PIN),
        Bar(3, 0, 1e9, 1e8, **PIN),
    ]
    diagonals = [Bar(a, b, 1e6, 1e8, acts=acts, gap=gap, **PIN) for a, b in ((0, 2), (1, 3))]  # type: ignore[arg-type]
    return Frame(nodes, [*sides, *diagonals], [Support(0, True, True), Support(1, False, True)])


@pytest.mark.parametrize(("acts", "right"), [("push", [False, True]), ("pull", [True, False])])
def test_of_two_crossed_diagonals_one_acts(acts: str, right: list[bool]) -> None:
    """Level load to the right: the rod that rises with it pulls, the strut that falls pushes; the other way, turned."""
    loads = Loads([[[0, 0, 0], [0, 0, 0], [0, 0, 0], [500.0, 0, 0]], [[0, 0, 0], [0, 0, 0], [-500.0, 0, 0], [0, 0, 0]]])
    found = solve_contact(crossed(acts), loads)
    assert found.closed.tolist() == [right, right[::-1]]
    assert found.forces.max(axis=1) == pytest.approx([500 * math.sqrt(2)] * 2, rel=1e-9)
    N = found.solution.N[:, 4:, 0]
    assert np.all(N <= 1e-6) if acts == "push" else np.all(N >= -1e-6)


def test_a_gap_is_gone_through_before_the_bar_acts() -> None:
    """Sway = (gap + N L/EA)/cos 45 with sides that hardly give."""
    loads = Loads([[[0, 0, 0], [0, 0, 0], [0, 0, 0], [500.0, 0, 0]]])
    tight, loose = (solve_contact(crossed("push", gap), loads) for gap in (0.0, 0.125))
    more = loose.solution.displacements[0, 3, 0] - tight.solution.displacements[0, 3, 0]
    assert more == pytest.approx(0.125 * math.sqrt(2), rel=1e-6)
    assert loose.forces == pytest.approx(tight.forces, rel=1e-9)


def test_what_only_dry_joints_hold_together_comes_apart() -> None:
    """A weight hung on a post that can only push."""
    hung = Bar(1, 0, 1e6, 1e6, acts="push", **PIN)
    nodes, held = [[0, 100], [0, 0]], [Support(0, True, True), Support(1, True)]
    with pytest.raises(Unstable, match=r"can move|comes apart"):
        solve_contact(Frame(nodes, [hung], held), Loads([[[0, 0, 0], [0, -100.0, 0]]]))
    assert solve_contact(Frame(nodes, [hung], held), Loads([[[0, 0, 0], [0, 100.0, 0]]])).forces[0, 0] == pytest.approx(
        100
    )


@settings(max_examples=20, deadline=None)
@given(seeds)
def test_bars_that_act_one_way_against_all_the_sets(seed: int) -> None:
    """Of all sets of acting bars exactly that is answered in which none has the wrong sign or is run through."""
    dice = np.random.default_rng(seed)
    frame, loads = random_truss(seed, 8)
    extra = [
        Bar(k, k + 3, float(dice.uniform(1e6, 5e6)), 1e6, acts=str(dice.choice(["push", "pull"])),  # type: ignore[arg-type]
            gap=float(dice.choice([0.0, 0.02])), **PIN)
        for k in range(4)
    ]  # fmt: skip
    n = len(frame.bars)
    whole = Frame(frame.nodes, [*frame.bars, *extra], frame.supports)
    answer = solve_contact(whole, loads)
    fitting = []
    for number in range(2 ** len(extra)):
        acting = [i for i in range(len(extra)) if number >> i & 1]
        bars = [*frame.bars, *(replace(extra[i], acts="both") for i in acting)]
        stretch = np.zeros((1, len(bars)))
        stretch[0, n:] = [-extra[i].gap if extra[i].acts == "push" else extra[i].gap for i in acting]  # type: ignore[operator]
        found = solve(Frame(frame.nodes, bars, frame.supports), Loads(loads.nodal, stretch=stretch))
        signs = [found.N[0, n + k, 0] * (-1 if extra[i].acts == "push" else 1) >= -1e-6 for k, i in enumerate(acting)]
        moved = found.displacements[0, :, :2]
        idle = []
        for i in set(range(len(extra))) - set(acting):
            bar = extra[i]
            axis = frame.nodes[bar.end] - frame.nodes[bar.start]
            longer = float((moved[bar.end] - moved[bar.start]) @ axis / np.hypot(*axis))
            idle.append((longer if bar.acts == "push" else -longer) + bar.gap >= -1e-9)
        if all(signs) and all(idle):
            fitting.append((acting, found))
    acting, found = fitting[0]
    assert np.flatnonzero(answer.closed[0]).tolist() == acting or len(fitting) > 1
    assert answer.solution.N[0, :n, 0] == pytest.approx(found.N[0, :n, 0], rel=1e-6, abs=1e-6 * np.abs(found.N).max())


def test_an_idle_bar_hands_its_own_weight_to_its_nodes() -> None:
    """A strut that is open: half its weight at either end, whichever way the frame is mirrored."""
    frame = crossed("push")
    w = np.zeros((1, 6, 2, 2))
    w[0, 4:, :, 1] = -0.5
    loads = Loads([[[0, 0, 0], [0, 0, 0], [0, 0, 0], [500.0, 0, 0]]], bar_loads(frame, w))
    found = solve_contact(frame, loads)
    assert found.solution.reactions[0, :, 1].sum() == pytest.approx(0.5 * 2 * 100 * math.sqrt(2), rel=1e-9)
    idle = found.solution.N[0, 4]
    assert idle[0] == pytest.approx(-(idle[0] + idle[1] * 100 * math.sqrt(2)), rel=1e-6)


def test_a_seat_that_lifts_and_a_strut_that_opens_together() -> None:
    """Contacts under a node and bars that act one way in one frame."""
    frame = crossed("push")
    free = Frame(frame.nodes, frame.bars, [Support(0, True, True)])
    down = Loads([[[0, 0, 0], [0, 0, 0], [0, -900.0, 0], [200.0, 0, 0]]])
    found = solve_contact(free, down, [Contact(1, 0.0)])
    assert found.closed[0].tolist() == [True, False, True]
    assert found.forces[0, 0] == pytest.approx(900.0 + 200.0, rel=1e-9)  # moments about the held corner


# --- critical loads --------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("held", "K"),
    [(({"rz": False}, {}), 1.0), (({"rz": True}, {}), 0.699156), (({"rz": True}, {"rz": True}), 0.5)],
)  # fmt: skip
def test_euler_columns(held: Any, K: float) -> None:
    L, EI = 120.0, 3e8
    supports = [Support(0, True, True, **held[0]), Support(1, True, False, **held[1])]
    frame = Frame([[0, 0], [0, L]], [Bar(0, 1, 1e8, EI)], supports)
    assert critical_factor(frame, np.array([-1000.0])) == pytest.approx(math.pi**2 * EI / (K * L) ** 2 / 1000, rel=1e-3)


def test_a_column_on_a_turning_joint() -> None:
    """Cantilever on a spring: tan(kL) kL = c L/EI, solved apart."""
    from scipy.optimize import brentq

    L, EI, c = 100.0, 2e8, 4e6
    kL = brentq(lambda x: x * math.tan(x) - c * L / EI, 1e-6, math.pi / 2 - 1e-9)
    for joint in ({"turn_start": c}, {"turn_start": c, "stub_start": (0.0, 1e-9)}):
        frame = Frame([[0, 0], [0, L]], [Bar(0, 1, 1e9, EI, **joint)], [Support(0, True, True, True)])  # type: ignore[arg-type]
        assert critical_factor(frame, np.array([-1.0])) == pytest.approx(EI * (kL / L) ** 2, rel=1e-3)


def test_nothing_pushed_nothing_buckles_and_a_softer_joint_buckles_sooner() -> None:
    frame = Frame([[0, 0], [0, 100]], [Bar(0, 1, 1e8, 1e8)], [Support(0, True, True, True)])
    assert critical_factor(frame, np.array([500.0])) == math.inf and critical_factor(frame, np.array([0.0])) == math.inf
    soft = [Frame(frame.nodes, [Bar(0, 1, 1e8, 1e8, turn_start=k)], frame.supports) for k in (1e8, 1e7, 1e6)]
    factors = [critical_factor(each, np.array([-1.0])) for each in soft]
    assert factors == sorted(factors, reverse=True)


def test_the_critical_load_of_what_acts() -> None:
    frame = crossed("push")
    loads = Loads([[[0, 0, 0], [0, 0, 0], [0, -900.0, 0], [500.0, -900.0, 0]]])
    found = solve_contact(frame, loads)
    acting = acting_frame(frame, found.closed[0])
    assert acting.idle.tolist() == [False] * 4 + (~found.closed[0]).tolist()
    assert critical_factor(acting, found.solution.N[0, :, 0]) > 1.0
    with pytest.raises(ValueError, match="say first whether it acts"):
        critical_factor(frame, found.solution.N[0, :, 0])
    loose = Frame(frame.nodes, frame.bars[:4], frame.supports)
    with pytest.raises(Unstable, match="no critical load"):
        critical_factor(loose, np.array([-1.0] * 4))


# --- what is refused -------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("bar", "words"),
    [
        ({"slip_start": 0.0}, "bar 0: slip_start must be a stiffness greater than zero"),
        ({"turn_end": -3.0}, "bar 0: turn_end must be"),
        ({"release_start": True, "turn_start": 1e6}, "a hinge at its start has no stiffness against turning"),
        ({"stub_end": (math.nan, 0.0)}, "two finite lengths"),
        ({"acts": "both ways"}, "it must be 'both', 'push' or 'pull'"),
        ({"acts": "push"}, "must be hinged at both ends"),
        ({"acts": "push", "gap": -0.1, **PIN}, "gap must be a finite length"),
        ({"stub_end": (-100.0, 0.0)}, "in the same place"),
    ],
)
def test_joints_that_cannot_be(bar: dict[str, Any], words: str) -> None:
    with pytest.raises(ValueError, match=words):
        cantilever(**bar)


def test_a_bar_that_acts_one_way_is_not_solved_as_if_it_acted_both() -> None:
    frame = crossed("push")
    with pytest.raises(ValueError, match="bar 4 can only push: solve_contact"):
        solve(frame, Loads(np.zeros((1, 4, 3))))
    with pytest.raises(ValueError, match="stretch: the shape is"):
        solve(cantilever(), Loads(stretch=[0.1]))
    with pytest.raises(ValueError, match="there is none"):
        solve_contact(cantilever(), Loads(np.zeros((1, 2, 3))))
    assert issubclass(Unstable, BeamcheckError)
