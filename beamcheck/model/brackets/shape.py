"""What every shape of a bracket says of itself, and the parts that shapes have in common. No computing here.

Seen from the side: x out from the wall face, y down from the top edge, inches; the grain's angle is measured upwards
from level, towards the nose.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import TYPE_CHECKING, Annotated, Any, ClassVar

from pydantic import BeforeValidator, Field

from ..anchors.anchor import Fastener
from ..fields.base import Piece
from ..fields.quantities import Angle, Length, PositiveLength

GRAIN_WORDS = {"level": "0 deg", "upright": "90 deg"}
ON_IT = 1.0 / 16.0  # in: what lies so near to the edge lies on it


def _grain(value: Any) -> Any:
    if not isinstance(value, str):
        return value
    word = value.strip().casefold()
    if word.startswith(("-", "\u2212")):
        text = "the grain's angle is measured upwards from level, towards the nose"
        raise ValueError(f"{value!r}: {text}; what falls by 30 deg towards the nose is '150 deg'")
    if word not in GRAIN_WORDS and not any(map(str.isdecimal, word)):
        raise ValueError(f"{value!r} is no direction of grain: write 'level', 'upright' or an angle such as '45 deg'")
    return GRAIN_WORDS.get(word, value)


Grain = Annotated[Angle, Field(ge=0, lt=180), BeforeValidator(_grain)]  # deg above level, towards the nose


class Point(Piece):
    """One point of a soffit."""

    x: Length = Field(description="out from the wall face", examples=["3 1/2 in"])
    y: Length = Field(description="down from the top edge", examples=["6 in"])


class Pocket(Piece):
    """Wood cut out of the wall face to make room for hardware."""

    top: Length = Field(description="from the top edge down to the pocket", examples=["2 in"])
    height: PositiveLength = Field(description="of the pocket", examples=["4 in"])
    depth: PositiveLength = Field(description="into the bracket, from the wall face", examples=["1 1/4 in"])
    width: PositiveLength | None = Field(
        default=None, description="across the thickness; not said: right through the thickness"
    )


class BracketShape(Piece):
    """What every shape says of itself; what differs from shape to shape is answered here and by its class."""

    of_wood: ClassVar[bool] = True  # what carries
    sawn: ClassVar[bool] = False  # from one board or block, whose grain runs one way

    if TYPE_CHECKING:  # each shape says what its own measures are
        thickness: PositiveLength

    @property
    def stands_out(self) -> float:
        """Out from the wall face to the nose, in."""
        raise NotImplementedError

    @property
    def foot_at(self) -> float | None:
        """Down from the top edge to the foot of the wall leg, in; None where that is not measured."""
        return None

    @property
    def lowest_fixing(self) -> float | None:
        """Down from the top edge to where no fixing may stand below, in; None: its foot says so."""
        return None

    @property
    def side_to_side(self) -> float:
        """How wide it is seen from the front, in."""
        return self.thickness

    @property
    def in_the_dap(self) -> float:
        """How far it reaches behind the face that it stands on, in."""
        return 0.0

    @property
    def level_top(self) -> float | None:
        """Length of its level top edge, on which loads stand, in; None where it has none."""
        return self.stands_out

    @property
    def longest_seat(self) -> float:
        """The most that a seat on it is long, whichever way the piece runs over it, in."""
        return max(self.side_to_side, self.stands_out)

    def least_beside(self) -> tuple[float, str]:
        """What must come out of the stock beside the thickness, at least, in, and what it is."""
        raise NotImplementedError

    def air_at(self, places: Sequence[tuple[float, float]]) -> tuple[float, float] | None:
        """The first of some places, out from the wall and down from the top, without wood; only sawn shapes know."""
        return None

    def own_fasteners(self) -> Iterator[tuple[str, Fastener, int]]:
        """What holds its parts together: what it holds, which fastener, how many."""
        yield from ()


class Boxed(BracketShape):
    """A shape that fills a box: its height along the wall, its projection out from it, its thickness."""

    if TYPE_CHECKING:
        height: PositiveLength
        projection: PositiveLength

    @property
    def stands_out(self) -> float:
        return self.projection

    @property
    def foot_at(self) -> float | None:
        return self.height

    def least_beside(self) -> tuple[float, str]:
        return min((self.height, "height"), (self.projection, "projection"))
