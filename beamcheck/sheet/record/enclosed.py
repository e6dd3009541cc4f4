"""What a sheet carries beside what it prints, and how to read it back: the result with its job file, and digests.

An HTML sheet carries the result in an inert element and a digest over the whole page; a PDF sheet carries it as the
attachment `result.json`, with the job file beside it; a JSON result is it. The result holds a digest over all the
rest of itself: job text, version and results. A digest without a key is no signature: it shows slips and plain edits,
and nothing of someone who makes everything anew.
"""

from __future__ import annotations

import base64
import hashlib
import json
import zlib
from collections import Counter
from collections.abc import Mapping
from dataclasses import replace
from decimal import Decimal
from pathlib import Path
from typing import Any, Literal

from pydantic import BaseModel, ValidationError

from ...lettering import legible
from ...own_digest import digest_fits
from ...records import dataclass
from .canonical import FORMAT, digest_of, record_text, record_text_before
from .page_mark import OPENING, page_digest
from .page_text import Page, broken
from .pdf_mark import JOB, RESULT
from .pdf_read import ReadError, added_to, attachments, pdf_changed
from .signatures import signatures

Kind = Literal["job file", "HTML sheet", "PDF sheet", "JSON result"]
READS = (1, 2)  # what is compared has the same keys in both
NO_SIGNATURE = (
    "The digests in a sheet have no key and are no signature: they show slips and plain edits, not the work of someone "
    "who makes everything anew. What counts is the engineer's own signature, on the copy that the engineer keeps."
)
MOST_BYTES, MOST_UNFOLDED = 80_000_000, 40_000_000  # a sheet of a whole house has some 5 MB
_BOM = b"\xef\xbb\xbf"
_TOO_LARGE = (
    f"is larger than {MOST_UNFOLDED / 1e6:g} MB: it is too large to be read back; check its job file again instead"
)


class Number(BaseModel):
    """A number with its unit; `text` says what it is where it is no finite number."""

    value: float | None
    unit: str
    text: str = ""


class Origin(BaseModel):
    """Where a value comes from."""

    document: str
    how: str
    confidence: str
    note: str


class OneStep(BaseModel):
    """One line of a calculation."""

    symbol: str
    result: Number
    formula: str | None
    source: Origin | None


class OneCheck(BaseModel):
    """One question and its answer."""

    subject: str
    what: str
    verdict: Literal["passes", "fails", "refer"]
    ratio: Number | None
    demand: Number | None
    capacity: Number | None
    combination: str
    where: str
    clause: str
    kind: str = ""
    notes: tuple[str, ...]
    steps: tuple[OneStep, ...]

    @property
    def has_figures(self) -> bool:
        """Does the sheet print a calculation for it?"""
        return bool(self.steps) or any(number is not None for number in (self.ratio, self.demand, self.capacity))


class OneTable(BaseModel):
    """A table of texts."""

    title: str
    rows: tuple[tuple[str, ...], ...]


class OnePiece(BaseModel):
    """One piece with its checks."""

    name: str
    kind: str
    verdict: Literal["passes", "fails", "refer"]
    checks: tuple[OneCheck, ...]
    assumptions: tuple[str, ...] = ()
    remedies: tuple[str, ...] = ()
    to_see: tuple[str, ...] = ()
    tables: tuple[OneTable, ...] = ()


class OneJobFile(BaseModel):
    """The job file from which all of it follows."""

    name: str
    sha256: str
    text: str


class Result(BaseModel):
    """As much of a result as is compared field by field; other entries are left aside, so older ones can be read."""

    generator: str
    format: int
    verdict: Literal["passes", "fails", "refer"]
    units_of_texts: Literal["US", "SI"]
    pieces: tuple[OnePiece, ...]
    sources: tuple[Origin, ...]
    tables: tuple[OneTable, ...] = ()
    job_file: OneJobFile


@dataclass(frozen=True)
class Carried:
    """What was read back from a file.

    `job_text` is that from which the results follow; `printed_job` is what the sheet shows or holds beside it, where it
    has that. `record` is the result as plain data. `faults`: what shows that the file was changed after it was written;
    `notes`: what else a reader must know of it.
    """

    name: str
    kind: Kind
    job_text: str
    result: Result | None = None
    record: Mapping[str, Any] | None = None
    printed_job: str | None = None
    faults: tuple[str, ...] = ()
    notes: tuple[str, ...] = ()
    raw: bytes = b""


def read_record(text: str, name: str = "the result") -> dict[str, Any]:
    """A result as plain data from its JSON text. Raises ReadError if it is no JSON, or no result of this tool."""
    if len(text) > MOST_UNFOLDED:
        raise ReadError(f"{name} {_TOO_LARGE}")
    try:
        record = json.loads(text, object_pairs_hook=_each_key_once, parse_constant=_no_number)
    except (ValueError, RecursionError) as error:
        raise ReadError(f"{name} is not JSON that can be read: {error}") from None
    if not isinstance(record, dict) or not str(record.get("generator", "")).startswith(("whatcarries ", "beamcheck ")):
        raise ReadError(f"{name} is JSON, but no result written by `whatcarries check --json`")
    return record


def _each_key_once(pairs: list[tuple[str, Any]]) -> dict[str, Any]:
    """Of a key that stands there twice one reader takes the first and another the last: neither is believed."""
    found = dict(pairs)
    if len(found) != len(pairs):
        twice = next(key for key, count in Counter(key for key, _ in pairs).items() if count > 1)
        raise ValueError(f"the key {legible(twice)[:60]!r} stands there twice: it was changed")
    return found


def _odd_digits(text: str) -> bool:
    """Is there a number with other digits than those of the number that is read from it?"""
    odd: list[str] = []

    def look(figure: str) -> float:
        value = float(figure)
        if figure != repr(value) and Decimal(figure) != Decimal(repr(value)):
            odd.append(figure)
        return value

    json.loads(text, parse_float=look, parse_int=look)
    return bool(odd)


def _no_number(name: str) -> Any:
    raise ValueError(f"{name} is no number of JSON: it was changed")


def changed_since(raw: bytes) -> str:
    """Why a file of ours is no longer as it was written ('was edited ...', 'is signed'); '' where nothing shows it."""
    if raw.startswith(b"%PDF-"):
        return pdf_changed(raw)
    edited, unknown = "was edited after whatcarries wrote it", "carries no digest that shows it as it was written"
    raw = raw.removeprefix(_BOM)
    if found := OPENING.findall(raw):
        return "" if found == [page_digest(raw).encode()] else edited
    if len(raw) > MOST_UNFOLDED:
        return "is too large to be looked through for edits"
    text = raw.decode("utf-8", errors="replace")
    if text.lstrip().startswith("{"):
        try:
            record = read_record(text)
        except ReadError:
            return edited
        if "digest" not in record:
            return unknown
        as_written = text.replace("\r\n", "\n") in (record_text(record), record_text_before(record))
        return "" if as_written and record["digest"] == digest_of(record) else edited
    fits = digest_fits(text)
    return unknown if fits is None else "" if fits else edited


def read_back(path: str | Path) -> Carried:
    """Read a job file, an HTML or PDF sheet, or a JSON result; what it is shows in the file, not in its name.

    Raises ReadError if the file cannot be read, or it is a sheet that carries no result.
    """
    name, raw = legible(str(path)), bytes_of(path)
    if b"%PDF-" in raw[:1024]:
        return _from_pdf(raw, name)
    text = raw.decode("utf-8", errors="replace").removeprefix("\ufeff")
    start = text.lstrip()[:1]
    if start == "<":
        return _from_page(text, raw, name)
    if start == "{":
        return _carried(text, raw, name, "JSON result", None, ())
    try:
        raw.decode("utf-8")
    except UnicodeDecodeError:
        raise ReadError(f"{name} is no job file, HTML or PDF sheet or JSON result: it is not text in UTF-8") from None
    return Carried(name, "job file", text, raw=raw)


def bytes_of(path: str | Path, most: int = MOST_BYTES) -> bytes:
    """A file whole, if it is not too large to be what is looked for. Raises ReadError if it is, or cannot be read."""
    name = legible(str(path))
    try:
        if Path(path).stat().st_size > most:
            raise ReadError(f"{name} is larger than {most / 1e6:g} MB: it is not what is looked for here")
        return Path(path).read_bytes()
    except (OSError, ValueError) as error:
        if isinstance(error, ReadError):
            raise
        why = error.strerror if isinstance(error, OSError) else str(error)
        raise ReadError(f"{name} cannot be read: {why}") from None


def _carried(text: str, raw: bytes, name: str, kind: Kind, printed_job: str | None, faults: tuple[str, ...]) -> Carried:
    """Put together what a result says, with the signs that it was changed."""
    record = read_record(text, name if kind == "JSON result" else f"the result that {name} carries")
    found = list(faults)
    if _odd_digits(text):
        found.append("a figure in it has digits that nobody reads: the digest fits, and what is seen was changed")
    try:
        if "digest" not in record:
            found.append("the result has lost its digest")
        elif record["digest"] != digest_of(record):
            found.append("the digest of the result does not fit: a figure, a text or the job file in it was changed")
        result = Result.model_validate(record)
    except RecursionError:
        raise ReadError(f"the result in {name} has brackets within brackets, too deep: it was changed") from None
    except ValidationError as error:
        first = error.errors(include_url=False)[0]
        where = ", ".join(str(part) for part in first["loc"])
        raise ReadError(
            f"the result in {name} is not whole ({legible(where)}: {first['msg']}): it was changed"
        ) from None
    if result.format not in READS:
        raise ReadError(f"{name} has a result of format {result.format}; this version reads format {FORMAT}")
    job = result.job_file
    if hashlib.sha256(job.text.encode("utf-8", errors="replace")).hexdigest() != job.sha256:
        found.append("the SHA-256 of the job file does not fit its text")
    return Carried(name, kind, job.text, result, record, printed_job, tuple(found), raw=raw)


def _from_page(text: str, raw: bytes, name: str) -> Carried:
    if why := broken(text):
        raise ReadError(f"{name} {why}")
    openings = OPENING.findall(raw)
    if not openings:
        raise ReadError(
            f"{name} carries no result: it is no calc sheet of whatcarries, or one from before sheets carried it, or "
            "it was taken out"
        )
    faults = []
    if openings != [page_digest(raw.removeprefix(_BOM)).encode()]:
        faults.append("the digest of the page does not fit: words or markup of it were changed")
    page = Page(text)
    return _carried(_unpacked(page.packed, name), raw, name, "HTML sheet", page.job_text, tuple(faults))


def _unpacked(packed: str, name: str) -> str:
    try:
        data = base64.b64decode("".join(packed.split()), validate=True)
        opened = zlib.decompressobj()
        text = opened.decompress(data, MOST_UNFOLDED)
        if len(text) == MOST_UNFOLDED:
            raise ReadError(f"the result that {name} carries {_TOO_LARGE}")
        if not opened.eof:
            raise ReadError(f"the result that {name} carries is cut short: it was changed")
        return text.decode("utf-8")
    except ReadError:
        raise
    except (ValueError, zlib.error) as error:  # no base64, letters beyond ASCII in it, no UTF-8
        raise ReadError(f"the result that {name} carries cannot be unpacked ({error}): it was changed") from None


def _from_pdf(raw: bytes, name: str) -> Carried:
    held = attachments(raw, name)
    if RESULT not in held:
        raise ReadError(
            f"{name} carries no result: it is no calc sheet of whatcarries, or a program that saved it again dropped it"
        )
    signed, faults = added_to(raw, name)
    job_text = held.get(JOB)
    if job_text is None:
        faults.append(f"the PDF has lost its attachment {JOB}")
    notes, broken = signatures(raw) if signed else ([], [])
    carried = _carried(held[RESULT], raw, name, "PDF sheet", job_text, (*faults, *broken))
    return replace(carried, notes=tuple(notes))
