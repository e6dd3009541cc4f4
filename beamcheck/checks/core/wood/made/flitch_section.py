"""The section of a flitch beam, as if all of it were wood; holes of its bolts are taken off both."""

from __future__ import annotations

import math

from .....calc.core import Number
from .....calc.pad import Pad, SilentPad
from .....formulas.steel import flitch
from .....formulas.steel.holes import standard_hole
from .....formulas.wood import section as sc
from .....model.made.plate import FlitchPlate
from .....records import dataclass
from .....values.hardware.fasteners import bolt
from .....values.judgment import judgment
from ..section import Section


@dataclass(frozen=True)
class FlitchSection(Section):
    """Two plies of wood with a plate between them: `b` and `d` are those of the wood."""

    plate: FlitchPlate | None = None
    E: float = math.nan  # of the wood, psi
    rho: float = math.nan  # weight of the wood, lbf/in3

    def _far(self) -> float:
        """The outer row from the middle, in."""
        assert self.plate is not None
        apart = self.plate.row_spacing
        return 0.0 if apart is None else 0.5 * (self.plate.rows - 1) * apart

    def _less(self, pad: Pad, whole: Number, b: Number) -> Number:
        assert self.plate is not None
        hole = float(standard_hole(D=bolt(self.plate.bolt).value.D))
        lost = pad(flitch.inertia_of_holes, b=b, d_h=hole, y_far=self._far(), n=float(self.plate.rows))
        return whole - lost

    def wood_inertia(self, pad: Pad) -> Number:
        """Of the wood without the holes, in4."""
        return self._less(pad, pad(sc.rectangle_inertia, b=self.b, d=self.d), self.b)

    def plate_inertia(self, pad: Pad) -> Number:
        """Of the plate without the holes, in4."""
        assert self.plate is not None
        t, h = self.plate.thickness, self.plate.depth
        return self._less(pad, pad(sc.rectangle_inertia, b=t, d=h), t)

    def inertia(self, pad: Pad) -> Number:
        E_steel = judgment("modulus of steel").value
        I_wood = pad.take("I_wood", self.wood_inertia(SilentPad()), "in4", note="of the wood, less the holes")
        I_plate = pad.take("I_plate", self.plate_inertia(SilentPad()), "in4", note="of the plate, less the holes")
        return pad(flitch.inertia_as_wood, I_wood=I_wood, I_plate=I_plate, E_steel=E_steel, E_wood=self.E)

    def modulus(self, pad: Pad) -> Number:
        return pad.take("S", 2.0 * self.inertia(pad) / self.d, "in3", note="at the edge of the wood, all as wood")

    @property
    def wood_area(self) -> float:
        return float(self.b) * float(self.d)

    def area(self, pad: Pad) -> Number:
        """The area that weighs as much, all as wood, in2."""
        assert self.plate is not None
        steel = judgment("density of steel").value * self.plate.thickness * self.plate.depth
        return self.wood_area + steel / self.rho


def flitch_section(section: Section, plate: FlitchPlate, E: float, rho: float) -> FlitchSection:
    """The section of plies with their plate."""
    return FlitchSection(section.b, section.d, section.breadth_alone, plate=plate, E=E, rho=rho)
