"""A PDF that is written object by object to the disk, and closed with its table, its digest and our mark.

What is no stream itself (tags, links, pages: most of a sheet) is packed into streams of objects, some at a time.
"""

from __future__ import annotations

import hashlib
import zlib
from array import array
from collections.abc import Iterable, Iterator

from ..record.pdf_mark import ending
from ..spool import Spool

_HEAD = b"%PDF-1.7\n%\x80\x80\x80\x80\n\n"
_IN_A_STREAM = 200  # objects
_FREE, _PLAIN, _PACKED = range(3)  # kinds of entries of the table
_STREAM = b"<<%b/Filter/FlateDecode/Length %d>>\nstream\n%b\nendstream"
_AT_ONCE = 10_000  # entries of the table


class Growing:
    """The file so far; a number may be given out before its object is written."""

    def __init__(self) -> None:
        self._spool, self._digest = Spool(), hashlib.sha256()
        self._kinds, self._places, self._nth = array("B", [_FREE]), array("Q", [0]), array("H", [65535])
        self._same: dict[bytes, int] = {}
        self._waiting: list[tuple[int, bytes]] = []
        self._put(_HEAD)

    def new(self) -> int:
        """A number for an object to come."""
        self._kinds.append(_FREE)
        self._places.append(0)
        self._nth.append(0)
        return len(self._kinds) - 1

    def write(self, number: int, body: bytes) -> None:
        """The object of a number."""
        if body.endswith(b"endstream"):
            self._kinds[number], self._places[number] = _PLAIN, self._spool.length
            self._put(b"%d 0 obj\n%b\nendobj\n" % (number, body))
            return
        self._waiting.append((number, body))
        if len(self._waiting) == _IN_A_STREAM:
            self._pack()

    def write_stream(self, number: int, said: bytes, held: Spool) -> None:
        """The same of a stream that is on the disk; `said` is what stands before it."""
        self._kinds[number], self._places[number] = _PLAIN, self._spool.length
        self._put(b"%d 0 obj\n%b\nstream\n" % (number, said))
        for piece in held:
            self._put(piece)
        self._put(b"\nendstream\nendobj\n")

    def _pack(self) -> None:
        """The objects that wait as one stream."""
        if not self._waiting:
            return
        stream, places, place = self.new(), list[bytes](), 0
        for nth, (number, body) in enumerate(self._waiting):
            self._kinds[number], self._places[number], self._nth[number] = _PACKED, stream, nth
            places.append(b"%d %d" % (number, place))
            place += len(body) + 1
        head = b" ".join(places) + b"\n"
        held = zlib.compress(b"\n".join((head[:-1], *(body for _, body in self._waiting))))
        said = b"/Type/ObjStm/N %d/First %d" % (len(self._waiting), len(head))
        self._waiting.clear()
        self.write(stream, _STREAM % (said, len(held), held))

    def once(self, body: bytes) -> int:
        """The number of an object that names no other and may be in several parts: a typeface, a profile of color."""
        key = hashlib.sha256(body).digest()
        if key not in self._same:
            self._same[key] = self.new()
            self.write(self._same[key], body)
        return self._same[key]

    def so_far(self) -> bytes:
        """A digest of all that is written."""
        self._pack()
        return self._digest.digest()

    def close(self, trailer: bytes, version: str) -> Spool:
        """The whole file; `trailer` is what stands in it beside its size."""
        self._pack()
        number, table = self.new(), self._spool.length
        wide = (table.bit_length() + 7) // 8
        said = b"<</Type/XRef/Size %d/W[1 %d 2]%b/Filter/FlateDecode/Length %d>>"
        _, held = packed(self._table(wide))
        self.write_stream(number, said % (number + 1, wide, trailer, held.length), held)
        for piece in ending(self._digest, b"startxref\n%d\n%%%%EOF" % table, version):
            self._spool.write(piece)
        return self._spool

    def _table(self, wide: int) -> Iterator[bytes]:
        """Where each object is, in `wide` bytes a place."""
        for first in range(0, len(self._kinds), _AT_ONCE):
            some = range(first, min(first + _AT_ONCE, len(self._kinds)))
            yield b"".join(
                b"%c%b%b"
                % (self._kinds[one], self._places[one].to_bytes(wide, "big"), self._nth[one].to_bytes(2, "big"))
                for one in some
            )

    def _put(self, data: bytes) -> None:
        self._spool.write(data)
        self._digest.update(data)


def packed(pieces: Iterable[bytes]) -> tuple[int, Spool]:
    """How long a text is, and the text packed as streams of a PDF are; a large one is on the disk."""
    made, held, length = zlib.compressobj(), Spool(), 0
    for piece in pieces:
        length += len(piece)
        held.write(made.compress(piece))
    held.write(made.flush())
    return length, held
