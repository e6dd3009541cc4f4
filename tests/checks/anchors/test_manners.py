"""What each manner of anchoring counts that a careless reading leaves out: each case names its clause.

Figures are worked by hand beside the case (how: derived from the clause named, unless said). Groups are invented.
"""

from __future__ import annotations

import math
from dataclasses import replace
from typing import Any

import numpy as np
import pytest

from beamcheck.checks.anchors.couple import couple_of
from beamcheck.checks.anchors.far_side import far_side_checks, row_of
from beamcheck.checks.anchors.fasteners.spread import STIFF, holding_the_end
from beamcheck.checks.anchors.fasteners.tear_out import tear_out_checks
from beamcheck.checks.anchors.group import Group, Turn
from beamcheck.checks.anchors.manners.base import line_checks
from beamcheck.checks.anchors.manners.rated_hardware import basis_of, rated_checks
from beamcheck.checks.anchors.manners.registry import REGISTRY, connect
from beamcheck.checks.core.asking.question import RULING
from beamcheck.checks.core.trivial import trivial
from beamcheck.model.anchors.anchor import Anchor, Rating
from beamcheck.model.anchors.manners import MANNERS, Manner
from beamcheck.model.existing import Existing
from beamcheck.values.loader import rows

from .anchors import A36, HALF, Data, axial, beside, couple, find, group, lateral, layout, said, step, stock

WORST = "lateral load on the worst"
PLAIN = {key: value for key, value in A36.items() if key != "slot"}
TWO = {"rows": 2, "columns": 1, "end": "4 in", "edge": "3 in", "row_spacing": "3 1/2 in"}


def test_every_manner_of_the_job_file_has_its_class() -> None:
    assert set(REGISTRY) == set(MANNERS) == set(Manner.__args__)  # type: ignore[attr-defined]
    assert all(name == manner.name for name, manner in REGISTRY.items())


# ---- what goes into what ---------------------------------------------------------------------------------------------


def into(material: str, **anchor: Any) -> Group:
    wall = Existing.model_validate({"name": "wall", "what": "wall", "material": material, "takes": "9,000 lb",
                                    "confirmed_by": "invented sheet S-1, engineer"})  # fmt: skip
    made = group([100.0], **anchor)
    return replace(made, anchor=made.anchor.model_copy(update={"into": "wall"}), into=wall)


@pytest.mark.parametrize(
    ("material", "verdict"),
    [("steel", "passes"), ("wood", "fails"), ("concrete", "fails"), ("ground", "fails"), ("other", "refer")],
)
def test_a_plate_is_welded_to_steel_only(material: str, verdict: str) -> None:
    """AISC 360-16 J2: welds join steel."""
    plate = {**A36, "weld": "1/4 in"}
    made = into(material, manner="concealed plate", plate=plate, other=None, held=stock("4x12 dressed"))
    found = far_side_checks(made)
    worst = {check.verdict for check in found} or {"passes"}
    assert ("fails" if "fails" in worst else "refer" if "refer" in worst else "passes") == verdict


@pytest.mark.parametrize(
    ("material", "verdict"), [("wood", "passes"), ("steel", "refer"), ("concrete", "refer"), ("ground", "fails")]
)
def test_bolts_into_wood_go_into_wood(material: str, verdict: str) -> None:
    found = [check for check in far_side_checks(into(material)) if check.id == "anchor.far_side"]
    assert [check.verdict for check in found] == ([] if verdict == "passes" else [verdict])


@pytest.mark.parametrize(("kind", "length", "verdict"), [("bolt", None, "fails"), ("lag screw", "6 in", "passes")])
def test_no_nut_in_end_grain(kind: str, length: str | None, verdict: str) -> None:
    """12.1.3: a bolt needs its nut and washer; a lag screw holds in end grain with its factor."""
    fastener = {key: value for key, value in {"kind": kind, "size": "1/2 in", "length": length}.items() if value}
    made = into("wood", fastener=fastener, other={"stock": "wood", "thickness": "5 1/2 in", "grain": "end"})
    found = [check for check in far_side_checks(made) if check.id == "anchor.far_side"]
    assert [check.verdict for check in found] == (["fails"] if verdict == "fails" else [])


def test_the_table_of_far_sides_answers_for_every_manner() -> None:
    materials = {row["far"] for row in rows("anchor_far_sides")} - {"end grain"}
    for fastening in {row["fastening"] for row in rows("anchor_far_sides")}:
        for material in materials:
            if fastening not in ("bolt", "pin", "lag screw", "wood screw", "nail"):
                assert row_of(fastening, material)["why"]
    assert all(row["question"] for row in rows("anchor_far_sides") if row["holds"] == "ask")


# ---- threads, gaps, slots --------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("length", "D"),
    # 5 1/2 in of wood under a washer of 0.165 in; 1 in bolts over 6 in have 2 1/4 in of thread (Table L1, ASME B18.2.1)
    [("7 in", 0.847), ("8 1/2 in", 1.0)],
)
def test_threads_are_clear_only_where_bolt_and_wood_let_them(length: str, D: float) -> None:
    """12.3.7.2: over more than a quarter of the cheek beside the nut, 2.53 in, the root diameter counts."""
    bolt = {"kind": "bolt", "size": "1 in", "steel": "A307", "length": length, "threads": "clear of it"}
    made = group([100.0], held=stock("6x12 dressed"), manner="concealed plate", other=None, fastener=bolt,
                 plate={**A36, "thickness": "3/8 in", "slot": "7/16 in"})  # fmt: skip
    assert step(find(lateral(made), WORST), "D") == pytest.approx(D)


def test_measured_thread_counts_before_that_of_the_table() -> None:
    bolt = {"kind": "bolt", "size": "1 in", "length": "7 in", "threads": "clear of it", "thread_length": "1 1/2 in"}
    made = group([100.0], held=stock("6x12 dressed"), manner="concealed plate", other=None, fastener=bolt, plate=A36)
    assert step(find(lateral(made), WORST), "D") == 1.0


def test_all_of_the_gap_may_be_on_one_side_of_a_plate() -> None:
    """TR12 (gap between members): nothing keeps the plate in the middle of its slot."""
    made = group(
        [100.0], held=stock("6x12 dressed"), manner="concealed plate", other=None, plate={**A36, "slot": "1 in"}
    )
    assert step(find(lateral(made), WORST), "g") == pytest.approx(0.75)


# ---- couples ---------------------------------------------------------------------------------------------------------


def test_a_lap_pulls_on_its_bolts() -> None:
    """11.1.3: 2,000 lb held at the face of the thicker side, 7 1/2 in, on bolts up to 6 1/2 in above the lower edge."""
    other = {"stock": "wood", "thickness": "7 1/2 in", "grain": "across", "end": "30 in", "edge": "3 3/4 in"}
    made = group([2000.0], held=stock("6x12 dressed"), into=stock("8x8 dressed"), other=other, holes=TWO,
                 fastener={"kind": "bolt", "size": "3/4 in", "steel": "A307"})  # fmt: skip
    found = couple(made)
    assert found is not None
    assert found.M[0] == pytest.approx(2000 * 3.75)
    assert found.each[:, 0] == pytest.approx([0.0, 2000 * 3.75 / (0.7 * 6.5)])
    (check,) = [check for check in beside(made) if check.id == "anchor.couple"]
    assert check.verdict == "refer" and check.questions[0].field == "anchor.A.twist_held_by"
    for words, verdict in (
        ("blocking, engineer's sketch 3 of 2026-01-12", "passes"), ("the plaster", "refer"), ("gravity", "refer"),
        ("hope, 2026-01-12", "refer"),
    ):  # fmt: skip
        held = replace(made, anchor=made.anchor.model_copy(update={"twist_held_by": words}))
        assert {check.verdict for check in beside(held) if check.id == "anchor.couple"} == {verdict}
    light = replace(made, forces=replace(made.forces, across=np.array([500.0])))
    assert all(check.holds for check in beside(light))


def test_a_plate_on_one_side_pulls_and_is_twisted() -> None:
    """11.1.3: half the breadth and half the plate beside the middle; shear of twist 3 T over w t^2 (AISC 360-16 H3)."""
    plate = {**PLAIN, "thickness": "3/4 in", "width": "7 in", "weld": "1/4 in"}
    made = group([1000.0], held=stock("6x12 dressed"), manner="plate one side", other=None, plate=plate, holes=TWO,
                 fastener={"kind": "bolt", "size": "3/4 in", "steel": "A307", "length": "8 in"})  # fmt: skip
    found = couple(made)
    assert found is not None and found.off == pytest.approx(0.5 * (5.5 + 0.75))
    checks = [c for stage in REGISTRY["plate one side"].stages(connect(made)) for c in stage]  # type: ignore[attr-defined]
    twist = next(check for check in checks if check.id == "anchor.plate_twist")
    assert twist.demand == pytest.approx(3 * 1000 * 3.125 / (7 * 0.75**2))


def test_a_piece_that_carries_others_is_a_ledger_whatever_it_is_called() -> None:
    """3.8.2: what rests on it bends its wood across the grain, for which there is no design value."""
    made = group([2000.0], held=stock("6x12 dressed"), holes=TWO, fastener={**HALF, "size": "3/4 in"})
    assert not [check for check in beside(made) if check.id == "anchor.ledger_wood"]
    carrying = replace(made, carries=("joists",))
    (check,) = [check for check in beside(carrying) if check.id == "anchor.ledger_wood"]
    assert check.verdict == "refer"
    little = replace(carrying, forces=replace(made.forces, across=np.array([100.0])))
    assert [c.verdict for c in beside(little) if c.id == "anchor.ledger_wood"] == ["passes"]


def test_what_rests_on_a_ledger_is_no_nearer_to_the_wall_than_its_middle() -> None:
    made = group([1000.0], manner="ledger", arm="1/4 in", held=stock("6x12 dressed"), holes=TWO)
    assert couple(made).off == pytest.approx(0.25)  # type: ignore[union-attr]
    assert couple(replace(made, carries=("joists",))).off == pytest.approx(2.75)  # type: ignore[union-attr]


def test_the_edge_that_bears_sets_the_lever() -> None:
    made = group([1000.0], holes=TWO)
    whole, plate = couple_of(made, 2.0), couple_of(made, 2.0, (2.0, 8.0))
    assert plate.each[1, 0] / whole.each[1, 0] == pytest.approx(6.5 / 4.5)


# ---- an end that cannot turn freely ----------------------------------------------------------------------------------


def test_two_columns_are_no_hinge() -> None:
    """11.1.3: M = rotation over 1/K + softness, K = gamma I_p, gamma = 180,000 D^1.5 (11.3.6)."""
    holes = {"rows": 1, "columns": 2, "end": "4 in", "edge": "5 in", "spacing": "8 in"}
    made = replace(group([1000.0], holes=holes), turn=Turn(np.array([0.004]), 1e-8))
    held = connect(made)
    K = 180_000 * 0.5**1.5 * 2 * 4.0**2
    M = 0.004 / (1 / K + 1e-8)
    assert held.group.forces.combinations[1].name.endswith(STIFF)
    assert pytest.approx([0.0, -M]) == held.spread.M
    assert held.spread.P_y[:, 1] == pytest.approx([-500 + M * 4 / 32, -500 - M * 4 / 32])
    assert "tension across the grain" in said(lateral(made), "refer")


def test_nails_give_more_than_bolts() -> None:
    """Below 1/4 in the equation of 11.3.6 is carried on (judgment): gamma = 180,000 D^1.5, D 0.162 in, I_p 2 x 2^2."""
    holes = {"rows": 1, "columns": 2, "end": "4 in", "edge": "5 in", "spacing": "4 in"}
    made = group(
        [50.0], holes=holes, fastener={"kind": "nail", "size": "16d common"}, other=DEEP, into=stock("6x6 dressed")
    )
    held = connect(replace(made, turn=Turn(np.array([0.002]), 0.0)))
    assert held.spread.M[1] == pytest.approx(-0.002 * 180_000 * 0.162**1.5 * 8.0)


def test_one_bolt_and_a_stiff_beam_stay_hinges() -> None:
    one = replace(group([1000.0]), turn=Turn(np.array([0.002]), 1e-8))
    assert holding_the_end(one, connect(one).joint) is one
    for force, rotation in ((1000.0, 1e-9), (0.0, 0.0)):  # next to nothing, and nothing at all
        two = replace(group([force], holes=TWO), turn=Turn(np.array([rotation]), 1e-8))
        assert connect(two).group is two


def test_the_place_of_the_support_counts_before_the_arm_that_is_said() -> None:
    """Statics: bolts in the middle 5 3/4 in from the end, support 3 in from it."""
    made = replace(group([1000.0], holes=TWO, arm="0 in"), line=3.0)
    assert made.arm == pytest.approx(1.0)
    (check,) = line_checks(made)
    assert check.verdict == "refer" and check.questions[0].answers[0].says == "1 in"
    assert not list(line_checks(replace(made, line=4.0)))


# ---- toe-nails -------------------------------------------------------------------------------------------------------

NAIL = {"kind": "nail", "size": "16d common"}
DEEP = {"stock": "wood", "thickness": "5 1/2 in", "grain": "across", "end": "30 in", "edge": "2 3/4 in"}


def toe(holes: Data, **more: Any) -> Group:
    return group(
        [100.0], manner="toe-nails", fastener={**NAIL, **more}, other=DEEP, into=stock("6x6 dressed"), holes=holes
    )


def test_toe_nails_hold_only_where_they_reach() -> None:
    """12.1.6.3: begun a third of the length from the end (1 1/6 in), 30 deg aslant; farther in they do not reach."""
    near = {"rows": 3, "columns": 1, "end": "1 1/8 in", "edge": "3 in", "row_spacing": "2 in"}
    assert all(check.holds for check in [*lateral(toe(near)), *beside(toe(near))])
    far = {"rows": 1, "columns": 2, "end": "1 1/8 in", "edge": "3 in", "spacing": "1.7 in"}
    assert "no lateral value" in said(lateral(toe(far)), "fails") or "in the main member" in said(
        lateral(toe(far)), "fails"
    )
    assert "a third of their length" in said(beside(toe(far)), "fails")


def test_toe_nails_need_room() -> None:
    """Commentary C12.1.6 (memory): 10 D apart, 5 D where bored ahead; D 0.162 in."""
    close = {"rows": 3, "columns": 1, "end": "1 1/8 in", "edge": "3 in", "row_spacing": "1 in"}
    (check,) = [one for one in beside(toe(close)) if not one.holds]
    assert check.questions[0].field == "anchor.A.fastener.bored_ahead"
    assert all(one.holds for one in beside(toe(close, bored_ahead=True)))
    (check,) = [one for one in beside(toe({**close, "row_spacing": "1/2 in"}, bored_ahead=True)) if not one.holds]
    assert check.questions[0].field == RULING


# ---- loads aslant ----------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("degrees", "multiple"), [(0, 1.5), (10, 1.5 + 2.5 * 2.0 * math.tan(math.radians(10))), (45, 4.0), (90, 4.0)]
)
def test_the_loaded_edge_of_a_load_aslant_goes_by_its_components(degrees: float, multiple: float) -> None:
    """Table 12.5.1C has the ends, 1 1/2 D and 4 D; the part across counts in full from half of the other."""
    force = (100 * math.sin(math.radians(degrees)), 100 * math.cos(math.radians(degrees)))
    check = find(layout(group([force[0]], [force[1]])), "distance to the top edge in the held piece B")
    assert check.demand == pytest.approx(multiple * 0.5)


def test_demands_of_a_load_aslant_never_fall_as_it_turns() -> None:
    asked = []
    for degrees in np.linspace(0, 45, 10):
        force = (100 * math.sin(math.radians(degrees)), 100 * math.cos(math.radians(degrees)))
        made = group([force[0]], [force[1]])
        asked.append(find(layout(made), "distance to the top edge in the held piece B").demand)
    assert asked == sorted(asked)


def test_no_value_outweighs_a_reduced_one() -> None:
    """12.5.1.2: an end of 0.6 of the full distance reduces; a spacing below 3 D leaves no value, and that counts."""
    holes = {"rows": 1, "columns": 2, "end": "2.1 in", "edge": "5 5/8 in", "spacing": "1 3/8 in"}
    check = find(lateral(group([0.0], [100.0], holes=holes)), WORST)
    assert check.verdict == "fails" and check.ratio is None


# ---- between two, and into the end -----------------------------------------------------------------------------------


def test_a_beam_between_twin_posts_has_two_shear_planes_and_no_couple() -> None:
    """Table 12.3.1A, double shear: mode Im of the middle member, D l_m F_em/(4 K_t), K_t 1.25 across its grain."""
    made = group([100.0], manner="wood both sides", other={**DEEP, "thickness": "3 1/2 in"}, into=stock("4x6 dressed"))
    F_em = 50 * round(6100 * 0.5**1.45 / math.sqrt(0.5) / 50)
    assert find(lateral(made), WORST).capacity == pytest.approx(0.5 * 1.5 * F_em / 5, rel=0.01)
    assert beside(made) == [] and couple(made) is None


def test_screws_into_the_end_of_a_beam_keep_their_factor() -> None:
    """12.5.2 and 12.3.3.4: 0.67, F_e across the grain of the beam; lag screws pulled keep 0.75 (12.2.1)."""
    lag = {"kind": "lag screw", "size": "1/2 in", "length": "8 in"}
    girder = {"stock": "wood", "thickness": "3 1/2 in", "grain": "along", "end": "30 in", "edge": "4 in"}
    holes = {"rows": 2, "columns": 1, "end": "1 3/4 in", "edge": "3 in", "row_spacing": "3 in"}
    made = group([100.0], [50.0], manner="into the end", fastener=lag, other=girder, held=stock("4x12 dressed"),
                 into=stock("4x12 dressed"), holes=holes)  # fmt: skip
    check = find(lateral(made), WORST)
    assert step(check, "C_eg") == 0.67 and step(check, "theta") == 90.0
    assert step(find(beside(made), "pull on the most loaded"), "C_eg") == 0.75
    assert not [c for c in layout(made) if not c.holds]
    screw = {**lag, "kind": "wood screw", "size": "No. 14"}
    pulled = replace(made, anchor=made.anchor.model_copy(update={"fastener": group(fastener=screw).anchor.fastener}))
    assert "not allowed" in said(axial(pulled, [50.0]), "fails")


@pytest.mark.parametrize("along", [-600.0, 0.0, 500.0])
def test_what_pulls_a_beam_off_is_no_lateral_load_of_screws_into_its_end(along: float) -> None:
    """Two take 50 lb each of 100 lb across; what comes along them is withdrawal (12.2) and what presses bears."""
    girder = {"stock": "wood", "thickness": "3 1/2 in", "grain": "along", "end": "30 in", "edge": "4 in"}
    holes = {"rows": 2, "columns": 1, "end": "1 3/4 in", "edge": "3 in", "row_spacing": "3 in"}
    lag = {"kind": "lag screw", "size": "1/2 in", "length": "8 in"}
    made = group([100.0], [along], manner="into the end", fastener=lag, other=girder, held=stock("4x12 dressed"),
                 into=stock("4x12 dressed"), holes=holes)  # fmt: skip
    check = find(lateral(made), WORST)
    assert check.capacity is not None and check.ratio == pytest.approx(50.0 / check.capacity)
    pull = [one for one in beside(made) if one.what.startswith("pull on the most loaded")]
    assert [one.demand for one in pull] == ([pytest.approx(250.0)] if along > 0.0 else [])
    upright = replace(
        made, anchor=made.anchor.model_copy(update={"other": group(other={**girder, "grain": "across"}).anchor.other})
    )
    assert not [one for one in tear_out_checks(connect(upright)) if one.id == "anchor.far_across"]


# ---- published loads -------------------------------------------------------------------------------------------------

REPORT = {"source": "evaluation report ER-0000 (invented), 2025, table 3", "down": "1250 lbf", "duration": "included",
          "conditions": "all holes filled", "conditions_met": True}  # fmt: skip


def rated(kinds: str = "L", force: float = 1000.0, **rating: Any) -> Group:
    anchor = Anchor.model_validate({"name": "A", "manner": "rated hardware", "rating": {**REPORT, **rating}})
    return replace(group([force], kinds=kinds), anchor=anchor, x=np.zeros(0), y=np.zeros(0))


@pytest.mark.parametrize(
    ("loads", "kinds", "capacity"),
    # NDS 2018 Table 2.3.2: floor 1.0, snow 1.15, roof 1.25, wind 1.6; a figure is lowered, never raised past its own
    [
        ("floor", "L", 1250.0),
        ("roof", "L", 1000.0),
        ("snow", "L", 1250 / 1.15),
        ("floor", "W", 1250.0),
        ("wind", "S", 1250 * 1.15 / 1.6),
    ],
)
def test_a_figure_holds_for_its_own_column(loads: str, kinds: str, capacity: float) -> None:
    assert find(rated_checks(rated(kinds, loads=loads)), "rated load down").capacity == pytest.approx(capacity)


def test_a_figure_whose_column_is_not_said_is_taken_for_the_shortest_load() -> None:
    """It may pass so; where it does not, but a plausible column would, the report is asked."""
    assert find(rated_checks(rated(force=700.0)), "rated load down").capacity == pytest.approx(1250 / 1.6)
    check = find(rated_checks(rated(force=1000.0)), "rated load down")
    assert check.verdict == "refer" and check.questions[0].field == "anchor.A.rating.loads"
    assert find(rated_checks(rated(force=1300.0)), "rated load down").verdict == "fails"


@pytest.mark.parametrize(
    ("words", "basis"),
    [("floor loads (C_D 1.0)", 1.0), ("column for roof loads, C_D 1.25 in the figure", 1.25), ("snow column", 1.15),
     ("all holes filled", None)],
)  # fmt: skip
def test_the_column_may_stand_in_the_words_of_the_report(words: str, basis: float | None) -> None:
    assert basis_of(Rating.model_validate({**REPORT, "conditions": words})) == basis


@pytest.mark.parametrize(
    "source", ["some sheet 1", "maker's report, table 3", "evaluation report ER-0000, pending 2025"]
)
def test_a_source_that_nobody_can_find_asks(source: str) -> None:
    assert [c.verdict for c in rated_checks(rated(source=source, loads="floor")) if c.id == "anchor.rated_source"] == [
        "refer"
    ]


def test_a_figure_that_no_hanger_has_asks() -> None:
    assert "rated for that" in said(rated_checks(rated(down="400,000 lbf", loads="floor")), "refer")


def test_what_is_next_to_nothing_needs_no_rule() -> None:
    """Judgment: up to 20 lb and up to 1 % of what it holds."""
    assert trivial(12.0, 1250.0) and not trivial(13.0, 1250.0) and not trivial(21.0, 1e6)
    lifted = rated(force=-10.0, loads="floor")
    assert not [check for check in rated_checks(lifted) if not check.holds]
