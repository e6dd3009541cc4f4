"""What is asked of wood that is taken on the safe side, field by field; and which checks carry such a question."""

from __future__ import annotations

from typing import Any

import pytest

from beamcheck.checks.core.asking.question import ask
from beamcheck.checks.core.result import Check
from beamcheck.checks.core.unsaid import unsaid_of, with_unsaid
from beamcheck.model.beams import Beam
from beamcheck.model.stock import Stock

from ..anchors.anchors import stock
from ..beams.beams import beam
from .wood.test_made_wood_by_hand import glulam, lvl

GREEN = {"evidence": "stamp: mill 12, No.1, S-GRN"}
UNMETERED: dict[str, Any] = {"measured_moisture": None}


def asked(wood: Stock, stick: Beam | None = None) -> list[str]:
    return [one.id.partition("/")[2] for one in unsaid_of(wood, stick)]


@pytest.mark.parametrize(("wood", "asks"), [
    (stock("6x12 dressed"), []), (stock("6x12 dressed", **UNMETERED), ["moisture"]), (stock("2x10", **UNMETERED), []),
    (stock("2x10", **UNMETERED, **GREEN), ["moisture"]), (stock("6x12 dressed", **UNMETERED, moisture="wet"), []),
    (stock("6x12 dressed", **UNMETERED, moisture="green"), []), (glulam(), []), (lvl(), []),
    (stock("2x10", **UNMETERED, moisture="green", assumed=["moisture"]), ["assumed_moisture"]),
    (stock("2x10", **UNMETERED, moisture="wet", assumed=["moisture"]), ["assumed_moisture"]),
])  # fmt: skip
def test_what_is_not_known_of_the_moisture_of_wood(wood: Stock, asks: list[str]) -> None:
    """A reading of what is called dry and is not sold so; whether it really is wet, where nobody has said it."""
    assert asked(wood) == asked(wood, Beam.model_validate(beam())) == asks
    for one in unsaid_of(wood):
        if one.id.endswith("assumed_moisture"):
            yes, no = (dict(answer.sets) for answer in one.answers)
            assert yes == {
                "stock.wood.assumed": None,
                "stock.wood.moisture": "dry",
                "stock.wood.measured_moisture": "12 %",
            }
            assert no == {"stock.wood.moisture": wood.moisture}


@pytest.mark.parametrize("assumed", [(), ("top_held",)])
def test_whether_a_deck_holds_its_top_where_nobody_has_said_it(assumed: tuple[str, ...]) -> None:
    stick = Beam.model_validate(beam()).model_copy(update={"assumed": assumed})
    assert asked(stock("6x12 dressed"), stick) == ["assumed_top"] * len(assumed)
    for one in unsaid_of(stock("6x12 dressed"), stick):
        held, free = (dict(answer.sets) for answer in one.answers)
        assert held == {"beam.B.assumed": None, "beam.B.top_held": "full length"} and free == {"beam.B.assumed": None}


THICK = {"size": "5 1/4 in x 14 in"}


@pytest.mark.parametrize(("wood", "more", "asks"), [
    (stock("2x10"), {"spacing": 16.0}, True), (stock("2x10"), {"spacing": 24.0}, True), (stock("2x10"), {}, False),
    (stock("2x10"), {"spacing": 24.1}, False), (stock("2x10"), {"spacing": 16.0, "members": 1}, False),
    (stock("2x10"), {"spacing": 16.0, "members": 4}, False), (stock("6x12 dressed"), {"spacing": 16.0}, False),
    (glulam(size="3 1/8 in x 12 in"), {"spacing": 16.0}, False), (lvl(), {"spacing": 16.0}, False),
    (lvl({"C_r": 1.04}), {"spacing": 16.0}, True), (lvl({"C_r": 1.04}), {"spacing": 24.1}, False),
    (lvl({"C_r": 1.04}, **THICK), {"spacing": 16.0}, True),  # what a report says holds for any size of it
])  # fmt: skip
def test_neighbors_are_asked_about_where_they_would_raise_something(wood: Stock, more: Any, asks: bool) -> None:
    """Three at 24 in and less: dimension lumber (NDS 2018 4.3.9), composite lumber by its report; unless it is said."""
    stick = Beam.model_validate(beam()).model_copy(update=more)
    assert asked(wood, stick) == ["members"] * asks and asked(wood) == []
    for one in unsaid_of(wood, stick):
        assert dict(one.answers[0].sets) == {"beam.B.shared_by": "3/4 in subfloor, nailed to each", "beam.B.members": 3}


OPEN, OTHER = (
    ask("moisture", "w", "stock.w.measured_moisture"),
    ask("confirmed_by", "v", "existing.v.confirmed_by", what="v"),
)
OVER = Check.of_ratio("beam.bending", "B", "bending", "", demand=1.5, capacity=1.0, kind="force", ask=OTHER)
UNKNOWN = Check.breaks_rule("wood.unknown", "B", "wood", "")


@pytest.mark.parametrize(("check", "carries"), [
    (OVER, True), (UNKNOWN, True), (Check.breaks_rule("beam.cut", "B", "notch", ""), False),
    (Check.of_ratio("a", "B", "b", "", demand=0.5, capacity=1.0, kind="force"), False),
    (Check.refers("a", "B", "b", "", ask=OTHER), False), (OVER.waits_for(OTHER), False),
])  # fmt: skip
def test_what_fails_by_figures_carries_the_question(check: Check, carries: bool) -> None:
    (found,) = with_unsaid([check], [OPEN, OTHER])
    assert with_unsaid([check], []) == [check]
    assert (OPEN in found.questions) is carries and (found is check) is not carries
    assert len({one.id for one in found.questions}) == len(found.questions)
    assert found.questions == ((*check.questions, *(one for one in (OPEN, OTHER) if one not in check.questions))
                               if carries else check.questions)  # fmt: skip
