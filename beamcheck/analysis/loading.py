"""From what a piece carries to load cases: line and point loads by kind, span by span, and the patterns to be tried."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from itertools import pairwise

KINDS = ("D", "L", "Lr", "S", "W")
KIND_WORDS = {"D": "dead", "L": "live", "Lr": "roof live", "S": "snow", "W": "wind"}
UPLIFT = "uplift from above"  # a single span with nothing on it but what pulls up on it
Pattern = tuple[str, str, frozenset[int], float | None]  # name, name of the spans, loaded spans, where a moving load is
PATTERNED = ("L", "Lr", "S")  # loads that may be there in one span and not in the next


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
    applied: str = "top"  # 'top', 'side' or 'below': only a load on the top may be partly ignored near a support
    bearing: float | None = None
    from_piece: bool = False
    moves: bool = False  # a live point load that may stand anywhere

    @property
    def is_point(self) -> bool:
        return self.start == self.end

    @property
    def total(self) -> float:
        """The whole load in lbf, down positive."""
        return self.P if self.is_point else 0.5 * (self.w_start + self.w_end) * (self.end - self.start)

    def part(self, start: float, end: float) -> Applied | None:
        """What of a line load lies between two places; None when nothing does."""
        low, high = max(self.start, start), min(self.end, end)
        if high <= low:
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
    """

    kind: str
    pattern: str
    loads: tuple[Applied, ...]
    spans: str = ""


def spans_of(length: float, supports: Sequence[float]) -> list[tuple[float, float]]:
    """The stretches between supports, with overhangs at either end: (start, end) in inches."""
    places = sorted(supports)
    edges = [*([0.0] if places[0] > 0.0 else []), *places, *([length] if places[-1] < length else [])]
    return list(pairwise(edges))


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


def cases_for(loads: Sequence[Applied], spans: Sequence[tuple[float, float]], depth: float) -> list[Case]:
    """The load cases of a piece: dead once, wind once each way, each variable kind once per pattern.

    A moving load is tried at every twentieth of each span and at `depth` from the supports (NDS 2018 3.4.3.1).

    A point load that arrives from another piece counts with its largest value where the pattern puts load, and with
    its least (uplift included) where it does not.
    """
    made = []
    for kind in KINDS:
        of_kind = [load for load in loads if load.kind == kind]
        if not of_kind:
            continue
        if kind == "W":  # wind blows one way at a time: what lifts never eases what presses
            for name, sign in (("wind down", 1.0), ("wind up", -1.0)):
                if one_way := tuple(load for load in of_kind if sign * load.total > 0):
                    made.append(Case(kind, name, one_way))
            continue
        if kind not in PATTERNED:
            made.append(Case(kind, "", tuple(of_kind)))
            continue
        wanted: list[Pattern] = [(name, name, on, None) for name, on in patterns(len(spans))]
        if any(load.moves for load in of_kind):
            wanted = [(f"{name}, load at {x:.4g} in".removeprefix(", "), name, on, x) for name, _, on, _ in wanted
                      for x in _stands(spans, on, depth)]  # fmt: skip
        if len(spans) == 1 and any(load.P_low is not None and load.P_low < 0 for load in of_kind):
            wanted.append((UPLIFT, UPLIFT, frozenset(), None))
        made.extend(Case(kind, name, _loaded(of_kind, spans, on, x), base) for name, base, on, x in wanted)
    return made


def _stands(spans: Sequence[tuple[float, float]], on: frozenset[int], depth: float) -> list[float]:
    """Where a moving load is put: in the loaded spans only."""
    places = set()
    for start, end in (spans[i] for i in sorted(on)):
        places.update(round(start + (end - start) * part / 20, 6) for part in range(21))
        if end - start > 2 * depth:
            places.update((start + depth, end - depth))
    return sorted(places)


def _loaded(
    loads: Sequence[Applied], spans: Sequence[tuple[float, float]], on: frozenset[int], x: float | None
) -> tuple[Applied, ...]:
    kept = []
    for load in loads:
        if load.moves and x is not None:
            kept.append(replace(load, start=x, end=x))
        elif load.is_point:
            inside = [i for i, (start, end) in enumerate(spans) if start <= load.start <= end]
            if any(i in on for i in inside):
                kept.append(load)
            elif load.P_low is not None and load.P_low < 0:
                kept.append(replace(load, P=load.P_low))
        else:
            kept.extend(part for i in sorted(on) if (part := load.part(*spans[i])) is not None)
    return tuple(kept)
