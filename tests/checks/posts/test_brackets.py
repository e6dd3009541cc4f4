"""Brackets on posts, beams and what is there already: what they hand on, and what that does there."""

from __future__ import annotations

from types import SimpleNamespace
from typing import Any

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from beamcheck.analysis.beams.member_loads import TransferredLoad
from beamcheck.checks.core.context import AnyPiece, Context, Structure
from beamcheck.checks.core.result import Check, JobResult, PieceResult
from beamcheck.checks.posts.brackets import distance_off
from beamcheck.checks.posts.result import post_result
from beamcheck.model.beams import Beam
from beamcheck.model.job import Job
from beamcheck.model.reading.reader import job_from_data
from beamcheck.values.lumber import read_size

from ..brackets.brackets import SOLID
from ..houses import WALL, beam, check, checked, given_stock, job, piece, post, seat

quick = settings(max_examples=20, deadline=None)
STOCK = given_stock('5 1/2" x 5 1/2"', F_b=1200, F_c=1000, E_min=580_000)
DEEP = given_stock('3 1/2" x 5 1/2"', F_b=1200, F_c=1000, E_min=580_000)
HUNG = 2.0  # in, off the face: judgment where nothing is given
RANK = {"passes": 0, "refer": 1, "fails": 2}
LAGS = {
    "fastener": {"kind": "lag screw", "size": "3/8 in", "length": "5 in"}, "through": "2 in", "wall": "wood",
    "other": {"stock": "6x6", "thickness": "5 1/2 in", "grain": "along", "end": "24 in", "edge": "2 3/4 in"},
    "seasoned": "dry", "split": "none seen",
    "rows": [{"below_top": "3 in", "count": 1}, {"below_top": "7 in", "count": 1}],
}  # fmt: skip


def on_face(
    name: str = "K", live: float = 500.0, at: float | None = 90.0, off: float = 5.0, **more: Any
) -> TransferredLoad:
    return TransferredLoad(name, {"L": (live, 0.0)}, at=at, applied="side", off=off, **{"pull": 400.0, **more})


def with_brackets(
    *transfers: TransferredLoad, stock: dict[str, Any] = STOCK, load: float = 8000.0, **more: Any
) -> PieceResult:
    data = post(stock="given", height="10 ft", carries=[{"what": "test load", "live": f"{load} lb"}], **more)
    whole: Job = job_from_data(job(stock=[stock], post=[data]))
    pieces: dict[str, AnyPiece] = {one.name: one for one in whole.post}
    pieces |= {one.name: one for one in whole.existing}
    return post_result(whole.post[0], Context(Structure({one.name: one for one in whole.stock}, pieces), transfers))[0]


def of(result: PieceResult, what: str) -> Check:
    (found,) = [one for one in result.checks if one.what == what]
    return found


def by_hand(M: float, *, P: float, e: float = 0.0, b: float = 5.5, d: float = 5.5, side: float = 5.5) -> float:
    """NDS 2018 eq. 3.9-3 / 15.4-1 (memory) bending along `side`, for 10 ft hinged, F_b = 1200, F_c = 1000 psi."""
    A = b * d
    f_c = (P + 5 * 10 * A / 144) / A
    thin = 0.822 * 580_000 / (120 / b) ** 2
    F_cE = 0.822 * 580_000 / (120 / side) ** 2
    q = thin / 1000
    F_c = 1000 * ((1 + q) / 1.6 - (((1 + q) / 1.6) ** 2 - q / 0.8) ** 0.5)
    f_b = M / (A * side / 6) + f_c * 6 * e / side * (1 + 0.234 * f_c / F_cE)
    return float((f_c / F_c) ** 2 + f_b / (1200 * (1 - f_c / F_cE)))


class TestPost:
    def test_one_bracket_by_hand(self) -> None:
        """M = P a l_p/l with a = 5 + 5.5/2 in and l_p = 90 of 120 in (statics of hinged ends, typed here)."""
        found = of(with_brackets(on_face()), "brackets on its faces, the deep way")
        assert found.ratio == pytest.approx(by_hand(500 * 7.75 * 90 / 120, P=8500))
        assert [step.symbol for step in found.steps].count("a") == 1

    def test_a_low_bracket_counts_to_its_farther_end(self) -> None:
        low, high = (of(with_brackets(on_face(at=at)), "brackets on its faces, the thin way") for at in (30.0, 90.0))
        assert low.ratio == pytest.approx(high.ratio)

    def test_a_bracket_at_no_known_height_counts_as_at_an_end(self) -> None:
        found = of(with_brackets(on_face(at=None)), "brackets on its faces, the deep way")
        assert found.ratio == pytest.approx(by_hand(500 * 7.75, P=8500))

    def test_two_brackets_and_an_offset_add_up(self) -> None:
        result = with_brackets(on_face(), on_face("K2", 300.0, 60.0, 7.0), eccentricity="1 in")
        M = 500 * 7.75 * 0.75 + 300 * 9.75 * 0.5
        found = of(result, "load off center the deep way, brackets deep way")
        assert found.ratio == pytest.approx(by_hand(M, P=8800, e=1.0))

    def test_the_thin_way_of_an_oblong_post(self) -> None:
        """a = 5 + 3.5/2 in there; F_b' without C_fu, for the letter's values are of the piece as it is."""
        result = with_brackets(on_face(live=200.0), stock=DEEP, load=2000.0)
        found = of(result, "brackets on its faces, the thin way")
        C_fu = next((step.value for step in found.steps if step.symbol == "C_fu"), 1.0)
        assert C_fu == 1.0
        M = 200 * 6.75 * 90 / 120
        assert found.ratio == pytest.approx(by_hand(M, P=2200, b=3.5, d=5.5, side=3.5), rel=1e-6)

    @quick
    @given(at=st.floats(0.0, 120.0), share=st.floats(0.05, 0.9))
    def test_no_less_than_the_exact_beam_column(self, at: float, share: float) -> None:
        """A couple on a hinged beam-column: M(x) = M0 cos k(l - at) sin kx / sin kl below it (closed form)."""
        A, l, F_cE = 5.5**2, 120.0, 0.822 * 580_000 / (120 / 5.5) ** 2  # noqa: E741
        load = share * F_cE * A - 505.0 if share * F_cE * A > 1000.0 else 500.0
        found = of(with_brackets(on_face(at=at), load=load), "brackets on its faces, the deep way")
        f_c = (load + 500 + 5 * 10 * A / 144) / A
        kl = np.pi * np.sqrt(f_c / F_cE)
        x, z = np.linspace(0, 1, 401), at / l
        below = np.cos(kl * (1 - z)) * np.sin(kl * np.minimum(x, z))
        above = np.cos(kl * z) * np.sin(kl * (1 - np.maximum(x, z)))
        exact = 500 * 7.75 * max(np.abs(below).max(), np.abs(above).max()) / np.sin(kl)
        assert found.ratio is None or found.ratio >= exact / (5.5**3 / 6) / 1200 * (1 - 1e-9)

    @quick
    @given(
        live=st.floats(0.0, 3000.0), at=st.none() | st.floats(0.0, 120.0), off=st.floats(0.0, 30.0),
        load=st.floats(100.0, 12000.0), e=st.sampled_from([None, "0 in", "1 in"]),
    )  # fmt: skip
    def test_never_better_than_without(
        self, live: float, at: float | None, off: float, load: float, e: str | None
    ) -> None:
        given_: dict[str, Any] = {"eccentricity": e, "eccentricity_weak": e}
        without = with_brackets(load=load, **given_)
        found = with_brackets(on_face(live=live, at=at, off=off), load=load, **given_)
        assert RANK[found.verdict] >= RANK[without.verdict]
        worst = [max((one.ratio or 0.0 for one in result.checks), default=0.0) for result in (without, found)]
        assert found.verdict == "fails" or worst[1] >= worst[0] * (1 - 1e-9)

    def test_shear_between_the_rows(self) -> None:
        """f_v = 3 V/(2 b d) of the pull on the top row (NDS 2018 eq. 3.4-2, read)."""
        found = of(with_brackets(on_face(pull=1000.0)), "shear between the rows of a bracket")
        assert found.demand == pytest.approx(1.5 * 1000 / 5.5**2)
        unknown = of(with_brackets(on_face(pull=None)), "shear between the rows of a bracket")
        assert unknown.verdict == "refer" and "top row of K pulls with is not known" in unknown.notes[0]

    @pytest.mark.parametrize(("pulls", "V", "asked"), [
        ((0.0,), None, 0), ((0.0, 0.0), None, 0), ((0.0, 600.0), 600, 0), ((1000.0, 600.0), 1600, 0),
        ((None, 600.0), 600, 1), ((None, None), None, 2), ((None, 0.0), None, 1),
    ])  # fmt: skip
    def test_pulls_of_several_brackets_add_up(
        self, pulls: tuple[float | None, ...], V: float | None, asked: int
    ) -> None:
        """All of them together; one that pulls with nothing needs no check, one that is not known is asked."""
        result = with_brackets(*(on_face(f"K{i}", pull=pull) for i, pull in enumerate(pulls)))
        found = [one for one in result.checks if one.id == "post.bracket_shear"]
        assert [one.verdict for one in found].count("refer") == asked
        demands = [one.demand for one in found if one.ratio is not None]
        assert demands == ([pytest.approx(1.5 * V / 5.5**2)] if V else [])

    def test_push_at_the_ends(self) -> None:
        """H = P a/l: 1,500 * 7.75/120 = 96.9 lb is within 2 % of 9500 lb, and not of 1500 lb."""
        assert of(with_brackets(on_face(live=1500.0)), "sideways push at top and foot").verdict == "passes"
        alone = with_brackets(on_face(live=1500.0), load=1.0)
        for end, field in (("foot", "existing.footing.takes_sideways"), ("head", "post.P.head_held_by")):
            found = of(alone, f"sideways push at the {end}")
            assert found.verdict == "refer" and "96.9 lb" in found.notes[0]
            assert found.questions[0].field == field

    @pytest.mark.parametrize(("live", "asked"), [(1160.0, False), (1162.0, True)])
    def test_two_toe_nails_hold_what_a_bracket_pushes_with(self, live: float, asked: bool) -> None:
        """1,161.3 * 7.75/120 = 75 lb: two 8d toe-nails hold more in any wood (judgment), and friction at the foot."""
        found = with_brackets(on_face(live=live), load=1.0)
        assert [one.verdict for one in found.checks if one.id == "post.sideways"] == (
            ["refer"] * 2 if asked else ["passes"]
        )

    def test_a_thin_post_is_not_pushed_by_as_much(self) -> None:
        """A 3 1/2 in by 3 1/2 in post of the same wood: 1 % of what it carries is less than 75 lb."""
        thin = given_stock('3 1/2" x 3 1/2"', F_b=1200, F_c=1000, E_min=580_000)
        found = with_brackets(on_face(live=1100.0), load=1.0, stock=thin)
        assert {one.verdict for one in found.checks if one.id == "post.sideways"} == {"refer"}

    def test_what_hangs_on_a_side_without_a_distance_refers_as_before(self) -> None:
        result = with_brackets(TransferredLoad("B", {"L": (500.0, 0.0)}, applied="side"))
        found = of(result, "B on its side")
        assert found.verdict == "refer"
        assert found.questions[0].ask == "Where does B bear on P?"

    def test_what_may_come_as_well_refers(self) -> None:
        found = of(with_brackets(on_face(perhaps="900 lb of B if there is no gap")), "load from K")
        assert found.verdict == "refer" and "no gap" in found.notes[0]

    def test_a_round_post_is_for_an_engineer(self) -> None:
        stock = {**STOCK, "size": "6 in round"}
        assert of(with_brackets(on_face(), stock=stock), "load off center").verdict == "refer"


@pytest.mark.parametrize(("end", "anchor", "off"), [
    ({}, None, 2.75), ({"bearing": None}, None, HUNG), ({}, {"gap": 0.25}, 3.0),
    ({"bearing": None}, {"gap": 0.25}, HUNG + 0.25), ({"bearing": None}, {"at": [1.0]}, HUNG),
    ({"bearing": "1 in"}, {"gap": 0.25}, 0.75),
    ({}, {"at": [2.0, 4.0]}, 4.0), ({}, {"at": [1.0, 2.5]}, 2.75), ({}, {"at": [2.0, 4.0], "gap": 0.5}, 4.5),
    ({}, {"at": [9.0], "gap": 0.5, "manner": "wood side"}, 0.5 * 3.0 + 0.5), ({"on": "Q"}, None, None),
])  # fmt: skip
def test_how_far_the_end_of_a_beam_stands_off_the_face(end: Any, anchor: Any, off: float | None) -> None:
    """The farther of the middle of its seat and its farthest fastener, and the gap; of a lap the middle of the beam."""
    ends = [{**seat("0 ft", "P"), "bearing": "5 1/2 in", "held_by": "A", **end}, seat("8 ft", "wall")]
    made = beam(*({key: value for key, value in one.items() if value is not None} for one in ends), plies=2)
    one = Beam.model_validate(made)
    places = [(0.0, x) for x in (anchor or {}).get("at", ())]
    holes = SimpleNamespace(distances=lambda: places) if places else None
    group = None if anchor is None else SimpleNamespace(
        manner=anchor.get("manner", "plates both sides"), gap=anchor.get("gap", 0.0), holes=holes)  # fmt: skip
    context = SimpleNamespace(structure=SimpleNamespace(pieces={"B": one}), anchor=lambda name: group,
                              size=lambda name: read_size('1 1/2" x 5 1/2"'))  # fmt: skip
    run: Any = SimpleNamespace(post=SimpleNamespace(name="P"), context=context)
    found = distance_off(run, TransferredLoad("B", {"L": (500.0, 0.0)}, applied="side"))
    assert found == (None if off is None else pytest.approx(off))
    assert distance_off(run, TransferredLoad("B", {}, applied="top")) is None
    assert distance_off(run, TransferredLoad("K", {}, off=-1.0)) == 0.0
    context.structure.pieces["B"] = one.model_copy(update={"laid": "flat"})
    if anchor and anchor.get("manner"):
        assert distance_off(run, TransferredLoad("B", {}, applied="side")) == pytest.approx(0.5 * 5.5 + 0.5)


def a_house(*brackets: dict[str, Any], trim: list[dict[str, Any]] | None = None, **existing: Any) -> JobResult:
    return checked(
        post=[post()],
        beam=[beam(seat("3 in", "P"), seat("12 ft", "wall"), length="12 ft 3 in")],
        bracket=list(brackets), trim=trim or [], existing=[{**WALL, "name": "brick", **existing}],
    )  # fmt: skip


def bracket(on: str, **more: Any) -> dict[str, Any]:
    return {
        "name": "K", "role": "decorative", "stock": "6x6", "shape": SOLID, "on": on, "fixings": LAGS,
        "accidental": "not for load", **more,
    }  # fmt: skip


class TestHandedOn:
    def test_a_prop_puts_its_force_on_the_post_and_leaves_the_beam_alone(self) -> None:
        near = {"beam": "B", "at": "14 in", "gap": "0 in", "closing": []}
        plain, propped = a_house(bracket("P", at="5 ft")), a_house(bracket("P", at="5 ft", near=near))

        def largest(result: JobResult) -> float:
            found = [one.ratio for one in piece(result, "P").checks if "deep way" in one.what and one.ratio]
            return max(found)

        assert piece(propped, "K").verdict == "fails"
        assert largest(propped) > largest(plain)
        assert [one.ratio for one in piece(propped, "B").checks] == [one.ratio for one in piece(plain, "B").checks]

    def test_the_path_still_adds_up(self) -> None:
        near = {"beam": "B", "at": "14 in", "gap": "0 in", "closing": []}
        result = a_house(bracket("P", at="5 ft", near=near))
        assert result.path is not None and result.path.totals
        for _, applied, arriving in result.path.totals:
            assert applied == pytest.approx(arriving, rel=1e-6)

    def test_a_gap_that_is_not_known_refers_at_the_post(self) -> None:
        near = {"beam": "B", "at": "14 in", "closing": []}
        found = check(a_house(bracket("P", at="5 ft", near=near)), "P", "load from K")
        assert found.verdict == "refer" and "if there is no gap" in found.notes[0]

    def test_what_a_wall_must_take_is_said(self) -> None:
        load = [{"what": "shelf", "live": "100 lb", "at": "10 in", "applied": "top", "bearing": "1 in"}]
        shelf = bracket("brick", role="carries", carries=load, fixings={**LAGS, "wall": "masonry"})
        found = check(a_house(shelf), "K", "what brick must take")
        assert "lb down and" in found.notes[0] and "outwards, 3 in below its top edge" in found.notes[0]
        assert "confirmed by invented sheet S-1, engineer" in found.notes[0] and found.verdict == "passes"
        assert check(a_house(shelf, confirmed_by=""), "K", "what brick must take").verdict == "refer"

    def test_a_wall_that_takes_less_fails(self) -> None:
        """100 lb and its own weight on a seat that takes 90 lb."""
        shelf = bracket("brick", role="carries", carries=[{"what": "shelf", "live": "100 lb", "at": "10 in"}])
        found = check(a_house(shelf, takes="90 lb"), "K", "what brick takes")
        assert found.verdict == "fails" and found.capacity == pytest.approx(90.0)


class TestBeam:
    def test_torque_is_said(self) -> None:
        """100 lb at 10 in and half of 5 1/2 in beside the axis: at least 1275 lb in."""
        load = [{"what": "shelf", "live": "100 lb", "at": "10 in"}]
        found = check(a_house(bracket("B", role="carries", at="4 ft", carries=load)), "B", "twist by K")
        assert found.verdict == "refer" and "twists it with" in found.notes[0]

    def test_own_weight_is_left_out(self) -> None:
        assert check(a_house(bracket("B", at="4 ft")), "B", "twist by K").verdict == "passes"

    @pytest.mark.parametrize(("weight", "refers"), [("35 lb", False), ("50 lb", False), ("51 lb", True)])
    def test_trim_at_midspan(self, weight: str, refers: bool) -> None:
        ornament = {
            "name": "O", "role": "decorative", "what": "ornament", "on": "B", "weight": weight, "hangs": "below",
            "accidental": "not for load",
        }  # fmt: skip
        found = piece(a_house(trim=[ornament]), "B")
        assert any(one.what == "place of O" for one in found.checks) == refers
        assert any(text.startswith("O, no more than 50 lb") for text in found.assumptions) != refers
        loads = next(table for table in found.tables if table.title == "Loads as they act")
        assert [row for row in loads.rows if row[0] == "from O"]
