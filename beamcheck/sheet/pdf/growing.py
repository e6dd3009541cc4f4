"""A PDF that is written object by object to the disk, and closed with its table, its digest and our mark."""

from __future__ import annotations

import hashlib
import zlib
from array import array
from collections.abc import Iterable

from ..record.pdf_mark import ending
from ..spool import Spool

_HEAD = b"%PDF-1.7\n%\x80\x80\x80\x80\n\n"
_FREE, _USED = b"0000000000 65535 f\r\n", b"%010d 00000 n\r\n"


class Growing:
    """The file so far; a number may be given out before its object is written."""

    def __init__(self) -> None:
        self._spool, self._digest = Spool(), hashlib.sha256()
        self._starts = array("Q", [0])
        self._same: dict[bytes, int] = {}
        self._put(_HEAD)

    def new(self) -> int:
        """A number for an object to come."""
        self._starts.append(0)
        return len(self._starts) - 1

    def write(self, number: int, body: bytes) -> None:
        """The object of a number."""
        self._starts[number] = self._spool.length
        self._put(b"%d 0 obj\n%b\nendobj\n" % (number, body))

    def once(self, body: bytes) -> int:
        """The number of an object that names no other and may be in several parts: a typeface, a profile of color."""
        key = hashlib.sha256(body).digest()
        if key not in self._same:
            self._same[key] = self.new()
            self.write(self._same[key], body)
        return self._same[key]

    def so_far(self) -> bytes:
        """A digest of all that is written."""
        return self._digest.digest()

    def close(self, trailer: bytes, version: str) -> Spool:
        """The whole file; `trailer` is what stands in it beside its size."""
        table = self._spool.length
        self._put(b"xref\n0 %d\n" % len(self._starts))
        for first in range(0, len(self._starts), 10_000):
            lines = (_USED % start if start else _FREE for start in self._starts[first : first + 10_000])
            self._put(b"".join(lines))
        self._put(b"trailer\n<</Size %d%b>>\n" % (len(self._starts), trailer))
        for piece in ending(self._digest, b"startxref\n%d\n%%%%EOF" % table, version):
            self._spool.write(piece)
        return self._spool

    def _put(self, data: bytes) -> None:
        self._spool.write(data)
        self._digest.update(data)


def packed(pieces: Iterable[bytes]) -> tuple[int, bytes]:
    """How long a text is, and the text packed as streams of a PDF are; it is there once, in pieces."""
    made, parts, length = zlib.compressobj(), [], 0
    for piece in pieces:
        length += len(piece)
        parts.append(made.compress(piece))
    return length, b"".join((*parts, made.flush()))
