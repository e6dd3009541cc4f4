"""Words that a text denies: 'no drywall screws' says that there are none, 'not for concrete' that it is for others."""

from __future__ import annotations

import re

_CLAUSES = re.compile(r"[;:,]|\.\s|\b(?:and|but)\b", re.IGNORECASE)
_DENIED = re.compile(
    r"\b(?:not|no|never|none|nothing|nor|without|rather than|instead of|reduced from)(?: (?:the|an?|any|to be|be|been|"
    r"being|for|hangers?|hardware|fasteners?|nails|screws|\w+ or))* $", re.IGNORECASE)  # fmt: skip
_NOT_USED = re.compile(r"(?: (?:loads?|values?|figures?|column))?(?: (?:is|are|was|were))? (?:not|never) "
                       r"(?:used|taken|allowed)\b", re.IGNORECASE)  # fmt: skip


def clauses(text: str) -> list[str]:
    """The parts of a text, each with one space between words; a denial goes no farther than its own."""
    return _CLAUSES.split(" ".join(text.split()))


def denied(clause: str, start: int, end: int) -> bool:
    """Whether a clause denies the words that stand from `start` to `end` in it."""
    return _DENIED.search(clause[:start]) is not None or _NOT_USED.match(clause[end:]) is not None
