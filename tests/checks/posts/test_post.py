"""Posts: published columns as jobs, the load off center worked by hand, properties, what keeps one from passing."""

from __future__ import annotations

from typing import Any

import numpy as np
import pytest

from beamcheck.calc.pad import SilentPad
from beamcheck.checks.core.context import Context
from beamcheck.checks.core.wood.material import Factor, Property, WoodMaterial
from beamcheck.checks.core.wood.strength import Bracing, Section, bending_with_compression
from beamcheck.checks.posts.result import post_result
from beamcheck.model.posts import Post
from beamcheck.model.reading.reader import job_from_data

from ..houses import (
    FOOTING,
    SIX_BY_SIX,
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
from .by_hand import LIVE, own_weight_of_post, structure_of


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
