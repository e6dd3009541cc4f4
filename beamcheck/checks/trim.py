"""Trim: it never carries. Its own weight on what holds it, and somebody who hangs on it."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

import numpy as np

from ..analysis.carried import Arrival
from ..analysis.loading import Applied
from ..analysis.straight import Held, Straight, solve_straight
from ..errors import BeamcheckError
from ..model.anchors import Anchor
from ..model.brackets import Trim
from ..model.pieces import Existing
from ..units import show
from ..values.brackets import bracket_limit
from ..values.lumber import read_size
from .anchor_axial import axial_checks
from .anchor_geometry import geometry_checks
from .anchor_group import Forces, Group
from .anchor_lateral import lateral_checks
from .anchor_sense import sense_checks
from .anchor_wood import weak_wood
from .bracket_cover import accidental_checks
from .bracket_loads import ACCIDENTAL, STIFF
from .bracket_words import fixing_rows
from .context import Around
from .demand import stated
from .draft import GENERAL, Draft, Handed, Reactions, arrival_doubts
from .result import Check, PieceResult
from .strength import Section
from .under import answered
from .wood import is_unknown, reference_values, rows_to_screen, wood_of

LONG = 12.0  # in: where along it its weight acts does not matter to its fixings
ROOMY = 24.0  # in: a board's length and breadth are not asked for; the layout in it is the carpenter's


def trim_result(trim: Trim, around: Around) -> tuple[PieceResult, Reactions]:
    """Check a piece of trim: what holds it up. What is put on it fails by its role."""
    draft = Draft(trim.name, "trim", f"{trim.what or 'trim'}, {show(trim.weight, 'force')}, declared {trim.role}")
    draft.inputs = [
        ("role", trim.role), ("fixed to", trim.on), ("own weight", show(trim.weight, "force")), ("hangs", trim.hangs),
        *fixing_rows(trim.fixings),
    ]  # fmt: skip
    draft.assumptions = list(GENERAL[:1])
    loads = [Applied("D", 0.0, 0.0, P=trim.weight, what="own weight", own=True)]
    if isinstance(trim.accidental, float) and trim.accidental > 0.0:
        loads.append(Applied("L", 0.0, 0.0, P=trim.accidental, what=ACCIDENTAL))
    straight = solve_straight(LONG, [Held(0.0, "fixed")], loads, depth=LONG, EI=STIFF, GA_s=STIFF)
    draft.checks = [*arrival_doubts(trim.name, around), *_fixings(trim, straight, around)]
    draft.checks += accidental_checks(trim.name, trim.accidental, trim.accidental_from)
    by_kind, forces = straight.reaction_by_kind(0), straight.reactions(0)
    row = Handed(trim.on, by_kind, float(np.max(forces)), float(np.min(forces)))
    result = draft.done()
    finding = "decoration only" if result.verdict == "passes" else "not enough information"
    return replace(result, finding=finding if result.verdict != "fails" else "decoration only"), Reactions(
        trim.name, (row,), ((trim.on, _arrival(trim, by_kind)),)
    )


def _arrival(trim: Trim, by_kind: dict[str, tuple[float, float]]) -> Arrival:
    """Its weight on what it is fixed to; along a beam its place is not asked for, so it is taken at midspan."""
    return Arrival(trim.name, by_kind, applied="below" if trim.hangs == "below" else "side")


def _fixings(trim: Trim, straight: Straight, around: Around) -> Iterator[Check]:
    name, fixings, under = trim.name, trim.fixings, around.under(trim.on)
    if isinstance(under, Existing):
        yield answered(name, f"what {name} is fixed to", under)
    if fixings is None:
        yield stated(name, "fixings", "load path", "refer", "what holds it there is not given (`fixings`)")
        return
    if fixings.by_hand is not None:
        text = f"{fixings.by_hand} is no fixing for a part overhead: at least one positive fastener is needed"
        yield stated(name, "positive fastener", "judgement", "fails", text)
        return
    if fixings.fastener is None or not fixings.rows or fixings.other is None or fixings.other.stock is None:
        text = "fasteners, rows and the wood that they go into (`other` with its stock) are not all described"
        yield stated(name, "fixings", "NDS 2018 12", "refer", text)
        return
    if fixings.through is None or trim.stock is None:
        text = "the wood of the trim (`stock`) and how much of it the fasteners go through (`through`) are not given"
        yield stated(name, "fixings", "NDS 2018 12", "refer", text)
        return
    try:
        yield from _fastened(trim, straight, around)
    except BeamcheckError as error:
        yield stated(name, "fixings", "NDS 2018 12", "refer", str(error))


def _fastened(trim: Trim, straight: Straight, around: Around) -> Iterator[Check]:
    """All its weight, several times over, on its fasteners: pulled where it hangs, sheared on a face."""
    fixings = trim.fixings
    assert fixings is not None and fixings.other is not None and fixings.other.stock is not None
    assert fixings.through is not None and trim.stock is not None
    over = bracket_limit("holding over weight of a cover")
    forces = np.maximum(straight.reactions(0), over.value * trim.weight)
    stock, behind = around.stock(trim.stock), around.stock(fixings.other.stock)
    wood = wood_of(stock, rows_to_screen(stock)[0] if is_unknown(stock) else reference_values(stock))
    into = None if is_unknown(behind) else wood_of(behind, reference_values(behind))
    count = sum(row.count for row in fixings.rows)
    x = np.cumsum([ROOMY] * count)  # one row, far apart
    bore = fixings.fastener.counterbore_depth or 0.0 if fixings.fastener is not None else 0.0
    b = fixings.through + bore
    anchor = Anchor.model_construct(
        name=trim.name, manner="wood side", into=trim.on, fastener=fixings.fastener, other=fixings.other,
        seasoned=fixings.seasoned, split=fixings.split,
    ).model_copy(update={"gap": fixings.gap, "arm": 0.0})  # fmt: skip
    none = np.zeros_like(forces)
    pulled = trim.hangs == "below"
    group = Group(
        anchor, trim.name, "left", 0.0, stock, weak_wood(stock, wood), Section(b, max(read_size(stock.size).d, b), b),
        around.under(trim.on), behind, into, Forces(straight.combinations, none, none if pulled else forces), x,
        np.full(count, 0.5 * max(read_size(stock.size).d, b)),
    )  # fmt: skip
    note = f"{over.reason}; {show(over.value * trim.weight, 'force')}"
    yield stated(trim.name, "weight counted", "judgement", "passes", note)
    checks = axial_checks(group, forces / count) if pulled else [*lateral_checks(group), *geometry_checks(group)]
    yield from [*checks, *sense_checks(group)]
