"""Trim: fasteners that meet the wood behind it, and weight that stands out from a face."""

from __future__ import annotations

import pytest

from beamcheck.checks.core.result import Check, PieceResult

from .brackets import Data, find
from .test_evidence import hung

SURE: Data = {"confirmed_by": "engineer's letter of 3 May 2025"}
FACE: Data = {"hangs": "on the face", "wall": SURE}
TWO = [{"below_top": "2 in", "count": 3, "apart": "16 in"}, {"below_top": "20 in", "count": 3, "apart": "16 in"}]


def of(found: PieceResult, what: str) -> Check:
    return find(list(found.checks), what)


def test_each_in_a_stud_of_its_own() -> None:
    found = hung({"rows": TWO}, weight="320 lb", stands_out="3 in", **FACE)
    assert found.verdict == "passes"
    assert not [check for check in found.checks if check.what == "fasteners that meet the wood"]


@pytest.mark.parametrize("apart", ["3 in", "5 in"])
def test_only_those_that_hit_are_counted(apart: str) -> None:
    """A stud 5 1/2 in wide, the first 2 3/4 in from its edge: the next two are beside it, or too near its edge."""
    rows = [{**row, "apart": apart} for row in TWO]
    few = hung({"rows": rows}, weight="100 lb", stands_out="2 in", **FACE)
    assert few.verdict == "passes"
    assert "of 6 fasteners 2" in of(few, "fasteners that meet the wood").notes[0]
    many = hung({"rows": rows}, weight="700 lb", stands_out="2 in", **FACE)
    assert of(many, "fasteners that meet the wood").verdict == "refer"


def test_weight_that_stands_out_pulls_on_the_top_row() -> None:
    """Statics: 100 lb 4 in out over 18 in between the rows is 22.2 lb, 7.4 lb on each of three."""
    found = hung({"rows": TWO}, weight="100 lb", stands_out="4 in", **FACE)
    assert of(found, "pull on the most loaded fastener").demand == pytest.approx(100 * 4 / 18 / 3)


def test_by_its_height() -> None:
    """One row 1 in down of a box 4 in high: 0.9 of 3 in is the arm."""
    one = {"rows": [{"below_top": "1 in", "count": 3, "apart": "16 in"}]}
    found = hung(one, weight="150 lb", stands_out="5 in", height="4 in", **FACE)
    assert of(found, "pull on the most loaded fastener").demand == pytest.approx(150 * 5 / 2.7 / 3)


def test_one_row_and_nobody_says_how_far_it_stands_out() -> None:
    one = {"rows": [{"below_top": "1 in", "count": 3, "apart": "16 in"}]}
    check = of(hung(one, weight="150 lb", **FACE), "pull of weight that stands out")
    assert [question.field for question in check.questions] == ["trim.T.stands_out", "trim.T.height"]
    assert hung(one, weight="15 lb", **FACE).verdict == "passes"


def test_not_said_and_held_as_far_out_as_is_believed() -> None:
    assert hung({"rows": TWO}, weight="100 lb", **FACE).verdict == "passes"
    heavy = of(hung({"rows": TWO}, weight="1,200 lb", **FACE), "pull of weight that stands out")
    assert heavy.questions[0].field == "trim.T.stands_out"
