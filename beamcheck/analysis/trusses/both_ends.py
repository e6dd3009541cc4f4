"""Both ends of what is not known of a frame: feet free and held, joints tight and soft. The worst of each is kept.

Walls are neither rigid nor free: a collar pulls with free feet and pushes with held ones. Neither run is the truth;
what passes only in one of them does not pass.
"""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from itertools import product

import numpy as np

from ...errors import BeamcheckError, Unstable
from ...records import dataclass
from ..frames.buckling import acting_frame, critical_factor
from ..frames.contact import solve_contact
from ..frames.frame import Solution, solve
from ..frames.member_line import Line
from ..frames.structure import Hold
from .plan import Plan, Stiffness

NOISE = 1e-9  # of the largest force in the frame: rounding, no force
FREE, HELD = "feet free", "feet held"


@dataclass(frozen=True)
class Worst:
    """Smallest and largest value over the runs, and in which run each was; what is only rounding is zero."""

    low: float
    low_run: str
    high: float
    high_run: str

    @property
    def size(self) -> float:
        """The largest, whichever its sign."""
        return max(abs(self.low), abs(self.high))

    @property
    def size_run(self) -> str:
        """The run in which it was."""
        return self.low_run if abs(self.low) > abs(self.high) else self.high_run


@dataclass(frozen=True)
class StickForces:
    """Of one stick: N lbf (tension positive), M lbf in (sagging positive), V lbf; in which runs it does not act."""

    name: str
    N: Worst
    M: Worst
    V: Worst
    idle_in: tuple[str, ...]

    @property
    def changes_sign(self) -> bool:
        """Whether it pushes in one run and pulls in another (or along itself)."""
        return self.N.low < 0.0 < self.N.high


@dataclass(frozen=True)
class FrameForces:
    """What all the runs say: sticks, thrust at the feet, drops of points, factor at which it buckles in its plane.

    `thrust` is the level force of the supports on the frame, inward from the left and right positive; `spread` by how
    much the feet part; `up` the upright reactions by foot; `buckling` the least factor of the runs.
    """

    sticks: tuple[StickForces, ...]
    thrust: Worst
    spread: Worst
    up: Mapping[str, Worst]
    drops: Mapping[str, Worst]
    buckling: tuple[float, str]
    runs: tuple[str, ...]


@dataclass(frozen=True)
class _Run:
    name: str
    solution: Solution
    idle: frozenset[int]
    factor: float


def frame_forces(
    plan: Plan, stiffness: Mapping[str, Stiffness], *, on_plan: Mapping[str, float],
    at_points: Mapping[str, tuple[float, float]], holds: Sequence[tuple[str, Hold]], slips: Sequence[float],
) -> FrameForces:  # fmt: skip
    """One combination of loads through every way of holding the feet and every stiffness of the joints.

    `holds`: sequence of (words, hold): as `Plan.frame` takes it; one for a frame whose feet are anchored. `slips`:
    stiffness of the joints that give, lbf/in; inf is tight. Raises Unstable: the frame moves without resistance, or
    comes apart with the sticks that act one way only; the text names the point and the run.
    """
    runs = []
    for (words, hold), slip in product(holds, slips):
        name = words if len(slips) == 1 else f"{words}, joints {'tight' if np.isinf(slip) else 'soft'}"
        runs.append(_run(plan, stiffness, on_plan, at_points, name, slip, hold))
    bars, sticks = plan.bars_of(), []
    size = float(runs[0].solution.frame.size)
    noise = NOISE * max(float(np.max(np.abs([run.solution.N[..., 0], run.solution.V[..., 0]]))) for run in runs)
    for stick in plan.sticks:
        numbers = bars[stick.name]
        values = {what: [_extremes(run.solution, numbers, what) for run in runs] for what in ("N", "M", "V")}
        idle = tuple(run.name for run in runs if set(numbers) <= run.idle)
        N, M, V = (
            _worst(runs, [tuple(0.0 if abs(one) < noise * unit else one for one in each) for each in values[what]])
            for what, unit in (("N", 1.0), ("M", size), ("V", 1.0))
        )
        sticks.append(StickForces(stick.name, N, M, V, idle))
    first, last = (plan.node(foot) for foot in (plan.feet[0], plan.feet[-1]))
    thrust = [(float(np.min(each)), float(np.max(each))) for each in (_inward(plan, run.solution) for run in runs)]
    moved = [run.solution.displacements[0] for run in runs]
    spread = [(float(d[last, 0] - d[first, 0]),) * 2 for d in moved]
    up = {
        foot: _worst(runs, [(float(run.solution.reactions[0, i, 1]),) * 2 for run in runs])
        for i, foot in enumerate(plan.feet)
    }
    drops = {point: _worst(runs, [(float(-d[i, 1]),) * 2 for d in moved]) for i, point in enumerate(plan.points)}
    factor, which = min((run.factor, run.name) for run in runs)
    return FrameForces(
        tuple(sticks), _worst(runs, thrust), _worst(runs, spread), up, drops, (factor, which),
        tuple(run.name for run in runs),
    )  # fmt: skip


def _run(
    plan: Plan, stiffness: Mapping[str, Stiffness], on_plan: Mapping[str, float],
    at_points: Mapping[str, tuple[float, float]], name: str, slip: float, hold: Hold,
) -> _Run:  # fmt: skip
    frame = plan.frame(stiffness, slip, hold)
    loads = plan.loads(frame, stiffness, on_plan, at_points)
    try:
        if any(bar.acts != "both" for bar in frame.bars):
            contact = solve_contact(frame, loads)
            solution, acting = contact.solution, acting_frame(frame, contact.closed[0])
        else:
            solution, acting = solve(frame, loads), frame
        ends = solution.N[0, :, 0], solution.N[0, :, 0] + _gain(solution)
        factor = critical_factor(acting, np.minimum(*ends))
    except Unstable as error:
        raise Unstable(f"{_by_name(plan, str(error))} ({name})") from None
    idle = frozenset(int(i) for i in np.flatnonzero(acting.idle))
    return _Run(name, solution, idle, factor)


def _gain(solution: Solution) -> np.ndarray:
    """By how much N changes along each bar."""
    L, N = solution.frame.length, solution.N[0]
    return np.asarray(N[:, 1] * L + N[:, 2] * L**2)


def _by_name(plan: Plan, text: str) -> str:
    points = list(plan.points)
    return re.sub(r"node (\d+) at x = \S+, y = \S+", lambda found: f"the {points[int(found[1])]}", text)


def _extremes(solution: Solution, bars: Sequence[int], what: str) -> tuple[float, float]:
    low, _, high, _ = Line(solution, bars).extremes(what)  # type: ignore[arg-type]
    return float(np.min(low)), float(np.max(high))


def _inward(plan: Plan, solution: Solution) -> np.ndarray:
    """Level forces of the supports on the frame at the outer feet, toward each other."""
    x = [plan.points[foot][0] for foot in plan.feet]
    middle = (min(x) + max(x)) / 2
    R = solution.reactions[0, :, 0]
    return np.array([R[i] if x[i] <= middle else -R[i] for i in range(len(x))])


def _worst(runs: Sequence[_Run], values: Sequence[tuple[float, ...]]) -> Worst:
    if not values:
        raise BeamcheckError("no run of the frame was asked for")
    low = min(range(len(values)), key=lambda i: values[i][0])
    high = max(range(len(values)), key=lambda i: values[i][1])
    return Worst(values[low][0], runs[low].name, values[high][1], runs[high].name)
