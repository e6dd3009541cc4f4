"""What holds the part beyond the worst check: statics by the three sums, and nothing that pulls over the check."""

from __future__ import annotations

import math

import pytest

from beamcheck.analysis.splits.balance import balance
from beamcheck.analysis.splits.split import split

from .shapes import SHAPES, grains, held_shape

LINES = 20


@pytest.mark.parametrize("name", ["C2", "T2", "O1", "B2"])
@pytest.mark.parametrize("grain", ["upright", "strut"])
def test_the_part_beyond_the_check_stands_in_balance(name: str, grain: str) -> None:
    held = held_shape(name, "front")
    found = split(held, grains(name)[grain], LINES)
    state = balance(held, found, LINES)
    assert state.load == pytest.approx(found.least, rel=1e-6)
    for sums in zip(*((one.right, one.down, one.moment) for one in state.beyond), strict=True):
        assert sum(sums) == pytest.approx(0.0, abs=1e-4 * max(map(abs, sums)))
    if found.s is None:
        assert not state.check
        assert sum(one.down for one in state.beyond if one.what == "load") == pytest.approx(found.least, rel=1e-6)
        return
    theta = math.radians(found.grain)
    for one in state.beyond:
        if one.what == "line":  # pressed, and along the check no more than a lean of that
            across = one.right * math.sin(theta) + one.down * math.cos(theta)
            along = one.right * math.cos(theta) - one.down * math.sin(theta)
            assert across >= 0.0
            assert abs(along) <= held.lean * across + 1e-3
        if one.what == "heads":
            assert 0.0 <= -one.right <= held.rows[one.number].T * (1.0 + 1e-6)
            assert one.y == pytest.approx(held.rows[one.number].y, abs=held.rows[one.number].washer)


def test_a_check_opens_where_nothing_presses_it() -> None:
    """What is pressed lies on the check, and is less than all of it where the check takes load away."""
    held = held_shape("B2", "front")
    found = split(held, 90.0, LINES)
    state = balance(held, found, LINES)
    assert found.s is not None and found.least < found.none

    def long(stretches: tuple[tuple[tuple[float, float], tuple[float, float]], ...]) -> float:
        return sum(math.dist(*one) for one in stretches)

    assert 0.0 < long(state.pressed) < long(state.check) == pytest.approx(SHAPES["B2"][1])
    assert all(x == pytest.approx(found.s) for one in (*state.check, *state.pressed) for x, _ in one)
