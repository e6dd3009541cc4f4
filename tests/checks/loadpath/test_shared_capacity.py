"""One stated capacity and several pieces on it: summed, unless it is said to be for each seat."""

from __future__ import annotations

from types import SimpleNamespace
from typing import Any

import pytest

from beamcheck.checks.core.draft import Reactions, SupportForces
from beamcheck.checks.core.result import Check, PieceResult
from beamcheck.checks.loadpath.shared_capacity import _largest, shared_capacity_checks
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
    ({"A": [ONE]}, {"A": 2}, None, 1000, ""),
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
        job: Any = SimpleNamespace(beam=beams, rafter=[], frame=[], existing=[other, under])
        found = shared_capacity_checks(job, [Reactions(name, tuple(given)) for name, given in rows.items()])
        checks = {name: check for name, (check,) in found.items()}
        if words is None and verdict == "passes":
            assert not checks
            continue
        assert set(checks) == set(rows) and {check.verdict for check in checks.values()} == {verdict}
        if words:
            assert all((check.demand, check.combination) == (most, combination) for check in checks.values())


def held(takes_for: str | None, *, row: int = 1, **pieces: Any) -> dict[str, list[Check]]:
    """Two rows of 500 lb, one on either end of a piece, on a pad that takes 2,000 lb."""
    job: Any = SimpleNamespace(**{"beam": [], "rafter": [], "frame": [], **pieces}, existing=[
        Existing(name="pad", what="pad", takes="2,000 lb", takes_for=takes_for)])  # type: ignore[arg-type]  # fmt: skip
    return shared_capacity_checks(job, [Reactions("R", (ONE,) * row)])


@pytest.mark.parametrize(("members", "says"), [(4, "passes"), (5, "fails")])
def test_rafters_are_a_row_too(members: int, says: str) -> None:
    """Each brings 500 lb: four of them 2,000 lb."""
    rafters = [SimpleNamespace(name="R", spacing=24.0, members=members)]
    assert [one.verdict for one in held("all together", rafter=rafters)["R"]] == [says]
    asked = held(None, rafter=rafters)
    assert [one.questions[0].id for one in asked.get("R", [])] == (["pad/takes_for"] if says == "fails" else [])
    assert all("5 of R" in one.notes[0] for one in asked.get("R", [])) and held("each seat", rafter=rafters) == {}


@pytest.mark.parametrize("kind", ["beam", "rafter", "frame"])
def test_a_row_of_nobody_knows_how_many_is_asked(kind: str) -> None:
    """One of it is counted, which alone may pass; said to be for each seat it closes."""
    row = {kind: [SimpleNamespace(name="R", spacing=24.0, members=1)]}
    many, one = held("all together", **row)["R"]
    assert (many.verdict, one.verdict, one.demand) == ("refer", "passes", 500.0)
    (question,) = many.questions
    assert question.answers[0].sets == (("existing.pad.takes_for", "each seat"),) and held(None, **row) == {}
    alone = {kind: [SimpleNamespace(name="R", spacing=None, members=1)]}
    assert [check.verdict for check in held("all together", **alone)["R"]] == ["passes"]


@pytest.mark.parametrize(("kinds", "most"), [
    ({"D": -100.0, "L": 300.0}, (200.0, "D + L")), ({"D": -100.0}, (0.0, "")), ({"W": 100.0}, (60.0, "D + 0.6 W")),
])  # fmt: skip
def test_the_largest_of_what_also_lifts(kinds: dict[str, float], most: tuple[float, str]) -> None:
    assert _largest([(row(0.0, **kinds), 1)]) == most
