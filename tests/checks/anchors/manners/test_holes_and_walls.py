"""Holes within their wood, what lies behind, what contradicts itself, ledgers and laps: limits and figures by hand.

Groups are invented. A 2x12 of Douglas Fir-Larch; bolts of 1/2 in unless said.
"""

from __future__ import annotations

from dataclasses import replace
from types import SimpleNamespace
from typing import Any

import numpy as np
import pytest

from beamcheck.checks.anchors.far_side import far_side_checks, passed_on
from beamcheck.checks.anchors.fastener import dowel_of
from beamcheck.checks.anchors.group import (
    Group,
)
from beamcheck.checks.anchors.held_end import _kept_by, end_of_post
from beamcheck.checks.anchors.manners.base import evidence_checks, line_checks
from beamcheck.checks.anchors.manners.registry import connect, manner_of
from beamcheck.checks.core.asking.question import RULING
from beamcheck.checks.core.result import Check
from beamcheck.model.anchors.anchor import Anchor, Fastener
from beamcheck.model.beams import Beam
from beamcheck.model.existing import Existing
from beamcheck.model.posts import Post

from ... import houses
from ...beams.beams import beam
from ..anchors import HALF, ONE, OTHER, PLATE, Data, beside, find, group, lateral, layout, stock


def those(found: Any, id: str) -> list[Check]:
    return [check for check in found if check.id == id]


# ---- holes and far wood ----------------------------------------------------------------------------------------------


@pytest.mark.parametrize(("x", "y", "leaves"), [
    (0.28125, 5.0, False), (0.28, 5.0, True), (4.0, 0.28125, False), (4.0, 0.28, True), (4.0, 10.96875, False),
    (4.0, 10.97, True),
])  # fmt: skip
def test_holes_within_the_wood(x: float, y: float, leaves: bool) -> None:
    """9/16 in wide in 11 1/4 in."""
    found = those(layout(group([1.0], holes={"places": [{"x": f"{x} in", "y": f"{y} in"}]})), "anchor.holes")
    assert bool(found) is leaves


@pytest.mark.parametrize(
    ("x", "leaves"), [("0.25 in", False), ("0.24 in", True), ("1.25 in", False), ("1.26 in", True)]
)
def test_holes_within_the_end(x: str, leaves: bool) -> None:
    """A lag screw of 1/2 in in the end of 1 1/2 in."""
    lag = {"kind": "lag screw", "size": "1/2 in", "length": "6 in"}
    made = group([1.0], manner="into the end", fastener=lag, other=OTHER, holes={"rows": 1, "columns": 1, "end": x,
                                                                                 "edge": "5 in"})  # fmt: skip
    assert bool(those(layout(made), "anchor.holes")) is leaves


@pytest.mark.parametrize(("apart", "meet"), [("1.5 in", False), ("1.49 in", True)])
def test_bores_that_run_into_each_other(apart: str, meet: bool) -> None:
    bored = {**HALF, "counterbore": "1 1/2 in", "counterbore_depth": "1/2 in"}
    holes = {"rows": 1, "columns": 2, "end": "4 in", "edge": "5 in", "spacing": apart}
    made = group([1.0], held=stock("4x12 dressed"), fastener=bored, holes=holes)
    assert bool(those(layout(made), "anchor.holes_apart")) is meet
    plated = group([1.0], fastener=bored, holes=holes, manner="plates both sides", plate=PLATE, other=None)
    assert not those(layout(plated), "anchor.holes_apart"), "bored on steel, which takes no wood"


@pytest.mark.parametrize(("holes", "missed"), [
    ({"columns": 2, "spacing": "11.24 in"}, False),
    ({"columns": 2, "spacing": "1.49 in"}, False), ({"columns": 2, "spacing": "1.5 in"}, False),
    ({"columns": 2, "spacing": "11.25 in"}, True),
    ({"rows": 2, "columns": 2, "row_spacing": "1.49 in", "spacing": "8 in"}, False),
    ({"rows": 2, "columns": 2, "row_spacing": "1.5 in", "spacing": "8 in"}, True),
])  # fmt: skip
def test_spread_over_the_end_of_the_other_piece(holes: Data, missed: bool) -> None:
    """The end of a 2x12: 1 1/2 by 11 1/4 in, whichever way it is turned."""
    laid = {"rows": 1, "columns": 1, "end": "4 in", "edge": "3 in", **holes}
    made = group([10.0], holes=laid, other={**OTHER, "grain": "end"})
    assert bool(those(layout(made), "anchor.far_holes")) is missed


@pytest.mark.parametrize(("edge", "missing"), [("8.2 in", []), ("8.25 in", ["row 1, column 2"]), ("12 in", [
    "row 1, column 1", "row 1, column 2"])])  # fmt: skip
def test_fasteners_that_miss_the_other_piece(edge: str, missing: list[str]) -> None:
    """Columns 3 in apart lie across a post 11 1/4 in wide."""
    holes = {"rows": 1, "columns": 2, "end": "4 in", "edge": "5 in", "spacing": "3 in"}
    found = those(layout(group([10.0], holes=holes, other={**OTHER, "edge": edge})), "anchor.far_holes")
    assert [check.where for check in found] == missing


# ---- what lies behind ------------------------------------------------------------------------------------------------


def test_what_a_wall_may_take_goes_by_the_largest_force() -> None:
    wall = Existing.model_validate({"name": "post", "what": "wall", "material": "wood",
                                    "confirmed_by": "invented sheet S-1, engineer"})  # fmt: skip
    made = replace(group([300.0, -1234.0], [50.0, 0.0]), into=wall)
    (check,) = those(far_side_checks(made), "anchor.far_takes")
    assert [answer.says for answer in check.questions[0].answers] == ["1,860 lbf", "620 lbf"]
    assert "300 lb down and 1,234 lb up and 50 lb out of the joint come to it" in check.notes[0]


@pytest.mark.parametrize(("lands_at", "at"), [(None, "12 in"), (6.0, "12 in"), (36.0, "3 ft")])
def test_holes_are_offered_clear_of_the_end(lands_at: float | None, at: str) -> None:
    girder = Beam.model_validate(beam(name="post", cuts=[]))
    made = replace(group([100.0], other={**OTHER, "grain": "along"}), into=girder, lands_at=lands_at, far_depth=None)
    (check,) = those(far_side_checks(made), "anchor.far_holes")
    hole = check.questions[0].answers[0].sets[0][1]
    assert hole == {"kind": "hole", "depth": "9/16 in", "at": at, "from_bottom": "5 5/8 in"}
    nobody = replace(made, into_stock=None)
    (check,) = those(far_side_checks(nobody), "anchor.far_holes")
    assert check.questions[0].answers[0].sets[0][1]["from_bottom"] == "4 in"


def test_a_post_end_goes_into_what_is_named_or_stands_below() -> None:
    post = Post.model_validate(houses.post(height="8 ft", on="sill"))
    bolts = group([100.0]).anchor.model_copy(update={"into": "girder"})
    pieces = {"girder": "the girder"}
    context: Any = SimpleNamespace(stock=lambda name: None, structure=SimpleNamespace(pieces=pieces),
                                   under=lambda name: f"what is under: {name}")  # fmt: skip
    made: Any = group([0.0])

    def end(anchor: Anchor, head: bool) -> Any:
        return end_of_post(post, anchor, made.wood, made.section, made.forces.combinations, np.array([5.0]), context,
                           head=head)  # fmt: skip

    assert end(bolts, True).into == "the girder" and end(bolts, False).into == "what is under: sill"
    assert end(bolts.model_copy(update={"into": None}), True).into is None
    assert end(bolts, True).rests and end(bolts, True).line == 0.0 and end(bolts, True).support == f"post.{post.name}"


# ---- what contradicts itself -----------------------------------------------------------------------------------------


@pytest.mark.parametrize(("line", "words"), [(6.0, "6 in from its end"), (-2.0, "2 in beyond its end")])
def test_one_fastener_beside_its_support(line: float, words: str) -> None:
    (check,) = line_checks(replace(group([100.0]), line=line, place=9.0))
    assert words in check.notes[0] and "its fasteners are 4 in from its end" in check.notes[0]
    assert check.questions[0].field == RULING, "nobody but an engineer knows where no support is named"
    assert not list(line_checks(replace(group([100.0]), line=None)))
    assert not list(line_checks(replace(group([100.0]), line=9.0, x=np.zeros(0), y=np.zeros(0))))


def test_strength_of_a_maker_without_a_table_to_compare_with() -> None:
    """90,000 psi of a 16d nail is the table's own (Appendix I)."""
    nail = {"kind": "nail", "size": "16d common", "F_yb_from": "data sheet 4 of 2025"}
    for F_yb, asked in (("112,500 psi", False), ("113,000 psi", True)):
        made = group([10.0], fastener={**nail, "F_yb": F_yb})
        assert bool(those(evidence_checks(made), "anchor.bending_yield")) is asked


@pytest.mark.parametrize(("turning", "told"), [(None, 0), ([0.0], 0), ([600.0], 1), ([-600.0], 1)])
def test_an_end_that_is_kept_from_turning_is_told(turning: list[float] | None, told: int) -> None:
    made = group([100.0])
    made = replace(made, forces=replace(made.forces, turning=None if turning is None else np.array(turning)))
    found = list(passed_on(made))
    assert len(found) == told
    assert all("a moment of up to 50 lb-ft comes to them and to post" in one for one in found)


def test_a_fastener_of_no_size_in_the_tables_has_no_usual_strength() -> None:
    """What the table does not know is far above it: an engineer sees the document."""
    made = group([10.0], fastener={"kind": "nail", "size": "16d", "F_yb": "90,000 psi", "F_yb_from": "data sheet 4"})
    (check,) = those(evidence_checks(made), "anchor.bending_yield")
    assert check.questions[0].field == RULING


@pytest.mark.parametrize(("which", "field"), [("held", "stock.wood.grade"), ("into", "")])
def test_wood_of_either_piece_that_is_not_known(which: str, field: str) -> None:
    """Of the held piece it is asked here; of the other one where its gravity is taken."""
    old = stock(species="unknown", grade="unstamped", grade_from=None, evidence="", candidates=["Hem-Fir"])
    found = those(evidence_checks(group([10.0], **{which: old})), "anchor.wood")  # type: ignore[arg-type]
    assert [check.questions[0].field for check in found] == ([field] if field else [])


def test_a_maker_s_strength_without_its_document() -> None:
    fastener = Fastener.model_validate({**HALF, "F_yb": "50,000 psi", "F_yb_from": "data sheet 12"})
    named = dowel_of(fastener)
    assert (named.F_yb, named.why_F_yb, named.doubts) == (50000.0, "by its maker: data sheet 12", ())
    bare = dowel_of(fastener.model_copy(update={"F_yb_from": " "}))
    assert [one.field for one in bare.doubts] == ["fastener.F_yb_from"]
    assert dowel_of(Fastener.model_validate(HALF)).source_F_yb is not None


@pytest.mark.parametrize(("fastener", "through", "large", "smooth", "hole", "thread", "clause"), [
    ({"kind": "bolt", "size": "1/2 in", "length": "6 in"}, True, True, False, 0.5625, 1.25, ""),
    ({"kind": "bolt", "size": "1/4 in", "threads": "clear of it"}, True, True, True, 0.3125, None, ""),
    ({"kind": "pin", "size": "1/2 in", "length": "6 in"}, True, True, True, 0.5625, None, ""),
    ({"kind": "lag screw", "size": "1/2 in", "length": "6 in"}, False, True, False, 0.5, 3.5, "lag"),
    ({"kind": "wood screw", "size": "No. 10", "length": "3 in"}, False, False, False, 0.19, None, "screw"),
    ({"kind": "nail", "size": "16d common"}, False, False, True, 0.162, None, "nail"),
])  # fmt: skip
def test_what_a_fastener_is(
    fastener: Data, through: bool, large: bool, smooth: bool, hole: float, thread: float | None, clause: str
) -> None:
    """1/4 in and more count as large; a bolt up to 6 in has 2 D + 1/4 in of thread (ASME B18.2.1, memory)."""
    made = dowel_of(Fastener.model_validate(fastener))
    assert (made.through, made.large, made.smooth) == (through, large, smooth)
    assert made.hole == pytest.approx(hole) and made.thread == (None if thread is None else pytest.approx(thread))
    if clause:
        found = {"lag": "NDS 2018 12.1.4.6", "screw": "NDS 2018 12.1.5.6", "nail": "NDS 2018 12.1.6.4"}[clause]
        assert made.penetration_clause == found
    assert (made.washer is not None) is (made.kind in ("bolt", "lag screw"))


# ---- ledgers and laps ------------------------------------------------------------------------------------------------


def ledger(arm: str | None, carries: tuple[str, ...] = (), P: float = 100.0) -> list[Check]:
    made: Group = group([P], manner="ledger", arm=arm, held=stock("6x12 dressed"), holes=ONE)
    return beside(replace(made, carries=carries))


def test_arm_of_a_ledger() -> None:
    """Half of 5 1/2 in at least where something rests on it."""
    (asked,) = ledger(None)
    assert asked.questions[0].field == "anchor.A.arm"
    assert [answer.says for answer in asked.questions[0].answers] == ["2 3/4 in", "5 1/2 in"]
    (zero,) = those(ledger("0 in"), "anchor.ledger_arm")
    assert zero.verdict == "refer" and [one.says for one in zero.questions[0].answers] == ["2 3/4 in"]
    assert those(ledger("2 in"), "anchor.ledger_arm") == []
    (less,) = those(ledger("2 in", ("joists",)), "anchor.ledger_arm")
    assert less.verdict == "passes" and "counted 2 3/4 in off" in less.notes[0]
    assert those(ledger("2 3/4 in", ("joists",)), "anchor.ledger_arm") == []


@pytest.mark.parametrize(("gap", "thickness", "off"), [("0 in", "1 1/2 in", 0.75), ("1/4 in", "1 1/2 in", 1.0),
                                                       ("0 in", "5 1/2 in", 2.75)])  # fmt: skip
def test_how_far_a_lap_is_held_from_its_middle(gap: str, thickness: str, off: float) -> None:
    """Half of the thicker side, and the gap."""
    made = group([100.0], gap=gap, other={**OTHER, "thickness": thickness}, into=stock("6x12 dressed"))
    found = manner_of(made.anchor).couple(made)  # type: ignore[attr-defined]
    assert found.off == pytest.approx(off) and found.M[0] == pytest.approx(100 * off)


@pytest.mark.parametrize(("manner", "off", "edges"), [
    ("plate one side", 0.5 * (5.5 + 0.25), (2.0, 8.0)), ("let-in angle", 0.5 * (5.5 - 0.25), (2.0, 8.0)),
])  # fmt: skip
def test_couple_of_a_plate_on_one_side(manner: str, off: float, edges: tuple[float, float]) -> None:
    """6 in wide about the middle of the rows, 5 in up; no farther than the piece; the gap comes on top."""
    holes = {"rows": 2, "columns": 1, "end": "4 in", "edge": "4 in", "row_spacing": "2 in"}
    more: Data = {"manner": manner, "plate": PLATE, "other": None, "held": stock("6x12 dressed")}
    made = group([100.0], holes=holes, gap="1/8 in", **more)
    found = manner_of(made.anchor).couple(made)  # type: ignore[attr-defined]
    assert found.off == pytest.approx(off + 0.125)
    assert found.heights == pytest.approx((6.0 - edges[0], edges[1] - 4.0))
    low = group([100.0], holes={**holes, "edge": "1 in"}, **more)
    high = group([100.0], holes={**holes, "edge": "8 1/2 in"}, **more)
    assert manner_of(low.anchor).couple(low).heights == pytest.approx((3.0, 4.0))  # type: ignore[attr-defined]
    assert manner_of(high.anchor).couple(high).heights == pytest.approx((4.0, 3.0))  # type: ignore[attr-defined]


def test_words_on_the_joint() -> None:
    check = find(lateral(group([100.0])), "lateral load")
    assert check.notes[0] == "1 fasteners; one shear plane, main member post, side member held piece B"
    two = find(lateral(group([100.0], manner="plates both sides", plate=PLATE, other=None)), "lateral load")
    assert "two shear planes" in two.notes[0]
    assert connect(group([100.0])).worst == 0


@pytest.mark.parametrize(("into", "kept"), [(None, ("joist", "girder")), ("girder", ("joist",))])
def test_pieces_that_are_said_to_keep_it_from_turning(into: str | None, kept: tuple[str, ...]) -> None:
    """Not the piece itself, nor what it is fastened to."""
    anchor = group([10.0]).anchor.model_copy(update={"twist_held_by": "the joist, B and the girder"})
    names = ["joist", "B", "girder"]
    context: Any = SimpleNamespace(structure=SimpleNamespace(sticks_named=lambda words: names))
    held: Any = SimpleNamespace(piece="B", into=SimpleNamespace(name=into) if into else None)
    assert _kept_by(anchor, held, context) == kept
    assert _kept_by(group([10.0]).anchor, held, context) == ()
