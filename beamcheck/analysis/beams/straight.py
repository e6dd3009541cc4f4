"""A level piece under all its load cases and combinations: forces, reactions, deflections, all from one solution."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, field, replace
from functools import cached_property
from itertools import pairwise
from typing import Literal

import numpy as np

from ..frames.member_line import BeamResult, Extremes, Line, straight_beam
from .beam_frame import SNAP, BeamLoad, LineLoad, PointLoad, Section, Settlement
from .combinations import Loaded, combine, matrix
from .load_cases import SETTLED, Applied, Case, cases_for, spans_of

Array = np.ndarray


@dataclass(frozen=True)
class Held:
    """A support of a straight piece: where it is, how it holds ('pin', 'roller', 'fixed'), how far it settles (in)."""

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
    read: dict[tuple[object, ...], Extremes] = field(default_factory=dict)  # extremes already looked for
    softness: float = 1.0  # deflections of this piece over those in `read`

    @cached_property
    def factors(self) -> Array:
        """(combinations, cases)."""
        return matrix(self.combinations)

    @cached_property
    def combined(self) -> BeamResult:
        """The solution under each combination."""
        return self.cases_run.combine(self.factors)

    @cached_property
    def spans(self) -> list[tuple[float, float]]:
        """Stretches between supports and overhangs."""
        return spans_of(self.length, [held.x for held in self.supports])

    @cached_property
    def C_D(self) -> Array:
        """(combinations,)."""
        return np.array([combination.C_D for combination in self.combinations])

    def moments(self, start: float, end: float) -> Extremes:
        """Least and largest moment between two places under each combination, and where: four (combinations,)."""
        return self._once(("M", start, end), lambda: _extremes(self.combined.line, "M", start, end))

    def shears(self, start: float, end: float, *, both_sides: bool = True) -> Extremes:
        """The same for the shear; without `both_sides` what lies just outside the two places does not count."""
        key = ("V", start, end, both_sides)
        return self._once(key, lambda: _extremes(self.combined.line, "V", start, end, both_sides=both_sides))

    def deflections(self, start: float, end: float, overhang: bool, factors: Array) -> Extremes:
        """Least and largest v (up positive) under rows of factors on the cases (rows, cases): four (rows,).

        An overhang is measured from its support, anything else from the line through its two ends.
        """

        def find() -> Extremes:
            part, offset = _part(self.cases_run.line, start, end)
            bent = part.combine(factors)
            find_in = bent.sag_between if not overhang else lambda a, b: bent.extremes("v", a, b)
            low, s_low, high, s_high = _shifted(find_in(start - offset, end - offset), offset)
            return low / self.softness, s_low, high / self.softness, s_high

        low, s_low, high, s_high = self._once(("v", start, end, overhang, factors.tobytes()), find)
        return low * self.softness, s_low, high * self.softness, s_high

    def _once(self, key: tuple[object, ...], find: Callable[[], Extremes]) -> Extremes:
        if key not in self.read:
            self.read[key] = find()
        return self.read[key]

    def softer(self, ratio: float) -> Straight:
        """The same piece of wood whose every stiffness is `ratio` times smaller: the same forces, larger deflections.

        Raises
        ------
        ValueError
            If supports settle: then the forces change too.
        """
        if any(case.kind == SETTLED for case in self.cases):
            raise ValueError("the forces that a settlement brings depend on the stiffness: solve again")
        line = self.cases_run.line
        solution = line.solution
        bent = replace(
            solution, v=solution.v * ratio, u=solution.u * ratio, displacements=solution.displacements * ratio
        )
        run = replace(self.cases_run, line=Line(bent, line.bars))
        return replace(self, cases_run=run, softness=self.softness * ratio)

    def reactions(self, support: int) -> Array:
        """(combinations,) upward force of a support on the piece, lbf; negative where it would have to hold it down."""
        return np.asarray(self.combined.reactions[..., support, 1])

    def reaction_by_kind(self, support: int) -> dict[str, tuple[float, float]]:
        """Largest and least upward reaction of each kind of load over its patterns, lbf, unfactored.

        What settled supports shift from one to another may be there or not: it widens the range of the dead load.
        """
        found: dict[str, tuple[float, float]] = {}
        shifted = 0.0
        for case, force in zip(self.cases, self.cases_run.reactions[..., support, 1].tolist(), strict=True):
            if case.kind == SETTLED:
                shifted = force
                continue
            # a load that may be absent presses with nothing at least, and lifts with nothing at most
            high, low = found.get(case.kind, (-np.inf, np.inf) if case.kind == "D" else (0.0, 0.0))
            found[case.kind] = (max(high, force), min(low, force))
        if shifted and "D" in found:
            high, low = found["D"]
            found["D"] = (high + max(shifted, 0.0), low + min(shifted, 0.0))
        return found

    def point_loads_between(self, start: float, end: float) -> list[tuple[float, Array]]:
        """Point loads strictly between two places: (place, force under each combination (combinations,))."""
        near = SNAP * self.length
        by_place: dict[float, Array] = {}
        for i, case in enumerate(self.cases):
            for load in case.loads:
                if load.is_point and start + near < load.start < end - near:
                    by_place.setdefault(load.start, np.zeros(len(self.cases)))[i] += load.P
        if not by_place:
            return []
        places = sorted(by_place)
        forces = self.factors @ np.stack([by_place[x] for x in places], axis=-1)
        return [(x, forces[:, i]) for i, x in enumerate(places)]


def solve_straight(
    length: float, supports: Sequence[Held], loads: Sequence[Applied], *, depth: float, EI: float, GA_s: float,
    sections: Sequence[Section] = (), stands: Sequence[float] = (), parts: Sequence[float] = (),
) -> Straight:  # fmt: skip
    """Solve a level piece for all load cases at once.

    Parameters
    ----------
    length, depth : float
        Over all, and in the plane of the loads. [in]
    EI, GA_s : float
        Bending stiffness [lbf in2] and shear stiffness [lbf] of the full section.
    sections : sequence of Section
        Stretches with less wood.
    stands, parts : sequence of float
        Further places for a moving load; places with load on one side of them only. [in]

    Raises
    ------
    Unstable
        If the supports leave the piece free to move.
    """
    spans = spans_of(length, [held.x for held in supports])
    cases = cases_for(loads, spans, depth, stands=stands, parts=parts)
    run = [[_as_load(load) for load in case.loads] for case in cases]
    settled: list[BeamLoad] = [Settlement(i, held.settles) for i, held in enumerate(supports) if held.settles]
    if settled:
        cases.append(Case(SETTLED, "", ()))
        run.append(settled)
    solved = straight_beam(
        length, [(held.x, held.kind) for held in supports], run, EI, GA_s,
        sections=_covering(sections, length, EI, GA_s),
    )  # fmt: skip
    return Straight(length, tuple(supports), tuple(loads), tuple(cases), tuple(combine(cases)), solved)


def _part(line: Line, start: float, end: float) -> tuple[Line, float]:
    """The bars of a line that touch a stretch of it, as a line of their own, and where that begins."""
    near = SNAP * float(line.length)
    stations = line.stations
    first = int(np.searchsorted(stations[1:-1], start - near))
    last = int(np.searchsorted(stations[1:-1], end + near, side="right"))
    return Line(line.solution, line.bars[first : last + 1]), float(stations[first])


def _shifted(found: Extremes, offset: float) -> Extremes:
    low, s_low, high, s_high = found
    return low, s_low + offset, high, s_high + offset


def _extremes(
    line: Line, quantity: Literal["M", "V"], start: float, end: float, *, both_sides: bool = True
) -> Extremes:
    """As `Line.extremes`, looking only at the bars that touch the stretch."""
    part, offset = _part(line, start, end)
    return _shifted(part.extremes(quantity, start - offset, end - offset, both_sides=both_sides), offset)


def _as_load(load: Applied) -> BeamLoad:
    if load.is_point:
        return PointLoad(load.start, load.P)
    return LineLoad(load.start, load.end, load.w_start, load.w_end)


def _covering(sections: Sequence[Section], length: float, EI: float, GA_s: float) -> list[Section]:
    """Weaker stretches clipped to the piece; where two overlap the weaker counts."""
    edges = sorted({0.0, length, *(min(max(x, 0.0), length) for s in sections for x in (s.s0, s.s1))})
    found = []
    for start, end in pairwise(edges):
        middle = 0.5 * (start + end)
        here = [s for s in sections if s.s0 <= middle <= s.s1]
        if here and end - start > 1e-6 * length:
            found.append(Section(start, end, min([EI, *(s.EI for s in here)]), min([GA_s, *(s.GA_s for s in here)])))
    return found
