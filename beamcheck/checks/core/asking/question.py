"""A question: what a check that refers asks for, of whom, and which answers are plausible.

The words of a question are rows of `tables/questions_*.csv`, so that they can be read and mended in one place; a check
names the row and fills in the names of the pieces. What each answer does is not worked out here: for that the job is
run with it, once all pieces have their verdicts.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping
from dataclasses import field as initial
from fractions import Fraction
from functools import lru_cache
from typing import Annotated, Any, Literal, cast

from ....errors import UnknownName
from ....records import dataclass
from ....units.marks import In
from ....values.loader import Row, rows, table_names

Who = Literal["tape", "camera", "meter", "you", "supplier", "grader", "engineer", "department"]
QuestionKind = Literal["yes-no", "choice", "length", "percent", "force", "text", "group"]
RULING = "ruling"  # in place of a field: only an engineer or a department can answer, in writing

TROUBLE: Mapping[str, int] = {
    "tape": 1, "camera": 1, "meter": 1, "you": 1, "supplier": 2, "grader": 3, "engineer": 4, "department": 4,
}  # fmt: skip

_DECIMAL_INCHES = re.compile(r"([0-9]+\.[0-9]+) in")
_PARTS = 32  # of an inch on a tape


@dataclass(frozen=True)
class PlausibleAnswer:
    """One answer that may well be given: the words for it, and what it writes into the job file (path, value)."""

    says: str
    sets: tuple[tuple[str, Any], ...] = ()


@dataclass(frozen=True)
class Question:
    """What is open. Two checks that wait for the same fact carry questions of the same `id`.

    `field` is the place in the job file that takes the answer, such as `bracket.K1.near.gap` (names as they are, a
    number counts from 1 in a list), or `ruling`. `forces` are what a ruling has to cover, lbf.
    """

    id: str  # piece (or stock, or entry) and short name: 'K1/gap'
    ask: str  # one sentence that can be read aloud, with a question mark
    who: Who
    field: str
    kind: QuestionKind
    answers: tuple[PlausibleAnswer, ...] = ()
    evidence: str = ""
    why: str = ""
    forces: Annotated[Mapping[str, float], In("lbf")] = initial(default_factory=dict)

    @property
    def trouble(self) -> int:
        """How much trouble it is to find out: 1 with a tape, 4 where an engineer or a department has to write."""
        return TROUBLE[self.who]


def ask(
    key: str,
    of: str,
    at: str = RULING,
    *,
    answers: Iterable[PlausibleAnswer | str] | None = None,
    why: str = "",
    forces: Mapping[str, float] | None = None,
    **words: str,
) -> Question:
    """The question of a row of `tables/questions_*.csv`.

    `key`: the row's `question`; it is also the short name in the id. `of`: name of the piece, stock or entry that it is
    about; the row writes it as `{of}`. `at`: the field that takes the answer, or `ruling`. `answers`: iterable of
    PlausibleAnswer or str, optional: in place of those of the row. A text writes itself into the field. `why`: figures
    behind the question, in a sentence or two. `forces`: what a ruling has to cover, lbf by part. `**words`: what fills
    the other names in braces. Raises UnknownName if no table has that row.
    """
    row = _row(key)
    given = _of_row(row, at) if answers is None else tuple(_plausible(answer, at) for answer in answers)
    known = {"of": of, **words}
    return Question(
        id=f"{of}/{key}", ask=row["ask"].format(**known), who=cast(Who, row["who"]), field=at,
        kind=cast(QuestionKind, row["kind"]), answers=given, evidence=row["evidence"].format(**known),
        why=why or row["why"].format(**known), forces=dict(forces or {}),
    )  # fmt: skip


def _plausible(answer: PlausibleAnswer | str, at: str) -> PlausibleAnswer:
    return (
        answer if isinstance(answer, PlausibleAnswer) else PlausibleAnswer(_read_out(answer), ((at, written(answer)),))
    )


def _read_out(answer: str) -> str:
    """Inches as a tape has them, where they are just that: `5/16 in` for `0.3125 in`."""
    found = _DECIMAL_INCHES.fullmatch(answer)
    if found is None:
        return answer
    parts = Fraction(found[1]) * _PARTS
    if parts.denominator != 1:
        return answer
    whole, rest = divmod(parts / _PARTS, 1)
    return f"{' '.join(str(one) for one in (whole, rest) if one) or '0'} in"


def written(answer: str) -> Any:
    """How an answer stands in the job file: yes and no as true and false, all else as its text."""
    return {"yes": True, "no": False}.get(answer, answer)


def _of_row(row: Row, at: str) -> tuple[PlausibleAnswer, ...]:
    """Answers of a row: `a | b | words = value`, the best first."""
    found = []
    for text in filter(None, map(str.strip, row["answers"].split("|"))):
        says, _, value = (part.strip() for part in text.partition(" = "))
        found.append(PlausibleAnswer(says, ((at, written(value or says)),) if at != RULING else ()))
    return tuple(found)


def question_tables() -> tuple[str, ...]:
    """The tables that hold questions."""
    return tuple(name for name in table_names() if re.fullmatch(r"questions_\w+", name))


@lru_cache(maxsize=512)
def _row(key: str) -> Row:
    every = [row for name in question_tables() for row in rows(name)]
    for row in every:
        if row["question"] == key:
            return row
    raise UnknownName("question", key, [row["question"] for row in every])
