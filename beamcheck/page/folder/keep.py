"""Photos and letters that were kept beside a job, handed out by the names of the listing."""

from __future__ import annotations

import os

from ...jobfile.kept_files import ROOMS
from ...jobfile.pictures import kind_of
from ..guard.bodies import Refused
from .listing import Folder, is_folder

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
