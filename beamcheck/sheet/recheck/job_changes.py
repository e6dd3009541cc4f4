"""What differs between two job files, field by field, by what a field means: '12 ft' and '144 in' are the same."""

from __future__ import annotations

import json
import tomllib
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import field
from difflib import SequenceMatcher
from typing import Any

from ...errors import JobError
from ...model.fields.places import place
from ...model.reading.reader import read_job_text
from ...records import dataclass
from .difference import Difference, alike

_LONGEST = 160  # letters of a value in a line
_ABSENT = object()
Keys = tuple[str | int, ...]


@dataclass(frozen=True)
class JobChanges:
    """What differs between two jobs; `renamed`: names of pieces, old to new."""

    differences: tuple[Difference, ...] = ()
    renamed: Mapping[str, str] = field(default_factory=dict)
    notes: tuple[str, ...] = ()


def job_changes(first: str, second: str, first_name: str = "job", second_name: str = "job") -> JobChanges:
    """Compare two job files field by field. Spaces, comments, order and another way to write a quantity do not count.

    Raises JobError if one of them is not TOML.
    """
    if first == second:
        return JobChanges()
    old, old_read = _tables(first, first_name)
    new, new_read = _tables(second, second_name)
    found: list[Difference] = []
    renamed: dict[str, str] = {}
    for kind in dict.fromkeys((*old, *new)):
        pair = (old.get(kind, _ABSENT), new.get(kind, _ABSENT))
        if any(_is_list(one) for one in pair) and all(_is_list(one) or one is _ABSENT for one in pair):
            found += _of_kind(kind, old, new, old_read, new_read, renamed)
        else:
            found += _differ((kind,), *pair, old_read.get(kind, _ABSENT), new_read.get(kind, _ABSENT), old, new)
    notes = () if found else ("The job files differ in spaces, comments, order or spelling only, not in meaning.",)
    return JobChanges(tuple(found), renamed, notes)


def _tables(text: str, name: str) -> tuple[dict[str, Any], dict[str, Any]]:
    """A job as written, and as read (empty where this version does not read it)."""
    read: dict[str, Any] = {}
    try:
        read = read_job_text(text, name).model_dump(by_alias=True)
    except JobError as error:
        if len(error.problems) == 1 and not error.problems[0].where:  # not TOML, or not to be read at all
            raise
    return tomllib.loads(text.removeprefix("\ufeff").replace("\r\n", "\n")), read


def _is_list(thing: Any) -> bool:
    return isinstance(thing, list) and all(isinstance(entry, dict) for entry in thing)


def _of_kind(
    kind: str, old: dict[str, Any], new: dict[str, Any], old_read: dict[str, Any], new_read: dict[str, Any],
    renamed: dict[str, str],
) -> Iterator[Difference]:  # fmt: skip
    """All [[kind]] entries, matched by name; one that is the same but for its name was renamed."""
    olds, news = _by_name(old.get(kind, [])), _by_name(new.get(kind, []))
    gone = [name for name in olds if name not in news]
    come = [name for name in news if name not in olds]
    for name in list(gone):
        for other in come:
            if _nameless(old[kind][olds[name]]) == _nameless(new[kind][news[other]]):
                yield Difference(f"{kind}, name", f"'{name}'", f"'{other}'")
                renamed[name] = other
                gone.remove(name)
                come.remove(other)
                break
    for name in gone:
        yield Difference(place((kind, olds[name]), old), _shown(old[kind][olds[name]]))
    for name in come:
        yield Difference(place((kind, news[name]), new), "", _shown(new[kind][news[name]]))
    for name, i in olds.items():
        if name in news:
            j = news[name]
            old_entry, new_entry = old[kind][i], new[kind][j]
            yield from _differ(
                (kind, j), old_entry, new_entry, _at(old_read.get(kind), i), _at(new_read.get(kind), j), old, new
            )


def _by_name(entries: Sequence[Mapping[str, Any]]) -> dict[str, int]:
    """Index by name; an entry without a name, or with one that is taken, goes by its number."""
    found: dict[str, int] = {}
    for index, entry in enumerate(entries):
        name = entry.get("name")
        found[name if isinstance(name, str) and name not in found else f"no. {index + 1}"] = index
    return found


def _nameless(entry: Mapping[str, Any]) -> dict[str, Any]:
    return {key: value for key, value in entry.items() if key != "name"}


def _differ(
    path: Keys, old: Any, new: Any, old_read: Any, new_read: Any, old_job: Any, new_job: Any
) -> Iterator[Difference]:
    """Differences below a place of the job; `path` is its place in the new one."""
    if old == new or (old_read is not _ABSENT and new_read is not _ABSENT and alike(old_read, new_read)):
        return
    if isinstance(old, dict) and isinstance(new, dict):
        for key in dict.fromkeys((*old, *new)):
            yield from _differ(
                (*path, key), old.get(key, _ABSENT), new.get(key, _ABSENT), _at(old_read, key), _at(new_read, key),
                old_job, new_job,
            )  # fmt: skip
    elif isinstance(old, list) and isinstance(new, list):
        yield from _lists_differ(path, old, new, old_read, new_read, old_job, new_job)
    else:
        yield Difference(place(path, old_job if new is _ABSENT else new_job), _shown(old), _shown(new))


def _lists_differ(
    path: Keys, old: list[Any], new: list[Any], old_read: Any, new_read: Any, old_job: Any, new_job: Any
) -> Iterator[Difference]:
    """Entries that stayed are matched first, so that one put in before them does not make all of them differ."""
    was, now = ([json.dumps(entry, sort_keys=True, default=str) for entry in entries] for entries in (old, new))
    for what, i, i_end, j, j_end in SequenceMatcher(None, was, now, autojunk=False).get_opcodes():
        if what == "equal":
            continue
        while i < i_end or j < j_end:
            one, other = (old[i] if i < i_end else _ABSENT), (new[j] if j < j_end else _ABSENT)
            of_one, of_other = _at(old_read, i if i < i_end else -1), _at(new_read, j if j < j_end else -1)
            key = i if other is _ABSENT else j
            yield from _differ((*path, key), one, other, of_one, of_other, old_job, new_job)
            i, j = i + 1, j + 1


def _at(thing: Any, key: str | int) -> Any:
    if isinstance(thing, Mapping):
        return thing.get(str(key), _ABSENT)
    return (
        thing[key] if isinstance(thing, (list, tuple)) and isinstance(key, int) and 0 <= key < len(thing) else _ABSENT
    )


def _shown(value: Any) -> str:
    """A value of a job file in a line; '' for none."""
    if value is _ABSENT:
        return ""
    if isinstance(value, str):
        text = f"'{value}'"
    elif isinstance(value, bool):
        text = "true" if value else "false"
    elif isinstance(value, dict):
        text = f"{{ {', '.join(f'{key} = {_shown(entry)}' for key, entry in value.items())} }}"
    elif isinstance(value, list):
        text = f"[{', '.join(map(_shown, value))}]"
    else:
        text = str(value)
    return text if len(text) <= _LONGEST else text[: _LONGEST - 3] + "..."
