"""Ridge beam and purlins that rest on the points of a truss: what they hand on goes through it to the walls."""

from __future__ import annotations

from types import SimpleNamespace
from typing import Any

import pytest

from beamcheck.analysis.beams.member_loads import TransferredLoad
from beamcheck.checks.frames.brought import brought_doubts, with_brought
from beamcheck.errors import JobError
from beamcheck.model.reading.reader import job_from_data

from .jobs import check, checked, king, piece, stock

POINTS = {"ridge beam": "ridge", "west purlin": "left rafter, middle", "east purlin": "right rafter, middle"}


def purlins(**seat: Any) -> dict[str, Any]:
    """12 ft beams from the truss to the gable wall, 6 ft of roof each: 12 psf, 30 psf of snow, 10 psf that lifts."""
    data = king()
    data["stock"].append(stock("6x12", "6x12 dressed"))
    del data["frame"][0]["members"][0]["carries"]
    roof = {"what": "roof", "dead": "12 psf", "snow": "30 psf", "wind": "-10 psf", "width": "6 ft", "applied": "top"}
    data["beam"] = [
        {"name": name, "stock": "6x12", "service": "roof", "finish": "none", "roof_slope": "8:12", "in_a_row": False,
         "top_held": "full length", "carries": [roof], "supports": [
             {"at": "0 ft", "on": "truss", "lands_on": point, "bearing": "5 1/2 in", "restrained": True, **seat},
             {"at": "12 ft", "on": "west wall", "bearing": "6 in", "restrained": True},
         ]}
        for name, point in POINTS.items()
    ]  # fmt: skip
    return data


def test_what_beams_hand_on_goes_through_the_truss() -> None:
    """Half of each beam: 3 (12 + 30) 6 12/2 lb beside the wood; all that is applied arrives. The struts push half a
    load over the sine of the slope, the king post pulls one load (statics of pins, bending of the rafters a little)."""
    result = checked(purlins())
    rows = next(table.rows for table in result.tables if "all loads" in table.title)
    assert all(applied == arriving for _, applied, arriving in rows)
    strut = check(result, "truss: left strut", "frame.bending_with_compression")
    P = next(step.value for step in strut.steps if step.symbol == "P")
    load = (12 + 30) * 6 * 6
    assert 0.8 * load / (2 * 0.5547) < P < 1.4 * load / (2 * 0.5547)
    lifts = [one for one in piece(result, "truss").checks if one.id == "loads.wind"]
    assert lifts == []  # wind comes from the beams


def test_how_a_beam_sits_on_a_truss_is_for_an_engineer() -> None:
    found = check(checked(purlins()), "ridge beam", "beam.end_held", "truss")
    assert found.verdict == "refer" and found.questions


def test_a_row_of_beams_on_one_point_is_asked_about() -> None:
    data = purlins()
    data["beam"][0] |= {"spacing": "4 ft"}
    del data["beam"][0]["in_a_row"]
    assert check(checked(data), "truss", "path.row").verdict == "refer"


@pytest.mark.parametrize(
    ("seat", "words"),
    [
        ({"lands_on": None}, "on which of its points"),
        ({"lands_on": "peak"}, "no point 'peak'"),
        ({"on": "east wall"}, "leave lands_on out"),
        ({"lands_at": "3 ft"}, "leave lands_at out"),
    ],
)
def test_bad_input(seat: dict[str, Any], words: str) -> None:
    data = purlins(**seat)
    for beam in data["beam"]:
        beam["supports"][0] = {key: value for key, value in beam["supports"][0].items() if value is not None}
    with pytest.raises(JobError, match=words):
        job_from_data(data)


@pytest.mark.parametrize(("weight", "lifts"), [({"D": (500.0, 300.0)}, -600.0), ({}, -400.0)])
def test_wind_that_lifts_finds_no_more_weight_than_what_stays(weight: dict[str, Any], lifts: float) -> None:
    """Dead load counts at its most, 500 lb; where the wind lifts by 400 lb the 200 that may be gone go with it."""
    frame = job_from_data(king()).frame[0]
    load = TransferredLoad("B", {**weight, "W": (150.0, -400.0)}, point="ridge")
    found = with_brought(frame, [load]).carries[len(frame.carries) :]
    assert [one.wind for one in found if one.wind] == [150.0, lifts]
    assert [one.dead for one in found if one.dead] == [high for high, _ in weight.values()]


def test_what_brings_no_wind_brings_none() -> None:
    frame = job_from_data(king()).frame[0]
    (force,) = with_brought(
        frame, [TransferredLoad("B", {"D": (500.0, 300.0), "S": (40.0, 0.0)}, point="ridge")]
    ).carries
    assert (force.dead, force.snow, force.wind, force.at) == (500.0, 40.0, None, "ridge")
    assert with_brought(frame, [TransferredLoad("B", {"D": (500.0, 300.0)})]) is frame, "at no point of it"


@pytest.mark.parametrize(("forces", "more", "ids"), [
    ({"D": (50.0, 0.0)}, {}, []), ({"D": (50.1, 0.0)}, {}, ["path.load"]), ({"W": (0.0, -50.1)}, {}, ["path.load"]),
    ({"D": (20.0, 20.0), "S": (60.0, 0.0)}, {}, ["path.load"]), ({"D": (900.0, 0.0)}, {"point": "ridge"}, []),
    ({"D": (900.0, 0.0)}, {"unknown": True}, ["path.load"]), ({}, {"perhaps": "snow that slides"}, ["path.load"]),
    ({"S": (900.0, -1.0)}, {"point": "ridge"}, []), ({"S": (900.0, -1.1)}, {"point": "ridge"}, ["path.load"]),
    ({"W": (0.0, -900.0)}, {"point": "ridge"}, []), ({}, {}, []),
    ({"D": (900.0, 0.0)}, {"point": "ridge", "spread": 48.0}, ["path.row"]),
])  # fmt: skip
def test_what_is_asked_of_loads_that_come_on_a_frame(forces: Any, more: Any, ids: list[str]) -> None:
    """Up to 50 lb may come at no point of it (light trim); a pound is rounding, and what lifts goes by the wind."""
    frame = job_from_data(king()).frame[0]
    context: Any = SimpleNamespace(transfers=[TransferredLoad("B", forces, **more)], under=lambda name: frame)
    found = list(brought_doubts(frame, context))
    assert [one.id for one in found] == ids
    assert all(one.verdict == "refer" and one.questions for one in found)
