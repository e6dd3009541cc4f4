"""Steps recomputed: what draws out, what bends, what is cut away, and every limit at its edge and just beyond it."""

from __future__ import annotations

import math
from typing import Any

import pytest

from beamcheck.checks.core.result import Check, PieceResult

from ..jobs import Data, checked, joint, member, step_value, the, wood
from ..test_framed import joints, piece, truss
from .test_step import BETA, RAFTER, TIE, heel

B, D, DEEP = 5.5, 9.5, 1.75  # tie, in
C, S = math.cos(math.radians(BETA)), math.sin(math.radians(BETA))


def pressed(N: float, down: float, beta: float = BETA, **step: str) -> PieceResult:
    """A foot with a force square to the rafter beside its push."""
    one = heel(**step)
    one["members"][1] = member("rafter", "rafter", beta, -N, down=down, part="landing")
    return checked(one, TIE, RAFTER)


@pytest.mark.parametrize(("down", "T"), [(500.0, 1000 * C), (-500.0, 1000 * C + 500 * S)])
def test_what_comes_along_the_tie(down: float, T: float) -> None:
    """Push times cos(beta), and what the force square to the rafter adds along the tie, never what it takes off."""
    check = the(pressed(1000.0, down), "joint.step_shear")
    assert step_value(check, "T") == pytest.approx(T)


@pytest.mark.parametrize("beta", [BETA, 180.0 - BETA, -BETA, 180.0 + BETA])
def test_what_lifts_the_foot_off_its_seat(beta: float) -> None:
    """The face on the bisector holds N sin(beta/2) square to the rafter; the rest of what lifts draws it out.

    `down` is toward the lower edge: of a foot that comes from above that is into the tie, from below out of it.
    """
    into = 1.0 if math.sin(math.radians(beta)) > 0.0 else -1.0
    held = 1000.0 * math.sin(math.radians(BETA / 2))
    for off, drawn in ((-900.0, 900.0 - held), (-held + 1.0, 0.0), (900.0, 0.0)):
        check = the(pressed(1000.0, off * into, beta), "joint.step_pull")
        if drawn:
            assert check.verdict == "refer" and check.notes[0].startswith(f"{drawn:,.0f} lb draw it out")
        else:
            assert check.verdict == "passes" and "every combination" in check.notes[0]
    assert "700 lb draw it out" in the(pressed(-700.0, 0.0, beta), "joint.step_pull").notes[0]


@pytest.mark.parametrize(
    ("face", "met"),
    [("bisector", 1.75), ("square to the landing piece", 1.75 / C), ("square to the notched piece", 1.75 * C)],
)
def test_a_push_beside_the_axis_of_the_rafter(face: str, met: float) -> None:
    """(d - d_c)/2 off the axis, d_c meets the notch: (f_c/F_c*)^2 + f_b/F_b* (3.9.2, nothing buckles)."""
    check = the(checked(heel(face=face), TIE, RAFTER), "joint.step_foot")
    f_b = 4870.0 * (7.5 - met) / 2 / (5.5 * 7.5**2 / 6)
    assert check.ratio == pytest.approx((4870.0 / (5.5 * 7.5) / 1150.0) ** 2 + f_b / 1350.0)


def test_a_foot_that_bears_on_less_by_its_face() -> None:
    """1 in of the rafter meets 1 in times cos(beta) of a notch square to it, and N cos(beta) presses on that."""
    check = the(checked(heel(face="square to the landing piece", contact="1 in"), TIE, RAFTER), "joint.step_bearing",
                what="in tie")  # fmt: skip
    assert check.demand == pytest.approx(4870.0 * C / (5.5 * C))


def test_a_foot_that_bears_all_over_has_its_push_in_its_axis() -> None:
    for size, asked in (("1 1/2 in x 1 3/4 in", False), ("1 1/2 in x 1 13/16 in", True)):
        found = checked(heel(N=300.0), TIE, wood("rafter", size))
        assert ("joint.step_foot" in {check.id for check in found.checks}) is asked


def test_pieces_of_unlike_breadth_press_on_the_narrower() -> None:
    for tie, rafter in (("4 in x 9 1/2 in", "5 1/2 in x 7 1/2 in"), ("5 1/2 in x 9 1/2 in", "4 in x 7 1/2 in")):
        found = checked(heel(N=1000.0), wood("tie", tie), wood("rafter", rafter))
        check = the(found, "joint.step_bearing", what="in tie")
        assert check.demand == pytest.approx(1000.0 * math.cos(math.radians(BETA / 2)) ** 2 / (4.0 * 1.75))


@pytest.mark.parametrize(("beta", "part"), [(50.0, 4.0), (55.0, 1 / (1 / 4 - 5 / 120)), (60.0, 6.0)])
def test_depth_of_a_notch_by_its_angle(beta: float, part: float) -> None:
    """d/4 up to 50 degrees, d/6 from 60 (German annex to Eurocode 5, second-hand); just as deep as that passes."""
    for more, verdict in ((0.0, "passes"), (0.01, "fails")):
        found = checked(heel(N=300.0, beta=beta, depth=f"{D / part + more:.6f} in", behind="12 in"), TIE, RAFTER)
        assert the(found, "joint.step_depth").verdict == verdict


def two(first: float, second: float, **step: str) -> PieceResult:
    """Two struts on one post."""
    one = joint(
        "step", member("post", "tie", 270.0, 600.0, part="notched"),
        member("west", "rafter", first, -500.0, part="landing"),
        member("east", "rafter", second, -500.0, part="landing"),
        step={"depth": "1 1/2 in", "behind": "12 in", "checked": "no checks there", **step}, stands_on="sill",
    )  # fmt: skip
    return checked(one, TIE, RAFTER)


def test_notches_from_both_sides_go_a_sixth_in() -> None:
    for first, second, part in ((225.0, 315.0, 6.0), (225.0, 135.0, 4.0)):
        check = the(two(first, second), "joint.step_depth", "west")
        assert check.capacity == pytest.approx(D / part, rel=1e-6)


def test_end_grain_on_end_grain_wants_metal() -> None:
    """Over three quarters of the lesser F_c* (NDS 2018 3.10.1.3): 900 psi of the rafter."""
    rafter = wood("rafter", "5 1/2 in x 7 1/2 in", F_c=900)
    full = 675.0 * 5.5 * 1.75 / math.cos(math.radians(BETA / 2)) ** 2
    for N, metal, verdict in ((0.99, False, "passes"), (1.01, False, "refer"), (1.01, True, "passes")):
        one = heel(N=N * full)
        one["step"]["metal"] = metal
        found = checked(one, TIE, rafter)
        check = the(found, "joint.step_metal")
        assert check.verdict == verdict
        assert any("metal sheet" in seen for seen in found.to_see) is metal
        if N < 1.0:
            assert check.capacity == pytest.approx(675.0)
        if verdict == "refer":
            assert check.notes[0].startswith("682 psi is over three quarters of F_c*")  # 1.01 x 675
    assert check.ratio is None  # what lies between counts for no figure


@pytest.mark.parametrize(("behind", "verdict"), [("8 in", "passes"), ("7 15/16 in", "fails")])
def test_least_wood_behind(behind: str, verdict: str) -> None:
    found = checked(heel(N=300.0, behind=behind), TIE, RAFTER)
    checks = [one for one in found.checks if one.id in ("joint.step_length", "joint.step_shear")]
    assert [one.verdict for one in checks] == [verdict]


def net(off: str, **more: Any) -> Check:
    return the(checked(heel(reaction_off=off, **more), TIE, RAFTER), "joint.step_net")


@pytest.mark.parametrize("off", [0.0, 3.0, -3.0, 12.0])
def test_pull_and_bending_under_the_notch(off: float) -> None:
    """M = T d/2 - V x_R on b (d - t): f_t/F_t' + f_b/F_b*, or (f_b - f_t)/F_b* (3.9.1)."""
    T, V, left = 4870 * C, 4870 * S, D - DEEP
    f_b, f_t = abs(T * D / 2 - V * off) / (B * left**2 / 6), T / (B * left)
    used = max(f_t / 825.0 + f_b / 1350.0, (f_b - f_t) / 1350.0)
    assert net(f"{off} in").ratio == pytest.approx(used)


def test_support_no_farther_out_than_the_wood() -> None:
    assert net("12 in").ratio is not None and net("12 1/16 in").verdict == "fails"


@pytest.mark.parametrize(("off", "capacity"), [
    (5.0, 2 / 3 * 170 * B * (D - DEEP / (D - DEEP) * 5.0)), (-3.0, 2 / 3 * 170 * B * 7.75 * (7.75 / D) ** 2),
    (0.0, None),
])  # fmt: skip
def test_shear_of_the_tie_at_the_notch(off: float, capacity: float | None) -> None:
    """3.4.3.2: a support outward of the foot leaves the notch on the compression side, e from it; inward in tension."""
    found = [one for one in checked(heel(reaction_off=f"{off} in"), TIE, RAFTER).checks if one.id == "joint.step_notch"]
    assert [one.capacity for one in found] == ([] if capacity is None else [pytest.approx(capacity)])
    assert [one.demand for one in found] == ([] if capacity is None else [pytest.approx(4870 * S)])


def test_where_nothing_stands_under_it_nobody_is_asked_how_far() -> None:
    balanced = {"first": 225.0, "second": 315.0}
    one = joint(
        "step", member("post", "tie", 270.0, 2 * 500.0 * math.sin(math.pi / 4), part="notched"),
        member("west", "rafter", balanced["first"], -500.0, part="landing"),
        member("east", "rafter", balanced["second"], -500.0, part="landing"),
        step={"depth": "1 1/2 in", "behind": "12 in", "checked": "no checks there"},
    )  # fmt: skip
    for entry in one["members"]:  # struts push the post up, and it is hung on them
        entry["forces"][0]["pull"] = f"{-float(entry['forces'][0]['pull'].split()[0])} lbf"
    found = [check for check in checked(one, TIE, RAFTER).checks if check.id == "joint.step_net"]
    assert found and all(check.verdict != "refer" for check in found)


@pytest.mark.parametrize(("checked_", "verdict", "key"), [
    ("no checks there", "passes", ""), ("checks there", "refer", "joint_step_split"),
    ("not looked at", "refer", "joint_step_checked"),
])  # fmt: skip
def test_checks_behind_the_notch(checked_: str, verdict: str, key: str) -> None:
    check = the(checked(heel(checked=checked_), TIE, RAFTER), "joint.step_checks")
    assert check.verdict == verdict and (not key or check.questions[0].id == f"J/{key}")


@pytest.mark.parametrize(("wide", "verdict"), [
    ("9 1/2 in", "passes"), ("9 7/16 in", "fails"), ("23 3/4 in", "passes"), ("23 13/16 in", "refer"),
])  # fmt: skip
def test_head_up_to_two_and_a_half_depths(wide: str, verdict: str) -> None:
    """Judgment: 2 1/2 times the 9 1/2 in of the piece without the stick that it is cut from."""
    assert the(checked(heel(N=300.0, wide=wide), TIE, RAFTER), "joint.step_wide").verdict == verdict


def test_head_just_as_wide_as_its_stick() -> None:
    for wide, thick, verdict in (("21 1/2 in", "5 1/2 in", "passes"), ("21 9/16 in", "5 1/2 in", "fails"),
                                 ("21 in", "5 7/16 in", "fails")):  # fmt: skip
        found = checked(heel(N=300.0, wide=wide, wide_from="big"), TIE, RAFTER, wood("big", f"{thick} x 21 1/2 in"))
        assert the(found, "joint.step_wide").verdict == verdict


# ---- what steps of a frame take out of its members -------------------------------------------------------------------


@pytest.fixture(scope="module")
def cut_truss() -> Any:
    return truss()


def test_notches_in_the_members_of_a_truss(cut_truss: Any) -> None:
    """1 3/4 in off the tie at the heel, 1 in off the rafter at its strut; off the post from both sides 1 1/4 in."""
    found = {(name, check.what): check for name in ("tie", "left rafter", "king post")
             for check in piece(cut_truss, f"truss: {name}").checks if check.id == "frame.net"}  # fmt: skip
    at_heel = found["tie", "net section, notch at 0 in"]
    assert step_value(at_heel, "A") == pytest.approx(5.5 * (9.5 - 1.75))
    # the pull acts in the middle of the whole tie, 7/8 in below that of what is left (statics); its weight is little
    assert 0.875 < step_value(at_heel, "M") / step_value(at_heel, "T") < 1.0
    in_rafter = next(check for (_, what), check in found.items() if what.startswith("net section, notch at 7 ft 2"))
    assert step_value(in_rafter, "A") == pytest.approx(5.5 * (7.5 - 1.0))
    seats = found["king post", "net section, cuts of the joints, in one section, at 0 in"]
    assert step_value(seats, "A_n") == pytest.approx(5.5 * (7.5 - 2 * 1.25))
    assert step_value(seats, "y_bar") == pytest.approx(7.5 / 2)


def test_shoulders_of_a_head_that_is_wide_enough_cut_nothing(cut_truss: Any) -> None:
    """1 in deep on either side in a head of 12 in: nothing of a post of 7 1/2 in; in one of 8 1/2 in half an inch."""
    narrow: list[Data] = joints()
    next(one for one in narrow if one["name"] == "ridge joint")["step"]["wide"] = "8 1/2 in"
    checks = [[one for one in piece(result, "truss: king post").checks if one.id == "frame.net" and "8 ft" in one.what]
              for result in (cut_truss, truss(narrow))]  # fmt: skip
    assert [step_value(one, "A_n") for found in checks for one in found] == [pytest.approx(5.5 * (7.5 - 2 * 0.5))]


@pytest.mark.parametrize(("N", "asked"), [(0.5, False), (1.7, True)])
def test_where_the_support_stands_is_asked_from_half_a_pound_on_it(N: float, asked: bool) -> None:
    """N sin(beta) go into it: 0.28 lb are rounding, 0.94 lb are not (judgment)."""
    one = heel(N=N)
    del one["step"]["reaction_off"]
    fields = [question.field for check in checked(one, TIE, RAFTER).checks for question in check.questions]
    assert ("joint.J.step.reaction_off" in fields) is asked
