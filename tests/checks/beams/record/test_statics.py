"""Forces of a level beam against closed forms written out here; C_D; patterns; loads that move; lift; settlement."""

from __future__ import annotations

import pytest

from ..beams import LONG, Data, beam, begins, checked, find, floor, known, result_of, said, seat, step, stock

OWN = 5 / 1728  # lbf/in3, the weight of `known` wood


def own(b: float, d: float) -> float:
    return OWN * b * d


def free(at: str, **more: object) -> Data:
    """A seat that lets nothing be left out of the shear."""
    return {"at": at, "on": "wall", "restrained": True, **more}


def sheared(d: float, L: float, stiffer: float = 1.0) -> float:
    """What divides the moment over the middle of two equal spans: 1 + 3 E I/(k G A L^2), with k G/E = 5/96."""
    return 1 + 3 * stiffer * (d**2 / 12) / (5 / 96 * L**2)


class TestSimpleSpan:
    def test_uniform_load(self) -> None:
        """M = w L^2/8, V = w L/2 with the full shear, R = w L/2."""
        piece = beam(supports=[free("0 ft"), free("10 ft")], carries=[floor(live="200 plf")])
        result = result_of(piece, wood=known("6 in x 12 in"))
        w = 200 / 12 + own(6, 12)
        assert step(find(result, "bending"), "M") == pytest.approx(w * 120**2 / 8)
        assert step(find(result, "shear"), "V") == pytest.approx(w * 60)
        assert "needs about" in said(result, "refer")  # no seat given, so the length is asked for

    def test_point_load_off_the_middle(self) -> None:
        """M = P a b/L under it, V = P b/L on the near side."""
        load = floor(live="2000 lb", at="4 ft", bearing="6 in")
        piece = beam(supports=[free("0 ft"), free("12 ft")], carries=[load])
        result = result_of(piece, wood=known("6 in x 12 in"))
        w = own(6, 12)
        assert step(find(result, "bending"), "M") == pytest.approx(2000 * 48 * 96 / 144 + w * 48 * 96 / 2, rel=1e-6)
        assert step(find(result, "shear"), "V") == pytest.approx(2000 * 96 / 144 + w * 72)

    def test_reactions_go_down(self) -> None:
        """What a beam hands to the next one is its reaction by kind: 1000 lb at a third gives 2/3 and 1/3."""
        above = beam(name="A", carries=[floor(live="1000 lb", at="4 ft", bearing="6 in")], supports=[
            seat("0 ft", on="B", lands_at="5 ft"), seat("12 ft")])  # fmt: skip
        below = beam(carries=[], supports=[free("0 ft"), free("10 ft")])
        result = result_of(below, above, wood=known("6 in x 12 in"))
        w, R = own(6, 12), 2000 / 3 + own(6, 12) * 72
        assert step(find(result, "bending"), "M") == pytest.approx(R * 120 / 4 + w * 120**2 / 8)

    def test_lengths_that_meet_only_within_rounding(self) -> None:
        """Metres and millimetres: no sliver of load, no overhang of a hair."""
        loads = [
            floor(what="left", live="2 kN/m", to="1200 mm"), floor(what="right", live="2 kN/m", **{"from": "1.2 m"})
        ]  # fmt: skip
        piece = beam(length="3.6 m", supports=[seat("0 m"), seat("3600.1 mm")], carries=loads)
        result = result_of(piece, wood=known("150 mm x 300 mm"))
        w = 2000 / 4.4482216152605 / (1000 / 25.4) + OWN * 150 * 300 / 25.4**2
        L = 3600.1 / 25.4
        assert step(find(result, "bending"), "M") == pytest.approx(w * L**2 / 8, rel=1e-6)
        assert not begins(result, "bending with the bottom edge")


class TestDuration:
    """NDS 2018 2.3.2: the shortest load that is there; Table 2.3.2 (read)."""

    @pytest.mark.parametrize(("kinds", "C_D"), [
        ({"dead": "100 plf"}, 0.9), ({"dead": "10 plf", "live": "100 plf"}, 1.0),
        ({"dead": "10 plf", "snow": "100 plf"}, 1.15), ({"dead": "10 plf", "roof_live": "100 plf"}, 1.25),
        ({"dead": "10 plf", "wind": "200 plf"}, 1.6), ({"dead": "100 plf", "snow": "1 plf"}, 0.9),
        ({"dead": "100 plf", "live": "0 plf", "snow": "0 plf", "wind": "0 plf"}, 0.9),
    ])  # fmt: skip
    def test_the_governing_combination_has_the_factor_of_its_loads(self, kinds: dict[str, str], C_D: float) -> None:
        result = result_of(beam(carries=[floor(**kinds)]), wood=known("6 in x 12 in"))
        assert step(find(result, "bending"), "C_D") == C_D

    def test_bearing_has_none(self) -> None:
        """C_D does not apply to F_c_perp (NDS 2018 Table 4.3.1, read)."""
        result = result_of(beam(carries=[floor(wind="200 plf")]), wood=known("6 in x 12 in"))
        assert find(result, "bearing at support 1 on wall").capacity == pytest.approx(400.0)
        assert find(result, "shear").capacity == pytest.approx(1.6 * 150)


class TestSpans:
    def test_two_spans_with_live_load_on_one(self) -> None:
        """49 w L^2/512 in the span, 7/16 w L at its end, w L/16 of uplift at the far one (reference, derived)."""
        piece = beam(supports=[seat("0 ft"), seat("20 ft"), seat("40 ft")], carries=[floor(live="120 plf")])
        result = result_of(piece, wood=known("6 in x 8 in", F_b=9000))
        L, w, o = 240.0, 10.0, own(6, 8)
        bending = find(result, "bending")
        # own weight in both spans: 9/128 w L^2 at 3/8 L; with the live load's peak at 7/16 L the sum peaks between
        s = [k * L / 2000 for k in range(2001)]
        peak = max((7 / 16 * w + 3 / 8 * o) * L * x - (w + o) * x * x / 2 for x in s)
        assert step(bending, "M") == pytest.approx(peak, rel=0.003)
        assert bending.combination == "D + L, spans 1" or "span" in bending.combination
        hogging = find(result, "bending with the bottom edge pressed")
        assert step(hogging, "M") == pytest.approx((w + o) * L**2 / 8)  # shear deflection would ease it
        assert hogging.combination == "D + L"
        uplift = find(result, "uplift at support 3 on wall")
        assert uplift.demand == pytest.approx((w / 16 + o / 8) * L - o * L / 2)
        assert uplift.verdict == "refer"  # what holds it down is not said, and it may well be held
        assert [one.id for one in uplift.questions] == ["B/uplift at support 3"]

    def test_overhang(self) -> None:
        """w a^2/2 over the support; load on the overhang alone lifts the far end by w a^2/(2 L)."""
        piece = beam(length="16 ft", supports=[seat("0 ft"), seat("12 ft")], carries=[floor(live="240 plf")])
        result = result_of(piece, wood=known("6 in x 12 in"))
        w, o, a, L = 20.0, own(6, 12), 48.0, 144.0
        assert step(find(result, "bending with the bottom edge pressed"), "M") == pytest.approx((w + o) * a**2 / 2)
        lifted = w * a**2 / (2 * L) - o * (L**2 - a**2) / (2 * L)
        assert find(result, "uplift at support 1 on wall").demand == pytest.approx(lifted)
        # load in the span alone: the overhang only weighs
        R = w * L / 2 + o * (L**2 - a**2) / (2 * L)
        assert step(find(result, "bending"), "M") == pytest.approx(R**2 / (2 * (w + o)))

    def test_every_span_is_tried_alone(self) -> None:
        """Four spans, load in all: an inner span bends more with its neighbors empty."""
        places = [seat(f"{x} ft") for x in (0, 12, 24, 36, 48)]
        result = result_of(
            beam(supports=places, carries=[floor(live="240 plf")], meant=LONG), wood=known("4 in x 8 in", F_b=9000)
        )
        assert find(result, "bending").combination == "D + L, spans 1 and 3"
        w, L, o = 20.0, 144.0, own(4, 8)
        # continuous beam of four equal spans, 1 and 3 loaded: end span 0.100 w L^2 (beam tables, memory: 0.0996)
        assert step(find(result, "bending"), "M") == pytest.approx((0.0996 * w + 0.0772 * o) * L**2, rel=0.01)


class TestMovingLoad:
    def test_midspan_moment_and_full_shear(self) -> None:
        """P L/4 in the middle; beside the support all of P."""
        load = {"what": "person", "live": "1000 lb", "moves": True, "applied": "top", "bearing": "4 in"}
        piece = beam(supports=[free("0 ft"), free("12 ft")], carries=[load])
        result = result_of(piece, wood=known("6 in x 12 in"))
        w = own(6, 12)
        assert step(find(result, "bending"), "M") == pytest.approx(1000 * 144 / 4 + w * 144**2 / 8)
        assert step(find(result, "shear"), "V") == pytest.approx(1000 + w * 72, rel=1e-4)

    def test_at_d_from_the_face_of_a_full_seat(self) -> None:
        """NDS 2018 3.4.3.1: at d from the face (L - 2.75 - 12)/L of it is shear; own weight counts from there on."""
        load = {"what": "person", "live": "1000 lb", "moves": True, "applied": "top", "bearing": "4 in"}
        result = result_of(beam(carries=[load]), wood=known("6 in x 12 in"))
        w, x = own(6, 12), 2.75 + 12
        assert step(find(result, "shear"), "V") == pytest.approx(1000 * (144 - x) / 144 + w * (72 - x))

    def test_at_the_edge_of_a_cut(self) -> None:
        """A hole from 50 to 52 in: with the load at its edge V = P (1 - 50/144)."""
        load = {"what": "person", "live": "1000 lb", "moves": True, "applied": "top", "bearing": "4 in"}
        hole = {"kind": "hole", "at": "51 in", "depth": "2 in", "from_bottom": "6 in"}
        result = result_of(beam(carries=[load], cuts=[hole]), wood=known("6 in x 12 in"))
        w = own(6, 12)
        assert step(begins(result, "shear at 2 in hole")[0], "V") == pytest.approx(1000 * 94 / 144 + w * 22)

    def test_a_second_span_is_walked_too(self) -> None:
        load = {"what": "person", "live": "1000 lb", "moves": True, "applied": "top", "bearing": "4 in"}
        piece = beam(length="16 ft", carries=[load])
        result = result_of(piece, wood=known("6 in x 12 in"))
        w = own(6, 12)
        tip = find(result, "bending with the bottom edge pressed")
        assert step(tip, "M") == pytest.approx(1000 * 48 + w * 48**2 / 2)
        assert "load at 16 ft" in tip.combination


class TestPartialLoad:
    def test_a_hole_at_midspan_is_not_free_of_shear(self) -> None:
        """Load on one half only: V = w L/8 at midspan (ASCE 7-16 4.3.3, closed form); with all of it V would be nil."""
        hole = {"kind": "hole", "at": "72 in", "depth": "1 in", "from_bottom": "6 in"}
        result = result_of(beam(carries=[floor(live="240 plf")], cuts=[hole]), wood=known("6 in x 12 in"))
        found = begins(result, "shear at 1 in hole")[0]
        x = 71.5  # the left edge of the hole; load from there on: w (L - x)^2/(2 L), own weight w (L/2 - x)
        assert step(found, "V") == pytest.approx(20 * (144 - x) ** 2 / 288 + own(6, 12) * 0.5, rel=1e-9)
        assert "load from" in found.combination


class TestWindAndUplift:
    def test_lift_presses_the_bottom_edge(self) -> None:
        """0.6 D + 0.6 W with W up: M = (0.6 w_W - 0.6 w_D) L^2/8."""
        piece = beam(service="roof", carries=[floor(wind="-240 plf", dead="60 plf")])
        result = result_of(piece, wood=known("6 in x 12 in"))
        found = find(result, "bending with the bottom edge pressed")
        assert found.combination == "0.6 D + 0.6 W, wind up"
        assert step(found, "M") == pytest.approx(0.6 * (20 - 5 - own(6, 12)) * 144**2 / 8)
        assert find(result, "uplift at support 1 on wall").verdict == "refer"
        assert "some load lifts" in find(result, "shear").notes[0]

    def test_said_to_be_tied_down_is_for_an_engineer(self) -> None:
        ends = [seat("0 ft", tied_down="strap"), seat("12 ft", tied_down="strap")]
        piece = beam(service="roof", supports=ends, carries=[floor(wind="-100 plf")])
        result = result_of(piece, wood=known("6 in x 12 in"))
        assert result.verdict == "refer"
        assert "'strap', which is not checked" in said(result, "refer")

    def test_wind_blows_one_way_at_a_time(self) -> None:
        """What presses on one half is not eased by what lifts the other: 9/128 w L^2 under the pressing half alone."""
        halves = [
            floor(what="press", wind="240 plf", to="6 ft"),
            floor(what="lift", wind="-240 plf", **{"from": "6 ft"}),
        ]
        result = result_of(beam(service="roof", carries=halves), wood=known("6 in x 12 in", F_b=500))
        found = find(result, "bending")
        assert "wind down" in found.combination
        assert step(found, "M") == pytest.approx((9 / 128 * 0.6 * 20 + own(6, 12) / 8) * 144**2, rel=0.02)

    def test_uplift_from_above_counts_without_what_presses(self) -> None:
        """A beam whose overhang lifts its far end pulls on what it rests on, also when nothing else stands there."""
        above = beam(name="A", length="20 ft", carries=[floor(live="100 plf", **{"from": "12 ft"})], supports=[
            seat("0 ft", on="B", lands_at="6 ft"), seat("12 ft")])  # fmt: skip
        result = result_of(beam(carries=[]), above, wood=known("4 in x 6 in"))
        lift = 100 * 8 * 4 / 12  # moments about the inner support
        w = own(4, 6)
        dead = w * 144 / 2 - w * 96**2 / 288
        found = find(result, "uplift at support 1 on wall")
        assert found.demand == pytest.approx((lift - dead) / 2 - w * 72)
        assert "uplift from above" in found.combination


class TestSettlement:
    def test_with_and_without_and_never_a_pass(self) -> None:
        """Two spans, the middle support down by s: it takes 3 E I s/L^2 off the hogging moment (closed form)."""
        ends = [seat("0 ft"), seat("20 ft", settles="1/4 in"), seat("40 ft")]
        result = result_of(beam(supports=ends, carries=[floor(dead="120 plf")]), wood=known("6 in x 8 in", F_b=9000))
        L, w = 240.0, 10 + own(6, 8)
        EI = 1.4e6 * 6 * 8**3 / 12
        hogging = find(result, "bending with the bottom edge pressed")
        assert step(hogging, "M") == pytest.approx(w * L**2 / 8)
        assert hogging.combination == "D"  # without the settlement it is the larger
        sagging = find(result, "bending")
        assert sagging.combination == "D, supports settled"
        # with shear deflection, beside which E counts 1.03 times; without it less of the moment goes
        M_b = min(
            (w * L**2 / 8 - 3 * 1.03 * EI * 0.25 / L**2) / sheared(8, L, 1.03), w * L**2 / 8 - 3 * EI * 0.25 / L**2
        )
        R = w * L / 2 - M_b / L
        assert step(sagging, "M") == pytest.approx(R**2 / (2 * w))
        assert "goes down by" in said(result, "refer")


class TestWhatCannotStand:
    def test_a_beam_that_turns(self) -> None:
        """Two supports would hold it; the one support of a clamped cantilever does, and is for an engineer."""
        piece = beam(
            length="4 ft", supports=[{"at": "0 ft", "on": "wall", "holds": "fixed"}], carries=[floor(live="50 plf")]
        )
        result = result_of(piece, wood=known("6 in x 12 in"))
        w = 50 / 12 + own(6, 12)
        assert step(find(result, "bending with the bottom edge pressed"), "M") == pytest.approx(w * 48**2 / 2)
        assert "cannot turn" in said(result, "refer")
        assert find(result, "deflection under live load").capacity == pytest.approx(2 * 48 / 360)

    def test_no_load_is_still_its_own_weight(self) -> None:
        result = result_of(beam(carries=[]), wood=stock())
        assert result.verdict == "refer"  # a floor without live load is not described to its end
        assert find(result, "bending").combination == "D"
        assert find(result, "bending").ratio is not None


def test_a_job_of_several_beams_is_worst_first() -> None:
    bad = beam(name="bad", carries=[floor(live="5000 plf")])
    assert checked(beam(), bad).verdict == "fails"
