"""Files are written whole or not at all, and never over somebody else's."""

from __future__ import annotations

import os
import re
import secrets
from contextlib import suppress
from pathlib import Path

from ..errors import BeamcheckError

# the second name is the one that was shown until 0.2
_MARK = re.compile(rb"""generator["'\s:=]{1,6}(?:content=["'])?(?:whatcarries|beamcheck)\b""")
_HEAD = 4096  # bytes at the start of a file in which our mark must stand


class WriteError(BeamcheckError, OSError):
    """A file that could not be written, or may not be."""


def write_atomically(path: str | os.PathLike[str], content: str | bytes, *, overwrite: bool = False) -> Path:
    """Write `content` to `path` by way of a temporary file in the same folder.

    Text is written as UTF-8 with the line ends it has. An existing file is replaced only when it was made by this tool
    and nothing shows that it was signed or edited since (see `why_kept`), or with `overwrite=True`.

    Raises
    ------
    WriteError
        If the folder is missing or not writable, the path is a folder, or the file is not to be replaced.
    """
    data = content.encode("utf-8", errors="replace") if isinstance(content, str) else content
    try:
        return _write(Path(path), data, overwrite)
    except WriteError:
        raise
    except (OSError, ValueError) as error:  # ValueError: a null character in the path
        why = error.strerror if isinstance(error, OSError) else str(error)
        raise WriteError(
            f"{path} could not be written: {why}; check that the folder is there, may be written to and has room"
        ) from error


def _write(target: Path, data: bytes, overwrite: bool) -> Path:
    if target.is_dir():
        raise WriteError(f"{target} is a folder; give the name of a file in it")
    if target.exists() and not target.is_file():
        raise WriteError(f"{target} is a device or a pipe, not a file; give the name of a file")
    if not overwrite and target.exists() and (why := why_kept(target)):
        raise WriteError(f"{target} exists and {why}; give another name, or allow replacing it")
    target = target.resolve()  # a link stays, the file it names is replaced
    temporary = target.with_name(f".{target.name[:40]}.{secrets.token_hex(4)}.part")
    try:
        with open(temporary, "xb") as file:
            file.write(data)
            file.flush()
            os.fsync(file.fileno())
        if target.exists():
            os.chmod(temporary, target.stat().st_mode & 0o777)
        os.replace(temporary, target)
    finally:
        with suppress(OSError):  # it is gone when all went well, and was never there when it could not be made
            temporary.unlink()
    return target


def made_here(path: Path) -> bool:
    """May the file be replaced: made by this tool, and not signed or edited since? An empty file counts as nobody's."""
    return not why_kept(path)


def why_kept(path: Path) -> str:
    """Why a file is not to be replaced ('was not made by whatcarries', 'is signed', ...); '' for one of ours, or empty.

    HTML, JSON and CSV are ours when their first 4 kB hold the generator mark (`name="generator" content="whatcarries
    ..."`), PDF and spreadsheet by a mark of their own. Sheets and results carry a digest: one that does not fit shows
    that somebody worked in the file.

    Raises
    ------
    WriteError
        If the file cannot be read.
    """
    try:
        with path.open("rb") as file:
            head = file.read(_HEAD)
            marked = _MARK.search(head) is not None
            if not head or not (marked or head.startswith((b"%PDF-", b"PK"))):
                return "was not made by whatcarries" if head else ""
            raw = head + file.read()
    except OSError as error:
        raise WriteError(f"{path} exists and cannot be read: {error.strerror}; choose another name") from error
    if raw.startswith(b"PK"):
        from .lists.xlsx_out import why_not_ours

        return why_not_ours(raw)
    from .record.enclosed import changed_since

    return changed_since(raw)
