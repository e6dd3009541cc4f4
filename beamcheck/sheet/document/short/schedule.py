"""The member schedule: one line a group of like members, with the closest ratio of each kind of check."""

from __future__ import annotations

from collections.abc import Iterator

from ....checks.core.result import Check, PieceResult
from ....checks.core.summary import quantity
from ....units import show
from ..blocks import Block, Heading
from ..piece import piece_anchor
from ..rich_blocks import Across, Cell, PageOf, RichTable, Strong, Word
from .alike import Group, names_in_one
from .checks_table import closest, nature
from .context import Sheet

COLUMNS = ("bending", "shear", "bearing", "deflection", "joint")
HEADS = ("mark", "size, species, grade", "span", "reactions", *COLUMNS, "verdict", "page")
NOTE = (
    "Each figure is the largest ratio of its kind, as a share of what is allowed; an asterisk: more than allowed. "
    "Bending counts with axial force, joints with what the supports may take. Spans run from middle to middle. "
    "Where reactions are listed by kind, each kind is unfactored; the largest and the least are of all combinations."
)


def schedule_blocks(sheet: Sheet) -> Iterator[Block]:
    """The schedule."""
    yield Heading("Member schedule", anchor="schedule")
    rows = tuple(_row(group, sheet) for group in sheet.groups)
    widths = (0.75, 3.1, 0.9, 1.2, *([0.0] * 5), 0.0, 0.0)
    if rows:
        yield RichTable("", HEADS, rows, widths, (4, 5, 6, 7, 8, 10), NOTE, "schedule")
    else:
        yield RichTable("", ("mark",), ((Across("Nothing was checked."),),), (1.0,), (), "", "schedule")


def _row(group: Group, sheet: Sheet) -> tuple[Cell, ...]:
    piece, units = group.first, sheet.result.units
    ratios = [_ratio(piece, column, units) for column in COLUMNS]
    marks = sheet.chips(one.name for one in group.pieces)
    names = names_in_one([one.name for one in group.pieces if sheet.marks[one.name] != one.name])
    stick = f"{names}: {piece.title}" if names else piece.title
    return (marks, stick, span_of(piece), reactions_of(piece), *ratios, Word(piece.verdict),
            PageOf(piece_anchor(group.index)))  # fmt: skip


def column_of(check: Check) -> str:
    """Under which head of the schedule a check counts; '' for what has no ratio, and geometry that is kept."""
    if check.ratio is None or (nature(check) == "geometry" and check.verdict == "passes"):
        return ""
    if nature(check) == "stiffness":
        return "deflection"
    if "bearing" in check.id or "end_grain" in check.id:
        return "bearing"
    if check.part != "member":
        return "joint"
    return "shear" if "shear" in check.id else "bending"


def _ratio(piece: PieceResult, column: str, units: str) -> Cell:
    checks = [check for check in piece.checks if column_of(check) == column]
    failing = [check for check in checks if check.verdict == "fails"]
    most = min(failing, key=lambda check: check.rank, default=None) or closest(checks)
    if most is None:
        return "–"
    ratio = quantity(most.ratio, "ratio", units)
    return Strong(f"{ratio}*") if most.verdict == "fails" else ratio


def span_of(piece: PieceResult) -> str:
    """The span of the deflection that is closest to its limit, else the height, run or length as given."""
    sags = [check for check in piece.checks if nature(check) == "stiffness" and check.ratio is not None]
    most = closest(sags)
    lengths = [step.value for step in most.steps if step.symbol == "L"] if most is not None else []
    if lengths:
        return show(lengths[0], "length")
    given = {label.casefold(): text for label, text in piece.inputs}
    return next((given[label] for label in ("height", "run", "length", "projection") if label in given), "–")


def reactions_of(piece: PieceResult) -> str:
    """What its supports take at most, as the table of reactions has it; of a post what arrives at its foot."""
    for table in piece.tables:
        if table.title.casefold().startswith("reactions") and "largest" in table.heads:
            column = table.heads.index("largest")
            found = [row[column] for row in table.rows]
            if len(set(found)) == 1 and len(found) > 1:
                return f"{found[0]} each"
            return ", ".join(found)
    if piece.statics is not None and piece.statics.lines:
        return next((line.text for line in piece.statics.lines if line.symbol == "P"), "–")
    return "–"
