"""The decision page: what fails with its fix, what is open by who answers, what holds; then the block to sign."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from ....checks.core.asking.question_words import WHO
from ....checks.core.result import Check, PieceResult, Verdict
from ....checks.core.summary import MEANING, PIECE_MEANING, quantity
from ..blocks import Block, Caution, VerdictBlock
from ..prose import capital, sentence, without_fields
from ..rich_blocks import Cell, Decisions, Marks, RichTable
from .alike import Group, names_in_one
from .checks_table import bar, closest, merged, nature
from .context import Sheet

_FIXES = 3  # named on the cover; the page of the member has all
MOST_FAULTS = 4  # of a member that are told on the cover; its page has all
NO_CURE = "None was worked out: change it and check again, or ask the engineer."
ACCEPTED = ("accepted", "as noted", "not accepted")


def decision_blocks(sheet: Sheet) -> Iterator[Block]:
    """Verdict, what to change, what to find out, what holds, and the boxes to tick."""
    result = sheet.result
    yield Caution(result.caution)
    yield VerdictBlock(result.verdict, MEANING[result.verdict], (_counts(sheet),), large=True)
    if changes := [row for group in _with(sheet, "fails") for row in _change(group, sheet)]:
        yield RichTable("Change", ("mark", "what fails", "what cures it", "ratio, stroke at 1"), tuple(changes),
                        (0.0, *_shares(changes), 0.0), (), "", "cover", "change")  # fmt: skip
    if finds := list(_finds(sheet)):
        yield RichTable("Find out, in this order", ("no.", "settles", "question", "who answers"), tuple(finds),
                        (0.0, 1.25 if _several(finds) else 0.0, 3.7, 1.0), (0,), "", "cover", "find-out")  # fmt: skip
    if holds := [_hold(group, sheet) for group in _with(sheet, "passes")]:
        yield RichTable("Holds", ("mark", "what it is", "closest check", "ratio, stroke at 1"), tuple(holds),
                        (0.0, 2.6, 1.8, 0.0), (), "", "cover", "holds")  # fmt: skip
    if sheet.marks:
        yield Decisions(tuple(sheet.marks.values()), ACCEPTED)


def _shares(rows: Sequence[tuple[Cell, ...]]) -> tuple[float, float]:
    """Room for what fails and for what cures it, by the longest of each."""
    long = [max(len(cell) for row in rows if isinstance(cell := row[column], str)) for column in (1, 2)]
    return (3.4, 1.2) if long[0] > 3 * long[1] else (2.2, 2.2)


def _several(rows: Sequence[tuple[Cell, ...]]) -> bool:
    """Does a question settle several members, so that their marks need room?"""
    return any(isinstance(row[1], Marks) and len(row[1].items) > 2 for row in rows)


def _with(sheet: Sheet, verdict: Verdict) -> list[Group]:
    return [group for group in sheet.groups if group.first.verdict == verdict]


def _counts(sheet: Sheet) -> str:
    """How many members fail, wait for an answer, hold."""
    every = [piece.verdict for piece in sheet.result.pieces]
    if not every:
        return "Nothing was checked."
    words: tuple[tuple[Verdict, str, str], ...] = (
        ("fails", "does not hold", "do not hold"), ("refer", "waits for an answer", "wait for an answer"),
        ("passes", "holds", "hold"),
    )  # fmt: skip
    told = [f"{count} {one if count == 1 else many}" for verdict, one, many in words if (count := every.count(verdict))]
    return f"Of {len(every)} member{'s' if len(every) > 1 else ''}: {', '.join(told)}."


def _change(group: Group, sheet: Sheet) -> Iterator[tuple[Cell, ...]]:
    """One row for what fails of a group of like members."""
    piece, units = group.first, sheet.result.units
    failing = [one.first for one in merged(check for check in piece.checks if check.verdict == "fails")]
    worst = min(failing, key=lambda check: check.rank) if failing else None
    held = [sheet.marks.get(one.group, one.group) for one in piece.held_by if one.verdict == "fails"]
    by = f"{' and '.join(held)}, which holds it, does not hold" if held else ""
    leading = sorted(failing, key=lambda check: check.rank)[:MOST_FAULTS]
    more = f"and {len(failing) - len(leading)} more" if len(failing) > len(leading) else ""
    told = sentence("; ".join(filter(None, (*(_fault(check, units) for check in leading), more, by))))
    cure = " ".join(map(sentence, piece.remedies[:_FIXES])) or _cure(failing, units)
    if not failing and held:
        cure = f"Cure {' and '.join(held)}."
    ratio: Cell = bar(worst, units) if worst is not None and worst.ratio is not None else "no figure"
    said = " ".join(filter(None, (f"{_named(group, sheet)}:", sentence(piece.finding), told)))
    yield sheet.chips(one.name for one in group.pieces), said, cure, ratio


def _fault(check: Check, units: str) -> str:
    if check.ratio is None:
        return f"{check.what} ({without_fields(check.notes[0])})" if check.notes else check.what
    return f"{check.what}, {quantity(check.ratio, 'ratio', units)}"


def _cure(failing: Sequence[Check], units: str) -> str:
    """For rules of geometry: what is needed and what is there. Else nothing was found."""
    rules = [check for check in failing if nature(check) == "geometry" and check.ratio is not None]
    told = [
        f"{capital(check.what)}: needs {quantity(check.demand, check.kind, units)}, "
        f"has {quantity(check.capacity, check.kind, units)}."
        for check in rules
    ]
    return " ".join(told) or NO_CURE


def _named(group: Group, sheet: Sheet) -> str:
    """The names of the members where they are more than their marks."""
    names = [piece.name for piece in group.pieces]
    own = [name for name in names if sheet.marks.get(name) != name]
    return names_in_one(own) if own else capital(group.first.title)


def _finds(sheet: Sheet) -> Iterator[tuple[Cell, ...]]:
    """The open questions; what is asked of the job as a whole, and what waits for somebody without a question."""
    for number, one in enumerate(sheet.result.questions, start=1):
        yield str(number), sheet.chips(one.pieces), one.question.ask, WHO[one.question.who]
    asked = {name for one in sheet.result.questions for name in one.pieces}
    for check in sheet.result.checks:
        if check.verdict != "passes" and not any(question.id in sheet.asked for question in check.questions):
            yield "–", "the job", sentence("; ".join((check.what, *check.notes))), WHO["engineer"]
    for piece in sheet.result.pieces:
        if piece.verdict == "refer" and piece.name not in asked:
            yield "–", sheet.chips((piece.name,)), _open(piece), WHO["engineer"]


def _open(piece: PieceResult) -> str:
    """What is open about a piece of which no question is listed."""
    open_ = [check for check in piece.checks if check.verdict == "refer"]
    if not open_:
        held = ", ".join(one.group for one in piece.held_by if one.verdict != "passes")
        return sentence(f"what holds its end is open: {held}") if held else PIECE_MEANING["refer"]
    worst = min(open_, key=lambda check: check.rank)
    return sentence(": ".join(filter(None, (worst.what, "; ".join(worst.notes)))))


def _hold(group: Group, sheet: Sheet) -> tuple[Cell, ...]:
    piece, units = group.first, sheet.result.units
    most = closest(piece.checks)
    ratio: Cell = bar(most, units) if most is not None else "–"
    said = capital(most.what) if most is not None else "–"
    finding = f" ({piece.finding})" if piece.finding else ""
    names = [one.name for one in group.pieces if sheet.marks[one.name] != one.name]
    what = f"{names_in_one(names)}: {piece.title}{finding}" if names else f"{capital(piece.title)}{finding}"
    return sheet.chips(one.name for one in group.pieces), what, said, ratio
