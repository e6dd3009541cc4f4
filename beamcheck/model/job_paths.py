"""A field of a job by its path, `beam.B1.supports.2.bearing`: read, and set to a value as a job file writes it.

A path is a kind of table, the name of an entry (which may hold spaces and dots), and the fields below it; a number
counts from 1 in a list, the number after the last adds an entry. `beam` alone adds a table; `job.ground_snow` is a
field of the head. Setting gives a new job in which all that is not on the path is the same object as before.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from functools import lru_cache
from typing import Annotated, Any

from pydantic import ConfigDict, Field, TypeAdapter, ValidationError

from ..errors import JobError, Problem, nearest
from .classes import HEADS, type_of
from .fields.base import Piece, annotations_within
from .fields.places import plain
from .job import Job

Sets = Iterable[tuple[str, Any]]  # path and value, as a job file writes it


def get_field(job: Job, path: str) -> Any:
    """What stands at a path. Raises JobError if there is no such place."""
    thing: Any = job
    for key in _steps(job, path):
        if isinstance(key, int):
            thing = thing[key] if key < len(thing) else None
        elif isinstance(thing, Mapping):
            thing = thing.get(key)
        elif thing is not None:
            thing = getattr(thing, _field(type(thing), key, path))
    return thing


def with_values(job: Job, sets: Sets) -> Job:
    """The job with values set, each read by the type of its field.

    Raises JobError if a place does not exist, or a value cannot be read there. Whether the pieces still fit together is
    not asked.
    """
    changed = []
    for path, value in _together(job, sets):
        keys = _steps(job, path)
        job = _set(job, keys, value, path)
        changed.append((keys, path))
    for keys, path in changed:  # only now: what goes together may have been set one after the other
        _ask(job, keys, path)
    return job


def _together(job: Job, sets: Sets) -> list[tuple[str, Any]]:
    """The sets, in which those into one table that is not there yet make that table."""
    found: list[tuple[str, Any]] = []
    made: dict[str, Any] = {}  # the table of the last set, if it is not there yet
    at = ""
    for path, value in sets:
        table, _, key = path.rpartition(".")
        if made and table == at:
            made[key] = value
            continue
        at, made = "", {}
        if "." in table and not key.isdecimal() and _missing(job, table):
            at, made = table, {key: value}
        found.append((at, made) if made else (path, value))
    return found


def _missing(job: Job, table: str) -> bool:
    try:
        return get_field(job, table) is None
    except JobError:  # told when it is set
        return False


def _ask(piece: Any, keys: Sequence[str | int], path: str) -> None:
    """The own rules of each piece on the way are asked again."""
    for key in keys:
        if isinstance(piece, Piece) and not isinstance(piece, Job) and (faults := list(piece.all_faults())):
            raise _no_place(path, "; ".join(text for _, text in faults))
        if isinstance(key, int):
            piece = piece[key] if key < len(piece) else None
        elif isinstance(piece, Piece):
            piece = getattr(piece, _field(type(piece), key, path))
        else:
            return


def same_value(job: Job, path: str, value: Any) -> bool:
    """Whether the field holds that value, however it is written.

    Raises JobError if there is no such field, or the value cannot be read there.
    """
    return bool(get_field(with_values(job, [(path, value)]), path) == get_field(job, path))


def _steps(job: Job, path: str) -> list[str | int]:
    """A path as keys: the kind, the place of the entry, the fields; a list place counts from 0."""
    kind, _, rest = path.partition(".")
    if kind not in Job.model_fields:
        raise _no_place(path, f"there is no table {kind!r}; {nearest(kind, sorted(Job.model_fields))}")
    if kind in HEADS or not rest:
        return [kind, *_keys(rest)]
    entries = getattr(job, kind)
    named = [(entry.name, i) for i, entry in enumerate(entries) if _begins(rest, getattr(entry, "name", ""))]
    if not named:
        names = [str(getattr(entry, "name", "")) for entry in entries]
        raise _no_place(path, f"there is no [[{kind}]] of that name; {nearest(rest.partition('.')[0], names)}")
    name, index = max(named, key=lambda one: len(one[0]))
    return [kind, index, *_keys(rest[len(name) + 1 :])]


def _begins(rest: str, name: str) -> bool:
    return bool(name) and (rest == name or rest.startswith(f"{name}."))


def _keys(rest: str) -> list[str | int]:
    return [int(key) - 1 if key.isdecimal() else key for key in rest.split(".")] if rest else []


def _field(model: type[Piece], key: str | int, path: str) -> str:
    """The name in Python of a field that a job file may call otherwise."""
    for name, info in model.model_fields.items():
        if key in (name, info.alias):
            return name
    raise _no_place(path, f"there is no field {key!r} there; {nearest(str(key), list(model.model_fields))}")


def _set(piece: Any, keys: Sequence[str | int], value: Any, path: str) -> Any:
    """The piece with the value set; whether it still fits together is not asked."""
    name = _field(type(piece), keys[0], path)
    old = getattr(piece, name)
    if len(keys) == 1:
        adds = isinstance(old, tuple) and isinstance(value, (Mapping, Piece))
        new = _read(type(piece), name, (*old, value) if adds else value, path)
    elif isinstance(old, tuple):
        new = _set_entry(type(piece), name, old, keys[1:], value, path)
    elif isinstance(old, Piece):
        new = _set(old, keys[1:], value, path)
    else:  # a table that is not there yet
        for key in reversed(keys[1:]):
            value = {key: value}
        new = _read(type(piece), name, {**old, **value} if isinstance(old, Mapping) else value, path)
    return piece.model_copy(update={name: new})


def _set_entry(
    model: type[Piece], name: str, old: tuple[Any, ...], keys: Sequence[str | int], value: Any, path: str
) -> tuple[Any, ...]:
    index = keys[0]
    if not isinstance(index, int) or not 0 <= index <= len(old):
        raise _no_place(path, f"{name} has {len(old)} entries, counted from 1")
    if index == len(old) or len(keys) == 1:
        for key in reversed(keys[1:]):
            value = {key: value}
        entry = _read(model, name, (value,), path)[0]
    else:
        entry = _set(old[index], keys[1:], value, path)
    return (*old[:index], entry, *old[index + 1 :])


def _read(model: type[Piece], name: str, value: Any, path: str) -> Any:
    """A value as the job file writes it, by the type of its field; None stands for what is left out."""
    if value is None:
        return model.model_fields[name].get_default(call_default_factory=True)
    if isinstance(value, list):
        value = tuple(value)
    tried = [value, *spelled_out(value, _annotation(model, name))]
    for one in tried:
        try:
            return _reader(model, name).validate_python(one)
        except ValidationError as error:
            said = error.errors(include_url=False)[0]["msg"].removeprefix("Value error, ")
    raise _no_place(path, f"{value!r} cannot be read there: {said}")


def spelled_out(value: Any, annotation: Any) -> Iterable[Any]:
    """Text that stands for a number or for yes and no, where the field takes those."""
    parts = annotations_within(annotation)
    if isinstance(value, str) and bool in parts and value.casefold() in ("yes", "no", "true", "false"):
        yield value.casefold() in ("yes", "true")
    if isinstance(value, str) and int in parts and value.strip().isdecimal():
        yield int(value)


@lru_cache(maxsize=512)
def _reader(model: type[Piece], name: str) -> TypeAdapter[Any]:
    """What reads a field by itself, as its class does."""
    info = model.model_fields[name]
    parts = [*info.metadata, *([Field(discriminator=info.discriminator)] if info.discriminator else [])]
    kind: Any = _annotation(model, name)
    for part in parts:
        kind = Annotated[kind, part]
    if isinstance(kind, type) and issubclass(kind, Piece):
        return TypeAdapter(kind)
    return TypeAdapter(kind, config=ConfigDict(strict=True))


def _annotation(model: type[Piece], name: str) -> Any:
    """What may stand in a field; of a job only the class of that kind of table is loaded."""
    return type_of(name) if model is Job else model.model_fields[name].annotation


def _no_place(path: str, text: str) -> JobError:
    return JobError("job", [Problem(plain(path), text)])
