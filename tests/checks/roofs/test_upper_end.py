"""Rafters that lie on the top of their ridge beam, and rows of rafters in their places. Figures by hand, typed here."""

from __future__ import annotations

import copy
import math
import tomllib
from pathlib import Path
from typing import Any

import pytest

from beamcheck import JobError, check_job, job_from_data
from beamcheck.checks.core.result import Check, JobResult, PieceResult
from beamcheck.units import show

Data = dict[str, Any]
TRIAL = Path(__file__).parents[2] / "trials/roofs/rafters_in_hangers_on_a_ridge_beam.toml"
SEAT: Data = {"bearing": "2 1/2 in", "restrained": True}
SLOPE = math.atan(4 / 12)


def roof(upper: Data | None = SEAT, *, wind: str | None = None, **more: Any) -> Data:
    """2x10 at 24 in, 4:12, 10 ft from wall to a ridge beam 6x12; no hangers."""
    data = tomllib.loads(TRIAL.read_text(encoding="utf-8"))
    data.pop("anchor")
    rafter = data["rafter"][0]
    rafter.pop("upper_held_by")
    rafter["carries"][1].pop("wind")
    data["job"]["wind_by"] = "building official, sheet of local code no. 4, 3 May 2026"
    if wind is not None:
        rafter["carries"][1]["wind"] = wind
    rafter |= {**({} if upper is None else {"upper": upper}), **more}
    return data


def checked(data: Data) -> JobResult:
    return check_job(job_from_data(copy.deepcopy(data)))


def piece(data: Data, name: str = "rafters") -> PieceResult:
    return next(one for one in checked(data).pieces if one.name == name)


def of(data: Data, id: str, name: str = "rafters") -> Check:
    return next(check for check in piece(data, name).checks if check.id == id)


def test_a_seat_on_the_ridge_beam_passes() -> None:
    assert checked(roof()).verdict == "passes"


def test_its_bearing_and_notch_by_hand() -> None:
    """Bearing at 90 - 18.43 deg to the grain (NDS 2018 3.10.3), V' = (2/3) F_v' b d_n (d_n/d)^2 (3.4.3.2)."""
    seat = of(roof(), "roof.ridge_seat")
    F_c, F_perp, theta = 1.25 * 1350.0, 625.0, math.pi / 2 - SLOPE
    F = F_c * F_perp / (F_c * math.sin(theta) ** 2 + F_perp * math.cos(theta) ** 2)
    assert seat.capacity == pytest.approx(F, rel=1e-6)
    shear = of(roof(), "roof.ridge_notch_shear")
    d_n = 9.25 - 2.5 * math.sin(SLOPE)
    assert shear.capacity == pytest.approx(2 / 3 * 1.25 * 180 * 1.5 * d_n * (d_n / 9.25) ** 2, rel=1e-6)


@pytest.mark.parametrize(
    ("upper", "id", "verdict"),
    [
        ({**SEAT, "bearing": "1 in"}, "seat.least", "fails"), ({**SEAT, "bearing": "4 in"}, "roof.ridge_room", "refer"),
        ({**SEAT, "bearing": "6 in"}, "roof.ridge_room", "fails"), ({"bearing": "2 1/2 in"}, "roof.ends_held", "refer"),
        ({**SEAT, "restrained": False}, "roof.ends_held", "fails"),
    ],
)  # fmt: skip
def test_what_is_wrong_with_a_seat(upper: Data, id: str, verdict: str) -> None:
    found = [check.verdict for check in piece(roof(upper)).checks if check.id == id]
    assert verdict in found


def test_a_deep_notch_fails() -> None:
    """A level seat of 2 3/4 in at 12:12 is 1.94 in deep in a rafter 7 1/4 in deep, of which 1.81 in may go."""
    data = roof({"bearing": "2 3/4 in", "restrained": True}, slope="12:12", seat_cut="1.8 in")
    data["stock"][0]["size"] = "2x8"
    assert of(data, "roof.ridge_notch").verdict == "fails"


def test_nothing_said_asks_and_the_seat_closes() -> None:
    data = roof(None)
    asked = of(data, "roof.upper_end").questions[0]
    ((path, value),) = asked.answers[0].sets
    assert path == "rafter.rafters.upper"
    assert checked(roof(value)).verdict == "passes"


@pytest.mark.parametrize(("upper", "wind", "named"), [
    (SEAT, "-40 psf", "lifts"), (SEAT, "-90 psf", "lifts"), (None, "-40 psf", "presses down"),
    (None, "-90 psf", "lifts"),
])  # fmt: skip
def test_the_question_names_the_force_that_its_answer_takes(upper: Data | None, wind: str, named: str) -> None:
    """A strap beside a seat takes what lifts; a hanger the larger of both."""
    asked = of(roof(upper, wind=wind), "roof.upper_end").questions[0]
    forces = dict(asked.forces)
    assert min(forces.values()) > 0.0 and (forces["lifts"] > forces["presses down"]) is (wind == "-90 psf")
    assert asked.why.startswith(show(forces[named], "force"))


def test_what_lifts_asks_for_a_strap() -> None:
    """Wind of 40 psf up over 12 psf of roof; a rated strap takes the lift alone, the seat what presses."""
    data = roof(wind="-40 psf")
    assert of(data, "roof.upper_end").verdict == "refer"
    assert {q.id for q in of(data, "roof.upper_end").questions} == {"rafters/upper_strap"}
    data["rafter"][0]["upper_held_by"] = "straps"
    data["anchor"] = [{
        "name": "straps", "manner": "rated hardware", "into": "ridge", "split": "none seen",
        "rating": {"source": "evaluation report no. 9995 (invented), 2024 edition, table 2", "up": "600 lb",
                   "duration": "included", "loads": "wind", "slope": "12:12",
                   "conditions": "dry wood of the species of the job, every hole nailed", "conditions_met": True},
    }]  # fmt: skip
    strap = next(one for one in checked(data).pieces if one.name == "straps")
    assert strap.verdict == "passes", [(c.what, c.notes) for c in strap.checks if c.verdict != "passes"]


def test_rafters_far_apart_land_in_their_places() -> None:
    """48 in apart on 10 ft they are single loads: asked where, and answered they bend the ridge beam with P a."""
    data = roof(spacing="48 in", members=3)
    asked = next(check for check in piece(data, "ridge").checks if check.id == "beam.row")
    fields = dict(asked.questions[0].answers[0].sets)
    assert set(fields) == {"rafter.rafters.upper.lands_from", "rafter.rafters.upper.lands_to"}
    placed = roof({**SEAT, "lands_from": "1 ft", "lands_to": "9 ft"}, spacing="48 in", members=3)
    assert checked(placed).verdict == "passes"
    one, spread = (of(one, "beam.bending", "ridge").demand for one in (placed, data))
    assert one and spread and one > spread


def test_rows_at_the_wall_land_where_they_are_said_to() -> None:
    """A wall plate that is a beam gets the row between its ends only."""
    data = roof(spacing="24 in")
    data["stock"].append({**data["stock"][1], "name": "plate wood"})
    data["beam"].append({**data["beam"][0], "name": "plate", "stock": "plate wood"})
    data["rafter"][0]["wall"] |= {"on": "plate"}
    all_along = of(data, "beam.bending", "plate").demand
    data["rafter"][0]["wall"] |= {"lands_from": "1 ft", "lands_to": "3 ft"}
    some = of(data, "beam.bending", "plate").demand
    assert all_along and some and some < all_along


@pytest.mark.parametrize(
    ("change", "says"),
    [({"upper": {"lands_from": "1 ft"}}, "lands_to"),
     ({"upper": {"lands_from": "1 ft", "lands_to": "99 ft"}}, "lands_to"),
     ({"ridge": "board", "ridge_on": None}, "upper out")],
)  # fmt: skip
def test_what_does_not_go_together_is_said(change: Data, says: str) -> None:
    data = roof()
    data["rafter"][0] |= change
    data["rafter"][0] = {key: value for key, value in data["rafter"][0].items() if value is not None}
    with pytest.raises(JobError, match=says):
        job_from_data(data)
