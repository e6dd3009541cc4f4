"""What holds a bracket: rows of screws by hand and by published values, walls, hands, slots, missing evidence."""

from __future__ import annotations

from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from beamcheck.checks.brackets.body import Body
from beamcheck.checks.brackets.families.registry import family_of
from beamcheck.checks.brackets.fixings.fixings import inspection_of
from beamcheck.checks.brackets.fixings.rows import rows_of
from beamcheck.checks.core.context import Context
from beamcheck.checks.core.result import Check, Verdict
from beamcheck.checks.core.result import worst as worst_of

from ...anchors.anchors import said, step, stock
from ..brackets import (
    BENT,
    BOLT,
    CORBEL,
    LAG,
    OTHER,
    SOLID,
    STRAP,
    Data,
    bracket,
    find,
    fixings,
    loads_of,
    structure,
)
from ..brackets import held as held_by

TWO: list[Data] = [{"below_top": "3 in", "count": 1}, {"below_top": "7 in", "count": 1}]
PULL, BOTH, LATERAL = "pull on the most loaded", "pull and lateral load", "lateral load on the worst"
RATING: Data = {"source": "report ER-0000, 2025, table 3", "down": "500 lb", "along": "400 lb", "duration": "included",
                "loads": "floor", "conditions": "solid brick", "conditions_met": True}  # fmt: skip


def checks(
    held: Data | None = None, load: str | None = "100 lb", at: str = "3 in", *, shape: Data = SOLID,
    context: Context | None = None, weight: float = 0.0, **more: Any,
) -> list[Check]:  # fmt: skip
    here = context or structure()
    piece = bracket(shape, load, at, fixings=fixings() if held is None else held, **more)
    return held_by(piece, here, weight)


def worst(found: list[Check]) -> float:
    return max(check.ratio for check in found if check.ratio is not None)


def overall(found: list[Check]) -> Verdict:
    return worst_of(check.verdict for check in found)


def test_a_sound_bracket_passes() -> None:
    found = checks(fixings(fastener=BOLT))
    assert overall(found) == "passes", [check for check in found if check.verdict != "passes"]


def test_pull_by_the_lever_arm_rule() -> None:
    """T = F x_L/(eta d_1) with eta 0.70 (reference e1, straight soffit) and d_1 = 12 - 3 in."""
    assert find(checks(), "pull on the top row").demand == pytest.approx(100.0 * 3.0 / (0.7 * 9.0))
    hollow = {**SOLID, "soffit": "concave", "grain": "level"}
    assert find(checks(shape=hollow), "pull on the top row").demand == pytest.approx(300.0 / (0.45 * 9.0))


def test_withdrawal_of_the_lag() -> None:
    """3/8 in lag in G 0.50: W = 305 lbf per inch (NDS Table 12.2A, memory)."""
    found = checks()
    pull = find(found, PULL)
    assert pull.demand == pytest.approx(300.0 / 6.3)
    assert step(pull, "W_w") == pytest.approx(305.0, abs=1.0)
    assert overall(found) == "passes"


def test_shear_of_two_rows_is_not_shared_evenly() -> None:
    """0.8 of the load may come to one row (reference e1: 0.5 to 0.8): each of two screws is checked for 80 lb."""
    assert find(checks(), LATERAL).demand == pytest.approx(80.0)
    one = fixings(rows=[{"below_top": "3 in", "count": 1}])
    assert find(checks(one), LATERAL).demand == pytest.approx(100.0)
    pairs = fixings(rows=[{"below_top": "3 in", "count": 2, "apart": "1 1/2 in"}, TWO[1]])
    assert find(checks(pairs), LATERAL).demand == pytest.approx(80.0)  # the single one below still has its 0.8


def test_rows_near_to_each_other_lose_strength() -> None:
    """C_delta = s/(4 D) (NDS 12.5.1.2): 1 1/4 in for 3/8 in screws is 0.833; 1 in is below 3 D and has no value."""

    def value(second: str) -> float:
        rows = [TWO[0], {"below_top": second, "count": 1}]
        return find(checks(fixings(rows=rows)), LATERAL).capacity or 0.0

    assert value("4 1/4 in") == pytest.approx(value("7 in") * 1.25 / 1.5, rel=0.02)
    assert overall(checks(fixings(rows=[TWO[0], {"below_top": "4 in", "count": 1}]))) == "fails"


def test_slots_hold_nothing_up() -> None:
    slotted = fixings(rows=[{**TWO[0], "slot": "1 in"}, TWO[1]])
    assert find(checks(slotted), LATERAL).demand == pytest.approx(100.0)
    assert find(checks(slotted), PULL).demand == pytest.approx(300.0 / 6.3)
    piece = bracket(SOLID, "100 lb", "3 in", fixings=slotted)
    assert rows_of(family_of(piece), loads_of(piece, structure()), Body()).tight == [1]
    assert "snug" in " ".join(inspection_of(family_of(piece)))


@pytest.mark.parametrize("hand", ["friction", "magnets", "glue"])
def test_what_only_sticks_fails(hand: str) -> None:
    assert overall(checks({"by_hand": hand})) == "fails"


@pytest.mark.parametrize(
    ("change", "words"),
    [
        ({"fastener": None}, "not described"), ({"rows": []}, "not described"), ({"through": None}, "`through`"),
        ({"other": None}, "`other`"), ({"wall": None}, "`wall`"), ({"wall": "plaster"}, "crushes"),
        ({"wall": "gypsum board"}, "crushes"), ({"gap": "1/2 in"}, "crushes"), ({"split": None}, "`split`"),
        ({"split": "check across the holes"}, "a check or split"),
        ({"other": {**OTHER, "stock": None}}, "is not known"), ({"other": {**OTHER, "edge": None}}, "`other.edge`"),
        ({"fastener": {**LAG, "size": "7/13 in"}}, "7/13"),
    ],
)  # fmt: skip
def test_missing_evidence_refers(change: Data, words: str) -> None:
    found = checks(fixings(**change))
    assert overall(found) == "refer", [check for check in found if check.verdict == "fails"]
    assert words in said(found, "refer")


def test_no_fixings_and_no_stock() -> None:
    here = structure()
    piece = bracket(SOLID, "5 lb", "3 in")
    assert "`fixings`" in said(held_by(piece, here), "refer")


def test_by_others_never_passes() -> None:
    assert overall(checks({"confirmed_by": "B. Invented, engineer, letter of 3 May"})) == "refer"


def test_unknown_wood_behind_refers() -> None:
    who = stock("4x6 dressed", name="old", species="unknown", grade="unstamped", grade_from=None, evidence="")
    found = checks(fixings(other={**OTHER, "stock": "old"}), context=structure(old=who))
    assert overall(found) == "refer"
    assert "not known" in said(found, "refer")


def test_wet_wood_holds_less() -> None:
    wet = structure(wood=stock("4x6 dressed", moisture="green", measured_moisture=None))
    dry, green = find(checks(), LATERAL).ratio, find(checks(context=wet), LATERAL).ratio
    assert dry is not None and green is not None
    assert green > dry


def test_screws_along_the_grain_count_as_in_end_grain() -> None:
    """Level grain: bearing across it, times C_eg 0.67 (NDS 11.5.2)."""
    found = checks(shape={**SOLID, "grain": "level"})
    aslant = next(check for check in found if check.what.startswith("lateral load on a fastener along"))
    assert step(aslant, "C_eg") == 0.67


def test_a_lowest_row_near_the_foot() -> None:
    """Four diameters of 3/8 in are 1 1/2 in (NDS Table 12.5.1A, memory); below two it fails."""
    for place, verdict in (("10 1/2 in", None), ("11 in", "refer"), ("11 1/2 in", "fails")):
        found = checks(fixings(rows=[TWO[0], {"below_top": place, "count": 1}]))
        said_so = [check.verdict for check in found if check.what == "lowest row above the foot"]
        assert said_so == ([verdict] if verdict else [])


def test_more_wood_than_there_is() -> None:
    found = checks(fixings(through="5 in", fastener={**LAG, "length": "8 in"}), shape=CORBEL)
    assert find(found, "wood that the fasteners go through").verdict == "fails"


def test_heel_by_hand() -> None:
    """C = T on 3 1/2 in x 2 (1 - 0.7) 9 in of wood, in the bracket and in the wall; a wall of masonry has no wood."""
    found = checks()
    f = 300.0 / 6.3 / (3.5 * 0.6 * 9.0)
    assert find(found, "heel against the wall, wood of the bracket").demand == pytest.approx(f)
    assert find(found, "heel against the wall, wood of the wall").demand == pytest.approx(f)
    assert [c.what for c in checks(fixings(wall="masonry")) if c.what.endswith("wood of the wall")] == []


def test_somebody_pulls_at_the_nose() -> None:
    """200 lb outwards go straight into the top row; sideways 200 x 10 in over half of 3 1/2 in."""
    found = checks(accidental="200 lb", accidental_from="the owner")
    pulls = [check for check in found if check.what.startswith(PULL)]
    demands = {check.what.rpartition(" ")[2]: check.demand for check in pulls if "somebody" in check.what}
    assert demands["outwards"] == pytest.approx(200.0)
    assert demands["sideways"] == pytest.approx(200.0 * 10.0 / 1.75)


def test_screws_of_a_cover_hold_four_times_its_weight() -> None:
    """Judgment of the reference, section g: 4 x 12 lb over two screws."""
    found = checks(load=None, weight=12.0, role="cover", cover={"hides": ["A"]})
    holds = [check for check in found if check.what.startswith(PULL) and "times its own weight" in check.what]
    assert [check.demand for check in holds] == [pytest.approx(24.0)]


def test_bolts_are_checked_in_pull_with_shear() -> None:
    """T on one bolt of the top row against F_nt A_b/2 (AISC 360-16 J3; A307 45 ksi): 3/8 in holds 2,485 lb."""
    pull = find(checks(fixings(fastener=BOLT)), "pull on the bolts with shear")
    assert pull.demand == pytest.approx(300.0 / 6.3)
    assert pull.capacity == pytest.approx(45000.0 * 0.375**2 * 3.14159265 / 4.0 / 2.0, rel=1e-6)
    without = checks(fixings(fastener={**BOLT, "steel": None}))
    assert "their steel cannot be checked" in said(without, "refer")


def test_rated_anchors() -> None:
    held: Data = {"rating": RATING, "rows": TWO, "wall": "masonry"}
    found = checks(held)
    assert overall(found) == "passes", said(found, "refer")
    both = find(found, "rated load in several directions")
    assert both.demand == pytest.approx(100.0 / 500.0 + 300.0 / 6.3 / 400.0)
    assert overall(checks({**held, "rating": {**RATING, "along": None}})) == "refer"  # the report may have a figure
    assert overall(checks({**held, "rows": []})) == "refer"
    assert overall(checks({**held, "wall": "gypsum board"})) == "refer"


def test_uplift_refers() -> None:
    gust = [{"what": "gust", "wind": "-300 lb", "at": "3 in"}]
    here = structure()
    piece = bracket(SOLID, fixings=fixings(), carries=gust)
    found = held_by(piece, here)
    assert "lift" in said(found, "refer")


def test_an_arc_touches_the_wall_at_its_foot_only() -> None:
    held = fixings(rows=[{"below_top": "6 in", "count": 1}], through="1 1/2 in")
    assert "foot of the arc" in said(checks(held, "5 lb", shape=BENT), "refer")


def bar(**more: Any) -> list[Check]:
    rows = [{"below_top": "1 in", "count": 1}, {"below_top": "3 in", "count": 1}]
    held = fixings(**{"rows": rows, "through": None, "fastener": {**BOLT, "length": "5 in"}, **more})
    return checks(held, "20 lb", shape={**STRAP, "width": "2 in", "down": "4 in"})


def test_a_bar_on_a_stud() -> None:
    """T = 20 x 3 lb-in over the arm of a leg that curls, 1.6 in and not 0.9 (4 - 1); its rows share evenly (11.3)."""
    found, pull = bar(), 60.0 / (29e6 * 0.25**3 / 69000.0) ** 0.25
    assert overall(found) == "passes", said(found, "refer") + said(found, "fails")
    assert find(found, "pull on the top row").demand == pytest.approx(pull)
    assert find(found, LATERAL).demand == pytest.approx(10.0)
    assert find(found, "heel against the wall, wood of the wall").demand == pytest.approx(pull / (2.0 * 0.2 * 3.0))


@pytest.mark.parametrize(
    ("change", "words"),
    [
        ({"wall": "plaster"}, "crushes"), ({"wall": None}, "`wall`"),
        ({"other": {**OTHER, "grain": "end"}}, "needs its grain"),
        ({"other": {**OTHER, "end": None}}, "`other.end`"), ({"other": None}, "is not described"),
        ({"other": {**OTHER, "thickness": "2 1/4 in"}}, "neither side"),
    ],
)  # fmt: skip
def test_a_bar_without_evidence_refers(change: Data, words: str) -> None:
    assert words in said(bar(**change), "refer")


def test_a_bar_below_its_last_fixing_refers() -> None:
    rows = [{"below_top": "4 in", "count": 1}]
    assert overall(bar(rows=rows)) in ("refer", "fails")


def test_a_bar_across_a_rail_needs_the_loaded_edge() -> None:
    """The bar may push its screws towards the given edge: 4 D = 1 1/2 in (NDS Table 12.5.1C); 1 in is too little."""
    near = {**OTHER, "grain": "across", "edge": "1 in"}
    assert overall(bar(other=near)) == "fails"
    assert overall(bar(other={**near, "edge": "1 3/4 in"})) != "fails"


FORCES = st.floats(min_value=5.0, max_value=300.0)


@settings(max_examples=10, deadline=None)
@given(P=FORCES)
def test_more_load_never_helps(P: float) -> None:
    assert worst(checks(load=f"{1.2 * P} lb")) >= worst(checks(load=f"{P} lb")) * (1.0 - 1e-9)


def test_farther_out_is_never_better() -> None:
    ratios = [worst(checks(at=f"{x} in")) for x in (1, 3, 5, 8, 10)]
    assert ratios == sorted(ratios)


def test_a_longer_lag_never_holds_less() -> None:
    ratios = [find(checks(fixings(fastener={**LAG, "length": f"{n} in"})), PULL).ratio or 0.0 for n in (4, 4.5, 5, 5.5)]
    assert ratios == sorted(ratios, reverse=True)


def test_no_load_at_all() -> None:
    found = checks(load="0.001 lb")
    assert {check.verdict for check in found if check.ratio is not None} <= {"passes"}
