"""In which order a bracket is put together and put up, from what the job says of it: common practice, no source."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator, Mapping
from dataclasses import field
from typing import Any

from ...model.brackets.bracket import Bracket
from ...model.brackets.shapes import Braced, Solid, SteelCore
from ...records import dataclass
from ...units import show, show_inches
from ..core.pictures.assembled import TITLE, AssemblyPicture, Laid
from ..core.pictures.beams import Points, Table
from ..core.pictures.others import Elevation
from .drawing import BORE, DEEPER, front_at
from .family import box

NOTE = "common practice, no source; what is to be photographed is on the shop sheet"
STEEL = ("bar", "gusset")
# how the picture is laid out, in parts of the height or reach of the bracket, or in: it decides nothing
APART, ABOVE, BELOW, LEAST_GAP, BEAM, ARROW = 0.15, 0.12, 0.1, 0.07, 0.2, 0.34
BEHIND, MOST_WALL, DEEP_WALL = 0.5, 0.7, 4.0
LEGS = ("wall leg", "top leg")


def assembly_of(bracket: Bracket, drawn: Elevation) -> tuple[Table, AssemblyPicture] | None:
    """One step a row and a panel; nothing where the shape has no parts and nothing fixes it."""
    order = _Order(bracket, drawn)
    order.make()
    order.put_up()
    if not order.said:
        return None
    rows = tuple((str(n), one) for n, one in enumerate(order.said, 1))
    table = Table(TITLE, ("step", "what is done"), rows, NOTE)
    return table, AssemblyPicture(bracket.name, tuple(order.said), tuple(order.laid))


@dataclass
class _Order:
    """The steps so far, in words and as what they lay down."""

    bracket: Bracket
    drawn: Elevation
    said: list[str] = field(default_factory=list)
    laid: list[Laid] = field(default_factory=list)

    def make(self) -> None:
        """On the bench."""
        shape = self.bracket.shape
        if (how := _MADE.get(shape.family)) is not None:
            how(self, shape)

    def put_up(self) -> None:
        """On the wall."""
        fixings, bracket = self.bracket.fixings, self.bracket
        if fixings is None or fixings.fastener is None or not fixings.rows:
            return
        fastener = fixings.fastener
        if not self.said:  # nothing is told of how it is made: it is there
            self.laid += self._parts()
        if fastener.counterbore is not None and fastener.counterbore_depth is not None:
            across, deep = show(fastener.counterbore, "length"), show(fastener.counterbore_depth, "length")
            text = f"Bore for the heads, {across} across and {deep} deep, then drill as in the table of holes."
            self._step(text, *self._cuts(BORE, DEEPER))
        rows = ", ".join(f"{row.count} at {show_inches(row.below_top)} below the top" for row in fixings.rows)
        what = f"{fastener.size} {fastener.kind}s"
        text = f"Fix it to {bracket.on} with {what}: {rows}. Photograph each row before it is covered."
        self._step(text, self._wall(), *self._fasteners(fixings.through))
        slots = [(row.below_top, 0.5 * row.slot) for row in fixings.rows if row.slot is not None]
        if slots:
            marks = (Laid("slot", "slot", ((0.0, y - half), (0.0, y + half))) for y, half in slots)
            self._step("In the slots drive the screws snug, not tight, so that it can slide.", *marks)
        near, top = bracket.near, 0.0
        if near is not None and near.gap:
            foot = -max(near.gap, LEAST_GAP * self.drawn.height)
            top = foot - BEAM * self.drawn.height
            beam = Laid("beam", near.beam, box(-self._behind(), top, 1.1 * self.drawn.projection, foot))
            self._step(f"Measure the gap to {near.beam}, {show(near.gap, 'length')}, and leave it open.", beam)
        if bracket.role == "carries":
            x, low = 0.6 * self.drawn.projection, top - 0.03 * self.drawn.height
            arrow = Laid("no load", "load", ((x, low - ARROW * self.drawn.height), (x, low)))
            self._step("Put no load on it before the engineer has signed.", arrow)

    def steel_core(self, shape: SteelCore) -> None:
        text = "Drill and bend the steel before the wood is closed around it; photograph the marking of its steel."
        self._step(text, *self._parts())

    def solid(self, shape: Solid) -> None:
        self.laid.append(Laid("stock", "board", self._board(shape.grain), last=1))
        text = "Lay the template on the board with its arrow along the grain; cut the profile."
        self._step(text, *self._parts())
        if shape.pocket is not None:
            text = f"Cut the pocket {show(shape.pocket.depth, 'length')} deep from the wall face."
            self._step(text, *self._cuts("pocket"))

    def braced(self, shape: Braced) -> None:
        """Its pieces lie apart until they are tried together; then the legs are joined."""
        parts = {one.name: one for one in self._parts()}
        g = APART * self.drawn.height
        apart = {"wall leg": (0.0, 0.0), "top leg": (g, 0.0), "brace": (g, g)}
        text = "Cut wall leg, top leg and brace; no knot where they are joined."
        self._step(text, *(_moved(one, *apart[name]) for name, one in parts.items()))
        if shape.joints == "housed" and shape.housing is not None:
            left = f"; {show(shape.behind_housing, 'length')} of wood stay behind" if shape.behind_housing else ""
            text = f"House the brace {show(shape.housing, 'length')} into both legs{left}. Photograph the housings."
            cuts = zip(LEGS, _housings(shape, shape.housing, parts["brace"].points), strict=True)
            self._step(text, *(_moved(Laid("cut", "housing", cut), *apart[leg]) for leg, cut in cuts))
        now = len(self.said)
        self.laid = [one._replace(last=now) for one in self.laid]
        self._step("Put it together dry on a bench: the brace bears on the whole of each end.", *parts.values())
        if (how := _joined(shape)) is not None:
            self._step(f"Join the legs: {how}.", *(Laid("joint", "legs", (at,)) for at in _joints(shape)))

    def _step(self, text: str, *laid: Laid) -> None:
        self.said.append(text)
        self.laid += [one._replace(step=len(self.said)) for one in laid]

    def _parts(self) -> Iterator[Laid]:
        for (name, points), grain in zip(self.drawn.parts, self.drawn.grain, strict=True):
            yield Laid("steel" if name in STEEL else "wood", name or "wood", points, grain=grain)

    def _cuts(self, *names: str) -> Iterator[Laid]:
        return (Laid("cut", name, points) for name, points in self.drawn.voids if name in names)

    def _board(self, grain: float | None) -> Points:
        """The least board that the profile is cut from, along its grain."""
        c, s = math.cos(math.radians(grain or 0.0)), -math.sin(math.radians(grain or 0.0))
        points = [point for part in self.drawn.parts for point in part.outline]
        along, across = [x * c + y * s for x, y in points], [y * c - x * s for x, y in points]
        corners = box(min(along), min(across), max(along), max(across))
        return tuple((u * c - v * s, u * s + v * c) for u, v in corners)

    def _behind(self) -> float:
        """How much of the wall is shown."""
        into = [mark.into_wall for mark in self.drawn.anchors]
        inside = [-x for part in self.drawn.parts for x, _ in part.outline]
        most = max(MOST_WALL * self.drawn.projection, DEEP_WALL)
        return min(max(*into, *inside, 1.0) + BEHIND, most)

    def _wall(self) -> Laid:
        high = self.drawn.height
        low = max(high, *(y for part in self.drawn.parts for _, y in part.outline))
        return Laid("ground", self.drawn.wall, box(-self._behind(), -ABOVE * high, 0.0, low + BELOW * high))

    def _fasteners(self, through: float | None) -> Iterator[Laid]:
        """Each row from its heads to its points; as far as the wall is shown where nobody says how long they are."""
        for number, (y, into, _) in enumerate(self.drawn.anchors, start=1):
            head = through if through is not None else max(front_at(part.outline, y) for part in self.drawn.parts)
            point = min(into or self._behind(), self._behind())
            yield Laid("fastener", f"row {number}", ((head, y), (-point, y)))


# how a shape is made on the bench; nothing is told of an arc or a block
_MADE: Mapping[str, Callable[[_Order, Any], None]] = {
    "braced": _Order.braced, "steel core": _Order.steel_core, "solid": _Order.solid,
}  # fmt: skip


def _joined(shape: Braced) -> str | None:
    """How top leg and wall leg are tied, in words."""
    joint = shape.legs_joint
    if joint is None:
        return shape.legs_joined.strip() or None
    if joint.fastener is None:
        return "the steel as its report says"
    rows = ", ".join(f"{row.count} at {show_inches(row.down)} below the top" for row in joint.rows)
    return f"halved, with {joint.fastener.size} {joint.fastener.kind}s, {rows}"


def _joints(shape: Braced) -> Iterator[tuple[float, float]]:
    """Where its fasteners are seen from the side; the middle of the joint where there are none."""
    joint = shape.legs_joint
    if joint is None or not joint.rows:
        yield 0.5 * shape.wall_leg, 0.5 * shape.top_leg
        return
    for row in joint.rows:
        for number in range(row.count):
            first = joint.end if joint.end is not None else 0.5 * shape.wall_leg
            yield first + number * (joint.apart or 0.0), row.down


def _moved(one: Laid, x: float, y: float) -> Laid:
    return one._replace(points=tuple((a + x, b + y) for a, b in one.points))


def _housings(shape: Braced, deep: float, brace: Points) -> tuple[Points, Points]:
    """What is cut out of the wall leg and of the top leg, where the brace meets their faces."""
    down = [y for x, y in brace if abs(x - shape.wall_leg) < 1e-6]
    out = [x for x, y in brace if abs(y - shape.top_leg) < 1e-6]
    return (box(shape.wall_leg - deep, min(down, default=0.0), shape.wall_leg, max(down, default=0.0)),
            box(min(out, default=0.0), shape.top_leg - deep, max(out, default=0.0), shape.top_leg))  # fmt: skip
