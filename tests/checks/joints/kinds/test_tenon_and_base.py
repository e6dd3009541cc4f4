"""Tenons, pegs and post bases against hand sums; formulas of pegs are from memory, typed a second time here."""

from __future__ import annotations

import math
from typing import Any

import pytest

from ..jobs import HEAD, Data, checked, joint, member, step_value, the, wood

POST, GIRT = wood("post", "7 1/2 in x 7 1/2 in"), wood("girt", "7 1/2 in x 11 1/2 in")
TENON: Data = {"thickness": "2 in", "width": "11 1/2 in", "length": "4 in", "cheek": "2 3/4 in", "shoulder": "tight"}
PEGS: Data = {"wood": "White Oak", "diameter": "1 in", "count": 2, "end": "2 in", "edge": "4 in", "side": "2 in",
              "spacing": "4 in", "straight": True}  # fmt: skip


def girt(tenon: Data, *, down: float = 0.0, pull: float = 0.0, **more: Any) -> Any:
    forces = {"down": down} if down else {}
    return checked(
        joint("mortise and tenon", member("post", "post", 90.0, down, down=pull, part="mortised", passes=True),
              member("girt", "girt", 0.0, pull, part="tenoned", **forces), tenon={**TENON, **tenon}, **more),
        POST, GIRT,
    )  # fmt: skip


def test_housing_takes_the_shear() -> None:
    """F_c_perp' (b - tenon) l_h; the ledge by the end grain of the post; shear under it 1.5 V/(b 8 l_h)."""
    piece = girt({"housing": "3/4 in", "under_housing": "4 ft"}, down=2000.0)
    assert the(piece, "joint.housing").capacity == pytest.approx(625 * 5.5 * 0.75)
    assert the(piece, "joint.ledge").demand == pytest.approx(2000 / (5.5 * 0.75))
    assert the(piece, "joint.ledge").capacity == pytest.approx(1150.0)
    assert the(piece, "joint.ledge_shear").demand == pytest.approx(1.5 * 2000 / (5.5 * 8 * 0.75))
    assert piece.verdict == "passes"


def test_tenon_alone() -> None:
    """No housing: 2/3 F_v' b_t d_n (d_n/d)^2 with the tenon as high as the beam (NDS 2018 3.4.3.2, memory)."""
    piece = girt({}, down=2000.0)
    assert the(piece, "joint.tenon_shear").capacity == pytest.approx(2 / 3 * 170 * 2 * 11.5)
    assert the(piece, "joint.tenon_bearing").demand == pytest.approx(2000 / (2 * 4))


def test_pegs_screen_and_never_pass() -> None:
    """White oak peg of 1 in across Douglas fir: mode V, pi D^2 F_vy/7, F_vy = 4850 G_p G_t^0.75 (memory)."""
    piece = girt({"pegs": PEGS}, pull=300.0)
    Z = math.pi * 4850 * 0.73 * 0.5**0.75 / 7
    check = the(piece, "joint.pegs")
    assert check.capacity == pytest.approx(2 * Z, rel=1e-5) and "mode V" in check.what
    assert pytest.approx(944.809, rel=1e-5) == Z
    relish = the(piece, "joint.peg_relish")
    F_v, F_t = 170.0, 825.0
    assert relish.capacity == pytest.approx(min(2 * F_v * 2 * 2, F_v * 2 * 2 + F_t * (4 - 1) * 2))
    assert piece.verdict == "refer" and the(piece, "joint.peg_confirmed").verdict == "refer"


@pytest.mark.parametrize(
    ("change", "words"),
    [({"wood": "Eastern White Pine"}, "hardwood"), ({"diameter": "5/8 in", "side": "2 in"}, "3/4 in"),
     ({"count": 4, "spacing": "2 1/2 in"}, "do not share")],
)  # fmt: skip
def test_pegs_outside_what_was_tried(change: Data, words: str) -> None:
    check = the(girt({"pegs": {**PEGS, **change}}, pull=300.0), "joint.peg_scope")
    assert check.verdict == "refer" and words in check.notes[0]


def test_pull_without_pegs_refers() -> None:
    assert the(girt({}, pull=300.0), "joint.pull").verdict == "refer"


def test_stronger_peg_never_lowers() -> None:
    def ratio(wood_: str) -> float:
        return the(girt({"pegs": {**PEGS, "wood": wood_}}, pull=300.0), "joint.pegs").ratio or 0.0

    assert ratio("White Oak") < ratio("Red Oak")


# ---- post bases ------------------------------------------------------------------------------------------------------

BASE: Data = {"steel": "A36", "plate": "3/8 in", "bears_wide": "7 1/2 in", "bears_long": "7 1/2 in",
              "stands_off": "3 in", "stem": "bar", "stem_width": "3 in", "stem_thickness": "1/2 in"}  # fmt: skip
BOLTS: Data = {
    "fastener": {"kind": "bolt", "size": "3/4 in", "steel": "A307", "length": "9 1/2 in", "threads": "clear of it",
                 "thread_length": "1 1/2 in"},
    "split": "none seen", "seasoned": "dry",
}  # fmt: skip
PLATE: Data = {"steel": "A36", "thickness": "3/8 in", "width": "5 in", "length": "12 in", "slot": "7/16 in"}


RODS: Data = {
    "count": 4, "diameter": "5/8 in", "hole": "11/16 in", "plate": "3/8 in", "along": "6 in", "off": "1 1/2 in",
    "edge": "1 1/4 in", "takes": "6,000 lbf", "takes_by": "evaluation report ER-0000, 2025 edition, table 3",
}  # fmt: skip


def foot(*, push: float = 0.0, lift: float = 0.0, bolts: bool = True, load: str = "live", **base: str) -> Any:
    more: Data = dict(BOLTS) if bolts else {}
    one = member("post", "post", 90.0, lift - push, load=load)
    if bolts:
        one |= {"plate": PLATE, "holes": {"columns": 2, "spacing": "4 in", "end": "5 1/4 in", "edge": "3 3/4 in"}}
    return checked(joint("post base", one, base={**BASE, **base}, **more), POST)


def test_base_bearing_and_stem_by_hand() -> None:
    """Area (b - slot) d; a strip of the plate f a^2/2; stem P/A and H h together (AISC F11, J4.4: memory)."""
    piece = foot(push=9000.0, sideways="400 lbf")
    f = 9000 / ((7.5 - 0.4375) * 7.5)
    assert the(piece, "joint.base_bearing").demand == pytest.approx(f, rel=1e-6)
    out = (7.5 - 0.5) / 2
    plate = the(piece, "joint.base_plate")
    assert plate.demand == pytest.approx(f * out**2 / 2, rel=1e-6)
    assert plate.capacity == pytest.approx(36000 * 0.375**2 / 4 / 1.67, rel=1e-6)
    slender = the(piece, "joint.base_stem")  # 2.1 x 3 x sqrt(12)/0.5 = 43.6, over 25
    assert slender.verdict == "refer" and "43.6" in slender.notes[0]
    short = the(foot(push=9000.0, sideways="400 lbf", stands_off="1 in"), "joint.base_stem")
    used = 9000 / (36000 * 1.5 / 1.67) + 400 * 1.0 / (36000 * 3 * 0.25 / 4 / 1.67)
    assert short.ratio == pytest.approx(used, rel=1e-6)


def test_uplift_by_hand() -> None:
    """Two bolts up the post: Z of the knife plate along the grain, row tear-out n F_v' t s with both cheeks."""
    piece = foot(lift=2400.0, load="wind", stands_off="1 in")
    row = the(piece, "anchor.row_tear_out")
    assert row.capacity == pytest.approx(2 * 170 * 1.6 * (7.5 - 0.4375) * 4.0, rel=1e-6)
    assert row.demand == pytest.approx(0.6 * 2400.0)
    assert step_value(the(piece, "anchor.lateral"), "C_D") == 1.6


def test_uplift_without_bolts_fails() -> None:
    """A post that only stands on its base and is lifted is held by nothing (load path)."""
    piece = foot(push=1000.0, bolts=False, stands_off="1 in")
    assert piece.verdict == "passes" or piece.verdict == "refer"
    lifted = foot(lift=600.0, bolts=False, load="wind", stands_off="1 in")
    assert lifted.verdict == "fails" and the(lifted, "joint.base_uplift").verdict == "fails"


def test_wood_near_earth() -> None:
    assert the(foot(push=100.0, stands_off="2 in", over="earth"), "joint.base_height").verdict == "fails"
    assert the(foot(push=100.0, stands_off="6 in", over="earth"), "joint.base_height").verdict == "passes"


def test_base_of_a_post_of_the_job() -> None:
    """The forces are those of the post; what lifts there is asked of its base and of what is under it."""
    post = {
        "name": "P1", "stock": "post", "height": "8 ft", "on": "footing", "top_restraint": "pinned", "above": "nothing",
        "eccentricity": "0 in", "eccentricity_weak": "0 in", "head_held_by": "footing",
        "carries": [{"what": "roof", "dead": "1,000 lbf"}, {"what": "wind", "wind": "-2,500 lbf"}],
    }  # fmt: skip
    footing = {
        "name": "footing",
        "what": "footing",
        "material": "concrete",
        "takes": "9,000 lb",
        "takes_for": "each seat",
        "takes_uplift": "3,000 lb",
        "confirmed_by": "engineer's sheet S-2 of 3 May 2025",
    }
    base = {**BASE, "stands_off": "1 in", "rods": RODS}
    one = {"name": "base", "kind": "post base", "post": "P1", "base": base, **BOLTS,
           "members": [{"name": "P1", "plate": PLATE, "holes": {"columns": 2, "spacing": "4 in", "end": "5 1/4 in",
                                                                "edge": "3 3/4 in"}}]}  # fmt: skip
    piece = checked(one, POST, post=[post], existing=[footing])
    assert the(piece, "anchor.row_tear_out").combination == "0.6 D + 0.6 W, wind up"
    assert (the(piece, "anchor.row_tear_out").demand or 0.0) == pytest.approx(0.6 * 2500 - 0.6 * 1000, rel=0.1)
    assert piece.verdict == "passes"
    assert HEAD["invented"]
