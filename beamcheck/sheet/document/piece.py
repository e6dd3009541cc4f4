"""The part of a sheet about one piece, and its rows in the summary."""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping, Sequence
from typing import Any

from ...checks.core.pictures.assembled import TITLE, AssemblyPicture
from ...checks.core.pictures.board import BoardPicture
from ...checks.core.pictures.others import (
    Elevation,
    FrameForces,
    FramePicture,
    JointPicture,
    Picture,
    PostPicture,
    RafterPicture,
    StressPicture,
    StrutPicture,
)
from ...checks.core.pictures.split import SplitPicture
from ...checks.core.result import Check, PieceResult, Table, Verdict
from ...checks.core.summary import PIECE_MEANING, by_gravity, governing_phrase, quantity
from ...provenance import Source
from .blocks import (
    Beside,
    Block,
    Bullets,
    CheckBlock,
    Columns,
    FigureBlock,
    Heading,
    Pairs,
    Paragraph,
    Reference,
    References,
    Statement,
    Statements,
    Summary,
    SummaryRow,
    SummaryStatement,
    TableBlock,
    VerdictBlock,
)  # fmt: skip
from .prose import capital, place, sentence
from .repeated_steps import Ledger

FEW_STEPS = 4  # panels that stand in half the width
EMPTY = frozenset(("", "–"))
SI_STEPS = (
    "The steps below are worked in the units of the standard: inch, pound-force (lbf) and psi. "
    "Everything else, also the line under each heading, is in SI units."
)


def piece_anchor(index: int) -> str:
    """Where the part of the piece begins."""
    return f"piece-{index + 1}"


def piece_blocks(piece: PieceResult, index: int, units: str, numbers: Mapping[Source, int]) -> Iterator[Block]:
    """All about one piece with every step; `index` counts from 0, `numbers` are those of the sources on the sheet."""
    decided = sentence(f"decided by: {governing_phrase(piece)}")
    yield VerdictBlock(piece.verdict, PIECE_MEANING[piece.verdict], (*found_to_be(piece), decided))
    if piece.remedies:
        yield Bullets(f"What would make {piece.name} pass", tuple(map(sentence, piece.remedies)))
    yield head_of(piece, index, units, "steps-figure")
    for number, picture in enumerate(piece.pictures[1:], start=2):
        yield picture_of(piece, picture, f"steps-figure-{index + 1}-{number}", units)
    if piece.pictures and piece.figure is not None:
        yield diagrams_of(piece, f"steps-diagrams-{index + 1}", units)
    for table in piece.tables:
        drawn = piece.assembly if table.title == TITLE else None
        yield from (
            order_of_assembly(table, drawn, f"steps-assembly-{index + 1}", units) if drawn else (table_block(table),)
        )
    if piece.to_see:
        title = f"See and photograph {piece.name} before it is covered"
        yield Bullets(title, tuple(map(sentence, piece.to_see)))
    numbered = with_figures(piece)
    if numbered:
        yield Heading(f"Checks of {piece.name}", level=3)
        if units != "US":
            yield Paragraph(SI_STEPS)
    ledger = Ledger(numbers)
    for number, check in numbered.items():
        anchor, notes = _check_anchor(index, number), tuple(map(sentence, check.notes))
        lines = ledger.enter(check.steps, f"check {number}", anchor)
        title = f"{number}. {capital(check.what)}"
        yield CheckBlock(title, anchor, check.verdict, verdict_line(check, units), check.clause, lines, notes)
    stated = tuple(
        Statement(check.verdict, capital(check.what), " ".join(map(sentence, check.notes)), check.clause)
        for check in _without_figures(piece)
    )
    if stated:
        yield Statements(f"Also asked of {piece.name}, without numbers", stated)
    if piece.assumptions:
        yield Bullets(f"Assumed for {piece.name}", tuple(map(sentence, piece.assumptions)))
    if piece.sources:
        rows = tuple(Reference(numbers[source], source, "") for source in piece.sources)
        yield References(f"Sources of {piece.name}", rows, short=True)


def head_of(piece: PieceResult, index: int, units: str, prefix: str = "figure") -> Block:
    """Its inputs, and its drawing beside them."""
    pairs = Pairs(tuple((capital(label), text) for label, text in piece.inputs))
    if piece.drawing is not None:
        caption = "Held piece and holes to one scale; sizes in the tables count, not those measured on paper."
        return Beside(pairs, FigureBlock(piece.drawing, piece.name, units, f"{prefix}-{index + 1}", caption))
    if piece.pictures:
        return Beside(pairs, picture_of(piece, piece.pictures[0], f"{prefix}-{index + 1}", units))
    if piece.figure is None:
        return pairs
    return Beside(pairs, diagrams_of(piece, f"{prefix}-{index + 1}", units))


def diagrams_of(piece: PieceResult, key: str, units: str) -> FigureBlock:
    """The drawing of loads, supports and diagrams."""
    if piece.figure is None:
        raise ValueError(f"{piece.name} has no diagrams")
    return FigureBlock(piece.figure, piece.name, units, key, "The heights of the diagrams are not to scale.")


def picture_of(piece: PieceResult, picture: Picture, key: str, units: str) -> FigureBlock:
    """A drawing with its caption."""
    if isinstance(picture, Elevation):
        above = ", but for the beam above" if picture.beam is not None else ""
        caption = f"To scale{above}; the written sizes count."
    elif isinstance(picture, StressPicture):
        caption = (
            "Under the governing loads. The figures are those of whole wood; the checks deduct the holes of the "
            "fasteners and refine further, so theirs may be larger."
        )
    elif isinstance(picture, SplitPicture):
        stands = "; one of the ways in which it stands" if picture.forces else ""
        caption = f"To scale, but for its arrows{stands}."
    elif isinstance(picture, BoardPicture):
        caption = ""
    elif isinstance(picture, StrutPicture):
        caption = "Not to scale but for its slopes; the written figures count."
    elif isinstance(picture, FrameForces):
        caption = "Frame to scale, bands by force: these forces act together. Bending and shear stand in the tables."
    elif isinstance(picture, FramePicture) and picture.shown:
        caption = "Where it lies in the frame, to scale; the points have the numbers of the frame's page."
    elif isinstance(picture, PostPicture | RafterPicture | FramePicture | JointPicture):
        caption = "To scale; the written sizes count. Each force is its largest."
    else:
        caption = "Every bar to one scale. The beam is taken as soft as one in twenty is."
    return FigureBlock(picture, piece.name, units, key, caption)


def order_of_assembly(table: Table, picture: AssemblyPicture, key: str, units: str) -> Iterator[Block]:
    """The table with its panels, numbered as its rows: beside it where they are few."""
    drawn = assembly_drawn(picture, key, units)
    if len(picture.steps) <= FEW_STEPS:
        yield Columns((table_block(table),), (drawn,))
    else:
        yield from (table_block(table), drawn)


def assembly_drawn(picture: AssemblyPicture, key: str, units: str) -> FigureBlock:
    """The panels with their caption."""
    caption = (
        "The steps of its order of assembly. Dark: what a step adds; gray: what lies there. To one scale but for gaps "
        "and what is above; written sizes count."
    )
    return FigureBlock(picture, picture.name, units, key, caption)


def found_to_be(piece: PieceResult) -> tuple[str, ...]:
    """What a bracket was found to be, and why, in sentences; nothing for other pieces."""
    if not piece.finding:
        return ()
    return (" ".join(filter(None, (f"Found to be: {piece.finding}.", sentence(piece.reason)))),)


def table_block(table: Table, under: str = "") -> TableBlock:
    """The table as a block: without its title where the heading above says the same, without columns that are empty."""
    title = "" if table.title.casefold() == under.casefold() else capital(table.title)
    kept = [i for i in range(len(table.heads)) if not table.rows or any(row[i] not in EMPTY for row in table.rows)]
    rows = tuple(tuple(row[i] for i in kept) for row in table.rows)
    return TableBlock(title, tuple(capital(table.heads[i]) for i in kept), rows, sentence(table.note))


def summary_of(pieces: Sequence[PieceResult], units: str) -> Summary:
    """Every check of the job: without figures and not met, then by ratio, the largest first, then the others."""
    found: list[tuple[float, SummaryRow]] = []
    stated: list[SummaryStatement] = []
    for index, piece in enumerate(pieces):
        for number, check in with_figures(piece).items():
            found.append((_weight(check), _summary_row(piece, check, number, index, units)))
        names: dict[Verdict, list[str]] = {}
        for check in _without_figures(piece):
            names.setdefault(check.verdict, []).append(check.what)
        stated += [
            SummaryStatement(piece.name, piece_anchor(index), verdict, tuple(told)) for verdict, told in names.items()
        ]
    rows = tuple(row for _weight, row in sorted(found, key=lambda pair: -pair[0]))
    unmet = sorted((one for one in stated if one.verdict != "passes"), key=lambda one: one.verdict != "fails")
    return Summary(tuple(unmet), rows, tuple(one for one in stated if one.verdict == "passes"))


def _weight(check: Check) -> float:
    """Where a check with figures stands: by its ratio, and before all of them if it has none and does not pass."""
    if check.ratio is not None and not math.isnan(check.ratio):
        return check.ratio
    return -math.inf if check.verdict == "passes" else math.inf


def _summary_row(piece: PieceResult, check: Check, number: int, index: int, units: str) -> SummaryRow:
    where = place(check.where)
    return SummaryRow(
        piece.name, str(number), capital(check.what), _check_anchor(index, number),
        "" if where in check.what else where, check.verdict, quantity(check.ratio, "ratio", units),
        quantity(check.demand, check.kind, units), quantity(check.capacity, check.kind, units), check.combination,
    )  # fmt: skip


def verdict_line(check: Check, system: Any) -> str:
    """Ratio, demand, capacity, where and under which loads, in one line of plain text."""
    ratio = f"Ratio {quantity(check.ratio, 'ratio', system)}" if check.ratio is not None else "No ratio"
    only_ratio = check.kind == "ratio" and check.capacity == 1.0  # demand and capacity would say it once more
    figures = [
        f"{word} {quantity(value, check.kind, system)}"
        for word, value in (("demand", check.demand), ("capacity", check.capacity))
        if value is not None and not only_ratio
    ]
    where = place(check.where)
    more = ["" if where in check.what else where, f"governed by {check.combination}" if check.combination else ""]
    return sentence("; ".join([": ".join(filter(None, (ratio, ", ".join(figures)))), *filter(None, more)]))


def with_figures(piece: PieceResult) -> dict[int, Check]:
    """The checks that have figures or steps, numbered from 1 in the order of the piece."""
    return dict(enumerate((check for check in piece.checks if _has_figures(check)), start=1))


def _without_figures(piece: PieceResult) -> list[Check]:
    return by_gravity(tuple(check for check in piece.checks if not _has_figures(check)))


def _has_figures(check: Check) -> bool:
    return bool(check.steps) or any(value is not None for value in (check.demand, check.capacity, check.ratio))


def _check_anchor(index: int, number: int) -> str:
    return f"{piece_anchor(index)}-check-{number}"
