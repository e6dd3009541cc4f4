"""From what a piece carries to load cases: line and point loads by kind, span by span, and the patterns to be tried."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace
from itertools import pairwise

from ...records import dataclass
from ...units import show

KINDS = ("D", "L", "Lr", "S", "W")
KIND_WORDS = {"D": "dead", "L": "live", "Lr": "roof live", "S": "snow", "W": "wind"}
PATTERNED = ("L", "Lr", "S")  # loads that may be there in one span and not in the next
SETTLED = "settlement"  # kind of the case that holds the known settlements of the supports and no load
DRIES = "dries"  # kind of the case that holds what dead loads may lose with time: the water of green wood
MAY_LIFT = "may lift"  # name of that case where a dead load that another piece hands on lifts once that is lost
UPLIFT = "uplift from above"  # nothing on the piece but what pulls up on it
WINDS = (("wind down", 1.0), ("wind up", -1.0))
SLIVER = 0.01  # in; shorter stretches come from rounding of units, and model/loads.py lets as much go

Stretch = tuple[float, float]


@dataclass(frozen=True)
class Applied:
    """One load of one kind on a straight piece. Positions in inches from the left end, loads positive downwards.

    A line load has `start < end` and intensities `w_start`, `w_end` in lbf/in; a point load has `start == end` and `P`
    in lbf. `P_low` is the least value of a point load that arrives from another piece (its uplift, or zero).
    """

    kind: str
    start: float
    end: float
    w_start: float = 0.0
    w_end: float = 0.0
    P: float = 0.0
    P_low: float | None = None
    what: str = ""
    applied: str = "top"  # 'top', 'side', 'below' or 'unknown': only a load on the top may be partly left out for shear
    bearing: float | None = None
    from_piece: bool = False
    moves: bool = False  # a live point load that may stand anywhere
    own: bool = False  # the weight of the piece itself
    entry: int | None = None  # its number among the loads of the piece in the job file, from 0
    held_by: str = ""  # the anchor group that holds it to the side
    by: str = ""  # what brings it: 'beam', 'rafter', 'post', 'other'; '' where that is not said
    fastened: tuple[float, float] | None = None  # of a load on the side: highest and lowest fastening under the top, in
    dries: float = 0.0  # part of a dead load that may be gone one day: the water of green wood

    @property
    def is_point(self) -> bool:
        return self.start == self.end

    @property
    def total(self) -> float:
        """The whole load in lbf, down positive."""
        return self.P if self.is_point else 0.5 * (self.w_start + self.w_end) * (self.end - self.start)

    def moment_about(self, x: float) -> float:
        """About a place, lbf in; positive where the load lies to the right of it."""
        if self.is_point:
            return self.P * (self.start - x)
        a, b = self.start - x, self.end - x
        return (b - a) / 6.0 * (self.w_start * (2.0 * a + b) + self.w_end * (a + 2.0 * b))

    def times(self, factor: float) -> Applied:
        """The same load, so many times as large."""
        low = None if self.P_low is None else factor * self.P_low
        return replace(self, P=factor * self.P, P_low=low, w_start=factor * self.w_start, w_end=factor * self.w_end)

    @property
    def may_lift(self) -> bool:
        """Whether the least of a dead load whose size is a range lifts; `dries` then leads below zero."""
        return not 0.0 <= self.dries <= 1.0

    @property
    def lifts(self) -> bool:
        """Whether it pulls up, always or at times."""
        return self.total < 0.0 or (self.P_low is not None and self.P_low < 0.0)

    def part(self, start: float, end: float) -> Applied | None:
        """What of a line load lies between two places; None when nothing does."""
        low, high = max(self.start, start), min(self.end, end)
        if high - low < SLIVER * 1e-3:
            return None
        slope = (self.w_end - self.w_start) / (self.end - self.start)
        return replace(
            self, start=low, end=high,
            w_start=self.w_start + slope * (low - self.start), w_end=self.w_start + slope * (high - self.start),
        )  # fmt: skip


@dataclass(frozen=True)
class Case:
    """Loads of one kind in one pattern. `pattern` is '' for everything at once.

    `spans` names the loaded spans alone, without where a moving load stands: kinds that do not move go with it.
    `words` says the pattern to people, where its name would not.
    """

    kind: str
    pattern: str
    loads: tuple[Applied, ...]
    spans: str = ""
    words: str = ""


@dataclass(frozen=True)
class _Pattern:
    """What carries the variable load: whole spans, or a part of one up to `edge`; and where a moving load stands."""

    name: str
    spans: str
    on: tuple[Stretch, ...]
    x: float | None = None
    words: str = ""
    edge: float | None = None

    def with_load_at(self, x: float) -> _Pattern:
        """The same with a moving load at `x`. The name is exact, so that no two places ever share one."""
        where = f"load at {show(x, 'length')}"
        words = f"{self.words or self.name}, {where}".removeprefix(", ")
        return _Pattern(f"{self.name}, load at {x!r}", self.spans, self.on, x, words)


def spans_of(length: float, supports: Sequence[float]) -> list[Stretch]:
    """The stretches between supports, with overhangs at either end: (start, end) in inches."""
    places = sorted(supports)
    before = [0.0] if places[0] > SLIVER else []
    after = [length] if length - places[-1] > SLIVER else []
    return list(pairwise([*before, *places, *after]))


def without_tails(spans: Sequence[Stretch], tails: Sequence[Stretch]) -> list[Stretch]:
    """The spans as loads come and go on them: a tail that only reaches over its seat goes with the span beside it."""
    kept = [span for span in spans if span not in tails] or list(spans)
    if spans[0] in tails:
        kept[0] = (spans[0][0], kept[0][1])
    if spans[-1] in tails:
        kept[-1] = (kept[-1][0], spans[-1][1])
    return kept


def patterns(n_spans: int) -> list[tuple[str, frozenset[int]]]:
    """Which spans carry the variable load: all; every other one; each pair at a support; each span alone.

    For equal or unequal spans this holds the worst pattern for a moment in a span (every other one), over a support
    (the two beside it and every other one beyond) and for uplift (a span alone). ASCE 7-16 4.3.3 asks for partial
    loading; that snow and roof live load are taken away in full from a span is on the safe side of 7.5.
    """
    found: dict[frozenset[int], str] = {frozenset(range(n_spans)): ""}
    if n_spans > 1:
        for first in (0, 1):
            found.setdefault(frozenset(range(first, n_spans, 2)), f"spans {_listed(range(first, n_spans, 2))}")
        for support in range(n_spans - 1):
            beside = frozenset({*range(support, -1, -2), *range(support + 1, n_spans, 2)})
            found.setdefault(beside, f"spans {_listed(sorted(beside))}")
        for span in range(n_spans):
            found.setdefault(frozenset({span}), f"span {span + 1} alone")
    return [(name, spans) for spans, name in found.items()]


def _listed(spans: Sequence[int]) -> str:
    return " and ".join(str(span + 1) for span in spans)


def _partial(spans: Sequence[Stretch], places: Sequence[float]) -> Iterator[_Pattern]:
    """Load on one side of a place only, with the other spans that add to the shear there (ASCE 7-16 4.3.3)."""
    for x in places:
        for i, (start, end) in enumerate(spans):
            if not start + SLIVER < x < end - SLIVER:
                continue
            before = [*range(i - 1, -1, -2), *range(i + 2, len(spans), 2)]
            after = [*range(i + 1, len(spans), 2), *range(i - 2, -1, -2)]
            for name, here, others in (("from", (x, end), before), ("up to", (start, x), after)):
                words = f"load {name} {show(x, 'length')}"
                if others:
                    words += f" and in span{'s' if len(others) > 1 else ''} {_listed(sorted(others))}"
                exact = f"load {name} {x!r}"
                on = tuple(sorted([here, *(spans[k] for k in others)]))
                yield _Pattern(exact, exact, on, words=words, edge=x)


def cases_for(
    loads: Sequence[Applied], spans: Sequence[Stretch], depth: float, *,
    stands: Sequence[float] = (), parts: Sequence[float] = (),
) -> list[Case]:  # fmt: skip
    """The load cases of a piece: dead once, wind each way and both, each variable kind once per pattern.

    What dead loads may lose is a case beside them, which takes away where dead load holds down (see `combine`).

    A point load that arrives from another piece counts with its largest value where the pattern puts load, and with
    its least (uplift included) where it does not. A variable line load that lifts counts where the pattern puts none.

    `depth`: a moving load is tried at every twentieth of each span and at this distance from the supports, inches.
    `stands`: further places where a moving load is tried: beside the seats, at the edges of cuts. `parts`: places whose
    shear is asked for: load on one side of them only is tried as well.
    """
    made = []
    lifted = any(load.lifts for load in loads if load.kind in PATTERNED)
    shapes = [_Pattern(name, name, tuple(spans[i] for i in sorted(on))) for name, on in patterns(len(spans))]
    if all(load.moves for load in loads if load.kind in PATTERNED):
        shapes = shapes[:1]  # what moves is never in two spans at once
    else:
        shapes += _partial(spans, sorted(set(parts)))
    for kind in KINDS:
        of_kind = [load for load in loads if load.kind == kind]
        if not of_kind:
            continue
        if kind == "W":  # each way alone, so that what lifts does not ease what presses; and both, which may be worse
            ways = [(name, tuple(load for load in of_kind if sign * load.total > 0)) for name, sign in WINDS]
            made += [Case(kind, name, one_way) for name, one_way in ways if one_way]
            if all(one_way for _, one_way in ways):
                made.append(Case(kind, "wind both ways", tuple(of_kind)))
            continue
        if kind not in PATTERNED:
            made.append(Case(kind, "", tuple(of_kind)))
            for name in ("", MAY_LIFT):
                if part := [load.times(load.dries) for load in of_kind if load.dries and load.may_lift == bool(name)]:
                    made.append(Case(DRIES, name, tuple(part)))
            continue
        wanted = shapes
        if any(load.moves for load in of_kind):
            wanted = [
                shape.with_load_at(x) for shape in shapes
                for x in (_stands(shape.on, depth, stands) if shape.edge is None else [shape.edge])
            ]  # fmt: skip
        if lifted:
            wanted = [*wanted, _Pattern(UPLIFT, UPLIFT, ())]
        made.extend(
            Case(kind, shape.name, _loaded(of_kind, spans, shape), shape.spans, shape.words) for shape in wanted
        )
    return made


def _stands(on: Sequence[Stretch], depth: float, also: Sequence[float]) -> list[float]:
    """Where a moving load is put: in the loaded stretches only."""
    places: set[float] = set()
    for start, end in on:
        places.update(round(start + (end - start) * part / 20, 6) for part in range(21))
        if end - start > 2 * depth:
            places.update((start + depth, end - depth))
        places.update(x for x in also if start <= x <= end)
    last = max(end for _, end in on)
    return sorted(min(x, last) for x in places)


def _loaded(loads: Sequence[Applied], spans: Sequence[Stretch], shape: _Pattern) -> tuple[Applied, ...]:
    kept = []
    for load in loads:
        if load.moves:
            if shape.x is not None:
                kept.append(replace(load, start=shape.x, end=shape.x))
        elif load.is_point:
            on = any(start - SLIVER <= load.start <= end + SLIVER for start, end in shape.on)
            if load.P < 0.0:
                kept.extend([] if on else [load])
            elif on:
                kept.append(load)
            elif load.P_low is not None and load.P_low < 0.0:
                kept.append(replace(load, P=load.P_low))
        else:
            stretches = _outside(spans, shape.on) if load.total < 0.0 else shape.on
            kept.extend(part for stretch in stretches if (part := load.part(*stretch)) is not None)
    return tuple(kept)


def _outside(spans: Sequence[Stretch], on: Sequence[Stretch]) -> list[Stretch]:
    """What of the spans carries no load."""
    found = []
    for start, end in spans:
        for low, high in sorted(on):
            if start < high and low < end:
                found.append((start, max(start, low)))
                start = min(max(start, high), end)
        found.append((start, end))
    return [(start, end) for start, end in found if end - start > SLIVER]
