"""How the wood is known: grade, treatment and class of a timber, from a job with one beam."""

from __future__ import annotations

from typing import Any

import pytest

from beamcheck.checks.core.result import PieceResult
from beamcheck.values.lumber import design_values, read_size

from .beams import beam, floor, result_of, stock


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


def test_a_certificate_has_a_writer_and_a_number() -> None:
    assert open_of(of(size="6x12 dressed", grade_from="certificate", evidence="seen by the neighbor")) == ["evidence"]
    assert not open_of(of(size="6x12 dressed", grade_from="certificate", evidence="grading certificate 7"))


@pytest.mark.parametrize(("more", "asked"), [
    ({}, ["treated_with"]), ({"treated_with": "preservative"}, []),
    ({"treated_with": "fire retardant"}, ["fire_retardant"]),
    ({"evidence": "stamp WCLIB No.1; end tag UC4A"}, []), ({"evidence": "stamp WCLIB No.1, FRT"}, ["fire_retardant"]),
])  # fmt: skip
def test_what_it_was_treated_with(more: dict[str, str], asked: list[str]) -> None:
    """NDS 2018 4.3.8 (memory): preservative leaves the values as they are, treatment against fire does not."""
    assert open_of(of(**{"size": "6x12 dressed", "evidence": "stamp WCLIB No.1", "treated": True, **more})) == asked


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
