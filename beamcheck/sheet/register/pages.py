"""The book of formulas and tables as a PDF, set by typst."""

from __future__ import annotations

from pathlib import Path
from typing import Any

from ...checks.core.result import CAUTION, SIGN_OFF
from ...version import VERSION
from ..document.mathematics import symbolic_source
from ..document.symbols import plain_symbol
from ..pdf.text import shown_text
from ..pdf.typeset import set_pdf
from ..record.pdf_mark import marked
from .book import FormulaEntry, TableEntry, register

SOURCE = Path(__file__).parent / "register.typ"


def register_pdf() -> bytes:
    """The pages. Raises BeamcheckError if typst is missing or cannot set them."""
    book = register()
    data = {
        "tool": f"whatcarries {VERSION}", "caution": CAUTION, "sign_off": SIGN_OFF, "count": str(book.count),
        "chapters": [
            {"title": chapter.title, "entries": [_formula(entry) for entry in chapter.entries]}
            for chapter in book.chapters
        ],
        "tables": [_table(table) for table in book.tables],
    }  # fmt: skip
    return marked(set_pdf(SOURCE, data, None, what="book"), VERSION)


def _formula(entry: FormulaEntry) -> dict[str, Any]:
    formula = entry.formula
    told = {
        "name": formula.name, "what": entry.what, "clause": formula.clause, "known": formula.known,
        "unit": formula.unit or "no unit", "notes": list(entry.notes), "example": entry.example,
        "arguments": [[plain_symbol(name), words, allowed] for name, words, allowed in entry.arguments],
    }  # fmt: skip
    return {**shown_text(told), "math": symbolic_source(formula)}


def _table(table: TableEntry) -> dict[str, Any]:
    told: dict[str, Any] = shown_text(
        {
            "name": table.name, "what": table.what, "document": table.document, "units": table.units or "none",
            "heads": list(table.heads), "rows": [list(row) for row in table.rows],
        }
    )  # fmt: skip
    return told
