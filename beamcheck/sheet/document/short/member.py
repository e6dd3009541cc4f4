"""The page of a member: what it is, what comes to it, statics, factors, checks, and what governs line by line."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace

from ....checks.core.pictures.board import BoardPicture
from ....checks.core.pictures.others import StrutPicture
from ....checks.core.result import Check, PieceResult, Table, Verdict
from ....checks.core.summary import quantity
from ....units import show
from ..blocks import Beside, Block, Columns, Pairs, Paragraph, TableBlock
from ..piece import diagrams_of, found_to_be, head_of, picture_of, piece_anchor, table_block
from ..prose import TIED, capital, sentence
from ..rich_blocks import MemberHead, RichTable, Side, StaticsBlock
from .alike import Group, names_in_one, words_for
from .checks_table import checks_tables, closest
from .context import Sheet
from .factors import factors_of
from .governing import governing_blocks
from .key_plan import key_plan
from .mirrored import FORCES, governed

SILENT = frozenset(("none", "–", "1", "no", ""))  # texts of inputs that say nothing to a reader
UNSAID = frozenset(("size class", "laid", "stock", "length", "service"))
WITH = {
    "size counted": "size as named",
    "grade": "species",
    "evidence": "grade comes from",
    "bottom edge held": "top edge held",
    "steel": "fastener",
    "threads": "fastener",
    "coating": "fastener",
    "other side": "upper end on",
}
NAMES = {
    "size as named": "Size",
    "species": "Species, grade",
    "grade comes from": "Known by",
    "top edge held": "Edges held",
}
THREADS = {"clear of it": "threads clear of the shear plane", "in the shear plane": "threads in the shear plane"}
SEPARATE = {"size as named": ", counts as ", "grade comes from": ": ", "top edge held": "; "}
BESIDE_IT = ("loads", "reactions", "forces under each combination")
BELOW = (
    "forces under each combination", "to be confirmed", "screening", "what the survey", "hardware", "what holds",
    "the beam above", "cut", "movement across", "order of assembly", "forces of the members", "forces along the member",
    "test of each piece", "moisture profile",
)  # fmt: skip
SIZES = frozenset((
    "thickness", "height", "projection", "foot", "nose", "soffit", "sagitta", "wall leg", "top leg", "brace",
    "brace out", "brace down", "joints", "housing", "behind housing", "slope of the brace", "length of the brace",
    "run", "slope", "spacing", "tail beyond the wall", "seat cut", "level seat", "depth", "inner radius", "sweep",
    "width", "down",
))  # fmt: skip
NOTHING = (("nobody", "nothing", ""),)  # to be confirmed by anybody
SHAPED = frozenset(("bracket", "rafter", "trim"))  # kinds of piece whose sizes are of one shape
FOLDS = ("What it is, what comes to it", "Design values, forces, order of work")  # on a phone
WAYS = ("the deep way", "the thin way")
FEW_LETTERS = 9  # of assumptions, that stay on one line
ALL_ALONG = "all along"


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
        count = len(piece.to_see)
        points = f"{count} point{'s' if count > 1 else ''}"
        yield Paragraph(f"To see and photograph before it is covered: {points}, on the shop sheet of {marks[0]}.")


def _head(group: Group, marks: tuple[str, ...], sheet: Sheet) -> MemberHead:
    piece, units = group.first, sheet.result.units
    names = names_in_one([one.name for one in group.pieces if sheet.marks[one.name] != one.name])
    title = f"{names}: {piece.title}" if names else capital(piece.title)
    sides = []
    for name, verdict, checks in (
        ("Member", piece.member_verdict, [one for one in piece.checks if one.part == "member"]),
        ("Joints and seats", piece.joints_verdict, [one for one in piece.checks if one.part != "member"]),
    ):
        if verdict is None:
            continue
        if piece.kind in ("anchor", "joint"):
            checks = list(piece.checks)
        held_by = [] if name == "Member" else [one.group for one in piece.held_by if one.verdict == verdict != "passes"]
        sides.append(Side(name, verdict, _told(checks, verdict, [sheet.marks.get(one, one) for one in held_by], units)))
    alike = (f"{', '.join(marks)}: {len(marks)} alike.", *words_for(group, marks)) if len(marks) > 1 else ()
    return MemberHead(
        marks, title, piece_anchor(group.index), f"{', '.join(marks)} {names}".strip(), piece.verdict, tuple(sides),
        " ".join(filter(None, (_understood(piece), _assumes(piece, sheet)))), tuple(alike),
        key_plan(sheet.plan, (sheet.bars.get(one.name, one.name) for one in group.pieces)),
    )  # fmt: skip


def _understood(piece: PieceResult) -> str:
    """What it was taken for, under its title, which names it."""
    return f"Understood: {piece.understood.removeprefix(f'{piece.name} is ')}" if piece.understood else ""


def _assumes(piece: PieceResult, sheet: Sheet) -> str:
    order = list(sheet.letters.values())
    said = sorted((sheet.letters[text] for text in piece.assumptions), key=order.index)
    letters = f",{TIED}".join(said) if len(said) <= FEW_LETTERS else ", ".join(said)
    return f"Assumed, see near the end: {letters}." if letters else ""


def _told(checks: list[Check], verdict: Verdict, held_by: Sequence[str], units: str) -> str:
    """Of what fails the first; who holds an end and does not pass; else what is closest."""
    failing = min((one for one in checks if one.verdict == "fails"), key=lambda check: check.rank, default=None)
    if failing is not None:
        return _figure(failing, units)
    holds = "does not hold" if verdict == "fails" else "is open"
    most = closest(checks)
    held = f"{' and '.join(held_by)}, which holds it, {holds}" if held_by else ""
    return "; ".join(filter(None, (held, f"closest: {_figure(most, units)}" if most is not None else "")))


def _figure(check: Check, units: str) -> str:
    return check.what if check.ratio is None else f"{check.what},{TIED}{quantity(check.ratio, 'ratio', units)}"


def _what(piece: PieceResult, factors: RichTable | None, index: int, units: str) -> Iterator[Block]:
    """What was told of it, what comes to it, and beside that its drawing; then design values and statics."""
    beside = 0 if piece.kind == "joint" and piece.drawing is not None else 1  # its holes stand there, all of it below
    told: list[Block] = [Pairs(tuple(said(piece))), *map(table_block, _tables(piece, BESIDE_IT))]
    block = head_of(piece, index, units)
    right = [block.figure] if isinstance(block, Beside) else []
    pictures = [
        (number, one) for number, one in enumerate(piece.pictures[beside:], start=2)
        if not (isinstance(one, BoardPicture) and one.sticks)  # how sticks are cut is told on the shop sheet
    ]  # fmt: skip
    if pictures and isinstance(pictures[0][1], StrutPicture):  # the sketch is read beside what it is a sketch of
        number, sketch = pictures.pop(0)
        right.append(picture_of(piece, sketch, f"figure-{index + 1}-{number}", units))
    flow: list[Block] = []
    if isinstance(block, Beside) and piece.pictures and piece.figure is not None:
        flow.append(diagrams_of(piece, f"diagrams-{index + 1}", units))
    flow += [factors] if factors is not None else []
    for number, picture in pictures:
        flow.append(picture_of(piece, picture, f"figure-{index + 1}-{number}", units))
    for table in _tables(piece, BELOW):
        flow.append(table_block(table))
    if piece.statics is not None and piece.statics.stations is not None:
        flow.append(_stations(piece.statics.stations, piece.statics.words if not piece.statics.lines else ""))
    yield Columns(tuple(told), tuple(right), flow=tuple(flow), folds=FOLDS)
    if piece.statics is not None and (piece.statics.lines or piece.statics.stations is None):
        yield StaticsBlock(piece.statics.words, piece.statics.lines)


def _stations(stations: Table, words: str) -> TableBlock:
    """What the frame gives at the places that matter, under how it was found."""
    made = table_block(stations, "Stations")
    heads = tuple(map(_tied, made.heads))
    rows = tuple(tuple(_tied(cell) if one != 1 else cell for one, cell in enumerate(row)) for row in made.rows)
    return TableBlock("Statics", heads, rows, " ".join(filter(None, (words, made.note))))


def _tied(cell: str) -> str:
    """A figure and its unit on one line."""
    return cell.replace(" ", TIED)


def said(piece: PieceResult) -> Iterator[tuple[str, str]]:
    """The inputs in fewer rows: what belongs together on one, without what says nothing or is in the sentence above."""
    rows = list(_said(piece))
    sizes = [(label, text) for label, text in rows if piece.kind in SHAPED and label.casefold() in SIZES]
    for label, text in rows:
        both = _both_ways(label, piece)
        if (label, text) in sizes[:1]:
            yield "Shape", ", ".join(f"{one.casefold()} {told}" for one, told in sizes if told != "0 in")
        elif (label, text) not in sizes and both != "":
            yield both or label, text


def _both_ways(label: str, piece: PieceResult) -> str | None:
    """Of two rows that say the same of either way of a post one: its label, '' for the other, None for other rows."""
    for way, other in (WAYS, WAYS[::-1]):
        if label.endswith(way):
            given = {name.casefold(): text for name, text in piece.inputs}
            here = label.casefold()
            same = given.get(here) == given.get(f"{here.removesuffix(way)}{other}")
            return None if not same else f"{label.removesuffix(way)}both ways" if way == WAYS[0] else ""
    return None


def _said(piece: PieceResult) -> Iterator[tuple[str, str]]:
    """The rows one by one, with what stands beside each."""
    given = dict(piece.inputs)
    for label, text in piece.inputs:
        if text.strip().casefold() in SILENT or label in UNSAID or label.startswith("support "):
            continue
        if label == "size counted" and text == given.get("size as named"):
            continue
        if label == "size as named" and given.get("made") == "steel":
            continue  # its section says it
        if label in WITH and WITH[label] in given:
            continue
        beside = [one for one, home in WITH.items() if home == label and one in given and given[one] != text]
        more = [_named(one, given[one]) for one in beside]
        if label == "grade comes from" and more and more[0].casefold().startswith(text.casefold()):
            text, more = more[0], more[1:]  # "stamp: agency mark ..." says already what it is
        yield NAMES.get(label, capital(label)), SEPARATE.get(label, ", ").join([text, *more])


def _named(label: str, text: str) -> str:
    """What stands on the row of something else, so that it is seen what it is."""
    if label == "threads":
        return THREADS.get(text, f"{label} {text}")
    return f"{label} {text}" if text == "not said" else text


def _tables(piece: PieceResult, titles: tuple[str, ...]) -> Iterator[Table]:
    """The tables that a reader needs; of the forces those under combinations that govern a check."""
    axial = any(table.title.casefold() == FORCES and "compression" in table.heads for table in piece.tables)
    for table in piece.tables:
        title = table.title.casefold()
        if not title.startswith(titles) or (title == FORCES and axial == (titles == BESIDE_IT)):
            continue
        if table.rows == NOTHING:
            continue
        if title == FORCES:
            if piece.statics is not None and not axial:
                continue
            table = governed(table, piece)
        if title.startswith("reactions"):
            table = replace(table, note="")  # the schedule says it once for all
        if title.startswith("loads") and piece.figure is not None:
            table = _all_along(table, piece.figure.length)
        yield table


def _all_along(table: Table, length: float) -> Table:
    """`0 in to 13 ft 4 5/8 in` of a load along all of a piece in two words."""
    whole = f"0 in to {show(length, 'length')}"
    rows = tuple(tuple(ALL_ALONG if cell == whole else cell for cell in row) for row in table.rows)
    return replace(table, rows=rows)
