"""The mark of an HTML sheet: the result in an inert element at its end, with a digest over the whole page."""

from __future__ import annotations

import base64
import hashlib
import re
import zlib
from collections.abc import Iterable, Iterator
from itertools import chain

from ..spool import Spool
from .page_text import ELEMENT

_ELEMENT = f'<template id="{ELEMENT}" data-form="base64 of zlib of JSON" data-digest="'
OPENING = re.compile(re.escape(_ELEMENT.encode()) + b'([0-9a-f]{64})"')
_BLANK = "0" * 64
_AT_ONCE, _END_OF_PAGE = 1_000_000, 100  # letters; the last holds what closes the body


def with_result(page: Iterable[str], result: Iterable[bytes]) -> Iterator[bytes]:
    """The page with the result in an inert element at its end, and a digest over all of that; all in pieces."""
    written, found, tail = Spool(), hashlib.sha256(), ""

    def put(text: str) -> None:
        found.update(text.replace("\r\n", "\n").encode("utf-8", errors="replace"))
        written.write(text.encode("utf-8", errors="replace"))

    for piece in page:
        tail = "".join((tail, piece))  # text that is marked as markup escapes what is added to it
        if len(tail) > _AT_ONCE:
            put(tail[:-_END_OF_PAGE].removesuffix("\r"))
            tail = tail[len(tail[:-_END_OF_PAGE].removesuffix("\r")) :]
    before, end, after = tail.rpartition("</body>")
    put(f"{before}{_ELEMENT}")
    made = zlib.compressobj(9)
    packed = base64.encodebytes(b"".join([*map(made.compress, result), made.flush()])).decode("ascii")
    rest = f'">\n{packed}</template>\n{end}{after}'
    found.update(f"{_BLANK}{rest}".replace("\r\n", "\n").encode("utf-8", errors="replace"))
    return chain(written, (found.hexdigest().encode("ascii"), rest.encode("utf-8", errors="replace")))


def page_digest(page: bytes) -> str:
    """SHA-256 over a page, the place of the digest itself blank, line ends as \\n; a large page is not copied."""
    found, start = hashlib.sha256(), 0
    for opening in (*OPENING.finditer(page), None):
        end = len(page) if opening is None else opening.start(1)
        while start < end:
            after = min(start + _AT_ONCE, end)
            after += page[after - 1 : after + 1] == b"\r\n"
            found.update(page[start:after].replace(b"\r\n", b"\n"))
            start = after
        if opening is not None:
            found.update(_BLANK.encode())
            start = opening.end(1)
    return found.hexdigest()
