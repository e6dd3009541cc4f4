"""What holds the ends: groups of bolts, screws, nails or pins, plates, hangers, rated hardware. No computing here.

Each class says what cannot be built or cannot be understood in it; whether wood and fasteners are enough is a check.
"""

from __future__ import annotations

from collections.abc import Iterator
from itertools import combinations
from typing import Annotated, Literal

from pydantic import Field, StringConstraints

from ..fields.base import Answer, Insisting, Name, Piece
from ..fields.places import SAME_PLACE, Fault, Path
from ..fields.quantities import Force, Length, PositiveLength, Slope, Stress
from ..made.rods import Back
from .girder import OnGirder
from .manners import MANNERS, PARTS, Made, Manner

Loads = Literal["floor", "snow", "roof", "wind", "permanent"]

_EXAMPLES = {
    "fastener": 'fastener = { kind = "bolt", size = "3/4 in", washer = "2 in" }',
    "holes": 'holes = { rows = 1, columns = 2, spacing = "3 in", end = "5 1/4 in", edge = "4 in" }',
    "plate": 'plate = { steel = "A36", thickness = "1/4 in", width = "6 in", length = "10 in" }',
    "other": 'other = { stock = "old beam", thickness = "3 1/2 in", grain = "across" }',
    "rating": 'rating = { source = "report, number, edition, table", down = "800 lbf", duration = "included" }',
}
_WHAT = {
    "fastener": "what fastener it is",
    "holes": "where the holes are",
    "plate": "the plate or angle",
    "other": "the wood or concrete on the other side",
    "rating": "the published loads and their source",
}


class Place(Piece):
    """One hole, seen square to the face."""

    x: Length = Field(description="from the end of the held piece, along its grain", examples=["5 1/4 in"])
    y: Length = Field(description="from the bottom edge of the held piece", examples=["3 in"])


class Holes(Piece):
    """Where the fasteners go in the held piece: rows along its grain, or place by place.

    Of a rod that stands in the piece `edge` is from the side of the piece; of fasteners into its end `end` is.
    """

    rows: Annotated[int, Field(ge=1, le=20)] | None = Field(default=None, description="rows along the grain")
    columns: Annotated[int, Field(ge=1, le=40)] | None = Field(default=None, description="fasteners in each row")
    spacing: PositiveLength | None = Field(default=None, description="from fastener to fastener in a row")
    row_spacing: PositiveLength | None = Field(default=None, description="from row to row, across the grain")
    end: PositiveLength | None = Field(
        default=None, description="from the end of the held piece to the nearest fastener (into the end: from its side)"
    )
    edge: PositiveLength | None = Field(
        default=None, description="from its bottom edge to the lowest row (a rod: from the side of the piece)"
    )
    places: tuple[Place, ...] = Field(default=(), max_length=200, description="each hole by itself, in place of rows")

    def faults(self) -> Iterator[Fault]:
        """Rows and columns or places, not both; each with all that it needs."""
        names = ("rows", "columns", "spacing", "row_spacing", "end", "edge")
        by_rows = [name for name in names if getattr(self, name) is not None]
        if self.places:
            for field in by_rows:
                yield (field,), f"the holes are given place by place already: leave {field} out, or leave places out"
            for (i, one), (j, two) in combinations(enumerate(self.places), 2):
                if abs(one.x - two.x) < SAME_PLACE and abs(one.y - two.y) < SAME_PLACE:
                    yield ("places", j), f"hole {i + 1} is at the same place: leave one of them out"
            return
        if not by_rows:
            yield (), f"no holes are given: write rows and columns, or places; for example {_EXAMPLES['holes']}"
            return
        if self.end is None:
            text = "missing: from the end of the held piece to the nearest fastener"
            yield ("end",), f'{text}, for example end = "5 1/4 in"'
        if self.edge is None:
            text = "missing: from the bottom edge of the held piece to the lowest row"
            yield ("edge",), f'{text}, for example edge = "3 in"'
        for many, between, what in (("columns", "spacing", "fastener to fastener in a row"),
                                    ("rows", "row_spacing", "row to row")):  # fmt: skip
            count, distance = getattr(self, many), getattr(self, between)
            if (count or 1) > 1 and distance is None:
                text = f"missing: {count} {many} need the distance from {what}"
                yield (between,), f'{text}, for example {between} = "3 in"'
            if (count or 1) == 1 and distance is not None:
                text = f"a distance from {what}, but only one: write {many} = 2 or more"
                yield (between,), f"{text}, or leave {between} out"

    def distances(self) -> Iterator[tuple[Path, float]]:
        """(path within the holes, distance from the end) of the holes that lie furthest in, or of each place."""
        if self.places:
            yield from ((("places", i, "x"), place.x) for i, place in enumerate(self.places))
        elif self.end is not None:
            more = (self.columns or 1) - 1
            if not more:
                yield ("end",), self.end
            elif self.spacing is not None:
                yield ("columns",), self.end + more * self.spacing


class Fastener(Piece):
    """One kind of fastener; a group has one kind only."""

    kind: Literal["bolt", "lag screw", "wood screw", "nail", "pin"] = Field(description="what it is", examples=["bolt"])
    size: Name = Field(description="as the trade names it", examples=["3/4 in", "No. 10", "16d common"])
    length: PositiveLength | None = Field(default=None, description="of the fastener, under its head")
    steel: Name | None = Field(default=None, description="grade of a bolt or pin", examples=["A307"])
    F_yb: Stress | None = Field(default=None, description="bending yield strength by its maker")
    F_yb_from: Answer = Field(default="", description="which document of the maker says so")
    threads: Literal["in the shear plane", "clear of it"] | None = Field(
        default=None, description="where the threads lie; not said: in the shear plane"
    )
    thread_length: PositiveLength | None = Field(
        default=None, description="thread of a bolt or lag screw as measured; not said: by the tables of its standard"
    )
    washer: PositiveLength | None = Field(
        default=None, description="outside diameter of the washers under head and nut"
    )
    counterbore: PositiveLength | None = Field(default=None, description="diameter of the bore that hides head or nut")
    counterbore_depth: PositiveLength | None = Field(default=None, description="depth of each such bore")
    plugged: bool = Field(default=False, description="the bores are closed with plugs")
    bored_ahead: bool | None = Field(default=None, description="lead holes are bored before nails are driven")
    coating: Literal["none", "hot-dip galvanized", "stainless", "other"] | None = Field(
        default=None, description="what keeps it from rusting"
    )

    def faults(self) -> Iterator[Fault]:
        """What belongs to which kind of fastener, and bores with their washers and plugs."""
        kind = self.kind
        if kind in ("lag screw", "wood screw") and self.length is None:
            yield ("length",), f'missing: a {kind} holds by its length, for example length = "4 in"'
        for field, kinds in (
            ("steel", ("bolt", "pin")),
            ("threads", ("bolt", "lag screw", "wood screw", "pin")),
            ("thread_length", ("bolt", "lag screw")),
            ("washer", ("bolt", "lag screw")),
            ("counterbore", ("bolt", "lag screw", "wood screw", "pin")),
        ):
            if getattr(self, field) is not None and kind not in kinds:
                yield (field,), f"a {kind} has no {field}: leave it out ({_listed(kinds)} may have one)"
        if self.thread_length is not None and self.length is not None and self.thread_length > self.length:
            text = f"{self.thread_length:g} in of thread on {self.length:g} in of fastener"
            yield ("thread_length",), f"{text}: at most its whole length"
        if self.F_yb is not None and not self.F_yb_from.strip():
            text = "missing: a strength by the maker needs its source"
            yield ("F_yb_from",), f'{text}, for example F_yb_from = "data sheet 12, 2025 edition"'
        if self.F_yb is None and self.F_yb_from.strip():
            yield ("F_yb",), 'missing: F_yb_from names its source; for example F_yb = "90,000 psi", or leave both out'
        yield from self._bores()

    def _bores(self) -> Iterator[Fault]:
        bore, deep = self.counterbore, self.counterbore_depth
        if bore is not None and deep is None:
            yield ("counterbore_depth",), 'missing: a bore needs its depth, for example counterbore_depth = "1 in"'
        if bore is None and deep is not None:
            yield ("counterbore",), 'missing: a bore needs its diameter, for example counterbore = "2 1/4 in"'
        if self.plugged and bore is None and deep is None:
            text = "`plugged` without a bore to plug: give counterbore and counterbore_depth, or leave plugged out"
            yield ("plugged",), text
        if bore is not None and self.washer is not None and bore < self.washer:
            text = f"a washer {self.washer:g} in across does not go into a bore of {bore:g} in"
            yield ("counterbore",), f"{text}: bore at least {self.washer:g} in, or use a smaller washer"


class Plate(Piece):
    """A steel plate or the leg of an angle."""

    steel: Name = Field(description="grade", examples=["A36"])
    thickness: PositiveLength = Field(description="of the plate", examples=["1/4 in"])
    width: PositiveLength = Field(description="across the grain of the held piece", examples=["6 in"])
    length: PositiveLength = Field(description="along the grain of the held piece", examples=["10 in"])
    slot: PositiveLength | None = Field(default=None, description="width of the slot it sits in (concealed plate)")
    slot_length: PositiveLength | None = Field(
        default=None, description="length of that slot from the end of the piece"
    )
    slot_height: PositiveLength | None = Field(default=None, description="height of the slot; not said: the full depth")
    weld: PositiveLength | None = Field(default=None, description="leg of the fillet weld to its base, both sides")

    def faults(self) -> Iterator[Fault]:
        """The slot takes the plate."""
        if self.slot is None:
            for field in ("slot_length", "slot_height"):
                if getattr(self, field) is not None:
                    yield ("slot",), f'missing: {field} is given, so how wide is the slot? For example slot = "5/16 in"'
                    return
            return
        if self.slot < self.thickness:
            text = f"a plate {self.thickness:g} in thick does not go into a slot {self.slot:g} in wide"
            yield ("slot",), f"{text}: make the slot at least {self.thickness:g} in"
        if self.slot_height is not None and self.slot_height < self.width:
            text = f"a plate {self.width:g} in wide does not go into a slot {self.slot_height:g} in high"
            yield ("slot_height",), f"{text}: make the slot at least {self.width:g} in, or leave slot_height out"


class Other(Piece):
    """The member on the other side of the joint, where it is wood or concrete; of two alike, each of them."""

    stock: Name | None = Field(default=None, description="its [[stock]], when it is wood of the job")
    thickness: PositiveLength = Field(description="that the fastener goes through or into", examples=["3 1/2 in"])
    grain: Literal["along", "across", "end"] = Field(
        description="its grain against that of the held piece; end: the fastener goes into its end grain",
        examples=["across"],
    )
    end: PositiveLength | None = Field(
        default=None, description="from its nearer end, along its grain, to the first fastener"
    )
    edge: PositiveLength | None = Field(default=None, description="from its edge, across its grain, to the first row")
    material: Literal["wood", "concrete"] = Field(default="wood", description="what it is")

    def faults(self) -> Iterator[Fault]:
        """Concrete is no stock and has no grain that a fastener could go along."""
        if self.material == "concrete" and self.stock is not None:
            yield ("stock",), 'concrete is no [[stock]]: leave stock out, or write material = "wood"'
        if self.material == "concrete" and self.grain == "end":
            yield ("grain",), 'concrete has no end grain: write grain = "along", which then has no meaning'


class Rating(Piece):
    """Allowable loads that somebody else published; copied by the user, applied as they stand."""

    source: Annotated[str, StringConstraints(min_length=8, max_length=2000)] = Field(
        description="report, number, edition, table", examples=["evaluation report ER-0000, 2025 edition, table 3"]
    )
    down: Force | None = Field(default=None, description="allowable load downwards")
    up: Force | None = Field(default=None, description="allowable load upwards")
    along: Force | None = Field(default=None, description="allowable pull along the held piece")
    duration: Literal["included", "apply C_D"] = Field(
        description="whether the load duration factor is in the figures already", examples=["included"]
    )
    loads: Loads | None = Field(
        default=None,
        description="the column of the report: floor, snow, roof, wind or permanent loads; with duration to be "
        "applied, the last column to which the report lets the figures be raised",
        examples=["floor"],
    )
    slope: Slope | None = Field(
        default=None, description="the steepest slope of the held piece that the figures hold for"
    )
    conditions: Answer = Field(default="", description="wood, fasteners and moisture that the figures hold for")
    conditions_met: bool | None = Field(default=None, description="have you seen that these conditions are met?")

    def faults(self) -> Iterator[Fault]:
        """A rating holds in the directions that it names, and in at least one."""
        if self.down is None and self.up is None and self.along is None:
            text = "a rating without a load: give the direction that the report covers"
            yield (), f'{text} (down, up or along), for example down = "800 lbf"'


class Anchor(Insisting):
    """One anchor group: what holds one end, a hanger, or a piece on another."""

    name: Name = Field(description="what this group is called in the job", examples=["hidden plate A"])
    manner: Manner = Field(description="how it holds", examples=["concealed plate"])
    into: Name | None = Field(default=None, description="the piece or [[existing]] entry it is fastened to")
    fastener: Fastener | None = Field(default=None, description="the fasteners through the held piece")
    holes: Holes | None = Field(default=None, description="where they are in the held piece")
    plate: Plate | None = Field(default=None, description="the plate or angle, if there is one")
    other: Other | None = Field(default=None, description="the wood or concrete on the other side, if there is any")
    gap: Length = Field(default=0.0, description="between the faces: a spacer, plaster or board in the joint")
    arm: Length | None = Field(
        default=None,
        description="from the middle of the group to the line on which the other side takes the load; not said: from "
        "the holes and `at` of the support (ledger: from the wall to the middle of the load)",
    )
    back: Back | None = Field(default=None, description="the plate that it is welded to on the far side, with its rods")
    twist_held_by: Answer = Field(
        default="",
        description="what else keeps a lap or a plate on one side from turning out of its plane, and who says so",
        examples=["blocking to the next beam, engineer's sketch 3 of 2026-01-12"],
    )
    clamped: bool | None = Field(default=None, description="for pins without heads: two bolts clamp the sides together")
    on_girder: OnGirder | None = Field(
        default=None, description="where the fastenings sit on the side of the piece that carries it"
    )
    seasoned: Literal["dry", "green"] | None = Field(
        default=None, description="moisture of the wood when it is put together"
    )
    split: Literal["none seen", "check across the holes", "not looked at"] | None = Field(
        default=None, description="checks and splits along the holes"
    )
    rating: Rating | None = Field(default=None, description="for rated hardware: the published loads")
    confirmed_by: Answer = Field(default="", description="for by others: who answers for it in writing")
    fire_cover: PositiveLength | None = Field(
        default=None, description="least wood over all of its steel, where a fire is asked of what it holds"
    )
    fire_covered_by: Answer = Field(
        default="", description="a rated cover over its steel in place of wood, and who answers for it"
    )

    @property
    def made(self) -> Made:
        """What its manner is made of."""
        return MANNERS[self.manner]

    def faults(self) -> Iterator[Fault]:
        """What the manner needs, what does not belong to it, which fastener it takes; then what ties its parts."""
        made = MANNERS[self.manner]
        for field in made.needed:
            if getattr(self, field) is None:
                yield (field,), f"missing: {self.manner!r} needs {_WHAT[field]}; for example {_EXAMPLES[field]}"
        for field in PARTS:
            if getattr(self, field) and field not in (*made.needed, *made.may):
                text = f"does not belong to {self.manner!r}: {made.why}; leave {field} out, or change the manner"
                yield (field,), text
        if self.fastener is not None and made.kinds and self.fastener.kind not in made.kinds:
            text = f"{self.fastener.kind!r} does not go with {self.manner!r}: write {_listed(made.kinds)}"
            yield ("fastener", "kind"), f"{text} ({made.why})"
        if self.back is not None and self.plate is not None and self.plate.weld is None:
            text = "missing: `back` is what the plate is welded to, so how thick is the weld"
            yield ("plate", "weld"), f'{text}? For example weld = "1/4 in"'
        if self.back is not None and self.plate is not None:
            top, foot = (0.5 * (self.back.along + way * self.plate.width) for way in (1.0, -1.0))
            if self.back.high <= foot:
                text = "the highest rods stand below the plate in the piece and hold none of its moment"
                yield ("back", "high"), f"{text}: more than {foot:g} in, where that plate begins"
            if self.back.high > top + SAME_PLACE:
                text = f"the highest rods stand above the plate in the piece, which is {self.plate.width:g} in high"
                yield ("back", "high"), f"{text} (`width`) in the middle of {self.back.along:g} in: at most {top:g} in"
        yield from self._slot()

    def _slot(self) -> Iterator[Fault]:
        plate = self.plate
        if plate is None:
            return
        if not MANNERS[self.manner].in_a_slot:
            for field in ("slot", "slot_length", "slot_height"):
                if getattr(plate, field) is not None:
                    text = f"only a concealed plate sits in a slot: leave {field} out"
                    yield ("plate", field), f'{text}, or write manner = "concealed plate"'
            return
        if plate.slot is None and plate.slot_length is None and plate.slot_height is None:
            text = "missing: how wide is the slot that the plate sits in? For example"
            yield ("plate", "slot"), f'{text} slot = "5/16 in"'
        if plate.slot_length is None or self.holes is None:
            return
        for path, x in self.holes.distances():
            if x > plate.slot_length + SAME_PLACE:
                text = f"{x:g} in from the end, but the slot ends at {plate.slot_length:g} in and the plate with it"
                yield ("holes", *path), f"{text}: lengthen the slot by {x - plate.slot_length:.4g} in, or move the hole"
                return


def _listed(words: tuple[str, ...]) -> str:
    quoted = [f"'{word}'" for word in words]
    return " or ".join([", ".join(quoted[:-1]), quoted[-1]]) if len(quoted) > 1 else quoted[0]
