"""Strips that are too narrow, rules of the place that nobody reads, and layers that are lighter than they can be."""

from __future__ import annotations

import copy
from typing import Any

import pytest

from beamcheck import JobError, check_job, job_from_data
from beamcheck.checks.core.result import JobResult

from .test_site import header, joists, porch, rafters, ridge_beam

Data = dict[str, Any]


def run(data: Data) -> JobResult:
    return check_job(job_from_data(copy.deepcopy(data)))


def asked(result: JobResult) -> set[str]:
    return {question.id for question in result.questions}


def with_strip(data: Data, piece: str, **more: Any) -> Data:
    beam = next(one for one in data["beam"] if one["name"] == piece)
    entry = next(one for one in beam["carries"] if "roof" in one or "floor" in one)
    entry.update(more)
    return data


def test_rules_of_the_place_wait_for_somebody_who_answers_for_them() -> None:
    data = rafters()
    data["site"]["local_rules"] = "roof snow 40 psf at least in this county"
    result = run(data)
    assert result.verdict == "refer" and "site/site_local_rules" in asked(result)
    data["site"]["local_rules_by"] = "building department, letter of 3 May 2026"
    assert run(data).verdict == "passes"


@pytest.mark.parametrize(
    ("data", "piece", "width"),
    [
        (joists(), "joists", "8 in"),  # one of a row at 16 in bears 16 in
        (ridge_beam(), "b", "3 ft"),  # half of either slope of 6 ft is 6 ft in all
        (header(), "header", "2 ft"),  # a roof of 11 ft from eave to ridge brings more than 3 ft 3 in
    ],
)  # fmt: skip
def test_a_strip_that_is_too_narrow_is_asked_about(data: Data, piece: str, width: str) -> None:
    narrow = run(with_strip(copy.deepcopy(data), piece, width=width))
    assert narrow.verdict != "passes" and any("/strip_width" in one for one in asked(narrow))
    meant = {"width": "measured: the next beam takes the rest"}
    assert not any(
        "/strip_width" in one for one in asked(run(with_strip(copy.deepcopy(data), piece, width=width, meant=meant)))
    )


@pytest.mark.parametrize(("eave_to_ridge", "asks"), [("5 ft", False), ("3 ft", False), ("1.4 ft", True)])
def test_a_beam_bears_no_more_of_a_roof_than_there_is(eave_to_ridge: str, asks: bool) -> None:
    """6 ft of a ridge: of 5 ft or 3 ft from eave to ridge there are 10 or 6 in all, of 1.4 ft there are 2.8."""
    data = ridge_beam()
    data["roof"][0]["eave_to_ridge"] = eave_to_ridge
    found = [check for one in run(data).pieces for check in one.checks if "which has" in " ".join(check.notes)]
    assert bool(found) is asks
    for answer in found[0].questions[0].answers if found else ():
        ((path, value),) = answer.sets
        answered = copy.deepcopy(data)
        entry = answered["roof"][0] if path.startswith("roof") else answered["beam"][0]["carries"][0]
        entry |= {"meant": {"width": value}} if ".meant." in path else {path.rpartition(".")[2]: value}
        again = [check for one in run(answered).pieces for check in one.checks]
        assert not [check for check in again if "which has" in " ".join(check.notes)]


def test_a_beam_that_may_run_up_the_slope_takes_what_lies_along_the_eave() -> None:
    """A beam of 9 ft under a porch of 10 ft from eave to wall; the next ones stand 12 ft away."""
    data = with_strip(porch(), "porch", width="12 ft")
    assert not [check for one in run(data).pieces for check in one.checks if "which has" in " ".join(check.notes)]
    data["roof"][0]["eave_to_ridge"] = "7 ft"
    found = [check for one in run(data).pieces for check in one.checks if "which has" in " ".join(check.notes)]
    assert [answer.sets[0][0] for answer in found[0].questions[0].answers][-1] == "beam.porch.carries.1.meant.width"


def test_an_eave_header_is_no_ridge_beam() -> None:
    """Astride means half of either slope: 7 ft of a roof of 11 ft is the strip of an eave."""
    result = run(with_strip(header(), "header", astride=True))
    assert result.verdict == "refer" and any("/strip_width" in one for one in asked(result))


@pytest.mark.parametrize(
    "layer", ["asphalt shingels, one layer: 0.5 psf", "asphalt shingle: 0.5 psf", "shingles, asphalt: 0.5 psf"]
)
def test_a_layer_by_another_name_is_no_lighter(layer: str) -> None:
    data = rafters()
    data["roof"][0]["layers"] = [layer, "felt", "1x boards"]
    with pytest.raises(JobError, match="at least by the tables"):
        job_from_data(copy.deepcopy(data))
    data["roof"][0]["meant"] = {"layers": "weighed on the spot, engineer, letter of 3 May 2026"}
    job_from_data(copy.deepcopy(data))
