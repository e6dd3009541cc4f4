"""Text on its way out: nothing in it that steers a page or a terminal, and only letters that the console has."""

from __future__ import annotations

import re
import unicodedata

_ILLEGAL = re.compile("[\x00-\x08\x0b\x0c\x0e-\x1f\x7f-\x9f\u202a-\u202e\u2066-\u2069\ud800-\udfff\ufffe\uffff]")
_PLAIN = {
    "−": "-", "–": "-", "—": "-", "‐": "-", "‑": "-", "×": "x", "·": ".", "…": "...", "•": "-", "°": " deg ",
    "“": '"', "”": '"', "‘": "'", "’": "'", "′": "'", "″": '"', "µ": "u", "²": "2", "³": "3", "⁴": "4",
    "≤": "<=", "≥": ">=", "≠": "<>", "≈": "~", "√": "sqrt", "∞": "infinite", "→": "->",
    "½": " 1/2", "¼": " 1/4", "¾": " 3/4", "\u00a0": " ", "\u202f": " ",
}  # fmt: skip


def legible(text: str) -> str:
    """Text without the characters that neither XML nor a page can hold; each becomes a replacement mark.

    So do the marks that force a direction of writing and those that steer a terminal: with them a name could make a
    ratio or a verdict read backwards, or hide it.
    """
    return _ILLEGAL.sub("\ufffd", text)


def for_console(text: str, encoding: str | None) -> str:
    """The text in such characters as the encoding has: a minus stays a minus, what has no likeness becomes '?'."""
    encoding = encoding or "ascii"
    try:
        text.encode(encoding)
        return text
    except UnicodeEncodeError:
        return "".join(_likeness(letter, encoding) for letter in text)
    except LookupError:  # a console whose encoding nobody knows gets plain ASCII
        return for_console(text, "ascii")


def _likeness(letter: str, encoding: str) -> str:
    bare = "".join(part for part in unicodedata.normalize("NFKD", letter) if not unicodedata.combining(part))
    for likely in (letter, _PLAIN.get(letter, ""), bare):
        try:
            likely.encode(encoding)
        except UnicodeEncodeError:
            continue
        if likely:
            return likely
    return "?"
