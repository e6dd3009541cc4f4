"""The kinds of quantity: inner unit, dimension, a right example, and the range outside which a value is a slip."""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType

from ..errors import UnknownName
from ..records import dataclass


@dataclass(frozen=True)
class Kind:
    """One kind of quantity.

    `inner` is the unit of the plain float, `pint` the same for pint. `dimensions` are those a text may have (three for
    'load'). `lowest` and `highest` bound what is believed, in the inner unit; they catch slips of the pen and are no
    engineering limits.
    """

    name: str
    inner: str
    pint: str
    dimensions: tuple[str, ...]
    example: str
    lowest: float
    highest: float

    @property
    def with_article(self) -> str:
        """'a length', 'an area load'."""
        return f"{'an' if self.name[0] in 'aeio' else 'a'} {self.name}"


LOAD_KINDS = MappingProxyType({"area": "area load", "line": "line load", "point": "force"})  # parts of 'load'
ABSOLUTE_ZERO = -459.67  # deg F

_ALL = (
    Kind("length", "in", "inch", ("length",), "14 ft 6 in", 0, 1e6),
    Kind("offset", "in", "inch", ("length",), "-2 1/2 in", -1e6, 1e6),
    Kind("small length", "in", "inch", ("length",), "0.534 in", -1e6, 1e6),
    Kind("force", "lbf", "lbf", ("force",), "1,240 lb", -1e9, 1e9),
    Kind("line load", "lbf/in", "lbf/inch", ("force per length",), "100 plf", -1e5, 1e5),
    Kind("area load", "lbf/in2", "lbf/inch**2", ("force per area",), "40 psf", -1000, 1000),
    Kind("stress", "psi", "psi", ("force per area",), "1,500 psi", 0, 1e9),
    Kind("moment", "lbf*in", "lbf*inch", ("force times length",), "3,440 lb-ft", -1e12, 1e12),
    Kind("stiffness", "lbf/in", "lbf/inch", ("force per length",), "60,000 lb/in", 0, 1e9),
    Kind("density", "pcf", "lbf/foot**3", ("weight per volume",), "35 pcf", 0, 1e4),
    Kind("temperature", "deg F", "degF", ("temperature",), "90 F", ABSOLUTE_ZERO, 2000),
    Kind("slope", "deg", "degree", ("angle",), "6:12", 0, 90),
    Kind("angle", "deg", "degree", ("angle",), "30 deg", 0, 360),
    Kind("moisture", "%", "percent", ("percentage",), "19 %", 0, 1000),
    Kind("area", "in2", "inch**2", ("area",), "70.7 in2", 0, 1e9),
    Kind("section modulus", "in3", "inch**3", ("length cubed",), "115 in3", 0, 1e12),
    Kind("inertia", "in4", "inch**4", ("length to the fourth",), "560 in4", 0, 1e15),
    Kind("ratio", "", "", ("pure number",), "0.85", 0, 1e6),
    Kind("load", "", "", ("force per area", "force per length", "force"), "40 psf", -1e9, 1e9),
)
KINDS: Mapping[str, Kind] = MappingProxyType({kind.name: kind for kind in _ALL})


def kind_of(name: str) -> Kind:
    """The kind of this name. Raises UnknownName if there is none; the text offers the nearest."""
    if name not in KINDS:
        raise UnknownName("kind of quantity", name, tuple(KINDS))
    return KINDS[name]


def load_part(what: str) -> str:
    """The kind of an 'area', 'line' or 'point' load. Raises UnknownName if `what` is none of them."""
    if what not in LOAD_KINDS:
        raise UnknownName("what a load is", what, tuple(LOAD_KINDS))
    return LOAD_KINDS[what]


def either(names: tuple[str, ...]) -> str:
    """'a', 'a or b', 'a, b or c'."""
    return " or ".join([", ".join(names[:-1]), names[-1]] if len(names) > 1 else names)


def example(kind: str) -> str:
    """A right text for this kind, such as '14 ft 6 in'. Raises UnknownName if there is no such kind."""
    return kind_of(kind).example
