"""One piece on a screen: what it was understood as, its checks with bars, and what would make it hold."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from ...checks.core.asking.open_questions import OpenQuestion
from ...checks.core.asking.settling import settling_sentence
from ...checks.core.result import Check, JobResult, PieceResult
from ...checks.core.summary import by_gravity, quantity
from ...errors import UnknownName
from .look import SIGN, WIDE, bar, closing, columns, hung, line, ratio_text
from .short import WHO

MOST_LINES = 20
_SHOWN = 9  # checks that are named; the others are counted


def why_text(result: JobResult, name: str, *, width: int = 80) -> str:
    """One piece in at most 20 lines of at most `width` columns, without color; caution and sign-off come behind.

    Raises UnknownName if the job has no such piece.
    """
    width = columns(width)
    piece = _piece(result, name)
    head = hung(f"{SIGN[piece.verdict]:<4}{line(piece.name)}  ", f"{piece.kind}, {piece.title}", width, most=2)
    said = hung("", f"Understood: {piece.understood}", width, most=5) if piece.understood else []
    end = [*_cure(piece, result, width)]
    room = MOST_LINES - len(head) - len(said) - len(end) - 7
    rows = [*_rows(piece, result.units, width, max(room, 3))]
    lines = [*head, *said, "", *rows, *([""] if end else []), *end, "", *closing(width)]
    return "\n".join(lines) + "\n"


def _piece(result: JobResult, name: str) -> PieceResult:
    for piece in result.pieces:
        if name.strip().casefold() == piece.name.casefold():
            return piece
    raise UnknownName("piece", name, [piece.name for piece in result.pieces])


def _rows(piece: PieceResult, units: str, width: int, room: int) -> Iterator[str]:
    """Member first, then joints and seats; what decides stands above."""
    checks = by_gravity(piece.checks)
    shown = checks[: min(room, _SHOWN)]
    what = max(width - 47, 18)
    wide = width >= WIDE
    if wide:
        yield f"    {'':<{what}}{'comes':>11}{'allowed':>11}  ratio"
    of_member = [one for one in shown if one.part == "member" and piece.kind != "anchor"]
    parts = [("member", of_member), ("joints and seats", [one for one in shown if one not in of_member])]
    for title, found in parts:
        if found and all(group for _, group in parts):
            yield f"    {title}"
        yield from (_row(check, units, what, wide) for check in found)
    rest = checks[len(shown) :]
    if rest:
        most = max((check.ratio or 0.0 for check in rest), default=0.0)
        yield f"    and {len(rest)} more, at most {ratio_text(most)}: --all"


def _row(check: Check, units: str, what: int, wide: bool) -> str:
    place = f" at {line(check.where)}" if check.where[:1].isdigit() else f" {line(check.where)}" if check.where else ""
    name = line(check.what)
    name = name if len(name) > what - 4 else (name + place)
    if len(name) > what - 1:
        name = name[: what - 4].rstrip(" ,") + "..."
    ratio = ratio_text(check.ratio)
    start = f"{SIGN[check.verdict]:<4}{name:<{what}}"
    if not wide:
        return f"{start}{ratio}".rstrip()
    comes, allowed = _figures(check, units)
    return f"{start}{comes:>11}{allowed:>11}  {ratio:<6}{bar(check.ratio)}".rstrip()


def _figures(check: Check, units: str) -> tuple[str, str]:
    if check.demand is None or check.capacity is None or (check.kind == "ratio" and check.capacity == 1.0):
        return "", ""
    return quantity(check.demand, check.kind, units), quantity(check.capacity, check.kind, units)


def _cure(piece: PieceResult, result: JobResult, width: int) -> Iterator[str]:
    if piece.remedies:
        yield from hung(
            "", f"Would make it hold: {'; '.join(one.rstrip('.') for one in piece.remedies[:3])}.", width, most=3
        )
    asked: Sequence[OpenQuestion] = [
        one for one in result.questions if piece.name in one.pieces and one.state != "idle"
    ]
    for one in asked[:3]:
        yield from hung("?   ", f"{WHO[one.question.who]}: {one.question.ask}", width, most=2)
        if settles := settling_sentence(one.question.why):
            yield from hung("    ", settles, width, most=3)
    if len(asked) > 3:
        yield f"?   and {len(asked) - 3} more questions"
    if piece.verdict == "fails" and not asked:
        yield "No open question would help."
