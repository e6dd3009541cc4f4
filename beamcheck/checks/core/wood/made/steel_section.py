"""The section and the material of a rolled steel beam, in the shape in which the analysis of beams reads them."""

from __future__ import annotations

from dataclasses import replace

from .....calc.core import Number
from .....calc.pad import Pad
from .....errors import OutOfRange
from .....formulas.steel import rolled
from .....model.made.shapes import SteelShape
from .....model.stock import Stock
from .....provenance import Source
from .....records import dataclass
from .....values.hardware.sections import Shape, w_shape
from .....values.hardware.steels import Steel, steel
from .....values.judgment import judgment
from .....values.lumber import DesignValues, read_size
from ..record import Factor, Property, WoodMaterial
from ..section import Section
from ..wood_doubts import stated_grade_doubts
from .engineered import NAMES, NOTHING, of_properties

AISC = "AISC 360-16"


def shape_of(given: SteelShape) -> Shape:
    """The measures of a shape, from its name or as measured."""
    if given.shape is not None:
        return w_shape(given.shape)
    d, b_f, t_f, t_web = given.depth, given.flange_width, given.flange, given.web
    assert d is not None and b_f is not None and t_f is not None and t_web is not None
    return Shape("as measured", d, b_f, t_f, t_web, Source("measured on the piece", "given"))


def steel_of(stock: Stock) -> tuple[Steel, Source]:
    """Yield point of the grade, with its source. Raises UnknownName if the table does not list the grade."""
    found = steel(stock.grade)
    return found.value, found.source


@dataclass(frozen=True)
class RolledSection(Section):
    """An I shape. `breadth_alone` is the web's thickness: it is never broader than deep for what holds its edges."""

    shape: Shape | None = None

    @property
    def plates(self) -> dict[str, Number]:
        """The measures that the formulas take."""
        assert self.shape is not None
        return {"d": self.shape.d, "b_f": self.shape.b_f, "t_f": self.shape.t_f, "t_web": self.shape.t_web}

    def area(self, pad: Pad) -> Number:
        return pad(rolled.shape_area, **self.plates)

    def inertia(self, pad: Pad) -> Number:
        return pad(rolled.shape_inertia, **self.plates)

    def modulus(self, pad: Pad) -> Number:
        return pad(rolled.shape_modulus, I_x=self.inertia(pad), d=self.d)

    @property
    def shear_area(self) -> float:
        """Of the web, in2."""
        assert self.shape is not None
        return self.shape.d * self.shape.t_web


def rolled_section(stock: Stock) -> RolledSection:
    """The section of a stock of steel."""
    assert stock.steel is not None
    shape = shape_of(stock.steel)
    return RolledSection(shape.b_f, shape.d, shape.t_web, sawn=False, shape=shape)


def steel_values(stock: Stock) -> DesignValues:
    """No value of wood: next to nothing, so that no rule of wood can pass by mistake; the modulus is that of steel."""
    E = judgment("modulus of steel").value
    _, source = steel_of(stock)
    return DesignValues(
        NOTHING, NOTHING, NOTHING, NOTHING, NOTHING, E, NOTHING, None, "steel", stock.grade, "given",
        read_size(stock.size).size_class, source,
    )  # fmt: skip


def steel_material(stock: Stock, values: DesignValues, *, laid: str, level: bool) -> WoodMaterial:
    """Steel as the analysis of a beam reads it: stiff, heavy, without creep.

    Raises OutOfRange for anything but a beam on edge.
    """
    if not level or laid == "flat":
        raise OutOfRange("steel is counted in level beams on edge here: an engineer answers for it", AISC)
    whole = Factor(1.0, "steel does not creep", Source(AISC, "memory"))
    properties = {name: Property(getattr(values, name), source=values.source) for name in NAMES}
    return replace(
        of_properties(properties), K_cr=whole, dead_share=replace(whole, why="steel: all of the dead load, once"),
        density=judgment("density of steel").value, made="steel", shear_free=True, label=f"steel {stock.grade}",
        doubts=tuple(stated_grade_doubts(stock)),
        notes=("section properties are those of two flanges and a web; its fillets are left out",),
    )  # fmt: skip
