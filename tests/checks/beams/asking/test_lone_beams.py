"""Whether a beam without a spacing may be one of a row: 3 in broad and a strip of 32 in (judgment_beams.csv)."""

from __future__ import annotations

from types import SimpleNamespace
from typing import Any

import pytest

from beamcheck.checks.beams.rows import may_be_one_of_a_row
from beamcheck.values.sizes import read_size


@pytest.mark.parametrize(
    ("size", "plies", "width", "row"),
    [
        ("2x10", 1, 96.0, True),  # 1 1/2 in: thin as a joist, whatever it carries
        ("2x10", 2, 96.0, False),  # two of them are 3 in
        ("4x10", 1, 96.0, False),  # 3 1/2 in
        ("4x10", 1, 32.0, True),  # a narrow strip
        ("4x10", 1, 32.5, False),
    ],
)
def test_breadth_of_all_plies_and_width_of_the_strip(size: str, plies: int, width: float, row: bool) -> None:
    beam: Any = SimpleNamespace(
        spacing=None, in_a_row=None, stock="stock", plies=plies, carries=[SimpleNamespace(width=width)]
    )
    context: Any = SimpleNamespace(size=lambda _: read_size(size))
    assert may_be_one_of_a_row(beam, context) is row
    for told in ({"spacing": 16.0}, {"in_a_row": False}):
        said: Any = SimpleNamespace(**{**vars(beam), **told})
        assert not may_be_one_of_a_row(said, context)
