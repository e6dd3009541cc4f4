"""What the picture of an order of assembly needs: what lies there step by step, plain numbers."""

from __future__ import annotations

from typing import Literal, NamedTuple

from ....records import dataclass
from ....units.marks import Degrees
from .beams import Points

TITLE = "Order of assembly"  # of its table
What = Literal["wood", "steel", "stock", "cut", "ground", "fastener", "slot", "beam", "joint", "no load"]


class Laid(NamedTuple):
    """An outline, a line or a point, x to the right and y down, in; `step` adds it, and `last` is the last to show it.

    `step` 0 is there before the first; `last` 0 stays. 'ground' and 'stock' are never new. `grain`: deg above level.
    """

    what: What
    name: str
    points: Points
    step: int = 0
    last: int = 0
    grain: Degrees | None = None


@dataclass(frozen=True)
class AssemblyPicture:
    """`steps`: in words, one a panel."""

    name: str
    steps: tuple[str, ...]
    laid: tuple[Laid, ...]
