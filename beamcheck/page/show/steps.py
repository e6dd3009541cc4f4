"""Where a number comes from: the steps of a check as lines of text, each with its clause and how it is known."""

from __future__ import annotations

from collections.abc import Iterator

from ...calc.describe import equation_text
from ...calc.pad import Step
from ...checks.core.result import Check
from ...records import dataclass
from ...sheet.document.numerals import plain

MOST = 80


@dataclass(frozen=True)
class Line:
    """One line: what it is, its equation, the figures that go in, the result, the clause or document, and the mark."""

    symbol: str
    equation: str
    figures: str
    result: str
    clause: str
    mark: str
    note: str


def lines_of(check: Check) -> list[Line]:
    """The steps of a check, the result first: so it is asked where a number comes from."""
    return list(_lines(check.steps[-MOST:]))[::-1]


def _lines(steps: tuple[Step, ...]) -> Iterator[Line]:
    for step in steps:
        symbol = _printed(step.symbol)
        result = f"{plain(step.value)} {step.unit}".strip()
        if step.formula is None:
            source = step.source
            clause = source.document if source is not None else step.clause
            yield Line(symbol, "", "", result, clause, source.how if source is not None else "worked out", step.note)
            continue
        figures = ", ".join(f"{_printed(name)} = {plain(value)}" for name, value in step.inputs.items())
        equation = _printed(equation_text(step.formula.tree))
        yield Line(symbol, equation, figures, result, step.clause or step.formula.clause, "formula", step.note)


def _printed(text: str) -> str:
    """A symbol or equation as it is printed, as far as plain text goes."""
    return text.replace("_prime", "′").replace("_star", "*").replace(" * ", " × ")
