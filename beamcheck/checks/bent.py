"""Bending of a level piece: each span, either edge pressed, whole sections and net sections (NDS 2018 3.2, 3.3, 4.2.5)."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from ..analysis.straight import Straight
from ..formulas.pad import Pad
from ..model.pieces import Stick, Stock
from ..units import show
from ..values.lumber import Size
from .bracing import Span, bracing_of, needs_end_restraint
from .cuts import Region, net_section
from .demand import Asked, at, govern, stated
from .result import Check
from .strength import Outcome, Section, bending
from .supports import Seat
from .wood import Wood

SMALL = 1.0  # lb-in: a moment below this presses on no edge


def bending_checks(
    stick: Stick, straight: Straight, spans: Sequence[Span], regions: Sequence[Region], wood: Wood, size: Size,
    section: Section, seats: Sequence[Seat],
) -> list[Check]:  # fmt: skip
    """The worst span for each pressed edge, then every cut."""
    found: list[Check] = []
    simple = len(spans) == 1 and all(seat.support.holds != "fixed" for seat in seats)
    for top in (True, False):
        candidates = [
            check for span in spans
            if (check := _span(stick, straight, span, wood, size, section, simple=simple, top=top)) is not None
        ]  # fmt: skip
        if candidates:
            found.append(max(candidates, key=lambda check: np.inf if check.ratio is None else check.ratio))
    for region in regions:
        if not section.round and region.cut.depth < section.d:
            found.append(_at_cut(stick, straight, spans, region, wood, size, section, simple=simple))
    return found


def _span(
    stick: Stick, straight: Straight, span: Span, wood: Wood, size: Size, section: Section, *, simple: bool, top: bool
) -> Check | None:
    low, s_low, high, s_high = straight.combined.line.extremes("M", span.start, span.end)
    moments, places = (np.maximum(high, 0.0), s_high) if top else (np.maximum(-low, 0.0), s_low)
    if float(np.max(moments)) < SMALL:
        return None
    bracing = bracing_of(stick, size, section, span, straight.loads, simple=simple, top=top)
    what = "bending" if top else "bending with the bottom edge pressed"
    where = f"from {show(span.start, 'length')} to {show(span.end, 'length')}"
    asked = Asked(stick.name, what, "NDS 2018 3.3", "stress", where)

    def calculate(pad: Pad, which: int | slice) -> Outcome:
        note = "" if isinstance(which, slice) else f"from the analysis, at {show(float(places[which]), 'length')}"
        M = pad.take("M", at(moments, which), "lbf*in", note=note)
        return bending(pad, wood, section, bracing, M=M, C_D=at(straight.C_D, which))

    return govern(asked, straight.combinations, calculate)


def _at_cut(
    stick: Stick, straight: Straight, spans: Sequence[Span], region: Region, wood: Wood, size: Size, section: Section,
    *, simple: bool,
) -> Check:  # fmt: skip
    low, _, high, _ = straight.combined.line.extremes("M", region.start, region.end)
    moments = np.maximum(np.abs(low), np.abs(high))
    span = max(spans, key=lambda one: min(one.end, region.end) - max(one.start, region.start))
    ways = [bracing_of(stick, size, section, span, straight.loads, simple=simple, top=top) for top in (True, False)]
    press_top = float(np.max(high)) >= float(np.max(-low))
    bracing = ways[0] if press_top else ways[1]
    asked = Asked(
        stick.name, f"bending at {region.text}", "NDS 2018 3.1.2, 3.3", "stress", show(region.cut.at, "length")
    )

    def calculate(pad: Pad, which: int | slice) -> Outcome:
        M = pad.take("M", at(moments, which), "lbf*in", note="largest at the cut, from the analysis")
        net = net_section(pad, section, region.cut)
        return bending(pad, wood, section, bracing, M=M, C_D=at(straight.C_D, which), S=net.S)

    return govern(asked, straight.combinations, calculate)


def rule_checks(
    stick: Stick, stock: Stock, spans: Sequence[Span], size: Size, section: Section, seats: Sequence[Seat]
) -> list[Check]:
    """What must be so for the bending checks to hold: ends held against turning over, grading over the whole length."""
    found = []
    if needs_end_restraint(size, section) and stick.laid == "on edge":
        loose = [seat for seat in seats if seat.support.restrained is not True]
        if loose:
            no = any(seat.support.restrained is False for seat in loose)
            names = ", ".join(seat.name for seat in loose)
            found.append(
                stated(stick.name, "ends held against turning over", "NDS 2018 3.3.3.4, 4.4.1.2",
                       "fails" if no else "refer",
                       f"{names}: d/b is over 2, so the ends must be held upright"
                       + ("" if no else "; say so with `restrained = true` once it is"))
            )  # fmt: skip
    continuous = len(spans) > 1
    if continuous and size.size_class == "beams_and_stringers" and stock.graded_over != "whole length":
        found.append(
            stated(stick.name, "grading of a continuous or overhanging timber", "NDS 2018 4.2.5.5", "refer",
                   "beam and stringer grades allow larger knots outside the middle third: the certificate must say that "
                   "the middle-third rules hold over the whole length (`graded_over`)")
        )  # fmt: skip
    return found
