"""Wood that nobody knows moves as that which moves most; what fails even as that which moves least fails for sure."""

from __future__ import annotations

from types import SimpleNamespace
from typing import Any

import pytest

from beamcheck.checks.movement.parts import least_moved, moved
from beamcheck.values.loader import rows

S = [float(row["S_T"]) for row in rows("wood_handbook_4_3_shrinkage")]


def movement(S_T: float) -> float:
    """Wood Handbook eq. 13-3 (memory) of 10 in from 12 to 6 %."""
    return 10.0 * 6.0 / (3000.0 / S_T - 30.0 + 12.0)


def test_of_wood_that_nobody_knows() -> None:
    given: Any = SimpleNamespace(way="tangential", across=10.0, fixed="one edge", built_at=12.0)
    lives: Any = SimpleNamespace(low=6.0, high=12.0, why="invented room")
    least, most = least_moved(given, lives), moved(given, None, lives)
    assert least.shrinks == pytest.approx(movement(min(S)), rel=1e-6)
    assert most.shrinks == pytest.approx(movement(max(S)), rel=1e-6)
    assert least.swells == most.swells == 0.0
