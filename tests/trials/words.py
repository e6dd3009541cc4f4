"""What people read of a result, in one list: no symbol of a formula stands in it as it is typed in code."""

from __future__ import annotations

import re
from collections.abc import Iterator

from beamcheck.checks.core.result import JobResult

SYMBOL = re.compile(r"\b[A-Za-z]{1,6}_[A-Za-z0-9]|\b[FEKC][a-z]?\*")
FIELD = re.compile(r"`[^`]*`")  # of the job file, for whoever writes one


def words_of(result: JobResult) -> Iterator[str]:
    """Of its checks, questions and pieces; in notes and evidence without the fields that take an answer."""
    for piece in result.pieces:
        yield from (piece.title, piece.finding, piece.understood, *piece.assumptions, *piece.remedies, *piece.to_see)
        for check in piece.checks:
            yield from (check.what, check.where, check.clause, *(FIELD.sub("", note) for note in check.notes))
    for one in result.questions:
        yield from (one.question.ask, one.question.why, FIELD.sub("", one.question.evidence))
        yield from (answer.says for answer in one.question.answers)
    yield from (result.caution, *(row[0] for table in result.tables for row in table.rows))


def raw_symbols(result: JobResult, job: str) -> list[str]:
    """The words in which a symbol or a field stands as it is typed, other than those that the text of the job has."""
    found = ((text, SYMBOL.search(text)) for text in words_of(result))
    return [text for text, symbol in found if "`" in text or (symbol and symbol[0] not in job)]
