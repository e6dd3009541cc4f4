"""Trim: it never carries. Its own weight on what holds it, and somebody who hangs on it."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

import numpy as np

from ...analysis.beams.load_cases import Applied
from ...analysis.beams.member_loads import TransferredLoad
from ...analysis.beams.solved_beam import BeamSupport, SolvedBeam, solve_beam
from ...calc.pad import Pad
from ...errors import BeamcheckError
from ...formulas.steel import bolts as bolts
from ...formulas.wood.section import round_area
from ...model.anchors import Anchor
from ...model.brackets import Trim
from ...model.pieces import Existing
from ...units import show
from ...values.fasteners import bolt
from ...values.judgment import judgment
from ...values.lumber import read_size
from ...values.steels import bolt_steel
from ..anchors.axial import axial_checks
from ..anchors.connection import Connection
from ..anchors.group import Forces, Group
from ..anchors.joint import weak_wood
from ..anchors.lateral import lateral_checks
from ..anchors.layout import layout_checks
from ..anchors.manners.base import sense_checks
from ..anchors.manners.registry import connect
from ..beams.beam import doubts
from ..core.context import Context
from ..core.draft import GENERAL, Draft, Reactions, SupportForces, transfer_doubts
from ..core.govern import Criterion, at, govern, stated
from ..core.material import is_unknown, reference_values, rows_to_screen, wood_of
from ..core.result import Check, PieceResult
from ..core.seat import answered
from ..core.stated_capacity import enough
from ..core.strength import Outcome, Section
from .cover import accidental_checks
from .evidence import into_checks
from .loads import ACCIDENTAL, STIFF
from .words import fixing_rows

LONG = 12.0  # in: where along it its weight acts does not matter to its fixings
HOLES = "NDS 2018 11.1"
ROOMY = 24.0  # in: a board's length and breadth are not asked for; the layout in it is the carpenter's


def trim_result(trim: Trim, context: Context) -> tuple[PieceResult, Reactions]:
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
    straight = solve_beam(LONG, [BeamSupport(0.0, "fixed")], loads, depth=LONG, EI=STIFF, GA_s=STIFF)
    draft.checks = [*transfer_doubts(trim.name, context), *_fixings(trim, straight, context)]
    draft.checks += accidental_checks(trim.name, trim.accidental, trim.accidental_from)
    by_kind, forces = straight.reaction_by_kind(0), straight.reactions(0)
    row = SupportForces(trim.on, by_kind, float(np.max(forces)), float(np.min(forces)))
    result = draft.done()
    finding = "decoration only" if result.verdict == "passes" else "not enough information"
    return replace(result, finding=finding if result.verdict != "fails" else "decoration only"), Reactions(
        trim.name, (row,), ((trim.on, _transfer(trim, by_kind)),)
    )


def _transfer(trim: Trim, by_kind: dict[str, tuple[float, float]]) -> TransferredLoad:
    """Its weight on what it is fixed to; along a beam its place is not asked for, so it is taken at midspan."""
    return TransferredLoad(trim.name, by_kind, applied="below" if trim.hangs == "below" else "side")


def _fixings(trim: Trim, straight: SolvedBeam, context: Context) -> Iterator[Check]:
    name, fixings, under = trim.name, trim.fixings, context.under(trim.on)
    if isinstance(under, Existing):
        yield answered(name, f"what {name} is fixed to", under)
        yield from enough(name, f"what {under.name} takes", under, straight.combinations, straight.reactions(0))
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
    yield from into_checks(trim, context)
    try:
        yield from _fastened(trim, straight, context)
    except BeamcheckError as error:
        yield stated(name, "fixings", "NDS 2018 12", "refer", str(error))


def _fastened(trim: Trim, straight: SolvedBeam, context: Context) -> Iterator[Check]:
    """All its weight, several times over, on its fasteners: pulled where it hangs, sheared on a face."""
    fixings = trim.fixings
    assert fixings is not None and fixings.other is not None and fixings.other.stock is not None
    assert fixings.through is not None and trim.stock is not None
    over = judgment("holding over weight of a cover")
    forces = np.maximum(straight.reactions(0), over.value * trim.weight)
    stock, behind = context.stock(trim.stock), context.stock(fixings.other.stock)
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
        context.under(trim.on), behind, into, Forces(straight.combinations, none, none if pulled else forces), x,
        np.full(count, 0.5 * max(read_size(stock.size).d, b)), f"trim.{trim.name}.fixings",
    )  # fmt: skip
    note = f"{over.reason}; {show(over.value * trim.weight, 'force')}"
    yield stated(trim.name, "weight counted", "judgement", "passes", note)
    connection = connect(group)
    if pulled:
        yield from axial_checks(connection, forces / count)
        yield from _pulled(group, forces / count)
    else:
        yield from [*lateral_checks(connection), *layout_checks(connection)]
    yield from sense_checks(group)
    if into is not None:
        yield from doubts(trim.name, into)
    if isinstance(trim.accidental, float):
        yield from _on_one(trim, connection, straight, count)


def _pulled(group: Group, T: np.ndarray) -> Iterator[Check]:
    """What pull asks beside withdrawal: wood that is not split along the screws, and the steel of bolts."""
    anchor, name = group.anchor, group.anchor.name
    fastener = anchor.fastener
    if anchor.split != "none seen":
        seen = {None: "is not said (`split`)", "not looked at": "nobody looked"}.get(anchor.split, "there are some")
        text = (
            f"checks and splits along the fasteners: {seen}; one in a split holds little or nothing when it is pulled"
        )
        yield stated(name, "checks and splits at the holes", HOLES, "refer", text)
    if fastener is None or fastener.kind != "bolt":
        return
    what = "pull on the bolts"
    if not fastener.steel:
        text = "the grade of the bolts is not given (`fastener.steel`): their steel cannot be checked"
        yield stated(name, what, bolts.STRENGTH, "refer", text)
        return
    grade, D = bolt_steel(fastener.steel), bolt(fastener.size).value.D

    def calculate(pad: Pad, which: int | slice) -> Outcome:
        pull = pad.take("T", at(T, which), "lbf", note="on one bolt")
        F_nt = pad.take("F_nt", grade.value.F_nt, "psi", note=grade.reason, source=grade.source)
        T_a = pad(bolts.bolt_tension, F_nt=F_nt, A_b=pad(round_area, symbol="A_b", D=D))
        return Outcome(pull, T_a, pull / T_a)

    yield govern(Criterion(name, what, bolts.STRENGTH, "force"), group.forces.combinations, calculate)


def _on_one(trim: Trim, connection: Connection, straight: SolvedBeam, count: int) -> Iterator[Check]:
    """Somebody hangs beside one fastener, which then has all of that force; an even share is not to be counted on."""
    assert isinstance(trim.accidental, float)
    group = connection.group
    all_of_it = straight.reactions(0)
    hung = np.maximum(all_of_it - trim.weight, 0.0)  # of that person, as far as the combination counts it
    one = (all_of_it - hung) / count + hung
    if trim.hangs == "below":
        checks = [*axial_checks(connection, one), *(check for check in _pulled(group, one) if check.ratio is not None)]
    else:
        alone = replace(
            group, x=group.x[:1], y=group.y[:1],
            forces=replace(group.forces, across=one),
        )  # fmt: skip
        checks = lateral_checks(connect(alone))
    for check in checks:
        if check.ratio is not None and check.verdict != "passes":
            note = f"all of {show(trim.accidental, 'force')} on one fastener: where somebody hangs on it is not known"
            yield replace(check, what=f"{check.what}: {ACCIDENTAL}", verdict="refer", notes=(note, *check.notes))
