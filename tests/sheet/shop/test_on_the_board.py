"""How a bracket is laid on its board, against places worked out by hand."""

from __future__ import annotations

import math

import pytest

from beamcheck.model.bracket_shapes import Solid
from beamcheck.sheet.shop.on_the_board import board_needed, board_words


def _solid(grain: str | None) -> Solid:
    told = {"family": "solid", "thickness": "3 1/2 in", "height": "14 in", "projection": "12 in", "foot": "3 in",
            "nose": "2 1/2 in", "soffit": "concave"}  # fmt: skip
    return Solid.model_validate(told if grain is None else {**told, "grain": grain})


def test_a_grain_at_45_degrees_needs_the_diagonal() -> None:
    """Farthest across are (0, 14) and (3, 0), 17/sqrt 2 = 12.02 in; along (0, 0) and (12, 14), 26/sqrt 2 (by hand)."""
    needed = board_needed(_solid("45 deg"))
    assert needed is not None
    assert needed == pytest.approx((17.0 / math.sqrt(2.0), 26.0 / math.sqrt(2.0)))


def test_upright_grain_needs_its_projection_across_and_its_height_along() -> None:
    assert board_needed(_solid("upright")) == pytest.approx((12.0, 14.0))


def test_a_board_that_is_too_narrow_is_said() -> None:
    assert "too narrow. Ask" in board_words(_solid("45 deg"), 11.25)
    assert "too narrow" not in board_words(_solid("45 deg"), 12.25)
    assert board_words(_solid(None), 11.25) == ""
