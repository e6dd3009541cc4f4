"""The typefaces that typst brings along, and how text with letters that none of them has is printed all the same.

No typeface of the computer is used, so that a sheet looks alike wherever it is made. A letter that the typefaces lack
is printed as its number in the Unicode standard, `[U+1FAB5]`, and never left out.
"""

from __future__ import annotations

import re
import unicodedata
from bisect import bisect_right

from ...lettering import legible

TEXT_FACE, CODE_FACE = "Libertinus Serif", "DejaVu Sans Mono"
FACES = (TEXT_FACE, "New Computer Modern", "New Computer Modern Math", CODE_FACE)
BOX = "□"  # in drawings, where there is no room for the number
LEFT_TO_RIGHT = "\u200e"  # a mark without width
BREAK = "\u200b"  # where a long word may be broken; without width too
_MARKS = 2  # accents over one letter that are printed; more would run into the lines above
# what the four typefaces have between them, in typst 0.15: first and last number of each range
_HELD = (
    (0x0020, 0x007E), (0x00A0, 0x0377), (0x037A, 0x037F), (0x0384, 0x04FF), (0x0510, 0x0513), (0x051A, 0x051D),
    (0x0531, 0x05F4), (0x0606, 0x060C), (0x061B, 0x061B), (0x061F, 0x061F), (0x0621, 0x063A), (0x0640, 0x0655),
    (0x0660, 0x066D), (0x06F0, 0x06F9), (0x10D0, 0x10FF), (0x1D00, 0x20C0), (0x20D0, 0x2151), (0x2153, 0x2184),
    (0x2190, 0x23FF),
    (0x2422, 0x2423), (0x2460, 0x262F), (0x2638, 0x268B), (0x2690, 0x269C), (0x26A0, 0x26A7), (0x26AA, 0x26B2),
    (0x2701, 0x2704), (0x2706, 0x2709), (0x270C, 0x2727), (0x2729, 0x274B), (0x2758, 0x275E), (0x2761, 0x277F),
    (0x2794, 0x2794), (0x2798, 0x27AF), (0x27B1, 0x2B5F), (0x2C60, 0x2C7F), (0xFB00, 0xFB06), (0xFFFD, 0xFFFD),
    (0x1D400, 0x1D7FF),
)  # fmt: skip
_STARTS = [first for first, _last in _HELD]
_HIDDEN = frozenset(("Cc", "Cf", "Cn", "Co", "Cs", "Zl", "Zp"))  # nothing to see, or nothing assigned
_PLAIN = re.compile("[\n\t -~\u00a0-\u00ac\u00ae-\u02ff–—‘’“”…·×÷−≤≥°′″⁰²³√]*")
_FROM_THE_RIGHT = re.compile("[\u0590-\u08ff\ufb1d-\ufdff\ufe70-\ufefc]+")


class Printable(str):
    """A text that may be printed as it is: nothing in it is looked at again."""

    __slots__ = ()


def printable(text: str, longest: int = 0) -> Printable:
    """The text with what the typefaces lack as numbers, `[U+05D0 U+05D1]`.

    What reads from right to left is closed by a mark, so that numbers after it stay where they were written. Words of
    more than `longest` letters (0: none) may be broken anywhere.
    """
    if isinstance(text, Printable):
        return text
    line = legible(text)
    if not _PLAIN.fullmatch(line):
        line = _FROM_THE_RIGHT.sub(lambda run: run[0] + LEFT_TO_RIGHT, _coded(line))
    return Printable(_breakable(line, longest) if longest else line)


def in_drawing(text: str) -> str:
    """The text with a box for each letter that the typefaces lack, as long as it was."""
    line = legible(text)
    if _PLAIN.fullmatch(line):
        return line
    shown = "".join(letter if ok else BOX for letter, ok in _looked_at(line))
    return _FROM_THE_RIGHT.sub(lambda run: run[0] + LEFT_TO_RIGHT, shown)


def held(letter: str) -> bool:
    """Do the typefaces have this letter, and does it show?"""
    number = ord(letter)
    if unicodedata.category(letter) in _HIDDEN:
        return letter in "\n\t" or letter == "\ufffd"
    place = bisect_right(_STARTS, number) - 1
    return place >= 0 and number <= _HELD[place][1]


def _looked_at(text: str) -> list[tuple[str, bool]]:
    """Each letter, and whether it is printed as it is."""
    found: list[tuple[str, bool]] = []
    marks = 0
    for letter in text:
        marks = marks + 1 if unicodedata.combining(letter) else 0
        found.append((letter, held(letter) and marks <= _MARKS))
    return found


def _coded(text: str) -> str:
    made: list[str] = []
    open_ = False  # a bracket with numbers has been begun
    for letter, ok in _looked_at(text):
        if ok:
            made.append("]" * open_ + letter)
        else:
            made.append(f"{' ' if open_ else '['}U+{ord(letter):04X}")
        open_ = not ok
    return "".join(made) + "]" * open_


def _breakable(text: str, longest: int) -> str:
    def broken(word: re.Match[str]) -> str:
        return BREAK.join(word[0][i : i + longest] for i in range(0, len(word[0]), longest))

    return re.sub(rf"[^\s{BREAK}]{{{longest + 1},}}", broken, text)
