"""Anchor groups in whole jobs: what they cut out of a beam, what comes to them, and that nothing passes by silence.

Figures are typed out by hand beside each case (statics and NDS 2018; how: derived unless said). The data are invented.
"""

from __future__ import annotations

import math

import pytest

from beamcheck.checks.anchors.results import anchors_of_beam
from beamcheck.checks.core.context import Context, Structure
from beamcheck.checks.core.result import Check, JobResult
from beamcheck.model.anchors.anchor import Anchor
from beamcheck.model.beams import Beam

from ...worked_examples.results import example
from .. import houses
from ..beams.beams import beam, checked, find, floor, known, said, seat, step
from .anchor_jobs import KNIFE, RATED, STUB, B, D, W, anchored, begins, hung, of

# ---- the group is a piece of the job --------------------------------------------------------------------------------


def test_a_beam_on_a_concealed_plate_and_the_plate_itself_pass() -> None:
    job = anchored(KNIFE)
    assert of(job, "B").verdict == "passes"
    assert of(job).verdict == "passes", said(of(job), "refer") + said(of(job), "fails")
    assert job.verdict == "passes"
    assert of(job).kind == "anchor" and of(job).drawing is not None and of(job).to_see
    assert "by anchor A1" in said(of(job, "B"), "passes")


def test_the_reaction_comes_to_the_group_by_itself() -> None:
    """w 144 x 72/139.5 about the other support, with own weight of 5 lb/ft3 by letter."""
    wood = known("5 1/2 in x 11 1/2 in")
    table = of(anchored(KNIFE, wood=wood)).tables[0]
    most = max(float(row[2].split()[0].replace(",", "")) for row in table.rows)
    assert most == pytest.approx((W + 5 / 1728 * B * D) * 144 * 72 / 139.5, abs=0.6)


def test_the_job_does_not_pass_while_its_anchor_does_not() -> None:
    unseen = anchored({**KNIFE, "split": None})
    assert of(unseen, "B").member_verdict == "passes" and of(unseen).verdict == "refer" and unseen.verdict == "refer"
    weak = anchored({**KNIFE, "fastener": {**KNIFE["fastener"], "size": "3/8 in"}})
    assert of(weak).verdict == "fails" and weak.verdict == "fails"
    assert any("A1" in reason for reason in weak.reasons)


def test_without_an_anchor_a_hung_end_is_referred_as_before() -> None:
    bare = hung()
    del bare["supports"][0]["held_by"]
    job = checked(bare, existing=[STUB])
    assert "hanger or fastening" in said(of(job, "B"), "refer")


def test_a_fixed_end_stays_referred_in_the_beam_and_in_the_group() -> None:
    held = hung()
    held["supports"][0]["holds"] = "fixed"
    job = anchored(KNIFE, held)
    assert "cannot turn" in said(of(job, "B"), "refer")
    assert "cannot turn" in said(of(job), "refer")


def test_the_moment_of_a_fixed_end_comes_to_the_group() -> None:
    """Statics: w L^2/8 at the held end of a span whose other end turns, a little less for the give in shear."""
    held = hung()
    held["supports"][0]["holds"] = "fixed"
    job = anchored(KNIFE, held, wood=known("5 1/2 in x 11 1/2 in"))
    check = next(one for one in of(job).checks if one.id == "anchor.lateral")
    w, L = W + 5 / 1728 * B * D, 139.5
    assert w * L**2 / 8 * 0.94 < abs(step(check, "M")) < w * L**2 / 8
    assert check.verdict != "passes"


def test_a_wall_that_nobody_answers_for_is_referred_on_both_sides() -> None:
    wall = [{"name": "old wall", "what": "wall", "material": "masonry"}]
    held = hung()
    held["supports"][0]["on"] = "old wall"
    job = anchored({**KNIFE, "into": "old wall"}, held, existing=wall)
    assert "nobody is named" in said(of(job, "B"), "refer")
    assert "nobody is named" in said(of(job), "refer")


def test_a_plate_without_a_weld_is_referred_beyond_the_wood() -> None:
    bare = {**KNIFE, "plate": {**KNIFE["plate"], "weld": None}}
    assert "not described and not checked" in said(of(anchored(bare)), "refer")


def test_the_line_of_the_support_must_be_that_of_the_arm() -> None:
    """Middle of the group and support both 4 1/2 in from the end: the arm is nothing, whatever is said."""
    check = find(of(anchored({**KNIFE, "arm": "8 in"})), "line of the support")
    assert check.verdict == "refer" and "the arm is 0 in, which is counted; it is said to be 8 in" in check.notes[0]
    assert [asked.field for asked in check.questions] == ["anchor.A1.arm"]


def test_the_arm_comes_from_the_holes_and_the_support() -> None:
    """11.1.3, statics: bolts 4 1/2 in from the end, support 2 1/2 in from it: V x 2 in on two bolts 3 1/2 in apart."""
    held = hung()
    held["supports"][0]["at"] = "2 1/2 in"
    bare = {key: value for key, value in KNIFE.items() if key != "arm"}
    check = next(one for one in of(anchored(bare, held)).checks if one.id == "anchor.lateral")
    V = -step(check, "P_y")
    assert check.demand == pytest.approx(math.hypot(V / 2, step(check, "M") / 3.5))
    assert of(anchored(bare)).verdict == "passes"


def test_an_anchor_said_to_be_fastened_elsewhere_is_referred() -> None:
    job = anchored(
        {**KNIFE, "into": "floor"},
        existing=[{"name": "floor", "what": "floor", "confirmed_by": "invented sheet S-1, engineer"}],
    )
    assert find(of(job), "what it is fastened to").verdict == "refer"


def test_a_beam_that_cannot_be_worked_out_leaves_its_anchor_referred() -> None:
    held = Beam.model_validate(hung())
    context = Context(Structure({}, {}, {"A1": Anchor.model_validate(KNIFE)}))
    (group,) = anchors_of_beam(held, None, context)
    assert group.verdict == "refer" and "could not be worked out" in said(group, "refer")


def test_the_foot_of_a_rafter_brings_its_forces() -> None:
    """Plumb and level: what presses down stays in the seat; hardware on a slope must be rated for it."""
    job = houses.checked(rafter=[houses.rafter(tie="T", wall={"held_by": "A1"})], tie=[houses.tie()], anchor=[RATED])
    assert of(job).verdict == "refer" and "slopes by" in said(of(job), "refer")
    slope = next(q for check in of(job).checks for q in check.questions if q.field == "anchor.A1.rating.slope")
    assert slope.answers


def test_several_ends_of_one_group_show_the_worst() -> None:
    """The right end carries a point load beside it: its reaction is the larger one."""
    both = beam(
        supports=[{"at": x, "on": "wall", "holds": "hung", "held_by": "A1", "restrained": True}
                  for x in ("4 1/2 in", "11 ft 7 1/2 in")],
        length="12 ft",
        carries=[floor(dead="10 psf", live="20 psf", width="6 ft"),
                 {"what": "stove", "dead": "600 lb", "at": "11 ft", "applied": "top", "bearing": "12 in"}],
    )  # fmt: skip
    result = of(anchored(KNIFE, both))
    assert "right end" in result.title and "2 ends" in result.assumptions[0]


# ---- what it cuts out -----------------------------------------------------------------------------------------------


def cut_check(job: JobResult, what: str) -> Check:
    found = [c for c in of(job, "B").checks if c.what.startswith(what) and "cut by anchor A1" in c.what]
    assert len(found) == 1
    return found[0]


def test_slot_and_holes_come_off_the_beam_without_being_asked_for() -> None:
    """b_n = 5.5 - 7/16; holes 11/16 in at 3 and 6 1/2 in: A, centroid, I and S of three strips, by hand."""
    job = anchored(KNIFE)
    b_n, d_h = B - 0.4375, 0.625 + 1 / 16
    holes = (3.0, 6.5)
    A = b_n * (D - 2 * d_h)
    y_bar = (b_n * D * D / 2 - sum(b_n * d_h * y for y in holes)) / A
    I_n = b_n * D**3 / 12 + b_n * D * (D / 2 - y_bar) ** 2
    I_n -= sum(b_n * d_h**3 / 12 + b_n * d_h * (y - y_bar) ** 2 for y in holes)
    bent, sheared = cut_check(job, "bending"), cut_check(job, "shear")
    assert step(bent, "S_n") == pytest.approx(I_n / max(y_bar, D - y_bar))
    V = step(sheared, "V")
    assert sheared.demand == pytest.approx(1.5 * V / A)


def test_a_slot_alone_narrows_the_beam() -> None:
    """3 V/(2 (b - w) d), and S = (b - w) d^2/6 at the upright hole of a rod, 11/16 in."""
    rod = {"name": "A1", "manner": "hanger rod", "fastener": {"kind": "bolt", "size": "5/8 in", "steel": "A36"}}
    sheared, bent = cut_check(anchored(rod), "shear"), cut_check(anchored(rod), "bending")
    b_n = B - 11 / 16
    assert sheared.demand == pytest.approx(1.5 * step(sheared, "V") / (b_n * D))
    assert step(bent, "S") == pytest.approx(b_n * D**2 / 6)


def test_bores_take_wood_from_both_cheeks() -> None:
    """Two bores 1 7/8 in across and 3/4 in deep beside each hole: A_n = b_n d - 2 (1.875 x 1.5 + 11/16 (b_n - 1.5))."""
    bored = {**KNIFE["fastener"], "length": "5 1/2 in", "washer": "1 3/4 in", "counterbore": "1 7/8 in",
             "counterbore_depth": "3/4 in"}  # fmt: skip
    check = cut_check(anchored({**KNIFE, "fastener": bored}), "shear")
    b_n, d_h = B - 0.4375, 0.6875
    A = b_n * D - 2 * (1.875 * 1.5 + d_h * (b_n - 1.5))
    assert check.demand == pytest.approx(1.5 * step(check, "V") / A)


def test_a_wider_slot_never_helps_and_the_loads_stay_the_same() -> None:
    narrow, wide = anchored(KNIFE), anchored({**KNIFE, "plate": {**KNIFE["plate"], "slot": "3/4 in"}})
    first, second = cut_check(narrow, "shear").ratio, cut_check(wide, "shear").ratio
    assert first is not None and second is not None and second > first
    bare = anchored(RATED)
    reactions = [
        next(t for t in of(job, "B").tables if t.title.startswith("Reactions")) for job in (narrow, wide, bare)
    ]
    assert reactions[0].rows == reactions[1].rows == reactions[2].rows


def test_a_slot_over_a_third_of_the_breadth_is_referred() -> None:
    broad = {**KNIFE["plate"], "slot": "2 in", "thickness": "1 7/8 in"}
    check = find(of(anchored({**KNIFE, "plate": broad}), "B"), "limits of the slot")
    assert check.verdict == "refer" and "third of the breadth" in check.notes[0]


def test_a_seat_bears_on_less_where_there_is_a_slot() -> None:
    """Resting on 5 1/2 in beside a slot of 7/16 in: R/((5.5 - 0.4375) x 5.5), against R/(5.5 x 5.5) without one."""
    held = beam(supports=[seat("0 ft", held_by="A1"), seat("12 ft")])
    job = anchored(KNIFE, held)
    left, right = begins(of(job, "B"), "bearing at support 1"), begins(of(job, "B"), "bearing at support 2")
    assert left.demand is not None and right.demand is not None
    assert left.demand / right.demand == pytest.approx(B / (B - 0.4375))
    assert "not added" in "".join(of(job).assumptions)


def test_hung_on_a_let_in_angle_the_end_still_needs_a_seat() -> None:
    angle = {
        "name": "A1", "manner": "let-in angle", "into": "wall", "arm": "1 in",
        "fastener": {"kind": "lag screw", "size": "3/8 in", "length": "4 in"},
        "holes": {"rows": 1, "columns": 2, "spacing": "3 in", "end": "3 in", "edge": "5 in"},
        "plate": {"steel": "A36", "thickness": "3/8 in", "width": "4 in", "length": "8 in"},
    }  # fmt: skip
    job = anchored(angle)
    assert "the seat's length is not given" in said(of(job, "B"), "refer")
    assert of(job).verdict != "passes"


# ---- other kinds of end --------------------------------------------------------------------------------------------


def test_bolts_into_another_piece_ask_for_its_holes() -> None:
    side = {
        "name": "A1", "manner": "wood side", "into": "high", "arm": "0 in", "seasoned": "dry", "split": "none seen",
        "fastener": {"kind": "bolt", "size": "5/8 in", "steel": "A307"},
        "holes": {"rows": 1, "columns": 1, "end": "4 1/2 in", "edge": "5 in"},
        "other": {"stock": "wood", "thickness": "5 1/2 in", "grain": "across", "end": "20 in", "edge": "5 in"},
    }  # fmt: skip
    lower = beam(
        name="low", supports=[{"at": "4 1/2 in", "on": "high", "lands_at": "3 ft", "holds": "hung", "held_by": "A1",
                               "restrained": True}, seat("12 ft")],
        carries=[floor(dead="5 psf", live="5 psf", width="2 ft")],
    )  # fmt: skip
    plain = checked(beam(name="high"), lower, anchor=[side])
    assert begins(of(plain), "holes in high").verdict == "refer"
    hole = {"kind": "hole", "at": "3 ft", "depth": "0.6875 in", "from_bottom": "5 3/4 in"}
    entered = checked(beam(name="high", cuts=[hole]), lower, anchor=[side])
    assert not [c for c in of(entered).checks if c.what.startswith("holes in")]


def test_unknown_wood_is_never_passed_by_its_anchor() -> None:
    old = {"name": "wood", "species": "unknown", "grade": "unstamped", "size": "7 1/4 in x 9 3/4 in", "moisture": "dry",
           "measured_moisture": "12 %", "candidates": ["Eastern White Pine", "Eastern Spruce"]}  # fmt: skip
    long = {**KNIFE, "fastener": {**KNIFE["fastener"], "length": "9 in"}}
    result = of(anchored(long, wood=old))
    assert result.verdict != "passes" and "not known" in said(result, "refer")


def test_a_tie_is_held_by_its_group_at_each_end() -> None:
    """The pull in the tie comes to the group; its own check of the joints points there."""
    group = {
        "name": "A1", "manner": "wood side", "arm": "0 in", "seasoned": "dry", "split": "none seen",
        "fastener": {"kind": "bolt", "size": "1/2 in", "steel": "A307"},
        "holes": {"rows": 1, "columns": 2, "spacing": "2 in", "end": "3 1/2 in", "edge": "3 5/8 in"},
        "other": {"stock": "2x10", "thickness": "1 1/2 in", "grain": "along", "end": "4 in", "edge": "4 in"},
    }  # fmt: skip
    held = {"rafter": [houses.rafter(tie="T")], "tie": [houses.tie(ends_held_by="A1")]}
    job = houses.checked(**held, anchor=[group])
    assert of(job).kind == "anchor" and of(job).verdict != "passes"
    assert "by anchor A1" in said(of(job, "T"), "passes")
    forces = of(job).tables[0]
    pull = max(float(row[forces.heads.index("out of the joint")].split()[0].replace(",", "")) for row in forces.rows)
    own = next(table for table in of(job, "T").tables if table.title.startswith("Forces"))
    assert pull == max(float(row[own.heads.index("tension")].split()[0].replace(",", "")) for row in own.rows)
    down = [float(row[forces.heads.index("down")].split()[0].replace(",", "")) for row in forces.rows]
    shear = [float(row[own.heads.index("V")].split()[0].replace(",", "")) for row in own.rows]
    assert max(down) == max(shear) > 0.0
    bare = houses.checked(rafter=held["rafter"], tie=[houses.tie()])
    assert "must pass through each end (unchecked); the joint is not described" in said(of(bare, "T"), "refer")
    joints = begins(of(bare, "T"), "joints at its ends")
    assert [question.field for question in joints.questions] == ["tie.T.ends_held_by"]


def test_the_demo_house_shows_one_group_of_each_kind() -> None:
    """A hidden plate and a rod that pass, a bolt row across a check, lags through a ledger, and one edge distance."""
    job = example("net_loft")
    groups = {piece.name: piece for piece in job.pieces if piece.kind == "anchor"}
    assert {name: piece.verdict for name, piece in groups.items()} == {
        "hidden plate": "passes", "plate drilled low": "fails", "plate in checked wood": "refer", "rod": "passes",
        "ledger lags": "refer",
    }  # fmt: skip
    failed = [check for check in groups["plate drilled low"].checks if check.verdict != "passes"]
    assert [check.what.startswith("distance to the bottom edge") for check in failed] == [True]
    assert "check or split runs through the holes" in said(groups["plate in checked wood"], "refer")
    assert job.verdict == "fails"


def test_the_far_side_is_told_its_force_and_moment() -> None:
    """The reaction times 4 1/2 in, from the bolts to the end of the beam."""
    result = of(anchored(KNIFE, wood=known("5 1/2 in x 11 1/2 in")))
    told = next(text for text in result.assumptions if "with a moment" in text)
    reaction = (W + 5 / 1728 * B * D) * 144 * 72 / 139.5
    assert f"{reaction * 4.5 / 12:.0f} lb-ft" in told
