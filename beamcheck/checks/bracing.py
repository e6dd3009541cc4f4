"""How the compression edge of a span is held, and so whether C_L is 1 or which length counts (NDS 2018 3.3.3, 4.4.1)."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from ..analysis.loading import Applied
from ..model.pieces import Stick
from ..values.factors import EffectiveLength, effective_length
from ..values.lumber import Size
from .strength import Bracing, Section

MOST_BRACED = 7  # Table 3.3.3 lists up to six equal loads and then "seven or more"


@dataclass(frozen=True)
class Span:
    """One stretch between supports, or an overhang."""

    start: float
    end: float
    overhang: bool

    @property
    def length(self) -> float:
        return self.end - self.start


def proportion(size: Size, section: Section) -> float:
    """d/b as NDS 2018 4.4.1 means it: nominal where the piece has a nominal size, else as measured; one ply's breadth."""
    if section.round or section.d <= section.breadth_alone:
        return 1.0
    return size.proportion


def bracing_of(
    stick: Stick, size: Size, section: Section, span: Span, loads: Sequence[Applied], *, simple: bool, top: bool
) -> Bracing:
    """The bracing of one span for moments that press on its top edge (`top`) or on its bottom edge."""
    edge = "top" if top else "bottom"
    if section.round or section.d <= section.breadth_alone:
        return Bracing(True, "the depth is not greater than the breadth (NDS 2018 3.3.3.1)")
    if proportion(size, section) <= 2.0:
        return Bracing(True, "d/b is 2 or less: no sideways support is needed (NDS 2018 4.4.1.2)")
    held = stick.top_held if top else stick.bottom_held
    if held == "full length":
        return Bracing(True, f"the {edge} edge is held along its whole length (NDS 2018 3.3.3.3)")
    if isinstance(held, float):
        l_u = min(held, span.length)
        return Bracing(False, f"{edge} edge held at {l_u:.4g} in", l_u, cantilever=span.overhang)
    if held == "at loads" and not span.overhang:
        return _at_loads(span, loads, simple)
    only_uniform = simple and all(not load.is_point for load in loads)
    return Bracing(
        False, f"{edge} edge held at the supports only", span.length,
        row=_row("simple_uniform") if only_uniform and top else None, cantilever=span.overhang,
    )  # fmt: skip


def _at_loads(span: Span, loads: Sequence[Applied], simple: bool) -> Bracing:
    points = sorted({load.start for load in loads if load.is_point and span.start < load.start < span.end})
    places = [span.start, *points, span.end]
    gaps = [after - before for before, after in zip(places, places[1:], strict=False)]
    l_u = max(gaps)
    by_place = [sum(load.P for load in loads if load.is_point and load.start == x) for x in points]
    even = (
        bool(points) and max(gaps) - min(gaps) <= 0.02 * l_u and max(by_place) - min(by_place) <= 0.02 * max(by_place)
    )
    others = [load for load in loads if not load.is_point and load.what != "self weight"]
    row = None
    if simple and even and not others:
        row = _row(f"braced_{len(points)}" if len(points) < MOST_BRACED else "braced_7_or_more")
    return Bracing(False, "top edge held where the point loads come on", l_u, row=row)


def needs_end_restraint(size: Size, section: Section) -> bool:
    """Whether the ends must be held against turning over for C_L to count (NDS 2018 3.3.3.4)."""
    return not section.round and section.d > section.breadth_alone and proportion(size, section) > 2.0


def _row(case: str) -> EffectiveLength:
    return effective_length(case).value
