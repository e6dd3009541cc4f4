"""Species by name, with the spellings found on stamps and lists, and their specific gravity."""

from __future__ import annotations

import re
from collections.abc import Mapping
from functools import cache, lru_cache
from types import MappingProxyType
from typing import Literal

from ..errors import OutOfRange, UnknownName
from ..provenance import Source
from .loader import rows, source_of

DESIGN_TABLES: tuple[Literal["4A", "4B", "4D"], ...] = ("4A", "4B", "4D")
LONGEST_NAME = 6  # words
GRAVITY_TABLE = "nds_2018_table_12_3_3a_specific_gravity"


@lru_cache(maxsize=2048)
def folded(name: str) -> str:
    """A name without case, spaces, hyphens and full stops: what two spellings of it have in common."""
    return "".join(letter for letter in name.casefold() if letter.isalnum())


def design_table(table: str) -> str:
    """File name of a table of design values ('4A', '4B' or '4D')."""
    return f"nds_2018_supplement_{table.casefold()}"


def species_names() -> tuple[str, ...]:
    """All species with tabulated design values, in alphabetical order."""
    return _design_species()


def species_name(given: str) -> str:
    """The tables' own name of a species that has design values.

    Raises UnknownName if no table knows the name; the nearest ones are offered; OutOfRange if the species is known but
    these tables hold no design values for it: another one is never put in its place.
    """
    key = folded(given)
    name = _spellings().get(key)
    if name is None:
        raise UnknownName("species", given, _design_species())
    if name in _design_species():
        return name
    tabulated = name in {row["species"] for row in rows("nds_2018_supplement_not_covered")}
    why = "its rows of the printed Supplement are not in these tables" if tabulated else "it has no rows of its own"
    raise OutOfRange(
        f"no design values for {name!r}: {why}. Do not put another species in its place: enter the printed values "
        "or an engineer's letter as given values",
        "NDS Supplement 2018 Tables 4A, 4B, 4D",
    )


def specific_gravity(species: str) -> tuple[float, Source]:
    """Assigned specific gravity G (oven-dry weight and volume, no unit) and its source: NDS 2018 Table 12.3.3A.

    Raises UnknownName if the species is not in the table.
    """
    table = _gravities()
    name = _spellings().get(folded(species))
    if name is None or name not in table:
        raise UnknownName("species", species, list(table))
    return table[name]


def known_species(species: str) -> str:
    """A species as the tables write it; '' where none of them knows it."""
    return _spellings().get(folded(species), "")


@lru_cache(maxsize=1024)
def species_in(text: str) -> tuple[str, ...]:
    """The species that words name, in any known spelling, each by the tables' own name."""
    words, found, i = re.findall(r"[A-Za-z]+", text), [], 0
    while i < len(words):
        for count in range(min(LONGEST_NAME, len(words) - i), 0, -1):
            name = _spellings().get(folded("".join(words[i : i + count])))
            if name is not None:
                found.append(name)
                i += count - 1
                break
        i += 1
    return tuple(dict.fromkeys(found))


@cache
def _gravities() -> Mapping[str, tuple[float, Source]]:
    return MappingProxyType({row["species"]: (float(row["G"]), source_of(row)) for row in rows(GRAVITY_TABLE)})


@lru_cache(maxsize=1)
def _design_species() -> tuple[str, ...]:
    return tuple(sorted({row["species"] for table in DESIGN_TABLES for row in rows(design_table(table))}))


@lru_cache(maxsize=1)
def _spellings() -> Mapping[str, str]:
    """Folded spelling -> the tables' own name, for every species of any table."""
    found = {folded(row["spelling"]): row["species"] for row in rows("species_spellings")}
    own = (*_gravities(), *(row["species"] for row in rows("nds_2018_supplement_not_covered")), *_design_species())
    found.update((folded(name), name) for name in own)
    return MappingProxyType(found)
