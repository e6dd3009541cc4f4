"""Reads a job file: TOML text in, a Job out, or one JobError that holds every problem with its place and line."""

from __future__ import annotations

import os
import re
import tomllib
from collections.abc import Callable, Iterator, Mapping, Sequence
from functools import lru_cache
from itertools import islice
from typing import Any, cast

from pydantic import ValidationError

from ...errors import JobError, Problem
from ..classes import HEADS, KINDS, class_of
from ..fields.places import Path, fields, place
from ..fields.wording import problems_of
from ..job import MOST_PIECES, Job
from ..links.pieces import faults_between

MOST_BYTES = 2_000_000  # a job of a whole house has some 20 kB; what is larger is not a job file
MOST_PROBLEMS = 200  # beyond that the file is not a job file with slips but something else

_TOO_MANY = f"more than {MOST_PIECES} entries in one list: this is not a job file, or it is to be split"
_POSITION = re.compile(r"(?<!\s)\s*\(at (?:line (\d+), column \d+|end of document)\)$")
# The TOML reader needs quadratic time for the parts of a name; no name in a job file has more than four.
_ENDLESS_NAME = re.compile(r"""(?<![\w-])(?:(?:[\w-]+|"[^"\n]*"|'[^'\n]*')[ \t]*\.[ \t]*){30}""")
_OTHER_ENCODINGS = {b"\xff\xfe": "UTF-16", b"\xfe\xff": "UTF-16"}


def read_job(path: str | os.PathLike[str]) -> Job:
    """Read a job file.

    Raises
    ------
    JobError
        With every problem of the file: that it cannot be read, that it is not TOML, or all that is wrong in it.
    """
    source = os.fsdecode(path)
    try:
        with open(source, "rb") as file:
            raw = file.read(MOST_BYTES + 1)
    except (OSError, ValueError) as error:
        raise _unreadable(source, error) from None
    return read_job_text(decoded(raw, source), source)


def read_job_text(text: str, source: str = "job file") -> Job:
    """Read a job from the text of a job file; `source` is what messages call it.

    Raises
    ------
    JobError
        With every problem of the text.
    """
    try:
        return _read(text)
    except JobError as error:
        raise JobError(source, error.problems) from None


@lru_cache(maxsize=4)  # as one types, a text is read to edit it, to look at what came out, and to check it
def _read(text: str) -> Job:
    """A job, which nobody can change; what is wrong with a text is not kept."""
    if len(text) > MOST_BYTES:
        raise JobError("", [Problem("", f"larger than {MOST_BYTES / 1e6:g} MB: this is not a job file")])
    text = text.removeprefix("\ufeff").replace("\r\n", "\n")
    if endless := _ENDLESS_NAME.search(text):
        line = text.count("\n", 0, endless.start()) + 1
        raise JobError("", [Problem("", "a dotted name of so many parts is not that of a job file", line)])
    try:
        data = tomllib.loads(text)
    except tomllib.TOMLDecodeError as error:
        raise JobError("", [_syntax_problem(str(error), text)]) from None
    except RecursionError:
        raise JobError("", [Problem("", "brackets within brackets, too deep: this is not a job file")]) from None
    except ValueError:  # a number of thousands of digits
        raise JobError("", [Problem("", "a number in it is too long to be read")]) from None

    def lines() -> Mapping[Path, int]:
        from .lines import line_map

        return line_map(text)

    return _job(data, "", lines)


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
    if crowds := [(path, _TOO_MANY) for path in _crowds(data, ())]:
        raise JobError(source, _problems(crowds, data, lines()))
    job = _table_by_table(data)
    faults: list[tuple[Path, str]] = []
    if job is None:
        try:
            job = Job.model_validate(data)
        except ValidationError as error:
            faults = problems_of(error.errors(include_url=False)[: MOST_PROBLEMS + 1], data, cast(Any, Job))
    faults += islice(faults_between(job if job is not None else data), MOST_PROBLEMS + 1)
    if job is None or faults:
        raise JobError(source, _problems(faults, data, lines()))
    return job


def _table_by_table(data: dict[str, Any]) -> Job | None:
    """The job without what its file does not have: most jobs have no brackets, and to get ready to read one takes time.

    None where anything is amiss: reading the whole finds all of it, and says where.
    """
    if "job" not in data or not data.keys() <= {*KINDS}:
        return None
    found: dict[str, Any] = {}
    try:
        for name, entries in data.items():
            if name in HEADS:
                found[name] = class_of(name).model_validate(entries)
                continue
            if not isinstance(entries, (list, tuple)):
                return None
            found[name] = tuple(map(class_of(name).model_validate, entries))
    except ValidationError:
        return None
    return Job.model_construct(**found)


def _crowds(thing: Any, path: Path) -> Iterator[Path]:
    """Lists longer than any in a job; to check each of their entries would take minutes."""
    if isinstance(thing, (list, tuple)) and len(thing) > MOST_PIECES:
        yield path
    elif len(path) < 3:
        keyed = enumerate(thing) if isinstance(thing, (list, tuple)) else fields(thing).items()
        for key, value in keyed:
            yield from _crowds(value, (*path, key))


def _problems(faults: Sequence[tuple[Path, str]], data: Any, lines: Mapping[Path, int]) -> list[Problem]:
    """In the order of the file, each once."""
    from .lines import line_of

    found = dict.fromkeys(Problem(place(path, data), text, line_of(lines, path)) for path, text in faults)
    ordered = sorted(found, key=lambda problem: problem.line or 0)
    if len(ordered) > MOST_PROBLEMS:
        ordered = [*ordered[:MOST_PROBLEMS], Problem("", "and more: these are the first ones only")]
    return ordered


def _unreadable(source: str, error: OSError | ValueError) -> JobError:
    match error:
        case OSError() if os.path.isdir(source):
            text = "this is a folder: name the job file in it"
        case FileNotFoundError():
            folder = os.path.dirname(source) or os.curdir
            text = "there is no such file" if os.path.isdir(folder) else f"there is no folder {folder!r}"
        case PermissionError():
            text = "no permission to read this file"
        case OSError():
            text = f"cannot be read: {error.strerror or error}"
        case _:  # a null character in the name
            text = f"not a file name: {error}"
    return JobError(source, [Problem("", text)])


def decoded(raw: bytes, source: str) -> str:
    """The text of a job file. Raises JobError if it is too large, or no text in UTF-8."""
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
    from .toml_trouble import begins_value, toml_trouble

    lines = text.split("\n")
    position = _POSITION.search(message)
    number = int(position[1]) if position and position[1] else max(len(text.rstrip().split("\n")), 1)
    bare = _POSITION.sub("", message)
    if position and not position[1] and bare.startswith(("Unterminated", "Unclosed", "Invalid value")):
        number = max((i for i, line in enumerate(lines, start=1) if begins_value(line)), default=number)
    said = toml_trouble(bare, lines[number - 1])
    return Problem("", f"{said} (reading stopped here; there may be more below)", number)
