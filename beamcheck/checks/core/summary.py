"""What a result says of itself: the words for a verdict, what decides it, and the short texts of console and notebook.

All of it stands on this floor so that a result can show itself; the sheet uses the same words.
"""

from __future__ import annotations

import math
from collections.abc import Callable

from ...lettering import legible as legible  # the sheet takes it from here
from ...units import show
from .asking.question_words import WHO, answers_of
from .result import CAUTION, SIGN_OFF, Check, JobResult, PieceResult, Verdict

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
INVENTED = "Invented data: an example, not a real building"


def quantity(value: float | None, kind: str, system: str | None) -> str:
    """A value for people; a dash for one that is missing or is not a number."""
    if value is None or math.isnan(value):
        return "–"
    if math.isinf(value):
        return "without limit" if value == math.inf else "−∞"
    return show(value, kind, system)


def by_gravity(checks: tuple[Check, ...]) -> list[Check]:
    """What decides first: see `Check.rank`."""
    return sorted(checks, key=lambda check: check.rank)


def governing_phrase(piece: PieceResult) -> str:
    """What decides about a piece, in a few words."""
    if (group := piece.deciding_group) is not None:
        return f"what holds it: {group.group} ({group.verdict})"
    worst = piece.governing
    if worst is None:
        return "nothing was checked"
    if worst.ratio is None:
        return worst.what
    return f"{worst.what}, ratio {quantity(worst.ratio, 'ratio', 'US')}"


def check_text(check: Check) -> str:
    """One check for a console: verdict and what decides it, the caution, the sign-off line."""
    return _closed([_check_line(check)])


def piece_text(piece: PieceResult) -> str:
    """One piece for a console: verdict, checks, the caution, the sign-off line."""
    head = f"{piece.verdict.upper()}: {piece.kind} {piece.name}, {piece.title}. {PIECE_MEANING[piece.verdict]}"
    return _closed([head, *(f"  {_check_line(check)}" for check in by_gravity(piece.checks))])


def job_text(result: JobResult) -> str:
    """A job for a console: verdict, reasons, one line a piece, the caution, the sign-off line."""
    head = f"{result.verdict.upper()}: {result.title}. {MEANING[result.verdict]}"
    invented = [f"{INVENTED}."] if result.invented else []
    reasons = [f"  - {reason}" for reason in result.reasons]
    pieces = [f"  {piece.verdict:<6}  {piece.name}: {governing_phrase(piece)}" for piece in result.pieces]
    return _closed([head, *invented, *reasons, *pieces], result.caution, result.sign_off)


def _check_line(check: Check) -> str:
    ratio = f", ratio {quantity(check.ratio, 'ratio', None)}" if check.ratio is not None else ""
    more = "".join(f", {part}" for part in (check.where, check.combination) if part)
    notes = "" if check.verdict == "passes" else "".join(f"; {note}" for note in check.notes)
    return f"{check.verdict}: {check.subject}, {check.what}{ratio}{more}{notes}"


def _closed(lines: list[str], caution: str = CAUTION, sign_off: str = SIGN_OFF) -> str:
    """The lines, each on its own line whatever is in it, with caution and sign-off below."""
    kept = [line[: len(line) - len(line.lstrip())] + " ".join(legible(line).split()) for line in lines]
    return "\n".join([*kept, f"Caution: {caution}", sign_off])


def check_html(check: Check) -> str:
    """One check for a notebook."""
    return _page(_verdict(check.verdict, PIECE_MEANING[check.verdict]) + _table([_check_row(check)]), CAUTION, SIGN_OFF)


def piece_html(piece: PieceResult) -> str:
    """One piece for a notebook: verdict, its checks, the caution, the sign-off line."""
    title = _paragraph(f"{piece.kind} {piece.name}: {piece.title}")
    head = title + _verdict(piece.verdict, PIECE_MEANING[piece.verdict])
    return _page(head + _table([_check_row(check) for check in by_gravity(piece.checks)]), CAUTION, SIGN_OFF)


def job_html(result: JobResult) -> str:
    """A job for a notebook: verdict, reasons, one line a piece, the caution and the sign-off line."""
    invented = f"<p><strong>{INVENTED}</strong></p>" if result.invented else ""
    reasons = "".join(f"<li>{_safe(reason)}</li>" for reason in result.reasons)
    body = (
        f"{invented}{_paragraph(result.title)}{_verdict(result.verdict, MEANING[result.verdict])}"
        + (f"<ul>{reasons}</ul>" if reasons else "")
        + _table([(piece.verdict, piece.name, governing_phrase(piece)) for piece in result.pieces])
        + _questions(result)
    )
    return _page(body, result.caution, result.sign_off)


def _questions(result: JobResult) -> str:
    """What is open, in the order in which it is worth asking: who answers, and what answers there are."""
    items = []
    for one in result.questions:
        answers = "".join(f"<li>{_safe(answer)}</li>" for answer in answers_of(one))
        text = f"{_safe(one.question.ask)} <em>({_safe(WHO[one.question.who])})</em>"
        items.append(f"<li>{text}{f'<ul>{answers}</ul>' if answers else ''}</li>")
    return f"<p>To find out, in this order:</p><ol>{''.join(items)}</ol>" if items else ""


def _check_row(check: Check) -> tuple[str, ...]:
    ratio = "" if check.ratio is None else quantity(check.ratio, "ratio", None)
    what = ", ".join(part for part in (check.subject, check.what, check.where, check.combination) if part)
    return check.verdict, ratio, what, "" if check.verdict == "passes" else "; ".join(check.notes)


def _page(body: str, caution: str, sign_off: str) -> str:
    return (
        f'<div style="max-width:50em;overflow-wrap:anywhere">{body}'
        f"<p><strong>Caution.</strong> {_safe(caution)}</p>{_paragraph(sign_off)}</div>"
    )


def _verdict(verdict: Verdict, meaning: str) -> str:
    return f'<p><strong style="font-size:150%">{verdict.upper()}</strong> {_safe(meaning)}</p>'


def _table(rows: list[tuple[str, ...]]) -> str:
    """Rows whose first cell is the verdict."""
    cell = '<td style="text-align:left">'
    lines = []
    for verdict, *rest in rows:
        cells = "".join(f"{cell}{_safe(text)}</td>" for text in rest)
        lines.append(f"<tr>{cell}<strong>{_safe(verdict)}</strong></td>{cells}</tr>")
    return f"<table><tbody>{''.join(lines)}</tbody></table>" if lines else ""


def _paragraph(text: str) -> str:
    return f"<p>{_safe(text)}</p>"


def _safe(text: str) -> str:
    from html import escape

    return escape(legible(text))


def _shows_itself(cls: type, text: Callable[..., str], html: Callable[..., str]) -> None:
    """In a terminal and in a notebook a result shows itself in these words."""
    setattr(cls, "__repr__", text)  # noqa: B010 - a class of the file below does not know this one
    setattr(cls, "_repr_html_", html)  # noqa: B010


_shows_itself(Check, check_text, check_html)
_shows_itself(PieceResult, piece_text, piece_html)
_shows_itself(JobResult, job_text, job_html)
