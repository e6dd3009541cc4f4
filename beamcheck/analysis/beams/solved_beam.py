"""A level piece under all its load cases and combinations: forces, reactions, deflections, all from one solution.

A piece may be read in more than one way: with shear deflection and without, on supports that stand still and on some
that come down with what carries them. Where the ways differ the worst of them counts, place by place.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from dataclasses import field, replace
from functools import cached_property, lru_cache
from itertools import pairwise
from typing import Literal

import numpy as np

from ...records import dataclass
from ..frames.beam_frame import SNAP, BeamLoad, LineLoad, PointLoad, Section, Settlement
from ..frames.member_line import BeamResult, Extremes, Line, straight_beam
from .combinations import Loaded, combine, matrix
from .load_cases import DRIES, MAY_LIFT, SETTLED, Applied, Case, Stretch, cases_for, spans_of

Array = np.ndarray
BENDING_ONLY, GIVES = "shear deflection left out", "supports that give"  # the words for a way, besides the first
KEPT = 64  # solutions that are kept for the next piece that is the same in all its numbers
LARGE = 400  # load cases times supports; a larger solution is not kept


@dataclass(frozen=True)
class BeamSupport:
    """A support of a level piece: where it is, how it holds ('pin', 'roller', 'fixed'), how far it settles (in).

    One that stands on a beam comes down with it: by `gives` under each pound that it takes (in/lbf), and by up to
    `sags` under all else that the beam carries (in), creep included. Both are 0 where it stands still.
    """

    x: float
    kind: str = "roller"
    settles: float = 0.0
    gives: float = 0.0
    sags: float = 0.0


@dataclass(frozen=True, eq=False)
class Way:
    """The same piece read in another way. Without `forces` only its deflections count."""

    words: str
    run: BeamResult
    forces: bool


@dataclass(frozen=True, eq=False)
class SolvedBeam:
    """The solved piece. Leading axis of `cases_run` is the load cases, of `combined` the combinations."""

    length: float
    supports: tuple[BeamSupport, ...]
    loads: tuple[Applied, ...]
    cases: tuple[Case, ...]
    combinations: tuple[Loaded, ...]
    cases_run: BeamResult
    read: dict[tuple[object, ...], Extremes] = field(default_factory=dict)  # extremes already looked for
    softness: float = 1.0  # deflections of this piece over those in `read`, which are of the piece as it was solved
    as_solved: SolvedBeam | None = None  # where this one is softer
    others: tuple[Way, ...] = ()
    again: Callable[[Sequence[Sequence[Applied]]], list[BeamResult]] | None = None  # other loads, each way of forces

    @cached_property
    def factors(self) -> Array:
        """(combinations, cases)."""
        return matrix(self.combinations)

    @cached_property
    def combined(self) -> BeamResult:
        """The solution under each combination, in the first way."""
        if len(self.cases) * len(self.supports) > LARGE:
            return self.cases_run.combine(self.factors)
        return _combined(self.cases_run, tuple(one.factors for one in self.combinations))

    @cached_property
    def _ways(self) -> list[BeamResult]:
        """The solution under each combination in every way whose forces count."""
        return [self.combined, *(way.run.combine(self.factors) for way in self.others if way.forces)]

    @cached_property
    def spans(self) -> list[Stretch]:
        """Stretches between supports and overhangs."""
        return spans_of(self.length, [support.x for support in self.supports])

    @property
    def determinate(self) -> bool:
        """Whether statics alone gives the forces."""
        return is_determinate(self.supports)

    @cached_property
    def C_D(self) -> Array:
        """(combinations,)."""
        return np.array([combination.C_D for combination in self.combinations])

    def moments(self, start: float, end: float) -> Extremes:
        """Least and largest moment between two places under each combination, and where: four (combinations,)."""
        return self._once(("M", start, end), lambda: self._in_all_ways("M", start, end))

    def shears(self, start: float, end: float, *, both_sides: bool = True) -> Extremes:
        """The same for the shear; without `both_sides` what lies just outside the two places does not count."""
        key = ("V", start, end, both_sides)
        return self._once(key, lambda: self._in_all_ways("V", start, end, both_sides=both_sides))

    def _in_all_ways(
        self, quantity: Literal["M", "V"], start: float, end: float, *, both_sides: bool = True
    ) -> Extremes:
        return envelope([_extremes(way.line, quantity, start, end, both_sides=both_sides) for way in self._ways])

    def least_moments_at(self, places: Sequence[float]) -> Array:
        """(combinations, places) the least moment at some places."""
        return np.asarray(
            np.min([way.line.at("M", np.asarray(places, dtype=float)) for way in self._ways], axis=0), dtype=float
        )

    def shear_beside(
        self, support: int, *, right: bool, taken_off: Callable[[Applied], Sequence[Applied]]
    ) -> Array:  # fmt: skip
        """(combinations,) size of the shear just beside a support, with a part of some loads taken off beforehand.

        `taken_off` says what of a load is left out; all of that lies on the same side of the support.
        """
        numbers: dict[Applied, int] = {}
        gone = [(i, less) for i, case in enumerate(self.cases) for load in case.loads for less in taken_off(load)]
        for _, less in gone:
            numbers.setdefault(less, len(numbers))
        by_case = np.zeros((len(self.cases), len(numbers)))
        for i, less in gone:
            by_case[i, numbers[less]] += 1.0
        x, found = self.supports[support].x, []
        for way, alone in zip(self._ways, self._beside(support, right, list(numbers)), strict=True):
            V = way.line.at("V", x, "right" if right else "left")
            found.append(np.abs(V - self.factors @ (by_case @ alone)))
        return np.asarray(np.max(found, axis=0))

    def _beside(self, support: int, right: bool, loads: Sequence[Applied]) -> list[Array]:
        """(loads,) shear just beside a support under each of some loads alone, in each way whose forces count."""
        x = self.supports[support].x
        if not loads:
            return [np.zeros(0) for _ in self._ways]
        before = np.array([support.x < x or (right and support.x == x) for support in self.supports], dtype=float)
        # what lies left of the place: all of a load is on one side of it
        middles = [0.5 * (load.start + load.end) for load in loads]
        passed = [middle < x or (right and middle == x) for middle in middles]
        left = np.array([load.total if over else 0.0 for load, over in zip(loads, passed, strict=True)])
        return [reactions @ before - left for reactions in self._shares(loads)]

    def _shares(self, loads: Sequence[Applied]) -> list[Array]:
        """(loads, supports) reactions under each of some loads alone, in each way whose forces count."""
        if self.again is None:
            raise ValueError("this piece was not solved in a way that lets it be solved again")
        if self.determinate and len(self.supports) == 2:
            x1, x2 = (support.x for support in self.supports)
            total = np.array([load.total for load in loads])
            far = np.array([load.moment_about(x1) for load in loads]) / (x2 - x1)
            return [np.stack([total - far, far], axis=-1)] * len(self._ways)
        return [np.asarray(run.reactions[..., 1]) for run in self.again([[load] for load in loads])]

    def deflections(self, start: float, end: float, overhang: bool, factors: Array) -> Extremes:
        """Least and largest v (up positive) under rows of factors on the cases (rows, cases): four (rows,).

        An overhang is measured from its support, anything else from the line through its two ends.
        """

        def in_way(run: BeamResult) -> Extremes:
            part, offset = _part(run.line, start, end)
            bent = part.combine(factors)
            find_in = bent.sag_between if not overhang else lambda a, b: bent.extremes("v", a, b)
            return _shifted(find_in(start - offset, end - offset), offset)

        def find() -> Extremes:
            first = self.as_solved or self
            return envelope([in_way(run) for run in (first.cases_run, *(way.run for way in first.others))])

        low, s_low, high, s_high = self._once(("v", start, end, overhang, factors.tobytes()), find)
        return low * self.softness, s_low, high * self.softness, s_high

    def _once(self, key: tuple[object, ...], find: Callable[[], Extremes]) -> Extremes:
        if key not in self.read:
            self.read[key] = find()
        return self.read[key]

    def softer(self, ratio: float) -> SolvedBeam:
        """The same piece of wood whose every stiffness is `ratio` times smaller: the same forces, larger deflections.

        Raises ValueError if supports settle or give: then the forces change too.
        """
        if any(case.kind == SETTLED for case in self.cases) or any(support.gives for support in self.supports):
            raise ValueError("the forces that moving supports bring depend on the stiffness: solve again")
        others = tuple(replace(way, run=_softer(way.run, ratio)) for way in self.others)
        return replace(self, cases_run=_softer(self.cases_run, ratio), softness=self.softness * ratio, others=others,
                       as_solved=self.as_solved or self)  # fmt: skip

    def reactions(self, support: int) -> Array:
        """(combinations,) upward force of a support on the piece in the first way, lbf; negative: it holds it down."""
        return np.asarray(self.combined.reactions[..., support, 1])

    def pressing(self, support: int) -> Array:
        """(combinations,) the largest upward force of a support, lbf."""
        return np.asarray(np.max([way.reactions[..., support, 1] for way in self._ways], axis=0))

    def lifting(self, support: int) -> Array:
        """(combinations,) the least upward force of a support, lbf, without the weight of water that dries out."""
        least = np.min([way.reactions[..., support, 1] for way in self._ways], axis=0)
        dries = self._water(support)
        if dries <= 0.0:
            return np.asarray(least)
        dead = [case.kind == "D" for case in self.cases]
        there = self.factors @ np.array(dead, dtype=float) + self.factors @ np.array(
            [case.kind == DRIES and case.pattern != MAY_LIFT for case in self.cases], dtype=float
        )
        return np.asarray(least - there * dries)

    def _water(self, support: int) -> float:
        """Upward force of what dries out, in the first way; 0 where nothing does."""
        for case, force in zip(self.cases, self.cases_run.reactions[..., support, 1].tolist(), strict=True):
            if case.kind == DRIES and case.pattern != MAY_LIFT:
                return float(force)
        return 0.0

    def whole_force(self, loads: Sequence[Applied]) -> Array:
        """(combinations,) all of some point loads in one place, lbf: patterns do not ease it, nor what lifts."""
        total = np.zeros(len(self.combinations))
        for kind in {load.kind for load in loads}:
            most = sum(max(load.P, 0.0) for load in loads if load.kind == kind)
            of_kind = np.array([case.kind == kind for case in self.cases])
            total += most * np.max(self.factors * of_kind, axis=1)
        return total

    def each_reaction(self, support: int) -> tuple[tuple[Loaded, ...], Array]:
        """Combinations and the upward force under each; where the ways differ both the largest and the least."""
        most, least = self.pressing(support), self.lifting(support)
        if np.allclose(most, least, rtol=1e-9, atol=1e-9):
            return self.combinations, most
        return (*self.combinations, *self.combinations), np.concatenate([most, least])

    def reaction_by_kind(self, support: int) -> dict[str, tuple[float, float]]:
        """Largest and least upward reaction of each kind of load over its patterns and ways, lbf, unfactored.

        What settled supports shift from one to another, and the water of green wood, may be there or not: that widens
        the range of the dead load.
        """
        found: dict[str, tuple[float, float]] = {}
        for run in [self.cases_run, *(way.run for way in self.others if way.forces)]:
            for kind, (high, low) in self._by_kind(run, support).items():
                before = found.get(kind, (high, low))
                found[kind] = (max(before[0], high), min(before[1], low))
        return found

    def _by_kind(self, run: BeamResult, support: int) -> dict[str, tuple[float, float]]:
        found: dict[str, tuple[float, float]] = {}
        forces = run.reactions[..., support, 1].tolist()
        for case, force in zip(self.cases, forces, strict=True):
            if case.kind in (SETTLED, DRIES):
                shifted_by = force if case.kind == SETTLED else -force
                high, low = found.get("D", (0.0, 0.0))
                found["D"] = (high + max(shifted_by, 0.0), low + min(shifted_by, 0.0))
                continue
            # a load that may be absent presses with nothing at least, and lifts with nothing at most
            high, low = found.get(case.kind, (-np.inf, np.inf) if case.kind == "D" else (0.0, 0.0))
            found[case.kind] = (max(high, force), min(low, force))
        return found


def is_determinate(supports: Sequence[BeamSupport]) -> bool:
    """Whether statics alone gives the forces: two supports that let it turn, or one that does not."""
    fixed = sum(support.kind == "fixed" for support in supports)
    return len(supports) + fixed == 2


def solve_beam(
    length: float, supports: Sequence[BeamSupport], loads: Sequence[Applied], *, depth: float, EI: float, GA_s: float,
    sections: Sequence[Section] = (), stands: Sequence[float] = (), parts: Sequence[float] = (),
    loaded: Sequence[Stretch] = (), bending_only: float = 0.0,
) -> SolvedBeam:  # fmt: skip
    """Solve a level piece for all load cases at once.

    `length`, `depth`: over all, and in the plane of the loads [in]. `EI`, `GA_s`: bending stiffness [lbf in2] and shear
    stiffness [lbf] of the full section. `sections`: sequence of Section: stretches with less wood. `stands`, `parts`:
    further places for a moving load; places with load on one side of them only [in]. `loaded`: sequence of (start,
    end): the stretches that carry load or not in patterns; by default the spans and overhangs [in]. `bending_only`:
    also without shear deflection: bending stiffness over the one above. 0: not tried. Raises Unstable if the supports
    leave the piece free to move.
    """
    spans = loaded or spans_of(length, [support.x for support in supports])
    cases = cases_for(loads, spans, depth, stands=stands, parts=parts)
    if any(support.settles or support.sags for support in supports):
        cases.append(Case(SETTLED, "", ()))
    covering = _covering(sections, length, EI, GA_s)
    determinate = is_determinate(supports)

    def given(case_loads: Iterable[Iterable[BeamLoad]], stiff: float, *, shear: bool, gives: bool) -> _Given:
        held = tuple(
            (support.x, 1.0 / support.gives if gives and support.gives and support.kind == "roller" else support.kind)
            for support in supports
        )
        weaker = tuple(Section(s.s0, s.s1, stiff * s.EI, s.GA_s if shear else np.inf) for s in covering)
        loads = tuple(map(tuple, case_loads))
        return length, held, loads, stiff * EI, GA_s if shear else np.inf, weaker

    ways: list[tuple[str, float, bool, bool]] = [("", 1.0, True, False)]
    if bending_only:
        ways.append((BENDING_ONLY, bending_only, False, False))
    if not determinate and any(support.gives or support.sags for support in supports):
        ways.append((GIVES, 1.0, True, True))

    def in_way(way: tuple[str, float, bool, bool]) -> _Given:
        _, stiff, shear, gives = way
        down = [
            Settlement(i, support.settles + (support.sags if gives else 0.0)) for i, support in enumerate(supports)
            if support.settles or (gives and support.sags)
        ]  # fmt: skip
        made: list[list[BeamLoad]] = [
            [*down] if case.kind == SETTLED else [_as_load(load) for load in case.loads] for case in cases
        ]
        return given(made, stiff, shear=shear, gives=gives)

    def again(cases: Sequence[Sequence[Applied]]) -> list[BeamResult]:
        counted = ways[:1] if determinate else ways
        made = [[_as_load(load) for load in case] for case in cases]
        return [_solve(given(made, stiff, shear=shear, gives=gives)) for _, stiff, shear, gives in counted]

    combinations = tuple(combine(cases))
    factors = tuple(one.factors for one in combinations)
    small = len(cases) * len(supports) <= LARGE
    (first, *rest), read = (_numbers if small else _numbers.__wrapped__)(tuple(map(in_way, ways)), factors)
    others = tuple(Way(way[0], run, not determinate) for way, run in zip(ways[1:], rest, strict=True))
    return SolvedBeam(
        length, tuple(supports), tuple(loads), tuple(cases), combinations, first, read, others=others, again=again
    )


_Given = tuple[
    float, tuple[tuple[float, str | float], ...], tuple[tuple[BeamLoad, ...], ...], float, float, tuple[Section, ...]
]  # fmt: skip - all that a solution hangs on


@lru_cache(maxsize=KEPT)
def _numbers(
    ways: tuple[_Given, ...], factors: tuple[tuple[float, ...], ...]
) -> tuple[list[BeamResult], dict[tuple[object, ...], Extremes]]:
    """The solution in each way, and the place for what is read of it under combinations with those `factors`.

    Of pieces that are alike in all numbers it is found once; what they and their loads are called is no part of it.
    """
    return [_solve(way) for way in ways], {}


@lru_cache(maxsize=KEPT)
def _combined(run: BeamResult, factors: tuple[tuple[float, ...], ...]) -> BeamResult:
    """A solution under combinations; pieces alike have the same one."""
    return run.combine(factors)


def _solve(given: _Given) -> BeamResult:
    length, held, loads, EI, GA_s, sections = given
    return straight_beam(length, held, loads, EI, GA_s, sections=sections)


def envelope(found: Sequence[Extremes]) -> Extremes:
    """The least of the least and the largest of the largest, each with its place."""
    if len(found) == 1:
        return found[0]
    lows, s_lows, highs, s_highs = (np.stack(column) for column in zip(*found, strict=True))
    at_low, at_high = np.argmin(lows, axis=0)[None], np.argmax(highs, axis=0)[None]
    return (
        np.take_along_axis(lows, at_low, 0)[0], np.take_along_axis(s_lows, at_low, 0)[0],
        np.take_along_axis(highs, at_high, 0)[0], np.take_along_axis(s_highs, at_high, 0)[0],
    )  # fmt: skip


def _softer(run: BeamResult, ratio: float) -> BeamResult:
    line = run.line
    solution = line.solution
    bent = replace(solution, v=solution.v * ratio, u=solution.u * ratio, displacements=solution.displacements * ratio)
    return replace(run, line=line.of(bent))


def _part(line: Line, start: float, end: float) -> tuple[Line, float]:
    """The bars of a line that touch a stretch of it, as a line of their own, and where that begins."""
    near = SNAP * float(line.length)
    stations = line.stations
    first = int(np.searchsorted(stations[1:-1], start - near))
    last = int(np.searchsorted(stations[1:-1], end + near, side="right"))
    return line.part(first, min(last, len(line.bars) - 1)), float(stations[first])


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
