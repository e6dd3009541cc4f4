"""Hardware in the side of a member under forces that are given: the loaded edge, how high it may sit, shear beside it.

A girder of 4 x 10 in (F_v 170, F_c_perp 625 psi). A stated shear counts in every combination: with dead load alone, C_D
0.9. NDS 2018 3.4.3.3: V' = (2/3) F_v' b d_e, times (d_e/d)^2 within 5 d of an end; no more than 0.3 d from the unloaded
edge (judgment).
"""

from __future__ import annotations

from types import SimpleNamespace
from typing import Any

import numpy as np
import pytest

from beamcheck.checks.core.result import Check
from beamcheck.checks.joints.kinds.side import side_checks

from ..jobs import SHEET, wood
from ..meetings import Numbers, arriving, meeting

B, D, F_V = 4.0, 10.0, 0.9 * 170.0
GREEN = {**wood("green", "4 in x 10 in"), "moisture": "green", "measured_moisture": "30 %"}


def found(
    down: Numbers = (900.0,), heights: tuple[float, float] | None = (2.0, 5.0), *, seat: float | None = None,
    shear: float | None = 100.0, degrees: float = 0.0, V: float | None = None, first: float = 900.0, **more: Any,
) -> dict[str, Check]:  # fmt: skip
    """Of the girder: positive, it presses on the hardware with its lower edge."""
    on = None if heights is None else SimpleNamespace(highest=heights[0], lowest=heights[1])
    many = len(down)
    shears = None if V is None else np.array([0.0, *[V] * many])
    given = {"passes": True, **more}
    girder = arriving("girder", degrees, down=down, number=2, V=shears,
                      entry={"on_girder": on, "seat": seat, "shear": shear}, **given)  # fmt: skip
    joist = arriving("joist", 90.0, N=(first,) * many)
    return {one.id: one for one in side_checks(meeting(joist, girder))}


@pytest.mark.parametrize(("down", "heights", "c_u"), [
    ((900.0,), (2.0, 8.0), 2.0), ((-900.0,), (2.0, 8.0), 2.0), ((900.0,), (1.0, 8.5), 1.5),
    ((-900.0,), (1.0, 8.5), 1.0),
    ((900.0, -900.0), (1.0, 8.5), 1.5), ((900.0, -900.0), (2.5, 8.5), 2.5), ((900.0, -19.0), (2.5, 8.5), 1.5),
    ((900.0, -21.0), (2.5, 8.5), 2.5),
])  # fmt: skip
def test_the_unloaded_edge(down: Numbers, heights: tuple[float, float], c_u: float) -> None:
    """What presses on the hardware leaves the lower edge, what hangs on the member the upper one, beyond 20 lb."""
    check = found(down, heights, first=3000.0)["joint.on_side_shear"]
    assert check.capacity == pytest.approx(2 / 3 * F_V * B * (D - c_u) * ((D - c_u) / D) ** 2, rel=1e-6)


@pytest.mark.parametrize(("degrees", "c_u"), [(44.9, 1.0), (45.1, 2.5), (-45.1, 2.5), (90.0, 2.5), (180.0, 1.0)])
def test_of_a_steep_member_the_farther_edge_counts(degrees: float, c_u: float) -> None:
    check = found((-900.0,), (1.0, 7.5), degrees=degrees)["joint.on_side_shear"]
    assert check.capacity == pytest.approx(2 / 3 * F_V * B * (D - c_u) * ((D - c_u) / D) ** 2, rel=1e-6)


@pytest.mark.parametrize(("most", "first", "asked"), [
    (20.0, 3000.0, False), (20.1, 3000.0, True), (15.0, 1500.0, False), (15.1, 1500.0, True), (0.5, 1.0, False),
    (0.6, 1.0, True),
])  # fmt: skip
def test_next_to_nothing_needs_no_height(most: float, first: float, asked: bool) -> None:
    """Up to 20 lb and a hundredth of the largest force of the joint (judgment)."""
    for down in ((most,), (-most,)):
        assert ("joint.on_side" in found(down, None, first=first)) is asked


@pytest.mark.parametrize(("down", "answers"), [
    ((900.0,), [("4 in", "8 in"), "8 in", ("1 in", "4 in")]), ((-900.0,), [("2 in", "6 in"), ("6 in", "9 in")]),
    ((900.0, -900.0), [("2 1/2 in", "7 1/2 in"), "8 in", ("1 in", "5 in")]),
])  # fmt: skip
def test_heights_that_are_proposed(down: Numbers, answers: list[Any]) -> None:
    """Near the edge that the load leaves first; a seat twice as long as it is broad where it presses."""
    check = found(down, None, first=3000.0)["joint.on_side"]
    (asked,) = check.questions
    sets = [one.sets[0] for one in asked.answers]
    expected = [("joint.J.members.2.seat", one) if isinstance(one, str) else
                ("joint.J.members.2.on_girder", {"highest": one[0], "lowest": one[1]}) for one in answers]  # fmt: skip
    assert sets == expected and asked.field == "joint.J.members.2.on_girder"
    assert check.notes[0].startswith("900 lb come across the grain of girder") and check.where == "girder"


def test_of_a_steep_member_heights_are_proposed_from_both_edges() -> None:
    check = found((-900.0,), None, degrees=80.0)["joint.on_side"]
    sets = [one.sets[0][1] for one in check.questions[0].answers]
    assert sets[0] == {"highest": "2 1/2 in", "lowest": "7 1/2 in"} and sets[1] == {"highest": "1 in", "lowest": "5 in"}


def test_a_seat_takes_what_presses_and_the_side_what_lifts() -> None:
    """R/(b l_b) with C_b (l_b + 3/8)/l_b away from the end (3.10.4)."""
    checks = found((900.0, -300.0), (2.0, 5.0), seat=3.0, from_end=60.0)
    assert checks["joint.on_seat"].demand == pytest.approx(900.0 / 12.0)
    assert checks["joint.on_seat"].capacity == pytest.approx(625.0 * 3.375 / 3.0)
    assert checks["joint.on_side_shear"].capacity == pytest.approx(2 / 3 * F_V * B * 8.0)
    pressed = found((900.0,), None, seat=3.0)
    assert set(pressed) == {"joint.on_seat"}
    steep = found((900.0,), None, seat=3.0, degrees=46.0)
    assert set(steep) == {"joint.on_side"}
    sets = [one.sets[0][0] for one in steep["joint.on_side"].questions[0].answers]
    assert sets == ["joint.J.members.2.on_girder"] * 2  # it has its seat


@pytest.mark.parametrize(("passes", "from_end", "near"), [
    (True, 4.4, True), (True, 4.5, False), (False, 60.0, True), (True, 60.0, False),
])  # fmt: skip
def test_near_its_end_it_is_pressed_as_at_its_end(passes: bool, from_end: float, near: bool) -> None:
    """Less than 3 in from the end to the seat of 3 in."""
    check = found((900.0,), None, seat=3.0, passes=passes, from_end=from_end)["joint.on_seat"]
    assert check.capacity == pytest.approx(625.0 * (1.0 if near else 3.375 / 3.0))


@pytest.mark.parametrize(("heights", "verdict"), [((2.0, 10.0), ""), ((2.0, 10.1), "fails")])
def test_no_fastening_below_the_member(heights: tuple[float, float], verdict: str) -> None:
    checks = found((-900.0,), heights)
    assert [one.verdict for id, one in checks.items() if id == "joint.on_side"] == ([verdict] if verdict else [])
    assert ("joint.on_side_shear" in checks) is not verdict or verdict == "fails"


@pytest.mark.parametrize(("c_u", "asked"), [(3.0, False), (3.1, True)])
def test_fastenings_stand_no_further_than_that_from_the_unloaded_edge(c_u: float, asked: bool) -> None:
    checks = found((-900.0,), (c_u, 6.0))
    assert ("joint.on_side_low" in checks) is asked and "joint.on_side_shear" in checks
    if asked:
        note = checks["joint.on_side_low"].notes[0]
        assert "in a depth of 10 in: over 30% of it" in note and checks["joint.on_side_low"].where == "girder"


@pytest.mark.parametrize(("lowest", "stock", "asked"), [(7.0, GREEN, False), (7.1, GREEN, True), (7.1, None, False)])
def test_fastenings_far_apart_split_wood_that_dries(lowest: float, stock: Any, asked: bool) -> None:
    """5 in across the grain (NDS 2018 12.5.1.3)."""
    assert ("joint.on_side_spread" in found((-900.0,), (2.0, lowest), stock=stock)) is asked


@pytest.mark.parametrize(("shear", "passes", "V"), [
    (100.0, True, 450.0), (449.0, True, 450.0), (460.0, True, 460.0), (100.0, False, 900.0), (1000.0, False, 1000.0),
])  # fmt: skip
def test_stated_shear_is_no_less_than_what_is_hung_there_asks(shear: float, passes: bool, V: float) -> None:
    """Half of it where the member runs through, all of it at an end (statics); in every combination."""
    check = found((-900.0,), shear=shear, passes=passes)["joint.on_side_shear"]
    assert check.demand == pytest.approx(V) and check.notes[0] == "taken as near the end of it"
    assert any(SHEET in step.note for step in check.steps if step.symbol == "V")


def test_shear_of_the_analysis_counts_where_there_is_one() -> None:
    check = found((-900.0,), shear=5000.0, V=333.0)["joint.on_side_shear"]
    assert check.demand == 333.0 and check.notes == () and check.combination == "D + L"
    assert check.capacity == pytest.approx(2 / 3 * 170.0 * B * 8.0 * 0.64)


def test_shear_that_nobody_says_is_asked() -> None:
    check = found((-904.0,), shear=None)["joint.on_side_shear"]
    (asked,) = check.questions
    assert asked.field == "joint.J.members.2.shear" and [one.says for one in asked.answers] == ["910 lbf"]


@pytest.mark.parametrize(("from_end", "near"), [(49.9, True), (50.0, False)])
def test_within_five_depths_of_its_end(from_end: float, near: bool) -> None:
    check = found((-900.0,), (2.0, 5.0), from_end=from_end)["joint.on_side_shear"]
    assert check.capacity == pytest.approx(2 / 3 * F_V * B * 8.0 * (0.64 if near else 1.0))


def test_what_comes_from_outside_counts_where_it_goes_into_the_girder() -> None:
    girder = arriving("girder", 0.0, down=(-300.0,), number=2, passes=True,
                      entry={"on_girder": SimpleNamespace(highest=2.0, lowest=5.0), "shear": 10.0})  # fmt: skip
    joist = arriving("joist", 90.0, N=(300.0,))
    (check,) = side_checks(meeting(joist, girder, reaction=(0.0, 500.0), bears_on="girder"))
    assert check.demand == pytest.approx(400.0)  # half of 300 and 500
