"""Questions of all pieces put together: one fact is one question, whatever the number of checks that wait for it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from ..core.asking.open_questions import OpenQuestion
from ..core.asking.question import Question
from ..core.result import Check, PieceResult


def waits(check: Check) -> bool:
    """Whether a check waits for its questions; one that passes or fails on the safe side does not."""
    return check.verdict == "refer"


def _with_forces(question: Question, before: Question | None) -> Question:
    """A question that was asked before, with the largest of the forces of both: a ruling has to cover them all."""
    if before is None or question.forces == before.forces:
        return before or question
    most = dict(before.forces)
    for part, force in question.forces.items():
        most[part] = max(most.get(part, force), force, key=abs)
    return replace(before, forces=most)


def collect(
    pieces: Sequence[PieceResult], reopened: Sequence[str] = (), of_job: Sequence[Check] = ()
) -> tuple[OpenQuestion, ...]:
    """What is open, least trouble first, then in the order of the pieces.

    The questions of a piece that fails are idle: no answer helps it.
    """
    asked: dict[str, Question] = {}
    closes: dict[str, dict[tuple[str, str], None]] = {}
    helped: set[str] = set()
    for piece in pieces:
        for check in filter(waits, piece.checks):
            for question in check.questions:
                asked[question.id] = _with_forces(question, asked.get(question.id))
                closes.setdefault(question.id, {})[piece.name, check.what] = None
                if piece.verdict != "fails":
                    helped.add(question.id)
    for check in filter(waits, of_job):
        for question in check.questions:
            asked[question.id] = _with_forces(question, asked.get(question.id))
            closes.setdefault(question.id, {})[check.subject, check.what] = None
            helped.add(question.id)
    found = [
        OpenQuestion(
            question,
            tuple(closes[name]),
            "idle" if name not in helped else "reopened" if name in reopened else "open",
        )
        for name, question in asked.items()
    ]
    return tuple(sorted(found, key=lambda one: (one.state == "idle", one.question.trouble)))
