"""Anchors in concrete, rows of a ledger and inclined screws: lengths and pulls at their limits, by hand.

A plate of 1 1/2 x 7 1/4 in with two 1/2 in anchors; the load lies in its middle, half its breadth before the concrete.
"""

from __future__ import annotations

import math
from dataclasses import replace
from types import SimpleNamespace
from typing import Any

import numpy as np
import pytest

from beamcheck.checks.core.result import Table
from beamcheck.checks.joints.kinds.concrete import _forces, _of_anchors
from beamcheck.checks.joints.kinds.inclined import _pulled, _shown, _ways
from beamcheck.checks.joints.kinds.ledger import LedgerRow, _along, _bends, _narrow, _on_one
from beamcheck.model.anchors.anchor import Holes

from ..jobs import SHEET, the
from ..meetings import arriving, meeting
from .test_by_report import BOLT, anchored


@pytest.mark.parametrize(("length", "gap", "embedded", "fails"), [
    ("5 1/2 in", "0 in", "4 in", False), ("5.49 in", "0 in", "4 in", True), ("5 3/4 in", "1/4 in", "4 in", False),
    ("5.74 in", "1/4 in", "4 in", True), (None, "0 in", "9 in", False),
])  # fmt: skip
def test_anchors_reach_as_deep_as_is_said(length: str | None, gap: str, embedded: str, fails: bool) -> None:
    """Through 1 1/2 in and a gap; where nobody says how long they are that is asked elsewhere."""
    bolt = {key: value for key, value in {**BOLT, "length": length}.items() if value is not None}
    piece = anchored(600.0, fastener=bolt, gap=gap, embedded=embedded)
    found = [one for one in piece.checks if one.id == "joint.concrete_length"]
    assert [one.verdict for one in found] == (["fails"] if fails else [])


@pytest.mark.parametrize(("down", "gap", "held", "expected"), [
    (600.0, "0 in", "", 600.0 * 0.75 / (0.7 * 3.0) / 2), (600.0, "1/4 in", "", 600.0 * 1.0 / (0.7 * 3.0) / 2),
    (-600.0, "0 in", "", 600.0 * 0.75 / (0.7 * 4.25) / 2), (600.0, "0 in", f"joists, {SHEET}", None),
    (600.0, "0 in", "joists", 600.0 * 0.75 / (0.7 * 3.0) / 2),
])  # fmt: skip
def test_half_of_the_wood_lies_before_the_face(down: float, gap: str, held: str, expected: float | None) -> None:
    """F (b/2 + gap) over 0.7 of the height above the edge that bears, on two anchors (statics, the lever-arm rule)."""
    check = the(anchored(down, gap=gap, twist_held_by=held), "joint.concrete_pull")
    if expected is None:
        assert check.verdict == "passes" and held in check.notes[0]
    else:
        assert check.verdict == "refer"
        assert check.questions[0].forces["pulls out"] == pytest.approx(expected)


def test_a_push_along_the_wood_goes_through_the_anchors_as_a_pull_does() -> None:
    one = meeting(arriving("plate", 0.0, N=(-500.0, 300.0), down=(40.0, -40.0)))
    forces = _forces(one)
    assert forces.along.tolist() == pytest.approx([0.0, 500.0, 300.0])
    assert forces.across.tolist() == pytest.approx([0.0, 40.0, -40.0])


def test_an_anchor_has_one_washer() -> None:
    heads = ("how many", "what", "size", "steel and coating", "note")
    rows = (("2", "bolt", "1/2 in", "A307", "x"), ("4", "washer", "", "", ""), ("2", "nut", "", "", ""))
    found = _of_anchors(Table("Hardware of J", heads, rows, "")).rows
    assert found == (("2", "anchor", "1/2 in", "A307", "by its report"), ("2", "washer", "", "", ""),
                     ("2", "nut", "", "", ""))  # fmt: skip


R = 2400.0 / 144.0 * 1.375 * 16.0  # on one of them, lb


# ---- ledgers ---------------------------------------------------------------------------------------------------------


def row(F: float = 2400.0, N: float = 0.0, **more: Any) -> Any:
    """A ledger of 1 1/2 x 9 in along studs of 1 1/2 x 5 1/2 in, 12 ft long."""
    given = {"along": 144.0, "spacing": 16.0, "joists": 16.0, "behind": "studs", **more}
    return meeting(arriving("ledger", 0.0, N=(N,), down=(F,), size="1 1/2 in x 9 in", entry={"part": "ledger"}),
                   arriving("stud", 90.0, number=2, size="1 1/2 in x 5 1/2 in", entry={"part": "behind"}),
                   row=SimpleNamespace(**given), kind="ledger", confirmed_by=SHEET)  # fmt: skip


@pytest.mark.parametrize(("spacing", "joists", "R"), [
    (16.0, 16.0, 1.375 * 16.0), (16.0, 21.9, 1.375 * 16.0), (16.0, 24.0, 24.0), (24.0, 16.0, 1.375 * 24.0),
])  # fmt: skip
def test_the_worst_of_a_row(spacing: float, joists: float, R: float) -> None:
    for F in (2400.0, -2400.0):
        assert _on_one(row(F, spacing=spacing, joists=joists))[1] == pytest.approx(2400.0 / 144.0 * R)


@pytest.mark.parametrize(("spacing", "times"), [(16.0, 10), (16.1, 10), (15.9, 11), (144.0, 2), (150.0, 2), (72.0, 3)])
def test_how_often_a_row_is_fastened(spacing: float, times: int) -> None:
    """At both its ends as well."""
    assert LedgerRow().times(row(spacing=spacing)) == times


@pytest.mark.parametrize(("N", "asked"), [(20.0, False), (20.1, True), (-20.1, True)])
def test_force_along_a_row(N: float, asked: bool) -> None:
    """Up to 20 lb are next to nothing beside 2,400 lb."""
    assert bool(list(_along(row(N=N)))) is asked


@pytest.mark.parametrize(("joists", "M"), [(16.0, 16.0 * 16.0 / 4), (7.9, 16.0**2 / 8), (8.1, 8.1 * 16.0 / 4)])
def test_a_ledger_bends_by_an_even_load_or_one_joist(joists: float, M: float) -> None:
    (check,) = _bends(row(joists=joists))
    assert check.demand == pytest.approx(2400.0 / 144.0 * M / (1.5 * 9.0**2 / 6)) and check.capacity == pytest.approx(
        1350.0
    )


@pytest.mark.parametrize(("behind", "turn", "across", "along"), [("studs", 90.0, 0.0, -R), ("rim", 0.0, -R, 0.0)])
def test_a_stud_is_pressed_along_its_grain_and_a_rim_across_it(
    behind: str, turn: float, across: float, along: float
) -> None:
    """Studs are met by their narrow face, square to the ledger; a rim lies along it."""
    two = row(behind=behind)
    holes = Holes.model_validate({"end": "20 in", "edge": "3/4 in"})
    entries = [one.entry.model_copy(update={"holes": holes}) for one in two.members]
    two = replace(two, members=tuple(replace(one, entry=of) for one, of in zip(two.members, entries, strict=True)))
    (first, ledger), (second, stud) = LedgerRow().groups(two)
    assert (ledger.turn, ledger.held, ledger.thick) == (turn, "head", 5.5 if behind == "studs" else 1.5)
    assert (stud.turn, stud.held, stud.thick) == (turn, "point", 1.5)
    assert (first.forces.across[1], first.forces.along[1]) == pytest.approx((R, 0.0))
    assert (second.forces.across[1], second.forces.along[1]) == pytest.approx((across, along))
    assert first.anchor.other is not None and (first.anchor.other.end, first.anchor.other.edge) == (20.0, 0.75)


def test_studs_are_met_by_their_narrow_face() -> None:
    stud = _narrow(arriving("stud", 90.0, size="1 1/2 in x 5 1/2 in"))
    assert (stud.b, stud.d, stud.section.breadth_alone) == (5.5, 1.5, 5.5)


# ---- inclined screws -------------------------------------------------------------------------------------------------


def screws(
    N: tuple[float, ...] = (1000.0,), down: tuple[float, ...] = (0.0,), *, degrees: float = 90.0, **more: Any
) -> Any:
    given = {"count": 4, "angle": 45.0, "crossed": False, **more}
    brace = arriving("brace", 0.0, N=N, down=down, size="4 in x 6 in")
    post = arriving("post", degrees, number=2, size="4 in x 8 in")
    return meeting(brace, post, screws=SimpleNamespace(**given))


@pytest.mark.parametrize(
    ("crossed", "count", "pulled"), [(False, 4, 4.0), (True, 4, 2.0), (True, 5, 2.0), (False, 1, 1.0)]
)
def test_of_crossed_screws_half_are_pulled(crossed: bool, count: int, pulled: float) -> None:
    assert _pulled(SimpleNamespace(count=count, crossed=crossed)) == pulled  # type: ignore[arg-type]


@pytest.mark.parametrize(("degrees", "area"), [
    (90.0, 48.0), (30.0, 96.0), (150.0, 96.0), (11.6, 48.0 / math.sin(math.radians(11.6))), (11.5, 36.0), (0.0, 36.0),
])  # fmt: skip
def test_faces_are_pressed_where_screws_draw_them_together(degrees: float, area: float) -> None:
    """1,000 lb on screws at 45 degrees press with as much: on the parallelogram that both share, or a square of the
    lesser of pieces that hardly cross."""
    crossing, steep = (list(_shown(screws(**of), np.array([0.0, 1000.0]), 900.0)) for of in
                       ({"degrees": degrees}, {"angle": 60.0}))  # fmt: skip
    assert len(crossing) == len(steep) == 2
    for check in crossing:
        assert check.demand == pytest.approx(1000.0 / area) and check.capacity == pytest.approx(625.0)
    for check in steep:
        assert check.demand == pytest.approx(1000.0 * math.tan(math.radians(60.0)) / 48.0)


@pytest.mark.parametrize(("down", "asked"), [(10.0, False), (10.1, True), (-10.1, True)])
def test_what_comes_across_inclined_screws(down: float, asked: bool) -> None:
    """More than a hundredth of the 1,000 lb."""
    found = [one.what for one in _ways(screws(down=(down,)))]
    assert found == (["load across the screws"] if asked else [])


@pytest.mark.parametrize(("other", "crossed", "count", "key"), [
    (-10.0, False, 4, ""), (-10.1, False, 4, "joint_screws_crossed"), (-10.1, False, 1, "joint_screws"),
    (-900.0, True, 4, ""), (900.0, False, 4, ""),
])  # fmt: skip
def test_screws_of_one_lean_hold_one_way(other: float, crossed: bool, count: int, key: str) -> None:
    found = list(_ways(screws(N=(1000.0, other), crossed=crossed, count=count)))
    assert [one.questions[0].id.partition("/")[2] for one in found] == ([key] if key else [])
    if key:
        assert found[0].notes[0].startswith("1,000 lb one way and 10.1 lb the other")
