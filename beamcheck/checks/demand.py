"""Picking the governing combination: one calculation for all combinations at once, then once more on a pad that writes."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass

import numpy as np

from ..analysis.combinations import Loaded
from ..errors import OutOfRange
from ..formulas.pad import Pad, SilentPad
from .result import Check, Verdict, judge
from .strength import Outcome

Array = np.ndarray


@dataclass(frozen=True)
class Asked:
    """A check to be made: words, clause and kind of quantity."""

    subject: str
    what: str
    clause: str
    kind: str
    where: str = ""
    notes: tuple[str, ...] = ()
    strict: bool = False  # the ratio must stay below 1, not just reach it


def govern(
    asked: Asked,
    combinations: Sequence[Loaded],
    calculate: Callable[[Pad, int | slice], Outcome],
    *,
    keep_steps: bool = True,
) -> Check:
    """Run a check under all combinations and write down the worst.

    `calculate(pad, which)` does the arithmetic for one combination (an index) or for all of them (a slice, giving
    arrays). An input outside the range of the formulas is a check that fails or refers with the clause.
    """
    try:
        ratios = np.broadcast_to(
            np.asarray(calculate(SilentPad(), slice(None)).ratio, dtype=float), (len(combinations),)
        )
        # NaN (outside a formula's range in that combination) outweighs every number
        worst = int(np.argmax(np.where(np.isnan(ratios), np.inf, ratios)))
        pad = Pad() if keep_steps else SilentPad()
        outcome = calculate(pad, worst)
    except OutOfRange as error:
        return out_of_range(asked, error)
    ratio = float(outcome.ratio)
    return Check(
        asked.subject, asked.what, asked.clause, judge(ratio, strict=asked.strict), asked.kind, float(outcome.demand), float(outcome.capacity),
        ratio, combinations[worst].name, asked.where, tuple(pad.steps) if keep_steps else (), asked.notes,
    )  # fmt: skip


def out_of_range(asked: Asked, error: OutOfRange) -> Check:
    """A check whose input lies outside the standard's limits: that is not allowed, so it fails."""
    return Check(
        asked.subject, asked.what, error.clause or asked.clause, "fails", asked.kind, where=asked.where,
        notes=(*asked.notes, f"outside the limits of the rule: {error}"),
    )  # fmt: skip


def stated(subject: str, what: str, clause: str, verdict: Verdict, *notes: str, where: str = "") -> Check:
    """A check without arithmetic: a rule kept or broken, or evidence that is missing."""
    return Check(subject, what, clause, verdict, where=where, notes=notes)


def at(values: Array, which: int | slice) -> float | Array:
    """One combination's value as a float, or all of them as an array."""
    taken = np.asarray(values)[which]
    return float(taken) if np.ndim(taken) == 0 else taken
