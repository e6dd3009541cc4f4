"""A folder that several write to: one run at a time, and what a run that was killed left behind is swept away."""

from __future__ import annotations

import os
import re
import time
from collections.abc import Iterator
from contextlib import ExitStack, contextmanager, suppress
from importlib import import_module
from pathlib import Path
from typing import Any

from .kept import WriteError

_LOCKS: Any = None
with suppress(ImportError):  # not on every system
    _LOCKS = import_module("fcntl")
PATIENCE = 20.0  # s, for which another run may hold a folder
_STALE, _STALE_WITHOUT_LOCKS = 60.0, 86_400.0  # s, after which a temporary file that nobody holds is nobody's
_SCRAP = re.compile(r"\.[0-9a-f]{8}\.part")


@contextmanager
def alone(*folders: Path) -> Iterator[None]:
    """One writer at a time in these folders, where the system can tell; a lock goes with the process that holds it.

    Raises WriteError if another run holds one of them for too long.
    """
    with ExitStack() as stack:
        for folder in _in_order(folders):
            try:
                handle = os.open(folder, os.O_RDONLY)
            except OSError:  # a folder that cannot be opened is told when the file is written
                continue
            stack.callback(os.close, handle)
            _wait(handle, folder)
        yield


def _in_order(folders: tuple[Path, ...]) -> list[Path]:
    """Each once and everybody's in the same order, so that no two wait for each other."""
    found: dict[tuple[int, int], Path] = {}
    for folder in folders:
        with suppress(OSError):
            stat = folder.stat()
            found.setdefault((stat.st_dev, stat.st_ino), folder)
    return [found[key] for key in sorted(found)]


def _wait(handle: int, folder: Path) -> None:
    end = time.monotonic() + PATIENCE
    while not held(handle):
        if time.monotonic() > end:
            raise WriteError(f"another run is writing in {folder} and does not come to an end; nothing was written")
        time.sleep(0.02)


def held(handle: int) -> bool:
    """Take the lock of an open file, if nobody has it; it goes with the file. True where the system knows no locks."""
    if _LOCKS is None:
        return True
    try:
        _LOCKS.flock(handle, _LOCKS.LOCK_EX | _LOCKS.LOCK_NB)
    except BlockingIOError:
        return False
    except OSError:  # a disk that knows no locks
        return True
    return True


def sweep(target: Path, letters: int) -> None:
    """Take away temporary files for this target that a killed run left: nobody holds them, and they are not new."""
    start = f".{target.name[:letters]}"
    with suppress(OSError):
        for one in list(os.scandir(target.parent)):
            if one.name.startswith(start) and _SCRAP.fullmatch(one.name, len(start)):
                with suppress(OSError):
                    _sweep_one(one)


def _sweep_one(one: os.DirEntry[str]) -> None:
    if not one.is_file(follow_symlinks=False):
        return
    stale = _STALE_WITHOUT_LOCKS if _LOCKS is None else _STALE
    if time.time() - one.stat(follow_symlinks=False).st_mtime < stale:
        return
    handle = os.open(one.path, os.O_RDONLY)
    try:
        if held(handle):
            os.unlink(one.path)
    finally:
        os.close(handle)
