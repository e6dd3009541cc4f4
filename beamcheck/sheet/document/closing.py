"""The end of a sheet: sources, what rests on memory or assumptions, what is not checked, symbols, the job file."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import replace

from ...calc.pad import Step
from ...checks.core.result import JobResult
from ...provenance import Source
from .blocks import Block, Bullets, Caution, Heading, JobText, Paragraph, Reference, References, Symbols
from .prose import sentence
from .rich_blocks import FoldEnd, FoldStart
from .symbols import lettered, meaning, plain_symbol

HOW = {
    "read": "seen in a copy of the document",
    "derived": "worked out from a named rule",
    "read, second-hand": "seen in a record, course, handbook or page that quotes the document",
    "given": "stated by the user or by a letter the user holds",
    "practice": "common practice, no document behind it",
    "memory": "recalled, not yet compared with the printed document",
}
SEEN = frozenset(("read", "derived", "read, second-hand", "given"))
RESTS_ON = "What this rests on: memory, assumptions and others"
NOTHING_WEAK = "Nothing is from memory or of low confidence."
NOT_CHECKED = (
    "Wind and earthquake acting on the building as a whole: bracing, shear walls, diaphragms, hold-downs.",
    "Foundations, soil, and everything called existing or by others in the load path.",
    "Anchors, hangers, bolts, screws, plates and joints, unless a check of this sheet names them.",
    "Decay, insects, old fire, hidden splits and metal in the wood: somebody has to look at and probe each piece.",
    "Fire resistance, vibration, ponding water, drifting snow, and loads while the work is being built.",
    "Twisting, loads from the side, and loads that were not written into the job file.",
    "Whether the sizes, spans and loads in the job file are those of the real house.",
)


def closing_blocks(
    result: JobResult, numbers: Mapping[Source, int], letters: Mapping[str, str], marks: Mapping[str, str],
    symbols: tuple[str, ...], *, all_steps: bool = True,
) -> Iterator[Block]:  # fmt: skip
    """The blocks after the last member.

    `numbers` are those of the sources, `letters` of the assumptions, `marks` of the pieces; `symbols` are explained.
    Without `all_steps` a source that was seen is named without the remark on where.
    """
    every = (Reference(numbers[source], source, used) for source, used in _uses(result, marks).items())
    references = tuple(sorted(every, key=lambda one: one.source.how != "memory" and one.source.confidence != "low"))
    yield from _rests_on(result, references, letters, marks)
    if references:
        yield Heading("Sources", anchor="sources")
        how = "; ".join(f"{word}: {told}" for word, told in HOW.items())
        more = "" if all_steps else " Remarks on those that were seen: the full form."
        shown = references if all_steps else tuple(map(_brief, references))
        yield FoldStart(f"{len(shown)} source{'s' if len(shown) > 1 else ''}, those to compare first", printed=True)
        yield References("", shown, f"How known – {how}.{more}")
        yield FoldEnd()
    yield Heading("What is not checked here", anchor="not-checked")
    yield Bullets("", NOT_CHECKED)
    if names := tuple(name for name in symbols if meaning(name)):
        yield Heading("Symbols", anchor="symbols")
        yield FoldStart(f"{len(names)} symbol{'s' if len(names) > 1 else ''}", printed=True)
        yield Symbols(names)
        yield FoldEnd()


def job_blocks(result: JobResult, *, printed: bool = True) -> Iterator[Block]:
    """The very end: the job file, on paper only if `printed`, and the caution once more."""
    if printed:
        yield Heading("The job file", anchor="job-file")
        yield Paragraph("Every figure of this sheet follows from this text and the tables named under Sources.")
    yield JobText(result.job_name, result.job_text, printed)
    yield Caution(result.caution)


def _brief(one: Reference) -> Reference:
    """Without the remark, where the source was seen or somebody answers for it."""
    if one.source.how in SEEN and one.source.confidence != "low":
        return replace(one, source=replace(one.source, note=""))
    return one


def _rests_on(
    result: JobResult, references: tuple[Reference, ...], letters: Mapping[str, str], marks: Mapping[str, str]
) -> Iterator[Block]:
    """What the engineer has to stand in for."""
    yield Heading(RESTS_ON, anchor="doubts", running=RESTS_ON.partition(":")[0])
    weak = [each for each in references if each.source.how == "memory" or each.source.confidence == "low"]
    first, them = ("The first source is", "it") if len(weak) == 1 else (f"The first {len(weak)} sources are", "them")
    told = f"{first} from memory or of low confidence: compare {them} with the printed document first."
    yield Paragraph(told if weak else NOTHING_WEAK)
    assumed = _assumed(result, letters, marks)
    yield Bullets("Assumed", assumed or ("Nothing.",), marked=bool(assumed))
    yield Bullets("By others", _by_others(result, marks) or ("Nothing.",))


def _assumed(result: JobResult, letters: Mapping[str, str], marks: Mapping[str, str]) -> tuple[str, ...]:
    """Each assumption once, with its letter and the members for which it was made."""
    found: dict[str, dict[str, None]] = {}
    for piece in result.pieces:
        for text in piece.assumptions:
            found.setdefault(text, {})[marks[piece.name]] = None
    every = len({name for names in found.values() for name in names})
    return tuple(f"{letters[text]}. {sentence(text)}{_listed(names, every)}" for text, names in found.items())


def _listed(names: Mapping[str, None], every: int) -> str:
    """For whom it is assumed, where that is not plain."""
    return "" if every == 1 else " (all)" if len(names) == every else f" ({', '.join(names)})"


def _by_others(result: JobResult, marks: Mapping[str, str]) -> tuple[str, ...]:
    """What somebody else answers for, or nobody yet: each wording once, with the pieces and places that rely on it."""
    found: dict[str, dict[str, dict[str, None]]] = {}
    for piece in result.pieces:
        for check in piece.checks:
            for note in check.notes:
                if "by others" in note.casefold():
                    found.setdefault(note, {}).setdefault(marks[piece.name], {})[check.what] = None
    return tuple(f"{_where_said(pieces)}. {sentence(note)}" for note, pieces in found.items())


def _where_said(pieces: Mapping[str, Iterable[str]]) -> str:
    return "; ".join(f"{name}: {', '.join(whats)}" for name, whats in pieces.items())


def _uses(result: JobResult, marks: Mapping[str, str]) -> dict[Source, str]:
    """For each source the symbols that rest on it, by piece."""
    found: dict[Source, dict[str, dict[str, None]]] = {}
    for piece, step in _steps(result):
        if step.source is not None:
            found.setdefault(step.source, {}).setdefault(marks[piece], {})[_named(step.symbol)] = None
    return {source: _used(used) for source, used in found.items()}


def _named(symbol: str) -> str:
    """A symbol in running text, which is set with its subscript where its table knows it."""
    letters = lettered(symbol)
    return plain_symbol(symbol) if letters is None else symbol if letters[1] else letters[0]


def _used(by_piece: Mapping[str, Iterable[str]]) -> str:
    """`B1, B2: F_b, E; P1: E`: pieces with the same symbols are named together."""
    alike: dict[tuple[str, ...], list[str]] = {}
    for name, symbols in by_piece.items():
        alike.setdefault(tuple(symbols), []).append(name)
    return "; ".join(f"{', '.join(names)}: {', '.join(symbols)}" for symbols, names in alike.items())


def symbols_of(result: JobResult) -> tuple[str, ...]:
    """The symbols of all steps, by the alphabet."""
    used: dict[str, None] = {}
    for _piece, step in _steps(result):
        used.update(dict.fromkeys((step.symbol, *step.inputs)))
    return alphabetical(used)


def alphabetical(names: Iterable[str]) -> tuple[str, ...]:
    """Each symbol once, small and large letters together."""
    return tuple(sorted(dict.fromkeys(names), key=lambda name: (name.casefold(), name)))


def _steps(result: JobResult) -> Iterator[tuple[str, Step]]:
    """Every step with the name of its piece."""
    for piece in result.pieces:
        for check in piece.checks:
            for step in check.steps:
                yield piece.name, step
