"""Deflection of each span against what the finish can bear (NDS 2018 3.5, IBC Table 1604.3, IRC R301.7)."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from typing import Literal, Protocol

import numpy as np

from ...analysis.beams.combinations import Loaded
from ...analysis.beams.load_cases import SETTLED, Case
from ...analysis.beams.solved_beam import SolvedBeam
from ...analysis.frames.member_line import Extremes, Line
from ...analysis.frames.roof_frame import RoofRun
from ...calc.pad import Pad
from ...formulas.wood import deflection as df
from ...model.pieces import Stick
from ...provenance import Source
from ...units import show
from ...values.factors import DeflectionLimits, Found, deflection_limit
from ..core.govern import stated, writing
from ..core.material import WoodMaterial
from ..core.result import Check, judge
from .bracing import Span

Array = np.ndarray
FEW, POINTS = 24, 41  # rows that are looked at without a first glance; points of that glance
UNBENT = 1e-6  # in; a load that does not bend this piece needs no check
CLAUSE = "IBC Table 1604.3, IRC R301.7, NDS 2018 3.5"
LASTING = ("D", SETTLED)  # what creeps
WHY_TOTAL = (
    "total: K_cr times the dead-load deflection plus the rest (NDS eq. 3.5-1), which is never less than the D + L "
    "of IBC Table 1604.3"
)
FROM_FRAME = "from the frame analysis, shear included"


def limits_of(stick: Stick, service: Literal["floor", "roof"], *, steep_rafter: bool = False) -> DeflectionLimits:
    """The limits that go with the finish; the user's own take their place, with their reason as the source."""
    found = deflection_limit(service, stick.finish, steep_rafter=steep_rafter)
    own = Source(stick.limit_why or "limit set in the job file", "given")
    if stick.limit_live:
        mine = Found(stick.limit_live, own, "set in the job file")
        found = replace(found, live=mine, snow=mine, wind=mine)
    if stick.limit_total:
        found = replace(found, total=Found(stick.limit_total, own, "set in the job file"))
    return found


def finish_checks(stick: Stick, service: Literal["floor", "roof"]) -> list[Check]:
    """What the limits cannot answer: a limit of one's own that is laxer than the tables', and wood under masonry."""
    tables, checks = deflection_limit(service, stick.finish), []
    if stick.finish == "masonry veneer":
        text = (
            "the code lets wood carry masonry or veneer in a few listed cases only: is this one? An engineer must say"
        )
        checks.append(stated(stick.name, "wood under masonry", "IBC 2304", "refer", text))
    for words, mine, theirs in (
        ("live", stick.limit_live, max(tables.live.value, tables.snow.value, tables.wind.value)),
        ("total", stick.limit_total, tables.total.value),
    ):
        if mine is not None and mine < theirs:
            text = f"length/{mine} is laxer than the length/{theirs} of the tables; the reason given: {stick.limit_why}"
            checks.append(stated(stick.name, f"own limit for {words} load", CLAUSE, "refer", text))
    return checks


def deflection_checks(
    subject: str, solved: SolvedBeam, spans: Sequence[Span], wood: WoodMaterial, limits: DeflectionLimits
) -> list[Check]:
    """Live, snow, wind and total deflection; for each the worst span and combination."""
    return _checks(subject, _Level(solved), spans, wood, limits)


def roof_deflection(
    name: str, run: RoofRun, start: float, rafter: bool, wood: WoodMaterial, limits: DeflectionLimits
) -> list[Check]:
    """Deflection of a rafter above its wall, or of a tie, square to it, against the same limits."""
    line = Line(run.solution, run.left_bars if rafter else run.tie_bars)
    return _checks(name, _Framed(run, line), [Span(start, float(line.length), False)], wood, limits)


class _Solved(Protocol):
    """What deflection needs of a solved piece. Rows of factors are (rows, cases)."""

    @property
    def cases(self) -> Sequence[Case]: ...

    @property
    def combinations(self) -> Sequence[Loaded]: ...

    @property
    def factors(self) -> Array: ...

    def bent(self, span: Span, rows: Array) -> Extremes:
        """Least and largest deflection in a span (up positive), and where."""

    @property
    def line(self) -> Line: ...


class _Level:
    """A level piece."""

    def __init__(self, solved: SolvedBeam) -> None:
        self.cases, self.combinations, self.factors = solved.cases, solved.combinations, solved.factors
        self.solved, self.line = solved, solved.cases_run.line

    def bent(self, span: Span, rows: Array) -> Extremes:
        return self.solved.deflections(span.start, span.end, span.overhang, rows)


class _Framed:
    """A stick of a roof frame."""

    def __init__(self, run: RoofRun, line: Line) -> None:
        self.cases, self.combinations, self.factors, self.line = run.cases, run.combinations, run.factors, line

    def bent(self, span: Span, rows: Array) -> Extremes:
        return self.line.combine(rows).sag_between(span.start, span.end)


@dataclass(frozen=True, eq=False)
class _Question:
    """One kind of deflection: its limit, and a row of factors on the cases for each combination that counts."""

    what: str
    limit: Found[int]
    names: list[str]
    lasting: list[Array]
    passing: list[Array]
    total: bool = False

    def add(self, name: str, lasting: Array, passing: Array) -> None:
        self.names.append(name)
        self.lasting.append(lasting)
        self.passing.append(passing)


def _questions(solved: _Solved, limits: DeflectionLimits) -> list[_Question]:
    """Variable loads alone, wind alone, and all of it with creep (wind is not part of D + L)."""
    live = _Question("deflection under live load", limits.live, [], [], [])
    snow = _Question("deflection under snow or roof live load", limits.snow, [], [], [])
    wind = _Question("deflection under wind", limits.wind, [], [], [])
    total = _Question("total deflection with creep", limits.total, [], [], [], total=True)
    stays = np.array([case.kind in LASTING for case in solved.cases], dtype=float)
    blows = np.array([case.kind == "W" for case in solved.cases], dtype=float)
    for combination, row in zip(solved.combinations, solved.factors, strict=True):
        passing = row * (1.0 - stays)
        if "W" in combination.kinds:
            wind.add(combination.name, 0.0 * row, row * blows)
            continue
        total.add(combination.name, row * stays, passing)
        if passing.any():
            (live if "L" in combination.kinds else snow).add(combination.name, 0.0 * row, passing)
    return [question for question in (live, snow, wind, total) if question.names]


def _checks(
    subject: str, solved: _Solved, spans: Sequence[Span], wood: WoodMaterial, limits: DeflectionLimits
) -> list[Check]:  # fmt: skip
    K_cr = float(wood.K_cr.value)
    questions = _questions(solved, limits)
    if not questions or not spans:
        return []
    worst: dict[str, list[_Place]] = {one.what: [] for one in questions}
    for span in spans:
        rows = [_promising(solved, span, one, K_cr) for one in questions]
        found = _largest(solved.bent(span, np.concatenate([factors for _, factors in rows])))
        first = 0
        for one, (numbers, _) in zip(questions, rows, strict=True):
            last = first + len(numbers)
            cap = limits.total_at_most if one.total else None
            worst[one.what].append(_worst(span, one, cap, numbers, *(column[first:last] for column in found)))
            first = last
    checks = []
    for one in questions:
        at = max(worst[one.what], key=lambda place: np.inf if np.isnan(place.ratio) else place.ratio)
        if not at.size <= UNBENT:
            checks.append(_check(subject, solved, one, at, wood, limits.total_at_most if one.total else None))
    return checks


def _promising(solved: _Solved, span: Span, one: _Question, K_cr: float) -> tuple[Array, Array]:
    """Numbers and factors of the rows that may be the worst in a span; where there are many, a first glance tells.

    It looks at some points, which miss a few per cent of a smooth curve at most; what comes within a tenth of the
    largest is kept and read exactly.
    """
    rows = (K_cr if one.total else 1.0) * np.array(one.lasting) + np.array(one.passing)
    if len(rows) <= FEW:
        return np.arange(len(rows)), rows
    s = np.linspace(span.start, span.end, POINTS)
    v = solved.line.at("v", s)
    if not span.overhang:
        v = v - v[:, :1] - (v[:, -1:] - v[:, :1]) * (s - span.start) / span.length
    seen = np.max(np.abs(rows @ v), axis=-1)
    kept = np.flatnonzero(~(seen < 0.9 * np.max(seen)))
    return kept, rows[kept]


def _largest(extremes: Extremes) -> tuple[Array, Array, Array]:
    """Size of the deflection without sign, where it is, and its sign (up positive); under each row."""
    low, s_low, high, s_high = extremes
    down = np.abs(low) >= np.abs(high)
    return np.where(down, np.abs(low), np.abs(high)), np.where(down, s_low, s_high), np.where(down, -1.0, 1.0)


@dataclass(frozen=True)
class _Place:
    """The worst of one span: which row, how much, where, which way (up positive), and what is allowed."""

    span: Span
    row: int
    size: float
    place: float
    sign: float
    allowed: float

    @property
    def ratio(self) -> float:
        return self.size / self.allowed


def _worst(
    span: Span, one: _Question, cap: Found[float] | None, numbers: Array, size: Array, place: Array, sign: Array
) -> _Place:  # fmt: skip
    row = int(np.argmax(np.where(np.isnan(size), np.inf, size)))
    allowed = _counted(span) / one.limit.value
    if cap is not None:
        allowed = min(allowed, cap.value)
    return _Place(span, int(numbers[row]), float(size[row]), float(place[row]), float(sign[row]), allowed)


def _counted(span: Span) -> float:
    """A cantilever counts as twice its length (IBC Table 1604.3, IRC R301.7)."""
    return span.length * (2.0 if span.overhang else 1.0)


def _check(
    subject: str, solved: _Solved, one: _Question, at: _Place, wood: WoodMaterial, cap: Found[float] | None
) -> Check:  # fmt: skip
    span = at.span
    where = f"{'overhang' if span.overhang else 'span'} from {show(span.start, 'length')} to {show(span.end, 'length')}"
    pad = Pad()
    if writing():
        _write(pad, solved, one, at, wood, cap)
    return Check(
        subject, one.what, CLAUSE, judge(at.ratio), "small length", at.size, at.allowed, at.ratio, one.names[at.row],
        where, tuple(pad.steps), (WHY_TOTAL,) if one.total else (),
    )  # fmt: skip


def _write(pad: Pad, solved: _Solved, one: _Question, at: _Place, wood: WoodMaterial, cap: Found[float] | None) -> None:
    if one.total:
        lasting, passing = (
            at.sign * value for value in _read(solved, at, (one.lasting[at.row], one.passing[at.row]))
        )  # fmt: skip
        K_cr = pad.take("K_cr", wood.K_cr.value, note=wood.K_cr.why, source=wood.K_cr.source)
        Delta_LT = pad.take("Delta_LT", lasting, "in", note=f"dead load, {FROM_FRAME}")
        Delta_ST = pad.take("Delta_ST", passing, "in", note=f"all other load, {FROM_FRAME}")
        pad(df.long_term_deflection, K_cr=K_cr, Delta_LT=Delta_LT, Delta_ST=Delta_ST)
    else:
        pad.take("Delta", at.size, "in", note=f"{FROM_FRAME}, {'up' if at.sign > 0 else 'down'}")
    L = pad.take("L", _counted(at.span), "in", note="twice the overhang" if at.span.overhang else "between supports")
    n = pad.take("n", float(one.limit.value), note=one.limit.reason, source=one.limit.source)
    allowed = pad(df.deflection_limit, L=L, n=n)
    if cap is not None and cap.value < allowed:
        pad.take("Delta_limit", cap.value, "in", note=cap.reason, source=cap.source)


def _read(solved: _Solved, at: _Place, rows: Sequence[Array]) -> Iterator[float]:
    """Deflection at one place under each row, up positive, measured as in `bent`."""
    span, line = at.span, solved.line.combine(np.array(rows))
    here = line.at("v", at.place)
    if not span.overhang:
        start, end = line.at("v", span.start), line.at("v", span.end)
        here = here - start - (end - start) * (at.place - span.start) / span.length
    yield from here.tolist()
