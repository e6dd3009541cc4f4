"""What a formula refuses, in words for people: symbols by what they stand for."""

from __future__ import annotations

from functools import lru_cache

from ..errors import OutOfRange
from .loader import rows


def in_trade_words(error: Exception) -> str:
    """The text of an error; of a formula that does not hold its symbols by what they stand for."""
    if not isinstance(error, OutOfRange) or error.worded is None:
        return str(error)
    text = error.worded(_called)
    return f"{text} ({error.clause})" if error.clause else text


def _called(symbol: str) -> tuple[str, str]:
    meaning, unit = _nomenclature().get(symbol, ("", ""))
    return meaning or symbol, f" {unit.replace('lbf*', 'lb-').replace('lbf', 'lb')}" if unit else ""


@lru_cache(maxsize=1)
def _nomenclature() -> dict[str, tuple[str, str]]:
    return {row["name"]: (row["meaning"], row["unit"]) for row in rows("nomenclature")}
