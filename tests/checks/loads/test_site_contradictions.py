"""What is said of the place, of what stands beside a roof and of its wind against each other; guards of the reference.

Rows of tests/published/site_loads.csv whose answer is a question are named by their id (guards.md, derived).
"""

from __future__ import annotations

from typing import Any

import pytest

from beamcheck import JobError, job_from_data

from .test_roof_fits import answered, open_checks
from .test_site import (
    BY,
    HIGHER,
    ROOF,
    ceiling,
    changed,
    floor_set,
    header,
    joists,
    porch,
    rafters,
    ridge_beam,
    roof_set,
    site_set,
    typed,
)


def both(*changes: Any) -> Any:
    def change(data: Any) -> None:
        for one in changes:
            one(data)

    return change


@pytest.mark.parametrize(
    ("made", "change", "key"),
    [
        (porch, site_set(wind_speed="85 mph"), "site_wind_slow"),  # LD473
        (rafters, site_set(ground_snow_from=f"{BY}, case study area"), "site_case_study"),  # LD476
        (rafters, site_set(snow_edition="remove"), "site_snow_edition"),  # LD475
        (rafters, site_set(risk_category="I"), "site_risk"),
        (rafters, site_set(ground_snow="1.5 psf"), "site_little_snow"),
        (rafters, roof_set(exposed="fully exposed", higher=HIGHER), "roof_exposed"),
        (header, both(roof_set(higher=HIGHER), typed("header", off_wall="30 ft")), "off_wall"),
        (header, both(roof_set(ridge="ties or trusses"), typed("header", astride=True, width="11 ft")), "astride"),
        (ceiling, lambda data: data["floor"].append({**data["floor"][0], "name": "another"}), "area_unused"),
    ],
)
def test_it_is_asked_and_the_best_answer_closes(made: Any, change: Any, key: str) -> None:
    data = changed(made(), change)
    found = [question for check in open_checks(data) for question in check.questions]
    (question,) = {one.id: one for one in found if one.id.endswith(f"/{key}")}.values()
    path, value = question.answers[0].sets[0]
    if path.startswith("site."):
        data["site"][path.removeprefix("site.")] = value
    elif ".carries." in path:
        data["beam"][0]["carries"][0][path.rsplit(".", 1)[1]] = value
    else:
        data = answered(data, path, value)
    assert not [q.id for check in open_checks(data) for q in check.questions if q.id == question.id]


def test_a_level_roof_stays_level_whatever_the_beam_says() -> None:
    """The slope of the roof area outweighs a steeper one of the beam: water can stand (ASCE 7-16 8.4)."""
    flat = changed(ridge_beam(), roof_set(shape="monoslope", slope="1/8:12", ridge="remove"))
    flat["beam"][0]["carries"][0].pop("astride")
    flat["beam"][0]["roof_slope"] = "6:12"
    assert "loads.ponding" in {check.id for check in open_checks(flat)}


def test_a_heavy_layer_with_a_name_of_its_own() -> None:
    with pytest.raises(JobError, match="concrete topping"):
        job_from_data(changed(joists(), floor_set(layers=["3/4 in panel", "concrete topping: 2 psf"])))
    meant = {"layers": "foamed, weighed on site"}
    job_from_data(changed(joists(), floor_set(layers=["3/4 in panel", "concrete topping: 2 psf"], meant=meant)))


def test_nothing_of_it_is_asked_of_an_ordinary_roof() -> None:
    assert ROOF["exposed"] == "partially exposed" and not open_checks(rafters())
