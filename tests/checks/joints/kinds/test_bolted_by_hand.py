"""Bolts through wood on wood: how long they are, what hides them, which way each piece lies to the other.

Washers of a 3/4 in bolt are 0.148 in thick, its nut is as high as it is thick (common practice).
"""

from __future__ import annotations

import math
from dataclasses import replace
from typing import Any

import pytest

from beamcheck.checks.core.result import Check
from beamcheck.checks.joints.kinds.bolted import _turn, _turned_over

from ..jobs import SHEET, Data, checked, step_value, the, wood
from ..meetings import arriving, meeting
from .test_fastened import BOLT, bearing, between, double, lap, single

RAFTER, PLANK = wood("rafter", "5 1/2 in x 7 1/2 in"), wood("plank", "2 1/2 in x 9 1/2 in")
BORED: Data = {"counterbore": "2 in", "counterbore_depth": "1 in", "washer": "1 3/4 in"}
NUT = 0.75 + 2 * 0.148


def length_of(one: Data, length: float, bolt: Data, gap: float) -> tuple[Any, list[str]]:
    one = {**one, "fastener": {**BOLT, "length": f"{length} in", **bolt}, "gap": f"{gap} in"}
    piece = checked(one, RAFTER, PLANK)
    return piece, [check.notes[0] for check in piece.checks if check.id == "anchor.length"]


@pytest.mark.parametrize(("bolt", "gap", "least", "most"), [
    ({}, 0.0, 10.5 + NUT, math.inf), ({}, 0.25, 11.0 + NUT, math.inf), (BORED, 0.0, 8.5 + NUT, 10.5),
    (BORED, 0.25, 9.0 + NUT, 11.0),
])  # fmt: skip
def test_length_of_bolts_through_three(bolt: Data, gap: float, least: float, most: float) -> None:
    """5 1/2 in between two of 2 1/2 in: washers and nut out of the faces, or within bores of 1 in."""
    assert "too short" in length_of(between(), least - 0.01, bolt, gap)[1][0]
    assert length_of(between(), least + 0.01, bolt, gap)[1] == []
    if math.isfinite(most):
        assert length_of(between(), most - 0.01, bolt, gap)[1] == []
        assert "too long" in length_of(between(), most + 0.01, bolt, gap)[1][0]


def test_bored_sticks_bear_on_what_the_bores_leave() -> None:
    """1 1/2 in of the 2 1/2 in outside, in the yield equations (12.3.1)."""
    piece, _ = length_of(between(), 9.75, {**BORED, "threads": "clear of it", "thread_length": "1 in"}, 0.0)
    Z = double(0.75, 5.5, 1.5, bearing(0.5, 0.75, 33.69), bearing(0.5, 0.75, 0.0), 33.69)
    for name in ("rafter", "ties"):
        assert step_value(the(piece, "anchor.lateral", name), "Z") == pytest.approx(Z, rel=2e-6)


def lapped(length: float, bolt: Data, gap: float = 0.0) -> list[str]:
    from ..jobs import joint, member
    from .test_fastened import LAID

    holes = {"end": "6 in", "edge": "2 3/4 in"}
    fastener = {"length": f"{length} in", **(BOLT if bolt.get("kind", "bolt") == "bolt" else {}), **bolt}
    one = joint("bolted lap", member("brace", "brace", 45.0, -400.0, holes=holes),
                member("post", "post", 90.0, 283.0, down=283.0, passes=True, holes={**holes, "end": "40 in"}),
                fastener=fastener, stands_on="post foot", bears_on="post", gap=f"{gap} in", **LAID)  # fmt: skip
    piece = checked(one, wood("brace", "3 1/2 in x 5 1/2 in"), wood("post", "5 1/2 in x 5 1/2 in"))
    return [check.notes[0] for check in piece.checks if check.id == "anchor.length"]


@pytest.mark.parametrize(("bolt", "gap", "least", "most"), [
    ({}, 0.0, 9.0 + NUT, math.inf), ({}, 0.25, 9.25 + NUT, math.inf), (BORED, 0.0, 7.0 + NUT, 9.0),
    (BORED, 0.25, 7.25 + NUT, 9.25),
])  # fmt: skip
def test_length_of_bolts_through_two(bolt: Data, gap: float, least: float, most: float) -> None:
    assert "too short" in lapped(least - 0.01, bolt, gap)[0] and lapped(least + 0.01, bolt, gap) == []
    if math.isfinite(most):
        assert lapped(most - 0.01, bolt, gap) == [] and "too long" in lapped(most + 0.01, bolt, gap)[0]


@pytest.mark.parametrize("gap", [0.0, 0.25, 0.5])
def test_what_lies_between_takes_of_the_length_of_a_lag_screw(gap: float) -> None:
    """As long as both, a washer and 1 in more: its point comes out by that inch, however wide the gap."""
    screw = {"kind": "lag screw", "size": "3/4 in"}
    assert "the point comes out by 1 in" in lapped(9.0 + gap + 0.148 + 1.0, screw, gap)[0]
    assert lapped(9.0 + gap + 0.148 - 0.01, screw, gap) == []


@pytest.mark.parametrize(("held", "other", "turn"), [
    (0.0, 30.0, 30.0), (0.0, 150.0, 150.0), (0.0, -30.0, -30.0), (30.0, 0.0, -30.0), (180.0, 150.0, 30.0),
    (90.0, 135.0, 45.0), (90.0, 45.0, -45.0), (-90.0, -135.0, 45.0),
])  # fmt: skip
def test_how_the_other_piece_lies(held: float, other: float, turn: float) -> None:
    """From inwards along the held piece toward its upper edge; of an upright one toward the left."""
    assert _turn(arriving("a", held), arriving("b", other)) == pytest.approx(turn)


def over(N: float, held: str = "") -> list[Check]:
    one, other = arriving("a", 0.0, N=(N,), size="3 in x 10 in"), arriving("b", 60.0, size="4 in x 8 in", number=2)
    return list(_turned_over(meeting(one, replace(other, force=-one.force), twist_held_by=held, kind="bolted lap")))


@pytest.mark.parametrize(("N", "held", "verdicts"), [
    (0.5, "", []), (0.6, "", ["passes", "passes"]), (1000.0, "", ["passes", "passes"]), (1000.1, "", ["refer"]),
    (5000.0, f"blocking, {SHEET}", ["passes"]), (5000.0, "blocking", ["refer"]),
])  # fmt: skip
def test_a_single_lap_up_to_half_a_ton(N: float, held: str, verdicts: list[str]) -> None:
    assert [one.verdict for one in over(N, held)] == verdicts


def test_a_single_lap_bends_both_the_weak_way() -> None:
    """M = N (b_1 + b_2)/2 on each by itself (statics): 6 M/(d b^2) over F_b, N/(b d) over the lesser of F_t and F_c."""
    for check, b, d in zip(over(600.0), (3.0, 4.0), (10.0, 8.0), strict=True):
        M = 600.0 * 3.5
        assert check.ratio == pytest.approx(6 * M / (d * b**2) / 1350.0 + 600.0 / (b * d) / 825.0, rel=1e-6)
        assert check.where == ("a" if b == 3.0 else "b")


def test_the_larger_thickness_of_a_lap_is_no_secret() -> None:
    """Head and point have their own thickness: the same value, whichever piece is asked."""
    Z = single(0.75, 5.5, 3.5, bearing(0.5, 0.75, 45.0), bearing(0.5, 0.75, 0.0), 45.0)
    assert step_value(the(lap(45.0), "anchor.lateral", "post"), "Z") == pytest.approx(Z, rel=2e-6)
