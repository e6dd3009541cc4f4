"""The page of a member: what it is, what comes to it, statics, factors, checks, and what governs line by line."""

from __future__ import annotations

from collections.abc import Iterator

from ....checks.core.result import Check, PieceResult, Table
from ....checks.core.summary import quantity
from ..blocks import Beside, Block, Columns, Pairs, Paragraph
from ..piece import diagrams_of, found_to_be, head_of, picture_of, piece_anchor, table_block
from ..prose import capital, sentence
from ..rich_blocks import MemberHead, RichTable, Side, StaticsBlock
from .alike import Group, words_for
from .checks_table import checks_tables, closest
from .context import Sheet
from .factors import factors_of
from .governing import governing_blocks

SILENT = frozenset(("none", "–", "1", "no", ""))  # texts of inputs that say nothing to a reader
UNSAID = frozenset(("size class", "laid", "stock", "length", "service"))
WITH = {
    "size counted": "size as named",
    "grade": "species",
    "evidence": "grade comes from",
    "bottom edge held": "top edge held",
}
NAMES = {
    "size as named": "Size",
    "species": "Species, grade",
    "grade comes from": "Known by",
    "top edge held": "Edges held, top; bottom",
}
SEPARATE = {"size as named": ", counts as ", "grade comes from": ": ", "top edge held": "; "}
BESIDE = 6  # columns of a factor table that still stands beside the drawing
BESIDE_IT = ("loads", "reactions", "forces under each combination")
BELOW = (
    "forces under each combination", "to be confirmed", "screening", "what the survey", "hardware", "what holds",
    "the beam above", "cut", "movement across", "forces of the members", "forces along the member",
)  # fmt: skip
FORCES = "forces under each combination"


def member_blocks(group: Group, sheet: Sheet) -> Iterator[Block]:
    """The blocks of a group of like members."""
    piece, units, index = group.first, sheet.result.units, group.index
    anchor = piece_anchor(index)
    marks = tuple(sheet.marks[one.name] for one in group.pieces)
    yield _head(group, marks, sheet)
    for text in found_to_be(piece):
        yield Paragraph(text)
    if piece.remedies:
        yield Paragraph(f"What would make {marks[0]} pass: {' '.join(map(sentence, piece.remedies))}")
    factors = factors_of(piece, sheet.numbers, f"{anchor}-factors")
    yield from _what(piece, factors.table, index, units)
    yield from checks_tables(piece, sheet)
    yield from governing_blocks(piece, factors, sheet, anchor)
    if piece.to_see:
        yield Paragraph(
            f"To see and photograph before it is covered: {len(piece.to_see)} points, on the shop sheet of {marks[0]}."
        )


def _head(group: Group, marks: tuple[str, ...], sheet: Sheet) -> MemberHead:
    piece, units = group.first, sheet.result.units
    names = ", ".join(one.name for one in group.pieces if sheet.marks[one.name] != one.name)
    title = f"{names}: {piece.title}" if names else piece.title
    sides = []
    for name, verdict, checks in (
        ("Member", piece.member_verdict, [one for one in piece.checks if one.part == "member"]),
        ("Joints and seats", piece.joints_verdict, [one for one in piece.checks if one.part != "member"]),
    ):
        if verdict is None:
            continue
        if piece.kind == "anchor":
            checks = list(piece.checks)
        sides.append(Side(name, verdict, _closest(checks, units)))
    alike = (f"{', '.join(marks)}: {len(marks)} alike.", *words_for(group, marks)) if len(marks) > 1 else ()
    return MemberHead(
        marks, title, piece_anchor(group.index), f"{', '.join(marks)} {names}".strip(), piece.verdict, tuple(sides),
        " ".join(filter(None, (piece.understood, _assumes(piece, sheet)))), tuple(alike),
    )  # fmt: skip


def _assumes(piece: PieceResult, sheet: Sheet) -> str:
    letters = ", ".join(sheet.letters[text] for text in piece.assumptions)
    return f"Assumed, see near the end: {letters}." if letters else ""


def _closest(checks: list[Check], units: str) -> str:
    most = closest(checks)
    return f"{most.what}, {quantity(most.ratio, 'ratio', units)}" if most is not None else ""


def _what(piece: PieceResult, factors: RichTable | None, index: int, units: str) -> Iterator[Block]:
    """What was told of it, what comes to it, and beside that its drawing; then statics and design values."""
    told: list[Block] = [Pairs(tuple(said(piece))), *map(table_block, _tables(piece, BESIDE_IT))]
    block = head_of(piece, index, units)
    statics: list[Block] = []
    if piece.statics is not None:
        statics.append(StaticsBlock(piece.statics.words, piece.statics.lines))
        if piece.statics.stations is not None:
            statics.append(table_block(piece.statics.stations, "Stations"))
    narrow = factors is not None and len(factors.heads) <= BESIDE and "under" not in factors.heads
    if isinstance(block, Beside):
        right: list[Block] = [block.figure]
        if piece.pictures and piece.figure is not None:
            right.append(diagrams_of(piece, f"diagrams-{index + 1}", units))
        if factors is not None and narrow:
            (told if piece.figure is not None else right).append(factors)
        yield Columns(tuple(told), tuple(right), (1.0, 1.02))
    else:
        yield from told
    for number, picture in enumerate(piece.pictures[1:], start=2):
        yield picture_of(piece, picture, f"figure-{index + 1}-{number}", units)
    yield from (table_block(table) for table in _tables(piece, BELOW))
    below = factors if not (narrow and isinstance(block, Beside)) else None
    if below is not None and len(statics) > 1 and "under" not in below.heads:
        yield Columns(tuple(statics), (below,), (1.15, 1.0))
        return
    yield from statics
    if below is not None:
        yield below


def said(piece: PieceResult) -> Iterator[tuple[str, str]]:
    """The inputs in fewer rows: what belongs together on one, without what says nothing or is in the sentence above."""
    given = dict(piece.inputs)
    for label, text in piece.inputs:
        if text.strip().casefold() in SILENT or label in UNSAID or label.startswith("support "):
            continue
        if label == "size counted" and text == given.get("size as named"):
            continue
        if label in WITH and WITH[label] in given:
            continue
        more = [given[one] for one, home in WITH.items() if home == label and one in given and given[one] != text]
        yield NAMES.get(label, capital(label)), SEPARATE.get(label, ", ").join([text, *more])


def _tables(piece: PieceResult, titles: tuple[str, ...]) -> Iterator[Table]:
    """The tables that a reader needs; of the forces those under combinations that govern a check."""
    axial = any(table.title.casefold() == FORCES and "compression" in table.heads for table in piece.tables)
    for table in piece.tables:
        title = table.title.casefold()
        if not title.startswith(titles) or (title == FORCES and axial == (titles == BESIDE_IT)):
            continue
        if title == FORCES:
            if piece.statics is not None and not axial:
                continue
            table = _governed(table, piece)
        yield table


def _governed(table: Table, piece: PieceResult) -> Table:
    names = {check.combination for check in piece.checks if check.combination}
    rows = tuple(row for row in table.rows if any(f"{name}, ".startswith(f"{row[0]}, ") for name in names))
    return Table(f"{table.title} that governs", table.heads, rows) if rows else table
