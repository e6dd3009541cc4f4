"""Sideways stability: which length counts and where nothing is needed, from the job to C_L (NDS 2018 3.3.3, 4.4.1)."""

from __future__ import annotations

import math

import pytest

from .beams import LONG, SAWN, Data, beam, find, floor, known, result_of, said, seat, step, stock

ENDS = {"top_held": "ends only"}


def load(at: str, **more: object) -> Data:
    """A joist that lands there."""
    return floor(what=f"P at {at}", live="500 lb", at=at, bearing="6 in", **{"comes_by": "beam", **more})


def l_e(piece: Data, wood: Data | None = None, what: str = "bending") -> float:
    return step(find(result_of(piece, wood=wood or known("2 1/2 in x 12 in")), what), "l_e")


class TestEffectiveLength:
    """NDS 2018 Table 3.3.3 (memory; 1.11 l_u read)."""

    def test_uniform_on_a_simple_span(self) -> None:
        """l_u/d = 12: 1.63 l_u + 3 d."""
        assert l_e(beam(**ENDS)) == pytest.approx(1.63 * 144 + 36)

    def test_the_row_for_uniform_load_needs_uniform_load(self) -> None:
        """Load on part of the span, or in one place: the row for any other loading."""
        long = [seat("0 ft"), seat("16 ft")]  # l_u/d = 16, where the rows differ
        assert l_e(beam(**ENDS, supports=long)) == pytest.approx(1.63 * 192 + 36)
        part = [floor(live="240 plf", to="10 ft")]
        assert l_e(beam(**ENDS, supports=long, carries=part)) == pytest.approx(1.84 * 192)
        assert l_e(beam(**ENDS, supports=long, carries=[load("8 ft")])) == pytest.approx(1.84 * 192)

    def test_braces_at_a_spacing(self) -> None:
        """2.06 l_u up to l_u/d = 7."""
        assert l_e(beam(top_held="4 ft")) == pytest.approx(2.06 * 48)
        assert l_e(beam(top_held="40 ft")) == l_e(beam(top_held="12 ft"))  # no longer than the span

    @pytest.mark.parametrize(
        ("n", "factor"), [(1, 1.11), (2, 1.68), (3, 1.54), (4, 1.68), (5, 1.73), (6, 1.78), (7, 1.84)]
    )
    def test_held_at_equal_loads(self, n: int, factor: float) -> None:
        loads = [load(f"{144 * (i + 1) / (n + 1)!r} in") for i in range(n)]
        piece = beam(top_held="at loads", carries=loads)
        assert l_e(piece) == pytest.approx(factor * 144 / (n + 1), rel=1e-6)

    @pytest.mark.parametrize("spoilt", [
        [load("4 ft"), load("9 ft")],  # uneven gaps
        [load("4 ft"), {**load("8 ft"), "live": "800 lb"}],  # uneven loads
        [load("4 ft"), {**load("8 ft"), "live": None, "dead": "500 lb"}],  # equal only together
        [load("4 ft"), load("8 ft"), floor(live="50 plf")],  # a spread load besides
    ])  # fmt: skip
    def test_otherwise_any_other_loading(self, spoilt: list[Data]) -> None:
        loads = [{key: value for key, value in one.items() if value is not None} for one in spoilt]
        gap = 60 if "9 ft" in str(spoilt) else 48
        assert l_e(beam(top_held="at loads", carries=loads)) == pytest.approx(2.06 * gap)

    def test_what_moves_or_hangs_below_holds_nothing(self) -> None:
        moving = {"what": "person", "live": "300 lb", "moves": True, "applied": "top", "bearing": "4 in"}
        hung = {"what": "lamp", "dead": "100 lb", "at": "6 ft", "applied": "below"}
        any_load = 1.63 * 144 + 36
        assert l_e(beam(top_held="at loads", carries=[moving])) == pytest.approx(any_load)
        assert l_e(beam(top_held="at loads", carries=[hung])) == pytest.approx(any_load)

    def test_heavy_own_weight_is_not_passed_over(self) -> None:
        """Light loads on a heavy beam: its own weight is the load, and the row for the point loads is not for it."""
        light = {**load("6 ft"), "live": "50 lb"}
        wood = known("2 1/2 in x 12 in") | {"density": "60 pcf"}
        assert l_e(beam(top_held="at loads", carries=[light]), wood) == pytest.approx(2.06 * 72)

    def test_an_overhang_counts_whole(self) -> None:
        """Bottom edge of a 6 ft overhang, held at 3 ft or at the supports only."""
        piece = beam(length="18 ft", carries=[floor(live="240 plf", **{"from": "12 ft"})], bottom_held="3 ft")
        held = find(result_of(piece, wood=known("2 1/2 in x 12 in")), "bending with the bottom edge pressed")
        assert step(held, "l_u") == 36.0
        piece = beam(length="18 ft", carries=[floor(live="240 plf", **{"from": "12 ft"})])
        loose = find(result_of(piece, wood=known("2 1/2 in x 12 in")), "bending with the bottom edge pressed")
        # with nothing on it the main span is bent the same way all along, and its bottom is held at its ends only
        assert step(loose, "l_u") == 144.0

    def test_uplift_leaves_the_deck_without_use(self) -> None:
        """The top held along its length does not hold the bottom edge (unsafe if missed)."""
        piece = beam(service="roof", carries=[floor(wind="-240 plf")])
        found = find(result_of(piece, wood=known("2 1/2 in x 12 in")), "bending with the bottom edge pressed")
        assert step(found, "C_L") < 1.0
        assert step(found, "l_u") == 144.0


class TestWhatHoldsAnEdge:
    """A closed list: beams, joists and rafters that bear on the top or are framed into the side (NDS 2018 3.3.3)."""

    @pytest.mark.parametrize(("by", "l_u"), [("beam", 72.0), ("post", 144.0), ("other", 144.0), (None, 144.0)])
    def test_a_force_of_the_job(self, by: str | None, l_u: float) -> None:
        one = {key: value for key, value in load("6 ft", comes_by=by).items() if value is not None}
        found = find(result_of(beam(top_held="at loads", carries=[one]), wood=known("2 1/2 in x 12 in")), "bending")
        assert step(found, "l_u") == l_u
        assert bool(found.questions) is (by is None)

    def test_a_post_of_the_job(self) -> None:
        """A post's foot braces nothing; a joist that lands does."""
        post = {
            "name": "P", "stock": "post", "height": "6 ft", "on": "B", "lands_at": "6 ft", "top_restraint": "pinned",
            "carries": [{"what": "roof", "live": "300 lb"}],
        }  # fmt: skip
        under = beam(top_held="at loads", carries=[floor(live="10 plf")])
        woods = {"wood": known("2 1/2 in x 12 in"), "stocks": [stock("4x4", name="post")]}
        assert step(find(result_of(under, post=[post], **woods), "bending"), "l_u") == 144.0
        joist = beam(name="J", supports=[seat("0 ft", on="B", lands_at="6 ft", bearing="2 1/2 in"), seat("8 ft")])
        assert step(find(result_of(under, joist, **woods), "bending"), "l_u") == 72.0


class TestBesideAMiddleSupport:
    """Two spans, the top held by a deck: the bottom is pressed beside the middle seat, which holds it if blocked."""

    def l_u(self, **more: object) -> float:
        ends = [seat("0 ft"), seat("12 ft", **more), seat("24 ft")]
        piece = beam(supports=ends, carries=[floor(live="60 plf")])
        found = find(result_of(piece, wood=known("2 in x 12 in")), "bending with the bottom edge pressed")
        return step(found, "l_u")

    def test_as_far_as_it_is_pressed(self) -> None:
        """Common practice, no source. One span loaded: the other is pressed all along; so that decides.

        A beam so light that its weight does not press it down again is pressed over the whole unloaded span.
        """
        assert self.l_u() == 144.0

    def test_dead_load_alone(self) -> None:
        """w on both spans: the moment is zero at 3/4 of the span, so a quarter is pressed (handbook, no shear)."""
        ends = [seat("0 ft"), seat("12 ft"), seat("24 ft")]
        piece = beam(supports=ends, carries=[floor(dead="60 plf", live="0.1 plf")])
        found = find(result_of(piece, wood=known("2 in x 12 in")), "bending with the bottom edge pressed")
        assert 36.0 <= step(found, "l_u") <= 36.0 + 144.0 / 60.0 + 0.1  # rounded up to the next place looked at

    def test_not_blocked(self) -> None:
        assert self.l_u(restrained=False) == 144.0


class TestNothingNeeded:
    def test_broader_than_deep(self) -> None:
        """NDS 2018 3.3.3.1, and on the flat."""
        for wood, more in ((known("6 in x 6 in"), {}), (known("3 in x 12 in"), {"laid": "flat", "meant": LONG})):
            assert step(find(result_of(beam(**ENDS, **more), wood=wood), "bending"), "C_L") == 1.0

    def test_twice_as_deep_as_broad_by_nominal_size(self) -> None:
        """NDS 2018 4.4.1.2: a 4x8 is 2 to 1 although 7.25/3.5 is more; so measured it is not."""
        ends = [{"at": at, "on": "wall", "bearing": "5 1/2 in"} for at in ("0 ft", "12 ft")]
        dressed = result_of(beam(**ENDS, supports=ends), wood=stock("4x8"))
        measured = result_of(beam(**ENDS, supports=ends), wood=stock("3 1/2 in x 7 1/4 in"))
        assert step(find(dressed, "bending"), "C_L") == 1.0
        assert step(find(measured, "bending"), "C_L") < 1.0

    @pytest.mark.parametrize(("size", "held"), [("2x8", True), ("2x10", False), ("3 in x 12 in", True)])
    def test_up_to_four_times_with_the_ends_upright(self, size: str, held: bool) -> None:
        """NDS 2018 4.4.1.2(b) (memory): over 2 to 4, nominal where dressed: the ends held upright, and no more."""
        wood = stock(size, agency="", meant=SAWN)
        found = find(result_of(beam(**ENDS), wood=wood), "bending")
        assert (step(found, "C_L") == 1.0) is held
        loose = [{"at": at, "on": "wall", "bearing": "5 1/2 in"} for at in ("0 ft", "12 ft")]
        found = find(result_of(beam(**ENDS, supports=loose), wood=wood), "bending")
        assert step(found, "C_L") < 1.0
        assert [one.id for one in found.questions] == (["B/upright"] if held else [])  # it may be that they are

    def test_an_overhang_has_a_free_end(self) -> None:
        """NDS 2018 4.4.1.2(b) asks for ends that are held: the tip of an overhang is not."""
        piece = beam(length="18 ft", carries=[floor(live="100 plf", **{"from": "12 ft"})])
        found = find(result_of(piece, wood=known("3 in x 12 in")), "bending with the bottom edge pressed")
        assert step(found, "l_u") == 72.0

    def test_one_ply_decides(self) -> None:
        """Three 2x12 are broad together, but each ply buckles by itself unless their fastening is shown."""
        wood = stock("2x12", grade="No.2", agency="")
        one, three = (result_of(beam(**ENDS, plies=n), wood=wood) for n in (1, 3))
        assert step(find(three, "bending"), "R_B") == step(find(one, "bending"), "R_B")
        assert "how they are fastened is not said" in said(three, "refer")

    def test_a_round_piece(self) -> None:
        result = result_of(beam(**ENDS), wood=stock("10 in round"))
        assert step(find(result, "bending"), "C_L") == 1.0
        assert "bears on a line" in said(result, "refer")


class TestRules:
    def test_slender_beyond_fifty(self) -> None:
        """NDS 2018 3.3.3.7: R_B over 50 is not allowed, whatever the load."""
        thin = known("1 1/2 in x 16 in")
        piece = beam(**ENDS, supports=[seat("0 ft"), seat("24 ft")], carries=[floor(live="1 plf")])
        found = find(result_of(piece, wood=thin), "bending")
        assert math.sqrt((1.63 * 288 + 48) * 16 / 1.5**2) > 50
        assert (found.verdict, found.ratio, found.clause) == ("fails", None, "NDS 2018 3.3.3.7")
        assert "must be at most 50" in found.notes[-1]

    @pytest.mark.parametrize(("held", "verdict"), [(True, None), (None, "refer"), (False, "fails")])
    def test_ends_held_upright(self, held: bool | None, verdict: str | None) -> None:
        """NDS 2018 3.3.3.4: with d/b over 2 the ends must be held; not said is not held."""
        ends = [
            {key: value for key, value in seat(at, restrained=held).items() if value is not None}
            for at in ("0 ft", "12 ft")
        ]
        result = result_of(beam(supports=ends, carries=[floor(live="50 plf")]), wood=known("2 1/2 in x 12 in"))
        found = [check for check in result.checks if check.what == "ends held against turning over"]
        assert [check.verdict for check in found] == ([verdict] if verdict else [])

    def test_no_such_rule_up_to_twice(self) -> None:
        ends = [{"at": at, "on": "wall", "bearing": "5 1/2 in"} for at in ("0 ft", "12 ft")]
        assert result_of(beam(supports=ends), wood=stock("6x12 dressed")).verdict == "passes"

    def test_what_pushes_from_the_side_is_out_of_scope_and_says_so(self) -> None:
        assert "from the side" in find(result_of(beam()), "bending").notes[0]


class TestContinuousTimbers:
    """NDS 2018 4.2.5.5: beam and stringer grades outside the middle third."""

    @pytest.mark.parametrize(("size", "over", "asked"), [
        ("6x12 dressed", "middle third", True), ("6x12 dressed", "whole length", False),
        ("6x8 dressed", "middle third", False),
        ("4x12", "middle third", False),
    ])  # fmt: skip
    def test_two_spans(self, size: str, over: str, asked: bool) -> None:
        wood = stock(size, graded_over=over)
        piece = beam(supports=[seat("0 ft"), seat("12 ft"), seat("24 ft")], carries=[floor(live="50 plf")])
        assert ("4.2.5.5" in str([check.clause for check in result_of(piece, wood=wood).checks])) is asked

    def test_an_overhang_but_not_the_end_of_a_beam_on_its_seat(self) -> None:
        overhang = beam(length="14 ft")
        ends = beam(length="13 ft", supports=[seat("6 in"), seat("12 ft 6 in")])
        assert "4.2.5.5" in str([check.clause for check in result_of(overhang).checks])
        result = result_of(ends)
        assert result.verdict == "passes"
        assert len([check for check in result.checks if "deflection" in check.what]) == 2
