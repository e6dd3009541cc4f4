"""Rows across the grain of wood that moves, kept apart by steel, concrete or wood that runs another way."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from ....model.stock import Stock
from ....units import show
from ....values.judgment import judgment
from ...core.asking.question import ask
from ...core.result import Check
from ...core.unsaid import unsaid_of
from ...core.wood.material import WoodMaterial
from ...movement.parts import Part as Moves
from ...movement.rows import row_moves
from ..group import Group
from ..joint import HAIR, Part
from .connection import Connection

ID, CLAUSE = "anchor.rows_move", "NDS 2018 12.5.1.3; Wood Handbook ch. 13"
ANOTHER_WAY = frozenset({"across", "turned"})


def moving_checks(connection: Connection) -> Iterator[Check]:
    """Every wood of the joint whose rows are spread across its grain, against what keeps them apart."""
    group, joint = connection.group, connection.joint
    if not joint.dowel.large:
        return  # thinner ones bend with the wood
    for part in joint.woods:
        other = joint.side if part is joint.main else joint.main
        apart = float(np.ptp(group.x if part.grain == "across" else group.y))
        stock = group.stock if part.is_held else part.stock
        wood = group.wood if part.is_held else part.wood
        if part.end_grain or part.grain == "turned" or stock is None or wood is None or apart <= HAIR:
            continue  # what is turned has a group of its own
        if other.material == "wood" and ANOTHER_WAY.isdisjoint((part.grain, other.grain)):
            continue  # both move alike
        yield _rows(group, part, stock, wood, apart)


def _rows(group: Group, part: Part, stock: Stock, wood: WoodMaterial, apart: float) -> Check:
    """Within 5 in the standard lets rows in dry wood be; all else is asked once a hole does not give so much.

    Slots are no answer of the carpenter: a row in slots no longer carries across the grain, so an engineer counts anew.
    """
    what, play = f"rows across the grain of the {part.name}", judgment("play of a hole").value
    described = [one for one in group.described if one.across >= apart - HAIR]
    if described:
        text = f"{show(apart, 'length')} between the outer rows: judged as {described[0].name!r}"
        return Check.keeps_rule(ID, group.name, what, CLAUSE, text, where=part.name)
    moves = row_moves(group.name, stock, apart, group.air)
    text = f"{_words(moves, apart)}; a hole gives {show(play, 'small length')}"
    if max(moves.shrinks, moves.swells) <= play:
        return Check.keeps_rule(ID, group.name, what, CLAUSE, text, where=part.name)
    if wood.dry:
        text = f"{text}; within 5 in, in dry wood, the standard lets it be: tighten them again after a heating season"
        return Check.keeps_rule(ID, group.name, what, CLAUSE, text, where=part.name)
    text = f"{text}, and what keeps them apart does not: it splits along a row"
    if stock.metered is None:  # a meter may show that it is dry already
        asked = next(unsaid_of(stock), None) or ask("moisture", stock.name, f"stock.{stock.name}.measured_moisture")
    else:
        asked = group.asks("rows_move")
    return Check.refers(ID, group.name, what, CLAUSE, text, ask=asked, where=part.name)


def _words(moves: Moves, apart: float) -> str:
    more, way = (moves.shrinks, "shrink") if moves.shrinks >= moves.swells else (moves.swells, "swell")
    return f"{show(apart, 'length')} between the outer rows {way} by {show(more, 'small length')}, {moves.words}"
