"""The objects of a PDF that typst made, as bytes, and how they are renumbered on their way into another file.

typst 0.15 writes each object plainly, one after the other, with a table of where each begins. Nothing else is read.
"""

from __future__ import annotations

import re
import zlib
from collections.abc import Callable, Iterator
from itertools import pairwise

from ...errors import BeamcheckError

_TABLE = re.compile(rb"startxref\s+([0-9]+)\s+%%EOF\s*\Z")
_TOKEN = re.compile(rb"\\.|[()]|(?<![0-9A-Za-z])([0-9]+) 0 R|/StructParents? ([0-9]+)", re.DOTALL)
_REFERENCE = re.compile(rb"([0-9]{1,10}) 0 R")
_STREAM, _END_OF_STREAM = b"\nstream\n", b"\nendstream"


class Objects:
    """A PDF taken apart. Raises BeamcheckError if it is not written as typst 0.15 does."""

    def __init__(self, pdf: bytes) -> None:
        self._pdf = pdf
        found = _TABLE.search(pdf, max(len(pdf) - 64, 0))
        table = int(found[1]) if found else len(pdf)
        lines = pdf[table:].split(b"\n")
        if lines[0] != b"xref" or len(lines) < 3:
            raise unexpected()
        count = int(lines[1].split()[1])
        self._starts = [int(line[:10]) for line in lines[2 : 2 + count]]
        ordered = [*sorted(self._starts[1:]), table]
        self._ends = dict(pairwise(ordered))
        self.trailer = pdf[table:]
        self.root = reference(self.trailer, b"Root")

    def body(self, number: int) -> bytes:
        """What stands between `obj` and `endobj`."""
        start = self._starts[number]
        whole = self._pdf[start : self._ends[start]]
        return whole[whole.index(b"obj\n") + 4 : whole.rindex(b"\nendobj")]

    def stream(self, number: int) -> bytes:
        """The bytes of a stream, unpacked."""
        said, stream = parted(self.body(number))
        held = stream[len(_STREAM) : -len(_END_OF_STREAM)]
        return zlib.decompress(held) if b"/FlateDecode" in said else held

    def pages(self) -> Iterator[int]:
        """The numbers of the pages; their tree is flat."""
        tree = self.body(reference(self.body(self.root), b"Pages"))
        yield from (int(found[1]) for found in _REFERENCE.finditer(within(tree, b"/Kids[", b"]")))


def reference(body: bytes, key: bytes) -> int:
    """The number of the object that a key names. Raises BeamcheckError if it names none."""
    found = re.search(rb"/" + key + rb" ([0-9]+) 0 R", body)
    if found is None:
        raise unexpected()
    return int(found[1])


def unexpected() -> BeamcheckError:
    return BeamcheckError("a PDF that typst made is not written as expected, so that its parts cannot be joined; "
                          "typst 0.15 is expected")  # fmt: skip


def parted(body: bytes) -> tuple[bytes, bytes]:
    """What an object says, and its stream with the words that enclose it."""
    if not body.endswith(_END_OF_STREAM):
        return body, b""
    place = body.index(_STREAM)
    return body[:place], body[place:]


def within(body: bytes, start: bytes, end: bytes) -> bytes:
    """What stands between two marks; b'' without the first."""
    _, found, rest = body.partition(start)
    return rest.partition(end)[0] if found else b""


def renumbered(said: bytes, number: Callable[[int], int], key: int) -> bytes:
    """What an object says, with its references renumbered and its place among the tagged things moved by `key`.

    Texts are left as they are: a title may read like a reference.
    """
    made: list[bytes] = []
    place = depth = 0
    for found in _TOKEN.finditer(said):
        token = found[0]
        if token == b"(":
            depth += 1
        elif token == b")":
            depth -= 1
        elif depth == 0 and found[1]:
            made += (said[place : found.start()], b"%d 0 R" % number(int(found[1])))
            place = found.end()
        elif depth == 0 and found[2]:
            made += (said[place : found.start(2)], b"%d" % (int(found[2]) + key))
            place = found.end()
    return b"".join((*made, said[place:]))


def literal(text: str) -> bytes:
    """A text in ASCII as a string of a PDF."""
    return b"(" + re.sub(rb"[()\\]", rb"\\\g<0>", text.encode("ascii")) + b")"
