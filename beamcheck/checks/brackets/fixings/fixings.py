"""What holds a bracket: who answers for what is behind, rows of fasteners, published loads, or others."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

import numpy as np

from ....calc.pad import Pad
from ....errors import BeamcheckError
from ....model.anchors.anchor import Anchor
from ....model.brackets.bracket import Bracket, Trim
from ....model.existing import Existing
from ....model.fields.evidence import vouched
from ....model.links.hardware import diameter
from ....units import show
from ....values.judgment import judgment
from ....values.refused import in_trade_words
from ...anchors.group import Forces, Group
from ...anchors.manners.rated_hardware import rated_checks
from ...anchors.manners.registry import manner_of
from ...core.asking.question import PlausibleAnswer
from ...core.context import Context
from ...core.result import Check
from ...core.seat import answered
from ...core.wood.material import WoodMaterial
from ...core.wood.strength import Section
from ..asking import ask_engineer, ask_for, path_of, sentence
from ..body import Body
from ..evidence import into_checks, rows_on_the_post
from ..family import Family
from ..loads import BracketLoads
from .bar_fasteners import bar_checks
from .rows import ANCHORED, RULE, FixingRows, each_once, heel_checks, rows_of
from .wood_fasteners import wood_checks

Array = np.ndarray


def fixing_checks(
    family: Family[Any], loads: BracketLoads, body: Body, wood: WoodMaterial | None, context: Context
) -> list[Check]:
    """Everything about what holds it on its wall, post or beam."""
    bracket, name, fixings = family.bracket, family.bracket.name, family.bracket.fixings
    if fixings is None:
        return [not_given(bracket)]
    found, under = [], context.under(bracket.on)
    if isinstance(under, Existing):
        found.append(answered(name, f"what {name} is fixed to", under))
    if loads.lifts:
        text = "some combinations lift it: its fixings are checked for a load that comes down only"
        what, clause = "uplift on the fixings", "ASCE 7-16 2.4.1"
        found.append(family.doubt("bracket.fixings_lifted", what, clause, text, "lifted", loads))
    if fixings.by_hand is not None:
        return [*found, by_hand(bracket, fixings.by_hand)]
    found += [*family.row_doubts(), *into_checks(bracket, context), *_through_the_pocket(family)]
    if fixings.rows and all(row.slot is not None for row in fixings.rows):
        text = "every row stands in slots: nothing holds it up"
        found.append(Check.breaks_rule("bracket.rows_tight", name, "rows that hold it up", "judgment", text))
    found += _one_alone(family)
    if fixings.rating is None and (fixings.fastener is None or not fixings.rows):
        if vouched(fixings.confirmed_by, "structure"):
            return [*found, *_by_others(bracket, fixings.confirmed_by, loads, context)]
        return [*found, not_given(bracket, "fasteners and rows are not described")]
    if fixings.rating is None and fixings.other is None and getattr(under, "material", None) in ANCHORED:
        assert isinstance(under, Existing)
        return [*found, _by_their_report(bracket, under)]
    try:
        if fixings.rating is not None:
            return [*found, *_rated(family, loads, body, context)]
        return [*found, *_fastened(family, loads, body, wood, context)]
    except BeamcheckError as error:
        text = in_trade_words(error)
        asked = ask_engineer(bracket, "fixings_outside", why=sentence(text), forces=loads.most)
        return [*found, Check.refers("bracket.fixings_outside", name, "fixings", "NDS 2018 12", text, ask=asked)]


def _by_their_report(bracket: Bracket, under: Existing) -> Check:
    """Fasteners in brick, stone or concrete: no equation of the wood standard gives their value."""
    text = f"{under.name} is of {under.material}: what an anchor takes there stands in its report (`rating`)"
    asked = ask_for(bracket, "anchor_report", "fixings.rating", wall=under.name, made=str(under.material))
    return Check.refers("bracket.fixings_described", bracket.name, "fixings", "published rating", text, ask=asked)


def _one_alone(family: Family[Any]) -> Iterator[Check]:
    """Nothing stands in for a single fastener of a bracket that carries."""
    bracket, fixings = family.bracket, family.bracket.fixings
    least = judgment("fewest fasteners of a bracket that carries")
    if bracket.role != "carries" or fixings is None or not fixings.rows or fixings.fastener is None:
        return
    count = sum(row.count for row in fixings.rows if row.slot is None)
    if 0 < count < least.value and not family.stands_on_wood:
        text = "one fastener alone: the bracket turns about it, and nothing stands in for it; two at least"
        what = "fasteners that hold it up"
        yield Check.breaks_rule("bracket.rows_tight", bracket.name, what, "judgment", text)


def _by_others(bracket: Bracket, confirmed_by: str, loads: BracketLoads, context: Context) -> list[Check]:
    """What somebody else answers for, with the force that comes to it."""
    anchor = Anchor.model_construct(name=bracket.name, manner="by others", confirmed_by=confirmed_by, into=bracket.on)
    forces = Forces(loads.combinations, np.asarray(loads.F), np.zeros_like(loads.F))
    return manner_of(anchor).checks(_bare_group(anchor, bracket, forces, context), context)


def _bare_group(anchor: Anchor, bracket: Bracket, forces: Forces, context: Context) -> Group:
    """A group whose fasteners are not worked out here."""
    stock = context.stock(bracket.stock) if bracket.stock is not None else None
    return Group(
        anchor, bracket.name, "left", 0.0, stock, None, Section(1.0, 1.0, 1.0), context.under(bracket.on), None, None,  # type: ignore[arg-type]
        forces, np.zeros(0), np.zeros(0), path_of(bracket, "fixings"),
    )  # fmt: skip


def not_given(piece: Bracket | Trim, text: str = "what holds it there is not given (`fixings`)") -> Check:
    """That fixings are not described."""
    asked = ask_for(piece, "fixings", "fixings")
    return Check.refers("bracket.fixings_described", piece.name, "fixings", "load path", text, ask=asked)


def by_hand(piece: Bracket | Trim, held: str) -> Check:
    """Friction, magnets, glue."""
    text = f"{held} is no fixing for a part overhead: at least one positive fastener is needed"
    return Check.breaks_rule("bracket.positive_fastener", piece.name, "positive fastener", "judgment", text)


def _fastened(
    family: Family[Any], loads: BracketLoads, body: Body, wood: WoodMaterial | None, context: Context
) -> list[Check]:
    rows = rows_of(family, loads, body)
    found = [_pull_said(rows), *rows_on_the_post(family.bracket, family.back, context)]
    if not family.bracket.shape.of_wood:
        return [*found, *bar_checks(rows, context)]
    assert wood is not None
    return each_once([*found, *family.fixing_doubts(), *wood_checks(rows, wood, context)])


def _pull_said(rows: FixingRows) -> Check:
    """The pull on the top row: a figure that the checks of the fasteners start from."""
    T = rows.pulls()
    worst = int(np.argmax(T)) if T.size else 0
    pad = Pad()
    value = float(rows.pull(pad, worst)) if T.size else 0.0
    text = f"the top row is pulled out of the wall with {show(value, 'force')}; all of it is taken on that row"
    return Check(
        rows.bracket.name, "pull on the top row", RULE, "passes", "force", value,
        combination=rows.loads.combinations[worst].name if T.size else "", where=f"row {rows.top + 1}",
        steps=tuple(pad.steps), notes=(text,), id="bracket.pull",
    )  # fmt: skip


def _through_the_pocket(family: Family[Any]) -> Iterator[Check]:
    """Fasteners that come out in the pocket hold nothing."""
    bracket, fixings, pocket = family.bracket, family.bracket.fixings, family.pocket
    if pocket is None or fixings is None:
        return
    try:
        half = 0.5 * diameter(fixings.fastener.kind, fixings.fastener.size) if fixings.fastener is not None else 0.0
    except BeamcheckError:
        half = 0.0  # the size is said to be unknown elsewhere
    thickness = bracket.shape.side_to_side
    middle = 0.5 * thickness
    aside = 0.5 * (pocket.width if pocket.width is not None else thickness) + half
    for i, row in enumerate(fixings.rows, start=1):
        beside = min(abs(place - middle) for place in row.places(thickness))
        if pocket.top - half < row.below_top < pocket.top + pocket.height + half and beside < aside:
            text = (
                f"the pocket is cut from {show(pocket.top, 'length')} to {show(pocket.top + pocket.height, 'length')} "
                f"below the top edge: the row at {show(row.below_top, 'length')} comes out in it and holds nothing"
            )
            id, what = "bracket.row_in_pocket", "fasteners through the pocket"
            yield Check.breaks_rule(id, bracket.name, what, "geometry", text, where=f"row {i}")


def _rated(family: Family[Any], loads: BracketLoads, body: Body, context: Context) -> list[Check]:
    """Fixings with published loads: down, and out of the wall."""
    bracket = family.bracket
    assert bracket.fixings is not None
    if not bracket.fixings.rows:
        text = "the rows are not described, so the pull on the top one is not known"
        row = PlausibleAnswer("one row, 2 in down", ((path_of(bracket, "fixings.rows"), [ROW]),))
        asked = ask_for(bracket, "rows", "fixings.rows", [row])
        return [Check.refers("bracket.rows", bracket.name, "rated load", "published rating", text, ask=asked)]
    rows = rows_of(family, loads, body)
    anchor = Anchor.model_construct(
        name=bracket.name, manner="rated hardware", rating=bracket.fixings.rating, into=bracket.on
    )
    forces = Forces(loads.combinations, np.maximum(loads.F, 0.0), rows.pulls())
    rated = rated_checks(_bare_group(anchor, bracket, forces, context))
    return [_pull_said(rows), *rated, *heel_checks(rows, (None, None))]


ROW = {"below_top": "2 in", "count": 1}


def inspection_of(family: Family[Any]) -> list[str]:
    """What must be seen before it is covered."""
    bracket, fixings, found = family.bracket, family.bracket.fixings, []
    if fixings is not None and fixings.rows:
        f = fixings.fastener
        what = f"{f.size} {f.kind}" if f is not None else "fastener"
        places = ", ".join(f"{row.count} at {show(row.below_top, 'length')}" for row in fixings.rows)
        found.append(f"each {what} in place and tight: {places} below the top edge; no split along them")
        if any(row.slot for row in fixings.rows):
            found.append("screws in slots snug, not clamped: the bracket must be able to slide")
    if bracket.shape.sawn:
        found.append("the direction of the grain, and no knot, check or repair where it is thinnest")
    if family.stands_on_wood:
        found.append("the foot of the block tight on the wood of its dap, all over")
    if bracket.near is not None and bracket.role != "carries":
        gap = "as large as the calculation asks" if bracket.near.gap is None else show(bracket.near.gap, "length")
        found.append(f"the gap under {bracket.near.beam}, {gap}, free of paint, plaster and packing")
    if bracket.cover is not None and bracket.cover.hides:
        found.append(f"{', '.join(bracket.cover.hides)} inspected and photographed before this cover closes it")
    return found
