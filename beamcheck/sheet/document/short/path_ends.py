"""Where the load path ends: what comes to each wall and footing from which member, and who answers for it."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from ....checks.core.result import Check, Table
from ....checks.core.summary import quantity
from ..rich_blocks import Cell, RichTable
from .checks_table import bar
from .context import Sheet

TITLE = "Where it ends: what comes, what may come, who answers"
HEADS = ("at", "from, the largest of each", "may come", "ratio, stroke at 1", "who answers")
PIECE, ON, LARGEST, ENDS = "piece", "puts on", "largest", "where the path ends"
GOES_ON, CONFIRMED = "goes on", "by others, confirmed: "
NOBODY = ("by others, not confirmed", "nobody yet")
NOT_GIVEN = "–"


def ends_table(path: Table, sheet: Sheet) -> Iterator[RichTable]:
    """One row for each end of the path and who answers for it; nothing where no row of the path ends."""
    names = [node.name for node in sheet.result.path.nodes if node.ends] if sheet.result.path else []
    found: dict[tuple[str, str], dict[tuple[str, str], int]] = {}
    for row in path.rows if ENDS in path.heads else ():
        told = dict(zip(path.heads, row, strict=True))
        if told[ENDS] != GOES_ON:
            at = _end(told[ON], names)
            come = found.setdefault((at, told[ENDS]), {})
            _, every, apart = told[ON].rpartition(", every ")
            key = (told[PIECE], f"{told[LARGEST]} every {apart}" if every else told[LARGEST])
            come[key] = come.get(key, 0) + 1
    rows = tuple(_row(at, ends, come, sheet) for (at, ends), come in found.items())
    if rows:
        yield RichTable(TITLE, HEADS, rows, (1.3, 2.2, 0.0, 0.0, 2.6), (2,), "", "ends")


def _end(on: str, names: Iterable[str]) -> str:
    """The name of a wall or footing without by what it is reached, and how often."""
    known = max((name for name in names if f"{on},".startswith(f"{name},")), key=len, default="")
    return known or on.partition(", every ")[0].removeprefix("the ")


def _row(at: str, ends: str, come: dict[tuple[str, str], int], sheet: Sheet) -> tuple[Cell, ...]:
    said = [
        f"{sheet.marks.get(name, name)} {largest}{f' at {times} places' if times > 1 else ''}"
        for (name, largest), times in come.items()
    ]
    check = _limit(at, {name for name, _ in come}, sheet)
    units = sheet.result.units
    limit: tuple[Cell, Cell] = (NOT_GIVEN, NOT_GIVEN)
    if check is not None:
        limit = (quantity(check.capacity, check.kind, units), bar(check, units))
    who = NOBODY[1] if ends == NOBODY[0] else ends.removeprefix(CONFIRMED)
    return (at, ", ".join(said), *limit, who)


def _limit(at: str, names: set[str], sheet: Sheet) -> Check | None:
    """The closest check of what these pieces bring there, each or together, against what it is said to take."""
    takes = (f"what {at} takes", f"what {at} takes together")
    pieces = (piece for piece in sheet.result.pieces if piece.name in names)
    checks = (check for piece in pieces for check in piece.checks if check.what in takes and check.ratio is not None)
    return min(checks, key=lambda check: check.rank[1:], default=None)
