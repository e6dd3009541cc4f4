"""A PDF sheet read back: its attachments, its text, and what was changed or added since it was written."""

from __future__ import annotations

import logging
import re
from io import BytesIO
from typing import Any

from .pdf_mark import JOB, RESULT, unchanged
from .pdf_size import check_size
from .read_error import ReadError as ReadError

_SIGNATURE = re.compile(rb"/ByteRange|/Sig\b|/SigFlags|/DocTimeStamp")
_END = re.compile(rb"%%EOF[ \t]*\r?\n?")


def pdf_changed(raw: bytes) -> str:
    """Why a PDF is not to be written over; '' for one of ours that is as it was written."""
    if unchanged(raw):
        return ""
    if _SIGNATURE.search(raw):
        return "is signed"
    try:
        ours = attachments(raw, "it").get(RESULT, "").lstrip().startswith("{")
    except ReadError:
        ours = False
    return "was changed after whatcarries wrote it" if ours else "was not made by whatcarries"


def attachments(raw: bytes, name: str) -> dict[str, str]:
    """The attachments of a PDF that are ours, as text. Raises ReadError if the PDF cannot be read."""
    found: dict[str, str] = {}
    reader = _reader(raw, name)
    try:
        for key, contents in reader.attachments.items():
            if key in (JOB, RESULT):
                if len(contents) != 1:
                    raise ReadError(f"{name} has {len(contents)} attachments called {key}: it was changed")
                found[key] = contents[0].decode("utf-8")
    except ReadError:
        raise
    except Exception as error:  # a broken PDF makes its reader fall in many ways
        raise ReadError(f"{name} cannot be read as a PDF: {type(error).__name__}: {error}") from None
    return found


def pdf_pages(raw: bytes, name: str) -> list[str]:
    """The text of each page of a PDF. Raises ReadError if it cannot be read."""
    reader = _reader(raw, name)  # says what is wrong with a file that is none, or is locked
    try:
        check_size(reader, name)
    except ReadError:
        raise
    except Exception as error:  # a broken PDF makes its reader fall in many ways
        raise ReadError(f"{name} cannot be read as a PDF: {type(error).__name__}: {error}") from None
    try:
        import pypdfium2  # some 25 times faster at text than pypdf
    except ImportError:
        raise ReadError(f"{name} is a PDF: to read it, install the package pypdfium2") from None
    try:
        with pypdfium2.PdfDocument(raw) as document:
            return [page.get_textpage().get_text_bounded().replace("\r\n", "\n") for page in document]
    except Exception as error:  # as above
        raise ReadError(f"{name} cannot be read as a PDF: {type(error).__name__}: {error}") from None


def _reader(raw: bytes, name: str) -> Any:
    try:
        from pypdf import PdfReader
    except ImportError:
        raise ReadError(f"{name} is a PDF: to read it, install the package pypdf") from None
    logging.getLogger("pypdf").setLevel(logging.CRITICAL)  # what is wrong with the file is told by the error
    try:
        reader = PdfReader(BytesIO(raw))
        locked = reader.is_encrypted
    except Exception as error:  # as above
        raise ReadError(f"{name} cannot be read as a PDF: {type(error).__name__}: {error}") from None
    if locked:
        raise ReadError(f"{name} is locked with a password: save a copy without it")
    return reader


def _kind(note: Any) -> str:
    """What is laid over a page: '/Link', '/FreeText', '/Sig' for the field of a signature."""
    kind = str(note.get("/Subtype"))
    field = note if "/FT" in note or "/Parent" not in note else note["/Parent"].get_object()
    return "/Sig" if kind == "/Widget" and field.get("/FT") == "/Sig" else kind


def added_to(raw: bytes, name: str) -> tuple[bool, list[str]]:
    """Is it signed; and what else was changed or added: bytes, a later section, a note or stamp on a page.

    A sheet of ours has links only. A signature is meant to be added, and the section that it comes in; what stands
    before that section must be as it was.
    """
    if unchanged(raw):
        return False, []
    signed = _SIGNATURE.search(raw) is not None
    faults = []
    if not any(unchanged(raw[: end.end()]) for end in _END.finditer(raw)):
        faults.append("the digest of the PDF does not fit: it was changed, or saved again by another program")
    elif not signed:
        faults.append("the PDF was added to after it was written")
    try:
        for number, page in enumerate(_reader(raw, name).pages, start=1):
            kinds = [_kind(note.get_object()) for note in page.get("/Annots") or ()]
            for kind in dict.fromkeys(kinds):
                if kind != "/Link" and not (signed and kind == "/Sig"):
                    faults.append(f"something ({kind[1:]}) was laid over page {number}: see what it covers")
    except ReadError:
        raise
    except Exception as error:  # as above
        raise ReadError(f"{name} cannot be read as a PDF: {type(error).__name__}: {error}") from None
    return signed, faults
