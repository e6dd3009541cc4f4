"""The part of a sheet about what is open: each question, who answers it, and where the answer goes."""

from __future__ import annotations

from collections.abc import Iterator

from ....checks.core.asking.open_questions import OpenQuestion
from ....checks.core.asking.question import RULING
from ....checks.core.asking.question_words import WHO, answers_of, place_of
from ..blocks import Block, Heading
from ..prose import capital, without_fields
from ..rich_blocks import Cell, RichTable
from .context import Sheet

HEADS = ("no.", "settles", "question, and the evidence wanted", "who answers", "plausible answers", "goes into")


NOTE = (
    "What is referred waits for these answers, in the order in which they are worth asking. What was not said is taken "
    "neither for nor against anybody."
)


def question_blocks(sheet: Sheet) -> Iterator[Block]:
    """Nothing where nothing is open."""
    if not sheet.result.questions:
        return
    yield Heading("Open questions", anchor="questions")
    rows: list[tuple[Cell, ...]] = []
    for number, one in enumerate(sheet.result.questions, start=1):
        needs = f" {capital(one.question.evidence)}." if one.question.evidence else ""
        count = len(one.closes)
        waits = f" {count} checks wait." if count > 1 else ""
        asked = without_fields(f"{one.question.ask}{needs}{waits}")
        answers = without_fields("; ".join(answers_of(one))) or "–"
        rows.append((str(number), sheet.chips(one.pieces), asked, WHO[one.question.who], answers, _goes_into(one)))
    wide = max((len(one.pieces) for one in sheet.result.questions), default=1) > 1
    yield RichTable("", HEADS, tuple(rows), (0.0, 0.7 if wide else 0.0, 3.5, 0.8, 1.9, 1.2), (0,), NOTE, "questions")


def _goes_into(one: OpenQuestion) -> str:
    """The field of the job file, or on what a letter rules."""
    if one.question.field != RULING:
        return f"`{place_of(one)}`"
    piece, _, what = one.question.id.partition("/")
    return f"a ruling on {piece}: {what.replace('_', ' ')}"
