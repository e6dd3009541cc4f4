"""A frame as a carpenter names it: points, sticks that run through points, feet; made into nodes and bars.

x to the right, y up, in inches. A stick is one piece of wood through all its points: continuous there, hinged at its
ends unless told otherwise. No joint is taken to hold a moment.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from itertools import pairwise

import numpy as np

from ...errors import OutOfRange, UnknownName, Unstable
from ...model.frames.forms import Point, Shape, StickPath
from ...records import dataclass
from ..frames.frame import Bar, Frame, Loads, Support, bar_loads
from ..frames.structure import Hold

Stick = StickPath


@dataclass(frozen=True)
class Stiffness:
    """EA [lbf], EI [lbf in2], GA_s [lbf] of a stick and its weight along it [lbf/in]."""

    EA: float
    EI: float
    GA_s: float = float("inf")
    weight: float = 0.0


@dataclass(frozen=True)
class Plan:
    """Points, sticks and feet. `feet` are held up; the last one slides when the feet are free, unless `anchored`."""

    points: Mapping[str, Point]
    sticks: tuple[Stick, ...]
    feet: tuple[str, ...]
    anchored: bool = False

    @classmethod
    def of(cls, shape: Shape) -> Plan:
        """The plan of a shape."""
        return cls(shape.points, shape.sticks, shape.feet, shape.anchored)

    def __post_init__(self) -> None:
        for _, text in Shape(self.points, self.sticks, self.feet, self.anchored).troubles():
            raise OutOfRange(text, "frame")
        object.__setattr__(self, "sticks", tuple(self._from_the_left(stick) for stick in self.sticks))

    def _from_the_left(self, stick: Stick) -> Stick:
        """Runs to the right, upright ones up: then a moment is positive where the lower side is pulled."""
        runs = self.points[stick.points[0]] < self.points[stick.points[-1]]
        return stick if runs else replace(stick, points=stick.points[::-1])

    def bars_of(self) -> dict[str, list[int]]:
        """The numbers of the bars of each stick, in order."""
        found, count = {}, 0
        for stick in self.sticks:
            found[stick.name] = list(range(count, count + len(stick.points) - 1))
            count += len(stick.points) - 1
        return found

    def node(self, point: str) -> int:
        """The node at a point."""
        if point not in self.points:
            raise UnknownName("point", point, list(self.points))
        return list(self.points).index(point)

    def frame(self, stiffness: Mapping[str, Stiffness], slip: float, hold: Hold, slides: str = "") -> Frame:
        """Nodes and bars.

        slip : stiffness of the joints that give, lbf/in; inf for tight ones.
        slides : the foot that slides where one does; the last one when left out.
        hold : what keeps the feet that could slide: False (free), True (held) or a wall's stiffness, lbf/in.
        """
        bars = []
        for stick in self.sticks:
            of, last = stiffness[stick.name], len(stick.points) - 2
            for k, (a, b) in enumerate(pairwise(stick.points)):
                first, end = stick.hinged != "none" and k == 0, stick.hinged != "none" and k == last
                cut_a, cut_b = (
                    point in stick.spliced or (stick.hinged == "all" and point not in stick.stations)
                    for point in (a, b)
                )  # fmt: skip
                give = slip if stick.slips else np.inf
                bars.append(
                    Bar(
                        self.node(a), self.node(b), of.EA, of.EI, of.GA_s,
                        release_start=first or cut_a, release_end=end or cut_b,
                        slip_start=give if k == 0 else np.inf, slip_end=give if k == last else np.inf, acts=stick.acts,
                        gap=stick.gap,
                    )
                )  # fmt: skip
        sliding: dict[str, Hold] = {}
        if not self.anchored:
            walls = not isinstance(hold, bool)
            sliding = dict.fromkeys(self.feet if walls else [slides or self.feet[-1]], hold)
        supports = [Support(self.node(foot), sliding.get(foot, True), True) for foot in self.feet]
        return Frame([self.points[point] for point in self.points], bars, supports)

    def triangulated(self, held: bool) -> bool:
        """Whether it stands by its triangles alone, a hinge at every point; with all feet held, or one that slides."""
        sticks = tuple(replace(stick, hinged="all", slips=False, acts="both", stations=frozenset(), spliced=frozenset())
                       for stick in self.sticks)  # fmt: skip
        pins = Plan(self.points, sticks, self.feet, self.anchored)
        frame = pins.frame({stick.name: Stiffness(1.0, 1.0) for stick in sticks}, np.inf, held)
        try:
            return frame.stiffness is not None
        except Unstable:
            return False

    def loads(
        self, frame: Frame, stiffness: Mapping[str, Stiffness], on_plan: Mapping[str, float],
        at_points: Mapping[str, tuple[float, float]],
    ) -> Loads:  # fmt: skip
        """One combination: weights along sticks, `on_plan` lbf per inch of plan down on sticks, forces at points."""
        bars = self.bars_of()
        plan, along = np.zeros((1, len(frame.bars), 2, 2)), np.zeros((1, len(frame.bars), 2, 2))
        for name, w in on_plan.items():
            if name not in bars:
                raise UnknownName("stick", name, list(bars))
            plan[0, bars[name], :, 1] -= w
        for name, numbers in bars.items():
            along[0, numbers, :, 1] -= stiffness[name].weight
        nodal = np.zeros((1, frame.n_nodes, 3))
        for point, force in at_points.items():
            nodal[0, self.node(point), :2] += force
        return Loads(nodal, bar_loads(frame, plan, "projection") + bar_loads(frame, along))
