"""The fasteners of a concealed bar: through the steel into the wood of the wall, post or stud behind it."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

import numpy as np

from ....errors import BeamcheckError
from ....model.anchor_links import diameter
from ....model.anchors import Anchor, Fastener, Plate
from ....model.brackets import Bracket, SteelCore
from ....units import show
from ....values.lumber import read_size
from ...anchors.axial import axial_checks
from ...anchors.group import Forces, Group
from ...anchors.joint import weak_wood
from ...anchors.lateral import lateral_checks
from ...anchors.layout import layout_checks
from ...anchors.manners.base import sense_checks
from ...anchors.manners.registry import connect
from ...anchors.steel import SCREW_STEEL
from ...beams.beam import doubts
from ...core.context import Context
from ...core.govern import stated
from ...core.material import is_unknown, reference_values, rows_to_screen, wood_of
from ...core.result import Check
from ...core.strength import Section
from ..fixing_rows import Held, bolt_checks, each_once, heel_checks, outward_pulls

NEAR = 1.0  # in: `down` may differ from the lowest row by so much; judgement, no source
HEAD_OVER_D = 1.75  # a hexagon head or nut across its corners: 1.5 D across flats (ASME B18.2.1, memory)
ROUND_HEAD = 2.0  # of a screw or nail, over its diameter; judgement, on the wide side


def bar_checks(held: Held, context: Context) -> list[Check]:
    """Shear and pull of the rows, by the rules for a plate on one side of the wood behind it."""
    fixings, name = held.fixings, held.bracket.name
    other = fixings.other
    if other is None or other.material != "wood" or other.stock is None:
        text = "the wood that the fasteners go into is not described (`other` with its stock): they have no value"
        return [stated(name, "fasteners", "NDS 2018 12", "refer", text)]
    if other.grain == "end" or other.end is None or other.edge is None:
        text = (
            "the wood behind needs its grain (`along` the wall leg or `across` it) and the distances from its nearer "
            "end and edge to the first row (`other.end`, `other.edge`)"
        )
        return [stated(name, "layout of the fasteners", "NDS 2018 12.5.1", "refer", text)]
    T, count = held.pulls(), fixings.rows[held.top].count
    found: list[Check] = []
    alone = _group(held, context, [held.top], 0.0)
    pulled = connect(alone)
    if held.tight:
        whole = connect(_group(held, context, held.tight, held.shared))
        found += [*lateral_checks(whole), *layout_checks(whole), *sense_checks(whole.group)]
        found += axial_checks(whole if held.top in held.tight else pulled, T / count)
    if len(held.tight) < len(fixings.rows):
        found += layout_checks(connect(_group(held, context, list(range(len(fixings.rows))), held.shared)))
    for words, pull in outward_pulls(held):
        checks = [*axial_checks(pulled, np.full(T.size, pull / count)), *bolt_checks(held, np.full(T.size, pull))]
        found += [replace(check, what=f"{check.what}: somebody pulls it {words}") for check in checks]
    found += bolt_checks(held, T)
    found += heel_checks(held, (None, None if is_unknown(alone.stock) else alone.wood))
    found += _wood_behind(held, alone)
    if fixings.fastener is not None and fixings.fastener.kind != "bolt":
        found.append(stated(name, "steel of the screws", "NDS 2018 12", "passes", SCREW_STEEL))
    return each_once(found)


def _group(held: Held, context: Context, rows: list[int], share: float) -> Group:
    """Some rows, loaded with `share` times the load, as a plate on one side of the wood behind them.

    x runs along that wood's grain, y across it.
    """
    bracket, fixings, shape = held.bracket, held.fixings, held.bracket.shape
    assert isinstance(shape, SteelCore) and fixings.other is not None and fixings.other.stock is not None
    other = fixings.other
    stock = context.stock(fixings.other.stock)
    known = not is_unknown(stock)
    wood = wood_of(stock, reference_values(stock) if known else rows_to_screen(stock)[0])
    size = read_size(stock.size)
    deep = size.d if abs(size.b - other.thickness) <= abs(size.d - other.thickness) else size.b
    first = min(row.below_top for row in fixings.rows)
    assert other.end is not None and other.edge is not None
    along, across = [], []
    for i in rows:
        row = fixings.rows[i]
        for k in range(row.count):
            down, aside = row.below_top - first, (row.apart or 0.0) * k
            along.append(other.end + (down if other.grain == "along" else aside))
            across.append(other.edge + (aside if other.grain == "along" else down))
    anchor = Anchor.model_construct(
        name=bracket.name, manner="plate one side", into=bracket.on, fastener=fixings.fastener,
        seasoned=fixings.seasoned, split=fixings.split,
    ).model_copy(
        update={
            "gap": fixings.gap,
            "arm": 0.0,
            "plate": Plate.model_construct(
                steel=shape.steel, thickness=shape.thickness, width=shape.width, length=shape.down
            ),
        }
    )  # fmt: skip
    force, none = np.maximum(held.loads.F, 0.0) * share, np.zeros_like(held.loads.F)
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
        context.under(bracket.on), None, None, Forces(held.loads.combinations, *forces), np.array(along),
        np.array(across), f"bracket.{bracket.name}.fixings",
    )  # fmt: skip


def _wood_behind(held: Held, group: Group) -> Iterator[Check]:
    if is_unknown(group.stock):
        text = f"the wood of {group.stock.name} is not known: figures are of the weakest that it might be"
        yield stated(held.bracket.name, "wood behind not known", "NDS 2018 4.1", "refer", text)
    else:
        yield from doubts(held.bracket.name, group.wood)


def bar_rows(bracket: Bracket, shape: SteelCore) -> Iterator[Check]:
    """That the rows stand where the upright leg is said to be held, and that their heads find room beside a gusset."""
    rows = bracket.fixings.rows if bracket.fixings is not None else ()
    if not rows:
        return
    lowest = max(row.below_top for row in rows)
    if abs(shape.down - lowest) > NEAR + 1e-9:
        text = (
            f"the lowest row is {show(lowest, 'length')} below the bend, but `down`, from the bend to the fixing that "
            f"keeps the upright leg from turning, is {show(shape.down, 'length')}: the lever arm is not known"
        )
        yield stated(bracket.name, "lowest fixing of the upright leg", "geometry", "refer", text)
    if shape.gusset_depth is None:
        return
    t, weld = shape.gusset_thickness or 0.0, shape.weld or 0.0
    assert bracket.fixings is not None
    radius = 0.5 * head_width(bracket.fixings.fastener)
    for i, row in enumerate(rows, start=1):
        spread = (row.apart or 0.0) * (row.count - 1)
        first = row.from_side if row.from_side is not None else 0.5 * (shape.width - spread)
        aside = min(abs(first + (row.apart or 0.0) * k - 0.5 * shape.width) for k in range(row.count))
        clear = aside - radius - 0.5 * t - weld
        if row.below_top - radius < shape.gusset_depth and clear < 0.0:
            text = (
                f"the gusset reaches {show(shape.gusset_depth, 'length')} down in the middle of the bar and leaves no "
                f"room for heads {show(2.0 * radius, 'length')} across at {show(row.below_top, 'length')}: move the "
                "row down, or its fasteners aside"
            )
            yield stated(bracket.name, "heads beside the gusset", "geometry", "refer", text, where=f"row {i}")


def head_width(fastener: Fastener | None) -> float:
    """Of head or washer, whichever is said or usual, in; 0 where the fastener is not known, which is said elsewhere."""
    if fastener is None:
        return 0.0
    try:
        D = diameter(fastener.kind, fastener.size)
    except BeamcheckError:
        return fastener.washer or 0.0
    over = {"bolt": HEAD_OVER_D, "lag screw": HEAD_OVER_D, "pin": 1.0}.get(fastener.kind, ROUND_HEAD)
    return max(fastener.washer or 0.0, over * D)
