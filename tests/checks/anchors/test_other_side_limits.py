"""What a group is fastened to, and what is known of its wood, steel and places: each rule at its limit.

Groups are invented; a case names its clause. Douglas Fir-Larch, G 0.50.
"""

from __future__ import annotations

from dataclasses import replace
from types import SimpleNamespace
from typing import Any

import numpy as np
import pytest

from beamcheck.checks.anchors.far_side import far_side_checks, fastening, passed_on, row_of
from beamcheck.checks.anchors.fastener import dowel_of
from beamcheck.checks.anchors.fasteners.factors import temperature, wet_service
from beamcheck.checks.anchors.group import hole_places
from beamcheck.checks.anchors.held_end import end_of_beam
from beamcheck.checks.anchors.manners.base import evidence_checks, line_checks
from beamcheck.checks.anchors.manners.rated_hardware import rated_checks
from beamcheck.checks.anchors.manners.registry import connect
from beamcheck.checks.anchors.unsaid import NotSaid
from beamcheck.checks.core.result import Check
from beamcheck.errors import OutOfRange, UnknownName
from beamcheck.model.anchors.anchor import Anchor, Fastener, Holes
from beamcheck.model.beams import Beam
from beamcheck.model.existing import Existing
from beamcheck.model.posts import Post

from ..beams.beams import beam
from ..houses import post as post_data
from .anchors import HALF, PLATE, Data, group, loaded, stock

OTHER: Data = {"stock": "wood", "thickness": "1 1/2 in", "grain": "along", "end": "6 in", "edge": "5 in"}


def ids(found: list[Check]) -> list[str]:
    return [check.id for check in found]


def girder(**more: Any) -> Beam:
    return Beam.model_validate({**beam(name="girder"), **more})


def upright(**more: Any) -> Post:
    return Post.model_validate({**post_data(name="post"), **more})


# ---- what is behind --------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(("into", "grain", "asked"), [
    ("girder", "along", False), ("girder", "across", True), ("girder", "end", False), ("post", "along", True),
    ("post", "across", False), ("post", "end", False),
])  # fmt: skip
def test_grain_of_what_stands_or_lies_behind(into: str, grain: str, asked: bool) -> None:
    """A load that comes down crosses the grain of a girder and runs along that of a post."""
    made = replace(group([100.0], other={**OTHER, "grain": grain}), into=girder() if into == "girder" else upright())
    found = [one for one in far_side_checks(made) if one.id == "anchor.grain"]
    assert [one.verdict for one in found] == (["refer"] if asked else [])
    if asked:
        best = "along" if into == "girder" else "across"
        assert found[0].questions[0].answers[0].says == best and found[0].questions[0].field == "anchor.A.other.grain"
    assert "anchor.grain" not in ids(far_side_checks(replace(made, slope=20.0)))


@pytest.mark.parametrize(("at", "asked"), [("3 ft", False), ("4 ft", False), ("4 ft 1/2 in", True), (None, True)])
def test_holes_bored_into_a_girder_are_entered_there(at: str | None, asked: bool) -> None:
    """Within 12 in of where the piece lands (judgment), 3 ft along it; a hole of 9/16 in for a bolt of 1/2 in."""
    cuts = [] if at is None else [{"kind": "hole", "at": at, "depth": "9/16 in", "from_bottom": "5 in"}]
    made = replace(group([100.0], other=OTHER), into=girder(cuts=cuts), lands_at=36.0, far_depth=11.5)
    found = [one for one in far_side_checks(made) if one.id == "anchor.far_holes"]
    assert [one.verdict for one in found] == (["refer"] if asked else [])
    if asked:
        (answer,) = found[0].questions[0].answers
        hole = {"kind": "hole", "depth": "9/16 in", "at": "3 ft", "from_bottom": "5 3/4 in"}
        assert answer.sets == (("beam.girder.cuts", hole),)


def test_holes_bored_into_a_post_near_its_head() -> None:
    """In the middle of the depth of a 2x12 at the head of a post of 8 ft: 7 ft 6 3/8 in up."""
    made = replace(group([100.0], other={**OTHER, "grain": "across"}), into=upright(cuts=[]))
    (check,) = [one for one in far_side_checks(made) if one.id == "anchor.far_holes"]
    (answer,) = check.questions[0].answers
    hole = {"kind": "hole", "depth": "9/16 in", "at": "7 ft 6 3/8 in", "from_bottom": "5 5/8 in"}
    assert answer.sets == (("post.post.cuts", hole),)
    nailed = replace(made, anchor=made.anchor.model_copy(update={"fastener": Fastener.model_validate(
        {"kind": "nail", "size": "16d common"})}))  # fmt: skip
    assert "anchor.far_holes" not in ids(far_side_checks(nailed)), "nails take no wood off"


def test_nothing_is_known_behind() -> None:
    made = group([100.0])
    assert [one.questions[0].field for one in far_side_checks(made) if one.id == "anchor.into"] == ["anchor.A.into"]
    said_ = replace(made, into=girder())  # fastened to `post` by its words
    assert [one.questions[0].answers[0].says for one in far_side_checks(said_) if one.id == "anchor.into"] == ["girder"]
    right = replace(said_, anchor=said_.anchor.model_copy(update={"into": "girder"}))
    assert "anchor.into" not in ids(far_side_checks(right))


def wall(**more: Any) -> Existing:
    return Existing.model_validate({"name": "post", "what": "wall", "material": "wood",
                                    "confirmed_by": "invented sheet S-1, engineer", **more})  # fmt: skip


def test_what_a_wall_may_take() -> None:
    """Half more than comes there, or half of it: to 10 lb."""
    made = replace(group([1234.0]), into=wall())
    (check,) = [one for one in far_side_checks(made) if one.id == "anchor.far_takes"]
    assert [answer.says for answer in check.questions[0].answers] == ["1,860 lbf", "620 lbf"]
    assert "anchor.far_takes" not in ids(far_side_checks(replace(group([0.0]), into=wall())))
    assert "anchor.far_takes" not in ids(far_side_checks(replace(made, into=wall(takes="9,000 lb"))))


@pytest.mark.parametrize(("change", "named"), [
    ({}, "bolted or screwed to wood"), ({"manner": "plate one side", "plate": PLATE, "other": None}, "plate"),
    ({"manner": "plate one side", "plate": {**PLATE, "weld": "1/4 in"}, "other": None}, "welded plate"),
    ({"other": {"material": "concrete", "thickness": "6 in", "grain": "along"}}, "into concrete"),
])  # fmt: skip
def test_how_a_group_is_fastened(change: Data, named: str) -> None:
    assert fastening(group([100.0], **change)) == named


def test_nailed_hardware_is_known_by_its_report() -> None:
    rating = {"source": "report 1, 2025", "down": "900 lbf", "conditions": "all nails in", "duration": "included"}
    for words, named in (("all nails in", "rated nailed hardware"), ("bolts", "rated hardware")):
        anchor = Anchor.model_validate({"name": "A", "manner": "rated hardware",
                                        "rating": {**rating, "conditions": words}})  # fmt: skip
        assert fastening(replace(group([100.0]), anchor=anchor)) == named
    with pytest.raises(UnknownName):
        row_of("welded plate", "glass")


@pytest.mark.parametrize(("material", "words", "rests", "asked"), [
    ("steel", "every hole nailed", False, True), ("masonry", "all nails in", False, True),
    ("concrete", "every hole nailed", False, True), ("wood", "every hole nailed", False, False),
    ("steel", "welded to the flange, every hole of the joist nailed", False, False),
    ("masonry", "for block walls, every hole of the joist nailed", False, False),
    ("concrete", "cast in, nails in every hole of the joist", False, False),
    ("concrete", "every hole nailed", True, False),
    ("steel", "steel of 0.05 in, every hole nailed", False, True),
    ("concrete", "every hole nailed, not for concrete", False, True), ("steel", "nailed, no bolts", False, True),
    ("masonry", "every hole nailed; not for brick or block", False, True),
    ("concrete", "every hole nailed, anchor bolts are not used", False, True),
])  # fmt: skip
def test_nails_go_into_wood_alone(material: str, words: str, rests: bool, asked: bool) -> None:
    """Unless the report names what is there, or how it goes onto it; those of a strap may be in the held piece."""
    anchor = Anchor.model_validate({"name": "A", "manner": "rated hardware", "into": "post",
                                    "rating": {**RATED, "conditions": words}})  # fmt: skip
    one = wall(material=material, takes="9,000 lb", **({"F_c_perp": "625 psi"} if material == "wood" else {}))
    made = replace(group([100.0]), anchor=anchor, into=one, rests=rests, into_stock=None, into_wood=None)
    found = [check for check in far_side_checks(made) if check.id == "anchor.far_side"]
    assert [check.verdict for check in found] == (["refer"] if asked else [])


RATED: Data = {"source": "report 1, 2025, table 2", "down": "900 lbf", "duration": "included",
               "conditions": "all nails in", "conditions_met": True}  # fmt: skip


@pytest.mark.parametrize(("across", "along", "whats"), [
    ([500.0, -9.0], [0.0, 0.0], []), ([500.0, -9.1], [0.0, 0.0], ["rated load up"]),
    ([500.0], [9.0], []), ([500.0], [9.1], ["rated load along the piece, out of the joint"]),
    ([500.0], [-9.0], []), ([500.0], [-9.1], ["pressing into the joint"]), ([500.0], [-0.4], []),
])  # fmt: skip
def test_what_a_rating_does_not_cover(across: list[float], along: list[float], whats: list[str]) -> None:
    """Up to 1 % of what it bears, 9 lb, is next to nothing (judgment)."""
    anchor = Anchor.model_validate({"name": "A", "manner": "rated hardware", "rating": RATED})
    made = replace(group(across, along), anchor=anchor)
    found = [one.what for one in rated_checks(made) if one.verdict == "refer" and one.id == "anchor.rated"]
    assert found == whats


@pytest.mark.parametrize(("at", "end"), [(0.0, "left"), (60.0, "left"), (60.1, "right"), (120.0, "right")])
def test_which_end_of_a_beam_a_support_is_nearer_to(at: float, end: str) -> None:
    """What a fixed end hogs with turns the group, the way round in which its inner part lies."""
    one = Beam.model_validate(beam(length="120 in", supports=[{"at": f"{at} in", "on": "wall", "holds": "fixed"}]))
    line = SimpleNamespace(at=lambda kind, x, side: np.array([70.0 if side == "right" else 20.0]))
    solved = SimpleNamespace(length=120.0, each_reaction=lambda index: ((loaded("D"),), np.array([500.0])),
                             combined=SimpleNamespace(line=line))  # fmt: skip
    run: Any = SimpleNamespace(beam=one, solved=solved, wood=None, section=None)
    context: Any = SimpleNamespace(stock=lambda name: None, under=lambda name: None, transfers=())
    held = end_of_beam(one, run, 0, context)
    assert held.end == end and held.forces.turning == pytest.approx([50.0 if end == "left" else -50.0])


def test_steel_beyond_a_weld_is_for_whoever_answers_for_it() -> None:
    welded = group([100.0], manner="plate one side", plate={**PLATE, "weld": "1/4 in"}, other=None)
    for into, asked in ((girder(), True), (wall(material="steel"), False)):
        assert ("anchor.steel_beyond" in ids(far_side_checks(replace(welded, into=into)))) is asked
    bare = group([100.0], manner="plate one side", plate=PLATE, other=None)
    assert "anchor.steel_beyond" not in ids(far_side_checks(replace(bare, into=girder())))


def test_what_the_far_side_has_to_take() -> None:
    """1,000 lb at 6 in from the end, and 300 lb-in of an end that cannot turn: 525 lb-ft."""
    made = group([1000.0, -400.0], manner="plate one side", plate=PLATE, other=None, arm="2 in",
                 holes={"rows": 2, "columns": 1, "end": "6 in", "edge": "4 in", "row_spacing": "3 in"})  # fmt: skip
    turned = replace(made, forces=replace(made.forces, turning=np.array([100.0, -300.0])))
    assert "a moment of up to 500 lb-ft" in " ".join(passed_on(made))
    assert "a moment of up to 525 lb-ft" in " ".join(passed_on(turned))
    far = replace(made, anchor=made.anchor.model_copy(update={"arm": 9.0}))
    assert "a moment of up to 750 lb-ft" in " ".join(passed_on(far))
    lap = group([1000.0, -400.0])
    assert not list(passed_on(lap))
    held = replace(lap, forces=replace(lap.forces, turning=np.array([1200.0, -2400.0])))
    assert "a moment of up to 200 lb-ft comes to them" in " ".join(passed_on(held))


# ---- what is known of wood and steel ---------------------------------------------------------------------------------


UNKNOWN: Data = {"species": "unknown", "grade": "unstamped", "grade_from": None, "evidence": ""}


@pytest.mark.parametrize(("held", "into", "asked"), [
    ({}, {}, []), ({"evidence": ""}, {}, ["wood.evidence"]), ({}, {"evidence": ""}, ["wood.evidence"]),
    ({"evidence": ""}, {"evidence": ""}, ["wood.evidence"] * 2), (UNKNOWN, {}, ["anchor.wood"]), ({}, UNKNOWN, []),
])  # fmt: skip
def test_how_the_wood_of_either_side_is_known(held: Data, into: Data, asked: list[str]) -> None:
    """Evidence is asked of both sides; wood that nobody knows is one question of the held piece."""
    found = evidence_checks(group([100.0], held=stock(**held), into=stock(**into)))
    assert ids(found) == asked and {check.verdict for check in found} <= {"refer"}


@pytest.mark.parametrize(("which", "moisture", "seasoned", "asked"), [
    ("held", "wet", "dry", True), ("into", "green", "dry", True), ("held", "wet", "green", False),
    ("held", "dry", "dry", False),
])  # fmt: skip
def test_put_together_dry_of_wood_that_is_not(which: str, moisture: str, seasoned: str, asked: bool) -> None:
    more = {} if moisture == "dry" else {"moisture": moisture, "measured_moisture": "30 %"}
    made = group([100.0], seasoned=seasoned, **{which: stock(**more)})
    assert ("anchor.moisture" in ids(evidence_checks(made))) is asked


@pytest.mark.parametrize(("coating", "asked"), [
    (None, True), ("none", True), ("hot-dip galvanized", False), ("stainless", False),
])  # fmt: skip
def test_bare_steel_in_treated_wood(coating: str | None, asked: bool) -> None:
    """IRC 2018 R317.3.1 (memory): on either side."""
    fastener = HALF if coating is None else {**HALF, "coating": coating, "F_yb": "45000 psi", "F_yb_from": "sheet 4"}
    for which in ("held", "into"):
        made = group([100.0], fastener=fastener, **{which: stock(treated=True, treated_with="preservative")})
        assert ("anchor.coating" in ids(evidence_checks(made))) is asked, which
    assert "anchor.coating" not in ids(evidence_checks(group([100.0], fastener=fastener)))


@pytest.mark.parametrize(("F_yb", "asked"), [("56,250 psi", False), ("56,300 psi", True)])
def test_bending_yield_far_above_the_table(F_yb: str, asked: bool) -> None:
    """1 1/4 times the 45,000 psi of bolts (Appendix I, read)."""
    made = group([100.0], fastener={**HALF, "F_yb": F_yb, "F_yb_from": "data sheet 4 of 2025"})
    assert ("anchor.bending_yield" in ids(evidence_checks(made))) is asked


@pytest.mark.parametrize(("fastener", "words"), [
    ({"kind": "nail", "size": "16d"}, "say pennyweight and kind"),
    ({"kind": "nail", "size": "16d common box"}, "say pennyweight and kind"),
    ({"kind": "bolt", "size": "1/2 in", "coating": "stainless"}, "no bending yield strength"),
])  # fmt: skip
def test_what_a_fastener_needs(fastener: Data, words: str) -> None:
    with pytest.raises(NotSaid, match=words):
        dowel_of(Fastener.model_validate(fastener))


def test_stainless_bolts_are_asked_for_a_figure_of_their_maker() -> None:
    """Proposed: what plain steel has, 45,000 psi, or four fifths of it."""
    with pytest.raises(NotSaid) as caught:
        dowel_of(Fastener.model_validate({"kind": "bolt", "size": "1/2 in", "coating": "stainless", "length": "5 in"}))
    answers = caught.value.open.answers
    assert answers is not None and [answer.says for answer in answers] == ["45,000 psi", "36,000 psi"]  # type: ignore[union-attr]
    assert answers[0].sets[0][1]["length"] == "5 in"  # type: ignore[union-attr, index]


@pytest.mark.parametrize(
    ("size", "length", "fits"), [("16d common", "3 1/2 in", True), ("16d common", "3.51 in", False)]
)
def test_nails_are_as_long_as_they_are(size: str, length: str, fits: bool) -> None:
    fastener = Fastener.model_validate({"kind": "nail", "size": size, "length": length})
    if fits:
        assert dowel_of(fastener).length == pytest.approx(3.5)
    else:
        with pytest.raises(OutOfRange, match=r"is 3\.5 in long"):
            dowel_of(fastener)


@pytest.mark.parametrize(("fastener", "D", "D_r", "tip"), [
    ({"kind": "bolt", "size": "1/2 in", "threads": "clear of it"}, 0.5, 0.406, 0.0),
    ({"kind": "bolt", "size": "1/2 in"}, 0.406, 0.406, 0.0), ({"kind": "pin", "size": "1/2 in"}, 0.5, 0.406, 0.0),
    ({"kind": "lag screw", "size": "3/8 in", "length": "4 in"}, 0.265, 0.265, 7 / 32),
    ({"kind": "wood screw", "size": "No. 10", "length": "3 in"}, 0.152, 0.152, 0.38),
    ({"kind": "nail", "size": "16d common"}, 0.162, 0.162, 0.324),
])  # fmt: skip
def test_diameters_and_tips(fastener: Data, D: float, D_r: float, tip: float) -> None:
    """Appendix L (read); the root bears where threads may lie (12.3.7); tips 2 D of screws and nails."""
    made = dowel_of(Fastener.model_validate(fastener))
    assert (made.D_calc, made.D_r, made.E_tip) == pytest.approx((D, D_r, tip))


# ---- moisture, heat, places ------------------------------------------------------------------------------------------


@pytest.mark.parametrize(("held", "seasoned", "action", "C_M"), [
    ({}, "dry", "lateral", 1.0), ({"moisture": "wet"}, "dry", "lateral", 0.7),
    ({"moisture": "wet"}, "green", "lateral", 0.7), ({"moisture": "green", "measured_moisture": "30 %"}, "green",
                                                      "withdrawal of nails", 0.25),
])  # fmt: skip
def test_wet_service_of_connections(held: Data, seasoned: str, action: str, C_M: float) -> None:
    """Table 11.3.3 (read): one fastener; 0.7 wet in service; nails made green and dry later 0.25 in withdrawal."""
    made = group([100.0], held=stock(**held), seasoned=seasoned)
    assert wet_service(made, connect(made).joint, action).value == pytest.approx(C_M)  # type: ignore[arg-type]


@pytest.mark.parametrize(("rows", "C_M"), [(1, 1.0), (2, 0.4)])
def test_rows_in_wood_that_dries(rows: int, C_M: float) -> None:
    """Made green, dry in service: 0.4, but one row along the grain of each member has 1.0 (Table 11.3.3, footnote)."""
    holes = {"rows": rows, "columns": 2, "end": "4 in", "edge": "4 in", "spacing": "3 in",
             **({"row_spacing": "3 in"} if rows > 1 else {})}  # fmt: skip
    green = stock(moisture="green", measured_moisture="30 %")
    made = group([100.0], held=green, into=green, seasoned="green", holes=holes, other=OTHER)
    assert wet_service(made, connect(made).joint, "lateral").value == pytest.approx(min(C_M, 0.7))


@pytest.mark.parametrize(("degrees", "C_t"), [("100 degF", 1.0), ("110 degF", 0.8), ("130 degF", 0.7)])
def test_heat_of_either_piece(degrees: str, C_t: float) -> None:
    """Table 11.3.4 (read), dry: 0.8 over 100 F, 0.7 over 125 F; the hotter piece counts."""
    for which in ("held", "into"):
        made = group([100.0], **{which: stock(temperature=degrees)})
        assert temperature(connect(made).joint).value == pytest.approx(C_t)


@pytest.mark.parametrize(
    ("said_", "asked"), [("1 1/8 in", False), ("1 1/4 in", True), ("7/8 in", False), ("3/4 in", True)]
)
def test_arm_as_said_and_as_laid_out(said_: str, asked: bool) -> None:
    """1/8 in apart (judgment): holes in the middle 4 in from the end, support 3 in."""
    two = {"rows": 2, "columns": 1, "end": "4 in", "edge": "3 in", "row_spacing": "3 in"}
    made = replace(group([1000.0], holes=two, arm=said_), line=3.0)
    assert [one.questions[0].answers[0].says for one in line_checks(made)] == (["1 in"] if asked else [])


@pytest.mark.parametrize(("line", "asked"), [(2.5, False), (2.4, True), (5.5, False), (5.6, True)])
def test_one_fastener_off_the_line_of_its_support(line: float, asked: bool) -> None:
    """1 1/2 in (judgment); 4 in from the end."""
    found = list(line_checks(replace(group([1000.0]), line=line, place=line, support="beam.B.supports.1")))
    assert [one.questions[0].answers[0].says for one in found] == (["4 in"] if asked else [])
    assert all(one.questions[0].field == "beam.B.supports.1.at" for one in found)


def test_layouts_that_do_not_say_where() -> None:
    for holes in ({"rows": 1, "columns": 1, "end": "4 in"}, {"rows": 2, "end": "4 in", "edge": "3 in"},
                  {"columns": 2, "end": "4 in", "edge": "3 in"}):  # fmt: skip
        with pytest.raises((OutOfRange, ValueError)):
            hole_places(Holes.model_construct(**{"rows": None, "columns": None, "spacing": None, "row_spacing": None,
                                                 "places": (), "edge": None, "end": None,
                                                 **{k: float(str(v).split()[0]) if isinstance(v, str) else v
                                                    for k, v in holes.items()}}))  # fmt: skip
