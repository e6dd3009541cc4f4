"""Trim: fasteners that meet the wood behind it, and weight that stands out from a face."""

from __future__ import annotations

from typing import Any

import numpy as np
import pytest

from beamcheck.checks.brackets.trim.places import arm_of, hits_of
from beamcheck.checks.brackets.trim.trim import _in_a_line
from beamcheck.checks.core.result import Check, PieceResult
from beamcheck.model.brackets.bracket import Fixings, Trim

from ...anchors.anchors import stock
from ..brackets import BOLT, LAG, OTHER, Data, find
from ..test_evidence import hung

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


# ---- by hand, at the limits: lags of 3/8 in into a stud of 3 1/2 x 5 1/2 in -----------------------------------------


def fixings_of(rows: list[Data], edge: str | None = "2 3/4 in", **more: Any) -> Fixings:
    other = {key: value for key, value in {**OTHER, "edge": edge}.items() if value is not None}
    return Fixings.model_validate({"fastener": LAG, "through": "1 1/2 in", "other": other, "rows": rows, **more})


@pytest.mark.parametrize(
    ("rows", "edge", "sure"),
    [
        # across it 5 1/2 in: 1 1/2 diameters (0.5625 in) clear of the edges, 4.9375 in at most from the first edge
        ([{"below_top": "2 in", "count": 2, "apart": "2.18 in"}], "2 3/4 in", (2,)),
        ([{"below_top": "2 in", "count": 2, "apart": "2.1875 in"}], "2 3/4 in", (2,)),
        ([{"below_top": "2 in", "count": 2, "apart": "2.19 in"}], "2 3/4 in", (1,)),
        ([{"below_top": "2 in", "count": 1}], "0.5625 in", (1,)),
        ([{"below_top": "2 in", "count": 1}], "0.56 in", (0,)),
        # a stud 12 in on is another one
        ([{"below_top": "2 in", "count": 2, "apart": "12 in"}], "2 3/4 in", (2,)),
        ([{"below_top": "2 in", "count": 2, "apart": "11.99 in"}], "2 3/4 in", (1,)),
        ([{"below_top": "2 in", "count": 3, "apart": "6 in"}], "2 3/4 in", (1,)),
        # the other way the rows run across it, and the fewer hits count
        ([{"below_top": "2 in", "count": 2, "apart": "2 in"}, {"below_top": "6 in", "count": 2, "apart": "2 in"}],
         "2 3/4 in", (2, 0)),
        ([{"below_top": "2 in", "count": 3, "apart": "5 in"}, {"below_top": "4 in", "count": 3, "apart": "5 in"}],
         "2 3/4 in", (1, 1)),
        # no edge said: as near to it as may be
        ([{"below_top": "2 in", "count": 2, "apart": "4.37 in"}], None, (2,)),
        ([{"below_top": "2 in", "count": 2, "apart": "4.38 in"}], None, (1,)),
    ],
)  # fmt: skip
def test_fasteners_that_surely_meet_the_wood(rows: list[Data], edge: str | None, sure: tuple[int, ...]) -> None:
    found = hits_of(fixings_of(rows, edge), stock("4x6 dressed"))
    assert found.sure == sure and found.count == sum(row["count"] for row in rows)
    assert found.most_sure == max(sum(sure), 1)


def test_wood_narrower_than_both_edges_ask_for_is_met_by_none() -> None:
    """1 1/2 diameters from either edge: in a stud 1 1/2 in wide a lag of 1/2 in just fits, one of 5/8 in does not."""
    for size, sure in (("1/2 in", (1,)), ("5/8 in", (0,))):
        fixings = fixings_of([{"below_top": "2 in", "count": 1}], None, fastener={**LAG, "size": size})
        assert hits_of(fixings, stock("2x4 dressed")).sure == sure


NAIL: Data = {"kind": "nail", "size": "10d common"}


@pytest.mark.parametrize(
    ("fastener", "edge", "sure"),
    [({**LAG, "size": "1/4 in"}, "0.375 in", 1), ({**LAG, "size": "1/4 in"}, "0.374 in", 0),
     (NAIL, "0.37 in", 1), (NAIL, "0.369 in", 0)],
)  # fmt: skip
def test_a_quarter_inch_is_clear_by_the_table_and_what_is_thinner_by_the_advice(
    fastener: Data, edge: str, sure: int
) -> None:
    """NDS 2018 Table 12.5.1C: 1.5 x 0.25 in; commentary C12.1.6.6: 2.5 x 0.148 in (both memory)."""
    fixings = fixings_of([{"below_top": "2 in", "count": 1}], edge, fastener=fastener, through="1/2 in")
    assert hits_of(fixings, stock("4x6 dressed")).sure == (sure,)


@pytest.mark.parametrize(
    ("rows", "height", "arm"),
    [([2.0, 20.0], None, 18.0), ([2.0, 20.0], "21 in", 18.0), ([2.0, 4.0], "12 in", 9.0), ([1.0], "4 in", 2.7),
     ([2.0], "2 in", None), ([2.0], None, None), ([2.0, 20.0], "22.1 in", 0.9 * 20.1)],
)  # fmt: skip
def test_lever_arm_of_the_top_row(rows: list[float], height: str | None, arm: float | None) -> None:
    """Down to the lowest row, or 0.9 of what is below the top row (a stiff block): the longer."""
    held = fixings_of([{"below_top": f"{down} in", "count": 1} for down in rows])
    trim = Trim.model_construct(name="T", height=None if height is None else float(height.split(" ")[0]))
    found = arm_of(trim, held).length
    assert found == (None if arm is None else pytest.approx(arm))


@pytest.mark.parametrize(
    ("rows", "nearest"),
    [([{"below_top": "2 in", "count": 3, "apart": "4 in"}], 4.0), ([{"below_top": "2 in", "count": 1}], 0.0),
     ([{"below_top": "2 in", "count": 2, "apart": "9 in"}, {"below_top": "5 in", "count": 2, "apart": "9 in"}], 3.0),
     ([{"below_top": "2 in", "count": 2, "apart": "8 in"}, {"below_top": "5 in", "count": 1}], 5.0),
     ([{"below_top": "2 in", "count": 1}, {"below_top": "40 in", "count": 1}], 24.0)],
)  # fmt: skip
def test_fasteners_in_a_line_are_as_far_apart_as_the_nearest_two(rows: list[Data], nearest: float) -> None:
    """Two 4 in to either side of the middle and one 3 in below it: 5 in."""
    x = _in_a_line(fixings_of(rows))
    assert list(np.diff(x)) == pytest.approx([nearest] * (len(x) - 1)) and x[0] == 24.0


def test_what_hangs_below_counts_four_times_and_on_a_face_once() -> None:
    wide = {"rows": [{"below_top": "1 in", "count": 4, "apart": "16 in"}]}
    below, face = hung(wide, weight="24 lb"), hung(weight="24 lb", stands_out="1 in", height="4 in", **FACE)
    assert of(below, "pull on the most loaded fastener").demand == pytest.approx(4.0 * 24.0 / 4.0)
    shear = [check for check in face.checks if check.what.startswith("lateral load on the worst")]
    assert [check.demand for check in shear] == pytest.approx([24.0])  # one of four surely meets the stud


def test_somebody_hangs_beside_one_of_its_fasteners() -> None:
    """All of 200 lb and an even share of 24: 206 lb on one lag of four; that it holds is no news."""
    rows = {"rows": [{"below_top": "1 in", "count": 4, "apart": "16 in"}]}
    by = {"accidental_from": "the owner"}
    assert not [one for one in hung(rows, accidental="100 lb", **by).checks if one.id == "trim.hung_on_one"]
    heavy = [one for one in hung(rows, accidental="2,000 lb", **by).checks if one.id == "trim.hung_on_one"]
    assert {one.verdict for one in heavy} == {"refer"}
    allowed = of(hung(rows), "pull on the most loaded fastener").capacity or 1.0
    pull = next(one for one in heavy if one.what.startswith("pull on the most loaded"))
    said = float(pull.notes[0].rsplit(": ", 1)[1].split(" ")[0])
    assert said == pytest.approx((24.0 / 4.0 + 2000.0) / allowed, rel=0.01)


def test_bolts_of_trim_in_pull() -> None:
    """4 x 24 lb on four 3/8 in bolts of A307: 45,000/2 psi on their area; nothing is taken off for shear."""
    wide = {"rows": [{"below_top": "1 in", "count": 4, "apart": "16 in"}]}
    bolts = {"fastener": {**BOLT, "length": "6 in"}, **wide}
    found = of(hung(bolts), "pull on the bolts")
    assert (found.demand, found.capacity) == pytest.approx((24.0, 45000.0 / 2.0 * np.pi * 0.375**2 / 4.0))
    assert "their steel cannot be checked" in " ".join(
        of(hung({"fastener": {**BOLT, "length": "6 in", "steel": None}}), "pull on the bolts").notes
    )


def test_what_one_row_turns_is_next_to_nothing_up_to_twenty_pounds() -> None:
    one = {"rows": [{"below_top": "1 in", "count": 3, "apart": "16 in"}]}
    for weight, verdict in (("20 lb", "passes"), ("20.1 lb", "refer")):
        assert of(hung(one, weight=weight, **FACE), "pull of weight that stands out").verdict == verdict
    said = hung(one, weight="15 lb", stands_out="2 in", **FACE)  # how far out is said, how high it is not
    assert [question.field for question in of(said, "pull of weight that stands out").questions] == ["trim.T.height"]
    answers = of(said, "pull of weight that stands out").questions[0].answers
    assert [answer.sets[0][1] for answer in answers] == ["3 in", "5 in"]


@pytest.mark.parametrize("hangs", ["below", "on the face"])
@pytest.mark.parametrize(("length", "out"), [("4 in", False), ("40 in", True)])
def test_a_screw_whose_point_comes_out_holds_nothing(hangs: str, length: str, out: bool) -> None:
    """Through 1 1/2 in of board into a stud of 3 1/2 in, 5 in in all: its thread is beyond."""
    fixed = {"fastener": {**LAG, "length": length}, "rows": TWO}
    found = hung(fixed, weight="10 lb", hangs=hangs, wall=SURE)
    assert bool([one for one in found.checks if one.id == "anchor.length" and one.verdict == "fails"]) is out


@pytest.mark.parametrize(
    ("fixings", "more", "fields"),
    [
        ({"other": None}, {}, ["fixings.other"]),
        ({"other": {key: value for key, value in OTHER.items() if key != "stock"}}, {}, ["fixings.other"]),
        ({"through": None}, {}, ["fixings.through"]), ({}, {"stock": None}, ["stock"]),
        ({"other": None, "through": None}, {"stock": None}, ["fixings.other", "fixings.through", "stock"]),
    ],
)  # fmt: skip
def test_what_the_fasteners_go_through_and_into_is_asked_field_by_field(
    fixings: Data, more: Data, fields: list[str]
) -> None:
    found = hung(fixings, **more)
    assert [one.field for one in of(found, "fixings").questions] == [f"trim.T.{field}" for field in fields]
    assert found.verdict == "refer" and not [one for one in found.checks if one.id.startswith("anchor.")]


def test_what_governs_among_the_few_that_meet_the_wood_is_told() -> None:
    """Two of six: three times the share of each, of which the lateral load is the worst."""
    rows = [{**row, "apart": "3 in"} for row in TWO]
    found = hung({"rows": rows}, weight="700 lb", stands_out="2 in", **FACE)
    every = of(found, "lateral load on the worst fastener").ratio or 0.0
    said = of(found, "fasteners that meet the wood").notes[0]
    assert "(lateral load on the worst fastener, " in said
    few = float(said.rsplit("worst fastener, ", 1)[1].split(" ")[0])
    assert every < 1.0 < few < 3.0 * every
    far = of(hung({"rows": TWO}, weight="1,200 lb", **FACE), "pull of weight that stands out").notes[0]
    assert "267 lb on each" in far and "(pull and lateral load together: 1." in far  # 1,200 x 12/18 over three


def test_a_bore_takes_nothing_of_the_wood_that_is_gone_through() -> None:
    """The head sits 1/2 in deep and 1 1/2 in of wood are left: 2 in of board in all. A longer screw of the same
    thread reaches as far behind."""
    bored = {**LAG, "counterbore": "1 in", "counterbore_depth": "1/2 in"}
    plain, deep = (hung({"rows": TWO, "fastener": one}, weight="100 lb", stands_out="2 in", **FACE) for one in
                   (LAG, bored))  # fmt: skip
    steps = [{step.symbol: step.value for step in of(one, "lateral load on the worst fastener").steps} for one in
             (plain, deep)]  # fmt: skip
    assert [one["l_s"] for one in steps] == [1.5, 1.5]
    assert [one["l_m"] for one in steps] == pytest.approx([steps[0]["l_m"]] * 2)


@pytest.mark.parametrize(("what", "asked"), [
    ("oak shell, a pot rack hangs from it", True), ("boxed beam with a porch swing on two eye bolts", True),
    ("hollow mantel, television on it", True), ("box round a pipe, used as a pull-up bar", True),
    ("false post with a lantern on a hook", True), ("boxed beam", False), ("boxed beam, nothing hangs from it", False),
    ("hollow mantel, no television", False), ("shell over a fan that hangs from the joists", False),
])  # fmt: skip
def test_words_of_what_hangs_on_it_are_asked_about(what: str, asked: bool) -> None:
    """A thing that somebody hangs on a piece that is for looks is a load that nobody counts."""
    found = hung({"rows": TWO}, weight="320 lb", stands_out="3 in", what=what, **FACE)
    assert found.verdict == ("refer" if asked else "passes")
    if asked:
        assert [one.field for one in of(found, "words of what it is for").questions] == ["trim.T.meant.what"]
