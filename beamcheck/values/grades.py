"""Grade names: what two spellings of one grade have in common."""

from __future__ import annotations

import re
from collections.abc import Mapping
from types import MappingProxyType

_WORDS: Mapping[str, tuple[str, ...]] = MappingProxyType({
    "sel": ("select",), "str": ("structural",), "struct": ("structural",), "ss": ("select", "structural"),
    "dss": ("dense", "select", "structural"), "const": ("construction",), "constr": ("construction",),
    "stand": ("standard",), "stnd": ("standard",), "std": ("standard",), "util": ("utility",),
    "and": (), "grade": (), "1": ("no1",), "2": ("no2",), "3": ("no3",), "1btr": ("no1btr",),
})  # fmt: skip

GradeKey = frozenset[str]


def grade_key(text: str) -> GradeKey:
    """The words of a grade without regard to case, order and abbreviation: 'No.2', '#2' and '2' are the same."""
    plain = text.casefold()
    plain = re.sub(r"(?:#|\bn(?:o|r)\b\.?|\bnumber\b)\s*(?=\d)|\bno(?=\d)", "no", plain)
    plain = re.sub(r"\bnon[\s-]*dense\b", "nondense", plain)
    plain = re.sub(
        r"(?<![\s-])[\s-]*(?:&|\+|\band\b)\s*(?:btr|better)\b", "btr", plain
    )  # 'No.1 & Btr' is a grade of its own
    words = re.findall(r"[a-z0-9]+", plain)
    return frozenset(part for word in words for part in _WORDS.get(word, (word,)))


def answers_to(row_grade: str, split_by_grain: bool) -> frozenset[GradeKey]:
    """The grades for which a row stands: 'No.3 and Stud' for either.

    Where a species is split by grain (`split_by_grain`) a grade named without its grain is answered by both rows.
    """
    whole = grade_key(row_grade)
    keys = {whole, *(grade_key(part) for part in re.split(r" and |/", row_grade))}
    if {"open", "grain"} <= whole:
        keys.add(whole - {"open", "grain"})
    elif split_by_grain:
        keys |= {key | {"close", "grain"} for key in tuple(keys)}
    return frozenset(keys)
