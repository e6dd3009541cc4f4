"""A rafter and the roof on it describe one roof; each contradiction is asked about, and its best answer closes it."""

from __future__ import annotations

import copy
from typing import Any

import pytest

from beamcheck import check_job, job_from_data
from beamcheck.analysis.site.pieces import areas_of
from beamcheck.checks.core.result import Check

from .test_site import ROOF, Data, changed, porch, rafters, roof_set, shed_roof, site_set


def rafter_set(**values: Any) -> Any:
    return lambda data: data["rafter"][0].update(values)


def open_checks(data: Data) -> list[Check]:
    result = check_job(job_from_data(copy.deepcopy(data)))
    every = [*result.checks, *(check for piece in result.pieces for check in piece.checks)]
    return [check for check in every if check.verdict != "passes"]


def answered(data: Data, path: str, value: Any) -> Data:
    """The job with one field set, names as they are."""
    data = copy.deepcopy(data)
    kind, _, rest = path.partition(".")
    entry = next(one for one in data[kind] if rest.startswith(f"{one['name']}."))
    *inner, last = rest.removeprefix(f"{entry['name']}.").split(".")
    for key in inner:
        entry = entry.setdefault(key, {})
    entry[last] = value
    return data


@pytest.mark.parametrize(
    ("made", "change", "key"),
    [
        (rafters, roof_set(eave_to_ridge="20 ft"), "rafter_short"), (rafters, rafter_set(run="5 ft"), "rafter_short"),
        (rafters, rafter_set(slope="3:12"), "rafter_of_roof"),
        (rafters, roof_set(shape="monoslope", ridge="remove"), "roof_slopes"),
        (rafters, roof_set(ridge="board"), "roof_ridge"), (rafters, rafter_set(pair=False), "other_slope"),
        (shed_roof, roof_set(shape="gable", ridge="beam"), "other_slope"),
        (rafters, roof_set(layers=["5/8 in panel"]), "roof_covering"),
        (rafters, roof_set(surface="metal", snow_slides_off=True), "roof_surface"),
        (porch, roof_set(layers=["1x boards"]), "roof_covering"),
    ],
)  # fmt: skip
def test_what_does_not_belong_together_is_asked(made: Any, change: Any, key: str) -> None:
    data = changed(made(), change)
    found = [question for check in open_checks(data) for question in check.questions]
    (question,) = {one.id: one for one in found if one.id.endswith(f"/{key}")}.values()
    data = answered(data, *question.answers[0].sets[0])
    assert not [q.id for check in open_checks(data) for q in check.questions if q.id == question.id]


@pytest.mark.parametrize(
    ("said", "C_t"),
    [({}, 1.1), ({"insulation": 38}, 1.1), ({"insulation": 38, "vented": True}, 1.1), ({"insulation": 19}, 1.0),
     ({"vented": False}, 1.0), ({"insulation": 25, "vented": True}, 1.0)],
)  # fmt: skip
def test_a_heated_roof_may_be_a_cold_one(said: Data, C_t: float) -> None:
    """ASCE 7-16 Table 7.3-2 (memory): 1.1 over a ceiling of more than R-25 under a vented space; unsaid is the more."""
    job = job_from_data(changed(rafters(), roof_set(below="heated", **said)))
    formed = areas_of(job.site, job.roof, job.floor).roofs[ROOF["name"]][1]
    assert [step.value for step in formed.steps if step.symbol == "C_t"] == [C_t]


def test_a_roof_that_fits_asks_nothing() -> None:
    assert not open_checks(changed(rafters(), site_set(ground_snow="30 psf")))
