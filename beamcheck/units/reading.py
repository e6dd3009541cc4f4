"""Text or pint in, plain floats in inner units out. What is not plainly right is refused with a right example."""

from __future__ import annotations

import math
import re
from fractions import Fraction
from numbers import Number
from typing import Literal, overload

from ..errors import UnitError, nearest
from . import pint_door
from .kinds import LOAD_KINDS, Kind, either, kind_of
from .number_text import NUMBER, WHOLE, comma_is_ambiguous, exact, plain, quoted
from .unit_list import Unit, find_unit, unit_names, unit_spellings

SMALLEST = 1e-9  # below this, in any inner unit, a value that is not zero is a slip or the dust of a subtraction

_ONE = re.compile(rf"({NUMBER}) ?(.*)")
_FEET_AND_MORE = re.compile(rf"({NUMBER}) ?(?:feet|foot|ft\.?|')(.*)")
_INCHES = re.compile(rf"(?: ?- |-| |)({NUMBER}) ?(?:inches|inch|in\.?|\")")  # `-` is a joint: 7'-6"
_NO_INCH_MARK = re.compile(rf"(?: ?- |-| |){NUMBER}")
_RISE_AND_RUN = re.compile(rf"({NUMBER})(?: ?[:/] ?| in |-in-)({WHOLE})")


# A literal 'load' is also a str, and its answer differs from that of the other kinds: the first overload comes first.
@overload
def read(value: object, kind: Literal["load"]) -> tuple[float, str]: ...  # type: ignore[overload-overlap]
@overload
def read(value: object, kind: str) -> float: ...
def read(value: object, kind: str) -> float | tuple[float, str]:
    """Read a quantity at the door.

    `value`: str or pint.Quantity: text with its unit, such as '14 ft 6 in' or '40 psf', or one real pint quantity.
    Plain numbers only for 'ratio'. `kind`: a key of KINDS, which names the inner unit. Returns the value in the kind's
    inner unit. For 'load' also what it is: 'area' [lbf/in2], 'line' [lbf/in] or 'point' [lbf]. Raises UnitError if the
    unit is missing, unknown or of the wrong dimension, or the number cannot be meant; the text says what would be
    right; UnknownName if there is no such kind.

    Examples
    --------
    >>> read("14 ft 6 in", "length")
    174.0
    >>> read("100 lb", "load")
    (100.0, 'point')
    """
    wanted = kind_of(kind)
    if kind == "load":
        return _read_load(value, wanted)
    if pint_door.is_quantity(value):
        return _believed(pint_door.from_pint(value, wanted), wanted, pint_door.said(value))
    if kind == "ratio" and isinstance(value, (int, float)) and not isinstance(value, bool):
        return _believed(value, wanted, str(value) if isinstance(value, float) else "the integer")
    return _read_text(_text(value, wanted), wanted)


def _read_load(value: object, wanted: Kind) -> tuple[float, str]:
    if pint_door.is_quantity(value):
        amount, dimension = pint_door.load_from_pint(value, wanted)
        return _as_load(amount, dimension, wanted, pint_door.said(value))
    said = _text(value, wanted)
    sign, text = _sign(plain(said), wanted, said)
    number, unit = _number_and_unit(text, wanted, said)
    return _as_load(sign * number * unit.factor, unit.dimension, wanted, said)


def _as_load(amount: Fraction | float, dimension: str, wanted: Kind, said: str) -> tuple[float, str]:
    what = ("area", "line", "point")[wanted.dimensions.index(dimension)]
    return _believed(amount, kind_of(LOAD_KINDS[what]), said), what


def _text(value: object, wanted: Kind) -> str:
    if isinstance(value, str):
        return value
    how = f"{wanted.with_article} is text with its unit, {_for_example(wanted)}, or a pint quantity"
    if wanted.name == "ratio":
        how = f"a ratio is a number, {_for_example(wanted)}"
    if isinstance(value, Number) and not isinstance(value, bool):
        raise UnitError(f"a bare number has no unit; {how}")
    raise UnitError(f"{how}, not {type(value).__name__}")


def _read_text(said: str, wanted: Kind) -> float:
    sign, text = _sign(plain(said), wanted, said)
    if wanted.name == "slope" and (match := _RISE_AND_RUN.fullmatch(text.lower())):
        rise, run = exact(match[1], said), exact(match[2], said)
        if run == 0:
            raise UnitError(f"{quoted(said)}: the run of a slope is above zero, {_for_example(wanted)}")
        angle = math.atan2(_believed(rise, _RISE, said), _believed(run, _RISE, said))
        return _believed(math.degrees(angle), wanted, said)
    if wanted.name == "ratio":
        if not re.fullmatch(NUMBER, text):
            raise UnitError(f"{quoted(said)} is not a ratio, which is a number without a unit, {_for_example(wanted)}")
        return _believed(exact(text, said), wanted, said)
    if wanted.dimensions == ("length",) and (inches := _feet_and_inches(text.lower(), wanted, said)) is not None:
        return _believed(sign * inches, wanted, said)
    number, unit = _number_and_unit(text, wanted, said)
    return _believed(sign * number * unit.factor + unit.offset, wanted, said)


_RISE = Kind("rise or run", "", "", (), "6:12", 0, 1e6)


def _sign(text: str, wanted: Kind, said: str) -> tuple[int, str]:
    if text[:1] not in ("+", "-") or not text:
        return 1, text
    if wanted.lowest >= 0:
        raise UnitError(_no_sign(wanted, said))
    return (-1 if text[0] == "-" else 1), text[1:].lstrip()


def _number_and_unit(text: str, wanted: Kind, said: str) -> tuple[Fraction, Unit]:
    match = _ONE.fullmatch(text)
    if match is None:
        raise UnitError(f"{quoted(said)} is not {wanted.with_article}: a number and its unit, {_for_example(wanted)}")
    number, unit_text = match.groups()
    if not unit_text:
        raise UnitError(
            f"{quoted(said)} has no unit; {wanted.with_article} is written with one, {_for_example(wanted)}"
        )
    unit = find_unit(unit_text)
    if unit is None:
        raise UnitError(f"{quoted(said)}: {_unknown(unit_text, wanted)}")
    if unit.dimension not in wanted.dimensions:
        hint = "; a mass is not a load: write kgf, N or kN" if unit.dimension.startswith("mass") else ""
        raise UnitError(
            f"{quoted(said)} has the dimension {unit.dimension}; {wanted.with_article} needs the dimension "
            f"{either(wanted.dimensions)}, {_for_example(wanted)}{hint}"
        )
    if unit.metric and "/" in number:
        raise UnitError(f"{quoted(said)}: metric values are written as decimals, not with a fraction")
    if unit.metric and comma_is_ambiguous(number):
        both = f"{number.replace(',', '')} or {number.replace(',', '.')} {unit.name}"
        raise UnitError(f"{quoted(said)} could mean {both}; write one of these, without a comma")
    if wanted.name == "slope" and "/" in number:
        raise UnitError(f"{quoted(said)}: degrees are decimals; rise over run has no unit, {_for_example(wanted)}")
    return exact(number, said), unit


def _unknown(unit_text: str, wanted: Kind) -> str:
    if not re.fullmatch(r"[^\W\d][^\d]*[2-4]?", unit_text):
        right = f"{wanted.with_article} is one number and its unit, {_for_example(wanted)}"
        return f"{quoted(unit_text)} is not a unit; {right}"
    close = nearest(unit_text, unit_spellings(wanted.dimensions))
    if not close.startswith("did you mean"):
        close = nearest(unit_text, unit_names(wanted.dimensions))
    return f"unit {quoted(unit_text)} is not known; {close}"


def _feet_and_inches(text: str, wanted: Kind, said: str) -> Fraction | None:
    """Inches of a text with feet and something after them; None if it is some other text."""
    match = _FEET_AND_MORE.fullmatch(text)
    one = _ONE.fullmatch(text)
    if match is None or not match[2] or (one and find_unit(one[2])):  # `3 ft2` is an area, not 3 ft 2
        return None
    feet, rest = match.groups()
    inches = _INCHES.fullmatch(rest)
    if inches is None:
        if _NO_INCH_MARK.fullmatch(rest):
            raise UnitError(
                f"{quoted(said)}: the number after the feet has no unit; write inches as in {quoted(text + ' in')}"
            )
        if re.match(r" ?[+-]", rest):
            raise UnitError(f"{quoted(said)}: there is a sign inside the {wanted.name}, {_for_example(wanted)}")
        return None
    if not re.fullmatch(WHOLE, feet):
        raise UnitError(f"{quoted(said)}: feet before inches are a whole number, not {feet}, {_for_example(wanted)}")
    after = exact(inches[1], said)
    if after >= 12:
        raise UnitError(f"{quoted(said)}: inches after feet are below 12, not {inches[1]}, {_for_example(wanted)}")
    return 12 * exact(feet, said) + after


def _believed(value: Fraction | float, wanted: Kind, said: str) -> float:
    """The value as a float, unless it is not finite or no such thing is ever so large or so small."""
    try:
        number = float(value)
    except OverflowError:
        number = math.inf if value > 0 else -math.inf
    if math.isnan(number):
        raise UnitError(f"{quoted(said)} is not a number; {wanted.with_article} is, {_for_example(wanted)}")
    if wanted.lowest == 0 and number < 0:
        raise UnitError(_no_sign(wanted, said))
    beyond = number >= wanted.highest if wanted.name == "slope" else number > wanted.highest
    if beyond or number < wanted.lowest:
        low, high = f"{wanted.lowest:,.10g}", f"{wanted.highest:,.10g} {wanted.inner}".rstrip()
        until = "to below" if wanted.name == "slope" else "to"
        raise UnitError(f"{quoted(said)} is out of reason: {wanted.with_article} here is from {low} {until} {high}")
    if value != 0 and abs(number) < SMALLEST:
        raise UnitError(f"{quoted(said)} is too small to be meant; for none write 0 with its unit")
    return number + 0.0  # + 0.0 turns -0.0 into 0.0


def _no_sign(wanted: Kind, said: str) -> str:
    return f"{quoted(said)}: {wanted.with_article} has no sign, {_for_example(wanted)}"


def _for_example(wanted: Kind) -> str:
    return f"for example {wanted.example!r}"
