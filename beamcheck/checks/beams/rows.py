"""Rows of pieces that land on a beam: where along it they stand, and whether they count as an even load."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import replace

from ...analysis.beams.load_cases import SLIVER, Stretch, spans_of
from ...analysis.beams.member_loads import TransferredLoad
from ...model.beams import Beam, beam_length
from ...model.roofs import Rafter
from ...records import dataclass
from ...units import show
from ...values.judgment import judgment
from ..core.asking.question import PlausibleAnswer, Question, ask
from ..core.context import AnyPiece, Context
from ..core.result import Check
from .seats import solved_at, told_apart

PATH = "load path"


@dataclass(frozen=True)
class PlacedRow:
    """A load of another piece as it is taken, and what was taken for it: '' where nothing had to be."""

    transfer: TransferredLoad
    taken: str = ""
    open: bool = False  # what was taken is not shown to be the worst


def placed_rows(beam: Beam, transfers: Sequence[TransferredLoad]) -> list[PlacedRow]:
    """The loads of other pieces on a beam, each row in its place.

    A row whose ends are given stands there, piece by piece where they are few in a span. Else one that is long enough
    to cover the beam from its middle outwards, and any row on a single span, counts all along it. On a beam that
    overhangs or has several spans more load may be less: there it is asked for.
    """
    length = beam_length(beam)
    spans = _spans(beam, length)
    return [_placed(transfer, length, spans) for transfer in transfers]


def _spans(beam: Beam, length: float) -> list[Stretch]:
    """Between supports, and overhangs; an end that only reaches over its seat is none."""
    seats = {solved_at(support.at, length): support.bearing or 0.0 for support in beam.supports}
    found = []
    for span in spans_of(length, list(seats)):
        ends = [x for x in span if x in seats]
        if len(ends) == 2 or span[1] - span[0] > max(seats[ends[0]], SLIVER):
            found.append(span)
    return found


def _placed(transfer: TransferredLoad, length: float, spans: Sequence[Stretch]) -> PlacedRow:
    spread = transfer.spread
    if spread is None:
        return PlacedRow(transfer)
    if transfer.row is not None:
        return PlacedRow(replace(transfer, single=_few(spread, _reached(spread, transfer.row, spans))))
    words = f"{transfer.from_piece} lands every {show(spread, 'length')}"
    half = 0.5 * spread * transfer.members
    if transfer.at is None or (transfer.at - half <= SLIVER and transfer.at + half >= length - SLIVER):
        return PlacedRow(transfer, f"{words} all along it: counted as an even load.")
    if len(spans) == 1:
        return PlacedRow(transfer, f"{words}: counted as an even load all along it, wherever the row begins and ends.")
    row = (transfer.at - half + 0.5 * spread, transfer.at + half - 0.5 * spread) if transfer.members > 1 else None
    return PlacedRow(replace(transfer, row=row), f"{words}, from where to where is not said.", open=True)


def _reached(spread: float, row: Stretch, spans: Sequence[Stretch]) -> list[Stretch]:
    """The stretches that a row reaches, a spacing beyond its ends among it."""
    return [(start, end) for start, end in spans if start < row[1] + spread and end > row[0] - spread]


def _shortest(spans: Sequence[Stretch]) -> float:
    return min((end - start for start, end in spans), default=math.inf)


def _few(spread: float, spans: Sequence[Stretch]) -> bool:
    """Whether so few of a row land in some stretch that they are no even load there."""
    return spread * judgment("spacings to a span that make an even load").value > _shortest(spans) * (1.0 + 1e-9)


def row_words(beam: Beam, transfers: Sequence[TransferredLoad]) -> list[str]:
    """What was taken for rows, as assumptions."""
    return [row.taken for row in placed_rows(beam, transfers) if row.taken and not row.open]


def row_checks(beam: Beam, context: Context) -> Iterator[Check]:
    """Rows whose place matters and is not given, rows that are no even load, and pieces that may stand for a row."""
    length = beam_length(beam)
    spans, id = _spans(beam, length), "beam.row"
    for row in placed_rows(beam, context.transfers):
        transfer = row.transfer
        above = context.structure.pieces.get(transfer.from_piece)
        if transfer.spread is None:
            if isinstance(above, Beam) and may_be_one_of_a_row(above, context):
                yield _one_of_a_row(beam.name, above)
            continue
        if crowded := _crowded(transfer, above, beam):
            yield crowded
        if row.open:
            text = (
                f"{row.taken} This beam overhangs or runs over several spans, where a load on a part of it may be "
                f"worse "
                "than one all along"
            )
            question = _ask_row(above, beam, length)
            yield Check.refers(id, beam.name, f"row of {transfer.from_piece}", PATH, text, ask=question)
        elif transfer.row is None and _few(transfer.spread, spans):
            text = (
                f"{transfer.from_piece} lands every {show(transfer.spread, 'length')} on a stretch of "
                f"{show(_shortest(spans), 'length')}: single loads so far apart can bend it more than the even load "
                "counted"
            )
            what = f"single loads from {transfer.from_piece}"
            yield Check.refers(id, beam.name, what, "statics", text, ask=_ask_row(above, beam, length))


def _crowded(transfer: TransferredLoad, above: AnyPiece | None, beam: Beam) -> Check | None:
    """More pieces of a row than find room, so far apart, between the first and the last place where they land."""
    if transfer.row is None or transfer.spread is None or not isinstance(above, Beam) or above.insists_on("members"):
        return None
    first, last = transfer.row
    room, needed = last - first, (transfer.members - 1) * transfer.spread
    if needed <= room + transfer.spread:
        return None
    fit = max(round(room / transfer.spread) + 1, 1)
    text = (
        f"{transfer.members} pieces {show(transfer.spread, 'length')} apart reach over {show(needed, 'length')}, and "
        f"from the first to the last that lands here are {show(room, 'length')}: where do the others land?"
    )
    why = "the others land elsewhere and are described there"
    answers = [PlausibleAnswer(f"{fit} land here", ((f"beam.{above.name}.members", fit),)),
               PlausibleAnswer(why, ((f"beam.{above.name}.meant.members", why),))]  # fmt: skip
    question = ask("row_members", above.name, f"beam.{above.name}.members", answers=answers, on=beam.name)
    return Check.refers("beam.row", beam.name, f"how many of {above.name} land here", "geometry", text, ask=question)


def _ask_row(above: AnyPiece | None, beam: Beam, length: float) -> Question:
    """From where to where a row lands on a beam."""
    base = ""
    if isinstance(above, Beam):
        numbers = [i for i, support in enumerate(above.supports, 1) if support.on == beam.name]
        base = f"beam.{above.name}.supports.{numbers[0]}" if numbers else ""
    elif isinstance(above, Rafter) and above.wall.on == beam.name:
        base = f"rafter.{above.name}.wall"
    elif isinstance(above, Rafter) and above.ridge_on == beam.name:
        base = f"rafter.{above.name}.upper"
    name = above.name if above is not None else "the row"
    if not base:
        return ask("row_by_engineer", name, on=beam.name)
    sides = ("0 in", f"{length!r} in")
    says = f"all along, from 0 to {show(length, 'length')}"
    answer = PlausibleAnswer(says, ((f"{base}.lands_from", sides[0]), (f"{base}.lands_to", sides[1])))
    return told_apart(ask("row", name, f"{base}.lands_from", answers=[answer], on=beam.name), f"on {beam.name}")


def may_be_one_of_a_row(beam: Beam, context: Context) -> bool:
    """Whether a beam without a spacing looks like one of several: thin as a joist, or with a narrow strip of load."""
    if beam.spacing is not None or beam.in_a_row is False:
        return False
    widths = [load.width for load in beam.carries if load.width is not None]
    if not widths:
        return False
    size = context.size(beam.stock)
    thin = size.b * beam.plies < judgment("breadth of a beam that stands alone").value
    return thin or min(widths) <= judgment("width of floor of a beam that stands alone").value


def _one_of_a_row(subject: str, above: Beam) -> Check:
    text = (
        f"{above.name} carries a strip as wide as one of a row has, and no spacing is given: if it is one of several, "
        "all of them land here"
    )
    widths = sorted({load.width for load in above.carries if load.width is not None})
    alone = PlausibleAnswer("it stands alone", ((f"beam.{above.name}.in_a_row", False),))
    rows = [
        PlausibleAnswer(f"one every {show(width, 'length')}", ((f"beam.{above.name}.spacing", f"{width!r} in"),))
        for width in widths[:2]
    ]
    question = ask("in_a_row", above.name, f"beam.{above.name}.in_a_row", answers=[alone, *rows])
    return Check.refers("beam.row", subject, f"{above.name}, alone or one of a row", PATH, text, ask=question)


def own_row_checks(beam: Beam, context: Context) -> Iterator[Check]:
    """Whether a beam that lands on another beam is one of a row: the other gets one of them or all."""
    on_beams = any(isinstance(context.structure.pieces.get(support.on), Beam) for support in beam.supports)
    if on_beams and may_be_one_of_a_row(beam, context):
        yield _one_of_a_row(beam.name, beam)
