"""Joints of a frame: an invented king-post truss with all its joints, its forces by statics typed here."""

from __future__ import annotations

import math
from typing import Any

import pytest
import tomlkit

from beamcheck.checks.core.result import JobResult, PieceResult
from beamcheck.checks.job import check_job
from beamcheck.errors import JobError
from beamcheck.jobfile.answer import with_ruling
from beamcheck.model.reading.reader import job_from_data, read_job_text

from ..frames.jobs import king
from .jobs import Data, the

LAID: Data = {"split": "none seen", "seasoned": "dry"}
STEP: Data = {"depth": "1 3/4 in", "behind": "12 in", "checked": "no checks there"}
BOLT: Data = {"kind": "bolt", "size": "5/8 in", "length": "7 in", "steel": "A307", "threads": "clear of it",
              "thread_length": "1 1/2 in"}  # fmt: skip


def step(name: str, at: str, notched: str, *landing: str, **cut: Any) -> Data:
    members = [{"name": notched, "part": "notched"}, *({"name": one, "part": "landing"} for one in landing)]
    return {"name": name, "kind": "step", "frame": "truss", "at": at, "step": {**STEP, **cut}, "members": members}


def joints() -> list[Data]:
    found = []
    for side in ("left", "right"):
        found += [
            step(f"{side} heel step", f"{side} heel", "tie", f"{side} rafter", reaction_off="0 in"),
            step(f"{side} strut head", f"{side} rafter, middle", f"{side} rafter", f"{side} strut", depth="1 in",
                 behind="30 in"),
        ]  # fmt: skip
    return [
        *found,
        step("ridge joint", "ridge", "king post", "left rafter", "right rafter", depth="1 in", behind="14 in",
             face="square to the landing piece", wide="12 in"),
        step("strut seats", "foot of the king post", "king post", "left strut", "right strut", depth="1 1/4 in",
             behind="10 in"),
        {
            "name": "stirrup", "kind": "strap", "frame": "truss", "at": "foot of the king post", "fastener": BOLT,
            "strap": {"steel": "A36", "thickness": "1/4 in", "width": "2 1/2 in", "beyond": "1 1/2 in",
                      "from_end": "11 ft"},
            "members": [
                {"name": "king post", "part": "strapped",
                 "holes": {"columns": 2, "spacing": "3 in", "end": "5 in", "edge": "3 3/4 in"}},
                {"name": "tie", "part": "hung"},
            ], **LAID,
        },
    ]  # fmt: skip


def truss(found: list[Data] | None = None, **frame: Any) -> JobResult:
    return check_job(job_from_data({**king(**frame), "joint": joints() if found is None else found}))


def piece(result: JobResult, name: str) -> PieceResult:
    return next(one for one in result.pieces if one.name == name)


def test_whole_truss_passes() -> None:
    result = truss()
    assert {one.name: one.verdict for one in result.pieces if one.verdict != "passes"} == {}
    assert result.verdict == "passes"


def test_forces_are_those_of_the_frame() -> None:
    """Pull at the heel of a pinned king-post truss with struts at mid-rafter: 1.5 P/tan(slope), P a panel load; own
    weight and the stiffness of the rafters are on top (statics)."""
    check = the(piece(truss(), "left heel step"), "joint.step_shear")
    T = [one.value for one in check.steps if one.symbol == "T"][-1]
    w = (12.0 * math.hypot(1, 8 / 12) + 30.0) * 8.0  # lbf per ft of plan
    pinned = 1.5 * (w * 24.0 / 4.0) / (8 / 12)
    assert pinned < T < 1.3 * pinned


def test_member_hears_what_its_joint_says() -> None:
    short = joints()
    short[0]["step"]["behind"] = "6 in"
    result = truss(short)
    assert piece(result, "left heel step").verdict == "fails"
    assert piece(result, "truss: tie").verdict == "fails"
    assert piece(result, "truss: right strut").verdict == "passes"


def test_what_a_joint_cuts_out_counts_in_the_member() -> None:
    """A deeper notch leaves less of the tie."""
    deep = joints()
    for one in (deep[0], deep[2]):
        one["step"]["depth"] = "2 3/8 in"

    def most(result: JobResult) -> float:
        return max(check.ratio or 0.0 for check in piece(result, "truss: tie").checks if "net" in check.id)

    assert most(truss(deep)) > most(truss()) > 0.0


def test_member_that_no_joint_names_is_asked() -> None:
    without = [one for one in joints() if one["name"] != "stirrup"]
    asked = [check for check in piece(truss(without), "truss").checks if check.verdict == "refer"]
    assert [check.what for check in asked] == ["joint at the foot of the king post"]
    assert "tie" in asked[0].notes[0] and "strut" not in asked[0].notes[0]


@pytest.mark.parametrize(
    ("change", "words"),
    [
        ({"frame": "trus"}, "there is no such frame"),
        ({"at": "left heal"}, "no point 'left heal'"),
        ({"at": "ridge"}, "does not come to the ridge"),
        ({"members": [{"name": "tie", "part": "notched"}, {"name": "leftrafter", "part": "landing"}]}, "no member"),
        ({"name": "other heel"}, "one joint for one end"),
    ],
)
def test_told(change: Data, words: str) -> None:
    found = joints()
    found = [*found, {**found[0], **change}] if "name" in change else [{**found[0], **change}, *found[1:]]
    with pytest.raises(JobError) as caught:
        job_from_data({**king(), "joint": found})
    assert words in str(caught.value)


def test_mirrored_truss_has_the_same_joints() -> None:
    result = truss()
    for name in ("heel step", "strut head"):
        left, right = (
            sorted(round(check.ratio or 0.0, 6) for check in piece(result, f"{side} {name}").checks)
            for side in ("left", "right")
        )
        assert left == pytest.approx(right, rel=1e-3)


def by_others(name: str, at: str, *members: str) -> Data:
    by = "engineer's sheet S-4 of 3 May 2025"
    found = [{"name": one} for one in members]
    return {"name": name, "kind": "by others", "frame": "truss", "at": at, "confirmed_by": by, "members": found}


def test_joints_that_hold_nothing_together_are_asked() -> None:
    """Rafter and tie each in a joint of its own: nothing holds the one to the other."""
    found = [one for one in joints() if one["name"] != "left heel step"]
    apart = [by_others("tie alone", "left heel", "tie"), by_others("rafter alone", "left heel", "left rafter")]
    result = truss([*found, *apart])
    asked = [check for check in piece(result, "truss").checks if check.verdict == "refer"]
    assert [check.what for check in asked] == ["joint at the left heel"]
    assert piece(result, "truss: tie").verdict == "refer"
    assert truss([*found, by_others("both", "left heel", "tie", "left rafter")]).verdict == "passes"


def test_strap_holds_what_other_joints_put_on_what_hangs_in_it() -> None:
    """Struts on the tie instead of the post: by the balance of the post the strap holds all that the post pulls with,
    which is twice the upright part of a strut, P/2 each with P a panel load, and half the tie (statics)."""
    found = joints()
    seats = next(one for one in found if one["name"] == "strut seats")
    seats["members"][0]["name"] = "tie"

    def held(result: JobResult) -> float:
        check = the(piece(result, "stirrup"), "joint.strap_under")
        return max(one.value for one in check.steps if one.symbol == "R")

    w = (12.0 * math.hypot(1, 8 / 12) + 30.0) * 8.0  # lbf per ft of plan
    pinned = w * 24.0 / 4.0
    assert 0.9 * pinned < held(truss(found)) < 1.4 * pinned
    assert held(truss()) < 0.1 * pinned


def test_no_more_wood_behind_a_notch_than_the_member_has() -> None:
    """Half of a rafter of 24 ft by 8 ft is 7 ft 2 1/2 in long: sqrt(12^2 + 8^2)/2."""
    found = joints()
    found[1]["step"]["behind"] = "12 ft"
    with pytest.raises(JobError, match=r"the left rafter ends 7 ft 2\.53"):
        truss(found)


def test_load_at_the_point_of_a_rated_hanger_is_asked_for_its_way() -> None:
    """A hoist at the foot of the post hangs on the post or on the tie: only then what the hanger holds is known."""
    found = [one for one in joints() if one["name"] != "stirrup"]
    rating = {"source": "report ER-118 of 2021, edition 3, table 2", "along": "5,000 lb", "down": "5,000 lb",
              "up": "5,000 lb", "duration": "included"}  # fmt: skip
    hanger = {"name": "stirrup", "kind": "rated", "frame": "truss", "at": "foot of the king post", "rating": rating,
              "members": [{"name": "tie"}, {"name": "king post"}]}  # fmt: skip
    hoist = [{"what": "hoist", "at": "foot of the king post", "dead": "2,000 lb"}]
    asked = the(piece(truss([*found, hanger], carries=hoist), "stirrup"), "joint.bears_on")
    assert asked.verdict == "refer" and asked.questions[0].answers
    on_it = piece(truss([*found, {**hanger, "bears_on": "tie"}], carries=hoist), "stirrup")
    down = [one for one in on_it.checks if one.id == "anchor.rated" and "down" in one.what]
    assert down[0].demand is not None and down[0].demand > 2000.0


def test_rated_hanger_in_the_side_of_a_tie_takes_the_shear_of_the_frame() -> None:
    """Of what hangs on a tie that runs through at least half goes to one side (statics)."""
    rating = {
        "source": "evaluation report ER-0000, 2025 edition, table 3",
        "along": "9,000 lbf",
        "down": "9,000 lbf",
        "duration": "included",
        "loads": "roof",
        "conditions": "Douglas Fir-Larch, dry",
        "conditions_met": True,
    }
    tie = {"name": "tie", "on_girder": {"highest": "2 in", "lowest": "6 in"}}
    hanger = {"name": "stirrup", "kind": "rated", "frame": "truss", "at": "foot of the king post", "rating": rating,
              "split": "none seen", "members": [{"name": "king post"}, tie]}  # fmt: skip
    found = piece(truss([hanger]), "stirrup")
    shear = next(one for one in found.checks if one.id == "joint.on_side_shear")
    assert shear.demand is not None and shear.demand > 0.0 and not shear.notes
    tie.pop("on_girder")
    tie["seat"] = "4 in"
    pressed = next(one for one in piece(truss([hanger]), "stirrup").checks if one.id == "joint.on_seat")
    assert pressed.demand is not None
    assert shear.demand >= 0.5 * pressed.demand * 5.5 * 4.0 * (1 - 1e-6)


def test_no_seat_is_asked_for_where_nothing_stands() -> None:
    """What hangs at the foot of a post is no support under its notches."""
    found = joints()
    hung = [{"what": "lamp", "at": "foot of the king post", "dead": "300 lb"}]
    seats = piece(truss(found, carries=hung), "strut seats")
    assert not [one for one in seats.checks if one.id == "joint.step_net" and one.verdict == "refer"]


def test_heel_joint_does_not_say_how_the_heel_sits_on_a_beam() -> None:
    """A step joins rafter and tie; what holds the tie on what it stands on is another matter."""
    data = {**king(), "joint": joints()}
    data["beam"] = [{
        "name": "plate beam", "stock": "6x10", "service": "roof", "finish": "none", "top_held": "full length",
        "supports": [{"at": "0 ft", "on": "west wall", "bearing": "8 in"},
                     {"at": "6 ft", "on": "west wall", "bearing": "8 in"}],
        "carries": [],
    }]  # fmt: skip
    data["frame"][0]["feet"][0] = {"at": "left heel", "on": "plate beam", "lands_at": "3 ft", "bearing": "5 1/2 in"}
    result = check_job(job_from_data(data))
    foot = the(piece(result, "truss"), "frame.foot")
    assert foot.verdict == "refer" and foot.questions


@pytest.mark.parametrize(
    ("gone", "of", "old", "new"),
    [
        ("left heel step", "truss", 'rise = "8 ft"', 'rise = "8 ft 1/2 in"'),
        ("", "stirrup", 'beyond = "1 1/2 in"', 'beyond = "1 3/8 in"'),
    ],
)
def test_ruling_on_joint_or_frame_is_open_again_when_that_is_changed(gone: str, of: str, old: str, new: str) -> None:
    """The letter was written for what was there then."""
    found = [one for one in joints() if one["name"] != gone]
    next(one for one in found if one["name"] == "stirrup")["split"] = "none seen" if gone else "check across the holes"
    text = tomlkit.dumps({**king(), "joint": found})
    for asked in [one.question for one in check_job(read_job_text(text)).questions]:
        covers = {part: f"{force + 500.0:.0f} lb" for part, force in asked.forces.items()}
        text = with_ruling(text, asked, says="it holds as drawn", by="A. Invented, PE 00000", document="S-9.pdf",
                           up_to=covers, on="2026-03-09")  # fmt: skip
    assert check_job(read_job_text(text)).verdict == "passes"
    assert old in text
    assert check_job(read_job_text(text.replace(old, new))).verdict == "refer", of
