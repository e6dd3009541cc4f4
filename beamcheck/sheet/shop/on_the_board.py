"""How a bracket cut from one piece is laid on its board, its grain along it, and whether the board is broad enough."""

from __future__ import annotations

import math

from ...model.bracket_shapes import Solid
from ...units import show
from ..templates.geometry import solid_contour

HAIR = 1.0 / 64.0  # in


def board_needed(shape: Solid) -> tuple[float, float] | None:
    """Breadth across the grain and length along it that the outline needs, in; nothing where its grain is not said."""
    if shape.grain is None:
        return None
    c, s = math.cos(math.radians(shape.grain)), math.sin(math.radians(shape.grain))
    points = solid_contour(shape).points()
    across, along = [y * c - x * s for x, y in points], [x * c + y * s for x, y in points]
    return max(across) - min(across), max(along) - min(along)


def board_words(shape: Solid, broad: float) -> str:
    """What it needs of a board of that breadth, and whether the board has it; '' where the grain is not said."""
    needed = board_needed(shape)
    if needed is None:
        return ""
    across, along = (show(one, "length") for one in needed)
    said = f"Laid with its grain along the board it needs {across} of breadth and {along} of length"
    if needed[0] <= broad + HAIR:
        return f"{said}; its board is {show(broad, 'length')} broad."
    return f"{said}: its board is {show(broad, 'length')} broad, too narrow. Ask before you lay it otherwise."
