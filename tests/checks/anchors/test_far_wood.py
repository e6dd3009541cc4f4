"""Fasteners in the wood on the other side: in it, and not so near its ends and edges that it splits."""

from __future__ import annotations

import pytest

from beamcheck.checks.core.result import Check

from .anchors import Data, beside, find, group, layout, said, stock

NAILS: Data = {"kind": "nail", "size": "10d common", "bored_ahead": True}
FOUR: Data = {"rows": 4, "columns": 1, "row_spacing": "1 1/4 in", "end": "3 in", "edge": "1 1/4 in"}
POST: Data = {"stock": "wood", "thickness": "7 1/2 in", "grain": "across", "end": "12 in", "edge": "2 in"}
ENDS = "ends and edges of the"


def nailed(fastener: Data = NAILS, holes: Data = FOUR, **other: object) -> list[Check]:
    into = stock("8x8 dressed")
    return layout(group([100.0], held=stock("2x8"), into=into, holes=holes, fastener=fastener, other={**POST, **other}))


def test_small_fasteners_well_within_the_wood() -> None:
    assert find(nailed(), ENDS).verdict == "passes"


def test_nails_beside_the_post_hold_nothing() -> None:
    """Geometry: 30 in from the edge of a post that is 7 1/2 in wide."""
    checks = [check for check in nailed(edge="30 in") if check.what.startswith("fasteners within")]
    assert {check.verdict for check in checks} == {"fails"}
    assert "misses" in checks[0].notes[0]


def test_the_second_column_misses_the_stud() -> None:
    two = {**FOUR, "rows": 2, "columns": 2, "spacing": "2 in"}
    made = group([100.0], held=stock("2x8"), into=stock("2x4"), holes=two, fastener=NAILS,
                 other={**POST, "thickness": "3 1/2 in", "edge": "0.5 in"})  # fmt: skip
    assert "row 1, column 2 misses" in said(layout(made), "fails")


@pytest.mark.parametrize(("edge", "verdict"), [("0.36 in", "refer"), ("0.375 in", "passes"), ("7.2 in", "refer")])
def test_near_the_edge_small_fasteners_may_split_it(edge: str, verdict: str) -> None:
    """Commentary C12.1.6.6 (memory): 2.5 D = 0.37 in for a 10d common nail, from either edge."""
    assert find(nailed(edge=edge), ENDS).verdict == verdict


def test_near_the_end() -> None:
    """15 D = 2.22 in where a load along the grain may go to the end; 10 D = 1.48 in bored ahead."""
    not_bored = {**NAILS, "bored_ahead": False}
    assert find(nailed(end="2 in"), ENDS).verdict == "passes"
    assert find(nailed(not_bored, end="2 in"), ENDS).questions[0].field.endswith("bored_ahead")
    assert find(nailed(not_bored, end="1 1/4 in"), ENDS).questions[0].field == "ruling"


def test_distances_that_nobody_gives() -> None:
    made = group([100.0], held=stock("2x8"), into=stock("8x8 dressed"), holes=FOUR, fastener=NAILS,
                 other={key: value for key, value in POST.items() if key not in ("end", "edge")})  # fmt: skip
    asked = [check.questions[0].field for check in layout(made) if check.what.startswith("distances in")]
    assert asked == ["anchor.A.other.end", "anchor.A.other.edge"]


@pytest.mark.parametrize(("edge", "verdict"), [("2 in", "passes"), ("0.1 in", "refer"), ("30 in", "fails")])
def test_toe_nails_look_at_the_other_side_too(edge: str, verdict: str) -> None:
    three = {"rows": 3, "columns": 1, "row_spacing": "2 in", "end": "1 1/8 in", "edge": "1 1/2 in"}
    made = group([100.0], held=stock("2x8"), into=stock("8x8 dressed"), holes=three, manner="toe-nails",
                 fastener={"kind": "nail", "size": "16d common"}, other={**POST, "edge": edge})  # fmt: skip
    checks = [check for check in beside(made) if check.what.startswith((ENDS, "fasteners within"))]
    assert {check.verdict for check in checks} == {verdict}


def test_a_distance_that_is_none_is_no_ratio() -> None:
    """What lies beyond the edge by 2 in falls short by so much; nothing is divided by it."""
    made = group([100.0], other={"stock": "wood", "thickness": "1 1/2 in", "grain": "across", "end": "6 in",
                                 "edge": "13 1/2 in"})  # fmt: skip
    check = find(layout(made), "distance to the far edge")
    assert (check.verdict, check.ratio) == ("fails", None)
    assert "2 1/4 in beyond it" in check.notes[0] and "short by" in check.notes[0]
