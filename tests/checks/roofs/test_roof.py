"""Rafters and ties as jobs: the published rafter, seats and birdsmouths by hand, properties, what is referred."""

from __future__ import annotations

import math
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from beamcheck.checks.roofs.member import sideways_length
from beamcheck.model.roofs import Tie

from ..houses import (
    TWO_BY_TEN,
    UNKNOWN_JOIST,
    WALL,
    beam,
    check,
    checked,
    given_stock,
    piece,
    rafter,
    ratios,
    said,
    seat,
    tie,
)

quick = settings(max_examples=10, deadline=None)
RIDGE = {"name": "ridge", "what": "ridge beam", "confirmed_by": "invented sheet S-1, engineer"}
LIGHT = given_stock('1 1/2" x 9 1/4"')
ON_BEAM = {"ridge": "beam", "ridge_on": "ridge"}
SLOPE = math.atan(0.5)  # 6:12


def pair(**more: Any) -> Any:
    """A pair with a tie at its feet."""
    given_tie = tie(**more.pop("tie", {}))
    return checked(rafter=[rafter(tie="T", **more)], tie=[given_tie], stock=[LIGHT])


def on_beam(**more: Any) -> Any:
    return checked(rafter=[rafter(**ON_BEAM, **more)], existing=[RIDGE], stock=[LIGHT])


class TestPublishedRafter:
    """W1 of the reference set, a lesson (read): 2x12 No. 2 at 16 in, 5:12, run 16 ft, D 15 psf, S 64 psf."""

    def result(self) -> Any:
        stock = {"name": "2x12", "species": "Douglas Fir-Larch", "grade": "No.2", "size": "2x12", "moisture": "dry",
                 "grade_from": "stamp", "evidence": "invented stamp, mill 12", "density": "5 pcf"}  # fmt: skip
        loads = [{"what": "roof", "dead": "15 psf", "measured": "slope"}, {"what": "unbalanced snow", "snow": "64 psf"}]
        one = rafter(stock="2x12", run="16 ft", slope="5:12", carries=loads, **ON_BEAM)
        return checked(rafter=[one], existing=[RIDGE], stock=[stock])

    def test_stresses_and_ratio(self) -> None:
        """1310 > 1190 psi, ratio 1.10. Own weight is at its lightest here: 5 pcf is 0.6 plf against 92."""
        found = check(self.result(), "R", "bending")
        assert found.capacity == pytest.approx(1190.25)
        assert found.demand == pytest.approx(1305, rel=0.01)
        assert found.ratio == pytest.approx(1.10, abs=0.01)

    def test_a_plain_no(self) -> None:
        result = self.result()
        assert result.verdict == piece(result, "R").verdict == "fails"
        assert any(reason.startswith("R: ") and "of what is allowed under D + S" in reason for reason in result.reasons)


class TestTie:
    def test_tension_by_the_published_thrust(self) -> None:
        """H = (W/2)(run/rise), loads.md 6 (read): 30 psf, 8 ft run, 16 in apart; own weight is added by hand."""
        result = pair(carries=[{"what": "snow", "snow": "30 psf"}], stock="given", tie={"stock": "given"})
        W = 30 * 8 * 16 / 12
        stick = 5 * 1.5 * 9.25 / 144  # plf
        H = (W + stick * 8 / math.cos(SLOPE)) / 2 * 2
        assert check(result, "T", "tension").demand * 1.5 * 9.25 == pytest.approx(H, rel=1e-9)

    def test_its_joints_ask_for_an_anchor(self) -> None:
        result = pair(tie={"end_connection": "two bolts"})
        assert "must pass through each end (two bolts); the joint is not described" in said(result, "T", "refer")
        assert check(result, "T", "joints at its ends").questions[0].field == "tie.T.ends_held_by"

    def test_ends_upright_is_an_answer(self) -> None:
        """NDS 2018 4.4.1.2: not said refers, held passes, not held fails."""
        verdicts = [check(pair(tie={} if said is None else {"ends_upright": said}), "T", "ends held upright").verdict
                    for said in (None, True, False)]  # fmt: skip
        assert verdicts == ["refer", "passes", "fails"]

    def test_a_ceiling_joist_sits_on_the_plate(self) -> None:
        """Its weight does not go through the nails: statics of a simple span, w L/2 on 1 1/2 in of seat."""
        loads = [{"what": "ceiling", "dead": "5 psf", "live": "20 psf", "width": "16 in"}]
        result = pair(tie={"ends_rest_on": "wall", "carries": loads, "stock": "given"})
        found = check(result, "T", "bearing on wall")
        w = 25 * 16 / 12 + 5 * 1.5 * 9.25 / 144
        assert found.demand == pytest.approx(w * 16 / 2 / (1.5 * 1.5), rel=1e-6)

    def test_a_tie_shares_its_load_like_any_joist(self) -> None:
        """NDS 2018 4.3.9: C_r 1.15 of three members joined, at most 24 in apart."""
        row = {"members": 3, "spacing": "16 in", "shared_by": "boards above"}
        alone, shared = (check(pair(tie=one), "T", "bending").capacity for one in ({}, row))
        assert shared == pytest.approx(1.15 * alone)

    def test_a_tie_above_the_lower_third(self) -> None:
        result = pair(tie={"height": "1 ft 6 in"})
        assert "sits above the lower third" in said(result, "R", "refer")
        low = pair(tie={"height": "1 ft"})
        assert check(low, "R", "thrust").verdict == "passes"
        assert "the feet move" in check(low, "R", "thrust").notes[0]

    def test_a_higher_tie_bends_the_rafter_more(self) -> None:
        bent = [
            ratios(pair(tie={"height": h}), "R")["bending with compression"] for h in ("0 ft", "6 in", "1 ft", "2 ft")
        ]
        assert bent == sorted(bent)

    def test_ties_farther_apart_than_the_pairs(self) -> None:
        result = pair(tie={"spacing": "32 in"})
        assert "has a tie at each pair" in said(result, "T", "refer")

    def test_either_edge_holds_it_against_buckling(self) -> None:
        def length(top: object, bottom: object) -> float:
            return sideways_length(Tie.model_validate(tie(top_held=top, bottom_held=bottom)), 200.0)

        assert length("ends only", "full length") == length("full length", "ends only") == 0.0
        assert length("ends only", "ends only") == length("at loads", "ends only") == 200.0
        assert length("4 ft", "30 in") == 30.0


class TestPair:
    def test_neither_tie_nor_ridge_beam(self) -> None:
        """Two rafters that only lean on each other push the walls out: what keeps them is asked, with the force."""
        result = checked(rafter=[rafter()])
        found = check(result, "R", "thrust")
        assert found.verdict == "refer" and found.questions[0].forces["pushes out"] > 0.0
        assert "neither a tie nor a ridge beam" in said(result, "R", "refer")

    def test_thrust_said_to_be_resisted(self) -> None:
        result = checked(rafter=[rafter(thrust_resisted_by="buttress")])
        assert check(result, "R", "thrust").verdict == "refer"
        assert "'buttress', which is not checked here" in said(result, "R", "refer")

    def test_the_thrust_in_words(self) -> None:
        """Three-hinged arch, W = 30 psf x 8 ft x 16 in = 320 lb a side, H = (W/2)(run/rise) = 320 lb (derived)."""
        carries = [{"what": "snow", "snow": "30 psf"}]
        heavy = given_stock('1 1/2" x 9 1/4"', name="light")
        result = checked(rafter=[rafter(stock="light", carries=carries)], stock=[heavy])
        assert "each pair pushes its walls apart with 324 lb under D + S" in said(result, "R", "refer")

    def test_the_joint_at_the_ridge(self) -> None:
        """Load on one side alone: half of W/2 crosses the ridge (three-hinged arch, V = W/4, derived)."""
        load = [{"what": "snow", "snow": "30 psf"}]
        found = check(pair(carries=load), "R", "joint at the ridge")
        slid = 30 * 8 * 16 / 12 / 4
        assert found.verdict == "refer" and found.questions[0].field == "rafter.R.ridge_held_by"
        assert found.questions[0].forces["slides"] == pytest.approx(slid, rel=1e-6)
        assert check(pair(carries=load), "R", "bearing at the ridge").verdict == "passes"

    def test_a_ridge_with_next_to_nothing_asks_nobody(self) -> None:
        """Up to 20 lb and 1 % of what the wood bears."""
        light = [{"what": "roof", "dead": "10 psf", "roof_live": "4 psf"}]
        assert check(pair(carries=light), "R", "joint at the ridge").verdict == "passes"

    def test_the_opposite_foot_is_named_by_nobody(self) -> None:
        result = pair()
        assert "no piece of this job is checked for them" in said(result, "R", "refer")
        rows = [row for row in result.tables[0].rows if row[0] == "R"]
        assert [row[1] for row in rows] == ["wall, every 16 in", "the opposite wall, every 16 in"]
        assert rows[0][2:5] == rows[1][2:5]
        assert rows[1][5] == "not named: nobody answers for it"

    def test_the_opposite_foot_named(self) -> None:
        """The mirror image comes down there: the same forces, and that wall has to take them."""
        weak = {**WALL, "name": "weak", "takes": "10 lb"}
        result = checked(rafter=[rafter(tie="T", other_wall="weak")], tie=[tie()], existing=[weak], stock=[LIGHT])
        assert check(result, "R", "the opposite rafter").verdict == "passes"
        assert check(result, "R", "what weak takes").verdict == "fails"
        rows = [row for row in result.tables[0].rows if row[0] == "R"]
        assert [row[1] for row in rows] == ["wall, every 16 in", "weak, every 16 in"]
        assert rows[0][2:5] == rows[1][2:5]


class TestSnow:
    """ASCE 7-16 7.6.1 and 7.7 (memory): one-sided snow follows from the loads, drifts from a look around."""

    def of(self, job: dict[str, Any], **more: Any) -> Any:
        data = {"title": "Test (invented)", "standard": "NDS 2018", "loads": "ASCE 7-16", "invented": True, **job}
        return checked(rafter=[rafter(**ON_BEAM, **more)], existing=[RIDGE], stock=[LIGHT], job=data)

    def test_the_lee_side_bears_the_ground_snow(self) -> None:
        snow = [{"what": "roof", "dead": "10 psf", "snow": "30 psf"}]
        for ground, verdict in (("30 psf", "passes"), ("20 psf", "passes"), ("31 psf", "refer")):
            found = check(self.of({"ground_snow": ground}, carries=snow), "R", "snow on one side")
            assert found.verdict == verdict
        asked = check(self.of({"ground_snow": "31 psf"}, carries=snow), "R", "snow on one side").questions
        assert asked[0].field == "rafter.R.carries.1.snow" and asked[0].answers[0].says == "31 psf"

    def test_steep_and_flat_roofs_and_single_slopes_have_none(self) -> None:
        """Over 7:12, under 1/2:12."""
        for more in ({"slope": "8:12"}, {"slope": "0.4:12"}, {"pair": False}):
            assert check(self.of({}, **more), "R", "snow on one side").verdict == "passes"

    def test_a_wide_roof_is_heaped_at_the_ridge(self) -> None:
        found = check(self.of({"ground_snow": "10 psf"}, run="20 ft 1 in"), "R", "snow on one side")
        assert found.verdict == "refer" and found.questions[0].field == "ruling"

    @pytest.mark.parametrize(("said", "verdict", "field"), [
        ({}, "refer", "job.snow.higher"),
        ({"snow": {"higher": "nothing"}}, "refer", "job.snow.by"),
        ({"snow": {"higher": "nothing", "by": "engineer, sheet S-2"}}, "passes", ""),
        ({"snow": {"higher": "counted", "by": "engineer, sheet S-2"}}, "passes", ""),
    ])  # fmt: skip
    def test_drift(self, said: dict[str, Any], verdict: str, field: str) -> None:
        found = check(self.of(said), "R", "drifted snow")
        assert found.verdict == verdict and [one.field for one in found.questions] == [field] * (field != "")


class TestSeat:
    def test_seat_slope_and_cut_close(self) -> None:
        """Geometry: 3 1/2 in at 8:12 is a cut of 3.5 sin 33.7 deg = 1 15/16 in; 1 1/4 in is another seat."""
        deep = given_stock('1 1/2" x 11 1/4"', name="deep")
        for cut, closes in (("2 1/2 in", True), ("1 15/16 in", True), ("1 1/4 in", False), ("1/2 in", False)):
            one = rafter(stock="deep", slope="8:12", seat_cut=cut, wall={"bearing": "3 1/2 in"}, **ON_BEAM)
            result = checked(rafter=[one], existing=[RIDGE], stock=[deep])
            found = {check.what: check for check in piece(result, "R").checks}
            assert ("seat, slope and cut" not in found) == closes
        asked = found["seat, slope and cut"].questions[0]
        assert [answer.sets[0][0] for answer in asked.answers] == ["rafter.R.seat_cut", "rafter.R.wall.bearing"]
        assert asked.answers[0].sets[0][1] == "1 15/16 in"

    def test_two_of_the_three_give_the_third(self) -> None:
        """3 1/2 in at 6:12: 1.565 in deep, 7.685 in left; a cut of 1 1/2 in: 3.354 in long."""
        one = rafter(stock="given", **ON_BEAM)
        del one["seat_cut"]
        by_seat = check(checked(rafter=[one], existing=[RIDGE], stock=[LIGHT]), "R", "shear at the birdsmouth")
        d_n = 9.25 - 3.5 * math.sin(SLOPE)
        assert by_seat.capacity == pytest.approx(2 / 3 * 150 * 1.15 * 1.5 * d_n * (d_n / 9.25) ** 2)
        two = rafter(**ON_BEAM)
        two["wall"] = {name: value for name, value in two["wall"].items() if name != "bearing"}
        by_cut = check(checked(rafter=[two], existing=[RIDGE]), "R", "bearing on wall")
        assert {step.symbol: step.value for step in by_cut.steps}["l_b"] == pytest.approx(1.5 / math.sin(SLOPE))

    def test_bearing_at_an_angle(self) -> None:
        """Hankinson with theta = 90 - slope (reference set 9, memory), R = w run/2 on plan."""
        result = on_beam(stock="given", carries=[{"what": "snow", "snow": "30 psf"}])
        found = check(result, "R", "bearing on wall")
        weight = 5 * 1.5 * 9.25 / 144 * 8 / math.cos(SLOPE)
        assert found.demand == pytest.approx((30 * 8 * 16 / 12 + weight) / 2 / (1.5 * 1.5 / math.sin(SLOPE)))
        F_c, across = 1000 * 1.15, 400
        theta = math.pi / 2 - SLOPE
        F = F_c * across / (F_c * math.sin(theta) ** 2 + across * math.cos(theta) ** 2)
        assert found.capacity == pytest.approx(F)

    def test_a_seat_is_no_longer_than_its_cut(self) -> None:
        """1 1/2 in square to a 6:12 rafter leaves 1.5/sin = 3.35 in level; 2 in leave the 3 1/2 in that are given."""
        steps = [
            {step.symbol: step.value for step in check(on_beam(seat_cut=cut), "R", "bearing on wall").steps}
            for cut in ("1 1/2 in", "2 in")
        ]
        assert [one["l_b"] for one in steps] == [pytest.approx(1.5 / math.sin(SLOPE)), 3.5]

    def test_the_wood_under_it(self) -> None:
        plate = {**WALL, "name": "plate", "material": "wood", "F_c_perp": "100 psi"}
        carries = [{"what": "roof", "dead": "20 psf", "snow": "150 psf"}]
        result = checked(rafter=[rafter(wall={"on": "plate"}, carries=carries, **ON_BEAM)], existing=[RIDGE, plate])
        assert check(result, "R", "bearing of plate under R").verdict == "fails"

    def test_a_short_seat_on_masonry(self) -> None:
        stones = {**WALL, "name": "stones", "material": "masonry"}
        result = checked(rafter=[rafter(wall={"on": "stones", "bearing": "2 in"}, **ON_BEAM)], existing=[RIDGE, stones])
        assert "at least 3 in asked on masonry" in said(result, "R", "fails")

    @pytest.mark.parametrize(("wall", "verdict", "words"), [
        ({"restrained": None}, "refer", "the ends must be held upright"),
        ({"restrained": False}, "fails", "the ends must be held upright"),
        ({"holds": "hung"}, "refer", "a hanger is not described"),
        ({"holds": "fixed"}, "refer", "an end that cannot turn is not described"),
        ({"on": "loose"}, "refer", "nobody is named who answers for it"),
    ])  # fmt: skip
    def test_what_is_not_known_of_it(self, wall: dict[str, Any], verdict: str, words: str) -> None:
        one = rafter(**ON_BEAM)
        one["wall"] = {name: value for name, value in {**one["wall"], **wall}.items() if value is not None}
        result = checked(rafter=[one], existing=[RIDGE, {"name": "loose", "what": "stones"}])
        assert words in said(result, "R", verdict)

    def test_uplift(self) -> None:
        loads = [{"what": "roof", "dead": "5 psf"}, {"what": "wind", "wind": "-60 psf"}]
        open_ = on_beam(carries=loads)
        assert "what holds it down is not stated" in said(open_, "R", "refer")
        assert check(open_, "R", "uplift at wall").questions[0].field == "rafter.R.wall.held_by"
        tied = on_beam(carries=loads, wall={"tied_down": "strap"})
        assert "'strap', which is not described" in said(tied, "R", "refer")
        assert "and lifts with up to" in said(tied, "R", "refer")

    def test_uplift_that_the_wall_is_said_to_take(self) -> None:
        loads = [{"what": "roof", "dead": "5 psf"}, {"what": "wind", "wind": "-60 psf"}]
        ratios_ = []
        for takes in ("200 lb", "400 lb"):
            plate = {**WALL, "name": "plate", "takes_uplift": takes}
            one = rafter(carries=loads, wall={"on": "plate"}, **ON_BEAM)
            ratios_.append(check(checked(rafter=[one], existing=[RIDGE, plate]), "R", "uplift at plate").ratio)
        assert ratios_[0] == pytest.approx(2.0 * ratios_[1])


class TestBirdsmouth:
    def test_shear_at_the_notch(self) -> None:
        """Eq. 3.4-3 (reference set 13, memory): (2/3) F_v' b d_n (d_n/d)^2."""
        found = check(on_beam(stock="given"), "R", "shear at the birdsmouth")
        d_n = 9.25 - 1.5
        assert found.capacity == pytest.approx(2 / 3 * 150 * 1.15 * 1.5 * d_n * (d_n / 9.25) ** 2)

    def test_more_than_a_quarter(self) -> None:
        assert "at most a quarter of the depth" in said(
            on_beam(seat_cut="2 1/2 in", wall={"bearing": "5 5/8 in"}), "R", "fails"
        )

    def test_depth_not_given(self) -> None:
        one = rafter(**ON_BEAM)
        del one["seat_cut"]
        one["wall"] = {name: value for name, value in one["wall"].items() if name != "bearing"}
        result = checked(rafter=[one], existing=[RIDGE])
        assert "the depth of the seat cut is not given" in said(result, "R", "refer")
        assert "neither the length of the level seat is given" in said(result, "R", "refer")

    def test_a_long_tail_over_the_notch(self) -> None:
        """The moment of the tail on what the cut leaves: w a^2/2 on plan, 6 M/(b d_n^2) (derived)."""
        a, w = 48 * math.cos(SLOPE), 30 / 144 * 16
        result = on_beam(stock="given", run="8 ft", wall={"at": "4 ft"}, carries=[{"what": "snow", "snow": "30 psf"}])
        steps = {step.symbol: step.value for step in check(result, "R", "bending of the tail at the birdsmouth").steps}
        own = 5 / 1728 * 1.5 * 9.25
        M = w * a**2 / 2 + own * 48 * a / 2
        assert steps["f_b1"] == pytest.approx(6 * M / (1.5 * 7.75**2), rel=1e-9)

    def test_tail_makes_a_check_of_its_own(self) -> None:
        what = "bending of the tail at the birdsmouth"
        assert what not in ratios(on_beam(), "R")
        short, long = (ratios(on_beam(wall={"at": at}), "R")[what] for at in ("1 ft", "3 ft"))
        assert short < long


class TestStick:
    def test_repetitive_factor_needs_deck_and_spacing(self) -> None:
        """C_r: three members, at most 24 in apart, joined (reference set 7, read)."""
        capacities = []
        for more in ({}, {"members": 1}, {"members": 2}, {"spacing": "25 in"}):
            capacities.append(check(on_beam(**more), "R", "bending").capacity)
        assert capacities[0] == pytest.approx(1.15 * capacities[1])
        assert capacities[1] == capacities[2] == capacities[3]

    def test_wind_that_lifts_presses_the_bottom_edge(self) -> None:
        """The deck holds the top only: pressed at the bottom the rafter has its whole length to tip."""
        loads = [{"what": "roof", "dead": "5 psf"}, {"what": "wind", "wind": "-60 psf"}]
        steps = {
            step.symbol: step.value for step in check(on_beam(carries=loads), "R", "bending, bottom edge pressed").steps
        }
        assert steps["l_u"] == pytest.approx(96 / math.cos(SLOPE))
        held = check(on_beam(carries=loads, bottom_held="full length"), "R", "bending, bottom edge pressed")
        assert held.ratio < check(on_beam(carries=loads), "R", "bending, bottom edge pressed").ratio

    def test_a_slender_section_with_compression(self) -> None:
        """NDS 2018 4.4.1.3 (reference set 16, memory): d/b over 5."""
        thin = {**TWO_BY_TEN, "name": "2x12", "size": "2x12"}
        loads = [{"what": "roof", "dead": "5 psf"}, {"what": "wind", "wind": "-60 psf"}]
        result = checked(rafter=[rafter(stock="2x12", carries=loads, **ON_BEAM)], existing=[RIDGE], stock=[thin])
        assert "d/b is 6 with compression" in said(result, "R", "refer")

    @pytest.mark.parametrize(("more", "words"), [
        ({"cuts": [{"kind": "hole", "at": "3 ft", "depth": "1 in", "from_bottom": "4 in"}]}, "of the whole section"),
        ({"plies": 2}, "how they are fastened is not said"),
        ({"limit_live": 90, "limit_why": "the owner likes it"}, "length/90 is laxer than the length/"),
        ({"stock": "log"}, "a round rafter or tie is for an engineer"),
        ({}, "sliding snow: whether a higher roof"),
        ({}, "what holds it there is not stated"),
    ])  # fmt: skip
    def test_refers(self, more: dict[str, Any], words: str) -> None:
        log = given_stock("8 in round", name="log")
        result = checked(rafter=[rafter(**ON_BEAM, **more)], existing=[RIDGE], stock=[log])
        assert piece(result, "R").verdict != "passes"
        assert words in said(result, "R", "refer")

    def test_ridge_beam_of_others(self) -> None:
        loose = {**RIDGE, "name": "ridge", "confirmed_by": ""}
        result = checked(rafter=[rafter(**ON_BEAM)], existing=[loose])
        assert "what carries the upper end on ridge" in said(result, "R", "refer")


class TestUnknownWood:
    def test_rafter_and_tie_are_screened(self) -> None:
        result = checked(rafter=[rafter(stock="old joist", tie="T")], tie=[tie(stock="old joist")])
        for name in ("R", "T"):
            assert piece(result, name).verdict == "refer"
            table = next(one for one in piece(result, name).tables if one.title.startswith("Screening"))
            assert {row[0] for row in table.rows} == {"Hem-Fir", "Eastern White Pine"}
            assert "a grader or engineer must say what it is" in said(result, name, "refer")

    def test_only_the_unknown_stick_is_screened(self) -> None:
        result = checked(rafter=[rafter(tie="T")], tie=[tie(stock="old joist")])
        assert "wood of unknown grade" in said(result, "T", "refer")
        assert "wood of unknown grade" not in said(result, "R", "refer")

    def test_nothing_is_said_of_what_it_might_be(self) -> None:
        """No figures without candidates; what does not hang on the wood is still said."""
        old = {**UNKNOWN_JOIST, "name": "any", "candidates": []}
        result = checked(rafter=[rafter(stock="any")], stock=[old])
        assert "for figures name the species" in said(result, "R", "refer")
        assert "neither a tie nor a ridge beam" in said(result, "R", "refer")
        assert ratios(result, "R") == {}

    def test_what_cannot_carry_whatever_it_is_fails(self) -> None:
        carries = [{"what": "roof", "dead": "100 psf", "snow": "300 psf", "meant": {"snow": "a deep drift"}}]
        result = checked(rafter=[rafter(stock="old joist", carries=carries, **ON_BEAM)], existing=[RIDGE])
        assert "it cannot carry this whatever it is" in said(result, "R", "fails")


def test_a_carrier_of_an_unsolved_rafter_knows_it() -> None:
    """Too hot for the table of temperature factors: the rafter has no figures, and neither has what it rests on."""
    hot = {**TWO_BY_TEN, "name": "hot", "temperature": "180 F"}
    under = beam(seat("0 ft", "wall"), seat("10 ft", "wall"))
    result = checked(rafter=[rafter(stock="hot", tie="T", wall={"on": "B"})], tie=[tie()], beam=[under], stock=[hot])
    assert "no temperature factor" in said(result, "R", "refer")
    assert "no temperature factor" in said(result, "T", "refer")
    assert "R could not be worked out, so its load here is not known" in said(result, "B", "refer")


spans = st.integers(4, 14)
psf = st.integers(5, 60)


@quick
@given(run=spans, snow=psf, more=st.integers(1, 30))
def test_more_load_never_lowers_a_ratio(run: int, snow: int, more: int) -> None:
    small, large = (
        ratios(pair(run=f"{run} ft", carries=[{"what": "roof", "dead": "10 psf", "snow": f"{load} psf"}]), "R")
        for load in (snow, snow + more)
    )
    assert all(large[what] >= small[what] * (1 - 1e-9) for what in small.keys() & large.keys())


@quick
@given(run=spans, rise=st.integers(3, 14))
def test_a_steeper_roof_pulls_less_on_its_tie(run: int, rise: int) -> None:
    carries = [{"what": "snow", "snow": "30 psf"}]  # on plan: the same load at every slope

    def pull(slope: int) -> float:
        result = pair(run=f"{run} ft", slope=f"{slope}:12", stock="given", carries=carries)
        return ratios(result, "T")["tension"]

    assert pull(rise + 1) < pull(rise)


def test_metric_is_the_same_roof() -> None:
    imperial = ratios(pair(), "R")
    carries = [{"what": "roof", "dead": "0.478802589804 kPa", "snow": "0.957605179607 kPa"}]
    wall = {"bearing": "88.9 mm"}
    metric = ratios(pair(run="2.4384 m", spacing="406.4 mm", seat_cut="38.1 mm", carries=carries, wall=wall), "R")
    assert metric == pytest.approx(imperial, rel=1e-9)


def test_loads_in_another_order_are_the_same_roof() -> None:
    loads = [{"what": "a", "dead": "10 psf"}, {"what": "b", "snow": "20 psf", "from": "1 ft", "to": "5 ft"},
             {"what": "c", "live": "200 lb", "at": "4 ft"}]  # fmt: skip
    one, other = (ratios(pair(carries=order), "R") for order in (loads, loads[::-1]))
    assert one == pytest.approx(other, rel=1e-9)


def _of_the_tie(result: Any) -> Any:
    return next(piece for piece in result.pieces if piece.name == "T").checks


class TestLoadsOfATie:
    @pytest.mark.parametrize(("load", "asks"), [
        ({"what": "ceiling", "dead": "5 psf"}, True), ({"what": "ceiling", "dead": "5 psf", "live": "5 psf"}, True),
        ({"what": "ceiling", "dead": "5 psf", "live": "10 psf"}, False),
        ({"what": "attic with limited storage", "dead": "5 psf", "live": "10 psf"}, True),
        ({"what": "attic with limited storage", "dead": "5 psf", "live": "20 psf"}, False),
        ({"what": "ceiling", "dead": "5 psf", "meant": {"live": "the ceiling follows the rafters: no attic"}}, False),
        ({"what": "lamp", "dead": "30 lb", "at": "4 ft"}, False),
    ])  # fmt: skip
    def test_over_a_ceiling_is_an_attic(self, load: dict[str, Any], asks: bool) -> None:
        """IRC Table R301.5: 10 psf without storage, 20 psf with limited storage."""
        more = {} if "at" in load else {"width": "16 in"}
        result = pair(tie={"carries": [load | more]})
        found = [one for one in _of_the_tie(result) if one.id == "loads.floor" and one.verdict == "refer"]
        assert bool(found) is asks
        if asks:
            assert found[0].questions[0].field == "tie.T.carries.1.live"

    def test_a_tie_with_nothing_on_it_needs_none(self) -> None:
        assert not [one for one in _of_the_tie(pair()) if one.id == "loads.floor"]
