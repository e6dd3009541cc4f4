"""One stated capacity and several pieces on it: summed, unless it is said to be for each seat."""

from __future__ import annotations

from types import SimpleNamespace
from typing import Any

import pytest

from beamcheck.checks.core.draft import Reactions, SupportForces
from beamcheck.checks.core.result import PieceResult
from beamcheck.checks.loadpath.shared_capacity import shared_capacity_checks
from beamcheck.model.existing import Existing

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


def row(largest: float, **by_kind: float) -> SupportForces:
    return SupportForces("pad", {kind: (high, 0.0) for kind, high in by_kind.items()}, largest, 0.0)


ONE, TWO = row(500, D=100, L=400), row(900, D=300, S=600)  # D + 0.75 L + 0.75 S = 1150 of both, D + S = 1000
LITTLE = row(10, D=10)


@pytest.mark.parametrize(("rows", "members", "words", "most", "combination"), [
    ({"A": [ONE], "B": [TWO]}, {}, "all together", 1150, "D + 0.75 L + 0.75 S"),
    ({"A": [ONE], "B": [TWO, LITTLE]}, {}, "all together", 1160, "D + 0.75 L + 0.75 S"),
    ({"A": [ONE]}, {"A": 3}, "all together", 1500, "D + L"),
    ({"A": [ONE], "B": [LITTLE]}, {"B": 4}, "all together", 540, "D + L"),
    ({"A": [ONE], "B": [LITTLE, TWO]}, {}, None, 1150, ""), ({"A": [ONE], "B": [TWO]}, {"A": 2}, None, 1550, ""),
])  # fmt: skip
def test_what_comes_together_by_hand(
    rows: dict[str, list[SupportForces]], members: dict[str, int], words: str | None, most: float, combination: str
) -> None:
    """Each kind is added up over seats and members of a row, then combined; not said: the heaviest seat of each."""
    beams = [SimpleNamespace(name=name, spacing=16.0 if name in members else None, members=members.get(name, 7))
             for name in rows]  # fmt: skip
    for takes, verdict in ((most, "passes"), (0.999 * most, "fails" if words else "refer")):
        under = Existing.model_validate(
            {"name": "pad", "what": "pad", "takes": f"{takes} lb", "takes_for": words, "material": "concrete"}
        )
        other = Existing.model_validate({"name": "pier", "what": "pier", "takes": "1 lb", "material": "concrete"})
        job: Any = SimpleNamespace(beam=beams, existing=[other, under])
        found = shared_capacity_checks(job, [Reactions(name, tuple(given)) for name, given in rows.items()])
        checks = {name: check for name, (check,) in found.items()}
        if words is None and verdict == "passes":
            assert not checks
            continue
        assert set(checks) == set(rows) and {check.verdict for check in checks.values()} == {verdict}
        if words:
            assert all((check.demand, check.combination) == (most, combination) for check in checks.values())
