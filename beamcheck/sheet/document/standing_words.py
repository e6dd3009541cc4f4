"""What shop sheets and templates say in large letters: does it carry, and may it be built from this paper."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from ...checks.core.result import JobResult, PieceResult, Verdict
from ...checks.core.summary import by_gravity, governing_phrase
from ...model.job import Job
from ...records import dataclass
from .prose import sentence

STOP = "DO NOT BUILD FROM THIS"
UNSIGNED = "Not before the engineer has signed."  # in the letters of the verdict
SIGN = "Not to be relied on, and not to be covered, before a licensed engineer has signed."
_WHY: dict[Verdict, str] = {
    "passes": "",
    "fails": "it fails",
    "refer": "an engineer or a grader has to decide",
}
_REASONS = 3
_NAMES = 8


def held_up_by(job: Job, name: str) -> tuple[str, ...]:
    """The pieces that bear a piece or hold its ends, and those below them, down to the ground."""
    below: dict[str, set[str]] = {}
    sticks: tuple[Any, ...] = (*job.beam, *job.rafter, *job.tie, *job.post, *job.bracket, *job.trim, *job.anchor)
    for one in sticks:
        found = below.setdefault(one.name, set())
        for support in (*getattr(one, "supports", ()), *filter(None, (getattr(one, "wall", None),))):
            found |= {support.on, support.held_by or ""}
        found |= {str(getattr(one, label, None) or "") for label in ("on", "into", "ends_held_by", "ridge_on", "tie")}
    known, open_ = {name}, [name]
    while open_:
        for other in sorted(below.get(open_.pop(), set()) - known):
            known.add(other)
            if other in below:
                open_.append(other)
    return tuple(one.name for one in sticks if one.name in known and one.name != name)


@dataclass(frozen=True)
class Standing:
    """What the paper of a piece says in large letters, may it be built from, and why not."""

    banner: str
    stop: bool
    reasons: tuple[str, ...]


def standing_of(result: JobResult, job: Job, piece: PieceResult) -> Standing:
    """The verdict of a piece for the shop: it says stop as well where what bears or holds the piece does not pass."""
    if piece.verdict != "passes":
        return Standing(f"{STOP}: {_WHY[piece.verdict]}", True, why(piece))
    bearers = frozenset(held_up_by(job, piece.name))
    named = [f"{one.name} ({one.verdict})" for one in result.pieces if one.name in bearers and one.verdict != "passes"]
    if named:
        text = "what bears or holds it does not pass"
        return Standing(f"{STOP}: {text}", True, (f"The piece itself passes; {text}: {listed(named)}.",))
    reasons = tuple(filter(None, (neighbors(result, piece),)))
    return Standing(_passes(piece), False, reasons)


def _passes(piece: PieceResult) -> str:
    if piece.kind in ("anchor", "joint"):
        return f"HOLDS: every check of this {piece.kind} is met"
    if piece.kind == "trim" or piece.finding == "decoration only":
        return "CARRIES NOTHING BUT ITSELF: decoration only"
    return "CARRIES what the job lists: every check of this piece is met"


def why(piece: PieceResult) -> tuple[str, ...]:
    """The reasons behind a banner that says stop, the worst first."""
    found = [sentence(piece.reason)] if piece.reason else []
    if piece.deciding_group is not None:
        found.append(sentence(governing_phrase(piece)))
    for check in by_gravity(piece.checks):
        if check.verdict == "passes" or len(found) >= _REASONS:
            break
        note = f": {check.notes[0]}" if check.notes else ""
        found.append(sentence(f"{check.verdict}: {check.what}{note}"))
    left = sum(check.verdict != "passes" for check in piece.checks) - _REASONS
    if left > 0:
        found.append(f"{left} more: see the calc sheet.")
    return tuple(found) or (sentence(governing_phrase(piece)),)


def neighbors(result: JobResult, piece: PieceResult) -> str:
    """A warning where this piece passes but others of the job do not; '' where all pass."""
    if result.verdict == "passes" or piece.verdict != "passes":
        return ""
    named = [f"{one.name} ({one.verdict})" for one in result.pieces if one.verdict != "passes"]
    return f"The job as a whole does not pass: {listed(named)}. Ask before you start on this piece."


def listed(names: Sequence[str]) -> str:
    """Names in a row, at most a handful."""
    if not names:
        return "see the calc sheet"
    more = f" and {len(names) - _NAMES} more" if len(names) > _NAMES else ""
    return ", ".join(names[:_NAMES]) + more
