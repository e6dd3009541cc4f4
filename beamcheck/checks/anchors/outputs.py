"""What shop and site get of an anchor group: hole layout, hardware, what to see before it is covered, drawing."""

from __future__ import annotations

from itertools import starmap
from typing import Literal

import numpy as np

from ...units import show
from ..core.pictures import BoreSize, Dimension, Hole, HoleDrawing, Neighbor, PlateEdges, SlotSize, Table
from .group import Group
from .hardware import hardware_table, lead_hole_table, looked_up

AROUND = 1.25  # in of the piece shown beyond what lies furthest in, with a tenth of that
Axis = Literal["x", "y"]


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


def inspection(group: Group) -> tuple[str, ...]:
    """What to see and to photograph before the cover goes on."""
    anchor = group.anchor
    if anchor.manner == "by others":
        return ("the work of others is in place as its letter describes it: photograph it with the letter",)
    if anchor.manner == "holds nothing":
        return (f"something else holds {group.piece} at this end: {anchor.name} counts for nothing",)
    if anchor.manner == "rated hardware":
        source = anchor.rating.source if anchor.rating is not None else "its report"
        return (
            f"the mark on the hardware is that of its report: {source}",
            "every hole is filled with the fastener that the report lists, none changed, bent or left out",
            "the wood, its moisture and the distances are those of the report's conditions",
        )
    return (*_fasteners_seen(group), *_distances_seen(group), *_parts_seen(group))


def _fasteners_seen(group: Group) -> list[str]:
    anchor, fastener = group.anchor, group.anchor.fastener
    if fastener is None:
        return []
    n, coated = int(group.x.size), fastener.coating if fastener.coating not in (None, "none", "other") else ""
    made = ", ".join(filter(None, (fastener.steel, coated)))
    kind = "rod" if anchor.manner == "hanger rod" else fastener.kind
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
        found.append(f"one {fastener.kind} beside a rule before it goes in: its length{length}")
    if fastener.kind == "pin":
        found.append("pins driven tight, none loose in its hole; the two clamping bolts of the joint in place")
    return found


def _distances_seen(group: Group) -> list[str]:
    if not group.x.size:
        return []
    anchor, x, y = group.anchor, group.x, group.y
    ends = f"end distance measured: {show(float(x.min()), 'length')} from the {group.end} end to the nearest hole"
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
    return [*found, f"{row}; stop and ask where one does"]


def _parts_seen(group: Group) -> list[str]:
    anchor, found = group.anchor, []
    fastener, plate = anchor.fastener, anchor.plate
    if plate is not None:
        size = (
            f"{show(plate.thickness, 'length')} thick, {show(plate.width, 'length')} by {show(plate.length, 'length')}"
        )
        found.append(f"the plate, {size}, before it is out of sight")
    if anchor.manner == "concealed plate" and plate is not None:
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
    if anchor.manner == "hanger rod":
        above = anchor.into or "what it hangs from"
        found.append(f"nut and washer on the top of {above} and under {group.piece}; the rod straight and plumb")
    if anchor.manner == "toe-nails":
        found.append("nails driven at about 30 degrees, begun a third of their length from the end, wood not split")
    if fastener is not None and fastener.counterbore is not None:
        found.append(
            f"bores {show(fastener.counterbore, 'length')} across and no deeper than "
            f"{show(fastener.counterbore_depth or 0.0, 'length')}"
        )
    if fastener is not None and fastener.plugged:
        found.append("bores plugged only after all of this was seen, photographed and the nuts drawn once more")
    return [*found, "moisture of the wood metered on the day, the meter in the picture"]


def hole_drawing(group: Group, governing: int | None = None) -> HoleDrawing:
    """The elevation of the held end and its end view; `governing` is the index of the fastener to mark."""
    anchor, plate, fastener = group.anchor, group.anchor.plate, group.anchor.fastener
    dowel, d = looked_up(anchor), float(group.section.d)
    D = dowel.D if dowel is not None else 0.0
    upright = _upright(group)
    slot = None
    if anchor.manner == "concealed plate" and plate is not None:
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
        plate_at={"concealed plate": "in the slot", "plates both sides": "on both sides"}.get(
            anchor.manner, "on one side" if plate is not None else ""
        ),
        bores=BoreSize(fastener.counterbore or 0.0, fastener.counterbore_depth or 0.0) if bored and fastener else None,
        bored=2 if anchor.manner in ("concealed plate", "plates both sides") else 1,
        other=None if other is None else Neighbor(anchor.into or other.material, other.thickness),
        gap=anchor.gap,
        upright=upright,
        texts=_texts(group, place is not None),
    )


def _texts(group: Group, plated: bool) -> tuple[str, ...]:
    fastener = group.anchor.fastener
    kind = "" if fastener is None else "rod" if _upright(group) else fastener.kind
    what = f"{kind} {fastener.size}" if fastener is not None else "no fastener"
    n = int(group.x.size)
    found = [f"{n} x {what}, {group.end} end of {group.piece}" if n else f"{what}, {group.end} end of {group.piece}"]
    if not n:
        found.append("The job gives no hole layout.")
    if plated and group.anchor.manner != "concealed plate":
        found.append("The plate is drawn about the holes: the job does not place it.")
    return tuple(found)


def _plate_place(group: Group) -> PlateEdges | None:
    """Outline of the plate: from the end inwards when concealed, else about the middle of the holes."""
    plate = group.anchor.plate
    if plate is None or not group.x.size:
        return None
    x = 0.5 * (float(group.x.min()) + float(group.x.max()))
    y = 0.5 * (float(group.y.min()) + float(group.y.max()))
    x0 = 0.0 if group.anchor.manner == "concealed plate" else x - 0.5 * plate.length
    y0 = y - 0.5 * plate.width
    return PlateEdges(x0, y0, x0 + plate.length, y0 + plate.width, plate.thickness)


def _dimensions(group: Group, d: float) -> tuple[tuple[Axis, float, float, str], ...]:
    """Running dimensions from the end and from the bottom edge, and what is left to the top."""
    found: list[tuple[Axis, float, float, str]] = [
        ("x", 0.0, float(x), "from the end") for x in np.unique(np.round(group.x, 6))
    ]
    heights = [] if _upright(group) else [float(y) for y in np.unique(np.round(group.y, 6))]
    found += [("y", 0.0, y, "from the bottom edge") for y in heights]
    if heights:
        found.append(("y", heights[-1], d, "to the top"))
    return tuple(found)


def _upright(group: Group) -> bool:
    """A rod stands upright in the piece."""
    return group.anchor.manner == "hanger rod"


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
