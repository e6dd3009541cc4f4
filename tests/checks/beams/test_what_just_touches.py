"""Cuts, seats and loads that just touch each other, or take just as much as a rule lets them: by hand."""

from __future__ import annotations

from types import SimpleNamespace
from typing import Any

import pytest

from beamcheck.analysis.beams.load_cases import Applied
from beamcheck.checks.beams.bracing import Span, bracing_of
from beamcheck.checks.beams.cuts import Region, cut_checks, cuts_together, regions, void_of, words
from beamcheck.checks.beams.rows import _one_of_a_row
from beamcheck.checks.core.wood.group_cut import GroupCut, Void
from beamcheck.checks.core.wood.lost import Lost
from beamcheck.checks.core.wood.strength import Section
from beamcheck.model.beams import Beam
from beamcheck.model.sticks import Cut
from beamcheck.values.lumber import read_size

from .beams import beam, find, floor, known, result_of, seat, step

TIMBER, SEATS = Section(4.5, 12.0, 4.5), ((0.0, 5.5), (69.25, 74.75), (138.5, 144.0))


def cut(**more: Any) -> Cut:
    plain = {"kind": "hole", "at": 40.0, "length": 0.0, "depth": 3.0, "face": "side", "width": None}
    return Cut.model_construct(**{**plain, "from_bottom": 6.0, **more})


# ---- cuts ------------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(("at", "over"), [
    (67.75, False), (67.76, True), (76.25, False), (76.24, True), (7.0, False), (6.99, True), (137.0, False),
    (137.01, True), (72.0, True), (40.0, False),
])  # fmt: skip
@pytest.mark.parametrize("face", ["bottom", "side"])
def test_a_hole_beside_a_seat_takes_nothing_of_it(at: float, over: bool, face: str) -> None:
    """3 in wide, bored from below: the seat bears on less as soon as the hole reaches over it."""
    found = regions([cut(at=at, face=face)], 144.0, SEATS[0], SEATS[2])
    told = [check.notes[0] for check in cuts_together("B", found, TIMBER, SEATS)]
    assert ["bears on less" in one for one in told] == [True] * (over and face == "bottom")


@pytest.mark.parametrize(("second", "words_"), [
    (42.99, "same place"), (43.0, "less than the depth"), (54.99, "less than the depth"), (55.0, ""),
])  # fmt: skip
def test_cuts_beside_each_other(second: float, words_: str) -> None:
    """Holes of 3 in: side by side at 3 in they are two, a depth of 12 in clear of each other they are none."""
    found = regions([cut(at=second), cut(at=40.0)], 144.0, None, None)
    told = [check.notes[0] for check in cuts_together("B", found, TIMBER, [])]
    assert [words_ in one for one in told] == [True] * bool(words_)


def test_what_a_survey_found_lost_lies_beside_no_cut() -> None:
    """A stretch with less of a section is no cut: only what was cut is told to lie near another cut."""
    lost = Lost(at=40.0, length=10.0, width=0.5, depth=0.0, corners=(), why="decay")
    found = [Region(lost, 35.0, 45.0, None, "lost"), *regions([cut()], 144.0, None, None)]
    assert list(cuts_together("B", found, TIMBER, [])) == []
    assert len(list(cuts_together("B", [*found, *regions([cut(at=42.0)], 144.0, None, None)], TIMBER, []))) == 1


def group(width: float = 0.0, rows: tuple[float, ...] = (), at: float = 20.0) -> str:
    """What the rule says of all that one anchor group takes."""
    voids = tuple(Void(2.0 + 3.0 * i, high, 4.5) for i, high in enumerate(rows))
    taken = GroupCut("A", at, 4.0, width, voids, 4.0, 6.0)
    found = [Region(taken, at - 2.0, at + 2.0, None, taken.words)]
    return next(cut_checks("B", found, TIMBER, [(0.0, 144.0)], [], single_span=True, pulled=[()])).verdict


@pytest.mark.parametrize(("more", "verdict"), [
    ({"width": 1.5}, "passes"), ({"width": 1.51}, "refer"), ({"rows": (2.0, 2.0)}, "passes"),
    ({"rows": (2.0, 2.01)}, "refer"), ({"width": 1.5, "rows": (2.0, 2.0)}, "passes"),
    ({"width": 0.5, "at": 46.0}, "passes"), ({"width": 0.5, "at": 46.1}, "refer"),
    ({"width": 0.5, "at": 98.0}, "passes"), ({"width": 0.5, "at": 97.9}, "refer"),
    ({"width": 4.5}, "fails"), ({"rows": (6.0, 6.0)}, "fails"),
])  # fmt: skip
def test_what_an_anchor_group_may_take(more: Any, verdict: str) -> None:
    """Just a third of 4 1/2 in and of 12 in may go (judgment), outside the middle third of 12 ft."""
    assert group(**more) == verdict


@pytest.mark.parametrize(("more", "void"), [
    ({}, (4.5, 3.0, 6.0)), ({"from_bottom": None}, (4.5, 3.0, 6.0)), ({"from_bottom": 4.0}, (4.5, 3.0, 4.0)),
    ({"face": "top"}, (3.0, 12.0, 6.0)), ({"kind": "mortise", "width": 1.5}, (1.5, 3.0, 6.0)),
    ({"kind": "mortise", "width": 9.0}, (4.5, 3.0, 6.0)), ({"kind": "mortise"}, (4.5, 3.0, 6.0)),
])  # fmt: skip
def test_the_void_of_a_hole_or_mortise(more: Any, void: tuple[float, float, float]) -> None:
    """Through the breadth, or no broader than it; bored from the top all the way down; in the middle if not said."""
    assert void_of(TIMBER, cut(**more)) == void


@pytest.mark.parametrize(("more", "said"), [
    ({}, "3 in hole at 3 ft 4 in"), ({"length": 6.0}, "3 in hole, 6 in long at 3 ft 4 in"),
    ({"face": "top"}, "3 in hole bored from the top at 3 ft 4 in"),
    ({"kind": "notch", "length": 5.0, "face": "bottom"}, "notch 3 in deep, 5 in long on the bottom at 3 ft 4 in"),
    ({"kind": "mortise"}, "mortise 3 in deep on the side at 3 ft 4 in"),
])  # fmt: skip
def test_a_cut_in_words(more: Any, said: str) -> None:
    assert words(cut(**more)) == said


# ---- shear in short spans --------------------------------------------------------------------------------------------


@pytest.mark.parametrize(("long", "short"), [(11.0, ""), (12.0, ""), (12.5, "too short"), (29.5, "too short")])
def test_a_span_with_nothing_left_between_its_seats(long: float, short: str) -> None:
    """Seats of 5 1/2 in and two depths of 12 in are 29 1/2 in: up to there all of the load counts, w L/2."""
    meant = {"at": "as long as that", "length": "as long as that"}
    made = beam(supports=[seat("0 ft"), seat(f"{long} in")], carries=[floor(live="240 plf")], meant=meant)
    found = find(result_of(made, wood=known("6 in x 12 in")), "shear")
    assert step(found, "V") == pytest.approx((20 + 5 / 1728 * 72) * long / 2)
    assert any("too short to leave anything out" in note for note in found.notes) is bool(short)


# ---- what holds an edge ------------------------------------------------------------------------------------

THIN, SIZE = Section(1.5, 11.25, 1.5), read_size("2x12")


def lands(x: float, P: float = 100.0, kind: Any = "L") -> Applied:
    return Applied(kind, x, x, P=P, by="beam")


EVEN = [lands(36.0), lands(72.0), lands(108.0)]


@pytest.mark.parametrize(("loads", "end", "l_u", "row"), [
    ([*EVEN, lands(0.0)], 144.0, 36.0, 1.54), ([*EVEN, lands(144.0)], 144.0, 36.0, 1.54),
    ([*EVEN, *(lands(36.0 * k, 0.0, "S") for k in (1, 2, 3))], 144.0, 36.0, 1.54),
    ([*EVEN, *(lands(36.0 * k, 10.0, "S") for k in (1, 2))], 144.0, 36.0, None),
    ([lands(50.0)], 99.0, 50.0, 1.11), ([lands(50.1)], 99.0, 50.1, None),
])  # fmt: skip
def test_equal_loads_at_equal_gaps(loads: list[Applied], end: float, l_u: float, row: float | None) -> None:
    """What lands over a support divides no span, a load of nothing is as even as any; 50 and 49 in differ by 2 %."""
    stick = Beam.model_validate(beam(top_held="at loads"))
    found = bracing_of(stick, SIZE, THIN, Span(0.0, end, False), loads, simple=True, top=True)
    assert found.l_u == pytest.approx(l_u) and (found.row.below_7 if found.row else None) == row


# ---- ends ------------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(("end", "at", "asks"), [(0, "0 ft", True), (1, "12 ft", True), (1, "0 ft", False)])
def test_a_notched_end_in_a_hanger_at_either_end(end: int, at: str, asks: bool) -> None:
    """A notch as long as 5 in from the end of the piece, which is the middle of its seat."""
    ends: list[dict[str, Any]] = [seat("0 ft"), seat("12 ft")]
    ends[end]["holds"] = "hung"
    notch = {"kind": "notch", "at": at, "depth": "1 in", "length": "5 in", "face": "bottom"}
    result = result_of(beam(supports=ends, cuts=[notch]), wood=known("6 in x 12 in"))
    assert bool([one for one in result.checks if one.id == "beam.hung_notch"]) is asks


def test_own_weight_just_as_heavy_as_the_dead_load_may_be_within_it() -> None:
    """6 lb/ft3 of half a square foot are 3 plf: whether the 3 plf hold them is asked."""
    wood = known("6 in x 12 in") | {"density": "6 pcf"}
    for plf, asks in ((3.0, True), (2.99, False)):
        result = result_of(beam(carries=[floor(dead=f"{plf} plf", live="40 plf")]), wood=wood)
        found = [one for one in result.checks if one.id == "beam.own_weight" and one.questions]
        assert bool(found) is asks


def test_a_beam_alone_or_a_row_by_the_widths_of_its_strips() -> None:
    """Of several widths the two least are offered as spacings."""
    above: Any = SimpleNamespace(name="A", carries=[SimpleNamespace(width=w) for w in (30.0, 16.0, None, 24.0, 16.0)])
    (question,) = _one_of_a_row("B", above).questions
    assert [one.says for one in question.answers] == ["it stands alone", "one every 16 in", "one every 2 ft"]
