"""Tenons at any angle: shoulders, housings and pegs recomputed here, and each rule at its limit and beside it.

Design values are those of `jobs.wood` (F_c 1150, F_c_perp 625, F_v 170, F_t 825 psi, G 0.50); live load, C_D = 1.
"""

from __future__ import annotations

import math
from typing import Any

import pytest

from beamcheck.checks.core.result import Check, PieceResult
from beamcheck.checks.job import check_job
from beamcheck.model.reading.reader import job_from_data

from ...frames.jobs import bent
from ..jobs import Data, checked, joint, member, step_value, the, wood

POST, BRACE = wood("post", "7 1/2 in x 7 1/2 in", F_c=1150), wood("brace", "5 1/2 in x 5 1/2 in", F_c=1400)
TENON: Data = {"thickness": "1 1/2 in", "width": "5 in", "length": "4 in", "cheek": "2 in", "shoulder": "tight"}
PEGS: Data = {"wood": "White Oak", "diameter": "1 in", "count": 1, "end": "2 in", "edge": "4 in", "side": "2 in",
              "straight": True}  # fmt: skip


def at(degrees: float, N: float = 0.0, down: float = 0.0, *, post: Data = POST, brace: Data = BRACE,
       load: str = "live", **tenon: Any) -> PieceResult:  # fmt: skip
    """A brace that meets an upright post at so many degrees, with a force along it and one square to it."""
    return checked(
        joint("mortise and tenon", member("post", "post", 90.0, part="mortised", passes=True),
              member("brace", "brace", 90.0 - degrees, N, down=down, load=load, part="tenoned"),
              tenon={**TENON, **tenon}, stands_on="sill", bears_on="post", seasoned="dry"),
        post, brace,
    )  # fmt: skip


def hankinson(F_c: float, degrees: float, F_perp: float = 625.0) -> float:
    """NDS 2018 eq. 3.10-1 (read)."""
    t = math.radians(degrees)
    return F_c * F_perp / (F_c * math.sin(t) ** 2 + F_perp * math.cos(t) ** 2)


def ids(piece: PieceResult) -> set[str]:
    return {check.id for check in piece.checks}


@pytest.mark.parametrize("degrees", [90.0, 60.0, 46.0])
def test_a_push_goes_through_the_shoulders(degrees: float) -> None:
    """5 1/2 in of wood, its depth cut aslant, less the mortise of 1 1/2 x 5 in; each wood at its own angle (3.10.3)."""
    piece, beta = at(degrees, -3000.0), math.radians(degrees)
    area = 5.5 * 5.5 / math.sin(beta) - 1.5 * 5.0
    in_post, in_brace = (the(piece, "joint.shoulder", what=f"in {name}") for name in ("post", "brace"))
    for check in (in_post, in_brace):
        assert check.demand == pytest.approx(3000.0 / area)
    assert in_post.capacity == pytest.approx(hankinson(1150.0, degrees))
    assert in_brace.capacity == pytest.approx(hankinson(1400.0, 90.0 - degrees))


def test_a_shoulder_of_pieces_of_unlike_breadth_is_as_wide_as_the_narrower() -> None:
    thin = wood("post", "4 1/2 in x 7 1/2 in")
    check = the(at(90.0, -3000.0, post=thin, cheek="1 1/2 in"), "joint.shoulder", what="in post")
    assert check.demand == pytest.approx(3000.0 / (4.5 * 5.5 - 1.5 * 5.0))


def test_a_shoulder_counts_where_it_is_said_to_be_tight_and_steep_enough() -> None:
    open_ = [one for one in at(90.0, -3000.0, shoulder="open").checks if one.id == "joint.shoulder"]
    assert [one.verdict for one in open_] == ["refer", "passes", "passes"]
    assert open_[0].questions[0].field == "joint.J.tenon.shoulder"
    (flat,) = [one for one in at(44.0, -3000.0).checks if one.id == "joint.shoulder"]
    assert flat.verdict == "refer" and "needs a step" in flat.notes[0]
    assert "joint.shoulder" not in ids(at(90.0, 300.0)) and "joint.shoulder" not in ids(at(90.0, -0.4))


def test_what_slides_along_the_post_is_stopped_by_the_housing() -> None:
    """N cos(60) on 5 1/2 in times the depth of the housing, against the brace at that angle (3.10.3)."""
    loose = the(at(60.0, -3000.0), "joint.slide")
    assert loose.verdict == "refer" and "1,500 lb" in loose.notes[0]
    check = the(at(60.0, -3000.0, housing="1/2 in", under_housing="20 in"), "joint.slide")
    assert check.demand == pytest.approx(3000.0 * 0.5 / (5.5 * 0.5))
    assert check.capacity == pytest.approx(hankinson(1400.0, 60.0))
    for housing in ({}, {"housing": "1/2 in", "under_housing": "20 in"}):
        assert "joint.slide" in ids(at(88.9, -3000.0, **housing))  # within a degree of square nothing slides
        assert "joint.slide" not in ids(at(89.1, -3000.0, **housing))
        assert "joint.slide" not in ids(at(88.9, -20.0, **housing))  # 0.4 lb


@pytest.mark.parametrize(
    ("change", "fits", "words"),
    [
        ({"cheek": "3 in"}, True, ""), ({"cheek": "3 1/32 in"}, False, "thicker than post"),
        ({"thickness": "5 3/8 in", "cheek": "1 in"}, True, ""),
        ({"thickness": "5 1/2 in", "cheek": "1 in"}, False, "no shoulder"),
        ({"width": "5 1/2 in"}, True, ""), ({"width": "5 9/16 in"}, False, "wider than brace"),
        ({"length": "7 in", "housing": "1/2 in"}, True, ""),
        ({"length": "7 1/16 in", "housing": "1/2 in"}, False, "deeper than post"),
    ],
)  # fmt: skip
def test_a_tenon_lies_in_both_pieces(change: Data, fits: bool, words: str) -> None:
    """Geometry: 7 1/2 in of post hold a tenon of 1 1/2 in and two cheeks of 3 in, and 7 1/2 in of depth."""
    check = the(at(90.0, -300.0, **change), "joint.tenon_fits")
    assert check.verdict == ("passes" if fits else "fails") and words in check.notes[0]


def test_a_housing_takes_what_comes_square_to_the_brace() -> None:
    """F_c_perp (b - t) l_h; the ledge by Hankinson at 90 less the angle of the pieces; 1 1/2 V/(b 8 l_h) below it."""
    piece = at(70.0, -300.0, 1200.0, housing="1 in", under_housing="8 in")
    b = 5.5 - 1.5
    assert the(piece, "joint.housing").capacity == pytest.approx(625.0 * b * 1.0)
    ledge = the(piece, "joint.ledge")
    assert ledge.demand == pytest.approx(1200.0 / b) and ledge.capacity == pytest.approx(hankinson(1150.0, 20.0))
    shear = the(piece, "joint.ledge_shear")
    assert shear.demand == pytest.approx(1.5 * 1200.0 / (b * 8.0)) and shear.capacity == pytest.approx(170.0)
    assert "joint.tenon_shear" not in ids(piece)


@pytest.mark.parametrize(("under", "verdict"), [("8 in", "passes"), ("7 15/16 in", "fails"), (None, "refer")])
def test_wood_under_the_housing(under: str | None, verdict: str) -> None:
    """At least 8 in, whatever the stress, as behind a step (German annex to Eurocode 5, second-hand)."""
    said = {} if under is None else {"under_housing": under}
    check = the(at(90.0, 0.0, 300.0, housing="1 in", **said), "joint.ledge_shear")
    assert check.verdict == verdict


def test_wood_under_the_housing_counts_to_eight_depths() -> None:
    check = the(at(90.0, 0.0, 300.0, housing="1/2 in", under_housing="20 in"), "joint.ledge_shear")
    assert step_value(check, "l_v_ef") == pytest.approx(4.0)


def test_what_lifts_a_housed_piece_goes_through_its_tenon() -> None:
    """A ledge takes what presses on it; 2/3 F_v' t d_n (d_n/d)^2 of the tenon (3.4.3.2), F_c_perp on t l."""
    piece = at(90.0, 0.0, -800.0, housing="1 in", under_housing="20 in")
    assert "joint.housing" not in ids(piece)
    assert the(piece, "joint.tenon_shear").capacity == pytest.approx(2 / 3 * 170.0 * 1.5 * 5.0 * (5.0 / 5.5) ** 2)
    bears = the(piece, "joint.tenon_bearing")
    assert bears.demand == pytest.approx(800.0 / (1.5 * 4.0)) and bears.capacity == pytest.approx(625.0)
    assert not {"joint.housing", "joint.tenon_shear"} & ids(at(90.0, -900.0, 0.4))


def test_a_tenon_that_presses_sideways_on_its_mortise_is_asked() -> None:
    """Beyond 45 degrees from along the post's grain."""
    for degrees, asked in ((46.0, 0), (44.0, 1)):
        found = [one for one in at(degrees, 0.0, 300.0).checks if "mortise of post" in one.what]
        assert len(found) == asked and all(one.verdict == "refer" for one in found), degrees


# ---- pegs ------------------------------------------------------------------------------------------------------------


def pegged(pull: float = 200.0, degrees: float = 90.0, *, tenon: Data | None = None, **pegs: Any) -> PieceResult:
    return at(degrees, pull, cheek="2 1/2 in", thickness="2 in", **(tenon or {}), pegs={**PEGS, **pegs})


def test_one_peg_by_hand() -> None:
    """Mode V, pi D^2/7 F_vy with F_vy = 4850 G_p G_t^0.75 (memory); relish F_v' t times the end (Appendix E:
    n s F_v t); tension on 5 in less the hole."""
    piece = pegged()
    assert the(piece, "joint.pegs").capacity == pytest.approx(math.pi / 7 * 4850 * 0.73 * 0.5**0.75, rel=1e-5)
    steps = {step.symbol: step.value for step in the(piece, "joint.pegs").steps}
    assert steps["F_em"] == pytest.approx(steps["F_e_par"])  # the tenon is pulled along its grain
    assert the(piece, "joint.peg_relish").capacity == pytest.approx(170.0 * 2.0 * 2.0)
    assert the(piece, "joint.peg_tenon").capacity == pytest.approx(825.0 * 2.0 * (5.0 - 1.0))
    assert the(piece, "joint.peg_confirmed").verdict == "refer"
    assert {one.verdict for one in piece.checks if one.id.startswith("joint.peg_") and one.ratio} == {"passes"}


def test_three_pegs_share_and_are_torn_out_together() -> None:
    """n Z; the block between the outer pegs: F_v' t l twice halved, and F_t' on what is left between them."""
    laid = {"count": 3, "spacing": "2 1/2 in", "side": "1 1/2 in"}
    piece = pegged(tenon={"width": "8 in"}, **laid)
    assert the(piece, "joint.pegs").capacity == pytest.approx(3 * math.pi / 7 * 4850 * 0.73 * 0.5**0.75, rel=1e-5)
    single = 170.0 * 2.0 * 2.0
    together = single / 2 + single / 2 + 825.0 * 2.0 * 2 * (2.5 - 1.0)
    assert the(piece, "joint.peg_relish").capacity == pytest.approx(min(3 * single, together))
    assert the(piece, "joint.peg_tenon").capacity == pytest.approx(825.0 * 2.0 * (8.0 - 3 * 1.0))


@pytest.mark.parametrize(
    ("more", "words"),
    [
        ({"diameter": "3/4 in"}, ""), ({"diameter": "11/16 in"}, "3/4 in to 1 1/4 in"),
        ({"diameter": "1 1/4 in", "end": "3 in"}, ""), ({"diameter": "1 5/16 in", "end": "3 in"}, "3/4 in to 1 1/4 in"),
        ({"tenon": {"thickness": "1 1/2 in"}}, ""), ({"tenon": {"thickness": "1 7/16 in"}}, "1 1/2 in and more"),
        ({"tenon": {"cheek": "2 in"}}, ""), ({"tenon": {"cheek": "1 15/16 in"}}, "cheeks thinner"),
        ({"count": 3, "spacing": "2 1/2 in", "side": "1 1/2 in", "tenon": {"width": "8 in"}}, ""),
        ({"count": 4, "spacing": "2 1/2 in", "side": "1 1/2 in", "tenon": {"width": "11 in"}}, "do not share"),
        ({"wood": "Eastern White Pine"}, "hardwood"),
    ],
)  # fmt: skip
def test_pegs_within_what_was_tried(more: Data, words: str) -> None:
    """Pegs of 3/4 to 1 1/4 in, up to three, in tenons of 1 1/2 in and more between cheeks no thinner (memory)."""
    tenon = {"thickness": "2 in", "cheek": "2 1/2 in", **more.get("tenon", {})}
    pegs = {**PEGS, **{key: value for key, value in more.items() if key != "tenon"}}
    brace = wood("brace", "5 1/2 in x 11 1/2 in")
    found = [one for one in at(90.0, 100.0, brace=brace, **tenon, pegs=pegs).checks if one.id == "joint.peg_scope"]
    assert [one.verdict for one in found] == (["refer"] if words else [])
    assert not words or words in found[0].notes[0]


@pytest.mark.parametrize(("G", "asks"), [(0.35, False), (0.34, True), (0.57, False), (0.58, True)])
def test_frames_in_which_pegs_were_tried(G: float, asks: bool) -> None:
    """Timber of G 0.35 to 0.57 (memory)."""
    heavy = [
        wood(name, size, G=G) for name, size in (("post", "7 1/2 in x 7 1/2 in"), ("brace", "5 1/2 in x 5 1/2 in"))
    ]
    piece = at(90.0, 100.0, post=heavy[0], brace=heavy[1], thickness="2 in", cheek="2 1/2 in", pegs=PEGS)
    assert ("joint.peg_scope" in ids(piece)) is asks


@pytest.mark.parametrize(
    ("field", "least", "words"),
    [("end", 2.0, "end of the tenon"), ("edge", 2.5, "face of post"), ("side", 1.5, "side of the tenon"),
     ("spacing", 2.5, "peg to peg")],
)  # fmt: skip
def test_distances_of_pegs_in_douglas_fir(field: str, least: float, words: str) -> None:
    """2, 2 1/2 and 2 1/2 diameters (university report, read), 1 1/2 to the side (judgment); pegs of 1 1/4 in."""
    laid = {"count": 2, "diameter": "1 1/4 in", "end": "3 in", "edge": "4 in", "side": "2 in", "spacing": "4 in"}
    brace = wood("brace", "5 1/2 in x 9 1/2 in")
    for inches, verdict in ((least * 1.25, "passes"), (least * 1.25 - 1 / 32, "fails")):
        pegs = {**PEGS, **laid, field: f"{inches} in"}
        piece = at(90.0, 100.0, brace=brace, thickness="2 in", cheek="2 1/2 in", width="9 in", pegs=pegs)
        check = the(piece, "joint.peg_distance", what=words)
        assert check.verdict == verdict and check.demand == pytest.approx(least * 1.25), (field, inches)


def test_a_peg_near_the_face_pulls_the_post_apart() -> None:
    """In the near half of a post of 7 1/2 in, where the pull crosses its grain (3.8.2)."""
    for edge, degrees, asked in (("3 3/4 in", 90.0, False), ("3 11/16 in", 90.0, True), ("3 1/2 in", 44.0, False)):
        assert ("joint.peg_across" in ids(pegged(degrees=degrees, edge=edge))) is asked, (edge, degrees)


def test_nobody_looked_at_the_pegs() -> None:
    for straight, asked in ((True, False), (False, True), (None, True)):
        pegs = {**PEGS, "straight": straight} if straight is not None else {k: v for k, v in PEGS.items()
                                                                           if k != "straight"}  # fmt: skip
        piece = at(90.0, 100.0, thickness="2 in", cheek="2 1/2 in", pegs=pegs)
        assert any(one.what == "wood of the pegs" for one in piece.checks) is asked
    assert "joint.pull" in ids(at(90.0, 30.0)) and not {"joint.pull", "joint.pegs"} & ids(at(90.0, 0.4, 200.0))


def test_pegs_in_green_frames_hold_less() -> None:
    """C_M 0.7 where the frame is put together green or stays wet (memory)."""
    green = joint(
        "mortise and tenon", member("post", "post", 90.0, part="mortised", passes=True),
        member("brace", "brace", 0.0, 200.0, part="tenoned"), stands_on="sill", bears_on="post", seasoned="green",
        tenon={**TENON, "thickness": "2 in", "cheek": "2 1/2 in", "pegs": PEGS},
    )  # fmt: skip
    dry = the(pegged(), "joint.pegs").capacity
    assert dry is not None
    assert the(checked(green, POST, BRACE), "joint.pegs").capacity == pytest.approx(0.7 * dry)


# ---- what it cuts out of the other piece -----------------------------------------------------------------------------


def in_the_post(side: str, **tenon: Any) -> Check:
    """The net section of a post of a bent whose brace is tenoned into it 6 ft up."""
    joints = [
        {"name": f"{side} foot", "kind": "mortise and tenon", "frame": "bent", "at": f"{side} brace, foot",
         "tenon": {**TENON, "width": "7 in", **tenon},
         "members": [{"name": f"{side} post", "part": "mortised"}, {"name": f"{side} brace", "part": "tenoned"}]},
    ]  # fmt: skip
    result = check_job(job_from_data({**bent(), "joint": joints}))
    post = next(piece for piece in result.pieces if piece.name == f"bent: {side} post")
    (check,) = [one for one in post.checks if one.id == "frame.net"]
    return check


@pytest.mark.parametrize(("side", "inner_is_lower"), [("left", True), ("right", False)])
def test_a_mortise_is_taken_off_the_post(side: str, inner_is_lower: bool) -> None:
    """7 1/2 x 7 1/2 in less 1 1/2 x 4 in from the face of the brace; its middle shifts by the moments of areas."""
    check, gone, whole = in_the_post(side), 1.5 * 4.0, 7.5**2
    assert "6 ft" in check.what
    assert step_value(check, "A_n") == pytest.approx(whole - gone)
    y = (whole * 3.75 - gone * 2.0) / (whole - gone)
    assert step_value(check, "y_bar") == pytest.approx(y if inner_is_lower else 7.5 - y)


def test_a_housing_is_taken_off_the_post_as_well() -> None:
    """3/4 in all across, and the mortise 4 3/4 in deep from the face: where both lie, it is taken off twice (safe)."""
    check, whole, housing, mortise = in_the_post("left", housing="3/4 in"), 7.5**2, 7.5 * 0.75, 1.5 * 4.75
    left = whole - housing - mortise
    assert step_value(check, "A_n") == pytest.approx(left)
    assert step_value(check, "y_bar") == pytest.approx((whole * 3.75 - housing * 0.375 - mortise * 2.375) / left)
    F_c, F_b, F_t, C_D = 1000.0, 1200.0, 825.0, 1.15  # Douglas Fir-Larch No. 1, posts and timbers (Table 4D, read)
    f_b, f_c, f_t = step_value(check, "M") / step_value(check, "S_n"), *(step_value(check, s) / left for s in "PT")
    used = max(f_c / (F_c * C_D) + f_b / (F_b * C_D), f_t / (F_t * C_D) + f_b / (F_b * C_D))
    assert check.ratio == pytest.approx(used)


def test_a_tenon_as_deep_as_its_post_goes_right_through() -> None:
    """Two thin cheeks are no section: that is for an engineer."""
    assert in_the_post("left", length="7 1/2 in").verdict == "refer"
