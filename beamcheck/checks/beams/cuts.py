"""What is missing from a stick: net sections at notches, holes, mortises, tapers. Where they may be: cut_rules.py."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from ...analysis.beams.load_cases import SLIVER, Stretch
from ...calc.core import Number, smallest
from ...calc.pad import Pad
from ...formulas.wood import net_section as ns
from ...formulas.wood import section as sc
from ...model.pieces import Cut
from ...units import show
from ..anchors.cuts import GroupCut, nothing_is_left, slot_net, slot_shear
from ..core.strength import Section

Missing = Cut | GroupCut  # a cut of the job file, or all that one anchor group takes
NOTCHES = ("notch", "taper")  # open at an edge, over the full breadth; the others leave wood on all sides


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
    if isinstance(cut, GroupCut):
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
    if cut.kind == "hole" and cut.face != "side":
        return cut.depth >= float(section.b)
    return cut.depth >= float(section.d)


def breaks_through(section: Section, cut: Missing) -> bool:
    """Whether a hole or mortise is open at an edge although it was not entered as a notch."""
    if cut.kind in NOTCHES or isinstance(cut, GroupCut) or nothing_left(section, cut):
        return False
    b_v, d_v, y_v = void_of(section, cut)
    hair = 1e-9 * float(section.d)
    inside = y_v - 0.5 * d_v >= -hair and y_v + 0.5 * d_v <= section.d + hair
    touches = y_v - 0.5 * d_v <= hair or y_v + 0.5 * d_v >= section.d - hair
    return not inside or (touches and b_v >= section.b)


def has_net_section(section: Section, cut: Missing) -> bool:
    """Whether what is left at a cut can be counted here; where it cannot, cut_rules.py fails or refers the piece."""
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
    b_v, d_v, y_v = _taken(pad, section, cut)
    if b_v < section.b:
        void = {"b": section.b, "d": section.d, "b_v": b_v, "d_v": d_v, "y_v": y_v}
        y_bar, I_n = pad(ns.net_centroid, **void), pad(ns.net_inertia, **void)
        Q = pad(ns.net_first_moment, **void, y_bar=y_bar)
        return pad(ns.shear_stress_net, V=V, Q_net=Q, I_net=I_n, b=section.b, b_v=b_v)
    above = pad.take("d_a", section.d - y_v - 0.5 * d_v, "in", note="wood left above")
    below = pad.take("d_b", y_v - 0.5 * d_v, "in", note="wood left below")
    return pad(ns.shear_stress_parts, V=V, b=section.b, d_a=above, d_b=below)
