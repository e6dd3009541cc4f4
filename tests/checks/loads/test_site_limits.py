"""What is asked about a site and its roofs and floors: each guard at its limit and just beside it.

Limits: ASCE 7-16 7.3, 7.4.5, 7.7 to 7.9, 26.5, Table 1.5-1, 4.3 and Table 4.3-1 (memory); the rest is common practice.
"""

from __future__ import annotations

from typing import Any

import pytest

from beamcheck import job_from_data
from beamcheck.analysis.site.pieces import areas_of, with_formed_loads
from beamcheck.checks.loads.site import site_checks

from . import test_site as of_the_site
from .test_site import BY, HIGHER, SHEET, Data, changed, floor_set, roof_set, site_set, typed


def asked(data: Data, change: Any) -> set[str]:
    """Keys of what is asked of the loads that the first piece with some from the site carries."""
    job = job_from_data(changed(data, change))
    areas = areas_of(job.site, job.roof, job.floor)
    first = next(one for one in (*job.beam, *job.rafter) if any(load.roof or load.floor for load in one.carries))
    return {question.id.split("/")[1] for check in site_checks(with_formed_loads(first, areas), areas)
            for question in check.questions}  # fmt: skip


RAFTERS, PORCH, DECK, JOISTS = of_the_site.rafters(), of_the_site.porch(), of_the_site.deck(), of_the_site.joists()
WARM = {"below": "heated"}
NO_SNOW = {"ground_snow": "0 psf"}


@pytest.mark.parametrize(("data", "change", "keys"), [
    (RAFTERS, {}, ""), (PORCH, {}, ""), (DECK, {}, ""), (JOISTS, {}, ""),
    (RAFTERS, {"ground_snow_from": "remove"}, "site_snow_from"),
    (RAFTERS, {"ground_snow_from": f"{BY}: 30.29 psf"}, ""),
    (RAFTERS, {"ground_snow_from": f"{BY}: 30.31 psf"}, "site_snow_from"),
    (RAFTERS, {"ground_snow_from": f"{BY}: 29.71 psf in town, 60 psf on the pass"}, ""),
    (RAFTERS, {"ground_snow_from": f"{BY}: 29.69 psf"}, "site_snow_from"),
    (RAFTERS, {"snow_edition": "remove"}, "site_snow_edition"),
    (RAFTERS, {"snow_edition": "remove", **NO_SNOW}, ""),
    (RAFTERS, {"risk_category": "I"}, "site_risk"), (RAFTERS, {"risk_category": "I", "risk_by": BY}, ""),
    (RAFTERS, {"risk_category": "I", **NO_SNOW}, ""), (RAFTERS, {"risk_category": "III"}, ""),
    (RAFTERS, {"ground_snow": "5 psf"}, ""), (RAFTERS, {"ground_snow": "4.99 psf"}, "site_little_snow"),
    (RAFTERS, {"ground_snow_from": f"{BY}, case study"}, "site_case_study"),
    (RAFTERS, {"local_rules": "at least 25 psf on every roof"}, "site_local_rules"),
    (RAFTERS, {"local_rules": "at least 25 psf on every roof", "local_rules_by": BY}, ""),
    (JOISTS, {"local_rules": "at least 25 psf on every roof"}, "site_local_rules"),
    (JOISTS, {"ground_snow_from": "remove", "snow_edition": "remove"}, ""),  # indoors no snow lies
    (DECK, {"ground_snow_from": "remove"}, "site_snow_from"),
    (PORCH, {"wind_speed": "90 mph"}, ""), (PORCH, {"wind_speed": "89.9 mph"}, "site_wind_slow"),
    (PORCH, {"wind_speed_from": "remove"}, "site_wind_from"), (RAFTERS, {"wind_speed_from": "remove"}, ""),
    (PORCH, {"wind_speed": "150 mph"}, ""), (PORCH, {"wind_speed": "151 mph"}, "roof_wind"),
    (PORCH, {"flat_ground": "remove"}, "roof_wind"), (RAFTERS, {"flat_ground": "remove"}, ""),
])  # fmt: skip
def test_the_site(data: Data, change: Data, keys: str) -> None:
    assert asked(data, site_set(**change)) == set(keys.split())


@pytest.mark.parametrize(("data", "change", "keys"), [
    (RAFTERS, {"higher": "remove"}, "roof_higher"), (RAFTERS, {"slides_from": "remove"}, "roof_slides"),
    (RAFTERS, {"higher": "remove", "slides_from": "remove"}, "roof_higher roof_slides"),
    (RAFTERS, {"parapet": "2 ft"}, "roof_parapet"), (RAFTERS, WARM, "roof_insulation"),
    (RAFTERS, {**WARM, "insulation": 30}, ""), (RAFTERS, {**WARM, "insulation": 29}, "roof_insulation"),
    (RAFTERS, {**WARM, "insulation": 20, "vented": True}, ""),
    (RAFTERS, {**WARM, "insulation": 19, "vented": True}, "roof_insulation"),
    (PORCH, {"mean_height": "15 ft"}, ""), (PORCH, {"mean_height": "15.1 ft"}, "roof_wind"),
    (PORCH, {"least_width": "30 ft"}, ""), (PORCH, {"least_width": "30.1 ft"}, "roof_wind"),
    (PORCH, {"mean_height": "remove"}, "roof_wind"), (PORCH, {"least_width": "remove"}, "roof_wind"),
    (PORCH, {"attached": "remove"}, "roof_wind"), (PORCH, {"attached": "more"}, "roof_wind"),
    (RAFTERS, {"exposed": "fully exposed", "higher": HIGHER}, "roof_exposed"),
    (RAFTERS, {"exposed": "fully exposed"}, ""), (RAFTERS, {"exposed": "sheltered", "higher": HIGHER}, ""),
    (RAFTERS, {"exposed": "fully exposed", "higher": HIGHER, "meant": {"exposed": "by the department"}}, ""),
])  # fmt: skip
def test_roofs(data: Data, change: Data, keys: str) -> None:
    assert asked(data, roof_set(**change)) == set(keys.split())


@pytest.mark.parametrize(("tail", "site", "keys"), [
    ("6 in", {}, ""), ("6.1 in", {}, "roof_insulation"), ("12 in", {"ground_snow": "0 psf"}, ""),
])  # fmt: skip
def test_ice_needs_an_overhang_and_snow(tail: str, site: Data, keys: str) -> None:
    def change(data: Data) -> None:
        data["roof"][0].update(WARM)
        data["site"].update(site)
        data["rafter"][0]["wall"]["at"] = tail

    assert asked(RAFTERS, change) == set(keys.split())


@pytest.mark.parametrize(("formed", "stated", "meant", "keys"), [
    ("snow", 0.951 * 30, "", ""), ("snow", 0.949 * 30, "", "stated_under_site"), ("snow", 31.0, "", ""),
    ("snow", 10.0, BY, ""), ("snow", 10.0, "carpenter, 3 May 2026", "stated_under_site"),
    ("snow", 10.0, "building department refused less, letter no. 4", "stated_under_site"),
    ("dead", 5.15, "", ""), ("dead", 5.13, "", "stated_under_site"), ("dead", 5.13, "weighed by the owner", ""),
])  # fmt: skip
def test_stated_below_the_site(formed: str, stated: float, meant: str, keys: str) -> None:
    """The rafters bear 30 psf on the lee side and 4.6 psf on a slope of 6:12, 5.143 on plan."""
    said = {"meant": {formed: meant}} if meant else {}
    assert asked(RAFTERS, typed("rafters", **{formed: f"{stated} psf"}, **said)) == set(keys.split())


@pytest.mark.parametrize(("use", "pounds", "keys"), [
    ("garage", None, "point_load_of_use"), ("garage", 2000, ""), ("garage", 1999, "point_load_of_use"),
    ("stair", 300, ""), ("stair", 299, "point_load_of_use"), ("other room", None, ""),
])  # fmt: skip
def test_a_use_whose_single_load_may_be_worse(use: str, pounds: float | None, keys: str) -> None:
    """2,000 lb in a garage, 300 lb on a tread (IRC Table R301.5, read)."""

    def change(data: Data) -> None:
        data["floor"][0]["use"] = use
        if pounds is not None:
            load = {"what": "one load", "live": f"{pounds} lb", "at": "4 ft", "applied": "top"}
            next(one for one in data["beam"] if one["name"] == "joists")["carries"].append(load)

    assert asked(JOISTS, change) == set(keys.split())


def test_a_deck_of_which_nobody_says_whether_snow_lies_on_it() -> None:
    assert asked(DECK, floor_set(outdoors="remove")) == {"floor_outdoors"}
    assert asked(DECK, floor_set(outdoors=False)) == set()


def test_wind_of_a_sheet_takes_the_place_of_the_envelope() -> None:
    sheet = {**SHEET, "by": "engineer, sheet S-3 of 2026-01-02"}
    fast = changed(PORCH, site_set(wind_speed="remove", wind_speed_from="remove"))
    assert asked(fast, roof_set(wind=sheet)) == set()
    assert asked(fast, roof_set(wind={**sheet, "by": "my neighbor"})) == {"roof_wind_by"}
    assert asked(fast, typed("porch", wind="-12 psf")) == set()  # a wind of its own, looked at with the others
