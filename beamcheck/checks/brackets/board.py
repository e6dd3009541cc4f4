"""How a bracket lies on the board that it is cut from: its outline along the grain, or its sticks side by side."""

from __future__ import annotations

import math

import numpy as np

from ...model.brackets.bracket import Braced
from ...model.fields.places import SAME_PLACE
from ...model.stock import Stock
from ...values.judgment import judgment
from ...values.lumber import read_size
from ..core.pictures.board import BoardPicture, BoardStick


def breadth_across(thickness: float, stock: Stock) -> float:
    """The side of its stock that a bracket of that thickness is laid on, in."""
    size = read_size(stock.size)
    thin, broad = min(size.b, size.d), max(size.b, size.d)
    return broad if thickness <= thin + SAME_PLACE else thin


def on_its_board(name: str, stock: Stock, outline: np.ndarray, grain: float, thickness: float) -> BoardPicture:
    """The outline turned so that its grain runs along the board."""
    theta = math.radians(grain)
    along, across = np.array([math.cos(theta), -math.sin(theta)]), np.array([math.sin(theta), math.cos(theta)])
    u, v = outline @ along, outline @ across
    far = np.array([float(outline[:, 0].max()), 0.0])
    top = [(float(end @ along - u.min()), float(end @ across - v.min())) for end in (np.zeros(2), far)]
    laid = tuple((float(x), float(y)) for x, y in zip(u - u.min(), v - v.min(), strict=True))
    return BoardPicture(
        name, stock.size, breadth_across(thickness, stock), float(np.ptp(v)), float(np.ptp(u)), grain, laid, tuple(top)
    )


def three_sticks(name: str, shape: Braced, stock: Stock) -> BoardPicture:
    """Side by side where the board is broad enough for that, else one after another."""
    cut = judgment("width of a saw cut").value
    sides = [("wall leg", shape.height, shape.wall_leg), ("top leg", shape.projection, shape.top_leg),
             ("brace", _length_of_brace(shape), shape.brace)]  # fmt: skip
    breadth = breadth_across(shape.thickness, stock)
    beside = sum(deep for _, _, deep in sides) + (len(sides) - 1) * cut <= breadth + SAME_PLACE
    sticks, x, y = [], 0.0, 0.0
    for what, long, deep in sides:
        sticks.append(BoardStick(what, x, y, long, deep))
        x, y = (x, y + deep + cut) if beside else (x + long + cut, y)
    wide, long = (max(ends) for ends in zip(*((one.y + one.deep, one.x + one.long) for one in sticks), strict=True))
    return BoardPicture(name, stock.size, breadth, wide, long, 0.0, (), (), tuple(sticks))


def _length_of_brace(shape: Braced) -> float:
    """From tip to tip, with what goes into its housings."""
    out, down = shape.brace_out - shape.wall_leg, shape.brace_down - shape.top_leg
    along, housed = math.hypot(out, down), shape.housing or 0.0
    return along * (1.0 + housed / out + housed / down) + 0.5 * shape.brace * (down / out + out / down)
