"""A span that is too long as told, climbed rung by rung: each thing that was not said is taken at its best, and run.

What was not said makes no `fails`: that the checks themselves see to. Here it is said what it turns on.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from typing import Any

from ..checks.core.result import JobResult, judge
from ..checks.job import check_job
from ..model.job import Job
from ..model.job_paths import with_values
from ..units import show

Condition = tuple[str, tuple[tuple[str, Any], ...]]  # words of the rung, what it writes into the job


def conditions(beam: str, stock: str, *, top_held: bool, moisture: bool, row: bool, dead: bool) -> Iterator[Condition]:
    """What was not said, the cheapest to find out first. Each flag says that it was left out."""
    if top_held:
        held = ((f"beam.{beam}.assumed", None), (f"beam.{beam}.top_held", "full length"))
        yield "and the top edge held all along", held
    if moisture:
        dry = (
            (f"stock.{stock}.assumed", None),
            (f"stock.{stock}.moisture", "dry"),
            (f"stock.{stock}.measured_moisture", "12 %"),
        )
        yield "and dry wood, 19 % or less", dry
    if row:
        deck = ((f"beam.{beam}.shared_by", "3/4 in boards, nailed"), (f"beam.{beam}.members", 3))
        yield "and three or more under one deck", deck
    if dead:
        yield "and its own weight within the dead load", ((f"beam.{beam}.carries.1.dead_includes_own_weight", True),)


def rungs(job: Job, told: JobResult, found: Iterable[Condition]) -> Iterator[str]:
    """Each rung in words, up to the first that holds; none where it holds as told."""
    if _holds(told):
        return
    yield f"as told: {_figure(told)}"
    sets: list[tuple[str, Any]] = []
    for words, changes in found:
        sets += changes
        result = check_job(with_values(job, sets))
        yield f"{words}: {_figure(result)}"
        if _holds(result):
            return


def _holds(result: JobResult) -> bool:
    """Whether nothing fails by the figures. It is no permission."""
    piece = result.pieces[0]
    return piece.verdict != "fails" and piece.closest is not None and judge(piece.closest.ratio) == "passes"


def _figure(result: JobResult) -> str:
    """'1.02 in bending, too much'."""
    closest = result.pieces[0].closest
    figure = "no figure" if closest is None else f"{show(closest.ratio or 0.0, 'ratio')} in {closest.what}"
    return f"{figure}, {'enough by the figures' if _holds(result) else 'too much'}"
