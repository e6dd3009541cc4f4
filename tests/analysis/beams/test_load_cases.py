"""Load cases, patterns and combinations of a level piece, against lists written out by hand."""

from __future__ import annotations

import pytest

from beamcheck.analysis.beams.combinations import combine
from beamcheck.analysis.beams.load_cases import SETTLED, UPLIFT, Applied, Case, cases_for, patterns, spans_of
from beamcheck.analysis.beams.member_loads import TransferredLoad, applied_loads, self_weight, transferred_loads
from beamcheck.analysis.beams.solved_beam import BeamSupport, solve_beam
from beamcheck.model.loads import Load


def line(kind: str, w: float = 1.0, start: float = 0.0, end: float = 300.0, **more: object) -> Applied:
    return Applied(kind, start, end, w_start=w, w_end=w, **more)  # type: ignore[arg-type]


THREE = [(0.0, 100.0), (100.0, 200.0), (200.0, 300.0)]


class TestSpans:
    def test_supports_and_overhangs(self) -> None:
        assert spans_of(120.0, [12.0, 108.0]) == [(0.0, 12.0), (12.0, 108.0), (108.0, 120.0)]

    def test_a_hair_is_no_overhang(self) -> None:
        assert spans_of(120.0, [1e-9, 119.995]) == [(1e-9, 119.995)]


class TestPatterns:
    def test_three_spans(self) -> None:
        """All; 1 and 3; 2; the two beside each support; each alone (hand list)."""
        assert [(name, sorted(spans)) for name, spans in patterns(3)] == [
            ("", [0, 1, 2]), ("spans 1 and 3", [0, 2]), ("spans 2", [1]), ("spans 1 and 2", [0, 1]),
            ("spans 2 and 3", [1, 2]), ("span 1 alone", [0]), ("span 3 alone", [2]),
        ]  # fmt: skip

    def test_wind_up_in_one_span_and_down_in_the_next(self) -> None:
        """Two spans of 10 ft, 100 plf up on the first, down on the second: 7/16 w l and 1/16 w l, 500 lb of uplift at
        the first support (continuous beam of two equal spans, handbook coefficients, memory)."""
        loads = [line("W", -100.0 / 12.0, 0.0, 120.0), line("W", 100.0 / 12.0, 120.0, 240.0)]
        straight = solve_beam(
            240.0, [BeamSupport(0.0), BeamSupport(120.0), BeamSupport(240.0)], loads, depth=1e-6, EI=1e8, GA_s=1e12
        )
        assert straight.reaction_by_kind(0)["W"][1] == pytest.approx(-500.0, rel=1e-4)

    def test_dead_load_has_none_and_wind_blows_each_way_and_both(self) -> None:
        cases = cases_for([line("D"), line("L"), line("W"), line("W", -1.0)], THREE, 10.0)
        assert [case.pattern for case in cases if case.kind == "D"] == [""]
        assert [(case.pattern, len(case.loads)) for case in cases if case.kind == "W"] == [
            ("wind down", 1),
            ("wind up", 1),
            ("wind both ways", 2),
        ]
        assert sum(case.kind == "L" for case in cases) == 7

    def test_a_load_is_clipped_to_the_loaded_spans(self) -> None:
        """A load that grows from 0 to 3 over three spans: 1.5 x 300 = 450 in all, 50 + 250 in spans 1 and 3."""
        load = Applied("L", 0.0, 300.0, w_start=0.0, w_end=3.0)
        totals = {case.pattern: sum(one.total for one in case.loads) for case in cases_for([load], THREE, 10.0)}
        assert totals[""] == pytest.approx(450.0)
        assert totals["spans 1 and 3"] == pytest.approx(300.0)

    def test_a_point_load_over_a_support_belongs_to_both_spans(self) -> None:
        load = Applied("L", 100.0, 100.0, P=7.0)
        there = {case.pattern for case in cases_for([load, line("S")], THREE, 10.0) if case.kind == "L" and case.loads}
        assert there == {"", "spans 1 and 3", "spans 2", "spans 1 and 2", "spans 2 and 3", "span 1 alone"}

    def test_uplift_from_above_is_there_where_its_load_is_not(self) -> None:
        load = Applied("L", 50.0, 50.0, P=7.0, P_low=-2.0)
        P = {case.pattern: sum(one.P for one in case.loads) for case in cases_for([load], THREE, 10.0)}
        assert (P[""], P["spans 2"], P[UPLIFT]) == (7.0, -2.0, -2.0)

    def test_a_line_load_that_lifts(self) -> None:
        loads = [line("L", 3.0), line("L", -1.0)]
        totals = {case.pattern: sum(one.total for one in case.loads) for case in cases_for(loads, THREE, 10.0)}
        assert (totals[""], totals["spans 1 and 3"], totals[UPLIFT]) == (900.0, 600.0 - 100.0, -300.0)

    def test_load_on_one_side_of_a_place(self) -> None:
        """ASCE 7-16 4.3.3: for the shear at 120 in span 2: from there on with span 1, or up to there with span 3."""
        cases = cases_for([line("L")], THREE, 10.0, parts=[120.0])
        parts = {case.words: [(one.start, one.end) for one in case.loads] for case in cases if case.words}
        assert parts == {
            "load from 10 ft and in span 1": [(0.0, 100.0), (120.0, 200.0)],
            "load up to 10 ft and in span 3": [(100.0, 120.0), (200.0, 300.0)],
        }

    def test_a_place_at_a_support_has_no_sides(self) -> None:
        assert not [case for case in cases_for([line("L")], THREE, 10.0, parts=[0.0, 100.0, 300.0]) if case.words]


class TestMovingLoad:
    def test_it_stands_in_loaded_stretches_only(self) -> None:
        load = Applied("L", 150.0, 150.0, P=9.0, moves=True)
        cases = [case for case in cases_for([load, line("L")], THREE, 10.0, stands=[33.0]) if case.kind == "L"]
        stands = {
            spans: {one.start for case in cases if case.spans == spans for one in case.loads if one.is_point}
            for spans in ("", "spans 2", "span 1 alone")
        }
        assert {0.0, 5.0, 10.0, 33.0, 90.0, 100.0, 300.0} <= stands[""]
        assert min(stands["spans 2"]) == 100.0 and max(stands["spans 2"]) == 200.0
        assert 33.0 in stands["span 1 alone"]
        assert all(len([one for one in case.loads if one.is_point]) == 1 for case in cases)

    def test_alone_it_needs_no_patterns(self) -> None:
        load = Applied("L", 150.0, 150.0, P=9.0, moves=True)
        assert {case.spans for case in cases_for([load, line("D")], THREE, 10.0) if case.kind == "L"} == {""}

    def test_no_two_places_share_a_name(self) -> None:
        load = Applied("L", 150.0, 150.0, P=9.0, moves=True)
        cases = cases_for([load], THREE, 10.0, stands=[50.0 + i * 1e-3 for i in range(5)])
        assert len({case.pattern for case in cases}) == len(cases)


class TestCombinations:
    """ASCE 7-16 2.4.1 (memory) and NDS 2018 2.3.2."""

    def test_floor_and_snow(self) -> None:
        cases = [Case("D", "", (line("D"),)), Case("L", "", (line("L"),)), Case("S", "", (line("S"),))]
        found = {one.name: (one.factors, one.C_D) for one in combine(cases)}
        assert found == {
            "D": ((1.0, 0.0, 0.0), 0.9), "D + L": ((1.0, 1.0, 0.0), 1.0), "D + S": ((1.0, 0.0, 1.0), 1.15),
            "D + 0.75 L": ((1.0, 0.75, 0.0), 1.0), "0.6 D": ((0.6, 0.0, 0.0), 0.9),
            "D + 0.75 L + 0.75 S": ((1.0, 0.75, 0.75), 1.15),
        }  # fmt: skip

    def test_wind(self) -> None:
        cases = [Case("D", "", (line("D"),)), Case("W", "wind up", (line("W", -1.0),))]
        found = {one.name: one.C_D for one in combine(cases)}
        assert found == {
            "D": 0.9, "D + 0.6 W, wind up": 1.6, "D + 0.45 W, wind up": 1.6, "0.6 D + 0.6 W, wind up": 1.6,
        }  # fmt: skip

    def test_a_pattern_takes_all_variable_loads_along(self) -> None:
        cases = cases_for([line("D"), line("L"), line("S")], THREE[:2], 10.0)
        for one in combine(cases):
            used = {
                case.pattern for case, factor in zip(cases, one.factors, strict=True) if factor and case.kind != "D"
            }
            assert len(used) <= 1
            assert not used or one.name.endswith(used.pop())

    def test_a_load_that_is_elsewhere_lends_no_duration(self) -> None:
        """Snow on span 2 only: with span 1 alone loaded there is no snow, and no 1.15."""
        cases = cases_for([line("D"), line("L"), line("S", start=100.0, end=200.0)], THREE[:2], 10.0)
        for one in combine(cases):
            if "spans 1" in one.name:
                assert one.C_D <= 1.0

    def test_settled_and_not(self) -> None:
        cases = [Case("D", "", (line("D"),)), Case("L", "", (line("L"),)), Case(SETTLED, "", ())]
        found = {one.name: one.factors[2] for one in combine(cases)}
        assert found["D + L"] == 0.0
        assert found["D + L, supports settled"] == 1.0
        assert {one.C_D for one in combine(cases)} == {0.9, 1.0}

    def test_nothing_is_no_combination(self) -> None:
        assert combine([Case("L", "", ())]) == []


class TestFromTheJob:
    def test_kinds_places_and_widths(self) -> None:
        """0.1 psi on 48 in; a load of nothing is no load; it ends with the beam."""
        data = {"what": "floor", "dead": "14.4 psf", "live": "0 psf", "width": "4 ft", "from": "10 in", "to": "150 in"}
        (found,) = applied_loads([Load.model_validate(data)], 144.0)
        assert (found.kind, found.start, found.end, found.applied) == ("D", 10.0, 144.0, "unknown")
        assert found.w_start == pytest.approx(4.8)

    def test_too_short_to_be_spread(self) -> None:
        data = {"what": "edge", "live": "1200 plf", "from": "143.995 in", "to": "144 in"}
        (found,) = applied_loads([Load.model_validate(data)], 144.0)
        assert found.is_point
        assert pytest.approx(0.5) == found.P

    def test_own_weight(self) -> None:
        found = self_weight(0.02, 60.0, 144.0)
        assert (found.total, found.own) == (pytest.approx(172.8), True)


class TestFromOtherPieces:
    def test_a_beam(self) -> None:
        transfer = TransferredLoad(
            "A", {"D": (300.0, 300.0), "L": (500.0, -70.0), "S": (0.0, 0.0), "W": (90.0, -40.0)}, at=30.0
        )
        found = [(one.kind, one.start, one.P, one.P_low) for one in transferred_loads([transfer], 144.0)]
        assert found == [
            ("D", 30.0, 300.0, None),
            ("L", 30.0, 500.0, -70.0),
            ("W", 30.0, 90.0, None),
            ("W", 30.0, -40.0, None),
        ]

    def test_dead_load_that_pulls_up(self) -> None:
        (found,) = transferred_loads([TransferredLoad("A", {"D": (-60.0, -60.0)}, at=30.0)], 144.0)
        assert found.P == -60.0

    def test_rafters_side_by_side(self) -> None:
        """Each sign of a variable load is a load of its own: what lifts may come without what presses."""
        transfer = TransferredLoad("R", {"D": (240.0, 240.0), "S": (480.0, -48.0), "W": (0.0, -96.0)}, spread=24.0)
        found = [(one.kind, one.w_start, one.end) for one in transferred_loads([transfer], 144.0)]
        assert found == [("D", 10.0, 144.0), ("S", 20.0, 144.0), ("S", -2.0, 144.0), ("W", -4.0, 144.0)]

    def test_a_load_that_only_lifts_is_there_alone(self) -> None:
        (found,) = transferred_loads([TransferredLoad("A", {"L": (0.0, -70.0)}, at=30.0)], 144.0)
        cases = {case.pattern: sum(one.P for one in case.loads) for case in cases_for([found], THREE[:1], 10.0)}
        assert cases == {"": 0.0, UPLIFT: -70.0}
