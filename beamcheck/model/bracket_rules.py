"""Rules that tie the fields of one bracket or one piece of trim together.

What is not said (grain, fixings, knots, joints) is no fault here: a check refers. Here stands what cannot be built or
cannot be understood. The outline of a solid bracket has its own file, outline_rules.py.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from itertools import pairwise
from typing import TYPE_CHECKING

from .anchor_manners import SAME_PLACE
from .reading.lines import Path

if TYPE_CHECKING:  # brackets.py imports base.py, which imports rules.py, which imports this module
    from .brackets import Bent, Braced, Bracket, Corbel, Cover, Fixings, Near, Row, Shape, SteelCore, Trim
    from .loads import Load

Fault = tuple[Path, str]

LARGEST_HANG = 2_000.0  # lbf; no person hangs more on a bracket: beyond that it is a load and stands in carries
_KINDS = ("dead", "live", "roof_live", "snow", "wind")


def inches(x: float) -> str:
    """A length of a bracket for a message."""
    return f"{x:.5g} in"


def projection_of(shape: Shape) -> float:
    """How far a shape stands out from the wall face, in. A bent arc leaves the wall upright, its full side to it."""
    if shape.family != "bent":
        return shape.projection
    outer, turn = shape.inner_radius + shape.depth, math.cos(math.radians(shape.sweep))
    return outer - (shape.inner_radius if turn >= 0.0 else outer) * turn


def wall_leg_of(shape: Shape) -> float | None:
    """How far a shape reaches down the wall from its top, in; None where the job file does not say."""
    return None if shape.family == "bent" or shape.family == "steel core" else shape.height


def width_of(shape: Shape) -> float:
    """Side to side, in; of a steel core that of its bar."""
    return shape.width if shape.family == "steel core" else shape.thickness


def bracket_faults(bracket: Bracket) -> Iterator[Fault]:
    """What role and family need, loads within the top edge, fixings within the wall leg."""
    if bracket.role == "cover" and bracket.cover is None:
        text = "missing: what does it hide?"
        yield ("cover",), f'{text} For example cover = {{ hides = ["hidden plate A"], heads_stand_out = "3/4 in" }}'
    if bracket.role != "cover" and bracket.cover is not None:
        yield ("cover",), f'the role is {bracket.role!r}: leave cover out, or write role = "cover"'
    if bracket.stock is None and bracket.shape.family != "steel core":
        text = "missing: which wood it is cut from; the name of its [[stock]] entry"
        yield ("stock",), f'{text}, for example stock = "bracket board" (only a steel core needs none)'
    yield from _loads_out(bracket.carries, projection_of(bracket.shape))
    yield from _accidental(bracket)
    if bracket.fixings is not None:
        down = bracket.shape.down if bracket.shape.family == "steel core" else None
        yield from _rows_on(bracket.fixings.rows, wall_leg_of(bracket.shape), width_of(bracket.shape), down)


def trim_faults(trim: Trim) -> Iterator[Fault]:
    """Its weight, and loads that are forces, since trim has no measured length."""
    if trim.weight <= 0.0:
        yield ("weight",), f"{trim.weight:g} lbf cannot be right: everything weighs something"
    for i, load in enumerate(trim.carries):
        sort = _sort(load)
        if sort in ("area", "line"):
            text = "trim carries forces (lbf): multiply the load by the area or length it comes from"
            yield ("carries", i), text
        if load.at is not None:
            yield ("carries", i, "at"), "trim has no length along which a place could be measured: leave `at` out"
        yield from _no_rafter(load, i)
        if load.moves:
            yield ("carries", i, "moves"), "a load on trim does not move: leave `moves` out"
    yield from _accidental(trim)
    if trim.fixings is not None:
        yield from _rows_on(trim.fixings.rows, None, None)


def _sort(load: Load) -> str | None:
    sorts = {amount[1] for kind in _KINDS if (amount := getattr(load, kind)) is not None}
    return sorts.pop() if len(sorts) == 1 else None


def _no_rafter(load: Load, i: int) -> Iterator[Fault]:
    if load.measured is not None:
        yield ("carries", i, "measured"), "`measured` is for rafters: a level piece has no slope"


def _loads_out(loads: Sequence[Load], projection: float) -> Iterator[Fault]:
    """Loads lie between wall and nose; a force says where, a load per area how wide."""
    for i, load in enumerate(loads):
        sort = _sort(load)
        if load.moves:
            text = "on a bracket a load that moves is worst at the nose"
            yield ("carries", i, "moves"), f'{text}: leave `moves` out and write at = "{inches(projection)}"'
        elif sort == "point" and load.at is None:
            text = "missing: a force needs its place out from the wall"
            yield ("carries", i, "at"), f'{text}, for example at = "{inches(0.5 * projection)}"'
        if sort == "area" and load.width is None:
            text = "missing: a load per area needs the width that comes to this bracket"
            yield ("carries", i, "width"), f'{text}, for example width = "24 in" (the spacing of the brackets)'
        yield from _no_rafter(load, i)
        for field, name in (("at", "at"), ("start", "from"), ("end", "to")):
            place = getattr(load, field)
            if place is not None and place > projection + SAME_PLACE:
                text = f"{inches(place)} is beyond the nose: the bracket stands out {inches(projection)} from the wall"
                yield ("carries", i, name), text


def _accidental(piece: Bracket | Trim) -> Iterator[Fault]:
    force = piece.accidental
    if isinstance(force, float):
        if not 0.0 < force <= LARGEST_HANG:
            text = f"{force:,.9g} lbf cannot be right: more than 0 and at most {LARGEST_HANG:,.0f} lbf can be read"
            yield ("accidental",), f'{text}, or write "not for load"'
        if not piece.accidental_from:
            text = "missing: who chose that force, or which local rule; no code names one for brackets"
            yield ("accidental_from",), f'{text}; for example accidental_from = "the owner, letter of 3 May 2025"'
    elif force is None and piece.accidental_from:
        text = "missing: accidental_from names its source, but which force is it?"
        yield ("accidental",), f'{text} For example accidental = "200 lb", or "not for load"'


def braced_faults(shape: Braced) -> Iterator[Fault]:
    """The legs lie within the box, the brace between them, housings within the legs."""
    found, filled = False, set()
    for leg, side in (("wall_leg", "projection"), ("top_leg", "height")):
        if getattr(shape, leg) >= getattr(shape, side):
            filled.add(leg)
            text = f"a leg {inches(getattr(shape, leg))} deep fills the {side} of {inches(getattr(shape, side))}"
            yield (leg,), f"{text}: no room is left for a brace"
    for place, side, leg, what in (
        ("brace_out", "projection", "wall_leg", "top leg"),
        ("brace_down", "height", "top_leg", "wall leg"),
    ):
        x, most, least = getattr(shape, place), getattr(shape, side), getattr(shape, leg)
        if x > most + SAME_PLACE:
            found = True
            text = f"{inches(x)} is beyond the end of the {what}: {side} is {inches(most)}"
            yield (place,), text
        elif x <= least and leg not in filled:
            found = True
            text = f"{inches(x)} lies within the {leg.replace('_', ' ')}, which is {inches(least)} deep"
            yield (place,), f"{text}: the brace would have no length"
    if not found and not filled:
        yield from _brace(shape)
    if shape.housing is not None and shape.joints in ("butted", "glued only"):
        yield ("housing",), f'joints = "{shape.joints}" have no housing: leave housing out, or write joints = "housed"'
    elif shape.housing is not None and shape.housing >= min(shape.wall_leg, shape.top_leg):
        leg = inches(min(shape.wall_leg, shape.top_leg))
        yield ("housing",), f"{inches(shape.housing)} deep: nothing is left of a leg {leg} deep"
    if shape.behind_housing is not None and shape.joints in ("butted", "glued only"):
        yield ("behind_housing",), f'joints = "{shape.joints}" have no housing: leave behind_housing out'


def _brace(shape: Braced) -> Iterator[Fault]:
    length = math.hypot(shape.brace_out - shape.wall_leg, shape.brace_down - shape.top_leg)
    if shape.brace >= length:
        text = f"{inches(shape.brace)} deep, but only {inches(length)} long between the legs: that is no brace"
        yield ("brace",), f"{text}; describe a solid bracket, or check brace_out and brace_down"
    if shape.sagitta > 0.5 * length:
        text = f"{inches(shape.sagitta)} is more than half the {inches(length)} between the brace's ends"
        yield ("sagitta",), f"{text}: more than half a circle cannot be a brace"


def bent_faults(shape: Bent) -> Iterator[Fault]:
    """Laminations and glue belong to a laminated arc, and a lamination is thinner than the arc is deep."""
    if shape.lamination is not None and shape.lamination > shape.depth + SAME_PLACE:
        text = f"{inches(shape.lamination)} is more than the depth of the arc, {inches(shape.depth)}"
        yield ("lamination",), f"{text}: give the thickness of one lamination"
    if shape.made in ("steam-bent", "sawn"):
        for field in ("lamination", "glue"):
            if getattr(shape, field):
                text = f'an arc that is {shape.made} has no {field}: leave it out, or write made = "laminated"'
                yield (field,), text


def steel_core_faults(shape: SteelCore) -> Iterator[Fault]:
    """The hole lies within the bar; a gusset has all its parts."""
    if shape.hole_at_bend >= shape.width:
        text = f"a hole of {inches(shape.hole_at_bend)} leaves nothing of a bar {inches(shape.width)} wide"
        yield ("hole_at_bend",), f"{text}: give its diameter, 0 for none"
    parts = ("gusset_depth", "gusset_thickness", "gusset_edge", "weld")
    given = [field for field in parts if getattr(shape, field) is not None]
    for field in ("gusset_depth", "gusset_thickness"):
        if given and field not in given:
            example = "3 in" if field == "gusset_depth" else "1/4 in"
            text = f"missing: {given[0]} is given, so there is a gusset"
            yield (field,), f'{text}; for example {field} = "{example}", or leave {" and ".join(given)} out'
    if shape.gusset_edge is not None and shape.gusset_depth is not None:
        longest = math.hypot(shape.gusset_depth, shape.projection)
        if shape.gusset_edge <= shape.gusset_depth + SAME_PLACE:
            text = f"{inches(shape.gusset_edge)} is not longer than the gusset is deep, {inches(shape.gusset_depth)}"
            yield ("gusset_edge",), f"{text}: its free edge runs aslant, from the upright leg to the level one"
        elif shape.gusset_edge > longest + SAME_PLACE:
            text = f"{inches(shape.gusset_edge)} would end beyond the nose: from there to the gusset's foot it is"
            yield ("gusset_edge",), f"{text} {inches(longest)}"
    if shape.gusset_thickness is not None and shape.gusset_thickness > shape.width + SAME_PLACE:
        text = f"{inches(shape.gusset_thickness)} is more than the width of the bar, {inches(shape.width)}"
        yield ("gusset_thickness",), f"{text}: a gusset stands square to the bar, its thickness across it"


def corbel_faults(shape: Corbel) -> Iterator[Fault]:
    """What is below the seat belongs to a seat."""
    if shape.below_seat is not None and not shape.seat:
        text = "there is no seat: give its depth into the post"
        yield ("below_seat",), f'{text}, for example seat = "3/4 in", or leave below_seat out'


def fixings_faults(fixings: Fixings) -> Iterator[Fault]:
    """Fasteners that reach what is behind, and no fasteners where nothing but a hand has fixed it."""
    fastener = fixings.fastener
    if fixings.by_hand is not None and (fastener is not None or fixings.rows):
        field = "fastener" if fastener is not None else "rows"
        text = f'by_hand = "{fixings.by_hand}" says that nothing but {fixings.by_hand} holds it'
        yield ("by_hand",), f"{text}, yet {field} is given: leave one of them out"
    if fastener is None or fastener.length is None or fixings.through is None or fastener.kind == "pin":
        return
    need = fixings.through + fixings.gap
    if fastener.kind == "bolt":
        need += fixings.other.thickness if fixings.other is not None else 0.0
    if fastener.length <= need + SAME_PLACE:
        more = "as much as its nut takes" if fastener.kind == "bolt" else "as much as it must go in"
        text = f"{inches(fastener.length)} does not reach through: it needs more than {inches(need)} and {more}"
        yield ("fastener", "length"), f"{text} (`through` and `gap`)"


def row_faults(row: Row) -> Iterator[Fault]:
    """Several fasteners need the distance between them; one has none."""
    if row.count > 1 and row.apart is None:
        text = f"missing: {row.count} side by side need the distance from one to the next"
        yield ("apart",), f'{text}, for example apart = "1 1/2 in"'
    if row.count == 1 and row.apart is not None:
        yield ("apart",), "a distance from one to the next, but there is only one: write count = 2, or leave apart out"


def _rows_on(rows: Sequence[Row], leg: float | None, width: float | None, down: float | None = None) -> Iterator[Fault]:
    """Rows within the wall leg and the thickness, from the top down, and slots that fit between them."""
    for i, row in enumerate(rows):
        path: Path = ("fixings", "rows", i)
        if down is not None and row.below_top > down + SAME_PLACE:
            text = f"{inches(row.below_top)} is below the upright leg's lowest fixing: `down` is {inches(down)}"
            yield (*path, "below_top"), f"{text}; rows are measured down from the bend, and `down` to the lowest"
        elif leg is not None and row.below_top >= leg:
            text = f"{inches(row.below_top)} below the top is not on the bracket, whose foot is at {inches(leg)}"
            yield (*path, "below_top"), f"{text}: rows are measured down from its top edge"
        elif row.slot is not None:
            half, room = 0.5 * row.slot, row.below_top if leg is None else min(row.below_top, leg - row.below_top)
            if half >= room:
                text = f"a slot {inches(row.slot)} long does not end within the bracket"
                yield (*path, "slot"), f"{text}: at this height it may be less than {inches(2.0 * room)}"
        if width is not None:
            yield from _across(path, row, width)
    for i, (upper, lower) in enumerate(pairwise(rows), start=1):
        if lower.below_top <= upper.below_top + SAME_PLACE:
            text = f"row {i} is at {inches(upper.below_top)} already or lower: rows are written from the top down"
            yield ("fixings", "rows", i, "below_top"), f"{text}, those of one height as one row with its count"
        elif 0.5 * ((upper.slot or 0.0) + (lower.slot or 0.0)) >= lower.below_top - upper.below_top:
            text = "its slots run into the row above or below: shorten them, or move the rows apart"
            yield ("fixings", "rows", i if lower.slot else i - 1, "slot"), text
    if rows and all(row.slot is not None for row in rows):
        text = "every row is slotted, so nothing keeps it from sliding down"
        yield ("fixings", "rows", 0, "slot"), f"{text}: leave the slot out of one row"


def _across(path: Path, row: Row, width: float) -> Iterator[Fault]:
    spread = (row.count - 1) * (row.apart or 0.0)
    start = row.from_side if row.from_side is not None else 0.5 * (width - spread)
    if row.from_side is not None and start >= width:
        text = f"{inches(start)} from the side is outside of a bracket {inches(width)} thick"
        yield (*path, "from_side"), f"{text}: leave from_side out for a row in the middle"
    elif spread and (start <= 0.0 or start + spread >= width):
        text = f"{row.count} fasteners {inches(row.apart or 0.0)} apart are {inches(spread)} wide"
        if row.from_side is not None:
            text += f" and begin {inches(start)} from the side"
        yield (*path, "apart"), f"{text}: they do not go into a bracket {inches(width)} thick"


def near_faults(near: Near) -> Iterator[Fault]:
    """A gap, a pad in it, slots or a tight fixing: what excludes each other."""
    if near.fixed_to_beam and near.gap:
        text = f"screwed tight to the beam it has no gap, yet gap is {inches(near.gap)}"
        yield ("fixed_to_beam",), f"{text}: leave one of them out"
    if near.fixed_to_beam and near.slot is not None:
        yield ("slot",), "screwed tight to the beam it cannot slide in slots: leave slot or fixed_to_beam out"
    if near.pad_squeezes is not None and near.pad is None:
        text = "missing: pad_squeezes is given, so how stiff is the pad?"
        yield ("pad",), f'{text} For example pad = "2,000 lb/in"'
    elif near.pad_squeezes is not None and near.gap is not None and near.pad_squeezes > near.gap + SAME_PLACE:
        text = f"{inches(near.pad_squeezes)} is more than the gap of {inches(near.gap)} that the pad sits in"
        yield ("pad_squeezes",), f"{text}: it cannot be squeezed to less than nothing"


def cover_faults(cover: Cover) -> Iterator[Fault]:
    """Each anchor group is named once."""
    for i, name in enumerate(cover.hides):
        if name in cover.hides[:i]:
            yield ("hides", i), f"{name!r} is named already: leave it out here"
