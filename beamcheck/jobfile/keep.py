"""A job file on disk: read with its digest, and saved only over what was read, the file as it was kept beside it."""

from __future__ import annotations

import hashlib
import os
from pathlib import Path

from ..errors import BeamcheckError
from ..lettering import legible
from ..model.reading.reader import MOST_BYTES, decoded, read_job
from ..records import dataclass
from ..sheet.folder import alone
from ..sheet.write import WriteError, write_atomically

FilePath = str | os.PathLike[str]
BEFORE = ".1"  # behind the name of the file as it was


class ChangedSince(BeamcheckError):
    """The file on disk is not the one that was read; `now` is what stands there, '' where it is gone."""

    def __init__(self, path: Path, now: str) -> None:
        what = "was changed" if now else "was taken away"
        super().__init__(f"{legible(str(path))} {what} by somebody else since it was read: nothing was written")
        self.path, self.now = path, now


@dataclass(frozen=True)
class JobFile:
    """A job file as it was read: its text, and the SHA-256 of its bytes."""

    path: Path
    text: str
    digest: str


def open_job_file(path: FilePath) -> JobFile:
    """Read the text of a job file, whether or not a job can be made of it.

    Raises JobError if it is no text file that could be a job file.
    """
    target = Path(os.fsdecode(path))
    try:
        raw = _bytes(target)
    except (OSError, ValueError):
        read_job(target)  # says why it cannot be read
        raise
    return JobFile(target, decoded(raw, str(target)), digest(raw))


def save(file: JobFile, text: str) -> JobFile:
    """Write a new text over a job file, whole or not at all; as it was, it stays beside it under its name and `.1`.

    Returns the file as it is now. Raises ChangedSince if the file is not the one that was read; nothing is written
    then; WriteError if it cannot be written; the file is as it was.
    """
    new = text.encode("utf-8")
    if len(new) > MOST_BYTES:
        raise WriteError(f"{file.path} would be larger than {MOST_BYTES / 1e6:g} MB: nothing was written")
    target = file.path.resolve()  # a link stays, the file it names is replaced
    with alone(target.parent):
        try:
            old = _bytes(target)
        except OSError:
            raise ChangedSince(file.path, "") from None
        if digest(old) != file.digest:
            raise ChangedSince(file.path, old.decode("utf-8", errors="replace"))
        if new != old:
            before = target.with_name(target.name + BEFORE)
            if before.is_symlink():
                raise WriteError(f"{before} is a link: take it away, so that the file as it was can be kept there")
            write_atomically(before, old, overwrite=True)
            write_atomically(target, new, overwrite=True)
    return JobFile(file.path, text, digest(new))


def save_new(path: FilePath, text: str) -> JobFile:
    """Write a job file where there is none. Raises WriteError if something stands there, or it cannot be written."""
    target = Path(os.fsdecode(path))
    with alone(target.parent):
        if os.path.lexists(target):
            raise WriteError(f"{target} is there already: give another name, nothing was written")
        write_atomically(target, text)
    return JobFile(target, text, digest(text.encode("utf-8")))


def digest(raw: bytes) -> str:
    """SHA-256 of a file, as sheets and pages name it."""
    return hashlib.sha256(raw).hexdigest()


def _bytes(path: Path) -> bytes:
    with path.open("rb") as file:
        return file.read(MOST_BYTES + 1)
