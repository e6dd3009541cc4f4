"""The part of a job that decides about one piece: all that it hangs together with, by whatever is named.

An answer that is only tried for one piece need not be tried on the whole house. What names a piece, and what a piece
names, in a field or in the middle of a sentence, belongs to its part, and so on from there; walls and wood that many
pieces share join them only where something is counted together. Whoever runs the part and looks for anything that was
left out hears of it (`LookedBeyond`), and runs the whole.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Mapping
from functools import lru_cache
from typing import Any

from ...errors import BeamcheckError
from ...model.classes import is_frame, is_joint
from ...model.fields.base import Piece
from ...model.job import Job
from ...model.job_paths import get_field, same_value
from ...model.roofs import Rafter

KINDS = ("beam", "rafter", "tie", "post", "frame", "bracket", "trim", "anchor", "joint", "movement")
RIDGES, FRAMES = "\nrafters", "\nframes"  # what joins all rafters, or all frames, of a job; no name has a line break
_WORD = re.compile(r"\w+")


class Reach:
    """A job that is asked which part of it decides about a piece, as it stands or with some of its fields changed."""

    def __init__(self, job: Job) -> None:
        self._entries = [entry for kind in KINDS for entry in getattr(job, kind)]
        self._joins = _joins(job)
        self._by_word: dict[str, list[str]] = {}
        self._known: dict[str, frozenset[str]] = {}
        for name in {name for entry in self._entries for name in _names(entry)}:
            first = _WORD.search(name)
            self._by_word.setdefault(first.group() if first else "", []).append(name)
        self._ties = [self._ties_of(entry) for entry in self._entries]
        self._tied = _turned(enumerate(self._ties))
        self._always = self._named_in("\n".join(_always(job)))

    def part(self, job: Job, name: str) -> tuple[Job, frozenset[str]] | None:
        """The part that decides about a piece, of the same job with some fields changed; and the names left out.

        None where that is the whole, or where entries were added, named anew or joined otherwise.
        """
        entries = [entry for kind in KINDS for entry in getattr(job, kind)]
        if len(entries) != len(self._entries) or _joins(job) != self._joins:
            return None
        changed = {i: new for i, (old, new) in enumerate(zip(self._entries, entries, strict=True)) if new is not old}
        if any(_names(self._entries[i]) != _names(new) for i, new in changed.items()):
            return None
        ties = {i: self._ties[i] | self._ties_of(new) for i, new in changed.items()}
        tied = _turned(ties.items())
        kept, seen = set(changed), {*self._named_in(name), *self._always}.union(*ties.values())
        todo = list(seen)
        while todo:
            tie = todo.pop()
            for i in (*self._tied.get(tie, ()), *tied.get(tie, ())):
                kept.add(i)
                more = ties.get(i, self._ties[i]) - seen
                seen |= more
                todo += more
        left_out = frozenset(name for i, entry in enumerate(entries) if i not in kept for name in _names(entry))
        if not left_out or not seen:
            return None
        there = {id(entries[i]) for i in kept}
        some = {kind: tuple(entry for entry in getattr(job, kind) if id(entry) in there) for kind in KINDS}
        part = job.model_copy(update=some)
        return part.model_copy(update={"answer": tuple(one for one in job.answer if _has(part, one.to))}), left_out

    def _ties_of(self, entry: Piece) -> frozenset[str]:
        """What joins an entry to others: the names in its words, its own among them, and what is counted together."""
        texts, wood = _texts(_Itself(entry))  # a stock may be called as a piece is
        found = {name for text in texts for name in self._named_in(text)}.union(
            _names(entry), (texts | wood) & self._joins
        )
        if isinstance(entry, Rafter):
            found |= {RIDGES} & self._joins
        if is_frame(entry) or _is_stated(entry):
            found |= {FRAMES} & self._joins
        return frozenset(found)

    def _named_in(self, text: str) -> frozenset[str]:
        """The names of entries that stand somewhere in a text."""
        if text not in self._known:
            words = {*_WORD.findall(text), ""}
            self._known[text] = frozenset(one for word in words for one in self._by_word.get(word, ()) if one in text)
        return self._known[text]


def _joins(job: Job) -> frozenset[str]:
    """What is shared by pieces that are counted or looked at together, by name."""
    found = {one.name for one in job.existing if one.takes is not None and one.takes_for != "each seat"}
    found |= {one.name for one in job.stock if one.survey is not None}  # of one timber one stick is made
    if not all(rafter.pair for rafter in job.rafter):
        found.add(RIDGES)  # one asks what brings the other slope to its ridge
    if any(map(_is_stated, job.joint)):
        found.add(FRAMES)  # one asks whether it is a splice of a member of some frame
    return frozenset(found)


def _is_stated(entry: object) -> bool:
    """A joint whose forces are stated, and come from no piece of the job."""
    return is_joint(entry) and entry.in_frame is None and entry.post is None


def _always(job: Job) -> Iterator[str]:
    """The words for what may decide about any piece: what is ruled on, and what was answered otherwise."""
    yield from (ruling.on for ruling in job.ruling)
    yield from (answer.to for answer in job.answer if not same_value(job, answer.to, answer.value))


def _names(entry: Any) -> tuple[str, ...]:
    """What an entry is called; a frame brings its members."""
    return (entry.name, *(stick.name for stick in entry.sticks)) if is_frame(entry) else (entry.name,)


class _Itself:
    """An entry as a key: no other is the same, and nothing of it is looked at."""

    def __init__(self, entry: Any) -> None:
        self.entry = entry

    def __eq__(self, other: object) -> bool:
        return isinstance(other, _Itself) and other.entry is self.entry

    def __hash__(self) -> int:
        return id(self.entry)


@lru_cache(maxsize=1024)  # a job with an answer that is tried is the same but for an entry or two
def _texts(whose: _Itself) -> tuple[set[str], set[str]]:
    """Every text within an entry; apart what its fields for wood say."""
    texts: set[str] = set()
    wood: set[str] = set()
    todo = [(whose.entry, texts)]
    while todo:
        thing, found = todo.pop()
        if isinstance(thing, str):
            found.add(thing)
        elif thing is None or isinstance(thing, (float, int)):
            continue
        elif isinstance(thing, tuple):
            todo += [(part, found) for part in thing]
        elif isinstance(thing, Mapping):
            todo += [(part, found) for each in thing.items() for part in each]
        elif hasattr(thing, "__dict__"):
            todo += [(value, wood if field == "stock" else found) for field, value in vars(thing).items()]
    return texts, wood


def words_of(kind: str, entry: Any) -> Iterator[tuple[str, set[str], set[str]]]:
    """The pieces that an entry stands for: the name of each, every text within the entry, and the wood of the piece."""
    texts, wood = _texts(_Itself(entry))
    if is_frame(entry):
        yield from ((stick.name, texts, {stick.stock}) for stick in entry.sticks)
    else:
        yield entry.on if kind == "movement" else entry.name, texts, wood


def _turned(ties: Iterable[tuple[int, frozenset[str]]]) -> dict[str, list[int]]:
    """The entries of each tie."""
    found: dict[str, list[int]] = {}
    for i, of_one in ties:
        for tie in of_one:
            found.setdefault(tie, []).append(i)
    return found


def _has(job: Job, path: str) -> bool:
    try:
        get_field(job, path)
    except BeamcheckError:
        return False
    return True
