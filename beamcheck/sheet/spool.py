"""A large output on its way to a file: kept on the disk and not in memory once it is long."""

from __future__ import annotations

import tempfile
from collections.abc import Iterator
from typing import IO

IN_MEMORY = 4_000_000  # bytes; what is longer goes to the disk
_AT_ONCE = 1_000_000  # bytes


class Spool:
    """Bytes written one after the other and read back in pieces, as often as wanted; gone when nobody holds it."""

    def __init__(self) -> None:
        self.length = 0
        self._file: IO[bytes] = tempfile.SpooledTemporaryFile(max_size=IN_MEMORY)  # noqa: SIM115  closed when it is gone

    def write(self, piece: bytes) -> None:
        self._file.write(piece)
        self.length += len(piece)

    def __iter__(self) -> Iterator[bytes]:
        place = 0
        while place < self.length:
            self._file.seek(place)
            piece = self._file.read(_AT_ONCE)
            place += len(piece)
            yield piece
        self._file.seek(self.length)

    def __del__(self) -> None:
        self._file.close()
