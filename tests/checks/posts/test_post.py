"""Posts: published columns as jobs, the load off center worked by hand, properties, what keeps one from passing."""

from __future__ import annotations

from typing import Any

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from beamcheck.analysis.beams.member_loads import TransferredLoad
from beamcheck.calc.pad import SilentPad
from beamcheck.checks.core.context import Context, Structure
from beamcheck.checks.core.wood.material import Factor, Property, WoodMaterial
from beamcheck.checks.core.wood.strength import Bracing, Section, bending_with_compression
from beamcheck.checks.posts.result import post_result
from beamcheck.model.job import Job
from beamcheck.model.posts import Post
from beamcheck.model.reading.reader import job_from_data

from ..houses import (
    FOOTING,
    SIX_BY_SIX,
    UNKNOWN,
    beam,
    check,
    checked,
    given_stock,
    job,
    piece,
    post,
    ratios,
    said,
    seat,
)

quick = settings(max_examples=15, deadline=None)
LIVE = [{"what": "test load", "live": "1000 lb"}]  # C_D = 1.0


def old_form(E: float) -> dict[str, float]:
    """F_cE = 0.3 E/(l_e/d)^2 of older books, in the present form."""
    return {"E": E, "E_min": 0.3 * E / 0.822}


class TestPublishedColumns:
    """J. M. Gere, Mechanics of Materials, 7th ed., section 11.9 (read); the older K_cE form is entered as E_min."""

    @pytest.mark.parametrize(
        ("height", "C_P", "kip"), [("6 ft", 0.6621, 16.8), ("8 ft", 0.4464, 11.3), ("10 ft", 0.3050, 7.7)]
    )
    def test_11_9_31(self, height: str, C_P: float, kip: float) -> None:
        stock = given_stock('3 1/2" x 7 1/4"', F_c=1000, **old_form(1.3e6))
        result = checked(stock=[stock], post=[post(stock="given", height=height, carries=LIVE)])
        found = check(result, "P", "compression")
        assert found.capacity == pytest.approx(1000 * C_P, rel=2e-4)
        assert found.capacity * 3.5 * 7.25 / 1000 == pytest.approx(kip, abs=0.05)

    @pytest.mark.parametrize(("b", "F_c", "E", "height", "kip"), [
        ("5 1/2", 1700, 1.4e6, "75.2 in", 40.0), ("6.71", 1700, 1.4e6, "11 ft", 40.06),
        ("3 1/2", 900, 1.5e6, "74.3 in", 8.0),
    ])  # fmt: skip
    def test_11_9_33_and_35(self, b: str, F_c: float, E: float, height: str, kip: float) -> None:
        """Square columns that just hold their load."""
        stock = given_stock(f'{b}" x {b}"', F_c=F_c, **old_form(E))
        result = checked(stock=[stock], post=[post(stock="given", height=height, carries=LIVE)])
        found = check(result, "P", "compression")
        side = 5.5 if b == "5 1/2" else 3.5 if b == "3 1/2" else float(b)
        assert found.capacity * side**2 / 1000 == pytest.approx(kip, rel=2e-3)

    def test_w16(self) -> None:
        """4x4, l_e/d = 34.29, F_c* = 975, F_cE = 357.3: C_P = 0.333 (reference set W16, read)."""
        stock = given_stock("4x4", F_c=975, E_min=357.3 * (120 / 3.5) ** 2 / 0.822)
        result = checked(stock=[stock], post=[post(stock="given", height="10 ft", carries=LIVE)])
        assert check(result, "P", "compression").capacity == pytest.approx(975 * 0.333, rel=2e-3)

    def test_w26(self) -> None:
        """6x6, P = 8000 lb, f_b1 = 400 psi: eq. 3.9-3 gives 0.5992 (reference set W26, derived)."""
        wood = plain_wood(F_b=1200, F_c=1000, E_min=580_000)
        outcomes = bending_with_compression(
            SilentPad(), wood, Section(5.5, 5.5, 5.5), Bracing(True, "square"), M=400 * 5.5**3 / 6, P=8000.0, C_D=1.0,
            l_e1=120.0, l_e2=120.0,
        )  # fmt: skip
        assert outcomes[0].ratio == pytest.approx(0.5992, abs=5e-5)


def plain_wood(**values: float) -> WoodMaterial:
    known = {"F_b": 1000.0, "F_t": 600.0, "F_v": 150.0, "F_c_perp": 400.0, "F_c": 1000.0, "E": 1.4e6, "E_min": 5e5}
    return WoodMaterial(**{name: Property(value) for name, value in {**known, **values}.items()}, K_cr=Factor(1.5))


class TestOffCenter:
    """NDS 2018 eq. 15.4-1 and 15.4-2 (reference set 20, memory), worked with plain numbers on the column of W26."""

    STOCK = given_stock('5 1/2" x 5 1/2"', F_b=1200, F_c=1000, E_min=580_000)

    def ratio(self, e: tuple[float | None, float | None], what: str, **more: Any) -> float:
        given_ = {
            name: f"{e_} in"
            for name, e_ in zip(("eccentricity", "eccentricity_weak"), e, strict=True)
            if e_ is not None
        }
        data = post(stock="given", height="10 ft", carries=[{"what": "test load", "live": "8000 lb"}], **more)
        for name in ("eccentricity", "eccentricity_weak"):
            data.pop(name)
        result = checked(stock=[self.STOCK], post=[{**data, **given_}])
        return ratios(result, "P")[what]

    def by_hand(self, e_1: float, e_2: float) -> float:
        f_c = (8000 + 5 * 10 * 5.5**2 / 144) / 5.5**2
        F_cE = 0.822 * 580_000 / (120 / 5.5) ** 2
        q = F_cE / 1000
        F_c = 1000 * ((1 + q) / 1.6 - (((1 + q) / 1.6) ** 2 - q / 0.8) ** 0.5)
        off_1, off_2 = (f_c * 6 * e / 5.5 * (1 + 0.234 * f_c / F_cE) for e in (e_1, e_2))
        return (f_c / F_c) ** 2 + (off_1 + off_2) / (1200 * (1 - f_c / F_cE))  # square: F_bE does not come in

    def test_one_way(self) -> None:
        assert self.ratio((1.0, 0.0), "load off center the deep way") == pytest.approx(self.by_hand(1, 0))
        assert self.ratio((0.0, 1.0), "load off center the thin way") == pytest.approx(self.by_hand(0, 1))

    def test_both_ways_at_once_when_both_are_given(self) -> None:
        assert self.ratio((1.0, 0.5), "load off center both ways") == pytest.approx(self.by_hand(1, 0.5))

    def test_not_given_is_a_sixth_of_the_side_one_way_at_a_time(self) -> None:
        expected = pytest.approx(self.by_hand(5.5 / 6, 0))
        assert self.ratio((None, None), "load off center the deep way") == expected
        assert self.ratio((None, None), "load off center the thin way") == expected

    def test_not_given_one_way_stands_beside_what_is_given_the_other_way(self) -> None:
        assert self.ratio((None, 0.5), "load off center both ways") == pytest.approx(self.by_hand(5.5 / 6, 0.5))

    def test_companion_limit(self) -> None:
        f_c = (8000 + 5 * 10 * 5.5**2 / 144) / 5.5**2
        expected = f_c / (0.822 * 580_000 / (120 / 5.5) ** 2)
        assert self.ratio((1.0, 0.0), "load off center the deep way, sideways") == pytest.approx(expected)

    def test_a_deep_post_tips_sideways_whatever_its_braces_the_deep_way(self) -> None:
        """4x12: d/b = 3, so C_L and F_bE count with the whole height, not with the spacing of braces the deep way."""
        stock = given_stock('3 1/2" x 11 1/4"')
        pieces = [post(stock="given", carries=LIVE, eccentricity="4 in", **braces)
                  for braces in ({}, {"braced_strong": "2 ft"})]  # fmt: skip
        plain, braced = (
            ratios(checked(stock=[stock], post=[one]), "P")["load off center the deep way, sideways"] for one in pieces
        )
        assert plain == braced
        f_b = (1000 + 5 * 8 * 3.5 * 11.25 / 144) / (3.5 * 11.25) * 6 * 4 / 11.25
        l_e = 1.63 * 96 + 3 * 11.25  # l_u/d = 8.5, any loading
        F_bE = 1.2 * 5e5 / (l_e * 11.25 / 3.5**2)
        f_c = f_b * 11.25 / 24
        assert plain == pytest.approx(f_c / (0.822 * 5e5 / (96 / 3.5) ** 2) + (f_b / F_bE) ** 2)

    def test_beam_and_stringer_grades_bend_the_thin_way_with_their_flat_use_factor(self) -> None:
        """Reference set 6: No.1 on the flat has 0.74 of F_b and 0.90 of E_min (memory)."""
        stock = {**SIX_BY_SIX, "name": "6x10", "size": "6x10 dressed"}
        result = checked(stock=[stock], post=[post(stock="6x10", eccentricity_weak="1 in")])
        steps = check(result, "P", "load off center the thin way").steps
        values = {step.symbol: step.value for step in steps}
        assert values["C_fu"] == 0.74
        assert values["E_min_prime"] == pytest.approx(0.9 * 580_000)

    def test_two_pieces_on_the_top_take_a_quarter_of_the_side(self) -> None:
        ends = [beam(seat("0 ft", "wall"), seat("8 ft", "P", bearing="2 3/4 in"), name=name) for name in ("B1", "B2")]
        data = post(carries=[])
        del data["eccentricity"], data["eccentricity_weak"]
        result = checked(beam=ends, post=[data])
        assert "offset the deep way 1 3/8 in" in check(result, "P", "load off center the deep way").notes[0]

    def test_a_short_seat_may_lie_at_the_edge(self) -> None:
        one = beam(seat("0 ft", "wall"), seat("8 ft", "P", bearing="2 in"))
        data = post(carries=[])
        del data["eccentricity"], data["eccentricity_weak"]
        found = check(checked(beam=[one], post=[data]), "P", "load off center the deep way")
        assert "1 3/4 in: not stated: the seat may lie at the edge" in found.notes[0]


class TestEnds:
    def test_end_grain_without_a_plate_stops_at_three_quarters(self) -> None:
        """NDS 2018 3.10.1 (memory)."""
        with_plate, without = (
            check(checked(post=[post(bearing_plate=plate)]), "P", "end grain at top and foot")
            for plate in (True, False)
        )
        assert (with_plate.capacity, without.capacity) == (1.0, 0.75)
        assert without.ratio == pytest.approx(with_plate.ratio / 0.75)

    def test_a_narrow_beam_presses_on_its_own_contact(self) -> None:
        """3 1/2 in wide, seat 4 in: 14 in2 of the top, whatever the post has."""
        narrow = {**SIX_BY_SIX, "name": "4x12", "size": "4x12"}
        one = beam(seat("0 ft", "wall"), seat("10 ft", "P", bearing="4 in"), stock="4x12")
        result = checked(stock=[narrow], beam=[one], post=[post(carries=[])])
        found = check(result, "P", "end grain under B")
        reaction = 10 / 2 * (50 * 8 + own_weight(result, "B"))
        assert found.demand == pytest.approx(reaction / 14 / 1000, rel=1e-4)  # F_c* of No.1 is 1000 psi, C_D = 1

    def test_seat_longer_than_the_top(self) -> None:
        one = beam(seat("0 ft", "wall"), seat("10 ft", "P", bearing="7 in"))
        assert "7 in long, but the top is only 5 1/2 in" in said(checked(beam=[one], post=[post()]), "P", "refer")

    def test_two_seats_that_do_not_fit_on_the_top(self) -> None:
        ends = [beam(seat("0 ft", "wall"), seat("8 ft", "P"), name=name) for name in ("B1", "B2")]
        assert "seats on the top: together they need 60.5 in²" in said(checked(beam=ends, post=[post()]), "P", "refer")

    def test_a_beam_hung_on_its_side(self) -> None:
        """NDS 2018 15.4.2, statics: R at 2 in off the face and half the side, all of it at mid-height."""
        one = beam(seat("0 ft", "wall"), {"at": "10 ft", "on": "P", "holds": "hung"})
        result = checked(beam=[one], post=[post()])
        steps = check(result, "P", "brackets on its faces, the deep way").steps
        values = {step.symbol: step.value for step in steps}
        assert values["a"] == 2.0 + 0.5 * 5.5
        assert values["M"] == pytest.approx(values["P"] * 4.75, rel=1e-6)

    def test_the_end_of_one_beam_bears_on_one_side_of_the_post(self) -> None:
        """NDS 2018 15.4.1 and geometry: a seat of 2 3/4 in on 5 1/2 in lies 1 3/8 in off the middle."""
        one = beam(seat("0 ft", "wall"), seat("8 ft", "P", bearing="2 3/4 in"))
        asked = check(checked(beam=[one], post=[post(carries=[])]), "P", "eccentricity smaller than the seats")
        assert asked.verdict == "refer" and "1 3/8 in off center; 0 in is stated" in asked.notes[0]
        assert [answer.says for answer in asked.questions[0].answers] == ["1 3/8 in"]
        whole = checked(beam=[one], post=[post(carries=[], eccentricity="1 3/8 in")])
        assert "eccentricity smaller than the seats" not in {one.what for one in piece(whole, "P").checks}

    def test_a_beam_that_goes_on_beyond_the_post_bears_on_its_middle(self) -> None:
        one = beam(seat("0 ft", "wall"), seat("8 ft", "P", bearing="2 3/4 in"), length="10 ft")
        result = checked(beam=[one], post=[post(carries=[])])
        assert "eccentricity smaller than the seats" not in {one.what for one in piece(result, "P").checks}

    def test_on_wood_of_others(self) -> None:
        plate = {**FOOTING, "name": "plate", "material": "wood", "F_c_perp": "300 psi"}
        found = check(checked(existing=[plate], post=[post(on="plate")]), "P", "bearing of plate under P")
        assert found.capacity == 300
        assert found.demand == pytest.approx((8000 + own_weight_of_post()) / 5.5**2, rel=1e-3)

    def test_a_round_post_bears_on_its_circle(self) -> None:
        """Not on the square around it, which is 27 % more."""
        plate = {**FOOTING, "name": "plate", "material": "wood", "F_c_perp": "300 psi"}
        stock = given_stock("6 in round")
        result = checked(stock=[stock], existing=[plate], post=[post(stock="given", on="plate")])
        area = np.pi * 36 / 4
        assert check(result, "P", "bearing of plate under P").demand == pytest.approx(
            (8000 + 5 * 8 * area / 144) / area
        )

    def test_on_wood_whose_value_is_not_given(self) -> None:
        plate = {**FOOTING, "name": "plate", "material": "wood"}
        assert "bearing value of the wooden seat" in said(
            checked(existing=[plate], post=[post(on="plate")]), "P", "refer"
        )

    def test_on_another_post(self) -> None:
        result = checked(post=[post(on="Q"), post(name="Q", carries=[])])
        assert "the joint with Q, and what holds it sideways there, are not checked" in said(result, "P", "refer")
        assert piece(result, "P").verdict == "refer"

    def test_on_a_beam(self) -> None:
        """The foot bears across the grain of the beam, on no more than the beam's breadth."""
        whole = job_from_data(job(beam=[beam(seat("0 ft", "wall"), seat("8 ft", "wall"))]))
        standing = Post.model_validate(post(on="B", lands_at="4 ft"))
        result, handed = post_result(standing, Context(structure_of(whole, standing)))
        found = next(one for one in result.checks if one.what == "bearing of B under P")
        assert found.demand == pytest.approx((8000 + own_weight_of_post()) / 5.5**2, rel=1e-3)
        ((under, transfer),) = handed.transfers
        assert (under, transfer.at, transfer.bearing) == ("B", 48.0, 5.5)


def own_weight(result: Any, name: str) -> float:
    """Own weight as the result states it, plf."""
    loads = next(table for table in piece(result, name).tables if table.title == "Loads as they act")
    return float(next(row[2] for row in loads.rows if row[0] == "self weight").split()[0])


def own_weight_of_post() -> float:
    """8 ft of 5.5 in square Douglas fir-larch, G = 0.5 at 15 %, by the density rule of the NDS Supplement (memory)."""
    return 62.4 * 0.5 / (1 + 0.5 * 0.009 * 15) * 1.15 * 8 * 5.5**2 / 144


def structure_of(job_: Job, *more: Post) -> Structure:
    every = (*job_.beam, *job_.post, *job_.existing, *more)
    return Structure({one.name: one for one in job_.stock}, {one.name: one for one in every})


NAILS = {"kind": "nail", "size": "60d common", "rows": 2, "spacing": "8 in", "row_spacing": "2 3/4 in",
         "end": "4 1/4 in", "edge": "1 3/8 in", "from_both_sides": True}  # fmt: skip
BOLTS = {"kind": "bolt", "size": "1/2 in", "rows": 2, "spacing": "8 in", "row_spacing": "2 1/2 in", "end": "4 in",
         "edge": "1 1/2 in", "washers": True}  # fmt: skip


class TestPlies:
    """NDS 2018 15.3 (memory): joined by its schedule plies count as one post; else each stands by itself."""

    STOCK = given_stock('1 1/2" x 5 1/2"')

    def of(self, **more: Any) -> Any:
        return checked(stock=[self.STOCK], post=[post(stock="given", height="6 ft", carries=LIVE, **more)])

    def compression(self, **more: Any) -> float:
        return float(check(self.of(**more), "P", "compression").ratio or 0.0)

    @pytest.mark.parametrize(("joined", "K_f", "by"), [("nailed", 0.6, NAILS), ("bolted", 0.75, BOLTS)])
    def test_built_up(self, joined: str, K_f: float, by: dict[str, Any]) -> None:
        """NDS 2018 15.3.2: C_P = K_f x the formula across the plies, K_f 0.60 nailed, 0.75 bolted (memory)."""
        area, total = 3 * 1.5 * 5.5, 1000 + 5 * 6 * 3 * 1.5 * 5.5 / 144
        q = 0.822 * 5e5 / (72 / 4.5) ** 2 / 1000
        C_P = K_f * ((1 + q) / 1.6 - (((1 + q) / 1.6) ** 2 - q / 0.8) ** 0.5)
        ratio = self.compression(plies=3, plies_joined=joined, plies_schedule=by)
        assert ratio == pytest.approx(total / area / 1000 / C_P)

    @pytest.mark.parametrize("said", [{"plies_joined": "none"}, {"plies_joined": "nailed"}, {
        "plies_joined": "nailed", "plies_schedule": {**NAILS, "from_both_sides": False}}, {
        "plies_joined": "bolted", "plies_schedule": {**BOLTS, "washers": None}}])  # fmt: skip
    def test_plies_not_joined_by_the_rule_are_posts_of_their_own(self, said: dict[str, Any]) -> None:
        """Reference set 20: never a solid post of the same size. 72/1.5 = 48."""
        area, total = 3 * 1.5 * 5.5, 1000 + 5 * 6 * 3 * 1.5 * 5.5 / 144
        q = 0.822 * 5e5 / 48**2 / 1000
        C_P = (1 + q) / 1.6 - (((1 + q) / 1.6) ** 2 - q / 0.8) ** 0.5
        said = {key: {k: v for k, v in value.items() if v is not None} if isinstance(value, dict) else value
                for key, value in said.items()}  # fmt: skip
        assert self.compression(plies=3, **said) == pytest.approx(total / area / 1000 / C_P)

    @pytest.mark.parametrize(("change", "words"), [
        ({"end": "3 in"}, "from the end of the post"), ({"end": "6 in"}, "from the end of the post"),
        ({"spacing": "5 in"}, "from nail to nail"), ({"spacing": "9 1/4 in"}, "from nail to nail"),
        ({"row_spacing": "1 1/2 in"}, "from row to row"), ({"edge": "1 in"}, "from the edge of the plies"),
        ({"rows": 1, "row_spacing": None}, "plies so deep need two"),
        ({"size": "10d common", "end": "2 1/4 in"}, "reach into the last ply"),
    ])  # fmt: skip
    def test_each_rule_of_the_schedule(self, change: dict[str, Any], words: str) -> None:
        """NDS 2018 15.3.3 (memory): 15 to 18 D, 20 D to 6 t, 10 to 20 D, 5 to 20 D, two rows over 3 t, 3/4 of the last
        ply."""
        by = {key: value for key, value in {**NAILS, **change}.items() if value is not None}
        found = check(self.of(plies=3, plies_joined="nailed", plies_schedule=by), "P", "fastening of the plies")
        assert words in found.notes[0] and "a post of its own" in found.notes[0]

    def test_its_question_joins_them(self) -> None:
        """The schedule that the question proposes keeps the rule."""
        asked = check(self.of(plies=2, plies_joined="nailed"), "P", "compression").questions
        (answer,) = next(one for one in asked if one.field == "post.P.plies_schedule").answers
        by = dict(answer.sets)["post.P.plies_schedule"]
        found = check(self.of(plies=2, plies_joined="nailed", plies_schedule=by), "P", "fastening of the plies")
        assert "they count as one post" in found.notes[0]

    def test_six_plies_are_more_than_the_rules_know(self) -> None:
        by = {"plies_joined": "bolted", "plies_schedule": BOLTS}
        assert self.compression(plies=6, **by) == pytest.approx(self.compression(plies=6))

    @pytest.mark.parametrize(
        "joined",
        [{"plies_joined": "nailed", "plies_schedule": NAILS}, {"plies_joined": "bolted", "plies_schedule": BOLTS}, {}],
    )
    def test_off_center_never_does_better_than_a_solid_post(self, joined: dict[str, Any]) -> None:
        solid = given_stock('4 1/2" x 5 1/2"', name="solid")
        more = {"height": "4 ft", "carries": LIVE, "eccentricity": "1 in", "eccentricity_weak": "1/2 in"}
        result = checked(
            stock=[self.STOCK, solid],
            post=[post(name="A", stock="given", plies=3, **joined, **more), post(name="S", stock="solid", **more)],
        )
        what = "load off center both ways"
        assert ratios(result, "A")[what] > ratios(result, "S")[what]


class TestCuts:
    """NDS 2018 3.6.3: the net section against F_c*, and here along the whole height against F_c'."""

    HOLE = {"kind": "hole", "at": "4 ft", "depth": "1 in", "from_bottom": "2 3/4 in"}  # noqa: RUF012

    def of(self, *cuts: dict[str, Any], **more: Any) -> Any:
        return checked(post=[post(cuts=list(cuts), **more)])

    def test_a_hole_in_the_middle(self) -> None:
        """4 1/2 x 5 1/2 in all along: C_P by 96/4.5; the load stays in the middle of it."""
        result = self.of(self.HOLE)
        found = check(result, "P", "buckling with 1 in hole at 4 ft")
        A = 4.5 * 5.5
        q = 0.822 * 580_000 / (96 / 4.5) ** 2 / 1000
        C_P = (1 + q) / 1.6 - (((1 + q) / 1.6) ** 2 - q / 0.8) ** 0.5
        assert found.ratio == pytest.approx((8000 + own_weight_of_post()) / A / 1000 / C_P, rel=1e-4)
        assert piece(result, "P").verdict == "passes"
        assert check(result, "P", "net section at 1 in hole at 4 ft").demand == pytest.approx(
            (8000 + own_weight_of_post()) / A / 1000, rel=1e-4)  # fmt: skip

    def test_a_notch_puts_the_load_beside_the_middle_of_what_is_left(self) -> None:
        """1 in of 5 1/2 in from one side: half an inch off, on 4 1/2 in (NDS 2018 15.4.1)."""
        notch = {"kind": "notch", "at": "4 ft", "depth": "1 in", "length": "4 in", "face": "top"}
        found = check(self.of(notch), "P", "load off center the deep way with notch 1 in deep, 4 in long at 4 ft")
        values = {step.symbol: step.value for step in found.steps}
        assert values["e_1"] == pytest.approx(0.5)
        P = 8000 + own_weight_of_post()
        f_c, F_cE = P / (4.5 * 5.5), 0.822 * 580_000 / (96 / 4.5) ** 2
        q = F_cE / 1000
        F_c = 1000 * ((1 + q) / 1.6 - (((1 + q) / 1.6) ** 2 - q / 0.8) ** 0.5)
        by_hand = (f_c / F_c) ** 2 + f_c * 6 * 0.5 / 4.5 * (1 + 0.234 * f_c / F_cE) / (1200 * (1 - f_c / F_cE))
        assert found.ratio == pytest.approx(by_hand, rel=1e-4)

    def test_bolt_holes_near_each_other_count_as_one_place(self) -> None:
        """NDS 2018 3.1.3: within four diameters along the grain. In one row the strip is taken off once."""
        one, two = ({**self.HOLE, "at": at} for at in ("4 ft", "4 ft 4 in"))
        (found,) = [one for one in piece(self.of(one, two), "P").checks if one.what.startswith("buckling with")]
        assert found.what == "buckling with 1 in hole at 4 ft and 1 in hole at 4 ft 4 in"
        assert found.ratio == pytest.approx(check(self.of(self.HOLE), "P", "buckling with 1 in hole at 4 ft").ratio)
        side = {**self.HOLE, "from_bottom": "1 1/4 in"}
        (worse,) = [one for one in piece(self.of(self.HOLE, side), "P").checks if one.what.startswith("buckling with")]
        assert (worse.ratio or 0.0) > (found.ratio or 0.0)

    def test_a_long_slot_leaves_cheeks_that_may_buckle(self) -> None:
        slot = {"kind": "mortise", "at": "4 ft", "depth": "3 1/2 in", "length": "24 in", "width": "5 1/2 in",
                "from_bottom": "2 3/4 in"}  # fmt: skip
        found = check(self.of(slot), "P", "net section at mortise 3 1/2 in deep, 2 ft long at 4 ft")
        assert found.verdict == "refer" and "buckle by themselves" in found.notes[0]


class TestHolding:
    """ASCE 7-16 2.4.1: what lifts needs something stated that holds it (statics for the forces)."""

    LIFT = [{"what": "porch roof", "dead": "100 lb", "wind": "-2000 lb"}]  # noqa: RUF012

    def test_uplift_asks_at_both_ends(self) -> None:
        result = checked(post=[post(carries=self.LIFT)])
        foot, head = (check(result, "P", f"uplift at the {end}") for end in ("foot", "head"))
        assert [one.field for one in (*foot.questions, *head.questions)] == [
            "existing.footing.takes_uplift", "post.P.head_held_by"]  # fmt: skip

    def test_what_is_stated_is_compared(self) -> None:
        """0.6 x 2000 - 0.6 x (100 + own weight) at the foot; tension on 30.25 in2."""
        floor = {**FOOTING, "name": "frame", "takes_uplift": "1,200 lb"}
        pad = {**FOOTING, "name": "pad", "takes_uplift": "1,150 lb"}
        result = checked(existing=[floor, pad], post=[post(on="pad", carries=self.LIFT, head_held_by="frame")])
        up = 0.6 * 2000 - 0.6 * (100 + own_weight_of_post())
        assert check(result, "P", "uplift at the foot").ratio == pytest.approx(up / 1150, rel=1e-4)
        assert check(result, "P", "uplift at the head").ratio == pytest.approx((1200 - 60) / 1200)
        assert check(result, "P", "tension").demand == pytest.approx(up / 5.5**2, rel=1e-4)
        assert piece(result, "P").verdict == "passes"

    def test_next_to_nothing_is_no_question(self) -> None:
        """Up to 20 lb and 1 % of what the post carries."""
        little = [{"what": "roof", "dead": "150 lb", "wind": "-180 lb"}]
        assert piece(checked(post=[post(carries=little)]), "P").verdict == "passes"

    def test_a_roof_without_wind_asks(self) -> None:
        """ASCE 7-16 27.3.2 (open roofs): wind of nothing has to be said."""
        roof = {"what": "open canopy", "dead": "300 lb", "snow": "1,200 lb"}
        found = check(checked(post=[post(carries=[roof])]), "P", "wind on the roof over it")
        assert found.verdict == "refer" and found.questions[0].field == "post.P.carries.1.wind"
        assert piece(checked(post=[post(carries=[{**roof, "wind": "0 lb"}])]), "P").verdict == "passes"


class TestAbove:
    """A post for looks under a beam that sags is a prop; the gap is judged like that of a bracket."""

    BEAM = beam(seat("0 ft", "wall"), seat("10 ft", "wall"))

    def of(self, **more: Any) -> Any:
        return checked(beam=[self.BEAM], post=[post(role="decorative", carries=[], **more)])

    def test_nothing_said_refers_and_is_cured_by_a_look(self) -> None:
        found = check(self.of(), "P", "what is above it")
        assert found.verdict == "refer" and found.questions[0].field == "post.P.above"
        assert piece(self.of(above="nothing"), "P").verdict == "passes"

    def test_the_gap_decides(self) -> None:
        near = {"beam": "B", "at": "5 ft", "closing": []}
        asked = check(self.of(near=near), "P", "gap under B")
        assert asked.verdict == "refer" and asked.questions[0].field == "post.P.near.gap"
        best = asked.questions[0].answers[0].says
        assert check(self.of(near={**near, "gap": best}), "P", "gap under B").holds
        assert piece(self.of(near={**near, "gap": "2 in"}), "P").verdict == "passes"
        assert check(self.of(near={**near, "gap": "0 in"}), "P", "gap under B").verdict == "fails"

    def test_it_is_asked_what_a_bracket_is_asked(self) -> None:
        """Wood that closes the gap; a tight one is a prop, with its force on it."""
        open_ = check(self.of(near={"beam": "B", "at": "5 ft", "gap": "1 in"}), "P", "movements that close the gap")
        assert open_.verdict == "refer" and open_.questions[0].field == "post.P.near.closing"
        tight = check(
            self.of(near={"beam": "B", "at": "5 ft", "gap": "0 in", "closing": []}),
            "P",
            "force that it attracts from B",
        )
        assert tight.verdict == "fails" and tight.demand is not None and tight.demand > 0.0


class TestKeptFromPassing:
    """Each of these would be a plain `passes` without the one thing that is missing or odd."""

    def test_the_plain_post_passes(self) -> None:
        assert checked(post=[post()]).verdict == "passes"

    @pytest.mark.parametrize(("more", "words"), [
        ({"top_restraint": "free", "base_restraint": "fixed"}, "a post that must stay up by its foot alone"),
        ({"stock": "old"}, "a grader or engineer must say what it is"),
        ({"on": "loose"}, "nobody is named who answers for it"),
        ({"carries": [{"what": "wind", "wind": "-2000 lb"}]}, "what holds the post down is not stated"),
        ({"stock": "log", "eccentricity": "1 in"}, "a load not shown to be central"),
        ({"stock": "log", "eccentricity_weak": "1 in"}, "a load not shown to be central"),
    ])  # fmt: skip
    def test_refers(self, more: dict[str, Any], words: str) -> None:
        loose = {"name": "loose", "what": "stones", "material": "ground"}
        log = given_stock("8 in round", name="log")
        result = checked(stock=[log], existing=[loose], post=[post(**more)])
        assert piece(result, "P").verdict == "refer"
        assert words in said(result, "P", "refer")

    def test_a_round_post_with_its_load_in_the_middle_passes(self) -> None:
        log = given_stock("8 in round", name="log")
        assert checked(stock=[log], post=[post(stock="log")]).verdict == "passes"

    def test_assumed_grade(self) -> None:
        stock = {**SIX_BY_SIX, "name": "guess", "grade_from": "assumed"}
        assert "PRELIMINARY" in said(checked(stock=[stock], post=[post(stock="guess")]), "P", "refer")

    def test_too_slender_fails(self) -> None:
        found = check(checked(post=[post(height="23 ft")]), "P", "compression")
        assert (found.verdict, found.ratio) == ("fails", None)
        assert "at most 50" in found.notes[-1]

    def test_load_that_is_not_known(self) -> None:
        whole = job_from_data(job(post=[post()]))
        result, _ = post_result(whole.post[0], Context(structure_of(whole), (TransferredLoad("B", {}, unknown=True),)))
        assert result.verdict == "refer"
        assert any("its load here is not known" in note for one in result.checks for note in one.notes)

    def test_wood_that_is_too_hot_for_the_rules(self) -> None:
        """Out of the table of temperature factors: no number at all, and what is below must know."""
        stock = {**SIX_BY_SIX, "name": "hot", "temperature": "180 F"}
        result = checked(stock=[stock], post=[post(stock="hot", on="Q"), post(name="Q")])
        assert "no temperature factor" in said(result, "P", "refer")
        assert "load from P: P could not be worked out" in said(result, "Q", "refer")

    def test_fixed_ends_count_as_hinged(self) -> None:
        hinged, fixed = (
            ratios(checked(post=[post(top_restraint=end, base_restraint=end)]), "P") for end in ("pinned", "fixed")
        )
        assert hinged == fixed


def test_screening_lists_what_the_wood_might_be() -> None:
    result = checked(post=[post(stock="old")])
    table = next(one for one in piece(result, "P").tables if one.title.startswith("Screening"))
    assert {row[0] for row in table.rows} == set(UNKNOWN["candidates"])
    assert all(one.verdict != "passes" or one.ratio is None for one in piece(result, "P").checks)


def test_uplift_goes_down_with_what_holds_nothing() -> None:
    """The force at the foot by kind: presses and lifts apart; dead load has one value."""
    carries = [
        {"what": "roof", "dead": "500 lb", "wind": "-900 lb"},
        {"what": "wall", "wind": "300 lb", "live": "100 lb"},
    ]
    whole = job_from_data(job(post=[post(carries=carries)]))
    _, handed = post_result(whole.post[0], Context(structure_of(whole)))
    by_kind = handed.rows[0].by_kind
    assert by_kind["W"] == (300.0, -900.0)
    assert by_kind["L"] == (100.0, 0.0)
    assert by_kind["D"][0] == by_kind["D"][1] == pytest.approx(500 + own_weight_of_post(), rel=1e-3)
    assert handed.rows[0].least == pytest.approx(0.6 * by_kind["D"][0] - 0.6 * 900)


heights = st.integers(3, 16)
forces = st.integers(500, 15_000)
offsets = st.integers(0, 16).map(lambda x: x / 8)


@quick
@given(height=heights, load=forces)
def test_a_taller_post_never_does_better(height: int, load: int) -> None:
    carries = [{"what": "floor", "dead": f"{load} lb"}]
    low, tall = (
        ratios(checked(post=[post(height=f"{h} ft", carries=carries, eccentricity="1 in")]), "P")
        for h in (height, height + 1)
    )
    assert all(tall[what] >= low[what] for what in low.keys() & tall.keys())


@quick
@given(load=forces, e=offsets, other=offsets)
def test_an_offset_never_helps(load: int, e: float, other: float) -> None:
    carries = [{"what": "floor", "live": f"{load} lb"}]
    central = ratios(checked(post=[post(carries=carries)]), "P")["compression"]
    found = ratios(checked(post=[post(carries=carries, eccentricity=f"{e} in", eccentricity_weak=f"{other} in")]), "P")
    off = [ratio for what, ratio in found.items() if what.startswith("load off center") and "sideways" not in what]
    assert found["compression"] == central
    assert all(ratio >= central**2 for ratio in off)
    assert bool(off) == (e > 0 or other > 0)


@quick
@given(load=forces, more=st.integers(1, 5000))
def test_more_load_never_lowers_a_ratio(load: int, more: int) -> None:
    small, large = (
        ratios(checked(post=[post(carries=[{"what": "floor", "live": f"{P} lb"}], eccentricity="1/2 in")]), "P")
        for P in (load, load + more)
    )
    assert all(large[what] >= small[what] for what in small.keys() & large.keys())


def test_metric_is_the_same_post() -> None:
    imperial = ratios(checked(post=[post(eccentricity="1 in")]), "P")
    carries = [{"what": "floor", "dead": "8.896443230521 kN", "live": "26.689329691563 kN"}]
    metric = ratios(checked(post=[post(height="2.4384 m", carries=carries, eccentricity="25.4 mm")]), "P")
    assert metric == pytest.approx(imperial, rel=1e-9)


def test_loads_in_another_order_are_the_same_post() -> None:
    loads = [{"what": "a", "dead": "900 lb"}, {"what": "b", "snow": "800 lb"}, {"what": "c", "live": "700 lb"}]
    one, other = (ratios(checked(post=[post(carries=order)]), "P") for order in (loads, loads[::-1]))
    assert one == pytest.approx(other, rel=1e-12)
