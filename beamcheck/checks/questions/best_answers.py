"""What was not said is never `fails`: what fails is looked at once more with the best plausible answers.

A check that fails while a fact of its piece is open, or was taken on the safe side because nobody stated it, is worked
out with the best plausible answer to each. Where it does not fail then, it waits for those answers; where it fails all
the same, it fails.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from typing import Any

from ...errors import BeamcheckError
from ...model.job import Job
from ...model.job_paths import with_values
from ..core.asking.question import RULING, Question
from ..core.result import Check, PieceResult

Results = Mapping[str, PieceResult]
Runner = Callable[[Job], Results]
Try = Callable[[Job, str], PieceResult | None]  # one piece of a changed job
MOST = 12  # questions of one piece that are tried one by one; more are tried together only


def best(question: Question) -> tuple[tuple[str, Any], ...]:
    """What the best plausible answer writes into the job file."""
    return question.answers[0].sets if question.answers and question.field != RULING else ()


def spared(job: Job, pieces: Sequence[PieceResult], run: Try) -> tuple[PieceResult, ...]:
    """The results in which nothing fails that an answer could still cure."""
    return tuple(_spared(job, piece, run) if piece.verdict == "fails" else piece for piece in pieces)


def _spared(job: Job, piece: PieceResult, run: Try) -> PieceResult:
    failing = [check for check in piece.checks if check.verdict == "fails"]
    questions = [one for one in piece.questions if best(one)]
    if not questions:
        return piece
    together = _tried(job, questions, piece.name, run)
    alone = _alone(job, questions, piece.name, run) if together is None else {}  # they do not go together
    cured = [check for check in failing if not all(_fails(one, check) for one in (together, *alone.values()))]
    if not cured:
        return piece
    alone = alone or _alone(job, questions, piece.name, run)
    waiting: dict[int, tuple[Question, ...]] = {}
    for check in cured:
        helps = tuple(one for one in questions if one.id in alone and not _fails(alone[one.id], check))
        waiting[id(check)] = helps or tuple(questions)
    checks = tuple(check.waits_for(*waiting[id(check)]) if id(check) in waiting else check for check in piece.checks)
    return piece.with_checks(checks)


def _alone(job: Job, questions: Sequence[Question], name: str, run: Try) -> dict[str, PieceResult | None]:
    """The piece with the answer to each question by itself; of too many questions none is tried so."""
    return {one.id: _tried(job, [one], name, run) for one in questions} if len(questions) <= MOST else {}


def _tried(job: Job, questions: Sequence[Question], name: str, run: Try) -> PieceResult | None:
    """The piece with those answers; None where they do not go together or cannot be worked out."""
    try:
        return run(with_values(job, [each for one in questions for each in best(one)]), name)
    except BeamcheckError:
        return None


def _fails(piece: PieceResult | None, check: Check) -> bool:
    """Whether the same check fails there too; what cannot be worked out cures nothing.

    A check that is not made with those answers (that of unknown wood, once the wood is named) is cured only where
    nothing fails in its stead.
    """
    if piece is None:
        return True
    alike = [one for one in piece.checks if (one.id, one.what, one.where) == (check.id, check.what, check.where)]
    return any(one.verdict == "fails" for one in alike or piece.checks)
