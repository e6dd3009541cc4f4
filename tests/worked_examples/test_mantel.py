"""The mantel on wooden brackets: it carries with its grain from foot to nose and heads in front, else it does not."""

from __future__ import annotations

import pytest

from .results import example


@pytest.mark.parametrize(
    ("name", "verdict", "finding"),
    [
        ("mantel_on_wooden_brackets", "passes", "carries"),
        ("mantel_with_the_grain_wrong", "fails", "decoration only"),
    ],
)
def test_mantel(name: str, verdict: str, finding: str) -> None:
    """Reference on brackets that carry, sections 1.5 and 7 (derived): the reach of the heads decides."""
    result = example(name)
    (piece,) = result.pieces
    assert (result.verdict, piece.finding) == (verdict, finding)
