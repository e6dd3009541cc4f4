"""Inner floats as text for people, in US or SI units. The text is to be looked at: no check uses a rounded value."""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping
from contextlib import contextmanager
from contextvars import ContextVar
from fractions import Fraction
from types import MappingProxyType
from typing import Any

from ..errors import OutOfRange, UnitError, UnknownName
from ..records import dataclass
from .kinds import kind_of, load_part
from .unit_list import UNITS, Unit

MINUS = "−"
SIXTEENTHS = 16
FEET_FROM = 24  # in; shorter lengths are shown in inches only


@dataclass(frozen=True)
class _Style:
    """How a kind is shown: printed label, unit, and the most decimals (three significant digits otherwise)."""

    label: str
    unit: Unit
    decimals: int


_NONE = Unit("", "pure number", Fraction(1))
_STYLES: Mapping[str, tuple[_Style, _Style]] = MappingProxyType(
    {
        "length": (_Style("in", UNITS["in"], 4), _Style("mm", UNITS["mm"], 0)),
        "offset": (_Style("in", UNITS["in"], 4), _Style("mm", UNITS["mm"], 0)),
        "small length": (_Style("in", UNITS["in"], 3), _Style("mm", UNITS["mm"], 1)),
        "force": (_Style("lb", UNITS["lb"], 1), _Style("kN", UNITS["kN"], 3)),
        "line load": (_Style("plf", UNITS["plf"], 1), _Style("kN/m", UNITS["kN/m"], 3)),
        "stiffness": (_Style("lb/in", UNITS["lb/in"], 0), _Style("kN/m", UNITS["kN/m"], 0)),
        "area load": (_Style("psf", UNITS["psf"], 1), _Style("kPa", UNITS["kPa"], 3)),
        "stress": (_Style("psi", UNITS["psi"], 1), _Style("MPa", UNITS["MPa"], 3)),
        "moment": (_Style("lb-ft", UNITS["lb-ft"], 1), _Style("kN·m", UNITS["kN-m"], 3)),
        "density": (_Style("pcf", UNITS["pcf"], 1), _Style("kg/m³", UNITS["kg/m3"], 0)),
        "temperature": (_Style("°F", UNITS["F"], 1), _Style("°C", UNITS["C"], 1)),
        "slope": (_Style("deg", UNITS["deg"], 1), _Style("deg", UNITS["deg"], 1)),
        "angle": (_Style("deg", UNITS["deg"], 1), _Style("deg", UNITS["deg"], 1)),
        "moisture": (_Style("%", UNITS["%"], 1), _Style("%", UNITS["%"], 1)),
        "area": (_Style("in²", UNITS["in2"], 2), _Style("mm²", UNITS["mm2"], 0)),
        "section modulus": (_Style("in³", UNITS["in3"], 2), _Style("cm³", UNITS["cm3"], 1)),
        "inertia": (_Style("in⁴", UNITS["in4"], 2), _Style("cm⁴", UNITS["cm4"], 1)),
        "ratio": (_Style("", _NONE, 4), _Style("", _NONE, 4)),
    }
)  # fmt: skip


_SYSTEM: ContextVar[str] = ContextVar("system of units", default="US")


@contextmanager
def shown_in(system: str) -> Iterator[None]:
    """Within this block `show` speaks in the given system of units unless it is told otherwise."""
    token = _SYSTEM.set(system)
    try:
        yield
    finally:
        _SYSTEM.reset(token)


def show(value: float | tuple[float, str], kind: str, system: str | None = None) -> str:
    """A quantity as text for people, such as '14 ft 6 in', '1,240 lb', '5.52 kN'.

    Parameters
    ----------
    value : float, or for 'load' a tuple of (float, str)
        In the kind's inner unit.
    kind : str
        A key of KINDS.
    system : 'US', 'SI' or None
        Units of the text; None is the system of the surrounding `shown_in`, else US.

    Returns
    -------
    str
        Number and unit. Lengths to the nearest 1/16 in or mm, other kinds with three significant digits or all digits
        before the point. A ratio above 1 is never shown as 1.

    Raises
    ------
    UnitError
        If the value is not finite (a ratio may be infinite).
    UnknownName
        If there is no such kind or system.

    Examples
    --------
    >>> show(174.0, "length")
    '14 ft 6 in'
    >>> show(1.0004, "ratio")
    '1.0004'
    """
    number, unit = show_number(value, kind, system)
    return f"{number} {unit}" if unit else number


def show_number(value: float | tuple[float, str], kind: str, system: str | None = None) -> tuple[str, str]:
    """The text of `show` as number and unit; the unit is '' for ratios, '6:12' and lengths in feet and inches.

    Parameters, units and errors are those of `show`.
    """
    kind_of(kind)
    system = _SYSTEM.get() if system is None else system
    if kind == "load":
        if not isinstance(value, tuple):
            raise UnitError("a load is shown from its value and what it is, such as (0.25, 'area')")
        amount, what = value
        return show_number(amount, load_part(what), system)
    style = _style(kind, system)
    if isinstance(value, tuple):
        raise UnitError(f"{kind_of(kind).with_article} is shown from one number")
    if value == math.inf and kind == "ratio":
        return "infinite", ""
    if not math.isfinite(value):
        raise UnitError(f"{kind_of(kind).with_article} of {value} cannot be shown")
    if kind in ("length", "offset"):
        return _feet_and_inches(value) if system == "US" else _meters(value)
    if kind == "ratio":
        return _ratio(value), ""
    if kind == "slope" and system == "US" and (rise := _rise_in_12(value)):
        return f"{rise}:12", ""
    return _decimal(from_inner(value, kind, system), style.decimals, commas=system == "US"), style.label


def from_inner(value: Any, kind: str, system: str = "US") -> Any:
    """An inner value in the unit that `unit_label` names.

    `value`: in the kind's inner unit. `kind`: a key of KINDS other than 'load'. `system`: 'US' or 'SI'. Returns lengths
    in inches or mm. Raises UnknownName if there is no such kind or system.
    """
    unit = _style(kind, system).unit
    return (value - float(unit.offset)) * float(unit.factor.denominator) / float(unit.factor.numerator)


def unit_label(kind: str, system: str = "US") -> str:
    """The printed unit of `from_inner`: 'in', 'kN/m', ''. Raises UnknownName if there is no such kind or system."""
    return _style(kind, system).label


def down_to_inch(length: float) -> float:
    """A length rounded down to a whole inch.

    `length`: [in]. Returns inches; a length short of a whole inch by less than 1e-9 of itself counts as that inch.
    Raises OutOfRange if the length is not finite.
    """
    if not math.isfinite(length):
        raise OutOfRange(f"a length of {length} cannot be rounded down to an inch")
    return float(math.floor(length + 1e-9 * abs(length)))


def _style(kind: str, system: str) -> _Style:
    if kind not in _STYLES:
        raise UnknownName("kind of quantity", kind, tuple(_STYLES))
    if system not in ("US", "SI"):
        raise UnknownName("system of units", system, ("US", "SI"))
    return _STYLES[kind][0 if system == "US" else 1]


def _size(value: float) -> int:
    """The power of ten of the first digit, once rounded to three: 9.996 is 10.0, so 1."""
    return int(f"{abs(value):.2e}".partition("e")[2])


def _decimal(value: float, most: int, commas: bool) -> str:
    """Three significant digits, no digit before the point lost, no trailing zeros, no minus before zero."""
    size = _size(value)
    text = f"{abs(value):,.{min(max(2 - size, 0), most)}f}"
    if "." in text:
        text = text.rstrip("0").rstrip(".")
    return (MINUS if value < 0 and text != "0" else "") + (text if commas else text.replace(",", ""))


def _ratio(value: float) -> str:
    size = _size(value)
    decimals = min(max(2 - size, 0), 4)
    text = f"{abs(value):.{decimals}f}"
    while value > 1 and float(text) <= 1:  # 1.0004 fails a check: it must not be printed as 1.00
        decimals += 1
        text = f"{value:.{decimals}f}"
    return (MINUS if value < 0 and float(text) else "") + text


def _feet_and_inches(value: float) -> tuple[str, str]:
    sixteenths = round(abs(value) * SIXTEENTHS)
    sign = MINUS if value < 0 and sixteenths else ""
    inches, over = divmod(sixteenths, SIXTEENTHS)
    feet, inches = divmod(inches, 12) if inches >= FEET_FROM else (0, inches)
    parts = [str(inches)] if inches or not over else []
    if over:
        parts.append(str(Fraction(over, SIXTEENTHS)))
    if not feet:
        return sign + " ".join(parts), "in"
    rest = f" {' '.join(parts)} in" if inches or over else ""
    return f"{sign}{feet:,} ft{rest}", ""


def show_inches(value: float, system: str | None = None) -> str:
    """A length as millwork writes it, `24 in` and never `2 ft`; in SI as `show` does.

    Examples
    --------
    >>> show_inches(24.5)
    '24 1/2 in'
    """
    if (_SYSTEM.get() if system is None else system) != "US":
        return show(value, "length", system)
    whole, over = divmod(round(abs(value) * SIXTEENTHS), SIXTEENTHS)
    parts = [f"{whole:,}"] if whole or not over else []
    parts += [str(Fraction(over, SIXTEENTHS))] if over else []
    return f"{MINUS if value < 0 and (whole or over) else ''}{' '.join(parts)} in"


def _meters(value: float) -> tuple[str, str]:
    mm = round(abs(from_inner(value, "length", "SI")))
    sign = MINUS if value < 0 and mm else ""
    if mm < 1000:
        return f"{sign}{mm}", "mm"
    return sign + f"{mm / 1000:.3f}".rstrip("0").rstrip("."), "m"


def _rise_in_12(degrees: float) -> str:
    """The rise of a slope in whole or half inches per foot; '' when it is not such a slope."""
    rise = 12 * math.tan(math.radians(degrees))
    halves = round(2 * rise)
    return f"{halves / 2:g}" if abs(rise - halves / 2) < 1e-6 and 0 < halves < 100 else ""
