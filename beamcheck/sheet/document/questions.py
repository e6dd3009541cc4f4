"""The part of a sheet about what is open: each question, who answers it, and where the answer goes."""

from __future__ import annotations

from collections.abc import Iterator

from ...checks.core.question_words import WHO, place_of, waiting_of
from ...checks.core.result import JobResult
from .blocks import Block, Heading, Paragraph, TableBlock

HEADS = ("no.", "question", "who answers", "what waits", "goes into", "evidence", "plausible answers")


def question_blocks(result: JobResult) -> Iterator[Block]:
    """Nothing where nothing is open."""
    if not result.questions:
        return
    yield Heading("Open questions", anchor="questions")
    yield Paragraph(
        "What is referred waits for these answers, in the order in which they are worth asking. What was not said is "
        "taken neither for nor against anybody."
    )
    rows = tuple(
        (
            str(number), one.question.ask, WHO[one.question.who], waiting_of(one), place_of(one),
            one.question.evidence or "–", "; ".join(answer.says for answer in one.question.answers) or "–",
        )
        for number, one in enumerate(result.questions, start=1)
    )  # fmt: skip
    yield TableBlock("Questions", HEADS, rows)
