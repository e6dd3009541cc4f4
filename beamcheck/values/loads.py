"""Loads that are looked up: combinations, weights of finishes, live loads by use (lbf/in2), what words say of a load.

Words: a sort is one question that is put to them: which use of a room, which layer with its least weight, whether the
roof is open below, and so on, as rows of `tables/load_words.csv`. The longest words that fit count, so that 'attic
without storage' is not 'storage'.
"""

from __future__ import annotations

import math
import re
from collections.abc import Mapping
from functools import cache, lru_cache
from types import MappingProxyType

from ..errors import OutOfRange
from ..provenance import Source
from ..records import dataclass
from .found import Found
from .loader import Row, listed, row_of, rows, source_of
from .species import folded

LOAD_KINDS = ("D", "L", "Lr", "S", "W")


@dataclass(frozen=True)
class Combination:
    """One allowable-stress combination: `factors` has an entry for each load kind in it.

    `duration_load` is the load of shortest duration in it when all its loads are present; NDS 2018 2.3.2 takes C_D from
    the shortest load that is really there. W is the strength-level wind load.
    """

    name: str
    factors: Mapping[str, float]
    duration_load: str
    clause: str
    source: Source


@cache
def asd_combinations() -> tuple[Combination, ...]:
    """The combinations of ASCE 7-16 2.4.1 (dead, live, roof live, snow, wind; earthquake is not among them)."""
    return tuple(
        Combination(
            row["combination"],
            MappingProxyType({kind: float(row[kind]) for kind in LOAD_KINDS if float(row[kind])}),
            row["C_D_load"],
            f"{row['source']} no. {row['number']}",
            source_of(row),
        )
        for row in rows("asce_7_16_asd_combinations")
    )


SQUARE_FOOT = 144.0  # in2


def finish_weight(name: str) -> Found[float]:
    """Weight of a finish or covering per area, lbf/in2 (the table is in psf).

    Raises UnknownName if the table does not list it.
    """
    row = row_of("finish_weights", "item", name, "finish", folded)
    return Found(float(row["weight"]) / SQUARE_FOOT, source_of(row), f"{row['item']}: {row['weight']} psf")


def live_load_uses() -> tuple[str, ...]:
    """The uses that `live_load` knows."""
    return listed("live_loads", "use")


def live_load(use: str, *, least: bool = False) -> Found[float]:
    """Uniform live load of a use, lbf/in2; where documents differ, the largest, or the least that any of them has.

    Raises UnknownName if the tables do not list the use; OutOfRange if the use has a point load only.
    """
    row = row_of("live_loads", "use", use, "use", folded)
    uniform = [one for one in rows("live_loads") if folded(one["use"]) == folded(use) and one["load"]]
    if not uniform:
        raise OutOfRange(
            f"{row['use']} has a point load only: {row['point_load']} lb, {row['point_on']}", row["source"]
        )
    row = (min if least else max)(uniform, key=lambda row: float(row["load"]))
    point = f", or {row['point_load']} lb on {row['point_on']}" if row["point_load"] else ""
    return Found(float(row["load"]) / SQUARE_FOOT, source_of(row), f"{row['use']}: {row['load']} psf{point}")


def point_load_beside(use: str) -> tuple[Found[float], float] | None:
    """The point load that stands beside the load per area of a use, lbf, and the side of its square, in; or None.

    Raises UnknownName if the tables do not list the use.
    """
    row_of("live_loads", "use", use, "use", folded)
    given = [row for row in rows("live_loads") if folded(row["use"]) == folded(use)]
    found = [row for row in given if row["load"] and row["point_load"]]
    if not found:
        return None
    row = max(found, key=lambda row: float(row["point_load"]))
    side = math.sqrt(float(row["point_on"].removesuffix(" in2")))
    reason = f"{row['use']}: {row['point_load']} lb on {row['point_on']}"
    return Found(float(row["point_load"]), source_of(row), reason), side


_MASK = "mask"  # words that must not be taken for what they hold: of every sort, or of that named after it


@dataclass(frozen=True)
class Told:
    """One thing that words say: the words found, what they mean, a weight per area where they have one, lbf/in2."""

    words: str
    says: str
    weight: float | None
    source: Source


@cache
def _by_sort() -> dict[str, list[Row]]:
    found: dict[str, list[Row]] = {}
    for row in rows("load_words"):
        found.setdefault(row["sort"], []).append(row)
    return found


@lru_cache(maxsize=64)
def _words(sort: str) -> tuple[tuple[str, str], ...]:
    """The words of a sort, folded and as they stand, the longest first."""
    sorts = (sort, _MASK, f"{_MASK} {sort}")
    every = {row["words"] for one in sorts for row in _by_sort().get(one, ())}
    return tuple((words.casefold(), words) for words in sorted(every, key=len, reverse=True))


@lru_cache(maxsize=256)
def _pattern(words: tuple[str, ...]) -> re.Pattern[str]:
    return re.compile(rf"(?<![\w-])(?:{'|'.join(map(re.escape, words))})(?![\w-])", re.IGNORECASE)


@lru_cache(maxsize=64)
def _known(sort: str) -> dict[str, Row]:
    return {row["words"].casefold(): row for row in _by_sort().get(sort, ())}


@lru_cache(maxsize=4096)
def told(text: str, sort: str) -> tuple[Told, ...]:
    """What a text says of one sort, each thing once, in the order of the text; nothing where it says nothing of it."""
    known = _known(sort)
    spaced = " ".join(text.split())
    plain = spaced.casefold()
    there = tuple(words for folded_words, words in _words(sort) if folded_words in plain)
    matches = _pattern(there).finditer(spaced) if there else ()
    found = (known.get(match.group().casefold()) for match in matches)
    by_meaning = {row["says"]: row for row in found if row is not None}
    return tuple(
        Told(row["words"], row["says"], float(row["psf"]) / SQUARE_FOOT if row["psf"] else None, source_of(row))
        for row in by_meaning.values()
    )


def point_load_of(use: str) -> Found[float]:
    """The point load of a use, lbf, by its words up to the first comma: 'stair tread', 'guard', 'garage'.

    Raises UnknownName if no such use is listed.
    """
    row = row_of("live_point_loads", "use", use.partition(",")[0], "use with a point load", folded)
    return Found(float(row["load"]), source_of(row), f"{row['use']}: {row['load']} lb, {row['on']}")
