"""The picture of a bracket laid on the board that it is cut from."""

from __future__ import annotations

from typing import Annotated, Literal

from ....records import dataclass
from ....units.marks import Degrees, In, Inches


@dataclass(frozen=True)
class BoardStick:
    """A stick of a bracket of three pieces on the board: where it begins along and across it, and its sides."""

    name: str
    x: Inches
    y: Inches
    long: Inches
    deep: Inches


@dataclass(frozen=True)
class BoardPicture:
    """x along the board and its grain, y across it from one edge; the outline begins at both.

    Of a bracket of three pieces `sticks` stand in place of outline and top edge.

    `breadth`: of the board, the side of its stock that the outline is laid on. `wide`, `long`: what the outline needs
    across and along the grain. `grain`: how it runs in the bracket, above level towards the nose. `top`: the top edge,
    from the wall to the nose.
    """

    name: str
    size: str
    breadth: Inches
    wide: Inches
    long: Inches
    grain: Degrees
    outline: Annotated[tuple[tuple[float, float], ...], In("in")]
    top: Annotated[tuple[tuple[float, float], ...], In("in")]
    sticks: tuple[BoardStick, ...] = ()
    picture: Literal["board"] = "board"
