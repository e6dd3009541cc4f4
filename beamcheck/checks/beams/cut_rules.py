"""Where cuts may be, and how deep: NDS 2018 3.2.3 and 4.4.3 for notches, IRC R502.8.1 for holes."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise

from ...analysis.beams.load_cases import SLIVER, Stretch
from ...units import show
from ..anchors.cuts import GroupCut, broadest, height_lost, highest
from ..core.result import Verdict
from ..core.strength import Section
from .cuts import NOTCHES, Region, breaks_through, nothing_left, void_of

THICK = 3.5  # in, net thickness from which NDS 2018 4.4.3.2 forbids notches on the tension side (4 in nominal)
CLEAR = 2.0  # in, least wood between a hole and an edge (IRC R502.8.1)
ENDS, INNER, NET, HOLES = "NDS 2018 4.4.3.1", "NDS 2018 4.4.3.2", "NDS 2018 3.1.2", "IRC R502.8.1"
Ruled = tuple[Verdict, str, str]
TAPERED = "a tapered cut: the stresses across the grain along its face have no rule here"


@dataclass(frozen=True)
class Limit:
    """One rule about a cut, and whether it is kept: 'passes', 'fails' or 'refer' with the sentence that says why."""

    verdict: Verdict
    clause: str
    text: str


def limit(
    region: Region, section: Section, spans: Sequence[Stretch], *, single_span: bool, pulled: Sequence[str]
) -> Limit:
    """The rule that decides about one cut.

    Parameters
    ----------
    spans : sequence of (start, end)
        Between supports, and overhangs.
    single_span : bool
        One span without overhang and without an end that cannot turn.
    pulled : 'top', 'bottom'
        The edges that are in tension at the cut under some combination.
    """
    cut = region.cut
    if section.round:
        return Limit("refer", "NDS 2018 3.4.3", f"{region.text}: a cut in a round piece is for an engineer")
    if nothing_left(section, cut):
        return Limit("fails", NET, f"{region.text}: nothing is left of the piece there")
    if isinstance(cut, GroupCut):
        found = _group(region, cut, section, spans)
    elif cut.kind not in NOTCHES:
        found = _hole(region, section, spans, single_span)
    elif region.at_end:
        found = _end_notch(region, section, spans, cut.face in pulled)
    else:
        found = _inner_notch(region, section, spans, single_span, cut.face in pulled)
    verdict, clause, text = found
    if cut.kind == "taper" and verdict == "passes":
        verdict, text = "refer", TAPERED
    return Limit(verdict, clause, f"{region.text}: {text}")


def _end_notch(region: Region, section: Section, spans: Sequence[Stretch], pulled: bool) -> Ruled:
    if region.cut.depth > 0.25 * section.d:
        if region.cut.kind == "taper":
            return "refer", ENDS, f"over a quarter of the depth; {TAPERED}"
        return "fails", ENDS, "an end notch may take at most a quarter of the depth"
    if _in_a_middle_third(region, spans):
        return "fails", INNER, "it runs from the end into the middle third of a span"
    if pulled and region.past_seat > section.d:
        return "refer", ENDS, "it runs on the tension side for more than a depth past its seat: no end notch any more"
    return "passes", ENDS, "within a quarter of the depth at the end"


def _inner_notch(
    region: Region, section: Section, spans: Sequence[Stretch], single_span: bool, pulled: bool
) -> Ruled:  # fmt: skip
    cut = region.cut
    if section.breadth_alone >= THICK and pulled:
        return "fails", INNER, "no notch in the tension side away from the ends"
    if not single_span:
        return "refer", INNER, "notches in continuous, overhanging or clamped pieces are for an engineer"
    if _in_a_middle_third(region, spans):
        return "fails", INNER, "no notch in the middle third of a span"
    if cut.depth > section.d / 6.0:
        return "fails", INNER, "away from the ends a notch may take at most a sixth of the depth"
    if cut.length > section.d / 3.0:
        return "refer", HOLES, "longer than a third of the depth"
    return "passes", INNER, "within the limits of the outer thirds"


def _hole(region: Region, section: Section, spans: Sequence[Stretch], single_span: bool) -> Ruled:
    """Holes and mortises. The rule is for bored joists; for timbers and mortises it is common practice."""
    cut, (b_v, d_v, y_v) = region.cut, void_of(section, region.cut)
    if breaks_through(section, cut):
        return "refer", NET, "it breaks through an edge; enter it as a notch"
    if cut.kind == "hole" and cut.face != "side":
        return "refer", NET, f"there is no rule here for holes from the {cut.face}"
    if b_v >= section.b and region.end - region.start > d_v + SLIVER:
        return "refer", NET, "an opening right through and longer than high also bends the wood above and below it"
    if d_v > section.d / 3.0 or min(y_v - 0.5 * d_v, section.d - y_v - 0.5 * d_v) < CLEAR:
        return "refer", HOLES, f"more than a third of the depth, or closer than {show(CLEAR, 'length')} to an edge"
    if cut.kind == "mortise" or section.breadth_alone > THICK:
        if not single_span:
            return "refer", NET, "in a continuous, overhanging or clamped timber it is for an engineer"
        if _in_a_middle_third(region, spans):
            return "refer", NET, "in the middle third of a span it is for an engineer"
    return "passes", HOLES, f"at most a third of the depth and {show(CLEAR, 'length')} clear of the edges"


def _group(region: Region, cut: GroupCut, section: Section, spans: Sequence[Stretch]) -> Ruled:
    """What an anchor group takes. The standard asks for the net section; how much may go at all is judgement."""
    if cut.width > broadest() * section.b:
        return "refer", NET, "the slot takes more than a third of the breadth"
    if height_lost(cut) > highest() * section.d:
        return "refer", NET, "the rows of holes and bores take more than a third of the depth"
    if _in_a_middle_third(region, spans):
        return "refer", NET, "in the middle third of a span it is for an engineer"
    return "passes", NET, "at most a third of breadth and depth; what is left is checked"


def _in_a_middle_third(region: Region, spans: Sequence[Stretch]) -> bool:
    for start, end in spans:
        third = (end - start) / 3.0
        if region.end > start + third and region.start < end - third:
            return True
    return False


def too_near(found: Sequence[Region], depth: float) -> Iterator[str]:
    """Sentences for cuts that lie at one place, or so near that what is left between them is disturbed by both."""
    ordered = sorted(found, key=lambda region: region.start)
    reach = -1.0
    for one, two in pairwise(ordered):
        reach = max(reach, one.end)
        if two.start < reach:
            yield f"{one.text} and {two.text} lie at the same place: their losses add up"
        elif two.start < reach + depth:
            yield f"{one.text} and {two.text} are less than the depth of the piece apart"


def on_seats(found: Sequence[Region], seats: Sequence[Stretch]) -> Iterator[str]:
    """Sentences for cuts in the bottom that take away from a seat."""
    for region in found:
        if region.cut.face != "bottom":
            continue
        edges = [region.start, region.end]
        if region.at_end:  # the other edge is the end of the piece
            edges = [region.end if region.start <= 0.0 else region.start]
        for start, end in seats:
            if region.cut.kind not in NOTCHES:
                if region.start < end and region.end > start:
                    yield f"{region.text} lies over a seat, which then bears on less"
            elif any(start + SLIVER < x < end - SLIVER for x in edges):
                yield f"{region.text} ends within a seat: which part of it bears is not clear"
