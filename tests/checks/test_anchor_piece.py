"""Anchor groups in whole jobs: what they cut out of a beam, what comes to them, and that nothing passes by silence.

Figures are typed out by hand beside each case (statics and NDS 2018; how: derived unless said). The data are invented.
"""

from __future__ import annotations

import math
from pathlib import Path
from typing import Any

import pytest

from beamcheck.checks.anchor_piece import anchors_of_beam
from beamcheck.checks.context import Around, House
from beamcheck.checks.house import check_job
from beamcheck.checks.result import Check, JobResult, PieceResult
from beamcheck.model.anchors import Anchor
from beamcheck.model.pieces import Beam
from beamcheck.model.reader import read_job_text

from . import houses
from .beams import Data, beam, checked, find, floor, known, said, seat, step

B, D = 5.5, 11.5  # 6x12 dressed, in
W = (10 + 40) * 6 / 12  # lb/in of floor, D + L
KNIFE: Data = {
    "name": "A1", "manner": "concealed plate", "into": "wall", "arm": "0 in", "seasoned": "dry", "split": "none seen",
    "fastener": {"kind": "bolt", "size": "5/8 in", "steel": "A307", "length": "7 in", "threads": "clear of it"},
    "holes": {"rows": 2, "columns": 1, "row_spacing": "3 1/2 in", "end": "4 1/2 in", "edge": "3 in"},
    "plate": {"steel": "A36", "thickness": "3/8 in", "width": "7 in", "length": "9 in", "slot": "7/16 in",
              "slot_length": "9 1/2 in", "weld": "1/4 in"},
}  # fmt: skip
RATED: Data = {
    "name": "A1", "manner": "rated hardware",
    "rating": {"source": "evaluation report 1 (invented), 2025, table 3", "down": "4000 lbf", "duration": "included",
               "conditions": "Douglas Fir, all holes filled", "conditions_met": True},
}  # fmt: skip


def hung(**more: Any) -> Data:
    """A beam of 12 ft whose left end hangs in anchor A1."""
    return beam(supports=[{"at": "4 1/2 in", "on": "wall", "holds": "hung", "held_by": "A1", "restrained": True},
                          seat("12 ft")], **more)  # fmt: skip


def of(job: JobResult, name: str = "A1") -> PieceResult:
    return next(piece for piece in job.pieces if piece.name == name)


def anchored(anchor: Data, held: Data | None = None, **more: Any) -> JobResult:
    return checked(held or hung(), anchor=[anchor], **more)


def rated(**rating: Any) -> Data:
    return {**RATED, "rating": {**RATED["rating"], **rating}}


def lifted() -> Data:
    """A wind of 100 lb/ft up (0.6 of it counts) on a beam that weighs little: both ends lift."""
    return hung(carries=[floor(wind="-1200 plf")])


def begins(piece: PieceResult, what: str) -> Check:
    found = [check for check in piece.checks if check.what.startswith(what)]
    assert len(found) == 1, [check.what for check in piece.checks]
    return found[0]


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
    assert of(unseen, "B").verdict == "passes" and of(unseen).verdict == "refer" and unseen.verdict == "refer"
    weak = anchored({**KNIFE, "fastener": {**KNIFE["fastener"], "size": "3/8 in"}})
    assert of(weak).verdict == "fails" and weak.verdict == "fails"
    assert any("A1" in reason for reason in weak.reasons)


def test_without_an_anchor_a_hung_end_is_referred_as_before() -> None:
    bare = hung()
    del bare["supports"][0]["held_by"]
    job = checked(bare)
    assert "hanger or fastening" in said(of(job, "B"), "refer")


def test_a_fixed_end_stays_referred_in_the_beam_and_in_the_group() -> None:
    held = hung()
    held["supports"][0]["holds"] = "fixed"
    job = anchored(KNIFE, held)
    assert "cannot turn" in said(of(job, "B"), "refer")
    assert "moment" in said(of(job), "refer")


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
    """Middle of the group 4 1/2 in from the end, arm 8 in: 3 1/2 in beyond the end; the support is 4 1/2 in from it."""
    check = find(of(anchored({**KNIFE, "arm": "8 in"})), "line of the support")
    assert check.verdict == "refer" and "3 1/2 in beyond its end" in check.notes[0]


def test_an_anchor_said_to_be_fastened_elsewhere_is_referred() -> None:
    job = anchored({**KNIFE, "into": "floor"}, existing=[{"name": "floor", "what": "floor", "confirmed_by": "letter"}])
    assert find(of(job), "what it is fastened to").verdict == "refer"


def test_a_beam_that_cannot_be_worked_out_leaves_its_anchor_referred() -> None:
    held = Beam.model_validate(hung())
    around = Around(House({}, {}, {"A1": Anchor.model_validate(KNIFE)}))
    (group,) = anchors_of_beam(held, None, around)
    assert group.verdict == "refer" and "could not be worked out" in said(group, "refer")


def test_the_foot_of_a_rafter_is_referred() -> None:
    job = houses.checked(rafter=[houses.rafter(tie="T", wall={"held_by": "A1"})], tie=[houses.tie()], anchor=[RATED])
    assert of(job).verdict == "refer" and "aslant" in said(of(job), "refer")


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
    """3 V/(2 (b - w) d), and S = (b - w) d^2/6 at a plate held by screws too thin to take wood off."""
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
    bare = checked(hung(), anchor=[RATED])
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


# ---- hardware, others, nothing -------------------------------------------------------------------------------------


def test_rated_hardware_holds_what_its_report_says() -> None:
    result = of(anchored(RATED))
    check = find(result, "rated load down")
    assert check.capacity == pytest.approx(4000.0)
    assert result.verdict == "passes"
    assert any("evaluation report 1" in source.document and source.how == "given" for source in result.sources)


def test_a_direction_that_is_not_rated_fails() -> None:
    check = find(of(anchored(RATED, lifted())), "rated load up")
    assert check.verdict == "fails" and "does not cover the load up" in check.notes[0]
    job = anchored(rated(up="20000 lbf"), lifted())
    assert find(of(job), "rated load up").verdict == "passes"
    assert "uplift" in said(of(job, "B"), "passes")


@pytest.mark.parametrize(("duration", "factor"), [("included", 1.0), ("apply C_D", 1.6)])
def test_load_duration_only_where_the_report_leaves_it_to_the_user(duration: str, factor: float) -> None:
    """Wind alone: C_D 1.6, which is also the most that a connection may have (NDS 2018 11.3.2)."""
    job = anchored(rated(up="20000 lbf", down="20000 lbf", duration=duration), lifted())
    assert find(of(job), "rated load up").capacity == pytest.approx(20000 * factor)


@pytest.mark.parametrize("change", [{"conditions_met": None}, {"conditions_met": False}, {"conditions": ""}])
def test_conditions_that_nobody_has_seen_are_referred(change: Data) -> None:
    assert of(anchored(rated(**change))).verdict == "refer"


def test_resting_hardware_takes_only_what_lifts() -> None:
    held = beam(supports=[seat("0 ft", held_by="A1"), seat("12 ft")])
    result = of(anchored(rated(down=None, up="500 lbf"), held))
    assert result.verdict == "passes" and "left to the seat" in "".join(result.assumptions)


def test_by_others_passes_only_with_a_name() -> None:
    others = {"name": "A1", "manner": "by others"}
    assert of(anchored(others)).verdict == "refer"
    named = of(anchored({**others, "confirmed_by": "invented letter of an engineer"}))
    assert named.verdict == "passes" and "by others" in said(named, "passes")


def test_glue_holds_nothing() -> None:
    job = anchored({"name": "A1", "manner": "holds nothing"})
    assert of(job).verdict == "fails" and "hold no load" in said(of(job), "fails")
    assert job.verdict == "fails"


# ---- rods ----------------------------------------------------------------------------------------------------------


def rods(length: str | None = "26 in", *, washer: str | None = "1 3/4 in", **more: Any) -> JobResult:
    """A beam that hangs from another one, 12 ft long and 4 ft away from its end, by a 5/8 in rod of A36."""
    lower = beam(
        name="low", supports=[{"at": "0 ft", "on": "high", "lands_at": "3 ft", "holds": "hung", "held_by": "A1",
                               "restrained": True}, seat("12 ft")],
        carries=[floor(dead="5 psf", live="10 psf", width="4 ft")],
    )  # fmt: skip
    rod = {"kind": "bolt", "size": "5/8 in", "steel": "A36", "length": length, "washer": washer}
    fastener = {key: value for key, value in rod.items() if value is not None}
    return checked(
        beam(name="high"), lower, anchor=[{"name": "A1", "manner": "hanger rod", "fastener": fastener, **more}]
    )


def test_a_rod_with_nuts_on_the_outer_faces_passes() -> None:
    """T_a = 0.75 F_u A_b/2 (AISC J3.6); washers 1 3/4 in on 11/16 in holes (NDS Table L6: memory)."""
    result = of(rods())
    assert result.verdict == "passes", said(result, "refer") + said(result, "fails")
    assert find(result, "tension of the rod").capacity == pytest.approx(0.75 * 58000 * math.pi / 4 * 0.625**2 / 2)
    area = math.pi / 4 * (1.75**2 - 0.6875**2)
    below, above = find(result, "washer under low"), find(result, "washer on the top of high")
    F = step(below, "F_c_perp")
    assert below.capacity == pytest.approx(F * area)  # near the end: C_b = 1
    assert above.capacity == pytest.approx(F * (1.75 + 0.375) / 1.75 * area)  # 3 ft from the end


def test_the_rod_is_a_hole_in_the_beam_that_carries_it() -> None:
    high = of(rods(), "high")
    assert [c for c in high.checks if "cut by anchor A1" in c.what and c.what.startswith("bending")]
    assert not [c for c in high.checks if c.what == "loads on the side"]


@pytest.mark.parametrize("length", [None, "12 in", "23 in"])
def test_a_rod_that_does_not_go_through_both_is_referred(length: str | None) -> None:
    """Two beams of 11 1/2 in: 23 in and more."""
    check = find(of(rods(length)), "the rod goes right through")
    assert check.verdict == "refer" and check.clause == "NDS 2018 3.8.2"


def test_a_rod_without_a_given_washer_or_with_a_broad_one_counts_the_standard_one() -> None:
    assert "washer" in said(of(rods(washer=None)), "refer")
    broad = of(rods(washer="3 in"))
    assert find(broad, "washer under low").capacity == find(of(rods()), "washer under low").capacity


def test_a_rod_does_not_push() -> None:
    lower = beam(
        name="low", supports=[{"at": "0 ft", "on": "high", "lands_at": "3 ft", "holds": "hung", "held_by": "A1",
                               "restrained": True}, seat("12 ft")], carries=[floor(wind="-1200 plf")],
    )  # fmt: skip
    rod = {"kind": "bolt", "size": "5/8 in", "steel": "A36", "length": "26 in", "washer": "1 3/4 in"}
    job = checked(beam(name="high"), lower, anchor=[{"name": "A1", "manner": "hanger rod", "fastener": rod}])
    assert find(of(job), "uplift on a rod").verdict == "fails"


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
    assert "the joint is not checked" in said(of(bare, "T"), "refer")


def test_the_demo_house_shows_one_group_of_each_kind() -> None:
    """A hidden plate and a rod that pass, a bolt row across a check, lags through a ledger, and one edge distance."""
    text = (Path(__file__).parents[2] / "worked_examples" / "net_loft.toml").read_text(encoding="utf-8")
    job = check_job(read_job_text(text, "net_loft.toml"))
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


def test_rods_of_a_row_of_pieces_are_counted_at_midspan_too() -> None:
    high = of(rods(), "high")
    assert all(check.verdict == "passes" for check in high.checks if check.what == "limits of the slot")
    lower = beam(
        name="low", spacing="24 in", carries=[floor(dead="5 psf", live="10 psf", width="2 ft")],
        supports=[{"at": "0 ft", "on": "high", "lands_at": "3 ft", "holds": "hung", "held_by": "A1", "restrained": True},
                  seat("12 ft")],
    )  # fmt: skip
    rod = {"kind": "bolt", "size": "5/8 in", "steel": "A36", "length": "26 in", "washer": "1 3/4 in"}
    job = checked(beam(name="high"), lower, anchor=[{"name": "A1", "manner": "hanger rod", "fastener": rod}])
    assert "middle third" in said(of(job, "high"), "refer")
