"""What somebody else's wall, pad or footing is said to take, against what comes to it."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence

import numpy as np

from ....analysis.beams.combinations import Loaded
from ....calc.pad import Pad
from ....model.existing import Existing
from ....provenance import Source
from ....units import show
from ....values.judgment import judgment
from ..asking.question import ask
from ..result import Check
from .govern import Criterion, at, govern
from .strength import Outcome

HEAVY = ("masonry", "concrete")


def enough(
    subject: str, what: str, under: Existing, combinations: Sequence[Loaded], forces: np.ndarray, where: str = ""
) -> list[Check]:
    """The force on one seat against what it is said to take; nothing where no figure is given.

    `forces`: (combinations,): down on the seat [lbf].
    """
    if under.takes is None:
        return []
    criterion = Criterion(subject, what, "load path", "force", where, id="seat.takes")
    return [_against(criterion, under, under.takes, combinations, np.maximum(forces, 0.0), "down")]


def uplift_taken(
    subject: str, what: str, under: Existing, combinations: Sequence[Loaded], lifts: np.ndarray, where: str = ""
) -> Iterator[Check]:
    """Whether what an end is tied to may be pulled up: a capacity downward says nothing about that.

    `lifts`: (combinations,): up on it, 0 or more [lbf].
    """
    id, clause, most = "seat.takes_uplift", "ASCE 7-16 2.4.1", float(np.max(lifts))
    if under.takes_uplift is not None:
        criterion = Criterion(subject, what, clause, "force", where, id=id)
        yield _against(criterion, under, under.takes_uplift, combinations, lifts, "up")
        return
    share = judgment("uplift that a confirmed wall holds by its weight")
    if under.material in HEAVY and under.takes and under.confirmed and most <= share.value * under.takes:
        text = (
            f"{show(most, 'force')} lifts: no more than {share.value:.0%} of what this {under.material} is confirmed "
            "for downward, which its own weight holds (common practice)"
        )
        yield Check.keeps_rule(id, subject, what, clause, text, where=where)
        return
    text = f"{show(most, 'force')} pulls up on {under.name}: what it is said to take is a load downward"
    field = f"existing.{under.name}.takes_uplift"
    answers = [f"{50.0 * math.ceil(share * most / 50.0):,.0f} lb" for share in (1.25, 2.5, 0.5)]
    question = ask("takes_uplift", under.name, field, what=under.what, force=show(most, "force"), answers=answers)
    yield Check.refers(id, subject, what, clause, text, ask=question, where=where)


def _against(
    criterion: Criterion, under: Existing, allowed: float, combinations: Sequence[Loaded], forces: np.ndarray, way: str
) -> Check:
    source = Source(under.confirmed_by or "the job file", "given")

    def calculate(pad: Pad, which: int | slice) -> Outcome:
        R = pad.take("R", at(forces, which), "lbf", note=f"{way}, from the analysis")
        limit = pad.take("R_allowed", allowed, "lbf", note=f"what it is said to take {way}", source=source)
        return Outcome(R, limit, R / limit)

    return govern(criterion, combinations, calculate)
