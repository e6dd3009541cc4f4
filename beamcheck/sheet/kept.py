"""Which files are not to be written over: somebody else's, and ours that were signed, edited or locked since."""

from __future__ import annotations

import os
import re
from pathlib import Path

from ..errors import BeamcheckError

# the second name is the one that was shown until 0.2
_MARK = re.compile(rb"""generator["'\s:=]{1,6}(?:content=["'])?(?:whatcarries|beamcheck)\b""")
_HEAD = 4096  # bytes at the start of a file in which our mark must stand
_MOST = 150_000_000  # bytes: what is larger is not looked through
_BESIDE = (".asc", ".sig", ".sign", ".p7s", ".minisig")  # a signature in a file of its own


class WriteError(BeamcheckError, OSError):
    """A file that could not be written, or may not be."""


def made_here(path: Path) -> bool:
    """May the file be replaced: made by this tool, and not signed or edited since? An empty file counts as nobody's."""
    return not why_kept(path)


def why_kept(path: Path) -> str:
    """Why a file is not to be replaced ('was not made by whatcarries', 'is signed', ...); '' for one of ours, or empty.

    Text is ours when its first 4 kB hold the generator mark (`name="generator" content="whatcarries ..."`), PDF and
    spreadsheet by a mark of their own. All carry a digest: one that does not fit, or is gone, shows that somebody
    worked in the file.

    Raises WriteError if the file cannot be read.
    """
    try:
        with path.open("rb") as file:
            head = file.read(_HEAD)
            marked = _MARK.search(head) is not None
            if not head or not (marked or head.startswith((b"%PDF-", b"PK"))):
                return "was not made by whatcarries" if head else _locked(path)
            file.seek(0)
            raw = file.read(_MOST + 1)
    except OSError as error:
        raise WriteError(f"{path} exists and cannot be read: {error.strerror}; choose another name") from error
    if len(raw) > _MOST:
        return "is too large to be looked through for edits"
    return _not_as_written(raw) or _signed_beside(path) or _locked(path)


def _not_as_written(raw: bytes) -> str:
    if raw.startswith(b"PK"):
        from .lists.xlsx_out import why_not_ours

        return why_not_ours(raw)
    from .record.enclosed import changed_since

    return changed_since(raw)


def _signed_beside(path: Path) -> str:
    for ending in _BESIDE:
        if os.path.lexists(f"{path}{ending}"):
            return f"is signed in {path.name}{ending}"
    return ""


def _locked(path: Path) -> str:
    """Somebody took away the right to write it; asked of the file itself, since some accounts may write anything."""
    return "is read-only" if not path.stat().st_mode & 0o222 or not os.access(path, os.W_OK) else ""
