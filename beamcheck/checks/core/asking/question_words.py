"""An open question in words: to whom, where the answer goes, and what each answer does where that was found out."""

from __future__ import annotations

from collections.abc import Mapping

from .open_questions import OpenQuestion
from .question import RULING

WHO: Mapping[str, str] = {
    "tape": "you, with a tape", "camera": "you, with a camera", "meter": "you, with a moisture meter", "you": "you",
    "supplier": "the supplier", "grader": "a lumber grader", "engineer": "a licensed engineer",
    "department": "the building department",
}  # fmt: skip


def place_of(one: OpenQuestion) -> str:
    """Where the answer goes in the job file."""
    question = one.question
    if question.field != RULING:
        return question.field
    piece = next((name for name in one.pieces if question.id.startswith(f"{name}/")), question.id.partition("/")[0])
    short = question.id.removeprefix(f"{piece}/")
    return f'[[ruling]] on = "{piece}", question = "{short}"'


def answers_of(one: OpenQuestion) -> tuple[str, ...]:
    """The plausible answers; with what each does where the job was run with it."""
    if not one.answers:
        return tuple(answer.says for answer in one.question.answers)
    told = []
    for worked in one.answers:
        effects = "; ".join(f"{effect.piece} {effect.says}" for effect in worked.effects)
        told.append(f"{worked.answer.says}: {effects}" if effects else worked.answer.says)
    return tuple(told)


def waiting_of(one: OpenQuestion) -> str:
    """What waits for the answer."""
    count = len(one.closes)
    checks = "1 check" if count == 1 else f"{count} checks"
    return f"{checks} of {', '.join(one.pieces)}"
