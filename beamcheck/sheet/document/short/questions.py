"""The part of a sheet about what is open: each question, who answers it, and where the answer goes."""

from __future__ import annotations

from collections.abc import Iterator

from ....checks.core.asking.question_words import WHO, answers_of, place_of
from ..blocks import Block, Heading, Paragraph
from ..rich_blocks import Cell, RichTable
from .context import Sheet

HEADS = ("no.", "settles", "question, and what an answer needs", "plausible answers", "goes into")


def question_blocks(sheet: Sheet) -> Iterator[Block]:
    """Nothing where nothing is open."""
    if not sheet.result.questions:
        return
    yield Heading("Open questions", anchor="questions")
    yield Paragraph(
        "What is referred waits for these answers, in the order in which they are worth asking. What was not said is "
        "taken neither for nor against anybody."
    )
    rows: list[tuple[Cell, ...]] = []
    for number, one in enumerate(sheet.result.questions, start=1):
        needs = f" Evidence: {one.question.evidence}." if one.question.evidence else ""
        count = len(one.closes)
        waits = f" {count} check{'s' if count != 1 else ''} wait{'s' if count == 1 else ''}."
        asked = f"{one.question.ask} ({WHO[one.question.who]}).{needs}{waits}"
        answers = "; ".join(answers_of(one)) or "–"
        rows.append((str(number), sheet.chips(one.pieces), asked, answers, f"`{place_of(one)}`"))
    yield RichTable("", HEADS, tuple(rows), (0.0, 0.85, 3.3, 1.7, 1.3), (0,), "", "questions")
