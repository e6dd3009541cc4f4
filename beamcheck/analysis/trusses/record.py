"""What a solved frame says: of each member its forces, of each point what every member does to it, run by run.

Columns: every load combination under every way in which feet and joints may hold (a run), one after the other. A worst
over the columns is the worst over all that is not known.
"""

from __future__ import annotations

from collections.abc import Mapping

import numpy as np

from ...records import dataclass
from ..beams.combinations import Loaded
from ..beams.load_cases import Case
from ..frames.buckling import critical_factor
from ..frames.frame import Solution
from ..frames.member_line import Line, Quantity

Array = np.ndarray


@dataclass(frozen=True, eq=False)
class EndForces:
    """What one member does to one point.

    stick, piece, stock : its name in the frame and among the pieces, and its [[stock]].
    b, d : breadth and depth, inches; d lies in the plane of the frame.
    ends : whether it ends there; one that runs through is there twice, once to each side.
    place : along the member from its first point, inches.
    direction : unit vector from the point along the member.
    N, V, M : (n,) tension positive; force across it on the point, positive to the left of `direction`; moment on the
        point, counter-clockwise, 0 at hinges. lbf, lbf in.
    idle : (n,) whether it takes no part: a dry joint that has opened.
    """

    stick: str
    piece: str
    stock: str
    b: float
    d: float
    ends: bool
    place: float
    direction: tuple[float, float]
    N: Array
    V: Array
    M: Array
    idle: Array

    @property
    def force(self) -> Array:
        """(n, 2) force of the member on the point, to the right and up, lbf."""
        c, s = self.direction
        return np.stack([c * self.N - s * self.V, s * self.N + c * self.V], axis=-1)


@dataclass(frozen=True, eq=False)
class NodeForces:
    """All that comes to one point. Forces of the ends, `load` and `reaction` (n, 2) add up to nothing."""

    name: str
    at: tuple[float, float]
    ends: tuple[EndForces, ...]
    load: Array
    reaction: Array
    on: str = ""


@dataclass(frozen=True, eq=False)
class MemberForces:
    """The extremes of one member, (n, panels) each; a panel lies between two points of the frame.

    N tension positive, M sagging positive (its lower edge is pulled), V; `sag` (n, panels): most by which a panel bends
    off its own chord, inches, without creep. `panels` are their lengths from left to right, `turned` whether it runs
    the other way than the form names its points.
    """

    stick: str
    panels: tuple[float, ...]
    N_low: Array
    N_high: Array
    V: Array
    M_low: Array
    M_high: Array
    idle: Array
    turned: bool

    @property
    def pressed(self) -> Array:
        """(n,) the largest compression, lbf."""
        return np.asarray(np.maximum(-np.min(self.N_low, axis=-1), 0.0))

    @property
    def pulled(self) -> Array:
        """(n,) the largest tension, lbf."""
        return np.asarray(np.maximum(np.max(self.N_high, axis=-1), 0.0))

    @property
    def changes_sign(self) -> bool:
        """Whether it pushes under one combination and pulls under another."""
        return bool(np.max(self.pressed) > 1.0 and np.max(self.pulled) > 1.0)


@dataclass(frozen=True, eq=False)
class SolvedFrame:
    """A frame under every combination in every run.

    triangulated : whether it stands by its triangles alone, every joint a hinge.
    leans : whether it stands only with its feet held against thrust.
    combinations : (n) their names end in the run where there are several; with C_D, as `govern` takes them.
    runs, run_of : words for each run; (n,) which column belongs to which.
    moved : (n, points, 2) how far each point moves, right and up, inches; points in the order of `nodes`.
    reactions : by foot (n, 2) force of the support on the frame, to the right and up.
    cases, by_case : unfactored cases, and by foot (runs, cases) upward reactions; None where cases cannot be added up.
    play : (n, points) how far each comes down more by the play of the joints, inches; the same in all columns of a run.
    held : (runs,) whether the feet are held against thrust in that run.
    """

    name: str
    triangulated: bool
    leans: bool
    combinations: tuple[Loaded, ...]
    runs: tuple[str, ...]
    run_of: Array
    held: tuple[bool, ...]
    members: Mapping[str, MemberForces]
    nodes: Mapping[str, NodeForces]
    moved: Array
    cases: tuple[Case, ...]
    by_case: Mapping[str, Array] | None
    factors: Array
    solutions: tuple[Solution, ...]
    bars: Mapping[str, tuple[int, ...]]
    play: Array

    def lines(self, stick: str) -> list[Line]:
        """A member from left to right under each combination, run by run."""
        return [Line(solution, self.bars[stick]) for solution in self.solutions]

    def between(self, stick: str, quantity: Quantity, start: float, end: float) -> tuple[Array, Array]:
        """(n,) least and largest value between two places along a member, which count from its first point."""
        lines = self.lines(stick)
        length = float(lines[0].length)
        start, end = (min(max(place, 0.0), length) for place in (start, end))
        if self.members[stick].turned:
            start, end = length - end, length - start
        found = [line.extremes(quantity, start, end) for line in lines]
        return np.concatenate([one[0] for one in found]), np.concatenate([one[2] for one in found])

    def buckling(self) -> tuple[float, int]:
        """The least factor at which it buckles in its plane by elastic theory, and the column; inf where none does.

        Of each run the column in which its members are pressed most is looked at.
        """
        pressed = np.sum([one.pressed for one in self.members.values()], axis=0)
        least, which = np.inf, 0
        for run, solution in enumerate(self.solutions):
            own = np.flatnonzero(self.run_of == run)
            column = int(own[int(np.argmax(pressed[own]))])
            N = solution.N[column - own[0]]
            L = solution.frame.length
            ends = np.minimum(N[:, 0], N[:, 0] + N[:, 1] * L + N[:, 2] * L**2)
            factor = critical_factor(solution.frame, ends)
            if factor < least:
                least, which = factor, column
        return least, which

    @property
    def reactions(self) -> dict[str, Array]:
        """By foot, (n, 2)."""
        return {node.name: node.reaction for node in self.nodes.values() if node.on}

    def drop(self, point: str) -> Array:
        """(n,) how far a point comes down, inches, without creep."""
        return np.asarray(-self.moved[:, list(self.nodes).index(point), 1])

    def sideways(self, point: str) -> Array:
        """(n,) how far a point goes to the right, inches."""
        return np.asarray(self.moved[:, list(self.nodes).index(point), 0])
