"""Rows of fasteners across the grain: what keeps them apart stays as it is while the wood moves."""

from __future__ import annotations

from dataclasses import replace

from ...model.conditions.air import Climate
from ...model.conditions.movement import Movement
from ...model.stock import Stock
from ...values.conditions.moisture import has_shrinkage
from ...values.lumber import read_size
from .air import lives_in
from .parts import Part, moved
from .timber import starts_at

OUTDOORS = Climate(place="outdoors, most of the USA")


def row_moves(name: str, stock: Stock, apart: float, climate: Climate | None) -> Part:
    """From the moisture that it has to the mean of where it lives: a joint follows the air slowly.

    Where nobody says in which air, wet wood is outdoors and all other indoors. Wood that no table knows moves as the
    one that moves most.
    """
    lives = lives_in(climate)
    if climate is None and stock.moisture == "wet":
        lives = replace(lives_in(OUTDOORS), why=f"{OUTDOORS.place}, not said: taken")
    start, _ = starts_at(stock, read_size(stock.size))
    given = Movement.model_construct(name=name, kind="bolt row", on=name, across=apart, built_at=start,
                                     fixed="one edge", way="tangential")  # fmt: skip
    known = stock.species if stock.species != "unknown" and has_shrinkage(stock.species) else None
    return moved(given, known, replace(lives, low=lives.mean, high=lives.mean))
