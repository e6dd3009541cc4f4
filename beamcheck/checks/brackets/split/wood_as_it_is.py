"""What strips cannot know of a piece of wood: that it dries, which checks it has, whether it is glued up of boards."""

from __future__ import annotations

import math
from collections.abc import Iterator
from typing import Any

import numpy as np

from ....model.stock import Stock
from ....units import show
from ...core.asking.question import PlausibleAnswer
from ...core.context import Context
from ...core.result import Check
from ...core.wood.material import WoodMaterial
from ..asking import ask_engineer, ask_for, path_of, sentence
from ..board import breadth_across
from ..family import OnePiece
from ..loads import BracketLoads

WIDER = 0.25  # in: a hair of the outline may be missing in the board


def more_checks(family: OnePiece[Any], context: Context, loads: BracketLoads, wood: WoodMaterial) -> Iterator[Check]:
    """What strips cannot know: wood that dries, checks that are there, grain that is not straight."""
    bracket, name = family.bracket, family.bracket.name
    stock = context.stock(bracket.stock) if bracket.stock is not None else None
    green = bracket.fixings is not None and bracket.fixings.seasoned == "green"
    wet = stock is not None and stock.metered is not None and not wood.dry
    if stock is not None and (stock.moisture != "dry" or green or wet):
        text = "its wood is not dry: it dries with more than one check, and threads work loose in it"
        asked = ask_engineer(bracket, "wet_bracket", why=sentence(text), forces=loads.most)
        yield Check.refers("bracket.dry_wood", name, "dry wood", "judgment", text, ask=asked)
    if bracket.role == "carries":
        yield from _glued_up(family, stock)
    if stock is not None and bracket.checks is None and (stock.grade == "unstamped" or stock.species == "unknown"):
        text = "reclaimed wood has checks as a rule: those that are there count beside the one that is tried (`checks`)"
        none = PlausibleAnswer("none is seen", ((path_of(bracket, "checks"), []),))
        asked = ask_for(bracket, "checks_seen", "checks", [none])
        yield Check.refers("bracket.checks_seen", name, "checks that are there", "judgment", text, ask=asked)


def _glued_up(family: OnePiece[Any], stock: Stock | None) -> Iterator[Check]:
    """A bracket that is wider across its grain than its stock has a glue line, which the strips know nothing of."""
    bracket, shape = family.bracket, family.shape
    if stock is None or shape.grain is None:
        return
    theta, most = math.radians(shape.grain), breadth_across(shape.thickness, stock)
    wide = float(np.ptp(family.cut_outline() @ (math.sin(theta), math.cos(theta))))
    if wide <= most + WIDER:
        return
    text = (
        f"{show(wide, 'length')} wide across its grain, and its stock gives {show(most, 'length')}: it would be glued "
        "up of boards, and what a glue line holds is not worked out; turn it in the board, or name the stock that it "
        "is cut from"
    )
    asked = ask_engineer(bracket, "glued_up", why=sentence(text))
    yield Check.refers("bracket.one_piece", bracket.name, "cut from one piece", "judgment", text, ask=asked)
