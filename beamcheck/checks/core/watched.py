"""Mappings that remember what was read from them and written to them, so that a result can be used again.

A piece is worked out from its own entry, the loads that come to it, and whatever it looks up of the rest. When all of
that is the same the next time, so is the result.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping, MutableMapping
from dataclasses import field
from functools import partial
from typing import Any, Generic, TypeVar

from ...records import dataclass

T = TypeVar("T")
Place = tuple[str, str]  # which mapping, which name
Find = Callable[[Mapping[str, Any]], tuple[Any, ...]]

_MISSING = object()
_ALL = ""  # in place of a name: everything in the mapping, in its order


@dataclass
class Log:
    """What one piece looked up, with what it found, and what it left behind."""

    reads: dict[Place, object] = field(default_factory=dict)
    choices: dict[Place, tuple[Find, tuple[object, ...]]] = field(default_factory=dict)
    writes: dict[Place, object] = field(default_factory=dict)

    def holds(self, mappings: Mapping[str, Mapping[str, object]]) -> bool:
        """Whether looking up the same again would find the same."""
        return all(_same(found, _look(mappings[which], name)) for (which, name), found in self.reads.items()) and all(
            _same(found, find(mappings[which])) for (which, _), (find, found) in self.choices.items()
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

    def choose(self, words: str, find: Find) -> tuple[T, ...]:
        """What is found, in order; only that goes into the log, under `words`, and not all that was looked through."""
        found = find(self._under)
        self._log.choices.setdefault((self._which, words), (find, found))
        return found

    def _note(self, name: str) -> None:
        place = (self._which, name)
        if place not in self._log.writes:  # what it wrote itself it does not learn from others
            self._log.reads.setdefault(place, _look(self._under, name))


class LookedBeyond(Exception):
    """A part of a job was run, and something of the rest was looked for. No fault of the job: no check may catch it."""


class Entries(dict[str, T], Generic[T]):
    """The entries of a job, or of a part of it, by name; which of them belong to a key is found once for all keys.

    Whoever looks for one that was left out, or through all that there is, hears of it: `LookedBeyond`.
    """

    def __init__(self, given: Mapping[str, T], left_out: frozenset[str] = frozenset()) -> None:
        super().__init__(given)
        self._left_out = left_out
        self._by_key: dict[str, dict[str, list[T]]] = {}

    def belonging(self, kind: str, keys: Callable[[T], Iterable[str]], key: str) -> tuple[T, ...]:
        """The entries to which `keys` gives that key, in order."""
        if kind not in self._by_key:
            found = self._by_key[kind] = {}
            for value in super().values():
                for one in dict.fromkeys(keys(value)):
                    found.setdefault(one, []).append(value)
        return tuple(self._by_key[kind].get(key, ()))

    def fitting(self, fits: Callable[[T], bool]) -> tuple[T, ...]:
        """The entries that fit; of a part that holds all that could."""
        return tuple(value for value in super().values() if fits(value))

    def __getitem__(self, name: str) -> T:
        self._ask(name)
        return super().__getitem__(name)

    def __contains__(self, name: object) -> bool:
        self._ask(name)
        return super().__contains__(name)

    def get(self, name: str, default: Any = None) -> Any:
        self._ask(name)
        return super().get(name, default)

    def __iter__(self) -> Iterator[str]:
        self._ask()
        return super().__iter__()

    def values(self) -> Any:
        self._ask()
        return super().values()

    def items(self) -> Any:
        self._ask()
        return super().items()

    def _ask(self, *names: object) -> None:
        if self._left_out and (not names or names[0] in self._left_out):
            raise LookedBeyond("what was left out of a part of the job was looked for in it")


def choose(mapping: Mapping[str, T], words: str, fits: Callable[[T], bool]) -> tuple[T, ...]:
    """The entries of a mapping that fit. `words` say what fits, with all that it depends on."""
    return _found(mapping, words, partial(_fitting, fits))


def belonging(mapping: Mapping[str, T], kind: str, keys: Callable[[T], Iterable[str]], key: str) -> tuple[T, ...]:
    """The entries of a mapping to which `keys` gives that key. `kind` says what the keys are."""
    return _found(mapping, f"{kind} {key}", partial(_belonging, kind, keys, key))


def _found(mapping: Mapping[str, T], words: str, find: Find) -> tuple[T, ...]:
    return mapping.choose(words, find) if isinstance(mapping, Watched) else find(mapping)


def _fitting(fits: Callable[[Any], bool], mapping: Mapping[str, Any]) -> tuple[Any, ...]:
    if isinstance(mapping, Entries):
        return mapping.fitting(fits)
    return tuple(value for value in mapping.values() if fits(value))


def _belonging(
    kind: str, keys: Callable[[Any], Iterable[str]], key: str, mapping: Mapping[str, Any]
) -> tuple[Any, ...]:  # fmt: skip
    if isinstance(mapping, Entries):
        return mapping.belonging(kind, keys, key)
    return tuple(value for value in mapping.values() if key in keys(value))


def _look(mapping: Mapping[str, object], name: str) -> object:
    return tuple(mapping.items()) if name == _ALL else mapping.get(name, _MISSING)


def _same(one: object, other: object) -> bool:
    """The same object, or the same entries one by one; numbers and words by value. Nothing large is compared."""
    if one is other:
        return True
    if isinstance(one, tuple) and isinstance(other, tuple):
        return len(one) == len(other) and all(map(_same, one, other))
    return isinstance(one, (str, float, int)) and type(one) is type(other) and one == other
