"""Each support of a level piece: bearing of the piece, bearing of what is under it, uplift, and what holds the end."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from itertools import pairwise

import numpy as np

from ...analysis.beams.solved_beam import SolvedBeam
from ...calc.pad import Pad, SilentPad
from ...formulas.wood import bearing as br
from ...model.anchor_manners import MANNERS
from ...model.brackets import Bent, Bracket, SteelCore
from ...model.pieces import Beam, Existing, Post, Stick, Support
from ...units import show
from ..anchors.cuts import slot_width
from ..core.context import AnyPiece, Context
from ..core.govern import Criterion, at, govern, stated
from ..core.material import WoodMaterial, bearing_prime, is_unknown, reference_values, wood_of
from ..core.result import Check
from ..core.stated_capacity import enough
from ..core.strength import Outcome, Section, bearing

CLEAR_OF_END = 3.0  # in, NDS 2018 3.10.4
LEAST_ON_WOOD, LEAST_ON_MASONRY = 1.5, 3.0  # in, IRC R502.6 (memory)
NEGLIGIBLE = 0.5  # lbf: below this a computed uplift is rounding
BEARING = "NDS 2018 3.10.2"


BEARS_NOTHING = ("plaster", "board", "trim")


def bears_nothing(under: Existing) -> bool:
    """Whether it is of a material that no letter makes into a support: roles.py fails what rests on it."""
    return under.material in BEARS_NOTHING


@dataclass(frozen=True)
class Seat:
    """A support as it lies along the piece, inches."""

    index: int
    support: Support
    start: float
    end: float
    near_end: bool

    @property
    def name(self) -> str:
        return f"support {self.index + 1} on {self.support.on}"

    @property
    def x(self) -> float:
        """Where the analysis has it."""
        return self.support.at

    @property
    def where(self) -> str:
        return show(self.support.at, "length")


def seats_of(supports: Sequence[Support], length: float) -> list[Seat]:
    """Where the seats are; `at` is the middle of a seat. One at the very end reaches beyond the length as given."""
    found = []
    for index, support in enumerate(supports):
        half = 0.5 * (support.bearing or 0.0)
        start, end = support.at - half, support.at + half
        first, last = min(start, 0.0), max(end, length)
        near_end = start - first < CLEAR_OF_END or last - end < CLEAR_OF_END
        found.append(Seat(index, support, start, end, near_end))
    return found


def support_checks(
    stick: Stick, solved: SolvedBeam, seats: Sequence[Seat], wood: WoodMaterial, section: Section, context: Context
) -> list[Check]:
    """All checks at all supports of a level piece."""
    found: list[Check] = []
    for seat in seats:
        reactions = solved.reactions(seat.index)
        if float(np.max(reactions)) > NEGLIGIBLE and not _hangs(seat, context):
            found += _bearing(stick, solved, seat, reactions, wood, section, context)
        if float(np.min(reactions)) < -NEGLIGIBLE:
            found.append(_uplift(stick, solved, seat, reactions, context))
        found += _held(stick, seat, context)
        under = context.under(seat.support.on)
        if isinstance(under, Existing):
            found += enough(stick.name, f"what {under.name} takes", under, solved.combinations, reactions, seat.where)
        if seat.support.settles:
            text = (
                f"it goes down by {show(seat.support.settles, 'small length')}: all is checked with that and without; "
                "whether it goes on is for an engineer"
            )
            found.append(stated(stick.name, f"settlement of {seat.name}", "load path", "refer", text, where=seat.where))
    for one, two in pairwise(sorted(seats, key=lambda seat: seat.support.at)):
        if two.start < one.end:
            text = "they lie over each other: the lengths of the seats, or their places, are not right"
            found.append(stated(stick.name, f"seats of {one.name} and {two.name}", BEARING, "refer", text))
    return found


def _hangs(seat: Seat, context: Context) -> bool:
    """Whether the end hangs in an anchor group, which is then checked for all of its reaction."""
    anchor = context.anchor(seat.support.held_by)
    return anchor is not None and seat.support.holds == "hung" and MANNERS[anchor.manner].hangs


def _bearing(
    stick: Stick,
    solved: SolvedBeam,
    seat: Seat,
    reactions: np.ndarray,
    wood: WoodMaterial,
    section: Section,
    context: Context,
) -> list[Check]:
    """The piece on its seat, the least length of a seat, and the wood under it."""
    support, what = seat.support, f"bearing at {seat.name}"
    if support.bearing is None:
        b = min(support.bearing_width or section.b, section.b)
        needed = _needed(wood, float(np.max(reactions)), b)
        text = f"the seat's length is not given; this reaction needs about {show(needed, 'length')} (`bearing`)"
        return [stated(stick.name, what, BEARING, "refer", text, where=seat.where)]
    if section.round:
        text = "a round piece on a flat seat bears on a line: an engineer must judge the seat"
        return [stated(stick.name, what, BEARING, "refer", text, where=seat.where)]
    contact = _contact(seat, section, context)
    if isinstance(stick, Beam) and stick.length is not None:
        seen = min(seat.end, stick.length) - max(seat.start, 0.0)
        if seen < contact.l_b:
            text = (
                f"the piece is {show(stick.length, 'length')} long, so only {show(seen, 'length')} of it lies on this "
                "seat (`at` is the middle of a seat)"
            )
            contact = replace(contact, l_b=seen, notes=(*contact.notes, text))
    criterion = Criterion(stick.name, what, BEARING, "stress", seat.where, contact.notes)

    def own(pad: Pad, which: int | slice) -> Outcome:
        R = pad.take("R", at(np.maximum(reactions, 0.0), which), "lbf", note="reaction, from the analysis")
        return bearing(pad, wood, R=R, b=contact.b, l_b=contact.l_b, near_end=seat.near_end)

    return [
        govern(criterion, solved.combinations, own),
        *(stated(stick.name, f"size of the seat at {seat.name}", BEARING, "refer", text, where=seat.where)
          for text in contact.doubts),
        *_least_length(stick, seat, context),
        *_under(stick, solved, seat, reactions, contact, context),
    ]  # fmt: skip


@dataclass(frozen=True)
class _Contact:
    """The wood that touches: across the piece and along it, inches; what was taken, and what cannot be right."""

    b: float
    l_b: float
    notes: tuple[str, ...] = ()
    doubts: tuple[str, ...] = ()


def _contact(seat: Seat, section: Section, context: Context) -> _Contact:
    """The seat as given, but no more than the piece and the post or beam under it have."""
    support = seat.support
    b = min(support.bearing_width or section.b, section.b) - slot_width(context.anchor(support.held_by))
    b, l_b = max(float(b), 0.0), support.bearing or 0.0
    under = context.under(support.on)
    if isinstance(under, Bracket):
        return _on_bracket(under, b, l_b)
    if support.holds != "rests" or not isinstance(under, (Beam, Post)):
        return _Contact(b, l_b)
    size = context.size(under.stock)
    if isinstance(under, Beam):
        breadth, along = (size.d, size.d) if under.laid == "flat" else (size.b * under.plies, size.d)
        doubts = _crowd(seat, under, b, l_b, breadth, context)
        if l_b > breadth:
            doubts.append(f"the seat is said to be longer than {under.name} is broad ({show(breadth, 'length')})")
        return _Contact(b, min(l_b, breadth), (), tuple(doubts))
    if under.bearing_plate:
        return _Contact(b, l_b, (f"the plate on {under.name} is taken to be as large as the seat",))
    side, along = sorted((size.b * under.plies, size.d)) if size.surface != "round" else (0.7 * size.d, 0.7 * size.d)
    doubts = _crowd(seat, under, b, l_b, along, context, side)
    if l_b > along:
        doubts.append(f"the seat is said to be longer than {under.name} is broad ({show(along, 'length')})")
    # which way the post is turned is not known: its thin side counts unless the seat's breadth is given
    broad = along if support.bearing_width is not None and l_b <= side else side
    notes = (f"no broader than {under.name}: {show(broad, 'length')}",) if broad < b else ()
    return _Contact(min(b, broad), min(l_b, along), notes, tuple(doubts))


def _on_bracket(under: Bracket, b: float, l_b: float) -> _Contact:
    """No broader than the bracket is thick: which way the piece runs over it is not known."""
    shape = under.shape
    thick = shape.width if isinstance(shape, SteelCore) else shape.thickness
    notes = (f"no broader than {under.name} is thick: {show(thick, 'length')}",) if thick < b else ()
    longest = max(thick, shape.inner_radius + shape.depth if isinstance(shape, Bent) else shape.projection)
    doubts = (f"the seat is said to be longer than {under.name} stands out ({show(longest, 'length')})",)
    return _Contact(min(b, thick), min(l_b, longest), notes, doubts if l_b > longest else ())


def _crowd(
    seat: Seat, under: Beam | Post, b: float, l_b: float, long: float, context: Context, broad: float | None = None
) -> list[str]:
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
    crowded = len(used) > 1 and sum(used) > room * (1.0 + 1e-9)
    return [f"the seats on {under.name} add up to more than there is room for"] if crowded else []


def _needed(wood: WoodMaterial, R: float, b: float) -> float:
    pad = SilentPad()
    return float(pad(br.required_bearing_length, R=R, b=b, F_c_perp_prime=bearing_prime(pad, wood, 1.0)))


def _least_length(stick: Stick, seat: Seat, context: Context) -> list[Check]:
    under = context.under(seat.support.on)
    masonry = isinstance(under, Existing) and under.material in ("masonry", "concrete")
    least = LEAST_ON_MASONRY if masonry else LEAST_ON_WOOD
    l_b = seat.support.bearing or 0.0
    if l_b >= least:
        return []
    return [
        stated(stick.name, f"least seat length at {seat.name}", "IRC R502.6 (memory)", "fails",
               f"{show(l_b, 'length')} given, at least {show(least, 'length')} asked on "
               f"{'masonry or concrete' if masonry else 'wood or metal'}", where=seat.where)
    ]  # fmt: skip


def _under(
    stick: Stick, solved: SolvedBeam, seat: Seat, reactions: np.ndarray, contact: _Contact, context: Context
) -> Iterator[Check]:
    """The wood under the seat, where there is wood across the load; a post's end grain is checked with the post."""
    under = context.under(seat.support.on)
    criterion = Criterion(stick.name, f"bearing of {seat.support.on} under {stick.name}", BEARING, "stress", seat.where)
    if isinstance(under, Existing) and under.material == "other" and seat.support.holds == "rests":
        text = f"what {under.name} is made of is not said (`material`), so the bearing under the seat is not checked"
        yield stated(stick.name, criterion.what, BEARING, "refer", text, where=seat.where)
        return
    found = _wood_under(under, context) if seat.support.holds == "rests" else None
    if found is None:
        return
    if isinstance(found, str):
        yield stated(stick.name, criterion.what, BEARING, "refer", found)
        return

    def calculate(pad: Pad, which: int | slice) -> Outcome:
        R = pad.take("R", at(np.maximum(reactions, 0.0), which), "lbf", note=f"what {stick.name} presses with")
        if isinstance(found, WoodMaterial):
            return bearing(pad, found, R=R, b=contact.b, l_b=contact.l_b, near_end=True)
        f = pad(br.bearing_stress, R=R, b=contact.b, l_b=contact.l_b)
        F = pad.take("F_c_perp_prime", found, "psi", note="as given in the job file, taken as adjusted")
        return Outcome(f, F, f / F)

    yield govern(criterion, solved.combinations, calculate)


def _wood_under(under: AnyPiece, context: Context) -> WoodMaterial | float | str | None:
    """The wood across the load: as known, as an allowable value (psi), or why it is not known; None: there is none."""
    if isinstance(under, Existing):
        if under.material != "wood":
            return None
        missing = "the bearing value of the wooden seat is not given (F_c_perp of the [[existing]] entry)"
        return missing if under.F_c_perp is None else under.F_c_perp
    if isinstance(under, Bracket):
        return None if isinstance(under.shape, SteelCore) else bracket_wood(under, context)
    if not isinstance(under, Beam):
        return None
    stock = context.stock(under.stock)
    if is_unknown(stock):
        return f"the wood of {under.name} is not known"
    return wood_of(stock, reference_values(stock), laid=under.laid)


def bracket_wood(under: Bracket, context: Context) -> WoodMaterial | str:
    """The wood of a bracket under what rests on it, or why it is not known.

    Bearing across the grain counts whichever way the grain runs: along it the wood bears more.
    """
    if under.stock is None:
        return f"what {under.name} is made of where it is pressed is not said (`stock`)"
    stock = context.stock(under.stock)
    if is_unknown(stock):
        return f"the wood of {under.name} is not known"
    return wood_of(stock, reference_values(stock))


def _uplift(stick: Stick, solved: SolvedBeam, seat: Seat, reactions: np.ndarray, context: Context) -> Check:
    """What pulls up: without an anchor group it never passes, for what holds it down is not checked."""
    worst = int(np.argmin(reactions))
    force, tied = -float(reactions[worst]), seat.support.tied_down.strip()
    if (anchor := context.anchor(seat.support.held_by)) is not None:
        text = f"the end lifts with {show(force, 'force')}: checked in anchor {anchor.name}, a piece of its own here"
        return stated(stick.name, f"uplift at {seat.name}", "ASCE 7-16 2.4.1", "passes", text, where=seat.where)
    text = f"the end lifts with {show(force, 'force')}"
    text += f"; said to be held down by {tied!r}, which is not checked here" if tied else (
        " and nothing is said to hold it down (`tied_down`)")  # fmt: skip
    return Check(
        stick.name, f"uplift at {seat.name}", "ASCE 7-16 2.4.1", "refer" if tied else "fails", "force", force,
        combination=solved.combinations[worst].name, where=seat.where, notes=(text,),
    )  # fmt: skip


def _held(stick: Stick, seat: Seat, context: Context) -> Iterator[Check]:
    """What the end rests on or hangs from, and whether anybody answers for that."""
    support, under = seat.support, context.under(seat.support.on)
    what, clause, where = f"what holds {seat.name}", "load path", seat.where
    if support.holds == "fixed":
        text = "an end that cannot turn needs a designed connection; it is not checked here"
        yield stated(stick.name, what, clause, "refer", text, where=where)
    elif support.holds == "hung" and (anchor := context.anchor(support.held_by)) is not None:
        text = f"by anchor {anchor.name}, a piece of its own here"
        yield stated(stick.name, what, clause, "passes", text, where=where)
    elif support.holds == "hung":
        text = f"the hanger or fastening to {under.name} is not checked"
        yield stated(stick.name, what, clause, "refer", text, where=where)
    elif not isinstance(under, (Beam, Post, Bracket, Existing)):
        text = f"{stick.name} rests on {under.name}, which cannot be checked for that"
        yield stated(stick.name, what, clause, "refer", text, where=where)
    if isinstance(under, Existing) and not bears_nothing(under):
        if under.confirmed_by.strip():
            text = f"by others, confirmed: {under.confirmed_by}; not checked here"
            yield stated(stick.name, what, clause, "passes", text, where=where)
        else:
            text = f"{under.name} ({under.what}) is by others, and nobody is named who answers for it (`confirmed_by`)"
            yield stated(stick.name, what, clause, "refer", text, where=where)
