"""A truss and a bent against statics: what stands in their tables and checks, and every rule of the whole at its limit.

The jobs are those of `jobs.py`: a king-post truss of 24 ft by 8 ft and a braced bent of 14 ft by 9 ft, both 8 ft apart.
"""

from __future__ import annotations

import math
from typing import Any

import numpy as np
import pytest

from beamcheck.checks.core.pictures.others import FramePicture
from beamcheck.checks.core.result import JobResult
from beamcheck.checks.frames.assembly import order_of
from beamcheck.model.reading.reader import job_from_data

from ..joints.jobs import step_value
from ..joints.test_framed import joints
from .jobs import SHEET, bent, check, checked, king, piece, wall


@pytest.fixture(scope="module")
def truss() -> JobResult:
    return checked(king())


@pytest.fixture(scope="module")
def braced() -> JobResult:
    return checked(bent())


def row(result: JobResult, name: str, title: str, first: str) -> tuple[str, ...]:
    table = next(one for one in piece(result, name).tables if one.title == title)
    return next(one for one in table.rows if one[0] == first)


def number(text: str) -> float:
    return float(text.split()[0].replace(",", ""))


# ---- tables ----------------------------------------------------------------------------------------------------------


def test_table_of_forces_holds_what_the_members_are_checked_with(truss: JobResult) -> None:
    for name in ("left rafter", "tie", "left strut"):
        said, own = row(truss, "truss", "Forces of the members", name), piece(truss, f"truss: {name}")
        M = max(step_value(one, "M") for one in own.checks if one.id == "frame.bending")
        off = 2457.16 * 7.5 / 6 if name == "left strut" else 0.0  # a strut is pressed a sixth off its middle
        assert number(said[5]) * 12.0 == pytest.approx(M - off, rel=2e-3)
        shear = next(one for one in own.checks if one.id == "frame.shear")
        assert number(said[6]) == pytest.approx(step_value(shear, "V"), rel=2e-3)
        pushes = [step_value(one, "P") for one in own.checks if one.id == "frame.bending_sideways"]
        pulls = [step_value(one, "T") for one in own.checks if one.id == "frame.tension"]
        assert [number(one) for one in (said[1], said[3]) if one != "–"] == [
            pytest.approx(max(force), abs=0.6) for force in (pushes, pulls) if force]  # fmt: skip
        assert (said[2] == "–", said[4] == "–") == (not pushes, not pulls)


def test_a_member_that_hogs_most_shows_that_moment() -> None:
    """A brace pushes the post of a bent inward: H by 6 ft, with the lower (inner) edge pressed."""
    data = bent()
    said = row(checked(data), "bent", "Forces of the members", "left post")
    assert number(said[5]) == pytest.approx(369.426 * 6.0, rel=1e-3)


def test_table_along_a_member(truss: JobResult) -> None:
    """The combinations that push, bend and shear it most, each once."""
    table = next(one for one in piece(truss, "truss: left rafter").tables if one.title == "Forces along the member")
    said = row(truss, "truss", "Forces of the members", "left rafter")
    for column, other in ((1, 1), (3, 5), (4, 6)):
        assert max(number(one[column]) for one in table.rows) == pytest.approx(number(said[other]), rel=2e-3)
    assert all(one[2] == "–" for one in table.rows) and len({one[0] for one in table.rows}) == len(table.rows)


def test_the_picture_of_a_frame_tells_its_loads_as_given(truss: JobResult) -> None:
    picture = piece(truss, "truss").pictures[0]
    assert isinstance(picture, FramePicture)
    assert picture.loads == ("roof, dead, 12 psf, rafters, along the slope, 8 ft",
                             "roof, snow, 30 psf, rafters, on plan, 8 ft")  # fmt: skip


def test_reactions_are_half_of_all_that_stands_on_it(truss: JobResult) -> None:
    """Most: dead load and the whole roof under snow. Least: 0.6 of what stays; no thrust with a foot that slides."""
    said = row(truss, "truss", "Reactions", "left heel")
    seat = check(truss, "truss", "frame.bearing", "west wall")
    assert number(said[2]) == pytest.approx(step_value(seat, "R"), abs=0.6)
    assert number(said[3]) == pytest.approx(0.6 * (number(said[2]) - 30 / 144 * 96 * 288 / 2), abs=0.6)
    assert number(said[4]) == 0.0


def test_loads_as_given(truss: JobResult) -> None:
    table = next(one for one in piece(truss, "truss").tables if one.title == "Loads as given")
    assert [one[2:] for one in table.rows] == [
        ("12 psf", "rafters, along the slope", "8 ft"), ("30 psf", "rafters, on plan", "8 ft")]  # fmt: skip


# ---- statics of the bent ---------------------------------------------------------------------------------------------


def test_posts_of_a_bent_stand_in_balance(braced: JobResult) -> None:
    """The foot pushes with H; below the brace the post has H by 6 ft, above it that over 3 ft (statics)."""
    H = step_value(check(braced, "bent", "frame.thrust", "west wall"), "H")
    post = "bent: left post"
    assert step_value(check(braced, post, "frame.bending"), "M") == pytest.approx(H * 72.0)
    assert step_value(check(braced, post, "frame.shear"), "V") == pytest.approx(H * 72.0 / 36.0)
    R = step_value(check(braced, "bent", "frame.bearing", "west wall"), "R")
    pressed = check(braced, post, "frame.bending_with_compression")
    assert step_value(pressed, "P") == pytest.approx(R) and step_value(pressed, "l_e1") == pytest.approx(108.0)


def test_seat_of_a_post_is_end_grain(braced: JobResult) -> None:
    """F_c* of Douglas Fir-Larch No. 1 posts, 1000 psi, with 1.15 for snow, on 7 1/2 by 7 1/2 in."""
    seat = check(braced, "bent", "frame.bearing", "west wall")
    assert seat.capacity == pytest.approx(1150.0)
    assert seat.demand == pytest.approx(step_value(seat, "R") / 7.5**2)


@pytest.mark.parametrize(("foot", "l_b", "b"), [
    ({"bearing": "5 in"}, 5.0, 7.5), ({"bearing": "9 in"}, 7.5, 7.5),
    ({"bearing": "5 in", "bearing_width": "4 in"}, 5.0, 4.0),
    ({"bearing": "5 in", "bearing_width": "9 in"}, 5.0, 7.5),
])  # fmt: skip
def test_seat_no_longer_than_its_post_is_deep(foot: dict[str, str], l_b: float, b: float) -> None:
    data = bent()
    data["frame"][0]["feet"][0] = {"at": "left foot", "on": "west wall", **foot}
    seat = check(checked(data), "bent", "frame.bearing", "west wall")
    assert seat.demand == pytest.approx(step_value(seat, "R") / (l_b * b))


def test_seat_whose_length_is_not_said() -> None:
    data = bent()
    del data["frame"][0]["feet"][1]["bearing"]
    asked = check(checked(data), "bent", "frame.bearing", "east wall")
    assert asked.verdict == "refer" and asked.questions[0].field == "frame.bent.feet.2.bearing"


# ---- rules of the whole ----------------------------------------------------------------------------------------------


@pytest.mark.parametrize(("span", "asked"), [("40 ft", False), ("40 ft 1/2 in", True)])
def test_spans_up_to_forty_feet(span: str, asked: bool) -> None:
    found = [one.what for one in piece(checked(king(span=span)), "truss").checks if one.id == "frame.form"]
    assert found == (["its span"] if asked else [])


@pytest.mark.parametrize(("rise", "asked"), [("7 ft", True), ("7 ft 1/16 in", False)])
def test_slopes_on_which_snow_lies_on_one_side(rise: str, asked: bool) -> None:
    """1/2:12 to 7:12 (ASCE 7-16 7.6.1)."""
    snow = check(checked(king(rise=rise)), "truss", "frame.snow")
    assert (snow.verdict == "refer") is asked
    if asked:
        (answer,) = snow.questions[0].answers
        assert answer.sets[0] == ("job.snow.one_side", "30 psf")


@pytest.mark.parametrize(("one_side", "verdict"), [("30 psf", "passes"), ("31 psf", "fails")])
def test_snow_on_the_lee_side_alone(one_side: str, verdict: str) -> None:
    """Against the most that lies on either side: 30 psf here, 25 psf there."""
    data = king(rise="6 ft")
    members = data["frame"][0]["members"]
    (roof,) = members[0].pop("carries")
    members[0]["name"] = "left rafter"
    members[0]["carries"] = [roof]
    members.append({**members[0], "name": "right rafter", "carries": [{**roof, "snow": "25 psf"}]})
    data["job"]["snow"] = {**data["job"]["snow"], "one_side": one_side}
    snow = check(checked(data), "truss", "frame.snow")
    assert snow.verdict == verdict
    assert snow.demand == pytest.approx(float(one_side.split()[0]) / 144) and snow.capacity == pytest.approx(30 / 144)


def test_answer_of_the_lee_side_is_the_most_that_lies_there() -> None:
    data = king(rise="6 ft")
    (roof,) = data["frame"][0]["members"][0]["carries"]
    data["frame"][0]["members"][0]["carries"] = [roof, {**roof, "what": "drift", "snow": "45 psf"}]
    (answer,) = check(checked(data), "truss", "frame.snow").questions[0].answers
    assert dict(answer.sets)["job.snow.one_side"] == "45 psf" and "45 psf" in answer.says


def collar(height: str = "2 ft", **frame: Any) -> dict[str, Any]:
    """Rafters of 24 ft by 8 ft with a collar, on walls that take their thrust."""
    data = king(kind="collar tie", collar_height=height, **frame)
    data["existing"] = [wall(name, takes_sideways="9,000 lb") for name in ("west wall", "east wall")]
    one = data["frame"][0]
    one["members"] = [{**one["members"][0], "stock": "6x10"}, {"name": "collar", "stock": "6x8"}]
    for foot in one["feet"]:
        foot.pop("slides", None), foot.pop("slides_by", None)
    return data


@pytest.mark.parametrize(("height", "asked"), [("2 ft 7 15/16 in", False), ("2 ft 8 1/16 in", True)])
def test_collars_up_to_a_third_of_the_rise(height: str, asked: bool) -> None:
    """IRC R802.5.2: the lower third of 8 ft."""
    found = [one for one in piece(checked(collar(height)), "truss").checks if one.id == "frame.collar"]
    assert [one.verdict for one in found] == (["refer"] if asked else [])


def test_rafters_with_a_collar_buckle_over_more_than_their_length() -> None:
    """1.35 times 173.07 in (elastic critical load, feet free)."""
    pressed = check(checked(collar()), "truss: left rafter", "frame.bending_with_compression")
    assert step_value(pressed, "l_e1") == pytest.approx(1.35 * math.hypot(144, 96))


@pytest.mark.parametrize(("said", "words"), [("", "is not said"), ("the deck", "held by 'the deck'"), (SHEET, "")])
def test_what_keeps_a_bent_from_swaying(said: str, words: str) -> None:
    sway = check(checked(bent(sway_held_by=said)), "bent", "frame.sway")
    assert sway.verdict == ("refer" if words else "passes") and words in sway.notes[0]


def test_triangles_need_nobody_against_swaying(truss: JobResult) -> None:
    assert not {"frame.sway", "frame.buckling", "frame.opens", "frame.collar"} & {
        one.id for one in piece(truss, "truss").checks}  # fmt: skip


# ---- sag -------------------------------------------------------------------------------------------------------------


def sags(dead: float, snow: float, **frame: Any) -> tuple[float, float]:
    """Deflection of the whole under variable load, and in all, in."""
    data = king(joint_play="0 in", joints_by=SHEET, **frame)
    data["frame"][0]["members"][0]["carries"] = [{"what": "roof", "dead": f"{dead} psf", "snow": f"{snow} psf"}]
    result = checked(data)
    found = [check(result, "truss", id, "the frame") for id in ("frame.deflection", "frame.deflection.total")]
    return step_value(found[0], "Delta"), step_value(found[1], "Delta")


def test_sag_grows_with_its_loads_and_what_lasts_counts_once_and_a_half() -> None:
    """Linear; K_cr 1.5 of seasoned wood (NDS 2018 3.5.2) on dead load, which lies along the slope, snow on plan."""
    passing, whole = sags(12.0, 30.0)
    double, _ = sags(12.0, 60.0)
    more, heavier = sags(24.0, 30.0)
    assert double == pytest.approx(2.0 * passing) and more == pytest.approx(passing)
    dead_12 = passing * 12.0 * math.hypot(1, 8 / 12) / 30.0
    assert heavier - whole == pytest.approx(1.5 * dead_12, rel=1e-6)
    assert whole > passing + 1.5 * dead_12  # the wood itself is on top


def test_limits_of_sag(truss: JobResult) -> None:
    """A roof without a ceiling: L/240 of what passes, L/120 in all, of 24 ft and of a panel (IBC Table 1604.3)."""
    for what, length in (("the frame", 288.0), ("the tie", 144.0), ("the left rafter", math.hypot(72, 48))):
        for id, part in (("frame.deflection", 240.0), ("frame.deflection.total", 120.0)):
            assert check(truss, "truss", id, what).capacity == pytest.approx(length / part, rel=1e-6), (what, id)


def test_feet_that_part_beside_a_finish() -> None:
    """Up to 1/4 in with creep (judgment); the tie stretches by its pull alone, a little."""
    assert check(checked(king(finish="none")), "truss", "frame.spread").verdict == "passes"
    soft = {"joint_stiffness": "3000 lb/in", "joints_by": SHEET}
    for finish, verdict in (("none", "passes"), ("plaster", "refer")):
        assert check(checked(king(finish=finish, **soft)), "truss", "frame.spread").verdict == verdict


# ---- assembly --------------------------------------------------------------------------------------------------------


def test_order_of_assembly_of_a_king_post_truss() -> None:
    """The level tie first; then always what closes most joints with what lies there."""
    job = job_from_data({**king(), "joint": joints()})
    order = order_of(job.frame[0], job.joint)
    assert order[0] == "tie"
    members = [{one.name for one in joint.members} for joint in job.joint]
    for k in range(1, len(order)):
        laid = set(order[:k])
        near = [name for name in order[k:] if any(name in one and one & laid for one in members)]
        assert order[k] in near
        closes = {name: sum(one <= laid | {name} for one in members) for name in near}
        assert closes[order[k]] == max(closes.values())


def test_panels_of_the_order_lie_where_the_frame_is() -> None:
    """The tie, 9 1/2 in deep, about the line between its heels, and the post upright; each joint is closed once."""
    data = {**king(), "joint": joints()}
    result = piece(checked(data), "truss")
    picture = result.assembly
    assert picture is not None
    for name, low, high in (("tie", (0.0, -4.75), (288.0, 4.75)), ("king post", (140.25, -96.0), (147.75, 0.0))):
        corners = np.array(next(one.points for one in picture.laid if one.name == name))
        assert corners.min(axis=0) == pytest.approx(low) and corners.max(axis=0) == pytest.approx(high), name
    at = {one.name: one.points for one in picture.laid if one.what == "joint"}
    assert at["left strut head"] == (pytest.approx((72.0, -48.0)),)
    table = next(one for one in result.tables if one.title == "Order of assembly")
    assert table.rows[0][:2] == ("1", "tie") and len(table.rows) == 6
    named = [name for one in table.rows for name in (*one[2].split(", "), *one[3].split(", ")) if name != "–"]
    assert sorted(named) == sorted(joint["name"] for joint in data["joint"])


def test_what_shares_no_joint_with_what_lies_there_waits() -> None:
    """One joint of four members at the foot of the post: the rafters, first by name, share none with the tie."""
    foot = {"name": "foot", "kind": "by others", "frame": "truss", "at": "foot of the king post", "confirmed_by": SHEET,
            "members": [{"name": one} for one in ("tie", "king post", "left strut", "right strut")]}  # fmt: skip
    job = job_from_data({**king(), "joint": [foot]})
    assert order_of(job.frame[0], job.joint)[:4] == ["tie", "king post", "left strut", "right strut"]


# ---- what is not known of a member or of what is under it -----------------------------------------------------------


@pytest.mark.parametrize(("unknown", "screened"), [
    ({"species": "unknown", "candidates": ["Hem-Fir", "Eastern White Pine"]}, True),
    ({"species": "Hem-Fir"}, True), ({"species": "unknown"}, False),
])  # fmt: skip
def test_members_of_unknown_wood(unknown: dict[str, Any], screened: bool) -> None:
    """With candidates, or a species without its grade, figures are shown; with nothing it is asked what it may be."""
    data = king()
    data["stock"][0] = {"name": "6x8", "size": "6x8 dressed", "grade": "unstamped", "moisture": "dry",
                        "measured_moisture": "14 %", **unknown}  # fmt: skip
    found = piece(checked(data), "truss: left strut")
    assert any(one.id == "frame.bending_with_compression" for one in found.checks) is screened
    assert any(one.id == "frame.wood" for one in found.checks) is not screened
    assert found.verdict == "refer"


def on_a_beam(**more: Any) -> dict[str, Any]:
    data = king(**more)
    data["beam"] = [{
        "name": "plate beam", "stock": "6x10", "service": "roof", "finish": "none", "top_held": "full length",
        "supports": [{"at": "0 ft", "on": "west wall", "bearing": "8 in"},
                     {"at": "6 ft", "on": "west wall", "bearing": "8 in"}],
        "carries": [],
    }]  # fmt: skip
    data["frame"][0]["feet"][0] = {"at": "left heel", "on": "plate beam", "lands_at": "3 ft", "bearing": "5 1/2 in"}
    return data


def test_a_truss_on_a_beam_that_is_lifted() -> None:
    """The seat on the beam is asked about, with what presses; what lifts has nothing that ties it down."""
    data = on_a_beam()
    found = checked(data)
    foot = check(found, "truss", "frame.foot")
    assert foot.verdict == "refer" and foot.questions[0].forces["presses"] == pytest.approx(4656.0, rel=1e-3)
    assert "frame.uplift" not in {one.id for one in piece(found, "truss").checks}
    data["frame"][0]["members"][0]["carries"].append({"what": "wind", "wind": "-60 psf"})
    lifted = check(checked(data), "truss", "frame.uplift")
    # 0.6 D + 0.6 W: what the wall has without wind, less 0.6 x 60 psf on half of the roof (statics)
    up = 0.6 * 60 / 144 * 96 * 144 - 0.6 * (4655.9 - 2880.0)
    assert lifted.verdict == "refer" and lifted.questions[0].forces["lifts"] == pytest.approx(up, rel=0.35)
