"""What is put on rafters, ties, frames and beams, and where it comes down: each sum worked out by hand."""

from __future__ import annotations

import math
from types import SimpleNamespace
from typing import Any

import pytest

from beamcheck.analysis.beams.load_cases import Applied
from beamcheck.analysis.beams.member_loads import TransferredLoad
from beamcheck.checks.core.context import Structure
from beamcheck.checks.core.draft import Reactions, SupportForces
from beamcheck.checks.loadpath.frame_totals import _on_member, at_its_feet, put_on_frame
from beamcheck.checks.loadpath.roof_totals import put_on_rafters, put_on_tie, tie_length
from beamcheck.checks.loadpath.totals import Trace, _by_its_row, _landed, _moment, _statics
from beamcheck.model.loads import Load
from beamcheck.model.reading.reader import job_from_data
from beamcheck.model.stock import Stock

from ..frames.jobs import KING, king
from ..houses import Data, beam, post, seat
from .test_load_path import BOARD, LIGHT, PLY, followed
from .test_roles import STONE

ONE = math.sqrt(2.0)  # in along a slope of 45 degrees for 1 on plan
ROOT = 120.0 * ONE  # in: 10 ft of run at 12:12


def totalled(pairs: Any) -> dict[str, float]:
    found: dict[str, float] = {}
    for kind, force in pairs:
        found[kind] = found.get(kind, 0.0) + force
    return found


# 45 degrees, 10 ft of run, 2 ft apart: of 14.142 ft, or 10 ft on plan
ON_A_SLOPE: list[tuple[Data, dict[str, float], bool]] = [  # load, lbf of one rafter, whether a pair has it twice
    ({"dead": "10 psf"}, {"D": 10 * 2 * 10 * ONE}, True), ({"dead": "10 psf", "measured": "plan"}, {"D": 200.0}, True),
    ({"snow": "20 psf", "live": "5 psf"}, {"S": 400.0, "L": 100.0}, True),
    ({"roof_live": "20 psf"}, {"Lr": 400.0}, True), ({"wind": "10 psf"}, {"W": 200.0}, True),  # cos 45 of 282.8 lb
    ({"dead": "12 plf", "from": "2 ft", "to": "5 ft"}, {"D": 36.0}, True),
    ({"live": "12 plf", "from": "2 ft", "to": "5 ft"}, {"L": 36.0 / ONE}, True),
    ({"snow": "12 psf", "width": "3 ft", "to": "5 ft"}, {"S": 12 * 3 * 5 / ONE}, True),
    ({"dead": "12 plf", "to": "99 ft"}, {"D": 120.0 * ONE}, True),
    ({"dead": "40 lb", "at": "5 ft"}, {"D": 40.0}, True), ({"wind": "100 lb", "at": "5 ft"}, {"W": 100.0 / ONE}, True),
    ({"live": "300 lb", "moves": True}, {"L": 300.0}, False),
    ({"dead": "40 lb", "at": f"{ROOT} in"}, {"D": 40.0}, False),  # at the ridge there is one for both
    ({"dead": "40 lb", "at": f"{ROOT - 0.01} in"}, {"D": 40.0}, True),
]  # fmt: skip


@pytest.mark.parametrize(("load", "one", "twice"), ON_A_SLOPE)
def test_the_upright_part_of_what_lies_on_rafters(load: Data, one: dict[str, float], twice: bool) -> None:
    made: Any = SimpleNamespace(
        carries=[Load(what="x", **load)], slope=45.0, run=120.0, spacing=24.0, wall=SimpleNamespace(at=0.0)
    )
    assert totalled(put_on_rafters(made, 1.0)) == pytest.approx(one, rel=1e-9)
    pair = {kind: force * (2.0 if twice else 1.0) for kind, force in one.items()}
    assert totalled(put_on_rafters(made, 2.0)) == pytest.approx(pair, rel=1e-9)


@pytest.mark.parametrize(("load", "force"), [
    ({"dead": "40 lb", "at": "5 ft"}, {"D": 40.0}), ({"dead": "6 plf", "live": "10 plf"}, {"D": 48.0, "L": 80.0}),
    ({"dead": "6 plf", "from": "1 ft", "to": "3 ft"}, {"D": 12.0}), ({"live": "10 plf", "to": "9 ft"}, {"L": 80.0}),
    ({"live": "10 psf", "from": "5 ft"}, {"L": 60.0}), ({"live": "10 psf", "width": "18 in"}, {"L": 120.0}),
    ({"dead": "6 plf", "from": "9 ft", "to": "10 ft"}, {"D": 0.0}),
])  # fmt: skip
def test_what_lies_on_a_tie(load: Data, force: dict[str, float]) -> None:
    """8 ft of it, the rafters 2 ft apart."""
    made: Any = SimpleNamespace(carries=[Load(what="x", **load)])
    assert totalled(put_on_tie(SimpleNamespace(spacing=24.0), made, 96.0)) == pytest.approx(force)  # type: ignore[arg-type]


def test_the_length_of_a_tie_between_its_rafters() -> None:
    """At 6:12 each 12 in up take 24 in off either side of 16 ft."""
    roof: Any = SimpleNamespace(run=96.0, slope=math.degrees(math.atan(0.5)))
    assert tie_length(roof, SimpleNamespace(height=12.0)) == pytest.approx(192.0 - 48.0)  # type: ignore[arg-type]
    assert tie_length(roof, SimpleNamespace(height=0.0)) == 192.0  # type: ignore[arg-type]


def on_a_member(load: Data, slope: float, spacing: float | None = 24.0) -> dict[str, float]:
    made: Any = SimpleNamespace(carries=[Load(what="x", **load)], slope=slope, length=ROOT, spacing=spacing)
    return totalled(_on_member(made))


@pytest.mark.parametrize(("load", "one", "twice"), [each for each in ON_A_SLOPE if not each[0].get("moves")])
def test_members_of_frames_carry_as_rafters_do(load: Data, one: dict[str, float], twice: bool) -> None:
    assert on_a_member(load, 45.0) == pytest.approx(one, rel=1e-9)


def test_on_a_level_member_nothing_is_less_by_its_slope() -> None:
    whole = 10 * 2 * 10 * ONE
    for load in ({"wind": "10 psf"}, {"snow": "10 psf"}, {"dead": "10 psf", "measured": "plan"}, {"dead": "10 psf"}):
        assert list(on_a_member(load, 0.0).values()) == pytest.approx([whole])
    assert on_a_member({"wind": "100 lb", "at": "1 ft"}, 0.0) == {"W": 100.0}
    assert on_a_member({"dead": "5 psf"}, 0.0, None) == {"D": 0.0}  # of no width
    assert on_a_member({"dead": "5 plf", "from": "99 ft", "to": "100 ft"}, 0.0) == {"D": 0.0}


@pytest.mark.parametrize("weighed", [[True], [False, True], [False], []])
def test_a_frame_weighs_its_wood_but_where_its_loads_say_that_they_hold_it(weighed: list[bool]) -> None:
    """6x8 and 6x10 of 5 pcf: the king post of 8 ft; 100 and 30 lb stand on a point of it."""
    frame = job_from_data(king(carries=[{"what": "bell", "at": "ridge", "dead": "100 lb", "live": "30 lb"}])).frame[0]
    loads = tuple(Load.model_construct(what="x", dead=(2.0, "line"), dead_includes_own_weight=one) for one in weighed)
    stick = next(one for one in frame.sticks if one.stick == "king post").model_copy(update={"carries": loads})
    made: Any = SimpleNamespace(sticks=(stick,), carries=frame.carries)
    structure = Structure({one["name"]: Stock(**one) for one in KING["stock"]}, {})
    woods: Any = {"6x8": SimpleNamespace(density=PLY)}
    own = 0.0 if any(weighed) else PLY * 5.5 * 7.5 * 96
    found = totalled(put_on_frame(made, woods, structure))
    assert found == pytest.approx({"D": own + 2.0 * 96 * len(weighed) + 100.0, "L": 30.0})


def test_the_feet_of_a_frame_add_wind_up_as_it_stands() -> None:
    rows = (SupportForces("w", {"D": (90.0, 80.0), "W": (50.0, -70.0)}, 0.0, 0.0),)
    assert at_its_feet(Reactions("F", rows)) == [{"D": 90.0, "W": -20.0}]


# ---- on beams --------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(("load", "moment"), [
    (Applied("D", 30.0, 30.0, P=7.0), 210.0),
    (Applied("D", 20.0, 50.0, w_start=2.0, w_end=2.0), 60.0 * 35.0),
    (Applied("D", 20.0, 50.0, w_end=2.0), 30.0 * 40.0),  # a triangle: two thirds of the way out
    (Applied("D", 20.0, 50.0, w_start=2.0), 30.0 * 30.0),
])  # fmt: skip
def test_the_moment_of_a_load_about_the_left_end(load: Applied, moment: float) -> None:
    assert _moment(load) == pytest.approx(moment)


@pytest.mark.parametrize(("more", "places"), [
    ({}, [(60.0, 60.0)]), ({"at": 50.0}, [(50.0, 50.0)]), ({"at": 125.0}, [(120.0, 120.0)]),
    ({"spread": 24.0}, [(0.0, 120.0)]), ({"spread": 24.0, "row": (36.0, 84.0)}, [(24.0, 96.0)]),
    ({"spread": 24.0, "row": (6.0, 119.0)}, [(0.0, 120.0)]),
    ({"spread": 40.0, "row": (10.0, 90.0), "single": True}, [(10.0, 10.0), (50.0, 50.0), (90.0, 90.0)]),
])  # fmt: skip
def test_where_another_piece_lands_on_a_beam(more: Any, places: list[tuple[float, float]]) -> None:
    """In the middle, at its place, along the row by half a spacing to both sides, or each by itself."""
    found = list(_landed(TransferredLoad("J", {}, **more), {"D": 48.0}, 120.0))
    assert [(one.start, one.end) for one in found] == places
    assert all((one.kind, one.from_piece) == ("D", True) for one in found)
    even = "spread" in more and "single" not in more
    assert all((one.P, one.w_start, one.w_end) == ((0.0, 2.0, 2.0) if even else (48.0, 0.0, 0.0)) for one in found)


@pytest.mark.parametrize(("spacing", "last", "count", "middle"), [("24 in", "7 ft", 3, 5.0), ("48 in", "7 ft", 2, 5.0)])
def test_a_row_is_counted_where_it_lands(spacing: str, last: str, count: int, middle: float) -> None:
    """Three joists from 3 to 7 ft, two at 3 and 7 ft that stand too few for an even load, on a girder of 12 ft."""
    load = [{"what": "floor", "dead": "20 plf"}]
    end = {**seat("10 ft", "G"), "lands_from": "3 ft", "lands_to": last}
    joist = beam(seat("0 ft", "stone"), end, name="J", stock="board", spacing=spacing, carries=load)
    girder = beam(seat("0 ft", "stone"), seat("12 ft", "stone"), name="G", stock="light", carries=[])
    found = followed(beam=[joist, girder], stock=[LIGHT, BOARD], existing=[STONE])
    one, own = 200 + 120 * 1.5 * 9.25 * PLY, 144 * 5.5 * 11.5 * PLY
    assert found.trace.applied["D"] == pytest.approx(one * (1 + (count - 1) / 2) + own, rel=1e-9)
    ends = [step.force["D"] for step in found.trace.steps if step.above == "G"]
    row = one / 2 * count
    assert ends == pytest.approx([row * (12 - middle) / 12 + own / 2, row * middle / 12 + own / 2], rel=1e-9)
    for step in found.trace.steps:  # and so do the checks have it
        assert step.force["D"] == pytest.approx(found.rows[step.above, step.index].by_kind["D"][0], rel=1e-6)


def test_two_supports_by_moments_and_three_by_stiffness() -> None:
    """1,200 lb at 8 ft of supports at 2 and 10 ft: a quarter and three quarters. On three supports with a cut as the
    checks of the beam have it, which look at its bending both ways."""
    stove = [{"what": "stove", "dead": "1200 lb", "at": "8 ft"}]
    two = beam(seat("2 ft", "stone"), seat("10 ft", "stone"), name="B", length="12 ft", stock="light", carries=stove)
    half = 72 * 5.5 * 11.5 * PLY  # of its weight
    found = followed(beam=[two], stock=[LIGHT], existing=[STONE])
    assert [step.force["D"] for step in found.trace.steps] == pytest.approx([300 + half, 900 + half], rel=1e-9)
    cut = [{"kind": "notch", "at": "2 ft", "length": "2 ft", "depth": "4 in", "face": "bottom"}]
    three = beam(seat("0 ft", "stone"), seat("6 ft", "stone"), seat("12 ft", "stone"), stock="light", carries=stove,
                 cuts=cut)  # fmt: skip
    found = followed(beam=[three], stock=[LIGHT], existing=[STONE])
    for step in found.trace.steps:
        assert step.force["D"] == pytest.approx(found.rows["B", step.index].by_kind["D"][0], rel=0.03)


@pytest.mark.parametrize(("supports", "shares"), [
    ([seat("0 ft", "stone", holds="fixed")], [1.0]),
    ([seat("0 ft", "stone", holds="fixed"), seat("12 ft", "stone")], [5 / 8, 3 / 8]),
    ([seat("0 ft", "stone", holds="fixed"), seat("12 ft", "stone", holds="fixed")], [0.5, 0.5]),
])  # fmt: skip
def test_an_end_that_is_held_fast(supports: list[Data], shares: list[float]) -> None:
    """An even load of 12 ft, by the tables of clamped beams, in which shear changes little."""
    one = beam(*supports, length="12 ft", stock="light", carries=[{"what": "shelf", "dead": "50 plf"}])
    found = followed(beam=[one], stock=[LIGHT], existing=[STONE])
    whole = 600 + 144 * 5.5 * 11.5 * PLY
    assert [step.force["D"] for step in found.trace.steps] == pytest.approx([whole * s for s in shares], rel=0.02)


def test_wood_that_is_not_known_weighs_as_in_the_checks() -> None:
    found = followed(post=[post(stock="old", carries=[])])
    assert found.trace.applied["D"] == pytest.approx(found.rows["P", 0].by_kind["D"][0], rel=1e-9)


# ---- what a bracket or trim adds, and combinations -------------------------------------------------------------------


@pytest.mark.parametrize(("row", "given", "own"), [
    ({"D": (90.0, 80.0)}, {"D": (60.0, 50.0)}, {"D": 30.0}), ({"D": (90.0, 80.0)}, {}, {"D": 90.0}),
    ({"D": (9.0, 9.0), "L": (70.0, -20.0)}, {"L": (70.0, -20.0)}, {"D": 9.0, "L": 0.0}),
    ({"D": (9.0, 9.0), "W": (80.0, -30.0)}, {"W": (50.0, 30.0)}, {"D": 9.0, "W": 0.0}),
    ({"D": (9.0, 9.0), "W": (0.0, -50.0)}, {"W": (-20.0, -50.0)}, {"D": 9.0, "W": 0.0}),
    ({"D": (9.0, 9.0)}, {"S": (5.0, 0.0)}, {"D": 9.0, "S": -5.0}),
    ({"D": (-30.0, -40.0)}, {"D": (-50.0, -60.0)}, {"D": 20.0}),
])  # fmt: skip
def test_what_a_bracket_adds_of_its_own(row: Any, given: Any, own: dict[str, float]) -> None:
    """Its row less what rests on it; of wind what presses and what lifts are both there."""
    assert _by_its_row(row, [(TransferredLoad("B", given), {})]) == pytest.approx(own)


@pytest.mark.parametrize(("given", "lost"), [(1_000_000.5, False), (1_000_002.0, True), (900_000.0, False)])
def test_what_hands_on_less_than_rests_on_it_is_lost(given: float, lost: bool) -> None:
    """But for rounding: a millionth of what it hands on."""
    handed = Reactions("K", (SupportForces("P", {"D": (1e6, 1e6)}, 0.0, 0.0),))
    brought: Any = [(TransferredLoad("B", {"D": (given, given)}), {"D": given})]
    piece: Any = SimpleNamespace(name="K")
    if lost:
        with pytest.raises(Exception, match="K hands on less than what rests on it"):
            _statics(piece, handed, brought, Structure({}, {}))
        return
    own, (force,) = _statics(piece, handed, brought, Structure({}, {}))
    assert own["D"] == pytest.approx(1e6 - given) and force["D"] == pytest.approx(1e6)


def test_the_combinations_that_differ_on_a_house() -> None:
    """ASCE 7-16 2.4.1 (memory) of dead and live load alone."""
    made = Trace({"D": 100.0, "L": 200.0, "S": 0.0}, {"D": 90.0}, ()).totals()
    assert {name: ends for name, *ends in made} == {
        "D": [100.0, 90.0], "D + L": [300.0, 90.0], "D + 0.75 L": [250.0, 90.0], "0.6 D": [60.0, 54.0],
    }  # fmt: skip
    assert [one[0] for one in Trace({}, {"L": 5.0}, ()).totals()] == ["L", "0.75 L"]
