"""The pad: what a check writes its calculation on.

`C_L = pad(beam_stability, F_bE=..., F_b_star=...)` computes and remembers formula, inputs and value. `SilentPad` has
the same interface, remembers nothing and takes arrays, so that a sweep runs the very code that fills a sheet.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import field
from typing import Annotated

from ..provenance import Source
from ..records import dataclass
from ..units.marks import InUnitOf, InUnitsOfSymbols, Named
from .core import Formula, Number


@dataclass(frozen=True)
class Step:
    """One line of a calculation: a formula with its inputs, or (formula None) a value that was taken from somewhere."""

    symbol: str
    value: Annotated[float, InUnitOf("unit"), Named("result")]
    unit: str
    clause: str = ""
    formula: Formula | None = None
    inputs: Annotated[Mapping[str, float], InUnitsOfSymbols()] = field(default_factory=dict)
    note: str = ""
    source: Source | None = None


class Pad:
    """Computes and remembers."""

    def __init__(self) -> None:
        self.steps: list[Step] = []

    def __call__(self, formula: Formula, /, note: str = "", symbol: str = "", **inputs: Number) -> Number:
        """Run the formula on the inputs and remember the step; `symbol` renames the result on the sheet."""
        value = formula(**inputs)
        self.steps.append(
            Step(symbol or formula.symbol, float(value), formula.unit, formula.clause, formula,
                 {name: float(given) for name, given in inputs.items()}, note)
        )  # fmt: skip
        return value

    def take(
        self, symbol: str, value: Number, unit: str = "", *, clause: str = "", note: str = "",
        source: Source | None = None,
    ) -> Number:  # fmt: skip
        """Remember a value that is looked up or given, with its reason, and hand it back."""
        self.steps.append(Step(symbol, float(value), unit, clause, None, {}, note, source))
        return value


class SilentPad(Pad):
    """Computes only."""

    def __call__(self, formula: Formula, /, note: str = "", symbol: str = "", **inputs: Number) -> Number:
        return formula(**inputs)

    def take(
        self, symbol: str, value: Number, unit: str = "", *, clause: str = "", note: str = "",
        source: Source | None = None,
    ) -> Number:  # fmt: skip
        return value
