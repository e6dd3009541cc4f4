"""The tables: found, read once, checked for their provenance, and handed out read-only.

Every file of `tables/` is listed in `tables/manifest.csv` with its document, edition, table, units and SHA-256. Every
row says where it comes from (`source`) and how that is known (`how`). What lacks either is not loaded.

After an edit `python -m beamcheck.values.loader` prints the manifest lines of the files that changed; with `--write` it
brings the manifest itself up to date. A new file needs its document, edition and table typed into its line.
"""

from __future__ import annotations

import csv
import hashlib
import io
import sys
from collections.abc import Callable, Iterable, Mapping
from functools import lru_cache
from pathlib import Path
from types import MappingProxyType

from ..errors import BeamcheckError, UnknownName
from ..provenance import Source

Row = Mapping[str, str]

MANIFEST = "manifest.csv"
MANIFEST_COLUMNS = ("file", "document", "edition", "table", "what", "units", "rows", "sha256")
PROVENANCE = ("source", "how", "confidence", "note")
SECOND_HAND = "read, second-hand"  # seen in a record, course, handbook or page that quotes the document
HOW = ("read", "derived", SECOND_HAND, "practice", "memory")  # what a table row may say
CERTAINTY = ("read", "derived", SECOND_HAND, "given", "practice", "memory")  # from the best known to the least
CONFIDENCE = ("high", "", "medium", "low")  # likewise; blank: not judged apart from `how`
OWN = {  # tables of our own, by the beginning of their names: what they hold, and the units of their columns
    "checks_": (
        "the kinds of checks; part: member, joints or path; nature: strength, stiffness, geometry, evidence",
        "",
    ),
    "questions_": ("what is asked where a check refers; answers: the best first, words = what is written", ""),
    "judgment_": ("single figures of judgment; each row says what it rests on", "value: see unit"),
}


def tables_dir() -> Path:
    """The folder of the tables: inside the installed package, or beside it in a checkout."""
    return _tables_of(__file__)


@lru_cache(maxsize=8)
def _tables_of(module: str) -> Path:
    package = Path(module).resolve().parents[1]
    shipped = package / "tables"
    return shipped if shipped.is_dir() else package.parent / "tables"


def rows(name: str) -> tuple[Row, ...]:
    """The rows of a table as read-only mappings of text, in the order of the file.

    `name`: file name without `.csv`, such as 'nds_2018_supplement_4a'. Raises UnknownName if the manifest does not list
    the file; BeamcheckError if the file is missing, lacks provenance, or has another number of rows than the manifest
    says.
    """
    return _rows(tables_dir(), name)


def listed(table: str, column: str) -> tuple[str, ...]:
    """What a column of a table names, each once."""
    return tuple(dict.fromkeys(row[column] for row in rows(table)))


def row_of(table: str, column: str, wanted: str, what: str, spelled: Callable[[str], str] = str) -> Row:
    """The first row that names what is wanted, in any spelling that `spelled` makes the same.

    Raises UnknownName, which says `what` is looked for and what the table has, if there is none.
    """
    key = spelled(wanted)
    for row in rows(table):
        if spelled(row[column]) == key:
            return row
    raise UnknownName(what, wanted, listed(table, column))


def known(given: str, allowed: Iterable[str], what: str) -> None:
    """Raises UnknownName if it is none of those that are allowed."""
    if given not in (names := tuple(allowed)):
        raise UnknownName(what, given, names)


def numbers(row: Row, *columns: str) -> tuple[float, ...]:
    """The numbers of a row in the order of the columns."""
    return tuple(float(row[column]) for column in columns)


def table_names() -> tuple[str, ...]:
    """The names of all tables, as `rows` takes them."""
    return tuple(name.removesuffix(".csv") for name in manifest())


def manifest() -> Mapping[str, Row]:
    """The manifest: file name -> its line."""
    return _manifest(tables_dir())


def source_of(row: Row) -> Source:
    """Where a row comes from."""
    return Source(row["source"], row["how"], row["note"], row["confidence"])


def weakest(sources: Iterable[Source]) -> Source:
    """One source for a value that rests on several: all documents and notes, the weakest `how` and confidence."""
    distinct = list(dict.fromkeys(sources))
    return Source(
        "; ".join(dict.fromkeys(source.document for source in distinct)),
        max((source.how for source in distinct), key=CERTAINTY.index),
        " ".join(dict.fromkeys(source.note for source in distinct if source.note)),
        max((source.confidence for source in distinct), key=CONFIDENCE.index),
    )


def checksum(path: Path) -> str:
    """SHA-256 of a file's text; line ends do not count, so that a checkout on another system has the same one."""
    return hashlib.sha256(path.read_bytes().replace(b"\r\n", b"\n")).hexdigest()


def _read(path: Path) -> tuple[tuple[str, ...], list[dict[str, str]]]:
    """Column names and rows of a CSV file, every row as long as the header."""
    lines = csv.reader(io.StringIO(path.read_text(encoding="utf-8")))
    header = tuple(next(lines, ()))
    found = []
    for cells in lines:
        if len(cells) != len(header):
            raise BeamcheckError(
                f"tables/{path.name} line {lines.line_num}: {len(cells)} cells under {len(header)} heads"
            )
        found.append(dict(zip(header, cells, strict=True)))
    return header, found


@lru_cache(maxsize=8)
def _manifest(folder: Path) -> Mapping[str, Row]:
    path = folder / MANIFEST
    if not path.is_file():
        raise BeamcheckError(f"{path} is missing: without it no table is used; install the package again")
    header, lines = _read(path)
    if header != MANIFEST_COLUMNS:
        raise BeamcheckError(f"tables/{MANIFEST}: the columns must be {', '.join(MANIFEST_COLUMNS)}")
    for line in lines:
        blank = [column for column in ("document", "edition", "table") if not line[column].strip()]
        if blank:
            raise BeamcheckError(f"tables/{MANIFEST}: {line['file']} has no {' and no '.join(blank)}")
    return MappingProxyType({line["file"]: MappingProxyType(line) for line in lines})


@lru_cache(maxsize=256)
def _rows(folder: Path, name: str) -> tuple[Row, ...]:
    listed = _manifest(folder)
    line = listed.get(f"{name}.csv")
    if line is None:
        raise UnknownName("table", name, [file.removesuffix(".csv") for file in listed])
    path = folder / f"{name}.csv"
    if not path.is_file():
        raise BeamcheckError(f"tables/{path.name} is in the manifest but not in the folder; install again")
    header, found = _read(path)
    missing = [column for column in PROVENANCE if column not in header]
    if missing:
        raise BeamcheckError(f"tables/{path.name}: no column {', '.join(missing)}, so no provenance: not used")
    for number, row in enumerate(found, start=2):
        if fault := _fault_of_provenance(row["source"], row["how"], row["confidence"]):
            raise BeamcheckError(f"tables/{path.name} row {number}: {fault}")
    if line["rows"] != str(len(found)):
        raise BeamcheckError(f"tables/{path.name} has {len(found)} rows, tables/{MANIFEST} says {line['rows']}")
    return tuple(MappingProxyType(row) for row in found)


@lru_cache(maxsize=1024)  # thousands of rows say the same
def _fault_of_provenance(source: str, how: str, confidence: str) -> str:
    if not source.strip():
        return "no source; name the document and table it is taken from"
    if how not in HOW:
        return f"how is {how!r}; it is one of {'; '.join(HOW)}"
    if confidence not in CONFIDENCE:
        return f"confidence is {confidence!r}; it is high, medium, low or blank"
    return ""


def changed_lines(folder: Path) -> list[list[str]]:
    """The manifest lines, with new row counts and checksums, of files that are new or differ from the manifest."""
    listed = _manifest(folder)
    changed = []
    for path in sorted(folder.glob("*.csv")):
        if path.name == MANIFEST:
            continue
        line = dict(listed.get(path.name) or _new_line(path.name))
        now = {"file": path.name, "rows": str(len(_read(path)[1])), "sha256": checksum(path)}
        if any(line[column] != value for column, value in now.items()):
            changed.append([{**line, **now}[column] for column in MANIFEST_COLUMNS])
    return changed


def _new_line(file: str) -> dict[str, str]:
    line = dict.fromkeys(MANIFEST_COLUMNS, "")
    for beginning, (what, units) in OWN.items():
        if file.startswith(beginning):
            line |= {"document": "PRACTICE", "edition": "no document", "table": "none", "what": what, "units": units}
    return line


def rewrite_manifest(folder: Path) -> None:
    """Bring the manifest up to date: row counts, checksums, one line a file in the order of the names."""
    lines = _read(folder / MANIFEST)[1]
    listed = {line["file"]: line for line in lines}
    listed |= {line[0]: dict(zip(MANIFEST_COLUMNS, line, strict=True)) for line in changed_lines(folder)}
    there = [listed[name] for name in sorted(listed) if (folder / name).is_file()]
    editions = {row["key"]: row["edition"] for row in _read(folder / "bibliography.csv")[1]}
    for line in there:
        line["edition"] = editions.get(line["document"], line["edition"])
    with (folder / MANIFEST).open("w", newline="", encoding="utf-8") as file:
        writer = csv.DictWriter(file, MANIFEST_COLUMNS, lineterminator="\n")
        writer.writeheader()
        writer.writerows(there)


if __name__ == "__main__":
    if sys.argv[1:] == ["--write"]:
        rewrite_manifest(tables_dir())
    else:
        csv.writer(sys.stdout, lineterminator="\n").writerows(changed_lines(tables_dir()))
