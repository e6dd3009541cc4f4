"""A fact that is taken out of a job that passes costs a question, never `fails`; and the fact as its answer closes it.

The jobs are those of index.csv that a careful engineer passes, each with its reason and clause there.
"""

from __future__ import annotations

import copy
import tomllib
from pathlib import Path
from typing import Any

import pytest

from beamcheck import JobError, check_job, job_from_data
from beamcheck.checks.core.asking.question import RULING, Question
from beamcheck.checks.pieces import Memory
from beamcheck.checks.questions.best_answers import best
from beamcheck.model.job import Job
from beamcheck.model.job_paths import with_values

from .test_trials import INDEX

HERE = Path(__file__).parent
FACTS = (
    "F_c_perp", "accidental", "applied", "arm", "bearing", "confirmed_by", "conditions_met", "dead", "evidence",
    "knots", "live", "material", "measured_moisture", "restrained", "seasoned", "split",
)  # fmt: skip
WORDS = "engineer's sheet S-9 of 2026-01-02"  # invented: whoever is asked for words in writing gives these
ROUNDS = 4  # an answer may bring the next question
PASSING = sorted(row["file"] for row in INDEX if row["expect"] == "passes")
MEMORIES = {file: Memory() for file in PASSING}  # with a fact as it stood a job is the one that was checked before


def without(table: Any, fact: str) -> Any:
    """The job in which no table has that field."""
    if isinstance(table, dict):
        return {key: without(value, fact) for key, value in table.items() if key != fact}
    return [without(each, fact) for each in table] if isinstance(table, list) else table


def stood(data: dict[str, Any], path: str) -> Any:
    """What stood at the path of a question in the whole job; None where nothing did."""
    kind, _, rest = path.partition(".")
    thing: Any = data["job"] if kind == "job" else None
    for entry in data.get(kind, []) if kind != "job" else []:
        if rest.startswith(f"{entry['name']}."):
            thing, rest = entry, rest[len(entry["name"]) + 1 :]
            break
    for key in rest.split("."):
        if isinstance(thing, list):
            thing = thing[int(key) - 1] if int(key) <= len(thing) else None
        else:
            thing = thing.get(key) if isinstance(thing, dict) else None
    return thing


def answered(job: Job, question: Question, whole: dict[str, Any]) -> Job:
    """The job with the fact as it stood, or where that was not said either, with the best plausible answer."""
    fact = stood(whole, question.field)
    if fact is not None:
        return with_values(job, [(question.field, fact)])
    if best(question):
        return with_values(job, best(question))
    return with_values(job, [(question.field, WORDS)]) if question.kind == "text" and question.field != RULING else job


@pytest.mark.parametrize("fact", FACTS)
def test_without_it_a_question_and_with_it_as_before(fact: str) -> None:
    tried = 0
    for file in PASSING:
        whole = tomllib.loads((HERE / file).read_text(encoding="utf-8"))
        less = without(copy.deepcopy(whole), fact)
        if less == whole:
            continue
        try:
            job = job_from_data(less)
        except JobError:
            continue  # a field without which there is no job is asked for when the job is read
        tried += 1
        result = check_job(job, memory=MEMORIES[file])
        assert result.verdict != "fails", f"{file} without {fact}"
        for _ in range(ROUNDS):
            for question in result.questions:
                job = answered(job, question.question, whole)
            if result.verdict != "passes":
                result = check_job(job, memory=MEMORIES[file])
        assert result.verdict == "passes", f"{file} without {fact}: {result.reasons}"
    assert tried, f"no job has {fact}"
