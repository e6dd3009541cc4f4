"""A result as plain text for a console: verdict first, then why, then each piece, then caution and sign-off line."""

from __future__ import annotations

from collections.abc import Iterator
from textwrap import wrap

from ...checks.core.asking.question_words import WHO, answers_of, place_of, waiting_of
from ...checks.core.result import Check, JobResult, PieceResult
from ...checks.core.summary import INVENTED, MEANING, by_gravity, quantity
from ...lettering import legible

NARROWEST, WIDEST = 80, 100  # columns
LEGEND = (
    "Each check: its verdict; the ratio of what comes to it over what is allowed (more than 1 is too much); what is "
    "checked and where; both figures; the loads that govern."
)
_VERDICT, _RATIO = 8, 8  # columns of a check's first two entries
_NOTE = 2 + _VERDICT + _RATIO
_UNSPLIT = 40  # letters; a quantity or combination up to this length stays on one line

Entry = tuple[int, str]  # columns by which all lines but the first of a paragraph stand in, and its text


def plain_text(result: JobResult, *, width: int = WIDEST, assumptions: bool = False) -> str:
    """The text of a result, in lines of at most `width` columns (80 to 100), without color.

    With `assumptions` each piece also says what was assumed for it.
    """
    width = min(max(width, NARROWEST), WIDEST)
    lines: list[str] = []
    for indent, text in _entries(result, assumptions):
        lines += _wrapped(text, indent, width) if text else [""]
    return "\n".join(lines) + "\n"


def questions_text(result: JobResult, *, width: int = WIDEST) -> str:
    """The open questions alone, with what each answer does, in the same lines; '' where nothing is open."""
    width = min(max(width, NARROWEST), WIDEST)
    lines = [part for indent, text in _questions(result) if text for part in _wrapped(text, indent, width)]
    return "".join(f"{part}\n" for part in lines)


def _entries(result: JobResult, assumptions: bool) -> Iterator[Entry]:
    yield 0, f"{result.verdict.upper()}. {MEANING[result.verdict]}"
    yield 0, ""
    yield 0, f"{_line(result.title)} ({_line(result.job_name)})"
    if result.invented:
        yield 0, f"{INVENTED}."
    if result.reasons:
        yield 0, ""
        yield 0, "Why:"
        yield from _bullets(result.reasons)
    if result.pieces:
        yield 0, ""
        yield 0, LEGEND
    for piece in result.pieces:
        yield 0, ""
        yield from _piece(piece, result.units, assumptions)
    yield from _questions(result)
    recalled = dict.fromkeys(source.document for source in result.sources if source.how == "memory")
    if recalled:
        yield 0, ""
        yield 0, f"Recalled from memory, to be compared with the printed document: {_line('; '.join(recalled))}."
    yield 0, ""
    yield 0, f"Caution: {_line(result.caution)}"
    yield 0, ""
    yield 0, _line(result.sign_off)


def _piece(piece: PieceResult, units: str, assumptions: bool) -> Iterator[Entry]:
    name = _line(piece.name)
    found = f", {piece.finding}" if piece.finding else ""
    yield 0, f"{name} {piece.verdict.upper()}{found}: {piece.kind}, {_line(piece.title)}"
    for check in by_gravity(piece.checks):
        yield _NOTE, _check(check, units)
        if check.verdict != "passes":
            yield from ((_NOTE, " " * _NOTE + _line(note)) for note in check.notes)
    if piece.remedies:
        yield 0, f"What would make {name} pass:"
        yield from _bullets(piece.remedies)
    if piece.to_see:
        yield 0, f"See and photograph {name} before it is covered:"
        yield from _bullets(piece.to_see)
    if assumptions and piece.assumptions:
        yield 0, f"Assumed for {name}:"
        yield from _bullets(piece.assumptions)


def _questions(result: JobResult) -> Iterator[Entry]:
    """What to find out, in the order in which it is worth asking."""
    asked = [one for one in result.questions if one.state != "idle"]
    if not asked:
        return
    yield 0, ""
    yield 0, "To find out, in this order:"
    for number, one in enumerate(asked, start=1):
        yield 6, f"{number:>3}.  {_line(one.question.ask)} ({WHO[one.question.who]}; {waiting_of(one)})"
        yield 8, f"      goes into {_line(place_of(one))}"
        if one.question.evidence:
            yield 8, f"      with it: {_line(one.question.evidence)}"
        for answer in answers_of(one):
            yield 10, f"      - {_line(answer)}"
        if one.threshold:
            yield 8, f"      {_line(one.threshold)}"


def _check(check: Check, units: str) -> str:
    ratio = "" if check.ratio is None else quantity(check.ratio, "ratio", units)
    text = _line(check.what) + (f", {_place(check.where)}" if check.where else "")
    more = [_figures(check, units), f"under {_whole(_line(check.combination))}" if check.combination else ""]
    said = ", ".join(part for part in more if part)
    return f"  {check.verdict:<{_VERDICT}}{ratio:<{_RATIO}}{text}" + (f": {said}" if said else "")


def _place(where: str) -> str:
    """'at 5 ft' for a bare place; a stretch or words stay as they are."""
    line = _line(where)
    return f"at {_whole(line)}" if line[:1].isdigit() else line


def _figures(check: Check, units: str) -> str:
    """What comes and what is allowed; left out where they would only repeat the ratio."""
    if check.demand is None or (check.kind == "ratio" and check.capacity == 1.0):
        return ""
    demand = _whole(quantity(check.demand, check.kind, units))
    return demand if check.capacity is None else f"{demand} of {_whole(quantity(check.capacity, check.kind, units))}"


def _bullets(texts: tuple[str, ...]) -> Iterator[Entry]:
    yield from ((4, f"  - {_line(text)}") for text in texts)


def _line(text: str) -> str:
    """The text on one line, with nothing in it that steers a terminal."""
    return " ".join(legible(text).split())


def _whole(text: str) -> str:
    """The text with spaces at which no line breaks."""
    return text.replace(" ", "\u00a0") if len(text) <= _UNSPLIT else text


def _wrapped(text: str, indent: int, width: int) -> list[str]:
    start = " " * (len(text) - len(text.lstrip()))
    lines = wrap(text.lstrip(), width, initial_indent=start, subsequent_indent=" " * indent, break_on_hyphens=False)
    return [line.replace("\u00a0", " ") for line in lines]
