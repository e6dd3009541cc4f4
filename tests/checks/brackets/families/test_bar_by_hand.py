"""Every figure of a concealed bar by statics, AISC 360-16 and NDS, typed here.

1/4 x 1 1/2 in of A36 (F_y 36,000 psi), 8 in out and 3 in down; E 29e6 psi; 490 lb to the cubic foot.
"""

from __future__ import annotations

import math
from typing import Any

import pytest

from beamcheck.checks.brackets.body import Body
from beamcheck.checks.brackets.families.registry import family_of
from beamcheck.checks.brackets.fixings.bar_fasteners import bar_rows
from beamcheck.checks.core.result import Check

from ..brackets import BOLT, STRAP, Data, bracket, find, fixings, held, loads_of, structure

W, T, OUT, DOWN, F_Y, E = 1.5, 0.25, 8.0, 3.0, 36000.0, 29e6
S, Z, I = W * T**2 / 6.0, W * T**2 / 4.0, W * T**3 / 12.0  # noqa: E741
GUSSET: Data = {**STRAP, "gusset_depth": "2 in", "gusset_thickness": "1/4 in", "gusset_edge": "2.6 in",
                "weld": "3/16 in"}  # fmt: skip
REACH = math.sqrt(2.6**2 - 2.0**2)  # 1.661 in out
ONE: list[Data] = [{"below_top": "3 in", "count": 1}]


def body(shape: Data, *carries: Data, **more: Any) -> Body:
    piece = bracket(shape, carries=list(carries) or [shelf()], **more)
    return family_of(piece).body(loads_of(piece, structure()), None, structure())


def shelf(live: str = "30 lb", at: str = "6 in") -> Data:
    return {"what": "shelf", "live": live, "at": at}


def figures(check: Check) -> tuple[float | None, float | None, float | None]:
    return check.demand, check.capacity, check.ratio


def just(demand: float, capacity: float) -> Any:
    return pytest.approx((demand, capacity, demand / capacity))


def tip(P: float, x: float) -> float:
    """The level leg bends; the bend turns with a moment that stays the same down the upright leg."""
    return P * (x**2 * (3.0 * OUT - x) / 6.0 + x * OUT * DOWN) / (E * I)


@pytest.mark.parametrize(
    ("rows", "spoiled"),
    [([], 0.0), (ONE, 0.5), ([{"below_top": "3 in", "count": 2, "apart": "3/4 in"}], 1.0)],
)  # fmt: skip
def test_every_figure_of_a_bar(rows: list[Data], spoiled: float) -> None:
    """3/8 in screws side by side, each with 1/16 in of standard hole and 1/16 in that punching spoils."""
    more = {"fixings": fixings(rows=rows)} if rows else {}
    made = body({**STRAP, "tip_clear": "1/4 in"}, deflects="1/8 in", **more)
    share = (W - spoiled) / W
    allowed = min(F_Y * Z, 1.6 * F_Y * S) * share / 1.67
    assert figures(find(made.checks, "bending of the bar at the bend")) == just(180.0, allowed)
    assert figures(find(made.checks, "elastic bending stress")) == just(180.0 / (S * share), 0.6 * F_Y)
    assert figures(find(made.checks, "skin clear")) == just(tip(30.0, 6.0), 0.25)
    assert figures(find(made.checks, "sinking of the nose")) == just(tip(30.0, 6.0), 0.125)


def test_holes_at_the_bend() -> None:
    """The wider of what is at the bend and what the fasteners take: 3/4 in and 1/16 in spoiled of 1 1/2 in."""
    made = body({**STRAP, "hole_at_bend": "3/4 in"}, fixings=fixings(rows=ONE))
    assert find(made.checks, "elastic").demand == pytest.approx(180.0 / (S * (W - 0.8125) / W))
    three = [{"below_top": "3 in", "count": 3, "apart": "1/2 in"}]
    gone = body(STRAP, fixings=fixings(rows=three))  # 3 x 1/2 in are all of it
    assert [check.verdict for check in gone.checks] == ["fails"] and "leaves nothing" in gone.checks[0].notes[0]


def test_every_figure_of_a_gusset() -> None:
    """Its root as a plate on edge; the bar beyond it; its free edge as a guide b/t; its welds as two lines."""
    made = body(GUSSET)
    assert figures(find(made.checks, "bending of the gusset at its root")) == just(
        180.0 / (0.25 * 2.0**2 / 6.0), 0.6 * F_Y
    )
    allowed = min(F_Y * Z, 1.6 * F_Y * S) / 1.67
    assert figures(find(made.checks, "bending of the bar beyond the gusset")) == just(30.0 * (6.0 - REACH), allowed)
    assert figures(find(made.checks, "bending of the upright leg below")) == just(180.0, allowed)
    assert figures(find(made.checks, "free edge of the gusset")) == just(2.6 / 0.25, 0.56 * math.sqrt(E / F_Y))
    q = math.hypot(30.0 / (2.0 * REACH), 3.0 * 180.0 / REACH**2)
    assert figures(find(made.checks, "welds of the gusset")) == just(q, 0.6 * 70000.0 * 0.707 * 0.1875 / 2.0)
    assert not [check for check in made.checks if check.what.startswith(("elastic", "bending of the bar at"))]


def test_a_gusset_reaches_no_farther_than_it_is_deep_nor_than_the_bar() -> None:
    """45 degrees where its edge is not said; an edge that is longer counts no more."""
    for edge, reach in ((None, 2.0), ("2.83 in", 2.0), ("4 in", 2.0), ("2.2 in", math.sqrt(2.2**2 - 4.0))):
        made = body({**GUSSET, "gusset_edge": edge})
        beyond = find(made.checks, "bending of the bar beyond the gusset").demand
        assert beyond == pytest.approx(30.0 * (6.0 - reach)), edge
    short = body({**GUSSET, "projection": "1.5 in", "gusset_edge": "2.4 in"}, shelf(at="1.5 in"))
    assert find(short.checks, "bending of the bar beyond the gusset").demand == pytest.approx(
        30.0 * (1.5 - 1.3266), rel=1e-3
    )


@pytest.mark.parametrize(
    ("depth", "rows", "share"),
    [(2.0, [1.0, 3.0], 0.5), (2.0, [2.0, 3.0], 1.0), (2.5, [1.0, 3.0], 0.25), (2.5, [2.0, 3.0], 0.5),
     (1.0, [0.5, 3.0], 0.8), (3.0, [1.0, 3.0], 0.0), (3.5, [1.0, 3.0], 0.0),
     (3.0, [3.0], 0.0), (2.0, [3.0], 1.0)],
)  # fmt: skip
def test_moment_of_the_upright_leg_below_its_gusset(depth: float, rows: list[float], share: float) -> None:
    """From the top row down it dies out evenly to the lowest fixing, 3 in down: (3 - h)/(3 - first)."""
    shape = {**GUSSET, "gusset_depth": f"{depth} in", "gusset_edge": None}
    at = [{"below_top": f"{down} in", "count": 1} for down in rows]
    found = [one for one in body(shape, fixings=fixings(rows=at)).checks if "upright leg below" in one.what]
    assert [check.demand for check in found] == pytest.approx([180.0 * share] if share else [])


@pytest.mark.parametrize(
    ("thick", "weld", "enough"),
    [("1/4 in", "1/8 in", True), ("1/4 in", "0.12 in", False), ("5/16 in", "3/16 in", True),
     ("5/16 in", "1/8 in", False), ("3/16 in", "1/8 in", True)],
)  # fmt: skip
def test_least_weld_of_the_thinner_part(thick: str, weld: str, enough: bool) -> None:
    """AISC 360-16 Table J2.4: 1/8 in up to 1/4 in of the thinner part, 3/16 in up to 1/2 in."""
    made = body({**GUSSET, "thickness": "3/8 in", "gusset_thickness": thick, "weld": weld})
    assert ("least weld" not in [check.what for check in made.checks]) is enough


def test_what_lifts_a_bar_bends_and_sinks_nothing() -> None:
    made = body({**STRAP, "tip_clear": "1/4 in"}, {"what": "gust", "wind": "-30 lb", "at": "6 in"})
    for what in ("bending of the bar at the bend", "elastic bending", "skin clear"):
        assert find(made.checks, what).demand == pytest.approx(0.0, abs=1e-4), what
    none = body({**STRAP, "tip_clear": "0 in"})
    assert find(none.checks, "skin clear").verdict == "fails"


def test_its_sizes_weight_and_stiffness() -> None:
    bar, gusset = family_of(bracket(STRAP)), family_of(bracket(GUSSET))
    steel = 490.0 / 1728.0
    assert (bar.back, bar.depth_at_back, bar.swells) == (3.0, 0.25, 0.0)
    assert bar.weight(0.02) == [(0.0, 8.0, pytest.approx(steel * W * T * 11.0))]
    assert gusset.weight(0.02) == [(0.0, 8.0, pytest.approx(steel * (W * T * 11.0 + 0.25 * 2.0 * 2.0 / 2.0)))]
    deep = family_of(bracket({**GUSSET, "gusset_depth": "1 1/2 in", "gusset_edge": None}))
    assert deep.weight(0.02)[0][2] == pytest.approx(steel * (W * T * 11.0 + 0.25 * 1.5 * 1.5 / 2.0))
    far = OUT**3 / 3.0 + OUT**2 * DOWN / 3.0  # the moment dies out to a far fixing
    assert bar.stiffness(None) == pytest.approx((1.0 / tip(1.0, OUT), E * I / far))
    assert gusset.stiffness(None) == pytest.approx((1.0 / tip(1.0, OUT), math.inf))
    assert bar.side_view().parts == [
        ("bar", ((0.0, 0.0), (T, 0.0), (T, 3.0), (0.0, 3.0)), None),
        ("bar", ((T, 0.0), (8.0, 0.0), (8.0, T), (T, T)), None),
    ]
    assert gusset.side_view().parts[2] == ("gusset", ((T, T), (2.0, T), (T, 2.0)), None)


# ---- rows of its fasteners -------------------------------------------------------------------------------------


def rows_said(shape: Data, rows: list[Data], **more: Any) -> list[Check]:
    piece = bracket(shape, "30 lb", "6 in", fixings=fixings(rows=rows, **more))
    return list(bar_rows(piece, piece.shape))  # type: ignore[arg-type]


@pytest.mark.parametrize(("down", "right"), [(3.0, True), (2.0, True), (1.99, False)])
def test_the_lowest_row_is_where_the_upright_leg_is_held(down: float, right: bool) -> None:
    """Within an inch (judgment)."""
    found = rows_said(STRAP, [{"below_top": "1 in", "count": 1}, {"below_top": f"{down} in", "count": 1}])
    assert (not found) is right
    assert right or found[0].questions[0].answers[0].sets[0][1] == "1.99 in"


@pytest.mark.parametrize(
    ("row", "clear"),
    [
        # a 3/8 in hexagon head is 0.656 in across: on the middle below the gusset from 2 + 0.328 in on
        ({"below_top": "2.33 in", "count": 1}, True), ({"below_top": "2.32 in", "count": 1}, False),
        # aside: half a head, half of the gusset and its weld, 0.328 + 0.125 + 0.1875 = 0.641 in from the middle
        ({"below_top": "2 in", "count": 2, "apart": "1.29 in"}, True),
        ({"below_top": "2 in", "count": 2, "apart": "1.27 in"}, False),
        ({"below_top": "2 in", "count": 1, "from_side": "0.1 in"}, True),
        ({"below_top": "2 in", "count": 1, "from_side": "0.12 in"}, False),
        ({"below_top": "2 in", "count": 3, "apart": "0.65 in"}, False),
    ],
)  # fmt: skip
def test_heads_find_room_beside_or_below_a_gusset(row: Data, clear: bool) -> None:
    found = [one for one in rows_said(GUSSET, [row]) if one.id == "bracket.heads_clear"]
    assert (not found) is clear
    if not clear:
        (asked,) = found[0].questions
        assert asked.answers[0].sets[0][1] == "2.375 in"  # the next sixteenth below 2.328 in


def test_a_washer_is_wider_than_its_head_and_a_wood_screw_is_round() -> None:
    bolt = {**BOLT, "washer": "1 in"}
    low = [{"below_top": "2.49 in", "count": 1}]
    assert rows_said(GUSSET, low, fastener=bolt) and not rows_said(
        GUSSET, [{"below_top": "2.51 in", "count": 1}], fastener=bolt
    )
    screw = {"kind": "wood screw", "size": "No. 14", "length": "3 in"}  # 0.242 in: a head of 0.484 in
    assert rows_said(GUSSET, [{"below_top": "2.23 in", "count": 1}], fastener=screw)
    assert not rows_said(GUSSET, [{"below_top": "2.25 in", "count": 1}], fastener=screw)


BEHIND: Data = {"stock": "wood", "thickness": "3 1/2 in", "grain": "along", "end": "24 in", "edge": "2 3/4 in"}


@pytest.mark.parametrize(
    ("change", "missing"),
    [({"grain": "end"}, "grain"), ({"end": None}, "end"), ({"edge": None}, "edge"),
     ({"grain": "end", "end": None}, "grain end")],
)  # fmt: skip
def test_what_the_layout_behind_needs_is_asked_field_by_field(change: Data, missing: str) -> None:
    other = {key: value for key, value in {**BEHIND, **change}.items() if value is not None}
    rows = [{"below_top": "1 in", "count": 1}, *ONE]
    said = held(bracket(STRAP, "30 lb", "6 in", fixings=fixings(rows=rows, other=other)), structure())
    (layout,) = [check for check in said if check.id == "bracket.bar_layout"]
    assert " ".join(one.field.rsplit(".", 1)[1] for one in layout.questions) == missing


def test_two_rows_of_a_bar_share_the_load_and_the_top_one_is_pulled() -> None:
    """Two lags: 15 lb each; the pull over the shorter of 0.9 (3 - 1 in) and what a leg that curls on wood has."""
    rows = [{"below_top": "1 in", "count": 1}, {"below_top": "3 in", "count": 1}]
    piece = bracket(STRAP, "30 lb", "6 in", fixings=fixings(rows=rows), accidental="50 lb", accidental_from="owner")
    said = held(piece, structure())
    pull = (180.0 + 50.0 * 8.0) / min(0.9 * 2.0, (E * T**3 / (3.0 * 23000.0)) ** 0.25)
    assert find(said, "pull on the top row").demand == pytest.approx(pull)
    assert max(check.demand or 0.0 for check in said if check.what == "lateral load on the worst fastener") == (
        pytest.approx((30.0 + 50.0) / 2.0)
    )
    out = [check for check in said if check.what.endswith("somebody pulls it outwards") and check.kind == "force"]
    side = [check for check in said if check.what.endswith("somebody pulls it sideways") and check.kind == "force"]
    assert {check.demand for check in out} == {50.0}
    assert [check.demand for check in side] == pytest.approx([50.0 * 8.0 / 0.75] * len(side)) and side


@pytest.mark.parametrize(("rows", "counted"), [
    ([{"below_top": "2 in", "count": 1}, {"below_top": "3 in", "count": 1}], 4.0),
    ([{"below_top": "2 in", "count": 2, "apart": "5 in"}, {"below_top": "3 in", "count": 1}], 9.0),
    ([{"below_top": "3 in", "count": 3, "apart": "2 in"}], 10.0),
])  # fmt: skip
def test_a_bar_counts_as_wide_as_it_spreads_to_its_fasteners(rows: list[Data], counted: float) -> None:
    """A plate 10 in wide: twice the way from the bend to the row (AISC Manual part 9, memory); 1/2 in a hole."""
    made = body({**STRAP, "width": "10 in", "tip_clear": "1/4 in"}, deflects="1/8 in", fixings=fixings(rows=rows))
    net = counted - 0.5 * max(row["count"] for row in rows)
    allowed = min(F_Y * net * T**2 / 4.0, 1.6 * F_Y * net * T**2 / 6.0) / 1.67
    assert find(made.checks, "bending of the bar at the bend").capacity == pytest.approx(allowed)
    narrow = body({**STRAP, "width": f"{counted} in", "tip_clear": "1/4 in"}, deflects="1/8 in",
                  fixings=fixings(rows=rows))  # fmt: skip
    sunk, of_narrow = (find(one.checks, "sinking of the nose") for one in (made, narrow))
    assert sunk.ratio == pytest.approx(of_narrow.ratio, rel=1e-2)  # it weighs less


def test_a_bar_on_nails_of_no_known_kind_says_so_once() -> None:
    """Common, box or sinker is not said: no value, one question, whatever the number of rows."""
    rows = [{"below_top": "1 in", "count": 1}, *ONE]
    nails = fixings(rows=rows, fastener={"kind": "nail", "size": "16d"})
    said = held(bracket(STRAP, "30 lb", "6 in", fixings=nails), structure())
    (open_,) = [check for check in said if check.id.startswith("anchor.")]
    assert open_.verdict == "refer" and "say pennyweight and kind" in open_.notes[0]


def test_a_bar_across_a_rail_pushes_its_fasteners_towards_the_edge() -> None:
    """Two lags 2 in apart, 15 lb each, across the grain of a rail: over the edge the load comes to, 4 D asked."""
    rows = [{"below_top": "1 in", "count": 1}, *ONE]
    across = {**BEHIND, "grain": "across"}
    said = held(bracket(STRAP, "30 lb", "6 in", fixings=fixings(rows=rows, other=across)), structure())
    assert find(said, "lateral load on the worst fastener").demand == pytest.approx(15.0)


def test_a_size_that_no_table_has_takes_no_hole_off_the_bar() -> None:
    rows = [{"below_top": "3 in", "count": 1}]
    made = body(STRAP, fixings=fixings(rows=rows, fastener={"kind": "lag screw", "size": "9/7 in", "length": "5 in"}))
    assert find(made.checks, "elastic").demand == pytest.approx(180.0 / S)


@pytest.mark.parametrize(
    ("shape", "first", "wall", "straight"),
    [(STRAP, 1.0, "wood", 0.0), (STRAP, 0.5, "wood", 0.0), (STRAP, 1.0, "masonry", 0.0), (GUSSET, 1.0, "wood", 1.0),
     (GUSSET, 0.5, "masonry", 1.5), (GUSSET, 2.5, "wood", 0.0)],
)  # fmt: skip
def test_pull_of_a_leg_that_curls_below_its_row(shape: Data, first: float, wall: str, straight: float) -> None:
    """What a gusset of 2 in keeps straight below the row, and (4 E I/k)^(1/4) on 23,000 psi/in of wood or 100,000
    (judgment); no more than 0.9 of what is below the row."""
    rows = [{"below_top": f"{first} in", "count": 1}, *ONE]
    said = held(bracket(shape, "30 lb", "6 in", fixings=fixings(rows=rows, wall=wall)), structure())
    hard = 23000.0 if wall == "wood" else 100000.0
    arm = min(0.9 * (DOWN - first), straight + (E * T**3 / (3.0 * hard)) ** 0.25)
    assert find(said, "pull on the top row").demand == pytest.approx(180.0 / arm)


def test_fasteners_whose_rows_are_not_said_take_one_hole_off_the_bar() -> None:
    made = body(STRAP, fixings=fixings(rows=[]))
    assert find(made.checks, "elastic").demand == pytest.approx(180.0 / (S * (W - 0.5) / W))


@pytest.mark.parametrize(("apart", "clear"), [("0.91 in", True), ("0.9 in", False)])
def test_a_gusset_whose_weld_nobody_gives_leaves_room_to_its_face(apart: str, clear: bool) -> None:
    """Half a head of 0.656 in and half of 1/4 in: 0.453 in from the middle."""
    bare = {key: value for key, value in GUSSET.items() if key != "weld"}
    found = rows_said(bare, [{"below_top": "2 in", "count": 2, "apart": apart}])
    assert ("bracket.heads_clear" not in [one.id for one in found]) is clear


@pytest.mark.parametrize(
    ("grain", "along", "rows_apart", "edges"), [("along", 2.0, 0.75, (2.0, 2.0)), ("across", 0.75, 2.0, (2.0, 1.5))]
)
def test_where_the_fasteners_of_a_bar_stand_in_the_wood_behind(
    grain: str, along: float, rows_apart: float, edges: tuple[float, float]
) -> None:
    """Pairs 3/4 in apart, 2 in below each other, from 10 in to an end and 2 in to an edge of wood 5 1/2 in wide. Along
    an upright stick the bar is in its middle: the wood counts no wider to the other side. On a level rail the lower
    pair is 5 1/2 - 2 - 2 in from the other edge."""
    rows = [{"below_top": f"{down} in", "count": 2, "apart": "3/4 in"} for down in (1, 3)]
    other = {**BEHIND, "edge": "2 in", "end": "10 in", "grain": grain}
    said = held(bracket(STRAP, "30 lb", "6 in", fixings=fixings(rows=rows, other=other)), structure())
    given = {check.what.removesuffix(" in the held piece post"): check.capacity for check in said}
    assert given["end distance"] == pytest.approx(10.0)
    words = ("spacing along the grain", "distance between rows along the grain") if grain == "along" else (
        "distance between rows across the grain", "spacing across the grain")  # fmt: skip
    assert [given[one] for one in words] == pytest.approx([along, rows_apart])
    assert (given["distance to the bottom edge"], given["distance to the top edge"]) == pytest.approx(edges)
    assert find(said, "lateral load on the worst fastener").demand == pytest.approx(7.5)


@pytest.mark.parametrize("P", ["0.2 lb", "-30 lb"])
def test_next_to_nothing_beyond_a_gusset_is_next_to_nothing(P: str) -> None:
    """0.2 lb 6 in out bend the bar beyond it by 0.2 (6 - 1.661) lb in; what lifts bends it by nothing."""
    load = {"what": "gust", "wind": P, "at": "6 in"} if P[0] == "-" else shelf(P)
    found = find(body(GUSSET, load).checks, "bending of the bar beyond the gusset")
    assert found.demand == pytest.approx(0.2 * (6.0 - REACH) if P[0] != "-" else 0.0)
