"""An answer or a ruling written into the text of a job: the value where it belongs, and how it is known."""

from __future__ import annotations

import tomllib
from collections.abc import Mapping
from datetime import date
from typing import Any

from ..checks.core.asking.question import RULING, PlausibleAnswer, Question, written
from ..checks.questions.rulings import entry_of, piece_mark
from ..errors import JobError, Problem
from ..model.job import Job
from ..model.reading.reader import read_job_text
from .edit import touched, with_fields
from .layout import with_entry, without_entry

# how an answer is known where nobody says more, by who answers
USUAL_HOW: Mapping[str, str] = {
    "tape": "tape", "meter": "meter", "camera": "camera", "you": "camera", "supplier": "report",
    "grader": "certificate", "engineer": "letter", "department": "letter",
}  # fmt: skip


def answer_of(question: Question, said: str) -> PlausibleAnswer:
    """What somebody says to a question: one of its plausible answers, or that text for its field."""
    wanted = " ".join(said.split()).casefold()
    for one in question.answers:
        if wanted == one.says.casefold():
            return one
    return PlausibleAnswer(said.strip(), ((question.field, written(said.strip())),))


def with_answer(
    text: str, question: Question, answer: PlausibleAnswer, *, by: str, how: str = "", on: str = "", evidence: str = "",
    source: str = "job file",
) -> str:  # fmt: skip
    """The text of a job with an answer in its field, and an [[answer]] for each single value that it writes.

    `text`: a job file that can be read. `question`, `answer`: as `check_job` asks it, and one of its answers or that of
    `answer_of`. `by`: who found it out: a name or a role. `how`: tape, meter, camera, stamp, certificate, report or
    letter. '': what is usual for who answers. `on`: the day, year-month-day. '': today. `evidence`: photo or paper.
    Raises JobError if the value cannot be read in its field or does not go with the rest; or the question wants a
    ruling.
    """
    if question.field == RULING or not answer.sets:
        raise JobError(source, [Problem(question.id, "this is for an engineer or a building department to rule on")])
    made = with_fields(text, answer.sets, source)
    for to, value in touched(answer.sets):
        if ".meant." in to or to.endswith(".assumed"):
            continue  # a reason speaks for itself
        entry: dict[str, Any] = {
            "to": to, "value": value, "by": by, "how": how or USUAL_HOW[question.who], "date": on or _today(),
        }  # fmt: skip
        made = _with_record(made, "answer", {"to": to}, {**entry, **({"evidence": evidence} if evidence else {})})
    read_job_text(made, source)
    return made


def with_ruling(
    text: str, question: Question, *, says: str, by: str, document: str, up_to: Mapping[str, str] | None = None,
    on: str = "", source: str = "job file",
) -> str:  # fmt: skip
    """The text of a job with what an engineer or a building department ruled in writing.

    `up_to` are the forces that it covers, by part, such as `{"press": "450 lb"}`.

    Raises JobError if it is no ruling: nobody, no document, or a force that cannot be read.
    """
    job = read_job_text(text, source)
    piece, short = _ruled_on(job, question.id)
    entry: dict[str, Any] = {"on": piece, "question": short, "says": says, "by": by, "date": on or _today()}
    if up_to:
        entry["up_to"] = dict(up_to)
    entry["document"] = document
    ruled_on = entry_of(job, piece)
    if ruled_on is not None:
        entry["piece"] = piece_mark(ruled_on)
    made = _with_record(text, "ruling", {"on": piece, "question": short}, entry)
    read_job_text(made, source)
    return made


def _ruled_on(job: Job, name: str) -> tuple[str, str]:
    """Piece and short name of a question; both may hold a stroke."""
    parts = name.split("/")
    for count in range(len(parts) - 1, 0, -1):
        if entry_of(job, "/".join(parts[:count])) is not None:
            return "/".join(parts[:count]), "/".join(parts[count:])
    return parts[0], "/".join(parts[1:])


def _today() -> str:
    return date.today().isoformat()


def _with_record(text: str, kind: str, same: Mapping[str, str], entry: Mapping[str, Any]) -> str:
    """The text with an entry; an earlier one on the same thing is taken out: it was answered anew."""
    records = tomllib.loads(text.removeprefix("\ufeff")).get(kind, [])
    for index in reversed(range(len(records))):
        if all(records[index].get(key) == value for key, value in same.items()):
            text = without_entry(text, kind, index)
    return with_entry(text, kind, entry)
