"""Posts of plies, posts with cuts, what holds their ends and what stands above; what keeps one from passing."""

from __future__ import annotations

from typing import Any

import pytest

from beamcheck.analysis.beams.member_loads import TransferredLoad
from beamcheck.checks.core.context import Context
from beamcheck.checks.posts.result import post_result
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

    @pytest.mark.parametrize(
        ("joined", "thick", "K_f"), [({}, 1.5, 1.0), ({"plies_joined": "bolted", "plies_schedule": BOLTS}, 3.0, 0.75)]
    )
    def test_two_plies(self, joined: dict[str, Any], thick: float, K_f: float) -> None:
        """Two are plies as well: each by itself, 36/1.5, or one post of 3 in with K_f."""
        area, total = 2 * 1.5 * 5.5, 1000 + 5 * 3 * 2 * 1.5 * 5.5 / 144
        q = 0.822 * 5e5 / (36 / thick) ** 2 / 1000
        C_P = K_f * ((1 + q) / 1.6 - (((1 + q) / 1.6) ** 2 - q / 0.8) ** 0.5)
        made = checked(stock=[self.STOCK], post=[post(stock="given", height="3 ft", carries=LIVE, plies=2, **joined)])
        found = check(made, "P", "compression")
        assert found.ratio == pytest.approx(total / area / 1000 / C_P)

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
        net = check(result, "P", "net section at 1 in hole at 4 ft")
        assert net.demand == pytest.approx((8000 + own_weight_of_post()) / A / 1000, rel=1e-4)
        assert net.capacity == 1.0  # all of F_c* counts there: no end grain that wants a plate

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
