"""An anchor group ready to be checked: where its fasteners are, in which wood, and what force comes to it."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property
from typing import TYPE_CHECKING

import numpy as np

from ...analysis.beams.combinations import Loaded
from ...errors import OutOfRange
from ...model.anchors import Anchor, Holes
from ...model.pieces import Beam, Stock
from ..core.context import AnyPiece, Context
from ..core.material import WoodMaterial
from ..core.strength import Section

if TYPE_CHECKING:  # beam.py counts what the groups cut out of a beam
    from ..beams.beam import BeamRun

SAME_ROW = 1e-6  # in; holes whose heights differ by less stand in one row


@dataclass(frozen=True, eq=False)
class Forces:
    """What the held piece does to the group, per combination, lbf.

    across : (combinations,) down on the group, square to the grain of the held piece; negative lifts.
    along : (combinations,) out of the joint along the grain; negative presses into it.
    """

    combinations: tuple[Loaded, ...]
    across: np.ndarray
    along: np.ndarray

    @property
    def C_D(self) -> np.ndarray:
        """(combinations,)."""
        return np.array([combination.C_D for combination in self.combinations])


@dataclass(frozen=True, eq=False)
class Group:
    """One anchor group at one end of one piece.

    `x` and `y` place the holes in the held piece: from its end along the grain, and up from its bottom edge, inches;
    hole k stands in row `row[k]` (0 is the lowest) and column `column[k]` (0 is next to the end).
    """

    anchor: Anchor
    piece: str
    end: str  # 'left' or 'right': which end of the piece
    place: float  # of the support along the piece
    stock: Stock
    wood: WoodMaterial
    section: Section
    into: AnyPiece | None
    into_stock: Stock | None  # wood of the other side, when it is wood of the job
    into_wood: WoodMaterial | None
    forces: Forces
    x: np.ndarray
    y: np.ndarray

    @cached_property
    def row(self) -> np.ndarray:
        """(holes,) numbers of the rows, from the bottom."""
        heights = _levels(self.y)
        return np.array([int(np.argmin(np.abs(heights - one))) for one in self.y])

    @cached_property
    def column(self) -> np.ndarray:
        """(holes,) numbers within the row, from the end of the piece inwards."""
        found = np.zeros(self.x.size, dtype=int)
        for number in range(int(self.row.max(initial=-1)) + 1):
            members = np.flatnonzero(self.row == number)
            found[members[np.argsort(self.x[members])]] = np.arange(members.size)
        return found

    @cached_property
    def rows(self) -> list[np.ndarray]:
        """Indices of the holes of each row, lowest row first, each from the end inwards."""
        found = [np.flatnonzero(self.row == number) for number in range(int(self.row.max(initial=-1)) + 1)]
        return [members[np.argsort(self.x[members])] for members in found]

    def name_of(self, k: int) -> str:
        """'row 1, column 2', counted from the bottom and from the end."""
        return f"row {int(self.row[k]) + 1}, column {int(self.column[k]) + 1}"


def hole_places(holes: Holes | None) -> tuple[np.ndarray, np.ndarray]:
    """Coordinates of the holes: place by place, or from rows and columns.

    Raises
    ------
    OutOfRange
        If the layout does not say where the holes are.
    """
    if holes is None:
        return np.zeros(0), np.zeros(0)
    if holes.places:
        return np.array([p.x for p in holes.places]), np.array([p.y for p in holes.places])
    rows, columns = holes.rows or 1, holes.columns or 1
    if holes.end is None or holes.edge is None:
        raise OutOfRange("the layout needs the distance from the end and from the bottom edge (`end`, `edge`)")
    if (columns > 1 and holes.spacing is None) or (rows > 1 and holes.row_spacing is None):
        raise OutOfRange("more than one fastener in a row needs `spacing`, more than one row `row_spacing`")
    x = holes.end + np.arange(columns) * (holes.spacing or 0.0)
    y = holes.edge + np.arange(rows) * (holes.row_spacing or 0.0)
    return np.tile(x, rows), np.repeat(y, columns)


def group_of_beam(
    anchor: Anchor,
    beam: Beam,
    run: BeamRun,
    index: int,
    context: Context,
    other: tuple[Stock | None, WoodMaterial | None],
) -> Group:
    """The group that holds support `index` of a beam that has been solved."""
    support = beam.supports[index]
    straight = run.solved
    reactions = straight.reactions(index)
    forces = Forces(straight.combinations, reactions, np.zeros_like(reactions))
    x, y = hole_places(anchor.holes)
    end = "left" if support.at <= 0.5 * straight.length else "right"
    return Group(
        anchor, beam.name, end, support.at, context.stock(beam.stock), run.wood, run.section, context.under(support.on),
        *other, forces, x, y,
    )  # fmt: skip


def _levels(values: np.ndarray) -> np.ndarray:
    ordered: list[float] = []
    for value in sorted(float(v) for v in values):
        if not ordered or value - ordered[-1] > SAME_ROW:
            ordered.append(value)
    return np.array(ordered)
