"""Photos and letters beside the job: named by the program, with the digest that goes onto the sheet."""

from __future__ import annotations

import hashlib
import os
import re
import threading
from pathlib import Path

from ..records import dataclass
from ..sheet.write import WriteError
from .pictures import NotKept, kind_of, without_place

MOST_OF_A_JOB = 500
ROOMS = {"pdf": "letters", "jpg": "photos", "png": "photos", "heic": "photos"}
_ODD = re.compile(r"[^A-Za-z0-9]+")
_ONE_AT_A_TIME = threading.Lock()


@dataclass(frozen=True)
class Kept:
    """A file that was kept: its place as a job file names it, and its digest."""

    place: str  # photos/K1-gap-1.jpg
    sha256: str

    @property
    def evidence(self) -> str:
        """As it is written beside an answer and printed on the sheet."""
        return f"{self.place} (sha256 {self.sha256[:16]})"


def keep(folder: Path, about: str, data: bytes) -> Kept:
    """Keep a photo or letter under a new name made of what it is about (`K1-gap` gives `photos/K1-gap-1.jpg`).

    Raises NotKept if it is no photo or letter, or there are too many; WriteError if it cannot be written.
    """
    ending = kind_of(data)
    clean = without_place(data)
    room = folder / ROOMS[ending]
    stem = _ODD.sub("-", about).strip("-")[:60] or "piece"
    with _ONE_AT_A_TIME:
        if room.is_symlink() or (room.exists() and not room.is_dir()):
            raise NotKept(f"{room.name} in this folder is a link or no folder: nothing was kept", 409)
        try:
            room.mkdir(exist_ok=True)
            if len(list(room.iterdir())) >= MOST_OF_A_JOB:
                raise NotKept(f"there are {MOST_OF_A_JOB} files in {room.name} already: move some elsewhere", 409)
            path = _write_new(room, stem, ending, clean)
        except OSError as error:
            raise WriteError(f"the photo could not be kept in {room.name}: {error.strerror}") from error
    return Kept(f"{room.name}/{path.name}", hashlib.sha256(clean).hexdigest())


def _write_new(room: Path, stem: str, ending: str, data: bytes) -> Path:
    """Whole or not at all, and never over another."""
    for number in range(1, 10 * MOST_OF_A_JOB):
        path = room / f"{stem}-{number}.{ending}"
        if os.path.lexists(path):
            continue
        part = room / f".{path.name}.part"
        with open(part, "wb") as file:
            file.write(data)
            file.flush()
            os.fsync(file.fileno())
        os.replace(part, path)
        return path
    raise NotKept("there are too many files of this name", 409)
