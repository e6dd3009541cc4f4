"""The one folder of a page: what is in it by name. No path comes from outside, no link is followed, nothing above."""

from __future__ import annotations

import os
from pathlib import Path

from ...jobfile.kept_files import ROOMS
from ...jobfile.pictures import kind_of
from ...records import dataclass
from ..guard.bodies import Refused

JOB, SEEN = ".toml", ".seen.toml"
SHEETS = (".pdf", ".html", ".htm", ".json")
OUTLINES = (".svg", ".dxf")
MOST_FILES = 2000


@dataclass(frozen=True)
class Folder:
    """A folder, and the files in it that concern the page."""

    path: Path

    def jobs(self) -> dict[str, Path]:
        """Job files by their name without the ending, the one that was changed last first."""
        found = {
            path.name.removesuffix(JOB): path
            for path in _files(self.path)
            if path.name.endswith(JOB) and not path.name.endswith(SEEN)
        }
        return dict(sorted(found.items(), key=lambda one: -_changed(one[1])))

    def job(self, name: str) -> Path:
        """The job file of a name that the listing has. Raises Refused if there is none."""
        return _one(self.jobs(), name, "job file")

    def sheets(self) -> dict[str, Path]:
        """Files that may be sheets, by their whole name, the newest first."""
        found = {path.name: path for path in _files(self.path) if path.suffix.casefold() in SHEETS}
        return dict(sorted(found.items(), key=lambda one: -_changed(one[1])))

    def sheet(self, name: str) -> Path:
        """A sheet of the listing; errors are those of `job`."""
        return _one(self.sheets(), name, "sheet")

    def outlines(self) -> dict[str, Path]:
        """Drawings that can be read as the outline of a bracket."""
        return {path.name: path for path in _files(self.path) if path.suffix.casefold() in OUTLINES}

    def kept(self, room: str) -> dict[str, Path]:
        """Files in `photos` or `letters`, by their whole name."""
        under = self.path / room
        return {path.name: path for path in _files(under)} if is_folder(under) else {}

    def writable(self) -> bool:
        """Whether files can be written here."""
        return os.access(self.path, os.W_OK | os.X_OK)


def is_folder(path: Path) -> bool:
    """A real folder, not a link to one."""
    return path.is_dir() and not path.is_symlink()


def _files(folder: Path) -> list[Path]:
    """Plain files, no links, none whose name begins with a dot."""
    try:
        with os.scandir(folder) as found:
            names = [one.name for one in found if not one.name.startswith(".") and one.is_file(follow_symlinks=False)]
    except OSError:
        return []
    return [folder / name for name in sorted(names)[:MOST_FILES] if name.isprintable()]


def _changed(path: Path) -> float:
    try:
        return path.stat().st_mtime
    except OSError:
        return 0.0


def _one(found: dict[str, Path], name: str, what: str) -> Path:
    if name not in found:
        raise Refused(f"there is no {what} of that name in this folder", 404)
    return found[name]


TYPES = {"pdf": "application/pdf", "jpg": "image/jpeg", "png": "image/png", "heic": "image/heic"}


def kept_file(folder: Folder, room: str, name: str) -> tuple[bytes, str]:
    """The bytes of a kept file and what they are; only by a name of the listing. Raises Refused if there is none."""
    found = folder.kept(room).get(name) if room in ROOMS.values() and is_folder(folder.path / room) else None
    if found is None:
        raise Refused("there is no such file", 404)
    try:
        descriptor = os.open(found, os.O_RDONLY | getattr(os, "O_NOFOLLOW", 0))
        with open(descriptor, "rb") as file:
            data = file.read()
    except OSError:
        raise Refused("this file cannot be read", 404) from None
    return data, TYPES[kind_of(data)]
