"""Which fasteners of a piece of trim meet the wood behind it, and the pull that its weight puts on the top row.

How the rows lie against the grain of that wood is not said: both ways are looked at, and the fewer hits count.
"""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from ....model.brackets.bracket import Trim
from ....model.brackets.fixings import Fixings
from ....model.stock import Stock
from ....records import dataclass
from ....units import show
from ....values.hardware.connections import THIN, distance, lever_arm
from ....values.judgment import judgment
from ...anchors.fastener import dowel_of
from ...anchors.fasteners.distances import far_width
from ...anchors.joint import HAIR

Array = np.ndarray
PRESSED = "stiff block or steel plate on a hard wall"


@dataclass(frozen=True)
class Hits:
    """Fasteners in all and those that surely meet the wood, by rows; `why` says where the others come out."""

    count: int
    sure: tuple[int, ...]
    why: str

    @property
    def most_sure(self) -> int:
        """At least one: what holds nothing at all is said where its distances are."""
        return max(sum(self.sure), 1)


def hits_of(fixings: Fixings, stock: Stock) -> Hits:
    """The fasteners that are within the width of the wood, clear of its edges, whichever way its grain runs."""
    assert fixings.other is not None and fixings.fastener is not None
    other, rows = fixings.other, fixings.rows
    width = far_width(other, stock)
    D = dowel_of(fixings.fastener).D
    rule = distance("edge", "along", "l/D up to 6") if D >= THIN else distance("thin", "not prebored", "edge")
    clear = rule.value.least * D
    every = tuple(row.count for row in rows)
    if width is None:
        return Hits(sum(every), every, "")
    first = other.edge if other.edge is not None else clear
    upright = tuple(int(np.count_nonzero(_in_it(row.offsets, first, width, clear))) for row in rows)
    in_it = _in_it([row.below_top for row in rows], first, width, clear)
    level = tuple(row.count if there else 0 for row, there in zip(rows, in_it, strict=True))
    sure = min(upright, level, key=sum)
    why = (
        f"{show(first, 'length')} from the edge of {stock.name} to the first, which is {show(width, 'length')} wide: "
        f"of {sum(every)} fasteners {sum(sure)} surely meet it, {show(clear, 'length')} and more from its edges"
    )
    return Hits(sum(every), sure, why)


def _in_it(places: Sequence[float], first: float, width: float, clear: float) -> Array:
    """Whether each of the places across the grain is in the wood; a stud's spacing on, the next stick begins."""
    start, last, found = places[0], places[0], []
    for place in places:
        if place - last >= judgment("next stud").value - HAIR:
            start = place
        last = place
        at = first + place - start
        found.append(clear - HAIR <= at <= width - clear + HAIR)
    return np.array(found)


@dataclass(frozen=True)
class Arm:
    """Lever arm of the top row of fasteners against what presses below, in; None where it is not known."""

    length: float | None
    why: str


def arm_of(trim: Trim, fixings: Fixings) -> Arm:
    """Down to the lowest row, or by the height of the piece; the longer of them."""
    top, lowest = (pick(row.below_top for row in fixings.rows) for pick in (min, max))
    found = []
    if lowest > top + HAIR:
        found.append((lowest - top, f"from the top row to the lowest, {show(lowest - top, 'length')}"))
    if trim.height is not None and trim.height > top + HAIR:
        eta = lever_arm(PRESSED)
        text = f"{eta.value:g} of the {show(trim.height - top, 'length')} below the top row"
        found.append((eta.value * (trim.height - top), text))
    if not found:
        return Arm(None, "one row, and how high the piece is is not given (`height`)")
    return Arm(*max(found))
