"""Plane frames that are refused: mechanisms, wrong input, answers that cannot be trusted."""

import numpy as np
import pytest

from beamcheck.analysis.frames.frame import Bar, Frame, Loads, Support, bar_loads, solve
from beamcheck.errors import Unstable

L, EI, EA = 144.0, 1.1e9, 5.0e7
FIXED = Support(0, True, True, True)
PINNED = Support(0, True, True)


def one_force(n_nodes, node, fx=0.0, fy=0.0, m=0.0):
    loads = np.zeros((1, n_nodes, 3))
    loads[0, node] = fx, fy, m
    return Loads(loads)


@pytest.mark.parametrize(
    ("supports", "releases", "text"),
    [
        ([], {}, "can move"),
        ([PINNED], {}, "node 2 at x = 144, y = 0 can move up and down"),
        ([Support(0, uy=True), Support(2, uy=True)], {}, "node 0 at x = 0, y = 0 can move sideways"),
        ([PINNED, Support(2, uy=True)], {0: "release_end"}, "node 1 at x = 50, y = 0 can move up and down"),
        ([FIXED], {0: "release_end"}, "node 2 at x = 144, y = 0 can move up and down"),
        ([FIXED, Support(2, ux=True)], {0: "release_end"}, "node 2 at x = 144, y = 0 can move up and down"),
        ([Support(0, uy=True, rz=True), Support(2, ux=1e-12)], {}, "can move sideways"),
    ],
)
def test_mechanisms_are_named(supports, releases, text):
    bars = [Bar(i, i + 1, EA, EI, **({releases[i]: True} if i in releases else {})) for i in range(2)]
    with pytest.raises(
        Unstable, match=text + r".* without resistance: a support is missing, or there is a hinge too many"
    ):
        frame = Frame([[0, 0], [50, 0], [L, 0]], bars, supports)
        solve(frame, one_force(3, 1, fy=-1.0))


def test_what_shifts_is_named_rather_than_what_turns():
    frame = Frame([[0, 0], [0.5, 0]], [Bar(0, 1, EA, EI)], [PINNED])
    with pytest.raises(Unstable, match=r"node 1 at x = 0\.5, y = 0 can move up and down"):
        solve(frame, one_force(2, 1))


def test_mechanism_in_a_batch_says_which():
    """A beam on two rollers and a hinged post, which leans by nothing in one frame: parallel forces cannot hold it."""
    nodes = np.array([[[0, 0], [60, 0], [L, 0], [60 + lean, -50]] for lean in (20.0, 0.0)], dtype=float)
    bars = [Bar(0, 1, EA, EI), Bar(1, 2, EA, EI), Bar(3, 1, EA, EI, release_start=True, release_end=True)]
    supports = [Support(0, uy=True), Support(2, uy=True), Support(3, True, True)]
    solve(Frame(nodes[0], bars, supports), Loads(np.zeros((1, 4, 3))))
    with pytest.raises(Unstable, match=r"in frame \(1,\) of the batch can move sideways"):
        solve(Frame(nodes, bars, supports), Loads(np.zeros((1, 4, 3))))


def test_supports_too_close_to_be_trusted_are_refused_or_right():
    """Two supports ever closer: never a wrong answer (R = P L/gap - P, statics)."""
    refused = 0
    for gap in (1.0, 1e-2, 1e-4, 1e-6, 1e-8):
        frame = Frame([[0, 0], [gap, 0], [L, 0]], [Bar(0, 1, EA, EI), Bar(1, 2, EA, EI)], [PINNED, Support(1, uy=True)])
        try:
            solution = solve(frame, one_force(3, 2, fy=-10.0))
        except Unstable:
            refused += 1
        else:
            assert solution.reactions[0, 0, 1] == pytest.approx(10.0 - 10.0 * L / gap, rel=1e-6)
    assert refused < 4


def test_forces_that_do_not_balance_are_refused():
    """A roof pair held apart by next to nothing: the movements are so large that rounding unbalances the forces."""
    bars = [Bar(0, 1, EA, EI), Bar(1, 2, EA, EI, release_start=True)]
    supports = [PINNED, Support(2, 1e-5, True)]
    frame = Frame([[0, 0], [0.6 * L, 0.8 * L], [L, 0]], bars, supports)
    with pytest.raises(Unstable, match=r"the forces at node \d do not balance"):
        solve(frame, one_force(3, 1, fx=10.0, fy=-3.0, m=100.0))


@pytest.mark.parametrize(
    ("nodes", "bars", "supports", "text"),
    [
        ([[0, 0], [1, 0]], [Bar(0, 2, 1, 1)], [], "bar 0: end 2 is not a node; nodes run from 0 to 1"),
        ([[0, 0], [1, 0]], [Bar(-1, 1, 1, 1)], [], "bar 0: start -1 is not a node"),
        ([[0, 0], [1, 0]], [Bar(True, 1, 1, 1)], [], "bar 0: start True is not a node"),
        ([[0, 0], [1, 0]], [Bar(1, 1, 1, 1)], [], "bar 0: starts and ends at node 1"),
        ([[0, 0], [0, 0], [1, 1]], [Bar(0, 2, 1, 1), Bar(0, 1, 1, 1)], [], "bar 1: its nodes 0 and 1 are in"),
        ([[0, 0], [1, 0], [2, 0]], [Bar(0, 1, 1, 1)], [], "node 2: no bar reaches it"),
        ([[0, 0], [1, 0]], [Bar(0, 1, 1, 0)], [], r"bar 0: EI = 0\.0; it must be a number greater than zero"),
        ([[0, 0], [1, 0]], [Bar(0, 1, np.nan, 1)], [], "bar 0: EA = nan"),
        ([[0, 0], [1, 0]], [Bar(0, 1, np.inf, 1)], [], "bar 0: EA = inf"),
        ([[0, 0], [1, 0]], [Bar(0, 1, 1, 1, -2)], [], r"bar 0: GA_s = -2\.0"),
        ([[0, 0], [1, 0]], [], [], "a frame needs at least one bar"),
        ([[0, np.nan], [1, 0]], [Bar(0, 1, 1, 1)], [], "nodes: give finite x, y per node"),
        ([[0, 0, 0], [1, 0, 0]], [Bar(0, 1, 1, 1)], [], r"the shape is \(2, 3\)"),
        ([[0, 0], [1, 0]], [Bar(0, 1, 1, 1)], [Support(5)], "support 0: node 5 is not a node"),
        ([[0, 0], [1, 0]], [Bar(0, 1, 1, 1)], [FIXED, PINNED], "node 0: has more than one support"),
        ([[0, 0], [1, 0]], [Bar(0, 1, 1, 1)], [Support(0, uy=0.0)], r"support 0: a spring of 0\.0 is no spring"),
    ],
)  # fmt: skip
def test_wrong_frames_are_named(nodes, bars, supports, text):
    with pytest.raises(ValueError, match=text):
        Frame(nodes, bars, supports)


@pytest.mark.parametrize(
    ("loads", "text"),
    [
        (Loads(np.zeros((2, 3))), r"loads, nodal: the shape is \(2, 3\); it must be \(\.\.\., n_cases, 2, 3\)"),
        (Loads(bars=np.zeros((1, 2, 2, 2))), r"loads, bars: the shape is .* it must be \(\.\.\., n_cases, 1, 2, 2\)"),
        (Loads(np.full((1, 2, 3), np.nan)), "loads, nodal: holds a value that is not finite"),
        (Loads(settlement=[[[0, 0, 0.1]]]), "loads, settlement: support 0 does not hold rz, so it cannot move it"),
    ],
)
def test_wrong_loads_are_named(loads, text):
    with pytest.raises(ValueError, match=text):
        solve(Frame([[0, 0], [1, 0]], [Bar(0, 1, 1, 1)], [PINNED]), loads)


def test_wrong_combination_and_wrong_per_are_named():
    frame = Frame([[0, 0], [L, 0]], [Bar(0, 1, EA, EI)], [FIXED])
    solution = solve(frame, Loads(np.zeros((3, 2, 3))))
    with pytest.raises(ValueError, match=r"factors have the shape \(1, 2\); it must be \(n_combos, 3\)"):
        solution.combine([[1.0, 2.0]])
    with pytest.raises(ValueError, match="per = 'plan'; it must be 'length' or 'projection'"):
        bar_loads(frame, np.zeros((1, 1, 2, 2)), "plan")
