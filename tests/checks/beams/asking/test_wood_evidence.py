"""How the wood is known: grade, treatment and class of a timber, from a job with one beam."""

from __future__ import annotations

from typing import Any

import pytest

from beamcheck.checks.core.result import PieceResult
from beamcheck.values.lumber import design_values, read_size

from ..beams import beam, floor, result_of, stock


def of(**wood: Any) -> PieceResult:
    return result_of(beam(carries=[floor(dead="10 psf", live="40 psf", width="2 ft")]), wood=stock(**wood))


def open_of(result: PieceResult) -> list[str]:
    """The short names of the questions about the wood."""
    asked = [check for check in result.checks if check.id == "wood.evidence"]
    return [question.id.partition("/")[2] for check in asked for question in check.questions]


@pytest.mark.parametrize(("words", "asked"), [
    ("stamp WCLIB No.1", []), ("stamp says No.3", ["grade_differs"]), ("there is no stamp on it", ["evidence"]),
    ("should be fine", ["evidence"]), ("", ["evidence"]),
])  # fmt: skip
def test_the_stamp(words: str, asked: list[str]) -> None:
    assert open_of(of(size="6x12 dressed", grade="No.1", evidence=words)) == asked


@pytest.mark.parametrize(("size", "words", "asked"), [
    ("8x12 dressed", "four 6x8", ["size_differs"]), ("8x12 dressed", "for other timbers", ["evidence"]),
    ("8x12 dressed", "of another lot", ["evidence"]), ("6x12 dressed", "for the posts", ["evidence"]),
    ("6x12 dressed", "5 1/2 x 11 1/2", []), ("6x12 dressed", "140 x 292 mm", []), ("6x12 dressed", "6x12, 16 ft", []),
    ("6x12 dressed", "two 8x12", ["size_differs"]), ("6x12 dressed", "140 x 190 mm", ["size_differs"]),
    ("6x12 dressed", "12x6", []), ("6x12 dressed", "6x8, 6x10 and 6x12", []), ("6x12 dressed", '6" x 12" rough', []),
    ("6x12 dressed", "six by twelve, length 12 ft", []), ("5 1/4 in x 11 1/4 in", "6x12", []),
    ("2x10", "1 1/2 x 9 1/4", []), ("1 1/2 in x 9 1/4 in", "2x10", []), ("2x10", "38 x 235 mm", []),
    ("2x10", "2x8", ["size_differs"]), ("3x10", "2x10", ["size_differs"]),
    ("6x12 dressed", "posts and timbers", ["class_differs"]),
    ("2x10", '1.5 in x 9.25 in', []),
    ("6x12 dressed", "for posts and timbers", ["class_differs"]),
    ("6x12 dressed", "six by eight", ["size_differs"]), ("6x12 dressed", "Six-by-twelve", []),
    ("6x12 dressed", "four 6x8s", ["size_differs"]), ("6x12 dressed", "6x8x16 ft", ["size_differs"]),
    ("6x12 dressed", "two 6x12s", []), ("6x12 dressed", "6x12x16", []),
])  # fmt: skip
def test_a_certificate_of_another_stick(size: str, words: str, asked: list[str]) -> None:
    """PS 20 (memory): a 2x10 is 1 1/2 by 9 1/4 in dry, a 6x12 5 1/2 by 11 1/2 in green; 25.4 mm are an inch."""
    found = of(size=size, grade_from="certificate", evidence=f"grading certificate 12 of 2026-01-08, {words}")
    assert open_of(found) == asked


def test_a_certificate_has_a_writer_and_a_number() -> None:
    assert open_of(of(size="6x12 dressed", grade_from="certificate", evidence="seen by the neighbor")) == ["evidence"]
    assert not open_of(of(size="6x12 dressed", grade_from="certificate", evidence="grading certificate 7"))


@pytest.mark.parametrize(("more", "asked"), [
    ({}, ["treated_with"]), ({"treated_with": "preservative"}, []),
    ({"treated_with": "fire retardant"}, ["fire_retardant"]),
    ({"evidence": "stamp WCLIB No.1; end tag UC4A"}, []), ({"evidence": "stamp WCLIB No.1, FRT"}, ["fire_retardant"]),
    ({"evidence": "stamp WCLIB No.1, FRT", "treated_with": "preservative"}, ["fire_retardant"]),  # whoever errs
    ({"evidence": "stamp WCLIB No.1, UC3A, fire retardant"}, ["fire_retardant"]),
])  # fmt: skip
def test_what_it_was_treated_with(more: dict[str, str], asked: list[str]) -> None:
    """NDS 2018 4.3.8 (memory): preservative leaves the values as they are, treatment against fire does not."""
    assert open_of(of(**{"size": "6x12 dressed", "evidence": "stamp WCLIB No.1", "treated": True, **more})) == asked


def test_against_fire_by_its_stamp_and_entered_as_not_treated() -> None:
    """NDS 2018 4.3.8 (memory): values of wood treated against fire come from who treated it."""
    assert open_of(of(size="6x12 dressed", evidence="stamp WCLIB No.1, FRT", treated=False)) == ["fire_retardant"]


@pytest.mark.parametrize(("words", "asked"), [
    ("stamp WWPA mill 12 No.1 Hem-Fir", ["species_differs"]), ("stamp mill 12 No.1 SPF", ["species_differs"]),
    ("stamp WCLIB DOUG FIR-L No.1 S-GRN", []), ("stamp DF-L No.1 KD", []),
    ("stamp mill 12 No.1, VERTICAL USE ONLY", ["upright_only"]),
    ("finger jointed, stamp mill 12, No.1", ["upright_only"]),
    ("letter 3 of the engineer, glulam No.1", ["engineered"]), ("stamp LVL No.1", ["engineered"]),
    ("stamp mill 12 No.1, edge-glued", ["engineered"]),
])  # fmt: skip
def test_other_wood_than_is_entered(words: str, asked: list[str]) -> None:
    """NDS 2018 4.1.2 (memory): values go with the species on the stamp; glulam has chapter 5."""
    assert open_of(of(size="6x12 dressed", grade="No.1", evidence=words)) == asked


def test_a_name_of_engineered_wood_is_asked_about_until_it_is_only_a_name() -> None:
    assert "engineered_name" in open_of(result_of(beam(carries=[], called="LVL header"), wood=stock()))
    meant = {"called": "sawn; the old one was LVL"}
    assert "engineered_name" not in open_of(result_of(beam(carries=[], called="LVL header", meant=meant), wood=stock()))


def test_a_class_by_certificate_lowers_what_the_size_alone_gives() -> None:
    """NDS 2018 4.1.3 (memory): 6x12 is a beam and stringer by its size; graded as a post the lower of both counts."""
    size, posts = read_size("6x12 dressed"), read_size("10x10 dressed")
    by_size = design_values("Douglas Fir-Larch", "No.1", size).F_b
    by_class = design_values("Douglas Fir-Larch", "No.1", posts).F_b
    assert by_class < by_size, "the case tells them apart"

    def F_b(**more: str) -> float:
        check = next(one for one in of(size="6x12 dressed", **more).checks if one.what == "bending")
        return next(float(step.value) for step in check.steps if step.symbol == "F_b")

    assert F_b() == F_b(graded_as="beams and stringers") == by_size
    assert F_b(graded_as="posts and timbers") == by_class
