"""Post bases, caps, ledgers, laps, inclined screws: every figure recomputed, each limit at its edge and beside."""

from __future__ import annotations

import math
from typing import Any

import pytest

from beamcheck.checks.core.context import Context, Structure
from beamcheck.checks.core.result import PieceResult
from beamcheck.checks.core.wood.group_cut import GroupCut
from beamcheck.checks.core.wood.strength import Section
from beamcheck.checks.joints.framed import together
from beamcheck.checks.joints.kinds.registry import kind_of
from beamcheck.checks.joints.meeting import stated_meeting
from beamcheck.model.reading.reader import job_from_data
from beamcheck.model.sticks import Cut

from ..jobs import HEAD, SHEET, Data, checked, joint, member, step_value, the, wood
from .test_by_report import RATING, screwed
from .test_cap_and_ledger import BEAM, CAP, POST, ledger, ledger_data
from .test_fastened import BOLT, LAID
from .test_step_by_hand import pressed
from .test_tenon_and_base import BASE, foot

F_Y = 36000.0


def ids(piece: PieceResult) -> set[str]:
    return {check.id for check in piece.checks}


# ---- post bases ------------------------------------------------------------------------------------------------------


def stood(size: str = "5 1/2 in x 7 1/2 in", *, push: float = 6000.0, down: float = 0.0, treated: bool = False,
          **base: str) -> PieceResult:  # fmt: skip
    one = joint("post base", member("post", "post", 90.0, -push, down=down), base={**BASE, **base}, stands_on="slab")
    return checked(one, {**wood("post", size), **({"treated": True} if treated else {})})


@pytest.mark.parametrize(("wide", "long", "area"), [
    ("7 in", "6 in", 5.5 * 6.0), ("6 in", "7 in", 5.5 * 6.0), ("5 in", "8 in", 5.5 * 5.0), ("8 in", "8 in", 5.5 * 7.5),
    ("4 in", "6 in", 5.5 * 4.0),
])  # fmt: skip
def test_end_grain_on_a_plate_the_way_that_leaves_least(wide: str, long: str, area: float) -> None:
    """Which side of a post of 5 1/2 x 7 1/2 in lies along which side of its plate is not said."""
    check = the(stood(bears_wide=wide, bears_long=long), "joint.base_bearing")
    assert check.demand == pytest.approx(6000.0 / area) and check.capacity == pytest.approx(1150.0)


def test_plate_over_its_stem_by_the_longer_overhang() -> None:
    """(8 - 1/2)/2 in across the bar of 3 x 1/2 in, or (11 - 3)/2 in along it."""
    for wide, long, out in (("8 in", "9 in", 3.75), ("8 in", "11 in", 4.0)):
        check = the(stood(bears_wide=wide, bears_long=long), "joint.base_plate")
        assert check.demand == pytest.approx(6000.0 / (5.5 * 7.5) * out**2 / 2)
    assert "joint.base_plate" not in ids(stood(stem="full", **GONE))


GONE: Data = {"stem_width": None, "stem_thickness": None}


@pytest.mark.parametrize(("high", "verdict"), [("1.71 in", "passes"), ("1.72 in", "refer")])
def test_stem_short_enough_for_yield_alone(high: str, verdict: str) -> None:
    """2.1 h sqrt(12)/t up to 25 (AISC J4.4): 1.718 in of a bar of 1/2 in."""
    assert the(stood(stands_off=high), "joint.base_stem").verdict == verdict


@pytest.mark.parametrize(
    ("over", "high", "treated", "verdict"),
    [("floor", "1 in", False, "passes"), ("floor", "15/16 in", False, "fails"), ("floor", "15/16 in", True, "passes"),
     ("earth", "6 in", False, "passes"), ("earth", "5 15/16 in", False, "fails"),
     ("earth", "5 15/16 in", True, "passes")],
)  # fmt: skip
def test_wood_above_floor_and_earth(over: str, high: str, treated: bool, verdict: str) -> None:
    """IRC 2018 R317.1.4 (memory): 1 in above a floor, 6 in above earth, or treated wood."""
    assert the(stood(over=over, stands_off=high, treated=treated), "joint.base_height").verdict == verdict


@pytest.mark.parametrize(("high", "level", "asked"), [
    ("3 in", "400 lbf", False), ("3 1/16 in", "400 lbf", True), ("12 in", "20 lbf", False), ("12 in", "", False),
])  # fmt: skip
def test_tall_base_under_a_level_force(high: str, level: str, asked: bool) -> None:
    """As wide as its plate and up to 3 in high nothing bends (judgment); 20 of 6,000 lb are next to nothing."""
    said = {"sideways": level} if level else {}
    piece = stood(stem="full", stands_off=high, **said, **GONE)
    assert ("joint.base_stem" in ids(piece)) is asked
    assert ("joint.base_sideways" in ids(piece)) is (level == "400 lbf")


def test_level_force_is_that_of_the_post_and_that_which_is_said() -> None:
    """A push of 300 lb of the post itself beside 400 lb: on the stem 700 lb times its height."""
    check = the(stood(down=-300.0, sideways="400 lbf", stands_off="1 in"), "joint.base_stem")
    used = 6000.0 / (F_Y * 1.5 / 1.67) + 700.0 / (F_Y * 3 * 0.25 / 4 / 1.67)
    assert check.ratio == pytest.approx(used, rel=1e-6)


def test_bolts_of_a_base_take_lift_and_level_force_together() -> None:
    """Two bolts: half of 0.6 x 2,400 lb along and half of 400 lb across, from either side."""
    piece = foot(lift=2400.0, load="wind", stands_off="1 in", sideways="400 lbf")
    assert the(piece, "anchor.lateral").demand == pytest.approx(math.hypot(720.0, 200.0))
    edges = [one for one in piece.checks if one.id == "anchor.edge_distance"]
    assert {one.what.split(" in the")[0] for one in edges} == {
        "distance to the bottom edge",
        "distance to the top edge",
    }
    assert edges[0].demand == pytest.approx(edges[1].demand or 0.0)
    assert not {"joint.base_uplift", "joint.base_sideways"} & ids(piece)
    assert any(line.startswith("post:") for line in piece.to_see)


# ---- post caps -------------------------------------------------------------------------------------------------------


def caps(
    *beams: Data, push: float = 8000.0, post: Data = POST, beam: Data = BEAM, head: float = 0.0, **cap: Any
) -> PieceResult:
    one = joint("post cap", member("post", "post", 270.0, -push, down=head, part="standing"), *beams,
                cap={**CAP, **cap})  # fmt: skip
    return checked(one, post, beam)


def lying(name: str, direction: float, down: float, **more: Any) -> Data:
    return member(name, "beam", direction, down=down, part="lying", **more)


def test_beam_on_a_cap_at_its_end_and_between() -> None:
    """C_b = (4 + 3/8)/4 for 4 in of plate where the beam goes on; 1 at its end (NDS 2018 3.10.4)."""
    for passes, C_b in ((True, 4.375 / 4.0), (False, 1.0)):
        check = the(caps(lying("girder", 0.0, 8000.0, passes=passes), bears_long="4 in"), "joint.cap_beam")
        assert check.capacity == pytest.approx(625.0 * C_b)
        assert check.demand == pytest.approx(8000.0 / (5.5 * 4.0))


def test_a_beam_broader_than_its_plate_and_a_lone_beam_that_says_less() -> None:
    """The plate is as broad as it is; a lone beam presses with all that the post is pushed with."""
    check = the(caps(lying("girder", 0.0, 5000.0, passes=True), bears_wide="4 in"), "joint.cap_beam")
    assert check.demand == pytest.approx(8000.0 / (4.0 * 9.5))
    check = the(caps(lying("girder", 0.0, 9000.0, passes=True)), "joint.cap_beam")
    assert check.demand == pytest.approx(9000.0 / (5.5 * 9.5))


@pytest.mark.parametrize(("wide", "long", "area"), [("5 1/2 in", "9 1/2 in", 5.5 * 7.5), ("9 in", "6 in", 7.5 * 6.0)])
def test_end_grain_that_the_cap_covers(wide: str, long: str, area: float) -> None:
    check = the(caps(lying("girder", 0.0, 8000.0), bears_wide=wide, bears_long=long), "joint.cap_post")
    assert check.demand == pytest.approx(8000.0 / area)


def test_two_beams_press_the_end_grain_as_twice_the_heavier() -> None:
    for west, east, P in ((4000.0, 4000.0, 8000.0), (5000.0, 3000.0, 10000.0), (3000.0, 5000.0, 10000.0)):
        check = the(caps(lying("west", 180.0, west), lying("east", 0.0, east), bears_long="3 in"), "joint.cap_post")
        assert check.demand == pytest.approx(P / (5.5 * 6.0)), (west, east)
    check = the(caps(lying("west", 180.0, 1000.0), lying("east", 0.0, 1000.0), bears_long="3 in"), "joint.cap_post")
    assert check.demand == pytest.approx(8000.0 / (5.5 * 6.0))  # the post is pushed with more than they bring


def test_beams_that_press_unlike_bend_the_post_by_half_a_plate() -> None:
    """1,000 lb more on one side, 4 in of plate: 2 in off; nothing of it where they press alike."""
    piece = caps(lying("west", 180.0, 3500.0), lying("east", 0.0, 4500.0), bears_long="4 in")
    assert step_value(the(piece, "joint.couple"), "M") == pytest.approx(1000.0 * 2.0)
    assert "joint.couple" not in ids(caps(lying("west", 180.0, 4000.0), lying("east", 0.0, 4000.0), bears_long="4 in"))


@pytest.mark.parametrize(("slope", "verdict"), [(5.0, "passes"), (5.1, "refer"), (-5.1, "refer")])
def test_beam_within_five_degrees_of_square(slope: float, verdict: str) -> None:
    assert the(caps(lying("girder", slope, 8000.0)), "joint.cap_square").verdict == verdict


def test_plate_that_stands_out_on_either_side_or_as_is_said() -> None:
    """Two plates of 5 in on 7 1/2 in: 1 1/4 in beyond; said 2 in counts more; none where nothing stands out."""
    beams = lying("west", 180.0, 4000.0), lying("east", 0.0, 4000.0)
    f = 4000.0 / (5.5 * 5.0)
    for beyond, out in (("0 in", 1.25), ("2 in", 2.0)):
        check = the(caps(*beams, bears_long="5 in", beyond=beyond), "joint.cap_plate", "west")
        assert check.demand == pytest.approx(f * out**2 / 2)
    assert "joint.cap_plate" not in ids(caps(*beams, bears_long="3 3/4 in", beyond="0 in"))
    assert "joint.cap_plate" in ids(caps(*beams, bears_long="3.76 in", beyond="0 in"))


@pytest.mark.parametrize(("head", "down", "words"), [
    (500.0, 8000.0, "500 lb push the head of post sideways"), (-500.0, 8000.0, "500 lb push the head of post sideways"),
    (10.0, 8000.0, ""), (0.0, -600.0, "600 lb lift girder"), (0.0, -10.0, ""),
])  # fmt: skip
def test_what_a_loose_cap_does_not_hold(head: float, down: float, words: str) -> None:
    found = [one for one in caps(lying("girder", 0.0, down), head=head).checks if one.id == "joint.cap_held"]
    assert [one.verdict for one in found] == (["refer"] if words else [])
    assert not words or words in found[0].notes[0]


# ---- ledgers ---------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(("joists", "M"), [("4 in", 16.0**2 / 8), ("8 in", 8.0 * 16.0 / 4), ("16 in", 16.0 * 16.0 / 4)])
def test_ledger_bends_by_an_even_load_or_by_one_joist(joists: str, M: float) -> None:
    """Of w = 2,400/144 lb/in: w s^2/8, or one joist in the middle, w a s/4, whichever is more."""
    check, w = the(ledger(joists=joists), "joint.ledger_bends"), 2400.0 / 144.0
    assert check.demand == pytest.approx(w * M / (1.5 * 9.25**2 / 6)) and check.capacity == pytest.approx(1350.0)


def test_studs_farther_apart_get_more() -> None:
    w = 2400.0 / 144.0
    for spacing, joists, R in (
        ("24 in", "16 in", 1.375 * 24 * w),
        ("16 in", "22 in", 22 * w),
        ("16 in", "23 in", 23 * w),
    ):
        check = the(ledger(spacing=spacing, joists=joists), "anchor.lateral", "ledger")
        assert check.demand == pytest.approx(max(R, 1.375 * 16 * w) / 2), (spacing, joists)


def test_a_rim_is_pressed_across_its_grain_and_a_stud_along_it() -> None:
    for behind, stock, theta in (("rim", "rim", 90.0), ("studs", "stud", 0.0)):
        stocks = wood("ledger", "1 1/2 in x 9 1/4 in"), wood("stud", "1 1/2 in x 5 1/2 in"), wood("rim", "4 in x 11 in")
        check = the(checked(ledger_data(behind=behind, stock=stock), *stocks), "anchor.lateral", "stud")
        assert next(one.value for one in check.steps if one.symbol == "theta") == pytest.approx(theta), behind


@pytest.mark.parametrize(("behind", "stock", "said"), [
    ("studs", "stud", ["the same at every stud, 16 in apart", "each fastener in the middle of a stud"]),
    ("rim", "rim", ["the same along the rim, 16 in apart"]),
])  # fmt: skip
def test_what_to_see_of_a_ledger(behind: str, stock: str, said: list[str]) -> None:
    stocks = wood("ledger", "1 1/2 in x 9 1/4 in"), wood("stud", "1 1/2 in x 5 1/2 in"), wood("rim", "4 in x 11 in")
    seen = checked(ledger_data(behind=behind, stock=stock), *stocks).to_see
    found = [line for line in seen if "the same" in line or "middle of a stud" in line]
    assert len(found) == len(said) and all(words in line for words, line in zip(said, found, strict=True)), found


def test_cuts_of_joints_that_meet_count_as_one() -> None:
    """From 10 to 16 in and from 14 to 22 in: one from 10 to 22, over all of the depth; a third lies by itself."""
    cuts = [Cut.model_construct(kind="notch", at=at, length=long, depth=1.0, face=face, width=None, from_bottom=None)
            for at, long, face in ((18.0, 8.0, "bottom"), (13.0, 6.0, "top"), (30.0, 4.0, "top"))]  # fmt: skip
    one, alone = together(cuts, Section(5.5, 7.5, 5.5))
    assert isinstance(one, GroupCut) and alone is cuts[2]
    assert (one.at, one.length, one.width, one.depth, one.from_bottom) == (16.0, 12.0, 0.0, 7.5, 3.75)
    assert sorted((void.y, void.height, void.breadth) for void in one.voids) == [(0.5, 1.0, 5.5), (7.0, 1.0, 5.5)]


@pytest.mark.parametrize(("by", "verdict"), [(SHEET, "passes"), ("the carpenter", "refer"), ("", "refer")])
def test_somebody_answers_for_the_wall(by: str, verdict: str) -> None:
    data = {**ledger_data(300.0), "confirmed_by": by}
    stocks = wood("ledger", "1 1/2 in x 9 1/4 in"), wood("stud", "1 1/2 in x 5 1/2 in")
    assert the(checked(data, *stocks), "joint.ledger_behind").verdict == verdict


@pytest.mark.parametrize(("pull", "asked"), [(3.0, False), (30.0, True), (-30.0, True)])
def test_force_along_a_ledger(pull: float, asked: bool) -> None:
    """3 lb of 300 lb are next to nothing: up to 1 % and 20 lb (judgment)."""
    data = ledger_data(300.0)
    data["members"][0]["forces"][0]["pull"] = f"{pull} lbf"
    stocks = wood("ledger", "1 1/2 in x 9 1/4 in"), wood("stud", "1 1/2 in x 5 1/2 in")
    assert ("joint.ledger_along" in ids(checked(data, *stocks))) is asked


# ---- single laps -----------------------------------------------------------------------------------------------------


def lapped(P: float, **more: Any) -> PieceResult:
    holes = {"end": "8 in", "edge": "2 3/4 in"}
    one = joint(
        "bolted lap", member("collar", "thin", 0.0, P, holes=holes), member("rafter", "thick", 180.0, P, holes=holes),
        fastener={**BOLT, "length": "11 in"}, **{**LAID, **more},
    )  # fmt: skip
    return checked(one, wood("thin", "3 1/2 in x 5 1/2 in"), wood("thick", "5 1/2 in x 5 1/2 in", F_t=1250))


def test_lap_bends_both_pieces_the_weak_way() -> None:
    """P by half of both thicknesses (statics): on S_y, with the pull, against the lesser of F_t and F_c."""
    piece = lapped(800.0)
    for name, b, F in (("collar", 3.5, 825.0), ("rafter", 5.5, 1150.0)):
        check = the(piece, "joint.lap", name)
        M = 800.0 * (3.5 + 5.5) / 2
        assert check.ratio == pytest.approx(M / (5.5 * b**2 / 6) / 1350.0 + 800.0 / (b * 5.5) / F)


@pytest.mark.parametrize(("P", "asked"), [(1000.0, False), (1001.0, True)])
def test_lap_up_to_a_thousand_pounds(P: float, asked: bool) -> None:
    found = [one for one in lapped(P).checks if one.id == "joint.lap"]
    assert [one.verdict == "refer" for one in found] == ([True] if asked else [False, False])
    held = [one for one in lapped(P, twist_held_by=f"blocking, {SHEET}").checks if one.id == "joint.lap"]
    assert [one.verdict for one in held] == ["passes"]


# ---- inclined screws -------------------------------------------------------------------------------------------------


def crossing(beta: float, pull: float = 1000.0, down: float = 0.0, angle: str = "45 deg", **more: Any) -> PieceResult:
    """A brace screwed to a post that it crosses at so many degrees; what comes goes into the post."""
    one = joint(
        "inclined screws", member("brace", "brace", 30.0, pull, down=down), member("post", "post", 30.0 + beta),
        **{"rating": {**RATING, "along": "850 lbf", "slope": "60 deg"}, "split": "none seen", "bears_on": "post",
           "stands_on": "sill", "screws": {"count": 4, "angle": angle}, **more},
    )  # fmt: skip
    return checked(one, wood("brace", "3 1/2 in x 5 1/2 in", F_c_perp=405), wood("post", "5 1/2 in x 7 1/2 in"))


@pytest.mark.parametrize(("beta", "area"), [
    (90.0, 5.5 * 7.5), (60.0, 5.5 * 7.5 / math.sin(math.radians(60.0))),
    (12.0, 5.5 * 7.5 / math.sin(math.radians(12.0))), (11.0, 5.5**2), (168.5, 5.5**2), (0.0, 5.5**2),
])  # fmt: skip
def test_faces_pressed_by_inclined_screws(beta: float, area: float) -> None:
    """R = n T sin(alpha) = P tan(alpha) on the area that both share; hardly crossing (sine to 0.2) a square."""
    piece = crossing(beta, angle="60 deg")
    for name, F in (("brace", 405.0), ("post", 625.0)):
        check = the(piece, "joint.screws_press", name)
        assert check.demand == pytest.approx(1000.0 * math.tan(math.radians(60.0)) / area)
        assert check.capacity == pytest.approx(F)
        assert step_value(check, "T") == pytest.approx(1000.0 / (4 * 0.5))


@pytest.mark.parametrize(
    ("angle", "counts"), [("29.9 deg", False), ("30 deg", True), ("75 deg", True), ("75.1 deg", False)]
)
def test_angles_at_which_screws_are_drawn_on(angle: str, counts: bool) -> None:
    piece = screwed(500.0, angle=angle)
    assert ("joint.screws_press" in ids(piece)) is counts
    assert any(one.what == "angle of the screws" for one in piece.checks) is not counts


@pytest.mark.parametrize(("down", "asked"), [(8.0, False), (12.0, True), (-300.0, True)])
def test_load_across_inclined_screws(down: float, asked: bool) -> None:
    """1 % of 1,000 lb is next to nothing."""
    assert any(one.what == "load across the screws" for one in crossing(60.0, down=down).checks) is asked


@pytest.mark.parametrize(("other", "asked"), [(0.6 * 15.0, False), (-1000.0, False), (1030.0, True)])
def test_load_both_ways_along_one_lean(other: float, asked: bool) -> None:
    """Live load one way, wind the other: what is left of it is next to nothing, nothing, or 1,018 lb times 0.6."""
    one = crossing(60.0)
    assert not any(check.what == "load both ways" for check in one.checks)
    data = joint(
        "inclined screws", member("brace", "brace", 30.0, 1000.0), member("post", "post", 90.0),
        rating={**RATING, "along": "850 lbf", "slope": "60 deg"}, split="none seen", bears_on="post", stands_on="sill",
        screws={"count": 4, "angle": "45 deg"},
    )  # fmt: skip
    data["members"][0]["forces"].append({"load": "wind", "pull": f"{-other} lbf"})
    piece = checked(data, wood("brace", "3 1/2 in x 5 1/2 in"), wood("post", "5 1/2 in x 7 1/2 in"))
    assert any(check.what == "load both ways" for check in piece.checks) is asked


def test_screws_of_a_report_without_a_pull_and_of_no_known_way() -> None:
    rating = {key: value for key, value in RATING.items() if key != "along"}
    check = the(crossing(60.0, rating={**rating, "slope": "60 deg"}), "joint.screws")
    assert check.verdict == "refer" and check.questions[0].field == "joint.J.rating.along"
    asked = crossing(60.0, bears_on=None)
    assert "joint.bears_on" in ids(asked) and "joint.screws_press" not in ids(asked)


def test_what_to_see_of_screws_that_lean_one_way() -> None:
    leaning, crossed = screwed(500.0).to_see, screwed(500.0, crossed=True).to_see
    assert len(leaning) == len(crossed) + 1 and "every screw leans" in leaning[-1]


# ---- groups of members -----------------------------------------------------------------------------------------------


def test_specific_gravity_by_letter_counts_before_that_of_the_species() -> None:
    holes = {"end": "8 in", "edge": "2 3/4 in"}
    one = joint(
        "bolted lap", member("collar", "thin", 0.0, 500.0, holes=holes),
        member("rafter", "thick", 180.0, 500.0, holes=holes), fastener={**BOLT, "length": "11 in"}, **LAID,
    )  # fmt: skip
    piece = checked(one, wood("thin", "3 1/2 in x 5 1/2 in", G=0.42), wood("thick", "5 1/2 in x 5 1/2 in", G=0.55))
    check = the(piece, "anchor.lateral", "collar")
    assert {one.value for one in check.steps if one.symbol == "G"} == {0.42, 0.55}


def cut(*, passes: bool, ahead: bool, slot: bool, rows: int = 2) -> Any:
    """What bolts of 3/4 in, two rows 3 in apart, take out of a member that begins 100 in before the joint."""
    plate = {"steel": "A36", "thickness": "3/8 in", "width": "6 in", "length": "14 in",
             **({"slot": "7/16 in"} if slot else {})}  # fmt: skip
    laid = {"rows": rows, "columns": 2, "spacing": "4 in", "end": "5 in", "edge": "4 in",
            **({"row_spacing": "3 in"} if rows > 1 else {})}  # fmt: skip
    one = joint(
        "knife plate" if slot else "plates both sides",
        member("west", "tie", 180.0, 1000.0, holes=laid, plate=plate, passes=passes),
        member("east", "tie", 0.0, 1000.0, holes=laid, plate=plate), fastener={**BOLT, "length": "7 1/2 in"}, **LAID,
    )  # fmt: skip
    job = job_from_data({"job": HEAD, "stock": [wood("tie", "5 1/2 in x 9 1/2 in")], "joint": [one]})
    context = Context(Structure({one.name: one for one in job.stock}, {}))
    meeting = stated_meeting(job.joint[0], context)
    (found,) = kind_of(job.joint[0]).cuts(meeting, meeting.members[0], 100.0, ahead)
    return found


@pytest.mark.parametrize(("passes", "ahead", "middle", "length"), [
    (False, True, 100.0 + 7.0, 4.8125), (False, False, 100.0 - 7.0, 4.8125), (True, True, 100.0, 4.8125),
])  # fmt: skip
def test_what_bolts_of_a_joint_take_out(passes: bool, ahead: bool, middle: float, length: float) -> None:
    """Holes of 13/16 in from 5 to 9 in off the joint; of a member that goes on they lie about it."""
    found = cut(passes=passes, ahead=ahead, slot=False)
    assert (found.at, found.length, found.width) == pytest.approx((middle, length, 0.0))
    assert (found.depth, found.from_bottom) == pytest.approx((3.0 + 0.8125, 5.5))
    assert [(void.y, void.height, void.breadth) for void in found.voids] == [
        pytest.approx((4.0, 0.8125, 5.5)), pytest.approx((7.0, 0.8125, 5.5))]  # fmt: skip


def test_what_a_slot_of_a_joint_takes_out() -> None:
    """7/16 in over the length of the plate, through the whole depth."""
    found = cut(passes=False, ahead=True, slot=True)
    assert (found.at, found.length, found.width) == pytest.approx((107.0, 14.0, 0.4375))
    assert found.depth == pytest.approx(9.5) and all(void.breadth == pytest.approx(5.0625) for void in found.voids)


def test_a_foot_that_only_pulls_shears_nothing() -> None:
    pulled = the(pressed(-700.0, 0.0), "joint.step_shear")
    assert pulled.demand == 0.0


def test_forces_out_of_balance_by_two_percent() -> None:
    """Of the largest, sideways and upright (judgment)."""
    for level, upright, verdict in ((20.0, 0.0, "passes"), (20.1, 0.0, "refer"), (0.0, 19.9, "passes"),
                                    (0.0, 20.5, "refer")):  # fmt: skip
        one = joint("by others", member("a", "x", 0.0, 1000.0, down=upright), member("b", "x", 180.0, 1000.0 - level),
                    confirmed_by=SHEET)  # fmt: skip
        check = the(checked(one, wood("x", "5 1/2 in x 5 1/2 in")), "joint.balance")
        assert check.verdict == verdict, (level, upright)
    assert "go into sill" in the(checked({**one, "stands_on": "sill"}, wood("x", "5 1/2 in x 5 1/2 in")),
                                 "joint.balance").notes[0]  # fmt: skip
