"""How the compression edge of a span is held: whether C_L is 1, or which length counts (NDS 2018 3.3.3, 4.4.1)."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

from ...analysis.beams.load_cases import Applied
from ...model.pieces import Stick
from ...units import show
from ...values.factors import effective_length
from ...values.lumber import Size
from ..core.strength import Bracing, Section

MOST_BRACED = 7  # Table 3.3.3 lists up to six equal loads and then "seven or more"
EVEN = 0.02  # how far "equal" loads and gaps may differ; what the table's rows differ by is more
LIGHT = 0.10  # own weight beside point loads: the rows of the table for point loads are used up to this share


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
    """d/b of one ply as NDS 2018 4.4.1 means it: nominal where a dressed piece has a nominal size, else as measured."""
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
        return Bracing(False, f"{edge} edge held every {show(l_u, 'length')}", l_u)
    if held == "at loads":
        return _at_loads(span, loads, simple)
    why = f"{edge} edge held at the supports only"
    if simple and top and loads and all(_covers(load, span) for load in loads):
        return _by_row(why, span.length, "simple_uniform")
    return Bracing(False, why, span.length)


def _covers(load: Applied, span: Span) -> bool:
    """Whether it is uniform over the whole span."""
    return not load.is_point and load.w_start == load.w_end and load.start <= span.start and load.end >= span.end


def _at_loads(span: Span, loads: Sequence[Applied], simple: bool) -> Bracing:
    """BeamSupport where point loads come on from the top or the side; one that moves or hangs below holds nothing."""
    inside = [load for load in loads if load.is_point and span.start < load.start < span.end]
    holding = [load for load in inside if load.applied in ("top", "side") and not load.moves]
    places = sorted({load.start for load in holding})
    gaps = [after - before for before, after in pairwise([span.start, *places, span.end])]
    if span.overhang:  # its free end is held by nothing
        gaps = [span.length]
    why = "top edge held where the point loads come on" if len(gaps) > 1 else "top edge held at the supports only"
    if simple and places and len(inside) == len(holding) and _even(holding, places, gaps) and _rest_is_light(loads):
        return _by_row(why, max(gaps), f"braced_{len(places)}" if len(places) < MOST_BRACED else "braced_7_or_more")
    return Bracing(False, why, max(gaps))


def _even(loads: Sequence[Applied], places: Sequence[float], gaps: Sequence[float]) -> bool:
    """Equal gaps, and at each place the same force of each kind: then the loads are equal under every combination."""
    if max(gaps) - min(gaps) > EVEN * max(gaps):
        return False
    for kind in {load.kind for load in loads}:
        by_place = [sum(load.P for load in loads if load.kind == kind and load.start == x) for x in places]
        if min(by_place) < 0.0 or max(by_place) - min(by_place) > EVEN * max(by_place):
            return False
    return True


def _rest_is_light(loads: Sequence[Applied]) -> bool:
    """Whether nothing is spread along the piece but a little own weight."""
    spread = [load for load in loads if not load.is_point]
    points = sum(load.P for load in loads if load.is_point)
    return all(load.own for load in spread) and sum(load.total for load in spread) <= LIGHT * points


def _by_row(why: str, l_u: float, case: str) -> Bracing:
    row, source, _ = effective_length(case)
    return Bracing(False, why, l_u, row, source)


def needs_end_restraint(size: Size, section: Section) -> bool:
    """Whether the ends must be held against turning over for C_L to count (NDS 2018 3.3.3.4)."""
    return not section.round and section.d > section.breadth_alone and proportion(size, section) > 2.0
