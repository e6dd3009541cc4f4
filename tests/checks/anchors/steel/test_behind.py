"""The plate behind, prying, and what a group takes from a piece: at each limit, by hand. Groups are invented.

A plate of 3/8 in behind, 10 in high with two of four rods of 5/8 in at 8 in; the plate in the beam is 7 in wide. Prying
by AISC Manual part 9 (memory), F_u 58 ksi of A36.
"""

from __future__ import annotations

import math
from dataclasses import replace
from types import SimpleNamespace
from typing import Any

import numpy as np
import pytest

from beamcheck.calc.pad import SilentPad
from beamcheck.checks.anchors.cuts import anchor_cuts, cuts_by_anchors, slot_width
from beamcheck.checks.anchors.group import Group
from beamcheck.checks.anchors.manners.registry import connect
from beamcheck.checks.anchors.steel.back import back_checks, back_of, distance, held_behind_checks
from beamcheck.checks.anchors.steel.prying import PriedLeg, pried_checks
from beamcheck.checks.core.asking.question import RULING
from beamcheck.checks.core.result import Check
from beamcheck.checks.core.wood.strength import Section
from beamcheck.model.anchors.anchor import Anchor
from beamcheck.model.beams import Beam
from beamcheck.model.existing import Existing

from ...beams.beams import beam, seat
from ..anchors import HALF, Data, group, loaded, made, stock
from ..test_plate_behind import BACK, REPORT

PLATE: Data = {"steel": "A36", "thickness": "3/8 in", "width": "7 in", "length": "9 in", "slot": "7/16 in",
               "weld": "1/4 in"}  # fmt: skip
BOLT: Data = {"kind": "bolt", "size": "5/8 in", "steel": "A307", "length": "7 in"}
TWO: Data = {"rows": 2, "columns": 1, "row_spacing": "3 1/2 in", "end": "4 1/2 in", "edge": "4 in"}
WALL = Existing.model_validate({"name": "wall", "what": "concrete wall", "material": "concrete", "takes": "9,000 lb",
                                "confirmed_by": "invented sheet S-1, engineer"})  # fmt: skip


def behind(
    across: list[float], out: list[float] | None = None, *, turning: list[float] | None = None,
    wall: Any = WALL, holes: Data | None = None, **back: Any,
) -> Group:  # fmt: skip
    told = {key: value for key, value in {**BACK, **back}.items() if value is not None}
    one = group(across, out, held=stock("6x12 dressed"), manner="concealed plate", fastener=BOLT, plate=PLATE,
                holes=holes or TWO, other=None, into=None, arm="0 in", back=told)  # fmt: skip
    forces = one.forces if turning is None else replace(one.forces, turning=np.array(turning))
    return replace(one, into=wall, forces=forces)


def the(found: Any, id: str, words: str = "") -> Check:
    those = [check for check in found if check.id == id and words in check.what]
    assert len(those) == 1, [(check.id, check.what) for check in those]
    return those[0]


# ---- the plate behind ------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(("across", "along", "turning", "pull"), [
    # 4 1/2 in to the end and 1/2 in clear: 5 in; the highest rods 8 in up, less 1 1/2 in that stand out but 3/8 in
    ([1000.0], [0.0], None, 5000.0 / (0.9 * 6.875) / 2), ([-1000.0], [0.0], None, 5000.0 / (0.9 * 6.875) / 2),
    ([1000.0], [400.0], None, 5000.0 / (0.9 * 6.875) / 2 + 200.0), ([1000.0], [-400.0], None, 5000 / (0.9 * 6.875) / 2),
    ([1000.0], [0.0], [-600.0], 5600.0 / (0.9 * 6.875) / 2), ([0.0], [400.0], None, 200.0),
])  # fmt: skip
def test_pull_on_one_of_the_highest_rods(
    across: list[float], along: list[float], turning: list[float] | None, pull: float
) -> None:
    """The moment over nine tenths of the height, and what pulls, on the two highest; what presses does not help."""
    found = list(back_checks(behind(across, along, turning=turning)))
    assert the(found, "anchor.pried").demand == pytest.approx(pull)
    both = the(found, "anchor.back_both")
    T_a = the(found, "anchor.pried").capacity or 0.0
    assert both.ratio == pytest.approx(pull / T_a + abs(across[0]) / 4 / 2500.0)


@pytest.mark.parametrize(("along", "below"), [("7 in", 0.0), ("7 3/4 in", 0.0), ("10 in", 1.125), ("12 in", 2.125)])
def test_what_stands_out_below_farther_than_it_is_thick_bends(along: str, below: float) -> None:
    made_ = behind([1000.0], along=along, high="6 in")
    pull = 5000.0 / (0.9 * (6.0 - below)) / 2
    assert the(back_checks(made_), "anchor.pried").demand == pytest.approx(pull)


def test_rods_along_the_plate() -> None:
    """Two on a side of 10 in go with 3 in each (2 b); four with 2 1/2 in: less leg to each."""

    def capacity(**back: Any) -> float:
        return the(back_checks(behind([1000.0], takes="9,000 lbf", **back)), "anchor.pried").capacity or 0.0

    b, a = 1.1875, 1.5625
    for count, p in ((4, 3.0), (8, 2.5)):
        delta, M = 1 - 0.6875 / p, p * 0.375**2 / 4 * 58000 / 1.67
        # with the edge pressing all it can: alpha 1; the whole rod is never reached by so thin a leg
        assert capacity(count=count) == pytest.approx(M * (1 + delta) / b, rel=1e-3), count
    assert a > b


@pytest.mark.parametrize(("lift", "asked"), [(0.5, False), (0.51, True), (200.0, True)])
def test_what_lifts_the_plate_is_for_an_engineer(lift: float, asked: bool) -> None:
    found = [check for check in back_checks(behind([500.0, -lift])) if check.id == "anchor.back_lifted"]
    assert [check.verdict for check in found] == (["refer"] if asked else [])
    if lift == 200.0:
        assert found[0].notes[0].startswith("200 lb lift") and found[0].questions[0].field == RULING


@pytest.mark.parametrize(("by", "verdict", "words"), [
    (REPORT, "passes", "3,000 lb each by evaluation report"), ("sheet S-4 of the engineer", "passes", "depth, edge"),
    ("", "refer", "who says so is not said"), ("the salesman", "refer", "'the salesman' names no document or engineer"),
])  # fmt: skip
def test_who_says_what_a_rod_bears(by: str, verdict: str, words: str) -> None:
    check = the(back_checks(behind([500.0], takes_by=by)), "anchor.back_rods")
    assert check.verdict == verdict and words in check.notes[0]
    assert [one.field for one in check.questions] == ([] if verdict == "passes" else ["anchor.A.back.takes_by"])


@pytest.mark.parametrize(("material", "words", "field"), [
    ("masonry", "is said to be of masonry", "anchor.A.back.on"), ("wood", "is said to be of wood",
                                                                  "existing.wall.material"),
    ("other", "what wall is made of is not said", "existing.wall.material"),
])  # fmt: skip
def test_rods_into_another_material_than_the_wall_s(material: str, words: str, field: str) -> None:
    wall = WALL.model_copy(update={"material": material})
    check = the(back_checks(behind([500.0], wall=wall)), "anchor.far_side")
    assert words in check.notes[0] and check.questions[0].field == field
    assert [answer.says for answer in check.questions[0].answers] == ["masonry" if field.startswith("anchor")
                                                                      else "concrete"]  # fmt: skip


def test_what_a_rod_bears_sideways_is_asked_with_four_times_its_share() -> None:
    check = the(back_checks(behind([1000.0], sideways=None)), "anchor.back_both")
    assert "250 lb shear each rod" in check.notes[0]
    assert [answer.says for answer in check.questions[0].answers] == ["1,000 lbf"]
    assert check.questions[0].field == "anchor.A.back.sideways"


def test_nothing_behind() -> None:
    one = behind([1000.0])
    assert back_of(one) is not None and distance(one, back_of(one)) == pytest.approx(5.0)  # type: ignore[arg-type]
    girder = Beam.model_validate(beam(name="wall"))
    assert back_of(replace(one, into=girder)) is None and list(back_checks(replace(one, into=girder))) == []
    assert list(back_checks(replace(one, x=np.zeros(0), y=np.zeros(0)))) == []
    bare = replace(one, anchor=one.anchor.model_copy(update={"back": None}))
    assert list(back_checks(bare)) == [] and list(held_behind_checks(connect(bare))) == []


def test_bolts_with_all_of_the_moment_turning_either_way() -> None:
    """Two bolts 3 1/2 in apart: 1,000 lb by 5 in, with 700 lb-in of the end's own; one bolt is a hinge."""
    (check,) = held_behind_checks(connect(behind([1000.0], turning=[700.0])))
    assert check.demand == pytest.approx(math.hypot(500.0, 5700.0 / 3.5)) and check.what.endswith("turns behind")
    (check,) = held_behind_checks(connect(behind([1000.0], turning=[-700.0])))
    assert check.demand == pytest.approx(math.hypot(500.0, 5700.0 / 3.5))
    (check,) = held_behind_checks(connect(behind([-1000.0])))
    assert check.demand == pytest.approx(math.hypot(500.0, 5000.0 / 3.5))
    one = {"rows": 1, "columns": 1, "end": "4 1/2 in", "edge": "5 in"}
    assert list(held_behind_checks(connect(behind([1000.0], holes=one)))) == []


# ---- prying ----------------------------------------------------------------------------------------------------------

LEG = PriedLeg("A36", 0.375, 0.625, 0.6875, 2.0, 1.5, 4.0)


def allowed(leg: PriedLeg, B: float) -> float:
    return float(leg.allowed(SilentPad(), B))


@pytest.mark.parametrize(("a", "wood", "a_p"), [
    (2.0, False, 1.875 + 0.3125), (1.0, False, 1.3125), (2.0, True, 0.8125), (0.25, True, 0.5625),
])  # fmt: skip
def test_lever_of_prying_is_short_on_wood(a: float, wood: bool, a_p: float) -> None:
    """1 1/4 b, or half an inch on wood (judgment): Q = (T b' - p t^2 F_u/6.68)/a'."""
    leg = replace(LEG, a=a, wood=made(stock()) if wood else None)
    b, p, T = 1.1875, 3.0, 4000.0
    t_c = math.sqrt(1.67 * 4 * 9000.0 * b / (p * 58000))
    alpha = ((t_c / 0.375) ** 2 - 1) / ((1 - 0.6875 / 3) * (1 + b / a_p))
    assert allowed(leg, 9000.0) == pytest.approx(9000 * (0.375 / t_c) ** 2 * (1 + (1 - 0.6875 / 3) * min(alpha, 1.0)))
    if wood:
        f, bears = leg.edge(SilentPad(), T)
        Q = (T * b - p * 0.375**2 * 58000 / 6.68) / a_p
        assert float(leg.edge(SilentPad(), 2000.0)[0]) == 0.0, "the leg alone carries so much"
        assert (float(f), float(bears)) == pytest.approx((Q / (p * min(a, 0.5)), 625.0))


def test_from_what_thickness_on_nothing_pries() -> None:
    """The root of 6.66 T b'/(p F_u)."""
    assert LEG.thick_enough(2000.0) == pytest.approx(math.sqrt(6.66 * 2000 * 1.1875 / (3.0 * 58000)))
    thick = replace(LEG, t=1.0)
    assert allowed(thick, 3000.0) == pytest.approx(3000.0)
    (check,) = pried_checks(
        "A", "leg", thick, np.array([100.0, 2000.0]), 3000.0, (loaded("D"), loaded("L")), note="a rod"
    )
    assert (check.demand, check.capacity, check.combination) == (2000.0, pytest.approx(3000.0), "L")
    assert "from 0.302 in of A36 on nothing pries" in check.notes[0]
    wood = replace(LEG, wood=made(stock()))
    found = list(pried_checks("A", "leg", wood, np.array([2000.0]), 3000.0, (loaded("D"),)))
    assert [check.id for check in found] == ["anchor.pried", "anchor.pried_wood"]


# ---- what it takes from the piece ------------------------------------------------------------------------------------

ROD: Data = {"name": "R", "manner": "hanger rod", "fastener": {"kind": "bolt", "size": "5/8 in", "steel": "A36"}}


def cuts(index: int, at: tuple[str, str] = ("6 in", "11 ft 6 in"), **anchor: Any) -> Any:
    piece = Beam.model_validate(beam(supports=[seat(at[0]), seat(at[1])], length="12 ft"))
    return anchor_cuts(Anchor.model_validate(anchor), piece, index, Section(5.5, 11.5, 5.5))


@pytest.mark.parametrize(("index", "holes", "places"), [
    (0, {"rows": 1, "columns": 1, "end": "4 in", "edge": "2 in"}, [4.0]),
    (1, {"rows": 1, "columns": 1, "end": "4 in", "edge": "2 in"}, [140.0]),
    (0, {"rows": 2, "columns": 2, "end": "4 in", "edge": "2 in", "spacing": "3 in", "row_spacing": "2 in"}, [4.0, 7.0]),
    (0, None, [6.0]), (1, None, [138.0]),
])  # fmt: skip
def test_rods_through_the_piece(index: int, holes: Data | None, places: list[float]) -> None:
    """Each a slot of 11/16 in through all of the depth; in the line of the support where nothing is said."""
    found = cuts(index, **ROD, **({"holes": holes} if holes else {}))
    assert [cut.at for cut in found] == pytest.approx(places)
    assert all((cut.length, cut.width, cut.depth, cut.from_bottom) == (0.6875, 0.6875, 11.5, 5.75) for cut in found)


@pytest.mark.parametrize(("at", "left"), [("6 ft", True), ("6 ft 1/8 in", False)])
def test_holes_from_the_end_that_is_nearer(at: str, left: bool) -> None:
    plate = {"steel": "A36", "thickness": "1/4 in", "width": "6 in", "length": "10 in"}
    (cut,) = cuts(1, ("6 in", at), name="A", manner="plate one side", fastener=HALF, plate=plate,
                  holes={"rows": 1, "columns": 1, "end": "5 in", "edge": "3 in"})  # fmt: skip
    assert cut.at == pytest.approx(5.0 if left else 139.0)
    assert (cut.length, cut.depth, cut.from_bottom) == pytest.approx((0.5625, 0.5625, 3.0))


def test_a_slot_alone_and_bores_as_deep_as_the_piece() -> None:
    slot = {**PLATE, "slot": "7/16 in", "slot_length": "9 1/2 in"}
    (cut,) = cuts(0, name="A", manner="concealed plate", fastener=BOLT, plate=slot, holes=TWO)
    assert (cut.width, cut.at, cut.length) == pytest.approx((0.4375, 4.75, 9.5)) and len(cut.voids) == 2
    assert slot_width(Anchor.model_validate({"name": "A", "manner": "concealed plate", "fastener": BOLT, "plate": slot,
                                             "holes": TWO})) == 0.4375  # fmt: skip
    bored = {**HALF, "counterbore": "1 1/2 in", "counterbore_depth": "3 in"}
    (cut,) = cuts(0, name="A", manner="concealed plate", fastener=bored, plate=slot, holes=TWO)
    assert [(void.height, void.breadth) for void in cut.voids] == [(1.5, 5.0625)] * 2, "nothing is left to a hole"
    narrow = {**HALF, "counterbore": "9/16 in", "counterbore_depth": "1 in"}
    (cut,) = cuts(0, name="A", manner="concealed plate", fastener=narrow, plate=slot, holes=TWO)
    assert [(void.height, void.breadth) for void in cut.voids] == [(0.5625, 5.0625)] * 2, "no wider than its hole"
    laid = {"name": "A", "manner": "concealed plate", "fastener": HALF, "plate": slot, "holes": TWO}
    thin = anchor_cuts(
        Anchor.model_validate(laid),
        Beam.model_validate(beam(supports=[seat("6 in"), seat("11 ft 6 in")])), 0, Section(1.25, 11.5, 1.25),
    )  # fmt: skip
    assert [void.breadth for void in thin[0].voids] == pytest.approx([1.25 - 0.4375] * 2)
    toe = {"name": "A", "manner": "toe-nails", "fastener": {"kind": "nail", "size": "16d common"}, "holes": TWO,
           "other": {"thickness": "5 1/2 in", "grain": "across"}}  # fmt: skip
    assert cuts(0, **toe) == []


@pytest.mark.parametrize(("lands_at", "spacing", "places"), [
    ("3 ft", None, [36.0]), (None, None, [72.0]), ("14 ft", None, [144.0]), ("3 ft", "24 in", [36.0, 72.0]),
])  # fmt: skip
def test_rods_of_what_hangs_from_a_beam(lands_at: str | None, spacing: str | None, places: list[float]) -> None:
    """At midspan where no place is said; of a row one may hang anywhere, so at midspan too; never beyond the end."""
    high = Beam.model_validate(beam(name="high"))
    ends = [{"at": "6 in", "on": "high", "holds": "hung", "held_by": "R", "restrained": True,
             **({"lands_at": lands_at} if lands_at else {})}, seat("12 ft")]  # fmt: skip
    low = Beam.model_validate(beam(name="low", supports=ends, **({"spacing": spacing} if spacing else {})))
    rod = Anchor.model_validate(ROD)
    context: Any = SimpleNamespace(
        anchor=lambda name: rod if name == "R" else None, structure=SimpleNamespace(beams_on=lambda name: [low]),
    )  # fmt: skip
    found = cuts_by_anchors(high, context, Section(5.5, 11.5, 5.5))
    assert [cut.at for cut in found] == pytest.approx(places)
    nailed = Anchor.model_validate({"name": "R", "manner": "by others"})
    context.anchor = lambda name: nailed if name == "R" else None
    assert cuts_by_anchors(high, context, Section(5.5, 11.5, 5.5)) == []
    elsewhere = Beam.model_validate(beam(name="other"))
    context.anchor = lambda name: rod if name == "R" else None
    assert cuts_by_anchors(elsewhere, context, Section(5.5, 11.5, 5.5)) == []
