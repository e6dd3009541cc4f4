"""Deflection of each span against what the finish can bear (NDS 2018 3.5, IBC Table 1604.3, IRC R301.7)."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import field, replace
from typing import TYPE_CHECKING, Literal, Protocol

import numpy as np

from ...analysis.beams.combinations import Loaded
from ...analysis.beams.load_cases import DRIES, PATTERNED, Case
from ...analysis.beams.solved_beam import SolvedBeam
from ...analysis.frames.member_line import Extremes, Line
from ...calc.pad import Pad
from ...formulas.wood import deflection as df
from ...model.sticks import Stick
from ...provenance import Source
from ...records import dataclass
from ...units import show
from ...values.factors import DeflectionLimits, Found, deflection_limit
from ..core.asking.question import ask
from ..core.result import Check
from ..core.wood.govern import writing
from ..core.wood.material import ONE, Factor, WoodMaterial
from ..core.wood.sticks import FROM_FRAME
from .bracing import Span
from .seats import told_apart

if TYPE_CHECKING:
    from ...analysis.roofs.roof_frame import RoofRun
    from ...model.made.sag import SagLimit

Array = np.ndarray
_Ways = tuple[float, float, str]  # deflection under what lasts and under the rest, in; the words of the way it is worst
FEW, POINTS = 24, 41  # rows that are looked at without a first glance; points of that glance
UNBENT = 1e-6  # in; a load that does not bend this piece needs no check
CLAUSE = "IBC Table 1604.3, IRC R301.7, NDS 2018 3.5"
TOTAL, INCHES = "beam.deflection.total", "beam.deflection.inches"
LASTING = ("D", DRIES)  # what creeps; a settlement is there once and does not grow with it
BY_CODE = (
    "as the code counts it: of the dead load only the part that comes with time, beside all other load (IBC Table "
    "1604.3, footnote d)"
)
WITH_CREEP = "the dead-load deflection times the creep factor, and the rest (NDS 2018 eq. 3.5-1)"


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
        question = ask("wood_under_masonry", stick.name)
        checks.append(Check.refers("beam.masonry", stick.name, "wood under masonry", "IBC 2304", text, ask=question))
    for words, mine, theirs in (
        ("live", stick.limit_live, max(tables.live.value, tables.snow.value, tables.wind.value)),
        ("total", stick.limit_total, tables.total.value),
    ):
        if mine is not None and mine < theirs:
            text = f"length/{mine} is laxer than the length/{theirs} of the tables; the reason given: {stick.limit_why}"
            question = told_apart(ask("own_limit", stick.name, load=words, mine=f"{mine}", theirs=f"{theirs}"), words)
            what = f"own limit for {words} load"
            checks.append(Check.refers("beam.own_limit", stick.name, what, CLAUSE, text, ask=question))
    return checks


def deflection_checks(
    subject: str, solved: SolvedBeam, spans: Sequence[Span], wood: WoodMaterial, limits: DeflectionLimits,
    inches: Sequence[SagLimit] = (),
) -> list[Check]:  # fmt: skip
    """Live, snow, wind and total deflection, and limits in inches; for each the worst span and combination."""
    return _checks(subject, _Level(solved), spans, wood, limits, inches)


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
    def lines(self) -> Sequence[tuple[Line, str]]:
        """The bent line in each way in which the piece is read, with the words for the way; the first comes first."""


class _Level:
    """A level piece."""

    def __init__(self, solved: SolvedBeam) -> None:
        self.cases, self.combinations, self.factors = solved.cases, solved.combinations, solved.factors
        self.solved = solved
        others = [(way.run.line, way.words) for way in solved.others]
        self.lines = [(solved.cases_run.line, "shear included"), *others]

    def bent(self, span: Span, rows: Array) -> Extremes:
        return self.solved.deflections(span.start, span.end, span.overhang, rows)


class _Framed:
    """A stick of a roof frame."""

    def __init__(self, run: RoofRun, line: Line) -> None:
        self.cases, self.combinations, self.factors = run.cases, run.combinations, run.factors
        self.line, self.lines = line, [(line, "shear included")]

    def bent(self, span: Span, rows: Array) -> Extremes:
        return self.line.combine(rows).sag_between(span.start, span.end)


@dataclass(frozen=True, eq=False)
class _Kind:
    """One kind of deflection: its limit, and a row of factors on the cases for each combination that counts.

    `dead` multiplies what lasts: 0 where only variable loads count, the share of the code, or the creep factor.
    """

    id: str
    what: str
    limit: Found[int]
    dead: Factor = ONE
    cap: Found[float] | None = None
    names: list[str] = field(default_factory=list)
    lasting: list[Array] = field(default_factory=list)
    passing: list[Array] = field(default_factory=list)

    def add(self, name: str, lasting: Array, passing: Array) -> None:
        self.names.append(name)
        self.lasting.append(lasting)
        self.passing.append(passing)

    @property
    def total(self) -> bool:
        return self.id == TOTAL

    @property
    def with_creep(self) -> bool:
        return self.total and bool(np.all(np.asarray(self.dead.value) > 1.0))


def total_counts(limits: DeflectionLimits, wood: WoodMaterial) -> Factor:
    """What multiplies the dead-load deflection in the total: the share of the code for the limits of its tables.

    The creep factor where a limit asks for long-term deflection (what carries masonry) or is the user's own.
    """
    return wood.K_cr if counts_creep(limits) else wood.dead_share


def counts_creep(limits: DeflectionLimits) -> bool:
    """Whether the total is that of the long run: of what carries masonry, and against a limit of the user's own."""
    return limits.total_long_term or limits.total.source.how == "given"


def _kinds(solved: _Solved, limits: DeflectionLimits, wood: WoodMaterial) -> list[_Kind]:
    """Variable loads alone, wind alone, and all of it with dead load (wind is not part of D + L)."""
    live = _Kind("beam.deflection.live", "deflection under live load", limits.live)
    snow = _Kind("beam.deflection.snow", "deflection under snow or roof live load", limits.snow)
    wind = _Kind("beam.deflection.wind", "deflection under wind", limits.wind)
    total = _Kind(TOTAL, "total deflection", limits.total, total_counts(limits, wood), limits.total_at_most)
    stays = np.array([case.kind in LASTING for case in solved.cases], dtype=float)
    varies = np.array([case.kind in PATTERNED for case in solved.cases], dtype=float)
    blows = np.array([case.kind == "W" for case in solved.cases], dtype=float)
    for combination, row in zip(solved.combinations, solved.factors, strict=True):
        if "W" in combination.kinds:
            wind.add(combination.name, 0.0 * row, row * blows)
            continue
        total.add(combination.name, row * stays, row * (1.0 - stays))
        if (variable := row * varies).any():
            (live if "L" in combination.kinds else snow).add(combination.name, 0.0 * row, variable)
    return [kind for kind in (live, snow, wind, total) if kind.names]


def _in_inches(solved: _Solved, wood: WoodMaterial, given: SagLimit) -> _Kind:
    """One limit in inches: what lasts counts by its creep, or by what of that comes once the thing is in."""
    K_cr, source = wood.K_cr, Source(given.by or "limit set in the job file", "given")
    counts = {
        "all, with creep": K_cr,
        "once it is in": Factor(float(K_cr.value) - 1.0, "K_cr - 1: what creep adds later", K_cr.source),
        "variable load": Factor(0.0, "not counted here"),
    }[given.counts]
    cap = Found(given.most, source, f"{given.what}: {show(given.most, 'small length')} at most, {given.counts}")
    one = _Kind(
        INCHES, f"sag for {given.what}", Found(1, source, "the limit is in inches"), counts, cap,
    )  # fmt: skip
    stays = np.array([case.kind in LASTING for case in solved.cases], dtype=float)
    for combination, row in zip(solved.combinations, solved.factors, strict=True):
        one.add(combination.name, row * stays, row * (1.0 - stays))
    return one


def _checks(
    subject: str, solved: _Solved, spans: Sequence[Span], wood: WoodMaterial, limits: DeflectionLimits,
    inches: Sequence[SagLimit] = (),
) -> list[Check]:  # fmt: skip
    kinds = [*_kinds(solved, limits, wood), *(_in_inches(solved, wood, given) for given in inches)]
    if not kinds or not spans:
        return []
    worst: dict[str, list[_Place]] = {one.what: [] for one in kinds}
    for span in spans:
        rows = [_promising(solved, span, one) for one in kinds]
        found = _largest(solved.bent(span, np.concatenate([factors for _, factors in rows])))
        first = 0
        for one, (numbers, _) in zip(kinds, rows, strict=True):
            last = first + len(numbers)
            worst[one.what].append(_worst(span, one, numbers, *(column[first:last] for column in found)))
            first = last
    checks = []
    for one in kinds:
        at = max(worst[one.what], key=lambda place: np.inf if np.isnan(place.ratio) else place.ratio)
        if not at.size <= UNBENT:
            checks.append(_check(subject, solved, one, at, wood))
    return checks


def _promising(solved: _Solved, span: Span, one: _Kind) -> tuple[Array, Array]:
    """Numbers and factors of the rows that may be the worst in a span; where there are many, a first glance tells.

    It looks at some points, which miss a few per cent of a smooth curve at most; what comes within a tenth of the
    largest is kept and read exactly.
    """
    rows = float(one.dead.value) * np.array(one.lasting) + np.array(one.passing)
    if len(rows) <= FEW:
        return np.arange(len(rows)), rows
    s = np.linspace(span.start, span.end, POINTS)
    v = solved.lines[0][0].at("v", s)
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
    span: Span, one: _Kind, numbers: Array, size: Array, place: Array, sign: Array
) -> _Place:  # fmt: skip
    row = int(np.argmax(np.where(np.isnan(size), np.inf, size)))
    allowed = _counted(span) / one.limit.value
    if one.cap is not None:
        allowed = min(allowed, one.cap.value)
    return _Place(span, int(numbers[row]), float(size[row]), float(place[row]), float(sign[row]), allowed)


def _counted(span: Span) -> float:
    """A cantilever counts as twice its length (IBC Table 1604.3, IRC R301.7)."""
    return span.length * (2.0 if span.overhang else 1.0)


def _check(subject: str, solved: _Solved, one: _Kind, at: _Place, wood: WoodMaterial) -> Check:
    span = at.span
    where = f"{'overhang' if span.overhang else 'span'} from {show(span.start, 'length')} to {show(span.end, 'length')}"
    pad, notes = Pad(), tuple[str, ...]()
    if one.total or writing():
        read = _read(solved, one, at)
        notes = _notes(one, at, wood, read) if one.total else ()
        if writing():
            _write(pad, one, at, read)
    return Check.of_ratio(
        one.id, subject, one.what, CLAUSE, *notes, demand=at.size, capacity=at.allowed, kind="small length",
        ratio=at.ratio, combination=one.names[at.row], where=where, steps=pad.steps,
    )  # fmt: skip


def _notes(one: _Kind, at: _Place, wood: WoodMaterial, read: _Ways) -> tuple[str, ...]:
    """What else is to be known of a total deflection."""
    if one.with_creep:
        return (WITH_CREEP,)
    lasting, passing, _ = read
    return BY_CODE, _in_the_long_run(at, wood, lasting, passing)


def _write(pad: Pad, one: _Kind, at: _Place, read: _Ways) -> None:
    """The steps."""
    lasting, passing, words = read
    if one.total:
        why, source = one.dead.why, one.dead.source
        Delta_LT = pad.take("Delta_LT", lasting, "in", note=f"dead load, {FROM_FRAME}, {words}")
        Delta_ST = pad.take("Delta_ST", passing, "in", note=f"all other load, {FROM_FRAME}, {words}")
        if one.with_creep:
            K_cr = pad.take("K_cr", one.dead.value, note=why, source=source)
            pad(df.long_term_deflection, K_cr=K_cr, Delta_LT=Delta_LT, Delta_ST=Delta_ST)
        else:
            s_D = pad.take("s_D", one.dead.value, note=why, source=source)
            pad(df.dead_and_other_deflection, s_D=s_D, Delta_LT=Delta_LT, Delta_ST=Delta_ST)
    else:
        pad.take("Delta", at.size, "in", note=f"{FROM_FRAME}, {words}, {'up' if at.sign > 0 else 'down'}")
    if one.id == INCHES and one.cap is not None:
        pad.take("s_D", one.dead.value, note=f"of the dead load: {one.dead.why}", source=one.dead.source)
        pad.take("Delta_limit", one.cap.value, "in", note=one.cap.reason, source=one.cap.source)
        return
    L = pad.take("L", _counted(at.span), "in", note="twice the overhang" if at.span.overhang else "between supports")
    n = pad.take("n", float(one.limit.value), note=one.limit.reason, source=one.limit.source)
    allowed = pad(df.deflection_limit, L=L, n=n)
    if one.cap is not None and one.cap.value < allowed:
        pad.take("Delta_limit", one.cap.value, "in", note=one.cap.reason, source=one.cap.source)


def _in_the_long_run(at: _Place, wood: WoodMaterial, lasting: float, passing: float) -> str:
    """What it comes to with creep, which the code's limit does not count: for information."""
    long = float(df.long_term_deflection(wood.K_cr.value, lasting, passing))
    if long <= UNBENT:
        return "with creep it does not come down"
    return (
        f"in the long run, with creep, it comes to {show(long, 'small length')}, length/{_counted(at.span) / long:.0f} "
        "(NDS 2018 eq. 3.5-1); the code's limit does not count that, what stands on it may"
    )


def _read(solved: _Solved, one: _Kind, at: _Place) -> _Ways:
    """Deflection at one place under what lasts and under the rest, in the worst way; positive the way it goes there."""
    span, rows = at.span, np.array((one.lasting[at.row], one.passing[at.row]))
    found = []
    for line, words in solved.lines:
        bent = line.combine(rows)
        here = bent.at("v", at.place)
        if not span.overhang:
            start, end = bent.at("v", span.start), bent.at("v", span.end)
            here = here - start - (end - start) * (at.place - span.start) / span.length
        lasting, passing = (at.sign * here).tolist()
        found.append((lasting, passing, words))
    return max(found, key=lambda way: float(one.dead.value) * way[0] + way[1])
