"""What can go wrong, as small classes that hold data as well as text."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from .records import dataclass

Called = Callable[[str], tuple[str, str]]  # what a symbol stands for, and its unit


class BeamcheckError(Exception):
    """Base of every error this package raises on purpose."""


class UnitError(BeamcheckError, ValueError):
    """A quantity without a unit, with an unknown unit, or of the wrong dimension."""


class OutOfRange(BeamcheckError, ValueError):
    """An input for which the published formula does not hold; `clause` says which rule sets the range.

    `worded` says it without symbols, if it is told how each is called: (symbol) -> words and unit.
    """

    def __init__(self, text: str, clause: str = "", worded: Callable[[Called], str] | None = None) -> None:
        super().__init__(f"{text} ({clause})" if clause else text)
        self.clause, self.worded = clause, worded


class UnknownName(BeamcheckError, LookupError):
    """A name that no table or piece has; the text offers the nearest ones."""

    def __init__(self, what: str, given: str, allowed: Sequence[str]) -> None:
        self.what, self.given, self.allowed = what, given, tuple(allowed)
        super().__init__(f"{what} {given!r} is not known; {nearest(given, allowed)}")


class Unstable(BeamcheckError, ValueError):
    """A structure that can move without resistance (a mechanism)."""


@dataclass(frozen=True)
class Problem:
    """One fault of a job file: where it is, what was given, what would be right."""

    where: str
    text: str
    line: int | None = None

    def __str__(self) -> str:
        line = f"line {self.line}: " if self.line is not None else ""
        return f"{line}{self.where}: {self.text}" if self.where else f"{line}{self.text}"


class JobError(BeamcheckError, ValueError):
    """All faults of one job, reported together."""

    def __init__(self, source: str, problems: Sequence[Problem]) -> None:
        self.source, self.problems = source, tuple(problems)
        count = "1 problem" if len(self.problems) == 1 else f"{len(self.problems)} problems"
        super().__init__("\n".join([f"{source}: {count}", *(f"  {problem}" for problem in self.problems)]))


def nearest(given: str, allowed: Sequence[str]) -> str:
    """A short phrase that names the closest allowed spellings, or all of them when none is close."""
    from difflib import get_close_matches  # only where something is wrong

    by_fold = {name.casefold(): name for name in allowed}
    close = [by_fold[fold] for fold in get_close_matches(given.casefold(), list(by_fold), n=3, cutoff=0.6)]
    close = close or [name for fold, name in by_fold.items() if given and fold.startswith(given.casefold())][:3]
    if close:
        return "did you mean " + " or ".join(repr(name) for name in close) + "?"
    if not allowed:
        return "there is none to choose from"
    listed = ", ".join(repr(name) for name in list(allowed)[:12])
    return f"known are {listed}" + (f" and {len(allowed) - 12} more" if len(allowed) > 12 else "")
