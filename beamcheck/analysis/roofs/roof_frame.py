"""A pair of rafters, or a rafter against a ridge beam, as a plane frame: with a tie low, raised or missing."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from functools import cached_property
from itertools import pairwise, product

import numpy as np

from ...errors import OutOfRange, Unstable
from ...model.loads import Load, ends_of
from ...model.roofs import Rafter, Tie
from ...records import dataclass
from ..beams.combinations import Loaded, combine, matrix
from ..beams.load_cases import PATTERNED, Applied, Case
from ..beams.member_loads import KIND_OF_FIELD
from ..frames.frame import Bar, Frame, Loads, Solution, Support, bar_loads, solve
from ..frames.member_line import Line

Array = np.ndarray
LEFT, RIGHT = "left", "right"
Part = tuple[str, str]  # side of the roof, and 'span' (between wall and ridge) or 'tail'
# Where a load that moves is put, as parts of the span or of the tie; just off the supports, where the shear is largest.
# Below 0: at the end of the tail.
STANDS = (-1.0, 0.0, 0.01, *(i / 10 for i in range(1, 10)), 0.99, 1.0)
SAME = 1e-6  # of the length: places nearer than this are one
WIND_WORDS = {1: "down", -1: "up"}


@dataclass(frozen=True)
class Stiff:
    """Stiffness and weight of one stick: EA [lbf], EI [lbf in2], GA_s [lbf], weight along it [lbf/in]."""

    EA: float
    EI: float
    GA_s: float
    w: float


@dataclass(frozen=True, eq=False)
class RoofRun:
    """The solved frame. Lines run from the lower end up the left rafter, and along the tie from left to right.

    The rafter that is checked is the left one; loads on one side only are tried on either side.
    """

    rafter: Rafter
    cases: tuple[Case, ...]
    combinations: tuple[Loaded, ...]
    solution: Solution
    left_bars: tuple[int, ...]
    tie_bars: tuple[int, ...]
    far_foot: int  # node of the opposite wall; of the ridge when there is no opposite rafter in the frame
    tail: float  # from the lower end to the wall, up the slope

    @cached_property
    def factors(self) -> Array:
        """(combinations, cases)."""
        return matrix(self.combinations)

    @cached_property
    def combined(self) -> Solution:
        """The solution under each combination."""
        return self.solution.combine(self.factors)

    @cached_property
    def rafter_line(self) -> Line:
        """The left rafter under each combination."""
        return Line(self.combined, self.left_bars)

    @cached_property
    def tie_line(self) -> Line:
        """The tie under each combination."""
        return Line(self.combined, self.tie_bars)

    @property
    def thrust(self) -> Array:
        """(combinations,) force with which the left rafter pushes its wall outwards, lbf."""
        return np.asarray(self.combined.reactions[..., 0, 0])

    @property
    def wall_reactions(self) -> Array:
        """(combinations,) upward force of the left wall on its rafter, lbf."""
        return np.asarray(self.combined.reactions[..., 0, 1])

    @property
    def far_reactions(self) -> Array:
        """(combinations,) upward force of the ridge beam on one rafter (of the opposite wall in a pair), lbf."""
        return np.asarray(self.combined.reactions[..., 1, 1])

    @property
    def ridge_pull(self) -> Array:
        """(combinations,) how the upper end of a rafter pulls away from the ridge, level, lbf; pressing is negative."""
        N, V = self._top
        slope = math.radians(self.rafter.slope)
        return np.asarray(N * math.cos(slope) + V * math.sin(slope))

    @property
    def ridge_down(self) -> Array:
        """(combinations,) how the upper end of the left rafter bears down on the joint at the ridge, plumb, lbf."""
        N, V = self._top
        slope = math.radians(self.rafter.slope)
        return np.asarray(N * math.sin(slope) - V * math.cos(slope))

    @property
    def _top(self) -> tuple[Array, Array]:
        line = self.rafter_line
        length = float(line.length)
        return np.asarray(line.at("N", length, "left")), np.asarray(line.at("V", length, "left"))

    @property
    def spreading(self) -> Array:
        """(combinations,) how far the feet of a pair move apart, without creep, in."""
        return np.asarray(self.combined.displacements[..., self.far_foot, 0])

    def by_kind(self, *, far: bool) -> dict[str, tuple[float, float]]:
        """Largest and least upward reaction of each kind, unfactored, at the wall (or at the far support), lbf."""
        found: dict[str, tuple[float, float]] = {}
        for case, force in zip(self.cases, self.solution.reactions[..., int(far), 1], strict=True):
            start = (-math.inf, math.inf) if case.kind == "D" else (0.0, 0.0)
            high, low = found.get(case.kind, start)
            found[case.kind] = (max(high, float(force)), min(low, float(force)))
        return found


def solve_roof(rafter: Rafter, tie: Tie | None, stiff: Stiff, tie_stiff: Stiff | None) -> RoofRun:
    """Solve a rafter on a ridge beam, or a pair of rafters that lean on each other, for all load cases.

    Hinges at the ridge, the walls and the ends of the tie. With a tie one wall lets go sideways, so that the tie takes
    the whole thrust; without one both walls hold. Loads given for the rafter stand on both rafters of a pair, variable
    ones also on one of them, and with or without what lies on the tails.

    `tie`, `tie_stiff`: Tie, Stiff or None: both or none, and only for a pair (`ridge` is a board). Raises OutOfRange if
    the tie does not lie between the wall and the ridge of a pair; Unstable if the frame can move.
    """
    pair = rafter.ridge == "board"
    if pair and not rafter.pair:
        raise Unstable("one rafter alone leans on a ridge board: nothing holds its upper end up")
    shape = _shape(rafter, tie, pair)
    nodes, n_roof = list(shape.roof), len(shape.roof)
    bars = [Bar(i, i + 1, stiff.EA, stiff.EI, stiff.GA_s, release_end=pair and i + 1 == shape.top)
            for i in range(n_roof - 1)]  # fmt: skip
    if tie_stiff is not None:
        first = len(nodes)
        nodes += [(shape.tie_start[0] + x, shape.tie_start[1]) for x in shape.tie_places[1:-1]]
        chain = [shape.tie_node, *range(first, len(nodes)), n_roof - 1 - shape.tie_node]
        last = len(chain) - 2
        bars += [Bar(a, b, tie_stiff.EA, tie_stiff.EI, tie_stiff.GA_s, release_start=i == 0, release_end=i == last)
                 for i, (a, b) in enumerate(pairwise(chain))]  # fmt: skip
    far = n_roof - 1 - shape.wall if pair else shape.top
    supports = [Support(shape.wall, ux=True, uy=True), Support(far, ux=pair and tie is None, uy=True)]
    frame = Frame(np.array(nodes), bars, supports)
    puts = list(_puts(rafter, tie, pair, shape.tail > 0.0))
    solution = solve(frame, _loads(frame, shape, puts, rafter, tie, stiff, tie_stiff))
    cases = tuple(put.case for put in puts)
    return RoofRun(
        rafter, cases, tuple(combine(cases)), solution, tuple(range(shape.top)), tuple(range(n_roof - 1, len(bars))),
        far, shape.tail,
    )  # fmt: skip


@dataclass(frozen=True)
class _Shape:
    """Nodes and how they are numbered: up the left rafter, down the right one; those of the tie follow."""

    places: tuple[float, ...]  # of the nodes of the left rafter, up the slope from its lower end
    roof: tuple[tuple[float, float], ...]
    wall: int
    top: int  # node of the ridge; also the number of bars of the left rafter
    angle: float
    tail: float
    tie_node: int
    tie_places: tuple[float, ...]  # along the tie

    @property
    def pair(self) -> bool:
        return len(self.roof) > self.top + 1

    @property
    def tie_start(self) -> tuple[float, float]:
        return self.roof[self.tie_node]

    def mirrored(self, node: int) -> int:
        """The node of the right rafter opposite one of the left."""
        return len(self.roof) - 1 - node

    def part(self, bar: int) -> Part:
        """Side and region of a bar of the rafters."""
        side, left_bar = (LEFT, bar) if bar < self.top else (RIGHT, 2 * self.top - 1 - bar)
        return side, "tail" if left_bar < self.wall else "span"

    def middle(self, bar: int) -> float:
        """Place of the middle of a bar of the rafters, up the slope from the lower end."""
        left_bar = bar if bar < self.top else 2 * self.top - 1 - bar
        return 0.5 * (self.places[left_bar] + self.places[left_bar + 1])


def _shape(rafter: Rafter, tie: Tie | None, pair: bool) -> _Shape:
    angle, tail = math.radians(rafter.slope), rafter.wall.at
    length = tail + rafter.run / math.cos(angle)
    rise = rafter.run * math.tan(angle)
    if tie is not None and not (pair and 0.0 <= tie.height < rise * (1.0 - 1e-3)):
        text = f"tie {tie.name!r} must close a pair of rafters, below their ridge and not below their feet"
        raise OutOfRange(text, "statics")
    tie_at = tail + (tie.height / math.sin(angle) if tie is not None else 0.0)
    places = _apart([0.0, tail, tie_at, length], _stations(rafter.carries, tail, length), length)
    roof = [((s - tail) * math.cos(angle), (s - tail) * math.sin(angle)) for s in places]
    wall, tie_node = _nearest(places, tail), _nearest(places, tie_at)
    top = len(roof) - 1
    if pair:
        roof += [(2.0 * rafter.run - x, y) for x, y in reversed(roof[:-1])]
    along: tuple[float, ...] = ()
    if tie is not None:
        tie_length = 2.0 * (rafter.run - roof[tie_node][0])
        along = _apart([0.0, tie_length], _stations(tie.carries, 0.0, tie_length), tie_length)
    return _Shape(places, tuple(roof), wall, top, angle, tail, tie_node, along)


def _stations(loads: Sequence[Load], tail: float, length: float) -> Iterator[float]:
    """Where loads begin, end or stand."""
    for load in loads:
        yield from (s for s in (load.at, load.start, load.end) if s is not None)
        if load.moves:
            yield from (_stand(part, tail, length) for part in STANDS)


def _stand(part: float, tail: float, length: float) -> float:
    """Where a moving load stands, from the lower end."""
    return tail + part * (length - tail) if part >= 0.0 else 0.0


def _apart(fixed: Sequence[float], others: Iterator[float], length: float) -> tuple[float, ...]:
    """Places in order, on the piece, none of them nearly the same as another; the fixed ones keep their value."""
    kept: list[float] = []
    for s in [*fixed, *others]:
        if s <= length and all(abs(s - other) > SAME * length for other in kept):
            kept.append(s)
    return tuple(sorted(kept))


def _nearest(places: Sequence[float], wanted: float) -> int:
    return min(range(len(places)), key=lambda i: abs(places[i] - wanted))


@dataclass(frozen=True)
class _Put:
    """What one load case puts on the roof: the parts that are loaded, the way the wind blows on either side (1 down,
    -1 up, 0 not), and where a moving load stands, as a part of the span."""

    case: Case
    on: frozenset[Part] = frozenset()
    wind: tuple[int, int] = (0, 0)
    stands: float | None = None

    def loads(self, part: Part, value: float) -> bool:
        """Whether a load of this value is on a part."""
        if self.case.kind == "D":
            return True
        if self.case.kind == "W":
            return value * self.wind[0 if part[0] == LEFT else 1] > 0
        return part in self.on


def _puts(rafter: Rafter, tie: Tie | None, pair: bool, tail: bool) -> Iterator[_Put]:
    """Dead; each variable kind in each pattern; each way the wind may blow."""
    entries = [*rafter.carries, *(tie.carries if tie is not None else ())]

    def case(kind: str, pattern: str, spans: str = "") -> Case:
        what = "self weight" if kind == "D" else kind
        return Case(kind, pattern, (Applied(kind, 0.0, 0.0, what=what),), spans)

    yield _Put(case("D", ""))
    patterns = _patterns(pair, tail)
    for kind in PATTERNED:
        of_kind = [load for load in entries if getattr(load, _FIELD_OF[kind]) is not None]
        if of_kind:
            yield from (_Put(case(kind, name, name), on) for name, on in patterns)
        if any(load.moves for load in of_kind):
            for part in STANDS if tail else STANDS[1:]:
                # the tails bear load where that adds to what the moving load does
                name, on = patterns[1 if tail and part > 0.0 else 0]
                where = "load at the end of the tail" if part < 0.0 else f"load at {part:g} of the span"
                yield _Put(case(kind, f"{name}, {where}".removeprefix(", "), name), on, stands=part)
    winds = [load.wind[0] for load in entries if load.wind is not None]
    ways = [1] * any(value > 0 for value in winds) + [-1] * any(value < 0 for value in winds)
    for way in ways:
        yield _Put(case("W", f"wind {WIND_WORDS[way]}"), wind=(way, way if pair else 0))
    if pair:
        for left, right in product([0, *ways], repeat=2):
            if left != right:
                said = [
                    f"{WIND_WORDS[way]} on {side}" for way, side in ((left, "one side"), (right, "the other")) if way
                ]
                yield _Put(case("W", f"wind {' and '.join(said)}"), wind=(left, right))


_FIELD_OF = {kind: field for field, kind in KIND_OF_FIELD.items()}


def _patterns(pair: bool, tail: bool) -> list[tuple[str, frozenset[Part]]]:
    """Where a variable load lies. The first is everywhere, the second (with tails) everywhere but on the tails."""
    sides = (LEFT, RIGHT) if pair else (LEFT,)
    spans = frozenset((side, "span") for side in sides)
    tails = frozenset((side, "tail") for side in sides)
    found = [("", spans | tails)]
    if tail:
        found += [("not on the tails", spans), ("on the tails alone", tails)]
    if pair:
        found += [(words, frozenset({(side, "span"), (side, "tail")})) for side, words in _SIDE_WORDS.items()]
        if tail:
            found += [(f"{words}, not on its tail", frozenset({(side, "span")})) for side, words in _SIDE_WORDS.items()]
    return found


_SIDE_WORDS = {LEFT: "one side", RIGHT: "the other side"}


def _loads(
    frame: Frame, shape: _Shape, puts: Sequence[_Put], rafter: Rafter, tie: Tie | None, stiff: Stiff,
    tie_stiff: Stiff | None,
) -> Loads:  # fmt: skip
    bars = np.zeros((len(puts), len(frame.bars), 2, 2))
    nodal = np.zeros((len(puts), frame.n_nodes, 3))
    n_rafters = len(shape.roof) - 1
    down = np.zeros_like(bars)
    down[0, :n_rafters, :, 1] = -stiff.w
    down[0, n_rafters:, :, 1] = -(tie_stiff.w if tie_stiff is not None else 0.0)
    plan = np.zeros_like(bars)
    for c, put in enumerate(puts):
        field = _FIELD_OF[put.case.kind]
        for load in rafter.carries:
            if (amount := getattr(load, field)) is not None:
                _on_rafters(shape, put, load, amount, rafter.spacing, (bars[c], down[c], plan[c], nodal[c]))
        for load in tie.carries if tie is not None else ():
            if (amount := getattr(load, field)) is not None:
                _on_tie(frame, shape, put, load, amount, rafter.spacing, (down[c], nodal[c]))
    return Loads(nodal, bars + bar_loads(frame, down) + bar_loads(frame, plan, "projection"))


def _on_rafters(
    shape: _Shape, put: _Put, load: Load, amount: tuple[float, str], spacing: float,
    into: tuple[Array, Array, Array, Array],
) -> None:  # fmt: skip
    """Add one load of the rafters: square to them (local), down per length, down per length in plan, or on nodes."""
    square, down, plan, nodal = into
    value, sort = amount
    if sort == "point":
        _point_on_rafters(shape, put, load, value, nodal)
        return
    w = value * (load.width or spacing) if sort == "area" else value
    start, end = load.start or 0.0, load.end if load.end is not None else math.inf
    # a dead load is along the slope unless it is said to be on plan: the heavier reading; all other loads are on plan
    sloped = put.case.kind == "D" and load.measured != "plan"
    field = _FIELD_OF[put.case.kind]
    for bar in range(len(shape.roof) - 1):
        if start <= shape.middle(bar) <= end and put.loads(shape.part(bar), value):
            # local y points outwards on both sides
            target = square if put.case.kind == "W" else down if sloped else plan
            target[bar, :, 1] -= w * _shares(shape, load, field, bar, start, end)


def _shares(shape: _Shape, load: Load, field: str, bar: int, start: float, end: float) -> Array:
    """(2,) what of a load is at the two ends of a bar: all of it, unless it is a drift, which falls off."""
    first, last = ends_of(load, field)
    if first == last == 1.0:
        return np.ones(2)
    left = bar if bar < shape.top else 2 * shape.top - 1 - bar
    ends = np.interp(shape.places[left : left + 2], (start, end), (first, last))
    return ends if bar < shape.top else ends[::-1]


def _point_on_rafters(shape: _Shape, put: _Put, load: Load, value: float, nodal: Array) -> None:
    """A force stands on both rafters of a pair; one that moves stands on the left one."""
    length = shape.places[-1]
    if load.moves:
        if put.stands is not None:
            nodal[_nearest(shape.places, _stand(put.stands, shape.tail, length)), 1] -= value
        return
    s = load.at or 0.0
    region = "tail" if s < shape.tail * (1.0 - SAME) else "span"
    node = _nearest(shape.places, s)
    across = math.sin(shape.angle) if put.case.kind == "W" else 0.0  # wind is square to the slope
    along = math.cos(shape.angle) if put.case.kind == "W" else 1.0
    sides = [(LEFT, node, 1.0), *([(RIGHT, shape.mirrored(node), -1.0)] if shape.pair else [])]
    share = 0.5 if shape.pair and node == shape.top else 1.0  # one force at the ridge, half from either side
    for side, at, inwards in sides:
        if put.loads((side, region), value):
            nodal[at, 0] += share * inwards * across * value
            nodal[at, 1] -= share * along * value


def _on_tie(
    frame: Frame, shape: _Shape, put: _Put, load: Load, amount: tuple[float, str], spacing: float,
    into: tuple[Array, Array],
) -> None:  # fmt: skip
    """Add one load of the tie; it is there in every pattern of its kind."""
    down, nodal = into
    value, sort = amount
    if put.case.kind == "W" and not any(value * way > 0 for way in put.wind):
        return
    first = len(shape.roof) - 1  # bar
    if sort == "point":
        place = load.at or 0.0
        if load.moves:
            if put.stands is None:
                return
            place = max(put.stands, 0.0) * shape.tie_places[-1]
        i = _nearest(shape.tie_places, place)
        bar = min(first + i, len(frame.bars) - 1)
        node = frame.bars[bar].start if first + i == bar else frame.bars[bar].end
        nodal[node, 1] -= value
        return
    w = value * (load.width or spacing) if sort == "area" else value
    start, end = load.start or 0.0, load.end if load.end is not None else math.inf
    for i, (a, b) in enumerate(pairwise(shape.tie_places)):
        if start <= 0.5 * (a + b) <= end:
            down[first + i, :, 1] -= w
