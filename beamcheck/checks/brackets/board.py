"""How a bracket cut from one piece lies on its board, its grain along it."""

from __future__ import annotations

import math

import numpy as np

from ...model.brackets.bracket import Bracket, Corbel, Solid
from ...model.stock import Stock
from ..core.pictures.board import BoardPicture
from .split.held import breadth_across, outline_with_pocket


def board_picture(bracket: Bracket, stock: Stock | None) -> BoardPicture | None:
    """The outline turned so that its grain runs along the board; nothing where grain or board is not said."""
    shape = bracket.shape
    if stock is None or not isinstance(shape, (Solid, Corbel)) or shape.grain is None:
        return None
    theta = math.radians(shape.grain)
    along, across = np.array([math.cos(theta), -math.sin(theta)]), np.array([math.sin(theta), math.cos(theta)])
    outline = outline_with_pocket(shape)
    u, v = outline @ along, outline @ across
    far = np.array([float(outline[:, 0].max()), 0.0])
    top = [(float(end @ along - u.min()), float(end @ across - v.min())) for end in (np.zeros(2), far)]
    laid = tuple((float(x), float(y)) for x, y in zip(u - u.min(), v - v.min(), strict=True))
    return BoardPicture(
        bracket.name, stock.size, breadth_across(shape, stock), float(np.ptp(v)), float(np.ptp(u)), shape.grain,
        laid, tuple(top),
    )  # fmt: skip
