"""In which order a bracket is put together and put up, from what the job says of it: common practice, no source."""

from __future__ import annotations

from collections.abc import Iterator

from ...model.bracket_shapes import Braced, Solid, SteelCore
from ...model.brackets import Bracket
from ...units import show, show_inches
from ..core.pictures import Table

TITLE = "Order of assembly"
NOTE = "common practice, no source; what is to be photographed is on the shop sheet"


def assembly_table(bracket: Bracket) -> Table | None:
    """One step a row; nothing where the shape has no parts and nothing fixes it."""
    steps = [*_made(bracket), *_put_up(bracket)]
    if not steps:
        return None
    return Table(TITLE, ("step", "what is done"), tuple((str(n), one) for n, one in enumerate(steps, 1)), NOTE)


def _made(bracket: Bracket) -> Iterator[str]:
    shape = bracket.shape
    if isinstance(shape, Braced):
        yield "Cut wall leg, top leg and brace; no knot where they are joined."
        if shape.legs_joined:
            yield f"Join the legs: {shape.legs_joined}."
        if shape.joints == "housed" and shape.housing is not None:
            left = f"; {show(shape.behind_housing, 'length')} of wood stay behind" if shape.behind_housing else ""
            yield f"House the brace {show(shape.housing, 'length')} into both legs{left}. Photograph the housings."
        yield "Put it together dry on a bench: the brace bears on the whole of each end."
    elif isinstance(shape, SteelCore):
        yield "Drill and bend the steel before the wood is closed around it; photograph the marking of its steel."
    elif isinstance(shape, Solid):
        yield "Lay the template on the board with its arrow along the grain; cut the profile."
        if shape.pocket is not None:
            yield f"Cut the pocket {show(shape.pocket.depth, 'length')} deep from the wall face."


def _put_up(bracket: Bracket) -> Iterator[str]:
    fixings = bracket.fixings
    if fixings is None or fixings.fastener is None or not fixings.rows:
        return
    fastener = fixings.fastener
    if fastener.counterbore is not None and fastener.counterbore_depth is not None:
        across, deep = show(fastener.counterbore, "length"), show(fastener.counterbore_depth, "length")
        yield f"Bore for the heads, {across} across and {deep} deep, then drill as in the table of holes."
    rows = ", ".join(f"{row.count} at {show_inches(row.below_top)} below the top" for row in fixings.rows)
    what = f"{fastener.size} {fastener.kind}s"
    yield f"Fix it to {bracket.on} with {what}: {rows}. Photograph each row before it is covered."
    if any(row.slot is not None for row in fixings.rows):
        yield "In the slots drive the screws snug, not tight, so that it can slide."
    near = bracket.near
    if near is not None and near.gap:
        yield f"Measure the gap to {near.beam}, {show(near.gap, 'length')}, and leave it open."
    if bracket.role == "carries":
        yield "Put no load on it before the engineer has signed."
