"""Papers of a surveyed timber: for this one, with a number; sections in each third of its length."""

from __future__ import annotations

import tomllib
from pathlib import Path
from typing import Any

import pytest

from beamcheck import JobError, check_job, job_from_data

OLD = Path(__file__).parents[3] / "worked_examples" / "old_timbers.toml"
PAPER = "grading certificate no. 31 of 10 October 2026, A. Example, grader (invented)"


def timber() -> dict[str, Any]:
    data = tomllib.loads(OLD.read_text(encoding="utf-8"))
    data["stock"] = [one for one in data["stock"] if one["name"] == "timber 2"]
    data["beam"] = [one for one in data["beam"] if one["name"] == "B2"]
    return data


@pytest.mark.parametrize(
    ("paper", "verdict"),
    [
        (PAPER, "passes"),
        (f"{PAPER}, for timber 2", "passes"),
        (f"{PAPER}, for timber 2 and timber 7", "passes"),
        (f"{PAPER}, for timber 7", "refer"),
        ("grading certificate of 10 October 2026, A. Example, grader", "refer"),
        ("grading certificate of May 10, 2026, A. Example, grader", "refer"),
        ("grading certificate no. 31 of 10 October 2026, the grading agency", "refer"),
        ("grading certificate no. 31 of 10 October 2026, West Hill Lumber Inspection Bureau", "refer"),
        ("grading certificate no. 31 of 10 October 2026, mill 12", "refer"),
        ("grading certificate no. 31 of 10 October 2026, grader Ann Example", "passes"),
        ("grading certificate no. 31 of 10 October 2026, Ann Example, certified lumber grader", "passes"),
        ("by: Ann Example, grader; date: 10 October 2026; document: certificate no. 31", "passes"),
        ("by: the grader; date: 10 October 2026; document: certificate no. 31", "refer"),
        ("grading certificate no. 31 of 10 October 2025, A. Example, grader", "refer"),
    ],
)
def test_the_paper_is_numbered_and_for_this_timber(paper: str, verdict: str) -> None:
    data = timber()
    data["stock"][0]["evidence"] = paper
    assert check_job(job_from_data(data)).verdict == verdict


def test_sections_are_measured_in_each_third() -> None:
    data = timber()
    data["stock"][0]["survey"]["stations"] = [{"at": "1 ft", "breadth": "7 1/2 in", "depth": "9 1/2 in"}] * 3
    with pytest.raises(JobError, match="near one place"):
        job_from_data(data)


def test_checks_that_meet_are_a_split() -> None:
    data = timber()
    data["stock"][0]["survey"]["openings"] = [
        {"kind": "check", "start": "5 ft", "end": "9 ft", "depth": "3 3/4 in", "other_side": "3 3/4 in"}
    ]
    checks = check_job(job_from_data(data)).pieces[0].checks
    assert any(one.verdict == "refer" and "split away from the ends" in one.what for one in checks)


def test_a_paper_older_than_the_survey_says_nothing_of_what_was_found() -> None:
    data = timber()
    data["stock"][0]["survey"]["by"] = "carpenter, 12 November 2026"
    (found,) = [one for one in check_job(job_from_data(data)).pieces[0].checks if one.id == "wood.written"]
    assert found.verdict == "refer" and "12 November 2026: it is older than the survey" in " ".join(found.notes)
    data["stock"][0]["survey"]["by"] = "carpenter"
    piece = check_job(job_from_data(data)).pieces[0]
    assert any("on which day it was looked at" in " ".join(one.notes) for one in piece.checks)
