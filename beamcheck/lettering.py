"""Text on its way out: nothing in it that steers a page or a terminal, and only letters that the console has."""

from __future__ import annotations

import re
import unicodedata

HIDDEN = re.compile(
    "[\x00-\x08\x0b\x0c\x0e-\x1f\x7f-\x9f\u061c\u180e\u200b\u200e\u200f\u2028-\u202e\u2060-\u206f\ud800-\udfff\ufeff\ufff9-\ufffb"
    "\ufffe\uffff\U000e0000-\U000e007f]"
)
_PLAIN = {
    "−": "-", "–": "-", "—": "-", "‐": "-", "‑": "-", "×": "x", "·": ".", "…": "...", "•": "-", "°": " deg ",
    "“": '"', "”": '"', "‘": "'", "’": "'", "′": "'", "″": '"', "µ": "u", "²": "2", "³": "3", "⁴": "4",
    "≤": "<=", "≥": ">=", "≠": "<>", "≈": "~", "√": "sqrt", "∞": "infinite", "→": "->",
    "½": " 1/2", "¼": " 1/4", "¾": " 3/4", "\u00a0": " ", "\u202f": " ",
}  # fmt: skip


def legible(text: str) -> str:
    """Text with the number of each character that nobody sees in its place, `[U+202E]`.

    Those are what neither XML nor a page can hold, the marks that force a direction of writing, those without width,
    and those that steer a terminal: with them a name could make a ratio or a verdict read backwards, or hide it.
    """
    return HIDDEN.sub(number_of, text)


def number_of(found: re.Match[str]) -> str:
    """The number of a character in the Unicode standard, to be read: `[U+202E]`."""
    return f"[U+{ord(found[0]):04X}]"


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
