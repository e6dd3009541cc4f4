"""From a result to the blocks of a calc sheet, in the order in which a plan checker asks for them."""

from __future__ import annotations

import math
import re
from collections.abc import Iterator
from typing import Any

from ..checks.result import Check, JobResult, PieceResult, Table, Verdict
from ..provenance import Source
from ..units import show
from .blocks import (
    Block,
    Bullets,
    Caution,
    CheckBlock,
    FigureBlock,
    Heading,
    Item,
    JobText,
    Masthead,
    Pairs,
    Paragraph,
    SignOff,
    Steps,
    Symbols,
    TableBlock,
    VerdictBlock,
)  # fmt: skip
from .symbols import meaning, plain_symbol

MEANING: dict[Verdict, str] = {
    "passes": "Every check made here is met. An engineer still has to sign before it is relied on or covered.",
    "fails": "At least one check is not met. Do not rely on it and do not cover it as it is.",
    "refer": "Stop and ask a licensed engineer (or a lumber grader): evidence is missing, or the case is outside what "
    "is checked here.",
}
PIECE_MEANING: dict[Verdict, str] = {
    "passes": "Every check of this piece is met.",
    "fails": "At least one check of this piece is not met.",
    "refer": "A licensed engineer or a grader has to decide about this piece.",
}
HOW = {
    "read": "seen in a copy of the document",
    "derived": "worked out from a named rule",
    "given": "stated by the user or by a letter the user holds",
    "practice": "common practice, no document behind it",
    "memory": "recalled, not yet compared with the printed document",
}
NOT_CHECKED = (
    "Wind and earthquake acting on the building as a whole: bracing, shear walls, diaphragms, hold-downs.",
    "Foundations, soil, and everything called existing or by others in the load path.",
    "Anchors, hangers, bolts, screws, plates and joints, unless a check of this sheet names them.",
    "Decay, insects, old fire, hidden splits and metal in the wood: somebody has to look at and probe each piece.",
    "Fire resistance, vibration, ponding water, drifting snow, and loads while the work is being built.",
    "Twisting, loads from the side, and loads that were not written into the job file.",
    "Whether the sizes, spans and loads in the job file are those of the real house.",
)
_RANK: dict[Verdict, int] = {"fails": 0, "refer": 1, "passes": 2}
_TITLE = 140  # characters of a title at the head; the whole title stands with the project data


def compose(result: JobResult) -> tuple[Block, ...]:
    """The blocks of a calc sheet."""
    return (*_front(result), *_tables(result), *_pieces(result), *_back(result))


def verdict_line(check: Check, system: Any) -> str:
    """Demand, capacity, ratio, where and under which loads: one line of plain text."""
    parts = []
    if check.demand is not None:
        parts.append(f"demand {quantity(check.demand, check.kind, system)}")
    if check.capacity is not None:
        parts.append(f"capacity {quantity(check.capacity, check.kind, system)}")
    parts.append(f"ratio {quantity(check.ratio, 'ratio', system)}" if check.ratio is not None else "no ratio")
    if check.where:
        parts.append(check.where)
    if check.combination:
        parts.append(f"governed by {check.combination}")
    return ", ".join(parts)


def quantity(value: float | None, kind: str, system: Any) -> str:
    """A value for people; a dash for one that is missing or is not a number."""
    if value is None or math.isnan(value):
        return "–"
    if math.isinf(value):
        return "without limit" if value > 0 else "−∞"
    return show(value, kind, system)


def by_gravity(checks: tuple[Check, ...]) -> list[Check]:
    """Fails first, then refer, then passes; within each the largest ratio first."""
    return sorted(checks, key=lambda check: (_RANK[check.verdict], -_ratio(check)))


def governing_phrase(piece: PieceResult) -> str:
    """What decides about a piece, in a few words."""
    worst = next(iter(by_gravity(piece.checks)), None)
    if worst is None:
        return "nothing was checked"
    if worst.ratio is None:
        return worst.what
    return f"{worst.what}, ratio {quantity(worst.ratio, 'ratio', 'US')}"


def _ratio(check: Check) -> float:
    return -1.0 if check.ratio is None or math.isnan(check.ratio) else check.ratio


def _anchor(index: int) -> str:
    return f"piece-{index + 1}"


def _front(result: JobResult) -> Iterator[Block]:
    title = " ".join(result.title.split())
    short = title if len(title) <= _TITLE else title[: _TITLE - 1].rstrip() + "…"
    tool = f"beamcheck {result.version}"
    yield Masthead(result.title, short, tool, result.fingerprint, result.caution, result.invented)
    yield Caution(result.caution)
    items = tuple(
        Item(piece.verdict, piece.name, governing_phrase(piece), _anchor(index))
        for index, piece in enumerate(result.pieces)
    )
    yield VerdictBlock(result.verdict, MEANING[result.verdict], result.reasons, items, large=True)
    fields = tuple(field.strip(" :") for field in re.split(r"_{2,}", result.sign_off) if field.strip(" :"))
    yield SignOff(fields, "Not a permit document without the signature, and the seal where the law asks for one.")
    yield Heading("Project", anchor="project")
    about = [(label, text if text.strip() else "not given") for label, text in result.about]
    if short != result.title:
        about.insert(0, ("Title in full", result.title))
    own = [("Tool", tool), ("Job file", result.job_name), ("Its SHA-256", result.fingerprint)]
    yield Pairs((*about, *own))


def _tables(result: JobResult) -> Iterator[Block]:
    path = [table for table in result.tables if "path" in table.title.casefold()]
    loads = [table for table in result.tables if table not in path]
    if loads:
        yield Heading("Design loads and combinations", anchor="loads")
        yield from (_table(table, "Design loads and combinations") for table in loads)
    yield Heading("Summary of all checks", anchor="summary")
    checks = [(piece.name, check) for piece in result.pieces for check in by_gravity(piece.checks)]
    yield TableBlock(
        "",
        ("piece", "check", "verdict", "ratio", "demand", "capacity", "where", "governed by"),
        tuple(_summary_row(name, check, result.units) for name, check in checks),
        "" if checks else "Nothing was checked.",
        verdict_column=2,
        numeric=(3, 4, 5),
    )
    if path:
        yield Heading("Load path", anchor="path")
        yield from (_table(table, "Load path") for table in path)


def _summary_row(name: str, check: Check, system: Any) -> tuple[str, ...]:
    demand, capacity = quantity(check.demand, check.kind, system), quantity(check.capacity, check.kind, system)
    ratio = quantity(check.ratio, "ratio", system)
    return (name, check.what, check.verdict, ratio, demand, capacity, check.where, check.combination)


def _table(table: Table, under: str = "") -> TableBlock:
    """The table as a block, without its title where the heading above says the same."""
    title = "" if table.title.casefold() == under.casefold() else table.title
    return TableBlock(title, table.heads, table.rows, table.note)


def _pieces(result: JobResult) -> Iterator[Block]:
    for index, piece in enumerate(result.pieces):
        yield Heading(f"{piece.kind.capitalize()} {piece.name}: {piece.title}", anchor=_anchor(index))
        yield VerdictBlock(piece.verdict, PIECE_MEANING[piece.verdict], (f"Decided by: {governing_phrase(piece)}.",))
        yield Pairs(piece.inputs)
        if piece.figure is not None:
            caption = f"{piece.name}: loads, supports, shear, moment and sag. Heights of the diagrams are not to scale."
            yield FigureBlock(piece.figure, piece.name, result.units, f"figure-{index + 1}", caption)
        yield from map(_table, piece.tables)
        if piece.checks:
            yield Heading(f"Checks of {piece.name}", level=3)
            if result.units != "US":
                yield Paragraph("Equations are worked in inch, pound-force and psi; the lines above them are SI.")
        for check in piece.checks:
            line = verdict_line(check, result.units)
            yield CheckBlock(check.what, check.verdict, line, check.clause, Steps(check.steps), check.notes)
        if piece.assumptions:
            yield Bullets(f"Assumed for {piece.name}", piece.assumptions)
        if piece.remedies:
            yield Bullets(f"What would make {piece.name} pass", piece.remedies)


def _back(result: JobResult) -> Iterator[Block]:
    uses = _uses(result)
    if uses:
        yield Heading("Sources", anchor="sources")
        rows = tuple(
            (source.document, source.how, source.confidence or "–", used, source.note) for source, used in uses.items()
        )
        how = "; ".join(f"{word}: {told}" for word, told in HOW.items())
        yield TableBlock("", ("document", "how known", "confidence", "used for", "note"), rows, f"How known – {how}.")
    yield Heading("What rests on memory, on assumptions, or is referred", anchor="doubts")
    memory = tuple(
        f"{source.document} ({used})" + (f": {source.note}" if source.note else "")
        for source, used in uses.items()
        if source.how == "memory" or source.confidence == "low"
    )
    yield Bullets("From memory or of low confidence: compare with the printed document before relying on it",
                  memory or ("Nothing.",))  # fmt: skip
    assumed = tuple(f"{piece.name}: {text}" for piece in result.pieces for text in piece.assumptions)
    yield Bullets("Assumed", assumed or ("Nothing.",))
    referred = tuple(
        f"{piece.name}: {check.what}" + "".join(f". {note}" for note in check.notes)
        for piece in result.pieces
        for check in piece.checks
        if check.verdict == "refer"
    )
    yield Bullets("Referred to an engineer or a grader", referred or ("Nothing.",))
    yield Heading("What is not checked here", anchor="not-checked")
    yield Bullets("", NOT_CHECKED)
    if names := _symbols(result):
        yield Heading("Symbols", anchor="symbols")
        yield Symbols(names)
    yield Heading("The job file", anchor="job-file")
    yield Paragraph("Every figure of this sheet follows from this text and the tables named under Sources.")
    yield JobText(result.job_name, result.job_text)
    yield Caution(result.caution)


def _uses(result: JobResult) -> dict[Source, str]:
    """For each source the symbols that rest on it, by piece."""
    found: dict[Source, dict[str, dict[str, None]]] = {}
    for piece in result.pieces:
        for check in piece.checks:
            for step in check.steps:
                if step.source is not None:
                    names = found.setdefault(step.source, {}).setdefault(piece.name, {})
                    names[plain_symbol(step.symbol)] = None
    return {
        source: "; ".join(f"{name}: {', '.join(symbols)}" for name, symbols in used.items())
        for source, used in found.items()
    }


def _symbols(result: JobResult) -> tuple[str, ...]:
    """Symbols of all steps that the nomenclature explains, in order of first use."""
    used: dict[str, None] = {}
    for piece in result.pieces:
        for check in piece.checks:
            for step in check.steps:
                used.update(dict.fromkeys((step.symbol, *step.inputs)))
    return tuple(name for name in used if meaning(name))
