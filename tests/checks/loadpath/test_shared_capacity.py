"""One stated capacity and several pieces on it: summed, unless it is said to be for each seat."""

from __future__ import annotations

from typing import Any

import pytest

from beamcheck.checks.core.result import PieceResult

from ..beams.beams import beam, checked, find, floor, known, seat

WOOD = known("6 in x 12 in")
R = (20 + 5 / 1728 * 72) * 72  # lb at each end of 12 ft


def pieces(count: int = 2, *, on_both_ends: bool = False, **pad: Any) -> list[PieceResult]:
    """Beams with one end on a pad each, or with both."""
    under = {"name": "pad", "what": "concrete pad", "material": "concrete", "confirmed_by": "letter 3 of the engineer"}
    ends = [seat("0 ft", on="pad"), seat("12 ft", on="pad" if on_both_ends else "wall")]
    made = [beam(name=f"B{i}", supports=ends, carries=[floor(live="240 plf")]) for i in range(count)]
    return list(checked(*made, wood=WOOD, existing=[under | pad]).pieces)


def verdicts(found: list[PieceResult]) -> list[str]:
    return [check.verdict for piece in found for check in piece.checks if check.id == "seat.takes_together"]


def test_not_said_and_too_much_together() -> None:
    found = pieces(takes=f"{1.5 * R} lb")
    assert verdicts(found) == ["refer", "refer"]
    questions = {one.id: one for piece in found for one in piece.questions}
    assert list(questions) == ["pad/takes_for"]
    assert questions["pad/takes_for"].field == "existing.pad.takes_for"
    assert [one.says for one in questions["pad/takes_for"].answers] == ["each seat", "all together"]


def test_within_together_needs_no_word() -> None:
    assert verdicts(pieces(takes=f"{2.01 * R} lb")) == []
    assert [piece.verdict for piece in pieces(takes=f"{2.01 * R} lb")] == ["passes", "passes"]


def test_for_each_seat() -> None:
    found = pieces(takes=f"{1.5 * R} lb", takes_for="each seat")
    assert [piece.verdict for piece in found] == ["passes", "passes"]


@pytest.mark.parametrize(("takes", "verdict"), [(1.99, "fails"), (2.01, "passes")])
def test_for_all_together(takes: float, verdict: str) -> None:
    found = pieces(takes=f"{takes * R} lb", takes_for="all together")
    assert verdicts(found) == [verdict, verdict]
    check = find(found[0], "what pad takes together")
    assert check.ratio == pytest.approx(2 / takes)


def test_both_ends_of_one_piece() -> None:
    """They stand in two places: only for all together they count twice."""
    assert verdicts(pieces(1, on_both_ends=True, takes=f"{1.5 * R} lb")) == []
    assert verdicts(pieces(1, on_both_ends=True, takes=f"{1.5 * R} lb", takes_for="all together")) == ["fails"]
