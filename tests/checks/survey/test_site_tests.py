"""Tests that a carpenter can make: what they say, with which bounds, what they rule out, and what they never show."""

from __future__ import annotations

import math
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from beamcheck.checks.core.asking.settling import settling_fact
from beamcheck.checks.core.wood import site_tests
from beamcheck.checks.core.wood.site_tests import Interval, _beyond, gravity_found, modulus_found, unlikely
from beamcheck.checks.core.wood.worth_of_tests import _usual_sag, worth
from beamcheck.errors import JobError
from beamcheck.model.reading.reader import job_from_data
from beamcheck.model.stock import Stock
from beamcheck.values.lumber import design_values, read_size

from .timbers import CERTIFICATE, data, found, result

SIZE = "7 1/2 in x 9 1/2 in"
TEST = {"span": "13 ft", "weight": "600 lb", "weight_off": "10 lb", "supports_sank": "0 in", "sag_off": "0.01 in",
        "came_back": True}  # fmt: skip


def stock(**survey: Any) -> Stock:
    return job_from_data(data(survey)).stock[0]


def table_note(**survey: Any) -> str:
    piece = result(survey)
    return next(table.note for table in piece.tables if table.title.startswith("Screening"))


def test_the_modulus_of_a_sag() -> None:
    """P L^3/(48 E I) and 6/5 P L/(4 G A), G = E/16, by hand; over 1.03 to stand beside tabulated values (App. F)."""
    P, L, b, d, E = 600.0, 156.0, 7.5, 9.5, 1.1e6 * 1.03
    I_x = b * d**3 / 12
    sag = P * L**3 / (48 * E * I_x) + 1.2 * P * L / (4 * (E / 16) * b * d)
    E_found = modulus_found(stock(sag_test={**TEST, "sag": f"{sag:.6f} in"}))
    assert E_found is not None and E_found.value == pytest.approx(1.1e6, rel=1e-4)
    low = modulus_found(stock(sag_test={**TEST, "sag": f"{sag:.6f} in", "supports_sank": "0.02 in"}))
    assert low is not None and low.value == pytest.approx(1.1e6 * sag / (sag - 0.02), rel=1e-4)


def test_the_bounds_hold_every_combination_of_errors() -> None:
    found_ = modulus_found(stock(sag_test={**TEST, "sag": "0.10 in"}))
    assert found_ is not None
    L = 156.0
    for P in (590.0, 610.0):
        for sag in (0.09, 0.11):
            for off in (-1 / 16, 1 / 16):
                b, d = 7.5 + off, 9.5 + off
                E = P * L**3 * (1 + 19.2 * (d / L) ** 2) / (48 * b * d**3 / 12 * sag) / 1.03
                assert found_.low * (1 - 1e-9) <= E <= found_.high * (1 + 1e-9)


def test_a_test_speaks_against_half_of_the_candidates() -> None:
    """A soft piece: 0.18 in under 600 lb is E = 0.51 million psi; rows of 1.1 million are out, those of 0.9 are not."""
    note = table_note(sag_test={**TEST, "sag": "0.18 in"})
    piece = result({"sag_test": {**TEST, "sag": "0.18 in"}})
    assert "Tests on site speak against 4 of the 6 candidates" in found(piece, "refer")
    assert "It shows stiffness, never strength." in note and piece.verdict == "refer"


def test_a_test_never_turns_a_verdict() -> None:
    """What it rules out is said; every candidate is checked all the same."""
    for live in ("40 psf", "200 psf"):
        plain, tested = (result(more, live=live) for more in ({}, {"sag_test": {**TEST, "sag": "0.18 in"}}))
        assert plain.verdict == tested.verdict
        ratios = [[check.ratio for check in one.checks if check.ratio is not None] for one in (plain, tested)]
        assert ratios[0] == ratios[1]


def test_what_did_not_come_back_says_nothing_and_is_for_an_engineer() -> None:
    test = {**TEST, "sag": "0.18 in", "came_back": False}
    assert modulus_found(stock(sag_test=test)) is None
    assert "did not come back" in found(result({"sag_test": test}, CERTIFICATE), "refer")


def test_a_test_against_the_certified_grade_is_told() -> None:
    piece = result({"sag_test": {**TEST, "sag": "0.21 in"}}, {**CERTIFICATE, "grade_from": "stamp",
                   "evidence": "stamp NELMA, mill 12, No.1, E HEM"})  # fmt: skip
    assert "by its sag" in found(piece, "refer")


def test_a_weight_that_no_wood_has_by_the_sides_that_were_measured_is_told() -> None:
    """262 lb in 10 ft of 7 1/2 x 9 1/2 in is 53 pcf; of 5 x 6 in 126 pcf, which no wood weighs."""
    thin = [{"at": at, "breadth": "5 in", "depth": "6 in"} for at in ("1 ft", "7 ft", "13 ft")]
    scale = {"weight": "262 lb", "weight_off": "2 lb", "length": "10 ft", "moisture": "13 %"}
    assert gravity_found(stock(weighing=scale)) is not None
    with pytest.raises(JobError, match=r"survey, weighing, weight: 126 lb to the cubic foot.*is no wood"):
        stock(weighing=scale, stations=thin)


def test_density_tells_heavy_woods_from_light_ones() -> None:
    """25.87 pcf at 13 %: 25.87/(62.4 x 1.13 - 0.117 x 25.87) = 0.383 (NDS Supplement 3.1.3 turned round)."""
    wood = stock(weighing={"weight": "128 lb", "weight_off": "2 lb", "length": "10 ft", "moisture": "13 %"})
    G = gravity_found(wood)
    assert G is not None and G.value == pytest.approx(0.3833, abs=0.0005) and G.low < G.value < G.high
    assert unlikely(wood, design_values("White Oak", "No.1", read_size(SIZE)))
    assert not unlikely(wood, design_values("Eastern White Pine", "No.1", read_size(SIZE)))


@settings(max_examples=40)
@given(sag=st.floats(0.05, 0.4), off=st.floats(0.001, 0.04), more=st.floats(0.0, 0.008))
def test_a_wider_error_never_excludes_more(sag: float, off: float, more: float) -> None:
    rows = [design_values(one, grade, read_size(SIZE)) for one in ("Eastern White Pine", "Douglas Fir-Larch", "Red Oak")
            for grade in ("No.2", "No.1")]  # fmt: skip
    fine, coarse = (
        {row.species + row.grade for row in rows if unlikely(stock(sag_test={**TEST, "sag": f"{sag} in",
         "sag_off": f"{wide} in"}), row)}
        for wide in (off, off + more)
    )  # fmt: skip
    assert coarse <= fine


class TestBeforeItIsMade:
    ROWS = (
        (design_values("Eastern White Pine", "No.2", read_size(SIZE)), False),
        (design_values("Douglas Fir-Larch", "No.1", read_size(SIZE)), True),
    )

    def test_the_sag_that_would_leave_only_what_holds(self) -> None:
        """0.9 million psi x 1.411 is 1.27 million: under 600 lb over 13 ft the sag by hand, less the error of it."""
        wood = stock(sag_test={key: value for key, value in TEST.items() if key != "supports_sank"})
        said = worth(wood, list(self.ROWS))
        b, d, L, E = 7.5 + 1 / 16, 9.5 + 1 / 16, 156.0, 0.9e6 * (1 + 1.645 * 0.25) * 1.03
        sag = 590.0 * L**3 * (1 + 19.2 * (d / L) ** 2) / (48 * E * b * d**3 / 12) - 0.01
        assert f"{sag:.3f} in" in said and "leave only candidates that stay within the limits" in said
        # and so it is: read that sag, and the pine is out
        done = stock(sag_test={**TEST, "sag": f"{sag - 0.0005} in"})
        assert unlikely(done, self.ROWS[0][0]) and not unlikely(done, self.ROWS[1][0])

    def test_one_that_would_settle_nothing_says_so(self) -> None:
        planned = {key: value for key, value in TEST.items() if key != "supports_sank"}
        assert "too small to read" in worth(stock(sag_test={**planned, "weight": "30 lb", "weight_off": "1 lb"}),
                                            list(self.ROWS))  # fmt: skip
        assert "do alike" in worth(stock(sag_test=planned), [(row, True) for row, _ in self.ROWS])
        alike = [(self.ROWS[0][0], True), (self.ROWS[1][0], False)]
        assert "would not leave only" in worth(stock(sag_test=planned), alike)

    def test_the_weight_that_would_leave_only_what_holds(self) -> None:
        """G of White Pine 0.36 x 1.1645 = 0.419 (COV 10 %): at 13 % moisture that many pcf over the sides by tape."""
        wood = stock(weighing={"length": "10 ft", "weight_off": "2 lb", "moisture": "13 %"})
        said, G = worth(wood, list(self.ROWS)), 0.36 * (1 + 1.645 * 0.10)
        pcf = 62.4 * G / (1 + G * 0.009 * 13) * 1.13  # NDS Supplement 3.1.3
        heavy = math.ceil(pcf * (7.5 + 1 / 16) * (9.5 + 1 / 16) * 120 / 1728 + 2)
        assert f"10 ft of it at 13 % moisture that weighs more than {heavy} lb would leave only" in said
        done = stock(
            weighing={"length": "10 ft", "weight": f"{heavy + 1} lb", "weight_off": "2 lb", "moisture": "13 %"}
        )
        assert unlikely(done, self.ROWS[0][0]) and not unlikely(done, self.ROWS[1][0])

    def test_tests_that_nobody_planned_are_worked_out_as_they_are_usually_made(self) -> None:
        said = worth(stock(), list(self.ROWS))
        assert "under 600 lb in the middle of 14 ft, what both supports sink taken off" in said
        assert "14 ft of it at 13 % moisture that weighs more than" in said
        plain = stock().model_copy(update={"survey": None})
        assert worth(plain, list(self.ROWS)) == ""


class TestTheSettlingFact:
    @staticmethod
    def rows(*holds: str) -> list[Any]:
        every = [design_values(one, grade, read_size(SIZE)) for one in ("Eastern White Pine", "Eastern Hemlock")
                 for grade in ("No.2", "No.1", "Select Structural")]  # fmt: skip
        return [(row, any(word in f"{row.species} {row.grade}" for word in holds)) for row in every]

    def test_each_case(self) -> None:
        assert settling_fact(self.rows("nothing")) == ""
        assert settling_fact(self.rows("Eastern")).startswith("Every candidate stays within")
        assert settling_fact(self.rows("Hemlock")).startswith("The species settles it: Eastern Hemlock would hold")
        assert "certificate of No.1 or Select Structural would do" in settling_fact(self.rows("No.1", "Select"))
        both = settling_fact(self.rows("Hemlock No.1", "Hemlock Select"))
        assert both.startswith("Species and grade together") and "Eastern White Pine would not hold" in both

    def test_it_stands_with_the_question(self) -> None:
        piece = result()
        asked = next(one for one in piece.questions if one.id.endswith("surveyed_grade"))
        assert "settles it" in asked.why


@pytest.mark.parametrize(("E", "out"), [(0.57, True), (0.58, False), (1.56, False), (1.57, True)])
def test_how_far_a_modulus_may_lie_from_the_mean_of_its_row(E: float, out: bool) -> None:
    """1.645 deviations of 0.25 (NDS 2018 App. F, memory) to either side of 1.0: 0.589 to 1.411, for the near end."""
    assert _beyond(Interval(0.9 * E, E, 1.02 * E), 1.0, 0.25) is out
    assert not _beyond(Interval(1.0, 1.0, 1.0), 1.0, 0.0)


@pytest.mark.parametrize(("back", "words", "asks"), [(True, 1, False), (None, 1, True), (False, 0, False)])
def test_words_say_whether_the_sag_is_known_to_have_gone_back(back: bool | None, words: int, asks: bool) -> None:
    """What did not go back is no test of stiffness, and has no words."""
    test = {key: value for key, value in {**TEST, "sag": "0.1 in", "came_back": back}.items() if value is not None}
    found = site_tests.tests_words(stock(sag_test=test))
    assert len(found) == words and any("went back is not said" in one for one in found) is asks
    assert site_tests.tests_words(stock()) == []


def test_a_sag_that_is_not_planned_yet_is_read_to_a_thirty_second() -> None:
    """As a rule has it: less than that tells nothing apart, and the error is said."""
    assert _usual_sag(144.0).sag_off == 1.0 / 32.0
