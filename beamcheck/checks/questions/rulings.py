"""Rulings and answers held against the job as it is now.

A ruling closes its question and no other, as long as the forces are within what it covers and the piece is the one
that was ruled on; it never turns `fails`. An answer whose field was changed later opens its question again.
"""

from __future__ import annotations

import hashlib
import math
from collections.abc import Sequence
from typing import TYPE_CHECKING

from ...model.classes import HEADS
from ...model.fields.base import Piece
from ...model.frames.names import piece_name
from ...model.job import Job
from ...model.job_paths import get_field, same_value
from ...units import show
from ..core.asking.question import Question, ask
from ..core.result import Check, PieceResult

if TYPE_CHECKING:
    from ...model.answers import GivenAnswer, Ruling

CHANGED = "answer.changed"


def piece_mark(piece: Piece) -> str:
    """A short mark of an entry as it stands, by which a ruling knows whether it was changed since."""
    return hashlib.sha256(piece.model_dump_json().encode()).hexdigest()[:12]


def ruled(job: Job, pieces: Sequence[PieceResult]) -> tuple[tuple[PieceResult, ...], tuple[str, ...]]:
    """The results with the rulings of the job, and the ids of questions that are open again in spite of one."""
    by_question = {ruling.answers: ruling for ruling in job.ruling}
    reopened: list[str] = []
    found = []
    for piece in pieces:
        checks = tuple(_ruled(job, check, by_question, reopened) for check in piece.checks)
        found.append(piece if checks == piece.checks else piece.with_checks(checks))
    return tuple(found), tuple(dict.fromkeys(reopened))


def _ruled(job: Job, check: Check, rulings: dict[str, Ruling], reopened: list[str]) -> Check:
    if check.verdict != "refer" or not any(one.id in rulings for one in check.questions):
        return check
    words, notes, still_open = [], [], []
    for question in check.questions:
        ruling = rulings.get(question.id)
        why = "not ruled on" if ruling is None else _why_open(job, ruling, question)
        if ruling is not None and not why:
            words.append(ruling.words)
            continue
        still_open.append(question)
        if ruling is not None:
            reopened.append(question.id)
            notes.append(f"the ruling {ruling.words} does not hold: {why}")
    return check.with_rulings(tuple(words), tuple(still_open), tuple(notes))


def _why_open(job: Job, ruling: Ruling, question: Question) -> str:
    """Why a ruling does not close its question any more; '' where it does."""
    for part, force in question.forces.items():
        covered = ruling.up_to.get(part)
        if math.isnan(force):
            return f"{part} could not be worked out"
        if covered is None:
            return f"it does not say up to which {part} it holds; {show(abs(force), 'force')} come"
        if abs(force) > covered:
            return f"{part} is {show(abs(force), 'force')}, it covers {show(covered, 'force')}"
    if ruling.piece:
        entry = entry_of(job, ruling.on)
        if entry is None or piece_mark(entry) != ruling.piece.strip():
            return f"{ruling.on} was changed since"
    return ""


def entry_of(job: Job, name: str) -> Piece | None:
    """The entry of that name; of a member or a point of a frame the frame."""
    every = (
        *job.beam, *job.rafter, *job.tie, *job.post, *job.bracket, *job.trim, *job.anchor, *job.existing, *job.joint,
        *job.frame,
    )  # fmt: skip
    found = next((one for one in every if getattr(one, "name", None) == name), None)
    return found or next((one for one in job.frame if name.startswith(piece_name(one.name, ""))), None)


def changed_answers(job: Job, pieces: Sequence[PieceResult]) -> tuple[PieceResult, ...]:
    """The results, with a question for each answer whose field does not hold what was found."""
    added: dict[str, list[Check]] = {}
    for answer in job.answer:
        if why := _changed(job, answer):
            name = answer.to.partition(".")[2]
            question = ask("answer_changed", name, at=answer.to, answers=[str(answer.value)], value=str(answer.value))
            for piece in _touched(job, answer, pieces):
                check = Check.refers(CHANGED, piece, "an answer that was given", "evidence", why, ask=question)
                added.setdefault(piece, []).append(check)
    return tuple(
        piece.with_checks((*piece.checks, *added[piece.name])) if piece.name in added else piece for piece in pieces
    )


def _changed(job: Job, answer: GivenAnswer) -> str:
    if same_value(job, answer.to, answer.value):
        return ""
    return f"changed since it was found out: {answer.words}; now {get_field(job, answer.to)}"


def _touched(job: Job, answer: GivenAnswer, pieces: Sequence[PieceResult]) -> list[str]:
    """The pieces that an answer is about: what it was said of, and what names that.

    What nobody names, as the site, is about all of them; wood and walls that nothing uses are about none.
    """
    from .reach import KINDS, words_of  # most jobs have no answer that was changed

    kind, _, rest = answer.to.partition(".")
    names = [] if kind in HEADS else [one.name for one in getattr(job, kind)]
    said_of = max((name for name in names if rest == name or rest.startswith(f"{name}.")), key=len, default=None)
    found = {
        called
        for of_kind in KINDS for entry in getattr(job, of_kind) for called, texts, wood in words_of(of_kind, entry)
        if said_of in (wood if kind == "stock" else texts)
    }  # fmt: skip
    about_all = not found and kind not in ("stock", "existing")
    return [piece.name for piece in pieces if about_all or piece.name in found]
