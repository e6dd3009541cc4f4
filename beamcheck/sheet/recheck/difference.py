"""Differences between two jobs and their results, put together and told in plain words."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from math import isclose
from typing import Any, Literal

from ...checks.core.result import CAUTION, SIGN_OFF
from ...lettering import legible
from ...records import dataclass
from ..record.enclosed import NO_SIGNATURE

State = Literal["same", "changed results", "changed inputs", "tampered"]
Tell = Callable[[str], None]
CLOSE = 1e-6  # relative, and absolute in inner units: far below what any sheet prints


@dataclass(frozen=True)
class Difference:
    """One difference: where, and what was and is there; '' for nothing."""

    where: str
    was: str = ""
    now: str = ""

    def __str__(self) -> str:
        if self.was and self.now:
            return f"{self.where}: was {self.was}, is {self.now}"
        if self.was or self.now:
            return f"{self.where}: is gone, was {self.was}" if self.was else f"{self.where}: is new, {self.now}"
        return self.where


@dataclass(frozen=True)
class Comparison:
    """What was found; `state` is the gravest of it."""

    first: str
    second: str
    tampered: tuple[Difference, ...] = ()
    inputs: tuple[Difference, ...] = ()
    results: tuple[Difference, ...] = ()
    notes: tuple[str, ...] = ()

    @property
    def state(self) -> State:
        """'tampered' outweighs 'changed inputs', that outweighs 'changed results'."""
        if self.tampered:
            return "tampered"
        if self.inputs:
            return "changed inputs"
        return "changed results" if self.results else "same"

    def __str__(self) -> str:
        return "\n".join(_line(text) for text in self._lines()) + "\n"

    def _lines(self) -> Iterator[str]:
        parts = (
            ("Signs of a change after it was written", self.tampered),
            ("Changed inputs", self.inputs),
            ("Changed results", self.results),
        )
        counts = ", ".join(f"{title.casefold()}: {len(found) or 'none'}" for title, found in parts)
        yield f"{self.state.upper()}. {_MEANING[self.state]}"
        yield f"{self.first}, compared with {self.second}. {counts[:1].upper()}{counts[1:]}."
        for title, found in parts:
            if found:
                yield ""
                yield f"{title}:"
                yield from (f"  - {difference}" for difference in found)
        yield ""
        yield from self.notes
        yield NO_SIGNATURE
        yield ""
        yield f"Caution: {CAUTION}"
        yield SIGN_OFF


_MEANING: Mapping[State, str] = {
    "same": "Job and results are the same; nothing shows a change after writing. That is no verdict on the job.",
    "changed results": "The job is the same, its results are not: an engineer must look at the differences.",
    "changed inputs": "The job is not the same: an engineer must look at the differences.",
    "tampered": "A sheet or result was changed after it was written: do not rely on it, make it anew.",
}


def _line(text: str) -> str:
    """The text on one line, its indent kept, with nothing in it that steers a terminal."""
    return text[: len(text) - len(text.lstrip(" "))] + " ".join(legible(text).split())


def alike(one: Any, other: Any) -> bool:
    """Are two trees of plain data the same, numbers to one part in a million?"""
    if isinstance(one, bool) or isinstance(other, bool):
        return one is other
    if isinstance(one, (int, float)) and isinstance(other, (int, float)):
        return one == other or isclose(one, other, rel_tol=CLOSE, abs_tol=CLOSE)
    if isinstance(one, Mapping) and isinstance(other, Mapping):
        return one.keys() == other.keys() and all(alike(value, other[key]) for key, value in one.items())
    if isinstance(one, (list, tuple)) and isinstance(other, (list, tuple)):
        return len(one) == len(other) and all(map(alike, one, other))
    return bool(one == other)
