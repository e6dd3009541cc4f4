"""Reads the words of a grade stamp or certificate: the grade that they name, and what they lack to be evidence."""

from __future__ import annotations

import re
from collections.abc import Iterable
from functools import lru_cache

from ...records import dataclass
from ...values.loads import told
from .evidence import WHAT, doubt_in, no_answer

# What a stamp that is not there, or cannot be read, is called.
_NO_STAMP = re.compile(
    r"\b(?:no|without(?: a)?|not|un|lacks?(?: a)?|missing)[ -]?(?:visible |grade |legible )?(?:stamp|mark)(?:ed|s)?\b"
    r"|\b(?:illegible|unreadable|worn off|painted over|planed off|cut off|sawn off|faded|hidden|cannot be read)\b",
    re.IGNORECASE,
)
_ON_A_STAMP = re.compile(r"\b(?i:agency|mill)\b|\b(?!TODO\b|OK\b|TBD\b)[A-Z]{2,}+\b|\b[A-Z]-[A-Z]{2,}+\b")
_NUMBERED = re.compile(r"(?:\bno\.? ?|\bnr\.? ?|\bnumber |# ?)([1-4])\b", re.IGNORECASE)
_MILL = re.compile(r"\bmill (?:no\.? ?|number |# ?)?\d+", re.IGNORECASE)
# What may stand beside the mark of an agency: any other word may deny it or doubt it.
_BESIDE_AN_AGENCY = frozenset((
    "agency", "by", "certificate", "dense", "df", "doug", "douglas", "dry", "fir", "grade", "graded", "green",
    "grn", "hem", "hf", "ht", "invented", "kd", "l", "larch", "mark", "mill", "number", "of", "on", "photo", "s",
    "seen", "select", "stamp", "stamped", "structural", "the", "under", "visible",
))  # fmt: skip


@dataclass(frozen=True)
class Stamp:
    """What the words of a stamp or certificate say: a grade that is not the one entered, and what is wanting."""

    other_grade: str = ""
    missing: str = ""


@lru_cache(maxsize=1024)
def read_stamp(text: str, grade: str) -> Stamp:
    """The words of a stamp beside the grade of the entry."""
    if none := _NO_STAMP.search(text):
        return Stamp(missing=f"it says {none.group()!r}")
    if doubt := doubt_in(text) or next((one.words for one in told(text, "hearsay")), ""):
        return Stamp(missing=no_answer(doubt))
    bare = _MILL.sub(" ", re.sub(WHAT, " ", text))
    said, entered = _grades(bare), _grades(grade)
    if said and entered and not said & entered:
        return Stamp(other_grade=" or ".join(sorted(said)))
    if said and not re.search("[A-Za-z]{2}", _NUMBERED.sub(" ", bare)):
        return Stamp(missing="it is a grade alone, without the agency, mill or species beside it")
    if not said and not _ON_A_STAMP.search(text):
        return Stamp(missing="it names neither a grade nor an agency or mill")
    return Stamp()


def agency_named(text: str, agencies: Iterable[str]) -> str:
    """The one of some agencies whose mark is there by the words of a stamp; '' if none, several or unsure."""
    named = [one for one in agencies if re.search(rf"\b{re.escape(one)}\b", text)]
    if len(named) != 1:
        return ""
    bare = _NUMBERED.sub(" ", _MILL.sub(" ", text)).replace(named[0], " ")
    words = {word.casefold() for word in re.findall("[A-Za-z]+", bare)}
    return named[0] if words <= _BESIDE_AN_AGENCY else ""


def _grades(text: str) -> frozenset[str]:
    named = {one.says for one in told(text, "grade")}
    return frozenset(named | {f"No.{number}" for number in _NUMBERED.findall(text)})
