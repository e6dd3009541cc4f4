"""What species and grade a stock is: the question, with woods that it may well be, so that it can be answered as it is
asked. The stamp's words are the next question.
"""

from __future__ import annotations

from typing import Any

from ....errors import BeamcheckError
from ....model.stock import Stock
from ....values.lumber import DesignValues, read_size, screening_rows
from ..asking.question import PlausibleAnswer, Question, ask
from .material import rows_to_screen

USUAL = ("Douglas Fir-Larch", "Southern Pine", "Spruce-Pine-Fir", "Hem-Fir")  # what framing is sold as
USUAL_GRADE = "No.2"
MOST = 4


def ask_grade(stock: Stock) -> Question:
    """What the wood of a stock is: of a surveyed timber by a certificate, of any other by its stamp."""
    surveyed = stock.survey is not None
    answers = [_answer(stock, row, "certificate" if surveyed else "stamp") for row in _may_be(stock)]
    key = "surveyed_grade" if surveyed else "grade"
    return ask(key, stock.name, f"stock.{stock.name}.grade", answers=answers)


def _may_be(stock: Stock) -> list[DesignValues]:
    """Of said candidates the strongest of each species and the weakest of all; else what framing is usually of."""
    try:
        if stock.candidates or stock.species != "unknown":
            rows = sorted(rows_to_screen(stock), key=lambda row: -row.F_b)
            best = {row.species: row for row in reversed(rows)}
            found = [row for row in rows if best[row.species] is row][: MOST - 1]
            return list({(row.species, row.grade): row for row in [*found, *rows[-1:]]}.values())
        size = read_size(stock.size)
    except BeamcheckError:
        return []
    found = []
    for species in USUAL:
        try:
            found += screening_rows([species], size, USUAL_GRADE)[:1]
        except BeamcheckError:
            continue  # not tabulated in that size
    return found


def _answer(stock: Stock, row: DesignValues, grade_from: str) -> PlausibleAnswer:
    at = f"stock.{stock.name}"
    sets: list[tuple[str, Any]] = [(f"{at}.candidates", None)] if stock.candidates else []
    sets += [(f"{at}.species", row.species), (f"{at}.grade", row.grade), (f"{at}.grade_from", grade_from)]
    return PlausibleAnswer(f"{row.species} {row.grade}", tuple(sets))
