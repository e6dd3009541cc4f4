"""A steel bar whose gusset, legs and rows contradict each other, or leave no room."""

from __future__ import annotations

import pytest

from beamcheck.errors import JobError

from ...anchors.anchors import said
from ..brackets import LAG, STRAP, Data, bracket, find, fixings, held_on, loaded_body, those

GUSSET: Data = {"gusset_depth": "2 in", "gusset_thickness": "1/4 in", "gusset_edge": "2.83 in", "weld": "3/16 in"}
LONG: Data = {**STRAP, "width": "3 in", "down": "7 in"}


def test_a_lag_in_the_middle_of_a_gusset_refers() -> None:
    """Heads of 3/8 in lags are 0.66 in across their corners: 1 3/16 in from the middle they stand clear."""
    rows: list[Data] = [{"below_top": "1 in", "count": 1}, {"below_top": "6 1/2 in", "count": 1}]
    found = find(held_on({**LONG, **GUSSET}, rows=rows, through=None), "heads beside the gusset")
    assert (found.verdict, found.where) == ("refer", "row 1")
    aside = [{"below_top": "1 in", "count": 2, "apart": "1 3/4 in"}, rows[1]]
    assert not those(held_on({**LONG, **GUSSET}, rows=aside, through=None), "heads beside the gusset")
    washer = {**LAG, "washer": "1 1/2 in"}
    assert those(held_on({**LONG, **GUSSET}, rows=aside, through=None, fastener=washer), "heads beside the gusset")
    below = [{"below_top": "3 in", "count": 1}, rows[1]]
    assert not those(held_on({**LONG, **GUSSET}, rows=below, through=None), "heads beside the gusset")


@pytest.mark.parametrize(("edge", "words"), [("2 in", "not longer than"), ("1 in", "not longer than"),
                                             ("9 in", "beyond the nose")])  # fmt: skip
def test_a_free_edge_that_no_gusset_has(edge: str, words: str) -> None:
    with pytest.raises(JobError, match=words):
        bracket({**STRAP, **GUSSET, "gusset_edge": edge})


def test_a_steep_gusset_is_welded_along_its_short_leg_only() -> None:
    """Edge 2.5 in, 2 in deep: 1.5 in along the bar (3, 4, 5); welds there carry more per inch than on 2 in."""

    def weld(edge: str) -> float:
        found = loaded_body({**LONG, **GUSSET, "gusset_edge": edge}, {"at": "8 in"})
        return find(found, "welds of the gusset").demand or 0.0

    assert weld("2.5 in") > 1.3 * weld("2.83 in")


def test_down_is_where_the_lowest_row_is() -> None:
    rows: list[Data] = [{"below_top": "1 in", "count": 1}, {"below_top": "5 1/2 in", "count": 1}]
    assert find(held_on(LONG, rows=rows, through=None), "lowest fixing of the upright leg").verdict == "refer"
    near = [rows[0], {"below_top": "6 in", "count": 1}]
    assert not those(held_on(LONG, rows=near, through=None), "lowest fixing of the upright leg")


def test_rows_below_the_upright_leg_are_bad_input() -> None:
    with pytest.raises(JobError, match="upright leg"):
        bracket(LONG, fixings=fixings(rows=[{"below_top": "1 in", "count": 1}, {"below_top": "8 in", "count": 1}]))


def test_room_for_the_tip_is_asked_for_without_a_skin_too() -> None:
    assert "`tip_clear`" in said(loaded_body(STRAP), "refer")
    assert "`tip_clear`" not in said(loaded_body({**STRAP, "tip_clear": "1/2 in"}), "refer")
