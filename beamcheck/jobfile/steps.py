"""The path of a field as the keys by which a job file holds it, and data with the value set there."""

from __future__ import annotations

import itertools
from collections.abc import Mapping
from typing import Any, get_args, get_origin

from ..errors import JobError, Problem, nearest
from ..model.classes import KINDS, type_of
from ..model.fields.base import Piece, annotations_within
from ..model.fields.places import plain
from ..model.job_paths import spelled_out

Keys = list[str | int]  # list places from 0


def steps_of(data: Mapping[str, Any], path: str, value: Any, source: str) -> tuple[Keys, Any]:
    """A path as keys of the file, and the value as it stands there.

    A field is called as the file calls it; a table for a list of them is one more of the list; text that stands for a
    number, or for yes or no, becomes that where the field takes nothing else.

    Raises JobError if there is no entry of that name.
    """
    kind, _, rest = path.partition(".")
    keys: Keys = [kind]
    if kind != "job":
        name, index = _entry(data, kind, rest, path, source)
        keys.append(index)
        rest = rest[len(name) + 1 :]
    annotation: Any = type_of(kind) if kind in KINDS else None
    for key in filter(None, rest.split(".")):
        if key.isdecimal():
            keys.append(int(key) - 1)
            continue
        called, annotation = _field(annotation, key)
        keys.append(called)
    if isinstance(value, Mapping) and isinstance(keys[-1], str) and _is_list(annotation):
        keys.append(len(_at(data, keys) or ()))
    return keys, _as_file(value, annotation)


def _entry(data: Mapping[str, Any], kind: str, rest: str, path: str, source: str) -> tuple[str, int]:
    """Name and place of the entry with which the rest of a path begins; names may hold dots."""
    named = [(str(entry.get("name", "")), i) for i, entry in enumerate(data.get(kind, ()))]
    fits = [(name, i) for name, i in named if name and (rest == name or rest.startswith(f"{name}."))]
    if not fits:
        text = f"there is no [[{plain(kind)}]] of that name; {nearest(rest, [name for name, _ in named])}"
        raise JobError(source, [Problem(plain(path), text)])
    return max(fits, key=lambda one: len(one[0]))


def _field(annotation: Any, key: str) -> tuple[str, Any]:
    """The name of a field as the file writes it, and what may stand in it."""
    for cls in annotations_within(annotation):
        if isinstance(cls, type) and issubclass(cls, Piece):
            for name, info in cls.model_fields.items():
                if key in (name, info.alias):
                    return info.alias or name, info.annotation
    return key, None


def _is_list(annotation: Any) -> bool:
    return any(get_origin(one) is tuple for one in (annotation, *get_args(annotation)))


def _as_file(value: Any, annotation: Any) -> Any:
    if isinstance(value, Mapping):
        return {key: _as_file(one, _field(annotation, key)[1]) for key, one in value.items() if one is not None}
    if isinstance(value, (list, tuple)):
        return [_as_file(one, annotation) for one in value]
    if isinstance(value, str) and str not in annotations_within(annotation):
        return next(iter(spelled_out(value, annotation)), value)
    return value


def _at(data: Any, keys: Keys) -> Any:
    for key in keys:
        if isinstance(key, int):
            data = data[key] if isinstance(data, list) and key < len(data) else None
        else:
            data = data.get(key) if isinstance(data, Mapping) else None
    return data


def set_in(data: dict[str, Any], keys: Keys, value: Any, path: str, source: str) -> dict[str, Any]:
    """The data with the value set, None takes it out: what the text of the file must say afterwards.

    Raises JobError if there is no such place.
    """
    thing: Any = data
    for key, following in itertools.pairwise(keys):
        _must_be_there(thing, key, path, source)
        if isinstance(key, int):
            if key == len(thing):
                thing.append({})
        elif key not in thing:
            thing[key] = [] if isinstance(following, int) else {}
        thing = thing[key]
    last = keys[-1]
    _must_be_there(thing, last, path, source)
    if isinstance(thing, list) and isinstance(last, int):
        thing[last : last + 1] = [] if value is None else [value]
    elif value is None:
        thing.pop(last, None)
    else:
        thing[last] = value
    return data


def _must_be_there(thing: Any, key: str | int, path: str, source: str) -> None:
    if isinstance(key, int):
        there = isinstance(thing, list) and 0 <= key <= len(thing)
    else:
        there = isinstance(thing, dict)
    if not there:
        raise JobError(source, [Problem(plain(path), "there is no such place in the file")])
