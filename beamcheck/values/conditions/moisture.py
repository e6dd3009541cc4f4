"""Look-ups for wood that moves: shrinkage by species, and the moisture that it has in use."""

from __future__ import annotations

from typing import Literal, get_args

from ...errors import UnknownName
from ...records import dataclass
from ..brackets import rows_for_species
from ..found import Found
from ..loader import known, listed, numbers, rows, source_of

SHRINKAGE, IN_USE = "wood_handbook_4_3_shrinkage", "wood_handbook_13_2_moisture"
OUTDOORS, SEASONS = "wood_handbook_13_1_outdoors", ("january", "april", "july", "october")
Way = Literal["radial", "tangential", "mixed"]


@dataclass(frozen=True)
class InUse:
    """Moisture that wood has in use, percent: the mean, and between which single pieces lie."""

    place: str
    mean: float
    low: float
    high: float


def shrinkage(species: str | None, way: Way = "tangential") -> tuple[Found[float], ...]:
    """Shrinkage across the grain from green to ovendry, percent, the largest first: Wood Handbook Table 4-3.

    `species`: a stock species such as 'Red Oak', or one of the Wood Handbook; None when unknown. `way`: 'tangential',
    'radial' or 'mixed': along the growth rings (a flat-sawn face), square to them, or the mean of both (a timber with
    boxed heart). Returns tuple of Found: one for each botanical species of a stock species; without rows of its own all
    rows of its kind. Raises UnknownName if no table knows the species, or for another way.
    """
    known(way, get_args(Way), "direction in the wood")
    found = []
    for row, why in rows_for_species(SHRINKAGE, species):
        S_R, S_T = float(row["S_R"]), float(row["S_T"])
        value = {"radial": S_R, "tangential": S_T, "mixed": 0.5 * (S_R + S_T)}[way]
        found.append(Found(value, source_of(row), f"{row['species']}, {way}: {value:g} % from green to ovendry; {why}"))
    return tuple(sorted(found, key=lambda each: -each.value))


def has_shrinkage(species: str) -> bool:
    """Whether the tables hold that species itself, or its parts, and not only others of its kind."""
    try:
        return not any("one of all rows" in why for _, why in rows_for_species(SHRINKAGE, species))
    except UnknownName:
        return False


def in_use(place: str) -> Found[InUse]:
    """Moisture of wood in use at a place: 'indoors, most of the USA' (Wood Handbook Table 13-2), or outdoors under a
    roof in a town, 'outdoors, Denver' (Table 13-1: the driest and the dampest of four months).

    Raises UnknownName for another place.
    """
    for row in rows(IN_USE):
        if row["place"] == place:
            mean, low, high = numbers(row, "mean", "low", "high")
            return Found(InUse(place, mean, low, high), source_of(row), f"{place}: {mean:g} %, {low:g} to {high:g} %")
    for row in rows(OUTDOORS):
        if row["place"] == place:
            year = numbers(row, *SEASONS)
            low, mean, high = min(year), sum(year) / len(year), max(year)
            return Found(
                InUse(place, mean, low, high), source_of(row), f"{place}: {low:g} to {high:g} % through the year"
            )
    raise UnknownName("place", place, [*listed(IN_USE, "place"), *listed(OUTDOORS, "place")])
