"""A job by a newer print refers, says what is known of it, and the answer that the older one is accepted closes it."""

from __future__ import annotations

import copy

import pytest

from beamcheck import check_job, job_from_data
from beamcheck.values.editions import differences, run_as

from .test_site import joists


@pytest.mark.parametrize(
    ("field", "newer", "older"), [("standard", "NDS 2024", "NDS 2018"), ("loads", "ASCE 7-22", "ASCE 7-16")]
)
def test_a_newer_print_refers_until_the_older_is_accepted(field: str, newer: str, older: str) -> None:
    data = joists()
    data["job"][field] = newer
    result = check_job(job_from_data(copy.deepcopy(data)))
    check = next(one for one in result.checks if one.id == "loads.edition")
    assert result.verdict == "refer" and all(one.subject in " ".join(check.notes) for one in differences(newer))
    ((path, value),) = check.questions[0].answers[0].sets
    assert (path, value) == (f"job.{field}", older)
    data["job"][field] = value
    assert check_job(job_from_data(copy.deepcopy(data))).verdict == "passes"


def test_every_difference_says_how_it_is_known() -> None:
    """0.7 S of 7-22 and the clauses of the 2024 print are second-hand; what was not seen says so."""
    every = [*differences("NDS 2024"), *differences("ASCE 7-22")]
    assert {one.state for one in every} == {"same", "differs", "not known"}
    assert all(one.source.how for one in every)
    assert run_as("NDS 2024") == "NDS 2018" and run_as("NDS 2018") == "NDS 2018"
