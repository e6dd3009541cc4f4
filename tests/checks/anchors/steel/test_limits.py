"""What a group takes from its beam, plates where they end, couples, lengths of bolts and pins: each rule at its limit.

Groups are invented; a case names its clause. Douglas Fir-Larch, G 0.50.
"""

from __future__ import annotations

import math
from dataclasses import replace
from typing import Any

import numpy as np
import pytest

from beamcheck.checks.anchors.couple import couple_of
from beamcheck.checks.anchors.cuts import anchor_cuts, hole_of, slot_width
from beamcheck.checks.anchors.group import Turn, holes_at
from beamcheck.checks.anchors.manners.registry import connect, manner_of
from beamcheck.checks.anchors.manners.report_words import _other_kind
from beamcheck.checks.core.result import Check
from beamcheck.checks.core.wood.strength import Section
from beamcheck.model.anchors.anchor import Anchor, Fastener
from beamcheck.model.beams import Beam

from ...beams.beams import beam, seat
from ..anchors import A36, HALF, PLATE, Data, axial, find, group, lateral, layout, said, steel, step, stock

OTHER: Data = {"stock": "wood", "thickness": "1 1/2 in", "grain": "along", "end": "6 in", "edge": "5 in"}


# ---- what it takes from the beam -------------------------------------------------------------------------------------


@pytest.mark.parametrize(("fastener", "hole"), [
    ({"kind": "bolt", "size": "1/2 in"}, 0.5625), ({"kind": "pin", "size": "1/2 in"}, 0.5),
    ({"kind": "nail", "size": "60d common"}, 0.0), ({"kind": "lag screw", "size": "1/4 in", "length": "4 in"}, 0.25),
    ({"kind": "wood screw", "size": "No. 10", "length": "3 in"}, 0.0),
])  # fmt: skip
def test_holes_that_are_taken_off(fastener: Data, hole: float) -> None:
    """1/16 in more than a bolt (3.1.2); screws of 1/4 in and more by their size; nothing for nails and thin screws."""
    assert hole_of(Fastener.model_validate(fastener)) == pytest.approx(hole)


def cut_at(index: int, **anchor: Any) -> Any:
    held = Beam.model_validate(beam(supports=[seat("6 in"), seat("11 ft 6 in")], length="12 ft"))
    data = {"name": "A", "manner": "plate one side", "fastener": HALF, "plate": PLATE,
            "holes": {"rows": 2, "columns": 2, "spacing": "4 in", "row_spacing": "3 in", "end": "5 in",
                      "edge": "3 in"}, **anchor}  # fmt: skip
    return anchor_cuts(Anchor.model_validate(data), held, index, Section(5.5, 11.5, 5.5))


def test_what_holes_take_from_either_end() -> None:
    """Rows of 9/16 in, 3 and 6 in up, from 4 23/32 to 9 9/32 in from the end."""
    for index, middle in ((0, 7.0), (1, 137.0)):
        (cut,) = cut_at(index)
        assert (cut.at, cut.length, cut.width) == pytest.approx((middle, 4.5625, 0.0))
        assert [(void.y, void.height, void.breadth) for void in cut.voids] == [
            pytest.approx((3.0, 0.5625, 5.5)), pytest.approx((6.0, 0.5625, 5.5))]  # fmt: skip
        assert (cut.depth, cut.from_bottom) == pytest.approx((3.5625, 4.5))


@pytest.mark.parametrize(("plate", "slot", "reach"), [
    ({"slot": "5/16 in"}, 0.3125, 10.0), ({"slot": "5/16 in", "slot_length": "12 in"}, 0.3125, 12.0),
    ({"slot": "1/2 in", "slot_length": "9 in"}, 0.5, 9.28125),
])  # fmt: skip
def test_what_a_slot_takes(plate: Data, slot: float, reach: float) -> None:
    """From the end, through the whole depth, and no shorter than the holes need."""
    (cut,) = cut_at(0, manner="concealed plate", plate={**PLATE, **plate})
    assert (cut.width, cut.length, cut.at) == pytest.approx((slot, reach, reach / 2))
    assert (cut.depth, cut.from_bottom) == pytest.approx((11.5, 5.75))
    assert all(void.breadth == pytest.approx(5.5 - slot) for void in cut.voids)


def test_what_bores_take_beside_the_holes() -> None:
    """1 in deep on both faces of a slotted piece, on one of a lap."""
    bored = {**HALF, "counterbore": "1 1/2 in", "counterbore_depth": "1 in"}
    (cut,) = cut_at(0, manner="concealed plate", plate={**PLATE, "slot": "5/16 in"}, fastener=bored)
    lower = [(void.height, void.breadth) for void in cut.voids if void.y == 3.0]
    assert lower == [pytest.approx((1.5, 2.0)), pytest.approx((0.5625, 5.5 - 0.3125 - 2.0))]
    (lap,) = cut_at(0, manner="wood side", plate=None, other=OTHER, fastener=bored)
    assert [(void.height, void.breadth) for void in lap.voids if void.y == 3.0] == [
        pytest.approx((1.5, 1.0)), pytest.approx((0.5625, 4.5))]  # fmt: skip
    assert lap.length == pytest.approx(4.0 + 1.5) and lap.depth == pytest.approx(3.0 + 1.5)


def test_nails_and_the_work_of_others_take_nothing() -> None:
    nails = {"kind": "nail", "size": "16d common"}
    assert cut_at(0, manner="wood side", plate=None, other=OTHER, fastener=nails) == []
    assert cut_at(0, manner="by others", plate=None, fastener=None, holes=None) == []
    assert slot_width(None) == 0.0


# ---- steel of plates -------------------------------------------------------------------------------------------------

BOLT = {"kind": "bolt", "size": "5/8 in", "steel": "A307", "length": "7 in"}
HOLES = {"rows": 3, "columns": 1, "row_spacing": "3 in", "end": "4 1/2 in", "edge": "2 3/4 in"}
KNIFE = {"steel": "A36", "thickness": "3/8 in", "width": "9 in", "length": "9 in", "slot": "7/16 in", "weld": "1/4 in"}


def knife(across: float = 0.0, along: float = 0.0, **more: Any) -> list[Check]:
    data = {"held": stock("6x12 dressed"), "manner": "concealed plate", "fastener": BOLT, "plate": KNIFE,
            "holes": HOLES, "arm": "4 1/2 in", "other": None, **more}  # fmt: skip
    return steel(group([across], [along], **data))


@pytest.mark.parametrize(("plate", "gap", "asked"), [
    ({"slot_length": "9 in"}, "0 in", []), ({"slot_length": "8.9 in"}, "0 in", ["anchor.plate.slot_length"]),
    ({}, "1/16 in", []), ({}, "1/8 in", ["anchor.gap"]),
])  # fmt: skip
def test_a_plate_in_its_slot(plate: Data, gap: str, asked: list[str]) -> None:
    """Slot 7/16 in for 3/8 in of steel: 1/16 in of play; no shorter than the plate."""
    found = [one for one in knife(1000.0, plate={**KNIFE, **plate}, gap=gap) if one.id == "anchor.slot"]
    assert [one.questions[0].field.replace("anchor.A.", "anchor.") for one in found] == asked


@pytest.mark.parametrize(("width", "asked"), [("7.875 in", False), ("7.87 in", True)])
def test_holes_a_diameter_and_a_half_from_the_edge(width: str, asked: bool) -> None:
    """15/16 in beyond the outer bolts 6 in apart (Table J3.4, memory)."""
    found = [one.verdict for one in knife(1000.0, plate={**KNIFE, "width": width}) if one.id == "anchor.plate_edge"]
    assert found == (["refer"] if asked else [])


def test_a_pull_beside_the_middle_of_the_depth_bends_the_plate() -> None:
    """1,000 lb by 5 3/4 less 4 in; with 500 lb across at 4 1/2 in: used as (M/M_a + N/P_a)^2 + (V/V_a)^2."""
    low = {**HOLES, "edge": "1 in"}
    found = knife(500.0, 1000.0, holes=low)
    bending = next(one for one in found if one.what == "plate: bending")
    assert bending.demand == pytest.approx(1000.0 * 1.75 + 500.0 * 4.5)
    d = 0.75
    net = (9.0 - 3 * d) * 0.375
    P_a = min(36000 * 9 * 0.375 / 1.67, 58000 * net / 2)
    V_a = min(0.6 * 36000 * 9 * 0.375 / 1.5, 0.6 * 58000 * net / 2)
    used = ((bending.demand or 0.0) / (bending.capacity or 1.0) + 1000.0 / P_a) ** 2 + (500.0 / V_a) ** 2
    assert find(found, "plate: bending, pull and shear").ratio == pytest.approx(used)
    assert not [one for one in knife(0.0, -1000.0, holes=low) if one.what == "plate: bending"], "a push does not"


def test_two_rows_tear_out_as_a_block_along_and_one_row_beside_its_edge() -> None:
    """One row in the middle: sheared on one line from 1 1/2 in, pulled over half of 9 in, unevenly (J4.3)."""
    one = {"rows": 1, "columns": 2, "spacing": "3 in", "end": "3 in", "edge": "5 3/4 in"}
    check = find(knife(0.0, 1000.0, holes=one), "plate: block shear along")
    d, t = 0.75, 0.375
    long = min(0.5 * (9.0 - 3.0), 9.0 - 6.0) + 3.0
    A_gv, A_nv, A_nt = long * t, (long - 1.5 * d) * t, (4.5 - 0.5 * d) * t
    assert check.capacity == pytest.approx((min(0.6 * 58000 * A_nv, 0.6 * 36000 * A_gv) + 0.5 * 58000 * A_nt) / 2)


@pytest.mark.parametrize(
    ("arm", "kind"), [("6.7 in", "short"), ("6.8 in", "buckles"), ("16.5 in", "buckles"), ("16.6 in", "refer")]
)
def test_a_plate_that_is_pressed(arm: str, kind: str) -> None:
    """1.2 L sqrt(12)/t: up to 25 it only yields (J4.4), up to 4.71 sqrt(E/F_y) = 133.7 it buckles (E3), then refers."""
    check = next(one for one in knife(0.0, -1000.0, arm=arm) if one.id == "anchor.plate_pressed")
    L = float(arm.split()[0]) - 4.5
    slender = 1.2 * L * math.sqrt(12) / 0.375
    if kind == "short":
        assert slender < 25.0 and check.capacity == pytest.approx(36000 * 9 * 0.375 / 1.67)
    elif kind == "buckles":
        F_e = math.pi**2 * 29e6 / slender**2
        assert check.capacity == pytest.approx(0.658 ** (36000 / F_e) * 36000 * 9 * 0.375 / 1.67)
    assert (check.verdict == "refer") is (kind == "refer")


def test_weld_at_the_bend_of_an_angle_is_not_checked() -> None:
    found = knife(1000.0, manner="let-in angle", plate={**KNIFE, "slot": None})
    assert [one.verdict for one in found if one.id == "anchor.weld"] == ["refer"]


def test_the_weld_of_a_plate_on_one_side_is_twisted() -> None:
    """V over both lines, M over 2 w^2/6 with N over both, and 3 V off/w^2; off half of wood and plate, 2 15/16 in."""
    from ..anchors import couple

    made = group([1000.0], [600.0], held=stock("6x12 dressed"), manner="plate one side", fastener=BOLT, other=None,
                 plate={**KNIFE, "slot": None}, holes=HOLES, arm="4 1/2 in")  # fmt: skip
    manner: Any = manner_of(made.anchor)
    found = [one for stage in manner.stages(connect(made)) for one in stage]
    check = find(found, "weld")
    off, w = 0.5 * (5.5 + 0.375), 9.0
    f_v, f_b, f_t = 1000.0 / (2 * w), 3 * 4500.0 / w**2 + 600.0 / (2 * w), 3 * 1000.0 * off / w**2
    assert check.demand == pytest.approx(math.sqrt(f_v**2 + f_b**2 + f_t**2))
    assert couple(made) is not None


# ---- couples and turning ---------------------------------------------------------------------------------------------


def test_pull_by_the_edge_that_bears_when_pressed_and_when_lifted() -> None:
    """M/(0.7 h): up to the top row from the lower edge, down to the lowest row from the upper one; shared by two."""
    holes = {"rows": 3, "columns": 2, "end": "4 in", "edge": "2 in", "row_spacing": "3 in", "spacing": "3 in"}
    made = group([1000.0, -500.0], holes=holes)
    found = couple_of(made, -2.0, (1.0, 9.0))
    assert found.off == 2.0 and found.heights == pytest.approx((7.0, 7.0))
    assert found.each[4:, 0] == pytest.approx([1000 * 2 / (0.7 * 7.0) / 2] * 2)
    assert found.each[:2, 1] == pytest.approx([500 * 2 / (0.7 * 7.0) / 2] * 2)
    assert float(found.each[:4, 0].sum() + found.each[2:, 1].sum()) == 0.0
    assert found.worst in (4, 5)


@pytest.mark.parametrize(("rotation", "doubled"), [
    (0.004, True), (0.000001, False), (2.01e-5, True), (2.00e-5, False),
])  # fmt: skip
def test_an_end_that_is_kept_from_turning_by_little_counts_as_free(rotation: float, doubled: bool) -> None:
    """Less than a hundredth of an even share on the farthest fastener is not worth a word (judgment).

    5 lb of 500 at 4 in from the middle of two: 40 lb-in over a stiffness of 180,000 D^1.5 x 32 and 1e-8: 2.004e-5.
    """
    holes = {"rows": 1, "columns": 2, "end": "4 in", "edge": "5 in", "spacing": "8 in"}
    made = replace(group([1000.0], holes=holes), turn=Turn(np.array([rotation]), 1e-8))
    assert (len(connect(made).group.forces.combinations) == 2) is doubled


def test_steel_beside_wood_slips_less() -> None:
    """270,000 D^1.5 with steel, 180,000 D^1.5 wood on wood (11.3.6, read)."""
    holes = {"rows": 1, "columns": 2, "end": "4 in", "edge": "5 in", "spacing": "4 in"}
    made = group([1000.0], holes=holes, manner="plate one side", plate=PLATE, other=None, held=stock("6x12 dressed"))
    made = replace(made, turn=Turn(np.array([0.001]), 2e-7))
    K = 270_000 * 0.5**1.5 * 8.0
    assert connect(made).spread.M[1] - connect(made).spread.M[0] == pytest.approx(-0.001 / (1 / K + 2e-7))


def test_one_ledger_wood_stress() -> None:
    """6 M/(d b^2) on a stretch as long as the ledger is deep: up to 15 psi is next to nothing (5.2.8)."""
    from ..anchors import beside

    for force, verdict in ((14.9, "passes"), (15.1, "refer")):
        V = force * 11.25 * 1.5**2 / 6 / 2.0
        made = group([V], manner="ledger", arm="2 in", holes=HOLES)
        assert [one.verdict for one in beside(made) if one.id == "anchor.ledger_wood"] == [verdict]
    for V, said_ in ((0.25, ["passes"]), (0.0, [])):  # half a pound-inch is little, and nothing is not spoken of
        made = group([V], manner="ledger", arm="2 in", holes=HOLES)
        assert [one.verdict for one in beside(made) if one.id == "anchor.ledger_wood"] == said_
    assert step(find(axial(group([20.0]), [10.0]), "washer on the held"), "T") == 10.0
    assert said(lateral(group([20.0])), "fails") == ""


# ---- lengths of bolts and pins ---------------------------------------------------------------------------------------


@pytest.mark.parametrize(("P", "given", "far"), [(100.0, 4.0, 1.5), (-100.0, 1.5, 4.0)])
def test_edges_of_a_girder_by_the_way_of_the_load(P: float, given: float, far: float) -> None:
    """Pressed down, the lower edge of what lies behind with its grain is loaded, else the upper one (12.5.1C)."""
    found = layout(group([P], other={**OTHER, "edge": "3 in"}))
    for what, k in (("given edge", given), ("far edge", far)):
        assert find(found, f"distance to the {what} in the post").demand == pytest.approx(k * 0.5), what
    aslant = layout(group([P], other={**OTHER, "grain": "across", "end": "20 in", "edge": "3 in"}))
    assert find(aslant, "distance to the given edge in the post").demand == pytest.approx(1.5 * 0.5)


@pytest.mark.parametrize(("length", "l_s"), [("5 1/2 in", 2.59375), ("4 in", 1.84375)])
def test_cheeks_bear_as_far_as_a_pin_reaches(length: str, l_s: float) -> None:
    """Half of what a slot of 5/16 in leaves of 5 1/2 in of wood, or of the pin."""
    pin = {"kind": "pin", "size": "1/2 in", "steel": "A36", "length": length}
    made = group([100.0], held=stock("6x12 dressed"), manner="concealed plate", other=None, plate=A36, fastener=pin,
                 clamped=True)  # fmt: skip
    assert connect(made).joint.side.length == pytest.approx(l_s)


@pytest.mark.parametrize(("length", "words"), [
    ("5 in", ""), ("5.05 in", "too long"), ("3.3 in", "too short"), (None, ""),
])  # fmt: skip
def test_bolts_between_two_bores(length: str | None, words: str) -> None:
    """1 1/2 in between two of 1 3/4 in, 1/2 in bored off either: 4 in to hold, with washers and a nut under 5 in."""
    bolt = {**HALF, "threads": None, "counterbore": "1 1/2 in", "counterbore_depth": "1/2 in", "length": length}
    made = group([100.0], manner="wood both sides", other={**OTHER, "thickness": "1 3/4 in"},
                 fastener={key: value for key, value in bolt.items() if value is not None})  # fmt: skip
    joint = connect(made).joint
    assert (joint.main.length, joint.side.length) == pytest.approx((1.5, 1.25))
    faults = [fault.text for fault in joint.faults if fault.id == "anchor.length"]
    assert bool(faults) is bool(words) and all(words in text for text in faults)


@pytest.mark.parametrize(("across", "words", "told"), [
    ([-900.0], "ER-1, holddowns", False), ([-900.0, 0.4], "ER-1, holddowns", False),
    ([-900.0, 0.6], "ER-1, holddowns", True), ([500.0], "ER-1, hangers", False), ([500.0], "ER-1, uplift only", True),
])  # fmt: skip
def test_hardware_for_what_lifts_is_told_from_half_a_pound_that_comes_down(
    across: list[float], words: str, told: bool
) -> None:
    """Down is positive; 1/2 lb is rounding (judgment)."""
    assert bool(list(_other_kind(group(across), words))) is told


@pytest.mark.parametrize(("end", "first", "second"), [("5 in", 5.0, 10.5), ("7 in", 7.0, 12.5), ("9 in", 3.5, 9.0)])
def test_holes_given_once_for_two_supports_lie_as_given_where_they_fit_best(
    end: str, first: float, second: float
) -> None:
    """Supports 4 1/2 in from one end and 10 in from the other: 7 in is nearer to the first, 9 in to the second."""
    piece = Beam.model_validate(beam(supports=[seat("4.5 in", held_by="A"), seat("134 in", held_by="A")],
                                     length="144 in"))  # fmt: skip
    anchor = group([1.0], holes={"rows": 1, "columns": 1, "end": end, "edge": "6 in"}).anchor
    assert [list(holes_at(anchor, piece, index)[0]) for index in (0, 1)] == [[first], [second]]
