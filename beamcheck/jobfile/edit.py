"""Fields of a job file set in its text: what is not touched stays byte for byte, comments and all.

The path of a field is that of `model/job_paths.py`, `beam.B1.supports.2.bearing`.
"""

from __future__ import annotations

import tomllib
from collections.abc import Iterator, Mapping
from typing import Any

from ..errors import JobError, Problem
from ..model.fields.places import plain
from ..model.job_paths import Sets
from ..model.reading.reader import read_job_text
from .layout import block_of, block_with, split_lines, with_entry
from .steps import set_in, steps_of

BOM = "\ufeff"


def with_fields(text: str, sets: Sets, source: str = "job file") -> str:
    """The text of a job file with fields set to values as a job file writes them; None takes a field out.

    A path that is only the name of a table, such as `existing`, adds an entry at the end of the file.

    `text`: a job file that can be read. `sets`: iterable of (str, value): path and value, in order. A value is text,
    number, yes or no, or a table or list of them. `source`: what messages call the file. Raises JobError if the job
    cannot be read, before or after; or a place does not exist; or the file is laid out in a way that cannot be kept.
    """
    read_job_text(text, source)
    for path, value in sets:
        kind, _, rest = path.partition(".")
        if not rest and kind != "job":
            text = with_entry(text, kind, value)
        else:
            text = _with_field(text, path, value, source)
    read_job_text(text, source)
    return text


def _with_field(text: str, path: str, value: Any, source: str) -> str:
    data = tomllib.loads(text.removeprefix(BOM))
    keys, value = steps_of(data, path, value, source)
    first, last = block_of(text, keys)
    lines = split_lines(text)
    block = "".join(lines[first:last])
    mark = BOM if block.startswith(BOM) else ""
    expected = set_in(data, keys, value, path, source)
    for tidy in (True, False):
        edited = block_with(block.removeprefix(mark), keys, value, tidy=tidy)
        made = "".join([*lines[:first], mark, edited, *lines[last:]])
        if _says(made, expected):
            return made
    text = "this part of the file is laid out in a way that cannot be kept: write the value in by hand"
    raise JobError(source, [Problem(plain(path), text)])


def _says(text: str, expected: Mapping[str, Any]) -> bool:
    try:
        return tomllib.loads(text.removeprefix(BOM)) == expected
    except tomllib.TOMLDecodeError:
        return False


def touched(sets: Sets) -> list[tuple[str, Any]]:
    """All single values that sets write into fields, each with its path; those in lists are left out."""
    return [leaf for path, value in sets if "." in path for leaf in _leaves(path, value)]


def _leaves(path: str, value: Any) -> Iterator[tuple[str, Any]]:
    if isinstance(value, Mapping):
        for key, one in value.items():
            yield from _leaves(f"{path}.{key}", one)
    elif value is not None and not isinstance(value, (list, tuple)):
        yield path, value
