"""Anchor groups against the rest of the job: names, sizes and grades of the tables, holes and lengths in the wood."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator, Mapping, Sequence
from itertools import combinations
from typing import TYPE_CHECKING

from ...errors import BeamcheckError, nearest
from ...records import dataclass
from ...values.hardware.fasteners import nail
from ...values.lumber import Size
from ..anchors.anchor import Anchor, Fastener, Holes
from ..anchors.manners import MANNERS
from ..beams import Beam, beam_length
from ..fields.places import SAME_PLACE, Fault, Path, fields
from ..roofs import Rafter, slope_length
from ..sticks import Stick
from .hardware import diameter, fastener_faults, nail_name, steel_faults
from .held import OR_EXISTING, uses_of

if TYPE_CHECKING:
    from .entries import Entry

HELD_INTO = ("beam", "rafter", "tie", "post", "existing", "bracket")
_CLOSE = 1e-6  # in


@dataclass(frozen=True)
class Hole:
    """One hole of a layout, with what it is called and the fields that place it."""

    label: str
    x: float
    y: float
    x_path: Path
    y_path: Path


def anchor_links(
    found: Sequence[Entry],
    stocks: Mapping[str, Entry],
    things: Mapping[str, Entry],
    size_of: Callable[[Entry | None], Size | None],
) -> Iterator[Fault]:
    """All that is wrong between anchor groups and the rest of the job."""
    anchors = [entry for entry in found if entry.kind == "anchor"]
    names = [name for entry in anchors if (name := entry.text("name")) is not None]
    uses = [use for entry in found for use in uses_of(entry)]
    unknown = False
    for use in uses:
        if use.path[-1] in OR_EXISTING and use.name in things and things[use.name].kind == "existing":
            continue
        if use.name not in names:
            unknown = True
            text = f"there is no [[anchor]] named {use.name!r}"
            if use.name in things:
                text = f"{use.name!r} is the name of a [[{things[use.name].kind}]], not of an [[anchor]]"
            yield use.path, f"{text}; {nearest(use.name, names)}"
    for entry in anchors:
        yield from _named(entry, stocks, things)
        yield from _of_the_tables(entry)
        name = entry.text("name")
        own = [use for use in uses if use.name == name]
        if name is not None and not own and not unknown:  # a misspelt name is said already, and is the likely reason
            text = f'write held_by = "{name}" at the support that it holds'
            yield entry.path, f"no piece names this anchor, so nothing of it would be checked: {text}, or delete it"
        if isinstance(entry.piece, Anchor):
            yield from _layout(entry.path, entry.piece)
            for user in dict.fromkeys(use.user.path for use in own):
                held = next(use.user for use in own if use.user.path == user)
                size = size_of(stocks.get(held.text("stock") or ""))
                if isinstance(held.piece, Stick) and size is not None:
                    yield from _in_the_wood(entry.path, entry.piece, held.piece, size)


def _named(entry: Entry, stocks: Mapping[str, Entry], things: Mapping[str, Entry]) -> Iterator[Fault]:
    usable = [name for name, thing in things.items() if thing.kind in HELD_INTO]
    into = entry.text("into")
    if into is not None and into not in usable:
        if into in things:
            own = things[into].kind
            what = f"{into!r} is an anchor itself" if own == "anchor" else f"{into!r} is {own}, which holds nothing"
        elif into in stocks:
            what = f"{into!r} is a [[stock]], a kind of stick and not a piece"
        else:
            what = f"there is no piece and no [[existing]] entry named {into!r}"
        yield (*entry.path, "into"), f"{what}; {nearest(into, usable)}"
    stock = fields(entry.data.get("other")).get("stock")
    if isinstance(stock, str) and stock.strip() and stock not in stocks:
        text = f"there is no [[stock]] named {stock!r}; {nearest(stock, list(stocks))}"
        yield (*entry.path, "other", "stock"), text


def _of_the_tables(entry: Entry) -> Iterator[Fault]:
    """Sizes and grades that the tables must know; on plain data, so that all of them come at once."""
    fastener = fields(entry.data.get("fastener"))
    rod = _upright(entry.data.get("manner"))
    yield from fastener_faults((*entry.path, "fastener"), fastener, rod=rod)
    yield from steel_faults((*entry.path, "plate", "steel"), fields(entry.data.get("plate")).get("steel"))


def _upright(manner: object) -> bool:
    return isinstance(manner, str) and manner in MANNERS and MANNERS[manner].upright


def hole_list(holes: Holes) -> list[Hole]:
    """Every hole of a layout that can be read; the fields at fault of a row layout are those that put it there."""
    if holes.places:
        return [
            Hole(f"hole {i + 1}", place.x, place.y, ("places", i, "x"), ("places", i, "y"))
            for i, place in enumerate(holes.places)
        ]
    if holes.end is None or holes.edge is None:
        return []
    return [
        Hole(
            f"the hole in row {row + 1}, column {column + 1}",
            holes.end + column * (holes.spacing or 0.0),
            holes.edge + row * (holes.row_spacing or 0.0),
            ("spacing",) if column else ("end",),
            ("row_spacing",) if row else ("edge",),
        )
        for row in range(holes.rows or 1)
        for column in range(holes.columns or 1)
    ]


def _diameter(fastener: Fastener | None) -> float | None:
    try:
        return None if fastener is None else diameter(fastener.kind, fastener.size)
    except BeamcheckError:
        return None


def _layout(path: Path, anchor: Anchor) -> Iterator[Fault]:
    """Holes that overlap, and bores and washers smaller than the fastener."""
    D = _diameter(anchor.fastener)
    if D is None or anchor.fastener is None:
        return
    for field in ("counterbore", "washer"):
        width = getattr(anchor.fastener, field)
        if width is not None and width <= D:
            text = f"{width:g} in is not wider than the {anchor.fastener.kind}, {D:g} in thick"
            yield (*path, "fastener", field), f"{text}: give its outside diameter"
    if anchor.holes is None:
        return
    if not anchor.holes.places:
        for field in ("spacing", "row_spacing"):
            apart = getattr(anchor.holes, field)
            if apart is not None and apart < D - _CLOSE:
                yield (*path, "holes", field), _overlap(apart, D)
        return
    for one, two in combinations(hole_list(anchor.holes), 2):
        apart = math.hypot(one.x - two.x, one.y - two.y)
        one_place = abs(one.x - two.x) < SAME_PLACE and abs(one.y - two.y) < SAME_PLACE  # said with the layout already
        if apart < D - _CLOSE and not one_place:
            yield (*path, "holes", *two.x_path[:2]), f"{one.label} and {two.label}: {_overlap(apart, D)}"


def _overlap(apart: float, D: float) -> str:
    text = f"{apart:.4g} in from middle to middle, but the fastener is {D:g} in thick"
    return f"{text}: the holes overlap; move them apart"


def _in_the_wood(path: Path, anchor: Anchor, held: Stick, size: Size) -> Iterator[Fault]:
    """Holes, slots, bores and lengths against the size of the piece that is held."""
    flat = held.laid == "flat"
    breadth, depth = (size.d if flat else size.b) * held.plies, size.b if flat else size.d
    D = _diameter(anchor.fastener) or 0.0
    if anchor.holes is not None:
        made = MANNERS[anchor.manner]
        if made.in_the_end:
            yield from _outside_of_the_end((*path, "holes"), anchor.holes, held.name, breadth, depth, D)
        else:
            yield from _outside((*path, "holes"), anchor.holes, held, None if made.upright else depth, D)
    yield from _slot(path, anchor, held.name, breadth, depth)
    yield from _bore(path, anchor, held.name, breadth)
    yield from _reach(path, anchor, held.name, breadth)


def _outside(path: Path, holes: Holes, held: Stick, depth: float | None, D: float) -> Iterator[Fault]:
    """Holes that leave the wood; `depth` None for a rod that stands upright in it, where y says nothing about it."""
    length, r, name = _length(held), 0.5 * D, f"{held.name!r}"
    told: set[Path] = set()
    for hole in hole_list(holes):
        found = [
            (hole.x_path, r - hole.x, f"beyond the end of {name}: its middle at least {r:.4g} in from the end"),
            (
                hole.x_path,
                hole.x + r - length,
                f"beyond the other end of {name}: at most {length - r:.4g} in from the end",
            ),
        ]
        if depth is not None:
            found += [
                (hole.y_path, r - hole.y, f"below the bottom edge of {name}: its middle at least {r:.4g} in up"),
                (hole.y_path, hole.y + r - depth,
                 f"above the top of {name}, {depth:g} in deep: its middle at most {depth - r:.4g} in up"),
            ]  # fmt: skip
        for inner, out, text in found:
            if out > _CLOSE and inner not in told:  # of a row that leaves the wood the first hole is named
                told.add(inner)
                yield (
                    (*path, *inner),
                    f"{hole.label} leaves the wood by {out:.4g} in, {text}, and the edge distance more",
                )


def _outside_of_the_end(path: Path, holes: Holes, name: str, breadth: float, depth: float, D: float) -> Iterator[Fault]:
    """Fasteners into the end of a piece that are not within its section."""
    for hole in hole_list(holes):
        for inner, place, side, what in (
            (hole.x_path, hole.x, breadth, "from its side"), (hole.y_path, hole.y, depth, "up from its bottom edge"),
        ):  # fmt: skip
            if not 0.5 * D - _CLOSE <= place <= side - 0.5 * D + _CLOSE:
                text = f"{hole.label} is not in the end of {name!r}, {breadth:g} x {depth:g} in: it lies {place:g} in"
                yield (*path, *inner), f"{text} {what}; from {0.5 * D:.4g} to {side - 0.5 * D:.4g} in is within it"
                return


def _length(held: Stick) -> float:
    if isinstance(held, Beam) and held.supports:
        return beam_length(held)
    return slope_length(held) if isinstance(held, Rafter) else math.inf


def _slot(path: Path, anchor: Anchor, name: str, breadth: float, depth: float) -> Iterator[Fault]:
    plate = anchor.plate
    if plate is None or not MANNERS[anchor.manner].in_a_slot or plate.slot is None:
        return
    if plate.slot >= breadth:
        text = f"a slot {plate.slot:g} in wide leaves no cheeks of {name!r}, {breadth:g} in thick"
        yield (*path, "plate", "slot"), f"{text}: give its width, a little more than the plate's thickness"
    if plate.slot_height is not None and plate.slot_height > depth + _CLOSE:
        text = f"{plate.slot_height:g} in is more than the depth of {name!r}, {depth:g} in"
        yield (*path, "plate", "slot_height"), f"{text}: leave slot_height out for a slot through the full depth"
    elif plate.width > depth + _CLOSE:
        text = f"a plate {plate.width:g} in wide is not concealed in {name!r}, {depth:g} in deep"
        yield (*path, "plate", "width"), f"{text}: give its width across the grain, at most {depth:g} in"


def _bore(path: Path, anchor: Anchor, name: str, breadth: float) -> Iterator[Fault]:
    """What the bores leave of the held piece."""
    fastener, made = anchor.fastener, MANNERS[anchor.manner]
    if fastener is None or fastener.counterbore_depth is None or made.upright or not made.faces_bored:
        return
    both = made.in_a_slot
    slot = anchor.plate.slot if both and anchor.plate is not None and anchor.plate.slot is not None else 0.0
    room = 0.5 * (breadth - slot) if both else breadth
    if fastener.counterbore_depth >= room - _CLOSE:
        what = "each cheek" if both else "the piece"
        text = f"nothing is left under the head, {what} of {name!r} is {room:.4g} in thick"
        yield (*path, "fastener", "counterbore_depth"), f"{fastener.counterbore_depth:g} in: {text}"


def crossed(anchor: Anchor, breadth: float) -> tuple[float, bool]:
    """What the fastener crosses, inches: from head to nut (True), or up to the member that holds its point (False).

    `breadth` of the held piece; washers, head and nut come on top.
    """
    fastener, other, made = anchor.fastener, anchor.other, MANNERS[anchor.manner]
    bore = (fastener.counterbore_depth or 0.0) if fastener is not None else 0.0
    plate = anchor.plate.thickness if anchor.plate is not None else 0.0
    beyond = other.thickness if other is not None else 0.0
    through = fastener is not None and fastener.kind in ("bolt", "pin")
    if through and not (other is not None and other.material == "concrete"):
        outside = made.others * beyond + made.sheets * plate + made.gaps * anchor.gap
        return breadth + outside - made.bores * bore, True
    if made.in_the_end:
        return beyond - bore + anchor.gap, False
    if made.point == "held":
        return plate + anchor.gap, False
    return breadth - bore + anchor.gap, False


def _reach(path: Path, anchor: Anchor, name: str, breadth: float) -> Iterator[Fault]:
    """A fastener that cannot hold because it does not get to the other side."""
    fastener = anchor.fastener
    made = MANNERS[anchor.manner]
    if fastener is None or made.aslant or not made.fastened:
        return
    length = fastener.length
    if length is None and fastener.kind == "nail":
        try:
            length = nail(*nail_name(fastener.size)).value.L
        except BeamcheckError:
            return
    if length is None or fastener.kind == "pin":
        return
    need, through = crossed(anchor, breadth)
    if through:
        what = "does not come out on the other side"
    elif made.point == "held":
        what = f"does not reach {name!r}"
    else:
        what = "does not reach the other side"
    if length <= need + _CLOSE:
        more = " and as much as its nut takes" if through else " and as much as it must go in"
        given = "length" if fastener.length is not None else "size"
        text = f"{length:g} in {what}: it needs more than {need:.4g} in{more}"
        yield (*path, "fastener", given), text
