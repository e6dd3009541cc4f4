"""What the value of a fastener is multiplied by, rows in wood that moves, small fasteners in the other piece: by hand.

Factors by NDS 2018 Table 11.3.1. A bolt of 1/2 in in two 2x12 of Douglas Fir-Larch unless said. Groups are invented.
"""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import numpy as np
import pytest

from beamcheck.calc.pad import Pad
from beamcheck.checks.anchors.fasteners.connection import connection_duration
from beamcheck.checks.anchors.fasteners.factors import _moist, _one_row, wet_service
from beamcheck.checks.anchors.fasteners.far_wood import far_wood_checks, short_of
from beamcheck.checks.anchors.fasteners.lateral import split_checks
from beamcheck.checks.anchors.fasteners.moving import moving_checks
from beamcheck.checks.anchors.group import Group
from beamcheck.checks.anchors.joint import Part
from beamcheck.checks.anchors.manners.registry import connect
from beamcheck.checks.core.asking.question import RULING
from beamcheck.checks.core.result import Check
from beamcheck.model.conditions.movement import Movement

from ..anchors import HALF, NAIL, PLATE, Data, find, group, lateral, made, step, stock

ALONG: Data = {"stock": "wood", "thickness": "1 1/2 in", "grain": "along", "end": "8 in", "edge": "4 in"}
FOUR: Data = {"rows": 2, "columns": 2, "end": "4 in", "edge": "3 5/8 in", "spacing": "3 in", "row_spacing": "4 in"}
WORST = "lateral load"


def written(check: Check, symbol: str) -> list[tuple[float, str]]:
    return [(one.value, one.note) for one in check.steps if one.symbol == symbol]


# ---- factors ---------------------------------------------------------------------------------------------------------


def test_the_value_of_each_fastener_under_each_combination() -> None:
    """Under live load 1.0, under wind 1.6: what is written for one is what is worked out for all."""
    connection = connect(group([100.0, -400.0], holes=FOUR, kinds="LW", arm="1 in", other=ALONG))
    for k in range(4):
        for which in (0, 1):
            one = connection.lateral(Pad(), k, which)
            assert one == pytest.approx(float(connection.Z_prime[k, which]), rel=1e-9), (k, which)
    assert connection.ratio == pytest.approx(connection.spread.P / connection.Z_prime)
    assert connection.worst == int(np.argmax(connection.ratio.max(axis=1)))


@pytest.mark.parametrize(("fastener", "holes", "note"), [
    (HALF, None, "one fastener in line with the load"), (NAIL, None, "thinner than 1/4 in"),
])  # fmt: skip
def test_why_there_is_no_group_action(fastener: Data, holes: Data | None, note: str) -> None:
    check = find(lateral(group([20.0], fastener=fastener, holes=holes, other={**ALONG, "thickness": "5 1/2 in"},
                               into=stock("6x12 dressed"))), WORST)  # fmt: skip
    assert (1.0, note) in written(check, "C_g")


def test_group_action_of_the_lower_of_both_ways() -> None:
    """Aslant the force has a part along and one across: the lesser C_g counts, and none below 5 degrees across."""
    row = {"rows": 1, "columns": 4, "end": "4 in", "edge": "5 5/8 in", "spacing": "3 in"}
    for across, counted in ((100.0, True), (0.0, True)):
        connection = connect(group([across], [100.0], holes=row, other=ALONG))
        own = connection.C_g[1]
        least = min(float(own[way][0]) for way, there in connection.ways.items() if there[0, 0])
        assert float(connection.C_g[0][0, 0]) == pytest.approx(least) and (least < 1.0) is counted
    flat = connect(group([8.0], [100.0], holes=row, other=ALONG))
    assert bool(flat.ways["along"][0, 0]) and not bool(flat.ways["across"][0, 0]), "4.6 degrees"
    steep = connect(group([9.0], [100.0], holes=row, other=ALONG))
    assert bool(steep.ways["across"][0, 0]), "5.1 degrees"
    upright = connect(group([100.0], [0.0], holes=row, other=ALONG))
    assert not bool(upright.ways["along"][0, 0]) and float(upright.C_g[0][0, 0]) == 1.0


@pytest.mark.parametrize(("kind", "concrete", "C_D", "told"), [
    ("W", False, 1.6, 0), ("L", False, 1.0, 0), ("W", True, 1.0, 1), ("D", True, 0.9, 0),
])  # fmt: skip
def test_duration_of_a_connection(kind: str, concrete: bool, C_D: float, told: int) -> None:
    """1.6 at most (11.3.2); no increase where concrete bears (11.2.4, memory)."""
    other = {"material": "concrete", "thickness": "6 in", "grain": "along"} if concrete else ALONG
    one = group([100.0], other=other, kinds=kind)
    pad, joint = Pad(), connect(one).joint
    assert connection_duration(pad, one, joint, 0) == pytest.approx(C_D)
    lowered = [step for step in pad.steps if step.note == "the most that counts here"]
    assert len(lowered) == told


@pytest.mark.parametrize(("moisture", "seasoned", "pairs"), [
    ("dry", None, {("dry", "dry")}), ("dry", "green", {("wet", "dry")}), ("dry", "dry", {("dry", "dry")}),
    ("wet", None, {("wet", "wet"), ("dry", "wet")}), ("wet", "dry", {("dry", "wet")}),
    ("green", None, {(one, other) for one in ("wet", "dry") for other in ("wet", "dry")}),
    ("green", "green", {("wet", "wet"), ("wet", "dry")}),
])  # fmt: skip
def test_what_may_come_true_of_the_moisture(moisture: str, seasoned: str | None, pairs: Any) -> None:
    """Made and in service: what is not known counts with all it might be."""
    wood = stock(moisture=moisture, measured_moisture="12 %" if moisture == "dry" else None)
    assert set(_moist(wood, made(wood), seasoned)) == pairs
    if moisture == "green":
        assert set(_moist(None, None, seasoned)) == pairs, "wood of which nothing is known"


@pytest.mark.parametrize(("grain", "holes", "C_M"), [
    # made green, dry later: 0.4 but for one fastener, or one row along the grain of the member
    ("along", {"rows": 1, "columns": 1}, 1.0), ("along", {"rows": 1, "columns": 3, "spacing": "3 in"}, 1.0),
    ("along", {"rows": 2, "columns": 1, "row_spacing": "3 in"}, 0.4), ("across", {"rows": 1, "columns": 3,
                                                                          "spacing": "3 in"}, 0.4),
    ("across", {"rows": 2, "columns": 1, "row_spacing": "3 in"}, 1.0), ("end", {"rows": 1, "columns": 3,
                                                                       "spacing": "3 in"}, 0.4),
    ("end", {"rows": 1, "columns": 1}, 1.0),
])  # fmt: skip
def test_one_row_along_the_grain_of_the_other_piece(grain: str, holes: Data, C_M: float) -> None:
    laid = {"end": "4 in", "edge": "4 in", **holes}
    wet = stock(moisture="green", measured_moisture="30 %")
    one = group([100.0], into=wet, seasoned="green", holes=laid, other={**ALONG, "grain": grain})
    joint = connect(one).joint
    only = replace(joint, side=joint.main) if not joint.main.is_held else joint  # the other piece by itself
    assert wet_service(one, only, "lateral").value == pytest.approx(min(C_M, 0.7))


def test_a_turned_piece_is_asked_as_a_held_one() -> None:
    """Of a member of a joint that lies at its own angle nothing is known of its rows here, but of a single fastener."""
    two = group([100.0], holes={"rows": 2, "columns": 1, "end": "4 in", "edge": "4 in", "row_spacing": "3 in"})
    part = Part("x", "wood", 1.5, "turned", turn=30.0)
    assert not _one_row(two, part) and _one_row(group([100.0]), part)
    row = group([100.0], holes={"rows": 1, "columns": 2, "end": "4 in", "edge": "4 in", "spacing": "3 in"})
    assert not _one_row(row, part) and _one_row(row, Part("x", "wood", 1.5, "held"))


def test_end_grain_and_toe_nails_have_their_factors() -> None:
    """0.67 in end grain (12.5.2), 0.83 for toe-nails (12.5.4), and toe-nails into an end no 0.67 beside."""
    end = find(lateral(group([10.0], other={**ALONG, "grain": "end"})), WORST)
    assert step(end, "C_eg") == 0.67 and not written(end, "C_tn")
    holes = {"rows": 2, "columns": 1, "end": "1 1/8 in", "edge": "3 in", "row_spacing": "3 in"}
    deep = {**ALONG, "thickness": "5 1/2 in"}
    toe = find(lateral(group([10.0], manner="toe-nails", fastener=NAIL, holes=holes, other=deep,
                             into=stock("6x12 dressed"))), WORST)  # fmt: skip
    assert step(toe, "C_tn") == 0.83 and not written(toe, "C_eg")
    into = find(lateral(group([10.0], manner="toe-nails", fastener=NAIL, holes=holes, other={**deep, "grain": "end"},
                              into=stock("6x12 dressed"))), WORST)  # fmt: skip
    assert step(into, "C_tn") == 0.83 and not written(into, "C_eg")
    plain = find(lateral(group([10.0], other=ALONG)), WORST)
    assert not written(plain, "C_eg") and not written(plain, "C_tn")


@pytest.mark.parametrize(("split", "words", "field"), [
    ("none seen", None, ""), ("check across the holes", "a check or split runs through the holes", RULING),
    ("not looked at", "look for checks", "anchor.A.split"), (None, "look for checks", "anchor.A.split"),
])  # fmt: skip
def test_checks_and_splits(split: str | None, words: str | None, field: str) -> None:
    found = list(split_checks(group([100.0], split=split)))
    assert len(found) == (words is not None)
    if words:
        assert found[0].notes[0].startswith(words) and found[0].questions[0].field == field


# ---- rows in wood that moves -----------------------------------------------------------------------------------------

GREEN = {"moisture": "green", "measured_moisture": "30 %"}


def moves(held: Data, apart: str = "4 in", described: float | None = None, **more: Any) -> list[Check]:
    holes = {**FOUR, "row_spacing": apart}
    one: Group = group([100.0], **{"held": stock("6x12 dressed", **held), "manner": "plates both sides", "plate": PLATE,
                                   "other": None, "holes": holes, **more})  # fmt: skip
    if described is not None:
        entry = Movement.model_construct(name="my row", kind="bolt row", on="B", across=described)
        one = replace(one, described=(entry,))
    return list(moving_checks(connect(one)))


def test_rows_between_plates() -> None:
    """Green wood that a meter found wet is for an engineer, unmetered it is metered first; dry wood is let be."""
    (green,) = moves(GREEN)
    assert green.verdict == "refer" and green.questions[0].field == RULING and green.where == "held piece B"
    assert "4 in between the outer rows shrink by" in green.notes[0] and "splits along a row" in green.notes[0]
    (unseen,) = moves({"moisture": "green", "measured_moisture": None})
    assert unseen.questions[0].field == "stock.wood.measured_moisture"
    (dry,) = moves({"measured_moisture": "19 %"}, "4 1/2 in")
    assert dry.verdict == "passes" and "after a heating season" in dry.notes[0]
    (little,) = moves({"measured_moisture": "9 %"}, "1 1/2 in")
    assert little.verdict == "passes" and "heating season" not in little.notes[0]


def test_rows_that_keep_each_other_nowhere() -> None:
    """One row, nails, and wood that runs the same way."""
    one = {"rows": 1, "columns": 2, "end": "4 in", "edge": "5 in", "spacing": "4 in"}
    assert moves(GREEN, holes=one) == []
    lap: Data = {"manner": "wood side", "plate": None, "into": stock(**GREEN), "other": {**ALONG, "edge": "3 in"}}
    assert moves(GREEN, **lap) == []
    assert moves(GREEN, fastener=NAIL, **{**lap, "other": {**ALONG, "grain": "across", "thickness": "5 1/2 in"}}) == []
    crossed = moves(GREEN, **{**lap, "other": {**ALONG, "grain": "across"}})
    assert [check.where for check in crossed] == ["post", "held piece B"]
    assert "3 in between" in crossed[0].notes[0] and "4 in between" in crossed[1].notes[0]
    end = moves(GREEN, **{**lap, "other": {**ALONG, "grain": "end"}})
    assert end == []


@pytest.mark.parametrize(("across", "verdict"), [(4.0, "passes"), (3.99, "refer"), (6.0, "passes")])
def test_a_row_that_is_described_by_itself(across: float, verdict: str) -> None:
    (check,) = moves(GREEN, described=across)
    assert check.verdict == verdict and ("judged as 'my row'" in check.notes[0]) is (verdict == "passes")


# ---- small fasteners in the other piece ------------------------------------------------------------------------------


def near(across: float = 50.0, along: float = 0.0, bored: bool = False, **other: Any) -> list[Check]:
    told = {"stock": "wood", "thickness": "5 1/2 in", "grain": "across", "end": "3 in", "edge": "1 in", **other}
    told = {key: value for key, value in told.items() if value is not None}
    fastener = {**NAIL, **({"bored_ahead": True} if bored else {})}
    one = group(
        [across], [along], fastener=fastener, other=told, into=stock("6x12 dressed") if told.get("stock") else None
    )
    return list(far_wood_checks(connect(one)))


@pytest.mark.parametrize(("more", "verdict", "field"), [
    # pushed along the post: 15 D, 2.43 in, to its end; bored 10 D, 1.62; across it 10 D and 5 D, 0.81 in
    ({"end": "2.43 in"}, "passes", ""), ({"end": "2.42 in"}, "refer", "anchor.A.fastener.bored_ahead"),
    ({"end": "2.42 in", "bored": True}, "passes", ""), ({"end": "1.61 in"}, "refer", RULING),
    ({"end": "1.61 in", "bored": True}, "refer", RULING),
    ({"across": 0.0, "along": 50.0, "end": "1.62 in"}, "passes", ""),
    ({"across": 0.0, "along": 50.0, "end": "1.61 in"}, "refer", "anchor.A.fastener.bored_ahead"),
    ({"across": 0.0, "along": 50.0, "end": "0.8 in"}, "refer", RULING),
    # 2 1/2 D, 0.405 in, from the given edge and from the far one of 11 1/2 in
    ({"edge": "0.405 in"}, "passes", ""), ({"edge": "0.4 in"}, "refer", RULING), ({"edge": "11.095 in"}, "passes", ""),
    ({"edge": "11.1 in"}, "refer", RULING), ({"edge": "11.1 in", "stock": None}, "passes", ""),
])  # fmt: skip
def test_nails_near_end_and_edge_of_the_other_piece(more: Data, verdict: str, field: str) -> None:
    (check,) = [one for one in near(**more) if one.id == "anchor.splitting"]
    assert check.verdict == verdict and [one.field for one in check.questions] == ([field] if field else [])


def test_distances_in_the_other_piece_that_nobody_gives() -> None:
    asked = {None: {"end", "edge"}, "3 in": {"edge"}}
    for end, fields in asked.items():
        found = [one.questions[0].field for one in near(end=end, edge=None) if one.id == "anchor.far_distances"]
        assert set(found) == {f"anchor.A.other.{field}" for field in fields}
    assert [one.questions[0].field for one in near(grain="end", end=None, edge=None)] == ["anchor.A.other.edge"]
    large = list(
        far_wood_checks(connect(group([10.0], other={"stock": "wood", "thickness": "1 1/2 in", "grain": "across"})))
    )
    assert {one.clause for one in large} == {"NDS 2018 12.5.1"} and len(large) == 2
    concrete = {"material": "concrete", "thickness": "6 in", "grain": "along"}
    assert list(far_wood_checks(connect(group([10.0], other=concrete)))) == []


def test_what_the_commentary_advises_is_told() -> None:
    assert short_of([("edge", 0.4), ("end tension", 3.0)], "not prebored", 0.162) == ["edge: 3/8 in, advised 3/8 in"]
    assert short_of([("end tension", 2.0)], "not prebored", 0.162) == ["end tension: 2 in, advised 2 7/16 in"]
