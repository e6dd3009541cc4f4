"""Bending of a level piece: each span, either edge pressed, whole and net sections (NDS 2018 3.2, 3.3, 4.2.5)."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

import numpy as np

from ...analysis.beams.load_cases import SLIVER
from ...analysis.beams.solved_beam import SolvedBeam
from ...calc.pad import Pad
from ...model.beams import Beam
from ...model.stock import Stock
from ...units import show
from ...values.lumber import Size
from ..core.asking.question import PlausibleAnswer, Question, ask
from ..core.result import Check, worst_of
from ..core.wood.govern import Criterion, at, duration, govern
from ..core.wood.material import WoodMaterial, ask_what_shares
from ..core.wood.strength import Bracing, Outcome, Section, bending
from .bracing import Span, bracing_of, needs_end_restraint, upright_is_enough
from .cuts import Region, has_net_section, net_section
from .load_entry import ask_what_brings
from .seats import Seat

SMALL = 1.0  # lb-in: a moment below this presses on no edge; rounding
UPRIGHT = "loads that press down or lift are counted; what pushes from the side (wind, thrust) is out of scope here"


def bending_checks(
    beam: Beam, solved: SolvedBeam, spans: Sequence[Span], regions: Sequence[Region], wood: WoodMaterial, size: Size,
    section: Section, *, simple: bool, seats: Sequence[Seat] = (),
) -> list[Check]:  # fmt: skip
    """The worst span for each pressed edge, then every cut. `simple`: one span without overhangs and clamped ends."""
    found: list[Check] = []

    def bracing(span: Span, top: bool) -> Bracing:
        return bracing_of(beam, size, section, span, solved.loads, simple=simple, top=top)

    for top in (True, False):
        asks = _unsaid(beam, solved, size, section, seats, top=top,
                       unbalanced=wood.F_b_other is not None)  # fmt: skip
        candidates = [_span(beam, solved, span, wood, section, bracing(span, top), asks, top=top) for span in spans]
        if needed := [check for check in candidates if check is not None]:
            found.append(worst_of(needed))
    for region in regions:
        if has_net_section(section, region.cut):
            first, last = region.start - SLIVER, region.end + SLIVER
            beside = [span for span in spans if span.start <= last and first <= span.end] or spans
            ways = [(top, bracing(span, top)) for span in beside for top in (True, False)]
            found.append(worst_of([*_at_cut(beam, solved, region, wood, section, ways)]))
    return found


def _unsaid(
    beam: Beam, solved: SolvedBeam, size: Size, section: Section, seats: Sequence[Seat], *, top: bool,
    unbalanced: bool,
) -> tuple[Question, ...]:  # fmt: skip
    """What was not said of the bracing and is taken on the safe side: ends that may turn over, loads that hold
    nothing.
    """
    found: list[Question] = [*ask_what_shares(beam)]
    loose = [seat for seat in seats if seat.support.restrained is None]
    if loose and (upright_is_enough(size, section) or (not top and needs_end_restraint(size, section))):
        found.append(ask_upright(beam, loose))
    if beam.stamp_up is None and unbalanced:
        found.append(ask("stamp_up", beam.name, f"beam.{beam.name}.stamp_up"))
    if top and beam.top_held == "at loads":
        found += [ask_what_brings(beam, load) for load in solved.loads if load.entry is not None and not load.by]
    return tuple({one.id: one for one in found}.values())


def ask_upright(beam: Beam, loose: Sequence[Seat]) -> Question:
    """Whether the ends of which nothing is said are held upright: one question for all of them."""
    fields = [seat.field(beam, "restrained") for seat in loose]
    answers = [PlausibleAnswer(says, tuple((field, value) for field in fields)) for says, value in (
        ("yes", True), ("no", False))]  # fmt: skip
    where = " and ".join(dict.fromkeys(f"on {seat.support.on}" for seat in loose))
    return ask("upright", beam.name, fields[0], answers=answers, where=where)


def _span(
    beam: Beam, solved: SolvedBeam, span: Span, wood: WoodMaterial, section: Section, bracing: Bracing,
    asks: tuple[Question, ...], *, top: bool,
) -> Check | None:  # fmt: skip
    low, s_low, high, s_high = solved.moments(span.start, span.end)
    moments, places = (np.maximum(high, 0.0), s_high) if top else (np.maximum(-low, 0.0), s_low)
    if float(np.max(moments)) < SMALL:
        return None
    id, what = ("beam.bending", "bending") if top else ("beam.bending.below", "bending with the bottom edge pressed")
    where = f"from {show(span.start, 'length')} to {show(span.end, 'length')}"
    pulled = _pulled(beam, solved, span, wood, top=top)
    criterion = Criterion(beam.name, what, "NDS 2018 3.3", "stress", where, (UPRIGHT,) if top else (), id=id, ask=asks)

    def calculate(pad: Pad, which: int | slice) -> Outcome:
        note = "" if isinstance(which, slice) else f"from the analysis, at {show(float(places[which]), 'length')}"
        M = pad.take("M", at(moments, which), "lbf*in", note=note)
        return bending(pad, pulled, section, bracing, M=M, C_D=duration(pad, solved.combinations, which))

    return govern(criterion, solved.combinations, calculate)


def _at_cut(
    beam: Beam, solved: SolvedBeam, region: Region, wood: WoodMaterial, section: Section,
    ways: Sequence[tuple[bool, Bracing]],
) -> Iterator[Check]:  # fmt: skip
    """The largest moment at a cut on what is left there, for each edge that is pressed and each span that meets it."""
    low, _, high, _ = solved.moments(region.start, region.end)
    criterion = Criterion(
        beam.name, f"bending at {region.text}", "NDS 2018 3.1.2, 3.3", "stress", show(region.cut.at, "length"),
        id="beam.bending.cut", ask=ask_what_shares(beam),
    )  # fmt: skip
    bottom_pressed = float(np.max(-low)) >= SMALL
    top_pressed = float(np.max(high)) >= SMALL or not bottom_pressed
    for top, bracing in ways:
        if not (top_pressed if top else bottom_pressed):
            continue
        moments, pulled = np.maximum(high if top else -low, 0.0), _pulled(beam, solved, None, wood, top=top)

        def calculate(
            pad: Pad,
            which: int | slice,
            moments: np.ndarray = moments,
            bracing: Bracing = bracing,
            pulled: WoodMaterial = pulled,
        ) -> Outcome:
            M = pad.take("M", at(moments, which), "lbf*in", note="largest at the cut, from the analysis")
            net = net_section(pad, section, region.cut)
            C_D = duration(pad, solved.combinations, which)
            return bending(pad, pulled, section, bracing, M=M, C_D=C_D, S=net.S)

        yield govern(criterion, solved.combinations, calculate)


def _pulled(beam: Beam, solved: SolvedBeam, span: Span | None, wood: WoodMaterial, *, top: bool) -> WoodMaterial:
    """Glued wood with the face that is pulled, and how far the points of zero moment lie apart at most.

    Where all loads press down the moment that presses on the top ends within its span; else the whole beam counts.
    """
    if wood.volume is None:
        return wood
    from ..core.wood.made.engineered import pulled_side

    within = span is not None and not span.overhang and top and not any(load.lifts for load in solved.loads)
    return pulled_side(wood, beam.stamp_up, span.length if within and span else solved.length, top=top)


def rule_checks(
    beam: Beam, stock: Stock, spans: Sequence[Span], size: Size, section: Section, seats: Sequence[Seat]
) -> Iterator[Check]:
    """What must be so for the bending checks to hold: ends held upright, grading over the whole length."""
    if needs_end_restraint(size, section):
        id, what = "beam.ends_upright", "ends held against turning over"
        clause, why = "NDS 2018 3.3.3.4, 4.4.1.2", "the ends must be held upright"
        why = f"{'d/b is over 2' if section.sawn else 'it is deeper than broad'}, so {why}"
        free = [seat for seat in seats if seat.support.restrained is False]
        loose = [seat for seat in seats if seat.support.restrained is None]
        if free:
            names = ", ".join(seat.name for seat in free)
            yield Check.breaks_rule(id, beam.name, what, clause, f"{names}: said not to be; {why}")
        elif loose:
            names = ", ".join(seat.name for seat in loose)
            yield Check.refers(id, beam.name, what, clause, f"{names}: not said; {why}", ask=ask_upright(beam, loose))
    bends_over_supports = len(spans) > 1 or any(span.overhang for span in spans)
    if (
        bends_over_supports
        and section.sawn
        and size.size_class == "beams_and_stringers"
        and stock.graded_over != "whole length"
    ):
        text = (
            "beam and stringer grades allow larger knots outside the middle third: the certificate must say that the "
            "middle-third rules hold over the whole length"
        )
        question = ask("graded_over", stock.name, f"stock.{stock.name}.graded_over")
        what = "grading of a continuous or overhanging timber"
        yield Check.refers("beam.graded_over", beam.name, what, "NDS 2018 4.2.5.5", text, ask=question)
