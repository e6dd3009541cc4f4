"""Where the seats of a level piece lie, and the wood that touches there: no more than the piece and what is under it
have.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace
from typing import TYPE_CHECKING

from ...model.beams import Beam
from ...model.classes import is_bracket
from ...model.fields.places import SAME_PLACE
from ...model.posts import Post
from ...model.sticks import Support
from ...records import dataclass
from ...units import read, show
from ...values.judgment import judgment
from ..core.asking.question import RULING, Question, ask
from ..core.context import Context
from ..core.wood.lost import least_breadth
from ..core.wood.strength import Section

if TYPE_CHECKING:
    from ...model.brackets.bracket import Bracket


def clear_of_end() -> float:
    """Inches from the end of a piece from which a seat counts as away from it (NDS 2018 3.10.4)."""
    return judgment("clear of the end for the bearing area factor").value


@dataclass(frozen=True)
class Seat:
    """A support as it lies along the piece, inches.

    `x` is where the analysis has it: the middle, or nearer to the inner face where NDS 2018 3.2.1 lets the span end.
    """

    index: int
    support: Support
    start: float
    end: float
    near_end: bool
    x: float

    @property
    def name(self) -> str:
        return f"support {self.index + 1} on {self.support.on}"

    @property
    def where(self) -> str:
        return show(self.support.at, "length")

    def field(self, beam: Beam, name: str) -> str:
        """The place of one of its fields in the job file."""
        return f"beam.{beam.name}.supports.{self.index + 1}.{name}"

    def asks(
        self, key: str, beam: Beam, name: str = "", *, answers: Sequence[str] | None = None,
        forces: Mapping[str, float] | None = None, **words: str,
    ) -> Question:  # fmt: skip
        """A question about this end alone; it goes into one of its fields, or without a name into a ruling."""
        end = f"support {self.index + 1}"
        found = ask(
            key, beam.name, self.field(beam, name) if name else RULING, answers=answers, forces=forces, end=end,
            on=self.support.on, place=self.where, **words,
        )  # fmt: skip
        return told_apart(found, end)


def told_apart(question: Question, where: str) -> Question:
    """The same question about one of several places of a piece: an id of its own."""
    return replace(question, id=f"{question.id} at {where}")


def seats_of(supports: Sequence[Support], length: float, at: Sequence[float] = ()) -> list[Seat]:
    """Where the seats are; `at` is the middle of a seat. One at the very end reaches beyond the length as given.

    `at` of this function: where the analysis has them, if not in the middle.
    """
    clear, found = clear_of_end(), []
    for index, support in enumerate(supports):
        half = 0.5 * (support.bearing or 0.0)
        start, end = support.at - half, support.at + half
        first, last = min(start, 0.0), max(end, length)
        near_end = start - first < clear or last - end < clear
        found.append(Seat(index, support, start, end, near_end, solved_at(at[index] if at else support.at, length)))
    return found


def solved_at(x: float, length: float) -> float:
    """Where the analysis has a support: at the very end of a piece that reaches next to nothing beyond it.

    So short an end is far stiffer than the span beside it, and what rounding leaves upsets the balance of the forces.
    """
    hardly = judgment("end beyond a support over the length").value * length
    return 0.0 if x < hardly else length if length - x < hardly else x


def ask_seat(beam: Beam, seat: Seat, there: float | None = None) -> Question:
    """How long a seat is, along the beam; no answer is longer than what is `there` to rest on, in, where known."""
    asked = seat.asks("seat_length", beam, "bearing")
    fit = [one.says for one in asked.answers if there is None or read(one.says, "length") <= there]
    if there is None or len(fit) == len(asked.answers):
        return asked
    return seat.asks("seat_length", beam, "bearing", answers=list(dict.fromkeys([show(there, "length"), *fit])))


@dataclass(frozen=True)
class Contact:
    """The wood that touches: across the piece and along it, inches.

    `doubts`: what cannot be right, with the question; `asks`: what was not said and is taken on the safe side.
    """

    b: float
    l_b: float
    notes: tuple[str, ...] = ()
    doubts: tuple[tuple[str, Question], ...] = ()
    asks: tuple[Question, ...] = ()


def contact_of(beam: Beam, seat: Seat, section: Section, context: Context) -> Contact:
    """The seat as given, but no more than the piece and the post or beam under it have."""
    found = _contact(beam, seat, section, context)
    if beam.length is None:
        return found
    seen = min(seat.end, beam.length) - max(seat.start, 0.0)
    if seen >= found.l_b:
        return found
    text = (
        f"the piece is {show(beam.length, 'length')} long, so only {show(seen, 'length')} of it lies on this seat "
        "(a support is given by the middle of its seat)"
    )
    return replace(found, l_b=seen, notes=(*found.notes, text))


def _contact(beam: Beam, seat: Seat, section: Section, context: Context) -> Contact:
    support = seat.support
    whole = section.b - least_breadth(context.stock(beam.stock), seat.start, seat.end)
    b = min(support.bearing_width or whole, whole) - context.structure.joints.slot(context.anchor(support.held_by))
    b, l_b = max(float(b), 0.0), support.bearing or 0.0
    under = context.under(support.on)
    if is_bracket(under):
        return _on_bracket(beam, seat, under, b, l_b)
    if support.holds != "rests" or not isinstance(under, (Beam, Post)):
        return Contact(b, l_b)
    size = context.size(under.stock)
    if isinstance(under, Beam):
        breadth = size.d if under.laid == "flat" else size.b * under.plies
        doubts = [*_crowd(beam, seat, under, b, breadth, context), *_too_long(beam, seat, under.name, l_b, breadth)]
        return Contact(b, min(l_b, breadth), (), tuple(doubts))
    if under.bearing_plate:
        return Contact(b, l_b, (f"the plate on {under.name} is taken to be as large as the seat",))
    side, along = sorted((size.b * under.plies, size.d)) if size.surface != "round" else (0.7 * size.d, 0.7 * size.d)
    doubts = [*_crowd(beam, seat, under, b, along, context, side), *_too_long(beam, seat, under.name, l_b, along)]
    # which way the post is turned is not known: its thin side counts unless the seat's breadth is given
    said = support.bearing_width is not None and l_b <= side
    broad = along if said else side
    notes = (f"no broader than {under.name}: {show(broad, 'length')}",) if broad < b else ()
    turned = not said and broad < b and along > side and l_b <= side
    sides = [show(x, "length") for x in (min(b, along), side)]  # which of a post lies across the beam?
    asks = (seat.asks("seat_breadth", beam, "bearing_width", answers=sides),) if turned else ()
    return Contact(min(b, broad), min(l_b, along), notes, tuple(doubts), asks)


def room_for_a_seat(seat: Seat, context: Context) -> float | None:
    """How broad the beam or post is that a piece rests on, in; None where that is not known."""
    under = context.under(seat.support.on)
    if not isinstance(under, (Beam, Post)) or (isinstance(under, Post) and under.bearing_plate):
        return None
    size = context.size(under.stock)
    if isinstance(under, Beam):
        return float(size.d if under.laid == "flat" else size.b * under.plies)
    return float(0.7 * size.d if size.surface == "round" else max(size.b * under.plies, size.d))


def _too_long(beam: Beam, seat: Seat, under: str, l_b: float, there: float) -> list[tuple[str, Question]]:
    if l_b <= there:
        return []
    text = f"the seat is said to be longer than {under} is broad ({show(there, 'length')})"
    return [(text, ask_seat(beam, seat, there))]


def _on_bracket(beam: Beam, seat: Seat, under: Bracket, b: float, l_b: float) -> Contact:
    """No broader than the bracket is thick: which way the piece runs over it is not known."""
    thick, longest = under.shape.side_to_side, under.shape.longest_seat
    notes = (f"no broader than {under.name} is thick: {show(thick, 'length')}",) if thick < b else ()
    text = f"the seat is said to be longer than {under.name} stands out ({show(longest, 'length')})"
    doubts = [(text, ask_seat(beam, seat, longest))] if l_b > longest else []
    out, half = seat.support.lands_at, 0.5 * min(b, l_b)  # whichever way the piece runs, half of one of them
    if out is not None and out < half - SAME_PLACE:
        middles = [show(0.5 * x, "length") for x in (l_b, b)]
        text = (
            f"with its middle {show(out, 'length')} out from the wall the seat would begin inside the wall: "
            f"`lands_at` is to the middle; {show(half, 'length')} at the least"
        )
        doubts.append((text, seat.asks("middle_of_seat", beam, "lands_at", answers=middles)))
    return Contact(min(b, thick), min(l_b, longest), notes, tuple(doubts))


def _crowd(
    beam: Beam, seat: Seat, under: Beam | Post, b: float, long: float, context: Context, broad: float | None = None
) -> list[tuple[str, Question]]:
    """Whether the seats of several pieces fit beside each other on one post, or in one place of a beam."""
    used = []
    for other in context.structure.beams_on(under.name):
        size = context.size(other.stock)
        wide = size.d if other.laid == "flat" else size.b * other.plies
        for support in other.supports:
            if support.on != under.name or support.holds != "rests" or not support.bearing:
                continue
            if broad is not None:  # on a post: areas
                used.append(min(support.bearing_width or wide, wide, max(broad, long)) * support.bearing)
            elif abs((support.lands_at or 0.0) - (seat.support.lands_at or 0.0)) < 0.5 * (wide + b):
                used.append(support.bearing)
    room = long if broad is None else broad * long
    if len(used) < 2 or sum(used) <= room * (1.0 + 1e-9):
        return []
    return [(f"the seats on {under.name} add up to more than there is room for", ask_seat(beam, seat))]
