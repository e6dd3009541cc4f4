"""Mappings that remember what was read from them and written to them, so that a result can be used again.

A piece is worked out from its own entry, the loads that come to it, and whatever it looks up of the rest. When all of
that is the same the next time, so is the result.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, MutableMapping
from dataclasses import dataclass, field
from typing import Any, Generic, TypeVar

T = TypeVar("T")
Place = tuple[str, str]  # which mapping, which name

_MISSING = object()
_ALL = ""  # in place of a name: everything in the mapping, in its order


@dataclass
class Log:
    """What one piece looked up, with what it found, and what it left behind."""

    reads: dict[Place, object] = field(default_factory=dict)
    choices: dict[Place, tuple[Callable[[Any], bool], tuple[object, ...]]] = field(default_factory=dict)
    writes: dict[Place, object] = field(default_factory=dict)

    def holds(self, mappings: Mapping[str, Mapping[str, object]]) -> bool:
        """Whether looking up the same again would find the same."""
        return all(_same(found, _look(mappings[which], name)) for (which, name), found in self.reads.items()) and all(
            _same(found, _chosen(mappings[which], fits)) for (which, _), (fits, found) in self.choices.items()
        )


class Watched(MutableMapping[str, T], Generic[T]):
    """A mapping that writes into a log what is looked up in it for the first time."""

    def __init__(self, which: str, under: MutableMapping[str, T], log: Log) -> None:
        self._which, self._under, self._log = which, under, log

    def __getitem__(self, name: str) -> T:
        self._note(name)
        return self._under[name]

    def __contains__(self, name: object) -> bool:
        if isinstance(name, str):
            self._note(name)
        return name in self._under

    def __iter__(self) -> Iterator[str]:
        self._note(_ALL)
        return iter(self._under)

    def __len__(self) -> int:
        self._note(_ALL)
        return len(self._under)

    def __setitem__(self, name: str, value: T) -> None:
        self._log.writes[self._which, name] = value
        self._under[name] = value

    def __delitem__(self, name: str) -> None:
        raise TypeError("what one piece left for others is not taken away")

    def choose(self, words: str, fits: Callable[[T], bool]) -> tuple[T, ...]:
        """What fits, in order; only that goes into the log, under `words`, and not all that was looked through."""
        found = _chosen(self._under, fits)
        self._log.choices.setdefault((self._which, words), (fits, found))
        return found

    def _note(self, name: str) -> None:
        place = (self._which, name)
        if place not in self._log.writes:  # what it wrote itself it does not learn from others
            self._log.reads.setdefault(place, _look(self._under, name))


def choose(mapping: Mapping[str, T], words: str, fits: Callable[[T], bool]) -> tuple[T, ...]:
    """The entries of a mapping that fit. `words` say what fits, with all that it depends on."""
    return mapping.choose(words, fits) if isinstance(mapping, Watched) else _chosen(mapping, fits)


def _chosen(mapping: Mapping[str, T], fits: Callable[[T], bool]) -> tuple[T, ...]:
    return tuple(value for value in mapping.values() if fits(value))


def _look(mapping: Mapping[str, object], name: str) -> object:
    return tuple(mapping.items()) if name == _ALL else mapping.get(name, _MISSING)


def _same(one: object, other: object) -> bool:
    """The same object, or the same entries one by one; numbers and words by value. Nothing large is compared."""
    if one is other:
        return True
    if isinstance(one, tuple) and isinstance(other, tuple):
        return len(one) == len(other) and all(map(_same, one, other))
    return isinstance(one, (str, float, int)) and type(one) is type(other) and one == other
