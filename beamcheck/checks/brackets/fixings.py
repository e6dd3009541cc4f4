"""What holds a bracket: shear and pull on its rows of fasteners, the heel that presses on the wall, who answers for it.

The rules for single fasteners are those of the anchor groups: a bracket's rows become a group in its wall face, with x
down from its top edge (along an upright grain) and y across its thickness.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

import numpy as np

from ...calc.pad import Pad
from ...errors import BeamcheckError
from ...model.anchor_links import diameter
from ...model.anchors import Anchor
from ...model.brackets import Bent, Braced, Bracket, Corbel, Solid, SteelCore
from ...model.pieces import Existing, Stock
from ...units import show
from ...values.connections import THIN
from ...values.found import Found
from ...values.judgment import judgment
from ..anchors.axial import axial_checks
from ..anchors.connection import Connection
from ..anchors.factors import temperature, wet_service
from ..anchors.fastener import dowel_of
from ..anchors.group import Forces, Group
from ..anchors.joint import weak_wood
from ..anchors.lateral import lateral_checks
from ..anchors.layout import layout_checks
from ..anchors.manners.base import sense_checks
from ..anchors.manners.rated_hardware import rated_checks
from ..anchors.manners.registry import connect, manner_of
from ..beams.beam import doubts
from ..core.context import Context
from ..core.govern import Criterion, at, govern, stated
from ..core.material import WoodMaterial, is_unknown, reference_values, wood_of
from ..core.result import Check, Verdict
from ..core.seat import answered
from ..core.strength import Outcome, Section
from .body import Body
from .evidence import into_checks, rows_on_the_post
from .families.bar_fasteners import bar_checks, bar_rows
from .fixing_rows import RULE, Held, bolt_checks, each_once, heel_checks, held_of, lifts, outward_pulls
from .loads import BracketLoads

Array = np.ndarray
FULL_END = 4.0  # diameters from an end that the fasteners push away from (NDS 2018 Table 12.5.1A, memory)
UPRIGHT = 15.0  # deg: grain within so much of upright counts as along the wall; judgement, no source


def fixing_checks(
    bracket: Bracket, loads: BracketLoads, body: Body, wood: WoodMaterial | None, context: Context
) -> list[Check]:
    """Everything about what holds it on its wall, post or beam."""
    name, fixings = bracket.name, bracket.fixings
    if fixings is None:
        return [stated(name, "fixings", "load path", "refer", "what holds it there is not given (`fixings`)")]
    found = list(_behind(bracket, context))
    if lifts(loads):
        text = "some combinations lift it: its fixings are checked for a load that comes down only"
        found.append(stated(name, "uplift on the fixings", "ASCE 7-16 2.4.1", "refer", text))
    if fixings.by_hand is not None:
        text = f"{fixings.by_hand} is no fixing for a part overhead: at least one positive fastener is needed"
        return [*found, stated(name, "positive fastener", "judgement", "fails", text)]
    if isinstance(bracket.shape, SteelCore):
        found += bar_rows(bracket, bracket.shape)
    found += [*into_checks(bracket, context), *_through_the_pocket(bracket)]
    if fixings.rows and len([row for row in fixings.rows if row.slot is None]) == 0:
        text = "every row stands in slots: nothing holds it up"
        found.append(stated(name, "rows that hold it up", "judgement", "fails", text))
    if fixings.rating is None and (fixings.fastener is None or not fixings.rows):
        if fixings.confirmed_by.strip():
            return [*found, *_by_others(bracket, loads, context)]
        return [*found, stated(name, "fixings", "load path", "refer", "fasteners and rows are not described")]
    try:
        if fixings.rating is not None:
            return [*found, *_rated(bracket, loads, body, context)]
        return [*found, *_fastened(bracket, loads, body, wood, context)]
    except BeamcheckError as error:
        return [*found, stated(name, "fixings", "NDS 2018 12", "refer", str(error))]


def _group(held: Held, wood: WoodMaterial, context: Context, rows: list[int], share: float) -> Group:
    """Some rows as an anchor group in the wall face, loaded with `share` times the load."""
    bracket, fixings = held.bracket, held.fixings
    assert fixings.fastener is not None and bracket.stock is not None
    bore = fixings.fastener.counterbore_depth or 0.0
    if fixings.through is None:
        raise BeamcheckError("how much wood the fasteners go through before the wall is not given (`through`)")
    x, y = [], []
    for i in rows:
        row = fixings.rows[i]
        apart = row.apart or 0.0
        first = row.from_side if row.from_side is not None else 0.5 * (held.thickness - apart * (row.count - 1))
        for k in range(row.count):
            x.append(row.below_top)
            y.append(first + apart * k)
    other = fixings.other
    into_stock: Stock | None = None
    if other is not None and other.stock is not None:
        into_stock = context.stock(other.stock)
    into_wood = None
    if into_stock is not None and not is_unknown(into_stock):
        into_wood = wood_of(into_stock, reference_values(into_stock))
    anchor = Anchor.model_construct(
        name=bracket.name, manner="wood side", into=bracket.on, fastener=fixings.fastener, other=other,
        seasoned=fixings.seasoned, split=fixings.split,
    ).model_copy(update={"gap": fixings.gap, "arm": 0.0})  # fmt: skip
    force = np.maximum(held.loads.F, 0.0) * share
    stock = context.stock(bracket.stock)
    return Group(
        anchor, bracket.name, "left", 0.0, stock, weak_wood(stock, wood),
        Section(fixings.through + bore, held.thickness, fixings.through + bore), context.under(bracket.on), into_stock,
        into_wood, Forces(held.loads.combinations, np.zeros_like(force), force), np.array(x), np.array(y),
        f"bracket.{bracket.name}.fixings",
    )  # fmt: skip


def _by_others(bracket: Bracket, loads: BracketLoads, context: Context) -> list[Check]:
    """What somebody else answers for, with the force that comes to it."""
    assert bracket.fixings is not None
    anchor = Anchor.model_construct(
        name=bracket.name, manner="by others", confirmed_by=bracket.fixings.confirmed_by, into=bracket.on
    )
    forces = Forces(loads.combinations, np.asarray(loads.F), np.zeros_like(loads.F))
    group = Group(
        anchor, bracket.name, "left", 0.0, None, None, Section(1.0, 1.0, 1.0), context.under(bracket.on), None, None,  # type: ignore[arg-type]
        forces, np.zeros(0), np.zeros(0), f"bracket.{bracket.name}.fixings",
    )  # fmt: skip
    return manner_of(anchor).checks(group, context)


def _fastened(
    bracket: Bracket, loads: BracketLoads, body: Body, wood: WoodMaterial | None, context: Context
) -> list[Check]:
    name = bracket.name
    held = held_of(bracket, loads, body)
    found = [_pull_said(held), *rows_on_the_post(bracket, held.height, context)]
    if isinstance(bracket.shape, SteelCore):
        return [*found, *bar_checks(held, context)]
    if wood is None or bracket.stock is None:
        text = "of which wood it is made is not said (`stock`), so the fasteners have no value"
        return [*found, stated(name, "fasteners", "NDS 2018 12", "refer", text)]
    T, top = held.pulls(), held.top
    count = held.fixings.rows[top].count
    upright = _upright(bracket)
    whole, alone = _group(held, wood, context, held.tight, held.shared), _group(held, wood, context, [top], 0.0)
    groups: list[Check] = [*_in_the_wood(held)]
    pulled = connect(alone)
    if upright and held.tight:
        all_rows = connect(whole)
        groups += [*lateral_checks(all_rows), *layout_checks(all_rows)]
        groups += axial_checks(all_rows if top in held.tight else pulled, T / count)
    elif held.tight:
        for i in held.tight:
            group = _group(held, wood, context, [i], held.share)
            checks = [*_across_the_grain(held, group), *layout_checks(connect(group))]
            groups += [replace(check, where=f"row {i + 1}" if check.ratio is not None else "") for check in checks]
        groups += axial_checks(pulled, T / count)
    groups += [*sense_checks(alone), *bolt_checks(held, T)]
    if not upright and not loads.only_own_weight:
        text = (
            "the grain does not run along the wall, so the fasteners run along or aslant to it: their bearing in the "
            "bracket is taken across the grain and as in end grain, which an engineer must confirm"
        )
        groups.append(stated(name, "fasteners along the grain", "NDS 2018 11.5.2", "refer", text))
    if alone.into_wood is not None:
        groups += doubts(name, alone.into_wood)
    groups += heel_checks(held, (wood, alone.into_wood))
    groups += _held_fast(held, pulled)
    return each_once([*found, *groups])


def _upright(bracket: Bracket) -> bool:
    """Whether the grain beside the wall runs along it."""
    grain = getattr(bracket.shape, "grain", 90.0)
    return grain is not None and abs(grain - 90.0) <= UPRIGHT


def _pull_said(held: Held) -> Check:
    """The pull on the top row: a figure that the checks of the fasteners start from."""
    T = held.pulls()
    worst = int(np.argmax(T)) if T.size else 0
    pad = Pad()
    value = float(held.pull(pad, worst)) if T.size else 0.0
    text = f"the top row is pulled out of the wall with {show(value, 'force')}; all of it is taken on that row"
    return Check(
        held.bracket.name, "pull on the top row", RULE, "passes", "force", value, None, None,
        held.loads.combinations[worst].name if T.size else "", f"row {held.top + 1}", tuple(pad.steps), (text,),
    )  # fmt: skip


def _across_the_grain(held: Held, group: Group) -> list[Check]:
    """Lateral value where the fastener does not cross the grain: bearing across it, with the end-grain factor."""
    name = held.bracket.name
    criterion = Criterion(name, "lateral load on a fastener along the grain", "NDS 2018 11.5.2, 12.3", "force")
    count = float(group.x.size)
    turned = replace(group, forces=Forces(group.forces.combinations, group.forces.along, group.forces.across))
    lateral = connect(replace(turned, x=np.full_like(group.x, held.height)))

    def calculate(pad: Pad, which: int | slice) -> Outcome:
        P = pad.take("P_i", at(group.forces.along / count, which), "lbf", note="on one fastener")
        C_eg = pad.take("C_eg", 0.67, clause="NDS 2018 11.5.2", note="the fastener lies along the grain of the bracket")
        Z = lateral.joint.reference(pad, pad.take("theta", 90.0, "deg")).Z
        C_D = np.minimum(at(np.array([c.C_D for c in group.forces.combinations]), which), 1.6)
        C_D = pad.take("C_D", C_D if isinstance(which, slice) else float(C_D))
        Z_prime = C_D * C_eg * Z * _moist(lateral)
        if not isinstance(which, slice):
            pad.take("Z_prime", float(Z_prime), "lbf", note="Z times C_D, C_eg, C_M and C_t")
        return Outcome(P, Z_prime, P / Z_prime)

    found = [govern(criterion, group.forces.combinations, calculate)]
    found += [Check.breaks_rule(one.id, name, one.what, one.clause, one.text) for one in lateral.joint.faults]
    what, clause = "what is known of the joint", "NDS 2018 11.1"
    return [*found, *(group.refers("anchor.joint", what, clause, open_) for open_ in lateral.joint.doubts)]


def _moist(lateral: Connection) -> float:
    """C_M times C_t."""
    return float(wet_service(lateral.group, lateral.joint, "lateral").value) * float(temperature(lateral.joint).value)


def _held_fast(held: Held, top: Connection) -> Iterator[Check]:
    """Somebody who pulls the nose outwards or sideways; a cover whose screws hold several times its weight."""
    loads, count = held.loads, held.fixings.rows[held.top].count
    named = [(f"somebody pulls it {words}", pull / count) for words, pull in outward_pulls(held)]
    if held.bracket.role == "cover":
        over, weight = holding_over_weight(), sum(load.total for load in loads.loads if load.own)
        named.append((over.reason, over.value * weight / sum(row.count for row in held.fixings.rows)))
    for words, each in named:
        T = np.full(len(loads.combinations), each)
        checks = [*axial_checks(top, T), *bolt_checks(held, T * count)]
        yield from (replace(check, what=f"{check.what}: {words}") for check in checks)


def _in_the_wood(held: Held) -> Iterator[Check]:
    """That the fasteners go through wood that is there, and stand clear of the foot."""
    shape, fixings, name = held.bracket.shape, held.fixings, held.bracket.name
    assert fixings.fastener is not None and fixings.through is not None
    what, whole = "wood that the fasteners go through", fixings.through + (fixings.fastener.counterbore_depth or 0.0)
    there = shape.wall_leg if isinstance(shape, Braced) else held.loads.projection
    if isinstance(shape, Corbel):
        there += shape.seat
    if whole > there + 1e-6:
        text = f"{show(whole, 'length')} with the bore, but the bracket is only {show(there, 'length')} deep there"
        yield stated(name, what, "geometry", "fails", text)
    if isinstance(shape, Bent):
        text = "an arc touches the wall at its foot only: what keeps the foot from turning is for an engineer"
        yield stated(name, "foot of the arc", "statics", "refer", text)
        return
    D = dowel_of(fixings.fastener).D
    above = held.height - max(row.below_top for row in fixings.rows)
    if D >= THIN and above < FULL_END * D - 1e-6:
        text = (
            f"{show(above, 'length')} above the foot; {FULL_END:g} diameters are asked: {show(FULL_END * D, 'length')}"
        )
        verdict: Verdict = "fails" if above < 0.5 * FULL_END * D - 1e-6 else "refer"
        yield stated(name, "lowest row above the foot", "NDS 2018 Table 12.5.1A", verdict, text)


def _through_the_pocket(bracket: Bracket) -> Iterator[Check]:
    """Fasteners that come out in the pocket hold nothing."""
    shape, fixings = bracket.shape, bracket.fixings
    if not isinstance(shape, Solid) or shape.pocket is None or fixings is None:
        return
    try:
        half = 0.5 * diameter(fixings.fastener.kind, fixings.fastener.size) if fixings.fastener is not None else 0.0
    except BeamcheckError:
        half = 0.0  # the size is said to be unknown elsewhere
    pocket, middle = shape.pocket, 0.5 * shape.thickness
    aside = 0.5 * (pocket.width if pocket.width is not None else shape.thickness) + half
    for i, row in enumerate(fixings.rows, start=1):
        spread = (row.apart or 0.0) * (row.count - 1)
        first = row.from_side if row.from_side is not None else middle - 0.5 * spread
        beside = min(abs(first + (row.apart or 0.0) * k - middle) for k in range(row.count))
        if pocket.top - half < row.below_top < pocket.top + pocket.height + half and beside < aside:
            text = (
                f"the pocket is cut from {show(pocket.top, 'length')} to {show(pocket.top + pocket.height, 'length')} "
                f"below the top edge: the row at {show(row.below_top, 'length')} comes out in it and holds nothing"
            )
            yield stated(bracket.name, "fasteners through the pocket", "geometry", "fails", text, where=f"row {i}")


def _rated(bracket: Bracket, loads: BracketLoads, body: Body, context: Context) -> list[Check]:
    """Fixings with published loads: down, and out of the wall."""
    assert bracket.fixings is not None
    if not bracket.fixings.rows:
        text = "the rows are not described, so the pull on the top one is not known"
        return [stated(bracket.name, "rated load", "published rating", "refer", text)]
    held = held_of(bracket, loads, body)
    anchor = Anchor.model_construct(
        name=bracket.name, manner="rated hardware", rating=bracket.fixings.rating, into=bracket.on
    )
    stock = context.stock(bracket.stock) if bracket.stock is not None else None
    forces = Forces(loads.combinations, np.maximum(loads.F, 0.0), held.pulls())
    group = Group(
        anchor, bracket.name, "left", 0.0, stock, None, Section(1.0, 1.0, 1.0), context.under(bracket.on), None, None,  # type: ignore[arg-type]
        forces, np.zeros(0), np.zeros(0), f"bracket.{bracket.name}.fixings",
    )  # fmt: skip
    return [_pull_said(held), *rated_checks(group), *heel_checks(held, (None, None))]


def _behind(bracket: Bracket, context: Context) -> Iterator[Check]:
    """Who answers for what it is fixed to."""
    under = context.under(bracket.on)
    if isinstance(under, Existing):
        yield answered(bracket.name, f"what {bracket.name} is fixed to", under)


def inspection_of(bracket: Bracket) -> list[str]:
    """What must be seen before it is covered."""
    fixings, found = bracket.fixings, []
    if fixings is not None and fixings.rows:
        f = fixings.fastener
        what = f"{f.size} {f.kind}" if f is not None else "fastener"
        places = ", ".join(f"{row.count} at {show(row.below_top, 'length')}" for row in fixings.rows)
        found.append(f"each {what} in place and tight: {places} below the top edge; no split along them")
        if any(row.slot for row in fixings.rows):
            found.append("screws in slots snug, not clamped: the bracket must be able to slide")
    if isinstance(bracket.shape, (Solid, Corbel)):
        found.append("the direction of the grain, and no knot, check or repair where it is thinnest")
    if bracket.near is not None and bracket.role != "carries":
        gap = "as large as the calculation asks" if bracket.near.gap is None else show(bracket.near.gap, "length")
        found.append(f"the gap under {bracket.near.beam}, {gap}, free of paint, plaster and packing")
    if bracket.cover is not None and bracket.cover.hides:
        found.append(f"{', '.join(bracket.cover.hides)} inspected and photographed before this cover closes it")
    return found


def holding_over_weight() -> Found[float]:
    """How many times its weight the screws of a cover must hold."""
    return judgment("holding over weight of a cover")
