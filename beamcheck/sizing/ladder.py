"""A span that fails as told, climbed rung by rung: each thing that was not said is taken at its best, and run.

What was not said makes no `fails`: a span fails only where it does on the last rung; else it turns on what was not
said, and that is asked.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from typing import Any

from ..checks.core.question import Question, ask
from ..checks.core.result import Check, JobResult, PieceResult, judge
from ..checks.job import check_job
from ..checks.questions.collect import collect
from ..model.job_paths import with_values
from ..model.pieces import Job
from ..units import show


@dataclass(frozen=True)
class Condition:
    """Something that was not said: words of a rung, the question that asks for it, what it writes into the job."""

    words: str
    question: Question
    sets: tuple[tuple[str, Any], ...]


@dataclass(frozen=True)
class Rung:
    """The beam with one condition more: the largest ratio, where it is, and what came of it."""

    words: str
    piece: PieceResult

    @property
    def holds(self) -> bool:
        """Whether nothing fails by the figures. It is no permission."""
        closest = self.piece.closest
        return self.piece.verdict != "fails" and closest is not None and judge(closest.ratio) == "passes"

    @property
    def says(self) -> str:
        """'and the top edge held all along: 1.02 in bending, too much'."""
        closest = self.piece.closest
        figure = "no figure" if closest is None else f"{show(closest.ratio or 0.0, 'ratio')} in {closest.what}"
        return f"{self.words}: {figure}, {'enough by the figures' if self.holds else 'too much'}"


def conditions(
    beam: str, stock: str, *, top_held: bool, moisture: bool, row: bool, dead: bool
) -> Iterator[Condition]:  # fmt: skip
    """What was not said, the cheapest to find out first. Each flag says that it was left out."""
    if top_held:
        field = f"beam.{beam}.top_held"
        asked = ask("span_top", beam, field)
        yield Condition("and the top edge held all along", asked, ((field, "full length"),))
    if moisture:
        field = f"stock.{stock}.moisture"
        dry = ((field, "dry"), (f"stock.{stock}.measured_moisture", "12 %"))
        yield Condition("and dry wood, 19 % or less", ask("span_dry", stock, field), dry)
    if row:
        field = f"beam.{beam}.members"
        deck = ((f"beam.{beam}.shared_by", "3/4 in boards, nailed"), (field, 3))
        yield Condition("and three or more under one deck", ask("span_deck", beam, field), deck)
    if dead:
        field = f"beam.{beam}.carries.1.dead_includes_own_weight"
        asked = ask("own_weight_within", beam, field, load="the question")
        yield Condition("and its own weight within the dead load", asked, ((field, True),))


def climbed(job: Job, told: JobResult, found: Sequence[Condition]) -> JobResult:
    """The result as told; where a rung holds, `refer` with what it turns on, and every rung in words."""
    piece, rungs, sets, asked = told.pieces[0], [Rung("as told", told.pieces[0])], list[Any](), list[Question]()
    if rungs[0].holds:
        return told
    for condition in found:
        sets += condition.sets
        asked.append(condition.question)
        rungs.append(Rung(condition.words, check_job(with_values(job, sets)).pieces[0]))
        if rungs[-1].holds:
            break
    said = tuple(rung.says for rung in rungs[1:])
    if not rungs[-1].holds:
        return replace(told, reasons=(*told.reasons, *said))
    head = f"It turns on what was not said. {rungs[0].says[:1].upper()}{rungs[0].says[1:]}"
    checks = tuple(_waiting(check, asked) for check in piece.checks)
    pieces = (piece.with_checks(checks),)
    return replace(told, verdict="refer", reasons=(head, *said), pieces=pieces, questions=collect(pieces))


def _waiting(check: Check, asked: Sequence[Question]) -> Check:
    """A check that fails as told waits for the conditions."""
    return check.waits_for(*asked) if check.verdict == "fails" and judge(check.ratio) == "fails" else check
