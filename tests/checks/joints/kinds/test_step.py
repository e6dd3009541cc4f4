"""Step joints against hand sums typed here; the rows are those of a truss of an invented boat shed."""

from __future__ import annotations

import math

import pytest

from ..jobs import Data, checked, joint, member, step_value, the, wood

BETA = 33.69
TIE, RAFTER = wood("tie", "5 1/2 in x 9 1/2 in"), wood("rafter", "5 1/2 in x 7 1/2 in")


def heel(N: float = 4870.0, beta: float = BETA, load: str = "live", **step: str) -> Data:
    T, V = N * math.cos(math.radians(beta)), N * math.sin(math.radians(beta))
    cut = {
        "depth": "1 3/4 in", "behind": "12 in", "face": "bisector", "checked": "no checks there",
        "reaction_off": "0 in", **step,
    }  # fmt: skip
    assert V > 0
    return joint(
        "step", member("tie", "tie", 0.0, T, load=load, part="notched"),
        member("rafter", "rafter", beta, -N, load=load, part="landing"), step=cut, stands_on="wall plate",
    )  # fmt: skip


def test_bisector_by_hand() -> None:
    """Pressure N cos2(beta/2)/(b t), Hankinson at half the angle, 1.5 T/(b l_v), d/4: closed forms of statics."""
    piece = checked(heel(), TIE, RAFTER)
    half = math.radians(BETA / 2)
    pressure = 4870 * math.cos(half) ** 2 / (5.5 * 1.75)
    allowed = 1150 * 625 / (1150 * math.sin(half) ** 2 + 625 * math.cos(half) ** 2)
    for one in ("in tie", "in rafter"):
        check = the(piece, "joint.step_bearing", what=one)
        assert check.demand == pytest.approx(pressure, rel=1e-6)
        assert check.capacity == pytest.approx(allowed, rel=1e-6)
    shear = the(piece, "joint.step_shear")
    assert shear.ratio == pytest.approx(1.5 * 4870 * math.cos(2 * half) / (5.5 * 12) / 170, rel=1e-6)
    assert the(piece, "joint.step_depth").capacity == pytest.approx(9.5 / 4, abs=1e-5)
    assert piece.verdict == "passes"


@pytest.mark.parametrize(
    ("face", "in_tie", "in_rafter"),
    [("square to the landing piece", BETA, 0.0), ("square to the notched piece", 0.0, BETA)],
)
def test_other_faces(face: str, in_tie: float, in_rafter: float) -> None:
    """N cos(beta)/(b t) on either; the piece that the face is square to takes it along its grain."""
    piece = checked(heel(face=face), TIE, RAFTER)
    for one, theta in (("in tie", in_tie), ("in rafter", in_rafter)):
        check, t = the(piece, "joint.step_bearing", what=one), math.radians(theta)
        assert check.demand == pytest.approx(4870 * math.cos(math.radians(BETA)) / (5.5 * 1.75), rel=1e-6)
        assert check.capacity == pytest.approx(1150 * 625 / (1150 * math.sin(t) ** 2 + 625 * math.cos(t) ** 2))


def test_support_beside_the_foot_bends_the_wood_under_the_notch() -> None:
    """M = T h/2 - V x_R (statics); the reaction 5 in outward."""
    piece = checked(heel(reaction_off="5 in"), TIE, RAFTER)
    T, V = 4870 * math.cos(math.radians(BETA)), 4870 * math.sin(math.radians(BETA))
    assert step_value(the(piece, "joint.step_net"), "M") == pytest.approx(T * 9.5 / 2 - V * 5.0, rel=1e-6)
    assert the(piece, "joint.step_notch").notes[0].endswith("outward of the foot")
    inward = checked(heel(reaction_off="-3 in"), TIE, RAFTER)
    d_n = 9.5 - 1.75
    shear = the(inward, "joint.step_notch")  # NDS 2018 3.4.3.2(a), memory: 2/3 F_v' b d_n (d_n/d)^2
    assert shear.capacity == pytest.approx(2 / 3 * 170 * 5.5 * d_n * (d_n / 9.5) ** 2, rel=1e-6)


def test_six_inches_behind_the_notch_split_off() -> None:
    """Least 8 in, whatever the stress (German annex to Eurocode 5, second-hand)."""
    piece = checked(heel(N=200.0, behind="6 in"), TIE, RAFTER)
    assert piece.verdict == "fails" and the(piece, "joint.step_length").verdict == "fails"


def test_length_counts_to_eight_depths() -> None:
    """20 in behind a notch of 1 in count as 8 in."""
    piece = checked(heel(N=1000.0, behind="20 in", depth="1 in"), TIE, RAFTER)
    assert step_value(the(piece, "joint.step_shear"), "l_v_ef") == pytest.approx(8.0)


def test_a_pull_needs_a_strap() -> None:
    """Wind that draws the rafter out: it refers, and a report with the pull closes that."""
    one = heel(load="snow")
    for place, sign in ((0, -1.0), (1, 1.0)):
        force = 0.6 * 500.0 * sign
        one["members"][place]["forces"].append({"load": "wind", "pull": f"{force} lbf"})
    piece = checked(one, TIE, RAFTER)
    assert the(piece, "joint.step_pull").verdict == "refer"
    rating = {
        "source": "evaluation report ER-0000, 2025 edition, table 3", "along": "1,000 lbf", "up": "500 lbf",
        "duration": "included", "loads": "wind", "conditions": "Douglas Fir-Larch, all holes filled, dry",
        "conditions_met": True, "slope": "45 deg",
    }  # fmt: skip
    held = checked({**one, "rating": rating, "split": "none seen"}, TIE, RAFTER)
    assert {check.id for check in held.checks if check.verdict != "passes"} <= {"joint.balance"}


def test_what_nobody_looked_at_is_asked() -> None:
    for left_out, id in (("reaction_off", "joint.step_net"), ("checked", "joint.step_checks")):
        one = heel()
        del one["step"][left_out]
        check = the(checked(one, TIE, RAFTER), id)
        assert check.verdict == "refer" and check.questions[0].field == f"joint.J.step.{left_out}"


def test_head_of_a_king_post_from_both_sides() -> None:
    """Shoulders square to the rafters: pressure N/(b d_c), post by Hankinson at 90 - slope, a sixth from both sides."""
    slope, N = 33.69, 3245.0
    d_c = 5.5
    deep = d_c * math.sin(math.radians(slope))  # square to the post
    post = wood("post", "5 1/2 in x 11 1/2 in", F_c=1000)
    rafter = wood("rafter", "5 1/2 in x 5 1/2 in", F_c=1000)
    down = 2 * N * math.sin(math.radians(slope))
    piece = checked(
        joint(
            "step", member("king post", "post", 270.0, down, part="notched"),
            member("west", "rafter", 180.0 + slope, -N, part="landing"),
            member("east", "rafter", -slope, -N, part="landing"),
            step={"depth": f"{deep:.6f} in", "behind": "26 in", "face": "square to the landing piece",
                  "checked": "no checks there", "wide": "20 in"},
        ), post, rafter,
    )  # fmt: skip
    check = the(piece, "joint.step_bearing", "west", "in king post")
    t = math.radians(90 - slope)
    assert check.demand == pytest.approx(N / (5.5 * d_c), rel=1e-5)
    assert check.capacity == pytest.approx(1000 * 625 / (1000 * math.sin(t) ** 2 + 625 * math.cos(t) ** 2), rel=1e-6)
    shear = the(piece, "joint.step_shear", "east")
    l_ef = min(26.0, 8 * deep)
    assert shear.demand == pytest.approx(1.5 * N * math.sin(math.radians(slope)) / (5.5 * l_ef), rel=1e-5)
    assert the(piece, "joint.step_depth", "west").capacity == pytest.approx(20.0 / 6.0, abs=1e-5)
    assert piece.verdict == "passes"


def test_mirrored_heel_is_the_same() -> None:
    one = heel()
    other = heel()
    for entry in other["members"]:
        entry["direction"] = f"{180.0 - float(entry['direction'].split()[0])} deg"
    ratios = [sorted(round(check.ratio or 0.0, 9) for check in checked(each, TIE, RAFTER).checks)
              for each in (one, other)]  # fmt: skip
    assert ratios[0] == ratios[1]


def test_forces_out_of_balance_are_asked() -> None:
    one = heel()
    one["members"][0]["forces"][0]["pull"] = "3,000 lbf"
    assert the(checked(one, TIE, RAFTER), "joint.balance").verdict == "refer"
    one = heel()
    del one["stands_on"]
    assert the(checked(one, TIE, RAFTER), "joint.balance").questions[0].field == "joint.J.stands_on"
    one = heel()
    one["forces_by"] = "me"
    assert the(checked(one, TIE, RAFTER), "joint.forces").verdict == "refer"


def test_a_joggle_that_is_hardly_wider_leaves_a_notch() -> None:
    """3 in deep in a head half an inch wider than the post: 2 1/2 in of it go into the post."""
    plain = the(checked(heel(wide="9 1/2 in"), TIE, RAFTER), "joint.step_net").ratio
    assert plain == pytest.approx(the(checked(heel(), TIE, RAFTER), "joint.step_net").ratio)
    some = the(checked(heel(wide="10 1/2 in"), TIE, RAFTER), "joint.step_net").ratio
    assert some is not None and plain is not None and some < plain
    assert "joint.step_net" not in {check.id for check in checked(heel(wide="12 in"), TIE, RAFTER).checks}


def test_round_and_unknown_pieces_refer() -> None:
    """Faces of round pieces have no rules here; the weakest wood that an unknown piece might be fails nothing."""
    graded = {"grade_from": "certificate", "evidence": "grading certificate no. 118 of 3 May 2025"}
    pole = {**{key: value for key, value in TIE.items() if key != "values"}, "size": "10 in round", **graded}
    piece = checked(heel(), pole, RAFTER)
    assert piece.verdict == "refer" and the(piece, "joint.round").verdict == "refer"
    old = {"name": "tie", "species": "unknown", "grade": "unstamped", "size": "5 1/2 in x 9 1/2 in", "moisture": "dry",
           "candidates": ["Eastern White Pine", "Hem-Fir"]}  # fmt: skip
    piece = checked(heel(), old, RAFTER)
    assert piece.verdict == "refer" and the(piece, "joint.wood").questions[0].field == "stock.tie.grade"


def test_foot_bears_no_deeper_than_it_is_notched() -> None:
    """Statics: a notch 1 3/4 in deep on the bisector meets 1 3/4 in of the foot, whatever is written."""
    said = checked(heel(contact="7 1/2 in"), TIE, RAFTER)
    assert the(said, "joint.step_foot").ratio == the(checked(heel(), TIE, RAFTER), "joint.step_foot").ratio


def test_piece_that_passes_its_notch_is_asked_for_all_that_is_in_it() -> None:
    """Stated forces of a piece that goes on are what changes in it there: what else goes through it is not known."""
    one = heel()
    one["members"][0]["passes"] = True
    check = the(checked(one, TIE, RAFTER), "joint.step_net")
    assert check.verdict == "refer" and "goes on" in check.notes[0]


def test_only_weight_stated() -> None:
    """ASCE 7-16 2.4.1: a roof or floor bears more than its weight."""
    check = the(checked(heel(load="dead"), TIE, RAFTER), "joint.forces", what="kinds")
    assert check.verdict == "refer" and "only dead" in check.notes[0]
