"""Every figure of a corbel block by statics and the NDS, typed here; the edges of its dap.

The block is 3 1/2 in thick, 9 in high and stands 3 1/2 in out.
"""

from __future__ import annotations

import math
from typing import Any

import pytest

from beamcheck.checks.brackets.body import Body
from beamcheck.checks.brackets.families.corbel import as_solid
from beamcheck.checks.brackets.families.registry import family_of
from beamcheck.checks.core.context import Context, Structure
from beamcheck.checks.core.result import Check
from beamcheck.model.brackets.bracket import Bracket
from beamcheck.model.brackets.shapes import Corbel
from beamcheck.model.posts import Post

from ...anchors.anchors import said, step, stock
from ..brackets import CORBEL, Data, bracket, find, fixings, loads_of, structure, wood
from ..by_hand import F_C, F_V

DAP: Data = {**CORBEL, "seat": "3/4 in", "below_seat": "20 in"}


def house(*cuts: Data, size: str = "6x8 rough", **more: Any) -> Context:
    """A post of the size, which the block stands in."""
    post = Post.model_validate({"name": "post", "stock": "post wood", "height": "8 ft", "on": "slab",
                                "top_restraint": "pinned", "cuts": list(cuts)})  # fmt: skip
    stocks = {"wood": stock("4x6 dressed"), "post wood": stock(size, **more)}
    return Context(Structure(stocks, {"post": post, "slab": structure().under("slab")}))


def body(shape: Data, *carries: Data, here: Context | None = None, **more: Any) -> Body:
    here = here or structure()
    piece = bracket(shape, carries=list(carries), **more)
    return family_of(piece).body(loads_of(piece, here), wood(here), here)


def shelf(live: str = "200 lb", at: str = "2 in") -> Data:
    return {"what": "shelf", "live": live, "at": at}


@pytest.mark.parametrize(
    ("load", "P", "C_D"),
    [(shelf(), 200.0, 1.0), ({"what": "clock", "dead": "200 lb", "at": "2 in"}, 200.0, 0.9)],
)  # fmt: skip
@pytest.mark.parametrize("below", [8.0, 20.0])
def test_every_figure_of_a_block_in_a_dap(load: Data, P: float, C_D: float, below: float) -> None:
    """End grain on end grain takes 3/4 of F_c* (3.10.1.3); below the dap at most 8 of its depths count, times 3/2."""
    made = body({**DAP, "below_seat": f"{below} in"}, load, fixings=fixings(), deflects="1/16 in")
    foot, area, length = 0.75 * F_C * C_D, 3.5 * 0.75, min(below, 8.0 * 0.75)
    pull = P * (2.0 + 0.375) / (0.7 * 6.0)  # about the middle of the seat; the top row stands 9 - 3 in above the foot
    figures = {
        "shear of the block": (1.5 * P / (3.5 * 9.0), F_V * C_D),
        "foot of the block in its dap": (P / area, foot),
        "post under the block": (P / area, foot),
        "wood of the post below the dap": (1.5 * P / (3.5 * length), F_V * C_D),
        "sinking of the nose": (1.5 * pull / 10000.0 * (3.5 + 0.375) / 6.0, 0.0625),  # K_cr 1.5; 10,000 lbf/in a screw
    }
    for what, (demand, capacity) in figures.items():
        check = find(made.checks, what)
        assert (check.demand, check.capacity) == pytest.approx((demand, capacity)), what
        assert check.ratio == pytest.approx(demand / capacity), what
    assert made.pull is not None and float(made.pull.max()) == pytest.approx(pull)


def test_two_screws_side_by_side_sink_half_as_far_and_the_top_row_counts() -> None:
    rows = [{"below_top": "2 in", "count": 2, "apart": "1 1/2 in"}, {"below_top": "7 in", "count": 1}]
    made = body(DAP, shelf(), fixings=fixings(rows=rows), deflects="1/16 in")
    pull = 200.0 * 2.375 / (0.7 * 7.0)
    assert find(made.checks, "sinking").demand == pytest.approx(1.5 * pull / 20000.0 * 3.875 / 7.0)
    assert step(find(made.checks, "sinking"), "h_1") == pytest.approx(7.0)


def test_who_gives_no_rows_has_no_pull_and_no_limit_no_sinking() -> None:
    assert body(DAP, shelf()).pull is None
    assert not [check for check in body(DAP, shelf(), fixings=fixings()).checks if check.what == "sinking of the nose"]


def test_what_lifts_it_presses_and_shears_nothing() -> None:
    made = body(DAP, {"what": "gust", "wind": "-300 lb", "at": "2 in"}, fixings=fixings())
    for what in ("shear of the block", "foot of the block in its dap", "wood of the post below the dap"):
        assert find(made.checks, what).demand == 0.0, what
    assert made.pull is not None and float(made.pull.max()) == 0.0
    assert "lift" in said(made.checks, "refer")


@pytest.mark.parametrize(
    ("size", "thick", "stands"), [("6x8 rough", 3.5, 3.5), ("6x8 rough", 8.0, 6.0), ("4x4 dressed", 5.5, 3.5)]
)
def test_a_block_stands_on_no_more_than_its_post(size: str, thick: float, stands: float) -> None:
    """By the narrower side of the post: the face that it stands on is not said."""
    made = body({**DAP, "thickness": f"{thick} in"}, shelf(), here=house(size=size), fixings=fixings())
    assert find(made.checks, "foot of the block").demand == pytest.approx(200.0 / (stands * 0.75))


@pytest.mark.parametrize(("below", "verdict"), [("8 in", "passes"), ("7.9 in", "fails"), ("1 in", "fails")])
def test_less_wood_below_a_dap_than_behind_a_step_splits_off(below: str, verdict: str) -> None:
    """200 mm (German annex to Eurocode 5, NCI NA.12.1, second-hand): the foot of the block is the nose of a step."""
    made = body({**DAP, "seat": "1 1/4 in", "below_seat": below}, shelf(), fixings=fixings(), deflects="1/16 in")
    (check,) = [one for one in made.checks if one.id == "bracket.below_dap"]
    assert check.verdict == verdict
    if verdict == "passes":  # 8 in are less than 8 depths of the dap
        assert check.demand == pytest.approx(1.5 * 200.0 / (3.5 * 8.0))


def test_a_dap_in_what_is_no_post_or_in_unknown_wood_has_no_value() -> None:
    made = body(DAP, shelf(), on="slab", fixings=fixings())
    assert "is no post of the job" in said(made.checks, "refer")
    unknown = house(species="unknown", grade="unstamped", grade_from=None, evidence="")
    text = said(body(DAP, shelf(), here=unknown, fixings=fixings()).checks, "refer")
    assert "the wood of post is not known, so the dap in it has no value" in text
    assert "how much post is left below the dap" in said(body({**DAP, "below_seat": None}, shelf()).checks, "refer")


def standing(shape: Data, at: str | None, here: Context) -> list[Check]:
    """What is said of a block whose foot stands so far up its post."""
    data = {"name": "K", "role": "carries", "shape": shape, "on": "post", "stock": "wood", "at": at,
            "carries": [shelf()], "fixings": fixings()}  # fmt: skip
    piece = Bracket(**data)
    return family_of(piece).body(loads_of(piece, here), wood(here), here).checks


@pytest.mark.parametrize(("at", "contradicted"), [("20 in", False), ("19.99 in", True), (None, False)])
def test_no_more_post_is_below_the_dap_than_its_foot_stands_up(at: str | None, contradicted: bool) -> None:
    refers = [one for one in standing(DAP, at, house()) if one.id == "bracket.below_dap" and one.verdict == "refer"]
    assert bool(refers) is contradicted
    answers = [answer.sets[0][1] for one in refers for answer in one.questions[0].answers]
    assert answers == (["19.99 in", "12 in"] if contradicted else [])


def test_all_the_post_below_it_is_offered_where_nobody_said() -> None:
    for at, first in (("30 in", "30 in"), (None, "4 ft")):
        (one,) = [one for one in standing({**DAP, "below_seat": None}, at, house()) if one.id == "bracket.below_dap"]
        assert [answer.sets[0][1] for answer in one.questions[0].answers] == [first, "12 in"]


# the block stands from 20 to 29 in up its post, in a dap of 3/4 in
@pytest.mark.parametrize(
    ("middle", "length", "depth", "counted"),
    [(24.5, 9.0, 0.75, True), (24.5, 8.98, 0.75, False), (24.5, 9.0, 0.74, False), (24.5, 12.0, 1.0, True),
     (25.0, 10.0, 0.75, True), (24.0, 10.0, 0.75, True), (25.1, 10.0, 0.75, False), (23.9, 10.0, 0.75, False)],
)  # fmt: skip
def test_a_dap_counts_in_its_post_where_a_cut_is_as_deep_and_as_long(
    middle: float, length: float, depth: float, counted: bool
) -> None:
    cut = {"kind": "notch", "at": f"{middle} in", "length": f"{length} in", "depth": f"{depth} in", "face": "top"}
    dap = find(standing(DAP, "20 in", house(cut)), "dap counted in post")
    assert dap.verdict == ("passes" if counted else "refer")
    assert dap.verdict == "passes" or not dap.questions[0].answers  # which of the cuts is wrong is not known


def test_the_dap_that_is_missing_among_the_cuts_is_offered() -> None:
    """Over the height of the block: 9 in about 24 1/2 in; closed by its answer (above)."""
    dap = find(standing(DAP, "20 in", house()), "dap counted in post")
    ((field, value),) = dap.questions[0].answers[0].sets
    assert field == "post.post.cuts"
    assert value == [{"kind": "notch", "at": "24.5 in", "length": "9 in", "depth": "0.75 in", "face": "top"}]
    assert not find(standing(DAP, None, house()), "dap counted in post").questions[0].answers


def test_its_sizes() -> None:
    free, stood = family_of(bracket(CORBEL)), family_of(bracket(DAP))
    assert (free.back, free.depth_at_back, stood.depth_at_back) == (9.0, 3.5, 4.25)
    assert (free.stands_on_wood, stood.stands_on_wood) == (False, True)
    assert free.weight(0.02) == [(0.0, 3.5, pytest.approx(0.02 * 3.5 * 9.0 * 3.5))]
    assert free.stiffness(None) == (0.0, math.inf)
    assert stood.side_view().parts == [("block", ((-0.75, 0.0), (3.5, 0.0), (3.5, 9.0), (-0.75, 9.0)), 90.0)]
    rows = [{"below_top": "2 in", "count": 1}, {"below_top": "7 in", "count": 1}]
    level = family_of(bracket({**CORBEL, "grain": "level"}, fixings=fixings(rows=rows)))
    assert level.swells == pytest.approx(2.0) and family_of(bracket({**CORBEL, "grain": "level"})).swells == 9.0
    assert free.swells == pytest.approx(0.0, abs=1e-9)  # upright grain hardly moves along the post


def test_without_a_dap_it_is_the_solid_bracket_of_its_outline() -> None:
    """Down its front and along its foot: (1 3/4, 9), (3 1/2, 9), (3 1/2, 4 1/2)."""
    solid = as_solid(Corbel.model_validate(CORBEL))
    assert (solid.thickness, solid.height, solid.projection, solid.grain) == (3.5, 9.0, 3.5, 90.0)
    assert [(one.x, one.y) for one in solid.points] == [(1.75, 9.0), (3.5, 9.0), (3.5, 4.5)]
    assert (solid.foot, solid.nose) == (1.75, 4.5)


def test_a_dap_as_shallow_as_what_shrinks_is_none() -> None:
    """Common practice, no source: half an inch at the least; 50 lb on 0.1 in would be 143 psi of 863."""
    for seat, shallow in (("0.1 in", True), ("0.46 in", True), ("12 mm", False), ("1/2 in", False)):
        checks = body({**DAP, "seat": seat}, shelf("50 lb"), fixings=fixings()).checks
        found = [check for check in checks if check.what == "depth of the dap"]
        assert [check.verdict for check in found] == (["fails"] if shallow else [])
