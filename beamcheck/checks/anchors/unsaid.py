"""What a group does not say: the words for it, and the question that asks for it."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import field as initial
from typing import Any

from ...errors import BeamcheckError
from ...model.stock import Stock
from ...records import dataclass
from ..core.asking.question import PlausibleAnswer
from ..core.wood.grade_asked import ask_grade


@dataclass(frozen=True)
class Open:
    """Something that is not said, or not known.

    `key` is the row of `tables/questions_*.csv`; `field` the place of the answer within the group ('' where only an
    engineer can answer, in writing); `answers` stand in place of those of the row; `words` fill its braces. With `of`
    the question is about that entry of the job (a stock, a piece), and `field` is the whole path.
    """

    text: str
    key: str
    field: str = ""
    answers: tuple[PlausibleAnswer | str, ...] | None = None
    words: Mapping[str, Any] = initial(default_factory=dict)
    of: str = ""


def grade_open(text: str, stock: Stock) -> Open:
    """That the wood of a stock is not known, with what it may well be."""
    return Open(text, "grade", f"stock.{stock.name}.grade", ask_grade(stock).answers, of=stock.name)


class NotSaid(BeamcheckError):
    """Something without which there is no value is not in the job; the check refers and asks for it."""

    def __init__(
        self, text: str, key: str, field: str = "", answers: tuple[PlausibleAnswer | str, ...] | None = None
    ) -> None:
        super().__init__(text)
        self.open = Open(text, key, field, answers)
