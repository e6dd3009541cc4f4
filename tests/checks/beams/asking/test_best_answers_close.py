"""The best answer of a question closes it: seats on narrow girders, wind given on a strip of the roof."""

from __future__ import annotations

import tomllib
from pathlib import Path
from typing import Any

import pytest

from beamcheck.checks.job import check_job
from beamcheck.checks.questions.best_answers import best
from beamcheck.model.job import Job
from beamcheck.model.job_paths import with_values
from beamcheck.model.reading.reader import job_from_data

TRIALS = Path(__file__).parents[3] / "trials"


def trial(name: str) -> dict[str, Any]:
    return tomllib.loads((TRIALS / name).read_text())


def answered(job: Job, begins: str) -> str:
    """The verdict with the best answer to the one question whose id begins so."""
    (asked,) = (one.question for one in check_job(job).questions if one.question.id.startswith(begins))
    return check_job(with_values(job, best(asked))).verdict


@pytest.mark.parametrize("said", [None, "7 in", "4 in"])
def test_no_seat_is_longer_than_what_is_there(said: str | None) -> None:
    """A joist on a girder 3 1/2 in broad cannot have the usual seat of 5 1/2 in."""
    data = trial("rated_hardware/flush_girder_with_rated_hangers.toml")
    seat = data["beam"][0]["supports"][0]
    del seat["holds"]
    seat |= {"bearing": said} if said else {}
    job = job_from_data(data)
    assert (check_job(job).verdict, answered(job, "joists/seat_length")) == ("refer", "passes")


def test_the_least_wind_is_that_of_the_whole_roof() -> None:
    """30 psf on 5 in of a roof 60 in wide are 2.5 psf on all of it; the least lies on all of it, too."""
    data = trial("uplift/porch_beam_with_rated_straps.toml")
    data["beam"][0]["carries"][1]["width"] = "5 in"
    job = job_from_data(data)
    assert (check_job(job).verdict, answered(job, "porch/little_wind")) == ("refer", "passes")
