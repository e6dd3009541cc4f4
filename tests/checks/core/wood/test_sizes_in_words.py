"""Sizes in the words of a stamp or certificate: read, held against the stick, and written as a job file writes them."""

from __future__ import annotations

from typing import Any

import pytest

from beamcheck.checks.core.wood.wood_doubts import differs, names_grade, other_size, wood_doubts
from beamcheck.model.stock import Stock
from beamcheck.values.judgment import judgment
from beamcheck.values.lumber import design_values, highest_values, read_size


@pytest.mark.parametrize(("words", "size", "other", "written"), [
    ("two 8x12", "6x12 dressed", "8x12", "8x12 dressed"), ("a 2x8", "2x10", "2x8", "2x8"),
    ("12 x 8", "6x12 dressed", "12 x 8", "8x12 dressed"), ("six by eight", "6x12 dressed", "6x8", "6x8 dressed"),
    ("140 x 190 mm", "6x12 dressed", "140 x 190 mm", "5 1/2 in x 7 1/2 in"),
    ("14 x 19 cm", "6x12 dressed", "14 x 19 cm", "5 1/2 in x 7 1/2 in"),
    ("140 x 190", "6x12 dressed", "140 x 190", "5 1/2 in x 7 1/2 in"),
    ('5 1/2" x 7 1/2"', "6x12 dressed", '5 1/2" x 7 1/2"', "5 1/2 in x 7 1/2 in"),
    ("7-1/2 x 5-1/2", "6x12 dressed", "7-1/2 x 5-1/2", "5 1/2 in x 7 1/2 in"),
    ("5.5 in x 7.5 in", "6x12 dressed", "5.5 in x 7.5 in", "5 1/2 in x 7 1/2 in"),
    ("6x8, then 6x10", "6x12 dressed", "6x8", "6x8 dressed"), ("6x8, then 6x12", "6x12 dressed", "", ""),
    ("no size", "6x12 dressed", "", ""), ("8x12", "10 in round", "", ""), ("10 x 300 mm", "2x10", "10 x 300 mm", ""),
])  # fmt: skip
def test_a_size_in_words(words: str, size: str, other: str, written: str) -> None:
    found = other_size(words, read_size(size))
    assert found[0] == other and (found[1] == written or (other and not written))


@pytest.mark.parametrize(("off", "same"), [(-1.01, False), (-0.99, True), (0.99, True), (1.01, False)])
@pytest.mark.parametrize(("size", "row"), [
    ("1 1/2 in x 3 1/2 in", "sizes of the same stick"), ("7 1/2 in x 11 1/2 in", "sizes of the same timber"),
])  # fmt: skip
def test_how_far_another_name_of_the_same_stick_may_be_off(size: str, row: str, off: float, same: bool) -> None:
    """What dressing and drying take, of lumber and of timber (common practice): each side by itself."""
    made, most = read_size(size), judgment(row).value
    for b, d in ((made.b + off * most, made.d), (made.b, made.d + off * most)):
        if b < d:
            assert (other_size(f"{b:.3f} in x {d:.3f} in", made)[0] == "") is same, (b, d)


@pytest.mark.parametrize(("share", "asks"), [(1.0, False), (0.999, False), (1.001, True)])
@pytest.mark.parametrize("name", ["F_b", "F_c", "E"])
def test_values_by_letter_beyond_the_tables(name: str, share: float, asks: bool) -> None:
    """So much over the highest of the tables as the judgment lets pass; each value by itself."""
    most = highest_values()[name] * judgment("values by letter over the highest of the tables").value
    psi: dict[str, Any] = {"F_b": 1000, "F_t": 600, "F_v": 150, "F_c_perp": 400, "F_c": 1000, "E": 1.4e6, "E_min": 5e5}
    values = {key: f"{one} psi" for key, one in {**psi, name: f"{share * most:.6f}"}.items()}
    stock = Stock.model_validate({
        "name": "w", "species": "unknown", "grade": "unstamped", "size": "6 in x 12 in", "moisture": "dry",
        "values": {**values, "source": "letter no. 4 of the grader"},
    })  # fmt: skip
    size = read_size("6 in x 12 in")
    found = [one.question.id for one in wood_doubts(stock, size, design_values("Douglas Fir-Larch", "No.1", size))]
    assert ("w/letter_values" in found) is asks


def test_a_rough_size_is_answered_with_its_measures() -> None:
    stock = Stock.model_validate({
        "name": "w", "species": "Douglas Fir-Larch", "grade": "No.1", "size": "6x12 rough", "moisture": "dry",
        "grade_from": "stamp", "evidence": "stamp WCLIB, mill 12, No.1, DOUG FIR-L",
    })  # fmt: skip
    size = read_size("6x12 rough")
    found = {one.question.id: one.question for one in wood_doubts(stock, size, design_values(
        "Douglas Fir-Larch", "No.1", size))}  # fmt: skip
    (answer,) = found["w/measured_size"].answers
    assert answer.says == f"{size.b:g} in x {size.d:g} in" and dict(answer.sets)["stock.w.size"] == answer.says
    assert dict(answer.sets)["stock.w.meant.size"] == "measured, rough sawn"


@pytest.mark.parametrize(("made", "grade", "evidence", "named", "other"), [
    ("glulam", "24F-V4/DF", "stamp 24F-V4/DF", True, False), ("glulam", "24F-V4/DF", "stamp 24f v4", True, False),
    ("glulam", "24F-V4/DF", "stamp 20F-V3", False, True), ("glulam", "24F-V4/DF", "stamp 31", False, False),
    ("steel", "A572 Grade 50", "ASTM A572 Gr. 50", True, False), ("steel", "A572 Grade 50", "ASTM A572", False, False),
    ("steel", "A572 Grade 50", "ASTM A572 Grade 42", False, True),
    ("steel", "A992", "ASTM A992, Grade 50", True, False),
    ("steel", "A36", "ASTM A36", True, False), ("steel", "A36", "ASTM A992", False, True),
    ("composite", "2.0E", "LVL 2.0E", True, False), ("composite", "2.0E", "LVL 1.9E", False, True),
])  # fmt: skip
def test_layups_and_grades_in_words(made: str, grade: str, evidence: str, named: bool, other: bool) -> None:
    """That very one; a number left out is neither it nor another."""
    assert names_grade(made, grade, evidence) is named and differs(made, grade, evidence) is other
