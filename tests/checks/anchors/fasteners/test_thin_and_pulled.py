"""Nails by the commentary, toe-nails, and pull along the axes of fasteners: limits and figures by hand.

A 16d common nail is 0.162 in thick and 3 1/2 in long (Appendix L, read); a 2x12 of Douglas Fir-Larch. Invented.
"""

from __future__ import annotations

import math
from dataclasses import replace
from typing import Any

import pytest

from beamcheck.calc.pad import SilentPad
from beamcheck.checks.anchors.fasteners.axial import axial_checks, pull_value
from beamcheck.checks.anchors.group import Group
from beamcheck.checks.anchors.manners.registry import connect
from beamcheck.checks.core.asking.question import RULING
from beamcheck.errors import OutOfRange
from beamcheck.model.beams import Beam
from beamcheck.model.posts import Post

from ... import houses
from ...beams.beams import beam
from ..anchors import DEEP, NAIL, ONE, OTHER, PLATE, TIMBER, Data, axial, beside, find, group, layout, stock, those

# ---- thin fasteners --------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(("holes", "bored", "verdict", "field"), [
    # 0.162 in: ends 15 D pulled (2.43 in), 10 D else; edges 2 1/2 D; 15 D in line, 10 D across; bored ahead 10, 5,
    # 2 1/2, 10, 5
    ({"end": "2.43 in"}, None, "passes", ""), ({"end": "2.42 in"}, None, "refer", "anchor.A.fastener.bored_ahead"),
    ({"end": "2.42 in"}, True, "passes", ""), ({"end": "1.61 in"}, True, "refer", RULING),
    ({"end": "1.61 in"}, None, "refer", RULING), ({"edge": "0.405 in"}, None, "passes", ""),
    ({"edge": "0.4 in"}, None, "refer", RULING), ({"edge": "10.845 in"}, None, "passes", ""),
    ({"edge": "10.85 in"}, None, "refer", RULING),
    ({"columns": 3, "spacing": "2.43 in"}, None, "passes", ""),
    ({"columns": 3, "spacing": "2.42 in"}, None, "refer", "anchor.A.fastener.bored_ahead"),
    ({"columns": 3, "spacing": "1.61 in"}, True, "refer", RULING),
    ({"rows": 3, "row_spacing": "1.62 in"}, None, "passes", ""),
    ({"rows": 3, "row_spacing": "1.61 in"}, None, "refer", "anchor.A.fastener.bored_ahead"),
    ({"rows": 3, "row_spacing": "0.8 in"}, True, "refer", RULING),
])  # fmt: skip
def test_nails_by_the_commentary(holes: Data, bored: bool | None, verdict: str, field: str) -> None:
    """NDS 2018 C12.1.6.6 (memory), pulled along the piece."""
    laid = {"rows": 1, "columns": 1, "end": "4 in", "edge": "4 in", **holes}
    fastener = {**NAIL, **({"bored_ahead": True} if bored else {})}
    made = group(
        [0.0], [50.0], fastener=fastener, holes=laid, other={**DEEP, "edge": "8 in"}, into=stock("6x16 dressed")
    )
    (check,) = [one for one in layout(made) if one.what == "splitting"]
    assert check.verdict == verdict and [one.field for one in check.questions] == ([field] if field else [])


@pytest.mark.parametrize(("along", "end", "kept"), [(-50.0, "1.62 in", True), (-50.0, "1.61 in", False)])
def test_nails_that_are_pressed_need_less_end(along: float, end: str, kept: bool) -> None:
    made = group([0.0], [along], fastener=NAIL, holes={**ONE, "end": end}, other=DEEP, into=TIMBER)
    (check,) = [one for one in layout(made) if one.what == "splitting"]
    assert check.holds is kept


@pytest.mark.parametrize(("end", "edge", "kept"), [
    ("0.405 in", "4 in", True), ("0.4 in", "4 in", False), ("1.095 in", "4 in", True), ("1.1 in", "4 in", False),
    ("0.75 in", "0.4 in", False), ("0.75 in", "10.85 in", False),
])  # fmt: skip
def test_nails_into_the_end_keep_from_all_four_sides(end: str, edge: str, kept: bool) -> None:
    holes = {"rows": 1, "columns": 1, "end": end, "edge": edge}
    made = group([50.0], fastener=NAIL, manner="into the end", holes=holes, other=OTHER)
    (check,) = [one for one in layout(made) if one.what == "splitting"]
    assert check.holds is kept


# ---- toe-nails -------------------------------------------------------------------------------------------------------


def toes(holes: Data | None = None, **more: Any) -> Group:
    laid = {"rows": 2, "columns": 1, "end": "1.1667 in", "edge": "4 in", "row_spacing": "2 in", **(holes or {})}
    return group(
        [50.0], **{"manner": "toe-nails", "fastener": NAIL, "other": DEEP, "into": TIMBER, "holes": laid, **more}
    )


@pytest.mark.parametrize(("end", "penetration"), [
    # 3 1/2 in at 30 degrees: 3.031 less a third; nearer to the end no more, farther as much less
    ("1.1667 in", 1.8644), ("0.8 in", 1.8644), ("1.5 in", 1.8644 - 0.3333), ("2.0583 in", 0.9728), ("2.1 in", 0.9311),
    ("4 in", 0.0),
])  # fmt: skip
def test_how_deep_toe_nails_reach(end: str, penetration: float) -> None:
    """12.1.6.3; at least 6 D, 0.972 in."""
    joint = connect(toes({"end": end})).joint
    assert joint.penetration == pytest.approx(penetration, abs=1e-3)
    faults = [fault.id for fault in joint.faults]
    assert faults == (["anchor.penetration"] if penetration < 0.972 else [])
    assert joint.main.length == pytest.approx(max(penetration, 0.972) - 0.162, abs=1e-3)


def test_toe_nails_that_come_out_and_others_than_nails() -> None:
    thin = connect(toes(other={**DEEP, "thickness": "1.86 in"})).joint
    assert [fault.id for fault in thin.faults] == ["anchor.length"]
    assert not connect(toes(other={**DEEP, "thickness": "1.87 in"})).joint.faults
    assert [one.key for one in connect(toes(other={**DEEP, "grain": "end"})).joint.doubts] == ["joint_by_engineer"]


@pytest.mark.parametrize(
    ("end", "kept"), [("1.66 in", True), ("1.67 in", False), ("0.67 in", True), ("0.66 in", False)]
)
def test_toe_nails_begin_a_third_of_their_length_from_the_end(end: str, kept: bool) -> None:
    """Within half an inch of 1 1/6 in (judgment)."""
    found = those(beside(toes({"end": end})), "anchor.toe_nails")
    assert [check.verdict for check in found] == (["passes"] if kept else ["fails"])
    if not kept:
        assert "1 3/16 in, is where they reach" in found[0].notes[0]


@pytest.mark.parametrize(
    ("edge", "kept"), [("0.405 in", True), ("0.4 in", False), ("8.845 in", True), ("8.85 in", False)]
)
def test_toe_nails_keep_from_the_edges(edge: str, kept: bool) -> None:
    """2 1/2 D from either, the upper row 2 in above."""
    found = those(beside(toes({"edge": edge})), "anchor.toe_nails")
    assert [check.verdict for check in found] == (["passes"] if kept else ["fails"])


@pytest.mark.parametrize(("apart", "bored", "field"), [
    ("1.62 in", False, ""), ("1.61 in", False, "anchor.A.fastener.bored_ahead"), ("0.81 in", True, ""),
    ("0.8 in", True, RULING), ("0.8 in", False, RULING), ("1.61 in", True, ""),
    ("0.81 in", False, "anchor.A.fastener.bored_ahead"),
])  # fmt: skip
def test_toe_nails_apart(apart: str, bored: bool, field: str) -> None:
    """10 D, bored ahead 5 D (commentary, memory)."""
    fastener = {**NAIL, **({"bored_ahead": True} if bored else {})}
    found = those(beside(toes({"row_spacing": apart}, fastener=fastener)), "anchor.splitting", "splitting")
    assert [check.questions[0].field for check in found] == ([field] if field else [])


# ---- pulled along their axes -----------------------------------------------------------------------------------------


def test_a_pull_for_every_combination() -> None:
    connection = connect(group([100.0, 50.0]))
    for wrong in ([1.0], [math.nan, 1.0]):
        with pytest.raises(OutOfRange, match="one tension for each of 2 combinations"):
            axial_checks(connection, wrong)
    assert axial_checks(connection, [-100.0, 0.5]) == [] and axial_checks(connection, [0.51, 0.0]) != []


def test_what_has_no_value_along_its_axis() -> None:
    (pins,) = axial(group([100.0], fastener={"kind": "pin", "size": "1/2 in"}), [50.0])
    assert pins.verdict == "fails" and "without heads" in pins.notes[0]
    planes = group([100.0], manner="plates both sides", plate=PLATE, other=None)
    (two,) = axial(planes, [50.0])
    assert two.verdict == "refer" and two.questions[0].field == RULING


@pytest.mark.parametrize(("end", "C_b"), [("3.6875 in", 1.75 / 1.375), ("3.68 in", 1.0)])
def test_washers_clear_of_the_end_bear_more(end: str, C_b: float) -> None:
    """3 in from the rim of 1 3/8 in to the end of the piece (3.10.4); of the post it is not shown."""
    found = axial(group([100.0], holes={**ONE, "end": end}), [50.0])
    area = math.pi / 4 * (1.375**2 - 0.5625**2)
    assert find(found, "washer on the held").capacity == pytest.approx(625 * C_b * area)
    assert find(found, "washer on the post").capacity == pytest.approx(625 * area)


def test_a_washer_beside_the_wood() -> None:
    """No wider than twice what lies between bolt and edge: 9/16 in of hole are none."""
    for edge, verdict in (("0.28 in", "fails"), ("0.28125 in", "fails"), ("0.29 in", "passes")):
        found = axial(group([10.0], holes={**ONE, "edge": edge}), [5.0])
        assert find(found, "washer on the held").verdict == verdict
    unknown = axial(group([100.0], other={**OTHER, "stock": None}), [50.0])
    assert find(unknown, "washer on the post").questions[0].field == "anchor.A.other.stock"


@pytest.mark.parametrize(("edge", "holds"), [("0.28125 in", False), ("0.29 in", True)])
def test_what_a_bolt_holds_beside_the_edge(edge: str, holds: bool) -> None:
    """A washer of which no more than the hole lies on wood holds nothing."""
    made = connect(group([10.0], holes={**ONE, "edge": edge}))
    if holds:
        assert float(pull_value(SilentPad(), made, 0)) > 0.0
        return
    with pytest.raises(OutOfRange, match="of the washer lies on the wood"):
        pull_value(SilentPad(), made, 0)


def test_a_lag_screw_s_washer_beside_the_edge() -> None:
    """Twice 1/4 in of wood are just the shank of 1/2 in: nothing bears."""
    lag = {"kind": "lag screw", "size": "1/2 in", "length": "6 in"}
    for edge, verdict in (("0.25 in", "fails"), ("0.26 in", "passes")):
        made = group([0.0], fastener=lag, holes={**ONE, "edge": edge}, other=DEEP, into=TIMBER)
        assert find(axial(made, [0.6]), "pull on the most loaded").verdict == verdict, edge


def test_screws_into_an_end_share_a_pull_along_the_piece() -> None:
    """500 lb on two of them; what presses pulls on none."""
    lag = {"kind": "lag screw", "size": "1/2 in", "length": "8 in"}
    holes = {"rows": 2, "columns": 1, "end": "1 3/4 in", "edge": "3 in", "row_spacing": "4 in"}
    more: Data = {"manner": "into the end", "fastener": lag, "held": stock("4x12 dressed"), "holes": holes,
                  "other": {**OTHER, "thickness": "3 1/2 in", "grain": "along"},
                  "into": stock("4x12 dressed")}  # fmt: skip
    assert find(beside(group([10.0], [500.0], **more)), "pull on the most loaded").demand == 250.0
    assert beside(group([10.0], [-500.0], **more)) == []


@pytest.mark.parametrize(("into", "said", "grain"), [
    ("girder", "across", "along"), ("post", "along", "across"), ("", "along", "along"), ("", "across", "across"),
])  # fmt: skip
def test_what_the_screws_into_an_end_go_through(into: str, said: str, grain: str) -> None:
    """A girder lies along the piece's own way, a post stands across it, whatever is said of its grain."""
    lag = {"kind": "lag screw", "size": "1/2 in", "length": "8 in"}
    piece: Any = {"girder": Beam.model_validate(beam(name="girder")), "post": Post.model_validate(houses.post())}
    made = group([10.0], manner="into the end", fastener=lag, held=stock("4x12 dressed"), into=stock("4x12 dressed"),
                 other={**OTHER, "thickness": "3 1/2 in", "grain": said})  # fmt: skip
    assert connect(replace(made, into=piece.get(into))).joint.other.grain == grain
