"""Plane frames: closed forms, statics, energy, superposition, batches. What is refused: test_frame_refused.py."""

import numpy as np
import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from beamcheck.analysis.frames.frame import Bar, Frame, Loads, Support, bar_loads, solve
from beamcheck.analysis.frames.polynomial import derivative, evaluate
from beamcheck.errors import Unstable

L, EI, EA, GA_s = 144.0, 1.1e9, 5.0e7, 3.0e6
FIXED = Support(0, True, True, True)
PINNED = Support(0, True, True)


def one_force(n_nodes, node, fx=0.0, fy=0.0, m=0.0):
    loads = np.zeros((1, n_nodes, 3))
    loads[0, node] = fx, fy, m
    return Loads(loads)


def uniform(frame, wx=0.0, wy=0.0, per="length"):
    return Loads(bars=bar_loads(frame, np.broadcast_to([wx, wy], (1, len(frame.bars), 2, 2)), per))


# --- closed forms and statics ---


def test_cantilever_with_shear():
    """Tip: P L^3/(3 EI) + P L/(G A_s); rotation P L^2/(2 EI) (elementary, derived)."""
    frame = Frame([[0, 0], [L, 0]], [Bar(0, 1, EA, EI, GA_s)], [FIXED])
    solution = solve(frame, one_force(2, 1, fx=700.0, fy=-900.0))
    assert solution.displacements[0, 1] == pytest.approx(
        [700 * L / EA, -900 * L**3 / (3 * EI) - 900 * L / GA_s, -900 * L**2 / (2 * EI)], rel=1e-12
    )
    assert solution.reactions[0, 0] == pytest.approx([-700, 900, 900 * L], rel=1e-12)


@pytest.mark.parametrize("angle", [0.0, 33.0, 90.0, 145.0, -120.0])
def test_an_inclined_bar_is_a_turned_bar(angle):
    """The same cantilever turned with its loads gives the same internal forces (invariance)."""
    c, s = np.cos(np.deg2rad(angle)), np.sin(np.deg2rad(angle))
    turn = np.array([[c, -s], [s, c]])
    bars = [Bar(0, 1, EA, EI, GA_s), Bar(1, 2, EA, 2 * EI)]
    level = np.array([[0.0, 0.0], [50.0, 0.0], [L, 0.0]])
    loads = np.zeros((1, 3, 3))
    loads[0, 1:] = [[200.0, -300.0, 40.0], [-60.0, 90.0, -500.0]]
    spread = np.array([[[[3.0, -7.0], [1.0, -2.0]], [[0.0, 4.0], [5.0, -6.0]]]])  # local: turns with the bar
    flat = solve(Frame(level, bars, [FIXED]), Loads(loads, spread))
    loads[0, :, :2] = loads[0, :, :2] @ turn.T
    turned = solve(Frame(level @ turn.T, bars, [FIXED]), Loads(loads, spread))
    for name in ("N", "V", "M", "u", "v"):
        assert getattr(turned, name) == pytest.approx(getattr(flat, name), rel=1e-9, abs=1e-9)
    assert turned.displacements[0, :, :2] == pytest.approx(flat.displacements[0, :, :2] @ turn.T, rel=1e-9, abs=1e-15)


def test_a_bar_that_folds_back_is_not_a_straight_one():
    """Cantilever out to 100 and back to 40: the root moment is P 40, not P 160 (statics)."""
    frame = Frame([[0, 0], [100, 0], [40, 0]], [Bar(0, 1, EA, EI), Bar(1, 2, EA, EI)], [FIXED])
    assert solve(frame, one_force(3, 2, fy=-10.0)).reactions[0, 0] == pytest.approx([0.0, 10.0, 400.0], abs=1e-9)


def test_three_hinged_rafters():
    """Thrust w l^2/(8 h) for w per length in plan on two rafters with a ridge hinge (statics, derived)."""
    half, h, w = 120.0, 80.0, 6.0
    frame = Frame(
        [[0, 0], [half, h], [2 * half, 0]],
        [Bar(0, 1, EA, EI, release_end=True), Bar(1, 2, EA, EI)],
        [PINNED, Support(2, True, True)],
    )
    solution = solve(frame, uniform(frame, wy=-w, per="projection"))
    thrust = w * (2 * half) ** 2 / (8 * h)
    assert solution.reactions[0, :, 0] == pytest.approx([thrust, -thrust], rel=1e-10)
    assert solution.reactions[0, :, 1] == pytest.approx([w * half] * 2, rel=1e-10)
    assert evaluate(solution.M[0, 0], frame.length[0]) == pytest.approx(0.0, abs=1e-6)
    # a rafter between two hinges bends like a simple beam over its plan length
    assert evaluate(solution.M[0, 0], frame.length[0] / 2) == pytest.approx(w * half**2 / 8, rel=1e-10)


def test_self_weight_on_a_slope_is_per_length_of_bar():
    frame = Frame([[0, 0], [120, 90]], [Bar(0, 1, EA, EI)], [PINNED, Support(1, uy=True)])
    assert solve(frame, uniform(frame, wy=-2.0)).reactions[0, :, 1].sum() == pytest.approx(2.0 * 150, rel=1e-12)
    assert solve(frame, uniform(frame, wy=-2.0, per="projection")).reactions[0, :, 1].sum() == pytest.approx(240)
    assert solve(frame, uniform(frame, wx=2.0, per="projection")).reactions[0, 0, 0] == pytest.approx(-180.0)


def test_king_post_truss_by_joints():
    """Rafter P/(2 sin a), tie P/(2 tan a) (method of joints, derived); all joints hinged, so no bar bends."""
    half, h, P = 96.0, 72.0, 1000.0
    hinged = {"release_start": True, "release_end": True}
    ends = [(0, 1), (1, 2), (0, 2), (2, 3), (1, 3)]
    frame = Frame(
        [[0, 0], [half, 0], [half, h], [2 * half, 0]],
        [Bar(a, b, EA, EI, GA_s, **hinged) for a, b in ends],
        [PINNED, Support(3, uy=True)],
    )
    solution = solve(frame, one_force(4, 2, fy=-P))
    sine = h / np.hypot(h, half)
    assert solution.N[0, :, 0] == pytest.approx(
        [P * half / (2 * h), 0.0, -P / (2 * sine), -P / (2 * sine), P * half / (2 * h)], rel=1e-10, abs=1e-9
    )
    assert np.abs(solution.M).max() == 0.0
    assert np.all(np.isnan(solution.displacements[0, :, 2]))
    with pytest.raises(
        Unstable, match="node 2 can turn without resistance under its moment: every bar there is hinged"
    ):
        solve(frame, one_force(4, 2, m=5.0))


def test_portal_with_pinned_feet_and_a_side_force():
    """Antisymmetric: column heads carry H h/2, feet lift and press with H h/l (statics, derived)."""
    h, span, H = 100.0, 160.0, 400.0
    frame = Frame(
        [[0, 0], [0, h], [span, h], [span, 0]],
        [Bar(0, 1, EA, EI), Bar(1, 2, EA, 3 * EI), Bar(2, 3, EA, EI)],
        [PINNED, Support(3, True, True)],
    )
    both = np.zeros((1, 4, 3))
    both[0, 1:3, 0] = H / 2
    solution = solve(frame, Loads(both))
    assert solution.reactions[0, :, 0] == pytest.approx([-H / 2, -H / 2], rel=1e-10)
    assert solution.reactions[0, :, 1] == pytest.approx([-H * h / span, H * h / span], rel=1e-10)
    assert abs(evaluate(solution.M[0, 0], h)) == pytest.approx(H * h / 2, rel=1e-10)


def test_fixed_portal_by_slope_deflection():
    """Side force on a fixed portal: M_foot = (H h/2)(3 k + 1)/(6 k + 1), k = I_beam h/(I_col l) (slope deflection,
    no change of length; how: memory, a standard portal formula). EA is made large here to come near it."""
    h, span, H = 100.0, 160.0, 400.0
    k = 3 * h / span
    columns = [Bar(0, 1, 1e12, EI), Bar(1, 2, 1e12, 3 * EI), Bar(2, 3, 1e12, EI)]
    frame = Frame([[0, 0], [0, h], [span, h], [span, 0]], columns, [FIXED, Support(3, True, True, True)])
    both = np.zeros((1, 4, 3))
    both[0, 1:3, 0] = H / 2
    expected = H * h / 2 * (3 * k + 1) / (6 * k + 1)
    assert solve(frame, Loads(both)).reactions[0, :, 2] == pytest.approx([expected] * 2, rel=1e-5)


@pytest.mark.parametrize(("start", "end"), [(False, False), (True, False), (False, True), (True, True)])
def test_settled_end_of_a_fixed_beam(start, end):
    """Fixed at both ends, one goes down by d: M = 6 EI d/L^2 at both, V = 12 EI d/L^3; with a hinge 3 EI d/L^2 at the
    other end; with two, nothing (elementary, derived)."""
    d = 0.4
    bar = Bar(0, 1, EA, EI, release_start=start, release_end=end)
    frame = Frame([[0, 0], [L, 0]], [bar], [FIXED, Support(1, True, True, True)])
    solution = solve(frame, Loads(settlement=[[[0, 0, 0], [0, -d, 0]]]))
    left = {(False, False): -6.0, (False, True): -3.0}.get((start, end), 0.0) * EI * d / L**2
    right = {(False, False): 6.0, (True, False): 3.0}.get((start, end), 0.0) * EI * d / L**2
    assert evaluate(solution.M[0, 0], 0.0) == pytest.approx(left, rel=1e-10, abs=1e-6)
    assert evaluate(solution.M[0, 0], L) == pytest.approx(right, rel=1e-10, abs=1e-6)
    assert evaluate(solution.v[0, 0], L) == pytest.approx(-d, rel=1e-12)


@pytest.mark.parametrize(("start", "end"), [(False, False), (True, False), (False, True), (True, True)])
def test_hinges_and_linear_load_with_shear(start, end):
    """A bar between fixed supports, in three sections, with a force at a cut: neither end that is not hinged turns
    (unit-load method with shear, integrated at Gauss points: another method)."""
    q0, q1, P, cut = -3.0, -9.0, -500.0, 60.0
    places = np.array([0.0, cut, 100.0, L])
    q = q0 + (q1 - q0) * places / L
    stiff = [EI, 2 * EI, 1.5 * EI]
    bars = [Bar(i, i + 1, EA, stiff[i], GA_s, start and i == 0, end and i == 2) for i in range(3)]
    frame = Frame(np.stack([places, 0 * places], axis=-1), bars, [FIXED, Support(3, True, True, True)])
    loads = np.zeros((1, 4, 3))
    loads[0, 1, 1] = P
    spread = np.zeros((1, 3, 2, 2))
    spread[0, :, 0, 1], spread[0, :, 1, 1] = q[:-1], q[1:]
    solution = solve(frame, Loads(loads, spread))
    points, weights = np.polynomial.legendre.leggauss(8)

    def work(m_unit, v_unit):
        total = 0.0
        for i in range(3):
            x = (points + 1) / 2 * frame.length[i]
            M, V = evaluate(solution.M[0, i], x), evaluate(solution.V[0, i], x)
            total += (weights * (M * m_unit(places[i] + x) / stiff[i] + V * v_unit / GA_s)).sum() * frame.length[i] / 2
        return total

    none = pytest.approx(0.0, abs=1e-10 * abs(P) * L**2 / EI)
    if not end:  # a unit couple at the right end of the bar on simple supports, then one at the left
        assert work(lambda x: x / L, 1 / L) == none
    if not start:
        assert work(lambda x: 1 - x / L, -1 / L) == none
    if start:
        assert evaluate(solution.M[0, 0], 0.0) == pytest.approx(0.0, abs=1e-6)
    if end:
        assert evaluate(solution.M[0, 2], frame.length[2]) == pytest.approx(0.0, abs=1e-6)
    assert solution.reactions[0, :, 1].sum() == pytest.approx(-P - (q0 + q1) / 2 * L, rel=1e-12)


def test_springs():
    """A load right over a spring sinks by P/k; a spring against turning turns by M/k (statics, derived)."""
    frame = Frame([[0, 0], [L, 0]], [Bar(0, 1, EA, EI)], [Support(0, 1e3, 2e4), Support(1, False, 5e4)])
    loads = np.zeros((1, 2, 3))
    loads[0, 0, 0], loads[0, 1, 1] = 30.0, -700.0
    solution = solve(frame, Loads(loads))
    assert solution.reactions[0] == pytest.approx(np.array([[-30.0, 0.0, 0.0], [0.0, 700.0, 0.0]]), abs=1e-9)
    assert solution.displacements[0, :, :2] == pytest.approx(np.array([[0.03, 0.0], [0.03, -700 / 5e4]]), abs=1e-12)
    turning = Frame([[0, 0], [L, 0]], [Bar(0, 1, EA, EI)], [Support(0, True, True, 4e6)])
    solution = solve(turning, one_force(2, 1, fy=-50.0))
    assert solution.displacements[0, 0, 2] == pytest.approx(-50 * L / 4e6, rel=1e-10)
    assert solution.reactions[0, 0, 2] == pytest.approx(50 * L, rel=1e-10)


def test_settlement_under_a_spring():
    """Middle spring of a two-span beam, its footing down by d: R = -d/(1/k + l^3/(48 EI)) (force method, derived)."""
    k, d = 2e4, 0.3
    frame = Frame(
        [[0, 0], [L / 2, 0], [L, 0]],
        [Bar(0, 1, EA, EI), Bar(1, 2, EA, EI)],
        [PINNED, Support(1, uy=k), Support(2, uy=True)],
    )
    solution = solve(frame, Loads(settlement=[[[0, 0, 0], [0, -d, 0], [0, 0, 0]]]))
    assert solution.reactions[0, 1, 1] == pytest.approx(-d / (1 / k + L**3 / (48 * EI)), rel=1e-10)


# --- properties of any frame ---


def random_frame(seed):
    """A path of bars with a few extra ones, springs and hinges; may be a mechanism."""
    rng = np.random.default_rng(seed)
    n = int(rng.integers(3, 7))
    nodes = np.cumsum(rng.uniform(-40, 80, (n, 2)), axis=0)
    if rng.random() < 0.5:
        nodes[1:3] = nodes[0] + np.array([[30.0], [70.0]]) * [0.8, 0.6]  # a straight stretch: a chain of two bars
    ends = [(i, i + 1) for i in range(n - 1)]
    if rng.random() < 0.6:
        ends.append((0, n - 1))
    bars = [
        Bar(
            a, b, rng.uniform(1e6, 9e6), rng.uniform(1e8, 9e8), rng.choice([np.inf, rng.uniform(1e5, 9e5)]),
            bool(rng.random() < 0.15), bool(rng.random() < 0.15),
        )
        for a, b in ends
    ]  # fmt: skip
    supports = [Support(0, True, True, bool(rng.random() < 0.5)), Support(n - 1, rng.uniform(1e3, 1e5), True)]
    frame = Frame(nodes, bars, supports)
    nodal = rng.uniform(-500, 500, (3, n, 3))
    nodal[..., 2] *= 20.0
    nodal[:, frame.loose_joints, 2] = 0.0
    spread = rng.uniform(-9, 9, (3, len(bars), 2, 2))
    settlement = np.zeros((3, 2, 3))
    settlement[2, :, :2] = rng.uniform(-0.5, 0.5, (2, 2))
    return frame, Loads(nodal, spread, settlement)


def solved(seed):
    frame, loads = random_frame(seed)
    try:
        return frame, loads, solve(frame, loads)
    except Unstable:
        assume(False)


seeds = st.integers(0, 10**6)
quick = settings(max_examples=40, deadline=None)


@quick
@given(seeds)
def test_reactions_balance_all_loads(seed):
    frame, loads, solution = solved(seed)
    nodal, spread, _ = loads.full(frame)
    h = frame.length[:, None]
    total = spread.mean(axis=-2) * h
    arm = (spread[..., 0, :] + 2 * spread[..., 1, :]) / 6 * h**2
    c, s = frame.cos, frame.sin
    fx, fy = c * total[..., 0] - s * total[..., 1], s * total[..., 0] + c * total[..., 1]
    x, y = frame.nodes[frame.start].T
    forces = nodal.copy()
    forces[:, frame.support_node] += solution.reactions
    size = np.abs(solution.V).max() + np.abs(solution.N).max()
    assert forces[..., 0].sum(-1) + fx.sum(-1) == pytest.approx(np.zeros(3), abs=1e-7 * size)
    assert forces[..., 1].sum(-1) + fy.sum(-1) == pytest.approx(np.zeros(3), abs=1e-7 * size)
    X, Y = frame.nodes.T
    turning = (forces[..., 2] + X * forces[..., 1] - Y * forces[..., 0]).sum(-1) + (x * fy - y * fx + arm[..., 1]).sum(
        -1
    )
    assert turning == pytest.approx(np.zeros(3), abs=1e-7 * size * 500)


@quick
@given(seeds)
def test_the_differential_equations_hold_in_the_coefficients(seed):
    """M' = V, V' = q, N' = -p, EI (v' + V/GA)' = M, EA u' = N."""
    frame, loads, solution = solved(seed)
    spread = loads.full(frame)[1]
    assert derivative(solution.M) == pytest.approx(solution.V, rel=1e-12)
    rise = (spread[..., 1, :] - spread[..., 0, :]) / frame.length[:, None]
    assert derivative(solution.V) == pytest.approx(np.stack([spread[..., 0, 1], rise[..., 1]], -1), rel=1e-9)
    assert -derivative(solution.N) == pytest.approx(np.stack([spread[..., 0, 0], rise[..., 0]], -1), rel=1e-9)
    theta = derivative(solution.v)
    theta[..., :3] += solution.V / frame.GA_s[:, None]
    size = np.abs(solution.M).max()
    assert frame.EI[:, None] * derivative(theta) == pytest.approx(solution.M, rel=1e-7, abs=1e-7 * size)
    assert frame.EA[:, None] * derivative(solution.u) == pytest.approx(solution.N, rel=1e-7, abs=1e-7 * size)


@quick
@given(seeds)
def test_bars_stay_together_at_the_nodes(seed):
    """Ends of bars lie where their nodes are, and turn with them unless there is a hinge."""
    frame, _, solution = solved(seed)
    size = 1e-8 * np.nanmax(np.abs(solution.displacements)) + 1e-12
    slope = derivative(solution.v)
    slope[..., :3] += solution.V / frame.GA_s[:, None]
    for nodes, x, hinge in (
        (frame.start, 0 * frame.length, [bar.release_start for bar in frame.bars]),
        (frame.end, frame.length, [bar.release_end for bar in frame.bars]),
    ):
        u, v = evaluate(solution.u, x), evaluate(solution.v, x)
        at = solution.displacements[:, nodes]
        assert frame.cos * u - frame.sin * v == pytest.approx(at[..., 0], abs=size)
        assert frame.sin * u + frame.cos * v == pytest.approx(at[..., 1], abs=size)
        stiff = ~np.array(hinge)
        assert evaluate(slope, x)[:, stiff] == pytest.approx(at[:, stiff, 2], abs=size)
        assert evaluate(solution.M, x)[:, ~stiff] == pytest.approx(0.0, abs=1e-8 * np.abs(solution.M).max())


@quick
@given(seeds)
def test_reciprocal_theorem(seed):
    """E. Betti 1872: the loads of one case do the same work on the movements of another as the other way round."""
    frame, loads, solution = solved(seed)
    nodal, spread, _ = loads.full(frame)
    points, weights = np.polynomial.legendre.leggauss(6)
    t = (points + 1) / 2

    def work(load, moved):
        total = np.nansum(nodal[load] * solution.displacements[moved])
        for i, h in enumerate(frame.length):
            q = spread[load, i, 0, :, None] * (1 - t) + spread[load, i, 1, :, None] * t
            u, v = evaluate(solution.u[moved, i], t * h), evaluate(solution.v[moved, i], t * h)
            total += (weights * (q[0] * u + q[1] * v)).sum() * h / 2
        return total

    assert work(0, 1) == pytest.approx(work(1, 0), rel=1e-7, abs=1e-7 * (abs(work(0, 0)) + abs(work(1, 1))))
    assert work(0, 0) > 0.0


@quick
@given(seeds, st.lists(st.floats(-2, 2), min_size=3, max_size=3))
def test_superposition_of_solutions_is_the_solution_of_the_sum(seed, factors):
    """Settlements belong to their case and are scaled with it."""
    frame, loads, solution = solved(seed)
    C = np.array([factors, [1.0, 1.0, 1.0]])
    combined, direct = solution.combine(C), solve(frame, loads.combine(C))
    assert combined.lead == (2,)
    for name in ("displacements", "reactions", "N", "V", "M", "u", "v"):
        size = np.nanmax(np.abs(getattr(solution, name)))
        assert getattr(combined, name) == pytest.approx(getattr(direct, name), abs=1e-7 * size, nan_ok=True)


@quick
@given(seeds)
def test_a_batch_is_its_frames_one_at_a_time(seed):
    frame, loads, _ = solved(seed)
    factor = np.array([1.0, 0.5, 3.0])
    many = Frame(
        frame.nodes * factor[:, None, None],
        [Bar(b.start, b.end, b.EA * factor, b.EI / factor, b.GA_s, b.release_start, b.release_end) for b in frame.bars],
        frame.supports,
    )
    together = solve(many, loads)
    assert together.lead == (3, 3)
    for i, f in enumerate(factor):
        bars = [Bar(b.start, b.end, b.EA * f, b.EI / f, b.GA_s, b.release_start, b.release_end) for b in frame.bars]
        alone = solve(Frame(frame.nodes * f, bars, frame.supports), loads)
        for name in ("displacements", "reactions", "N", "V", "M", "u", "v"):
            want = getattr(alone, name)
            size = np.nanmax(np.abs(want))
            assert getattr(together, name)[i] == pytest.approx(want, rel=1e-7, abs=1e-9 * size, nan_ok=True)


@quick
@given(st.floats(1e-7, 50.0), st.floats(1.0, 140.0))
def test_cuts_close_together_cost_no_digits(gap, s):
    """Cutting a bar where nothing happens changes nothing, however short the piece."""
    assume(s + gap < L - 1e-3)
    spring = Support(1, uy=3e4)
    whole = Frame([[0, 0], [L, 0]], [Bar(0, 1, EA, EI, GA_s)], [FIXED, spring])
    cut = Frame(
        [[0, 0], [L, 0], [s, 0], [s + gap, 0]],
        [Bar(0, 2, EA, EI, GA_s), Bar(2, 3, EA, EI, GA_s), Bar(3, 1, EA, EI, GA_s)],
        [FIXED, spring],
    )
    a, b = solve(whole, uniform(whole, wy=-5.0)), solve(cut, uniform(cut, wy=-5.0))
    assert b.reactions == pytest.approx(a.reactions, rel=1e-12)
    assert b.displacements[0, 1] == pytest.approx(a.displacements[0, 1], rel=1e-11)
    assert b.displacements[0, 2, 1] == pytest.approx(evaluate(a.v[0, 0], s), rel=1e-9, abs=1e-12)
    turn = derivative(a.v[0, 0])
    turn[:3] += a.V[0, 0] / GA_s
    at_cuts = evaluate(turn, np.array([s, s + gap]))
    assert b.displacements[0, 2:, 2] == pytest.approx(at_cuts, rel=1e-9, abs=1e-12)


def test_loads_given_once_belong_to_every_case_when_combined():
    """Self weight without cases of its own next to two cases of forces: each factor brings it along."""
    frame = Frame([[0, 0], [L, 0]], [Bar(0, 1, EA, EI)], [FIXED])
    forces = np.zeros((2, 2, 3))
    forces[:, 1, 1] = -100.0, -300.0
    loads = Loads(forces, uniform(frame, wy=-2.0).bars)
    combined = solve(frame, loads.combine([[1.0, 0.5]]))
    assert combined.reactions[0, 0, 1] == pytest.approx(100 + 150 + 1.5 * 2.0 * L)
    assert combined.reactions[0] == pytest.approx(solve(frame, loads).combine([[1.0, 0.5]]).reactions[0])
