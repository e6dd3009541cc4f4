"""A result as JSON: everything in it, full precision, the unit beside each number; and the JSON Schema of that.

The records are written as their own types say (records.py). Numbers are in inner units (in, lbf, psi). Everything
outside ASCII is escaped, so that no console or file encoding can change it, and keys keep their order: the same job
gives the same bytes.
"""

from __future__ import annotations

from collections.abc import Iterator
from itertools import chain
from typing import Any

from ...checks.core.asking.open_questions import OpenQuestion
from ...checks.core.pictures.beams import LoadPath, Table
from ...checks.core.result import JobResult, PieceResult
from ...checks.core.summary import MEANING
from ...provenance import Source
from ..spool import Spool
from .canonical import FORMAT, digest_of, lines_of, record_text
from .records import NUMBERS, record, record_schema

_NO_PIECES = b'\n "pieces": []'  # only the outermost keys stand behind one space
_TEXT, _TEXTS = {"type": "string"}, {"type": "array", "items": {"type": "string"}}


def result_json(result: JobResult) -> str:
    """The result as JSON text in ASCII, with a line end.

    Parameters
    ----------
    result : JobResult

    Returns
    -------
    str
        `result_schema` describes it. Units: in, lbf, psi and what is made of them, named beside each number.
    """
    return b"".join(result_json_pieces(result)).decode("ascii")


def result_json_pieces(result: JobResult) -> Iterator[bytes]:
    """The same in pieces, to be written one after the other: that of a large job is a hundred megabytes on the disk."""
    found, texts = _envelope(result), Spool()

    def pieces() -> Iterator[Any]:
        """Each made, written and counted into the digest before the next."""
        for piece in result.pieces:
            made = record(piece)
            texts.write(f"{',' * bool(texts.length)}\n  {lines_of(made, '  ')}".encode("ascii"))
            yield made

    digest = digest_of({**found, "pieces": pieces()})
    before, empty, after = record_text({**found, "digest": digest}).encode("ascii").partition(_NO_PIECES)
    if not texts.length:
        return iter((before, empty, after))
    return chain((before, _NO_PIECES[:-1]), texts, (b"\n ]", after))


def result_schema() -> dict[str, Any]:
    """The JSON Schema (2020-12) of `result_json`, without an address; the same on every call."""
    definitions: dict[str, Any] = {}

    def many(cls: type) -> dict[str, Any]:
        return {"type": "array", "items": record_schema(cls, definitions)}

    label = {"type": "object", "additionalProperties": False, "required": ["label", "text"],
             "properties": {"label": _TEXT, "text": _TEXT}}  # fmt: skip
    properties = {
        "generator": _TEXT, "format": {"type": "integer"}, "verdict": {"enum": list(MEANING)}, "meaning": _TEXT,
        "caution": _TEXT, "sign_off": _TEXT, "reasons": {**_TEXTS, "description": "why it is not 'passes'"},
        "invented": {"type": "boolean", "description": "demo data, not a real building"}, "title": _TEXT,
        "units_of_texts": {
            "enum": ["US", "SI"], "description": "numbers are always in inner units; this is for the texts",
        },
        "about": {"type": "array", "items": label}, "pieces": many(PieceResult), "tables": many(Table),
        "questions": many(OpenQuestion), "sources": many(Source),
        "path": {"anyOf": [record_schema(LoadPath, definitions), {"type": "null"}]},
        "job_file": {
            "description": "the job file from which all of this follows", "type": "object",
            "additionalProperties": False, "required": ["name", "sha256", "text"],
            "properties": {"name": _TEXT, "sha256": _TEXT, "text": _TEXT},
        },
        "digest": {
            "description": "SHA-256 over all else here as JSON: sorted keys, no spaces, ASCII only, all numbers floats",
            "type": "string",
        },
    }  # fmt: skip
    return {
        "$schema": "https://json-schema.org/draft/2020-12/schema", "title": "whatcarries result",
        "description": "The result of checking one job.", "type": "object", "additionalProperties": False,
        "required": [name for name in properties if name != "digest"], "properties": properties,
        "$defs": {**NUMBERS, **definitions},
    }  # fmt: skip


def _envelope(result: JobResult) -> dict[str, Any]:
    return {
        "generator": f"whatcarries {result.version}", "format": FORMAT, "verdict": result.verdict,
        "meaning": MEANING[result.verdict], "caution": result.caution, "sign_off": result.sign_off,
        "reasons": list(result.reasons), "invented": result.invented, "title": result.title,
        "units_of_texts": "SI" if result.units == "SI" else "US",
        "about": [{"label": label, "text": text} for label, text in result.about],
        "pieces": [], "tables": [record(table) for table in result.tables],
        "questions": [record(question) for question in result.questions],
        "sources": [record(source) for source in result.sources],
        "path": None if result.path is None else record(result.path),
        "job_file": {"name": result.job_name, "sha256": result.fingerprint, "text": result.job_text},
    }  # fmt: skip
