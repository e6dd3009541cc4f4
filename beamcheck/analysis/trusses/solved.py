"""A frame of the job file through every combination and every way in which its feet and joints may hold.

Walls are neither rigid nor free, joints neither tight nor as soft as they may be: each is run at both ends, and nothing
is ever added up where members act one way only.
"""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from dataclasses import replace
from itertools import pairwise, product

import numpy as np

from ...errors import Unstable
from ...model.frames.frame import Frame as JobFrame
from ...model.frames.frame import FrameStick
from ...records import dataclass
from ...units import show
from ..beams.combinations import combine, matrix
from ..frames.contact import solve_contact
from ..frames.frame import Frame, Loads, Solution, solve
from ..frames.polynomial import evaluate, extremes
from ..frames.structure import Hold
from .both_ends import FREE, HELD
from .loading import loads_of, puts_of, with_stations
from .plan import Plan, Stick, Stiffness
from .record import EndForces, MemberForces, NodeForces, SolvedFrame

Array = np.ndarray
TIGHT, SOFT = "joints tight", "joints soft"
LEVEL = 0.01  # in
NOISE = 1e-9  # of the largest force of a column: rounding, no force


@dataclass(frozen=True)
class Sized:
    """A member with what the analysis needs of its wood."""

    member: FrameStick
    b: float
    d: float
    stiffness: Stiffness


@dataclass(frozen=True)
class _Run:
    words: str
    held: bool
    hold: Hold
    slip: float
    slides: str = ""


def solve_frame(
    job_frame: JobFrame, sized: Sequence[Sized], softest: float, plays: Mapping[str, float] | None = None,
    splices: Mapping[str, Sequence[float]] | None = None,
) -> SolvedFrame:  # fmt: skip
    """Solve a frame.

    `sized`: sequence of Sized: its members in the order of `job_frame.sticks`, with the loads that they carry.
    `softest`: stiffness of the softest joints along the members that slip [lbf/in]. `plays`: by member how much its
    joints let go before they bear, both ends together, inches. `splices`: by member where it is spliced, from its first
    point, inches: a splice holds no moment. Raises Unstable: the frame moves without resistance or comes apart; the
    text names the point and the run.
    """
    shape, members = job_frame.shape, [one.member for one in sized]
    firsts = {path.name: path.points[0] for path in shape.sticks}
    whole = Plan.of(shape)
    plan = with_stations(whole, members, firsts, splices)
    stiffness = {one.member.stick: one.stiffness for one in sized}
    puts = puts_of(members, job_frame.carries)
    cases = tuple(put.case for put in puts)
    combinations = combine(cases)
    factors = matrix(combinations)
    runs = list(_runs(job_frame, plan, softest))
    leans = False
    if not (plan.anchored or any(foot.slides for foot in job_frame.feet)):
        leans = not stands(plan, stiffness)
        runs = [run for run in runs if run.held or not leans]
    frames = [plan.frame(stiffness, run.slip, run.hold, run.slides) for run in runs]
    loads = loads_of(plan, frames[0], stiffness, puts, members, job_frame.carries, firsts)
    solved = [_solved(plan, frame, loads, factors, run.words) for frame, run in zip(frames, runs, strict=True)]
    columns = combinations
    if len(runs) > 1:
        columns = [replace(one, name=f"{one.name} ({run.words})") for run in runs for one in combinations]
    applied = np.tile(loads.combine(factors).full(frames[0])[0], (len(runs), 1, 1))
    n = len(combinations)
    by_case = None
    if all(by is not None for *_, by in solved):
        stacked = np.stack([by for *_, by in solved if by is not None])
        by_case = {foot: stacked[:, :, i] for i, foot in enumerate(plan.feet)}
    bars, points = plan.bars_of(), list(plan.points)
    kept = [points.index(point) for point in whole.points]
    play = np.repeat([_played(one.frame, one.N[0, :, 0], bars, plays or {})[kept] for one, *_ in solved], n, axis=0)
    read = [_read(one) for one, *_ in solved]
    idle = np.concatenate([one for _, one, _ in solved])
    both = {key: np.concatenate([each[key] for each in read]) for key in read[0]}
    _quieten(both)
    of = {one.member.stick: one for one in sized}
    return SolvedFrame(
        job_frame.name, whole.triangulated(leans), leans, tuple(columns), tuple(run.words for run in runs),
        np.repeat(np.arange(len(runs)), n), tuple(run.held for run in runs),
        {stick.name: _member(plan, whole, stick, bars[stick.name], both, idle, firsts) for stick in plan.sticks},
        _nodes(plan, whole, job_frame, of, bars, both, idle, applied, solved, firsts),
        np.concatenate([np.nan_to_num(one.displacements[:, kept, :2]) for one, *_ in solved]), cases, by_case,
        factors, tuple(one for one, *_ in solved), {name: tuple(numbers) for name, numbers in bars.items()}, play,
    )  # fmt: skip


def _runs(job_frame: JobFrame, plan: Plan, softest: float) -> list[_Run]:
    holds: list[tuple[str, bool, Hold, str]] = [("", True, True, "")] if plan.anchored else []
    if not plan.anchored:
        sliding = [foot.at for foot in job_frame.feet if foot.slides]
        pushed = any(force.wind_sideways for force in job_frame.carries)
        outer = [plan.feet[-1], plan.feet[0]] if pushed else [plan.feet[-1]]  # upright loads do not tell them apart
        for at in sliding[:1] or outer:
            holds.append((FREE if at == outer[0] else f"{FREE} at the {at}", False, False, at))
        if not sliding:
            holds.append((HELD, True, True, ""))
            stiff = [foot.wall_stiffness for foot in job_frame.feet if foot.wall_stiffness is not None]
            if stiff:
                holds.append((f"walls of {show(min(stiff), 'stiffness')}", True, min(stiff), ""))
    slips = [(TIGHT, np.inf), (SOFT, softest)] if any(stick.slips for stick in plan.sticks) else [("", np.inf)]
    return [
        _Run(", ".join(filter(None, (words, joints))), held, hold, slip, at)
        for (words, held, hold, at), (joints, slip) in product(holds, slips)
    ]


def stands(plan: Plan, stiffness: Mapping[str, Stiffness]) -> bool:
    """Whether it stands with one foot that slides, all its members acting."""
    frame = plan.frame(stiffness, np.inf, False)
    try:
        return (
            Frame(frame.nodes, [replace(bar, acts="both") for bar in frame.bars], frame.supports).stiffness is not None
        )
    except Unstable:
        return False


def _solved(
    plan: Plan, frame: Frame, loads: Loads, factors: Array, words: str
) -> tuple[Solution, Array, Array | None]:  # fmt: skip
    """The solution by combination, which bars are idle, upward reactions by case."""
    try:
        if any(bar.acts != "both" for bar in frame.bars):
            contact = solve_contact(frame, loads.combine(factors))
            idle = np.zeros((len(factors), len(frame.bars)), dtype=bool)
            idle[:, [i for i, bar in enumerate(frame.bars) if bar.acts != "both"]] = ~contact.closed
            return contact.solution, idle, _by_statics(plan, frame, loads)
        by_case = solve(frame, loads)
    except Unstable as error:
        where = f" ({words})" if words else ""
        raise Unstable(f"{_by_name(plan, str(error))}{where}") from None
    idle = np.zeros((len(factors), len(frame.bars)), dtype=bool)
    return by_case.combine(factors), idle, by_case.reactions[:, :, 1]


def _played(frame: Frame, N: Array, bars: Mapping[str, list[int]], plays: Mapping[str, float]) -> Array:
    """(points,) how far each comes down as joints take up their play, the way in which dead load pushes or pulls."""
    if not any(plays.values()) or any(bar.acts != "both" for bar in frame.bars):
        return np.zeros(frame.n_nodes)
    stretch = np.zeros((1, len(frame.bars)))
    for name, play in plays.items():
        stretch[0, bars[name][0]] = play * np.sign(N[bars[name][0]])
    return np.asarray(-np.nan_to_num(solve(frame, Loads(stretch=stretch)).displacements[0, :, 1]))


def _by_statics(plan: Plan, frame: Frame, loads: Loads) -> Array | None:
    """Upward reactions by case where they do not hang on which members act: two feet at one height."""
    if len(plan.feet) != 2 or abs(plan.points[plan.feet[0]][1] - plan.points[plan.feet[1]][1]) > LEVEL:
        return None
    acting = Frame(frame.nodes, [replace(bar, acts="both") for bar in frame.bars], frame.supports)
    return solve(acting, loads).reactions[:, :, 1]


def _by_name(plan: Plan, text: str) -> str:
    points = list(plan.points)
    return re.sub(r"node (\d+) at x = \S+, y = \S+", lambda found: f"the {points[int(found[1])]}", text)


def _read(solution: Solution) -> dict[str, Array]:
    """Of every bar the extremes and the values at its ends, (combinations, bars) each."""
    L = np.broadcast_to(solution.frame.length, solution.N.shape[:-1])
    found: dict[str, Array] = {}
    for name in ("N", "V", "M"):
        c = getattr(solution, name)
        low, _, high, _ = extremes(c, 0.0, L)
        found |= {f"{name}_low": low, f"{name}_high": high, f"{name}_0": c[..., 0], f"{name}_1": evaluate(c, L)}
    found["size"] = np.broadcast_to(solution.frame.size, L.shape[:-1])
    return found


def _quieten(both: dict[str, Array]) -> None:
    """Forces that are only rounding are none."""
    forces = np.max(np.abs(np.concatenate([both["N_low"], both["N_high"], both["V_low"], both["V_high"]], 1)), axis=1)
    for name in ("N", "V", "M"):
        least = NOISE * forces * (both["size"] if name == "M" else 1.0)
        for part in ("low", "high", "0", "1"):
            values = both[f"{name}_{part}"]
            both[f"{name}_{part}"] = np.where(np.abs(values) < least[:, None], 0.0, values)


def _member(
    plan: Plan, whole: Plan, stick: Stick, bars: Sequence[int], both: dict[str, Array], idle: Array,
    firsts: Mapping[str, str],
) -> MemberForces:  # fmt: skip
    """The extremes of a member, panel by panel."""
    own = [k for k, point in enumerate(stick.points) if point not in stick.stations]
    panels = [list(bars[a:b]) for a, b in pairwise(own)]
    at = [np.array(plan.points[stick.points[k]]) for k in own]

    def most(key: str, pick: object) -> Array:
        return np.stack([pick(both[key][:, panel], axis=1) for panel in panels], axis=-1)  # type: ignore[operator]

    V = np.maximum(most("V_high", np.max), -most("V_low", np.min))
    lengths = tuple(float(np.hypot(*(b - a))) for a, b in pairwise(at))
    return MemberForces(
        stick.name, lengths, most("N_low", np.min), most("N_high", np.max), V, most("M_low", np.min),
        most("M_high", np.max), np.all(idle[:, list(bars)], axis=1), stick.points[0] != firsts[stick.name],
    )  # fmt: skip


def _nodes(
    plan: Plan, whole: Plan, job_frame: JobFrame, of: Mapping[str, Sized], bars: Mapping[str, list[int]],
    both: dict[str, Array], idle: Array, applied: Array, solved: Sequence[tuple[Solution, Array, Array | None]],
    firsts: Mapping[str, str],
) -> dict[str, NodeForces]:  # fmt: skip
    points, n = list(plan.points), len(applied)
    reactions = np.concatenate([one.reactions for one, *_ in solved])
    on = {foot.at: foot.on for foot in job_frame.feet}
    found = {}
    for name in whole.points:
        ends = []
        for stick in plan.sticks:
            if name in stick.points:
                ends += _ends_at(plan, stick, name, of[stick.name], bars[stick.name], both, idle, firsts[stick.name])
        reaction = reactions[:, plan.feet.index(name), :2] if name in plan.feet else np.zeros((n, 2))
        found[name] = NodeForces(
            name, plan.points[name], tuple(ends), applied[:, points.index(name), :2], reaction, on.get(name, "")
        )
    return found


def _ends_at(
    plan: Plan, stick: Stick, point: str, of: Sized, bars: Sequence[int], both: dict[str, Array], idle: Array,
    first: str,
) -> list[EndForces]:  # fmt: skip
    """What a stick does to a point: from one side where it ends there, else from both."""
    k, last = stick.points.index(point), len(stick.points) - 1
    start = np.array(plan.points[stick.points[0]])
    axis = np.array(plan.points[stick.points[-1]]) - start
    length = float(np.hypot(*axis))
    axis = axis / length
    s = float(np.hypot(*(np.array(plan.points[point]) - start)))
    place = length - s if stick.points[0] != first else s
    found = []
    # bar end forces on the node: at its start the bar pulls along its axis with N and shears with V, at its end against
    for bar, sign, end in ((k, 1.0, "0"), (k - 1, -1.0, "1")):
        if not 0 <= bar < last:
            continue
        number = bars[bar]
        N, V, M = (both[f"{name}_{end}"][:, number] for name in ("N", "V", "M"))
        out = sign * axis
        # local y of the bar is to the left of its axis; on the node at its start acts -V there (V = dM/dx)
        found.append(
            EndForces(
                stick.name, of.member.name, of.member.stock, of.b, of.d, k in (0, last), place,
                (float(out[0]), float(out[1])), N, -V, sign * M, idle[:, number],
            )
        )  # fmt: skip
    return found
