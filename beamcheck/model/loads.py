"""A load on a piece, as the job file writes it."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Literal

from pydantic import Field

from ..errors import nearest
from ..values.loads import live_load_uses
from ..values.species import folded
from .anchors.girder import OnGirder
from .fields.base import Insisting, Name, Words
from .fields.bounds import LOADS
from .fields.places import Fault, feet
from .fields.quantities import Length, LoadAmount, PositiveLength
from .fields.seldom import Seldom

KINDS = ("dead", "live", "roof_live", "snow", "wind")


class Load(Insisting):
    """Something the piece carries. One entry may hold several kinds of load of the same extent."""

    what: Words = Field(description="what it is, in words", examples=["plaster ceiling"])
    dead: LoadAmount | None = Field(default=None, description="weight that stays")
    live: LoadAmount | None = Field(default=None, description="people, furniture, storage")
    roof_live: LoadAmount | None = Field(default=None, description="people and material on a roof")
    snow: LoadAmount | None = Field(default=None, description="snow on the roof; per area it counts on plan")
    wind: LoadAmount | None = Field(
        default=None,
        description="strength-level W of ASCE 7-16 (the combinations take 0.6 of it); negative lifts",
    )
    width: PositiveLength | None = Field(
        default=None, description="tributary width of a load per area", examples=["4 ft"]
    )
    at: Length | None = Field(default=None, description="place of a point load", examples=["7 ft"])
    start: Length | None = Field(
        default=None, alias="from", description="where a spread load begins; else the left end"
    )
    end: Length | None = Field(default=None, alias="to", description="where a spread load stops; else the right end")
    measured: Literal["slope", "plan"] | None = Field(
        default=None, description="dead load of a rafter: per area of slope or of plan"
    )
    applied: Literal["top", "side", "below"] | None = Field(
        default=None, description="bears on the top, is hung from the side, or from below"
    )
    bearing: PositiveLength | None = Field(default=None, description="length under a point load on the top")
    room: Name | None = Field(
        default=None,
        description="the use of the floor under this load; the live loads of uses are in the tables",
        examples=["sleeping room"],
    )
    moves: bool = Field(default=False, description="a live point load that may stand anywhere along the piece")
    fastened: Seldom[OnGirder] | None = Field(
        default=None,
        description="of a load on the side or from below: how far under the top edge its fastenings sit",
        examples=[{"highest": "1/2 in", "lowest": "6 in"}],
    )
    comes_by: Literal["beam", "post", "other"] | None = Field(
        default=None,
        description="what brings a point load: beam: a beam or joist fastened there; post: a post that stands there",
    )
    stays: bool | None = Field(
        default=None,
        description="a live load that stays for years, as books, stores and water do: wood creeps under it",
    )
    roof: Name | None = Field(
        default=None, description="the [[roof]] that comes down here, with its loads from the site", examples=["porch"]
    )
    floor: Name | None = Field(default=None, description="the [[floor]] that comes down here, with its loads")
    wall_at: Length | None = Field(
        default=None, description="of a piece that runs away from the higher wall: where that wall is along the piece"
    )
    off_wall: Length | None = Field(
        default=None, description="of a piece along the higher wall: how far its middle stands from that wall"
    )
    astride: bool = Field(default=False, description="the strip lies half on either side of the ridge")
    dead_includes_own_weight: bool | None = Field(
        default=None,
        description="the dead load includes the weight of the piece itself, which is then not added; else it is",
    )

    def faults(self) -> Iterator[Fault]:
        """One sort of load, of a size that occurs, with the fields that belong to that sort."""
        if not self.what.strip():
            yield ("what",), 'it says nothing: what is it that loads the piece? For example what = "bedroom floor"'
        if self.room is not None and folded(self.room) not in map(folded, live_load_uses()):
            yield ("room",), f"{self.room!r} is no use of the tables; {nearest(self.room, live_load_uses())}"
        given = [kind for kind in KINDS if getattr(self, kind) is not None]
        if self.roof is not None and self.floor is not None:
            yield ("floor",), "one entry is of a roof or of a floor: make two entries"
        yield from _of_an_area(self)
        if not given and self.roof is None and self.floor is None:
            yield (), 'a load without a kind: say dead, live, roof_live, snow or wind, for example dead = "10 psf"'
            return
        for kind in given:
            value, sort = getattr(self, kind)
            if not LOADS[sort].admits(abs(value)):
                yield (kind,), LOADS[sort].text(value)
            elif value < 0 and kind != "wind":
                yield (kind,), "only wind may be negative (it then lifts); write this load as a positive amount"
        nothing = self.dead is not None and not any(getattr(self, kind)[0] for kind in given)
        if nothing and self.dead != (0.0, "area") and not self.insists_on("dead"):  # a floor or roof of 0 psf is asked
            text = "weighs nothing, and nothing else comes onto it: say what it weighs, or leave the entry out"
            yield ("dead",), f"{self.what.strip() or 'it'} {text}"
        sort = sort_of(self)
        if sort is None:
            yield (
                (),
                "one entry holds loads of one sort (all per area, all per length, or all forces): make two entries",
            )
        elif sort == "point":
            yield from _point_load(self, given)
        else:
            yield from _spread_load(self, sort)
        yield from _measured(self, given)
        yield from _how_it_comes(self, sort)


def sort_of(load: Load) -> str | None:
    """'area', 'line' or 'point': the sort that all kinds of a load share; None when they differ or there is none."""
    sorts = {amount[1] for kind in KINDS if (amount := getattr(load, kind)) is not None}
    if load.roof is not None or load.floor is not None:
        return "area" if sorts <= {"area"} else None
    return sorts.pop() if len(sorts) == 1 else None


def _of_an_area(load: Load) -> Iterator[Fault]:
    """What belongs to a load that follows from the site."""
    if load.roof is None:
        for field in ("wall_at", "off_wall"):
            if getattr(load, field) is not None:
                yield (field,), "it says where a drift lies, and belongs to a load of a [[roof]]: name the roof"
        if load.astride:
            yield ("astride",), "only the strip of a [[roof]] lies astride a ridge: name the roof"
    elif load.wall_at is not None and load.off_wall is not None:
        yield ("off_wall",), "a piece runs away from the wall (wall_at) or along it (off_wall): give one of the two"
    if (load.roof or load.floor) and load.measured is not None:
        yield ("measured",), "the loads of an area are on plan already: leave it out"
    if (load.roof or load.floor) and load.dead_includes_own_weight:
        yield ("dead_includes_own_weight",), "layers hold no framing: leave this out"


def _point_load(load: Load, given: list[str]) -> Iterator[Fault]:
    if load.width is not None:
        yield ("width",), "a force has no tributary width: leave width out, or give the load per area (psf)"
    for field, name in (("start", "from"), ("end", "to")):
        if getattr(load, field) is not None:
            yield (name,), f"a force stands at one place: write `at` in place of `{name}`, or give the load per length"
    if load.moves and given != ["live"]:
        yield ("moves",), "only a live load moves: put the other kinds into an entry of their own"
    if load.moves and load.at is not None:
        yield ("at",), "a load that moves may stand anywhere: leave `at` out, or leave `moves` out"
    if load.bearing is not None and load.applied in ("side", "below"):
        yield ("bearing",), "a load that hangs from the side or from below has no seat on the top: leave bearing out"


def _spread_load(load: Load, sort: str) -> Iterator[Fault]:
    if sort == "line" and load.width is not None:
        largest = max(abs(amount[0]) for kind in KINDS if (amount := getattr(load, kind)) is not None)
        text = "a load per length has no tributary width: leave width out, or give the load per area (psf)"
        yield ("width",), f"{text}; did you mean {144.0 * largest / load.width:.3g} psf?"
    if load.at is not None:
        yield ("at",), 'a spread load has no `at`: write from = "..." and to = "...", or give a force (lbf)'
    if load.moves:
        yield ("moves",), "`moves` is for a live force (lbf) only"
    if load.bearing is not None:
        yield ("bearing",), "`bearing` is the seat of a force (lbf) on the top; a spread load has none"
    if load.end is not None and load.end <= (load.start or 0.0):
        yield ("to",), f"it stops at {feet(load.end)}, which is not beyond its beginning at {feet(load.start or 0.0)}"


def _how_it_comes(load: Load, sort: str | None) -> Iterator[Fault]:
    if load.fastened is not None and load.applied not in ("side", "below"):
        text = 'only a load on the side or from below is fastened: write applied = "side" or applied = "below"'
        yield ("fastened",), f"{text}, or leave fastened out"
    if load.comes_by is not None and sort != "point":
        yield ("comes_by",), "`comes_by` is for a force (lbf); a spread load comes all along"
    if load.dead_includes_own_weight and (load.dead is None or sort == "point"):
        yield (
            ("dead_includes_own_weight",),
            "only a dead load spread along the piece (psf or plf) can hold its own weight: leave this out",
        )
    if load.dead_includes_own_weight and (load.start is not None or load.end is not None):
        yield (
            ("dead_includes_own_weight",),
            "the weight of the piece lies along all of it: leave `from` and `to` out, or leave this out",
        )


def _measured(load: Load, given: list[str]) -> Iterator[Fault]:
    if load.measured is None:
        return
    if load.dead is None:
        yield ("measured",), "`measured` belongs to the dead load; snow and live load are always per area of plan"
    elif load.measured == "slope" and (others := [kind for kind in given if kind in ("live", "roof_live", "snow")]):
        yield ("measured",), f"{' and '.join(others)} is per area of plan: put it into an entry of its own"
    if load.measured == "plan" and load.wind is not None:
        yield ("measured",), "wind presses square to the slope and is not measured on plan: make two entries"


class FormedLoad(Load):
    """A load of a piece as it follows from the site: made by `analysis/site`, never read from a file.

    What is stated stands in the fields of its kind; `formed` holds what the site gives beside it, lbf/in2.
    """

    entry: int = Field(default=0, description="its entry in the job file, from 0")
    formed: dict[str, float] = Field(default_factory=dict, description="what the site gives, by kind")
    snow_ends: tuple[float, float] = Field(
        default=(1.0, 1.0), description="shares of the snow where it begins and ends"
    )
    more: bool = Field(default=False, description="it stands beside the main one of its entry")


def ends_of(load: Load, kind: str) -> tuple[float, float]:
    """The shares of a spread load at its two ends: 1 and 1 unless it is a drift."""
    return load.snow_ends if kind == "snow" and isinstance(load, FormedLoad) else (1.0, 1.0)
