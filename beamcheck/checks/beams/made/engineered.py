"""A beam of glued or composite wood: what may be cut out of it, what may be fastened in it, and a fire."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from ....formulas.engineered.glued import compression_notch_limit, tension_notch_limit
from ....model.beams import Beam
from ....model.made.report import MakersReport, ReportHoles
from ....model.stock import Stock
from ....units import show
from ....values.loads import told
from ...core.asking.question import PlausibleAnswer, Question, ask
from ...core.context import Context
from ...core.result import Check
from ...core.wood.group_cut import GroupCut
from ...core.wood.made.engineered import COMPOSITE, GLUED, WORDS
from ...core.wood.strength import Section
from ..cuts import NOTCHES, Region, Ruled, cuts_together, in_a_middle_third, nothing_left, void_of
from ..seats import told_apart

NOTCHED = "NDS 2018 5.4.5"
HAIR = 1e-6  # in


def cuts_by_make(
    beam: Beam, stock: Stock, found: Sequence[Region], section: Section, spans: Sequence[tuple[float, float]],
    seats: Sequence[tuple[float, float]], pulled: Sequence[Sequence[str]],
) -> Iterator[Check]:  # fmt: skip
    """The rule that decides about each cut: that of chapter 5, or of the report."""
    id = "beam.cut"
    for region, edges in zip(found, pulled, strict=True):
        what = f"limits of the {region.cut.kind}"
        if nothing_left(section, region.cut):
            yield Check.breaks_rule(id, beam.name, what, "geometry", f"{region.text}: nothing is left there")
            continue
        if stock.report is None:
            (verdict, clause, text), field = _glued(region, section, spans, region.cut.face in edges), ""
        else:
            (verdict, clause, text), field = _by_report(region, section, stock.report, spans, seats)
        text = f"{region.text}: {text}"
        if verdict == "fails":
            yield Check.breaks_rule(id, beam.name, what, clause, text)
        elif verdict == "passes":
            yield Check.keeps_rule(id, beam.name, what, clause, text)
        elif field:
            yield Check.refers(id, beam.name, what, clause, text, ask=_ask_report(stock, field, region))
        else:
            question = told_apart(ask("cut", beam.name, cut=region.text), region.text)
            yield Check.refers(id, beam.name, what, clause, text, ask=question)
    yield from cuts_together(beam.name, found, section, seats)


def _ask_report(stock: Stock, field: str, region: Region) -> Question:
    """What the report says of notches or holes."""
    base = f"stock.{stock.name}.report"
    if field == "end_notch":
        allowed = PlausibleAnswer("one of this depth", ((f"{base}.end_notch", show(region.cut.depth, "length")),))
        answers = [allowed, PlausibleAnswer("none", ((f"{base}.end_notch", "0 in"),))]
        return ask("report_notch", stock.name, f"{base}.end_notch", answers=answers)
    across = show(region.cut.depth, "length")
    holes = {"largest": across, "from_seats": "0.5 in", "from_edges": "0.5 in", "middle_third_only": False}
    answers = [
        PlausibleAnswer("one like this", ((f"{base}.holes", holes),)),
        PlausibleAnswer("none", ((f"{base}.holes", "none"),)),
    ]
    return ask("report_holes", stock.name, f"{base}.holes", answers=answers)


def _glued(region: Region, section: Section, spans: Sequence[tuple[float, float]], pulled: bool) -> Ruled:
    """Notches of glued laminated timber; for all else the standard has no rule."""
    cut = region.cut
    if cut.kind != "notch":
        return "refer", GLUED, "for this the standard has no rule in glued laminated timber"
    if not region.at_end:
        return "fails", NOTCHED, "no notch in glued laminated timber away from its ends"
    if pulled or cut.face == "bottom":
        most = float(tension_notch_limit(section.d))
        if cut.depth > most:
            return (
                "fails",
                NOTCHED,
                f"at the bearing the tension side may lose a tenth of the depth, at most {_in(most)}",
            )
        if region.past_seat > 0.0:
            return "fails", NOTCHED, "a notch in the tension side may lie over the bearing only"
        return "passes", NOTCHED, f"within {_in(most)} in the tension side, over the bearing"
    most = float(compression_notch_limit(section.d))
    if cut.depth > most:
        return "fails", NOTCHED, f"in the compression side a notch may take two fifths of the depth, {_in(most)}"
    if in_a_middle_third(region, spans):
        return "fails", NOTCHED, "a notch in the compression side may not run into the middle third of a span"
    return "passes", NOTCHED, f"within {_in(most)} in the compression side at the end"


def _by_report(
    region: Region, section: Section, report: MakersReport, spans: Sequence[tuple[float, float]],
    seats: Sequence[tuple[float, float]],
) -> tuple[Ruled, str]:  # fmt: skip
    """What the report allows, and the field in which it is asked for."""
    cut, clause = region.cut, f"{COMPOSITE}; {report.number}"
    if cut.kind in NOTCHES and not isinstance(cut, GroupCut):
        if cut.kind == "taper" or not region.at_end:
            return ("refer", clause, "only the maker can say whether that may be cut"), ""
        if report.end_notch is None:
            return ("refer", clause, "what its report says of notches is not given"), "end_notch"
        if cut.depth > report.end_notch:
            allowed = f"at most {_in(report.end_notch)}" if report.end_notch else "none"
            return ("fails", clause, f"of notches at an end the report allows {allowed}"), ""
        if region.past_seat > HAIR:
            text = "what the report allows is a notch over the seat, and this one runs past it: only the maker can say"
            return ("refer", clause, text), ""
        return ("passes", clause, f"within the {_in(report.end_notch)} of the report"), ""
    if cut.kind != "hole" or isinstance(cut, GroupCut) or cut.face != "side":
        return ("refer", clause, "only the maker can say whether that may be cut"), ""
    if cut.length > cut.depth + HAIR:
        return ("refer", clause, "longer than high: the report allows round holes, only the maker can say"), ""
    if report.holes is None:
        return ("refer", clause, "what its report says of holes is not given"), "holes"
    if report.holes == "none":
        return ("fails", clause, "the report allows no hole"), ""
    why = _hole_is_wrong(region, section, report.holes, spans, seats)
    return ("fails" if why else "passes", clause, why or "within what the report allows"), ""


def _hole_is_wrong(
    region: Region, section: Section, allowed: ReportHoles, spans: Sequence[tuple[float, float]],
    seats: Sequence[tuple[float, float]],
) -> str:  # fmt: skip
    _, d_v, y_v = void_of(section, region.cut)
    if d_v > allowed.largest:
        return f"the report allows {_in(allowed.largest)} at most"
    if min(y_v - 0.5 * d_v, float(section.d) - y_v - 0.5 * d_v) < allowed.from_edges:
        return f"the report wants {_in(allowed.from_edges)} of wood above and below"
    near = min((max(start - region.end, region.start - end) for start, end in seats), default=0.0)
    if near < allowed.from_seats:
        return f"the report wants {_in(allowed.from_seats)} from the seats"
    if allowed.middle_third_only:
        for start, end in spans:
            third = (end - start) / 3.0
            if start + third <= region.start and region.end <= end - third:
                return ""
        return "the report allows holes in the middle third of a span only"
    return ""


def _in(length: float) -> str:
    return show(length, "length")


def engineered_checks(beam: Beam, stock: Stock, context: Context) -> Iterator[Check]:
    """What a fire leaves of it, and fasteners in it: neither is run here for wood that is glued together."""
    words, clause = WORDS[stock.made], GLUED if stock.made == "glulam" else COMPOSITE
    if beam.fire is not None:
        why = f"{words} in a fire is not run here"
        asked = ask("fire_engineer", beam.name, why=f"{why[0].upper()}{why[1:]}.", minutes=f"{beam.fire.minutes:g}")
        yield Check.refers("fire.engineer", beam.name, "what the fire leaves", "NDS 2018 16.2", why, ask=asked)
    yield from _curved(beam, stock)
    groups = [support.held_by for support in beam.supports if support.held_by]
    bored = [name for name in groups if (anchor := context.anchor(name)) is not None and anchor.fastener is not None]
    if stock.made == "composite" and bored:
        text = f"fasteners in {words}: distances, spacing and values are those of its report, which are not run here"
        question = ask("report_fasteners", beam.name, kind=words)
        yield Check.refers("beam.report_fasteners", beam.name, "fasteners by the report", clause, text, ask=question)


def _curved(beam: Beam, stock: Stock) -> Iterator[Check]:
    """Curved and pitched glued timber is pulled across its grain where it bends: radial stresses are not run here."""
    if stock.made != "glulam" or beam.insists_on("name"):
        return
    said = next((text for text in (beam.name, beam.called, stock.name, stock.evidence) if told(text, "curved")), "")
    if not said:
        return
    text = f"{said!r}: of curved or pitched glued timber the radial tension, its limits and C_c are not run here"
    path, why = f"beam.{beam.name}.meant.name", "straight, with camber at most"
    asked = ask("curved", beam.name, path, answers=[PlausibleAnswer(why, ((path, why),))])
    yield Check.refers("beam.curved", beam.name, "radial stress", "NDS 2018 5.2.8, 5.4.1", text, ask=asked)
