"""A frame from the job file to its verdicts: members, feet, thrust, what refers until somebody says it."""

from __future__ import annotations

import math
from typing import Any

import pytest

from beamcheck.errors import JobError
from beamcheck.model.reading.reader import job_from_data

from .jobs import SHEET, bent, check, checked, king, piece, wall


def test_a_truss_without_joints_refers_and_asks_for_each() -> None:
    result = checked(king())
    assert result.verdict == "refer"
    asked = [one for one in piece(result, "truss").checks if one.id == "frame.joints"]
    assert len(asked) == 6 and all(one.verdict == "refer" and one.questions for one in asked)
    others = [one for one in piece(result, "truss").checks if one.verdict != "passes" and one.id != "frame.joints"]
    assert others == []
    for name in ("left rafter", "right rafter", "tie", "king post", "left strut", "right strut"):
        one = piece(result, f"truss: {name}")
        assert one.member_verdict == "passes" and one.verdict == "refer"  # no better than its joints


def test_each_heel_takes_half_of_all_and_the_tie_what_holds_the_rafters() -> None:
    """Dead 12 psf along the slope, snow 30 psf on plan, 8 ft, and the wood at 33.5 pcf (G 0.5 at 14 %, Wood Handbook).
    With rafters as beams from heel to ridge and nothing else the tie pulls W L/8 H (closed form). On stiff struts the
    rafters are beams of two spans, 3/8, 5/4, 3/8 of a span's load: (5/16 + 3/32) W in each heel, 1.625 times that.
    """
    result = checked(king())
    roof = 12 / 144 * 96 * 2 * math.hypot(144, 96) + 30 / 144 * 96 * 288
    volume = 41.25 * (2 * 173.07 + 96 + 2 * 86.53) + 52.25 * 288
    up = check(result, "truss", "frame.bearing", "west wall").demand
    pull = check(result, "truss: tie", "frame.tension").demand
    assert up is not None and pull is not None
    assert 2 * up * 5.5 * 8 == pytest.approx(roof + 33.5 / 1728 * volume, rel=1e-3)
    closed = (roof + 33.5 / 1728 * volume) * 288 / (8 * 96)
    assert closed < pull * 5.5 * 9.5 < 1.625 * closed


@pytest.mark.parametrize(
    ("changed", "id", "words"),
    [
        ({"upright_by": ""}, "frame.upright", "not said"),
        ({"upright_by": "the purlins"}, "frame.upright", "purlins"),
        ({"span": "44 ft"}, "frame.form", "over 40 ft"),
    ],
)
def test_what_nobody_answers_for_refers(changed: dict[str, Any], id: str, words: str) -> None:
    found = check(checked(king(**changed)), "truss", id)
    assert found.verdict == "refer" and found.questions and words in found.notes[0]


def feet(**right: Any) -> list[dict[str, Any]]:
    return [
        {"at": "left heel", "on": "west wall", "bearing": "8 in"},
        {"at": "right heel", "on": "east wall", "bearing": "8 in", **right},
    ]


def test_feet_that_are_held_push_their_walls() -> None:
    """Neither foot slides: the run with held feet has no pull in the tie but all of the thrust in the walls."""
    found = check(checked(king(feet=feet())), "truss", "frame.thrust", "west wall")
    assert found.verdict == "refer" and len(found.questions[0].answers) == 2
    data = king(feet=feet())
    data["existing"] = [wall(name, takes_sideways="9,000 lb") for name in ("west wall", "east wall")]
    assert check(checked(data), "truss", "frame.thrust", "west wall").verdict == "passes"
    data["existing"] = [wall(name, takes_sideways="500 lb") for name in ("west wall", "east wall")]
    assert check(checked(data), "truss", "frame.thrust", "west wall").verdict == "fails"


def test_wind_pushes_the_foot_that_is_held() -> None:
    """Wind on one slope has a level part, which goes into the foot that does not slide: asked of its wall alone."""
    data = king()
    data["frame"][0]["members"][0]["carries"].append({"what": "wind", "wind": "-30 psf"})
    found = check(checked(data), "truss", "frame.thrust", "west wall")
    assert found.verdict == "refer" and "foot that is held" in found.notes[0]
    (answer,) = found.questions[0].answers
    assert [path for path, _ in answer.sets] == ["existing.west wall.takes_sideways"]
    data["existing"][0]["takes_sideways"] = "3,000 lb"
    assert check(checked(data), "truss", "frame.thrust", "west wall").verdict == "passes"


def test_a_member_has_its_name_alone() -> None:
    data = king()
    data["existing"].append(wall("Truss: tie"))
    with pytest.raises(JobError, match="a member of frame 'truss'"):
        job_from_data(data)


def test_a_foot_that_slides_by_nobodys_word_refers() -> None:
    found = check(checked(king(feet=feet(slides=True))), "truss", "frame.thrust", "west wall")
    assert found.verdict == "refer" and "nobody answers" in found.notes[0]


def test_a_mechanism_fails_in_plain_words() -> None:
    members = [
        {"name": name, "stock": "6x8", "through": through}
        for name, through in (("left", ["a", "b"]), ("top", ["b", "c"]), ("right", ["c", "d"]))
    ]
    at = {"a": ("0 ft", "0 ft"), "b": ("4 ft", "8 ft"), "c": ("12 ft", "8 ft"), "d": ("16 ft", "0 ft")}
    points = [{"name": name, "x": x, "y": y} for name, (x, y) in at.items()]
    frame = {
        "name": "truss", "kind": "free form", "spacing": "8 ft", "finish": "none", "upright_by": SHEET,
        "points": points, "members": members,
        "feet": [{"at": "a", "on": "west wall"}, {"at": "d", "on": "east wall"}],
    }  # fmt: skip
    data = king()
    data["frame"] = [frame]
    result = checked(data)
    found = check(result, "truss", "frame.stands")
    assert result.verdict == "fails" and found.verdict == "fails" and "without resistance" in found.notes[0]
    assert piece(result, "truss: left").verdict == "fails"


@pytest.mark.parametrize(
    ("changed", "words"),
    [
        ({"rise": None}, "needs its rise"),
        ({"collar_height": "2 ft"}, "has no collar_height"),
        ({"feet": [{"at": "left heel", "on": "west wall"}]}, "two feet"),
        ({"feet": [{"at": "heel", "on": "west wall"}, {"at": "right heel", "on": "east wall"}]}, "foot 'heel'"),
        ({"feet": [{"at": "left heel", "on": "north wall"}, {"at": "right heel", "on": "east wall"}]}, "north wall"),
        ({"members": [{"name": "rafters", "stock": "6x8"}]}, "Each member of the form"),
        ({"members": [{"name": "collar", "stock": "6x8"}]}, "has no 'collar'"),
        ({"members": [{"name": "rafters", "stock": "8x8"}]}, "no \\[\\[stock\\]\\] named '8x8'"),
        ({"carries": [{"what": "lamp", "at": "peak", "dead": "40 lb"}]}, "no point 'peak'"),
        ({"carries": [{"what": "lamp", "at": "ridge"}]}, "without a kind"),
        ({"kind": "hall of mirrors"}, "kind"),
    ],
)
def test_bad_input_says_where_and_what_would_be_right(changed: dict[str, Any], words: str) -> None:
    data = king()
    data["frame"][0] = {key: value for key, value in (data["frame"][0] | changed).items() if value is not None}
    with pytest.raises(JobError, match=words):
        job_from_data(data)


@pytest.mark.parametrize("cut", [
    {"kind": "notch", "at": "4 ft", "length": "3 in", "depth": "1 1/2 in", "face": "bottom"},
    {"kind": "taper", "at": "0 ft", "length": "6 in", "depth": "3 in", "face": "top"},
    {"kind": "hole", "at": "4 ft", "depth": "3 in", "from_bottom": "3 3/4 in"},
])  # fmt: skip
def test_cuts_keep_to_the_rules_for_cuts(cut: dict[str, Any]) -> None:
    """NDS 2018 4.4.3 and IRC R502.8.1: a notch along a continuous piece, a taper, a hole over a third of the depth."""
    data = king()
    data["frame"][0]["members"][0]["cuts"] = [cut]
    one = check(checked(data), "truss: left rafter", "beam.cut")
    assert one.verdict == "refer" and one.questions


def test_one_side_of_the_roof_left_out_is_asked() -> None:
    """A roof lies on both sides of its ridge."""
    data = king()
    members = data["frame"][0]["members"]
    roof = members[0].pop("carries")
    members[0]["name"] = "left rafter"
    members.append({**members[0], "name": "right rafter", "carries": roof})
    one = check(checked(data), "truss", "loads.roof")
    assert one.verdict == "refer" and "left rafter" in one.notes[0]
    data["frame"][0]["carries"] = [{"what": "purlin", "at": "left rafter, middle", "dead": "600 lb", "snow": "1200 lb"}]
    assert not [one for one in piece(checked(data), "truss").checks if one.id == "loads.roof"]


@pytest.mark.parametrize("field", [{"snow": "2 psf"}, {}])
def test_roof_on_a_level_member_is_asked_like_any_roof(field: dict[str, str]) -> None:
    """ASCE 7-16 4.8: men and material where no such snow lies."""
    data = bent()
    data["frame"][0]["members"][0]["carries"] = [{"what": "roof", "dead": "12 psf", **field}]
    one = check(checked(data), "bent: beam", "loads.roof")
    assert one.verdict == "refer" and one.questions[0].field.startswith("frame.bent.members.1.")


def test_ordinary_bent_is_not_asked_for_its_roof() -> None:
    assert {one.id for one in piece(checked(bent()), "bent: beam").checks if one.verdict != "passes"} == {
        "frame.joints"
    }


def test_bent_in_inches_for_feet_is_asked() -> None:
    data = bent()
    data["frame"][0] |= {"height": "9 in", "brace_on_post": "3 in"}
    with pytest.raises(JobError, match=r"(?s)did you mean 9 ft.*did you mean 3 ft"):
        job_from_data(data)
