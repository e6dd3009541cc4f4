"""The fasteners of a wooden bracket: through its wood into what is behind it.

The rules for single fasteners are those of the anchor groups: a bracket's rows become a group in its wall face, with x
down from its top edge (along an upright grain) and y across its thickness.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import replace

import numpy as np

from ....calc.core import Number
from ....calc.pad import Pad
from ....model.anchors.anchor import Anchor
from ....units import show
from ....values.found import Found
from ....values.hardware.connections import THIN, connection_factor, distance
from ....values.judgment import judgment
from ...anchors.fastener import dowel_of
from ...anchors.fasteners.axial import axial_checks
from ...anchors.fasteners.connection import Connection, connection_duration
from ...anchors.fasteners.factors import temperature, wet_service
from ...anchors.fasteners.lateral import lateral_checks, split_checks
from ...anchors.fasteners.layout import layout_checks
from ...anchors.group import Forces, Group
from ...anchors.joint import weak_wood
from ...anchors.manners.base import sense_checks
from ...anchors.manners.registry import resolved
from ...core.asking.question import PlausibleAnswer
from ...core.context import Context
from ...core.result import Check
from ...core.wood.govern import Criterion, at, govern
from ...core.wood.material import WoodMaterial
from ...core.wood.strength import Outcome, Section
from ...core.wood.wood_doubts import wood_evidence_checks
from ..asking import ask_for, path_of
from ..wood import known_wood
from .rows import FixingRows, bolt_checks, heel_checks, outward_pulls

Array = np.ndarray
HAIR = 1e-6
ROUNDED = 0.02  # in: sizes are written to a 64th


def wood_checks(rows: FixingRows, wood: WoodMaterial, context: Context) -> list[Check]:
    """Shear and pull of the rows, the wood they go through, the heel that presses on the wall."""
    bracket, fixings, name = rows.bracket, rows.fixings, rows.bracket.name
    if any(fixings.through_of(row) is None for row in fixings.rows):
        text = "how much wood the fasteners go through before the wall is not given (`through`)"
        asked = ask_for(bracket, "through", "fixings.through")
        return [Check.refers("bracket.through", name, "fixings", "NDS 2018 12", text, ask=asked)]
    T, top = rows.pulls(), rows.top
    count = fixings.rows[top].count
    upright = rows.family.upright_at_wall is True
    alone = row_group(rows, wood, context, [top], 0.0)
    pulled = resolved(alone)
    found = [*_in_the_wood(rows), *sense_checks(alone), *bolt_checks(rows, T)]
    if not isinstance(pulled, Connection):
        found.append(pulled)
    elif upright and rows.tight and rows.alike:
        found += _across(rows, row_group(rows, wood, context, rows.tight, rows.shared), pulled, T / count)
    elif rows.tight:
        for i in rows.tight:
            one = row_group(rows, wood, context, [i], rows.on_one_fastener * fixings.rows[i].count)
            checks = _row_across(rows, one) if upright else _along_the_grain(rows, one)
            found += [replace(check, where=f"row {i + 1}" if check.ratio is not None else "") for check in checks]
        found += axial_checks(pulled, T / count)
    if isinstance(pulled, Connection):
        found += _pulled(rows, pulled)
    if alone.into_wood is not None:
        found += wood_evidence_checks(name, alone.into_wood.doubts)
    return [*found, *heel_checks(rows, (wood, alone.into_wood), alone.into_stock)]


def _across(rows: FixingRows, group: Group, pulled: Connection, T: Array) -> list[Check]:
    """Fasteners across the grain: all tight rows together, and the pull on the top one."""
    whole = resolved(group)
    if not isinstance(whole, Connection):
        return [whole]
    lateral = [*split_checks(whole.group)] if rows.family.stands_on_wood else lateral_checks(whole)
    found = [replace(check, notes=(*check.notes, *rows.share_note)) for check in lateral]
    return [*found, *layout_checks(whole), *axial_checks(whole if rows.top in rows.tight else pulled, T)]


def _row_across(rows: FixingRows, group: Group) -> list[Check]:
    """One row across the grain, where rows differ."""
    found = resolved(group)
    if not isinstance(found, Connection):
        return [found]
    lateral = [*split_checks(group)] if rows.family.stands_on_wood else lateral_checks(found)
    return [*(replace(one, notes=(*one.notes, *rows.share_note)) for one in lateral), *layout_checks(found)]


def row_group(rows: FixingRows, wood: WoodMaterial, context: Context, which: list[int], share: float) -> Group:
    """Some rows as an anchor group in the wall face, loaded with `share` times the load."""
    bracket, thickness = rows.bracket, rows.thickness
    fixings = rows.fixings.of_row(rows.fixings.rows[which[0]])
    assert fixings.fastener is not None and bracket.stock is not None and fixings.through is not None
    deep = fixings.through + (fixings.fastener.counterbore_depth or 0.0)
    at = [(row.below_top, place) for i in which for row in (fixings.rows[i],) for place in row.places(thickness)]
    x, y = np.array(at).T
    other = fixings.other
    into_stock = context.stock(other.stock) if other is not None and other.stock is not None else None
    anchor = Anchor.model_construct(
        name=bracket.name, manner="wood side", into=bracket.on, fastener=fixings.fastener, other=other,
        seasoned=fixings.seasoned, split=fixings.split,
    ).model_copy(update={"gap": fixings.gap, "arm": 0.0})  # fmt: skip
    force = np.maximum(rows.loads.F, 0.0) * share
    stock = context.stock(bracket.stock)
    return Group(
        anchor, bracket.name, "left", 0.0, stock, weak_wood(stock, wood), Section(deep, thickness, deep),
        context.under(bracket.on), into_stock, known_wood(into_stock, bracket.on),
        Forces(rows.loads.combinations, np.zeros_like(force), force), x, y,
        path_of(bracket, "fixings"),
    )  # fmt: skip


def _along_the_grain(rows: FixingRows, group: Group) -> list[Check]:
    """Lateral value where the fastener does not cross the grain: bearing across it, with the end-grain factor."""
    name, clause, count = rows.bracket.name, "NDS 2018 11.5.2, 12.3", float(group.x.size)
    lateral = resolved(replace(group, x=np.full_like(group.x, rows.family.back)))
    placed = resolved(group)
    if not isinstance(lateral, Connection) or not isinstance(placed, Connection):
        return [one for one in (lateral, placed) if isinstance(one, Check)]
    joint = lateral.joint

    def calculate(pad: Pad, which: int | slice) -> Outcome:
        P = pad.take("P_i", at(group.forces.along / count, which), "lbf", note="on one fastener")
        Z_prime = _end_grain_value(pad, lateral, which)
        if not isinstance(which, slice):
            pad.take("Z_prime", float(Z_prime), "lbf", note="Z times C_D, C_eg, C_M and C_t")
        return Outcome(P, Z_prime, P / Z_prime)

    what = "lateral load on a fastener along the grain"
    criterion = Criterion(name, what, clause, "force", notes=rows.share_note, id="bracket.lateral_along_grain")
    found = [govern(criterion, group.forces.combinations, calculate)]
    found += [Check.breaks_rule(one.id, name, one.what, one.clause, one.text) for one in joint.faults]
    what, clause = "what is known of the joint", "NDS 2018 11.1"
    found += [group.refers("anchor.joint", what, clause, open_) for open_ in joint.doubts]
    return [*found, *split_checks(group), *layout_checks(placed)]


def lateral_in_end_grain(pad: Pad, rows: FixingRows, group: Group, which: int) -> float:
    """Z' of one fastener that does not cross the grain, lbf."""
    lateral = resolved(replace(group, x=np.full_like(group.x, rows.family.back)))
    assert isinstance(lateral, Connection)  # as the group itself is
    return float(_end_grain_value(pad, lateral, which))


def _end_grain_value(pad: Pad, lateral: Connection, which: int | slice) -> Number:
    end_grain = connection_factor("end grain, lateral")
    note = "the fastener lies along or aslant to the grain of the bracket"
    C_eg = pad.take("C_eg", end_grain.value, note=note, source=end_grain.source)
    Z = lateral.joint.reference(pad, pad.take("theta", 90.0, "deg")).Z
    C_D = connection_duration(pad, lateral.group, lateral.joint, which)
    C_M, C_t = wet_service(lateral.group, lateral.joint, "lateral").value, temperature(lateral.joint).value
    return C_D * C_eg * Z * (float(C_M) * float(C_t))


def _pulled(rows: FixingRows, top: Connection) -> Iterator[Check]:
    """Somebody who pulls the nose outwards or sideways; a cover whose screws hold several times its weight."""
    loads, count = rows.loads, rows.fixings.rows[rows.top].count
    named = [(f"somebody pulls it {words}", pull / count) for words, pull in outward_pulls(rows)]
    if rows.bracket.role == "cover":
        over, weight = holding_over_weight(), sum(load.total for load in loads.loads if load.own)
        named.append(
            (f"{over.value:g} times its own weight", over.value * weight / sum(row.count for row in rows.fixings.rows))
        )
    for words, each in named:
        T = np.full(len(loads.combinations), each)
        checks = [*axial_checks(top, T), *bolt_checks(rows, T * count)]
        yield from (replace(check, what=f"{check.what}: {words}") for check in checks)


def _in_the_wood(rows: FixingRows) -> Iterator[Check]:
    """That the fasteners go through wood that is there, and stand clear of the foot."""
    family, fixings, name = rows.family, rows.fixings, rows.bracket.name
    assert fixings.fastener is not None
    id, what, bore = "bracket.through", "wood that the fasteners go through", fixings.fastener.counterbore_depth or 0.0
    for i, row in enumerate(fixings.rows):
        through, own = fixings.through_of(row) or 0.0, row.through is not None
        deep = family.depth_at(row.below_top) if own else None  # its bore is as deep as its shape leaves
        whole, there = through + (0.0 if own else bore), family.depth_at_back
        there = min(there, deep) if own and deep is not None else there
        if whole > there + (ROUNDED if own else HAIR):
            text = f"{show(whole, 'length')} with the bore, but the bracket is only {show(there, 'length')} deep there"
            yield Check.breaks_rule(id, name, what, "geometry", text, where=f"row {i + 1}" if own else "")
            break
        if not own and (deeper := _deeper_than_its_row(rows, i, through)) is not None:
            yield deeper
            break
        if (hangs := _seat_in_the_air(rows, i, through)) is not None:
            yield hangs
    if rows.alike and fixings.through is not None:
        yield from _head_in_the_wood(rows, fixings.through + bore)
    if rows.bracket.shape.foot_at is None:
        return
    D, clause = dowel_of(fixings.fastener).D, "NDS 2018 Table 12.5.1A"
    above, end = family.back - max(row.below_top for row in fixings.rows), distance("end", "along", "compression")
    full = end.value.full or end.value.least
    if D >= THIN and above < full * D - HAIR:
        id, what = "bracket.lowest_row", "lowest row above the foot"
        text = f"{show(above, 'length')} above the foot; {full:g} diameters are asked: {show(full * D, 'length')}"
        if above < end.value.least * D - HAIR:
            yield Check.breaks_rule(id, name, what, clause, text)
        else:
            number = len(fixings.rows)
            higher = f"{family.back - full * D:.4g} in"
            asked = ask_for(rows.bracket, "lowest_row", f"fixings.rows.{number}.below_top", [higher])
            yield Check.refers(id, name, what, clause, text, ask=asked)


def _deeper_than_its_row(rows: FixingRows, i: int, through: float) -> Check | None:
    """What all rows are said to go through, where the front of a sawn bracket stands nearer to the wall at this one."""
    below = rows.fixings.rows[i].below_top
    deep = rows.family.depth_at(below) if rows.family.carved else None
    if deep is None or through <= deep + ROUNDED:
        return None
    text = (
        f"through {show(through, 'length')} of wood, but the bracket is {show(deep, 'length')} deep where this row is, "
        f"{show(below, 'length')} below its top: its heads would stand in the air"
    )
    asked = ask_for(
        rows.bracket, "through", f"fixings.rows.{i + 1}.through", [f"{math.floor(100.0 * deep) / 100:g} in"]
    )
    id, what = "bracket.through", "wood that the fasteners go through"
    return Check.refers(id, rows.bracket.name, what, "geometry", text, ask=asked, where=f"row {i + 1}")


def _seat_in_the_air(rows: FixingRows, i: int, through: float) -> Check | None:
    """A washer square to its fastener, whose lower edge hangs out of a soffit that slopes away below it."""
    fastener, below = rows.fixings.fastener, rows.fixings.rows[i].below_top
    assert fastener is not None
    dowel = dowel_of(fastener)
    wide = (dowel.washer if dowel.kind in ("bolt", "lag screw") else dowel.head) or 0.0
    deep = rows.family.depth_at(below + 0.5 * wide) if rows.family.carved else None
    if deep is None or through <= deep + ROUNDED:
        return None
    text = (
        f"head or washer is {show(wide, 'length')} across and stands {show(through, 'length')} out, but at its lower "
        f"edge the wood ends {show(deep, 'length')} out: a part of it hangs in the air; bore its seat deeper"
    )
    deeper = [f"{math.floor(8.0 * deep) / 8:g} in"]
    asked = ask_for(rows.bracket, "through", f"fixings.rows.{i + 1}.through", deeper)
    id, what = "bracket.through", "seat of the head"
    return Check.refers(id, rows.bracket.name, what, "geometry", text, ask=asked, where=f"row {i + 1}")


def _head_in_the_wood(rows: FixingRows, whole: float) -> Iterator[Check]:
    """A head that would lie inside the wood, where no bore is said to lead to it."""
    fastener, family = rows.fixings.fastener, rows.family
    if fastener is None or fastener.counterbore_depth is not None or family.pocket is not None:
        return
    slack, least = judgment("head below the front of a bracket").value, judgment("wood under a head").value
    if family.carved and whole >= least:
        return  # a carver's bore behind a scroll is seldom written down
    for i, row in enumerate(rows.fixings.rows):
        deep = family.depth_at(row.below_top)
        if deep is None or whole >= deep - slack:
            continue
        text = (
            f"through {show(whole, 'length')} of wood, but the bracket is {show(deep, 'length')} deep at that height: "
            "without a bore (`counterbore`, `counterbore_depth`) its head would lie inside the wood"
        )
        field = path_of(rows.bracket, "fixings")
        bored = (
            (f"{field}.fastener.counterbore_depth", f"{deep - whole:.4g} in"),
            (f"{field}.fastener.counterbore", "1 in"),
        )  # fmt: skip
        answers = [PlausibleAnswer("a bore leads to it", bored),
                   PlausibleAnswer("all of the wood", ((f"{field}.through", f"{deep:.4g} in"),))]  # fmt: skip
        asked = ask_for(rows.bracket, "head_in_the_wood", "fixings.through", answers)
        id, what = "bracket.through", "wood that the fasteners go through"
        yield Check.refers(id, rows.bracket.name, what, "geometry", text, ask=asked, where=f"row {i + 1}")
        return


def holding_over_weight() -> Found[float]:
    """How many times its weight the screws of a cover must hold."""
    return judgment("holding over weight of a cover")
