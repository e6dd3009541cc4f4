"""The picture of a split test: the worst check, what holds the part beyond it, where it opens."""

from __future__ import annotations

from typing import Annotated, Literal, NamedTuple

from ....records import dataclass
from ....units.marks import Degrees, In, Inches, Pounds

Points = Annotated[tuple[tuple[float, float], ...], In("in")]


class SplitForce(NamedTuple):
    """What acts on the part beyond the check: its middle, and how much of it goes right, out from the wall, and down.

    `what`: 'load', 'heads', 'dowels', 'wall', 'ledge', 'check', 'rod'; `number` of the row or rod, from 1, else 0.
    """

    what: str
    number: int
    x: Inches
    y: Inches
    right: Pounds
    down: Pounds


@dataclass(frozen=True)
class SplitPicture:
    """One balance of forces at the load `stands`, with the worst check; x out from the wall, y down from the top.

    `comes` and `allowed` are those of the check of that name; `whole` is what stands without a check. `place`: of the
    check in words. `check`: its lines through the wood; `pressed`: stretches of it that are held together. `beyond`:
    the outline of the part beyond; nothing for all of it. `rows`: axis of each row's dowels, from the wall to its
    head. `forces`: none where nothing stands.
    """

    name: str
    combination: str
    outline: Points
    grain: Degrees
    comes: Pounds
    stands: Pounds
    whole: Pounds
    allowed: Pounds
    load_out: Inches
    place: str
    check: tuple[Points, ...]
    pressed: tuple[Points, ...]
    beyond: tuple[Points, ...]
    rows: tuple[Points, ...]
    forces: tuple[SplitForce, ...]
    picture: Literal["split"] = "split"
