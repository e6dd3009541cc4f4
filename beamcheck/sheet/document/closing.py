"""The end of a sheet: sources, what rests on memory or assumptions, what is not checked, symbols, the job file."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping

from ...calc.pad import Step
from ...checks.core.result import Check, JobResult
from ...provenance import Source
from .blocks import Block, Bullets, Caution, Heading, JobText, Paragraph, Reference, References, Symbols
from .prose import capital, sentence
from .repeated_steps import warning
from .symbols import meaning, plain_symbol

HOW = {
    "read": "seen in a copy of the document",
    "derived": "worked out from a named rule",
    "read, second-hand": "seen in a record, course, handbook or page that quotes the document",
    "given": "stated by the user or by a letter the user holds",
    "practice": "common practice, no document behind it",
    "memory": "recalled, not yet compared with the printed document",
}
RESTS_ON = "What this rests on: memory, assumptions, others, and what is referred"
NOT_CHECKED = (
    "Wind and earthquake acting on the building as a whole: bracing, shear walls, diaphragms, hold-downs.",
    "Foundations, soil, and everything called existing or by others in the load path.",
    "Anchors, hangers, bolts, screws, plates and joints, unless a check of this sheet names them.",
    "Decay, insects, old fire, hidden splits and metal in the wood: somebody has to look at and probe each piece.",
    "Fire resistance, vibration, ponding water, drifting snow, and loads while the work is being built.",
    "Twisting, loads from the side, and loads that were not written into the job file.",
    "Whether the sizes, spans and loads in the job file are those of the real house.",
)


def closing_blocks(result: JobResult, numbers: Mapping[Source, int]) -> Iterator[Block]:
    """The blocks after the last piece; `numbers` are those of the sources on the sheet."""
    references = tuple(Reference(numbers[source], source, used) for source, used in _uses(result).items())
    yield from _rests_on(result, references)
    if references:
        yield Heading("Sources", anchor="sources", new_page=True)
        how = "; ".join(f"{word}: {told}" for word, told in HOW.items())
        yield References("", references, f"How known – {how}.")
    yield Heading("What is not checked here", anchor="not-checked")
    yield Bullets("", NOT_CHECKED)
    if names := _symbols(result):
        yield Heading("Symbols", anchor="symbols")
        yield Symbols(names)
    yield Heading("The job file", anchor="job-file", new_page=True)
    yield Paragraph("Every figure of this sheet follows from this text and the tables named under Sources.")
    yield JobText(result.job_name, result.job_text)
    yield Caution(result.caution)


def _rests_on(result: JobResult, references: tuple[Reference, ...]) -> Iterator[Block]:
    """What the engineer has to stand in for, on a page of its own."""
    yield Heading(RESTS_ON, anchor="doubts", new_page=True, running=RESTS_ON.partition(":")[0])
    memory = tuple(
        f"[{each.number}] {each.source.document} ({warning(each.source)}): {each.used}."
        for each in references
        if each.source.how == "memory" or each.source.confidence == "low"
    )
    yield Bullets("From memory or of low confidence: compare with the printed document before relying on it",
                  memory or ("Nothing.",))  # fmt: skip
    yield Bullets("Assumed", _assumed(result) or ("Nothing.",))
    yield Bullets("By others", _by_others(result) or ("Nothing.",))
    yield Bullets("Referred to an engineer or a grader", _referred(result) or ("Nothing.",))


def _assumed(result: JobResult) -> tuple[str, ...]:
    """Each assumption once, with the pieces for which it was made."""
    found: dict[str, dict[str, None]] = {}
    for piece in result.pieces:
        for text in piece.assumptions:
            found.setdefault(text, {})[piece.name] = None
    return tuple(f"{', '.join(names)}: {sentence(text)}" for text, names in found.items())


def _by_others(result: JobResult) -> tuple[str, ...]:
    """What somebody else answers for, or nobody yet: each wording once, with the pieces and places that rely on it."""
    found: dict[str, dict[str, dict[str, None]]] = {}
    for piece in result.pieces:
        for check in piece.checks:
            for note in check.notes:
                if "by others" in note.casefold():
                    found.setdefault(note, {}).setdefault(piece.name, {})[check.what] = None
    return tuple(f"{_where_said(pieces)}. {sentence(note)}" for note, pieces in found.items())


def _where_said(pieces: Mapping[str, Iterable[str]]) -> str:
    return "; ".join(f"{name}: {', '.join(whats)}" for name, whats in pieces.items())


def _referred(result: JobResult) -> tuple[str, ...]:
    """Each reason once in a piece, with the checks that are referred for it."""
    found: dict[tuple[str, tuple[str, ...]], list[Check]] = {}
    for piece in result.pieces:
        for check in piece.checks:
            if check.verdict == "refer":
                found.setdefault((piece.name, check.notes), []).append(check)
    return tuple(
        " ".join((f"{name}: {capital(', '.join(check.what for check in checks))}.", *map(sentence, notes)))
        for (name, notes), checks in found.items()
    )


def _uses(result: JobResult) -> dict[Source, str]:
    """For each source the symbols that rest on it, by piece."""
    found: dict[Source, dict[str, dict[str, None]]] = {}
    for piece, step in _steps(result):
        if step.source is not None:
            found.setdefault(step.source, {}).setdefault(piece, {})[plain_symbol(step.symbol)] = None
    return {
        source: "; ".join(f"{name}: {', '.join(symbols)}" for name, symbols in used.items())
        for source, used in found.items()
    }


def _symbols(result: JobResult) -> tuple[str, ...]:
    """Symbols of all steps that the nomenclature explains, in order of first use."""
    used: dict[str, None] = {}
    for _piece, step in _steps(result):
        used.update(dict.fromkeys((step.symbol, *step.inputs)))
    return tuple(name for name in used if meaning(name))


def _steps(result: JobResult) -> Iterator[tuple[str, Step]]:
    """Every step with the name of its piece."""
    for piece in result.pieces:
        for check in piece.checks:
            for step in check.steps:
                yield piece.name, step
