"""The invented job about old timbers: one is screened with the fact that settles it, one is certified, one rejected."""

from __future__ import annotations

from pathlib import Path

import pytest

from beamcheck.checks.core.result import JobResult
from beamcheck.checks.job import check_job
from beamcheck.model.reading.reader import read_job_text
from beamcheck.sheet.terminal.one_piece import why_text
from beamcheck.sheet.terminal.short import short_text

JOB = Path(__file__).parents[2] / "worked_examples" / "old_timbers.toml"


@pytest.fixture(scope="module")
def job() -> JobResult:
    text = JOB.read_text(encoding="utf-8")
    return check_job(read_job_text(text, JOB.name), text=text, name=JOB.name)


def test_the_verdicts(job: JobResult) -> None:
    verdicts = {piece.name: piece.verdict for piece in job.pieces}
    assert (verdicts["B1"], verdicts["B2"], verdicts["B3"]) == ("refer", "passes", "fails")


def test_the_screened_one_ends_with_a_useful_fact_and_its_test_rules_out_half(job: JobResult) -> None:
    first = job.pieces[0]
    (asked,) = (one for one in first.questions if one.id.endswith("surveyed_grade"))
    assert asked.who == "grader" and asked.why.startswith("The species settles it: Eastern Hemlock would hold")
    (table,) = (one for one in first.tables if one.title.startswith("Screening"))
    assert sum("by its sag" in row[-1] for row in table.rows) >= len(table.rows) / 2
    assert "never strength" in table.note


def test_the_fact_that_settles_it_stands_in_the_short_answer_and_beside_its_piece(job: JobResult) -> None:
    short = " ".join(short_text(job).split())
    assert (
        "The species settles it: Eastern Hemlock would hold in every grade here, Eastern White Pine in none." in short
    )
    assert len(short_text(job).splitlines()) <= 25
    assert "The species settles it:" in " ".join(why_text(job, "B1").split())


def test_the_rejected_one_says_by_whom(job: JobResult) -> None:
    assert any("letter no. 32" in reason for reason in job.reasons)


def test_the_beam_and_post_stand_an_hour_of_fire_and_say_who_decides() -> None:
    text = (JOB.parent / "beam_in_a_fire.toml").read_text(encoding="utf-8")
    result = check_job(read_job_text(text, "fire"), text=text, name="fire")
    assert result.verdict == "passes" and all(any("fire." in check.id for check in one.checks) for one in result.pieces)
    assert all(any("code official" in words for words in piece.assumptions) for piece in result.pieces)
