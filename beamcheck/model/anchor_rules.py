"""Rules that tie the fields of one anchor group together: what each manner needs, layouts, bores, slots, ratings.

Whether the wood and the fastener are enough is a check. Here stands what cannot be built or cannot be understood.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import combinations
from typing import TYPE_CHECKING

from .reading.lines import Path

if TYPE_CHECKING:  # anchors.py imports rules.py, which imports this module
    from .anchors import Anchor, Fastener, Holes, Other, Plate, Rating

Fault = tuple[Path, str]
SAME_PLACE = 0.01  # in

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


@dataclass(frozen=True)
class _Needs:
    """What a manner must have, may have beside that, which fasteners do, and why the rest does not belong to it."""

    needed: tuple[str, ...]
    may: tuple[str, ...]
    kinds: tuple[str, ...]
    why: str


_SCREWED = ("bolt", "lag screw", "wood screw", "nail")
_ALL = (*_SCREWED, "pin")
_DRIVEN = ("fastener", "holes", "other")
_STEEL = ("fastener", "holes", "plate")
_MANNERS = {
    "wood side": _Needs(_DRIVEN, ("gap", "arm"), _ALL, "it is wood against wood or concrete"),
    "plate one side": _Needs(_STEEL, ("gap", "arm"), _SCREWED, "the plate is its other side"),
    "plates both sides": _Needs(_STEEL, ("gap", "arm"), ("bolt",), "two plates are its other side"),
    "concealed plate": _Needs(_STEEL, ("gap", "arm"), ("bolt", "pin"), "what goes right through holds it"),
    "ledger": _Needs(_DRIVEN, ("gap", "arm"), _ALL, "a ledger is wood against wood or concrete"),
    "hanger rod": _Needs(("fastener",), ("holes",), ("bolt",), "a rod goes through, with nut and washer at its ends"),
    "let-in angle": _Needs(_STEEL, ("gap", "arm"), _SCREWED, "the angle is its other side"),
    "toe-nails": _Needs(_DRIVEN, ("gap",), ("nail",), "they are nails driven aslant into the other side"),
    "rated hardware": _Needs(("rating",), ("fastener", "gap"), _ALL, "it holds what its report says and no more"),
    "by others": _Needs((), ("confirmed_by",), (), "somebody else answers for it and nothing of it is checked here"),
    "holds nothing": _Needs((), (), (), "it counts for nothing, whatever it is"),
}  # fmt: skip
_PARTS = ("fastener", "holes", "plate", "other", "gap", "arm", "rating", "confirmed_by")


def kinds_for(manner: str) -> tuple[str, ...]:
    """The kinds of fastener that a manner takes; none for what has no fasteners of its own."""
    return _MANNERS[manner].kinds if manner in _MANNERS else ()


def anchor_faults(anchor: Anchor) -> Iterator[Fault]:
    """What the manner needs, what does not belong to it, which fastener it takes; then what ties its parts together."""
    rule = _MANNERS[anchor.manner]
    for field in rule.needed:
        if getattr(anchor, field) is None:
            yield (field,), f"missing: {anchor.manner!r} needs {_WHAT[field]}; for example {_EXAMPLES[field]}"
    for field in _PARTS:
        if getattr(anchor, field) and field not in (*rule.needed, *rule.may):
            yield (field,), f"does not belong to {anchor.manner!r}: {rule.why}; leave {field} out, or change the manner"
    fastener = anchor.fastener
    if fastener is not None and rule.kinds and fastener.kind not in rule.kinds:
        text = f"{fastener.kind!r} does not go with {anchor.manner!r}: write {_listed(rule.kinds)}"
        yield ("fastener", "kind"), f"{text} ({rule.why})"
    yield from _slot(anchor)


def fastener_faults(fastener: Fastener) -> Iterator[Fault]:
    """What belongs to which kind of fastener, and bores with their washers and plugs."""
    kind = fastener.kind
    if kind in ("lag screw", "wood screw") and fastener.length is None:
        yield ("length",), f'missing: a {kind} holds by its length, for example length = "4 in"'
    for field, kinds in (
        ("steel", ("bolt", "pin")),
        ("threads", ("bolt", "lag screw", "wood screw", "pin")),
        ("washer", ("bolt", "lag screw")),
        ("counterbore", ("bolt", "lag screw", "wood screw", "pin")),
    ):
        if getattr(fastener, field) is not None and kind not in kinds:
            yield (field,), f"a {kind} has no {field}: leave it out ({_listed(kinds)} may have one)"
    if fastener.F_yb is not None and not fastener.F_yb_from.strip():
        text = "missing: a strength by the maker needs its source"
        yield ("F_yb_from",), f'{text}, for example F_yb_from = "data sheet 12, 2025 edition"'
    if fastener.F_yb is None and fastener.F_yb_from.strip():
        yield ("F_yb",), 'missing: F_yb_from names its source; for example F_yb = "90,000 psi", or leave both out'
    yield from _bores(fastener)


def _bores(fastener: Fastener) -> Iterator[Fault]:
    bore, deep = fastener.counterbore, fastener.counterbore_depth
    if bore is not None and deep is None:
        yield ("counterbore_depth",), 'missing: a bore needs its depth, for example counterbore_depth = "1 in"'
    if bore is None and deep is not None:
        yield ("counterbore",), 'missing: a bore needs its diameter, for example counterbore = "2 1/4 in"'
    if fastener.plugged and bore is None and deep is None:
        text = "`plugged` without a bore to plug: give counterbore and counterbore_depth, or leave plugged out"
        yield ("plugged",), text
    if bore is not None and fastener.washer is not None and bore < fastener.washer:
        text = f"a washer {fastener.washer:g} in across does not go into a bore of {bore:g} in"
        yield ("counterbore",), f"{text}: bore at least {fastener.washer:g} in, or use a smaller washer"


def holes_faults(holes: Holes) -> Iterator[Fault]:
    """Rows and columns or places, not both; each with all that it needs."""
    by_rows = [
        name
        for name in ("rows", "columns", "spacing", "row_spacing", "end", "edge")
        if getattr(holes, name) is not None
    ]
    if holes.places:
        for field in by_rows:
            yield (field,), f"the holes are given place by place already: leave {field} out, or leave places out"
        for (i, one), (j, two) in combinations(enumerate(holes.places), 2):
            if abs(one.x - two.x) < SAME_PLACE and abs(one.y - two.y) < SAME_PLACE:
                yield ("places", j), f"hole {i + 1} is at the same place: leave one of them out"
        return
    if not by_rows:
        yield (), f"no holes are given: write rows and columns, or places; for example {_EXAMPLES['holes']}"
        return
    if holes.end is None:
        yield ("end",), 'missing: from the end of the held piece to the nearest fastener, for example end = "5 1/4 in"'
    if holes.edge is None:
        yield ("edge",), 'missing: from the bottom edge of the held piece to the lowest row, for example edge = "3 in"'
    for many, between, what in (("columns", "spacing", "fastener to fastener in a row"),
                                ("rows", "row_spacing", "row to row")):  # fmt: skip
        count, distance = getattr(holes, many), getattr(holes, between)
        if (count or 1) > 1 and distance is None:
            yield (between,), f'missing: {count} {many} need the distance from {what}, for example {between} = "3 in"'
        if (count or 1) == 1 and distance is not None:
            yield (between,), f"a distance from {what}, but only one: write {many} = 2 or more, or leave {between} out"


def other_faults(other: Other) -> Iterator[Fault]:
    """Concrete is no stock and has no grain that a fastener could go along."""
    if other.material == "concrete" and other.stock is not None:
        yield ("stock",), 'concrete is no [[stock]]: leave stock out, or write material = "wood"'
    if other.material == "concrete" and other.grain == "end":
        yield ("grain",), 'concrete has no end grain: write grain = "along", which then has no meaning'


def plate_faults(plate: Plate) -> Iterator[Fault]:
    """The slot takes the plate."""
    if plate.slot is None:
        for field in ("slot_length", "slot_height"):
            if getattr(plate, field) is not None:
                yield ("slot",), f'missing: {field} is given, so how wide is the slot? For example slot = "5/16 in"'
                return
        return
    if plate.slot < plate.thickness:
        text = f"a plate {plate.thickness:g} in thick does not go into a slot {plate.slot:g} in wide"
        yield ("slot",), f"{text}: make the slot at least {plate.thickness:g} in"
    if plate.slot_height is not None and plate.slot_height < plate.width:
        text = f"a plate {plate.width:g} in wide does not go into a slot {plate.slot_height:g} in high"
        yield ("slot_height",), f"{text}: make the slot at least {plate.width:g} in, or leave slot_height out"


def rating_faults(rating: Rating) -> Iterator[Fault]:
    """A rating holds in the directions that it names, and in at least one."""
    if rating.down is None and rating.up is None and rating.along is None:
        text = "a rating without a load: give the direction that the report covers"
        yield (), f'{text} (down, up or along), for example down = "800 lbf"'


def _slot(anchor: Anchor) -> Iterator[Fault]:
    plate = anchor.plate
    if plate is None:
        return
    if anchor.manner != "concealed plate":
        for field in ("slot", "slot_length", "slot_height"):
            if getattr(plate, field) is not None:
                text = f"only a concealed plate sits in a slot: leave {field} out"
                yield ("plate", field), f'{text}, or write manner = "concealed plate"'
        return
    if plate.slot is None and plate.slot_length is None and plate.slot_height is None:
        yield ("plate", "slot"), 'missing: how wide is the slot that the plate sits in? For example slot = "5/16 in"'
    if plate.slot_length is None or anchor.holes is None:
        return
    for path, x in hole_distances(anchor.holes):
        if x > plate.slot_length + SAME_PLACE:
            text = f"{x:g} in from the end, but the slot ends at {plate.slot_length:g} in and the plate with it"
            yield ("holes", *path), f"{text}: lengthen the slot by {x - plate.slot_length:.4g} in, or move the hole"
            return


def hole_distances(holes: Holes) -> Iterator[tuple[Path, float]]:
    """(path within the holes, distance from the end) of the holes that lie furthest in, or of each place."""
    if holes.places:
        yield from ((("places", i, "x"), place.x) for i, place in enumerate(holes.places))
    elif holes.end is not None:
        more = (holes.columns or 1) - 1
        if not more:
            yield ("end",), holes.end
        elif holes.spacing is not None:
            yield ("columns",), holes.end + more * holes.spacing


def _listed(words: tuple[str, ...]) -> str:
    quoted = [f"'{word}'" for word in words]
    return " or ".join([", ".join(quoted[:-1]), quoted[-1]]) if len(quoted) > 1 else quoted[0]
