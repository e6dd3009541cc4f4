"""Rafters and the ties that close a pair of them."""

from __future__ import annotations

import math
from collections.abc import Iterator
from typing import Literal

from pydantic import Field

from .fields.base import Answer, Name, Piece
from .fields.places import Fault, feet
from .fields.quantities import Length, PositiveLength, Slope
from .sticks import Stick, Support, places_inside, row_faults, widths


class UpperEnd(Piece):
    """The upper end of rafters at their ridge beam: a seat on its top, and where along it the row lands."""

    bearing: PositiveLength | None = Field(
        default=None,
        description="level length of its seat on the top of the ridge beam; leave out where it hangs on its side",
        examples=["2 1/2 in"],
    )
    restrained: bool | None = Field(
        default=None, description="is it held upright there, by blocking or nailed to the opposite rafter?"
    )
    lands_from: Length | None = Field(default=None, description="where along the ridge beam the first rafter lands")
    lands_to: Length | None = Field(default=None, description="where the last one lands")

    def faults(self) -> Iterator[Fault]:
        """A row begins and ends somewhere."""
        yield from row_faults(self.lands_from, self.lands_to)


class Rafter(Stick):
    """A pair of rafters, or one rafter, with what holds it against spreading."""

    run: PositiveLength = Field(description="level distance from the wall's support to the ridge", examples=["12 ft"])
    slope: Slope = Field(description="rise to run, or degrees from level", examples=["6:12"])
    spacing: PositiveLength = Field(description="from middle to middle of the rafters", examples=["24 in"])
    ridge: Literal["beam", "board"] = Field(
        description="beam: carries the upper ends; board: the two rafters only lean on each other", examples=["beam"]
    )
    wall: Support = Field(
        description="the support at the wall; `at` is the distance up the slope and is normally 0",
        examples=[{"at": "0 ft", "on": "north wall plate"}],
    )
    ridge_on: Name | None = Field(
        default=None, description="the ridge beam that carries the upper ends", examples=["ridge beam"]
    )
    pair: bool = Field(default=True, description="another rafter leans on the ridge from the other side")
    tie: Name | None = Field(default=None, description="the tie that closes the pair")
    thrust_resisted_by: Answer = Field(default="", description="what takes the thrust when there is no tie")
    ridge_held_by: Name | None = Field(
        default=None, description="the [[anchor]] group that joins the two rafters at the ridge board"
    )
    upper_held_by: Name | None = Field(
        default=None, description="the [[anchor]] group at the ridge beam: rated sloped hangers, straps over the top"
    )
    upper: UpperEnd | None = Field(
        default=None, description="the upper end at the ridge beam: its seat on the top, where the row lands"
    )
    other_wall: Name | None = Field(
        default=None, description="what the foot of the opposite rafter rests on", examples=["south wall plate"]
    )
    stamp_up: bool | None = Field(
        default=None, description="of glued laminated timber: whether the face stamped TOP lies up", examples=[True]
    )
    seat_cut: PositiveLength | None = Field(default=None, description="depth of the birdsmouth, square to the rafter")

    def faults(self) -> Iterator[Fault]:
        """What belongs to a ridge beam and what to a ridge board, and a slope that rises."""
        if self.slope == 0:
            yield ("slope",), "a level rafter is a beam: describe it as [[beam]]"
        if self.ridge == "beam" and self.ridge_on is None:
            yield ("ridge_on",), 'missing: say which piece carries the upper ends, for example ridge_on = "ridge beam"'
        if self.ridge == "board" and self.ridge_on is not None:
            yield ("ridge_on",), 'a ridge board carries nothing: leave ridge_on out, or write ridge = "beam"'
        if self.ridge == "beam" and self.ridge_held_by is not None:
            text = "there are no two rafters to join over a ridge beam"
            yield ("ridge_held_by",), f"{text}: what holds the upper end goes into upper_held_by"
        if self.ridge == "board" and self.upper_held_by is not None:
            text = "a ridge board carries nothing"
            yield ("upper_held_by",), f"{text}: what joins the two rafters goes into ridge_held_by"
        if self.ridge == "board" and self.upper is not None:
            yield ("upper",), 'a ridge board carries nothing: leave upper out, or write ridge = "beam"'
        if self.ridge == "beam" and self.other_wall is not None:
            yield ("other_wall",), "the ridge beam carries this rafter by itself: leave other_wall out"
        if self.ridge == "beam" and self.tie is not None:
            text = "leave tie out, and describe a piece that carries a ceiling as a [[beam]]"
            yield ("tie",), f"with a ridge beam a tie takes no part in the check and would go unchecked: {text}"
        if self.ridge == "board" and not self.pair:
            yield ("pair",), 'one rafter alone cannot lean on a ridge board: write ridge = "beam", or leave pair out'
        length = slope_length(self)
        if length <= 2400:
            yield from places_inside(self.carries, self.cuts, length, "the rafter", measured=True)
        elif self.run <= 1200 and self.slope <= 85:  # otherwise said already
            yield (), f"{feet(length)} up the slope cannot be right: check run and slope"


class Tie(Stick):
    """A level tie between a pair of rafters: tension, with bending when something hangs on it."""

    height: Length = Field(description="above the rafters' wall supports", examples=["0 ft"])
    end_connection: Name = Field(default="unchecked", description="how its ends are joined to the rafters")
    ends_held_by: Name | None = Field(default=None, description="the [[anchor]] group at each of its ends")
    ends_rest_on: Name | None = Field(
        default=None,
        description="the wall plate that its ends sit on, as those of a ceiling joist do: it bears the tie's weight",
        examples=["wall plates"],
    )
    ends_upright: bool | None = Field(
        default=None, description="are its ends held upright, by the rafters they are nailed to or by blocking?"
    )

    def faults(self) -> Iterator[Fault]:
        """Loads with their width and place."""
        if self.ends_rest_on is not None and self.height > 0.0:
            text = "only a tie at the height of the wall (0 ft) sits on its plate"
            yield ("ends_rest_on",), f"{text}: leave it out, or correct the height"
        yield from widths(self.carries)
        yield from places_inside(self.carries, (), math.inf, "the tie")


def slope_length(rafter: Rafter) -> float:
    """Length of a rafter up the slope from its lower end to the ridge, inches."""
    return rafter.wall.at + rafter.run / math.cos(math.radians(rafter.slope))
