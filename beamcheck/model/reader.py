"""Reads a job file: TOML text in, a Job out, or one JobError that holds every problem with its place and line."""

from __future__ import annotations

import os
import re
import tomllib
from collections.abc import Callable, Mapping, Sequence
from itertools import islice
from pathlib import Path as FilePath
from typing import Any

from pydantic import ValidationError

from ..errors import JobError, Problem
from . import wording
from .lines import Path, line_map, line_of
from .links import faults_between
from .pieces import Job
from .places import place

MOST_BYTES = 2_000_000  # a job of a whole house has some 20 kB; what is larger is not a job file
LONGEST_LINE = 10_000  # the TOML reader takes quadratic time over a name of very many parts
MOST_PROBLEMS = 200  # beyond that the file is not a job file with slips but something else

_POSITION = re.compile(r"\s*\(at (?:line (\d+), column \d+|end of document)\)$")
_OTHER_ENCODINGS = {b"\xff\xfe": "UTF-16", b"\xfe\xff": "UTF-16"}


def read_job(path: str | os.PathLike[str]) -> Job:
    """Read a job file.

    Raises
    ------
    JobError
        With every problem of the file: that it cannot be read, that it is not TOML, or all that is wrong in it.
    """
    source = os.fspath(path)
    try:
        with open(source, "rb") as file:
            raw = file.read(MOST_BYTES + 1)
    except (OSError, ValueError) as error:
        raise _unreadable(source, error) from None
    return read_job_text(_decoded(raw, source), source)


def read_job_text(text: str, source: str = "job file") -> Job:
    """Read a job from the text of a job file; `source` is what messages call it.

    Raises
    ------
    JobError
        With every problem of the text.
    """
    if len(text) > MOST_BYTES:
        raise JobError(source, [Problem("", f"larger than {MOST_BYTES / 1e6:g} MB: this is not a job file")])
    text = text.removeprefix("\ufeff").replace("\r\n", "\n")
    for number, line in enumerate(text.split("\n"), start=1):
        if len(line) > LONGEST_LINE:
            text = f"longer than {LONGEST_LINE:,} characters: break the line, or this is not a job file"
            raise JobError(source, [Problem("", text, number)])
    try:
        data = tomllib.loads(text)
    except tomllib.TOMLDecodeError as error:
        raise JobError(source, [_syntax_problem(str(error), text)]) from None
    except RecursionError:
        raise JobError(source, [Problem("", "brackets within brackets, too deep: this is not a job file")]) from None
    except ValueError:  # a number of thousands of digits
        raise JobError(source, [Problem("", "a number in it is too long to be read")]) from None
    return _job(data, source, lambda: line_map(text))


def job_from_data(data: Mapping[str, Any], source: str = "job") -> Job:
    """Make a job from a dictionary with the keys of a job file; quantities are text or pint quantities.

    Raises
    ------
    JobError
        With every problem of the data.
    """
    if not isinstance(data, Mapping):
        raise JobError(source, [Problem("", f"a job is a dictionary, not {type(data).__name__}")])
    return _job(dict(data), source, dict)


def _job(data: dict[str, Any], source: str, lines: Callable[[], Mapping[Path, int]]) -> Job:
    """Check field by field, then piece against piece; both even when the first finds something."""
    job: Job | None = None
    faults: list[tuple[Path, str]] = []
    try:
        job = Job.model_validate(data)
    except ValidationError as error:
        faults = wording.problems_of(error.errors(include_url=False)[: MOST_PROBLEMS + 1], data)
    faults += islice(faults_between(job if job is not None else data), MOST_PROBLEMS + 1)
    if job is None or faults:
        raise JobError(source, _problems(faults, data, lines()))
    return job


def _problems(faults: Sequence[tuple[Path, str]], data: Any, lines: Mapping[Path, int]) -> list[Problem]:
    """In the order of the file, each once."""
    found = dict.fromkeys(Problem(place(path, data), text, line_of(lines, path)) for path, text in faults)
    ordered = sorted(found, key=lambda problem: problem.line or 0)
    if len(ordered) > MOST_PROBLEMS:
        ordered = [*ordered[:MOST_PROBLEMS], Problem("", "and more: these are the first ones only")]
    return ordered


def _unreadable(source: str, error: OSError | ValueError) -> JobError:
    match error:
        case FileNotFoundError():
            folder = FilePath(source).parent
            text = "there is no such file" if folder.is_dir() else f"there is no folder {str(folder)!r}"
        case IsADirectoryError():
            text = "this is a folder: name the job file in it"
        case PermissionError():
            text = "no permission to read this file"
        case OSError():
            text = f"cannot be read: {error.strerror or error}"
        case _:  # a null character in the name
            text = f"not a file name: {error}"
    return JobError(source, [Problem("", text)])


def _decoded(raw: bytes, source: str) -> str:
    if len(raw) > MOST_BYTES:
        raise JobError(source, [Problem("", f"larger than {MOST_BYTES / 1e6:g} MB: this is not a job file")])
    if encoding := _OTHER_ENCODINGS.get(raw[:2]):
        raise JobError(source, [Problem("", f"the text is saved as {encoding}: save it as UTF-8")])
    if b"\0" in raw:
        raise JobError(
            source, [Problem("", "this is not a text file: a job file is plain text (TOML), saved as UTF-8")]
        )
    try:
        return raw.decode("utf-8")
    except UnicodeDecodeError as error:
        line = raw.count(b"\n", 0, error.start) + 1
        raise JobError(
            source,
            [Problem("", f"byte {raw[error.start]:#04x} is not UTF-8: save the file as plain text in UTF-8", line)],
        ) from None


def _syntax_problem(message: str, text: str) -> Problem:
    """The one fault at which the TOML reader stopped, at the line where the user has to look."""
    lines = text.split("\n")
    position = _POSITION.search(message)
    number = int(position[1]) if position and position[1] else max(len(text.rstrip().split("\n")), 1)
    bare = _POSITION.sub("", message)
    if position and not position[1] and ("Unterminated" in bare or "Unclosed" in bare):
        number = max((i for i, line in enumerate(lines, start=1) if wording.begins_value(line)), default=number)
    said = wording.toml_trouble(bare, lines[number - 1])
    return Problem("", f"{said} (reading stopped here; there may be more below)", number)
