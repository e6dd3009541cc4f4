"""Room, laps, slots and gaps of moving wood at their limits, by eq. 13-3 of the Wood Handbook typed here.

Eastern hemlock: S_T 6.8, S_R 3.0 %; indoors 6, 8 and 10 % (dry, mean, damp).
"""

from __future__ import annotations

from typing import Any

import pytest

from beamcheck.calc.pad import Pad
from beamcheck.checks.core.result import Check
from beamcheck.checks.movement.parts import Part, _bolts, _bracket, part_checks
from beamcheck.checks.movement.rows import row_moves
from beamcheck.checks.movement.timber import movement_line, movement_table, starts_at, timber_moves
from beamcheck.model.conditions.air import Climate
from beamcheck.model.conditions.movement import Movement
from beamcheck.model.stock import Stock
from beamcheck.values.lumber import read_size

Data = dict[str, Any]
HAIR, MORE = 1.0001, 0.9999
PART: Data = {"name": "part", "on": "B1", "across": "10 in", "built_at": "8 %"}


def moves(start: float, end: float, across: float = 10.0, S: float = 6.8) -> float:
    """Without sign, inches; nothing moves above 30 %."""
    start, end = min(start, 30.0), min(end, 30.0)
    return abs(across * (end - start) / (3000.0 / S - 30.0 + start))


def stock(**more: Any) -> Stock:
    return Stock.model_validate(
        {"name": "w", "species": "Eastern Hemlock", "grade": "No.1", "size": "7 1/2 in x 9 1/2 in", "moisture": "green",
         "grade_from": "stamp", "evidence": "stamp NELMA, mill 12, No.1", **more}
    )  # fmt: skip


def said(kind: str, wood: Stock | None = None, *, carries: bool = False, **more: Any) -> list[Check]:
    given = {**PART, "kind": kind, **more}
    if kind in ("seam cover", "panel"):
        given.setdefault("lap", "1 in")
    return list(part_checks(Movement.model_validate(given), wood or stock(), None, carries=carries))


def verdicts(*args: Any, **more: Any) -> list[str]:
    return [one.verdict for one in said(*args, **more)]


DAMP, DRY = moves(8.0, 10.0), moves(8.0, 6.0)


@pytest.mark.parametrize(
    ("kind", "needed"), [("boxed cover", DAMP), ("panel", DAMP), ("seam cover", DAMP), ("plaster line", max(DAMP, DRY))]
)
def test_room_to_swell_at_its_limit(kind: str, needed: float) -> None:
    """A plaster line is pulled to a crack as well: room for the larger way."""
    for factor, verdict in ((HAIR, "passes"), (MORE, "refer")):
        (room,) = [one for one in said(kind, room=f"{needed * factor:.6f} in") if one.what == f"{kind}: room"]
        assert room.verdict == verdict and room.demand in (None, pytest.approx(needed))
    (half,) = [one for one in said(kind, fixed="middle", room="1 in") if one.what == f"{kind}: room"]
    assert half.demand == pytest.approx(0.5 * needed)


@pytest.mark.parametrize("kind", ["seam cover", "panel"])
def test_a_lap_hides_what_opens_and_a_sixteenth(kind: str) -> None:
    for factor, verdict in ((HAIR, "passes"), (MORE, "refer")):
        lap = f"{(DRY + 0.0625) * factor:.6f} in"
        seam = said(kind, lap=lap)[0]
        assert seam.verdict == verdict and seam.demand in (None, pytest.approx(DRY + 0.0625))
    assert said(kind, built_at="6 %")[0].demand == pytest.approx(0.0625)  # as dry as it ever is


def test_what_only_dries_needs_no_room() -> None:
    assert said("boxed cover", built_at="12 %") == []
    (plaster,) = said("plaster line", built_at="12 %", room="1 in")
    assert plaster.demand == pytest.approx(moves(12.0, 6.0))
    assert said("plaster line", built_at="40 %", room="1 in")[0].demand == pytest.approx(moves(30.0, 6.0))


def test_a_cover_fixed_at_both_edges_has_no_room_either_way() -> None:
    (swells,) = said("boxed cover", fixed="both edges", built_at="6 %")
    (shrinks,) = said("boxed cover", fixed="both edges", built_at="12 %")
    for found, needed in ((swells, moves(6.0, 10.0)), (shrinks, moves(12.0, 6.0))):
        assert f"{needed:.3f} in needed, 0 in there" in found.notes[0]
    assert {swells.verdict, shrinks.verdict} == {"refer"}
    accepted = said("boxed cover", fixed="both edges", accepted="the owner, 3 May 2025: it may crack")
    assert [one.verdict for one in accepted] == ["passes"]
    assert [one.questions[0].answers[0].sets for one in (swells,)] == [(("movement.part.fixed", "one edge"),)]


@pytest.mark.parametrize(("metered", "asked"), [("20 %", False), ("20.1 %", True)])
def test_a_timber_over_twenty_percent_is_not_closed_in(metered: str, asked: bool) -> None:
    wood = stock(moisture="green", measured_moisture=metered)
    assert ("movement.core" in [one.id for one in said("boxed cover", wood, room="1 in")]) is asked
    for kind in ("panel", "seam cover", "plaster line"):  # which close nothing in
        assert "movement.core" not in [one.id for one in said(kind, wood, room="1 in")], kind
    assert "movement.core" not in [one.id for one in said("boxed cover", stock(), room="1 in")]
    both = said("boxed cover", wood, room="1 in", fixed="both edges")
    assert [one.what for one in both] == ["boxed cover fixed at both edges"]


# ---- bolts -----------------------------------------------------------------------------------------------------


def test_bolts_at_the_limit_of_their_slots() -> None:
    """Green wood 10 in from bolt to bolt: it shrinks to 6 %."""
    needed = moves(30.0, 6.0)
    for factor, verdict in ((HAIR, "passes"), (MORE, "fails")):
        (bolts,) = said("bolt row", built_at="30 %", room=f"{needed * factor:.6f} in")
        assert bolts.verdict == verdict and bolts.demand == pytest.approx(needed)
    (swelling,) = said("bolt row", built_at="6 %", room="1 in")
    assert swelling.demand == pytest.approx(moves(6.0, 10.0))
    assert verdicts("bolt row", built_at="30 %") == ["refer"]  # nobody says what the holes give


@pytest.mark.parametrize(("across", "named"), [("5 in", False), ("5.01 in", True)])
def test_rows_over_five_inches_apart_are_named(across: str, named: bool) -> None:
    (bolts,) = said("bolt row", room="1 in", across=across)
    assert ("need it shown" in " ".join(bolts.notes)) is named


def test_bolts_in_wood_of_no_table_fail_only_where_all_wood_would() -> None:
    unknown = stock(species="unknown", grade="unstamped", grade_from=None, evidence="")
    most = [one for one in said("bolt row", unknown, built_at="30 %", room="0 in") if one.id == "movement.bolts"]
    assert most[0].verdict == "fails"
    needed = most[0].demand or 0.0
    wide = said("bolt row", unknown, built_at="30 %", room=f"{0.9 * needed:.5f} in")
    assert [one.verdict for one in wide] == ["refer", "refer"]  # the species, and that it may not be enough
    enough = said("bolt row", unknown, built_at="30 %", room=f"{1.001 * needed:.5f} in")
    assert [one.verdict for one in enough] == ["refer", "passes"]


def test_what_is_asked_of_bolts_is_the_room_or_the_wood() -> None:
    """Room that nobody gives is asked, rounded up to a sixteenth; where it is given, wood of no table is asked."""
    needed = moves(30.0, 6.0)
    (silent,) = said("bolt row", built_at="30 %")
    (question,) = silent.questions
    assert question.field == "movement.part.room"
    assert question.answers[0].sets[0][1] == "9/16 in"  # 0.519 in is more than 1/2 in
    assert silent.notes[0] == f"{needed:.3f} in needed, what its holes and slots give is not said"
    assert "slots 9/16 in longer than the bolts are thick, or separate plates" in silent.notes
    unknown = stock(species="unknown", grade="unstamped", grade_from=None, evidence="")
    asked = [one for one in said("bolt row", unknown, built_at="30 %", room="1/2 in") if one.id == "movement.bolts"]
    assert [one.field for one in asked[0].questions] == ["movement.part.species"]
    assert asked[0].notes[0].endswith(" in needed, 0.5 in there")


def test_room_of_just_what_is_needed_is_enough() -> None:
    """Of known wood it passes; of any wood, room that serves what moves least is no failure."""
    needed = said("bolt row", built_at="30 %", room="1 in")[0].demand
    assert needed is not None and needed == pytest.approx(moves(30.0, 6.0))
    assert verdicts("bolt row", built_at="30 %", room=f"{needed!r} in") == ["passes"]
    given = Movement.model_validate({**PART, "kind": "bolt row", "room": "1/2 in"})
    for least, verdict in ((0.5, "refer"), (0.501, "fails")):
        most, few = (Part(given, size, 0.0, Pad(), "as it dries") for size in (0.7, least))
        assert _bolts(most, few).verdict == verdict
        most, few = (Part(given, 0.0, size, Pad(), "as it takes on water") for size in (0.7, least))
        assert _bolts(most, few).verdict == verdict


@pytest.mark.parametrize(("opens", "verdict"), [(0.03125, "passes"), (0.03126, "refer")])
def test_a_gap_of_just_a_thirty_second_is_let_be(opens: float, verdict: str) -> None:
    given = Movement.model_validate({**PART, "kind": "bracket"})
    assert _bracket(Part(given, opens, 0.0, Pad(), "as it dries"), carries=True).verdict == verdict


# ---- brackets ----------------------------------------------------------------------------------------------------


def test_a_gap_over_a_bracket_that_carries_closes_up_to_a_thirty_second() -> None:
    """1/32 in of hemlock from 8 to 6 %: the size across that moves by so much, and a hair more."""
    limit = 10.0 * 0.03125 / DRY
    for across, verdict in ((limit * MORE, "passes"), (limit * HAIR, "refer")):
        (found,) = said("bracket", carries=True, across=f"{across:.6f} in")
        assert found.verdict == verdict
    accepted = "the owner, 3 May 2025: shimmed tight each spring"
    assert verdicts("bracket", carries=True, across="20 in", accepted=accepted) == ["passes"]
    assert verdicts("bracket", carries=True, built_at="6 %", across="40 in") == ["passes"]  # it only swells


def test_a_gap_to_a_bracket_that_must_not_carry() -> None:
    for factor, verdict in ((HAIR, "passes"), (MORE, "refer")):
        (found,) = said("bracket", room=f"{DAMP * factor:.6f} in")
        assert found.verdict == verdict and (found.demand in (None, pytest.approx(DAMP)))
    (dries,) = said("bracket", built_at="12 %")
    assert dries.verdict == "passes" and dries.ratio is None


# ---- the timber itself ---------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("wood", "start"),
    [
        ({"measured_moisture": "24 %"}, 24.0), ({"measured_moisture": "34 %"}, 30.0), ({}, 30.0),
        ({"moisture": "dry"}, 30.0), ({"moisture": "dry", "size": "2x10"}, 19.0),
        ({"moisture": "dry", "size": "4x10"}, 19.0),
        ({"moisture": "dry", "size": "6x10 dressed"}, 30.0), ({"size": "2x10"}, 30.0),
    ],
)  # fmt: skip
def test_where_a_timber_starts(wood: Data, start: float) -> None:
    """As metered; what is thin is dried as it is sold; else as green."""
    made = stock(**wood)
    assert starts_at(made, read_size(made.size))[0] == start


@pytest.mark.parametrize("start", [30.0, 9.0, 5.0])
def test_sides_of_a_timber(start: float) -> None:
    """At most: S_T to the driest; expected: the mean of S_T and S_R to the mean; swelling: S_T to the dampest."""
    found = timber_moves(stock(measured_moisture=f"{start} %"), None)
    assert found is not None
    for side, size in zip(found.sides, (7.5, 9.5), strict=True):
        assert side.size == size
        assert side.at_most == pytest.approx(-moves(start, 6.0, size) if start > 6.0 else 0.0)
        way = 1.0 if start < 8.0 else -1.0
        assert side.expected == pytest.approx(way * moves(start, 8.0, size, 0.5 * (6.8 + 3.0)))
        assert side.swells == pytest.approx(moves(start, 10.0, size) if start < 10.0 else 0.0)
    assert (found.check > 0.0) is (start > 6.0)


def test_the_line_and_the_table_say_the_same() -> None:
    """9.5 in from 30 %: 0.517 at most and 0.341 in expected (3000/4.9); no swelling is named where there is none."""
    line, table = movement_line(stock(), None), movement_table(stock(), None)
    assert "depth 9 1/2 in shrinks 0.517 in at most, 0.341 in expected" in line and "swells" not in line
    assert table is not None and [row[0] for row in table.rows] == ["breadth", "depth"]
    dry = movement_line(stock(measured_moisture="7 %"), None)
    assert "0 in expected, swells" in dry
    assert movement_table(stock(size="10 in round"), None) is None
    unknown = stock(species="unknown", grade="unstamped", grade_from=None, evidence="")
    assert "any species" in movement_table(unknown, None).note  # type: ignore[union-attr]


@pytest.mark.parametrize(
    ("wood", "climate", "start", "end"),
    [
        ({"measured_moisture": "24 %"}, None, 24.0, 8.0), ({}, None, 30.0, 8.0),
        ({"moisture": "dry", "size": "2x10"}, None, 19.0, 8.0),
        ({"measured_moisture": "24 %"}, Climate(place="indoors, dry southwest"), 24.0, 6.0),  # type: ignore[arg-type]
    ],
)  # fmt: skip
def test_rows_of_a_joint_move_to_the_mean_of_their_air(
    wood: Data, climate: Climate | None, start: float, end: float
) -> None:
    part = row_moves("j", stock(**wood), 3.0, climate)
    assert part.shrinks == pytest.approx(moves(start, end, 3.0)) and part.swells == 0.0
