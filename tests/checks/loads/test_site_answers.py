"""What is answered about a site, and how far strips, rafters and places beside a wall may be off: at each limit.

Limits are common practice (tables/judgment_loads.csv); psf in a kilopascal by definition, 1.29 = sqrt(1/0.6).
"""

from __future__ import annotations

import copy
from typing import Any

import pytest

from beamcheck import job_from_data
from beamcheck.analysis.site.pieces import areas_of, with_formed_loads
from beamcheck.checks.core.asking.question import Question
from beamcheck.checks.loads.given import job_checks
from beamcheck.checks.loads.given_areas import site_rows
from beamcheck.checks.loads.site import site_checks

from . import test_site as of_the_site
from .test_site import HIGHER, Data, changed, floor_set, roof_set, site_set, typed
from .test_site_contradictions import both

RAFTERS, PORCH, JOISTS = of_the_site.rafters(), of_the_site.porch(), of_the_site.joists()
HEADER, RIDGE, GIRDER = of_the_site.header(), of_the_site.ridge_beam(), of_the_site.girder()


def questions(data: Data, change: Any = lambda data: None) -> dict[str, Question]:
    job = job_from_data(changed(data, change))
    areas = areas_of(job.site, job.roof, job.floor)
    first = next(one for one in (*job.beam, *job.rafter) if any(load.roof or load.floor for load in one.carries))
    return {question.id.split("/")[1]: question for check in site_checks(with_formed_loads(first, areas), areas)
            for question in check.questions}  # fmt: skip


def says(question: Question) -> list[str]:
    return [answer.says for answer in question.answers]


def rafter_set(**values: Any) -> Any:
    def change(data: Data) -> None:
        wall = values.pop("tail", None)
        data["rafter"][0].update(values)
        if wall:
            data["rafter"][0]["wall"]["at"] = wall

    return change


# ---- figures in other units ------------------------------------------------------------------------------------------


def test_snow_that_looks_like_kilopascals() -> None:
    """1.4 kPa are 29.24 psf; or there is none."""
    question = questions(RAFTERS, site_set(ground_snow="1.4 psf"))["site_little_snow"]
    assert says(question) == ["29.24 psf", "0 psf"] and question.field == "site.ground_snow"


def test_a_wind_speed_that_looks_like_an_allowable_one() -> None:
    """85 mph at allowable stress are 110 mph of a basic wind speed."""
    question = questions(PORCH, site_set(wind_speed="85 mph"))["site_wind_slow"]
    assert says(question) == ["110 mph"] and question.field == "site.wind_speed"


@pytest.mark.parametrize(("stated", "formed"), [("20 psf", "30 psf")])
def test_a_figure_below_that_of_the_site_may_be_taken_away(stated: str, formed: str) -> None:
    question = questions(RAFTERS, typed("rafters", snow=stated))["stated_under_site"]
    assert question.field == "rafter.rafters.carries.1.snow"
    assert [list(answer.sets) for answer in question.answers] == [
        [("rafter.rafters.carries.1.snow", None)],
        [("rafter.rafters.carries.1.meant.snow", "the letter of the department allows less")],
    ]
    assert formed in question.answers[0].says


# ---- strips ----------------------------------------------------------------------------------------------------------


def narrow(width: str) -> Any:
    def change(data: Data) -> None:
        piece = next(one for one in data["beam"] if any("roof" in load or "floor" in load for load in one["carries"]))
        entry = next(one for one in piece["carries"] if "roof" in one or "floor" in one)
        entry["width"] = width

    return change


@pytest.mark.parametrize(("data", "least", "answer"), [
    (JOISTS, 16.0, "16 in"), (RIDGE, 72.0, "6 ft"), (HEADER, 0.3 * 132.0, "3 ft 3 5/8 in"), (GIRDER, 24.0, "2 ft"),
])  # fmt: skip
def test_the_narrowest_strip_that_is_believed(data: Data, least: float, answer: str) -> None:
    """The spacing; half of either slope; 0.3 of eave to ridge; 24 in of a floor: each less 5 %."""
    for inches, asks in ((0.951 * least, False), (0.949 * least, True)):
        found = questions(data, narrow(f"{inches} in")).get("strip_width")
        assert (found is not None) is asks, inches
        if found:
            assert says(found)[0] == answer and found.field.endswith(".width")
            assert [path.split(".")[-2:] for path, _ in found.answers[1].sets] == [["meant", "width"]]


# ---- a rafter and its roof -------------------------------------------------------------------------------------------


@pytest.mark.parametrize(("change", "key"), [
    (rafter_set(run="144 in", tail="0 ft"), ""), (rafter_set(run="144.1 in", tail="0 ft"), "rafter_of_roof"),
    (rafter_set(run="99 in", tail="0 ft"), ""), (rafter_set(run="98.9 in", tail="0 ft"), "rafter_short"),
    (rafter_set(run="90 in", tail="11 in"), ""), (rafter_set(run="89 in", tail="11 in"), "rafter_short"),
])  # fmt: skip
def test_a_rafter_as_long_as_its_roof(change: Any, key: str) -> None:
    """Eave to ridge 132 in: 12 in more at the most, three quarters at the least with the tail, level."""
    found = set(questions(RAFTERS, change)) & {"rafter_of_roof", "rafter_short"}
    assert found == ({key} if key else set())


@pytest.mark.parametrize(("slope", "asks"), [("23.57 deg", False), ("23.56 deg", True), ("29.56 deg", False),
                                             ("29.57 deg", True)])  # fmt: skip
def test_a_rafter_as_steep_as_its_roof(slope: str, asks: bool) -> None:
    """6:12 is 26.565 degrees; three degrees either way are left to a report."""
    found = questions(RAFTERS, rafter_set(slope=slope)).get("rafter_of_roof")
    assert (found is not None) is asks
    if found:
        assert [dict(one.sets) for one in found.answers] == [
            {"rafter.rafters.slope": "26.57 deg"}, {"roof.main roof.slope": slope}]  # fmt: skip


def test_what_a_rafter_that_is_too_long_may_be() -> None:
    """Its run that of the roof, or the roof as long; where it is steeper too both change together."""
    found = questions(RAFTERS, rafter_set(run="13 ft", tail="0 ft"))["rafter_of_roof"]
    assert [dict(one.sets) for one in found.answers] == [
        {"rafter.rafters.run": "11 ft"}, {"roof.main roof.eave_to_ridge": "13 ft"}]  # fmt: skip
    steep = questions(RAFTERS, rafter_set(run="13 ft", tail="0 ft", slope="12:12"))["rafter_of_roof"]
    assert [len(one.sets) for one in steep.answers] == [2, 2] and dict(steep.answers[1].sets)[
        "roof.main roof.slope"
    ] == "45 deg"


def test_the_run_that_a_short_rafter_is_offered_leaves_room_for_its_tail() -> None:
    """132 in less 11 in along a slope of 6:12, which are 9.84 in level."""
    found = questions(RAFTERS, rafter_set(run="60 in", tail="11 in"))["rafter_short"]
    assert says(found)[0] == "its run is 10 ft 2 3/16 in" and found.field == "rafter.rafters.run"
    assert not questions(RAFTERS, rafter_set(run="60 in", tail="11 in", meant={"run": "a dormer is there"})).get(
        "rafter_short"
    )


@pytest.mark.parametrize(("off", "asks"), [("96 in", False), ("96.1 in", True)])
def test_a_place_beside_a_wall_is_no_further_off_than_its_roof_is_long(off: str, asks: bool) -> None:
    """The lower roof is 8 ft long."""
    found = questions(HEADER, both(roof_set(higher=HIGHER), typed("header", off_wall=off))).get("off_wall")
    assert (found is not None) is asks and (found is None or says(found) == ["8 ft"])


# ---- layers ----------------------------------------------------------------------------------------------------------


def test_framing_that_is_not_said_may_be_joists_or_none() -> None:
    question = questions(GIRDER, floor_set(framing="remove"))["area_framing"]
    assert [dict(one.sets) for one in question.answers] == [
        {"floor.rooms.framing": "2x10 at 16 in"},
        {"floor.rooms.meant.framing": "there are none: the layers span to the beam"},
    ]
    assert not questions(JOISTS, floor_set(framing="remove")).get("area_framing"), "one of a row weighs itself"


@pytest.mark.parametrize(("layers", "finish"), [
    (["3/4 in panel", "plaster on wood lath"], "plaster"), (["3/4 in panel", "1/2 in gypsum board"], None),
])  # fmt: skip
def test_a_ceiling_that_cracks_under_a_floor(layers: list[str], finish: str | None) -> None:
    """Plaster does; a floor bends little enough for board. Under a beam on which joists lie it hangs on them."""
    found = questions(JOISTS, floor_set(layers=layers)).get("ceiling_finish")
    assert (found is not None) is (finish is not None)
    if found:
        assert dict(found.answers[0].sets) == {"beam.joists.finish": finish}
    assert not questions(GIRDER, floor_set(layers=layers)).get("ceiling_finish")
    board = questions(RAFTERS, roof_set(layers=["asphalt shingles, one layer", "1/2 in gypsum board"]))[
        "ceiling_finish"
    ]
    assert dict(board.answers[0].sets) == {"rafter.rafters.finish": "gypsum board"}


@pytest.mark.parametrize(("use", "asks"), [
    ("attic without storage", True), ("attic with limited storage", True), ("sleeping room", False),
])  # fmt: skip
def test_a_carpet_in_an_attic(use: str, asks: bool) -> None:
    """Up to the 20 psf of an attic with limited storage (IRC Table R301.5, memory)."""
    found = questions(JOISTS, floor_set(use=use)).get("finished_attic")
    assert (found is not None) is asks


# ---- of the job ------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(("kind", "made"), [("roof", RAFTERS), ("floor", JOISTS)])
def test_a_roof_or_floor_that_nothing_carries(kind: str, made: Data) -> None:
    more = copy.deepcopy(made)
    more[kind].append({**more[kind][0], "name": "another"})
    (found,) = [one for one in job_checks(job_from_data(more)) if one.id == "loads.area"]
    assert found.questions[0].field == f"{kind}.another.meant.name"
    more[kind][-1]["meant"] = {"name": "carried by walls that are not here"}
    assert not [one for one in job_checks(job_from_data(more)) if one.id == "loads.area"]


def test_the_place_in_the_design_basis() -> None:
    site = job_from_data(copy.deepcopy(RAFTERS)).site
    assert site is not None
    rows = dict(site_rows(site))
    assert rows["ground snow"] == "30 psf, ASCE 7-16" and rows["surroundings"] == "suburb or woods (wind exposure B)"
    assert rows["wind speed"].startswith("115 mph, building department") and "frost depth" not in rows
    bare = site.model_copy(
        update={"wind_speed": "", "wind_speed_from": "", "local_rules": "25 psf", "surroundings": None}
    )
    rows = dict(site_rows(bare))
    assert rows["wind speed"] == "not given" and rows["local rules"] == "25 psf"
    assert rows["surroundings"].startswith("not said")
