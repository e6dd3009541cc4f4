"""Checks and hardware as a spreadsheet (Office Open XML, ECMA-376): one row a check, with the caution above the rows.

Every text is written as text, never as a formula. The file is known as ours by its properties, which also hold a digest
of its rows, so that one that somebody worked in is not written over.
"""

from __future__ import annotations

import hashlib
import re
import zipfile
from collections.abc import Iterable, Sequence
from html import escape
from io import BytesIO
from typing import Any

from ...checks.core.result import JobResult
from ...errors import BeamcheckError
from ...lettering import legible
from .csv_out import starts_formula
from .rows import CHECK_HEADS, HARDWARE_HEADS, HARDWARE_NOTE, Cell, check_rows, hardware_rows, head_lines

_DIGEST = re.compile(rb"<dc:identifier[^<>]*>(?:whatcarries|beamcheck) rows ([0-9a-f]{64})</dc:identifier>")
_HEAD = '<?xml version="1.0" encoding="UTF-8" standalone="yes"?>\n'
_CORE = (
    f'{_HEAD}<cp:coreProperties xmlns:cp="http://schemas.openxmlformats.org/package/2006/metadata/core-properties" '
    'xmlns:dc="http://purl.org/dc/elements/1.1/"><dc:creator>{}</dc:creator><dc:title>{}</dc:title>'
    "<dc:identifier>whatcarries rows {}</dc:identifier></cp:coreProperties>"
)
_APP = (
    f'{_HEAD}<Properties xmlns="http://schemas.openxmlformats.org/officeDocument/2006/extended-properties">'
    "<Application>{}</Application></Properties>"
)
_WIDEST = 60  # letters
_MOST = 32_000  # letters in a cell: the format allows 32,767
_MOST_READ, _MOST_PARTS = 200_000_000, 1_000  # bytes of all parts, and parts: ours has some ten
_AT_A_TIME = 1 << 20


def result_xlsx(result: JobResult) -> bytes:
    """A spreadsheet with a page of checks and one of hardware.

    Raises
    ------
    BeamcheckError
        If openpyxl is missing, or the result carries no job text.
    """
    try:
        from openpyxl import Workbook
    except ImportError:
        raise BeamcheckError("a spreadsheet needs the package openpyxl: install it, or write CSV instead") from None
    book = Workbook()
    head = head_lines(result)
    _fill(book.active, "Checks", head, CHECK_HEADS, (row.cells for row in check_rows(result)))
    head = (*head, ("quantities", HARDWARE_NOTE))
    _fill(book.create_sheet(), "Hardware", head, HARDWARE_HEADS, (row.cells for row in hardware_rows(result)))
    out = BytesIO()
    book.save(out)
    return _packed(out.getvalue(), result)


def _fill(
    page: Any, title: str, head: Sequence[tuple[str, str]], heads: Sequence[str], rows: Iterable[Sequence[Cell]]
) -> None:
    from openpyxl.styles import Alignment, Font
    from openpyxl.utils import get_column_letter

    page.title = title
    caution_first = sorted(head, key=lambda pair: pair[0] != "caution")
    for number, pair in enumerate(caution_first, start=1):
        for column, text in enumerate(pair, start=1):
            _put(page.cell(number, column), text)
    page.cell(1, 2).font = Font(bold=True)
    first = len(head) + 2
    widths = [len(text) for text in heads]
    for column, text in enumerate(heads, start=1):
        _put(page.cell(first, column), text)
        page.cell(first, column).font = Font(bold=True)
    last = first
    for last, row in enumerate(rows, start=first + 1):
        for column, value in enumerate(row, start=1):
            cell = page.cell(last, column)
            _put(cell, value)
            cell.alignment = Alignment(wrap_text=True, vertical="top")
            shown = f"{value:.4g}" if isinstance(value, float) else str(value or "")
            widths[column - 1] = max(widths[column - 1], min(len(shown), _WIDEST))
    for column, width in enumerate(widths, start=1):
        page.column_dimensions[get_column_letter(column)].width = width + 2
    page.freeze_panes = page.cell(first + 1, 1)
    page.auto_filter.ref = f"A{first}:{get_column_letter(len(heads))}{last}"


def _put(cell: Any, value: Cell) -> None:
    """Text as text whatever it begins with, numbers as numbers."""
    if not isinstance(value, str):
        cell.value = value
        return
    text = " ".join(legible(value).split())[:_MOST]
    cell.value = text
    cell.data_type = "s"
    if starts_formula(text):
        cell.quotePrefix = True  # it stays text when somebody goes over the cell


def _packed(raw: bytes, result: JobResult) -> bytes:
    """The same with properties of our own and without a time of day: the same result gives the same bytes."""
    core = _CORE.format(escape(f"whatcarries {result.version}"), escape(legible(result.title)[:200]), _digest(raw))
    own = {"docProps/core.xml": core, "docProps/app.xml": _APP.format(escape(f"whatcarries {result.version}"))}
    out = BytesIO()
    with zipfile.ZipFile(BytesIO(raw)) as file, zipfile.ZipFile(out, "w") as packed:
        for name in file.namelist():
            content = own[name].encode("utf-8") if name in own else file.read(name)
            packed.writestr(zipfile.ZipInfo(name), content, zipfile.ZIP_DEFLATED)
    return out.getvalue()


def why_not_ours(raw: bytes) -> str:
    """Why a spreadsheet is not to be written over: not made here, signed, or worked in since; '' for one of ours."""
    foreign = "was not made by whatcarries"
    try:
        with zipfile.ZipFile(BytesIO(raw)) as file:
            entries = file.infolist()
            names = [entry.filename for entry in entries]
            if len(entries) > _MOST_PARTS or sum(entry.file_size for entry in entries) > _MOST_READ:
                return foreign
            found = _DIGEST.search(file.read("docProps/core.xml")) if "docProps/core.xml" in names else None
        if found is None:
            return foreign
        if any(name.startswith("_xmlsignatures/") for name in names):
            return "is signed"
        return "" if _digest(raw) == found[1].decode("ascii") else "was edited after whatcarries wrote it"
    except Exception:  # a broken archive makes its reader fall in many ways; it is no file of ours
        return foreign


def _digest(raw: bytes) -> str:
    """SHA-256 over all that is shown: everything in the archive but its properties."""
    made = hashlib.sha256()
    with zipfile.ZipFile(BytesIO(raw)) as file:
        for name in sorted(file.namelist()):
            if not name.startswith("docProps/"):
                made.update(name.encode() + b"\0")
                with file.open(name) as part:
                    while some := part.read(_AT_A_TIME):
                        made.update(some)
                made.update(b"\0")
    return made.hexdigest()
