"""What hung trim is made of, layer by layer: boards, plaster, board, thin brick; and what that weighs."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from fractions import Fraction

from pydantic import Field

from ...errors import BeamcheckError
from ...formulas.loads.weight import green_timber_density, timber_density
from ...values.loads import finish_weight
from ...values.species import specific_gravity
from .base import Name, Piece
from .places import Fault
from .quantities import Moisture, PositiveLength

_PER = re.compile(r"\bper (\d+(?:/\d+)?) in\b")
CUBIC_FOOT = 1728.0  # in3


class Layer(Piece):
    """One layer of a built-up piece of trim: wood by its species, or a finish of the table of weights."""

    what: Name = Field(
        description='"wood", or a row of tables/finish_weights.csv', examples=["Plaster on wood lath", "wood"]
    )
    length: PositiveLength = Field(description="along the piece", examples=["10 ft"])
    width: PositiveLength = Field(description="of all faces together, girth of a boxed beam", examples=["30 in"])
    thickness: PositiveLength | None = Field(
        default=None, description="of wood, and of what the table gives per inch", examples=["3/4 in"]
    )
    species: Name | None = Field(default=None, description="of wood", examples=["White Oak"])
    moisture: Moisture = Field(default=19.0, description="of wood, as heavy as it will be")

    def faults(self) -> Iterator[Fault]:
        """Wood has a species, a finish is in the table, and what is given per inch has a thickness."""
        if self.what.casefold() == "wood":
            if self.species is None:
                yield ("species",), 'missing: which wood is it? For example species = "White Oak"'
            if self.thickness is None:
                yield ("thickness",), 'missing: how thick are the boards? For example thickness = "3/4 in"'
        try:
            self.weight()
        except BeamcheckError as error:
            yield ("species" if self.what.casefold() == "wood" else "what",), str(error)

    def weight(self) -> float:
        """In pounds; nothing while a field is missing that `faults` asks for.

        Raises BeamcheckError if no table knows the wood or the finish.
        """
        area = self.length * self.width
        if self.what.casefold() == "wood":
            if self.species is None or self.thickness is None:
                return 0.0
            G, _ = specific_gravity(self.species)
            rule = timber_density if self.moisture <= 30.0 else green_timber_density
            return float(rule(G=G, MC=self.moisture)) / CUBIC_FOOT * area * self.thickness
        found = finish_weight(self.what)
        per = _PER.search(self.what)
        if per is None:
            return found.value * area
        if self.thickness is None:
            raise BeamcheckError(f'{self.what}: how thick is it? For example thickness = "1/2 in"')
        return found.value * area * self.thickness / float(Fraction(per.group(1)))


def weight_of(layers: Sequence[Layer]) -> float:
    """All layers together, lbf."""
    return sum(layer.weight() for layer in layers)
