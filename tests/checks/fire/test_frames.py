"""Members of a frame in a fire: what is left by hand, joints always asked, covers and bracing by their address."""

from __future__ import annotations

import copy
from typing import Any

import pytest

from beamcheck.checks.core.result import Check, PieceResult

from ..frames.jobs import KING, SHEET, checked, king, piece

FOUR = ["bottom", "left", "right", "top"]


def burning(fire: dict[str, Any] | None, name: str = "truss: tie", size: str = "6x10") -> PieceResult:
    members = copy.deepcopy(KING["frame"][0]["members"])
    for one in members:
        if fire is not None and name.endswith(one["name"].rstrip("s")):
            one |= {"fire": fire, "stock": size}
    return piece(checked(king(members=members)), name)


def of(found: PieceResult, id: str, what: str = "") -> Check:
    return next(one for one in found.checks if one.id == id and what in one.what)


def test_a_tie_pulls_on_what_is_left() -> None:
    """6x10 (5 1/2 x 9 1/2), four faces, half an hour: a_eff = 1.2 x 1.5 x 0.5^0.813 (NDS 2018 16.2, memory)."""
    found, a = burning({"minutes": 30, "exposed": FOUR}), 1.2 * 1.5 * 0.5**0.813
    cold, hot = of(found, "frame.tension"), of(found, "fire.frame", "tension")
    assert (hot.demand or 0) / (cold.demand or 1) == pytest.approx(
        5.5 * 9.5 / ((5.5 - 2 * a) * (9.5 - 2 * a)), rel=1e-3
    )
    assert (hot.capacity or 0) >= 2.85 / 1.6 * (cold.capacity or 0) * 0.9


def test_its_joints_are_for_an_engineer_and_nothing_passes_without() -> None:
    found = burning({"minutes": 30, "exposed": FOUR})
    assert found.verdict != "passes"
    asked = of(found, "fire.engineer")
    assert asked.verdict == "refer" and asked.questions[0].field == "ruling"
    assert any("code official" in words for words in found.assumptions)
    assert not any(one.id.startswith("fire") for one in burning(None).checks)


def test_more_fire_never_helps_a_member() -> None:
    ratios = []
    for minutes in (30, 40, 50, 60):
        found = burning({"minutes": minutes, "exposed": FOUR})
        ratios.append(max((one.ratio or 0.0 for one in found.checks if one.id == "fire.frame"), default=0.0))
    assert ratios == sorted(ratios) and ratios[0] > 0.0


def test_nothing_is_left_of_a_thin_one() -> None:
    found = burning({"minutes": 120, "exposed": FOUR})
    assert found.verdict == "fails" and of(found, "fire.section").verdict == "fails"


def test_covered_faces_are_asked_at_the_member() -> None:
    found = of(burning({"minutes": 30, "exposed": ["bottom", "left", "right"]}), "fire.cover")
    assert found.questions[0].field == "frame.truss.members.2.fire.others_covered_by"
    said = {"minutes": 30, "exposed": ["bottom", "left", "right"], "others_covered_by": f"planks, {SHEET}"}
    assert of(burning(said), "fire.cover").verdict == "passes"
