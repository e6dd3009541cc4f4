"""The digest that a text of ours carries of all the rest of itself: lists, shop sheets, drawings, books, forms.

It stands behind the mark of the maker, before anything that a user wrote, and shows that somebody worked in the file
since. It has no key and is no signature.
"""

from __future__ import annotations

import hashlib
import re
from collections.abc import Iterable, Iterator

BLANK = "0" * 64  # where a maker leaves room for the digest
_PLACE = re.compile(r"""(\bdigest["'\s:=]{1,6}(?:content=["'])?)([0-9a-f]{64})(?![0-9a-f])""")
_HEAD = 4096  # letters at the start in which it must stand


def with_room(head: Iterable[tuple[str, str]]) -> Iterator[tuple[str, str]]:
    """The lines at the head of a list, label and text, with room for the digest behind the mark of the maker."""
    for label, text in head:
        yield label, text
        if label == "generator":
            yield "digest", BLANK


def with_digest(text: str) -> str:
    """The text with its digest in the room that was left for it. Raises ValueError if no room was left."""
    found = _PLACE.search(text, 0, _HEAD)
    if found is None or found[2] != BLANK:
        raise ValueError("no room was left for the digest at the start of this text")
    return text[: found.start(2)] + _digest(text) + text[found.end(2) :]


def digest_fits(text: str) -> bool | None:
    """Is it as it was written? None where it carries no digest. Line ends may have been changed on the way."""
    text = text.removeprefix("\ufeff").replace("\r\n", "\n")
    found = _PLACE.search(text, 0, _HEAD)
    if found is None:
        return None
    return found[2] == _digest(text[: found.start(2)] + BLANK + text[found.end(2) :])


def _digest(text: str) -> str:
    """SHA-256 of a text whose own digest is blank."""
    return hashlib.sha256(text.replace("\r\n", "\n").encode("utf-8", errors="replace")).hexdigest()
