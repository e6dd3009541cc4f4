"""How numbers are written on a sheet: enough digits to recompute by hand, none that pretend."""

from __future__ import annotations

import math
from decimal import ROUND_HALF_UP, Context, Decimal

DIGITS = 4  # significant digits of a step; whole numbers below SCIENTIFIC_FROM keep all theirs
SCIENTIFIC_FROM = 1e8
SCIENTIFIC_BELOW = 1e-4
_EXACT = 1e-12  # relative: noise of double precision is not worth trailing zeros
_WIDE = Context(prec=60)


def rounded(value: float, digits: int = DIGITS) -> float:
    """The number that `plain(value, digits)` shows."""
    if value == 0 or not math.isfinite(value):
        return value
    return float(_round(value, digits))


def parts(value: float, digits: int = DIGITS) -> tuple[str, int | None]:
    """Digits and power of ten (None for an ordinary number): `('1,300,000', None)`, `('1.2', -5)`.

    Rounding is half up, as by hand. A number that is exact with fewer digits loses its trailing zeros (`1.15`); a
    rounded one keeps them (`1.000` is not quite 1).
    """
    if math.isnan(value):
        return "no value", None
    if math.isinf(value):
        return ("∞" if value > 0 else "-∞"), None
    if value == 0:
        return "0", None
    number = _round(value, digits)
    exact = abs(number - Decimal(repr(value))) <= Decimal(_EXACT) * abs(number)
    power = number.adjusted() if not SCIENTIFIC_BELOW <= abs(value) < SCIENTIFIC_FROM else None
    if power is not None:
        number = number.scaleb(-power, context=_WIDE)
    text = f"{number:,f}"
    if exact and "." in text:
        text = text.rstrip("0").rstrip(".")
    return text, power


def plain(value: float, digits: int = DIGITS) -> str:
    """The number as running text, with a true minus sign: `1,300,000`, `1.2×10^−5`."""
    text, power = parts(value, digits)
    shown = text if power is None else f"{text}×10^{power}"
    return shown.replace("-", "−")


def _round(value: float, digits: int) -> Decimal:
    """`value` with so many significant digits, but never fewer than its whole digits (below SCIENTIFIC_FROM)."""
    number = Decimal(repr(float(value)))
    last = number.adjusted() - digits + 1  # power of ten of the last digit kept
    if abs(value) < SCIENTIFIC_FROM:
        last = min(last, 0)
    return number.quantize(Decimal(1).scaleb(last), rounding=ROUND_HALF_UP, context=_WIDE)
