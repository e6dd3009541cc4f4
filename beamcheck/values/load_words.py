"""What the words beside a load, a row or a wall, or of evidence say: rows of `tables/load_words.csv`, by sort.

A sort is one question that is put to the words: which use of a room, which layer with its least weight, whether the
roof is open below, and so on. The longest words that fit count, so that 'attic without storage' is not 'storage'.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from functools import lru_cache

from ..provenance import Source
from .loader import rows, source_of

SQUARE_FOOT = 144.0  # in2
_MASK = "mask"  # words that must not be taken for what they hold: of every sort, or of that named after it


@dataclass(frozen=True)
class Told:
    """One thing that words say: the words found, what they mean, a weight per area where they have one, lbf/in2."""

    words: str
    says: str
    weight: float | None
    source: Source


@lru_cache(maxsize=64)
def _pattern(sort: str) -> re.Pattern[str]:
    sorts = (sort, _MASK, f"{_MASK} {sort}")
    words = sorted({row["words"] for row in rows("load_words") if row["sort"] in sorts}, key=len, reverse=True)
    return re.compile(rf"(?<![\w-])(?:{'|'.join(map(re.escape, words))})(?![\w-])", re.IGNORECASE)


@lru_cache(maxsize=64)
def _told(sort: str) -> dict[str, Told]:
    return {
        row["words"].casefold(): Told(
            row["words"], row["says"], float(row["psf"]) / SQUARE_FOOT if row["psf"] else None, source_of(row)
        )
        for row in rows("load_words")
        if row["sort"] == sort
    }


@lru_cache(maxsize=4096)
def told(text: str, sort: str) -> tuple[Told, ...]:
    """What a text says of one sort, each thing once, in the order of the text; nothing where it says nothing of it."""
    known = _told(sort)
    spaced = " ".join(text.split())
    found = (known.get(match.group().casefold()) for match in _pattern(sort).finditer(spaced))
    by_meaning = {one.says: one for one in found if one is not None}
    return tuple(by_meaning.values())
