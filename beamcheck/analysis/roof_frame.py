"""A pair of rafters, or a rafter against a ridge beam, as a plane frame: with a tie low, raised or missing."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property
from itertools import pairwise

import numpy as np

from ..model.pieces import Load, Rafter, Tie
from .carried import KIND_OF_FIELD
from .combinations import Loaded, combine, matrix
from .frame import Bar, Frame, Loads, Solution, Support, bar_loads, solve
from .line import Line
from .loading import Case

Array = np.ndarray
BOTH, ONE = "", "one side"
SIDED = ("L", "Lr", "S")


@dataclass(frozen=True)
class Stiff:
    """Stiffness and weight of one stick: EA [lbf], EI [lbf in2], GA_s [lbf], weight along it [lbf/in]."""

    EA: float
    EI: float
    GA_s: float
    w: float


@dataclass(frozen=True, eq=False)
class RoofRun:
    """The solved frame. Lines run from the wall up the left rafter, and along the tie from left to right."""

    rafter: Rafter
    cases: tuple[Case, ...]
    combinations: tuple[Loaded, ...]
    solution: Solution
    left_bars: tuple[int, ...]
    tie_bars: tuple[int, ...]
    left_support: int
    far_support: int
    tail: float  # from the lower end to the wall, up the slope

    @cached_property
    def factors(self) -> Array:
        return matrix(self.combinations)

    @cached_property
    def combined(self) -> Solution:
        return self.solution.combine(self.factors)

    @cached_property
    def C_D(self) -> Array:
        return np.array([combination.C_D for combination in self.combinations])

    def rafter_line(self) -> Line:
        return Line(self.combined, self.left_bars)

    def tie_line(self) -> Line:
        return Line(self.combined, self.tie_bars)

    def wall_reactions(self) -> Array:
        """(combinations, 2): outward thrust on the wall and upward support, lbf."""
        forces = self.combined.reactions[..., self.left_support, :]
        return np.stack([forces[..., 0], forces[..., 1]], axis=-1)

    def by_kind(self, far: bool) -> dict[str, tuple[float, float]]:
        """Largest and least upward reaction by kind, unfactored, at the wall (or at the far support), lbf."""
        index = self.far_support if far else self.left_support
        found: dict[str, tuple[float, float]] = {}
        for case, force in zip(self.cases, self.solution.reactions[..., index, 1], strict=True):
            start = (-math.inf, math.inf) if case.kind == "D" else (0.0, 0.0)
            high, low = found.get(case.kind, start)
            found[case.kind] = (max(high, float(force)), min(low, float(force)))
        return found


def solve_roof(rafter: Rafter, tie: Tie | None, stiff: Stiff, tie_stiff: Stiff | None) -> RoofRun:
    """Solve a rafter (ridge beam) or a pair of rafters (ridge board) for all load cases.

    With a tie one wall lets go sideways, so that the tie takes the whole thrust; without one both walls hold.

    Raises
    ------
    Unstable
        If the frame can move.
    """
    run, angle = rafter.run, math.radians(rafter.slope)
    tail = rafter.wall.at
    rise = run * math.tan(angle)
    left: list[tuple[float, float]] = [(0.0, 0.0)]
    if tail > 0:
        left.insert(0, (-tail * math.cos(angle), -tail * math.sin(angle)))
    height = tie.height if tie is not None else 0.0
    raised = tie is not None and 0.0 < height < rise
    if raised:
        left.append((height / math.tan(angle), height))
    places = _places(rafter, tail, angle)
    nodes = _merged([*left, (run, rise), *places])
    wall, top = nodes.index(_close(nodes, (0.0, 0.0))), len(nodes) - 1
    pair = rafter.ridge == "board"
    if pair:
        nodes += [(2 * run - x, y) for x, y in reversed(nodes[:-1])]
    n_roof = len(nodes)
    bars = [Bar(i, i + 1, stiff.EA, stiff.EI, stiff.GA_s, release_end=pair and i + 1 == top) for i in range(n_roof - 1)]
    tied = tie if pair else None
    if tied is not None and tie_stiff is not None:
        at = nodes.index(_close(nodes, (height / math.tan(angle), height)))
        chain = [at, *_add_tie_nodes(nodes, tied, nodes[at]), n_roof - 1 - at]
        last = len(chain) - 2
        bars += [
            Bar(a, b, tie_stiff.EA, tie_stiff.EI, tie_stiff.GA_s, release_start=i == 0, release_end=i == last)
            for i, (a, b) in enumerate(pairwise(chain))
        ]
    supports = [Support(wall, ux=True, uy=True)]
    supports.append(Support(n_roof - 1 - wall, ux=tied is None, uy=True) if pair else Support(top, uy=True))
    frame = Frame(np.array(nodes), bars, supports)
    shape = _Shape(frame, top, n_roof, pair, angle, tail)
    cases = _cases(rafter, tied, pair)
    solution = solve(frame, _loads(shape, cases, rafter, tied, stiff, tie_stiff))
    return RoofRun(
        rafter, tuple(cases), tuple(combine(cases)), solution, tuple(range(top)), tuple(range(n_roof - 1, len(bars))),
        0, 1, tail,
    )  # fmt: skip


@dataclass(frozen=True, eq=False)
class _Shape:
    """The frame and how its bars are numbered: rafters first, from left to right, then the tie."""

    frame: Frame
    top: int  # node of the ridge; also the number of bars of the left rafter
    n_roof: int  # nodes of the rafters
    pair: bool
    angle: float
    tail: float

    @property
    def n_rafters(self) -> int:
        return self.n_roof - 1

    def s_of(self, node: int) -> float:
        """Distance up the slope of a node, from the lower end of its rafter."""
        k = node if node <= self.top else self.n_roof - 1 - node
        return (float(self.frame.nodes[k][0]) - float(self.frame.nodes[0][0])) / math.cos(self.angle)


def _add_tie_nodes(nodes: list[tuple[float, float]], tie: Tie, start: tuple[float, float]) -> list[int]:
    """Nodes along the tie where its loads begin, end or stand."""
    left, right = min(x for x, _ in nodes), max(x for x, _ in nodes)
    length = left + right - 2.0 * start[0]
    wanted = sorted({s for load in tie.carries for s in (load.at, load.start, load.end) if s is not None})
    found = []
    for s in wanted:
        if 1e-6 * length < s < (1 - 1e-6) * length:
            found.append(len(nodes))
            nodes.append((start[0] + s, start[1]))
    return found


def _places(rafter: Rafter, tail: float, angle: float) -> list[tuple[float, float]]:
    """Where loads begin, end or stand: the bars are cut there."""
    found = set()
    for load in rafter.carries:
        found.update(s for s in (load.at, load.start, load.end) if s is not None)
    return [((s - tail) * math.cos(angle), (s - tail) * math.sin(angle)) for s in found]


def _merged(points: Sequence[tuple[float, float]]) -> list[tuple[float, float]]:
    ordered = sorted(points)
    kept = [ordered[0]]
    for point in ordered[1:]:
        if point[0] - kept[-1][0] > 1e-6 * (ordered[-1][0] - ordered[0][0]):
            kept.append(point)
    return kept


def _close(nodes: Sequence[tuple[float, float]], wanted: tuple[float, float]) -> tuple[float, float]:
    return min(nodes, key=lambda node: math.hypot(node[0] - wanted[0], node[1] - wanted[1]))


def _cases(rafter: Rafter, tie: Tie | None, pair: bool) -> list[Case]:
    """Dead; each variable kind on both sides and on one side; wind down and up, likewise."""
    entries = [*rafter.carries, *(tie.carries if tie is not None else ())]
    kinds = {kind: [value for load in entries if (amount := getattr(load, field)) is not None for value in (amount[0],)]
             for field, kind in KIND_OF_FIELD.items()}  # fmt: skip
    found = [Case("D", "", ("self weight",))]  # type: ignore[arg-type]
    sides = (BOTH, ONE) if pair else (BOTH,)
    for kind in SIDED:
        if kinds[kind]:
            found += [Case(kind, side, (kind,), side) for side in sides]  # type: ignore[arg-type]
    for name, some in (("wind down", any(v > 0 for v in kinds["W"])), ("wind up", any(v < 0 for v in kinds["W"]))):
        if some:
            found += [Case("W", f"{name}, {side}" if side else name, ("W",)) for side in sides]  # type: ignore[arg-type]
    return found


def _loads(
    shape: _Shape, cases: Sequence[Case], rafter: Rafter, tie: Tie | None, stiff: Stiff, tie_stiff: Stiff | None
) -> Loads:
    frame, n_rafters = shape.frame, shape.n_rafters
    bars = np.zeros((len(cases), len(frame.bars), 2, 2))
    nodal = np.zeros((len(cases), frame.n_nodes, 3))
    own = np.zeros_like(bars)
    own[0, :n_rafters, :, 1] = -stiff.w
    if tie_stiff is not None:
        own[0, n_rafters:, :, 1] = -tie_stiff.w
    bars += bar_loads(frame, own)
    fields = {kind: field for field, kind in KIND_OF_FIELD.items()}
    for c, case in enumerate(cases):
        for load in rafter.carries:
            amount = getattr(load, fields[case.kind])
            if amount is not None and _blows(case, amount[0]):
                _on_rafters(shape, bars[c], nodal[c], load, amount, case, rafter)
        for load in tie.carries if tie is not None else ():
            amount = getattr(load, fields[case.kind])
            if amount is not None and _blows(case, amount[0]):
                _on_tie(shape, bars[c], nodal[c], load, amount, rafter)
    return Loads(nodal, bars)


def _blows(case: Case, value: float) -> bool:
    if case.kind != "W":
        return True
    return value > 0 if case.pattern.startswith("wind down") else value < 0


def _on_rafters(
    shape: _Shape, bars: Array, nodal: Array, load: Load, amount: tuple[float, str], case: Case, rafter: Rafter
) -> None:
    value, sort = amount
    one_side = ONE in case.pattern
    if sort == "point":
        s = load.at or 0.0
        node = min(range(shape.top + 1), key=lambda k: abs(shape.s_of(k) - s))
        nodal[node, 1] -= value
        if shape.pair and not one_side and node != shape.top:
            nodal[shape.n_roof - 1 - node, 1] -= value
        return
    w = value * (load.width or rafter.spacing) if sort == "area" else value
    start, end = load.start or 0.0, load.end if load.end is not None else math.inf
    down = np.zeros((1, len(shape.frame.bars), 2, 2))
    for bar in range(shape.n_rafters):
        if one_side and bar >= shape.top:
            continue
        middle = 0.5 * (shape.s_of(bar) + shape.s_of(bar + 1))
        if start <= middle <= end:
            if case.kind == "W":
                bars[bar, :, 1] -= w  # square to the slope: local y points outwards on both sides
            else:
                down[0, bar, :, 1] -= w
    # on plan, unless a dead load is measured along the slope (or nothing is said: the heavier reading)
    along = case.kind == "D" and load.measured != "plan"
    bars += bar_loads(shape.frame, down, "length" if along else "projection")[0]


def _on_tie(shape: _Shape, bars: Array, nodal: Array, load: Load, amount: tuple[float, str], rafter: Rafter) -> None:
    value, sort = amount
    ties = range(shape.n_rafters, len(shape.frame.bars))
    origin = float(shape.frame.nodes[shape.frame.bars[ties[0]].start][0])
    if sort == "point":
        ends = {shape.frame.bars[bar].start for bar in ties} | {shape.frame.bars[ties[-1]].end}
        node = min(ends, key=lambda k: abs(float(shape.frame.nodes[k][0]) - origin - (load.at or 0.0)))
        nodal[node, 1] -= value
        return
    w = value * (load.width or rafter.spacing) if sort == "area" else value
    start, end = load.start or 0.0, load.end if load.end is not None else math.inf
    down = np.zeros((1, len(shape.frame.bars), 2, 2))
    for bar in ties:
        ends_x = [
            float(shape.frame.nodes[k][0]) - origin for k in (shape.frame.bars[bar].start, shape.frame.bars[bar].end)
        ]
        if start <= 0.5 * sum(ends_x) <= end:
            down[0, bar, :, 1] -= w
    bars += bar_loads(shape.frame, down)[0]
