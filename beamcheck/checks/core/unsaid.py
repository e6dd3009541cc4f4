"""What was not said of the wood and is taken on the safe side: a moisture reading, neighbors that share the load.

The questions go with what fails, so that it is worked out once more with the best plausible answers.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import replace

from ...model.sticks import Stick
from ...model.stock import Stock
from ...values.factors import least_repetitive, not_repetitive, repetitive_factor
from ...values.lumber import Size, read_size
from .asking.question import PlausibleAnswer, Question, ask
from .result import Check
from .wood.material import sold_dry

WITHOUT_FIGURES = ("wood.unknown",)  # ids of checks that fail by figures and show none


def with_unsaid(checks: Iterable[Check], questions: Iterable[Question]) -> list[Check]:
    """The checks; those whose figures are too much carry the questions."""
    asked = tuple(questions)

    def carrying(check: Check) -> Check:
        by_figures = check.ratio is not None or check.id in WITHOUT_FIGURES
        if not asked or check.verdict != "fails" or not by_figures:
            return check
        kept = {one.id: one for one in (*check.questions, *asked)}
        return replace(check, questions=tuple(kept.values()))

    return [carrying(check) for check in checks]


def _raised(stock: Stock, size: Size, members: int, spacing: float) -> bool:
    """Whether so many neighbors under a deck would raise what it takes."""
    if stock.report is not None:
        return stock.report.C_r != 1.0 and not not_repetitive(members, spacing, True)
    return stock.made == "sawn" and repetitive_factor(size, members, spacing, True).value != 1.0


def unsaid_of(stock: Stock, stick: Stick | None = None) -> Iterator[Question]:
    """What is open of the wood of a piece."""
    size = read_size(stock.size)
    if stock.moisture == "dry" and stock.metered is None and stock.made == "sawn" and not sold_dry(stock, size):
        yield ask("moisture", stock.name, f"stock.{stock.name}.measured_moisture")
    if "moisture" in stock.assumed:
        field = f"stock.{stock.name}.moisture"
        known = (f"stock.{stock.name}.assumed", None)
        dry = PlausibleAnswer("yes", (known, (field, "dry"), (f"stock.{stock.name}.measured_moisture", "12 %")))
        yield ask(
            "assumed_moisture", stock.name, field, answers=[dry, PlausibleAnswer("no", ((field, stock.moisture),))]
        )
    if stick is not None and "top_held" in stick.assumed:
        path = f"{type(stick).__name__.casefold()}.{stick.name}"
        held = PlausibleAnswer("a deck all along", ((f"{path}.assumed", None), (f"{path}.top_held", "full length")))
        free = PlausibleAnswer("only its ends", ((f"{path}.assumed", None),))
        yield ask("assumed_top", stick.name, f"{path}.top_held", answers=[held, free])
    if stick is None or stick.spacing is None or stick.model_fields_set & {"members", "shared_by"}:
        return
    three = least_repetitive()
    if _raised(stock, size, three, stick.spacing):
        path = f"{type(stick).__name__.casefold()}.{stick.name}"
        deck = "3/4 in subfloor, nailed to each"
        sets = ((f"{path}.shared_by", deck), (f"{path}.members", three))  # members without a deck are refused
        shared = PlausibleAnswer(f"{three} or more, under {deck}", sets)
        yield ask("members", stick.name, f"{path}.members", answers=[shared])
