"""What holds a bracket and what loads it, for the statics of its strips; inch, pound, psi."""

from __future__ import annotations

from dataclasses import field

from ...records import dataclass
from ..frames.polynomial import Array


@dataclass(frozen=True)
class Row:
    """A row of fasteners, all of it together: the pull at its heads, the sideways force along its dowels.

    y, head : down from the top edge, and from the wall face to the seat of its heads, in. T, Z : pull and sideways
    force that it may take, lbf. q, M : bearing of its dowels on the wood, lbf/in, and their bending, lbf in.
    washer : height of the heads or washers, in. B : what the wood under them bears, lbf; None: T.
    bore : its holes, in; slotted: it holds nothing up.
    """

    y: float
    head: float
    T: float
    Z: float
    q: float
    M: float
    washer: float
    B: float | None = None
    bore: float = 0.0
    slotted: bool = False


@dataclass(frozen=True)
class Rod:
    """A rod or long screw through the wood, from (x, y) to (x, y), in.

    bond : lbf/in. steel : lbf along it. Z : lbf across it at a line. head_from, head_to : what its ends hold, lbf.
    """

    start: tuple[float, float]
    end: tuple[float, float]
    bond: float
    steel: float
    Z: float
    head_from: float = 0.0
    head_to: float = 0.0


@dataclass(frozen=True)
class Seat:
    """A part of the load on the top edge: from x0 to x1, in; `share` of all the load.

    x_R : where the resultant of one stiff thing acts, whose pressure shifts as it needs to. None: of what is not stiff
    the pressure stays where it is, even over its length.
    """

    x0: float
    x1: float
    x_R: float | None = None
    share: float = 1.0

    @property
    def at(self) -> float:
        """Of its resultant, in."""
        return 0.5 * (self.x0 + self.x1) if self.x_R is None else self.x_R


@dataclass(frozen=True)
class Ledge:
    """Wood under the foot from the wall face out, in; F: what it bears, psi."""

    depth: float
    F: float


@dataclass(frozen=True, eq=False)
class Held:
    """A bracket as its strips see it.

    outline : (n, 2) closed, pockets taken out of it. t : thickness. H : height of the wall face.
    F_v, F_c_perp, F_wall : shear along the grain, pressure across it, pressure of the wall, psi. lean : tangent of the
    most that a force on the checked line leans from across it. seen : a place (x, y) on each check that is there.
    strict : pull and sideways force of a row count together at every plane along its dowels, not at the wall alone: a
    dowel may pass its load across a check into wood that another row holds. The plate with a free crack asks for that.
    """

    outline: Array
    t: float
    H: float
    seats: tuple[Seat, ...]
    rows: tuple[Row, ...]
    F_v: float
    F_c_perp: float
    F_wall: float
    lean: float
    rods: tuple[Rod, ...] = field(default=())
    ledge: Ledge | None = None
    seen: tuple[tuple[float, float], ...] = field(default=())
    strict: bool = False

    @property
    def x_R(self) -> float:
        """Of all the load, out from the wall, in."""
        return sum(seat.share * seat.at for seat in self.seats)
