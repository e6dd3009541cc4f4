"""Checks and hardware as CSV: comment lines that begin with '#', a head, one line a row.

A spreadsheet takes a text that begins with = + - @ for a formula and runs it, also behind a comma or semicolon that it
takes for the end of a cell. Such a text gets an apostrophe before it, which stays in the text; numbers stay numbers.
"""

from __future__ import annotations

import csv
import io
import re
from collections.abc import Iterable, Sequence

from ...checks.core.result import JobResult
from ...lettering import legible
from ...own_digest import with_digest, with_room
from .rows import CHECK_HEADS, HARDWARE_HEADS, HARDWARE_NOTE, Cell, check_rows, hardware_rows, head_lines

STARTS_FORMULA = ("=", "+", "-", "@", "＝", "＋", "－", "＠")
_BLANK = (
    "\\s\u00ad\u034f\u115f\u1160\u200c\u200d\u2800\u3164\ufe00-\ufe0f\uffa0"  # what a cell may seem not to begin with
)
_BEHIND = re.compile(f"([,;][{_BLANK}]*+)(?=[{re.escape(''.join(STARTS_FORMULA))}])")
_FIRST = re.compile(f"[{_BLANK}]*+")


def checks_csv(result: JobResult) -> str:
    """Every check as CSV."""
    return _csv(head_lines(result), CHECK_HEADS, (row.cells for row in check_rows(result)))


def hardware_csv(result: JobResult) -> str:
    """The hardware list as CSV.

    Raises
    ------
    BeamcheckError
        If the result carries no job text.
    """
    head = (*head_lines(result), ("quantities", HARDWARE_NOTE))
    return _csv(head, HARDWARE_HEADS, (row.cells for row in hardware_rows(result)))


def _csv(head: Iterable[tuple[str, str]], heads: Sequence[str], rows: Iterable[Sequence[Cell]]) -> str:
    out = io.StringIO()
    for label, text in with_room(head):
        out.write(f"# {label}: {_tamed(text)}\n")
    lines = csv.writer(out, lineterminator="\n")
    lines.writerow(heads)
    lines.writerows([_safe(cell) for cell in row] for row in rows)
    return with_digest(out.getvalue())


def _safe(cell: Cell) -> Cell:
    """A text that no spreadsheet takes for a formula, and no reader for a comment line."""
    if not isinstance(cell, str):
        return cell
    text = _tamed(cell)
    return f"'{text}" if starts_formula(text) or text.startswith("#") else text


def starts_formula(text: str) -> bool:
    """Would a spreadsheet run this text?"""
    return _FIRST.sub("", text, count=1).startswith(STARTS_FORMULA)


def _tamed(text: str) -> str:
    """One line, with an apostrophe where a formula might begin behind a comma or semicolon."""
    return _BEHIND.sub(r"\1'", " ".join(legible(text).split()))
