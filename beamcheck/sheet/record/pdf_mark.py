"""The mark by which a PDF is known as ours and unchanged: a comment near its end, with a digest over all the rest.

Whoever signs, annotates or saves a PDF again changes it, and then it counts as theirs. A comment changes nothing for
readers of PDFs; this one stands behind the objects, so that no place in the file moves.
"""

from __future__ import annotations

import hashlib
import re

from ...errors import BeamcheckError

JOB, RESULT = "job.toml", "result.json"  # the attachments of a sheet
_END = b"startxref\n"
_MARK = re.compile(rb"%generator: (?:whatcarries|beamcheck) [^\n]* ([0-9a-f]{64})\n(?=startxref\s+[0-9]+\s+%%EOF\s*\Z)")
_TAIL = 1024  # bytes at the end in which the mark stands


def marked(pdf: bytes, version: str) -> bytes:
    """The PDF with the mark in it. Raises BeamcheckError if it does not end as a PDF does."""
    place = pdf.rfind(_END)
    if place < 0:
        raise BeamcheckError("the PDF that typst made does not end as expected; typst 0.15 is expected")
    return b"".join((pdf[:place], *ending(hashlib.sha256(pdf[:place]), pdf[place:], version)))


def ending(before: hashlib._Hash, end: bytes, version: str) -> tuple[bytes, bytes, bytes]:
    """The mark, the digest and the end of a PDF of which the digest of all before is at hand."""
    said = "".join(letter for letter in version if letter.isascii() and letter.isprintable())
    mark, after = f"%generator: whatcarries {said}, SHA-256 of all other bytes ".encode("ascii"), b"\n" + end
    digest = before.copy()
    digest.update(mark + after)
    return mark, digest.hexdigest().encode("ascii"), after


def unchanged(pdf: bytes) -> bool:
    """Was this PDF made by this tool, and is it byte for byte as it was made?"""
    found = _MARK.search(pdf, max(len(pdf) - _TAIL, 0))
    if found is None or not pdf.startswith(b"%PDF-"):
        return False
    whole = memoryview(pdf)
    rest = hashlib.sha256(whole[: found.start(1)])
    rest.update(whole[found.end(1) :])
    return rest.hexdigest().encode("ascii") == found[1]
