"""What each plausible answer does: the job is run with it, after all verdicts, touched pieces only.

The number of runs is bounded, not their time, so that the same job always gives the same answer; who has no patience
may give a time as well, and what is not tried by then is said to be so, in the order in which it was collected.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import replace

from ...model.job import Job
from ...units import show
from ...values.judgment import judgment
from ..core.asking.open_questions import Effect, OpenQuestion, WorkedAnswer
from ..core.asking.question import RULING
from ..core.result import PieceResult
from .best_answers import Runner, best
from .thresholds import threshold
from .trial import Budget, Trial


def explore(
    job: Job, pieces: Sequence[PieceResult], questions: Sequence[OpenQuestion], run: Runner,
    *, runs: int | None = None, until: float | None = None, tell: Callable[[int, int], None] = lambda *_: None,
) -> tuple[OpenQuestion, ...]:  # fmt: skip
    """The questions with what each answer does, in the order in which they are worth asking.

    `until` is in processor time of this thread; `tell` hears before each question which it is and of how many.
    """
    most = int(judgment("runs to find out what answers do").value) if runs is None else runs
    trial = Trial(job, {piece.name: piece for piece in pieces}, run, Budget(most, until))
    worked = []
    for number, one in enumerate(questions, start=1):
        tell(number, len(questions))
        worked.append(one if one.state == "idle" else _worked(trial, one))
    found = ordered(trial, worked)
    # how far it came hangs on the machine: the order must not
    return tuple(worked) if trial.budget.late() else found


def _worked(trial: Trial, one: OpenQuestion) -> OpenQuestion:
    if one.question.field == RULING:
        return one
    answers = []
    for answer in one.question.answers:
        after = trial.tried([answer])
        if after is not None:
            answers.append(WorkedAnswer(answer, tuple(effects(trial.results, after, one.pieces))))
    found = replace(one, answers=tuple(answers))
    return replace(found, threshold=threshold(trial, found)) if answers else found


def effects(
    before: Mapping[str, PieceResult], after: Mapping[str, PieceResult], waiting: Sequence[str]
) -> list[Effect]:  # fmt: skip
    """What becomes of the pieces that wait, and of every other whose verdict changes."""
    names = [*waiting, *(name for name in after if name not in waiting and _changed(before.get(name), after[name]))]
    return [effect_of(after[name]) for name in names if name in after]


def _changed(before: PieceResult | None, after: PieceResult) -> bool:
    return before is not None and before.verdict != after.verdict


def effect_of(piece: PieceResult) -> Effect:
    """The verdict of a piece in a plain phrase."""
    closest = piece.closest
    ratio = None if closest is None else closest.ratio
    return Effect(piece.name, piece.verdict, "" if closest is None else closest.what, ratio, _phrase(piece))


def _phrase(piece: PieceResult) -> str:
    closest, decides = piece.closest, piece.governing
    if piece.verdict == "refer":
        still = len(piece.questions)
        return f"still open: {decides.what}" if decides is not None and still == 1 else f"still open, {still} questions"
    if piece.verdict == "fails" and decides is not None:
        return f"fails in {decides.what}" + (f", {show(decides.ratio, 'ratio')}" if decides.ratio is not None else "")
    if closest is None or closest.ratio is None:
        return "passes"
    return f"passes, closest {show(closest.ratio, 'ratio')} in {closest.what}"


def ordered(trial: Trial, worked: Sequence[OpenQuestion]) -> tuple[OpenQuestion, ...]:
    """By what a question settles over its trouble; what settles a piece only together with others is a bundle."""
    refer = [name for name, piece in trial.results.items() if piece.verdict == "refer"]
    of_piece = {name: [one for one in worked if name in one.pieces and one.state != "idle"] for name in refer}
    worth: dict[str, float] = {}
    bundle: dict[str, tuple[str, ...]] = {}
    for one in worked:
        settled = [sum(name in refer for name in answer.settles) for answer in one.answers]
        worth[one.id] = sum(settled) / len(settled) / one.question.trouble if settled else 0.0
    for name, needed in of_piece.items():
        if len(needed) < 2 or not all(best(one.question) for one in needed):
            continue
        after = trial.tried([one.question.answers[0] for one in needed])
        leaves = after is not None and name in after and after[name].verdict != "refer"
        if leaves:
            value = 1.0 / sum(one.question.trouble for one in needed)
            for one in needed:
                if value > worth[one.id]:
                    worth[one.id] = value
                    bundle[one.id] = tuple(other.id for other in needed if other.id != one.id)
    places = {name: index for index, name in enumerate(trial.results)}
    found = [replace(one, worth=worth[one.id], needs=bundle.get(one.id, ())) for one in worked]

    def key(one: OpenQuestion) -> tuple[bool, float, int, int]:
        first = min((places[name] for name in one.pieces if name in places), default=len(places))
        return one.state == "idle", -one.worth, first, one.question.trouble

    return tuple(sorted(found, key=key))
