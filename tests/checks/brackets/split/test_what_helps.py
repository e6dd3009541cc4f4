"""Why a bracket carries nothing and what helps, in words: which row, how much farther out, which way the grain."""

from __future__ import annotations

import math
from types import SimpleNamespace
from typing import Any

import numpy as np
import pytest

from beamcheck.checks.brackets.split.split import _help, _judged, _why_nothing

LAST = "then in this order: another row, bigger fasteners, rods across the grain, three pieces, a steel core"


def run(grain: float, *rows: tuple[float, float], s: float | None = 4.0, H: float = 12.0) -> Any:
    """10 in out and so high, its load 8 in out; rows by how far their heads are out and how far they are down, in."""
    held = SimpleNamespace(outline=np.array([(0.0, 0.0), (10.0, 0.0), (0.0, H)]), H=H, x_R=8.0)
    made = [SimpleNamespace(row=SimpleNamespace(head=head, y=y)) for head, y in rows]
    return SimpleNamespace(held=held, found=SimpleNamespace(governing=SimpleNamespace(grain=grain, s=s)), rows=made)


@pytest.mark.parametrize(
    ("grain", "rows", "farther"),
    [
        (90.0, [(4.0, 3.0), (6.5, 7.0)], "1 1/2 in"), (90.0, [(6.5, 3.0), (4.0, 7.0)], "1 1/2 in"),
        (90.0, [(8.0, 3.0)], None), (90.0, [(7.75, 3.0)], "1/4 in"),
        # (2 - 8) sin 30 + 1 cos 30 = -2.13 in across the grain, 4.27 in along the top
        (30.0, [(2.0, 1.0)], "4 1/4 in"), (30.0, [(2.0, 3.5)], None),
        # along grain that lies flatter than 1 in 10 no head gets outside
        (6.0, [(2.0, 0.1)], "5 1/16 in"), (5.0, [(2.0, 0.1)], None),
    ],
)  # fmt: skip
def test_how_much_farther_out_a_head_has_to_be(
    grain: float, rows: list[tuple[float, float]], farther: str | None
) -> None:
    """The farthest head lies (l_hd - x_Q) sin(theta) + y cos(theta) outside the grain line through the load."""
    text = _why_nothing(run(grain, *rows), grain)
    assert text.endswith(": not to be relied on for load")
    assert ("bring a head" in text) is (farther is not None)
    assert farther is None or f"bring a head {farther} farther out, or more:" in text


def test_with_which_check_nothing_holds() -> None:
    assert _why_nothing(run(90.0, (9.0, 3.0)), 90.0).startswith(
        "with one check along its grain (check from the top edge 4 in out, grain 90 deg) nothing holds"
    )
    assert _why_nothing(run(90.0, (9.0, 3.0), s=None), 90.0).startswith("without a single check nothing holds")


@pytest.mark.parametrize(
    ("grain", "rows", "H", "first"),
    [
        (90.0, [(6.0, 3.0), (9.0, 7.0)], 12.0, "row 1"), (90.0, [(9.0, 3.0), (7.99, 7.0)], 12.0, "row 2"),
        (90.0, [(7.0, 3.0), (6.0, 7.0)], 12.0, "row 1"), (90.0, [(9.0, 3.0), (8.1, 7.0)], 12.0, None),
        (270.0, [(9.0, 3.0), (7.9, 7.0)], 12.0, "row 2"),
        (0.0, [(9.0, 3.0)], 12.0, "turn"), (180.0, [(9.0, 3.0)], 12.0, "turn"), (5.0, [(2.0, 0.1)], 12.0, "turn"),
        (6.0, [(2.0, 0.1)], 12.0, "row 1"), (19.9, [(9.0, 3.0)], 12.0, "turn"), (20.0, [(9.0, 3.0)], 12.0, None),
        (160.0, [(9.0, 3.0)], 12.0, "row 1"), (160.0, [(9.0, 0.3)], 12.0, None),
        # from foot to nose 30 degrees: grain within 15 of that runs well
        (14.9, [(9.0, 3.0)], 10.0 * math.tan(math.radians(30.0)), "turn"),
        (15.1, [(9.0, 3.0)], 10.0 * math.tan(math.radians(30.0)), None),
    ],
)  # fmt: skip
def test_what_helps_is_told_in_order(
    grain: float, rows: list[tuple[float, float]], H: float, first: str | None
) -> None:
    *told, last = _help(run(grain, *rows, H=H), grain)
    assert last == LAST
    strut = round(math.degrees(math.atan2(H, 10.0)))
    words = {"turn": f"turn the grain from foot to nose, some {strut} deg"}
    bring = f"bring the head of {first} out to the front of the bracket"
    assert told == ([] if first is None else [words.get(first, bring)])


@pytest.mark.parametrize(("least", "verdict", "helped"), [(65.0, "passes", False), (64.9, "fails", True)])
def test_a_load_of_just_what_is_allowed_needs_no_help(least: float, verdict: str, helped: bool) -> None:
    """50 lb where 65 lb stand: over 1.3 that is 50 lb."""
    made = run(90.0, (9.0, 3.0))
    governing = SimpleNamespace(grain=90.0, s=4.0, least=least)
    judged: Any = SimpleNamespace(**{**vars(made), "found": SimpleNamespace(governing=governing), "load": 50.0,
                                     "weight": 0.0, "x_c": 0.0, "combination": 0})  # fmt: skip
    loads: Any = SimpleNamespace(combinations=[SimpleNamespace(name="D + L")])
    found = _judged("K", judged, loads, 90.0)
    assert (found.verdict, found.demand, found.combination) == (verdict, 50.0, "D + L")
    assert found.capacity == pytest.approx(least / 1.3) and bool(found.notes) is helped
    assert found.where == "check from the top edge 4 in out, grain 90 deg"
