"""An answer that is tried on the part of a house that decides about a piece gives what the whole house gives.

Every trial job and worked example stands twice in one job, the second time under other names on the same walls and of
the same wood. Each piece is then worked out as it stands, and with the best plausible answer to its questions: alone
with its part, by a memory that knows nothing, and with all of the house.
"""

from __future__ import annotations

import copy
import re
import tomllib
from collections.abc import Iterator
from contextlib import suppress
from pathlib import Path
from typing import Any

import pytest

from beamcheck.checks.core.result import PieceResult
from beamcheck.checks.core.watched import LookedBeyond
from beamcheck.checks.core.wood.govern import figures_only
from beamcheck.checks.job import fitting, named
from beamcheck.checks.pieces import Memory
from beamcheck.checks.questions.best_answers import best
from beamcheck.checks.questions.reach import KINDS, Reach
from beamcheck.errors import BeamcheckError, JobError
from beamcheck.model.job import Job
from beamcheck.model.job_paths import with_values
from beamcheck.model.reading.reader import job_from_data

from ...trials.figures import jobs

WHOLE = frozenset[str]()
ANSWERS = 1  # of one piece that are tried


def twice(path: Path) -> Job:
    """The job with each of its pieces once more, under another name."""
    data = tomllib.loads(path.read_text(encoding="utf-8"))
    names = {one.get("name") for kind in KINDS for one in data.get(kind, ())}

    def renamed(thing: Any) -> Any:
        if isinstance(thing, str):
            first, colon, rest = thing.partition(":")
            if thing in names:
                return _other(thing)
            return f"{_other(first)}{colon}{rest}" if colon and first in names else thing
        if isinstance(thing, dict):
            return {key: value if key in ("stock", "what") else renamed(value) for key, value in thing.items()}
        return [renamed(value) for value in thing] if isinstance(thing, list) else thing

    for kind in KINDS:
        if kind in data:
            data[kind] = [*data[kind], *renamed(copy.deepcopy(data[kind]))]
    for one in data.get("existing", ()):
        if "takes" in one:  # what all pieces on it bring together would join them
            one["takes_for"] = "each seat"
    return job_from_data(data)


def _other(name: str) -> str:
    """A name of which no word is one of the first."""
    return re.sub(r"\w+", r"\g<0>x", name)


def changed(job: Job, piece: PieceResult) -> Iterator[Job]:
    """The job as it stands, and with the best plausible answers to what is asked of a piece."""
    yield job
    for question in [one for one in piece.questions if best(one)][:ANSWERS]:
        with suppress(BeamcheckError):
            yield with_values(job, best(question))


@pytest.mark.parametrize("subject", sorted(jobs()))
def test_a_piece_with_its_part_is_as_in_the_whole_house(subject: str) -> None:
    looked_at, open_ = 0, False  # a subject may have no piece that does not pass
    for path in jobs()[subject]:
        try:
            job = twice(path)
        except BeamcheckError:  # refused as it stands, or one timber that was surveyed would be two sticks
            continue
        memory, reach = Memory(), Reach(job)
        with figures_only():
            found = fitting(job, WHOLE, memory).results
            twins = {_other(piece.name) for piece in found}
            for piece in found:
                if piece.name in twins or piece.verdict == "passes":
                    continue
                for other in changed(job, piece):
                    if (part := reach.part(other, piece.name)) is None:
                        continue
                    try:
                        alone = named(fitting(*part, Memory()).results, piece.name)
                    except (LookedBeyond, JobError):
                        continue  # the whole has its say
                    assert alone == named(fitting(other, WHOLE, memory).results, piece.name), (path.stem, piece.name)
                    looked_at += 1
    assert looked_at > 0 or not open_
