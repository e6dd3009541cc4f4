"""The book of formulas and tables: what the package knows, where from and how well, gathered from its own records."""

from __future__ import annotations

import importlib
import pkgutil
from functools import cache

import beamcheck.formulas

from ...calc.core import REGISTRY, Formula
from ...calc.describe import equation_text, meaning, typed, unit_of
from ...records import dataclass
from ...values.loader import manifest, rows

PROVENANCE = ("source", "how", "confidence", "note")


@dataclass(frozen=True)
class FormulaEntry:
    """One formula: what it is, its equation, its arguments as (symbol, meaning, what it may be), what must be known."""

    formula: Formula
    what: str
    equation: str
    arguments: tuple[tuple[str, str, str], ...]
    notes: tuple[str, ...]
    example: str


@dataclass(frozen=True)
class Chapter:
    """The formulas of one file: 'wood, shear'."""

    title: str
    entries: tuple[FormulaEntry, ...]


@dataclass(frozen=True)
class TableEntry:
    """One table with its rows, the columns that say where each comes from last."""

    name: str
    what: str
    document: str
    units: str
    heads: tuple[str, ...]
    rows: tuple[tuple[str, ...], ...]


@dataclass(frozen=True)
class Book:
    """All formulas and all tables."""

    chapters: tuple[Chapter, ...]
    tables: tuple[TableEntry, ...]

    @property
    def count(self) -> int:
        """How many formulas there are."""
        return sum(len(chapter.entries) for chapter in self.chapters)


@cache
def register() -> Book:
    """Every formula of the package, by file, and every table."""
    for found in pkgutil.walk_packages(beamcheck.formulas.__path__, f"{beamcheck.formulas.__name__}."):
        importlib.import_module(found.name)
    by_file: dict[str, list[FormulaEntry]] = {}
    for formula in REGISTRY.values():
        by_file.setdefault(formula.__module__, []).append(_entry(formula))
    chapters = tuple(
        Chapter(", ".join(module.split(".")[2:]).replace("_", " "), tuple(entries))
        for module, entries in sorted(by_file.items())
    )
    return Book(chapters, tuple(_table(name) for name in sorted(manifest())))


def _entry(formula: Formula) -> FormulaEntry:
    what, notes, about, example = typed(formula)
    plain = tuple(note.replace("`", "") for note in notes)
    arguments = tuple(
        (name, "; ".join(filter(None, (meaning(name), about.get(name, "")))), _allowed(formula, name))
        for name in formula.arguments
    )
    return FormulaEntry(formula, what, equation_text(formula.tree), arguments, plain, example)


def _allowed(formula: Formula, name: str) -> str:
    return ", ".join([unit_of(name) or "no unit", *(allowed.words() for allowed in formula.ranges[name])])


def _table(file: str) -> TableEntry:
    line = manifest()[file]
    found = rows(file.removesuffix(".csv"))
    heads = tuple(found[0]) if found else ()
    ordered = (*(head for head in heads if head not in PROVENANCE), *(head for head in PROVENANCE if head in heads))
    document = ", ".join(part for part in (line["document"], line["edition"], line["table"]) if part != "none")
    cells = tuple(tuple(row[head] for head in ordered) for row in found)
    return TableEntry(file, line["what"], document, line["units"], ordered, cells)
