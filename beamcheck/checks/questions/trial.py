"""A job, its results, and how it is run with something changed, within a budget."""

from __future__ import annotations

import time
from collections.abc import Mapping, Sequence
from dataclasses import field

from ...errors import BeamcheckError
from ...model.job import Job
from ...model.job_paths import with_values
from ...records import dataclass
from ..core.asking.question import PlausibleAnswer
from ..core.result import PieceResult
from .best_answers import Runner


class OutOfTime(BeamcheckError):
    """The time for finding out what answers do is over, in the middle of a run."""


@dataclass
class Budget:
    """How many runs are left, and until when, in processor time of this thread."""

    runs: int
    until: float | None = None
    used: int = field(default=0)

    def left(self) -> bool:
        return self.used < self.runs and not self.late()

    def late(self) -> bool:
        return self.until is not None and time.thread_time() >= self.until


@dataclass(frozen=True)
class Trial:
    """A job, its results, and how it is run with something changed."""

    job: Job
    results: Mapping[str, PieceResult]
    run: Runner
    budget: Budget

    def tried(self, answers: Sequence[PlausibleAnswer]) -> Mapping[str, PieceResult] | None:
        """The pieces with those answers; None where the budget is used up or the job does not hold together so."""
        if not self.budget.left():
            return None
        self.budget.used += 1
        try:
            return self.run(with_values(self.job, [each for answer in answers for each in answer.sets]))
        except BeamcheckError:
            return None
