"""Look-ups for wooden pegs: how far from ends, edges and each other they must stand."""

from __future__ import annotations

from ...errors import UnknownName
from ...provenance import Source
from ...records import dataclass
from ..loader import numbers, rows, source_of
from ..species import known_species

TABLE, OTHERS = "peg_distances", "any other"


@dataclass(frozen=True)
class PegDistances:
    """Least distances of pegs as multiples of their diameter, with their source.

    `end` to the end of the tenon, `edge` to the loaded face of the mortised piece, `spacing` from peg to peg.
    """

    wood: str
    end: float
    edge: float
    spacing: float
    source: Source


def peg_distances(species: str) -> PegDistances:
    """The distances for a frame of that wood; woods that no row names get the largest of all.

    Raises UnknownName if no table knows the species.
    """
    wood = known_species(species)
    listed = {row["wood"]: row for row in rows(TABLE)}
    if not wood:
        raise UnknownName("species", species, [name for name in listed if name != OTHERS])
    row = listed.get(wood, listed[OTHERS])
    end, edge, spacing = numbers(row, "end", "edge", "spacing")
    return PegDistances(row["wood"], end, edge, spacing, source_of(row))
