"""Statics that can be done again with a pocket calculator: lines in pounds, feet and inches, for whoever checks."""

from __future__ import annotations

from typing import Annotated

from ...calc.pad import Step
from ...records import dataclass
from ...units.marks import InUnitOf
from .pictures.beams import Table

FOOT = 12.0
BY_HAND = "by hand"
BY_FRAME = "by the frame"


@dataclass(frozen=True)
class StaticsLine:
    """`symbol = formula = numbers = text`. `value` is in the inner unit, `numbers` in those of `text`."""

    symbol: str
    formula: str
    numbers: str
    value: Annotated[float, InUnitOf("unit")]
    unit: str
    text: str
    note: str = ""


@dataclass(frozen=True)
class Statics:
    """How the forces of a piece were found. `how`: 'by hand' where a closed form gives the same, else 'by the frame'.

    `stations`: what the frame gives at the places that matter. `steps`: design values that the analysis used.
    """

    how: str
    words: str
    lines: tuple[StaticsLine, ...] = ()
    stations: Table | None = None
    steps: tuple[Step, ...] = ()


def four(value: float) -> str:
    """A number with four digits or more: `307.6`, `2,538`, `0.6263`."""
    if abs(value) >= 1000.0:
        return f"{value:,.0f}"
    return f"{value:.4g}"


def force_line(symbol: str, formula: str, numbers: str, value: float, note: str = "") -> StaticsLine:
    """A line that gives a force."""
    return StaticsLine(symbol, formula, numbers, value, "lbf", f"{four(value)} lb", note)


def load_line(symbol: str, numbers: str, value: float, note: str = "") -> StaticsLine:
    """A line that gives a load per length."""
    return StaticsLine(symbol, "", numbers, value, "lbf/in", f"{four(value * FOOT)} plf", note)


def moment_line(symbol: str, formula: str, numbers: str, value: float) -> StaticsLine:
    """A line that gives a moment."""
    return StaticsLine(symbol, formula, numbers, value, "lbf*in", f"{four(value / FOOT)} lb-ft")


def sag_line(symbol: str, formula: str, numbers: str, value: float, note: str = "") -> StaticsLine:
    """A line that gives a deflection."""
    return StaticsLine(symbol, formula, numbers, value, "in", f"{four(value)} in", note)


def terms(parts: list[tuple[float, float]]) -> str:
    """A sum of loads with their factors: `54 + 0.75 × 240`."""
    return " + ".join(four(amount) if factor == 1.0 else f"{factor:g} × {four(amount)}" for factor, amount in parts)


def stress_line(symbol: str, formula: str, numbers: str, value: float) -> StaticsLine:
    """A line that gives a stress."""
    return StaticsLine(symbol, formula, numbers, value, "psi", f"{four(value)} psi")
