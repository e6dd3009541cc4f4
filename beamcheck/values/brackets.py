"""Look-ups for brackets: figures of judgment, lever arms of anchors, elastic ratios, movement, loads by people.

A stock species such as 'Douglas Fir-Larch' is several botanical ones: a look-up by species hands back a row for each.
Where the tables have no rows for it, all rows of its kind come back, and each says so: none is chosen in silence.
"""

from __future__ import annotations

from collections.abc import Mapping
from functools import cache
from types import MappingProxyType
from typing import Literal

from ..errors import OutOfRange, UnknownName
from ..records import dataclass
from .found import Found
from .loader import Row, known, listed, numbers, row_of, rows, source_of
from .species import GRAVITY_TABLE, folded

ELASTIC, MOVEMENT = "wood_handbook_5_1_elastic_ratios", "wood_handbook_13_5_movement"
Direction = Literal["radial", "tangential"]
_COEFFICIENT: Mapping[str, str] = MappingProxyType({"radial": "C_R", "tangential": "C_T"})

# rows of tables/bracket_lever_arms.csv by soffit; a soffit given by points may be hollow, so it counts as concave
_BLOCK = "stiff block or steel plate on a hard wall"
_FULL = "bracket, convex, ogee or straight soffit"
_UPRIGHT = "bracket, concave, vertical grain in the wall leg"
_DIAGONAL = "bracket, concave, diagonal grain"
_LEVEL = "bracket, concave, horizontal grain"
_ARM_OF: Mapping[str, str] = MappingProxyType({
    "block": _BLOCK, "straight": _FULL, "convex": _FULL, "ogee": _FULL, "full arc": _FULL,
    "concave": _LEVEL, "hollow arc": _LEVEL, "points": _LEVEL,
})  # fmt: skip


@dataclass(frozen=True)
class ElasticRatios:
    """Moduli over E_L, the modulus along the grain, and Poisson's ratios. R is radial, T tangential to the rings."""

    species: str
    kind: str
    E_T: float
    E_R: float
    G_LR: float
    G_LT: float
    nu_LR: float
    nu_LT: float


@dataclass(frozen=True)
class AccidentalLoad:
    """A force (lbf) of somebody who hangs on a bracket, what it is taken from, and the directions, each alone."""

    load: float
    as_for: str
    directions: tuple[str, ...]


def lever_arm_eta(soffit: str, grain: float | None) -> Found[float]:
    """Share of the height of the top anchors that counts as lever arm.

    `soffit`: 'straight', 'convex', 'ogee', 'full arc', 'concave', 'hollow arc', 'points', or 'block' for a stiff block
    or steel plate on a hard wall. `grain`: angle of the grain above level towards the nose, 0 to 180 deg; None when
    unknown. Only 0, 45 and 90 deg were modelled: in between the smaller share of the two counts, and what leans back to
    the wall counts as level. Raises UnknownName for another soffit; OutOfRange if the angle is not 0 to 180 deg.
    """
    known(soffit, _ARM_OF, "soffit")
    if grain is not None and not 0 <= grain <= 180:
        raise OutOfRange(f"the grain must lie at 0 to 180 deg, given {grain:g}")
    wanted = _ARM_OF[soffit]
    if wanted == _LEVEL and grain is not None:
        wanted = _UPRIGHT if grain == 90 else _DIAGONAL if 45 <= grain < 90 else _LEVEL
    row = row_of("bracket_lever_arms", "bracket", wanted, "kind of bracket")
    unknown = ", the least, as the grain is not known" if wanted == _LEVEL and grain is None else ""
    return Found(float(row["eta"]), source_of(row), f"{row['bracket']}: {row['eta']}{unknown}")


def accidental_loads() -> tuple[Found[AccidentalLoad], ...]:
    """Point loads of somebody who hangs on a bracket, the smallest first. No code asks for them: the user chooses."""
    made = []
    for row in rows("bracket_accidental_loads"):
        load = AccidentalLoad(float(row["load"]), row["as_for"], tuple(row["directions"].split("; ")))
        made.append(Found(load, source_of(row), f"{row['load']} lb as for a {row['as_for']}: {row['note']}"))
    return tuple(made)


def elastic_ratios(species: str | None) -> tuple[Found[ElasticRatios], ...]:
    """Elastic ratios of a species: run them all and take the worst.

    `species`: a stock species such as 'Douglas Fir-Larch', or one of the Wood Handbook; None when unknown. Returns
    tuple of Found: one row for each botanical species of the stock species; without rows of its own all rows of its
    kind (softwood or hardwood), of all kinds when the species is unknown. The reason of each says which it is. Raises
    UnknownName if no table knows the species.
    """
    columns = ("E_T", "E_R", "G_LR", "G_LT", "nu_LR", "nu_LT")
    return tuple(
        Found(ElasticRatios(row["species"], row["kind"], *numbers(row, *columns)), source_of(row), why)
        for row, why in rows_for_species(ELASTIC, species)
    )


def movement_coefficient(species: str | None, direction: Direction = "tangential") -> tuple[Found[float], ...]:
    """Dimensional change across the grain per point of moisture content, the largest first: Wood Handbook Table 13-5.

    `species`: a stock species such as 'Red Oak', or one of the Wood Handbook; None when unknown. `direction`:
    'tangential' or 'radial': across the grain along the growth rings, or square to them. Tangential is the larger: take
    it when unknown. Returns tuple of Found: as `elastic_ratios`; the first is the one for a gap that must not close.
    Raises UnknownName if no table knows the species, or for another direction.
    """
    known(direction, _COEFFICIENT, "direction in the wood")
    column = _COEFFICIENT[direction]
    found = [
        Found(float(row[column]), source_of(row), f"{row['species']}, {direction}: {row[column]} per point; {why}")
        for row, why in rows_for_species(MOVEMENT, species)
    ]
    return tuple(sorted(found, key=lambda each: -each.value))


def rows_for_species(table: str, species: str | None) -> list[tuple[Row, str]]:
    """The rows that stand for a species, each with the reason in words."""
    if species is None or not species.strip():
        return [(row, f"species not known: one of all rows, {row['species']}") for row in rows(table)]
    key = _spelled(species)
    of_stock = [row for row in rows(table) if key in map(folded, row["stands_for"].split("; "))]
    own = of_stock or [row for row in rows(table) if key in (folded(row["species"]), folded(_turned(row["species"])))]
    if own:
        return [(row, f"{row['species']} for {species}") for row in own]
    kind = _kinds().get(key)
    if kind is None:
        raise UnknownName(
            "species",
            species,
            [name for table in (GRAVITY_TABLE, ELASTIC, MOVEMENT) for name in listed(table, "species")],
        )
    why = f"no row for {species}: one of all rows of {kind}s"
    return [(row, f"{why}, {row['species']}") for row in rows(table) if row["kind"] == kind]


def _spelled(species: str) -> str:
    """The folded name of the tables for any spelling of a species."""
    key = folded(species)
    return next((folded(row["species"]) for row in rows("species_spellings") if folded(row["spelling"]) == key), key)


def _turned(name: str) -> str:
    """'Oak, white' as people say it: 'white Oak'."""
    first, comma, second = name.partition(", ")
    return f"{second} {first}" if comma else name


@cache
def _kinds() -> Mapping[str, str]:
    """Folded name -> 'softwood' or 'hardwood', for every species of any table."""
    found = {folded(row["species"]): row["wood_type"] for row in rows(GRAVITY_TABLE)}
    for table in (ELASTIC, MOVEMENT):
        for row in rows(table):
            names = (row["species"], _turned(row["species"]), *filter(None, row["stands_for"].split("; ")))
            for name in names:
                found.setdefault(folded(name), row["kind"])
    return MappingProxyType(found)
