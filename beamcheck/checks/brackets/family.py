"""What every family of brackets has to know of itself. The families are found in `families/registry.py`."""

from __future__ import annotations

import math
from abc import ABC, abstractmethod
from collections.abc import Iterator
from dataclasses import field
from typing import Any, ClassVar, Generic, TypeVar

import numpy as np

from ...calc.pad import Pad
from ...formulas.connections import bolt_pattern as pattern
from ...model.brackets.bracket import Bracket, Corbel, Pocket, Solid
from ...model.stock import Stock
from ...records import dataclass
from ...units import show, show_inches
from ...values.brackets import lever_arm_eta
from ...values.found import Found
from ...values.judgment import judgment
from ..core.context import Context
from ..core.pictures.beams import Points
from ..core.pictures.board import BoardPicture
from ..core.result import Check
from ..core.wood.material import WoodMaterial
from .asking import ask_engineer, sentence
from .board import on_its_board
from .body import Body
from .loads import BracketLoads

Array = np.ndarray
S = TypeVar("S")
B = TypeVar("B", Corbel, Solid)
Parts = list[tuple[str, Points, float | None]]  # name, outline, slope of the grain
Rows = list[tuple[str, str]]  # label, text
Strips = list[tuple[float, float, float]]  # along the top edge: from, to (in), weight (lbf)

LENGTHS = (
    "thickness", "height", "projection", "foot", "nose", "sagitta", "wall_leg", "top_leg", "brace", "brace_out",
    "brace_down", "housing", "behind_housing", "depth", "inner_radius", "lamination", "width", "down", "hole_at_bend",
    "gusset_depth", "gusset_thickness", "gusset_edge", "weld", "tip_clear", "seat", "below_seat",
)  # fmt: skip


@dataclass
class SideView:
    """The bracket from its side: its parts, what is cut out of them, its main sizes; inches."""

    parts: Parts
    voids: list[tuple[str, Points]] = field(default_factory=list)
    dimensions: list[tuple[str, float, float, str]] = field(default_factory=list)  # axis, from, to, what
    height: float | None = None  # in all, where it is not that of its back
    reach: float | None = None  # out from the wall, where it is not as far as it stands out by its sizes


class Family(ABC, Generic[S]):
    """A bracket as its family sees it."""

    words: ClassVar[str]  # 'cut from one piece'
    shares_evenly: ClassVar[bool] = False  # whether its rows of fasteners have the same share of the load
    carved: ClassVar[bool] = False  # to a profile, so that its wood is not as deep at one row as at another
    can_have_pocket: ClassVar[bool] = False

    def __init__(self, bracket: Bracket, shape: S) -> None:
        self.bracket, self.shape = bracket, shape

    # sizes

    @property
    @abstractmethod
    def back(self) -> float:
        """Height of what lies against the wall, in."""

    @property
    @abstractmethod
    def depth_at_back(self) -> float:
        """Wood in front of the wall that a fastener can go through, in."""

    @property
    def pocket(self) -> Pocket | None:
        """Cut into the wall face to hide hardware."""
        return None

    def depths_below(self, x: Array) -> Array:
        """Depth of the wood below the top edge at places so far out from the wall, in; 0 where there is none."""
        return np.zeros_like(x)

    def depth_at(self, down: float) -> float | None:
        """Wood from the wall to the front so far below the top edge, in; None where its shape does not say."""
        return None

    @property
    @abstractmethod
    def swells(self) -> float:
        """Its own wood across the grain between its upper fixing and its nose, in."""

    @property
    def stands_on_wood(self) -> bool:
        """Whether its foot stands on wood, so that its fasteners only tie it back."""
        return False

    @property
    def upright_at_wall(self) -> bool | None:
        """Whether the grain beside the wall runs along it; None where it is not said."""
        return True

    @property
    def lever_arm(self) -> Found[float]:
        """Share of the height of the top row that counts as lever arm."""
        return lever_arm_eta("straight", None)

    def top_row_pull(self, pad: Pad, M: Any, h_1: float) -> Any:
        """Pull on the top row, lbf, by the lever arm of the family."""
        eta = self.lever_arm
        share = pad.take("eta", eta.value, note=eta.reason, source=eta.source)
        return pad(pattern.lever_arm_tension, M=M, eta=share, h_1=h_1)

    def pressed_length(self, length: float) -> float:
        """How much of the length that the lever arm supposes presses on the wall, in."""
        return length

    @abstractmethod
    def weight(self, density: float) -> Strips:
        """Own weight in strips along the top edge; `density` of its wood, lbf/in3."""

    @abstractmethod
    def side_view(self) -> SideView:
        """For the drawing."""

    # checks

    @abstractmethod
    def body(self, loads: BracketLoads, wood: WoodMaterial, context: Context) -> Body:
        """Strength under these loads, fixings left out."""

    @abstractmethod
    def stiffness(self, stock: Stock | None) -> tuple[float, float]:
        """Bounds of the stiffness under a force at its nose, lbf/in; 0 and inf where nothing is known."""

    def row_doubts(self) -> Iterator[Check]:
        """What its shape asks of where its rows stand, whatever is known of their fasteners."""
        yield from ()

    def fixing_doubts(self) -> Iterator[Check]:
        """What its shape asks of its fixings beside the rules for rows."""
        yield from ()

    # words and drawings

    def board(self, stock: Stock) -> BoardPicture | None:
        """How it is laid out on its board; nothing where its shape or its grain does not say."""
        return None

    def inputs(self) -> Rows:
        """What the job file says about its shape."""
        rows: Rows = []
        for name in type(self.shape).model_fields:  # type: ignore[attr-defined]
            rows += self._said(name, getattr(self.shape, name))
        return rows

    def _said(self, name: str, value: Any) -> Rows:
        if name in LENGTHS and isinstance(value, float):
            return [(name.replace("_", " "), show_inches(value))]
        if name in ("soffit", "made", "joints", "steel", "skin") and value:
            return [(name, str(value))]
        if name == "grain":
            text = "not given" if value is None else f"{show(value, 'angle')} above level, towards the nose"
            return [(name, text)]
        return []

    # shared by families

    def doubt(self, id: str, what: str, clause: str, text: str, key: str, loads: BracketLoads | None = None) -> Check:
        """What is not worked out here: an engineer has to write about it."""
        forces = loads.most if loads is not None else {}
        return Check.refers(id, self.bracket.name, what, clause, text, ask=ask_engineer(
            self.bracket, key, why=sentence(text), forces=forces))  # fmt: skip


class OnePiece(Family[B]):
    """A bracket sawn from one board or block, whose grain runs one way."""

    @property
    def back(self) -> float:
        return self.shape.height

    @abstractmethod
    def cut_outline(self) -> Array:
        """(n, 2) closed outline, the pocket taken out of it over the whole thickness; of a block from its dap."""

    def board(self, stock: Stock) -> BoardPicture | None:
        shape = self.shape
        if shape.grain is None:
            return None
        return on_its_board(self.bracket.name, stock, self.cut_outline(), shape.grain, shape.thickness)

    @property
    def swells(self) -> float:
        shape, rows = self.shape, self.bracket.fixings.rows if self.bracket.fixings is not None else ()
        height = min((row.below_top for row in rows), default=shape.height)
        # all of it where the grain is not known
        return height if shape.grain is None else height * math.cos(math.radians(shape.grain)) ** 2

    @property
    def upright_at_wall(self) -> bool | None:
        along, grain = judgment("grain that counts as along a leg").value, self.shape.grain
        return None if grain is None else abs(grain - 90.0) <= along


def points_of(array: np.ndarray) -> Points:
    """The rows of an array as points."""
    return tuple((float(x), float(y)) for x, y in array)


def box(x0: float, y0: float, x1: float, y1: float) -> Points:
    """A rectangle by two corners."""
    return ((x0, y0), (x1, y0), (x1, y1), (x0, y1))
