"""The fasteners of a concealed bar: through the steel into the wood of the wall, post or stud behind it."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import replace

import numpy as np

from ....model.anchors.anchor import Anchor, Plate
from ....model.brackets.bracket import Bracket, SteelCore
from ....units import show
from ....values.judgment import judgment
from ....values.lumber import read_size
from ...anchors.fasteners.axial import axial_checks
from ...anchors.fasteners.connection import Connection
from ...anchors.fasteners.lateral import lateral_checks
from ...anchors.fasteners.layout import layout_checks
from ...anchors.group import Forces, Group
from ...anchors.joint import weak_wood
from ...anchors.manners.base import sense_checks
from ...anchors.manners.registry import resolved
from ...anchors.steel.bolts import SCREW_STEEL
from ...core.context import Context
from ...core.result import Check
from ...core.wood.strength import Section
from ...core.wood.wood_doubts import wood_evidence_checks
from ..asking import ask_for, other_asked, path_of
from ..wood import known_wood, not_known, wood_or_weakest
from .heads import head_width
from .rows import FixingRows, bolt_checks, each_once, heel_checks, outward_pulls

Array = np.ndarray
HAIR = 1e-9


def bar_checks(rows: FixingRows, context: Context) -> list[Check]:
    """Shear and pull of the rows, by the rules for a plate on one side of the wood behind it."""
    fixings, bracket, name = rows.fixings, rows.bracket, rows.bracket.name
    other = fixings.other
    if other is None or other.material != "wood" or other.stock is None:
        text = "the wood that the fasteners go into is not described (`other` with its stock): they have no value"
        into = other_asked(bracket, context)
        return [Check.refers("bracket.fixings_described", name, "fasteners", "NDS 2018 12", text, ask=into)]
    if other.grain == "end" or other.end is None or other.edge is None:
        text = (
            "the wood behind needs its grain (`along` the wall leg or `across` it) and the distances from its nearer "
            "end and edge to the first row (`other.end`, `other.edge`)"
        )
        asked = tuple(
            ask_for(bracket, key, f"fixings.other.{field}", on=bracket.on)
            for key, field, missing in (
                ("grain_behind", "grain", other.grain == "end"), ("end_behind", "end", other.end is None),
                ("edge_behind", "edge", other.edge is None),
            ) if missing
        )  # fmt: skip
        what = "layout of the fasteners"
        return [Check.refers("bracket.bar_layout", name, what, "NDS 2018 12.5.1", text, ask=asked)]
    T, count = rows.pulls(), fixings.rows[rows.top].count
    stock = context.stock(other.stock)
    alone = _group(rows, context, [rows.top], 0.0)
    found = _joint(rows, context, alone, T / count)
    found += bolt_checks(rows, T)
    found += heel_checks(rows, (None, known_wood(stock, rows.bracket.on)), stock)
    if known_wood(stock) is None:
        text = f"the wood of {stock.name} is not known: figures are of the weakest that it might be"
        found.append(not_known(name, stock, text, "wood behind not known"))
    else:
        found += wood_evidence_checks(name, alone.wood.doubts)
    if fixings.fastener is not None and fixings.fastener.kind != "bolt":
        what = "steel of the screws"
        found.append(Check.keeps_rule("bracket.screw_steel", name, what, "NDS 2018 12", SCREW_STEEL))
    return each_once(found)


def _joint(rows: FixingRows, context: Context, alone: Group, T: Array) -> list[Check]:
    """What anchor groups are checked for; `T` pulls on each fastener of the top row, lbf."""
    every = list(range(len(rows.fixings.rows)))
    top = resolved(alone)
    whole = resolved(_group(rows, context, rows.tight or every, rows.shared))
    if not isinstance(top, Connection) or not isinstance(whole, Connection):
        return [one for one in (top, whole) if isinstance(one, Check)]
    found = [*lateral_checks(whole), *layout_checks(whole), *sense_checks(whole.group)]
    found += axial_checks(whole if rows.top in rows.tight else top, T)
    all_rows = resolved(_group(rows, context, every, rows.shared))
    if len(rows.tight) < len(every) and isinstance(all_rows, Connection):
        found += layout_checks(all_rows)
    for words, pull in outward_pulls(rows):
        each = np.full(T.size, pull / rows.fixings.rows[rows.top].count)
        checks = [*axial_checks(top, each), *bolt_checks(rows, np.full(T.size, pull))]
        found += [replace(check, what=f"{check.what}: somebody pulls it {words}") for check in checks]
    return found


def _group(rows: FixingRows, context: Context, which: list[int], share: float) -> Group:
    """Some rows, loaded with `share` times the load, as a plate on one side of the wood behind them.

    x runs along that wood's grain, y across it.
    """
    bracket, fixings = rows.bracket, rows.fixings
    shape: SteelCore = rows.family.shape
    assert fixings.other is not None and fixings.other.stock is not None
    other, stock = fixings.other, context.stock(fixings.other.stock)
    wood, size = wood_or_weakest(stock), read_size(stock.size)
    deep = size.d if abs(size.b - other.thickness) <= abs(size.d - other.thickness) else size.b
    first = min(row.below_top for row in fixings.rows)
    assert other.end is not None and other.edge is not None
    along, across = [], []
    for i in which:
        row = fixings.rows[i]
        for aside in row.offsets:
            down = row.below_top - first
            along.append(other.end + (down if other.grain == "along" else aside))
            across.append(other.edge + (aside if other.grain == "along" else down))
    plate = Plate.model_construct(
        steel=shape.steel, thickness=shape.thickness, width=shape.width, length=shape.down
    )  # fmt: skip
    anchor = Anchor.model_construct(
        name=bracket.name, manner="plate one side", into=bracket.on, fastener=fixings.fastener,
        seasoned=fixings.seasoned, split=fixings.split,
    ).model_copy(update={"gap": fixings.gap, "arm": 0.0, "plate": plate})  # fmt: skip
    force, none = np.maximum(rows.loads.F, 0.0) * share, np.zeros_like(rows.loads.F)
    if other.grain == "along":  # which end is the nearer one is not said: the load is taken to pull towards it
        forces = (none, force)
        # the load comes down the middle of the bar, not of the wood: the wood counts as wide as has the bar in its
        # middle, and is nowhere farther from an edge than it is
        deep = 2.0 * min(float(np.mean(across)), deep - float(np.mean(across)))
    else:  # nor which edge: the load is taken to push towards it
        forces = (-force, none)
    section = Section(other.thickness, deep, other.thickness)
    return Group(
        anchor, bracket.on, "left", 0.0, stock, weak_wood(stock, wood), section,
        context.under(bracket.on), None, None, Forces(rows.loads.combinations, *forces), np.array(along),
        np.array(across), path_of(bracket, "fixings"),
    )  # fmt: skip


def bar_rows(bracket: Bracket, shape: SteelCore) -> Iterator[Check]:
    """That the rows stand where the upright leg is said to be held, and that their heads find room beside a gusset."""
    rows = bracket.fixings.rows if bracket.fixings is not None else ()
    if not rows:
        return
    lowest = max(row.below_top for row in rows)
    if abs(shape.down - lowest) > judgment("lowest row beside the end of a bar").value + HAIR:
        text = (
            f"the lowest row is {show(lowest, 'length')} below the bend, but `down`, from the bend to the fixing that "
            f"keeps the upright leg from turning, is {show(shape.down, 'length')}: the lever arm is not known"
        )
        asked = ask_for(bracket, "bar_down", "shape.down", [f"{lowest:g} in"])
        what = "lowest fixing of the upright leg"
        yield Check.refers("bracket.bar_down", bracket.name, what, "geometry", text, ask=asked)
    if shape.gusset_depth is None:
        return
    t, weld = shape.gusset_thickness or 0.0, shape.weld or 0.0
    assert bracket.fixings is not None
    radius = 0.5 * head_width(bracket.fixings.fastener)
    for i, row in enumerate(rows, start=1):
        aside = min(abs(place - 0.5 * shape.width) for place in row.places(shape.width))
        clear = aside - radius - 0.5 * t - weld
        if row.below_top - radius < shape.gusset_depth and clear < 0.0:
            text = (
                f"the gusset reaches {show(shape.gusset_depth, 'length')} down in the middle of the bar and leaves no "
                f"room for heads {show(2.0 * radius, 'length')} across at {show(row.below_top, 'length')}: move the "
                "row down, or its fasteners aside"
            )
            low = math.ceil(16.0 * (shape.gusset_depth + radius)) / 16.0
            asked = ask_for(bracket, "row_below_gusset", f"fixings.rows.{i}.below_top", [f"{low:g} in"], row=f"{i}")
            what = "heads beside the gusset"
            yield Check.refers("bracket.heads_clear", bracket.name, what, "geometry", text, ask=asked, where=f"row {i}")
