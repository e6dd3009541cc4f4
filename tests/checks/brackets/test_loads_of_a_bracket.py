"""Loads on a bracket by hand: what stands beyond a cut, strips of what is uneven, what bears where, what lifts."""

from __future__ import annotations

from typing import Any

import numpy as np
import pytest

from beamcheck.analysis.beams.load_cases import Applied
from beamcheck.checks.brackets.bearing import bearing_under_loads, hung_on_it
from beamcheck.checks.brackets.families.registry import family_of
from beamcheck.checks.brackets.loads import BracketLoads, bracket_loads
from beamcheck.checks.brackets.under_beam import with_prop
from beamcheck.checks.core.result import Check
from beamcheck.model.brackets.near import Near

from .brackets import SOLID, Data, bracket, structure, wood
from .by_hand import F_C, F_PERP, at_angle

OUT = 10.0
NEAR = Near.model_validate({"beam": "B", "at": "5 ft", "gap": "0 in", "closing": []})


def made(*more: Applied, weight: float = 0.0, **piece: Any) -> BracketLoads:
    strips = [(0.0, OUT, weight)] if weight else []
    return bracket_loads(bracket(SOLID, **piece), structure(), strips, more=more)


def line(start: float, end: float, first: float, last: float, kind: str = "L", **more: Any) -> Applied:
    return Applied(kind, start, end, w_start=first, w_end=last, what="row of books", **more)


def most(loads: BracketLoads, x: float) -> tuple[float, float]:
    """Under the combination with all of it (there is one kind of load)."""
    force, moment = loads.beyond(x)
    return float(force[np.argmax(np.abs(loads.F))]), float(moment[np.argmax(np.abs(loads.F))])


@pytest.mark.parametrize("x", [0.0, 1.0, 2.0, 3.5, 8.0, 9.0])
def test_beyond_a_cut_of_an_uneven_line_load(x: float) -> None:
    """From 3 lb/in at 2 in to 9 lb/in at 8 in, summed over thin slices."""
    loads = made(line(2.0, 8.0, 3.0, 9.0))
    places = np.linspace(2.0, 8.0, 600_001)
    middle = 0.5 * (places[1:] + places[:-1])
    weight = (3.0 + (middle - 2.0)) * 6.0 / 600_000 * (middle >= x)
    assert most(loads, x) == pytest.approx((weight.sum(), (weight * (middle - x)).sum()), abs=1e-3)
    if x == 0.0:
        assert loads.x_L[np.argmax(loads.F)] == pytest.approx((weight * middle).sum() / weight.sum())


@pytest.mark.parametrize(("x", "force"), [(4.0, 50.0), (4.01, 0.0)])
def test_a_point_load_stands_beyond_a_cut_up_to_its_own_place(x: float, force: float) -> None:
    loads = made(Applied("L", 4.0, 4.0, P=50.0))
    assert most(loads, x) == pytest.approx((force, 0.0), abs=1e-9)
    assert most(loads, 1.0) == pytest.approx((50.0, 150.0))


@pytest.mark.parametrize(
    ("at", "bearing", "start", "end"),
    [(5.0, 2.0, 4.0, 6.0), (5.0, None, 4.875, 5.125), (0.5, 2.0, 0.0, 2.0), (9.5, 2.0, 9.0, 10.0),
     (10.0, 2.0, 9.75, 10.0), (9.0, 2.0, 8.0, 10.0), (5.0, 30.0, 0.0, 10.0)],
)  # fmt: skip
def test_a_point_load_as_a_strip(at: float, bearing: float | None, start: float, end: float) -> None:
    """As long as it bears, a quarter of an inch at least, and never beyond the nose: cut short there, not moved in."""
    loads = made(Applied("L", at, at, P=50.0, bearing=bearing))
    (strip,) = loads.strips(int(np.argmax(loads.F)))
    assert (strip.start, strip.end, strip.force) == pytest.approx((start, end, 50.0)) and strip.stiff and not strip.own


def test_an_uneven_line_load_as_eight_strips_and_an_even_one_as_one() -> None:
    loads = made(line(2.0, 10.0, 3.0, 11.0), line(1.0, 5.0, 2.0, 2.0))
    strips = loads.strips(int(np.argmax(loads.F)))
    assert [one.start for one in strips] == pytest.approx([*(2.0 + i for i in range(8)), 1.0])
    assert [one.end for one in strips] == pytest.approx([*(3.0 + i for i in range(8)), 5.0])
    assert [one.force for one in strips] == pytest.approx([*(3.5 + i for i in range(8)), 8.0])


def test_own_weight_is_told_apart() -> None:
    loads = made(weight=6.0)
    (strip,) = loads.strips(int(np.argmax(loads.F)))
    assert strip.own and strip.force == pytest.approx(6.0) and loads.only_own_weight
    assert not made(Applied("L", 4.0, 4.0, P=50.0), weight=6.0).only_own_weight
    assert made(weight=6.0, accidental="200 lb", accidental_from="owner").F.max() == pytest.approx(206.0)
    piece = bracket(SOLID, accidental="200 lb", accidental_from="owner")
    without = bracket_loads(piece, structure(), [(0.0, OUT, 6.0)], accidental=False)
    assert without.F.max() == pytest.approx(6.0)


@pytest.mark.parametrize(
    ("loads", "lifts"),
    [
        ([Applied("W", 0.5, 0.5, P=-0.8)], False), ([Applied("W", 0.5, 0.5, P=-0.85)], True),  # 0.6 W: 1/2 lb
        ([Applied("W", 5.0, 5.0, P=-0.16)], False), ([Applied("W", 5.0, 5.0, P=-0.17)], True),  # and 1/2 lb in
        ([Applied("D", 2.0, 2.0, P=50.0), Applied("W", 9.0, 9.0, P=-30.0)], True),  # the nose is lifted
        ([Applied("D", 9.0, 9.0, P=50.0), Applied("W", 2.0, 2.0, P=-30.0)], False),  # what presses is farther out
        ([Applied("D", 5.0, 5.0, P=50.0)], False),
        ([Applied("D", 0.5, 0.5, P=-0.5)], False), ([Applied("D", 2.0, 2.0, P=-0.25)], False),  # just half a pound, in
    ],
)  # fmt: skip
def test_what_lifts_it(loads: list[Applied], lifts: bool) -> None:
    assert made(*loads).lifts is lifts


def test_what_a_ruling_has_to_cover() -> None:
    assert made(Applied("D", 5.0, 5.0, P=50.0)).most == {"down": pytest.approx(50.0)}
    assert made(Applied("W", 5.0, 5.0, P=-100.0)).most == {"down": 0.0, "up": pytest.approx(60.0)}
    assert made(Applied("W", 5.0, 5.0, P=-0.8)).most == made(Applied("D", 5.0, 5.0, P=-0.5)).most == {"down": 0.0}
    assert made(Applied("D", 5.0, 5.0, P=0.3)).most == {"down": pytest.approx(0.3)}


def test_where_nothing_acts_the_resultant_is_at_the_wall_and_kinds_are_told_apart() -> None:
    assert not made(Applied("D", 5.0, 5.0, P=1e-12)).x_L.any()
    both = made(Applied("D", 4.0, 4.0, P=20.0), Applied("L", 8.0, 8.0, P=50.0))
    assert {kind: most for kind, (most, _) in both.by_kind().items()} == pytest.approx({"D": 20.0, "L": 50.0})


# ---- bearing on the top edge ---------------------------------------------------------------------------------------


def bears(*loads: Applied, grain: float = 90.0) -> list[Check]:
    return list(bearing_under_loads(bracket(SOLID), made(*loads), wood(structure()), thickness=3.5, grain=grain))


def seat(at: float, P: float, bearing: float | None, kind: str = "L", what: str = "shelf", **more: Any) -> Applied:
    return Applied(kind, at, at, P=P, bearing=bearing, what=what, **more)


@pytest.mark.parametrize("grain", [0.0, 30.0, 60.0, 90.0, 120.0, 180.0])
def test_bearing_by_the_slope_of_the_grain(grain: float) -> None:
    """100 lb on 3 1/2 x 2 in; Hankinson between the grain and the load, at most 3/4 of F_c* without a plate."""
    (found,) = bears(seat(5.0, 100.0, 2.0), grain=grain)
    slope = min(abs(90.0 - grain), 180.0 - abs(90.0 - grain))
    assert (found.demand, found.capacity) == pytest.approx((100.0 / 7.0, min(at_angle(slope), 0.75 * F_C)))


@pytest.mark.parametrize(
    ("at", "length"), [(5.0, 2.0), (0.5, 1.5), (9.5, 1.5), (1.0, 2.0), (9.0, 2.0)]
)  # fmt: skip
def test_a_seat_ends_at_wall_and_nose(at: float, length: float) -> None:
    (found,) = bears(seat(at, 100.0, 2.0), grain=0.0)
    assert (found.demand, found.capacity) == pytest.approx((100.0 / (3.5 * length), F_PERP))


def test_seats_that_overlap_press_there_together() -> None:
    """100 lb over 4 to 6 in and 60 lb over 5 to 9 in: between 5 and 6 in 50 + 15 lb/in, over the shorter of both."""
    (found,) = bears(seat(5.0, 100.0, 2.0), seat(7.0, 60.0, 4.0, what="clock"), grain=0.0)
    assert found.what == "bearing of shelf, clock on the top edge"
    assert found.demand == pytest.approx((50.0 + 15.0) / 3.5)
    apart = bears(seat(2.0, 100.0, 2.0), seat(7.0, 60.0, 4.0, what="clock"), grain=0.0)
    assert [one.demand for one in apart] == pytest.approx([100.0 / 7.0, 60.0 / 14.0])
    spread = bears(seat(5.0, 100.0, 2.0), line(2.0, 10.0, 3.0, 11.0), grain=0.0)  # of what is uneven the most
    assert [one.demand for one in spread] == pytest.approx([(50.0 + 11.0) / 3.5])


def test_what_does_not_press_on_the_top_edge_is_left_out() -> None:
    assert bears(seat(5.0, 100.0, 2.0, applied="side"), seat(5.0, 100.0, 2.0, applied="below")) == []
    assert bears(seat(5.0, -100.0, 2.0, kind="W")) == []
    assert bears(seat(5.0, 100.0, 2.0, what="somebody who hangs on it")) == []
    (asked,) = bears(seat(5.0, 100.0, None))
    assert asked.verdict == "refer" and "`bearing`" in asked.notes[0]
    both = bears(seat(5.0, 100.0, None), seat(2.0, 100.0, 2.0), grain=0.0)
    assert [one.verdict for one in both] == ["refer", "passes"]


def hung(**load: Any) -> list[str]:
    piece = bracket(SOLID)
    return [one.id for one in hung_on_it(piece, made(seat(5.0, 100.0, 2.0, **load)))]


def test_what_hangs_on_it_is_for_an_engineer() -> None:
    assert hung(applied="below") == ["bracket.hung_below"] and hung(applied="side") == ["bracket.hung_on_side"]
    assert hung(applied="side", from_piece=True) == [] and hung() == [] and hung(applied="unknown") == []
    (found,) = hung_on_it(
        bracket(SOLID), made(seat(5.0, 100.0, 2.0, applied="below"), seat(6.0, -30.0, 2.0, applied="below"))
    )
    assert dict(found.questions[0].forces)["down"] == pytest.approx(100.0)  # what lifts takes nothing off


FIELDS: list[Data] = [
    {"what": "clock", "dead": "20 lb", "at": "4 in", "applied": "top"},
    {"what": "shelf", "live": "20 lb", "at": "8 in"},
]  # fmt: skip


def test_the_field_that_says_on_what_length_it_bears_is_that_of_its_own_entry() -> None:
    piece = bracket(SOLID, carries=FIELDS)
    loads = bracket_loads(piece, structure(), [])
    found = bearing_under_loads(piece, loads, wood(structure()), thickness=3.5, grain=90.0)
    assert [one.questions[0].field for one in found] == ["bracket.K.carries.1.bearing", "bracket.K.carries.2.bearing"]


def test_of_two_loads_of_one_name_each_is_asked_for_by_itself() -> None:
    """The answer to the first does not answer the second, and the second is asked for at its own entry."""
    same: list[Data] = [{"what": "shelf", "live": "20 lb", "at": at, "applied": "top"} for at in ("3 in", "8 in")]

    def asked(carries: list[Data]) -> list[tuple[str, str]]:
        piece = bracket(SOLID, carries=carries)
        loads = bracket_loads(piece, structure(), [])
        found = bearing_under_loads(piece, loads, wood(structure()), thickness=3.5, grain=90.0)
        return [(one.id, one.field) for check in found for one in check.questions]

    first, second = asked(same)
    assert first[0] != second[0]
    assert asked([{**same[0], "bearing": "2 in"}, same[1]]) == [second]
    assert [field for _, field in (first, second)] == ["bracket.K.carries.1.bearing", "bracket.K.carries.2.bearing"]


def test_on_what_length_a_beam_above_would_bear_no_field_of_its_loads_says() -> None:
    """It is no entry of the bracket: the question is for whoever rules on it."""
    under = with_prop(family_of(bracket(SOLID)), 50.0, NEAR, structure(), accidental=False)
    (found,) = bearing_under_loads(bracket(SOLID), under, wood(structure()), thickness=3.5, grain=90.0)
    assert [one.field for one in found.questions] == ["ruling"]


def test_no_load_presses_and_a_seat_beyond_the_nose_is_none() -> None:
    assert bears(seat(5.0, 0.0, None)) == []
    beyond = seat(11.0, 20.0, 2.0)
    assert bears(beyond, grain=0.0) == []
    touching = bears(seat(5.0, 100.0, 2.0), seat(7.0, 60.0, 2.0, what="clock"), grain=0.0)
    assert [one.demand for one in touching] == pytest.approx([100.0 / 7.0, 60.0 / 7.0])  # they only touch
    assert [one.where for one in touching] == ["5 in", "7 in"]
