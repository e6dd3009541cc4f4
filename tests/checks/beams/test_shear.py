"""What may be left out of the shear near a seat, and what may not (NDS 2018 3.4.3.1, memory)."""

from __future__ import annotations

from typing import Any

import pytest

from .beams import LONG, Data, beam, find, floor, known, result_of, seat, step

D, HALF, L = 12.0, 2.75, 144.0  # in: depth, half of a seat, span
OWN = 5 / 1728 * 6 * D
WOOD = known("6 in x 12 in")


def V(piece: Data) -> float:
    return step(find(result_of(piece, wood=WOOD), "shear"), "V")


def P(x: float, **more: Any) -> Data:
    """1000 lb at x from the middle of the left seat."""
    return floor(what="P", live="1000 lb", at=f"{x!r} in", bearing="6 in", **more)


class TestAllowance:
    def test_line_load_within_d_of_the_face(self) -> None:
        assert V(beam(carries=[floor(live="240 plf")])) == pytest.approx((20 + OWN) * (L / 2 - HALF - D))

    @pytest.mark.parametrize("x", [0.5, 4.0, 8.0, 11.99])
    def test_a_point_load_nearer_than_d_counts_x_over_d(self, x: float) -> None:
        """NDS 2018 3.4.3.1(a): x from the face; the load itself is multiplied by x/d, then the beam is worked out."""
        at = HALF + x
        near = x / D * 1000 * (1 - at / L) + OWN * (L / 2 - HALF - D)
        far = 1000 * at / L + OWN * (L / 2 - HALF - D)  # at the other end, with the load in full
        assert V(beam(carries=[P(at)])) == pytest.approx(max(near, far))

    @pytest.mark.parametrize("at", [0.5, 2.0, HALF])
    def test_a_point_load_over_the_seat_counts_for_nothing_there(self, at: float) -> None:
        own = OWN * (L / 2 - HALF - D)
        assert V(beam(carries=[P(at)])) == pytest.approx(own + 1000 * at / L)  # at the other end, in full
        both = [P(at), P(L - at)]
        assert V(beam(carries=both)) == pytest.approx(own)

    @pytest.mark.parametrize(("at", "near"), [(15.25, False), (15.24, True), (128.75, False), (128.76, True)])
    def test_a_cut_just_a_depth_from_the_face(self, at: float, near: bool) -> None:
        """A hole of 1 in: its edge 2 3/4 + 12 in from the middle of the left seat, as far from that of the right."""
        hole = {"kind": "hole", "at": f"{at} in", "depth": "1 in", "from_bottom": "6 in"}
        off = OWN * (HALF + D) if not near else 0.0
        assert V(beam(carries=[], cuts=[hole])) == pytest.approx(OWN * L / 2 - off)

    def test_the_steps_say_where_it_is_and_what_is_left_out(self) -> None:
        side = {"applied": "side", "fastened": {"highest": "1 in", "lowest": "2 in"}}
        hung = {key: value for key, value in {**P(30.0), **side}.items() if key != "bearing"}
        for load, words in ((P(8.0), "at 0 in, with the loads nearer than d cut down before it"), (hung, "at 0 in")):
            found = find(result_of(beam(carries=[load]), wood=WOOD), "shear")
            note = next(one.note for one in found.steps if one.symbol == "V")
            assert note == f"from the analysis, {words}"

    def test_a_point_load_near_each_seat(self) -> None:
        """NDS 2018 3.4.3.1(a): both are multiplied before the analysis: x/d P (1 - a/L) + x/d P a/L."""
        at = HALF + 8.0
        both = 8.0 / D * 1000 + OWN * (L / 2 - HALF - D)
        assert V(beam(carries=[P(at), P(L - at)])) == pytest.approx(both)

    def test_one_end_without_a_seat(self) -> None:
        """Hung at the right: only the load within d of the left face is left out, so V = w (L - a)^2 / (2 L) there."""
        w = 20 + OWN
        ends = [seat("0 ft"), seat("12 ft", holds="hung")]
        a = HALF + D
        found = find(result_of(beam(carries=[floor(live="240 plf")], supports=ends), wood=WOOD), "shear")
        assert step(found, "V") == pytest.approx(max(w * L / 2, w * (L - a) ** 2 / (2 * L)))

    @pytest.mark.parametrize("x", [D, D + 1e-7, D - 1e-7])
    def test_a_point_load_at_d_counts_in_full(self, x: float) -> None:
        """At d the share is 1; it is neither dropped nor counted twice."""
        at = HALF + x
        assert V(beam(carries=[P(at)])) == pytest.approx(1000 * (1 - at / L) + OWN * (L / 2 - HALF - D), rel=1e-6)

    def test_it_is_the_same_from_the_other_end(self) -> None:
        assert V(beam(carries=[P(10.0)])) == pytest.approx(V(beam(carries=[P(L - 10.0)])))

    def test_more_than_d_away_nothing_changes(self) -> None:
        full = beam(carries=[P(40.0)], supports=[{"at": "0 ft", "on": "wall"}, {"at": "12 ft", "on": "wall"}])
        assert V(full) - V(beam(carries=[P(40.0)])) == pytest.approx(OWN * (HALF + D))

    def test_an_inner_support(self) -> None:
        """Two spans under load: d from the face of the middle seat, on the side of the larger shear."""
        ends = [seat("0 ft"), seat("12 ft"), seat("24 ft")]
        loads = [floor(dead="240 plf")]
        w = 20 + OWN  # shear flexibility eases the middle support, so that leaving it out is the worse
        at_middle = w * L / 2 + w * L / 8
        assert V(beam(supports=ends, carries=loads)) == pytest.approx(at_middle - w * (HALF + D))


def full(piece: Data, why: str) -> None:
    """The whole shear is taken, and the check says why."""
    found = find(result_of(piece, wood=WOOD), "shear")
    assert any(why in note for note in found.notes), found.notes
    assert step(found, "V") > 20 * (L / 2 - HALF - D) * 1.02


class TestFullShear:
    LOAD = (floor(live="240 plf"),)

    def test_no_seat_shown(self) -> None:
        full(beam(carries=[*self.LOAD], supports=[{"at": "0 ft", "on": "wall"}, seat("12 ft")]), "full seat")

    def test_a_hanger(self) -> None:
        full(beam(carries=[*self.LOAD], supports=[seat("0 ft", holds="hung"), seat("12 ft")]), "full seat")

    def test_a_clamped_end(self) -> None:
        full(beam(carries=[*self.LOAD], supports=[seat("0 ft", holds="fixed"), seat("12 ft")]), "full seat")

    def test_a_narrow_seat(self) -> None:
        full(beam(carries=[*self.LOAD], supports=[seat("0 ft", bearing_width="4 in"), seat("12 ft")]), "narrower")

    @pytest.mark.parametrize("applied", ["side", "below", None])
    def test_a_load_that_is_not_on_the_top(self, applied: str | None) -> None:
        load = {"what": "floor", "live": "240 plf", **({"applied": applied} if applied else {})}
        full(beam(carries=[load]), "not all loads")

    def test_a_load_called_like_the_own_weight(self) -> None:
        """Only the weight that the tool adds is known to be spread through the beam."""
        full(
            beam(carries=[*self.LOAD, {"what": "self weight", "live": "100 plf", "applied": "below"}]), "not all loads"
        )

    def test_a_load_that_lifts(self) -> None:
        full(beam(carries=[*self.LOAD, floor(wind="-1 plf")]), "some load lifts")

    def test_a_cut_within_d_of_the_seat(self) -> None:
        near = {"kind": "hole", "at": "14 in", "depth": "1 in", "from_bottom": "6 in"}
        full(beam(carries=[*self.LOAD], cuts=[near]), "cut near the support")
        far = {**near, "at": "40 in"}
        assert V(beam(carries=[*self.LOAD], cuts=[far])) == pytest.approx(V(beam(carries=[*self.LOAD])))

    def test_a_span_that_lies_within_d_of_its_seats(self) -> None:
        """Two depths between the faces: all of the load would be left out."""
        ends = [seat("0 ft"), seat("29 in")]
        found = find(result_of(beam(supports=ends, carries=[*self.LOAD], meant=LONG), wood=WOOD), "shear")
        assert step(found, "V") == pytest.approx((20 + OWN) * 29 / 2)
        assert "too short" in found.notes[0]


class TestStress:
    def test_a_rectangle_and_a_round(self) -> None:
        """3 V/(2 A) and 4 V/(3 A) (NDS 2018 3.4.2)."""
        for wood, factor, area in ((WOOD, 1.5, 72.0), (known("10 in round"), 4 / 3, 25 * 3.141592653589793)):
            found = find(result_of(beam(), wood=wood), "shear")
            assert found.demand == pytest.approx(factor * step(found, "V") / area)


@pytest.mark.parametrize(("width", "left_out"), [("6 in", True), ("6.1 in", True), ("5.99 in", False)])
def test_a_seat_as_wide_as_the_piece_is_a_full_one(width: str, left_out: bool) -> None:
    """Of 6 in: what stands within d of a narrower seat counts in full there."""
    seats = [seat("0 ft", bearing_width=width), seat("12 ft", bearing_width=width)]
    off = HALF + D if left_out else 0.0
    found = V(beam(carries=[floor(live="240 plf")], supports=seats))
    assert found == pytest.approx((20 + OWN) * (L / 2 - off))
