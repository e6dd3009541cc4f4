"""A level piece under all its load cases and combinations: forces, reactions by kind, deflections, each from one solution."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property

import numpy as np

from .beam_frame import BeamLoad, LineLoad, PointLoad, Section, Settlement
from .combinations import Loaded, combine, matrix
from .line import BeamResult, straight_beam
from .loading import Applied, Case, cases_for, spans_of

Array = np.ndarray


@dataclass(frozen=True)
class Held:
    """A support of a straight piece: where it is, how it holds ('pin', 'roller', 'fixed') and how far it settles, in."""

    x: float
    kind: str = "roller"
    settles: float = 0.0


@dataclass(frozen=True, eq=False)
class Straight:
    """The solved piece. Leading axis of `cases_run` is the load cases, of `combined` the combinations."""

    length: float
    supports: tuple[Held, ...]
    loads: tuple[Applied, ...]
    cases: tuple[Case, ...]
    combinations: tuple[Loaded, ...]
    cases_run: BeamResult

    @cached_property
    def factors(self) -> Array:
        """(combinations, cases)."""
        return matrix(self.combinations)

    @cached_property
    def combined(self) -> BeamResult:
        """The solution under each combination."""
        return self.cases_run.combine(self.factors)

    @property
    def spans(self) -> list[tuple[float, float]]:
        """Stretches between supports and overhangs."""
        return spans_of(self.length, [held.x for held in self.supports])

    @cached_property
    def C_D(self) -> Array:
        """(combinations,)."""
        return np.array([combination.C_D for combination in self.combinations])

    def reactions(self, support: int) -> Array:
        """(combinations,) upward force of a support on the piece, lbf; negative where it would have to hold it down."""
        return np.asarray(self.combined.reactions[..., support, 1])

    def moments_at(self, support: int) -> Array:
        """(combinations,) moment of a fixed support, lb-in."""
        return np.asarray(self.combined.reactions[..., support, 2])

    def reaction_by_kind(self, support: int) -> dict[str, tuple[float, float]]:
        """Largest and least upward reaction of each kind of load over its patterns, lbf, unfactored."""
        found: dict[str, tuple[float, float]] = {}
        for case, force in zip(self.cases, self.cases_run.reactions[..., support, 1], strict=True):
            high, low = found.get(case.kind, (-np.inf, np.inf))
            found[case.kind] = (max(high, float(force)), min(low, float(force)))
        # a load that may be absent presses with nothing at least, and lifts with nothing at most
        return {
            kind: (high, low) if kind == "D" else (max(high, 0.0), min(low, 0.0)) for kind, (high, low) in found.items()
        }

    def point_loads_between(self, start: float, end: float) -> list[tuple[float, Array]]:
        """Point loads strictly between two places: (place, force under each combination (combinations,))."""
        places = sorted(
            {load.start for case in self.cases for load in case.loads if load.is_point and start < load.start < end}
        )
        return [
            (
                x,
                self.factors
                @ np.array([sum(load.P for load in case.loads if load.is_point and load.start == x) for case in self.cases]),
            )
            for x in places
        ]  # fmt: skip


def solve_straight(
    length: float,
    supports: Sequence[Held],
    loads: Sequence[Applied],
    *,
    depth: float,
    EI: float,
    GA_s: float,
    sections: Sequence[Section] = (),
) -> Straight:
    """Solve a level piece for all load cases at once.

    Parameters
    ----------
    length, depth : float
        Over all, and in the plane of the loads. [in]
    EI, GA_s : float
        Bending stiffness [lbf in2] and shear stiffness [lbf] of the full section.
    sections : sequence of Section
        Stretches with less wood.

    Raises
    ------
    Unstable
        If the supports leave the piece free to move.
    """
    spans = spans_of(length, [held.x for held in supports])
    cases = cases_for(loads, spans, depth)
    settled = [Settlement(i, held.settles) for i, held in enumerate(supports) if held.settles]
    run = [[*(_as_load(load) for load in case.loads), *(settled if case.kind == "D" else [])] for case in cases]
    solved = straight_beam(
        length, [(held.x, held.kind) for held in supports], run, EI, GA_s,
        sections=_covering(sections, length, EI, GA_s),
    )  # fmt: skip
    return Straight(length, tuple(supports), tuple(loads), tuple(cases), tuple(combine(cases)), solved)


def _as_load(load: Applied) -> BeamLoad:
    if load.is_point:
        return PointLoad(load.start, load.P)
    return LineLoad(load.start, load.end, load.w_start, load.w_end)


def _covering(sections: Sequence[Section], length: float, EI: float, GA_s: float) -> list[Section]:
    """Weaker stretches clipped to the piece; where two overlap the weaker counts."""
    edges = sorted({0.0, length, *(min(max(x, 0.0), length) for s in sections for x in (s.s0, s.s1))})
    found = []
    for start, end in zip(edges, edges[1:], strict=False):
        middle = 0.5 * (start + end)
        here = [s for s in sections if s.s0 <= middle <= s.s1]
        if here and end - start > 1e-6 * length:
            found.append(Section(start, end, min([EI, *(s.EI for s in here)]), min([GA_s, *(s.GA_s for s in here)])))
    return found
