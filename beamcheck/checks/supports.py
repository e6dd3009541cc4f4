"""Each support of a level piece: bearing of the piece, bearing of what is under it, uplift, and what holds the end."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

import numpy as np

from ..analysis.straight import Straight
from ..formulas import bearing as br
from ..formulas.pad import Pad, SilentPad
from ..model.pieces import Beam, Existing, Post, Stick, Support
from ..units import show
from .context import Around
from .demand import Asked, at, govern, stated
from .result import Check, Verdict
from .strength import Outcome, Section, bearing
from .wood import Wood, bearing_prime, is_unknown, reference_values, wood_of

CLEAR_OF_END = 3.0  # in, NDS 2018 3.10.4
LEAST_ON_WOOD, LEAST_ON_MASONRY = 1.5, 3.0  # in, IRC R502.6 (memory)
NEGLIGIBLE = 0.5  # lbf: below this a computed uplift is rounding


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


def seats_of(supports: tuple[Support, ...], length: float) -> list[Seat]:
    """Where the seats are; `at` is the middle of a seat, save that a seat at the very end lies within the piece."""
    found = []
    for index, support in enumerate(supports):
        half = 0.5 * (support.bearing or 0.0)
        start, end = support.at - half, support.at + half
        first, last = min(start, 0.0), max(end, length)
        near_end = start - first < CLEAR_OF_END or last - end < CLEAR_OF_END
        found.append(Seat(index, support, start, end, near_end))
    return found


def support_checks(
    stick: Stick, straight: Straight, seats: list[Seat], wood: Wood, section: Section, around: Around
) -> list[Check]:
    """All checks at all supports of a level piece."""
    found = []
    for seat in seats:
        reactions = straight.reactions(seat.index)
        if float(np.max(reactions)) > NEGLIGIBLE:
            found += _bearing(stick, straight, seat, reactions, wood, section, around)
        if float(np.min(reactions)) < -NEGLIGIBLE:
            found.append(_uplift(stick, straight, seat, reactions))
        found += _held(stick, seat, around)
    return found


def _bearing(
    stick: Stick, straight: Straight, seat: Seat, reactions: np.ndarray, wood: Wood, section: Section, around: Around
) -> list[Check]:
    support = seat.support
    b = min(support.bearing_width or section.b, section.b)
    what = f"bearing at {seat.name}"
    where = show(support.at, "length")
    if support.bearing is None:
        needed = _needed(wood, float(np.max(reactions)), b)
        return [
            stated(stick.name, what, "NDS 2018 3.10.2", "refer",
                   f"the seat's length is not given; this reaction needs at least {show(needed, 'length')} "
                   "(rounded; give `bearing`)", where=where)
        ]  # fmt: skip
    if section.round:
        return [stated(stick.name, what, "NDS 2018 3.10.2", "refer", "a round piece on a flat seat bears on a line: "
                       "an engineer must judge the seat", where=where)]  # fmt: skip
    l_b = support.bearing
    asked = Asked(stick.name, what, "NDS 2018 3.10.2", "stress", where)

    def own(pad: Pad, which: int | slice) -> Outcome:
        R = pad.take("R", at(np.maximum(reactions, 0.0), which), "lbf", note="reaction, from the analysis")
        return bearing(pad, wood, R=R, b=b, l_b=l_b, near_end=seat.near_end)

    checks = [govern(asked, straight.combinations, own)]
    checks += _least_length(stick, seat, around, where)
    checks += _under(stick, straight, seat, reactions, b, around)
    return checks


def _needed(wood: Wood, R: float, b: float) -> float:
    pad = SilentPad()
    return float(pad(br.required_bearing_length, R=R, b=b, F_c_perp_prime=bearing_prime(pad, wood, 1.0)))


def _least_length(stick: Stick, seat: Seat, around: Around, where: str) -> list[Check]:
    under = around.under(seat.support.on)
    masonry = isinstance(under, Existing) and under.material in ("masonry", "concrete")
    least = LEAST_ON_MASONRY if masonry else LEAST_ON_WOOD
    l_b = seat.support.bearing or 0.0
    if l_b >= least:
        return []
    return [
        stated(stick.name, f"least seat length at {seat.name}", "IRC R502.6 (memory)", "fails",
               f"{show(l_b, 'length')} given, at least {show(least, 'length')} asked on "
               f"{'masonry or concrete' if masonry else 'wood or metal'}", where=where)
    ]  # fmt: skip


def _under(
    stick: Stick, straight: Straight, seat: Seat, reactions: np.ndarray, b: float, around: Around
) -> list[Check]:
    """The wood under the seat, where there is wood across the load; a post's end grain is checked with the post."""
    under = around.under(seat.support.on)
    what = f"bearing of {seat.support.on} under {stick.name}"
    if isinstance(under, Existing):
        if under.material != "wood":
            return []
        if under.F_c_perp is None:
            return [stated(stick.name, what, "NDS 2018 3.10.2", "refer", "the bearing value of the wooden seat is not given "
                           "(F_c_perp of the [[existing]] entry)")]  # fmt: skip
        allowed = under.F_c_perp

        def given(pad: Pad, which: int | slice) -> Outcome:
            f = pad(br.bearing_stress, R=at(np.maximum(reactions, 0.0), which), b=b, l_b=seat.support.bearing)
            F = pad.take("F_c_perp_prime", allowed, "psi", note="as given in the job file, taken as adjusted")
            return Outcome(f, F, f / F)

        return [govern(Asked(stick.name, what, "NDS 2018 3.10.2", "stress"), straight.combinations, given)]
    if isinstance(under, Post) or seat.support.holds != "rests":
        return []
    stock = around.stock(under.stock)
    if is_unknown(stock):
        return [stated(stick.name, what, "NDS 2018 3.10.2", "refer", f"the wood of {under.name} is not known")]
    other = wood_of(stock, reference_values(stock), laid=under.laid)

    def seat_wood(pad: Pad, which: int | slice) -> Outcome:
        R = at(np.maximum(reactions, 0.0), which)
        return bearing(pad, other, R=R, b=b, l_b=seat.support.bearing, near_end=True)

    return [govern(Asked(stick.name, what, "NDS 2018 3.10.2", "stress"), straight.combinations, seat_wood)]


def _uplift(stick: Stick, straight: Straight, seat: Seat, reactions: np.ndarray) -> Check:
    worst = int(np.argmin(reactions))
    force = show(-float(reactions[worst]), "force")
    tied = seat.support.tied_down.strip()
    text = f"the end lifts with {force}"
    if tied:
        verdict: Verdict = "refer"
        text += f"; said to be held down by {tied!r}, which is not checked here"
    else:
        verdict = "fails"
        text += " and nothing is said to hold it down (`tied_down`)"
    return Check(
        stick.name, f"uplift at {seat.name}", "ASCE 7-16 2.4.1", verdict, "force", -float(reactions[worst]), None, None,
        straight.combinations[worst].name, show(seat.support.at, "length"), (), (text,),
    )  # fmt: skip


def _held(stick: Stick, seat: Seat, around: Around) -> list[Check]:
    """What the end rests on or hangs from, and whether anybody answers for that."""
    support, under = seat.support, around.under(seat.support.on)
    what, where = f"what holds {seat.name}", show(seat.support.at, "length")
    say: Callable[..., Check] = lambda verdict, *notes: stated(  # noqa: E731
        stick.name, what, "load path", verdict, *notes, where=where
    )
    if support.holds == "fixed":
        return [say("refer", "an end that cannot turn needs a designed connection; it is not checked here")]
    if isinstance(under, Existing):
        if under.confirmed_by.strip():
            return [say("passes", f"by others, confirmed: {under.confirmed_by}; not checked here")]
        return [
            say(
                "refer",
                f"{under.name} ({under.what}) is by others, and nobody is named who answers for it (`confirmed_by`)",
            )
        ]
    if support.holds == "hung":
        return [say("refer", f"the hanger or fastening to {under.name} is not checked")]
    if isinstance(under, (Beam, Post)):
        return []
    return [say("refer", f"{stick.name} rests on {under.name}, which cannot be checked for that")]
