"""Deflection against closed forms: K_cr, limits by finish, overhangs, one's own limits (NDS 2018 3.5, IBC, IRC)."""

from __future__ import annotations

import math
from types import SimpleNamespace
from typing import Any

import numpy as np
import pytest

from beamcheck.checks.beams.bracing import Span
from beamcheck.checks.beams.deflection import _promising

from .beams import SAWN, beam, find, floor, known, result_of, said, seat, step, stock

WOOD = known("6 in x 12 in")
I_X, A, E, L = 6 * 12**3 / 12, 72.0, 1.4e6, 144.0
OWN = 5 / 1728 * A


E_SF = 1.03 * E  # NDS 2018 Appendix F (memory): the modulus that goes with a shear deflection of its own


def sag(w: float, L: float = L) -> float:
    """5 w L^4/(384 * 1.03 E I) + w L^2/(8 G 5/6 A), G = E/16: at 12 depths more than bending alone on E."""
    return 5 * w * L**4 / (384 * E_SF * I_X) + w * L**2 / (8 * (E / 16) * (5 / 6) * A)


class TestSimpleSpan:
    def test_live_and_total(self) -> None:
        """Live load alone over L/360; half the dead load's sag plus the live one's over L/240 (IBC note d, read)."""
        result = result_of(beam(carries=[floor(dead="120 plf", live="240 plf")]), wood=WOOD)
        live, total = find(result, "deflection under live load"), find(result, "total deflection")
        assert live.demand == pytest.approx(sag(20))
        assert live.capacity == pytest.approx(L / 360)
        assert total.demand == pytest.approx(0.5 * sag(10 + OWN) + sag(20))
        assert total.capacity == pytest.approx(L / 240)

    def test_a_round_piece(self) -> None:
        """pi D^4/64, and 0.9 of the area in shear (Timoshenko's coefficient of a circle, memory)."""
        found = find(
            result_of(beam(carries=[floor(live="240 plf")]), wood=known("14 in round")), "deflection under live load"
        )
        area, inertia = math.pi * 14**2 / 4, math.pi * 14**4 / 64
        sags = 5 * 20 * L**4 / (384 * E_SF * inertia) + 20 * L**2 / (8 * (E / 16) * 0.9 * area)
        assert found.demand == pytest.approx(max(sags, 5 * 20 * L**4 / (384 * E * inertia)))
        assert sags > 5 * 20 * L**4 / (384 * E * inertia)  # shear counts here

    def test_unmetered_timber(self) -> None:
        """All of the dead load's sag counts unless a reading shows 19 % or less (IBC note d, read); creep is told."""
        wood = {key: value for key, value in WOOD.items() if key != "measured_moisture"}
        total = find(result_of(beam(carries=[floor(dead="120 plf")]), wood=wood), "total deflection")
        assert step(total, "s_D") == 1.0
        assert total.demand == pytest.approx(sag(10 + OWN))
        assert "in the long run, with creep, it comes to" in total.notes[1]
        assert f"length/{L / (2 * sag(10 + OWN)):.0f}" in total.notes[1]  # K_cr = 2.0 (NDS 2018 3.5.2, memory)

    def test_measured_lumber_needs_a_reading_to_be_dry(self) -> None:
        """A stamp says S-DRY of dressed lumber; nothing says it of what was measured on the spot."""
        for size, share in (("2x12", 0.5), ("1 1/2 in x 11 1/4 in", 1.0)):
            wood = stock(size, species="Hem-Fir", grade="No.2")
            del wood["measured_moisture"]
            result = result_of(beam(carries=[floor(dead="20 plf")]), wood=wood)
            assert step(find(result, "total deflection"), "s_D") == share

    def test_snow_and_roof_live_load(self) -> None:
        for kind in ("snow", "roof_live"):
            result = result_of(beam(carries=[floor(**{kind: "240 plf"})], service="roof"), wood=WOOD)
            found = find(result, "deflection under snow or roof live load")
            assert found.demand == pytest.approx(sag(20))

    def test_wind_counts_with_its_asd_share(self) -> None:
        """0.6 of strength-level W; never 0.42 of it here, which is for components and cladding loads."""
        result = result_of(beam(carries=[floor(wind="240 plf")], service="roof"), wood=WOOD)
        assert find(result, "deflection under wind").demand == pytest.approx(0.6 * sag(20))

    def test_a_moving_load_is_worst_in_the_middle(self) -> None:
        """P L^3/(48 E I) + P L/(4 G 5/6 A), out of the many places where it is tried; and on the tip of an overhang."""
        load = {"what": "person", "live": "1000 lb", "moves": True, "applied": "top", "bearing": "4 in"}
        found = find(result_of(beam(carries=[load]), wood=WOOD), "deflection under live load")
        GA = E / 16 * 5 / 6 * A
        assert found.demand == pytest.approx(1000 * L**3 / (48 * E_SF * I_X) + 1000 * L / (4 * GA))
        assert "load at 6 ft" in found.combination
        a = 72.0
        over = find(result_of(beam(carries=[load], length="18 ft"), wood=WOOD), "deflection under live load")
        tip = 1000 * a**2 * (L + a) / (3 * E_SF * I_X) + 1000 * a / GA * (1 + a / L)
        assert over.demand == pytest.approx(tip)

    @pytest.mark.parametrize(("service", "finish", "live", "total"), [
        ("floor", "plaster", 360, 240), ("floor", "none", 360, 240), ("roof", "plaster", 360, 240),
        ("roof", "gypsum board", 240, 180), ("roof", "none", 240, 120),
    ])  # fmt: skip
    def test_limits_by_finish(self, service: str, finish: str, live: int, total: int) -> None:
        """IBC Table 1604.3 and IRC R301.7 (read), the stricter of the two."""
        load = floor(dead="10 plf", snow="50 plf") if service == "roof" else floor(dead="10 plf", live="50 plf")
        result = result_of(beam(carries=[load], service=service, finish=finish), wood=WOOD)
        name = "deflection under snow or roof live load" if service == "roof" else "deflection under live load"
        assert find(result, name).capacity == pytest.approx(L / live)
        assert find(result, "total deflection").capacity == pytest.approx(L / total)


class TestMasonry:
    def test_limit_cap_and_referral(self) -> None:
        """L/600 in total, with creep, and at most 0.3 in (TMS 402, older text, memory); IBC 2304 restricts it."""
        short = result_of(beam(carries=[floor(dead="100 plf")], finish="masonry veneer"), wood=WOOD)
        assert find(short, "total deflection").capacity == pytest.approx(L / 600)
        assert step(find(short, "total deflection"), "K_cr") == 1.5
        assert short.verdict == "refer"
        assert "wood carry masonry" in said(short, "refer")
        ends = [seat("0 ft"), seat("20 ft")]
        long = result_of(beam(carries=[floor(dead="20 plf")], finish="masonry veneer", supports=ends), wood=WOOD)
        assert find(long, "total deflection").capacity == 0.3


class TestOverhang:
    def test_twice_its_length(self) -> None:
        """IBC Table 1604.3, IRC R301.7: L is twice the cantilever. Sag of the tip under w on the overhang a."""
        piece = beam(length="18 ft", carries=[floor(live="60 plf", **{"from": "12 ft"})])
        result = result_of(piece, wood=WOOD)
        found = find(result, "deflection under live load")
        w, a, GA = 5.0, 72.0, E / 16 * 5 / 6 * A
        R = w * a**2 / (2 * L)
        tip = w * a**4 / (8 * E_SF * I_X) + w * a**2 / 2 * L / (3 * E_SF * I_X) * a + w * a**2 / (2 * GA) + R / GA * a
        assert found.demand == pytest.approx(tip)
        assert found.capacity == pytest.approx(2 * a / 360)
        assert found.where.startswith("overhang")

    def test_a_tip_that_rises_is_a_deflection_too(self) -> None:
        piece = beam(length="18 ft", carries=[floor(live="240 plf", to="12 ft")])
        found = find(result_of(piece, wood=WOOD), "deflection under live load")
        tip = 20 * L**3 / (24 * E * I_X) * 72  # the slope over the support comes from bending alone
        assert found.demand == pytest.approx(tip, rel=1e-6)
        assert any("up" in each.note for each in found.steps if each.symbol == "Delta")

    def test_the_end_over_a_seat_is_no_overhang(self) -> None:
        """A seat's middle lies inside the end of the beam: the inch beyond it has no limit of its own."""
        piece = beam(length="150 in", supports=[seat("3 in"), seat("147 in")], carries=[floor(live="240 plf")])
        found = find(result_of(piece, wood=WOOD), "deflection under live load")
        assert found.where == "span from 3 in to 12 ft 3 in"


class TestOwnLimits:
    def test_laxer_ones_are_for_an_engineer(self) -> None:
        piece = beam(limit_live=240, limit_why="letter")
        result = result_of(piece, wood=WOOD)
        assert find(result, "deflection under live load").capacity == pytest.approx(L / 240)
        assert result.verdict == "refer"
        assert "laxer" in said(result, "refer")

    def test_stricter_ones_are_not(self) -> None:
        piece = beam(limit_live=480, limit_total=360, limit_why="stone floor", carries=[floor(live="20 plf")])
        result = result_of(piece, wood=WOOD)
        assert result.verdict == "passes"
        assert find(result, "deflection under live load").capacity == pytest.approx(L / 480)
        assert find(result, "total deflection").capacity == pytest.approx(L / 360)
        assert step(find(result, "total deflection"), "K_cr") == 1.5  # a limit of one's own counts creep


class TestShear:
    """NDS 2018 Appendix F (memory): a tabulated E holds the shear deflection of a span of 21 depths, some 3 %."""

    def test_a_slender_piece_bends_by_its_tabulated_E(self) -> None:
        """30 depths: 5 w L^4/(384 E I), as handbooks and span tables have it."""
        ends = [seat("0 ft"), seat("30 ft")]
        result = result_of(beam(carries=[floor(live="60 plf")], supports=ends), wood=WOOD)
        found = find(result, "deflection under live load")
        assert found.demand == pytest.approx(5 * 5 * 360**4 / (384 * E * I_X))
        assert any("shear deflection left out" in each.note for each in found.steps if each.symbol == "Delta")

    def test_the_two_ways_meet_where_the_table_was_made(self) -> None:
        """1.03 E with shear over E without: 1/1.03 + 15.36/(L/d)^2 is 1 at 22.96 depths, for E/G = 16 and 5/6 A."""
        for depths, longer in ((22.8, True), (23.1, False)):
            ends = [seat("0 ft"), seat(f"{12 * depths} in")]
            found = find(result_of(beam(carries=[floor(live="60 plf")], supports=ends), wood=WOOD),
                         "deflection under live load")  # fmt: skip
            bent = 5 * 5 * (12 * depths) ** 4 / (384 * E * I_X)
            assert found.demand == pytest.approx(bent * max(1.0, 1 / 1.03 + 15.36 / depths**2), rel=1e-9)
            assert (found.demand > bent * (1 + 1e-9)) is longer


def test_flat_use_bends_about_the_thin_way() -> None:
    """Laid flat, 6x12 has I = 12 x 6^3/12, and as a No.1 beam and stringer 0.90 of its E (NDS 2018 4.3.7, memory)."""
    ends = [seat("0 ft"), seat("6 ft")]
    wood = stock("6 in x 12 in", meant=SAWN)
    flat = result_of(beam(laid="flat", supports=ends, carries=[floor(live="120 plf")]), wood=wood)
    E_flat, I_flat, span = 0.9 * 1.6e6, 12 * 6**3 / 12, 72.0
    expected = 5 * 10 * span**4 / (384 * 1.03 * E_flat * I_flat) + 10 * span**2 / (8 * (E_flat / 16) * (5 / 6) * 72)
    assert find(flat, "deflection under live load").demand == pytest.approx(expected)


@pytest.mark.parametrize(("count", "overhang", "kept"), [
    (24, False, range(24)), (25, False, [*range(10), 11]), (25, True, [12]), (24, True, range(24)),
])  # fmt: skip
def test_of_many_combinations_those_near_the_worst_are_read(count: int, overhang: bool, kept: Any) -> None:
    """Of a bow of 1.00, 0.99 ... those down to 0.90 of the largest, and what rises as much. What comes down along a
    straight line (the twelfth) bends nothing between two supports; the tip of an overhang goes down with it."""

    def at(name: str, s: np.ndarray) -> np.ndarray:
        along = (s - 24.0) / 48.0
        return np.array([along, along * (1.0 - along)])

    passing = [np.array([0.0, 0.9999 - 0.01 * i]) for i in range(count)]
    passing[11], passing[12] = np.array([0.0, -1.0]), np.array([50.0, 0.5])
    one: Any = SimpleNamespace(dead=SimpleNamespace(value=1.0), lasting=[np.zeros(2)] * count, passing=passing)
    solved: Any = SimpleNamespace(lines=[(SimpleNamespace(at=at), "")])
    numbers, rows = _promising(solved, Span(24.0, 72.0, overhang), one)
    assert numbers.tolist() == list(kept) and rows.tolist() == [passing[i].tolist() for i in kept]
