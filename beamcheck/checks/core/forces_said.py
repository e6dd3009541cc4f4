"""Forces that the words of a paper name: it answers for those, and for no larger ones."""

from __future__ import annotations

import re
from collections.abc import Iterator

from ...errors import BeamcheckError
from ...units import read
from ...values.judgment import judgment

_FORCE = re.compile(
    r"(?<![\w.,])(\d[\d,]{0,9}(?:\.\d{1,3})?)(#(?!\w)| ?(?:lbs?|lbf|pounds?|kips?|kN|tons?)\b"
    r"(?! ?/| per\b(?! (?:seat|support|end|bearing|post|beam|rafter)\b)))",
    re.IGNORECASE,
)
_BEHIND = re.compile(
    r" ?(?:(?:of|in|as|for|net) ){0,2}"
    r"(up(?!\w| to\b)|uplift|upward|lift|hold-?down|sideways|lateral|horizontal|thrust|down|gravity|vertical)",
    re.IGNORECASE,
)
_BEFORE = re.compile(
    r"\b(uplift|upwards?|hold-?down|sideways|lateral|horizontal|thrust)"
    r"(?: (?:load|force|capacity|resistance|value|reaction))?(?: of|:| =)?(?: up to)? ?$",
    re.IGNORECASE,
)
_UNITS = {"#": "lb", "lbs": "lb", "pound": "lb", "pounds": "lb", "kips": "kip", "kn": "kN", "ton": "kip", "tons": "kip"}
_SHORT_TON = 2.0  # kip: the lightest of the tons


def forces_said(text: str, way: str | None = None) -> Iterator[float]:
    """Every force that such words name, lbf; of one way only those: 'up' and 'sideways' by their words, '' the rest."""
    told = 0  # up to where words are those of the figures before
    for found in _FORCE.finditer(text):
        before, behind = _BEFORE.search(text[told : found.start()]), _BEHIND.match(text, found.end())
        word, told = before or behind, found.end() if before or not behind else behind.end()
        number, unit = found[1], found[2].strip().casefold()
        try:
            force = read(f"{number} {_UNITS.get(unit, unit)}", "force")
        except BeamcheckError:
            continue
        if way is None or way == _way(word[1] if word else ""):
            yield _SHORT_TON * force if unit.startswith("ton") else force


def _way(word: str) -> str:
    """Which way a figure is for, by the word right behind it or right before it."""
    if word.casefold().startswith(("up", "lift", "hold")):
        return "up"
    return "" if word.casefold() in ("", "down", "gravity", "vertical") else "sideways"


def same_force(one: float, other: float) -> bool:
    """Whether two figures differ by no more than rounding between units."""
    return abs(one - other) <= _rounded(other)


def named_too_small(text: str, force: float) -> float | None:
    """The largest force that a paper names, where more comes to what it answers for; lbf."""
    most = max(forces_said(text), default=0.0)
    return most if 0.0 < most < force - _rounded(force) else None


def _rounded(force: float) -> float:
    return judgment("forces of one paper and one entry").value * force
