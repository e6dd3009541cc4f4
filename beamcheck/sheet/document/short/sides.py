"""Left for right in words, and the pieces that may be the mirror image of others."""

from __future__ import annotations

import re

KINDS = frozenset(("member", "joint"))
# a side, and not what is left of something; a word taken for the wrong one of both keeps two members apart
_SIDES = re.compile(
    r"(?<!\bis )(?<!\bare )(?<!\bwood )\b(left|right)\b(?! (?:out|over|behind|above|below|of|angle)|\":)",
    re.IGNORECASE,
)
_OTHER = {"left": "right", "right": "left", "Left": "Right", "Right": "Left"}


def other_side(text: str) -> str:
    """The text with left for right and right for left."""
    return _SIDES.sub(lambda side: _OTHER.get(side[0], side[0]), text)
