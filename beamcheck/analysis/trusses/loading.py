"""From what a frame carries to load cases on its bars: each variable load on all of it and on either half.

Places along a member count from the first point that the form names, of a rafter from its foot.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace
from itertools import pairwise, product

import numpy as np

from ...model.frames.frame import FrameForce, FrameStick
from ...model.loads import Load, ends_of
from ...records import dataclass
from ...units import show
from ..beams.load_cases import PATTERNED, SLIVER, Applied, Case
from ..beams.member_loads import KIND_OF_FIELD
from ..frames.frame import Frame, Loads, bar_loads
from .plan import Plan, Stick, Stiffness

Array = np.ndarray
LEFT, RIGHT = "left", "right"
HALVES = {"": (LEFT, RIGHT), "left half": (LEFT,), "right half": (RIGHT,)}
WORDS = {1: "down", -1: "up"}
FIELD_OF = {kind: field for field, kind in KIND_OF_FIELD.items()}
SAME = 0.01  # in; nearer places are one


@dataclass(frozen=True)
class Put:
    """What one load case puts on the frame: the loaded halves, the way of the wind on either half, its level push."""

    case: Case
    on: tuple[str, ...] = ()
    wind: tuple[int, int] = (0, 0)
    push: int = 0

    def loads(self, side: str, value: float) -> bool:
        """Whether a load of this value on that half counts."""
        if self.case.kind == "D":
            return True
        if self.case.kind == "W":
            return value * self.wind[0 if side == LEFT else 1] > 0
        return side in self.on


def puts_of(members: Sequence[FrameStick], forces: Sequence[FrameForce]) -> list[Put]:
    """Dead; each variable kind on all of it and on either half; each way the wind may blow."""

    def case(kind: str, pattern: str) -> Case:
        what = "self weight" if kind == "D" else kind
        return Case(kind, pattern, (Applied(kind, 0.0, 0.0, what=what),), pattern if kind in PATTERNED else "")

    found = [Put(case("D", ""))]
    given: list[Load | FrameForce] = [*(load for one in members for load in one.carries), *forces]
    for kind in PATTERNED:
        if any(_amount(load, FIELD_OF[kind]) for load in given):
            found += [Put(case(kind, name), on) for name, on in HALVES.items()]
    winds = [value for load in given if (value := _amount(load, "wind"))]
    ways = [1] * any(value > 0 for value in winds) + [-1] * any(value < 0 for value in winds)
    pushes = [1, -1] if any(getattr(force, "wind_sideways", None) for force in forces) else [0]
    for (left, right), push in product([*product([0, *ways], repeat=2)], pushes):
        if left == right == push == 0:
            continue
        said = [f"{WORDS[way]} on the {side}" for way, side in ((left, LEFT), (right, RIGHT)) if way]
        if left == right and left:
            said = [WORDS[left]]
        if push:
            said.append("from the left" if push > 0 else "from the right")
        found.append(Put(case("W", f"wind {', '.join(said)}"), wind=(left, right), push=push))
    return found


def _amount(load: Load | FrameForce, field: str) -> float:
    value = getattr(load, field, None)
    return 0.0 if value is None else float(value[0] if isinstance(value, tuple) else value)


def with_stations(
    plan: Plan, members: Sequence[FrameStick], firsts: dict[str, str],
    splices: Mapping[str, Sequence[float]] | None = None,
) -> Plan:  # fmt: skip
    """The plan, cut where loads begin, end or stand, in the middle between the outer feet, and at splices.

    firsts : the point from which places on each stick count.
    """
    middle = middle_of(plan)
    points, sticks = dict(plan.points), []
    of = {member.stick: member for member in members}
    for stick in plan.sticks:
        at = [np.array(plan.points[point]) for point in stick.points]
        length = float(np.hypot(*(at[-1] - at[0])))
        own = [float(np.hypot(*(one - at[0]))) for one in at]
        turned = stick.points[0] != firsts[stick.name]
        made = (splices or {}).get(stick.name, ())
        cut = [length - s if turned else s for s in made]
        wanted = [*cut, *(length - s if turned else s for s in _stations(of[stick.name].carries))]
        run = float(at[-1][0] - at[0][0])
        if run > SAME and of[stick.name].carries:
            wanted.append((middle - float(at[0][0])) / run * length)
        places = dict(zip(stick.points, own, strict=True))
        for s in sorted(wanted):
            if SAME < s < length - SAME and all(abs(s - other) > SAME for other in places.values()):
                name = f"{stick.name} {show(s, 'length')} along it"
                places[name] = s
                points[name] = tuple((at[0] + s / length * (at[-1] - at[0])).tolist())
        added = frozenset(places) - frozenset(stick.points)
        spliced = frozenset(point for point, s in places.items() if any(abs(s - other) <= SAME for other in cut))
        ordered = tuple(sorted(places, key=places.__getitem__))
        sticks.append(replace(stick, points=ordered, stations=added, spliced=spliced))
    return Plan(points, tuple(sticks), plan.feet, plan.anchored)


def _stations(loads: Sequence[Load]) -> Iterator[float]:
    for load in loads:
        yield from (s for s in (load.at, load.start, load.end) if s is not None)


def middle_of(plan: Plan) -> float:
    """Half way between the outer feet, inches from the left."""
    x = [plan.points[foot][0] for foot in plan.feet]
    return 0.5 * (min(x) + max(x))


def loads_of(
    plan: Plan, frame: Frame, stiffness: dict[str, Stiffness], puts: Sequence[Put], members: Sequence[FrameStick],
    forces: Sequence[FrameForce], firsts: dict[str, str],
) -> Loads:  # fmt: skip
    """The load cases on the bars and nodes of the frame of a plan with stations; all are cases of `puts`."""
    bars, points, middle = plan.bars_of(), list(plan.points), middle_of(plan)
    square = np.zeros((len(puts), len(frame.bars), 2, 2))
    down, level = np.zeros_like(square), np.zeros_like(square)
    nodal = np.zeros((len(puts), frame.n_nodes, 3))
    of = {member.stick: member for member in members}
    for stick in plan.sticks:
        member, numbers = of[stick.name], bars[stick.name]
        if not any(load.dead_includes_own_weight for load in member.carries):
            down[0, numbers, :, 1] -= stiffness[stick.name].weight
        places = _Places(plan, stick, numbers, middle, stick.points[0] != firsts[stick.name])
        for c, put in enumerate(puts):
            for load in member.carries:
                amount = getattr(load, FIELD_OF[put.case.kind])
                if amount is not None and amount[0]:
                    places.put(put, load, amount, member.spacing, (square[c], down[c], level[c], nodal[c]), points)
    for c, put in enumerate(puts):
        for force in forces:
            node = points.index(force.at)
            value = getattr(force, FIELD_OF[put.case.kind])
            x = plan.points[force.at][0]
            sides = (LEFT, RIGHT) if abs(x - middle) < SAME else (LEFT,) if x < middle else (RIGHT,)
            if value:
                share = sum(put.loads(side, value) for side in sides) / len(sides)
                nodal[c, node, 1] -= share * value
            if put.push and force.wind_sideways:
                nodal[c, node, 0] += put.push * force.wind_sideways
    return Loads(nodal, square + bar_loads(frame, down) + bar_loads(frame, level, "projection"))


@dataclass(frozen=True)
class _Places:
    """One stick cut into bars, with the loads that are put on it."""

    plan: Plan
    stick: Stick
    numbers: Sequence[int]
    middle: float
    turned: bool

    def put(
        self, put: Put, load: Load, amount: tuple[float, str], spacing: float | None,
        into: tuple[Array, Array, Array, Array], points: list[str],
    ) -> None:  # fmt: skip
        """Add one load: square to the stick, down per length of it or of plan, or on nodes."""
        square, down, level, nodal = into
        value, sort = amount
        at = np.array([self.plan.points[point] for point in self.stick.points])
        s = np.hypot(*(at - at[0]).T)
        length = float(s[-1])
        axis = (at[-1] - at[0]) / length
        across = np.array([-axis[1], axis[0]])  # upward or outward
        if sort == "point":
            place = load.at or 0.0
            place = min(max(length - place if self.turned else place, 0.0), length)
            k = int(np.argmin(np.abs(s - place)))
            if not put.loads(self._side(float(at[k, 0])), value):
                return
            nodal[points.index(self.stick.points[k]), :2] += (
                -value * across if put.case.kind == "W" else np.array([0.0, -value])
            )
            return
        w = value * (load.width or spacing or 0.0) if sort == "area" else value
        first, last = load.start or 0.0, length if load.end is None else min(load.end, length)
        shares = ends_of(load, FIELD_OF[put.case.kind])
        start, end = (length - last, length - first) if self.turned else (first, last)
        shares = shares[::-1] if self.turned else shares
        sloped = put.case.kind == "D" and load.measured != "plan"
        target = square if put.case.kind == "W" else down if sloped else level
        for number, (k, (a, b)) in zip(self.numbers, enumerate(pairwise(s.tolist())), strict=True):
            half, side = 0.5 * (a + b), self._side(0.5 * float(at[k, 0] + at[k + 1, 0]))
            if start - SLIVER <= half <= end + SLIVER and put.loads(side, value):
                target[number, :, 1] -= w * np.interp([a, b], [start, end], shares)

    def _side(self, x: float) -> str:
        return LEFT if x <= self.middle else RIGHT
