"""What the PDF prints as an equation is what was computed: the typst source of every printed step is read back."""

from __future__ import annotations

import math
import re
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest

from beamcheck.calc.pad import Step
from beamcheck.sheet.document.blocks import CheckBlock, Worked
from beamcheck.sheet.document.calc_sheet import compose
from beamcheck.sheet.document.mathematics import result_text
from beamcheck.sheet.document.symbols import symbol_source
from beamcheck.sheet.pdf.data import sheet_data
from beamcheck.sheet.pdf.text import spoken

from ...worked_examples.results import example
from ..typst_reader import read_back

DEMO = Path(__file__).parents[3] / "worked_examples" / "net_loft.toml"
_BECAUSE = re.compile(r' quad "because".*')
_UNIT = re.compile(r' thin "[^"]*"$')


def printed() -> Iterator[tuple[Step, dict[str, Any]]]:
    """Each worked step of the demo with the data from which the PDF prints it."""
    result = example("net_loft")
    blocks = compose(result, all_steps=True)
    checks = [block for block in blocks if isinstance(block, CheckBlock)]
    data = [block for block in sheet_data(result, blocks)["blocks"] if block["kind"] == "CheckBlock"]
    for check, shown in zip(checks, data, strict=True):
        steps = [line.entry.step for line in check.lines.lines if isinstance(line, Worked)]
        worked = [line for line in shown["lines"] if line["kind"] == "worked"]
        yield from zip(steps, worked, strict=True)


def sides(math_source: str) -> list[str]:
    """Symbol, expression, numbers, result: without the lines that say why a branch was taken, without line breaks."""
    rows = [_BECAUSE.sub("", row) for row in math_source.split(" \\\n") if not row.startswith('&"because"')]
    if len(rows) == 1 and "&" not in rows[0]:
        return rows[0].split(" = ")
    whole = rows[0]
    for row in rows[1:]:
        whole += " " + row.removeprefix("&quad ").replace("+ med", "+", 1).replace("- med", "-", 1)
    return [part.strip() for part in whole.replace("&=", "=").split(" = ")]


@pytest.fixture(scope="module")
def steps() -> list[tuple[Step, dict[str, Any]]]:
    return list(printed())


def test_printed_numbers_give_the_printed_result_and_the_computed_one(steps: list[tuple[Step, dict[str, Any]]]) -> None:
    """For all formulas that the demo uses: last line of numbers read back as a reader would."""
    formulas = set()
    for step, shown in steps:
        symbol, *rest = sides(shown["math"])
        assert symbol == symbol_source(step.symbol).source
        result = read_back(_UNIT.sub("", rest[-1]).replace('"', '"'), {"infinity": math.inf})
        numbers = read_back(_UNIT.sub("", rest[-2]) if len(rest) > 1 else _UNIT.sub("", rest[-1]), _constants(step))
        assert step.formula is not None
        assert result == pytest.approx(step.value, rel=6e-3 if abs(step.value) < 1e8 else 1e-3), step.formula.name
        assert numbers == pytest.approx(step.value, rel=1e-3, abs=1e-9), (step.formula.name, shown["math"])
        formulas.add(step.formula.name)
    assert len(formulas) > 60


def _constants(step: Step) -> dict[str, float]:
    """Symbols that a formula without numbers of its own still shows."""
    return {"infinity": math.inf} | {symbol_source(name).source: value for name, value in step.inputs.items()}


def test_printed_symbols_give_the_computed_result(steps: list[tuple[Step, dict[str, Any]]]) -> None:
    for step, shown in steps:
        _symbol, *rest = sides(shown["math"])
        if len(rest) < 3:
            continue  # nothing but numbers
        assert read_back(rest[0], _constants(step)) == pytest.approx(step.value, rel=1e-9, abs=1e-12)


def test_the_result_is_printed_with_its_unit_and_digits(steps: list[tuple[Step, dict[str, Any]]]) -> None:
    for step, shown in steps:
        told = spoken(shown["math"]).replace("-", "−").replace("infinity", "∞").replace(" ^", "^")
        if "×10^" not in result_text(step):
            assert f" = {result_text(step)}" in told


def test_an_equation_in_words() -> None:
    assert (
        spoken('f_b &= frac(M, S) \\\n&= 2 times 3 \\\n&quad times 4 thin "in³"') == "f_b = frac(M, S) = 2 × 3 × 4 in³"
    )
