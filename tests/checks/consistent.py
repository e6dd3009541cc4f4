"""What holds for every check of every job: its ratio is what is there over what is allowed, and its verdict follows."""

from __future__ import annotations

import math
from collections.abc import Iterable

from beamcheck.checks.core.result import Check

HAIR = 1e-4  # what a distance at its very limit may be off


def consistent(checks: Iterable[Check]) -> None:
    """Each ratio against demand and capacity as they are shown; what waits asks, what passes or fails does not."""
    for one in checks:
        told = (one.id, one.what, one.where, one.verdict, one.demand, one.capacity, one.ratio)
        assert bool(one.questions) or one.verdict != "refer", told
        if one.ratio is None or one.demand is None or one.capacity is None:
            continue
        if one.capacity > 0.0 and math.isfinite(one.ratio):
            assert math.isclose(one.ratio, one.demand / one.capacity, rel_tol=HAIR, abs_tol=HAIR), told
        assert one.verdict != "passes" or one.ratio <= 1.0 + HAIR, told
        assert one.verdict != "fails" or not one.ratio < 1.0 - HAIR, told
