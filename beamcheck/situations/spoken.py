"""Lengths and amounts as people say them: `13 6`, `13'-6`, `13' 6 1/2`, `162`, `4.1 m`; `40` where psf is asked for."""

from __future__ import annotations

import re
from fractions import Fraction

from ..errors import UnitError
from ..units import read, show
from ..units.number_text import plain

MOST_FEET = 40  # a bare number up to this is feet where feet are asked for, and inches above

_FRACTION = r"(?:[0-9]+/[0-9]+)"
_INCHES = rf"(?:[0-9]+(?:\.[0-9]+)?(?:[ -]{_FRACTION})?|{_FRACTION})"
_FEET_INCHES = re.compile(rf"([0-9]+)(?: ?(?:'|ft\.?|feet|foot) ?-? ?| ?- ?| )({_INCHES}) ?(?:\"|in\.?|inch|inches)?")
_BARE = re.compile(rf"{_INCHES}")


def spoken_length(said: str, *, feet: bool, none: bool = False) -> str:
    """A length as a job file writes it, '13 ft 6 in', from what somebody says.

    Parameters
    ----------
    said : str
        With or without units. Two numbers are feet and inches; one without unit is in feet where `feet` and it is at
        most 40, else inches.
    feet : bool
        Whether the question asks for feet.
    none : bool
        Whether 0 is an answer, as for a gap.

    Raises
    ------
    UnitError
        If it cannot be meant; the text says what would be right.

    Examples
    --------
    >>> [spoken_length(said, feet=True) for said in ("13 6", "13'-6", "162", "13' 6 1/2\\"", "13")]
    ['13 ft 6 in', '13 ft 6 in', '13 ft 6 in', '13 ft 6 1/2 in', '13 ft']
    """
    text = plain(said).strip().lower()
    if not text:
        raise UnitError("a length is asked for, such as " + ("13 ft 6 in, 13 6 or 162" if feet else "5 1/2"))
    bare = _BARE.fullmatch(text)
    if bare and not (feet and _two_numbers(text)):
        value = _number(text)
        unit = "ft" if feet and value <= MOST_FEET else "in"
        if none and value == 0:
            return "0 in"
        return _written(_read(f"{text} {unit}", said))
    if feet and (both := _FEET_INCHES.fullmatch(text)):
        whole, inches = both.groups()
        if _number(inches) >= 12:
            raise UnitError(
                f"{said!r}: after feet the inches are below 12, not {inches}; in all inches write one number"
            )
        return _written(12.0 * int(whole) + float(_number(inches)))
    try:
        inches_of = read(text, "length")
    except UnitError as error:
        raise UnitError(f"{error}; say it like {'13 6, 13 ft 6 in or 162' if feet else '5 1/2 or 5.5'}") from None
    return text if re.search(r"(?:mm|cm|m)$", text) else _written(inches_of)


def spoken_amount(said: str, kind: str, unit: str) -> str:
    """A load, force or percentage; a bare number is in the unit that the question names.

    Raises UnitError if it is none.
    """
    text = plain(said).strip()
    if re.fullmatch(r"-?[0-9][0-9,.]*", text):
        text = f"{text} {unit}"
    read(text, kind)
    return text


def _two_numbers(text: str) -> bool:
    """'13 6' and '13-6' are feet and inches; '13 1/2' is one number."""
    return bool(re.fullmatch(r"[0-9]+[ -][0-9]+(?:\.[0-9]+)?(?:[ -][0-9]+/[0-9]+)?", text))


def _number(text: str) -> Fraction:
    parts = re.split(r"[ -]", text)
    try:
        return sum((Fraction(part) for part in parts), Fraction(0))
    except ZeroDivisionError:
        raise UnitError(f"{text!r}: nothing is divided by zero") from None


def _read(text: str, said: str) -> float:
    value = read(text, "length")
    if value <= 0.0:
        raise UnitError(f"{said!r}: a length is more than nothing")
    return value


def _written(inches: float) -> str:
    """Feet and inches to 1/16 where it is one; otherwise the inches as they are."""
    if abs(inches * 16.0 - round(inches * 16.0)) > 1e-6:
        return f"{inches:.6g} in"
    return show(inches, "length", "US")
