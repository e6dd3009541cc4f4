"""What people get of an anchor group: its inputs, hole layout, hardware, what to see before it is covered, drawing."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import starmap
from typing import Literal

from ...model.anchors.anchor import Fastener, Plate
from ...units import show
from ..core.pictures.beams import Dimension, Table
from ..core.pictures.others import (
    BoreSize,
    FastenerSize,
    ForceMark,
    Hole,
    HoleDrawing,
    Neighbor,
    PlateEdges,
    ShortOf,
    SlotSize,
)
from ..core.result import Check
from .fastener import Dowel
from .group import Group, levels
from .hardware import hardware_table, lead_hole_table, looked_up

AROUND = 1.25  # in of the piece shown beyond what lies furthest in, with a tenth of that
Axis = Literal["x", "y"]
Rows = list[tuple[str, str]]


def anchor_tables(group: Group) -> list[Table]:
    """Hole layout, hardware list, holes to drill; those that the group has. Lengths to 1/16 in."""
    found = [hole_table(group), hardware_table(group), lead_hole_table(group)]
    return [table for table in found if table is not None]


def hole_table(group: Group) -> Table | None:
    """Every hole with its place; None where the layout does not give any."""
    if not group.x.size:
        return None
    rows = []
    for k in _in_order(group):
        before = _before(group, k)
        rows.append((
            str(_number(group, k)), str(int(group.row[k]) + 1), str(int(group.column[k]) + 1),
            show(float(group.x[k]), "length"), "–" if _upright(group) else show(float(group.y[k]), "length"),
            "–" if before is None else show(float(group.x[k] - group.x[before]), "length"),
            _below(group, k),
        ))  # fmt: skip
    heads = ("no.", "row", "column", "from the end", "from the bottom edge", "from the one before it in the row",
             "from the row below")  # fmt: skip
    note = f"Rows count from the bottom, columns from the {group.end} end of {group.piece}; to the middle of each hole."
    return Table(f"Holes in {group.piece}, {group.end} end", heads, tuple(rows), note)


def fastened_seen(group: Group) -> tuple[str, ...]:
    """What to see and to photograph of a group with fasteners of its own before the cover goes on."""
    return (*_fasteners_seen(group), *distances_seen(group), *_parts_seen(group))


def _fasteners_seen(group: Group) -> list[str]:
    anchor, fastener = group.anchor, group.anchor.fastener
    if fastener is None:
        return []
    n, coated = int(group.x.size), fastener.coating if fastener.coating not in (None, "none", "other") else ""
    made = ", ".join(filter(None, (fastener.steel, coated)))
    kind = "rod" if group.made.upright else fastener.kind
    what = f"{kind}{'s' if n != 1 else ''} {fastener.size}{f' ({made})' if made else ''}"
    rows = [members.size for members in group.rows]
    rule = f", in {len(rows)} row{'s' if len(rows) != 1 else ''} of {' and '.join(map(str, dict.fromkeys(rows)))}"
    found = [f"count and size: {n or 'all'} {what}{rule if n > 1 else ''}; a rule or caliper in the picture"]
    dowel = looked_up(anchor)
    if fastener.kind == "bolt" and dowel is not None and dowel.washer is not None:
        found.append(
            f"a washer {show(dowel.washer, 'length')} across under every head and nut, nuts drawn tight, the thread out"
        )
    if fastener.kind == "lag screw" and dowel is not None and dowel.washer is not None:
        found.append(f"a washer {show(dowel.washer, 'length')} across under every head")
    if fastener.kind in ("lag screw", "wood screw"):
        found.append("lead holes drilled to the size in the table; screws turned in, none driven with a hammer")
    if fastener.kind == "lag screw" or fastener.length is not None:
        length = f" of {show(fastener.length, 'length')}" if fastener.length is not None else ""
        found.append(f"one {kind} beside a rule before it goes in: its length{length}")
    if fastener.kind == "pin":
        found.append("pins driven tight, none loose in its hole; the two clamping bolts of the joint in place")
    return found


def distances_seen(group: Group) -> tuple[str, ...]:
    """Where its holes are, to see and to photograph."""
    if not group.x.size:
        return ()
    anchor, x, y = group.anchor, group.x, group.y
    ends = f"end distance measured: {show(float(x.min()), 'length')} from the {group.end} end to the nearest hole"
    if group.made.in_the_end:
        ends = f"distance measured: {show(float(x.min()), 'length')} from the side to the nearest hole in the end"
    found = [ends]
    if not _upright(group):
        top = float(group.section.d) - float(y.max())
        found.append(
            f"edge distances measured: {show(float(y.min()), 'length')} to the lowest row from the bottom edge, "
            f"{show(top, 'length')} from the highest row to the top"
        )
    other = anchor.other
    if other is not None and other.material == "wood":
        where = [
            f"{show(distance, 'length')} from its {what}"
            for what, distance in (("end", other.end), ("edge", other.edge)) if distance is not None
        ]  # fmt: skip
        measured = f": {' and '.join(where)}" if where else ""
        found.append(f"the same distances measured in {anchor.into or 'the other member'}{measured}")
    row = "no split or check runs through a row of holes or from a hole to the end"
    return (*found, f"{row}; stop and ask where one does")


def _parts_seen(group: Group) -> list[str]:
    anchor, found = group.anchor, []
    if (back := anchor.back) is not None:
        found.append(
            f"behind it {back.count} rods {show(back.diameter, 'length')}, {back.in_top_row} of them "
            f"{show(back.high, 'length')} up from the lower edge of their plate, {show(back.off, 'length')} from the "
            f"middle of each to the plate in the piece, {show(back.edge, 'length')} outward to the edge"
        )
        found.append(
            f"that plate {show(back.plate, 'length')} thick, rods set as says: {back.takes_by or 'nobody yet'}"
        )
    fastener, plate = anchor.fastener, anchor.plate
    if plate is not None:
        size = (
            f"{show(plate.thickness, 'length')} thick, {show(plate.width, 'length')} by {show(plate.length, 'length')}"
        )
        found.append(f"the plate, {size}, before it is out of sight")
    if group.made.in_a_slot and plate is not None:
        width = f" no wider than {show(plate.slot, 'length')}" if plate.slot is not None else ""
        found.append(f"the plate seated to the end of its slot, the slot{width} and clean at its end")
    elif plate is not None:
        found.append("the plate seated flat, nothing between it and the wood but what the job says")
    if plate is not None and plate.weld is not None:
        found.append(f"welds {show(plate.weld, 'length')} on both sides, whole length, before paint")
    if anchor.gap:
        found.append(f"the gap between the faces measured: no more than {show(anchor.gap, 'length')}")
    elif anchor.other is not None:
        found.append("the faces touch: no board, plaster or shim between them")
    if group.made.upright:
        above = anchor.into or "what it hangs from"
        found.append(f"nut and washer on the top of {above} and under {group.piece}; the rod straight and plumb")
    if group.made.aslant:
        found.append("nails driven at about 30 degrees, begun a third of their length from the end, wood not split")
    if fastener is not None and fastener.counterbore is not None:
        found.append(
            f"bores {show(fastener.counterbore, 'length')} across and no deeper than "
            f"{show(fastener.counterbore_depth or 0.0, 'length')}"
        )
    if fastener is not None and fastener.plugged:
        found.append("bores plugged only after all of this was seen, photographed and the nuts drawn once more")
    return [*found, "moisture of the wood metered on the day, the meter in the picture"]


def hole_drawing(group: Group, governing: int | None = None, checks: Sequence[Check] = ()) -> HoleDrawing:
    """The elevation of the held end and its end view; `governing` is the index of the fastener to mark.

    Of the `checks` those of distances that are not kept are drawn.
    """
    anchor, plate, fastener = group.anchor, group.anchor.plate, group.anchor.fastener
    dowel, d = looked_up(anchor), float(group.section.d)
    D = dowel.D if dowel is not None else 0.0
    upright = _upright(group)
    slot = None
    if group.made.in_a_slot and plate is not None:
        width = plate.slot if plate.slot is not None else plate.thickness
        reach = plate.slot_length if plate.slot_length is not None else plate.length
        slot = SlotSize(width, reach, plate.slot_height if plate.slot_height is not None else d)
    place = _plate_place(group)
    furthest = max([float(group.x.max(initial=0.0)) + D, slot[1] if slot else 0.0, place[2] if place else 0.0])
    holes = tuple(
        Hole(float(group.x[k]), 0.0 if upright else float(group.y[k]), D, str(_number(group, k)), k == governing)
        for k in _in_order(group)
    )
    bored = fastener is not None and fastener.counterbore is not None and fastener.counterbore_depth is not None
    other = anchor.other
    return HoleDrawing(
        name=anchor.name,
        end="left" if group.end == "left" else "right",
        length=1.1 * furthest + AROUND,
        depth=d,
        breadth=float(group.section.b),
        holes=holes,
        dimensions=tuple(starmap(Dimension, _dimensions(group, d))),
        slot=slot,
        plate=place,
        plate_at=_plate_at(group),
        bores=BoreSize(fastener.counterbore or 0.0, fastener.counterbore_depth or 0.0) if bored and fastener else None,
        bored=group.made.faces_bored,
        other=None if other is None else Neighbor(anchor.into or other.material, other.thickness),
        gap=anchor.gap,
        upright=upright,
        texts=_texts(group, place is not None),
        fastener=_size(dowel, upright=upright),
        from_right=_plate_at(group) == "on one side" and dowel is not None and not dowel.through,
        other_grain=other.grain if other is not None and other.material == "wood" else "",
        line=group.line,
        forces=tuple(starmap(ForceMark, group.largest.items())),
        short=tuple(
            ShortOf(check.what, check.demand, check.capacity, check.verdict)
            for check in checks
            if check.kind == "length" and check.verdict != "passes" and check.demand is not None
            and check.capacity is not None
        ),
    )  # fmt: skip


def _size(dowel: Dowel | None, *, upright: bool) -> FastenerSize | None:
    if dowel is None:
        return None
    kind = "rod" if upright else dowel.kind
    return FastenerSize(kind, dowel.D, dowel.length, dowel.head, dowel.washer, dowel.washer_thickness)


def _texts(group: Group, plated: bool) -> tuple[str, ...]:
    fastener = group.anchor.fastener
    kind = "" if fastener is None else "rod" if _upright(group) else fastener.kind
    what = f"{kind} {fastener.size}" if fastener is not None else "no fastener"
    n = int(group.x.size)
    found = [f"{n} x {what}, {group.end} end of {group.piece}" if n else f"{what}, {group.end} end of {group.piece}"]
    if not n:
        found.append("The job gives no hole layout.")
    if (plate := group.anchor.plate) is not None:
        size = " x ".join(show(side, "length") for side in (plate.thickness, plate.width, plate.length))
        slot = f", slot {show(plate.slot, 'length')} wide" if plate.slot is not None else ""
        found.append(f"plate {size}{slot}")
    if plated and not group.made.in_a_slot:
        found.append("The plate is drawn about the holes: the job does not place it.")
    return tuple(found)


def _plate_place(group: Group) -> PlateEdges | None:
    """Outline of the plate: from the end inwards when concealed, else about the middle of the holes."""
    plate = group.anchor.plate
    if plate is None or not group.x.size:
        return None
    x = 0.5 * (float(group.x.min()) + float(group.x.max()))
    y = 0.5 * (float(group.y.min()) + float(group.y.max()))
    x0 = 0.0 if group.made.in_a_slot else x - 0.5 * plate.length
    y0 = y - 0.5 * plate.width
    return PlateEdges(x0, y0, x0 + plate.length, y0 + plate.width, plate.thickness)


def _dimensions(group: Group, d: float) -> tuple[tuple[Axis, float, float, str], ...]:
    """Running dimensions from the end and from the bottom edge, and what is left to the top."""
    found: list[tuple[Axis, float, float, str]] = [("x", 0.0, float(x), "from the end") for x in levels(group.x)]
    heights = [] if _upright(group) else [float(y) for y in levels(group.y)]
    found += [("y", 0.0, y, "from the bottom edge") for y in heights]
    if heights:
        found.append(("y", heights[-1], d, "to the top"))
    return tuple(found)


def _plate_at(group: Group) -> str:
    if group.anchor.plate is None:
        return ""
    return "in the slot" if group.made.in_a_slot else "on both sides" if group.made.plates == 2 else "on one side"


def _upright(group: Group) -> bool:
    """A rod stands upright in the piece."""
    return group.made.upright


def _in_order(group: Group) -> list[int]:
    """Indices row by row from the bottom, each from the end inwards."""
    return [int(k) for members in group.rows for k in members]


def _number(group: Group, k: int) -> int:
    return _in_order(group).index(k) + 1


def _before(group: Group, k: int) -> int | None:
    members = list(group.rows[int(group.row[k])])
    place = members.index(k)
    return int(members[place - 1]) if place else None


def _below(group: Group, k: int) -> str:
    row = int(group.row[k])
    if row == 0 or _upright(group):
        return "–"
    return show(float(group.y[k] - group.y[group.rows[row - 1][0]]), "length")


# ---- the inputs ------------------------------------------------------------------------------------------------------


def anchor_inputs(group: Group) -> Rows:
    """Everything that the job says of the group, in the words of the trade."""
    anchor = group.anchor
    rows: Rows = [
        ("manner", anchor.manner), ("holds", f"{group.end} end of {group.piece}, at {show(group.place, 'length')}"),
        ("fastened to", group.into.name if group.into is not None else anchor.into or "not said"),
    ]  # fmt: skip
    if anchor.fastener is not None:
        rows += _fastener(anchor.fastener)
    if group.x.size:
        count = len(group.rows)
        rows.append(("fasteners", f"{group.x.size}, in {count} row{'s' if count != 1 else ''} along the grain"))
    if anchor.plate is not None:
        rows += _plate(anchor.plate)
    if (other := anchor.other) is not None:
        of = other.stock or other.material
        rows.append(("other side", f"{of}, {show(other.thickness, 'length')} thick, grain {other.grain}"))
    if anchor.gap:
        rows.append(("gap between the faces", show(anchor.gap, "length")))
    if group.made.fastened:
        arm = group.arm
        rows += [
            ("arm", "not given" if arm is None else show(arm, "length")),
            ("wood when put together", anchor.seasoned or "not said"),
            ("checks and splits", anchor.split or "not said"),
        ]  # fmt: skip
    if (rating := anchor.rating) is not None:
        loads = [f"{show(load, 'force')} {word}" for word, load in
                 (("down", rating.down), ("up", rating.up), ("along", rating.along)) if load is not None]  # fmt: skip
        rows += [
            ("rating from", rating.source), ("rated loads", ", ".join(loads) or "none"),
            ("load duration", "in the figures already" if rating.duration == "included" else "C_D to be applied"),
            ("figures for", f"{rating.loads} loads" if rating.loads else "not said"),
            ("conditions", rating.conditions or "not written down"),
            ("conditions met", {True: "said to be met", False: "said not to be met", None: "not said"}[
                rating.conditions_met]),
        ]  # fmt: skip
    if anchor.on_girder is not None:
        high, low = show(anchor.on_girder.highest, "length"), show(anchor.on_girder.lowest, "length")
        rows.append(("on the side of the girder", f"from {high} to {low} under its top"))
    if anchor.twist_held_by.strip():
        rows.append(("kept from turning by", anchor.twist_held_by))
    if "confirmed_by" in group.made.may:
        rows.append(("confirmed by", anchor.confirmed_by or "nobody"))
    return rows


def _fastener(fastener: Fastener) -> Rows:
    long = f", {show(fastener.length, 'length')} long" if fastener.length is not None else ""
    rows = [
        ("fastener", f"{fastener.kind} {fastener.size}{long}"), ("steel", fastener.steel or "grade not given"),
        ("threads", fastener.threads or "not said"), ("coating", fastener.coating or "not said"),
    ]  # fmt: skip
    if fastener.F_yb is not None:
        rows.append(("bending yield strength", f"{show(fastener.F_yb, 'stress')}: {fastener.F_yb_from}"))
    if fastener.washer is not None:
        rows.append(("washers", f"{show(fastener.washer, 'length')} across"))
    if fastener.counterbore is not None:
        plugged = ", plugged" if fastener.plugged else ""
        deep = show(fastener.counterbore_depth or 0.0, "length")
        rows.append(("bores", f"{show(fastener.counterbore, 'length')} across, {deep} deep{plugged}"))
    return rows


def _plate(plate: Plate) -> Rows:
    size = " x ".join(show(side, "length") for side in (plate.thickness, plate.width, plate.length))
    rows = [("plate", f"{plate.steel}, {size} (thickness, across, along the piece)")]
    if plate.slot is not None:
        long = f", {show(plate.slot_length, 'length')} from the end" if plate.slot_length is not None else ""
        rows.append(("slot", f"{show(plate.slot, 'length')} wide{long}"))
    rows.append(("weld", "not given" if plate.weld is None else f"{show(plate.weld, 'length')} fillet on both faces"))
    return rows
