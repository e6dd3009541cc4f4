"""The design basis at the front of a sheet: standards, what acts, in which surroundings."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import replace

from ...checks.core.result import JobResult, PieceResult, Table
from .blocks import Block, Columns, Heading, Pairs, TableBlock
from .piece import EMPTY, table_block
from .prose import capital

# what of the project data belongs to the design basis: label in the result, and its label here
BASIS = {
    "standard": "Standard for wood", "standards": "Standards", "load combinations": "Load combinations",
    "local code": "Local code", "ground snow": "Ground snow", "ground snow from": "Ground snow from",
    "risk category": "Risk category", "surroundings": "Surroundings", "wind speed": "Wind speed",
    "frost depth": "Frost depth", "local rules": "Local rules", "earthquake": "Earthquake",
}  # fmt: skip
EXPOSURE = ("species", "grade", "moisture", "treatment", "service", "finish that cracks")  # labels of a piece's inputs
_CLAUSE = re.compile(
    r"(Wood Handbook|DIN EN [0-9-]+(?:/[A-Z]+)?|[A-Z][A-Za-z]+(?: (?:[0-9]{4}|[0-9]+-[0-9]{2}|Manual))?) (.+)"
)
AS_GIVEN = 3  # columns of a table of loads that keep their own column: what, kind, amount
NOT_GIVEN = "not given"


def basis_blocks(result: JobResult) -> Iterator[Block]:
    """Standards and editions, clauses, combinations."""
    yield Heading("Design basis", anchor="basis")
    pairs, tables = Pairs(_standards(result)), [one for one in result.tables if not is_path(one)]
    if tables:
        made = [table_block(table, "Design basis") for table in tables]
        note = TableBlock("", (), (), made[-1].note)  # where there is room for it
        yield Columns((pairs,), (*made[:-1], replace(made[-1], note="")), flow=(note,) if note.note else (),
                      folds=("Standards and clauses", ""))  # fmt: skip
    else:
        yield pairs


def loads_blocks(result: JobResult) -> Iterator[Block]:
    """Every load and the surroundings of the wood, piece by piece: for the full form."""
    loads = tuple(row for piece in result.pieces for row in _loads(piece))
    if loads:
        note = "Loads that come from pieces above are in the tables of each piece, own weight included."
        yield TableBlock("Loads, piece by piece", ("Piece", "Load", "Kind", "Amount", "Where and how"), loads, note)
    yield from _exposures(result)


def is_path(table: Table) -> bool:
    """Is it the table of the load path, which has a part of its own?"""
    return "path" in table.title.casefold()


def _standards(result: JobResult) -> tuple[tuple[str, str], ...]:
    rows = [
        (BASIS[label.casefold()], text.strip() or NOT_GIVEN)
        for label, text in result.about
        if label.casefold() in BASIS
    ]
    return (*rows, *_clauses(result))


def _clauses(result: JobResult) -> Iterator[tuple[str, str]]:
    """The clauses that the checks name, by standard; one named without its standard is of the one named before."""
    found: dict[str, set[str]] = {}
    for piece in result.pieces:
        for check in piece.checks:
            standard = ""
            for part in map(str.strip, re.split("[,;]", check.clause)):
                named = _CLAUSE.fullmatch(part)
                standard, clause = named.groups() if named else (standard, part)
                if standard and any(letter.isdigit() for letter in clause):
                    found.setdefault(standard, set()).add(clause)
    for standard, clauses in found.items():
        yield f"{standard}, clauses", ", ".join(sorted(clauses, key=_in_order))


def _in_order(clause: str) -> list[tuple[int, str]]:
    """3.9.2 before 3.10."""
    return [(int(part), "") if part.isdigit() else (-1, part) for part in re.split(r"([0-9]+)", clause) if part]


def _loads(piece: PieceResult) -> Iterator[tuple[str, ...]]:
    """The rows of its table of loads, with every further column said in words."""
    for table in piece.tables:
        if not table.title.casefold().startswith("loads"):
            continue
        for row in table.rows:
            more = [
                cell if head == "where" else f"{head} {cell}"
                for head, cell in zip(table.heads[AS_GIVEN:], row[AS_GIVEN:], strict=True)
                if cell not in EMPTY
            ]
            yield (piece.name, *(row[:AS_GIVEN] + ("",) * (AS_GIVEN - len(row))), capital(", ".join(more)))


def _exposures(result: JobResult) -> Iterator[Block]:
    rows = []
    for piece in result.pieces:
        given = dict(piece.inputs)
        if any(label in given for label in EXPOSURE):
            rows.append((piece.name, *(given.get(label, "–") for label in EXPOSURE)))
    if rows:
        heads = ("piece", *EXPOSURE)
        note = "Counted as never hotter than 100 °F for long, unless C_t stands in the checks of a piece."
        yield table_block(Table("Wood and its exposure", heads, tuple(rows), note))
