"""The section of a piece as its checks see it."""

from __future__ import annotations

from ....calc.core import Number
from ....calc.pad import Pad
from ....formulas.wood import section as sc
from ....records import dataclass


@dataclass(frozen=True)
class Section:
    """A section as it stands: breadth `b` across and depth `d` in the plane of the load, inches.

    `breadth_alone` is one ply's breadth, which decides sideways stability. `round` makes `d` a diameter.
    """

    b: Number
    d: Number
    breadth_alone: Number
    round: bool = False
    sawn: bool = True  # the proportion rules of NDS 2018 4.4.1 are for sawn lumber

    def area(self, pad: Pad) -> Number:
        return pad(sc.round_area, D=self.d) if self.round else pad(sc.rectangle_area, b=self.b, d=self.d)

    def modulus(self, pad: Pad) -> Number:
        if self.round:
            return pad(sc.round_modulus, symbol="S", D=self.d)
        return pad(sc.rectangle_modulus, symbol="S", b=self.b, d=self.d)

    def inertia(self, pad: Pad) -> Number:
        if self.round:
            return pad(sc.round_inertia, symbol="I", D=self.d)
        return pad(sc.rectangle_inertia, symbol="I", b=self.b, d=self.d)
