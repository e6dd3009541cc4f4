"""Published loads: what a source must name, what a report is for, how loads add up, each rule at its limit.

C_D by NDS 2018 Table 2.3.2 (read): floor 1.0, snow 1.15, roof 1.25, wind 1.6, permanent 0.9. Figures are invented.
"""

from __future__ import annotations

from dataclasses import replace
from types import SimpleNamespace
from typing import Any

import numpy as np
import pytest

from beamcheck.checks.anchors.group import Group
from beamcheck.checks.anchors.manners.rated_hardware import RatedHardware, by_report, rated_checks
from beamcheck.checks.core.asking.question import RULING
from beamcheck.checks.core.result import Check
from beamcheck.model.anchors.anchor import Anchor
from beamcheck.model.beams import Beam
from beamcheck.model.stock import Stock

from ..anchors import Data, find, group, stock

REPORT: Data = {"source": "evaluation report ER-0000 (invented), 2025, table 3", "down": "1250 lbf",
                "duration": "included", "loads": "floor", "conditions": "all holes filled",
                "conditions_met": True}  # fmt: skip
SEEN: Data = {"split": "none seen"}


def rated(
    across: list[float] | None = None, out: list[float] | None = None, *, kinds: str = "L",
    held: Stock | None = None, more: Data | None = None, **rating: Any,
) -> Group:  # fmt: skip
    told = {key: value for key, value in {**REPORT, **rating}.items() if value is not None}
    anchor = Anchor.model_validate({"name": "A", "manner": "rated hardware", "rating": told, **SEEN, **(more or {})})
    made = group([1000.0] if across is None else across, out, kinds=kinds, held=held)
    return replace(made, anchor=anchor, x=np.zeros(0), y=np.zeros(0), into_stock=None, into_wood=None)


def those(found: list[Check], id: str, what: str = "") -> list[Check]:
    return [check for check in found if check.id == id and what in check.what]


def test_without_a_rating_it_is_asked_for() -> None:
    made = rated()
    bare = replace(made, anchor=made.anchor.model_copy(update={"rating": None}))
    (check,) = rated_checks(bare)
    assert check.verdict == "refer" and check.questions[0].field == "anchor.A.rating.down"
    assert those(by_report(bare), "anchor.rated_fit") == []
    assert RatedHardware().to_see(bare)[0].endswith("its report")
    assert RatedHardware().to_see(made)[0].endswith(REPORT["source"]) and len(RatedHardware().to_see(made)) == 3


# ---- its source and conditions ---------------------------------------------------------------------------------------


@pytest.mark.parametrize(("source", "missing"), [
    ("evaluation report ER-0000, 2025", ""), ("catalog no. 12, 2nd edition", ""), ("ESR 1234 of 2024", ""),
    ("report no. 77 of 1999", ""), ("listing #12, 2025", ""),
    ("evaluation report ER-0000", "its year or edition"), ("evaluation report of 2025", "a report by its number"),
    ("paper 2025", "a report by its number"), ("report 12, 1899", "its year or edition"),
    ("the store", "a report by its number and its year or edition"),
    ("evaluation report ER-0000, 2025, pending", "any figure yet: it says 'pending'"),
])  # fmt: skip
def test_a_source_that_somebody_else_can_find(source: str, missing: str) -> None:
    found = those(rated_checks(rated(source=source)), "anchor.rated_source")
    assert [check.verdict for check in found] == (["refer"] if missing else [])
    if missing:
        assert f"does not name {missing}: nobody" in found[0].notes[0]
        assert found[0].questions[0].field == "anchor.A.rating.source"


@pytest.mark.parametrize(("met", "words", "verdict", "field"), [
    (True, "all holes filled", "passes", ""), (True, "", "refer", "anchor.A.rating.conditions"),
    (None, "all holes filled", "refer", "anchor.A.rating.conditions_met"), (False, "all holes filled", "refer", RULING),
    (None, "", "refer", "anchor.A.rating.conditions_met"),
])  # fmt: skip
def test_conditions_of_a_rating(met: bool | None, words: str, verdict: str, field: str) -> None:
    (check,) = those(rated_checks(rated(conditions_met=met, conditions=words)), "anchor.rated_conditions")
    assert check.verdict == verdict and [one.field for one in check.questions] == ([field] if field else [])
    if met is not True:
        assert check.notes[0].endswith(": the published loads do not hold") is (met is False)
        assert (f": {words}" in check.notes[0]) is bool(words)


@pytest.mark.parametrize(("figure", "believed"), [("20,000 lbf", True), ("20,001 lbf", False)])
def test_figures_of_hangers_end_at_twenty_thousand_pounds(figure: str, believed: bool) -> None:
    """Judgment; only those of directions that are asked for."""
    assert bool(those(rated_checks(rated(down=figure)), "anchor.rated_figure")) is not believed
    assert not those(rated_checks(rated(down="1250 lbf", up=figure)), "anchor.rated_figure")


# ---- loads in one direction and in several ---------------------------------------------------------------------------


def test_nothing_comes_to_it() -> None:
    """Half a pound is rounding (judgment); what waits for an answer is not passed beside it."""
    (check,) = those(rated_checks(rated([0.5], [-0.5])), "anchor.rated")
    assert check.verdict == "passes" and check.what == "rated load" and "no force comes to it" in check.notes[0]
    assert those(rated_checks(rated([0.0], conditions_met=None)), "anchor.rated") == []
    (check,) = those(rated_checks(rated([0.51])), "anchor.rated")
    assert check.ratio == pytest.approx(0.51 / 1250)


def test_a_direction_that_is_not_rated_is_asked_for_with_half_more_and_half() -> None:
    found = those(rated_checks(rated([500.0, -204.0])), "anchor.rated", "rated load up")
    assert [answer.says for answer in found[0].questions[0].answers] == ["310 lbf", "110 lbf"]
    assert found[0].questions[0].field == "anchor.A.rating.up" and "204 lb come that way" in found[0].notes[0]
    (pressing,) = those(rated_checks(rated([500.0], [-100.0])), "anchor.rated", "pressing")
    assert pressing.questions[0].field == RULING


@pytest.mark.parametrize(("across", "along", "rating", "ratio"), [
    # down and along at once add up; what lifts does not come with what presses down
    ([500.0], [300.0], {"along": "900 lbf"}, 500 / 1250 + 300 / 900),
    ([500.0, -400.0], [0.0, 0.0], {"up": "800 lbf"}, None),
    ([-400.0], [300.0], {"up": "800 lbf", "along": "900 lbf"}, 400 / 800 + 300 / 900),
    ([500.0, -400.0], [0.0, 300.0], {"up": "800 lbf", "along": "900 lbf"}, 400 / 800 + 300 / 900),
    ([500.0, 100.0], [0.0, 600.0], {"along": "900 lbf"}, 100 / 1250 + 600 / 900),
])  # fmt: skip
def test_several_directions_at_once(across: list[float], along: list[float], rating: Data, ratio: float | None) -> None:
    """Shares of one combination added up."""
    found = those(rated_checks(rated(across, along, **rating)), "anchor.rated", "in several directions at once")
    assert [check.ratio for check in found] == ([pytest.approx(ratio)] if ratio is not None else [])
    if ratio is not None:
        assert (found[0].kind, found[0].capacity) == ("ratio", 1.0)


@pytest.mark.parametrize(("duration", "loads", "kinds", "capacity"), [
    # included: for its own load and shorter ones as published; lowered for those that last longer
    ("included", "wind", "W", 1250.0), ("included", "wind", "L", 1250 / 1.6), ("included", "permanent", "L", 1250.0),
    ("included", "permanent", "D", 1250.0), ("included", "floor", "D", 1250 * 0.9),
    # to be applied: 1.0 in the figure, raised no further than the report says
    ("apply C_D", "wind", "W", 2000.0), ("apply C_D", "snow", "W", 1437.5), ("apply C_D", "floor", "W", 1250.0),
    ("apply C_D", "wind", "D", 1125.0),
])  # fmt: skip
def test_duration_of_the_figures(duration: str, loads: str, kinds: str, capacity: float) -> None:
    check = find(rated_checks(rated(kinds=kinds, duration=duration, loads=loads)), "rated load down")
    assert check.capacity == pytest.approx(capacity)
    written = [step.value for step in check.steps if step.symbol == "k_D"]
    assert written == ([] if capacity == 1250.0 else [pytest.approx(capacity / 1250)])


@pytest.mark.parametrize(("force", "duration", "verdict", "words"), [
    (781.0, "included", "passes", ""),
    (782.0, "included", "refer", "1.001 if for the shortest, 0.626 if for floor loads"),
    (1250.0, "included", "refer", "if for the shortest"), (1251.0, "included", "fails", ""),
    (1250.0, "apply C_D", "passes", ""), (1251.0, "apply C_D", "refer", "up to which load duration"),
    (2000.0, "apply C_D", "refer", "up to which load duration"), (2001.0, "apply C_D", "fails", ""),
])  # fmt: skip
def test_a_figure_of_which_the_loads_are_not_said(force: float, duration: str, verdict: str, words: str) -> None:
    """Between the lowest that may be meant and the best, the report is asked: 1,250 lb under floor load or wind."""
    kinds = "L" if duration == "included" else "W"
    check = find(rated_checks(rated([force], kinds=kinds, duration=duration, loads=None)), "rated load down")
    assert check.verdict == verdict and (not words or words in check.notes[0])
    assert [one.field for one in check.questions] == (["anchor.A.rating.loads"] if verdict == "refer" else [])


# ---- wood, joint and slope -------------------------------------------------------------------------------------------


def fit(made: Group) -> list[tuple[str, str]]:
    """(field that is asked, first words) of what does not fit the report."""
    return [(check.questions[0].field, check.notes[0]) for check in those(by_report(made), "anchor.rated_fit")]


def test_all_that_fits() -> None:
    assert fit(rated()) == []


@pytest.mark.parametrize(("more", "field", "words"), [
    ({"split": "check across the holes"}, RULING, "a check or split runs through"),
    ({"split": "not looked at"}, "anchor.A.split", "look whether a check or split"),
    ({"split": None}, "anchor.A.split", "look whether a check or split"),
    ({"gap": "1/8 in"}, RULING, "a gap of 1/8 in in the joint"),
])  # fmt: skip
def test_what_published_loads_take_for_granted(more: Data, field: str, words: str) -> None:
    told = {key: value for key, value in {**SEEN, **more}.items() if value is not None}
    made = rated()
    anchor = Anchor.model_validate({"name": "A", "manner": "rated hardware", "rating": REPORT, **told})
    ((asked, text),) = fit(replace(made, anchor=anchor))
    assert asked == field and text.startswith(words)


@pytest.mark.parametrize(("wood", "field"), [
    ({}, ""), ({"temperature": "100 degF"}, ""), ({"temperature": "101 degF"}, RULING),
    ({"moisture": "wet", "measured_moisture": None}, RULING),
    ({"moisture": "green", "measured_moisture": None}, RULING),
    ({"measured_moisture": "19 %"}, ""), ({"measured_moisture": "20 %"}, "stock.wood.measured_moisture"),
    ({"measured_moisture": "20 %", "temperature": "101 degF"}, RULING),
])  # fmt: skip
def test_published_loads_are_for_dry_wood_that_stays_cool(wood: Data, field: str) -> None:
    """Dry to 19 % (NDS 2018 4.1.4), to 100 F (2.3.3); wood that a meter finds wet today dries first."""
    assert [asked for asked, _ in fit(rated(held=stock(**wood)))] == ([field] if field else [])


def test_an_old_timber_that_is_surveyed_is_not_metered_once_more() -> None:
    """A survey has its own readings: the meter of the stock alone does not say that it dries first."""
    made = rated(held=stock(measured_moisture="20 %"))
    surveyed: Any = replace(made, stock=made.stock.model_copy(update={"survey": SimpleNamespace(readings=())}))
    fields = [asked for asked, text in fit(surveyed)]
    assert "stock.wood.measured_moisture" not in fields


@pytest.mark.parametrize(("slope", "said", "asked"), [
    (3.0, None, False), (3.1, None, True), (-3.1, None, True), (20.0, "20 deg", False), (20.0, "19 deg", True),
    (-20.0, "25 deg", False),
])  # fmt: skip
def test_figures_for_a_slope(slope: float, said: str | None, asked: bool) -> None:
    """Over 3 degrees (judgment) a report has figures of its own."""
    made = replace(rated(**({"slope": said} if said else {})), slope=slope)
    assert ("anchor.A.rating.slope" in [field for field, _ in fit(made)]) is asked


def test_wood_that_nobody_knows_is_no_wood_of_the_report() -> None:
    old = stock(species="unknown", grade="unstamped", grade_from=None, evidence="", candidates=["Hem-Fir"])
    assert [field for field, _ in fit(rated(held=old))] == ["stock.wood.grade"]


@pytest.mark.parametrize(("words", "asked"), [
    ("Douglas Fir-Larch, all holes filled", ""), ("Hem-Fir, all holes filled", "it names Hem-Fir, but B is of Douglas"),
    ("all holes filled", ""), ("Hem-Fir and Douglas Fir-Larch", ""),
    ("for 2x12", ""), ("for 3x12", "it is for 3x12"), ("for 2x10", ""), ("for 2x12 and 3x12", ""),
    ("for 3x12 and 4x12", "it is for 3x12 and 4x12, but B is 1 1/2 in broad"),
    ("some holes left out", "the conditions say"), ("here every second hole is nailed", "the conditions say"),
    ("nailed; drywall screws at the joist", "the conditions say 'drywall screws'"), ("not to be modified", ""),
    ("seat bent on site", "the conditions say"), ("hangers modified on site", "the conditions say"),
    ("hardware must not be modified", ""), ("hangers not cut, bent or modified", ""), ("no drywall screws", ""),
    ("drywall screws are not used", ""), ("no drywall screws, roofing nails", "the conditions say 'roofing nails'"),
    ("no fasteners substituted", ""), ("loads modified by C_D", ""), ("joists cut on site, tight to the girder", ""),
    ("flanges cut on site", "the conditions say"), ("no empty holes", ""), ("two empty holes", "the conditions say"),
    ("for 1 1/2 x 11 1/4", ""), ("for 1 1/2 x 10", ""), ("10 x 1 1/2 in nails", ""),
    ("double 2x12 hanger", "it is for double 2x12"), ("no hurricane tie", ""),
    ("hurricane tie", "'hurricane tie' is for what lifts"),
    ("uplift column", "'uplift column' is for what lifts"), ("two hangers are bent and reused", "the conditions say"),
    ("ridge tension straps", "'tension straps' is for what lifts"), ("uplift and download columns", ""),
])  # fmt: skip
def test_what_a_report_names_against_the_job(words: str, asked: str) -> None:
    """Species, breadth within 1/4 in (judgment), holes that are not filled; a 2x12 of Douglas Fir-Larch."""
    found = [text for field, text in fit(rated(conditions=words)) if field == RULING]
    assert len(found) == bool(asked) and all(text.startswith(asked) for text in found), found


@pytest.mark.parametrize(("words", "asked"), [
    ("average ultimate load of three tests", True), ("LRFD column", True), ("factored resistance", True),
    ("a third of the lowest ultimate load", False), ("ultimate load over 3", False), ("all holes filled", False),
    ("1/3 of the average ultimate test load", False), ("ultimate test load / 3", False), ("not ultimate loads", False),
    ("ASD and LRFD loads are listed, ASD used", False), ("ASD and LRFD listed, LRFD used", True), ("not LRFD", False),
    ("load at failure in test", True), ("2,000 lb per pair of hangers", True), ("2,000 lb for two hangers", True),
    ("2,000 lb per pair, half of it entered", False), ("2,000 lb per pair, half-inch bolts", True),
    ("each hanger, not per pair", False),
    ("ASD rather than LRFD", False), ("no ASD load, LRFD", True), ("allowable not given, ultimate load", True),
])  # fmt: skip
def test_loads_of_a_test_are_no_allowable_loads(words: str, asked: bool) -> None:
    found = those(by_report(rated(conditions=words)), "anchor.rated_figure")
    assert [check.verdict for check in found] == (["refer"] if asked else [])


@pytest.mark.parametrize(("b", "asked"), [(1.75, False), (1.26, False), (1.76, True), (1.24, True)])
def test_hardware_as_wide_as_its_piece(b: float, asked: bool) -> None:
    made = rated(conditions="for 2x12")
    made = replace(made, section=replace(made.section, b=b))
    assert bool(fit(made)) is asked


def test_the_species_of_what_carries_it_counts_as_well() -> None:
    """The stock of the carrying piece where it is of the job; else that of the other side."""
    hem = stock(species="Hem-Fir", grade="No.2")
    girder: Any = SimpleNamespace(name="girder", stock="hem")
    context: Any = SimpleNamespace(structure=SimpleNamespace(stocks={"hem": hem}), stock=lambda name: hem)
    made = replace(rated(conditions="Douglas Fir-Larch"), into=girder, into_stock=None, into_wood=None)
    assert [text[:46] for text in texts(made, context)] == ["it names Douglas Fir-Larch, but girder is of H"]
    assert texts(made, None) == []
    other = replace(made, into=None, into_stock=hem)
    assert [text[:51] for text in texts(other, context)] == ["it names Douglas Fir-Larch, but the other member is"]
    elsewhere: Any = SimpleNamespace(name="girder", stock="fir")
    assert texts(replace(made, into=elsewhere), context) == [], "a stock that the job does not have"


def texts(made: Group, context: Any) -> list[str]:
    return [check.notes[0] for check in by_report(made, context) if check.what == "what the report is for"]


@pytest.mark.parametrize(("size", "words", "asked"), [
    ("2x10 dressed", "for 2x6", True), ("2x8 dressed", "for 2x6", False), ("2x10 dressed", "for 2x12", True),
    ("2x10 dressed", "for 2x8 and 2x12", False), ("2x10 dressed", "for 2x10", False), ("2x6 dressed", "for 2x8", True),
    ("2x10 dressed", "2x10 on a 4x12", False),
])  # fmt: skip
def test_a_hanger_takes_hold_of_three_fifths_of_its_piece_and_is_not_deeper(size: str, words: str, asked: bool) -> None:
    """5 1/2 in of 9 1/4 in is 0.595, of 7 1/4 in 0.759; hangers under 0.6 let the piece turn over (practice)."""
    assert bool(fit(rated(held=stock(size), conditions=words))) is asked
    assert fit(rated([-100.0], held=stock(size), conditions=words, up="900 lbf")) == [], "a strap holds up or down"


@pytest.mark.parametrize(("size", "plies", "laid", "words", "asked"), [
    ("2x10", 1, "on edge", "solid girder at least 3 in thick", "it says '3 in thick', but girder is 1 1/2 in thick"),
    ("2x10", 2, "on edge", "solid girder at least 3 in thick", ""), ("4x10", 1, "on edge", "3 1/2 in thick", ""),
    ("4x10", 1, "on edge", "a header 5 1/4 inches or more thick", "it says '5 1/4 inches or more thick', but girder"),
    ("4x10", 1, "on edge", "nominal 4 in nominal thick header", ""), ("4x10", 1, "flat", "5 in thick", ""),
    ("2x10", 1, "on edge", "a header of at most 3 in thick", ""), ("2x10", 1, "on edge", "steel 1/8 in thick", ""),
    ("4x10", 1, "on edge", "header 4 in thick nominal", ""), ("2x10", 1, "on edge", "nominal 2 in thick header", ""),
    ("2x10", 1, "on edge", "joist 3 1/2 in wide", ""), ("2x10", 1, "on edge", "hanger 3 9/16 in wide", ""),
    ("2x10", 1, "on edge", "6 in thick slab above", ""),
    ("2x10", 1, "on edge", "header 3-1/2 in thick", "it says '3-1/2"),
    ("2x10", 1, "on edge", "joist 1 1/2 in wide on a girder 3 in wide", "it says '3 in wide'"),
    ("4x10", 1, "on edge", "header 4 in thick", "it says '4 in"),
])  # fmt: skip
def test_a_carrying_piece_thinner_than_the_report_asks_for(
    size: str, plies: int, laid: str, words: str, asked: str
) -> None:  # fmt: skip
    wood = stock(size)
    girder = Beam.model_validate({
        "name": "girder", "stock": "wood", "plies": plies, "laid": laid, "service": "floor", "finish": "none",
        "top_held": "full length", "carries": [],
        "supports": [{"at": "0 ft", "on": "wall"}, {"at": "9 ft", "on": "wall"}],
    })  # fmt: skip
    context: Any = SimpleNamespace(structure=SimpleNamespace(stocks={"wood": wood}), stock=lambda name: wood)
    found = texts(replace(rated(conditions=words), into=girder), context)
    assert len(found) == bool(asked) and all(text.startswith(asked) for text in found), found
