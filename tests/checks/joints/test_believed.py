"""What a job says of a joint is held against the rest of what it says."""

from __future__ import annotations

import math
from typing import Any

import pytest

from beamcheck.checks.core.result import JobResult
from beamcheck.checks.job import check_job
from beamcheck.errors import JobError
from beamcheck.model.reading.reader import job_from_data

from ..frames.jobs import SHEET, king
from .jobs import Data, checked, joint, member, step_value, the, wood
from .kinds.test_step import BETA, RAFTER, TIE, heel
from .test_framed import BOLT, LAID, joints, piece


def test_foot_that_bears_on_less_than_its_notch_presses_harder() -> None:
    """Statics: half the face, twice the pressure."""
    whole, half = (the(checked(heel(contact=one), TIE, RAFTER), "joint.step_bearing", what="in tie").demand
                   for one in ("1 3/4 in", "7/8 in"))  # fmt: skip
    assert half == pytest.approx(2.0 * (whole or 0.0))


def test_foot_presses_on_no_more_than_its_own_depth() -> None:
    """A notch of 9 in in a head of 40 in meets 7 1/2 in of the rafter, square to it."""
    one = heel(depth="9 in", wide="40 in", behind="80 in")
    found = the(checked(one, TIE, RAFTER), "joint.step_bearing", what="in tie").demand
    assert found == pytest.approx(4870 * math.cos(math.radians(BETA / 2)) ** 2 / (5.5 * 7.5))


@pytest.mark.parametrize(("wide", "verdict"), [("18 in", "passes"), ("40 in", "refer"), ("8 in", "fails")])
def test_head_is_no_wider_than_the_stick_that_it_is_cut_from(wide: str, verdict: str) -> None:
    assert the(checked(heel(wide=wide), TIE, RAFTER), "joint.step_wide").verdict == verdict


def test_stick_that_a_head_is_cut_from_settles_how_wide_it_is() -> None:
    big = wood("big", "5 1/2 in x 21 1/2 in")
    for wide, verdict in (("21 in", "passes"), ("22 in", "fails")):
        found = checked(heel(wide=wide, wide_from="big"), TIE, RAFTER, big)
        assert the(found, "joint.step_wide").verdict == verdict
    for stick, told in ((wood("big", "3 1/2 in x 21 1/2 in"), "thick"),
                        ({**big, "species": "Western Cedars"}, "one stick")):  # fmt: skip
        check = the(checked(heel(wide="21 in", wide_from="big"), TIE, RAFTER, stick), "joint.step_wide")
        assert check.verdict == "fails" and told in check.notes[0]
    with pytest.raises(JobError, match="no \\[\\[stock\\]\\] named 'huge'"):
        checked(heel(wide="21 in", wide_from="huge"), TIE, RAFTER)


def test_pull_that_is_next_to_nothing_needs_no_strap() -> None:
    """0.7 lb of 4,870 lb draw it out; with 30 lb it refers."""
    for pull, verdict in ((0.7, "passes"), (30.0, "refer")):
        one = heel(load="snow")
        for place, sign in ((0, -1.0), (1, 1.0)):
            one["members"][place]["forces"].append({"load": "wind", "pull": f"{sign * pull / 0.6} lbf"})
        found = checked(one, TIE, RAFTER)
        assert [check.verdict for check in found.checks if check.id == "joint.step_pull"] == [verdict], pull


def truss(found: list[Data], data: Data | None = None, **frame: Any) -> JobResult:
    return check_job(job_from_data({**(king(**frame) if data is None else data), "joint": found}))


def test_rafter_that_lands_in_a_notch_bears_on_no_wall() -> None:
    found = joints()
    found[0]["bears_on"] = "left rafter"
    with pytest.raises(JobError, match="lies in the notch of"):
        truss(found)


def bolted_heel(**more: Any) -> list[Data]:
    found = [one for one in joints() if one["name"] != "left heel step"]
    return [*found, {
        "name": "left heel step", "kind": "bolted lap", "frame": "truss", "at": "left heel",
        "fastener": {**BOLT, "length": "13 in"}, "twist_held_by": f"blocking, {SHEET}", **LAID,
        "members": [{"name": "tie", "holes": {"end": "9 in", "edge": "4 3/4 in"}},
                    {"name": "left rafter", "holes": {"end": "9 in", "edge": "3 3/4 in"}}], **more,
    }]  # fmt: skip


def test_seat_is_checked_for_the_member_that_bears_on_it() -> None:
    """The rafter that is said to bear is pressed at its own angle: f over the length of its foot cut level."""
    on_tie, on_rafter = (
        next(check for check in piece(truss(bolted_heel(bears_on=one)), "truss").checks if check.id == "frame.bearing")
        for one in ("tie", "left rafter")
    )
    assert "tie" in on_tie.what and "left rafter" in on_rafter.what
    assert step_value(on_rafter, "theta") == pytest.approx(90.0 - math.degrees(math.atan2(8, 12)))


def test_two_joints_that_name_another_member_on_the_seat() -> None:
    other = {"name": "second", "kind": "by others", "frame": "truss", "at": "left heel", "confirmed_by": SHEET,
             "members": [{"name": "tie"}], "bears_on": "tie"}  # fmt: skip
    with pytest.raises(JobError, match="bears on"):
        truss([*bolted_heel(bears_on="left rafter"), other])


def lengths(**more: Any) -> Data:
    """A splice of two lengths by plates on both faces, in line."""
    holes = {"rows": 1, "columns": 3, "spacing": "3 in", "end": "5 1/4 in", "edge": "4 3/4 in"}
    plate = {"steel": "A36", "thickness": "1/4 in", "width": "4 in", "length": "13.25 in"}
    bolt = {"kind": "bolt", "size": "3/4 in", "length": "8 in", "steel": "A307", "threads": "clear of it",
            "thread_length": "1 3/4 in"}  # fmt: skip
    members = [{"name": name, "holes": holes, "plate": plate} for name in ("west length", "east length")]
    return {"name": "splice", "kind": "plates both sides", "fastener": bolt, "members": members, **LAID, **more}


def stated(pull: float, **more: Any) -> Data:
    one = lengths(forces_by=SHEET, **more)
    for entry, direction in zip(one["members"], ("180 deg", "0 deg"), strict=True):
        entry |= {"stock": "6x10", "direction": direction, "forces": [
            {"load": "dead", "pull": f"{0.4 * pull} lbf"}, {"load": "snow", "pull": f"{0.6 * pull} lbf"}]}  # fmt: skip
    return one


def test_splice_in_a_job_with_a_frame_is_asked_for_its_member() -> None:
    result = truss([*joints(), stated(500.0)])
    asked = the(piece(result, "splice"), "joint.splices")
    assert asked.verdict == "refer" and asked.questions[0].field == "joint.splice.splices"
    said = [one.sets[0][1] for one in asked.questions[0].answers]
    assert said[0] == "truss: tie" and said[-1] == "nothing"
    assert "joint.splices" not in {check.id for check in piece(truss([*joints(), stated(500.0, splices="nothing")]),
                                                               "splice").checks}  # fmt: skip


def test_stated_splice_is_held_against_the_pull_of_the_frame() -> None:
    """The tie pulls with some 5,900 lb (test_framed): a splice for 500 lb fails, one for 9,000 lb does."""
    for pull, verdict in ((500.0, "fails"), (9000.0, "passes")):
        found = piece(truss([*joints(), stated(pull, splices="truss: tie")]), "splice")
        assert the(found, "joint.splices", what="pull").verdict == verdict


def test_splice_of_a_frame_takes_its_forces_from_there() -> None:
    """At 9 ft from the left heel; what it pulls with is that of the tie."""
    result = truss([*joints(), lengths(splices="truss: tie", splice_at="9 ft")])
    found = piece(result, "splice")
    assert found.verdict in ("passes", "fails") and [table for table in found.tables if "forces" in table.title.lower()]
    tie = max(float(one.pulled.max()) for one in [_solved(result, "tie")])
    assert max(check.demand or 0.0 for check in found.checks if check.kind == "force") == pytest.approx(tie, rel=0.35)


def _solved(result: JobResult, stick: str) -> Any:
    class Pulled:
        def __init__(self, check: Any) -> None:
            import numpy as np

            self.pulled = np.array([step_value(check, "T")])

    return Pulled(next(one for one in piece(result, f"truss: {stick}").checks if one.id == "frame.tension"))


def test_splice_of_what_there_is_not() -> None:
    for words, where in (("truss: ty", "there is no member"), ("shed: tie", "there is no member")):
        with pytest.raises(JobError, match=where):
            truss([*joints(), lengths(splices=words)])
    for at, told in (("25 ft", "ends 24 ft"), ("8 in", "'west length' is 0 ft 8 in long"), ("23 ft 4 in", "'east len")):
        with pytest.raises(JobError, match=told):
            truss([*joints(), lengths(splices="truss: tie", splice_at=at)])
    for other, told in (("9 ft", "one joint for one place"), ("10 ft", "from its other end")):
        one, two = (lengths(splices="truss: tie", splice_at=at) for at in ("9 ft", other))
        with pytest.raises(JobError, match=told):
            truss([*joints(), one, {**two, "name": "second"}])


def test_joints_stiffer_than_usual_need_somebodys_word() -> None:
    """Unvouched, what is better than the row of judgment counts as that; what is worse counts as said."""

    def sag(**frame: Any) -> float:
        return max(check.demand or 0.0 for check in piece(truss(joints(), **frame), "truss").checks
                   if check.id == "frame.deflection")  # fmt: skip

    usual = sag()
    assert sag(joint_stiffness="90,000 lb/in") == pytest.approx(usual)
    assert sag(joint_stiffness="90,000 lb/in", joints_by=SHEET) < usual
    assert sag(joint_stiffness="5,000 lb/in") > usual


def test_play_less_than_usual_needs_somebodys_word() -> None:
    found = bolted_heel(bears_on="tie")

    def sag(**frame: Any) -> float:
        return max(check.demand or 0.0 for check in piece(truss(found, **frame), "truss").checks
                   if check.id == "frame.deflection.total")  # fmt: skip

    usual = sag()
    assert sag(joint_play="0 in") == pytest.approx(usual)
    assert sag(joint_play="0 in", joints_by=SHEET) < usual
    assert sag(joint_play="1/8 in") > usual


def test_floor_on_a_tie_is_asked_as_that_of_a_beam() -> None:
    """A bedroom with 5 psf, and a loft with none (ASCE 7-16 Table 4.3-1)."""
    for loads, id in (({"live": "5 psf", "dead": "10 psf"}, "loads.floor"), ({"dead": "10 psf"}, "loads.floor")):
        data = king()
        tie = next(one for one in data["frame"][0]["members"] if one["name"] == "tie")
        tie["carries"] = [{"what": "loft floor", **loads}]
        found = [check for check in piece(truss(joints(), data), "truss: tie").checks if check.id == id]
        assert [check.verdict for check in found] == ["refer"], loads
        assert found[0].questions[0].field.startswith("frame.truss.members.2.carries.1.")


def test_snow_on_one_side_of_a_ridge_alone() -> None:
    """A roof that is said to bear no snow on its other side is asked about (ASCE 7-16 7.6.1 asks for both)."""
    data = king()
    rafters = data["frame"][0]["members"].pop(0)
    for side, snow in (("left", "30 psf"), ("right", "0 psf")):
        load = {"what": "roof", "dead": "12 psf", "snow": snow}
        data["frame"][0]["members"].append({**rafters, "name": f"{side} rafter", "carries": [load]})
    found = [check for check in piece(truss(joints(), data), "truss").checks if check.id == "loads.roof"]
    assert [check.verdict for check in found] == ["refer"] and "right rafter" in found[0].notes[0]


def test_hole_beyond_its_member() -> None:
    found = joints()
    found[-1]["members"][0]["holes"]["end"] = "9 ft"
    with pytest.raises(JobError, match="the king post is 8 ft long"):
        truss(found)


def test_strap_farther_from_the_nearest_end_than_the_middle() -> None:
    found = joints()
    next(one for one in found if one["name"] == "stirrup")["strap"]["from_end"] = "13 ft"
    with pytest.raises(JobError, match="24 ft long: no more than half of that"):
        truss(found)


def test_report_for_a_post_says_nothing_of_rafters_that_push_past_it() -> None:
    rating = {"source": "evaluation report ER-0000, 2025 edition, table 3", "along": "9,000 lbf", "down": "9,000 lbf",
              "up": "9,000 lbf", "duration": "included", "loads": "floor", "conditions": "Douglas Fir-Larch, dry",
              "conditions_met": True, "slope": "80 deg"}  # fmt: skip
    rated = {"name": "ridge joint", "kind": "rated", "frame": "truss", "at": "ridge", "split": "none seen",
             "rating": rating,
             "members": [{"name": one} for one in ("king post", "left rafter", "right rafter")]}  # fmt: skip
    found = piece(truss([*(one for one in joints() if one["name"] != "ridge joint"), rated]), "ridge joint")
    assert the(found, "joint.pressed", "left rafter").verdict == "refer"


def test_support_stands_under_wood() -> None:
    found = checked(heel(reaction_off="13 in"), TIE, RAFTER)
    assert the(found, "joint.step_net").verdict == "fails"


def test_level_force_on_a_tall_base_of_full_width_is_asked() -> None:
    post = wood("post", "7 1/2 in x 7 1/2 in")
    base = {"steel": "A36", "plate": "3/8 in", "bears_wide": "7 in", "bears_long": "7 in", "stem": "full",
            "over": "floor", "sideways": "400 lb"}  # fmt: skip
    for high, asked in (("1 in", False), ("36 in", True)):
        one = joint("post base", member("post", "post", 90.0, -8000.0, down=0.0), base={**base, "stands_off": high},
                    stands_on="slab")  # fmt: skip
        assert ("joint.base_stem" in {check.id for check in checked(one, post).checks}) == asked


@pytest.mark.parametrize(
    ("names", "verdict"),
    [
        ("", "passes"),
        (", for 900 lb", "passes"),
        (", up to 500 lb", "refer"),
        (", 0.5 kip", "refer"),
        (", 5 kN", "passes"),
    ],
)
def test_a_letter_for_a_joint_answers_for_the_force_that_it_names(names: str, verdict: str) -> None:
    """900 lb come to it; 5 kN are 1,124 lb."""
    post = wood("post", "7 1/2 in x 7 1/2 in")
    for kind in ("by others", "scarf", "bonded rods"):
        one = joint(kind, member("a", "post", 0.0, 900.0), member("b", "post", 180.0, 900.0),
                    confirmed_by=f"engineer's sheet S-5 of 3 May 2025{names}")  # fmt: skip
        check = next(check for check in checked(one, post).checks if check.id == "joint.confirmed")
        assert check.verdict == verdict
        assert verdict == "refer" or check.notes[0].startswith("by others, confirmed: engineer's sheet S-5")


@pytest.mark.parametrize(("stock", "direction", "near"), [
    ("6x10", 0.0, ["truss: tie"]), ("6x10", 0.9, ["truss: tie"]), ("6x10", 1.1, []), ("6x8", 0.0, []),
])  # fmt: skip
def test_two_lengths_in_line_are_asked_for_members_of_their_wood_and_slope(
    stock: str, direction: float, near: list[str]
) -> None:
    """The tie of 6 x 10 lies level, its rafters of 6 x 8 aslant; within a degree it is the same direction."""
    one = stated(500.0)
    for entry, turned in zip(one["members"], (180.0, 0.0), strict=True):
        entry |= {"stock": stock, "direction": f"{turned + direction} deg"}
    asked = [check for check in piece(truss([*joints(), one]), "splice").checks if check.id == "joint.splices"]
    said = [answer.sets[0][1] for check in asked for answer in check.questions[0].answers]
    assert said == ([*near, "nothing"] if near else [])


@pytest.mark.parametrize("filler", ["none", "?", "unknown", ""])
def test_what_a_joint_stands_on_is_something(filler: str) -> None:
    """2,000 lb of a post go into the slab, or nobody knows into what."""
    base = {"steel": "A36", "plate": "3/8 in", "bears_wide": "7 in", "bears_long": "7 in", "stands_off": "1 in",
            "stem": "full"}  # fmt: skip
    one = joint("post base", member("post", "post", 90.0, -2000.0), base=base, stands_on=filler)
    found = checked(one, wood("post", "7 1/2 in x 7 1/2 in"))
    assert the(found, "joint.balance").questions[0].field == "joint.J.stands_on"


def test_rods_that_somebody_else_answers_for_are_of_any_size() -> None:
    """Nothing is worked out of glued rods: 20 mm and their steel are what the sheet says."""
    rods = {"kind": "pin", "size": "20 mm", "steel": "8.8"}
    one = joint("bonded rods", member("post", "post", 90.0, 1000.0), member("beam", "beam", 0.0, down=1000.0),
                confirmed_by=SHEET, fastener=rods)  # fmt: skip
    assert checked(one, wood("post", "6x6 dressed"), wood("beam", "6x10 dressed")).verdict == "passes"
