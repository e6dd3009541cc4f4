"""What is missing from a stick: net sections at notches, holes, mortises and tapers, and the limits on where they may be."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from ..formulas import net_section as ns
from ..formulas import section as sc
from ..formulas.core import Number, smallest
from ..formulas.pad import Pad
from ..model.pieces import Cut
from ..units import show
from .strength import Section

THICK = 3.5  # in, net thickness from which NDS 2018 4.4.3.2 forbids notches on the tension side (4 in nominal)


@dataclass(frozen=True)
class Region:
    """One cut as it lies in the piece: from `start` to `end` along it, inches."""

    cut: Cut
    start: float
    end: float
    at_end: bool  # an end notch: it reaches over a support at the end of the piece
    text: str

    @property
    def bottom_of_void(self) -> float:
        """Height of the lower edge of the missing wood above the bottom edge of the piece."""
        return (self.cut.from_bottom or 0.0) - 0.5 * self.cut.depth


def regions(cuts: Sequence[Cut], length: float, first_seat: float, last_seat: float) -> list[Region]:
    """Where each cut lies. `first_seat` and `last_seat` are the inner edges of the seats at the ends."""
    found = []
    for cut in cuts:
        half = 0.5 * cut.length
        start, end = cut.at - half, cut.at + half
        if cut.kind in ("hole",):
            start, end = cut.at - 0.5 * cut.depth, cut.at + 0.5 * cut.depth
        if cut.kind in ("notch", "taper") and cut.at <= first_seat:  # given from the end inwards
            start, end = 0.0, max(cut.at + cut.length, cut.length)
        elif cut.kind in ("notch", "taper") and cut.at >= last_seat:
            start, end = min(cut.at - cut.length, length - cut.length), length
        start, end = max(start, 0.0), min(end, length)
        at_end = cut.kind in ("notch", "taper") and (start <= first_seat or end >= last_seat)
        found.append(Region(cut, start, end, at_end, words(cut)))
    return found


def words(cut: Cut) -> str:
    """The cut in a carpenter's words."""
    size = show(cut.depth, "length")
    if cut.kind == "hole":
        return f"{size} hole at {show(cut.at, 'length')}"
    long = f", {show(cut.length, 'length')} long" if cut.length else ""
    return f"{cut.kind} {size} deep{long} on the {cut.face} at {show(cut.at, 'length')}"


@dataclass(frozen=True)
class Net:
    """A net section: moduli for tension at the bottom and at the top, area, depth left, and second moment."""

    S: Number
    A: Number
    d_n: Number
    I: Number  # noqa: E741 - the standard's symbol


def net_section(pad: Pad, section: Section, cut: Cut) -> Net:
    """The section that is left at a cut. A notch is taken across the full breadth whatever its width (safe side)."""
    if cut.kind in ("notch", "taper"):
        d_n = pad(sc.notched_depth, d=section.d, d_cut=cut.depth)
        left = Section(section.b, d_n, section.breadth_alone)
        return Net(left.modulus(pad), left.area(pad), d_n, left.inertia(pad))
    b_v = pad.take("b_v", min(cut.width or section.b, section.b) if cut.kind == "mortise" else section.b, "in")
    y_v = pad.take("y_v", cut.from_bottom if cut.from_bottom is not None else 0.5 * section.d, "in")
    void = {"b": section.b, "d": section.d, "b_v": b_v, "d_v": cut.depth}
    A = pad(ns.net_area, **void)
    I_n = pad(ns.net_inertia, **void, y_v=y_v)
    S = smallest(pad(ns.net_modulus_bottom, **void, y_v=y_v), pad(ns.net_modulus_top, **void, y_v=y_v))
    return Net(pad.take("S_n", S, "in3", note="the smaller of bottom and top"), A, section.d, I_n)


def void_stress(pad: Pad, section: Section, cut: Cut, V: Number) -> Number:
    """Largest shear stress beside a hole or mortise, psi: V Q / (I t) of what is left, not 3/2 of the mean."""
    y_v = cut.from_bottom if cut.from_bottom is not None else 0.5 * section.d
    b_v = min(cut.width or section.b, section.b) if cut.kind == "mortise" else section.b
    if b_v < section.b:
        void = {"b": section.b, "d": section.d, "b_v": b_v, "d_v": cut.depth, "y_v": y_v}
        Q, I_n = pad(ns.net_first_moment, **void), pad(ns.net_inertia, **void)
        return pad(ns.shear_stress_net, V=V, Q_net=Q, I_net=I_n, b=section.b, b_v=b_v)
    below = pad.take("d_a", y_v - 0.5 * cut.depth, "in", note="wood left below")
    above = pad.take("d_b", section.d - y_v - 0.5 * cut.depth, "in", note="wood left above")
    return pad(ns.shear_stress_parts, V=V, b=section.b, d_a=below, d_b=above)


@dataclass(frozen=True)
class Limit:
    """One rule about a cut, and whether it is kept: 'passes', 'fails' or 'refer' with the sentence that says why."""

    verdict: str
    clause: str
    text: str


def limits(region: Region, section: Section, spans: Sequence[tuple[float, float]], *, single_span: bool) -> list[Limit]:
    """The rules of NDS 2018 3.2.3 and 4.4.3 for notches, and of IRC R502.8.1 for holes (common practice for mortises)."""
    cut, d = region.cut, section.d
    if section.round:
        return [Limit("refer", "NDS 2018 3.4.3", f"{region.text}: a cut in a round piece is for an engineer")]
    if cut.depth >= d:
        return [Limit("fails", "NDS 2018 3.1.2", f"{region.text}: nothing is left of the piece there")]
    if cut.kind in ("hole", "mortise"):
        return _hole_limits(region, section)
    if region.at_end:
        if cut.depth > 0.25 * d:
            return [
                Limit(
                    "fails", "NDS 2018 4.4.3.1", f"{region.text}: an end notch may take at most a quarter of the depth"
                )
            ]
        return [Limit("passes", "NDS 2018 4.4.3.1", f"{region.text}: within a quarter of the depth at the end")]
    if section.breadth_alone >= THICK and cut.face == "bottom":
        return [Limit("fails", "NDS 2018 4.4.3.2", f"{region.text}: no notch in the tension side away from the ends")]
    if not single_span:
        return [
            Limit(
                "refer",
                "NDS 2018 4.4.3.2",
                f"{region.text}: notches in continuous or overhanging pieces are for an engineer",
            )
        ]
    start, end = spans[0]
    third = (end - start) / 3.0
    if region.end > start + third and region.start < end - third:
        return [Limit("fails", "NDS 2018 4.4.3.2", f"{region.text}: no notch in the middle third of a span")]
    if cut.depth > d / 6.0:
        return [
            Limit(
                "fails",
                "NDS 2018 4.4.3.2",
                f"{region.text}: away from the ends a notch may take at most a sixth of the depth",
            )
        ]
    if cut.length > d / 3.0:
        return [Limit("refer", "IRC R502.8.1", f"{region.text}: longer than a third of the depth")]
    return [Limit("passes", "NDS 2018 4.4.3.2", f"{region.text}: within the limits of the outer thirds")]


def _hole_limits(region: Region, section: Section) -> list[Limit]:
    cut, d = region.cut, section.d
    below, above = region.bottom_of_void, d - region.bottom_of_void - cut.depth
    if below < 0.0 or above < 0.0:
        return [Limit("refer", "NDS 2018 3.1.2", f"{region.text}: it breaks through an edge; enter it as a notch")]
    if cut.depth > d / 3.0 or min(below, above) < 2.0:
        return [
            Limit(
                "refer", "IRC R502.8.1",
                f"{region.text}: more than a third of the depth, or closer than 2 in to an edge",
            )
        ]  # fmt: skip
    return [Limit("passes", "IRC R502.8.1", f"{region.text}: at most a third of the depth and 2 in clear of the edges")]


def overlapping(found: Sequence[Region]) -> list[str]:
    """Sentences for cuts that lie at the same place: their net sections would have to be combined."""
    ordered = sorted(found, key=lambda region: region.start)
    return [
        f"{one.text} and {two.text} lie at the same place"
        for one, two in zip(ordered, ordered[1:], strict=False)
        if two.start < one.end
    ]
