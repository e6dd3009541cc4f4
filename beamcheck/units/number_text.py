"""Numbers as people write them: `1 1/2`, `1-1/2`, `½`, `1,240`, `1.8e6`; and typographic marks made plain."""

from __future__ import annotations

import re
import unicodedata
from fractions import Fraction

from ..errors import UnitError

LONGEST_TEXT = 100  # characters; no quantity needs more

_PLAIN = str.maketrans(
    dict.fromkeys("’‘′ʹ´`", "'")
    | dict.fromkeys("”“″ʺ˝", '"')
    | dict.fromkeys("−‐‑‒–—", "-")
    | dict.fromkeys("⁄∕", "/")
    | dict.fromkeys("º˚", "°")
    | {"∶": ":", "℃": "°C", "℉": "°F"}
)

WHOLE = r"(?:[0-9]{1,3}(?:,[0-9]{3})+|[0-9]+)"
DECIMAL = rf"(?:{WHOLE}(?:\.[0-9]*)?|\.[0-9]+)(?:[eE][+-]?[0-9]+)?"
NUMBER = rf"(?:(?:{WHOLE}[ -])?[0-9]+/[0-9]+|{DECIMAL})"  # a fraction with or without a whole number, or a decimal

_ON_THE_TAPE = (2, 4, 8, 16, 32, 64)  # parts of an inch
_PARTS = re.compile(rf"(?:(?P<whole>{WHOLE})[ -])?(?P<over>[0-9]+)/(?P<under>[0-9]+)")
_DIGITS_WITH_COMMA = re.compile(r"[0-9.]*,[0-9.,]*")
_THOUSANDS = re.compile(r"[1-9][0-9]{0,2}(?:,[0-9]{3})+(?:\.[0-9]*)?")


def quoted(text: str) -> str:
    """The text as typed, shortened, for error texts."""
    return repr(text if len(text) <= 40 else text[:37] + "...")


def plain(text: str) -> str:
    """Typographic quotes, primes, dashes and fractions as plain characters; single spaces; `''` as the inch mark.

    Raises UnitError if the text is too long to be a quantity, or holds a comma that does not part thousands.
    """
    if len(text) > LONGEST_TEXT:
        raise UnitError(f"{quoted(text)} is too long for a quantity ({len(text)} characters)")
    made = ""
    for at, char in enumerate(text):
        fraction = _fraction(char)
        if fraction and made[-1:].isdigit():
            made += " "
        made += fraction or char
        if fraction and text[at + 1 : at + 2].isdigit():
            made += " "  # so that `½2` does not become 1/22
    made = " ".join(made.translate(_PLAIN).replace("''", '"').split())
    for number in _DIGITS_WITH_COMMA.findall(made):
        if not _THOUSANDS.fullmatch(number):
            raise UnitError(f"{quoted(text)}: a comma only parts thousands (1,240); write decimals with a point (2.3)")
    return made


def _fraction(char: str) -> str:
    decomposed = unicodedata.decomposition(char)
    if not decomposed.startswith("<fraction>"):
        return ""
    return "".join(chr(int(code, 16)) for code in decomposed.split()[1:]).replace("\u2044", "/")


def exact(number: str, said: str) -> Fraction:
    """The exact value of a text that matches NUMBER; `said` is what the user typed, for the message.

    Raises UnitError for a zero denominator, a mixed number whose fraction is not below 1 or whose space may be missing,
    or an exponent beyond reason.
    """
    parts = _PARTS.fullmatch(number)
    if parts is None:
        mantissa, _, exponent = number.replace(",", "").lower().partition("e")
        if len(exponent) > 4:
            raise UnitError(f"{quoted(said)}: the exponent {quoted(exponent)} is beyond reason")
        return Fraction(mantissa) * Fraction(10) ** int(exponent or 0)
    over, under = int(parts["over"]), int(parts["under"])
    if under == 0:
        raise UnitError(f"{quoted(said)}: the fraction {parts['over']}/{parts['under']} divides by zero")
    if parts["whole"] is None:
        if over >= under and (meant := _whole_run_in(parts["over"], under)):
            value = f"{over // under} {over % under}/{under}" if over % under else f"{over // under}"
            raise UnitError(f"{quoted(said)}: {meant} or {value}? Write a space after the whole number")
        return Fraction(over, under)
    if over >= under:
        fraction = f"{parts['over']}/{parts['under']}"
        raise UnitError(f"{quoted(said)}: after a whole number the fraction is less than 1, not {fraction}")
    return int(parts["whole"].replace(",", "")) + Fraction(over, under)


def _whole_run_in(over: str, under: int) -> str:
    """`3 1/2` for 31/2, where a space may have been lost in a fraction of the tape; empty where none can have been."""
    if under not in _ON_THE_TAPE:
        return ""
    cuts = ((over[:n], over[n:]) for n in range(len(over) - 1, 0, -1))
    return next((f"{whole} {rest}/{under}" for whole, rest in cuts if rest[0] != "0" and int(rest) < under), "")


def comma_is_ambiguous(number: str) -> bool:
    """Could the only comma be meant as a decimal comma, as in `2,300` (m)?"""
    return number.count(",") == 1 and "." not in number
