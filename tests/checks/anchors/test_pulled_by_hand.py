"""Pull along fasteners of every kind, each with wood, head, washer and steel recomputed here; limits at their edge.

NDS 2018 12.2 as read for the lag screw and the nail, from memory for the rest; G 0.50, F_c_perp 625 psi. Invented.
"""

from __future__ import annotations

import math
from dataclasses import replace
from typing import Any

import numpy as np
import pytest

from beamcheck.calc.pad import SilentPad
from beamcheck.checks.anchors.fasteners.axial import counted_washer, pull_value
from beamcheck.checks.anchors.group import Group
from beamcheck.checks.anchors.manners.registry import connect
from beamcheck.checks.core.result import Check
from beamcheck.errors import OutOfRange

from .anchors import HALF, PLATE, Data, axial, find, group, lateral, layout, said, stock

PULL = "pull on the most loaded"
LAG: Data = {"kind": "lag screw", "size": "3/8 in", "length": "4 in"}
SCREW: Data = {"kind": "wood screw", "size": "No. 10", "length": "3 in"}
INTO: Data = {"stock": "wood", "thickness": "5 1/2 in", "grain": "across", "end": "6 in", "edge": "5 in"}
AREA = math.pi / 4


def value(made: Group) -> float:
    return float(pull_value(SilentPad(), connect(made), 0))


def test_wood_screw_through_a_plate() -> None:
    """2850 G^2 D (D 0.19 in) on the thread in the wood: two thirds of 3 in, of which all is beyond 1/4 in of plate."""
    made = group([20.0], held=stock("6x12 dressed"), fastener=SCREW, plate=PLATE, manner="plate one side", other=None)
    W = 2850 * 0.5**2 * 0.19
    assert find(axial(made, [50.0]), PULL).capacity == pytest.approx(W * 2.0)
    assert value(made) == pytest.approx(W * 2.0)


@pytest.mark.parametrize(("pull", "verdict"), [(5999 * AREA * 0.265**2, "passes"), (6001 * AREA * 0.265**2, "refer")])
def test_steel_that_nobody_names(pull: float, verdict: str) -> None:
    """Up to 6,000 psi at the root any steel does (judgment)."""
    made = group([20.0], held=stock("6x12 dressed"), fastener=LAG, plate=PLATE, manner="plate one side", other=None)
    assert find(axial(made, [pull]), "steel at the root").verdict == verdict


@pytest.mark.parametrize("length", ["3 in", "5 in"])
def test_a_screw_s_head_bears_on_the_wood(length: str) -> None:
    """A head of 0.363 in (No. 10) less the shank of 0.19 in on 625 psi; as for nails 690 pi D_H G^2 t in thin wood."""
    thin = group([20.0], fastener={**SCREW, "length": length}, other=INTO, into=stock("6x12 dressed"))
    thin = replace(thin, section=replace(thin.section, b=1.0))
    bears = 625.0 * AREA * (0.363**2 - 0.19**2)
    long = float(length.split()[0])
    point = 2850 * 0.5**2 * 0.19 * min(2 / 3 * long, long - 1.0)
    through = 690 * math.pi * 0.363 * 0.5**2 * 1.0
    assert find(axial(thin, [10.0]), PULL).capacity == pytest.approx(min(bears, point, through))


@pytest.mark.parametrize(("b", "limited"), [(1.5, False), (1.49, True)])
def test_wood_of_an_inch_and_a_half_needs_no_further_limit(b: float, limited: bool) -> None:
    made = group([20.0], fastener={**HALF, "washer": "5 in", "length": "4 in"}, other=INTO, into=stock("6x12 dressed"),
                 holes={"rows": 1, "columns": 1, "end": "6 in", "edge": "5 1/2 in"})  # fmt: skip
    made = replace(made, section=replace(made.section, b=b))
    check = find(axial(made, [100.0]), "washer on the held")
    bears = 625.0 * (1.0 + 0.375 / 5.0) * AREA * (25.0 - 0.5625**2)
    through = 690 * math.pi * 5.0 * 0.25 * b
    assert check.capacity == pytest.approx(min(bears, through) if limited else bears)
    assert through < bears


def test_load_duration_counts_for_a_washer_in_thin_wood() -> None:
    """C_D 1.6 of wind on the rule for heads; bearing across the grain takes none."""
    made = group([20.0], fastener={**HALF, "washer": "5 in", "length": "4 in"}, other=INTO, into=stock("6x12 dressed"),
                 holes={"rows": 1, "columns": 1, "end": "6 in", "edge": "5 1/2 in"}, kinds="W")  # fmt: skip
    made = replace(made, section=replace(made.section, b=1.0))
    through, bears = 1.6 * 690 * math.pi * 5.0 * 0.25, 625.0 * (1.0 + 0.375 / 5.0) * AREA * (25.0 - 0.5625**2)
    assert find(axial(made, [100.0]), "washer on the held").capacity == pytest.approx(min(through, bears))


def test_nails_in_thin_wood_are_pulled_through() -> None:
    """690 pi D_H G^2 t, t 1/4 in under a head of 0.344 in, before 2 in of point give way (12.2.5, memory)."""
    made = group([20.0], fastener={"kind": "nail", "size": "16d common"}, other=INTO, into=stock("6x12 dressed"))
    made = replace(made, section=replace(made.section, b=0.25))
    head, point = 690 * math.pi * 0.344 * 0.5**2 * 0.25, 1380 * 0.5**2.5 * 0.162 * 3.25
    assert find(axial(made, [10.0]), PULL).capacity == pytest.approx(min(head, point))
    assert head < point


def test_stainless_nails_hold_by_their_own_equation() -> None:
    """465 G^1.5 D (12.2.3.2, memory) over 2 in beyond 1 1/2 in."""
    nail = {"kind": "nail", "size": "16d common", "coating": "stainless", "F_yb": "90000 psi", "F_yb_from": "sheet 4"}
    made = group([20.0], fastener=nail, other=INTO, into=stock("6x12 dressed"))
    assert find(axial(made, [10.0]), PULL).capacity == pytest.approx(465 * 0.5**1.5 * 0.162 * 2.0)


@pytest.mark.parametrize(("length", "thread"), [("4 in", 2.5), ("6 in", 3.5)])
def test_thread_of_a_lag_screw_as_measured(length: str, thread: float) -> None:
    """Tables say 2 1/2 in of 4, 3 1/2 in of 6 (Appendix L, read); what is measured counts before that."""

    def held(**more: Any) -> float:
        fastener = {**LAG, "length": length, **more}
        made = group([20.0], held=stock("8x12 dressed"), fastener=fastener, plate=PLATE, manner="plate one side",
                     other=None)  # fmt: skip
        return find(axial(made, [50.0]), PULL).capacity or 0.0

    W = 1800 * 0.5**1.5 * 0.375**0.75
    assert held() == pytest.approx(W * (thread - 7 / 32))
    assert held(thread_length="2 in") == pytest.approx(W * (2.0 - 7 / 32))


def test_what_a_bolt_holds_along_its_axis() -> None:
    """The lesser of both washers (C_b 1 here) and of 45 ksi/2 on 1/2 in."""
    made = group([20.0], other=INTO, into=stock("6x12 dressed"))
    wood = 625.0 * AREA * (1.375**2 - 0.5625**2)
    assert value(made) == pytest.approx(wood)
    assert value(group([20.0], other=INTO, fastener={**HALF, "steel": "A307", "washer": "4 in"},
                       into=stock("6x12 dressed"))) == pytest.approx(45000 / 2 * AREA * 0.25)  # fmt: skip
    with pytest.raises(OutOfRange, match="hold nothing along their axis"):
        value(group([20.0], fastener={"kind": "pin", "size": "1/2 in"}))
    edge = {"rows": 1, "columns": 1, "end": "4 in", "edge": "1/4 in"}
    with pytest.raises(OutOfRange, match="lies on the wood"):
        value(group([20.0], holes=edge, other=INTO, into=stock("6x12 dressed")))


@pytest.mark.parametrize(("places", "counted"), [
    (((0.5, 6.0),), 1.0), (((4.0, 0.6),), 1.2), (((4.0, 10.65),), 1.2), (((4.0, 4.0), (4.0, 5.1)), 1.1),
    (((4.0, 4.0), (5.05, 4.0)), 1.05), (((4.0, 6.0),), 1.375),
])  # fmt: skip
def test_as_much_of_a_washer_as_lies_on_the_held_piece(places: Any, counted: float) -> None:
    """From the end, from either edge of 11 1/4 in, and to the next one; 1 3/8 in across."""
    laid = [{"x": f"{x} in", "y": f"{y} in"} for x, y in places]
    made = group([20.0], holes={"places": laid})
    assert counted_washer(made, connect(made).joint.held_part, 1.375) == pytest.approx(counted)


@pytest.mark.parametrize(("end", "edge", "grain", "counted"), [
    ("0.6 in", "5 in", "across", 1.2), ("6 in", "0.5 in", "across", 1.0), ("6 in", "10.7 in", "across", 1.1),
    ("6 in", "7.3 in", "across", 1.375), ("6 in", "7.7 in", "along", 1.1), ("6 in", "10.7 in", "along", -4.9),
])  # fmt: skip
def test_as_much_of_a_washer_as_lies_on_the_other_piece(end: str, edge: str, grain: str, counted: float) -> None:
    """A 2x12 beside it, 11 1/4 in wide; rows 3 in apart lie across its grain where that runs along the held piece."""
    two = {"rows": 2, "columns": 1, "row_spacing": "3 in", "end": "4 in", "edge": "4 in"}
    other = {"stock": "wood", "thickness": "1 1/2 in", "grain": grain, "end": end, "edge": edge}
    made = group([20.0], holes=two, other=other)
    assert counted_washer(made, connect(made).joint.other, 1.375) == pytest.approx(counted)


def test_no_washer_lies_on_more_than_there_is_at_an_end() -> None:
    """Into the end of a 2x12: from its sides 1 1/2 in apart and its edges."""
    end = {"rows": 1, "columns": 1, "end": "1/2 in", "edge": "5 in"}
    made = group([20.0], manner="into the end", fastener={**LAG, "length": "6 in"}, holes=end,
                 other={**INTO, "thickness": "1 1/2 in"})  # fmt: skip
    held = connect(made).joint.held_part
    assert counted_washer(made, held, 3.0) == pytest.approx(1.0)
    other_side = replace(made, x=np.array([1.1]))
    assert counted_washer(other_side, held, 3.0) == pytest.approx(0.8)
    high = replace(made, x=np.array([0.75]), y=np.array([11.0]))
    assert counted_washer(high, held, 3.0) == pytest.approx(0.5)


def lag_rows(**more: Any) -> list[Check]:
    made = group([20.0], held=stock("6x12 dressed"), fastener=LAG, plate=PLATE, manner="plate one side", other=None,
                 **more)  # fmt: skip
    return [one for one in axial(made, [50.0]) if one.id == "anchor.lag_distances"]


@pytest.mark.parametrize(("holes", "verdict", "words"), [
    ({"end": "1 1/2 in", "edge": "5 in"}, "passes", ""), ({"end": "1.49 in", "edge": "5 in"}, "fails", "end"),
    ({"end": "4 in", "edge": "0.5625 in"}, "passes", ""), ({"end": "4 in", "edge": "0.56 in"}, "fails", "edge"),
    ({"end": "4 in", "edge": "10.9375 in"}, "passes", ""), ({"end": "4 in", "edge": "10.94 in"}, "fails", "edge"),
    ({"end": "4 in", "edge": "5 in", "rows": 2, "row_spacing": "1 1/2 in"}, "passes", ""),
    ({"end": "4 in", "edge": "5 in", "rows": 2, "row_spacing": "1.49 in"}, "fails", "spacing"),
])  # fmt: skip
def test_distances_of_lag_screws_in_withdrawal(holes: Data, verdict: str, words: str) -> None:
    """Table 12.5.1E (read): edge 1 1/2 D, end and spacing 4 D, D 3/8 in, in 11 1/2 in of depth."""
    (check,) = lag_rows(holes={"rows": 1, "columns": 1, **holes})
    assert check.verdict == verdict and words in "; ".join(check.notes)


def test_distances_of_lag_screws_in_the_other_piece() -> None:
    """The one that holds the points: what is given there, and what is not is asked."""
    for change, verdict in (({}, "passes"), ({"end": "1.4 in"}, "fails"), ({"edge": None}, "refer")):
        other = {key: value for key, value in {**INTO, **change}.items() if value is not None}
        made = group([50.0], fastener=LAG, other=other, into=stock("6x12 dressed"))
        found = [one for one in axial(made, [100.0]) if one.id == "anchor.lag_distances"]
        assert [one.verdict for one in found] == [verdict], change


def test_screws_into_the_end_are_near_its_sides() -> None:
    """Table 12.5.1E: 1 1/2 D from either side of 3 1/2 in."""
    for x, verdict in ((0.5625, "passes"), (0.55, "fails"), (2.9375, "passes"), (2.95, "fails")):
        made = group([20.0], manner="into the end", held=stock("4x12 dressed"), fastener={**LAG, "length": "6 in"},
                     holes={"rows": 1, "columns": 1, "end": f"{x} in", "edge": "5 in"})  # fmt: skip
        (check,) = [one for one in axial(made, [50.0]) if one.id == "anchor.lag_distances"]
        assert check.verdict == verdict, x


def test_pull_with_lateral_load_uses_the_larger_share_of_both() -> None:
    """Screws by eq. 12.4-1, over all combinations: the one with most of both."""
    made = group([100.0, 10.0, 0.0], fastener={**LAG, "length": "6 in"}, other=INTO, into=stock("6x12 dressed"))
    check = find(axial(made, [10.0, 200.0, 0.0]), "pull and lateral")
    Z, W = find(lateral(made), "lateral").capacity, find(axial(made, [10.0, 200.0, 0.0]), PULL).capacity
    assert Z is not None and W is not None
    both = [(V**2 / Z + T**2 / W) / math.hypot(V, T) for V, T in ((100.0, 10.0), (10.0, 200.0))]
    assert check.ratio == pytest.approx(max(both))
    assert check.combination == f"case {1 + int(np.argmax(both))}"


@pytest.mark.parametrize(("washer", "words"), [("1 3/8 in", ""), ("1.37 in", "less than a standard cut washer")])
def test_washers_no_narrower_than_standard(washer: str, words: str) -> None:
    """1 3/8 in at 1/2 in (ASME B18.21.1, memory)."""
    found = said(layout(group([20.0], fastener={**HALF, "washer": washer})), "fails")
    assert (words in found) if words else "standard cut washer" not in found


@pytest.mark.parametrize(("edge", "end", "over"), [
    ("2 in", "4 in", ""), ("1.9 in", "4 in", "hang over"), ("9 1/4 in", "4 in", ""), ("9.35 in", "4 in", "hang over"),
    ("6 in", "2 in", ""), ("6 in", "1.9 in", "hang over"),
])  # fmt: skip
def test_washers_on_the_face(edge: str, end: str, over: str) -> None:
    """4 in across: 2 in from edges (of 11 1/4 in) and end."""
    holes = {"rows": 1, "columns": 1, "end": end, "edge": edge}
    found = [one for one in layout(group([20.0], holes=holes, fastener={**HALF, "washer": "4 in"}))
             if one.what == "room for the washers"]  # fmt: skip
    assert [one.verdict for one in found] == (["refer"] if over else [])
    if over:
        assert over in found[0].notes[0]
        assert found[0].questions[0].answers[0].says == "3 3/4 in"


def test_washers_beside_each_other() -> None:
    for apart, over in (("2 in", False), ("1.9 in", True)):
        holes = {"rows": 2, "columns": 1, "end": "4 in", "edge": "4 in", "row_spacing": apart}
        found = said(layout(group([20.0], holes=holes, fastener={**HALF, "washer": "2 in"})), "fails")
        assert ("they overlap" in found) is over
