"""How the compression edge of a span is held: whether C_L is 1, or which length counts (NDS 2018 3.3.3, 4.4.1)."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise

from ...analysis.beams.load_cases import Applied
from ...errors import OutOfRange
from ...model.sticks import Stick
from ...records import dataclass
from ...units import show
from ...values.factors import effective_length, proportion_rule
from ...values.judgment import judgment
from ...values.lumber import Size
from ..core.wood.strength import Bracing, Section

MOST_BRACED = 7  # Table 3.3.3 lists up to six equal loads and then "seven or more"
NEEDS_NOTHING, NEEDS_ENDS = "nothing", "ends"  # what NDS 2018 4.4.1.2 asks to be held, as its table names it
HOLDS_AN_EDGE = ("beam", "rafter")  # what may hold a pressed edge where it comes on; a post that stands on it does not


@dataclass(frozen=True)
class Span:
    """One stretch between supports, or an overhang.

    `upright`: the ends at its supports are held against turning over. `pressed_below`: how far from either support the
    bottom edge may be pressed, under any combination; None where that is not known.
    """

    start: float
    end: float
    overhang: bool
    upright: bool = False
    pressed_below: tuple[float, float] | None = None

    @property
    def length(self) -> float:
        return self.end - self.start


def proportion(size: Size, section: Section) -> float:
    """d/b of one ply as NDS 2018 4.4.1 means it: nominal where a dressed piece has a nominal size, else as measured."""
    return 1.0 if section.round or section.d <= section.breadth_alone else size.proportion


def _asks_for(size: Size, section: Section) -> str:
    """What its proportion asks to be held (NDS 2018 4.4.1.2): 'nothing', 'ends', more; '' beyond the rules."""
    if not section.sawn:  # NDS 2018 3.3.3 alone: nothing is needed up to a square
        return ""
    try:
        return proportion_rule(proportion(size, section)).value
    except OutOfRange:
        return ""


def upright_is_enough(size: Size, section: Section) -> bool:
    """Whether ends that are held upright are all that it needs: NDS 2018 4.4.1.2(b)."""
    return needs_end_restraint(size, section) and _asks_for(size, section) == NEEDS_ENDS


def bracing_of(
    stick: Stick, size: Size, section: Section, span: Span, loads: Sequence[Applied], *, simple: bool, top: bool
) -> Bracing:
    """The bracing of one span for moments that press on its top edge (`top`) or on its bottom edge."""
    edge = "top" if top else "bottom"
    if section.round or section.d <= section.breadth_alone:
        return Bracing(True, "the depth is not greater than the breadth (NDS 2018 3.3.3.1)")
    if _asks_for(size, section) == NEEDS_NOTHING:
        return Bracing(True, "d/b is 2 or less: no sideways support is needed (NDS 2018 4.4.1.2)")
    held = stick.top_held if top else stick.bottom_held
    if held == "full length":
        return Bracing(True, f"the {edge} edge is held along its whole length (NDS 2018 3.3.3.3)")
    if span.upright and not span.overhang and _asks_for(size, section) == NEEDS_ENDS:
        return Bracing(True, "d/b is 4 or less and the ends are held upright (NDS 2018 4.4.1.2(b))")
    if isinstance(held, float):
        l_u = min(held, span.length)
        return Bracing(False, f"{edge} edge held every {show(l_u, 'length')}", l_u)
    if held == "at loads":
        return _at_loads(span, loads, simple)
    why = f"{edge} edge held at the supports only"
    if simple and top and loads and all(_covers(load, span) for load in loads):
        return _by_row(why, span.length, "simple_uniform")
    if not top and (pressed := _pressed_beside_supports(stick, span)) is not None:
        return Bracing(
            False, f"bottom edge held at its supports, blocked there, and pressed for {show(pressed, 'length')} beside "
            "them at most; the top edge is held all along (common practice)", pressed,
        )  # fmt: skip
    return Bracing(False, why, span.length)


def _pressed_beside_supports(stick: Stick, span: Span) -> float | None:
    """How long the bottom edge is pressed beside a support that holds it, where the top edge is held all along.

    The edge cannot leave its line at a blocked support, and where it is pulled it does not want to. None where the
    rule does not apply: an overhang, an end that is not blocked, an edge pressed from support to support.
    """
    if span.overhang or not span.upright or stick.top_held != "full length" or span.pressed_below is None:
        return None
    left, right = span.pressed_below
    return max(left, right) if left + right < span.length else None


def _covers(load: Applied, span: Span) -> bool:
    """Whether it is uniform over the whole span."""
    return not load.is_point and load.w_start == load.w_end and load.start <= span.start and load.end >= span.end


def _at_loads(span: Span, loads: Sequence[Applied], simple: bool) -> Bracing:
    """Held where beams, joists or rafters come on from the top or the side; nothing else that comes holds the edge."""
    inside = [load for load in loads if load.is_point and span.start < load.start < span.end]
    holding = [load for load in inside if holds_the_edge(load)]
    places = sorted({load.start for load in holding})
    gaps = [after - before for before, after in pairwise([span.start, *places, span.end])]
    if span.overhang:  # its free end is held by nothing
        gaps = [span.length]
    if len(gaps) == 1:
        return Bracing(False, "top edge held at the supports only: no beam or joist comes on between them", gaps[0])
    why = "top edge held where beams or joists come on"
    if simple and places and len(inside) == len(holding) and _even(holding, places, gaps) and _rest_is_light(loads):
        return _by_row(why, max(gaps), f"braced_{len(places)}" if len(places) < MOST_BRACED else "braced_7_or_more")
    return Bracing(False, why, max(gaps))


def holds_the_edge(load: Applied) -> bool:
    """Whether what brings it keeps the edge from moving sideways: a beam, joist or rafter on the top or in the side.

    The list is closed. A post that stands there, a load that moves or hangs below, trim and brackets hold nothing.
    """
    return load.applied in ("top", "side") and not load.moves and load.by in HOLDS_AN_EDGE


def _even(loads: Sequence[Applied], places: Sequence[float], gaps: Sequence[float]) -> bool:
    """Equal gaps, and at each place the same force of each kind: then the loads are equal under every combination."""
    even = judgment("how far equal loads and gaps may differ").value
    if max(gaps) - min(gaps) > even * max(gaps):
        return False
    for kind in {load.kind for load in loads}:
        by_place = [sum(load.P for load in loads if load.kind == kind and load.start == x) for x in places]
        if min(by_place) < 0.0 or max(by_place) - min(by_place) > even * max(by_place):
            return False
    return True


def _rest_is_light(loads: Sequence[Applied]) -> bool:
    """Whether nothing is spread along the piece but a little own weight."""
    spread = [load for load in loads if not load.is_point]
    points = sum(load.P for load in loads if load.is_point)
    light = judgment("own weight beside point loads").value
    return all(load.own for load in spread) and sum(load.total for load in spread) <= light * points


def _by_row(why: str, l_u: float, case: str) -> Bracing:
    row, source, _ = effective_length(case)
    return Bracing(False, why, l_u, row, source)


def needs_end_restraint(size: Size, section: Section) -> bool:
    """Whether the ends must be held against turning over for C_L to count (NDS 2018 3.3.3.4)."""
    return not section.round and section.d > section.breadth_alone and _asks_for(size, section) != NEEDS_NOTHING
