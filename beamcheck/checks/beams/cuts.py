"""What is missing from a stick: net sections at notches, holes, mortises and tapers, and where they may be.

NDS 2018 3.2.3 and 4.4.3 for notches, IRC R502.8.1 for holes.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import accumulate, pairwise

from ...analysis.beams.load_cases import SLIVER, Stretch
from ...calc.core import Number, smallest
from ...calc.pad import Pad
from ...formulas.wood import net_section as ns
from ...formulas.wood import section as sc
from ...formulas.wood import shear as sh
from ...formulas.wood.shear import end_notch_limit, inner_notch_limit
from ...model.sticks import Cut
from ...records import dataclass
from ...units import show
from ...values.judgment import judgment
from ..core.asking.question import ask
from ..core.result import Check, Verdict
from ..core.wood.group_cut import GroupCut, broadest, height_lost, highest, nothing_is_left, slot_net, slot_shear
from ..core.wood.lost import Lost, all_is_lost, left_of, lost_net
from ..core.wood.strength import Section
from .seats import told_apart

Missing = Cut | GroupCut | Lost  # a cut of the job file, all that one anchor group takes, what a survey found lost
NOTCHES = ("notch", "taper")  # open at an edge, over the full breadth; the others leave wood on all sides
ENDS, INNER, NET, HOLES = "NDS 2018 4.4.3.1", "NDS 2018 4.4.3.2", "NDS 2018 3.1.2", "IRC R502.8.1"
Ruled = tuple[Verdict, str, str]  # the verdict, the clause, and the sentence that says why
HAIR = 1e-9  # of the depth
TAPERED = "a tapered cut: the stresses across the grain along its face have no rule here"


@dataclass(frozen=True)
class Region:
    """One cut as it lies in the piece: from `start` to `end` along it, inches."""

    cut: Missing
    start: float
    end: float
    seat: Stretch | None  # an end notch: the seat at that end of the piece, over which or beside which it lies
    text: str

    @property
    def at_end(self) -> bool:
        """An end notch: it begins at an end of the piece that has a support under it."""
        return self.seat is not None

    @property
    def past_seat(self) -> float:
        """How far an end notch runs past the inner edge of its seat, inches; 0 when it stops before."""
        if self.seat is None:
            return 0.0
        return max(self.end - self.seat[1] if self.start <= 0.0 else self.seat[0] - self.start, 0.0)

    @property
    def bottom_of_void(self) -> float:
        """Height of the lower edge of the missing wood above the bottom edge of the piece."""
        return (self.cut.from_bottom or 0.0) - 0.5 * self.cut.depth


def regions(cuts: Sequence[Missing], length: float, first: Stretch | None, last: Stretch | None) -> list[Region]:
    """Where each cut lies. `first` and `last` are the seats at the two ends; None where the piece overhangs.

    A notch or taper that reaches an end of the piece, or lies over the seat there, counts from that end inwards: `at`
    is then the end or its middle, and the longer reading is taken.
    """
    found = []
    for cut in cuts:
        half = 0.5 * (max(cut.length, cut.depth) if cut.kind == "hole" else cut.length)
        start, end, seat = cut.at - half, cut.at + half, None
        if cut.kind in NOTCHES:
            if start <= SLIVER or (first is not None and cut.at <= first[1]):
                start, end, seat = 0.0, cut.at + cut.length, first
            elif end >= length - SLIVER or (last is not None and cut.at >= last[0]):
                start, end, seat = cut.at - cut.length, length, last
        found.append(Region(cut, max(start, 0.0), min(end, length), seat, words(cut)))
    return found


def words(cut: Missing) -> str:
    """The cut in a carpenter's words."""
    if isinstance(cut, (GroupCut, Lost)):
        return cut.words
    size = show(cut.depth, "length")
    long = f", {show(cut.length, 'length')} long" if cut.length else ""
    if cut.kind == "hole":
        bored = "" if cut.face == "side" else f" bored from the {cut.face}"
        return f"{size} hole{bored}{long} at {show(cut.at, 'length')}"
    return f"{cut.kind} {size} deep{long} on the {cut.face} at {show(cut.at, 'length')}"


def void_of(section: Section, cut: Missing) -> tuple[float, float, float]:
    """Breadth and height of the void of a hole or mortise, and the height of its middle above the bottom, inches.

    A hole bored from the top or bottom is counted right through, whatever its depth.
    """
    b, d = float(section.b), float(section.d)
    if cut.kind == "hole" and cut.face != "side":
        return cut.depth, d, 0.5 * d
    breadth = min(cut.width or b, b) if cut.kind == "mortise" else b
    return breadth, cut.depth, cut.from_bottom if cut.from_bottom is not None else 0.5 * d


def nothing_left(section: Section, cut: Missing) -> bool:
    """Whether a cut takes the whole section."""
    if isinstance(cut, GroupCut):
        return nothing_is_left(section, cut)
    if isinstance(cut, Lost):
        return all_is_lost(section, cut)
    if cut.kind == "hole" and cut.face != "side":
        return cut.depth >= float(section.b)
    return cut.depth >= float(section.d)


def breaks_through(section: Section, cut: Missing) -> bool:
    """Whether a hole or mortise is open at an edge although it was not entered as a notch."""
    if cut.kind in NOTCHES or isinstance(cut, (GroupCut, Lost)) or nothing_left(section, cut):
        return False
    b_v, d_v, y_v = void_of(section, cut)
    wood = min(y_v - 0.5 * d_v, section.d - y_v - 0.5 * d_v)  # left below it or above
    return bool(wood <= HAIR * section.d if b_v >= section.b else wood < -HAIR * section.d)


def has_net_section(section: Section, cut: Missing) -> bool:
    """Whether what is left at a cut can be counted here; where it cannot, the rules below fail or refer the piece."""
    return not (section.round or nothing_left(section, cut) or breaks_through(section, cut))


@dataclass(frozen=True)
class Net:
    """A net section: the lesser section modulus, area, depth left, and second moment of area."""

    S: Number
    A: Number
    d_n: Number
    I: Number  # noqa: E741 - the standard's symbol


def net_section(pad: Pad, section: Section, cut: Missing) -> Net:
    """The section that is left at a cut. A notch is taken across the full breadth whatever its width (safe side).

    A mortise that does not go right through is taken to lie at one side, where what is left bends sideways as well.
    """
    if isinstance(cut, GroupCut):
        return Net(*slot_net(pad, section, cut))
    if isinstance(cut, Lost):
        return Net(*lost_net(pad, section, cut))
    if cut.kind in NOTCHES:
        d_n = pad(sc.notched_depth, d=section.d, d_cut=cut.depth)
        left = Section(section.b, d_n, section.breadth_alone)
        return Net(left.modulus(pad), left.area(pad), d_n, left.inertia(pad))
    b_v, d_v, y_v = _taken(pad, section, cut)
    void = {"b": section.b, "d": section.d, "b_v": b_v, "d_v": d_v}
    A = pad(ns.net_area, **void)
    y_bar, I_n = pad(ns.net_centroid, **void, y_v=y_v), pad(ns.net_inertia, **void, y_v=y_v)
    if cut.kind == "mortise" and b_v < section.b:
        I_y = pad(ns.side_void_inertia, note="for bending sideways", **void)
        I_xy = pad(ns.side_void_product, **void, y_v=y_v)
        S = pad(ns.side_void_modulus, note="in the worst corner", I_net=I_n, I_y=I_y, I_xy=I_xy, **void, y_bar=y_bar)
        return Net(S, A, section.d, I_n)
    bottom = pad(ns.net_modulus_bottom, I_net=I_n, y_bar=y_bar, note="at the bottom edge")
    top = pad(ns.net_modulus_top, I_net=I_n, d=section.d, y_bar=y_bar, note="at the top edge")
    S = pad.take("S_n", smallest(bottom, top), "in3", note="the smaller of bottom and top")
    return Net(S, A, section.d, I_n)


def _taken(pad: Pad, section: Section, cut: Missing) -> tuple[Number, Number, Number]:
    """The void, written down."""
    b_v, d_v, y_v = void_of(section, cut)
    return pad.take("b_v", b_v, "in"), pad.take("d_v", d_v, "in"), pad.take("y_v", y_v, "in")


def void_stress(pad: Pad, section: Section, cut: Missing, V: Number) -> Number:
    """Largest shear stress beside a hole or mortise, psi: V Q / (I t) of what is left, not 3/2 of the mean.

    At an anchor group it is 3/2 of the mean on what is left.
    """
    if isinstance(cut, GroupCut):
        return slot_shear(pad, section, cut, V)
    if isinstance(cut, Lost):
        net, (b_n, _) = net_section(pad, section, cut), left_of(section, cut)
        d_v = pad.take("d_e", float(net.A) / b_n, "in", note="a rectangle of the area that is left")
        return pad(sh.shear_stress, V=V, b=b_n, d=d_v)
    b_v, d_v, y_v = _taken(pad, section, cut)
    if b_v < section.b:
        void = {"b": section.b, "d": section.d, "b_v": b_v, "d_v": d_v, "y_v": y_v}
        y_bar, I_n = pad(ns.net_centroid, **void), pad(ns.net_inertia, **void)
        Q = pad(ns.net_first_moment, **void, y_bar=y_bar)
        return pad(ns.shear_stress_net, V=V, Q_net=Q, I_net=I_n, b=section.b, b_v=b_v)
    above = pad.take("d_a", section.d - y_v - 0.5 * d_v, "in", note="wood left above")
    below = pad.take("d_b", y_v - 0.5 * d_v, "in", note="wood left below")
    return pad(ns.shear_stress_parts, V=V, b=section.b, d_a=above, d_b=below)


# ---- where cuts may be, and how deep -----------------------------------------------------------------------------


def cut_checks(
    name: str, found: Sequence[Region], section: Section, spans: Sequence[Stretch], seats: Sequence[Stretch], *,
    single_span: bool, pulled: Sequence[Sequence[str]],
) -> Iterator[Check]:  # fmt: skip
    """The rule that decides about each cut, and what several of them do together.

    `spans`: sequence of (start, end): between supports, and overhangs. `single_span`: one span without overhang and
    without an end that cannot turn. `pulled`: for each cut 'top', 'bottom': the edges that are in tension at the cut
    under some combination.
    """
    for region, edges in zip(found, pulled, strict=True):
        if isinstance(region.cut, Lost) and not nothing_left(section, region.cut):
            continue  # what is left is checked; what it means is asked with the survey
        verdict, clause, text = _ruled(region, section, spans, single_span, edges)
        id, what, text = "beam.cut", f"limits of the {region.cut.kind}", f"{region.text}: {text}"
        if verdict == "fails":
            yield Check.breaks_rule(id, name, what, clause, text)
        elif verdict == "passes":
            yield Check.keeps_rule(id, name, what, clause, text)
        else:
            question = told_apart(ask("cut", name, cut=region.text), region.text)
            yield Check.refers(id, name, what, clause, text, ask=question)
    yield from cuts_together(name, found, section, seats)


def cuts_together(
    name: str, found: Sequence[Region], section: Section, seats: Sequence[Stretch]
) -> Iterator[Check]:  # fmt: skip
    """What several cuts do together, and what they take from seats: for an engineer."""
    made = [region for region in found if not isinstance(region.cut, Lost)]
    for text in (*_too_near(made, float(section.d)), *_on_seats(made, seats)):
        question = told_apart(ask("cuts_together", name, text=text), text.split(":")[0])
        yield Check.refers("beam.cuts_together", name, "cuts", NET, text, ask=question)


def _ruled(
    region: Region, section: Section, spans: Sequence[Stretch], single_span: bool, pulled: Sequence[str]
) -> Ruled:  # fmt: skip
    cut = region.cut
    if section.round:
        return "refer", "NDS 2018 3.4.3", "a cut in a round piece is for an engineer"
    if nothing_left(section, cut):
        return "fails", NET, "nothing is left of the piece there"
    if isinstance(cut, GroupCut):
        found = _group(region, cut, section, spans)
    elif cut.kind not in NOTCHES:
        found = _hole(region, section, spans, single_span)
    elif region.at_end:
        found = _end_notch(region, section, spans, cut.face in pulled)
    else:
        found = _inner_notch(region, section, spans, single_span, cut.face in pulled)
    if cut.kind == "taper" and found[0] == "passes":
        return "refer", found[1], TAPERED
    return found


def _end_notch(region: Region, section: Section, spans: Sequence[Stretch], pulled: bool) -> Ruled:
    if region.cut.depth > float(end_notch_limit(section.d)):
        if region.cut.kind == "taper":
            return "refer", ENDS, f"over a quarter of the depth; {TAPERED}"
        return "fails", ENDS, "an end notch may take at most a quarter of the depth"
    if in_a_middle_third(region, spans):
        return "fails", INNER, "it runs from the end into the middle third of a span"
    if pulled and region.past_seat > judgment("end notch past its seat").value * section.d + SLIVER:
        return "refer", ENDS, "it runs on for more than a third of the depth past its seat, on the tension side"
    return "passes", ENDS, "within a quarter of the depth at the end"


def _thick() -> float:
    """Net thickness from which no notch is allowed in the tension side away from the ends, in (NDS 2018 4.4.3.2)."""
    return judgment("thickness without notches in the tension side").value


def _inner_notch(
    region: Region, section: Section, spans: Sequence[Stretch], single_span: bool, pulled: bool
) -> Ruled:  # fmt: skip
    cut = region.cut
    if section.breadth_alone >= _thick() and pulled:
        return "fails", INNER, "no notch in the tension side away from the ends"
    if not single_span:
        return "refer", INNER, "notches in continuous, overhanging or clamped pieces are for an engineer"
    if in_a_middle_third(region, spans):
        return "fails", INNER, "no notch in the middle third of a span"
    if cut.depth > float(inner_notch_limit(section.d)):
        return "fails", INNER, "away from the ends a notch may take at most a sixth of the depth"
    if cut.length > section.d / 3.0:
        return "refer", HOLES, "longer than a third of the depth"
    return "passes", INNER, "within the limits of the outer thirds"


def _hole(region: Region, section: Section, spans: Sequence[Stretch], single_span: bool) -> Ruled:
    """Holes and mortises. The rule is for bored joists; for timbers and mortises it is common practice."""
    cut, (b_v, d_v, y_v) = region.cut, void_of(section, region.cut)
    clear = judgment("wood between a hole and an edge").value
    if breaks_through(section, cut):
        return "refer", NET, "it breaks through an edge; enter it as a notch"
    if cut.kind == "hole" and cut.face != "side":
        return "refer", NET, f"there is no rule here for holes from the {cut.face}"
    if b_v >= section.b and region.end - region.start > d_v + SLIVER:
        return "refer", NET, "an opening right through and longer than high also bends the wood above and below it"
    if d_v > section.d / 3.0 or min(y_v - 0.5 * d_v, section.d - y_v - 0.5 * d_v) < clear:
        return "refer", HOLES, f"more than a third of the depth, or closer than {show(clear, 'length')} to an edge"
    if cut.kind == "mortise" or section.breadth_alone > _thick():
        if not single_span:
            return "refer", NET, "in a continuous, overhanging or clamped timber it is for an engineer"
        if in_a_middle_third(region, spans):
            return "refer", NET, "in the middle third of a span it is for an engineer"
    return "passes", HOLES, f"at most a third of the depth and {show(clear, 'length')} clear of the edges"


def _group(region: Region, cut: GroupCut, section: Section, spans: Sequence[Stretch]) -> Ruled:
    """What an anchor group takes. The standard asks for the net section; how much may go at all is judgment."""
    if cut.width > broadest() * section.b + HAIR * section.d:
        return "refer", NET, "the slot takes more than a third of the breadth"
    if height_lost(cut) > (highest() + HAIR) * section.d:
        return "refer", NET, "the rows of holes and bores take more than a third of the depth"
    if in_a_middle_third(region, spans):
        return "refer", NET, "in the middle third of a span it is for an engineer"
    return "passes", NET, "at most a third of breadth and depth; what is left is checked"


def in_a_middle_third(region: Region, spans: Sequence[Stretch]) -> bool:
    """Whether a cut reaches into the middle third of a span."""
    for start, end in spans:
        third = (end - start) / 3.0
        if region.end > start + third and region.start < end - third:
            return True
    return False


def _too_near(found: Sequence[Region], depth: float) -> Iterator[str]:
    """Sentences for cuts that lie at one place, or so near that what is left between them is disturbed by both."""
    ordered = sorted(found, key=lambda region: region.start)
    reaches = accumulate((region.end for region in ordered), max)
    for (one, two), reach in zip(pairwise(ordered), reaches, strict=False):
        if two.start < reach:
            yield f"{one.text} and {two.text} lie at the same place: their losses add up"
        elif two.start < reach + depth:
            yield f"{one.text} and {two.text} are less than the depth of the piece apart"


def _on_seats(found: Sequence[Region], seats: Sequence[Stretch]) -> Iterator[str]:
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
