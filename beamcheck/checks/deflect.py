"""Deflection of each span against what the finish can bear (NDS 2018 3.5, IBC Table 1604.3, IRC R301.7)."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np

from ..analysis.combinations import Loaded
from ..analysis.line import Line
from ..analysis.loading import Case
from ..analysis.roof_frame import RoofRun
from ..analysis.straight import Straight
from ..formulas import deflection as df
from ..formulas.pad import Pad
from ..model.pieces import Stick
from ..provenance import Source
from ..units import show
from ..values.factors import DeflectionLimits, Found, deflection_limit
from .bracing import Span
from .result import Check, judge
from .wood import Wood

UNBENT = 1e-6  # in; a load that does not bend this piece needs no check
CLAUSE = "IBC Table 1604.3, IRC R301.7, NDS 2018 3.5"
WHY_TOTAL = (
    "total: K_cr times the dead-load deflection plus the rest (NDS eq. 3.5-1), which is never less than the D + L "
    "of IBC Table 1604.3"
)


def limits_of(stick: Stick, service: str, *, steep_rafter: bool = False) -> DeflectionLimits:
    """The limits that go with the finish; the user's own take their place, with their reason as the source."""
    found = deflection_limit(service, stick.finish, steep_rafter=steep_rafter)  # type: ignore[arg-type]
    own = Source(stick.limit_why or "limit set in the job file", "given")
    if stick.limit_live:
        mine = Found(stick.limit_live, own, "set in the job file")
        found = replace(found, live=mine, snow=mine, wind=mine)
    if stick.limit_total:
        found = replace(found, total=Found(stick.limit_total, own, "set in the job file"))
    return found


def deflection_checks(
    subject: str, straight: Straight, spans: Sequence[Span], wood: Wood, limits: DeflectionLimits
) -> list[Check]:
    """Live, snow, wind and total deflection; for each the worst span and combination."""
    return _checks(
        subject,
        _Solved(straight.cases, straight.combinations, straight.factors, straight.cases_run.line),
        spans,
        wood,
        limits,
    )


@dataclass(frozen=True, eq=False)
class _Solved:
    """What deflection needs of a solved piece."""

    cases: Sequence[Case]
    combinations: Sequence[Loaded]
    factors: np.ndarray
    line: Line


def _checks(
    subject: str, straight: _Solved, spans: Sequence[Span], wood: Wood, limits: DeflectionLimits
) -> list[Check]:
    live, total, wind = _factor_sets(straight)
    checks = []
    for what, rows, limit in (
        ("deflection under live load", live["L"], limits.live),
        ("deflection under snow or roof live load", live["S"], limits.snow),
        ("deflection under wind", wind, limits.wind),
        ("total deflection with creep", total, limits.total),
    ):
        if rows:
            checks.append(_worst(subject, what, straight, spans, wood, rows, limit, what.startswith("total"), limits))
    return [check for check in checks if (check.demand or 0.0) > UNBENT]


def _factor_sets(straight: _Solved) -> tuple[dict[str, list], list, list]:  # type: ignore[type-arg]
    """Rows (name, factors of the dead load, factors of the rest): variable loads alone, totals, wind alone."""
    dead = np.array([1.0 if case.kind == "D" else 0.0 for case in straight.cases])
    live: dict[str, list] = {"L": [], "S": []}  # type: ignore[type-arg]
    total, wind = [], []
    for combination, row in zip(straight.combinations, straight.factors, strict=True):
        rest = row * (1.0 - dead)
        if "W" in combination.kinds:
            only_wind = row * np.array([case.kind == "W" for case in straight.cases])
            wind.append((combination.name, 0.0 * dead, only_wind))
            continue
        total.append((combination.name, row * dead, rest))
        if rest.any():
            roof = {"S", "Lr"} & set(combination.kinds)
            live["S" if roof and "L" not in combination.kinds else "L"].append((combination.name, 0.0 * dead, rest))
    return live, total, wind


def _worst(
    subject: str, what: str, straight: _Solved, spans: Sequence[Span], wood: Wood, rows: list, limit: Found[int],  # type: ignore[type-arg]
    with_creep: bool, limits: DeflectionLimits,
) -> Check:  # fmt: skip
    K_cr = float(wood.K_cr.value)
    names = [name for name, _, _ in rows]
    dead, rest = np.array([row[1] for row in rows]), np.array([row[2] for row in rows])
    bent = straight.line.combine((K_cr if with_creep else 1.0) * dead + rest)
    best: tuple[float, int, Span, float, float] | None = None
    for span in spans:
        size, place = _largest(bent, span)
        worst = int(np.argmax(size))
        allowed = _allowed(span, limit, limits if with_creep else None)
        candidate = (float(size[worst]) / allowed, worst, span, float(size[worst]), float(place[worst]))
        if best is None or candidate[0] > best[0]:
            best = candidate
    assert best is not None
    ratio, worst, span, size_, place_ = best
    pad = Pad()
    if with_creep:
        parts = [_at(straight.line.combine(factors[None]), span, place_) for factors in (dead[worst], rest[worst])]
        creep = pad.take("K_cr", K_cr, note=wood.K_cr.why, source=wood.K_cr.source)
        Delta_LT = pad.take("Delta_LT", parts[0], "in", note="dead load, from the frame analysis, shear included")
        Delta_ST = pad.take("Delta_ST", parts[1], "in", note="all other load, from the frame analysis, shear included")
        pad(df.long_term_deflection, K_cr=creep, Delta_LT=Delta_LT, Delta_ST=Delta_ST)
    else:
        pad.take("Delta", size_, "in", note="from the frame analysis, shear included")
    L = pad.take("L", span.length * (2.0 if span.overhang else 1.0), "in",
                 note="twice the overhang" if span.overhang else "between supports")  # fmt: skip
    n = pad.take("n", float(limit.value), note=limit.reason, source=limit.source)
    allowed = pad(df.deflection_limit, L=L, n=n)
    capped = limits.total_at_most
    if with_creep and capped is not None and capped.value < allowed:
        allowed = pad.take("Delta_limit", capped.value, "in", note=capped.reason, source=capped.source)
    notes = (WHY_TOTAL,) if with_creep else ()
    where = f"{'overhang' if span.overhang else 'span'} from {show(span.start, 'length')} to {show(span.end, 'length')}"
    return Check(
        subject, what, CLAUSE, judge(ratio), "small length", size_, allowed, ratio, names[worst], where,
        tuple(pad.steps), notes,
    )  # fmt: skip


def _allowed(span: Span, limit: Found[int], capped: DeflectionLimits | None) -> float:
    allowed = span.length * (2.0 if span.overhang else 1.0) / limit.value
    if capped is not None and capped.total_at_most is not None:
        allowed = min(allowed, capped.total_at_most.value)
    return allowed


def _largest(line, span: Span):  # type: ignore[no-untyped-def]
    """Largest size of the deflection in a span under each row, and where. An overhang is measured from its support."""
    if span.overhang:
        low, s_low, high, s_high = line.extremes("v", span.start, span.end)
    else:
        low, s_low, high, s_high = line.sag_between(span.start, span.end)
    down = np.abs(low) >= np.abs(high)
    return np.where(down, np.abs(low), np.abs(high)), np.where(down, s_low, s_high)


def _at(line, span: Span, s: float) -> float:  # type: ignore[no-untyped-def]
    """Downward deflection at one place, measured as in `_largest`."""
    value = float(line.at("v", s)[0])
    if not span.overhang:
        ends = [float(line.at("v", x)[0]) for x in (span.start, span.end)]
        value -= ends[0] + (ends[1] - ends[0]) * (s - span.start) / span.length
    return -value


def roof_deflection(
    name: str, run: RoofRun, start: float, rafter: bool, wood: Wood, limits: DeflectionLimits
) -> list[Check]:
    """Deflection of a rafter above its wall, or of a tie, square to it, against the same limits."""
    bars = run.left_bars if rafter else run.tie_bars
    line = Line(run.solution, bars)
    span = Span(start, float(line.length), False)
    solved = _Solved(run.cases, run.combinations, run.factors, line)
    return _checks(name, solved, [span], wood, limits)
