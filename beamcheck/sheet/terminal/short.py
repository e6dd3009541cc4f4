"""The short answer: verdict, what fails and what cures it, what to find out, what passes, and what to type next.

It is what stays on the screen: 10 to 25 lines for a house, less than 12 for one sound beam.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import NamedTuple

from ...checks.core.asking.open_questions import OpenQuestion
from ...checks.core.asking.settling import settling_sentence
from ...checks.core.result import Check, JobResult, PieceResult
from ...checks.core.summary import INVENTED, by_gravity
from ..document.short.alike import Group, groups_of
from .look import WIDE, closing, columns, hung, line, listed, ratio_text

MOST_LINES = 25
WHO = {
    "tape": "your tape", "camera": "your camera", "meter": "your meter", "you": "you", "supplier": "the supplier",
    "grader": "a grader", "engineer": "the engineer", "department": "the department",
}  # fmt: skip
_FAULTS = 3  # that are named of a piece that fails


class _Entry(NamedTuple):
    lines: list[str]
    pieces: int  # that stand in it
    ratio: float


def short_text(result: JobResult, *, width: int = 80, source: str = "") -> str:
    """The short answer in lines of at most `width` columns (40 to 100), without color.

    `source` is the job file as it was named, for what to type next; '' where there is none.
    """
    width = columns(width)
    head = [*_head(result, width), ""]
    tail = ["", *_next(result, width, source), *closing(width)]
    if len(result.pieces) == 1:
        tail = [one for one in tail if one]
        tail = ["", *tail]
    room = (MOST_LINES if width >= WIDE else 2 * MOST_LINES) - len(head) - len(tail)
    fails, open_, good = ([*_fails(result, width)], [*_open(result, width)], [*_good(result, width)])
    if len(result.pieces) == 1 and len(good) == 1:  # one sound piece has room for what it was understood as
        good = [_Entry(_understood(result.pieces[0], width), 1, good[0].ratio)]
    body = _fitted([(fails, "NO"), (open_, "?"), (good, "ok")], room, width, source)
    return "\n".join([*head, *body, *tail]) + "\n"


def _head(result: JobResult, width: int) -> list[str]:
    counts = {kind: sum(piece.verdict == kind for piece in result.pieces) for kind in ("fails", "refer", "passes")}
    total = len(result.pieces)
    told = []
    if counts["fails"]:
        do = "does" if counts["fails"] == 1 else "do"
        told.append(f"{counts['fails']} of {total} {'piece' if total == 1 else 'pieces'} {do} not hold")
    if counts["refer"]:
        one = counts["refer"] == 1
        told.append(f"{counts['refer']} {'piece waits' if one else 'pieces wait'} for an answer")
    if counts["passes"]:
        told.append(f"{counts['passes']} {'passes' if counts['passes'] == 1 else 'pass'}")
    said = ", ".join(told) if total else "nothing was checked"
    if result.verdict == "passes":
        said = "every check made here is met" if total == 1 else f"all {total} pieces: every check made here is met"
    invented = f" {INVENTED}." if result.invented and "invented" not in result.title.casefold() else ""
    title = hung(" " * 8, f"{result.title}{invented}", width, most=1)
    first = hung(f"{result.verdict.upper():<8}", f"{said}.", width)
    if len(first) == len(title) == 1 and len(first[0]) + len(title[0]) - 6 <= width:
        return [f"{first[0]}  {title[0].strip()}"]
    return [*first, *title]


def _fails(result: JobResult, width: int) -> Iterator[_Entry]:
    margin = _margin(result)
    for group in groups_of(result):
        piece = group.first
        if piece.verdict != "fails":
            continue
        failing = [check for check in by_gravity(piece.checks) if check.verdict == "fails"]
        said = [_fault(check) for check in failing[:_FAULTS]]
        said += [f"{one.group}, which holds it, does not hold" for one in piece.held_by if one.verdict == "fails"]
        more = len(failing) - _FAULTS
        text = "; ".join(said) + (f"; {more} more" if more > 0 else "")
        lines = hung(_behind("NO", _names(group), margin), text, width, most=2)
        if piece.remedies:
            lines += hung(" " * margin, piece.remedies[0], width, most=2)
        worst = piece.closest
        yield _Entry(lines, len(group.pieces), 0.0 if worst is None else worst.ratio or 0.0)


def _fault(check: Check) -> str:
    if check.ratio is None:
        return f"{check.what} ({'; '.join(check.notes)})" if check.notes else check.what
    return f"{check.what} {ratio_text(check.ratio)} of what is allowed"


def _open(result: JobResult, width: int) -> Iterator[_Entry]:
    """One entry for each set of pieces that wait for the same questions."""
    margin = _margin(result)
    asked = [one for one in result.questions if one.state != "idle"]
    together: dict[tuple[str, ...], list[OpenQuestion]] = {}
    for one in asked:
        together.setdefault(one.pieces, []).append(one)
    number = 1
    for pieces, questions in together.items():
        text, settles = _asks(questions), settling_sentence(questions[0].question.why)
        lines = hung(_behind(f"?{number}", listed(pieces, 2), margin), text, width, most=3)
        lines += hung(" " * margin, settles, width, most=3) if settles else []
        yield _Entry(lines, len(pieces), 0.0)
        number += len(questions)
    covered = {name for one in asked for name in one.pieces}
    for piece in result.pieces:
        if piece.verdict == "refer" and piece.name not in covered:
            held = ", ".join(one.group for one in piece.held_by if one.verdict != "passes")
            text = f"waits for what holds its end: {held}" if held else "waits for a licensed engineer"
            yield _Entry(hung(_behind("?", line(piece.name), margin), text, width, most=2), 1, 0.0)


def _asks(questions: Sequence[OpenQuestion]) -> str:
    first = questions[0]
    does = first.threshold or _does(first)
    said = f"{WHO[first.question.who]}: {first.question.ask}" + (f" {does}" if does else "")
    if len(questions) == 1:
        return said
    by = dict.fromkeys(WHO[one.question.who] for one in questions)
    return f"{len(questions)} questions ({', '.join(by)}). First, {said}"


def _does(one: OpenQuestion) -> str:
    """What answers do where the job was run with them; what settles nothing yet is left out."""
    told = []
    for worked in one.answers:
        done = [f"{effect.piece} {effect.verdict}" for effect in worked.effects if effect.verdict != "refer"]
        if done:
            told.append(f"{worked.answer.says}: {', '.join(done[:2])}")
    return "; ".join(told[:2]) + ("." if told else "")


def _good(result: JobResult, width: int) -> Iterator[_Entry]:
    margin = _margin(result)
    for group in groups_of(result):
        piece = group.first
        if piece.verdict != "passes":
            continue
        worst = piece.closest
        ratio = 0.0 if worst is None else worst.ratio or 0.0
        figure = f": {line(worst.what)} {ratio_text(ratio)}" if worst is not None else ""
        lines = hung(_behind("ok", _names(group), margin), f"{piece.title}{figure}", width, most=2)
        yield _Entry(lines, len(group.pieces), ratio)


def _understood(piece: PieceResult, width: int) -> list[str]:
    worst = piece.closest
    figure = "" if worst is None else f" Closest: {worst.what} {ratio_text(worst.ratio)} of what is allowed."
    return hung(
        _behind("ok", line(piece.name), 4 + len(piece.name)), f"{piece.understood or piece.title}{figure}", width
    )


def _names(group: Group) -> str:
    return listed((piece.name for piece in group.pieces), 3)


def _margin(result: JobResult) -> int:
    """Columns before the text: room for the names, but not for long ones."""
    longest = max((len(line(piece.name)) for piece in result.pieces), default=2)
    return 4 + min(max(longest, 4), 14) + 2


def _behind(sign: str, names: str, margin: int) -> str:
    return f"{sign:<4}{names}  ".ljust(margin)


def _fitted(parts: Sequence[tuple[list[_Entry], str]], room: int, width: int, source: str) -> list[str]:
    """The entries that find room: what passes is counted first, then questions, and what fails last."""
    shown = [len(entries) for entries, _ in parts]

    def lines() -> list[str]:
        made: list[str] = []
        for (entries, sign), count in zip(parts, shown, strict=True):
            block = [text for entry in entries[:count] for text in entry.lines]
            block += _folded(entries[count:], sign, width, source) if count < len(entries) else []
            made += ["", *block] if made and block else block
        return made

    for place in reversed(range(len(parts))):
        while shown[place] > 1 and len(lines()) > room:
            shown[place] -= 1
    return lines()


def _folded(entries: Sequence[_Entry], sign: str, width: int, source: str) -> list[str]:
    pieces = sum(entry.pieces for entry in entries)
    if sign == "?":
        text = f"{len(entries)} more lines of questions: " + (f"whatcarries ask {source}" if source else "--all")
    else:
        most = max(entry.ratio for entry in entries)
        text = f"{pieces} more {'piece' if pieces == 1 else 'pieces'}, closest {ratio_text(most)}: --all"
    return hung(f"{sign:<4}", text, width, most=1)


def _next(result: JobResult, width: int, source: str) -> list[str]:
    """What to type next."""
    if not source or not result.pieces:
        return []
    asked = any(one.state != "idle" for one in result.questions)
    worst = min(result.pieces, key=lambda piece: ("fails", "refer", "passes").index(piece.verdict))
    name = line(worst.name)
    why = f'--why "{name}"' if " " in name else f"--why {name}"
    parts = [*([f"First: whatcarries ask {source}"] if asked else []), f"One piece: {why}", "All: --all"]
    together = "   ".join(parts)
    return [together, ""] if len(together) <= width else [*parts, ""]
