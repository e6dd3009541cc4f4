"""Intervals of tests on site by hand, what they rule out at their limits, and what those to be made would be worth."""

from __future__ import annotations

import math
from dataclasses import replace
from typing import Any

import pytest

from beamcheck.checks.core.wood import site_tests
from beamcheck.checks.core.wood.moist import core_readings, in_moisture
from beamcheck.checks.core.wood.site_tests import Interval, gravity_found, modulus_found, unlikely
from beamcheck.checks.core.wood.worth_of_tests import _usual_sag, _usual_weighing, worth
from beamcheck.model.conditions.survey import SagTest
from beamcheck.model.stock import Stock
from beamcheck.values.judgment import judgment
from beamcheck.values.lumber import DesignValues, design_values, read_size

from .timbers import CLEAN, data

SIZE = read_size("7 1/2 in x 9 1/2 in")
PINE, FIR = (design_values(one, grade, SIZE) for one, grade in (("Eastern White Pine", "No.2"),
                                                                ("Douglas Fir-Larch", "No.1")))  # fmt: skip
TAPE = 1.0 / 16.0
SAG: dict[str, Any] = {"span": "13 ft", "weight": "600 lb", "weight_off": "10 lb", "sag_off": "0.01 in",
                       "sag": "0.10 in", "supports_sank": "0.02 in", "came_back": True}  # fmt: skip
SCALE: dict[str, Any] = {"weight": "150 lb", "weight_off": "2 lb", "length": "10 ft", "moisture": "13 %"}


def timber(**survey: Any) -> Stock:
    return Stock.model_validate({**data()["stock"][0], "survey": {**CLEAN, **survey}})


def without(test: dict[str, Any], *names: str, **more: Any) -> dict[str, Any]:
    return {key: value for key, value in {**test, **more}.items() if key not in names}


def E(P: float, b: float, d: float, sag: float) -> float:
    """P L^3/48 E I and 6/5 P L/4 G A with G = E/16, over 1.03 (NDS 2018 App. F, memory)."""
    return P * 156.0**3 * (1.0 + 19.2 * (d / 156.0) ** 2) / (48.0 * b * d**3 / 12.0 * sag) / 1.03


def G(P: float, b: float, d: float, MC: float = 13.0) -> float:
    """pcf = 62.4 G (1 + MC/100)/(1 + 0.009 MC G) turned round (NDS Supplement 3.1.3, memory)."""
    pcf = P / (b * d * 120.0) * 1728.0
    return pcf / (62.4 * (1.0 + MC / 100.0) - 0.009 * MC * pcf)


def test_the_interval_of_a_sag_has_every_error_at_its_bad_end() -> None:
    found = modulus_found(timber(sag_test=SAG))
    assert found is not None
    bounds = E(590.0, 7.5 + TAPE, 9.5 + TAPE, 0.09), E(600.0, 7.5, 9.5, 0.08), E(610.0, 7.5 - TAPE, 9.5 - TAPE, 0.07)
    assert (found.low, found.value, found.high) == pytest.approx(bounds)


def test_the_interval_of_a_weight_has_every_error_at_its_bad_end() -> None:
    """Of the timber by its stations, of an offcut by its own sides."""
    for sides, b, d in (
        ({}, 7.5, 9.5),
        ({"breadth": "7 in", "depth": "8 in"}, 7.0, 8.0),
        ({"breadth": "7 in"}, 7.0, 9.5),
    ):
        found = gravity_found(timber(weighing={**SCALE, **sides}))
        assert found is not None
        assert (found.low, found.value, found.high) == pytest.approx(
            (G(148.0, b + TAPE, d + TAPE), G(150.0, b, d), G(152.0, b - TAPE, d - TAPE)))  # fmt: skip


@pytest.mark.parametrize(("survey", "E_there", "G_there"), [
    ({}, False, False), ({"sag_test": SAG}, True, False), ({"weighing": SCALE}, False, True),
    ({"sag_test": without(SAG, "sag", "supports_sank")}, False, False),
    ({"sag_test": {**SAG, "came_back": False}}, False, False), ({"sag_test": without(SAG, "came_back")}, True, False),
    ({"weighing": without(SCALE, "weight")}, False, False),
])  # fmt: skip
def test_what_was_not_made_finds_nothing(survey: dict[str, Any], E_there: bool, G_there: bool) -> None:
    for stock in (timber(**survey), timber(**survey).model_copy(update={"survey": None})):
        there = (E_there, G_there) if stock.survey else (False, False)
        assert (modulus_found(stock) is not None, gravity_found(stock) is not None) == there
        words = " ".join(site_tests.tests_words(stock))
        assert ("Sag test: E =" in words, "Weighing: specific gravity" in words) == there


@pytest.mark.parametrize("bounds", [(0.0, 1.0, 2.0), (1.1, 1.0, 2.0), (1.0, 2.1, 2.0), (-1.0, 1.0, 2.0)])
def test_bounds_out_of_order_are_no_interval(bounds: tuple[float, float, float]) -> None:
    with pytest.raises(ValueError, match="no interval"):
        Interval(*bounds)
    assert Interval(0.5, 0.5, 0.5).high == 0.5


@pytest.mark.parametrize(("off", "says"), [(0.999, False), (1.001, True)])
def test_a_row_is_ruled_out_by_its_modulus_or_its_gravity_alone(off: float, says: bool) -> None:
    """1.645 deviations, of 0.25 on E (NDS 2018 App. F) and 0.1 on G (Wood Handbook ch. 5; both memory)."""
    stock = timber(sag_test=SAG, weighing=SCALE)
    stiff, heavy = modulus_found(stock), gravity_found(stock)
    assert stiff is not None and heavy is not None
    mean = replace(PINE, E=stiff.value, G=heavy.value)
    soft, hard, light, dense = (1.0 + sign * 1.645 * COV for COV in (0.25, 0.1) for sign in (-1.0, 1.0))
    rows = [({"E": off * stiff.high / soft}, "by its sag"), ({"G": off * heavy.high / light}, "by its weight"),
            ({"E": stiff.low / hard / off}, "by its sag"),
            ({"G": heavy.low / dense / off}, "by its weight")]  # fmt: skip
    for figures, word in rows:
        row = replace(mean, **figures)
        assert (unlikely(stock, row) != "") is says and (word in unlikely(stock, row)) is says
    assert unlikely(stock, mean) == unlikely(stock, replace(mean, G=None)) == ""
    assert unlikely(timber(), replace(mean, E=1.0)) == ""
    both = unlikely(stock, replace(mean, E=10.0 * stiff.high, G=10.0 * heavy.high))
    to = [f"{round(one, -4):,.0f} psi" for one in (stiff.low, stiff.high)]
    assert both == f"E {to[0]} to {to[1]} by its sag and G {heavy.low:.2f} to {heavy.high:.2f} by its weight"


# ---- before they are made -------------------------------------------------------------------------------------------

ROWS = [(PINE, False), (FIR, True)]
PLANNED, SCALES = without(SAG, "sag", "supports_sank"), without(SCALE, "weight")


def said(rows: list[tuple[DesignValues, bool]] = ROWS, moist: Any = (), dry: bool = True, **survey: Any) -> str:
    return worth(timber(**survey), rows, moist, dry=dry)


@pytest.mark.parametrize(("survey", "sag", "weighing"), [
    ({}, True, True), ({"sag_test": PLANNED}, True, True), ({"sag_test": SAG}, False, True),
    ({"weighing": SCALES}, True, True), ({"weighing": SCALE}, True, False),
    ({"weighing": SCALE, "sag_test": SAG}, False, False),
])  # fmt: skip
def test_only_what_was_not_made_yet_is_worth_something(survey: dict[str, Any], sag: bool, weighing: bool) -> None:
    words = said(**survey)
    assert ("A sag of less than" in words, "that weighs more than" in words) == (sag, weighing)
    assert ("under 600 lb in the middle of 13 ft" in words) is ("sag_test" in survey and sag)


@pytest.mark.parametrize("holds", [True, False])
def test_where_all_do_alike_only_a_planned_sag_test_is_spoken_of(holds: bool) -> None:
    alike = [(PINE, holds), (FIR, holds)]
    assert said(alike, sag_test=PLANNED) == "A sag test would settle nothing: all candidates do alike."
    assert said(alike) == said(alike, sag_test=SAG) == ""


def test_the_stiffest_that_fails_against_the_stiffest_that_holds() -> None:
    """A piece of a row has 1.411 times its mean at most; that has to lie under that of the stiffest that holds."""
    for over, within, tells in (([0.9, 1.2], [1.1, 1.6], True), ([0.9, 1.7], [1.3, 1.6], False), ([1.6], [1.6], False)):
        rows = [(replace(PINE, E=1e6 * one), False) for one in over] + [
            (replace(FIR, E=1e6 * one), True) for one in within
        ]
        words = said(rows, sag_test=PLANNED)
        assert ("A sag of less than" in words) is tells and (
            "bend no more than pieces of the stronger" in words
        ) is not tells
        if tells:
            b, d, needed = 7.5 + TAPE, 9.5 + TAPE, 1.2e6 * (1.0 + 1.645 * 0.25)
            sag = E(590.0, b, d, 1.0) / needed - 0.01
            assert f"A sag of less than {sag:.3f} in under" in words


@pytest.mark.parametrize(("share", "small"), [(0.99, False), (1.01, True)])
def test_a_sag_that_is_no_larger_than_its_error_is_too_small_to_read(share: float, small: bool) -> None:
    """Half of the sag that tells them apart, or more, is the error."""
    sag = E(590.0, 7.5 + TAPE, 9.5 + TAPE, 1.0) / (PINE.E * (1.0 + 1.645 * 0.25))
    words = said(sag_test={**PLANNED, "sag_off": f"{0.5 * share * sag:.6f} in"})
    assert ("too small to read" in words) is small


def test_the_heaviest_that_fails_against_the_heaviest_that_holds() -> None:
    for over, within, tells in (
        ([0.3, 0.45], [0.4, 0.5], True),
        ([0.3, 0.55], [0.4, 0.5], False),
        ([0.5], [0.5], False),
    ):
        rows = [(replace(PINE, G=one), False) for one in over] + [(replace(FIR, G=one), True) for one in within]
        words = said(rows, weighing=SCALES)
        assert ("that weighs more than" in words) is tells and ("do not are as heavy" in words) is not tells
        if tells:
            G_ = 0.45 * (1.0 + 1.645 * 0.1)
            pcf = 62.4 * G_ / (1.0 + 0.009 * 13.0 * G_) * 1.13
            weight = math.ceil(pcf * (7.5 + TAPE) * (9.5 + TAPE) * 120.0 / 1728.0 + 2.0)
            assert f"10 ft of it at 13 % moisture that weighs more than {weight} lb" in words
            offcut = said(rows, weighing={**SCALES, "breadth": "7 in", "depth": "8 in"})
            weight = math.ceil(pcf * (7.0 + TAPE) * (8.0 + TAPE) * 120.0 / 1728.0 + 2.0)
            assert f"more than {weight} lb" in offcut


@pytest.mark.parametrize(("over", "within", "speaks"), [
    ([None, 0.3], [0.5], False), ([0.3], [None], False), ([0.3], [None, 0.5], True), ([0.3, 0.36], [0.5], True),
])  # fmt: skip
def test_a_row_without_a_gravity_is_ruled_out_by_no_weighing(over: list[Any], within: list[Any], speaks: bool) -> None:
    rows = [(replace(PINE, G=one), False) for one in over] + [(replace(FIR, G=one), True) for one in within]
    assert ("weighs more than" in said(rows)) is speaks


def test_tests_as_they_are_usually_made() -> None:
    """600 lb by a scale off by 5 lb, read to 1/32 in, the default of a test that is entered; 12 % or as metered."""
    test, scale = _usual_sag(144.0), _usual_weighing(timber(readings=[]), 144.0)
    assert (test.span, test.weight, test.weight_off) == (144.0, 600.0, 5.0)
    assert test.sag_off == judgment("error of a sag").value == 1.0 / 32.0 == SagTest.model_fields["sag_off"].default
    assert (scale.length, scale.weight_off, scale.tape_off, scale.moisture) == (144.0, 5.0, TAPE, 12.0)
    for metered, taken in (("13 %", 13.0), ("29 %", 29.0), ("31 %", 30.0), ("45 %", 30.0)):
        readings = [{"at": "7 ft", "moisture": metered}]
        assert _usual_weighing(timber(readings=readings), 144.0).moisture == taken


@pytest.mark.parametrize(("dry", "kept", "words"), [
    (True, [False, False], "over 19 % in the core would leave 0 of 2 candidates within the limits, not 1: Douglas "
     "Fir-Larch No.1 would no longer hold."), (True, [False, True], "over 19 % in the core would change nothing here"),
    (False, [True, True], "19 % or less from face to core, 2 of 2 candidates would stay within the limits, not 1."),
    (False, [False, True], "from face to core, no further candidate would come within the limits."),
])  # fmt: skip
def test_what_a_moisture_profile_would_be_worth(dry: bool, kept: list[bool], words: str) -> None:
    moist = [(row, holds) for (row, _), holds in zip(ROWS, kept, strict=True)]
    assert words in said(moist=moist, dry=dry) and "profile" not in said(dry=dry)


# ---- readings -------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(("deep", "core"), [("3 in", True), ("2.99 in", False), (None, False)])
def test_a_reading_of_the_core_is_as_deep_as_two_fifths_of_the_lesser_side(deep: str | None, core: bool) -> None:
    reading = without({"at": "7 ft", "moisture": "13 %", "deep": deep}, *(["deep"] if deep is None else []))
    stock = timber(readings=[reading, {"at": "1 ft", "moisture": "14 %"}])
    assert [one.at for one in core_readings(stock)] == [84.0] * core
    assert core_readings(stock.model_copy(update={"survey": None})) == []


def test_the_same_timber_in_another_moisture_was_metered_nowhere_else() -> None:
    stock = timber(readings=[{"at": "7 ft", "moisture": "24 %"}])
    dry, wet, told = (
        in_moisture(stock, dry=True),
        in_moisture(stock, dry=False),
        in_moisture(stock, dry=True, metered=8.0),
    )
    assert [(one.moisture, one.metered) for one in (dry, wet, told)] == [("dry", 19.0), ("wet", None), ("dry", 8.0)]
    assert in_moisture(stock.model_copy(update={"survey": None}), dry=True).survey is None
