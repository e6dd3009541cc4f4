"""Picking the governing combination: one calculation for all of them at once, then one more on a pad that writes."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from contextlib import contextmanager, suppress
from contextvars import ContextVar

import numpy as np

from ....analysis.beams.combinations import Loaded
from ....calc.pad import Pad, SilentPad
from ....errors import OutOfRange
from ....records import dataclass
from ....values.refused import in_trade_words
from ..asking.question import Question
from ..result import Check, first_worst
from .strength import Outcome

Array = np.ndarray


@dataclass(frozen=True)
class Criterion:
    """A check to be made: words, clause and kind of quantity; `ask` and `pending` as those of `Check.of_ratio`."""

    subject: str
    what: str
    clause: str
    kind: str
    where: str = ""
    notes: tuple[str, ...] = ()
    strict: bool = False  # the ratio must stay below 1, not just reach it
    id: str = ""
    ask: Question | tuple[Question, ...] = ()
    pending: Question | tuple[Question, ...] = ()


_WRITING: ContextVar[bool] = ContextVar("steps are written down", default=True)


_DRAWING: ContextVar[bool] = ContextVar("drawings and tables are made", default=True)


@contextmanager
def verdicts_only() -> Iterator[None]:
    """As `figures_only`, without what is drawn of a piece either: for answers that are tried."""
    token = _DRAWING.set(False)
    try:
        with figures_only():
            yield
    finally:
        _DRAWING.reset(token)


def drawing() -> bool:
    """Whether somebody will see the drawing and the tables of a piece."""
    return _DRAWING.get()


@contextmanager
def figures_only() -> Iterator[None]:
    """Within this block checks keep figures, verdicts and notes but write no steps: for trying many pieces quickly."""
    token = _WRITING.set(False)
    try:
        yield
    finally:
        _WRITING.reset(token)


def writing() -> bool:
    """Whether steps are written down."""
    return _WRITING.get()


def govern(
    criterion: Criterion, combinations: Sequence[Loaded], calculate: Callable[[Pad, int | slice], Outcome]
) -> Check:  # fmt: skip
    """Run a check under all combinations and write down the worst.

    `calculate(pad, which)` does the arithmetic for one combination (an index) or for all of them (a slice, giving
    arrays). An input outside the range of the formulas is a check that fails, with the clause.
    """
    pad = Pad()
    try:
        with np.errstate(divide="ignore", invalid="ignore"):  # a capacity of nothing: the judge sees to it
            every = calculate(SilentPad(), slice(None))
        ratios = np.broadcast_to(np.asarray(every.ratio, dtype=float), (len(combinations),))
        worst = first_worst(ratios)
        outcome = Outcome(*(x[worst] if np.ndim(x) else x for x in (every.demand, every.capacity, ratios)))
        if writing() or np.isnan(ratios[worst]):
            with suppress(ZeroDivisionError):
                outcome = calculate(pad, worst)
    except OutOfRange as error:
        return out_of_range(criterion, error)
    return Check.of_ratio(
        criterion.id, criterion.subject, criterion.what, criterion.clause, *criterion.notes,
        demand=float(outcome.demand), capacity=float(outcome.capacity), kind=criterion.kind,
        ratio=float(outcome.ratio), strict=criterion.strict, combination=combinations[worst].name,
        where=criterion.where, steps=pad.steps, ask=criterion.ask, pending=criterion.pending,
    )  # fmt: skip


def out_of_range(criterion: Criterion, error: OutOfRange) -> Check:
    """A check whose input lies outside the standard's limits: that is not allowed, so it fails."""
    text = f"outside the limits of the rule: {in_trade_words(error)}"
    return Check(
        criterion.subject, criterion.what, error.clause or criterion.clause, "fails", criterion.kind,
        where=criterion.where, notes=(*criterion.notes, text), id=criterion.id,
        questions=(criterion.ask,) if isinstance(criterion.ask, Question) else criterion.ask,
    )  # fmt: skip


def duration(pad: Pad, combinations: Sequence[Loaded], which: int | slice) -> float | Array:
    """C_D of one combination, written down with its source; of all of them as an array."""
    if isinstance(which, slice):
        return np.array([combination.C_D for combination in combinations[which]])
    C_D, source, reason = combinations[which].duration
    return float(pad.take("C_D", C_D, note=reason, source=source))


def at(values: Array, which: int | slice) -> float | Array:
    """One combination's value as a float, or all of them as an array."""
    taken = np.asarray(values)[which]
    return float(taken) if np.ndim(taken) == 0 else taken
