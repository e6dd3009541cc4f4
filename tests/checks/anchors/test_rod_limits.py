"""Hanger rods at each limit and just beside it: places, lengths, washers, twist; worked by hand here. Invented.

Two 6x12 dressed (5 1/2 x 11 1/2 in): the lower one hangs from the upper one by a 5/8 in rod with 1 3/4 in washers.
"""

from __future__ import annotations

import math
from dataclasses import replace
from typing import Any

import numpy as np
import pytest

from beamcheck.checks.anchors.manners.registry import REGISTRY
from beamcheck.checks.core.context import Context, Structure
from beamcheck.checks.core.result import Check
from beamcheck.model.anchors.anchor import Anchor
from beamcheck.model.beams import Beam
from beamcheck.model.stock import Stock

from ..beams.beams import beam, seat
from .anchors import Data, find, group, stock

ROD: Data = {"kind": "bolt", "size": "5/8 in", "steel": "A36", "length": "26 in", "washer": "1 3/4 in"}
HOLES: Data = {"rows": 1, "columns": 1, "end": "6 in", "edge": "2 3/4 in"}
TIED = "blocking, engineer's sheet 3 of 12 January 2026"
TIMBER = stock("6x12 dressed")


def hung(
    *,
    lands_at: float | None = 36.0,
    line: float | None = 6.0,
    high: Data | None = None,
    holes: Data | None = HOLES,
    down: float = 500.0,
    up: float = 0.0,
    wood: Stock = TIMBER,
    more: Data | None = None,
    **rod: Any,
) -> list[Check]:
    """The checks of one rod: of the end of beam B, so far from its end to the line of its support."""
    carrying = Beam.model_validate({**beam(name="high"), **(high or {})})
    fastener = {key: value for key, value in {**ROD, **rod}.items() if value is not None}
    data = {"name": "A", "manner": "hanger rod", "fastener": fastener, **(more or {})}
    if holes is not None:
        data["holes"] = holes
    made = group([down, -up], held=TIMBER)
    anchor = Anchor.model_validate(data)
    x, y = (np.zeros(0), np.zeros(0)) if holes is None else _places(anchor)
    made = replace(made, anchor=anchor, x=x, y=y, into=carrying, line=line, lands_at=lands_at,
                   support="beam.B.supports.1")  # fmt: skip
    return REGISTRY["hanger rod"].checks(made, Context(Structure({"wood": wood}, {"high": carrying})))


def _places(anchor: Anchor) -> tuple[np.ndarray, np.ndarray]:
    holes = anchor.holes
    assert holes is not None and holes.end is not None and holes.edge is not None
    x = holes.end + np.arange(holes.columns or 1) * (holes.spacing or 0.0)
    return x, np.full_like(x, holes.edge)


def named(found: list[Check], id: str, words: str = "") -> list[Check]:
    return [check for check in found if check.id == id and words in check.what]


def test_a_rod_of_a_bolt_grade() -> None:
    """A307: F_nt 45 ksi on pi/4 D^2, Omega 2 (AISC 360-16 Table J3.2: memory)."""
    check = find(hung(steel="A307"), "tension of the rod")
    assert check.demand == pytest.approx(500.0)
    assert check.capacity == pytest.approx(45000 * math.pi / 4 * 0.625**2 / 2)
    assert [one.verdict for one in named(hung(steel=None), "anchor.rod_tension")] == ["refer"]


@pytest.mark.parametrize(("length", "verdict"), [("24.5625 in", "fails"), ("24.57 in", "passes"), (None, "refer")])
def test_long_enough_for_both_beams_and_two_nuts(length: str | None, verdict: str) -> None:
    """2 x 11 1/2 in and 2 1/2 diameters for nuts and washers (common practice): over 24 9/16 in."""
    check = find(hung(length=length), "the rod goes right through")
    assert check.verdict == verdict
    if verdict == "refer":
        assert "2 ft 9/16 in" in check.notes[0] and check.questions[0].answers[0].says == "2 ft 2 in"


@pytest.mark.parametrize(("end", "edge", "words"), [
    (2.5, 2.75, ""), (2.45, 2.75, "from the end"), (6.0, 0.9375, ""), (6.0, 0.93, "from the side, at least"),
    (6.0, 4.57, "from the side, at least"), (6.0, 4.5625, ""),
])  # fmt: skip
def test_room_around_a_rod(end: float, edge: float, words: str) -> None:
    """4 D from the end, 1 1/2 D from either side, as bolts (Tables 12.5.1A and C)."""
    found = hung(line=end, holes={**HOLES, "end": f"{end} in", "edge": f"{edge} in"}, washer="1 1/4 in")
    check = find(found, "place of the rod in B")
    assert check.verdict == ("fails" if words else "passes") and words in "; ".join(check.notes)


def test_washer_over_the_edge() -> None:
    """One of 1.98 in reaches 0.99 in; 1 3/4 in of it count, which reach 7/8 in."""
    for edge, asked, fails in ((0.99, False, False), (0.98, True, False), (0.87, True, True)):
        found = hung(holes={**HOLES, "edge": f"{edge} in"}, washer="1.98 in", more={"twist_held_by": TIED})
        wide = named(found, "anchor.washers", "washer on B")
        assert [one.verdict for one in wide] == (["refer"] if asked else []), edge
        notes = "; ".join(find(found, "place of the rod in B").notes)
        assert ("a washer 1 3/4 in across hangs over" in notes) is fails


@pytest.mark.parametrize(("edge", "asked"), [(3.25, False), (3.26, True), (2.25, False), (2.24, True)])
def test_a_rod_beside_the_middle_twists_the_piece(edge: float, asked: bool) -> None:
    """Half an inch hardly twists it (judgment); something may keep it from turning."""
    holes = {**HOLES, "edge": f"{edge} in"}
    for more, verdict in (({}, "refer"), ({"twist_held_by": TIED}, "passes")):
        found = named(hung(holes=holes, more=more), "anchor.couple", "twist of B")
        assert [one.verdict for one in found] == ([verdict] if asked else [])
    assert not named(hung(holes=holes, down=0.4), "anchor.couple")


def test_a_rod_off_the_line_of_its_support_is_beside_the_middle_of_what_carries_it() -> None:
    (check,) = named(hung(line=5.0), "anchor.couple")
    assert check.what == "twist of high by the rod" and "1 in beside the middle of high: 41.7 lb-ft" in check.notes[0]
    place = find(hung(line=4.1), "place of the rod in high")  # 2 3/4 less 1.9 in from its side
    assert place.verdict == "fails" and "from the side" in place.notes[0]
    assert find(hung(line=4.2), "place of the rod in high").verdict == "passes"


@pytest.mark.parametrize(("lands_at", "verdict"), [
    (2.5, "passes"), (2.4, "fails"), (141.5, "passes"), (141.6, "fails"),
])  # fmt: skip
def test_a_rod_at_the_end_of_what_carries_it(lands_at: float, verdict: str) -> None:
    """2 1/2 in from either end of 12 ft are 4 D."""
    high = {"supports": [seat("2 ft"), seat("10 ft")], "length": "12 ft"}
    assert find(hung(lands_at=lands_at, high=high), "place of the rod in high").verdict == verdict


@pytest.mark.parametrize(("lands_at", "places"), [
    (2.0, ["6 1/4 in"]), (3.09, ["6 1/4 in"]), (3.09375, []), (72.0, ["6 ft 6 1/4 in", "5 ft 5 3/4 in"]), (75.1, []),
    (68.95, ["6 ft 6 1/4 in", "5 ft 5 3/4 in"]),
])  # fmt: skip
def test_a_rod_through_a_seat_of_what_carries_it(lands_at: float, places: list[str]) -> None:
    """A seat of 5 1/2 in reaches 2 3/4 in, the hole 11/32 in more. Beside it there is room from 2 3/4 in and
    two washers on."""
    high = {"supports": [seat("0 ft"), seat("6 ft"), seat("12 ft")]}
    found = [one for one in named(hung(lands_at=lands_at, high=high), "anchor.rod_place", "high") if one.questions]
    assert [[answer.says for answer in one.questions[0].answers] for one in found] == ([places] if places else [])
    assert all(one.questions[0].field == "beam.B.supports.1.lands_at" for one in found)


def area(D_w: float) -> float:
    """Of a washer less its hole of 11/16 in, in2."""
    return math.pi / 4 * (D_w**2 - 0.6875**2)


@pytest.mark.parametrize(("place", "factor"), [(3.875, 2.125 / 1.75), (3.87, 1.0)])
def test_washers_count_as_at_an_end_within_three_inches_of_it(place: float, factor: float) -> None:
    """C_b = (l_b + 3/8)/l_b only 3 in clear of the end (3.10.4): 3 7/8 in to the middle of a washer of 1 3/4 in."""
    found = hung(line=place, holes={**HOLES, "end": f"{place} in"}, lands_at=144.0 - place)
    for what in ("washer under B", "washer on the top of high"):
        assert find(found, what).capacity == pytest.approx(625.0 * factor * area(1.75)), what


@pytest.mark.parametrize(("wide", "counted"), [("3 in", 1.75), ("1 3/4 in", 1.75), ("1 1/2 in", 1.5), (None, 1.75)])
def test_washers_wider_and_narrower_than_the_standard_one(wide: str | None, counted: float) -> None:
    """1 3/4 in across is standard at 5/8 in (ASME B18.21.1, memory): what is wider is not counted wider."""
    found = hung(washer=wide)
    check = find(found, "washer under B")
    assert check.capacity == pytest.approx(625.0 * (counted + 0.375) / counted * area(counted))
    assert any("counted as wide as" in note for note in check.notes) is (wide == "3 in")
    asked = [one.questions[0].field for one in named(found, "anchor.washers", "washers of the rod") if one.questions]
    assert asked == (["anchor.A.fastener.washer"] if wide is None else [])


def test_a_washer_as_wide_as_its_hole() -> None:
    for wide, through in (("11/16 in", True), ("3/4 in", False)):
        found = named(hung(washer=wide), "anchor.washers", "washers of the rod")
        assert any("pulled through" in one.notes[0] for one in found) is through
        assert bool(named(hung(washer=wide), "anchor.washer")) is not through


def test_what_a_rod_is_not_checked_for() -> None:
    two = {"rows": 1, "columns": 2, "spacing": "4 in", "end": "4 in", "edge": "2 3/4 in"}
    cases: tuple[tuple[str, list[Check]], ...] = (
        ("anchor.rods", hung(holes=two)), ("anchor.rod_bores", hung(counterbore="2 in", counterbore_depth="1 in")),
        ("anchor.split", hung(more={"split": "check across the holes"})),
    )  # fmt: skip
    for id, found in cases:
        assert [one.verdict for one in named(found, id)] == ["refer"]
        assert not named(hung(), id)


@pytest.mark.parametrize(("down", "up", "verdict"), [
    (1000.0, 0.4, ""), (1000.0, 10.0, "passes"), (1000.0, 10.1, "fails"), (9000.0, 20.1, "fails"),
])  # fmt: skip
def test_a_rod_that_is_hardly_lifted(down: float, up: float, verdict: str) -> None:
    """Next to nothing is up to 20 lb and 1 % of what hangs on it (judgment)."""
    assert [one.verdict for one in named(hung(down=down, up=up), "anchor.rod_uplift")] == ([verdict] if verdict else [])


def test_unknown_wood_under_the_upper_washer() -> None:
    old = {"species": "unknown", "grade": "unstamped", "size": "6x12 dressed", "moisture": "dry", "name": "wood",
           "candidates": ["Eastern White Pine", "Hem-Fir"]}  # fmt: skip
    (check,) = named(hung(wood=Stock.model_validate(old)), "anchor.washer", "top of high")
    assert check.verdict == "refer" and check.questions[0].field == "stock.wood.grade"


def test_place_that_is_not_said() -> None:
    """In the line of the support and in the middle of the breadth: 6 in from the end, 2 3/4 in from the side."""
    (check,) = named(hung(holes=None), "anchor.rod_place")
    (answer,) = check.questions[0].answers
    assert answer.sets == (("anchor.A.holes", {"rows": 1, "columns": 1, "end": "6 in", "edge": "2 3/4 in"}),)


@pytest.mark.parametrize(("edge", "asked"), [("5 1/2 in", False), ("5.51 in", True)])
def test_a_rod_beyond_the_other_side_is_asked_about(edge: str, asked: bool) -> None:
    """The middle of the breadth is proposed."""
    found = [one for one in named(hung(holes={**HOLES, "edge": edge}), "anchor.rod_place") if one.questions]
    assert [one.questions[0].field for one in found] == (["anchor.A.holes.edge"] if asked else [])
    assert all([answer.says for answer in one.questions[0].answers] == ["2 3/4 in"] for one in found)


def test_place_of_a_rod_of_which_no_line_is_known() -> None:
    """Half of the breadth from the end, as from the side."""
    made = hung(holes=None, line=None)
    (check,) = named(made, "anchor.rod_place")
    assert check.questions[0].answers[0].sets[0][1] == {"rows": 1, "columns": 1, "end": "2 3/4 in", "edge": "2 3/4 in"}


@pytest.mark.parametrize(("lands_at", "clear"), [(None, False), (36.0, True)])
def test_where_it_lands_is_not_known(lands_at: float | None, clear: bool) -> None:
    """Then the upper washer counts as at an end, and no end distance is asked there."""
    found = hung(lands_at=lands_at)
    factor = 2.125 / 1.75 if clear else 1.0
    assert find(found, "washer on the top of high").capacity == pytest.approx(625.0 * factor * area(1.75))
    assert find(found, "place of the rod in high").verdict == "passes"


def test_a_rod_that_hangs_from_nothing_that_is_known() -> None:
    made = group([500.0], held=TIMBER)
    anchor = Anchor.model_validate({"name": "A", "manner": "hanger rod", "fastener": ROD, "holes": HOLES})
    made = replace(made, anchor=anchor, x=np.array([6.0]), y=np.array([2.75]), into=None, line=6.0)
    found = REGISTRY["hanger rod"].checks(made, Context(Structure({}, {})))
    assert [one.verdict for one in named(found, "anchor.rod_upper_end")] == ["refer"]
    assert len(named(found, "anchor.washer")) == 1 and len(named(found, "anchor.rod_place")) == 1
    bare = replace(made, anchor=anchor.model_copy(update={"fastener": None}))
    (check,) = REGISTRY["hanger rod"].checks(bare, Context(Structure({}, {})))
    assert check.questions[0].field == "anchor.A.fastener.size"
