"""The book of formulas and tables as plain text, whole or one formula or table of it."""

from __future__ import annotations

from collections.abc import Iterator

from ...checks.core.result import CAUTION, SIGN_OFF
from ...errors import UnknownName
from .book import Book, FormulaEntry, TableEntry, register


def register_text(name: str | None = None) -> str:
    """The book, or of one formula or table all there is.

    Raises UnknownName if there is no formula and no table of that name.
    """
    book = register()
    lines = list(_list(book) if name is None else _one(book, name))
    return "\n".join([*lines, "", f"Caution: {CAUTION}", SIGN_OFF]) + "\n"


def _list(book: Book) -> Iterator[str]:
    yield f"{book.count} formulas, {len(book.tables)} tables. One in full: whatcarries register NAME"
    for chapter in book.chapters:
        yield ""
        yield chapter.title.upper()
        for entry in chapter.entries:
            formula = entry.formula
            yield f"  {formula.name}: {formula.symbol} = {entry.equation}"
            yield f"      {formula.clause}; {formula.known}"
    yield ""
    yield "TABLES"
    for table in book.tables:
        yield f"  {table.name.removesuffix('.csv')}: {table.what} ({table.document}; {len(table.rows)} rows)"


def _one(book: Book, name: str) -> Iterator[str]:
    for chapter in book.chapters:
        for entry in chapter.entries:
            if entry.formula.name == name:
                yield from _formula(entry)
                return
    for table in book.tables:
        if name in (table.name, table.name.removesuffix(".csv")):
            yield from _table(table)
            return
    names = [entry.formula.name for chapter in book.chapters for entry in chapter.entries]
    raise UnknownName("formula or table", name, [*names, *(table.name for table in book.tables)])


def _formula(entry: FormulaEntry) -> Iterator[str]:
    yield entry.formula.name
    yield entry.formula.__doc__ or ""


def _table(table: TableEntry) -> Iterator[str]:
    yield f"{table.name}: {table.what}"
    yield f"{table.document}. Units: {table.units or 'none'}"
    yield "\t".join(table.heads)
    yield from ("\t".join(row) for row in table.rows)
