"""What is open about a job: each question, what waits for it, what each answer does, and its place in the order."""

from __future__ import annotations

from typing import Literal

from ....records import dataclass
from ....units.marks import Pure
from .question import PlausibleAnswer, Question

Verdict = Literal["passes", "fails", "refer"]
State = Literal["open", "reopened", "idle"]


@dataclass(frozen=True)
class Effect:
    """What an answer makes of one piece."""

    piece: str
    verdict: Verdict
    closest: str  # the check with the largest ratio; '' where none has one
    ratio: Pure | None
    says: str  # one plain phrase: 'passes, closest 0.75 in bending'


@dataclass(frozen=True)
class WorkedAnswer:
    """A plausible answer with what it does, from a run of the job with it."""

    answer: PlausibleAnswer
    effects: tuple[Effect, ...]

    @property
    def settles(self) -> tuple[str, ...]:
        """The pieces that leave `refer` by it."""
        return tuple(effect.piece for effect in self.effects if effect.verdict != "refer")


@dataclass(frozen=True)
class OpenQuestion:
    """A question that is open. `closes`: piece and check, each that waits for it. `needs`: what else must be answered
    to settle a piece of it. `threshold`: the break points of a quantity. `answers` is empty where none was tried.
    """

    question: Question
    closes: tuple[tuple[str, str], ...]
    state: State = "open"
    answers: tuple[WorkedAnswer, ...] = ()
    threshold: str = ""
    needs: tuple[str, ...] = ()
    worth: Pure = 0.0

    @property
    def id(self) -> str:
        return self.question.id

    @property
    def pieces(self) -> tuple[str, ...]:
        """The pieces that wait for it."""
        return tuple(dict.fromkeys(piece for piece, _ in self.closes))
