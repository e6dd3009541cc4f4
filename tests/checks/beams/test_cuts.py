"""Notches, holes, mortises, tapers: what is left, and where they may be (NDS 2018 3.1.2, 3.4.3.2, 4.4.3; memory)."""

from __future__ import annotations

from typing import Any

import pytest

from beamcheck.checks.core.result import PieceResult

from .beams import Data, beam, begins, find, floor, known, ratios, result_of, said, seat, step, stock

B, D, L = 6.0, 12.0, 144.0  # in
OWN = 5 / 1728 * B * D
WOOD = known("6 in x 12 in")
LOAD = (floor(live="240 plf"),)
W = 20 + OWN


def with_cut(wood: Data = WOOD, piece: dict[str, Any] | None = None, **cut: Any) -> PieceResult:
    return result_of(beam(carries=[*LOAD], cuts=[cut], **(piece or {})), wood=wood)


def notch(at: str, length: str, depth: str, face: str = "bottom") -> Data:
    return {"kind": "notch", "at": at, "length": length, "depth": depth, "face": face}


def mortise(place: str, **more: Any) -> Data:
    size = {"length": "4 in", "depth": "3 in", "width": "2 in", "from_bottom": "6 in"}
    return {"kind": "mortise", "at": place, **size, **more}


class TestEndNotch:
    def test_on_the_tension_side(self) -> None:
        """V_r' = 2/3 F_v' b d_n (d_n/d)^2 against the full shear at the seat (eq. 3.4-3)."""
        found = begins(with_cut(**notch("0 ft", "5 in", "2 in")), "shear at notch")[0]
        assert found.capacity == pytest.approx(2 / 3 * 150 * B * 10 * (10 / 12) ** 2)
        assert found.demand == pytest.approx(W * L / 2)
        assert found.clause == "NDS 2018 3.4.3.2"
        assert "splitting" in found.notes[-1]

    def test_on_the_compression_side(self) -> None:
        """V_r' = 2/3 F_v' b (d - (d - d_n)/d_n e), e from the inner edge of the seat (eq. 3.4-5)."""
        found = begins(with_cut(**notch("0 ft", "5 in", "2 in", "top")), "shear at notch")[0]
        e = 5 - 2.75
        assert found.capacity == pytest.approx(2 / 3 * 150 * B * (12 - 2 / 10 * e))

    def test_a_top_notch_is_on_the_tension_side_where_the_beam_is_lifted(self) -> None:
        ends = {"supports": [seat(at, tied_down="strap") for at in ("0 ft", "12 ft")], "service": "roof"}
        piece = beam(carries=[*LOAD, floor(wind="-400 plf")], cuts=[notch("0 ft", "5 in", "2 in", "top")], **ends)
        found = begins(result_of(piece, wood=WOOD), "shear at notch")[0]
        assert found.capacity == pytest.approx(step(found, "C_D") * 2 / 3 * 150 * B * 10 * (10 / 12) ** 2)

    @pytest.mark.parametrize(("depth", "verdict"), [("3 in", "passes"), ("3 1/16 in", "fails")])
    def test_a_quarter_of_the_depth(self, depth: str, verdict: str) -> None:
        """NDS 2018 4.4.3.1."""
        found = find(with_cut(**notch("0 ft", "5 in", depth)), "limits of the notch")
        assert (found.verdict, found.clause) == (verdict, "NDS 2018 4.4.3.1")

    def test_bending_on_what_is_left(self) -> None:
        """NDS 2018 3.1.2: M at the inner end of the notch over b d_n^2/6."""
        found = begins(with_cut(**notch("0 ft", "6 in", "2 in")), "bending at notch")[0]
        assert found.demand == pytest.approx(W * 6 * (L - 6) / 2 / (B * 10**2 / 6))

    def test_the_far_end_is_the_same(self) -> None:
        near, far = with_cut(**notch("0 ft", "6 in", "2 in")), with_cut(**notch("12 ft", "6 in", "2 in"))
        assert list(ratios(near).values()) == pytest.approx(list(ratios(far).values()))

    def test_long_on_the_tension_side_it_is_no_end_notch(self) -> None:
        """More than a third of the depth past the seat an engineer must look; into the middle third it fails."""
        assert find(with_cut(**notch("0 ft", "15 in", "1 in")), "limits of the notch").verdict == "refer"
        assert find(with_cut(**notch("0 ft", "50 in", "1 in")), "limits of the notch").verdict == "fails"

    def test_a_notch_that_ends_within_its_seat(self) -> None:
        assert "which part of it bears is not clear" in said(with_cut(**notch("0 ft", "2 in", "1 in")), "refer")

    def test_in_a_hanger(self) -> None:
        result = with_cut(
            piece={"supports": [seat("0 ft", holds="hung"), seat("12 ft")]}, **notch("0 ft", "5 in", "1 in")
        )
        assert "which edge is the tension side is not shown" in said(result, "refer")


class TestInnerNotch:
    @pytest.mark.parametrize(("at", "length", "depth", "face", "verdict"), [
        ("2 ft", "4 in", "1 in", "bottom", "fails"),  # tension side of a piece 3 1/2 in or thicker
        ("2 ft", "4 in", "2 in", "top", "passes"),
        ("2 ft", "4 in", "2 1/16 in", "top", "fails"),  # over a sixth
        ("6 ft", "4 in", "1 in", "top", "fails"),  # middle third
        ("46 in", "4 in", "1 in", "top", "passes"),
        ("2 ft", "5 in", "1 in", "top", "refer"),  # longer than a third of the depth
    ])  # fmt: skip
    def test_limits_in_a_thick_piece(self, at: str, length: str, depth: str, face: str, verdict: str) -> None:
        """NDS 2018 4.4.3.2; the length from IRC R502.8.1."""
        assert find(with_cut(**notch(at, length, depth, face)), "limits of the notch").verdict == verdict

    def test_a_thin_joist_may_have_one_in_the_tension_side(self) -> None:
        wood = stock("2x10", species="Hem-Fir", grade="No.2")
        found = find(with_cut(wood, **notch("2 ft", "3 in", "1 1/2 in")), "limits of the notch")
        assert found.verdict == "passes"

    def test_the_tension_rule_for_the_shear_of_every_inner_notch(self) -> None:
        found = begins(with_cut(**notch("2 ft", "4 in", "2 in", "top")), "shear at notch")[0]
        assert found.capacity == pytest.approx(2 / 3 * 150 * B * 10 * (10 / 12) ** 2)

    def test_in_an_overhang_the_top_is_the_tension_side(self) -> None:
        """A notch in the top of an overhang, well inside it, is no end notch."""
        result = with_cut(piece={"length": "18 ft"}, **notch("14 ft", "4 in", "1 in", "top"))
        found = find(result, "limits of the notch")
        assert (found.verdict, found.clause) == ("fails", "NDS 2018 4.4.3.2")
        assert begins(result, "shear at notch")[0].capacity == pytest.approx(2 / 3 * 150 * B * 11 * (11 / 12) ** 2)

    def test_at_the_free_tip_of_an_overhang(self) -> None:
        """No support there: not an end notch for bearing."""
        found = find(
            with_cut(piece={"length": "18 ft"}, **notch("18 ft", "4 in", "3 in", "bottom")), "limits of the notch"
        )
        assert found.verdict == "refer"

    def test_over_an_inner_support(self) -> None:
        ends = [seat("0 ft"), seat("12 ft"), seat("24 ft")]
        found = find(with_cut(piece={"supports": ends}, **notch("12 ft", "6 in", "1 in", "top")), "limits of the notch")
        assert found.verdict == "fails"  # the top is in tension over an inner support


class TestHolesAndMortises:
    def test_a_hole_on_the_axis(self) -> None:
        """S (1 - (d_h/d)^3); shear stress of two halves, 3/2 V over what is left."""
        hole = {"kind": "hole", "at": "2 ft", "depth": "3 in", "from_bottom": "6 in"}
        result = with_cut(**hole)
        bent, sheared = begins(result, "bending at 3 in hole")[0], begins(result, "shear at 3 in hole")[0]
        M = W * 25.5 * (L - 25.5) / 2
        assert bent.demand == pytest.approx(M / (B * D**2 / 6 * (1 - 0.25**3)))
        assert sheared.demand == pytest.approx(1.5 * step(sheared, "V") / (B * 9))

    def test_a_long_opening_is_longer_than_its_height(self) -> None:
        """A slot entered as a hole with a length is not cut down to a circle."""
        hole = {"kind": "hole", "at": "2 ft", "depth": "2 in", "length": "12 in", "from_bottom": "6 in"}
        result = with_cut(**hole)
        assert step(begins(result, "bending at 2 in hole")[0], "M") == pytest.approx(W * 30 * (L - 30) / 2)
        assert "longer than high" in said(result, "refer")

    def test_a_hole_from_the_top_takes_its_breadth_all_the_way_down(self) -> None:
        hole = {"kind": "hole", "at": "2 ft", "depth": "1 in", "from_bottom": "6 in", "face": "top"}
        result = with_cut(**hole)
        bent, sheared = begins(result, "bending at 1 in hole")[0], begins(result, "shear at 1 in hole")[0]
        assert bent.demand == pytest.approx(step(bent, "M") / ((B - 1) * D**2 / 6))
        assert sheared.demand == pytest.approx(1.5 * step(sheared, "V") / ((B - 1) * D))
        assert "no rule here for holes from the top" in said(result, "refer")

    @pytest.mark.parametrize(("more", "verdict", "words"), [
        ({}, "passes", "clear of the edges"), ({"depth": "4 1/16 in"}, "refer", "more than a third"),
        ({"from_bottom": "3 in"}, "refer", "closer than 2 in"), ({"from_bottom": "1 in"}, "refer", "breaks through"),
        ({"at": "6 ft"}, "refer", "middle third"), ({"width": "6 in"}, "refer", "longer than high"),
    ])  # fmt: skip
    def test_limits_of_a_mortise(self, more: Data, verdict: str, words: str) -> None:
        """IRC R502.8.1 as common practice; in the middle third it is for an engineer (survey list of the reference)."""
        found = find(with_cut(**mortise("2 ft", **more)), "limits of the mortise")
        assert found.verdict == verdict
        assert words in found.notes[0]

    def test_a_hole_in_a_joist_may_be_anywhere_along_it(self) -> None:
        hole = {"kind": "hole", "at": "6 ft", "depth": "2 in", "from_bottom": "4 5/8 in"}
        found = find(with_cut(stock("2x10", species="Hem-Fir", grade="No.2"), **hole), "limits of the hole")
        assert found.verdict == "passes"

    def test_in_a_continuous_timber(self) -> None:
        result = with_cut(piece={"length": "15 ft"}, **mortise("2 ft"))
        assert find(result, "limits of the mortise").verdict == "refer"

    def test_a_mortise_in_one_side_bends_the_beam_sideways(self) -> None:
        """Unsymmetrical bending by hand: f = M (y I_y + x I_xy)/(I_x I_y - I_xy^2) in the farthest corner.

        Void 2 in x 3 in in the side of 6 x 12, its middle 3 in above the bottom (areas and centroids by parts).
        """
        A, Av = B * D, 6.0
        An = A - Av
        x_bar, y_bar = (A * 3 - Av * 1) / An, (A * 6 - Av * 3) / An
        I_x = B * D**3 / 12 + A * (6 - y_bar) ** 2 - (2 * 3**3 / 12 + Av * (3 - y_bar) ** 2)
        I_y = D * B**3 / 12 + A * (3 - x_bar) ** 2 - (3 * 2**3 / 12 + Av * (1 - x_bar) ** 2)
        I_xy = A * (3 - x_bar) * (6 - y_bar) - Av * (1 - x_bar) * (3 - y_bar)
        corners = [(x - x_bar, y - y_bar) for x in (0, B) for y in (0, D)]
        worst = max(abs(y * I_y - x * I_xy) / (I_x * I_y - I_xy**2) for x, y in corners)
        found = begins(with_cut(**mortise("2 ft", from_bottom="3 in")), "bending at mortise")[0]
        assert found.demand == pytest.approx(step(found, "M") * worst)
        symmetrical = step(found, "M") * y_bar / I_x
        assert found.demand > 1.05 * symmetrical

    def test_over_a_seat(self) -> None:
        slot = mortise("0 ft", face="bottom", from_bottom="1 1/2 in")
        assert "bears on less" in said(with_cut(**slot), "refer")


def test_a_cut_is_checked_with_either_edge_pressed() -> None:
    """Held on top along its length, free below: what lifts is the worse at the hole, with a C_L below 1."""
    hole = {"kind": "hole", "at": "2 ft", "depth": "1 in", "from_bottom": "6 in"}
    thin = known("2 in x 12 in")
    piece = beam(carries=[floor(live="20 plf", wind="-200 plf")], cuts=[hole], service="roof")
    found = begins(result_of(piece, wood=thin), "bending at 1 in hole")[0]
    assert "wind up" in found.combination
    assert step(found, "C_L") < 1.0


class TestTaper:
    def test_strength_as_a_notch_of_its_depth_and_never_a_pass(self) -> None:
        taper = {"kind": "taper", "at": "0 ft", "length": "10 in", "depth": "2 in", "face": "top"}
        as_notch = with_cut(**{**taper, "kind": "notch"})
        result = with_cut(**taper)
        assert list(ratios(result).values()) == pytest.approx(list(ratios(as_notch).values()))
        assert find(as_notch, "limits of the notch").verdict == "passes"
        assert find(result, "limits of the taper").verdict == "refer"

    def test_deeper_than_an_end_notch_may_be(self) -> None:
        taper = {"kind": "taper", "at": "0 ft", "length": "10 in", "depth": "5 in", "face": "top"}
        assert find(with_cut(**taper), "limits of the taper").verdict == "refer"

    def test_in_the_tension_side_away_from_the_ends(self) -> None:
        taper = {"kind": "taper", "at": "3 ft", "length": "10 in", "depth": "1 in", "face": "bottom"}
        assert find(with_cut(**taper), "limits of the taper").verdict == "fails"


class TestSeveral:
    def test_at_one_place_and_near_each_other(self) -> None:
        two = beam(
            carries=[*LOAD],
            cuts=[mortise("2 ft"), {"kind": "hole", "at": "2 ft", "depth": "1 in", "from_bottom": "9 in"}],
        )
        assert "their losses add up" in said(result_of(two, wood=WOOD), "refer")
        near = beam(carries=[*LOAD], cuts=[mortise("2 ft"), mortise("3 ft")])
        assert "less than the depth of the piece apart" in said(result_of(near, wood=WOOD), "refer")
        apart = beam(carries=[*LOAD], cuts=[mortise("2 ft"), mortise("9 ft 6 in")])
        assert result_of(apart, wood=WOOD).verdict == "passes"

    def test_a_long_one_over_two_short_ones(self) -> None:
        """Not only neighbors in the list count."""
        cuts = [mortise("30 in", length="40 in"), mortise("14 in", length="2 in"), mortise("44 in", length="2 in")]
        assert said(result_of(beam(carries=[*LOAD], cuts=cuts), wood=WOOD), "refer").count("add up") == 2


class TestStiffness:
    def test_a_cut_softens_the_beam(self) -> None:
        """A notch over an outer part of the compression side, 1 in of 12: the sag grows by less than (12/11)^3."""
        whole = result_of(beam(carries=[*LOAD]), wood=WOOD)
        cut = with_cut(**notch("0 ft", "40 in", "1 in", "top"))
        ratio = ratios(cut)["deflection under live load"] / ratios(whole)["deflection under live load"]
        assert 1.0 < ratio < (12 / 11) ** 3


def test_a_cut_in_a_round_piece_is_for_an_engineer() -> None:
    hole = {"kind": "hole", "at": "2 ft", "depth": "1 in", "from_bottom": "5 in"}
    result = with_cut(known("10 in round"), **hole)
    assert "round piece is for an engineer" in said(result, "refer")
    assert not begins(result, "shear at")
